"""Borders as they are wished for: butted strips, strips whose corners are mitred, or a round of triangles."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING, NamedTuple

from .. import lengths
from . import arguments

if TYPE_CHECKING:
    from collections.abc import Iterable

    from ..lengths import Length
    from ..root2 import Root2


class Round(NamedTuple):
    """One border: its finished width in inches, "butted" or "mitred", its fabric, and which butted strips go on first.

    A round of `triangles` sets what lies inside it on point; it has no width.
    """

    width: Fraction
    ends: str = "butted"
    fabric: str = "border"
    first: str = "sides"
    triangles: bool = False


def border(
    width: Length, ends: str = "butted", fabric: str | None = None, first: str = "sides", unit: str = "in"
) -> Round:
    """A border of this finished width: its strips "butted", those of the "sides" or of the "top" sewn on first, or
    "mitred".

    >>> border("3 1/2", "mitred").width
    Fraction(7, 2)
    >>> border(3, first="ends")
    Traceback (most recent call last):
    ValueError: the pair of strips sewn on first is one of 'sides', 'top'; got 'ends'
    """
    arguments.one_of(ends, ("butted", "mitred"), "a border's ends")
    arguments.one_of(first, ("sides", "top"), "the pair of strips sewn on first")
    inches = lengths.parse(width, unit, name="border", above=0)
    return Round(inches, ends, str(fabric or "border"), first)


def read(given: str | float | Fraction | Round | Iterable[Length | Round], unit: str = "in") -> tuple[Round, ...]:
    """The borders of a plan, innermost first: each a `Round`, or the finished width of a butted one.

    >>> [found.width for found in read(["2", border(5)])]
    [Fraction(2, 1), Fraction(5, 1)]
    """
    if isinstance(given, (str, int, float, Fraction, Round)):
        given = [given]
    return tuple(item if isinstance(item, Round) else border(item, unit=unit) for item in given)


def around(size: tuple[Root2, Root2], borders: Iterable[Round]) -> tuple[Root2, Root2]:
    """The finished (width, height) with the borders, as Root2 lengths."""
    width, height = size
    for one in borders:
        if one.triangles:
            width, height = width.by_root(), height.by_root()
        else:
            width, height = width + 2 * one.width, height + 2 * one.width
    return width, height
