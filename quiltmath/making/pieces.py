"""One piece of cloth as the cutting list prints it, at the size that the printed one stands for."""

from math import sqrt

from ..pattern.names import CORNER, SIDE, all_in
from ..sewing import CannotSew, patch
from .needs import edge_square
from .rounding import ROUNDED_UP, ROUNDING, sewn_size


def cut_piece(made, cut):
    """One piece of a line of the cutting list, as a panel; triangles lie with their right angle at the lower left.

    The lengthwise grain runs up the printed piece, so the legs of a triangle cut once lie on grain, and of one cut twice its
    long edge.
    """
    width, height = _meant_size(made, cut)
    about = {"fabric": cut.fabric, "part": cut.part}
    if cut.cut == "whole":
        return patch(size=(width, height), **about)
    if cut.cut == "once":
        return patch(corners=[(0, 0), (width, 0), (0, height)], **about)
    if width != height:
        raise CannotSew(
            f"only a square is cut twice on the diagonal; part {cut.part!r} is {width:.4g} by {height:.4g} in: "
            "cut it as a square"
        )
    return patch(corners=[(0, 0), (width / sqrt(2), 0), (0, width / sqrt(2))], grain=45, **about)


def _meant_size(made, cut):
    """The (width, height) in inches that a printed size stands for: rounding is not sewn in (see `rounding`).

    A triangle at the quilt's edge is rounded from what the block beside it needs; cut larger it is as large as printed.
    """
    printed, setting = tuple(map(float, made.sheet.cut_size(cut))), made.sheet.setting
    for kind, piece, way in ((SIDE, setting.sides, "twice"), (CORNER, setting.corners, "once")):
        if (
            piece is not None
            and piece.part == cut.part
            and cut.cut == way
            and not _lies_beside_itself(made.sheet, piece)
        ):
            block = made.panel(setting.block)
            exact = None if block is None else edge_square(made, kind, block.size[0] - 2 * made.seam)
            rounded = exact is not None and all(-ROUNDING <= side - exact <= ROUNDED_UP for side in printed)
            return (exact, exact) if rounded else printed
    return tuple(sewn_size(cut.cut, side, made.seam, made.sheet.units) for side in printed)


def _lies_beside_itself(sheet, piece):
    """Whether a plain edge triangle is a part of the blocks, sashes or frame it is sewn to as well."""
    sashing = sheet.setting.sashing
    beside = [sheet.setting.block, *(piece.frame or ()), *([sashing.part] if sashing else [])]
    return any(piece.part in all_in(sheet, name) for name in beside)
