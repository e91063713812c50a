"""A head that is only a name: of a fabric or of a place in the quilt, alone on a line or before what is cut."""

from __future__ import annotations

import re
from typing import NamedTuple

from . import naming
from .chunks import FIGURES, chunked, count, opened
from .fillers import FILLERS
from .listed import LETTERED, names
from .model import Context
from .vocabulary import PARTS, PRINTS

MOST_FABRICS = 4
"""No head names more, without a letter each."""
FOLLOWING = r"(?:the\s+following|as\s+follows|these|a\s+total\s+of|in\s+(?:this|the\s+following)\s+order)(?:\s+pieces)?"
LENGTHWISE = (
    r"(?:(?:(?:on|along|from)\s+the\s+)?(?:lengthwise(?:\s+(?:of\s+)?grain)?"
    r"|length(?:\s+of\s+(?:the\s+)?(?:fabric|grain)|(?=\W*$)))|(?:along|parallel\s+to)\s+the\s+selv[ae]d?ges?)"
)
_ALL_OF_THEM = r"(?:all(?:\s+of)?\s+)?(?:these|them|they|those|the\s+following|following|everything|all)"
_FROM_EACH = re.compile(
    r"(?:\s*[,(]|\s+-+)?\s*(?:cut\s+)?from\s+each(?:\s+(?:print|fabric|one|colou?r|(?P<piece>(?:fat\s+)?(?:quarter|eighth)|piece)))?[\s,)]*(?:cut)?\s*$"
)
_AROUND = re.compile(
    r"(?:cut(?:ting)?\s+(?:from\s+)?(?:the\s+|your\s+)(?!following|pieces|fabrics?\b|strips|squares))?(?P<name>.*?)"
    rf"(?:[\s,]*\(?\bcont(?:inued|'d|\.|\b)[^()]*\)?|,?\s*cut\s+{FOLLOWING}|\s+as\s+follows|,\s*cut|,)?\s*",
    re.DOTALL,
)
"""What may stand around the name of a fabric in its head."""
SCRAPS = re.compile(r"\bscraps?\b|\bleftovers\b|\bremnants?\b")
PLACE = re.compile(
    r"\W*(?:(?P<corner>corners?)|(?P<side>sides?|left\s*(?:and|&|/)\s*right)|(?P<top>tops?\s*(?:and|&|/|,)\s*bottoms?|top|bottom))"
    r"(?:\s*:?\s*cut)?\W*"
)
_WHICH_BORDER = re.compile(
    r"\W*(?P<which>inner|inside|middle|outer|outside|first|second|third|fourth)"
    r"(?:\s*(?:\(\s*|-{1,2}\s+|,\s*)(?P<name>[a-z][a-z -]+?)\s*\)?)?\W*"
)
"""Which of the borders is meant, below the head of them all, and its fabric: "Inner (white)"."""
ALONG = re.compile(
    rf"[\s.,:(-]*(?:please\s+)?(?:{_ALL_OF_THEM}\s+(?:(?:pieces|strips)\s+)?(?:are|to\s+be)\s+)?(?:cut\s+)?"
    rf"(?:{_ALL_OF_THEM}\s+)?(?:(?:pieces|strips)\s+)?(?:first,?\s+)?{LENGTHWISE}"
    rf"(?:,?\s+{LENGTHWISE})?(?:\s+cuts?)?[\s)]*$"
)
"""That pieces are cut along the selvage, behind the name of their fabric."""
_ACROSS = re.compile(
    r"[\s,(-]+(?:cut\s+)?(?:(?:on|across|from)\s+(?:the\s+)?)?(?:width\s+of\s+(?:the\s+)?fabric|wof)[\s)]*$"
)
_OF_A_PLACE = {
    "role", "punct", "word", "and", "cut", "strips", "squares", "triangles", "pieces", "blocks", "rows", "article",
    "for"
}  # fmt: skip
"""The kinds of a head that names a place in the quilt."""
_OF_BLOCKS = re.compile(
    r"\W*(?:(?P<one>[^\W\d_][^,():\d]*),\s*(?:[a-z]+\s+)?blocks?|(?:[a-z]+\s+)?blocks?,\s*(?P<other>[^\W\d_][^,():\d]*))\W*"
)
"""A fabric and that it is for the blocks."""
_NUMBERED_AND_NAMED = re.compile(
    r"\W*(?P<letter>(?:fabric|colou?r|print)\s+\#?\w{1,2})\s*\((?P<name>(?!cont)[^\W\d_][^():\d]{2,30})\)\W*"
)
_NOT_A_NAME = re.compile(
    r"\b(?:sew|press|step|note|tip|repeat|make|using|join|place|trim|size|finished|make|total|yields?|seam|quilt"
    r"|blocks?|skill|level|template|designed|by|page|www|http|copyright|skip|day)\b|©|@"
)


