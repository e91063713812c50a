"""Finished measures by plain arithmetic on a sheet's own figures: exact, and quick, since nothing is sewn for them."""

from __future__ import annotations

from collections import Counter
from fractions import Fraction
from typing import TYPE_CHECKING, Any, TypeVar

from ..pattern.names import SETTING, blocks_named, centre
from ..pattern.parts import BlockTable
from ..root2 import Root2, root2
from ..usual import EASED
from . import layout
from .rounding import finished_size

if TYPE_CHECKING:
    from collections.abc import Sequence

    from ..pattern.border import Border
    from ..pattern.fields import Item
    from ..pattern.parts import UnitTable
    from ..pattern.sheet import Sheet
    from .layout import Layout

WAYS = {"half-square": "once", "quarter-square": "twice"}
"""How the triangles of a unit are cut of its squares."""
HALF_CENTIMETRE, NOTHING = Fraction(50, 254), 1e-9  # inches

Side = TypeVar("Side", Fraction, float)


Sizes = dict[str, tuple[Fraction, Fraction] | None]
"""What has been worked out already, by name."""


def finished(sheet: Sheet, name: str, known: Sizes | None = None) -> tuple[Fraction, Fraction] | None:
    """The exact finished (width, height) in inches that a panel's printed sizes add up to; None where they do not.

    Each panel is worked out once; pass one dict as `known` to several calls to share that between them.

    >>> from quiltmath import pattern
    >>> from quiltmath.pattern.sheet import EXAMPLE
    >>> finished(pattern.read_text(EXAMPLE), "four")
    (Fraction(6, 1), Fraction(6, 1))
    """
    known = {} if known is None else known
    if name not in known:
        known[name] = _finished(sheet, name, known)
    return known[name]


def _finished(sheet, name, known):
    seams = 2 * sheet.sewing_seam
    cut = sheet.part(name)
    if cut is not None:
        width, height = sheet.cut_size(cut)
        size = (width - seams, height - seams) if cut.cut == "whole" else None
        return size if cut.finished in (None, size) else None
    made = sheet.block.get(name) or sheet.unit.get(name)
    if made is None:
        return _of_strips(sheet, sheet.strip_set.get(name), seams)
    raw = made.size if isinstance(made, BlockTable) and made.ready_made else made.trim_to
    if raw is not None:
        size = raw[0] - seams, raw[1] - seams
        return size if made.trim_to is not None or made.finished in (None, size) else None
    if isinstance(made, BlockTable) and made.ready_made:
        return made.finished
    if isinstance(made, BlockTable):
        size = _of_rows(sheet, made.rows, known)
    else:
        size = made.finished or _of_its_pieces(sheet, made, known)
    return size if made.finished in (None, size) else None


def _of_its_pieces(sheet, unit, known):
    """The exact finished (width, height) of a unit that prints none, by its pieces: a snowball, a goose of a rectangle
    and two squares, triangles that are cut as they must be for a size on the ruler; None for others."""
    if unit.kind in WAYS and unit.at_a_time in (None, 2):
        sides = {_stands_for(sheet, name, WAYS[unit.kind]) for name in unit.parts}
        side = sides.pop()
        return None if sides or side is None else (side, side)
    size = finished(sheet, unit.parts[0], known) if unit.kind in ("snowball", "flying geese") else None
    if unit.kind == "flying geese" and (size is None or size[0] == size[1]):
        wide, high = (_stands_for(sheet, unit.parts[at], way) for at, way in ((0, "twice"), (-1, "once")))
        return (wide, high) if wide is not None and high is not None and wide == 2 * high else None
    if size is None or unit.kind == "snowball":
        return size
    high, wide = sorted(size)
    return (wide, high) if wide == 2 * high else None


def _stands_for(sheet, name, way):
    """The finished side (the long one for "twice") that the squares of a part stand for, whose triangles are cut that
    `way`; None for other pieces, and for a side that is on no ruler."""
    cut = sheet.part(name)
    if cut is None or cut.cut not in ("whole", way) or cut.size is None or cut.size[0] != cut.size[1]:
        return None
    side = finished_size(way, float(cut.size[0]), float(sheet.sewing_seam), sheet.units)
    step = Fraction(1, 8) if sheet.units == "in" else HALF_CENTIMETRE
    on_ruler = round(side / step) * step
    return on_ruler if on_ruler > 0 and abs(float(on_ruler) - side) < NOTHING else None


def unit_size(sheet: Sheet, unit: UnitTable) -> tuple[Fraction, Fraction] | None:
    """The exact finished (width, height) of a unit, as it is printed or by what it is trimmed to; None for neither."""
    if unit.finished is not None or unit.trim_to is None:
        return unit.finished
    width, height = unit.trim_to
    return width - 2 * sheet.sewing_seam, height - 2 * sheet.sewing_seam


def _of_strips(sheet, strip_set, seams):
    strips = [sheet.part(name) for name in strip_set.strips] if strip_set is not None else [None]
    if None in strips:
        return None
    return strip_set.sub_cut - seams, sum(sheet.cut_size(strip)[1] - seams for strip in strips)


def _of_rows(sheet, rows, known):
    width, height = None, Fraction(0)
    for row in rows:
        sizes = [lying(sheet, item, known) for item in row]
        if None in sizes or len({high for _, high in sizes}) > 1:
            return None
        across = sum(wide for wide, _ in sizes)
        if width not in (None, across):
            return None
        width, height = across, height + sizes[0][1]
    return width, height


