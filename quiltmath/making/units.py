"""Traditional units sewn from their parts. Triangles come lying with their right angle at the lower left."""

from __future__ import annotations

from math import atan2, degrees, sqrt
from typing import TYPE_CHECKING

import numpy as np

from ..pattern.parts import CORNERS
from ..sewing import CannotSew, in_a_row, patch
from ..shapes import NEAR
from .rounding import needed_square, sewn_size

if TYPE_CHECKING:
    from collections.abc import Sequence

    from ..pattern.parts import UnitTable
    from ..sewing import Panel


EDGES_OF_CORNERS = {
    "bottom": ("lower left", "lower right"),
    "top": ("upper left", "upper right"),
    "left": ("lower left", "upper left"),
    "right": ("lower right", "upper right"),
}


def triangle(panel: Panel, leg: float, grain: float) -> Panel:
    """A raw triangle with this leg, cut from the same cloth as the panel, its right angle at the lower left."""
    cut = panel.cuts[0]
    return patch(corners=[(0, 0), (leg, 0), (0, leg)], grain=grain, fabric=cut.fabric, part=cut.part)


def half_of(panel: Panel, leg: float, side: float) -> Panel:
    """The lower left half of a square that is cut on the diagonal: of one piece with this leg, of a pieced one so much
    of it as this side gives."""
    if len(panel.patches) == 1:
        return triangle(panel, leg, 90)
    return panel.cut((side, 0), (0, side))[0].laid_down()


def half_square(one: Panel, other: Panel, seam: float) -> Panel:
    """Two triangles sewn along their long edges; the first lies at the lower left."""
    return one.sew(other.turn(180), "upper right", "lower left", seam, "centre")


def half_squares_at_once(one: Panel, other: Panel, at_a_time: int, seam: float, unit: str = "in") -> Panel:
    """One of the units that come from a pair of whole squares: two, four (sewn all round, bias outside) or eight."""
    side = min(one.size[0], other.size[0])
    if len(one.patches) + len(other.patches) > 2:
        return _half_square_of_pieced(one, other, at_a_time, seam, unit)
    if at_a_time == 4:
        leg = needed_square("once", (side - 2 * seam) / sqrt(2) - 2 * seam, seam)
        return half_square(triangle(one, leg, 45), triangle(other, leg, 45), seam)
    leg = sewn_size("once", side if at_a_time == 2 else side / 2, seam, unit)
    return half_square(triangle(one, leg, 90), triangle(other, leg, 90), seam)


def _half_square_of_pieced(one, other, at_a_time, seam, unit):
    """One of the two units that come of squares of which one is pieced, or both: the lower left half of the one, the
    upper right half of the other."""
    if at_a_time != 2:
        raise CannotSew(f"of pieced squares half-squares are made two at a time; got {at_a_time}: write at_a_time = 2")
    side = min(*one.size, *other.size)
    leg = sewn_size("once", side, seam, unit)
    return half_square(half_of(one, leg, side), half_of(other.turn(180), leg, side), seam)


def half_rectangle(left: Panel, right: Panel, slant: str | None, seam: float) -> Panel:
    """Two long triangles sewn along their long edges to a rectangle that stands upright, its seam slanting this way."""
    for panel in (left, right):
        if panel.corners.shape[:2] != (1, 3):
            raise CannotSew(
                f"a half-rectangle unit is sewn from two triangles, and {panel.cuts[0].part!r} is none: write the "
                'rectangle that it is cut from, cut = "once"'
            )
    unit = left.sew(right.turn(180), "long", "long", seam, "centre")
    if seam and np.abs(np.subtract(left.size, right.size)).max() <= NEAR:  # the tips reach far past the unit's edges
        one, other = _pieces(unit, 2)
        (low, below), (high, above) = one.min(axis=0), other.max(axis=0)
        unit = unit.trim(left=low, bottom=below, right=high, top=above, seam=seam)
    return unit.laid_down() if slant == "left" else unit.turn(270)


