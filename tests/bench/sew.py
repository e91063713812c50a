"""Sewing whole quilts in the simulator: how long a plan's top takes, and how the time grows with the quilt.

`python -m tests.bench sew [SIZE …]` sews tops on point of so many nine-patches across and down and prints,
for each, the median time of three runs, each a fresh plan whose blocks are sewn anew, and its ratio to the
first size for each patch.
"""

import statistics
import time

from quiltmath import blocks, settings

SIZES = (6, 12, 20, 30, 40)
RUNS = 3


def seconds(size):
    """How many patches a top has, and how long it takes to sew."""
    taken = []
    for _ in range(RUNS):
        blocks.forget_sewn()
        plan = settings.on_point(size, size, blocks.named("nine-patch"))
        before = time.perf_counter()
        panel = plan.panel()
        taken.append(time.perf_counter() - before)
    return len(panel.corners), statistics.median(taken)


def main(arguments):
    sizes = [int(text) for text in arguments] or SIZES
    settings.on_point(2, 2, blocks.named("nine-patch")).panel()  # the first plan loads SymPy and tells the proofs
    print(f"{'blocks':>9} {'patches':>8} {'ms':>8} {'µs a patch':>11} {'ratio':>6}")
    first = None
    for size in sizes:
        patches, taken = seconds(size)
        each = taken / patches
        first = first or each
        name, ratio = f"{size} x {size}", each / first
        print(f"{name:>9} {patches:>8,} {1000 * taken:>8.0f} {1e6 * each:>11.1f} {ratio:>6.2f}")
    print("ratio: time for each patch beside the first size; about 1 or less: the time grows no faster")
