"""`python -m tests.fuzz [CASES] [KIND …] [--seed N]`: so many cases in all (20,000), of every kind, fewer of those that
take long; prints what they came to, and keeps the case of each finding in a file."""

import argparse
import sys
import tempfile
from collections import Counter
from pathlib import Path

from . import MEGABYTES, SECONDS, SHARES
from .cases import KINDS
from .running import watched

SHOWN = 12  # findings of a kind are printed


def main(arguments):
    parser = argparse.ArgumentParser(prog="python -m tests.fuzz", description=__doc__)
    parser.add_argument("cases", nargs="?", type=int, default=20_000)
    parser.add_argument("kinds", nargs="*", metavar="KIND", help=", ".join(KINDS))
    parser.add_argument("--seed", type=int, default=0)
    args = parser.parse_args(arguments)
    kinds = args.kinds or list(KINDS)
    shares = sum(SHARES.get(kind, 1) for kind in kinds)
    folder, wrong = Path(tempfile.mkdtemp(prefix="fuzz-")), 0
    print(f"{'kind':8} {'cases':>6} {'slowest s':>9} {'most MB':>8}  what they came to")
    for kind in kinds:
        counts, slowest, memory, findings = Counter(), 0.0, 0.0, []
        for one in watched(kind, args.seed, round(args.cases * SHARES.get(kind, 1) / shares)):
            counts[one.outcome or "wrong"] += 1
            slowest, memory = max(slowest, one.seconds), max(memory, one.megabytes)
            if one.wrong:
                findings.append(one)
        came_to = ", ".join(f"{count:,} {outcome}" for outcome, count in counts.most_common())
        print(f"{kind:8} {sum(counts.values()):>6,} {slowest:>9.1f} {memory:>8.0f}  {came_to}", flush=True)
        wrong += len(findings)
        for number, one in enumerate(findings):
            path = folder / f"{kind}-{number}.txt"
            path.write_text(one.case, "utf-8", "surrogatepass")
            if number < SHOWN:
                print(f"    {path}: {one.wrong.strip().splitlines()[-1][:160]}", flush=True)
    print(f"{wrong} findings; a job may take {SECONDS} s of CPU and {MEGABYTES} MB")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
