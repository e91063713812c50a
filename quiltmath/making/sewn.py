"""Each panel of a sheet, sewn from what it is made of."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..pattern.names import (
    CORNER,
    QUILT,
    READY_MADE,
    SETTING,
    SIDE,
    all_in,
    edge_piece,
    step_giving,
    where_of,
)
from ..sewing import patch
from . import bill, units
from .edge_triangles import edge_triangle, with_frame
from .in_rows import rows_sewn
from .pieces import cut_piece
from .setting_sewn import sewn_setting
from .slants import slanting_parts
from .steps import given_by
from .trouble import Missing

if TYPE_CHECKING:
    from ..pattern.sheet import Sheet
    from ..sewing import Panel
    from .made import Made


def path_of(sheet: Sheet, name: str) -> list[str | int]:
    """Where in the sheet the making of this name is told."""
    if name in sheet.block:
        return ["block", name, "rows"]
    for kind in ("unit", "strip_set"):
        if name in getattr(sheet, kind):
            return [kind, name]
    for number, step in enumerate(sheet.step):
        if name in step.gives:
            return ["step", number]
    for number, cut in enumerate(sheet.cut):
        if cut.part == name:
            return ["cut", number]
    if name == QUILT and sheet.border:
        return ["border", 0]
    return ["setting", {SIDE: "sides", CORNER: "corners"}.get(name, "style")]


def joined(sheet: Sheet) -> tuple[str, ...]:
    """The names of the panels in which edges are joined that must be equally long, parts before wholes; a unit or block
    that is trimmed afterwards need not fit."""
    names = [name for kind in (sheet.unit, sheet.block) for name, made in kind.items() if made.trim_to is None]
    if sheet.setting.style == "straight":
        names.append(SETTING)
    names += [step.gives[0] for step in sheet.step if step.sew]
    return tuple(sorted(names, key=lambda name: SETTING in all_in(sheet, name)))


def trimmed_later(sheet: Sheet) -> set[str]:
    """The names of all that goes into what a step trims: uneven edges may be cut off there."""
    return set().union(*(all_in(sheet, step.trim) for step in sheet.step if step.trim is not None))


def panels(made: Made, name: str) -> dict[str, Panel | None]:
    """The panel of this name and any other that comes with it, as a dict."""
    panel = _pieced(made, name) or _joined(made, name)
    if panel is not None:
        return {name: panel}
    step = step_giving(made.sheet, name)
    if step is None:
        raise Missing(name)  # the cutting list forgets it
    return given_by(made, step)


def _pieced(made, name):
    """The panel of a part, a block, a unit or a strip set; None for any other name."""
    sheet, cut = made.sheet, made.sheet.part(name)
    if cut is not None:
        return cut_piece(made, cut)
    if name in sheet.block:
        return _block(made, name, sheet.block[name])
    if name in sheet.unit:
        return _unit(made, sheet.unit[name])
    if name in sheet.strip_set:
        return _sub_cut(made, sheet.strip_set[name])
    return None


def _joined(made, name):
    """The panel of the setting, the quilt or an edge triangle; None for any other name."""
    if name == SETTING:
        return sewn_setting(made)
    if name == QUILT:
        return made.bordered[0]
    piece = edge_piece(made.sheet, name)
    return None if piece is None else with_frame(made, edge_triangle(made, piece, name, where_of(name)), piece.frame)


def _block(made, name, block):
    """The panel of a block: ready made, or sewn in its rows and trimmed if the sheet says so."""
    return _ready_made(made, name, block) if block.ready_made else _trimmed(rows_sewn(made, block.rows), block.trim_to)


def _ready_made(made, name, block):
    """A block as it comes: one patch, whatever it was sewn from; `made.seam` wide allowances round what it finishes."""
    allowance = 2 * made.sheet.sewing_seam
    finished = block.finished if block.size is None else [side - allowance for side in block.size]
    return patch(size=[float(side) + 2 * made.seam for side in finished], fabric=READY_MADE, part=name)


def _sub_cut(made, strip_set):
    """A piece sub-cut from a strip set."""
    strips = [made.need(strip) for strip in strip_set.strips]
    return units.sub_cut_piece(strips, float(strip_set.sub_cut), made.seam)


def _unit(made, unit):
    """The panel of a unit, trimmed if the sheet says so."""
    parts = [_part_of_unit(made, part, slant) for part, slant in slanting_parts(unit)]
    at_a_time = bill.at_a_time(made.sheet, unit) if bill.sewn_first(made.sheet, unit) else 0
    panel = units.sewn_unit(unit, parts, at_a_time, made.seam, made.sheet.units)
    if unit.kind == "flying geese" and unit.trim_to is not None and len(panel.meets):
        return _trimmed_below_point(panel, unit.trim_to, made.seam)
    return _trimmed(panel, unit.trim_to)


def _part_of_unit(made, name, slant):
    """The panel of a part as a unit takes it: long triangles are sewn slanting the way they must, for which way they
    are cut is counted, not sewn."""
    cut = made.sheet.part(name)
    if slant is None or cut is None or not cut.halved_rectangle:
        return made.need(name)
    return cut_piece(made, cut, slant)


def _trimmed(panel, size):
    """The panel trimmed evenly on opposite sides to a size, where one is given and there is cloth to trim."""
    if size is None:
        return panel
    width, height = panel.size
    across, up = (max(0.0, (have - float(want)) / 2) for have, want in zip(panel.size, size))
    return panel.trim(left=across, right=width - across, bottom=up, top=height - up).laid_down()


def _trimmed_below_point(goose, size, seam):
    """A goose trimmed to a size with its point one seam below the upper edge, midway, as far as there is cloth."""
    width, height = map(float, size)
    x, y = goose.meets[goose.meets[:, 1].argmax()]
    right, top = goose.size
    return goose.trim(
        left=max(0.0, x - width / 2),
        right=min(right, x + width / 2),
        bottom=max(0.0, y + seam - height),
        top=min(top, y + seam),
    ).laid_down()
