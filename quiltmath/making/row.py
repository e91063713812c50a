"""The rows of a setting: their pieces in sewing order, what they are called, and how they are said."""

from __future__ import annotations

from fractions import Fraction
from itertools import groupby
from typing import NamedTuple


class SetBlock(NamedTuple):
    """A block that is drawn in its place: its name, and by how many degrees it is turned anticlockwise."""

    name: str
    turn: float = 0.0

    def __str__(self):
        return self.name if not self.turn else f"{self.name} turned {self.turn % 360:g}°"


class RowPiece(NamedTuple):
    """One piece of a row: what it is, where its left end lies, and its finished width (inches, exact)."""

    part: str | SetBlock
    x: Fraction
    width: Fraction


class Row(NamedTuple):
    """A row of an on-point top as it is sewn: its number from the upper left corner, "blocks" or "sashing", its pieces.

    `left` and `right` tell the end: "bottom" or "top" for a triangle whose right angle lies there, "" for none; `ends`
    names that triangle (a strip's own slanting end has no name). `sashing` names the sashing row sewn on before the
    triangles, "above", "below" or "". `tip` is the end ("left" or "right") where a side triangle is cut off level with
    the row and its tip ends the next sashing row instead.
    """

    number: int
    kind: str
    pieces: tuple
    left: str
    right: str
    y: Fraction
    height: Fraction
    ends: str = ""
    sashing: str = ""
    tip: str = ""

    @property
    def x(self) -> Fraction:
        """Where the row of squares and strips begins, its end triangles left aside."""
        return self.pieces[0].x

    @property
    def end(self) -> Fraction:
        """Where it ends."""
        return self.pieces[-1].x + self.pieces[-1].width

    @property
    def parts(self) -> list[str]:
        """What the row holds, in the order it is sewn: end triangles first and last."""
        middle = [piece.part for piece in self.pieces]
        if self.kind == "sashing" and self.tip:
            middle = ["triangle tip", *middle] if self.tip == "left" else [*middle, "triangle tip"]
        end = [self.ends] if self.ends else []
        return end * bool(self.left) + middle + end * bool(self.right)

    def __str__(self):
        return f"{self.title}: {self.words}"

    @property
    def words(self) -> str:
        """What it holds, in words, in the order it is sewn."""
        return _in_words(self.parts)

    @property
    def title(self) -> str:
        """What it is called: "Row 1", "Sashing row 1"."""
        return f"{'Row' if self.kind == 'blocks' else 'Sashing row'} {self.number}"


class LevelRow(NamedTuple):
    """A row of a straight top: its number from the top, "blocks" or "sashing", its parts from left to right.

    `upright`: it is a column, its number from the left and its parts from top to bottom.
    """

    number: int
    kind: str
    parts: tuple
    upright: bool = False

    def __str__(self):
        return f"{self.title}: {self.words}"

    @property
    def words(self) -> str:
        """What it holds, in words, in the order it is sewn."""
        return _in_words(self.parts)

    @property
    def title(self) -> str:
        """What it is called: "Row 1", "Sashing row 1", "Column 1"."""
        return f"{'Column' if self.upright else 'Row' if self.kind == 'blocks' else 'Sashing row'} {self.number}"


def _in_words(parts):
    return ", ".join(several(len(list(run)), part) for part, run in groupby(parts))


def several(count: int, part: str | SetBlock) -> str:
    """So many of a part in a row, in words.

    >>> several(1, "sash"), several(3, "sash"), several(2, "block"), several(2, SetBlock("star", 90.0))
    ('sash', '3 sashes', '2 blocks', '2 x star turned 90°')
    """
    if count == 1 or isinstance(part, SetBlock):
        return str(part) if count == 1 else f"{count} x {part}"
    return f"{count} {part}{'es' if part.endswith('sh') else 's'}"
