"""A sheet as a maker takes it: what a pattern leaves to her where only one way fits.

What the setting leaves unsaid is said, a size that is typed the other way round is turned, units cut large are
trimmed, borders are sewn on in the order in which they reach, and blocks float inside the edge where the triangles and
the printed size say so. Nothing is guessed: each of these leaves the sheet's own figures agreeing.
"""

from __future__ import annotations

from fractions import Fraction
from itertools import combinations
from typing import TYPE_CHECKING, NamedTuple

from ..pattern.names import CORNER, SIDE, edge_piece, uses
from ..usual import EASED, PRINTED_ROUND, TRIMMED
from . import meant_setting, measures
from .at_the_edge import TIP, edge_triangles
from .by_proof import cut_sizes
from .needs import unit_sides
from .rounding import ROUNDED_UP, ROUNDING, needed_rectangle

if TYPE_CHECKING:
    from collections.abc import Iterable

    from ..pattern.parts import UnitTable
    from ..pattern.sheet import Sheet
    from .made import Made

OVERSIZE = Fraction(3, 8)
"""Inches: units cut larger by no more are meant to be trimmed (common practice: the finished size plus an inch)."""

MOST_TURNED = 4
"""Parts of a block that are tried the other way round."""

TRIMMED_ALIKE = ("half-square", "quarter-square")


class Meant(NamedTuple):
    """A sheet as a maker takes it; `floating` is how far its blocks float inside the edge where it does not say so, in
    inches, or 0."""

    sheet: Sheet
    floating: Fraction = Fraction(0)


def as_meant(made: Made) -> Meant:
    """The sheet of a `Made` as a maker takes it: the same one where it leaves nothing to her.

    >>> from quiltmath import making, pattern
    >>> from quiltmath.pattern.sheet import EXAMPLE
    >>> bars = EXAMPLE.replace('size = "3 1/2"', 'size = ["6 1/2", "3 1/2"]')
    >>> bars = bars.replace('rows = ["A A", "A A"]', 'rows = ["A A"]\\nfinished = 6')
    >>> making.make(pattern.read_text(bars)).sheet.part("A").size
    (Fraction(7, 2), Fraction(13, 2))
    """
    sheet = _borders_in_order(_trimmed(_turned(_geese_level(meant_setting.said(made)))))
    floating = _implied_float(made if sheet is made.sheet else made.anew(sheet))
    if floating:
        sheet = sheet.model_copy(update={"setting": sheet.setting.model_copy(update={"floating": floating})})
    return Meant(sheet, floating)


# -- the other way round ---------------------------------------------------------------------------------------------


def _with_turned(sheet, parts):
    """The sheet with the sizes of these parts the other way round."""
    cuts = [cut.model_copy(update={"size": cut.size[::-1]}) if cut.part in parts else cut for cut in sheet.cut]
    return sheet.model_copy(update={"cut": cuts})


def _geese_level(sheet):
    """Geese wider than high, as they lie, whichever of their two figures is typed first."""
    geese = {unit.parts[0] for unit in sheet.unit.values() if unit.kind == "flying geese"}
    upright = {cut.part for cut in _rectangles(sheet, geese) if cut.size[0] < cut.size[1]}
    return _with_turned(sheet, upright) if upright else sheet


def _rectangles(sheet, names):
    """The lines of the cutting list that cut these parts as whole pieces that are no squares."""
    return [
        cut
        for cut in sheet.cut
        if cut.part in names and cut.cut == "whole" and cut.size is not None and cut.size[0] != cut.size[1]
    ]


def _turned(sheet):
    """Pieces of blocks turned where the rows add up in that way, and in no other."""
    found = sheet
    while uneven := [name for name in found.block if _misses(found, name)]:
        in_rows = {item.name for name in uneven for row in found.block[name].rows for item in row}
        inside = {part for name in uneven for part in uses(found, name)}
        way = _only_way(found, in_rows, uneven) or _only_way(found, inside, found.block)
        if not way:
            break
        found = _with_turned(found, way)
    return found


