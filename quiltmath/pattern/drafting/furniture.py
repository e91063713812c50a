"""What stands on a page for its own sake: page numbers, running heads and feet, copyright lines."""

from __future__ import annotations

import re
from collections.abc import Iterator

from .vocabulary import PROSE

_PAGE_NUMBER = re.compile(
    r"[\s|~]*(?P<dash>-+\s*)?(?:(?:page|pg\.?|p\.)\s*\d{1,3}(?:\s*(?:/|of)\s*\d{1,3})?|\d{1,3}(?:\s+of\s+\d{1,3})?)"
    r"(?(dash)\s*-+)[\s|.~]*$"
)
_PAGE = r"(?:page|pg\.?|p\.)\s+\d{1,3}(?:\s*(?:/|of)\s*\d{1,3})?"
_NUMBERED = re.compile(
    rf"(?<!from )(?<!on )(?<!see )(?<!to )(?<!of )(?<![a-z]){_PAGE}[\s|.~-]*$|^\W*{_PAGE}\b(?!\s+of\b)"
)
_BESIDE = re.compile(rf"(?<=\S)[^\S\n]{{3,}}(?P<page>{_PAGE})[^\S\n]*$", re.MULTILINE)
"""A page number behind the gap that parts it from the title of the page."""
_RIGHTS = re.compile(
    r"\bwww\.|https?:|©|\bcopyright\b|\(c\)\s*(?:by\b|\d{4})|\ball rights reserved\b"
    r"|\bnot for (?:re-?sale|commercial use)\b|\bfor personal use\b|\bmay (?:not )?be (?:copied|reproduced|sold)\b"
)
_ISSUE = re.compile(r"\W*(?:\d{1,3}[\s|-]+[^\d\n]{3,60}|[^\d\n]{3,60}[\s|,-]+\d{1,3})\W*$")
_PRINTED_IN = re.compile(r"\b(?:issue|magazine|edition|annual|quarterly|monthly|weekly|leaflet|booklet|pattern)\b")
_OF_A_LIST = re.compile(
    r"[\"'/]|\b(?:cut|make|square|strip|rectangle|triangle|piece|block|yard|metre|meter|inch|fabric|print|solid"
    r"|quarter|eighth|pack|roll|bundle)s?\b"
)

_STEP = re.compile(
    r"^[^\S\n]*(?P<mark>(?P<number>\d{1,2})(?:[^\S\n]*[|>])?)[^\S\n]+(?:(?P<first>[A-Z][a-z]+)|[A-Z]:[^\S\n]+(?:two|four|\d{1,2}[^\S\n]+\d))",
    re.MULTILINE,
)
"""A number, and the first word that it stands before; or the letter of a fabric of which pieces are counted."""
_CIRCLED = re.compile(r"^[^\S\n]*(?P<number>[\u2460-\u2473\u2776-\u277f\u24f5-\u24fe])(?=[^\S\n]+[A-Z])", re.MULTILINE)
_OUTLINE = re.compile(r"^[^\S\n]*(?P<number>(?P<part>\d{1,2})\.(?P<place>\d{1,2}))(?=[^\S\n]+[A-Z\"(])", re.MULTILINE)
_DONE = PROSE | {
    "sew", "join", "stitch", "cut", "make", "put", "take", "add", "divide", "rows", "from", "square", "quilt",
    "following"
}  # fmt: skip
LEAST_STEPS, LEAST_HEADS = 3, 2


def step_numbers(text: str) -> Iterator[tuple[int, int]]:
    """Where the numbers of steps stand that no point or bracket parts from their words, (start, end) each: lines that
    count on from 1, anew in each section, most of which begin with what is done; and numbers in circles, which count
    nothing that is cut.

    >>> page = "2 Navy strips\\n1 Sew them.\\n2 Press.\\n3 Join the rows."
    >>> [page[start:end] for start, end in step_numbers(page)]
    ['1', '2', '3']
    >>> page = "1 | Sew them.\\n2 | Press.\\n3 | Join the rows."
    >>> [page[start:end] for start, end in step_numbers(page)]
    ['1 |', '2 |', '3 |']
    """
    yield from (one.span("number") for one in _CIRCLED.finditer(text))
    yield from _of_an_outline(text)
    sections: list[list[re.Match[str]]] = [[]]
    for match in _STEP.finditer(text):
        number = int(match["number"])
        if number == 1 and len(sections[-1]) > 1:
            sections.append([])
        if number == len(sections[-1]) + 1:
            sections[-1].append(match)
    sections = [steps for steps in sections if _tell_what_is_done(steps)]
    if sum(map(len, sections)) >= LEAST_STEPS and any(one["first"] for steps in sections for one in steps):
        yield from (one.span("mark") for steps in sections for one in steps)


_HEADED = re.compile(r"^[^\S\n]*(?P<number>\d{1,2})[^\S\n]+(?P<words>[A-Z][^\d\n:;.]*)$", re.MULTILINE)
"""A number and words without a figure, alone on a line."""


