"""Edge triangles cut from whole blocks: half a block cut one seam past its diagonal, a quarter past both.

The half that keeps the seam is right; the other has lost it and is waste. The edge of the quilt is then bias.
"""

from functools import cached_property
from math import sqrt

import numpy as np

from .. import shapes
from ..root2 import Root2
from . import frames, to_cut

TURNS = {("left", "bottom"): 0, ("left", "top"): -90, ("right", "top"): 180, ("right", "bottom"): 90}
CORNERS = {"bottom": 0, "right": -90, "top": 180, "left": 90}


class Halves:
    """One good half a block for each side triangle, one good quarter for each corner triangle."""

    def __init__(self, plan):
        self.plan = plan

    @property
    def blocks(self):
        """How many more blocks are sewn to be cut up."""
        return self.plan.side_triangles + self.plan.corner_triangles

    @property
    def patches(self):
        """How many patches the halves and quarters show."""
        plan = self.plan
        number = {
            place: plan.down - 1 if place in (("left", "bottom"), ("right", "top")) else plan.across - 1
            for place in TURNS
        }
        return sum(times * self._shown(TURNS[place], half=True) for place, times in number.items() if times) + sum(
            self._shown(turn, half=False) for turn in CORNERS.values()
        )

    def _shown(self, turn, half):
        """How many patches of the block, turned, lie in its lower right half or its upper quarter, a seam
        included."""
        middle = float(self.plan.cell) / 2
        polygons = shapes.turned(self._polygons - middle, turn)
        lines = (
            [(135, float(self.plan.seam))] if half else [(-45, float(self.plan.seam)), (-135, float(self.plan.seam))]
        )
        for angle, limit in lines:
            polygons, _ = shapes.clipped(polygons, shapes.direction(angle), limit)
        return len(polygons)

    @cached_property
    def _polygons(self):
        finished = [corners for _, corners in frames.finished(self.plan, self.plan.block)]
        return np.array([corners + corners[-1:] * (4 - len(corners)) for corners in finished], float)

    @property
    def bias(self):
        """The length of bias they leave on the outside, as a Root2 length: all of it."""
        return Root2(root=(self.plan.side_triangles + self.plan.corner_triangles) * self.plan.cell)

    @property
    def waste(self):
        """The cloth thrown away, in square inches: what is left of each block beside its good half or
        quarter."""
        whole, plan = self._block.area, self.plan
        halves = plan.side_triangles * (whole - self.side("left", "bottom").area) if plan.side_triangles else 0.0
        return halves + plan.corner_triangles * (whole - self.corner("bottom").area)

    def lines(self):
        """Their lines of the cutting list: the patches of the blocks to cut up."""
        return to_cut.block_lines(self.plan.block, self.blocks, self.plan, "for blocks that are cut up for the edge")

    @cached_property
    def _block(self):
        return frames.framed(self.plan, self.plan.block)

    @cached_property
    def _past(self):
        """How far along the edge of a block a line lies that runs one seam past its diagonal."""
        return float(self.plan.seam) * sqrt(2)

    def side(self, end, form, cut="exact"):
        """The good half for this end of a row, lying on its long side."""
        return self._half(TURNS[end, form]).turn(135)

    def _half(self, turn):
        """The lower right half of the turned block and a seam past it."""
        block, past = self._block.turn(turn), self._past
        side = block.size[0]
        return block.cut((0, past), (side, side + past))[1]

    def corner(self, faces, cut="exact"):
        """The good quarter for the corner on this side of the level rows, its long side up."""
        block, past = self._block.turn(CORNERS[faces]), self._past
        side = block.size[0]
        upper = block.cut((0, -past), (side, side - past))[0]
        return upper.cut((0, side - past), (side, -past))[0].laid_down()
