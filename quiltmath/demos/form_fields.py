"""The form of a pattern sheet as plain data: its fields in the order a printed pattern gives them, and the sheet they
make.

Fields are text as typed. What a sheet may say and the form has no field for (explicit steps, other sizes, a note, edge
triangles that differ from edge to edge) is kept aside and goes back into the sheet, so that loading and saving loses
nothing.
"""

import re
from collections.abc import Collection, Iterable, Sequence
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
            Field("pieces", "or pieces", "6"),
            Field("piece", "each of them a", "fat quarter"),
            Field("prints", "So many prints", "13"),
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
            Field("per_print", "or of each print", "5"),
            Field("size", "Size of a piece", "3 1/2", metric="9"),
            Field("strips", "from so many strips", "4"),
            Field("strip_width", "cut so wide", "3 1/2", metric="9"),
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
            Field("ready_made", "Ready made", choices=("", YES)),
            Field("size", "As it measures", "9 1/2", metric="24"),
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
            Field("rows", "or every block, in rows from the top"),
            Field("between", "On point: the rows between"),
            Field("columns", "or in columns from the left"),
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
            Field("sides_length", "cut to length", "60 1/2", metric="150"),
            Field("top", "Top and bottom", "border"),
            Field("top_length", "cut to length", "54 1/2", metric="140"),
            Field("triangles", "or four triangles"),
            Field("corner", "Corner squares"),
            Field("ends", "Corners", choices=("butted", "mitred")),
            Field("first", "Sewn first", choices=("sides", "top")),
            Field("only", "On these edges alone", "top"),
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
            Field("join", "Joined", choices=("", "diagonal", "straight")),
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
    Group(
        "batting",
        "Batting (wadding)",
        (
            Field("size", "Size", "72 x 90", metric="180 x 230"),
            Field("bought", "or length bought", "2 1/4 yd", metric="2.5 m"),
            Field("usable_width", "Width of the roll", "90", metric="230"),
        ),
        many=False,
    ),
)
_WHOLE = {"count", "per_print", "across", "down", "triangles", "at_a_time", "sets", "pieces", "prints", "panels"}
_COUNTED = "cut", "strips"  # a number; those of a strip set are names
_ROWS = {"rows", "between", "columns"}
_LISTS = {"parts", "strips", "frame", "only"}
_MAYBE_A_LIST = "setting.sashing", "strip"  # one name, or one for each length of row
_SIZES = {"size", "finished", "trim_to", "piece"}
LINE = ""  # the key under which a line that is kept aside has its name; no sheet has such a key
ODD = ',/"'  # what no name has that stands in no quotes
QUOTED = re.compile(r'(?P<quoted>"(?:[^"]|"")*")(?::(?P<turn>-?[0-9.]+))?')
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
    names = _names(form)
    for group in GROUPS:
        filled = [(number, line) for number, line in enumerate(form[group.key]) if _filled(group, line)]
        values = [_values(group, line, names) for _, line in filled]
        if group.key == "":
            data |= values[0] if values else {}
        elif group.named:
            called = _apart(value.pop("name", f"line {number + 1}") for (number, _), value in zip(filled, values))
            named = dict(zip(called, values))
            kept = data.get(group.key, {})
            data[group.key] = {name: kept.get(name, {}) | value for name, value in named.items()}
            lines[group.key] = {name: number for name, (number, _) in zip(named, filled)}
        elif group.many:
            data[group.key] = _with_kept(values, data.get(group.key, []), group.fields[0].key)
            lines[group.key] = [number for number, _ in filled]
        elif values:
            _place(data, group.key, values[0])
    return {key: value for key, value in data.items() if value not in ({}, [])}, lines


def read(form: dict[str, list[Line]], aside: dict[str, Any] | None = None) -> Any:
    """The sheet these fields make, refused with `pattern.Unreadable` as a file would be."""
    data, lines = sheet_data(form, aside)
    for group in GROUPS:
        for name in data.get(group.key, {}) if group.named else ():
            if name != name.strip():
                first = lines[group.key][name.strip()] + 1
                said = f"{name.strip()!r} is the name of line {first} too: give each a name of its own"
                raise pattern.Unreadable(f"the form: {said}", [group.key, name], said)
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
                blank(group) | _texts(group, {"name": name.strip(), **value}) for name, value in found.items()
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
            rest = rest[1:] or ["name"] * group.named
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


def _names(form):
    """What the form's parts, strip sets, units and blocks are called."""
    return {
        line[key].strip()
        for group, key in (("cut", "part"), ("strip_set", "name"), ("unit", "name"), ("block", "name"))
        for line in form[group]
    }


def _apart(names):
    """The names, each its own: the second of one name gets a blank, the third two, for nothing typed may be lost."""
    given = []
    for name in names:
        while name in given:
            name += " "
        given.append(name)
    return given


