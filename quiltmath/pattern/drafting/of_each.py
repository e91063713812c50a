"""What is cut from each of several prints, or from each of the pieces that a line counts."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import NamedTuple

from . import naming
from .chunks import FIGURES, MEASURES, Chunk, all_of, bag, count, opened, place_of
from .model import Context, Reading
from .pieces import asked, piece
from .vocabulary import COLOURS, OF_FABRIC

_OF_PAIRS = re.compile(r"\s+(?:pairs?|sets?|square|strip|unit|block)\b")
"""What is cut already, from which something is made: no prints."""
_OF_NAMES = ("count", "word", "caution", "punct", "fat_quarter", "article", "cut", "into")


class OfPrints(NamedTuple):
    """How many prints a sentence cuts the same from each of, what they are called, where either is said, and the chunks
    that say what is cut."""

    prints: int | None
    name: str
    pieces: list[Chunk]


def of_prints(chunks: list[Chunk], page) -> OfPrints | None:
    """What a sentence cuts from each of several prints; None where it says nothing of the kind.

    >>> from .chunks import chunked
    >>> from .page import Page
    >>> for line in (
    ...     '2 squares 3 in from each of 6 blues',
    ...     'from each of 3 coral prints six 5 in squares, and from what was left of each four 2 in squares',
    ...     'pick twelve prints and cut four 2 in squares from each one',
    ... ):
    ...     page = Page(line)
    ...     read = of_prints(chunked(page.plain), page)
    ...     print(read.prints, read.name)
    6 blues
    3 coral prints
    12 prints
    """
    if chunks and chunks[-1].kind == "note" and count(chunks[-1].value, "total") == 1:
        found = of_prints(chunks[:-1], page)
        each = all_of(found.pieces, "count") if found else []
        in_all = [found.prints * one.value for one in each] if found and found.prints else []
        return found if in_all and in_all == [one.value for one in all_of(chunks[-1].value, "count")] else None
    flat = opened(chunks)
    at = next((place for place, one in enumerate(flat) if _is_from_each(one, page)), _of_each_counted(flat, page))
    if at is None or count(flat, "triangles") or flat[at + 1 : at + 2] and flat[at + 1].kind == "strips":
        return None
    before, behind = flat[:at], flat[at + 1 :]
    if not count(before, *FIGURES):
        last = next((place for place, one in enumerate(behind) if place and one.kind not in ("word", "cut")), 0)
        return _named(behind[:last], _without_what_is_left(behind[last:], page), page)
    if count(behind, *FIGURES, "word", "fat_quarter"):
        return _named(behind, before, page)
    cut = place_of(before, "cut", "into") or next((at for at, one in enumerate(before) if page.said(one) == ":"), 0)
    counted = count(before[:cut], "count") == 1 and _named(before[:cut], before[cut + 1 :], page)
    return counted or OfPrints(None, "", before)


def _is_from_each(chunk, page):
    of_prints = page.plain.startswith("from", chunk.start) and not _OF_PAIRS.match(page.plain, chunk.end)
    return chunk.kind == "of_each" and of_prints


def _of_each_counted(chunks, page):
    """Where a sentence that begins with so many prints ends with "of each": "Nine blues: one 6 in square of each"."""
    ends = next((place for place in range(len(chunks) - 1, 0, -1) if chunks[place].kind != "punct"), 0)
    head = next((place for place, one in enumerate(chunks) if page.said(one) == ":"), 0)
    counted = [one.kind for one in chunks[:2]] == ["count", "word"] and not count(chunks[:head], *MEASURES)
    return ends if head > 1 and counted and chunks[ends].kind == "of_each" else None


def _named(told, pieces, page):
    """What is cut from each of the prints that these chunks count or name."""
    counted = next((place for place, one in enumerate(told) if one.kind == "count"), None)
    if count(told, "count") > 1 or not count(pieces, *MEASURES) or any(one.kind not in _OF_NAMES for one in told):
        return None
    words = [one for one in told[0 if counted is None else counted + 1 :] if one.kind == "word"]
    said = [page.text[one.start : one.end] for one in words]
    if counted is None:
        name = re.sub(r"\b(?:prints?|fabrics?|colou?rs?)$", "", naming.described(words, page), flags=re.IGNORECASE)
        return OfPrints(None, name.strip(), pieces)
    ends = [place for place, word in enumerate(said) if word == "fabrics" or naming.key(word) & (COLOURS | OF_FABRIC)]
    words = words[: ends[-1] + 1] if ends else words
    bought = [page.text[one.start : one.end] for one in told if one.kind == "fat_quarter"]
    name = naming.described(words, page) or " ".join((said or bought)[:1])
    return OfPrints(told[counted].value, name, pieces) if name else None


_LETTERS = re.compile(
    r"\W*(?:pieces|patches|parts)\s+(?P<letters>[a-z]\d?(?:(?:\s*[,&/]\s*|\s*,?\s+and\s+)[a-z]\d?)+)\s*[,:-]\s*(?=\(?[\da-z])"
)


def of_letters(chunks: list[Chunk], context: Context, page) -> Reading | None:
    """As many pieces of each of several letters: "Pieces C and D, sixteen of each, 3 1/4 in squares"."""
    told = _LETTERS.match(page.plain, chunks[0].start, chunks[-1].end)
    letters = re.findall(r"[a-z]\d?", re.sub(r"\band\b", ",", told["letters"])) if told else []
    rest = [one for one in chunks if told and one.start >= told.end()]
    if count(rest, "each", "of_each") != 1 or count(rest, "label") or {*letters} & {*context.lettered}:
        return None
    read = piece([one for one in rest if one.kind not in ("each", "of_each")], context, page)
    if read is None or read.questions:
        return read
    words = page.over(chunks)
    return Reading(tuple(replace(one, name=letter.upper(), words=words) for one in read.entries for letter in letters))


def _without_what_is_left(chunks, page):
    """The chunks without "from what was left of each": that is cut from each too."""
    at = next((place for place, one in enumerate(chunks) if one.kind == "of_each"), None)
    start = next(
        (place for place in range(at or 0, -1, -1) if chunks[place : place + 1] and chunks[place].kind == "from"), None
    )
    if at is None or start is None or any(one.kind not in ("from", "word", "left_over") for one in chunks[start:at]):
        return chunks
    return [*chunks[:start], *chunks[at + 1 :]]


def pieces_of_each(chunks: list[Chunk], context: Context, page) -> Reading | None:
    """Pieces that others are each cut into: "Choose 20 of the 10 in squares; cut each into (4) 5 in squares"."""
    flat = opened(chunks)
    at = place_of(flat, "each")
    whole, parts = flat[: max(at - 1, 0)], flat[at + 1 :]
    total = chunks[-1].value if chunks[-1].kind == "note" and count(chunks[-1].value, "count") == 1 else []
    parts = [one for one in parts if one not in total]  # "(80 squares)"
    if not whole or flat[at - 1].kind not in ("cut", "into") or not parts or page.said(parts[0]) not in _INTO:
        return None
    some = ("squares", "rectangles")
    if not bag(whole, one=(("count",), ("length", "size")), some=some) or not bag(
        parts, one=(("count",),), some=(*some, "pieces", *MEASURES)
    ):
        return None
    read = piece(parts, context, page)
    number, large = all_of(whole, "count")[0].value, all_of(whole, *MEASURES)[0].value
    small = all_of(parts, *MEASURES)
    if read is None or not read.entries or not small or "count" not in read.entries[0].data:
        return None
    each = all_of(parts, "count")[0].value
    if each * _area(small[0].value) > _area(large):
        return asked(chunks, page, f"can {each} of these be cut from one?")
    if total and all_of(total, "count")[0].value != each * number:
        return asked(chunks, page, f"{each} from each of {number} are not {all_of(total, 'count')[0].value}: how many?")
    words = page.over(chunks)
    told = f"{each} from each of {number} {' x '.join(large.texts)}"
    found = (one.noted(told, count=one.data["count"] * number) for one in read.entries)
    return Reading(tuple(replace(one, words=words) for one in found))


_INTO = ("into", "in", "to")


def _area(measured):
    sides = [side.inches for side in measured.with_units()]
    return sides[0] * sides[-1]
