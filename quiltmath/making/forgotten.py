"""What a cutting list forgets: names that a quilt takes and nothing cuts or makes, and the lines that would cut them.

A size follows from what lies beside the piece, by the same proofs as any other need. With the lines supplied the quilt
is sewn, so that all else in the sheet can be judged; where no size follows, what needs the piece is not sewn.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from itertools import chain
from operator import itemgetter
from typing import TYPE_CHECKING, NamedTuple

from .. import lengths
from ..pattern.border import PAIRS
from ..pattern.cut import Cut
from ..pattern.names import CORNER, SIDE, blocks_named
from ..pattern.names import forgotten as names_forgotten
from ..root2 import root2
from ..usual import MEASURED, PRINTED_ROUND, RULER
from . import measures
from .at_the_edge import HALF, edge_triangles, times_root2
from .bill import bill_of_materials, cuts_needed, sewn_first, ways_to_cut
from .by_proof import cut_sizes
from .need import Need, rectangle, slanted, triangle
from .needs import unit_sides
from .room import room, sides_of
from .rounding import finished_rectangle, finished_size
from .slants import slants_taken, way_to_cut

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..pattern.border import Border
    from ..pattern.parts import UnitTable
    from ..pattern.sheet import Sheet
    from .made import Made
    from .need import Sides

UNNAMED = "fabric not printed"
"""The fabric of a forgotten piece where nothing tells it: no fabric of the sheet, so that none is counted for it."""

STRIP = "strip"  # a way of cutting: across the whole width of the fabric


class Forgotten(NamedTuple):
    """A name that nothing cuts or makes: the path of its first use, how many of it the quilt takes, and the line of the
    cutting list that would cut them, None where no figure gives their size."""

    name: str
    path: list[str | int]
    wanted: int
    line: Cut | None

    @property
    def fabric(self) -> str:
        """The fabric it must be cut from; "" where nothing tells."""
        return "" if self.line is None or self.line.fabric == UNNAMED else self.line.fabric


def supplied(made: Made) -> Made:
    """The same sheet with the lines its cutting list forgets, and `forgotten` told of each; itself where none is.

    >>> from quiltmath import making, pattern
    >>> from quiltmath.pattern.sheet import EXAMPLE
    >>> sheet = EXAMPLE.replace('"A A", "A A"', '"A small-navy", "A A"')
    >>> sheet = sheet.replace("[block.four]", '[block.four]\\nfinished = 6')
    >>> (found,) = making.make(pattern.read_text(sheet)).forgotten
    >>> found.name, found.wanted, found.line.size, found.fabric
    ('small-navy', 4, (Fraction(7, 2), Fraction(7, 2)), 'navy')
    """
    lost = names_forgotten(made.sheet)
    waiting = dict(lost)
    while waiting:
        lines = _lines(made, waiting)
        if not lines:
            break
        made = _with(made, [*made.sheet.cut, *lines])
        waiting = {name: path for name, path in waiting.items() if made.sheet.part(name) is None}
    if not lost:
        return made
    bill = bill_of_materials(made.sheet)
    made = _with(made, [_counted(made.sheet, cut, bill) if cut.part in lost else cut for cut in made.sheet.cut])
    return replace(
        made,
        forgotten=tuple(Forgotten(name, path, bill[name], made.sheet.part(name)) for name, path in lost.items()),
    )


def _with(made, cuts):
    """The same sheet with another cutting list, and nothing sewn of it yet."""
    return replace(made, sheet=made.sheet.model_copy(update={"cut": cuts}), troubles=[], _panels={})


def _counted(sheet, cut, wanted):
    """A forgotten line in the number that the quilt takes, its rectangles cut the way it takes them."""
    if cut.halved_rectangle:
        taken = slants_taken(sheet, wanted).get(cut.part, {})
        cut = cut.model_copy(update={"slant": way_to_cut(taken) if taken else None})
    return cut.model_copy(update={"count": max(1, cuts_needed(sheet, cut, wanted))})


def _lines(made, names):
    """The lines of the cutting list for these names, one piece each, of those whose size some figure gives."""
    found = {}
    for part, way, sides in _asked(made):
        if part in names and part not in found and cut_sizes(sides, made.seam) is not None:
            found[part] = _line(made, part, way, sides)
    return [found[name] for name in names if name in found]


def _line(made, name, way, sides):
    """One piece of a part as a line of the cutting list."""
    fabric, cut = _fabric_of(made.sheet, name), "whole" if way == STRIP else way
    need = Need(name, fabric, 1, cut, sides, made.sheet.sewing_seam, made.sheet.units)
    size = [_to_cut(need, side) for side in (0, -1)]
    more = {"strip": size[1], "size": None} if way == STRIP else {"strip": None, "size": tuple(size)}
    more |= {"shape": "triangle"} if way == "shaped" else {}
    return Cut.model_construct(part=name, fabric=fabric, count=1, cut=cut, finished=None, triangles=None, **more)


def _to_cut(need, side):
    """One side of a need as a ruler shows it: exactly where it can, a triangle's square rounded up as all are."""
    exact = need.value[side]
    if need.cut != "whole":
        return lengths.ruler(exact, step=RULER[need.unit], rounding="up")
    found = Fraction(exact).limit_denominator(64 * 127)
    return found if abs(found - exact) < 1e-9 else lengths.ruler(exact, step=MEASURED[need.unit], rounding="up")


