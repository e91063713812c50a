"""Every fault planted in every sound demo sheet's own file, then corrected: `python -m tests.corrections [all]`.

The table says for each kind of fault how many were planted, how many corrected files a review lets go, in how many it
still asks or stops and says so, and in how many nothing was changed. `all` lists each that does not go.
"""

import sys
from typing import NamedTuple

from quiltmath import pattern, review

from . import sheets
from .faults import faults

ASKED = {  # what nobody but the designer can answer
    "no seam printed",
    "no finished printed",
    "no usable width printed",
    "directional print on point",
    "binding too narrow",
    "part forgotten",
}
MANY_WAYS = {  # what can be put right in more than one way, or in none that shows the same picture
    "another seam printed",
    "part left out of a row",
    "part too many in a row",
    "sewn top sliced",
    "blocks cut in half for the edge",
    "blocks cut a seam past the diagonal",
}
ENDS = ("go", "ask", "stop", "unchanged", "unreadable")


class Ended(NamedTuple):
    """What became of one planted fault: how the correction ended, its changes, and the file before and after."""

    sheet: str
    planted: object
    end: str
    changes: tuple = ()
    before: str = ""
    after: str = ""
    missing: tuple = ()

    def __str__(self):
        said = "; ".join(map(str, self.changes)) or "no changes"
        left = f" | open: {'; '.join(self.missing)[:200]}" if self.missing else ""
        return f"{self.sheet}: {self.planted.kind} ({self.planted.strength}): {self.end}: {said}{left}"


def ended(path, planted):
    """How the correction of one planted fault ends: what its review says of the text that it writes."""
    try:
        faulty = pattern.read_text(sheets.typed(planted.data))
        printed = pattern.read_text(pattern.edited(pattern.read(path), faulty), path.stem)
        right = review.corrected(printed)
    except pattern.Unreadable:
        return Ended(path.stem, planted, "unreadable")
    verdict = right.review.verdict
    end = verdict if right.changes or verdict == "go" else "unchanged"
    return Ended(path.stem, planted, end, right.changes, printed.source, right.text(), right.missing)


def every(only=lambda planted: True):
    """The end of every fault planted in every sound demo sheet."""
    for path in sheets.paths("sound"):
        for planted in faults(sheets.demo(path)):
            if only(planted):
                yield ended(path, planted)


def table(done):
    """The ends by kind, as lines of text."""
    lines = [f"{'fault':42}{'planted':>8}" + "".join(f"{end:>11}" for end in ENDS)]
    for kind in [*dict.fromkeys(each.planted.kind for each in done), ""]:
        some = [each.end for each in done if kind in ("", each.planted.kind)]
        lines.append(f"{kind or 'all':42}{len(some):8}" + "".join(f"{some.count(end):11}" for end in ENDS))
    return lines


if __name__ == "__main__":
    everything = list(every())
    print("\n".join(table(everything)))
    if "all" in sys.argv[1:]:
        print("\n".join(["", *(str(each) for each in everything if each.end != "go")]))
