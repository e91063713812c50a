"""The cloth of "building side triangles": the triangle built from rows of squares, in its two grains, or half a
block."""

from dataclasses import replace
from functools import lru_cache
from typing import NamedTuple

import numpy as np

from .. import sewing
from ..shapes import moved_out
from .halves import SEAM, built, halves

TWICE, ONCE, HALF = (
    "built, end triangles cut twice",
    "built, end triangles cut once",
    "half a block, cut 1/4 in past its diagonal",
)


class Triangle(NamedTuple):
    """A side triangle ready to be sewn in, its long side down, and what is read off its cloth."""

    panel: sewing.Panel
    waste: float  # square inches of sewn cloth thrown away for it

    @property
    def long_edge(self):
        """The raw edge that becomes the outside of the quilt."""
        return max(self.panel.raw_edges(), key=lambda edge: edge.length)

    @property
    def points(self):
        """The meetings of seams along its long side, from left to right."""
        low = [one for one in self.panel.junctions() if one.point[1] < 2 * float(SEAM)]
        return sorted(low, key=lambda one: one.point[0])

    @property
    def kept(self):
        """How many of those points the next seam leaves whole."""
        return sum(not one.lost_by for one in self.points)


@lru_cache(maxsize=128)
def triangle(n, square, way=TWICE):
    """The side triangle that takes the place of half a block of n × n squares.

    >>> [triangle(4, 2, way).long_edge.grain for way in (TWICE, ONCE, HALF)]
    ['straight', 'bias', 'bias']
    >>> {round(point.depth, 6) for point in triangle(4, 2).points}, triangle(4, 2).kept
    ({0.25}, 3)
    """
    if way == HALF:
        kept, other = halves(n, square, SEAM)
        return Triangle(kept.cut, other.cut.area)
    made = built(n, square)
    if way == ONCE:  # the same shapes from squares cut once: only the thread in the end triangles differs
        ends = np.array([one.part == "end triangle" for one in made.patches])
        made = replace(made, grains=(made.grains - 45 * ends) % 180)
    return Triangle(made, 0.0)


@lru_cache(maxsize=128)
def pieces(n, square, way=TWICE):
    """The triangle taken apart: the rows of cut pieces, the longest first, each ending in its end triangle.

    A cut piece is its finished shape with every side moved out by a seam.

    >>> [len(row) for row in pieces(4, 2)], [round(side, 6) for side in pieces(4, 2)[0][0].size]
    ([4, 3, 2, 1], [2.5, 2.5])
    """
    found = {}
    for one in triangle(n, square, way).panel.bind().turn(135).patches:
        left, low = one.polygon.min(axis=0)
        corners = moved_out(one.polygon.tolist(), float(SEAM))
        piece = sewing.patch(corners=corners, fabric=one.fabric, part=one.part, grain=one.grain)
        found.setdefault(round(low / float(square)), {})[round(left / float(square))] = piece
    return [[row[along] for along in sorted(row)] for _, row in sorted(found.items())]
