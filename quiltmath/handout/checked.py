"""What shows that a page was printed at its true size: two squares to be measured."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..draw.typeset import SMALL, paragraph, stacked
from .paper import FOOT, MARGIN, MM, PX

if TYPE_CHECKING:
    from ..draw.typeset import PaperPage
    from .paper import Paper

BAND = PX + 22.0  # px: the room they take at the foot of a page
SIDES = (("1 in", PX), ("2 cm", 20 * MM))
BESIDE = 26.0
LINE = 1.0
SAID = "Print at full size, 100 %, not “fit to page”. Measure both squares before you cut: 1 in and 2 cm a side."


def check_squares(page: PaperPage, paper: Paper, *more: str) -> None:
    """Draw both squares at the foot of a page, and beside them what to do with them and what `more` there is to say."""
    left, low = MARGIN, paper.height - MARGIN - FOOT - 8
    for words, side in SIDES:
        page.box(left, low - side, side, side, LINE)
        page.text(left + side / 2, low - side / 2 + 4, words, SMALL, align="center")
        left += side + BESIDE
    room = paper.width - MARGIN - left
    _, draw = stacked([paragraph(words, room, left - MARGIN, SMALL) for words in (SAID, *more)])
    draw(page, low - PX)
