"""Where everything in a TOML text stands, to the character: its tables, its keys, each value inside a value, its
comments.

The text has been read by `tomllib` before: what is looked for here is its layout, and nothing is refused.
"""

from __future__ import annotations

import re
import tomllib
from dataclasses import dataclass, field
from typing import NamedTuple

_GAP = re.compile(r"[ \t]*")
_SPACE = re.compile(r"[ \t\r\n]*")
_COMMENT = re.compile(r"#[^\r\n]*")
_KEY = re.compile(r'"(?:[^"\\\n]|\\.)*"|\'[^\'\n]*\'|[A-Za-z0-9_-]+')
_LONG_TEXT = re.compile(r'"""(?:[^\\]|\\.)*?"""(?!")|\'\'\'.*?\'\'\'(?!\')', re.DOTALL)
_SCALAR = re.compile(r'"(?:[^"\\\n]|\\.)*"|\'[^\'\n]*\'|\d{4}-\d\d-\d\d \d\d:[^\s,\]}#]+|[^\s,\]}#]+')

Path = tuple[str | int, ...]


class Header(NamedTuple):
    """The heading of a table, [path] or, of one more table of a list, [[path]], which its path then numbers."""

    path: Path
    start: int
    end: int


class Given(NamedTuple):
    """One `key = value`: under which heading (its number in `Spans.headers`, -1 for none), its whole path, where its
    key starts and its value ends."""

    header: int
    path: Path
    start: int
    end: int


class Value(NamedTuple):
    """A value, alone or inside another: its kind ("list", "table" in braces, or "plain"), where its key starts (in a
    list: where the value does), where it starts and ends."""

    kind: str
    key: int
    start: int
    end: int


@dataclass
class Spans:
    """The layout of a TOML text; names are without the blanks round them, as a sheet has them.

    `values` has each value by its path, `comments` and `texts` (over several lines) their starts and ends.

    >>> found = spans('title = "x"  # name\\n[[cut]]\\nsize = ["3 1/2", 4]\\n')
    >>> value = found.values["cut", 0, "size", 0]
    >>> found.text[value.start:value.end], found.headers[0].path, found.comments
    ('"3 1/2"', ('cut', 0), [(13, 19)])
    """

    text: str
    headers: list[Header] = field(default_factory=list)
    given: list[Given] = field(default_factory=list)
    values: dict[Path, Value] = field(default_factory=dict)
    comments: list[tuple[int, int]] = field(default_factory=list)
    texts: list[tuple[int, int]] = field(default_factory=list)

    def source(self, path: Path) -> str:
        """A value as it is written."""
        return self.text[self.values[path].start : self.values[path].end]

    def line_start(self, place: int) -> int:
        """Where the line of this place starts."""
        return self.text.rfind("\n", 0, place) + 1

    def line_end(self, place: int) -> int:
        """Where the line of this place ends, its line break left out."""
        end = self.text.find("\n", place)
        end = len(self.text) if end < 0 else end
        return end - (end > place and self.text[end - 1] == "\r")

    def inside_text(self, place: int) -> bool:
        """Whether a text over several lines goes on at this place."""
        return any(start < place < end for start, end in self.texts)

    def items(self, path: Path) -> list[Value]:
        """The values of a list or of a table in braces, in order."""
        return [self.values[one] for one in self._inside(path)]

    def numbers(self, path: Path) -> list[int]:
        """Which items of its list or of its table in braces make up what a path names."""
        around = self._inside(path[:-1])
        return [number for number, one in enumerate(around) if one[: len(path)] == path]

    def _inside(self, path):
        """The paths of the values right inside another; dots in a key make no value of their own."""
        within = [one for one in self.values if len(one) > len(path) and one[: len(path)] == path]
        return [one for one in within if not any(one[:deep] in self.values for deep in range(len(path) + 1, len(one)))]


def spans(text: str) -> Spans:
    """The layout of a TOML text that `tomllib` reads."""
    return _Reader(text).read()


class _Reader:
    """Walks through a text once; `at` is how far it has come."""

    def __init__(self, text):
        self.at, self.found, self.counts = text.startswith("\ufeff"), Spans(text), {}

    def read(self):
        table = ()
        while self._skip(_SPACE):
            if self.found.text[self.at] == "[":
                table = self._header()
            else:
                self._key_and_value(table, len(self.found.headers) - 1)
        return self.found

    def _skip(self, space):
        """Go past blanks and comments; whether anything follows."""
        text = self.found.text
        while True:
            self.at = space.match(text, self.at).end()
            comment = _COMMENT.match(text, self.at)
            if comment is None:
                return self.at < len(text)
            self.found.comments.append(comment.span())
            self.at = comment.end()

    def _take(self, pattern):
        match = pattern.match(self.found.text, self.at)
        self.at = match.end()
        return match[0]

    def _keys(self):
        """The names of a dotted key."""
        names = []
        while True:
            self._take(_GAP)
            key = self._take(_KEY)
            names.append(tomllib.loads(f"k={key}")["k"].strip() if key[0] in "\"'" else key)
            self._take(_GAP)
            if self.found.text[self.at] != ".":
                return tuple(names)
            self.at += 1

    def _header(self):
        start, many = self.at, self.found.text.startswith("[[", self.at)
        self.at += 1 + many
        keys = self._keys()
        self.at += 1 + many
        path = ()
        for number, key in enumerate(keys, 1):
            path = (*path, key)
            if number == len(keys) and many:
                self.counts[path] = self.counts.get(path, -1) + 1
            if path in self.counts:
                path = (*path, self.counts[path])
        self.found.headers.append(Header(path, start, self.at))
        return path

    def _key_and_value(self, table, header):
        start, keys = self.at, self._keys()
        self.at += 1
        self._take(_GAP)
        path = (*table, *keys)
        self._value(path, start)
        if header is not None:
            self.found.given.append(Given(header, path, start, self.at))

    def _value(self, path, key):
        start, text = self.at, self.found.text
        kind = {"[": "list", "{": "table"}.get(text[start], "plain")
        long = _LONG_TEXT.match(text, start)
        if kind != "plain":
            self.at += 1
            self._inside(path, kind)
        elif long is not None:
            self.at = long.end()
            self.found.texts.append(long.span())
        else:
            self._take(_SCALAR)
        self.found.values[path] = Value(kind, key, start, self.at)

    def _inside(self, path, kind):
        """The values of a list or of a table in braces, to its closing bracket."""
        number = 0
        while True:
            self._skip(_SPACE)
            if self.found.text[self.at] in "]}":
                self.at += 1
                return
            if self.found.text[self.at] == ",":
                self.at += 1
                continue
            if kind == "list":
                self._value((*path, number), self.at)
                number += 1
            else:
                self._key_and_value(path, None)
