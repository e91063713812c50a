"""What a page says to buy: fabric by length, as pieces, as so many prints, backing and batting."""

from __future__ import annotations

import re
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

from . import bought_for, naming, prose
from .brackets import LEAST_WIDTH
from .chunks import FIGURES, NAMED, Chunk, all_of, count, opened, place_of
from .counted import panels as panels_of
from .figures import long_side
from .groups import is_fabric, parted_names
from .model import Choice, Context, Entry, Question, Reading
from .name_to_buy import before_for, name_to_buy
from .pieces import LININGS
from .unit_bought import in_the_unit_of_the_list
from .widths import CLOTH

FILLS = ("word", "punct", "article", "and", "role", "note", "for", "need", "label", "total", "bias", "precut", "from")
ROUNDED_UP = Fraction(9, 4)
"""Inches: by half an eighth of a yard a length may differ that is told in another unit."""
EXTRA_WIDE = (90, 104, 106, 108, 110, 116, 118, 120)
"""Inches: how wide fabric for the back of a quilt is sold."""


def figures(chunks):
    return all_of(chunks, *FIGURES)


def by_length(chunks: list[Chunk], context: Context, page) -> Reading | None:
    """Fabric that is bought by length: "1 3/4 yd navy", "Backing: 3 1/2 yards", "1/4 yd each of 5 blues"."""
    panels = panels_of(page.plain[chunks[0].start : chunks[-1].end])
    chunks = _width_first(chunks, page)
    chunks = _without_seams(_without_not_included(chunks, page), context, page)
    if chunks[0].kind == "for":  # "For the lining, 4 yd"
        chunks = chunks[1:]
    chunks = by_purpose(_without_included(chunks), context, page)
    chunks = _without_alternatives(_about_so_much(prose.without_somebody(chunks, page), page), page)
    if prose.speaks_of_somebody(chunks, page):  # "I bought 2 yards and still have 1/4 yard"
        return None
    if any(
        {one.kind, other.kind} == {"count", "yards"} for one, other in pairwise(chunks)
    ):  # "six 1/4-yard cuts of blue"
        chunks = [one._replace(kind="each") if page.said(one) == "cuts" else one for one in chunks]
    chunks = _worth(chunks, page)
    chunks = bought_for.of_either(bought_for.without_its_use(chunks, page), page)
    chunks = bought_for.behind_a_comma(chunks, page)
    flat = _yards_opened(in_the_unit_of_the_list(without_purpose(chunks), context, page), page)
    yards, counts = all_of(flat, "yards"), all_of(flat, "count")
    if len(yards) != 1:
        return _lining_of_two_widths(flat, context, page) if yards else None
    each = all_of(flat, "each", "of_each")
    if any(
        one.kind
        not in (*FILLS, "yards", "count", "each", "of_each", "blocks", "squares", "strips", "unit", "length", "pieces")
        for one in flat
    ):
        return None
    lengths = all_of(flat, "length")
    if any(not _is_wide(one, flat, page) for one in lengths) or len(lengths) > 1:
        return None
    value = yards[0].value.sides[0]
    if value.doubt or value.value <= 0:
        return None
    data = {"bought": value.text}
    if lengths:
        data["usable_width"] = lengths[0].value.texts[0]
    if count(flat, "squares", "strips", "pieces", "unit") and not all_of(flat, "for"):
        return None
    if each:
        listed = len(counts) == 1 and any(page.said(one) == ":" for one in flat if one.start > counts[0].start)
        named = as_much_of_each(data, flat, chunks, context, page) if listed or not counts else None
        if not counts or named and len(named.entries) == counts[0].value:  # "each of three: red, rust and gold"
            return named
        if len(counts) != 1 or count(flat, "pieces") and naming.roles(flat, page.plain):  # "2 pieces … for backing"
            return None
        data = {"prints": counts[0].value, **data}
    elif counts:
        return None
    read = entry_of(data, flat, chunks, context, page)
    if panels and read and read.entries[0].table == "backing":
        return replace(read, entries=tuple(one.but(panels=panels) for one in read.entries))
    return read


def _worth(chunks, page):
    """The chunks of a line that tells of a fabric by what it is worth, without what is said behind that: "dark scraps,
    1 1/2 yd worth if they're long strips (I used 9 browns)"."""
    at = next((place for place, one in enumerate(chunks) if place and page.said(one) == "worth"), 0)
    told = at and chunks[at - 1].kind == "yards" and not count(chunks[at:], *FIGURES, "for", "role")
    return chunks[:at] if told else chunks


