"""A page read line by line: what each line says under the heads above it, and what has to be asked."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import NamedTuple

from . import buying, heads, naming, pieces, sets, stated, strips
from .chunks import FIGURES, Chunk, all_of, chunked, count, opened
from .model import Choice, Context, Entry, Question, Reading, Words
from .page import Page

OF_THE_WHOLE = (
    stated.seam,
    stated.width,
    stated.finished,
    buying.lining,
    buying.by_length,
    buying.packs,
    buying.as_pieces,
)
OF_CUTTING = (
    strips.whole_binding,
    strips.open_count,
    strips.joined,
    sets.cut_across,
    strips.sub_cut,
    sets.begun,
    sets.made,
    pieces.from_each,
    strips.strip,
    pieces.piece,
    pieces.size_first,
    stated.layout,
    stated.blocks,
    stated.units,
)
HANDLED = {
    "place",
    "placed",
    "press",
    "trim",
    "trimmed",
    "pin",
    "arrange",
    "lay",
    "mark",
    "draw",
    "fold",
    "position",
    "align",
    "turn",
    "flip",
    "rotate",
    "repeat",
}
PROSE = HANDLED | set(
    "place press trim pin arrange lay layer mark draw fold position align referring refer repeat turn flip open stack "
    "nest square quilt baste measure finger unfold rotate starting begin beginning continue center pressing sewn using "
    "iron chain clip match alternating alternate hand label store keep wash spray starch tip note".split()
)
_CELLS = re.compile(r"(?:[^\S\n]{3,}|\t)[^\S\n]*|\s+\|\s+")
_SENTENCE = re.compile(r"(?<=[a-z\")\d])(?<!\bin)(?<!\byd)(?<!\byds)(?<!\bsq)(?<!\bapprox)\.\s+(?=[a-z(\d])|;\s*")
_REPEAT = re.compile(
    r"\W*(?:repeat|do the same|same)\s+(?:this\s+|these\s+|the\s+same\s+)?(?:cuts?\s+|steps?\s+|cutting\s+)?(?:for|with|using|from)\s+(?P<names>.+?)\W*$"
)
_ENDS_CLAUSE = re.compile(r"\s*(?:,|;|\band\b|&|\+)\s*")


_NUMBERED = re.compile(r"\s*\d{1,2}[.)](?=\s)(?!\s*\d+\s*/)")
_FOOTER = re.compile(
    r"\bwww\.|https?:|©|\bcopyright\b|\ball rights reserved\b|\bpage \d+ of \d+\b|^\s*(?:page\s+)?\d{1,3}\s*$"
)


SAID_ONCE = ("binding", "backing", "batting")
"""The tables that one line of a page says whole: what another adds is another reading."""

LONGEST_LINE = 4_000
"""Signs: a longer line is no line of a page."""


class Read(NamedTuple):
    """What was read of a page: entries and questions in the order of their lines, remarks, and the title."""

    entries: list[Entry]
    questions: list[Question]
    remarks: list[Words]
    instructions: list[Words]
    understood: list[Words]
    """Heads, and words that say more of an entry that has others."""


class Reader:
    """Reads one page; what holds from line to line is its `context`."""

    def __init__(self, page: Page) -> None:
        self.page, self.context = page, Context()
        self.read = Read([], [], [], [], [])
        self.noun = ""
        self.heads_abreast: list[tuple[str, ...]] = []

    def all(self) -> Read:
        """The whole page."""
        for start, end in self.page.lines():
            self._line(start, end)
        self._finish()
        return self.read

    def _line(self, start, end):
        page = self.page
        if end - start > LONGEST_LINE:
            words = page.words(start, end)
            self.read.questions.append(Question(words, f"this is one line of {end - start:,} signs: where do its lines end?"))
            return
        if _FOOTER.search(page.plain, start, end):
            self.read.remarks.append(page.words(start, end))
            return
        numbered = _NUMBERED.match(page.plain, start, end)
        if numbered:
            self.read.understood.append(page.words(*numbered.span()))
            start = numbered.end()
        kind = heads.section(page.plain[start:end].strip())
        if kind:
            self.context = replace(
                Context(known=self.context.known, sets=self.context.sets, pieces=self.context.pieces), section=kind
            )
            self.noun = ""
            self.read.understood.append(page.words(start, end))
            return
        if self._only_buys(start, end):
            self._clause(start, end)
            return
        cells = self._cells(start, end)
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
        before, kept = self.context, {**vars(self.context)}
        self.context = replace(before, known=[*before.known], sets=[*before.sets])
        try:
            for start, end in cells:
                found = heads.head(self.page, start, end, self.context)
                if found:
                    self._apply(found)
                    start = found.rest
                    if not self.page.plain[start:end].strip(" :-"):
                        continue
                chunks = chunked(self.page.plain, start, end)
                if not count(opened(chunks), *FIGURES) or self._reading(chunks, start, end) is None:
                    return False
            return True
        finally:
            self.context = before
            vars(before).update(kept)

    def _clause(self, start, end):
        """A line, or a cell of one, with the head that it may begin with."""
        page, context = self.page, self.context
        repeated = _REPEAT.match(page.plain, start, end)
        if repeated and self._repeat(start, end, *repeated.span("names")):
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
            self._sentences(found.rest, end, start)
            self.context = replace(before, known=self.context.known, sets=self.context.sets, last=self.context.last)
        else:
            self._keep_head(found, start, found.rest)
            self._sentences(found.rest, end, start)
            if found.times > 1 or (found.strong and found.role):
                self.context.times = before.times if not found.times > 1 else self.context.times

    def _apply(self, found):
        """Let a head hold for what follows."""
        here = self.context
        same = found.fabrics == here.fabrics
        here.below = ()
        self.heads_abreast = []
        here.fabrics = found.fabrics
        here.prints, here.per_print, here.times, here.role = found.prints, found.per_print, found.times, found.role
        here.known += [name for name in found.fabrics if name not in here.known]
        self.noun = "" if not same else self.noun

    def _keep_head(self, found, start, end):
        """What a head says besides: how many prints, or that it is cut from scraps."""
        words = self.page.words(start, end)
        for name in found.fabrics:
            if found.prints:
                self._add(Entry("fabric", {"prints": found.prints}, words, name))
            elif found.scraps:
                self._add(Entry("fabric", {"scraps": True}, words, name))
        self.read.understood.append(words)

    def _sentences(self, start, end, from_=None):
        """What follows a head, sentence by sentence where it does not read as a whole."""
        from_ = start if from_ is None else from_
        plain = self.page.plain
        chunks = self._chunks(start, end)
        if not chunks:
            return
        whole = (
            None
            if _SENTENCE.search(plain, start, end) and not count(chunks, "into")
            else self._reading(chunks, start, end)
        )
        if whole is not None:
            self._take(whole)
            return
        parts, at = [], start
        for match in _SENTENCE.finditer(plain, start, end):
            if plain[at : match.start()].count("(") == plain[at : match.start()].count(")"):
                parts.append((at, match.start()))
                at = match.end()
        parts.append((at, end))
        if len(parts) > 1:
            whole = self._reading(chunks, start, end)
            if whole is not None:
                self._take(whole)
                return
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
        if not figures:
            self._without_figures(chunks, words)
            return
        read = self._reading(chunks, start, end) or self._in_parts(start, end)
        if read is not None:
            self._take(read)
        elif (self._is_prose(chunks) and not self._behind_a_cut(words)) or (
            self._only_made(flat) and self._follows_an_instruction(words)
        ):
            self.read.instructions.append(words)
        else:
            self.read.questions.append(self._question(flat, words))
            self.context.last = ()

    def _reading(self, chunks, start, end):
        """What a sentence is read as by the first rule that takes all its figures; None where none does."""
        page = self.page
        total = self._total(chunks)
        if total is not None:
            return total
        if self._is_prose(chunks) and not count(opened(chunks), "strip_set", "end_to_end", "strips"):
            return self._first((stated.layout, stated.seam), chunks)
        if self._said(chunks) & HANDLED:
            return None
        if self.noun and not count(opened(chunks), "squares", "rectangles", "strips", "pieces", "triangles", "strip"):
            chunks = [*chunks, Chunk(self.noun, chunks[-1].end, chunks[-1].end)]
        del page, start, end
        return self._first((*OF_THE_WHOLE, *OF_CUTTING), chunks)

    def _first(self, rules, chunks):
        return next((read for rule in rules if (read := rule(chunks, self.context, self.page)) is not None), None)

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
        kept = replace(self.context)
        found, at = Reading(), start
        for stop, next_ in [*((match.start(), match.end()) for match in cuts), (end, end)]:
            part = self._chunks(at, stop)
            read = self._reading(part, at, stop) if part and count(opened(part), *FIGURES) else None
            if read is None or read.questions:
                self.context = kept
                return None
            found = Reading((*found.entries, *read.entries), (), (*found.remarks, *read.remarks))
            at = next_
        return found

    def _is_prose(self, chunks):
        """Whether a sentence tells what is done with the pieces, by the verb that it begins with."""
        return count(chunks, "sew") > 0 or bool(self._said(chunks[:3]) & PROSE)

    def _said(self, chunks):
        return {self.page.plain[one.start : one.end] for one in chunks if one.kind == "word"}

    def _behind_a_cut(self, words):
        """Whether a sentence stands on the line of pieces that are cut: what it counts may be these."""
        last = self.context.last
        return bool(last) and self.page.lines_between(last[-1].words.end, words.start) == 0

    def _only_made(self, flat):
        """Whether a sentence only says how many are made: "Make 48"."""
        kinds = {one.kind for one in flat} - {"punct", "article", "total"}
        return kinds == {"make", "count"} and count(flat, "count") == 1

    def _follows_an_instruction(self, words):
        """Whether the sentence before, on the same line or the line before, was kept as an instruction."""
        return bool(self.read.instructions) and not self.page.plain[self.read.instructions[-1].end : words.start].strip(
            " .;\n"
        )

    def _without_figures(self, chunks, words):
        """A sentence without figures: it may say more of the line before; else it is kept as it is."""
        flat = opened(chunks)
        if self._is_prose(chunks):
            begun = self._first((sets.begun,), chunks)
            self.read.instructions.append(words)
            del begun
            return
        diagonal = all_of(flat, "once", "twice")
        if diagonal and self.context.last:
            self._cut_last(diagonal[0].kind, words)
            return
        nouns = all_of(flat, "squares", "rectangles", "strips")
        if len(nouns) == 1 and {one.kind for one in flat} <= {"cut", "punct", "article", nouns[0].kind}:
            self.noun = nouns[0].kind
        changes = count(flat, "of_each", "each") and count(flat, "cut", "from", "into")
        if (changes or diagonal) and self.context.last:
            self.read.questions.append(Question(words, "this changes what stands before it: how?"))
            return
        self.read.remarks.append(words)

    def _cut_last(self, cut, words):
        """ "Cut each in half diagonally" behind a line of squares."""
        last = self.context.last
        squares = [
            one
            for one in self.read.entries
            if (one in last or (one in self.context.below and words.line != last[-1].words.line))
            and isinstance(one.data.get("size"), str)
            and "cut" not in one.data
        ]
        if len(squares) == 1 and squares[0] in last:
            changed = replace(squares[0].but(cut=cut), remarks=(*squares[0].remarks, words.text))
            self._replace(squares[0], changed)
            self.context.last = (changed,)
        elif not squares and len(last) == 1 and last[0].data.get("cut") == cut:
            self.read.remarks.append(words)
        else:
            choices = tuple(
                Choice(f"{one.data.get('count')} squares {one.data['size']}", (one.but(cut=cut),)) for one in squares
            )
            self.read.questions.append(Question(words, "which squares are cut on the diagonal here?", choices))

    def _total(self, chunks):
        """What is said of the line before, to check it: "This gives 80 in all"."""
        flat = [one for one in opened(chunks) if one.kind not in ("punct", "article", "note")]
        said = {self.page.plain[one.start : one.end] for one in flat if one.kind == "word"}
        kinds = {one.kind for one in flat} - {"word"}
        counts = all_of(flat, "count")
        if len(counts) != 1 or not kinds & {"total", "make", "need", "left_over"} or self.context.strip_set is not None:
            return None
        if not kinds <= {
            "count",
            "total",
            "make",
            "need",
            "left_over",
            "squares",
            "rectangles",
            "pieces",
            "triangles",
            "strips",
            "unit",
            "for",
        } or not said <= {"this", "these", "you", "will", "be", "there", "it", "should", "of", "each", "which", "that"}:
            return None
        last = self.context.last
        words = self.page.words(chunks[0].start, chunks[-1].end)
        if not last or last[-1].table != "cut":
            return None
        if "left_over" in kinds:
            return Reading((), (), (words,))
        entry, number = last[-1], counts[0].value
        gives = {"once": 2, "twice": 4}.get(entry.data.get("cut", ""), 1)
        if "per_print" in entry.data and number % entry.data["per_print"] == 0:
            per = entry.data["per_print"]
            changed = entry.but(per_print=None, count=number)
            changed = replace(changed, remarks=(*entry.remarks, f"{per} from each of {number // per}"))
            self._replace(entry, changed)
            self.context.last = (changed,)
            self.read.questions[:] = [one for one in self.read.questions if one.words != entry.words]
            return Reading((), (), (words,))
        if len(last) == 1 and gives > 1 and number == gives * entry.data.get("count", 0):
            changed = entry.but(triangles=number)
            self._replace(entry, changed)
            self.context.last = (changed,)
            return Reading((), (), (words,))
        if sum(one.data.get("count", 0) for one in last) == number:
            return Reading((), (), (words,))
        return Reading(
            questions=(Question(words, "this does not come to what the line before it says: which is right?"),)
        )

    def _repeat(self, start, end, first, stop):
        """ "Repeat for the medium and the dark": the lines before, for these fabrics too."""
        words = self.page.words(start, end)
        names = heads.names(self.page, first, stop, self.context)
        last = [one for one in self.context.last if one.table in ("cut", "strip_set")]
        if names is None or not last or any(naming.named(name.casefold()) for name in names):
            return False
        if len({one.data.get("fabric") for one in last}) > 1 or re.search(
            r"\b(?:block|unit|row|side|corner|all|other|each)", self.page.plain[first:stop]
        ):
            self.read.questions.append(Question(words, "what is done again here, and with which fabric?"))
            return True
        for name in names:
            self._take(
                Reading(tuple(replace(one.but(fabric=name), words=words, name=one.name) for one in last)), keep=True
            )
        return True

    def _question(self, flat, words):
        """What to ask about a line that no rule reads."""
        doubts = [one.value.doubt for one in flat if one.kind == "doubt" and one.value.doubt]
        if doubts:
            readings = [
                reading for one in flat if one.kind == "doubt" for side in one.value.sides for reading in side.readings
            ]
            proposed = self._as_if(flat, words)
            also = f": is {' or '.join(readings)} meant?" if readings else ""
            return Question(words, f"{doubts[0]}{also}", proposed)
        return Question(words, "this is not understood: what does it say?")

    def _as_if(self, flat, words):
        """The proposals for a line whose one doubtful figure has lost a blank: the line as it then reads."""
        doubts = [one for one in flat if one.kind == "doubt"]
        if len(doubts) != 1:
            return ()
        sides = [side for side in doubts[0].value.sides if side.doubt]
        if len(sides) != 1:
            return ()
        choices = []
        for reading in sides[0].readings:
            if not re.fullmatch(r"\d+ \d+/\d+", reading):
                continue
            text = self.page.text
            number_end = re.match(r"[\d/ ]+", self.page.plain[sides[0].start :])
            stop = sides[0].start + (len(number_end[0].rstrip()) if number_end else 0)
            again = Page(text[words.start : sides[0].start] + reading + text[stop : words.end])
            reader = Reader(again)
            reader.context = replace(
                self.context, known=[*self.context.known], sets=[*self.context.sets], strip_set=None, last=()
            )
            read = reader.all()
            if read.entries and not read.questions:
                choices.append(Choice(reading, tuple(replace(one, words=words) for one in read.entries)))
        return tuple(choices)

    def _take(self, read, keep=False):
        """Keep what was read."""
        for entry in read.entries:
            self._add(entry)
        self.read.questions.extend(read.questions)
        self.read.remarks.extend(read.remarks)
        if any(one.of_fabric for one in read.questions):
            self.context.fabrics = ()  # what comes below may be cut from either
        cut = tuple(one for one in read.entries if one.table in ("cut", "strip_set"))
        self.context.below += cut
        if cut and not keep:
            self.context.last = cut
        elif read.questions:
            self.context.last = ()

    def _add(self, entry):
        """Keep an entry; one of a table that is there already says more of it, or gainsays it."""
        before = next((one for one in self.read.entries if one.path == entry.path), None)
        if entry.table == "cut" or before is None:
            self.read.entries.append(entry)
            return
        differ = [key for key in entry.data if key in before.data and before.data[key] != entry.data[key]]
        if entry.table == "strip_set":
            self._replace(before, entry)
            return
        self.read.understood.append(entry.words)
        if not differ and entry.table in SAID_ONCE and before.data != entry.data:
            differ = [*entry.data]
        if differ:
            choices = tuple(
                Choice(
                    f"{key.replace('_', ' ')} {_said(one.data[key])}",
                    (replace(before, data={**entry.data, **before.data, **one.data}),),
                )
                for key in differ
                for one in (before, entry)
                if key in one.data
            )
            self.read.questions.append(
                Question(
                    entry.words,
                    f"the page says this twice, and not the same ({before.words.text}): which is right?",
                    choices,
                )
            )
        else:
            self._replace(
                before, replace(before, data={**before.data, **entry.data}, remarks=(*before.remarks, *entry.remarks))
            )

    def _replace(self, before, after):
        place = next((place for place, one in enumerate(self.read.entries) if one is before), None)
        if place is not None:
            self.read.entries[place] = after

    def _finish(self):
        """What is still to be asked when the whole page is read."""
        known = {one.name: one.data.get("prints") for one in self.read.entries if one.table == "fabric"}
        told = {question.words for question in self.read.questions}
        asked = set()
        for one in self.read.entries:
            fabric = one.data.get("fabric", "")
            if "per_print" in one.data and not known.get(fabric) and fabric not in asked and one.words not in told:
                asked.add(fabric)
                self.read.questions.append(Question(one.words, f"of how many prints is {fabric or 'this'}?"))
            if one.table == "strip_set" and (question := sets.question(one)):
                self.read.questions.append(question)


def _said(value):
    return " x ".join(value) if isinstance(value, list) else str(value)
