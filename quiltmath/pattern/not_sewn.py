"""What a sheet does not say, by the words that people use for it, and what is to be written instead."""

import re

READY_MADE = "write its block as ready_made = true, with its size"
CURVED = f"a curved seam is not sewn here: write the plain square that such a piece is trimmed to, or {READY_MADE}"
LAID_ON = "appliqué and other things laid on are left out: write the fabric below as a part, and no line for the rest"
SET_IN = (
    "such pieces are set into inside corners, which is not sewn here: cut in halves they go in rows "
    f'(shape = "half hexagon"); or {READY_MADE}'
)
BY_STEPS = f"write the rectangle that it is cut from, and each cut as a [[step]]; or {READY_MADE}"
ON_PAPER = f"write its pieces as they are cut, and the rows they make; or {READY_MADE}"
WHOLE = "a square or a rectangle has no shape: take shape out, and write its size"
STRIP = "a strip has no shape: take shape out, and write strip, how wide it is cut"
HALVES = (
    "write the squares that such triangles come from: with a 1/4 in seam, for half-squares 3/8 in larger than the "
    'strip is wide, half as many, cut = "once"; for quarter-squares 1/4 in larger than twice the strip, a quarter as '
    'many, cut = "twice"'
)
SHAPES = (
    (r"(half|quarter|right|hst|qst).*triangle|^hst$|^qst$", HALVES),
    (r"^(square|rectangle|piece|whole)s?$", WHOLE),
    (r"^strips?$", STRIP),
)
ANYTHING = (
    (r"circle|curve|drunkard|path|\barcs?\b|petal|orange|\bfans?\b|\brings?\b", CURVED),
    (r"appliq|heart|flower|dresden|yo-?yo|fus(ed|ible)|prairie", LAID_ON),
    (r"hexagon|octagon|jewel|coffin", SET_IN),
    (r"kite|wedge|pentagon|rhomb|lozenge|parallelogram|tumbler|kaleido", BY_STEPS),
    (r"paper|foundation", ON_PAPER),
)


def instead(value: object, key: str) -> str | None:
    """What to write for a `shape` or a `kind` of unit that a sheet does not have, None where nothing is known of it.

    >>> instead("Drunkard's path", "kind")
    'a curved seam is not sewn here: write the plain square that such a piece is trimmed to, or write its block as \
ready_made = true, with its size'
    >>> instead("square", "shape"), instead("square", "kind")
    ('a square or a rectangle has no shape: take shape out, and write its size', None)
    """
    rules = {"shape": (*SHAPES, *ANYTHING), "kind": ANYTHING}.get(key, ())
    return next((cure for rule, cure in rules if re.search(rule, str(value).lower())), None)
