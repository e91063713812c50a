"""How many of the strips told before a sentence cuts, and what of the pieces that it tells is told of each of them."""

from __future__ import annotations

import re
from typing import NamedTuple

from .chunks import MEASURES, Chunk, all_of
from .figures import number
from .pieces import NOUNS

_HOW_MANY = (
    r"(?:the\s+)?(?:(?P<{0}rest>rest|remaining|others?|remainder)(?:\s+\(?(?P<{0}left>\d+|(?!of\b|strips?\b)[a-z]+)\)?(?=\s))?|(?P<{0}each>each)(?:\s+one\b)?|\(?(?P<{0}used>[a-z]+|\d+)\)?)\s*"
    r"(?:of\s+(?:the|these|those|them)\s*)?(?:strips?\s*)?,?\s*"
)
_SHARE = re.compile(
    rf"\W*(?:(?:then|now|next|and)\s+)?(?:(?:sub|cross|re)?[\s-]*cut(?:ting)?\s+)?{_HOW_MANY.format('')}(?:in)?to\b"
    rf"|\W*(?:from|across)\s+{_HOW_MANY.format('from_')}(?:sub|cross)?[\s-]*cut\b"
    r"|\W*(?P<yields_each>each)\s+strip\s+(?:will\s+)?(?:yields?|makes?|gives?)\b"
)
_OF_EACH_STRIP = (["of_each", "strips"], ["each", "strips"])


class Share(NamedTuple):
    """How many of its strips a sentence cuts: "cut 5 into", "from 3 of the strips, cut", "sub-cut the rest into"; or
    that it tells what is cut from each; and where it goes on behind that."""

    end: int
    used: int | None = None
    rest: bool = False
    each: bool = False

    @classmethod
    def of(cls, page, start: int, end: int) -> Share | None:
        """The share that is told from a place on; None where none is.

        >>> from .page import Page
        >>> Share.of(Page("from two of the strips cut 9 squares"), 0, 36)
        Share(end=26, used=2, rest=False, each=False)
        """
        found = _SHARE.match(page.plain, start, end)
        if found is None:
            return None
        told = {name.rpartition("_")[2]: value for name, value in found.groupdict().items() if value}
        counted = told.get("used", told.get("left", ""))
        used = number(counted, 0)
        whole = bool(used and used.whole and used.end == len(counted))
        if not whole and (counted or not told.keys() & {"rest", "each"}):
            return None
        return cls(found.end(), int(used.value) if used and whole else None, "rest" in told, "each" in told)

    def of_each(self, chunks: list[Chunk], strips: int | None, prints: int = 1) -> list[Chunk] | None:
        """The chunks behind it, counts of each strip taken for those of all that are cut of one print; None where their
        number is not told."""
        behind = [one for one in chunks if one.start >= self.end]
        if not self.each:
            return behind
        return None if strips is None else _of_all([_times(one, strips) for one in behind], strips, prints)

    def other_total(self, chunks: list[Chunk], strips: int) -> tuple[list[Chunk], int] | None:
        """The chunks of what comes from each of so many strips, counted in all, and the other total behind them: "8
        squares from each strip for a total of 90", of 10 strips; None where none is."""
        behind = self.of_each(chunks, strips) if self.each else None
        before, told = _parted(behind or [])
        return (before, told.value // strips) if told else None


def _of_all(chunks, strips, prints):
    """The chunks without a total at their end that the pieces of so many strips come to."""
    before, told = _parted(chunks)
    (first, *_) = all_of(before, "count") or [None]
    return before if told and first and told.value in (first.value * strips, first.value * strips * prints) else chunks


def _parted(chunks):
    """The chunks without a total at their end, and that: "for a total of 55", "for a total of 40 squares 10 in" behind
    squares of this size; the chunks as they are, and None, where there is none."""
    counts, sizes = all_of(chunks, "count"), all_of(chunks, *MEASURES)
    if len(counts) != 2:
        return chunks, None
    before = chunks[: chunks.index(counts[1])]
    again = [one for one in sizes if one.start > counts[1].start]
    if again and [one.value.texts for one in sizes[:-1]] == [one.value.texts for one in again]:
        chunks = [one for one in chunks if one not in again]
    while before and before[-1].kind in ("article", "for", "make", "total", "punct"):
        before = before[:-1]
    told = chunks[len(before) :]
    left = all(one.kind in ("article", "for", "make", "total", "punct", "count", *NOUNS) for one in told)
    return (before, counts[1]) if left and len(told) > 1 else (chunks, None)


def without_each_strip(chunks: list[Chunk]) -> list[Chunk]:
    """The chunks of what is cut without the words that it is cut so from each strip: "8 squares from each strip"."""
    kinds = [one.kind for one in chunks]
    at = next((place for place in range(1, len(chunks)) if kinds[place : place + 2] in _OF_EACH_STRIP), len(chunks))
    return [*chunks[:at], *chunks[at + 2 :]]


def _times(chunk, strips):
    return chunk._replace(value=chunk.value * strips) if chunk.kind == "count" else chunk
