"""The text of a page, and the lines that a reader sees in it."""

from __future__ import annotations

import re
from functools import cached_property
from itertools import chain, islice

from . import columns, which_way
from .article_numbers import without_article_numbers
from .characters import named_by_colours, parted_by_gaps, plain
from .chunks import FIGURES, NAMED, Chunk, chunked, count, place_of
from .decimal_commas import with_points
from .furniture import furniture, numbers_of_sections, page_number, step_numbers, together
from .model import Words
from .numbered_fabrics import by_letters
from .signs_explained import explained, explains
from .vocabulary import PROSE

LONGEST = 50_000
"""Signs: the text of the longest pattern that is drafted; fifteen pages and more, for one has 2,000 to 3,000."""

LONGEST_HEAD = 200
"""Signs: no head is longer."""

LONGEST_JOINED = 1_200
"""Signs: what narrow columns and PDFs break into several lines is no longer."""

_GOES_ON = re.compile(
    r"\s*(?:sub-?\s?cut|cross-?cut|re-?cut|in(?:to)\b|cut (?:in half|once|twice|diagonally|into|these|them)|once\b"
    r"|twice\b|diagonal(?:ly|s)?\b|on the|from (?:these|this|which|those|them|it)\b|"
    r"x\s|x\d|by\b|wide\b|squares?\b|rectangles?\b|strips?\b|lengths?\b|pieces?\b|triangles?\b|inch|wof\b"
    r"|for (?:a total|the)\b|of (?:the|your)\b|across\b|and\b|to (?:yield|make|get|give)\b|yield|total"
    r"|\((?!\d+[)\s]*(?![a-z\s])|\d+\s+\d|[a-z]\d?\)))"
)
_OPEN = re.compile(
    r"(?:[,;x&+]|\b(?:by|and|or|into|to|of|for|from|the|an?|(?<!first )(?<!second )(?<!no )cut|each|every|these"
    r"|those|them|with|make|both|one|twice|on|are|is|be|was|were|will|that|which|your|our|my|its|their|same|than|about|at|when|until|then|you|gives?|yields?|makes?|another|plus|measuring|scant)"
    r"|\bfabric:?-|(?<!\d )(?<!\d)\bin|[a-z]-)\s*$"
)
_HEADS_A_SIZE = re.compile(
    r"\W*(?:finish(?:ed|es)\s+)?(?:quilt\s+|block\s+)?(?:size|measurements?)\W*|\W*finished\s+(?:quilt|block)\W*"
)
_MEASURES_THE_NEXT = re.compile(r"\b(?:cent(?:er|re)|top|measur(?:es?|ing)|approx(?:imately)?)\s*$")
"""What ends a line that goes on with its size."""
_HEADS_THE_NEXT = re.compile(r"[;.,]\s*[^\W\d][^;.,:\d]{2,30}:\s*$")
"""What ends a line of pieces and is the head of the line below: "…; posts:"."""
_OPEN_PLACE = re.compile(r"\b(?:for|side|inner|outer|middle|top|bottom|corner|setting|first|second|third)\s*$")
"""What ends a line that goes on with a place in the quilt."""
_ONLY_GOES_ON = re.compile(r"\s*(?:fabrics?(?=\s+(?:and|for|to|then|into)\b|\s*[.,]|\s*$)|off\b)")
"""What no line begins with, in small letters."""
_WANTS_A_NAME = re.compile(r"\b(?:from|to\s+(?:make|give|get|yield))(?:\s+the)?\s*$")
"""What ends a line that goes on with a fabric, or with a number."""
MOST_OF_AN_END = 6
"""Words: the end of a line in a narrow column has no more."""
_HAS_WORDS = re.compile(r"\S[^\n]*")
_CLAUSE = re.compile(r"(?:.*(?:\.\s|[;:]))?\s*", re.DOTALL)
"""A line as far as its last clause."""
SHORTEST_FULL, FULL = 38, 0.85
"""A line of running text that goes on in small letters on the next has so many signs, and so much of the longest line
of its paragraph."""
_RUNS_ON = re.compile(rf"\s*(?!(?:cut|{'|'.join(sorted(PROSE))})\b)[a-z]")
_NAMED = re.compile(r"\s*[^\W\d_][^:;.\d]{0,30}(?:\d{1,2}\b[^:;.\d]{0,20})?(?::|\s-)\s*(?:cut\s+)?\(?\d")
"""A line that names a fabric and counts its pieces, as the lines of a list do."""
_ALONE = re.compile(r"\s*\([^()]*\b(?:fabric|usable|useable|wof|seams?)\b[^()]*\)\s*")
"""A bracket on a line of its own that tells of the whole page: "(fabric 42 in wide)"."""
_LISTED = re.compile(
    r"\s*[^\W\d][^\d\n]*?(?:[^\S\n]{3,}|\s*\.{3,}\s*)\d[\d ./-]*\s*(?:yards?|yds?|met(?:er|re)s?|m|cm)\b\.?\s*"
)
"""A row of a shopping list: a fabric, and behind a gap how much of it is bought."""
_WITH_REMARK = re.compile(r"(?P<head>[^():]{3,40})\([^()]{20,}\)\W*")
"""The head of a section, with a sentence in a bracket behind it."""
_KEYED = re.compile(r"\s*[a-z][a-z ]{3,24}\s=\s")
"""A line of a form: "layout = on point, 4 across x 5 down"."""
_BOUGHT = re.compile(r"\s*\(\s*\d[\d ./-]*\s*(?:yards?|yds?|met(?:er|re)s?|m|cm)\b\.?\s*\)[\s:]*")
"""How much is bought of the fabric that the line above names, in a bracket alone."""
_FRACTION = re.compile(r"\s*\d\s*/\s*\d")
_QUOTED = re.compile(r"^([ \t]*)>(?=[ \t])", re.MULTILINE)
"""A bullet as a mail, or a plain list, has it."""
_BULLET = re.compile(r"\s*(?:\d{1,2}[.)]\s|[-*•◦▪●○■□]|[A-Z]\d?[:.)=]|[a-z]\d?\)\s)")


