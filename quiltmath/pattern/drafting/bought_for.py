"""For which place in the quilt a fabric is bought: "Binding: 5/8 yd", "1/2 yd indigo for binding"."""

from __future__ import annotations

import re
from dataclasses import replace
from itertools import takewhile

from . import naming
from .chunks import FIGURES, NAMED, Chunk, all_of, chunked, count, opened, place_of
from .model import Context, Entry, Reading
from .pieces import LININGS

_SEVERAL = {"assorted", "various", "different", "mixed", "total"}
"""What parts a fabric from no other of its colour."""
_PLACES = frozenset({"role", "and", "word", "punct"}) | NAMED


_ITS_USE = re.compile(r",\s*(?:which|that)\s+(?:also\s+)?(?:makes?|does|is|becomes?)\b[^,.;\d]*(?:,|$)")


def without_its_use(chunks: list[Chunk], page) -> list[Chunk]:
    """The chunks without a clause that says what else a fabric is for: "a border print, which also makes the binding,
    1 1/2 yards"."""
    told = _ITS_USE.search(page.plain, chunks[0].start, chunks[-1].end) if chunks else None
    return [one for one in chunks if not (told and told.start() <= one.start < told.end())]


def behind_a_comma(chunks: list[Chunk], page) -> list[Chunk]:
    """The chunks of what is bought, a comma behind the name of its fabric taken for the "for" that it stands for: "2
    yards green print, setting squares and triangles".

    >>> from .page import Page
    >>> page = Page("1/2 yard rust solid, inner border")
    >>> [one.kind for one in behind_a_comma(chunked(page.plain), page)][-2:]
    ['for', 'role']
    """
    bought = place_of(chunks, *FIGURES, otherwise=len(chunks))
    for place in range(bought + 1, len(chunks) - 1):
        behind = chunks[place + 1 :]
        if page.said(chunks[place]) != "," or not naming.is_of_fabric(
            naming.described(chunks[bought + 1 : place], page)
        ):
            continue
        told = count(behind, "role", *NAMED) and {one.kind for one in behind} <= _PLACES
        if told and not naming.is_of_fabric(naming.described(behind, page)):
            return [*chunks[:place], chunks[place]._replace(kind="for"), *behind]
    return _behind_its_length(chunks, bought, page) or _before_its_length(chunks, bought, page)


def _behind_its_length(chunks, bought, page):
    """The same where the places stand behind how much is bought of a named fabric: "Rust 1 1/2 yards plain squares and
    setting triangles"; None where nothing there is a piece, or it may name a fabric."""
    named = naming.described([one for one in chunks[:bought] if one.kind == "word"], page)
    behind = chunks[bought + 1 :]
    pieces = count(behind, *NAMED) and {one.kind for one in behind} <= _PLACES
    words = {page.said(one) for one in behind if one.kind == "word"}
    if not named or not pieces or not words <= _OF_PLACES or page.said(behind[0]) == ",":
        return None
    return [*chunks[: bought + 1], behind[0]._replace(kind="for", end=behind[0].start), *behind]


_OF_PLACES = {
    "plain", "setting", "alternate", "alternating", "solid", "large", "small", "all", "block", "star", "corner"
}  # fmt: skip
"""Words for pieces and places, which name no fabric behind one that is named."""


def _before_its_length(chunks, bought, page):
    """The same where how much is bought stands behind the places: "Rust, setting triangles & border 2 yards"."""
    comma = next((place for place, one in enumerate(chunks[:bought]) if page.said(one) == ","), 0)
    places = [one for one in chunks[comma + 1 : bought] if one.kind != "punct"]
    told = comma and count(places, "role") and count(places, *NAMED) and {one.kind for one in places} <= _PLACES
    if not told or {one.kind for one in chunks[:comma]} != {"word"} or naming.described(places, page):
        return chunks
    return [*chunks[:comma], chunks[comma]._replace(kind="for"), *chunks[comma + 1 :]]


