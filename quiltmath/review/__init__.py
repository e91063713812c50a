"""The review: a pattern sheet read before anyone cuts.

    >>> from quiltmath import pattern, review
    >>> from quiltmath.pattern.sheet import EXAMPLE
    >>> found = review.review(pattern.read_text(EXAMPLE))
    >>> found.verdict, [finding.check for finding in found.findings]
    ('ask', ['not-stated', 'not-stated'])

Each check is a small class that reads one thing off the sheet and its sewn cloth (`checks`); `review` runs them all in an
order in which a cause comes before what follows from it.
"""

from .checks import CHECKS
from .finding import LEVELS, Finding, Review
from .putting_right import PutRight, put_right
from .reading import review

__all__ = ["CHECKS", "LEVELS", "Finding", "PutRight", "Review", "put_right", "review"]
