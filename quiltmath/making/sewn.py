"""Each panel of a sheet, sewn from what it is made of: parts, units, blocks, edge triangles, the setting, explicit
steps."""

from __future__ import annotations

from collections import Counter
from itertools import pairwise
from math import sqrt
from typing import TYPE_CHECKING, NamedTuple, cast

import numpy as np

from .. import proofs
from ..pattern.fields import PLACES
from ..pattern.names import (
    CORNER,
    EDGES,
    QUILT,
    READY_MADE,
    SETTING,
    SIDE,
    all_in,
    edge_piece,
    step_giving,
    where_of,
)
from ..sewing import CannotSew, in_a_row, patch
from ..sewing.seaming import sewn
from ..shapes import NEAR
from . import layout, measures, on_point, straight, units
from .bill import at_a_time as at_once
from .bill import sewn_first
from .by_proof import measure
from .pieces import cut_piece
from .slants import slanting_parts
from .straight import EASED

if TYPE_CHECKING:
    from collections.abc import Sequence

    from ..pattern.parts import EdgePiece
    from ..pattern.sheet import Sheet, StepTable
    from ..root2 import Root2
    from ..sewing import Panel
    from .made import Made


SAME_SLANT = 3  # degrees: sides that slant alike but for this are joined; rounding turns a side by less
SLANTING = 0.3  # of an edge's normal, across: an edge that leads up by at least about 18 degrees is a side


class Missing(Exception):
    """A panel needed for another could not be sewn; the trouble is noted with the first one."""


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
    sheet = made.sheet
    cut = sheet.part(name)
    if cut is not None:
        return {name: cut_piece(made, cut)}
    if name in sheet.block and sheet.block[name].ready_made:
        return {name: _ready_made(made, name, sheet.block[name])}
    if name in sheet.block:
        return {name: _trimmed_to(_rows(made, sheet.block[name].rows), sheet.block[name].trim_to)}
    if name in sheet.unit:
        return {name: _unit(made, name)}
    if name in sheet.strip_set:
        strips = [made.need(strip) for strip in sheet.strip_set[name].strips]
        return {name: units.sub_cut_piece(strips, float(sheet.strip_set[name].sub_cut), made.seam)}
    if name == SETTING:
        return {name: _setting(made)}
    if name == QUILT:
        return {name: made.bordered[0]}
    piece = edge_piece(sheet, name)
    if piece is not None:
        return {name: with_frame(made, edge_triangle(made, piece, name, where_of(name)), piece.frame)}
    step = step_giving(sheet, name)
    if step is None:
        raise Missing(name)  # the cutting list forgets it
    return _step(made, step)


def _ready_made(made, name, block):
    """A block as it comes: one patch, whatever it was sewn from; `made.seam` wide allowances round what it finishes."""
    allowance = 2 * made.sheet.sewing_seam
    finished = block.finished if block.size is None else [side - allowance for side in block.size]
    return patch(size=[float(side) + 2 * made.seam for side in finished], fabric=READY_MADE, part=name)


def _unit(made, name):
    """The panel of a unit, trimmed if the sheet says so."""
    unit = made.sheet.unit[name]
    parts = [_part_of_unit(made, part, slant) for part, slant in slanting_parts(unit)]
    at_a_time = at_once(made.sheet, unit) if sewn_first(made.sheet, unit) else 0
    panel = units.sewn_unit(unit, parts, at_a_time, made.seam, made.sheet.units)
    if unit.kind == "flying geese" and unit.trim_to is not None and len(panel.meets):
        return _trimmed_below(panel, unit.trim_to, made.seam)
    return _trimmed_to(panel, unit.trim_to)


def _part_of_unit(made, name, slant):
    """The panel of a part as a unit takes it: long triangles are sewn slanting the way they must, for which way they
    are cut is counted, not sewn."""
    cut = made.sheet.part(name)
    return made.need(name) if slant is None or cut is None or not cut.halved_rectangle else cut_piece(made, cut, slant)


def framed(made: Made, kind: str, short: float = 0.0) -> Panel:
    """A side or corner triangle with its frame, the strips cut `short` by so many inches of what reaches past the
    trim."""
    triangle, piece = made.unframed(kind), edge_piece(made.sheet, kind)
    if triangle is None or piece is None:
        raise Missing(kind)
    return with_frame(made, triangle, piece.frame, short)


