"""Fabrics that a shopping list numbers in brackets, and the cutting list then calls by these numbers alone: "(1) ivory
2 1/4 yd", and below it "(1) 19 strips 2 in"."""

from __future__ import annotations

import re

_BOUGHT = re.compile(
    r"^[^\S\n]*\((?P<number>\d)\)[^\S\n]+[a-z][^\n\d]*\d[\d /.-]*\s*(?:y(?:ar)?ds?|met(?:er|re)s?|m|cm)\b", re.MULTILINE
)
_CUT = re.compile(r"^[^\S\n]*\((?P<number>\d)\)[^\S\n]+(?=\d)", re.MULTILINE)
LEAST = 2
"""Fabrics: one number alone may be that of a step."""


def by_letters(plain: str) -> str:
    """The plain page, the numbers of its fabrics as letters, sign for sign, where lines that buy and lines that cut
    bear them: a number before another is none of a fabric to anybody who does not know the list.

    >>> print(by_letters("(1) ivory 2 yd\\n(2) red 1 yd\\n(1) 9 strips 2 in\\n(2) 8 strips 2 in"))
    (a) ivory 2 yd
    (b) red 1 yd
    (a) 9 strips 2 in
    (b) 8 strips 2 in
    """
    bought = [match["number"] for match in _BOUGHT.finditer(plain)]
    cut = {match["number"] for match in _CUT.finditer(plain)}
    if len(bought) < LEAST or len({*bought}) < len(bought) or not cut <= {*bought} or len(cut) < LEAST:
        return plain
    return re.sub(
        rf"(?:(?<=^)|(?<=\n)|(?<=\bof ))([^\S\n]*)\(([{''.join(bought)}])\)(?=[^\w])",
        lambda match: f"{match[1]}({chr(ord('a') + int(match[2]) - 1)})",
        plain,
    )
