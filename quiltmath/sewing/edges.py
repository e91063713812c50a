"""The edges of a panel: which one is meant, how long it is, what lies on it."""
from math import atan2, degrees
from typing import NamedTuple

import numpy as np

from ..shapes import NEAR, direction, line_through

NAMES = {"right": 0, "upper right": 45, "top": 90, "upper left": 135,
         "left": 180, "lower left": 225, "bottom": 270, "lower right": 315}
WITHIN = 30          # degrees: a named edge may face this far from its name
SAME_WAY = 1e-7      # as the cosine's distance from 1: edges that face one way


class Edge(NamedTuple):
    """One edge of a panel, before it is sewn: the raw line (normal . p = limit), the ends of the coming seam's finished
    length along it, and the places of the seams that run into it, all measured along the edge in inches."""
    normal: tuple
    limit: float
    start: float
    end: float
    breaks: np.ndarray

    @property
    def finished_length(self):
        """The length of the edge between its finished corners, once sewn."""
        return self.end - self.start


def line_of(panel, which):
    """The raw line of the edge that is meant, as (outward normal, limit).

    Where the raw edges that face one way do not lie in one line, the line that holds the most edge is meant.
    """
    along = panel.raw[:, 1] - panel.raw[:, 0]
    long = np.hypot(along[:, 0], along[:, 1])
    normals = np.stack((along[:, 1], -along[:, 0]), axis=1) / long[:, None]
    normal = normals[_facing(normals, long, panel.raw, which)]
    same = np.flatnonzero(normals @ normal > 1 - SAME_WAY)
    limits = panel.raw[same].sum(axis=1) @ normal / 2
    order = np.argsort(limits)
    first = np.concatenate(([True], np.diff(limits[order]) > NEAR))
    held = np.bincount(np.cumsum(first) - 1, weights=long[same][order])
    lines = limits[order][first]
    return normal, float(lines[np.flatnonzero(held > held.max() - NEAR)[-1]])


def _facing(normals, long, raw, which):
    """The number of a raw edge on the side that is meant."""
    from .panel import CannotSew
    if which == "long":
        return int(np.argmax(long))
    if isinstance(which, (tuple, list)) and len(which) == 2:
        (a, b), limit = line_through(*which)
        off = np.abs(raw @ np.array((a, b)) - limit).max(axis=1)
        if off.min() > 1e-3:
            raise CannotSew(f"no raw edge runs through {which[0]} and {which[1]}: the nearest lies {off.min():.3g} in off")
        return int(np.argmin(off))
    angle = NAMES.get(which) if isinstance(which, str) else which
    if angle is None or isinstance(angle, bool) or not isinstance(angle, (int, float)):
        raise CannotSew(f"an edge is named {', '.join([*NAMES_IN_ORDER, 'long'])}, or by an angle in degrees or two "
                        f"points on it; got {which!r}")
    towards = normals @ np.array(direction(angle))
    best = int(np.argmax(np.round(towards, 7) + 1e-9 * long / long.max()))
    if towards[best] < np.cos(np.radians(WITHIN)):
        ways = sorted({round(degrees(atan2(y, x)) % 360) for x, y in normals})
        raise CannotSew(f"no edge of this panel faces {which}; its edges face {', '.join(map(str, ways))} degrees "
                        "(0 is right, 90 is up): name one of them")
    return best


NAMES_IN_ORDER = ["left", "right", "top", "bottom", "upper left", "upper right", "lower left", "lower right"]


def distances(points, segments, block=4096):
    """The distance of each point from the nearest of at least one segment; points are taken a block at a time."""
    start, along = segments[:, 0], segments[:, 1] - segments[:, 0]
    length2 = (along ** 2).sum(axis=1)
    nearest = np.empty(len(points))
    for first in range(0, len(points), block):
        away = points[first:first + block, None] - start
        share = np.clip((away * along).sum(axis=-1) / length2, 0, 1)
        gap = away - share[..., None] * along
        nearest[first:first + block] = np.sqrt((gap ** 2).sum(axis=-1).min(axis=1))
    return nearest


def joined(raw, labels):
    """Raw edges that continue each other in one line and bear one label, joined: a list of (start, end, label)."""
    from_start = {}
    for number, (start, _) in enumerate(raw):
        from_start.setdefault(_key(start), []).append(number)
    following = {}
    for number, (start, end) in enumerate(raw):
        for other in from_start.get(_key(end), ()):
            if other != number and abs(labels[other] - labels[number]) < 0.01 and _straight(raw[number], raw[other]):
                following[number] = other
    has_one_before = set(following.values())
    runs = []
    for number in range(len(raw)):
        if number not in has_one_before:
            last = number
            while last in following:
                last = following[last]
            runs.append((raw[number][0], raw[last][1], labels[number]))
    return runs


def _key(point):
    return round(float(point[0]), 6), round(float(point[1]), 6)


def _straight(one, two):
    a, b = one[1] - one[0], two[1] - two[0]
    return abs(a[0] * b[1] - a[1] * b[0]) < 1e-6 * np.hypot(*a) * np.hypot(*b) and a @ b > 0