class Head(NamedTuple):
    """What a head says: the fabrics from here on, from how many prints each line is cut, how often, a role, and where
    the rest of its line begins."""

    fabrics: tuple[str, ...]
    rest: int
    prints: int | None = None
    per_print: bool = False
    times: int = 1
    role: str = ""
    remaining: bool = False
    scraps: bool = False
    strong: bool = False
    doubtful: bool = False
    """Whether it may be the name of a fabric, or of anything else."""
    lengthwise: bool = False
    of_prints: tuple[int, ...] = ()
    """From how many prints of each of its fabrics, where each has a number of its own."""
    of_line: bool = False
    """Whether it holds for its own line alone."""
    piece: str = ""
    """The pieces as which the fabric is bought, by their trade name."""


def alone(page, start: int, stop: int, rest: int, end: int, context) -> Head | None:
    """A head that is only a name, and perhaps that what is below it is cut along the selvage."""
    across = _ACROSS.search(page.plain[start:stop])
    stop = start + across.start() if across and across.start() else stop
    along = ALONG.search(page.plain[start:stop])
    if not along or not along.start():
        return _for_one_place(_bare(page, start, stop, rest, end, context), page, start, stop, context)
    before, bracket, _ = page.plain[start : start + along.start()].rpartition("(")
    in_bracket = before.strip() and bracket and ")" not in page.plain[start + len(before) : start + along.start()]
    found = _bare(page, start, start + (len(before) if in_bracket else along.start()), rest, end, context)
    found = _for_one_place(found, page, start, stop, context)
    return found and found._replace(lengthwise=True)


def _for_one_place(found, page, start, stop, context):
    """The head, with the one place in the quilt that a bracket behind its fabric names; that of a fabric of which only
    strips may be for it is kept in mind: "Fabric C (binding)"."""
    noted = [one for chunk in chunked(page.plain, start, stop) if chunk.kind == "note" for one in chunk.value]
    told = {"role", "for", "punct", "article", "squares", "triangles", "strips", "word", "cut", "lengthwise"}
    only = {one.kind for one in noted} <= told
    said = {page.said(one) for one in noted if one.kind == "word"} <= {"the", "first"}
    places = naming.roles(noted, page.plain) if only and said else []
    if not found or len(found.fabrics) != 1 or found.role or len(places) != 1:
        return found
    bought = tuple(one for one in context.known if one.casefold() == places[0])
    if bought:  # for this place alone
        return found._replace(fabrics=bought, role=places[0])
    if places[0].endswith(("binding", "border")):
        context.purposes[found.fabrics[0]] = places[0]
        return found
    return found._replace(role=places[0], strong=True)


def _tells_both(chunks, page):
    """Whether words name a fabric and a place in the quilt, and no more: "red inner border", "dot for the border"."""
    at = next((one.start for one in chunks if one.kind == "for"), chunks[-1].end)
    behind = {page.said(one) for one in chunks if one.start > at and one.kind == "word"}
    told = {"role", "word", "punct", "note", "for", "triangles", "squares", "strips"}
    return {one.kind for one in chunks} <= told and behind <= {"the"}


