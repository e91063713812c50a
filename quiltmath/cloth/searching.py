"""The strips that use least cloth: tallest first as a start, then HiGHS over the patterns of a strip.

Bounded work, always the same for the same question: at most `ROUNDS` rounds of new patterns, and a search tree of at
most `NODES` nodes. What comes out is a plan that can be cut; it is the shortest of its kind only where that is said.
"""
from dataclasses import dataclass
from fractions import Fraction
from math import lcm

import numpy as np

from .patterns import Strips

ROUNDS = 30
NODES = 400
WORTH = 10**6


@dataclass(frozen=True)
class Found:
    """Strips that hold every piece: patterns as (height, columns, times), joined strips as (joined, strips, pieces)."""
    patterns: list
    joined: list
    proved: bool = False

    @property
    def length(self):
        """Inches of cloth along the selvage."""
        return (sum((height * times for height, _, times in self.patterns), Fraction(0))
                + sum(one.broad * strips for one, strips, _ in self.joined))


def search(ways, joints, demand, width):
    """The best strips found for so many of each piece, and the `Strips` they were chosen from."""
    strips = Strips(ways, demand, width)
    start = min((_tallest_first(strips, joints, demand, key) for key in _CHOICES), key=lambda found: found.length)
    if not ways:
        return Found(start.patterns, start.joined, proved=True), strips
    every = strips.every()
    patterns = every if every is not None else _priced(strips, joints, demand, start)
    chosen, is_least = _least(strips, joints, demand, patterns)
    best = chosen if chosen and chosen.length < start.length else start
    return Found(best.patterns, best.joined, proved=every is not None and is_least), strips


_CHOICES = (lambda way: way.turned, lambda way: way.along, lambda way: way.across)
"""Which way to lay a piece that may be turned, for the start: as given, the lower, the narrower."""


def _tallest_first(strips, joints, demand, key):
    """A plan by the cutter's rule: the tallest piece left makes a strip, whatever fits beside it fills it."""
    chosen = {}
    for number, way in enumerate(strips.ways):
        if way.piece not in chosen or key(way) < key(strips.ways[chosen[way.piece]]):
            chosen[way.piece] = number
    left, plan = list(demand), []
    joined = [(one, one.strips(demand[one.piece]), demand[one.piece]) for one in joints if one.piece not in chosen]
    for one, _, _ in joined:
        left[one.piece] = 0
    while any(left):
        height = max(strips.ways[number].along for piece, number in chosen.items() if left[piece])
        columns = _filled(strips, chosen.values(), height, left)
        given = strips.gives(height, columns)
        times = max(1, min(have // give for have, give in zip(left, given) if give))
        plan.append((height, columns, times))
        left = [max(0, have - times * give) for have, give in zip(left, given)]
    return Found(plan, joined)


def _filled(strips, chosen, height, left):
    stack, need, room = strips.stack(height), list(left), strips.room
    columns = [0] * len(strips.ways)
    for number in sorted(chosen, key=lambda n: (-strips.ways[n].along, -strips.across[n])):
        each, piece = stack[number], strips.ways[number].piece
        if each:
            stood = min(room // strips.across[number], -(-need[piece] // each))
            columns[number] = stood
            room -= stood * strips.across[number]
            need[piece] = max(0, need[piece] - stood * each)
    return tuple(columns)


def _priced(strips, joints, demand, start):
    """Patterns worth having: those of the start and of single pieces, then whatever the linear programme asks for."""
    from scipy.optimize import linprog
    patterns = list(dict.fromkeys([*((height, columns) for height, columns, _ in start.patterns),
                                   *strips.one_kind()]))
    for _ in range(ROUNDS):
        cost, give, least, _ = _programme(strips, joints, demand, patterns)
        answer = linprog(cost, A_ub=-give, b_ub=-least, method="highs")
        if answer.status:
            break
        worth = [int(price * WORTH) for price in -answer.ineqlin.marginals[:len(demand)]]
        known = set(patterns)
        fresh = [(height, columns) for value, height, columns in strips.fullest(worth)
                 if value > height * WORTH * (1 + 1e-6) and (height, columns) not in known]
        if not fresh:
            break
        patterns += fresh
    return patterns


def _programme(strips, joints, demand, patterns):
    """Heights to add up, what each column gives, and what is needed: patterns, then strips and pieces joined."""
    columns = len(patterns) + 2 * len(joints)
    cost, most = np.zeros(columns), np.zeros(columns)
    give = np.zeros((len(demand) + len(joints), columns))
    least = np.zeros(len(demand) + len(joints))
    least[:len(demand)] = demand
    for number, (height, stood) in enumerate(patterns):
        given = strips.gives(height, stood)
        cost[number] = height
        give[:len(demand), number] = np.minimum(given, demand)
        most[number] = max(-(-need // gives) for need, gives in zip(demand, given) if gives)
    for number, one in enumerate(joints):
        at, row = len(patterns) + 2 * number, len(demand) + number
        cost[at], most[at], most[at + 1] = one.broad, one.strips(demand[one.piece]), demand[one.piece]
        give[one.piece, at + 1] = 1
        give[row, at], give[row, at + 1], least[row] = one.strip - one.lost, -one.long, -one.lost
    return cost, give, least, most


def _least(strips, joints, demand, patterns):
    """Whole numbers of these patterns that take least cloth; None if HiGHS found none. And whether it proved that."""
    from scipy.optimize import Bounds, LinearConstraint, milp
    cost, give, least, most = _programme(strips, joints, demand, patterns)
    whole = lcm(*(height.denominator for height, _ in patterns), *(one.broad.denominator for one in joints))
    answer = milp(cost * whole, constraints=LinearConstraint(give, lb=least), bounds=Bounds(0, most),
                  integrality=np.ones(len(cost)), options={"node_limit": NODES, "mip_rel_gap": 0})
    if answer.x is None:
        return None, False
    counts = np.rint(answer.x).astype(int).tolist()
    plan = [(*pattern, times) for pattern, times in zip(patterns, counts) if times]
    made = counts[len(patterns) + 1::2]
    joined = [(one, one.strips(pieces), pieces) for one, pieces in zip(joints, made) if pieces]
    return (Found(plan, joined), answer.status == 0) if _holds(strips, plan, joined, demand) else (None, False)


def _holds(strips, plan, joined, demand):
    """Count again in whole numbers: the solver works in floating point."""
    given = [0] * len(demand)
    for height, columns, times in plan:
        given = [have + times * more for have, more in zip(given, strips.gives(height, columns))]
    for one, _, pieces in joined:
        given[one.piece] += pieces
    return all(have >= need for have, need in zip(given, demand))
