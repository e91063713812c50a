"""The heads of the sections of a page: what is bought, cut or sewn below them."""

from __future__ import annotations

import re

from . import naming
from .chunks import MEASURES, NAMED, chunked, count, opened
from .model import Words
from .page import Page
from .vocabulary import PROSE

SECTIONS = {
    "buying": r"(?:fab(?:ric)?s?|mat(?:eria)?'?l?s?)\.?\s+(?:req(?:uirement)?(?:'?d)?s?|needed|used)\.?|mat'?ls|req'?d"
    r"|materials?(?:\s+(?:list|needed|required))?|fabrics?(?:\s+(?:requirements?|needed|required"
    r"|list|&\s*supplies))?|yardage(?:\s+requirements?)?|you\s+will\s+need|you'll\s+need|you\s+need|supplies"
    r"|requirements?|shopping(?:\s+list)?|to\s+buy|(?:goods|materials?|supplies)\s+(?:needed|required)|what\s+you(?:'ll|\s+will)?\s+need|fabrics?\s*(?:and|&|\+)\s*(?:supplies|notions|more)|ingredients"
    r"|(?:get|buy|gather|collect)(?:\s+(?:this|these|it\s+all|all\s+this|everything|your\s+fabrics?))?|(?:supply|fabric|shopping)\s+(?:check)?list"
    r"|(?:not\s+)?(?:in|from)\s+(?:(?:your|this|the)\s+)?(?:bag|packet|box)|not\s+in\s+(?:(?:your|this|the)\s+)?kit|grab(?:\s+(?:this|these|your\s+fabrics?))"
    r"|what\s+(?:to\s+(?:buy|get)|(?:i|we)\s+(?:used|bought|took))|(?:what\s+to\s+)?bring(?:\s+(?:along|with\s+you|to\s+class))?|pick\s+up(?:\s+at\s+the\s+(?:counter|shop|store))?|needed|required|(?:(?:your|this|the|each)\s+)?kit\s+(?:contains|contents|includes)"
    r"|in\s+(?:your|this|the)\s+kit|(?:in\s+)?(?:your|this|the)\s+kit(?:\s+you(?:'ll|\s+will))?\s+(?:find|has|holds)|what(?:'s|\s+is)\s+in\s+(?:your|the)\s+kit"
    r"|what(?:'s|\s+is)\s+it\s+made\s+(?:from|of|with)|what\s+(?:it\s+takes|goes\s+in(?:to\s+it)?)",
    "cutting": r"cut|(?:please|now|first|to|you|we)\s+cut|cut\s+(?:this|these|now)"
    r"|cutting(?:\s+(?:instructions?|directions?|list|chart|guide|plan|the\s+(?:fabrics?|pieces)|table))?"
    r"|(?:let's\s+)?cut(?:ting)?(?:\s+(?:it|them|everything|all|the\s+(?:lot|quilt)))?(?:\s+(?:out|up))?(?:\s+at\s+home)?"
    r"|(?:the\s+)?cutting\s+out|cut,?\s+(?:always|all)\s+(?:from|across)[a-z\s]+|cutting\s+at\s+home\b[^.:\d]*"
    r"|cut\s+(?:first|(?:the\s+)?(?:fabrics?|pieces|patches))|cutting\s+list\s+and\s+key|cut\s+the\s+following"
    r"|(?:what|pieces|patches)\s+(?:to|you(?:'ll|\s+will)?)\s+(?:be\s+)?cut|cut(?:ting)?\s+(?:sheet|list)|cut\s+as\s+follows|cutting\s+for\s+(?:the\s+|all\s+)?(?!(?:one|a|1|each|every)\b)(?:[\w-]+\s+)?(?:blocks?|quilt|top|units)",
    "sewing": r"(?:now\s+)?sew(?:\s+(?:this|these|it(?:\s+together)?|them(?:\s+together)?|together))?"
    r"|(?:(?:quilt\s+)?top\s+|quilt\s+|block\s+|border\s+)?(?:assembly|construction"
    r"|piecing)(?:\s+(?:instructions?|directions?|the\s+\w+(?:\s+\w+)?|diagram))?|(?:sewing|piecing|making"
    r"|assembling|finishing|joining|adding)(?:\s+(?:the\s+)?[a-z -]{1,30})?"
    r"|(?:to\s+)?put(?:ting)?\s+(?:(?:it|the\s+\w+)(?:\s+all)?\s+)?together|to\s+(?:assemble|finish|join|make|piece|sew|set)"
    r"(?:\s+(?:(?:the|your|one|each|a)\s+)?(?:[a-z-]+\s+)?(?:blocks?|quilt|top|units?|rows|cent(?:er|re)|layout))?|instructions?|directions?|blocks?|quilt(?:\s+top)?|borders?\s+and\s+binding|bindings?\s+and\s+finishing|quilting(?:\s+and\s+binding)?"
    r"|finishing|completion|layout|strip[\s-]+piecing|the\s+setting|setting\s+the\s+(?:top|quilt|blocks)|stars|units?|what\s+(?:to|you(?:'ll|\s+will)?)\s+(?:do|sew|make)|(?:flying\s+)?geese",
}
PART = (
    r"(?:(?:instal+ment|part|step|stage|lesson|week|clue|chapter|month)\s+(?:\d{1,2}|[ivx]{1,4}|[a-z]{3,6})\s*[:.,-]+"
    r"|[ivx]{1,4}[.)])\s*"
)
"""What numbers the sections of a page: "Instalment 1: Cut", "IV. The setting"."""
_WHEN = r"(?:before|at|for|during|after)\s+[a-z][a-z ]{2,24}\s*[:,-]+\s*"
"""When it is done, before what is done: "Before class one: please cut"."""
_SECTION = {
    kind: re.compile(rf"\W*(?:{PART}|{_WHEN})?(?:the\s+)?(?:{words})[^\w(\n]*$") for kind, words in SECTIONS.items()
}


