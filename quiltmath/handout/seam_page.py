"""The page of the seam test: what to sew, a true-size picture to lay it on, and a place for three readings."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING

from .. import lengths, seamtest
from ..draw.typeset import BODY, SMALL, paragraph, stacked
from ..review.report.contents import CAUTIONS
from .checked import check_squares
from .paper import MARGIN, PX
from .shaped import draw_lines

if TYPE_CHECKING:
    from ..draw.typeset import PaperPage
    from .paper import Paper

STRIP, COUNT, LONG = Fraction(3, 2), 3, 6  # inches, strips, inches
READINGS = 3
PATCHES = 28  # of a row, to show what an error comes to
SHOWN, ROW = 1.6, 34.0  # inches of the strips that are drawn; px
EXAMPLE = {"total": "3 3/8", "centre": "15/16"}


def _inches(value):
    return lengths.text(value, mark="in")


def seam_test_page(paper: Paper) -> PaperPage:
    """The page of the seam test."""
    page, right, top = paper.page("Worksheet: the seam test"), seamtest.expected(STRIP, COUNT), paper.top
    words = (
        f"Cut {COUNT} strips {_inches(STRIP)} by {LONG} in, sew them side by side along their length with your usual "
        "seam, and press. Change nothing at the machine until you have read the test.",
        f"Lay it on the drawing below: the total is {_inches(right.total)}, and the centre strip shows "
        f"{_inches(right.centre)} from seam to seam. Then measure it in three places, to 1/32 in if your ruler shows it.",
    )
    high, draw = stacked([paragraph(one, paper.room) for one in words], 6)
    draw(page, top)
    top = _drawing(page, paper, top + high + 16, right)
    top = _readings(page, paper, top + 22, right)
    high, draw = stacked([paragraph(one, paper.room) for one in _meaning()], 6)
    draw(page, top + 14)
    check_squares(page, paper, *CAUTIONS[:2])
    return page


def _drawing(page: PaperPage, paper: Paper, top: float, right: seamtest.Expected) -> float:
    """The sewn strips at their true size, raw edges and seams; gives where it ends."""
    wide, seam = float(right.total), float(STRIP - right.centre) / 2
    first = float(STRIP) - seam
    seams = [first + number * float(right.centre) for number in range(COUNT - 1)]
    lines = {
        "outline": [((0.0, 0.0), (wide, 0.0), (wide, SHOWN), (0.0, SHOWN), (0.0, 0.0))],
        "finished line": [((x, 0.0), (x, SHOWN)) for x in seams],
    }
    left, low = MARGIN + (paper.room - wide * PX) / 2, top + SHOWN * PX
    draw_lines(page, lines, left, low)
    middle = low - SHOWN * PX / 2 + 4
    page.text(left + (seams[0] + seams[-1]) / 2 * PX, middle, f"centre {_inches(right.centre)}", BODY, align="center")
    page.text(left + wide * PX / 2, low + 16, f"total {_inches(right.total)}", BODY, align="center")
    return low + 16


def _readings(page: PaperPage, paper: Paper, top: float, right: seamtest.Expected) -> float:
    """The table to fill in, its first line what a right test shows; gives where it ends."""
    heads = (
        "Reading",
        "total",
        "centre",
        f"one allowance:\n(total − {COUNT} × centre) ÷ 2",
        "strip:\ntotal − 2 × centre",
    )
    shares = (0.14, 0.15, 0.15, 0.32, 0.24)
    rows = [("should be", right.total, right.centre, (right.total - COUNT * right.centre) / 2, STRIP)]
    rows += [(str(number), *[""] * 4) for number in range(1, READINGS + 1)]
    left, high = MARGIN, 34.0 + ROW * len(rows)
    for place, (head, share) in enumerate(zip(heads, shares)):
        width = share * paper.room
        for number, line in enumerate(head.split("\n")):
            page.text(left + 6, top + 13 + 13 * number, line, SMALL, bold=True)
        for number, row in enumerate(rows):
            cell = row[place] if isinstance(row[place], str) else _inches(row[place])
            page.text(left + 6, top + 34 + ROW * (number + 0.64), cell, BODY)
        page.box(left, top, width, high, 1.0)
        left += width
    for number in range(len(rows)):
        page.rule(MARGIN, top + 34 + ROW * number, paper.room, 0.8)
    return top + high


def _meaning():
    """What the figures say, told on an example of the library."""
    test = seamtest.from_strips(STRIP, COUNT, **EXAMPLE)
    is_wide, should = test.row(PATCHES)
    yield (
        f"For example: total {EXAMPLE['total']} in, centre {EXAMPLE['centre']} in. {test.sentence} Sewn like that, a row "
        f"of {PATCHES} such patches comes out {_inches(is_wide)} wide where it should be {_inches(should)}."
    )
    yield (
        "Three readings that differ by more than your ruler's step: the seam wanders; sew along a guide. Three alike: "
        "move the needle or the guide by what is too much or too little, and sew the test again."
    )
