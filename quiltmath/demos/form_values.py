"""What is typed in the form of a pattern sheet as the sheet it makes, and back.

Values are text as typed. What a sheet says and the form has no field for (explicit steps, other sizes, a note, keys of
a line that no field shows) is kept, with its line where it belongs to one, and goes back into the sheet: loading and
saving loses nothing.
"""

import json
import re
from collections.abc import Mapping, Sequence
from copy import deepcopy
from typing import Any

from .. import pattern
from .form_fields import DEFAULTS, GROUPS, KEPT, NO, YES, Group, Line, Typed, blank, empty, says
from .form_rows import bare, quoted, rows_typed, rows_written, split

_WHOLE = {"count", "per_print", "across", "down", "triangles", "at_a_time", "sets", "pieces", "prints", "panels"}
_COUNTED = "cut", "strips"  # a number; those of a strip set are names
_ROWS = {"rows", "between", "columns"}
_LISTS = {"parts", "strips", "frame", "only"}
_MAYBE_A_LIST = "setting.sashing", "strip"  # one name, or one for each length of row
_SIZES = {"size", "finished", "trim_to", "piece"}
_YES_OR_NO = {"directional", "around", "scraps", "lengthwise", "ready_made"}
_INNER = {group.key.partition(".")[2] for group in GROUPS if "." in group.key}


def sheet_data(form: Typed, aside: dict[str, Any] | None = None) -> tuple[dict[str, Any], dict]:
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
            data[group.key] = dict(zip(called, values))
            lines[group.key] = {name: number for name, (number, _) in zip(data[group.key], filled)}
        elif group.many:
            data[group.key] = values
            lines[group.key] = [number for number, _ in filled]
        elif values:
            _place(data, group.key, values[0])
    return {key: value for key, value in data.items() if value not in ({}, [])}, lines


def read(form: Typed, aside: dict[str, Any] | None = None) -> pattern.Sheet:
    """The sheet these fields make, refused with `pattern.Unreadable` as a file would be."""
    data, lines = sheet_data(form, aside)
    for group in GROUPS:
        for name in data.get(group.key, {}) if group.named else ():
            if name != name.strip():
                first = lines[group.key][name.strip()] + 1
                said = f"{name.strip()!r} is the name of line {first} too: give each a name of its own"
                raise pattern.Unreadable(f"the form: {said}", [group.key, name], said)
    return pattern.read_text(pattern.toml(data), "the form")


def filled_from(sheet: Any) -> tuple[Typed, dict[str, Any]]:
    """The form filled from a sheet (a `Sheet`, or the plain tables of one that is not right yet), and what it says that
    belongs to no group of the form."""
    data, form = deepcopy(sheet) if isinstance(sheet, dict) else pattern.as_data(sheet), empty()
    for group in sorted(GROUPS, key=lambda one: -one.key.count(".")):  # the inner ones before what they lie in
        found = _taken(data, group)
        if group.named:
            found = [{"name": name.strip(), **value} for name, value in found.items()]
        elif not group.many:
            found = [found] if found else []
        form[group.key] = [_line(group, values) for values in found] or [blank(group)]
    return form, data


def where(
    form: Typed, path: Sequence[Any], aside: dict[str, Any] | None = None
) -> tuple[tuple[str, int, str | None] | None, str]:
    """The field a path in the sheet stands for, as (group key, line number, field key), or None; and its name in words.

    >>> where(empty(), ("setting", "across"))
    (('setting', 0, 'across'), 'Setting, Blocks across')
    """
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
        line = f", line {number + 1}" if group.many and len(form[group.key]) > 1 else ""
        return (group.key, number, field.key if field else None), group.title + line + (
            f", {field.label}" if field else ""
        )
    return None, "The pattern"


def kept(form: Typed, aside: dict[str, Any]) -> list[str]:
    """What a sheet said that no field shows, by name.

    >>> kept(empty(), {"step": [{"cut": "top"}], "note": "As drawn."})
    ['step', 'note']
    """
    in_lines = [
        f"{'/'.join(json.loads(line[KEPT]))} ({group.title}{f', line {number}' if group.many else ''})"
        for group in GROUPS
        for number, line in enumerate(form[group.key], 1)
        if line.get(KEPT)
    ]
    return [*aside, *in_lines]


def names_offered(form: Typed, of: str) -> list[str]:
    """The names that are typed already, of "fabric", "part" (units, blocks and strip sets too) or "block".

    >>> form = empty()
    >>> form["cut"][0] |= {"part": "A", "fabric": "navy"}
    >>> names_offered(form, "part"), names_offered(form, "fabric")
    (['A'], ['navy'])
    """
    places = {
        "fabric": [("fabric", "name"), ("cut", "fabric"), ("binding", "fabric")],
        "part": [("cut", "part"), ("strip_set", "name"), ("unit", "name"), ("block", "name")],
        "block": [("block", "name"), ("unit", "name"), ("cut", "part")],
    }[of]
    found = (line[key].strip() for group, key in places for line in form[group])
    return [name for name in dict.fromkeys(found) if name]