def with_frame(made: Made, triangle: Panel, frame: Sequence[str] | None, short: float = 0.0) -> Panel:
    """An edge triangle with its frame, trimmed at 45 degrees: strips on both short edges, the left one first, or one on
    the long edge of a corner triangle.

    The strips are sewn as long as they must be to reach past the trim; whether the printed ones do is for the review to
    say.
    """
    if frame is None:
        return triangle
    needed = {place: length - short for place, length in frame_lengths(made, triangle, frame).items()}
    if len(frame) == 1:
        return _framed_long(made, triangle, straight.as_long(made.need(frame[0]), needed[frame[0], "upper right"]))
    left, level = (
        straight.as_long(made.need(name), needed[name, place], upright=place == "left")
        for name, place in zip(frame, ("left", "bottom"))
    )
    outside = triangle.edge("upper right", made.seam)
    panel = sewn(triangle, left, "left", "right", made.seam, "start")  # the triangle stays where it lies
    panel = sewn(panel, level, "bottom", "top", made.seam, "start")
    normal = np.array(outside.normal)
    if not _reaches(panel, normal, outside.limit):
        return panel.laid_down()
    corner, along = normal * outside.limit, np.array((-normal[1], normal[0]))
    return panel.cut(corner, corner + along, made.seam)[0].laid_down()


def _reaches(panel, normal, limit):
    """Whether some cloth of a panel lies past a line."""
    return bool((panel.corners.reshape(-1, 2) @ normal).max() > limit + NEAR)


def _framed_long(made, triangle, strip):
    """A corner triangle with a strip on its long edge, trimmed in line with both short edges."""
    panel = sewn(triangle, strip, "upper right", "bottom", made.seam, "centre")  # the triangle stays where it lies
    return panel.trim(left=0, bottom=0, seam=made.seam).laid_down()


def frame_lengths(made: Made, triangle: Panel, frame: Sequence[str]) -> dict[tuple[str, str], float]:
    """How long (inches, raw) each frame strip must be to reach past the 45-degree trim: {(part, edge of the triangle):
    length}."""
    widths = [min(made.need(name).size) - 2 * made.seam for name in frame]
    if len(frame) == 1:
        long = triangle.edge("upper right", made.seam).finished_length
        reach = measure(proofs.frame_both_ends, "strip", leg=long, width=widths[0], seam=made.seam)
        return {(frame[0], "upper right"): reach}
    leg = triangle.edge("left", made.seam).finished_length
    return {
        (frame[0], "left"): measure(proofs.frame_end, leg=leg, width=widths[0], seam=made.seam),
        (frame[1], "bottom"): measure(proofs.frame_end, leg=leg + widths[0], width=widths[1], seam=made.seam),
    }


def _rows(made, rows, align="start"):
    """Rows sewn left to right, then joined from the bottom up."""
    sewn = {}
    strips = [_row(made, row, sewn) for row in rows]
    return in_a_row(strips[::-1], "top", "bottom", made.seam, align, sewn)


def _row(made, row, sewn):
    """The pieces of a row sewn from left to right; those cut at an angle by their slanting sides."""
    panels = [_turned(made, item, sewn) for item in row]
    cuts = [made.sheet.part(item.name) for item in row]
    if all(cut is None or cut.shape is None for cut in cuts):
        return in_a_row(panels, seam=made.seam, sewn=sewn)
    key = tuple(map(id, panels))
    if key not in sewn:
        joined = panels[0]
        for (item, last), (beside, panel) in pairwise(zip(row, panels)):
            mine, theirs = _side_faces(last, 1), _side_faces(panel, -1)
            if abs((mine - theirs) % 360 - 180) > SAME_SLANT:
                raise CannotSew(
                    f"in a row {beside.name!r} slants another way than {item.name!r} before it: turn one of them, with "
                    ":180 behind its name, or name the piece that slants as the other does"
                )
            joined = joined.sew(panel, mine, theirs, made.seam)
        sewn[key] = joined
    return sewn[key]


def _side_faces(panel, way):
    """The angle, in degrees, that the right side (1) or the left side (-1) of a piece faces: of its edges that lead up
    the one that is furthest out in its middle."""
    lines = panel.raw_lines
    upright = np.flatnonzero(way * lines.normals[:, 0] > SLANTING)
    if not len(upright):
        raise CannotSew("a piece of a row needs a side that leads up: turn it so that one lies left and one right")
    middle = panel.size[1] / 2
    across = (lines.limits[upright] - lines.normals[upright, 1] * middle) / lines.normals[upright, 0]
    angle = round(float(lines.angles[upright[(way * across).argmin()]]), 9) % 360
    return int(angle) if angle == int(angle) else angle


