"""Shapes cut at an angle from strips: their corners as they are cut, and how many of them one strip gives.

They are cut tip up and tip down by turns, so a strip gives more of them than rectangles of their length. Every shape
lies on its longest side; a diamond leans to the right, unless it slants to the left.
"""

from __future__ import annotations

from math import floor, sqrt
from typing import TYPE_CHECKING, Any, NamedTuple

from ..pattern.cut import HALF_TRIANGLE
from ..shapes import area, moved_out
from .room import unit_room

if TYPE_CHECKING:
    from collections.abc import Sequence

    from ..pattern.cut import Cut
    from ..pattern.sheet import Sheet
    from ..shapes import Corners

PROOFS = {
    "triangle": "triangle_in_square",
    "trapezoid": "trapezoid",
    "60-degree triangle": "equilateral",
    "half 60-degree triangle": "equilateral",
    "60-degree diamond": "diamond_60",
    "45-degree diamond": "diamond_45",
    "half hexagon": "half_hexagon",
}
"""{shape: the proof that says how large it is cut}."""

SLOPE = sqrt(3)  # how much a 60-degree edge rises for each inch along the strip
TINY = 1e-6  # inches: a piece that ends so far past the strip still fits


def corners(shape: str, size: tuple[float, float], seam: float, slant: str | None = None) -> Corners:
    """The raw corners, in inches, of a shape cut from a strip: of this (long side, height), or as high as the strip.

    >>> [(round(x, 3), y) for x, y in corners("60-degree triangle", (3.75, 3.75), 0.25)]
    [(0, 0), (4.33, 0), (2.165, 3.75)]
    """
    long, high = size
    if shape == "trapezoid":
        return [(0, 0), (long, 0), (long - high, high), (high, high)]
    if shape == "triangle":
        return [(0, 0), (long, 0), (long / 2, high)]
    if shape == "45-degree diamond":
        return _leaning(high * sqrt(2), high, high, slant)
    side = 2 * high / SLOPE
    if shape == "60-degree triangle":
        return [(0, 0), (side, 0), (side / 2, high)]
    if shape == "60-degree diamond":
        return _leaning(side, side / 2, high, slant)
    if shape == HALF_TRIANGLE:  # its tip is trimmed level with the row
        rise, level = high - 3 * seam, high - seam
        wide = moved_out([(0, 0), (rise / SLOPE, 0), (0, rise)], seam)[1][0] + seam
        top = wide - level / SLOPE
        if slant == "left":
            return [(0, 0), (wide, 0), (top, level), (0, level)]
        return [(0, 0), (wide, 0), (wide, level), (wide - top, level)]
    rise = high - 2 * seam
    side = 2 * rise / SLOPE
    raw = moved_out([(0, 0), (2 * side, 0), (1.5 * side, rise), (0.5 * side, rise)], seam)
    return [(x - raw[0][0], y - raw[0][1]) for x, y in raw]


def _leaning(side, reach, high, slant):
    """A diamond whose upper side reaches so much further, to the right unless it slants to the left."""
    low, up = (reach, 0) if slant == "left" else (0, reach)
    return [(low, 0), (low + side, 0), (up + side, high), (up, high)]


class Shown(NamedTuple):
    """A finished shape, in inches: its long side, its height, how wide it is halfway up, and how far each of its
    slanting sides leans out from there."""

    long: float
    height: float
    middle: float
    slant: float


def finished_corners(cut: Cut, size: Sequence[Any], seam: float) -> Corners:
    """The corners of what a shaped line shows that is cut in this (long side, height), or from a strip so high."""
    long, high = map(float, size)
    if cut.shape == HALF_TRIANGLE:  # sharp, though its tip is trimmed as it is cut
        rise = high - 3 * seam
        wide = rise / SLOPE
        return [(0, 0), (wide, 0), (0 if cut.slant == "left" else wide, rise)]
    return moved_out(corners(str(cut.shape), (long, high), seam, cut.slant), -seam)


