"""Pieced units: squares, geese, squares in squares, snowballs, hourglasses, and half-square triangles by the
batch.

    >>> patch.cut(width=4, height=4), geese_four_at_a_time.cut(finished=3), square_in_square.cut(finished=12)
    (Fraction(9, 2), Fraction(17, 4), Fraction(9, 1))
    >>> flying_geese.cut("sky square", finished=3), flying_geese.equation
    (Fraction(19, 8), 'goose square = finished + (2 + 2√2) × seam')
    >>> snowball.cut(finished=6, corner=4)
    Traceback (most recent call last):
    ValueError: corner (the leg of the finished corner) must be more than 0 and at most 1/2 of \
finished; got 4; write corner='3' or less
"""

from quiltmath.proofs.proof import proof
from quiltmath.proofs.quantity import count, length
from quiltmath.proofs.story import root
from quiltmath.shapes import rectangle, right_triangle, square

UNIT = "the long side of the finished unit"


@proof("A square or rectangle", width=length("the finished width"), height=length("the finished height"))
def patch(story, width, height, seam):
    """How large is a square or rectangular patch cut?"""
    shape = story.draw("Draw the finished patch.", rectangle(width, height))
    cut = story.move(shape, seam)
    story.read("cut width", "Read the width: one seam was added on the left and one on the right.", cut, 0, 1)
    story.read("cut height", "Read the height: one seam below, one above.", cut, 0, 3)


@proof(
    "Patches of a block on a grid",
    block=length("the side of the finished block"),
    across=count("patches in a row of the block"),
)
def grid(story, block, across, seam):
    """How large are the squares of a block of so many patches in a row?"""
    finished = block / across
    shape = story.draw(
        "Share the finished block out evenly: the seams are not part of what you see, so they "
        "are not part of the sharing.",
        square(finished),
        ("finished", finished),
    )
    cut = story.move(shape, seam)
    story.read(
        "square",
        "Read the side of one patch: its finished share and a seam on each side. Cutting the block up "
        "first and adding one seam for all is the known mistake.",
        cut,
        0,
        1,
    )
    story.give("finished", "What one patch shows.", finished, kind="length")


@proof("Flying geese", finished=length(UNIT))
def flying_geese(story, finished, seam):
    """How large are the squares that give the triangles of a flying-geese unit, twice as wide as high?"""
    goose = story.draw(
        "Draw the goose, the large triangle: its long side is the unit's width, its tip half that high.",
        _goose(finished),
    )
    story.read(
        "goose square",
        "The long side lies on the outside of the unit and wants the straight grain: cut the goose "
        "from a square cut twice, whose side is this long side.",
        story.move(goose, seam),
        0,
        1,
    )
    sky = story.draw(
        "Draw the sky, the small triangle in each upper corner: its legs are half the unit's width.",
        right_triangle(finished / 2, finished / 2),
    )
    story.read(
        "sky square",
        "Its legs lie on the outside: cut it from a square cut once, whose side is this leg.",
        story.move(sky, seam),
        0,
        1,
    )


@proof("Flying geese, one at a time", finished=length(UNIT))
def geese_one_at_a_time(story, finished, seam):
    """How large are the rectangle and the two squares when the corners are sewn on and folded over?"""
    unit = story.draw("Draw the finished unit: twice as wide as high.", rectangle(finished, finished / 2))
    cut = story.move(unit, seam)
    story.read("rectangle across", "The rectangle is the whole unit with its seams: read the width.", cut, 0, 1)
    story.read("rectangle up", "Read the height.", cut, 0, 3)
    _folded_corner(story, finished / 2, seam, "square")


@proof("Flying geese, four at a time", finished=length(UNIT))
def geese_four_at_a_time(story, finished, seam):
    """How large are the one large square and the four small ones that give four units without waste?"""
    story.say(
        "The large square is in the end cut on both its diagonals, the small ones on one: each goose "
        "is a quarter of the large square, each piece of sky half of a small one. So the two triangles "
        "tell the sizes."
    )
    goose = story.draw("Draw the finished goose on its long side.", _goose(finished))
    story.read("large square", "Its long side is the side of the large square.", story.move(goose, seam), 0, 1)
    sky = story.draw("Draw the finished sky triangle.", right_triangle(finished / 2, finished / 2))
    story.read("small square", "Its leg is the side of the small squares.", story.move(sky, seam), 0, 1)


