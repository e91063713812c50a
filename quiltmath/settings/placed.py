"""The finished top as few shapes placed many times, for pictures: quick floats, nothing sewn, nothing exact.

Each repeated thing is defined once, its patches from its own corner at (0, 0), and placed by (x, y, degrees);
the finished quilt, borders included, has its lower left corner at (0, 0).
"""

from math import sqrt
from typing import NamedTuple

import numpy as np

from .. import shapes
from . import frames

ENDS = {
    ("left", "bottom"): (-1, 1),
    ("left", "top"): (-1, -1),
    ("right", "bottom"): (1, 1),
    ("right", "top"): (1, -1),
}
CORNERS = {"left": (1, 0), "right": (-1, 0), "top": (0, -1), "bottom": (0, 1)}


class Placed(NamedTuple):
    """One thing and all its places: its part, its patches as (fabric, corners), and an n x 3 array (x, y,
    degrees)."""

    part: str
    patches: list
    places: np.ndarray


def straight(plan):
    """The parts of a straight top, placed."""
    width, height = plan.size
    margin = sum(float(one.width) for one in plan.borders)
    step, sash, cell = float(plan.pitch), float(plan.sashing), float(plan.cell)
    first = margin + (sash if plan.all_round else 0.0)
    left = first + step * np.arange(plan.across)
    low = height - first - cell - step * np.arange(plan.down)
    column, row = np.meshgrid(np.arange(plan.across), np.arange(plan.down))
    spots, main = _level(left[column.ravel()], low[row.ravel()]), (column + row).ravel() % 2 == 0
    found = _blocks(plan, spots, main if plan.alternate is not plan.block else np.ones(len(spots), bool))
    if plan.sashing:
        found += _straight_sashing(plan, left, low, margin)
    return found + _borders(plan, width, height)


def _straight_sashing(plan, left, low, margin):
    sash, cell = float(plan.sashing), float(plan.cell)
    outer = plan.all_round
    upright = np.concatenate((left[:1] - sash, left + cell)) if outer else left[:-1] + cell
    level = np.concatenate((low[:1] + cell, low - sash)) if outer else low[:-1] - sash
    cloth, stone = plan.fabric("sashing"), plan.fabric("cornerstone")
    found = [Placed("sash", [(cloth, shapes.rectangle(sash, cell))], _grid(upright, low))]
    if not plan.has_cornerstones:
        long = plan.size[0] - 2 * margin
        return found + [Placed("sashing strip", [(cloth, shapes.rectangle(long, sash))], _grid([margin], level))]
    return found + [
        Placed("sash", [(cloth, shapes.rectangle(cell, sash))], _grid(left, level)),
        Placed("cornerstone", [(stone, shapes.square(sash))], _grid(upright, level)),
    ]


def on_point(plan):
    """The parts of a top on point, placed."""
    hung = _Hung(plan)
    rows = plan.diagonal_rows
    heights = [(float(row.y), row.pieces) for row in rows if row.kind == "blocks"]
    blocks = [(float(piece.x), y, piece.part) for y, pieces in heights for piece in pieces if piece.part != "sash"]
    spots = hung.places([(x, y) for x, y, _ in blocks])
    found = _blocks(plan, spots, np.array([part == "block" for _, _, part in blocks]))
    if plan.sashing:
        found += _diagonal_sashing(plan, rows, hung)
    found += _sides(plan, rows, hung) + _corners(plan, rows, hung)
    return found + _borders(plan, *plan.size)


class _Hung:
    """From the level rows to the quilt as it hangs: turned by 45 degrees, its lower left corner at (0, 0)."""

    def __init__(self, plan):
        margin = sum(float(one.width) for one in plan.borders) + float(plan.floating)
        self.shift = margin + (float(plan.sashing) / sqrt(2) if plan.whole else 0.0)

    def places(self, spots):
        """The places of things whose corners lie at these spots of the level rows."""
        spots = np.array(spots, float).reshape(-1, 2)
        return np.column_stack((shapes.turned(spots, 45) + self.shift, np.full(len(spots), 45.0)))


def _diagonal_sashing(plan, rows, hung):
    sash, cell = float(plan.sashing), float(plan.cell)
    cloth, stone = plan.fabric("sashing"), plan.fabric("cornerstone")
    spots = {"upright": [], "level": [], "cornerstone": []}
    ends = {}
    for row in rows:
        y, sash_kind = float(row.y), "upright" if row.kind == "blocks" else "level"
        for piece in row.pieces:
            kind = sash_kind if piece.part == "sash" else piece.part
            if kind in spots:
                spots[kind].append((float(piece.x), y))
        if row.kind == "sashing":
            for part, patch in _sashing_ends(plan, row):
                ends.setdefault(part, []).append(patch)
    shape = {
        "upright": ("sash", cloth, shapes.rectangle(sash, cell)),
        "level": ("sash", cloth, shapes.rectangle(cell, sash)),
        "cornerstone": ("cornerstone", stone, shapes.square(sash)),
    }
    return [
        Placed(part, [(fabric, corners)], hung.places(spots[kind]))
        for kind, (part, fabric, corners) in shape.items()
        if spots[kind]
    ] + [Placed(part, patches, hung.places([(0, 0)])) for part, patches in ends.items()]


