"""Prints how the kit agrees with printed figures: `python -m tests.agreement [rows]`."""

import sys
from collections import Counter

from tests.published import all_compared

VERDICTS = ("agrees", "agrees after rounding", "differs")
TOPICS = {
    "a": "setting triangles",
    "b": "triangles and units",
    "c": "counts on point",
    "d": "strip sets",
    "e": "bias",
    "f": "binding and bias strips",
    "h": "mitred borders",
    "j": "standards",
    "k": "reported faults",
}


def table(found):
    """The agreement by topic, as lines of text."""
    lines = [f"{'':27}{'rows':>5}{'agree':>8}{'after rounding':>16}{'differ':>8}{'short':>7}"]
    topics = sorted({each.row["topic"] for each in found})
    for topic, group in [*((t, [each for each in found if each.row["topic"] == t]) for t in topics), ("", found)]:
        counts = Counter(each.verdict for each in group)
        name = f"{topic}  {TOPICS[topic]}" if topic else "all"
        agree, after, differ = (counts[verdict] for verdict in VERDICTS)
        short = sum(each.short for each in group)
        lines.append(f"{name:27}{len(group):5}{agree:8}{after:16}{differ:8}{short:7}")
    lines.append("short: agrees by the source's own rounding, but is smaller than the exact size to cut")
    roundings = Counter(each.row["rounding"] for each in found if each.verdict == "agrees after rounding")
    lines += ["", "the roundings:", *(f"  {count:4}  {name}" for name, count in roundings.most_common())]
    return [
        *lines,
        "",
        "what differs, and why:",
        *(f"  {each}\n      {each.row['reason']}" for each in found if each.verdict == "differs"),
    ]


if __name__ == "__main__":
    compared = all_compared()
    print("\n".join(table(compared)))
    if "rows" in sys.argv[1:]:
        print("\n".join(f"{each.verdict}: {each}" for each in compared))
