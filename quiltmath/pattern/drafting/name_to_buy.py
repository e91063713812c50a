"""What a shopping list calls the fabric that one of its lines buys."""

from __future__ import annotations

from typing import TYPE_CHECKING

from . import naming
from .chunks import Chunk, count, place_of
from .fillers import LEADS

if TYPE_CHECKING:
    from .page import Page

_NO_NAME = {"are", "fabric", "fabrics", "least", "material", "materials", "total", "will", "x", "yardage", "you"}


def before_for(chunks: list[Chunk]) -> list[Chunk]:
    """The chunks before what a fabric is for."""
    at = place_of(chunks, "for", otherwise=len(chunks))
    return chunks[:at]


def name_to_buy(chunks: list[Chunk], page: Page, known: list[str]) -> str:
    """The name of a fabric on the shopping list: its words, and what it is for where that is its name."""
    label = next((one for one in chunks if one.kind == "label"), None)
    at = place_of(chunks, "yards", otherwise=len(chunks))
    point = max((place for place, one in enumerate(chunks[:at]) if page.said(one) == "."), default=0)
    if point and naming.is_of_fabric(naming.described(chunks[point:at], page)):  # "Plate IV. White, 6 yards"
        chunks, at = chunks[point:], at - point
    named = _behind_its_place(chunks[:at], page)
    chunks, at = (named, len(named)) if named else (chunks, at)
    headed = next((place for place, one in enumerate(chunks) if page.said(one) in (":", "-") and place < at), None)
    behind = before_for(chunks[at:] if headed is None or at < len(chunks) else chunks[headed:])
    if headed and not naming.is_of_fabric(before := naming.described(chunks[:headed], page)) and before not in known:
        chunks, at = (behind, 0) if naming.is_of_fabric(naming.described(behind, page)) else (chunks, at)
    if any(one.kind in ("word", "role") and _said(one, page).casefold() not in LEADS for one in chunks[:at]):
        chunks = chunks[:at]  # behind the length stands what it is for
    words: list[str] = []
    for one, after in zip(told := before_for(chunks), [*told[1:], None]):
        text = _said(one, page)
        if text in ("different", "various") and words and (after is None or after.kind == "punct"):
            continue  # "Lights, 7 different, 1/4 yd each"
        if one.kind in ("role", "and") or one.kind == "word" and page.said(one) not in LEADS | _NO_NAME:
            words.append(text)
    while words and words[-1].casefold() in ("and", "&"):
        words.pop()
    while words and words[0].casefold() in ("and", "&", "+"):
        words.pop(0)
    if not words and label is not None:
        return label.value.upper()
    return " ".join(words)


def _behind_its_place(chunks, page):
    """The chunks of a fabric behind the place that it is for, before its length: "Outer border (also binding), peony
    print"; none where that is not told so."""
    at = next((place for place, one in enumerate(chunks) if page.said(one) in (",", ":")), 0)
    before, behind = chunks[:at], chunks[at + 1 :]
    of_place = count(before, "role") and {one.kind for one in before} <= {"role", "note", "and"}
    named = {one.kind for one in behind} <= {"word", "punct", "article"}
    return behind if of_place and named and naming.is_of_fabric(naming.described(behind, page)) else []


def _said(chunk, page):
    return " ".join(page.text[chunk.start : chunk.end].split())
