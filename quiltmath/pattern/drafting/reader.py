"""A page read line by line: what each line says under the heads above it, and what has to be asked."""

from __future__ import annotations

import re
from dataclasses import replace

from . import (
    accounted,
    columns,
    columns_of_sizes,
    following,
    for_each_block,
    heads,
    in_turn,
    logs,
    naming,
    said_of_all,
    sections,
)
from .chunks import FIGURES, MEASURES, NAMED, all_of, chunked, count, opened
from .clauses import Clauses
from .kept import Kept
from .model import Question
from .rules import OF_THE_WHOLE

_NUMBERED = re.compile(r"\s*(?:\d{1,2}[.)](?=\s)(?!\s*\d+\s*/)|\(\d{1,2}\)(?=\s*cut\s+\(?\d+\)?\s+[a-z]))")
_STEP = re.compile(r"\s*(?P<bracket>\()?(?P<number>\d{1,2})(?(bracket)\))\s+(?=[A-Z][a-z]+\b(?!\s*\d))")
_FIRST_STEP = re.compile(r"\W*steps?\s+(?:1|one)\b\s*[.:)-](?!\s*cut)")
_BEGINS = re.compile(r"(?:[\s→>=-]|\d{1,2}[.)]\s)*")
_ARROW = re.compile(r"→|->|=>")
_NOT_INCLUDED = re.compile(r"(?<=[\w\"]{2})[.;(]\s*(?P<told>[^.;()\d]*\bnot\s+included\b)\W*$")
_WITH_REMARK = re.compile(r"(?P<head>[^():]{3,40})\((?P<rest>[^()]+)\)[\s:=*-]*")
_SAYS_MORE = re.compile(r"make\b|\d+\s+(?:blocks|of)\b|\d+$")
"""A remark behind the head of a section that counts what is made there."""
_WITH_WIDTH = re.compile(r"(?P<head>[^():,\d]{3,40}),\s*(?P<rest>[^(),:]*\d[^(),:]*\bwide)\W*")
_RUN_IN = re.compile(
    r"(?P<head>(?:[^.:\d]|\.(?=\s?(?:[a-z]{2,6}\.?)?:)){3,40}?(?:\.(?!\s?[a-z]{2,6}\.?:)|:|\s-))\s+(?P<rest>\S.*)",
    re.DOTALL,
)
"""Heads of a section with a remark in brackets, with the width of fabric, or before what begins behind them."""
_OF_FABRIC = re.compile(r"\W*(?P<name>[^:;\d]{2,40}?)\s*:")
_PRECUT = re.compile(
    r"\W*(?:(?:pieces\s+)?(?:already\s+cut|pre-?cut)(?:\s+pieces)?(?:\s+for\s+you|\s+in\s+(?:the|your|this)\s+kit)?)\s*:"
)
_LETTER = re.compile(r"\W*([a-z])\s{2,}(?=\(?\d)")
_ONE_COLUMN = re.compile(r"fabrics?|materials?|cut|blocks?|units?")

MOST_WORDS = 4
"""Of a cell that says what pieces are for."""
LONGEST_LINE = 4_000
"""Signs: a longer line is no line of a page."""


