"""Strip sets, told over several sentences: strips sewn together, so many made, cut across into so many pieces."""

from __future__ import annotations

import re
from dataclasses import replace
from itertools import pairwise

from . import both_ways, naming
from .chunks import FIGURES, Chunk, all_of, bag, count, opened, place_of
from .figures import number
from .model import Context, Entry, Reading
from .signs_explained import strips_by_name
from .strips import parted

NAME = r"(?:i{2,3}|iv|vi{0,3}|[a-z]\d?|\d{1,2})(?![a-z\d])"
"""What strip sets are called: by a letter, a number, also a Roman one."""
_WORDS = r"(?:[^\d,\s]|\s(?!-\s))*"
_ITEM = rf"{_WORDS}(?:\d[\d /]*(?:in\b|\"|cm\b){_WORDS})?\s?"
"""A strip of a list, perhaps with its width."""
_NAMED = re.compile(
    rf"\W*(?:strip[\s-]*(?:sets?|units?|panels?)|sets?(?=\s+[a-z\d]{{1,3}}:))\s+\#?(?P<name>{NAME})\W*"
    rf"(?:\((?P<in>[^()\d]*)\))?\W*(?P<of>[^\d]*|(?:{_ITEM}(?:,|\s-\s))+{_ITEM})"
)
"""The head of a strip set: "Strip set A: red - white - red", "Set 4: sky, 6 1/2 in ivory, sky", "M - C (6 1/2 in) -
M"."""
_IS_CALLED = re.compile(
    r"\W*(?:this|that|it|these|those)\s+(?:is|are|makes?|will\s+be)\s+(?:called\s+)?(?:your\s+)?"
    r"strip[\s-]*sets?\s+\#?(?P<name>[a-z]|\d{1,2}|[iv]{2,4})\W*"
)
"""The name of strips that were sewn before: "This is strip set A"."""
_IN_PAIRS = re.compile(r"\bin\s+pairs,\s*(?P<count>\d+|[a-z]+)\s+pairs\W*$")
_PAIRS = re.compile(r"\W*(?:make\s+)?(?P<count>\d+|[a-z]+)\s+(?:such\s+|of\s+these\s+)?pairs\W*")
"""How many sets are made of two strips each."""
SEGMENTS = ("segments", "pieces", "rectangles", "strips", "squares")


def begun(chunks: list[Chunk], context: Context, page) -> Reading | None:
    """Strips sewn side by side begin a strip set: "Sew a tan and a black strip together", "Make 6 strip sets"."""
    pairs = _PAIRS.fullmatch(page.plain, chunks[0].start, chunks[-1].end)
    if pairs and context.strip_set is not None and "sets" not in context.strip_set.data and _number(pairs["count"]):
        return _told(context, context.strip_set.but(sets=_number(pairs["count"])), page.over(chunks))
    in_pairs = _IN_PAIRS.search(page.plain, chunks[0].start, chunks[-1].end)
    if in_pairs and (sets := _number(in_pairs["count"])):
        read = begun([one for one in chunks if one.end <= in_pairs.start()], context, page)
        if read is None or context.strip_set is None:
            return None
        return _told(context, context.strip_set.but(sets=sets), page.over(chunks))
    if [one.kind for one in chunks[-2:]] == ["make", "count"] and _lists_strips(chunks[:-2], page):
        begun(chunks[:-2], context, page)  # "Strip set 1: dark - light - dark   Make 3"
        here = context.strip_set
        return None if here is None else _told(context, here.but(sets=chunks[-1].value), page.over(chunks[-2:]))
    plain = _as_sewn(opened(chunks), page)
    if not plain:
        return None
    called = _IS_CALLED.fullmatch(page.plain, chunks[0].start, chunks[-1].end)
    if called and context.strip_set is not None and not context.strip_set.data:
        context.sets.remove(context.strip_set.name)
        context.strip_set = replace(context.strip_set, name=next_name(context, called_so(called["name"])))
        return Reading((), (), (page.over(chunks),))
    named = _NAMED.fullmatch(page.plain, chunks[0].start, chunks[-1].end)
    if named:
        words = page.over(chunks)
        name = called_so(named["name"])
        context.sets.append(name)
        listed = strips_by_name((named["of"] or "").strip(), page.plain)
        context.strip_set = Entry("strip_set", {}, words, name, (listed,) if listed else ())
        return Reading((), (), (words,))
    if plain[0].kind == "strip_set" and any(page.said(one) == "." for one in plain):  # sentence by sentence
        return None
    strips = count(plain, "strips", "strip_set")
    figures = all_of(plain, "count", "length", "size", "strip", "doubt", "yards")
    if not strips or count(plain, "end_to_end", "role") or "border" in context.role:
        return None
    words = page.over(plain)
    of_strips = not figures or _side_by_side(plain, page) or _so_many_side_by_side(figures, plain, words)
    if (count(plain, "sew") or STRIP_TO_STRIP.match(words.text.casefold())) and of_strips:
        told = context.strip_set
        name = told.name if told is not None and not told.data else next_name(context, _called(plain, page))
        context.strip_set = Entry("strip_set", {}, words, name, (naming.described(plain, page),))
        return Reading((), (), (words,))
    several = _so_many_sets(plain)
    if several:
        set_ = _here(context, plain, page) or Entry("strip_set", {}, words, next_name(context, _called(plain, page)))
        set_ = replace(set_, remarks=(*set_.remarks, naming.described(plain, page)))
        return _told(context, set_.but(sets=several), words)
    made = count(plain, "make") == 1 and count(plain, "strip_set") == 1
    if made and bag(plain, one=(("count",), ("make",), ("strip_set",)), some=("sew",)):
        set_ = _here(context, plain, page) or Entry("strip_set", {}, words, next_name(context, _called(plain, page)))
        return _told(context, replace(set_, data={**set_.data, "sets": all_of(plain, "count")[0].value}), words)
    return None


