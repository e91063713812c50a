"""What every plan can be asked: its counts, its size, its pieces, its sheet, its sewn panel, and what if it were
different."""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction
from functools import cached_property
from typing import TYPE_CHECKING, Any

from .. import lengths, making
from ..blocks import Block
from ..making.layout import Layout
from ..making.placed import placed
from ..making.row import Row
from ..usual import MEASURED, SEAM
from . import arguments, borders, written

if TYPE_CHECKING:
    import sympy

    from ..making import Made, Need
    from ..making.placed import Placed
    from ..making.row import LevelRow
    from ..pattern import Sheet
    from ..root2 import Root2
    from ..sewing import Panel


class Planned:
    """What can be made once it is written as a sheet: see `sheet`."""

    if TYPE_CHECKING:  # what each kind of plan has of its own
        unit: str
        fabrics: dict

        @property
        def finished(self) -> tuple[Root2, Root2]: ...

    def sheet(self) -> Sheet:
        """The plan as a pattern sheet, which the review accepts.

        >>> from quiltmath import settings
        >>> [cut.part for cut in settings.on_point(across=5, down=6, block=9).sheet().cut]
        ['block', 'side triangle', 'corner triangle']
        """
        return self._sheet

    @cached_property
    def _sheet(self):
        return written.sheet(self)

    @cached_property
    def made(self) -> Made:
        """The sheet and what is made of it: see `making.Made`."""
        return making.make(self._sheet)

    def cutting_list(self) -> list[Need]:
        """What to cut, as a list of `making.Need`: blocks first, then sashing, setting triangles and borders."""
        return list(self.made.needs.values())

    def line(self, part: str) -> Need:
        """The line of the cutting list for this part."""
        return self.made.needs[part]

    def panel(self, cut: str = "exact") -> Panel:
        """The quilt top sewn in the simulator and squared up: finished size plus a seam all round.

        `cut` is "exact", or "ruler" for triangles cut to the ruler's step and trimmed.
        """
        arguments.one_of(cut, ("exact", "ruler"), "cut")
        made = self.made if cut == "exact" else making.make(self._sheet, as_printed=True)
        if made.top is None:
            raise ValueError("this plan cannot be sewn: " + "; ".join(trouble.message for trouble in made.troubles))
        return made.top

    def placed(self) -> list[Placed]:
        """The finished quilt as few shapes placed many times, quickly, for pictures: see `making.placed`."""
        return placed(self.made)

    @property
    def size(self) -> tuple[float, float]:
        """The finished (width, height) as floats of inches, quickly."""
        width, height = map(float, self.finished)
        return width, height

    @property
    def width(self) -> sympy.Expr:
        """The finished width, an exact SymPy number of inches."""
        return self.finished[0].exact()

    @property
    def height(self) -> sympy.Expr:
        """The finished height, an exact SymPy number of inches."""
        return self.finished[1].exact()

    @property
    def printed_size(self) -> tuple[Fraction, Fraction]:
        """The finished (width, height) as a pattern prints it: as everything that is measured is told."""
        width, height = (lengths.ruler(side, MEASURED[self.unit], "nearest") for side in self.finished)
        return width, height

    def fabric(self, role: str) -> str:
        """The fabric that plays a role: "setting", "sashing", "cornerstone" … (the role itself unless named)."""
        return self.fabrics.get(role, role)


