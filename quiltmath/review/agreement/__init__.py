"""Whether the printed numbers of a sheet agree with one another, and which of them does not: plain arithmetic.

`measures` adds up what panels finish from printed numbers, `agreements` holds those sums against each other. `culprit`
looks for the one number (or two that stand in each other's place) whose correction makes everything agree; `table`
knows what is off and what a correction does to it, `corrections` says which are worth trying. Of a sheet that prints no
seam, or a wrong one, `seam` finds the one with which they agree.
"""

from .agreed import Agreement
from .agreements import agreements
from .culprit import ALIKE_IN, Correction, Culprit, Unexplained, culprits, told_at_once
from .figures import Figure, Sum
from .measures import Measures
from .met_exactly import MetExactly, met_exactly
from .miscounted import Miscounted, miscounted
from .seam import FoundSeam, found_seam, other_seam

__all__ = [
    "ALIKE_IN",
    "Agreement",
    "Correction",
    "Culprit",
    "Figure",
    "FoundSeam",
    "Measures",
    "MetExactly",
    "Miscounted",
    "Sum",
    "Unexplained",
    "agreements",
    "culprits",
    "found_seam",
    "met_exactly",
    "miscounted",
    "other_seam",
    "told_at_once",
]
