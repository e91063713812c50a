"""What a case may come to: a word for what came of it, or one message."""

LONGEST_MESSAGE = 1000


class Wrong(AssertionError):
    """A case that came to what it must not."""


def message(problem, place):
    """What a refusal says, which is one line for a person that names the place."""
    said = str(problem)
    if not said.startswith(place) or not said.isprintable() or len(said) > LONGEST_MESSAGE:
        raise Wrong(f"no message of one line that begins with {place!r}: {said[:LONGEST_MESSAGE]!r}")
    return "refused"


def lines_that_print(words):
    """These words, whose lines must all be printable."""
    if any(not line.isprintable() for line in words.split("\n")):
        raise Wrong(f"words that do not print: {words[:LONGEST_MESSAGE]!r}")
    return words
