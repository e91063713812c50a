"""Quilts set on point: how many pieces of each kind, how large, in which rows."""

from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property, partial

from ..blocks import plain
from ..root2 import Root2
from . import arguments, built, diagonal, edge_triangles, frames, halves, placed, sewn_on_point, to_cut
from .plan import Plan


@dataclass(frozen=True, eq=False, repr=False, kw_only=True)
class OnPoint(Plan):
    """A quilt set on point: `across` blocks along the top, `down` along the side, others in the gaps between
    them.

    Made by `settings.on_point`; lengths are exact Fractions of inches.
    """

    floating: Fraction = Fraction(0)
    edge: str = "centre"
    edges: str = "plain"

    style = "on point"

    @property
    def whole(self):
        """Whether the cornerstones at the edge of the quilt are whole."""
        return bool(self.sashing) and self.edge == "whole"

    @property
    def leg(self):
        """The finished leg of a side triangle, the float left aside."""
        return self.cell + (self.sashing if self.whole else 0)

    @property
    def corner_side(self):
        """The finished long side of a corner triangle, the float left aside."""
        return self.cell + (2 * self.sashing if self.whole else 0)

    @property
    def main_blocks(self):
        """How many blocks stand in the straight rows and columns: `across` times `down`."""
        return self.across * self.down

    @property
    def alternate_blocks(self):
        """How many stand in the gaps between those."""
        return (self.across - 1) * (self.down - 1)

    @property
    def side_triangles(self):
        """How many triangles lie along the sides."""
        return 2 * (self.across + self.down - 2)

    @property
    def corner_triangles(self):
        """How many triangles lie in the corners."""
        return 4

    @property
    def sashes(self):
        """How many sashes as long as a block."""
        if not self.sashing:
            return 0
        return 4 * self.main_blocks if self.has_cornerstones else self.blocks + self.across + self.down - 1

    @property
    def sashing_strips(self):
        """How many long strips of sashing between the rows, where there are no cornerstones."""
        return self.across + self.down if self.sashing and not self.has_cornerstones else 0

    @property
    def crossings(self):
        """How many cornerstones, those halved by the edge included."""
        if not (self.sashing and self.has_cornerstones):
            return 0
        return 2 * self.main_blocks + self.across + self.down

    @property
    def cornerstone_triangles(self):
        """How many cornerstones the edge of the quilt halves."""
        return 2 * (self.across + self.down) if self.crossings and not self.whole else 0

    @property
    def cornerstones(self):
        """How many whole cornerstones."""
        return self.crossings - self.cornerstone_triangles

    @property
    def triangle_tips(self):
        """How many side triangles end level with their row, their tips ending the next sashing row
        instead."""
        return max(0, abs(self.across - self.down) - 1) if self.whole else 0

    @property
    def top_size(self):
        """The finished (width, height) without borders, as Root2 lengths."""
        more = Root2(2 * self.floating, self.sashing if self.whole else Fraction(0))
        return tuple(Root2(root=count * self.pitch) + more for count in (self.across, self.down))

    @cached_property
    def diagonal_rows(self):
        """The rows with the exact places of their pieces: see `diagonal.Row`."""
        return tuple(diagonal.rows(self))

    def rows(self):
        """The diagonal rows in the order they are sewn, from the upper left corner of the quilt.

        >>> from quiltmath import settings
        >>> print(*settings.on_point(across=2, down=3, block=9).rows(), sep="\\n")
        Row 1: side triangle, block, side triangle
        Row 2: side triangle, 3 blocks
        Row 3: 3 blocks, side triangle
        Row 4: side triangle, block, side triangle
        """
        return list(self.diagonal_rows)

    def steps(self):
        """How the top is put together once its rows are sewn, in words.

        >>> from quiltmath import settings
        >>> settings.on_point(across=2, down=3, block=9).steps()[-1]
        'Sew on the four corner triangles last, each by its long side, centred.'
        """
        said = [*_edge_steps(self), "Sew each row from left to right."]
        said += [
            f"Row {row.number}: sew it to the sashing row {row.sashing} it before its triangles go on."
            for row in self.diagonal_rows
            if row.sashing
        ]
        said += [
            f"Row {row.number}: cut the {row.tip} triangle off level with the row, and end the next "
            "sashing "
            "row with its tip: whole, it would have to be set in."
            for row in self.diagonal_rows
            if row.kind == "blocks" and row.tip
        ]
        return said + [
            "Sew the rows to each other in order, matching the seams.",
            "Sew on the four corner triangles last, each by its long side, centred.",
        ]

    @cached_property
    def edge_triangles(self):
        """How its edge triangles come about: see `edge_triangles`."""
        return EDGES[self.edges](self)

    @property
    def edge_patches(self):
        """How many patches the edge triangles have."""
        return self.edge_triangles.patches

    @cached_property
    def setting_block(self):
        """A plain block of the cloth of the edge triangles."""
        return plain(self.block.size, self.fabric("setting"))

    def placed(self):
        """The finished top as few shapes placed many times, quickly, for pictures: see `placed.Placed`."""
        return placed.on_point(self)

    @property
    def cut_blocks(self):
        """How many more blocks are sewn and cut up for the edge."""
        return getattr(self.edge_triangles, "blocks", 0)

    def bias_outside(self):
        """The length of bias along the outside of the top, without borders, as a Root2 length."""
        strips = Root2(root=2 * self.sashing_strips * self.sashing * (not self.whole))
        return self.edge_triangles.bias + strips

    def edge_lines(self):
        """The cutting list of the edge triangles."""
        return self.edge_triangles.lines()

    def sashing_lines(self):
        """The cutting list of the sashing and its cornerstones."""
        return diagonal_sashing(self)

    def sewn_top(self, cut="exact"):
        """The top without borders, sewn and lying as it hangs."""
        return sewn_on_point.top(self, cut)