def _fabric_of(sheet, name):
    """The fabric a part's name speaks of, or the only one that is listed, or the only one nothing else is cut from."""
    cut_from = {cut.fabric for cut in sheet.cut} | {sheet.binding.fabric if sheet.binding is not None else ""}
    named = [fabric for fabric in {*sheet.fabric, *cut_from} if _words(fabric) & _words(name)]
    for choice in (named, list(sheet.fabric), [fabric for fabric in sheet.fabric if fabric not in cut_from]):
        if len(choice) == 1:
            return choice[0]
    return UNNAMED


def _words(name):
    return set(name.casefold().replace("-", " ").replace("_", " ").split())


# -- what lies beside a piece asks for its size ------------------------------------------------------------------------


def _asked(made: Made) -> Iterator[tuple[str, str, Sides]]:
    """(name, how it is cut, the sides of its need) of what a sheet asks for: of everything, cut or forgotten."""
    for look in (_at_the_edge, _built, _in_units, _in_rows, _in_strip_sets, _in_setting, _in_sashing, _in_borders):
        yield from look(made)


def _at_the_edge(made):
    """Triangles at the outside."""
    return ((found.part, found.way, found.sides) for found in edge_triangles(made) if found.sides is not None)


def _built(made):
    """The triangles that end the rows of built edge triangles, their legs as long as the row is high; the tip over
    what lies below it."""
    for kind, piece in ((SIDE, made.sheet.setting.sides), (CORNER, made.sheet.setting.corners)):
        for rows in (piece.rows, piece.left, piece.bottom, piece.right) if piece is not None else ():
            yield from _in_built_rows(made.sheet, kind, rows or [])


def _in_built_rows(sheet, kind, rows):
    sizes = [[measures.lying(sheet, item) for item in row] for row in rows]
    for row, around in zip(rows, sizes):
        high = next((size[1] for size in around if size is not None), None)
        for item in (row[-1], row[0]) if kind == CORNER else (row[-1],):
            if high is not None and len(row) > 1:
                yield item.name, "twice", triangle("twice", times_root2(high))
    below = [size[0] for size in sizes[1] if size is not None] if len(rows) > 1 else []
    if below and len(rows[0]) == 1:
        yield (
            (rows[0][0].name, "twice", triangle("twice", times_root2(sum(below))))
            if kind == SIDE
            else (rows[0][0].name, "once", triangle("once", times_root2(sum(below)) * HALF))
        )


