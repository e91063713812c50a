"""A straight setting sewn in its rows, with or without sashing, and borders sewn round a top."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from .. import proofs, usual
from ..pattern.border import PAIRS
from ..sewing import CannotSew, in_a_row, patch
from ..sewing.seaming import sewn
from .by_proof import measure
from .measures import across

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence
    from typing import Any

    from ..pattern.border import Border
    from ..sewing import Panel
    from .layout import Layout

EASED = float(usual.EASED)
OPPOSITE = {"left": "right", "right": "left", "top": "bottom", "bottom": "top"}


def sewn_top(lies: Layout, parts: Mapping[str, Any], seam: float = 0.25) -> Panel:
    """The top of a straight setting: its rows of blocks (and sashes), joined with the sashing rows between them."""
    sewn: dict[Any, Panel] = {}
    rows: dict[tuple[str, int], Panel] = {}
    for row in lies.rows:
        if row.parts != ("sashing strip",):
            run = [parts["level sash" if part == "sash" and row.kind == "sashing" else part] for part in row.parts]
            rows[row.kind, row.number] = in_a_row(run, seam=seam, sewn=sewn)
    if lies.strips:
        between = as_long(parts["sashing strip"][0], rows["blocks", 1].size[0])
        rows |= {("sashing", number): between for number in range(1, lies.sash_rows + 1)}
    return in_a_row([rows[row.kind, row.number] for row in lies.rows][::-1], "top", "bottom", seam, sewn=sewn)


def as_long(strip: Panel, length: float, upright: bool = False, width: float | None = None) -> Panel:
    """A strip of the same cloth, cut (from joined lengths if need be) to this raw length in inches; `width` is its own
    unless given."""
    width, cut = min(strip.size) if width is None else width, strip.cuts[0]
    lies_upright = strip.size[0] <= strip.size[1]
    grain = strip.grains[0] if upright == lies_upright else strip.grains[0] + 90
    size = (width, length) if upright else (length, width)
    return patch(size=size, fabric=cut.fabric, part=cut.part, grain=grain)


class BorderStrip(NamedTuple):
    """A border strip as the made top needs it: its border's number, the part it is cut as, whether it stands for the
    sides or the top and bottom, its raw length in inches by measuring the top, its raw width, and the edges it lies
    on."""

    border: int
    part: str
    where: str
    length: float
    width: float
    edges: tuple[str, ...]


def bordered(
    top: Panel, borders: Sequence[Border], panels: Mapping[str, Panel], seam: float
) -> tuple[Panel, list[BorderStrip]]:
    """The top with its borders, cut to the top as it measures, and the `BorderStrip` of each pair."""
    strips = []
    for number, border in enumerate(borders):
        if border.triangles is not None:
            top = _on_point(top, panels[border.triangles], seam)
            continue
        wanted = _strips(border, number, top.size, panels, seam)
        if border.ends == "mitred":
            top = _mitred(top, wanted, panels, seam)
        else:
            top = _butted(top, border, wanted, panels, seam)
        strips += wanted
    return top, strips


def _strips(border, number, size, panels, seam):
    """The strips that one border takes round a raw top of this size, the pair that is sewn on first before the
    other."""
    parts, long, wide = {"sides": border.sides, "top": border.top}, {"sides": size[1], "top": size[0]}, {}
    first = "sides" if border.first == "sides" or border.corner else "top"
    second = "top" if first == "sides" else "sides"
    pairs = [where for where in (first, second) if border.on(where)]
    for where in pairs:
        strip = panels[parts[where]].size
        if border.ends == "mitred":
            wide[where] = min(strip)
            inside = long[where] - 2 * seam
            long[where] = measure(proofs.mitred_strip, side=inside, width=wide[where] - 2 * seam, seam=seam)
            continue
        wide[where] = across(strip, long[where])
        if where == first and not border.corner:
            long[second] += border.on(first) * (wide[first] - 2 * seam)
    return [
        BorderStrip(
            number,
            parts[where],
            where,
            long[where],
            wide[where],
            tuple(edge for edge in PAIRS[where] if edge in border.edges),
        )
        for where in pairs
    ]


def _butted(top, border, wanted, panels, seam):
    """The top with strips on two opposite edges, then on the other two, corner squares at their ends if there are
    any."""
    for one in wanted:
        upright = one.where == "sides"
        for face in one.edges:
            strip = _lying(_as_border(panels[one.part], one, upright), 0 if face in ("left", "top") else 180)
            if border.corner and not upright:
                turns = (0, 270) if face == "top" else (90, 180)
                left, right = (_lying(panels[border.corner], turn) for turn in turns)
                strip = in_a_row([left, strip, right], seam=seam)
            _straight_all_along(top, face, seam)
            top = top.sew(strip, face, OPPOSITE[face], seam, "centre")
    return top


def _lying(panel, turn):
    """A pieced strip or corner as it lies at its edge: written for the left and the top, turned for the others; what is
    cut from one piece looks the same there."""
    return panel.turn(turn) if turn and len(panel.cuts) > 1 else panel


def _as_border(strip, needed, upright):
    """A border as long as it must be: a plain strip cut to that; a pieced one as it is, where it is that long."""
    if len(strip.cuts) > 1 and abs(max(strip.size) - needed.length) <= EASED:
        return strip if upright == (strip.size[0] < strip.size[1]) else strip.turn(90)
    return as_long(strip, needed.length, upright, needed.width)


def _mitred(top, wanted, panels, seam):
    """The top with strips whose corners are mitred, each as long as its mitres take."""
    pieced = next((one.part for one in wanted if len(panels[one.part].cuts) > 1), None)
    if pieced is not None:
        raise CannotSew(
            f"the border {pieced!r} is pieced, and what is pieced has no ends to mitre: name corner squares, or write "
            'ends = "butted"'
        )
    strips = {one.where: as_long(panels[one.part], one.length, one.where == "sides") for one in wanted}
    return top.mitred(strips["sides"], strips["top"], seam)


def _on_point(top, triangle, seam):
    """The top with a triangle on each of its four edges, turned to stand on its point."""
    width, height = (side - 2 * seam for side in top.size)
    if abs(width - height) > EASED:
        raise CannotSew(
            "a round of four triangles goes round a square; what this one goes round finishes "
            f"{width:.4g} x {height:.4g} in: make it square first, or take the round out"
        )
    for faces in ("left", "right", "top", "bottom"):
        low, high = top.box
        along = 1 if faces in ("left", "right") else 0
        top = levelled(sewn(top, triangle, faces, "upper right", seam, "centre"), along, low, high, seam)
    return top.turn(45)


def _straight_all_along(top, face, seam):
    """Refuse an edge that a strip would not touch all along, since some of it is cut short."""
    finished, whole = top.edge(face, seam).finished_length, top.size[1 if face in ("left", "right") else 0] - 2 * seam
    if whole - finished > 2 * seam + EASED:
        raise CannotSew(
            f"the {face} edge of the top is {whole:.4g} in long, and a border sewn on would touch {finished:.4g} in "
            "of it: correct what makes the top uneven, then measure again"
        )


def levelled(panel, axis, low, high, seam):
    """A panel trimmed level with the box (low, high) it had along an axis, where it stands out by more than a seam.

    Less is an ear, and stays: it still holds allowance of the edge outside.
    """
    if max(low[axis] - panel.box[0][axis], panel.box[1][axis] - high[axis]) <= seam:
        return panel
    ends = ("left", "right") if axis == 0 else ("bottom", "top")
    return panel.trim(**dict(zip(ends, (low[axis], high[axis]))))
