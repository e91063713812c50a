"""Directional prints on point: which patches end up turned by 45 degrees, and which can still stand upright."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from .plan import Plan

UPRIGHT = {"side triangle", "corner triangle", "triangle tip", "cornerstone triangle"}


def turned_prints(plan: Plan) -> list[tuple[str, str, int]]:
    """The parts of a plan whose print is turned by 45 degrees, as (part, fabric, how many).

    On point these are all pieces of the blocks, sashes and cornerstones; a print that runs one way looks tilted there.

    >>> from quiltmath import settings
    >>> settings.turned_prints(settings.on_point(3, 3, 6, sashing=1))
    [('block', 'plain', 13), ('sash', 'sashing', 36), ('cornerstone', 'cornerstone', 12)]
    >>> settings.turned_prints(settings.straight(3, 3, 6))
    []
    """
    if plan.style != "on point":
        return []
    borders = {part for border in plan.sheet().border for part in border.parts}
    return [
        (line.part, line.fabric, line.count)
        for line in plan.cutting_list()
        if line.part not in borders and not _upright(line)
    ]


def _upright(line):
    """Whether a piece's print stands upright: that of a setting triangle, and of whatever is cut so that its long side
    or its legs lie along the edge of the quilt."""
    if line.part.startswith("end "):
        return line.cut == "twice"
    return line.part in UPRIGHT or line.part.startswith("tip ")


def upright_squares(plan: Plan) -> int:
    """How many squares give all plain side triangles with the print upright: a square cut twice has one for each side.

    >>> from quiltmath import settings
    >>> plan = settings.on_point(3, 8, 6)
    >>> plan.line("side triangle").squares, settings.upright_squares(plan)
    (5, 7)
    """
    if plan.style != "on point" or plan.edges not in ("plain", "framed"):
        raise ValueError(
            "squares for upright side triangles are counted for a plan on point with plain or framed ones; got one "
            f"that is {plan.style}{', ' + plan.edges if plan.style == 'on point' else ''}"
        )
    return max(plan.across, plan.down) - 1
