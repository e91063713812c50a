"""One template: the piece as it is cut, its seam line, its grain, and what is written on it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property
from math import hypot
from typing import TYPE_CHECKING, Any

import numpy as np

from ..draw import Lines, Picture, lay_out
from ..draw.typeset import SMALL, cut_short, line_step, wide
from ..shapes import direction, moved_out, turned
from .paper import PX

if TYPE_CHECKING:
    from ..draw.typeset import PaperPage
    from ..pattern.cut import Cut

CUT = {"once": "half of a {} {}", "twice": "a quarter of a {} {}"}
FONT_SIZES = (10.0, 8.0, 6.5)  # points, the largest that fits is taken
ARROW, ARROWHEAD = 0.8, 0.09  # of the way from the middle to the nearest seam; inches
FLAT = (0.0, -45.0, 90.0)  # degrees: the ways a template is turned on the paper

Points = tuple[tuple[float, float], ...]


@dataclass(frozen=True)
class Template:
    """A piece at its true size: corners of its cut line in inches, counter-clockwise; grain in degrees."""

    part: str
    fabric: str
    count: int
    size: str
    cut_line: Points
    grain: float
    seam: float

    @classmethod
    def of(cls, cut: Cut, patch: Any, count: int, size: str, seam: float, slant: str | None = None) -> Template:
        """The template of one line of a cutting list; `patch` is one piece of it as it is sewn, `slant` the way it
        slants where some slant each way."""
        corners = tuple((float(x), float(y)) for x, y in patch.polygon)
        words = CUT[cut.cut].format(cut.cut_from, size) if cut.diagonal else size
        if cut.shape is not None:
            words = f"{cut.shape} {size}" if cut.strip_width is None else f"{cut.shape} from a strip {size}"
        return cls(
            cut.part if slant is None else f"{cut.part}, slanting {slant}",
            cut.fabric,
            count,
            words,
            corners,
            float(patch.grain),
            seam,
        )

    @cached_property
    def seam_line(self) -> Points:
        """The corners of the finished piece, inches."""
        return tuple((float(x), float(y)) for x, y in moved_out(self.cut_line, -self.seam))

    @property
    def words(self) -> tuple[str, str]:
        """What it is and how many, in two lines."""
        return f"{self.part}: cut {self.count:,} from {self.fabric}", self.size

    @property
    def width(self) -> float:
        """How wide it lies on the paper, px."""
        return self._reach(0) * PX

    @property
    def height(self) -> float:
        """How high it lies on the paper, px."""
        return self._reach(1) * PX

    def _reach(self, axis: int) -> float:
        values = [corner[axis] for corner in self.cut_line]
        return max(values) - min(values)

    def turned(self, by: float) -> Template:
        """The same template turned by so many degrees, in the corner at (0, 0)."""
        points = turned(np.array(self.cut_line), by)
        points = points - points.min(axis=0)
        return replace(self, cut_line=tuple((float(x), float(y)) for x, y in points), grain=self.grain + by)

    def lying_flat(self) -> Template:
        """The same turned so that it lies as low as can be."""
        return min((self.turned(by) for by in FLAT), key=lambda one: round(one.height, 3))

    @cached_property
    def middle(self) -> tuple[float, float, float]:
        """The spot furthest inside its seam line: x, y and how far the nearest seam is, inches."""
        line = self.seam_line
        x, y = np.mean(line, axis=0)
        if len(line) == 3:  # where the lines that halve its angles meet
            sides = [hypot(*np.subtract(line[(i + 1) % 3], line[(i + 2) % 3])) for i in range(3)]
            x, y = np.average(line, axis=0, weights=sides)
        return float(x), float(y), min(_off(line[i - 1], line[i], (x, y)) for i in range(len(line)))

    def lines(self) -> dict[str, list[Points]]:
        """The lines of the template in inches, by role: cut line, seam line, grain arrow."""
        closed = [(*line, line[0]) for line in (self.cut_line, self.seam_line)]
        return {"outline": [closed[0]], "finished line": [closed[1]], "grain": self._arrow()}

    def _arrow(self) -> list[Points]:
        x, y, room = self.middle
        dx, dy = direction(self.grain)
        reach, head = ARROW * room, min(ARROWHEAD, ARROW * room / 3)
        found: list[Points] = [((x - reach * dx, y - reach * dy), (x + reach * dx, y + reach * dy))]
        for way in (1, -1):
            tip = x + way * reach * dx, y + way * reach * dy
            back = tip[0] - way * head * dx, tip[1] - way * head * dy
            sides = [(back[0] + side * head * dy / 2, back[1] - side * head * dx / 2) for side in (1, -1)]
            found.append((sides[0], tip, sides[1]))
        return found

    def draw(self, page: PaperPage, left: float, top: float) -> None:
        """Draw it with its upper left corner at (left, top), px."""
        draw_lines(page, self.lines(), left, top + self.height)
        self.write(page, left, top + self.height)

    def write(self, page: PaperPage, left: float, low: float) -> None:
        """Write name and number in its middle, as much of them as fits; (left, low) is its (0, 0) on the page."""
        x, y, room = self.middle
        for lines, points in self._writings():
            high = line_step(points) * len(lines)
            across = max(wide(line, points) for line in lines)
            if hypot(across, high) / 2 <= room * PX * 0.98:
                for number, line in enumerate(lines):
                    baseline = low - y * PX - high / 2 + line_step(points) * (number + 0.78)
                    text = page.text(left + x * PX, baseline, line, points, align="center")
                    text.set_bbox({"facecolor": "white", "edgecolor": "none", "pad": 2.2})
                return

    def _writings(self):
        name = cut_short(self.part, 200, SMALL)
        for points in FONT_SIZES:
            yield (name, f"cut {self.count:,}", cut_short(self.fabric, 200, SMALL)), points
        for points in FONT_SIZES:
            yield (f"{name}: {self.count:,}",), points


def draw_lines(page: PaperPage, lines: dict[str, list[Points]], left: float, low: float) -> None:
    """Draw lines in inches on a page, each in its role; (left, low) is their (0, 0), px."""
    layers = [Lines([np.asarray(path, float) for path in paths], role) for role, paths in lines.items() if paths]
    if layers:
        laid = lay_out(Picture(layers, "A template at its true size."), width=1, scale=PX, key=False)
        zero_x, zero_y = laid.cells[0].px([(0, 0)])[0]
        page.picture(left - zero_x, low - zero_y, laid)


def _off(start, end, point) -> float:
    """How far a point lies from the line through two others; from their spot where they are one, for a piece as wide as
    two seams shows nothing."""
    (x0, y0), (x1, y1), (x, y) = start, end, point
    long = hypot(x1 - x0, y1 - y0)
    return abs((x1 - x0) * (y - y0) - (y1 - y0) * (x - x0)) / long if long else hypot(x - x0, y - y0)
