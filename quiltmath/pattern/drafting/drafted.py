"""A draft: what was understood of a page, what is asked, and the text of the sheet that a person then completes."""

from __future__ import annotations

import re
import unicodedata
from collections import Counter
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any

from . import asking, at_odds, by_hand, columns_of_sizes, titles, written
from .about_the_quilt import measures_in_centimetres, only_repeats, seam_by_lines, unread_above, with_proposal
from .borders_pieced import lengths_pieced
from .doubtful import NOT_UNDERSTOOD
from .layouts import kinds, squares_between
from .model import Choice, Entry, Question, Words
from .page import LONGEST, Page, Unreadable
from .parts import with_binding, with_borders, with_names
from .pieced_blocks import with_likeliest_size
from .reader import Reader
from .strips_of_sets import without_strips

if TYPE_CHECKING:
    from ..sheet import Sheet

OF_A_CUTTING_LIST = ("cut", "strip_set", "binding")
_ACROSS = re.compile(r"[x×]\s*(4[0-5])\s*(?:[\"″”]|in\b|inch|$)")


@dataclass(frozen=True)
class Draft:
    """What was understood of a page: `entries`, each with the words it came from, `questions`, the sentences kept as
    `instructions`, the other lines kept as `remarks`, the heads and what else was `understood`."""

    name: str
    page: str
    entries: tuple[Entry, ...]
    questions: tuple[Question, ...] = ()
    instructions: tuple[Words, ...] = ()
    remarks: tuple[Words, ...] = ()
    understood: tuple[Words, ...] = ()
    first: tuple[Entry, ...] = ()
    """The entries before any answer: what an answer changes is what differs from these."""
    settled: tuple[Question, ...] = ()
    """The questions that were answered or put aside: they are not asked again."""

    def answered(self, question: Question, choice: Choice | None = None) -> Draft:
        """The draft with one question answered: by one of its choices, or, without one, put aside.

        >>> drafted = draft('Navy: 8 squares 3 7/8"\\nCream: 8 squares 3 7/8"')
        >>> asked = drafted.questions[0]
        >>> asked.text
        '8 Navy squares of 3 7/8 and 8 Cream squares of 3 7/8: half-square triangle units, two at a time?'
        >>> drafted.answered(asked, asked.choices[0]).entries[-1].data["kind"]
        'half-square'
        """
        if question not in self.questions:
            raise ValueError(
                f"the draft does not ask this (any more): {question.text}; its questions are in `questions`"
            )
        if choice is not None and choice not in question.choices and question.draws is None:
            raise ValueError(f"{choice.label!r} is no answer to: {question.text}; its answers are in `choices`")
        if choice is not None and choice.page:
            return draft(choice.page, self.name)
        entries, asked = self._taking(choice)
        settled = (*self.settled, question)
        put = {(one.text, one.words) for one in settled}
        rest = [one for one in self.questions if one != question and not one.of_numbers]
        told = put | {(one.text, one.words) for one in rest}
        rest += [one for one in asked if (one.text, one.words) not in told]
        return replace(
            self,
            entries=tuple(entries),
            questions=_with_those_of_numbers(rest, entries, self.page, put, self.instructions),
            settled=settled,
        )

    def typed(self, question: Question, text: str) -> Choice:
        """What somebody types in answer to a question that proposes nothing, as a choice: the rows of a block, or how
        many blocks stand across and down; refused with a ValueError in words."""
        return by_hand.drawn(question, text, list(self.entries))

    def names_to_type(self, question: Question) -> list[str]:
        """What may be named in such an answer, each with its fabric, how many there are and how large."""
        of_block = question.draws is not None and question.draws.table == "block"
        return by_hand.names_to_draw(list(self.entries)) if of_block else []

    def _taking(self, choice: Choice | None) -> tuple[list[Entry], list[Question]]:
        """The entries with what an answer changes, and what is then to be asked."""
        entries = list(self.entries)
        borders = sum(one.table == "border" for one in choice.changes) if choice else 0
        if borders > 1:  # their order is what is answered
            entries = [one for one in entries if one.table != "border"]
        for entry in choice.changes if choice else ():
            before = next((one for one in (*self.first, *entries) if _is_of(entry, one)), None)
            place = next((at for at, one in enumerate(entries) if before and one.path == before.path), None)
            if place is None or before is None:
                entries.append(entry.but())
            else:
                entries[place] = _changed(entries[place], before, entry)
        entries, asked = _with_new_borders(_with_block_set(_without_totals(with_names(entries))))
        of_one_mind, gainsaid = at_odds.settled(entries, choice.changes if choice else ())
        return of_one_mind, [*asked, *gainsaid]

    def data(self, choice: Choice | None = None) -> dict[str, Any]:
        """The drafted sheet as plain tables, as a form takes them; with a `choice`, as this answer would make it."""
        entries = self._taking(choice)[0] if choice is not None else list(self.entries)
        return written.data(entries, self.instructions)

    @property
    def missing(self) -> list[str]:
        """What a sheet needs and the page did not say, or not in words.

        >>> draft('Navy: 8 squares 3 1/2"').missing[0]
        'title: what the pattern is called'
        """
        return written.missing(list(self.entries))

    def text(self) -> str:
        """The drafted sheet: TOML, above each table the words it came from, questions as lines that begin with "# ?".

        >>> print(draft('Navy: 8 squares 3 1/2"', "page.txt").text().splitlines()[0])
        # Drafted from page.txt: 1 line of the cutting list, no questions.
        """
        return written.text(self)

    def sheet(self) -> Sheet:
        """The draft as a sheet, where it is complete; else refused, with what is still to be said."""
        from ..reading import Unreadable, read_text

        if self.questions:
            raise Unreadable(f"{self.name}: {written.counted(len(self.questions), 'question')} must be answered first")
        if self.missing:
            raise Unreadable(f"{self.name}: the draft is not complete: {'; '.join(self.missing)}")
        return read_text(self.text(), self.name)


