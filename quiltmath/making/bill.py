"""The bill of materials: what each panel of a sheet is made of, and how many of everything the whole quilt takes."""

from __future__ import annotations

from collections import Counter
from functools import lru_cache
from typing import TYPE_CHECKING

from .. import yardage
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
    in_edge_piece,
    inside_out,
    step_giving,
    where_of,
)
from . import layout
from .slants import slanting_parts, slants_taken, to_cut

if TYPE_CHECKING:
    from collections.abc import Mapping
    from fractions import Fraction

    from ..pattern.cut import Cut
    from ..pattern.parts import UnitTable
    from ..pattern.sheet import Sheet

CUT_AS = {
    "half-square": ("once", "once"),
    "half-rectangle": ("once", "once"),
    "triangle in a square": ("shaped", "once", "once"),
    "quarter-square": ("twice", "twice", "twice", "twice"),
    "flying geese": ("twice", "once"),
    "square in a square": ("whole", "once"),
    "snowball": ("whole", ""),
}
"""How each part of a unit is cut where it is sewn from triangles; the corners of a snowball follow from nothing."""
SHOWN_IN = {
    "half-square": 2,
    "half-rectangle": 2,
    "quarter-square": 4,
    "flying geese": 3,
    "square in a square": 5,
    "triangle in a square": 3,
}


def ingredients(sheet: Sheet, name: str) -> Counter[str]:
    """The names one going of this panel is made from, each as often as it is needed; empty for a part cut from cloth.

    One going gives `batch` panels: two half-square units from a pair of squares, say, or many pieces from one strip
    set.
    """
    if name in sheet.block:
        return Counter(item.name for row in sheet.block[name].rows for item in row)
    if name in sheet.unit:
        return _of_unit(sheet, sheet.unit[name])
    if name in sheet.strip_set:
        return Counter(sheet.strip_set[name].strips)
    step = step_giving(sheet, name)
    if step is not None:
        return Counter(step.uses)
    if name == SETTING:
        return _of_setting(sheet)
    if name == QUILT:
        return Counter([centre(sheet)]) + _of_borders(sheet)
    piece = edge_piece(sheet, name)
    return Counter() if piece is None else Counter(in_edge_piece(piece, sheet.setting, where_of(name)))


