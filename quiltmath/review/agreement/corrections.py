"""Corrections worth trying over a `Table`: of one printed value, of two in each other's place, of two wrong at once."""

from __future__ import annotations

from collections import defaultdict
from itertools import combinations, product
from typing import NamedTuple

import numpy as np

from .figures import Figure
from .table import SAME

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


def single(table, path):
    """Each correction of one printed value that would settle some broken agreement in which it stands."""
    whole, each = table.moved(path), [[figure] for figure in table.sides[path]]
    for figures in whole + [one for one in each if one not in whole]:
        yield from (Correction(dict.fromkeys(figures, by)) for by in _ways(table, figures))
    if len(whole) == 2:
        yield from _both_sides(table, table.sides[path])


def _both_sides(table, figures):
    """Both numbers of a size corrected, each by what settles something."""
    ways = [_ways(table, [figure]) for figure in figures]
    yield from (Correction(dict(zip(figures, pair))) for pair in zip(*ways))


def _ways(table, figures):
    """By how much (inches) these numbers together may be too large, by what is broken, or else by evidence; a size to
    trim to by both, for parts only say how large it can be."""
    trims = figures[0].path[-1] == "trim_to"
    ways, off = [], table.broken | table.doubted if trims else table.broken or table.doubted
    for number, share in table.shares(figures).items():
        if number in off and abs(share) > 1e-9:
            by = table.off[number] / share
            if all(abs(by - other) > SAME for other in ways) and table.stay_sizes(figures, by):
                ways.append(by)
    return ways


def pairs(table, concerned):
    """What may be corrected of two values or more at once: any two pieces put in each other's place, all strips of one
    width that shapes are cut from, and two cut sizes that are held to something at one place, for errors that never
    meet are found one by one."""
    cuts = [path for path in concerned if path[0] == "cut"]
    pieces = [path for path in cuts if len(table.sides[path]) == 2]
    yield from ((pair, exchanged) for pair in combinations(pieces[:MOST_TRIED], 2))
    strips = defaultdict(list)  # shapes of one row come from strips of one width: all may be wrong in it
    for path in (path for path in cuts if path[-1] == "strip_width"):
        strips[table.values[table.sides[path][0]]].append(path)
    yield from ((tuple(paths), alike) for paths in strips.values() if len(paths) > 1)
    places = {path: table.places(path) for path in cuts[:MOST_TRIED]}
    meeting = (pair for pair in combinations(places, 2) if not places[pair[0]].isdisjoint(places[pair[1]]))
    yield from ((pair, together) for pair in meeting)


def exchanged(table, one, other):
    """Two cut pieces put in each other's place."""
    changes = {}
    for mine, theirs in zip(sorted(table.sides[one]), sorted(table.sides[other])):
        apart = table.values[mine] - table.values[theirs]
        changes[mine], changes[theirs] = apart, -apart
    if any(abs(by) > SAME for by in changes.values()):
        yield Correction(changes, exchanged=True)


def alike(table, *paths):
    """Several values that are printed alike, all wrong by the same."""
    figures = [figure for path in paths for figure in table.sides[path]]
    yield from (Correction(dict.fromkeys(figures, by)) for by in _ways(table, figures))


def together(table, one, other):
    """Two cut sizes that are wrong at once, by whole steps of a ruler: a number of each, or all of both."""
    mine, theirs = table.moved(one), table.moved(other)
    several: list[tuple] = list(product(mine, theirs))
    if len(several) > 1 and all(map(table.are_rounded, (*mine, *theirs))):
        several.append((*mine, *theirs))
    for groups in several:
        shares = [table.shares(figures) for figures in groups]
        numbers = sorted(n for n in set().union(*shares) if table.is_to_settle(n))
        if len(numbers) < len(groups):
            continue
        columns = np.array([[each.get(n, 0.0) for each in shares] for n in numbers])
        by, _, rank, _ = np.linalg.lstsq(columns, np.array([table.off[n] for n in numbers]), rcond=None)
        neat = all(table.are_neat(figures, size) for figures, size in zip(groups, by))
        if rank == len(groups) and np.abs(by).min() > SAME and neat:
            changes = {figure: float(size) for figures, size in zip(groups, by) for figure in figures}
            if all(table.values[figure] > size for figure, size in changes.items()):
                yield Correction(changes)
