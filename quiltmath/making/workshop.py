"""Every panel of a sheet, sewn when it is asked for, and what could not be sewn."""

from dataclasses import dataclass, field
from math import sqrt
from typing import NamedTuple

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
    patches,
    pieces_needed,
    step_giving,
    where_of,
)
from ..pattern.names import at_a_time as at_once
from ..sewing import CannotSew, in_a_row
from . import on_point, straight, units
from .by_proof import measure
from .pieces import cut_piece

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
    """A sheet with its cloth. Panels are sewn on first use and kept; None stands for what could not be sewn."""

    sheet: object
    troubles: list = field(default_factory=list)
    border_strips: list = field(default_factory=list)
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

    def pieces_needed(self):
        """How many pieces of each part the whole quilt takes."""
        return pieces_needed(self.sheet)

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
        """The side or corner triangle at the "top", "left", "bottom" or "right", lying with its right angle at the lower left.

        Where whole blocks are cut for the edge, each is cut as it would lie in the quilt, so that its patches run on.
        """
        piece = edge_piece(self.sheet, kind)
        if piece.how == "cut blocks" and where != "top":
            key = f"{where} {kind}"
            if key not in self._panels:
                self._panels[key] = _framed(self, _edge_triangle(self, piece, kind, where), piece.frame)
            return self._panels[key]
        return self.need(edge_name(self.sheet, kind, where))

    def need(self, name):
        """The panel of this name, or the signal that what is being sewn lacks it."""
        panel = self.panel(name)
        if panel is None:
            raise _Missing(name)
        return panel


class _Missing(Exception):
    """A panel needed for another could not be sewn; the trouble is noted with the first one."""


def make(sheet):
    """The sheet and its cloth, sewn from the printed cut sizes; refused where it needs too many patches.

    >>> from quiltmath import pattern
    >>> from quiltmath.pattern.sheet import EXAMPLE
    >>> make(pattern.read_text(EXAMPLE)).finished
    (12.0, 12.0)
    """
    wanted = max(sum(pieces_needed(sheet).values()), patches(sheet))
    refuse_too_many(sheet, wanted, "this quilt")
    _rows_match(sheet)
    return Made(sheet)


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
        return {name: _with_borders(made)}
    piece = edge_piece(sheet, name)
    if piece is not None:
        return {name: _framed(made, _edge_triangle(made, piece, name, where_of(name)), piece.frame)}
    return _step(made, step_giving(sheet, name))


def _unit(made, name):
    """The panel of a unit, trimmed if the sheet says so."""
    unit = made.sheet.unit[name]
    one, other = (made.need(part) for part in unit.parts)
    whole = made.sheet.part(unit.parts[0]) is not None and made.sheet.part(unit.parts[0]).cut == "whole"
    at_a_time = at_once(made.sheet, unit) if whole else 0
    return _trimmed_to(units.sewn_unit(unit, one, other, at_a_time, made.seam, made.sheet.units), unit.trim_to)


def _with_borders(made):
    """The top with its borders; how long each strip must be is kept in `border_strips`."""
    names = {name for border in made.sheet.border for name in (border.sides, border.top, border.corner) if name}
    panels = {name: made.need(name) for name in names}
    top, made.border_strips = straight.bordered(made.need(centre(made.sheet)), made.sheet.border, panels, made.seam)
    return top


def _framed(made, triangle, frame):
    """An edge triangle with frame strips on its two short edges, the left one first, trimmed in line with its long edge.

    The strips are sewn as long as they must be to reach past that trim; whether the printed ones do is for the review to say.
    """
    if frame is None:
        return triangle
    needed = frame_lengths(made, triangle, frame)
    left, level = (
        straight.as_long(made.need(name), needed[name, place], upright=place == "left")
        for name, place in zip(frame, ("left", "bottom"))
    )
    outside = triangle.edge("upper right", made.seam)
    limit = (
        outside.limit
        + (left.size[0] - 2 * made.seam) * outside.normal[0]
        + (level.size[1] - 2 * made.seam) * outside.normal[1]
    )
    panel = triangle.sew(left, "left", "right", made.seam, "start").sew(level, "bottom", "top", made.seam, "start")
    corner = np.array(outside.normal) * limit
    along = np.array((-outside.normal[1], outside.normal[0]))
    return panel.cut(corner, corner + along)[0].laid_down()


def unframed(made, name):
    """The side or corner triangle of a sheet before its frame is sewn on, or None where it cannot be sewn."""
    try:
        return _edge_triangle(made, edge_piece(made.sheet, name), name, where_of(name))
    except (CannotSew, _Missing):
        return None


def frame_lengths(made, triangle, frame):
    """How long (inches, raw) each frame strip must be to reach past the 45-degree trim: {(part, "left" or "bottom"): length}."""
    leg = triangle.edge("left", made.seam).finished_length
    first, second = (min(made.need(name).size) - 2 * made.seam for name in frame)
    return {
        (frame[0], "left"): measure(proofs.frame_end, leg=leg, width=first, seam=made.seam),
        (frame[1], "bottom"): measure(proofs.frame_end, leg=leg + first, width=second, seam=made.seam),
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
    setting = made.sheet.setting
    block = made.need(setting.block)
    alternate = made.need(setting.alternate) if setting.alternate else block
    sash, stone, strip = _sashes(made)
    if setting.style == "straight":
        return straight.sewn_top(setting, block, alternate, sash, stone, strip, made.seam)
    sides = [made.edge_triangle(SIDE, where) for where in EDGES] if setting.across + setting.down > 2 else None
    corners = [made.edge_triangle(CORNER, where) for where in EDGES]
    whole = setting.sashing is not None and setting.sashing.edge == "whole"
    pieces = on_point.Pieces(block, alternate, sides, corners, sash, stone, strip, whole)
    return squared_up(
        on_point.sewn_top(setting.across, setting.down, pieces, made.seam), made.seam, float(setting.floating)
    )


def _sashes(made):
    """The sash, upright, the cornerstone and the long strip of a setting; None for each it does not have."""
    sashing = made.sheet.setting.sashing
    if sashing is None:
        return None, None, None
    sash, stone, strip = (
        made.need(name) if name else None for name in (sashing.part, sashing.cornerstone, sashing.strip)
    )
    return (sash if sash.size[0] <= sash.size[1] else sash.turn(90)), stone, strip


def squared_up(top, seam, floating=0.0):
    """The top trimmed straight, one seam (and what the blocks float by) outside the outermost meetings of seams, wherever there
    is cloth to trim."""
    if len(top.meets) == 0:
        return top
    low, high = top.meets.min(axis=0) - seam - floating, top.meets.max(axis=0) + seam + floating
    return top.trim(left=low[0], right=high[0], bottom=low[1], top=high[1], seam=seam).laid_down()


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
