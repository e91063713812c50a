"""The form of a pattern sheet as plain data: its fields in the order a printed pattern gives them, and the sheet they make.

Fields are text as typed. What a sheet may say and the form has no field for (explicit steps, other sizes, a note, edge
triangles that differ from edge to edge) is kept aside and goes back into the sheet, so that loading and saving loses nothing.
"""

import re
from copy import deepcopy
from typing import NamedTuple

from .. import pattern

YES, NO = "yes", "no"


class Column(NamedTuple):
    """One field: its key in the sheet, its label, an example, and its choices if it has any."""

    key: str
    label: str
    example: str = ""
    choices: tuple = ()


class Table(NamedTuple):
    """A group of fields: where it stands in the sheet, its title, its columns; `many` lines, or one. `named`: a table of tables
    in the sheet, each under the name in the first column."""

    key: str
    title: str
    columns: tuple
    many: bool = True
    named: bool = False


EDGE = (
    Column("how", "come about", choices=("plain", "built", "cut blocks")),
    Column("part", "cut as part", "side"),
    Column("rows", "built rows, from the tip", "T / A T"),
    Column("block", "or block to cut"),
    Column("past", "cut past the diagonal", "1/4"),
    Column("frame", "framed by: left, below", "F, G"),
)
TABLES = (
    Table(
        "",
        "The pattern",
        (
            Column("title", "Title", "Lap quilt"),
            Column("units", "Units", choices=("in", "cm")),
            Column("seam", "Seam", "1/4"),
            Column("finished", "Finished size", "63 5/8 x 76 3/8"),
            Column("instructions", "Order of work, a sentence a line", "Measure the top, cut the borders."),
        ),
        many=False,
    ),
    Table(
        "fabric",
        "Cloth to buy",
        (
            Column("name", "Cloth", "navy"),
            Column("bought", "Length", "2 1/4 yd"),
            Column("usable_width", "Usable width", "42"),
            Column("directional", "Print has a direction", choices=("", YES)),
        ),
        named=True,
    ),
    Table(
        "cut",
        "Cutting list",
        (
            Column("part", "Part", "A"),
            Column("fabric", "Cloth", "navy"),
            Column("count", "How many", "12"),
            Column("size", "Size of a piece", "3 1/2"),
            Column("strip", "or strip height", "2 1/2"),
            Column("cut", "Cut on the diagonal", choices=("whole", "once", "twice")),
            Column("triangles", "Triangles", "24"),
            Column("finished", "Finishes", "3"),
        ),
    ),
    Table(
        "strip_set",
        "Strip sets",
        (
            Column("name", "Strip set", "outer"),
            Column("strips", "Strips, from the top", "A, B, A"),
            Column("sub_cut", "Cut into pieces so wide", "3 1/2"),
            Column("sets", "Sets", "2"),
            Column("pieces", "Pieces", "24"),
        ),
        named=True,
    ),
    Table(
        "unit",
        "Units",
        (
            Column("name", "Unit", "hst"),
            Column(
                "kind",
                "Kind",
                choices=("half-square", "quarter-square", "flying geese", "square in a square", "snowball"),
            ),
            Column("parts", "Its two parts", "A, B"),
            Column("at_a_time", "So many at a time", choices=("", "1", "2", "4", "8")),
            Column("finished", "Finishes", "3"),
            Column("trim_to", "Trimmed to", "3 1/2"),
            Column("count", "How many", "48"),
        ),
        named=True,
    ),
    Table(
        "block",
        "Blocks",
        (
            Column("name", "Block", "nine-patch"),
            Column("rows", "Rows, from the top", "A B A / B A B / A B A"),
            Column("finished", "Finishes", "9"),
            Column("trim_to", "Trimmed to"),
            Column("count", "How many", "12"),
        ),
        named=True,
    ),
    Table(
        "setting",
        "Setting",
        (
            Column("style", "Set", choices=("straight", "on point")),
            Column("across", "Blocks across", "5"),
            Column("down", "Blocks down", "6"),
            Column("block", "Block", "nine-patch"),
            Column("alternate", "Alternate block"),
            Column("floating", "Floats inside the edge", "1/2"),
        ),
        many=False,
    ),
    Table("setting.sides", "Side triangles", EDGE, many=False),
    Table("setting.corners", "Corner triangles", EDGE, many=False),
    Table(
        "setting.sashing",
        "Sashing",
        (
            Column("part", "Cut as part", "sash"),
            Column("cornerstone", "Cornerstones", "stone"),
            Column("strip", "or long strips"),
            Column("around", "Round the outside too", choices=("", NO)),
            Column("edge", "Edge of an on-point quilt", choices=("", "half", "whole")),
        ),
        many=False,
    ),
    Table(
        "border",
        "Borders, from the inside",
        (
            Column("sides", "Left and right", "border"),
            Column("top", "Top and bottom", "border"),
            Column("corner", "Corner squares"),
            Column("ends", "Corners", choices=("butted", "mitred")),
            Column("first", "Sewn first", choices=("sides", "top")),
        ),
    ),
    Table(
        "binding",
        "Binding",
        (
            Column("fabric", "Cloth", "navy"),
            Column("strip", "Strip height", "2 1/2"),
            Column("count", "Strips", "7"),
            Column("style", "Cut", choices=("straight", "bias")),
            Column("join", "Joined", choices=("diagonal", "straight")),
        ),
        many=False,
    ),
    Table(
        "backing",
        "Backing",
        (
            Column("size", "Size", "72 x 84"),
            Column("bought", "or length bought", "4 1/2 yd"),
            Column("usable_width", "Usable width", "42"),
            Column("panels", "Lengths side by side", "2"),
        ),
        many=False,
    ),
    Table("batting", "Batting", (Column("size", "Size", "72 x 90"),), many=False),
)
_WHOLE = {"count", "across", "down", "triangles", "at_a_time", "sets", "pieces", "panels"}
_LISTS = {"parts", "strips", "frame"}
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