def _in_units(made):
    """The parts of units, by the unit's own size, or as large as the other triangle of the pair."""
    sheet = made.sheet
    for name, unit in sheet.unit.items():
        size = measures.unit_size(sheet, unit) or room(sheet, name) or _as_its_pair(sheet, unit)
        whole = sewn_first(sheet, unit)
        ways = dict(zip(unit.parts, ways_to_cut(unit)))
        for part, sides in unit_sides(sheet, unit, size).items() if size is not None else ():
            way = "whole" if whole else ways[part]
            if way:
                yield part, way, sides


def _as_its_pair(sheet: Sheet, unit: UnitTable) -> tuple[Fraction, Fraction] | None:
    """The finished size that the other piece of a half- or quarter-square unit tells."""
    cuts = ((sheet.part(part), way) for part, way in zip(unit.parts, ways_to_cut(unit)))
    cut, way = next(((cut, way) for cut, way in cuts if cut is not None and cut.size is not None), (None, ""))
    if cut is not None and unit.kind == "half-rectangle" and cut.halved_rectangle:
        size = sorted(map(float, sheet.cut_size(cut)))
        legs = finished_rectangle((size[0], size[1]), float(sheet.sewing_seam), sheet.units)
        return Fraction(legs[0]).limit_denominator(1 << 20), Fraction(legs[1]).limit_denominator(1 << 20)
    if cut is None or unit.kind not in ("half-square", "quarter-square") or unit.at_a_time in (4, 8):
        return None
    side = finished_size(way, float(sheet.cut_size(cut)[0]), float(sheet.sewing_seam), sheet.units)
    return (Fraction(side).limit_denominator(1 << 20),) * 2


def _in_rows(made):
    """Pieces in the rows of blocks, as large as the rest of the block leaves room for."""
    for block in made.sheet.block.values():
        for name in dict.fromkeys(item.name for row in block.rows for item in row):
            size = room(made.sheet, name) if made.sheet.part(name) is None else None
            if size is not None:
                yield name, "whole", rectangle(*size)


def _in_strip_sets(made):
    """Strips of strip sets: what the others leave of the height of a piece."""
    sheet = made.sheet
    for name, strip_set in sheet.strip_set.items():
        lost = [strip for strip in strip_set.strips if sheet.part(strip) is None]
        height = sides_of(sheet, name).get(1) if len(set(lost)) == 1 else None
        if height is not None:
            others = [
                sheet.cut_size(cut)[1] - 2 * sheet.sewing_seam for cut in map(sheet.part, strip_set.strips) if cut
            ]
            high = (height - sum(others)) / len(lost)
            if high > 0:
                yield lost[0], STRIP, rectangle(strip_set.sub_cut, high)


def _in_setting(made):
    """Plain blocks beside the others."""
    sheet, setting = made.sheet, made.sheet.setting
    if setting.loose:
        for name in setting.blocks:
            size = room(sheet, name) if sheet.part(name) is None else None
            if size is not None:
                yield name, "whole", rectangle(*size)
        return
    cell = _cell(made)
    if cell is not None:
        yield from ((name, "whole", rectangle(cell, cell)) for name in reversed(blocks_named(setting)))


def _cell(made):
    """The finished side of the blocks: of the main one, the alternate one, or as long as the sashes are."""
    if made.cell is not None:
        return made.cell
    sheet, sashing = made.sheet, made.sheet.setting.sashing
    others = (measures.finished(sheet, name) for name in blocks_named(sheet.setting))
    other = next((size for size in others if size is not None), None)
    sash = sheet.part(sashing.part) if sashing is not None else None
    if other is not None:
        return other[0]
    return max(sash.size) - 2 * sheet.sewing_seam if sash is not None and sash.size is not None else None


def _in_sashing(made):
    """Sashes, cornerstones and long strips: each is as wide as the others are."""
    sashing, sheet = made.sheet.setting.sashing, made.sheet
    if sashing is None:
        return
    across = [name for name in (sashing.part, sashing.cornerstone, *(sashing.strip or ())) if name]
    width = next((found for found in (measures.width_of(sheet, name) for name in across) if found is not None), None)
    if width is None:
        return
    if made.cell is not None:
        yield sashing.part, "whole", rectangle(width, made.cell)
    if sashing.cornerstone:
        yield sashing.cornerstone, "whole", rectangle(width, width)
    lies = made.lies
    reaches = (
        dict(sorted(lies.named_strips(sashing.strip), key=itemgetter(1))) if lies is not None and sashing.strip else {}
    )
    for name, reach in reaches.items():  # of one name for all rows, the longest
        long = lies.strip_length(reach)
        slants = lies.on_point and not lies.whole
        yield name, "whole", slanted(width, long) if slants else rectangle(width, long)


