"""Snowballs: squares whose corners are sewn off with small ones."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import product
from typing import TYPE_CHECKING, Any

from .at_hand import shares
from .characters import plain
from .figures import in_digits, measure
from .in_passing import in_passing
from .way_to_piece import FAR

if TYPE_CHECKING:
    from .unit_kinds import Cut

Pair = tuple["Cut", "Cut"]
"""A large square, and the small ones of its corners."""
_CORNERS_OF = re.compile(
    r"\b(?:each|every|all(?:\s+(?:four|4))?|(?:the\s+)?(?:four|4))\s+corners?\s+of\s+(?:an?|each|every|the|one)\s+"
    r"(?P<of>[^.;]{0,60}?)\bsquares?\b"
)
"""The square whose corners are sewn off: "on each corner of a white 8 1/2 in square"."""


def _told_to_have_corners(pairs: list[Pair], page: str) -> list[Pair]:
    """Of pairs of squares, large and small, those of whose large one the page says that its corners are sewn off, by
    its size or its fabric; all of them where it says that of none."""
    told = [in_digits(plain(match["of"])) for match in _CORNERS_OF.finditer(plain(page))]

    def is_told(large, said):
        figure = re.search(r"\d", said)
        size = measure(said, figure.start()) if figure else None
        return (
            size.sides[0].inches == large.width if size else bool({*large.fabric.casefold().split()} & {*said.split()})
        )

    return [pair for pair in pairs if any(is_told(pair[0], said) for said in told)] or pairs


def snowballs(squares: list[Cut], taken: Fraction, more: Any, page: str) -> Iterator[tuple[str, Pair, None, int]]:
    """Squares whose corners are sewn off with small ones: four of these for each; nearly so of as many as the `page`
    says are made, where none fit."""
    made = in_passing(page).made
    small_enough = [
        (one, other)
        for one, other in product(squares, squares)
        if 2 * (other.width - taken) <= one.width - taken and one.fabric != other.fabric
    ]
    usual = [
        pair for pair in small_enough if taken % more.step or all((one.width - taken) % more.step == 0 for one in pair)
    ]
    fits = _told_to_have_corners(usual or small_enough, page)
    exact = [(one, other) for one, other in fits if 4 * one.many == other.many or 4 * one.many in shares(other.entry)]
    told = [(one, other) for one, other in fits if one.many in made]
    named = [(one, other) for one, other in told if "snowball" in other.entry.words.text.casefold()]
    near = [
        (one, other) for one, other in told if len(told) == 1 or abs(other.many - 4 * one.many) <= 4 * one.many * FAR
    ]
    for one, other in exact or (named if len(named) == 1 else near[:1]):
        yield "snowball", (one, other), None, one.many
    if not exact and not told:
        yield from _of_their_corners(fits, made)


def _of_their_corners(pairs: list[Pair], made: Sequence[int]) -> Iterator[tuple[str, Pair, None, int]]:
    """As many as the page says are made, where one kind of small squares are four for each of these and the large ones
    are nearly as many."""
    fits = [
        (pair, many)
        for pair in pairs
        for many in made
        if pair[1].many == 4 * many and abs(pair[0].many - many) <= many * FAR
    ]
    if len(fits) == 1:
        yield "snowball", fits[0][0], None, fits[0][1]
