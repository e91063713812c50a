"""What can be read but can hardly be meant, and would be taken in silence for something else: lengths without a unit
that look like those of another, two names that differ in their blanks alone, figures of no use.

What is usual is common practice.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING, Any

from .. import lengths
from ..usual import BARE_SEAM, BARE_WIDTHS, WIDEST_ROLL
from .doubts_of_fabric import no_use_of_fabric

if TYPE_CHECKING:
    from .sheet import Sheet

NAMED = ("fabric", "strip_set", "unit", "block")  # tables of tables, each under a name
IN_SIZES = ("counts", "sizes", "bought", "pieces", "sets", "block")
LENGTHS = {
    *("seam", "finished", "size", "strip", "strip_width", "length", "sub_cut", "trim_to", "usable_width", "floating"),
    *("past", "sizes", "piece", "sides_length", "top_length"),
}
PARTS_OF_A_CM = (1, 2, 5, 10)
BARE = re.compile(r"[\d\s./⁄¼-¾⅐-⅞-]+")  # no unit, and not two lengths
PARTED = re.compile(r"\d\s*[/⁄]\s*(\d+)")


def said_twice(data: Mapping[str, Any]) -> tuple[list[str | int], list[str | int]] | None:
    """The paths of two tables or figures whose names differ in the blanks around them alone, in a sheet as typed.

    >>> said_twice({"block": {"four": {}, "four ": {}}})
    (['block', 'four'], ['block', 'four '])
    """
    for path, table in _by_name(data):
        first: dict[str, str] = {}
        for name in table:
            if first.setdefault(name.strip(), name) != name:
                return [*path, first[name.strip()]], [*path, name]
    return None


def _by_name(data: Mapping[str, Any]) -> Iterator[tuple[list[str | int], Mapping[str, Any]]]:
    for key in NAMED:
        if isinstance(data.get(key), dict):
            yield [key], data[key]
    sizes = data.get("other_size")
    for number, size in enumerate(sizes if isinstance(sizes, list) else []):
        for key in IN_SIZES if isinstance(size, dict) else ():
            if isinstance(size.get(key), dict):
                yield ["other_size", number, key], size[key]


def first_doubt(sheet: Sheet, data: Mapping[str, Any]) -> tuple[list[str | int], str] | None:
    """The first thing that can hardly be meant, as (path in the sheet, message); `data` is the sheet as typed."""
    for path, value in _bare_lengths(data):
        words = doubt(path, value, sheet.units)
        if words:
            return path, words
    return _too_wide(sheet) or _no_use(sheet) or next(no_use_of_fabric(sheet), None)


def _bare_lengths(data, path=(), length=False):
    """Every length that is typed without a unit, as (path, value)."""
    if isinstance(data, dict):
        for key, value in data.items():
            known = key in LENGTHS and path != ("setting", "sashing")  # whose strip is a name
            yield from _bare_lengths(value, (*path, key), known or (length and path[-1] == "sizes"))
    elif isinstance(data, list):
        for number, value in enumerate(data):
            yield from _bare_lengths(value, (*path, number), length)
    elif length and (isinstance(data, (int, float)) or (isinstance(data, str) and BARE.fullmatch(data))):
        yield list(path), data


def doubt(path: list[str | int], value: str | float, units: str) -> str:
    """Why a length that is typed without a unit may be meant in another; "" where it is plain.

    >>> doubt(["fabric", "navy", "usable_width"], "42", "in"), doubt(["seam"], "3/4", "in"), doubt(["seam"], 0.75, "cm")
    ('', '', '')
    >>> print(doubt(["fabric", "navy", "usable_width"], 420, "in"))
    without a unit this is 420 in, which is unusual here; write the unit too, "420 in" or "420 cm"; got 420
    >>> print(doubt(["cut", 0, "size"], "3 7/8", "cm"))
    centimetres have halves and tenths, no 8ths; if inches are meant, write "3 7/8 in"; got '3 7/8'
    """
    inches = lengths.parse(value, units)
    parts = inches / lengths.INCHES[units]
    fraction = isinstance(value, str) and bool(PARTED.search(value) or re.search("[¼-¾⅐-⅞]", value))
    if units == "cm" and fraction and parts.denominator not in PARTS_OF_A_CM:
        return (
            f"centimetres have halves and tenths, no {parts.denominator}ths; if inches are meant, write "
            f'"{value} in"; got {value!r}'
        )
    least, most = {
        "usable_width": BARE_WIDTHS["lining" if path[0] in ("backing", "batting", "other_size") else "fabric"][units],
        "seam": BARE_SEAM,
    }.get(str(path[-1]), (0, lengths.LONGEST))
    if least <= inches <= most or (fraction and inches >= least):  # nobody types centimetres as a fraction
        return ""
    return (
        f"without a unit this is {lengths.text(inches, units, mark='in')}, which is unusual here; write the unit too, "
        f'"{value} in" or "{value} cm"; got {value!r}'
    )


def _too_wide(sheet):
    widths = [(["fabric", name, "usable_width"], fabric.usable_width) for name, fabric in sheet.fabric.items()]
    linings = [([key], getattr(sheet, key)) for key in ("backing", "batting")]
    for number, size in enumerate(sheet.other_size):
        linings += [(["other_size", number, key], getattr(size, key)) for key in ("backing", "batting")]
    widths += [([*path, "usable_width"], lining.usable_width) for path, lining in linings if lining is not None]
    for path, width in widths:
        if width is not None and width > WIDEST_ROLL:
            return path, (
                f"the widest rolls are {lengths.text(WIDEST_ROLL)} in; got {lengths.text(width, mark='in')}: check the "
                "number and its unit"
            )
    return None


def _no_use(sheet):
    """A figure of another size that nothing in the sheet takes, or a size, or a part of its own, that comes twice."""
    names = [size.name for size in sheet.other_size]
    for number, size in enumerate(sheet.other_size):
        if size.name in names[:number]:
            trouble = ["name"], f"two sizes are called {size.name!r}: give each a name of its own, or take one out"
        else:
            trouble = _parts_twice(size) or _named_no_use(sheet, size) or _tables_no_use(sheet, size)
        if trouble:
            path, message = trouble
            return ["other_size", number, *path], message
    return None


def _parts_twice(size):
    """A part of its own that another size has twice."""
    own = [cut.part for cut in size.cut]
    for place, part in enumerate(own):
        if part in own[:place]:
            return ["cut", place, "part"], (
                f"two parts of size {size.name!r} are called {part!r}: give each a name of its own"
            )
    return None


def _named_no_use(sheet, size):
    """A count or size of what the sheet has not, or of what has a table of its own that says it."""
    own = {cut.part for cut in size.cut}
    made = {cut.part for cut in sheet.cut} | {name for key in NAMED[1:] for name in getattr(sheet, key)}
    for key, in_table in (("counts", "count"), ("sizes", "trim_to")):
        for name in getattr(size, key):
            if name not in made | own | size.block.keys():
                return [key, name], (
                    f"{name!r} is none of the parts, units, blocks and strip sets, whose {key} a size may give: "
                    "take it out"
                )
            if name in own or getattr(size.block.get(name), in_table, None):
                return [key, name], (
                    f"{name!r} has a table of its own in this size, which says that already: take this out"
                )
    return None


def _tables_no_use(sheet, size):
    """A key of another size for which the sheet has no setting, strip set, binding or fabric."""
    trouble = _rows_no_use(sheet, size)
    if trouble is not None:
        return [trouble[0]], trouble[1]
    for name in size.sets.keys() - sheet.strip_set.keys():
        return ["sets", name], f"{name!r} is none of the strip sets: take it out"
    if size.binding is not None and sheet.binding is None:
        return ["binding"], "the sheet has no [binding] whose strips these could be: add it, or take this out"
    for key in ("bought", "pieces"):
        if getattr(size, key) and not sheet.fabric:
            return [key], "the sheet has no [fabric.NAME] that these could be bought of: add them, or take this out"
    return None


def _rows_no_use(sheet, size):
    """A key of another size that says nothing of a setting like the sheet's, as (key, message); else None."""
    setting = sheet.setting
    for key in ("across", "down"):
        if setting.drawn and getattr(size, key) is not None:
            return key, "the sheet draws every block of its setting: draw those of this size too, in rows or columns"
    if size.strip is not None and (setting.sashing is None or setting.sashing.strip is None):
        return "strip", "the sheet's setting has no long sashing strips: take it out"
    return None
