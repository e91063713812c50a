"""A page read line by line: what each line says under the heads above it, and what has to be asked."""

from __future__ import annotations

import re

from . import (
    accounted,
    captions,
    columns,
    columns_of_sizes,
    footnotes,
    for_each_block,
    heads,
    in_turn,
    keyed_pieces,
    logs,
    many_at_once,
    naming,
    said_of_all,
    sections,
    signs_explained,
)
from .chunks import FIGURES, MEASURES, NAMED, all_of, chunked, count, opened
from .doubtful import NOT_UNDERSTOOD
from .in_cells import InCells
from .kept import Kept
from .model import Question

_NUMBERED = re.compile(r"\s*(?:\d{1,2}[.)](?=\s)(?!\s*\d+\s*/)|\(\d{1,2}\)(?=\s*cut\s+\(?\d+\)?\s+[a-z]))")
_STEP = re.compile(r"\s*(?P<bracket>\()?(?P<number>\d{1,2})(?(bracket)\))\s+(?=[A-Z][a-z]+\b(?!\s*\d))")
_FIRST_STEP = re.compile(r"\W*steps?\s+(?:1|one)\b\s*[.:)-](?!\s*cut)")
_BEGINS = re.compile(r"(?:[\s→>=-]|\d{1,2}[.)]\s)*")
_ARROW = re.compile(r"→|->|=>")
_NOT_INCLUDED = re.compile(r"(?<=[\w\"]{2})[.;(]\s*(?P<told>[^.;()\d]*\bnot\s+included\b)\W*$")
_WITH_REMARK = re.compile(r"(?P<head>[^()\[\]:]{3,40})[(\[](?P<rest>[^()\[\]]+)[)\]][\s:=*-]*")
_ASIDE = re.compile(r"(?P<head>[^():,\d]{3,40}?)\s*(?:,|\s-+)\s+(?P<rest>[a-z][^():;.\d]+):\s*")
"""The head of a section with a remark that its colon stands behind: "Cutting, from strips across the width:"."""
_ALL_STRIPS = re.compile(r"\ball\s+(?:(?:are|of\s+(?:them|these)\s+are)\s+)?(?:[a-z]+\s+)?strips\b")
_SAYS_MORE = re.compile(r"make\b|\d+\s+(?:blocks|of)\b|\d+$")
"""A remark behind the head of a section that counts what is made there."""
_WITH_WIDTH = re.compile(r"(?P<head>[^():,\d]{3,40}),\s*(?P<rest>[^(),:]*\d[^(),:]*\bwide)\W*")
_RUN_IN = re.compile(
    r"(?P<head>(?:[^.:\d]|\.(?=\s?(?:[a-z]{2,6}\.?)?:)){3,40}?(?:\.(?!\s?[a-z]{2,6}\.?:)|:|\s-{1,2}))\s+(?P<rest>\S.*)",
    re.DOTALL,
)
"""Heads of a section with a remark in brackets, with the width of fabric, or before what begins behind them."""
_OF_FABRIC = re.compile(r"\W*(?P<name>[^:;\d]{2,40}?)\s*:")
_PRECUT = re.compile(
    r"\W*(?:(?:pieces\s+)?(?:already\s+cut|pre-?cut)(?:\s+pieces)?(?:\s+for\s+you|\s+in\s+(?:the|your|this)\s+kit)?)\s*:"
)

MOST_OF_A_NAME = 4
"""Words: no fabric is called by more."""
_CUT_BELOW = re.compile(sections.CUT_BELOW)
LONGEST_LINE = 4_000
"""Signs: a longer line is no line of a page."""


