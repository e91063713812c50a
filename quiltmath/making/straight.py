"""A straight setting sewn in its rows, with or without sashing, and borders sewn round a top."""

from typing import NamedTuple

from .. import proofs
from ..sewing import in_a_row, patch
from .by_proof import measure

EASED = 1 / 16  # inches: two edges that differ by less are eased together


def sewn_top(setting, block, alternate, sash=None, stone=None, strip=None, seam=0.25):
    """The top of a straight setting: rows of blocks (and sashes), joined with the sashing rows between them."""
    across, down, sashing = setting.across, setting.down, setting.sashing
    sewn = {}
    rows = [
        _with_sashes([alternate if (i + j) % 2 else block for i in range(across)], sash, sashing) for j in range(down)
    ]
    rows = [in_a_row(row, seam=seam, sewn=sewn) for row in rows]
    if sashing is None:
        return in_a_row(rows, "top", "bottom", seam, sewn=sewn)
    if stone is not None:
        level = sash.turn(90)
        between = in_a_row(_with_sashes([level] * across, stone, sashing), seam=seam, sewn=sewn)
    else:
        between = as_long(strip, rows[0].size[0])
    return in_a_row(_with_sashes(rows, between, sashing), "top", "bottom", seam, sewn=sewn)


def _with_sashes(pieces, sash, sashing):
    """The pieces with a sash between any two, and before and after them where the sashing goes all round."""
    if sashing is None:
        return pieces
    with_sashes = [part for piece in pieces for part in (sash, piece)]
    return [*with_sashes, sash] if sashing.around else with_sashes[1:]


def as_long(strip, length, upright=False):
    """A strip of the same cloth and width, cut (from joined lengths if need be) to this raw length in inches."""
    width = min(strip.size)
    cut = strip.cuts[0]
    return patch(size=(width, length) if upright else (length, width), fabric=cut.fabric, part=cut.part)


class Strip(NamedTuple):
    """A border strip as the made top needs it: its border's number, the part it is cut as, whether it stands for the sides or
    the top and bottom, its raw length in inches by measuring the top, and its raw width."""

    border: int
    part: str
    where: str
    length: float
    width: float


def bordered(top, borders, panels, seam):
    """The top with its borders, cut to the top as it measures, and the `Strip` of each pair.

    Mitred corners are set-in seams, which are not sewn here: such strips are joined butted, which gives the same size.
    """
    strips = []
    for number, border in enumerate(borders):
        side, upper = panels[border.sides], panels[border.top]
        first = "sides" if border.first == "sides" or border.corner else "top"
        width, height = top.size
        for where in (first, "top" if first == "sides" else "sides"):
            corner = panels.get(border.corner) if where == "top" else None
            strip, faces = (side, ("left", "right")) if where == "sides" else (upper, ("bottom", "top"))
            length = width if corner is not None else top.size[1] if where == "sides" else top.size[0]
            top = _with_pair(top, _as_border(strip, length, where == "sides"), faces, corner, seam)
            strips.append(
                Strip(
                    number,
                    border.sides if where == "sides" else border.top,
                    where,
                    _mitred_length(border, where, width, height, min(strip.size), seam) or length,
                    min(strip.size),
                )
            )
    return top, strips


def _as_border(strip, length, upright):
    """A border of this raw length: a plain strip cut to it; a pieced one as it is, where it is that long."""
    if len(strip.cuts) > 1 and abs(max(strip.size) - length) <= EASED:
        return strip if upright == (strip.size[0] < strip.size[1]) else strip.turn(90)
    return as_long(strip, length, upright)


def _with_pair(top, strip, faces, corner, seam):
    """The top with a strip on both of two opposite edges, corner squares at its ends if there are any."""
    piece = in_a_row([corner, strip, corner], seam=seam) if corner is not None else strip
    opposite = {"left": "right", "right": "left", "top": "bottom", "bottom": "top"}
    for face in faces:
        top = top.sew(piece, face, opposite[face], seam, "centre")
    return top


def _mitred_length(border, where, width, height, strip, seam):
    """The raw length of a mitred strip, by the proof; None for butted ones."""
    if border.ends != "mitred":
        return None
    side = (height if where == "sides" else width) - 2 * seam
    return measure(proofs.mitred_strip, side=side, width=strip - 2 * seam, seam=seam)
