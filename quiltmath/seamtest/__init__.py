"""What a strip test says: of the seam, apart from the strips, and of the quilt that is sewn like it.

Strips are sewn side by side, pressed and measured twice: all of them together, and one in the middle between its seams.
The total is all strips less two allowances a seam; the centre is one strip less its two allowances. Two measures, two
unknowns: how wide the strips really are (the ruler's part) and how much each allowance really takes (the needle's part,
the fold of the pressed seam included).

    >>> test = from_strips(strip="1 1/2", count=3, total="3 3/8", centre="15/16")
    >>> test.cut, test.taken, test.ruler, test.needle
    (Fraction(3, 2), Fraction(9, 32), Fraction(0, 1), Fraction(1, 32))
    >>> print(test.advice)
    Each allowance takes 9/32 in, 1/32 in too much: sew with a narrower seam. The strips are 1 1/2 in wide, as they \
should be.
    >>> grown(test.needle, seams=47)
    Fraction(47, 16)
    >>> [one.name for one in class_sheet("Ana, 3 1/2, 1\\nBea, 3 3/8, 15/16").readings]
    ['Ana', 'Bea']
"""

from ..usual import SEAM
from .classes import ClassSheet, Reading, Refused, class_sheet, with_reading
from .strips import (
    MOST,
    SEAM_OFF,
    Expected,
    SeamTest,
    expected,
    from_strips,
    give_or_take,
    grown,
    near,
    plausible,
    scattered,
    seams_that_fit,
)

__all__ = [
    "MOST",
    "SEAM",
    "SEAM_OFF",
    "ClassSheet",
    "Expected",
    "Reading",
    "Refused",
    "SeamTest",
    "class_sheet",
    "expected",
    "from_strips",
    "give_or_take",
    "grown",
    "near",
    "plausible",
    "scattered",
    "seams_that_fit",
    "with_reading",
]
