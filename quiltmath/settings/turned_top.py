"""A straight top cut at 45 degrees and put together on point: what it costs, beside a plan set on point from
the start.

A top twice as wide as it is high is cut at 45 degrees from its lower corners to the middle of its top edge;
the two small triangles, joined, make the other half of a square that stands on its point. A top four, six …
times as wide gives a row of such squares.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property
from itertools import pairwise
from typing import TYPE_CHECKING

from .. import sewing
from ..usual import EASED
from . import arguments, wishes

if TYPE_CHECKING:
    from typing import Any

    from .plan import Plan

NEAR_ENOUGH = float(EASED)  # how far the finished width may be from an even number of heights


@dataclass(frozen=True, eq=False)
class CutAndTurned:
    """A straight top after its 45-degree cuts, turned; and the plan on point that makes the same picture.

    `panel` is the sewn cloth as it hangs, raw; `squares` how many squares on point it makes; `planned` the
    plan.
    """

    panel: sewing.Panel
    squares: int
    planned: Plan

    @cached_property
    def lost_points(self) -> int:
        """How many points are lost: seams that meet nearer a raw edge than one seam, or that a seam has
        swallowed."""
        seam = float(self.planned.seam)
        return sum(point.lost_by > 0 for point in self.panel.junctions(seam)) + len(self.panel.lost)

    @cached_property
    def deepest(self) -> float:
        """How much of the worst of these points is lost, in inches."""
        depths = [point.lost_by for point in self.panel.junctions(float(self.planned.seam))]
        return max([0.0, *depths, *self.panel.lost_by.tolist()])

    @cached_property
    def bias(self) -> float:
        """Inches of raw edge on the outside that lie off the straight grain."""
        return sum(edge.length for edge in self.panel.raw_edges() if edge.grain != "straight")

    @property
    def size(self) -> tuple[float, float]:
        """The (width, height) it finishes at, in inches, squared up as well as it can be."""
        width, height = self.panel.size
        return width - 2 * float(self.planned.seam), height - 2 * float(self.planned.seam)

    def tally(self) -> list[tuple[str, Any, Any]]:
        """What the cut-and-turned top and the planned one come to, as rows (what, cut and turned, planned).

        >>> from quiltmath import settings
        >>> turned = settings.cut_and_turn(settings.straight(across=6, down=3, block=6))
        >>> for what, cut, planned in turned.tally():
        ...     print(f"{what}: {cut} against {planned}")
        points lost: 8 against 0
        bias on the outside: 101 13/16 in against 0 in
        finished width: 24 15/16 in against 25 7/16 in
        finished height: 24 15/16 in against 25 7/16 in
        """

        def inches(value):
            return arguments.about(value, self.planned.unit)

        rows = [
            ("points lost", self.lost_points, 0),
            ("bias on the outside", inches(self.bias), inches(self.planned.bias_outside())),
        ]
        return rows + [
            (f"finished {name}", inches(mine), inches(theirs))
            for name, mine, theirs in zip(("width", "height"), self.size, self.planned.size)
        ]


def cut_and_turn(plan: Plan) -> CutAndTurned:
    """A straight plan sewn, cut from the lower corners to the middle of the top edge, put together and
    turned.

    The top must finish an even number of times as wide as it is high.

    >>> from quiltmath import settings
    >>> settings.cut_and_turn(settings.straight(across=4, down=2, block=6)).squares
    1
    >>> settings.cut_and_turn(settings.straight(across=5, down=3, block=6))
    Traceback (most recent call last):
    ValueError: the pieces fit together only if the top is 2, 4, 6 … times as wide as it is high; got \
30 x 18 in: 36 x 18 in would do
    """
    if plan.style != "straight" or plan.borders:
        raise ValueError(
            "a straight-set plan without borders is cut and turned; got one "
            f"{plan.style}{' with borders' if plan.borders else ''}: write "
            "settings.straight(across=4, down=2, block=6)"
        )
    width, height = plan.size
    squares = max(1, round(width / height / 2))
    if abs(width - 2 * squares * height) > NEAR_ENOUGH:
        got, good = (arguments.about_size((side, height), plan.unit) for side in (width, 2 * squares * height))
        raise ValueError(
            "the pieces fit together only if the top is 2, 4, 6 … times as wide as it is high; "
            f"got {got}: {good} would do"
        )
    seam = float(plan.seam)
    upright, hanging = _pieces(plan.panel(), squares, seam)
    hanging = [hanging[-1].sew(hanging[0], "right", "left", seam), *hanging[1:-1]]
    top, *others = (lower.sew(upper, "top", "bottom", seam, "centre") for lower, upper in zip(hanging, upright))
    for square in others:
        top = top.sew(square, "upper right", "lower left", seam, "centre")
    return CutAndTurned(top.turn(-45), squares, _planned(plan, squares))


def _pieces(panel, squares, seam):
    """The triangles on their long side, and those hanging from it, in order; the outermost of these are
    halves. The cuts run at 45 degrees through the finished corners, where the points are."""
    height = panel.size[1] - 2 * seam
    zigzag = [(seam + number * height, seam + height * (number % 2)) for number in range(2 * squares + 1)]
    found = []
    for number, (start, end) in enumerate(pairwise(zigzag)):
        low, high = (start, end) if number % 2 == 0 else (end, start)
        left, right = panel.cut(low, high)
        found.append(left.laid_down())
        panel = right
    found.append(panel.laid_down())
    return found[1::2], found[::2]


def _planned(plan, squares):
    """The plan on point with the same outline and, for blocks of an even number of squares a side, the same
    picture.

    The corners of the turned top lie where blocks of the straight one meet, so the block to set on point is
    the one found half a block along and half a block up.
    """
    built = not (plan.sashing or plan.frame) and plan.alternate is plan.block and _shifted(plan.block)
    return wishes.on_point(
        plan.down * squares,
        plan.down,
        built or plan.block,
        plan.sashing,
        cornerstones=plan.has_cornerstones,
        alternate=None if plan.alternate is plan.block else plan.alternate,
        frame=plan.frame,
        edges="built" if built else "plain",
        seam=arguments.shown(plan.seam, plan.unit),
        unit=plan.unit,
        fabrics={"setting": plan.block.fabrics()[0], **plan.fabrics},
    )


def _shifted(block):
    """The block found half a block along and half a block up in a top of such blocks, turned as the top is,
    or None if their squares do not halve."""
    half, odd = divmod(len(block.rows), 2)
    squares = {unit.kind for row in block.rows for unit in row} == {"square"}
    if odd or not squares or len({*block.widths, *block.heights}) > 1 or len(block.widths) != 2 * half:
        return None
    rows = tuple((*row[half:], *row[:half]) for row in (*block.rows[half:], *block.rows[:half]))
    return replace(block, rows=tuple(zip(*rows[::-1])))  # a plan's blocks lean left where the top leans right
