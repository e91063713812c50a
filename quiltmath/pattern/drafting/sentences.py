"""What stands in a line or below a head, sentence by sentence: read, asked, or kept as it is."""

from __future__ import annotations

import re
from dataclasses import replace

from . import (
    borders,
    brackets,
    doubtful,
    following,
    for_each_block,
    groups,
    heads,
    naming,
    of_each,
    prose,
    sets,
    subcut,
)
from .chunks import FIGURES, MEASURES, NAMED, Chunk, all_of, chunked, count, opened
from .kept import Kept
from .model import Choice, Context, Entry, Question, Reading
from .page import Page
from .rules import OF_CUTTING, OF_SEWING, OF_THE_WHOLE, first
from .vocabulary import HANDLED

_SHORT = (
    "in",
    "ins",
    "yd",
    "yds",
    "sq",
    "sqs",
    "sqrs",
    "pc",
    "pcs",
    "rect",
    "rects",
    "doz",
    "dz",
    "ea",
    "diag",
    "approx",
)
"""Words that are printed short, with a point."""
_NOT_SHORT = "".join(rf"(?<!\b{word})" for word in _SHORT)
_SENTENCE = re.compile(
    rf"(?<=[a-z\")\d]){_NOT_SHORT}\.\s+(?=[a-z(\d])|;\s*"
    r"|,\s*(?=(?:which|that|this)\s+(?:gives?|makes?|yields?)\b)"
)
_OF_THE_REST = re.compile(
    r"\b(?:remain(?:ing|der)|rest|leftovers?|what(?:'s| is| was) left|as (?:shown|in|many|you))\b"
)
_AS_BEFORE = re.compile(r"\b(?:the same|ditto|likewise|as (?:above|before))\W*$")

MOST_FABRICS = 8
"""Of more choices nobody could choose at a glance."""