def renamed(form: Typed, names: Mapping[str, str]) -> Typed:
    """The form with other names for some pieces of the cutting list, wherever they are named.

    >>> form = empty()
    >>> form["cut"][0]["part"], form["block"][0]["rows"] = "B", "A B:90\\nB A"
    >>> changed = renamed(form, {"B": "C", "A": "B"})
    >>> changed["cut"][0]["part"], changed["block"][0]["rows"]
    ('C', 'B C:90\\nC B')
    """

    def other(name):
        whole, mark, turn = str(name).partition(":")
        return names.get(str(name), f"{names.get(whole, whole)}{mark}{turn}")

    def in_row(row):
        if isinstance(row, str):
            return " ".join(map(other, row.split()))
        return [{**one, "name": other(one["name"])} if isinstance(one, dict) else other(one) for one in row]

    def text(group, field, typed):
        if field.key in _ROWS and typed.strip():
            return rows_written([in_row(row) for row in rows_typed(typed, known)])
        if field.key in _LISTS and (group.key, field.key) != _COUNTED:
            return ", ".join(quoted(other(bare(part))) for part in split(typed, ",") if part)
        names_a_piece = field.offers in ("part", "block") or (group.key, field.key) == ("cut", "part")
        return other(typed.strip()) if names_a_piece else typed

    known = _names(form)
    return {
        group.key: [
            {**line, **{field.key: text(group, field, line[field.key]) for field in group.fields}}
            for line in form[group.key]
        ]
        for group in GROUPS
    }


def _filled(group: Group, line: Line) -> bool:
    """Whether anything but a choice has been typed in a line."""
    if group.key == "setting" or line.get(KEPT) or line.get("how", "plain") != "plain":
        return True
    return says(group, line, *(field.key for field in group.fields if not field.choices))


def _names(form):
    """What the form's parts, strip sets, units and blocks are called."""
    return set(names_offered(form, "part"))


def _apart(names):
    """The names, each its own: the second of one name gets a blank, the third two, for nothing typed may be lost."""
    given = []
    for name in names:
        while name in given:
            name += " "
        given.append(name)
    return given


NEEDED = ("unit", "kind"), ("setting", "style")  # said even where it is the usual one


def _values(group, line, names):
    """A line of the form as a table of the sheet: blank fields left out, rows and pairs taken apart."""
    values = json.loads(line[KEPT]) if line.get(KEPT) else {}
    for field in group.fields:
        text = line[field.key].strip()
        if text and (DEFAULTS.get(field.key) != text or (group.key, field.key) in NEEDED):
            values[field.key] = _value(group, field.key, text, names)
    return values


def _value(group, key, text, names=()):
    """What is typed in a field as a value of the sheet."""
    counted = (group.key, key) == _COUNTED
    if (key in _WHOLE and group.key != "border" or counted) and re.fullmatch(r"[0-9]{1,9}", text):
        return int(text)
    if key in _ROWS:
        return rows_typed(text, names)
    if key in _LISTS and not counted or (group.key, key) == _MAYBE_A_LIST and ("," in text or '"' in text):
        return [bare(part) for part in split(text, ",")]
    if key == "instructions":
        return [sentence.strip() for sentence in text.splitlines() if sentence.strip()]
    if key in _YES_OR_NO:
        return text != NO
    return text


def _place(data, key, value):
    *outer, last = key.split(".")
    for name in outer:
        data = data.setdefault(name, {})
    data[last] = {**data.get(last, {}), **value} if isinstance(data.get(last), dict) else value


def _taken(data, group):
    """What the sheet says of a group, taken out of it."""
    if group.key == "":
        return {key: data.pop(key) for key in list(data) if key in {field.key for field in group.fields}}
    *outer, last = group.key.split(".")
    for name in outer:
        data = data.get(name, {})
    return data.pop(last, {} if group.named or not group.many else [])


def _line(group, values):
    """A table of the sheet as a line of the form."""
    shown = {field.key for field in group.fields}
    typed = {key: value for key, value in values.items() if key in shown and _can_be_typed(key, value)}
    rest = {
        key: value
        for key, value in values.items()
        if key not in typed and not (group.key == "setting" and key in _INNER and value == {})
    }
    told = {KEPT: json.dumps(rest, default=str)} if rest else {}
    return blank(group) | {key: _text(key, value) for key, value in typed.items()} | told


def _can_be_typed(key, value):
    """Whether a value of a sheet is of a kind that its field can show."""
    plain = (str, int, float)
    if isinstance(value, bool):
        return key in _YES_OR_NO
    if key in _ROWS and isinstance(value, list):
        return all(isinstance(item, (str, dict)) for row in value for item in (row if isinstance(row, list) else [row]))
    return isinstance(value, plain) or isinstance(value, list) and all(isinstance(one, plain) for one in value)


def _text(key, value):
    """A value of the sheet as it is typed in its field."""
    if isinstance(value, bool):
        return ("" if value else NO) if key == "around" else YES if value else ""
    if key == "instructions" and isinstance(value, list):
        return "\n".join(map(str, value))
    if key in _ROWS and isinstance(value, list):
        return rows_written(value)
    if isinstance(value, list):
        return " x ".join(map(str, value)) if key in _SIZES else ", ".join(map(quoted, value))
    return str(value)
