"""The edges that the strips of each border are sewn to."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from .figures import Sum
    from .measures import Measures


class Edge(NamedTuple):
    """The finished edge that a pair of border strips goes along: the number of the border, the pair ("sides" or "top"),
    and what the strips are cut or sewn as, None where it has none on this pair."""

    border: int
    where: str
    name: str | None
    long: Sum


def border_edges(measures: Measures) -> Iterator[Edge]:
    """The edges of each border that is sewn on butted, as far as numbers tell."""
    for number, (border, inside) in enumerate(zip(measures.sheet.border, measures.inside)):
        if border.triangles is not None or border.ends == "mitred":
            continue
        sides, top = (measures.strip_width(name) for name in (border.sides, border.top))
        around = {"sides": inside.height, "top": inside.width}
        if sides is not None and top is not None and not border.corner:
            second, wide = ("top", sides) if border.first == "sides" else ("sides", top)
            around[second] = around[second].plus(wide, border.on(border.first))
        yield from (Edge(number, where, getattr(border, where), edge) for where, edge in around.items())
