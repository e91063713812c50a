"""Strips for binding: bias strips, joins on the diagonal, continuous bias from a square.

>>> bias_strip.exact(width=2), continuous_bias.exact(square=12, width=2)
(2*sqrt(2), 529/8)
>>> diagonal_join.cut(strip=10, width=3, strips=2)
Fraction(17, 1)
>>> continuous_bias.thumb(), continuous_bias.trade(square=12, width=2)
('square² / width', 72)
"""

from quiltmath.proofs.proof import proof
from quiltmath.proofs.quantity import count, length
from quiltmath.proofs.story import root

WIDTH = "the width of the strip as cut"


@proof("Bias strip along the selvage", width=length(WIDTH))
def bias_strip(story, width):
    """How much of the selvage does one bias strip take?"""
    reach = story.tidy(root(width**2 + width**2))
    story.draw(
        "Draw the strip between two lines at 45 degrees to the selvage. Straight across it measures "
        "its width; along the selvage it measures the long side of a triangle with two legs of that "
        "width.",
        [(0, 0), (reach, 0), (2 * reach, reach), (reach, reach)],
    )
    story.give(
        "along the selvage",
        "Pythagoras gives the step from one mark to the next: more than the strip is wide.",
        reach,
        "√(width² + width²)",
        at=((0, 0), (reach, 0)),
    )


@proof("Length of a bias strip across the fabric", across=length("the usable width of the fabric"))
def bias_length(story, across):
    """How long is a bias strip that runs from selvage to selvage?"""
    story.draw(
        "Draw the strip's line across the fabric: at 45 degrees it runs as far along the fabric as across.",
        [(0, 0), (across, 0), (across, across)],
    )
    story.give(
        "strip",
        "The line is the diagonal of a square as wide as the fabric.",
        root(across**2 + across**2),
        "√(across² + across²)",
        kind="length",
        at=((0, 0), (across, across)),
    )


@proof(
    "Strips joined on the diagonal",
    answer="length",
    strip=length("the length of each strip"),
    width=length(WIDTH, within=[(1, "strip")]),
    strips=count("strips joined"),
)
def diagonal_join(story, strip, width, strips):
    """How long are strips that are joined end to end on the diagonal?"""
    story.draw(
        "Lay the ends of two strips across each other, square, right sides together: they share a "
        "square of the strip's width. The seam is its diagonal.",
        [(0, 0), (width, 0), (width, width), (0, width)],
    )
    lost = story.give(
        "lost in a join",
        "Folded open, the second strip starts where the diagonal starts and not at its own "
        "end: in the middle of the strip, half of the square is lost from each of the two, "
        "whatever the allowance is trimmed to.",
        width / 2 + width / 2,
        "width / 2 + width / 2",
        kind="length",
    )
    story.give(
        "length",
        "There is one join less than there are strips.",
        strips * strip - (strips - 1) * lost,
        "strips × strip − (strips − 1) × lost in a join",
        kind="length",
    )


@proof(
    "Continuous bias from a square",
    answer="length",
    square=length("the side of the square as cut", seams=4),
    width=length(WIDTH, within=[(1, "square")]),
    rules={"length": lambda square, width, seam: square**2 / width},
)
def continuous_bias(story, square, width, seam):
    """How much bias does a square give at the most, cut on its diagonal, sewn to a tube and cut in one go?"""
    _tube(story, square, seam)
    between, along = (story.measures[name].formula for name in ("between the bias edges", "along each line"))
    story.give(
        "length",
        "Lines a strip's width apart fill the one; each is as long as the other.",
        story.factored(along * between / width),
        "along each line × between the bias edges / width",
        kind="length",
        plain=True,
    )
    story.give(
        "by area",
        "The fabric itself, without seams: the printed rule, which the two seams make too large.",
        square**2 / width,
        "square² / width",
        kind="length",
    )


