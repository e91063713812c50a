"""A panel of cloth: what it is made of, and what can be read off it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property
from typing import NoReturn

import numpy as np

from .. import usual
from ..shapes import NEAR, areas, box, named_grain, off_grain, rectangle, turned, widened
from . import arguments, edges, knife, mitring, seaming
from .arguments import CannotSew, Length, Point
from .seen import CutAs, Junction, Patch, RawEdge, Seam

SEAM = float(usual.SEAM)  # inches, where no other seam is given
Align = Length | tuple[int, int]  # which finished corners meet, or which seams: see `Panel.sew`


@dataclass(frozen=True, eq=False)
class Panel:
    """Cloth right side up: what is visible of it, up to its raw edges. Each step makes a new panel.

    All is kept as arrays, in inches:

    - `corners` (n x k x 2): the visible patches, the last corner of one with fewer than k repeated;
      `cuts` (n) what each was cut as, `grains` (n) the degrees its lengthwise thread runs at;
    - `raw` (m x 2 x 2): the raw edges, cloth on the left; `owner` (m) the number of the patch each belongs to;
    - `meets` (j x 2): the points where seams meet;
    - `seams` (s x 2 x 2): the sewn seams; `differ` (s) by how much the two edges of each differed;
    - `lost` (l x 2): the meetings that seams and cuts have taken, each noted on the line it lies past;
      `lost_by` (l) how far past the seam line each lay.

    Which meetings are lost:

    - A seam takes those in its allowance.
    - A cut takes those no more than a seam past it, and those on it where no three patches meet any more. The
      next seam line runs a seam inside the new raw edge, so one that lies 1/8 past the cut is lost by 3/8.
    - What was lost before and is cut off is lost by so much more, and forgotten beyond two seams.
    - Each piece of a cut notes what it lost itself. Where a seam joins two pieces that have lost a meeting at one
      place of it, that is one meeting, lost by the more of the two.
    """

    corners: np.ndarray
    cuts: np.ndarray
    grains: np.ndarray
    raw: np.ndarray
    owner: np.ndarray
    meets: np.ndarray = field(default_factory=lambda: np.empty((0, 2)))
    seams: np.ndarray = field(default_factory=lambda: np.empty((0, 2, 2)))
    differ: np.ndarray = field(default_factory=lambda: np.empty(0))
    lost: np.ndarray = field(default_factory=lambda: np.empty((0, 2)))
    lost_by: np.ndarray = field(default_factory=lambda: np.empty(0))

    # -- what you do with it ---------------------------------------------------------------------------------

    def sew(
        self,
        other: Panel,
        mine: edges.Which = "right",
        theirs: edges.Which = "left",
        seam: Length = SEAM,
        align: Align = "start",
    ) -> Panel:
        """This panel with `other` sewn to it, edge to edge; the other turns to meet this one.

        An edge is named by the way it faces ("right", "upper left", "long" for the longest, degrees, or two
        points on it). `align` says which finished corners meet: "start" (the lower or left end), "end",
        "centre", by how many inches their start comes after mine, or a pair (i, j): my i-th seam on that edge
        matched to their j-th, as nested seams are.

        >>> strip = patch(size=("1 1/2", 6))
        >>> strip.sew(strip).sew(strip).size
        (3.5, 6.0)
        >>> strip.sew(patch(size=(1, 1)), mine="inside")
        Traceback (most recent call last):
        quiltmath.sewing.arguments.CannotSew: an edge is named left, right, top, bottom, upper left, \