class Sentences:
    """Reads the sentences of one page; what holds from line to line is its `context`, what was read is in `read`."""

    def __init__(self, page: Page) -> None:
        self.page, self.context = page, Context()
        self.read = Kept()
        self.noun = ""
        self.shared: list[Chunk] = []
        """A size and a noun that stand above lines which only count pieces."""

    def _state(self):
        """What is known and kept so far, apart from what comes of trying a line."""
        return self.context.copied(), self.read.copied()

    def _sentences(self, start, end):
        """What follows a head, sentence by sentence where it does not read as a whole."""
        plain, chunks = self.page.plain, self._chunks(start, end)
        if not chunks:
            return
        whole = self._reading(chunks)
        if whole is not None:
            self._take(whole)
            return
        meant = doubtful.of_the_line(chunks, self.context, self.page)
        if meant is not None:
            self.read.questions.append(meant)
            self.context.last = ()
            return
        parts, at = [], start
        for match in _SENTENCE.finditer(plain, start, end):
            if plain[at : match.start()].count("(") == plain[at : match.start()].count(")"):
                parts.append((at, match.start()))
                at = match.end()
        parts.append((at, end))
        for part in parts:
            head = heads.head(self.page, *part, self.context) if part is not parts[0] else None
            if head and re.search(r"[:-]\s*(?:cut\s*)?$", self.page.plain[part[0] : head.rest]):
                self._clause(*part)
            else:
                self._sentence(*part)

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
        if count(flat, *MEASURES):
            self.shared = []
        if self._heads_counts(flat, words):
            self.shared = [one for one in flat if one.kind not in ("punct", "cut")]
            self.read.understood.append(words)
            return
        read = self._reading(chunks) or self._in_parts(chunks)
        if read is not None:
            self._take(read)
        elif chunks[0].kind == "into" and self.context.strips:  # neither is read without the other
            for one in self.context.strips:
                self.read.put(one)
            words = self.page.words(self.context.strips[0].words.start, end)
            self._take(Reading(questions=(doubtful.question(flat, words, self.context, self.page),)))
        elif (
            (prose.tells(chunks, self.page) and not self._behind_a_cut(words))
            or (prose.only_made(flat) and self._follows_an_instruction(words))
            or (self.context.section == "sewing" and prose.tells_of_sewing(chunks, self.page))
        ):
            self.read.instructions.append(words)
            self.context.last = ()
        else:
            self.read.questions.append(doubtful.question(flat, words, self.context, self.page))
            self.context.last = ()

    def _reading(self, chunks):
        """What a sentence is read as by the first rule that takes all its figures; None where none does."""
        chunks = brackets.set_off(chunks, self.page)
        chunks = self._of_each_fabric(chunks)
        each = self._of_each_print(chunks)
        if each is not None:
            return each
        triangles = following.cut_to_triangles(chunks, self.read, self.context, self.page)
        if triangles is not None:
            return triangles
        total = following.total(chunks, self.read, self.context, self.page)
        if total is not None:
            return total
        lengths = borders.lengths(chunks, self.read, self.context, self.page)
        if lengths is not None:
            return lengths
        of_strips = count(opened(chunks), "strip_set", "end_to_end", "strips")
        if self.context.strip_set is not None:
            of_strips += count(opened(chunks), "set")
        if prose.is_prose(chunks, self.page) and not of_strips:
            return self._first(OF_SEWING, chunks)
        if prose.said(chunks, self.page) & HANDLED and not count(chunks, "strip_set"):
            return None
        chunks = self._of_shared_size(chunks)
        if self.noun and not count(opened(chunks), "squares", "rectangles", "strips", "pieces", "triangles", "strip"):
            chunks = [*chunks, Chunk(self.noun, chunks[-1].end, chunks[-1].end)]
        return self._first((*OF_THE_WHOLE, *OF_CUTTING), chunks)

    def _of_shared_size(self, chunks):
        """The chunks of a line that counts pieces, with the size that stands above it."""
        bare = all(one.kind in ("count", "word", "punct", "and", "label", "from", "note") for one in chunks)
        if not self.shared or not bare or count(chunks, "count") != 1:
            return chunks
        end = chunks[-1].end
        return [*chunks, *(one._replace(start=end, end=end) for one in self.shared)]

    def _heads_counts(self, chunks, words):
        """Whether a line says no more than a size, of pieces that the line below it counts."""
        measured = all(one.kind in (*MEASURES, *groups.NOUNS, "wof", "punct", "cut") for one in chunks)
        if not measured or count(chunks, *MEASURES) != 1 or not count(chunks, *groups.NOUNS):
            return False
        below = re.compile(r"[^\n]*\n\s*(?P<line>[^\n]*)").match(self.page.plain, words.end)
        next_ = opened(chunked(self.page.plain, *below.span("line"))) if below else []
        return count(next_, "count") == 1 and not count(next_, *MEASURES, "yards", *NAMED)

    def _of_each_fabric(self, chunks):
        """The chunks without the "from each" or "each" at their end, where a head names several fabrics: each of these
        is cut as it says."""
        several = len(self.context.fabrics) > 1 and not self.context.per_print
        return chunks[:-1] if several and len(chunks) > 1 and chunks[-1].kind in ("each", "of_each") else chunks

    def _first(self, rules, chunks):
        return first(rules, chunks, self.context, self.page)

    def _in_parts(self, chunks):
        """What a sentence of several pieces is read as in the one way in which each of its parts is read, and nothing
        of it asked; None where there is none, or more than one."""
        before, found = self._state(), []
        for groups_ in groups.ways(chunks, self.context, self.page):
            read = self._of_groups(groups_)
            if read is not None and read not in [one for one, _ in found]:
                found.append((read, self._state()))
            self.context, self.read = before
            before = self._state()
        if len(found) != 1:
            return None
        read, (self.context, self.read) = found[0]
        return _of_one_border(read, opened(chunks))

    def _of_each_print(self, chunks):
        """What is cut from each of so many prints; None where it is not read."""
        here, each = self.context, of_each.of_prints(chunks, self.page)
        if each is None or here.per_print or here.times > 1:
            return None
        if not each.name and not here.fabrics and chunks[-1].kind == "of_each":  # "from each", of what is not said
            return None
        fabrics = (naming.known(each.name, here.known) or each.name,) if each.name else here.fabrics
        self.context = replace(here, per_print=True, prints=each.prints, fabrics=fabrics)
        read = self._reading(each.pieces) or self._in_parts(each.pieces)
        self.context = here
        if read is None or read.questions:
            return None
        words = self.page.words(chunks[0].start, chunks[-1].end)
        cut = tuple(replace(one, words=words) for one in read.entries)
        if each.prints is None:
            return replace(read, entries=cut, questions=(Question(words, "from how many prints is this cut?"),))
        return replace(read, entries=(*cut, *(Entry("fabric", {"prints": each.prints}, words, one) for one in fabrics)))

    def _of_groups(self, parts):
        """What all the groups of a sentence are read as; None where one of them is not."""
        found = Reading()
        for one in parts:
            here = self.context
            self.context = groups.context_of(one, here)
            read = self._reading(one.chunks)
            self.context = replace(self.context, fabrics=here.fabrics)
            if read is None or read.questions or not read.entries:
                return None
            words = self.page.words(one.start, one.end)
            entries = (replace(entry, words=words) for entry in read.entries)
            found = Reading((*found.entries, *entries), (), (*found.remarks, *read.remarks))
        return None if groups.may_be_sub_cut(found.entries) else found

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
        begun = sets.begun(chunks, self.context, self.page)
        if prose.is_prose(chunks, self.page) or begun is not None:
            self.read.instructions.append(words)
            self.context.last = ()
            return
        if count(flat, "lengthwise") and {one.kind for one in flat} <= {"lengthwise", "cut", "punct", "article"}:
            self.context.lengthwise = True
            self.read.understood.append(words)
            return
        if [one.kind for one in flat] == ["label"] and len(self.context.last) == 1:
            following.labelled(flat[0].value, words, self.read, self.context)
            return
        if count(flat, "cut", "into") and _OF_THE_REST.search(words.text.casefold()):
            self.read.questions.append(Question(words, "what is cut here, and how large?"))
            return
        if self.read.entries and _AS_BEFORE.search(words.text.casefold()):
            self.read.questions.append(Question(words, "what is cut here, the same as what?"))
            return
        diagonal = all_of(flat, "once", "twice")
        if diagonal and self.context.last:
            following.cut_on_the_diagonal(diagonal[0].kind, words, self.read, self.context)
            return
        nouns = all_of(flat, "squares", "rectangles", "strips")
        if len(nouns) == 1 and {one.kind for one in flat} <= {"cut", "punct", "article", nouns[0].kind}:
            self.noun = nouns[0].kind
        changes = count(flat, "of_each", "each", "caution") and count(flat, "cut", "from", "into")
        if (changes or diagonal) and self.context.last:
            self.read.questions.append(Question(words, "this changes what stands before it: how?"))
            return
        named = naming.is_of_fabric(naming.described(chunks, self.page)) and not words.text.endswith(":")
        if (self.context.fabrics or named) and self._may_be_a_head(chunks, words):
            self.context.fabrics, self.context.doubtful = (), words
        self.read.remarks.append(words)

    def _may_be_a_head(self, chunks, words):
        """Whether a line that is no head the reader knows may yet be one: a few words alone."""
        alone = not self.page.plain[: words.start].rpartition("\n")[2].strip()
        said = count(chunks, "word")
        return alone and 0 < said <= 5 and not words.text.endswith(".")

    def _from_strips_or_besides(self, read, cut):
        """What was read, asked where it may be cut from the strips right before it and nothing says so."""
        here = self.context
        if read.instead or len(cut) != 1 or "size" not in cut[0].data or not here.strips or here.strips_cut:
            return read
        question = subcut.may_be_cut_from(cut[0], here, cut[0].words)
        if question is None:
            return read
        self.read.put(here.strips[0])
        self.read.understood.append(here.strips[0].words)
        rest = tuple(one for one in read.entries if one is not cut[0])
        return replace(read, entries=rest, questions=(*read.questions, question))

    def _keep_strips(self, read):
        """Remember the strips from which what follows may be cut."""
        here = self.context
        left = tuple(one for _, one in read.instead if one)
        of_list = [one for one in read.entries if one.table == "cut" and "strip" in one.data]
        strips = tuple(one for one in of_list if isinstance(one.data.get("count"), int))
        if read.instead:
            here.strips, here.strips_cut, here.wants_pieces = left, bool(left), False
            self.read.unfilled = [
                one for one in self.read.unfilled if one not in [before for before, _ in read.instead]
            ]
        elif strips:
            same = [one.data["strip"] == two.data["strip"] and not one.role for one, two in zip(here.strips, strips)]
            here.strips_before = any(same) and not here.wants_pieces
            here.strips, here.strips_cut, here.strips_left = strips, len(strips) < len(read.entries), None
            if here.wants_pieces:
                self.read.unfilled += strips
        elif read.entries or read.questions:
            here.strips, here.wants_pieces = (), False

    def _of_which_fabric(self, read):
        """What names no fabric below a head that may hold no more: asked, from that one or from another."""
        bare = [one for one in read.entries if one.table in ("cut", "binding") and not {"fabric", "part"} & {*one.data}]
        if not bare:
            return read
        names = [*dict.fromkeys([*self.context.above, *self.context.known])][:MOST_FABRICS]
        asked = []
        for words in dict.fromkeys(one.words for one in bare):
            here = [one for one in bare if one.words == words]
            choices = tuple(Choice(name, tuple(one.but(fabric=name) for one in here)) for name in names)
            asked.append(Question(words, "from which fabric is this cut?", choices, True))
        rest = tuple(one for one in read.entries if one not in bare)
        return replace(read, entries=rest, questions=(*read.questions, *asked))

    def _take(self, read, keep=False):
        """Keep what was read."""
        if self.context.each_block:
            read = for_each_block.in_all(read, self.read)
        if self.context.lengthwise:
            read = replace(read, entries=tuple(map(_along_the_selvage, read.entries)))
        if self.context.above:
            read = self._of_which_fabric(read)
        read = _with_its_strips(read)
        cut = tuple(one for one in read.entries if one.table in ("cut", "strip_set"))
        if cut and self.context.section == "buying":
            self.context.section = "cutting"  # below what is cut nothing is bought
        if cut:
            self.context.bought = 0
        for before, left in read.instead:
            self.read.put(before, *([left] if left else []))
            self.read.understood.append(before.words)
        read = self._from_strips_or_besides(read, cut)
        for entry in read.entries:
            self.read.add(entry)
        self._keep_strips(read)
        self.read.questions.extend(read.questions)
        self.read.remarks.extend(read.remarks)
        if any(one.of_fabric for one in read.questions):
            self.context.fabrics = ()  # what comes below may be cut from either
        self.context.below += cut
        if self.context.of_block:
            self.read.below_blocks += [(*self.context.of_block, one.words) for one in cut]
        if self.context.doubtful:
            bare = [one for one in cut if "fabric" not in one.data]
            self.read.below_doubts += [(self.context.doubtful, one.words) for one in bare]
        if cut and not keep:
            self.context.last = cut
        elif read.questions:
            self.context.last = ()


