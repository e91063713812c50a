"""Reading and writing lengths: ruler fractions, decimals, yards and metric, exactly; rounding is always
named.

Every length inside the kit is a number of inches. What is read becomes a `Fraction`, so nothing is lost on
the way in; what is written is either exact or begins with the word "about".

    >>> parse("3 7/8"), parse("3⅞"), parse('3-7/8"'), parse(3.875)
    (Fraction(31, 8), Fraction(31, 8), Fraction(31, 8), Fraction(31, 8))
    >>> text(Fraction(31, 8)), text(Fraction(1, 3)), text(parse("9.8 cm"), unit="cm")
    ('3 7/8', 'about 0.3333', '9.8 cm')
    >>> text(ruler(15.349, step="1/8", rounding="up"))
    '15 3/8'
"""

from __future__ import annotations

import re
import unicodedata
from decimal import Decimal
from fractions import Fraction
from functools import lru_cache
from math import ceil, floor, isfinite
from numbers import Rational, Real
from typing import TYPE_CHECKING, Any, TypeAlias

from .root2 import Root2
from .usual import MEASURED

if TYPE_CHECKING:
    import sympy

Length: TypeAlias = "str | float | Rational | Decimal | Root2 | sympy.Expr"
"""What is read as a length: text, a number in inches, an exact a + b√2, or a SymPy number."""

INCHES = {
    "in": Fraction(1),
    "yd": Fraction(36),
    "mm": Fraction(5, 127),
    "cm": Fraction(50, 127),
    "m": Fraction(5000, 127),
}
"""Inches in one of each unit; the inch is 2.54 cm exactly (NIST LC 1137 gives 36 in as 91.44 cm)."""

LONGEST = 1_000_000
"""No length may be longer than this many inches (about 15 miles): whatever is, is a slip."""

HAIR = Fraction(1, 10**9)
"""The named tolerance of `ruler`: a value this little (inches) past a step counts as on the step.

Binary arithmetic misses a ruler's step by some 1e-15 in; cloth is cut to perhaps 1/64 in. A billionth of an
inch lies far from both, so it forgives the machine and hides nothing a quilter could see.
"""

_SPELLINGS = {
    "in": "in",
    "in.": "in",
    "inch": "in",
    "inches": "in",
    '"': "in",
    "″": "in",
    "”": "in",
    "“": "in",
    "''": "in",
    "yd": "yd",
    "yd.": "yd",
    "yds": "yd",
    "yds.": "yd",
    "yard": "yd",
    "yards": "yd",
    "cm": "cm",
    "centimeter": "cm",
    "centimeters": "cm",
    "centimetre": "cm",
    "centimetres": "cm",
    "mm": "mm",
    "millimeter": "mm",
    "millimeters": "mm",
    "millimetre": "mm",
    "millimetres": "mm",
    "m": "m",
    "meter": "m",
    "meters": "m",
    "metre": "m",
    "metres": "m",
}
_RULER = {1, 2, 4, 8, 16, 32, 64}
_DENOMINATORS = {"in": _RULER, "yd": {1, 2, 3, 4, 8}}
_PARTS = (_RULER | _DENOMINATORS["yd"]) - {1}  # what a length is parted into on a printed page
_GLYPHS = {unicodedata.numeric(c): c for c in "½¼¾⅛⅜⅝⅞⅓⅔"}
_WRITTEN = re.compile(
    r"""
    (?P<minus>-?)\s*
    (?: (?:(?P<whole>[0-9]+)(?:\s+|-))? (?P<top>[0-9]+)\s*/\s*(?P<bottom>[0-9]+)
      | (?P<decimal>[0-9]+(?:\.[0-9]*)?|\.[0-9]+) )
    (?:\s*-?\s*(?P<unit>[^0-9\s-].*))?""",
    re.VERBOSE,
)
_RULE = (
    "a length is a whole number, a fraction or a decimal, alone (inches) or followed by one unit: in, yd, cm, mm or m"
)
_WRITE = "write for example 3 7/8, 3.875, 9.8 cm or 1 1/2 yd"


