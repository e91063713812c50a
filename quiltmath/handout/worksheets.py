"""A worksheet: the picture of a lesson, its guess and its puzzles on one page, the answers upside down at its foot."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, NamedTuple

from ..draw import Board, lay_out, roomiest
from ..draw.typeset import SMALL, laid_out, line_step, paragraph, stacked, wrapped
from .paper import MARGIN

if TYPE_CHECKING:
    from ..draw.page import Page
    from ..draw.picture import Drawn
    from ..draw.typeset import PaperPage, Piece
    from .paper import Paper

FOLD = "Fold the page back along this line, and guess first."
BOX = "☐"
SUB = 11.5  # points
WRITING = 30.0  # px: a line to write on
LEAST_SCALE = 0.5  # of the scale at which the picture fills the width
MARKED = 250.0  # px: the height of a picture to mark
FOLDED = 30.0  # px: the room of the line to fold along


class Asked(NamedTuple):
    """A question as it is printed: its words, the choices it gives (none: a line to write on), its answer; or the
    picture on which it is answered with a pencil."""

    words: str
    choices: tuple[str, ...]
    answer: str
    picture: Drawn | None = None


@dataclass(frozen=True, eq=False)
class Worksheet:
    """What stands on one worksheet: a title, what it is about, a guess, the picture that shows it, and puzzles.

    `shown` has pictures with their captions, the best first: the first one that leaves room for a puzzle is taken.
    """

    title: str
    about: str
    guess: Asked
    shown: tuple[tuple[Drawn, str], ...]
    puzzles: tuple[Asked, ...]


def worksheet_page(sheet: Worksheet, paper: Paper) -> PaperPage:
    """The page of a worksheet; the picture takes the room that the words leave, and puzzles that leave it too little
    are left out."""
    page, top = paper.page(f"Worksheet: {sheet.title}"), paper.top
    above, draw_above = stacked(
        [paragraph(sheet.about, paper.room), _question("First, a guess", sheet.guess, paper)], 8
    )
    for puzzles, (picture, caption) in _ways(sheet):
        answers = _answers(sheet.guess, puzzles, paper)
        below, draw_below = stacked([paragraph(caption, paper.room, points=SMALL), *_questions(puzzles, paper)], 8)
        left = paper.depth - above - below - line_step(SMALL) * len(answers) - FOLDED - 24
        laid = _laid(picture, paper.room, left)
        if laid is not None and laid.height <= left + 0.5:
            break
    else:
        laid = laid_out(picture, paper.room)
    draw_above(page, top)
    top += above + 14
    _fold(page, paper, top)
    top += FOLDED - 14
    page.picture(MARGIN + (paper.room - laid.width) / 2, top, laid)
    draw_below(page, top + laid.height + 6)
    _upside_down(page, paper, answers)
    return page


def _ways(sheet: Worksheet) -> Iterator[tuple[tuple[Asked, ...], tuple[Drawn, str]]]:
    """Puzzles and a picture to try on the page: as many puzzles as there are with any picture, then fewer."""
    for count in range(len(sheet.puzzles), -1, -1):
        for shown in sheet.shown:
            yield sheet.puzzles[:count], shown


def _laid(picture: Drawn, width: float, height: float) -> Page | None:
    """The picture in so much room, in as many columns as make it largest; None where it would be too small to see."""
    wanted = [roomiest(picture, width, height)] if isinstance(picture, Board) else []
    for drawn in (*wanted, picture):
        for key in (True, False):
            try:
                laid, roomy = lay_out(drawn, width, height, key=key), lay_out(drawn, width, key=key)
            except ValueError:
                continue
            if laid.cells[0].scale >= LEAST_SCALE * roomy.cells[0].scale:
                return laid
    return None


def _questions(puzzles: Sequence[Asked], paper: Paper) -> list[Piece]:
    return [_question(f"Puzzle {number}", one, paper) for number, one in enumerate(puzzles, 1)]


def _question(heading: str, asked: Asked, paper: Paper) -> Piece:
    """A question under its heading, with its choices, a picture to mark or a line to write on."""
    pieces = [paragraph(heading, paper.room, points=SUB, bold=True), paragraph(asked.words, paper.room)]
    pieces += [paragraph(f"{BOX}  {choice}", paper.room - 14, 14) for choice in asked.choices]
    if asked.picture is not None:
        laid = lay_out(asked.picture, paper.room, MARKED)
        return stacked([*pieces, (laid.height, lambda page, top: page.picture(MARGIN, top, laid))], 1)

    def rule(page: PaperPage, top: float) -> None:
        page.rule(MARGIN, top + WRITING - 6, paper.room * 0.6, 0.8)

    return stacked([*pieces, *([] if asked.choices else [(WRITING, rule)])], 1)


def _fold(page: PaperPage, paper: Paper, y: float) -> None:
    page.axes.plot([0, page.width], [y, y], color="black", linewidth=0.8, linestyle=(0, (6, 4)))
    text = page.text(page.width / 2, y + 3, FOLD, SMALL, align="center")
    text.set_bbox({"facecolor": "white", "edgecolor": "none", "pad": 1.5})


def _answers(guess: Asked, puzzles: Sequence[Asked], paper: Paper) -> list[str]:
    """The lines of the answers."""
    named = [f"Guess: {guess.answer}", *(f"Puzzle {number}: {one.answer}" for number, one in enumerate(puzzles, 1))]
    return [line for words in named for line in wrapped(words, paper.room, SMALL)]


def _upside_down(page: PaperPage, paper: Paper, lines: Sequence[str]) -> None:
    """Lines at the foot of a page, to be read with the page turned round."""
    low = paper.top + paper.depth - 6
    for number, line in enumerate(lines):
        page.text(page.width - MARGIN, low - 8 - number * line_step(SMALL), line, SMALL, turned=180)
    page.rule(MARGIN, low - len(lines) * line_step(SMALL) - 8, paper.room, 0.6)