def _sashing_ends(plan, row):
    """The long strip of a sashing row, or the cornerstones that the edge halves, as (part, (fabric, corners))."""
    width, x, y, end = float(plan.sashing), float(row.x), float(row.y), float(row.end)
    if row.pieces[0].part == "sashing strip":
        out = {"bottom": (width, 0.0), "top": (0.0, width), "": (0.0, 0.0)}
        corners = [
            (x - out[row.left][0], y),
            (end + out[row.right][0], y),
            (end + out[row.right][1], y + width),
            (x - out[row.left][1], y + width),
        ]
        return [("sashing strip", (plan.fabric("sashing"), corners))]
    if not row.ends:
        return []
    return [
        ("cornerstone triangle", (plan.fabric("cornerstone"), _triangle(at, y, width, width, (side, form))))
        for at, side, form in ((x, "left", row.left), (end, "right", row.right))
    ]


def _triangle(x, y, height, leg, place, out=0.0):
    """An end triangle of a row from y to y + height; its level leg runs on by `out` and its tip is cut off
    level."""
    across, up = ENDS[place]
    foot = y if up > 0 else y + height
    tip = foot + up * leg
    corners = [(x, foot), (x + across * (leg + out), foot), (x + across * out, tip), (x, tip)]
    return corners[:3] if not out else corners


def _sides(plan, rows, hung):
    """The side triangles, one definition for each way they lie."""
    spots = {place: [] for place in ENDS}
    for row in rows:
        if row.kind == "blocks":
            for end, form, x in (("left", row.left, row.x), ("right", row.right, row.end)):
                if form:
                    spots[end, form].append((float(x), float(row.y if form == "bottom" else row.y + row.height)))
    leg, out, ends = float(plan.leg), float(plan.floating) * sqrt(2), _ends(rows)
    found = []
    for place, where in spots.items():
        across, up = ENDS[place]
        if plan.edges == "plain":
            corners = _triangle(0.0, 0.0, 0.0, leg, place, out)
            patches = [(plan.fabric("setting"), corners)]
            if out:  # those beside a corner triangle are cut level with it
                beside = [at for at in where if not ends[0] <= at[0] + across * (leg + out) <= ends[1]]
                where = [at for at in where if at not in beside]
                found += [_levelled("side triangle", plan, corners, at, 0, ends, hung) for at in beside]
        else:  # the half block that lies against the row's end
            patches = _part_of_block(plan, [(across, up)], (min(0, across) * leg, min(0, up) * leg))
        if where:
            found.append(Placed("side triangle", patches, hung.places(where)))
    return found


def _ends(rows):
    """Where the rows of blocks begin and end: the left and right corner triangles are sewn on there."""
    blocks = [row for row in rows if row.kind == "blocks"]
    return float(min(row.x for row in blocks)), float(max(row.end for row in blocks))


def _levelled(part, plan, corners, at, axis, ends, hung):
    """A triangle of the setting cloth at this place of the level rows, cut level at both ends of an axis."""
    polygon = np.array([corners], float) + at
    for sign, limit in ((-1.0, -ends[0]), (1.0, ends[1])):
        normal = (sign, 0.0) if axis == 0 else (0.0, sign)
        polygon, _ = shapes.clipped(polygon, normal, limit)
    kept = list(map(tuple, polygon[0].tolist()))
    return Placed(part, [(plan.fabric("setting"), kept)], hung.places([(0, 0)]))


def _corners(plan, rows, hung):
    """The four corner triangles."""
    blocks = [row for row in rows if row.kind == "blocks"]
    side, out = float(plan.corner_side), float(plan.floating) * sqrt(2)
    level = max(blocks, key=lambda row: -row.x), max(blocks, key=lambda row: row.end)
    top, bottom = blocks[0], blocks[-1]
    edge = float(plan.sashing) if plan.sashing else 0.0
    middle = {
        "left": (float(level[0].x), _middle(level[0])),
        "right": (float(level[1].end), _middle(level[1])),
        "top": (float(top.x + top.end) / 2, float(top.y + top.height) + edge),
        "bottom": (float(bottom.x + bottom.end) / 2, float(bottom.y) - edge),
    }
    found = []
    for faces, (x, y) in middle.items():
        into = CORNERS[faces]
        if plan.edges == "plain":
            half = side / 2 + out
            corners = [
                (-into[0] * half, -into[1] * half),
                (into[1] * half, -into[0] * half),
                (-into[1] * half, into[0] * half),
            ]
            patches = [(plan.fabric("setting"), corners)]
            if out and faces in ("left", "right"):
                ends = float(rows[-1].y), float(rows[0].y + rows[0].height)
                found.append(_levelled("corner triangle", plan, corners, (x, y), 1, ends, hung))
                continue
        else:
            lines = [(-into[0] - into[1], into[0] - into[1]), (into[1] - into[0], -into[0] - into[1])]
            shift = (-side * (into[0] + 1) / 2, -side * (into[1] + 1) / 2)
            patches = _part_of_block(plan, lines, shift)
        found.append(Placed("corner triangle", patches, hung.places([(x, y)])))
    return found


