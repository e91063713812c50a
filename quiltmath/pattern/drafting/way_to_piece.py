"""A way to piece a block: its rows, how much it takes of what is at hand, and what of that is wrong."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from fractions import Fraction
from typing import NamedTuple

from .at_hand import Item

Row = tuple[str, ...]
MOST_ITEMS = 14  # of more nobody could see what belongs together
MOST_LOGS = 20
MOST_TRIED = 2_000
FAR = Fraction(1, 3)
"""Of a count: nobody misprints more of it."""
NEAR = Fraction(3, 4)
"""Inches by which one size may be wrong: a seam forgotten on both sides, or halves cut as quarters."""


class Piecing(NamedTuple):
    """One way to piece a block: its rows from the top (each round of its own where it has several), how many of each
    item it takes, its finished size, and how many printed figures it makes wrong."""

    rounds: tuple[tuple[Row, ...], ...]
    uses: tuple[tuple[str, int], ...]
    width: Fraction
    height: Fraction
    wrong: int = 0

    @property
    def rows(self) -> tuple[Row, ...]:
        """The rows of the whole block, or of its last round."""
        return self.rounds[-1]


def turned(name: str, turn: int) -> str:
    """An item of a row, turned by so many degrees."""
    return f"{name}:{turn % 360}" if turn % 360 else name


def used(rows: Iterable[Row], at_hand: list[Item], number: int) -> tuple[tuple[tuple[str, int], ...], int]:
    """(How many of each item rows take, how many of these counts are not what is at hand for so many blocks); a count
    that is far off counts as many."""
    left = {one.name: one for one in at_hand}
    uses = Counter(item.rpartition(":")[0] if ":" in item else item for row in rows for item in row)
    return tuple(sorted(uses.items())), sum(_off(left[name], number * many) for name, many in uses.items())


def _off(item, needed):
    return 0 if item.gives(needed) else 1 if abs(item.left - needed) <= needed * FAR else MOST_ITEMS


def most_of(item, wrong):
    """How many of an item may be needed where so many of the figures are `wrong`."""
    return item.left / (1 - wrong * FAR)
