"""Lines of makers' leaflets that say in so many words what is cut first, strips, and what second, from these:

First cut: 4 strips 3 1/2" x WOF | Second cut: 44 squares 3 1/2"
Also cut: 6 strips 2 1/2" x WOF for binding
"""

from __future__ import annotations

import re
from typing import NamedTuple

from .page import Page

FIRST, SECOND = r"(?:first|1st|initial)\s+cut(?:s|ting)?", r"(?:second|2nd)\s+cut(?:s|ting)?"
_BOTH = re.compile(rf"\W*{FIRST}\W+{SECOND}\W*")
_LABEL = re.compile(
    rf"(?<![\w\"])(?<!\bno )(?:(?:{FIRST}|(?P<second>{SECOND})|(?:also|additional(?:ly)?)\s+cuts?)"
    r"\s*(?:[:|]\s*|-\s+|$|(?=\(?\d))|(?P<then>then)\s+cut\s*:\s*)"
)
NONE = re.compile(r"\W*(?:none|nothing|n/?a)\b\W*(?P<place>[^\d]*?)\W*")
"""That nothing is cut from strips, and what these are for."""
_APART = re.compile(r"(?:^|[|:.\t]|\s{3})\s*$")
"""What stands before a label that is no part of a sentence."""


class Part(NamedTuple):
    """A label, (start, end), what stands behind it as far as the next, and whether that is cut from what stands before
    it."""

    label: tuple[int, int]
    told: tuple[int, int]
    second: bool


def heads_both(page: Page, start: int, end: int) -> bool:
    """Whether a line heads strips and what is cut from them: "First cut  Second cut"."""
    return bool(_BOTH.fullmatch(page.plain, start, end))


def parts(page: Page, start: int, end: int) -> list[Part]:
    """The parts of a line that these labels stand before; none where a sentence only says the same words.

    >>> page = Page('Navy: First cut: 4 strips 3". Second cut: 44 squares 3"')
    >>> [(page.text[slice(*part.told)], part.second) for part in parts(page, 0, len(page.text))]
    [('4 strips 3". ', False), ('44 squares 3"', True)]
    """
    labels = [*_LABEL.finditer(page.plain, start, end)]
    if not any(one["second"] or one["then"] or _APART.search(page.plain[start : one.start()]) for one in labels):
        return []
    stops = [*(one.start() for one in labels[1:]), end]
    return [Part(one.span(), (one.end(), stop), bool(one["second"] or one["then"])) for one, stop in zip(labels, stops)]
