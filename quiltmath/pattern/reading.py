"""From a file to a `Sheet`, or to one message that says what is wrong, where, and what to write."""

from __future__ import annotations

import re
import tomllib
from fractions import Fraction
from pathlib import Path
from typing import TYPE_CHECKING

from pydantic import ValidationError

from .lines import KeyLines
from .mistakes import not_toml, said, shown
from .names import first_trouble
from .sheet import Sheet

if TYPE_CHECKING:
    from collections.abc import Sequence
    from typing import Any

LARGEST = 1_000_000  # bytes: a sheet that a person types has a few thousand
LONGEST_LINE = 20_000  # characters: ten times the longest text of a sheet


class Unreadable(ValueError):
    """A sheet that cannot be read; the message names the file, the line where known, the field, the value, the cure.

    `path` is where in the sheet it is, as keys and list numbers, and `said` the message without file and field.
    """

    def __init__(self, message: str, path: Sequence[str | int] = (), said: str = "") -> None:
        super().__init__(message)
        self.path, self.said = tuple(path), said or message


def read(path: str | Path) -> Sheet:
    """The pattern in this TOML file, as a `Sheet`.

    >>> read("no-such-file.toml")
    Traceback (most recent call last):
    quiltmath.pattern.reading.Unreadable: no-such-file.toml: there is no such file; check its name and folder
    """
    return read_text(_file_text(Path(path)), str(path))


def tables(path: str | Path) -> dict[str, Any]:
    """The plain tables of a TOML file, whatever they say: what a form can be filled from while a value in it is still
    wrong."""
    return _loaded(_file_text(Path(path)), str(path))


def _file_text(path):
    """The text of a file that may be a sheet."""
    try:
        if path.is_dir():
            raise Unreadable(f"{path}: this is a folder; name one pattern sheet in it (a .toml file)")
        if path.stat().st_size > LARGEST:
            raise Unreadable(
                f"{path}: a pattern sheet has at most {LARGEST:,} bytes; this file has "
                f"{path.stat().st_size:,}: is it the right file?"
            )
        with path.open("rb") as file:
            raw = file.read(LARGEST + 1)  # a device or a pipe tells no size and may never end
    except FileNotFoundError:
        raise Unreadable(f"{path}: there is no such file; check its name and folder") from None
    except (OSError, ValueError) as problem:
        if isinstance(problem, Unreadable):
            raise
        raise Unreadable(
            f"{shown(path)}: the file cannot be opened ({getattr(problem, 'strerror', None) or problem})"
        ) from None
    if b"\0" in raw:
        raise Unreadable(f"{path}: this is not a text file; a pattern sheet is TOML text")
    if len(raw) > LARGEST:
        raise Unreadable(
            f"{path}: a pattern sheet has at most {LARGEST:,} bytes and this goes on: is it the right file?"
        )
    try:
        return raw.decode("utf-8-sig")
    except UnicodeDecodeError:
        raise Unreadable(f"{path}: this is not UTF-8 text; save the sheet as UTF-8") from None


def read_text(text: str, name: str = "sheet") -> Sheet:
    """The pattern in this TOML text; `name` is what messages call it.

    >>> read_text("title = x\\n")
    Traceback (most recent call last):
    quiltmath.pattern.reading.Unreadable: sheet, line 1: this is not TOML (Invalid value); text goes in double quotes, \
one "name = value" a line; got title = x
    """
    data = _loaded(text, name)
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
    trouble = first_trouble(sheet)
    if trouble:
        raise Unreadable(f"{sheet.place(trouble[0])}: {trouble[1]}", *trouble)
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


def _explained(problem, data, text, name):
    """The first error of a validation as an `Unreadable`, and how many more there are."""
    errors = problem.errors(include_url=False)
    error = next((e for e in errors if e["type"] == "extra_forbidden"), errors[0])
    path = _as_typed(error["loc"], data)
    line = KeyLines(text).of(path)
    message = said(error, path)
    others = {tuple(_as_typed(other["loc"], data)) for other in errors} - {tuple(path)}
    more = f" ({len(others)} more to correct after this)" if others else ""
    field = ".".join(str(key + 1) if isinstance(key, int) else key for key in path)
    where = f"{name}{f', line {line}' if line else ''}: {shown(field)}{': ' if field else ''}"
    return Unreadable(f"{where}{message}{more}", path, message)


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
