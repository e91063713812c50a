"""Shapes cut from strips: diamonds, trapezoids, hexagons, kites and strip sets.

>>> diamond_60.equation, diamond_45.exact("star", finished=3)
('strip = √3/2 × finished + 2 × seam', 3*sqrt(2) + 6)
>>> strip_set.cut("set", finished=1, strips=3), hexagon.cut(finished=2)
(Fraction(7, 2), Fraction(4, 1))
"""

from quiltmath.proofs.proof import proof
from quiltmath.proofs.quantity import count, length
from quiltmath.proofs.story import root
from quiltmath.shapes import rectangle

SIDE = "the finished side"


@proof("45-degree diamond", finished=length(SIDE))
def diamond_45(story, finished, seam):
    """How wide a strip, and how far apart the cuts, for diamonds whose sharp points are 45 degrees?"""
    reach = finished / root(story.number(2))
    story.say(
        "A side that rises at 45 degrees is the long side of a triangle with two equal legs: it "
        "reaches as far across as it rises.",
        ("2 × rise²", finished**2),
        ("rise", story.tidy(reach)),
    )
    shape = _diamond(story, finished, reach, reach, seam)
    story.give("finished strip", "What the strip shows, from side to side.", shape[2][1], kind="length")
    story.give(
        "star",
        "Eight such diamonds make an eight-pointed star. Along a side of its block lie a corner "
        "square as long as a diamond's side, the long side of a triangle with two such legs, and a "
        "corner square.",
        2 * finished + root(finished**2 + finished**2),
        "finished + √(finished² + finished²) + finished",
        kind="length",
    )


@proof("60-degree diamond", finished=length(SIDE))
def diamond_60(story, finished, seam):
    """How wide a strip, and how far apart the cuts, for diamonds whose sharp points are 60 degrees?"""
    rise = root(story.number(3)) * finished / 2
    story.say(
        "Two equilateral triangles make the diamond, so a slanting side reaches half its length across "
        "and, by Pythagoras, rises by the rest.",
        ("rise²", "finished² − (finished / 2)²"),
        ("rise", story.tidy(rise)),
    )
    _diamond(story, finished, finished / 2, rise, seam)


@proof(
    "Trapezoid with two 45-degree ends",
    short=length("the finished short side", seams=0),
    height=length("the finished height", seams=1),
)
def trapezoid(story, short, height, seam):
    """How wide a strip, and how long the two sides, for a trapezoid whose ends slant at 45 degrees?"""
    long = short + 2 * height
    shape = story.draw(
        "Draw the finished trapezoid on its long side. An end at 45 degrees reaches as far "
        "along as the trapezoid is high.",
        [(0, 0), (long, 0), (short + height, height), (height, height)],
        ("finished long side", long),
    )
    cut = story.move(shape, seam)
    story.height("strip", "Read the height: the strip to cut.", cut, 0, 3)
    story.read("long side", "Read the long side between the two moved ends.", cut, 0, 1)
    story.read("short side", "Read the short side.", cut, 3, 2)


@proof("Hexagon from a strip", finished=length(SIDE))
def hexagon(story, finished, seam):
    """How wide a strip, and how long a side, for a hexagon with six equal sides?"""
    rise = root(story.number(3)) * finished / 2
    story.say(
        "Six equilateral triangles meet in its middle; each is as high as half the hexagon.",
        ("rise²", "finished² − (finished / 2)²"),
        ("rise", story.tidy(rise)),
    )
    half = finished / 2
    shape = story.draw(
        "Draw the finished hexagon on one side.",
        [(0, 0), (finished, 0), (finished + half, rise), (finished, 2 * rise), (0, 2 * rise), (-half, rise)],
    )
    cut = story.move(shape, seam)
    story.height("strip", "Read the height, flat side to flat side: the strip to cut.", cut, 0, 4)
    story.read("side", "Read a side: the length to measure along the ruler's 60-degree line.", cut, 0, 1)
    story.read("corners", "Read the width, corner to opposite corner.", cut, 5, 2)
    story.give("finished flats", "What it shows from flat side to flat side.", 2 * rise, kind="length")
    story.give("finished corners", "What it shows from corner to corner.", 2 * finished, kind="length")


