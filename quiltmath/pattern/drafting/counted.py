"""Counts that are told in a roundabout way: about so many, so many sets of so many."""

from __future__ import annotations

from typing import TYPE_CHECKING

from .chunks import Chunk

if TYPE_CHECKING:
    from .page import Page


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
    left = [one for one in left if page.plain[one.start : one.end] not in ("matching", "identical")]
    return left, (f"{chunks[at - 1].value} sets of {behind.value}",)
