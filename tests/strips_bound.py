"""A judge of cutting plans: a length that no plan of strips gets under, whatever strips it is made of.

Give each piece a worth, such that no strip an inch high holds a worth of more than 1; then no plan of strips is shorter
than the worths of all pieces, added up. A linear programme proposes the worths, from strips that are found as they are
needed; whole numbers then check them on the best strip of every height that some stack of pieces has.
"""

from fractions import Fraction
from math import lcm

import numpy as np
from scipy.optimize import LinearConstraint, linprog, milp

SCALE = 10**6
ROUNDS = 200


class Strips:
    """The best strip of each height for given worths, by dynamic programming in whole units across.

    A strip counts no more pieces of a kind, lying one way, than there are.
    """

    def __init__(self, pieces, width):
        over = lcm(Fraction(width).denominator, *(s.denominator for p in pieces for s in (p.width, p.height)))
        self.room = int(width * over)
        self.ways = []
        for number, piece in enumerate(pieces):
            sides = {(piece.width, piece.height)} | ({(piece.height, piece.width)} if piece.any_way else set())
            self.ways += [(number, int(wide * over), high) for wide, high in sorted(sides) if wide <= width]
        stacks = {high * level for number, _, high in self.ways for level in range(1, pieces[number].count + 1)}
        self.heights = sorted(stacks)
        self.stacked = np.array([[int(height // high) for _, _, high in self.ways] for height in self.heights])
        self.need = np.array([pieces[number].count for number, *_ in self.ways])
        self.most = np.where(self.stacked, -(-self.need // np.maximum(self.stacked, 1)), 0)

    def best(self, worths):
        """For each height the greatest worth of a strip, and how to find its columns: see `columns`."""
        best, steps = np.zeros((len(self.heights), self.room + 1), dtype=np.int64), []
        for number, (piece, wide, _) in enumerate(self.ways):
            for copy in range(min(self.room // wide, int(self.most[:, number].max()))):
                each = np.clip(self.need[number] - copy * self.stacked[:, number], 0, self.stacked[:, number])
                other = best[:, :-wide] + (each * worths[piece])[:, None]
                better = other > best[:, wide:]
                if not better.any():
                    break
                best = best.copy()
                best[:, wide:][better] = other[better]
                steps.append((number, wide, better))
        return best[:, -1], steps

    def columns(self, steps, row):
        """How many columns of each way the best strip of one height has."""
        found, place = [0] * len(self.ways), self.room
        for number, wide, better in reversed(steps):
            if place >= wide and better[row, place - wide]:
                found[number] += 1
                place -= wide
        return found


def at_least(pieces, width):
    """Inches that no plan of strips gets under, an exact Fraction; pieces are not joined."""
    strips, demand = Strips(pieces, width), [piece.count for piece in pieces]
    costs, gives = [], []
    for number in range(len(pieces)):
        way = next(at for at, (which, *_) in enumerate(strips.ways) if which == number)
        costs.append(float(strips.ways[way][2]))
        gives.append([1.0 if other == number else 0.0 for other in range(len(pieces))])
    least = Fraction(0)
    for _ in range(ROUNDS):
        answer = linprog(costs, A_ub=-np.array(gives).T, b_ub=[-need for need in demand], method="highs")
        worths = [int(price * SCALE) for price in -answer.ineqlin.marginals]
        value, steps = strips.best(worths)
        share = [Fraction(int(worth)) / height for worth, height in zip(value, strips.heights)]
        proved = sum(need * worth for need, worth in zip(demand, worths)) / max(share)
        least = max(least, proved)
        wanted = [row for row, worth in enumerate(share) if worth > SCALE * (1 + Fraction(1, 10**5))]
        if not wanted or least > answer.fun * (1 - 1e-4):
            return least
        for row in sorted(wanted, key=lambda row: -share[row])[:60]:
            columns = strips.columns(steps, row)
            given = [0.0] * len(pieces)
            for (which, *_), each, stood, need in zip(strips.ways, strips.stacked[row], columns, strips.need):
                given[which] += float(min(each * stood, need))
            costs.append(float(strips.heights[row]))
            gives.append(given)
    return least


def by_every_strip(pieces, width):
    """The same for few kinds of pieces, where every strip can be looked at: the bound of SciPy's tree search over all.

    Strips to which a column could be added are left out, for the wider ones do as well.
    """
    strips, demand, found = Strips(pieces, width), [piece.count for piece in pieces], {}
    for row, height in enumerate(strips.heights):
        for columns in _filled(strips, row, 0, strips.room):
            given = [0] * len(pieces)
            for (which, *_), each, stood in zip(strips.ways, strips.stacked[row], columns):
                given[which] = min(given[which] + int(each) * stood, demand[which])
            found[tuple(given)] = min(height, found.get(tuple(given), height))
    fits = LinearConstraint(np.array(list(found)).T, lb=demand)
    costs = np.array([float(height) for height in found.values()])
    answer = milp(costs, constraints=fits, integrality=np.ones(len(costs)), options={"time_limit": 60})
    return Fraction(answer.mip_dual_bound)


def _filled(strips, row, at, room):
    """Every way to fill a strip from one way of laying on, as numbers of columns."""
    if at == len(strips.ways):
        yield []
        return
    wide, last = strips.ways[at][1], at == len(strips.ways) - 1
    most = min(room // wide, int(strips.most[row, at]))
    for stood in range(most if last else 0, most + 1):
        for rest in _filled(strips, row, at + 1, room - stood * wide):
            yield [stood, *rest]
