"""A cutting plan on paper: the fabric strip by strip, each piece with its number, in columns that share a page."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from typing import TYPE_CHECKING

from ..draw import lay_out
from ..draw.cutting import Diagram, Strip, column_picture, high_in_all
from ..draw.typeset import Box, cut_short, wide

if TYPE_CHECKING:
    from ..draw.typeset import PaperPage
    from ..yardage import LaidPiece
    from .paper import Paper

COLUMNS = (2, 1)
GAP, NUMBER, HEIGHT = (
    14.0,
    20.0,
    62.0,
)  # px: between columns, for a strip's number left of it and its height right of it
SMALLEST = 9.0  # px: no side of a piece is drawn shorter, where the page allows
LEAST_LETTER, LARGEST_LETTER = 4.0, 12.0  # points
LARGEST = 16.0  # px to the inch of fabric
MARKED = 8.0  # points: numbers and heights of strips
VERY_MANY = 1_000  # pieces: of a larger plan those alike, side by side in a strip, have one number


def diagram_boxes(diagram: Diagram, say: Callable, paper: Paper) -> Iterator[Box]:
    """The diagram in boxes, each a row of columns; `say` writes a length of fabric."""
    columns, scale = _scale(diagram, paper)
    most = paper.depth * 0.8 / scale
    tallest = max(float(strip.height) for strip in diagram.strips)
    for row in _rows(diagram.strips, columns, max(most, tallest)):
        high = max(high_in_all(column) for column in row) * scale
        yield Box(high + 12, _drawn(diagram, row, columns, scale, say, paper))


def _scale(diagram: Diagram, paper: Paper) -> tuple[int, float]:
    """How many columns stand side by side, and how many px an inch of fabric is drawn: few pages that stay readable."""
    smallest = float(min(min(place.width, place.height) for place in diagram.places))
    tallest = float(max(strip.height for strip in diagram.strips))
    for columns in COLUMNS:
        room = (paper.room - GAP * (columns - 1)) / columns - NUMBER - HEIGHT
        scale = min(LARGEST, room / float(diagram.plan.usable_width), (paper.depth - 130) / tallest)
        if scale * smallest >= SMALLEST:
            return columns, scale
    return columns, scale


def _rows(strips: Sequence[Strip], columns: int, most: float) -> Iterator[list[list[Strip]]]:
    """The strips in rows of columns, at most so many inches high: full ones, and a last one of even columns."""
    left = list(strips)
    while left:
        full = _split(left, most)
        if len(full) <= columns:
            yield _even(left, columns)
            return
        yield full[:columns]
        left = left[sum(map(len, full[:columns])) :]


def _even(strips: Sequence[Strip], columns: int) -> list[list[Strip]]:
    """The strips in order in so many columns, the highest as low as can be."""
    heights = sorted({high_in_all(strips[first:last]) for last in range(1, len(strips) + 1) for first in range(last)})
    low, high = 0, len(heights) - 1
    while low < high:
        middle = (low + high) // 2
        tallest = max(float(strip.height) for strip in strips)
        fits = heights[middle] >= tallest and len(_split(strips, heights[middle])) <= columns
        low, high = (low, middle) if fits else (middle + 1, high)
    return _split(strips, heights[low])


def _split(strips: Sequence[Strip], most: float) -> list[list[Strip]]:
    """The strips in order in columns no higher than `most` inches."""
    found: list[list[Strip]] = []
    for strip in strips:
        if not found or high_in_all(found[-1]) + float(strip.height) > most + 1e-9:
            found.append([])
        found[-1].append(strip)
    return found


def _drawn(diagram: Diagram, row: list[list[Strip]], columns: int, scale: float, say: Callable, paper: Paper):
    across = (paper.room + GAP) / columns

    def draw(page: PaperPage, top: float) -> None:
        for number, strips in enumerate(row):
            _column(page, page.left + number * across + NUMBER, top, diagram, strips, scale, say)

    return draw


def _column(page: PaperPage, left: float, top: float, diagram: Diagram, strips, scale: float, say: Callable) -> None:
    """One column, its upper left corner there; numbers to the left of its strips, heights to their right."""
    laid = lay_out(column_picture(diagram, strips), width=1, scale=scale, key=False)
    (cell,) = laid.cells
    (zero_x, zero_y), bottom = cell.px([(0, 0)])[0], float(strips[-1].below + strips[-1].height)
    x, y = left - zero_x, top + high_in_all(strips) * scale - zero_y
    page.picture(x, y, laid)
    right = left + float(diagram.plan.usable_width) * scale
    for strip in strips:
        middle = top + (high_in_all(strips) - bottom + float(strip.below + strip.height / 2)) * scale
        page.text(left - 5, middle + 3, str(strip.number), MARKED, bold=True, align="right")
        page.text(right + 5, middle + 3, cut_short(say(strip.height), HEIGHT - 6, MARKED), MARKED)
        for place in _numbered(diagram, strip):
            _label(page, place, diagram.labels[place.piece.part], left, top, bottom - high_in_all(strips), scale)


def _numbered(diagram: Diagram, strip: Strip) -> Iterator[LaidPiece]:
    """The pieces of a strip that have their number in them."""
    before = None
    for place in strip.pieces:
        if place.piece != before or len(diagram.places) <= VERY_MANY:
            yield place
        before = place.piece


def _label(page: PaperPage, place: LaidPiece, label: str, left: float, top: float, first: float, scale: float):
    """The number of a piece in its middle, as large as the piece has room for."""
    room = min(float(place.height) * scale * 0.62, float(place.width) * scale * 0.8 / wide(label, 1.0, bold=True) / 1.4)
    points = max(LEAST_LETTER, min(LARGEST_LETTER, room))
    x = left + float(place.x + place.width / 2) * scale
    y = top + (float(place.y + place.height / 2) - first) * scale
    text = page.text(x, y + points * 0.48, label, points, align="center")
    text.set_bbox({"facecolor": "white", "edgecolor": "none", "pad": 0.4, "alpha": 1.0})
