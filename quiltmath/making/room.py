"""What the rows of blocks, and of settings whose rows are each what they are, leave for a piece that lies in them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..pattern.names import SETTING, blocks_named
from . import measures

if TYPE_CHECKING:
    from fractions import Fraction

    from ..pattern.sheet import Sheet


def room(sheet: Sheet, name: str) -> tuple[Fraction, Fraction] | None:
    """The exact finished (width, height) that a block's rows, and the rows it lies in, leave for what bears this name,
    as it is cut; None where they do not tell both.

    >>> from quiltmath import pattern
    >>> from quiltmath.pattern.sheet import EXAMPLE
    >>> room(pattern.read_text(EXAMPLE.replace('"A A", "A A"', '"A:90 A", "wide"')), "wide") is None
    True
    """
    sides = sides_of(sheet, name)
    return (sides[0], sides[1]) if len(sides) == 2 and min(sides.values()) > 0 else None


def unit_room(sheet: Sheet, name: str) -> tuple[Fraction, Fraction] | None:
    """The exact finished (width, height) of a unit: as it is printed, by what it is trimmed to, or as the rows it lies
    in leave room for it; None where nothing tells."""
    return measures.unit_size(sheet, sheet.unit[name]) or room(sheet, name)


def sides_of(sheet, name, inside=()):
    """{0: its finished width, 1: its finished height} of what bears a name, as far as they follow from the rows it lies
    in; `inside` are the names of what it is looked for in, lest they go in circles."""
    sides = {}
    if not sheet.setting.loose and name in blocks_named(sheet.setting) and name in sheet.strip_set:
        sides[1] = sheet.strip_set[name].sub_cut - 2 * sheet.sewing_seam  # blocks are square
    for other, rows in _all_rows(sheet):
        if other not in inside and any(item.name == name for row in rows for item in row):
            for side, length in _in_rows(sheet, name, other, rows, inside):
                sides.setdefault(side, length)
    return sides


def _in_rows(sheet, name, other, rows, inside):
    """(side, finished length) of each side of what bears a name that the rows of another block tell."""
    places = [[None if item.name == name else measures.lying(sheet, item) for item in row] for row in rows]
    width, height = _of_block(sheet, other, (*inside, name)) if other in sheet.block else (None, None)
    if width is None:
        width = next((sum(map(_wide, row)) for row in places if None not in row), None)
    for row, sizes, high in zip(rows, places, _heights(rows, places, height)):
        turned = {bool(item.turn % 180) for item in row if item.name == name}
        if len(turned) != 1 or any(item.turn % 90 for item in row):
            continue
        across, up = (1, 0) if turned.pop() else (0, 1)
        if high is not None:
            yield up, high
        beside = [size for item, size in zip(row, sizes) if item.name != name]
        if width is not None and None not in beside:
            yield across, (width - sum(map(_wide, beside))) / (len(row) - len(beside))


def _all_rows(sheet):
    """(name, rows) of each block, and of a setting whose rows are each what they are; its columns lying on their
    side."""
    yield from ((name, block.rows) for name, block in sheet.block.items())
    if sheet.setting.loose:
        quarter = 90 if sheet.setting.columns is not None else 0
        yield (
            SETTING,
            [[it.model_copy(update={"turn": it.turn + quarter}) for it in row] for row in sheet.setting.lines],
        )


def _of_block(sheet, name, inside):
    """The finished (width, height) of a block: as printed, or as what it lies in leaves room for it."""
    block = sheet.block[name]
    if block.finished is not None:
        return block.finished
    if block.trim_to is not None:
        return tuple(side - 2 * sheet.sewing_seam for side in block.trim_to)
    sides = sides_of(sheet, name, inside)
    return sides.get(0), sides.get(1)


def _wide(size):
    return size[0]


def _heights(rows, places, height):
    """The finished height of each row: of a place that is known in it, or its share of what the other rows leave."""
    found = [next((size[1] for size in sizes if size is not None), None) for sizes in places]
    open_rows = [[item.name for item in row] for row, high in zip(rows, found) if high is None]
    if height is None or any(row != open_rows[0] for row in open_rows):
        return found
    known = sum(high for high in found if high is not None)
    return [(height - known) / len(open_rows) if high is None else high for high in found]
