"""Every panel of a sheet, sewn when it is asked for, and what could not be sewn."""

from dataclasses import dataclass, field
from functools import cached_property
from math import sqrt
from typing import Any, NamedTuple

import numpy as np

from .. import proofs
from ..pattern import Unreadable
from ..pattern.fields import PLACES
from ..pattern.names import (
    CORNER,
    EDGES,
    QUILT,
    SETTING,
    SIDE,
    centre,
    edge_name,
    edge_piece,
    final,
    step_giving,
    where_of,
)
from ..root2 import root2
from ..sewing import CannotSew, in_a_row
from ..sewing.seaming import sewn
from ..shapes import NEAR
from . import layout, measures, on_point, straight, units
from .bill import at_a_time as at_once
from .bill import bill_of_materials, patches, pieces_needed
from .by_proof import measure
from .pieces import built_ends, cut_piece
from .straight import EASED

MOST_PATCHES = 200_000


class TooLarge(Unreadable):
    """A sheet that would need more patches than are sewn here."""


class ConstructionError(NamedTuple):
    """What could not be sewn: the name of the panel, its path in the sheet, and why."""

    name: str
    path: list
    message: str


@dataclass
class Made:
    """A sheet with its cloth. Panels are sewn on first use and kept; None stands for what could not be sewn.

    `as_printed`: triangles are sewn as large as they are printed, their rounding not undone (see `rounding`).
    """

    sheet: Any
    as_printed: bool = False
    troubles: list = field(default_factory=list)
    _panels: dict = field(default_factory=dict)

    @property
    def seam(self):
        """The seam in inches, as a float."""
        return float(self.sheet.sewing_seam)

    @property
    def top(self):
        """The quilt top before it is quilted and bound: a `Panel` with its raw edges, or None."""
        return self.panel(final(self.sheet))

    @property
    def centre(self):
        """The top without its borders, or None."""
        return self.panel(centre(self.sheet))

    @property
    def bound(self):
        """The finished top, its outer seam gone, or None where it has no outline that can be bound."""
        if "bound" not in self._panels:
            try:
                self._panels["bound"] = self.top.bind(self.seam) if self.top is not None else None
            except CannotSew:
                self._panels["bound"] = None
        return self._panels["bound"]

    @property
    def finished(self):
        """(width, height) of the finished top in inches, or None."""
        if self.bound is not None:
            return self.bound.size
        return None if self.top is None else tuple(side - 2 * self.seam for side in self.top.size)

    @cached_property
    def bill(self):
        """How many of each named thing the whole quilt takes: see `bill.bill_of_materials`."""
        return bill_of_materials(self.sheet)

    @cached_property
    def needs(self):
        """What each part needs, {part: Need}: see `needs.needs`."""
        from .needs import needs

        return needs(self)

    # -- finished measures: exact where the sheet's figures add up, else as the cloth measures ------------------------

    @cached_property
    def adds_up(self):
        """Whether the printed sizes of the blocks and sashes add up to squares of one size."""
        return measures.lies(self.sheet) is not None

    @cached_property
    def cell(self):
        """The finished side of the main block in inches: as it adds up, as printed, or else as it sews; None if it cannot."""
        sheet, name = self.sheet, self.sheet.setting.block
        size = measures.finished(sheet, name)
        block = sheet.block.get(name) or sheet.unit.get(name) or sheet.part(name)
        if size is None:
            size = getattr(block, "finished", None)
        if size is not None:
            return size[0]
        panel = self.panel(name)
        return None if panel is None else panel.size[0] - 2 * self.seam

    def width_of(self, name):
        """The finished width of a strip in inches; 0 where it cannot be sewn."""
        width = measures.width_of(self.sheet, name)
        if width is None:
            panel = self.panel(name)
            return 0.0 if panel is None else min(panel.size) - 2 * self.seam
        return width

    @cached_property
    def lies(self):
        """The `Layout` of the setting; None where its block cannot be sewn."""
        found, sashing = measures.lies(self.sheet), self.sheet.setting.sashing
        if found is not None or self.cell is None:
            return found
        return layout.of(self.sheet.setting, self.cell, self.width_of(sashing.part) if sashing is not None else 0)

    @property
    def tip_length(self):
        """The finished long side of the tip of a side triangle that reaches past whole cornerstones."""
        return root2(self.width_of(self.sheet.setting.sashing.part)).by_root() + 2 * self.sheet.setting.floating

    @cached_property
    def built_ends(self):
        """{part: finished leg or long side} of the triangles in built edge triangles: see `pieces.built_ends`."""
        return built_ends(self.sheet)

    # -- panels ------------------------------------------------------------------------------------------------------

    def panel(self, name):
        """The panel of this name: a part, a block, what a step gives, the setting, an edge triangle; None on trouble."""
        if name not in self._panels:
            try:
                self._panels.update(_sewn(self, name))
            except CannotSew as problem:
                self.troubles.append(ConstructionError(name, _path(self.sheet, name), str(problem)))
                self._panels[name] = None
            except _Missing:
                self._panels[name] = None
        return self._panels[name]

    def edge_triangle(self, kind, where):
        """The side or corner triangle at the "top", "left", "bottom" or "right", its right angle at the lower left.

        Where whole blocks are cut for the edge, each is cut as it would lie in the quilt, so that its patches run on.
        """
        piece = edge_piece(self.sheet, kind)
        if piece.how == "cut blocks" and where != "top":
            key = f"{where} {kind}"
            if key not in self._panels:
                self._panels[key] = _framed(self, _edge_triangle(self, piece, kind, where), piece.frame)
            return self._panels[key]
        return self.need(edge_name(self.sheet, kind, where))

    def unframed(self, kind, where="top"):
        """A side or corner triangle before its frame is sewn on, or None where it cannot be sewn."""
        try:
            return _edge_triangle(self, edge_piece(self.sheet, kind), kind, where)
        except (CannotSew, _Missing):
            return None

    def need(self, name):
        """The panel of this name, or the signal that what is being sewn lacks it."""
        panel = self.panel(name)
        if panel is None:
            raise _Missing(name)
        return panel

    @cached_property
    def bordered(self):
        """The top with its borders, and what each strip measures: (panel or None, list of `straight.BorderStrip`)."""
        names = {name for border in self.sheet.border for name in border.parts}
        try:
            panels = {name: self.need(name) for name in names}
            return straight.bordered(self.need(centre(self.sheet)), self.sheet.border, panels, self.seam)
        except CannotSew as problem:
            self.troubles.append(ConstructionError(QUILT, _path(self.sheet, QUILT), str(problem)))
        except _Missing:
            pass
        return None, []

    @property
    def border_strips(self):
        """What each pair of border strips measures at the made top; none where there is no border, or no top to measure."""
        return self.bordered[1] if self.sheet.border else []


