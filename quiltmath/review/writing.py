"""The review as text for a terminal: the verdict first, then each finding with what to do; of many those that matter
first."""

from collections import Counter
from textwrap import fill

from .checks import CHECKS
from .finding import LEVELS, Finding
from .reviewing import Review

VERDICTS = {
    "go": "GO: nothing in this pattern stands against cutting.",
    "ask": "ASK FIRST: settle what follows before you cut.",
    "stop": "STOP: do not cut. As printed, this pattern does not work.",
}
BUY_MORE = "STOP: what it says to buy will not do. Buy or cut more, as told below."
LEVEL_WORDS = {"stop": "Stop", "ask": "Ask", "note": "Note"}
WIDTH = 96
MOST_TOLD = 12  # findings: of more, only those that matter first are told in full
FOREMOST = 3


def text(review: Review) -> str:
    """The review in words.

    >>> from quiltmath import pattern
    >>> from quiltmath.pattern.sheet import EXAMPLE
    >>> from quiltmath.review import review
    >>> print(text(review(pattern.read_text(EXAMPLE))).splitlines()[1])
    ASK FIRST: settle what follows before you cut.
    """
    lines = [printable(review.sheet.title), headline(review), comes_to(review)]
    told, rest = review.findings, Counter[str]()
    if len(told) > MOST_TOLD:
        told = foremost(review)
        rest = Counter(map(_called, review.findings)) - Counter(map(_called, told))
        lines.append(
            f"{len(review.findings)} findings. These {len(told)} matter first: put them right and review again, for "
            "others may follow from them."
        )
    for finding in told:
        lines += ["", f"{_called(finding)}, {printable(finding.where)}"]
        lines.append(_filled(printable(finding.message)))
        if finding.printed or finding.needed:
            lines.append(_filled(f"printed: {printable(finding.printed)}; needed: {printable(finding.needed)}"))
        lines.append(f"  why: {finding.why.command}")
    if rest:
        lines += ["", "Besides these:", *(f"  {called}: {count} more" for called, count in rest.items())]
        lines.append("A report (--save) or the plain data (--json) lists them all.")
    return "\n".join(lines)


def headline(review: Review) -> str:
    """The verdict in words: of a pattern of which only more must be bought or cut nobody says that it does not work."""
    stops = [finding for finding in review.findings if finding.level == "stop"]
    more = bool(stops) and all(finding.found_by.more_will_do and finding.fix for finding in stops)
    return BUY_MORE if more else VERDICTS[review.verdict]


def foremost(review: Review, most: int = FOREMOST) -> tuple[Finding, ...]:
    """The findings to settle first, `most` at most: the gravest; of these causes before their consequences, as the
    checks go; of one check what most pieces of the quilt depend on.

    >>> from quiltmath import pattern
    >>> from quiltmath.pattern.sheet import EXAMPLE
    >>> from quiltmath.review import review
    >>> [finding.check for finding in foremost(review(pattern.read_text(EXAMPLE)), 1)]
    ['not-stated']
    """
    order, counts = {check.name: number for number, check in enumerate(CHECKS)}, review.reading.counts

    def rank(finding):
        return LEVELS.index(finding.level), order[finding.check], -sum(counts[part] for part in finding.parts)

    return tuple(sorted(review.findings, key=rank)[:most])


def _called(finding):
    return f"{LEVEL_WORDS[finding.level]} ({finding.check})"


def _filled(words):
    return fill(words, WIDTH, initial_indent="  ", subsequent_indent="  ")


def comes_to(review: Review) -> str:
    """The size the quilt comes to, in a sentence."""
    size, meant, say = review.made.finished, review.reading.meant.made.finished, review.reading.ruler.sizes
    if size is not None:
        return f"Sewn as printed it finishes {say(size)}."
    if meant is not None:
        return f"Its edges do not meet as printed; with the sizes below corrected it finishes {say(meant)}."
    return "It cannot be sewn as printed."


def printable(words: str) -> str:
    """Text from a sheet without control characters, so that it cannot move the cursor or colour the terminal."""
    if words.isprintable():
        return words
    return "".join(char if char.isprintable() else "?" for char in words)