def section(text: str) -> str | None:
    """The section that a line heads: "buying", "cutting" or "sewing"; None where it heads none.

    >>> section("cutting instructions:"), section("18 squares"), section("~ get this ~")
    ('cutting', None, 'buying')
    """
    for kind, pattern in _SECTION.items():
        if len(text) < 60 and pattern.match(text):
            return kind
    return None


def heads_a_part(text: str) -> bool:
    """Whether a line is the numbered head of a section.

    >>> heads_a_part("instalment 1: cut"), heads_a_part("cut")
    (True, False)
    """
    return bool(re.match(rf"\W*{PART}", text)) and section(text) is not None


_OF_PIECES = NAMED - {"blocks"}
CUT_BELOW = r"[^\S\n]*(?:please[^\S\n]+)?cut(?:[^\S\n]+(?:out|up|the[^\S\n]+following))?[^\w\n]*"
"""A line that only says that what stands below it is cut."""
_LINE_BELOW = re.compile(rf"[^\n]*\n(?:{CUT_BELOW}\n)?(?P<line>[^\n]*)")


def is_above_pieces(page: Page, end: int, unnamed: bool = False) -> bool:
    """Whether the line right below the one that ends here, or below a "cut:" there, counts pieces of a size; where it
    must be `unnamed`, and names no fabric of its own."""
    below = _LINE_BELOW.match(page.plain, end)
    chunks = opened(chunked(page.plain, *below.span("line"))) if below else []
    begins = {"count", "cut", "label", *MEASURES} & {one.kind for one in chunks[:1]}
    pieces = count(chunks, "count") and count(chunks, *_OF_PIECES, "strip", "size") or count(chunks, "strips", "wof")
    named = unnamed and naming.is_of_fabric(naming.told(chunks, page))
    return bool(begins and count(chunks, *MEASURES) and pieces) and not named and not count(chunks, "pack")


def is_above_no_piece(page: Page, words: Words) -> bool:
    """Whether two words or more head no line of a cutting list: a title may be called as a fabric is."""
    below = re.compile(r"\s*(?P<line>(?:[^\n]+\n?){0,3})").match(page.plain, words.end)  # in a narrow column
    chunks = opened(chunked(page.plain, *below.span("line"))) if below else []
    pieces = count(chunks, *MEASURES) and count(chunks, "count")
    return " " in words.text and not words.text.endswith(":") and not pieces