@proof("Half hexagon from a strip", finished=length(SIDE))
def half_hexagon(story, finished, seam):
    """How wide a strip, and how long the two sides, for half a hexagon (so that rows need no set-in seam)?"""
    rise = root(story.number(3)) * finished / 2
    shape = story.draw(
        "Draw the lower half turned over: a trapezoid whose long side is twice the short one "
        "and whose height is that of an equilateral triangle.",
        [(0, 0), (2 * finished, 0), (3 * finished / 2, rise), (finished / 2, rise)],
        ("height²", "finished² − (finished / 2)²"),
        ("height", story.tidy(rise)),
    )
    cut = story.move(shape, seam)
    story.height("strip", "Read the height: the strip to cut.", cut, 0, 3)
    story.read("long side", "Read the long side.", cut, 0, 1)
    story.read("short side", "Read the short side.", cut, 3, 2)


@proof(
    "Kite",
    width=length("the finished width at the widest line"),
    point=length("from the widest line to the sharp tip"),
    blunt=length("from the widest line to the blunt tip"),
)
def kite(story, width, point, blunt, seam):
    """How long and how wide is a kite cut?"""
    half = width / 2
    shape = story.draw(
        "Draw the finished kite on its sharp tip, the widest line level.",
        [(0, -point), (half, story.number(0)), (story.number(0), blunt), (-half, story.number(0))],
        ("length", point + blunt),
    )
    cut = story.move(shape, seam)
    story.read(
        "cut length",
        "Read from tip to tip. The sharp tip moves much further than one seam: two sides that nearly "
        "meet, moved apart, meet far out.",
        cut,
        0,
        2,
    )
    story.read("cut width", "Read the widest line.", cut, 3, 1)


@proof(
    "Strip set and its sub-cuts", finished=length("the finished width of each strip"), strips=count("strips in the set")
)
def strip_set(story, finished, strips, seam):
    """How wide are the strips, the sewn set and the pieces cut from it across?"""
    shape = story.draw("Draw one finished strip's square.", rectangle(finished, finished))
    cut = story.move(shape, seam)
    one = story.read("strip", "Read its width: the strip to cut.", cut, 0, 1)
    story.give("sub-cut", "Cut across, each piece becomes a row of such squares: as wide as the strip was cut.", one)
    row = story.draw(
        "Draw the finished row: the strips side by side, no seam showing.", rectangle(strips * finished, finished)
    )
    sewn = story.move(row, seam, "Only its outside still has seams: move it out.")
    story.read(
        "set", "Read the width of the sewn set. Measured narrower than this, the seams took too much.", sewn, 0, 1
    )
    story.agree(
        "The other way round it comes to the same: strips as cut, less two seams for each seam sewn.",
        story.measures["set"].formula,
        strips * one - 2 * seam * (strips - 1),
    )


def _diamond(story, finished, reach, rise, seam):
    """A diamond from a strip: its strip, the distance between the cuts, and the step along the strip."""
    shape = story.draw(
        "Draw the finished diamond on one side.", [(0, 0), (finished, 0), (finished + reach, rise), (reach, rise)]
    )
    cut = story.move(shape, seam)
    strip = story.height("strip", "Read the height: the strip to cut.", cut, 0, 3)
    story.give(
        "cut apart",
        "All four sides are equally long, so it is as far between the slanting sides as between the "
        "level ones: lay the ruler this far from the last cut.",
        strip,
        "strip",
    )
    story.read(
        "along the strip", "Read the bottom side: what one diamond takes along the strip, and its cut side.", cut, 0, 1
    )
    return shape
