"""Which printed number is wrong: the one whose correction leaves fewest that do not agree."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import chain
from typing import NamedTuple, TypeAlias

from ...making.rounding import ROUNDING
from .agreed import Agreement
from .corrections import Correction, alike, pairs, single
from .figures import Figure
from .measures import SLACK
from .miscounted import Miscounted
from .table import SAME, STEP, Table

OFF_THE_RULER = 2  # how odd a correction is that no ruler would suggest
LEAST_EVIDENCE = 2  # sums: a single one that does not agree may be rounded, or cut to be trimmed
SURE_EVIDENCE = 3  # sums: fewer must come out exactly, for each may be rounded


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
    step: float = STEP,
) -> Iterator[Found]:
    """The corrections, one after another, with which all that must agree does; `values` are the printed numbers, `rows`
    those that a part too few or too many would explain, `seams` what both seams of a piece take, and `step` that of the
    ruler, in inches.

    >>> from .figures import Sum
    >>> a, b, printed = (Figure((name,)) for name in ("a", "b", "finished"))
    >>> rows = [Sum(8.875, {a: 2, b: 1, printed: -1}).minus(9), Sum(8.9375, {a: 1, b: 2, printed: -1}).minus(9)]
    >>> sums = [Agreement(row, ("rows",)) for row in rows]
    >>> [one.correction.by for one in culprits(sums, {a: 2.9375, b: 3.0, printed: 9.0})]
    [{Figure(path=('a',), side=0): -0.0625}]
    """
    search, off = _Search(Table(agreements, values, step), seams), {row.path: row for row in rows}
    while search.table.broken:
        found, place = search.best(), search.table.place
        if place in off and (found is None or found.unlikely or off[place].sure):
            yield off[place]
            search.give_up(place)
        elif found is None:
            yield Unexplained(search.give_up(place))
        else:
            yield found
            search.correct(found.correction)
    suspect = search.suspect()
    if suspect is not None:
        yield suspect


ALIKE_IN = ("unit", "block")  # where pieces in one size that are wrong alike are one error


def told_at_once(found: Sequence[Found], values: dict[Figure, float]) -> list[Found]:
    """What was found, with pieces of one unit or block that are printed in one size and wrong by as much (one constant,
    typed for both squares) told as one `Culprit`; `values` are the printed numbers."""
    told: dict = {}
    for number, one in enumerate(found):
        error = _error(one, values) if isinstance(one, Culprit) else None
        key = (one.place, error) if error is not None else number
        told[key] = _both(told[key], one) if key in told else one
    return list(told.values())


def _error(culprit, values):
    """The printed sides of a piece of a unit or block and by how much each is wrong; None for all else, or in doubt."""
    (path, *more), by = sorted(culprit.correction.paths), culprit.correction.by
    if more or culprit.others or culprit.place[0] not in ALIKE_IN or (path[0], path[-1]) != ("cut", "size"):
        return None
    return tuple((figure.side, values[figure], round(by[figure], 4)) for figure in sorted(by))


def _both(one, other):
    correction = Correction({**one.correction.by, **other.correction.by})
    return replace(one, correction=correction, settles=one.settles + other.settles)


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


class _Search:
    """The search for the number that is wrong, over a `Table`; `seams` is what both seams of a piece take.

    What was tried is kept until something beside it changes, for most of a large sheet is far from any one fault.
    """

    def __init__(self, table, seams):
        self.table, self.seams, self.known = table, seams, {}

    def correct(self, correction):
        """Go on with these numbers corrected."""
        self._forget_beside(self.table.correct(correction))

    def give_up(self, place):
        """All broken agreements of a place, which are left aside from now on."""
        numbers = self.table.give_up(place)
        self._forget_beside(numbers)
        return tuple(self.table.agreements[number] for number in numbers)

    def _forget_beside(self, numbers):
        """Forget what was tried beside these agreements."""
        changed = self.table.paths_beside(numbers)
        self.known = {tried: found for tried, found in self.known.items() if changed.isdisjoint(tried[0])}

    def best(self):
        """The `Culprit` that leaves fewest agreements broken; None where none leaves fewer, or none settles all that is
        broken at the places it touches."""
        concerned = sorted(self.table.paths_in(self.table.broken), key=str)
        found = _likeliest(one for path in concerned for one in self._tried((path,), single))
        if not found or found[0].more != (-len(self.table.broken), -len(self.table.doubted)):
            several = pairs(self.table, concerned)
            found = _likeliest(chain(found, *(self._tried(paths, corrections) for paths, corrections in several)))
        unseamed = self._without_seams(found[0] if found else None, concerned)
        if unseamed is not None:
            return self._culprit(unseamed, [])
        strips = self._strips_alike(found[0], concerned) if found else None
        if strips is not None:
            return self._culprit(strips, [])
        return self._culprit(found[0], found[1:]) if found else None

    def _culprit(self, first, rest):
        """The `Culprit` of the likeliest of those that were tried, and those of the rest that settle as much."""
        table, after = self.table, self.table.after(first.correction)
        broken = sorted(table.broken) + sorted(table.doubted)
        settled = [number for number in broken if number in after and table.holds(number, after[number])]
        others = {}
        for one in rest:
            as_well = (one.more, one.odd) == (first.more, 0) and not one.settled.isdisjoint(settled)
            if as_well and one.correction.paths != first.correction.paths:
                others.setdefault(one.correction.paths, one.correction)
        unlikely = bool(first.odd) or first.half or first.finished or first.values > 1
        settles = tuple(table.agreements[number] for number in settled)
        return Culprit(first.correction, settles, tuple(others.values()), unlikely)

    def _without_seams(self, first, concerned):
        """What was printed as it finishes, both sides of a piece or several numbers alike, where that explains more
        than the likeliest correction so far, or that one is odd; else None."""
        if first is not None and first.values == 1:
            both = self._both_unseamed(first)
            rounded = any(self.table.agreements[number].less == ROUNDING for number in first.settled)
            usual = not first.odd and first.largest <= self.seams + SAME
            if both is not None or usual or rounded:  # the sizes of triangles are always odd
                return both
        several = self._printed_alike(concerned) if self.seams else []
        several = [figures for figures in several if not self.table.are_rounded(figures)]
        tried = (self._try(Correction(dict.fromkeys(each, -self.seams), unseamed=True)) for each in several)
        better = [one for one in tried if one is not None and (first is None or one.more <= first.more)]
        exact = [one for one in better if self._to_nothing(one)]  # what is trimmed later would bear any seams
        return _likeliest(exact)[0] if exact else None

    def _strips_alike(self, first, concerned):
        """All strips that are printed in one width, wrong by as much, where the likeliest correction would cut one of
        them as nothing else is, and this one as something else; else None."""
        if first.values > 1 or not first.odd or {path[-1] for path in first.correction.paths} != {"strip"}:
            return None
        paths = [tuple(figure.path for figure in one) for one in self._printed_alike(concerned)]
        tried = [each for one in paths if first.correction.paths <= {*one} for each in self._tried(one, alike)]
        better = [one for one in tried if one.more <= first.more and not one.odd and self._to_nothing(one)]
        return _likeliest(better)[0] if better else None

    def _printed_alike(self, concerned):
        """The cut sizes at these paths that are printed alike in more than one place, as lists of figures."""
        alike = defaultdict(list)
        for figure in (figure for path in concerned if path[0] == "cut" for figure in self.table.sides[path]):
            alike[round(self.table.values[figure], 3)].append(figure)
        return [figures for figures in alike.values() if len({figure.path for figure in figures}) > 1]

    def _both_unseamed(self, first):
        """One side of a piece without its seams, and the other side too: where evidence then agrees better."""
        (path, *_), (by, *_) = first.correction.paths, first.correction.by.values()
        both = Correction(dict.fromkeys(self.table.sides[path], by))
        if abs(by + self.seams) > SAME or len(first.correction.by) == len(both.by):
            return None
        tried, apart = self._try(both), self.table.apart(first.correction, both) - self.table.apart(both, both)
        return tried if tried is not None and tried.more <= first.more and apart > SAME else None

    def _to_nothing(self, tried):
        """Whether what a correction settles comes to nothing by it, not only to less than it may be."""
        after = self.table.after(tried.correction)
        return all(abs(after[number]) <= SLACK for number in tried.settled)

    def _tried(self, paths, corrections):
        """The `corrections` of the values at these paths that leave less broken, as `_Tried`."""
        if (paths, corrections) not in self.known:
            tried = map(self._try, corrections(self.table, *paths))
            self.known[paths, corrections] = [one for one in tried if one is not None]
        return self.known[paths, corrections]

    def _try(self, correction):
        """A correction with all that makes it less likely; None where it leaves no less broken, or only part of a
        place."""
        table, after, paths = self.table, self.table.after(correction), correction.paths
        settled = frozenset(n for n, off in after.items() if n in table.broken and table.holds(n, off))
        more = table.more(after)
        if more[0] >= 0 or table.in_part(settled, after):
            return None
        return _Tried(
            more,
            finished=any(path[-1] == "finished" for path in paths),
            values=len(paths),
            half=any(_by_two(correction, table.moved(path)[0]) for path in paths),
            free=not any(table.agreements[number].subject in paths for number in settled),
            odd=0 if correction.exchanged else self._odd(correction),
            largest=round(max(map(abs, correction.by.values())), 6),  # else noise tells one of two likes from the other
            settled=settled,
            correction=correction,
        )

    def _odd(self, correction):
        """How odd a correction is, as `_Tried` tells."""
        if any(self.table.off_the_ruler(by) > 1 / 8 for by in correction.by.values()):
            return OFF_THE_RULER
        mended = [self.table.values[figure] - by for figure, by in correction.by.items() if abs(by) > SAME]
        return int(any(self.table.is_new(size, correction.paths) for size in mended))

    def suspect(self):
        """The `Culprit` of evidence alone: the one cut size with which all of it agrees, the printed size of the quilt
        or a pieced border and what else does not; None where there is no such size, or more than one."""
        table, off = self.table, self.table.broken | self.table.doubted
        places = table.places_of(off)
        telling = ("finished",) in places or any(place[0] == "border" and len(place) > 1 for place in places)
        if table.given or len(off) < LEAST_EVIDENCE or len(places) < 2 or not telling:
            return None
        found = {}
        for path in sorted(path for path in table.paths_in(off) if path[0] == "cut"):
            for correction in single(table, path):
                if self._settles_all(correction, off):
                    found.setdefault(correction.paths, correction)
        if len(found) != 1:
            return None
        settled = sorted((table.agreements[number] for number in off), key=lambda one: (not one.aim, one.path))
        return Culprit(found.popitem()[1], tuple(settled))

    def _settles_all(self, correction, off):
        """Whether a correction by whole steps of a ruler settles these agreements, and leaves the others it touches."""
        after, (by, *others) = self.table.after(correction), correction.by.values()
        neat = all(by == other for other in others) and self.table.off_the_ruler(by) < 1 / 16
        if not neat or not off <= after.keys():
            return False
        exact = len(off) >= SURE_EVIDENCE or all(abs(after[number]) <= SLACK for number in off)
        return exact and all(self.table.holds(number, each) for number, each in after.items())


def _by_two(correction, figures):
    """Whether a correction changes numbers that change together by not the same."""
    return len({round(correction.by.get(figure, 0.0), 4) for figure in figures}) > 1