def triangle_in_a_square(middle: Panel, left: Panel, right: Panel, seam: float) -> Panel:
    """A triangle pointing up between two long ones; `left` slants to the right, and `right` to the left."""
    for panel, slant in ((left, "left"), (right, "right")):
        if panel.corners.shape[:2] != (1, 3):
            raise CannotSew(
                f"the {slant} side of a triangle in a square is a long triangle, and {panel.cuts[0].part!r} is none: "
                'write the rectangle that it is cut from, cut = "once"'
            )
    if middle.corners.shape[:2] != (1, 3):
        raise CannotSew(
            f"a triangle in a square needs a triangle in its middle, and {middle.cuts[0].part!r} is none: write "
            'shape = "triangle" and the size of its base and height'
        )
    (start, end, tip), half = middle.patches[0].polygon, 180
    faces = [degrees(atan2(a[0] - b[0], b[1] - a[1])) % (2 * half) for a, b in ((tip, start), (end, tip))]
    trims = seam and np.abs(np.subtract(sorted(left.size), sorted(right.size))).max() <= NEAR
    unit = middle.sew(left, faces[0], "long", seam, "centre")
    if trims:
        base, one = _pieces(unit, 2)
        unit = unit.trim(left=one[:, 0].min(), bottom=base[:, 1].min(), top=one[:, 1].max(), seam=seam)
    unit = unit.sew(right, faces[1], "long", seam, "centre")
    if trims:
        base, _, other = _pieces(unit, 3)
        unit = unit.trim(bottom=base[:, 1].min(), right=other[:, 0].max(), top=other[:, 1].max(), seam=seam)
    return unit.laid_down()


def _pieces(unit, count):
    """The polygons of so many pieces that a unit is sewn from; refused where seams leave nothing of one."""
    if len(unit.patches) < count:
        raise CannotSew("a piece of this unit is lost in its seams: check its cut size, and how wide the seams are")
    return [patch.polygon for patch in unit.patches]


def quarter_square(above: Panel, right: Panel, below: Panel, left: Panel, seam: float) -> Panel:
    """Four triangles cut twice, from the top clockwise."""
    lower = left.turn(90).sew(below, "right", "left", seam, "centre")
    upper = right.turn(90).sew(above, "right", "left", seam, "centre")
    return lower.sew(upper.turn(180), "bottom", "top", seam, "centre").turn(45)


def split_quarter_square(half: Panel, above: Panel, right: Panel, seam: float) -> Panel:
    """A triangle cut once at the lower left, beside it two cut twice."""
    return half_square(half, above.turn(225).sew(right.turn(135), "upper left", "lower right", seam, "centre"), seam)


def flying_geese(goose: Panel, sky: Panel, seam: float) -> Panel:
    """A goose pointing up between two pieces of sky."""
    unit = goose.turn(225).sew(sky.turn(270), "upper left", "lower right", seam, "centre")
    return unit.sew(sky.turn(180), "upper right", "lower left", seam, "centre")


def square_in_a_square(centre: Panel, corner: Panel, seam: float) -> Panel:
    """A centre square on point with a corner triangle on each side: two at first, whose tips are trimmed level with the
    centre before the others are sewn on."""
    high = centre.size[1]
    for faces in ("left", "right"):
        centre = centre.sew(corner, faces, "upper right", seam, "centre")
    if (tips := (centre.size[1] - high) / 2) > NEAR:
        centre = centre.trim(bottom=tips, top=tips + high, seam=seam).laid_down()
    for faces in ("top", "bottom"):
        centre = centre.sew(corner, faces, "upper right", seam, "centre")
    return centre.turn(45)


