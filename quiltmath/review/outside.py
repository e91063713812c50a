"""Triangles cut from plain fabric that lie at the outside, and how the checks speak of them."""

from __future__ import annotations

from collections.abc import Iterator
from math import sqrt
from typing import TYPE_CHECKING, NamedTuple

from ..making.at_the_edge import HALVED, ROUND, TIP, edge_triangles, is_plain
from ..pattern.names import CORNER, SIDE, all_in, blocks_named, edge_piece
from .finding import ByProof
from .ruler import Ruler

if TYPE_CHECKING:
    from ..making import Made
    from ..pattern.cut import Cut
    from .checks.check import Check
    from .finding import Finding


class Phrases(NamedTuple):
    """What one kind of these triangles is called, which of its edges lie outside and of what, what shows its size, and
    what it is sewn to, with {beside} for that one's measure."""

    what: str
    edges: str
    of: str
    proof: str
    beside: str


PHRASES = {
    SIDE: Phrases(
        "side triangles", "long edges", "quilt", "side_triangle", "to fit beside blocks that finish {beside}"
    ),
    CORNER: Phrases(
        "corner triangles", "short edges", "quilt", "corner_triangle", "to fit beside blocks that finish {beside}"
    ),
    HALVED: Phrases(
        "halved cornerstones",
        "long edges",
        "quilt",
        "quarter_square",
        "to fit where sashes that finish {beside} wide cross",
    ),
    TIP: Phrases(
        "sashing tips",
        "long edges",
        "quilt",
        "quarter_square",
        "to fit at the end of sashing that finishes {beside} wide",
    ),
    ROUND: Phrases(
        "triangles of the round",
        "short edges",
        "round",
        "corner_triangle",
        "to fit round a centre that finishes {beside}",
    ),
}


class OutsideTriangle(NamedTuple):
    """One kind of these triangles as a sheet cuts it, and `where` it lies, as `EdgeTriangle` has it.

    `cut` is its line of the cutting list, `way` how its squares should be cut, `squares` how many and `exact` their
    size in inches (None where no figure gives it); `aim` says what it lies beside, and `panel` what shows it ("" for
    the quilt).
    """

    where: str
    cut: Cut
    way: str
    squares: int
    exact: float | None
    words: Phrases
    aim: str
    panel: str


def outside_triangles(made: Made) -> Iterator[OutsideTriangle]:
    """Every kind of triangle at the outside that the sheet lists, as `OutsideTriangle`."""
    setting, of = made.sheet.setting, Ruler(made.sheet.units)
    pieces = {SIDE: 2 * (sum(setting.size) - 2), CORNER: 4}
    plain = any(is_plain(edge_piece(made.sheet, kind)) for kind in (SIDE, CORNER))
    for found in edge_triangles(made, block_width(made) if plain else None):  # for its width the block may be sewn
        cut, wanted = made.sheet.part(found.part), pieces.get(found.where, made.bill[found.part])
        if cut is None or not wanted:
            continue
        words = PHRASES[found.where]
        aim = "" if found.beside is None else words.beside.format(beside=of.said(float(found.beside)))
        squares = -(-wanted // {"once": 2, "twice": 4}[found.way])
        panel = found.where if found.where in pieces else ""
        yield OutsideTriangle(
            found.where, cut, found.way, squares, found.square, words, aim + _more_asked(setting, found.where), panel
        )


def unsaid_float(check: Check, made: Made) -> Finding:
    """The note that blocks float inside the edge, which the triangles and the printed size imply and nothing says."""
    of, floats = Ruler(made.sheet.units), float(made.floats)
    return check.finding(
        made,
        ["setting"],
        f"The setting triangles are cut large, and the printed size is {of.said(2 * floats)} larger than the blocks "
        f"come to: they float {of.said(floats)} inside the edge, and the pattern does not say so. Trim the top "
        f"{of.said(floats + made.seam)} beyond the points, not {of.said(made.seam)}.",
        "no float",
        of.said(floats),
        level="note",
        why=ByProof("side_triangle"),
        fix=((("setting", "floating"), of.said(floats)),),
    )


def block_width(made: Made) -> float | None:
    """The finished width of the main block, printed or else as it sews, in inches; None where it cannot be sewn."""
    sheet, name = made.sheet, made.block
    block = sheet.block.get(name) or sheet.unit.get(name) or sheet.part(name)
    if block is not None and block.finished is not None:
        return float(block.finished[0])
    panel = made.panel(name)
    return None if panel is None else panel.size[0] - 2 * made.seam


def _more_asked(setting, where):
    """What besides the block decides how large a setting triangle must be, in words."""
    piece = {SIDE: setting.sides, CORNER: setting.corners}.get(where)
    if piece is None:
        return ""
    more = [
        words
        for words, there in (
            ("whole cornerstones at the edge", setting.sashing and setting.sashing.edge == "whole"),
            ("its frame", piece.frame),
            ("room for the blocks to float", setting.floating),
        )
        if there
    ]
    return f", with {' and '.join(more)}" if more else ""


def beyond_the_edge(made: Made) -> float:
    """How far (inches) the outer corners of cornerstones that the edge halves lie beyond it, as they are meant to; 0
    where it halves none."""
    setting, sashing = made.sheet.setting, made.sheet.setting.sashing
    if setting.style == "straight" or sashing is None or sashing.cornerstone is None or sashing.edge == "whole":
        return 0.0
    return float(made.width_of(sashing.part)) / sqrt(2)


def set_askew(made: Made) -> bool:
    """Whether every block of the setting is turned by an angle of its own and trimmed, without a point lost by that:
    where the seams of such blocks run out at their edges is left to chance."""
    sheet = made.sheet
    askew = {name for step in sheet.step if step.turn is not None and (step.by or 0) % 45 for name in step.gives}
    return bool(askew) and all(
        not askew.isdisjoint(all_in(sheet, name))
        and (panel := made.panel(name)) is not None
        and not panel.lost_points(made.seam)
        for name in blocks_named(sheet.setting)
    )
