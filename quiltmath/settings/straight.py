"""Straight-set quilts: blocks in level rows, with or without sashing between them or all round."""

from dataclasses import dataclass
from functools import cached_property
from itertools import groupby
from typing import NamedTuple

from .. import sewing
from ..root2 import Root2
from . import frames, placed, to_cut
from .plan import Plan


class LevelRow(NamedTuple):
    """A row as it is sewn: its number from the top, "blocks" or "sashing", its parts from left to right."""

    number: int
    kind: str
    parts: tuple

    def __str__(self):
        held = [(part, len(list(run))) for part, run in groupby(self.parts)]
        words = ", ".join(part if count == 1 else f"{count} {part}s" for part, count in held)
        return f"{'Row' if self.kind == 'blocks' else 'Sashing row'} {self.number}: {words}"


@dataclass(frozen=True, eq=False, repr=False, kw_only=True)
class Straight(Plan):
    """A straight-set quilt of `across` by `down` blocks. Made by `settings.straight`."""

    all_round: bool = False

    style = "straight"

    @property
    def main_blocks(self):
        """How many main blocks: all of them, or every other one."""
        return self.across * self.down - self.alternate_blocks

    @property
    def alternate_blocks(self):
        """How many alternate blocks lie between them."""
        return 0 if self.alternate is self.block else self.across * self.down // 2

    @property
    def columns(self):
        """How many upright lines of sashing there are."""
        return (self.across + (1 if self.all_round else -1)) if self.sashing else 0

    @property
    def lines(self):
        """How many level lines of sashing there are."""
        return (self.down + (1 if self.all_round else -1)) if self.sashing else 0

    @property
    def sashes(self):
        """How many sashes as long as a block."""
        level = self.across * self.lines if self.has_cornerstones else 0
        return self.down * self.columns + level

    @property
    def sashing_strips(self):
        """How many long strips of sashing between the rows, where there are no cornerstones."""
        return 0 if self.has_cornerstones else self.lines

    @property
    def cornerstones(self):
        """How many cornerstones."""
        return self.columns * self.lines if self.has_cornerstones else 0

    crossings = cornerstones
    side_triangles = corner_triangles = cornerstone_triangles = edge_patches = cut_blocks = 0

    @property
    def top_size(self):
        """The finished (width, height) without borders, as Root2 lengths."""
        return (
            Root2(self.across * self.cell + self.columns * self.sashing),
            Root2(self.down * self.cell + self.lines * self.sashing),
        )

    @cached_property
    def level_rows(self):
        """The rows from the top down."""
        block_rows = []
        for number in range(self.down):
            blocks = [self.part_at(place) for place in range(number, number + self.across)]
            block_rows.append(LevelRow(number + 1, "blocks", self._among(blocks, ["sash"] * self.columns)))
        if not self.sashing:
            return tuple(block_rows)
        parts = ("sashing strip",)
        if self.has_cornerstones:
            parts = self._among(["sash"] * self.across, ["cornerstone"] * self.columns)
        return self._among(block_rows, [LevelRow(number + 1, "sashing", parts) for number in range(self.lines)])

    def _among(self, things, sashing):
        """The things with the sashing between them, or before, between and after them where it goes all
        round."""
        if not sashing:
            return tuple(things)
        first, second = (sashing, things) if self.all_round else (things, sashing)
        found = [thing for pair in zip(first, second) for thing in pair]
        return (*found, first[-1])

    def rows(self):
        """The rows in the order they are sewn, from the top.

        >>> from quiltmath import settings
        >>> print(*settings.straight(3, 2, 9, sashing=2).rows(), sep="\\n")
        Row 1: block, sash, block, sash, block
        Sashing row 1: sash, cornerstone, sash, cornerstone, sash
        Row 2: block, sash, block, sash, block
        """
        return list(self.level_rows)

    def edge_lines(self):
        """A straight top has no edge triangles to cut."""
        return []

    def sashing_lines(self):
        """The cutting list of the sashing and its cornerstones."""
        width, found = self.sashing, []
        if self.sashes:
            found.append(
                to_cut.whole("sash", self.fabric("sashing"), self.sashes, width, self.cell, self, to_cut.LENGTHWISE)
            )
        if self.cornerstones:
            found.append(to_cut.whole("cornerstone", self.fabric("cornerstone"), self.cornerstones, width, width, self))
        if self.sashing_strips:
            found.append(
                to_cut.whole(
                    "sashing strip",
                    self.fabric("sashing"),
                    self.sashing_strips,
                    width,
                    self.top_size[0].plain,
                    self,
                    to_cut.LENGTHWISE,
                )
            )
        return found

    def placed(self):
        """The finished top as few shapes placed many times, quickly, for pictures: see `placed.Placed`."""
        return placed.straight(self)

    def bias_outside(self):
        """The length of bias along the outside of the top, without borders: none."""
        return Root2()

    def steps(self):
        """How the top is put together once its rows are sewn, in words."""
        return [
            "Sew each row from left to right.",
            "Sew the rows to each other in order, matching the seams.",
        ]

    def sewn_top(self, cut="exact"):
        """The top without borders, sewn."""
        seam, runs = float(self.seam), {}
        parts = {"block": frames.framed(self, self.block)}
        if self.alternate is not self.block:
            parts["alternate block"] = frames.framed(self, self.alternate)
        parts.update(self._sashing_parts())
        rows = []
        for row in self.level_rows:
            pieces = [parts["level sash" if part == "sash" and row.kind == "sashing" else part] for part in row.parts]
            rows.append(sewing.in_a_row(pieces, seam=seam, sewn=runs))
        return sewing.in_a_row(rows[::-1], mine="top", theirs="bottom", seam=seam, sewn=runs)

    def _sashing_parts(self):
        """The pieces of sashing, cut."""
        found = {}
        for line in self.sashing_lines():
            width, length = line.value if len(line.value) == 2 else line.value * 2
            if line.part == "sash":
                found["level sash"] = sewing.patch(size=(length, width), fabric=line.fabric, part="sash", grain=0)
            if line.part == "sashing strip":
                width, length = length, width
            found[line.part] = sewing.patch(
                size=(width, length),
                fabric=line.fabric,
                part=line.part,
                grain=0 if line.part == "sashing strip" else 90,
            )
        return found
