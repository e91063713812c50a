"""The units that pieces make, where these would be used up exactly."""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction
from itertools import chain, combinations, product
from math import sqrt
from typing import NamedTuple

from ...usual import RULER
from .at_hand import allowances, as_printed, count_of, length, sides, two_seams, unit_size
from .characters import plain
from .figures import in_digits, measure
from .in_passing import in_passing
from .model import SOMETHING_ELSE, Choice, Entry, Question, Words
from .snowballs import snowballs
from .three_fabrics import with_threes
from .way_to_piece import FAR, NEAR

LARGER = Fraction(3, 4)
"""Inches: by so much at most pieces are cut larger than they need be, to be trimmed."""
_TRIM = re.compile(r"\btrim(?:med)?\b[^.;\d]{0,40}?\bto\s+(?=\d)")
INCHES = allowances([])
NAMES = {
    "half-square": r"half[\s-]*squares?(?:[\s-]triangles?)?(?:\s+units?)?|hsts?|triangle[\s-]squares?",
    "quarter-square": r"quarter[\s-]*squares?(?:[\s-]triangles?)?(?:\s+units?)?|qsts?|hourglass(?:es)?(?:\s+units?)?",
    "flying geese": r"(?:flying\s+)?(?:geese|goose)(?:\s+units?)?",
}
"""What pages call the kinds of units that are cut larger; in centimetres their sizes are those of plain squares too."""
_FOUR_GEESE = re.compile(r"no[\s-]waste|(?:four|4)\s+at\s+(?:a\s+time|once)|(?:makes?|gives?|yields?)\s+(?:four|4)\b")
_AT_ONCE = (
    r"\b{0}[\s-]+at[\s-]+(?:a[\s-]+time|once)\b"
    r"|\b(?:yields?|gives?|makes|get)\s+(?:you\s+)?{0}\s+(?:hsts?\b|half[\s-]*square)"
)
WAYS = {1: "one at a time", 2: "two at a time", 4: "four at a time", 8: "eight at a time"}
CALLED = {"half-square": "half-square triangle", "quarter-square": "quarter-square triangle"}
"""The kinds of units that a quilter calls otherwise than a sheet does."""
SPARE = Fraction(1, 4)
"""Of the squares in a pack: nobody buys more to leave them over."""


class Cut(NamedTuple):
    """A line of the cutting list: its size in inches, and how many pieces it gives."""

    entry: Entry
    width: Fraction
    height: Fraction
    many: int
    bought: bool = False
    """Whether it is bought as large as it is sewn: no line of the cutting list has it yet."""

    @property
    def fabric(self) -> str:
        """What it is cut from."""
        return self.entry.data.get("fabric", "")

    def of(self, many: int) -> Cut:
        """So many of it."""
        return self._replace(entry=self.entry.but(count=many), many=many)


def units(entries: list[Entry], page: str = "") -> Iterator[Question]:
    """The questions which units these pieces make, of which the `page` is the text.

    >>> from . import draft
    >>> [asked.text for asked in draft('A: 24 rectangles 2 1/2" x 4 1/2"\\nB: 48 squares 2 1/2"').questions]
    ['24 pieces of 2 1/2 x 4 1/2 and 48 squares of 2 1/2: flying geese units, one at a time?']
    """
    cut = [one for one in _lines(entries) if not one.entry.role or _for_pieced_border(one.entry)]
    whole = [one for one in cut if "cut" not in one.entry.data]
    squares = [one for one in whole if one.width == one.height]
    taken, more = two_seams(entries), allowances(entries)
    rectangles = [one for one in whole if one.width != one.height]
    named = _named(page.casefold())
    told, trimmed = (
        {*NAMES, "four geese"} if more.step == INCHES.step else named,
        _trimmed(page, taken, more.step != INCHES.step),
    )

    at_once = _at_once(page) if "half-square" in named or "flying geese" not in named else NOWHERE
    precut = [*_precut(entries)]

    def of_squares(told, near=False):
        return [
            *_half_squares(squares, more, trimmed, told, in_passing(page).made if near else None),
            *(_many_at_a_time([*squares, *precut], taken, more, trimmed, at_once) if not near else ()),
            *(_geese_of_four(squares, more, near) if "four geese" in told else ()),
            *(_geese(rectangles, squares, taken, near) if "flying geese" in told else ()),
        ]

    halved = [one for one in cut if "cut" in one.entry.data]
    triangles = with_threes(halved, _of_triangles(halved))
    exact = [*of_squares(told | {"flying geese"}), *triangles]
    found = {name for name, *_ in exact}
    found |= {"four geese"} if "flying geese" in found else set()
    sewn = [*squares, *_sewn(entries, taken)]
    finished_blocks = (sides(one.data.get("finished")) for one in entries if one.table == "block")
    blocks = [size[0] for size in finished_blocks if size and size[0] == size[1]]
    hourglasses = {tuple(one.entry.name for one in parts) for name, parts, *_ in exact if name == "quarter-square"}
    of_hourglasses = "quarter-square" in named or "hourglass" in page.casefold()
    step = "half-square" if of_hourglasses and len(hourglasses) < 2 else ""  # on the way to these, maybe cut amiss
    ways: dict[tuple[str, ...], list[tuple[tuple[bool, ...], tuple[Words, str, Choice]]]] = {}
    for name, parts, at_a_time, number, *trim_to in chain(
        exact,
        of_squares(named - found, near=True),
        (one for one in _of_triangles(halved, near=True) if one[0] in named - found),
        _squares_in_squares(sewn, cut, taken, more),
        snowballs(squares, taken, more, page) if "snowball" in page.casefold() else (),
    ):
        finished = _told_size(name, parts, taken, more, in_passing(page), blocks)
        way = _unit(entries, name, parts, at_a_time, number, finished, *trim_to)
        rank = name not in named, name == step, not trim_to
        ways.setdefault(tuple(one.entry.name for one in parts), []).append((rank, way))
    for of_these in ways.values():  # first what the page names, trimmed as it says, and of that what fits exactly
        yield _asked([way for _, way in sorted(of_these, key=lambda one: one[0])])


