"""Strips of no place with which a page says that the quilt is bound, where it tells of sewing: "Join the 2 1/2 in
floral strips and bind", "Bind with the 2 1/2 in strips"."""

from __future__ import annotations

import re

from . import naming
from .chunks import MEASURES, Chunk, all_of, chunked
from .kept import Kept
from .model import Context, Entry, Reading
from .page import Page

_SENTENCES = re.compile(r"[.;!?](?=\s|$)|\n\s*\n")
_BINDS = re.compile(r"(?P<said>.*\bstrips?\b.*?)\b(?:bind|binding)\b(?!\s+(?:clips?|foot|strips?)\b)", re.DOTALL)
_BINDS_WITH = re.compile(
    r".*\b(?:bind|bound)\s+(?:(?:it|double|the\s+quilt|all\s+round|the\s+edges?)\s+)*(?:with|using)\s+"
    r"(?P<said>(?:the\s+|your\s+)?.*\d.*)",
    re.DOTALL,
)
_OTHERWISE = re.compile(r"\bborder|\bsash|\bback")


def named(said: str, strips: list[Entry]) -> list[Entry]:
    """Those of the strips that words name by their fabric, and by their width where they say one.

    >>> from .model import Words
    >>> words = Words(1, 0, 0, "")
    >>> two = [Entry("cut", {"fabric": "rust dot", "strip": wide}, words, wide) for wide in ("4", "2 1/4")]
    >>> [one.name for one in named("join the 2 1/4 in rust strips and", two)]
    ['2 1/4']
    """
    key = naming.key(said)
    of_fabric = [one for one in strips if key & naming.key(one.data.get("fabric", ""))]
    widths = {text for one in all_of(chunked(said), *MEASURES) for text in one.value.texts}
    bare = (rf"(?<![\d/]){re.escape(one.data['strip'])}(?![\d/])" for one in strips)
    wide = [one for one, words in zip(strips, bare) if one.data["strip"] in widths or re.search(words, said)]
    both = [one for one in wide if one in of_fabric]
    return both or (of_fabric if not wide else wide)


def binding(strips: list[Entry], page: Page) -> list[Entry]:
    """Those of the strips of which a sentence of the page says that they bind the quilt."""
    found: list[Entry] = []
    for said in _SENTENCES.split(page.plain):
        of = _bound(said, strips)
        found += of if len(of) == 1 and of[0] not in found else []
    return found


def _bound(said, strips):
    """The strips of which a sentence says that they bind the quilt."""
    match = _BINDS.match(said) or _BINDS_WITH.match(said)
    told = match["said"].replace("-", " ") if match else ""
    return named(told, strips) if told and not _OTHERWISE.search(told) else []


def told(chunks: list[Chunk], kept: Kept, context: Context, page: Page) -> Reading | None:
    """The strips that a sentence of sewing binds the quilt with; None where it names none, or several."""
    words = page.over(chunks)
    bare = [
        one
        for one in kept.entries
        if one.table == "cut" and not one.role and {*one.data} <= {"fabric", "strip", "count"} and "strip" in one.data
    ]
    if context.section != "sewing" or not bare or any(one.table == "binding" for one in kept.entries):
        return None
    of = _bound(words.text.casefold(), bare)
    if len(of) != 1:
        return None
    made = Entry("binding", dict(of[0].data), of[0].words, remarks=(*of[0].remarks, words.text))
    return Reading((made,), instead=((of[0], None),))
