"""What each part of a sheet needs for what it is sewn to: one look for each way a size follows from another figure."""

from __future__ import annotations

from collections import defaultdict
from fractions import Fraction
from typing import TYPE_CHECKING

from ..pattern.names import CORNER, SIDE, blocks_named, edge_names, edge_piece, where_of
from ..root2 import root2
from . import measures
from .at_the_edge import HALVED, ROUND, edge_triangles, finished_beside
from .bill import at_a_time, bill_of_materials, sewn_first, ways_to_cut
from .by_proof import cut_sizes
from .need import (
    LEGS_ON_GRAIN,
    LENGTHWISE,
    LONG_ON_GRAIN,
    ON_GRAIN,
    Need,
    halves,
    long_triangles,
    mitred,
    rectangle,
    slanted,
    triangle,
    triangle_between,
)
from .slants import in_words, slants_taken

if TYPE_CHECKING:
    from collections.abc import Sequence

    from ..pattern.cut import Cut
    from ..pattern.parts import UnitTable
    from ..pattern.sheet import Sheet
    from .made import Made
    from .need import Sides

GRAIN = {"whole": ON_GRAIN, "once": LEGS_ON_GRAIN, "twice": LONG_ON_GRAIN, "shaped": LONG_ON_GRAIN}
MEASURE = "measure the sewn top before you cut them"
BOTH_ENDS, ONE_END = "both ends are trimmed at 45 degrees", "one end is trimmed at 45 degrees"


def needs(made: Made) -> dict[str, Need]:
    """{part: Need} for every part whose size follows from another figure of the sheet, in the order of its cutting
    list.

    >>> from quiltmath import making, pattern
    >>> from quiltmath.pattern.sheet import EXAMPLE
    >>> sheet = EXAMPLE.replace("[block.four]", '[block.four]\\nfinished = "6"')
    >>> sheet = sheet.replace("count = 16", 'count = 16\\nfinished = 3')
    >>> need = needs(making.make(pattern.read_text(sheet)))["A"]
    >>> need.text, need.count, need.why
    ('3 1/2', 16, 'patch')
    """
    found, sheet, wanted = {}, made.sheet, bill_of_materials(made.sheet)
    slants = slants_taken(sheet, wanted)
    for look in (_printed, _edge_triangles, _built, _units, _plain_blocks, _sashing, _frames, _borders):
        for part, sides, more in look(made):
            cut = sheet.part(part)
            if cut is not None and part not in found and (more.pop("cut", cut.cut) == cut.cut):
                given = {"grain": GRAIN[cut.cut], "note": in_words(cut, slants.get(part, {})), **more}
                found[part] = Need(
                    part, cut.fabric, wanted[part], cut.cut, sides, sheet.sewing_seam, sheet.units, **given
                )
    return {cut.part: found[cut.part] for cut in sheet.cut if cut.part in found}


def _printed(made):
    """Parts that print their finished size."""
    for cut in made.sheet.cut:
        if cut.finished is not None and cut.size is not None and cut.shape is None:
            width, height = cut.finished
            if cut.cut == "whole":
                yield cut.part, rectangle(width, height), {"grain": _along(made.sheet, cut.part)}
            elif cut.halved_rectangle:
                yield cut.part, lying(cut, halves(*sorted(cut.finished))), {}
            else:
                sides = triangle(cut.cut, width)
                yield cut.part, sides if width == height else (*sides, *triangle(cut.cut, height)), {}


def _along(sheet, part):
    """How the grain runs in a whole piece: along strips, where the fabric allows."""
    setting, strips = sheet.setting, {name for border in sheet.border for name in (border.sides, border.top)}
    if setting.sashing is not None:
        strips |= {setting.sashing.part, *(setting.sashing.strip or ())}
    return LENGTHWISE if part in strips else ON_GRAIN


def _edge_triangles(made):
    """The triangles at the outside, where they are cut as they should be."""
    for found in edge_triangles(made):
        if found.sides is not None:
            yield found.part, found.sides, {"cut": found.way, "least": found.where not in (HALVED, ROUND)}


def _built(made):
    """Triangles in the rows of built edge triangles: their legs are as long as the row is high."""
    for part in made.built_ends:
        cut, finished = made.sheet.part(part), made.built_ends[part]
        yield part, triangle(cut.cut, finished), {"least": True}


def _units(made):
    """Parts of units that print their finished size, or the size they are trimmed to."""
    for unit in made.sheet.unit.values():
        size = measures.unit_size(made.sheet, unit)
        if size is not None:
            for part, sides in unit_sides(made.sheet, unit, size).items():
                if cut_sizes(sides, made.seam) is not None:
                    yield part, sides, {"least": unit.trim_to is not None}


