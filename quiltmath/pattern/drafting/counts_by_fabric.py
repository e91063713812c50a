"""Tables that count the pieces of each size by their fabrics: "Piece  Size to cut  White  Print", and below it "A  3 in
square  52  13"."""

from __future__ import annotations

import re
from typing import NamedTuple

from . import naming
from .chunks import Chunk, chunked, opened
from .doubtful import NOT_UNDERSTOOD
from .model import Choice, Entry, Question, Reading, of_words
from .page import Page
from .sentences import Sentences
from .triangles import GIVES

_LABEL = re.compile(r"pieces?|patch(?:es)?|parts?|templates?|letters?|units?")
_SIZE = re.compile(r"(?:cut\s+|cutting\s+)?(?:sizes?|measurements?|dimensions?)(?:\s+to\s+cut)?")
_CELL = re.compile(r"\S+(?:[^\S\n]\S+)*")
_LETTER = re.compile(r"[a-z]\d?")
_NUMBER, _NONE = re.compile(r"\(?(\d{1,4})\)?"), re.compile(r"-+|0|x")
_QUARTERED = re.compile(r",?\s*cut\s+in(?:to)?\s+(?:4|four|quarters)(?:\s+(?:triangles|pieces))?\W*$")
_MAKES = re.compile(r"\W*(?:makes?|gives?|yields?)\W*")
_BOTH_DIAGONALS = re.compile(
    r"\b(?:twice\s+(?:on|along)\s+the\s+diagonals?|(?:on|along)\s+both\s+diagonals|diagonally\s+twice)\b"
)
"""How the page says that its triangles are cut that a table cuts in four."""


class Column(NamedTuple):
    """A fabric that heads a column, and where that begins on its line."""

    place: int
    said: str


def columns(page: Page, start: int, end: int) -> tuple[Column, ...]:
    """The columns that a line heads with the names of fabrics, behind those of a letter and a size; none of any other.

    >>> page = Page("Piece   Size to cut   White   Print")
    >>> [one.said for one in columns(page, 0, len(page.text))]
    ['white', 'print']
    """
    cells = [*_CELL.finditer(page.plain, start, end)] if page.plain[start:end].count("  ") > 2 else []
    if len(cells) < 4 or not _LABEL.fullmatch(cells[0][0]) or not _SIZE.fullmatch(cells[1][0]):
        return ()
    named = all(naming.is_of_fabric(one[0]) or naming.is_numbered(one[0]) for one in cells[2:])
    return tuple(Column(_place(page, one), one[0]) for one in cells[2:]) if named else ()


def _place(page, cell):
    """In which column of signs a cell begins."""
    return cell.start() - page.plain.rfind("\n", 0, cell.start()) - 1


class CountsByFabric(Sentences):
    """Reads the tables of one page whose columns are its fabrics."""

    def __init__(self, page: Page) -> None:
        super().__init__(page)
        self.by_fabric: tuple[Column, ...] = ()
        self.last_counts: list[int] = []

    def _of_counts(self, start, end):
        """Take a line that heads such columns, or a row below them."""
        named, words = columns(self.page, start, end), self.page.words(start, end)
        if named:
            self.context = self.context.anew("cutting")
            self.by_fabric = named
            self.read.understood.append(words)
            return True
        cells = [*_CELL.finditer(self.page.plain, start, end)] if self.by_fabric else []
        if len(cells) > 2 and _LETTER.fullmatch(cells[0][0]) and (counts := self._counts(cells[2:])):
            self._take(of_words(self._of_row(cells[0], cells[1], counts), words))
            self.last_counts = [number for _, number, _ in counts]
            return True
        if len(cells) > 1 and _MAKES.fullmatch(cells[0][0]) and (counts := self._counts(cells[1:])):
            made = [number for _, number, _ in counts]
            if made == [number * GIVES["twice"] for number in self.last_counts]:
                self.read.remarks.append(words)
            else:
                self.read.questions.append(Question(words, NOT_UNDERSTOOD))
            return True
        self.by_fabric = ()
        return False

    def _counts(self, cells):
        """[(the fabric of its column, the number, its cell)] of these cells; none where one of them is no number, or
        stands under no head."""
        found: dict[Column, tuple[int, re.Match[str]]] = {}
        for one in cells:
            number = _NUMBER.fullmatch(one[0])
            column = min(self.by_fabric, key=lambda head: abs(head.place - _place(self.page, one)))
            if column in found or not number and not _NONE.fullmatch(one[0]):
                return []
            if number:
                found[column] = int(number[1]), one
        return [(column.said, *found[column]) for column in self.by_fabric if column in found]

    def _of_row(self, letter, size, counts):
        """What a row says: so many pieces of a size of each fabric; asked where a fabric may be one of several, or what
        is cut in four squares or triangles."""
        quartered = _QUARTERED.search(size[0])
        cut = chunked(self.page.plain, size.start(), size.start() + quartered.start() if quartered else size.end())
        diagonal = [Chunk("twice", size.end(), size.end())] if quartered else []
        entries: list[Entry] = []
        questions: list[Question] = []
        words = self.page.words(letter.start(), counts[-1][-1].end())
        for said, number, cell in counts:
            name = Chunk("label", letter.start(), letter.end(), letter[0])
            chunks = [name, Chunk("count", cell.start(), cell.end(), number), *opened(cut), *diagonal]
            fabrics = self._called(said)
            self.context.fabrics = fabrics[:1]
            read = self._reading(chunks)
            self.context.fabrics = ()
            if read is None or read.questions or not read.entries:
                return Reading(questions=(Question(words, NOT_UNDERSTOOD),))
            if len(fabrics) > 1:
                of_each = (Choice(one, tuple(entry.but(fabric=one) for entry in read.entries)) for one in fabrics)
                questions.append(
                    Question(words, f"from which fabric are the {number} {letter[0].upper()}?", (*of_each,))
                )
            else:
                entries += read.entries
        if quartered and not _BOTH_DIAGONALS.search(self.page.plain):
            choice = Choice("four triangles, on both diagonals", tuple(entries))
            return Reading((), (*questions, Question(words, "what are these cut in four into?", (choice,))))
        return Reading(tuple(entries), tuple(questions))

    def _called(self, said):
        """The fabrics that a head may name: those whose names hold its words, but for such as are bought for the border
        and the binding alone; it itself where none does."""
        known = [one for one in self.context.known if naming.key(said) <= naming.key(one)]
        pieces = [one for one in known if not self._is_for_borders(one)] if len(known) > 1 else known
        return tuple(pieces or known) or (self.context.lettered.get(said, said),)

    def _is_for_borders(self, fabric):
        """Whether all that a fabric is told to be bought for are borders and the binding."""
        bought = next((one for one in self.read.entries if one.path == ("fabric", fabric)), None)
        told = opened(chunked(self.page.plain, bought.words.start, bought.words.end)) if bought else []
        behind = [one for one in told if any(first.kind == "for" and first.start < one.start for first in told)]
        places = naming.roles(behind, self.page.plain)
        words = {self.page.said(one) for one in behind if one.kind == "word"}
        return bool(places) and not words - {"the"} and all(one == "binding" or "border" in one for one in places)
