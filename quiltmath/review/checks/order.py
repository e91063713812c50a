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
        made, of = reading.made, ruler(reading.made)
        told = [line.lower() for line in made.sheet.instructions]
        if not told:
            return
        bias_cut = first_line(told, r"\b(cut|slice)\b.*\b(45|diagonal|bias)")
        stay = first_line(told, STAY_STITCHED)
        slices = any(step.cut is not None for step in made.sheet.step) or any(
            piece is not None and piece.how == "cut blocks"
            for piece in (made.sheet.setting.sides, made.sheet.setting.corners)
        )
        if slices and bias_cut is not None and (stay is None or stay > bias_cut):
            yield self.finding(
                made,
                ["instructions"],
                f"Step {bias_cut + 1} of the instructions cuts a sewn piece on the bias before it is stay-stitched. "
                f"Stay-stitch {of.said(STAY)} inside the line first, then cut: that keeps the edge from stretching.",
                f"step {bias_cut + 1}",
                "stay-stitching before it",
                asks=f"Step {bias_cut + 1} of the instructions cuts on the bias: should the piece not be stay-stitched "
                "first?",
                fix=_stay_stitched_first(made.sheet, bias_cut, stay),
            )
        cut_border = first_line(told, r"\bcut\b.*\bborder", BY_WIDTH)
        measure = first_line(told, r"\bmeasur")
        if made.sheet.border and cut_border is not None and (measure is None or measure > cut_border):
            yield self.finding(
                made,
                ["instructions"],
                f"Step {cut_border + 1} of the instructions cuts the borders before the quilt top is measured. Measure "
                "it through its middle first, then cut the borders to that.",
                f"step {cut_border + 1}",
                "measuring before it",
                asks=f"Step {cut_border + 1} of the instructions cuts the borders: should the quilt top not be "
                "measured first?",
                why=ByNotebook("07-sashing-frames-borders"),
                fix=_cut_after_measuring(made.sheet, cut_border, measure),
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
