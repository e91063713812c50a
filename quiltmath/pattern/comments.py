"""The comments of a sheet's text, by what they stand above: kept where the tables are written anew, as a form does."""

from __future__ import annotations

import re
import tomllib
from typing import Any

Comments = dict[tuple[str, ...], list[str]]
"""{the path of a table or of a key at the top of the sheet: the lines of comment right above it}."""

_HEADER = re.compile(r"\[\[?(?P<name>.+?)\]\]?\s*(?:#.*)?")
_KEY = re.compile(r"(?P<name>[A-Za-z0-9_-]+)\s*=")


def comments(text: str) -> Comments:
    """The lines of comment that stand right above the tables and the keys of a sheet.

    >>> found = comments('# "Size: 40 x 50"\\nfinished = ["40", "50"]\\n\\n# 8 squares 3"\\n[[cut]]\\npart = "A"')
    >>> found["finished",], found["cut", "A"]
    (['# "Size: 40 x 50"'], ['# 8 squares 3"'])
    """
    found: Comments = {}
    above: list[str] = []
    lines = text.splitlines()
    for number, line in enumerate(lines):
        if line.startswith("#"):
            above.append(line)
            continue
        path = _path(lines, number)
        if path and above:
            found.setdefault(path, above)
        above = []
    return found


def commented(text: str, above: Comments) -> str:
    """A sheet's text with these comments above the tables and keys that it has.

    >>> commented('[[cut]]\\npart = "A"\\n', {("cut", "A"): ['# 8 squares 3"'], ("cut", "B"): ["# gone"]})
    '# 8 squares 3"\\n[[cut]]\\npart = "A"\\n'
    """
    lines, found = text.splitlines(), []
    left = dict(above)
    for number, line in enumerate(lines):
        found += [*left.pop(_path(lines, number), []), line]
    return "\n".join(found) + "\n"


def _path(lines: list[str], number: int) -> tuple[str, ...]:
    """The path of the table or of the key that begins on this line; () where none does. Tables of a list go by their
    part, or by their number."""
    line = lines[number]
    key = _KEY.match(line)
    if key and not any(_HEADER.fullmatch(one) for one in lines[:number]):
        return (key["name"],)
    header = _HEADER.fullmatch(line)
    if header is None:
        return ()
    try:
        names = _names(tomllib.loads(f"[{header['name']}]"))
    except tomllib.TOMLDecodeError:
        return ()
    if not line.startswith("[["):
        return names
    rest = lines[number + 1 :]
    of_table = rest[: next((place for place, one in enumerate(rest) if _HEADER.fullmatch(one)), len(rest))]
    part = next((one for one in of_table if one.startswith("part = ")), "")
    try:
        return (*names, tomllib.loads(part)["part"])
    except (tomllib.TOMLDecodeError, KeyError):
        return (*names, str(sum(one == line for one in lines[:number])))


def _names(table: dict[str, Any]) -> tuple[str, ...]:
    """The names of tables in tables, from the outermost."""
    return next(((name, *_names(inner)) for name, inner in table.items()), ())