def batch(sheet: Sheet, name: str) -> int:
    """How many panels of this name one going of its `ingredients` gives."""
    if name in sheet.unit:
        unit = sheet.unit[name]
        return at_a_time(sheet, unit) if sewn_first(sheet, unit) else 1
    if name in sheet.strip_set:
        strip_set = sheet.strip_set[name]
        return max(1, int(set_length(sheet, name) // strip_set.sub_cut))
    piece = edge_piece(sheet, name)
    if piece is not None and piece.how == "cut blocks" and piece.past == 0:
        return 2 if name.endswith(SIDE) else 4
    return 1


def set_length(sheet: Sheet, name: str) -> Fraction:
    """How long a strip set is, inches: as its shortest strip."""
    cuts = [cut for cut in map(sheet.part, sheet.strip_set[name].strips) if cut is not None]
    listed = [cut for cut in cuts if cut.fabric in sheet.fabric] or cuts
    lengths = (cut.length or sheet.usable_width(cut.fabric) for cut in listed)
    return min(lengths, default=sheet.usable_width(""))


def cut_together(sheet: Sheet, name: str) -> tuple[str, ...]:
    """The names of all the pieces that are cut from the same strip sets, their own name first; itself for other
    things."""
    if name not in sheet.strip_set:
        return (name,)
    own = sheet.strip_set[name].of or name
    return (own, *(other for other, one in sheet.strip_set.items() if one.of == own))


def sets_needed(sheet: Sheet, name: str, wanted: Mapping[str, int]) -> int:
    """How many strip sets so many `wanted` pieces of each name take, of all that are cut from the same ones."""
    names = [one for one in cut_together(sheet, name) if wanted[one]]
    if len(names) < 2:
        return -(-max((wanted[one] for one in names), default=0) // batch(sheet, (names or [name])[0]))
    return _sets_holding(tuple((sheet.strip_set[one].sub_cut, wanted[one]) for one in names), set_length(sheet, name))


@lru_cache(maxsize=256)
def _sets_holding(pieces, length):
    """The fewest strip sets so long that hold so many pieces of each width side by side."""
    if max(width for width, _ in pieces) > length:
        return sum(count for _, count in pieces)
    plan = yardage.length_needed([yardage.Piece(width, 1, count) for width, count in pieces], length)
    return int(plan.length)


def at_a_time(sheet: Sheet, unit: UnitTable) -> int:
    """How many units come from one going where whole squares are sewn first and cut then."""
    if unit.at_a_time is not None:
        return unit.at_a_time
    if unit.kind == "flying geese":
        goose = sheet.part(unit.parts[0])
        return 4 if goose is not None and sheet.cut_size(goose)[0] == sheet.cut_size(goose)[1] else 1
    return 2


def sewn_first(sheet: Sheet, unit: UnitTable) -> bool:
    """Whether the unit starts from whole squares rather than from triangles: its first part that is cut tells, or where
    all are pieced how many come at a time."""
    if unit.kind not in ("half-square", "quarter-square", "flying geese"):
        return False
    first = next((cut for cut in map(sheet.part, unit.parts) if cut is not None), None)
    return unit.at_a_time is not None if first is None else first.cut == "whole"


def _of_unit(sheet, unit):
    if len(unit.parts) > 2 and unit.kind == "quarter-square":
        return Counter(unit.parts)
    if unit.kind == "triangle in a square":
        return Counter(part for part, _ in slanting_parts(unit))
    one, other = unit.parts
    if unit.kind in ("half-square", "half-rectangle") or (unit.kind == "quarter-square" and sewn_first(sheet, unit)):
        return Counter([one, other])
    if unit.kind == "quarter-square":
        return Counter([one, one, other, other])
    if unit.kind == "flying geese":
        return Counter([one] + [other] * (4 if batch_of_geese(sheet, unit) == 4 else 2))
    return Counter([one] + [other] * len(unit.flipped))


def ways_to_cut(unit: UnitTable) -> tuple[str, ...]:
    """How each part of a unit is cut where it is sewn from triangles, "" where that follows from nothing.

    >>> from quiltmath.pattern.parts import UnitTable
    >>> ways_to_cut(UnitTable(kind="quarter-square", parts=["half", "above", "right"]))
    ('once', 'twice', 'twice')
    """
    if unit.kind == "quarter-square" and len(unit.parts) == 3:
        return ("once", "twice", "twice")
    return CUT_AS[unit.kind][: len(unit.parts)]


def batch_of_geese(sheet: Sheet, unit: UnitTable) -> int:
    """1, or 4 where flying geese are made four at a time from one large and four small squares."""
    return at_a_time(sheet, unit) if sewn_first(sheet, unit) else 1


def _of_setting(sheet):
    setting = sheet.setting
    lies = layout.of(setting)
    wanted = setting.blocks
    if setting.style == "on point":
        for where in EDGES:
            wanted[edge_name(sheet, SIDE, where)] += lies.sides_at(where)
            wanted[edge_name(sheet, CORNER, where)] += 1
        if setting.sides is not None and setting.sides.tip:
            wanted[setting.sides.tip] += lies.tips
    if setting.sashing is not None:
        wanted += _of_sashing(setting.sashing, lies)
    return _cut_to_length(sheet, wanted)


def _of_sashing(sashing, lies):
    """Sashes, cornerstones and long strips of a setting; of the cornerstones the edge halves, triangles where there are
    some."""
    wanted = Counter({sashing.part: lies.sashes})
    if sashing.cornerstone:
        halved = lies.halved_cornerstones if sashing.edge_cornerstone else 0
        wanted[sashing.cornerstone] += lies.cornerstones - halved
        if halved:
            wanted[sashing.edge_cornerstone] += halved
    else:
        wanted.update(name for name, _ in lies.named_strips(sashing.strip))
    return wanted


def _of_borders(sheet):
    return _cut_to_length(sheet, Counter(name for border in sheet.border for name in border.parts))


def _cut_to_length(sheet, wanted):
    """Without strips across the width: borders and sashing are joined from those, as long as the top measures."""
    return Counter(
        {
            name: count
            for name, count in wanted.items()
            if count and (sheet.part(name) is None or sheet.part(name).strip is None)
        }
    )


def cuts_needed(sheet: Sheet, cut: Cut, wanted: Mapping[str, int]) -> int:
    """How many pieces of a line of the cutting list are cut for so many `wanted` of each name."""
    return to_cut(cut, wanted[cut.part], slants_taken(sheet, wanted).get(cut.part, {}))


def pieces_needed(sheet: Sheet) -> Counter[str]:
    """How many pieces of each part the whole quilt takes, as a Counter of part names."""
    wanted = bill_of_materials(sheet)
    return Counter({cut.part: wanted[cut.part] for cut in sheet.cut})


def bill_of_materials(sheet: Sheet) -> Counter[str]:
    """How many of each named thing the whole quilt takes: parts, units, blocks, edge triangles."""
    wanted = Counter({final(sheet): 1})
    for names in _from_the_top(sheet):
        if names[0] in sheet.strip_set:
            times = sets_needed(sheet, names[0], wanted)
        else:
            times = -(-max(wanted[name] for name in names) // batch(sheet, names[0]))
        for ingredient, each in ingredients(sheet, names[0]).items():
            wanted[ingredient] += times * each
    return wanted


def patches(sheet: Sheet) -> int:
    """How many patches the quilt shows, counted as if none were trimmed away."""
    return patches_in(sheet, final(sheet)).get(final(sheet), 1)


def patches_in(sheet: Sheet, *names: str) -> dict[str, int]:
    """{name: how many patches it shows}, counted as if none were trimmed away, of these panels and all that goes into
    them, save the parts cut from cloth.

    >>> from quiltmath import pattern
    >>> from quiltmath.pattern.sheet import EXAMPLE
    >>> patches_in(pattern.read_text(EXAMPLE), "setting")
    {'four': 4, 'setting': 16}
    """
    shown: dict[str, int] = {}
    for name in inside_out(sheet, *names):
        parts = ingredients(sheet, name)
        if name in sheet.unit:
            unit = sheet.unit[name]
            shown[name] = _pieces_in(unit) + sum(shown.get(part, 1) - 1 for part in unit.parts)
        elif parts:
            shown[name] = sum(shown.get(part, 1) * count for part, count in parts.items())
    return shown


def _pieces_in(unit):
    """How many pieces one unit shows, each of its parts being one."""
    if unit.kind == "snowball":
        return 1 + len(unit.flipped)
    return len(unit.parts) if len(unit.parts) > 2 else SHOWN_IN[unit.kind]


def in_making_order(sheet: Sheet) -> list[tuple[str, ...]]:
    """What is made, each thing after its ingredients, as tuples of names: the pieces of one cut come together.

    >>> from quiltmath import pattern
    >>> from quiltmath.pattern.sheet import EXAMPLE
    >>> in_making_order(pattern.read_text(EXAMPLE))
    [('A',), ('four',), ('setting',)]
    """
    return _from_the_top(sheet)[::-1]


def _from_the_top(sheet):
    """The same, each thing before its ingredients."""
    done, seen = [], set()

    def together(name):
        step = step_giving(sheet, name)
        return tuple(step.gives) if step is not None else cut_together(sheet, name)

    stack = [(together(final(sheet)), iter(ingredients(sheet, final(sheet))))]
    while stack:
        names, rest = stack[-1]
        following = next(rest, None)
        if following is None:
            done.append(names)
            stack.pop()
        elif together(following) not in seen:
            seen.add(together(following))
            stack.append((together(following), iter(ingredients(sheet, following))))
    return done[::-1]
