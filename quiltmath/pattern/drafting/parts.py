"""The names of the parts that a draft cuts, and the borders that they are."""

from __future__ import annotations

import re
from dataclasses import replace
from itertools import count, product
from string import ascii_uppercase

from . import naming
from .at_hand import SEAM, length
from .figures import measure
from .model import Choice, Entry, Question
from .strips import WIDEST_OF_STRIPS

_SIDES, _TOP = re.compile(r"\bsides?\b"), re.compile(r"\btops?\b|\bbottoms?\b|\bupper\b|\blower\b")
_INSIDE_OUT = ("inner", "first", "second", "middle", "third", "fourth", "outer")


def with_names(entries: list[Entry]) -> list[Entry]:
    """The entries, each part of the cutting list with a name of its own: the printed letter, the place in the quilt, or
    the next letter that is free."""
    taken = {one.name for one in entries if one.table in ("cut", "strip_set", "unit", "block") and one.name}
    letters = (letter for letter in _letters() if letter not in taken)
    seen: set[str] = set()
    found = []
    for one in entries:
        if one.table != "cut":
            found.append(one)
            continue
        name = one.name or one.role or next(letters)
        if name in seen and one.data.get("fabric"):
            name = f"{name} {one.data['fabric']}"
        if name in seen:
            name = next(f"{name} {number}" for number in count(2) if f"{name} {number}" not in seen)
        seen.add(name)
        found.append(replace(one, name=name))
    return found


def _letters():
    for many in count(1):
        yield from map("".join, product(ascii_uppercase, repeat=many))


def with_binding(entries: list[Entry]) -> list[Entry]:
    """The entries, of whole strips in two widths of one fabric that is bought for border and binding the narrower as
    those of the binding, where nothing else is told to be.

    >>> from . import draft
    >>> page = 'Border/binding 1 1/2 yd\\nCutting\\nBorder/binding\\n6 strips 4" x WOF\\n7 strips 2 1/4" x WOF'
    >>> [(one.table, one.data["strip"]) for one in draft(page).entries if "strip" in one.data]
    [('cut', '4'), ('binding', '2 1/4')]
    """
    strips = [one for one in entries if one.table == "cut" and "strip" in one.data and one.role == "border"]
    fabrics = {one.data.get("fabric", "") for one in strips}
    if len(strips) != 2 or len(fabrics) != 1 or "binding" not in fabrics.pop().casefold():
        return entries
    narrow, wide = sorted(strips, key=lambda one: length(one.data["strip"]) or 0)
    of_binding = (length(narrow.data["strip"]) or 0) <= WIDEST_OF_STRIPS and narrow.data["strip"] != wide.data["strip"]
    if not of_binding or any(one.table == "binding" for one in entries):
        return entries
    binding = Entry("binding", narrow.data, narrow.words, remarks=(*narrow.remarks, "the narrower strips of both"))
    return [binding if one is narrow else one for one in entries]


def with_borders(entries: list[Entry]) -> tuple[list[Entry], list[Question]]:
    """The entries with a border for the strips of each, from the inside out, and what has to be asked of them."""
    entries = [_with_its_pair(one, entries) for one in entries]
    names = list(dict.fromkeys(naming.border_of(one.role) for one in entries if _is_of_border(one)))
    if not names:
        return entries, []
    rest = [one for one in entries if one.table != "border"]
    found, questions = [], []
    beside = len(names) == 2 and "border" in names and next(one for one in names if one != "border").split()[0]
    beside = beside if beside in ("inner", "first", "outer") else ""
    if beside:  # a border of no name lies outside the inner one
        names = sorted(names, key=lambda one: (one == "border") != (beside == "outer"))
    inside_out = sorted(names, key=_rank) if "border" not in names else names
    for name in inside_out:
        strips = [one for one in entries if _is_of_border(one) and naming.border_of(one.role) == name]
        told = next((one for one in entries if one.path == ("border", name)), None)
        made, asked = _border(name, strips, told)
        found.append(made)
        questions += asked
    alike = len({_rank(name) for name in names}) < len(names)
    if len(names) > 1 and not beside and (alike or "border" in names):
        found = sorted(found, key=_shorter) if all(map(_shorter, found)) else found
        orders = (found, found[::-1]) if len(found) == 2 else ()
        choices = tuple(Choice(", then ".join(one.name for one in order), tuple(order)) for order in orders)
        said = f"in which order do the borders come, from the inside out: {', '.join(names)}?"
        questions.append(Question(found[-1].words, said, choices))
    return [*rest, *found], questions