def _of_one_border(read, chunks):
    """What a line reads, its border told once for all of its pieces: "(2) 2 x 60 in and (2) 2 x 64 in borders"."""
    roles = all_of(chunks, "role")
    measures = all_of(chunks, *MEASURES)
    if len(roles) != 1 or not measures or roles[0].start < measures[-1].end or "border" not in read.entries[-1].role:
        return read
    role = read.entries[-1].role
    if role.endswith((" side", " top")) or any(one.role and one.role != role for one in read.entries):
        return read
    return replace(read, entries=tuple(replace(one, role=role) for one in read.entries))


def _along_the_selvage(entry):
    """A line of the cutting list below "cut lengthwise"; a square lies either way."""
    lies = entry.table == "cut" and ("strip" in entry.data or isinstance(entry.data.get("size"), list))
    return entry.but(lengthwise=True) if lies else entry


def _with_its_strips(read):
    """A reading in which a binding that names its strips comes where they do: with the answer that brings them."""
    names = {one.name for one in read.entries if one.table == "cut"}
    late = [
        one for one in read.entries if one.table == "binding" and "part" in one.data and one.data["part"] not in names
    ]
    if not late:
        return read
    questions = tuple(
        replace(one, choices=tuple(_with(choice, late) for choice in one.choices)) for one in read.questions
    )
    return replace(read, entries=tuple(one for one in read.entries if one not in late), questions=questions)


def _with(choice, bindings):
    """An answer, with the bindings whose strips are among what it brings."""
    brought = {one.name for one in choice.changes if one.table == "cut"}
    more = tuple(one for one in bindings if one.data["part"] in brought)
    return replace(choice, changes=(*choice.changes, *more))
