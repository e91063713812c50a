"""What a setting leaves unsaid, where the pattern's other figures say it: where the edge runs, whether sashing lies
round the outside, what lies between."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..pattern.names import SETTING, centre, unused
from ..usual import PRINTED_ROUND
from . import measures
from .at_the_edge import edge_triangles
from .bill import pieces_needed
from .rounding import ROUNDING

if TYPE_CHECKING:
    from ..pattern.sheet import Sheet
    from .made import Made


def said(made: Made) -> Sheet:
    """The sheet of a `Made` with its edge, its outer sashing and its alternate block said, where they are not and its
    figures tell."""
    return _alternate_said(_around_said(_edge_said(made)))


def _setting_changed(sheet, **changes):
    return sheet.model_copy(update={"setting": sheet.setting.model_copy(update=changes)})


def _edge_said(made):
    """The sheet with whole cornerstones at the edge, where it does not say and its printed size and triangles are for
    those alone."""
    sheet, sashing = made.sheet, made.sheet.setting.sashing
    if sheet.setting.style == "straight" or sashing is None or sashing.cornerstone is None or sheet.finished is None:
        return sheet
    if "edge" in sashing.model_fields_set or sashing.edge_cornerstone is not None or centre(sheet) != SETTING:
        return sheet
    whole = with_edge(sheet, "whole")
    if comes_to_printed(sheet) or not comes_to_printed(whole):
        return sheet
    room = [
        float(min(sheet.cut_size(cut))) - found.square
        for found in edge_triangles(made.anew(whole))
        if found.square is not None and (cut := sheet.part(found.part)) is not None and cut.cut == found.way
    ]
    return whole if room and min(room) >= -ROUNDING else sheet


def _around_said(sheet):
    """The sheet with its sashing between the blocks alone, where it does not say whether that lies round the outside
    too, and its counts and the size of the quilt, if it is printed, are of the one and not of the other."""
    sashing = sheet.setting.sashing
    silent = sashing is not None and sheet.setting.style == "straight" and "around" not in sashing.model_fields_set
    if not silent or _counted_out(sheet):
        return sheet
    inside = _setting_changed(sheet, sashing=sashing.model_copy(update={"around": False}))
    return inside if _counted_out(inside) else sheet


def _counted_out(sheet):
    """Whether as many sashes and cornerstones are printed as the sheet takes, and the quilt comes to the size that it
    prints."""
    sashing, needed = sheet.setting.sashing, pieces_needed(sheet)
    cuts = [sheet.part(name) for name in (sashing.part, sashing.cornerstone) if name is not None]
    fits = sheet.finished is None or comes_to_printed(sheet)
    return fits and all(cut is not None and cut.gives == needed[cut.part] for cut in cuts)


def with_edge(sheet: Sheet, edge: str) -> Sheet:
    """A sashed sheet with the edge of its quilt through the middle of cornerstones ("half"), or outside them
    ("whole")."""
    sashing = sheet.setting.sashing
    return sheet if sashing is None else _setting_changed(sheet, sashing=sashing.model_copy(update={"edge": edge}))


def comes_to_printed(sheet: Sheet) -> bool:
    """Whether the quilt comes to its printed size, which may be rounded."""
    found = measures.rounds(sheet)
    if found is None or sheet.finished is None:
        return False
    return all(abs(float(a) - float(b)) <= PRINTED_ROUND for a, b in zip(sheet.finished, found[-1]))


def _alternate_said(sheet):
    """The sheet with an alternate block, where it names none and has one piece, as large as its block, that nothing
    uses: with that between, all others are cut in the number they take, and without it some are too few."""
    setting, spare = sheet.setting, unused(sheet)
    if setting.drawn or setting.alternate is not None or setting.block is None or len(spare) != 1:
        return sheet
    size, block = (measures.finished(sheet, name) for name in (spare[0], setting.block))
    if size is None or size != block or not _too_few(sheet, spare):
        return sheet
    between = _setting_changed(sheet, alternate=spare[0])
    return sheet if _too_few(between, spare) else between


def _too_few(sheet, besides):
    """Whether some piece is cut in too small a number, besides these."""
    needed = pieces_needed(sheet)
    counted = [cut for cut in sheet.cut if not cut.open and cut.strip is None and cut.part not in besides]
    return any(cut.gives < needed[cut.part] for cut in counted)
