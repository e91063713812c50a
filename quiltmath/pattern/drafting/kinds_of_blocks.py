"""What a page says above its lists of the blocks in the quilt: how many there are of each kind, how large they are."""

from __future__ import annotations

import re

from . import stated
from .chunks import Chunk, all_of, count, opened
from .fillers import HEADS
from .model import Choice, Context, Entry, Question, Reading
from .page import Page

_PARTS = ("count", "length", "size", "finished", "blocks", "unit", "word", "article", "squares", "role", "triangles")
_PLAIN = {"plain", "alternate", "alternating", "solid", "setting", "unpieced"}
"""Of which kind the squares between pieced blocks are."""
_NO_NAMES = {
    "all", "each", "both", "of", "the", "are", "is", "measure", "measuring", "in", "size", "sized", "them", "these",
    "those"
}  # fmt: skip


def told(chunks: list[Chunk], context: Context, page: Page) -> Reading | None:
    """The number and the size of the blocks, told in a line above all lists: "18 star blocks, 17 plain blocks", "30
    stars, 9 in finished"; None where a line tells of anything else.

    Of several kinds that are pieced only the size is taken, and the line kept: the drawings tell them apart.
    """
    flat, setting = _without_layout(opened(chunks), page)
    listed = context.section in ("buying", "cutting") or context.known or context.fabrics
    if listed or any(one.kind not in (*_PARTS, "punct", "and") for one in flat):
        return None
    parts = [part for part in _parted(flat, page) if any(one.kind != "punct" for one in part)]
    counted = [part for part in parts if count(part, "count") == 1 and not count(part, "length", "size", "finished")]
    total = _total(counted)
    counted = [part for part in counted if part is not total]
    sized = [part for part in parts if count(part, "length", "size") == 1]
    others = [part for part in parts if part not in counted and part not in sized and part is not total]
    finished = _finished(sized)
    named = any(count(part, "blocks") for part in parts)
    if len(sized) > 1 or sized and finished is None or any(count(part, "count") for part in others):
        return None
    if not counted or not (named or finished or setting) or any(not _is_kind(part) for part in counted):
        return None
    if len(counted) > 1 and any(_is_of_all(part) for part in counted):  # it is not what the others come to
        return None
    if setting and setting["across"] * setting["down"] != sum(all_of(part, "count")[0].value for part in counted):
        return None
    pieced = [part for part in counted if not {page.said(one) for one in part} & _PLAIN]
    size = {"finished": finished} if finished else {}
    words = page.over(chunks)
    rows = (Entry("setting", setting, words),) if setting else ()
    if len(pieced) == 1:
        number = all_of(pieced[0], "count")[0].value
        return Reading((Entry("block", {"count": number, **size}, words, _name(pieced[0], page)), *rows))
    made = (Entry("block", size, words, "block"),) if size else ()
    return Reading((*made, *rows), remarks=() if made else (words,))


_LETTERED = re.compile(
    r"\W*blocks?\s+(?P<letters>[a-z\d](?:(?:\s*,\s*|\s*,?\s*(?:and|&)\s+)(?:blocks?\s+)?[a-z\d])+)\b"
    r"\s*(?::|,|-)?\s*(?:(?:are|is)\s+)?(?:both|all)?"
)


def alike(chunks: list[Chunk], context: Context, page: Page) -> Reading | None:
    """The size of several blocks that are called by their letters: "Blocks A and B finish at 8 in"."""
    told = _LETTERED.match(page.plain, chunks[0].start, chunks[-1].end)
    if told is None:
        return None
    start, words = chunks[0].start, page.over(chunks)
    rest = [one for one in chunks if one.start >= told.end()]
    read = stated.finished([Chunk("blocks", start, start), *rest], context, page) if rest else None
    if read is None or any(one.table != "block" for one in read.entries):
        return None
    names = [f"block {one.upper()}" for one in re.findall(r"\b[a-z\d]\b", told["letters"])]

    def of_all(entries):
        return tuple(Entry("block", one.data, words, name) for one in entries for name in names)

    questions = (
        Question(words, one.text, tuple(Choice(each.label, of_all(each.changes)) for each in one.choices))
        for one in read.questions
    )
    return Reading(of_all(read.entries), tuple(questions))


_LAYOUT = re.compile(
    r"(?:\b(?:set|arranged|laid\s+out|in|layout)\W+){0,2}(?:"
    r"(?P<across>\d{1,2})\s+(?:blocks\s+)?(?:across|wide)(?:\s+(?:and|by|x)\s+|\s*[,x]\s*)(?P<down>\d{1,2})\s+(?:blocks\s+)?(?:down|deep|high|long|tall)\b"
    r"|(?P<rows>\d{1,2})\s+rows\s+of\s+(?P<of>\d{1,2})\b(?:\s+blocks\b)?"
    r"|(?:(?<=set )|(?<=\())(?P<wide>\d{1,2})\s*(?:x|by)\s*(?P<high>\d{1,2})(?=\W*$|\)))"
)
"""How the blocks stand that a line counts."""


def _without_layout(flat, page):
    """The chunks without those that say how the blocks are set, and what they say of that: none where nothing is."""
    found = _LAYOUT.search(page.plain, flat[0].start, flat[-1].end) if flat else None
    if found is None:
        return flat, {}
    across, down = (found[one] or found[two] or found[three] for one, two, three in _NUMBERS)
    rest = [one for one in flat if one.end <= found.start() or one.start >= found.end()]
    return rest, {"across": int(across), "down": int(down)}


_NUMBERS = (("across", "of", "wide"), ("down", "rows", "high"))


def _is_of_all(part):
    """Whether a part counts blocks of no kind."""
    return {one.kind for one in part} <= {"count", "blocks", "punct", "article"}


def _total(counted):
    """The part that counts all blocks, of which the others are the kinds; None where there is none."""
    numbers = [all_of(part, "count")[0].value for part in counted]
    totals = (part for part, number in zip(counted, numbers) if _is_of_all(part) and 2 * number == sum(numbers))
    return next(totals, None) if len(counted) > 2 else None


def _parted(flat, page):
    """The chunks between signs and "and"."""
    parts: list[list[Chunk]] = [[]]
    for one in flat:
        if one.kind == "and" or one.kind == "punct" and page.said(one) in ",;*-:()+":
            parts.append([])
        else:
            parts[-1].append(one)
    return parts


def _is_kind(part):
    """Whether a part counts one kind of block, and nothing else: "18 star blocks", "Star blocks 18"."""
    kinds = [one.kind for one in part if one.kind not in ("punct", "article")]
    kinds = [*kinds[-1:], *kinds[:-1]] if kinds[-2:] == ["blocks", "count"] else kinds
    return kinds[0] == "count" and {*kinds[1:]} <= {"word", "unit", "blocks", "squares"} and len(kinds) > 1


def _finished(sized):
    """The side of a square block that a part says to be finished; None where it says none."""
    for part in sized:
        texts = {*all_of(part, "length", "size")[0].value.texts}
        if count(part, "finished") == 1 and len(texts) == 1 and not count(part, "count", "squares", "role"):
            return texts.pop()
    return None


def _name(part, page):
    """What a kind of block is called; "block" where it has no name."""
    said = [page.text[one.start : one.end].lower() for one in part if one.kind in ("word", "unit")]
    words = [word for word in said if word not in _NO_NAMES | HEADS]
    return " ".join(words) or "block"
