"""What is cut of strip sets that were told before, by their names or of all of them together: "Cut strip set A into 36
segments 2 1/2 in wide", "Cut the sets into pieces 3 in wide. You need 36 of A and 18 of B"."""

from __future__ import annotations

import re
from itertools import pairwise

from .chunks import Chunk, all_of, count, opened
from .figures import in_digits, number
from .kept import Kept
from .model import Context, Entry, Reading
from .page import Page

_SET = r"(?:strip[\s-]*)?sets?\s+\#?(?P<name>[a-z]|\d{1,2})\b"
_NAMED = re.compile(rf"\W*(?:cut|slice|sub-?cut|cross-?cut)\s+(?:the\s+|your\s+|all\s+)?{_SET}\s+(?:up\s+)?(?:in)?to\b")
_FROM_NAMED = re.compile(rf"\W*from\s+(?:the\s+|your\s+|all\s+)?{_SET},?\s+(?:cut|slice)\b")
_HEADED = re.compile(rf"\W*{_SET}\s*[:-]\s*(?:cut|slice|sub-?cut|cross-?cut)\b")
"""One set that a sentence begins with: "Strip set A: cut 36 segments 2 1/2 in wide"."""
_ALL = re.compile(
    r"(?:^|\b(?:and|then)\s+)(?:cut|slice|sub-?cut|cross-?cut)\s+(?:up\s+)?(?:(?:all|both)\s+)?(?:of\s+)?"
    r"(?:the\s+|your\s+|these\s+)?(?:strip[\s-]*)?sets\s+(?:up\s+)?(?:in)?to\b"
)
_NEEDED = re.compile(
    r"\b(?P<count>\d+|[a-z-]+)\s+(?:(?:segments?|pieces|slices|units)\s+)?(?:(?:of|from)\s+)?(?:strip[\s-]*)?(?:sets?\s+)?"
    r"(?P<name>(?!a\s+(?!and\b)[a-z])[a-wyz]|\d)\b(?!\s*[\"/])"
)


_OF_ONE = re.compile(rf"(?P<count>\d+)\s+[^,;.:]*?\bfrom\s+(?:the\s+)?{_SET}")
"""So many pieces of one of several sets: "48 segments from strip set A and 24 from strip set B"."""
_INTO = re.compile(
    rf"\b(?:{_SET.replace('<name>', '<set>')}|(?P<name>(?!a\s+(?:total|few))[a-z]|\d{{1,2}}))"
    r"\s+(?:up\s+)?(?:in)?to\s+(?P<count>\d+)(?:\s+(?:segments|pieces|slices|units)\b|(?=\W*$))"
)
"""Each of several sets and into how many pieces it is cut: "Cut A into 100 segments and B into 50 segments"."""

_OF_EACH = re.compile(
    r"\W*(?:cut|slice|sub-?cut|cross-?cut)\b[^.;]*?,?\s(?P<count>\d+)\s+(?:(?:segments?|pieces|slices|units)\s+)?"
    r"(?:per|(?:from|of|to)\s+(?:an?|each|every))\s+(?:strip[\s-]*)?set\b\W*"
)
"""So many pieces of each of the sets that were told of before: "Cut 6 1/2 in segments, six per strip set"."""


def told(chunks: list[Chunk], kept: Kept, context: Context, page: Page) -> Reading | None:
    """What a sentence says of the strip sets of the page, by their names or of all; None where it names none."""
    sets = [one for one in kept.entries if one.table == "strip_set" and "of" not in one.data]
    plain, text = opened(chunks), page.plain[chunks[0].start : chunks[-1].end]
    if not sets or count(plain, "size", "strip", "doubt", "yards", "role"):
        return None
    by_name = {one.name.removeprefix("set ").casefold(): one for one in sets}
    lengths, named = all_of(plain, "length"), _NAMED.match(text) or _FROM_NAMED.match(text) or _HEADED.match(text)
    if named and named["name"] in by_name and not count(plain, "of_each"):
        counts = [one.value for one in all_of(plain, "count") if one.start >= chunks[0].start + named.end()]
        cut = {"sub_cut": lengths[0].value.texts[0]} if len(lengths) == 1 else {}
        return _instead([(by_name[named["name"]], {**cut, "pieces": counts[0]})]) if cut and len(counts) == 1 else None
    of_each = {match["name"]: int(match["count"]) for match in _OF_ONE.finditer(in_digits(text))}
    of_each = of_each or {
        match["name"] or match["set"]: int(match["count"]) for match in _INTO.finditer(in_digits(text))
    }
    if len(of_each) > 1 and of_each.keys() <= by_name.keys():
        widths, counts = {(*one.value.texts,) for one in lengths}, _counts(plain)
        if len(widths) == 1 and counts == [*of_each.values()]:
            cut = {"sub_cut": lengths[0].value.texts[0]}
            return _instead([(by_name[name], {**cut, "pieces": many}) for name, many in of_each.items()])
    per_set, uncut = _OF_EACH.fullmatch(in_digits(text)), [one for one in sets if "sub_cut" not in one.data]
    if per_set and len(uncut) == len(lengths) == count(plain, "count") == 1 and uncut[0].data.get("sets"):
        pieces = int(per_set["count"]) * uncut[0].data["sets"]
        return _instead([(uncut[0], {"sub_cut": lengths[0].value.texts[0], "pieces": pieces})])
    all_cut = _ALL.search(text)
    if all_cut and len(lengths) == 1 and len(sets) > 1:
        behind = [one for one in plain if one.start >= chunks[0].start + all_cut.end()]
        if not count(behind, "count", "of_each", "each") and not any("sub_cut" in one.data for one in sets):
            return _instead([(one, {"sub_cut": lengths[0].value.texts[0]}) for one in sets])
    return _needed(plain, text, by_name) if count(plain, "need") and not lengths else None


def _counts(plain):
    """The numbers of a sentence, but for those that are the names of sets: "Cut set one into 96 slices"."""
    named = {id(one) for before, one in pairwise(plain) if before.kind in ("set", "strip_set")}
    return [one.value for one in all_of(plain, "count") if id(one) not in named]


def _needed(plain, text, by_name):
    """How many pieces of each set are needed, where a sentence counts those of several sets and nothing else."""
    found: list[tuple[Entry, dict[str, int]]] = []
    for match in _NEEDED.finditer(text):
        figure = number(match["count"], 0)
        if figure and figure.whole and match["name"] in by_name:
            found.append((by_name[match["name"]], {"pieces": int(figure.value)}))
    open_ = all("sub_cut" in one.data and "pieces" not in one.data for one, _ in found)
    return _instead(found) if found and open_ and len(found) == count(plain, "count") else None


def _instead(told):
    """The reading by which each of these entries says more."""
    return Reading(tuple(one.but(**data) for one, data in told), instead=tuple((one, None) for one, _ in told))
