"""What is drafted from a page, as data: entries with the words they came from, questions with their proposals."""

from __future__ import annotations

from dataclasses import dataclass, field, fields, replace
from typing import Any, NamedTuple

LENGTHS = frozenset({
    "size", "strip", "length", "finished", "seam", "usable_width", "sub_cut", "trim_to", "strip_width", "sides_length",
    "top_length", "piece"
})  # fmt: skip
"""The keys of a sheet whose values are lengths."""


class Words(NamedTuple):
    """Words of a page: where they begin and end (signs from the start of the page), and on which line, from 1 on."""

    line: int
    start: int
    end: int
    text: str


@dataclass(frozen=True)
class Entry:
    """What one line of a page says, as the keys of one table of the sheet.

    `table` is "cut", "fabric", "strip_set", "unit", "block", "setting", "border", "binding", "backing", "batting" or
    "sheet", for what stands at its top; `name` the name of that table where it has one, or of the part that is cut.
    `remarks` say what else was printed there: checks that were kept, and what was left aside.
    """

    table: str
    data: dict[str, Any]
    words: Words
    name: str = ""
    remarks: tuple[str, ...] = ()
    role: str = ""
    """Where the piece belongs, as "inner border side" or "corner triangle"; nothing where that is not said."""

    @property
    def path(self) -> tuple[str, str]:
        """What tells it from every other entry of a draft."""
        return self.table, self.name

    def but(self, **data: Any) -> Entry:
        """The same with some values changed; None takes one out."""
        changed = {**self.data, **data}
        return replace(self, data={key: value for key, value in changed.items() if value is not None})

    def noted(self, remark: str, **data: Any) -> Entry:
        """The same with one remark more, and some values changed."""
        return replace(self.but(**data), remarks=(*self.remarks, remark))


@dataclass(frozen=True)
class Choice:
    """One answer that is proposed: its words, and the entries that the draft then has, each in place of the one that
    has its `path`, if there is one."""

    label: str
    changes: tuple[Entry, ...] = ()
    page: str = ""
    """The text of the page as this answer reads it, where that is drafted anew."""


SOMETHING_ELSE = Choice("something else")


@dataclass(frozen=True)
class Question:
    """What has to be asked, about these words of the page, and what may be answered."""

    words: Words
    text: str
    choices: tuple[Choice, ...] = ()
    of_fabric: bool = False
    """Whether it asks from which fabric its line is cut; the lines below it may then be cut from that one too."""
    of_numbers: bool = False
    """Whether the numbers of the whole draft put it, and none of its lines: it is put anew after each answer."""
    draws: Entry | None = None
    """The block of which the rows, or the setting of which the blocks across and down may be typed as its answer."""


@dataclass(frozen=True)
class Reading:
    """What a stretch of a page was read as: entries, questions, or words that are kept as a remark."""

    entries: tuple[Entry, ...] = ()
    questions: tuple[Question, ...] = ()
    remarks: tuple[Words, ...] = ()
    instead: tuple[tuple[Entry, Entry | None], ...] = ()
    """(an entry that was read before, what is left of it beside this reading) each."""


def of_words(read: Reading, words: Words) -> Reading:
    """A reading whose entries, proposed ones too, and questions come from these words."""
    questions = (
        replace(
            one,
            words=words,
            choices=tuple(
                Choice(choice.label, tuple(replace(entry, words=words) for entry in choice.changes))
                for choice in one.choices
            ),
        )
        for one in read.questions
    )
    entries = tuple(replace(one, words=words) for one in read.entries)
    return replace(read, entries=entries, questions=tuple(questions))


