"""Every key of a sound sheet removed, doubled or changed beyond reason, one at a time: `python -m tests.metamorphic`.

A change is refused, or it changes the verdict, what is told (a finding, the table of numbers) or at least the picture.
What changes nothing at all must stand in `MAY`, with the reason why it may; whatever else changes nothing is listed as
WRONG, for there the kit would take no notice of what a pattern prints.
"""

import re
import sys
from collections import Counter
from copy import deepcopy
from typing import NamedTuple

from quiltmath import lengths, pattern, review
from quiltmath.review.report.numbers import numbers

from . import sheets

REFUSED, VERDICT, TOLD, DRAWN, NOTHING = "refused", "verdict", "told", "drawn", "nothing"
REMOVED, DOUBLED, CHANGED = "removed", "doubled", "changed"
NAMED = ("fabric", "strip_set", "unit", "block")
FREE = ("title", "note", "name", "instructions")  # words of the pattern's own
CHOICES = {
    "units": ("in", "cm"),
    "cut": ("whole", "once", "twice"),
    "kind": ("half-square", "quarter-square", "flying geese", "square in a square", "snowball"),
    "style": ("straight", "on point", "bias"),
    "how": ("plain", "built", "cut blocks"),
    "edge": ("half", "whole"),
    "ends": ("butted", "mitred"),
    "first": ("sides", "top"),
    "join": ("diagonal", "straight"),
    "align": ("start", "end", "centre"),
}
MAY = [
    # the place, how it is changed, and why that may change neither the verdict nor a number nor the picture
    ("title", (DOUBLED, CHANGED), "a name is a name"),
    ("note", (REMOVED, DOUBLED, CHANGED), "words for the reader alone"),
    ("other_size[].name", (DOUBLED, CHANGED), "a name is a name"),
    ("instructions", (REMOVED, DOUBLED, CHANGED), "orders that bring about no fault are not judged"),
]


class Change(NamedTuple):
    """One change to a sheet: the path of the key, how it is changed, and the plain tables that come of it."""

    path: tuple
    how: str
    data: dict

    @property
    def place(self):
        """The kind of place: "cut[].size", "fabric.NAME.bought"."""
        words = []
        for number, key in enumerate(self.path):
            if isinstance(key, int):
                words[-1] += "[]"
            elif number and self.path[number - 1] in (*NAMED, "counts", "sizes", "bought"):
                words.append("NAME")
            else:
                words.append(key)
        return ".".join(words)


class Outcome(NamedTuple):
    """What came of one change to a sheet."""

    sheet: str
    change: Change
    came: str

    @property
    def reason(self):
        """Why it may change nothing; "" where no reason is given."""
        return next(
            (why for place, hows, why in MAY if place == self.change.place and self.change.how in hows),
            "",
        )

    @property
    def wrong(self):
        """Whether it changes nothing and nobody says why it may."""
        return self.came == NOTHING and not self.reason

    def __str__(self):
        return f"{self.sheet}: {'.'.join(map(str, self.change.path))} {self.change.how}: {self.came}"


def changes(data):
    """Every change to a sheet, given as plain tables."""
    for path in list(_paths(data)):
        yield Change(path, REMOVED, _with(data, path, None))
        value = _at(data, path)
        for how, other in _others(path, value):
            yield Change(path, how, _with(data, path, other))


def _paths(value, path=()):
    """The path of every key of a sheet, and of every line of its lists of tables."""
    if isinstance(value, dict):
        for key, inner in value.items():
            yield (*path, key)
            yield from _paths(inner, (*path, key))
    elif isinstance(value, list) and value and isinstance(value[0], dict):
        for number, inner in enumerate(value):
            yield (*path, number)
            yield from _paths(inner, (*path, number))


def _at(data, path):
    for key in path:
        data = data[key]
    return data


