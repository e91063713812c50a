"""A class sheet: the strip tests of a class, a reading a line, typed or pasted from a table."""

from __future__ import annotations

import csv
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from statistics import median
from typing import NamedTuple

from ..lengths import Length, parse
from ..usual import SEAM
from .strips import SeamTest, from_strips, near, plausible

COLUMNS = ("name", "total", "centre", "strip", "strips")
ALSO = {"who": "name", "maker": "name", "center": "centre", "middle": "centre", "count": "strips", "width": "strip"}
LENGTHS = {"total": "total", "centre": "centre", "strip": "cut width"}
"""The columns of lengths, and what each of them is called."""
MOST_READINGS, LONGEST_NAME = 24, 16
NO_NAME = "reading {}"


class Reading(NamedTuple):
    """A line that was read: its number, whose it is, and the strip test it tells; a line of heads is not counted."""

    number: int
    name: str
    test: SeamTest


class Refused(NamedTuple):
    """A line that was not: its number, whose it is, and why, in words; a line of heads is not counted."""

    number: int
    name: str
    words: str

    @property
    def whose(self) -> str:
        """Which reading it is, in words."""
        nameless = NO_NAME.format(self.number)
        return nameless if self.name == nameless else f"{nameless}, {self.name}"

    @property
    def said(self) -> str:
        """Which reading it is and why it was not read, in words."""
        return f"{self.whose}: {self.words}"


@dataclass(frozen=True)
class ClassSheet:
    """The readings of a class in their order, and the lines that could not be read."""

    readings: tuple[Reading, ...]
    refused: tuple[Refused, ...] = ()

    @property
    def middle(self) -> Fraction:
        """What an allowance of the class is off in the middle: as many take more as take less, in inches."""
        return median(one.test.needle for one in self.readings)

    @property
    def apart(self) -> Fraction:
        """By how much the widest allowance of the class differs from the narrowest, in inches."""
        needles = [one.test.needle for one in self.readings]
        return max(needles) - min(needles)

    @property
    def sentence(self) -> str:
        """How many take too much, too little, and neither as far as the readings tell."""
        told = [one.test.needle for one in self.readings if one.test.tells]
        much, little = sum(one > 0 for one in told), sum(one < 0 for one in told)
        within = len(self.readings) - len(told)
        alone = sum(one.test.centre is None for one in self.readings)
        said = (
            f"{_count(len(self.readings), 'reading')}: {much} take{'s' * (much == 1)} too much, {little} "
            f"take{'s' * (little == 1)} too little, {within} {'is' if within == 1 else 'are'} right as far as the "
            "reading can tell."
        )
        if alone:
            said += f" {alone} without a centre count{'s' * (alone == 1)} as if the strips were cut right."
        if len(self.readings) > 1:
            said += f" The widest allowance and the narrowest are {near(self.apart)} apart."
        if self.refused:
            whose = "; ".join(one.whose for one in self.refused)
            said += f" {_count(len(self.refused), 'line')} could not be read: {whose}."
        return said


def class_sheet(
    text: str, *, strip: Length = "1 1/2", count: int = 3, seam: Length = SEAM, reading: Length = "1/32"
) -> ClassSheet:
    """Read a class sheet: a line for each maker, with a name, the total and the centre, parted by commas, semicolons or
    tabs; a first line may name the columns, of `name`, `total`, `centre`, `strip`, `strips`.

    A name may be left out, and a centre that was not measured. A line that cannot be read is refused alone.

    >>> sheet = class_sheet("name, total, centre\\nAna, 3 1/2, 1\\nBea, 3 3/8,\\n, 3 1/2, three")
    >>> [(one.name, one.test.needle) for one in sheet.readings]
    [('Ana', Fraction(0, 1)), ('Bea', Fraction(1, 32))]
    >>> print(sheet.refused[0].said[:57])
    reading 3: centre: a length is a whole number, a fraction
    >>> class_sheet("")
    Traceback (most recent call last):
    ValueError: a class sheet has a line for each reading, from 1 to 24 of them; got none: type one, for example \
Ana, 3 1/2, 1
    """
    parted_by = _parted_by(text)
    lines = [line for line in str(text).splitlines() if line.strip(" ,;\t")]
    rows = [_cells(line, parted_by) for line in lines]
    columns = _columns(rows[0]) if rows else None
    rows = rows[1:] if columns else rows
    if not 1 <= len(rows) <= MOST_READINGS:
        cure = "type one, for example Ana, 3 1/2, 1" if not rows else "paste a part of them"
        raise ValueError(
            f"a class sheet has a line for each reading, from 1 to {MOST_READINGS} of them; got "
            f"{len(rows) or 'none'}: {cure}"
        )
    usual = {"strip": strip, "count": count, "seam": seam, "reading": reading}
    read = [_read(number, cells, columns, usual) for number, cells in enumerate(rows, 1)]
    return ClassSheet(
        tuple(one for one in read if isinstance(one, Reading)), tuple(one for one in read if isinstance(one, Refused))
    )


