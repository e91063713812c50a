"""One reading of one sheet: what is sewn, planned or worked out for it is so once, and everyone takes it from here."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from functools import cached_property
from typing import NamedTuple

from .. import making, pattern
from ..making import patches
from ..making.needs import without_room
from ..pattern.names import SETTING
from ..pattern.other_size import OtherSize
from . import taken
from .agreement import (
    Agreement,
    FoundSeam,
    Measures,
    Miscounted,
    agreements,
    culprits,
    found_seam,
    miscounted,
    other_seam,
)
from .agreement.culprit import Found
from .checks import CHECKS
from .checks.edges import WrongTriangles
from .checks.exchanged import as_typed
from .finding import Finding
from .needed import Needed, sizes_needed
from .other_sizes import in_size
from .ruler import Ruler


class Reading:
    """A sheet with its sewn cloth (`made`), and how its seam was found where it prints none (`found_seam`); the plan of
    each fabric, the size each part needs, the findings and the other sizes are worked out when first asked for, and
    kept.

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
        self.made = making.make(sheet)
        self.found_seam = found_seam(self.made) if sheet.seam is None else None
        if self.found_seam is not None and self.found_seam.seam != sheet.sewing_seam:
            sheet = sheet.taking(self.found_seam.seam)
            self.made = making.make(sheet)
        self.sheet = sheet
        self._in_pieces: dict[tuple, taken.PiecesTaken] = {}
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
        return sizes_needed(self)

    def plan(self, fabric: str, bought: Fraction | None = None, sheet: pattern.Sheet | None = None) -> taken.FabricPlan:
        """What all pieces of one fabric take; with `bought`, no more may be looked for than tells whether that will do.
        `sheet` is this one read with another usable width.

        Nothing is planned where an earlier plan of the same pieces answers.
        """
        sheet = sheet or self.sheet
        strips = taken.on_the_bias(self.made, sheet, fabric)
        if strips is not None:
            rest = None if bought is None else max(bought - strips.piece.height, Fraction(0))
            return self._planned(sheet, fabric, rest).with_bias(strips)
        plan = self._planned(sheet, fabric, bought)
        if taken.shared_at_will(sheet, fabric):
            plan = plan._replace(at_least=min(plan.at_least, taken.shared_at_least(self.made, sheet, fabric)))
        area = taken.area_with_shapes(self.made, sheet, fabric)
        return plan if area is None else plan._replace(at_least=min(plan.at_least, area / sheet.usable_width(fabric)))

    def in_pieces(self, fabric: str, sheet: pattern.Sheet | None = None) -> taken.PiecesTaken:
        """What all that is cut from a fabric bought in pieces of a size takes of them; `sheet` is this one read with
        another usable width."""
        sheet = sheet or self.sheet
        key = fabric, sheet.fabric_piece(fabric)
        if key not in self._in_pieces:
            self._in_pieces[key] = taken.planned_in_pieces(self.made, sheet, fabric)
        return self._in_pieces[key]

    def _planned(self, sheet, fabric, bought):
        """The plan of what is cut from a fabric on its straight grain."""
        pieces, width = taken.pieces_of(self.made, sheet, fabric), sheet.usable_width(fabric)
        known = self._kept.plans.get((pieces, width))
        if known is None or not known.answers(bought):
            plan = taken.planned(pieces, width, bought, thorough=len(self.sheet.cut) <= taken.MOST_TO_SEARCH)
            self._kept.plans[pieces, width] = plan if known is None else plan.beside(known)
        return self._kept.plans[pieces, width]

    @cached_property
    def measures(self) -> Measures:
        """What all that the sheet names finishes, as sums of its printed numbers."""
        return Measures(self.made)

    @cached_property
    def other_seam(self) -> FoundSeam | None:
        """The seam with which all printed sizes agree, where they do not with the printed one; None as a rule."""
        return other_seam(self.made)

    @cached_property
    def culprits(self) -> tuple[Found, ...]:
        """Which printed numbers do not agree with the others; the lines of triangles cut the wrong way left aside,
        those that the cutting list forgets, and units without room for their seams. None where the seam alone is
        wrong. What lies round a row with a part too few or too many is held to the whole row."""
        reading: Reading = self
        rows: dict[tuple, Miscounted] = {}
        while True:
            found = reading._culprits
            off = {one.path: one for one in found if isinstance(one, Miscounted) and one.mended is not None}
            if off.keys() <= rows.keys():
                self.measures.values.update(reading.measures.values)  # those of parts that were left out, too
                return (*rows.values(), *(one for one in found if one not in off.values()))
            rows |= off
            reading = reading.changed(
                *((path, [[*map(as_typed, row)] for row in one.mended or ()]) for path, one in off.items())
            )

    @property
    def agrees(self) -> bool:
        """Whether all printed numbers agree with the others, and with the seam."""
        return self.other_seam is None and not self.off

    @cached_property
    def off(self) -> tuple[Agreement, ...]:
        """All in which printed numbers must agree and do not."""
        return tuple(one for one in self._held if not one.holds())

    def disagrees_beside(self, other: Reading) -> bool:
        """Whether numbers disagree even where the lines are left out whose triangles are wrong in another reading: told
        without looking at any triangle, which must be sewn for it."""
        return any(not one.holds() for one in self._agreeing(other._wrong_lines))

    @cached_property
    def _held(self):
        """All in which the printed numbers must agree."""
        return self._agreeing(self._wrong_lines)

    @cached_property
    def _wrong_lines(self):
        """The places of the lines that are cut the wrong way."""
        wrong = {part for finding in WrongTriangles().look(self, ()) for part in finding.parts}
        return {self.measures.line(part) for part in wrong if self.sheet.part(part) is not None}

    def _agreeing(self, wrong_lines):
        """All in which the printed numbers must agree, but for those of these lines and of what is not printed."""
        lines = wrong_lines | {("cut", number) for number in range(len(self.sheet.cut), len(self.made.sheet.cut))}
        lines |= {("unit", name) for name in without_room(self.made)}
        return [one for one in self._agreements if not any(figure.path[:2] in lines for figure in one.off.shares)]

    @cached_property
    def _agreements(self):
        return agreements(self.measures, self.ruler)

    @cached_property
    def _culprits(self):
        """What `culprits` are on the sheet as it is, whatever its rows."""
        if self.other_seam is not None:
            return ()
        measures = self.measures
        told = [*self.sheet.block, *([SETTING] if self.sheet.setting.loose else [])]
        rows = [one for one in (miscounted(measures, name) for name in told) if one is not None]
        return tuple(culprits(self._held, measures.values, rows, 2 * self.made.seam, self.ruler.step))

    @cached_property
    def findings(self) -> tuple[Finding, ...]:
        """What every check finds on this sheet alone, causes before their consequences."""
        if self._typed_otherwise:
            return self._typed_otherwise + self._at_home(self._with(self._typed_otherwise).findings)
        causes: tuple[Finding, ...] = ()
        for check in CHECKS:
            if not check.as_meant:
                causes += check.look(self, causes)
        meant, known = self._meant(causes)
        found = causes
        for check in CHECKS:
            if check.as_meant:
                of_check = check.look(meant, tuple(one for one in found if one not in known))
                found += self._at_home(of_check)
        return found

    @cached_property
    def _typed_otherwise(self):
        """The findings on what the sheet itself tells otherwise than the pattern means it."""
        told = (check.look_for_causes(self) for check in CHECKS)
        return next((found for found in told if found), ())

    def _at_home(self, findings):
        """Findings on a changed sheet at their lines of this one."""
        return tuple(replace(one, where=self.sheet.place(one.path)) for one in findings)

    def _with(self, findings):
        """The reading of the sheet with what findings would change in it."""
        return self.changed(*{path: value for one in findings for path, value in one.meant or one.fix}.items())

    @cached_property
    def meant(self) -> Reading:
        """The reading of the sheet with the sizes known to be wrong corrected; this one where none is known."""
        if self._typed_otherwise:
            return self._with(self._typed_otherwise).meant
        return self._meant(self.findings)[0]

    def _meant(self, findings):
        """That reading, and the findings that are settled in it."""
        known = [one for one in findings if one.found_by.cut_otherwise and one.fix and not one.size]
        if not known:
            return self, ()
        try:
            return self._with(known), known
        except pattern.Unreadable:
            return self, ()

    @cached_property
    def other_sizes(self) -> tuple[tuple[OtherSize, Reading], ...]:
        """The other sizes of the pattern, each with its own reading."""
        sizes = self.sheet.other_size
        sheets = [self._of_size(number, in_size, self.sheet, size) for number, size in enumerate(sizes)]
        making.refuse_too_many(self.sheet, sum(map(patches, [self.sheet, *sheets])), "all its sizes together")
        readings = [self._of_size(number, self._read, sheet) for number, sheet in enumerate(sheets)]
        return tuple(zip(sizes, readings))

    def _of_size(self, number, do, *given):
        """What `do` makes of another size; what is wrong with the sheet of that size is said at its own table."""
        try:
            return do(*given)
        except pattern.Unreadable as problem:
            path, name = ["other_size", number], self.sheet.other_size[number].name
            raise type(problem).at(self.sheet, path, f"size {name!r}: {problem.said}") from None

    def changed(self, *changes: tuple) -> Reading:
        """The reading of the sheet with some values changed, as `pattern.changed` takes them."""
        return self._read(pattern.changed(self.sheet, *changes))

    def of(self, sheet: pattern.Sheet) -> Reading:
        """The reading of a sheet that was made from this one: the same one where it says the same."""
        return self._read(sheet)

    def _read(self, sheet):
        content = pattern.text(sheet)
        if content not in self._kept.readings:
            self._kept.readings[content] = Reading(sheet, self._kept)
        return self._kept.readings[content]


class _Kept(NamedTuple):
    """What readings of sheets made from one another share: each by all that its sheet says, each plan by its pieces and
    the width of the fabric."""

    readings: dict[str, Reading]
    plans: dict[tuple, taken.FabricPlan]
