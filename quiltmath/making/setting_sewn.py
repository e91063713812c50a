"""The setting of a sheet sewn from its blocks, sashes and edge triangles, and squared up."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

import numpy as np

from ..pattern.names import CORNER, EDGES, SIDE
from ..sewing import CannotSew, in_a_row
from . import layout, measures, on_point, straight
from .in_rows import lying
from .straight import EASED

if TYPE_CHECKING:
    from ..root2 import Root2
    from ..sewing import Panel
    from .made import Made


def sewn_setting(made: Made) -> Panel:
    """The setting sewn from its blocks, sashes and edge triangles; an on-point one is squared up."""
    setting, seam = made.sheet.setting, made.seam
    if setting.loose:
        return _in_rows_or_columns(made)
    lies = layout.of(setting)
    parts = _blocks(made, lies)
    if setting.sashing is not None:
        parts |= _sashes(made, setting.sashing)
    if setting.style == "straight":
        return straight.sewn_top(lies, parts, seam)
    sides = [made.edge_triangle(SIDE, where) for where in EDGES] if lies.side_triangles else None
    corners = [made.edge_triangle(CORNER, where) for where in EDGES]
    tip = made.need(setting.sides.tip) if setting.sides is not None and setting.sides.tip else None
    pieces = on_point.Pieces(parts, sides, corners, tip, float(setting.floating))
    size = made.lies.size if made.lies is not None and made.adds_up else None
    return squared_up(on_point.sewn_top(lies, pieces, seam), seam, float(setting.floating), size)


def _blocks(made, lies):
    """{what the rows of a layout call it: panel} of each block of a setting."""
    parts = {"block": made.need(made.block)}
    if made.sheet.setting.alternate:
        parts["alternate block"] = made.need(made.sheet.setting.alternate)
    for block in {block for row in (*lies.drawn, *lies.between) for block in row}:
        panel = made.need(block.name)
        parts[block] = panel.turn(block.turn) if block.turn else panel
    return parts


def _in_rows_or_columns(made):
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
            [lying(made, item, sewn) for item in (row[::-1] if upright else row)], *along, made.seam, sewn=sewn
        )
        for row in setting.lines
    ]
    long = Counter(round(row.size[upright], 6) for row in rows if row is not None)
    if not long:
        raise CannotSew("no row says how long it is: each is one strip across the width of fabric; write their size")
    usual, _ = long.most_common(1)[0]
    rows = [
        straight.as_long(made.need(items[0].name), usual, upright) if row is None else row
        for items, row in zip(setting.lines, rows)
    ]
    return in_a_row(rows if upright else rows[::-1], *over, made.seam, sewn=sewn)


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
        apart = None if size is None else float(size[axis]) - 2 * floating
        low, high = _outermost(_distinct(top.meets[:, axis]), apart, top.size[axis])
        bounds.append((low - seam - floating, high + seam + floating))
    (left, right), (bottom, above) = bounds
    return top.trim(left=left, right=right, bottom=bottom, top=above, seam=seam).laid_down()


def _distinct(meets):
    """The places (inches) of these meetings along one axis, sorted, each once but for noise."""
    meets = np.sort(meets)
    return meets[np.unique(meets.round(6), return_index=True)[1]]


def _outermost(places, apart, whole):
    """The outermost two of these places, or those so far `apart` outside which as much of the `whole` is trimmed on
    either side; all in inches."""
    low, high = places[0], places[-1]
    if apart is None or high - low <= apart + EASED:
        return low, high
    there = places + apart
    begun, ended = np.searchsorted(places, there - EASED), np.searchsorted(places, there + EASED, side="right")
    lows = places[begun < ended]  # those that have another so far from them
    if not len(lows):
        return low, high
    unequal = np.abs(2 * lows + apart - whole).round(2)  # what is trimmed at the low end less that at the high end
    low = lows[unequal.argmin()]
    return low, low + apart