def with_reading(text: str, **cells: str) -> str:
    """The text of a class sheet with one line more, its cells in the columns of that sheet; a column that it lacks is
    added to its head.

    >>> print(with_reading("centre; total; name\\n1; 3 1/2; Ana", name="Bo", total="5", centre="1 1/2", strip="2"))
    centre; total; name; strip
    1; 3 1/2; Ana
    1 1/2; 5; Bo; 2
    >>> print(with_reading("", name="Cleo, 3", total="3 3/8"))
    name, total, centre
    "Cleo, 3", 3 3/8,
    >>> with_reading("", name=" ", total="")
    Traceback (most recent call last):
    ValueError: a reading needs the total; nothing was typed: type it, for example 3 1/2
    """
    if not any(cell.strip() for cell in cells.values()):
        raise ValueError("a reading needs the total; nothing was typed: type it, for example 3 1/2")
    mark, lines = _parted_by(text), [line for line in str(text).splitlines() if line.strip()]
    head = COLUMNS[:3] if not lines else _columns(_cells(lines[0], mark))
    columns = [*(head or COLUMNS)]
    columns += [name for name in COLUMNS if name not in columns and cells.get(name)]
    if head:
        lines[:1] = [_line(columns, mark)]
    row = _line([cells.get(name, "") for name in columns], mark)
    return "\n".join([*lines, row if head else row.rstrip(f" {mark}")])


def _line(cells: Iterable[str], mark: str) -> str:
    """Cells as a line, between quotes where they hold a sign that would part them."""
    plain = [" ".join(cell.split()) for cell in cells]
    quoted = ['"' + cell.replace('"', '""') + '"' if mark in cell or '"' in cell else cell for cell in plain]
    return f"{mark} ".join(quoted).rstrip(" ")


def _parted_by(text: str) -> str:
    """The sign between the cells of a class sheet."""
    return next((mark for mark in "\t;" if mark in str(text)), ",")


def _cells(line: str, parted_by: str) -> list[str]:
    """The cells of a line, without blanks and quotes round them."""
    return [cell.strip() for cell in next(csv.reader([line], delimiter=parted_by, skipinitialspace=True))]


def _columns(cells: Iterable[str]) -> list[str] | None:
    """The columns that a first line names, or None where it names none."""
    named = [ALSO.get(cell.casefold(), cell.casefold()) for cell in cells]
    return named if "total" in named else None


def _read(number, cells, columns, usual):
    """A line as a Reading, or Refused; `number` is which of the readings it is."""
    at = dict(zip(columns or _places(cells), cells))
    name = _shortened("".join(char for char in at.get("name", "") if char.isprintable())) or NO_NAME.format(number)
    try:
        return Reading(number, name, _test(at, usual, cells, columns))
    except ValueError as refused:
        return Refused(number, name, str(refused))


def _shortened(name):
    """A name that has room in a picture: what is cut off leaves a sign.

    >>> _shortened("Wilhelmina-Antoinette"), _shortened("Ana")
    ('Wilhelmina-Anto…', 'Ana')
    """
    return name if len(name) <= LONGEST_NAME else name[: LONGEST_NAME - 1].rstrip() + "…"


def _places(cells: Sequence[str]) -> tuple[str, ...]:
    """Which columns the cells of a line without heads are; two may be a name and the total, or both measures."""
    if len(cells) == 1:
        return ("total",)
    return COLUMNS if len(cells) > 2 or not cells[0][:1].isdigit() else ("total", "centre")


def _test(at, usual, cells, columns):
    most = len(columns or COLUMNS)
    if len(cells) > most:
        raise ValueError(f"a line has at most {most} cells here; got {len(cells)}: leave out what is no reading")
    if not at.get("total"):
        raise ValueError("a reading needs the total; got none: measure across all strips again, raw edge to raw edge")
    given = {**usual, **{column: _length(column, at[column]) for column in LENGTHS if at.get(column)}}
    if at.get("strips"):
        if not at["strips"].isdecimal():
            raise ValueError(
                f"strips are counted in whole numbers; got {at['strips'][:40]!r}: count them, for example 3"
            )
        given["count"] = int(at["strips"][:6])
    return plausible(from_strips(**given))


def _length(column, written):
    try:
        return parse(written)
    except ValueError as refused:
        raise ValueError(f"{LENGTHS[column]}: {refused}") from None


def _count(number: int, one: str) -> str:
    return f"{number} {one}{'s' * (number != 1)}"
