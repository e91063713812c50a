"""Which ways one strip can be sub-cut: its height, and how many columns of each piece stand side by side in it.

A pattern is (height, columns), one number of columns for each `Way`. A strip `height` high is cut along the selvage
into columns; a column gives as many pieces as fit one above another.
"""

from functools import cached_property
from itertools import islice
from math import floor, lcm

import numpy as np

from .filling import best_fill_up, grid

MOST_HEIGHTS = 72
MOST_PATTERNS = 1200
MOST_LOOKED_AT = 6000
FINEST = 4096


class Strips:
    """The strips that can be cut from fabric of one width: what heights make sense, and how each can be filled."""

    def __init__(self, ways, demand, width):
        self.ways, self.demand, self.width = ways, demand, width
        unit = grid([width, *(way.across for way in ways)], FINEST)
        self.room = int(width / unit)
        self.across = [-int(-(way.across / unit) // 1) for way in ways]
        self.need = [demand[way.piece] for way in ways]
        self._fine = lcm(*(way.along.denominator for way in ways))
        self._along = [int(way.along * self._fine) for way in ways]  # whole numbers divide far quicker than fractions

    @cached_property
    def _heights(self):
        return _heights(self.ways, self.need)

    @property
    def heights(self):
        """The heights a strip may have, the lower ones first."""
        return self._heights[0]

    @property
    def all_heights(self):
        """Whether these are all there are."""
        return self._heights[1]

    def stack(self, height):
        """How many pieces each way gives in one column of a strip this high."""
        high = floor(height * self._fine)
        return [high // along for along in self._along]

    def standing(self, height, number):
        """How many pieces one way gives in such a column."""
        return floor(height * self._fine) // self._along[number]

    def gives(self, height, columns):
        """How many pieces of each kind a pattern gives."""
        given = [0] * len(self.demand)
        for number, stood in enumerate(columns):
            if stood:
                given[self.ways[number].piece] += self.standing(height, number) * stood
        return given

    def tallest_first(self, numbers):
        """The numbers of these ways as a cutter takes them: the tallest first, of those the widest."""
        return sorted(numbers, key=lambda number: (-self._along[number], -self.across[number]))

    def waste(self, height, columns):
        """Which share of a strip of this pattern is no piece."""
        held = sum(
            stood * each * way.across * way.along for way, each, stood in zip(self.ways, self.stack(height), columns)
        )
        return 1 - held / (height * self.width)

    def one_kind(self):
        """For each way the strip of that piece alone: what a plan part by part uses."""
        for number, way in enumerate(self.ways):
            columns = [0] * len(self.ways)
            columns[number] = min(self.room // self.across[number], self.need[number])
            yield way.along, tuple(columns)

    def every(self):
        """All patterns to which no column can be added; None if there are too many to look at."""
        if not self.all_heights:
            return None
        looked_at = [
            filled
            for height in self.heights
            for filled in islice(self._fillings(height), MOST_LOOKED_AT // len(self.heights) + 1)
        ]
        found = [filled for filled in looked_at if filled]
        return found if len(looked_at) <= MOST_LOOKED_AT and len(found) <= MOST_PATTERNS else None

    def _fillings(self, height):
        """Each way to fill a strip as (height, columns), widest first; None where a column could still be added."""
        stack = self.stack(height)
        most = [-(-need // each) if each else 0 for need, each in zip(self.need, stack)]
        order = sorted((n for n, each in enumerate(stack) if each), key=lambda n: -self.across[n])
        columns = [0] * len(stack)

        def fill(depth, room, narrowest_left):
            if depth == len(order):
                yield (height, tuple(columns)) if room < narrowest_left else None
                return
            way = order[depth]
            across = self.across[way]
            fit = min(most[way], room // across)
            for count in range(fit, fit - 1 if depth == len(order) - 1 else -1, -1):
                columns[way] = count
                left = across if count < most[way] else narrowest_left
                yield from fill(depth + 1, room - count * across, min(narrowest_left, left))
            columns[way] = 0

        yield from fill(0, self.room, self.room + 1)

    def fullest(self, worth):
        """For each height the columns worth most, where one piece of each kind is worth so much (whole numbers), and
        none more than are needed is worth anything."""
        stacks = np.array([self.stack(height) for height in self.heights], dtype=np.int64)
        worths = [worth[way.piece] for way in self.ways]
        gains = [list(_gains(each, *of)) for each, *of in zip(stacks.T, self.need, worths)]
        best, columns = best_fill_up(self.across, gains, self.room, len(stacks))
        return [
            (int(value), height, tuple(int(n) for n in row)) for value, height, row in zip(best, self.heights, columns)
        ]


def _gains(each, need, worth):
    """What each further column of one way adds in strips of several heights, which give so many of it a column."""
    for column in range(need):
        added = np.clip(need - column * each, 0, each) * worth
        if not added.any():
            return
        yield added


def _heights(ways, need):
    """The heights a strip may have: stacks of one piece, the lower ones first; and whether these are all there are."""
    single = sorted({way.along for way in ways})
    tallest = max(single, default=0)
    stacks = sorted(
        {way.along * copies for way, most in zip(ways, need) for copies in range(2, min(most, MOST_HEIGHTS) + 1)}
        - set(single)
    )
    low = [height for height in stacks if height <= tallest]
    high = [height for height in stacks if height > tallest]
    chosen = (single + low + high)[: max(MOST_HEIGHTS, len(single))]
    complete = len(chosen) == len(single) + len(stacks) and max(need, default=0) <= MOST_HEIGHTS
    return chosen, complete