def _width_first(chunks, page):
    """The chunks, a length behind "width" or "fabric width" taken for that width: "1.2 m, fabric width 110 cm"."""
    found: list[Chunk] = []
    for one, before in zip(chunks, [None, *chunks]):
        if one.kind == "note":
            one = one._replace(value=_width_first(one.value, page))
        elif one.kind == "length" and before and page.said(before) in ("width", "fabric width"):
            found[-1] = found[-1]._replace(kind="punct")
            sides = (one.value.sides[0]._replace(along="width"), *one.value.sides[1:])
            one = one._replace(value=one.value._replace(sides=sides))
        found.append(one)
    return found


def _without_alternatives(chunks, page):
    """The chunks without a bracket that tells in what else a fabric may be bought: "1 1/4 yd (or 25 squares at least 8
    in)"; that of a backing may be its other width."""
    if naming.role(all_of(chunks, "role"), Context(), page.plain) in LININGS or not count(chunks, "yards"):
        return chunks
    return [one for one in chunks if one.kind != "note" or [page.said(word) for word in one.value[:1]] != ["or"]]


def _about_so_much(chunks, page):
    """The chunks without the "about" before a length to buy, or the "just over"."""
    at = first = place_of(chunks, "yards")
    while first and page.said(chunks[first - 1]) in _ABOUT:
        first -= 1
    return [*chunks[:first], *chunks[at:]]


_ABOUT = {
    "about", "approximately", "approx", "approx.", "at least", "roughly", "around", "nearly", "almost", "just", "over",
    "under", "scant", "generous", "barely"
}  # fmt: skip


def by_purpose(chunks: list[Chunk], context: Context, page) -> list[Chunk]:
    """The chunks of a line of a shopping list, the pieces by which it calls a fabric that these are for taken for the
    words of a name: "Column strips: 2 yards", "Geese (scraps): 1 yard", "Geese, assorted darks  1 yard"."""
    at = place_of(chunks, "yards", "count")
    named = chunks[: place_of(chunks[:at], "note", otherwise=at)]
    only_named = {one.kind for one in chunks[:at]} <= {*NAMED, "word", "and", "note", "punct"}
    if context.section != "buying" or not only_named or figures(opened(chunks[:at])):
        return chunks
    return [one._replace(kind="word") if one.kind in NAMED else one for one in named] + chunks[len(named) :]


_NOT_INCLUDED = ["not", "included"]


def _without_not_included(chunks, page):
    """The chunks without the words that a thing to buy is not part of a kit, in a bracket too."""
    chunks = [one for one in chunks if one.kind != "note" or _NOT_INCLUDED != [page.said(word) for word in one.value]]
    at = next((place for place, one in enumerate(chunks) if page.said(one) == "not"), None)
    if at is None or not count(chunks[at + 1 : at + 2], "includes"):
        return chunks
    return [*chunks[:at], *chunks[at + 2 :]]


def _without_included(chunks):
    """The chunks without what a length to buy is told to include: "2 yards, includes border and binding"."""
    bought = place_of(chunks, "yards", otherwise=len(chunks))
    at = next((place for place, one in enumerate(chunks) if place > bought and one.kind == "includes"), len(chunks))
    behind = opened(chunks[at:])
    others = {one.kind for one in figures(behind)} - {"yards"} or count(behind, *_OTHERS)
    return chunks if others else chunks[:at]


_OTHERS = ("fat_quarter", "precut", "pack")
"""What tells that more is bought behind a length."""


def _without_seams(chunks, context, page):
    """The chunks without what stands behind the length of a backing: how it is cut in two and joined."""
    wide = (place for place, one in enumerate(chunks) if one.kind == "length" and _is_wide(one, chunks, page))
    bought = place_of(chunks, "yards", otherwise=len(chunks))
    ends = ("punct", "note", "cut", "into")
    told = next((at for at in range(max(bought, *wide, bought) + 1, len(chunks)) if chunks[at].kind in ends), 0)
    behind = opened(chunks[told:])
    joined = count(behind, "cut", "into", "sew", "seam_allowance", "pieces", "strips")
    doubts = [page.said(one) for one in behind if one.kind == "caution"]
    parts = [one.value.sides[0].inches for one in all_of(behind, "yards")]
    counts = [one.value for one in all_of(behind, "count")] or [1]
    of_it = not parts or sum(parts) * max(counts) <= chunks[bought].value.sides[0].inches if told else False
    added = parts and any(page.said(one) in ("add", "adding") for one in behind)  # "add 1/2 yd for a sleeve"
    added = added or count(behind, *_OTHERS, "each", "of_each")
    measured = not of_it or added or count(behind, "doubt") or any(one != "pieced" for one in doubts)
    role = naming.role(all_of(chunks, "role"), context, page.plain)
    return chunks[:told] if told and (joined or doubts) and not measured and role in LININGS else chunks


