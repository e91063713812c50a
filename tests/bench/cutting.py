"""Planning fabric: how long a cutting plan takes, and how near it comes to what no cutter gets under.

`python -m tests.bench cutting [PARTS …]` plans invented cutting lists of so many parts (nine of each number, always the
same) on fabric 42 in wide and prints the median and longest time, the median's ratio to one small linear programme of
SciPy's (HiGHS), and how much longer plans are than the bound. `python -m tests.bench cutting thirty` plans thirty lists
of 2 to 20 parts, and lets a judge tell how much longer each is than any plan of strips must be.
"""

import random
import statistics
import time
from fractions import Fraction

from quiltmath.yardage import Piece, length_needed

from .. import strips_bound

PARTS = (2, 4, 6, 8, 10)
LISTS = 9
THIRTY = range(30)
FEW = 5  # parts: of no more than these every strip can be looked at


def cutting_list(parts, number):
    """An invented cutting list: squares and rectangles from 1 1/2 to 22 in, 4 to 150 of the small ones."""
    draw = random.Random(1000 * parts + number)
    found = []
    for part in range(parts):
        wide = Fraction(draw.randint(12, 80) if draw.random() < 0.8 else draw.randint(80, 176), 8)
        square = draw.random() < 0.6
        high = wide if square else Fraction(draw.randint(12, 100), 8)
        count = draw.choice([4, 8, 12, 24, 48, 60, 96, 100, 150]) if wide * high < 40 else draw.randint(1, 16)
        found.append(Piece(wide, high, count, str(part), any_way=square or draw.random() < 0.5))
    return found


def one_of_thirty(number):
    """One of thirty invented cutting lists, of 2 to 20 parts."""
    return cutting_list(2 + 18 * number // 29, number)


def over_any_strips(pieces, plan):
    """How much longer, as a share, a plan is than a length that no plan of strips gets under."""
    bound = max(plan.at_least, strips_bound.at_least(pieces, plan.usable_width))
    if plan.proved or plan.length <= bound * Fraction(103, 100) or len(pieces) > FEW:
        return 0.0 if plan.proved else float(plan.length / bound) - 1
    return float(plan.length / strips_bound.by_every_strip(pieces, plan.usable_width)) - 1


def thirty():
    """Plan the thirty lists and print what the judge says of each."""
    print(f"{'list':>4} {'parts':>5} {'pieces':>7} {'CPU s':>8} {'over the bound':>15} {'over any strips':>16}")
    for number in THIRTY:
        listed = one_of_thirty(number)
        before = time.process_time()
        plan = length_needed(listed, 42)
        taken = time.process_time() - before
        print(
            f"{number:>4} {len(listed):>5} {sum(one.count for one in listed):>7} {taken:>8.2f} "
            f"{float(plan.length / plan.at_least) - 1:>15.1%} {over_any_strips(listed, plan):>16.1%}",
            flush=True,
        )


def yardstick():
    """The time of one small linear programme."""
    from scipy.optimize import linprog

    rows = [[-((3 * row + 5 * column) % 7) for column in range(60)] for row in range(8)]
    before = time.perf_counter()
    linprog([1 + column % 5 for column in range(60)], A_ub=rows, b_ub=[-40] * 8, method="highs")
    return time.perf_counter() - before


def main(arguments):
    if arguments == ["thirty"]:
        length_needed(cutting_list(3, 0), 42)  # the first plan loads what it needs
        thirty()
        return
    sizes = [int(text) for text in arguments] or PARTS
    length_needed(cutting_list(3, 0), 42)  # the first plan loads what it needs
    one = statistics.median(yardstick() for _ in range(15))
    print(f"{'parts':>5} {'pieces':>7} {'median ms':>10} {'longest ms':>11} {'ratio':>6} {'over the bound':>15}")
    for parts in sizes:
        taken, over, pieces = [], [], []
        for number in range(LISTS):
            listed = cutting_list(parts, number)
            before = time.perf_counter()
            plan = length_needed(listed, 42)
            taken.append(time.perf_counter() - before)
            over.append(float(plan.length / plan.at_least) - 1)
            pieces.append(sum(piece.count for piece in listed))
        middle = statistics.median(taken)
        print(
            f"{parts:>5} {statistics.median(pieces):>7.0f} {1000 * middle:>10.0f} {1000 * max(taken):>11.0f} "
            f"{middle / one:>6.0f} {statistics.mean(over):>15.1%}"
        )
    print(f"ratio: in linear programmes of 60 columns and 8 rows ({1000 * one:.1f} ms each)")
