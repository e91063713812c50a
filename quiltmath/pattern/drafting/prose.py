"""Sentences that tell of sewing, and number words that count no pieces."""

from __future__ import annotations

import re

from .chunks import FIGURES, MEASURES, NAMED, Chunk, count, opened
from .model import Words
from .page import Page
from .vocabulary import PROSE


def is_prose(chunks: list[Chunk], page: Page) -> bool:
    """Whether a sentence tells what is done with the pieces, by the verb that it begins with."""
    begins = page.plain[chunks[0].start : chunks[0].end] if chunks else ""
    return count(chunks, "sew") > 0 or begins in PROSE or bool(said(chunks[:3], page) & PROSE)


def tells(chunks: list[Chunk], page: Page) -> bool:
    """Whether a sentence with figures tells what is done with pieces, and cuts none of a size itself."""
    flat = opened(chunks)
    cuts = count(flat, "cut", "into") and count(flat, *MEASURES) and count(flat, *NAMED, "count")
    return is_prose(chunks, page) and not cuts


def said(chunks: list[Chunk], page: Page) -> set[str]:
    """The words of a line that are of no other kind."""
    return {page.plain[one.start : one.end] for one in chunks if one.kind == "word"}


def only_made(flat: list[Chunk]) -> bool:
    """Whether a sentence only says how many are made: "Make 48"."""
    kinds = {one.kind for one in flat} - {"punct", "article", "total"}
    return kinds == {"make", "count"} and count(flat, "count") == 1


def counts_in_words(flat: list[Chunk], words: Words) -> bool:
    """Whether the figures of a sentence are number words that count nothing that is cut or made: "a small one"."""
    counted = (*NAMED, "cut", "into", "make", "set", "rows", "of_each", "each", "fat_quarter", "pack", "times")
    return not re.search(r"\d", words.text) and not count(flat, *(FIGURES - {"count"}), *counted)
