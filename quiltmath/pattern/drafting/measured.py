"""Which way a quilt is measured for its borders: from top to bottom for its sides, across for its top and bottom."""

from __future__ import annotations

import re

_DOWN = (
    r"(?:from\s+)?\btop\s+to\s+bottom\b|\bdown\s+the\s+(?:middle|cent(?:er|re)|length)\b|\bvertical(?:ly)?\b|\blengthwise\b"
    r"|\b(?:the|its|new|quilt's)\s+length\b"
)
_ACROSS = (
    r"(?:from\s+)?\bside\s+to\s+side\b|\bleft\s+to\s+right\b|\bacross\b|\bhorizontal(?:ly)?\b|\bcrosswise\b"
    r"|\b(?:the|its|new|quilt's)\s+width\b"
)
_WAYS = re.compile(rf"(?P<down>{_DOWN})|(?P<across>{_ACROSS})")
_WITH_BORDERS = re.compile(
    r"\b(?:includ(?:es?|ing)|with|and)\s+(?:the\s+|both\s+)?(?:new\s+)?(?:side\s+)?borders?(?:\s+(?:just\s+)?(?:added|attached|sewn(?:\s+on)?))?"
    r"|\bborders?\s+(?:too|as\s+well|included)\b"
)


def without_what_it_takes_in(text: str) -> str:
    """A text without what says that other borders are measured with the quilt.

    >>> without_what_it_takes_in("measure across, borders too, and cut two")
    'measure across, , and cut two'
    """
    return _WITH_BORDERS.sub("", text)


def without_ways(text: str) -> str:
    """A text without the words for the way that is measured, in which sides are named that are none.

    >>> without_ways("measure from top to bottom and cut two")
    'measure  and cut two'
    """
    return _WAYS.sub("", text)


def as_sides(text: str) -> str:
    """A text, each way to measure as the sides whose borders are so long.

    >>> as_sides("measure the length"), as_sides("measure across the middle")
    ('measure sides', 'measure top the middle')
    """
    return _WAYS.sub(lambda match: "sides" if match["down"] else "top", text)
