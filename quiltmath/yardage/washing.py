"""What washing and straightening cost: fabric is bought longer than it is cut, and comes out of the wash narrower."""

from fractions import Fraction

from .. import lengths
from ..usual import MEASURED
from . import arguments
from .arguments import Length
from .constants import MOST_SHRUNK, STRAIGHTENED


def washed(length: Length, percent: int | Fraction) -> Fraction:
    """What a length or a width (inches) is after a wash that shrinks it by so many percent, exactly.

    >>> washed(42, 3), washed("1 yd", 5)
    (Fraction(2037, 50), Fraction(171, 5))
    >>> washed(42, 30)
    Traceback (most recent call last):
    ValueError: fabric shrinks by 0 to 20 percent; got 30: wash a measured square of it, and measure it again
    """
    return lengths.parse(length, name="a length", least=0) * _left(percent)


def length_to_buy(needed: Length, *, percent: int | Fraction = 0, straighten: Length = STRAIGHTENED) -> Fraction:
    """The length (inches, exact) to buy so that `needed` is left once it is washed and its ends are straightened.

    It shrinks by so many `percent` first; `straighten` is what straightening takes afterwards, both ends together.

    >>> length_to_buy(119, percent=4), length_to_buy(36, straighten=0)
    (Fraction(125, 1), Fraction(36, 1))
    >>> length_to_buy(36, straighten=-1)
    Traceback (most recent call last):
    ValueError: what straightening takes must be 0 or more in; got -1 in; write for example 3 7/8, 3.875, 9.8 cm or \
1 1/2 yd
    """
    taken = arguments.size(straighten, "what straightening takes", least=0)
    return (arguments.size(needed, "the length needed", least=0) + taken) / _left(percent)


def on_the_tape(length: Length) -> Fraction:
    """A length to buy (inches) up to the next sixteenth, as a shop's tape shows it: never less than it takes.

    >>> on_the_tape(length_to_buy("42 1/4", percent=4, straighten=0)), on_the_tape("44 1/16")
    (Fraction(705, 16), Fraction(705, 16))
    """
    return lengths.ruler(length, MEASURED["in"], "up")


def _left(percent):
    """The share that is left."""
    if not 0 <= percent <= MOST_SHRUNK:
        raise ValueError(
            f"fabric shrinks by 0 to {MOST_SHRUNK} percent; got {percent}: wash a measured square of it, and measure "
            "it again"
        )
    return 1 - Fraction(percent) / 100
