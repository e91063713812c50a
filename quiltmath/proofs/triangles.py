"""Triangles: what is added to a finished triangle before it is cut, and why.

    >>> half_square.exact(finished=3), half_square.cut(finished=3), quarter_square.cut(finished=3)
    (sqrt(2)/4 + 7/2, Fraction(31, 8), Fraction(17, 4))
    >>> half_square.equation
    'square = finished + (2 + √2) × seam'
    >>> side_triangle.cut(block=12), corner_triangle.cut(block=12)
    (Fraction(73, 4), Fraction(75, 8))
    >>> half_square.exact(finished=-3)
    Traceback (most recent call last):
    ValueError: finished (the side of the finished square unit) must be more than 0; got -3; \
write for example finished='3 1/2'
"""

from quiltmath.proofs.proof import proof
from quiltmath.proofs.quantity import length
from quiltmath.proofs.story import root
from quiltmath.shapes import area, right_triangle, square


@proof("Half-square triangle", finished=length("the side of the finished square unit"))
def half_square(story, finished, seam):
    """How large a square, cut once on its diagonal, gives two triangles for a finished square unit?"""
    triangle = story.draw(
        "Draw the finished triangle. Two of them make the square unit, so both legs are as long as its side.",
        right_triangle(finished, finished),
        ("leg", finished),
    )
    cut = story.move(triangle, seam)
    story.read(
        "square",
        "The bottom leg now runs from where it meets the moved left side to where it meets the moved "
        "slanting side. Two such triangles are one square cut once, and this leg is its side.",
        cut,
        0,
        1,
    )
    _pieces(story, cut, square(story.measures["square"].formula))


@proof("Quarter-square triangle", finished=length("the long side of the finished triangle"))
def quarter_square(story, finished, seam):
    """How large a square, cut twice on its diagonals, gives four triangles whose long side keeps the straight
    grain?"""
    triangle = story.draw(
        "Draw the finished triangle on its long side. It is a quarter of a square, so its tip lies over the "
        "middle, half as high as the side is long.",
        _quarter(finished),
        ("height", finished / 2),
    )
    cut = story.move(triangle, seam)
    story.read(
        "square",
        "The long side now runs between the two moved slanting sides. Four such triangles are one "
        "square cut twice, and this side is its side.",
        cut,
        0,
        1,
    )
    _pieces(story, cut, square(story.measures["square"].formula))


@proof("Side triangle of a quilt on point", block=length("the side of the finished block"))
def side_triangle(story, block, seam):
    """How large a square, cut twice, gives the triangles along the sides of a quilt set on point?"""
    diagonal = story.tidy(root(block**2 + block**2))
    story.say(
        "A side triangle fills the gap between two blocks set on point: its legs are as long as a "
        "block's side, so its long side, which becomes the edge of the quilt, is the block's diagonal.",
        ("long side", "√(block² + block²)", diagonal),
    )
    triangle = story.draw(
        "Draw it on its long side. That side must lie on the straight grain, so the "
        "triangle is a quarter of a square cut twice.",
        _quarter(diagonal),
    )
    cut = story.move(triangle, seam)
    story.read(
        "square", "The long side, read between the two moved legs, is the side of the square to cut twice.", cut, 0, 1
    )
    _pieces(story, cut, square(story.measures["square"].formula))


@proof("Corner triangle of a quilt on point", block=length("the side of the finished block"))
def corner_triangle(story, block, seam):
    """How large a square, cut once, gives the triangles in the corners of a quilt set on point?"""
    leg = story.tidy(root(block**2 / 2))
    story.say(
        "A corner triangle has one block's side as its long side. Its two legs are equal, become the "
        "edge of the quilt, and by Pythagoras their squares add up to the square of the block.",
        ("2 × leg²", block**2),
        ("leg", leg),
    )
    triangle = story.draw(
        "Draw it on a leg. Both legs must lie on the straight grain, so the triangle is half of a square cut once.",
        right_triangle(leg, leg),
    )
    cut = story.move(triangle, seam)
    story.read(
        "square",
        "The leg, read between the moved left side and the moved slanting side, is the side of the square to cut once.",
        cut,
        0,
        1,
    )
    _pieces(story, cut, square(story.measures["square"].formula))


@proof("Half-rectangle triangle", across=length("the finished leg across"), up=length("the finished leg up"))
def half_rectangle(story, across, up, seam):
    """How large a rectangle, cut once from corner to corner, gives two finished triangles with these legs?"""
    triangle = story.draw(
        "Draw the finished triangle with its legs across and up.",
        right_triangle(across, up),
        ("long side", root(across**2 + up**2)),
    )
    cut = story.move(triangle, seam)
    wide = story.read("cut across", "Read the leg across: this is one side of the rectangle to cut.", cut, 0, 1)
    high = story.read("cut up", "Read the leg up: this is the other side.", cut, 0, 2)
    story.agree(
        "Every side moved by the same seam, so the cut triangle has the shape of the finished one, "
        "only larger: the rectangle may be cut straight from corner to corner.",
        wide * up,
        high * across,
    )


@proof("Equilateral triangle from a strip", finished=length("the height of the finished triangle"))
def equilateral(story, finished, seam):
    """How wide a strip, and how long a side, gives a triangle with three equal sides?"""
    side = story.tidy(2 * finished / root(story.number(3)))
    story.say(
        "Half of an equilateral triangle has a height, half a side and a whole side; by Pythagoras the "
        "side follows from the height.",
        ("side² − (side / 2)²", "finished²"),
        ("finished side", side),
    )
    triangle = story.draw("Draw the finished triangle on one side.", [(0, 0), (side, 0), (side / 2, finished)])
    cut = story.move(triangle, seam)
    story.height(
        "strip",
        "The tip has risen by two seams and the bottom side has sunk by one: the strip to cut is "
        "the finished height and three seams.",
        cut,
        0,
        2,
    )
    story.read("side", "Read the bottom side between the two moved slanting sides: the side to cut.", cut, 0, 1)


def _quarter(long_side):
    """A quarter of a square, lying on its long side."""
    return [(0, 0), (long_side, 0), (long_side / 2, long_side / 2)]


def _pieces(story, cut, whole):
    """How many cut triangles their square holds, by area."""
    story.give(
        "pieces",
        "The square holds this many of the cut triangles, by area.",
        area(whole) / area(cut),
        "area of the square / area of the triangle",
        kind="count",
    )
