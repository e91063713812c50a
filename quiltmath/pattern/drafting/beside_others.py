"""Pieces that are cut from what others left beside them of their fabric: "From what remains beside them cut five strips
2 1/2 in wide down the length for the binding"."""

from __future__ import annotations

import re
from dataclasses import replace

from . import pieces, strips
from .chunks import Chunk
from .model import Context, Reading, of_words
from .page import Page

_BESIDE = re.compile(
    r"\W*(?:and\s+|then\s+)?(?:from|out\s+of)\s+(?:what\s+(?:remains|is\s+left(?:\s+over)?)|the\s+(?:rest|remainder))\s+"
    r"beside\s+(?:them|these|those|it)\b,?\s*(?=cut\b)"
)


def told(chunks: list[Chunk], context: Context, page: Page) -> Reading | None:
    """Pieces of the fabric of those before them; None where a sentence says no such thing, or these are of several."""
    match = _BESIDE.match(page.plain, chunks[0].start, chunks[-1].end) if chunks else None
    fabrics = {one.data.get("fabric", "") for one in context.last}
    if match is None or len(fabrics) != 1 or not all(fabrics):
        return None
    here = replace(context, fabrics=(*fabrics,), role="", strips=())
    rest = [one for one in chunks if one.start >= match.end()]
    read = strips.strip(rest, here, page) or pieces.piece(rest, here, page)
    if read is None:
        return None
    beside = page.words(match.start(), match.end()).text
    return of_words(replace(read, entries=tuple(one.noted(beside) for one in read.entries)), page.over(chunks))
