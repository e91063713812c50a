"""The form of a pattern sheet as plain data: its fields in the order a printed pattern gives them, and the sheet they
make.

Fields are text as typed. What a sheet may say and the form has no field for (explicit steps, other sizes, a note, edge
triangles that differ from edge to edge) is kept aside and goes back into the sheet, so that loading and saving loses
nothing.
"""

import re
from collections.abc import Sequence
from copy import deepcopy
from typing import Any, NamedTuple, TypeAlias

from .. import pattern

YES, NO = "yes", "no"
Line: TypeAlias = dict[str, str]  # what is typed, by the key of its field


class Field(NamedTuple):
    """One field: its key in the sheet, its label, an example, its choices if it has any, and the example in a metric
    pattern where that is another."""

    key: str
    label: str
    example: str = ""
    choices: tuple[str, ...] = ()
    metric: str = ""

    def example_in(self, units: str) -> str:
        """The example in a pattern of these units.

        >>> Field("seam", "Seam", "1/4", metric="0.75").example_in("cm")
        '0.75'
        """
        return self.metric if units == "cm" and self.metric else self.example


class Group(NamedTuple):
    """A group of fields: where it stands in the sheet, its title, its fields; `many` lines, or one. `named`: a table of
    tables in the sheet, each under the name in the first field."""

    key: str
    title: str
    fields: tuple[Field, ...]
    many: bool = True
    named: bool = False


EDGE = (
    Field("how", "come about", choices=("plain", "built", "cut blocks")),
    Field("part", "cut as part", "side"),
    Field("rows", "built rows, from the tip", "T / A T"),
    Field("block", "or block to cut"),
    Field("past", "cut past the diagonal", "1/4", metric="0.75"),
)
GROUPS = (
    Group(
        "",
        "The pattern",
        (
            Field("title", "Title", "Lap quilt"),
            Field("units", "Units", choices=("in", "cm")),
            Field("seam", "Seam", "1/4", metric="0.75"),
            Field("finished", "Finished size", "63 5/8 x 76 3/8", metric="160 x 195"),
            Field("instructions", "Order of work, a sentence a line", "Measure the top, cut the borders."),
        ),
        many=False,
    ),
    Group(
        "fabric",
        "Fabric to buy",
        (
            Field("name", "Fabric", "navy"),
            Field("bought", "Length", "2 1/4 yd", metric="2.1 m"),
            Field("usable_width", "Usable width (WOF)", "42", metric="107"),
            Field("directional", "Print has a direction", choices=("", YES)),
        ),
        named=True,
    ),
    Group(
        "cut",
        "Cutting list",
        (
            Field("part", "Part", "A"),
            Field("fabric", "Fabric", "navy"),
            Field("count", "How many", "12"),
            Field("size", "Size of a piece", "3 1/2", metric="9"),
            Field("strip", "or strip width", "2 1/2", metric="6.5"),
            Field("cut", "Cut on the diagonal", choices=("whole", "once", "twice")),
            Field("triangles", "Triangles", "24"),
            Field("finished", "Finishes", "3", metric="7.5"),
        ),
    ),
    Group(
        "strip_set",
        "Strip sets",
        (
            Field("name", "Strip set", "outer"),
            Field("strips", "Strips, from the top", "A, B, A"),
            Field("sub_cut", "Sub-cut", "3 1/2", metric="9"),
            Field("sets", "Sets", "2"),
            Field("pieces", "Pieces", "24"),
        ),
        named=True,
    ),
    Group(
        "unit",
        "Units",
        (
            Field("name", "Unit", "HST"),
            Field(
                "kind",
                "Kind",
                choices=("half-square", "quarter-square", "flying geese", "square in a square", "snowball"),
            ),
            Field("parts", "Its two parts, or four", "A, B"),
            Field("at_a_time", "So many at a time", choices=("", "1", "2", "4", "8")),
            Field("finished", "Finishes", "3", metric="7.5"),
            Field("trim_to", "Trimmed to", "3 1/2", metric="9"),
            Field("count", "How many", "48"),
        ),
        named=True,
    ),
    Group(
        "block",
        "Blocks",
        (
            Field("name", "Block", "nine-patch"),
            Field("rows", "Rows, from the top", "A B A / B A B / A B A"),
            Field("finished", "Finishes", "9", metric="22.5"),
            Field("trim_to", "Trimmed to"),
            Field("count", "How many", "12"),
        ),
        named=True,
    ),
    Group(
        "setting",
        "Setting",
        (
            Field("style", "Set", choices=("straight", "on point")),
            Field("across", "Blocks across", "5"),
            Field("down", "Blocks down", "6"),
            Field("block", "Block", "nine-patch"),
            Field("alternate", "Alternate block"),
            Field("floating", "Floats inside the edge", "1/2", metric="1"),
        ),
        many=False,
    ),
    Group(
        "setting.sides",
        "Side triangles",
        (*EDGE, Field("frame", "framed by: left, below", "F, G"), Field("tip", "tips that end sashing rows")),
        many=False,
    ),
    Group(
        "setting.corners",
        "Corner triangles",
        (*EDGE, Field("frame", "framed by: long edge, or left, below", "F")),
        many=False,
    ),
    Group(
        "setting.sashing",
        "Sashing",
        (
            Field("part", "Cut as part", "sash"),
            Field("cornerstone", "Cornerstones", "stone"),
            Field("edge_cornerstone", "Halved by the edge, as triangles"),
            Field("strip", "or long strips, the shortest first"),
            Field("around", "Round the outside too", choices=("", NO)),
            Field("edge", "Edge of an on-point quilt", choices=("", "half", "whole")),
        ),
        many=False,
    ),
    Group(
        "border",
        "Borders, from the inside",
        (
            Field("sides", "Left and right", "border"),
            Field("top", "Top and bottom", "border"),
            Field("triangles", "or four triangles"),
            Field("corner", "Corner squares"),
            Field("ends", "Corners", choices=("butted", "mitred")),
            Field("first", "Sewn first", choices=("sides", "top")),
        ),
    ),
    Group(
        "binding",
        "Binding",
        (
            Field("fabric", "Fabric", "navy"),
            Field("strip", "Strip width", "2 1/2", metric="6.5"),
            Field("count", "Strips", "7"),
            Field("style", "Cut", choices=("straight", "bias")),
            Field("join", "Joined", choices=("diagonal", "straight")),
        ),
        many=False,
    ),
    Group(
        "backing",
        "Backing",
        (
            Field("size", "Size", "72 x 84", metric="180 x 215"),
            Field("bought", "or length bought", "4 1/2 yd", metric="4.2 m"),
            Field("usable_width", "Usable width (WOF)", "42", metric="107"),
            Field("panels", "Lengths side by side", "2"),
        ),
        many=False,
    ),
    Group("batting", "Batting (wadding)", (Field("size", "Size", "72 x 90", metric="180 x 230"),), many=False),
)
_WHOLE = {"count", "across", "down", "triangles", "at_a_time", "sets", "pieces", "panels"}
_LISTS = {"parts", "strips", "frame"}
_MAYBE_A_LIST = "setting.sashing", "strip"  # one name, or one for each length of row
_SIZES = {"size", "finished", "trim_to"}
_DEFAULTS = {
    "how": "plain",
    "cut": "whole",
    "ends": "butted",
    "units": "in",
    "kind": "half-square",
    "style": "straight",
    "first": "sides",
    "join": "diagonal",
}


