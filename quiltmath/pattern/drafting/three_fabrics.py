"""Quarter-square units of three fabrics, where their triangles would be used up exactly: twice as many of the one that
lies on both sides."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import combinations, permutations
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from .unit_kinds import Cut

TRIANGLES = 4
"""So many does a square give that is cut twice on the diagonal."""


Unit = tuple[str, "tuple[Cut, ...]", None, int]
"""A kind of unit, its parts, that these are triangles, and how many there are."""


def with_threes(cut: Sequence[Cut], pairs: Iterable[Unit]) -> list[Unit]:
    """The units of three fabrics, and those `pairs` of which not both are in them."""
    threes = [*_of_three(cut)]
    taken = {one.entry.name for _, parts, *_ in threes for one in parts}
    return [*threes, *(pair for pair in pairs if not {one.entry.name for one in pair[1]} <= taken)]


def _of_three(cut: Sequence[Cut]) -> Iterator[Unit]:
    """The quarter-squares, as `unit_kinds` knows them, of squares of one size in three fabrics, cut twice on the
    diagonal, of which one gives twice as many triangles as each of the others: (above, beside, below, beside)."""
    squares = [one for one in cut if one.width == one.height and one.entry.data.get("cut") == "twice"]
    for three in combinations(squares, 3):
        if len({one.width for one in three}) > 1 or len({one.fabric for one in three}) < len(three):
            continue
        for beside, above, below in permutations(three):
            if beside.many == 2 * above.many == 2 * below.many and squares.index(above) < squares.index(below):
                yield "quarter-square", (above, beside, below, beside), None, TRIANGLES * above.many
