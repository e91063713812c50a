"""Seams: two panels joined along an edge, or an outer edge gone into its binding."""
from dataclasses import replace
from math import atan2, degrees

import numpy as np

from ..shapes import NEAR, beyond
from . import knife
from .edges import Edge, line_of

EARS = 2.0           # seams: how far cloth may stand out past an edge and still be an ear to trim, not a set-in corner


class Fold:
    """A panel with one edge pressed under along its seam line, and what lies on that line.

    Places along the line are measured by `along . p`, so that the start is the lower end, or the left end of a level edge.
    """

    def __init__(self, panel, which, seam):
        from .panel import CannotSew
        self.normal, self.raw_limit = line_of(panel, which)
        self.limit = self.raw_limit - seam
        stands_out = float(beyond(panel.corners, self.normal, self.raw_limit).max())
        if stands_out > EARS * seam + NEAR:
            raise CannotSew(f"a seam runs along a whole straight edge, but cloth of this panel stands {stands_out:.3g} in "
                            f"past its {which} edge: a set-in seam cannot be simulated; join the parts in another "
                            "order, or trim that edge straight first")
        self.panel = knife.folded(panel, self.normal, self.limit)
        if self.panel is None:
            raise CannotSew(f"a seam of {seam:.4g} in on the {which} edge takes all the cloth of this panel of "
                            f"{panel.size[0]:.4g} x {panel.size[1]:.4g} in: cut it wider")
        across = np.array((-self.normal[1], self.normal[0]))
        forward = across[1] > NEAR or (abs(across[1]) <= NEAR and across[0] > 0)
        self.along = across if forward else -across
        self.low, self.high, self.owner = self._spans()
        self._no_gap(which, seam)
        self.start, self.end = self._finished_corners(seam)

    def _spans(self):
        """Where each patch lies along the seam line, in order."""
        on = np.abs(beyond(self.panel.corners, self.normal, self.limit)) <= NEAR
        owner = np.flatnonzero(on.sum(axis=1) >= 2)
        places = self.panel.corners[owner] @ self.along
        low = np.where(on[owner], places, np.inf).min(axis=1)
        high = np.where(on[owner], places, -np.inf).max(axis=1)
        order = np.flatnonzero(high - low > NEAR)
        order = order[np.argsort(low[order])]
        return low[order], high[order], owner[order]

    def _no_gap(self, which, seam):
        from .panel import CannotSew
        gaps = self.low[1:] - self.high[:-1]
        if len(self.low) == 0 or (len(gaps) and gaps.max() > 1e-6):
            raise CannotSew(f"on the {which} edge some cloth is cut short by more than the {seam:.4g} in seam, so the seam "
                            "misses it and leaves a hole: cut all parts of that edge to one line")

    def _finished_corners(self, seam):
        """Where the neighbouring edges, once they too are moved in by a seam, cross the seam line."""
        return (self.low[0] + seam * self._slant(self.low[0]), self.high[-1] - seam * self._slant(self.high[-1]))

    def _slant(self, place):
        """1 / sine of the angle at which the raw edge that ends at this place of the seam line meets it."""
        ends = self.panel.raw
        near = (np.abs(beyond(ends, self.normal, self.limit)) <= 1e-6) & (np.abs(ends @ self.along - place) <= 1e-6)
        beside = np.flatnonzero(near.any(axis=1))
        if len(beside) == 0:
            return 0.0                                   # that side is bound already: its corner is finished
        way = ends[beside, 1] - ends[beside, 0]
        sines = np.abs(way @ np.array(self.normal)) / np.hypot(way[:, 0], way[:, 1])
        return 1.0 / max(float(sines.max()), 0.1)

    @property
    def breaks(self):
        """Where seams of this panel run into the seam line."""
        return self.low[1:]


def edge(panel, which, seam):
    """The edge as the next seam will find it."""
    fold = Fold(panel, which, seam)
    return Edge(tuple(fold.normal.tolist()), fold.raw_limit, float(fold.start), float(fold.end), fold.breaks)


def sewn(panel, other, mine, theirs, seam, align):
    """The two panels joined; `panel` stays where it is."""
    ours = Fold(panel, mine, seam)
    faces = degrees(atan2(*ours.normal[::-1]))
    normal, _ = line_of(other, theirs)
    turn = _whole(faces + 180 - degrees(atan2(*normal[::-1])))
    other = other.moved(turn)
    yours = Fold(other, _same_edge(theirs, faces + 180), seam) if turn else Fold(other, theirs, seam)
    slide = _aligned(ours, yours, align)
    shift = slide * ours.along + (ours.limit + yours.limit) * ours.normal
    return _joined(ours, yours, yours.panel.moved(shift=shift), slide)


