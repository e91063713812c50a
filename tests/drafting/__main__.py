"""How the lines of each list are drafted: `python -m tests.drafting [all]`; `all` lists each line that is not exact."""

import sys
from collections import Counter

from . import LISTS, OUTCOMES, lines, outcome

if __name__ == "__main__":
    print(f"{'':10}{'lines':>8}" + "".join(f"{name:>8}" for name in OUTCOMES))
    told = []
    for name in LISTS:
        came = [(line, *outcome(line)) for line in lines(name)]
        counts = Counter(how for _, how, _ in came)
        print(f"{name:10}{len(came):8}" + "".join(f"{counts[how]:8}" for how in OUTCOMES))
        told += [one for one in came if one[1] != "exact"]
    if "all" in sys.argv[1:]:
        for line, how, entries in told:
            print(f"\n{how}: {line.page!r}\n  read:   {'; '.join(entries) or '-'}")
            print(f"  wanted: {'; '.join(sorted(line.entries)) or '-'}{' and asked' if line.asks else ''}")
    else:
        for line, how, _ in told:
            if how in ("missed", "wrong"):
                print(f"{how}: {line.page!r}")
