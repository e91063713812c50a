"""Pieces whose sizes stand in a key above the cutting list, which counts them by their letters: "A  3 1/2 in square",
and below it "From the red cut 30 A for the centers"."""

from __future__ import annotations

import re

from .chunks import MEASURES, Chunk, chunked, count
from .page import Page

_KEYED = ("label", "squares", "rectangles", "once", "twice", "cut", "punct", "article", *MEASURES)
_COUNTED = re.compile(
    r"\W*(?:[Cc]ut\s+)?(?P<count>\d{1,3})\s+(?:(?:squares|rectangles|pieces|patches)\s+(?:for|of)\s+)?(?P<letter>[A-Z])\b"
    r"(?!\s*(?:squares?|rect|strips?|tri|piece|\d|[\"']))(?P<rest>.*)",
    re.DOTALL,
)


def key(page: Page, start: int, end: int) -> tuple[str, list[Chunk]] | None:
    """The letter of a piece and what a line says of its size, where it says no more; None for any other line.

    >>> page = Page('B  3-7/8" square, halved corner to corner once')
    >>> letter, told = key(page, 0, len(page.text))
    >>> letter, [one.kind for one in told]
    ('b', ['length', 'squares', 'once'])
    """
    chunks = chunked(page.plain, start, end)
    label = chunks[0] if chunks and chunks[0].kind == "label" else None
    if label is None or not re.fullmatch(r"[a-z]", str(label.value)) or any(one.kind not in _KEYED for one in chunks):
        return None
    if count(chunks, *MEASURES) != 1 or count(chunks, "squares", "rectangles") != 1 or count(chunks, "label") != 1:
        return None
    return label.value, [one for one in chunks[1:] if one.kind not in ("punct", "article", "cut")]


def lettered(chunks: list[Chunk], page: Page) -> list[Chunk]:
    """The chunks, a capital between a count and a size as the letter of the piece: "2 - E (4 x 8 1/2 in)".

    >>> page = Page('2 E, 4" square')
    >>> [one.kind for one in lettered(chunked(page.plain, 0, len(page.text)), page)]
    ['count', 'label', 'punct', 'length', 'squares']
    """
    found = [*chunks]
    for at, one in enumerate(chunks):
        before = [other.kind for other in chunks[max(at - 2, 0) : at] if page.said(other) not in ("-", "of")][-1:]
        behind = chunks[at + 1].kind if at + 1 < len(chunks) else ""
        alone = one.kind == "word" and re.fullmatch(r"[A-WYZ]", page.text[one.start : one.end])
        if alone and before == ["count"] and behind in ("punct", "note", *MEASURES):
            found[at] = one._replace(kind="label", value=page.said(one))
    return found


def counted(chunks: list[Chunk], keyed: dict[str, list[Chunk]], page: Page) -> tuple[str, list[Chunk]] | None:
    """The letter of the key that a sentence counts, and its chunks with the size that stands there; None where it
    counts none."""
    match = _COUNTED.match(page.text, chunks[0].start, chunks[-1].end) if keyed and chunks else None
    letter = match["letter"].lower() if match else ""
    if match is None or letter not in keyed:
        return None
    at = match.end("letter")
    rest = chunked(page.plain, *match.span("rest")) if match["rest"].strip() else []
    if count(rest, *MEASURES):
        return None
    number = Chunk("count", match.start("count"), match.end("count"), int(match["count"]))
    label = Chunk("label", match.start("letter"), at, letter)
    return letter, [number, label, *(one._replace(start=at, end=at) for one in keyed[letter]), *rest]