def _shorter(border):
    """How long the strips of a border are told to be, the inner ones of which are the shorter; nothing where that is
    not told."""
    return [length(border.data[key]) or 0 for key in ("sides_length", "top_length") if key in border.data]


def _with_its_pair(entry, entries):
    """A pair of strips of no place told as of the border of the pair of this fabric and width that is alone there: "2
    strips 3 x 28 in and 2 strips 3 x 34 in for the border"."""
    if entry.table != "cut" or entry.role or not _is_pair(entry):
        return entry
    alone = [
        one
        for one in entries
        if _is_of_border(one) and _is_pair(one) and (one.role.endswith("border") or one.words.line == entry.words.line)
        if (one.data.get("fabric"), one.data["size"][0]) == (entry.data.get("fabric"), entry.data["size"][0])
    ]
    name = naming.border_of(alone[0].role) if alone else ""
    others = [one for one in entries if alone and _is_of_border(one) and naming.border_of(one.role) == name]
    place = _ACROSS.get(alone[0].role.removeprefix(name), "") if alone else ""
    return replace(entry, role=name + place) if len(alone) == len(others) == 1 else entry


_ACROSS = {" side": " top", " top": " side"}
"""Where the other pair of a border lies."""


def _is_pair(entry):
    return entry.data.get("count") == 2 and isinstance(entry.data.get("size"), list)


def _is_of_border(entry):
    """Whether an entry is cut for the strips of a border, not for its corners nor for the squares it is pieced of."""
    pieced = isinstance(entry.data.get("size"), str) and entry.data.get("count") != 4
    return entry.table == "cut" and "border" in entry.role and not entry.role.endswith(" corner") and not pieced


def _rank(name):
    first = name.split()[0]
    return _INSIDE_OUT.index(first) if first in _INSIDE_OUT else len(_INSIDE_OUT) // 2


def _border(name, strips, told):
    """One border: which part is its sides and which its top and bottom, as far as the page says so."""
    words = strips[0].words
    lengths = dict(told.data) if told else {}
    sides = [one for one in strips if one.role.endswith(" side")]
    top = [one for one in strips if one.role.endswith(" top")]
    both = [one for one in strips if one not in sides and one not in top]
    if len(both) == 2 and not sides and not top:
        of_sides = [one for one in both if _SIDES.search(one.words.text.casefold())]
        of_top = [one for one in both if _TOP.search(one.words.text.casefold())]
        if len(of_sides) == len(of_top) == 1 and of_sides != of_top:
            sides, top, both = of_sides, of_top, []
    data = {}
    if len(sides) == 1:
        data["sides"] = sides[0].name
    if len(top) == 1:
        data["top"] = top[0].name
    if len(both) == 1 and not sides and not top and ("strip" in both[0].data or both[0].data.get("count") == 4):
        data = {"sides": both[0].name, "top": both[0].name}
    if len(both) == 1 and (len(sides), len(top)) in ((1, 0), (0, 1)):
        data["top" if sides else "sides"] = both[0].name
    if len(both) == 2 and not sides and not top and (nested := _nested(both)):
        data, both = {"sides": nested[0].name, "top": nested[1].name}, []
    entry = Entry("border", {**data, **lengths}, words, name)
    if len(both) == 2 and not sides and not top:
        one, other = both
        choices = tuple(
            Choice(f"sides {_size(side)}, top and bottom {_size(end)}", (entry.but(sides=side.name, top=end.name),))
            for side, end in sorted(((one, other), (other, one)), key=_not_nested)
        )
        return entry, [
            Question(other.words, f"which are the sides of the {name}, and which its top and bottom?", choices)
        ]
    return entry, []


def _nested(pair):
    """Two strips of a border, that of the sides first, where the other is longer by just their two widths as they
    finish: so they lie round a square. Empty where they are not."""
    for side, top in (pair, pair[::-1]):
        sizes = _sorted_sizes((side, top))
        if sizes and sizes[0][0] == sizes[1][0] and sizes[1][1] - sizes[0][1] == 2 * (sizes[0][0] - 2 * SEAM):
            return [side, top]
    return []


def _sorted_sizes(pair):
    """The sizes of two pieces in inches, (width, length) each; nothing where they are not printed so."""
    sizes = [
        sorted(read.sides[0].inches for text in one.data["size"] if (read := measure(text, 0)))
        for one in pair
        if isinstance(one.data.get("size"), list)
    ]
    return sizes if [len(size) for size in sizes] == [2, 2] else []


