"""Strips that end at 45 degrees (frames and mitres), and blocks cut in half.

>>> frame_end.equation, mitred_strip.cut(side=40, width=5)
('strip = leg + width + (2 + √2) × seam', Fraction(205, 4))
>>> half_block_loss.exact(block=12), half_block_loss.exact("finished leg", block=12)
(sqrt(2)/4, 12 - sqrt(2)/4)
"""

from quiltmath.proofs.proof import proof
from quiltmath.proofs.quantity import length
from quiltmath.proofs.story import root
from quiltmath.shapes import right_triangle

FRAME = "the finished width of the frame"


@proof(
    "Frame strip with one 45-degree end", leg=length("the finished side it is sewn to"), width=length(FRAME, seams=1)
)
def frame_end(story, leg, width, seam):
    """How long is a frame strip cut that is square at one end and trimmed at 45 degrees at the other?"""
    shape = story.draw(
        "Draw the finished strip. Its inner side is as long as what it is sewn to; the "
        "45-degree end runs on past it, as far along as the strip is wide.",
        [(0, 0), (leg + width, 0), (leg, width), (0, width)],
        ("outer side", leg + width),
    )
    cut = story.move(shape, seam)
    story.read(
        "strip",
        "Read the outer, longer side, square end to sharp tip: the shortest strip that reaches past "
        "the trim. The seam's share is the half-square triangle's, because the two ends are its two "
        "corners.",
        cut,
        0,
        1,
    )
    story.height("strip width", "Read the width of the strip.", cut, 0, 3)


@proof(
    "Frame strip with two 45-degree ends", leg=length("the finished side it is sewn to"), width=length(FRAME, seams=1)
)
def frame_both_ends(story, leg, width, seam):
    """How long is a frame strip cut that is trimmed at 45 degrees at both ends?"""
    _two_ends(
        story,
        leg,
        width,
        seam,
        "Its inner side is as long as what it is sewn to; each 45-degree end runs on past it, as far "
        "along as the strip is wide.",
    )


@proof(
    "Mitred border strip",
    side=length("the finished side of the quilt inside the border"),
    width=length("the finished width of the border", seams=1),
    rules={"strip": lambda side, width, seam: side + 2 * width + 6},
)
def mitred_strip(story, side, width, seam):
    """How long is a border strip cut at the least, when its corners are mitred?"""
    _two_ends(
        story,
        side,
        width,
        seam,
        "Its inner side is the side of the quilt; in each corner two strips share a square of the "
        "border's width, halved by the mitre, so each reaches over all of it.",
    )


@proof("A block cut exactly on its diagonal", block=length("the side of the finished block"))
def half_block_loss(story, block, seam):
    """What is lost when a finished block is cut exactly on its diagonal and the halves are sewn in?"""
    triangle = story.draw(
        "Draw half of the finished block. Its two legs have their seam outside them, as "
        "the block was made; the diagonal has none, because the cut ran on it.",
        right_triangle(block, block),
        ("long side", story.tidy(root(block**2 + block**2))),
    )
    shown = story.move(
        triangle,
        [0, -seam, 0],
        "When the half is sewn in, the seam along the cut takes its allowance out of the "
        "picture: the slanting side moves in by one seam, the legs stay.",
    )
    leg = story.tidy(shown[1][0] - shown[0][0])
    story.give(
        "leg lost",
        "Each leg ends where the moved side crosses it: this much of it is gone, and with it every "
        "point that met the diagonal.",
        block - leg,
        f"block − ({story.text(leg)})",
        kind="length",
    )
    story.give("finished leg", "What is left of the leg.", leg, kind="length")
    story.read("long edge", "What is left of the diagonal, read along the moved side.", shown, 2, 1, kind="length")
    story.give("seam to add", "The half keeps its size only if the cut runs this far outside the diagonal.", seam)


@proof("A block cut one seam past its diagonal", block=length("the side of the finished block"))
def half_block_past(story, block, seam):
    """What do the two halves come to when the cut runs one seam beside the diagonal?"""
    half = right_triangle(block, block)
    kept = story.draw("Draw the half that keeps the seam: one seam of fabric lies outside its diagonal.", half)
    raw = story.move(
        kept, [0, seam, 0], "The cut runs one seam outside the diagonal.", title="The cut runs one seam outside"
    )
    sewn = story.move(
        raw,
        [0, -seam, 0],
        "Sewn in, the seam takes it back: the slanting side is on the diagonal again.",
        title="Sewn in, it is on the diagonal again",
    )
    story.width("kept leg", "The kept half is whole.", sewn, 0, 1, kind="length")
    other = story.draw("Draw the other half: the cut ran one seam inside its diagonal.", half)
    shown = story.move(
        other,
        [0, -2 * seam, 0],
        "Sewn in, it loses a second seam: its slanting side has moved in by two.",
        title="The other half moves in by two seams",
    )
    leg = story.tidy(shown[1][0] - shown[0][0])
    story.give(
        "other leg lost",
        "The other half gives the leg that much less: only one half of each block can be used.",
        block - leg,
        f"block − ({story.text(leg)})",
        kind="length",
    )
    story.give("other leg", "What is left of its leg.", leg, kind="length")


def _two_ends(story, inner, width, seam, words):
    """A strip with two 45-degree ends, read along its longer side."""
    outer = inner + 2 * width
    shape = story.draw(
        f"Draw the finished strip on its outer side. {words}",
        [(0, 0), (outer, 0), (inner + width, width), (width, width)],
        ("outer side", outer),
    )
    cut = story.move(shape, seam)
    story.read(
        "strip",
        "Read the outer side from sharp tip to sharp tip. The seam's share is the quarter-square "
        "triangle's, because the two ends are its two sharp corners. Any more is for handling.",
        cut,
        0,
        1,
    )
    story.height("strip width", "Read the width of the strip.", cut, 0, 3)
