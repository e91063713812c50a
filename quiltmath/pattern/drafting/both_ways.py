"""The pieces of strip sets of which both lengths are printed: "96 segments 2 1/2 x 6 1/2 in". Only the strips tell
which of the two is the height of the set."""

from __future__ import annotations

import re
from collections.abc import Sequence
from fractions import Fraction
from typing import Any

from .at_hand import length
from .chunks import Chunk, all_of, bag
from .model import Entry

_CUT = re.compile(r"cut (?P<one>[^x]+) x (?P<other>[^x]+)")


def cut(told: Entry, size: Sequence[str]) -> Entry:
    """A strip set with both lengths of its pieces among its remarks."""
    return told.noted(f"cut {' x '.join(size)}")


def size_of(told: Entry) -> tuple[str, ...]:
    """Both lengths of the pieces of a strip set; none where they are not printed.

    >>> size_of(cut(Entry("strip_set", {}, None), ("2 1/2", "6 1/2")))
    ('2 1/2', '6 1/2')
    """
    found = (_CUT.fullmatch(one) for one in told.remarks)
    return next((one.groups() for one in found if one), ())


def width_and_height(told: Entry, high: Fraction) -> tuple[str, str]:
    """The printed width of the pieces of a strip set that is so high, and their height, the length that is nearest to
    it; nothing where not both are printed."""
    size = size_of(told)
    if not size:
        return "", ""
    height, width = sorted(size, key=lambda text: abs((length(text) or 0) - high))
    return width, height


def agree(told: Entry, high: Fraction) -> bool:
    """Whether one of the printed lengths of the pieces of a strip set is its height."""
    return high in [length(text) for text in size_of(told)]


def widths(parts: list[list[Chunk]] | None, some: tuple[str, ...]) -> list[tuple[Any, ...]] | None:
    """The widths a strip set is cut in: [(how many, how wide)]; None where that cannot be told.

    Of pieces with both their lengths printed the one that all share is the height of the set; of pieces of one size
    both are given, for only the strips tell which is which.
    """
    if not parts or not all(bag(part, one=(("count",), ("length", "size")), some=some) for part in parts):
        return None
    sizes = [all_of(part, "length", "size")[0].value.texts for part in parts]
    counts = [all_of(part, "count")[0].value for part in parts]
    if all(len(texts) == 1 for texts in sizes):
        return [(number, texts[0]) for number, texts in zip(counts, sizes)]
    shared = set(sizes[0]).intersection(*sizes[1:])
    if len(sizes) == 1 and len(sizes[0]) == 2:
        return [(counts[0], *dict.fromkeys(sizes[0]))]
    if len(sizes) == 1 or len(shared) != 1 or any(len(texts) != 2 for texts in sizes):
        return None
    (height,) = shared
    return [(number, next((text for text in texts if text != height), height)) for number, texts in zip(counts, sizes)]
