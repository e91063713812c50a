"""Triangles cut from plain cloth that lie at the outside, of a quilt or a round: how large, by what lies beside."""

from __future__ import annotations

from fractions import Fraction
from math import sqrt
from typing import TYPE_CHECKING, Any, NamedTuple

from ..pattern.names import CORNER, SIDE, edge_piece
from ..root2 import root2
from . import measures
from .by_proof import cut_sizes
from .need import triangle

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..pattern.parts import EdgePiece
    from .made import Made
    from .need import Measure, Sides

HALF = Fraction(1, 2)
HALVED, TIP, ROUND = "halved cornerstone", "tip", "round"


class EdgeTriangle(NamedTuple):
    """Triangles cut from plain cloth that lie at the outside of what they are sewn to.

    `where` is SIDE, CORNER, HALVED, TIP or ROUND, `way` how their squares are cut so that the outside lies on the
    straight grain, `beside` the finished measure (inches) that asks for their size: of a block, of the sash, or of
    what a round goes round. `sides` are those of their need and `square` is the exact square in inches as a float, both
    None where no figure gives them.
    """

    where: str
    part: str
    way: str
    beside: Measure | None
    sides: Sides | None
    square: float | None

    @classmethod
    def cut_from(
        cls, made: Made, where: str, part: str, way: str, beside: Measure | None, sides: Sides | None
    ) -> EdgeTriangle:
        """One whose square is what these sides come to."""
        value = None if sides is None else cut_sizes(sides, made.seam)
        return cls(where, part, way, beside, None if value is None else sides, None if value is None else value[0])


def edge_triangles(made: Made, block: Fraction | float | None = None) -> Iterator[EdgeTriangle]:
    """Every `EdgeTriangle` of a sheet; `block` is the finished width of its blocks, where not the sheet's own."""
    for found in _edge_triangle_sides(made, block):
        yield EdgeTriangle.cut_from(made, *found)


def is_plain(piece: EdgePiece | None) -> bool:
    """Whether these edge triangles are cut from plain cloth, and nothing is sewn to make them."""
    return piece is not None and piece.how == "plain"


def _edge_triangle_sides(made, block):
    """The same as (where, part, way, beside, sides)."""
    setting = made.sheet.setting
    for kind, way in ((SIDE, "twice"), (CORNER, "once")):
        if is_plain(piece := edge_piece(made.sheet, kind)):
            yield kind, piece.part, way, made.cell if block is None else block, _edge_sides(made, kind, block)
    sashing = setting.sashing
    sash = made.width_of(sashing.part) if sashing is not None and made.panel(sashing.part) is not None else None
    if sash is not None and setting.sashing.edge_cornerstone is not None:
        yield HALVED, setting.sashing.edge_cornerstone, "twice", sash, triangle("twice", times_root2(sash))
    if sash is not None and setting.sides is not None and setting.sides.tip is not None:
        yield TIP, setting.sides.tip, "twice", sash, triangle("twice", made.tip_length)
    for border, size in zip(made.sheet.border, measures.rounds(made.sheet) or ()):
        if border.triangles is not None:
            inside = root2(size[0])
            yield ROUND, border.triangles, "once", inside, (("corner_triangle", None, {"block": inside}),)


def _edge_sides(made, kind, block):
    """The sides of the square that plain side or corner triangles are cut from; None where no block is known.

    A frame on the triangle takes its width off; whole cornerstones at the quilt's edge and blocks that float inside it
    ask for more. `block` is the finished width of the block beside it, where it is not the sheet's own.
    """
    setting, cell = made.sheet.setting, made.cell if block is None else block
    if cell is None or not _strips_known(made, kind):
        return None
    leg, floating = finished_beside(made, kind, cell), 2 * setting.floating
    if not floating:
        return ((("side_triangle" if kind == SIDE else "corner_triangle"), None, {"block": leg}),)
    if kind == SIDE:
        return triangle("twice", times_root2(leg) + floating)
    return triangle("once", times_root2(leg) * HALF + floating)


def _strips_known(made, kind):
    """Whether all strips that lie between a block and an edge triangle are cut."""
    piece, sashing = (
        (made.sheet.setting.sides if kind == SIDE else made.sheet.setting.corners),
        made.sheet.setting.sashing,
    )
    strips = [*(piece.frame or () if piece is not None else ()), *([sashing.part] if sashing is not None else ())]
    return None not in map(made.panel, strips)


def edge_length(made: Made, kind: str) -> float | None:
    """The finished leg of a side triangle, or long side of a corner triangle, that the block beside it asks for, in
    inches as a float; None where no block is known."""
    known = made.cell is not None and _strips_known(made, kind)
    return float(finished_beside(made, kind, made.cell)) if known else None


def finished_beside(made: Made, kind: str, cell: Any) -> Any:
    """The finished leg of a side triangle, or long side of a corner triangle, beside a block that finishes `cell`."""
    setting = made.sheet.setting
    piece, sashing = (setting.sides if kind == SIDE else setting.corners), setting.sashing
    sash = made.width_of(sashing.part) if sashing is not None and sashing.edge == "whole" else 0
    frame = sum(made.width_of(name) for name in (piece.frame if piece is not None and piece.frame else ()))
    if kind == SIDE:
        return cell + sash - frame
    along = cell + 2 * sash
    if piece is None or len(piece.frame or ()) < 2:
        return along - 2 * frame
    return along - (float(frame) * sqrt(2) if isinstance(along, float) else times_root2(frame))


def times_root2(length: Measure) -> Any:
    """A length times √2, exact where it is."""
    return length * sqrt(2) if isinstance(length, float) else root2(length).by_root()
