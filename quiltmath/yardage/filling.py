"""What fills a width best: an exact bounded knapsack in whole units, for many sets of values at once."""

from fractions import Fraction
from math import gcd, lcm

import numpy as np

PLAIN = {"presolve": False}
"""How HiGHS is asked: programmes this small are solved sooner than they are made smaller."""


def grid(sizes, finest):
    """The largest unit of which all sizes are multiples; no smaller than the largest size / `finest`.

    >>> grid([Fraction(7, 2), Fraction(42)], 4096), grid([Fraction(1, 10**6), Fraction(42)], 4096)
    (Fraction(7, 2), Fraction(21, 2048))
    """
    over = lcm(*(size.denominator for size in sizes))
    unit = Fraction(gcd(*(int(size * over) for size in sizes)), over)
    return max(unit, max(sizes) / finest)


def best_fill(sizes, most, values, capacity):
    """For each row of `values`, the greatest value of items whose sizes add up to `capacity` at most, and how many of
    each.

    `sizes` (whole units) and `most` (copies at hand) have one entry an item; `values` is rows × items, whole numbers.

    >>> best_fill([3, 5], [10, 1], np.array([[3, 6], [1, 0]]), 11)
    (array([12,  3]), array([[2, 1],
           [3, 0]]))
    """
    values = np.asarray(values, dtype=np.int64)
    best = np.zeros((len(values), capacity + 1), dtype=np.int64)
    steps = []
    for item, size in enumerate(sizes):
        for copies in _doubling(min(most[item], capacity // size)):
            reach, before = copies * size, best
            best = before.copy()
            np.maximum(
                best[:, reach:], before[:, : capacity + 1 - reach] + copies * values[:, item, None], out=best[:, reach:]
            )
            steps.append((item, copies, reach, before, best))
    counts = np.zeros(values.shape, dtype=np.int64)
    rows, at = np.arange(len(values)), np.full(len(values), capacity)
    for item, copies, reach, before, after in reversed(steps):
        taken = after[rows, at] != before[rows, at]
        counts[taken, item] += copies
        at[taken] -= reach
    return best[:, capacity], counts


def best_fill_up(sizes, gains, capacity, rows):
    """For each of so many rows the greatest gain of items whose sizes add up to `capacity` at most, and their numbers.

    `sizes` (whole units) has one entry an item; `gains` has for each item what its first copy gains in every row, its
    second, and so on, never more than the copy before.

    >>> best_fill_up([3, 5], [[np.array([4, 1]), np.array([1, 1])], [np.array([6, 0])]], 11, 2)
    (array([11,  2]), array([[2, 1],
           [2, 0]]))
    """
    best, steps = np.zeros((rows, capacity + 1), dtype=np.int64), []
    for item, (size, copies) in enumerate(zip(sizes, gains)):
        for gain in copies[: capacity // size]:
            if not gain.any():
                break
            added = best[:, : capacity + 1 - size] + gain[:, None]
            better = added > best[:, size:]
            best = best.copy()
            np.copyto(best[:, size:], added, where=better)
            steps.append((item, size, better))
    counts, at, every = np.zeros((rows, len(sizes)), dtype=np.int64), np.full(rows, capacity), np.arange(rows)
    for item, size, better in reversed(steps):
        taken = (at >= size) & better[every, np.maximum(at - size, 0)]
        counts[taken, item] += 1
        at[taken] -= size
    return best[:, capacity], counts


def _doubling(most):
    """Group sizes 1, 2, 4, … that can make every number up to `most` and none above it."""
    size = 1
    while most > 0:
        yield min(size, most)
        most -= size
        size *= 2
