"""Faults planted in every sound demo sheet, and what the review makes of them: `python -m tests.mutation [all]`.

The table says for each kind of fault how many were planted, found by the right check, missed, and found by a check that
has nothing to do with them; then how many harmless changes raised a false alarm. `all` lists each one missed or falsely
alarmed.
"""

import sys
from typing import NamedTuple

from quiltmath import pattern

from . import sheets
from .faults import faults
from .harmless import harmless

LEVELS = ("stop", "ask", "note")
BLAMING = ("cut-size", "edges-differ", "strip-short")


class Outcome(NamedTuple):
    """What the review said of one planted change: found by the right check, and the checks that spoke without
    reason."""

    sheet: str
    planted: object
    found: bool
    unrelated: tuple

    def __str__(self):
        said = "found" if self.found else "MISSED" if self.planted.checks else "harmless"
        return f"{self.sheet}: {self.planted.kind} ({self.planted.strength}): {said}" + (
            f", unrelated: {', '.join(self.unrelated)}" if self.unrelated else ""
        )


def outcome(sheet, planted):
    """The outcome of one planted change."""
    try:
        findings = sheets.found(planted.data)
    except pattern.Unreadable as problem:
        return Outcome(sheet, planted, False, (f"unreadable: {problem}",))
    grave = LEVELS[: LEVELS.index(planted.level) + 1]
    right = [finding for finding in findings if finding.check in planted.checks and finding.level in grave]
    return Outcome(
        sheet,
        planted,
        bool(right),
        tuple(
            dict.fromkeys(
                f"{finding.check} of {', '.join(sorted(finding.parts))}"
                for finding in findings
                if not related(finding, planted)
            )
        ),
    )


def related(finding, planted):
    """Whether a finding is a note, or one that the planted fault accounts for, that is no graver than it may be and
    blames no other part."""
    if LEVELS.index(finding.level) < LEVELS.index(planted.most):
        return False
    wrong_part = planted.parts and finding.check in BLAMING and not planted.parts & finding.parts
    return finding.level == "note" or not wrong_part and finding.check in planted.checks | planted.also


def outcomes(planting=(faults, harmless), only=lambda planted: True):
    """The outcome of everything planted in every sound demo sheet."""
    with sheets.cloth_planned_once():
        for path in sheets.paths("sound"):
            for plant in planting:
                for planted in plant(sheets.demo(path)):
                    if only(planted):
                        yield outcome(path.stem, planted)


def table(done):
    """The outcomes by kind, as lines of text."""
    lines = [f"{'fault':44}{'planted':>8}{'found':>7}{'missed':>8}{'unrelated':>11}"]
    planted = [each for each in done if each.planted.checks]
    for kind in [*dict.fromkeys(each.planted.kind for each in planted), ""]:
        some = [each for each in planted if kind in ("", each.planted.kind)]
        found, unrelated = sum(each.found for each in some), sum(bool(each.unrelated) for each in some)
        lines.append(f"{kind or 'all':44}{len(some):8}{found:7}{len(some) - found:8}{unrelated:11}")
    lines += ["", f"{'harmless change':44}{'made':>8}{'false alarms':>15}"]
    changes = [each for each in done if not each.planted.checks]
    for kind in [*dict.fromkeys(each.planted.kind for each in changes), ""]:
        some = [each for each in changes if kind in ("", each.planted.kind)]
        lines.append(f"{kind or 'all':44}{len(some):8}{sum(bool(each.unrelated) for each in some):15}")
    return lines


def wrong(done):
    """The outcomes that are faults of the review: missed, or alarmed without reason."""
    return [each for each in done if each.unrelated or each.planted.checks and not each.found]


if __name__ == "__main__":
    everything = list(outcomes())
    print("\n".join(table(everything)))
    if wrong(everything) and "all" in sys.argv[1:]:
        print("\n" + "\n".join(map(str, wrong(everything))))
