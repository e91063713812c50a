"""Sentences of the way to make several units at once of two large squares, which count and cut no pieces of the top:
"Half-square triangles, eight at a time"; "Cut the square in half both ways at 5 in, then on both drawn lines"."""

from __future__ import annotations

import re

from .at_hand import sides
from .chunks import FIGURES, MEASURES, Chunk, all_of, count, opened
from .kept import Kept
from .model import Context, Words
from .page import Page

_HEADS = re.compile(
    r"\W*(?:(?:making|make|sewing)\s+)?(?:the\s+)?(?P<before>(?:two|four|eight|[248])[\s-]+at[\s-]+(?:a|one)[\s-]+time\W+)?"
    r"(?:half[\s-]*squares?(?:[\s-]+triangles?)?|hsts?|flying\s+geese)(?:\s+units?)?(?:\s*\(hsts?\))?"
    r"(?(before)|\W+(?:(?:two|four|eight|[248])[\s-]+at[\s-]+(?:a|one)[\s-]+time))\W*",
)
"""The name of a unit, and how many are made at once."""
_HALVES = re.compile(
    r"\bcut\b[^.;]*\b(?:in\s+half|through\s+the\s+(?:middle|cent(?:er|re)))\b[^.;]*"
    r"\b(?:vertical\w*[^.;]*horizontal\w*|horizontal\w*[^.;]*vertical\w*|both\s+(?:ways|directions)|(?:each|either)\s+way)\b"
    r"[^.;]*\b(?:drawn|marked|diagonal|pencil(?:led|ed)?)\b"
)
"""The cuts that part squares which are sewn on both sides of two drawn lines."""
_DRAWN = re.compile(r"\b(?:both|two|2|each)\s+diagonals?\b|\bdiagonal\s+lines\b|\bdiagonally\s+(?:twice|both\s+ways)\b")
ABOVE = 900
"""Signs: so far above the lines are drawn."""


def heads(page: Page, start: int, end: int) -> bool:
    """Whether a line only names a unit and says how many are made at once.

    >>> heads(Page("HALF-SQUARE TRIANGLES, EIGHT AT A TIME"), 0, 38), heads(Page("Eight half-square triangles"), 0, 27)
    (True, False)
    """
    return _HEADS.fullmatch(page.plain, start, end) is not None


def parts(chunks: list[Chunk], words: Words, context: Context, kept: Kept, page: Page) -> bool:
    """Whether a sentence of sewing parts two squares that are sewn on both sides of two lines drawn above it, at no
    place but their middle."""
    flat = opened(chunks)
    if context.section != "sewing" or not _HALVES.search(page.plain, words.start, words.end):
        return False
    if not _DRAWN.search(page.plain, max(0, words.start - ABOVE), words.start):
        return False
    if count(flat, *(FIGURES - {*MEASURES})):
        return False
    cut = (one.data.get("size") for one in kept.entries if one.table == "cut")
    halves = {size[0] / 2 for told in cut if (size := sides(told)) and size[0] == size[1]}
    return all(one.value.with_units()[0].inches in halves for one in all_of(flat, *MEASURES))