def _only_way(sheet, names, blocks):
    """Those of the named parts that must be turned so that these blocks add up, and the others that did still do; none
    where that goes in no way, or in more than one."""
    parts = [cut.part for cut in _rectangles(sheet, names)]
    if len(parts) > MOST_TURNED:
        return ()
    held = {*blocks, *(name for name in sheet.block if measures.finished(sheet, name) is not None)}
    held = [name for name in held if not set(parts).isdisjoint(uses(sheet, name))]
    ways = [way for count in range(1, len(parts) + 1) for way in combinations(parts, count)]
    fitting = [way for way in ways if not any(_misses(_with_turned(sheet, way), name) for name in held)]
    return fitting[0] if len(fitting) == 1 else ()


def _misses(sheet, name):
    """Whether the known sizes in a block's rows do not add up to one rectangle, or not to the printed one."""
    block = sheet.block[name]
    if block.ready_made:
        return False
    known = all(measures.lying(sheet, item) is not None for row in block.rows for item in row)
    return known and block.trim_to is None and measures.finished(sheet, name) is None


# -- the order of borders ----------------------------------------------------------------------------------------------


def _borders_in_order(sheet):
    """Borders that print no order with top and bottom sewn on first, where their lengths reach in that order alone."""
    silent = [border.first == "sides" and "first" not in border.model_fields_set for border in sheet.border]
    for number, border in enumerate(sheet.border):
        if silent[number] and border.ends == "butted" and not border.corner and border.triangles is None:
            other = border.model_copy(update={"first": "top"})
            borders = [other if place == number else one for place, one in enumerate(sheet.border)]
            turned = sheet.model_copy(update={"border": borders})
            if not _reaches(sheet, number) and _reaches(turned, number):
                sheet = turned
    return sheet


def _reaches(sheet, number):
    """Whether the printed lengths of a border's strips are those of its edges, or a little more."""
    border, rounds = sheet.border[number], measures.rounds(sheet)
    long = [_printed_length(sheet, border, where) for where in ("sides", "top")]
    if rounds is None or None in long:
        return False
    (width, height), (wide, high) = (map(float, rounds[place]) for place in (number, number + 1))
    edges = (height, wide) if border.first == "sides" else (high, width)
    over = [float(length) - 2 * float(sheet.sewing_seam) - edge for length, edge in zip(long, edges)]
    return -EASED <= min(over) and max(over) < TRIMMED


def _printed_length(sheet, border, where):
    """How long the strips of one pair of a border are cut, as printed; None where that is not."""
    cut = sheet.part(getattr(border, where) or "")
    printed = getattr(border, f"{where}_length")
    return printed if printed is not None or cut is None or cut.size is None else max(cut.size)


# -- cut large ---------------------------------------------------------------------------------------------


def _trimmed(sheet):
    """Units trimmed to the finished size they print, where all their outer parts are cut a little larger alike."""
    seams, units = 2 * sheet.sewing_seam, {}
    for name, unit in sheet.unit.items():
        if unit.finished is not None and unit.trim_to is None and _is_large(sheet, unit) and _fits(sheet, name):
            units[name] = unit.model_copy(update={"trim_to": tuple(side + seams for side in unit.finished)})
    return sheet.model_copy(update={"unit": {**sheet.unit, **units}}) if units else sheet


def _is_large(sheet: Sheet, unit: UnitTable) -> bool:
    """Whether what is trimmed of a unit is cut larger than it needs, by more than rounding and no more than usual."""
    over = {part: _over(sheet, part, sides) for part, sides in unit_sides(sheet, unit, unit.finished or ()).items()}
    if unit.kind in ("half-rectangle", "triangle in a square"):
        return _are_large(sheet, unit)
    if None in over.values() or not over:
        return False
    if unit.kind in TRIMMED_ALIKE:
        least, most = min(over.values()), max(over.values())  # halves and quarters are rounded each for itself
        return most - least <= ROUNDING < least and most <= OVERSIZE * (2 if unit.at_a_time == 8 else 1)
    if unit.kind == "flying geese":
        return ROUNDING < min(over.values()) and max(over.values()) <= OVERSIZE
    if unit.kind == "square in a square":
        centre, corner = (over[part] for part in (unit.parts[0], unit.parts[-1]))
        return abs(centre) <= ROUNDING < corner <= OVERSIZE
    return False


