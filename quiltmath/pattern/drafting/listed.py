"""The names of fabrics in a list of them: "the navy, the rust and what is left of the cream", "Fabrics A-D"."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from . import naming
from .chunks import FIGURES, chunked
from .figures import number
from .fillers import LEADS
from .model import Context
from .vocabulary import COLOURS, OF_FABRIC, PRINTS

if TYPE_CHECKING:
    from .page import Page

_NO_NAME = [
    re.compile(words, re.IGNORECASE)
    for words in (
        r"^\W+|[\s:,.-]+$",
        r"^[a-z]\d?[.)\]]\s+(?=[^\W\d]{2})",
        r"^(?:(?:the|all|your|each|remaining|left-?over|a|an|both|from|in|of|what(?:ever)?)\s+(?=\w))+|\bfabrics?$",
        r"\s+(?:(?:that|which)\s+)?(?:is|are|was|you\s+have)?\s*left(?:[\s-]*over)?$",
        r"\s+together$|\s+into$|^scraps?\s+of\s+|\s+(?:scraps?|leftovers?)$",
        r"^[\"'\s]+|[\"'\s]+$",
    )
]
"""What stands around the name of a fabric in a list of them."""
_AND = r"\s*(?:,|&|\band\b|-|–|—|\bto\b|\bthrough\b)\s*(?:and\s+)?"
LETTERED = re.compile(
    rf"\W*(?:the\s+)?(?:fabric|colou?r|print)s?\s+\#?(?P<letters>(?:[a-z]|\d{{1,2}})(?:{_AND}(?:[a-z]|\d{{1,2}}))+)\W*",
    re.IGNORECASE,
)

_TOGETHER = re.compile(
    r"\W*(?:(?:each|every|all)\s+)?(?:of\s+)?(?:the\s+|your\s+)?(?:(?P<number>\d{1,2}|[a-z]+)\s+)?"
    r"(?P<noun>fabric|print|colou?r|solid|batik)s\W*",
    re.IGNORECASE,
)
_HUE = rf"(?:{'|'.join(sorted(COLOURS))})"
_OF_TWO_COLOURS = re.compile(
    rf"\W*(?:the\s+)?{_HUE}(?:(?:\s*/\s*|-and-|-){_HUE}\s+(?:{'|'.join(sorted(PRINTS))})"
    rf"|\s+(?:and|&)\s+{_HUE}\s+(?:{'|'.join(sorted(PRINTS - {'print', 'batik'}))}))\W*",
    re.IGNORECASE,
)
"""One fabric of two colours: "black and white check"."""
_SHADES = {"bright", "dark", "light", "medium", "pale"}
_SEVERAL = {"assorted", "asst", "asstd", "coordinating", "different", "mixed", "various"}
"""What is said of several prints behind their name: "Blues, assorted"."""
_NUMBERED = r"(?:fabric|print|colou?r)\s+\#?(?:[a-z]|\d{1,2})\b"
_OF_NUMBERED = re.compile(
    rf"(?P<name>{_NUMBERED})\s*[,–-]\s*(?!{_NUMBERED}|(?:and|or)\b)[^\W\d_][^,&/+;]*?(?=\s*$|(?:,|\s+and\b|\s*&)\s*{_NUMBERED})",
    re.IGNORECASE,
)
"""What a fabric of a letter is besides: "Fabric A, blue"."""


def names(page: Page, start: int, stop: int, context: Context) -> tuple[str, ...] | None:
    """The fabrics that these words name, each as the page first called it; None where other things stand there."""
    lettered = LETTERED.fullmatch(page.plain, start, stop)
    if of_number := all_numbered(page.plain[start:stop], context):
        return of_number
    if not lettered and any(chunk.kind in FIGURES for chunk in chunked(page.plain, start, stop)):
        return None
    parts = [naming.as_listed(part, context) for part in _parts(page, start, stop)]
    if not parts or any(len(part.split()) > 6 or part.casefold().startswith("with ") for part in parts):
        return None
    parts = [part for part in parts if part.casefold().strip(".") not in _SEVERAL] or parts
    if len(parts) == 2 and _are_one(parts[0], parts[1], page.plain[start:stop]):
        parts = [" ".join(page.text[start:stop].split())]
    whole = naming.known(page.text[start:stop], context.known)
    if whole and len(parts) > 1 and naming.key(whole) == naming.key(page.text[start:stop]):
        return (whole,)
    if "/" in page.text[start:stop] and len(parts) > 1 and not all(naming.known(one, context.known) for one in parts):
        return None  # of both, or of one or the other
    return tuple(naming.known(part, context.known) or part for part in parts)


def all_numbered(said: str, context: Context) -> tuple[str, ...]:
    """All fabrics that are called by numbers or letters, where words name these together, and no other number of them:
    "all three fabrics"; none for any other words.

    >>> all_numbered("all 2 prints", Context(known=["Print 1", "Print 2", "Red"]))
    ('Print 1', 'Print 2')
    """
    match = _TOGETHER.fullmatch(said)
    counted = number(match["number"], 0) if match and match["number"] else None
    if match is None or match["number"] and (counted is None or counted.end != len(match["number"])):
        return ()
    noun = match["noun"].casefold()
    found = tuple(one for one in context.known if naming.is_numbered(one) and one.casefold().startswith(noun))
    return found if len(found) > 1 and (counted is None or counted.value == len(found)) else ()


def _are_one(one, other, said):
    """Whether two names are one: its kind before its colour, or a shade behind or beside another: "Linen, natural",
    "Blue, light", "Light/medium blue"."""
    first, second = one.casefold().split(), other.casefold().split()
    if "/" in said:
        return first[-1] in _SHADES and second[0] in _SHADES and len(second) > 1
    kinds = {*first} <= {"print", "solid", "fabric"} or {*first} <= OF_FABRIC - COLOURS and {*second} <= COLOURS
    return "," in said and " and " not in said and (kinds or {*second} <= _SHADES and not {*first} <= _SHADES)


def _parts(page, start, stop):
    """The names in a list of fabrics; a letter behind "Fabrics" is one, and letters from one to another are all."""
    text = _OF_NUMBERED.sub(r"\g<name>", re.sub(r"\([^)]*\)", "", page.text[start:stop]))
    if _OF_TWO_COLOURS.fullmatch(text):
        return [text.strip(" :,-")]
    lettered = LETTERED.fullmatch(text)
    if lettered:
        return [f"Fabric {letter}" for letter in _letters(lettered["letters"])]
    found = []
    for part in re.split(
        r",\s*(?:for|[a-z]+ing\s+(?:[a-z]+ly|to|the|as|with|from))\b.*|,|;|\b(?:and|AND)\b|&|/|\+", text
    ):
        for words in _NO_NAME:
            part = words.sub("", part.strip())
        words = part.split()
        while len(words) > 1 and words[0].casefold() in LEADS:
            words = words[1:]
        found += [" ".join(words)] if words else []
    return found


def _letters(said):
    """The letters or numbers of a list, those of a stretch ("A-D", "1 to 4") one by one."""
    found: list[str] = []
    for stretch in re.finditer(
        r"(?<!\w)(?P<one>[A-Za-z]|\d{1,2})(?:\s*(?:-|–|—|to|through)\s*(?P<other>[A-Za-z]|\d{1,2}))?(?!\w)", said
    ):
        one, other = stretch["one"], stretch["other"] or stretch["one"]
        if one.isdigit() != other.isdigit():
            return []
        first, last = (int(one), int(other)) if one.isdigit() else (ord(one), ord(other))
        found += [str(value) if one.isdigit() else chr(value) for value in range(first, last + 1)]
    return found
