"""The heads of what is cut from each of the pieces, or of the prints, in which a fabric is bought."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from . import naming
from .bare_heads import Head
from .chunks import chunked
from .figures import number
from .model import Context

if TYPE_CHECKING:
    from .page import Page

_EACH_PIECE = re.compile(
    r"\W*(?:cut\s+)?(?:from\s+)?(?:each|every)\s+(?:of\s+(?:the\s+|your\s+)?)?(?:(?P<number>\d{1,3})\s+(?![\d\"]|in\b))?"
    r"(?:(?P<size>\d[\d/ ]*)(?:\"|-?in(?:ch)?\b)\s*)?(?P<name>(?:[a-z-]+\s+){0,3}?)"
    r"(?:(?:charm\s+|precut\s+)?squares?|fat\s+(?:quarters?|eighths?)|strips?)(?:(?:\s*,?\s*cut)?\s*(?::\s*|(?=$))|\s+into\s+(?=\(?\d))"
)
"""What is cut from each of the pieces in which a fabric is bought."""
_PIECES_EACH = re.compile(
    r"\W*(?P<number>(?!))?(?P<size>(?!))?(?P<name>(?:[a-z-]+\s+){0,3}?)(?:(?:charm|precut)\s+squares|fat\s+(?:quarters|eighths))"
    r"\W+(?:from\s+each(?:\s+(?:one|piece|(?:fat\s+)?(?:quarter|eighth)))?(?:\s*,?\s*(?:you\s+)?cut\b)?|each\s*,?\s*cut\b)"
    r"\s*(?::?\s*(?=\(?\d)|:\s*$)"
)
"""The same, these pieces named first: "Fat quarters: from each cut 8 squares", "Red fat quarters. From each one:"."""
_EACH_PRINT = re.compile(
    r"\W*(?:cut\s+)?(?:from\s+)?(?:each|every)\s+(?:of\s+(?:the\s+|your\s+)?)?(?:(?P<number>\d{1,3}|[a-z]+(?=\s+prints))\s+)?"
    r"(?P<name>(?:[a-z-]+\s+){0,2}?)(?:prints?|fabrics?)(?:\s*,?\s*cut)?\s*:\s*"
)
_COUNTED = re.compile(
    r"\W*(?P<name>[a-z][a-z -]{2,30}?)\s*\((?P<number>\d{1,2})\s+(?:different\s+)?(?:prints|fabrics|colou?rs)\)"
    r"\s*,?\s*(?:cut\s+)?from\s+each\s*(?:,?\s*cut\b)?\W*?(?=\s\(?\d|\s*$)"
)
"""Prints that are counted where something is cut from each: "Assorted reds (8 prints), from each:"."""
_PRINTS_EACH = re.compile(
    r"\W*(?P<name>(?:[a-z-]+\s+){0,2}?)(?:prints?|fabrics?)\W*\s(?:from\s+)?each\W*(?::|\bcut\b)\s*"
)
"""What is cut from each of several prints."""


def of_piece(page: Page, start: int, end: int, context: Context) -> Head | None:
    """The head "Each 10 in print square:", "From each print square cut": as often as that fabric is bought in pieces,
    of which the page says how many; None for any other line.

    >>> from .page import Page
    >>> page = Page("From each print square, cut:")
    >>> of_piece(page, 0, len(page.text), Context(pieces={"prints": 20}))[:5]
    (('prints',), 28, None, False, 20)
    >>> page = Page("Fat quarters: from each cut 8 squares 3 in")
    >>> of_piece(page, 0, len(page.text), Context(pieces={"prints": 20}))[:2]
    (('prints',), 28)
    """
    match = _EACH_PIECE.match(page.plain, start, end) or _PIECES_EACH.match(page.plain, start, end)
    if match is None or context.section == "sewing" or not context.pieces:
        return None
    if context.strips and "strip" in match[0]:  # those told before
        return None
    if match.end() == end and not re.search(r"\bfrom\b|:\s*$", match[0]):  # "Each square" alone tells nothing of cuts
        return None
    counted = number(match["number"], 0) if match["number"] else None
    named = naming.described(chunked(page.plain, *match.span("name")), page)
    fabric = naming.known(named, [*context.pieces]) if named else None
    if not named and len(context.pieces) == 1:
        (fabric,) = context.pieces
    size = context.piece_sizes.get(fabric or "", "")
    other = match["size"] and not size.startswith(f"{match['size'].strip()} ")
    if fabric is None or other or counted and counted.value != context.pieces[fabric]:
        return None
    return Head((fabric,), match.end(), times=context.pieces[fabric], strong=True)


def of_print(page: Page, start: int, end: int, context: Context) -> Head | None:
    """The head "Each of the 8 prints:", "Geese prints, each:", of a fabric of which the page buys so many prints; None
    for any other line.

    >>> from .page import Page
    >>> page = Page("Each of the 8 prints:")
    >>> of_print(page, 0, len(page.text), Context(of_prints={"geese": 8}))[:4]
    (('geese',), 21, 8, True)
    """
    in_bracket = _COUNTED.match(page.plain, start, end)
    if in_bracket and context.section != "sewing":
        return _counted_in_a_bracket(in_bracket, page, context)
    match = _EACH_PRINT.match(page.plain, start, end) or _PRINTS_EACH.match(page.plain, start, end)
    if match is None or context.section == "sewing":
        return None
    told = match.groupdict()
    counted = number(told["number"], 0) if told.get("number") else None
    named = naming.described(chunked(page.plain, *match.span("name")), page)
    fabric = naming.known(named, [*context.of_prints]) if named else None
    if fabric is None and len(context.of_prints) == 1 and not naming.key(named):
        (fabric,) = context.of_prints
    prints = context.of_prints.get(fabric, 0) if fabric else 0
    if fabric is None or not prints or told.get("number") and (counted is None or counted.value != prints):
        return None
    return Head((fabric,), match.end(), prints, True, strong=True)


def _counted_in_a_bracket(match, page, context):
    name, prints = naming.described(chunked(page.plain, *match.span("name")), page), int(match["number"])
    fabric = naming.known(name, [*context.of_prints]) or name
    known = context.of_prints.get(fabric, prints)
    return Head((fabric,), match.end(), prints, True, strong=True) if fabric and known == prints else None
