"""A page with figures for several sizes of a quilt side by side: it is asked which of them is meant, and the figures of
the others are left out."""

from __future__ import annotations

import re
from typing import NamedTuple

from .model import Choice, Question
from .page import Page

ALONE = r"baby|crib|cot|child|toddler|lap|throw|runner|topper|twin|full|queen|(?:super\s+)?king"
"""The sizes of quilts whose names are said of no piece."""
NAMES = rf"{ALONE}|wall|single|double|(?:extra\s+)?small|medium|(?:extra\s+)?large"
_NAME = re.compile(rf"(?:\W*)(?P<name>{NAMES})(?:\s+(?:size|quilt))?\W*")
_OF_NO_PIECE = rf"(?P<name>{ALONE})(?:\s+(?:size|quilt))?"
_BEFORE_PIECES = re.compile(rf"(?<![\w-]){_OF_NO_PIECE}\s*(?::|\s-|=)\s*(?=(?:cut\s+)?\(?\d)")
"""A size before the figures that are for it: "Baby: 2 strips"."""
_BEHIND = re.compile(
    rf"(?P<told>(?<![\w/.])\d[^,;()\n]*?)\s*(?:\(\s*(?:for\s+)?|\bfor\s+(?:the\s+|an?\s+)?){_OF_NO_PIECE}\b"
    r"(?=\s*(?:[,;/.)&]|and\b|or\b|$))\)?"
)
"""A size behind the figures that are for it: "2 yards (throw)"."""
_SECTION = re.compile(
    rf"[\W\d]*(?:cutting\s+)?(?P<of>for\s+)?(?:the\s+)?(?P<name>(?:{NAMES}))(?:\s+|-)(?:sized?(?:\s+quilt)?|quilt)(?:\s+cutting)?\W*"
)
"""A size that heads what is cut for it, on a line of its own: "TWIN SIZE"."""
_LAST_LINE = re.compile(r"\n\W*(?:sewing|piecing|assembl|instructions|directions|finishing)[^\n]*")
_CELL = re.compile(r"\S+(?:[^\S\n]\S+)*")
"""Words with single blanks between them: what stands further apart is another column."""
_IN_BRACKETS = re.compile(r"\b\d+\s*[(\[]\d+(?:\s*[,/;]\s*\d+)*[)\]]")
"""A count of each size in running prose: "Make 18 (50)"."""
SLACK = 3
"""Signs: a cell begins so far left or right of its head, at most."""


class Sizes(NamedTuple):
    """The sizes that a head names: (name, the column it begins in) each, and where the head stands."""

    names: tuple[tuple[str, int], ...]
    start: int
    end: int


def question(page: Page) -> Question | None:
    """Which size is meant, where columns are headed by sizes; None where none are.

    >>> page = Page("Fabric       Baby      Throw\\nNavy         1 yd      2 yd")
    >>> asked = question(page)
    >>> asked.text, asked.choices[1].page.split()
    ('which of these sizes is to be checked: Baby or Throw?', ['Fabric', 'Navy', '2', 'yd'])
    """
    heads = [head for start, end in _lines(page) if (head := _head(page, start, end))]
    if not heads:
        return _of_sections(page) or _of_lines(page)
    first = heads[0]
    answers = [(name, _of_one(page, heads, name)) for name, _ in first.names]
    return _which(page.words(first.start, first.end), answers)


def _which(words, answers):
    """The question which of several sizes is meant, by the text of the page as it reads for each."""
    answers = [*answers]
    names = [name for name, _ in answers]
    asks = f"which of these sizes is to be checked: {', '.join(names[:-1])} or {names[-1]}?"
    return Question(words, asks, tuple(Choice(name, page=text) for name, text in answers))


def _sections(page):
    """(the name of a size, where the line begins and ends that it heads what is cut for it with) each."""
    lines = ((line, _SECTION.fullmatch(page.plain, *line)) for line in _lines(page))
    return [(page.text[slice(*found.span("name"))], *line) for line, found in lines if found]


def heads_the_only_one(page: Page, start: int, end: int) -> bool:
    """Whether a line heads what is cut for a size, and no other does for another; "For king size" may be more of it.

    >>> page = Page("TWIN SIZE\\nFrom navy cut 9 strips 5 in x WOF")
    >>> heads_the_only_one(page, 0, 9)
    True
    """
    found = _SECTION.fullmatch(page.plain, start, end)
    return bool(found and not found["of"]) and len({name.casefold() for name, *_ in _sections(page)}) == 1


def _of_sections(page):
    """Which size is meant, where what is cut for each stands below its name; the last section ends where is sewn."""
    found = _sections(page)
    names = [*dict.fromkeys(name for name, *_ in found)]
    if len({name.casefold() for name in names}) < 2:
        return None
    last = _LAST_LINE.search(page.plain, found[-1][2])
    bounds = [*(start for _, start, _ in found), last.start() if last else len(page.plain)]
    answers = []
    for name in names:
        text = [*page.text]
        for (other, *_), start, end in zip(found, bounds, bounds[1:]):
            if other != name:
                text[start:end] = (sign if sign == "\n" else " " for sign in text[start:end])
        answers.append((name, "".join(text)))
    return _which(page.words(found[0][1], found[0][2]), answers)


