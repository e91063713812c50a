"""How many squares and strips a piece of cloth gives, cut in rows from the corner."""

from .. import lengths
from . import arguments

YARD = "1 yd"


def squares(side, usable_width=arguments.USABLE_WIDTH, length=YARD):
    """How many whole squares of this side a piece of cloth gives, in rows across it.

    >>> squares("2 1/2", usable_width=44), squares("2 7/8", usable_width=22, length=18)
    (238, 42)
    >>> squares(50)
    0
    """
    return across(side, usable_width) * strips(side, length)


def across(side, usable_width=arguments.USABLE_WIDTH):
    """How many pieces this wide one strip gives.

    >>> across(3), across("3 1/2", 42)
    (13, 12)
    """
    return int(arguments.usable(usable_width) // arguments.size(side, "the side of a square"))


def strips(height, length=YARD):
    """How many strips this high a length of cloth gives.

    >>> strips("2 1/2")
    14
    """
    return int(
        lengths.parse(length, name="the length of cloth", above=0) // arguments.size(height, "the height of a strip")
    )
