"""The review as text for a terminal: the verdict first, then each finding with what to do."""

from textwrap import fill

from .reviewing import Review

VERDICTS = {
    "go": "GO: nothing in this pattern stands against cutting.",
    "ask": "ASK FIRST: settle what follows before you cut.",
    "stop": "STOP: do not cut. As printed, this pattern does not work.",
}
LEVEL_WORDS = {"stop": "Stop", "ask": "Ask", "note": "Note"}
WIDTH = 96


def text(review: Review) -> str:
    """The review in words.

    >>> from quiltmath import pattern
    >>> from quiltmath.pattern.sheet import EXAMPLE
    >>> from quiltmath.review import review
    >>> print(text(review(pattern.read_text(EXAMPLE))).splitlines()[1])
    ASK FIRST: settle what follows before you cut.
    """
    lines = [printable(review.sheet.title), VERDICTS[review.verdict], comes_to(review)]
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
        lines.append(f"  why: {finding.why.command}")
    return "\n".join(lines)


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
