"""A sheet back as the text a person would type: what the form saves and what a mended pattern is written as."""
from fractions import Fraction

import tomli_w

from .. import lengths


def text(sheet, comment=""):
    """The sheet as TOML text that `read_text` reads back as the same sheet; `comment` becomes its first lines.

    >>> from quiltmath import pattern
    >>> from quiltmath.pattern.sheet import EXAMPLE
    >>> print(text(pattern.read_text(EXAMPLE)).splitlines()[0])
    title = "Four squares"
    """
    head = "".join(f"# {line}\n" for line in comment.splitlines())
    return head + tomli_w.dumps(as_data(sheet))


def as_data(sheet):
    """The sheet as plain tables, lists and text, as TOML gives them: lengths as text, what is not said left out."""
    return _plain(sheet, sheet.units)


def _plain(model, units):
    """A table of the sheet without what is left at its default."""
    table = {}
    for name, field in type(model).model_fields.items():
        value = getattr(model, name)
        if value == field.get_default(call_default_factory=True):
            continue
        table[field.alias or name] = _value(value, units)
    return table


def _value(value, units):
    if isinstance(value, Fraction):
        return _length(value, units)
    if isinstance(value, tuple) and len(value) == 2 and all(isinstance(side, Fraction) for side in value):
        width, height = (_length(side, units) for side in value)
        return width if width == height else [width, height]
    if isinstance(value, list) and value and type(value[0]).__name__ == "Item":
        return _row(value)
    if isinstance(value, (list, tuple)):
        return [_value(one, units) for one in value]
    if isinstance(value, dict):
        return {name: _value(one, units) for name, one in value.items()}
    return _plain(value, units) if hasattr(type(value), "model_fields") else value


def _length(inches, units):
    """A length as a person writes it, exact: a ruler fraction, a decimal, or else a fraction of an inch."""
    written = lengths.text(inches, unit=units)
    if not written.startswith("about"):
        return written
    return f"{inches.numerator}/{inches.denominator} in"


def _row(items):
    """A row as one piece of text where its names allow it, else as a list."""
    words = [item.name if not item.turn else f"{item.name}:{item.turn:g}" for item in items]
    if any(":" in item.name for item in items):
        return [{"name": item.name, "turn": item.turn} for item in items]
    return " ".join(words) if not any(" " in word for word in words) else words


def changed(sheet, *changes):
    """The sheet with some values changed: each change is (path of keys and list numbers, new value as typed, or None to leave
    the key out). Refused as a typed sheet would be."""
    from .reading import read_text
    data = as_data(sheet)
    for path, value in changes:
        place = data
        for key in path[:-1]:
            place = place.setdefault(key, {}) if isinstance(place, dict) else place[key]
        if value is None:
            place.pop(path[-1], None)
        elif isinstance(place, list) and path[-1] == len(place):
            place.append(value)
        else:
            place[path[-1]] = value
    return read_text(tomli_w.dumps(data), sheet.title)
