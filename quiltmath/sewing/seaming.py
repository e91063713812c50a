"""Seams: two panels joined along an edge, or an outer edge gone into its binding."""

from dataclasses import replace
from math import atan2, degrees
from numbers import Real

import numpy as np

from ..shapes import NEAR, beyond, ranked
from . import arguments, knife
from .arguments import CannotSew
from .edges import EARS, Edge, line_of, meet, most_held, past, reach


class Fold:
    """A panel with one edge pressed under along its seam line, and what lies on that line.

    Places along the line are measured by `along . p`, so that the start is the lower end, or the left end of
    a level edge. `low`, `high` and `owner` tell where each patch lies on it, in order, and `touches` where
    each begins and ends to touch it, if only with a corner; `start` and `end` are the finished corners.
    """

    def __init__(self, panel, normal, raw_limit, which, seam):
        self.normal, self.raw_limit, self.limit = normal, raw_limit, raw_limit - seam
        self.panel = knife.folded(panel, normal, self.limit)
        if self.panel is None:
            width, height = panel.size
            raise CannotSew(
                f"a seam of {seam:.4g} in on the {which} edge takes all the fabric of this panel "
                f"of {width:.4g} x {height:.4g} in: cut it wider"
            )
        across = np.array((-normal[1], normal[0]))
        self.forward = bool(across[1] > NEAR or (abs(across[1]) <= NEAR and across[0] > 0))
        self.along = across if self.forward else -across
        low, high, owner = reach(self.panel.corners, normal, self.limit, self.along)
        lies = high - low > NEAR
        self.touches = np.stack((low, high))
        self.low, self.high, self.owner = low[lies], high[lies], owner[lies]
        if len(self.owner) == 0 or (self.low[1:] - self.high[:-1] > NEAR).any():
            raise CannotSew(
                f"on the {which} edge some fabric is cut short by more than the {seam:.4g} in "
                "seam, so the seam misses it and leaves a hole: cut all parts of that edge to one "
                "line"
            )
        slant, slant_at_end = self._slants(self.low[0], self.high[-1])
        self.start, self.end = self.low[0] + seam * slant, self.high[-1] - seam * slant_at_end

    def _slants(self, *places):
        """1 / sine of the angle at which the raw edge that ends at each of these places of the seam line meets it.

        One seam times this lies between that end and the finished corner; 0 where that side is bound already.
        """
        raw = self.panel.raw
        on = np.abs(beyond(raw, self.normal, self.limit)) <= NEAR
        crosses = np.flatnonzero(on[:, 0] != on[:, 1])
        raw, on = raw[crosses], on[crosses]
        ends = raw @ self.along
        for place in places:
            beside = raw[(on & (np.abs(ends - place) <= NEAR)).any(axis=1)]
            way = beside[:, 1] - beside[:, 0]
            slants = np.hypot(way[:, 0], way[:, 1]) / np.abs(way @ self.normal)
            yield float(slants.min()) if len(beside) else 0.0

    @property
    def breaks(self):
        """Where seams of this panel run into the seam line."""
        return self.low[1:]


def edge(panel, which, seam):
    """The edge as the next seam will find it."""
    fold = Fold(panel, *line_of(panel, which, seam), which, seam)
    return Edge(tuple(fold.normal.tolist()), fold.raw_limit, float(fold.start), float(fold.end), fold.breaks)


def sewn(panel, other, mine, theirs, seam, align):
    """The two panels joined; `panel` stays where it is."""
    normal, limit = line_of(panel, mine, seam)
    their_normal, their_limit = line_of(other, theirs, seam)
    ours = Fold(panel, normal, limit, mine, seam)
    yours = Fold(other.moved(_turn(their_normal, -normal)), -normal, their_limit, theirs, seam)
    slide = _aligned(ours, yours, align)
    shift = slide * ours.along + (ours.limit + yours.limit) * ours.normal
    return _joined(ours, yours, yours.panel.moved(shift=shift), slide)


def _turn(one, two):
    """The angle from one direction to another; multiples of 45 degrees are freed of float noise."""
    angle = degrees(atan2(one[0] * two[1] - one[1] * two[0], one @ two))
    eighth = 45.0 * round(angle / 45)
    return eighth if abs(angle - eighth) < 1e-10 else angle


def _aligned(ours, yours, align):
    """How far along the seam line the other panel slides; a function of both folds may tell it."""
    if callable(align):
        return align(ours, yours)
    if isinstance(align, Real) and not isinstance(align, bool):
        return ours.start + arguments.length(align, "inches from the start") - yours.start
    if isinstance(align, (tuple, list)) and len(align) == 2:
        try:
            return ours.breaks[align[0]] - yours.breaks[align[1]]
        except (IndexError, TypeError):
            raise CannotSew(
                f"seams on an edge are counted from 0 at its start; asked for {tuple(align)}, "
                f"and the edges have {len(ours.breaks)} and {len(yours.breaks)} seams"
            ) from None
    slides = {"start": ours.start - yours.start, "end": ours.end - yours.end}
    slides["centre"] = (slides["start"] + slides["end"]) / 2
    if not isinstance(align, str) or align not in slides:
        raise CannotSew(
            "edges are aligned at their start, end or centre, by inches from the start, or by a "
            f"pair of seams; got {align!r}"
        )
    return slides[align]


