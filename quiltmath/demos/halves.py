"""The cloth of "a block cut in half": a pieced block, its two halves, and the triangle built to take their
place."""

from functools import lru_cache
from math import sqrt
from typing import NamedTuple

import numpy as np

from .. import sewing
from ..shapes import NEAR, moved_out, right_triangle
from ..usual import SEAM

DIAGONAL, BETWEEN = "navy", "gold"  # the squares on the diagonal, and those between them


@lru_cache(maxsize=64)
def block(n, patch):
    """A block of n × n squares that finish `patch` in a side, sewn from squares cut a seam larger all round.

    >>> block(4, 2).size
    (8.5, 8.5)
    """
    squares, sewn = _squares(patch), {}
    rows = [sewing.in_a_row([squares[(i + j) % 2] for i in range(n)], sewn=sewn) for j in (0, 1)]
    return sewing.in_a_row([rows[j % 2] for j in range(n)], mine="top", theirs="bottom", sewn=sewn)


@lru_cache(maxsize=64)
def built(n, patch, leg=None):
    """The triangle built from rows of n - 1, n - 2 … 0 squares, each with its end triangle; long edge at the
    bottom. Where end triangles are cut with a longer `leg` than they need, the long edge lies further out.

    >>> round(built(4, 2).size[0], 3)                      # 8√2 + 2(1 + √2)/4
    12.521
    """
    if leg is None:
        corners = moved_out(right_triangle(float(patch), float(patch)), float(SEAM))
    else:
        corners = [(x - float(SEAM), y - float(SEAM)) for x, y in right_triangle(float(leg), float(leg))]
    edge = sewing.patch(corners=corners, fabric=DIAGONAL, part="end triangle", grain=135)
    squares, sewn = _squares(patch), {}
    rows = [edge]
    for j in reversed(range(n - 1)):
        run = sewing.in_a_row([squares[(n - 1 - i - j) % 2] for i in range(n - 1 - j)], sewn=sewn)
        row = run.sew(edge)
        rows.insert(0, row if leg is None else row.trim(top=run.size[1]))  # its dog ear, too long to be sewn in
    return sewing.in_a_row(rows, mine="top", theirs="bottom").turn(225)


def _squares(patch):
    side = patch + 2 * SEAM
    return [sewing.patch(size=(side, side), fabric=fabric, part="square") for fabric in (DIAGONAL, BETWEEN)]


class Half(NamedTuple):
    """Half a block, its long edge at the bottom: as cut, as sewn in, and what became of the points on the
    diagonal."""

    cut: sewing.Panel
    sewn: sewing.Panel
    kept: int
    lost: int
    lost_by: float

    @property
    def long_edge(self):
        """The raw long edge of the half as it was cut."""
        return max(self.cut.raw_edges(), key=lambda edge: edge.length)


def halves(n, patch, past):
    """The half that keeps the seam, cut `past` inches outside the block's diagonal, and the other half.

    >>> from fractions import Fraction
    >>> [(half.kept, half.lost, half.lost_by) for half in halves(4, 2, Fraction(1, 4))]
    [(3, 0, 0.0), (0, 3, 0.5)]
    """
    kept, other = _parts(n, patch, past)
    return _half(kept, -45), _half(other, 135)


def lost_points(n, patch, past=0):
    """The points of the block, as (x, y) on its cloth, that no longer show whole on either half once it is sewn in.

    >>> [tuple(map(float, point)) for point in sorted(lost_points(3, 2))]
    [(2.25, 2.25), (4.25, 4.25)]
    """
    whole = [junction.point for junction in block(n, patch).junctions()]
    shown = [junction.point for part in _parts(n, patch, past) for junction in part.junctions() if not junction.lost_by]
    return [point for point in whole if not any(np.allclose(point, other, atol=NEAR) for other in shown)]


def _parts(n, patch, past):
    """The block, cut `past` inches outside its diagonal."""
    whole = block(n, patch)
    side, step = whole.size[0], float(past) / sqrt(2)
    return whole.cut((step, -step), (side + step, side - step))


def _half(panel, turn):
    """The points on the diagonal that this half still has, and those that the cut took off it."""
    kept = [point.lost_by for point in panel.junctions() if abs(np.subtract(*point.point)) < NEAR]
    lost_by = [*kept, *panel.lost_by.tolist()]
    lost = sum(by > 0 for by in lost_by)
    cut = panel.turn(turn)
    return Half(cut, cut.bind(), len(lost_by) - lost, lost, max(lost_by))
