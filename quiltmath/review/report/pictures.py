"""The pictures of a report: the quilt on the cover beside the one that comes out, and where each finding
shows."""

from dataclasses import replace

import numpy as np

from ...draw import Board, CloseUp, Lines, Marks, Measure, Picture, Shapes, beside, fabric_roles, lay_out
from ...draw.page import Page
from ...draw.panels import edge_layers, fabric_layers, finished_layers, grain_layer, point_layers
from ...pattern.names import fabrics_sewn
from ...pattern.sheet import Sheet
from ..checks.bias import BIAS_FROM
from ..checks.check import SLACK, some
from ..finding import Finding
from ..reviewing import Review

MOST_SEAMS = 2500  # patches: more are too small on paper to be outlined
WHOLE = 40.0  # inches: a panel up to this size is shown whole, a larger one by a close-up
APART = 20.0  # px: marks nearer to each other than this would lie on top of each other
ACROSS = 300.0  # px: about the width of one of the two quilts
FEW = 12  # patches: with more, an arrow on each is too much
EXPLAINED = ("raw edge", "bias edge", "lost point")  # roles that the key beside a finding leaves out
LONG_LABEL = 36  # letters of a fabric's name in the key
COVER, REAL, WILL = "As it should be", "As printed", "As it will be"


def both(review: Review) -> Board | None:
    """The quilt as it would come out beside the quilt as it is meant, at one scale."""
    fabrics = fabrics_drawn(review.made.sheet, review.reading.meant.made.sheet)
    panels = [(REAL, _real(review.made)), (COVER, review.cover)]
    pictures = []
    for title, panel in panels:
        if panel is not None:
            size = review.reading.ruler.sizes(review.made.finished if title == REAL else panel.size)
            lost = [point for point, by in panel.lost_points(review.made.seam) if by > SLACK]
            bias, told = _bias(review, panel) if title == REAL else ([], "")
            pictures.append(_quilt(title, panel, size, fabrics, lost, bias, told))
    return beside(pictures, columns=2) if pictures else None


def _real(made):
    return made.bound if made.bound is not None else made.top


def fabrics_drawn(*sheets: Sheet) -> dict[str, str]:
    """Which role each fabric of a sheet (or of several that share them) is drawn in, by its name or the names of its
    parts."""
    parts: dict[str, list[str]] = {}
    for fabric, names in (found for sheet in sheets for found in fabrics_sewn(sheet).items()):
        parts.setdefault(fabric, []).extend(names)
    return fabric_roles(sorted(parts), parts)


def _quilt(title, panel, size, fabrics, lost, bias, on_bias):
    """One quilt: its patches, the points it has lost, its outer edges on the bias."""
    told = [
        size,
        *([f"{some(len(lost), 'point')} cut off"] if lost else []),
        *([on_bias] if bias else []),
        *(["the edge is not straight"] if len(panel.raw) else []),
    ]
    layers = [_named(layer, layer.label) for layer in fabric_layers(panel, fabrics)]
    if len(panel.corners) <= MOST_SEAMS:
        layers.append(Lines(panel.seams, "seam"))
    layers.append(Lines(panel.raw if len(panel.raw) else [_corners(panel)], "outline"))
    if bias:
        layers.append(Lines(bias, "bias edge", "outer edge on the bias"))
    if lost:
        layers.append(Marks(_apart(lost, APART * max(panel.size) / ACROSS), "lost point", "point cut off"))
    alt = f"{title}: a quilt of {some(len(panel.cuts), 'patch', 'patches')}, {', '.join(told)}."
    return Picture([layer for layer in layers if len(layer.points)], alt, title, "\n".join(told))


def _named(layer, label):
    """The layer with this label in the key, cut short where it would not fit."""
    return replace(layer, label=label if len(label) <= LONG_LABEL else label[: LONG_LABEL - 1] + "…")


def _corners(panel):
    (left, low), (right, high) = panel.box
    return [(left, low), (right, low), (right, high), (left, high), (left, low)]


def _bias(review, panel):
    """The outer edges on the bias that the review speaks of, as they lie in the finished quilt, and what it
    says of them."""
    found = [finding for finding in review.findings if finding.found_by.picture in ("bias", "grain")]
    top = review.made.centre
    if not found or top is None:
        return [], ""
    shift = (np.array(panel.size) - top.size) / 2 - top.box[0]
    long = [edge for edge in top.raw_edges() if edge.off_grain >= BIAS_FROM]
    inside = [np.clip(np.array([edge.start, edge.end]) + shift, 0.0, panel.size) for edge in long]
    said = next((finding.printed for finding in found if finding.found_by.picture == "bias"), "outer edge on the bias")
    return [edge.tolist() for edge in inside if np.hypot(*(edge[1] - edge[0])) > SLACK], said