def _turned(made, item, turned):
    """The panel of an item as it lies in its row; the same item is the same object each time."""
    if item.turn % 360 == 0:
        return made.need(item.name)
    key = item.name, item.turn
    if key not in turned:
        turned[key] = made.need(item.name).turn(item.turn)
    return turned[key]


def _trimmed_to(panel, size):
    """The panel trimmed evenly on opposite sides to a size, where one is given and there is cloth to trim."""
    if size is None:
        return panel
    over = [max(0.0, (have - float(want)) / 2) for have, want in zip(panel.size, size)]
    return panel.trim(
        left=over[0], right=panel.size[0] - over[0], bottom=over[1], top=panel.size[1] - over[1]
    ).laid_down()


def _trimmed_below(goose, size, seam):
    """A goose trimmed to a size with its point one seam below the upper edge, midway, as far as there is cloth."""
    width, height = map(float, size)
    x, y = goose.meets[goose.meets[:, 1].argmax()]
    wide, high = goose.size
    return goose.trim(
        left=max(0.0, x - width / 2),
        right=min(wide, x + width / 2),
        bottom=max(0.0, y + seam - height),
        top=min(high, y + seam),
    ).laid_down()


def _setting(made):
    """The setting sewn from its blocks, sashes and edge triangles; an on-point one is squared up."""
    setting, seam = made.sheet.setting, made.seam
    if setting.loose:
        return _loose(made)
    lies = layout.of(setting)
    parts = {"block": made.need(made.block)}
    if setting.alternate:
        parts["alternate block"] = made.need(setting.alternate)
    for block in {block for row in (*lies.drawn, *lies.between) for block in row}:
        parts[block] = made.need(block.name).turn(block.turn) if block.turn else made.need(block.name)
    if setting.sashing is not None:
        parts |= _sashes(made, setting.sashing)
    if setting.style == "straight":
        return straight.sewn_top(lies, parts, seam)
    edges = {kind: [made.edge_triangle(kind, where) for where in EDGES] for kind in _edges_of(lies)}
    tip = made.need(setting.sides.tip) if setting.sides is not None and setting.sides.tip else None
    pieces = on_point.Pieces(parts, edges.get(SIDE), edges[CORNER], tip, float(setting.floating))
    size = made.lies.size if made.adds_up else None
    return squared_up(on_point.sewn_top(lies, pieces, seam), seam, float(setting.floating), size)


def _loose(made):
    """Rows (or columns) that are each what they are, joined; one that is a strip across the width of fabric is joined
    and cut as long as the others are."""
    setting = made.sheet.setting
    upright, sewn = setting.columns is not None, {}
    right, up = ("right", "left"), ("top", "bottom")
    along, over = (up, right) if upright else (right, up)
    rows = [
        None
        if measures.is_long_strip(made.sheet, row)
        else in_a_row(
            [_turned(made, item, sewn) for item in (row[::-1] if upright else row)], *along, made.seam, sewn=sewn
        )
        for row in setting.lines
    ]
    long = Counter(round(row.size[upright], 6) for row in rows if row is not None)
    if not long:
        raise CannotSew("no row says how long it is: each is one strip across the width of fabric; write their size")
    rows = [
        straight.as_long(made.need(items[0].name), long.most_common(1)[0][0], upright) if row is None else row
        for items, row in zip(setting.lines, rows)
    ]
    return in_a_row(rows if upright else rows[::-1], *over, made.seam, sewn=sewn)


def _edges_of(lies):
    return (SIDE, CORNER) if lies.side_triangles else (CORNER,)


def _sashes(made, sashing):
    """The sashes, upright and level, the cornerstones, and the long strips of a setting, shortest first."""
    sash = made.need(sashing.part)
    sash = sash if sash.size[0] <= sash.size[1] else sash.turn(90)
    found = {"sash": sash, "level sash": sash.turn(90)}
    if sashing.cornerstone:
        found["cornerstone"] = made.need(sashing.cornerstone)
    if sashing.edge_cornerstone:
        found["cornerstone triangle"] = made.need(sashing.edge_cornerstone)
    if sashing.strip:
        found["sashing strip"] = [made.need(name) for name in sashing.strip]
    return found


