"""What the strips of borders must agree in: evidence of sizes inside them, for strips may be cut longer than their
edge; those that are pieced may not."""

from __future__ import annotations

from ..finding import ByNotebook
from .agreed import Agreement, line_of, paths
from .borders import border_edges
from .figures import Sum
from .measures import Measures
from .miscounted import miscounted

SASHING = ByNotebook("07-sashing-frames-borders")


def border_corners(measures, of):
    """Corner squares of a border against its strips."""
    for number, border in enumerate(measures.sheet.border):
        stone = raw_of(measures, border.corner) if border.corner else None
        strips = [measures.strip_width(name) for name in (border.sides, border.top)]
        if stone is None or None in strips or not stone[0].shares:
            continue
        plain = measures.sheet.part(border.corner) is not None
        wide = strips[0].value + 2 * measures.seam
        for side, strip in zip(stone, strips):
            yield Agreement(
                side.minus(strip).minus(2 * measures.seam),
                ("border", number),
                f"to fit where border strips {of.said(wide)} wide meet",
                SASHING,
                subject=line_of(side) if plain else (),
                aims=dict.fromkeys(
                    paths(strip), f"to fit beside corner squares of {of.sizes([one.value for one in stone])}"
                ),
            )


def raw_of(measures: Measures, name: str) -> tuple[Sum, Sum] | None:
    """The (width, height) of a part as it is cut, or of what is sewn with its seam allowances; None where it is not
    known."""
    found = None if measures.sheet.part(name) is not None else measures.finished(name)
    if found is None:
        return measures.raw(name)
    seams = Sum(2 * measures.seam)
    return found.width.plus(seams), found.height.plus(seams)


def border_lengths(measures, of):
    """Borders that are printed to length, or cut to a printed one from joined strips, or pieced, against what they go
    round."""
    for border in measures.sheet.border:
        if border.triangles is None and border.ends == "butted" and None not in (border.sides, border.top):
            sides, top = (measures.strip_width(name) for name in (border.sides, border.top))
            if sides is not None and top is not None:
                yield Agreement(sides.minus(top), ("border",), evidence=True)
    seams = 2 * measures.seam
    for edge in border_edges(measures):
        key = f"{edge.where}_length"
        length = getattr(measures.sheet.border[edge.border], key)
        if length is not None:
            long = measures.figure(("border", edge.border, key), length)
            yield Agreement(long.minus(edge.long).minus(seams), ("border",), evidence=True)
        raw, border = None if edge.name is None else measures.raw(edge.name), measures.sheet.border[edge.border]
        if raw is not None and raw[0].shares and (edge.where == "top" or border.sides != border.top):
            long = max(raw, key=lambda side: side.value)
            yield Agreement(long.minus(edge.long).minus(seams), ("border",), evidence=True)
        pieced = None if edge.name is None or raw is not None else measures.finished(edge.name)
        if pieced is not None:
            long = max(pieced[:2], key=lambda side: side.value)
            yield from _pieced(measures, edge, long.minus(edge.long))


def _pieced(measures, edge, off):
    """A border that is sewn from pieces: told of its row where a piece is left out there."""
    row = miscounted(measures, edge.name) if edge.name in measures.sheet.block else None
    aim = f"so that {edge.name!r} is as long as its edge"
    if row is None or not row.sure:
        yield Agreement(off, ("border", edge.border), aim, evidence=True)
    else:
        yield Agreement(off, ("block", edge.name, "rows"), aim, printed=False)