def _middle(row):
    return float(row.y) + float(row.height) / 2


def _part_of_block(plan, lines, shift):
    """The finished patches of a framed block that lie inside lines through its centre, moved by `shift`.

    A line is given by the diagonal direction that points away from what is kept.
    """
    block = plan.setting_block if plan.edges == "framed" else plan.block
    patches = frames.finished(plan, block)
    centre, found = float(plan.cell) / 2, []
    for fabric, corners in patches:
        kept = np.array([corners], float)
        for x, y in lines:
            normal = (x / sqrt(2), y / sqrt(2))
            kept, _ = shapes.clipped(kept, normal, (normal[0] + normal[1]) * centre)
        for polygon in kept:
            found.append((fabric, [(float(x + shift[0]), float(y + shift[1])) for x, y in polygon]))
    return found


def _blocks(plan, spots, main):
    found = [Placed("block", frames.finished(plan, plan.block), spots[main])]
    if not main.all():
        found.append(Placed("alternate block", frames.finished(plan, plan.alternate), spots[~main]))
    return found


def _level(x, y):
    return np.column_stack((x, y, np.zeros(len(x))))


def _grid(x, y):
    """Level places at every pair of these x and y."""
    x, y = np.meshgrid(x, y)
    return _level(x.ravel(), y.ravel())


def medallion(plan):
    """The parts of a medallion, placed: each round turned as far as the triangles outside it turn it."""
    turns = [sum(one == "triangles" for one in plan.rounds[number:]) for number in range(len(plan.rounds) + 1)]
    whole, sides = plan.size[0], list(map(float, plan.sides))
    found = [Placed("centre", plan.centre.polygons(), _centred(whole, sides[0], turns[0]))]
    for number, one in enumerate(plan.rounds):
        side, inner = sides[number + 1], sides[number]
        if one == "triangles":
            cloth, half = plan.cloth(number), side / 2
            patches = [
                (cloth, corners)
                for corners in (
                    [(0, 0), (half, 0), (0, half)],
                    [(side, 0), (side, half), (half, 0)],
                    [(side, side), (half, side), (side, half)],
                    [(0, side), (0, half), (half, side)],
                )
            ]
        else:
            patches = [(one.fabric, strip) for strip in _strips(one, (side - inner) / 2, (inner, inner))]
        found.append(Placed(f"round {number + 1}", patches, _centred(whole, side, turns[number + 1])))
    return found


def _centred(whole, side, turns):
    """The place of a square of this side in the middle of the whole, turned so many times by 45 degrees."""
    corner = shapes.turned(np.array([(-side / 2, -side / 2)]), 45 * turns)[0] + whole / 2
    return np.array([(*corner, 45.0 * turns)])


def _borders(plan, width, height):
    """The strips of every border, innermost first."""
    found, outer = [], 0.0
    for number, one in reversed(list(enumerate(plan.borders, start=1))):
        wide = float(one.width)
        inner = (width - 2 * (outer + wide), height - 2 * (outer + wide))
        patches = [(one.fabric, strip) for strip in _strips(one, wide, inner)]
        found.insert(0, Placed(f"border {number}", patches, np.array([(outer, outer, 0.0)])))
        outer += wide
    return found


def _strips(one, wide, inner):
    """The four finished strips of a border so wide round a rectangle, from its own lower left corner."""
    a, b, c, d = 0.0, wide, wide + inner[0], 2 * wide + inner[0]
    e, f, g, h = 0.0, wide, wide + inner[1], 2 * wide + inner[1]
    if one.mitred:
        return [
            [(a, e), (d, e), (c, f), (b, f)],
            [(d, e), (d, h), (c, g), (c, f)],
            [(d, h), (a, h), (b, g), (c, g)],
            [(a, h), (a, e), (b, f), (b, g)],
        ]
    if one.first == "sides":
        return [
            [(a, f), (b, f), (b, g), (a, g)],
            [(c, f), (d, f), (d, g), (c, g)],
            [(a, e), (d, e), (d, f), (a, f)],
            [(a, g), (d, g), (d, h), (a, h)],
        ]
    return [
        [(a, e), (b, e), (b, h), (a, h)],
        [(c, e), (d, e), (d, h), (c, h)],
        [(b, e), (c, e), (c, f), (b, f)],
        [(b, g), (c, g), (c, h), (b, h)],
    ]


def polygons(placed):
    """Every patch written out, as (part, fabric, n x 2 array): for tests and for small pictures."""
    return [
        (thing.part, fabric, shapes.turned(np.array(corners, float), turn) + (x, y))
        for thing in placed
        for x, y, turn in thing.places
        for fabric, corners in thing.patches
    ]