def _with_those_of_numbers(of_lines, entries, text, settled=frozenset(), told=()):
    """The questions as they are put: those of lines, then those that the numbers of the draft put; but first what
    nothing can be proposed for, where no answer that is proposed would change that."""
    waits = any(one.choices for one in of_lines)
    asked = asking.proposals(entries, text, settled, told, waits)
    of_numbers = [replace(one, of_numbers=True) for one in asked]
    if waits or any(one.choices for one in of_numbers):
        return (*of_lines, *of_numbers)
    return (*of_numbers, *of_lines)


def _without_totals(entries):
    """The entries without units that the page counts in all, where those of their kind that are known are as many, or,
    of half-squares, the quarter-squares that are made of them; what it says of their size is said of these."""
    units = [one for one in entries if one.table == "unit"]
    known = Counter[str]()
    for one in units:
        known[one.data.get("kind", "")] += one.data.get("count", 0) if "parts" in one.data else 0
    known["half-square"] = known["half-square"] or known["quarter-square"]
    totals = [one for one in units if "parts" not in one.data and one.data.get("count", 0) == known[one.data["kind"]]]
    return [_sized_as(one, totals) for one in entries if one not in totals]


def _sized_as(entry, totals):
    """An entry, a unit with the size that is told of all of its kind."""
    of_kind = [one for one in totals if entry.table == "unit" and one.data["kind"] == entry.data["kind"]]
    sizes = {key: one.data[key] for one in of_kind for key in ("finished", "trim_to") if key in one.data}
    return replace(entry, data={**sizes, **entry.data}) if sizes else entry


def _with_block_set(entries):
    """The entries, the one block that is pieced named in a setting on point that has none, and the squares between."""
    setting = next((one for one in entries if one.table == "setting" and one.data.get("style") == "on point"), None)
    pieced = [one.name for one in kinds(entries) if any(other.path == ("block", one.name) for other in entries)]
    if setting is None or "rows" in setting.data or len(pieced) != 1:
        return entries
    if setting.data.get("block", pieced[0]) != pieced[0]:
        return entries
    with_block = [one.but(block=pieced[0]) if one is setting else one for one in entries]
    between = "alternate" not in setting.data and squares_between(pieced[0], with_block)
    return [one.but(alternate=between) if between and one.table == "setting" else one for one in with_block]


def _with_new_borders(entries):
    """The entries with a border for the strips of one that an answer has brought, and what has to be asked of it."""
    with_all, asked = with_borders(entries)
    if {one.path for one in with_all} <= {one.path for one in entries}:
        made = {one.path: one.data for one in with_all if one.table == "border"}
        return [replace(one, data={**made.get(one.path, {}), **one.data}) for one in entries], []
    return with_all, asked


def _changed(entry, before, answer):
    """An entry with what an answer changes of it; what other answers changed stays, and so does all that an answer does
    not say of a table that it adds to."""
    whole = entry.table in ("cut", "fabric")
    data = {
        key: value for key, value in entry.data.items() if key in answer.data or key not in before.data or not whole
    }
    data |= {key: value for key, value in answer.data.items() if before.data.get(key) != value}
    return replace(answer, name=entry.name, data={key: value for key, value in data.items() if value is not None})


def _is_of(answer, entry):
    """Whether an answer takes the place of an entry: it has its path, or, not yet named, its words and its size."""
    if answer.name or answer.table != "cut":
        return answer.path == entry.path
    same = [key for key in ("fabric", "size", "strip") if key in entry.data]
    return (answer.table, answer.words) == (entry.table, entry.words) and all(
        answer.data.get(key) == entry.data[key] for key in same
    )