def squared_up(top: Panel, seam: float, floating: float = 0.0, size: tuple[Root2, Root2] | None = None) -> Panel:
    """The top trimmed straight, one seam (and what the blocks float by) outside the outermost meetings of seams,
    wherever there is cloth to trim.

    Cut blocks, halved cornerstones that are pieced and large framed triangles have seams that meet outside the quilt:
    of two meetings as far apart as the `size` that the layout has, those tell outside which as much is trimmed on
    either side, and of several the outermost.
    """
    if len(top.meets) == 0:
        return top
    bounds = []
    for axis in (0, 1):
        meets = np.sort(top.meets[:, axis])
        places = meets[np.unique(meets.round(6), return_index=True)[1]]
        low, high = places[0], places[-1]
        if size is not None:
            apart = float(size[axis]) - 2 * floating
            begun = np.searchsorted(places, places + apart - EASED)
            ends = places[begun < np.searchsorted(places, places + apart + EASED, side="right")]
            if len(ends) and high - low > apart + EASED:
                unequal = np.abs(2 * ends + apart - top.size[axis]).round(2)  # what would be trimmed left and right
                low = ends[unequal.argmin()]
                high = low + apart
        bounds.append((low - seam - floating, high + seam + floating))
    (left, right), (bottom, above) = bounds
    return top.trim(left=left, right=right, bottom=bottom, top=above, seam=seam).laid_down()


def edge_triangle(made: Made, piece: EdgePiece, name: str, where: str) -> Panel:
    """An edge triangle with its right angle at the lower left, by the way the sheet says it comes about."""
    side = name.endswith(SIDE)
    if piece.how == "plain":
        return made.need(cast("str", piece.part))
    if piece.how == "built":
        return _rows(made, piece.rows_at(where)) if side else _rows(made, piece.rows_at(where), "centre").turn(135)
    around = 90 * EDGES.index(where)
    block = made.need(piece.block or made.block).turn(-around if side else -90 - around)
    width, height = block.size
    past = float(piece.past) * sqrt(2)
    _, half = block.cut((past, height), (width, past), made.seam)
    if side:
        return half.laid_down()
    quarter, _ = half.cut((past, 0), (width, height - past), made.seam)
    return quarter.turn(225)


def _step(made, step):
    """What an explicit step gives, as a dict of panels."""
    if step.cut is not None:
        panel = made.need(step.cut).laid_down()
        left, right = panel.cut(_point(step.from_, panel), _point(step.to, panel), made.seam)
        return {step.gives[0]: left.laid_down(), step.gives[1]: right.laid_down()}
    if step.turn is not None:
        return {step.gives[0]: made.need(step.turn).turn(step.by)}
    if step.trim is not None:
        panel = made.need(step.trim)
        width, height = panel.size
        bounds = {
            "left": float(step.left),
            "right": width - float(step.right),
            "bottom": float(step.bottom),
            "top": height - float(step.top),
        }
        cuts = {side: bound for side, bound in bounds.items() if getattr(step, side)}
        return {step.gives[0]: panel.laid_down().trim(**cuts, seam=made.seam).laid_down()}
    mine, theirs = (made.need(name) for name in step.sew)
    border = border_in_step(made, step)
    if border is not None and border.have > border.wanted + EASED:  # nobody sews the rest in
        side = "top" if step.edges[1] in ("left", "right") else "right"
        theirs = theirs.laid_down().trim(**{side: border.wanted}).laid_down()
    return {step.gives[0]: mine.sew(theirs, *step.edges, made.seam, step.align)}


class StepBorder(NamedTuple):
    """A border strip that a step sews to the top: its part, how long it is, and the edge it is sewn to, inches raw."""

    part: str
    have: float
    wanted: float


def border_in_step(made: Made, step: StepTable) -> StepBorder | None:
    """The border strip that an explicit step sews, by its long edge, to what holds the setting; None for any other
    step, or where it could not be sewn."""
    if step.sew is None or step.edges is None or SETTING not in all_in(made.sheet, step.sew[0]):
        return None
    mine, theirs = (made.panel(name) for name in step.sew)
    if mine is None or theirs is None or len(theirs.cuts) > 1 or step.edges[1] not in straight.OPPOSITE:
        return None
    have = theirs.size[step.edges[1] in ("left", "right")]
    wanted = mine.edge(step.edges[0], made.seam).finished_length + 2 * made.seam
    return StepBorder(theirs.cuts[0].part, have, wanted) if have == max(theirs.size) else None


def _point(place, panel):
    """A point of a panel in inches from its lower left corner."""
    if isinstance(place, str):
        return tuple(float(share) * side for share, side in zip(PLACES[place], panel.size))
    return tuple(float(part) for part in place)
