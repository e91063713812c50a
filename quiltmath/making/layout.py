"""How the pieces of a setting lie: their counts, their rows in sewing order, and exactly where each piece lies.

An on-point top is laid out as its rows lie level on the table, before it is turned: there every seam between blocks,
sashes and cornerstones lies at a rational place. Row `k` runs from -(down - 1), the single block in the quilt's upper
left corner, to across - 1, the one in its lower right.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from typing import TYPE_CHECKING, Any

from ..root2 import Root2
from .row import LevelRow, Row, RowPiece, SetBlock

if TYPE_CHECKING:
    from ..pattern.setting import Setting

Drawn = tuple[tuple[SetBlock, ...], ...]
Sizes = tuple[tuple[tuple[Fraction, Fraction], ...], ...]

ALTERNATELY = "Press the seams of odd rows to the left and of even rows to the right: where rows meet, the seams nest."
UP_AND_DOWN = "Press the seams of odd columns up and of even columns down: where seams of two columns meet, they nest."
TO_THE_SASHES = "Press every seam towards the sashing: where rows meet, the seams nest."


@dataclass(frozen=True)
class Layout:
    """A setting as it lies: how many blocks across and down, what is between them, and its exact finished measures.

    - `sashed`: there is sashing, which crosses in cornerstones (`stones`) or else in long strips. Of a straight setting
      it may go `around` the outside too; on point its outermost cornerstones are `whole`, or halved by the edge.
    - `two_blocks`: every other block is the alternate one. Blocks that are each `drawn` stand in those rows, on point
      in the level ones and those `between` them.
    - `cell` is the finished side of a block, its frame included, `sash` the finished width of the sashing, `floating`
      how far the blocks float inside the edge; all in inches.
    - Where every row is what it is, not one of a grid, `sizes` are the finished (width, height) of its pieces; such
      rows may stand `upright`, as columns.
    """

    on_point: bool
    across: int
    down: int
    sashed: bool = False
    stones: bool = True
    whole: bool = False
    around: bool = False
    two_blocks: bool = False
    cell: Fraction = Fraction(1)
    sash: Fraction = Fraction(0)
    floating: Fraction = Fraction(0)
    drawn: Drawn = ()
    between: Drawn = ()
    upright: bool = False
    sizes: Sizes = ()

    # -- how it is pressed -------------------------------------------------------------------------------------------

    @property
    def pressing(self) -> str:
        """How the seams of its rows are pressed so that they nest, in a sentence (common practice)."""
        return TO_THE_SASHES if self.sashed else UP_AND_DOWN if self.upright else ALTERNATELY

    def pressed(self, row: Row | LevelRow) -> str:
        """A row in words, with the way its seams are pressed where rows take turns.

        >>> lies = Layout(False, 3, 2)
        >>> [lies.pressed(row) for row in lies.rows]
        ['Row 1: 3 blocks; press left', 'Row 2: 3 blocks; press right']
        """
        return f"{row}{self.turn_of(row)}"

    def turn_of(self, row: Row | LevelRow) -> str:
        """The end of the line of a row that says which way it is pressed; nothing where it has no seam, or sashing says
        it for all rows."""
        way = self.way_of(row)
        return f"; press {way}" if way else ""

    def way_of(self, row: Row | LevelRow) -> str:
        """Which way the seams of a row are pressed; nothing where it has none, or sashing says it for all rows.

        >>> lies = Layout(False, 3, 2)
        >>> [lies.way_of(row) for row in lies.rows]
        ['left', 'right']
        """
        if self.sashed or len(row.parts) < 2:
            return ""
        return (("left", "right"), ("up", "down"))[self.upright][row.number % 2 == 0]

    # -- how many ----------------------------------------------------------------------------------------------------

    @property
    def block_counts(self) -> tuple[int, int]:
        """How many places the main block takes, and how many the alternate block (or the main one again).

        >>> Layout(True, 5, 6).block_counts, Layout(False, 5, 5).block_counts
        ((30, 20), (13, 12))
        """
        if self.on_point:
            return self.across * self.down, (self.across - 1) * (self.down - 1)
        return (self.across * self.down + 1) // 2, self.across * self.down // 2

    def sides_at(self, where: str) -> int:
        """How many side triangles lie along the "top", "left", "bottom" or "right"."""
        return (self.across if where in ("top", "bottom") else self.down) - 1

    @property
    def side_triangles(self) -> int:
        """How many triangles lie along the sides."""
        return 2 * (self.across + self.down - 2) if self.on_point else 0

    @property
    def corner_triangles(self) -> int:
        """How many triangles lie in the corners."""
        return 4 if self.on_point else 0

    @property
    def sash_columns(self) -> int:
        """How many upright lines of sashing a straight setting has."""
        return self.across + (1 if self.around else -1) if self.sashed else 0

    @property
    def sash_rows(self) -> int:
        """How many level lines of sashing a straight setting has."""
        return self.down + (1 if self.around else -1) if self.sashed else 0

    @property
    def sashes(self) -> int:
        """How many sashes as long as a block; where long strips cross them on point, half of them lie in the strips."""
        if not self.sashed:
            return 0
        if self.on_point:
            return (4 if self.stones else 2) * self.across * self.down
        return self.down * self.sash_columns + (self.across * self.sash_rows if self.stones else 0)

    @property
    def strips(self) -> int:
        """How many long strips of sashing lie between the rows, where there are no cornerstones."""
        if not self.sashed or self.stones:
            return 0
        return self.across + self.down if self.on_point else self.sash_rows

    @property
    def cornerstones(self) -> int:
        """How many cornerstones, those halved by the edge included."""
        if not (self.sashed and self.stones):
            return 0
        return (
            2 * self.across * self.down + self.across + self.down
            if self.on_point
            else self.sash_columns * self.sash_rows
        )

    @property
    def halved_cornerstones(self) -> int:
        """How many cornerstones the edge of an on-point quilt halves."""
        return 2 * (self.across + self.down) if self.on_point and self.cornerstones and not self.whole else 0

    @property
    def tips(self) -> int:
        """How many side triangles end level with their row, their tips ending the next sashing row instead."""
        return max(0, abs(self.across - self.down) - 1) if self.whole else 0

    def named_strips(self, names: Sequence[str]) -> list[tuple[str, int]]:
        """(name, how many blocks it passes) of each long sashing strip: one name for all, or one for each length.

        >>> Layout(True, 2, 2, sashed=True, stones=False).named_strips(["short", "long"])
        [('short', 1), ('long', 3), ('long', 3), ('short', 1)]
        """
        lengths = sorted(set(self.strip_reaches))
        return [(names[0] if len(names) == 1 else names[lengths.index(reach)], reach) for reach in self.strip_reaches]

    @property
    def strip_reaches(self) -> list[int]:
        """How many blocks each sashing row passes, from the upper left corner (straight: from the top)."""
        if not self.strips:
            return []
        if not self.on_point:
            return [self.across] * self.sash_rows
        return [high - low + 1 for _, low, high in self._between()]

    # -- how large ---------------------------------------------------------------------------------------------------

    @property
    def pitch(self) -> Fraction:
        """The step from one block to the next."""
        return self.cell + self.sash

    @property
    def leg(self) -> Fraction:
        """The finished leg of a side triangle, the float left aside."""
        return self.cell + (self.sash if self.whole else 0)

    @property
    def corner_side(self) -> Fraction:
        """The finished long side of a corner triangle, the float left aside."""
        return self.cell + (2 * self.sash if self.whole else 0)

    def reach_of(self, row: Row) -> int:
        """How many blocks a sashing row of a quilt on point passes."""
        return int((row.end - row.x + (-self.sash if self.whole else self.sash)) / self.pitch)

    def strip_length(self, reach: int) -> Fraction:
        """The finished length of a long sashing strip that passes so many blocks; without its slanting ends, if it has
        any."""
        ends = 1 if self.whole or not self.on_point and self.around else -1
        return reach * self.pitch + ends * self.sash

    @property
    def size(self) -> tuple[Root2, Root2]:
        """The finished (width, height) of the setting, as Root2 lengths.

        >>> Layout(True, 5, 6, cell=Fraction(9)).size[0] == Root2(root=Fraction(45))
        True
        """
        if self.on_point:
            more = Root2(2 * self.floating, self.sash if self.whole else Fraction(0))
            return Root2(root=self.across * self.pitch) + more, Root2(root=self.down * self.pitch) + more
        if self.sizes:
            along = sum((size[self.upright] for size in self.sizes[0]), Fraction(0))
            over = sum(self.thickness, Fraction(0))
            return (Root2(over), Root2(along)) if self.upright else (Root2(along), Root2(over))
        return (
            Root2(self.across * self.cell + self.sash_columns * self.sash),
            Root2(self.down * self.cell + self.sash_rows * self.sash),
        )

    @property
    def thickness(self) -> list[Fraction]:
        """How high each row of a straight setting finishes, from the top; how wide each column, from the left."""
        if self.sizes:
            return [row[0][not self.upright] for row in self.sizes]
        return [self.cell if row.kind == "blocks" else self.sash for row in self.rows]

    # -- in which rows -----------------------------------------------------------------------------------------------

    def block_at(self, row: int, place: int) -> str | SetBlock:
        """What stands in a diagonal row at this place, both counted as in `_span`: in a level row, or between two."""
        if not self.drawn:
            return self.part_at(place - abs(row))
        column, level = (place + row) // 2, (place - row) // 2
        rows = self.between if (place + row) % 2 else self.drawn
        return rows[len(rows) - 1 - level][column]

    def part_at(self, place: int) -> str:
        """What stands at this place of a row, counted from 0: every other block is the alternate one, if there is
        one."""
        return "block" if place % 2 == 0 or not self.two_blocks else "alternate block"

    @cached_property
    def rows(self) -> tuple[Row, ...] | tuple[LevelRow, ...]:
        """All rows in sewing order: `Row`s from the upper left corner of a quilt on point, `LevelRow`s from the top."""
        return tuple(self._diagonal_rows() if self.on_point else self._level_rows())

    @property
    def rows_of_blocks(self) -> list[Row | LevelRow]:
        """The rows that hold blocks, in the same order."""
        return [row for row in self.rows if row.kind == "blocks"]

    def _level_rows(self):
        blocks, short = [], range(0 if self.drawn else self.down)
        runs = [*self.drawn, *([self.part_at(place) for place in range(row, row + self.across)] for row in short)]
        for number, run in enumerate(runs):
            parts = self._among(run, ["sash"] * self.sash_columns)
            blocks.append(LevelRow(number + 1, "blocks", parts, self.upright))
        if not self.sashed:
            return blocks
        parts = ("sashing strip",)
        if self.stones:
            parts = self._among(["sash"] * self.across, ["cornerstone"] * self.sash_columns)
        return self._among(blocks, [LevelRow(number + 1, "sashing", parts) for number in range(self.sash_rows)])

    def _among(self, things, sashing):
        """The things with the sashing between them, or before, between and after them where it goes all round."""
        if not sashing:
            return tuple(things)
        first, second = (sashing, things) if self.around else (things, sashing)
        found = [thing for pair in zip(first, second) for thing in pair]
        return (*found, first[-1])

    def _diagonal_rows(self):
        found = []
        between = {k: (low, high) for k, low, high in self._between()} if self.sashed else {}
        for k in range(-self.down, self.across):
            if k >= 1 - self.down:
                found.append(self._blocks(k, *self._span(k)))
            if self.sashed:
                found.append(self._sashing(k, *between[k]))
        return found

    def _between(self):
        """The number of each sashing row's upper neighbour, and the first and last block that the row passes."""
        for k in range(-self.down, self.across):
            beside = [self._span(j) for j in (k, k + 1) if 1 - self.down <= j < self.across]
            yield k, min(low for low, _ in beside), max(high for _, high in beside)

    def _span(self, k):
        """The numbers of the first and last block of row k, counted in pitches from the quilt's lower left corner."""
        first, last = max(0, k), min(self.across - 1, self.down - 1 + k)
        return 2 * first - k, 2 * last - k

    def _cell(self, number):
        """Where the left side of that block lies."""
        return (number + 1) * self.pitch - self.cell / 2

    def _blocks(self, k, low, high):
        """Row k, from its block `low` to its block `high`."""
        pieces, x = [], self._cell(low) - self.sash
        for place in range(low, high + 1):
            if self.sashed:
                pieces.append(RowPiece("sash", x, self.sash))
            pieces.append(RowPiece(self.block_at(k, place), x + self.sash, self.cell))
            x += self.pitch
        if self.sashed:
            pieces.append(RowPiece("sash", x, self.sash))
        left, right = form(k), form(k - self.across + self.down)
        with_sashing, tip = self._beside_whole_stones(left, right) if self.whole else ("", "")
        return Row(
            k + self.down,
            "blocks",
            tuple(pieces),
            left,
            right,
            y=-k * self.pitch - self.cell / 2,
            height=self.cell,
            ends="side triangle",
            sashing=with_sashing,
            tip=tip,
        )

    def _beside_whole_stones(self, left, right):
        """Which sashing row a row with these ends is sewn to before its triangles, and which of its triangles is cut
        level with it."""
        forms = {left, right}
        with_sashing = "above" if "bottom" in forms else "below" if "top" in forms else ""
        both = {"bottom", "top"} <= forms
        return with_sashing, ("left" if left == "top" else "right") if both else ""

    def _sashing(self, k, low, high):
        """The sashing row below row k, from above or below the block `low` to the block `high`."""
        x, end = self._cell(low), self._cell(high) + self.cell
        left, right = "", ""
        if self.whole:
            x, end = x - self.sash, end + self.sash
        else:
            left, right = "bottom" if k < 0 else "top", "bottom" if k < self.across - self.down else "top"
        return Row(
            k + self.down + 1,
            "sashing",
            tuple(self._stones_and_sashes(x, end)) if self.stones else (RowPiece("sashing strip", x, end - x),),
            left,
            right,
            y=-k * self.pitch - self.cell / 2 - self.sash,
            height=self.sash,
            ends="cornerstone triangle" if self.stones and not self.whole else "",
            tip=self._tip(k) if self.whole else "",
        )

    def _stones_and_sashes(self, x, end):
        """The cornerstones and sashes, in turn, of a sashing row from x to `end`."""
        stone = self.whole
        while x < end:
            width = self.sash if stone else self.cell
            yield RowPiece("cornerstone" if stone else "sash", x, width)
            x, stone = x + width, not stone

    def _tip(self, k):
        """The end of the sashing row below row k that carries the tip of a side triangle."""
        if 0 < k < self.across - self.down:
            return "left"
        return "right" if self.across - self.down < k < 0 else ""