_LED_TO = re.compile(r"\.{3,}\s*\d[\d /]*\s*(?:yards?|yds?|m)\b\.?\s*$")
"""The end of a line whose dots lead to how much is bought."""
_BUYS = re.compile(r",\s*[\d\xbc-\xbe\u2150-\u215e][\d\xbc-\xbe\u2150-\u215e /]*(?:yards?|yds?)\b\.?\s*$")
"""The end of a line that buys a fabric; where the next ends so too they are two of a list."""
MEASURED = {"length", "size", "strip"}


_PARTS_OF_WORDS = {
    "half", "quarter", "sub", "cross", "corner", "on", "to", "top", "fat", "pre", "re", "double", "end", "side",
    "straight", "twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety", "four", "nine", "low",
    "hand", "tone"
}  # fmt: skip
"""What a hyphen stands behind on one line too."""
_HYPHENATED = re.compile(r"(?<![^\W\d_])(?P<one>[^\W\d_]+)[-\u2010\u00ad][ \t]*\n[ \t]*(?P<other>[a-z]+|[A-Z]{2,})")


def _whole_word(match):
    """A word that a line broke, whole on the first of its lines; blanks keep what follows in its place."""
    shouts = match["other"].isupper()
    if match["one"].lower() in _PARTS_OF_WORDS or shouts and not (match["one"].isupper() and len(match["one"]) > 2):
        return match[0]
    return (match["one"] + match["other"]).ljust(len(match[0]))


class Unreadable(ValueError):
    """A page that cannot be drafted from; the message says why, and what to do instead."""


_WANTS_MORE = re.compile(r"(?:\b(?:for|the|of|and|or|to|a|in|as|your|each)|[,&/-])\s*$")
"""What ends a line that goes on with the next."""


