"""Sentences without figures: they may say more of the line before, or change it; else they are kept as they are."""

from __future__ import annotations

import re

from . import following, logs, naming, prose, sections, sets, sets_in_words
from .chunks import all_of, count, opened
from .doubtful import NOT_UNDERSTOOD
from .figures import IN_WORDS
from .fillers import FILLERS
from .model import Question
from .sentence import Sentence
from .vocabulary import FUNCTION_WORDS

_OF_THE_REST = re.compile(
    r"\b(?:remain(?:ing|der)|rest|leftovers?|what(?:'s| is| was) left|as (?:shown|in|many|you))\b"
)
_AS_BEFORE = re.compile(
    r"^\W*(?:repeat|do)\b(?!\s+not\b)"
    r"|\b(?:the same|ditto|likewise|as (?:above|before))(?:\s+(?:number|amount|pieces|cuts|sizes?))*\W*$"
)
_COUNTED = re.compile(rf"(?<![\w-])(?:{IN_WORDS})\W*$")
"""A number behind the name of a fabric, of pieces told before: "of plain white, fifteen"."""
_OF_THE_STRIPS = re.compile(
    r"\W*(?:(?:then|now|next)\s+)?from\s+(?:all\s+)?(?:(?:of\s+)?(?:the|these|those|your)\s+)?strips,?\s*(?:you\s+)?"
    r"(?:sub-?\s?|cross-?)?cut\W*"
)
"""What heads the pieces of the strips told before: "From these strips, cut:"."""
_DOUBLE = re.compile(r"\b(?:fold|folded|layers?|thickness)\b")
MOST_WORDS = 4
"""Of more words a sentence has its own verb."""


_BAGGED = ("bag", "mark", "pile", "stack", "these", "are", "they", "call", "them")
"""What stands beside the letter of pieces that are labelled: "bag and label these A", "these are D"."""


