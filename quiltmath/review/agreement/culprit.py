"""Which printed number is wrong: the one whose correction leaves fewest that do not agree."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations
from typing import NamedTuple, TypeAlias

import numpy as np

from ...making.rounding import ROUNDING
from .agreements import Agreement
from .figures import Figure
from .miscounted import Miscounted

SAME = 1 / 32  # inches: two corrections that differ by less are one
RULER = 1 / 8  # inches: printed sizes are usually whole steps of this
LEAST_EVIDENCE = 3  # sums: fewer that do not agree may be rounded, or cut to be trimmed
MOST_TRIED = 40  # numbers of one kind of error that are tried in pairs


class Correction(NamedTuple):
    """How much too large (inches) some numbers are printed: {Figure: inches}; `exchanged`: two pieces put in each
    other's place."""

    by: dict[Figure, float]
    exchanged: bool = False

    @property
    def paths(self) -> frozenset[tuple]:
        """The paths of the values it changes."""
        return frozenset(figure.path for figure in self.by)


@dataclass(frozen=True)
class Culprit:
    """A `Correction` and what it settles: the `Agreement`s that did not hold and now do, strong ones first.

    `others` are corrections that would settle as much: nothing printed tells which of them is right. `unlikely`: it
    changes more than one cut size, or to one that no ruler would suggest.
    """

    correction: Correction
    settles: tuple[Agreement, ...]
    others: tuple[Correction, ...] = ()

    unlikely: bool = False

    @property
    def place(self) -> tuple:
        """The path of what does not agree, the first of it."""
        return self.settles[0].path

    @property
    def printed(self) -> bool:
        """Whether a printed finished size tells, and not only edges that differ."""
        return any(one.printed and not one.evidence for one in self.settles) or self._by_evidence

    @property
    def _by_evidence(self):
        return all(one.evidence for one in self.settles)


@dataclass(frozen=True)
class Unexplained:
    """Agreements of one place that do not hold and that no single correction brings nearer."""

    settles: tuple[Agreement, ...]

    @property
    def place(self) -> tuple:
        """The path of what does not agree."""
        return self.settles[0].path

    @property
    def printed(self) -> bool:
        """Whether a printed finished size is among what does not agree."""
        return any(one.printed for one in self.settles)


Found: TypeAlias = "Culprit | Miscounted | Unexplained"


def culprits(
    agreements: Sequence[Agreement], values: dict[Figure, float], rows: Iterable[Miscounted] = ()
) -> Iterator[Found]:
    """The corrections, one after another, with which all that must agree does; `values` are the printed numbers, `rows`
    those that a part too few or too many would explain.

    >>> from .figures import Sum
    >>> a, b, printed = (Figure((name,)) for name in "ab9")
    >>> rows = [Sum(8.875, {a: 2, b: 1, printed: -1}).minus(9), Sum(8.9375, {a: 1, b: 2, printed: -1}).minus(9)]
    >>> sums = [Agreement(row, ("rows",)) for row in rows]
    >>> [one.correction.by for one in culprits(sums, {a: 2.9375, b: 3.0, printed: 9.0})]
    [{Figure(path=('a',), side=0): -0.0625}]
    """
    table, off = _Table(agreements, values), {row.path: row for row in rows}
    while table.broken:
        found, place = table.best(), table.place
        if place in off and (found is None or found.unlikely or off[place].sure):
            yield off[place]
            table.give_up(place)
        elif found is None:
            yield Unexplained(table.give_up(place))
        else:
            yield found
            table.correct(found.correction)
    suspect = table.suspect()
    if suspect is not None:
        yield suspect


class _Tried(NamedTuple):
    """A correction that was tried; of two the smaller one is the likelier: what it leaves broken (agreements, then
    evidence), whether it changes a printed finished size, how many values, whether a square is no longer one, whether
    no value follows from others, whether it is `odd` (no whole steps of a ruler, or to a size that nothing else has),
    the largest change in inches, and its number."""

    left: tuple[int, int]
    finished: bool
    values: int
    half: bool
    free: bool
    odd: bool
    largest: float
    number: int
    correction: Correction


