"""Which layouts come nearest to a wished size: every block size, style, sashing and border allowed is
tried."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from heapq import nsmallest
from itertools import product
from math import sqrt
from typing import TYPE_CHECKING

from .. import lengths
from ..blocks import Block
from . import arguments, beds, wishes

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence
    from typing import Any

    from ..lengths import Length
    from .plan import Plan

STYLES = ("on point", "straight")
MOST_WAYS = 20_000
SAME = 9  # decimal places of an inch: misses that agree this far are equal


@dataclass(frozen=True)
class NearLayout:
    """A layout near the wished size: what it is, its finished size as floats, how far off, and why it stands
    where it does.

    `miss` is the larger of the two differences in width and height, `off` the two themselves (positive: too
    large).
    """

    style: str
    across: int
    down: int
    block: Block | Fraction
    sashing: Fraction
    border: Fraction
    size: tuple
    off: tuple
    unit: str = "in"
    why: str = ""

    @property
    def miss(self) -> float:
        """How far off, in inches: the larger of the differences in width and height."""
        return max(map(abs, self.off))

    @property
    def blocks(self) -> int:
        """How many blocks it takes."""
        between = (self.across - 1) * (self.down - 1) if self.style == "on point" else 0
        return self.across * self.down + between

    def plan(self, **more: Any) -> Plan:
        """The plan itself; `more` is passed on, for example fabrics."""
        make = wishes.on_point if self.style == "on point" else wishes.straight
        one = lengths.INCHES[self.unit]  # a bare number is asked in the layout's own unit
        borders = [self.border / one] if self.border else []
        return make(
            self.across,
            self.down,
            self.block if isinstance(self.block, Block) else self.block / one,
            self.sashing / one,
            **{"borders": borders, "unit": self.unit, **more},
        )

    @property
    def layout(self) -> str:
        """The blocks and how they are set, in words."""
        block = arguments.shown(_side(self.block), self.unit)
        words = f"{self.across} x {self.down} blocks of {block} {self.style}"
        words += f", {arguments.shown(self.sashing, self.unit)} sashing" if self.sashing else ""
        return words + (f", {arguments.shown(self.border, self.unit)} border" if self.border else "")

    @property
    def told_size(self) -> str:
        """Its finished size, in words."""
        return arguments.told_size(self.size, self.unit)

    def __str__(self):
        return f"{self.layout}: {self.told_size}, {self.why}"


def fit(
    width: Length | None = None,
    height: Length | None = None,
    blocks: Iterable[Block | Length] = (),
    styles: Sequence[str] = STYLES,
    sashings: Iterable[Length] = (0,),
    borders: Iterable[Length] = (0,),
    *,
    bed: str | None = None,
    drop: Length = 0,
    at_least: bool = False,
    best: int = 10,
    unit: str = "in",
) -> list[NearLayout]:
    """The `best` layouts nearest to a wished finished size, or to the size a `bed` asks for with this `drop`.

    Tried are all given blocks (sizes or `Block`s), styles, finished sashings and borders (one, butted).
    Layouts are measured by the larger of their two misses in width and height, then by the sum of both, then
    by the number of blocks; `at_least` leaves out any that is too small.

    >>> for found in fit(width=60, height=80, blocks=sizes("6", "12"), best=2):
    ...     print(found)
    6 x 8 blocks of 10 in straight: 60 x 80 in, exactly the size
    6 x 8 blocks of 7 in on point: about 59 3/8 x 79 3/16 in, 13/16 in too small at the most
    """
    wish = _wish(width, height, bed, drop, unit)
    cells = [item if isinstance(item, Block) else lengths.parse(item, unit, name="block", above=0) for item in blocks]
    if not cells:
        raise ValueError('a fit needs the block sizes it may use; got none: write for example blocks=["6", "9", "12"]')
    strips = [arguments.length(item, "sashing", unit) for item in sashings]
    edges = [arguments.length(item, "border", unit) for item in borders]
    for style in styles:
        arguments.one_of(style, STYLES, "a style")
    ways = [way for way in product(styles, cells, strips, edges) if way[2] <= _side(way[1])]
    if len(ways) > MOST_WAYS:
        raise ValueError(f"a fit tries at most {MOST_WAYS:,} ways; these sizes make {len(ways):,}: allow fewer")
    if not isinstance(best, int) or not 1 <= best <= 100:
        raise ValueError(f"a fit lists from 1 to 100 layouts; got {str(best)[:40]}")
    found = (one for way in ways for one in _layouts(way, tuple(map(float, wish)), at_least, best, unit))
    ranked = nsmallest(best, found, key=_rank)
    return [_explained(one, ranked[number - 1] if number else None) for number, one in enumerate(ranked)]


def sizes(smallest: Length, largest: Length, step: Length = "1", unit: str = "in") -> list[Fraction]:
    """Block sizes from the smallest to the largest, as a list.

    >>> [lengths.text(size) for size in sizes("6", "7 1/2", "1/2")]
    ['6', '6 1/2', '7', '7 1/2']
    """
    low, high, by = (lengths.parse(value, unit, name="size", above=0) for value in (smallest, largest, step))
    count = (high - low) // by
    if not 0 <= count <= 1000:
        raise ValueError(f"sizes run from the smallest to the largest in at most 1000 steps; got {count + 1}")
    return [low + number * by for number in range(int(count) + 1)]


def _wish(width, height, bed, drop, unit):
    if bed is not None:
        return beds.bed(bed, drop, unit=unit)
    if width is None or height is None:
        raise ValueError(
            "a fit needs the width and height wished for, or a bed; write for example width=60, "
            "height=80, "
            'or bed="queen", drop=12'
        )
    return tuple(lengths.parse(side, unit, name=name, above=0) for side, name in ((width, "width"), (height, "height")))


def _side(block):
    return block.size if isinstance(block, Block) else block


def _layouts(way, wish, at_least, best, unit):
    """The layouts of one way that can be among the best: the nearest counts across, times the nearest
    down."""
    style, block, sashing, border = way
    step = float(_side(block) + sashing) * (sqrt(2) if style == "on point" else 1.0)
    more = 2 * float(border) - (float(sashing) if style == "straight" else 0.0)
    near = [_nearest(side, step, more, at_least, best) for side in wish]
    for across, down in product(*near):
        size = across * step + more, down * step + more
        yield NearLayout(
            style, across, down, block, sashing, border, size, (size[0] - wish[0], size[1] - wish[1]), unit
        )


def _nearest(side, step, more, at_least, best):
    """The `best` numbers of blocks whose length comes nearest to this side, nearest first."""
    middle = round((side - more) / step)
    counts = range(max(1, middle - best), max(1, middle + best) + best + 1)
    allowed = [count for count in counts if not at_least or round(count * step + more - side, SAME) >= 0]
    return nsmallest(best, allowed, key=lambda count: (round(abs(count * step + more - side), SAME), count))


def _rank(one):
    return (
        round(one.miss, SAME),
        round(abs(one.off[0]) + abs(one.off[1]), SAME),
        one.blocks,
        STYLES.index(one.style),
        one.sashing,
        one.border,
        one.across,
    )


def _explained(one, before):
    """The same layout with its reason in words."""
    largest = max(one.off, key=abs)
    if round(one.miss, SAME) == 0:
        why = "exactly the size"
    else:
        why = f"{arguments.about(abs(largest), one.unit)} too {'large' if largest > 0 else 'small'} at the most"
    if before is not None and _rank(one)[:2] == _rank(before)[:2]:
        why += f"; as near as the one before it, which takes {_fewer(one.blocks, before.blocks)}"
    return NearLayout(**{**{name: getattr(one, name) for name in one.__dataclass_fields__}, "why": why})


def _fewer(mine, theirs):
    return "as many blocks" if mine == theirs else f"{theirs} block{'s' * (theirs != 1)} to its {mine}"
