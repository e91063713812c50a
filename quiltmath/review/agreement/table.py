"""All that must agree, with what is too much in each as corrections go on, and where each printed number stands."""

from __future__ import annotations

from bisect import bisect_left
from collections import defaultdict
from itertools import islice, takewhile

from ...making.rounding import ROUNDING
from .agreed import paths

SAME = 1 / 32  # inches: two corrections that differ by less are one
STEP = 1 / 8  # inches: printed sizes are usually whole steps of this


class Table:
    """Agreements by their numbers, and the printed `values`, {Figure: inches}.

    `off` is what is too much in each agreement; `broken` are those that do not hold, `doubted` is evidence that does
    not, `given` those that are given up. `at` finds agreements by the place where they are told, `standing` those in
    which a figure stands, (number, how often) each, `sides` the figures of the value at a path. Sizes are whole steps
    of `step` inches as a rule.
    """

    def __init__(self, agreements, values, step=STEP):
        self.agreements, self.values, self.step = list(agreements), dict(values), step
        self.off = [one.off.value for one in agreements]
        self.printed = sorted((value, figure.path) for figure, value in values.items())
        self.standing, self.sides, self.at = defaultdict(list), defaultdict(list), defaultdict(list)
        for number, one in enumerate(agreements):
            self.at[one.path].append(number)
            for figure, share in one.off.shares.items():
                if abs(share) > 1e-9:
                    self.standing[figure].append((number, share))
        for figure in self.standing:
            self.sides[figure.path].append(figure)
        self.given, self.broken, self.doubted = set(), set(), set()
        self.look_again(range(len(self.agreements)))

    def look_again(self, numbers):
        """See which of these agreements hold now."""
        for number in numbers:
            one = self.agreements[number]
            off = number not in self.given and not one.holds(self.off[number])
            kind = self.doubted if one.evidence else self.broken
            (kind.add if off else kind.discard)(number)

    def paths_in(self, numbers):
        """The paths of all values that stand in these agreements."""
        return {path for number in numbers for path in paths(self.agreements[number].off)}

    def paths_beside(self, numbers):
        """The paths of all values that stand in agreements told where these are."""
        return self.paths_in(near for place in self.places_of(numbers) for near in self.at[place])

    def places_of(self, numbers):
        """Where these agreements are told."""
        return {self.agreements[number].path for number in numbers}

    def correct(self, correction):
        """Go on with these numbers corrected; returns the numbers of the agreements that this touches."""
        after = self.after(correction)
        for number, off in after.items():
            self.off[number] = off
        for figure, by in correction.by.items():
            self.values[figure] -= by
        self.look_again(after)
        return after

    def give_up(self, place):
        """The numbers of all broken agreements of a place, which are left aside from now on."""
        numbers = sorted(number for number in self.at[place] if number in self.broken)
        self.given.update(numbers)
        self.look_again(numbers)
        return numbers

    @property
    def place(self):
        """Where the first of the broken agreements is told."""
        return self.agreements[min(self.broken)].path

    def after(self, correction):
        """{number: what is too much} of the agreements that a correction touches."""
        after = {}
        for figure, by in correction.by.items():
            for number, share in self.standing[figure]:
                after[number] = after.get(number, self.off[number]) - share * by
        return after

    def shares(self, figures):
        """{agreement: how often these numbers together stand in it}."""
        shares = defaultdict(float)
        for figure in figures:
            for number, share in self.standing[figure]:
                shares[number] += share
        return shares

    def holds(self, number, off):
        """Whether an agreement would hold with so much too much in it."""
        return self.agreements[number].holds(off)

    def more(self, after):
        """How many more do not hold once agreements are so much off: strong ones, and evidence."""
        more = [0, 0]
        for number, off in after.items():
            if number not in self.given:
                held = self.holds(number, self.off[number])
                more[self.agreements[number].evidence] += held - self.holds(number, off)
        return tuple(more)

    def in_part(self, settled, after):
        """Whether something at the places of what is settled still does not hold."""
        near = {n for place in self.places_of(settled) for n in self.at[place]}
        strong = [n for n in near if not self.agreements[n].evidence]
        return any(not self.holds(n, after[n]) if n in after else n in self.broken for n in strong)

    def apart(self, correction, touching):
        """How much (inches) does not agree in all, after a correction, of what this or another one touches."""
        after = {number: self.off[number] for number in self.after(touching)} | self.after(correction)
        return sum(map(abs, after.values()))

    # -- the values ------------------------------------------------------------------------------------------------

    def moved(self, path):
        """The numbers at a path that change together: both sides of a square, else each by itself."""
        figures = self.sides[path]
        square = len(figures) == 2 and abs(self.values[figures[0]] - self.values[figures[1]]) < 1e-6
        return [figures] if square else [[figure] for figure in figures]

    def is_new(self, size, paths):
        """Whether nothing else is printed in this size (inches)."""
        first = bisect_left(self.printed, (size - SAME,))
        near = takewhile(lambda one: one[0] <= size + SAME, islice(self.printed, first, None))
        return all(path in paths for _, path in near)

    def stay_sizes(self, figures, by):
        """Whether the numbers stay sizes once corrected."""
        return all(self.values[figure] - by > 0 for figure in figures)

    def are_rounded(self, figures):
        """Whether numbers are those of triangles, which are printed rounded."""
        return any(self.agreements[n].less == ROUNDING for figure in figures for n, _ in self.standing[figure])

    def are_neat(self, figures, by):
        """Whether numbers would be corrected by whole steps of a ruler, or are printed rounded anyway."""
        return self.are_rounded(figures) or self.off_the_ruler(by) < 1 / 16

    def off_the_ruler(self, by):
        """How far a correction (inches) is from one by whole steps, in steps."""
        return abs(by / self.step - round(by / self.step))

    def is_to_settle(self, number):
        """Whether an agreement is told where something is broken."""
        place = self.at[self.agreements[number].path]
        return number not in self.given and not self.broken.isdisjoint(place)

    def places(self, path):
        """Where agreements are told in which the value at a path stands."""
        held = (self.agreements[number] for figure in self.sides[path] for number, _ in self.standing[figure])
        return {one.path for one in held if not one.evidence}