def _for_pieced_border(entry):
    """Whether squares are told to be for a border, of which they may be pieced."""
    return entry.role.endswith("border") and isinstance(entry.data.get("size"), str)


def _named(text):
    """The kinds of units that a page names, and "four geese" where it makes so many at a time."""
    kinds = {kind for kind, words in NAMES.items() if re.search(rf"\b(?:{words})\b", text)}
    return kinds | ({"four geese"} if _FOUR_GEESE.search(text) else set())


def _asked(ways: list[tuple[Words, str, Choice]]) -> Question:
    """The question whether some pieces are units, or which, where they may be several kinds."""
    words, said, first = ways[0]
    label = first.label.split(" ", 1)[1] if len(ways) == 1 else "which units"
    return Question(words, f"{said}: {label}?", (*(choice for *_, choice in ways), SOMETHING_ELSE))


def _told_size(kind, parts, taken, more, told, blocks):
    """What units finish of squares that are not alike, or not as large as they need be, as the page tells with their
    seams in passing, or as large as the `blocks` that they are; nothing where it does not."""
    if kind == "flying geese":
        return _told_of_geese(parts, taken, more, told)
    if kind == "snowball":
        near = [side for side in blocks if 0 < abs(side + taken - parts[0].width) <= NEAR]
        return _printed(near[0], parts[0]) if len(blocks) == len(near) == 1 else ""
    larger = {"half-square": more.halves, "quarter-square": more.quarters}.get(kind)
    widths = {one.width for one in parts}
    if larger is None or len(widths) == 1:
        return ""
    return next((_printed(side - taken, parts[0]) for side in told.sides if side - taken + larger in widths), "")


def _told_of_geese(parts, taken, more, told):
    """The finished size of geese, which the page tells with their seams, where their pieces do not fit together."""
    large, small = parts
    low, wide = sorted((large.width, large.height))
    four = low == wide
    long, high = (wide - more.quarters, small.width - more.halves) if four else (wide - taken, small.width - taken)
    if long == 2 * high and (four or low == small.width):
        return ""
    for one in told.oblongs:
        height, width = (side - taken for side in sorted(one))
        if width == 2 * height and (width == long or height == high):
            return [_printed(width, large), _printed(height, large)]
    return ""


def _fits(off, many, needed, near):
    """Whether sizes that are so far `off` and so many pieces are those of a unit; where one of the figures may be
    wrong, `near` them."""
    if not near:
        return off == 0 and many == needed
    return off == 0 and abs(many - needed) <= needed * FAR or many == needed and off <= NEAR


def _all_fit(large, small, each, off, near):
    """Whether pieces that are so far `off` are those of a unit that takes so many small ones `each`; `near` them too
    where there is but one for each large piece."""
    return _fits(off, small, each * large, near) or near and off == 0 and small == large


