"""What is asked of the fabric, read and refused in words: pieces, widths, counts."""

from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from numbers import Integral, Rational

from .. import lengths

MOST_PIECES = 100_000
"""No plan holds more pieces than this: some ten times the largest quilt a person pieces."""

MOST_LINES = 500
"""No plan holds more lines of a cutting list than this."""

Length = str | int | float | Decimal | Rational
"""A length as `lengths.parse` reads it: text or a number of inches. Sizes may be SymPy numbers too."""


class DoesNotFit(ValueError):
    """What is larger than the fabric it is cut from, or too short to be joined; the message says what to do instead."""


@dataclass(frozen=True, init=False)
class Piece:
    """So many alike pieces of fabric: raw width and height in inches, the height along the lengthwise grain (selvage).

    Lengths are read by `lengths.parse` and kept as exact Fractions. `any_way` pieces may be turned a quarter, so that
    either side runs along the selvage. `part` is what the pattern calls them.

    >>> Piece("3 1/2", "6 1/2", 24, part="B")
    Piece(width=Fraction(7, 2), height=Fraction(13, 2), count=24, part='B', any_way=False)
    >>> Piece(0, 3, 4)
    Traceback (most recent call last):
    ValueError: the width of a piece must be more than 0 in; got 0 in; write for example 3 7/8, 3.875, 9.8 cm or 1 1/2 \
yd
    """

    width: Fraction
    height: Fraction
    count: int
    part: str
    any_way: bool

    def __init__(self, width: Length, height: Length, count: int = 1, part: str = "", any_way: bool = False):
        object.__setattr__(self, "width", lengths.parse(width, name="the width of a piece", above=0))
        object.__setattr__(self, "height", lengths.parse(height, name="the height of a piece", above=0))
        object.__setattr__(self, "count", whole(count, "the count of a piece"))
        object.__setattr__(self, "part", str(part))
        object.__setattr__(self, "any_way", bool(any_way))

    @property
    def area(self) -> Fraction:
        """Square inches of all of them."""
        return self.width * self.height * self.count

    @property
    def size(self) -> str:
        """Its size in words, such as "3 1/2 × 6 1/2"."""
        return f"{lengths.text(self.width)} × {lengths.text(self.height)}"

    @property
    def name(self) -> str:
        """The part's name and size, or the size alone."""
        return f"{self.part} ({self.size})" if self.part else self.size


def pieces(given: "Piece | Iterable[Piece | tuple]") -> "tuple[Piece, ...]":
    """The pieces of a plan as a tuple: one Piece, several, or tuples of (width, height, count).

    >>> pieces([(3, 3, 4)])
    (Piece(width=Fraction(3, 1), height=Fraction(3, 1), count=4, part='', any_way=False),)
    >>> pieces([Piece(3, 3, 60_000), Piece(4, 4, 60_000)])
    Traceback (most recent call last):
    ValueError: a plan holds at most 100,000 pieces; got 120,000: plan one fabric at a time, or check the counts
    """
    if isinstance(given, Piece):
        given = [given]
    if isinstance(given, (str, bytes)) or not hasattr(given, "__iter__"):
        raise ValueError(
            f"pieces are a list of yardage.Piece; got {repr(given)[:60]}: "
            'write for example [yardage.Piece("3 1/2", "3 1/2", 24)]'
        )
    read = []
    for one in given:
        read.append(_piece(one))
        if len(read) > MOST_LINES:
            raise ValueError(
                f"a plan holds at most {MOST_LINES} lines of a cutting list; got more: plan one fabric at a time"
            )
    total = sum(piece.count for piece in read)
    if total > MOST_PIECES:
        raise ValueError(
            f"a plan holds at most {MOST_PIECES:,} pieces; got {total:,}: plan one fabric at a time, or "
            "check the counts"
        )
    return tuple(read)


def _piece(one):
    if isinstance(one, Piece):
        return one
    if isinstance(one, (tuple, list)) and 2 <= len(one) <= 5:
        return Piece(*one)
    raise ValueError(
        f"a piece is a yardage.Piece or (width, height, count); got {repr(one)[:60]}: "
        'write for example yardage.Piece("3 1/2", "3 1/2", 24)'
    )


def whole(value, name: str, least: int = 1) -> int:
    """A whole number from `least` to the most pieces a plan holds."""
    if isinstance(value, bool) or not isinstance(value, Integral) or not least <= int(value) <= MOST_PIECES:
        raise ValueError(
            f"{name} is a whole number from {least} to {MOST_PIECES:,}; got {str(value)[:40]}: write for example 24"
        )
    return int(value)


def usable(value: Length) -> Fraction:
    """The usable width of the fabric, inside the selvages, in inches.

    >>> usable(0)
    Traceback (most recent call last):
    ValueError: the usable width must be more than 0 in; got 0 in; write for example 3 7/8, 3.875, 9.8 cm or 1 1/2 yd
    """
    return lengths.parse(value, name="the usable width", above=0)


def size(value, name: str, least: int | None = None) -> Fraction:
    """A length in inches; an irrational SymPy number (a size on point) is rounded up to a 64th.

    >>> size("50 7/8", "the quilt's width")
    Fraction(407, 8)
    """
    if getattr(value, "is_number", False) and not getattr(value, "is_Rational", False):
        value = lengths.ruler(value, step="1/64", rounding="up")
    return lengths.parse(value, name=name, above=0 if least is None else None, least=least)


def one_of(value, choices: tuple, name: str):
    """One of the named choices."""
    if value not in choices:
        raise ValueError(f"{name} is {' or '.join(map(repr, choices))}; got {str(value)[:40]!r}")
    return value


def yards(length: Length, step: Length = "1/8 yd") -> Fraction:
    """A length in inches as yards, rounded up to the step it is sold in (an eighth of a yard).

    >>> yards(41), yards(36)
    (Fraction(5, 4), Fraction(1, 1))
    """
    return lengths.ruler(length, step=step, rounding="up") / 36


def yards_text(length: Length) -> str:
    """Yards as bought, in words, such as "1 1/4 yd"."""
    return lengths.text(yards(length) * 36, unit="yd")


def several(count: int, thing: str) -> str:
    """A count with its word: "1 strip", "3 strips".

    >>> several(1, "strip"), several(3, "strip")
    ('1 strip', '3 strips')
    """
    return f"{count:,} {thing}" + ("" if count == 1 else "s")
