"""Every key of a sound sheet removed, doubled or changed beyond reason, one at a time: `python -m tests.metamorphic
[SHEET …]`. The sheets are those of data/patterns/sound, those of the guide, and those of `tests.rare`; each key that
there is stands in one of them. Of a sheet of the guide what its example says is changed; the rest is that of the walk.

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
from quiltmath.pattern.cut import SHAPES
from quiltmath.pattern.parts import KINDS
from quiltmath.review.report.numbers import numbers

from . import guide, rare, sheets

REFUSED, VERDICT, TOLD, DRAWN, NOTHING, RAISED = "refused", "verdict", "told", "drawn", "nothing", "raised"
CAME = REFUSED, VERDICT, TOLD, DRAWN, NOTHING, RAISED
REMOVED, DOUBLED, CHANGED = "removed", "doubled", "changed"
NAMED = ("fabric", "strip_set", "unit", "block")
BY_NAME = ("counts", "sizes", "sets", "bought", "pieces")  # of another size
FREE = ("title", "note", "name", "instructions")  # words of the pattern's own
CHOICES = {
    "units": ("in", "cm"),
    "cut": ("whole", "once", "twice"),
    "kind": tuple(KINDS),
    "shape": SHAPES,
    "slant": ("left", "right", "both"),
    "style": ("straight", "on point", "bias"),
    "how": ("plain", "built", "cut blocks"),
    "edge": ("half", "whole"),
    "ends": ("butted", "mitred"),
    "first": ("sides", "top"),
    "join": ("diagonal", "straight"),
    "align": ("start", "end", "centre"),
}
LEFT_OUT = "what a size leaves out is not judged in it"
MAY = [
    # the place, how it is changed, and why that may change neither the verdict nor a number nor the picture
    ("title", (DOUBLED, CHANGED), "a name is a name"),
    ("note", (REMOVED, DOUBLED, CHANGED), "words for the reader alone"),
    ("other_size[].name", (DOUBLED, CHANGED), "a name is a name"),
    ("instructions", (REMOVED, DOUBLED, CHANGED), "orders that bring about no fault are not judged"),
    *((f"other_size[].{key}", (REMOVED,), LEFT_OUT) for key in ("counts", "sets", "bought", "pieces")),
    *((f"other_size[].{key}.NAME", (REMOVED,), LEFT_OUT) for key in ("counts", "sets", "bought", "pieces")),
    ("fabric.NAME.pieces", (REMOVED,), "of prints bought in pieces one of each is taken where nothing is said"),
    (
        "fabric.NAME.scraps",
        (REMOVED, CHANGED),
        "no fabric without a length is counted; the pages to work from say scraps",
    ),
    ("fabric.NAME.directional", (REMOVED, CHANGED), "where pieces lie as they are drawn, a print may have a direction"),
    ("border[].first", (REMOVED,), "the lengths that are cut tell which pair is sewn on first"),
    ("binding.join", (REMOVED, CHANGED), "strips that are enough joined in either way stay so"),
    ("step[].align", (REMOVED, CHANGED), "edges that are equally long lie level at both ends"),
    ("unit.NAME.at_a_time", (REMOVED,), "the shapes of its parts tell it"),
    ("unit.NAME.parts", (DOUBLED,), "a quarter-square may name two fabrics, or all four triangles by turns"),
    ("setting.sashing.around", (REMOVED,), "how many sashes are cut tells whether they lie outside the blocks too"),
    ("setting.sashing.edge", (REMOVED,), '"half" is taken where nothing is said'),
    ("setting.sides.how", (REMOVED,), '"plain" is taken where nothing is said'),
    ("setting.corners.how", (REMOVED,), '"plain" is taken where nothing is said'),
    ("backing.fabric", (REMOVED, DOUBLED, CHANGED), "for the eyes alone: a backing is counted apart"),
    ("batting.fabric", (REMOVED, DOUBLED, CHANGED), "for the eyes alone: a batting is no fabric of the list"),
    ("backing.usable_width", (REMOVED, DOUBLED, CHANGED), "a backing that is large enough at any usual width stays so"),
    ("binding.fabric", (DOUBLED, CHANGED), "a fabric that is not on the list is bought apart, and not judged"),
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
            elif number and self.path[number - 1] in (*NAMED, *BY_NAME):
                words.append("NAME")
            else:
                words.append(key)
        return ".".join(words)


class Outcome(NamedTuple):
    """What came of one change to a sheet."""

    sheet: str
    change: Change
    came: str
    problem: str = ""

    @property
    def reason(self):
        """Why it may change nothing; "" where no reason is given."""
        return next(
            (why for place, hows, why in MAY if place == self.change.place and self.change.how in hows),
            "",
        )

    @property
    def wrong(self):
        """Whether it changes nothing and nobody says why it may, or makes the kit stumble."""
        return self.came == RAISED or self.came == NOTHING and not self.reason

    def __str__(self):
        came = f"{self.came} {self.problem}".strip()
        return f"{self.sheet}: {'.'.join(map(str, self.change.path))} {self.change.how}: {came}"


def every():
    """Yield every sheet as (name, plain tables, those of its tables that are changed)."""
    for name, data in (*((path.stem, sheets.demo(path)) for path in sheets.paths("sound")), *rare.sheets()):
        yield name, data, data
    yield from guide.sheets()


def changes(data, own=None):
    """Every change to a sheet, given as plain tables; of its `own` tables alone where they are given."""
    for path in [path for path in _paths(data) if own is None or _says(own, data, path)]:
        yield Change(path, REMOVED, _with(data, path, None))
        value = _at(data, path)
        for how, other in _others(path, value):
            if other != value:
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


def _says(own, data, path):
    """Whether the place that a path leads to in a sheet is said by some tables of it, too."""
    for key in path:
        place = data[key]
        if isinstance(data, list):
            key = next((number for number, one in enumerate(own) if one == place), None)
        if key is None or isinstance(own, dict) and key not in own:
            return False
        data, own = place, own[key]
    return True


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


def seen(data):
    """The review of a sheet given as plain tables; None where it is refused."""
    try:
        return review.review(pattern.read_text(sheets.typed(data)))
    except pattern.Unreadable:
        return None


def came(before, after):
    """What came of a change, by the reviews before and after it."""
    if after is None:
        return REFUSED
    if before.verdict != after.verdict:
        return VERDICT
    if any(told(before) != told(after) for told in (_messages, numbers)):
        return TOLD
    return DRAWN if _drawn(before) != _drawn(after) else NOTHING


def _messages(found):
    return found.made.finished, [finding.message for finding in found.findings]


def _drawn(found):
    patches = found.made.top.patches if found.made.top else ()
    return sorted((patch.fabric, patch.polygon.round(6).tolist()) for patch in patches)


def outcomes(sheet, data, own=None, wanted=None):
    """The outcome of every change to a sheet, or of those whose numbers are `wanted`."""
    before = seen(data)
    for number, change in enumerate(changes(data, own)):
        if wanted is None or number in wanted:
            try:
                yield Outcome(sheet, change, came(before, seen(change.data)))
            except Exception as problem:  # noqa: BLE001 - whatever it is, it is told with its change
                yield Outcome(sheet, change, RAISED, repr(problem))


def main(names):
    """Try every change to every sheet, or to those named; returns how many change nothing without a reason."""
    counts, silent, wrong = Counter(), Counter(), 0
    for name, data, own in every():
        for outcome in outcomes(name, data, own) if not names or name in names else ():
            counts[outcome.came] += 1
            silent[outcome.change.place, outcome.change.how, outcome.reason] += outcome.came == NOTHING
            if outcome.wrong:
                wrong += 1
                print(f"WRONG: {outcome}", flush=True)
    print(f"{counts.total():,} changes: " + ", ".join(f"{counts[each]:,} {each}" for each in CAME))
    for (place, how, reason), count in sorted(silent.items()):
        if count:
            print(f"  {place} {how} ({count}): {reason or 'WRONG'}")
    return wrong


if __name__ == "__main__":
    sys.exit(bool(main(sys.argv[1:])))
