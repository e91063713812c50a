"""Sliced and turned, step by step: a straight top is cut twice, its wings slide below, bias comes to the outside."""

from functools import lru_cache

import numpy as np

from .. import settings
from ..draw import Handle, Lines, Picture, turned
from ..draw.panels import edge_layers, fabric_layers, panel_picture, point_layers
from ..usual import SEAM
from .bias_outside import FOUR_PATCH, ROLES
from .controls import Whole
from .demo import Demo, Shown
from .lesson import Lesson
from .still import Still

STEPS = (
    "Sewn straight: all of its outside lies along a thread.",
    "Cut twice at 45 degrees, from the lower corners to the middle of the upper edge.",
    "Apart: each cut has two raw edges, and all four are bias.",
    "The two wings slide below the middle, each to the other side.",
    "Joined: the edges along a thread are inside now, in the seams; the cuts are outside.",
    "Turned: the squares stand on point.",
)
APART = 0.12  # of the top's height: how far the pieces lie apart


def model(step, down):
    """One step of the way, at one scale for all of them."""
    high = _height(down)
    words = f"Step {step} of {len(STEPS)}, with {2 * down} by {down} blocks. {STEPS[step - 1]}"
    if step >= 5:
        shown, words = _joined(down, step), f"{words} {_counted(down)}"
    else:
        shown = _laid(down, step)
    gap = APART * high
    room = [(-gap, -high - gap), (2 * high + gap, high + gap)]
    return Shown(Picture(shown, words, f"Step {step}", room=room, handle=_on_the_wing(down)), words)


def before(down=3):
    """The top with the cuts to come, and nothing of what becomes of it: a Still."""
    words = f"A top of {2 * down} by {down} blocks. {STEPS[1]}"
    return Still(Picture(_laid(down, 2), words), words, height=270)


DEMO = Demo(
    "Sliced and turned, step by step",
    model,
    (Whole("step", "Step", 1, len(STEPS), 1), Whole("down", "Blocks down", 2, 5, 3)),
    height=600,
)
lesson = Lesson(DEMO, dict)


@lru_cache(maxsize=8)
def _top(down):
    return settings.straight(across=2 * down, down=down, block=FOUR_PATCH)


@lru_cache(maxsize=8)
def _turned(down):
    return settings.cut_and_turn(_top(down))


def _flat(down):
    """The sewn top, its lower left finished corner at the origin."""
    return _top(down).panel().moved(shift=(-float(SEAM), -float(SEAM)))


def _height(down):
    return float(down * FOUR_PATCH.size)


@lru_cache(maxsize=8)
def pieces(down):
    """The left wing, the middle and the right wing, where they were cut; a seam past the origin, as the top lies.

    >>> [round(piece.area) for piece in pieces(2)]
    [78, 150, 78]
    """
    panel, high = _flat(down), _height(down)
    left, rest = panel.cut((0, 0), (high, high))
    right, middle = rest.cut((high, high), (2 * high, 0))
    return left, middle, right


def _slid(down):
    """How far the left wing and the right one have slid from where they were cut, in steps 3 and 4."""
    high, gap = _height(down), APART * _height(down)
    return {3: ((-gap, gap / 2), (gap, gap / 2)), 4: ((high + gap / 4, -high - gap), (-high - gap / 4, -high - gap))}


def _on_the_wing(down):
    """The handle on the left wing, where each step has it."""
    high, gap = _height(down), APART * _height(down)
    cut, joined = np.array((high / 3, high * 2 / 3)), np.array((high * 4 / 3, -high / 3))
    middle = np.array((high, 0.0))
    at_rest, end = cut + (gap / 2, -gap / 2), turned([joined - middle], -45, at=middle)[0]
    return Handle("step", [at_rest, cut, *(cut + left for left, _ in _slid(down).values()), joined, end])


def _laid(down, step):
    """The pieces where this step leaves them, and the cuts to come."""
    high, gap = _height(down), APART * _height(down)
    if step <= 2:
        panel = _flat(down)
        cuts = [[(-gap / 2, -gap / 2), (high, high), (2 * high + gap / 2, -gap / 2)]]
        return _cloth([panel]) + ([Lines(cuts, "cut line", "cut here")] if step == 2 else [])
    left, middle, right = pieces(down)
    wings = [wing.moved(shift=shift) for wing, shift in zip((left, right), _slid(down)[step])]
    return _cloth([middle, *wings])


def _cloth(panels):
    """Panels that lie apart, with their seams and raw edges."""
    laid = panels[0]
    for one in panels[1:]:
        laid = laid.beside(one)
    return [*fabric_layers(laid, ROLES), Lines(laid.seams, "seam"), *edge_layers(laid)]


def _joined(down, step):
    """The top once its pieces are joined, before or after it is turned, in the middle of the picture."""
    panel = _turned(down).panel
    panel = panel.turn(45) if step == 5 else panel
    middle = np.add(*panel.box) / 2
    panel = panel.moved(shift=np.array((_height(down), 0.0)) - middle)
    return [*panel_picture(panel, fabrics=ROLES).layers] if step == 6 else _cloth([panel]) + point_layers(panel)


def _counted(down):
    (_, lost, _), (_, bias, _), *_ = _turned(down).tally()
    return f"{lost} points lost, {bias} of bias on the outside."
