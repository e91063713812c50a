"""What stands on the pages of a handout, as boxes as wide as its paper: headings, words, lists, tables, numbered steps
with their pictures."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING

from ..draw.typeset import (
    BODY,
    SMALL,
    Box,
    Piece,
    laid_out,
    line_step,
    paragraph,
    space,
    stacked,
    table_row,
    wide,
)

if TYPE_CHECKING:
    from ..draw.picture import Drawn
    from .paper import Paper

HEAD, SUB = 13.0, 11.0  # points
INDENT = 28.0


def heading(paper: Paper, text: str) -> Box:
    """The heading of a part of a page, with a line below it; it stays with what follows."""
    high, inner = paragraph(text, paper.room, points=HEAD, bold=True)

    def draw(page, top):
        inner(page, top + 8)
        page.rule(page.left, top + high + 10, paper.room, 1.5)

    return Box(high + 18, draw, stays=True)


def subheading(paper: Paper, text: str) -> Box:
    """A smaller heading; it stays with what follows."""
    high, inner = paragraph(text, paper.room, points=SUB, bold=True)
    return Box(high + 8, lambda page, top: inner(page, top + 6), stays=True)


def words(paper: Paper, text: str, points: float = BODY, stays: bool = False) -> list[Box]:
    """A paragraph; it may stay with what follows."""
    high, inner = paragraph(text, paper.room, points=points)
    return [Box(high + 5, inner, stays=stays)]


def listed(paper: Paper, items: Iterable[str], points: float = BODY, numbered: bool = False) -> list[Box]:
    """Sentences below each other, each behind its number or a dot."""
    found, items = [], list(items)
    indent = max(INDENT, 4 + wide(f"{len(items)}. ", points) + 6) if numbered else INDENT
    for number, item in enumerate(items, 1):
        high, inner = paragraph(item, paper.room - indent, indent, points)
        mark = f"{number}." if numbered else "•"

        def draw(page, top, inner=inner, mark=mark):
            page.text(page.left + 4, top + line_step(points) * 0.78, mark, points)
            inner(page, top)

        found.append(Box(high + 3, draw))
    return found


def in_columns(paper: Paper, items: Sequence[str], points: float = SMALL + 0.5) -> list[Box]:
    """Short lines in two columns, down the first, then down the second; in one where a line is too long for that."""
    half = paper.room / 2 - 12
    if any(wide(item, points) > half for item in items):
        return listed(paper, items, points)
    down = -(-len(items) // 2)
    boxes = []
    for row in range(down):
        pair = items[row::down]
        pieces = [paragraph(item, half, 8 + place * paper.room / 2, points) for place, item in enumerate(pair)]

        def draw(page, top, pieces=pieces):
            for _, one in pieces:
                one(page, top)

        boxes.append(Box(max(high for high, _ in pieces) + 1, draw))
    return [*boxes, space(4)]


def table(paper: Paper, heads: Sequence[str], rows: Iterable[Sequence[str]], columns: Sequence[float]) -> list[Box]:
    """A table, its heads again where it goes on; `columns` are the shares of the width."""
    head = table_row(heads, columns, paper.room, bold=True, thick=1.5)
    head.stays = True
    return [head, *(table_row(row, columns, paper.room, above=head) for row in rows), space(6)]


def drawing(paper: Paper, picture: Drawn, high: float, key: bool = True) -> Box:
    """A picture in the middle, as large as the width and `high` px allow."""
    laid = laid_out(picture, paper.room, high, key)
    return Box(laid.height + 4, lambda page, top: page.picture(page.left + (paper.room - laid.width) / 2, top, laid))


def step(paper: Paper, title: str, said: Iterable[str], picture: Drawn | None, share: float, high: float) -> Box:
    """A step of the work: its title, and what is said of it left of its picture, which takes a `share` of the width and
    at most `high` px."""
    beside = picture is not None and share < 1
    room = paper.room * (1 - share) - 12 if beside else paper.room
    pieces: list[Piece] = [paragraph(line, room, points=SMALL + 0.5) for line in said]
    text_high, text = stacked(pieces, 4.0)
    top_high, top_words = paragraph(title, paper.room, points=SUB, bold=True)
    laid = None if picture is None else laid_out(picture, paper.room * share, high, key=False)
    pictured = 0.0 if laid is None else laid.height
    below = max(text_high, pictured) if beside else text_high + pictured

    def draw(page, top):
        top_words(page, top + 4)
        text(page, top + 8 + top_high)
        if laid is not None:
            x = page.left + paper.room - laid.width if beside else page.left + (paper.room - laid.width) / 2
            page.picture(x, top + 6 + top_high + (0 if beside else text_high + 2), laid)

    return Box(top_high + below + 18, draw)
