"""How little fabric could ever do: bounds that no cutter, however careful, gets under.

Lay a line across the fabric anywhere: the pieces it crosses have widths that add up to no more than the usable width.
So give each width a worth, such that no widths that fit across are worth more than 1 together. Then an inch of fabric
holds a worth of 1 at most, and heights times worths, added up, are no more than the length of the fabric. The same goes
for a line along the selvage, and for both together: worth across times worth along, added up, is 1 at most for the
whole fabric. Any such worths give a true bound: those of `counted` need no search; where they leave a gap HiGHS
proposes better ones, and whole-number arithmetic checks them. Pieces lie on the grain, as given or turned where they
may be turned.

    >>> from quiltmath.yardage import Piece
    >>> by_counting([Piece(10, 10, 13)], Fraction(42), Fraction(40))
    Fraction(40, 1)
"""

from fractions import Fraction
from math import ceil, floor

import numpy as np

from .counted import Counted
from .filling import PLAIN, best_fill, grid

MOST_WAYS = 80
"""More ways to lie than this, and only the area and the tallest piece count."""

ROUNDS = 25
HALVINGS = 4
FINEST_ACROSS = 4096
FINEST_ALONG = 8192
WORTH = 10**6
NEAR = Fraction(1, 10**5)
ANY = None
"""The size of what may be joined of any bits: an endless supply of crumbs one unit long, which fill every gap."""


ENDLESS = 10**9


def by_counting(pieces, width, enough, joints=(), bought=None):
    """Inches of fabric, `width` wide, that these pieces need at the very least, without a linear programme.

    `enough` is a length that will do; `bought` is a length of which it is asked first whether it is too short.
    """
    lying = [turns(number, piece, width, joints) for number, piece in enumerate(pieces)]
    low = max(sum((piece.area for piece in pieces), Fraction(0)) / width, *map(_height, lying))
    if low >= enough or sum(map(len, lying)) > MOST_WAYS:
        return min(low, enough)
    return max(low, Counted(lying, width).at_least(enough, bought))


def by_programmes(pieces, width, enough, joints, low):
    """The greater of what linear programmes find and the length `low` that counting found."""
    lying = [turns(number, piece, width, joints) for number, piece in enumerate(pieces)]
    if sum(map(len, lying)) > MOST_WAYS:
        return low
    return max(low, _proposed_least(lying, width, enough))


def _proposed_least(lying, width, enough):
    across = Line([[turn[0] for turn in ways] for ways in lying], lying, width, FINEST_ACROSS)
    length, worth = across.most(
        [[_inches(high) * much for _, high, much, _ in ways] for ways in lying], ceil(width / across.unit)
    )
    low = max(length, *map(_height, lying))
    if low >= enough:
        return enough
    worths = [lambda size: _inches(size) / width, *([worth.get] if worth else [])]
    return min(enough, max(low, _least_along(lying, worths, low, enough)))


def _height(ways):
    """How far along the selvage a piece runs at least."""
    return min(0 if high is ANY else high for _, high, *_ in ways)


def _inches(size):
    return 1 if size is ANY else size


def turns(number, piece, width, joints):
    """The ways a piece may lie: (size across, size along, how many or, of crumbs, inches or square inches, copies)."""
    for one in joints:
        if one.piece == number:
            return [(ANY, ANY if one.free else one.broad, piece.area if one.free else one.long * piece.count, ENDLESS)]
    found = {(piece.width, piece.height)} | ({(piece.height, piece.width)} if piece.any_way else set())
    return [(wide, high, piece.count, piece.count) for wide, high in sorted(found) if wide <= width]


def _least_along(turns, worths, low, enough):
    """The longest length found below which the pieces cannot all lie side by side; 0 if none is found."""
    line = Line([[turn[1] for turn in ways] for ways in turns], turns, enough, FINEST_ALONG)
    crumbs = ANY in line.sizes
    reaches = [[[worth(wide) * much for wide, _, much, _ in ways] for ways in turns] for worth in worths]

    def too_short(steps):
        """Whether every fabric shorter than so many steps holds too little: sizes along it add up to less than that."""
        room = steps if crumbs else steps - 1
        return any(line.most(reach, room, over=1)[0] > 1 for reach in reaches)

    first, last = floor(low / line.unit) + 1, ceil(enough / line.unit)
    if first > last:
        return Fraction(0)
    if too_short(last):
        return last * line.unit
    proved = 0
    for _ in range(HALVINGS):
        if first >= last:
            break
        middle = (first + last) // 2
        if too_short(middle):
            proved, first = middle, middle + 1
        else:
            last = middle
    return proved * line.unit


