"""Strips that stand on the cutting list and are joined where the quilt is sewn, cut into sashing as long as its rows:
"Join the six white strips end to end; cut five sashes 48 1/2 in long"."""

from __future__ import annotations

import re

from .chunks import Chunk, all_of, count, opened, place_of
from .figures import long_side
from .kept import Kept
from .model import Context, Entry, Reading
from .page import Page
from .strips import joined_piece

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
    found, counts = all_of(flat, "length"), all_of(flat[at:], "count")  # before it are those of the strips
    if len(found) != 1 or len(counts) != 1 or count(flat, *_OTHER) or at == len(flat):
        return None
    (length,), (number,) = found[0].value.texts, counts
    begins = max(0, flat[0].start - PARAGRAPH)
    before = re.split(r"\n\s*\n", page.plain[begins : flat[0].start])[-1]
    here = page.plain[flat[0].start : flat[-1].end]
    said = f"{before} {here}"
    if long_side(length)[0] < SHORTEST or _OTHERWISE.search(here) or not _JOINED.search(said):
        return None
    strips = _strips(said, "sash" in here, kept)
    if strips is None:
        return None
    return Reading((joined_piece(strips, length, number.value),), instead=((strips, None),))


def _strips(said: str, of_sashing: bool, kept: Kept) -> Entry | None:
    """The one line of whole strips that is sashing, or is named by its fabric and has no other place."""
    whole = [one for one in kept.entries if one.table == "cut" and "strip" in one.data and "length" not in one.data]
    sashing = [one for one in whole if one.role == "sashing"]
    named = [
        one
        for one in whole
        if not one.role and of_sashing and re.search(rf"\b{re.escape(one.data.get('fabric', '?').casefold())}\b", said)
    ]
    found = sashing or named
    return found[0] if len(found) == 1 else None
