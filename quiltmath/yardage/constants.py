"""What is taken where nothing else is said, and the least that will do: one place, each with its source.

Where a printed rule is the source it is named; "common practice" has no printed source. All are inches.
"""

from fractions import Fraction

from .. import usual
from ..usual import LEAST_WIDTH

USABLE_WIDTH = LEAST_WIDTH
"""The usable width taken where none is given."""

FAT_QUARTER = Fraction(21), Fraction(18)
"""A fat quarter: half the usable width, half a yard. 18 × 21 or 18 × 22 in by source; the smaller one is relied on."""

SEAM = usual.SEAM
"""The seam of a straight join of two strips (common practice, no source); the join takes one from either strip."""

EXTRA = Fraction(10)
"""Added to the perimeter of a binding where nothing else is said: corners, closing, handling.

Two of the printed rules add 10 ("Quilty Math", christaquilts.com; "Continuous bias chart", McCall's Quilting); printed
rules range from 2 to 24.
"""

LEAST_EXTRA = Fraction(2)
"""The least that a printed rule adds to the perimeter of a binding: less does not close (printed rules: 2 to 24)."""

OVER = usual.OVER["in"][1]
"""How much larger than the quilt backing and batting are, both sides together, where nothing else is said.

8 in all: "Backing preparation", mmmquilts blog, and "Backing posts", cowtownquilts.com. Printed rules range from 4 to
12.
"""

LEAST_OVER = usual.OVER["in"][0]
"""The least that a printed rule adds to the quilt for backing and batting, both sides together (4 to 12)."""

BACKING_SEAM = Fraction(1, 2)
"""The seam of a backing where nothing else is said (common practice, no source)."""

STRAIGHTENED = Fraction(1)
"""What straightening the ends of a bought length takes (common practice, no source)."""

MOST_SHRUNK = 20
"""Percent: no fabric is taken to shrink by more in the wash (printed: 3 to 8)."""

MOST_PANELS = 20
"""No backing is asked for in more panels than this: whatever is, is a slip."""

USUAL_PANELS = 6
"""A bought length is tried as a backing in no more panels than this (common practice, no source)."""

BROADEST_JOINED = Fraction(1, 2)
"""Only strips are joined to length: pieces no broader than this share of the usable width (common practice, no
source)."""
