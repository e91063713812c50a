"""Reading a sheet: its cloth is sewn once and every check looks at it."""
from .. import making
from .checks import CHECKS
from .finding import LEVELS, Review


def review(sheet):
    """Everything there is to say about a sheet before it is cut, gravest first.

    A check is left out for what an earlier one has already explained (see `checks.Check.after`).
    """
    made = making.make(sheet)
    findings = []
    for check in CHECKS:
        findings.extend(finding for finding in check.look(made, tuple(findings)) if finding is not None)
    return Review(made, tuple(sorted(findings, key=lambda finding: LEVELS.index(finding.level))))