def _are_large(sheet, unit):
    """Whether all rectangles of a unit are cut larger than it needs, by more than rounding on some side and no more
    than usual on any."""
    width, height = map(float, unit.finished)
    long, legs = unit.parts, (width, height)
    if unit.kind == "triangle in a square":
        long, legs = unit.parts[1:], (width / 2, height)
    exact, cuts = sorted(needed_rectangle(legs, float(sheet.sewing_seam))), [sheet.part(part) for part in long]
    if any(cut is None or not cut.halved_rectangle for cut in cuts):
        return False
    over = [float(have) - need for cut in cuts for have, need in zip(sorted(sheet.cut_size(cut)), exact)]
    return min(over) >= -ROUNDING and ROUNDED_UP < max(over) <= 2 * OVERSIZE


def _over(sheet, part, sides):
    """How much larger a square is cut than it needs, inches; None where it is no square, or none is known."""
    cut, needed = sheet.part(part), cut_sizes(sides, float(sheet.sewing_seam))
    if cut is None or needed is None or cut.size is None or cut.size[0] != cut.size[1]:
        return None
    return float(cut.size[0]) - needed[0]


def _fits(sheet, unit):
    """Whether the blocks that hold a unit add up with its printed size."""
    return not any(_misses(sheet, name) for name in sheet.block if unit in uses(sheet, name))


# -- blocks that float ---------------------------------------------------------------------------------------------


def _implied_float(made):
    """How far the blocks float inside the edge, by triangles cut large and a printed size that is as much larger; 0
    where these do not say so."""
    sheet = made.sheet
    setting = sheet.setting
    if setting.style == "straight" or setting.floating or sheet.finished is None or sheet.step:
        return Fraction(0)
    rounds = measures.rounds(sheet)
    halved = setting.sashing is not None and setting.sashing.edge == "half"  # the edge runs through cornerstones
    if rounds is None or halved or not _plain(sheet):
        return Fraction(0)
    off = _larger(sheet.finished, map(float, rounds[-1]))
    if min(off) <= PRINTED_ROUND or max(off) - min(off) > PRINTED_ROUND:
        return Fraction(0)
    floating = _to_the_ruler(sum(off) / 4)
    room = [
        float(min(sheet.cut_size(cut))) - found.square
        for found in edge_triangles(made)
        if found.where in (SIDE, CORNER, TIP) and found.square is not None
        for cut in [sheet.part(found.part)]
        if cut is not None and cut.cut == found.way
    ]
    kinds = sum(edge_piece(sheet, kind) is not None for kind in (SIDE, CORNER))
    enough = len(room) == kinds + (setting.sides is not None and setting.sides.tip is not None)
    return floating if enough and min(room) >= 2 * floating - ROUNDING else Fraction(0)


def _plain(sheet):
    """Whether all triangles at the edge are cut from fabric, without a frame."""
    pieces = [edge_piece(sheet, kind) for kind in (SIDE, CORNER)]
    return all(piece is None or (piece.how == "plain" and piece.frame is None) for piece in pieces)


def _larger(printed: Iterable[Fraction], size: Iterable[float]) -> list[float]:
    """How much larger the printed size is than this one, whichever of its figures comes first."""
    width, height = size
    ways = [[float(a) - b for a, b in zip(pair, (width, height))] for pair in (tuple(printed), tuple(printed)[::-1])]
    return min(ways, key=lambda off: max(map(abs, off)))


def _to_the_ruler(inches):
    """A length to the quarter inch, or where it is far from one to the eighth."""
    quarter = Fraction(round(inches * 4), 4)
    return quarter if abs(inches - quarter) <= 1 / 16 else Fraction(round(inches * 8), 8)