def _lines(entries):
    for one in entries:
        size = sides(one.data.get("size")) if one.table == "cut" else None
        if size and (number := count_of(one, entries)):
            yield Cut(one, *size, number)


_USED = re.compile(
    r"\b(?:use[ds]?|need(?:ed|s)?)\s+(?:only\s+|just\s+|about\s+)?(\d+)\b(?!\s*(?:[\"/.]|in\b|cm\b|x\b))"
)
"""How many of what is bought a page says that are used: "(you'll use 60)"."""


def _precut(entries):
    """Squares that are bought as large as they are sewn, of which nothing is cut: "40 squares, 10 in"."""
    used = {one.data.get("fabric") for one in entries if one.table == "cut"}
    for one in entries:
        piece = one.data.get("piece", "") if one.table == "fabric" and one.name not in used else ""
        if isinstance(piece, str) and piece.endswith(" square") and (many := one.data.get("pieces")):
            size = piece.removesuffix(" square").removesuffix(" in")
            used_of_them = _USED.search(in_digits(one.words.text.casefold()))
            many = min(many, int(used_of_them[1])) if used_of_them else many
            if side := length(size):
                square = {"fabric": one.name, "size": size, "count": many}
                yield Cut(Entry("cut", square, one.words, f"{one.name} square"), side, side, many, bought=True)


NOWHERE: tuple[set[int], tuple[int, ...]] = (set(), ())
"""What `_at_once` tells where it is geese that are made so many at once."""


def _at_once(page):
    """In how many units at once, besides two, half-squares are told to be made; and how many of them."""
    text = in_digits(plain(page))
    said = {many for many in (4, 8) if re.search(_AT_ONCE.format(many), text)}
    return said, in_passing(page).made


def _pairs(squares):
    """Squares of two fabrics, as many of each: of those that come in packs as many as the others are."""
    for one, other in combinations(squares, 2):
        many = min(one.many, other.many)
        pair = [
            part.of(many) if part.bought and part.many - many <= part.many * SPARE else part for part in (one, other)
        ]
        if one.fabric != other.fabric:
            yield pair


def _trimmed(page, taken, metric):
    """The sizes to which the text of a page trims something, as they are printed, in centimetres where no unit is told
    on a page that has these: {finished, in inches: the text}."""
    text = plain(page) if "trim" in page.casefold() else ""
    found = (measure(text, match.end()) for match in _TRIM.finditer(text))
    sides = [read.with_units()[0] for read in found if read is not None]
    sides = [one._replace(unit=one.unit or ("cm" if metric else "")) for one in sides]
    return {one.inches - taken: one.text for one in sides}


def _half_squares(squares, more, trimmed, told, made):
    """Squares of one size in two fabrics, as many of each: half-squares or quarter-squares, two at a time, as large as
    they need be, or larger than what they are trimmed to; where the page tells how many are `made`, those cut amiss."""
    near = made is not None
    pairs = [
        (one, other)
        for one, other in _pairs(squares)
        if _fits(abs(one.width - other.width), one.many, other.many, near)
    ]
    as_many = [pair for pair in pairs if near and pair[0].many == pair[1].many and 2 * pair[0].many in made]
    pairs = as_many if len(as_many) == 1 else pairs
    for one, other in pairs:
        widths, number = {one.width, other.width}, 2 * max(one.many, other.many)
        for kind, larger in (("half-square", more.halves), ("quarter-square", more.quarters)):
            if kind not in told:
                continue
            as_needed = any(width > larger and (width - larger) % more.step == 0 for width in widths)
            alone = near and len(pairs) == 1 and min(widths) > larger  # cut as they should not be: the review says so
            if as_needed or alone:
                yield kind, (one, other), 2, number
            for finished, text in trimmed.items():
                if any(0 < width - finished - larger <= LARGER for width in widths):
                    yield kind, (one, other), 2, number, text


def _many_at_a_time(squares, taken, more, trimmed, at_once):
    """Half-squares of whole squares, four or eight at a time, or two of such as are bought, which are never as large as
    units need; trimmed to what is told, or else to the largest size that is usual."""
    said, made = at_once
    for one, other in _pairs(squares):
        if one.width != other.width or one.many != other.many:
            continue
        bought, exact = one.bought or other.bought, (one.width - more.halves) % more.step == 0
        for many, finishes in (
            (2, one.width - more.halves),
            (4, (one.width - taken) / Fraction(sqrt(2)) - taken),
            (8, one.width / 2 - more.halves),
        ):
            number = many * one.many
            told = many in said or number in made and not said and not exact
            if not told if many > 2 else not bought or said:
                continue
            texts = [text for side, text in trimmed.items() if 0 < finishes - side <= LARGER]
            texts = texts or [text for side, text in trimmed.items() if 0 < side - finishes <= LARGER]  # too large
            usual = finishes // more.step * more.step
            if not texts and usual > 0 and finishes != usual:
                texts = [_printed(usual + taken, one)]
            if texts or finishes == usual > 0:
                yield "half-square", (one, other), many, number, *texts[:1]


