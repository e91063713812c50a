"""One reading of one sheet: what is sewn, planned or worked out for it is so once, and everyone takes it from here."""

from __future__ import annotations

from fractions import Fraction
from functools import cached_property
from typing import NamedTuple

from .. import making, pattern
from ..making import patches
from ..pattern.sheet import OtherSize
from . import cloth
from .checks import CHECKS
from .finding import Finding
from .needed import Needed, sizes_needed
from .other_sizes import in_size
from .ruler import Ruler


class Reading:
    """A sheet with its sewn cloth (`made`); the plan of each fabric, the size each part needs, the findings and the
    other sizes are worked out when first asked for, and kept.

    Readings made from one another by `changed` share what they keep: the same sheet is never sewn twice, nor the same
    pieces planned twice. Refused, as `making.make` does, where the sheet needs too many patches.

    >>> from quiltmath import pattern
    >>> from quiltmath.pattern.sheet import EXAMPLE
    >>> reading = Reading(pattern.read_text(EXAMPLE))
    >>> more = reading.changed((("setting", "across"), 3))
    >>> reading.made.finished, more.made.finished, more is reading.changed((("setting", "across"), 3))
    ((12.0, 12.0), (18.0, 12.0), True)
    """

    def __init__(self, sheet: pattern.Sheet, kept: _Kept | None = None) -> None:
        self.sheet = sheet
        self.made = making.make(sheet)
        self._kept = _Kept({pattern.text(sheet): self}, {}) if kept is None else kept

    @cached_property
    def ruler(self) -> Ruler:
        """How lengths are said in the sheet's units."""
        return Ruler.of(self.sheet)

    @cached_property
    def counts(self) -> dict[str, int]:
        """{name: how many of it the whole quilt takes}, of parts and of all that is made from them."""
        return self.made.bill

    @cached_property
    def needed(self) -> dict[str, Needed]:
        """{part: the exact raw size it needs}, of parts whose size follows from another figure."""
        return sizes_needed(self.made)

    def plan(self, fabric: str, bought: Fraction | None = None) -> cloth.FabricPlan:
        """What all pieces of one fabric take; with `bought`, no more may be looked for than tells whether that will do.

        Nothing is planned where an earlier plan of the same pieces answers.
        """
        pieces, width = cloth.pieces_of(self.sheet, fabric), self.sheet.usable_width(fabric)
        known = self._kept.plans.get((pieces, width))
        if known is None or not known.answers(bought):
            plan = cloth.planned(pieces, width, bought)
            self._kept.plans[pieces, width] = plan if known is None else plan.beside(known)
        return self._kept.plans[pieces, width]

    @cached_property
    def findings(self) -> tuple[Finding, ...]:
        """What every check finds on this sheet alone, causes before their consequences."""
        found: tuple[Finding, ...] = ()
        for check in CHECKS:
            found += check.look(self, found)
        return found

    @cached_property
    def other_sizes(self) -> tuple[tuple[OtherSize, Reading], ...]:
        """The other sizes of the pattern, each with its own reading."""
        sheets = [in_size(self.sheet, size) for size in self.sheet.other_size]
        making.refuse_too_many(self.sheet, sum(map(patches, [self.sheet, *sheets])), "all its sizes together")
        return tuple((size, self._read(sheet)) for size, sheet in zip(self.sheet.other_size, sheets))

    def changed(self, *changes: tuple) -> Reading:
        """The reading of the sheet with some values changed, as `pattern.changed` takes them."""
        return self._read(pattern.changed(self.sheet, *changes))

    def _read(self, sheet):
        content = pattern.text(sheet)
        if content not in self._kept.readings:
            self._kept.readings[content] = Reading(sheet, self._kept)
        return self._kept.readings[content]


class _Kept(NamedTuple):
    """What readings of sheets made from one another share: each by all that its sheet says, each plan by its pieces and
    the width of the fabric."""

    readings: dict[str, Reading]
    plans: dict[tuple, cloth.FabricPlan]
