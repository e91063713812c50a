"""Explicit steps: what each gives, and the border strips that are sewn on by one."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from ..pattern.fields import PLACES
from ..pattern.names import SETTING, all_in
from .straight import EASED, OPPOSITE

if TYPE_CHECKING:
    from ..pattern.step import StepTable
    from ..sewing import Panel
    from .made import Made


def given_by(made: Made, step: StepTable) -> dict[str, Panel | None]:
    """{name: panel} of what an explicit step gives."""
    if step.cut is not None:
        return dict(zip(step.gives, _cut(made, step)))
    sewn = _turned(made, step) if step.turn is not None else _trimmed(made, step) if step.trim else _sewn(made, step)
    return {step.gives[0]: sewn}


def _cut(made, step):
    """Both pieces of a panel that is cut, the one on the left first."""
    panel = made.need(step.cut).laid_down()
    left, right = panel.cut(_point(step.from_, panel), _point(step.to, panel), made.seam)
    return left.laid_down(), right.laid_down()


def _turned(made, step):
    """A panel turned."""
    return made.need(step.turn).turn(step.by)


def _trimmed(made, step):
    """A panel without what the step takes off at each side."""
    panel = made.need(step.trim)
    width, height = panel.size
    bounds = {
        "left": float(step.left),
        "right": width - float(step.right),
        "bottom": float(step.bottom),
        "top": height - float(step.top),
    }
    cuts = {side: bound for side, bound in bounds.items() if getattr(step, side)}
    return panel.laid_down().trim(**cuts, seam=made.seam).laid_down()


def _sewn(made, step):
    """Two panels sewn together; what a border strip has too much is cut off first, for nobody sews that in."""
    mine, theirs = (made.need(name) for name in step.sew)
    border = border_in_step(made, step)
    if border is not None and border.have > border.wanted + EASED:
        side = "top" if step.edges[1] in ("left", "right") else "right"
        theirs = theirs.laid_down().trim(**{side: border.wanted}).laid_down()
    return mine.sew(theirs, *step.edges, made.seam, step.align)


class StepBorder(NamedTuple):
    """A border strip that a step sews to the top: its part, how long it is, and the edge it is sewn to, inches raw."""

    part: str
    have: float
    wanted: float


def border_in_step(made: Made, step: StepTable) -> StepBorder | None:
    """The border strip that an explicit step sews, by its long edge, to what holds the setting; None for any other
    step, or where it could not be sewn."""
    if step.sew is None or step.edges is None or SETTING not in all_in(made.sheet, step.sew[0]):
        return None
    mine, theirs = (made.panel(name) for name in step.sew)
    if mine is None or theirs is None or len(theirs.cuts) > 1 or step.edges[1] not in OPPOSITE:
        return None
    have = theirs.size[step.edges[1] in ("left", "right")]
    wanted = mine.edge(step.edges[0], made.seam).finished_length + 2 * made.seam
    return StepBorder(theirs.cuts[0].part, have, wanted) if have == max(theirs.size) else None


def _point(place, panel):
    """A point of a panel in inches from its lower left corner."""
    if isinstance(place, str):
        return tuple(float(share) * side for share, side in zip(PLACES[place], panel.size))
    return tuple(float(part) for part in place)
