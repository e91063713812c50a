"""The pictures of "building side triangles", and its figures in words: pieces apart, rows, the triangle, a point of
it."""

from dataclasses import replace
from functools import lru_cache

import numpy as np

from .. import lengths, sewing
from ..draw import Lines, Marks, Measure, Picture, Shapes, Words, close_up, inches
from ..draw.panels import edge_layers, fabric_layers, grain_layer
from ..handout.drawn import arrows, pressed
from .halves import SEAM, block
from .halves_drawn import FABRICS, ON, REACH, depth, times_near
from .side_triangles import HALF, TWICE, end_square, pieces, triangle

NEAR = 0.55  # how wide the close-up is, beside a triangle as wide as the block's diagonal
PRESSED = "counted from the longest one at the bottom; seams pressed left in odd rows and right in even rows"


def laid_out(n, square, way, title="Cut"):
    """The pieces in their places, apart; the thread in each end triangle, and its long side as it is cut."""
    gap, laid, ends = _spread(square), None, None
    step = float(square + 2 * SEAM) + gap
    for up, row in enumerate(pieces(n, square, way)):
        for along, piece in enumerate(row):
            piece = piece.laid_down().moved(shift=np.array((along * step, up * step)))
            laid = piece if laid is None else laid.beside(piece)
            if along == len(row) - 1:
                ends = piece if ends is None else ends.beside(piece)
    long = [(edge.start, edge.end) for edge in ends.raw_edges() if abs(_slope(edge) - 135) < 1]
    role = "raw edge" if triangle(n, square, way).long_edge.grain == "straight" else "bias edge"
    layers = [*fabric_layers(laid, FABRICS), Lines(_outlines(laid), "seam"), Lines(long, role), grain_layer(ends)]
    return Picture(layers, cut_words(n, square, way) + ".", title)


def rows_apart(n, square, title):
    """The sewn rows, numbered, not yet sewn to each other, and which way the seams of each are pressed."""
    step, laid, spots, numbers = float(square + 2 * SEAM) + _spread(square), None, [], []
    for up, row in enumerate(pieces(n, square)):
        sewn = sewing.in_a_row(row).laid_down().moved(shift=np.array((0, up * step)))
        laid = sewn if laid is None else laid.beside(sewn)
        middle = up * step + float(square / 2 + SEAM)
        numbers.append(Words((-0.3 * float(square), middle), str(up + 1), "end"))
        spots += [((float(SEAM + seam * square), middle), pressed(up)) for seam in range(1, len(row))]
    iron = replace(arrows(spots, 0.5 * float(square)), label="press this way")
    cloth = [*fabric_layers(laid, FABRICS), Lines(_outlines(laid), "seam")]
    return Picture([*cloth, iron, *numbers], f"{n} rows, {PRESSED}.", title)


def block_with_cut(n, square):
    """The whole block on point, the cut beside its diagonal, and what lies beyond it."""
    whole = block(n, square).turn(-45)
    width, cut = whole.size[0], whole.size[1] / 2 - float(SEAM)
    reach = width / 2 - float(SEAM)
    corners = [(width / 2 - reach, cut), (width / 2, cut - reach), (width / 2 + reach, cut)]
    waste = Shapes([corners], "lost cloth", "waste")
    layers = [
        *fabric_layers(whole, FABRICS),
        waste,
        Lines(whole.seams, "seam"),
        Lines([[(-0.4, cut), (width + 0.4, cut)]], "cut line", "cut"),
    ]
    return Picture(
        layers, f"A block of {n} × {n} squares, cut 1/4 in past its diagonal.", "Cut 1/4 in past\nits diagonal"
    )


def ready(made, title, measured=False):
    """The triangle with its raw edges, its long side down, and the points along it."""
    panel = made.panel
    layers = [*fabric_layers(panel, FABRICS), Lines(panel.seams, "seam"), *edge_layers(panel)]
    for role, lost in (("kept point", False), ("lost point", True)):
        found = [one.point for one in made.points if bool(one.lost_by) == lost]
        layers += [Marks(found, role, f"point {role.split()[0]}")] if found else []
    if measured:
        edge = made.long_edge
        left, right = sorted((edge.start[0], edge.end[0]))
        layers.append(Measure((left, 0), (right, 0), f"{inches(edge.length)} in", away=-24))
    return Picture(layers, read_off(made) + ".", title)


