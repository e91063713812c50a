"""How little cloth could ever do: bounds that no cutter, however careful, gets under.

Lay a line across the cloth anywhere: the pieces it crosses have widths that add up to no more than the usable width.
So give each width a worth, such that no set of widths that fits across is worth more than 1. Then every inch of cloth
holds at most a worth of 1, and the pieces' heights times their worths add up to no more than the length of the cloth.
The same holds of a line along the selvage. Any worths give a true bound; HiGHS proposes good ones, and whole-number
arithmetic checks them. Pieces lie on the grain, as given or turned where they may be turned.

    >>> from quiltmath.cloth import Piece
    >>> at_least([Piece(10, 10, 13)], Fraction(42), Fraction(40))
    Fraction(40, 1)
"""
from dataclasses import dataclass
from fractions import Fraction
from math import ceil, floor

import numpy as np

from .filling import best_fill, grid

ROUNDS = 25
HALVINGS = 6
FINEST_ACROSS = 4096
FINEST_ALONG = 8192
WORTH = 10**6
ANY = None
"""The size of a piece that may be joined of any bits: it fills every gap."""


@dataclass(frozen=True)
class Lying:
    """One way a group of pieces may lie: each covers `size` of the line, and together they cover `reach` beside it."""
    size: Fraction | None
    reach: Fraction
    count: int


def at_least(pieces, width, enough, joints=()):
    """Inches of cloth, `width` wide, that these pieces need at the very least; `enough` is a length that will do."""
    across, along = _lying(pieces, width, joints)
    low = max(sum((piece.area for piece in pieces), Fraction(0)) / width, _least_length(across, width))
    return min(enough, max(low, _least_by_width(along, width, low, enough)))


def _lying(pieces, width, joints):
    """For each piece its ways to lie: as a line across the cloth meets them, and as one along the selvage does."""
    joints = {one.piece: one for one in joints}
    across, along = [], []
    for number, piece in enumerate(pieces):
        one = joints.get(number)
        if one and one.free:
            across.append([Lying(ANY, piece.area, piece.count)])
            along.append([Lying(ANY, piece.area, piece.count)])
        elif one:
            across.append([Lying(ANY, piece.area, piece.count)])
            along.append([Lying(one.broad, one.long * piece.count, one.strips(piece.count) + piece.count)])
        else:
            turns = {(piece.width, piece.height), (piece.height, piece.width)} if piece.any_way else {
                (piece.width, piece.height)}
            turns = sorted(turn for turn in turns if turn[0] <= width)
            across.append([Lying(wide, high * piece.count, piece.count) for wide, high in turns])
            along.append([Lying(high, wide * piece.count, piece.count) for wide, high in turns])
    return across, along


def _least_length(across, width):
    unit = grid([width, *_sizes(across)], FINEST_ACROSS)
    return Worths(across, unit).most(ceil(width / unit))


def _least_by_width(along, width, low, enough):
    """The longest length found for which any shorter cloth would have to be wider than it is; 0 if none is found."""
    unit = grid([enough, *_sizes(along)], FINEST_ALONG)
    worths = Worths(along, unit)
    joined = any(way.size is ANY for ways in along for way in ways)

    def too_short(steps):
        """Whether every cloth shorter than so many steps is too narrow: sizes along it add up to less than that."""
        return worths.most(steps if joined else steps - 1, over=width) > width
    first, last = floor(low / unit) + 1, ceil(enough / unit)
    if first > last:
        return Fraction(0)
    if too_short(last):
        return last * unit
    proved = 0
    for _ in range(HALVINGS):
        if first >= last:
            break
        middle = (first + last) // 2
        if too_short(middle):
            proved, first = middle, middle + 1
        else:
            last = middle
    return proved * unit


def _sizes(lying):
    return {way.size for ways in lying for way in ways if way.size is not ANY}


class Worths:
    """What each size on a line is worth, and what all pieces are then worth together."""

    def __init__(self, lying, unit):
        self.lying, self.unit = lying, unit
        self.sizes = sorted(_sizes(lying), reverse=True)
        self.steps = [max(1, floor(size / unit)) for size in self.sizes]
        self.copies = [sum(max((way.count for way in ways if way.size == size), default=0) for ways in lying)
                       for size in self.sizes]
        if any(way.size is ANY for ways in lying for way in ways):
            self.sizes.append(ANY)
            self.steps.append(1)
            self.copies.append(10**9)
        self.fills = []

    def most(self, room, over=None):
        """The greatest total found; stops early once it is certain to pass `over`, or certain not to.

        `room` is in whole steps of the unit. A piece that fits no way makes the total infinite.
        """
        ways = [[(self.sizes.index(way.size), self._reach(way)) for way in lying if self._fits(way, room)]
                for lying in self.lying]
        if not all(ways):
            return float("inf")
        if room < 1:
            return Fraction(0)
        best = Fraction(0)
        fills = [fill for fill in self.fills if sum(np.multiply(fill, self.steps)) <= room] + self._single(room)
        for _ in range(ROUNDS):
            hoped, worth = self._proposed(ways, fills)
            if worth is None:
                break
            (top,), (fill,) = best_fill(self.steps, self.copies, [worth], room)
            if top <= 0:
                break
            best = max(best, sum((min(reach * worth[size] for size, reach in lying) for lying in ways), Fraction(0))
                       / int(top))
            if top <= WORTH * (1 + 1e-5) or over is not None and (best > over or hoped < over):
                break
            fills.append(tuple(fill.tolist()))
            self.fills.append(fills[-1])
        return best

    def _reach(self, way):
        return way.reach / self.unit if way.size is ANY else way.reach

    def _fits(self, way, room):
        return way.size is ANY or self.steps[self.sizes.index(way.size)] <= room

    def _single(self, room):
        return [tuple(min(most, room // step) if other == number else 0 for other in range(len(self.steps)))
                for number, (step, most) in enumerate(zip(self.steps, self.copies))]

    def _proposed(self, ways, fills):
        """The total hoped for and worths (whole numbers) that pass all `fills` so far, by linear programming."""
        from scipy.optimize import linprog
        sizes, pieces = len(self.sizes), len(ways)
        rows = [[*fill, *([0] * pieces)] for fill in fills if any(fill)]
        limits = [1.0] * len(rows)
        scale = float(max(reach for lying in ways for _, reach in lying))
        for number, lying in enumerate(ways):
            for size, reach in lying:
                row = [0.0] * (sizes + pieces)
                row[size], row[sizes + number] = -float(reach) / scale, 1.0
                rows.append(row)
                limits.append(0.0)
        answer = linprog([0.0] * sizes + [-1.0] * pieces, A_ub=rows, b_ub=limits, bounds=(0, None), method="highs")
        if answer.status:
            return 0, None
        return -answer.fun * scale, [int(worth * WORTH) for worth in answer.x[:sizes]]
