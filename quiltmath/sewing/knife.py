"""The rotary cutter: a panel cut along a line. (Cut away from yourself, close the blade after every cut.)"""

from dataclasses import replace

import numpy as np

from ..shapes import NEAR, beyond, clipped, line_through, shortened
from . import arguments
from .arguments import CannotSew
from .edges import meet, reach


def cut(panel, start, end, seam):
    """The part on the left of the walk from start to end, and the part on its right."""
    start, end = arguments.point(start), arguments.point(end)
    if start == end:
        raise CannotSew(f"a cut runs from one point to another; got {start} twice: give two different points")
    normal, limit = line_through(start, end)
    left = cut_off(panel, normal, limit, seam)
    right = cut_off(panel, (-normal[0], -normal[1]), -limit, seam)
    if left is None or right is None:
        raise CannotSew(
            f"a cut goes through the fabric; the line from {start} to {end} misses this panel "
            f"{_lying(panel)}: give two points on the line where it crosses the panel"
        )
    return left, right


def trimmed(panel, left, right, bottom, top, seam):
    """What is left inside the given bounds."""
    for normal, bound, name in (
        ((-1.0, 0.0), left, "left"),
        ((1.0, 0.0), right, "right"),
        ((0.0, -1.0), bottom, "bottom"),
        ((0.0, 1.0), top, "top"),
    ):
        if bound is None:
            continue
        inside = cut_off(panel, normal, arguments.length(bound, name) * (normal[0] + normal[1]), seam)
        if inside is None:
            raise CannotSew(
                f"trimming the {name} at {bound} in leaves no fabric of this panel "
                f"{_lying(panel)}: choose a place inside it"
            )
        panel = inside
    return panel


def cut_off(panel, normal, limit, seam):
    """The cloth inside a line, raw along it, its lost meetings noted as `Panel` tells; None where nothing is left."""
    inside = kept(panel, normal, limit)
    if inside is None:
        return None
    past = np.maximum(beyond(panel.meets, normal, limit), 0.0)
    newly = ~_stay(panel.meets, inside.corners, normal, limit) & (past <= seam + NEAR)
    inside = _losing(inside, panel.meets[newly], past[newly], past[newly] + seam, normal)
    past = beyond(panel.lost, normal, limit)
    lost_by = panel.lost_by + past
    again = (past > NEAR) & (past <= seam + NEAR) & (lost_by <= 2 * seam + NEAR)
    return _losing(inside, panel.lost[again], past[again], lost_by[again], normal)


def kept(panel, normal, limit):
    """The cloth inside a line, raw along it; None where nothing is left."""
    inside = _inside(panel, normal, limit)
    if inside is None:
        return None
    edges, owner = _on_line(inside.corners, normal, limit)
    return replace(inside, raw=np.concatenate((inside.raw, edges)), owner=np.concatenate((inside.owner, owner)))


def folded(panel, normal, limit):
    """The cloth inside a seam line, nothing raw along it, meetings in its allowance lost; or None."""
    inside = _inside(panel, normal, limit)
    if inside is None:
        return None
    past = beyond(panel.meets, normal, limit)
    newly = past > NEAR
    inside = _losing(inside, panel.meets[newly], past[newly], past[newly], normal)
    past = beyond(panel.lost, normal, limit)
    again = past > NEAR
    return _losing(inside, panel.lost[again], past[again], panel.lost_by[again], normal)


def _lying(panel):
    """The space a panel takes up, for a message."""
    (left, bottom), (right, top) = panel.box
    return (
        f"of {right - left:.4g} x {top - bottom:.4g} in, which lies from ({left:.4g}, {bottom:.4g}) "
        f"to ({right:.4g}, {top:.4g})"
    )


def _losing(panel, points, past, by, normal):
    """The panel with these meetings lost, each noted where it comes nearest: on the line it lies past."""
    if len(points) == 0:
        return panel
    return replace(
        panel,
        lost=np.concatenate((panel.lost, points - past[:, None] * np.array(normal))),
        lost_by=np.concatenate((panel.lost_by, by)),
    )


def _inside(panel, normal, limit):
    """The panel reduced to the cloth inside a line, and what lies on it there; None where none is left."""
    corners, which = clipped(panel.corners, normal, limit)
    if len(which) == 0:
        return None
    number = np.full(len(panel.corners), -1)
    number[which] = np.arange(len(which))
    raw, stays = shortened(panel.raw, normal, limit)
    seams, seam_stays = shortened(panel.seams, normal, limit)
    lost = beyond(panel.lost, normal, limit) <= NEAR
    meets = panel.meets[_stay(panel.meets, corners, normal, limit)]
    return replace(
        panel,
        corners=corners,
        cuts=panel.cuts[which],
        grains=panel.grains[which],
        raw=raw,
        owner=number[panel.owner[stays]],
        meets=meets,
        seams=seams,
        differ=panel.differ[seam_stays],
        lost=panel.lost[lost],
        lost_by=panel.lost_by[lost],
    )


def _stay(meets, corners, normal, limit):
    """Which meetings lie inside the line, or on it where three or more of the patches left still meet."""
    past = beyond(meets, normal, limit)
    on = np.flatnonzero(np.abs(past) <= NEAR)
    stays = past <= NEAR
    if len(on):
        along = np.array((-normal[1], normal[0]))
        low, high, _ = reach(corners, normal, limit, along)
        stays[on] = meet(meets[on] @ along, low, high)
    return stays


def _on_line(corners, normal, limit):
    """The sides of patches that lie on the line, and whose they are."""
    on = np.abs(beyond(corners, normal, limit)) <= NEAR
    owner, side = np.nonzero(on & np.roll(on, -1, axis=1))
    ends = corners[owner, (side + 1) % corners.shape[1]]
    sides = np.stack((corners[owner, side], ends), axis=1)
    long = np.abs(sides[:, 1] - sides[:, 0]).max(axis=-1) > NEAR
    return sides[long], owner[long]
