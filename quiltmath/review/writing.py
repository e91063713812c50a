"""The review as text for a terminal: the verdict first, then each finding with what to do."""

from textwrap import fill

from .finding import Ruler

VERDICTS = {
    "go": "GO: nothing in this pattern stands against cutting.",
    "ask": "ASK FIRST: settle what follows before you cut.",
    "stop": "STOP: do not cut. As printed, this pattern does not work.",
}
LEVEL_WORDS = {"stop": "Stop", "ask": "Ask", "note": "Note"}
WIDTH = 96


def text(review):
    """The review in words.

    >>> from quiltmath import pattern
    >>> from quiltmath.pattern.sheet import EXAMPLE
    >>> from quiltmath.review import review
    >>> print(text(review(pattern.read_text(EXAMPLE))).splitlines()[1])
    ASK FIRST: settle what follows before you cut.
    """
    size = review.made.finished
    lines = [
        printable(review.sheet.title),
        VERDICTS[review.verdict],
        f"Sewn as printed it finishes {Ruler(review.sheet.units).sizes(size)}."
        if size
        else "It cannot be sewn as printed.",
    ]
    for finding in review.findings:
        lines += ["", f"{LEVEL_WORDS[finding.level]} ({finding.check}), {printable(finding.where)}"]
        lines.append(fill(printable(finding.message), WIDTH, initial_indent="  ", subsequent_indent="  "))
        if finding.printed or finding.needed:
            lines.append(
                fill(
                    f"printed: {printable(finding.printed)}; needed: {printable(finding.needed)}",
                    WIDTH,
                    initial_indent="  ",
                    subsequent_indent="  ",
                )
            )
        lines.append(f"  why: {reason(finding.why)}")
    return "\n".join(lines)


def reason(why):
    """How to see the reason: the command that prints the proof or opens the notebook."""
    return f"quiltmath open {why}" if why[:2].isdigit() else f"quiltmath why {why}"


def printable(words):
    """Text from a sheet without control characters, so that it cannot move the cursor or colour the terminal."""
    return "".join(char if char.isprintable() else "?" for char in words)