@proof("Square in a square", finished=length("the side of the whole finished unit"))
def square_in_square(story, finished, seam):
    """How large are the centre and the corner squares when a square stands on its points inside another?"""
    half = finished / 2
    inner = story.tidy(root(half**2 + half**2))
    story.say(
        "The points of the centre square touch the middles of the unit's sides, so each corner is a "
        "triangle with two legs of half a side, and the centre's side is that triangle's long side.",
        ("centre's side", "√((finished / 2)² + (finished / 2)²)", inner),
    )
    centre = story.draw("Draw the finished centre.", square(inner))
    story.read("centre", "Read the side of the centre square with its seams.", story.move(centre, seam), 0, 1)
    corner = story.draw("Draw a finished corner.", right_triangle(half, half))
    story.read(
        "corner square",
        "Two corners come from a square cut once: its side is this leg. Seven eighths belong to the "
        "leg, not to the long side that is sewn to the centre.",
        story.move(corner, seam),
        0,
        1,
    )
    story.give("finished centre", "What the centre shows.", inner, kind="length")


@proof(
    "Triangle in a square",
    width=length("the width of the finished unit"),
    height=length("the height of the finished unit"),
)
def triangle_in_square(story, width, height, seam):
    """How large are the triangle that fills a unit from edge to tip, and the rectangles of the long ones beside it?"""
    middle = story.draw(
        "Draw the finished triangle. Its base is the unit's lower edge, its tip the middle of the upper one.",
        [(0, 0), (width, 0), (width / 2, height)],
        ("slanting side", root((width / 2) ** 2 + height**2)),
    )
    cut = story.move(middle, seam)
    story.read("triangle across", "Read the base between the two moved slanting sides.", cut, 0, 1)
    story.height("triangle up", "Read the height up to the moved tip.", cut, 0, 2)
    story.give(
        "strip",
        "What stands out past the unit's upper edge is an ear: a strip as high as the unit with its seams will do, and "
        "the tip is then blunt.",
        height + 2 * seam,
        "height + 2 × seam",
    )
    side = story.draw("Draw one of the finished long triangles beside it.", right_triangle(width / 2, height))
    cut = story.move(side, seam)
    story.read("rectangle across", "Read its short leg: one side of the rectangle to cut once.", cut, 0, 1)
    story.read("rectangle up", "Read its long leg: the other. Half the rectangles are cut the other way.", cut, 0, 2)


@proof(
    "Snowball corner",
    finished=length("the side of the finished block"),
    corner=length("the leg of the finished corner", within=[(2, "finished")]),
)
def snowball(story, finished, corner, seam):
    """How large are the squares whose diagonal seam makes the corner of a snowball block?"""
    _folded_corner(story, corner, seam, "corner square")
    block = story.draw("Draw the finished block.", square(finished))
    story.read("block square", "The large square is the whole block with its seams.", story.move(block, seam), 0, 1)


@proof("Hourglass", finished=length("the side of the finished unit"))
def hourglass(story, finished, seam):
    """How large are the two squares that give two hourglass units, sewn and cut twice?"""
    quarter = story.draw("Draw one of the four finished triangles: its long side is the unit's side.", _goose(finished))
    large = story.read(
        "square",
        "In the end each square has been cut on both diagonals: its side is this long side.",
        story.move(quarter, seam),
        0,
        1,
    )
    half = story.draw(
        "On the way, the two squares have been sewn and cut once: a half-square unit. Draw the "
        "triangle cut from a square of that size, and move only its slanting side in by the "
        "seam that was sewn.",
        right_triangle(large, large),
    )
    sewn = story.move(half, [0, -seam, 0], "The legs stay raw, the slanting side is sewn: it moves in by one seam.")
    story.read(
        "half-square unit", "Read the leg: the size to trim the half-square unit to before it is cut again.", sewn, 0, 1
    )


