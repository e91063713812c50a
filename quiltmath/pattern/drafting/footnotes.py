"""Footnotes of a cutting list: what a line below it says of the pieces that bear the same mark, "5 squares 10 1/4 in *"
and below them "* Cut in quarters diagonally, for setting triangles"."""

from __future__ import annotations

import re
from dataclasses import replace

from . import naming
from .chunks import all_of, chunked, opened
from .kept import Kept
from .model import Context, Entry, Words
from .page import Page
from .triangles import DIAGONAL, GIVES

_NOTE = re.compile(r"\s*(?P<mark>\*{1,4}|[†‡§])\s*(?=[^\W\d_])")
_SENTENCE = re.compile(r"[^.;!]*[.;!]?\s*")


def marked(page: Page, start: int, end: int, kept: Kept) -> tuple[Entry, int] | None:
    """The pieces that bear the mark with which a line begins, and where its words begin; None where there are none, or
    several.

    >>> from .model import Words
    >>> page = Page('5 squares 9" *\\n* Cut in half diagonally.')
    >>> kept = Kept(entries=[Entry("cut", {"size": "9"}, page.words(0, 12), "A")])
    >>> found = marked(page, 15, len(page.text), kept)
    >>> found[0].name, page.text[found[1]:]
    ('A', 'Cut in half diagonally.')
    """
    note = _NOTE.match(page.text, start, end)
    if note is None:
        return None
    mark = re.escape(note["mark"])
    behind = re.compile(rf"(?:[^\n]*[^\s{mark}])?\s?{mark}[^\S\n]*(?:\n|$)")
    of = [
        one
        for one in kept.entries
        if one.table == "cut" and one.words.end <= start and behind.match(page.text, one.words.end)
    ]
    lines = {one.words.line for one in of}
    return (of[-1], note.end()) if of and len(lines) == 1 else None


def cut_so(page: Page, start: int, end: int, entry: Entry) -> tuple[Entry, Words, int] | None:
    """Squares, cut on the diagonal as the first sentence of their footnote says, with the place that it says they are
    for; its words, and where the next begins. None where it says no such thing."""
    stop = start + len(page.plain[start:end]) - len(_SENTENCE.sub("", page.plain[start:end], count=1))
    flat, said = opened(chunked(page.plain, start, stop)), page.plain[start:stop]
    ways = {one.kind for one in all_of(flat, *DIAGONAL)} | _in_quarters(said)
    square = isinstance(entry.data.get("size"), str) and "cut" not in entry.data
    if not square or not ways:
        return None
    cut = "twice" if "twice" in ways else "once"
    changed = entry.but(cut=cut, triangles=entry.data["count"] * GIVES[cut] if "count" in entry.data else None)
    role = entry.role or _place(naming.role(flat, Context(), page.plain), said, cut)
    words = page.words(start, stop)
    return replace(changed.noted(words.text), role=role), words, stop


def _in_quarters(said):
    """How squares are cut that a sentence tells to be cut in quarters, or in half, for triangles."""
    if not re.search(r"\bcorner|\bdiagonal|\btriangle", said):
        return set()
    return {
        way
        for way, words in (("twice", r"\bin(?:to)?\s+quarters\b"), ("once", r"\bin\s+half\b"))
        if re.search(words, said)
    }


def _place(role, said, cut):
    """The place of triangles that are cut so, where a sentence names their setting, the sides or the corners."""
    if re.search(r"\bcorners?\b(?!\s*(?:to|-))(?<!to corner)", said):
        return "corner triangle"
    if role.endswith("triangle") or re.search(r"\b(?:setting|sides?|edges?)\b", said):
        return "side triangle" if cut == "twice" else "corner triangle"
    return ""