@dataclass(frozen=True, eq=False, repr=False, kw_only=True)
class Plan(Planned):
    """A quilt top that can be made, straight or on point. Lengths are Fractions of inches.

    Made by `settings.on_point` and `settings.straight`. `edge` says what becomes of the cornerstones at the edge of a
    quilt on point ("half" or "whole"), `edges` how its setting triangles come about (see `MADE`). `make` is the
    function that made it, and `asked` what that was asked: see `what_if`.
    """

    style: str
    across: int
    down: int
    block: Block
    alternate: Block
    sashing: Fraction = Fraction(0)
    has_cornerstones: bool = True
    around: bool = False
    frame: Fraction = Fraction(0)
    floating: Fraction = Fraction(0)
    edge: str = "half"
    edges: str = "plain"
    borders: tuple = ()
    seam: Fraction = SEAM
    unit: str = "in"
    fabrics: dict = field(default_factory=dict)
    asked: dict = field(default_factory=dict)
    make: Any = None

    @cached_property
    def layout(self) -> Layout:
        """How its pieces lie: see `making.Layout`."""
        return Layout(
            self.style == "on point",
            self.across,
            self.down,
            sashed=bool(self.sashing),
            stones=self.has_cornerstones or not self.sashing,
            whole=self.whole,
            around=bool(self.sashing) and self.around,
            two_blocks=self.alternate is not self.block,
            cell=self.cell,
            sash=self.sashing,
            floating=self.floating,
        )

    @property
    def title(self) -> str:
        """What its sheet is called."""
        return f"{self.across} x {self.down} blocks of {arguments.shown(self.block.size, self.unit)} {self.style}"

    # -- how many ----------------------------------------------------------------------------------------------------

    @property
    def blocks(self) -> int:
        """How many blocks in all."""
        return sum(self.layout.block_counts)

    @property
    def main_blocks(self) -> int:
        """How many main blocks: on point those of the straight rows and columns, of a straight top every other one."""
        lies = self.layout
        return lies.block_counts[0] if lies.on_point or lies.two_blocks else self.blocks

    @property
    def alternate_blocks(self) -> int:
        """How many stand between those."""
        return self.blocks - self.main_blocks

    @property
    def side_triangles(self) -> int:
        """How many triangles lie along the sides."""
        return self.layout.side_triangles

    @property
    def corner_triangles(self) -> int:
        """How many triangles lie in the corners."""
        return self.layout.corner_triangles

    @property
    def sashes(self) -> int:
        """How many sashes as long as a block."""
        return self.layout.sashes

    @property
    def sashing_strips(self) -> int:
        """How many long strips of sashing between the rows, where there are no cornerstones."""
        return self.layout.strips

    @property
    def crossings(self) -> int:
        """How many cornerstones, those halved by the edge included."""
        return self.layout.cornerstones

    @property
    def cornerstone_triangles(self) -> int:
        """How many cornerstones the edge of the quilt halves."""
        return self.layout.halved_cornerstones

    @property
    def cornerstones(self) -> int:
        """How many whole cornerstones."""
        return self.crossings - self.cornerstone_triangles

    @property
    def triangle_tips(self) -> int:
        """How many side triangles end level with their row, their tips ending the next sashing row instead."""
        return self.layout.tips

    @property
    def cut_blocks(self) -> int:
        """How many more blocks are sewn and cut up for the edge."""
        return self.side_triangles + self.corner_triangles if self.edges == "half blocks" else 0

    @cached_property
    def patches(self) -> int:
        """How many patches the plan has, borders included; of cut blocks those that the cloth shows, slivers in its
        seams too."""
        if self.cut_blocks:
            return len(self.panel().corners)
        return sum(len(thing.patches) * len(thing.places) for thing in self.placed()) + self.triangle_tips

    @property
    def most_patches(self) -> int:
        """No fewer patches than the plan has, counted before anything is made."""
        block = max(self.block.pieces, self.alternate.pieces) + 4 * bool(self.frame)
        each = {"plain": 1, "framed": 3}.get(self.edges, block)
        edges = (self.side_triangles + self.corner_triangles) * each
        return self.blocks * block + edges + self.sashes + self.crossings + self.sashing_strips + 4 * len(self.borders)

    # -- how large ---------------------------------------------------------------------------------------------------

    @cached_property
    def cell(self) -> Fraction:
        """The finished side of what repeats: the block and its frame, if it has one."""
        return self.block.size + 2 * self.frame

    @property
    def pitch(self) -> Fraction:
        """The step from one block to the next."""
        return self.cell + self.sashing

    @property
    def whole(self) -> bool:
        """Whether the cornerstones at the edge of a quilt on point are whole."""
        return self.style == "on point" and bool(self.sashing) and self.edge == "whole"

    @property
    def leg(self) -> Fraction:
        """The finished leg of a side triangle, the float left aside."""
        return self.layout.leg

    @property
    def corner_side(self) -> Fraction:
        """The finished long side of a corner triangle, the float left aside."""
        return self.layout.corner_side

    @property
    def top_size(self) -> tuple[Root2, Root2]:
        """The finished (width, height) without borders, as Root2 lengths."""
        return self.layout.size

    @property
    def finished(self) -> tuple[Root2, Root2]:
        """The finished (width, height), borders included, as Root2 lengths."""
        return borders.around(self.top_size, self.borders)

    def bias_outside(self) -> float | None:
        """The inches of bias along the outside of the finished top, without borders, read off its cloth."""
        return making.bias_outside(self.made)

    # -- in which order ----------------------------------------------------------------------------------------------

    def part_at(self, place: int) -> str:
        """What stands at this place of a row, counted from 0."""
        return self.layout.part_at(place)

    def rows(self) -> list[Row | LevelRow]:
        """The rows in the order they are sewn: diagonal ones from the upper left corner of the quilt, straight ones
        from the top.

        >>> from quiltmath import settings
        >>> print(*settings.on_point(across=2, down=3, block=9).rows(), sep="\\n")
        Row 1: side triangle, block, side triangle
        Row 2: side triangle, 3 blocks
        Row 3: 3 blocks, side triangle
        Row 4: side triangle, block, side triangle
        >>> print(*settings.straight(3, 2, 9, sashing=2).rows(), sep="\\n")
        Row 1: block, sash, block, sash, block
        Sashing row 1: sash, cornerstone, sash, cornerstone, sash
        Row 2: block, sash, block, sash, block
        """
        return list(self.layout.rows)

    def row_plan(self) -> list[str]:
        """The rows in words, each with the way its seams are pressed, and why.

        >>> from quiltmath import settings
        >>> settings.straight(across=3, down=2, block=9).row_plan()[:2]
        ['Row 1: 3 blocks; press left', 'Row 2: 3 blocks; press right']
        """
        return [*map(self.layout.pressed, self.rows()), self.layout.pressing]

    def steps(self) -> list[str]:
        """How the top is put together once its rows are sewn, in words.

        >>> from quiltmath import settings
        >>> settings.on_point(across=2, down=3, block=9).steps()[-1]
        'Sew on the four corner triangles last, each by its long side, centred.'
        """
        if self.style == "straight":
            return [
                f"Sew each row from left to right. {self.layout.pressing}",
                "Sew the rows to each other in order, matching the seams.",
            ]
        said = [
            *self._edge_steps(),
            f"Sew each row from left to right. {self.layout.pressing}",
            *row_by_row(self.layout),
        ]
        return [
            *said,
            "Sew the rows to each other in order, matching the seams.",
            "Sew on the four corner triangles last, each by its long side, centred.",
        ]

    def _edge_steps(self):
        """How the setting triangles come about, and what to mind about them, in words."""
        said = [MADE[self.edges]]
        if self.floating:
            said.append(
                "Align the side triangles, cut large, at their right angle; trim their tips level with the row."
            )
        if BIAS[self.edges] or self.sashing_strips and not self.whole:
            bias = arguments.about(self.bias_outside(), self.unit)
            said.append(
                f"About {bias} of the outside is bias: handle it little, and measure the top before borders are cut."
            )
        return said

    # -- otherwise ---------------------------------------------------------------------------------------------------

    def what_if(self, **changes: Any) -> Plan:
        """The same plan with some of what was asked changed.

        >>> from quiltmath import settings
        >>> settings.on_point(across=5, down=6, block=9).what_if(block=10).width
        50*sqrt(2)
        """
        return self.make(**{**self.asked, **changes})

    def __str__(self):
        size = arguments.told_size(self.size, self.unit)
        return f"{self.title}: {self.blocks} block{'s' * (self.blocks != 1)}, {size}"

    def __repr__(self):
        return f"<{self}>"


