"""Sashing of a setting on point, where strips and cornerstones are left that just go round all of its blocks."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from .at_hand import count_of
from .layouts import Made
from .model import SOMETHING_ELSE, Choice, Entry, Question
from .way_to_piece import FAR

EDGES = {"half": "the edge through the middle of the cornerstones", "whole": "the edge outside the cornerstones"}


def strips_and_stones(across: int, down: int) -> tuple[int, int]:
    """How many strips and cornerstones go round the blocks of a setting on point, neighbours sharing a strip.

    >>> strips_and_stones(1, 1), strips_and_stones(3, 4)
    ((4, 4), (48, 31))
    """
    blocks, strips = across * down + (across - 1) * (down - 1), 4 * across * down  # those between share all of theirs
    return strips, strips - blocks + 1


def sashed_on_point(
    setting: Entry, entries: list[Entry], made: list[Made], sashings: Callable[[Made, list[Entry]], Sequence]
) -> Iterator[Question]:
    """The question whether the blocks of this setting have sashing, of strips and cornerstones that are left and as
    many as it takes, or nearly so: one number may be misprinted."""
    if len(made) == 0 or "sashing" in setting.data or not {"across", "down"} <= setting.data.keys():
        return
    strips, stones = strips_and_stones(setting.data["across"], setting.data["down"])
    for one in sashings(max(made, key=lambda one: one.number), entries):
        off = abs(count_of(one.sash, entries) - strips) + abs(count_of(one.crossing, entries) - stones)
        if one.key != "cornerstone" or one.near or off > (strips + stones) * FAR:
            continue
        parts = {"part": one.sash.name, "cornerstone": one.crossing.name}
        choices = (
            Choice(f"yes, {said}", (setting.but(sashing={**parts, "edge": edge}),)) for edge, said in EDGES.items()
        )
        asks = f"are {strips} {one.sash.name} and {stones} {one.crossing.name} the sashing round all of the blocks?"
        yield Question(setting.words, asks, (*choices, SOMETHING_ELSE))
        return