def _not_nested(pair):
    """Whether the top of a border is not longer than its sides by about their two widths, as on a square quilt."""
    sizes = _sorted_sizes(pair)
    if not sizes:
        return True
    (thin, side), (_, top) = sizes
    return not thin < top - side < 2 * thin


def _size(entry):
    size = entry.data.get("size", entry.data.get("strip", ""))
    return " x ".join(size) if isinstance(size, list) else size


_PLACES = re.compile(r"(?:(?:inner|outer|middle|first|second|third) )?border|binding|sashing")
_SET_WITH = dict.fromkeys(("side triangle", "corner triangle", "setting square", "setting triangle"), "setting")
"""What is cut of a fabric that is bought as "setting fabric"."""
_OF_BORDER = re.compile(rf"({_PLACES.pattern.split('|binding')[0]})(?: (?:print|stripe|solid|floral|plaid|strips?))?")
"""Fabrics that are called by the border that they are for."""


def in_its_place(entry: Entry, entries: list[Entry]) -> Entry:
    """A piece that is cut "from the border fabric" as one of the border, and of the fabric that is bought for that.

    >>> from . import draft
    >>> drafted = draft('Grey for the border: 1 yd\\nFrom the border fabric cut:\\n6 strips 4" x WOF')
    >>> [(one.role, one.data["fabric"]) for one in drafted.entries if one.table == "cut"]
    [('border', 'Grey')]
    """
    entry = _of_its_place_alone(_bought_for_border(entry, entries), entries)
    fabric = entry.data.get("fabric", "")
    place = fabric.casefold().removesuffix(" fabric")
    if entry.table != "cut" or entry.role not in ("", place) or "cut" in entry.data or not _PLACES.fullmatch(place):
        return entry
    bought = _bought_as(place, entries)
    data = {**entry.data, "fabric": bought[0] if len(bought) == 1 else fabric}
    if place == "binding":
        return Entry("binding", data, entry.words) if "strip" in data else entry
    return replace(entry, data=data, role=place)


def _of_its_place_alone(entry, entries):
    """A piece that names no fabric, of the one that is bought by the name of its place: "7/8 yd border fabric"."""
    if entry.table not in ("cut", "binding") or {"fabric", "part"} & entry.data.keys():
        return entry
    place = "binding" if entry.table == "binding" else _SET_WITH.get(entry.role, entry.role)
    names = (one.name for one in entries if one.table == "fabric" and "bought" in one.data)
    bought = [name for name in names if name.casefold().removesuffix(" fabric") == place]
    return entry.but(fabric=bought[0]) if len(bought) == 1 else entry


def _bought_for_border(entry, entries):
    """Strips of a fabric that is not bought by this name as those of the one border fabric that is: "border stripe" of
    "Rust stripe (border)", "plaid" of "Border (green plaid)"."""
    fabric = entry.data.get("fabric", "").casefold()
    if entry.table != "cut" or "strip" not in entry.data or entry.role or not fabric:
        return entry
    if fabric in (one.name.casefold() for one in entries if one.table == "fabric"):
        return entry
    named = _OF_BORDER.fullmatch(fabric)
    bought = (
        _bought_as(named[1], entries)
        if named
        else [name for name in _bought_as(re.escape(fabric), entries) if _PLACES.fullmatch(name.casefold())]
    )
    if len(bought) != 1:
        return entry
    found = entry.noted(f"printed as {fabric}", fabric=bought[0])
    return replace(found, role=named[1] if named else bought[0].casefold())


def _bought_as(said, entries):
    """The fabrics in whose line of the shopping list these words stand."""
    return [
        one.name for one in entries if one.table == "fabric" and re.search(rf"\b{said}\b", one.words.text.casefold())
    ]


def roles(entries: list[Entry], role: str) -> list[Entry]:
    """The lines of the cutting list that are for this place in the quilt."""
    return [one for one in entries if one.table == "cut" and one.role == role]


def fabric_names(entries: list[Entry]) -> list[str]:
    """The names of the fabrics of a draft, in the order of the page, those that differ in spelling alone once."""
    names = [one.name for one in entries if one.table == "fabric"]
    names += [one.data["fabric"] for one in entries if one.data.get("fabric")]
    found: dict[frozenset[str], str] = {}
    for name in names:
        found.setdefault(naming.key(name), name)
    return list(found.values())
