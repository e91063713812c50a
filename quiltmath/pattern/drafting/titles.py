"""What a pattern is called: the first words of its page, or a name that stands alone below them."""

from __future__ import annotations

import re

from .kept import Kept
from .model import Entry
from .page import Page

LONGEST_TITLE = 60
_CAPITALS = re.compile(r"[A-Z][A-Z'&]+(?:\s[A-Z'&]+)*(?=$|\s*[(,-])")
_SPACED = re.compile(r"(?:[A-Z][^\S\n]){2,}[A-Z](?:[^\S\n]{2,}(?:[A-Z][^\S\n])*[A-Z])*(?=\s*\n)")
"""A title whose letters stand apart: "L O W   T I D E"."""
_ORNAMENT = re.compile(r"^(?:[~*=_+•·|>»«-]\s*)+|(?:\s*[~*=_+•·|<«»-])+$")
"""What a title is set off with: "~ ~ ~ Drifting ~ ~ ~"."""
_SET_OFF = re.compile(r"(?:[\"“»«]\s*|>>\s*)(?P<name>[^\W\d_][^\"“”»«<>\d\n]{2,40}?)\s*(?:[\"”»«]|<<)")
"""A name in quotation marks, as a title is that stands on a line with other words."""
_FIRST_WORDS = re.compile(r"[^\W\d_][^\n:.,\d|]{2,}")
_WHAT_IT_IS = re.compile(
    r"\W*(?:free\s+)?(?:quilt(?:ing)?\s+)?(?:project|pattern)(?:\s+(?:sheet|page|instructions|leaflet|card))?\W*",
    re.IGNORECASE,
)
"""What a page is, which is no name of what is sewn from it: "Project sheet"."""
_SIZES = re.compile(r"(?:FINISHED\s+)?(?:QUILT\s+|BLOCK\s+)?SIZES?")
LINES_ABOVE = 6
"""So many lines at most stand above the name of a pattern, with it."""
_BEFORE_FIGURES = re.compile(
    r"\s*([^\W\d_][^\d(,;|]*?[^\W\d_][!?]?)\s*(?:[(,|]|\s[-\u2013\u2014]+\s|\s{3,}).*\d", re.DOTALL
)
"""The name of a pattern that stands before its size on one line."""


def with_title(entries: list[Entry], read: Kept, page: Page) -> list[Entry]:
    """The entries with the title of the page: a name that stands in quotation marks alone on a line; else the first
    words, where these hold no figures and are no head; else the first line, where nothing else was read in it; else the
    name in quotation marks on one of the first lines."""
    alone = _set_off_alone(read, page)
    entries = _titled(alone, entries, page) if alone else _with_first_words(entries, read, page)
    return _with_set_off(entries, page)


def _set_off_alone(read, page):
    """The name in quotation marks that is one of the first lines of a page; None where none is."""
    lines = (page.words(*one) for one in page.lines[:LINES_ABOVE])
    named = (_SET_OFF.fullmatch(page.text, one.start, one.end) for one in lines if one in read.remarks)
    return next((page.words(*found.span("name")) for found in named if found), None)


def _with_first_words(entries, read, page):
    """The entries with the title that a page begins with, or its first line holds."""
    first = read.remarks[0] if read.remarks else None
    at_first = first is not None and not page.plain[: first.start].strip()
    if not at_first and page.lines:
        first = page.words(*page.lines[0])
        name = _BEFORE_FIGURES.match(first.text)
        if name is not None:  # "Over the Fence (single Irish chain, 45 x 63 in)"
            first = page.words(first.start, first.start + name.end(1))
        taken = [one for one in entries if one.table != "sheet"] if name else [*entries, *read.questions]
        if any(one.words.start < first.end for one in taken) or any(char.isdigit() for char in first.text):
            return _titled(_name_below(entries, read, page), entries, page)
        if first in read.understood:  # a head
            return entries
    if first is None or len(page.lines) < 3:
        return entries
    what_it_is = first if _WHAT_IT_IS.fullmatch(first.text) else None
    if len(first.text) > LONGEST_TITLE or first.text.endswith((":", ".")) or what_it_is:
        first = _shouted(page, {one.start for one in read.remarks}) or _name_below(entries, read, page) or what_it_is
    return _titled(first, entries, page)


def _with_set_off(entries, page):
    """The entries with a title, where none was found: the name in quotation marks on one of the first lines, else the
    first words of the page."""
    if any(one.name == "title" for one in entries) or not page.lines:
        return entries
    lines = [page.words(*one) for one in page.lines[:LINES_ABOVE]]
    named = (found for one in lines if (found := _SET_OFF.search(page.text, one.start, one.end)))
    name = next((page.words(*found.span("name")) for found in named), None)
    begun = _FIRST_WORDS.match(lines[0].text) if len(lines) == LINES_ABOVE else None
    taken = begun and any(lines[0].start <= one.words.start < lines[0].end for one in entries)
    if name is None and begun and not taken and begun.end() <= LONGEST_TITLE:
        name = page.words(lines[0].start, lines[0].start + begun.end())
    return _titled(name, entries, page)


def _titled(first, entries, page):
    """The entries with these words as the title, spelt as words where their letters stand apart, without ornaments."""
    spaced = _SPACED.match(page.text, first.start) if first is not None else None
    if spaced:
        first = page.words(*spaced.span())
        title = " ".join("".join(word.split()) for word in re.split(r"[^\S\n]{2,}", spaced[0]))
    else:
        title = _ORNAMENT.sub("", first.text) if first is not None else ""
    return [Entry("sheet", {"title": title}, first, "title"), *entries] if title else entries


def _shouted(page, remarks):
    """The words in capitals, without figures, that begin one of the lines below the first and are kept as remarks: the
    title of a page that begins with a sentence; None where there are none."""
    for start, end in page.lines[1:LINES_ABOVE]:
        words = page.words(start, end)
        name = _CAPITALS.match(words.text)
        if words.start in remarks and name and len(name[0]) <= LONGEST_TITLE and not _SIZES.fullmatch(name[0]):
            return page.words(words.start, words.start + name.end())
    return None


def _name_below(entries, read, page):
    """The name of the pattern that stands alone on one of the next lines of a page, where the first is that of a
    magazine, or of a lesson: words kept as they stand, above all that is cut or bought; None where there are none."""
    listed = min((one.words.start for one in entries if one.table not in ("sheet", "block", "setting")), default=0)
    lines = [page.words(*one) for one in page.lines[1:LINES_ABOVE]]
    names = (
        one
        for one in lines
        if (one in read.remarks or one in read.instructions) and one.end < listed and len(one.text) <= LONGEST_TITLE
        if one.text[:1].isupper() or one.text[0] in "\"'\u201c"
        if not re.search(r"\d|[:.,]$", one.text)
    )
    return next(names, None)
