"""Cloth sewn by a hand that wavers: every seam is off by a little, for itself, as chance will have it."""

from collections.abc import Callable, Iterable
from fractions import Fraction
from math import atan2, degrees, sqrt
from random import Random
from typing import NamedTuple

import numpy as np

from .. import sewing
from ..shapes import moved_out, right_triangle
from ..usual import SEAM
from .halves import BETWEEN, DIAGONAL

NEAR = 0.75  # inches: what meets no further from where a point should be is that point
Hand = Callable[[], float]  # what the next allowance takes, inches


def hand(scatter: Fraction, seed: int, error: Fraction = Fraction(0)) -> Hand:
    """A hand whose allowances take a seam and `error`, each off by up to `scatter` to either side, all of it alike
    likely; the same seed sews the same again.

    >>> steady = hand(Fraction(0), 1)
    >>> steady(), steady()
    (0.25, 0.25)
    >>> wavers = hand(Fraction(1, 16), 7)
    >>> all(3 / 16 <= wavers() <= 5 / 16 for _ in range(100))
    True
    """
    chance, seam = Random(seed), float(SEAM + error)
    return lambda: seam + chance.uniform(-float(scatter), float(scatter))


def joined(panels: Iterable[sewing.Panel], takes: Hand, mine="right", theirs="left", align="centre") -> sewing.Panel:
    """Panels sewn one after another, each seam with what the hand takes."""
    first, *rest = panels
    for panel in rest:
        first = first.sew(panel, mine, theirs, takes(), align)
    return first


def block(n: int, patch: Fraction, takes: Hand) -> sewing.Panel:
    """A block of n × n squares that should finish `patch`.

    >>> block(4, Fraction(2), hand(Fraction(0), 1)).size
    (8.5, 8.5)
    """
    pair = _squares(patch)
    rows = [joined([pair[(i + j) % 2] for i in range(n)], takes) for j in range(n)]
    return joined(rows, takes, "top", "bottom")


def row(blocks: int, n: int, patch: Fraction, takes: Hand) -> sewing.Panel:
    """A row of so many such blocks."""
    return joined([block(n, patch, takes) for _ in range(blocks)], takes)


def long(panel: sewing.Panel) -> float:
    """How long a row is, from one raw end to the other, where the next seam will find them: inches."""
    return panel.edge("right").limit + panel.edge("left").limit


class Triangle(NamedTuple):
    """A triangle for the edge of a quilt, its long edge at the bottom, and its points along that edge: how far right
    each lies and how deep from the raw edge, in inches."""

    panel: sewing.Panel
    points: tuple[tuple[float, float], ...]

    def lost_by(self, takes: float) -> tuple[float, ...]:
        """How much of each point a seam loses that takes so much; less than 0 is what lies between point and seam."""
        return tuple(takes - deep for _, deep in self.points)


def halved(n: int, patch: Fraction, takes: Hand) -> Triangle:
    """Half of a block, cut from corner to corner."""
    whole = block(n, patch, takes)
    (width, height), step = whole.size, float(patch)
    along = np.array((width, height)) / np.hypot(width, height)
    left_of_the_cut = along[0] * whole.meets[:, 1] - along[1] * whole.meets[:, 0]
    places = [float(SEAM) + k * step for k in range(1, n)]
    points = tuple((sqrt(2) * place, _least(left_of_the_cut, whole, (place, place))) for place in places)
    kept, _ = whole.cut((0, 0), (width, height))
    return Triangle(kept.turn(-degrees(atan2(height, width))), points)


def built(n: int, patch: Fraction, takes: Hand) -> Triangle:
    """The triangle built in its place, from rows of squares that end in triangles."""
    corners = moved_out(right_triangle(float(patch), float(patch)), float(SEAM))
    end, pair = sewing.patch(corners=corners, fabric=DIAGONAL, part="end triangle", grain=135), _squares(patch)
    runs = [[pair[(n - 1 - i - j) % 2] for i in range(n - 1 - j)] for j in range(n)]
    rows = [joined([*run, end], takes, align="start") for run in runs]
    panel = joined(rows, takes, "top", "bottom", "start").turn(225)
    step, middle, depths = float(patch) * sqrt(2), panel.size[0] / 2, panel.depths()
    places = [(middle + (k - n / 2) * step, float(SEAM)) for k in range(1, n)]
    return Triangle(panel, tuple((place[0], _least(depths, panel, place)) for place in places))


def _least(depths, panel, place):
    """The least of the depths of the seam intersections that lie near a place: where seams do not match, a point is
    two."""
    near = np.hypot(*(panel.meets - place).T) <= NEAR
    return float(depths[near].min())


def _squares(patch):
    """A square of either fabric, cut to finish `patch`."""
    side = patch + 2 * SEAM
    return [sewing.patch(size=(side, side), fabric=fabric, part="square") for fabric in (DIAGONAL, BETWEEN)]