upper right, lower left, lower right, long, or by an angle in degrees or two points on it; got 'inside'
        """
        if not isinstance(other, Panel):
            raise CannotSew(f"a panel is sewn to a panel; got {other!r}: make one with patch()")
        return seaming.sewn(self, other, mine, theirs, arguments.seam_width(seam), align).laid_down()

    def cut(self, start: Point, end: Point, seam: Length = SEAM) -> tuple[Panel, Panel]:
        """The two panels a straight cut leaves: first the one on the left, walking from start to end.

        Both keep their place on the table, so a second cut can be given in the same coordinates. A meeting of
        seams taken off either one, no more than a seam past the cut, is noted in its `lost`.

        >>> half, other = patch(size=(4, 4)).cut((0, 0), (4, 4))
        >>> [edge.grain for edge in half.raw_edges()]
        ['bias', 'straight', 'straight']
        """
        return knife.cut(self, start, end, arguments.seam_width(seam))

    def trim(
        self,
        left: Length | None = None,
        right: Length | None = None,
        bottom: Length | None = None,
        top: Length | None = None,
        seam: Length = SEAM,
    ) -> Panel:
        """What is left after straight cuts at any of these places, in inches as the panel lies.

        A meeting of seams taken off, no more than a seam past a cut, is noted in `lost`.

        >>> patch(size=(5, 5)).trim(left=1, top=4).size
        (4.0, 4.0)
        """
        return knife.trimmed(self, left, right, bottom, top, arguments.seam_width(seam))

    def turn(self, angle: float) -> Panel:
        """The panel turned anticlockwise by so many degrees, its lower left corner laid at (0, 0).

        >>> [round(side, 3) for side in patch(size=(1, 1)).turn(45).size]
        [1.414, 1.414]
        """
        return self.moved(arguments.angle(angle)).laid_down()

    def bind(self, seam: Length = SEAM) -> Panel:
        """What you see once every outer edge has gone into a seam or under the binding: no edge is raw.

        >>> patch(size=(4, 4)).bind().size
        (3.5, 3.5)
        """
        return seaming.bound(self, arguments.seam_width(seam)).laid_down()

    def mitred(
        self, sides: Panel | tuple[Panel, Panel], ends: Panel | tuple[Panel, Panel], seam: Length = SEAM
    ) -> Panel:
        """This rectangle with a border of four strips, the seam at each corner running from the inner to the outer one.

        The strips lie as they will in the quilt, side strips upright, the `ends` (bottom and top) level; one
        panel stands for both of a pair, or give the pair (left, right) or (bottom, top). A strip is sewn on by
        its middle, one cut too short leaves its hole, and what is too long is trimmed off.

        >>> side, end = patch(size=("2 1/2", 15)), patch(size=(17, "2 1/2"))
        >>> patch(size=("12 1/2", "10 1/2")).mitred(side, end).size
        (16.5, 14.5)
        >>> patch(corners=[(0, 0), (8, 0), (0, 8)]).mitred(side, end)
        Traceback (most recent call last):
        quiltmath.sewing.arguments.CannotSew: mitred borders go round a rectangle; the outline of this panel of \
8 x 8 in is not one: square it up first
        """
        return mitring.mitred(self, sides, ends, arguments.seam_width(seam))

    def mirror(self) -> NoReturn:
        """Refused: cloth has a right side.

        >>> patch(size=(1, 1)).mirror()
        Traceback (most recent call last):
        quiltmath.sewing.arguments.CannotSew: fabric has a right side and can be turned but never mirrored: \
