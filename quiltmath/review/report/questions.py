"""What to ask the designer: one question for each thing that stops a pattern or must be settled first."""

ASKED = {
    "cut-size": "Part {parts}: the pattern says {printed}, we work out {needed}. Is the printed size "
    "a slip, or is it sewn in another way?",
    "piece-count": "How many of {parts} should there be: {printed} as printed, or {needed}?",
    "no-allowance": "The cut runs through sewn patches ({printed}). Where is the seam allowance on that edge?",
    "lost-points": "Are the points along the edge meant to be cut off? If not, where is their seam allowance?",
    "bias-outside": "The outside of the quilt lies on the bias ({printed}). Is that meant, and how is it "
    "kept from stretching?",
    "wrong-triangles": "Triangles {parts}: the pattern says {printed}. Should they not be {needed}, so "
    "that the outside lies on the straight grain?",
    "strip-short": "Strip {parts} is cut {printed} and ends before its 45-degree trim. Should it be {needed}?",
    "edges-differ": "Two edges that are sewn together do not match ({printed}). Which part is printed in "
    "the wrong size?",
    "finished-size": "Which size is the finished quilt: {printed} as printed, or {needed}, which its parts come to?",
    "border-length": "Border {parts}: {printed} is printed, and its edge takes {needed}. Which is meant?",
    "fabric-short": "{printed} of {parts} is printed, and its pieces take {needed}. How was it worked out?",
    "binding-short": "The binding is printed as {printed}, and the quilt takes {needed}. Which is meant?",
    "backing-small": "The backing is printed as {printed}. Should it not be at least {needed}?",
    "batting-small": "The batting is printed as {printed}. Should it not be at least {needed}?",
    "print-turned": "A print with a direction will lie askew in this setting. Is that meant?",
    "order-of-work": "The instructions, {printed}: should {needed} not come first?",
    "not-stated": "What is {needed}? The pattern does not say.",
}
OTHER = "The pattern says {printed}; we work out {needed}. Which is meant?"
MOST_NAMED = 3


def questions(review):
    """The questions of a review, gravest first and none twice; notes ask nothing.

    >>> from quiltmath import pattern
    >>> from quiltmath.pattern.sheet import EXAMPLE
    >>> from quiltmath.review import review
    >>> questions(review(pattern.read_text(EXAMPLE)))[0]
    'What is the seam allowance? The pattern does not say.'
    """
    return list(dict.fromkeys(question(finding) for finding in review.findings if finding.level != "note"))


def question(finding):
    """The question that one finding puts to the designer."""
    size = f"{finding.message.split(':')[0]}: " if finding.message.startswith("In size ") else ""
    return size + ASKED.get(finding.check, OTHER).format(
        printed=finding.printed, needed=finding.needed, parts=_named(finding)
    )


def _named(finding):
    """The parts a finding is about, in words."""
    names = sorted(finding.parts) or [path[1] for path, _ in finding.fix[:1] if path[0] == "fabric"] or ["the cloth"]
    more = f" and {len(names) - MOST_NAMED} more" if len(names) > MOST_NAMED else ""
    return ", ".join(f"“{name}”" for name in names[:MOST_NAMED]) + more