def parse(
    value: Length,
    unit: str = "in",
    *,
    name: str = "length",
    least: Fraction | float | None = None,
    above: Fraction | float | None = None,
) -> Fraction:
    """Read a length, as a person writes it or as a number, and give it in inches as an exact Fraction.

    Text may be a mixed number ("3 7/8", "3-7/8", "3⅞"), a fraction or a decimal, then one unit: inches (in,
    inches, ", ″), yards, cm, mm or m. Numbers (int, float, Fraction, Decimal, a rational SymPy or NumPy
    number) are lengths in `unit`; a float counts as the decimal it is written with, so 0.1 is 1/10. `least`
    and `above` set a lower limit in inches, and `name` is what an error calls the length.

        >>> parse("2 1/2 inches"), parse("1 1/2 yd"), parse("2.54 cm"), parse("5/8-inch"), parse(0.1)
        (Fraction(5, 2), Fraction(54, 1), Fraction(1, 1), Fraction(5, 8), Fraction(1, 10))
        >>> parse("10", unit="cm") == parse("10 cm")
        True
        >>> parse("3 9/0")
        Traceback (most recent call last):
        ValueError: a fraction has a number above 0 under its line; got '3 9/0'; write for example 3 7/8
        >>> parse("-2", name="block", above=0)
        Traceback (most recent call last):
        ValueError: block must be more than 0 in; got -2 in; write for example 3 7/8, 3.875, 9.8 cm or \
1 1/2 yd

    Refused, always with a ValueError: feet, decimal commas, two lengths at once, exponents, nan, infinity, a fraction
    such as 31/2 that may be 3 1/2 with its blank lost, anything past a million inches, and a `Root2` or SymPy number
    with √2 in it, which no Fraction is: `ruler` and `text` take those.
    """
    size = _inches(unit)
    if isinstance(value, str):
        number, size = _read(value, size)
    else:
        number = _exact(value)
    inches = _no_longer_than_any(number * size, value)
    if above is not None and inches <= above or least is not None and inches < least:
        limit = f"more than {text(above)}" if above is not None else f"{text(least)} or more"
        raise ValueError(f"{name} must be {limit} in; got {text(inches, mark='in')}; {_WRITE}")
    return inches


def as_written(value: str | float, unit: str = "in") -> tuple[str, str]:
    """A length that `parse` reads, quoted as it was written, and its unit (`unit` where none was): fractions in one
    spelling, decimals digit by digit.

    >>> as_written("1⅔ yards"), as_written("4.75", "cm"), as_written('3-7/8"'), as_written(3.50)
    (('1 2/3 yd', 'yd'), ('4.75 cm', 'cm'), ('3 7/8 in', 'in'), ('3.5 in', 'in'))
    >>> as_written("3 feet")
    Traceback (most recent call last):
    ValueError: a length is a whole number, a fraction or a decimal, alone (inches) or followed by one unit: ...
    """
    if not isinstance(value, str):
        return f"{Decimal(str(value)):f} {unit}", unit
    number, match = _matched(value)
    own = _SPELLINGS[match["unit"]] if match["unit"] else unit
    if match["decimal"]:
        whole, point, part = match["decimal"].partition(".")
        figure = match["minus"] + (whole or "0") + (point + part if part else "")
    else:
        figure = ("-" if number < 0 else "") + _mixed(floor(abs(number)), abs(number) % 1, unicode=False)
    return f"{figure} {own}", own


def measured(value: Any, unit: str = "in", step: Any = None, mark: str = "") -> str:
    """A length of inches as it is measured and told: in `unit`, to the nearest sixteenth of an inch, or millimetre.

    >>> measured(63.6396), measured(63.6396, "cm"), measured(63.6396, step="1/8", mark="in")
    ('63 5/8', '161.6 cm', '63 5/8 in')
    """
    inches = min(value, LONGEST) if isinstance(value, (int, float)) else value
    return text(ruler(inches, step or MEASURED[unit], "nearest"), unit, mark=mark)


def text(value: Length, unit: str = "in", *, unicode: bool = False, mark: str = "", places: int = 4) -> str:
    """Write a length (inches: anything `parse` reads, a `Root2` or a SymPy number) the way a ruler shows it; "about" if
    that is not exact.

    Inches come as ruler fractions down to 1/64 and yards as halves, thirds, quarters and eighths; both, and
    the metric units, otherwise as a decimal. Only a decimal with no more than `places` places is exact, any
    other begins with "about" and is rounded to nearest. Other units than inches always carry their name; for
    inches `mark` adds one: "in", '"' or "″". What is written without "about" is read back by `parse` as the
    very same length.

        >>> text(Fraction(31, 8)), text("3.875", unicode=True), text(3.875, mark='"'), text(Fraction(-1, 2))
        ('3 7/8', '3⅞', '3 7/8"', '-1/2')
        >>> text(54, unit="yd"), text(48, unit="yd", unicode=True), text("9.8 cm", unit="mm")
        ('1 1/2 yd', '1⅓ yd', '98 mm')
        >>> text(0.85355), text(0.85355, mark="in", places=2), text(Fraction(1, 3), unit="cm")
        ('about 0.8536', 'about 0.85 in', 'about 0.8467 cm')
        >>> text(Root2(root=9)), text(Root2(Fraction(1, 4)))
        ('about 12.7279', '1/4')
    """
    number = _any_number(value) / _inches(unit)
    if unit == "in" and mark not in ("", "in", '"', "″"):
        raise ValueError(f"a mark for inches is '', 'in', '\"' or '″'; got {shown(mark)}; choose one of those")
    sign, size = "-" if number < 0 else "", abs(number)
    whole = floor(size)
    part = size - whole
    if isinstance(part, Fraction) and part.denominator in _DENOMINATORS.get(unit, {1}):
        figure = sign + _mixed(whole, part, unicode)
    else:
        rounded = Fraction(floor(size * 10**places + Fraction(1, 2)), 10**places)
        figure = ("" if rounded == size else "about ") + (sign if rounded else "") + _decimal(rounded, places)
    end = mark if unit == "in" else unit
    return figure + (f" {end}" if end.isalpha() else end)