class _Missing(Exception):
    """A panel needed for another could not be sewn; the trouble is noted with the first one."""


def make(sheet, as_printed=False):
    """The sheet and its cloth, sewn from the printed cut sizes; refused where it needs too many patches.

    Whole pieces are sewn as printed. A triangle's exact size is no ruler fraction, so a printed one is sewn as the finished
    size it stands for, its rounding undone; `as_printed` sews that in as well.

    >>> from quiltmath import pattern
    >>> from quiltmath.pattern.sheet import EXAMPLE
    >>> make(pattern.read_text(EXAMPLE)).finished
    (12.0, 12.0)
    """
    wanted = max(sum(pieces_needed(sheet).values()), patches(sheet))
    refuse_too_many(sheet, wanted, "this quilt")
    _rows_match(sheet)
    return Made(sheet, as_printed)


def refuse_too_many(sheet, count, what):
    """Refuse a sheet that takes more patches than are sewn here."""
    if count > MOST_PATCHES:
        raise TooLarge(
            f"{sheet.place(['setting'])}: {what} would need {count:,} patches; at most {MOST_PATCHES:,} are sewn here: "
            "check the counts, or review one quarter of it"
        )


def _rows_match(sheet):
    """Refuse a block in whose rows a part was plainly left out: another count of parts and a length far off."""
    for name, block in sheet.block.items():
        widths = [[_rough_width(sheet, item.name, item.turn) for item in row] for row in block.rows]
        if any(width is None for row in widths for width in row):
            continue
        totals = [sum(row) for row in widths]
        longest, shortest = max(totals), min(totals)
        smallest = min(width for row in widths for width in row)
        if len({len(row) for row in widths}) > 1 and longest - shortest > smallest * 3 / 4:
            long, short = totals.index(longest) + 1, totals.index(shortest) + 1
            raise Unreadable(
                f"{sheet.place(['block', name, 'rows'])}: block {name!r}: its rows do not match: row {long} is "
                f"{float(longest):.4g} in long when sewn and row {short} {float(shortest):.4g} in: look for a part left out "
                "or one too many"
            )


def _rough_width(sheet, name, turn):
    """The finished width of a whole rectangle as a row uses it; None for anything else."""
    cut = sheet.part(name)
    if cut is None or cut.cut != "whole" or turn % 90:
        return None
    return sheet.cut_size(cut)[1 if turn % 180 else 0] - 2 * sheet.sewing_seam


def _path(sheet, name):
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
    return ["setting", {SIDE: "sides", CORNER: "corners"}.get(name, "style")]


def _sewn(made, name):
    """The panel of this name and any other that comes with it, as a dict."""
    sheet = made.sheet
    cut = sheet.part(name)
    if cut is not None:
        return {name: cut_piece(made, cut)}
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
        return {name: _framed(made, _edge_triangle(made, piece, name, where_of(name)), piece.frame)}
    return _step(made, step_giving(sheet, name))


