"""Lengths as pictures and the sentences beside them write them: one rounding, so that both show the same figure; and
numbers that stay whole at the end of a line."""

import re
from typing import Any

from .. import lengths


def inches(value: Any, step: str | None = None) -> str:
    """A length in inches to the nearest step of a ruler, a sixteenth unless another is named, as text.

    `value` may be a float, a Fraction, a SymPy number, or anything `float` takes.

    >>> inches(12.7279), inches(2**0.5, "1/8"), inches(0.25, "1/32")
    ('12 3/4', '1 3/8', '1/4')
    >>> inches(float("nan"))
    Traceback (most recent call last):
    ValueError: a length is ...
    """
    return lengths.measured(float(value), step=step)


_IN_A_NUMBER = re.compile(r"(?<=\d) (?=\d+/\d)|(?<=\d) (?=(?:in|yd|cm|mm|m|%)\b|%)")
_BETWEEN_WORDS = re.compile(r"[^\S\N{NO-BREAK SPACE}]+")


def unbroken(text: str) -> str:
    """Text in which no line ends within a number, or between it and its unit.

    >>> unbroken("cut 3 1/2 in, 12 of them in all")
    'cut 3\\xa01/2\\xa0in, 12 of them in all'
    """
    return _IN_A_NUMBER.sub("\N{NO-BREAK SPACE}", text)


def whole_words(text: str) -> list[str]:
    """What a text may be broken between: its words, a number with its fraction and its unit as one.

    >>> whole_words("cut 3 1/2 in, 12 of them")
    ['cut', '3 1/2 in,', '12', 'of', 'them']
    """
    return [word.replace("\N{NO-BREAK SPACE}", " ") for word in _BETWEEN_WORDS.split(unbroken(text.strip()))]
