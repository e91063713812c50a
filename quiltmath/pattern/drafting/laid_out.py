"""How a page says that its blocks are set: "Layout: 6 x 8", "7 rows of 6 blocks", "6 blocks across and 7 down"."""

from __future__ import annotations

import re

from .chunks import Chunk, all_of, count, opened
from .figures import in_digits
from .in_passing import of_one_block
from .model import Context, Entry, Reading
from .page import Page
from .prose import divides
from .stated import OF_QUILT, SETTING, follows, words_of


def layout(chunks: list[Chunk], context: Context, page: Page) -> Reading | None:
    """How the blocks are set: "Set 6 x 7", "7 rows of 6 blocks", "6 blocks across and 7 down"; what is told so of one
    block, below words that say that this is one, is kept."""
    read = _layout(chunks, context, page)
    of_one = context.each_block and not count(opened(chunks), "blocks")
    return Reading(remarks=(page.over(chunks),)) if read and read.entries and of_one else read


_BY = r"(?P<across>\d{1,2})\s*(?:x|by)\s*(?P<down>\d{1,2})"
_LAID_OUT = re.compile(rf"\W*(?:(?:quilt|block)\s+)?(?:layout|setting|set)\s*[:=]\s*{_BY}(?:\s+blocks)?\W*")
_ON_POINT = re.compile(
    rf"\W*(?:the\s+|your\s+)?[a-z-]+s\s+(?:are\s+|go\s+)?(?:set\s+)?{_BY},?\s+on\s+point"
    r"(?:,?\s+(?:with|and)\s+(?:the\s+)?(?P<between>\d{1,3})\s+(?:plain|alternate|setting)\s+(?:blocks|squares)\b[^.;\d]*)?"
    r"\W*"
)
"""How blocks of any name stand, and how many plain ones between them: "Stars three by three, on point"."""


def told(chunks: list[Chunk], context: Context, page: Page) -> Reading | None:
    """How the blocks are set, told behind a colon, or as so many by so many on point: "Layout: 6 x 8", "Stars three by
    three, on point, with the four plain blocks between"."""
    text = in_digits(page.plain[chunks[0].start : chunks[-1].end]) if chunks else ""
    match = _LAID_OUT.fullmatch(text) or _ON_POINT.fullmatch(text)
    if match is None:
        return None
    across, down = int(match["across"]), int(match["down"])
    if match.re is _ON_POINT and match["between"] and int(match["between"]) != (across - 1) * (down - 1):
        return None
    return _set(chunks, page, across, down, {"point"} if match.re is _ON_POINT else set())


def _layout(chunks, context, page):
    """How blocks are set, or the pieces of one."""
    plain = [one for one in opened(chunks) if one.kind != "count" or not _KINDS.match(page.plain, one.end)]
    if [one.kind for one in plain[:1]] == ["blocks"] and _NAMES_ONE.match(page.plain, plain[0].start):
        return None  # "Block: three rows of three"
    if plain and divides(page.plain[plain[0].start : plain[-1].end]):
        return None
    counts, words = all_of(plain, "count"), words_of(plain, page)
    behind = [_after(one, counts, plain, page) for one in counts] if len(counts) == 2 else []
    if behind and not count(plain, "length", "size", "strip", "doubt", "yards", "cut"):
        if _ACROSS.match(behind[0]) and _DOWN.match(behind[1]):
            return _set(chunks, page, counts[0].value, counts[1].value, words)
        if _TO_THE_ROW.match(behind[0]) and re.match(r"\s*rows\b", behind[1]):
            return _set(chunks, page, counts[0].value, counts[1].value, words)
        if _ROWS_OF.fullmatch(behind[0]) and not follows(counts[1], plain, "role", "strips", "unit", "triangles"):
            return _set(chunks, page, counts[1].value, counts[0].value, words)
    some = ("blocks", "rows", "set", "make", "each", "of_each", "with", "sew", "finished")
    if any(one.kind not in (*some, "count", "size", "word", "punct", "and", "article", "for", "note") for one in plain):
        return None
    sizes = all_of(plain, "size")
    if len(sizes) == 1 and words & OF_QUILT and not (words & SETTING or count(plain, "set")):
        return None  # "Quilt 48 x 60, blocks 12"
    if len(sizes) == 1 and not counts and (words & SETTING or count(plain, "set", "blocks")):
        sides = sizes[0].value.sides
        if len(sides) == 2 and all(side.whole and not side.unit for side in sides):
            return _set(chunks, page, int(sides[0].value), int(sides[1].value), words)
        return None
    if not behind or sizes or not count(plain, "blocks", "rows"):
        return None
    in_rows = "row" in behind[0] and "column" not in behind[0] and "down" not in behind[1]
    alone = words & SETTING and not behind[1].strip(" .,)")
    told = _ROWS_OF.fullmatch(behind[0]) or "block" in behind[1] or "each" in behind[1] or alone
    return _set(chunks, page, counts[1].value, counts[0].value, words) if in_rows and told else None


_OF_SPACES = re.compile(
    r"\bspaces?\b|\bplain\s+(?:ones|squares|blocks)\W*\(?\d|\b(?:squares|plain\s+blocks)\b[^.]*\bbetween\b[^.]*\bacross\b"
)
"""What stands between the blocks, of which there are so many across and down."""
_KINDS = re.compile(r"\s+(?:kinds|sorts)\b(?!\s+of\b)")
"""What a number counts that is none of blocks: "the two kinds alternating"."""
_NAMES_ONE = re.compile(r"block\s*[:.-]")
_ACROSS = re.compile(r"\s*(?:(?:[a-z]+ )?across|blocks\s+wide)\b")
_DOWN = re.compile(r"\s*(?:(?:[a-z]+ )?down|(?:blocks\s+)?(?:long|high|deep|tall))\b")
_TO_THE_ROW = re.compile(r"\s*(?:[a-z-]+\s+){0,2}(?:to|in)\s+(?:the|a|each|every)\s+row\b")
"""What stands behind the blocks of a row: "six blocks to the row and seven rows"."""
_ROWS_OF = re.compile(r"\s*(?:horizontal\s+)?rows\s+of\s*")


def _after(one, counts, plain, page):
    """The words between a count and the next."""
    later = [other.start for other in counts if other.start > one.start]
    return page.plain[one.end : later[0] if later else plain[-1].end]


def _set(chunks, page, across, down, words):
    last = max((one.start for one in opened(chunks) if one.kind in ("count", "size")), default=chunks[-1].end)
    text = page.plain[chunks[0].start : last]
    if of_one_block(page.plain, chunks[0].start, across, down) or _OF_SPACES.search(text):
        return Reading(remarks=(page.over(chunks),))
    data = {"across": across, "down": down}
    if words & {"point", "diagonal", "diagonally"}:
        data["style"] = "on point"
    return Reading((Entry("setting", data, page.over(chunks)),))
