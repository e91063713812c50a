"""Fabrics that a shopping list tells of by their numbers: "1 yd each of three fabrics: 1 pale, 2 medium, 3 dark"."""

from __future__ import annotations

from . import naming
from .buying import without_purpose
from .chunks import Chunk, all_of, count, place_of
from .model import Context, Entry, Reading
from .page import Page

_PARTS = ("yards", "count", "word", "each", "of_each", "punct", "and", "note")


def as_much_of_each(chunks: list[Chunk], context: Context, page: Page) -> Reading | None:
    """As much of each of so many fabrics, which are numbered; None where a line tells of anything else."""
    flat = without_purpose(chunks)
    at, yards = place_of(flat, "each", "of_each"), all_of(flat, "yards")
    if not at or len(yards) != 1 or yards[0].start > flat[at].start or any(one.kind not in _PARTS for one in flat):
        return None
    counts = all_of(flat[at:], "count")
    numbers = [one.value for one in counts[1:]]
    value = yards[0].value.sides[0]
    if len(numbers) < 2 or numbers != [*range(1, counts[0].value + 1)] or value.doubt or value.value <= 0:
        return None
    ends = [*(one.start for one in counts[2:]), flat[-1].end]
    parts = [[one for one in flat if begin.end <= one.start < end] for begin, end in zip(counts[1:], ends)]
    if not all(count(part, "word") for part in parts):
        return None
    found = []
    for number, part in zip(numbers, parts):
        name, called = f"Fabric {number}", naming.described(part, page)
        context.other_names[naming.key(called)] = name
        context.known += [] if name in context.known else [name]
        found.append(Entry("fabric", {"bought": value.text}, page.over(chunks), name, (f"called {called} too",)))
    return Reading(tuple(found))
