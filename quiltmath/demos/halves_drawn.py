"""The pictures of "a block cut in half": the block with its cut, and each triangle in the place it is to fill."""

from dataclasses import replace
from math import sqrt

from .. import lengths
from ..draw import Lines, Marks, Measure, Picture, Shapes, Words, close_up, inches
from ..draw.panels import fabric_layers
from .halves import BETWEEN, DIAGONAL, SEAM, Half, block, built

FABRICS = {DIAGONAL: "blue", BETWEEN: "yellow"}
ON = {"straight": "on the straight grain", "bias": "on the bias"}
NEW_LINE = "\n"
REACH = 0.75  # inches from the middle of the close-up to its frame
NEAR = 0.85  # how wide a close-up is, beside a picture as wide as the block's diagonal


def block_with_cut(n, patch, past, kept):
    """The block on point with the cut, and the close-up of the point nearest its middle with the seams to
    come."""
    whole = block(n, patch).turn(-45)
    width, seam = whole.size[0], float(SEAM)
    middle, cut = width / 2, width / 2 - float(past)
    points = [(middle + (k - n / 2) * float(patch) * sqrt(2), middle) for k in range(1, n)]
    cloth = [*fabric_layers(whole, FABRICS), Lines(whole.seams, "seam")]
    knife = [Lines([[(-0.4, cut), (width + 0.4, cut)]], "cut line", "cut")]
    marks = _marks(points, kept.lost)
    said = f"Block of {n} × {n} squares with a cut {past_words(past)}."
    x, y = spot = _middle(points)
    seams = Lines(
        [[(x - 2, side), (x + 2, side)] for side in (cut + seam, cut - seam)],
        "finished line",
        "where the seams will run",
    )
    by = [Measure((x - 0.62, y), (x - 0.62, cut + seam), "", away=-8)] if kept.lost else []
    deep = f"{depth(kept.lost_by)} lost" if kept.lost else ""
    return (
        framed(Picture([*cloth, *knife], said, "The block\nand the cut"), spot).with_layers(marks),
        near(Picture([*cloth, seams, *knife, *by], said), spot, NEAR * float(patch) * n * sqrt(2), caption=deep),
    )


def block_to_guess(n, patch, words):
    """The block on point with a cut on its diagonal, and a number at each point on it."""
    whole = block(n, patch).turn(-45)
    middle, step = whole.size[0] / 2, float(patch) * sqrt(2)
    cloth = [*fabric_layers(whole, FABRICS), Lines(whole.seams, "seam")]
    cut = Lines([[(-0.4, middle), (whole.size[0] + 0.4, middle)]], "cut line", "cut")
    numbers = [
        Words((middle + (k - n / 2) * step, middle + 0.12 * step), str(k), side="above", bold=True) for k in range(1, n)
    ]
    return Picture([*cloth, cut, *numbers], words)


def built_half(n, patch):
    """The built triangle, read like a half of a block."""
    triangle = built(n, patch)
    outer = triangle.junctions()[: n - 1]
    lost = sum(junction.lost_by > 0 for junction in outer)
    return Half(triangle, triangle.bind(), n - 1 - lost, lost, outer[0].lost_by)


def in_its_place(half, n, patch, title, letter=""):
    """A half once it is sewn in, in the place it is to fill: what is missing, and the points that should
    show.

    With a letter it comes as a pair: the picture, measured and framed, and the close-up without the marks.
    """
    width, high = half.sewn.size
    wanted, leg = float(patch) * n * sqrt(2), float(patch) * n / sqrt(2)
    bottom, left = high - leg, (width - wanted) / 2
    cloth = [*fabric_layers(half.sewn, FABRICS), Lines(half.sewn.seams, "seam")]
    if bottom < -1e-6:
        missing = [(left, bottom), (left + wanted, bottom), (width, 0), (0, 0)]
        cloth.append(Shapes([missing], "lost cloth", "fabric missing from its place"))
    cloth.append(Lines([[(left, bottom), (left + wanted, bottom), (width / 2, high), (left, bottom)]], "outline"))
    points = [(left + k * wanted / n, bottom) for k in range(1, n)]
    said, marks = f"{title.replace(NEW_LINE, ' ')}: {points_words(half)}.", _marks(points, half.lost)
    if not letter:
        return Picture([*cloth, marks], said, title, _short(half))
    x, y = _middle(points)
    spot = x, y + REACH / 2
    measure = Measure((0, bottom), (width, bottom), f"{inches(width)} in", away=-24)
    return (
        framed(Picture([*cloth, measure], said, title, _short(half)), spot, letter).with_layers(marks),
        near(Picture(cloth, said), spot, NEAR * wanted, letter),
    )


def _middle(points):
    return points[(len(points) - 1) // 2]


def framed(picture, spot, letter="A"):
    """The picture with a lettered frame round one spot."""
    return close_up(picture, spot, REACH, 1, letter)[0]


def near(picture, spot, width, letter="A", caption=""):
    """What lies in that frame, enlarged to so many inches of the page's cloth, or twice if that is more; what is
    measured there is told in its caption, where it covers nothing."""
    times = max(2, round(width / (2 * REACH)))
    larger = close_up(picture, spot, REACH, times, letter)[1]
    return replace(larger, title=f"{letter}, {times} times\nlarger", caption=caption)


def points_words(half):
    """What became of the points, in words.

    >>> from quiltmath.demos.halves import halves
    >>> points_words(halves(4, 2, 0)[0])
    '3 of 3 points lost, 1/4 in deep'
    """
    count = half.lost + half.kept
    if half.lost:
        return f"{half.lost} of {count} point{'s' if count > 1 else ''} lost, {depth(half.lost_by)} deep"
    return f"{half.kept} of {count} point{'s' if count > 1 else ''} kept"


def past_words(past):
    """Where the cut runs, in words."""
    return f"{lengths.text(past)} in past its diagonal" if past else "exactly on its diagonal"


def depth(value):
    """How deep a point lies or is lost, to the nearest 1/32 in, as text with its unit."""
    return f"{inches(value, '1/32')} in"


def _short(half):
    count = half.lost + half.kept
    points = "point" if count == 1 else "points"
    return f"{count} {points} lost,\n{depth(half.lost_by)} deep" if half.lost else f"{count} {points} kept"


def _marks(points, lost):
    return Marks(points, "lost point", "point lost") if lost else Marks(points, "kept point", "point kept")
