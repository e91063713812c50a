"""The finished quilt of a sheet as few shapes placed many times, for pictures: quick floats, nothing sewn but its
blocks.

Each repeated thing is defined once, its patches from its own corner at (0, 0), and placed by (x, y, degrees); the
finished quilt, borders included, has its lower left corner at (0, 0). Blocks and edge triangles come from the sheet's
`cover`.
"""

from __future__ import annotations

from itertools import accumulate
from math import sqrt
from operator import sub
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from .. import shapes
from ..pattern.names import CORNER, EDGES, SIDE
from . import measures
from .borders_placed import strips_round
from .cover import Cover
from .row import SetBlock

if TYPE_CHECKING:
    from collections.abc import Iterable

    from .made import Made

ENDS = {("left", "bottom"): (-1, 1), ("left", "top"): (-1, -1), ("right", "bottom"): (1, 1), ("right", "top"): (1, -1)}
"""Which ways the legs of an end triangle run from its right angle, (across, up), by (end of the row, where that angle
is)."""
AT = {("right", "bottom"): "top", ("left", "bottom"): "left", ("left", "top"): "bottom", ("right", "top"): "right"}
"""At which edge of the quilt as it hangs that triangle lies."""
TURNED = {"top": 0, "left": 90, "bottom": 180, "right": 270}
"""By how many degrees a side triangle with its right angle at the lower left is turned to lie at an edge."""
INTO = {"left": (1, 0), "right": (-1, 0), "top": (0, -1), "bottom": (0, 1)}
"""The way into the level rows from each of their outer sides."""
LONG_SIDE = {"bottom": 45, "right": 135, "top": 225, "left": 315}
"""By how many degrees a corner triangle with its right angle at the lower left is turned for its long side to lie along
an outer side of the level rows."""
HERE = (0.0, 0.0, 0.0)  # where its patches lie already


class Placed(NamedTuple):
    """One thing and all its places: its part, its patches as (fabric, corners), and an n x 3 array (x, y, degrees)."""

    part: str
    patches: list
    places: np.ndarray


def placed(made: Made) -> list[Placed]:
    """The finished quilt of a sheet whose sizes add up, as a list of `Placed`; refused for one that does not, or takes
    steps.

    >>> from quiltmath import making, pattern
    >>> from quiltmath.pattern.sheet import EXAMPLE
    >>> made = making.make(pattern.read_text(EXAMPLE))
    >>> [(thing.part, len(thing.patches), len(thing.places)) for thing in placed(made)]
    [('four', 4, 4)]
    """
    if not made.adds_up or made.lies is None or made.sheet.step:
        raise ValueError(
            "a quilt is placed where its blocks add up to squares of one size and no steps make it: sew it"
        )
    drawing = _Drawing(made)
    return drawing.bordered(drawing.on_point() if made.lies.on_point else drawing.straight())


