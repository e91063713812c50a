"""Which printed number is wrong: the one whose correction leaves fewest that do not agree."""

from __future__ import annotations

from bisect import bisect_left
from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import chain, combinations, islice, product, takewhile
from typing import NamedTuple, TypeAlias

import numpy as np

from ...making.rounding import ROUNDING
from .agreed import Agreement
from .figures import Figure
from .measures import SLACK
from .miscounted import Miscounted

SAME = 1 / 32  # inches: two corrections that differ by less are one
RULER = 1 / 8  # inches: printed sizes are usually whole steps of this
OFF_THE_RULER = 2  # how odd a correction is that no ruler would suggest
LEAST_EVIDENCE = 3  # sums: fewer that do not agree may be rounded, or cut to be trimmed
MOST_TRIED = 40  # numbers of one kind of error that are tried in pairs


class Correction(NamedTuple):
    """How much too large (inches) some numbers are printed: {Figure: inches}; `exchanged`: two pieces put in each
    other's place; `unseamed`: several numbers that are printed alike, without seams."""

    by: dict[Figure, float]
    exchanged: bool = False
    unseamed: bool = False

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
    agreements: Sequence[Agreement],
    values: dict[Figure, float],
    rows: Iterable[Miscounted] = (),
    seams: float = 0.0,
) -> Iterator[Found]:
    """The corrections, one after another, with which all that must agree does; `values` are the printed numbers, `rows`
    those that a part too few or too many would explain, and `seams` what both seams of a piece take.

    >>> from .figures import Sum
    >>> a, b, printed = (Figure((name,)) for name in ("a", "b", "finished"))
    >>> rows = [Sum(8.875, {a: 2, b: 1, printed: -1}).minus(9), Sum(8.9375, {a: 1, b: 2, printed: -1}).minus(9)]
    >>> sums = [Agreement(row, ("rows",)) for row in rows]
    >>> [one.correction.by for one in culprits(sums, {a: 2.9375, b: 3.0, printed: 9.0})]
    [{Figure(path=('a',), side=0): -0.0625}]
    """
    table, off = _Table(agreements, values, seams), {row.path: row for row in rows}
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
    """A correction that was tried; of two the smaller one is the likelier: how many more it leaves broken (agreements,
    then evidence), whether it changes a printed finished size, how many values, whether a square is no longer one,
    whether no value follows from others, how `odd` it is (1: to a size that nothing else has, 2: by no whole steps of a
    ruler), and the largest change in inches. `settled` are the numbers of the agreements that hold then."""

    more: tuple[int, int]
    finished: bool
    values: int
    half: bool
    free: bool
    odd: int
    largest: float
    settled: frozenset[int]
    correction: Correction


def _likeliest(tried):
    """All that were tried, the likeliest first; of equals the first."""
    return sorted(tried, key=lambda one: one[:-2])


