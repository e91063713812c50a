"""The strips that use least fabric: tallest first as a start, then HiGHS prices patterns and a small tree rounds them.

Bounded work, always the same for the same question: at most `ROUNDS` rounds of new patterns, and a tree of at most
`NODES` linear programmes. What comes out can be cut; it is the shortest of its kind only where that is said. SciPy's
own tree search (`milp`) is not used: it prints to standard output now and then, and cannot be handed a start.
"""

from dataclasses import dataclass
from fractions import Fraction
from math import ceil, lcm

import numpy as np

from .filling import PLAIN

MOST_WAYS = 40
"""More ways to lay the pieces than this, and the plan by the cutter's rule is left as it is."""

ROUNDS = 30
NODES = 30
WORTH = 10**6
HAIR = 1e-6


@dataclass(frozen=True)
class Found:
    """Strips that hold every piece: patterns as (height, columns, times), joined strips as (joined, strips, pieces)."""

    patterns: list
    joined: list
    proved: bool = False

    @property
    def length(self):
        """Inches of fabric along the selvage."""
        return sum((height * times for height, _, times in self.patterns), Fraction(0)) + sum(
            one.broad * strips for one, strips, _ in self.joined
        )


def start(strips, joints):
    """A plan by the cutter's rule alone, the best of three ways to lay what may be turned."""
    return _filled_up(strips, joints, strips.demand)


def improved(strips, joints, plan, least, enough=None):
    """The shortest plan found, from `plan` on; `least` is a length that none gets under, `enough` one that will do."""
    if plan.length <= least or not strips.ways:
        return Found(plan.patterns, plan.joined, proved=True)
    if len(strips.ways) > MOST_WAYS:
        return plan
    every = strips.every()
    patterns = every if every is not None else _priced(strips, joints, plan)
    best, is_least = _rounded(strips, joints, patterns, plan, least if enough is None else max(least, enough))
    return Found(best.patterns, best.joined, proved=best.length <= least or every is not None and is_least)


_CHOICES = (lambda way: way.turned, lambda way: way.along, lambda way: way.across)
"""Which way to lay a piece that may be turned, for the start: as given, the lower, the narrower."""


def _filled_up(strips, joints, demand, begun=Found([], [])):
    """The shortest of the plans tallest first for so many of each piece, after what is begun."""
    plans = (_tallest_first(strips, joints, demand, key, begun) for key in _CHOICES)
    return min(plans, key=lambda plan: plan.length)


