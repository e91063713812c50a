"""The borders that whole strips of the cutting list are, which no line says the place of: round what is set, as wide as
is missing of the printed quilt."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import combinations, permutations

from .at_hand import length, two_seams
from .bordering import outward
from .in_passing import NOTHING, InPassing
from .layouts import finished_size, only
from .model import SOMETHING_ELSE, Choice, Entry, Question

MOST_BORDERS, MOST_STRIPS = 3, 6
NEAR = Fraction(1)
"""Inches: a printed quilt differs by so much from what is sewn where its size is rounded, as it is on point."""


def borders_of_strips(entries: list[Entry], told: InPassing = NOTHING) -> Iterator[Question]:
    """The question whether whole strips are the borders, in their order from the inside out: those that make what is
    set as large as the printed quilt, or the only ones that are left where the page tells of borders.

    >>> from . import draft
    >>> page = ('Finished 28" x 36"\\nSet 3 across and 4 down\\nNavy: 12 squares 8 1/2"\\n'
    ...         'Teal: 4 strips 2 1/2" x WOF')
    >>> drafted = draft(page)
    >>> while drafted.questions and "borders" not in drafted.questions[0].text:
    ...     drafted = drafted.answered(drafted.questions[0], drafted.questions[0].choices[0])
    >>> drafted.questions[0].text
    'from the inside out, are these the borders: strips B (Teal) all round?'
    """
    strips = _whole_strips(entries)
    sizes = [*outward(entries)] if strips else []
    if not sizes or len(strips) > MOST_STRIPS:
        return
    ways = _that_fit(strips, sizes[-1], entries)
    if not ways and told.borders and len(strips) == 1 and not _whole(sizes[-1], entries):
        ways = [(strips[0],)]
    choices = tuple(Choice(_label(way), tuple(_borders(way, entries))) for way in ways)
    if choices:
        words = max((one.words for way in ways for one in way), key=lambda one: one.start)
        asks = f"from the inside out, are these the borders: {choices[0].label}?"
        yield Question(words, asks, (*choices, SOMETHING_ELSE))


def _whole(size, entries):
    """Whether what is so large is as large as the printed quilt, or larger."""
    printed = finished_size(entries)
    return printed is not None and any(whole - part < NEAR for part, whole in zip(size, printed))


def _whole_strips(entries: list[Entry]) -> list[Entry]:
    """The strips across the width of fabric that have no place yet, and of which no strip set is sewn."""
    sewn = {name for one in entries if one.table == "strip_set" for name in one.data.get("strips", ())}
    bordered = {one.data.get(key) for one in entries if one.table == "border" for key in ("sides", "top")}
    sashing = only(entries, "setting")
    taken = {*(sashing.data.get("sashing") or {}).values()} if sashing else set()
    return [
        one
        for one in entries
        if one.table == "cut" and "strip" in one.data and not one.role and one.name not in sewn | bordered | taken
        if length(one.data["strip"])
    ]


def _that_fit(strips, size, entries):
    """The strips, in each order in which they may lie, that make what is so large as large as the printed quilt."""
    printed = finished_size(entries)
    if printed is None:
        return []
    across, down = (whole - part for whole, part in zip(printed, size))
    found = []
    for number in range(1, min(len(strips), MOST_BORDERS) + 1):
        for some in combinations(strips, number):
            wide = 2 * sum((length(one.data["strip"]) or 0) - two_seams(entries) for one in some)
            if max(abs(across - wide), abs(down - wide)) < NEAR:
                found += permutations(some)
    return found[: 2 * MOST_BORDERS]


def _borders(way, entries):
    """The borders that are told, and these strips round them: such as have no strips yet have these."""
    told = [one for one in entries if one.table == "border"]
    bare = [one for one in told if not {"sides", "top"} & one.data.keys()]
    yield from (one for one in told if one not in bare)
    for place, strips in enumerate(way):
        both = {"sides": strips.name, "top": strips.name}
        if place < len(bare):
            yield bare[place].but(**both)
        else:
            yield Entry("border", both, strips.words, f"border of {strips.name}")


def _label(way):
    said = (f"{one.name}{f' ({fabric})' if (fabric := one.data.get('fabric')) else ''}" for one in way)
    return ", then ".join(f"strips {one} all round" for one in said)