def empty() -> dict[str, list[Line]]:
    """A form with nothing in it: {group key: list of lines}, each line a dict of text."""
    return {group.key: [blank(group)] for group in GROUPS}


def blank(group: Group) -> Line:
    """One empty line of a group, its choices at what is usual."""
    return {field.key: _DEFAULTS.get(field.key, "") if field.choices else "" for field in group.fields}


def sheet_data(form: dict[str, list[Line]], aside: dict[str, Any] | None = None) -> tuple[dict[str, Any], dict]:
    """The plain tables of the sheet these fields make, and which line of the form each list entry stands on.

    >>> form = empty()
    >>> form[""][0] |= {"title": "Small", "seam": "1/4"}
    >>> sheet_data(form)[0]["title"]
    'Small'
    """
    data: dict[str, Any] = deepcopy(aside or {})
    lines: dict[str, Any] = {}
    for group in GROUPS:
        filled = [(number, line) for number, line in enumerate(form[group.key]) if _filled(group, line)]
        values = [_values(group, line) for _, line in filled]
        if group.key == "":
            data |= values[0] if values else {}
        elif group.named:
            named = {value.pop("name", f"line {number + 1}"): value for (number, _), value in zip(filled, values)}
            kept = data.get(group.key, {})
            data[group.key] = {name: kept.get(name, {}) | value for name, value in named.items()}
            lines[group.key] = {name: number for name, (number, _) in zip(named, filled)}
        elif group.many:
            data[group.key] = values
            lines[group.key] = [number for number, _ in filled]
        elif values:
            _place(data, group.key, values[0])
    return {key: value for key, value in data.items() if value not in ({}, [])}, lines


def read(form: dict[str, list[Line]], aside: dict[str, Any] | None = None) -> Any:
    """The sheet these fields make, refused with `pattern.Unreadable` as a file would be."""
    data, _ = sheet_data(form, aside)
    return pattern.read_text(pattern.toml(data), "the form")