class Reader(InCells):
    """Reads one page, line by line, under its heads."""

    def all(self) -> Kept:
        """The whole page."""
        lines = self.page.lines
        self.context.lettered |= signs_explained.short_names(self.page.text, self.page.plain)
        for start, end in lines:
            self._line(start, end)
        self.read.questions += self.unkeyed.values()
        lines = [(max(start, signs_explained.explains(self.page.plain, start, end)), end) for start, end in lines]
        accounted.ask_what_is_lost(self.page, lines, self.read, self.context)
        self.read.questions += [*said_of_all.questions(self.page, lines, self.read)]
        self.read.remarks += self.page.furniture
        self.read.finish(self.page)
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
        if not cut or not sections.heads_sewing(self.page, start, end):
            return False
        return bool(re.search(r"\d", self.page.plain[start:end])) or not sections.is_above_pieces(self.page, end)

    def _line(self, start, end):
        """Take a line in the first of the ways that is its own, else as a clause."""
        self.context.below_strips = self._stands_below_strips(start)
        if self._of_no_one_piece(start, end):
            return
        if stop := signs_explained.explains(self.page.plain, start, end):
            self.read.understood.append(self.page.words(start, stop))
            start = stop + len(self.page.plain[stop:end]) - len(self.page.plain[stop:end].lstrip(" .;\n"))
            if start >= end:
                return
        start, end = self._without_its_number(start, end)
        if self._tells_of_another_unit(start, end):
            self.context.strip_set = None
        ways = (
            self._tells_which_way, self._of_a_key, self._of_a_footnote, self._below_a_size, self._cut_first_and_second,
            self._of_border_lengths, self._of_table, self._cut_in_turn, self._of_one_block,
            self._in_the_margin, self._precut, self._titles, self._for_things, self._beside_one_block,
            self._of_its_letter, self._in_cells
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
        steps = sections.sews(page, start, end)
        if self.context.each_block and logs.is_numbered(page, start, end) and not steps:  # no letter of a row
            self._sentences(start, end)
            return True
        if captions.says_again(page, start, end):
            self.read.instructions.append(words)
            return True
        if columns_of_sizes.heads_the_only_one(page, start, end):
            self.read.understood.append(words)
            return True
        if many_at_once.heads(page, start, end):
            self.context = self.context.anew("sewing")
            self.read.instructions.append(words)
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

    def _tells_of_another_unit(self, start, end):
        """Whether a paragraph that a unit heads says nothing more of the strip set told of before: "Hourglass. Put red
        on white"."""
        chunks = chunked(self.page.plain, start, end)
        headed = [one.kind for one in chunks[:1]] == ["unit"] and self.page.plain[chunks[0].end] in ".:"
        return headed and not count(opened(chunks), "strip_set", "strips", "segments", "set")

    def _of_a_key(self, start, end):
        """Take a line that only says how large the pieces of a letter are, which are counted below."""
        here = self.context
        found = keyed_pieces.key(self.page, start, end) if not (here.fabrics or here.strips or self.counted) else None
        if found is None or here.section == "sewing" or not self._counts_below(found[0], end):
            return False
        letter, told = found
        self.keyed[letter] = told
        self.unkeyed[letter] = Question(self.page.words(start, end), NOT_UNDERSTOOD)
        self.read.understood.append(self.page.words(start, end))
        return True

    def _counts_below(self, letter, end):
        """Whether a line below counts pieces by a letter alone."""
        counted = rf"^[^\S\n]*(?:[Cc]ut\s+)?\d{{1,3}}\s+(?:[a-z]+\s+(?:for|of)\s+)?{letter.upper()}\b(?!\s*[\d\"])"
        return re.search(counted, self.page.text[end:], re.MULTILINE) is not None

    def _of_a_footnote(self, start, end):
        """Take a line that says more of the pieces that bear its mark."""
        found = footnotes.marked(self.page, start, end, self.read)
        if found is None:
            return False
        entry, begins = found
        before, self.context.last = self.context.last, (entry,)
        cut = footnotes.cut_so(self.page, begins, end, entry)
        if cut is not None:
            changed, words, begins = cut
            self.read.put(entry, changed)
            self.read.understood.append(words)
            self.context.last = (changed,)
        if self.page.plain[begins:end].strip():
            self._sentences(begins, end)
        self.context.last = before
        return True

    def _below_a_size(self, start, end):
        """Take a line that begins with the size of its quilt: "Cot quilt. Please cut: 35 squares 6 in"; or, above all
        lists, with the precuts that it may be sewn from."""
        friendly = not self.context.section and said_of_all.is_friendly(self.page, start, end)
        if friendly and friendly.end() >= end:
            self.read.remarks.append(self.page.words(start, end))
            return True
        sized = friendly or said_of_all.heads_a_size(self.page, start, end)
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
        begins = for_each_block.begun(start, end, self.context, self.page)
        if begins is not None:
            self.read.understood.append(self.page.words(start, begins))
            self._line(begins, end)
            return True
        if self.context.section == "buying":  # "20 squares 10 in (one for each block)"
            return False
        if begins := self._last_of_its_own(start, end):
            self._line(start, begins)
            return self._beside_one_block(begins, end)
        of_one = for_each_block.beside(start, end, self.read, self.context, self.page)
        if not of_one:
            return False
        before, self.context.each_block = self.context.each_block, True
        self._clause(*of_one)
        self.context.each_block = before
        return True

    def _last_of_its_own(self, start, end):
        """Where the last sentence of a line begins, if that is the one that its end says to be of one block, and names
        its fabric before its pieces as another does before it: "White: 16 squares 2 in; red: 4 squares 3 in per block";
        0 where none is."""
        *before, first = self._parted(start, end)
        measured = [count(opened(chunked(self.page.plain, *part)), *MEASURES) for part in before]
        head = heads.head(self.page, *first, self.context) if any(measured) else None
        if not head or not head.fabrics or head.fabrics == self.context.fabrics:
            return 0
        kept, context = self.read.copied(), self.context.copied()
        return first[0] if for_each_block.beside(*first, kept, context, self.page) else 0

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
            return bullet == "→" or column > self._column(above, above + 1)
        return column > column_above or bool(bullet and bullet_above and bullet != bullet_above)

    def _margin(self, place):
        """The column in which a line begins that goes on at a place, and its bullet."""
        first = self.page.plain.rfind("\n", 0, place) + 1
        begins = _BEGINS.match(self.page.plain, first)
        sign = _ARROW.search(begins[0])
        return begins.end() - first, "→" if sign else self.page.text[first : begins.end()].strip()[:1]

    def _in_the_margin(self, start, end):
        """Begin a section where these words head one, alone on a line or in the margin beside it."""
        said = _WITH_REMARK.fullmatch(self.page.plain, start, end) or _WITH_WIDTH.fullmatch(self.page.plain, start, end)
        said = said or _ASIDE.fullmatch(self.page.plain, start, end) or _RUN_IN.match(self.page.plain, start, end)
        kind = sections.section((said["head"] if said else self.page.plain[start:end]).strip(" -"))
        if kind == "sewing" and said and said.re is _ASIDE:  # "Borders and binding, blue:" heads pieces
            kind = said = None
        run_in = said and said.re is _RUN_IN and not self.page.text[slice(*said.span("head"))].isupper()
        rest = opened(chunked(self.page.plain, *said.span("rest"))) if said and said.re is _RUN_IN else []
        pieces = kind == "sewing" and count(rest, *FIGURES)
        run_in = run_in or bool(rest) and (kind == "buying" or bool(pieces))  # in a page that is all capital letters
        buys = kind == "buying" and said and count(chunked(self.page.plain, *said.span("rest")), "yards", "fat_quarter")
        if run_in and not buys:  # "Materials: 3 yards white" is one
            kind = said = None
        of_blocks = kind == "sewing" and said and said.re is _WITH_REMARK
        if of_blocks and _SAYS_MORE.search(said["rest"].strip()):
            return False
        if kind == "sewing" and not said and self._names_a_fabric(start, end):
            return False
        if kind == "sewing" and not said and self._heads_pieces(start, end):
            self.context.role = self.context.role_above = ""
            self.context.lengthwise = False
            if self._stands_beside_the_head(start, end):
                self._apply(heads.Head((), 0))
            self.read.understood.append(self.page.words(start, end))
            return True
        if kind == "cutting" and _CUT_BELOW.fullmatch(self.page.plain, start, end) and self._is_below_a_head(start):
            self.context.section = kind
            self.read.understood.append(self.page.words(start, end))
            return True
        if kind:
            self.context = self.context.anew(kind)
            of_all = kind == "cutting" and said and _ALL_STRIPS.search(said["rest"])
            self.noun = self.noun_of_all = "strips" if of_all else ""
            self.shared, self.counted = [], 0
            self.read.understood.append(self.page.words(start, said.end("head") if said else end))
            if said:
                self._line(*said.span("rest"))
        return kind is not None

    def _is_below_a_head(self, start):
        """Whether the line above one is the name of a fabric, or may be: a "cut:" below it heads no section."""
        here = self.context
        heads_here = [one for one in (here.doubtful, *self.read.understood[-1:]) if one]
        near = any(self.page.lines_apart(one.end, start) == 1 for one in heads_here if one.end <= start)
        return near and bool(here.doubtful or here.fabrics and not here.below)

    def _names_a_fabric(self, start, end):
        """Whether words that could head what is sewn ("Stars") are what the shopping list calls the fabric of the
        pieces right below them."""
        said = self.page.plain[start:end].strip(" :-")
        return naming.as_listed(said, self.context) != said and sections.is_above_pieces(self.page, end)

    def _heads_pieces(self, start, end):
        """Whether words that could head what is sewn ("Blocks:") say what pieces right below them are for, under a head
        that holds for these."""
        parted = re.search(r"\n\s*\n\s*$", self.page.plain[:start])
        return bool(self.context.fabrics) and sections.is_above_pieces(self.page, end) and not parted

    def _stands_beside_the_head(self, start, end):
        """Whether words stand in the column of the head above, below pieces of it, and those right below them are set
        in: they head these as that does its own, of another fabric."""
        set_in = re.compile(r"[^\n]*\n([ \t]*)").match(self.page.plain, end)
        column = self._column(start, end)
        return bool(self.context.below) and column == self.context.column and len(set_in[1]) > column

    def _is_title(self, start, end):
        """Keep words at the very beginning of a page as its title: no digits stand in them, a number word may."""
        page, words = self.page, self.page.words(start, end)
        chunks = opened(chunked(page.plain, start, end))
        in_words = {"count"} if count(chunks, *NAMED) else {"count", "length", "size"}
        told = count(chunks, *(FIGURES - in_words), "finished", "cut", "from")
        told += bool(chunks) and naming.is_numbered(page.said(chunks[0]))
        numbered = sum(len(re.findall(r"\d", page.said(one))) for one in all_of(chunks, "ref"))  # "Project 3"
        if page.plain[: words.start].strip() or len(re.findall(r"\d", words.text)) > numbered or told:
            return False
        said = len(words.text.split())
        if said <= MOST_OF_A_NAME and sections.is_above_pieces(page, end, said > 2):  # a fabric may be called so
            self.context.section = "cutting"
            return False
        found = heads.head(page, start, end, self.context)
        no_head = found is None or sections.is_above_no_piece(page, words)
        apart = re.match(r"[^\n]*\n\s*\n", page.plain[end:]) is not None and ":" not in words.text
        either = bool(found and apart) and not all(map(naming.is_only_of_fabric, found.fabrics))
        if either:
            self.context.section, self.context.doubtful = "cutting", words
        titled = either or no_head and page.has_more(end)
        self.read.remarks += [words] if titled else []
        return titled
