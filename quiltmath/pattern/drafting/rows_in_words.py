"""The rows of a block that a page tells in words: "Top row: square, half-square triangle, square"."""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import lru_cache
from typing import NamedTuple

from .at_hand import Item
from .characters import plain
from .model import Entry

_NOUNS = {
    "half-square": r"(?:half[\s-]+square(?:[\s-]+triangles?)?|hsts?)(?:\s+units?)?",
    "quarter-square": r"(?:quarter[\s-]+square(?:[\s-]+triangles?)?|qsts?|hour-?glass(?:es)?)(?:\s+units?)?",
    "flying geese": r"(?:flying[\s-]+geese|geese|goose|fg)(?:\s+units?)?",
    "square": r"squares?|cent(?:er|re)s?|corners?",
    "rectangle": r"rectangles?|bricks?|bars?",
}
"""What stands in a row, by the kind of unit or piece that it is."""
_NOUN = "|".join(f"(?:{one})" for one in _NOUNS.values())
_CELL = rf"(?:[a-z]+\s+){{0,3}}?(?:{_NOUN})\b"
_PARTED = r"\s*(?:,\s*(?:and\s+)?|\s--?\s+)"
_PLACE = r"(?:top|middle|cent(?:er|re)|bottom|first|second|third|fourth|last)"
_HEAD = rf"(?:(?:{_PLACE}\s+rows?|rows?\s+\d(?:\s*(?:,|and|&)\s*\d)*)\s*[:.-]?\s*)"
_ROW = re.compile(
    rf"(?<![\w-])(?P<head>{_HEAD})?(?:(?P<cells>{_CELL}(?:{_PARTED}{_CELL}){{1,4}})|(?:same\s+)?(?:as|like|repeats?)\s+"
    rf"(?:the\s+)?(?P<again>row\s+\d|(?:top|first)(?:\s+row)?))(?=\s*(?:[.;\n]|$))"
)
_BETWEEN = re.compile(r"[\s.;]*")
"""All that stands between two rows."""
FEWEST, MOST = 2, 4


class Told(NamedTuple):
    """The rows that one block is told in, each of (kind of unit or piece, the words for it), and how the page says
    so."""

    rows: tuple[tuple[tuple[str, str], ...], ...]
    text: str


@lru_cache(maxsize=8)
def rows_in_words(page: str) -> tuple[Told, ...]:
    """The blocks whose rows a page tells in words, as many rows as pieces in each.

    >>> (told,) = rows_in_words("Row 1: HST, red square, HST. Row 2: red square, square, red square. Row 3: as row 1.")
    >>> told.rows[0] == told.rows[2], told.rows[0][:2]
    (True, (('half-square', 'hst'), ('square', 'red square')))
    """
    text = plain(page)
    runs: list[list[re.Match[str]]] = []
    for found in _ROW.finditer(text):
        if not runs or not _BETWEEN.fullmatch(text, runs[-1][-1].end(), found.start()):
            runs.append([])
        runs[-1].append(found)
    told = (_told(run, page) for run in runs)
    return tuple(one for one in told if one is not None)


def _told(run, page):
    """The rows of matches that follow each other; None where they are no square block."""
    rows = []
    for found in run:
        if found["cells"]:
            rows.append(tuple(_cell(words) for words in re.split(_PARTED, found["cells"])))
        elif rows:
            rows.append(rows[0])
    if not FEWEST <= len(rows) <= MOST or {len(row) for row in rows} != {len(rows)}:
        return None
    return Told(tuple(rows), " ".join(page[run[0].start() : run[-1].end()].split()))


def _cell(words):
    said = " ".join(words.split())
    kind = next(kind for kind, noun in _NOUNS.items() if re.search(rf"\b(?:{noun})$", said))
    return kind, said


def allowed(told: Told, at_hand: Sequence[Item], entries: list[Entry]) -> tuple[tuple[frozenset[str], ...], ...]:
    """Of what is at hand the names of all that the words for each place allow: of its kind, and of the fabric that they
    name, if they name one."""
    kinds = {one.name: one.data.get("kind") for one in entries if one.table == "unit"}

    def fits(cell):
        kind, said = cell
        of_kind = [one for one in at_hand if _kind(one, kinds) == kind]
        named = [one for one in of_kind if {*said.split()[:-1]} & {*one.fabric.casefold().split()}]
        return frozenset(one.name for one in (kind in ("square", "rectangle") and named) or of_kind)

    return tuple(tuple(fits(cell) for cell in row) for row in told.rows)


def _kind(item, kinds):
    if item.sewn:
        return kinds.get(item.name)
    return "square" if item.square else "rectangle"
