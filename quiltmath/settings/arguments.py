"""What is asked of a plan, read and checked before any work starts: counts, lengths, blocks, limits."""

from __future__ import annotations

from fractions import Fraction
from numbers import Integral
from typing import TYPE_CHECKING

from .. import lengths
from ..blocks import Block, as_block, plain
from ..usual import MOST_ACROSS, MOST_PATCHES, RULER, SEAM_IN

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from ..lengths import Length
    from .plan import Plan

NO_DIFFERENCE = 1e-9  # inches: a size in floats this near to a length is that length
SEAM = {unit: seam * lengths.INCHES[unit] for unit, seam in SEAM_IN.items()}
"""The seam where none is given, in inches, for each unit a plan can be asked in."""


def count(value: object, name: str) -> int:
    """A whole number of blocks, 1 or more.

    >>> count(0, "across")
    Traceback (most recent call last):
    ValueError: across is a whole number of blocks from 1 to 400; got 0: write for example across=5
    """
    if isinstance(value, bool) or not isinstance(value, Integral) or not 1 <= int(value) <= MOST_ACROSS:
        raise ValueError(
            f"{name} is a whole number of blocks from 1 to {MOST_ACROSS}; got "
            f"{str(value)[:40]}: write for example {name}=5"
        )
    return int(value)


def length(value: Length, name: str, unit: str = "in") -> Fraction:
    """A length of 0 or more, in inches."""
    return lengths.parse(value, unit, name=name, least=0)


def block(value: Block | Length, unit: str = "in", name: str = "block") -> Block:
    """A block as it is, or a plain one of this finished size."""
    return as_block(value if isinstance(value, Block) else lengths.parse(value, unit, name=name, above=0), name)


def same_size(other: Block, main: Block, unit: str = "in") -> Block:
    """The other block of a plan, refused unless it finishes at the size of the main one."""
    if other.size != main.size:
        raise ValueError(
            f"all blocks of a plan finish at one size; {main.name} finishes at "
            f"{shown(main.size, unit)} and {other.name} at {shown(other.size, unit)}: "
            "resize one of them"
        )
    return other


def alternate(value: Block | Length | None, main: Block, fabrics: Mapping[str, str] | None, unit: str = "in") -> Block:
    """The block that lies between the main ones: the same, a plain one, or another of the same size."""
    if value is None:
        return main
    if isinstance(value, str) and value == "plain":
        return plain(main.size, (fabrics or {}).get("alternate", "plain"), "alternate block")
    return same_size(block(value, unit, "alternate block"), main, unit)


def frame(value: Length, size: Fraction, unit: str = "in") -> Fraction:
    """A frame no wider than the block inside it."""
    width = length(value, "frame", unit)
    if width > size:
        raise ValueError(
            f"a frame is at most as wide as the block inside it, {shown(size, unit)}; got "
            f"{shown(width, unit)}: choose a narrower frame or a larger block"
        )
    return width


def sashing(value: Length, cell: Fraction, unit: str = "in") -> Fraction:
    """A sashing no wider than the block it goes round."""
    width = length(value, "sashing", unit)
    if width > cell:
        raise ValueError(
            f"sashing is at most as wide as the block it goes round, {shown(cell, unit)}; "
            f"got {shown(width, unit)}: choose a narrower sashing or a larger block"
        )
    return width


def floating(value: Length, leg: Fraction, unit: str = "in") -> Fraction:
    """How far the blocks float inside the edge: no more than the setting triangle is high."""
    by = length(value, "floating", unit)
    if 2 * by**2 > leg**2:
        limit = lengths.ruler((float(leg) ** 2 / 2) ** 0.5, ruler_step(unit), "down")
        raise ValueError(
            f"blocks float by no more than the side triangle is high, {shown(limit, unit)} "
            f"here; got {shown(by, unit)}: choose a smaller float, and add the rest as a "
            "border"
        )
    return by


def seam(value: Length | None, block: Block, unit: str = "in") -> Fraction:
    """A seam of which two fit into every patch of the block."""
    width = SEAM[unit] if value is None else lengths.parse(value, unit, name="seam", above=0)
    smallest = min(*block.widths, *block.heights)
    if 2 * width > smallest:
        raise ValueError(
            "a seam is at most half as wide as the smallest patch, "
            f"{shown(smallest / 2, unit)}; got "
            f"{shown(width, unit)}: the usual seam is {shown(SEAM[unit], unit)}"
        )
    return width


