"""What only the drawings of a page show, asked with proposals that follow from its numbers."""

from __future__ import annotations

import re
from collections.abc import Iterable
from fractions import Fraction
from itertools import chain, combinations, islice
from math import sqrt

from ...usual import RULER
from .figures import measure
from .layouts import SOMETHING_ELSE, layouts
from .model import LENGTHS, Choice, Entry, Question
from .parts import roles
from .triangles import GIVES

# A half-square is cut 7/8 larger than it finishes, a quarter-square 1 1/4: what `proofs` derives, as a page has it.
OF_HALVES, OF_QUARTERS = Fraction(7, 8), Fraction(5, 4)
_IN_INCHES = re.compile(r"[\"\u201c\u201d\u2033']|in\b|ins\b|inch", re.IGNORECASE)
STEP = Fraction(1, 2)
MOST_ACROSS, MOST_SETTINGS = 60, 6
MOST_LINES, MOST_PROPOSED = 200, 20  # of a longer list, and of more units, nobody could choose


def proposals(entries: list[Entry]) -> list[Question]:
    """The questions whose answers the numbers of a draft suggest."""
    pieced: Iterable[Question] = ()
    if sum(one.table == "cut" for one in entries) <= MOST_LINES:
        pieced = chain(_half_squares(entries), _geese(entries), _squares_in_squares(entries), layouts(entries))
    return [*_lengths(entries), *_units(entries), *islice(pieced, MOST_PROPOSED), *_on_point(entries)]


def _lengths(entries):
    """How long strips along the selvage are of which that is not printed: as long as the fabric that is bought."""
    for one in entries:
        if one.table != "cut" or "lengthwise" not in one.data or {"size", "length"} & {*one.data}:
            continue
        bought = next((other for other in entries if other.path == ("fabric", one.data.get("fabric", ""))), None)
        long = bought.data.get("bought") if bought else None
        choices = (Choice(f"{long}, all that is bought", (one.but(length=long),)),) if long else ()
        yield Question(one.words, "how long are these strips, along the selvage?", choices)


def _units(entries):
    """Whether figures without a unit are centimetres, on a page that has some: they are taken for inches."""
    if not any(text.endswith("cm") for one in entries if one.table == "cut" for text in _texts(one)):
        return
    for one in entries:
        bare = {key for key in LENGTHS & {*one.data} if all(text[-1].isdigit() for text in _flat(one.data[key]))}
        if not bare or _IN_INCHES.search(one.words.text):
            continue
        changed = {key: _with_unit(one.data[key]) for key in bare}
        metric = Choice("centimetres", (one.but(**changed),))
        yield Question(one.words, "are these centimetres, or inches?", (metric, Choice("inches")))


def _texts(entry):
    """The lengths of a line of the cutting list."""
    return _flat(entry.data.get("size", entry.data.get("strip", "0")))


def _flat(size):
    return size if isinstance(size, list) else [size]


def _with_unit(size):
    return [f"{text} cm" for text in size] if isinstance(size, list) else f"{size} cm"


def _whole_squares(entries):
    """The whole squares without a place of their own, with their size in inches."""
    for one in entries:
        size = one.data.get("size")
        if (
            one.table == "cut"
            and isinstance(size, str)
            and "cut" not in one.data
            and not one.role
            and isinstance(one.data.get("count"), int)
        ):
            read = measure(size, 0)
            if read is not None:
                yield one, read.sides[0].inches


def _free_name(entries, kind):
    names = {one.name for one in entries if one.table == "unit"}
    return next(name for name in (kind, *(f"{kind} {number}" for number in range(2, 99))) if name not in names)


def _half_squares(entries):
    """Squares of one size in two fabrics, as many of each: half-squares or quarter-squares, two at a time."""
    for (one, size), (other, also) in combinations(_whole_squares(entries), 2):
        fabrics = one.data.get("fabric"), other.data.get("fabric")
        if size != also or one.data["count"] != other.data["count"] or fabrics[0] == fabrics[1]:
            continue
        for kind, more in (("half-square", OF_HALVES), ("quarter-square", OF_QUARTERS)):
            if size > more and (size - more) % STEP == 0:
                yield _unit(entries, kind, (one, other), 2, 2 * one.data["count"])


def _unit(entries, kind, parts, at_a_time, number):
    """The question whether these parts are units of this kind, all of them used up."""
    first, second = parts
    data = {"kind": kind, "parts": [first.name, second.name], "count": number}
    if at_a_time:
        data["at_a_time"] = at_a_time
    words = first.words if first.words.start > second.words.start else second.words
    unit = Entry("unit", data, words, _free_name(entries, kind))
    ways = {1: "one at a time", 2: "two at a time", 4: "four at a time"}.get(at_a_time or 0, "from these pieces")
    told = " and ".join(map(_pieces, parts))
    return Question(
        words, f"{told}: {kind} units, {ways}?", (Choice(f"{number} {kind} units, {ways}", (unit,)), SOMETHING_ELSE)
    )


def _pieces(entry):
    """A line of the cutting list in words: "20 navy squares of 3 7/8"."""
    noun = "piece" if isinstance(entry.data["size"], list) else "square"
    said = [str(entry.data["count"]), entry.data.get("fabric", ""), noun + ("s" if entry.data["count"] != 1 else "")]
    return f"{' '.join(filter(None, said))} of {_size(entry)}"


