"""What a report says, in its order, as plain data: the same for every kind of file it is written to."""

import re
from dataclasses import dataclass, replace

from ... import __version__
from ...draw import Board, Picture
from ...pattern.names import called
from ..checks.check import MOST_NAMED, some
from ..finding import Finding
from ..reviewing import Review
from ..writing import LEVEL_WORDS, comes_to, headline, printable
from .cure import cures
from .number import DIFFERS, MEANING, MISSING, NEAR, SIGNS, TAKEN, Number
from .numbers import numbers
from .pictures import COVER, WILL, both, detail

# The usual cautions: common practice, no source.
CAUTIONS = (
    (
        "Rotary cutter: cut away from yourself, hand flat on the ruler, fingers off its edge. Close the blade after "
        "every cut, even a short one, and keep it from children."
    ),
    "Iron: set it on its heel, mind steam and flex, switch it off when you leave; do not drag it along a bias edge.",
    "Needles and pins: take pins out before the machine reaches them, feet off the pedal while you thread.",
)
CURE = "What would put it right"
PAGES = "The whole pattern with numbers that work, ready to print"
FIRST = (DIFFERS, NEAR, MISSING)  # what is looked at first
MOST_MATTERS, MOST_CURES = 3, 6  # on the first page; the rest is told further down


@dataclass(frozen=True)
class Verdict:
    """The first thing read: the level, the verdict in words, the pattern's name, what it comes to; then what matters
    and what would put it right, a sentence each, what is true of the pattern once that is done, and the file of the
    pages to work from, as seen from the report's folder."""

    level: str
    words: str
    pattern: str
    sentence: str
    matters: tuple = ()
    cures: tuple = ()
    after: str = ""
    pages: str = ""


@dataclass(frozen=True)
class Heading:
    """The heading of a part of the report."""

    text: str


@dataclass(frozen=True)
class Paragraph:
    """A paragraph."""

    text: str
    small: bool = False


@dataclass(frozen=True)
class Drawing:
    """A picture over the whole width (a draw.Picture or Board)."""

    picture: Picture | Board


@dataclass(frozen=True)
class Told:
    """What was found alike in one place or more: heading, message, the other places, (label, text) pairs, and its
    picture or None; in the teacher's copy also where it stands in the sheet, by which check, and how to see why."""

    level: str
    heading: str
    message: str
    same: str
    pairs: tuple
    source: str = ""
    picture: Picture | Board | None = None

    @property
    def broad(self):
        """Whether its picture is several side by side, and goes below the words rather than beside them."""
        return isinstance(self.picture, Board)


@dataclass(frozen=True)
class NumberTable:
    """A table: the heads of its columns, and groups of rows, (title, rows), each row as many texts as there
    are heads; `small` where it is read only by who looks for something."""

    heads: tuple
    groups: tuple
    small: bool = False


@dataclass(frozen=True)
class Listed:
    """A list of sentences; with room to write an answer below each where they are `questions`, `small` where they are
    the same in every report."""

    items: tuple
    questions: bool = False
    small: bool = False


def contents(review: Review, teacher: bool = False, pages: str = "") -> list:
    """The report of a review as a list of the things above, its verdict first; the `teacher` also sees the lines of the
    sheet, the names of the checks, the commands that show why, and a picture of everything that was found. `pages`
    names the file of the printed pattern, where there is one."""
    groups = _alike(review.findings)
    cure = cures(review)
    parts = [_verdict(review, groups, cure, pages), *_pictures(review)]
    if review.questions:
        parts += [Heading("Ask the designer"), Listed(tuple(map(printable, review.questions)), questions=True)]
    if groups:
        found = (_told(review, number, group, teacher) for number, group in enumerate(groups, 1))
        parts += [Heading("What was found"), *found]
    if len(cure) > MOST_CURES:
        parts += [Heading("All that would put it right"), Listed(tuple(map(printable, cure)))]
    groups = numbers(review)
    parts += _numbers(groups)
    parts += [
        Heading("Before you cut"),
        Listed(CAUTIONS, small=True),
        Paragraph(_source(review, groups, teacher), True),
    ]
    return parts


# -- the first page ---------------------------------------------------------------------------------------


def _verdict(review, groups, cure, pages):
    size, right = comes_to(review), review.correction if cure else None
    matters = _matters(review)
    if len(matters) > MOST_MATTERS:
        matters[MOST_MATTERS:] = [f"And {some(len(matters) - MOST_MATTERS, 'more thing')}, told below."]
    if len(matters) > 1:
        matters[1:] = [f"Also: {' '.join(matters[1:])}"]
    more = len(cure) - MOST_CURES
    shown = cure if more <= 0 else (*cure[: MOST_CURES - 1], f"And {some(more + 1, 'more change')}, listed below.")
    settled = "With this the pattern passes." if len(cure) == 1 else "With these changes the pattern passes."
    after = "" if right is None or not right.changes else settled if right.passes else "What is asked is still open."
    return Verdict(
        review.verdict,
        headline(review),
        printable(review.sheet.title),
        size if groups else f"{size} Nothing was found against it.",
        tuple(map(printable, matters)),
        tuple(map(printable, shown)),
        after,
        printable(pages),
    )