def _values(group, line, names):
    """A line of the form as a table of the sheet: blank fields left out, rows and pairs taken apart."""
    values = {}
    for key, text in line.items():
        text = text.strip()
        if not text:
            continue
        whole = key in _WHOLE and group.key != "border" or (group.key, key) == _COUNTED
        if whole and re.fullmatch(r"[0-9]{1,9}", text):
            values[key] = int(text)
        elif key in _ROWS:
            values[key] = rows_typed(text, names)
        elif (
            key in _LISTS
            and (group.key, key) != _COUNTED
            or (group.key, key) == _MAYBE_A_LIST
            and ("," in text or '"' in text)
        ):
            values[key] = [_bare(part) for part in _split(text, ",")]
        elif key == "instructions":
            values[key] = [line.strip() for line in text.splitlines() if line.strip()]
        elif key in ("directional", "around", "ready_made"):
            values[key] = text != NO
        elif _DEFAULTS.get(key) != text or key in ("kind", "style"):
            values[key] = text
    return values


def rows_typed(text: str, names: Collection[str] = ()) -> list[Any]:
    """Rows as they are typed, parted by slashes: names parted by blanks, or by commas where names have blanks in them;
    one in double quotes may have anything in it. A whole row may be one of the known `names`.

    >>> rows_typed("A B:90 / dark red, B"), rows_typed("log 2 / A, log 1", {"log 1", "log 2", "A"})
    (['A B:90', ['dark red', 'B']], [['log 2'], ['A', 'log 1']])
    >>> rows_typed('"red/white" B / "a:b":90'), rows_written([["red/white", "B"], [{"name": "a:b", "turn": 90}]])
    ([['red/white', 'B'], [{'name': 'a:b', 'turn': 90.0}]], '"red/white", B / "a:b":90')
    """
    return [_row(row, names) for row in _split(text, "/")]


def _row(text, names):
    if "," in QUOTED.sub("", text):
        return [_item(part) for part in _split(text, ",")]
    if '"' in text:
        return [_item(part) for part in _split(text, " ") if part]
    whole = text.partition(":")[0]
    return [text] if whole in names and not {word.partition(":")[0] for word in text.split()} <= {*names} else text


def _split(text, mark):
    """The parts of a text between marks that stand in no quotes."""
    parts, start = [], 0
    hidden = QUOTED.sub(lambda quoted: "_" * len(quoted[0]), text)
    for end in [place for place, char in enumerate(hidden) if char == mark] + [len(text)]:
        parts.append(text[start:end].strip())
        start = end + 1
    return parts


def _item(text):
    """One place in a row, its quotes taken off."""
    quoted = QUOTED.fullmatch(text)
    if quoted and quoted["turn"]:
        return {"name": _bare(quoted["quoted"]), "turn": float(quoted["turn"])}
    return _bare(text)


def _bare(text):
    """A name without the quotes round it."""
    whole = re.fullmatch(r'"((?:[^"]|"")*)"', text)
    return whole[1].replace('""', '"') if whole else text


def rows_written(rows: Iterable[Any]) -> str:
    """Rows as they would be typed: what `rows_typed` reads as the same rows."""
    return " / ".join(map(_row_written, rows))


def _row_written(row):
    if not isinstance(row, list):
        return row if not any(mark in row for mark in ODD) else ", ".join(map(_quoted, row.split()))
    return _quoted(row[0], alone=" " in str(row[0])) if len(row) == 1 else ", ".join(map(_quoted, row))


def _quoted(item, alone=False):
    """A name as it is typed, in quotes where it has to be."""
    if isinstance(item, dict):
        turn = item.get("turn", 0)
        return f"{_quoted(str(item.get('name', '')), alone=True)}:{turn:g}"
    item = str(item)
    odd = alone or any(mark in item for mark in ODD) or item != item.strip()
    return '"' + item.replace('"', '""') + '"' if odd else item


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
        kept = [_unknown(one, known) | {LINE: one.get(group.fields[0].key)} for one in found if isinstance(one, dict)]
        if any(one.keys() > {LINE} for one in kept):
            place[keys[-1]] = kept
        return found
    if group.named:
        kept = {name: _unknown(one, known) for name, one in found.items()}
        place[keys[-1]] = {name: rest for name, rest in kept.items() if rest}
    else:
        rest = _unknown(found, known)
        if rest:
            place[keys[-1]] = rest
    return found


def _unknown(table, known):
    """What a table says that the form has no field for."""
    return {key: value for key, value in table.items() if key not in known}


def _with_kept(values, kept, name):
    """The lines of a list with what was kept aside of each: of the line whose first field, its `name`, is still the
    same, or else of the one that stands where it stood."""
    found = [next((one for one in kept if one.get(LINE) == value.get(name)), None) for value in values]
    if len(kept) == len(values):
        found = [one or kept[number] for number, one in enumerate(found)]
    return [_unknown(rest or {}, {LINE}) | value for value, rest in zip(values, found)]


def _texts(group, values):
    return {field.key: _text(field.key, values[field.key]) for field in group.fields if field.key in values}


def _text(key, value):
    """A value of the sheet as it is typed in its field."""
    if isinstance(value, bool):
        return ("" if value else NO) if key == "around" else YES if value else ""
    if key == "instructions" and isinstance(value, list):
        return "\n".join(map(str, value))
    if key in _ROWS:
        return rows_written(value)
    if isinstance(value, list):
        return " x ".join(map(str, value)) if key in _SIZES else ", ".join(map(_quoted, value))
    return str(value)
