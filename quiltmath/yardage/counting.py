"""How many squares and strips a piece of fabric gives, cut in rows from the corner."""

from .. import lengths
from . import arguments
from .arguments import Length
from .constants import USABLE_WIDTH

YARD = "1 yd"


def squares(side: Length, usable_width: Length = USABLE_WIDTH, length: Length = YARD) -> int:
    """How many whole squares of this side a piece of fabric gives, in rows across it.

    >>> squares("2 1/2", usable_width=44), squares("2 7/8", usable_width=22, length=18)
    (238, 42)
    >>> squares(50)
    0
    """
    return across(side, usable_width) * strips(side, length)


def across(side: Length, usable_width: Length = USABLE_WIDTH) -> int:
    """How many pieces this wide one strip gives.

    >>> across(3), across("3 1/2", 42)
    (13, 12)
    """
    return int(arguments.usable(usable_width) // arguments.size(side, "the side of a square"))


def strips(height: Length, length: Length = YARD) -> int:
    """How many strips this high a length of fabric gives.

    >>> strips("2 1/2")
    14
    """
    return int(
        lengths.parse(length, name="the length of fabric", above=0) // arguments.size(height, "the height of a strip")
    )