def filled_from(sheet: Any) -> tuple[dict[str, list[Line]], dict[str, Any]]:
    """The form filled from a sheet (a `Sheet`, or the plain tables of one that is not right yet), and what it says that
    the form has no field for."""
    data, form = deepcopy(sheet) if isinstance(sheet, dict) else pattern.as_data(sheet), empty()
    for group in GROUPS:
        found = _take(data, group)
        if group.key == "":
            form[""] = [blank(group) | _texts(group, found)]
        elif group.named:
            form[group.key] = [
                blank(group) | _texts(group, {"name": name, **value}) for name, value in found.items()
            ] or [blank(group)]
        elif group.many:
            form[group.key] = [blank(group) | _texts(group, value) for value in found] or [blank(group)]
        elif found:
            form[group.key] = [blank(group) | _texts(group, found)]
    return form, data


def where(
    form: dict[str, list[Line]], path: Sequence[Any], aside: dict[str, Any] | None = None
) -> tuple[tuple[str, int, str | None] | None, str]:
    """The field a refusal's path stands for, as (group key, line number, field key), or None; and its name in words."""
    _, lines = sheet_data(form, aside)
    for group in sorted(GROUPS, key=lambda one: -len(one.key)):
        keys = group.key.split(".") if group.key else []
        if list(path[: len(keys)]) != keys or (not keys and (not path or path[0] not in {c.key for c in group.fields})):
            continue
        rest = list(path[len(keys) :])
        number = 0
        if group.many and rest:
            numbers = lines.get(group.key, {})
            number = (
                numbers.get(rest[0], 0)
                if isinstance(numbers, dict)
                else (numbers[rest[0]] if isinstance(rest[0], int) and rest[0] < len(numbers) else 0)
            )
            rest = rest[1:]
        field = next((field for field in group.fields if rest and field.key == rest[0]), None)
        words = group.title + (f", line {number + 1}" if group.many else "") + (f", {field.label}" if field else "")
        return (group.key, number, field.key if field else None), words
    return None, "The form"


def _filled(group, line):
    """Whether anything but a choice has been typed in a line."""
    if group.key == "setting":
        return True
    return any(value.strip() for field in group.fields for value in [line[field.key]] if not field.choices) or (
        "how" in line and line["how"] != "plain"
    )


def _values(group, line):
    """A line of the form as a table of the sheet: blank fields left out, rows and pairs taken apart."""
    values = {}
    for key, text in line.items():
        text = text.strip()
        if not text:
            continue
        if key in _WHOLE and group.key != "border" and re.fullmatch(r"[0-9]{1,9}", text):
            values[key] = int(text)
        elif key == "rows":
            values[key] = [_row(row) for row in text.split("/")]
        elif key in _LISTS or (group.key, key) == _MAYBE_A_LIST and "," in text:
            values[key] = [part.strip() for part in text.split(",")]
        elif key == "instructions":
            values[key] = [line.strip() for line in text.splitlines() if line.strip()]
        elif key in ("directional", "around"):
            values[key] = text != NO
        elif _DEFAULTS.get(key) != text or key in ("kind", "style"):
            values[key] = text
    return values


def _row(text):
    """A row of parts: names parted by blanks, or by commas where names have blanks in them."""
    return [part.strip() for part in text.split(",")] if "," in text else text.strip()


def _place(data, key, value):
    *outer, last = key.split(".")
    for name in outer:
        data = data.setdefault(name, {})
    data[last] = {**data.get(last, {}), **value} if isinstance(data.get(last), dict) else value


def _take(data, group):
    """What the sheet says of a group, taken out of it: what the form has no field for stays."""
    keys = group.key.split(".") if group.key else []
    place = data
    for key in keys[:-1]:
        place = place.get(key, {})
    known = {field.key for field in group.fields}
    if not keys:
        return {key: data.pop(key) for key in list(data) if key in known}
    found = place.pop(keys[-1], {} if group.named or not group.many else [])
    if group.many and not group.named:
        return found
    if group.named:
        kept = {name: {key: value for key, value in one.items() if key not in known} for name, one in found.items()}
        place[keys[-1]] = {name: rest for name, rest in kept.items() if rest}
    else:
        rest = {key: value for key, value in found.items() if key not in known}
        if rest:
            place[keys[-1]] = rest
    return found


def _texts(group, values):
    return {field.key: _text(field.key, values[field.key]) for field in group.fields if field.key in values}


def _text(key, value):
    """A value of the sheet as it is typed in its field."""
    if isinstance(value, bool):
        return ("" if value else NO) if key == "around" else YES if value else ""
    if key == "instructions" and isinstance(value, list):
        return "\n".join(map(str, value))
    if key == "rows":
        return " / ".join(", ".join(map(str, row)) if isinstance(row, list) else row for row in value)
    if isinstance(value, list):
        return (" x " if key in _SIZES else ", ").join(map(str, value))
    return str(value)