def _lists_strips(chunks, page):
    """Whether a sentence begins with the name of a strip set and its strips one after the other."""
    named = _NAMED.fullmatch(page.plain, chunks[0].start, chunks[-1].end) if chunks else None
    return named is not None and " - " in named["of"] and not count(chunks, "sew")


def _here(context, plain, page):
    """The strip set that is being told of, where a sentence calls no other by its letter or number."""
    called, told = _called(plain, page), context.strip_set
    another = told is not None and called not in ("", told.name) and not told.name.startswith("set ")
    return None if another else told


def _as_sewn(plain, page):
    """The chunks before a sentence names strips again: to which the seam is pressed, which lies in the middle."""
    again = (at for at, one in enumerate(plain) if page.said(one).startswith(("press", "order")))
    at = next(again, len(plain))
    stop = next((place for place in range(at, len(plain)) if page.said(plain[place]) == "."), len(plain))
    return plain if count(plain[stop:], *FIGURES) else plain[:at]  # what is told behind it is another sentence


def _number(text):
    """The number that a word stands for; 0 for none."""
    figure = number(text, 0)
    return int(figure.value) if figure and figure.whole and figure.end == len(text) else 0


def _side_by_side(plain, page):
    """Whether strips of printed widths are sewn to each other: "a 2 in dark strip to a 2 in light strip"."""
    several = count(plain, "strips") > 1 or "strips" in page.plain[plain[0].start : plain[-1].end]
    two = count(plain, "article") > 1 and count(plain, "and", "way") > 0
    others = count(plain, "count", "size", "strip", "doubt", "yards", "blocks", "unit", "squares", "rectangles")
    return (several or two) and not others


_BESIDE = re.compile(
    r"\bside by side\b|\blong (?:edges?|sides?)\b|\blengthwise\b|\bstrip set\b|\bbetween (?:two|2|the)\b"
    r"|\b(?:each|either|both) sides?\b"
)


def _so_many_side_by_side(figures, plain, words):
    """Whether all that is counted are the strips that are sewn side by side: "Sew four strips side by side"."""
    said = [one for one in plain if one.kind not in ("word", "label", "article")]  # "one A, one B and one C strip"
    behind = {id(one): after.kind for one, after in pairwise(said)}
    counts = all(
        one.kind == "count" and behind.get(id(one)) in ("strips", *(("punct", "and") if one.value == 1 else ()))
        for one in figures
    )  # "one light, one medium and one dark strip"
    return counts and _BESIDE.search(words.text.casefold()) is not None


