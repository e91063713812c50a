"""Frames: strips round every block, and round the legs of the edge triangles so that they go on to the
edge."""

from math import sqrt
from typing import NamedTuple

from .. import lengths, sewing
from ..root2 import Root2
from . import edge_triangles, to_cut
from .arguments import shown

SHORT, LONG = "short frame strip", "long frame strip"


def block_lines(plan):
    """The cutting list of the frames round the blocks: two short strips, then two long ones, for each."""
    if not plan.frame:
        return []
    cloth, side, width = plan.fabric("frame"), plan.block.size, plan.frame
    return [
        to_cut.whole(part, cloth, 2 * (plan.blocks + plan.cut_blocks), width, length, plan, to_cut.LENGTHWISE)
        for part, length in ((SHORT, side), (LONG, side + 2 * width))
    ]


def framed(plan, block):
    """A block with its frame: short strips to its left and right, long ones below and above."""
    panel, seam = block.panel(plan.seam), float(plan.seam)
    if not plan.frame:
        return panel
    for part, faces, meets in (
        (SHORT, "right", "left"),
        (SHORT, "left", "right"),
        (LONG, "top", "bottom"),
        (LONG, "bottom", "top"),
    ):
        width, length = plan.line(part).value
        size = (width, length) if part == SHORT else (length, width)
        strip = sewing.patch(size=size, fabric=plan.fabric("frame"), part=part, grain=90 if part == SHORT else 0)
        panel = panel.sew(strip, faces, meets, seam)
    return panel


def finished(plan, block):
    """The finished patches of a block with its frame as (fabric, corners), from its lower left corner at (0,
    0)."""
    width, side, cloth = float(plan.frame), float(plan.block.size), plan.fabric("frame")
    if not width:
        return block.polygons()
    whole = side + 2 * width
    strips = [
        (0, width, width, width + side),
        (width + side, width, whole, width + side),
        (0, 0, whole, width),
        (0, width + side, whole, whole),
    ]
    moved = [(fabric, [(x + width, y + width) for x, y in corners]) for fabric, corners in block.polygons()]
    return moved + [(cloth, [(x0, y0), (x1, y0), (x1, y1), (x0, y1)]) for x0, y0, x1, y1 in strips]


class Framed(edge_triangles.Plain):
    """Edge triangles with the blocks' frame on their legs, its ends trimmed at 45 degrees along the quilt's
    edge."""

    first, second, across = "frame end strip, first", "frame end strip, second", "frame corner strip"

    @property
    def patches(self):
        """How many patches all edge triangles have together."""
        return 3 * self.plan.side_triangles + 2 * self.plan.corner_triangles

    @property
    def bias(self):
        """The length of bias they leave on the outside, as a Root2 length: the slanting ends of the
        strips."""
        ends = 2 * self.plan.side_triangles + 2 * self.plan.corner_triangles
        return Root2(root=ends * self.plan.frame)

    def lines(self):
        """Their lines of the cutting list."""
        plan = self.plan
        cloth, frame, side, width = plan.fabric("setting"), plan.fabric("frame"), plan.block.size, plan.frame
        found = []
        if plan.side_triangles:
            found = [
                to_cut.triangles(
                    "side triangle",
                    cloth,
                    plan.side_triangles,
                    "twice",
                    side,
                    plan,
                    to_cut.LONG_ON_GRAIN,
                    proof=("side_triangle", "block"),
                ),
                to_cut.slanted(self.first, frame, plan.side_triangles, width, side, plan, "frame_end"),
                to_cut.slanted(self.second, frame, plan.side_triangles, width, side + width, plan, "frame_end"),
            ]
        return found + [
            to_cut.triangles(
                "corner triangle",
                cloth,
                plan.corner_triangles,
                "once",
                side,
                plan,
                to_cut.LEGS_ON_GRAIN,
                proof=("corner_triangle", "block"),
            ),
            to_cut.slanted(self.across, frame, plan.corner_triangles, width, side, plan),
        ]

    def side(self, end, form, cut="exact", short=0.0):
        """A side triangle with a strip on each leg, trimmed along its long side; strips cut `short` by so
        much."""
        panel, seam = edge_triangles.twice_cut(self.plan, "side triangle", cut), float(self.plan.seam)
        for part, faces in ((self.first, "upper right"), (self.second, "upper left")):
            panel = panel.sew(self._strip(part, short), faces, "bottom", seam, "end")
        high = float(self.plan.cell) / sqrt(2) + seam * (1 + sqrt(2))
        return panel.trim(bottom=max(0.0, panel.size[1] - high)).laid_down()

    def corner(self, faces, cut):
        """A corner triangle with a strip on its long side, trimmed along both legs."""
        panel, seam = edge_triangles.once_cut(self.plan, "corner triangle", cut), float(self.plan.seam)
        strip = self._strip(self.across)
        panel = panel.sew(strip, "long", "bottom", seam, "centre")
        high = float(self.plan.cell) / 2 + seam * (1 + sqrt(2))  # raw, from the right angle to the strip
        legs = panel.size[0] - (high + strip.size[0] / 2) / sqrt(2)
        return panel.trim(left=legs, bottom=legs).turn(45)

    def _strip(self, part, short=0.0):
        width, length = self.plan.line(part).value
        return sewing.patch(size=(length - short, width), fabric=self.plan.fabric("frame"), part=part, grain=0)


class Trial(NamedTuple):
    """Two framed side triangles and the framed block between them, as they hang, with strips cut short.

    `reach` is how long the framed legs finish and `missing` how much of them is not there (inches).
    """

    panel: sewing.Panel
    reach: float
    missing: float


def trial(plan, short=0):
    """What becomes of the edge of a framed plan when the strips of its side triangles are cut `short`.

    >>> from quiltmath import settings
    >>> plan = settings.on_point(2, 2, 6, frame=1, edges="framed")
    >>> [round(settings.trial(plan, short).missing, 4) for short in (0, "1/8", "1/2", 1)]
    [0.0, 0.0, 0.1464, 0.6464]
    """
    if plan.style != "on point" or plan.edges != "framed":
        raise ValueError(
            "strips are tried short on the framed triangles of a plan on point; write "
            'settings.on_point(…, frame=1, edges="framed")'
        )
    less = lengths.parse(short, plan.unit, name="short", least=0)
    if less > plan.block.size:
        raise ValueError(
            "strips are tried short by at most the side of the block, "
            f"{shown(plan.block.size, plan.unit)}; got {shown(less, plan.unit)}"
        )
    seam = float(plan.seam)
    side = Framed(plan).side("left", "top", short=float(less))
    row = framed(plan, plan.block).sew(side, "left", "upper right", seam, "end")
    both = row.sew(side, "bottom", "upper left", seam, "end").turn(45)
    reach = side.edge("upper right", seam).finished_length
    return Trial(both, reach, max(0.0, float(plan.cell) - reach))
