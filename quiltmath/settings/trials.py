"""A framed edge whose strips are cut too short, tried in cloth."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from .. import lengths, making, sewing
from ..pattern.names import SIDE
from . import arguments

if TYPE_CHECKING:
    from ..lengths import Length
    from .plan import Plan


class Trial(NamedTuple):
    """Two framed side triangles and the framed block between them, as they hang, with strips cut short.

    `reach` is how long the framed legs finish and `missing` how much of them is not there (inches).
    """

    panel: sewing.Panel
    reach: float
    missing: float


def trial(plan: Plan, short: Length = 0) -> Trial:
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
            f"{arguments.shown(plan.block.size, plan.unit)}; got {arguments.shown(less, plan.unit)}"
        )
    made, seam = plan.made, float(plan.seam)
    side, block = making.framed(made, SIDE, float(less)), made.need(made.block)
    both = block.sew(side, "left", "left", seam, "end").sew(side, "bottom", "bottom", seam, "end").turn(45)
    reach = side.edge("left", seam).finished_length
    return Trial(both, reach, max(0.0, float(plan.cell) - reach))