def of_either(chunks: list[Chunk], page) -> list[Chunk]:
    """The chunks of what is bought without two fabrics before its place of which either may serve: it is called by that
    place, as "Fabric A or other, binding 3/4 yd" tells of the binding.

    >>> from .page import Page
    >>> page = Page("Fabric A or other, binding 3/4 yd")
    >>> [one.kind for one in of_either(chunked(page.plain), page)]
    ['role', 'yards']
    """
    at = next((place for place, one in enumerate(chunks) if one.kind == "role"), 0)
    before = chunks[:at]
    either = [one for one in before if one.kind == "caution" and page.said(one) == "or"]
    parted = bool(before) and page.said(before[-1]) == ","
    if (
        len(either) != 1
        or not parted
        or {one.kind for one in before} - {"word", "caution", "punct", "article", "label"}
    ):
        return chunks
    return chunks[at:]


_FOR_THE_BACK = re.compile(r"for\s+(?:(?:the|your|a)\s+)?(?:quilt\s+)?back(?:\s+of\s+(?:the|your)\s+quilt)?\W*")


def only_a_lining(chunks: list[Chunk], page) -> str:
    """The backing or batting that a line says its fabric is for, and nothing else: "3 yards muslin for backing",
    "Muslin for backing: 3 yards"."""
    at = place_of(chunks, "for", "note")
    told = [*takewhile(lambda one: one.kind not in FIGURES, chunks[at:])] if at else []
    if count(chunks[at + len(told) :], "role", "and") and told:
        return ""
    if told and _FOR_THE_BACK.fullmatch(page.plain, told[0].start, told[-1].end):
        return "backing"
    behind = opened(told)
    only = {one.kind for one in behind} <= {"for", "role", "punct", "article"}
    role = naming.role(behind, Context(), page.plain)
    return role if only and role in LININGS else ""


def purpose(bought: Entry, page) -> str:
    """The one place in the quilt that a fabric is bought for; nothing where it is bought for more."""
    chunks = opened(chunked(page.plain, bought.words.start, bought.words.end))
    role = naming.role(chunks, Context(), page.plain)
    said = bought.words.text.casefold()
    more = role == "?" or count(chunks, "includes", "and") or re.search(r"includ|block|\([^()]*,", said)
    named = role.endswith("border") or not naming.key(bought.name) - naming.key(role)  # "binding print" may be any
    for_it = named or re.search(r"\bfor\b|\(", said) or _is_all_behind_a_comma(chunks, page)
    return role if for_it and not more else ""


def _is_all_behind_a_comma(chunks, page):
    """Whether a place in the quilt alone stands between a comma and how much is bought: "Navy dot, binding 5/8 yd"."""
    at = place_of(chunks, "role")
    behind = next((one.kind for one in chunks[at + 1 :] if one.kind != "punct"), "")
    return 1 < at and page.said(chunks[at - 1]) == "," and behind in ("", *FIGURES)


def under_its_place(read: Reading, bought: list[Entry], context: Context, page) -> Reading:
    """What is bought once more of a fabric, for a place of its own, as the fabric of that place, by its letter too:
    "1/2 yd indigo for binding" below "3/4 yd indigo"."""
    names = {naming.key(one.name) - _SEVERAL for one in bought if one.table == "fabric" and "bought" in one.data}

    def named(one):
        again = one.table == "fabric" and "bought" in one.data and naming.key(one.name) - _SEVERAL in names
        place = purpose(one, page) if again else ""
        if not place:
            return one
        if all(other.name != one.name for other in bought):
            context.known.remove(one.name)
        context.other_names[naming.key(f"{one.name} {place}")] = place.capitalize()
        letters = all_of(chunked(page.plain, one.words.start, one.words.end), "label")
        context.lettered |= {letter.value: place.capitalize() for letter in letters[:1]}
        return replace(one.noted(f"printed as {one.name}"), name=place.capitalize())

    return replace(read, entries=tuple(map(named, read.entries)))
