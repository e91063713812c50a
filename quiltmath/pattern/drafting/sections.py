"""The heads of the sections of a page: what is bought, cut or sewn below them."""

from __future__ import annotations

import re

from .chunks import MEASURES, NAMED, chunked, count, opened
from .model import Words
from .page import Page

SECTIONS = {
    "buying": r"(?:fab(?:ric)?s?|mat(?:eria)?'?l?s?)\.?\s+(?:req(?:uirement)?(?:'?d)?s?|needed|used)\.?|mat'?ls|req'?d"
    r"|materials?(?:\s+(?:list|needed|required))?|fabrics?(?:\s+(?:requirements?|needed|required"
    r"|list|&\s*supplies))?|yardage(?:\s+requirements?)?|you\s+will\s+need|you'll\s+need|you\s+need|supplies"
    r"|requirements?|shopping(?:\s+list)?|to\s+buy|(?:goods|materials?|supplies)\s+(?:needed|required)|what\s+you(?:'ll|\s+will)?\s+need|fabric\s+and\s+supplies|ingredients"
    r"|what\s+to\s+buy|needed|required|(?:(?:your|this|the|each)\s+)?kit\s+(?:contains|contents|includes)"
    r"|in\s+(?:your|this|the)\s+kit|(?:in\s+)?(?:your|this|the)\s+kit(?:\s+you(?:'ll|\s+will))?\s+(?:find|has|holds)|what(?:'s|\s+is)\s+in\s+(?:your|the)\s+kit",
    "cutting": r"cut|cutting(?:\s+(?:instructions?|directions?|list|chart|guide|the\s+(?:fabrics?|pieces)|table))?"
    r"|cut\s+(?:first|(?:the\s+)?(?:fabrics?|pieces|patches))|cutting\s+list\s+and\s+key|cut\s+the\s+following"
    r"|what\s+to\s+cut|cutting\s+for\s+(?:the\s+|all\s+)?(?!(?:one|a|1|each|every)\b)(?:[\w-]+\s+)?(?:blocks?|quilt|top|units)",
    "sewing": r"(?:(?:quilt\s+)?top\s+|quilt\s+|block\s+|border\s+)?(?:assembly|construction"
    r"|piecing)(?:\s+(?:instructions?|directions?|the\s+\w+(?:\s+\w+)?|diagram))?|(?:sewing|piecing|making"
    r"|assembling|finishing|joining|adding)(?:\s+(?:the\s+)?[a-z -]{1,30})?"
    r"|putting\s+(?:it|the\s+\w+)(?:\s+all)?\s+together|instructions?|directions?|blocks?|quilt(?:\s+top)?|borders?\s+and\s+binding|bindings?\s+and\s+finishing|quilting(?:\s+and\s+binding)?"
    r"|finishing|layout|stars|units?|what\s+to\s+(?:do|sew)|(?:flying\s+)?geese",
}
_SECTION = {kind: re.compile(rf"\W*(?:the\s+)?(?:{words})\s*[:.\-]*\s*$") for kind, words in SECTIONS.items()}


def section(text: str) -> str | None:
    """The section that a line heads: "buying", "cutting" or "sewing"; None where it heads none.

    >>> section("cutting instructions:"), section("18 squares")
    ('cutting', None)
    """
    for kind, pattern in _SECTION.items():
        if len(text) < 60 and pattern.match(text):
            return kind
    return None


def is_above_pieces(page: Page, end: int) -> bool:
    """Whether the line right below the one that ends here counts pieces of a size, and names no fabric of its own."""
    below = re.compile(r"[^\n]*\n(?P<line>[^\n]*)").match(page.plain, end)
    chunks = opened(chunked(page.plain, *below.span("line"))) if below else []
    begins = {"count", "cut", "label"} & {one.kind for one in chunks[:1]}
    return bool(begins and count(chunks, "count") and count(chunks, *MEASURES) and count(chunks, *NAMED, "strip"))


def is_above_no_piece(page: Page, words: Words) -> bool:
    """Whether two words or more head no line of a cutting list: a title may be called as a fabric is."""
    below = re.compile(r"\s*(?P<line>[^\n]*)").match(page.plain, words.end)
    chunks = opened(chunked(page.plain, *below.span("line"))) if below else []
    pieces = count(chunks, *MEASURES) and count(chunks, "count")
    return " " in words.text and not words.text.endswith(":") and not pieces
