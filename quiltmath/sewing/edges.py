"""The edges of a panel: which one is meant, how long it is, what lies on it."""

from collections.abc import Sequence
from numbers import Real
from typing import NamedTuple

import numpy as np

from ..shapes import NEAR, beyond, box, line_through, ranked
from . import arguments
from .arguments import CannotSew

NAMES = {
    "left": 180,
    "right": 0,
    "top": 90,
    "bottom": 270,
    "upper left": 135,
    "upper right": 45,
    "lower left": 225,
    "lower right": 315,
}
WITHIN = 30  # degrees: a named edge may face this far from its name
SAME_WAY = 1e-4  # degrees: edges whose outward normals differ by less face one way
TYPED = 1e-3  # inches: how far off an edge its points may be given
TOGETHER = 64  # points whose distances are measured together
Which = str | float | Sequence  # an edge: by name, by the angle it faces, or by two points on it
EARS = 2.0  # seams: cloth that stands out by no more is an ear to trim, not a set-in corner


class Edge(NamedTuple):
    """One edge of a panel before it is sewn.

    Its raw line (outward normal . p = limit), the finished corners of the coming seam and the places of the
    seams that run into it, measured along the edge in inches.
    """

    normal: tuple
    limit: float
    start: float
    end: float
    breaks: np.ndarray

    @property
    def finished_length(self) -> float:
        """The length of the edge between its finished corners, once sewn."""
        return self.end - self.start


class RawLines(NamedTuple):
    """The n straight lines the raw edges of a panel lie on.

    Their outward normals (n x 2) and limits (n) with normal . p = limit, the ways they face (degrees), a
    number for each way, and the inches of raw edge on each.
    """

    normals: np.ndarray
    limits: np.ndarray
    angles: np.ndarray
    facing: np.ndarray
    held: np.ndarray

    def only(self, which):
        """Those of the lines that a mask or their numbers pick."""
        return RawLines(*(column[which] for column in self))


def raw_lines(raw):
    """The lines on which these raw edges lie; the longest edge facing one way tells that way best."""
    along = raw[:, 1] - raw[:, 0]
    long = np.hypot(along[:, 0], along[:, 1])
    normals = np.stack((along[:, 1], -along[:, 0]), axis=1) / long[:, None]
    angles = np.degrees(np.arctan2(normals[:, 1], normals[:, 0]))
    facing = ranked(np.where(angles > 180 - SAME_WAY, angles - 360, angles), SAME_WAY)
    shortest_first = np.argsort(long, kind="stable")
    longest = np.empty(facing.max() + 1, dtype=int)
    longest[facing[shortest_first]] = shortest_first
    limits = (raw[:, 0] * normals[longest[facing]]).sum(axis=1)
    places = ranked(limits)
    _, first, line = np.unique(facing * (places.max() + 1) + places, return_index=True, return_inverse=True)
    best = longest[facing[first]]
    held = np.bincount(line, weights=long)
    return RawLines(normals[best], limits[first], angles[best], facing[first], held)


def line_of(panel, which, seam):
    """The raw line of the edge that is meant, as (outward normal, limit).

    Of several lines that face one way the one that holds the most raw edge is meant, among those past which
    no more cloth stands out than an ear.
    """
    if len(panel.raw) == 0:
        raise CannotSew("bound fabric has no raw edge left: sew it before you bind it")
    lines = _meant(panel.raw_lines, which)
    stands_out = past(lines, panel.corners)
    free = stands_out <= EARS * seam + NEAR
    if not free.any():
        raise CannotSew(
            "a seam runs along a whole straight edge, but fabric of this panel stands "
            f"{stands_out.min():.3g} in past its {_called(which)}: a set-in seam cannot be "
            "simulated; join the parts in another order, or trim that edge straight first"
        )
    return most_held(lines.only(free))


def most_held(lines):
    """The line that holds the most raw edge, the outermost of several, as (outward normal, limit)."""
    most = np.flatnonzero(lines.held > lines.held.max() - NEAR)
    meant = most[np.argmax(lines.limits[most])]
    return lines.normals[meant], float(lines.limits[meant])


def past(lines, corners):
    """How far the cloth stands out past each line, in inches; what faces one way is measured once."""
    _, first, way = np.unique(lines.facing, return_index=True, return_inverse=True)
    return (lines.normals[first] @ corners.reshape(-1, 2).T).max(axis=1)[way] - lines.limits


def _meant(lines, which):
    """The lines that face the way that is meant, or the one line given by its points."""
    if isinstance(which, str) and which == "long":
        longest = np.flatnonzero(lines.held > lines.held.max() - NEAR)
        _only_one(lines, longest, "are the longest")
        return lines.only(longest)
    if isinstance(which, (tuple, list)) and len(which) == 2:
        return _through(lines, *(arguments.point(end, "a point on an edge") for end in which))
    named = isinstance(which, str) and which in NAMES
    if not named and (not isinstance(which, Real) or isinstance(which, bool)):
        raise CannotSew(
            f"an edge is named {', '.join(NAMES)}, long, or by an angle in degrees or two points on it; got {which!r}"
        )
    faces = NAMES[which] if named else arguments.angle(which, "the way an edge faces")
    way = which if named else f"{faces:.4g}"
    off = np.abs((lines.angles - faces + 180) % 360 - 180)
    if off.min() > WITHIN + SAME_WAY:
        raise CannotSew(
            f"no edge of this panel faces {way}; its edges face {_ways(lines)} degrees "
            "(0 is right, 90 is up): name one of them"
        )
    nearest = np.flatnonzero(off < off.min() + SAME_WAY)
    _only_one(lines, nearest, f"face {way} alike")
    return lines.only(nearest)