def _tallest_first(strips, joints, demand, key, begun):
    """A plan by the cutter's rule: the tallest piece left makes a strip, whatever fits beside it fills it."""
    chosen = {}
    for number, way in enumerate(strips.ways):
        if way.piece not in chosen or key(way) < key(strips.ways[chosen[way.piece]]):
            chosen[way.piece] = number
    left, plan = list(demand), list(begun.patterns)
    made = {one.piece: pieces for one, _, pieces in begun.joined}
    for one in joints:
        if one.piece not in chosen:
            made[one.piece] = made.get(one.piece, 0) + left[one.piece]
            left[one.piece] = 0
    waiting = strips.tallest_first(chosen.values())
    while any(left):
        waiting = [number for number in waiting if left[strips.ways[number].piece]]
        height = strips.ways[waiting[0]].along
        columns = _filled(strips, waiting, height, left)
        given = strips.gives(height, columns)
        times = max(1, min(have // give for have, give in zip(left, given) if give))
        plan.append((height, columns, times))
        left = [max(0, have - times * give) for have, give in zip(left, given)]
    return Found(plan, [(one, one.strips(made[one.piece]), made[one.piece]) for one in joints if made.get(one.piece)])


def _filled(strips, waiting, height, left):
    need, room = list(left), strips.room
    columns = [0] * len(strips.ways)
    for number in waiting:
        across, piece = strips.across[number], strips.ways[number].piece
        if across <= room and need[piece]:
            each = strips.standing(height, number)
            stood = min(room // across, -(-need[piece] // each))
            columns[number] = stood
            room -= stood * across
            need[piece] = max(0, need[piece] - stood * each)
    return tuple(columns)


def _priced(strips, joints, start):
    """Patterns worth having: those of the start and of single pieces, then whatever the linear programme asks for."""
    from scipy.optimize import linprog

    patterns = list(dict.fromkeys([*((height, columns) for height, columns, _ in start.patterns), *strips.one_kind()]))
    for _ in range(ROUNDS):
        cost, give, least, _ = _programme(strips, joints, patterns)
        answer = linprog(cost, A_ub=-give, b_ub=-least, method="highs", options=PLAIN)
        if answer.status:
            break
        worth = [int(price * WORTH) for price in -answer.ineqlin.marginals[: len(strips.demand)]]
        known = set(patterns)
        fresh = [
            (height, columns)
            for value, height, columns in strips.fullest(worth)
            if value > height * WORTH * (1 + 1e-6) and (height, columns) not in known
        ]
        if not fresh:
            break
        patterns += fresh
    return patterns


def _programme(strips, joints, patterns):
    """Heights to add up, what each column gives, and what is needed: patterns, then strips and pieces joined."""
    demand = strips.demand
    columns = len(patterns) + 2 * len(joints)
    cost, most = np.zeros(columns), np.zeros(columns)
    give = np.zeros((len(demand) + len(joints), columns))
    least = np.zeros(len(demand) + len(joints))
    least[: len(demand)] = demand
    for number, (height, stood) in enumerate(patterns):
        given = strips.gives(height, stood)
        cost[number] = height
        give[: len(demand), number] = np.minimum(given, demand)
        most[number] = max(-(-need // gives) for need, gives in zip(demand, given) if gives)
    for number, one in enumerate(joints):
        at, row = len(patterns) + 2 * number, len(demand) + number
        cost[at], most[at], most[at + 1] = one.broad, one.strips(demand[one.piece]), demand[one.piece]
        give[one.piece, at + 1] = 1
        give[row, at], give[row, at + 1], least[row] = one.strip - one.lost, -one.long, -one.lost
    return cost, give, least, most


def _rounded(strips, joints, patterns, plan, least):
    """Whole numbers of these patterns: a search tree, each of its plans finished tallest first. And whether it
    ended."""
    from scipy.optimize import linprog

    cost, give, needed, most = _programme(strips, joints, patterns)
    step = Fraction(1, lcm(*(height.denominator for height, _ in patterns), *(one.broad.denominator for one in joints)))
    best, nodes = plan, [(np.zeros(len(cost)), most)]
    for _ in range(NODES):
        if not nodes or best.length <= least:
            break
        low, high = nodes.pop()
        answer = linprog(
            cost, A_ub=-give, b_ub=-needed, bounds=np.column_stack([low, high]), method="highs", options=PLAIN
        )
        if answer.status or ceil(answer.fun / float(step) - HAIR) * step >= best.length:
            continue
        counts = np.floor(answer.x + HAIR)
        best = min(best, _finished(strips, joints, patterns, counts.astype(int).tolist()), key=lambda plan: plan.length)
        at = int(np.argmax(answer.x - counts))
        if answer.x[at] - counts[at] > HAIR:
            fewer, more = high.copy(), low.copy()
            fewer[at], more[at] = counts[at], counts[at] + 1
            nodes += [(low, fewer), (more, high)]
    return best, not nodes


def _finished(strips, joints, patterns, counts):
    """The plan of so many of each pattern, and what it lacks."""
    left = list(strips.demand)
    begun = [(*pattern, times) for pattern, times in zip(patterns, counts) if times]
    for height, columns, times in begun:
        left = [max(0, have - times * give) for have, give in zip(left, strips.gives(height, columns))]
    joined = []
    for one, pieces in zip(joints, counts[len(patterns) + 1 :: 2]):
        pieces = min(pieces, left[one.piece])
        left[one.piece] -= pieces
        joined.append((one, one.strips(pieces), pieces))
    return _filled_up(strips, joints, left, Found(begun, joined))
