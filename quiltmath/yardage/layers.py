"""Backing and batting: how much larger than the quilt, in how many panels, from how much cloth, in which package."""

import csv
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cache
from math import ceil

from .. import lengths, resources
from . import arguments

OVER = Fraction(8)
"""Inches that backing and batting are larger than the quilt, both sides together, where nothing else is said.

8 in all: "Backing preparation", mmmquilts blog, and "Backing posts", cowtownquilts.com. Printed rules range from 4 to 12.
"""

BACKING_SEAM = Fraction(1, 2)
"""The seam of a backing where nothing else is said (common practice, no source)."""

MOST_PANELS = 20


@dataclass(frozen=True)
class Backing:
    """A backing: its size, how many panels make it, which way their seams run, how much cloth they take.

    `width` and `height` (of the backing), `panel` (length of each) and `length` (of cloth) are inches. `seams` is "none",
    "along" (they run down the quilt) or "across". `other` is the backing with seams the other way, or None.
    """

    width: Fraction
    height: Fraction
    usable_width: Fraction
    panels: int
    panel: Fraction
    seams: str
    other: "Backing | None" = None

    @property
    def length(self):
        """Inches of cloth along the selvage."""
        return self.panels * self.panel

    @property
    def yards(self):
        """The cloth as bought: yards, rounded up to the next eighth."""
        return arguments.yards(self.length)

    @property
    def at_least(self):
        """Inches of cloth that the backing covers by area alone: no piecing gets under it."""
        return self.width * self.height / self.usable_width

    @property
    def sentence(self):
        """The backing in one sentence."""
        if self.seams == "none":
            seams = "without a seam"
        else:
            seams = f"with {arguments.several(self.panels - 1, 'seam')} {self.seams} the quilt"
        return (
            f"{lengths.text(self.width)} × {lengths.text(self.height, mark='in')}: "
            f"{arguments.several(self.panels, 'panel')} of {lengths.text(self.panel, mark='in')}, {seams}; "
            f"{lengths.text(self.length, mark='in')} of cloth, buy {arguments.yards_text(self.length)}"
        )


def backing(width, height, over=OVER, usable_width=arguments.USABLE_WIDTH, *, seam=BACKING_SEAM, seams=None):
    """The backing of a quilt this wide and high: a `Backing`, the way that takes least cloth unless `seams` says which.

    It is `over` larger in all, half of that on each side. Panels are as wide as the cloth; `seam` is taken from both
    sides of each join. `seams` "along" or "across" chooses the way they run.

    >>> print(backing(40, 50, usable_width=42).sentence)
    48 × 58 in: 2 panels of 48 in, with 1 seam across the quilt; 96 in of cloth, buy 2 3/4 yd
    >>> backing(40, 50, usable_width=42).other.length
    Fraction(116, 1)
    >>> backing(40, 50, seams="up")
    Traceback (most recent call last):
    ValueError: seams is None or 'along' or 'across'; got 'up'
    """
    over = arguments.size(over, "over", least=0)
    wide = arguments.size(width, "the quilt's width") + over
    high = arguments.size(height, "the quilt's height") + over
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
            f"cloth is wider than the two seams of a panel, {lengths.text(2 * seam)} in; got "
            f"{lengths.text(across)} in: check the usable width"
        )
    panels = max(1, ceil((reach - 2 * seam) / (across - 2 * seam)))
    if panels > MOST_PANELS:
        raise arguments.DoesNotFit(
            f"a backing has at most {MOST_PANELS} panels; {lengths.text(reach)} in of cloth "
            f"{lengths.text(across)} in wide would take {panels:,}: check the sizes"
        )
    return panels


@dataclass(frozen=True)
class Package:
    """A size that batting is sold in, in inches, with where that is printed."""

    name: str
    width: Fraction
    height: Fraction
    source_title: str
    source_address: str

    def covers(self, width, height):
        """Whether it is as large, one way or the other."""
        return (width <= self.width and height <= self.height) or (height <= self.width and width <= self.height)


@cache
def packages():
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
    sizes: tuple

    @property
    def sentence(self):
        """The batting in one sentence."""
        size = f"{lengths.text(self.width)} × {lengths.text(self.height, mark='in')}"
        if self.package is None:
            return f"{size}: larger than any package; buy it from the roll, or join two"
        printed = " or ".join(
            f"{lengths.text(one.width)} × {lengths.text(one.height, mark='in')}" for one in self.sizes
        )
        return f"{size}: the package called {self.package} ({printed}) covers it"


def batting(width, height, over=OVER):
    """The batting of a quilt this wide and high, `over` larger in all: a `Batting`.

    >>> print(batting(60, 72).sentence)
    68 × 80 in: the package called twin (72 × 90 in) covers it
    >>> batting(120, 130).package is None
    True
    """
    over = arguments.size(over, "over", least=0)
    wide, high = arguments.size(width, "the quilt's width") + over, arguments.size(height, "the quilt's height") + over
    named = {}
    for one in packages():
        named.setdefault(one.name, []).append(one)
    for name, sizes in named.items():
        if all(one.covers(wide, high) for one in sizes):
            return Batting(wide, high, name, tuple(sizes))
    return Batting(wide, high, None, ())