STRIP_TO_STRIP = re.compile(
    r"\W*(?:an?\s+|one\s+)?[a-z][a-z ]*?\s+strips?\s+to\s+(?:an?\s+|one\s+)?[a-z][a-z ]*?\s+strips?\b"
)
"""Two strips that are sewn to each other, though no verb says so: "Light strip to red strip, lengthwise"."""
MOST_IN_SET = 9
"""Strips: no set is sewn of more, so a larger count is none of them."""


def _so_many_sets(plain):
    """How many sets a sentence makes of strips that it sews, or names: "Sew the strips in pairs for 6 strip sets"; 0
    where it does not say."""
    said = [one for one in plain if one.kind not in ("punct", "word")]
    counted = [one for one, behind in pairwise(said) if one.kind == "count" and behind.kind in ("strip_set", "set")]
    others = [one.value for one in all_of(plain, "count") if one not in counted]
    other_kinds = ("length", "size", "strip", "doubt", "yards", "cut", "into", "of_each", "blocks", "unit", "squares")
    in_pairs = count(plain, "strips", "caution") > 0  # "Sew in pairs to make 5 strip sets"
    sewn = in_pairs and count(plain, "sew") or count(plain, "strips") and plain[0].kind == "make"
    if len(counted) != 1 or not sewn or count(plain, *other_kinds) or any(one > MOST_IN_SET for one in others):
        return 0
    return counted[0].value


def _called(chunks, page):
    """The letter or number by which a sentence calls its strip set; nothing where it has none."""
    said = [page.said(one) for one in all_of(chunks, "strip_set")]
    called = re.search(r"sets?\s+\#?([a-z]|\d{1,2})$", said[0]) if len({*said}) == 1 else None
    return "" if called is None else called_so(called[1])


def called_so(name: str) -> str:
    """What a strip set is called in a sheet that a page gives this letter or number."""
    return name.upper() if name[:1].isalpha() else f"set {name}" if name else ""


def next_name(context: Context, called: str = "") -> str:
    """What the next strip set is called: by its letter, or "set 1" and so on."""
    if called:
        context.sets.append(called)
        return called
    number = 1 + sum(one.startswith("set ") for one in context.sets)
    context.sets.append(f"set {number}")
    return f"set {number}"


def made(chunks: list[Chunk], context: Context, page) -> Reading | None:
    """How many strip sets are made, where one is being told of: "Make 6"."""
    plain = opened([one for one in chunks if not _checks(one)])
    told = bag(plain, one=(("count",),), some=("make", "sew", "strip_set", "set"))
    if context.strip_set is None or not told or not count(plain, "make", "sew", "strip_set", "set"):
        return None
    if "sets" in context.strip_set.data:
        return None
    words = page.over(chunks)
    return _told(context, context.strip_set.but(sets=all_of(plain, "count")[0].value), words)


def made_and_cut(chunks: list[Chunk], context: Context, page) -> Reading | None:
    """Both in one sentence: "Make 4 strip sets, then cut them into 60 segments 2 1/2 in wide"."""
    at = place_of(chunks, "into")
    if not at or not count(chunks[:at], "make"):
        return None
    before = context.strip_set
    first = begun(chunks[:at], context, page) or made(chunks[:at], context, page)
    read = cut_across(chunks[at:], context, page) if first else None
    if read is None:
        context.strip_set = before
    return read


def _told(context, entry, words):
    told = context.strip_set
    before = told.words if told is not None and told.name == entry.name else words
    text = before.text if before == words else f"{before.text} {words.text}"
    context.strip_set = replace(entry, words=before._replace(end=words.end, text=text))
    return Reading((context.strip_set,))


