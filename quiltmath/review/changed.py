"""What a corrected sheet says otherwise than the printed one, each change in a quilter's words."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING, Any

from .. import lengths
from ..pattern.differences import Difference, aligned
from .finding import Change

if TYPE_CHECKING:
    from ..pattern.sheet import Sheet

KINDS = {"unit": "unit", "block": "block", "strip_set": "strip set", "fabric": "fabric"}
IN_SIZE = {"counts": "", "sizes": "", "bought": "fabric ", "pieces": "fabric "}
LININGS = ("backing", "batting")
BOUGHT = ("bought", "panels")


def changes(
    sheet: Sheet, becomes: Sheet, found: list[Difference], asked: Mapping[tuple, tuple[str, ...]]
) -> Iterator[Change]:
    """The `Change`s that make one sheet another, of their differences (without those that are told in another way);
    `asked` says which checks asked for what, by path."""
    linings = set()
    for one in found:
        lining, checks = _lining_bought(one.path), _checks(one.path, asked)
        if lining is None:
            yield from _change(sheet, one, checks)
        elif lining not in linings:
            linings.add(lining)
            yield _bought_otherwise(sheet, becomes, lining, checks)


def _lining_bought(path):
    """The path of the backing or batting of which a path says how much is bought; None for any other."""
    return path[:-1] if path[-1] in BOUGHT and path[:-1] and path[-2] in LININGS else None


def _bought_otherwise(sheet, becomes, lining, checks):
    """The change to what is bought of a backing or batting, its length and its widths as one."""
    old, new = (_bought(_at(each, lining), sheet.units) for each in (sheet, becomes))
    path = (*lining, "bought")
    if new is None:
        return Change(checks, named(sheet, path), old, None, "taken out", path)
    return Change(checks, named(sheet, lining), old, new, path=path)


def _change(sheet, one, checks):
    """The changes that one difference between two sheets is."""
    if one.path == ("instructions",):
        yield from _in_order(checks, one.old or [], one.new or [])
    elif len(one.path) == 2 and one.path[0] == "cut" and one.old is None:
        yield Change(checks, f"part {one.new['part']!r}", None, pieces(one.new, sheet.units), "new")
    elif one.old is None and isinstance(one.new, dict):
        for key, new in one.new.items():
            yield from _change(sheet, Difference((*one.path, key), None, new), checks)
    elif one.path[-1] == "rows" and isinstance(one.old, list) and isinstance(one.new, list):
        yield from _rows(checks, named(sheet, one.path[:-1]), one.old, one.new)
    elif one.new is None:
        yield Change(checks, named(sheet, one.path), said(one.old, sheet.units), None, "taken out", one.path)
    else:
        say = _fabric if "bought" in one.path else said
        old = _usual(sheet, one.path) if one.old is None else say(one.old, sheet.units)
        yield Change(checks, named(sheet, one.path), old, say(one.new, sheet.units), path=one.path)


def named(sheet: Sheet, path: tuple) -> str:
    """What a path means to a reader of the sheet.

    >>> from quiltmath import pattern
    >>> from quiltmath.pattern.sheet import EXAMPLE
    >>> named(pattern.read_text(EXAMPLE), ("cut", 0, "count"))
    "part 'A', count"
    """
    first, *rest = path
    if first == "cut" and rest:
        first, rest = f"part {sheet.cut[rest[0]].part!r}", rest[1:]
    elif first in KINDS and rest:
        first, rest = f"{KINDS[first]} {rest[0]!r}", rest[1:]
    elif first == "other_size" and rest:
        first, rest = f"size {sheet.other_size[rest[0]].name!r}", rest[1:]
        if len(rest) == 2 and rest[0] in IN_SIZE:
            rest = [f"{IN_SIZE[rest[0]]}{rest[1]!r}", rest[0] if IN_SIZE[rest[0]] else rest[0].removesuffix("s")]
    elif first == "finished":
        first = "finished size"
    words = [
        str(key + 1 if isinstance(key, int) else key).replace("_", " ").replace("sub cut", "sub-cut") for key in rest
    ]
    return ", ".join([first, *words])


def said(value: Any, units: str) -> Any:
    """A value of a sheet as it is told: a length with its unit, all else as it stands.

    >>> said("2 1/2 x 12 1/2", "in"), said("once", "in"), said(12, "in")
    ('2 1/2 x 12 1/2 in', 'once', 12)
    """
    if not isinstance(value, str):
        return value
    sides = value.split(" x ")
    try:
        unitless = all(lengths.parse(side, "in") != lengths.parse(side, "yd") for side in sides)
    except ValueError:
        return value
    return f"{value} {units}" if unitless else value


def pieces(cut: Mapping[str, Any], units: str) -> str:
    """A line of the cutting list in words.

    >>> pieces({"part": "edge", "fabric": "plum", "size": "5 1/2", "count": 6, "cut": "twice"}, "in")
    '6 plum squares 5 1/2 in, cut twice'
    """
    size = cut.get("size", cut.get("strip"))
    thing = "strip" if "strip" in cut else "piece" if " x " in str(size) else "square"
    way = cut.get("cut", "whole")
    more = "" if way == "whole" else f", cut {way}"
    return f"{cut['count']} {cut['fabric']} {thing}{'' if cut['count'] == 1 else 's'} {said(size, units)}{more}"


def _checks(path, asked):
    """The checks that asked for a change at this path, of what lies in it or of what it lies in."""
    found = [
        check
        for where, checks in asked.items()
        if where[: len(path)] == path or path[: len(where)] == where
        for check in checks
    ]
    return tuple(dict.fromkeys(found)) or tuple(dict.fromkeys(check for checks in asked.values() for check in checks))


def _bought(lining, units):
    """What is bought of a backing, in words; None where the sheet does not say."""
    if lining.bought is None:
        return None
    bought = _sold(lining.bought, units)
    if lining.panels is None:
        return bought
    return f"{lining.panels} width{'' if lining.panels == 1 else 's'}, {bought}"


def _fabric(value, units):
    """A length of fabric, as a sheet has it, as it is sold."""
    return _sold(lengths.parse(value, unit=units), units)


def _sold(inches, units):
    """Inches of fabric in yards, metres or inches, whichever is exact, those of the sheet's units first."""
    yards, metres, plain = (lengths.text(inches, unit=unit) for unit in ("yd", "m", "in"))
    said = [yards, f"{plain} in", metres] if units == "in" else [metres, yards, f"{plain} in"]
    return next((one for one in said if not one.startswith("about")), said[0])


