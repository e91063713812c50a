"""Pieced blocks, written as a small grid of letters: their patches, their cutting, the block sewn.

A letter is a fabric. `A` is a square, `A/B` and `A\\B` a square of two half-square triangles (the stroke is
the seam, the first letter lies on its left), `A:B:C:D` a square of four quarter-square triangles (top, right,
bottom, left).

    >>> nine = read("A B A | B A B | A B A", size=9, name="nine-patch")
    >>> nine.pieces, nine.panel().size
    (9, (9.5, 9.5))
"""

from __future__ import annotations

import tomllib
from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property, lru_cache
from itertools import accumulate
from typing import NamedTuple

from . import lengths, resources, sewing, shapes
from .usual import SEAM

Length = sewing.Length


class Unit(NamedTuple):
    """One unit of a block: "square", "/" , "\\\\" or "quarters", and its fabrics (left then right; clockwise
    from the top)."""

    kind: str
    fabrics: tuple[str, ...]

    @property
    def part(self) -> str:
        """What the patches of this unit are called in a cutting list."""
        return {"square": "square", "quarters": "quarter-square triangle"}.get(self.kind, "half-square triangle")


class Patches(NamedTuple):
    """So many equal patches of a block: part, fabric, finished width and height (the square a triangle fits
    in), count."""

    part: str
    fabric: str
    width: Fraction
    height: Fraction
    count: int  # type: ignore[assignment]  # of patches; nobody counts in the tuple itself


@dataclass(frozen=True)
class Block:
    """A square block: rows of units (top row first), the finished widths of its columns and heights of its
    rows in inches."""

    name: str
    rows: tuple[tuple[Unit, ...], ...]
    widths: tuple[Fraction, ...]
    heights: tuple[Fraction, ...]

    @cached_property
    def size(self) -> Fraction:
        """The finished side, an exact Fraction of inches."""
        return sum(self.widths, Fraction(0))

    @property
    def pieces(self) -> int:
        """How many patches one block takes."""
        return sum(len(unit.fabrics) for row in self.rows for unit in row)

    @property
    def is_plain(self) -> bool:
        """Whether the block is one whole square of cloth."""
        return self.pieces == 1

    def part(self, kind: str) -> str:
        """What a patch of this kind is called in a cutting list and on the sewn panel.

        >>> read("A B | B A", size=6, name="four-patch").part("square")
        'four-patch: square'
        """
        return self.name if self.is_plain else f"{self.name}: {kind}"

    def fabrics(self) -> tuple[str, ...]:
        """The fabrics of the block, in the order they are met."""
        return tuple(dict.fromkeys(fabric for row in self.rows for unit in row for fabric in unit.fabrics))

    def patches(self) -> list[Patches]:
        """The patches of one block, equal ones counted together.

        >>> for patches in read("A/B A | B A", size=6).patches():
        ...     print(patches.count, patches.part, patches.fabric, patches.width)
        1 half-square triangle A 3
        1 half-square triangle B 3
        2 square A 3
        1 square B 3
        """
        counted = Counter(
            (unit.part, fabric, width, height)
            for row, height in zip(self.rows, self.heights)
            for unit, width in zip(row, self.widths)
            for fabric in unit.fabrics
        )
        return [Patches(*key, count) for key, count in counted.items()]

    def polygons(self) -> list[tuple[str, list]]:
        """The finished patches as (fabric, corners in inches), from the lower left corner of the block at (0,
        0).

        >>> read("A/B", size=2).polygons()
        [('A', [(0.0, 0.0), (2.0, 2.0), (0.0, 2.0)]), ('B', [(0.0, 0.0), (2.0, 0.0), (2.0, 2.0)])]
        """
        return _polygons(self)

    def resized(self, size: Length) -> Block:
        """The same block at another finished size.

        >>> read("A B | B A", size=6).resized("7 1/2").widths
        (Fraction(15, 4), Fraction(15, 4))
        """
        scale = lengths.parse(size, name="block", above=0) / self.size
        return Block(
            self.name,
            self.rows,
            tuple(width * scale for width in self.widths),
            tuple(height * scale for height in self.heights),
        )

    def panel(self, seam: Fraction | float = SEAM) -> sewing.Panel:
        """The block sewn: units, then rows, then the rows to each other, the top row last."""
        return _sewn(self, float(seam))