def unit_sides(sheet: Sheet, unit: UnitTable, finished: Sequence[Fraction | float]) -> dict[str, Sides]:
    """{part: the sides of its need} for the parts of a unit that finishes so large.

    A part cut as a triangle is measured by the square it is cut from; the corners of a snowball, which have no need of
    their own, are left out.
    """
    width, height = finished
    one, other = unit.parts[0], unit.parts[-1]
    at_once = at_a_time(sheet, unit) if sewn_first(sheet, unit) else 0
    if unit.kind == "half-square":
        proof = {4: "half_squares_four", 8: "half_squares_eight"}.get(at_once, "half_square")
        return dict.fromkeys(unit.parts, ((proof, None, {"finished": width}),))
    if unit.kind == "triangle in a square":
        middle, *beside = unit.parts
        return {middle: triangle_between(width, height)} | {
            part: lying(sheet.part(part), long_triangles(width, height)) for part in beside
        }
    if unit.kind == "half-rectangle":
        return {part: lying(sheet.part(part), halves(width, height)) for part in unit.parts}
    if unit.kind == "quarter-square":
        return {part: triangle(way, width) for part, way in zip(unit.parts, ways_to_cut(unit))}
    if unit.kind == "flying geese":
        if at_once == 1:
            return {one: rectangle(width, height), other: rectangle(height, height)}
        return {one: triangle("twice", width), other: triangle("once", height)}
    if unit.kind == "square in a square":
        return {
            part: (("square_in_square", name, {"finished": width}),)
            for part, name in ((one, "centre"), (other, "corner square"))
        }
    return {one: rectangle(width, height)}


def unit_needs(made: Made, unit: UnitTable, finished: Sequence[Fraction | float]) -> dict[str, tuple[float, ...]]:
    """{part: exact cut (width, height) in inches} that the unit's parts need to finish at this size; empty where it
    leaves no room for the seams."""
    found = {part: cut_sizes(sides, made.seam) for part, sides in unit_sides(made.sheet, unit, finished).items()}
    sizes = {part: (size * 2)[:2] for part, size in found.items() if size is not None}
    return sizes if len(sizes) == len(found) else {}


def without_room(made: Made) -> list[str]:
    """The names of the units whose printed finished size leaves no room for their seams."""
    sizes = ((name, unit, unit.finished) for name, unit in made.sheet.unit.items())
    return [name for name, unit, size in sizes if size is not None and not unit_needs(made, unit, size)]


def unit_proof(sheet: Sheet, unit: UnitTable) -> str:
    """The name of the proof that says what a unit's parts need, by the way it is made."""
    at_once = at_a_time(sheet, unit) if sewn_first(sheet, unit) else 0
    special = {
        ("half-square", 2): "half_squares_two",
        ("half-square", 4): "half_squares_four",
        ("half-square", 8): "half_squares_eight",
        ("half-square", 0): "half_square",
        ("quarter-square", 0): "quarter_square",
        ("flying geese", 1): "geese_one_at_a_time",
        ("flying geese", 4): "geese_four_at_a_time",
    }
    general = {
        "half-rectangle": "half_rectangle",
        "triangle in a square": "triangle_in_square",
        "quarter-square": "hourglass",
        "flying geese": "flying_geese",
        "square in a square": "square_in_square",
    }
    return special.get((unit.kind, at_once), general.get(unit.kind, "patch"))


def _plain_blocks(made):
    """Plain blocks beside the main one; in rows of their own, as high as those."""
    setting = made.sheet.setting
    if setting.loose or made.cell is None:
        return
    others = blocks_named(setting) if setting.drawn else [setting.alternate]
    yield from (
        (name, rectangle(made.cell, made.cell), {"cut": "whole"}) for name in others if name not in (None, made.block)
    )


def _sashing(made):
    """Sashes along the side of a block, cornerstones as wide as the sashes, strips as long as their rows."""
    sheet, sashing = made.sheet, made.sheet.setting.sashing
    cut = sheet.part(sashing.part) if sashing is not None else None
    if cut is None or made.cell is None or cut.size is None:
        return
    width, upright = made.width_of(cut.part), cut.size[0] <= cut.size[1]
    yield cut.part, rectangle(width, made.cell) if upright else rectangle(made.cell, width), {"grain": LENGTHWISE}
    if sashing.cornerstone:
        yield sashing.cornerstone, rectangle(width, width), {"cut": "whole"}
    yield from _long_strips(made, width)


def _long_strips(made, width):
    """The long sashing strips between rows, each as long as the longest row it serves."""
    lies, reach_of = made.lies, {}
    for name, reach in lies.named_strips(made.sheet.setting.sashing.strip or ()):
        reach_of[name] = max(reach, reach_of.get(name, 0))
    for name, reach in reach_of.items():
        cut, length = made.sheet.part(name), lies.strip_length(reach)
        if cut is None or cut.size is None:
            continue
        slants = lies.on_point and not lies.whole
        sides = slanted(width, length) if slants else rectangle(width, length)
        note = {"note": BOTH_ENDS} if slants else {}
        yield name, lying(cut, sides), {"grain": LENGTHWISE, "least": True, **note}


