"""Side and corner triangles as a sheet has them: cut from a square, built in rows or cut from blocks, and their
frames."""

from __future__ import annotations

from math import sqrt
from typing import TYPE_CHECKING, cast

import numpy as np

from .. import proofs
from ..pattern.names import EDGES, SIDE, edge_piece
from ..sewing.seaming import sewn
from ..shapes import NEAR
from .by_proof import measure
from .in_rows import rows_sewn
from .straight import as_long
from .trouble import Missing

if TYPE_CHECKING:
    from collections.abc import Sequence

    from ..pattern.parts import EdgePiece
    from ..sewing import Panel
    from .made import Made


def edge_triangle(made: Made, piece: EdgePiece, name: str, where: str) -> Panel:
    """An edge triangle with its right angle at the lower left, by the way the sheet says it comes about."""
    side = name.endswith(SIDE)
    if piece.how == "plain":
        return made.need(cast("str", piece.part))
    if piece.how == "built":
        rows = piece.rows_at(where)
        return rows_sewn(made, rows) if side else rows_sewn(made, rows, "centre").turn(135)
    return _cut_from_block(made, piece, side, where)


def _cut_from_block(made, piece, side, where):
    """Half a block, for a side, or a quarter, cut `past` its diagonals; the block lies as it would in the quilt."""
    around = 90 * EDGES.index(where)
    block = made.need(piece.block or made.block).turn(-around if side else -90 - around)
    width, height = block.size
    past = float(piece.past) * sqrt(2)
    _, half = block.cut((past, height), (width, past), made.seam)
    if side:
        return half.laid_down()
    quarter, _ = half.cut((past, 0), (width, height - past), made.seam)
    return quarter.turn(225)


def framed(made: Made, kind: str, short: float = 0.0) -> Panel:
    """A side or corner triangle with its frame, the strips cut `short` by so many inches of what reaches past the
    trim."""
    triangle, piece = made.unframed(kind), edge_piece(made.sheet, kind)
    if triangle is None or piece is None:
        raise Missing(kind)
    return with_frame(made, triangle, piece.frame, short)


def with_frame(made: Made, triangle: Panel, frame: Sequence[str] | None, short: float = 0.0) -> Panel:
    """An edge triangle with its frame, trimmed at 45 degrees: strips on both short edges, the left one first, or one on
    the long edge of a corner triangle.

    The strips are sewn as long as they must be to reach past the trim; whether the printed ones do is for the review to
    say.
    """
    if frame is None:
        return triangle
    lengths = frame_lengths(made, triangle, frame)
    strips = [
        as_long(made.need(part), length - short, upright=place == "left") for (part, place), length in lengths.items()
    ]
    return _on_long_edge(made, triangle, *strips) if len(strips) == 1 else _on_short_edges(made, triangle, *strips)


def _on_long_edge(made, triangle, strip):
    """A corner triangle with a strip on its long edge, trimmed in line with both short edges."""
    panel = sewn(triangle, strip, "upper right", "bottom", made.seam, "centre")  # the triangle stays where it lies
    return panel.trim(left=0, bottom=0, seam=made.seam).laid_down()


def _on_short_edges(made, triangle, left, bottom):
    """A triangle with a strip on each short edge, trimmed in line with its long edge where they reach past it."""
    long = triangle.edge("upper right", made.seam)
    panel = sewn(triangle, left, "left", "right", made.seam, "start")  # the triangle stays where it lies
    panel = sewn(panel, bottom, "bottom", "top", made.seam, "start")
    normal = np.array(long.normal)
    if not _reaches(panel, normal, long.limit):
        return panel.laid_down()
    corner, along = normal * long.limit, np.array((-normal[1], normal[0]))
    return panel.cut(corner, corner + along, made.seam)[0].laid_down()


def _reaches(panel, normal, limit):
    """Whether some cloth of a panel lies past a line."""
    return bool((panel.corners.reshape(-1, 2) @ normal).max() > limit + NEAR)


def frame_lengths(made: Made, triangle: Panel, frame: Sequence[str]) -> dict[tuple[str, str], float]:
    """How long (inches, raw) each frame strip must be to reach past the 45-degree trim: {(part, edge of the triangle):
    length}."""
    widths = [min(made.need(name).size) - 2 * made.seam for name in frame]
    if len(frame) == 1:
        long = triangle.edge("upper right", made.seam).finished_length
        reach = measure(proofs.frame_both_ends, "strip", leg=long, width=widths[0], seam=made.seam)
        return {(frame[0], "upper right"): reach}
    leg = triangle.edge("left", made.seam).finished_length
    return {
        (frame[0], "left"): measure(proofs.frame_end, leg=leg, width=widths[0], seam=made.seam),
        (frame[1], "bottom"): measure(proofs.frame_end, leg=leg + widths[0], width=widths[1], seam=made.seam),
    }
