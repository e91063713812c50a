"""Sentences of sewing that name pieces of the cutting list, and those above all lists that only introduce a quilt."""

from __future__ import annotations

import re

from . import naming, prose
from .chunks import FIGURES, MEASURES, NAMED, Chunk, all_of, count, place_of
from .figures import LEAST_SIZE
from .kept import Kept
from .model import Context, Reading, Words
from .page import Page
from .strips_give import sides_of


def introduces(flat: list[Chunk], words: Words, context: Context, kept: Kept, page: Page) -> bool:
    """Whether a sentence above all lists counts in words alone, and no blocks: "a throw of twelve bright stars"."""
    above = not context.section and not any(one.table in ("cut", "fabric") for one in kept.entries)
    cuts = any(page.said(one) != "cutting" for one in all_of(flat, "cut"))  # "from the cutting counter"
    told = cuts + count(flat, *(FIGURES - {"count"}), "into", "strip_set", "fat_quarter")
    each = next((at for at, one in enumerate(flat) if one.kind == "of_each"), len(flat))
    told += each < len(flat) and not _is_of_things(flat[each:], words)
    told += prose.counts_blocks(flat)
    titled = bool(page.plain[: words.start].strip()) and words.text[:1] not in "*•-"
    return above and titled and not told and not re.search(r"\d", words.text)


def _is_of_things(each, words):
    """Whether "of every" speaks of things that are no fabric: "a warm red fire in the middle of every house"."""
    behind = words.text[each[0].end - words.start :]
    return count(each[1:2], "word") > 0 and not naming.is_of_fabric(behind)


def is_of_what_is_cut(flat: list[Chunk], context: Context, kept: Kept) -> bool:
    """Whether every size of a sentence that cuts nothing stands on the cutting list: "with one 7 1/4 in square"."""
    sizes, told = [one.value.texts for one in all_of(flat, *MEASURES)], _sizes(kept)
    cuts = place_of(flat, "cut", "into", otherwise=len(flat))
    cut_here = count(flat[cuts:], *FIGURES) or cuts < len(flat) and context.section != "sewing"
    return bool(sizes) and not cut_here and not count(flat, "yards", "doubt") and all(one in told for one in sizes)


def _sizes(kept):
    """The sizes of what is cut, and how wide the strips are."""
    cut = [one.data.get("size", one.data.get("strip")) for one in kept.entries if one.table in ("cut", "binding")]
    return [size if isinstance(size, list) else [size] for size in cut]


_SEWN = ("unit", "blocks", "rows", "segments", "strip_set")
"""The nouns of what is sewn."""


def only_measures_what_is_sewn(flat: list[Chunk], context: Context, kept: Kept) -> bool:
    """Whether every size of a sentence of sewing that cuts nothing stands on the cutting list, is of what is sewn, or
    is no more than a seam: "With the 4 7/8 in squares make 20 half-square triangles, 4 1/2 in"."""
    measures = all_of(flat, *MEASURES)
    if context.section != "sewing" or not measures or count(flat, "cut", "into", "yards", "doubt"):
        return False
    told, nouns = _sizes(kept), all_of(flat, *NAMED, *_SEWN)
    for one in measures:
        before = [noun.kind for noun in nouns if noun.end <= one.start]
        small = all(side.inches < LEAST_SIZE for side in one.value.with_units())
        if not (small or one.value.texts in told or before and before[-1] in _SEWN):
            return False
    return True


def only_orders_cuts(flat: list[Chunk], context: Context, page: Page) -> bool:
    """Whether a sentence below pieces only tells in which order these are cut, and counts none: "Cut a 3 7/8 in slice
    for the squares first, then a 3 1/2 in slice for the rectangles"."""
    measures = [text for one in all_of(flat, *MEASURES) for text in one.value.texts]
    sides = {side for one in context.below for side in sides_of(one)}
    ordered = {page.said(one) for one in flat} & {"first", "then", "before", "last", "next"}
    ordered |= {"then"} if count(flat, "into") else set()
    return bool(measures and ordered) and {*measures} <= sides and not count(flat, "count", "yards", "role", "from")


def only_names_what_is_cut(flat: list[Chunk], context: Context, kept: Kept, page: Page) -> bool:
    """Whether a sentence of sewing names pieces of the cutting list: it stands behind no head and counts none first of
    all, as the lines of a list do."""
    line = page.plain[: flat[0].start].rpartition("\n")[2]
    headed = line.rstrip().endswith((":", "-")) or re.match(r"\W*(?:from|cut)\b", line + page.said(flat[0]))
    listed = headed or context.fabrics or flat[0].kind in ("count", "label")
    return context.section == "sewing" and not listed and is_of_what_is_cut(flat, context, kept)


def holds_pieces(read: Reading) -> bool:
    """Whether something was read as pieces that are cut, or is proposed as such."""
    proposed = (one for asked in read.questions for choice in asked.choices for one in choice.changes)
    return any(one.table in ("cut", "binding") for one in (*read.entries, *proposed))
