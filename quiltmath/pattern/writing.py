"""A sheet back as the text a person would type: what the form saves and a plan is written as."""

from __future__ import annotations

from fractions import Fraction
from functools import lru_cache
from typing import TYPE_CHECKING, cast

import tomli_w

from .. import lengths
from .doubts import doubt
from .fields import ENOUGH, OPEN
from .precut import FabricPiece

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence
    from typing import Any

    from .fields import Table
    from .sheet import Sheet


FORMS = ("value", "list", "nested", "apart", "table")  # of what stands in a table, in the order it is written


def text(sheet: Sheet, comment: str = "") -> str:
    """The sheet as TOML text that `read_text` reads back as the same sheet; `comment` becomes its first lines.

    >>> from quiltmath import pattern
    >>> from quiltmath.pattern.sheet import EXAMPLE
    >>> print(text(pattern.read_text(EXAMPLE)).splitlines()[0])
    title = "Four squares"
    """
    head = "".join(f"# {line}\n" for line in comment.splitlines())
    return head + toml(as_data(sheet))


def toml(data: Mapping[str, Any]) -> str:
    """Plain tables as TOML, each line of a list of tables (the cutting list, the steps) under a heading of its own."""
    values, lists, nested, apart, tables = (
        {key: value for key, value in data.items() if _form(value) == form} for form in FORMS
    )
    parts = [tomli_w.dumps(part) for part in (values, lists) if part]
    parts += [tomli_w.dumps({key: value}) for key, value in nested.items()]
    parts += [f"[[{key}]]\n{tomli_w.dumps(one)}" for key, value in apart.items() for one in value]
    parts.append(tomli_w.dumps(tables))
    return "\n".join(part for part in parts if part)


def _form(value):
    """In which of the FORMS a value is written: tables that hold tables nested, other tables of a list each apart."""
    if isinstance(value, dict):
        return "table"
    if not _is_table(value):
        return "list" if isinstance(value, list) else "value"
    return "nested" if any(_is_table(inner) for one in value for inner in one.values()) else "apart"


def _is_table(value):
    """Whether a value is a table, or a list of them."""
    return isinstance(value, dict) or isinstance(value, list) and bool(value) and isinstance(value[0], dict)


def as_data(sheet: Table, units: str | None = None) -> dict[str, Any]:
    """The sheet (or, with its `units`, a table of one) as plain tables, lists and text, as TOML gives them: lengths as
    text, what is not said left out."""
    return _plain(sheet, units or cast("Sheet", sheet).units)


def _plain(model, units):
    """A table of the sheet without what is left at its default."""
    table = {}
    for name, field in type(model).model_fields.items():
        value = getattr(model, name)
        if name in model.filled_in or value == field.get_default(call_default_factory=True):
            continue
        if name == "count" and value == OPEN:
            table[name] = ENOUGH
            continue
        unit = "yd" if name == "bought" and units == "in" else units
        key = field.alias or name
        table[key] = _value(value, unit)
        if isinstance(value, Fraction) and units == "in" and doubt([key], table[key], units):
            table[key] = inches_written(value)
    return table


def _value(value, units):
    if isinstance(value, Fraction):
        return _length(value, units)
    if isinstance(value, FabricPiece):
        return value.name or [_length(side, units) for side in (value.along, value.across)]
    if isinstance(value, tuple) and len(value) == 2 and all(isinstance(side, Fraction) for side in value):
        width, height = (_length(side, units) for side in value)
        return width if width == height else f"{width} x {height}"
    if isinstance(value, list) and value and type(value[0]).__name__ == "Item":
        return _row(value)
    if isinstance(value, (list, tuple)):
        return [_value(one, units) for one in value]
    if isinstance(value, dict):
        return {name: _value(one, units) for name, one in value.items()}
    return _plain(value, units) if hasattr(type(value), "model_fields") else value


@lru_cache(maxsize=4096)  # a sheet is written for every way in which it may be meant
def _length(inches, units):
    """A length as a person writes it, exact, in the sheet's units or else in inches."""
    written = lengths.text(inches, unit=units)
    return inches_written(inches) if written.startswith("about") else written


def inches_written(inches: Fraction) -> str:
    """A length in inches with its unit, exact: a ruler fraction, a decimal, or else another fraction.

    >>> inches_written(Fraction(31, 2)), inches_written(Fraction(1, 127))
    ('15 1/2 in', '1/127 in')
    """
    written = lengths.text(inches, mark="in")
    return f"{inches.numerator}/{inches.denominator} in" if written.startswith("about") else written


def _row(items):
    """A row as one piece of text where its names allow it, else as a list."""
    words = [item.name if not item.turn else f"{item.name}:{item.turn:g}" for item in items]
    if any(":" in item.name for item in items):
        return [{"name": item.name, "turn": item.turn} for item in items]
    return " ".join(words) if not any(" " in word for word in words) else words


def changed(sheet: Sheet, *changes: tuple[Sequence[Any], Any]) -> Sheet:
    """The sheet with some values changed: each change is (path of keys and list numbers, new value as typed, or None to
    leave the key out). Refused as a typed sheet would be."""
    from .reading import read_text

    data = as_data(sheet)
    for path, value in changes:
        place: Any = data
        for key in path[:-1]:
            place = place.setdefault(key, {}) if isinstance(place, dict) else place[key]
        if value is None and isinstance(place, list):
            del place[path[-1]]
        elif value is None:
            place.pop(path[-1], None)
        elif isinstance(place, list) and path[-1] == len(place):
            place.append(value)
        else:
            place[path[-1]] = value
    return read_text(toml(data), sheet.title)