def _apart(points, gap):
    """Those of the points that lie at least this far apart, across or up.

    >>> _apart([(0, 0), (1, 0), (3, 0), (3, 2)], 2)
    [(0, 0), (3, 0), (3, 2)]
    """
    free, kept, places = np.ones(len(points), dtype=bool), [], np.asarray(points)
    for number, point in enumerate(points):
        if free[number]:
            kept.append(point)
            free &= (np.abs(places - places[number]) >= gap).any(axis=1)
    return kept


def detail(review: Review, finding: Finding) -> Picture | Board | None:
    """Where one finding shows; None where there is nothing to see, and for what was found in another size."""
    show = None if finding.size else KINDS.get(finding.found_by.picture)
    return None if show is None else show(review, finding)


def _explained(layers):
    """The layers, those without a label that the key of the two quilts explains already, or that need no key."""
    return [replace(layer, label="") if layer.role in EXPLAINED else layer for layer in layers]


def laid_out(picture: Picture | Board, width: float, height: float) -> Page:
    """The page of a picture in so much room (px): at most `height` high, without its key or higher where it must be.

    >>> square = Picture([Shapes([[(0, 0), (3, 0), (0, 3)]], "blue", "navy")], alt="A triangle of 3 in.")
    >>> for high in (100, 40):
    ...     page = laid_out(square, 300, high)
    ...     print(round(page.height) <= high, [label for *_, label in page.key])
    True ['navy']
    True []
    """
    for high, key in ((height, True), (height, False), (None, True)):
        try:
            return lay_out(picture, width, high, key=key)
        except ValueError:
            continue
    return lay_out(picture, width, key=False)


def _panel(review, finding):
    """The panel a finding speaks of."""
    return review.made.panel(finding.panel) if finding.panel else review.made.top


def _lost(review, finding):
    """Points with no allowance: the raw piece with the line its next seam takes, and a lost point before and
    after."""
    panel, seam, fabrics = _panel(review, finding), review.made.seam, fabrics_drawn(review.made.sheet)
    if panel is None:
        return None
    told = [*finished_layers(panel, seam), *_explained([*edge_layers(panel), *point_layers(panel, seam)])]
    bound = review.made.bound
    if finding.panel or not finding.spots or bound is None:
        alt = finding.message
        if max(panel.size) <= WHOLE and finding.panel:
            alt = f"{finding.panel} before it is sewn in, {review.reading.ruler.sizes(panel.size)}: {alt}"
        return Picture([*_cloth(panel, fabrics), *told], alt)
    reach = max(5 * seam, _reach(panel) / 2)
    at = _inside(np.array(finding.spots[0]), panel, reach)
    return beside(
        [
            _window(
                [*_cloth(_round(panel, at, reach), fabrics), *told],
                at,
                reach,
                "Before the outer seam",
                f"The point at the edge, {finding.printed}.",
            ),
            _window(
                _cloth(_round(bound, at - seam, reach), fabrics),
                at - seam,
                reach,
                "Sewn: the point is gone",
                "The same place with the outer edge in its seam: the point is cut off.",
            ),
        ]
    )


def _cloth(panel, fabrics):
    """The patches and the seams between them; which fabric is which is told beside the whole quilt."""
    return [
        *(_named(layer, "") for layer in fabric_layers(panel, fabrics)),
        *([Lines(panel.seams, "seam")] if len(panel.seams) else []),
    ]


def _round(panel, at, reach):
    """What of a panel's cloth reaches into a window round a spot: its patches and seams; drawing the rest would be in
    vain."""
    seen = _seen(panel.corners.min(axis=1), panel.corners.max(axis=1), at, reach)
    seams = panel.seams[_seen(panel.seams.min(axis=1), panel.seams.max(axis=1), at, reach)]
    return replace(panel, corners=panel.corners[seen], cuts=panel.cuts[seen], grains=panel.grains[seen], seams=seams)