cut the mirror image as a part of its own
        """
        raise CannotSew(
            "fabric has a right side and can be turned but never mirrored: cut the mirror image as a part of its own"
        )

    # -- what you read off it --------------------------------------------------------------------------------

    @cached_property
    def size(self) -> tuple[float, float]:
        """(width, height) of the cloth as it lies, in inches."""
        low, high = self.box
        return float(high[0] - low[0]), float(high[1] - low[1])

    @cached_property
    def box(self) -> tuple[np.ndarray, np.ndarray]:
        """The lower left and upper right corners of the space the cloth takes up, as arrays."""
        return box(self.corners)

    @cached_property
    def raw_lines(self) -> edges.RawLines:
        """The straight lines its raw edges lie on: see `edges.RawLines`."""
        return edges.raw_lines(self.raw)

    @cached_property
    def area(self) -> float:
        """The visible area, in square inches."""
        return float(areas(self.corners).sum())

    @cached_property
    def patches(self) -> list[Patch]:
        """Every visible patch, as a list of `Patch`."""
        repeats = (np.diff(self.corners, axis=1) == 0).all(axis=-1)
        counts = self.corners.shape[1] - repeats.sum(axis=1)
        return [
            Patch(corners[:count], cut.fabric, float(grain), cut.part)
            for corners, count, cut, grain in zip(self.corners, counts, self.cuts, self.grains)
        ]

    def count(self, part: str) -> int:
        """How many visible patches were cut as this part."""
        return sum(cut.part == part for cut in self.cuts)

    def junctions(self, seam: Length = SEAM) -> list[Junction]:
        """Where seams meet (three or more patches at a point), as a list of `Junction`, the least deep first.

        The depth is the distance from the nearest raw edge, infinite on bound cloth; the next `seam` takes
        `seam - depth` of it where that is more than nothing.
        """
        return self._junctions(arguments.seam_width(seam))

    def _junctions(self, seam, deepest=np.inf):
        """The junctions no deeper than `deepest`, inches."""
        here = np.flatnonzero(self._depths <= deepest)
        meets, depths = self.meets[here], self._depths[here]
        order = np.lexsort((meets[:, 0], meets[:, 1], depths.round(6)))
        return [
            Junction((x, y), depth, seam - depth if depth < seam - NEAR else 0.0)
            for (x, y), depth in zip(meets[order].tolist(), depths[order].tolist())
        ]

    def lost_points(self, seam: Length = SEAM) -> list[tuple[tuple[float, float], float]]:
        """The points that the next seam would take and those that an earlier one has, each with how much of it is lost.

        At a corner of the cloth, where two raw edges or two sides of bound cloth meet, there is no point to see.
        """
        seam = arguments.seam_width(seam)
        taken_next = [(one.point, one.lost_by) for one in self._junctions(seam, seam) if one.lost_by > 0]
        if len(self.lost) == 0:
            return taken_next
        normals, limits = self._outside_lines()
        beside = np.abs(self.lost @ normals.T - limits) <= seam + NEAR
        seen = beside.sum(axis=1) < 2
        return [*taken_next, *zip(map(tuple, self.lost[seen].tolist()), self.lost_by[seen].tolist())]

    def _outside_lines(self):
        """The outward normals and limits (normal . p = limit) of the lines its raw edges lie on, or of the space that
        bound cloth takes up."""
        if len(self.raw):
            return self.raw_lines.normals, self.raw_lines.limits
        low, high = self.box
        return np.array([(-1, 0), (0, -1), (1, 0), (0, 1)]), np.concatenate((-low, high))

    def depths(self) -> np.ndarray:
        """The distance of each of `meets` from the nearest raw edge, infinite on bound cloth."""
        return self._depths.copy()

    @cached_property
    def _depths(self) -> np.ndarray:
        if len(self.meets) == 0 or len(self.raw) == 0:
            return np.full(len(self.meets), np.inf)
        return edges.distances(self.meets, edges.walked(self.raw, np.zeros(len(self.raw)))[0])

    def raw_edges(self) -> list[RawEdge]:
        """The raw edges as a list of `RawEdge`, walking anticlockwise from the lowest corner.

        Of several lowest corners the leftmost is taken. Neighbours in one line and of one grain count as one
        edge.

        >>> [edge.length for edge in patch(size=(4, 3)).raw_edges()]
        [4.0, 3.0, 4.0, 3.0]
        """
        return list(self._raw_edges)

    @cached_property
    def _raw_edges(self) -> tuple[RawEdge, ...]:
        grains = self.grains[self.owner]
        off = np.array([off_grain(start, end, grain) for (start, end), grain in zip(self.raw, grains)])
        segments, off = edges.walked(self.raw, off)
        lengths = np.hypot(*(segments[:, 1] - segments[:, 0]).T).tolist()
        return tuple(
            RawEdge(tuple(start), tuple(end), length, named_grain(angle))
            for (start, end), length, angle in zip(segments.tolist(), lengths, off.tolist())
        )

    def sewn_seams(self) -> list[Seam]:
        """The seams, as a list of `Seam`."""
        return [
            Seam(tuple(start.tolist()), tuple(end.tolist()), float(difference))
            for (start, end), difference in zip(self.seams, self.differ)
        ]

    def edge(self, which: edges.Which, seam: Length = SEAM) -> edges.Edge:
        """The edge facing that way as the next seam will find it: see `edges.Edge`.

        >>> patch(size=(4, 3)).edge("top").finished_length
        3.5
        """
        return seaming.edge(self, which, arguments.seam_width(seam))

    # -- how steps are made ----------------------------------------------------------------------------------

    def moved(self, angle: float = 0.0, shift: Sequence[float] | np.ndarray = (0.0, 0.0)) -> Panel:
        """The panel turned about (0, 0), then shifted, and left there."""

        def place(points):
            return (turned(points, angle) if angle % 360 else points) + shift

        return replace(
            self,
            corners=place(self.corners),
            grains=(self.grains + angle) % 180,
            raw=place(self.raw),
            meets=place(self.meets),
            seams=place(self.seams),
            lost=place(self.lost),
        )

    def laid_down(self) -> Panel:
        """The panel shifted so that its lower left corner is at (0, 0)."""
        low = self.box[0]
        return self if not low.any() else self.moved(shift=-low)

    def beside(self, other: Panel) -> Panel:
        """The two panels as one, where they lie: nothing is sewn."""
        room = max(self.corners.shape[1], other.corners.shape[1])
        together = {
            name: np.concatenate((getattr(self, name), getattr(other, name)))
            for name in ("cuts", "grains", "raw", "meets", "seams", "differ", "lost", "lost_by")
        }
        return Panel(
            corners=np.concatenate((widened(self.corners, room), widened(other.corners, room))),
            owner=np.concatenate((self.owner, other.owner + len(self.corners))),
            **together,
        )

    def __repr__(self):
        width, height = self.size
        return (
            f"<Panel {width:.4g} x {height:.4g} in, {len(self.corners)} patches, {len(self.meets)} seam intersections>"
        )


def patch(
    size: Sequence[Length] | None = None,
    corners: Sequence[Point] | np.ndarray | None = None,
    fabric: str = "cloth",
    part: str = "patch",
    grain: float = 90.0,
) -> Panel:
    """A raw patch of cloth: a rectangle of this cut size, or any convex shape by its corners.

    Lengths are numbers of inches or text; the lengthwise grain is an angle in degrees, along y unless given.

    >>> patch(size=("3 1/2", "3.5")).size
    (3.5, 3.5)
    >>> patch(corners=[(0, 0), (2, 0), (1, 0.2), (0, 2)])
    Traceback (most recent call last):
    quiltmath.sewing.arguments.CannotSew: a patch is convex, cut along straight lines; these 4 corners bend \
