"""In which unit a length of fabric is told that is bought: yards that a list leaves out, centimetres as of a size."""

from __future__ import annotations

import re

from . import naming
from .chunks import FIGURES, Chunk, all_of, count, opened
from .groups import is_fabric
from .model import Context

SHORTEST_BOUGHT, SHORTEST_LISTED = 25, 5
"""Centimetres: what a line buys by length, and what one of a shopping list does."""
_YARDS = re.compile(r"\d\s*(?:yds?|yards?)\b|\bin yards\b")
MOST_YARDS = 12
"""Of what a line buys that names no unit."""


def in_the_unit_of_the_list(chunks: list[Chunk], context: Context, page) -> list[Chunk]:
    """The chunks, the one length in centimetres, or the part of a yard without a unit that ends a line of a list in
    yards, taken for a length of fabric: "Shirting  1 3/4".

    >>> from .chunks import chunked
    >>> from .page import Page
    >>> page = Page("Binding 60 cm")
    >>> [one.kind for one in in_the_unit_of_the_list(chunked(page.plain), Context(section="buying"), page)]
    ['role', 'yards']
    """
    lengths, figured = all_of(chunks, "length"), all_of(chunks, *FIGURES)
    ends = (
        len(figured) == 1 and lengths == figured and figured[0] in (chunks[-1], "in yards" in page.plain and chunks[0])
    )
    side = lengths[0].value.sides[0] if ends and context.section == "buying" else None
    bare = side is not None and not (side.unit or side.along or side.doubt) and side.value <= MOST_YARDS
    if side is None or not bare or not count(chunks, "word", "role") or not _YARDS.search(page.plain):
        return _in_centimetres(chunks, context, page)
    yards = lengths[0].value._replace(sides=(side._replace(unit="yd"),))
    return [one._replace(kind="yards", value=yards) if one is lengths[0] else one for one in chunks]


def _in_centimetres(chunks, context, page):
    """The chunks, the one length in centimetres of a line that buys taken for a length of fabric: "Binding 60 cm"."""
    if len(chunks) > 1 and chunks[-1].kind == "note" and [one.kind for one in chunks[-1].value] == ["length"]:
        chunks = [*chunks[:-1], *chunks[-1].value]
    lengths = [one for one in all_of(chunks, "length") if not one.value.sides[0].along]
    others = ("yards", "size", "strip", "cut", "strips", "squares", "rectangles")
    counted = count(chunks, "count") and not count(chunks, "each", "of_each")
    if len(lengths) != 1 or counted or count(chunks, *others):
        return chunks
    side, words = lengths[0].value.sides[0], {page.said(one) for one in chunks}
    bracketed = is_fabric(naming.described(chunks[:1], page), context) and page.plain[side.start - 1] == "("
    each = count(chunks, "each", "of_each") and words & {"print", "prints"}
    told = (
        context.section == "buying"
        or bracketed
        or each
        or any(one.value.sides[0].along.startswith("wid") for one in all_of(opened(chunks), "length"))  # as it is sold
        or words & {"fabric", "fabrics", "binding", "backing", "background"}
    )
    least = SHORTEST_BOUGHT if context.section != "buying" else SHORTEST_LISTED
    if side.unit != "cm" or side.value < least or not told or (context.section == "cutting" and not bracketed):
        return chunks
    return [one._replace(kind="yards") if one is lengths[0] else one for one in chunks]


def centimetres_alone(part: list[Chunk], page) -> bool:
    """Whether a part says no more than so many centimetres of a fabric: "30 cm red"."""
    lengths = all_of(part, "length")
    alone = len(lengths) == 1 and {one.kind for one in part} <= {"length", "word", "article", "punct"}
    bought = alone and lengths[0].value.sides[0].unit == "cm" and not lengths[0].value.sides[0].along
    return bought and naming.is_of_fabric(naming.described(part, page))