def _unit(made, name):
    """The panel of a unit, trimmed if the sheet says so."""
    unit = made.sheet.unit[name]
    parts = [made.need(part) for part in unit.parts]
    whole = made.sheet.part(unit.parts[0]) is not None and made.sheet.part(unit.parts[0]).cut == "whole"
    at_a_time = at_once(made.sheet, unit) if whole else 0
    return _trimmed_to(units.sewn_unit(unit, parts, at_a_time, made.seam, made.sheet.units), unit.trim_to)


def framed(made, kind, short=0.0):
    """A side or corner triangle with its frame, the strips cut `short` by so many inches of what reaches past the trim."""
    return _framed(made, made.unframed(kind), edge_piece(made.sheet, kind).frame, short)


def _framed(made, triangle, frame, short=0.0):
    """An edge triangle with its frame, trimmed at 45 degrees: strips on both short edges, the left one first, or one on the
    long edge of a corner triangle.

    The strips are sewn as long as they must be to reach past the trim; whether the printed ones do is for the review to say.
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
    return panel.cut(corner, corner + along)[0].laid_down()


def _reaches(panel, normal, limit):
    """Whether some cloth of a panel lies past a line."""
    return bool((panel.corners.reshape(-1, 2) @ normal).max() > limit + NEAR)


def _framed_long(made, triangle, strip):
    """A corner triangle with a strip on its long edge, trimmed in line with both short edges."""
    panel = sewn(triangle, strip, "upper right", "bottom", made.seam, "centre")  # the triangle stays where it lies
    return panel.trim(left=0, bottom=0, seam=made.seam).laid_down()


def frame_lengths(made, triangle, frame):
    """How long (inches, raw) each frame strip must be to reach past the 45-degree trim: {(part, edge of the triangle): length}."""
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
    strips = [in_a_row([_turned(made, item, sewn) for item in row], seam=made.seam, sewn=sewn) for row in rows]
    return in_a_row(strips[::-1], "top", "bottom", made.seam, align, sewn)


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


def _setting(made):
    """The setting sewn from its blocks, sashes and edge triangles; an on-point one is squared up."""
    setting, seam = made.sheet.setting, made.seam
    parts = {"block": made.need(setting.block)}
    if setting.alternate:
        parts["alternate block"] = made.need(setting.alternate)
    if setting.sashing is not None:
        parts |= _sashes(made, setting.sashing)
    lies = layout.of(setting)
    if setting.style == "straight":
        return straight.sewn_top(lies, parts, seam)
    edges = {kind: [made.edge_triangle(kind, where) for where in EDGES] for kind in _edges_of(lies)}
    tip = made.need(setting.sides.tip) if setting.sides is not None and setting.sides.tip else None
    pieces = on_point.Pieces(parts, edges.get(SIDE), edges[CORNER], tip, float(setting.floating))
    size = made.lies.size if made.adds_up else None
    return squared_up(on_point.sewn_top(lies, pieces, seam), seam, float(setting.floating), size)


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


def squared_up(top, seam, floating=0.0, size=None):
    """The top trimmed straight, one seam (and what the blocks float by) outside the outermost meetings of seams, wherever there
    is cloth to trim.

    Cut blocks have slivers of patches in their allowance, whose seams meet outside the quilt: of two meetings as far apart as
    the `size` that the layout has, the outermost tell.
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
            ends = places[np.abs(places[:, None] + apart - places).min(axis=1) <= EASED]
            if len(ends) and high - low > apart + EASED:
                low, high = ends[0], ends[0] + apart
        bounds.append((low - seam - floating, high + seam + floating))
    (left, right), (bottom, above) = bounds
    return top.trim(left=left, right=right, bottom=bottom, top=above, seam=seam).laid_down()


def _edge_triangle(made, piece, name, where):
    """An edge triangle with its right angle at the lower left, by the way the sheet says it comes about."""
    side = name.endswith(SIDE)
    if piece.how == "plain":
        return made.need(piece.part)
    if piece.how == "built":
        return _rows(made, piece.rows_at(where)) if side else _rows(made, piece.rows_at(where), "centre").turn(135)
    around = 90 * EDGES.index(where)
    block = made.need(piece.block or made.sheet.setting.block).turn(-around if side else -90 - around)
    width, height = block.size
    past = float(piece.past) * sqrt(2)
    _, half = block.cut((past, height), (width, past))
    if side:
        return half.laid_down()
    quarter, _ = half.cut((past, 0), (width, height - past))
    return quarter.turn(225)


def _step(made, step):
    """What an explicit step gives, as a dict of panels."""
    if step.cut is not None:
        panel = made.need(step.cut).laid_down()
        left, right = panel.cut(_point(step.from_, panel), _point(step.to, panel))
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
    return {step.gives[0]: mine.sew(theirs, *step.edges, made.seam, step.align)}


def _point(place, panel):
    """A point of a panel in inches from its lower left corner."""
    if isinstance(place, str):
        return tuple(float(share) * side for share, side in zip(PLACES[place], panel.size))
    return tuple(float(part) for part in place)