def ruler(value: Length, step: Length = "1/8", rounding: str = "up") -> Fraction:
    """Round a length (inches) to the ruler's step, "up", "nearest" (halves go up) or "down"; a Fraction of
    inches.

    `value` may be a number, a `Root2` or SymPy number such as 10√2, rounded exactly, or text; `step` any length: "1/8",
    "1/16", "1/4", "0.5 cm", "1 mm". A value within `HAIR` (1e-9 in) of a step is on that step, so that a float a hair
    above 9 3/8 stays 9 3/8 in all three roundings.

        >>> ruler(15.349, step="1/8", rounding="up"), ruler(15.349, "1/4", "down")
        (Fraction(123, 8), Fraction(61, 4))
        >>> ruler(9.375 + 1e-14) == ruler(9.375) == Fraction(75, 8)
        True
        >>> text(ruler("9.62 cm", step="0.5 cm"), unit="cm")
        '10 cm'
        >>> text(ruler(Root2(root=9)))
        '12 3/4'
        >>> ruler(3, rounding="up a bit")
        Traceback (most recent call last):
        ValueError: a rounding is 'up', 'nearest' or 'down'; got 'up a bit'; write for example rounding='up'
    """
    if rounding not in ("up", "nearest", "down"):
        raise ValueError(
            f"a rounding is 'up', 'nearest' or 'down'; got {shown(rounding)}; write for example rounding='up'"
        )
    size = parse(step, name="a ruler's step", above=0)
    steps = _any_number(value) / size
    near: int = floor(steps + Fraction(1, 2))
    if rounding == "nearest" or -HAIR <= (steps - near) * size <= HAIR:
        return near * size
    return size * (ceil(steps) if rounding == "up" else floor(steps))


def _no_longer_than_any(inches, value):
    """The inches as they are, if `value` is not longer than any length."""
    if abs(inches) > LONGEST:
        raise ValueError(f"a length is at most {LONGEST:,} in; got {shown(value)}; check the number and its unit")
    return inches


def _inches(unit):
    """Inches in one of a unit."""
    if unit not in tuple(INCHES):
        raise ValueError(f"a unit is one of {', '.join(INCHES)}; got {shown(unit)}; write for example unit='cm'")
    return INCHES[unit]


def _read(written, size):
    """The number in a piece of text, and the inches in its unit (`size` if none is written)."""
    number, match = _matched(written)
    return number, INCHES[_SPELLINGS[match["unit"]]] if match["unit"] else size


@lru_cache(maxsize=2048)  # a sheet writes the same few lengths again and again
def _matched(written):
    """The number in a piece of text, and what its parts are."""
    if len(written) > 60:
        raise ValueError(f"{_RULE}; got {shown(written)}; {_WRITE}")
    plain = re.sub("[−–‐‑]", "-", written.replace("⁄", "/")).replace("\xa0", " ").strip().lower()
    plain = re.sub("(-?)(.)", _spread, plain, flags=re.DOTALL).strip()
    match = _WRITTEN.fullmatch(plain)
    unit = match and match["unit"]
    if not match or unit and unit not in _SPELLINGS:
        raise ValueError(f"{_RULE}; got {shown(written)}; {_lesson(plain)}")
    if match["decimal"]:
        number = Fraction(match["decimal"].rstrip("."))
    else:
        number = _fraction(match["whole"], match["top"], int(match["bottom"]), written)
    return (-number if match["minus"] else number), match


