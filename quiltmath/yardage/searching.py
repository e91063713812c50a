"""The strips that use least fabric: tallest first as a start, then HiGHS prices patterns and a small tree rounds them;
at last the strips that waste most are planned again, with patterns for what lies in them.

Bounded work, always the same for the same question: at most `ROUNDS` rounds of new patterns, a tree of at most
`NODES` linear programmes, and at most `MOST_TRIES` such times. What comes out can be cut; it is the shortest of its
kind only where that is said. SciPy's own tree search (`milp`) is not used: it prints to standard output now and then,
and cannot be handed a start.
"""

from dataclasses import dataclass
from fractions import Fraction
from math import ceil, lcm

import numpy as np

from .filling import PLAIN
from .patterns import Strips

MOST_WAYS = 40
"""More ways to lay the pieces than this, and the plan by the cutter's rule is left as it is."""

ROUNDS = 30
NODES = 30
MOST_TRIES, WAYS_TRIED = 10, 80
"""How often strips are planned again: `MOST_TRIES` times, or fewer where there are many ways to lay the pieces."""

SHARES = (Fraction(3, 10), Fraction(1, 2), Fraction(7, 10), Fraction(2, 5), Fraction(3, 5))
"""How many of the strips, those that waste most, are planned again at a time."""

CLOSE = Fraction(102, 100)
"""A plan this near to what no cutter gets under is left as it is."""

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
    if every is not None and is_least:
        return Found(best.patterns, best.joined, proved=True)
    best = _planned_again(strips, joints, best, least * CLOSE if enough is None else max(least, enough))
    return Found(best.patterns, best.joined, proved=best.length <= least)


def _planned_again(strips, joints, plan, goal):
    """The plan with the strips that waste most planned again and again, as long as that makes it shorter."""
    stuck = 0
    for number in range(min(MOST_TRIES, max(2, WAYS_TRIED // len(strips.ways)))):
        if stuck == len(SHARES) or plan.length <= goal:
            break
        found = _worst_planned_again(strips, joints, plan, SHARES[number % len(SHARES)])
        stuck = 0 if found.length < plan.length else stuck + 1
        plan = min(plan, found, key=lambda one: one.length)
    return plan


def _worst_planned_again(strips, joints, plan, share):
    """The plan with this share of its strips, those that waste most, and all that is joined, planned from new."""
    every = sorted(
        ((height, columns) for height, columns, times in plan.patterns for _ in range(times)),
        key=lambda pattern: strips.waste(*pattern),
    )
    kept, left = every[: int(len(every) * (1 - share))], list(strips.demand)
    for pattern in kept:
        left = [max(0, need - give) for need, give in zip(left, strips.gives(*pattern))]
    numbers = [number for number, way in enumerate(strips.ways) if left[way.piece]]
    fewer = Strips([strips.ways[number] for number in numbers], left, strips.width)
    if not numbers:
        return Found([(*pattern, 1) for pattern in kept], _filled_up(fewer, joints, left).joined)
    begin = start(fewer, joints)
    patterns = fewer.every()
    again, _ = _rounded(fewer, joints, _priced(fewer, joints, begin) if patterns is None else patterns, begin, 0)
    anew = [*((*pattern, 1) for pattern in kept), *_widened(again.patterns, numbers, strips)]
    return Found(anew, again.joined)


def _widened(patterns, numbers, strips):
    """Patterns of some of the ways to lay the pieces, by their numbers, as patterns of all ways."""
    for height, columns, times in patterns:
        wide = [0] * len(strips.ways)
        for number, stood in zip(numbers, columns):
            wide[number] = stood
        yield height, tuple(wide), times


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
