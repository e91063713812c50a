"""Which line of a TOML text gives a value: the parser does not say, so the text is read once more for its keys."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from functools import cached_property

_NAME = r"""(?:"[^"]*"|'[^']*'|[A-Za-z0-9_-]+)"""
_NAMES = rf"{_NAME}(?:\s*\.\s*{_NAME})*"
# Nothing in these can match in two ways, so that a line of blanks takes no longer than any other line.
_HEADER = re.compile(rf"\s*(\[\[?)\s*({_NAMES})\s*\]\]?\s*(?:#|$)")
_KEY = re.compile(rf"\s*({_NAMES})\s*=")
_EACH = re.compile(_NAME)
DEEPEST = 8  # keys: nothing in a sheet lies deeper
TOO_DEEP = re.compile(rf"\s*(?:\[\[?\s*)?{_NAME}(?:\s*\.\s*{_NAME}){{{DEEPEST},}}\s*[\]=]")


class KeyLines:
    """Where the values of a TOML text stand; the text is looked through once, when first asked.

    >>> lines = KeyLines("title = 'x'\\n[[cut]]\\npart = 'A'\\n[[cut]]\\npart = 'B'")
    >>> lines.of(["cut", 1, "part"]), lines.of(["cut", 1, "size"]), lines.of(["cut"]), lines.of(["step"])
    (5, 4, 2, None)
    """

    def __init__(self, text: str) -> None:
        self.text = text

    def of(self, path: Sequence[str | int]) -> int | None:
        """The number of the line that gives the value at this path of keys and list numbers, or of its table, or
        None."""
        given, inside = self._places
        for length in range(min(len(path), DEEPEST), 0, -1):
            place = tuple(path[:length])
            if place in given or place in inside:
                return given.get(place) or inside[place]
        return None

    @cached_property
    def _places(self) -> tuple[dict[tuple, int], dict[tuple, int]]:
        """{path: the first line that gives it}, and {path: the first line that gives something inside it}."""
        given: dict[tuple, int] = {}
        inside: dict[tuple, int] = {}
        for place, number in _places(self.text):
            given.setdefault(place, number)
            for length in range(1, len(place)):
                inside.setdefault(place[:length], number)
        return given, inside


def _places(text: str) -> Iterator[tuple[tuple, int]]:
    """The path of every table header and key in the text, as far down as a sheet goes, with its line."""
    table: tuple = ()
    counts: dict[tuple, int] = {}
    for number, line in enumerate(text.split("\n"), 1):
        header = _HEADER.match(line)
        if header:
            keys = _keys(header[2])
            if header[1] == "[[":
                counts[keys] = counts.get(keys, -1) + 1
                table = (*keys, counts[keys])
            else:
                table = _inside_lists(keys, counts)
            yield table, number
            continue
        key = _KEY.match(line)
        if key:
            yield (*table, *_keys(key[1]))[:DEEPEST], number


def _inside_lists(keys: tuple, counts: dict[tuple, int]) -> tuple:
    path: tuple = ()
    for key in keys:
        path = (*path, key)
        if path in counts:
            path = (*path, counts[path])
    return path[:DEEPEST]


def _keys(dotted: str) -> tuple:
    return tuple(part.strip("\"'") for part in _EACH.findall(dotted))[:DEEPEST]