def _spread(pair):
    """Spell a one-character fraction such as ⅞ as 7/8, apart from the whole number before it."""
    hyphen, char = pair.groups()
    if not unicodedata.decomposition(char).startswith("<fraction>") or unicodedata.numeric(char) >= 1:
        return pair[0]
    part = Fraction(unicodedata.numeric(char)).limit_denominator(100)
    return f"{hyphen or ' '}{part.numerator}/{part.denominator}"


def _fraction(whole, top, bottom, written):
    if bottom == 0:
        raise ValueError(
            f"a fraction has a number above 0 under its line; got {shown(written)}; write for example 3 7/8"
        )
    number = int(whole or 0) + Fraction(int(top), bottom)
    if whole and int(top) >= bottom:
        raise ValueError(
            f"the fraction after a whole number is less than 1; got {shown(written)}; "
            f"write {text(number)} if that is what you mean"
        )
    apart = "" if whole else " or ".join(blank_lost(top, bottom))
    if apart:
        raise ValueError(
            f"a whole number and its fraction are parted by a blank; got {shown(written)}: is {apart} meant? Write it "
            f"so, or {text(number)} if you mean that"
        )
    return number


def blank_lost(top: str, bottom: str | int) -> list[str]:
    """The mixed numbers that a fraction such as 31/2 may have been, for a page copied from a PDF often has lost its
    blanks; none where none fits, as for 7/2 or 13/16.

    >>> blank_lost("31", 2), blank_lost("7", 2), blank_lost("13", 16)
    (['3 1/2'], [], [])
    """
    if int(bottom) not in _PARTS or int(top) < int(bottom):
        return []
    splits = ((top[:end], top[end:]) for end in range(1, len(top)))
    return [f"{left} {right}/{bottom}" for left, right in splits if right[0] != "0" and int(right) < int(bottom)]


def _lesson(plain):
    """What to write instead of a text that is not a length."""
    if not plain:
        return f"nothing is written there: {_WRITE}"
    if re.search(r"\b(ft|foot|feet)\b|[0-9]\s*(ft|foot|feet|['′’])", plain):
        return "feet are not read: write all of it in inches, 149 for 12 feet 5 inches"
    if re.search("[0-9],[0-9]", plain):
        return "write a decimal with a point, 3.5, and a thousand without a mark, 1000"
    if re.search("[0-9]e[-+]?[0-9]", plain):
        return "write the number out, without a power of ten"
    if re.search("[0-9].*( x |×| by )", plain):
        return f"write one length at a time: {_WRITE}"
    return _WRITE


def _exact(value):
    """A number as a Fraction; a float as the decimal it is written with."""
    if isinstance(value, Rational) and not isinstance(value, bool):
        return Fraction(int(value.numerator), int(value.denominator))
    if isinstance(value, Decimal) and value.is_finite() and -60 < value.as_tuple().exponent < 60:
        return Fraction(value)
    if isinstance(value, Real) and not isinstance(value, bool) and isfinite(value):
        return Fraction(str(value))
    if isinstance(value, Root2):
        if value.root == 0:
            return value.plain
        raise ValueError(
            f"a length that is read becomes a fraction, exactly; got {value}, which is none; round it first, for "
            f"example with lengths.ruler(…, step='1/8', rounding='up')"
        )
    raise ValueError(f"{_RULE}; got {shown(value)}; {_WRITE}")


def _any_number(value: Any) -> Fraction | Root2:
    """A Fraction for whatever `parse` reads, and to 60 figures for an irrational SymPy number; a Root2 as it is."""
    if isinstance(value, Root2):
        return _no_longer_than_any(value.plain if value.root == 0 else value, value)
    irrational = getattr(value, "is_number", False) and not isinstance(value, Rational)
    if irrational and value.is_finite and value.is_real:
        value = Fraction(str(value.evalf(60)))
    return parse(value)


def _mixed(whole, part, unicode):
    if part == 0:
        return str(whole)
    if unicode and float(part) in _GLYPHS:
        return f"{whole or ''}{_GLYPHS[float(part)]}"
    return f"{whole} {part}" if whole else str(part)


def _decimal(number, places):
    digits = str(number.numerator * 10**places // number.denominator).rjust(places + 1, "0")
    return f"{digits[:-places]}.{digits[-places:]}".rstrip("0").rstrip(".") if places else digits


def shown(value):
    """The value as an error shows it: never long, never a second error."""
    if isinstance(value, Rational) and abs(value) > 10**60:
        return f"a number of about {int(abs(value)).bit_length() * 3 // 10} digits"
    if isinstance(value, str) and len(value) > 40:
        return f"{value[:20]!r}… ({len(value):,} characters)"
    shown = repr(value) if isinstance(value, (str, int, float, type(None))) else str(value)
    return shown if len(shown) <= 60 else shown[:57] + "…"