def row_by_row(lies: Layout) -> list[str]:
    """What single rows of a quilt on point need before they are sewn to each other, in words; mostly nothing."""
    rows = [row for row in lies.rows if isinstance(row, Row)]
    said = [
        f"Row {row.number}: sew it to the sashing row {row.sashing} it before its triangles go on."
        for row in rows
        if row.sashing
    ]
    return said + [
        f"Row {row.number}: cut the {row.tip} triangle off level with the row, and end the next sashing row with "
        "its tip: whole, it would have to be set in."
        for row in rows
        if row.kind == "blocks" and row.tip
    ]


MADE = {
    "plain": "Cut the side triangles twice from a square: their long side, the edge of the quilt, is straight grain.",
    "framed": "Sew a strip to each leg of the setting triangles and trim its end at 45 degrees along the quilt's edge.",
    "built": (
        "Build the setting triangles row by row; their end triangles are cut twice from a square, so that the long "
        "side, the edge of the quilt, is straight grain."
    ),
    "built, bias outside": (
        "Build the setting triangles row by row; their end triangles are cut once from a square, so that the long "
        "side, the edge of the quilt, is bias."
    ),
    "half blocks": (
        "Cut each of the spare blocks one seam past its diagonal and keep the larger half; for a corner triangle cut "
        "past both diagonals. Stay-stitch along the line first (common practice)."
    ),
}
BIAS = {"plain": False, "framed": True, "built": False, "built, bias outside": True, "half blocks": True}
