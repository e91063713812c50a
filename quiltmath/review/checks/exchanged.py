"""Two pieces that stand in each other's place, or have each other's size: which of the two it is, and what mends it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ...making.rounding import ROUNDING
from ...pattern.names import CORNER, SIDE
from ..outside import OutsideTriangle, outside_triangles

if TYPE_CHECKING:
    from collections.abc import Mapping

    from ...making import Made
    from ...pattern.cut import Cut
    from ...pattern.fields import Item
    from ...pattern.sheet import Sheet
    from ..ruler import Ruler

GENEROUS = 1.5  # inches: setting triangles are cut larger than they need by no more (common practice)


def have_each_others_size(made: Made, one: Cut, other: Cut) -> bool:
    """Whether it is two sizes that are exchanged on the cutting list, and not two names in the rows: their counts are
    right as they are, or they are named where no row is."""
    sheet, needed = made.sheet, made.bill
    rows = {item.name for block in sheet.block.values() for row in block.rows for item in row}
    rows |= {name for step in sheet.step for name in step.sew or ()}
    elsewhere = {part for unit in sheet.unit.values() for part in unit.parts}
    if not {one.part, other.part} <= rows - elsewhere:
        return True
    as_told = one.gives >= needed[one.part] and other.gives >= needed[other.part]
    exchanged = one.gives >= needed[other.part] and other.gives >= needed[one.part]
    return as_told and not exchanged


def triangles_of_size(made: Made, cut: Cut) -> Cut | None:
    """The line of other triangles that have the size these ones need, and need theirs; None where there are none."""
    needs = ((part, need) for part, need in made.needs.items() if len(need.sides) == 1 and need.can_be_cut)
    needed = {part: need.pair[0] for part, need in needs}
    if not cut.diagonal or cut.part not in needed or _will_do(cut, needed[cut.part]):
        return None
    others = (one for one in made.sheet.cut if one.part != cut.part and one.diagonal and one.part in needed)
    will_do = (one for one in others if _will_do(cut, needed[one.part]) and _will_do(one, needed[cut.part]))
    return next(will_do, None)


def setting_triangles_exchanged(made: Made) -> tuple[OutsideTriangle, OutsideTriangle] | None:
    """The side and the corner triangles of a setting, where each are cut as the other ones are needed; else None."""
    found = {one.where: one for one in outside_triangles(made) if one.exact is not None and one.cut.cut != one.way}
    side, corner = found.get(SIDE), found.get(CORNER)
    if side is None or corner is None or (side.cut.cut, corner.cut.cut) != (corner.way, side.way):
        return None
    return (side, corner) if _will_do(side.cut, corner.exact) and _will_do(corner.cut, side.exact) else None


def _will_do(cut, exact):
    """Whether the printed size of a line would do for triangles of this exact size, as generously as they are cut."""
    return cut.size is not None and all(-ROUNDING <= float(side) - exact <= GENEROUS for side in cut.size)


def sizes_exchanged(of: Ruler, sheet: Sheet, one: Cut, other: Cut) -> tuple:
    """The changes to the cutting list that give each of two lines the other's size, and strips as wide."""
    changes = []
    for cut, right in ((one, sheet.cut_size(other)), (other, sheet.cut_size(one))):
        path, printed = ("cut", sheet.cut.index(cut)), sheet.cut_size(cut)
        changes.append(((*path, "size"), of.typed(right, of.exactly)))
        if cut.strip_width in printed:
            changes.append(((*path, "strip_width"), of.exactly(right[printed.index(cut.strip_width)])))
    return tuple(changes)


def in_each_others_place(sheet: Sheet, one: str, other: str) -> tuple:
    """The changes that put one part where the other is told, in rows and in steps."""
    swapped = {one: other, other: one}
    changes: list[tuple] = []
    for name, block in sheet.block.items():
        rows = [[as_typed(item, swapped) for item in row] for row in block.rows]
        if any(item.name in swapped for row in block.rows for item in row):
            changes.append((("block", name, "rows"), rows))
    for number, step in enumerate(sheet.step):
        if step.sew is not None and swapped.keys() & set(step.sew):
            changes.append((("step", number, "sew"), [swapped.get(name, name) for name in step.sew]))
    return tuple(changes)


def as_typed(item: Item, called: Mapping[str, str] | None = None) -> str:
    """One place of a row as a sheet has it typed; some names may be `called` by others."""
    name = (called or {}).get(item.name, item.name)
    return name + (f":{item.turn:g}" if item.turn else "")
