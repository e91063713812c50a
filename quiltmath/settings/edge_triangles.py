"""The triangles along the edge of a quilt on point: plain cloth, larger where the blocks are to float."""

from math import sqrt

from .. import sewing
from ..root2 import Root2
from . import to_cut


class Plain:
    """Side triangles cut twice and corner triangles cut once, so that the outside of the quilt lies on the
    straight grain."""

    def __init__(self, plan):
        self.plan = plan

    @property
    def patches(self):
        """How many patches all edge triangles have together."""
        return self.plan.side_triangles + self.plan.corner_triangles + self.plan.triangle_tips

    @property
    def bias(self):
        """The length of bias they leave on the outside, as a Root2 length: none."""
        return Root2()

    def lines(self):
        """Their lines of the cutting list."""
        plan, found = self.plan, []
        cloth, oversize = plan.fabric("setting"), 2 * plan.floating

        def twice(part, count, leg):
            proof = ("side_triangle", "block") if not oversize else None
            finished = leg if not oversize else Root2(oversize, leg)
            found.append(
                to_cut.triangles(part, cloth, count, "twice", finished, plan, to_cut.LONG_ON_GRAIN, proof=proof)
            )

        if plan.side_triangles:
            twice("side triangle", plan.side_triangles, plan.leg)
        if plan.triangle_tips:
            twice("triangle tip", plan.triangle_tips, plan.sashing)
        proof = ("corner_triangle", "block") if not oversize else None
        finished = plan.corner_side if not oversize else Root2(oversize, plan.corner_side / 2)
        found.append(
            to_cut.triangles(
                "corner triangle",
                cloth,
                plan.corner_triangles,
                "once",
                finished,
                plan,
                to_cut.LEGS_ON_GRAIN,
                proof=proof,
            )
        )
        return found

    def side(self, end, form, cut):
        """A side triangle for this end of a row, lying on its long side; the same cloth for every end."""
        return twice_cut(self.plan, "side triangle", cut)

    def corner(self, faces, cut):
        """A corner triangle for the corner on this side of the level rows, its long side up; the same cloth
        for all."""
        return once_cut(self.plan, "corner triangle", cut).turn(45)


def twice_cut(plan, part, cut="exact"):
    """One triangle of a square cut twice, lying on its long side, its lengthwise grain across that side."""
    line = plan.line(part)
    side = _side(line, cut)
    return sewing.patch(corners=[(0, 0), (side, 0), (side / 2, side / 2)], fabric=line.fabric, part=part)


def once_cut(plan, part, cut="exact"):
    """One triangle of a square cut once, its right angle at the lower left."""
    line = plan.line(part)
    side = _side(line, cut)
    return sewing.patch(corners=[(0, 0), (side, 0), (0, side)], fabric=line.fabric, part=part)


def _side(line, cut):
    return line.value[0] if cut == "exact" else float(line.size[0])


def finished_leg(plan, part, cut="exact"):
    """The finished leg a triangle cut twice really gives (a float): what its cut side leaves after both
    seams."""
    return (_side(plan.line(part), cut) - 2 * float(plan.seam) * (1 + sqrt(2))) / sqrt(2)


def finished_long(plan, part, cut="exact"):
    """The finished long side a triangle cut once really gives (a float)."""
    return _side(plan.line(part), cut) * sqrt(2) - 2 * float(plan.seam) * (1 + sqrt(2))