def _of_triangles(cut, near=False):
    """Triangles of one size in two fabrics, as many of each: half-squares of those cut once, quarter-squares of those
    cut twice; `near` them those of which one figure of one fabric is another."""
    for one, other in combinations(cut, 2):
        fits = _fits(abs(one.width - other.width), one.many, other.many, near)
        how = {one.entry.data["cut"], other.entry.data["cut"]}
        square = one.width == one.height and other.width == other.height
        if fits and square and len(how) == 1 and one.fabric != other.fabric:
            kind = {"once": "half-square", "twice": "quarter-square"}[how.pop()]
            yield kind, (one, other), None, 2 * max(one.many, other.many)


def _geese_of_four(squares, more, near):
    """Flying geese, four at a time from one large and four small squares."""
    for one, other in product(squares, squares):
        if near and one.fabric == other.fabric:
            continue
        long, high = one.width - more.quarters, other.width - more.halves
        whole = (long if not near or long % more.step == 0 else 2 * high) % more.step == 0
        if long > 0 and whole and _all_fit(one.many, other.many, 4, abs(long - 2 * high), near):
            yield "flying geese", (one, other), 4, 4 * one.many


def _geese(rectangles, squares, taken, near):
    """Flying geese, each from a rectangle and two squares."""
    for one, other in product(rectangles, squares):
        low, wide = sorted((one.width, one.height))
        if near and one.fabric and one.fabric == other.fabric:
            continue
        off = abs(other.width - low) + abs(wide - 2 * low + taken)
        if _all_fit(one.many, other.many, 2, off, near):
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


def _unit(entries, kind, parts, at_a_time, number, finished="", trim_to=""):
    """(The words, the parts in words, the choice) of these parts as units of this kind, all of them used up."""
    data = {"kind": kind, "parts": [one.entry.name for one in parts], "count": number}
    if at_a_time:
        data["at_a_time"] = at_a_time
    data |= {key: text for key, text in (("finished", finished), ("trim_to", trim_to)) if text}
    words = max((one.entry.words for one in parts), key=lambda one: one.start)
    told = _told(entries, kind, number)
    unit = told.but(**{**data, **told.data}) if told else Entry("unit", data, words, _free_name(entries, kind))
    ways = WAYS.get(at_a_time or 0, "from these pieces") + (f", trimmed to {trim_to}" if trim_to else "")
    said, called = " and ".join(dict.fromkeys(map(_pieces, parts))), CALLED.get(kind, kind)
    new = (one.entry for one in parts if one.bought)
    return words, said, Choice(f"{number} {called} units, {ways}", (*new, unit))


def _told(entries, kind, number):
    """The units of this kind that the page says are made, where these may be they: as many, or nearly so."""
    told = [one for one in entries if one.table == "unit" and one.data.get("kind") == kind and "parts" not in one.data]
    near = [one for one in told if abs(one.data.get("count", number) - number) * 3 <= number]
    return min(near, key=lambda one: abs(one.data.get("count", number) - number), default=None)


def _free_name(entries, kind):
    names = {one.name for one in entries if one.table in ("unit", "block")}
    others = (f"{kind} unit", *(f"{kind} {number}" for number in range(2, 99)))
    return next(name for name in (kind, *others) if name not in names)


def _pieces(line):
    """A line of the cutting list in words: "20 navy squares of 3 7/8", or a unit."""
    if line.entry.table == "unit":
        return f"{line.many} {line.entry.name} units"
    size = line.entry.data["size"]
    noun = "piece" if isinstance(size, list) else "square"
    said = [str(line.many), line.fabric, noun + ("s" if line.many != 1 else "")]
    return f"{' '.join(filter(None, said))} of {' x '.join(size) if isinstance(size, list) else size}"


def _printed(side, like):
    """A side as it is printed, in the units of a line."""
    texts = like.entry.data["size"]
    metric = (texts if isinstance(texts, str) else texts[0]).endswith("cm")
    return as_printed(side, metric)
