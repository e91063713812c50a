"""Which line of a TOML text gives a value: the parser does not say, so the text's layout is looked up (`spans`)."""

from __future__ import annotations

import re
from bisect import bisect_right
from collections.abc import Sequence
from functools import cached_property

from .spans import spans

_NAME = r"""(?:"[^"]*"|'[^']*'|[A-Za-z0-9_-]+)"""
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
        for length in range(len(path), 0, -1):
            place = tuple(path[:length])
            if place in given or place in inside:
                return given.get(place) or inside[place]
        return None

    @cached_property
    def _places(self) -> tuple[dict[tuple, int], dict[tuple, int]]:
        """{path: the line that gives it}, and {path: the first line that gives something inside it}."""
        found = spans(self.text)
        starts = [0, *(place + 1 for place, char in enumerate(self.text) if char == "\n")]
        places = [(header.path, header.start) for header in found.headers]
        places += [(path, value.key) for path, value in found.values.items()]
        given: dict[tuple, int] = {}
        inside: dict[tuple, int] = {}
        for path, place in sorted(places, key=lambda one: one[1]):
            line = bisect_right(starts, place)
            given.setdefault(path, line)
            for length in range(1, len(path)):
                inside.setdefault(path[:length], line)
        return given, inside