class _Table:
    """All agreements with what is too much in each as corrections go on, and where each number stands; `broken` are
    those that do not hold, `doubted` is evidence that does not.

    What was tried is kept until something beside it changes, for most of a large sheet is far from any one fault.
    """

    def __init__(self, agreements, values, seams):
        self.agreements, self.values, self.seams = list(agreements), dict(values), seams
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
        self.given, self.broken, self.doubted, self.known = set(), set(), set(), {}
        self._look_again(range(len(self.agreements)))

    def _look_again(self, numbers):
        """See which of these agreements hold now, and forget what was tried beside them."""
        for number in numbers:
            one = self.agreements[number]
            off = number not in self.given and not one.holds(self.off[number])
            kind = self.doubted if one.evidence else self.broken
            (kind.add if off else kind.discard)(number)
        beside = {self.agreements[near].path for near in numbers}
        paths = {fig.path for place in beside for near in self.at[place] for fig in self.agreements[near].off.shares}
        self.known = {tried: found for tried, found in self.known.items() if paths.isdisjoint(tried[0])}

    def best(self):
        """The `Culprit` that leaves fewest agreements broken; None where none leaves fewer, or none settles all that is
        broken at the places it touches."""
        concerned = sorted({fig.path for number in self.broken for fig in self.agreements[number].off.shares}, key=str)
        found = _likeliest(one for path in concerned for one in self._tried((path,), self._single))
        if not found or found[0].more != (-len(self.broken), -len(self.doubted)):
            several = self._pairs(concerned)
            found = _likeliest(chain(found, *(self._tried(paths, corrections) for paths, corrections in several)))
        unseamed = self._without_seams(found[0] if found else None, concerned)
        found = [unseamed, *found] if unseamed is not None else found
        if not found:
            return None
        first, others = found[0], {}
        after = self._after(first.correction)
        settled = [n for n in sorted(self.broken) + sorted(self.doubted) if n in after and self._holds(n, after[n])]
        for one in found[1:] if unseamed is None else ():
            as_well = (one.more, one.odd) == (first.more, 0) and not one.settled.isdisjoint(settled)
            if as_well and one.correction.paths != first.correction.paths:
                others.setdefault(one.correction.paths, one.correction)
        unlikely = bool(first.odd) or first.half or first.finished or first.values > 1
        return Culprit(first.correction, tuple(self.agreements[n] for n in settled), tuple(others.values()), unlikely)

    def _without_seams(self, first, concerned):
        """What was printed as it finishes, both sides of a piece or several numbers alike, where that explains more
        than the likeliest correction so far, or that one is odd; else None."""
        if first is not None and first.values == 1:
            both, rounded = self._both_unseamed(first), any(self.agreements[n].less == ROUNDING for n in first.settled)
            usual = not first.odd and first.largest <= self.seams + SAME
            if both is not None or usual or rounded:  # the sizes of triangles are always odd
                return both
        alike = defaultdict(list)
        for figure in (figure for path in concerned if path[0] == "cut" for figure in self.sides[path]):
            alike[round(self.values[figure], 3)].append(figure)
        several = [figures for figures in alike.values() if len({figure.path for figure in figures}) > 1 and self.seams]
        tried = (self._try(Correction(dict.fromkeys(each, -self.seams), unseamed=True)) for each in several)
        better = [one for one in tried if one is not None and (first is None or one.more <= first.more)]
        exact = [one for one in better if self._to_nothing(one)]  # what is trimmed later would bear any seams
        return _likeliest(exact)[0] if exact else None

    def _to_nothing(self, tried):
        """Whether what a correction settles comes to nothing by it, not only to less than it may be."""
        after = self._after(tried.correction)
        return all(abs(after[number]) <= SLACK for number in tried.settled)

    def _both_unseamed(self, first):
        """One side of a piece without its seams, and the other side too: where evidence then agrees better."""
        ((path, *_), (by, *_)) = first.correction.paths, first.correction.by.values()
        both = Correction(dict.fromkeys(self.sides[path], by))
        if abs(by + self.seams) > SAME or len(first.correction.by) == len(both.by):
            return None
        tried, apart = self._try(both), self._apart(first.correction, both) - self._apart(both, both)
        return tried if tried is not None and tried.more <= first.more and apart > SAME else None

    def _apart(self, correction, touching):
        """How much (inches) does not agree in all, after a correction, of what this or another one touches."""
        after = {number: self.off[number] for number in self._after(touching)} | self._after(correction)
        return sum(map(abs, after.values()))

    def _tried(self, paths, corrections):
        """The `corrections` of the values at these paths that leave less broken, as `_Tried`."""
        if (paths, corrections) not in self.known:
            tried = map(self._try, corrections(*paths))
            self.known[paths, corrections] = [one for one in tried if one is not None]
        return self.known[paths, corrections]

    def suspect(self):
        """The `Culprit` of evidence alone: the one cut size with which all of it agrees, the printed size of the quilt
        or a pieced border and what else does not; None where there is no such size, or more than one."""
        off = self.broken | self.doubted
        places = {self.agreements[number].path for number in off}
        telling = ("finished",) in places or any(place[0] == "border" and len(place) > 1 for place in places)
        if self.given or len(off) < LEAST_EVIDENCE or len(places) < 2 or not telling:
            return None
        concerned = sorted({fig.path for n in off for fig in self.agreements[n].off.shares if fig.path[0] == "cut"})
        found = {}
        for correction in chain.from_iterable(self._single(path) for path in concerned):
            after, (by, *others) = self._after(correction), correction.by.values()
            neat = all(by == other for other in others) and abs(by / RULER - round(by / RULER)) < 1 / 16
            if neat and off <= after.keys() and all(self._holds(n, each) for n, each in after.items()):
                found.setdefault(correction.paths, correction)
        if len(found) != 1:
            return None
        settled = sorted((self.agreements[number] for number in off), key=lambda one: (not one.aim, one.path))
        return Culprit(found.popitem()[1], tuple(settled))

    def _try(self, correction):
        """A correction with all that makes it less likely; None where it leaves no less broken, or only part of a
        place."""
        after, paths = self._after(correction), correction.paths
        settled = frozenset(n for n, off in after.items() if n in self.broken and self._holds(n, off))
        more = self._more(after)
        if more[0] >= 0 or self._partly(settled, after):
            return None
        mended = [self.values[figure] - by for figure, by in correction.by.items() if abs(by) > SAME]
        steps = [by / RULER for by in correction.by.values()]
        half = any(len({round(correction.by.get(fig, 0.0), 4) for fig in self._moved(path)[0]}) > 1 for path in paths)
        new = any(self._new(size, paths) for size in mended)
        odd = OFF_THE_RULER if any(abs(step - round(step)) > 1 / 8 for step in steps) else int(new)
        return _Tried(
            more,
            any(path[-1] == "finished" for path in paths),
            len(paths),
            half,
            not any(self.agreements[n].subject in paths for n in settled),
            0 if correction.exchanged else odd,
            max(map(abs, correction.by.values())),
            settled,
            correction,
        )

    def _holds(self, number, off):
        return self.agreements[number].holds(off)

    def _more(self, after):
        """How many more do not hold once agreements are so much off: strong ones, and evidence."""
        more = [0, 0]
        for number, off in after.items():
            if number not in self.given:
                held = self._holds(number, self.off[number])
                more[self.agreements[number].evidence] += held - self._holds(number, off)
        return tuple(more)

    def _partly(self, settled, after):
        """Whether something at the places of what is settled still does not hold."""
        near = {n for place in {self.agreements[n].path for n in settled} for n in self.at[place]}
        strong = [n for n in near if not self.agreements[n].evidence]
        return any(not self._holds(n, after[n]) if n in after else n in self.broken for n in strong)

    def _new(self, size, paths):
        """Whether nothing else is printed in this size (inches)."""
        first = bisect_left(self.printed, (size - SAME,))
        near = takewhile(lambda one: one[0] <= size + SAME, islice(self.printed, first, None))
        return all(path in paths for _, path in near)

    def correct(self, correction):
        """Go on with these numbers corrected."""
        after = self._after(correction)
        for number, off in after.items():
            self.off[number] = off
        for figure, by in correction.by.items():
            self.values[figure] -= by
        self._look_again(after)

    @property
    def place(self):
        """Where the first of the broken agreements is told."""
        return self.agreements[min(self.broken)].path

    def give_up(self, place):
        """All broken agreements of a place, which are left aside from now on."""
        some = sorted(number for number in self.at[place] if number in self.broken)
        self.given.update(some)
        self._look_again(some)
        return tuple(self.agreements[number] for number in some)

    def _single(self, path):
        """Each correction of one printed value that would settle some broken agreement in which it stands."""
        whole, each = self._moved(path), [[figure] for figure in self.sides[path]]
        for figures in whole + [one for one in each if one not in whole]:
            yield from (Correction(dict.fromkeys(figures, by)) for by in self._ways(figures))
        if len(whole) == 2:
            yield from self._both(self.sides[path])

    def _both(self, figures):
        """Both numbers of a size corrected, each by what settles something."""
        ways = [self._ways([figure]) for figure in figures]
        yield from (Correction(dict(zip(figures, pair))) for pair in zip(*ways))

    def _ways(self, figures):
        """By how much (inches) these numbers together may be too large, by what is broken, or else by evidence; a size
        to trim to by both, for parts only say how large it can be."""
        trims = figures[0].path[-1] == "trim_to"
        ways, off = [], self.broken | self.doubted if trims else self.broken or self.doubted
        for number, share in self._shares(figures).items():
            if number in off and abs(share) > 1e-9:
                by = self.off[number] / share
                if all(abs(by - other) > SAME for other in ways) and self._stays(figures, by):
                    ways.append(by)
        return ways

    def _stays(self, figures, by):
        """Whether the numbers stay sizes once corrected."""
        return all(self.values[figure] - by > 0 for figure in figures)

    def _pairs(self, concerned):
        """What may be corrected of two values at once: any two pieces put in each other's place, and two cut sizes that
        are held to something at one place, for errors that never meet are found one by one."""
        cuts = [path for path in concerned if path[0] == "cut"]
        pieces = [path for path in cuts if len(self.sides[path]) == 2]
        yield from ((pair, self._exchanged) for pair in combinations(pieces[:MOST_TRIED], 2))
        places = {path: self._places(path) for path in cuts[:MOST_TRIED]}
        meeting = (pair for pair in combinations(places, 2) if not places[pair[0]].isdisjoint(places[pair[1]]))
        yield from ((pair, self._together) for pair in meeting)

    def _places(self, path):
        """Where agreements are told in which the value at a path stands."""
        held = (self.agreements[number] for figure in self.sides[path] for number, _ in self.standing[figure])
        return {one.path for one in held if not one.evidence}

    def _exchanged(self, one, other):
        """Two cut pieces put in each other's place."""
        changes = {}
        for mine, theirs in zip(sorted(self.sides[one]), sorted(self.sides[other])):
            apart = self.values[mine] - self.values[theirs]
            changes[mine], changes[theirs] = apart, -apart
        if any(abs(by) > SAME for by in changes.values()):
            yield Correction(changes, exchanged=True)

    def _together(self, one, other):
        """Two cut sizes that are wrong at once, by whole steps of a ruler: a number of each, or all of both."""
        mine, theirs = self._moved(one), self._moved(other)
        several: list[tuple] = list(product(mine, theirs))
        if len(several) > 1 and all(map(self._rounded, (*mine, *theirs))):
            several.append((*mine, *theirs))
        for groups in several:
            shares = [self._shares(figures) for figures in groups]
            numbers = sorted(n for n in set().union(*shares) if self._to_settle(n))
            if len(numbers) < len(groups):
                continue
            columns = np.array([[each.get(n, 0.0) for each in shares] for n in numbers])
            by, _, rank, _ = np.linalg.lstsq(columns, np.array([self.off[n] for n in numbers]), rcond=None)
            neat = all(self._neat(figures, size) for figures, size in zip(groups, by))
            if rank == len(groups) and np.abs(by).min() > SAME and neat:
                changes = {figure: float(size) for figures, size in zip(groups, by) for figure in figures}
                if all(self.values[figure] > size for figure, size in changes.items()):
                    yield Correction(changes)

    def _to_settle(self, number):
        """Whether an agreement is told where something is broken."""
        place = self.at[self.agreements[number].path]
        return number not in self.given and not self.broken.isdisjoint(place)

    def _neat(self, figures, by):
        """Whether numbers would be corrected by whole steps of a ruler, or are printed rounded anyway."""
        return self._rounded(figures) or abs(by / RULER - round(by / RULER)) < 1 / 16

    def _rounded(self, figures):
        """Whether numbers are those of triangles, which are printed rounded."""
        return any(self.agreements[n].less == ROUNDING for figure in figures for n, _ in self.standing[figure])

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