class _Drawing:
    """One sheet being drawn: its layout in floats, its finished panels, its fabrics."""

    def __init__(self, made):
        self.made, self.sheet, self.setting, self.lies = made, made.sheet, made.sheet.setting, made.lies
        self.cover, self.rows = Cover.of(made), made.lies.rows
        self.cell, self.sash = float(self.lies.cell), float(self.lies.sash)
        self.floating = float(self.lies.floating)
        self.size = tuple(map(float, self.lies.size))

    def patches(self, panel):
        """The patches of a finished panel as (fabric, corners)."""
        return [(patch.fabric, list(map(tuple, patch.polygon.tolist()))) for patch in panel.patches]

    def fabric(self, name):
        """The fabric a part is cut from."""
        return self.sheet.part(name).fabric

    @property
    def stone(self):
        """The fabric of the cornerstones."""
        return self.fabric(self.setting.sashing.cornerstone)

    @property
    def out(self):
        """How far the legs of an edge triangle reach past its block where blocks float inside the edge."""
        return self.floating * sqrt(2)

    def blocks(self, spots, parts):
        """The blocks at these places, each kind of part that the rows name once."""
        names, places = {"block": self.setting.block, "alternate block": self.setting.alternate}, {}
        for place, part in enumerate(parts):
            drawn = part if isinstance(part, SetBlock) else SetBlock(names[part])
            places.setdefault(drawn, []).append(place)
        return [Placed(block.name, self.patches(self._turned(block)), spots[at]) for block, at in places.items()]

    def _turned(self, block):
        """The finished panel of a block as it is drawn."""
        panel = self.cover.need(block.name)
        return panel.turn(block.turn) if block.turn else panel

    # -- straight ----------------------------------------------------------------------------------------------------

    def straight(self):
        """The parts of a straight top, placed."""
        lies, step = self.lies, self.cell + self.sash
        if lies.sizes:
            return self._rows_or_columns()
        first = self.sash if lies.around else 0.0
        left = first + step * np.arange(lies.across)
        low = self.size[1] - first - self.cell - step * np.arange(lies.down)
        parts = [part for row in lies.rows_of_blocks for part in row.parts if part != "sash"]
        found = self.blocks(_grid(left, low), parts)
        return found + self._straight_sashing(left, low) if lies.sashed else found

    def _rows_or_columns(self):
        """Rows (or columns) that are each what they are."""
        found, spots, parts = [], [], []
        for items, row, (corner, *corners), sizes in self._each_with_corners():
            if measures.is_long_strip(self.sheet, items):
                (part,), ((width, height),) = row.parts, sizes
                strip = self.fabric(part.name), shapes.rectangle(float(width), float(height))
                found.append(Placed(part.name, [strip], np.array([(*corner, 0.0)])))
            else:
                spots += [corner, *corners]
                parts += row.parts
        return found + self.blocks(_level(*np.array(spots).T), parts)

    def _each_with_corners(self):
        """Each row, from the top, or column, from the left: what is typed of it, its `LevelRow`, the lower left corner
        of each of its parts and their sizes."""
        lies = self.lies
        x, y = 0.0, self.size[1]
        for items, row, sizes in zip(self.setting.lines, lies.rows, lies.sizes):
            if lies.upright:
                _, *lows = accumulate((float(height) for _, height in sizes), sub, initial=self.size[1])
                yield items, row, [(x, low) for low in lows], sizes
                x += float(sizes[0][0])
            else:
                y -= float(sizes[0][1])
                *lefts, _ = accumulate((float(width) for width, _ in sizes), initial=0.0)
                yield items, row, [(left, y) for left in lefts], sizes

    def _straight_sashing(self, left, low):
        """The sashes and cornerstones, or long strips, between blocks with these left sides and these lower sides."""
        sash, cell, cloth = self.sash, self.cell, self.fabric(self.setting.sashing.part)
        upright = np.concatenate((left[:1] - sash, left + cell)) if self.lies.around else left[:-1] + cell
        level = np.concatenate((low[:1] + cell, low - sash)) if self.lies.around else low[:-1] - sash
        found = [Placed("sash", [(cloth, shapes.rectangle(sash, cell))], _grid(upright, low))]
        if not self.lies.stones:
            strip = self.fabric(self.setting.sashing.strip[0]), shapes.rectangle(self.size[0], sash)
            return [*found, Placed("sashing strip", [strip], _grid([0.0], level))]
        return [
            *found,
            Placed("sash", [(cloth, shapes.rectangle(cell, sash))], _grid(left, level)),
            Placed("cornerstone", [(self.stone, shapes.square(sash))], _grid(upright, level)),
        ]

    # -- on point ----------------------------------------------------------------------------------------------------

    def hung(self, spots, turn=0.0):
        """The places of things that lie at these spots of the level rows, in the quilt as it hangs: turned by 45
        degrees."""
        spots = np.array(spots, float).reshape(-1, 2)
        shift = self.floating + (self.sash / sqrt(2) if self.lies.whole else 0.0)
        return np.column_stack((shapes.turned(spots, 45) + shift, np.full(len(spots), 45.0 + turn)))

    def on_point(self):
        """The parts of a top on point, placed."""
        blocks = [
            (float(piece.x), float(row.y), piece.part)
            for row in self.lies.rows_of_blocks
            for piece in row.pieces
            if piece.part != "sash"
        ]
        spots = self.hung([(x, y) for x, y, _ in blocks])
        found = self.blocks(spots, [part for *_, part in blocks])
        if self.lies.sashed:
            found += self._diagonal_sashing()
        return found + self._sides() + self._corners()

    def _diagonal_sashing(self):
        """Sashes, upright between the blocks of a row and level between rows; cornerstones; what ends sashing rows."""
        spots = {"upright": [], "level": [], "cornerstone": []}
        for row in self.rows:
            lies = "upright" if row.kind == "blocks" else "level"
            for piece in row.pieces:
                kind = lies if piece.part == "sash" else piece.part
                if kind in spots:
                    spots[kind].append((float(piece.x), float(row.y)))
        sash, cell, cloth = self.sash, self.cell, self.fabric(self.setting.sashing.part)
        found = [
            Placed("sash", [(cloth, shapes.rectangle(sash, cell))], self.hung(spots["upright"])),
            Placed("sash", [(cloth, shapes.rectangle(cell, sash))], self.hung(spots["level"])),
        ]
        if spots["cornerstone"]:
            found.append(Placed("cornerstone", [(self.stone, shapes.square(sash))], self.hung(spots["cornerstone"])))
        found = [thing for thing in found if len(thing.places)]
        ends: dict[str, list] = {}
        for row in self.rows:
            for part, patch in self._sashing_ends(row) if row.kind == "sashing" else ():
                ends.setdefault(part, []).append(patch)
        return found + [Placed(part, patches, self.hung([(0, 0)])) for part, patches in ends.items()]

    def _sashing_ends(self, row):
        """The long strip of a sashing row, or the cornerstones that the edge halves, as (part, (fabric, corners))."""
        sashing, x, end, y = self.setting.sashing, float(row.x), float(row.end), float(row.y)
        if self.lies.strips:
            return [("sashing strip", (self.fabric(sashing.strip[0]), self._strip_corners(row)))]
        halved = self.fabric(sashing.edge_cornerstone or sashing.cornerstone)
        return [
            ("cornerstone triangle", (halved, _triangle(at, y, self.sash, self.sash, place)))
            for at, place in ((x, ("left", row.left)), (end, ("right", row.right)))
            if row.ends
        ]

    def _strip_corners(self, row):
        """The corners of the long strip of a sashing row, whose ends run out to the edge of the quilt."""
        low, high = float(row.y), float(row.y) + self.sash
        out = {"bottom": (self.sash, 0.0), "top": (0.0, self.sash), "": (0.0, 0.0)}  # of the lower and the upper side
        (below_left, above_left), (below_right, above_right) = out[row.left], out[row.right]
        x, end = float(row.x), float(row.end)
        return [(x - below_left, low), (end + below_right, low), (end + above_right, high), (x - above_left, high)]

    def _sides(self):
        """The side triangles, one definition for each way they lie."""
        spots = {place: [] for place in ENDS}
        for row in self.lies.rows_of_blocks:
            for end, form, x in (("left", row.left, row.x), ("right", row.right, row.end)):
                if form:
                    spots[end, form].append((float(x), float(row.y if form == "bottom" else row.y + row.height)))
        found = []
        for place, where in spots.items():
            if where and self.setting.sides.how == "plain" and not self.setting.sides.frame:
                found += self._plain_sides(place, where)
            elif where:
                at = AT[place]
                panel = self.cover.edge_triangle(SIDE, at)
                found.append(Placed("side triangle", self.patches(panel), self.hung(where, TURNED[at])))
        return found

    def _plain_sides(self, place, where):
        """Plain side triangles that lie one way; those beside a corner triangle are cut level with it where blocks
        float."""
        leg, out, cloth = float(self.lies.leg), self.out, self.fabric(self.setting.sides.part)
        corners, ends = _triangle(0.0, 0.0, 0.0, leg, place, out), self._ends()
        beside = [at for at in where if out and not ends[0] <= at[0] + ENDS[place][0] * (leg + out) <= ends[1]]
        found = [self._levelled("side triangle", cloth, corners, at, 0, ends) for at in beside]
        where = [at for at in where if at not in beside]
        return found + ([Placed("side triangle", [(cloth, corners)], self.hung(where))] if where else [])

    def _ends(self):
        """Where the rows of blocks begin and end: the left and right corner triangles are sewn on there."""
        blocks = self.lies.rows_of_blocks
        return float(min(row.x for row in blocks)), float(max(row.end for row in blocks))

    def _levelled(self, part, cloth, corners, at, axis, ends):
        """A triangle at this place of the level rows, cut level at both ends of an axis."""
        polygon = np.array([corners], float) + at
        for sign, limit in ((-1.0, -ends[0]), (1.0, ends[1])):
            polygon, _ = shapes.clipped(polygon, (sign, 0.0) if axis == 0 else (0.0, sign), limit)
        return Placed(part, [(cloth, list(map(tuple, polygon[0].tolist())))], self.hung([(0, 0)]))

    def _corners(self):
        """The four corner triangles, each at the middle of an outer side of the level rows."""
        piece, middles = self.setting.corners, self._middles()
        if piece.how == "plain" and not piece.frame:
            return [self._plain_corner(faces, middle) for faces, middle in middles.items()]
        return [self._sewn_corner(where, faces, middle) for where, (faces, middle) in zip(EDGES, middles.items())]

    def _middles(self):
        """The middle of each outer side of the level rows that a corner triangle lies along, in the order in which
        those hang in the quilt: upper left, lower left, lower right, upper right."""
        blocks, edge = self.lies.rows_of_blocks, self.sash
        top, bottom = blocks[0], blocks[-1]
        left, right = min(blocks, key=lambda row: row.x), max(blocks, key=lambda row: row.end)
        return {
            "top": (float(top.x + top.end) / 2, float(top.y + top.height) + edge),
            "left": (float(left.x), float(left.y) + float(left.height) / 2),
            "bottom": (float(bottom.x + bottom.end) / 2, float(bottom.y) - edge),
            "right": (float(right.end), float(right.y) + float(right.height) / 2),
        }

    def _sewn_corner(self, where, faces, middle):
        """A corner triangle that is built, cut from a block or framed, its long side along an outer side of the rows,
        centred."""
        turn, half = LONG_SIDE[faces], float(self.lies.corner_side) / sqrt(8)
        shift = shapes.turned(np.array([(half, half)]), turn)[0]
        panel = self.cover.edge_triangle(CORNER, where)
        return Placed("corner triangle", self.patches(panel), self.hung(np.array([middle]) - shift, turn))

    def _plain_corner(self, faces, middle):
        """A corner triangle cut from a square; one on the left or right is cut level with the rows where blocks
        float."""
        (x, y), half = INTO[faces], float(self.lies.corner_side) / 2 + self.out
        corners, cloth = (
            [(-x * half, -y * half), (y * half, -x * half), (-y * half, x * half)],
            self.setting.corners.part,
        )
        if self.floating and faces in ("left", "right"):
            ends = float(self.rows[-1].y), float(self.rows[0].y + self.rows[0].height)
            return self._levelled("corner triangle", self.fabric(cloth), corners, middle, 1, ends)
        return Placed("corner triangle", [(self.fabric(cloth), corners)], self.hung([middle]))

    # -- borders -----------------------------------------------------------------------------------------------------

    def bordered(self, found):
        """What is placed already with every border round it, innermost first."""
        (width, height), insides = self.size, measures.rounds(self.sheet)
        for number, border in enumerate(self.sheet.border, 1):
            if border.triangles is not None:
                found = [
                    *_turned(found, width),
                    _four_triangles(self.fabric(border.triangles), width, f"round {number}"),
                ]
                width = height = width * sqrt(2)
                continue
            sides, top = map(float, measures.border_widths(self.sheet, border, *insides[number - 1]))
            left, low = sides * ("left" in border.edges), top * ("bottom" in border.edges)
            moved = [thing._replace(places=thing.places + (left, low, 0.0)) for thing in found]
            strips = strips_round(self.cover, border, (sides, top), (width, height))
            found = [*moved, *(Placed(f"border {number}", patches, np.array([HERE])) for patches in strips)]
            width, height = width + border.on("sides") * sides, height + border.on("top") * top
        return found


