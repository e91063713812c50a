"""A pieced block as a sheet says it: its parts in the cutting list, its units of triangles, its rows."""

from __future__ import annotations

from collections import Counter
from fractions import Fraction
from typing import TYPE_CHECKING, Any

from .. import lengths
from .arguments import made_of_squares

if TYPE_CHECKING:
    from ..blocks import Block

TURN = {"/": 270, "\\": 0, "quarters": 0}
UNIT = {"/": "half-square", "\\": "half-square", "quarters": "quarter-square"}


class Pieced:
    """One block in the words of a sheet; `name` is what the sheet calls it (a plain block is a part of its own).

    >>> from quiltmath import blocks
    >>> four = Pieced(blocks.read("A B | B A", size=6, name="four-patch"))
    >>> four.rows, [(part, fabric, way) for part, (fabric, way, *_) in four.parts.items()]
    ([['A four-patch square', 'B four-patch square'], ['B four-patch square', 'A four-patch square']], \
[('A four-patch square', 'A', 'whole'), ('B four-patch square', 'B', 'whole')])
    """

    def __init__(self, block: Block, name: str | None = None) -> None:
        self.block, self.name = block, name or block.name
        self.parts: dict[str, tuple[str, str, tuple[Fraction, Fraction]]] = {}
        self.units: dict[str, dict[str, Any]] = {}
        self.rows: list[list[Any]] = []
        self._sizes = Counter(
            (kind, fabric) for kind, fabric, *_ in {(p.part, p.fabric, p.width, p.height) for p in block.patches()}
        )
        for row, height in zip(block.rows, block.heights):
            self.rows.append([self._item(unit, width, height) for unit, width in zip(row, block.widths)])

    def _item(self, unit, width, height):
        """The place of one unit in its row."""
        names = [self._part(unit, fabric, width, height) for fabric in unit.fabrics]
        if unit.kind == "square":
            return names[0]
        kind, fabrics = UNIT[unit.kind], dict.fromkeys(unit.fabrics)
        alike = len({*self.block.widths, *self.block.heights}) == 1
        size = "" if alike else f" {lengths.text(width)}"
        written = " and ".join(fabrics) if len(unit.fabrics) == 2 else " ".join(unit.fabrics)
        name = f"{written} {self.name} {kind}{size}"
        self.units[name] = {"kind": kind, "parts": names, "finished": (width, width)}
        return {"name": name, "turn": TURN[unit.kind]} if TURN[unit.kind] else name

    def _part(self, unit, fabric, width, height):
        """The part that a patch is cut as; patches alike in kind, fabric and size are one part."""
        way = {"square": "whole", "quarters": "twice"}.get(unit.kind, "once")
        if self.block.is_plain:
            name = self.name
        else:
            several = self._sizes[unit.part, fabric] > 1
            size = f" {lengths.text(width)} x {lengths.text(height)}" if several else ""
            name = f"{fabric} {self.name} {unit.part}{size}"
        finished = (width, height) if way == "whole" else (width, width)
        self.parts[name] = fabric, way, finished
        return name

    @property
    def squares(self) -> list[list] | None:
        """The names of its parts, row by row, where it is made of n x n equal squares; None for any other block."""
        return self.rows if made_of_squares(self.block) else None
