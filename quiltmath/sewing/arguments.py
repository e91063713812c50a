"""What is asked of the cloth, read or refused in words: lengths, points, seams, angles."""

from collections.abc import Sequence
from fractions import Fraction
from math import isfinite
from numbers import Real

import numpy as np

from .. import lengths

Length = float | Fraction | str  # inches, or text with its unit; exact SymPy numbers are read too
Point = Sequence[Length] | np.ndarray  # (x, y)


class CannotSew(ValueError):
    """The cloth cannot be cut or joined as asked; the message says why and what to do instead."""


def length(value: Length, name: str = "length", above: float | None = None, least: float | None = None) -> float:
    """A length as a float of inches; text, fractions and exact SymPy numbers are read too.

    >>> length("3 1/2")
    3.5
    >>> length(float("nan"), "width")
    Traceback (most recent call last):
    quiltmath.sewing.arguments.CannotSew: width: a length is a whole number, a fraction or a decimal, alone \
(inches) or followed by one unit: in, yd, cm, mm or m; got nan; write for example \
3 7/8, 3.875, 9.8 cm or 1 1/2 yd
    """
    if isinstance(value, float) and abs(value) <= lengths.LONGEST:
        if (above is None or value > above) and (least is None or value >= least):
            return float(value)
    elif getattr(value, "is_number", False) and getattr(value, "is_real", False):
        value = float(value)
    try:
        return float(lengths.parse(value, name=name, above=above, least=least))
    except ValueError as problem:
        said = str(problem)
        raise CannotSew(said if said.startswith(name) else f"{name}: {said}") from None


def seam_width(value: Length) -> float:
    """A seam as a float of inches, 0 or wider.

    >>> seam_width("1/4")
    0.25
    """
    return length(value, "a seam", least=0)


def size(value: Sequence[Length]) -> tuple[float, float]:
    """The width and height of a patch as floats, both more than 0.

    >>> size(("3 1/2", 0))
    Traceback (most recent call last):
    quiltmath.sewing.arguments.CannotSew: the height of a patch must be more than 0 in; got 0 in; write \
for example 3 7/8, 3.875, 9.8 cm or 1 1/2 yd
    """
    width, height = _pair(value, "a size")
    return length(width, "the width of a patch", above=0), length(height, "the height of a patch", above=0)


def point(value: Point, name: str = "a point") -> tuple[float, float]:
    """A point as a pair of floats.

    >>> point((0, "3 1/2"))
    (0.0, 3.5)
    >>> point(3)
    Traceback (most recent call last):
    quiltmath.sewing.arguments.CannotSew: a point is a pair of lengths; got 3: write for example (4, "3 1/2")
    """
    x, y = _pair(value, name)
    return length(x, name), length(y, name)


def _pair(value, name):
    if isinstance(value, str) or not hasattr(value, "__len__") or len(value) != 2:
        raise CannotSew(f'{name} is a pair of lengths; got {value!r}: write for example (4, "3 1/2")')
    return value


def angle(value: float, name: str = "an angle") -> float:
    """An angle as a float of degrees, anticlockwise.

    >>> angle("ninety")
    Traceback (most recent call last):
    quiltmath.sewing.arguments.CannotSew: an angle is a number of degrees, anticlockwise; got 'ninety': \
write for example 45
    """
    if not isinstance(value, Real) or isinstance(value, bool) or not isfinite(value):
        raise CannotSew(f"{name} is a number of degrees, anticlockwise; got {value!r}: write for example 45")
    return float(value)
