"""Pictures of sewn cloth: its patches by fabric, raw and bias edges, seams, and the points a seam keeps or
takes."""

from collections.abc import Collection, Iterator
from typing import TYPE_CHECKING, Any

import numpy as np

from ..shapes import moved_out
from .picture import Layer, Lines, Marks, Picture, Shapes, turned
from .roles import fabric_roles
from .written import inches

if TYPE_CHECKING:
    from ..sewing import Panel

SHOWN = ("seams", "edges", "finished", "grain", "lost points", "kept points")


def panel_picture(
    panel: "Panel",
    title: str = "",
    show: Collection[str] = ("seams", "edges", "lost points"),
    fabrics: dict[str, str] | None = None,
    seam: float = 0.25,
    name: str = "Panel",
    caption: str = "",
    alt: str = "",
) -> Picture:
    """A Picture of a `sewing.Panel`; `show` picks from SHOWN, `fabrics` fixes which fabric gets which role.

    A point counts as lost where the next seam would take it, or an earlier one has. Give `fabrics` (see
    `fabric_roles`) when several pictures, or one that moves, must agree on colours.

    >>> from quiltmath import sewing
    >>> half, _ = sewing.patch(size=(4, 4), fabric="navy").cut((0, 0), (4, 4))
    >>> panel_picture(half).alt
    'Panel of 4 by 4 in: 1 patch (navy 1); raw edges 8 in on the grain, 5 11/16 in on the bias; 0 points \
lost.'
    """
    unknown = set(show) - set(SHOWN)
    if unknown:
        raise ValueError(f"a panel's picture shows {', '.join(SHOWN)}; got {', '.join(sorted(unknown))}")
    roles = fabric_roles(sorted({cut.fabric for cut in panel.cuts})) if fabrics is None else fabrics
    layers: list[Layer] = list(fabric_layers(panel, roles))
    if "seams" in show and len(panel.seams):
        layers.append(Lines(panel.seams, "seam"))
    if "grain" in show:
        layers.append(grain_layer(panel))
    if "finished" in show:
        layers += finished_layers(panel, seam)
    if "edges" in show:
        layers += edge_layers(panel)
    layers += (
        point_layers(panel, seam, kept="kept points" in show) if {"lost points", "kept points"} & set(show) else []
    )
    return Picture(layers, alt or panel_sentence(panel, name, seam), title, caption)


def panel_sentence(panel: "Panel", name: str = "Panel", seam: float = 0.25) -> str:
    """What a panel is in one sentence with its numbers, each to the nearest 1/16 in."""
    width, height = (inches(side) for side in panel.size)
    counts: dict[str, int] = {}
    for cut in panel.cuts:
        counts[cut.fabric] = counts.get(cut.fabric, 0) + 1
    patches = ", ".join(f"{fabric} {count}" for fabric, count in sorted(counts.items()))
    lost = len(lost_points(panel, seam))
    return (
        f"{name} of {width} by {height} in: {_count(len(panel.cuts), 'patch', 'patches')} ({patches}); "
        f"{_edges_said(panel)}; {_count(lost, 'point', 'points')} lost."
    )


def fabric_layers(panel: "Panel", fabrics: dict[str, str]) -> Iterator[Shapes]:
    """One Shapes layer for each fabric of the panel, in the order of `fabrics`."""
    names = np.array([cut.fabric for cut in panel.cuts])
    missing = sorted(set(names) - set(fabrics))
    if missing:
        raise ValueError(f"each fabric of a panel needs a role; {', '.join(missing)} got none: add it to fabrics=")
    for fabric, role in fabrics.items():
        mine = panel.corners[names == fabric]
        if len(mine):
            yield Shapes(mine, role, label=fabric)