class Unfigured(Sentence):
    """Reads the sentences of one page that hold no figures."""

    def _without_figures(self, chunks, words):
        """A sentence without figures: it may say more of the line before; else it is kept as it is."""
        flat = opened(chunks)
        handled = prose.is_of_handling(self.page, chunks) or prose.is_of_care(chunks, self.page)
        if handled or prose.NOT_TO_CUT.match(self.page.plain, chunks[0].start):
            self.read.instructions.append(words)
            return
        if self.context.strips and _OF_THE_STRIPS.fullmatch(words.text.casefold()):
            self.context.wants_pieces = True
            self.read.understood.append(words)
            return
        in_words = sets_in_words.told(chunks, self.read, self.context, self.page)
        if in_words is not None:
            self._take(in_words)
            return
        if logs.cuts_from_strips(words.text):
            self.log_strips = self.log_strips or {}
            self.read.understood.append(words)
            self.context.last = ()
            return
        counted = _COUNTED.search(words.text.casefold())
        if counted and self.context.last and naming.is_of_fabric(words.text[: counted.start()]):
            self.read.questions.append(Question(words, NOT_UNDERSTOOD))
            return
        ends = self._ends_what_is_cut(flat, words)
        if ends and (flat[0].kind == "lengthwise" or _DOUBLE.search(words.text.casefold())):
            self.read.questions.append(Question(words, "this changes what stands before it: how?"))
            return
        if prose.tells_a_length(words):
            self.read.questions.append(Question(words, "how much is bought here, in figures?"))
            return
        begun = sets.begun(chunks, self.context, self.page)
        if begun is not None and begun.entries:  # "Five such pairs"
            self._take(begun)
        if begun is None and following.for_a_place(flat, words, self.read, self.context, self.page):
            return
        if begun is None and sets_in_words.in_order(words, self.read, self.context):
            self.read.instructions.append(words)
            self.context.last = ()
            return
        sewn = self.context.section == "sewing" and not self._may_be_a_head(chunks, words)
        if prose.is_prose(chunks, self.page) or begun is not None or sewn and not count(flat, "cut", "into"):
            self.read.instructions.append(words)
            self.context.last = ()
            return
        of_below = words.text.endswith(":") and not self.context.each_block and len(flat) <= MOST_WORDS + 1
        if of_below and count(flat, "caution", "each", "of_each", "once", "twice"):
            self.read.questions.append(Question(words, "this changes what stands below it: how?"))
            return
        along = {"lengthwise", "cut", "punct", "article", "strips", "pieces", "rectangles"}
        told = {one.kind for one in flat if self.page.said(one) not in ("these", "them", "all", "both", "those")}
        if count(flat, "lengthwise") and told <= along and not self.context.below:
            self.context.lengthwise = True
            self.read.understood.append(words)
            return
        labels = [one for one in flat if one.kind != "and" and self.page.said(one) not in _BAGGED]
        if [one.kind for one in labels] == ["label"] and len(self.context.last) == 1:
            following.labelled(labels[0].value, words, self.read, self.context)
            return
        of_a_fabric = naming.is_of_fabric(naming.described(chunks, self.page)) and not words.text.endswith(":")
        from_another = flat[0].kind == "cut" and count(flat, "from") and of_a_fabric
        if from_another or count(flat, "cut", "into") and _OF_THE_REST.search(words.text.casefold()):
            self.read.questions.append(Question(words, "what is cut here, and how large?"))
            return
        if (self.context.last or self.context.fabrics and flat[0].kind == "caution") and _AS_BEFORE.search(
            words.text.casefold()
        ):
            self.read.questions.append(Question(words, "what is cut here, the same as what?"))
            return
        diagonal = all_of(flat, "once", "twice")
        if diagonal and self.context.last:
            following.cut_on_the_diagonal(diagonal[0].kind, words, self.read, self.context)
            return
        nouns = all_of(flat, "squares", "rectangles", "strips")
        if len(nouns) == 1 and {one.kind for one in flat} <= {"cut", "punct", "article", nouns[0].kind}:
            self.noun = nouns[0].kind
        changes = count(flat, "of_each", "each", "caution") and (count(flat, "cut", "from", "into") or ends)
        if (changes or diagonal) and self.context.last:
            self.read.questions.append(Question(words, "this changes what stands before it: how?"))
            return
        of_others = words.text.endswith(":") or count(flat, "for", "blocks", "unit")
        apart = re.compile(r"\W*\n\s*\n").match(self.page.plain, words.end)
        if self.context.role and of_others and (apart or sections.is_above_pieces(self.page, words.end)):
            self.context.role = self.context.role_above = ""  # of the pieces above
        named = self._is_only_a_name(chunks)
        if (self.context.fabrics or of_a_fabric or named) and self._may_be_a_head(chunks, words):
            self.context.fabrics, self.context.doubtful = (), words
        self.read.remarks.append(words)

    def _ends_what_is_cut(self, flat, words):
        """Whether a few words, right below pieces, may say more of these: "Of each fabric", "Reversed"."""
        near = bool(self.context.last) and self.page.lines_between(self.context.last[-1].words.end, words.start) < 2
        told = len(flat) <= MOST_WORDS and flat[0].kind not in ("aside", "need")
        return near and told and not words.text.endswith((":", "!", "?"))

    def _may_be_a_head(self, chunks, words):
        """Whether a line that is no head the reader knows may yet be one: a few words alone."""
        alone = re.fullmatch(r"[\W\d]*", self.page.plain[: words.start].rpartition("\n")[2])
        said = {self.page.said(one) for one in chunks if one.kind == "word"}
        ends = not words.text.endswith(".") or self._is_only_a_name(chunks)
        names = len(said) or count(chunks, "label", "article")  # "A" alone
        return bool(alone) and 0 < names <= 5 and ends

    def _is_only_a_name(self, chunks):
        """Whether words right above pieces tell of nothing, so that they may be a name."""
        said = {self.page.said(one) for one in chunks if one.kind == "word"}
        chunks = [one for one in chunks if self.page.said(one) != "one"]  # "the leafy one"
        told = {one.kind for one in chunks} <= {
            "word",
            "punct",
            "and",
            "article",
            "label",
            "note",
            "cut",
        } and not said & FUNCTION_WORDS
        names = bool(chunks) and told and (not said <= FILLERS or not said and count(chunks, "label", "article"))
        return names and sections.is_above_pieces(self.page, chunks[-1].end, True)