def draft(text: str, name: str = "page") -> Draft:
    """The draft of a sheet from the text of a printed page; `name` is what messages call it.

    >>> drafted = draft('From navy, cut:\\n12 squares 3 1/2"\\n5 - 7/8" squares')
    >>> drafted.entries[0].data
    {'fabric': 'navy', 'size': '3 1/2', 'count': 12}
    >>> drafted.entries[0].words
    Words(line=2, start=16, end=33, text='12 squares 3 1/2"')
    >>> drafted.questions[0].text
    'is this 5 7/8, or 5 of 7/8?'
    >>> draft("Beat the eggs with the sugar.")
    Traceback (most recent call last):
    quiltmath.pattern.drafting.page.Unreadable: page: there is no line of a cutting list in this, such as \
18 squares 3 1/2 in: is it the right page?
    """
    if len(text) > LONGEST:
        raise Unreadable(
            f"{name}: a pattern has at most {LONGEST:,} signs; this has more: give the pages with the cutting "
            "list alone"
        )
    page = Page(text)
    sizes = columns_of_sizes.question(page)
    if sizes is not None:  # those of the first are drafted, until another is chosen
        of_first = draft(sizes.choices[0].page, name)
        return replace(of_first, page=text, questions=(sizes, *of_first.questions))
    read = Reader(page).all()
    if not any(one.table in OF_A_CUTTING_LIST for one in read.entries) and not _may_be_asked(read.questions):
        raise Unreadable(f"{name}: {_none(text)}")
    entries = _with_width(titles.with_title(_of_one_block(without_strips(read.entries)), read, page))
    if not any("seam" in one.data for one in entries) and (seam := seam_by_lines(page)):
        entries = [*entries, seam]
    if measures_in_centimetres(page):
        entries = [asking.in_centimetres(one) for one in entries]
    entries, of_lines = lengths_pieced(entries, read.questions)
    entries, asked = with_borders(with_names(with_binding(entries)))
    entries, gainsaid = at_odds.settled(entries)
    asked += gainsaid
    unread = unread_above(read.instructions, entries)
    asked += [Question(words, NOT_UNDERSTOOD) for words in unread]
    proposed = (with_proposal(_of_named_block(one, entries), entries) for one in (*of_lines, *asked))
    sized = filter(None, (with_likeliest_size(one, entries) for one in proposed))
    questions = sorted(sized, key=lambda one: one.words.start)
    repeated = [one for one in questions if only_repeats(one, entries)]
    questions = [one for one in questions if one not in repeated]
    told = (*(one for one in read.instructions if one not in unread), *(one.words for one in repeated))
    return Draft(
        name,
        text,
        tuple(entries),
        _with_those_of_numbers(questions, entries, text, told=told),
        told,
        tuple(
            one
            for one in read.remarks
            if not any(entry.name == "title" and entry.words.start <= one.start < entry.words.end for entry in entries)
        ),
        tuple(read.understood),
        tuple(entries),
    )


def _may_be_asked(questions):
    """Whether a question is about what can be a line of a cutting list."""
    return any(
        any(word in one.words.text.casefold() for word in ("square", "strip", "rectangle", "triangle", "wof", "log"))
        for one in questions
    )


def _none(text):
    """Why nothing of a cutting list is in this text."""
    if not text.strip():
        return "there is no text in this: copy the text of the page"
    letters = [char for char in text if char.isalpha()]
    foreign = [char for char in letters if not unicodedata.name(char, "").startswith("LATIN")]
    if len(foreign) * 2 > len(letters):
        return "this is not written in Latin letters; a draft is made of English pages: type the sheet by its guide"
    return "there is no line of a cutting list in this, such as 18 squares 3 1/2 in: is it the right page?"


def _of_one_block(entries):
    """The entries, what is said of "the block" said of each that has a name."""
    named = [one for one in entries if one.table == "block" and one.name != "block"]
    plain = next((one for one in entries if one.path == ("block", "block")), None)
    if plain and "count" in plain.data and plain.data["count"] == sum(one.data.get("count", 0) for one in named):
        return _of_one_block([one.but(count=None) if one is plain else one for one in entries])  # that of them all
    if (
        plain is None
        or not named
        or any(plain.data[key] != one.data[key] for one in named for key in plain.data.keys() & one.data.keys())
    ):
        return entries
    if len(named) > 1 and "count" in plain.data:
        return entries

    def whole(one):
        words = (plain.words.text,) if plain.words.start < one.words.start else ()
        return replace(one, data={**plain.data, **one.data}, remarks=(*one.remarks, *words) or (plain.words.text,))

    return [whole(one) if one in named else one for one in entries if one is not plain]


def _of_named_block(question, entries):
    """A question, what it proposes for "the block" proposed for the one that has a name."""
    blocks = [one.name for one in entries if one.table == "block"]
    if len(blocks) != 1 or blocks == ["block"]:
        return question

    def named(entry):
        return replace(entry, name=blocks[0]) if entry.path == ("block", "block") else entry

    choices = (replace(one, changes=tuple(map(named, one.changes))) for one in question.choices)
    return replace(question, choices=tuple(choices))


def _with_width(entries):
    """The entries with the width of fabric as strips across it are printed, where nothing else says it."""
    strips = [
        one for one in entries if one.table in ("cut", "binding") and "strip" in one.data and "length" not in one.data
    ]
    told = {found[1]: one.words for one in strips if (found := _ACROSS.search(one.words.text.casefold()))}
    if len(told) != 1 or any("usable_width" in one.data for one in entries):
        return entries
    ((width, words),) = told.items()
    return [*entries, Entry("sheet", {"usable_width": width}, words, "usable_width")]