class Page:
    """The text of a printed page, and the same in one spelling, sign for sign."""

    def __init__(self, text: str) -> None:
        text = together(_QUOTED.sub(r"\1•", text))
        self._starts = [0, *(match.end() for match in re.finditer("\n", plain(text)))]
        self.furniture: list[Words] = []
        """Page numbers, running heads and feet: in `text` and in `plain` blanks stand in their place."""
        text = with_points(named_by_colours(parted_by_gaps(text)))
        self.text, self.plain = text, plain(text)
        for start, end in [*furniture(self.plain)]:
            self.furniture.append(self.words(start, end))
            self._blank(start, end)
        numbers = (step_numbers(self.text), page_number(self.text), numbers_of_sections(self.text))
        for start, end in chain(*numbers):
            self.text = self.text[:start] + " " * (end - start) + self.text[end:]
        self.text = _HYPHENATED.sub(_whole_word, self.text)
        self.plain = without_article_numbers(by_letters(explained(plain(self.text))))

    def _blank(self, start: int, end: int) -> None:
        """Put blanks where a line stands that is none of what is told, and what it parts side by side again."""
        before, behind = len(self.plain[:start].rstrip()), end + len(self.plain[end:]) - len(self.plain[end:].lstrip())
        if self.text[behind : behind + 1].islower() and before:
            start, end = before, behind - 1
        elif start:
            start -= 1
        blanks = " " * (end - start)
        self.text = self.text[:start] + blanks + self.text[end:]
        self.plain = self.plain[:start] + blanks + self.plain[end:]

    def words(self, start: int, end: int) -> Words:
        """What stands from one place to another, without the blanks around it."""
        from bisect import bisect_right

        while start < end and self.plain[start].isspace():
            start += 1
        while end > start and self.plain[end - 1].isspace():
            end -= 1
        return Words(bisect_right(self._starts, start), start, end, " ".join(self.text[start:end].split()))

    def said(self, chunk: Chunk) -> str:
        """What a chunk says, in one spelling."""
        return self.plain[chunk.start : chunk.end]

    def over(self, chunks: list[Chunk]) -> Words:
        """The words from the first of these chunks to the last."""
        return self.words(chunks[0].start, chunks[-1].end)

    def lines_between(self, one: int, other: int) -> int:
        """How many lines end between two places."""
        return self.plain.count("\n", one, other)

    def lines_apart(self, one: int, other: int) -> int:
        """How many lines end between two places, but for those without a word."""
        return len(re.findall(r"\n\s*", self.plain[one:other]))

    def has_more(self, place: int) -> bool:
        """Whether two lines or more follow a place: what stands before it may be a title."""
        return len([*islice(_HAS_WORDS.finditer(self.plain, place), 2)]) > 1

    @cached_property
    def lines(self) -> list[tuple[int, int]]:
        """The lines as a reader sees them, (start, end) each: what a narrow column or a PDF broke is one line again.

        >>> page = Page("Cut 4 strips 3 in x\\nWOF; sub-cut\\ninto 52 squares 3 in\\nNavy")
        >>> [page.text[start:end].count("\\n") for start, end in page.lines]
        [2, 0]
        """
        physical = [match.span() for match in re.finditer(r"[^\n]+", self.plain) if match[0].strip()]
        ordered: list[tuple[int, int]] = []
        beside: set[tuple[int, int]] = set()
        for is_table, lines in self._tables(physical):
            read, parts = (lines, lines) if is_table else columns.in_order(self.plain, lines, self._is_head)
            ordered += read
            beside |= {*parts}
        found: list[tuple[int, int]] = []
        for start, end in ordered:
            if found and not beside & {found[-1], (start, end)} and self._goes_on(found[-1], start, end):
                found[-1] = (found[-1][0], end)
            else:
                found.append((start, end))
        return found

    def _tables(self, lines):
        """The lines in stretches, (whether they are the rows of a table under its head, these lines) each."""
        from . import counts_by_fabric, logs, tables

        stretches: list[tuple[bool, list[tuple[int, int]]]] = [(False, [])]
        for line in lines:
            headed = bool(tables.columns(self, *line)) or logs.heads_several_columns(self, *line)
            headed = headed or bool(counts_by_fabric.columns(self, *line))
            parted = re.search(r"\n\s*\n", self.plain[line[0] - 2 : line[0]]) if line[0] else None
            if headed or (parted and stretches[-1][0]):
                stretches.append((headed, []))
            stretches[-1][1].append(line)
        return stretches

    def _is_head(self, start, end):
        """Whether words head a column: a section, or a name without figures that ends in a colon or is that of a
        fabric."""
        from . import heads, sections
        from .model import Context

        if end - start > LONGEST_HEAD:
            return False
        if sections.section(self.plain[start:end].strip()):
            return True
        found = heads.head(self, start, end, Context(section="cutting"))
        return found is not None and bool(found.fabrics) and not self.plain[found.rest : end].strip(" :")

    def _is_place(self, start, end):
        """Whether words are no more than the head of a place in the quilt: "Corner triangles"."""
        from . import heads
        from .model import Context

        if end - start > LONGEST_HEAD or re.search(r"\d", self.plain[start:end]):
            return False
        found = heads.head(self, start, end, Context(section="cutting"))
        return found is not None and bool(found.role) and not self.plain[found.rest : end].strip(" :")

    def _lacks(self, line, behind):
        """Whether the last clause of a line counts pieces and does not say how large they are, as the line behind it
        begins to, or has begun a count or a number that this goes on with."""
        clause = (line[0] + _CLAUSE.match(self.plain[slice(*line)]).end(), line[1])
        here, there = chunked(self.plain, *clause), chunked(self.plain, *behind)
        cut = max((place for place, chunk in enumerate(here) if chunk.kind == "into"), default=0)
        of_strips = cut and count(here[cut:], "strips") and count(here[cut:], "count")
        here = here[cut:] if of_strips else here
        kinds, first = {chunk.kind for chunk in here}, there[0].kind if there else ""
        if not here or "count" not in kinds:
            return False
        counted = here[-1].kind == "count" and not self.plain[here[-1].end : line[1]].strip()
        if (
            counted
            and len(here) > 1
            and here[-2].kind in ("and", "of_each", "each", "for")
            and first in (*MEASURED, *NAMED, "role")
        ):
            return True
        if kinds & {*MEASURED, "yards"}:
            return False
        if counted and _FRACTION.match(self.plain, *behind):
            return bool(kinds & {*NAMED})
        if counted and count(here, "cut", "into", "from", "make"):
            noun = place_of(there, *NAMED, otherwise=len(there))
            told = first == "word" and self.said(there[0]) not in PROSE
            named = first in (*MEASURED, *NAMED) or told and not count(there[:noun], "count")
            return named and self.plain[here[-1].start] != "("
        named = kinds & {"squares", "rectangles"} or here[-1].kind in ("pieces", "segments")
        return bool(named or of_strips) and first in MEASURED

    def _is_full(self, line):
        """Whether the last line of these reaches as far as the others of its paragraph, as running text does."""
        last = len(self.plain[slice(*line)].rpartition("\n")[2].strip())
        above = re.split(r"\n\s*\n", self.plain[max(0, line[1] - LONGEST_JOINED) : line[1]])[-1]
        below = re.split(r"\n\s*\n", self.plain[line[1] : line[1] + LONGEST_JOINED], maxsplit=1)[0]
        longest = max(len(one.strip()) for one in (above + below).splitlines())
        return last >= max(SHORTEST_FULL, FULL * longest)

    def _is_above_figures(self, end):
        """Whether a figure stands on the line below, which goes on with a small letter or counts."""
        below = re.compile(r"[^\n]*\n[ \t]*(?P<line>[a-z(\[\d][^\n]*)").match(self.text, end)
        return bool(below) and count(chunked(self.plain, *below.span("line")), *MEASURED) > 0

    def _ends_what_is_cut(self, before, start, end):
        """Whether a few words in small letters end the line of pieces above them in a narrow column: "12 squares 3 in
        of white / muslin"."""
        words = self.text[start:end].strip()
        few = words[:1].islower() and len(words.split()) <= MOST_OF_AN_END and not re.search(r"\d|[:;]$", words)
        pieces = chunked(self.plain, *before)
        if not few or not _RUNS_ON.match(self.text, start, end):
            return False
        if self._is_above_figures(end) and not _OPEN_PLACE.search(self.plain[slice(*before)]):
            return False
        return count(pieces, "count") > 0 and count(pieces, *MEASURED) > 0 and count(pieces, *NAMED, "strip") > 0

    def _wants_more(self, line):
        """Whether a line is no whole heading: it holds a figure, or ends in a word that no heading ends in."""
        head = self.plain[slice(*line)]
        shouts = self.text[slice(*line)].isupper()
        return bool(re.search(r"\d", head)) or not shouts and bool(_WANTS_MORE.search(head))

    def _goes_on(self, before, start, end):
        """Whether a line goes on with what the line before it began."""
        from . import sections

        head, line = self.plain[before[0] : before[1]], self.plain[start:end]
        if "\n\n" in self.plain[before[1] : start] or re.search(r"\n\s*\n", self.plain[before[1] : start]):
            return False
        if any(sign in head.strip() and sign in line.strip() for sign in ("\t", " | ", "....")):  # rows of a table
            return False
        if which_way.told(line) or which_way.told(head.rpartition("\n")[2]):
            return False
        if (
            _ALONE.fullmatch(line)
            or _LED_TO.search(head)
            or _BUYS.search(head)
            and _BUYS.search(line)
            or explains(self.plain, start, end)
        ):
            return False
        in_column = columns.in_one_column(self.plain, before, (start, end))
        listed = _LISTED.fullmatch(line) or _KEYED.match(line) or in_column
        remark = _WITH_REMARK.fullmatch(head)
        if remark and sections.section(remark["head"].strip()):
            return False
        if sections.heads_a_part(head) or listed and head.count("(") <= head.count(")"):
            return False
        if _BOUGHT.fullmatch(line) and not re.search(r"\d", head):
            return True
        if len(head) > LONGEST_JOINED:
            return False
        if _WANTS_A_NAME.search(head) and count(chunked(self.plain, *before), *MEASURED):
            return True
        if _BULLET.match(self.text[start:end]):
            return False
        if head.count("(") > head.count(")"):
            return True
        capital = self.text[start:end].lstrip()[:1].isupper()
        if capital and (self._is_head(start, end) or not _WANTS_MORE.search(head) and self._is_place(start, end)):
            return False
        if not _OPEN_PLACE.search(head) and self._is_place(start, end) and self._is_above_figures(end):
            return False
        if not self._wants_more(before) and _NAMED.match(line):  # "BRING WITH YOU" heads a list
            return False
        first = chunked(self.plain, start, end)[:1]
        if count(first, *MEASURED) and (_HEADS_A_SIZE.fullmatch(head) or _MEASURES_THE_NEXT.search(head)):
            return True
        if _HEADS_THE_NEXT.search(head) and count(chunked(self.plain, *before), *MEASURED):
            return True
        if head.rstrip().endswith((".", ":")):
            return False
        if self._ends_what_is_cut(before, start, end) or _ONLY_GOES_ON.match(self.text, start, end):
            return True
        if self._lacks(before, (start, end)):
            return True
        if _NAMED.match(self.text, *before) and _NAMED.match(self.text, start, end):
            return False
        there = [one.kind for one in chunked(self.plain, start, end)[:2]]
        pieces = there[:1] == ["count"] and {*there[1:]} & {*MEASURED, "strips", "squares", "rectangles"}
        begins = pieces and count(chunked(self.plain, *before), *MEASURED)
        if capital and "yard" in head and _NAMED.match(self.text, start, end):
            return False
        if self._is_full(before) and _RUNS_ON.match(self.text, start, end) and not begins:  # "two 4 in squares" begins
            return True
        figured = bool(re.search(r"\d", head)) or count(chunked(self.plain, *before), *FIGURES) > 0 and len(head) > 20
        if figured and _GOES_ON.match(line) and not self.text[start:end].lstrip()[:1].isupper():
            return True
        if re.search(r"(?<![^\W\d_])[A-Z]\s*$", self.text[before[0] : before[1]]):  # a label is no article
            return False
        return bool(figured or head.strip().count(" ") > 2) and bool(_OPEN.search(head))