def lying(sheet: Sheet, item: Item, known: Sizes | None = None) -> tuple[Fraction, Fraction] | None:
    """The exact finished (width, height) of one place in a row; None where it is not known, or lies askew."""
    size = finished(sheet, item.name, known) if item.turn % 90 == 0 else None
    return size if size is None or item.turn % 180 == 0 else size[::-1]


def width_of(sheet: Sheet, name: str | None) -> Fraction | None:
    """The exact finished width of a strip: the shorter side of what its part is cut as, less its seams; 0 for no
    name."""
    if name is None:
        return Fraction(0)
    cut = sheet.part(name)
    if cut is None:
        size = finished(sheet, name)
        return None if size is None else min(size)
    return (cut.strip if cut.strip is not None else min(sheet.cut_size(cut))) - 2 * sheet.sewing_seam


def lies(sheet: Sheet) -> Layout | None:
    """The exact `Layout` of a sheet's setting; None where its blocks do not add up to squares of one size, or its rows
    of their own to one rectangle."""
    setting = sheet.setting
    known: Sizes = {}
    if setting.loose:
        return _loose(sheet, known)
    block, *others = {finished(sheet, name, known) for name in blocks_named(setting)}
    sash = width_of(sheet, setting.sashing.part) if setting.sashing is not None else Fraction(0)
    if block is None or sash is None or block[0] != block[1] or others:
        return None
    return layout.of(setting, block[0], sash)


def _loose(sheet, known):
    """The layout of rows (or columns) of their own: each as thick as all that stands in it, and all equally long."""
    setting = sheet.setting
    upright, rows = setting.columns is not None, setting.lines
    sizes = [[lying(sheet, item, known) for item in row] for row in rows]
    strips = [row for row, items in enumerate(rows) if is_long_strip(sheet, items)]
    if any(None in row for number, row in enumerate(sizes) if number not in strips) or len(strips) == len(rows):
        return None
    lengths = {sum(size[upright] for size in row) for number, row in enumerate(sizes) if number not in strips}
    length = lengths.pop()
    for number in strips:
        wide = width_of(sheet, rows[number][0].name)
        sizes[number] = [(wide, length) if upright else (length, wide)]
    thick = [{size[not upright] for size in row} for row in sizes]
    if lengths or any(len(row) > 1 for row in thick):
        return None
    return layout.of(setting, max(min(row) for row in thick), sizes=tuple(map(tuple, sizes)))


def is_long_strip(sheet: Sheet, items: Sequence[Item]) -> bool:
    """Whether a row is one strip joined from widths of fabric, as long as the other rows are."""
    cut = sheet.part(items[0].name) if len(items) == 1 else None
    return cut is not None and cut.strip is not None


def long_strips(sheet: Sheet) -> list[str]:
    """The names of the strips across the width of fabric that are rows (or columns) of their own, each as often as it
    is one."""
    setting = sheet.setting
    return [row[0].name for row in setting.lines if is_long_strip(sheet, row)] if setting.loose else []


def main_block(sheet: Sheet) -> str:
    """The name of the block that the others are held to: of blocks that are each drawn, the one of the size that most
    have."""
    setting = sheet.setting
    if setting.block is not None:
        return setting.block
    known: Sizes = {}
    sizes = {name: finished(sheet, name, known) for name in setting.blocks}
    often: Counter[tuple[Fraction, Fraction]] = Counter()
    for name, size in sizes.items():
        often.update({size: setting.blocks[name]} if size is not None else {})
    usual = often.most_common(1)[0][0] if often else None
    return next(name for name, size in sizes.items() if size == usual)


def rounds(sheet: Sheet) -> list[tuple[Root2, Root2]] | None:
    """The exact finished (width, height) of the quilt inside each border, and outside the last, as Root2 lengths.

    None where the figures do not add up, or where steps make the quilt.
    """
    lying = lies(sheet) if centre(sheet) == SETTING else None
    if lying is None:
        return None
    found = [lying.size]
    for border in sheet.border:
        width, height = map(root2, found[-1])
        if border.triangles is not None:
            if width != height:
                return None
            found.append((width.by_root(),) * 2)
            continue
        sides, top = border_widths(sheet, border, width, height)
        if sides is None or top is None:
            return None
        found.append((width + border.on("sides") * sides, height + border.on("top") * top))
    return found


def border_widths(sheet: Sheet, border: Border, width: Root2, height: Root2) -> tuple[Fraction | None, Fraction | None]:
    """The exact finished widths of a border's side and top strips, round what finishes so wide and high; None if not
    known.

    A strip is as wide as the side of its piece that is not its length, which in a small quilt may be the longer one.
    """
    seams, first = 2 * sheet.sewing_seam, "sides" if border.first == "sides" or border.corner else "top"
    long = {"sides": height, "top": width}
    found: dict[str, Fraction | None] = {}
    second = "top" if first == "sides" else "sides"
    for which in (first, second):
        name = getattr(border, which)
        cut = sheet.part(name)
        if cut is None or cut.size is None or border.ends == "mitred":
            wide = width_of(sheet, name)
        else:
            wide = across(cut.size, long[which] + seams) - seams
        if which == first and wide is not None and not border.corner:
            long[second] = long[second] + border.on(which) * wide
        found[which] = wide
    return found["sides"], found["top"]


def across(size: tuple[Side, Side], length: Any) -> Side:
    """The side of a strip's (width, height) that is not its length: the shorter one that reaches, or else the longer.

    >>> across((4, 30), 36), across((9, 4), 4), across((2, 24), 12)
    (4, 9, 2)
    """
    long = min((side for side in size if side >= length - EASED), default=max(size))
    return size[0] if size[1] == long else size[1]
