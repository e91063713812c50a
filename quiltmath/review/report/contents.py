"""What a report says, in its order, as plain data: the same for every kind of file it is written to."""

import re
from collections import Counter
from dataclasses import dataclass

from ... import __version__
from ...draw import Board, Picture
from ..finding import Finding
from ..reviewing import Review
from ..writing import LEVEL_WORDS, comes_to, headline, printable
from .numbers import MEANING, SIGNS, numbers
from .pictures import COVER, both, detail

# The usual cautions: common practice, no source.
CAUTIONS = (
    (
        "Rotary cutter: cut away from yourself, hand flat behind the edge of the ruler, fingers off it. "
        "Close the blade after every cut, even a short one, and keep it from children."
    ),
    (
        "Iron: set it on its heel, mind the steam and the flex, and switch it off when you leave the "
        "table. Press seams, do not drag the iron along a bias edge."
    ),
    (
        "Needles and pins: take pins out before the machine reaches them, change a bent or blunt needle, "
        "and count pins before you count patches. Feet off the pedal while you thread."
    ),
)


@dataclass(frozen=True)
class Verdict:
    """The first thing read: the level, the verdict in words, the pattern's name, what it comes to, and in
    short what was found."""

    level: str
    words: str
    pattern: str
    sentence: str
    short: tuple = ()


@dataclass(frozen=True)
class Heading:
    """The heading of a part of the report."""

    text: str


@dataclass(frozen=True)
class Paragraph:
    """A paragraph."""

    text: str


@dataclass(frozen=True)
class Drawing:
    """A picture over the whole width (a draw.Picture or Board)."""

    picture: Picture | Board


@dataclass(frozen=True)
class Told:
    """One finding: heading, message, (label, text) pairs, where it stands and how to see why, and its picture
    or None."""

    level: str
    heading: str
    message: str
    pairs: tuple
    source: str
    picture: Picture | Board | None = None

    @property
    def broad(self):
        """Whether its picture is several side by side, and goes below the words rather than beside them."""
        return isinstance(self.picture, Board)


@dataclass(frozen=True)
class NumberTable:
    """A table: the heads of its columns, and groups of rows, (title, rows), each row as many texts as there
    are heads."""

    heads: tuple
    groups: tuple


@dataclass(frozen=True)
class Listed:
    """A list of sentences; with room to write an answer below each where they are `questions`."""

    items: tuple
    questions: bool = False


def contents(review: Review) -> list:
    """The report of a review as a list of the things above, its verdict first."""
    parts = [_verdict(review)]
    board = both(review)
    if board is not None:
        parts.append(Drawing(board))
        if COVER not in [picture.title for picture in board.pictures]:
            parts.append(
                Paragraph(
                    "The pattern does not say enough to draw the quilt on its cover: settle what is found below first."
                )
            )
    if review.findings:
        parts += [
            Heading("What was found"),
            *(_told(review, number, finding) for number, finding in enumerate(review.findings, 1)),
        ]
    if review.questions:
        parts += [Heading("Ask the designer"), Listed(tuple(map(printable, review.questions)), questions=True)]
    if review.verdict != "go":
        parts += _corrected(review)
    parts += [
        Heading("Every printed number, and ours beside it"),
        _table(review),
        Heading("Before you cut"),
        Listed(CAUTIONS),
        Paragraph(_source(review)),
    ]
    return parts


def _verdict(review):
    sewn = comes_to(review)
    counts = Counter((finding.level, finding.found_by) for finding in review.findings)
    short = tuple(
        f"{LEVEL_WORDS[level]}: {check.title}"
        + (f" (in {count} places)" if count > 1 else "")
        + (f": {check.repair}" if check.repair else "")
        for (level, check), count in counts.items()
    )
    return Verdict(
        review.verdict,
        headline(review),
        printable(review.sheet.title),
        sewn if short else f"{sewn} Nothing was found against it.",
        short,
    )


def _told(review: Review, number: int, finding: Finding) -> Told:
    """One finding as the report tells it."""
    pairs = tuple(
        (label, printable(text)) for label, text in (("Printed", finding.printed), ("Needed", finding.needed)) if text
    )
    return Told(
        finding.level,
        f"{number}. {LEVEL_WORDS[finding.level]}: {finding.title}",
        printable(finding.message),
        pairs,
        f"{_file(finding.where)} · to see why: {finding.why.command}",
        detail(review, finding),
    )


def _corrected(review):
    """What would put the pattern right, and what only the designer can say."""
    right = review.correction
    if not right.changes:
        return []
    changes = [printable(change.words) for change in right.changes]
    return [
        Heading("What would put it right"),
        Listed(tuple(words[0].upper() + words[1:] for words in changes)),
        Paragraph(
            "What is asked above must be settled as well."
            if right.missing
            else "With these changes the pattern passes this review."
        ),
    ]


def _table(review):
    groups = tuple(
        (
            printable(title),
            tuple(
                (
                    printable(row.what),
                    printable(row.printed),
                    printable(row.ours),
                    f"{SIGNS[row.mark]} {row.mark}",
                )
                for row in rows
            ),
        )
        for title, rows in numbers(review)
    )
    return NumberTable(("Number", "Printed", "Worked out here", "Agree?"), groups)


def _source(review):
    signs = "; ".join(f"{SIGNS[mark]} {mark}: {meaning}" for mark, meaning in MEANING.items())
    return (
        f"{signs}. Every size is worked out by drawing the finished shape and moving each sewn side out by "
        f"one seam; the quilts are sewn so, on the computer, from the printed numbers. Read by "
        f"quiltmath {__version__} from {_file(review.sheet.place([]))}."
    )


def _file(place):
    """A place in a sheet without the folders it lies in."""
    return printable(re.split(r"[/\\]", place)[-1])
