"""Where the finished strips and corners of a border lie, for pictures; what is pieced shows its own patches."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from ..pattern.border import PAIRS
from ..usual import EASED

if TYPE_CHECKING:
    from ..pattern.border import Border
    from .cover import Cover

    Patches = list[tuple[str, list[tuple[float, float]]]]

CORNERS = {0: (0, 1), 270: (1, 1), 180: (1, 0), 90: (0, 0)}
"""How a pieced corner of a border is turned that is written for the upper left: {degrees: (right, up)}."""


def strips_round(cover: Cover, border: Border, wide: tuple[float, float], inside: tuple[float, float]) -> list[Patches]:
    """The strips of a border so `wide` (sides, top) round a rectangle that finishes so large `inside`, and then its
    corners: of each the patches, as (fabric, corners), from the border's own lower left corner."""
    (sides, top), (width, height) = wide, inside
    a, b, e, f = 0.0, sides * ("left" in border.edges), 0.0, top * ("bottom" in border.edges)
    c, g = b + width, f + height
    d, h = c + sides * ("right" in border.edges), g + top * ("top" in border.edges)
    if border.ends == "mitred":
        lying = {
            "left": [(a, h), (a, e), (b, f), (b, g)],
            "right": [(d, e), (d, h), (c, g), (c, f)],
            "bottom": [(a, e), (d, e), (c, f), (b, f)],
            "top": [(d, h), (a, h), (b, g), (c, g)],
        }
        return [[(_fabric(cover, _name(border, edge)), lying[edge])] for edge in border.edges]
    x0, x1, y0, y1 = (b, c, e, h) if border.first == "top" and not border.corner else (a, d, f, g)
    upright = {"left": (a, b, y0, y1), "right": (c, d, y0, y1)}
    x0, x1 = (b, c) if border.corner else (x0, x1)
    boxes = {**upright, "bottom": (x0, x1, e, f), "top": (x0, x1, g, h)}
    found = [_patches(cover, _name(border, edge), shapes_between(*boxes[edge]), edge) for edge in border.edges]
    for turn, (x, y) in CORNERS.items() if border.corner else ():
        box = shapes_between(*((a, b), (c, d))[x], *((e, f), (g, h))[y])
        found.append(_patches(cover, border.corner or "", box, turn=turn))
    return found


def _name(border, edge):
    return border.sides if edge in PAIRS["sides"] else border.top


def _patches(cover, name, box, edge="", turn=0):
    """The patches of a strip or corner in its box: its own of a pieced one that is as large as that."""
    panel, (low, high) = cover.need(name), np.array((box[0], box[2]))
    if len(panel.cuts) == 1:
        return [(_fabric(cover, name), box)]
    if edge and (np.diff(high - low) > 0) != (panel.size[1] > panel.size[0]):
        turn = 90
    turn += 180 * (edge in ("right", "bottom"))
    panel = panel.turn(turn) if turn else panel
    if np.abs(high - low - panel.size).max() > EASED:
        return [(_fabric(cover, name), box)]
    return [(patch.fabric, list(map(tuple, (patch.polygon + low).tolist()))) for patch in panel.patches]


def _fabric(cover, name):
    """The fabric of a strip; of a pieced one the first."""
    return cover.need(name).cuts[0].fabric


def shapes_between(left: float, right: float, low: float, high: float) -> list[tuple[float, float]]:
    """The corners of a level rectangle."""
    return [(left, low), (right, low), (right, high), (left, high)]
