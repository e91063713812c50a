"""Lines of a page whose cells stand side by side: read cell by cell, or across, or under the heads above them."""

from __future__ import annotations

import re
from dataclasses import replace

from . import columns, following, heads, logs, naming
from .chunks import FIGURES, MEASURES, all_of, chunked, count, opened
from .clauses import Clauses
from .model import Context, Entry, Reading
from .rules import OF_THE_WHOLE

_ARROW = re.compile(r"→|->|=>")
_LETTER = re.compile(r"\W*([a-z]\d?)(?:\s{2,}|(?<=\([a-z])\)\s+)(?=\(?\d|(?:cut\s+)?(?:strips?\s|\(?\d))")
_ONE_COLUMN = re.compile(r"fabrics?|materials?|cut|blocks?|units?")
MOST_WORDS = 4
"""Of a cell that says what pieces are for."""


_SAYS_MORE = ("label", "from", "cut", "into", "once", "twice", "of_each", "each", "caution")
"""What a cell holds that says more of its row than what this is for."""


class InCells(Clauses):
    """Reads the lines of one page that stand in columns."""

    def _in_cells(self, start, end):
        """Take a line whose cells stand side by side: heads, a label before its row, or what is read cell by cell."""
        cells = columns.cells(self.page.plain, start, end)
        if len(cells) > 1 and (self._buys_and_cuts(cells, end) or self._before_its_purpose(cells)):
            return True
        if self._only_buys(start, end):
            return False
        if len(cells) > 1 and (self._in_margin_of(cells) or self._is_title(*cells[0])):
            self._line(cells[1][0], end)
            return True
        if len(cells) > 1 and self._abreast(cells):
            return True
        if label := self._names_a_row(cells, start, end):
            before = self.context.last, [*self.read.entries]
            self._line(label.end, end)
            cut = [one for one in self.read.entries if one.table == "cut" and one not in before[1]]
            if len(self.context.last) == 1 and self.context.last is not before[0] and len(cut) == 1:
                following.labelled(label.value, self.page.words(label.start, label.end), self.read, self.context)
            return True
        if len(cells) < 2 or not self._each_alone(cells):
            return False
        self._cell_by_cell(cells, end)
        return True

    def _buys_and_cuts(self, cells, end):
        """Take a row that names a fabric, and perhaps its place, says how much of it is bought and then what is cut of
        it: "Navy | binding | 1/2 yd | 6 strips | 2 1/2 in x WOF"; gaps part two columns too."""
        page, told = self.page, [chunked(self.page.plain, *cell) for cell in cells]
        at = next((place for place, one in enumerate(told) if [each.kind for each in one] == ["yards"]), 0)
        in_bars = "|" in page.plain[cells[0][1] : cells[1][0]]
        if not at or len(cells) - at < (2 if in_bars else 3):
            return False
        rest = cells[at + 1][0]
        places = [one for one in told[:at] if {each.kind for each in one} == {"role"}]
        names = [page.words(*cell).text for cell, one in zip(cells[:at], told) if one not in places]
        pieces = opened(chunked(page.plain, rest, end))
        cut = count(pieces, "count") and count(pieces, *MEASURES) and not count(pieces, "yards")
        if len(names) != 1 or not naming.is_of_fabric(names[0]) or len(places) > 1 or not cut:
            return False
        if naming.is_of_fabric(naming.described(pieces, page)):
            return False
        fabric = naming.known(names[0], self.context.known) or names[0]
        bought = {"bought": told[at][0].value.sides[0].text}
        self._take(Reading((Entry("fabric", bought, page.words(cells[0][0], cells[at][1]), fabric),)))
        place = naming.role(places[0], Context(), page.plain) if places else ""
        self._apply(heads.Head((fabric,), rest, role=place))
        self._sentences(rest, end)
        self._apply(heads.Head((), 0))
        return True

    def _before_its_purpose(self, cells):
        """Take a line whose last cell only says what is made of the pieces, or of the fabric, that stand before it."""
        page, (first, last) = self.page, ((cells[0][0], cells[-2][1]), cells[-1])
        before, words = opened(chunked(page.plain, *first)), page.words(*last)
        told = opened(chunked(page.plain, *last))
        cut = count(before, "count") and count(before, *MEASURES) and self.context.fabrics
        buys = count(before, "yards") and self._first(OF_THE_WHOLE, chunked(page.plain, first[0], last[1])) is None
        if not (cut or buys) or count(told, *FIGURES, *_SAYS_MORE):
            return False
        named = naming.known(words.text, self.context.known) or words.text.endswith(":")
        if named or len(words.text.split()) > MOST_WORDS:
            return False
        kept = [*self.read.entries]
        self._clause(*first)
        place = naming.role(told, replace(self.context, role=""), page.plain)
        for one in [one for one in self.read.entries if one not in kept and place not in ("", "?")]:
            if one.table == "cut" and not one.role:
                self.read.put(one, replace(one, role=place))
            elif one.table == "fabric" and (place == "binding" or place.endswith("border")):
                self.context.purposes[one.name] = place
        self.read.understood.append(words)
        return True

    def _of_its_letter(self, start, end):
        """Take a line that begins with the letter of a fabric that is bought: "A  5 strips 7 in", below "Fabric A"
        or "A  Navy dot  1 yd"; lines that stand set in below its pieces are cut from that one too."""
        letter = _LETTER.match(self.page.plain, start, end) if self.context.section == "cutting" else None
        names = [
            one.name
            for one in self.read.entries
            if letter and one.table == "fabric" and re.match(rf"fabric {letter[1]}\b", one.name.casefold())
        ]
        if letter and letter[1] in self.context.lettered:
            names = [self.context.lettered[letter[1]]]
        if letter is None or len(names) != 1:
            return False
        self._apply(heads.Head((names[0],), letter.end()))
        self.read.understood.append(self.page.words(start, letter.end()))
        self._sentences(letter.end(), end)
        self.context.beside, self.context.hanging = end, self._column(letter.end(), end)
        return True

    def _cell_by_cell(self, cells, end):
        """Take the cells of a line one after the other: pieces beside what is bought are of any fabric of the list."""
        plain, here = self.page.plain, self.context
        bought = [count(chunked(plain, *cell), "yards") > 0 for cell in cells]
        hanging = here.hanging if self._hangs(cells[0][0]) else self._column(*cells[1])
        of_row = any(_ARROW.match(plain, *cell) for cell in cells)  # a fabric, its strips and their pieces
        here.beside = 0
        for cell, buys in zip(cells, bought):
            if any(bought) and not buys and not of_row and count(chunked(plain, *cell), *FIGURES):
                self.context.above, self.context.fabrics = self.context.fabrics, ()
            self.context.below_strips = bool(_ARROW.match(plain, *cell))
            self._clause(*cell)
        self.context.beside, self.context.hanging = end, hanging

    def _of_logs(self, start, end):
        """Take a line of several logs side by side, of one with its count, or the head of their columns, below the head
        of a list of logs."""
        abreast = logs.abreast(self.page, start, end) or logs.counted(self.page, start, end, self.logs)
        for one in abreast:
            self._sentences(*one)
        if logs.heads_columns(self.page, start, end):
            self.read.understood.append(self.page.words(start, end))
            return True
        return bool(abreast)

    def _names_a_row(self, cells, start, end):
        """The letter that a line begins with before the name of its fabric, in a column of its own or in a bracket."""
        label = next(iter(chunked(self.page.plain, *(cells[0] if cells else (start, end)))), None)
        behind = chunked(self.page.plain, cells[1][0], end) if len(cells) > 2 else []
        numbered = label and re.fullmatch(
            r"(?:unit|piece|patch|no\.?|#)?\s*#?(\d{1,2})", self.page.plain[slice(*cells[0])].strip()
        )
        if numbered and count(behind, "count") and count(behind, *MEASURES) and behind[0].kind == "word":
            return label._replace(kind="label", value=numbered[1], end=cells[0][1])
        if label is None or label.kind != "label":
            return None
        if len(cells) > 1:
            return None if count(chunked(self.page.plain, *cells[0]), *FIGURES) else label
        behind = self.page.plain[label.end : label.end + 3]
        apart = self.page.plain[label.start] in "([" or behind[:1] in (".", ")") or behind == " - "
        found = heads.head(self.page, label.end + 1, end, self.context) if apart else None
        return label if found and found.fabrics and found.rest < end else None

    def _in_margin_of(self, cells):
        """Whether the first cell heads a section; "Fabric" beside cells without figures heads a column."""
        said = self.page.plain[slice(*cells[0])].strip(" :")
        beside = opened(chunked(self.page.plain, cells[1][0], cells[-1][1]))
        return not (_ONE_COLUMN.fullmatch(said) and not count(beside, *FIGURES)) and self._in_the_margin(*cells[0])

    def _only_buys(self, start, end):
        """Whether the one figure of a line is a length to buy, or how many fat quarters are bought."""
        flat = opened(chunked(self.page.plain, start, end))
        figures = [one.kind for one in all_of(flat, *FIGURES)]
        return (
            figures == ["yards"] or figures == ["count"] and count(flat, "fat_quarter") == 1 and not count(flat, "cut")
        )

    def _abreast(self, cells):
        """Take heads that stand side by side, or a line of as many cells under them, one under each."""
        page = self.page
        found = [heads.head(page, *cell, self.context) for cell in cells]
        if all(
            one and one.fabrics and not page.plain[one.rest : cell[1]].strip(" :") for one, cell in zip(found, cells)
        ):
            self.heads_abreast = [one.fabrics for one in found if one]
            self.context = self.context.anew("cutting")
            for names in self.heads_abreast:
                self.context.known += [name for name in names if name not in self.context.known]
            self.read.understood.append(page.words(cells[0][0], cells[-1][1]))
            return True
        cells = columns.by_labels(page.plain, cells, len(self.heads_abreast))
        if len(self.heads_abreast) != len(cells) or any(found):
            return False
        for fabrics, cell in zip(self.heads_abreast, cells):
            self.context.fabrics = fabrics
            self._sentences(*cell)
        self.context.fabrics = ()
        return True

    def _each_alone(self, cells):
        """Whether each cell of a line can be read without the others; what trying leaves behind is taken back."""
        before = self._state()
        try:
            for start, end in cells:
                if self._first(OF_THE_WHOLE, chunked(self.page.plain, start, end)) is not None:
                    continue
                found = heads.head(self.page, start, end, self.context)
                if found:
                    self._apply(found)
                    start = found.rest
                    if not self.page.plain[start:end].strip(" :-"):
                        continue
                chunks = chunked(self.page.plain, start, end)
                if not count(opened(chunks), *FIGURES) or self._reading(chunks) is None:
                    return False
            return True
        finally:
            self.context, self.read = before
