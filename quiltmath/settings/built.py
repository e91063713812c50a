"""Edge triangles built from a block's own squares, so that its pattern runs on to the edge of the quilt.

Rows of squares end in triangles. Cut twice from a square these have their long side on the straight grain, and that
side is the edge of the quilt; cut once, the edge would be bias. Rows are written as a sheet has them: a side triangle
with its right angle at the lower left, a corner triangle from its tip down to its long edge.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from ..pattern.names import CORNER, EDGES, SIDE

if TYPE_CHECKING:
    from collections.abc import Mapping
    from typing import Any


class End(NamedTuple):
    """A triangle in the rows of a built triangle: its part, the square whose place it takes, and whether it is the tip
    of a corner triangle."""

    part: str
    square: str
    tip: bool = False


def edge_piece(names: list[list[str]], kind: str) -> dict[str, Any]:
    """What a sheet says of the side or corner triangles built from a block of n x n squares, by the names of their
    parts.

    >>> edge_piece([["A", "B"], ["B", "A"]], SIDE)
    {'how': 'built', 'rows': [['end A'], ['B', 'end A']], 'left': [['end B'], ['A', 'end B']], 'right': [['end B'], \
['A', 'end B']]}
    """
    make, first = (side_rows, 0) if kind == SIDE else (corner_rows, 1)
    rows = {where: make(turned(names, first + around)) for around, where in enumerate(EDGES)}
    own = {where: rows[where] for where in EDGES[1:] if rows[where] != rows["top"]}
    return {"how": "built", "rows": rows["top"], **own}


def ends(names: list[list[str]]) -> list[End]:
    """Every `End` that the built side and corner triangles of this block can have, each part once."""
    squares = dict.fromkeys(name for row in names for name in row)
    found = [End(f"end {square}", square) for square in squares]
    middle = [names[len(names) // 2][len(names) // 2]] if len(names) % 2 else []
    return found + [End(f"tip {square}", square, tip=True) for square in middle]


def turned(names: list[list[str]], quarters: int) -> list[list[str]]:
    """A block of squares turned clockwise by so many quarter turns.

    >>> turned([["A", "B"], ["C", "D"]], 1)
    [['C', 'A'], ['D', 'B']]
    """
    for _ in range(quarters % 4):
        names = [list(row) for row in zip(*names[::-1])]
    return names


def side_rows(names: list[list[str]]) -> list[list[str]]:
    """The rows of a built side triangle that shows the lower left half of a block of squares.

    >>> side_rows([["A", "B"], ["B", "A"]])
    [['end A'], ['B', 'end A']]
    """
    return [row[:number] + [f"end {row[number]}"] for number, row in enumerate(names)]


def corner_rows(names: list[list[str]]) -> list[list[Any]]:
    """The rows of a built corner triangle, from its tip to its long edge, that shows the left quarter of a block of
    squares.

    >>> corner_rows([["A", "B"], ["B", "A"]])
    [[{'name': 'end A', 'turn': 90}, 'end B']]
    """
    size = len(names)
    rows: list[list[Any]] = []
    for column in range((size - 1) // 2, -1, -1):
        cells = [names[row][column] for row in range(column, size - column)]
        if len(cells) == 1:
            rows.append([{"name": f"tip {cells[0]}", "turn": 225}])
        else:
            rows.append([{"name": f"end {cells[0]}", "turn": 90}, *cells[1:-1], f"end {cells[-1]}"])
    return rows


def parts_of(piece: Mapping[str, Any]) -> set[str]:
    """The names of all parts in what a sheet says of a built triangle."""
    words = [word for where in ("rows", *EDGES[1:]) for row in piece.get(where, ()) for word in row]
    return {word["name"] if isinstance(word, dict) else word for word in words}


KINDS = {"sides": SIDE, "corners": CORNER}
