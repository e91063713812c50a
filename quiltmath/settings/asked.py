"""What is asked of a plan, read and checked before any work starts: counts, lengths, blocks, limits."""
from fractions import Fraction
from numbers import Integral

from .. import lengths
from ..blocks import Block, as_block, plain
from .built import fabrics_of_squares

MOST_PATCHES = 200_000
"""No plan has more patches than this: about ten times the largest quilt a person pieces."""

MOST_ACROSS = 1000
"""No plan has more blocks than this in one direction."""


def count(value, name):
    """A whole number of blocks, 1 or more.

    >>> count(0, "across")
    Traceback (most recent call last):
    ValueError: across is a whole number of blocks from 1 to 1000; got 0: write for example across=5
    """
    if isinstance(value, bool) or not isinstance(value, Integral) or not 1 <= value <= MOST_ACROSS:
        raise ValueError(f"{name} is a whole number of blocks from 1 to {MOST_ACROSS}; got "
                         f"{str(value)[:40]}: write for example {name}=5")
    return int(value)


def length(value, name, unit="in"):
    """A length of 0 or more, in inches."""
    return lengths.parse(value, unit, name=name, least=0)


def block(value, unit="in", name="block"):
    """A block as it is, or a plain one of this finished size."""
    return as_block(
        value if isinstance(value, Block) else lengths.parse(value, unit, name=name, above=0), name
    )


def same_size(other, main):
    """The other block of a plan, refused unless it finishes at the size of the main one."""
    if other.size != main.size:
        raise ValueError(f"all blocks of a plan finish at one size; {main.name} finishes at "
                         f"{lengths.text(main.size)} in and {other.name} at {lengths.text(other.size)} in: "
                         "resize one of them")
    return other


def alternate(value, main, fabrics):
    """The block that lies between the main ones: the same, a plain one, or another of the same size."""
    if value is None:
        return main
    if isinstance(value, str) and value == "plain":
        return plain(main.size, (fabrics or {}).get("alternate", "plain"), "alternate block")
    return same_size(block(value, name="alternate block"), main)


def frame(value, size, unit="in"):
    """A frame no wider than the block inside it."""
    width = length(value, "frame", unit)
    if width > size:
        raise ValueError(f"a frame is at most as wide as the block inside it, {lengths.text(size)} in; got "
                         f"{lengths.text(width)} in: choose a narrower frame or a larger block")
    return width


def sashing(value, cell, unit="in"):
    """A sashing no wider than the block it goes round."""
    width = length(value, "sashing", unit)
    if width > cell:
        raise ValueError(f"sashing is at most as wide as the block it goes round, {lengths.text(cell)} in; "
                         f"got {lengths.text(width)} in: choose a narrower sashing or a larger block")
    return width


def floating(value, leg, unit="in"):
    """How far the blocks float inside the edge: no more than the edge triangle is high."""
    by = length(value, "floating", unit)
    if 2 * by ** 2 > leg ** 2:
        limit = lengths.ruler((float(leg) ** 2 / 2) ** 0.5, rounding="down")
        raise ValueError(f"blocks float by no more than the side triangle is high, {lengths.text(limit)} in "
                         f"here; got {lengths.text(by)} in: choose a smaller float, and add the rest as a "
                         "border")
    return by


def seam(value, cell, unit="in"):
    """A seam that leaves something of every block."""
    width = lengths.parse(value, unit, name="seam", above=0)
    if 2 * width > cell:
        raise ValueError(f"a seam is at most half as wide as the block, {lengths.text(cell / 2)} in; got "
                         f"{lengths.text(width)} in: the usual seam is 1/4 in")
    return width


def edges_that_fit(plan):
    """Refuse edge triangles that do not go with the rest of a plan on point."""
    if plan.floating and plan.sashing and not plan.whole:
        raise ValueError('sashed blocks float inside whole cornerstones only; got an edge through their '
                         'centres: write edge="whole"')
    if plan.edges == "plain":
        return
    if plan.floating:
        raise ValueError('only plain edge triangles can be cut larger to let blocks float; got '
                         f'edges="{plan.edges}" '
                         f"and a float of {lengths.text(plan.floating)} in: leave one of the two out")
    if plan.whole:
        raise ValueError(f'edge triangles that are {plan.edges} are as large as half a block; with whole '
                         'cornerstones they would have to be larger: write edge="centre"')
    if (plan.edges == "framed") != bool(plan.frame) and plan.edges != "half blocks":
        raise ValueError('edges="framed" goes with framed blocks, and built edges with blocks without a '
                         f'frame; got edges="{plan.edges}" and a frame of {lengths.text(plan.frame)} in: '
                         'change one of them')
    if plan.edges.startswith("built"):
        fabrics_of_squares(plan.block)


def few_enough(patches):
    """Refuse a plan of too many patches before any of them is made."""
    if patches > MOST_PATCHES:
        raise ValueError(f"a plan has at most {MOST_PATCHES:,} patches; this one would have {patches:,}: "
                         "take fewer or larger blocks")
    return patches


def one_of(value, choices, name):
    """One of the named choices."""
    if value not in choices:
        raise ValueError(f"{name} is one of {', '.join(map(repr, choices))}; got {str(value)[:40]!r}")
    return value


def ruler_step(unit):
    """The ruler's step that goes with a unit: an eighth of an inch, or a millimetre."""
    return Fraction(1, 8) if unit in ("in", "yd") else lengths.parse("1 mm")
