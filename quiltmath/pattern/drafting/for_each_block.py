"""Counts that a page tells for one block, where a sheet wants those for the whole quilt."""

from __future__ import annotations

import re

from .chunks import MEASURES, all_of, chunked, count, opened
from .kept import Kept
from .model import Choice, Context, Entry, Question, Reading
from .page import Page

_EACH_BLOCK = re.compile(r"\(?\b(?:(?:for|in)\s+)?(?:per|each|every|one|a\s+single|1)\s+(?:[a-z]+\s+)?block\b\)?")
_MADE = re.compile(
    r"\bblocks?\b[^.:;]*?[(:,-]?\s*\bmake\s+(?P<made>\d+)\b\W*$|\bmake\s+(?P<made2>\d+)\b[^.;]*\bblocks?\b\W*$"
)
_OF_THE_QUILT = re.compile(
    r"\b(?:whole|entire)\s+quilt\b|\ball\s+blocks\b|\bsetting\b|\bsashing\b|\bborders?\b|\bbinding\b"
)


def said(start: int, end: int, kept: Kept, context: Context, page: Page) -> bool:
    """Note whether what stands below a line is cut for one block, or for the whole quilt; whether the line says no
    more than that."""
    chunks = opened(chunked(page.plain, start, end))
    measured = count(chunks, *MEASURES, "yards")
    if not measured and _OF_THE_QUILT.search(page.plain, start, end):
        context.each_block = False
    if measured or not _EACH_BLOCK.search(page.plain, start, end):
        return False
    context.each_block = True
    words, counts = page.words(start, end), all_of(chunks, "count")
    made = [one for one in counts if one.start > start and count(chunks, "make") == 1]
    if made and len(_numbers(page.plain[start:end])) == 1:  # "for one block (make 12)"
        kept.add(Entry("block", {"count": made[-1].value}, words, "block"))
        return True
    if counts or _EACH_BLOCK.sub("", page.plain[start:end]).strip(" :.,cut"):
        return False
    kept.understood.append(words)
    return True


def _numbers(text):
    return re.findall(r"\d+", text)


def in_all(read: Reading, kept: Kept) -> Reading:
    """What was read for one block: asked, with the number for all blocks where the page has said how many."""
    blocks = {one.data["count"] for one in kept.entries if one.table == "block" and "count" in one.data}
    questions, rest = [*read.questions], []
    for one in read.entries:
        number = one.data.get("count")
        if one.table not in ("cut", "strip_set") or not isinstance(number, int):
            rest.append(one)
            continue
        choices = tuple(Choice(f"{number * made} in all", (_times(one, made),)) for made in sorted(blocks))
        questions.append(Question(one.words, f"{number} for one block: how many in all?", choices))
    return Reading(tuple(rest), tuple(questions), read.remarks)


def _times(entry, made):
    """A line of the cutting list for so many blocks; the strips it is sub-cut from are those of one."""
    counted = {key: entry.data[key] * made for key in ("count", "triangles") if key in entry.data}
    return entry.but(**counted, strips=None, strip_width=None)
