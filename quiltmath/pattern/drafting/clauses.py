"""A clause of a page with the head that it may begin with, and what holds below that head."""

from __future__ import annotations

import re
from dataclasses import replace

from . import accounted, bought_for, buying, doubtful, following, heads, logs, naming, stated, which_way, widths
from .chunks import FIGURES, MEASURES, all_of, chunked, count, opened
from .model import Context, Entry, Question
from .page import Page
from .rows import Rows
from .rules import OF_THE_WHOLE
from .vocabulary import ROLES


def _tells_width(read):
    """Whether a reading is of nothing but how wide the fabric is."""
    return [one.name for one in read.entries] == ["usable_width"]


_BY_LETTER = re.compile(r"\s*\(?(?P<letter>[A-Z])\)?[:.]?\s+(?=\w|\()")
"""The letter of a fabric before its pieces."""


class Clauses(Rows):
    """Reads the clauses of one page, each under the head that holds for it."""

    def __init__(self, page: Page) -> None:
        super().__init__(page)
        self.heads_abreast: list[tuple[str, ...]] = []

    def _clause(self, start, end):
        """A line, or a cell of one, with the head that it may begin with."""
        page, context = self.page, self.context
        again = following.repeated(start, end, self.read, context, page)
        if again is not None:
            self._take(again, keep=True)
            return
        chunks = chunked(page.plain, start, end)
        for note in all_of(chunks, "note"):  # "Cut sizes (1/4 in seam allowance included): …"
            told = stated.seam(note.value, context, page)
            for entry in told.entries if told else ():
                self.read.add(entry)
        buys = context.section == "buying" or {one.kind for one in chunks} <= {"word", "punct", "fat_quarter"}
        buys = buys or count(chunks[:1], "fat_quarter")
        if count(opened(chunks), *FIGURES, *(["fat_quarter"] if buys else [])):
            pointed = len(chunks) > 1 and chunks[-1].kind == "punct" and page.said(chunks[-1]) == "."
            whole = self._first(OF_THE_WHOLE, chunks[:-1] if pointed else chunks)
            if whole is not None:
                whole = bought_for.under_its_place(whole, self.read.entries, context, page)
                bought = [one.name for one in whole.entries if one.table == "fabric"]
                context.known += [name for name in bought if name not in context.known]
                self._take(whole)
                self._head_by_purchase(whole)
                head = heads.head(page, start, end, context) if _tells_width(whole) else None
                if head is None or not head.strong or not head.fabrics:
                    return
            bought = buying.bought_first(chunks, context, page)
            if bought:
                self._take(bought[0])
                self._head_by_purchase(bought[0])
                self._clause(bought[1], end)
                return
        found = heads.head(page, start, end, context) or self._by_its_letter(start, end)
        if found and self._is_of_the_head_above(found, start, end):  # which its line is set in below
            found = found._replace(fabrics=context.fabrics)
        found = found and self._bought_for_its_place(found)
        unnamed = found is None or found.fabrics == context.fabrics and not self._names(found, start)
        if unnamed and (self._may_be_of_another(start, end) or self._is_a_place_apart(found, start, end)):
            context.above, context.fabrics = context.fabrics, ()
            found = found and found._replace(fabrics=())
        if found is None:
            self._sentences(start, end)
            self._below_no_head(start, end)
            return
        found = found._replace(scraps=found.scraps and not any(name in context.known for name in found.fabrics))
        if context.section == "buying" and re.search(r"\bcut\b", page.plain[start : found.rest]):
            context.section = "cutting"
        rest = page.plain[found.rest : end].strip(" :-.")
        for_place = context.role_above if found.fabrics and not found.role else ""
        if not rest:
            if context.below:  # a block of its own
                for_place = ""
            of_logs = self.logs if found.fabrics and not found.role and logs.are_below(page, end) else None
            self._apply(found._replace(role=found.role or for_place), self._column(start, end))
            self.logs = of_logs  # those of another fabric
            self.context.role_above = for_place or (found.role if found.fabrics == context.fabrics else "")
            self._keep_head(found, start, end)
            return
        before = replace(context)
        self._apply(found._replace(role=found.role or for_place), self._column(start, end))
        if (found.role and not found.strong) or found.of_line:
            self.read.understood.append(page.words(start, found.rest))
            self._below_place(found, end)
            self.context = replace(before, known=self.context.known, sets=self.context.sets, last=self.context.last)
        else:
            self._keep_head(found, start, found.rest)
            self._below(found, start, end)
            if found.times > 1 or (found.strong and found.role):
                self.context.times = before.times if not found.times > 1 else self.context.times
            if found.strong and found.role:  # "For binding, cut …" tells of its own line
                self.context.role = before.role

    def _only_buys_one(self, part):
        """Whether a sentence behind others only tells how much is bought of a fabric, of which what follows is cut:
        "…; gold, 1/4 yd.; cut 8 squares 4 in"."""
        chunks = self._chunks(*part)
        figures = [one.kind for one in opened(chunks) if one.kind in FIGURES]
        bought = figures == ["yards"] or buying.bought_first(chunks, self.context.copied(), self.page)
        return bool(bought) and self.context.section != "sewing"

    def _below_no_head(self, start, end):
        """Let no head hold below a line that is made as one and was not understood: of what is below it is asked."""
        words, read, here = self.page.words(start, end), self.read, self.context
        asked = [one for one in read.questions[-1:] if one == Question(words, doubtful.NOT_UNDERSTOOD)]
        heads_pieces = accounted.heads_what_is_cut(self.page, start, end) or self._may_name_a_fabric(words)
        if heads_pieces and (asked or read.remarks[-1:] == [words]):
            self._apply(heads.Head((), 0))
            here.doubtful = words
            if asked:
                read.questions.pop()
                read.remarks.append(words)

    def _may_name_a_fabric(self, words):
        """Whether a line is the name of a fabric and a bracket with a figure: "NAVY DOT (1/4)"."""
        named = re.fullmatch(r"([^()\d]+)\(\s*[\d./ ]+\s*\)\W*", words.text)
        return named is not None and naming.is_of_fabric(named[1].strip().casefold())

    def _head_by_purchase(self, read):
        """Let a line that buys one fabric be the head of what is cut below it; where several stand in a row, none of
        them is."""
        here = self.context
        linings = [one for one in read.entries if one.table in buying.LININGS]
        fabrics = [one for one in read.entries if one.table == "fabric" and {"bought", "pieces"} & {*one.data}]
        if not fabrics and not linings:
            return
        for one in fabrics:
            role = bought_for.purpose(one, self.page)
            if role.endswith(("border", "binding")):
                here.purposes[one.name] = role
        several = here.bought + len(fabrics) + len(linings) > 1
        above = (
            tuple(dict.fromkeys([*here.above, *here.fabrics, *(one.name for one in fabrics)])) if here.bought else ()
        )
        if several:
            self._apply(heads.Head((), 0))
            here.above = above
        elif fabrics:
            chunks = opened(chunked(self.page.plain, fabrics[0].words.start, fabrics[0].words.end))
            of_blocks = "block" in fabrics[0].words.text.casefold()
            role = "" if of_blocks else naming.role(chunks, Context(), self.page.plain)
            of_one = role not in ("", "?") and "includ" not in fabrics[0].words.text.casefold()
            self._apply(heads.Head((fabrics[0].name,), 0, role=role if of_one else ""))
        else:
            self._apply(heads.Head((), 0, role=linings[0].table))
        here.bought = 1 + several

    def _below(self, found, start, end):
        """What stands on the line of a head, with a second head that it may begin with ("Batiks - from each: …")."""
        if self._tells_which_way(found.rest, end):
            return
        more = heads.head(self.page, found.rest, end, self.context)
        of_pieces = more and more.piece and found.fabrics  # "Lights - from each of 10 fat quarters, cut:"
        if more and more.strong and not found.strong and (more.fabrics == found.fabrics or of_pieces):
            more = more._replace(fabrics=found.fabrics)
            self._apply(more)
            self._keep_head(more, found.rest, more.rest)
            found = more
        self._sentences(found.rest, end)
        hanging = self._column(found.rest, end)
        self.context.beside, self.context.hanging = (
            end,
            hanging if hanging > self._column(start, end) + 1 else 0,
        )  # no one blank
        self.context.running = found.strong and self.page.words(start, end).text.endswith(".")

    def _tells_which_way(self, start, end):
        """Whether words only say which way the fabric of the head above is cut below them."""
        way = which_way.told(self.page.plain[start:end]) if self.context.fabrics else ""
        if way:
            self.context.lengthwise, self.context.across = way == which_way.ALONG, way == which_way.ACROSS
            self.read.understood.append(self.page.words(start, end))
        return bool(way)

    def _below_place(self, found, end):
        """What stands behind the place or the unit that its pieces are for, with a head of its own that it may begin
        with: "For the stars: from red cut 8 squares 3 in"."""
        more = heads.head(self.page, found.rest, end, self.context)
        if not more or not more.strong or not more.fabrics or more.rest >= end:
            self._sentences(found.rest, end)
            return
        self._apply(more._replace(role=more.role or found.role))
        self._keep_head(more, found.rest, more.rest)
        self._sentences(more.rest, end)

    def _is_of_the_head_above(self, found, start, end):
        """Whether a head that stands set in below that of another fabric names its own by what this is for alone."""
        here = self.context
        of_another = found.fabrics and here.fabrics and found.fabrics != here.fabrics
        return of_another and self._column(start, end) > here.column and not self._names(found, start)

    def _names(self, found, start):
        """Whether a head names its fabric itself."""
        said = naming.key(self.page.plain[start : found.rest])
        said_here = self.page.plain[start : found.rest]
        if naming.is_of_fabric(said_here) and any(said <= naming.key(one) for one in found.fabrics):
            return True  # "Dark", of "Darks, assorted"
        of_it = found.strong or naming.is_only_of_fabric(said_here)
        told = said - {*ROLES} if of_it else frozenset()  # "from the darks cut", of "Darks, assorted"
        return any(naming.key(one) <= said or naming.key(one) & told for one in found.fabrics)

    def _may_be_of_another(self, start, end):
        """Whether a line below the line of a head may be cut from another fabric: it is for the border or the binding,
        or the head stands in a sentence of running prose."""
        here = self.context
        if not here.beside or start < here.beside or not here.fabrics or self._hangs(start):
            return False
        chunks = opened(chunked(self.page.plain, start, end))
        named = naming.role(chunks, Context(), self.page.plain) or here.role
        return here.running or named == "binding" or "border" in named or named == "?"

    def _by_its_letter(self, start, end):
        """The head that the letter of a fabric is before the first of its pieces: "(C) Three strips 4 in"; None where
        the letter is of none that is bought, or stands before no pieces."""
        told = _BY_LETTER.match(self.page.text, start, end)
        fabric = told and self.context.section == "cutting" and self.context.lettered.get(told["letter"].lower())
        if not fabric:
            return None
        pieces = chunked(self.page.plain, told.end(), end)
        counted = bool(pieces) and pieces[0].kind == "count" and count(pieces, *MEASURES) > 0
        return heads.Head((fabric,), told.end()) if counted else None

    def _bought_for_its_place(self, found):
        """A head that names a fabric and a place, of the fabric that is bought for this place alone where the shopping
        list calls one so: "Red (inner border)" beside "Red"."""
        called = tuple(one for one in self.context.known if found.role and one.casefold() == found.role)
        return found._replace(fabrics=called) if called and len(found.fabrics) == 1 else found

    def _is_a_place_apart(self, found, start, end):
        """Whether a head is the name of a place alone ("Binding"), with an empty line above it as the head of the
        fabric has that stands before it, in its column: what is cut below may be of a fabric of its own."""
        here, page = self.context, self.page
        alone = found is not None and found.role == "binding" and not page.plain[found.rest : end].strip(" :-.")
        parted = re.search(r"\n[ \t]*\n[ \t]*$", page.plain[:start]) is not None
        return alone and parted and bool(here.below) and self._column(start, end) == here.column

    def _column(self, start, end):
        """The column in which words begin; none at the beginning of a line."""
        words = self.page.words(start, end)
        return words.start - self.page.plain.rfind("\n", 0, words.start) - 1

    def _hangs(self, start):
        """Whether a line begins below the words that stand behind the name of the present head, set in as these are."""
        place = self._column(start, start + len(self.page.plain[start:].partition("\n")[0]))
        return place > 0 and place == self.context.hanging

    def _apply(self, found, column=0):
        """Let a head hold for what follows that begins in this column."""
        here = self.context
        if here.each_block_of_head and found.fabrics != here.fabrics:
            here.of_block = (here.each_block_of_head, here.blocks)  # or for one block too
            here.each_block, here.each_block_of_head = False, None
        here.column = here.column if found.fabrics == here.fabrics else column
        same = found.fabrics == here.fabrics
        here.below, here.doubtful, here.beside = (), None, 0
        here.lengthwise, here.across = found.lengthwise, False
        here.strips, here.wants_pieces, here.bought = (), False, 0
        here.above = () if found.fabrics else here.above
        self.heads_abreast = []
        here.fabrics = found.fabrics
        here.prints, here.per_print, here.times, here.role = found.prints, found.per_print, found.times, found.role
        if found.per_print and found.prints is None and len(found.fabrics) == 1:
            bought = (one for one in self.read.entries if one.path == ("fabric", found.fabrics[0]))
            here.prints = next((one.data.get("prints") for one in bought), None)
        here.known += [name for name in found.fabrics if name not in here.known]
        self.noun = self.noun_of_all if not same else self.noun
        self.counted, self.logs = 0, None

    def _keep_head(self, found, start, end):
        """What a head says besides: how many prints, or that it is cut from scraps."""
        words = self.page.words(start, end)
        if found.doubtful:
            self.context.doubtful = words
        told = chunked(self.page.plain, start, end)
        for note in [one for one in told if one.kind == "note" and count(one.value, "length")]:
            wide = widths.width([told[0], note], self.context, self.page)  # "From white (42 in wide), cut:"
            for entry in wide.entries if wide else ():
                self.read.add(entry)
        for name, prints in zip(found.fabrics, found.of_prints or (found.prints,) * len(found.fabrics)):
            if prints:
                piece = {"piece": found.piece} if found.piece else {}
                self.read.add(Entry("fabric", {"prints": prints, **piece}, words, name))
            elif found.scraps:
                self.read.add(Entry("fabric", {"scraps": True}, words, name))
        self.read.understood.append(words)
