"""What strips of a width and a length give: pieces no wider than they are, and how many of them."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from math import ceil, floor

from .figures import long_side
from .model import Entry, Reading
from .pieces import WHOLE_WIDTHS

LEAST_WIDTHS = range(*WHOLE_WIDTHS["in"])
"""Inches: the usable widths of fabric by which strips are counted."""


def sides_of(entry: Entry) -> list[str]:
    """Both sides of a piece; none of what has no size."""
    size = entry.data.get("size", [])
    return [size, size] if isinstance(size, str) else size


def is_narrow(entry: Entry, width: str) -> bool:
    """Whether a piece is no wider than the strips, one way or the other."""
    return min((long_side(side)[0] for side in sides_of(entry)), default=WHOLE_WIDTHS["cm"][1]) <= long_side(width)[0]


def fits(width: str, number: int, entry: Entry) -> bool:
    """Whether pieces of an entry take just so many strips of this width, for one usable width of fabric."""
    wanted, sides = entry.data.get("count"), sides_of(entry)
    if not isinstance(wanted, int) or width not in sides:
        return False
    along = long_side(sides[1] if sides[0] == width else sides[0])[0]
    gives = {floor(wide / along) for wide in LEAST_WIDTHS}
    return any(one and ceil(wanted / one) == number for one in gives)


def in_all(pieces: Iterable[Entry]) -> Fraction | int:
    """How long all these are end to end, in inches; of what is not counted, nothing."""
    counted = ((one.data.get("count"), [long_side(side)[0] for side in sides_of(one)]) for one in pieces)
    return sum(number * max(inches) for number, inches in counted if isinstance(number, int) and inches)


def too_few(number: int, width: str, long: str, read: Reading, times: int) -> str:
    """What is doubtful about pieces that are cut from so many strips of a length, the `times` that these are cut, where
    they do not give as many; else nothing."""
    needed = Fraction(0)
    for one in read.entries:
        wanted, sides = one.data.get("per_print", one.data.get("count")), sides_of(one)
        if not isinstance(wanted, int) or width not in sides:
            return ""
        gives = floor(long_side(long)[0] / long_side(sides[1] if sides[0] == width else sides[0])[0])
        of_one = Fraction(wanted, 1 if "per_print" in one.data else times)
        needed += of_one / gives if gives else number + 1
    if needed <= number:
        return ""
    return f"{number} strips {width} x {long} give fewer such pieces: how many strips, and how many pieces?"


def whole_width(text: str) -> bool:
    """Whether a length may be that of a strip across the width of fabric."""
    inches, unit, whole = long_side(text)
    least, most = WHOLE_WIDTHS[unit]
    return whole and least <= float(inches) * (2.54 if unit == "cm" else 1) <= most