def _usual(sheet, path):
    """What a sheet means where it says nothing, as "whole" of pieces that are cut in no other way; None if nothing."""
    try:
        value = _at(sheet, path)
    except (AttributeError, KeyError, IndexError):
        return None
    return value if isinstance(value, str) else None


def _at(sheet, path):
    for key in path:
        sheet = sheet[key] if isinstance(sheet, (list, dict)) else getattr(sheet, key)
    return sheet


def _in_order(checks, old, new):
    """Lines of the instructions that are moved or added."""
    pairs = list(aligned(old, new))
    gone = {old[was] for _, was, now in pairs if now is None}
    for _, was, now in pairs:
        if now is None or was is not None and old[was] == new[now]:
            continue
        if was is not None:
            yield Change(checks, f"line {was + 1} of the instructions", f"“{old[was]}”", f"“{new[now]}”")
        elif now and new[now] in gone:
            yield Change(checks, f"“{new[now]}”", None, f"comes after “{new[now - 1]}”", "moved")
        elif new[now] in gone:
            yield Change(checks, f"“{new[now]}”", None, "comes first", "moved")
        else:
            yield Change(checks, "instructions", None, f"“{new[now]}”", "added")


def _rows(checks, what, old, new):
    """Rows of a block that are others."""
    for place, was, now in aligned([str(row) for row in old], [str(row) for row in new]):
        if was is None:
            yield Change(checks, f"{what}, rows", None, _row(new[now]), "added")
        elif now is None:
            yield Change(checks, f"{what}, row {was + 1}", _row(old[was]), None, "taken out")
        elif old[was] != new[now]:
            yield Change(checks, f"{what}, row {place + 1}", _row(old[was]), _row(new[now]))


def _row(row):
    return row if isinstance(row, str) else ", ".join(map(str, row))