def empty():
    """A form with nothing in it: {table key: list of lines}, each line a dict of text."""
    return {table.key: [blank(table)] for table in TABLES}


def blank(table):
    """One empty line of a table, its choices at what is usual."""
    return {column.key: _DEFAULTS.get(column.key, "") if column.choices else "" for column in table.columns}


def sheet_data(form, aside=None):
    """The plain tables of the sheet these fields make, and which line of the form each list entry stands on.

    >>> form = empty()
    >>> form[""][0] |= {"title": "Small", "seam": "1/4"}
    >>> sheet_data(form)[0]["title"]
    'Small'
    """
    data, lines = deepcopy(aside or {}), {}
    for table in TABLES:
        filled = [(number, line) for number, line in enumerate(form[table.key]) if _filled(table, line)]
        values = [_values(line) for _, line in filled]
        if table.key == "":
            data |= values[0] if values else {}
        elif table.named:
            named = {value.pop("name", f"line {number + 1}"): value for (number, _), value in zip(filled, values)}
            kept = data.get(table.key, {})
            data[table.key] = {name: kept.get(name, {}) | value for name, value in named.items()}
            lines[table.key] = {name: number for name, (number, _) in zip(named, filled)}
        elif table.many:
            data[table.key] = values
            lines[table.key] = [number for number, _ in filled]
        elif values:
            _place(data, table.key, values[0])
    return {key: value for key, value in data.items() if value not in ({}, [])}, lines


def read(form, aside=None):
    """The sheet these fields make, refused with `pattern.Unreadable` as a file would be."""
    data, _ = sheet_data(form, aside)
    return pattern.read_text(pattern.toml(data), "the form")


def filled_from(sheet):
    """The form filled from a sheet (a `Sheet`, or the plain tables of one that is not right yet), and what it says that the form
    has no field for."""
    data, form = deepcopy(sheet) if isinstance(sheet, dict) else pattern.as_data(sheet), empty()
    for table in TABLES:
        found = _take(data, table)
        if table.key == "":
            form[""] = [blank(table) | _texts(table, found)]
        elif table.named:
            form[table.key] = [
                blank(table) | _texts(table, {"name": name, **value}) for name, value in found.items()
            ] or [blank(table)]
        elif table.many:
            form[table.key] = [blank(table) | _texts(table, value) for value in found] or [blank(table)]
        elif found:
            form[table.key] = [blank(table) | _texts(table, found)]
    return form, data


def where(form, path, aside=None):
    """The field a refusal's path stands for, as (table key, line number, column key), or None; and its name in words."""
    _, lines = sheet_data(form, aside)
    for table in sorted(TABLES, key=lambda one: -len(one.key)):
        keys = table.key.split(".") if table.key else []
        if list(path[: len(keys)]) != keys or (
            not keys and (not path or path[0] not in {c.key for c in table.columns})
        ):
            continue
        rest = list(path[len(keys) :])
        number = 0
        if table.many and rest:
            numbers = lines.get(table.key, {})
            number = (
                numbers.get(rest[0], 0)
                if isinstance(numbers, dict)
                else (numbers[rest[0]] if isinstance(rest[0], int) and rest[0] < len(numbers) else 0)
            )
            rest = rest[1:]
        column = next((column for column in table.columns if rest and column.key == rest[0]), None)
        words = table.title + (f", line {number + 1}" if table.many else "") + (f", {column.label}" if column else "")
        return (table.key, number, column.key if column else None), words
    return None, "The form"


def _filled(table, line):
    """Whether anything but a choice has been typed in a line."""
    if table.key == "setting":
        return True
    return any(value.strip() for column in table.columns for value in [line[column.key]] if not column.choices) or (
        "how" in line and line["how"] != "plain"
    )


def _values(line):
    """A line of the form as a table of the sheet: blank fields left out, rows and pairs taken apart."""
    values = {}
    for key, text in line.items():
        text = text.strip()
        if not text:
            continue
        if key in _WHOLE and re.fullmatch(r"[0-9]{1,9}", text):
            values[key] = int(text)
        elif key == "rows":
            values[key] = [_row(row) for row in text.split("/")]
        elif key in _LISTS:
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


def _take(data, table):
    """What the sheet says of a table, taken out of it: what the form has no field for stays."""
    keys = table.key.split(".") if table.key else []
    place = data
    for key in keys[:-1]:
        place = place.get(key, {})
    known = {column.key for column in table.columns}
    if not keys:
        return {key: data.pop(key) for key in list(data) if key in known}
    found = place.pop(keys[-1], {} if table.named or not table.many else [])
    if table.many and not table.named:
        return found
    if table.named:
        kept = {name: {key: value for key, value in one.items() if key not in known} for name, one in found.items()}
        place[keys[-1]] = {name: rest for name, rest in kept.items() if rest}
    else:
        rest = {key: value for key, value in found.items() if key not in known}
        if rest:
            place[keys[-1]] = rest
    return found


def _texts(table, values):
    return {column.key: _text(column.key, values[column.key]) for column in table.columns if column.key in values}


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