def _bare(page, start, stop, rest, end, context):
    """A head that is only a name: of a fabric ("Navy:", "Cutting the navy fabric", "Navy, cont."), or of a place in the
    quilt ("Border:")."""
    around = _AROUND.fullmatch(page.plain, start, stop)
    if around and around["name"].strip():
        start, stop = around.span("name")
    each = _FROM_EACH.search(page.plain, start, stop)
    if each and each.start() > start:
        return _from_each(page, start, each, rest, context)
    text = page.plain[start:stop]
    named = _NUMBERED_AND_NAMED.fullmatch(text)
    if named:  # "Fabric A (cream)" may be called either
        context.lettered.setdefault(named["name"].strip(), page.text[start : start + named.end("letter")].strip())
    if LETTERED.fullmatch(text):
        return Head(names(page, start, stop, context), rest)
    place = PLACE.fullmatch(re.sub(r"\s*\([^()]*\)", "", text))
    if place and (context.of_block or context.each_block):  # of the block
        return Head(context.fabrics, rest, of_line=True)
    if place:
        border = context.role if context.role.endswith("border") else ""
        return Head(context.fabrics, rest, role=" ".join(filter(None, (border, str(place.lastgroup)))))
    of_border = _WHICH_BORDER.fullmatch(text)
    above = context.role_above or context.role
    if of_border and (naming.border_of(above) == "border" or naming.EITHER in above):
        fabrics = (
            names(page, start + of_border.start("name"), start + of_border.end("name"), context)
            if of_border["name"]
            else ()
        )
        return Head(fabrics or context.fabrics, rest, role=f"{of_border['which']} border")
    chunks = chunked(page.plain, start, stop)
    kinds = {chunk.kind for chunk in chunks if chunk.kind != "note"}
    inside = [one for chunk in chunks if chunk.kind == "note" for one in chunk.value]
    if kinds & FIGURES or any(one.kind in FIGURES for one in inside):
        return None
    bare = re.sub(r"\([^()]*\)", "", text)
    role = naming.named(bare, bare if "pieces" in kinds else text) if "role" in kinds else ""
    role = role or next(iter(naming.roles(chunks, page.plain)), "")
    if role == "?" and rest >= end:  # each line below is of one of them
        role = naming.EITHER.join(naming.each_border(text)) or role
    of = next((one for one in chunks if one.kind == "for"), None)
    last = not page.plain[end:].partition("\n")[0].strip()  # before a cell that buys it is no head
    if of and last and naming.is_of_fabric(page.plain[start : of.start]) and not (role and _tells_both(chunks, page)):
        return Head(names(page, start, of.start, context) or (), rest)  # "white for background and border"
    if {"sashing", "cornerstone"} == {*naming.roles(chunks, page.plain)}:
        return Head(context.fabrics, rest, role=naming.OF_SASHING)
    words = [chunk for chunk in chunks if chunk.kind == "word"]
    said = naming.as_listed(re.sub(r"\([^)]*\)", "", page.text[start:stop]), context)
    named = naming.known(said, context.known)
    if [one.kind for one in chunks] == ["role", "word"] and page.plain[words[0].start : stop].strip() in PRINTS:
        fabrics = names(page, start, stop, context) or ()  # "border print" is one
        context.purposes |= {name: role for name in fabrics if role == "binding"}
        return Head(fabrics, rest)
    if len(naming.roles(chunks, page.plain)) > 1:  # "Fourth border cornerstones"
        both = naming.role(chunks, Context(), page.plain)
        role = both if both.endswith("border corner") else role
    if named and not role and naming.key(named) == naming.key(said):
        return Head((named,), rest)
    aside = _OF_BLOCKS.fullmatch(text)
    if aside and naming.is_of_fabric(aside["one"] or aside["other"]):  # "Navy, blocks"
        at = "one" if aside["one"] else "other"
        return Head(names(page, start + aside.start(at), start + aside.end(at), context) or (), rest)
    noted = naming.described(inside, page) if "blocks" in kinds and kinds <= {"blocks", "word"} else ""
    if noted and {one.kind for one in inside} == {"word"} and naming.is_of_fabric(noted):  # "Star blocks (red)"
        return Head((naming.known(noted, context.known) or noted,), rest)
    if role and role != "?" and kinds <= _OF_A_PLACE:
        fabric = named or _fabric_beside(chunks, inside, page, context)
        along = any(one.kind == "lengthwise" for one in inside)
        return Head((fabric,) if fabric else context.fabrics, rest, role=role, lengthwise=along)
    if (
        not kinds <= {"word", "punct", "and", "label", "article", "cut", "for"}
        or len(words) > 5
        or not (words or kinds & {"label"})
    ):
        return None
    labels = [chunk for chunk in chunks if chunk.kind == "label" and chunk.start == start]
    if labels and not words and not named:
        return None
    ends = rest >= end
    if named:
        return Head((named,), rest)
    if _NOT_A_NAME.search(bare if naming.is_of_fabric(bare) else text) or kinds & {"for"}:
        return None
    colon = page.plain[stop : stop + 2].strip()[:1] in (":", "-")
    fabrics = names(page, start, stop, context)
    if not fabrics or len(fabrics) > MOST_FABRICS:
        return None
    told = text.endswith("fabric") and "cut" in page.plain[stop:rest]
    if told or SCRAPS.search(text) or all(naming.is_of_fabric(name) for name in fabrics):
        scraps = context.section == "buying" and bool(SCRAPS.search(text))
        return (
            Head(fabrics, rest, scraps=scraps)
            if colon or not ends or len(words) <= 3 or context.section == "cutting"
            else None
        )
    if len(fabrics) == 1 and _is_over_strips(page, rest, end) and _may_only_be_a_fabric(page.text[start:stop]):
        return Head(fabrics, rest)
    of_each = len(fabrics) > 1 and re.match(r"\s*from\s+each\b", page.plain[rest:end])
    if of_each and any(map(naming.is_of_fabric, fabrics)):  # "Sky and Sand: from each, cut"
        return Head(fabrics, rest)
    return Head((), rest, doubtful=True) if colon or not ends or context.section == "cutting" else None