inward: make it of several patches
    """
    if size is not None and corners is None:
        corners = rectangle(*arguments.size(size))
    elif size is not None or corners is None:
        raise CannotSew("a patch needs its cut size, or its corners: give one of the two")
    points = _convex(np.array([arguments.point(corner, "a corner of a patch") for corner in corners]))
    ends = np.roll(points, -1, axis=0)
    cuts = np.empty(1, dtype=object)
    cuts[0] = CutAs(str(fabric), str(part))
    return Panel(
        corners=points[None],
        cuts=cuts,
        grains=np.array([arguments.angle(grain, "the grain") % 180]),
        raw=np.stack((points, ends), axis=1),
        owner=np.zeros(len(points), dtype=int),
    )


def _convex(points):
    """The corners anticlockwise; refused unless they bound a convex patch with something in it."""
    if len(points) < 3:
        raise CannotSew(f"a patch needs at least three corners; got {points.tolist()}: give one more")
    sides = np.roll(points, -1, axis=0) - points
    follows = np.roll(sides, -1, axis=0)
    across = sides[:, 0] * follows[:, 1] - sides[:, 1] * follows[:, 0]
    longs = np.hypot(sides[:, 0], sides[:, 1])
    if longs.min() <= NEAR or np.abs(across / np.maximum(longs, np.roll(longs, -1))).min() <= NEAR:
        raise CannotSew(
            "the corners of a patch lie apart, and no three in a row in one line; "
            f"got {points.tolist()}: take one of them out"
        )
    turns = np.degrees(np.arctan2(across, (sides * follows).sum(axis=1)))
    if (turns < 0).all():
        points, turns = points[::-1].copy(), -turns
    if not (turns > 0).all() or turns.sum() > 361:  # a star turns one way too, but more than once round
        raise CannotSew(
            f"a patch is convex, cut along straight lines; these {len(points)} corners bend "
            "inward: make it of several patches"
        )
    return points