def _stretch(review, finding):
    """An edge on the bias, with the thread of its patches."""
    panel = _panel(review, finding)
    if panel is None:
        return None
    fabrics, edges = fabrics_drawn(review.made.sheet), _explained(edge_layers(panel))
    if len(panel.corners) <= FEW:
        return Picture([*_cloth(panel, fabrics), *edges, grain_layer(panel)], f"{finding.panel}: {finding.message}")
    spots = finding.spots or [
        np.mean([edge.start, edge.end], axis=0) for edge in panel.raw_edges() if edge.off_grain >= BIAS_FROM
    ]
    if not spots:
        return None
    spot, reach = spots[0], _reach(panel)
    at = _inside(np.array(spot), panel, reach)
    near = _round(panel, at, reach)
    layers = [*_cloth(near, fabrics), *edges, grain_layer(near)]
    return _window(layers, at, reach, "", f"An outer edge on the bias: {finding.printed}.")


def _misfit(review, finding):
    """Two edges that do not match."""
    panel = _panel(review, finding) if finding.spots else None
    if panel is None:
        return None
    fabrics, edges = fabrics_drawn(review.made.sheet), _explained(edge_layers(panel))
    if max(panel.size) <= WHOLE:
        alt = f"{finding.panel}, {review.reading.ruler.sizes(panel.size)}: {finding.message}"
        return Picture([*_cloth(panel, fabrics), *edges], alt)
    reach = _reach(panel)
    at = _inside(np.array(finding.spots[0]), panel, reach)
    return _window([*_cloth(_round(panel, at, reach), fabrics), *edges], at, reach, "", finding.message)


def _piece(review, finding):
    """The printed piece laid on the piece that is needed."""
    cut = next((cut for cut in review.sheet.cut if {cut.part} == finding.parts), None)
    needed = review.reading.needed.get(cut.part) if cut is not None else None
    if needed is None or cut.size is None:
        return None
    (wide, high), (need_wide, need_high), ruler = map(float, cut.size), needed.size, review.reading.ruler
    whole = cut.cut == "whole"
    printed = Shapes([[(0, 0), (wide, 0), (wide, high), (0, high)]], fabrics_drawn(review.made.sheet)[cut.fabric])
    outline = [(0, 0), (need_wide, 0), (need_wide, need_high), (0, need_high), (0, 0)]
    most_wide, most_high = max(wide, need_wide), max(high, need_high)
    layers = [
        printed,
        Lines([outline], "guide"),
        Measure((wide, 0), (0, 0), f"printed {ruler.said(wide)}", 22),
        Measure((0, most_high), (need_wide, most_high), f"needed {ruler.up(need_wide, whole)}", 22),
    ]
    if abs(wide - need_wide) <= SLACK:
        layers[2:] = [
            Measure((0, 0), (0, high), f"printed {ruler.said(high)}", -22),
            Measure((most_wide, need_high), (most_wide, 0), f"needed {ruler.up(need_high, whole)}", -22),
        ]
    return Picture(layers, f"{cut.part}: printed {ruler.sizes(cut.size)}, needed {ruler.sizes(needed.size, ruler.up)}.")


def _reach(panel):
    """Half the side of a close-up, in inches: somewhat more than a patch."""
    spans = np.ptp(panel.corners, axis=1).min(axis=1)
    return float(np.clip(1.1 * np.median(spans), 1.0, 4.0))


def _inside(spot, panel, reach):
    """The middle of a close-up of this spot, moved in so that cloth fills most of the window."""
    low, high = panel.box
    return np.clip(spot, low + 0.7 * reach, high - 0.7 * reach)


def _window(layers, at, reach, title, alt):
    """A close-up of what lies near a spot, and of nothing else."""
    near = [part for layer in layers if (part := _near(layer, at, reach)) is not None]
    return Picture([CloseUp(tuple(near), tuple(map(float, at)), reach, 1.0)], alt, title)


def _near(layer, at, reach):
    """What of a layer can be seen in a window round a spot, or None."""
    if isinstance(layer, Marks):
        points = layer.points[_seen(layer.points, layer.points, at, reach)]
        return Marks(points, layer.role, layer.label) if len(points) else None
    ends = np.cumsum(layer.counts)
    starts = ends - layer.counts
    seen = _seen(*(extreme.reduceat(layer.points, starts) for extreme in (np.minimum, np.maximum)), at, reach)
    rows = [layer.points[starts[row] : ends[row]] for row in seen]
    return type(layer)(rows, layer.role, layer.label) if rows else None


def _seen(low, high, at, reach):
    """The numbers of the things, each from its lowest to its highest x and y, that reach into a window round a spot."""
    return np.flatnonzero(((high >= np.asarray(at) - reach) & (low <= np.asarray(at) + reach)).all(axis=1))


KINDS = {  # what shows the findings of a check, by its `picture`
    "lost points": _lost,
    "bias": _stretch,
    "grain": _stretch,
    "misfit": _misfit,
    "piece": _piece,
}
