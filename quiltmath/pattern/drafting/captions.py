"""The words below the drawings of a page, in a bracket of their own: "[Diagram: Strip set A. Make 6.]"."""

from __future__ import annotations

import re
from collections.abc import Iterator

from .chunks import Chunk, chunked
from .page import Page

_CAPTION = re.compile(
    r"\W*[\[(]\s*(?:diagram|figure|fig|drawing|illustration|picture|photo|sketch|layout)s?\b[^\[\]]*[\])]\W*"
)
_SAID_ABOVE = 1_500
"""Signs: how far above a drawing stands what its words say again."""


def says_again(page: Page, start: int, end: int) -> bool:
    """Whether a line is the caption of a drawing and all of its figures stand above it: its counts in the paragraph
    right above, its sizes there or further up.

    >>> page = Page('Make 6 sets. They are 9 1/2" wide.\\n\\n[Diagram: Make 6, 9 1/2" wide.]')
    >>> says_again(page, 36, len(page.text)), says_again(Page("[Diagram: Make 6.]"), 0, 18)
    (True, False)
    """
    if not _CAPTION.fullmatch(page.plain, start, end):
        return False
    above = page.plain[max(0, start - _SAID_ABOVE) : start]
    step = re.split(r"\n\s*\n", above.rstrip())[-1]
    counts, _ = _figures(step)
    _, sides = _figures(above)
    counted, measured = _figures(page.plain[start:end])
    return counted <= counts and measured <= sides


def _figures(text: str) -> tuple[set[int], set[str]]:
    """The counts of a text, and the sides of all that it measures."""
    chunks = [*_all(chunked(text, 0, len(text)))]
    measured = (one.value.texts for one in chunks if one.kind in ("length", "size", "strip"))
    return {one.value for one in chunks if one.kind == "count"}, {side for texts in measured for side in texts}


def _all(chunks: list[Chunk]) -> Iterator[Chunk]:
    """The chunks, and those of their brackets."""
    for one in chunks:
        yield from _all(one.value) if one.kind == "note" else (one,)