def names_before_each(page, start, end, context):
    """The fabrics that words name, which may end in "from each"; None where they name none."""
    each = _FROM_EACH.search(page.plain, start, end)
    end = each.start() if each and each.start() > start else end
    words = {one.kind for one in chunked(page.plain, start, end)} <= {"word", "and", "punct", "article"}
    numbered = LETTERED.fullmatch(page.plain, start, end)
    return names(page, start, end, context) if words or numbered else None


def _from_each(page, start, each, rest, context):
    """The head "Batiks, from each": of each print, or of each piece of a fabric that is bought in pieces."""
    fabrics = names_before_each(page, start, each.end(), context)
    pieces = context.pieces.get(fabrics[0], 0) if fabrics and each["piece"] and len(fabrics) == 1 else 0
    per_print = bool(fabrics) and len(fabrics) == 1 and not pieces
    return Head(fabrics, rest, per_print=per_print, times=pieces or 1, strong=True) if fabrics else None


def _fabric_beside(chunks, inside, page, context):
    """The fabric that the head of a place in the quilt names besides, in its bracket or before it; "" for none."""
    inside = [one for one in inside if one.kind != "from" and page.said(one) != "the"]
    inner = naming.described(inside, page) if {one.kind for one in inside} <= {"word", "label"} else ""
    said = " ".join(map(page.said, inside)).split()
    if inner and len(inner.split()) == len(said) <= 4:  # "ready by May" is no name
        return naming.known(inner, context.known) or inner
    words = [one for one in chunks if one.kind == "word" and page.said(one) not in FILLERS]
    described = naming.described(words, page)
    alone = _tells_both(chunks, page) and naming.key(described) and naming.is_of_fabric(described)
    return naming.known(described, context.known) or (described if alone else "")


def _is_over_strips(page, rest, end):
    """Whether strips across the width of fabric stand behind a head, or right below it, and name no fabric."""
    behind = page.plain[rest:end].strip(" :-")
    below = re.compile(r"[^\n]*\n(?P<line>[^\n]*)").match(page.plain, end)
    span = (rest, end) if behind else below.span("line") if below else (end, end)
    chunks = opened(chunked(page.plain, *span))
    return count(chunks, "count") > 0 and count(chunks, "wof", "strip") > 0 and not naming.described(chunks, page)


def _may_only_be_a_fabric(name):
    """Whether a name in capital letters is that of no part of a quilt."""
    words = name.strip(" :-").split()
    plain = {word.casefold() for word in words}
    parts = any(word.endswith("s") or word.removesuffix("s") in PARTS for word in plain)
    return 0 < len(words) < 3 and all(word.istitle() for word in words) and not (parts or plain & FILLERS)
