"""The units and strip sets that pieces make, where these would be used up exactly."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator
from fractions import Fraction
from itertools import chain, combinations, product
from math import sqrt
from typing import NamedTuple

from ... import lengths
from ...usual import RULER
from .at_hand import allowances, count_of, length, shares, sides, two_seams, unit_size
from .characters import plain
from .figures import measure
from .model import SOMETHING_ELSE, Choice, Entry, Question
from .piecing import FAR, NEAR

LARGER = Fraction(3, 4)
"""Inches: by so much at most pieces are cut larger than they need be, to be trimmed."""
LEAST_WIDTH = 40  # inches: fabric where nobody says how wide it is
_TRIM = re.compile(r"\btrim(?:med)?\b[^.;\d]{0,40}?\bto\s+(?=\d)")
INCHES = allowances([])
_TOLD = {
    "half-square": re.compile(r"half[\s-]*square|\bhsts?\b|triangle square"),
    "quarter-square": re.compile(r"quarter[\s-]*square|\bqsts?\b|hourglass"),
    "flying geese": re.compile(r"\bgeese\b|\bgoose\b"),
    "four geese": re.compile(
        r"no[\s-]waste|(?:four|4)\s+at\s+(?:a\s+time|once)|(?:makes?|gives?|yields?)\s+(?:four|4)\b"
    ),
}
"""How a page tells of units that are cut larger; in centimetres their sizes are those of plain squares too."""
_BOTH_SIDES = re.compile(r"\b(?:(?:each|either|both)\s+(?:long\s+)?sides?|(?:each|both)\s+long\s+edges?)\b")
_BETWEEN = re.compile(r"\bbetween\s+(?:two|2)\b")
WAYS = {1: "one at a time", 2: "two at a time", 4: "four at a time"}


class Cut(NamedTuple):
    """A line of the cutting list: its size in inches, and how many pieces it gives."""

    entry: Entry
    width: Fraction
    height: Fraction
    many: int

    @property
    def fabric(self) -> str:
        """What it is cut from."""
        return self.entry.data.get("fabric", "")


def units(entries: list[Entry], page: str = "") -> Iterator[Question]:
    """The questions which units these pieces make, of which the `page` is the text.

    >>> from . import draft
    >>> [asked.text for asked in draft('A: 24 rectangles 2 1/2" x 4 1/2"\\nB: 48 squares 2 1/2"').questions]
    ['24 pieces of 2 1/2 x 4 1/2 and 48 squares of 2 1/2: flying geese units, one at a time?']
    """
    cut = [one for one in _lines(entries) if not one.entry.role]
    whole = [one for one in cut if "cut" not in one.entry.data]
    squares = [one for one in whole if one.width == one.height]
    taken, more = two_seams(entries), allowances(entries)
    rectangles = [one for one in whole if one.width != one.height]
    named = {kind for kind, name in _TOLD.items() if name.search(page.casefold())}
    told, trimmed = {*_TOLD} if more.step == INCHES.step else named, _trimmed(page, taken)

    def of_squares(told, near=False):
        return [
            *_half_squares(squares, more, trimmed, told, near),
            *(_geese_of_four(squares, more, near) if "four geese" in told else ()),
            *(_geese(rectangles, squares, taken, near) if "flying geese" in told else ()),
        ]

    triangles = [*_of_triangles([one for one in cut if "cut" in one.entry.data])]
    exact = [*of_squares(told | {"flying geese"}), *triangles]
    found = {name for name, *_ in exact}
    found |= {"four geese"} if "flying geese" in found else set()
    sewn = [*squares, *_sewn(entries, taken)]
    for name, parts, at_a_time, number, *trim_to in chain(
        exact,
        of_squares(named - found, near=True),
        _squares_in_squares(sewn, cut, taken, more),
        _snowballs(squares, taken, more) if "snowball" in page.casefold() else (),
    ):
        yield _unit(entries, name, parts, at_a_time, number, *trim_to)


def _fits(off, many, needed, near):
    """Whether sizes that are so far `off` and so many pieces are those of a unit; where one of the figures may be
    wrong, `near` them."""
    if not near:
        return off == 0 and many == needed
    return off == 0 and abs(many - needed) <= needed * FAR or many == needed and off <= NEAR


def _lines(entries):
    for one in entries:
        size = sides(one.data.get("size")) if one.table == "cut" else None
        if size and (number := count_of(one, entries)):
            yield Cut(one, *size, number)


def _trimmed(page, taken):
    """The sizes to which the text of a page trims something, as they are printed: {finished, in inches: the text}."""
    text = plain(page) if "trim" in page.casefold() else ""
    found = (measure(text, match.end()) for match in _TRIM.finditer(text))
    return {read.sides[0].inches - taken: read.texts[0] for read in found if read is not None}


def _half_squares(squares, more, trimmed, told, near):
    """Squares of one size in two fabrics, as many of each: half-squares or quarter-squares, two at a time, as large as
    they need be, or larger than what they are trimmed to."""
    for one, other in combinations(squares, 2):
        if one.fabric == other.fabric or not _fits(abs(one.width - other.width), one.many, other.many, near):
            continue
        widths, number = {one.width, other.width}, 2 * max(one.many, other.many)
        for kind, larger in (("half-square", more.halves), ("quarter-square", more.quarters)):
            if kind not in told:
                continue
            if any(width > larger and (width - larger) % more.step == 0 for width in widths):
                yield kind, (one, other), 2, number
            for finished, text in trimmed.items():
                if kind == "half-square" and any(0 < width - finished - larger <= LARGER for width in widths):
                    yield kind, (one, other), 2, number, text


def _of_triangles(cut):
    """Triangles of one size in two fabrics, as many of each: half-squares of those cut once, quarter-squares of those
    cut twice."""
    for one, other in combinations(cut, 2):
        alike = (one.width, one.height, one.many) == (other.width, other.height, other.many)
        how = {one.entry.data["cut"], other.entry.data["cut"]}
        if alike and one.width == one.height and len(how) == 1 and one.fabric != other.fabric:
            kind = {"once": "half-square", "twice": "quarter-square"}[how.pop()]
            yield kind, (one, other), None, 2 * one.many


def _geese_of_four(squares, more, near):
    """Flying geese, four at a time from one large and four small squares."""
    for one, other in product(squares, squares):
        if near and one.fabric == other.fabric:
            continue
        long, high = one.width - more.quarters, other.width - more.halves
        whole = (long if not near or long % more.step == 0 else 2 * high) % more.step == 0
        if long > 0 and whole and _fits(abs(long - 2 * high), other.many, 4 * one.many, near):
            yield "flying geese", (one, other), 4, 4 * one.many


def _geese(rectangles, squares, taken, near):
    """Flying geese, each from a rectangle and two squares."""
    for one, other in product(rectangles, squares):
        low, wide = sorted((one.width, one.height))
        off = abs(other.width - low) + abs(wide - 2 * low + taken)
        if _fits(off, other.many, 2 * one.many, near):
            yield "flying geese", (one, other), 1, one.many


def _sewn(entries, taken):
    """Squares in squares that are sewn already: with their seams the squares of which larger ones are sewn."""
    for one in entries:
        size = unit_size(one, entries) if one.table == "unit" and one.data.get("kind") == "square in a square" else None
        if size:
            yield Cut(one, size[0] + taken, size[1] + taken, one.data.get("count", 0))


def _squares_in_squares(squares, cut, taken, more):
    """A square with a triangle on each side: four triangles for each of the squares, that fit its edge."""
    for one, other in product(squares, cut):
        if other.entry.data.get("cut") != "once" or other.width != other.height or other.many != 2 * one.many:
            continue
        needed = float(one.width - taken) / sqrt(2) + float(more.halves)
        if abs(float(other.width) - needed) < float(Fraction(RULER["in"])):
            yield "square in a square", (one, other), None, one.many


def _snowballs(squares, taken, more):
    """Squares whose corners are sewn off with small ones: four of these for each."""
    for one, other in product(squares, squares):
        small, large = other.width - taken, one.width - taken
        enough = 4 * one.many == other.many or 4 * one.many in shares(other.entry)
        if enough and 2 * small <= large and (taken % more.step or small % more.step == large % more.step == 0):
            yield "snowball", (one, other), None, one.many


def _unit(entries, kind, parts, at_a_time, number, trim_to=""):
    """The question whether these parts are units of this kind, all of them used up."""
    first, second = (one.entry for one in parts)
    data = {"kind": kind, "parts": [first.name, second.name], "count": number}
    if at_a_time:
        data["at_a_time"] = at_a_time
    if trim_to:
        data["trim_to"] = trim_to
    words = first.words if first.words.start > second.words.start else second.words
    told = _told(entries, kind, number)
    unit = told.but(**{**data, **told.data}) if told else Entry("unit", data, words, _free_name(entries, kind))
    ways = WAYS.get(at_a_time or 0, "from these pieces") + (f", trimmed to {trim_to}" if trim_to else "")
    told = " and ".join(map(_pieces, parts))
    return Question(
        words, f"{told}: {kind} units, {ways}?", (Choice(f"{number} {kind} units, {ways}", (unit,)), SOMETHING_ELSE)
    )


def _told(entries, kind, number):
    """The units of this kind that the page says are made, where these may be they: as many, or nearly so."""
    told = [one for one in entries if one.table == "unit" and one.data.get("kind") == kind and "parts" not in one.data]
    near = [one for one in told if abs(one.data.get("count", number) - number) * 3 <= number]
    return min(near, key=lambda one: abs(one.data.get("count", number) - number), default=None)


def _free_name(entries, kind):
    names = {one.name for one in entries if one.table == "unit"}
    return next(name for name in (kind, *(f"{kind} {number}" for number in range(2, 99))) if name not in names)


def _pieces(line):
    """A line of the cutting list in words: "20 navy squares of 3 7/8", or a unit."""
    if line.entry.table == "unit":
        return f"{line.many} {line.entry.name} units"
    size = line.entry.data["size"]
    noun = "piece" if isinstance(size, list) else "square"
    said = [str(line.many), line.fabric, noun + ("s" if line.many != 1 else "")]
    return f"{' '.join(filter(None, said))} of {' x '.join(size) if isinstance(size, list) else size}"


# -- strip sets ------------------------------------------------------------------------------------------------------


def strip_sets(entries: list[Entry]) -> Iterator[Question]:
    """The questions which strips a strip set is sewn of, that the page tells of without naming them; one question for
    several sets of which all else is told."""
    printed = {one.name: one.data.keys() for one in entries if one.table == "strip_set"}
    asked = [*_each_set(entries)]
    sets = [one.choices[0].changes[0] for one in asked if one.choices]
    whole = [one for one in sets if {"sets", "sub_cut", "pieces"} <= printed[one.name]]
    if len(whole) < 2:
        yield from asked
        return
    fabrics = {one.name: one.data.get("fabric", one.name) for one in entries if one.table == "cut"}
    said = "; ".join(f"{one.name}, {' - '.join(fabrics[name] for name in one.data['strips'])}" for one in whole)
    yes = Choice("yes", tuple(whole))
    yield Question(whole[0].words, f"are these the strips of each strip set: {said}?", (yes, SOMETHING_ELSE))
    yield from (one for one in asked if not one.choices or one.choices[0].changes[0] not in whole)


def _each_set(entries):
    """The question about each strip set alone."""
    strips = [one for one in entries if one.table == "cut" and "strip" in one.data and one.role in ("", "strip set")]
    for told in entries:
        if told.table != "strip_set" or {"strips", "of"} & told.data.keys():
            continue
        named = _named(told, strips)
        number = told.data.get("sets", strips[0].data.get("count") if strips else None)
        alike = [one for one in strips if one.data.get("count") == number]
        found = named if len(named) > 1 else alike
        if len(found) > 1 and all(length(one.data["strip"]) for one in found):
            yield _strip_set(told, found, entries)
        elif "sub_cut" not in told.data:
            yield Question(told.words, "into how many pieces is this strip set cut, and how wide?")


def _named(told, strips):
    """The strips of a set by the fabrics that its words name, in their order, by a word that no other has: "red - white
    - red", "sky, 6 1/2 in ivory, sky"."""
    names = [one.data["fabric"].casefold() for one in strips if one.data.get("fabric")]
    alone = {word for name in names for word in name.split() if sum(word in other.split() for other in {*names}) == 1}
    words = sorted({*names, *alone}, key=len, reverse=True)
    if not words:
        return []
    name = re.compile(rf"(?:(\d[\d /]*)(?:in|\"|cm)?\s*)?\b({'|'.join(map(re.escape, words))})\b")
    said = max((told.words.text, *told.remarks), key=lambda said: len(name.findall(said.casefold()))).casefold()
    named = [_strip_of(width, word, strips) for width, word in name.findall(said)]
    return _about(said, named) if len(named) == 2 else named