def form(place: int) -> str:
    """Where the right angle of an end triangle lies, for a row so many rows past the one that ends in a corner."""
    return "bottom" if place < 0 else "top" if place > 0 else ""


def of(setting: Setting, cell: Any = Fraction(1), sash: Any = Fraction(1), sizes: Sizes = ()) -> Layout:
    """The layout of a sheet's setting, with these finished measures where they matter."""
    sashing, drawn, on_point = setting.sashing, _drawn(setting.columns or setting.rows), setting.style == "on point"
    if setting.columns is not None and not setting.loose:  # a grid: its rows are the columns read across
        drawn = tuple(zip(*drawn))
    across, down = setting.size
    return Layout(
        on_point,
        across,
        down,
        sashed=sashing is not None,
        stones=sashing is None or sashing.cornerstone is not None,
        whole=on_point and sashing is not None and sashing.edge == "whole",
        around=not on_point and sashing is not None and sashing.around,
        two_blocks=setting.alternate is not None and setting.alternate != setting.block,
        cell=cell,
        sash=sash if sashing is not None else Fraction(0),
        floating=setting.floating,
        drawn=drawn,
        between=_drawn(setting.between),
        upright=setting.columns is not None and setting.loose,
        sizes=sizes,
    )


def _drawn(rows):
    """Rows as they are typed, as `SetBlock`s."""
    return tuple(tuple(SetBlock(item.name, item.turn % 360) for item in row) for row in rows or ())
