"""The order in which a maker is told to work."""

import re

from ..finding import ByNotebook
from .bias import STAY, STAY_STITCHED
from .check import Check, ruler

BY_WIDTH = (
    r"\b(width|wof|selvage|selvedge|across|except|not|later|after)\b"  # strips to be cut to length later, or a warning
)
ALL_PIECES = r"\b(all|every\w*|pieces?|blocks?|squares?|rest|too|also)\b"  # a line that speaks of more than borders
STAY_STITCH = "Stay-stitch an eighth of an inch inside each line that will be cut on the bias."
MEASURE = "Measure the quilt top through its middle, both ways."
CUT_BORDERS = "Cut the borders to that."
LATER = "(The borders later, when the top is measured.)"


class OrderOfWork(Check):
    """Steps told in an order that spoils the work, where the pattern's instructions are in the sheet."""

    name, title = "order-of-work", "The work is told in the wrong order"
    level, why = "note", ByNotebook("05-bias-on-the-outside")
    repair = "stay-stitch before a bias cut; measure the top before cutting borders"
    question = "Is the order of the instructions meant ({printed})? We would put {needed}."

    def findings(self, reading, earlier):
        told = [line.lower() for line in reading.made.sheet.instructions]
        if told:
            yield from self._bias_cut(reading.made, told)
            yield from self._borders_cut(reading.made, told)

    def _bias_cut(self, made, told):
        """What is sewn is cut on the bias before it is stay-stitched."""
        cut, stay = first_line(told, r"\b(cut|slice)\b.*\b(45|diagonal|bias)"), first_line(told, STAY_STITCHED)
        if not _slices(made.sheet) or cut is None or (stay is not None and stay <= cut):
            return
        yield self.finding(
            made,
            ["instructions"],
            f"Step {cut + 1} of the instructions cuts a sewn piece on the bias before it is stay-stitched. "
            f"Stay-stitch {ruler(made).said(STAY)} inside the line first, then cut: that keeps the edge from "
            "stretching.",
            f"step {cut + 1}",
            "stay-stitching before it",
            asks=f"Step {cut + 1} of the instructions cuts on the bias: should the piece not be stay-stitched first?",
            fix=_stay_stitched_first(made.sheet, cut, stay),
        )

    def _borders_cut(self, made, told):
        """Borders are cut before the top is measured."""
        cut, measure = first_line(told, r"\bcut\b.*\bborder", BY_WIDTH), first_line(told, r"\bmeasur")
        if not made.sheet.border or cut is None or (measure is not None and measure <= cut):
            return
        yield self.finding(
            made,
            ["instructions"],
            f"Step {cut + 1} of the instructions cuts the borders before the quilt top is measured. Measure "
            "it through its middle first, then cut the borders to that.",
            f"step {cut + 1}",
            "measuring before it",
            asks=f"Step {cut + 1} of the instructions cuts the borders: should the quilt top not be measured first?",
            why=ByNotebook("07-sashing-frames-borders"),
            fix=_cut_after_measuring(made.sheet, cut, measure),
        )


def _slices(sheet):
    """Whether a sheet cuts what is sewn: in a step, or blocks for its edge."""
    edges = (sheet.setting.sides, sheet.setting.corners)
    return any(step.cut is not None for step in sheet.step) or any(
        piece is not None and piece.how == "cut blocks" for piece in edges
    )


def _stay_stitched_first(sheet, cut, stay):
    """The change to the sheet that puts stay-stitching before the bias cut: its own line, or else one more."""
    told = list(sheet.instructions)
    line = STAY_STITCH if stay is None else told.pop(stay)
    return ((("instructions",), [*told[:cut], line, *told[cut:]]),)


def _cut_after_measuring(sheet, cut, measure):
    """The change to the sheet that cuts the borders after the top is measured: the line that cuts them is moved, or
    where it cuts other things too it leaves them out; where nobody measures in time, that comes before they are sewn
    on."""
    told = list(sheet.instructions)
    line = told.pop(cut)
    sewn_on = first_line([one.lower() for one in told], r"\b(sew|add|attach|join)\w*\b.*\bborder")
    place = None if measure is None else measure - (measure > cut)  # where the line that measures stands now
    if place is None or sewn_on is not None and place > sewn_on:
        place = len(told) if sewn_on is None else sewn_on
        told.insert(place, MEASURE)
    whole = re.search(ALL_PIECES, line[:500].lower()) is None
    told.insert(place + 1, line if whole else CUT_BORDERS)
    return ((("instructions",), told if whole else [*told[:cut], f"{line} {LATER}", *told[cut:]]),)


def first_line(lines, pattern, unless=None):
    """The number of the first line in which one pattern is found and the other is not, or None."""
    return next(
        (
            number
            for number, line in enumerate(lines)
            if re.search(pattern, line[:500]) and not (unless and re.search(unless, line[:500]))
        ),
        None,
    )