def cut_as_needed(chunks: list[Chunk], context: Context, page) -> Reading | None:
    """How wide the pieces of a strip set are cut, and how many are needed, though one set gives others: "Cut pieces of
    2 in, 20 will fit in one set, you need 36"."""
    here, parts = context.strip_set, _between_points(opened(chunks), page)
    if here is None or "sub_cut" in here.data or len(parts) < 2:
        return None
    (first, *others, last), one_set = parts, ("strips", "strip_set", "set")
    wide = bag(first, one=(("length",), ("cut",), SEGMENTS)) and all_of(first, "length")[0].value
    needs = bag(last, one=(("need",), ("count",)), some=SEGMENTS) and all_of(last, "count")[0].value
    if not wide or not needs or len({*wide.texts}) != 1 or not all(count(one, *one_set) for one in others):
        return None
    read = _told(context, here.but(sub_cut=wide.texts[0], pieces=needs), page.over(chunks))
    context.strip_set = None
    return read


def _between_points(plain, page):
    """The chunks between commas and semicolons, and from where a need begins."""
    parts: list[list[Chunk]] = [[]]
    for one in plain:
        if page.said(one) in (",", ";") or one.kind == "need":
            parts.append([])
        parts[-1] += [one] if one.kind != "punct" else []
    return [part for part in parts if part]


def cut_across(chunks: list[Chunk], context: Context, page) -> Reading | None:
    """A strip set cut into pieces, of one width or of several: "Cut into eighty 1 1/2 in wide segments"."""
    plain = _with_each(opened([one for one in chunks if not _checks(one)]), page)
    here = context.strip_set
    plain = _without_total(plain, here)
    plain = [one for one, behind in zip(plain, [*plain[1:], None]) if not _is_every(one, behind, page)]
    if not count(plain, "count"):  # "Crosscut each strip set into 6 1/2 in squares"
        plain = [one for one in plain if one.kind not in ("each", "of_each")]
    if plain and _of_each_set(plain, page):
        return _cut_of_each(plain, chunks, here, page, context)
    told = [
        one
        for before, one in zip([None, *plain], plain)
        if one.kind == "strip_set"
        and not page.plain.startswith("panel", one.start)
        and not (before and before.kind == "for")  # what strips are for
    ]
    if (here is None and not told) or count(plain, "role") or "border" in context.role:
        return None
    if here is not None and _here(context, plain, page) is None:
        return None
    if here is None and count(plain, "strips") and not count(plain, "into", "cut", "segments"):  # it is sewn of these
        return None
    if any(one.kind in ("sew", "make") for one in plain) and (here is None or not count(plain, "into", "cut")):
        return None
    cutting = [one for one in plain if one.kind not in ("strip_set", "into", "from", "cut")]
    if _each_so_wide(cutting):  # "80 segments, each 6 1/2 in wide"
        plain, cutting = ([one for one in part if one.kind != "each"] for part in (plain, cutting))
    strips_so_long = count(plain, "strips") and any(
        one.value.sides[0].along[:1] == "l" for one in all_of(plain, "length")
    )
    if len(cutting) == len(plain) or strips_so_long or any(one.kind == "each" for one in plain):
        return None
    known = both_ways.widths(parted(cutting), (*SEGMENTS, "total", "make"))
    words = page.over(chunks)
    if known is None:
        return _cut_so_wide(plain, here, words, context)
    entry = here or Entry("strip_set", {}, words, next_name(context))
    if "sub_cut" in entry.data:
        return None
    context.strip_set = entry
    pieces, *wide = known[0]
    cut = entry.but(sub_cut=wide[0], pieces=pieces) if len(wide) == 1 else both_ways.cut(entry.but(pieces=pieces), wide)
    (first,) = _told(context, cut, words).entries
    others = [
        replace(first, name=f"{first.name}{letter}", data={"of": first.name, "sub_cut": width, "pieces": pieces})
        for letter, (pieces, width) in zip("bcdef", known[1:])
    ]
    context.strip_set = None
    return Reading((first, *others))


def _is_every(one, behind, page):
    """Whether "every" only says how far apart is cut: "Crosscut every 6 1/2 in"."""
    return page.said(one) == "every" and behind is not None and behind.kind == "length"


