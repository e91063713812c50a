"""From a file to a `Sheet`, or to one message that says what is wrong, where, and what to write."""

from __future__ import annotations

import re
import sys
import tomllib
from fractions import Fraction
from pathlib import Path
from typing import TYPE_CHECKING

from pydantic import ValidationError

from .doubts import first_doubt, said_twice
from .files import Kind, contents
from .lines import DEEPEST, TOO_DEEP, KeyLines
from .misnamed import first_trouble
from .mistakes import not_toml, said, shown
from .names import in_one
from .sheet import Sheet

if TYPE_CHECKING:
    from collections.abc import Sequence
    from typing import Any, Self

STANDARD_INPUT = "-"  # in place of the name of a file
LARGEST = 1_000_000  # bytes: a sheet that a person types has a few thousand
SHEET = Kind("a pattern sheet", "one pattern sheet in it (a .toml file)", LARGEST, "is it the right file?")
LONGEST_LINE = 6_000  # characters: three times the longest text of a sheet


class Unreadable(ValueError):
    """A sheet that cannot be read; the message names the file, the line where known, the field, the value, the cure.

    `path` is where in the sheet it is, as keys and list numbers, and `said` the message without file and field.
    """

    def __init__(self, message: str, path: Sequence[str | int] = (), said: str = "") -> None:
        super().__init__(message)
        self.path, self.said = tuple(path), said or message

    @classmethod
    def at(cls, sheet: Sheet, path: Sequence[str | int], said: str) -> Self:
        """What is wrong at this path of a sheet that has been read."""
        return cls(f"{sheet.place(path)}: {said}", path, said)


def read(path: str | Path) -> Sheet:
    """The pattern in this TOML file, as a `Sheet`; "-" reads standard input.

    >>> read("no-such-file.toml")
    Traceback (most recent call last):
    quiltmath.pattern.reading.Unreadable: no-such-file.toml: there is no such file; check its name and folder
    """
    return read_text(*_text_and_name(path))


def tables(path: str | Path) -> dict[str, Any]:
    """The plain tables of a TOML file, whatever they say: what a form can be filled from while a value in it is still
    wrong."""
    return _loaded(*_text_and_name(path))


def _text_and_name(path):
    """The text of a file that may be a sheet, and what messages call it."""
    if path == STANDARD_INPUT:
        return _from_standard_input(), "standard input"
    return _sheet_text(contents(path, SHEET, Unreadable), str(path)), str(path)


def _from_standard_input():
    """The text that is piped in."""
    if sys.stdin is None:
        raise Unreadable("standard input: it is closed; name a file, or pipe a sheet in")
    raw = sys.stdin.buffer.read(LARGEST + 1)
    if len(raw) > LARGEST:
        raise Unreadable(f"standard input: {SHEET.called} has at most {LARGEST:,} bytes and this goes on: {SHEET.cure}")
    return _sheet_text(raw, "standard input")


def _sheet_text(raw, name):
    """The bytes of a file as text, if they can be a sheet."""
    if b"\0" in raw:
        raise Unreadable(f"{name}: this is not a text file; a pattern sheet is TOML text")
    try:
        return raw.decode("utf-8-sig")
    except UnicodeDecodeError:
        raise Unreadable(f"{name}: this is not UTF-8 text; save the sheet as UTF-8") from None


def read_text(text: str, name: str = "sheet") -> Sheet:
    """The pattern in this TOML text; `name` is what messages call it.

    >>> read_text("title = x\\n")
    Traceback (most recent call last):
    quiltmath.pattern.reading.Unreadable: sheet, line 1: this is not TOML (Invalid value); text goes in double quotes, \
one "name = value" a line; got title = x
    """
    data = _loaded(text, name)
    _refuse_twins(data, text, name)
    units = data.get("units", "in")
    written: dict[tuple[Fraction, bool], str] = {}
    try:
        try:
            sheet = Sheet.model_validate(data, context={"units": "cm" if units == "cm" else "in", "written": written})
        except ValidationError as problem:
            raise _explained(problem, data, text, name) from None
    except (RecursionError, OverflowError):
        raise Unreadable(f"{name}: values are nested too deeply or a number is too long for a pattern sheet") from None
    sheet.remember(name, text, written)
    in_one(sheet)
    trouble = first_trouble(sheet)
    if trouble is None:
        doubt = first_doubt(sheet, data)
        trouble = doubt and (doubt[0], f"{_field(doubt[0])}: {doubt[1]}")
    if trouble:
        raise Unreadable.at(sheet, *trouble)
    return sheet