def _matters(review):
    """What stands against cutting, a sentence for each kind of thing."""
    kinds: dict[tuple[str, str], list[str]] = {}
    for finding in review.open:
        level = "" if finding.level == review.verdict else f"{LEVEL_WORDS[finding.level]}: "
        kinds.setdefault((level, finding.title), []).extend(
            [finding.needed] if finding.found_by.missing else _names(finding)
        )
    named = {kind: _listed_names(names) for kind, names in kinds.items()}
    return [f"{level}{title}{f': {names}' if names else ''}." for (level, title), names in named.items()]


def _pictures(review):
    """The quilt as printed beside the quilt as it should be; one picture where nothing stands against cutting."""
    board = both(review)
    if board is None:
        return []
    captions = {picture.caption for picture in board.pictures}
    if not review.open or (review.verdict == "ask" and len(board.pictures) > len(captions)):
        (picture,) = board.pictures[-1:]
        return [Drawing(replace(picture, title=WILL))]
    titles = [picture.title for picture in board.pictures]
    unknown = "The pattern does not say enough to draw the quilt as it should be: settle what is found below first."
    return [Drawing(board), *([] if COVER in titles else [Paragraph(unknown)])]


# -- what was found ---------------------------------------------------------------------------------------


def _alike(findings):
    """The findings in groups of those that say the same of different things, or say the very same."""
    groups: dict[tuple, list[Finding]] = {}
    for finding in findings:
        said = (finding.printed, finding.needed) if _names(finding) else (finding.message,)
        groups.setdefault((finding.check, finding.level, finding.size, finding.title, *said), []).append(finding)
    return list(groups.values())


def _names(finding):
    """What a finding is about, as a reader of the pattern knows it; nothing where it is about the whole quilt."""
    names = [f"“{name}”" for name in sorted(finding.parts)]
    if not names and finding.path[:1] == ("fabric",):
        names = [f"“{finding.path[1]}”"]
    if not names and called(finding.panel) != finding.panel:
        names = [f"{called(finding.panel)}s"]
    return names


def _listed_names(names):
    """Up to three names; nothing where there are more, or none."""
    names = list(dict.fromkeys(names))
    return ", ".join(names) if len(names) <= MOST_NAMED else ""


def _told(review: Review, number: int, group: list[Finding], teacher: bool) -> Told:
    """What was found alike, as the report tells it: the first in full, the others by their names."""
    first = group[0]
    others = [name for finding in group[1:] for name in _names(finding) if name not in _names(first)]
    pairs = tuple(
        (label, printable(text)) for label, text in (("Printed", first.printed), ("Needed", first.needed)) if text
    )
    places = ", ".join(_file(finding.where) for finding in group)
    return Told(
        first.level,
        f"{number}. {LEVEL_WORDS[first.level]}: {first.title}",
        printable(first.message),
        printable(f"The same holds for the {', '.join(dict.fromkeys(others))}.") if others else "",
        pairs,
        f"{places} · {first.check} · to see why: {first.why.command}" if teacher else "",
        detail(review, first) if teacher or number == 1 else None,
    )


# -- the numbers ------------------------------------------------------------------------------------------


def _numbers(groups):
    """The numbers that differ, or should be printed and are not; then the rest, those of one thing in one row."""
    differing, agreeing = [], []
    for title, group in groups:
        first = tuple(_row(number) for number in group if number.mark in FIRST)
        things: dict[str, list[Number]] = {}
        for number in group:
            if number.mark not in FIRST:
                things.setdefault(number.thing, []).append(number)
        differing += [(printable(title), first)] if first else []
        agreeing += [_in_one_row(thing, of_it) for thing, of_it in things.items()]
    parts: list = [Heading("The numbers, those that differ first" if differing else "The numbers")]
    if differing:
        parts.append(NumberTable(("Number", "Printed", "Worked out here", "Difference"), tuple(differing)))
    if agreeing:
        agree = "These agree" if differing else "All agree"
        parts.append(NumberTable((agree, "Printed", "Worked out here"), (("", tuple(agreeing)),), small=True))
    return parts


def _row(number):
    return tuple(map(printable, (number.what, number.printed, number.ours, number.sign)))


def _in_one_row(thing, numbers):
    """The numbers of one thing, one beside the other."""
    figures = ", ".join(number.figure for number in numbers if number.figure)
    ours = "; ".join("as printed" if number.ours == number.printed else number.ours for number in numbers)
    if all(number.ours == number.printed for number in numbers):
        ours = "as printed" if all(number.mark == TAKEN for number in numbers) else "the same"
    name = f"{thing}: {figures}" if figures else thing
    return printable(name), printable("; ".join(number.printed for number in numbers)), printable(ours)


def _source(review, groups, teacher):
    marks = {number.mark for _, group in groups for number in group if number.mark in FIRST}
    signs = "; ".join(f"{SIGNS[mark]} {meaning}" for mark, meaning in MEANING.items() if mark in marks)
    read = f" from {_file(review.sheet.place([]))}" if teacher else ""
    return (
        f"{f'{signs}. ' if signs else ''}Every size is worked out by drawing the finished shape and moving each sewn "
        f"side out by one seam; the quilts are sewn so, on the computer, from the printed numbers. Read by quiltmath "
        f"{__version__}{read}."
    )


def _file(place):
    """A place in a sheet without the folders it lies in."""
    return printable(re.split(r"[/\\]", place)[-1])
