"""What every plan can be asked: its size, its pieces, its cutting list, its sewn panel, and what if it were
different."""

from abc import ABC, abstractmethod
from dataclasses import dataclass, field
from fractions import Fraction
from functools import cached_property

from ..blocks import Block
from . import arguments, borders, frames, to_cut


@dataclass(frozen=True, eq=False, repr=False, kw_only=True)
class Plan(ABC):
    """A quilt top that can be made: the parts that straight and on-point plans share. Lengths are Fractions
    of inches."""

    across: int
    down: int
    block: Block
    alternate: Block
    sashing: Fraction = Fraction(0)
    has_cornerstones: bool = True
    frame: Fraction = Fraction(0)
    borders: tuple = ()
    seam: Fraction = Fraction(1, 4)
    unit: str = "in"
    fabrics: dict = field(default_factory=dict)
    asked: dict = field(default_factory=dict)
    make: object = None
    edge_style: object = None

    @cached_property
    def cell(self):
        """The finished side of what repeats: the block and its frame, if it has one."""
        return self.block.size + 2 * self.frame

    @cached_property
    def pitch(self):
        """The step from one block to the next."""
        return self.cell + self.sashing

    def part_at(self, place):
        """What stands at this place of a row, counted from 0: every other block is the alternate one, if
        there is one."""
        return "block" if place % 2 == 0 or self.alternate is self.block else "alternate block"

    @property
    def blocks(self):
        """How many blocks in all."""
        return self.main_blocks + self.alternate_blocks

    @property
    def patches(self):
        """How many patches the plan has, borders included."""
        return (
            self.main_blocks * self.block.pieces
            + self.alternate_blocks * self.alternate.pieces
            + self.sashes
            + self.sashing_strips
            + self.crossings
            + self.edge_patches
            + 4 * self.blocks * bool(self.frame)
            + 4 * len(self.borders)
        )

    @property
    @abstractmethod
    def top_size(self):
        """The finished (width, height) without borders, as Root2 lengths."""

    @property
    def finished(self):
        """The finished (width, height), borders included, as Root2 lengths."""
        return borders.around(self.top_size, self.borders)

    @property
    def size(self):
        """The finished (width, height) as floats of inches, quickly."""
        return tuple(map(float, self.finished))

    @property
    def width(self):
        """The finished width, an exact SymPy number of inches."""
        return self.finished[0].exact()

    @property
    def height(self):
        """The finished height, an exact SymPy number of inches."""
        return self.finished[1].exact()

    def fabric(self, role):
        """The cloth that plays a role: "setting", "sashing", "cornerstone" … (the role itself unless
        named)."""
        return self.fabrics.get(role, role)

    def what_if(self, **changes):
        """The same plan with some of what was asked changed.

        >>> from quiltmath import settings
        >>> settings.on_point(across=5, down=6, block=9).what_if(block=10).width
        50*sqrt(2)
        """
        return self.make(**{**self.asked, **changes})

    @cached_property
    def _cutting(self):
        same = self.alternate is self.block
        lines = to_cut.block_lines(self.block, self.blocks if same else self.main_blocks, self)
        if not same and self.alternate_blocks:
            lines += to_cut.block_lines(self.alternate, self.alternate_blocks, self)
        return lines + frames.block_lines(self) + self.edge_lines() + self.sashing_lines() + self.border_lines()

    def border_lines(self):
        """The cutting list of the borders alone."""
        return borders.lines(self, self.top_size, self.borders)

    def cutting_list(self):
        """What to cut: see `to_cut.ToCut`; blocks first, then edge triangles, sashing and borders."""
        return list(self._cutting)

    def line(self, part):
        """The line of the cutting list for this part."""
        return next(line for line in self._cutting if line.part == part)

    def panel(self, cut="exact"):
        """The quilt top sewn in the simulator and squared up: finished size plus a seam all round.

        `cut` is "exact", or "ruler" for edge triangles cut to the ruler's step and trimmed.
        """
        return borders.sewn_on(self.sewn_top(cut), self, self.top_size, self.borders)

    def __str__(self):
        return (
            f"{self.across} x {self.down} blocks of {arguments.shown(self.block.size, self.unit)} "
            f"{self.style}: "
            f"{self.blocks} blocks, about {arguments.about_size(self.size, self.unit)}"
        )

    def __repr__(self):
        return f"<{self}>"
