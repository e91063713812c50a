"""The rotary cutter: a panel cut along a straight line. (Cut away from yourself, close the blade after every cut.)"""
from dataclasses import replace

import numpy as np

from ..shapes import NEAR, beyond, clipped, line_through, shortened


def cut(panel, start, end):
    """The part on the left of the walk from start to end, and the part on its right."""
    from .panel import CannotSew
    normal, limit = line_through([float(v) for v in start], [float(v) for v in end])
    left = kept(panel, normal, limit)
    right = kept(panel, (-normal[0], -normal[1]), -limit)
    if left is None or right is None:
        width, height = panel.size
        raise CannotSew(f"a cut goes through the cloth; the line from {tuple(start)} to {tuple(end)} misses this panel "
                        f"of {width:.4g} x {height:.4g} in: give two points on the line where it crosses the panel")
    return left, right


def trimmed(panel, left, right, bottom, top, seam):
    """What is left inside the given bounds; meetings of seams cut off by less than a seam are noted as lost."""
    from .panel import CannotSew
    for normal, bound in (((-1.0, 0.0), left), ((1.0, 0.0), right), ((0.0, -1.0), bottom), ((0.0, 1.0), top)):
        if bound is None:
            continue
        limit = float(bound) * (normal[0] + normal[1])
        past = beyond(panel.meets, normal, limit)
        gone = (past > NEAR) & (past < seam - NEAR)
        points = panel.meets[gone] - past[gone, None] * np.array(normal)
        before, panel = panel, kept(panel, normal, limit)
        if panel is None:
            raise CannotSew(f"trimming at {bound} in leaves no cloth of a panel of {before.size[0]:.4g} x "
                            f"{before.size[1]:.4g} in: choose a place inside it")
        panel = replace(panel, lost=np.concatenate((panel.lost, points)),
                        lost_by=np.concatenate((panel.lost_by, past[gone] + seam)))
    return panel


def kept(panel, normal, limit):
    """The cloth inside a line, raw along it; None where nothing is left."""
    corners, which = clipped(panel.corners, normal, limit)
    if len(which) == 0:
        return None
    inside = _inside(panel, corners, which, normal, limit)
    edges, owner = _on_line(corners, normal, limit)
    return replace(inside, raw=np.concatenate((inside.raw, edges)), owner=np.concatenate((inside.owner, owner)),
                   meets=panel.meets[beyond(panel.meets, normal, limit) <= NEAR])


def folded(panel, normal, limit):
    """The cloth inside a seam line, its allowance pressed under: nothing raw along it, meetings in it lost."""
    corners, which = clipped(panel.corners, normal, limit)
    if len(which) == 0:
        return None
    inside = _inside(panel, corners, which, normal, limit)
    past = beyond(panel.meets, normal, limit)
    gone = past > NEAR
    points = panel.meets[gone] - past[gone, None] * np.array(normal)
    return replace(inside, meets=panel.meets[past < -NEAR], lost=np.concatenate((inside.lost, points)),
                   lost_by=np.concatenate((inside.lost_by, past[gone])))


def _inside(panel, corners, which, normal, limit):
    """The panel reduced to these clipped patches, with the raw edges and seams that lie inside the line."""
    number = np.full(len(panel.corners), -1)
    number[which] = np.arange(len(which))
    raw, stays = shortened(panel.raw, normal, limit)
    owner = number[panel.owner[stays]]
    seams, seam_stays = shortened(panel.seams, normal, limit)
    lost = beyond(panel.lost, normal, limit) <= NEAR
    return replace(panel, corners=corners, cuts=panel.cuts[which], grains=panel.grains[which], raw=raw, owner=owner,
                   seams=seams, differ=panel.differ[seam_stays], lost=panel.lost[lost], lost_by=panel.lost_by[lost])


def _on_line(corners, normal, limit):
    """The sides of patches that lie on the line, and whose they are."""
    ends = np.roll(corners, -1, axis=1)
    on = np.abs(beyond(corners, normal, limit)) <= NEAR
    along = on & np.roll(on, -1, axis=1) & (np.abs(ends - corners).max(axis=-1) > NEAR)
    owner, side = np.nonzero(along)
    return np.stack((corners[owner, side], ends[owner, side]), axis=1), owner