class Line:
    """A line over the fabric: the sizes it can meet, and what each is worth when no fill is worth more than 1.

    Sizes are rounded down to whole steps of `unit` where they are no multiples of it, so that more fits, never less;
    what is smaller than a step counts for nothing.
    """

    def __init__(self, sizes, turns, longest, finest):
        met = {}
        for own, ways in zip(sizes, turns):
            for size, copies in {size: way[3] for size, way in zip(own, ways)}.items():
                met[size] = met.get(size, 0) + copies
        self.sizes = list(met)
        self.unit = grid([longest, *(size for size in self.sizes if size is not ANY)], finest)
        self.steps = [1 if size is ANY else max(1, floor(size / self.unit)) for size in self.sizes]
        self.copies = [ENDLESS if size is ANY else met[size] * (size >= self.unit) for size in self.sizes]
        self.lying = [[self.sizes.index(size) for size in own] for own in sizes]
        self.fills = []

    def most(self, reaches, room, over=None):
        """The greatest total of worth times reach found, and the worths that give it, by size (of crumbs: an inch).

        `reaches` has a number for each way of each piece, `room` is in whole steps. Stops early once the total is
        certain to pass `over`, or certain not to. A piece that fits no way makes the total infinite.
        """
        ways = [
            [
                (size, reach / self.unit if self.sizes[size] is ANY else reach * bool(self.copies[size]))
                for size, reach in zip(own, reached)
                if self.steps[size] <= room
            ]
            for own, reached in zip(self.lying, reaches)
        ]
        if not all(ways):
            return float("inf"), None
        best, worths = Fraction(0), None
        fills = [fill for fill in self.fills if sum(np.multiply(fill, self.steps)) <= room] + self._single(room)
        for _ in range(ROUNDS):
            hoped, worth = _worths_proposed(ways, fills, len(self.sizes))
            if not any(worth):
                break
            (top,), (fill,) = best_fill(self.steps, self.copies, [worth], room)
            total = sum((min(reach * worth[size] for size, reach in own) for own in ways), Fraction(0)) / int(top)
            if total > best:
                best, worths = total, self._by_size(worth, int(top))
            if top <= WORTH * (1 + NEAR) or over is not None and (best > over or hoped < over):
                break
            fills.append(tuple(fill.tolist()))
            self.fills.append(fills[-1])
        return best, worths

    def _by_size(self, worth, top):
        return {size: Fraction(each, top) / (self.unit if size is ANY else 1) for size, each in zip(self.sizes, worth)}

    def _single(self, room):
        return [
            tuple(min(most, room // step) if other == number else 0 for other in range(len(self.steps)))
            for number, (step, most) in enumerate(zip(self.steps, self.copies))
        ]


def _worths_proposed(ways, fills, sizes):
    """The total to hope for, and worths (whole numbers) by which no fill so far passes 1: a linear programme."""
    from scipy.optimize import linprog

    scale = float(max(reach for own in ways for _, reach in own)) or 1.0
    rows = [[*fill, *([0] * len(ways))] for fill in fills if any(fill)]
    limits = [1] * len(rows)
    for number, own in enumerate(ways):
        for size, reach in own:
            row = [0.0] * (sizes + len(ways))
            row[size], row[sizes + number] = -float(reach) / scale, 1
            rows.append(row)
            limits.append(0)
    answer = linprog(
        [0] * sizes + [-1] * len(ways), A_ub=rows, b_ub=limits, bounds=(0, None), method="highs", options=PLAIN
    )
    if answer.status:
        return 0, [0] * sizes
    return -answer.fun * scale, [int(worth * WORTH) for worth in answer.x[:sizes]]
