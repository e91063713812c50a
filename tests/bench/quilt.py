"""A quilt on point of some 2,650 patches for the redraw bench: blocks defined once, and every patch written
out."""

from math import sqrt

from quiltmath.demos import Choice, Demo, Shown, Whole
from quiltmath.draw import Measure, Picture, Repeat, Shapes

ACROSS, DOWN = 12, 13


def block(narrow):
    """A block of 12 in of nine patches, its middle row and column `narrow` eighths of an inch wide."""
    wide = (12 - narrow / 8) / 2
    cuts = [0, wide, 12 - wide, 12]
    patches = [
        [(cuts[i], cuts[j]), (cuts[i + 1], cuts[j]), (cuts[i + 1], cuts[j + 1]), (cuts[i], cuts[j + 1])]
        for i in range(3)
        for j in range(3)
    ]
    return Shapes(patches[::2], "blue", "navy"), Shapes(patches[1::2], "yellow", "gold")


def setting():
    """The spots of the blocks on point, and the edge and corner triangles."""
    step = 12 * sqrt(2)
    spots = [((i + 0.5) * step, j * step, 45) for i in range(ACROSS) for j in range(DOWN)]
    spots += [((i + 1) * step, (j + 0.5) * step, 45) for i in range(ACROSS - 1) for j in range(DOWN - 1)]
    w, h, half = ACROSS * step, DOWN * step, step / 2
    sides = [
        [((i + 0.5) * step, y), (i * step + step, y + way * half), (i * step + 1.5 * step, y)]
        for i in range(ACROSS - 1)
        for y, way in ((0, 1), (h, -1))
    ]
    sides += [
        [(x, (j + 0.5) * step), (x + way * half, j * step + step), (x, j * step + 1.5 * step)]
        for j in range(DOWN - 1)
        for x, way in ((0, 1), (w, -1))
    ]
    corners = [
        [(x, y), (x + way * half, y), (x, y + up * half)] for x, way in ((0, 1), (w, -1)) for y, up in ((0, 1), (h, -1))
    ]
    return spots, sides + corners


def model(narrow, written):
    spots, triangles = setting()
    repeat = Repeat(block(narrow), spots)
    cloth = (repeat,) if written == "blocks" else repeat.expanded()
    width = ACROSS * 12 * sqrt(2)
    return Shown(
        Picture(
            [*cloth, Shapes(triangles, "sky", "sky"), Measure((0, 0), (width, 0), f"{width:.1f} in")],
            alt=f"A quilt on point, middle row {narrow / 8} in wide.",
        ),
        f"The middle row is {narrow / 8} in wide.",
    )


DEMO = Demo(
    "A quilt on point",
    model,
    (
        Whole("narrow", "Middle row in eighths", 1, 95, 30),
        Choice("written", "Sent as", ("blocks", "patches"), "blocks"),
    ),
    width=700,
    height=760,
)