def _about(said, two):
    """Two strips, or three where one goes to both sides of the other, or one lies between two of the other."""
    first, second = two
    if _BOTH_SIDES.search(said):
        return [first, second, first]
    return [second, first, second] if _BETWEEN.search(said) else two


def _strip_of(width, word, strips):
    """The strip of a fabric of which one word is said, of the width that is said; else as wide as most are."""
    of = [one for one in strips if re.search(rf"\b{re.escape(word)}\b", one.data.get("fabric", "").casefold())]
    if width:
        return next((one for one in of if length(one.data["strip"]) == length(width.strip())), of[0])
    usual = Counter(length(one.data["strip"]) for one in strips)
    return max(of, key=lambda one: usual[length(one.data["strip"])])


def _strip_set(told, strips, entries):
    """The question whether these strips are sewn side by side, as the set that is told of, and cut off square."""
    high = sum(length(one.data["strip"]) for one in strips) - two_seams(entries) * (len(strips) - 1)
    wide = next((one.data["usable_width"] for one in entries if "usable_width" in one.data), None)
    number = told.data.get("sets") or min(one.data["count"] for one in strips)
    metric = strips[0].data["strip"].endswith("cm")
    square = told.data.get("sub_cut") or _square(high, metric)
    pieces = told.data.get("pieces") or number * int(
        (length(wide) if wide else LEAST_WIDTH) // (length(square) or high)
    )
    names = [one.name for one in strips]
    data = {"strips": names, "sub_cut": square, "sets": number, "pieces": pieces}
    label = f"{number} strip sets of {', '.join(names)}, cut into {pieces} pieces {square} wide"
    said = ", ".join(f"{one.name} ({one.data.get('fabric', 'no fabric')})" for one in strips)
    asks = (
        f"strip {'' if told.name.startswith('set ') else 'set '}{told.name}, of the strips {said}, sewn side by side?"
    )
    return Question(told.words, asks, (Choice(label, (told.but(**data),)), SOMETHING_ELSE))


def _square(side, metric):
    """A side as it is printed."""
    return lengths.text(side, "cm") + " cm" if metric else lengths.text(side)
