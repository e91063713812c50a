"""Rows of names as they are typed in one box, and written back: names parted by blanks or commas, rows by slashes or
line ends."""

import re
from collections.abc import Collection, Iterable
from typing import Any

TURNED = re.compile(r":-?[0-9.]+$")
ODD = ',/"\n'  # what no name has that stands in no quotes
QUOTED = re.compile(r'(?P<quoted>"(?:[^"]|"")*")(?::(?P<turn>-?[0-9.]+))?')


def rows_typed(text: str, names: Collection[str] = ()) -> list[Any]:
    """Rows as they are typed, parted by slashes or line ends: names parted by blanks, or by commas where names have
    blanks in them; one in double quotes may have anything in it. A whole row may be one of the known `names`.

    >>> rows_typed("A B:90 / dark red, B"), rows_typed("log 2 / A, log 1", {"log 1", "log 2", "A"})
    (['A B:90', ['dark red', 'B']], [['log 2'], ['A', 'log 1']])
    >>> rows_typed('"red/white" B / "a:b":90'), rows_written([["red/white", "B"], [{"name": "a:b", "turn": 90}]])
    ([['red/white', 'B'], [{'name': 'a:b', 'turn': 90.0}]], '"red/white", B\\n"a:b":90')
    """
    return [_row(row, names) for row in split(text, "/\n") if row] or [""]


def _row(text, names):
    if "," in QUOTED.sub("", text):
        return [_item(part) for part in split(text, ",")]
    if '"' in text:
        return [_item(part) for part in split(text, " ") if part]
    whole = TURNED.sub("", text)
    return [text] if whole in names and not {word.partition(":")[0] for word in text.split()} <= {*names} else text


def split(text: str, marks: str) -> list[str]:
    """The parts of a text between marks that stand in no quotes.

    >>> split('A, "b, c"', ",")
    ['A', '"b, c"']
    """
    parts, start = [], 0
    hidden = QUOTED.sub(lambda match: "_" * len(match[0]), text)
    for end in [place for place, char in enumerate(hidden) if char in marks] + [len(text)]:
        parts.append(text[start:end].strip())
        start = end + 1
    return parts


def _item(text):
    """One place in a row, its quotes taken off."""
    found = QUOTED.fullmatch(text)
    if found and found["turn"]:
        return {"name": bare(found["quoted"]), "turn": float(found["turn"])}
    return bare(text)


def bare(text: str) -> str:
    """A name without the quotes round it.

    >>> bare('"red, ""odd"" one"')
    'red, "odd" one'
    """
    whole = re.fullmatch(r'"((?:[^"]|"")*)"', text)
    return whole[1].replace('""', '"') if whole else text


def rows_written(rows: Iterable[Any]) -> str:
    """Rows as they would be typed: what `rows_typed` reads as the same rows."""
    return "\n".join(map(_row_written, rows))


def _row_written(row):
    if not isinstance(row, list):
        return row if not any(mark in row for mark in ODD) else ", ".join(map(quoted, row.split()))
    return quoted(row[0], alone=" " in str(row[0])) if len(row) == 1 else ", ".join(map(quoted, row))


def quoted(item: Any, alone: bool = False) -> str:
    """A name as it is typed, in quotes where it has to be.

    >>> quoted("dark red"), quoted("red/white"), quoted({"name": "B", "turn": 90})
    ('dark red', '"red/white"', '"B":90')
    """
    if isinstance(item, dict):
        turn = item.get("turn", 0)
        return f"{quoted(str(item.get('name', '')), alone=True)}:{turn:g}"
    item = str(item)
    odd = alone or any(mark in item for mark in ODD) or item != item.strip()
    return '"' + item.replace('"', '""') + '"' if odd else item