class _Table:
    """All agreements with what is too much in each as corrections go on, and where each number stands; `left` counts
    those that do not hold, strong ones and evidence."""

    def __init__(self, agreements, values):
        self.agreements, self.values = list(agreements), dict(values)
        self.off = [one.off.value for one in agreements]
        self.given, self.left = set(), (0, 0)
        self.standing = defaultdict(list)
        for number, one in enumerate(agreements):
            for figure, share in one.off.shares.items():
                if abs(share) > 1e-9:
                    self.standing[figure].append((number, share))
        self.sides = defaultdict(list)
        for figure in self.standing:
            self.sides[figure.path].append(figure)

    @property
    def broken(self):
        """The numbers of the agreements that do not hold and are more than evidence."""
        return [number for number in self._not_holding() if not self.agreements[number].evidence]

    def _not_holding(self):
        return [
            number
            for number, off in enumerate(self.off)
            if number not in self.given and not self.agreements[number].holds(off)
        ]

    def best(self):
        """The `Culprit` that leaves fewest agreements broken; None where none leaves fewer, or none settles all that is
        broken at the places it touches."""
        not_holding = self._not_holding()
        broken = {number for number in not_holding if not self.agreements[number].evidence}
        self.left = len(broken), len(not_holding) - len(broken)
        concerned = sorted({fig.path for number in broken for fig in self.agreements[number].off.shares}, key=str)
        found = self._ranked(self._single(concerned, broken), broken)
        if not found or any(found[0].left):
            several = [*self._exchanged(concerned), *self._together(concerned, broken)]
            found = sorted(found + self._ranked(several, broken))
        if not found:
            return None
        first = found[0]
        others = {}
        for one in found[1:]:
            if (one.left, one.odd) == (first.left, False) and one.correction.paths != first.correction.paths:
                others.setdefault(one.correction.paths, one.correction)
        after = self._after(first.correction)
        settled = [n for n in not_holding if n in after and self.agreements[n].holds(after[n])]
        settled.sort(key=lambda n: self.agreements[n].evidence)
        unlikely = first.odd or first.half or first.finished or first.values > 1
        return Culprit(first.correction, tuple(self.agreements[n] for n in settled), tuple(others.values()), unlikely)

    def suspect(self):
        """The `Culprit` of evidence alone: the one cut size with which all of it agrees, the printed size of the quilt
        and what else does not; None where there is no such size, or more than one."""
        off = set(self._not_holding())
        places = {self.agreements[number].path for number in off}
        if self.given or len(off) < LEAST_EVIDENCE or len(places) < 2 or ("finished",) not in places:
            return None
        concerned = sorted({fig.path for n in off for fig in self.agreements[n].off.shares if fig.path[0] == "cut"})
        found = {}
        for correction in self._single(concerned, off):
            after, (by, *others) = self._after(correction), correction.by.values()
            neat = not others and abs(by / RULER - round(by / RULER)) < 1 / 16
            if neat and off <= after.keys() and all(self.agreements[n].holds(each) for n, each in after.items()):
                found.setdefault(correction.paths, correction)
        if len(found) != 1:
            return None
        settled = sorted((self.agreements[number] for number in off), key=lambda one: (not one.aim, one.path))
        return Culprit(found.popitem()[1], tuple(settled))

    def _ranked(self, corrections, broken):
        """These corrections as `_Tried`, the likeliest first: those that settle all at every place they touch."""
        tried = [self._tried(number, one, broken) for number, one in enumerate(corrections)]
        return sorted(one for one in tried if one is not None)

    def _tried(self, number, correction, broken):
        """A correction with all that makes it less likely; None where it leaves no less broken, or only part of a
        place."""
        left, after = self._left(correction), self._after(correction)
        settled = {n for n in broken if n in after and self.agreements[n].holds(after[n])}
        places = {self.agreements[n].path for n in settled}
        still = [n for n in broken - settled if n not in after] + [
            n for n, off in after.items() if not self.agreements[n].evidence and not self.agreements[n].holds(off)
        ]
        partly = any(self.agreements[n].path in places for n in still)
        if left[0] >= len(broken) or partly:
            return None
        values, paths = self.values, correction.paths
        mended = [values[figure] - by for figure, by in correction.by.items() if abs(by) > SAME]
        others = [value for figure, value in values.items() if figure.path not in paths]
        new = any(min((abs(one - other) for other in others), default=1.0) > SAME for one in mended)
        steps = [by / RULER for by in correction.by.values()]
        half = any(len({round(correction.by.get(fig, 0.0), 4) for fig in self._moved(path)[0]}) > 1 for path in paths)
        return _Tried(
            left,
            any(path[-1] == "finished" for path in paths),
            len(paths),
            half,
            not any(self.agreements[n].subject in paths for n in settled),
            not correction.exchanged and (new or any(abs(step - round(step)) > 1 / 8 for step in steps)),
            max(map(abs, correction.by.values())),
            number,
            correction,
        )

    def correct(self, correction):
        """Go on with these numbers corrected."""
        for number, off in self._after(correction).items():
            self.off[number] = off
        for figure, by in correction.by.items():
            self.values[figure] -= by

    @property
    def place(self):
        """Where the first of the broken agreements is told."""
        return self.agreements[self.broken[0]].path

    def give_up(self, place):
        """All broken agreements of a place, which are left aside from now on."""
        some = [number for number in self.broken if self.agreements[number].path == place]
        self.given.update(some)
        return tuple(self.agreements[number] for number in some)

    def _single(self, paths, broken):
        """Each correction of one printed value that would settle some broken agreement in which it stands."""
        for path in paths:
            whole, each = self._moved(path), [[figure] for figure in self.sides[path]]
            for figures in whole + [one for one in each if one not in whole]:
                yield from (Correction(dict.fromkeys(figures, by)) for by in self._ways(figures, broken))
            if len(whole) == 2:
                yield from self._both(self.sides[path], broken)

    def _both(self, figures, broken):
        """Both numbers of a size corrected, each by what settles something."""
        ways = [self._ways([figure], broken) for figure in figures]
        yield from (Correction(dict(zip(figures, pair))) for pair in zip(*ways))

    def _ways(self, figures, broken):
        """By how much (inches) these numbers together may be too large."""
        ways = []
        for number, share in self._shares(figures).items():
            if number in broken and abs(share) > 1e-9:
                by = self.off[number] / share
                if all(abs(by - other) > SAME for other in ways) and self._stays(figures, by):
                    ways.append(by)
        return ways

    def _stays(self, figures, by):
        """Whether the numbers stay sizes once corrected."""
        return all(self.values[figure] - by > 0 for figure in figures)

    def _exchanged(self, paths):
        """Each pair of cut pieces put in each other's place."""
        pieces = [path for path in paths if path[0] == "cut" and len(self.sides[path]) == 2]
        for one, other in combinations(pieces[:MOST_TRIED], 2):
            changes = {}
            for mine, theirs in zip(sorted(self.sides[one]), sorted(self.sides[other])):
                apart = self.values[mine] - self.values[theirs]
                changes[mine], changes[theirs] = apart, -apart
            if any(abs(by) > SAME for by in changes.values()):
                yield Correction(changes, exchanged=True)

    def _together(self, paths, broken):
        """Each two cut sizes that are wrong at once, by whole steps of a ruler."""
        moved = [figures for path in paths if path[0] == "cut" for figures in self._moved(path)][:MOST_TRIED]
        columns = [self._shares(figures) for figures in moved]
        places = {self.agreements[number].path for number in broken}
        held = {n for n, one in enumerate(self.agreements) if one.path in places and n not in self.given}
        for one, other in combinations(range(len(moved)), 2):
            numbers = sorted((columns[one].keys() | columns[other].keys()) & held)
            if moved[one][0].path == moved[other][0].path or len(numbers) < 2:
                continue
            shares = np.array([[columns[each].get(n, 0.0) for each in (one, other)] for n in numbers])
            by, _, rank, _ = np.linalg.lstsq(shares, np.array([self.off[n] for n in numbers]), rcond=None)
            neat = all(self._neat(figures, size) for figures, size in zip((moved[one], moved[other]), by))
            if rank == 2 and np.abs(by).min() > SAME and neat:
                changes = dict.fromkeys(moved[one], float(by[0])) | dict.fromkeys(moved[other], float(by[1]))
                if all(self.values[figure] > size for figure, size in changes.items()):
                    yield Correction(changes)

    def _neat(self, figures, by):
        """Whether numbers would be corrected by whole steps of a ruler, or are printed rounded anyway."""
        rounded = any(self.agreements[n].less == ROUNDING for figure in figures for n, _ in self.standing[figure])
        return rounded or abs(by / RULER - round(by / RULER)) < 1 / 16

    def _moved(self, path):
        """The numbers at a path that change together: both sides of a square, else each by itself."""
        figures = self.sides[path]
        square = len(figures) == 2 and abs(self.values[figures[0]] - self.values[figures[1]]) < 1e-6
        return [figures] if square else [[figure] for figure in figures]

    def _shares(self, figures):
        """{agreement: how often these numbers together stand in it}."""
        shares = defaultdict(float)
        for figure in figures:
            for number, share in self.standing[figure]:
                shares[number] += share
        return shares

    def _after(self, correction):
        """{number: what is too much} of the agreements that a correction touches."""
        after = {}
        for figure, by in correction.by.items():
            for number, share in self.standing[figure]:
                after[number] = after.get(number, self.off[number]) - share * by
        return after

    def _left(self, correction):
        """How many agreements a correction would leave broken: strong ones, and evidence."""
        left = list(self.left)
        for number, off in self._after(correction).items():
            one = self.agreements[number]
            if number not in self.given:
                left[one.evidence] += one.holds(self.off[number]) - one.holds(off)
        return tuple(left)