EDGES = {
    "plain": edge_triangles.Plain,
    "framed": frames.Framed,
    "built": built.Built,
    "built, bias outside": partial(built.Built, ends="half"),
    "half blocks": halves.Halves,
}


MADE = {
    "plain": ("Cut the side triangles twice from a square: their long side, the edge of the quilt, is straight grain."),
    "framed": ("Sew a strip to each leg of the edge triangles and trim its end at 45 degrees along the quilt's edge."),
    "built": (
        "Build the edge triangles row by row; their end triangles are cut twice from a square, so "
        "that the long side, the edge of the quilt, is straight grain."
    ),
    "built, bias outside": (
        "Build the edge triangles row by row; their end triangles are cut once from a "
        "square, so that the long side, the edge of the quilt, is bias."
    ),
    "half blocks": (
        "Cut each of the spare blocks one seam past its diagonal and keep the larger half; "
        "for a corner triangle cut past both diagonals. Stay-stitch along the line first "
        "(common practice)."
    ),
}


def _edge_steps(plan):
    """How the edge triangles come about, and what to mind about them, in words."""
    said = [MADE[plan.edges]]
    if plan.floating:
        said.append("Align the side triangles, cut large, at their right angle; trim their tips level with the row.")
    bias = float(plan.bias_outside())
    if bias:
        said.append(
            f"About {arguments.about(bias, plan.unit)} of the outside is bias: handle it little, and measure "
            "the top before borders are cut."
        )
    return said


def diagonal_sashing(plan):
    """The lines for sashes, strips and cornerstones of a plan on point."""
    if not plan.sashing:
        return []
    width, fabric = plan.sashing, plan.fabric("sashing")
    found = [to_cut.whole("sash", fabric, plan.sashes, width, plan.cell, plan, to_cut.LENGTHWISE)]
    if plan.has_cornerstones:
        stones = plan.fabric("cornerstone")
        if plan.cornerstones:
            found.append(to_cut.whole("cornerstone", stones, plan.cornerstones, width, width, plan))
        if plan.cornerstone_triangles:
            found.append(
                to_cut.triangles(
                    "cornerstone triangle",
                    stones,
                    plan.cornerstone_triangles,
                    "twice",
                    Root2(root=width),
                    plan,
                    to_cut.LONG_ON_GRAIN,
                )
            )
    else:
        found += _strips(plan, width, fabric)
    return found


def _strips(plan, width, fabric):
    """The long strips between rows, equal ones together."""
    counts = {}
    for row in plan.diagonal_rows:
        if row.kind == "sashing":
            counts[row.pieces[0].width] = counts.get(row.pieces[0].width, 0) + 1
    if plan.whole:
        return [
            to_cut.whole("sashing strip", fabric, count, width, length, plan, to_cut.LENGTHWISE)
            for length, count in counts.items()
        ]
    return [to_cut.slanted("sashing strip", fabric, count, width, length, plan) for length, count in counts.items()]
