"""The rows of a table, each read by what its columns say, with the fabric of those above where it goes on with it; and
lines that name their columns themselves: "First cut: … Second cut: …"."""

from __future__ import annotations

import re
from dataclasses import replace
from itertools import pairwise

from . import buying, following, heads, in_turn, lengths_in_columns, naming, tables
from .chunks import FIGURES, all_of, chunked, count, opened
from .counts_by_fabric import CountsByFabric
from .doubtful import NOT_UNDERSTOOD
from .model import Choice, Entry, Question, Reading, of_words
from .page import Page

_DITTO = re.compile(r"\W*(?:ditto|do\.|same|\"|''|-\"-)\W*")

_NUMBER = re.compile(r"\s*(?:\#|no\.\s*)(?P<number>\d{1,2})[.):]?\s+(?=[^\W\d_])", re.IGNORECASE)
"""The number that a fabric of the shopping list has before its name: "#1  Ivory"."""


class Rows(CountsByFabric):
    """Reads the tables of one page, under the head that the last of them has."""

    def __init__(self, page: Page) -> None:
        super().__init__(page)
        self.table: tuple[tables.Column, ...] = ()
        self.of_rows: tuple[str, ...] = ()
        """The fabrics of the rows below one that names no more than these."""
        self.above: tuple[str, ...] = ()
        """The fabrics of the row before."""
        self.rows: list[Entry] = []
        self.lengths: tuple[str, ...] = ()
        """The keys of the lengths of borders that the columns hold below their head."""

    def _of_border_lengths(self, start, end):
        """Take a line that heads the lengths of borders in their columns, or tells those of one border below it."""
        headed = lengths_in_columns.heads(self.page, start, end)
        row = lengths_in_columns.row(self.page, start, end, self.lengths, self.read) if self.lengths else None
        if headed:
            self.lengths = headed
            self.read.understood.append(self.page.words(start, end))
        elif row is None:
            self.lengths = ()
        elif row[1] is None:
            self.read.questions.append(Question(row[0], "the lengths of which border are these?"))
        else:
            self._take(Reading((row[1],)))
        return bool(headed or row)

    def _of_table(self, start, end):
        """Take a line that heads the columns of a table, or that is a row of it."""
        if self._of_counts(start, end):
            return True
        page, here = self.page, self.context
        named = tables.columns(page, start, end)
        if named:
            self.table, self.of_rows, self.above, self.rows = named, (), (), []
            here.fabrics, here.role, here.times, here.per_print = (), "", 1, False
            here.section = "buying" if tables.only_buys(named) else "cutting"
            here.second_cut = any(column.kind == "first" for column in named)
            self.read.understood.append(page.words(start, end))
            return True
        if not self.table:
            return False
        words, total = page.words(start, end), tables.total(page, start, end, self.table)
        if total is not None:
            self._come_to(total, words)
            return True
        row = tables.row(page, start, end, self.table)
        if row is None:
            return False
        fabrics = self._fabrics(row)
        self.of_rows = (fabrics or ()) if not row.chunks or not row.fabric else ()
        here.fabrics, here.role = fabrics or (), ""
        here.known += [name for name in here.fabrics if name not in here.known]
        of_lining = bool(row.bought) and len(here.fabrics) == 1 and here.fabrics[0].casefold() in buying.LININGS
        if (
            not row.chunks or of_lining or tables.only_buys(self.table)
        ):  # how many lengths it is sewn from follows from the quilt
            self._buy(row, words)
            here.fabrics = () if row.bought else here.fabrics
            self.read.understood.append(words)
            return True
        read = self._row(row.chunks) if fabrics is not None else None
        if read is None:
            read = Reading(questions=(Question(words, NOT_UNDERSTOOD),))
        read = of_words(read, words)
        if any(column.kind == "fabric" for column in self.table) and not fabrics:
            read = self._of_the_row_above(read, words)
        self._buy(row, words)
        self.above = here.fabrics or self.above
        self.rows += read.entries
        self._take(read)
        here.fabrics, here.strips = (), ()
        return True

    def _buy(self, row, words):
        """Keep how much of its fabric a row buys; what lies behind a quilt is none of its fabrics."""
        if not row.bought or len(self.context.fabrics) != 1:
            return
        (fabric,) = self.context.fabrics
        lining = naming.named(fabric.casefold())
        if lining in buying.LININGS:
            self.read.add(Entry(lining, {"bought": row.bought}, words))
            self.context.known.remove(fabric)
        else:
            self.read.add(Entry("fabric", {"bought": row.bought}, words, fabric, row.remarks))
            number = _NUMBER.match(self.page.plain, *row.fabric)
            letters = [*(one.value for one in all_of(row.chunks, "label")), *([number["number"]] if number else [])]
            self.context.lettered |= dict.fromkeys(letters, fabric)

    def _cut_in_turn(self, start, end):
        """Take a line that says in so many words what is cut first, strips, and what second, from these."""
        plain, read, parts = self.page.plain, self.read, in_turn.parts(self.page, start, end)
        before = plain[start : parts[0].label[0]].rstrip(" |-") if parts else ""
        if before.strip():
            self._line(start, start + len(before))
        for label, told, second in parts:
            read.understood.append(self.page.words(*label))
            here, says = self.context, plain[slice(*told)].strip(" |")
            if second and (none := in_turn.NONE.fullmatch(plain, *told)):  # "none - binding"
                flat, words = opened(chunked(plain, *none.span("place"))), self.page.words(*told)
                if not flat or not following.for_a_place(flat, words, read, here, self.page):
                    read.remarks.append(words)
                continue
            here.wants_pieces = second and bool(here.strips)
            if second and (not says or count(opened(chunked(plain, *told)), *FIGURES)):
                read.unfilled += here.strips or (one for one in here.last if one.table == "cut")
            elif not second:
                here.strips = ()
            if says:
                self._line(*told)
                self.context.wants_pieces = False
        return bool(parts)

    def _fabrics(self, row):
        """The fabrics of a row; None where its cell names none."""
        if row.fabric and _DITTO.fullmatch(self.page.plain, *row.fabric):
            return self.above
        if not row.fabric:
            return self.of_rows
        if tables.NUMBERED_NAME.fullmatch(self.page.plain, *row.fabric):
            return (self.page.words(*row.fabric).text,)
        if tables.only_buys(self.table):  # "Rust" is no other than "Teal/rust leaf", which stands above it
            return (_NUMBER.sub("", self.page.words(*row.fabric).text),)
        names = heads.names(self.page, *row.fabric, self.context)
        if row.bought and names and len(names) > 1 and all(naming.named(one.casefold()) for one in names):
            return (self.page.words(*row.fabric).text,)  # one fabric for both: "Border + binding"
        return names

    def _row(self, chunks):
        """What a row says; its notes may only check it, or say more of its pieces."""
        read = self._reading(chunks) or self._reading(opened(chunks))
        return read if read is not None else self._one_by_one(chunks)

    def _one_by_one(self, chunks):
        """What a row says whose cell tells of several cuts, between semicolons; None where one of them is not read."""
        pairs = enumerate(pairwise(chunks), 1)
        ends = [at for at, (one, other) in pairs if ";" in self.page.plain[one.end : other.start]]
        if not ends:
            return None
        before, reads = self._state(), []
        for first, last in zip([0, *ends], [*ends, len(chunks)]):
            read = self._reading(chunks[first:last])
            if read is None or read.instead:
                self.context, self.read = before
                return None
            reads.append(read)
        return Reading(
            tuple(entry for read in reads for entry in read.entries),
            tuple(question for read in reads for question in read.questions),
            tuple(remark for read in reads for remark in read.remarks),
        )

    def _of_the_row_above(self, read, words):
        """A row whose cell of the fabric is empty: whether that of the row above goes on is asked; what else is
        described is none."""
        bare = tuple(one.but(fabric=None) for one in read.entries)
        if not self.above or not bare:
            return replace(read, entries=bare)
        of_above = tuple(one.but(fabric=self.above[0]) for one in bare)
        of_strips = {"strips", "first"} & {column.kind for column in self.table}
        if not self.table[0].said and len(self.above) == 1:  # a column without a head names each fabric once
            return replace(read, entries=of_above)
        if of_strips and len(self.above) == 1 and not any({"strip", "strips"} & one.data.keys() for one in bare):
            return replace(read, entries=of_above)  # cut from the strips above
        asked = Question(words, "from which fabric is this cut?", (Choice(self.above[0], of_above),))
        return replace(read, entries=(), questions=(*read.questions, asked))

    def _come_to(self, total, words):
        """Check the number that the rows are said to come to."""
        found = sum(one.data.get("count", 0) for one in self.rows)
        if found == total:
            self.read.remarks.append(words)
        else:
            asks = f"the rows above come to {found}: which of their numbers is another?"
            self.read.questions.append(Question(words, asks))
