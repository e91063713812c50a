"""How little fabric could ever do, by counting alone: exact, in whole numbers, without a linear programme.

Give each size across the fabric a worth, such that no sizes that fit across are worth more than 1 together, and each
size along it likewise; then worth across times worth along, added up over the pieces, is 1 at most. Four ways of giving
worths do for most cutting lists, and no search is needed to know that they keep that rule:

- its share of the room: this counts the area;
- its share, but 1 where it leaves less than some size, and nothing where it is smaller than that size: what is wider
  than half cannot stand beside another of its kind;
- its share, rounded down to the next 1/k (in steps of 1/(k + 1)): how many of them stand side by side;
- how many of some size it takes the place of, out of all that fit: columns beside a wider piece.

They are dual feasible functions: "A general framework for bounds for higher-dimensional orthogonal packing problems",
Mathematical Methods of Operations Research 60 (2004), and "New reduction procedures and lower bounds for the
two-dimensional bin packing problem with fixed orientation", Computers & Operations Research 34 (2007). Quick floats
choose a pair, whole numbers check it.
"""

from fractions import Fraction
from math import ceil, floor, gcd, lcm

import numpy as np

HALVINGS = 6
STEPS = range(1, 10)
"""The k of the third way."""

LARGEST = 2**36
"""Sizes that are more units than this are not counted: their products would not be whole numbers of the machine."""

NEVER = 10**6
"""The worth of a size that does not fit at all: another way to lay the piece is always cheaper."""


class Counted:
    """The ways some pieces may lie on fabric of one width, in whole units; `turns` as in `bounds`.

    >>> from .bounds import turns
    >>> from quiltmath.yardage import Piece
    >>> Counted([turns(0, Piece(10, 10, 13), Fraction(42), ())], Fraction(42)).at_least(Fraction(50))
    Fraction(40, 1)
    """

    def __init__(self, turns: list[list[tuple]], width: Fraction):
        ways = [way for own in turns for way in own]
        sizes = [size for wide, high, *_ in ways for size in (wide, high) if size is not None]
        muches = [much for wide, _, much, _ in ways if wide is None]
        self.unit = Fraction(1, lcm(width.denominator, *(size.denominator for size in (*sizes, *muches))))
        self.width = int(width / self.unit)
        self.begins = [0]
        for own in turns[:-1]:
            self.begins.append(self.begins[-1] + len(own))
        self.copies = [1 if wide is None else much for wide, _, much, _ in ways]
        self.wide = [None if wide is None else int(wide / self.unit) for wide, *_ in ways]
        self.high = [None if high is None else int(high / self.unit) for _, high, *_ in ways]
        crumbs = [self._crumbs(wide, high, much) for wide, high, much, _ in ways]
        highs = [high for high in self.high if high is not None]
        self.stepped = len(highs) == len(ways)
        self.step = gcd(*highs) if self.stepped else 1
        self.countable = bool(ways) and max(self.width, *highs, *filter(None, crumbs)) < LARGEST
        if self.countable:
            self.across = _worths(self.wide, self.width, crumbs)

    def _crumbs(self, wide, high, much):
        """What is joined of any bits: so many units across, or square units where they lie either way."""
        if wide is not None:
            return None
        return int(much / self.unit) if high is not None else int(much / self.unit**2)

    def at_least(self, enough: Fraction, bought: Fraction | None = None) -> Fraction:
        """Inches of fabric that no cutter gets under, `enough` at most; `bought` is a length to ask of first."""
        if not self.countable or enough / self.unit >= LARGEST:
            return Fraction(0)
        last = ceil(enough / (self.unit * self.step))
        counted = self._side_by_side() / self.step
        proved = min(last, ceil(counted) if self.stepped else floor(counted))
        asked = [last] if bought is None else [bought // (self.unit * self.step) + 1, last]
        for steps in asked:
            if proved < steps <= last and self._too_short(steps):
                proved = steps
            elif steps == last:
                last -= 1
        for _ in range(HALVINGS):
            if proved >= last:
                break
            middle = (proved + last + 1) // 2
            if self._too_short(middle):
                proved = middle
            else:
                last = middle - 1
        return min(enough, max(proved, counted) * self.step * self.unit)

    def _side_by_side(self):
        """Units along the fabric, counted across it: heights times worths, added up."""
        nums, dens = self.across
        high = [1 if high is None else high for high in self.high]
        found = np.add.reduce(self._cheapest(nums / dens[:, None] * np.array(high, float)), axis=-1)
        best = int(np.argmax(found))
        exact = self._exact(nums[best], high)
        return Fraction(exact, int(dens[best]))

    def _too_short(self, steps):
        """Whether all fabric shorter than so many steps is proved too short."""
        room = (steps - 1 if self.stepped else steps) * self.step
        return room <= 0 or self._worth_in(room) > 1

    def pieces_at_least(self, length: Fraction) -> int:
        """How many pieces of fabric so long no cutter does without; 0 where that is not counted.

        >>> from .bounds import turns
        >>> from quiltmath.yardage import Piece
        >>> Counted([turns(0, Piece(10, 10, 13), Fraction(21), ())], Fraction(21)).pieces_at_least(Fraction(18))
        7
        """
        room = int(length // self.unit)
        return ceil(self._worth_in(room)) if self.countable and 0 < room < LARGEST else 0

    def _worth_in(self, room):
        """The greatest worth found of all pieces together, on fabric of so many units along: 1 fills it."""
        nums, dens = _worths(self.high, room, [1] * len(self.high))
        wide, wide_dens = self.across
        worth = (wide / wide_dens[:, None])[:, None, :] * (nums / dens[:, None])[None, :, :]
        found = np.add.reduce(self._cheapest(worth), axis=-1)
        at, along = np.unravel_index(int(np.argmax(found)), found.shape)
        return Fraction(self._exact(wide[at], nums[along].tolist()), int(wide_dens[at]) * int(dens[along]))

    def _cheapest(self, worth):
        """Of each piece the way that is worth least, times its copies."""
        return np.minimum.reduceat(worth * np.array(self.copies, float), self.begins, axis=-1)

    def _exact(self, across, along):
        """The same for one pair, in whole numbers."""
        each = [int(one) * int(other) * copies for one, other, copies in zip(across, along, self.copies)]
        return sum(min(each[begin:end]) for begin, end in zip(self.begins, [*self.begins[1:], len(each)]))


def _worths(sizes, room, crumbs):
    """Every worth of these sizes in so much room: rows of numerators, and a denominator for each row."""
    size = np.array([room if one is None else one for one in sizes], dtype=np.int64)
    fits = size <= room
    small = size[2 * size <= room]
    left = room - size[(2 * size > room) & (size < room)]
    marks = np.unique(np.concatenate([small, left]))[:, None]
    k = np.array(STEPS)[:, None]
    share = size[None, :]
    kept = np.where(share > room - marks, room, np.where(share >= marks, share, 0))
    parts = (k + 1) * share
    stepped = np.where(parts % room == 0, share * k, parts // room * room)
    stand = room // marks
    taken = np.where(
        2 * share > room,
        2 * (stand - (room - share) // marks),
        np.where(2 * share == room, stand, 2 * (share // marks)),
    )
    nums = np.concatenate([share, kept, stepped, taken])
    dens = np.concatenate([[room], np.full(len(marks), room), k[:, 0] * room, 2 * stand[:, 0]])
    nums = np.where(fits, nums, NEVER * dens[:, None])
    for number, (one, much) in enumerate(zip(sizes, crumbs)):
        if one is None:
            nums[:, number] = 0
            nums[0, number] = much
    return nums, dens