def with_close_up(made, picture, n, square):
    """The picture with a frame round a point at its edge, and that point larger: its depth, where the seam will run,
    and where the edge is trimmed if it lies further out."""
    spot, (x, y) = _at_a_point(made)
    deep = Measure((x - 0.62, 0), (x - 0.62, y), "", away=-8)
    lines = [Lines([[(x - 2, y), (x + 2, y)]], "finished line", "where the seam will run")]
    lines += [trim_line(made)] if is_to_trim(made) else []
    framed, _ = close_up(picture, spot, REACH, 1)
    return framed, _larger(picture, [*lines, deep], spot, n, square, f"{depth(made.deep)} deep")


def under_the_ruler(made, n, square, title):
    """A point at the edge with the ruler's line on it, and the trim that the ruler's edge gives."""
    spot, (x, y) = _at_a_point(made)
    line = Lines([[(x - 2, y), (x + 2, y)]], "guide", f"the ruler's {depth(SEAM)} line, on the points")
    trim = Measure((x - 0.62, y - float(SEAM)), (x - 0.62, y), "", away=-8)
    layers = [line, trim_line(made), trim]
    return replace(_larger(ready(made, title), layers, spot, n, square, f"{depth(SEAM)} are left"), title=title)


def _at_a_point(made):
    """The middle of a close-up of a point in the middle of the long edge, and that point."""
    x, y = made.points[(len(made.points) - 1) // 2].point
    return (x, y + REACH / 2), (x, y)


def _larger(picture, more, spot, n, square, caption):
    """What lies round a spot, larger, without the picture's marks and measures but with more layers; what is measured
    there is told in its caption, where it covers nothing."""
    layers = [layer for layer in picture.layers if not isinstance(layer, (Marks, Measure))]
    times = times_near(n, square, NEAR)
    _, near = close_up(Picture([*layers, *more], picture.alt), spot, REACH, times)
    return replace(near, title=f"A, {times} times\nlarger", caption=caption)


def is_to_trim(made):
    """Whether a ruler shows that the points lie deeper than a seam."""
    return depth(made.deep) != depth(SEAM)


def trim_line(made):
    """Where the long edge is cut off: a seam beyond the points."""
    down = made.points[0].point[1] - float(SEAM)
    wide = made.panel.size[0]
    return Lines([[(-0.3, down), (wide + 0.3, down)]], "cut line", f"trim here, {depth(SEAM)} beyond the points")


@lru_cache(maxsize=128)
def cut_words(n, square, way):
    """Counts and cut sizes, from the proofs."""
    from .. import proofs

    side = proofs.patch.value("cut width", width=float(square), height=float(square))
    side = lengths.text(lengths.ruler(side))
    if way == HALF:
        return f"{n * n} squares cut {side} in make a whole block, of which one half is kept"
    squares = triangle(n, square, way).panel.count("square")
    each, times = (4, "twice") if way == TWICE else (2, "once")
    large = lengths.text(lengths.ruler(end_square(square, way)))
    return (
        f"{squares} square{'s' * (squares > 1)} cut {side} in and {n} end triangles, {each} from a "
        f"square of {large} in cut {times}"
    )


def read_off(made):
    return f"Its long raw edge is {edge_words(made)}"


def edge_words(made):
    """The long raw edge in words: how long, on which grain, and what of the points along it."""
    edge = made.long_edge
    return f"{inches(edge.length)} in, {ON[edge.grain]}; {points_words(made)}"


def trimmed_words(made):
    """How deep the points lie as it is sewn, and what to trim."""
    deep = f"the points lie {depth(made.deep)} from the raw edge"
    if not is_to_trim(made):
        return f"{deep}: nothing to trim"
    return f"{deep}: lay the ruler's {depth(SEAM)} line on them and trim"


def points_words(made):
    deep = {depth(one.depth) for one in made.points}
    count = len(made.points)
    kept = f"{made.kept} of {count} points along it {'is' if made.kept == 1 else 'are'} kept"
    if made.kept == count:
        kept = {1: "the point on it is kept", 2: "both points along it are kept"}.get(
            count, f"all {count} points along it are kept"
        )
    return f"{kept}, {' or '.join(sorted(deep))} from the raw edge"


def _spread(square):
    """How far apart pieces lie before they are sewn."""
    return 0.45 + 0.2 * float(square)


def _outlines(panel):
    return [[*one.polygon.tolist(), one.polygon[0].tolist()] for one in panel.patches]


def _slope(edge):
    (x, y), (u, v) = edge.start, edge.end
    return np.degrees(np.arctan2(v - y, u - x)) % 180