class Reader(Clauses):
    """Reads one page, line by line, under its heads."""

    def all(self) -> Kept:
        """The whole page."""
        lines = self.page.lines()
        for start, end in lines:
            self._line(start, end)
        accounted.ask_what_is_lost(self.page, lines, self.read, self.context.lettered)
        self.read.questions += [*said_of_all.questions(self.page, lines, self.read)]
        self.read.remarks += self.page.furniture
        self.read.finish()
        return self.read

    def _cuts_what_is_bought(self, start, end):
        """Whether a line counts pieces of a size of a fabric that is bought by length above it: it is one of the
        cutting list, though no head of one stands over it."""
        named = _OF_FABRIC.match(self.page.plain, start, end)
        key = naming.key(named["name"]) if named else frozenset()
        if not key or not any(
            one.table == "fabric" and "bought" in one.data and naming.key(one.name) == key for one in self.read.entries
        ):
            return False
        flat = opened(chunked(self.page.plain, named.end(), end))
        return bool(count(flat, "count") and count(flat, *MEASURES) and not count(flat, "yards", "fat_quarter"))

    def _counts_steps(self, number):
        """Whether lines of the page begin with the number before this one, or the next, as steps do."""
        beside = (rf"^[ \t]*\(?{other}\)?\s+[A-Z][a-z]" for other in (number - 1, number + 1))
        return any(re.search(one, self.page.text, re.MULTILINE) for one in beside)

    def _is_all_cut(self, start, end):
        """Whether pieces are cut above, and a line begins to tell how they are sewn."""
        cut = any(one.table == "cut" for one in self.read.entries)
        return cut and sections.heads_sewing(self.page, start, end)

    def _line(self, start, end):
        """Take a line in the first of the ways that is its own, else as a clause."""
        self.context.below_strips = self._stands_below_strips(start)
        if self._of_no_one_piece(start, end):
            return
        start, end = self._without_its_number(start, end)
        ways = (
            self._below_a_size, self._cut_first_and_second, self._of_table, self._cut_in_turn, self._of_one_block,
            self._in_the_margin, self._precut, self._titles, self._for_things, self._beside_one_block, self._of_its_letter,
            self._in_cells
        )  # fmt: skip
        if not any(way(start, end) for way in ways):
            self._clause(start, end)

    def _of_no_one_piece(self, start, end):
        """Take a line that is too long for one, or tells of several sizes of the quilt."""
        page, words = self.page, self.page.words(start, end)
        if end - start > LONGEST_LINE:
            asks = f"this is one line of {end - start:,} signs: where do its lines end?"
            self.read.questions.append(Question(words, asks))
            return True
        if self.logs and self._of_logs(start, end):
            return True
        if columns_of_sizes.heads_the_only_one(page, start, end):
            self.read.understood.append(words)
            return True
        of_sizes = columns_of_sizes.of_a_line(page, start, end)
        self.read.questions += [of_sizes] if of_sizes else []
        return of_sizes is not None

    def _without_its_number(self, start, end):
        """Where a line begins behind its number, and ends before what it says is not included."""
        page = self.page
        left_out = _NOT_INCLUDED.search(page.plain, start, end)
        if left_out:
            self.read.remarks.append(page.words(*left_out.span("told")))
            end = left_out.start()
        numbered = _NUMBERED.match(page.plain, start, end)
        if numbered:
            self.read.understood.append(page.words(*numbered.span()))
            start = numbered.end()
        step = _STEP.match(page.text, start, end) if self.context.section == "sewing" else None
        if step and self._counts_steps(int(step["number"])):
            self.read.understood.append(page.words(*step.span()))
            start = step.end()
        return start, end

    def _below_a_size(self, start, end):
        """Take a line that begins with the size of its quilt: "Cot quilt. Please cut: 35 squares 6 in"."""
        sized = said_of_all.heads_a_size(self.page, start, end)
        if not sized or sized.end() >= end:
            return False
        self.read.understood.append(self.page.words(*sized.span()))
        self._line(sized.end(), end)
        return True

    def _cut_first_and_second(self, start, end):
        """Take a line that heads what is cut first and second; begin the section that another is the first line of."""
        if _FIRST_STEP.match(self.page.plain, start, end):
            self.context = self.context.anew("sewing")
        if self.context.section != "sewing" and self._is_all_cut(start, end):
            self.context = self.context.anew("sewing")
        if in_turn.heads_both(self.page, start, end):
            self.context.second_cut = True
            self.read.understood.append(self.page.words(start, end))
            return True
        if self.context.section == "buying" and self._cuts_what_is_bought(start, end):
            self.context = self.context.anew("cutting")
        return False

    def _of_one_block(self, start, end):
        """Take a line that says no more than that what is below it is cut for one block, or for all."""
        return for_each_block.said(start, end, self.read, self.context, self.page)

    def _precut(self, start, end):
        """Take a line that begins with the head of what is cut already."""
        precut = _PRECUT.match(self.page.plain, start, end)
        if precut is None:
            return False
        self.context = self.context.anew("buying")
        self.read.understood.append(self.page.words(*precut.span()))
        if self.page.plain[precut.end() : end].strip():
            self._line(precut.end(), end)
        return True

    def _titles(self, start, end):
        """Take the title of the page."""
        return len(columns.cells(self.page.plain, start, end)) < 2 and self._is_title(start, end)

    def _for_things(self, start, end):
        """Take a line that begins with the things that its pieces are for, and how many there are of these."""
        before, pieces = self.context.of_block, for_each_block.of_things(start, end, self.context, self.page)
        if not pieces:
            return False
        self.read.understood.append(self.page.words(start, pieces))
        self._clause(pieces, end)
        self.context.of_block = before
        return True

    def _beside_one_block(self, start, end):
        """Take a line that tells with its pieces that they are for one block."""
        of_one = for_each_block.beside(start, end, self.read, self.context, self.page)
        if not of_one:
            return False
        before, self.context.each_block = self.context.each_block, True
        self._clause(*of_one)
        self.context.each_block = before
        return True

    def _in_cells(self, start, end):
        """Take a line whose cells stand side by side: heads, a label before its row, or what is read cell by cell."""
        cells = columns.cells(self.page.plain, start, end)
        if len(cells) > 1 and self._before_its_purpose(cells):
            return True
        if self._only_buys(start, end):
            return False
        if len(cells) > 1 and (self._in_margin_of(cells) or self._is_title(*cells[0])):
            self._line(cells[1][0], end)
            return True
        if len(cells) > 1 and self._abreast(cells):
            return True
        if label := self._names_a_row(cells, start, end):
            before = self.context.last
            self._line(label.end, end)
            if len(self.context.last) == 1 and self.context.last is not before:
                following.labelled(label.value, self.page.words(label.start, label.end), self.read, self.context)
            return True
        if len(cells) < 2 or not self._each_alone(cells):
            return False
        self._cell_by_cell(cells, end)
        return True

    def _before_its_purpose(self, cells):
        """Take a line whose last cell only says what is made of the pieces, or of the fabric, that stand before it."""
        page, (first, last) = self.page, ((cells[0][0], cells[-2][1]), cells[-1])
        before, words = opened(chunked(page.plain, *first)), page.words(*last)
        told = opened(chunked(page.plain, *last))
        cut = count(before, "count") and count(before, *MEASURES) and self.context.fabrics
        buys = count(before, "yards") and self._first(OF_THE_WHOLE, chunked(page.plain, first[0], last[1])) is None
        if not (cut or buys) or count(
            told, *FIGURES, "label", "from", "cut", "into", "once", "twice", "of_each", "each", "caution"
        ):
            return False
        if (
            naming.known(words.text, self.context.known)
            or words.text.endswith(":")
            or len(words.text.split()) > MOST_WORDS
        ):
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
        """Take a line that begins with the letter of a fabric that is bought: "A  5 strips 7 in", below "Fabric A"."""
        letter = _LETTER.match(self.page.plain, start, end) if self.context.section == "cutting" else None
        names = [
            one.name
            for one in self.read.entries
            if letter and one.table == "fabric" and re.match(rf"fabric {letter[1]}\b", one.name.casefold())
        ]
        if letter is None or len(names) != 1:
            return False
        self._apply(heads.Head((names[0],), letter.end()))
        self.read.understood.append(self.page.words(start, letter.end()))
        self._sentences(letter.end(), end)
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
        """Take a line of several logs side by side, or the head of their columns, below the head of a list of logs."""
        abreast = logs.abreast(self.page, start, end)
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
        apart = self.page.plain[label.start] == "(" or behind[:1] in (".", ")") or behind == " - "
        found = heads.head(self.page, label.end + 1, end, self.context) if apart else None
        return label if found and found.fabrics and found.rest < end else None

    def _stands_below_strips(self, start):
        """Whether a line stands below the strips before it as what is cut from them: these are told to be cut up, or it
        begins with an arrow, is set in deeper or has a bullet of its own."""
        here, plain = self.context, self.page.plain
        if not here.strips:
            return False
        if here.wants_pieces:
            return True
        above = here.strips[0].words.start
        (column, bullet), (column_above, bullet_above) = self._margin(start), self._margin(above)
        begins = _BEGINS.match(plain, plain.rfind("\n", 0, above) + 1)
        if bullet == "→" or begins.end() < above:  # strips behind other words have no margin of their own
            return bullet == "→"
        return column > column_above or bool(bullet and bullet_above and bullet != bullet_above)

    def _margin(self, place):
        """The column in which a line begins that goes on at a place, and its bullet."""
        first = self.page.plain.rfind("\n", 0, place) + 1
        begins = _BEGINS.match(self.page.plain, first)
        sign = _ARROW.search(begins[0])
        return begins.end() - first, "→" if sign else self.page.text[first : begins.end()].strip()[:1]

    def _in_margin_of(self, cells):
        """Whether the first cell heads a section; "Fabric" beside cells without figures heads a column."""
        said = self.page.plain[slice(*cells[0])].strip(" :")
        beside = opened(chunked(self.page.plain, cells[1][0], cells[-1][1]))
        return not (_ONE_COLUMN.fullmatch(said) and not count(beside, *FIGURES)) and self._in_the_margin(*cells[0])

    def _in_the_margin(self, start, end):
        """Begin a section where these words head one, alone on a line or in the margin beside it."""
        said = _WITH_REMARK.fullmatch(self.page.plain, start, end) or _WITH_WIDTH.fullmatch(self.page.plain, start, end)
        said = said or _RUN_IN.match(self.page.plain, start, end)
        kind = sections.section((said["head"] if said else self.page.plain[start:end]).strip(" -"))
        run_in = said and said.re is _RUN_IN and not self.page.text[slice(*said.span("head"))].isupper()
        buys = kind == "buying" and said and count(chunked(self.page.plain, *said.span("rest")), "yards", "fat_quarter")
        if run_in and not buys:  # "Materials: 3 yards white" is one
            kind = said = None
        of_blocks = kind == "sewing" and said and said.re is _WITH_REMARK
        if of_blocks and _SAYS_MORE.search(said["rest"].strip()):
            return False
        if kind == "sewing" and not said and self._heads_pieces(start, end):
            self.context.role = self.context.role_above = ""
            self.context.lengthwise = False
            self.read.understood.append(self.page.words(start, end))
            return True
        if kind:
            self.context = self.context.anew(kind)
            self.noun, self.shared, self.counted = "", [], 0
            self.read.understood.append(self.page.words(start, said.end("head") if said else end))
            if said:
                self._line(*said.span("rest"))
        return kind is not None

    def _heads_pieces(self, start, end):
        """Whether words that could head what is sewn ("Blocks:") say what pieces right below them are for, under a head
        that holds for these."""
        parted = re.search(r"\n\s*\n\s*$", self.page.plain[:start])
        return bool(self.context.fabrics) and sections.is_above_pieces(self.page, end) and not parted

    def _is_title(self, start, end):
        """Keep words at the very beginning of a page as its title: no digits stand in them, a number word may."""
        page, words = self.page, self.page.words(start, end)
        chunks = opened(chunked(page.plain, start, end))
        in_words = {"count"} if count(chunks, *NAMED) else {"count", "size"}
        told = count(chunks, *(FIGURES - in_words), "finished", "cut", "from")
        told += bool(chunks) and naming.is_numbered(page.said(chunks[0]))
        numbered = sum(len(re.findall(r"\d", page.said(one))) for one in all_of(chunks, "ref"))  # "Project 3"
        if page.plain[: words.start].strip() or len(re.findall(r"\d", words.text)) > numbered or told:
            return False
        if len(words.text.split()) < 3 and sections.is_above_pieces(page, end):  # a fabric may be called so
            self.context.section = "cutting"
            return False
        no_head = heads.head(page, start, end, self.context) is None or sections.is_above_no_piece(page, words)
        titled = no_head and page.has_more(end)
        self.read.remarks += [words] if titled else []
        return titled

    def _only_buys(self, start, end):
        """Whether the one figure of a line is a length to buy."""
        figures = all_of(opened(chunked(self.page.plain, start, end)), *FIGURES)
        return [one.kind for one in figures] == ["yards"]

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
