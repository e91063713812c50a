"""Backing and batting: how much larger than the quilt, in how many panels, from how much fabric, in which package."""

import csv
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cache

from .. import lengths, resources
from . import arguments
from .arguments import Length
from .constants import BACKING_SEAM, LEAST_OVER, MOST_PANELS, OVER, USABLE_WIDTH, USUAL_PANELS
from .joining import joined_length, whole_strips

Size = tuple[Fraction, Fraction]


@dataclass(frozen=True)
class Backing:
    """A backing: its size, how many panels make it, which way their seams run, how much fabric they take.

    `width` and `height` (of the backing), `panel` (length of each) and `length` (of fabric) are inches. `seams` is
    "none", "along" (they run down the quilt) or "across". `other` is the backing with seams the other way, or None.
    """

    width: Fraction
    height: Fraction
    usable_width: Fraction
    panels: int
    panel: Fraction
    seams: str
    other: "Backing | None" = None

    @property
    def length(self) -> Fraction:
        """Inches of fabric along the selvage."""
        return self.panels * self.panel

    @property
    def yards(self) -> Fraction:
        """The fabric as bought: yards, rounded up to the next eighth."""
        return arguments.yards(self.length)

    @property
    def at_least(self) -> Fraction:
        """Inches of fabric that the backing covers by area alone: no piecing gets under it."""
        return self.width * self.height / self.usable_width

    @property
    def sentence(self) -> str:
        """The backing in one sentence."""
        if self.seams == "none":
            seams = "without a seam"
        else:
            seams = f"with {arguments.several(self.panels - 1, 'seam')} {self.seams} the quilt"
        return (
            f"{lengths.text(self.width)} × {lengths.text(self.height, mark='in')}: "
            f"{arguments.several(self.panels, 'panel')} of {lengths.text(self.panel, mark='in')}, {seams}; "
            f"{lengths.text(self.length, mark='in')} of fabric, buy {arguments.yards_text(self.length)}"
        )


def backing(
    width: Length,
    height: Length,
    over: Length = OVER,
    usable_width: Length = USABLE_WIDTH,
    *,
    seam: Length = BACKING_SEAM,
    seams: str | None = None,
) -> Backing:
    """The backing of a quilt this wide and high: a `Backing`, the way that takes least fabric unless `seams` says
    which.

    It is `over` larger in all, half of that on each side. Panels are as wide as the fabric; `seam` is taken from both
    sides of each join. `seams` "along" or "across" chooses the way they run.

    >>> print(backing(40, 50, usable_width=42).sentence)
    48 × 58 in: 2 panels of 48 in, with 1 seam across the quilt; 96 in of fabric, buy 2 3/4 yd
    >>> backing(40, 50, usable_width=42).other.length
    Fraction(116, 1)
    >>> backing(40, 50, seams="up")
    Traceback (most recent call last):
    ValueError: seams is None or 'along' or 'across'; got 'up'
    """
    wide, high = least_size(width, height, over)
    across = arguments.usable(usable_width)
    seam = lengths.parse(seam, name="a seam", least=0)
    arguments.one_of(seams, (None, "along", "across"), "seams")
    along = _panelled(wide, high, across, seam, "along")
    cross = _panelled(wide, high, across, seam, "across")
    least, other = (along, cross) if along.length <= cross.length else (cross, along)
    if seams is not None:
        least, other = (along, cross) if seams == "along" else (cross, along)
    return replace(least, other=other)


def _panelled(wide, high, across, seam, seams):
    reach, panel = (wide, high) if seams == "along" else (high, wide)
    panels = _panels(reach, across, seam)
    return Backing(wide, high, across, panels, panel, seams if panels > 1 else "none")


def _panels(reach, across, seam):
    """How many panels side by side, each losing a seam on each joined side, reach so far."""
    if across <= 2 * seam:
        raise arguments.DoesNotFit(
            f"fabric is wider than the two seams of a panel, {lengths.text(2 * seam)} in; got "
            f"{lengths.text(across)} in: check the usable width"
        )
    panels = whole_strips(reach, across, 2 * seam)
    if panels > MOST_PANELS:
        raise arguments.DoesNotFit(
            f"a backing has at most {MOST_PANELS} panels; {lengths.text(reach)} in of fabric "
            f"{lengths.text(across)} in wide would take {panels:,}: check the sizes"
        )
    return panels


def backing_size(
    bought: Length, panels: int, usable_width: Length = USABLE_WIDTH, *, seam: Length = BACKING_SEAM
) -> Size:
    """The size of the backing that a bought length gives, cut into so many panels and these sewn side by side.

    (across the panels, along them), in inches: exact. `best_panels` says into how many it is best cut.

    >>> backing_size("4 yd", 2, 42)
    (Fraction(83, 1), Fraction(72, 1))
    >>> backing_size("4 yd", 0)
    Traceback (most recent call last):
    ValueError: the number of panels is a whole number from 1 to 100,000; got 0: write for example 24
    """
    length = arguments.size(bought, "the length bought")
    panels = arguments.whole(panels, "the number of panels")
    across = joined_length(panels, arguments.usable(usable_width), 2 * lengths.parse(seam, name="a seam", least=0))
    return across, length / panels


