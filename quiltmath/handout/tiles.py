"""A template on as many pages as it takes, which overlap and carry marks to be laid on one another."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from math import ceil
from string import ascii_uppercase
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from ..draw.typeset import SMALL, cut_short
from ..shapes import clipped, shortened
from .checked import BAND
from .paper import MARGIN, PX
from .shaped import FLAT, Points, Template, draw_lines

if TYPE_CHECKING:
    from ..draw.typeset import PaperPage
    from .paper import Paper

MOST_TILES = 36
OVERLAP = 0.75  # inches that neighbouring pages share
EDGE = 0.1  # inches kept free round a template
WORDS = 34.0  # px: two lines of words above the tile
CROSS = 0.12  # inches: half of a mark
MARKS_AT = (0.2, 0.8)  # of the tile's side
INSTRUCTION = "Lay the broken lines of neighbouring pages on one another, cross on cross, and glue."


class Tile(NamedTuple):
    """One page of a template: its column and row, counted from the upper left, and where its window begins, inches."""

    column: int
    row: int
    x: float
    y: float

    @property
    def name(self) -> str:
        """What it is called: a letter for its column, a number for its row."""
        return f"{ascii_uppercase[self.column % 26]}{self.row + 1}"


@dataclass(frozen=True)
class Tiling:
    """A template and the pages it comes on; `wide` x `high` is the window of each, inches."""

    template: Template
    wide: float
    high: float
    tiles: tuple[Tile, ...]

    def neighbours(self, tile: Tile) -> Iterator[tuple[Points, list[Points], str]]:
        """The broken line towards each neighbour, the crosses on it, and the neighbour's name; in inches."""
        there = {(one.column, one.row): one for one in self.tiles}
        for across, down in ((1, 0), (-1, 0), (0, 1), (0, -1)):
            other = there.get((tile.column + across, tile.row + down))
            if other is None:
                continue
            if across:
                x = max(tile.x, other.x) + OVERLAP / 2
                spots = [(x, tile.y + share * self.high) for share in MARKS_AT]
                line: Points = ((x, tile.y), (x, tile.y + self.high))
            else:
                y = max(tile.y, other.y) + OVERLAP / 2
                spots = [(tile.x + share * self.wide, y) for share in MARKS_AT]
                line = ((tile.x, y), (tile.x + self.wide, y))
            crosses: list[Points] = []
            for x, y in spots:
                crosses += [((x - CROSS, y), (x + CROSS, y)), ((x, y - CROSS), (x, y + CROSS))]
            yield line, crosses, other.name


def window(paper: Paper) -> tuple[float, float]:
    """The width and height of a page that a tile may fill, inches."""
    return paper.room / PX, (paper.depth - BAND - WORDS) / PX


def tiling(template: Template, paper: Paper) -> Tiling:
    """The pages a template comes on, turned so that they are few: one, where it fits.

    >>> from quiltmath.handout.paper import PAPERS
    >>> square = Template("A", "navy", 1, "9 in", ((0, 0), (9, 0), (9, 9), (0, 9)), 90, 0.25)
    >>> [tile.name for tile in tiling(square, PAPERS["Letter"]).tiles]
    ['A1', 'A2', 'B1', 'B2']
    """
    return min((_tiled(template.turned(by), paper) for by in FLAT), key=lambda lies: len(lies.tiles))


def _tiled(template: Template, paper: Paper) -> Tiling:
    wide, high = window(paper)
    columns, rows = _count(template.width / PX, wide), _count(template.height / PX, high)
    top = template.height / PX + EDGE
    found = [
        Tile(column, row, column * (wide - OVERLAP) - EDGE, top - high - row * (high - OVERLAP))
        for column in range(columns)
        for row in range(rows)
    ]
    meeting = [tile for tile in found if _meets(template, tile, wide, high)]
    return Tiling(template, wide, high, tuple(meeting))


def _count(size: float, room: float) -> int:
    return max(1, ceil((size + 2 * EDGE - OVERLAP) / (room - OVERLAP) - 1e-9))


def _meets(template, tile, wide, high):
    """Whether any of the template lies in the tile."""
    polygon = np.array([template.cut_line])
    for normal, limit in _bounds(tile, wide, high):
        polygon, which = clipped(polygon, normal, limit)
        if not len(which):
            return False
    return True


def _bounds(tile, wide, high):
    """The four sides of a tile's window, as half planes."""
    yield (1.0, 0.0), tile.x + wide
    yield (-1.0, 0.0), -tile.x
    yield (0.0, 1.0), tile.y + high
    yield (0.0, -1.0), -tile.y


def inside(path: Points, tile: Tile, wide: float, high: float) -> list[Points]:
    """What lies in a tile's window of a line through several points, as pieces of line.

    >>> inside(((0, 1), (20, 1)), Tile(0, 0, 2.0, 0.0), 7.0, 9.0)
    [((2.0, 1.0), (9.0, 1.0))]
    """
    segments = np.array([[start, end] for start, end in pairwise(path)], float)
    for normal, limit in _bounds(tile, wide, high):
        segments, _ = shortened(segments, normal, limit)
    return [tuple((float(x), float(y)) for x, y in segment) for segment in segments]


def draw_tile(page: PaperPage, paper: Paper, lies: Tiling, tile: Tile) -> None:
    """Draw one page of a template: its lines, the broken lines towards its neighbours, which tile it is."""
    top = paper.top + WORDS
    left, low = MARGIN - tile.x * PX, top + (lies.high + tile.y) * PX
    lines = {
        role: [piece for path in paths for piece in inside(path, tile, lies.wide, lies.high)]
        for role, paths in lies.template.lines().items()
    }
    names = []
    lines["guide"], lines["seam"] = [], []
    for line, crosses, name in lies.neighbours(tile):
        lines["guide"].append(line)
        lines["seam"] += crosses
        names.append((line, name))
    draw_lines(page, lines, left, low)
    for (start, end), name in names:
        x, y = (start[0] + end[0]) / 2, (start[1] + end[1]) / 2
        text = page.text(left + x * PX, low - y * PX + 4, f"to {name}", SMALL, align="center")
        text.set_bbox({"facecolor": "white", "edgecolor": "none", "pad": 1.0})
    for number, words in enumerate((", ".join(lies.template.words), INSTRUCTION)):
        page.text(MARGIN, paper.top + 6 + 14 * number, cut_short(words, paper.room, SMALL), SMALL)
    x, y, _ = lies.template.middle
    if tile.x < x - 0.5 < x + 0.5 < tile.x + lies.wide and tile.y < y - 0.5 < y + 0.5 < tile.y + lies.high:
        lies.template.write(page, left, low)
