"""The finished quilt of a sheet as few shapes placed many times, for pictures: quick floats, nothing sewn but its
blocks.

Each repeated thing is defined once, its patches from its own corner at (0, 0), and placed by (x, y, degrees); the
finished quilt, borders included, has its lower left corner at (0, 0). Blocks and edge triangles come from the sheet's
`cover`.
"""

from __future__ import annotations

from math import sqrt
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
AT = {("right", "bottom"): "top", ("left", "bottom"): "left", ("left", "top"): "bottom", ("right", "top"): "right"}
TURNED = {"top": 0, "left": 90, "bottom": 180, "right": 270}
INTO = {"left": (1, 0), "right": (-1, 0), "top": (0, -1), "bottom": (0, 1)}
LONG_SIDE = {"bottom": 45, "right": 135, "top": 225, "left": 315}


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
    found = drawing.on_point() if made.lies.on_point else drawing.straight()
    return drawing.bordered(found)


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
        return self.fabric(self.setting.sashing.cornerstone)

    def blocks(self, spots, parts):
        """The blocks at these places, each kind of part that the rows name once."""
        names, kinds = {"block": self.setting.block, "alternate block": self.setting.alternate}, {}
        for place, part in enumerate(parts):
            kinds.setdefault(part, []).append(place)
        found = []
        for part, places in kinds.items():
            panel = self.cover.need(names.get(part) or part.name)
            turned = panel.turn(part.turn) if isinstance(part, SetBlock) and part.turn else panel
            name = part.name if isinstance(part, SetBlock) else names[part]
            found.append(Placed(name, self.patches(turned), spots[places]))
        return found

    # -- straight ----------------------------------------------------------------------------------------------------

    def straight(self):
        """The parts of a straight top, placed."""
        lies, step = self.lies, self.cell + self.sash
        if lies.sizes:
            return self._loose()
        first = self.sash if lies.around else 0.0
        left = first + step * np.arange(lies.across)
        low = self.size[1] - first - self.cell - step * np.arange(lies.down)
        parts = [part for row in lies.rows_of_blocks for part in row.parts if part != "sash"]
        found = self.blocks(_grid(left, low), parts)
        return found + self._straight_sashing(left, low) if lies.sashed else found

    def _loose(self):
        """Rows (or columns) that are each what they are."""
        lies, spots, parts = self.lies, [], []
        across = 0.0 if lies.upright else self.size[1]
        found = []
        for items, row, sizes in zip(self.setting.lines, lies.rows, lies.sizes):
            along = self.size[1] if lies.upright else 0.0
            across -= 0.0 if lies.upright else float(sizes[0][1])
            for part, (width, height) in zip(row.parts, sizes):
                along -= float(height) if lies.upright else 0.0
                spot = (across, along) if lies.upright else (along, across)
                if measures.is_long_strip(self.sheet, items):
                    strip = self.fabric(part.name), shapes.rectangle(float(width), float(height))
                    found.append(Placed(part.name, [strip], _level(*np.array([spot]).T)))
                else:
                    spots.append(spot)
                    parts.append(part)
                along += 0.0 if lies.upright else float(width)
            across += float(sizes[0][0]) if lies.upright else 0.0
        return found + self.blocks(_level(*np.array(spots).T), parts)

    def _straight_sashing(self, left, low):
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
        sash, cell, cloth = self.sash, self.cell, self.fabric(self.setting.sashing.part)
        spots, ends = {"upright": [], "level": [], "cornerstone": []}, {}
        for row in self.rows:
            y, sash_kind = float(row.y), "upright" if row.kind == "blocks" else "level"
            for piece in row.pieces:
                kind = sash_kind if piece.part == "sash" else piece.part
                if kind in spots:
                    spots[kind].append((float(piece.x), y))
            if row.kind == "sashing":
                for part, patch in self._sashing_ends(row):
                    ends.setdefault(part, []).append(patch)
        shape = {
            "upright": ("sash", cloth, shapes.rectangle(sash, cell)),
            "level": ("sash", cloth, shapes.rectangle(cell, sash)),
        }
        if spots["cornerstone"]:
            shape["cornerstone"] = ("cornerstone", self.stone, shapes.square(sash))
        found = [
            Placed(part, [(fabric, corners)], self.hung(spots[kind]))
            for kind, (part, fabric, corners) in shape.items()
            if spots[kind]
        ]
        return found + [Placed(part, patches, self.hung([(0, 0)])) for part, patches in ends.items()]

    def _sashing_ends(self, row):
        """The long strip of a sashing row, or the cornerstones that the edge halves, as (part, (fabric, corners))."""
        width, x, y, end = self.sash, float(row.x), float(row.y), float(row.end)
        if self.lies.strips:
            out = {"bottom": (width, 0.0), "top": (0.0, width), "": (0.0, 0.0)}
            corners = [
                (x - out[row.left][0], y),
                (end + out[row.right][0], y),
                (end + out[row.right][1], y + width),
                (x - out[row.left][1], y + width),
            ]
            return [("sashing strip", (self.fabric(self.setting.sashing.strip[0]), corners))]
        sashing = self.setting.sashing
        halved = self.fabric(sashing.edge_cornerstone or sashing.cornerstone)
        return [
            ("cornerstone triangle", (halved, _triangle(at, y, width, width, (side, form))))
            for at, side, form in ((x, "left", row.left), (end, "right", row.right))
            if row.ends
        ]

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
        leg, out, cloth = float(self.lies.leg), self.floating * sqrt(2), self.fabric(self.setting.sides.part)
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
        """The four corner triangles."""
        rows, blocks, piece = self.rows, self.lies.rows_of_blocks, self.setting.corners
        side, out = float(self.lies.corner_side), self.floating * sqrt(2)
        left, right = max(blocks, key=lambda row: -row.x), max(blocks, key=lambda row: row.end)
        top, bottom, edge = blocks[0], blocks[-1], self.sash
        middle = {
            "top": (float(top.x + top.end) / 2, float(top.y + top.height) + edge),
            "left": (float(left.x), float(left.y) + float(left.height) / 2),
            "bottom": (float(bottom.x + bottom.end) / 2, float(bottom.y) - edge),
            "right": (float(right.end), float(right.y) + float(right.height) / 2),
        }
        found = []
        for where, (faces, (x, y)) in zip(EDGES, middle.items()):
            if piece.how != "plain" or piece.frame:
                turn, half = LONG_SIDE[faces], side / sqrt(8)
                shift = shapes.turned(np.array([(half, half)]), turn)[0]
                panel = self.cover.edge_triangle(CORNER, where)
                spot = self.hung([(x - shift[0], y - shift[1])], turn)
                found.append(Placed("corner triangle", self.patches(panel), spot))
                continue
            into, half, cloth = INTO[faces], side / 2 + out, self.fabric(piece.part)
            corners = [
                (-into[0] * half, -into[1] * half),
                (into[1] * half, -into[0] * half),
                (-into[1] * half, into[0] * half),
            ]
            if out and faces in ("left", "right"):
                ends = float(rows[-1].y), float(rows[0].y + rows[0].height)
                found.append(self._levelled("corner triangle", cloth, corners, (x, y), 1, ends))
            else:
                found.append(Placed("corner triangle", [(cloth, corners)], self.hung([(x, y)])))
        return found

    # -- borders -----------------------------------------------------------------------------------------------------

    def bordered(self, found):
        """What is placed already with every border round it, innermost first."""
        (width, height), self.inside = self.size, measures.rounds(self.sheet)
        for number, border in enumerate(self.sheet.border, 1):
            if border.triangles is not None:
                found = [
                    *_turned(found, width),
                    _four_triangles(self.fabric(border.triangles), width, f"round {number}"),
                ]
                width = height = width * sqrt(2)
                continue
            inside = self.inside[number - 1]
            sides, top = map(float, measures.border_widths(self.sheet, border, *inside))
            left, low = sides * ("left" in border.edges), top * ("bottom" in border.edges)
            moved = [thing._replace(places=thing.places + (left, low, 0.0)) for thing in found]
            strips = strips_round(self.cover, border, (sides, top), (width, height))
            here = np.array([(0.0, 0.0, 0.0)])
            found = [*moved, *(Placed(f"border {number}", patches, here) for patches in strips)]
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
    return Placed(part, patches, np.array([(0.0, 0.0, 0.0)]))


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