@proof(
    "The square for a length of continuous bias",
    length=length("the length of bias wanted"),
    width=length(WIDTH),
    rules={"square": lambda length, width, seam: root(length * width)},
)
def continuous_bias_square(story, length, width, seam):
    """How large a square gives so much continuous bias?"""
    story.say(
        "A square gives at most the strip that fills what its two seams leave (the proof of continuous bias).",
        ("length", "(square − 2 × seam)² / width"),
    )
    story.give(
        "square",
        "Turn it round: the square is the root of the strip's area, and the two seams.",
        root(length * width) + 2 * seam,
        "√(length × width) + 2 × seam",
    )


@proof(
    "Binding",
    answer="strips",
    width=length("the width of the finished quilt", seams=0),
    height=length("the height of the finished quilt", seams=0),
    strip=length(WIDTH, within=[(2, "usable_width")]),
    usable_width=length("the usable width of the fabric", seams=0),
    extra=length("what is added for corners and closing", seams=0, zero=True),
)
def binding(story, width, height, strip, usable_width, extra):
    """How many strips does a binding take, cut across the fabric and joined on the diagonal?"""
    story.draw(
        "Draw the quilt. The binding's raw edge runs along its edge. A mitred corner is folded and uses no length.",
        [(0, 0), (width, 0), (width, height), (0, height)],
    )
    round_ = story.give("perimeter", "Twice the width and twice the height.", 2 * (width + height), kind="length")
    story.give(
        "least extra",
        "Closing the ring takes one more join on the diagonal: one strip's width. What else is added "
        "is room for handling.",
        strip,
        kind="length",
    )
    total = story.give("length", "With what you add.", round_ + extra, "perimeter + extra", kind="length")
    joined = story.give(
        "strips, not rounded",
        "Each strip loses its width in its join.",
        total / (usable_width - strip),
        "length / (usable_width − strip)",
        kind="number",
    )
    strips = story.give("strips", "Strips come whole.", story.whole(joined), kind="count", plain=True)
    story.give(
        "fabric",
        "Cut side by side, that is this much along the selvage.",
        strips * strip,
        "strips × strip",
        kind="length",
        plain=True,
    )
    story.give("area", "Length times width: what the strips cover.", total * strip, "length × strip", kind="number")
    story.give(
        "bias square",
        "A square of that area: the printed rule for the fabric of a bias binding.",
        root(total * strip),
        "√area",
        kind="length",
    )


def _tube(story, square, seam):
    """The square cut on its diagonal and joined: how wide it is between its bias edges, how long each
    line."""
    story.draw("Draw the square and cut it on its diagonal.", [(0, 0), (square, 0), (square, square), (0, square)])
    left = [(0, 0), (square, 0), (square, square)]
    shift = square - 2 * seam
    right = [(shift, story.number(0)), (shift + square, square), (shift, square)]
    story.say(
        "Sew one pair of straight edges together: one triangle moves along by the square's side, less "
        "the two allowances of the seam.",
        ("moved by", story.tidy(shift)),
    )
    story.show("One seam sewn: a leaning shape with two bias edges", lambda: [("cloth", left), ("cloth", right)])
    story.say(
        "The two bias edges now lie on two lines at 45 degrees: one where it was, one moved along by that much.",
        ("the upper line y", "x"),
        ("the lower line y", f"x − ({story.text(shift)})"),
    )
    story.give(
        "between the bias edges",
        "Square across, that is the leg of a triangle whose long side is the move.",
        shift / root(story.number(2)),
        "(square − 2 × seam) / √2",
        kind="length",
    )
    story.say(
        "The second seam joins the bottom edge to the top edge and takes an allowance from each.",
        ("between the second seam's two lines", story.tidy(square - 2 * seam)),
    )
    story.give(
        "along each line",
        "A line at 45 degrees between them is the diagonal of a square that high.",
        root(story.number(2)) * (square - 2 * seam),
        "√2 × (square − 2 × seam)",
        kind="length",
    )