def _cut_so_wide(plain, here, words, context):
    """A strip set of which only the width of its pieces is told: "Cut the sets into 3 1/2 in segments"."""
    only = bag(
        plain, one=(("length", "size"),), some=("segments", "squares", "strip_set", "set", "into", "from", "cut")
    )
    if (
        here is None
        or "sub_cut" in here.data
        or not only
        or not count(plain, "segments", "squares", "strip_set", "set")
        or not count(plain, "cut", "into")
    ):
        return None
    wide, *others = all_of(plain, "length", "size")[0].value.texts
    if others and others != [wide]:
        return None
    read = _told(context, here.but(sub_cut=wide), words)
    context.strip_set = None
    return read


def _checks(chunk):
    """Whether a bracket says what one set gives, or which it is, and no more: "(a set gives at least eleven)"."""
    inside = chunk.value if chunk.kind == "note" else []
    kinds = {one.kind for one in inside}
    return bool(kinds & {"set", "strip_set", "of_each"}) and kinds <= {
        "of_each", "set", "strip_set", "article", "each", "make", "count", "word", "punct", "caution", "segments",
        "pieces", "label"
    }  # fmt: skip


def _without_total(plain, here):
    """The chunks without the number that all sets come to, told behind what each is cut into: "..., 72 in all"."""
    counts, sets = all_of(plain, "count"), here.data.get("sets", 0) if here is not None else 0
    at = plain.index(counts[1]) if len(counts) == 2 else 0
    behind = [one.kind for one in plain[at + 1 :] if one.kind != "punct"]
    if at and behind in (["from", "article", "set"], ["of_each", "set"], ["from", "article", "strip_set"]):
        return plain[:at] if counts[1].value * sets >= counts[0].value else plain
    if len(counts) != 2 or not count(plain, "total") or counts[1].value != counts[0].value * sets:
        return plain
    return [one for one in plain if one is not counts[1] and one.kind != "total"]


def _with_each(plain, page):
    """The chunks of a sentence that crosscuts "each" set, or "each one", as one that cuts each of them."""
    found: list[Chunk] = []
    for one in plain:
        if one.kind == "into" and (verb := _EACH.fullmatch(page.said(one))):
            found.append(one._replace(kind="cut", end=one.start + verb.end("verb")))
            one = one._replace(kind="each", start=one.start + verb.start("each"))
        if found and found[-1].kind == "each" and page.said(one) == "one":
            one = one._replace(kind="word")
        found.append(one)
    return found


_INTO = re.compile(r"each(?:\s+one)?\s+(?:in)?to\b")
_EACH = re.compile(r"(?P<verb>.*)\s(?P<each>each(?:\s+(?:in)?to)?)")


def _of_each_set(plain, page):
    """Whether what is cut is told of each strip set, and no more: "From each set cut six squares 6 1/2 in"."""
    at = place_of(plain, "of_each", "each")
    behind = [one.kind for one in plain[at + 1 :] if one.kind not in ("punct", "word")][:1]
    if _INTO.match(page.plain, plain[at].start):  # "Cut each into four squares 6 1/2 in"
        behind = []
    rest = [one for one in plain if one.kind not in ("of_each", "each", "set", "strip_set")]
    return (
        plain[at].kind in ("of_each", "each")
        and behind in (["set"], ["strip_set"], [])
        and count(rest, "cut", "into")
        and bag(rest, one=(("count",), ("length", "size")), some=(*SEGMENTS, "blocks", "into", "cut", "total"))
    )


def _cut_of_each(plain, chunks, here, page, context):
    """A strip set of which each is cut into so many pieces; how many in all, where the number of sets is known."""
    measured = all_of(plain, "length", "size")[0].value
    if here is None or "sub_cut" in here.data or len({*measured.texts}) != 1:
        return None
    each, number = all_of(plain, "count")[0].value, here.data.get("sets")
    cut = here.but(sub_cut=measured.texts[0], pieces=each * number if number else None)
    read = _told(context, cut if number else cut.noted(f"{each} from each"), page.over(chunks))
    context.strip_set = None
    return read


def _each_so_wide(chunks):
    """Whether "each" stands beside the one length of a count, and so multiplies nothing."""
    kinds = [one.kind for one in chunks if one.kind in ("count", "each", "length", "size")]
    return kinds in (["count", "each", "length"], ["count", "length", "each"])
