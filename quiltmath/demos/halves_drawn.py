"""The pictures of "a block cut in half": the block with its cut, and each triangle in the place it is to fill."""

from dataclasses import replace
from math import sqrt

import numpy as np

from .. import lengths
from ..draw import Handle, Lines, Marks, Measure, Picture, Shapes, Words, inches, turned, with_close_up
from ..draw.panels import fabric_layers
from .halves import BETWEEN, DIAGONAL, SEAM, Half, block, built

FABRICS = {DIAGONAL: "blue", BETWEEN: "yellow"}
ON = {"straight": "on the straight grain", "bias": "on the bias"}
NEW_LINE = "\n"
REACH = 0.75  # inches from the middle of the close-up to its frame
NEAR, APART = 0.6, 0.2  # how wide a close-up is and how far off, beside a picture as wide as the block's diagonal


def block_with_cut(n, patch, past, kept, stops):
    """The block on point with the cut, and beside it the point nearest its middle, larger, with the seams to come;
    there a handle moves the cut to any of these stops past the diagonal."""
    whole = block(n, patch).turn(-45)
    width, seam = whole.size[0], float(SEAM)
    middle, cut = width / 2, width / 2 - float(past)
    points = [(middle + (k - n / 2) * float(patch) * sqrt(2), middle) for k in range(1, n)]
    cloth = [*fabric_layers(whole, FABRICS), Lines(whole.seams, "seam")]
    knife = Lines([[(-0.4, cut), (width + 0.4, cut)]], "cut line", "cut")
    x, y = spot = _middle(points)
    seams = Lines(
        [[(x - 2, side), (x + 2, side)] for side in (cut + seam, cut - seam)],
        "finished line",
        "where the seams will run",
    )
    by = [Measure((x - 0.62, y), (x - 0.62, cut + seam), "", away=-8)] if kept.lost else []
    said = f"Block of {n} × {n} squares with a cut {past_words(past)}."
    deep = f"{depth(kept.lost_by)} lost" if kept.lost else "nothing lost"  # always a line: the handle keeps its place
    times = times_near(n, patch)
    marked = Picture([*cloth, knife], said, "The block\nand the cut", deep).with_layers(_marks(points, kept.lost))
    at = width + 0.4 + _away(times), middle
    beside = with_close_up(marked, spot, REACH, times, at, [*cloth, seams, knife, *by])
    near, taken = beside.layers[-1], x + 0.8 * REACH
    return replace(
        beside.with_layers(_larger(near)),
        handle=Handle("past", near.seen([(taken, middle - float(stop)) for stop in stops])),
    )


def times_near(n, patch, wide=NEAR):
    """How many times larger a close-up is that is so `wide` beside a block's diagonal; twice at least.

    >>> times_near(4, 2)
    5
    """
    return max(2, round(wide * n * float(patch) * sqrt(2) / (2 * REACH)))


def _away(times):
    """How far the middle of such a close-up lies from what it stands beside, inches."""
    return 2 * REACH * times * (APART / NEAR + 0.5)


def _larger(near):
    """What is said below a close-up."""
    (left, low), (right, _), *_ = near.corners
    return Words(((left + right) / 2, low), f"{near.times:g} times\nlarger", side="below")


def block_to_guess(n, patch):
    """The block on point with a cut on its diagonal, before anything is given away."""
    whole = block(n, patch).turn(-45)
    middle = whole.size[0] / 2
    cloth = [*fabric_layers(whole, FABRICS), Lines(whole.seams, "seam")]
    cut = Lines([[(-0.4, middle), (whole.size[0] + 0.4, middle)]], "cut line")
    count = (n - 1) ** 2
    words = (
        f"A block of {n} × {n} squares of {lengths.text(patch)} in on point, with {count} points; the cut to come runs "
        f"through {n - 1} of them."
    )
    return Picture([*cloth, cut], words)


def named_points(n, patch):
    """The points of that block row by row from the top: (name, spot on the picture, spot on the block's own cloth).

    >>> [name for name, *_ in named_points(3, 2)]
    ['point 1 of 1, 1 row above the cut', 'point 1 of 2, on the cut', 'point 2 of 2, on the cut', \
'point 1 of 1, 1 row below the cut']
    """
    whole = block(n, patch)
    side, middle = whole.size[0], whole.turn(-45).size[0] / 2
    cloth = [tuple(map(float, junction.point)) for junction in whole.junctions()]
    spots = turned(np.subtract(cloth, side / 2), -45, (middle, middle)).tolist()
    rows = {}
    for (x, y), own in zip(spots, cloth):
        rows.setdefault(round((y - middle) * sqrt(2) / float(patch)), []).append(((x, y), own))
    return [
        (f"point {number} of {len(row)}, {_beside_the_cut(up)}", spot, own)
        for up, row in sorted(rows.items(), reverse=True)
        for number, (spot, own) in enumerate(sorted(row), 1)
    ]


def _beside_the_cut(up):
    """Which row of points it is, counted from the cut."""
    if not up:
        return "on the cut"
    return f"{abs(up)} row{'s'[: abs(up) > 1]} {'above' if up > 0 else 'below'} the cut"


def built_half(n, patch):
    """The built triangle, read like a half of a block."""
    triangle = built(n, patch)
    outer = triangle.junctions()[: n - 1]
    lost = sum(junction.lost_by > 0 for junction in outer)
    return Half(triangle, triangle.bind(), n - 1 - lost, lost, outer[0].lost_by)


def in_its_place(half, n, patch, title, near=False):
    """A half once it is sewn in, in the place it is to fill: what is missing, and the points that should
    show; with one of them larger below it where it is looked at `near`."""
    width, high = half.sewn.size
    wanted, leg = float(patch) * n * sqrt(2), float(patch) * n / sqrt(2)
    bottom, left = high - leg, (width - wanted) / 2
    cloth = [*fabric_layers(half.sewn, FABRICS), Lines(half.sewn.seams, "seam")]
    if bottom < -1e-6:
        missing = [(left, bottom), (left + wanted, bottom), (width, 0), (0, 0)]
        cloth.append(Shapes([missing], "lost cloth", "fabric missing from its place"))
    cloth.append(Lines([[(left, bottom), (left + wanted, bottom), (width / 2, high), (left, bottom)]], "outline"))
    points = [(left + k * wanted / n, bottom) for k in range(1, n)]
    said = f"{title.replace(NEW_LINE, ' ')}: {points_words(half)}."
    whole = Picture(cloth, said, title, _short(half)).with_layers(_marks(points, half.lost))
    if not near:
        return whole
    (x, y), times = _middle(points), times_near(n, patch)
    return with_close_up(whole, (x, y + REACH / 2), REACH, times, (width / 2, bottom - _away(times)), cloth)


def _middle(points):
    return points[(len(points) - 1) // 2]


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