def _loaded(text, name):
    """The tables of a TOML text, or what is wrong with it."""
    lines = text.split("\n")
    long = next((number for number, line in enumerate(lines, 1) if len(line) > LONGEST_LINE), None)
    if long is not None:
        raise Unreadable(
            f"{name}, line {long}: a line of a pattern sheet has at most {LONGEST_LINE:,} characters; this one has "
            f"{len(lines[long - 1]):,}: is it the right file?"
        )
    deep = next((number for number, line in enumerate(lines, 1) if TOO_DEEP.match(line)), None)
    if deep is not None:
        raise Unreadable(
            f"{name}, line {deep}: a name in a pattern sheet has at most {DEEPEST} parts between dots; got "
            f"{shown(lines[deep - 1])}"
        )
    try:
        return tomllib.loads(text.removeprefix("\ufeff"))
    except tomllib.TOMLDecodeError as problem:
        where = re.search(r"\(at line (\d+), column \d+\)", str(problem))
        number = int(where.group(1)) if where else len(text.splitlines())
        line = lines[number - 1] if 0 < number <= len(lines) else ""
        complaint = str(problem).rpartition(" (at ")[0] or str(problem)
        raise Unreadable(f"{name}{f', line {number}' if number else ''}: {not_toml(complaint, line)}") from None
    except (RecursionError, ValueError):
        raise Unreadable(
            f"{name}: this is not a sheet a pattern needs: values are nested too deeply or a number is too long"
        ) from None


def _refuse_twins(data, text, name):
    twins = said_twice(data)
    if twins is not None:
        lines = KeyLines(text)
        line = lines.of(twins[0]) or lines.of(twins[1])
        said = (
            f"{shown(repr(twins[1][-1].strip()))} is a name that is given twice, but for its blanks: give each a name "
            "of its own, or make one of them"
        )
        raise Unreadable(f"{name}{f', line {line}' if line else ''}: {said}", twins[1], said)


def _explained(problem, data, text, name):
    """The first error of a validation as an `Unreadable`, and how many more there are."""
    errors = problem.errors(include_url=False)
    error = next((e for e in errors if e["type"] == "extra_forbidden"), errors[0])
    at = getattr(error.get("ctx", {}).get("error"), "key", "")
    keys = (int(key) if key.isdigit() else key for key in filter(None, at.split(".")))
    path = _as_typed([*error["loc"], *keys], data)
    line = KeyLines(text).of(path)
    message = said(error, path)
    others = {tuple(_as_typed(other["loc"], data)) for other in errors if other is not error} - {tuple(path)}
    more = f" ({len(others)} more to correct after this)" if others else ""
    where = f"{name}{f', line {line}' if line else ''}: {_field(path)}{': ' if path else ''}"
    return Unreadable(f"{where}{message}{more}", path, message)


def _field(path):
    """A path in the sheet as a message names it; list entries are counted from 1."""
    return shown(".".join(str(key + 1) if isinstance(key, int) else key for key in path))


def _as_typed(location, data):
    """The path of an error as far as the sheet itself has it: no steps of the model's own."""
    path = []
    for key in location:
        inside = isinstance(data, list) and isinstance(key, int) or isinstance(data, dict) and isinstance(key, str)
        if not inside:
            break
        path.append(key)
        data = (
            data[key]
            if isinstance(data, list) and key < len(data)
            else (data.get(key) if isinstance(data, dict) else None)
        )
    return path
