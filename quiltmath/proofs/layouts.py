"""Quilts set on point: how many pieces, and how large, with and without sashing.

>>> on_point.exact("blocks", across=5, down=6, block=9), on_point.exact(across=5, down=6, block=9)
(50, 45*sqrt(2))
>>> sashed_on_point.exact("sashes", across=3, down=4, block=9, sash=2)
48
"""

from quiltmath.proofs.proof import proof
from quiltmath.proofs.quantity import count, length
from quiltmath.proofs.story import root
from quiltmath.shapes import moved_out, right_triangle

ACROSS, DOWN = "blocks along the top row", "blocks along the side"
BLOCK = "the side of the finished block"


@proof("Diagonal of a square", finished=length("the side of the square"))
def diagonal(story, finished):
    """How wide is a square that stands on its point?"""
    story.draw(
        "Draw the square and its diagonal: with two sides it makes a triangle with a right angle.",
        [(0, 0), (finished, 0), (finished, finished), (0, finished)],
    )
    story.give(
        "diagonal",
        "Pythagoras: its square is the sum of two squares.",
        root(finished**2 + finished**2),
        "√(finished² + finished²)",
        kind="length",
        at=((0, 0), (finished, finished)),
    )


@proof("Quilt set on point", across=count(ACROSS), down=count(DOWN), block=length(BLOCK, seams=0))
def on_point(story, across, down, block):
    """How large is a quilt set on point, and how many blocks and triangles does it take?"""
    wide = story.tidy(root(block**2 + block**2))
    story.say("A block on point is as wide and as high as its diagonal.", ("diagonal", "√(block² + block²)", wide))
    story.show("The finished quilt", lambda: _quilt(across, down, wide))
    width = story.give(
        "width", "Blocks stand side by side, point to point.", across * wide, "across × diagonal", kind="length"
    )
    height = story.give("height", "And one below the other.", down * wide, "down × diagonal", kind="length")
    blocks = story.give(
        "blocks",
        "These blocks stand in rows and columns; in every gap among four of them stands another.",
        across * down + (across - 1) * (down - 1),
        "across × down + (across − 1) × (down − 1)",
        kind="count",
    )
    sides = story.give(
        "side triangles",
        "Between two blocks at an edge there is one triangle: one fewer than blocks, at top "
        "and bottom, left and right.",
        2 * (across - 1) + 2 * (down - 1),
        "2 × (across − 1) + 2 × (down − 1)",
        kind="count",
    )
    corners = story.give("corner triangles", "A quilt has four corners.", story.number(4), kind="count")
    story.agree(
        "The count is right if the areas add up: a side triangle is half a block, a corner triangle a quarter.",
        blocks * block**2 + sides * block**2 / 2 + corners * block**2 / 4,
        width * height,
        "block² × (blocks + side triangles / 2 + corner triangles / 4)",
        "width × height",
        width * height,
    )
    _squares(story, sides, corners)


@proof(
    "Sashed quilt set on point",
    answer="width",
    across=count(ACROSS),
    down=count(DOWN),
    block=length(BLOCK, seams=0),
    sash=length("the finished width of the sashing", seams=1),
)
def sashed_on_point(story, across, down, block, sash, seam):
    """How large is a quilt on point with sashing round every block, and where does its edge run?"""
    pitch = story.give(
        "pitch",
        "A block and one sash repeat: that is the step from cornerstone to cornerstone.",
        block + sash,
        kind="length",
    )
    wide = story.tidy(root(pitch**2 + pitch**2))
    story.say("On point the step is as wide as its diagonal.", ("diagonal of the pitch", wide))
    inner = story.give(
        "width",
        "One method lets the quilt's edge run through the centres of the outer cornerstones: "
        "blocks across, each a diagonal of the pitch wide.",
        across * wide,
        kind="length",
    )
    tall = story.give("height", "And down.", down * wide, kind="length")
    more = story.tidy(root(sash**2 + sash**2))
    story.say(
        "The other method keeps the cornerstones whole: the edge moves out by half a cornerstone's "
        "diagonal on each side.",
        ("diagonal of a cornerstone", more),
    )
    story.give(
        "width with whole cornerstones",
        "So the quilt is one cornerstone's diagonal wider.",
        inner + more,
        kind="length",
    )
    story.give("height with whole cornerstones", "And taller.", tall + more, kind="length")
    _sashed_counts(story, across, down)
    _edge_triangles(story, block, more / 2, seam)


