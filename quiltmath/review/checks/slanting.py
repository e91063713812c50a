"""Rectangles cut once from corner to corner: which way they are cut against which way the units slant, in words."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ...making.slants import OTHER, way_to_cut
from .check import some

if TYPE_CHECKING:
    from collections.abc import Mapping

    from ...pattern.cut import Cut

FROM = {"left": "the upper left to the lower right", "right": "the upper right to the lower left"}


def slant_in_words(cut: Cut, taken: Mapping[str, int]) -> str | None:
    """What is wrong with the way in which rectangles are cut, where so many triangles are `taken` that slant each way;
    None where nothing is, or nothing is printed."""
    way = way_to_cut(taken)
    if cut.slant == "both" and way != "both" and cut.gives < 2 * taken[way]:
        return (
            f"The rectangles {cut.part!r} are cut some slanting each way, and all their triangles are for units that "
            f"slant {way}. They cannot be turned over, for fabric has a right side: {_all_one_way(way)}"
        )
    if cut.slant not in OTHER or not taken.get(OTHER[cut.slant]):
        return None
    other, wanted = OTHER[cut.slant], taken[OTHER[cut.slant]]
    both = way == "both"
    of_them = f"{wanted} of the triangles are" if both else "the triangles are"
    return (
        f"The rectangles {cut.part!r} are all cut slanting {cut.slant}, and {of_them} for units that slant {other}. "
        "They cannot be turned over, for fabric has a right side: "
        + (said_both(taken) if both else _all_one_way(other))
    )


def cut_slanting(way: str) -> str:
    """Which way rectangles are cut, in words.

    >>> cut_slanting("left"), cut_slanting("both")
    ('all slanting left', 'some slanting each way')
    """
    return "some slanting each way" if way == "both" else f"all slanting {way}"


def said_both(taken: Mapping[str, int]) -> str:
    """How many rectangles are cut each way for so many triangles, as an instruction."""
    each = {way: -(-taken.get(way, 0) // 2) for way in OTHER}
    return (
        f"cut {some(each['left'], 'rectangle')} from {FROM['left']} and {each['right']} from {FROM['right']}, as they "
        "stand upright."
    )


def unsaid_slant(cut: Cut, taken: Mapping[str, int]) -> str | None:
    """What a pattern leaves open that does not say which way its rectangles are cut; None where it says so."""
    way = way_to_cut(taken)
    if cut.slant is not None or not cut.halved_rectangle:
        return None
    how = said_both(taken) if way == "both" else f"The units slant {way}: {_all_one_way(way)}"
    return (
        f"The pattern does not say which way the rectangles {cut.part!r} are cut, and their triangles cannot be turned "
        f"over. {how[:1].upper()}{how[1:]}"
    )


def _all_one_way(way):
    return f"cut them from {FROM[way]}, as they stand upright."