def _whole(angle):
    """An angle from 0 to 360, freed of float noise so that quarter and eighth turns are exact."""
    return float(round(angle, 9) % 360)


def _same_edge(which, faces):
    """The edge's name after its panel has been turned so that it faces `faces`."""
    return which if which == "long" else float(faces)


def _aligned(ours, yours, align):
    from .panel import CannotSew
    if align == "start":
        return ours.start - yours.start
    if align == "end":
        return ours.end - yours.end
    if align == "centre":
        return (ours.start + ours.end - yours.start - yours.end) / 2
    if isinstance(align, (tuple, list)) and len(align) == 2:
        try:
            return ours.breaks[align[0]] - yours.breaks[align[1]]
        except (IndexError, TypeError):
            raise CannotSew(f"seams on an edge are counted from 0 at its start; asked for {tuple(align)}, and the edges "
                            f"have {len(ours.breaks)} and {len(yours.breaks)} seams") from None
    raise CannotSew(f"edges are aligned at their start, end or centre, or by a pair of seams; got {align!r}")


def _joined(ours, yours, theirs, slide):
    """Both folded panels as one: the seam between them, the meetings on it, and the raw edges of what overhangs."""
    low, high = yours.low + slide, yours.high + slide
    left, right = max(ours.low[0], low[0]), min(ours.high[-1], high[-1])
    origin = ours.limit * ours.normal

    def points(places):
        return np.asarray(places)[..., None] * ours.along + origin

    whole = ours.panel.beside(theirs)
    mine_over = _overhang(ours.low, ours.high, ours.owner, low[0], high[-1])
    their_over = _overhang(low, high, yours.owner + len(ours.panel.corners), ours.low[0], ours.high[-1])
    spans = np.concatenate((mine_over[0], _backward(their_over[0])) if _anticlockwise(ours)
                           else (_backward(mine_over[0]), their_over[0]))
    breaks = np.sort(np.concatenate((ours.low[1:], low[1:])))
    breaks = breaks[(breaks > left + NEAR) & (breaks < right - NEAR)]
    if len(breaks):
        breaks = breaks[np.concatenate(([True], np.diff(breaks) > 1e-6))]
    difference = (ours.end - ours.start) - (yours.end - yours.start)
    return replace(
        whole,
        raw=np.concatenate((whole.raw, points(spans))),
        owner=np.concatenate((whole.owner, mine_over[1], their_over[1])),
        meets=np.concatenate((whole.meets, points(breaks))),
        seams=np.concatenate((whole.seams, points([[left, right]]))),
        differ=np.append(whole.differ, difference if abs(difference) > NEAR else 0.0))


def _anticlockwise(fold):
    """Whether walking along the seam line by `along` keeps the cloth of this panel on the left."""
    return fold.along @ np.array((-fold.normal[1], fold.normal[0])) > 0


def _overhang(low, high, owner, left, right):
    """The parts of the spans outside [left, right], as pairs of places, and whose they are."""
    before = np.stack((low, np.minimum(high, left)), axis=1)
    after = np.stack((np.maximum(low, right), high), axis=1)
    pieces, owners = np.concatenate((before, after)), np.concatenate((owner, owner))
    over = pieces[:, 1] - pieces[:, 0] > NEAR
    return pieces[over], owners[over]


def _backward(pieces):
    return pieces[:, ::-1]


def bound(panel, seam):
    """The panel with every outer edge moved in by its seam; refused where edges do not form one straight-sided outline."""
    from .panel import CannotSew
    for normal, limit in _outline(panel, seam):
        folded = knife.folded(panel, normal, limit - seam)
        if folded is None:
            raise CannotSew(f"a seam of {seam:.4g} in all round leaves nothing of this panel of {panel.size[0]:.4g} x "
                            f"{panel.size[1]:.4g} in: cut it larger")
        panel = folded
    if len(panel.raw):
        raise CannotSew("only straight edges round an outline without inner corners can be bound: trim the panel first")
    return panel


def _outline(panel, seam):
    """The lines of the outer edges: those past which no more cloth stands than an ear."""
    lines, seen = [], []
    for normal in _normals(panel.raw):
        if not any(normal @ other > 1 - 1e-9 for other in seen):
            seen.append(normal)
            angle = degrees(atan2(normal[1], normal[0]))
            normal, limit = line_of(panel, angle)
            if beyond(panel.corners, normal, limit).max() <= EARS * seam + NEAR:
                lines.append((normal, limit))
    return lines


def _normals(raw):
    along = raw[:, 1] - raw[:, 0]
    return np.stack((along[:, 1], -along[:, 0]), axis=1) / np.hypot(along[:, 0], along[:, 1])[:, None]