def _four_triangles(cloth, side, part):
    """A round of four triangles on a square of this side, which then stands on its point."""
    whole, half = side * sqrt(2), side / sqrt(2)
    patches = [
        (cloth, corners)
        for corners in (
            [(0, 0), (half, 0), (0, half)],
            [(whole, 0), (whole, half), (half, 0)],
            [(whole, whole), (half, whole), (whole, half)],
            [(0, whole), (0, half), (half, whole)],
        )
    ]
    return Placed(part, patches, np.array([HERE]))


def _turned(found, side):
    """Everything placed on a square of this side, turned by 45 degrees in the middle of the square that stands round
    it."""
    moved = []
    for thing in found:
        spots = shapes.turned(thing.places[:, :2], 45) + (side / sqrt(2), 0.0)
        moved.append(thing._replace(places=np.column_stack((spots, thing.places[:, 2] + 45))))
    return moved


def _triangle(x, y, height, leg, place, out=0.0):
    """An end triangle of a row from y to y + height; its level leg runs on by `out` and its tip is cut off
    level."""
    across, up = ENDS[place]
    foot = y if up > 0 else y + height
    tip = foot + up * leg
    corners = [(x, foot), (x + across * (leg + out), foot), (x + across * out, tip), (x, tip)]
    return corners[:3] if not out else corners


def _level(x, y):
    """The places at these x and y, nothing turned."""
    return np.column_stack((x, y, np.zeros(len(x))))


def _grid(x, y):
    """Level places at every pair of these x and y."""
    x, y = np.meshgrid(x, y)
    return _level(x.ravel(), y.ravel())


def polygons(placed: Iterable[Placed]) -> list[tuple[str, str, np.ndarray]]:
    """Every patch written out, as (part, fabric, n x 2 array): for tests and for small pictures."""
    return [
        (thing.part, fabric, shapes.turned(np.array(corners, float), turn) + (x, y))
        for thing in placed
        for x, y, turn in thing.places
        for fabric, corners in thing.patches
    ]
