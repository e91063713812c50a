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

EASED = Fraction(1, 16)
"""Inches: two edges that differ by less are eased together (common practice, no source)."""

LEAST_WIDTH = Fraction(40)
"""Inches: the usable width of fabric taken where none is given, the least that printed figures assume (40 to 44)."""

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

MOST_PATCHES = 200_000
"""No quilt has more patches than this: about ten times the largest that a person pieces."""
