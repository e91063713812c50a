"""Counts that are told in a roundabout way: about so many, so many sets of so many, so many of a block, some of
what is cut already, so many lengths that a backing is sewn from."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from . import naming, prose
from .chunks import FIGURES, MEASURES, Chunk, all_of, count
from .figures import number

if TYPE_CHECKING:
    from .model import Context
    from .page import Page


_WHOLE_QUILT = re.compile(
    r"\bfor\s+(?:(?:the|your)\s+)?(?:(?:whole|entire|full)\s+)?(?:quilt|top|all\s+(?:the\s+)?blocks)\b"
)


def for_the_quilt(chunks: list[Chunk], page: Page) -> tuple[list[Chunk], tuple[str, ...]]:
    """The chunks with the count of the whole quilt that a bracket tells behind that of a block, and the remark how that
    is told: "4 squares 3 in (80 for the whole quilt)"."""
    counts, notes = all_of(chunks, "count"), [one for one in chunks if one.kind == "note" and count(one.value, "count")]
    if len(counts) != 1 or len(notes) != 1 or count(notes[0].value, *FIGURES) != 1:
        return chunks, ()
    ((one,), (note,)), (whole,) = (counts, notes), all_of(notes[0].value, "count")
    if not _WHOLE_QUILT.search(page.plain, note.start, note.end) or whole.value % one.value:
        return chunks, ()
    left = [one._replace(value=whole.value) if chunk is one else chunk for chunk in chunks if chunk is not note]
    return left, (f"{one.value}, {page.words(note.start, note.end).text.strip('()')}",)


def about_so_many(chunks: list[Chunk], page: Page) -> tuple[list[Chunk], tuple[str, ...]]:
    """The chunks without an "about" before their count, and the remark that it is there."""
    place = next(
        (at for at, one in enumerate(chunks[:-1]) if one.kind == "caution" and chunks[at + 1].kind == "count"), None
    )
    if place is None or not page.plain.startswith(("about", "approx"), chunks[place].start):
        return chunks, ()
    return [*chunks[:place], *chunks[place + 1 :]], (f"about {chunks[place + 1].value}",)


def in_sets(chunks: list[Chunk], page: Page) -> tuple[list[Chunk], tuple[str, ...]]:
    """The chunks of so many sets of so many pieces with the count of them all, and the remark how it is told."""
    at = next((place for place, one in enumerate(chunks[:-1]) if one.kind == "set" and place), 0)
    behind = next((one for one in chunks[at + 1 :] if one.kind not in ("word", "punct")), None)
    if not at or chunks[at - 1].kind != "count" or behind is None or behind.kind != "count":
        return chunks, ()
    whole = behind._replace(value=chunks[at - 1].value * behind.value)
    left = [
        whole if one is behind else one
        for one in chunks
        if one.start < chunks[at - 1].start or one.start >= behind.start
    ]
    left = [one for one in left if page.said(one) not in ("matching", "identical")]
    return left, (f"{chunks[at - 1].value} sets of {behind.value}",)


_OF_THEM = re.compile(r"[)]?\s*of\s+(?:these|those|them)\s*(?:$|[.;)])")
_PART = re.compile(r"[)]?\s*of\s+(?:the|these|those|them|your)\b")


def is_part(chunks: list[Chunk], page: Page) -> bool:
    """Whether a line counts some of what is cut already: "take 12 of the 3 1/2 in squares"; "strips 2 in wide: you need
    7 of them" counts them all."""
    counts = all_of(chunks, "count")
    before = chunks[: chunks.index(counts[0])] if len(counts) == 1 else []
    if count(before, "need") and _OF_THEM.match(page.plain, counts[0].end):
        return not count(before, *MEASURES)
    sized = (
        count(before, *MEASURES)
        and count(before, "squares", "rectangles", "pieces")
        and not count(before, "cut", "into", "sew")
    )
    if sized and _OF_THEM.match(page.plain, counts[0].end) and not prose.is_prose(before, page):
        return False  # "4 in squares, 28 of them"
    return any(_PART.match(page.plain, one.end) and not _of_a_fabric(one, page) for one in counts)


_OF_THE = re.compile(r"[)]?\s*of\s+(?:the|your)\s+(?P<name>[a-z][a-z -]{1,24}?)\s*(?:$|[.,;\n])")


def _of_a_fabric(counted, page):
    """Whether a count is of a fabric, no pieces of which are named: "32 white squares, and 8 of the rose"."""
    told = _OF_THE.match(page.plain, counted.end)
    return told and naming.is_only_of_fabric(told["name"])


_PANELS = re.compile(
    r"\b(?:cut|divided?|split)\s+(?:it\s+)?in(?:to)?\s+(?:(?P<half>half|halves)"
    r"|(?P<cut>\w+)(?:\s+(?:equal\s+)?(?:lengths|panels|pieces|parts))?)\b"
    r"|\b(?:pieced|joined|sewn|made)\s+(?:from|of)\s+(?P<joined>\w+)\s+(?:equal\s+)?(?:lengths|panels|pieces)\b"
)


def panels(text: str) -> int:
    """From how many lengths a backing is sewn, as its words say; 0 where they do not, or it is cut along its length."""
    match = _PANELS.search(text) if "lengthwise" not in text else None
    told = (match["cut"] or match["joined"] or "") if match else ""
    found = number(told, 0) if told else None
    return 2 if match and match["half"] else int(found.value) if found and found.whole and found.end == len(told) else 0


WIDEST_STRIP = 12
"""Inches: strips that are cut up are no wider (common practice)."""


def so_many_strips(chunks: list[Chunk]) -> list[Chunk]:
    """The chunks, the first number of a size that strips are counted by taken for their count, where a unit stands
    behind the second alone: "5 x 2 1/2 in strips"."""
    found: list[Chunk] = []
    for one, behind in zip(chunks, [*chunks[1:], None]):
        sides = [*one.value.sides] if one.kind == "size" and behind and behind.kind in ("strips", "wof") else []
        if len(sides) == 2 and _counts_the_other(*sides):
            first, last = sides
            found.append(Chunk("count", first.start, first.end, int(first.value)))
            one = Chunk("length", last.start, one.end, one.value._replace(start=last.start, sides=(last,)))
        found.append(one)
    return found


def _counts_the_other(first, last):
    """Whether the first of two numbers has no unit and may count strips as wide as the other says."""
    return first.whole and not first.unit and bool(last.unit) and last.inches <= WIDEST_STRIP


LEAST_QUILT = 24
"""Inches: no piece that is counted above all lists is so large both ways."""


def of_a_quilt(measures: list[Chunk], context: Context) -> bool:
    """Whether a size above all lists is larger than any piece, both ways: "37 x 37 in, 5 stars"."""
    large = all(side.inches >= LEAST_QUILT for one in measures for side in one.value.with_units())
    return large and not (context.known or context.fabrics)
