"""The cloth of "building side triangles": the triangle built from rows of squares, in its two grains, or half a
block."""

from dataclasses import replace
from fractions import Fraction
from functools import lru_cache
from math import sqrt
from typing import NamedTuple

import numpy as np

from .. import lengths, sewing
from ..shapes import NEAR, moved_out
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
        found = self.panel.junctions()
        lowest = min(one.point[1] for one in found)
        return sorted((one for one in found if one.point[1] < lowest + NEAR), key=lambda one: one.point[0])

    @property
    def deep(self):
        """How far those points lie from the raw edge, in inches."""
        return min(one.depth for one in self.points)

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
    return triangle_of(built(n, square), way)


def end_square(square, way=TWICE):
    """How large a square the end triangles are cut from, exactly, as a float.

    >>> round(float(end_square(2)), 4), round(float(end_square(2, ONCE)), 4)
    (4.0355, 2.8536)
    """
    from .. import proofs

    return (
        proofs.side_triangle.value(block=float(square))
        if way == TWICE
        else proofs.half_square.value(finished=float(square))
    )


@lru_cache(maxsize=128)
def untrimmed(n, square, way=TWICE, spare=Fraction(0)):
    """The built triangle as it comes from the machine: its end triangles from squares cut up to the ruler's next
    eighth, and `spare` inches larger.

    >>> [round(untrimmed(4, 2, spare=spare).deep, 4) for spare in (0, Fraction(1, 2))]
    [0.2947, 0.5447]
    """
    side = float(lengths.ruler(end_square(square, way)) + spare)
    return triangle_of(built(n, square, leg=side / sqrt(2) if way == TWICE else side), way)


def triangle_of(made, way):
    """A built triangle whose end triangles are cut in one of the two ways: only the thread in them differs."""
    if way == ONCE:
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