@dataclass
class Context:
    """What holds for the lines below a head: the fabrics they are cut from, how often, and what they are for."""

    fabrics: tuple[str, ...] = ()
    prints: int | None = None
    per_print: bool = False
    times: int = 1
    role: str = ""
    role_above: str = ""
    """The place in the quilt that a head on a line of its own names: fabrics told with their pieces below it are for
    that too."""
    section: str = ""
    known: list[str] = field(default_factory=list)
    lettered: dict[str, str] = field(default_factory=dict)
    """{the letter of a fabric on the shopping list: its name}."""
    other_names: dict[frozenset[str], str] = field(default_factory=dict)
    """{what the shopping list calls a fabric, by its name and besides: its name; nothing where it calls two so}."""
    pieces: dict[str, int] = field(default_factory=dict)
    """Of the fabrics that are bought as pieces, how many."""
    of_prints: dict[str, int] = field(default_factory=dict)
    """Of the fabrics that are several prints, how many."""
    piece_sizes: dict[str, str] = field(default_factory=dict)
    """How large these are: "10 in square"."""
    strips: tuple[Entry, ...] = ()
    """The strips last told, of each fabric: what is cut from them takes their place."""
    strips_left: int | None = None
    """How many of them are told to stay as they are."""
    strips_before: bool = False
    """Whether others of that width and fabric stand right before them, of which nothing was cut."""
    strips_cut: bool = False
    """Whether some of them are cut already."""
    second_cut: bool = False
    """Whether what stands behind strips is cut from them: "First cut", "Second cut"."""
    wants_pieces: bool = False
    """Whether these are cut into what stands on the lines below."""
    below_strips: bool = False
    """Whether the present line stands below them as what is cut from them."""
    purposes: dict[str, str] = field(default_factory=dict)
    """Of the fabrics that are bought for one border alone, which that is."""
    last: tuple[Entry, ...] = ()
    """The entries of the line before, which the next may say more of."""
    bought: int = 0
    """How many lines that buy fabric stand right above: one of them is a head, several are a list."""
    beside: int = 0
    """Where the line of the present head ends, if pieces stand on it: lines below may be cut from another fabric."""
    hanging: int = 0
    """In which column the pieces begin that stand on that line."""
    column: int = 0
    """In which column the head begins that names the present fabrics."""
    running: bool = False
    """Whether that line is a sentence of running prose."""
    above: tuple[str, ...] = ()
    """The fabrics of a head that may hold no more."""
    each_block: bool = False
    """Whether what is cut is told for one block."""
    each_block_of_head: Words | None = None
    """The words that say so of what is cut of the present fabrics alone."""
    blocks: int = 0
    """How many blocks that is told of; 0 where it has to be asked how many there are in all."""
    of_block: tuple[Words, int] | None = None
    """The head of a block of which several are made, and how many: what is cut below may be for one of them."""
    doubtful: Words | None = None
    """A head that may be the name of a fabric, until a line stands below it."""
    below: tuple[Entry, ...] = ()
    """The entries below the present head."""
    lengthwise: bool = False
    """Whether what stands below is cut along the selvage."""
    across: bool = False
    """Whether a line says that it is cut across the width of the fabric."""
    sets: list[str] = field(default_factory=list)
    strip_set: Entry | None = None
    """The strip set that is being told of, sentence by sentence."""

    def anew(self, section: str) -> Context:
        """What holds at the beginning of a section: no head of the page before it."""
        return Context(
            known=self.known,
            lettered=self.lettered,
            other_names=self.other_names,
            pieces=self.pieces,
            of_prints=self.of_prints,
            piece_sizes=self.piece_sizes,
            purposes=self.purposes,
            sets=self.sets,
            section=section,
        )

    def take(self, other: Context) -> None:
        """Hold what another holds, that was tried in place of this."""
        for one in fields(self):
            setattr(self, one.name, getattr(other, one.name))

    def copied(self) -> Context:
        """The same, which may change on its own."""
        return replace(
            self,
            known=[*self.known],
            sets=[*self.sets],
            pieces={**self.pieces},
            of_prints={**self.of_prints},
            piece_sizes={**self.piece_sizes},
            lettered={**self.lettered},
            other_names={**self.other_names},
            purposes={**self.purposes},
        )
