"""Strips and strip sets whose number is enough only of fabric of some usual widths."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from ...making import bill_of_materials
from ...making.bill import sets_needed
from ...yardage import STRAIGHTENED
from .check import some
from .widths import level_of, short_of

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence
    from fractions import Fraction

    from ...pattern.sheet import Sheet
    from .counted_line import CountedLine


def widths_that_decide(sheet: Sheet) -> tuple[tuple[Fraction, ...], tuple[Sheet, ...]]:
    """The usable widths that strip sets may have, and the sheet read with each; itself where all are printed, or none
    is."""
    cuts = [cut for one in sheet.strip_set.values() for cut in map(sheet.part, one.strips) if cut is not None]
    open_ = [cut.fabric for cut in cuts if cut.length is None and not sheet.printed_width(cut.fabric)]
    if not open_:
        return (sheet.usable_width(""),), (sheet,)
    sheets = sheet.at_each_width(open_[0])
    return tuple(one.usable_width(open_[0]) for one in sheets), sheets


def straightened(sheet: Sheet) -> Sheet:
    """The sheet with its fabrics so much narrower as strip sets lose where their ends are straightened; itself where it
    has none."""
    if not sheet.strip_set:
        return sheet
    fabrics = {
        name: fabric.model_copy(update={"usable_width": sheet.usable_width(name) - STRAIGHTENED})
        for name, fabric in sheet.fabric.items()
        if fabric.piece is None
    }
    return sheet.model_copy(update={"fabric": {**sheet.fabric, **fabrics}})


class ByWidth(NamedTuple):
    """Strips or strip sets that are enough of fabric of some usual widths: their path, name, how many are printed, in
    words and in figures, how many are enough of the narrowest, and the cases."""

    path: tuple
    name: str
    have: str
    printed: int
    enough: int
    cases: list


def sets_by_width(sheet: Sheet, usual: Sequence[Fraction], widths: Sequence[Sheet]) -> Iterator[ByWidth]:
    """The strip sets whose printed number is enough at some widths only."""
    for name, one in sheet.strip_set.items():
        if one.sets is not None:
            cases = [(width, short_of(sets_taken(each, name) - one.sets, "set")) for width, each in zip(usual, widths)]
            if level_of(cases) == "ask":
                have = some(one.sets, "strip set")
                path = ("strip_set", name, "sets")
                yield ByWidth(path, name, have, one.sets, sets_taken(sheet, name), cases)


def strips_by_width(line: CountedLine, usual: Sequence[Fraction], at_widths: Sequence[int]) -> ByWidth | None:
    """A line that is enough at some of these usual widths only, as `ByWidth`; None for any other. `at_widths` are the
    pieces needed at each."""
    if line.other_triangles or line.gives >= line.needed or line.for_printed_sets():
        return None
    cases = [(width, short_of(needed - line.gives, line.piece)) for width, needed in zip(usual, at_widths)]
    if level_of(cases) != "ask":
        return None
    return ByWidth(line.path, line.cut.part, some(line.gives, line.piece), line.cuts, line.enough, cases)


def sets_taken(sheet: Sheet, name: str) -> int:
    """How many strip sets of this name the quilt takes."""
    return sets_needed(sheet, name, bill_of_materials(sheet))
