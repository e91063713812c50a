"""What is usual where nothing is said: each of the trade's figures stands here once, and so do the kit's own limits."""

from fractions import Fraction

SEAM_IN = {"in": Fraction(1, 4), "cm": Fraction(3, 4), "mm": Fraction(15, 2)}
"""The seam where none is given, in each unit: a quarter inch, and the 0.75 cm of metric patterns (common practice)."""

SEAM = SEAM_IN["in"]
"""The quarter-inch seam, in inches."""

RULER = {"in": "1/8", "cm": "1 mm", "mm": "1 mm"}
"""The ruler's step to which a size is cut, for each unit."""

MEASURED = {"in": "1/16", "cm": "1 mm", "mm": "1 mm"}
"""The ruler's step to which a length is measured and told."""

SHOP = {"in": "yd", "cm": "m", "mm": "m"}
"""What fabric is sold in, by the units of a pattern (common practice)."""

TO_BUY = {"in": "1/8 yd", "cm": "10 cm", "mm": "10 cm"}
"""The steps in which it is cut off the bolt (common practice)."""
PRINTED = {"in": ("1", "1/2", "1/4", "1/8"), "cm": ("1 cm", "0.5 cm", "1 mm"), "mm": ("1 cm", "5 mm", "1 mm")}
"""The steps of the ruler in which finished sizes are printed, the roundest first, for each unit (common practice)."""

EASED = Fraction(1, 16)
"""Inches: two edges that differ by less are eased together (common practice, no source)."""

TRIMMED = Fraction(3)
"""Inches: a border strip cut longer than its edge by less is trimmed after sewing (common practice, no source)."""

SEAMS = {
    "in": tuple(Fraction(eighths, 8) for eighths in (2, 3, 4, 5)),
    "cm": tuple(Fraction(cm) * Fraction(50, 127) for cm in ("0.75", "0.6", "0.635", "0.7", "1", "1.5", "0.5")),
}
"""Inches: the seams that patterns in either unit are sewn with, the most usual first (common practice)."""

TAKEN_UNTOLD = {"in": 1, "cm": 4}
"""So many of the `SEAMS` are what quilters take who are told nothing: a quarter inch; 0.6 to 0.75 cm."""

WIDTHS = Fraction(40), Fraction(42), Fraction(44)
"""Inches: the usable widths of fabric that printed figures assume; where none is given, any of them may be meant."""

HALVED_WIDTHS = WIDTHS[1:]
"""Inches: the widths of fabric that is cut in two for fat quarters, 21 or 22 in wide then (common practice)."""

LEAST_PIECE = Fraction(1)
"""Inches: no precut strip or square is narrower (common practice)."""

PRINTED_ROUND = 33 / 64
"""Inches: a printed quilt size may be rounded to the inch, or leave its outer seam in."""

LEAST_WIDTH = WIDTHS[0]
"""Inches: the usable width of fabric taken where one is wanted and none is given, the least of the usual ones."""

OVER = {"in": (Fraction(4), Fraction(8)), "cm": tuple(Fraction(cm) * Fraction(50, 127) for cm in (10, 20))}
"""Inches: how much larger than the quilt backing and batting are, both sides together, at the least and as is usual,
in patterns of either unit (in inches see `yardage`; in centimetres common practice)."""

BARE_SEAM = Fraction(1, 10), Fraction(3, 5)
"""Inches: the seams that are meant where no unit is typed; others may be in another unit (common practice)."""

BARE_WIDTHS = {
    "fabric": {"in": (Fraction(8), Fraction(62)), "cm": (Fraction(24), Fraction(65))},
    "lining": {"in": (Fraction(8), Fraction(125)), "cm": (Fraction(24), Fraction(130))},
}
"""Inches: the usable widths that are meant where no unit is typed, in sheets of either unit (common practice)."""

WIDEST_ROLL = Fraction(130)
"""Inches: no fabric and no batting is wider (common practice: 120)."""

MOST_ACROSS = 400
"""No quilt has more blocks than this in one direction."""

MOST_PATCHES = 100_000
"""No quilt has more patches than this: about five times the largest that a person pieces."""

MOST_HANDLED = 5 * MOST_PATCHES
"""All that is made on the way to a quilt, its patches counted anew in each block, step and border, has no more."""

MOST_SEAMS = 3_000
"""No sheet has more seams than this that are all different: a picture of 50 by 60 squares, told square by square."""

MOST_NAMED = 20_000
"""The rows of a sheet name no more parts than this, equal rows counted again."""

MOST_LINES = 2_000
"""Lines of the cutting list times sizes of the pattern."""

MOST_TABLES = 500
"""Fabrics, units, blocks and strip sets, each: as many as a cutting list has lines."""

DEEPEST = 15
"""No block is made of blocks in more stages than this."""