def best_panels(
    bought: Length,
    width: Length,
    height: Length,
    usable_width: Length = USABLE_WIDTH,
    *,
    seam: Length = BACKING_SEAM,
) -> int:
    """Into how many panels a bought length is best cut for a quilt this wide and high: most room round it, fewest
    panels.

    The quilt may lie either way on the backing. No more than `USUAL_PANELS` are tried.

    >>> best_panels("4 yd", 60, 72, 42), best_panels("4 yd", 36, 130, 42)
    (2, 1)
    >>> best_panels(0, 60, 72)
    Traceback (most recent call last):
    ValueError: the length bought must be more than 0 in; got 0 in; write for example 3 7/8, 3.875, 9.8 cm or 1 1/2 yd
    """
    quilt = least_size(width, height, 0)
    sizes = (backing_size(bought, panels, usable_width, seam=seam) for panels in range(1, USUAL_PANELS + 1))
    room = [room_round(size, quilt) for size in sizes]
    return 1 + room.index(max(room))


def room_round(size: tuple[Length, Length], quilt: tuple[Length, Length]) -> Fraction:
    """How far a backing or batting of one size (width, height) reaches past each edge of a quilt of another, inches,
    laid in its middle the better way round; less than 0 where it does not cover it.

    >>> room_round((64, 76), (60, 72)), room_round((76, 63), (60, 72)), room_round((60, 70), (60, 72))
    (Fraction(2, 1), Fraction(3, 2), Fraction(-1, 1))
    >>> room_round((64, -1), (60, 72))
    Traceback (most recent call last):
    ValueError: a side must be 0 or more in; got -1 in; write for example 3 7/8, 3.875, 9.8 cm or 1 1/2 yd
    """
    have, inside = ([arguments.size(side, "a side", least=0) for side in pair] for pair in (size, quilt))
    return max(min(side - least for side, least in zip(way, inside)) for way in (have, have[::-1])) / 2


def least_size(width: Length, height: Length, over: Length = LEAST_OVER) -> Size:
    """The size (width, height) in inches that backing or batting must have: the quilt's, and `over` more in all.

    >>> least_size(60, 72), least_size(60, 72, over=8)
    ((Fraction(64, 1), Fraction(76, 1)), (Fraction(68, 1), Fraction(80, 1)))
    >>> least_size(0, 72)
    Traceback (most recent call last):
    ValueError: the quilt's width must be more than 0 in; got 0 in; write for example 3 7/8, 3.875, 9.8 cm or 1 1/2 yd
    """
    over = arguments.size(over, "over", least=0)
    return arguments.size(width, "the quilt's width") + over, arguments.size(height, "the quilt's height") + over


def covers(size: tuple[Length, Length], needed: tuple[Length, Length], *, missing: Length = 0) -> bool:
    """Whether one size (width, height) is as large as another, one way or the other; so much `missing` is forgiven.

    >>> covers((80, 64), (64, 76)), covers((80, 64), (65, 76)), covers((80, 64), ("64 1/16", 76), missing="1/16")
    (True, False, True)
    >>> covers((80, -1), (64, 76))
    Traceback (most recent call last):
    ValueError: a side must be 0 or more in; got -1 in; write for example 3 7/8, 3.875, 9.8 cm or 1 1/2 yd
    """
    have, want = ([arguments.size(side, "a side", least=0) for side in pair] for pair in (size, needed))
    slack = arguments.size(missing, "what is missing", least=0)
    return any(all(side + slack >= least for side, least in zip(way, want)) for way in (have, have[::-1]))


@dataclass(frozen=True)
class Package:
    """A size that batting is sold in, in inches, with where that is printed."""

    name: str
    width: Fraction
    height: Fraction
    source_title: str
    source_address: str

    def covers(self, width: Length, height: Length) -> bool:
        """Whether it is as large, one way or the other."""
        return covers((self.width, self.height), (width, height))


@cache
def packages() -> tuple[Package, ...]:
    """The packaged sizes of batting that sources print, smallest first; where sources differ, each of their sizes.

    >>> [one.name for one in packages()]
    ['crib', 'twin', 'full', 'full', 'queen', 'king', 'king']
    """
    with open(resources.folder("data") / "batting" / "packages.csv", encoding="utf-8", newline="") as file:
        found = [
            Package(
                row["name"], Fraction(row["width"]), Fraction(row["height"]), row["source_title"], row["source_address"]
            )
            for row in csv.DictReader(file)
        ]
    return tuple(sorted(found, key=lambda one: one.width * one.height))


@dataclass(frozen=True)
class Batting:
    """A batting: the size it must have, in inches, and the smallest package that surely covers it (None: too large).

    `sizes` are all printed sizes of that package: sources differ, and the smallest of them is the one relied on.
    """

    width: Fraction
    height: Fraction
    package: str | None
    sizes: tuple[Package, ...]

    @property
    def sentence(self) -> str:
        """The batting in one sentence."""
        size = f"{lengths.text(self.width)} × {lengths.text(self.height, mark='in')}"
        if self.package is None:
            return f"{size}: larger than any package; buy it from the roll, or join two"
        printed = " or ".join(
            f"{lengths.text(one.width)} × {lengths.text(one.height, mark='in')}" for one in self.sizes
        )
        return f"{size}: the package called {self.package} ({printed}) covers it"


def batting(width: Length, height: Length, over: Length = OVER) -> Batting:
    """The batting of a quilt this wide and high, `over` larger in all: a `Batting`.

    >>> print(batting(60, 72).sentence)
    68 × 80 in: the package called twin (72 × 90 in) covers it
    >>> batting(120, 130).package is None
    True
    """
    wide, high = least_size(width, height, over)
    named: dict[str, list[Package]] = {}
    for one in packages():
        named.setdefault(one.name, []).append(one)
    for name, sizes in named.items():
        if all(one.covers(wide, high) for one in sizes):
            return Batting(wide, high, name, tuple(sizes))
    return Batting(wide, high, None, ())
