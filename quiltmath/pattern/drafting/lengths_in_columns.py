"""The lengths of borders in a table of their own: a column for the sides, one for the top and bottom, and a row for
each border."""

from __future__ import annotations

import re

from . import columns, naming
from .chunks import MEASURES, all_of, chunked, count
from .figures import long_side
from .kept import Kept
from .model import Entry, Words
from .page import Page

_HEAD = re.compile(
    r"\W*(?:(?P<sides_length>(?:two\s+)?sides?|left\s*(?:and|&|/|\+)\s*right)|(?P<top_length>tops?\s*(?:and|&|/|,|\+)\s*bottoms?))"
    r"(?:\s*[(,:-]?\s*(?:cut\s+)?(?:2|two)(?:\s+(?:of\s+)?each)?)?\W*"
)
_BORDERS = re.compile(r"\W*borders?\W*")


def heads(page: Page, start: int, end: int) -> tuple[str, ...]:
    """The keys of the lengths that stand below the cells of a line, where it heads such a table; else none.

    >>> page = Page("border      sides (cut 2)   top & bottom (cut 2)")
    >>> heads(page, 0, len(page.text))
    ('sides_length', 'top_length')
    """
    cells = [page.plain[slice(*one)] for one in columns.cells(page.plain, start, end)]
    cells = cells[1:] if cells and _BORDERS.fullmatch(cells[0]) else cells
    told = tuple(str(match.lastgroup) for one in cells if (match := _HEAD.fullmatch(one)))
    return told if len(told) == len(cells) and {*told} == {"sides_length", "top_length"} else ()


def row(page: Page, start: int, end: int, keys: tuple[str, ...], kept: Kept) -> tuple[Words, Entry | None] | None:
    """The words of a row and the lengths that it tells of one border; None in their place where it names no border of
    the cutting list, None for a line that is no row."""
    first, *cells = columns.cells(page.plain, start, end) or [(start, end)]
    told = [chunked(page.plain, *one) for one in cells]
    measured = [all_of(one, *MEASURES) for one in told]
    if len(told) != len(keys) or any(len(one) != 1 for one in measured) or count(chunked(page.plain, *first), "count"):
        return None
    longs = (max(one.value.texts, key=lambda text: long_side(text)[0]) for (one,) in measured)
    words, border = page.words(start, end), _named(page.plain[slice(*first)], kept)
    return words, Entry("border", dict(zip(keys, longs)), words, border) if border else None


def _named(said, kept):
    """The border of the cutting list that words name, by its place or by its fabric or the letter of this."""
    called = {*re.findall(r"[a-z\d]+", said)}
    strips = [one for one in kept.entries if one.table == "cut" and "strip" in one.data and one.role.endswith("border")]
    places = {one.role for one in strips if one.role.partition(" ")[0] in called}
    fabrics = {one.role for one in strips if naming.key(one.data.get("fabric", "")) - {"fabric"} <= called}
    found = places or fabrics
    return found.pop() if len(found) == 1 else ""
