"""Rows of a sheet sewn: the pieces of each from left to right, the rows from the bottom up."""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING

import numpy as np

from ..sewing import CannotSew, in_a_row

if TYPE_CHECKING:
    from collections.abc import Sequence

    from ..pattern.fields import Item
    from ..sewing import Panel
    from ..sewing.panel import Align
    from .made import Made

SAME_SLANT = 3  # degrees: sides that slant alike but for this are joined; rounding turns a side by less
SLANTING = 0.3  # of an edge's normal, across: an edge that leads up by at least about 18 degrees is a side


def rows_sewn(made: Made, rows: Sequence[Sequence[Item]], align: Align = "start") -> Panel:
    """Rows sewn left to right, then joined from the bottom up."""
    sewn: dict = {}
    strips = [_row(made, row, sewn) for row in rows]
    return in_a_row(strips[::-1], "top", "bottom", made.seam, align, sewn)


def lying(made: Made, item: Item, turned: dict) -> Panel:
    """The panel of an item as it lies in its row; the same item is the same object each time, kept in `turned`."""
    if item.turn % 360 == 0:
        return made.need(item.name)
    key = item.name, item.turn
    if key not in turned:
        turned[key] = made.need(item.name).turn(item.turn)
    return turned[key]


def _row(made, row, sewn):
    """The pieces of a row sewn from left to right; those cut at an angle by their slanting sides."""
    panels = [lying(made, item, sewn) for item in row]
    cuts = [made.sheet.part(item.name) for item in row]
    if all(cut is None or cut.shape is None for cut in cuts):
        return in_a_row(panels, seam=made.seam, sewn=sewn)
    key = tuple(map(id, panels))
    if key not in sewn:
        sewn[key] = _by_slanting_sides(row, panels, made.seam)
    return sewn[key]


def _by_slanting_sides(row, panels, seam):
    """The panels of a row, each sewn by its left side to the right side of the one before it; refused where the two
    slant otherwise."""
    joined = panels[0]
    for (item, last), (beside, panel) in pairwise(zip(row, panels)):
        mine, theirs = _side_faces(last, 1), _side_faces(panel, -1)
        if abs((mine - theirs) % 360 - 180) > SAME_SLANT:
            raise CannotSew(
                f"in a row {beside.name!r} slants another way than {item.name!r} before it: turn one of them, with "
                ":180 behind its name, or name the piece that slants as the other does"
            )
        joined = joined.sew(panel, mine, theirs, seam)
    return joined


def _side_faces(panel, way):
    """The angle, in degrees, that the right side (1) or the left side (-1) of a piece faces: of its edges that lead up
    the one that is furthest out in its middle."""
    lines = panel.raw_lines
    upright = np.flatnonzero(way * lines.normals[:, 0] > SLANTING)
    if not len(upright):
        raise CannotSew("a piece of a row needs a side that leads up: turn it so that one lies left and one right")
    middle = panel.size[1] / 2
    across = (lines.limits[upright] - lines.normals[upright, 1] * middle) / lines.normals[upright, 0]
    angle = round(float(lines.angles[upright[(way * across).argmin()]]), 9) % 360
    return int(angle) if angle == int(angle) else angle