def wide_enough(width: Fraction, seam: Fraction, name: str, unit: str = "in") -> None:
    """Refuse a strip that is there but finishes narrower than two seams."""
    if width and width < 2 * seam:
        raise ValueError(
            f"{name} finishes at least two seams wide, {shown(2 * seam, unit)}; got "
            f"{shown(width, unit)}: choose a wider one, or leave it out"
        )


def strips_wide_enough(plan: Plan) -> None:
    """Refuse sashing, frames and borders narrower than two seams."""
    for width, name in (
        (plan.sashing, "sashing"),
        (plan.frame, "a frame"),
        *((one.width, "a border") for one in plan.borders),
    ):
        wide_enough(width, plan.seam, name, plan.unit)


def edges_that_fit(plan: Plan) -> None:
    """Refuse setting triangles that do not go with the rest of a plan on point."""
    if plan.floating and plan.sashing and not plan.whole:
        raise ValueError(
            'sashed blocks float inside whole cornerstones only; got an edge through their middle: write edge="whole"'
        )
    if plan.edges == "plain":
        return
    if plan.floating:
        raise ValueError(
            "only plain setting triangles can be cut larger to let blocks float; got "
            f'edges="{plan.edges}" '
            f"and a float of {shown(plan.floating, plan.unit)}: leave one of the two out"
        )
    if plan.whole:
        raise ValueError(
            f"setting triangles that are {plan.edges} are as large as half a block; with whole "
            'cornerstones they would have to be larger: write edge="half"'
        )
    if (plan.edges == "framed") != bool(plan.frame) and plan.edges != "half blocks":
        raise ValueError(
            'edges="framed" goes with framed blocks, and built edges with blocks without a '
            f'frame; got edges="{plan.edges}" and a frame of {shown(plan.frame, plan.unit)}: '
            "change one of them"
        )
    if plan.edges.startswith("built") and not made_of_squares(plan.block):
        raise ValueError(
            f"setting triangles are built from a block of equal squares; {plan.block.name} has other units: take plain "
            'setting triangles, edges="plain", or half blocks, edges="half blocks"'
        )


def made_of_squares(block: Block) -> bool:
    """Whether a block is n x n equal squares."""
    plain = all(unit.kind == "square" for row in block.rows for unit in row)
    return plain and len({*block.widths, *block.heights}) == 1


def few_enough(patches: int) -> int:
    """Refuse a plan of too many patches before any of them is made."""
    if patches > MOST_PATCHES:
        raise ValueError(
            f"a plan has at most {MOST_PATCHES:,} patches; this one would have {patches:,}: take fewer or larger blocks"
        )
    return patches


def one_of(value: str, choices: Sequence[str], name: str) -> str:
    """One of the named choices."""
    if value not in choices:
        raise ValueError(f"{name} is one of {', '.join(map(repr, choices))}; got {str(value)[:40]!r}")
    return value


def unit(value: str) -> str:
    """A unit a plan can be asked in."""
    return one_of(value, tuple(SEAM), "unit")


def ruler_step(unit: str) -> Fraction:
    """The ruler's step that goes with a unit: an eighth of an inch, or a millimetre."""
    return lengths.parse(RULER[unit])


def shown(value: Length, unit: str = "in") -> str:
    """A length in words, with its unit.

    >>> from fractions import Fraction
    >>> shown(Fraction(9, 2)), shown(lengths.parse("9.8 cm"), "cm")
    ('4 1/2 in', '9.8 cm')
    """
    return lengths.text(value, unit, mark="in")


def about(value: Length, unit: str = "in") -> str:
    """A length as everything that is measured is told, in words, with its unit.

    >>> about(38.1838), about(38.1838, "cm")
    ('38 3/16 in', '97 cm')
    """
    return lengths.measured(value, unit, mark="in")


def told_size(size: Sequence[Length], unit: str = "in") -> str:
    """A width and height in words, "about" only where they are rounded.

    >>> told_size((60, 80)), told_size((60, 79.2))
    ('60 x 80 in', 'about 60 x 79 3/16 in')
    """
    words = about_size(size, unit)
    exact = all(abs(float(lengths.parse(about(side, unit)) - float(side))) < NO_DIFFERENCE for side in size)
    return words if exact else f"about {words}"


def about_size(size: Sequence[Length], unit: str = "in") -> str:
    """A width and height as everything that is measured is told, in words.

    >>> about_size((60.0, 79.2))
    '60 x 79 3/16 in'
    """
    width, height = (about(side, unit) for side in size)
    return f"{width.removesuffix(f' {unit}')} x {height}"