def plain(size: Length, fabric: str = "plain", name: str = "block") -> Block:
    """A block that is one whole square of cloth.

    >>> plain("9 1/2").size
    Fraction(19, 2)
    """
    side = lengths.parse(size, name="block", above=0)
    return Block(name, ((Unit("square", (str(fabric),)),),), (side,), (side,))


def read(
    grid: str,
    size: Length | None = None,
    widths: Sequence[Length] | None = None,
    heights: Sequence[Length] | None = None,
    fabrics: Mapping[str, str] | None = None,
    name: str = "block",
) -> Block:
    """A block from its grid: rows top to bottom, one to a line or parted by "|", units parted by spaces.

    Give its finished `size` for equal units, or the finished `widths` of the columns (and `heights` of the
    rows, if they differ). `fabrics` says which cloth each letter is.

    >>> star = read("A B/A A | A/B B B\\\\A | A A\\\\B A", size=6, fabrics={"A": "cream", "B": "navy"})
    >>> star.fabrics()
    ('cream', 'navy')
    >>> read("A B | A", size=6)
    Traceback (most recent call last):
    ValueError: every row of a block has as many units as the first; row 2 has 1 and row 1 has 2: add or \
take out units
    """
    rows = [line.split() for line in str(grid).replace("|", "\n").splitlines() if line.strip()]
    if not rows:
        raise ValueError('a block has at least one unit; got none: write for example "A B | B A"')
    for number, row in enumerate(rows, start=1):
        if len(row) != len(rows[0]):
            raise ValueError(
                f"every row of a block has as many units as the first; row {number} has "
                f"{len(row)} and row 1 has {len(rows[0])}: add or take out units"
            )
    units = tuple(tuple(_unit(text, fabrics or {}) for text in row) for row in rows)
    across, down = _sides(len(rows[0]), len(rows), size, widths, heights)
    for placed, height in zip(units, down):
        for unit, width in zip(placed, across):
            if unit.kind != "square" and width != height:
                raise ValueError(
                    f"a unit of triangles is square; got {lengths.text(width)} x "
                    f"{lengths.text(height)} in: use whole patches there, or change the widths"
                )
    return Block(str(name), units, across, down)


def named(name: str, size: Length | None = None, fabrics: Mapping[str, str] | None = None) -> Block:
    """One of the traditional blocks that come with the kit, at its usual size or at a size of yours.

    >>> named("nine-patch", size=12).panel().size
    (12.5, 12.5)
    """
    known = _library()
    if name not in known:
        raise ValueError(
            f"the kit has no block called {name!r}; it has {', '.join(sorted(known))}: choose one or write a grid"
        )
    entry = known[name]
    return read(entry["grid"], size=size if size is not None else entry["size"], fabrics=fabrics, name=name)


def names() -> list[str]:
    """The names of the traditional blocks that come with the kit.

    >>> "nine-patch" in names()
    True
    """
    return sorted(_library())


def as_block(block: Block | Length, name: str = "block", fabric: str = "plain") -> Block:
    """A block as it is, or the plain block of this finished size.

    >>> as_block("9").is_plain
    True
    """
    return block if isinstance(block, Block) else plain(block, fabric, name)


def forget_sewn() -> None:
    """Forget the blocks sewn so far, which are kept so that plans can share them."""
    _sewn.cache_clear()


@lru_cache(maxsize=1)
def _library():
    with open(resources.folder("data") / "blocks" / "traditional.toml", "rb") as file:
        return tomllib.load(file)


def _unit(text, fabrics):
    kind, letters = "square", [text]
    for sign, called, count in (("/", "/", 2), ("\\", "\\", 2), (":", "quarters", 4)):
        if sign in text:
            kind, letters = called, text.split(sign)
            if len(letters) != count or not all(letters):
                raise ValueError(f"a unit is A, A/B, A\\B or A:B:C:D; got {text!r}: write one letter for each patch")
    if not all(letter.replace("_", "").replace("-", "").isalnum() for letter in letters):
        raise ValueError(f"a unit is A, A/B, A\\B or A:B:C:D; got {text!r}: write one letter for each patch")
    return Unit(kind, tuple(str(fabrics.get(letter, letter)) for letter in letters))


