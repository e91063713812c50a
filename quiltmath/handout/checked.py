"""What shows that a page was printed at its true size: two squares to be measured."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..draw.typeset import SMALL
from .paper import FOOT, MARGIN, MM, PX

if TYPE_CHECKING:
    from ..draw.typeset import PaperPage
    from .paper import Paper

BAND = PX + 22.0  # px: the room they take at the foot of a page
SIDES = (("1 in", PX), ("2 cm", 20 * MM))
BESIDE = 26.0
LINE = 1.0
SAID = (
    "Print at full size: 100 %, not “fit to page”.",
    "Measure both squares before you cut: each side of the",
    "left one is 1 in, of the right one 2 cm.",
)


def check_squares(page: PaperPage, paper: Paper) -> None:
    """Draw both squares at the foot of a page, and what to do with them."""
    left, low = MARGIN, paper.height - MARGIN - FOOT - 8
    for words, side in SIDES:
        page.box(left, low - side, side, side, LINE)
        page.text(left + side / 2, low - side / 2 + 4, words, SMALL, align="center")
        left += side + BESIDE
    for number, line in enumerate(SAID):
        page.text(left, low - PX / 2 + 15 * (number - 1) + 4, line, SMALL)
