"""A page read line by line: what each line says under the heads above it, and what has to be asked."""

from __future__ import annotations

import re
from dataclasses import replace

from . import doubtful, following, for_each_block, heads, prose, sets
from .chunks import FIGURES, Chunk, all_of, chunked, count, opened
from .kept import Kept
from .model import Context, Entry, Question, Reading
from .page import Page
from .rules import OF_CUTTING, OF_SEWING, OF_THE_WHOLE, first
from .vocabulary import HANDLED

_CELLS = re.compile(r"(?:[^\S\n]{3,}|\t)[^\S\n]*|\s+\|\s+")
_SENTENCE = re.compile(r"(?<=[a-z\")\d])(?<!\bin)(?<!\byd)(?<!\byds)(?<!\bsq)(?<!\bapprox)\.\s+(?=[a-z(\d])|;\s*")
_ENDS_CLAUSE = re.compile(r"\s*(?:,|;|\band\b|&|\+)\s*")


_NUMBERED = re.compile(r"\s*\d{1,2}[.)](?=\s)(?!\s*\d+\s*/)")
_FOOTER = re.compile(
    r"\bwww\.|https?:|©|\bcopyright\b|\ball rights reserved\b|\bpage \d+ of \d+\b|^\s*(?:page\s+)?\d{1,3}\s*$"
)


LONGEST_LINE = 4_000
"""Signs: a longer line is no line of a page."""


