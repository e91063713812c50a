"""A cutting plan drawn: the fabric strip by strip, each piece with its number, in columns that share a page."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING, NamedTuple

from ..draw import Lines, Picture, Shapes, lay_out
from ..draw.typeset import Box, cut_short, wide

if TYPE_CHECKING:
    from fractions import Fraction

    from ..draw.picture import Layer
    from ..draw.typeset import PaperPage
    from ..yardage import CuttingPlan, LaidPiece
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


@dataclass(frozen=True, eq=False)
class Diagram:
    """A cutting plan to be drawn: the number of each part, and how its pieces are cut up ("whole", "once", "twice")."""

    plan: CuttingPlan
    labels: Mapping[str, str]
    ways: Mapping[str, str]

    @cached_property
    def places(self) -> list[LaidPiece]:
        """Where each piece lies, inches from the left selvage and from the first cut end."""
        return self.plan.places()

    @cached_property
    def strips(self) -> list[Strip]:
        """The strips in the order in which they are cut, each with its own pieces."""
        found: list[Strip] = []
        below, rest = self.plan.length * 0, iter(self.places)
        place = next(rest, None)
        for alike in self.plan.strips:
            for _ in range(alike.count):
                pieces = []
                while place is not None and place.y < below + alike.height:
                    pieces.append(place)
                    place = next(rest, None)
                found.append(Strip(len(found) + 1, below, alike.height, tuple(pieces)))
                below += alike.height
        return found


class Strip(NamedTuple):
    """One strip across the fabric: its number in the order of cutting, where it begins, its height (inches), pieces."""

    number: int
    below: Fraction
    height: Fraction
    pieces: tuple[LaidPiece, ...]


def diagram_boxes(diagram: Diagram, say: Callable, paper: Paper) -> Iterator[Box]:
    """The diagram in boxes, each a row of columns; `say` writes a length of fabric."""
    columns, scale = _scale(diagram, paper)
    most = paper.depth * 0.8 / scale
    tallest = max(float(strip.height) for strip in diagram.strips)
    for row in _rows(diagram.strips, columns, max(most, tallest)):
        high = max(_high(column) for column in row) * scale
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


def _high(strips: Sequence[Strip]) -> float:
    return float(sum(strip.height for strip in strips))


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
    heights = sorted({_high(strips[first:last]) for last in range(1, len(strips) + 1) for first in range(last)})
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
        if not found or _high(found[-1]) + float(strip.height) > most + 1e-9:
            found.append([])
        found[-1].append(strip)
    return found


def column_picture(diagram: Diagram, strips: Sequence[Strip]) -> Picture:
    """A run of strips as a Picture in inches, the first on top: left-over fabric, pieces, where they are cut up."""
    width, top = float(diagram.plan.usable_width), float(strips[-1].below + strips[-1].height)
    fabric = [(0, 0), (width, 0), (width, _high(strips)), (0, _high(strips))]
    pieces = [_corners(place, top) for strip in strips for place in strip.pieces]
    cuts = [line for strip in strips for place in strip.pieces for line in _diagonals(diagram, place, top)]
    across = [[(0, top - float(strip.below)), (width, top - float(strip.below))] for strip in strips[1:]]
    layers: list[Layer] = [
        Shapes([fabric], "left over"),
        Shapes(pieces, "white"),
        Lines([[*fabric, fabric[0]], *across], "outline"),
    ]
    if cuts:
        layers.append(Lines(cuts, "guide"))
    return Picture(layers, f"{len(strips)} strips of fabric with {len(pieces)} pieces.")


def _corners(place: LaidPiece, top: float) -> list[tuple[float, float]]:
    left, right = float(place.x), float(place.x + place.width)
    high, low = top - float(place.y), top - float(place.y + place.height)
    return [(left, low), (right, low), (right, high), (left, high)]


def _diagonals(diagram: Diagram, place: LaidPiece, top: float) -> list[list[tuple[float, float]]]:
    lower_left, lower_right, upper_right, upper_left = _corners(place, top)
    both = [[lower_left, upper_right], [upper_left, lower_right]]
    return both[: {"whole": 0, "once": 1, "twice": 2}[diagram.ways.get(place.piece.part, "whole")]]


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
    x, y = left - zero_x, top + _high(strips) * scale - zero_y
    page.picture(x, y, laid)
    right = left + float(diagram.plan.usable_width) * scale
    for strip in strips:
        middle = top + (_high(strips) - bottom + float(strip.below + strip.height / 2)) * scale
        page.text(left - 5, middle + 3, str(strip.number), MARKED, bold=True, align="right")
        page.text(right + 5, middle + 3, cut_short(say(strip.height), HEIGHT - 6, MARKED), MARKED)
        for place in strip.pieces:
            _label(page, place, diagram.labels[place.piece.part], left, top, bottom - _high(strips), scale)


def _label(page: PaperPage, place: LaidPiece, label: str, left: float, top: float, first: float, scale: float):
    """The number of a piece in its middle, as large as the piece has room for."""
    room = min(float(place.height) * scale * 0.62, float(place.width) * scale * 0.8 / wide(label, 1.0, bold=True) / 1.4)
    points = max(LEAST_LETTER, min(LARGEST_LETTER, room))
    x = left + float(place.x + place.width / 2) * scale
    y = top + (float(place.y + place.height / 2) - first) * scale
    text = page.text(x, y + points * 0.48, label, points, align="center")
    text.set_bbox({"facecolor": "white", "edgecolor": "none", "pad": 0.4, "alpha": 1.0})
