"""Faults planted in every sound demo sheet, and what the review makes of them: `python -m tests.mutation [all]`.

The table says for each kind of fault how many were planted, found by the right check, missed, and found by a check that
has nothing to do with them; of how many just one number was changed, and how often the review names that number and
what belongs there; then how many harmless changes raised a false alarm. `all` lists each one missed, not named or
falsely alarmed.
"""

import argparse
from typing import NamedTuple

from quiltmath import lengths, pattern

from . import sheets
from .faults import faults
from .harmless import harmless
from .planted import words_of

LEVELS = ("stop", "ask", "note")
BLAMING = ("cut-size", "edges-differ", "strip-short")


class Outcome(NamedTuple):
    """What the review said of one planted change: found by the right check, and the checks that spoke without reason;
    whether it names the number that was changed and the right one for it (None where more than one was)."""

    sheet: str
    planted: object
    found: bool
    unrelated: tuple
    culprit: bool | None = None
    number: bool | None = None

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
    culprit, number = named(sheets.demo(sheets.FOLDER / "sound" / f"{sheet}.toml"), planted, findings)
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
        culprit,
        number,
    )


def named(sound, planted, findings):
    """Whether the findings name the number that was changed, and what belongs there; (None, None) where not just one
    number was."""
    changed = list(_differing(sound, planted.data))
    changed = [one for one in changed if one[0][-1] != "bought"] or changed
    if len(changed) != 1 or not planted.checks:
        return None, None
    (path, value), units = changed[0], sound.get("units", "in")
    told = [new for finding in findings if finding.level != "note" for fixed, new in finding.fix if fixed == path]
    right = [planted.right] * 2 if planted.right is not None else value
    culprit = told or any(finding.path == path for finding in findings if finding.level != "note")
    return bool(culprit), any(_same(new, right, units) for new in told)


def _differing(sound, planted, path=()):
    """(path, value in the sound sheet) of each value that differs."""
    if isinstance(sound, dict) and isinstance(planted, dict):
        for key in dict.fromkeys([*sound, *planted]):
            yield from _differing(sound.get(key), planted.get(key), (*path, key))
    elif isinstance(sound, list) and isinstance(planted, list) and len(sound) == len(planted) and sound:
        if isinstance(sound[0], dict):
            for number, pair in enumerate(zip(sound, planted)):
                yield from _differing(*pair, (*path, number))
        elif sound != planted:
            yield path, sound
    elif sound != planted:
        yield path, sound


def _same(one, other, units):
    """Whether two typed values are one and the same: rows of the same words, sizes at most an eighth of an inch
    apart."""
    if isinstance(one, list) and isinstance(one[0], list):
        return one == [words_of(row) for row in other]
    try:
        return all(
            abs(float(a - b)) <= 1 / 8 for a, b in zip(_lengths(one, units), _lengths(other, units), strict=True)
        )
    except (TypeError, ValueError):
        return one == other


def _lengths(value, units):
    if isinstance(value, str) and "x" in value:
        value = value.split("x")
    pair = value if isinstance(value, list) else [value, value]
    return [lengths.parse(side, unit=units) for side in pair]


def related(finding, planted):
    """Whether a finding is a note, or one that the planted fault accounts for, that is no graver than it may be and
    blames no other part."""
    if LEVELS.index(finding.level) < LEVELS.index(planted.most):
        return False
    wrong_part = planted.parts and finding.check in BLAMING and not planted.parts & finding.parts
    return finding.level == "note" or not wrong_part and finding.check in planted.checks | planted.also


def outcomes(planting=(faults, harmless), only=lambda planted: True, names=()):
    """The outcome of everything planted in every sound demo sheet, or in those of these names."""
    for path in sheets.paths("sound"):
        if names and path.stem not in names:
            continue
        for plant in planting:
            for planted in plant(sheets.demo(path)):
                if only(planted):
                    yield outcome(path.stem, planted)


def table(done):
    """The outcomes by kind, as lines of text."""
    lines = [
        f"{'fault':44}{'planted':>8}{'found':>7}{'missed':>8}{'unrelated':>11}{'to name':>9}{'named':>7}{'right':>7}"
    ]
    planted = [each for each in done if each.planted.checks]
    for kind in [*dict.fromkeys(each.planted.kind for each in planted), ""]:
        some = [each for each in planted if kind in ("", each.planted.kind)]
        found, unrelated = sum(each.found for each in some), sum(bool(each.unrelated) for each in some)
        named_ones = [each for each in some if each.culprit is not None]
        culprits, right = sum(each.culprit for each in named_ones), sum(each.number for each in named_ones)
        lines.append(
            f"{kind or 'all':44}{len(some):8}{found:7}{len(some) - found:8}{unrelated:11}"
            f"{len(named_ones):9}{culprits:7}{right:7}"
        )
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
    stems = [path.stem for path in sheets.paths("sound")]
    parser = argparse.ArgumentParser(prog="python -m tests.mutation", description=__doc__)
    parser.add_argument("names", nargs="*", metavar="all|SHEET", help="each wrong one too; some sound sheets only")
    names = parser.parse_args().names
    unknown = sorted({*names} - {*stems, "all"})
    if unknown:
        parser.error(f"no sound sheet is called {unknown[0]!r}; they are {', '.join(stems)}")
    everything = list(outcomes(names=[name for name in names if name != "all"]))
    print("\n".join(table(everything)))
    if "all" in names:
        print("\n" + "\n".join(map(str, wrong(everything))))
        print("\n".join(f"not named: {each}" for each in everything if each.culprit is False or each.number is False))