class Reader:
    """Reads one page; what holds from line to line is its `context`."""

    def __init__(self, page: Page) -> None:
        self.page, self.context = page, Context()
        self.read = Kept()
        self.noun = ""
        self.heads_abreast: list[tuple[str, ...]] = []

    def all(self) -> Kept:
        """The whole page."""
        for start, end in self.page.lines():
            self._line(start, end)
        self.read.finish()
        return self.read

    def _line(self, start, end):
        page = self.page
        if end - start > LONGEST_LINE:
            words = page.words(start, end)
            self.read.questions.append(
                Question(words, f"this is one line of {end - start:,} signs: where do its lines end?")
            )
            return
        if _FOOTER.search(page.plain, start, end):
            self.read.remarks.append(page.words(start, end))
            return
        numbered = _NUMBERED.match(page.plain, start, end)
        if numbered:
            self.read.understood.append(page.words(*numbered.span()))
            start = numbered.end()
        if self._in_the_margin(start, end) or (page.has_more(end) and self._is_title(start, end)):
            return
        if for_each_block.said(start, end, self.read, self.context, page):
            return
        if self._only_buys(start, end):
            self._clause(start, end)
            return
        cells = self._cells(start, end)
        if len(cells) > 1 and (self._in_the_margin(*cells[0]) or self._is_title(*cells[0])):
            self._line(cells[1][0], end)
            return
        if len(cells) > 1 and self._abreast(cells):
            return
        if len(cells) > 1 and self._each_alone(cells):
            bought = [count(chunked(page.plain, *cell), "yards") > 0 for cell in cells]
            for cell, buys in zip(cells, bought):
                if any(bought) and not buys and count(chunked(page.plain, *cell), *FIGURES):
                    self.context.fabrics = ()  # beside a shopping list stand pieces of any fabric
                self._clause(*cell)
            return
        self._clause(start, end)

    def _in_the_margin(self, start, end):
        """Begin a section where these words head one, alone on a line or in the margin beside it."""
        kind = heads.section(self.page.plain[start:end].strip())
        if kind:
            before = self.context
            self.context = Context(known=before.known, sets=before.sets, pieces=before.pieces, section=kind)
            self.noun = ""
            self.read.understood.append(self.page.words(start, end))
        return kind is not None

    def _is_title(self, start, end):
        """Keep words at the very beginning of a page as its title: no digits stand in them, a number word may."""
        words = self.page.words(start, end)
        first = not self.page.plain[: words.start].strip() and not re.search(r"\d", words.text)
        chunks = opened(chunked(self.page.plain, start, end))
        named = first and not count(chunks, *(FIGURES - {"count"}), "role", "finished", "cut", "from")
        if named and heads.head(self.page, start, end, self.context) is None:
            self.read.remarks.append(words)
            return True
        return False

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
            self.context = Context(known=self.context.known, sets=self.context.sets, pieces=self.context.pieces)
            self.context.section = "cutting"
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

    def _cells(self, start, end):
        """The cells of a line that stands in columns."""
        found, at = [], start
        for match in _CELLS.finditer(self.page.plain, start, end):
            if self.page.plain[at : match.start()].strip(" |"):
                found.append((at, match.start()))
            at = match.end()
        if self.page.plain[at:end].strip(" |"):
            found.append((at, end))
        for place in reversed(range(len(found) - 1)):  # a letter belongs to what it names
            if re.fullmatch(r"\s*[(]?[a-z]\d?[).:]?\s*", self.page.plain[slice(*found[place])]):
                found[place : place + 2] = [(found[place][0], found[place + 1][1])]
        return found

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

    def _state(self):
        """What is known and kept so far, apart from what comes of trying a line."""
        return self.context.copied(), self.read.copied()

    def _clause(self, start, end):
        """A line, or a cell of one, with the head that it may begin with."""
        page, context = self.page, self.context
        again = following.repeated(start, end, self.read, context, page)
        if again is not None:
            self._take(again, keep=True)
            return
        chunks = chunked(page.plain, start, end)
        if count(opened(chunks), *FIGURES):
            whole = self._first(OF_THE_WHOLE, chunks)
            if whole is not None:
                self._take(whole)
                return
        found = heads.head(page, start, end, context)
        if found is None:
            self._sentences(start, end)
            return
        found = found._replace(scraps=found.scraps and not any(name in context.known for name in found.fabrics))
        rest = page.plain[found.rest : end].strip(" :-.")
        if not rest:
            self._apply(found)
            self._keep_head(found, start, end)
            return
        before = replace(context)
        self._apply(found)
        if found.role and not found.strong:
            self.read.understood.append(page.words(start, found.rest))
            self._sentences(found.rest, end)
            self.context = replace(before, known=self.context.known, sets=self.context.sets, last=self.context.last)
        else:
            self._keep_head(found, start, found.rest)
            self._sentences(found.rest, end)
            if found.times > 1 or (found.strong and found.role):
                self.context.times = before.times if not found.times > 1 else self.context.times

    def _apply(self, found):
        """Let a head hold for what follows."""
        here = self.context
        same = found.fabrics == here.fabrics
        here.below, here.doubtful = (), None
        self.heads_abreast = []
        here.fabrics = found.fabrics
        here.prints, here.per_print, here.times, here.role = found.prints, found.per_print, found.times, found.role
        here.known += [name for name in found.fabrics if name not in here.known]
        self.noun = "" if not same else self.noun

    def _keep_head(self, found, start, end):
        """What a head says besides: how many prints, or that it is cut from scraps."""
        words = self.page.words(start, end)
        if found.doubtful:
            self.context.doubtful = words
        for name in found.fabrics:
            if found.prints:
                self.read.add(Entry("fabric", {"prints": found.prints}, words, name))
            elif found.scraps:
                self.read.add(Entry("fabric", {"scraps": True}, words, name))
        self.read.understood.append(words)

    def _sentences(self, start, end):
        """What follows a head, sentence by sentence where it does not read as a whole."""
        plain, chunks = self.page.plain, self._chunks(start, end)
        if not chunks:
            return
        whole = self._reading(chunks)
        if whole is not None:
            self._take(whole)
            return
        parts, at = [], start
        for match in _SENTENCE.finditer(plain, start, end):
            if plain[at : match.start()].count("(") == plain[at : match.start()].count(")"):
                parts.append((at, match.start()))
                at = match.end()
        parts.append((at, end))
        for later, *part in self._going_on(parts):
            head = heads.head(self.page, *part, self.context) if later else None
            if head and self.page.plain[part[0] : head.rest].rstrip().endswith(":"):
                self._clause(*part)
            else:
                self._sentence(*part)

    def _going_on(self, parts):
        """The sentences of a line, (whether it is not the first, start, end) each: one that begins with what is done to
        the strips before it ("sub-cut …") is one with these, so that neither is read without the other."""
        found: list[tuple[bool, int, int]] = []
        for start, end in parts:
            chunks = self._chunks(start, end)
            goes_on = chunks and chunks[0].kind == "into" and found and not self._tells_a_set(found[0][1], start)
            if goes_on:
                found[-1] = (found[-1][0], found[-1][1], end)
            else:
                found.append((bool(found), start, end))
        return found

    def _tells_a_set(self, start, end):
        return self.context.strip_set is not None or count(chunked(self.page.plain, start, end), "sew", "strip_set") > 0

    def _chunks(self, start, end):
        chunks = chunked(self.page.plain, start, end)
        while chunks and chunks[0].kind in ("ref", "punct"):
            if chunks[0].kind == "ref":
                self.read.understood.append(self.page.words(chunks[0].start, chunks[0].end))
            chunks = chunks[1:]
        while chunks and chunks[-1].kind == "punct":
            chunks = chunks[:-1]
        return chunks

    def _sentence(self, start, end):
        chunks = self._chunks(start, end)
        words = self.page.words(start, end)
        if not chunks:
            if words.text:
                self.read.understood.append(words)
            return
        flat = opened(chunks)
        figures = count(flat, *FIGURES) or any(one.kind == "note" and count(one.value, *FIGURES) for one in chunks)
        if not figures or prose.counts_in_words(flat, words):
            self._without_figures(chunks, words)
            return
        read = self._reading(chunks) or self._in_parts(start, end)
        if read is not None:
            self._take(read)
        elif (prose.tells(chunks, self.page) and not self._behind_a_cut(words)) or (
            prose.only_made(flat) and self._follows_an_instruction(words)
        ):
            self.read.instructions.append(words)
            self.context.last = ()
        else:
            self.read.questions.append(doubtful.question(flat, words, self.context, self.page))
            self.context.last = ()

    def _reading(self, chunks):
        """What a sentence is read as by the first rule that takes all its figures; None where none does."""
        triangles = following.cut_to_triangles(chunks, self.read, self.context, self.page)
        if triangles is not None:
            return triangles
        total = following.total(chunks, self.read, self.context, self.page)
        if total is not None:
            return total
        if prose.is_prose(chunks, self.page) and not count(opened(chunks), "strip_set", "end_to_end", "strips"):
            return self._first(OF_SEWING, chunks)
        if prose.said(chunks, self.page) & HANDLED:
            return None
        if self.noun and not count(opened(chunks), "squares", "rectangles", "strips", "pieces", "triangles", "strip"):
            chunks = [*chunks, Chunk(self.noun, chunks[-1].end, chunks[-1].end)]
        return self._first((*OF_THE_WHOLE, *OF_CUTTING), chunks)

    def _first(self, rules, chunks):
        return first(rules, chunks, self.context, self.page)

    def _in_parts(self, start, end):
        """A sentence that says several lines, parted at commas and "and": read only where every part is."""
        plain = self.page.plain
        places = [
            match
            for match in _ENDS_CLAUSE.finditer(plain, start, end)
            if plain.count("(", start, match.start()) == plain.count(")", start, match.start())
        ]
        chunks = chunked(plain, start, end)
        begins = {one.start for one in chunks if one.kind in ("count", "cut", "length", "size")}
        cuts = [match for match in places if match.end() in begins]
        if not cuts or len(cuts) > 30:
            return None
        before = self._state()
        found, at = Reading(), start
        for stop, next_ in [*((match.start(), match.end()) for match in cuts), (end, end)]:
            part = self._chunks(at, stop)
            read = self._reading(part) if part and count(opened(part), *FIGURES) else None
            if read is None or read.questions:
                self.context, self.read = before
                return None
            found = Reading((*found.entries, *read.entries), (), (*found.remarks, *read.remarks))
            at = next_
        return found

    def _behind_a_cut(self, words):
        """Whether a sentence stands on the line of pieces that are cut: what it counts may be these."""
        last = self.context.last
        return bool(last) and self.page.lines_between(last[-1].words.end, words.start) == 0

    def _follows_an_instruction(self, words):
        """Whether the sentence before, on the same line or the line before, was kept as an instruction."""
        return bool(self.read.instructions) and not self.page.plain[self.read.instructions[-1].end : words.start].strip(
            " .;\n"
        )

    def _without_figures(self, chunks, words):
        """A sentence without figures: it may say more of the line before; else it is kept as it is."""
        flat = opened(chunks)
        if prose.is_prose(chunks, self.page):
            sets.begun(chunks, self.context, self.page)
            self.read.instructions.append(words)
            self.context.last = ()
            return
        diagonal = all_of(flat, "once", "twice")
        if diagonal and self.context.last:
            following.cut_on_the_diagonal(diagonal[0].kind, words, self.read, self.context)
            return
        nouns = all_of(flat, "squares", "rectangles", "strips")
        if len(nouns) == 1 and {one.kind for one in flat} <= {"cut", "punct", "article", nouns[0].kind}:
            self.noun = nouns[0].kind
        changes = count(flat, "of_each", "each") and count(flat, "cut", "from", "into")
        if (changes or diagonal) and self.context.last:
            self.read.questions.append(Question(words, "this changes what stands before it: how?"))
            return
        if self.context.fabrics and self._may_be_a_head(chunks, words):
            self.context.fabrics, self.context.doubtful = (), words
        self.read.remarks.append(words)

    def _may_be_a_head(self, chunks, words):
        """Whether a line that is no head the reader knows may yet be one: a few words alone."""
        alone = not self.page.plain[: words.start].rpartition("\n")[2].strip()
        said = count(chunks, "word")
        return alone and 0 < said <= 5 and not words.text.endswith(".")

    def _take(self, read, keep=False):
        """Keep what was read."""
        if self.context.each_block:
            read = for_each_block.in_all(read, self.read)
        for entry in read.entries:
            self.read.add(entry)
        self.read.questions.extend(read.questions)
        self.read.remarks.extend(read.remarks)
        if any(one.of_fabric for one in read.questions):
            self.context.fabrics = ()  # what comes below may be cut from either
        cut = tuple(one for one in read.entries if one.table in ("cut", "strip_set"))
        self.context.below += cut
        if self.context.doubtful and any("fabric" not in one.data for one in cut):
            asked = "is this the fabric that the lines below are cut from, or what they are for?"
            self.read.questions.append(Question(self.context.doubtful, asked))
            self.context.doubtful = None
        if cut and not keep:
            self.context.last = cut
        elif read.questions:
            self.context.last = ()