def _in_borders(made):
    """Border strips as wide as the other pair, or as the printed size leaves room for, and corner squares."""
    sheet = made.sheet
    for number, border in enumerate(sheet.border):
        rounds = measures.rounds(sheet.model_copy(update={"border": sheet.border[:number]}))
        if rounds is None or border.triangles is not None:
            continue
        inside = [root2(side) for side in rounds[-1]]
        wide = {key: measures.width_of(sheet, getattr(border, key)) for key in border.pairs}
        other = next((width for width in wide.values() if width is not None), None)
        left = _left_for_border(sheet, number, inside)
        if other is None and left:
            left = dict.fromkeys(left, min(left.values()))
        wide = {key: _as_wide(other, left.get(key)) if found is None else found for key, found in wide.items()}
        if all(width is not None and width > 0 for width in wide.values()):
            yield from _strips_round(border, {"sides": Fraction(0), "top": Fraction(0), **wide}, inside)


def _left_for_border(sheet, number, inside):
    """{pair: the finished width, to the ruler's eighth, that the printed size leaves for a border's strips}; empty
    where no size is printed, or a border further out is not known."""
    border, later = sheet.border[number], sheet.border[number + 1 :]
    wide = {pair: [measures.width_of(sheet, getattr(one, pair)) for one in later] for pair in PAIRS}
    if sheet.finished is None or None in chain(*wide.values()) or any(one.triangles for one in later):
        return {}
    outside = [sum(one.on(pair) * width for one, width in zip(later, wide[pair])) for pair in PAIRS]
    ways = [
        [float(side) - float(have) - float(more) for side, have, more in zip(printed, inside, outside)]
        for printed in (sheet.finished, sheet.finished[::-1])
    ]
    place = min(ways, key=lambda way: _unlikely(border, way))
    widths = {pair: short / border.on(pair) for pair, short in zip(PAIRS, place) if border.on(pair)}
    return {pair: lengths.ruler(max(width, 0), RULER[sheet.units], "nearest") for pair, width in widths.items()}


def _unlikely(border, place):
    """How little a border suits a place of so many inches across and up: it fills it, as wide one way as the other."""
    uneven = abs(place[0] - place[1]) if len(border.pairs) == len(PAIRS) else 0.0
    return min(place) < -PRINTED_ROUND, uneven + sum(abs(by) for by, pair in zip(place, PAIRS) if not border.on(pair))


def _as_wide(other, left):
    """How wide strips finish: as the other pair, unless the printed size leaves plainly more or less for them."""
    return left if other is None or left is not None and 2 * abs(other - left) > PRINTED_ROUND else other


def _strips_round(border: Border, wide: dict, inside: list) -> Iterator[tuple[str, str, Sides]]:
    """The strips and corner squares of one border, so wide, round what finishes so large."""
    width, height = inside
    if border.corner:
        yield border.corner, "whole", rectangle(wide["sides"], wide["top"])
    elif border.ends == "butted":
        width, height = (
            (width + border.on("sides") * wide["sides"], height)
            if border.first == "sides"
            else (width, height + border.on("top") * wide["top"])
        )
    pairs = (border.sides, wide["sides"], height), (border.top, wide["top"], width)
    for name, across, along in sorted(pairs, key=itemgetter(2), reverse=True):  # of one name for both, the longer
        given = {"side": along, "width": across}
        mitred = ("mitred_strip", "strip width", given), ("mitred_strip", "strip", given)
        yield name or "", "whole", rectangle(across, along) if border.ends == "butted" else mitred
