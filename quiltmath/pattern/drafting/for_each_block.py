"""Counts that a page tells for one block, where a sheet wants those for the whole quilt."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import TYPE_CHECKING

from . import logs, naming
from .chunks import FIGURES, MEASURES, Chunk, all_of, chunked, count, opened
from .figures import IN_WORDS, number
from .in_passing import in_passing
from .model import Choice, Context, Entry, Question, Reading, Words
from .page import Page

if TYPE_CHECKING:
    from .kept import Kept

_EACH_BLOCK = re.compile(
    r"\(?\b(?:(?:for|in)\s+)?(?:per|each|every|one|a\s+single|1)\s+"
    r"(?:(?:(?!other\b)[a-z]+|\d[\d/ .]*(?:\"|-?in(?:ch)?|cm))\s+)?block\b\)?"
)
_OF_SO_MANY = re.compile(
    r"\(?\bfor\s+each\s+of\s+(?:(?:the|your)\s+)?\(?(?P<made>\d{1,3}|[a-z]+(?:-[a-z]+)?)\)?\s+(?:[a-z]+\s+)?blocks\b\)?"
)
_BEGUN = re.compile(
    r"\W*(?:(?:then|and)\s+)*(?:from\s+(?:these|them|those|which|the\s+strips)\W+)?"
    rf"(?:{_OF_SO_MANY.pattern}|{_EACH_BLOCK.pattern}(?:\s*\((?P<of_all>\d{{1,3}})\b[^()\d]*\))?)"
    r"[\s,:]*cut\b(?:\s+(?:one|1)(?:\s+of)?\s+each)?(?P<gap>[\s:,]*)"
)
"""That what is listed behind is cut for one block, or for each of so many."""
_OF_WHAT_IS_MADE = r"for\s+(?:each|every|one)\s+(?:[a-z-]+\s+){0,2}[a-z-]+(?=\W*\(?make\s+\d{1,3}\))"
"""What one of is cut, where the line says how many are made: "For each star (make 4)"."""
_THINGS = re.compile(
    r"\W*(?:for\s+(?:the\s+)?)?(?P<things>[a-z][a-z -]+?)\s*\((?:make\s+)?(?P<made>\d{1,3})\)\s*(?::|\s-\s)\s*"
    r"(?=(?:cut\s+)?(?:from\s|\(?\d))"
)
"""What pieces are for, and how many of it there are: "Flying geese (make 24): …"."""
MOST_OF_A_UNIT = 4
"""Pieces of one kind (common practice)."""
_FOR_SO_MANY = re.compile(
    r"\W*(?:cut(?:ting)?\s+)?for\s+(?:all\s+|the\s+)*(?:\d{1,3}|[a-z]+)\s+(?:[a-z]+\s+){0,2}blocks[\s:.,]*(?:cut)?\W*"
)
"""A head whose counts are those of all blocks: "For 20 blocks, cut:"."""
_IS_SO_LARGE = re.compile(r"(?:will\s+|should\s+)?(?:be|is|measur\w+|finish\w*)\b")
_ONE_NEEDS = r"(?:each|every|one)\s+block\s+(?:needs|takes|uses|wants)\b"
_ALL = rf"(?:for|in)\s+(?:all\s+)?(?:the\s+|your\s+)?(?:(?P<of>\d{{1,3}}|{IN_WORDS})\s+)?(?:[a-z]+\s+)?blocks"
_IN_ALL = re.compile(
    rf"[\s,;.:(=-]+(?:(?:so|then|and|which|that|makes?|making|is|gives?|giving|or)\s+)*(?:"
    rf"x\s*(?P<times>\d{{1,3}})\s*(?:blocks\s*)?=\s*(?P<product>\d{{1,4}})"
    rf"|(?:a\s+)?(?:grand\s+)?totals?(?:\s+of)?\W*(?P<total>\d{{1,4}})|{_ALL}\W+(?:cut\s+)?(?P<behind>\d{{1,4}})"
    rf"|(?P<cut>cut\s+)?\(?(?P<all>\d{{1,4}}|{IN_WORDS})\)?(?:\s+(?:of\s+)?(?:squares|rectangles|pieces|strips|them|these))?"
    rf"(?P<told>(?:\s+(?:(?:in\s+)?(?:total|all)|altogether|{_ALL.replace('<of>', '<blocks>')}"
    rf"|for\s+the\s+(?:whole\s+|entire\s+)?quilt))*))"
    r"(?:\s+needed)?\W*$"
)
"""What a line that cuts for one block says last of how many these come to: "48 in all", "x 12 blocks = 48"."""
_CHECKS = re.compile(r"[,;-]\s*(?:(?:that's|that\s+is|or|i\.e\.)\s+)?\(?\d{1,2}\)?\s*$")
_GIVES = re.compile(r"\b(?:gives?|makes?|yields?|enough\s+for)\b[^.;]*$")
"""How far something goes: "Each strip gives the logs of one block"."""
_OF_EACH = re.compile(r"\bof\s+(?:each|every)\b")
_MADE = re.compile(r"\W*(?:the\s+)?(?:[a-z-]+\s+){0,3}blocks?\b[^.;]*?\bmake\s+(?P<made>\d{1,3})\b")
_FOR_ALL = re.compile(
    r"(?:\b(?:the\s+)?(?:cutting|pieces|counts|numbers|amounts|quantities|figures|totals?)\b(?:\s+\w+){0,4}?\s+)?\b(?:for|are|is)\s+(?:for\s+)?"
    rf"all\s+(?:the\s+)?(?:of\s+them|blocks|(?P<made>\d{{1,3}}|{IN_WORDS}))(?:\s+blocks)?\b"
)
"""What says of the counts below the head of a block that they are those of all: "pieces below are for all 20"."""
_OF_THE_QUILT = re.compile(
    r"\b(?:whole|entire)\s+quilt\b|\ball\s+blocks\b|\bsetting\b|\bsashing\b|\bborders?\b|\bbinding\b"
)


def said(start: int, end: int, kept: Kept, context: Context, page: Page) -> bool:
    """Note whether what stands below a line is cut for one block, or for the whole quilt; whether the line says no
    more than that."""
    chunks = opened(chunked(page.plain, start, end))
    one_block = _EACH_BLOCK.search(page.plain, start, end)
    outside = [one for one in chunks if not one_block or not one_block.start() <= one.start < one_block.end()]
    measured = count(outside, *MEASURES, "yards")
    so_many = _OF_SO_MANY.search(page.plain, start, end)
    if so_many and not measured and not page.plain[start:end].replace(so_many[0], "").strip(" :.,cut"):
        context.each_block, context.blocks, context.of_block = True, _blocks(so_many), None
        kept.understood.append(page.words(start, end))
        return True
    if _FOR_SO_MANY.fullmatch(page.plain, start, end):
        context.each_block, context.of_block = False, None
        kept.understood.append(page.words(start, end))
        return True
    several = _MADE.match(page.plain, start, end)
    if several:
        of_all = _FOR_ALL.search(page.plain, start, end)
        context.of_block = None if of_all else (page.words(start, end), int(several["made"]))
    elif _OF_THE_QUILT.search(page.plain, start, end):
        context.of_block = None
    if not measured and _OF_THE_QUILT.search(page.plain, start, end):
        context.each_block = False
    if context.section == "sewing" or measured or not one_block or _OF_EACH.search(page.plain, start, end):
        return False
    context.each_block, context.blocks, context.of_block = True, 0, None
    counts = all_of(outside, "count")
    words = page.words(start, end)
    made = [one for one in counts if one.start > start and count(chunks, "make") == 1]
    if made and len(_numbers(page.plain[start:end])) == 1:  # "for one block (make 12)"
        kept.add(Entry("block", {"count": made[-1].value}, words, "block"))
        return True
    if counts or _EACH_BLOCK.sub("", page.plain[start:end]).strip(" :.,cut"):
        return False
    kept.understood.append(words)
    return True


def begun(start: int, end: int, context: Context, page: Page) -> int | None:
    """Where the pieces begin on lines of their own below a sentence that says that they are cut for one block, which is
    kept in mind: "For each of the 24 blocks cut"; None for any other."""
    found = _BEGUN.match(page.plain, start, end)
    if found is None:
        return None
    on_lines_below = "\n" in found["gap"] or found.end() == end
    if not on_lines_below and not logs.is_numbered(page, found.end(), end):
        return None
    context.each_block, context.of_block, context.section = True, None, "cutting"
    context.blocks = _blocks(found) if found["made"] else int(found["of_all"] or 0)
    return found.end()


def without_scope(chunks: list[Chunk], page: Page) -> list[Chunk]:
    """The chunks, a bracket without the words that counts below it are those of all blocks."""
    found: list[Chunk] = []
    figures = count(chunks, *FIGURES)
    at = next((place for place, one in enumerate(chunks[:-1]) if page.said(one) == "all"), 0)
    behind = [one.kind for one in chunks[at + 1 :] if one.kind != "punct" and page.said(one) != "together"]
    if at and figures == 1 and behind in (["count"], ["count", "blocks"]) and count(chunks[:at], "blocks"):
        told_of = all_of(chunks, "count")[0]  # "Star block, all 9 blocks"
        return [*chunks[:at], Chunk("make", told_of.start, told_of.start), told_of]
    for one in chunks:
        told = _FOR_ALL.search(page.plain, one.start, one.end) if one.kind == "note" else None
        left = [inner for inner in one.value if inner.end < told.start()] if told else []
        found.append(one._replace(value=left) if told else one)
        made = _blocks(told) if told and told["made"] else 0
        if made and count(chunks, "blocks") and not figures and not count(left, *FIGURES):  # "Star block (for all 9)"
            found += [Chunk("make", one.end, one.end), Chunk("count", one.end, one.end, made)]
    return found


def _blocks(so_many):
    """How many blocks these words tell, 0 where they tell none."""
    found = number(so_many["made"], 0)
    return int(found.value) if found and found.whole and found.end == len(so_many["made"]) else 0


def beside(start: int, end: int, kept: Kept, context: Context, page: Page) -> tuple[int, int] | None:
    """What a line cuts for one block, without the words that say so at its beginning or its end, or how many these come
    to in all; None for any other."""
    line, in_all_blocks = (start, end), _told_in_all(start, end, page)
    end = in_all_blocks.start() if in_all_blocks else end
    said = rf"(?:{_EACH_BLOCK.pattern}|{_OF_SO_MANY.pattern}|{_OF_WHAT_IS_MADE}|{_ONE_NEEDS})"
    of_all = r"(?:\W*\(?make\s+(?P<of_all>\d{1,3})(?:\s+blocks)?\))?"
    first = re.compile(rf"\W*(?:cut\s+)?{said}{of_all}\W*(?=\w|\()").match(page.plain, start, end)
    of_blocks = r"(?:\W+(?:for\s+|make\s+)?(?P<of_blocks>\d{1,3})\s+blocks)?"
    last = re.compile(rf"[\s,;(-]*{said}{of_blocks}\W*$").search(page.plain, start, end)
    before = page.plain[start : last.start()] if last else ""
    counted = [*all_of(chunked(page.plain, start, start + len(before)), "count")]
    one = last and re.match(r"\W*(?:1|one)\s+per\b", last[0])
    checks = one or len(counted) == 2 and _CHECKS.search(before)  # "48 squares 3 in - 4 per block"
    gives = _GIVES.search(before)
    if gives or checks or before.count("(") > before.count(")"):  # in a bracket that says more
        last = None
    found = first or last
    if not found or not count(opened(chunked(page.plain, start, end)), *MEASURES):
        return None
    if first and _IS_SO_LARGE.match(page.plain, first.end()):  # "Each block finishes at 9 in"
        return None
    part = (first.end(), end) if first else (start, found.start())
    if in_all_blocks:
        made = _so_many(in_all_blocks, part, page)
        if not made:
            return None
        context.blocks = made
        kept.understood.append(page.words(*line))
        return part
    kept.understood.append(page.words(*found.span()))
    context.blocks = _blocks(found) if found["made"] else 0
    if last and not first and last["of_blocks"]:
        context.blocks = int(last["of_blocks"])
    if first and first["of_all"]:
        context.blocks, context.of_block = int(first["of_all"]), None
    if first and first["of_all"] and "block" in first[0]:
        kept.add(Entry("block", {"count": int(first["of_all"])}, page.words(*first.span()), "block"))
    return part


def _told_in_all(start, end, page):
    """What a line that cuts for one block says last of how many these come to; None where it does not."""
    one = re.compile(rf"{_EACH_BLOCK.pattern}|{_ONE_NEEDS}").search(page.plain, start, end)
    found = _IN_ALL.search(page.plain, max(one.end() - 1, start), end) if one else None
    while found and not (found["told"] or found["cut"] or found["total"] or found["product"] or found["behind"]):
        found = _IN_ALL.search(page.plain, found.start() + 1, end)
    return found


def _so_many(told, part, page):
    """Of how many blocks all pieces are, of which a part of a line counts those of one; 0 where they do not come to
    that."""
    counts = [one.value for one in all_of(opened(chunked(page.plain, *part)), "count")]
    whole = next(filter(None, (told[one] for one in ("product", "total", "behind", "all"))))
    blocks = next(filter(None, (told[one] for one in ("times", "of", "blocks"))), None)
    in_all_told = number(whole, 0)
    if len(counts) != 1 or not in_all_told or not counts[0] or in_all_told.value % counts[0]:
        return 0
    made = int(in_all_told.value / counts[0])
    return made if blocks is None or number(blocks, 0).value == made else 0


def is_of_all(entry: Entry) -> bool:
    """Whether a line of pieces says itself how many of them are for one block: "32 squares 2 in (4 per block)"."""
    return bool(_COUNTED_FOR_ONE.search(entry.words.text.casefold())) or any(_FOR_EACH in one for one in entry.remarks)


_COUNTED_FOR_ONE = re.compile(r"\(\d{1,2}\s+(?:per|(?:in|for)\s+(?:each|every|one))\s+(?:[a-z]+\s+)?block\b[^)]*\)")
_FOR_EACH = " for each of "


def of_things(start: int, end: int, context: Context, page: Page) -> int | None:
    """Where pieces begin behind the things that they are for, of which the line says how many there are, "Stars (12):";
    that they are for one of these is kept in mind, but for units, of which none has so many pieces."""
    match = _THINGS.match(page.plain, start, end)
    named = match["things"] if match else ""
    if not match or naming.is_of_fabric(named) or naming.known(named, context.known):
        return None
    kinds = {one.kind for one in chunked(page.plain, *match.span("things"))}
    behind = opened(chunked(page.plain, match.end(), end))
    counts = [one.value for one in all_of(behind, "count")]
    if not kinds <= {"word", "unit", "blocks"} or not counts or not count(behind, *MEASURES):
        return None
    of_unit = "unit" in kinds and min(counts) > MOST_OF_A_UNIT
    context.of_block = None if of_unit else (page.words(*match.span()), int(match["made"]))
    return match.end()


def _numbers(text):
    return re.findall(r"\d+", text)


def in_all(read: Reading, kept: Kept, told: int) -> Reading:
    """What was read for one block: asked, with the number for all blocks where the page has said how many; so many
    times that where it is told with the pieces how many blocks they are for."""
    blocks = {one.data["count"] for one in kept.entries if one.table == "block" and "count" in one.data}
    questions, rest = [*read.questions], []
    for one in read.entries:
        counted = one.data.get("count")
        if one.table not in ("cut", "strip_set") or not isinstance(counted, int):
            rest.append(one)
            continue
        if told:
            rest.append(_times(one, told).noted(f"{counted}{_FOR_EACH}{told} blocks"))
            continue
        choices = tuple(Choice(f"{counted * made} in all", (_times(one, made),)) for made in sorted(blocks))
        questions.append(Question(one.words, f"{counted} for one block: how many in all?", choices))
    return Reading(tuple(rest), tuple(questions), read.remarks)


def question(head: Words, made: int, entries: list[Entry]) -> Question | None:
    """The question whether what is cut below the head of a block, of which several are made, is for one or for all."""
    counted = [one for one in entries if isinstance(one.data.get("count"), int)]
    if not counted or made < 2:
        return None
    times = tuple(_times(one, made) for one in counted)
    choices = (Choice(f"for one block, {made} times as many in all", times), Choice(f"for all {made} blocks"))
    return Question(head, f"are the pieces below cut for one block, or for all {made}?", choices)


def of_logs(listed: list[Entry], entries: list[Entry], page: Page) -> Iterator[Question]:
    """The question how many blocks there are of which a page lists the logs of one, with the numbers that it tells."""
    if not listed:
        return
    counted = [one.data["count"] for one in entries if one.table == "block" and "count" in one.data]
    told = [int(many) for many in _BLOCKS.findall(page.plain)]
    numbers = [one for one in dict.fromkeys((*counted, *in_passing(page.plain).made, *told)) if one > 1]
    choices = tuple(
        Choice(f"{made} blocks", tuple(_times(one, made).noted(f"1{_FOR_EACH}{made} blocks") for one in listed))
        for made in numbers
    )
    words = page.words(listed[0].words.start, listed[-1].words.end)
    yield Question(words, "these are cut for one block: how many blocks are there?", choices)


_BLOCKS = re.compile(r"\b(\d{1,3})\s+(?:[a-z-]+\s+)?blocks\b")


def _times(entry, made):
    """A line of the cutting list for so many blocks; the strips it is sub-cut from are those of one."""
    counted = {key: entry.data[key] * made for key in ("count", "triangles") if key in entry.data}
    return entry.but(**counted, strips=None, strip_width=None)