def snowball(block: Panel, corner: Panel, seam: float, corners: Sequence[str] = CORNERS) -> Panel:
    """A block with a corner square sewn across each of these corners on its diagonal and folded back."""
    size = min(corner.size)
    at = size - seam * sqrt(2)  # where the raw edge runs, on the sides of the block
    for side, ends in EDGES_OF_CORNERS.items():
        length, flipped = block.size[side in ("left", "right")], sum(end in corners for end in ends)
        if at * flipped > length or size > length + NEAR and flipped:
            raise CannotSew(
                f"the corner squares of {size:.4g} in "
                f"{'would meet across' if flipped == 2 else 'are larger than'} this block of {length:.4g} in: cut them "
                f"at most {'half ' if flipped == 2 else ''}as wide as the block"
            )
    flap = triangle(corner, size + seam * sqrt(2), 90)
    for where in CORNERS:
        if where in corners:
            _, rest = block.cut((at, 0), (0, at), seam)
            block = rest.laid_down().sew(flap, "lower left", "upper right", seam, "centre").laid_down()
        block = block.turn(90)
    return block


def from_whole_squares(unit: UnitTable, one: Panel, other: Panel, at_a_time: int, seam: float, measured: str) -> Panel:
    """A unit whose parts are whole pieces: sewn as the triangles that come of them once they are sewn and cut."""
    if unit.kind == "half-square":
        return half_squares_at_once(one, other, at_a_time, seam, measured)
    if unit.kind == "quarter-square":
        side = sewn_size("twice", min(one.size[0], other.size[0]), seam, measured) / sqrt(2)
        one, other = triangle(one, side, 45), triangle(other, side, 45)
        return quarter_square(one, other, one, other, seam)
    if at_a_time == 4:
        goose = sewn_size("twice", one.size[0], seam, measured) / sqrt(2)
        sky = sewn_size("once", other.size[0], seam, measured)
    else:
        goose = needed_square("twice", one.size[0] - 2 * seam, seam) / sqrt(2)
        sky = needed_square("once", other.size[0] - 2 * seam, seam)
    return flying_geese(triangle(one, goose, 45), triangle(other, sky, 90), seam)


def sewn_unit(unit: UnitTable, parts: Sequence[Panel], at_a_time: int, seam: float, measured: str = "in") -> Panel:
    """The panel of a unit from the panels of its parts; `at_a_time` is 0 where the parts are triangles already.

    `measured` is the unit of length ("in" or "cm") in which the pattern rounds its sizes.
    """
    if at_a_time and unit.kind == "quarter-square" and len(parts) > 2:
        raise CannotSew(
            f"a quarter-square unit of {len(parts)} parts is sewn from triangles; its parts are whole squares: "
            "cut them twice on the diagonal"
        )
    one, other = parts[0], parts[-1]
    if unit.kind == "square in a square":
        return square_in_a_square(one, other, seam)
    if unit.kind == "snowball":
        return snowball(one, other, seam, unit.flipped)
    if unit.kind == "triangle in a square":
        return triangle_in_a_square(one, parts[1], other, seam)
    if unit.kind == "half-rectangle":
        return half_rectangle(one, other, unit.slant, seam)
    if at_a_time:
        return from_whole_squares(unit, one, other, at_a_time, seam, measured)
    if unit.kind == "quarter-square" and len(parts) == 3:
        half, above, right = parts
        return split_quarter_square(half, above, right, seam)
    if unit.kind == "quarter-square":
        above, right, below, left = [*parts, *parts][:4]
        return quarter_square(above, right, below, left, seam)
    return {"half-square": half_square, "flying geese": flying_geese}[unit.kind](one, other, seam)


def sub_cut_piece(strips: Sequence[Panel], sub_cut: float, seam: float) -> Panel:
    """One piece cut across a strip set: the strips from top to bottom, as wide as the sub-cut."""
    pieces = [
        patch(size=(sub_cut, strip.size[1]), fabric=strip.cuts[0].fabric, part=strip.cuts[0].part) for strip in strips
    ]
    return in_a_row(pieces[::-1], "top", "bottom", seam)
