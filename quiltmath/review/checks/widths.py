"""What is said where no usable width is printed: for which of the usual widths something is enough, and for which not.

An assumption never stops a pattern: what is short of every usual width is short, what is short of some is asked.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from itertools import groupby

from ..ruler import Ruler
from .check import some

Cases = Sequence[tuple[Fraction, str]]
"""(usable width in inches, what is lacking there in words, "" for nothing) for each width, the narrowest first."""


def level_of(cases: Cases) -> str:
    """How grave it is: "stop" where something is lacking at every width, "ask" at some, "" at none.

    >>> level_of([(40, "1 strip short"), (42, ""), (44, "")]), level_of([(42, "short")]), level_of([(42, "")])
    ('ask', 'stop', '')
    """
    lacking = [bool(lacks) for _, lacks in cases]
    return "stop" if all(lacking) else "ask" if any(lacking) else ""


def by_width(of: Ruler, cases: Cases) -> str:
    """What is enough, and what is lacking, in words: the narrowest width that is enough, then every one that is not.

    >>> by_width(Ruler(), [(40, "1 strip short"), (42, ""), (44, "")])
    'enough at 42 in, 1 strip short at 40 in'
    >>> by_width(Ruler(), [(40, "1 strip short"), (42, "1 strip short"), (44, "")])
    'enough at 44 in, 1 strip short at 42 in and at 40 in'
    """
    enough = next((width for width, lacks in cases if not lacks), None)
    words = [] if enough is None else [f"enough at {of.said(enough)}"]
    lacking = [(width, lacks) for width, lacks in reversed(cases) if lacks]
    for lacks, alike in groupby(lacking, key=lambda case: case[1]):
        words.append(f"{lacks} {' and '.join(f'at {of.said(width)}' for width, _ in alike)}")
    return ", ".join(words)


def short_of(lacks: int, thing: str) -> str:
    """What is lacking of things that are counted, in words.

    >>> short_of(2, "strip"), short_of(0, "strip")
    ('2 strips short', '')
    """
    return f"{some(lacks, thing)} short" if lacks > 0 else ""


def how_wide(what: str) -> str:
    """The question that settles it.

    >>> how_wide("the binding")
    'How wide is the fabric of the binding meant to be? The pattern prints no usable width, and it decides.'
    """
    return f"How wide is the fabric of {what} meant to be? The pattern prints no usable width, and it decides."