def lying(cut: Cut | None, sides: Sides) -> Sides:
    """The sides of a strip or a rectangle, the short one first, in the order in which the sheet prints them."""
    return sides if len(sides) < 2 or cut is None or cut.size is None or cut.size[0] <= cut.size[1] else sides[::-1]


def _frames(made):
    """Frame strips on edge triangles, which must reach past their 45-degree trim."""
    longest = {}
    for kind in (SIDE, CORNER):
        for name in edge_names(made.sheet, kind):
            for part, sides, note in _framed(made, kind, name):
                value = cut_sizes(sides, made.seam)
                if value is not None and (part not in longest or value[1] > longest[part][0][1]):
                    longest[part] = value, sides, note
    for part, (_, sides, note) in longest.items():
        cut = made.sheet.part(part)
        if cut is not None and cut.size is not None:
            yield part, lying(cut, sides), {"grain": LENGTHWISE, "least": True, "note": note}


def _framed(made, kind, name):
    """(part, sides, note) of each frame strip of one edge triangle."""
    piece = edge_piece(made.sheet, name)
    frame = piece.frame or ()
    leg = _leg(made, kind, name, piece) if frame else None
    if leg is None or None in map(made.panel, frame):
        return
    widths = [made.width_of(part) for part in frame]
    if len(frame) == 1:
        yield frame[0], slanted(widths[0], leg), BOTH_ENDS
        return
    for part, width, beside in ((frame[0], widths[0], leg), (frame[1], widths[1], leg + widths[0])):
        yield part, slanted(width, beside, "frame_end"), ONE_END


def _leg(made, kind, name, piece):
    """The finished edge of a triangle that its frame is sewn to: exact for plain ones beside blocks that add up, else
    as sewn."""
    if piece.how == "plain" and made.lies is not None and (kind == SIDE or len(piece.frame) == 1):
        return finished_beside(made, kind, made.cell)
    triangle_ = made.unframed(kind, where_of(name))
    if triangle_ is None:
        return None
    return triangle_.edge("left" if len(piece.frame) == 2 else "upper right", made.seam).finished_length


def _borders(made):
    """Border strips that are cut to length, and corner squares."""
    inside = measures.rounds(made.sheet)
    if inside is not None:
        for border, size in zip(made.sheet.border, inside):
            yield from _round(made, border, *map(root2, size))
        return
    for strip in made.border_strips:
        cut = made.sheet.part(strip.part)
        if cut is not None and cut.size is not None:
            seams = 2 * made.seam
            yield strip.part, lying(cut, rectangle(strip.width - seams, strip.length - seams)), _as_border(False)


def _round(made, border, width, height):
    """The needs of one border round what finishes so wide and high."""
    if border.triangles is not None:
        return
    sides, top = measures.border_widths(made.sheet, border, width, height)
    long, wide = height, width
    if border.ends == "butted" and not border.corner:
        wider, higher = (border.on(pair) * by for pair, by in (("sides", sides), ("top", top)))
        long, wide = (height, width + wider) if border.first == "sides" else (height + higher, width)
    for part, across, along in ((border.sides, sides, long), (border.top, top, wide)):
        cut = made.sheet.part(part or "")
        if cut is not None and cut.size is not None:
            strip = mitred(across, along) if border.ends == "mitred" else rectangle(across, along)
            upright = (
                border.ends == "mitred" or measures.across(cut.size, along + 2 * made.sheet.sewing_seam) == cut.size[0]
            )
            yield part, strip if upright or len(strip) < 2 else strip[::-1], _as_border(border.ends == "mitred")
    if border.corner:
        yield border.corner, rectangle(sides, top), {"cut": "whole"}


def _as_border(is_mitred):
    return {
        "grain": LENGTHWISE,
        "least": True,
        "note": f"both ends are mitred; {MEASURE}" if is_mitred else MEASURE,
    }


def long_strip_lengths(made: Made) -> dict[str, list[float]]:
    """{part: the raw lengths (inches) of the long strips between rows}: of sashing, or of strips joined from widths of
    fabric that are rows of their own; empty where there are none, or no blocks."""
    lies, sashing = made.lies, made.sheet.setting.sashing
    found: defaultdict[str, list[float]] = defaultdict(list)
    if lies is None:
        return found
    for name in measures.long_strips(made.sheet):
        found[name].append(float(lies.size[lies.upright]) + 2 * made.seam)
    beyond = float(2 * lies.sash if lies.on_point and not lies.whole else 0) + 2 * made.seam
    for name, reach in lies.named_strips(sashing.strip or ()) if sashing is not None else ():
        found[name].append(float(lies.strip_length(reach)) + beyond)
    return found