def of_a_line(page: Page, start: int, end: int) -> Question | None:
    """Which size is meant, where a line tells the figures of several, one behind the other; None where it does not.

    >>> page = Page("Navy: Baby: 2 strips 3 in x WOF. Throw: 4 strips 3 in x WOF.")
    >>> asked = of_a_line(page, 0, len(page.text))
    >>> asked.choices[1].page.split()
    ['Navy:', '4', 'strips', '3', 'in', 'x', 'WOF.']
    """
    heads = [*_BEFORE_PIECES.finditer(page.plain, start, end)]
    names = [page.text[slice(*head.span("name"))] for head in heads]
    if len(names) == 1 and _lies_among_sizes(page, heads[0], end):
        only, others = [*page.text], [*page.text]
        _blank(only, *heads[0].span())
        _blank(others, start, end)
        choices = Choice("yes", page="".join(only).rstrip()), Choice("no", page="".join(others).rstrip())
        return Question(page.words(start, end), f"is {names[0]} the size that is to be checked?", choices)
    told = _told(page, start, end)
    return _which(page.words(start, told[-1].end), _each_of(page, [told])) if told else None


def _of_lines(page):
    """Which size is meant, where several lines tell the same ones, each with their figures."""
    found = [told for line in _lines(page) if (told := _told(page, *line))]
    names = [{one.name.casefold() for one in told} for told in found]
    if len(found) < 2 or any(one != names[0] for one in names):
        return None
    return _which(page.words(found[0][0].start, found[0][-1].end), _each_of(page, found))


def _each_of(page, lines):
    """(a size, the page with what these lines tell of it alone) each."""
    for name in dict.fromkeys(one.name for one in lines[0]):
        text = [*page.text]
        for told in lines:
            own = next(one for one in told if one.name.casefold() == name.casefold())
            _blank(text, told[0].start, own.first)
            _blank(text, own.last, told[-1].end)
        yield name, "".join(text).rstrip()


class _OfSize(NamedTuple):
    """What a line tells of one size, from `first` to `last`, and that with the name of the size, from `start` to
    `end`."""

    name: str
    start: int
    end: int
    first: int
    last: int


def _told(page, start, end):
    """What a line tells of each of several sizes; nothing where it does not."""
    heads = [*_BEFORE_PIECES.finditer(page.plain, start, end)]
    stops = [*(head.start() for head in heads[1:]), end]
    spans = [(*head.span(), head.end(), stop) for head, stop in zip(heads, stops)]
    if not heads:
        heads = [*_BEHIND.finditer(page.plain, start, end)]
        spans = [(*head.span(), *head.span("told")) for head in heads]
    names = [page.text[slice(*head.span("name"))] for head in heads]
    several = len({name.casefold() for name in names}) > 1
    return [
        _OfSize(name, at, max(stop, last), first, last) for name, (at, stop, first, last) in zip(names, spans)
    ] * several


def _lies_among_sizes(page, head, end):
    """Whether a line begins with a size, and one right above or below it with another."""
    before, _, begins = page.plain[: head.start()].rpartition("\n")
    lines = before.rpartition("\n")[2], page.plain[end:].lstrip("\n").partition("\n")[0]
    others = [_BEFORE_PIECES.match(line.lstrip(" -*•")) for line in lines]
    return not begins.strip(" -*•") and any(one and one["name"] != head["name"] for one in others)


def _lines(page):
    return [match.span() for match in re.finditer(r"[^\n]+", page.plain)]


def _cells(page, start, end):
    return [match.span() for match in _CELL.finditer(page.plain, start, end)]


def _head(page, start, end):
    """The sizes at the end of a line, two of them or more, each in a cell of its own."""
    names = []
    for cell in reversed(_cells(page, start, end)):
        if not _NAME.fullmatch(page.plain, *cell):
            break
        names.append((page.text[slice(*cell)].strip(), cell[0] - start))
    return Sizes(tuple(reversed(names)), start, end) if len(names) > 1 else None


def _of_one(page, heads, name):
    """The text of the page, blank in place of the heads and of the figures of the other sizes; every sign keeps its
    place."""
    text = [*page.text]
    at = {head.start: head for head in heads}
    here = None
    for start, end in _lines(page):
        if start in at:
            here = at[start]
            _blank(text, start + here.names[0][1], end)
            continue
        found = _row(_cells(page, start, end), start, here) if here else {}
        for other, cell in found.items():
            if other != name:
                _blank(text, *cell)
    for match in _IN_BRACKETS.finditer(page.plain, heads[0].end):
        figures = [figure.span() for figure in re.finditer(r"\d+", match[0])]
        if len(figures) == len(heads[0].names):
            start, end = figures[[other for other, _ in heads[0].names].index(name)]
            kept = text[match.start() + start : match.start() + end]
            _blank(text, *match.span())
            text[match.start() + start : match.start() + end] = kept
    return "".join(text)


def _blank(text, start, end):
    text[start:end] = " " * (end - start)


def _row(cells, start, head):
    """{size: its cell} of a row that has one for each size; nothing of other lines."""
    found = {}
    for name, column in head.names:
        near = [cell for cell in cells if abs(cell[0] - start - column) <= SLACK]
        if len(near) == 1:
            found[name] = near[0]
    return found if len(found) == len(head.names) else {}
