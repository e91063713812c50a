"""The page of the seam test: what to sew, a true-size picture to lay it on, and a place for three readings."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
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
    from .shaped import Points

STRIP, COUNT, LONG = Fraction(3, 2), 3, 6  # inches, strips, inches
READINGS = 3
READ_TO = Fraction(1, 32)  # inches
PATCHES = 28  # of a row, to show what an error comes to
SHOWN = 1.6  # inches of the strips that are drawn
HEAD, ROW = 34.0, 34.0  # px: the head of the table, and its rows
SHARES = (0.14, 0.15, 0.15, 0.32, 0.24)  # of the width, for its columns
EXAMPLE = ("3 3/8", "15/16")  # inches: total and centre


def seam_test_page(paper: Paper) -> PaperPage:
    """The page of the seam test."""
    page, right = paper.page("Worksheet: the seam test"), seamtest.expected(STRIP, COUNT)
    top = _written(page, paper, paper.top, _task(right))
    top = _drawing(page, paper, top + 16, right)
    top = _readings(page, paper, top + 22, right)
    _written(page, paper, top + 14, _meaning())
    check_squares(page, paper, *CAUTIONS[:2])
    return page


def _written(page: PaperPage, paper: Paper, top: float, words: Iterable[str]) -> float:
    """Paragraphs; gives where they end."""
    high, draw = stacked([paragraph(one, paper.room) for one in words], 6)
    draw(page, top)
    return top + high


def _task(right: seamtest.Expected) -> Iterator[str]:
    """What to sew, and where to measure it."""
    yield to_sew()
    yield f"Lay it on the drawing below: {to_measure(right)}"


def to_sew() -> str:
    """What to sew for the test."""
    return (
        f"Cut {COUNT} strips {_inches(STRIP)} by {LONG} in, sew them side by side along their length with your usual "
        "seam, and press. Change nothing at the machine until you have read the test."
    )


def to_measure(right: seamtest.Expected) -> str:
    """What it should show, and where and how finely to measure it."""
    return (
        f"the total is {_inches(right.total)}, and the centre strip shows {_inches(right.centre)} from seam to seam. "
        f"Then measure it in {READINGS} places, to {_inches(READ_TO)} if your ruler shows it."
    )


def _drawing(page: PaperPage, paper: Paper, top: float, right: seamtest.Expected) -> float:
    """The sewn strips at their true size, raw edges and seams; gives where it ends."""
    wide, seam = float(right.total), float(STRIP - right.centre) / 2
    seams = [float(STRIP) - seam + number * float(right.centre) for number in range(COUNT - 1)]
    lines: dict[str, list[Points]] = {
        "outline": [((0.0, 0.0), (wide, 0.0), (wide, SHOWN), (0.0, SHOWN), (0.0, 0.0))],
        "finished line": [((x, 0.0), (x, SHOWN)) for x in seams],
    }
    left, low = MARGIN + (paper.room - wide * PX) / 2, top + SHOWN * PX
    draw_lines(page, lines, left, low)
    middle, across = low - SHOWN * PX / 2 + 4, left + wide * PX / 2
    page.text(across, middle, f"centre {_inches(right.centre)}", BODY, align="center")
    page.text(across, low + 16, f"total {_inches(right.total)}", BODY, align="center")
    return low + 16


def _readings(page: PaperPage, paper: Paper, top: float, right: seamtest.Expected) -> float:
    """The table to fill in, its first line what a right test shows; gives where it ends."""
    should = (right.total, right.centre, (right.total - COUNT * right.centre) / 2, STRIP)
    rows = [["should be", *map(_inches, should)], *([str(number), *[""] * 4] for number in range(1, READINGS + 1))]
    heads = (
        "Reading",
        "total",
        "centre",
        f"one allowance:\n(total − {COUNT} × centre) ÷ 2",
        f"strip:\ntotal − {COUNT - 1} × centre",
    )
    left, high = MARGIN, HEAD + ROW * len(rows)
    for place, (head, share) in enumerate(zip(heads, SHARES)):
        for number, line in enumerate(head.split("\n")):
            page.text(left + 6, top + 13 + 13 * number, line, SMALL, bold=True)
        for number, row in enumerate(rows):
            page.text(left + 6, top + HEAD + ROW * (number + 0.64), row[place], BODY)
        page.box(left, top, share * paper.room, high, 1.0)
        left += share * paper.room
    for number in range(len(rows)):
        page.rule(MARGIN, top + HEAD + ROW * number, paper.room, 0.8)
    return top + high


def _meaning() -> Iterator[str]:
    """What the figures say, told on an example of the library."""
    test = seamtest.from_strips(STRIP, COUNT, total=EXAMPLE[0], centre=EXAMPLE[1], reading=READ_TO)
    is_wide, should = test.row(PATCHES)
    yield (
        f"For example: total {EXAMPLE[0]} in, centre {EXAMPLE[1]} in. {test.sentence} Sewn like that, a row of "
        f"{PATCHES} such patches comes out {_inches(is_wide)} wide where it should be {_inches(should)}."
    )
    yield (
        "Readings that differ by more than your ruler's step: the seam wanders; sew along a guide. All alike: move the "
        "needle or the guide by what is too much or too little, and sew the test again."
    )


def _inches(value: Fraction) -> str:
    return lengths.text(value, mark="in")
