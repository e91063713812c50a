"""A value spelled as the one it takes the place of: 3 7/8 as 3.875 where 3.5 stood, with the unit that was written."""

from __future__ import annotations

import re
from itertools import product
from typing import Any

import tomli_w

from .. import lengths

_UNIT = re.compile(r"\s*[^\d\s./½¼¾⅛⅜⅝⅞⅓⅔][^\d]*$")
_BY = re.compile(r"\s*(?:x|×|\bby\b)\s*")
_PLAIN = re.compile(r"[A-Za-z0-9_-]+")
MOST_PLACES = 4  # decimals of a number that stands for another
FEW_PLACES = 2  # where its unit is another


def spelled(like: Any, value: Any, units: str, rows: bool = False) -> Any:
    """A value of a sheet, as `as_data` gives it, in the form of the one that stood there: number, text or list, with
    the same unit, and what is the same in both kept as it was. `rows` says that they are the rows of a block.

    >>> spelled(3.5, "3 7/8", "in"), spelled("3 1/2 in", "3 7/8", "in"), spelled("84.9", "85.1 cm", "cm")
    (3.875, '3 7/8 in', '85.1')
    >>> spelled(["2 1/2", '12"'], "2 1/2 x 12 1/2", "in"), spelled([["A", "B"], "B A"], ["B A", "A B"], "in", rows=True)
    (['2 1/2', '12 1/2"'], ['B A', ['A', 'B']])
    """
    if rows and isinstance(like, list) and isinstance(value, list):
        return _rows(like, value)
    if isinstance(like, list) and len(like) == 2 and isinstance(value, str):
        sides = _BY.split(value)
        return [_length(one, side, units) for one, side in zip(like, sides * 2 if len(sides) == 1 else sides)]
    if isinstance(like, str) and isinstance(value, list) and len(value) == 1:
        return value[0]
    if isinstance(like, str) and isinstance(value, str) and _is_pair(value, units):
        return _pair(like, value, units)
    return _length(like, value, units)


def written(value: Any, quote: str = '"') -> str:
    """A value as one piece of TOML; text in such quotes where they can hold it.

    >>> print(written({"size": ["3 1/2", 4], "cut": "once"}))
    { size = ["3 1/2", 4], cut = "once" }
    """
    if isinstance(value, list):
        return f"[{', '.join(written(one, quote) for one in value)}]"
    if isinstance(value, dict):
        return f"{{ {', '.join(f'{key(name)} = {written(one, quote)}' for name, one in value.items())} }}"
    if isinstance(value, str) and quote == "'" and value.isprintable() and "'" not in value:
        return f"'{value}'"
    return tomli_w.dumps({"k": value}).removeprefix("k = ").rstrip("\n")


def key(name: str) -> str:
    """A name as a key of TOML.

    >>> key("navy"), key("side triangle")
    ('navy', '"side triangle"')
    """
    return name if _PLAIN.fullmatch(name) else written(name)


def _length(like, value, units):
    """A length, or else the value as it is; the very same one stays as it was."""
    wanted = _inches(value, units)
    if wanted is None or isinstance(like, bool) or not isinstance(like, (str, int, float)):
        return value
    if _inches(like, units) == wanted:
        return like
    for spelling in _spellings(like, value, wanted, units):
        if _inches(spelling, units) == wanted:
            return spelling
    return value


def _spellings(like, value, wanted, units):
    """How a length might be written in the way of another one, the likeliest first."""
    if not isinstance(like, str):
        yield from _number(wanted / lengths.INCHES[units], MOST_PLACES)
        return
    unit, own = (found[0] if (found := _UNIT.search(one)) else "" for one in (like, value))
    size, mine = (lengths.parse(f"1 {one.strip()}", unit=units) for one in (unit, own))
    figure = value.removesuffix(own)
    ways = [figure]
    if "." in like:
        ways = [*map(str, _number(wanted / size, MOST_PLACES if size == mine else FEW_PLACES)), figure]
    if re.search(r"\d-\d", like):
        ways.insert(0, figure.replace(" ", "-"))
    yield from (f"{way}{end}" for way, end in product(ways, (unit, f" {unit.strip()}")))


def _number(size, places):
    """The number for a size, alone, as short as it is written; none where it would be rounded."""
    if round(size, places) == size:
        yield int(size) if size.denominator == 1 else float(size)


def _is_pair(value, units):
    """Whether a text is a size of two lengths: a title may have "by" in it as well."""
    sides = _BY.split(value)
    return len(sides) == 2 and all(_inches(side, units) is not None for side in sides)


def _pair(like, value, units):
    """A size of two lengths, written as the one that stood there was."""
    old, new, by = _BY.split(like), _BY.split(value), _BY.search(like)
    if by is None:
        return value
    return by[0].join(_length(one, side, units) for one, side in zip(old, new))


def _inches(value, units):
    try:
        return lengths.parse(value, unit=units)
    except ValueError:
        return None


def _rows(like, value):
    """Rows of a block; a row that is there already is written as it is there, another one like the first."""
    known = {_items(row): row for row in reversed(like)}
    as_list = bool(like) and isinstance(like[0], list)
    return [known.get(_items(row), row.split() if as_list and isinstance(row, str) else row) for row in value]


def _items(row):
    """What a row names, however it is written."""
    words = row.split() if isinstance(row, str) else row
    return tuple(
        (word["name"], float(word.get("turn", 0))) if isinstance(word, dict) else _turned(word) for word in words
    )


def _turned(word):
    name, _, turn = word.partition(":")
    return name, float(turn or 0)