def edge_layers(panel: "Panel") -> list[Lines]:
    """The raw edges: on the grain, on the bias, and at any other angle, each a Lines layer."""
    kinds = {"straight": "raw edge", "bias": "bias edge"}
    found: dict[str, list[Any]] = {}
    for edge in panel.raw_edges():
        found.setdefault(kinds.get(str(edge.grain), "off-grain edge"), []).append((edge.start, edge.end))
    labels = {
        "raw edge": "raw edge, on the grain",
        "bias edge": "raw edge, on the bias",
        "off-grain edge": "raw edge, off the grain",
    }
    return [Lines(found[role], role, label) for role, label in labels.items() if role in found]


def lost_points(panel: "Panel", seam: float = 0.25) -> np.ndarray:
    """Where points are lost, n × 2: meetings of seams that the next seam takes, and those a seam has taken
    already."""
    return np.array([point for point, _ in panel.lost_points(seam)], float).reshape(-1, 2)


def point_layers(panel: "Panel", seam: float = 0.25, kept: bool = False) -> list[Marks]:
    """Marks for the points lost and, if asked, the points kept."""
    layers = []
    if kept:
        safe = [junction.point for junction in panel.junctions(seam) if junction.lost_by == 0]
        layers.append(Marks(np.array(safe, float).reshape(-1, 2), "kept point", "point kept"))
    layers.append(Marks(lost_points(panel, seam), "lost point", "point lost"))
    return [layer for layer in layers if len(layer.points)]


def grain_layer(panel: "Panel") -> Lines:
    """A double arrow along the lengthwise thread of every patch."""
    arrows = []
    for patch in panel.patches:
        middle, reach = patch.polygon.mean(axis=0), 0.28 * np.ptp(patch.polygon, axis=0).min()
        arrow = [(-1, 0), (1, 0), (0.6, 0.25), (1, 0), (0.6, -0.25)], [(-0.6, 0.25), (-1, 0), (-0.6, -0.25)]
        arrows += [turned(np.array(part) * reach, patch.grain, middle) for part in arrow]
    return Lines(arrows, "grain", "lengthwise grain")


def finished_layers(panel: "Panel", seam: float = 0.25) -> list[Lines]:
    """The line one seam inside each closed outline of raw edges: where the next seams, or the binding, will
    run."""
    loops = [[tuple(point) for point in moved_out(loop, -seam)] for loop in outlines(panel)]
    return [Lines([loop + loop[:1] for loop in loops], "finished line", "finished line")] if loops else []


def outlines(panel: "Panel") -> list[list[tuple[float, float]]]:
    """The closed outlines of the raw edges, each a list of corners, anticlockwise round the cloth."""
    following = {_spot(edge.start): edge for edge in panel.raw_edges()}
    loops = []
    while following:
        first, edge = following.popitem()
        loop = [edge]
        while _spot(edge.end) in following:
            edge = following.pop(_spot(edge.end))
            loop.append(edge)
        if _spot(edge.end) == first and len(loop) > 2:
            loops.append(_corners(loop))
    return loops


def _corners(loop):
    """The corners of a loop of edges, without those where it runs straight on (where only the grain
    changes)."""

    def bends(before, after):
        (a, b), (c, d) = (np.subtract(edge.end, edge.start) / edge.length for edge in (before, after))
        return abs(a * d - b * c) > 1e-6

    return [edge.start for before, edge in zip([loop[-1], *loop], loop) if bends(before, edge)]


def _spot(point):
    return round(point[0], 6) + 0.0, round(point[1], 6) + 0.0


def _edges_said(panel):
    long = {"straight": 0.0, "bias": 0.0, "other": 0.0}
    for edge in panel.raw_edges():
        long[edge.grain if edge.grain in long else "other"] += edge.length
    if not any(long.values()):
        return "no raw edge"
    words = {"straight": "on the grain", "bias": "on the bias", "other": "off the grain"}
    return "raw edges " + ", ".join(f"{inches(length)} in {words[kind]}" for kind, length in long.items() if length)


def _count(number, one, many):
    return f"{number} {one if number == 1 else many}"