def _size(entry):
    size = entry.data["size"]
    return " x ".join(size) if isinstance(size, list) else size


def _geese(entries):
    """Flying geese: four at a time from one large and four small squares, or one from a rectangle and two squares."""
    squares = list(_whole_squares(entries))
    for one, large in squares:
        for other, small in squares:
            if (
                other.data["count"] == 4 * one.data["count"]
                and large > OF_QUARTERS
                and large - OF_QUARTERS == 2 * (small - OF_HALVES)
                and (large - OF_QUARTERS) % STEP == 0
            ):
                yield _unit(entries, "flying geese", (one, other), 4, 4 * one.data["count"])
    for one in entries:
        size = one.data.get("size")
        if one.table != "cut" or not isinstance(size, list) or one.role or not isinstance(one.data.get("count"), int):
            continue
        sides = [read.sides[0].inches for text in size if (read := measure(text, 0))]
        low, wide = sorted(sides)
        for other, small in squares:
            if other.data["count"] == 2 * one.data["count"] and small == low and wide == 2 * low - STEP:
                yield _unit(entries, "flying geese", (one, other), 1, one.data["count"])


def _squares_in_squares(entries):
    """A square with a triangle on each side: four triangles for each of the squares, that fit its edge."""
    step = Fraction(RULER["in"])
    for one, size in _whole_squares(entries):
        for other in entries:
            cut = other.data.get("size")
            if other.table != "cut" or other.data.get("cut") != "once" or other.role or not isinstance(cut, str):
                continue
            read = measure(cut, 0)
            if read is None or 2 * other.data.get("count", 0) != 4 * one.data["count"]:
                continue
            needed = float(size - STEP) / sqrt(2) + float(OF_HALVES)
            if 0 <= float(read.sides[0].inches) - needed < float(step):
                yield _unit(entries, "square in a square", (one, other), None, one.data["count"])


def _triangles(lines):
    """How many triangles these lines give; None where that is not known."""
    counts = [
        one.data.get("triangles") or one.data.get("count", 0) * GIVES.get(one.data.get("cut", ""), 0) for one in lines
    ]
    return sum(counts) if lines and all(counts) else None


def _on_point(entries):
    """A setting on point, as many across and down as the side triangles and the squares between the blocks need."""
    sides, corners = roles(entries, "side triangle"), roles(entries, "corner triangle")
    if not sides or not corners or any("sides" in one.data for one in entries if one.table == "setting"):
        return
    between, blocks = roles(entries, "setting square"), [one for one in entries if one.table == "block"]
    number = _triangles(sides)
    if number is None or _triangles(corners) != 4:
        return
    squares = sum(one.data.get("count", 0) for one in between) or None
    made = blocks[0].data.get("count") if len(blocks) == 1 else None
    known = next((one for one in entries if one.table == "setting"), None)
    fits = [
        (across, down)
        for across in range(1, MOST_ACROSS)
        for down in range(1, MOST_ACROSS)
        if 0 <= number - 2 * (across + down - 2) < GIVES["twice"]  # left over of the last square
        and (squares is None or squares == (across - 1) * (down - 1))
        and (made is None or squares is not None or made == across * down + (across - 1) * (down - 1))
        and (known is None or (known.data["across"], known.data["down"]) == (across, down))
    ]
    if squares is not None:  # with as many blocks as are made, where some setting has them
        fits = [fit for fit in fits if fit[0] * fit[1] == made] or fits
    fits.sort(key=lambda fit: abs(fit[0] / fit[1] - _proportion(entries)))
    words = corners[-1].words
    told = f"{f'{squares} setting squares, ' if squares else ''}{number} side and 4 corner triangles"
    if squares is None and made is None and known is None:  # the triangles alone: those that leave none over
        fits = [fit for fit in fits if 2 * (sum(fit) - 2) == number]
    if not fits:
        yield Question(words, f"{told}: on point? How many blocks stand across and down?")
        return
    choices = tuple(
        Choice(
            f"on point, {across} across and {down} down",
            (_setting(across, down, between, blocks, sides, corners, words),),
        )
        for across, down in fits[:MOST_SETTINGS]
    )
    yield Question(words, f"{told}: {' or '.join(choice.label for choice in choices[:2])}?", (*choices, SOMETHING_ELSE))


def _proportion(entries):
    """The width of the finished quilt to its height, as it is printed; that of a square where it is not."""
    size = next((one.data["finished"] for one in entries if one.table == "sheet" and "finished" in one.data), "1")
    sides = [read.sides[0].inches for text in size if (read := measure(text, 0))] if isinstance(size, list) else []
    return float(sides[0] / sides[1]) if len(sides) == 2 else 1.0


def _setting(across, down, between, blocks, sides, corners, words):
    data = {"style": "on point", "across": across, "down": down}
    if len(blocks) == 1:
        data["block"] = blocks[0].name
    if len(between) == 1:
        data["alternate"] = between[0].name
    for key, lines in (("sides", sides), ("corners", corners)):
        if len(lines) == 1:
            data[key] = {"how": "plain", "part": lines[0].name}
    return Entry("setting", data, words)