def _joined(ours, yours, theirs, slide):
    """Both folded panels as one: the seam, the meetings on it, and the raw edges of what overhangs."""
    low, high = yours.low + slide, yours.high + slide
    left, right = max(ours.low[0], low[0]), min(ours.high[-1], high[-1])
    if right - left <= NEAR:
        raise CannotSew(
            "two edges sewn together lie side by side; aligned like this one ends "
            f"{max(0.0, left - right):.3g} in before the other begins: align them otherwise"
        )
    whole = ours.panel.beside(theirs)
    origin = ours.limit * ours.normal

    def points(places):
        return np.asarray(places)[..., None] * ours.along + origin

    mine_over, my_owner = overhang(ours.low, ours.high, ours.owner, low[0], high[-1])
    their_numbers = yours.owner + len(ours.panel.corners)
    their_over, their_owner = overhang(low, high, their_numbers, ours.low[0], ours.high[-1])
    if ours.forward:  # raw edges keep their cloth on the left
        their_over = their_over[:, ::-1]
    else:
        mine_over = mine_over[:, ::-1]
    touches = np.concatenate((ours.touches, yours.touches + slide), axis=1)
    places = touches[(touches >= left - NEAR) & (touches <= right + NEAR)]
    places = places[np.unique(ranked(places), return_index=True)[1]]
    places = places[meet(places, *touches)]
    in_seam = (np.abs(beyond(whole.meets, ours.normal, ours.limit)) <= NEAR) & (
        np.abs(whole.meets @ ours.along - (left + right) / 2) <= (right - left) / 2 + NEAR
    )
    difference = (ours.end - ours.start) - (yours.end - yours.start)
    lost, lost_by = _lost_once(ours, theirs)
    return replace(
        whole,
        lost=lost,
        lost_by=lost_by,
        raw=np.concatenate((whole.raw, points(mine_over), points(their_over))),
        owner=np.concatenate((whole.owner, my_owner, their_owner)),
        meets=np.concatenate((whole.meets[~in_seam], points(places))),
        seams=np.concatenate((whole.seams, points([[left, right]]))),
        differ=np.append(whole.differ, difference if abs(difference) > NEAR else 0.0),
    )


def _lost_once(ours, theirs):
    """The lost meetings of both panels; two that they lost at one place of the seam are one, lost by the more."""
    one, two = ours.panel, theirs
    lost, lost_by = np.concatenate((one.lost, two.lost)), np.concatenate((one.lost_by, two.lost_by))
    here = np.flatnonzero(np.abs(beyond(lost, ours.normal, ours.limit)) <= NEAR)
    is_mine = here < len(one.lost)
    if is_mine.all() or not is_mine.any():
        return lost, lost_by
    deepest_first, at = here[np.argsort(-lost_by[here], kind="stable")].tolist(), {}
    place = dict(zip(here.tolist(), ranked(lost[here] @ ours.along).tolist()))
    for number in deepest_first:
        at.setdefault(place[number], ([], []))[number >= len(one.lost)].append(number)
    again = [min(pair, key=lost_by.item) for both in at.values() for pair in zip(*both)]
    return np.delete(lost, again, axis=0), np.delete(lost_by, again)


def overhang(low, high, owner, left, right):
    """The parts of the spans outside [left, right], as pairs of places, and whose they are."""
    before = np.stack((low, np.minimum(high, left)), axis=1)
    after = np.stack((np.maximum(low, right), high), axis=1)
    pieces, owners = np.concatenate((before, after)), np.concatenate((owner, owner))
    over = pieces[:, 1] - pieces[:, 0] > NEAR
    return pieces[over], owners[over]


def bound(panel, seam):
    """The panel with every outer edge moved in by its seam; refused where they form no such outline."""
    inside = panel
    for normal, limit in _outline(panel, seam):
        inside = knife.folded(inside, normal, limit - seam)
        if inside is None:
            width, height = panel.size
            raise CannotSew(
                f"a seam of {seam:.4g} in all round leaves nothing of this panel of "
                f"{width:.4g} x {height:.4g} in: cut it larger"
            )
    if len(inside.raw):
        raise CannotSew("only straight edges round an outline without inner corners can be bound: trim the panel first")
    return inside


def _outline(panel, seam):
    """The lines of the outer edges: of each way they face the one `line_of` means, where there is one."""
    if len(panel.raw) == 0:
        return
    lines = panel.raw_lines.only(past(panel.raw_lines, panel.corners) <= EARS * seam + NEAR)
    for facing in np.unique(lines.facing):
        yield most_held(lines.only(lines.facing == facing))
