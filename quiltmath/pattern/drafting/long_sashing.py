"""Strips that stand on the cutting list and are joined where the quilt is sewn, cut into sashing as long as its rows:
"Join the six white strips end to end; cut five sashes 48 1/2 in long"."""

from __future__ import annotations

import re
from dataclasses import replace

from . import naming
from .chunks import Chunk, all_of, chunked, count, opened, place_of
from .figures import long_side
from .kept import Kept
from .model import Context, Entry, Question, Reading
from .page import Page
from .strips import joined_piece
from .strips_give import LEAST_WIDTHS, in_all

_OTHER = ("strip", "doubt", "yards", "squares", "rectangles", "triangles", "unit", "blocks", "strip_set", "wof")
_OTHERWISE = re.compile(r"\bborder|\bside|\btop\b|\bbottom\b|\bback|\bbatting\b|\bwadding\b|\bbind")
_JOINED = re.compile(r"\bend to end\b|\bjoin|\binto one\b")
SHORTEST = 20
"""Inches: no row that sashing runs along is shorter."""
PARAGRAPH = 300
"""Signs: strips are joined no further before they are cut."""


def lengths(chunks: list[Chunk], kept: Kept, context: Context, page: Page) -> Reading | None:
    """So many pieces of one length, cut from the strips of sashing that are joined; None where a sentence tells of
    none, or it may be of other strips."""
    flat = opened(chunks)
    at = place_of(flat, "cut", "into", "from")
    found, counts = all_of(flat, "length", "size"), all_of(flat[at:], "count")  # before it are those of the strips
    if len(found) != 1 or len(counts) != 1 or count(flat, *_OTHER) or at == len(flat):
        return None
    length, (number,) = max(found[0].value.texts, key=lambda text: long_side(text)[0]), counts
    begins = max(0, flat[0].start - PARAGRAPH)
    before = re.split(r"\n\s*\n", page.plain[begins : flat[0].start])[-1]
    here = page.plain[flat[0].start : flat[-1].end]
    said = f"{before} {here}"
    if long_side(length)[0] < SHORTEST or _OTHERWISE.search(here) or not _JOINED.search(said):
        return None
    strips = _strips(said, "sash" in here, kept)
    if strips is None or found[0].kind == "size" and strips.data["strip"] not in found[0].value.texts:
        return None
    cut, there, words = joined_piece(strips, length, number.value), strips.data["count"], page.over(chunks)
    told = _joined_here(chunked(page.plain, flat[0].start - len(before), flat[-1].end))
    if isinstance(there, int) and told not in (None, there):
        doubt = f"{told} strips are joined here, and {there} are left of those cut: how many are there?"
        return Reading(questions=(Question(words, doubt),))
    if isinstance(there, int) and in_all([cut]) > there * LEAST_WIDTHS[-1]:
        doubt = f"{there} strips are too few for these lengths: how many are they, and how long?"
        return Reading(questions=(Question(words, doubt),))
    return Reading((replace(cut, words=words),), remarks=(strips.words,), instead=((strips, None),))


def _joined_here(chunks: list[Chunk]) -> int | None:
    """How many strips a sentence counts, and says no size of: "the 5 remaining gray strips"; None where it does not."""
    found = None
    for at, one in enumerate(chunks):
        behind = next((other.kind for other in chunks[at + 1 :] if other.kind not in ("word", "precut")), "")
        found = one.value if one.kind == "count" and behind == "strips" and found is None else found
    return found


def _strips(said: str, of_sashing: bool, kept: Kept) -> Entry | None:
    """The one line of whole strips that is sashing, or is named by its fabric and has no other place."""
    whole = [one for one in kept.entries if one.table == "cut" and "strip" in one.data and "length" not in one.data]
    sashing = [one for one in whole if one.role == "sashing"]
    named = [one for one in whole if not one.role and of_sashing and _is_named(one.data.get("fabric", ""), said)]
    found = sashing or named
    return found[0] if len(found) == 1 else None


def _is_named(fabric: str, said: str) -> bool:
    """Whether words name a fabric by one of those that tell it from others: "gray strips", of the one called "sashing
    gray"."""
    return any(re.search(rf"\b{re.escape(word)}s?\b", said) for word in naming.key(fabric) - {"sashing"})
