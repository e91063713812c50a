"""Which way rectangles are cut from corner to corner, and how many long triangles a quilt takes that slant each way.

Fabric has a right side, so a triangle that slants to the left never becomes one that slants to the right.
"""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

from ..pattern.cut import PIECES

if TYPE_CHECKING:
    from collections.abc import Mapping

    from ..pattern.cut import Cut
    from ..pattern.parts import UnitTable
    from ..pattern.sheet import Sheet

OTHER = {"left": "right", "right": "left"}


def slants_taken(sheet: Sheet, wanted: Mapping[str, int]) -> dict[str, Counter[str]]:
    """{part: how many of its triangles slant to the "left" and to the "right"} in the units of a quilt that takes so
    many `wanted` of each."""
    found: dict[str, Counter[str]] = {}
    for name, unit in sheet.unit.items():
        for part, slant in slanting_parts(unit) if wanted[name] else ():
            cut = sheet.part(part)
            if slant is not None and (cut is None or cut.halved_rectangle):
                found.setdefault(part, Counter())[slant] += wanted[name]
    return found


def slanting_parts(unit: UnitTable) -> list[tuple[str, str | None]]:
    """(part, the way it slants or None) of each piece of a unit that has long triangles, else of each part named.

    >>> from quiltmath.pattern.parts import UnitTable
    >>> slanting_parts(UnitTable(kind="triangle in a square", parts=["A", "B"]))
    [('A', None), ('B', 'right'), ('B', 'left')]
    """
    if unit.kind != "triangle in a square":
        return [(part, unit.slant) for part in unit.parts]
    return [(unit.parts[0], None), (unit.parts[1], "right"), (unit.parts[-1], "left")]


def way_to_cut(taken: Mapping[str, int]) -> str:
    """How rectangles are cut for triangles that slant so: "left", "right" or "both".

    >>> way_to_cut({"left": 8}), way_to_cut({"left": 8, "right": 2})
    ('left', 'both')
    """
    ways = [way for way in OTHER if taken.get(way)]
    return ways[0] if len(ways) == 1 else "both"


def to_cut(cut: Cut, needed: int, taken: Mapping[str, int]) -> int:
    """How many pieces of a line must be cut for so many of its parts, of which so many slant each way.

    >>> from quiltmath.pattern.cut import Cut
    >>> cut = Cut(part="A", fabric="navy", size=(2, 4), count=1, cut="once", slant="both")
    >>> to_cut(cut, 6, {"left": 3, "right": 3})
    4
    """
    if cut.slant != "both":
        return -(-needed // PIECES[cut.cut])
    rest = needed - sum(taken.values())
    return sum(-(-count // 2) for count in (*taken.values(), rest))


def in_words(cut: Cut, taken: Mapping[str, int]) -> str:
    """Which way the rectangles of a line are cut for so many triangles that slant each way, in words; "" for others.

    >>> from quiltmath.pattern.cut import Cut
    >>> cut = Cut(part="A", fabric="navy", size=(2, 4), count=4, cut="once", slant="both")
    >>> in_words(cut, {"left": 4, "right": 3})
    '2 of them slanting left and 2 slanting right'
    """
    if cut.slant != "both":
        return "" if cut.slant is None else f"slanting {cut.slant}"
    left, right = (-(-taken.get(way, 0) // 2) for way in OTHER)
    return f"{left} of them slanting left and {right} slanting right"
