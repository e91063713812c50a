"""A frame on a built side triangle, step by step: strips cut longer than they need to be, and trimmed at 45 degrees."""

from fractions import Fraction

from .. import lengths, proofs, sewing
from ..draw import Lines, Picture, beside, inches
from ..draw.panels import fabric_layers, outlines
from .halves import SEAM
from .halves_drawn import FABRICS
from .side_triangles import triangle
from .still import Still

FRAME = "frame"
ROLES = {**FABRICS, FRAME: "orange"}
LONGER = Fraction(1)  # inches: so much longer than it needs to be a strip is cut, to be trimmed (common practice)


def step_by_step(n=3, square=2, frame="1 1/2"):
    """The built triangle, its two strips sewn on an inch longer than they need to be, and the trim: a Still."""
    square, frame = Fraction(square), lengths.parse(frame)
    first, second = strip_lengths(n, square, frame)
    plain, one, two = stages(n, square, frame)
    finished = trimmed(two)
    cut = [[(-0.4, low(two)), (two.size[0] + 0.4, low(two))]]
    pictures = [
        _drawn(plain, "1. The built triangle"),
        _drawn(one, "2. First strip,\npressed outwards"),
        _drawn(two, "3. Second strip").with_layers(Lines(cut, "cut line", "ruler along the long edge: trim here")),
        _drawn(finished, "4. Trimmed"),
    ]
    words = (
        f"A frame of {lengths.text(frame)} in round a built triangle of {n} rows. At the least its strips are "
        f"{_up(first)} and {_up(second)} in; cut {lengths.text(LONGER)} in longer, {_up(first + LONGER)} and "
        f"{_up(second + LONGER)} in, they reach past the trim for sure. Trimmed in line with the triangle, the long "
        f"edge is {inches(finished.size[0])} in."
    )
    return Still(beside(pictures, columns=2, alt=words), words)


def strip_lengths(n, square, frame):
    """How long the two strips are cut at the least, as floats: the second runs over the end of the first.

    >>> [round(long, 3) for long in strip_lengths(3, 2, 1.5)]
    [8.354, 9.854]
    """
    leg, width = float(n * square), float(frame)
    return tuple(proofs.frame_end.value(leg=long, width=width) for long in (leg, leg + width))


def stages(n, square, frame):
    """The triangle, with one strip and with both, its long edge down: three panels, the tips of the strips standing
    out below."""
    plain = triangle(n, square).panel.turn(135)
    made, strips = [plain], []
    for long in strip_lengths(n, square, frame):
        side = float(frame + 2 * SEAM), float(LONGER) + long
        strips.append(sewing.patch(size=side, fabric=FRAME, part="frame strip"))
    made.append(made[-1].sew(strips[0], mine="left", theirs="left"))
    made.append(made[-1].sew(strips[1], mine="bottom", theirs="left", align="start"))
    return [one.turn(225) for one in made]


def low(panel):
    """Where the long edge of the triangle lies, while its strips stand out below it."""
    return min(one.point[1] for one in panel.junctions() if one.depth >= 0) - float(SEAM)


def trimmed(panel):
    """The framed triangle with both tips cut off in line with its long edge."""
    return panel.trim(bottom=low(panel))


def _drawn(panel, title):
    edge = Lines([[*loop, loop[0]] for loop in outlines(panel)], "raw edge", "raw edge")
    cloth = [*fabric_layers(panel, ROLES), Lines(panel.seams, "seam"), edge]
    return Picture(cloth, f"{title}: {inches(panel.size[0])} in wide.".replace("\n", " "), title)


def _up(value):
    return lengths.text(lengths.ruler(value))