def shown(cut: Cut, size: Sequence[Any], seam: float) -> Shown:
    """What a shaped line shows that is cut in this (long side, height), or from a strip of this height.

    >>> from quiltmath.pattern.cut import Cut
    >>> cut = Cut(part="T", fabric="navy", shape="60-degree triangle", strip_width="3 3/4", count=1)
    >>> [round(side, 3) for side in shown(cut, cut.size, 0.25)]
    [3.464, 3.0, 1.732, 0.866]
    """
    inside = finished_corners(cut, size, seam)
    long, high = inside[1][0] - inside[0][0], inside[2][1] - inside[0][1]
    middle = area(inside) / high
    reach = max(x for x, _ in inside) - min(x for x, _ in inside)
    return Shown(long, high, middle, (reach - middle) / 2)


def per_strip(sheet: Sheet, cut: Cut, length: float) -> int:
    """How many pieces of a shape come from one strip so long (inches), tips up and down by turns.

    >>> from quiltmath import pattern
    >>> from quiltmath.pattern.sheet import EXAMPLE
    >>> sheet = pattern.read_text(EXAMPLE.replace('size = "3 1/2"', 'shape = "60-degree triangle"\\nstrip_width = 4'))
    >>> per_strip(sheet, sheet.cut[0], 42)
    17
    """
    raw = raw_corners(sheet, cut)
    most = floor((length + TINY) * max(y for _, y in raw) / area(raw))
    return next((count for count in range(most, 0, -1) if laid(cut, raw, count) <= length + TINY), 0)


def laid(cut: Cut, raw: Corners, count: int) -> float:
    """How many inches of a strip so many pieces take, laid tip up and tip down by turns; two half triangles make a
    rectangle."""
    pitch, reach = area(raw) / max(y for _, y in raw), max(x for x, _ in raw) - min(x for x, _ in raw)
    if cut.shape == HALF_TRIANGLE:
        return count // 2 * 2 * pitch + count % 2 * reach
    return reach + (count - 1) * pitch


def raw_corners(sheet: Sheet, cut: Cut) -> Corners:
    """The corners of one piece of a shaped line as it is printed, in inches; a triangle that is too low for its tip is
    blunt."""
    (long, high), seam = map(float, sheet.cut_size(cut)), float(sheet.sewing_seam)
    for name, unit in sheet.unit.items():
        middle = unit.kind == "triangle in a square" and unit.parts[0] == cut.part
        size = unit_room(sheet, name) if middle and cut.shape == "triangle" else None
        if size is not None:
            slant = high * float(size[0] / size[1]) / 2  # how far each side leans over
            return [(0, 0), (long, 0), (long - min(slant, long / 2), high), (min(slant, long / 2), high)]
    if cut.shape == HALF_TRIANGLE:
        wide = corners(HALF_TRIANGLE, (long, high), seam, "left")[1][0]
        return [(0, 0), (wide, 0), (max(0.0, wide - high / SLOPE), high), (0, high)]
    return corners(str(cut.shape), (long, high), seam, cut.slant)


def piece_area(sheet: Sheet, cut: Cut) -> float:
    """The square inches of fabric in one piece of a shaped line."""
    return float(area(raw_corners(sheet, cut)))


def in_words(shape: str, count: int) -> str:
    """So many pieces of a shape.

    >>> in_words("half hexagon", 12), in_words("triangle", 1)
    ('12 half hexagons', '1 triangle')
    """
    return f"{count:,} {shape}{'s' * (count != 1)}"


def strips_for(sheet: Sheet, cut: Cut, count: int) -> list[tuple[float, int]]:
    """(Length in inches, how many) of the strips that so many pieces of a shape take: of those that are filled across
    the usable width, and of one that is begun.

    >>> from quiltmath import pattern
    >>> from quiltmath.pattern.sheet import EXAMPLE
    >>> sheet = pattern.read_text(EXAMPLE.replace('size = "3 1/2"', 'shape = "half hexagon"\\nstrip_width = 4'))
    >>> [(round(long, 3), many) for long, many in strips_for(sheet, sheet.cut[0], 16)]
    [(35.507, 3), (8.949, 1)]
    """
    each = per_strip(sheet, cut, float(sheet.usable_width(cut.fabric)))
    raw = raw_corners(sheet, cut)
    full, left = divmod(count, each) if each else (0, count)
    return [(laid(cut, raw, many), strips) for many, strips in ((each, full), (left, 1)) if many and strips]