_OF_A_WIDTH = CLOTH | {"sheeting", "muslin"}
"""What is sold by its width: "45-inch sheeting"."""


def _is_wide(length, chunks, page):
    """Whether a length is the width of the fabric that is bought: "42 in wide", "36-inch cloth"."""
    if (
        length.value.sides[0].along.startswith("w")
        and length.value.sides[0].inches >= LEAST_WIDTH
        or length.value.sides[0].inches in EXTRA_WIDE
    ):
        return True
    behind = chunks[chunks.index(length) + 1 :][:1]
    return bool(behind) and page.said(behind[0]) in _OF_A_WIDTH


def bought_first(chunks: list[Chunk], context: Context, page) -> tuple[Reading, int] | None:
    """A fabric that a line says to buy before it says what is cut from it, and where that begins: "Fabric C - 1 yd -
    cut 5 strips 4 in", "1/2 yd floral: 12 squares 3 in"."""
    at = next(
        (place for place, one in enumerate(chunks) if figures([one]) or one.kind == "note" and figures(one.value)), 0
    )
    if not chunks or chunks[at].kind not in ("yards", "note"):
        return None
    for place in range(at + 1, len(chunks)):
        one = chunks[place]
        if one.kind in (*NAMED, "count", "size"):
            return None
        if one.kind not in ("cut", "into") and page.said(one) not in (":", "-", ",", ".", ";"):
            continue
        if any(page.said(other) in ".;" for other in chunks[at + 1 : place]):  # "Red: 1/4 yard. Light: 1 yard"
            return None
        before, rest = chunks[:place], chunks[place + (one.kind != "cut") :]
        if rest and rest[0].kind == "length" and _is_wide(rest[0], rest, page):  # "5 yd muslin, 36 in wide, and ..."
            continue
        if rest and rest[0].kind == "yards":  # "Light: 1 yd. Medium: 3/4 yd."
            return None
        heads = bool(rest) and {other.kind for other in rest} <= {"cut", "punct"} and not count(before, "from")
        if not heads and (not figures(opened(rest)) or not count(rest, "cut") and not figures(rest[:1])):
            continue
        read = by_length(before, context, page)
        if read is not None and [entry.table for entry in read.entries] == ["fabric"]:
            return read, chunks[-1].end if heads else rest[0].start
    return None


def as_much_of_each(data, flat: list[Chunk], chunks: list[Chunk], context: Context, page) -> Reading | None:
    """As much of each of several fabrics: "1/2 yd each: red, blue"."""
    names = list(parted_names([one for one in flat if one.kind != "role"], page))
    if len(names) < 2 or not all(is_fabric(one, context) for one in names):
        return None
    words = page.over(chunks)
    context.known += [name for name in names if name not in context.known]
    return Reading(tuple(Entry("fabric", dict(data), words, name) for name in names))


def without_purpose(chunks):
    """The chunks without the nouns behind "for", which say what the fabric is for."""
    at = place_of(chunks, "for", otherwise=len(chunks))
    return [*chunks[:at], *(one for one in chunks[at:] if one.kind not in NAMED)]


def _yards_opened(chunks, page):
    """The chunks, a bracket opened where the length to buy or the width stands in it; one that only says the same in
    another unit left out."""
    found = []
    for one in chunks:
        inside = figures(one.value) if one.kind == "note" else []
        inside = [] if prose.counts_in_words(inside, page.words(one.start, one.end)) else inside  # "(we love this one)"
        if not inside:
            found.append(one)
        elif found and any(chunk.kind == "yards" for chunk in found) and _same_length(one.value, found):
            continue
        else:
            found += [
                Chunk("punct", one.start, one.start + 1),
                *opened(one.value),
                Chunk("punct", one.end - 1, one.end),
            ]
    return found


def _same_length(inside, before):
    """Whether a bracket is the length before it in another unit."""
    other = all_of(inside, "yards", "length")
    first = [one for one in before if one.kind == "yards"][-1].value.sides[0]
    if len(other) != 1 or len(figures(inside)) != 1 or other[0].value.sides[0].along:
        return False
    second = other[0].value.sides[0]
    return first.unit != second.unit and abs(first.inches - second.inches) <= max(first.inches / 8, ROUNDED_UP)


