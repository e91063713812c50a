"""The strips of which strip sets are sewn that a page tells of, by the fabrics it names or by their number."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator

from . import both_ways
from .at_hand import as_printed, count_of, length, sides, two_seams
from .model import SOMETHING_ELSE, Choice, Entry, Question

LEAST_WIDTH = 40  # inches: fabric where nobody says how wide it is
_BOTH_SIDES = re.compile(r"\b(?:(?:each|either|both)\s+(?:long\s+)?sides?|(?:each|both)\s+long\s+edges?)\b")
_PARTED = re.compile(r"\s*[-,/]\s*(?:and\s+)?")
"""What stands between the strips of a set that are named one after the other."""
_BETWEEN = re.compile(r"\bbetween\s+\(?(?:two|2)\b")


def without_strips(entries: list[Entry]) -> list[Entry]:
    """The entries without strip sets that nothing is told of but that strips are sewn, where no strips are cut of which
    they could be: "Sew a short strip to each side"."""
    if any(one.table == "cut" and "strip" in one.data and one.role in ("", "strip set") for one in entries):
        return entries
    told = {"strips", "of", "sub_cut", "pieces"}
    return [one for one in entries if one.table != "strip_set" or told & one.data.keys()]


def strip_sets(entries: list[Entry]) -> Iterator[Question]:
    """The questions which strips a strip set is sewn of, that the page tells of without naming them; one question for
    several sets of which all else is told."""
    printed = {one.name: one.data.keys() for one in entries if one.table == "strip_set"}
    asked = [*_each_set(entries)]
    sets = [one.choices[0].changes[0] for one in asked if one.choices]
    whole = [
        one
        for one in sets
        if {"sets", "pieces"} <= printed[one.name]
        if "sub_cut" in printed[one.name] or both_ways.agree(one, _height(one.data["strips"], entries))
    ]
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
        named = _as_counted(_named(told, strips), told.data.get("sets", 0))
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
    letters = {word: f"(?-i:{word.upper()})" for word in words if len(word) == 1}  # "an A strip", and no article
    spelt = "|".join(letters.get(word, re.escape(word)) for word in words)
    name = re.compile(rf"(?:(\d[\d /]*)(?:in|\"|cm)?\s*)?\b({spelt})\b", re.IGNORECASE)
    listed = [one for one in told.remarks if 1 < len(name.findall(one)) == len(_parts(one))]
    said = max(listed or (told.words.text, *told.remarks), key=lambda said: len(name.findall(said)))
    named = [_strip_of(width, word.casefold(), strips) for width, word in name.findall(said)]
    return _about(said.casefold(), named) if len(named) == 2 else named


def _parts(said):
    """The names of a list; hyphens without blanks part none where others have these: "blues - white-on-white"."""
    apart = re.split(r"\s+[-+/]\s+", said)
    return apart if len(apart) > 1 else _PARTED.split(said)


def _as_counted(named, sets):
    """Strips that a page names several times in one set ("yellow, white and blue, white in the middle"), each once,
    where so many sets then take more nearly as many of each as are cut."""
    once = list({one.name: one for one in named}.values())

    def off(strips):
        needed = Counter(one.name for one in strips)
        counts = ((one.data.get("count"), sets * needed[one.name]) for one in once)
        return sum(abs(cut - needs) if isinstance(cut, int) else needs for cut, needs in counts)

    return once if sets and len(once) > 1 and off(once) < off(named) else named


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
    names = [one.name for one in strips]
    high = _height(names, entries)
    wide = next((one.data["usable_width"] for one in entries if "usable_width" in one.data), None)
    counts = [many for one in strips if (many := count_of(one, entries))]  # of strips from each print none may be known
    number = told.data.get("sets") or min(counts, default=1)
    metric = strips[0].data["strip"].endswith("cm")
    wide_as_told, height = both_ways.width_and_height(told, high)
    square = told.data.get("sub_cut") or wide_as_told or as_printed(high, metric)
    whole = number * (_from_each(told) or int((length(wide) if wide else LEAST_WIDTH) // (length(square) or high)))
    of_blocks = 0 if _from_each(told) else _of_blocks(high - two_seams(entries), entries)
    pieces = told.data.get("pieces") or of_blocks or whole
    data = {"strips": names, "sub_cut": square, "sets": number, "pieces": pieces}
    label = f"{number} strip sets of {', '.join(names)}, cut into {pieces} pieces {square} wide"
    said = ", ".join(f"{one.name} ({one.data.get('fabric', 'no fabric')})" for one in strips)
    named = told.name if told.name.startswith("set ") else f"set {told.name}"
    unlike = height and not both_ways.agree(told, high)
    but = f" They are {as_printed(high, metric)} high then, not {height} as the page says." if unlike else ""
    asks = f"strip {named}, of the strips {said}, sewn side by side?{but}"
    return Question(told.words, asks, (Choice(label, (told.but(**data),)), SOMETHING_ELSE))


def _height(names, entries):
    """How high a set of these strips is, with its seams, in inches."""
    wide = {one.name: length(one.data["strip"]) for one in entries if one.table == "cut" and "strip" in one.data}
    return sum(wide[name] for name in names) - two_seams(entries) * (len(names) - 1)


def _from_each(told):
    """How many pieces are told to be cut from each set; 0 where that is not told."""
    found = (re.fullmatch(r"(\d+) from each", one) for one in told.remarks)
    return next((int(one[1]) for one in found if one), 0)


def _of_blocks(side, entries):
    """How many pieces are cut off square that are blocks by themselves, as these are told; 0 where they are not."""
    blocks = [one.data for one in entries if one.table == "block" and "rows" not in one.data]
    (told,) = blocks if len(blocks) == 1 else ({},)
    return told.get("count", 0) if sides(told.get("finished")) == (side, side) else 0