@proof("Half-square triangles, two at a time", finished=length("the side of the finished unit"))
def half_squares_two(story, finished, seam):
    """How large are two squares, sewn one seam to either side of a diagonal and cut on it, for two units?"""
    triangle = story.draw(
        "The cut runs on the diagonal and the seams beside it, so each half is a triangle "
        "cut from the square once. Draw that triangle, finished.",
        right_triangle(finished, finished),
    )
    story.read("square", "Its leg, with its seams, is the side of both squares.", story.move(triangle, seam), 0, 1)


@proof("Half-square triangles, four at a time", finished=length("the side of the finished unit"))
def half_squares_four(story, finished, seam):
    """How large are two squares, sewn all round and cut on both diagonals, for four units?"""
    long_side = story.tidy(root(finished**2 + finished**2))
    story.say(
        "The seams lie along the squares' edges, so the long side of each triangle is an edge of the "
        "square: each triangle is a quarter of its square, and the units' outer edges are bias.",
        ("long side", "√(finished² + finished²)", long_side),
    )
    triangle = story.draw("Draw the finished triangle on its long side.", _goose(long_side))
    square_ = story.read(
        "square", "The long side, with its seams, is the side of both squares.", story.move(triangle, seam), 0, 1
    )
    story.give(
        "factor",
        "The unit with its seams, as a share of the square. The seams do not grow with the square, so "
        "this is no constant: a factor that is right for one size is wrong for the next.",
        (finished + 2 * seam) / square_,
        "(finished + 2 × seam) / square",
        kind="number",
    )


@proof(
    "What four half-square triangles come to",
    square=length("the side of the squares as cut", seams=4),
    rules={"unfinished": lambda square, seam: square * 64 / 100},
)
def four_from_a_square(story, square, seam):
    """What size of unit do two squares give, sewn all round and cut on both diagonals?"""
    quarter = story.draw("Draw a quarter of the square as it is cut: its long side is the raw edge.", _goose(square))
    sewn = story.move(
        quarter, [-seam, 0, 0], "Only the long side has been sewn: it moves in by one seam. The two legs stay raw."
    )
    story.read(
        "unfinished", "Read a leg, raw tip to seam: this is the side of the unit before it is sewn in.", sewn, 0, 2
    )
    shown = story.move(quarter, -seam, "Sewn into the block, the two legs move in by a seam as well.")
    story.read("finished", "Read the leg again: this is what the unit shows.", shown, 0, 2, kind="length")
    story.give(
        "factor",
        "The unfinished unit as a share of the square. It grows with the square towards 1 / √2 and is "
        "the popular factor 0.64 for one size only.",
        story.measures["unfinished"].formula / square,
        "unfinished / square",
        kind="number",
    )


@proof("Half-square triangles, eight at a time", answer="square", finished=length("the side of the finished unit"))
def half_squares_eight(story, finished, seam):
    """How large are two squares, sewn beside both diagonals and cut into eight, for eight units?"""
    triangle = story.draw(
        "Both diagonals and both middle lines are cut: each quarter of the square is a "
        "small square cut once on its diagonal. Draw the finished triangle.",
        right_triangle(finished, finished),
    )
    small = story.read(
        "small square",
        "Its leg, with its seams, is the side of a quarter of the large square.",
        story.move(triangle, seam),
        0,
        1,
    )
    story.give(
        "square", "The large square is two quarters wide: the seam's share counts twice.", 2 * small, "2 × small square"
    )


def _folded_corner(story, leg, seam, name):
    """The square that is sewn across its diagonal and folded over, for a corner with this finished leg."""
    corner = story.draw(
        "Draw the square whose diagonal is the seam. What it shows once folded is half of "
        "it, but the whole square is laid on the patch, so the whole square is drawn.",
        square(leg),
        ("leg", leg),
    )
    cut = story.move(
        corner,
        seam,
        "Its outer sides lie on the patch's raw edges: move all four out by one seam. The "
        "diagonal runs on from corner to corner, so it is still the seam.",
    )
    story.read(name, "Read its side.", cut, 0, 1)


def _goose(long_side):
    """A quarter of a square, lying on its long side."""
    return [(0, 0), (long_side, 0), (long_side / 2, long_side / 2)]