def _with(data, path, value):
    """The tables with another value at a path; None takes it out, a list that stands in a list is put in beside."""
    data = deepcopy(data)
    place = _at(data, path[:-1])
    if value is None:
        del place[path[-1]]
    elif isinstance(path[-1], int):
        place[path[-1] : path[-1] + 1] = value
    else:
        place[path[-1]] = value
    return data


def _others(path, value):
    """(how, value) of each other value."""
    key = path[-1]
    if isinstance(key, int):
        yield DOUBLED, [value, deepcopy(value)]
    elif isinstance(value, bool):
        yield CHANGED, not value
    elif key in CHOICES and value in CHOICES[key]:
        yield from ((CHANGED, other) for other in CHOICES[key] if other != value)
    elif isinstance(value, int) and key not in ("seam",):
        yield DOUBLED, value * 2
        yield CHANGED, value * 10
    elif _times(value, 2) is not None:
        yield DOUBLED, _times(value, 2)
        yield CHANGED, _times(value, 10)
    elif isinstance(value, str):
        yield DOUBLED, f"{value} {value}"
        yield CHANGED, "no such thing"
    elif isinstance(value, list) and not isinstance(value[0], dict):
        yield DOUBLED, value * 2
        yield CHANGED, ["no such thing"] * len(value)


def _times(value, factor):
    """A length, or a size, so many times as large; None for what is none."""
    if isinstance(value, list):
        times = [_times(one, factor) for one in value]
        return None if None in times else times
    if isinstance(value, str) and " x " in value:
        return _times(value.split(" x "), factor)
    if isinstance(value, bool) or not isinstance(value, (str, int, float)):
        return None
    written = re.fullmatch(r"(.*?)\s*(in|cm|yd|m)?", str(value))
    try:
        larger = lengths.text(lengths.parse(written[1]) * factor)
    except ValueError:
        return None
    return f"{larger} {written[2]}" if written[2] else larger


def said(data):
    """(verdict, what is told, what is drawn) of a sheet given as plain tables; None where it is refused."""
    try:
        found = review.review(pattern.read_text(sheets.typed(data)))
    except pattern.Unreadable:
        return None
    told = [finding.message for finding in found.findings], numbers(found), found.made.finished
    top = found.made.top
    drawn = sorted((patch.fabric, patch.polygon.round(6).tolist()) for patch in top.patches) if top else None
    return found.verdict, told, drawn


def outcomes(sheet, data, wanted=None):
    """The outcome of every change to a sheet, or of those whose numbers are `wanted`."""
    before = said(data)
    for number, change in enumerate(changes(data)):
        if wanted is None or number in wanted:
            try:
                came = _came(before, said(change.data))
            except Exception as problem:
                problem.add_note(f"{sheet}: {change.place} {change.how}")
                raise
            yield Outcome(sheet, change, came)


def _came(before, after):
    if after is None:
        return REFUSED
    return next((came for came, one, two in zip((VERDICT, TOLD, DRAWN), before, after) if one != two), NOTHING)


def main():
    """Try every change to every sound sheet; returns how many change nothing without a reason."""
    everything = []
    with sheets.cloth_planned_once():
        for path in sheets.paths("sound"):
            everything += outcomes(path.stem, sheets.demo(path))
            print(f"{path.stem}: {len(everything):,} changes so far", file=sys.stderr, flush=True)
    counts = Counter(outcome.came for outcome in everything)
    print(
        f"{len(everything):,} changes: "
        + ", ".join(f"{counts[came]:,} {came}" for came in (REFUSED, VERDICT, TOLD, DRAWN, NOTHING))
    )
    for place, how, reason in sorted(
        {(o.change.place, o.change.how, o.reason) for o in everything if o.came == NOTHING}
    ):
        print(f"  {place} {how}: {reason or 'WRONG'}")
    wrong = [outcome for outcome in everything if outcome.wrong]
    print("\n".join(map(str, wrong)))
    return len(wrong)


if __name__ == "__main__":
    sys.exit(bool(main()))
