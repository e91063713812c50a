"""Whether the printed numbers of a sheet agree with one another, and which of them does not: plain arithmetic.

`measures` adds up what panels finish from printed numbers, `agreements` holds those sums against each other, `culprit`
looks for the one number (or two that stand in each other's place) whose correction makes everything agree.
"""

from .agreements import Agreement, agreements
from .culprit import Correction, Culprit, Unexplained, culprits
from .figures import Figure, Sum
from .measures import Measures
from .miscounted import Miscounted, miscounted

__all__ = [
    "Agreement",
    "Correction",
    "Culprit",
    "Figure",
    "Measures",
    "Miscounted",
    "Sum",
    "Unexplained",
    "agreements",
    "culprits",
    "miscounted",
]