_STEP = re.compile(r"\W*(?:step\s+)?(?:\d{1,2}|[a-h])(?:[.):]\s+|\s+(?=[a-z]{3}))|[\s*•-]*")
_FIRST = re.compile(r"\W*(?:(?:step\s+)?(?:1|one)|a)[.):]?\s+(?=[a-z]{3})")
_HEADING = re.compile(
    r"[^\d.;:]*?[^\W\d_][^\d.;:]*"
    r"(?:\((?:make\s+\d+|\d+\s+[a-z -]+)(?:[,;][^()]*)?\)|\s[-,]+\s*make\s+\d+(?:\s+blocks)?)?\W*"
)
_RUN_IN = re.compile(r"\W*(?:the\s+|one\s+)?[a-z][a-z -]{2,30}(?:\s\d)?[.:]\s+(?=[a-z])")
"""The heading of a paragraph on its first line."""
_SETS = re.compile(r"\W*strip[\s-]*sets?\b")
_SEWN_WITH = re.compile(r"\W*(?:with|using)\s[^.;:]*?\b(?:make|sew|piece|join)\s+(?:an?|one|the)\b")
"""What a sentence of sewing begins with that counts its pieces first."""
SENTENCES = 2
"""Of a paragraph of sewing one of its first sentences begins with what is done."""


def heads_sewing(page: Page, start: int, end: int) -> bool:
    """Whether a line is the heading of a paragraph that tells of sewing, or the first step of it: nothing more is cut
    below.

    >>> page = Page("Corner blocks\\n1. Draw a line on the back of each square.")
    >>> heads_sewing(page, 0, 13)
    True
    """
    text = page.plain[start:end]
    first = _FIRST.match(text)
    if first and sews(page, start + first.end(), end):
        return True
    run_in = _RUN_IN.match(text) if not page.plain[:start].rpartition("\n\n")[2].strip() else None
    if run_in and sews(page, start + run_in.end(), end):
        return True
    if run_in and _names_a_unit(page, start, end):
        return True
    words = re.sub(r"\([^()]*\)|\s[-,]+\s*make\s+\d.*", "", text)
    if not _HEADING.fullmatch(text) or len(words.split()) > LONGEST_HEADING or text.rstrip().endswith(","):
        return False
    below = re.compile(r"\s*(?P<told>(?:[^\n]*\n?){0,3})").match(page.plain, end)
    return below is not None and sews(page, *below.span("told"))


def _names_a_unit(page, start, end):
    """Whether the heading of a paragraph is the name of a unit, of which its first sentence counts no pieces of a size:
    "Four patch: navy, white; white, navy"."""
    head, first = [*re.split(r"[.:]\s", page.plain[start:end], maxsplit=2), ""][:2]
    return {one.kind for one in chunked(head)} == {"unit"} and not count(opened(chunked(first)), *MEASURES)


LONGEST_HEADING = 6
"""Words: no heading has more."""


def sews(page: Page, start: int, end: int) -> bool:
    """Whether one of the first sentences here tells at its beginning what is done with pieces that are cut."""
    step = _STEP.match(page.plain, start, end)
    start = step.end() if step else start
    if _SETS.match(page.plain, start, end):
        return True
    for told in re.split(r"(?<=[a-z\d\")])[.!:]\s", page.plain[start:end])[:SENTENCES]:
        if _SEWN_WITH.match(told):
            return True
        first = re.match(r"\W*(?:(?:to\s+(?:make|piece)|with|for)\b[^,;]*,\s*)?(?P<verb>[a-z]+)", told)
        if first and _is_sewn(first["verb"], told):
            return True
    return False


def _is_sewn(verb, told):
    """Whether a sentence that begins with this word tells of sewing."""
    chunks = chunked(told)
    return verb in _DONE or bool(chunks) and chunks[0].kind == "sew"


_NO_SEWING = {"keep", "label", "leave", "measure", "open", "refer", "store", "trim", "trimmed", "using", "wash"}
_DONE = {*PROSE - _NO_SEWING, "put", "take", "choose", "join"}
"""What a sentence of sewing begins with, and none of a cutting list."""