def _lining_of_two_widths(flat, context, page):
    """A backing that is printed for two widths of fabric: the first counts, the second is kept as it is printed."""
    role = naming.role([one for one in flat if one.kind == "role"], context, page.plain)
    yards = all_of(flat, "yards")
    cautions = [page.said(one) for one in flat if one.kind == "caution"]
    if role not in LININGS or len(yards) != 2 or cautions != ["or"]:
        return None
    at = next(place for place, one in enumerate(flat) if one.kind == "caution")
    first = flat[:at]
    if any(one.kind not in (*FILLS, "yards", "length", "wof") for one in flat if one.kind != "caution"):
        return None
    lengths = all_of(first, "length")
    if len(all_of(first, "yards")) != 1 or len(lengths) > 1:
        return None
    data = {"bought": all_of(first, "yards")[0].value.sides[0].text}
    if lengths:
        data["usable_width"] = lengths[0].value.texts[0]
    words = page.over(flat)
    rest = page.words(flat[at].start, flat[-1].end).text
    return Reading((Entry(role, data, words, remarks=(rest,)),))


_OF_NO_COLOUR = {"assorted", "different", "various", "mixed", "coordinating"}
"""Words for several prints, which name them with others alone."""
_BACK = re.compile(r"(?:the\s+)?(?:quilt\s+)?back")


def entry_of(data, flat, chunks, context, page):
    """The entry of a fabric that is bought; backing and batting have tables of their own."""
    words = page.over(chunks)
    unbracketed = [one for one in flat if one.kind != "note"]
    role = naming.role(
        [one for one in before_for(unbracketed) if one.kind == "role"],
        context if not context.section else replace(context, role=""),
        page.plain,
    )
    named = name_to_buy(unbracketed, page, context.known)
    called = "backing" if _BACK.fullmatch(named.casefold()) else naming.named(named.casefold())
    role = role or bought_for.only_a_lining(chunks, page)
    if role in LININGS or called in LININGS:
        lining = role if role in LININGS else called
        if "prints" in data or "pieces" in data:
            return None
        return Reading((Entry(lining, data, words),))
    if not named or naming.key(named) <= _OF_NO_COLOUR:
        named = " ".join(filter(None, (named, naming.in_bracket(chunks, page))))
    if not named:
        purpose = [one for one in unbracketed if one.kind == "role"]
        named = " and ".join(page.said(one) for one in purpose) or (
            context.fabrics[0] if len(context.fabrics) == 1 and not context.bought else ""
        )
    if not named:
        return None
    if naming.named(named) in LININGS and not {"prints", "pieces"} & {*data}:
        return Reading((Entry(naming.named(named), data, words),))
    name = naming.known(named, context.known) or named
    if naming.key(name) != naming.key(named):
        name = named
    if name not in context.known:
        context.known.append(name)
    letter = next((one.value for one in chunks if one.kind == "label"), "")
    if letter:
        context.lettered[letter] = name
    if "prints" in data:
        context.of_prints[name] = data["prints"]
    if "pieces" in data:
        context.pieces[name] = data["pieces"]
        context.piece_sizes[name] = str(data.get("piece", ""))
    return Reading((Entry("fabric", data, words, name),))


_SAYS_NO_MORE = ("at least", "twin", "queen", "king", "minimum")
_OR_LARGER = re.compile(r"or\s+(?:so|(?:(?:a\s+)?(?:bit|little|slightly|touch)\s+)?(?:larger|bigger|more))\W*")


def lining(chunks: list[Chunk], context: Context, page) -> Reading | None:
    """The printed size of backing or batting: "Batting 54 x 67"."""
    flat = opened(_without_not_included(chunks, page))
    named = all_of(flat, "role")
    roles = naming.roles(named, page.plain) or [naming.role(named, context, page.plain)]
    both = count(flat, "role") > 1  # "Backing and batting: 60 x 72 in each"
    flat = [one for one in flat if not (one.kind == "count" and one.value == 1 or both and one.kind == "each")]
    sizes = all_of(flat, "size", "length")
    if not {*roles} <= {*LININGS} or len(sizes) != 1:
        return None
    some = ("size", "length", "squares", "pieces", "caution", "cut", "other_size")
    if any(one.kind not in (*FILLS, *some) for one in flat) or count(flat, "count"):
        return None
    told = [one for one in all_of(flat, "caution") if page.said(one) not in _SAYS_NO_MORE]
    if told and not _OR_LARGER.fullmatch(page.plain, told[0].start, flat[-1].end):
        return None
    texts = sizes[0].value.texts
    if len(texts) == 1 and not count(flat, "squares") or long_side(texts[0])[0] < 12:
        return None
    made = tuple(Entry(one, {"size": sizes[0].value.size}, page.over(chunks)) for one in roles)
    least, asks = Choice(f"at least {' x '.join(texts)}", made), f"is this the least size of the {' and '.join(roles)}?"
    return Reading(questions=(Question(page.over(chunks), asks, (least,)),)) if told else Reading(made)