def numbers_of_sections(text: str) -> Iterator[tuple[int, int]]:
    """Where the numbers of sections stand that no point parts from their heads, (start, end) each: lines below an empty
    one that count on from 1, of which several head what is bought, cut or sewn.

    >>> page = "1 Yardage\\nNavy 2 yd\\n\\n2 Cutting\\n8 squares 3 in\\n\\n3 Finishing\\nBind."
    >>> [page[start:end] for start, end in numbers_of_sections(page)]
    ['1', '2', '3']
    """
    from . import sections

    heads: list[re.Match[str]] = []
    for match in _HEADED.finditer(text):
        apart = not text[: match.start()].strip() or re.search(r"\n[^\S\n]*\n\Z", text[: match.start()])
        if apart and int(match["number"]) == len(heads) + 1:
            heads.append(match)
    told = sum(sections.section(one["words"].casefold().strip()) is not None for one in heads)
    if len(heads) >= LEAST_STEPS and told >= LEAST_HEADS:
        yield from (one.span("number") for one in heads)


def _tell_what_is_done(steps):
    """Whether most of these lines begin with what is done, or with the fabric that it is done with."""
    done = sum(one["first"] is None or one["first"].casefold() in _DONE for one in steps)
    return len(steps) > 1 and 2 * done >= len(steps)


def page_number(plain: str) -> Iterator[tuple[int, int]]:
    """Where the number of a page stands beside words on the first or the last line of a text, (start, end).

    >>> page = "Strippy geese        p. 22\\n6 squares 3 in      p. 4\\nBind."
    >>> [page[start:end] for start, end in page_number(page)]
    ['p. 22']
    """
    first, last = plain[: len(plain) - len(plain.lstrip())], plain.rstrip()
    ends = (plain.find("\n", len(first)), len(last))
    beside = (one for one in _BESIDE.finditer(plain.casefold()) if one.end("page") in ends)
    yield from (one.span("page") for one in beside)


def _of_an_outline(text):
    """The numbers of sections and of their lines, where all on the page count on: "3.0", "3.1", "3.2", "4.0"."""
    found = [*_OUTLINE.finditer(text)]
    places = [(int(one["part"]), int(one["place"])) for one in found]
    first = [(part, place) in ((part, 0), (part, 1)) for part, place in places]
    counts_on = all(
        (part, place - 1) == before or begins and part == before[0] + 1
        for before, (part, place), begins in zip(places, places[1:], first[1:])
    )
    if len(found) > LEAST_STEPS and first[0] and counts_on:
        yield from (one.span("number") for one in found)


def furniture(plain: str) -> Iterator[tuple[int, int]]:
    """Where these lines of a plain page stand, (start, end) each, without their line ends.

    >>> page = 'Harbour lights\\n6 squares 3 in,\\n- 2 -\\nHarbour lights 3\\ncut once diagonally'
    >>> [page[start:end] for start, end in furniture(page)]
    ['- 2 -', 'Harbour lights 3']
    """
    lines = [match.span() for match in re.finditer(r"[^\n]+", plain) if match[0].strip()]
    first = plain[slice(*lines[0])] if lines else ""
    title = "" if re.search(r"\d", first) else _letters(first)  # "Red print 1" is one of several
    for place, (start, end) in enumerate(lines):
        line = plain[start:end]
        alone = _PAGE_NUMBER.match(line) and not _is_counted(plain, lines, place)
        if alone or _RIGHTS.search(line) or _is_foot(line, title if place else ""):
            yield start, end


def _is_foot(line, title):
    """Whether a line is a running head or foot: a page, an issue or the title of the page, and a number."""
    if _NUMBERED.search(line):
        return not _OF_A_LIST.search(_NUMBERED.sub("", line))
    if not _ISSUE.match(line):
        return False
    printed = _PRINTED_IN.search(line) and not _OF_A_LIST.search(line.replace("pattern", ""))
    return bool(printed) or (len(title) > 3 and _letters(line) == title)


def _letters(line):
    return " ".join(re.findall(r"[^\W\d_]+", line))


def _is_counted(plain, lines, place):
    """Whether a number alone on its line may count what the next line names, or stand in a column of numbers."""
    line = plain[slice(*lines[place])].strip()
    if not line.isdigit():
        return False
    before = plain[slice(*lines[place - 1])].strip() if place else ""
    behind = plain[slice(*lines[place + 1])].strip() if place + 1 < len(lines) else ""
    return (
        before.isdigit()
        or behind.isdigit()
        or before.endswith(("cut", "=", ":", "x"))
        or bool(re.match(r"(?:[a-z]+\s+)?(?:squares?|strips?|rectangles?|triangles?|pieces?|blocks?)\b", behind))
    )


_SPACED_OUT = re.compile(
    r"^(?P<margin>[ \t]*)(?P<words>(?:[A-Z'&!] ){2,}[A-Z'&!](?: {2,}(?:[A-Z'&!] )*[A-Z'&!])*)[ \t]*$", re.MULTILINE
)


def together(text: str) -> str:
    """A text with the headings whose letters stand apart in their usual spelling; blanks keep the place of the rest.

    >>> together("O L D   B A R N").rstrip()
    'OLD BARN'
    """

    def heading(match):
        words = (one.replace(" ", "") for one in re.split(r" {2,}", match["words"]))
        return (match["margin"] + " ".join(words)).ljust(len(match[0]))

    return _SPACED_OUT.sub(heading, text)
