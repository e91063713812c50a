"""The review: a pattern sheet read before anyone cuts.

    >>> from quiltmath import pattern, review
    >>> from quiltmath.pattern.sheet import EXAMPLE
    >>> found = review.review(pattern.read_text(EXAMPLE))
    >>> found.verdict, [finding.check for finding in found.findings]
    ('ask', ['not-stated', 'not-stated'])

A sheet is read once (`reading.Reading`): its cloth, the plan of each fabric and the size each part needs are worked out
when first asked for and kept. Each check is a small class that looks at one thing of that (`checks`); `review` runs
them all in an order in which a cause comes before what follows from it. `corrected` gives the same pattern with numbers
that pass.
"""

from .checks import CHECKS
from .correction import Correction, corrected
from .finding import LEVELS, Change, Finding
from .reviewing import Review, review

__all__ = ["CHECKS", "LEVELS", "Change", "Correction", "Finding", "Review", "corrected", "review"]