def _sashed_counts(story, across, down):
    """Blocks, sashes, cornerstones, triangles of a sashed quilt on point."""
    story.give("blocks", "As without sashing.", across * down + (across - 1) * (down - 1), kind="count")
    story.give(
        "sashes",
        "Each block of the rows and columns has a sash on its four sides, and no two share one. The "
        "blocks in the gaps and the triangles lie against these same sashes.",
        4 * across * down,
        kind="count",
    )
    stones = story.give(
        "cornerstones",
        "Their centres are the points of those blocks: left and right points in every row, "
        "one more than blocks; top and bottom points in every column, one more than blocks.",
        (across + 1) * down + (down + 1) * across,
        "(across + 1) × down + (down + 1) × across",
        kind="count",
    )
    edge = story.give(
        "cornerstones on the edge",
        "The outermost of them lie on the edge: one for each block along each side.",
        2 * across + 2 * down,
        kind="count",
    )
    story.give("cornerstones inside", "The rest.", stones - edge, kind="count")
    sides = story.give("side triangles", "As without sashing.", 2 * (across - 1) + 2 * (down - 1), kind="count")
    corners = story.give("corner triangles", "A quilt has four corners.", story.number(4), kind="count")
    _squares(story, sides, corners)


def _edge_triangles(story, block, out, seam):
    """The setting triangles where the edge runs through cornerstone centres, and moved out by `out`."""
    side = right_triangle(block, block)
    story.draw(
        "Draw a side triangle where the edge runs through the cornerstones' centres: the edge then "
        "passes through two corners of the block that would stand there, so the triangle is half a "
        "block.",
        side,
    )
    whole = story.move(
        side,
        [0, out, 0],
        "For whole cornerstones its long side, the quilt's edge, moves out by half a cornerstone's diagonal.",
        "Move the quilt's edge out",
        "cloth",
    )
    leg = story.read("side triangle's leg", "Read its leg: block and sash together.", whole, 0, 1, kind="length")
    leg_corner = story.tidy(root(block**2 / 2))
    corner = right_triangle(leg_corner, leg_corner)
    story.draw("Draw a corner triangle the same way: a quarter of a block, with its legs on the quilt's edges.", corner)
    large = story.move(
        corner, [out, 0, out], "For whole cornerstones both legs move out.", "Move the quilt's edges out", "cloth"
    )
    long_side = story.read(
        "corner triangle's long side",
        "Read its long side: the block and a sash at each end.",
        large,
        2,
        1,
        kind="length",
    )
    story.give("side square", "Cut twice, for the edge through cornerstone centres.", _cut_twice(story, block, seam))
    story.give("corner square", "Cut once, for the edge through cornerstone centres.", _cut_once(story, block, seam))
    story.give(
        "side square with whole cornerstones",
        "Cut twice: the side triangle's proof with this leg.",
        _cut_twice(story, leg, seam),
    )
    story.give(
        "corner square with whole cornerstones",
        "Cut once: the corner triangle's proof with this long side.",
        _cut_once(story, long_side, seam),
    )


def _cut_twice(story, leg, seam):
    """The square cut twice for a triangle with this finished leg."""
    long_side = story.tidy(root(leg**2 + leg**2))
    cut = moved_out([(0, 0), (long_side, 0), (long_side / 2, long_side / 2)], seam)
    return cut[1][0] - cut[0][0]


def _cut_once(story, long_side, seam):
    """The square cut once for a triangle with this finished long side."""
    leg = story.tidy(root(long_side**2 / 2))
    cut = moved_out(right_triangle(leg, leg), seam)
    return cut[1][0] - cut[0][0]


def _squares(story, sides, corners):
    """The squares that side and corner triangles are cut from."""
    story.give(
        "squares for sides",
        "A square cut twice gives four side triangles; squares come whole.",
        story.whole(sides / 4),
        kind="count",
        plain=True,
    )
    story.give("squares for corners", "A square cut once gives two corner triangles.", corners / 2, kind="count")


def _quilt(across, down, wide):
    """The blocks of a finished quilt on point, and its outline, for a picture."""
    centres = [((i + 0.5) * wide, (j + 0.5) * wide) for i in range(across) for j in range(down)]
    centres += [(i * wide, j * wide) for i in range(1, across) for j in range(1, down)]
    half = wide / 2
    outline = [(0, 0), (across * wide, 0), (across * wide, down * wide), (0, down * wide)]
    return [
        ("finished", outline),
        *(("block", [(x, y - half), (x + half, y), (x, y + half), (x - half, y)]) for x, y in centres),
    ]