def _called(which):
    """An edge in words, as it was meant."""
    if isinstance(which, str):
        return f"{which} edge"
    if isinstance(which, Real):
        return f"edge that faces {which:.4g} degrees"
    return "edge through {} and {}".format(*which)


def _only_one(lines, numbers, alike):
    """Refused where the lines picked face different ways."""
    if len(set(lines.facing[numbers])) > 1:
        raise CannotSew(
            f"one edge is sewn at a time, and the edges of this panel that face "
            f"{_ways(lines.only(numbers))} degrees {alike} (0 is right, 90 is up): "
            "name one of them by its angle"
        )


def _through(lines, start, end):
    """The one line nearest to both points."""
    line_through(start, end)
    off = np.abs(lines.normals @ np.array((start, end)).T - lines.limits[:, None]).max(axis=1)
    if off.min() > TYPED:
        raise CannotSew(
            f"no raw edge runs through {start} and {end}: the nearest lies {off.min():.3g} in "
            "off; raw_edges() lists them all"
        )
    return lines.only([np.argmin(off)])


def _ways(lines):
    return ", ".join(map(str, sorted({round(angle) % 360 for angle in lines.angles.tolist()})))


def reach(corners, normal, limit, along):
    """Where each patch that touches a line begins and ends to do so, in order, and the patches' numbers."""
    on = np.abs(beyond(corners, normal, limit)) <= NEAR
    owner = np.flatnonzero(np.ascontiguousarray(on.T).any(axis=0))
    places, on = corners[owner] @ along, on[owner]
    low, high = np.where(on, places, np.inf).min(axis=1), np.where(on, places, -np.inf).max(axis=1)
    order = np.argsort(low, kind="stable")
    return low[order], high[order], owner[order]


def meet(places, low, high):
    """Which places of a line three or more patches touch, given where each patch begins and ends to do so."""
    begun = np.searchsorted(np.sort(low), places + NEAR, side="right")
    ended = np.searchsorted(np.sort(high) + NEAR, places, side="left")
    return begun - ended >= 3


def distances(points, segments):
    """The distance of each point from the nearest of at least one segment.

    Points that lie together are taken together: of all segments, only some can be the nearest one to any of them.
    """
    nearest = np.empty(len(points))
    for here in _together(points):
        low, high = box(points[here])
        away = _gaps((low + high)[None] / 2, segments)[0]
        near = segments[away <= away.min() + np.hypot(*(high - low)) + NEAR]
        nearest[here] = _gaps(points[here], near).min(axis=1)
    return nearest


def _together(points):
    """The numbers of the points, `TOGETHER` neighbours at a time: column by column, each from the bottom up."""
    columns = max(1.0, np.sqrt(len(points) / TOGETHER))
    across = points[:, 0] - points[:, 0].min(initial=np.inf)
    column = np.floor(across * columns / max(across.max(initial=0.0), NEAR))
    order = np.lexsort((points[:, 1], column))
    return [order[first : first + TOGETHER] for first in range(0, len(order), TOGETHER)]


def _gaps(points, segments):
    """The distance of each point from each segment."""
    (left, low), (x, y) = segments[:, 0].T, (segments[:, 1] - segments[:, 0]).T
    across, up = points[:, :1] - left, points[:, 1:] - low
    share = np.clip((across * x + up * y) / (x * x + y * y), 0, 1)
    return np.hypot(across - share * x, up - share * y)


def walked(raw, labels):
    """The raw edges as one walks round the cloth, with it on the left, from the lowest corner.

    Of several lowest corners the leftmost is taken. Edges that continue each other in one line and bear one
    label are one. Returns segments (n x 2 x 2) and labels.
    """
    if len(raw) == 0:
        return raw, labels
    order = np.fromiter(_walk(raw), dtype=int)
    raw, labels = raw[order], labels[order]
    along = raw[:, 1] - raw[:, 0]
    along = along / np.hypot(along[:, 0], along[:, 1])[:, None]
    one, two = along[:-1], along[1:]
    bend = np.abs(one[:, 0] * two[:, 1] - one[:, 1] * two[:, 0])
    continues = (
        (bend < NEAR)
        & ((one * two).sum(axis=1) > 0)
        & (np.abs(np.diff(labels)) < 0.01)
        & (np.abs(raw[1:, 0] - raw[:-1, 1]).max(axis=1) <= NEAR)
    )
    first = np.flatnonzero(np.concatenate(([True], ~continues)))
    last = np.append(first[1:], len(raw)) - 1
    return np.stack((raw[first, 0], raw[last, 1]), axis=1), labels[first]


def _walk(raw):
    """The numbers of the raw edges in walking order."""
    across, up = ranked(raw[..., 0]), ranked(raw[..., 1])
    begins, ends = (up * (across.max() + 1) + across).T.tolist()
    waiting = {}
    for number in reversed(range(len(raw))):
        waiting.setdefault(begins[number], []).append(number)
    for lowest in sorted(waiting):
        while waiting[lowest]:
            corner = lowest
            while waiting.get(corner):
                number = waiting[corner].pop()
                yield number
                corner = ends[number]