def _sides(columns, rows, size, widths, heights):
    if (size is None) == (widths is None):
        raise ValueError("a block needs its finished size, or the finished widths of its columns: give one of the two")
    if size is not None:
        side = lengths.parse(size, name="block", above=0)
        return (side / columns,) * columns, (side / rows,) * rows
    across = tuple(lengths.parse(width, name="a column's width", above=0) for width in widths)
    down = tuple(lengths.parse(height, name="a row's height", above=0) for height in (heights or widths))
    if (len(across), len(down)) != (columns, rows):
        raise ValueError(
            f"a block of {columns} columns and {rows} rows needs as many widths and heights; "
            f"got {len(across)} and {len(down)}"
        )
    if sum(across) != sum(down):
        raise ValueError(
            f"a block is square; its widths add up to {lengths.text(sum(across))} in and its "
            f"heights to {lengths.text(sum(down))} in: change one of them"
        )
    return across, down


def _polygons(block):
    found = []
    lefts = [0, *accumulate(block.widths)]
    tops = [block.size - down for down in (0, *accumulate(block.heights))]
    for row, top, bottom in zip(block.rows, tops, tops[1:]):
        for unit, left, right in zip(row, lefts, lefts[1:]):
            found.extend(zip(unit.fabrics, _shapes(unit.kind, *map(float, (left, bottom, right, top)))))
    return found


def _shapes(kind, left, bottom, right, top):
    """The finished shapes of a unit's patches, in the order of its fabrics."""
    a, b, c, d = (left, bottom), (right, bottom), (right, top), (left, top)
    middle = ((left + right) / 2, (bottom + top) / 2)
    return {
        "square": [[a, b, c, d]],
        "/": [[a, c, d], [a, b, c]],
        "\\": [[a, b, d], [b, c, d]],
        "quarters": [[c, d, middle], [b, c, middle], [a, b, middle], [d, a, middle]],
    }[kind]


@lru_cache(maxsize=256)
def _sewn(block, seam):
    units, runs = {}, {}

    def sewn_unit(unit, width, height):
        key = unit, width, height
        if key not in units:
            units[key] = unit_panel(unit, float(width), float(height), seam, block.part(unit.part))
        return units[key]

    rows = [
        sewing.in_a_row(
            [sewn_unit(unit, width, height) for unit, width in zip(row, block.widths)], seam=seam, sewn=runs
        )
        for row, height in zip(block.rows, block.heights)
    ]
    return sewing.in_a_row(rows[::-1], mine="top", theirs="bottom", seam=seam, sewn=runs)


def unit_panel(unit: Unit, width: float, height: float, seam: float, part: str) -> sewing.Panel:
    """One unit sewn from its cut patches, as it lies in the block; each patch bears the name `part`."""
    if unit.kind == "square":
        return sewing.patch(size=(width + 2 * seam, height + 2 * seam), fabric=unit.fabrics[0], part=part)
    if unit.kind == "quarters":
        return _quarters(unit.fabrics, width, seam, part)
    left, right = (
        sewing.patch(corners=shapes.moved_out(shapes.right_triangle(width, width), seam), fabric=fabric, part=part)
        for fabric in unit.fabrics
    )
    turn, faces = (-90, "lower right") if unit.kind == "/" else (0, "upper right")
    return left.turn(turn).sew(right, mine=faces, theirs="upper right", seam=seam, align="centre")


def _quarters(fabrics, side, seam, part):
    finished = [(0.0, 0.0), (side, 0.0), (side / 2, side / 2)]
    top, right, bottom, left = (
        sewing.patch(corners=shapes.moved_out(finished, seam), fabric=fabric, part=part) for fabric in fabrics
    )
    lower, upper = (
        one.sew(two, mine="upper right", theirs="upper left", seam=seam, align="end")
        for one, two in ((bottom, right), (top, left))
    )
    return lower.sew(upper, mine="upper left", theirs="upper left", seam=seam, align=(0, 0))
