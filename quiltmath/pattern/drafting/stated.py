"""What a page says of the whole: finished size, size of the block, seam, width of fabric, how many blocks, how they are
set."""

from __future__ import annotations

import re
from dataclasses import replace
from fractions import Fraction
from itertools import dropwhile

from .chunks import FIGURES, NAMED, Chunk, all_of, bag, count, opened
from .figures import measure
from .in_passing import CAME_OUT, once_sewn
from .model import Choice, Context, Entry, Question, Reading
from .page import Page
from .vocabulary import COLOURS, OF_FABRIC
from .widths import CLOTH

WIDEST_SEAM = Fraction(5, 8)
LEAST_QUILT, LEAST_ALONE, LARGEST_BLOCK = 5, 12, 30
MOST_OF_A_QUILT, MOST_ABOVE_ALL = 3, 5
"""Words: no more name a quilt beside its size, or where a page begins: "a rail fence lap quilt, 59 x 71 in"."""
LINES_OF_TITLE = 2
"""A size without a word stands below so many lines of a title at most, and their name."""
OF_QUILT = {"quilt", "top", "throw", "runner", "topper", "table", "wall", "hanging", "project", "lap"}
OF_SIZE = {
    "final", "overall", "size", "sizes", "measures", "measure", "measuring", "measurement", "dimensions", "finishes"
}  # fmt: skip
_NO_NAME = {
    "the", "there", "each", "all", "your", "of", "is", "are", "to", "at", "these", "quilt", "needed", "required", "my",
    "our", "last", "next", "number", "you", "will", "make", "be", "should", "that", "this", "have", "get", "we", "so"
}  # fmt: skip
_SO_FAR = {"measures", "should", "now", "here", "then"}
WHICH_SIZE = "is this the finished size of the block, or with its seam allowance?"
SETTING = {"set", "layout", "arrange", "arranged", "lay", "setting", "settings", "sets"}


def words_of(chunks: list[Chunk], page: Page) -> set[str]:
    """The words of a line that say of no figure what it is."""
    return {page.said(one) for one in chunks if one.kind in ("word", "set", "sew")}


def _entry(chunks, page, table, data, name="", remarks=()):
    return Reading((Entry(table, data, page.over(chunks), name, remarks),))


def finished(chunks: list[Chunk], context: Context, page) -> Reading | None:
    """The finished size of the quilt or of a block: "Finished quilt: 50 x 60", "Finished block: 6 in"."""
    both = _finished_and_not(chunks, page)
    if both:
        return both
    came_out = CAME_OUT.match(page.plain, chunks[0].start, chunks[-1].end) if chunks else None
    plain = opened(once_sewn(chunks, page))
    block, words = count(plain, "blocks") or count(plain, "unit"), words_of(plain, page)
    so_far = context.section == "sewing" or words & {"top", "center", "centre"} and words & _SO_FAR
    if so_far and (not count(plain, "finished", "unfinished") or words & {"center", "centre"} and "quilt" not in words):
        return None  # what is sewn so far measures so
    block = block or not context.section and _OF_THINGS.match(page.plain, chunks[0].start, chunks[-1].end) is not None
    plain = [one for one in plain if not page.said(one).startswith(("about", "approx", "abt"))]
    words = words_of(plain, page)
    some = ("finished", "blocks", "squares", "set", "unit", "other_size", "each")
    makes = ("make",) if words & OF_QUILT and not block else ()  # "Makes a 54 x 66 in quilt"
    if not bag(plain, one=(("length", "size"),), some=(*some, *makes)) or block > 1:
        return None
    chunk = all_of(plain, "length", "size")[0]
    texts, size = chunk.value.texts, chunk.value.size
    said = count(plain, "finished")
    if said > 1 or count(plain, "role", "cut", "from", "strips"):
        return None
    if count(plain, "unfinished"):
        if block and not said:
            return _entry(chunks, page, "block", {"trim_to": size}, _block_name(plain, page))
        return None
    hangs = "hanging" in words and "wall" not in words  # a sleeve does
    quilt, both = bool(words & OF_QUILT) and not hangs, len(texts) == 2 or count(plain, "squares") == 1
    large = said and not words and chunk.value.sides[0].inches >= LARGEST_BLOCK  # "Finished: 60 in square"
    if not quilt and not block and count(plain, "squares") and not large:
        return None
    if block and not quilt:
        units = [] if count(plain, "blocks") else all_of(plain, "unit")
        kind = kind_of(page.plain[units[0].start : units[0].end]) if units else None
        if said and kind:  # "Flying geese: 3 x 6 in finished": their long side lies level
            wide = sorted(zip(chunk.value.with_units(), texts), key=lambda side: -side[0].inches)
            size = [text for _, text in wide] if len(set(texts)) == 2 else size
            return _entry(chunks, page, "unit", {"kind": kind, "finished": size}, kind)
        if said:
            return _entry(chunks, page, "block", {"finished": size}, _block_name(plain, page))
        if words & OF_SIZE:
            name, at = _block_name(plain, page), page.over(chunks)
            return Reading(questions=(_which_size(at, Entry("block", {}, at, name), size),))
        return None
    if not block and any(side.inches < LEAST_QUILT for side in chunk.value.with_units()):
        return None
    most = MOST_OF_A_QUILT if context.section else MOST_ABOVE_ALL
    alone = quilt and not block and 0 < len(words - _SHOWN) <= most and not words & (CLOTH | COLOURS | OF_FABRIC)
    alone = alone and all(
        one.kind in ("word", "punct", "article", "length", "size", "squares", "note", *makes) for one in plain
    )
    of_size = said and not block or words <= OF_SIZE and (words or count(plain, "other_size"))
    before = _OF_A_NUMBER.sub("", page.plain[: chunks[0].start].strip())
    below_title = before.count("\n") < LINES_OF_TITLE and not re.search(r"\d", before)
    above = below_title and not (context.section or context.fabrics or context.role or words)
    above = above and {one.kind for one in plain} <= {"size", "punct"}
    if above and len(texts) == 2 and all(side.inches >= LEAST_ALONE for side in chunk.value.with_units()):
        return _entry(chunks, page, "sheet", {"finished": size}, "finished")  # below the title
    if both and (quilt and (said or words & OF_SIZE or alone or came_out) or (len(texts) == 2 or large) and of_size):
        return _entry(chunks, page, "sheet", {"finished": size}, "finished")
    return None


_OF_A_NUMBER = re.compile(r"^\W*(?:pattern|design)?\s*(?:no\.?|number|#)?\s*\d+\b")
"""The number of a pattern before its name."""
_OF_THINGS = re.compile(r"(?:the\s+)?[a-z]+s\s+(?:are\s+|finish\s+at\s+)\d[^x;.]*(?:in\b\.?|\")\s*(?:finished)?\W*$")
"""What the blocks of a quilt are called that a page tells the size of: "Stars are 9 in finished"."""
_SHOWN = {"the", "is", "shown", "pictured", "this", "my", "our", "here", "sample"}


def _finished_and_not(chunks, page):
    """A block with both its sizes: `Block: finished 6" (6 1/2" unfinished)`; None where these are not said."""
    notes = [one for one in chunks if one.kind == "note" and count(one.value, "length", "size")]
    outer = [one for one in chunks if one not in notes]
    if len(notes) != 1 or count(outer, "blocks") != 1:
        return None
    sizes = {}
    for part in (outer, notes[0].value):
        said, measures = all_of(part, "finished", "unfinished"), all_of(part, "length", "size")
        if not said and count(opened(chunks), "unfinished"):  # "Block size: 12 in (12 1/2 in unfinished)"
            said = [Chunk("finished", 0, 0)]
        if len(said) != 1 or not bag(part, one=(("length", "size"),), some=("finished", "unfinished", "blocks")):
            return None
        sizes["finished" if said[0].kind == "finished" else "trim_to"] = measures[0].value.size
    return _entry(chunks, page, "block", sizes, _block_name(outer, page)) if len(sizes) == 2 else None


_OF_TIME = re.compile(r"(?:week|month|year|(?:[a-z]+)?day|night|lesson|class|clue|time)'s")
"""Whose block it is tells no name: "this week's star block"."""


def _named(words):
    """The name of a block among the words before it: "week's star" is the star, and "june's" none."""
    at = max((place for place, word in enumerate(words) if _OF_TIME.fullmatch(word.casefold())), default=-1)
    words = words[at + 1 :]
    return "" if words and words[-1].endswith("'s") else " ".join(words).lower()


def _behind(chunks, page):
    """The name that stands between commas behind a block: "This week's block, Lantern, finishes at 9 in"."""
    names = [page.text[one.start : one.end].lower() for one in chunks[1:] if one.kind == "word"]
    kinds = [one.kind if one.kind == "word" else page.said(one) for one in chunks]
    ends = next((at for at, kind in enumerate(kinds) if at and kind != "word"), 0)
    return " ".join(names[: ends - 1]) if ends > 1 and kinds[0] == kinds[ends] == "," else ""


def _block_name(chunks, page):
    """What a block is called, by the word before it; "block" where it has no name."""
    words = []
    for at, one in enumerate(chunks):
        if one.kind in ("word", "unit"):
            word = page.text[one.start : one.end].replace("\u2019", "'")
            if word.casefold() not in OF_SIZE | SETTING | _NO_NAME:
                words.append(word)
        if one.kind == "blocks":
            numbered = page.text[one.start : one.end].split()
            if len(numbered) == 2:
                return f"block {numbered[1].lstrip('#').upper()}"
            label = next((chunk.value for chunk in chunks if chunk.kind == "label"), "")
            named = _named(words) or _behind(chunks[at + 1 :], page)
            return named or (f"block {label.upper()}" if label else "block")
    return "block"


def _without_exceptions(chunks, page):
    """The chunks without an "unless stated otherwise" at their end, or at their beginning."""
    at = next((place for place, one in enumerate(chunks) if page.said(one) == "unless"), len(chunks))
    behind = [*dropwhile(lambda one: one.kind != "punct", chunks[at:])]
    return [*chunks[:at], *behind] if at else behind[1:]


_OF_ALL = {
    "all", "always", "throughout", "every", "any", "given", "dimensions", "measurements", "sizes", "pattern",
    "patterns", "assumes", "assume", "assumed", "assuming", "based", "already", "used"
}  # fmt: skip
"""What makes a sentence one of all seams, where it tells of pieces too."""
_OF_SOME = {
    "trim", "trimmed", "draw", "mark", "line", "lines", "away", "beyond", "leave", "leaving", "outside", "inside",
    "backing", "clip", "add", "extra"
}  # fmt: skip
"""What is said of one seam, or of none."""
_SEAM = re.compile(r"\bseams?\b|\bs\.?a\b")


def seam(chunks: list[Chunk], context: Context, page) -> Reading | None:
    """The seam allowance: "All seams 1/4 in", also "unless stated otherwise"."""
    plain = opened(_without_exceptions(chunks, page))
    of_all = bool(words_of(plain, page) & _OF_ALL) or count(plain, "includes", "seam_allowance") > 1
    plain = _of_seam(plain, page) if of_all and not any(page.said(one) == "." for one in plain[:-1]) else plain
    words = words_of(plain, page)
    some = (
        "seam_allowance",
        "unfinished",
        "finished",
        "sew",
        "each",
        *(NAMED | {"blocks", "make", "total", "other_size", "of_each"} if of_all else ()),
    )
    told = bag(plain, one=(("length",),), some=some) and count(plain, "seam_allowance", "includes")
    if not told or words & _OF_SOME or not _SEAM.search(page.plain, chunks[0].start, chunks[-1].end):
        return None
    value = all_of(plain, "length")[0].value
    if value.sides[0].inches > WIDEST_SEAM:
        return None
    scant = "scant " if "scant" in words else ""
    return _entry(chunks, page, "sheet", {"seam": scant + value.texts[0]}, "seam")


def _of_seam(chunks, page):
    """The one clause of a sentence that has its figure, where that is of the seam: "Right sides together always, seam
    1/4 in, press away from the red"."""
    clauses: list[list[Chunk]] = [[]]
    for one in chunks:
        if page.said(one) == ",":
            clauses.append([])
        else:
            clauses[-1].append(one)
    told = [one for one in clauses if count(one, *FIGURES)]
    return told[0] if len(told) == 1 and count(told[0], "seam_allowance") else chunks


def blocks(chunks: list[Chunk], context: Context, page) -> Reading | None:
    """How many blocks are made: "Make 14 star blocks"."""
    plain = opened(chunks)
    sizes = all_of(plain, "length", "size")
    above = not context.section and not context.fabrics and not count(plain, "cut", "from")  # where a page begins
    of_pieces = any(follows(one, plain, "squares", "rectangles") for one in all_of(plain, "count"))
    of_pieces |= bool(sizes) and any(page.said(one) == "squares" for one in plain)  # "Block 1: 12 navy 3 in squares"
    of_pieces |= bool(sizes) and any(
        page.said(one) == "|" for one in plain
    )  # cells, each of its own: "59 x 70 | 20 blocks"
    of_pieces |= bool(chunks) and _IN_EACH.fullmatch(page.plain, chunks[0].start, chunks[-1].end) is not None
    if of_pieces:  # "Blocks, red: 25 squares 4 in"
        return None
    if chunks and _OF_KINDS.search(page.plain, chunks[0].start, chunks[-1].end) and count(plain, *FIGURES) == 1:
        return Reading(remarks=(page.over(chunks),))
    if count(plain, "count") == count(plain, "blocks") == 2:
        return _two_kinds(plain, context, page)
    if len(sizes) == 1 and (count(plain, "make", "finished", "unfinished") or above):
        return _blocks_of_size(sizes[0], plain, chunks, context, page)
    if not bag(plain, one=(("count",), ("blocks",)), some=("make", "total", "unit")) or count(
        plain, "from", "cut", "role"
    ):
        return None
    if not count(plain, "make", "need", "total") and len(words_of(plain, page)) > 3:
        return None
    number = all_of(plain, "count")[0].value
    if number == 1 and not count(plain, "make", "need", "total"):  # the head of how each is sewn: "One block"
        return Reading(remarks=(page.over(chunks),))
    return _entry(chunks, page, "block", {"count": number}, _block_name(plain, page))


_OF_KINDS = re.compile(r"\b(?:two|three|2|3)-block\s+(?:[a-z]+\s+)?(?:quilt|pattern|design|layout|setting)\b")
"""How many kinds of blocks a quilt has: "A two-block quilt"."""


def follows(one: Chunk, chunks: list[Chunk], *kinds: str) -> bool:
    """Whether the next chunk that is no word is of one of these kinds."""
    after = (other.kind for other in chunks if other.start >= one.end and other.kind != "word")
    return next(after, "") in kinds


_WHOLE = {"plain", "solid", "alternate", "alternating", "setting"}
"""What is said of blocks that are not pieced."""


def _two_kinds(plain, context, page):
    """Two kinds of blocks in one sentence, and the size of both: "Make 13 Star blocks and 12 Chain blocks, 9 in
    finished"."""
    (first, second), last = all_of(plain, "count"), all_of(plain, "blocks")[1]
    before = [one for one in plain if one.end <= second.start and one.kind not in ("and", "punct")]
    behind = [one for one in plain if one.start >= second.start and one.start <= last.start]
    of_both = [one for one in plain if one.start > last.start]
    if first.start > all_of(plain, "blocks")[0].start or count(of_both, "word") or words_of(plain, page) & _WHOLE:
        return None
    opens = [one for one in before if one.kind == "make"]
    reads = [blocks([*part, *of_both], context, page) for part in (before, [*opens, *behind])]
    entries = [one for read in reads if read is not None and not read.questions for one in read.entries]
    told = len(entries) == 2 and len({one.name for one in entries} - {"block"}) == 2
    return Reading(tuple(replace(one, words=page.over(plain)) for one in entries)) if told else None


_IN_EACH = re.compile(r"\W*(?:use\s+)?(?:\d+|[a-z]+)\s+(?:go\s+)?(?:to|per|for|in)\s+(?:a|each|every|one)?\s*block\W*")
"""How many units one block takes: "Four to a block"."""


def _blocks_of_size(size, plain, chunks, context, page):
    """How many blocks of a size are made: the number, and the question which size it is."""
    rest = [one for one in plain if one is not size and one.kind not in ("finished", "unfinished", "squares")]
    number = blocks(rest, context, page)
    if number is None or not number.entries:
        return None
    side = size.value.size
    told = page.over(chunks)
    made = replace(number.entries[0], words=told)
    keys = [key for kind, key in (("finished", "finished"), ("unfinished", "trim_to")) if count(plain, kind)]
    if len(keys) == 1:
        return Reading((made.but(**{keys[0]: side}),))
    if keys:
        return None
    return Reading((made,), (_which_size(told, made, side),))


def _which_size(words, block, side):
    """The question whether a block is printed finished, or with its seam allowance."""
    keys = (("finished", "finished"), ("with its seam allowance", "trim_to"))
    measured = measure(side, 0) if isinstance(side, str) else None
    if measured is not None and measured.sides[0].inches % 1 == Fraction(1, 2):  # as it is with quarter-inch seams
        keys = keys[::-1]
    choices = tuple(Choice(label, (block.but(**{key: side}),)) for label, key in keys)
    return Question(words, WHICH_SIZE, choices)


_NOT_ALL = re.compile(
    r"\bat\s+(?:a|one)\s+time\b|\bat\s+once\b|\b(?:this|that|it|each|every|one|set|pair)\s+(?:will\s+)?(?:make|yield|give)s?\b"
    r"|\b(?:lines?|apart|diagonals?|diagonally)\W+(?:to\s+)?(?:make|get|give|yield|form|create)s?\s+(?:2|two|4|four|8|eight)\b"
    r"|\b(?:makes|gives|yields)\s+(?:2|two)\b"
)
"""What is said of the units that one pair or set of squares makes, and not of them all."""


def units(chunks: list[Chunk], context: Context, page) -> Reading | None:
    """How many units are made: "Make 48 half-square triangles"."""
    plain = opened(chunks)
    if _NOT_ALL.search(page.plain, chunks[0].start, chunks[-1].end):
        return None
    measures = all_of(plain, "length", "size")
    some = ("total", "length", "size", "squares", "finished", "unfinished")
    if not bag(plain, one=(("count",), ("unit",), ("make",)), some=some) or count(plain, "from", "cut", "role"):
        return None
    if len(measures) > 1 or count(plain, "finished", "unfinished") > 1:
        return None
    nouns = [page.said(one) for one in all_of(plain, "squares")]
    if measures and (context.section == "sewing" or nouns not in ([], ["square"]) or "with" in words_of(plain, page)):
        return None  # of pieces that are cut, or a check where they are sewn
    kind = kind_of(page.said(all_of(plain, "unit")[0]))
    if kind is None:
        return None
    data = {"kind": kind, "count": all_of(plain, "count")[0].value}
    if not measures:
        return _entry(chunks, page, "unit", data, kind)
    said = all_of(plain, "finished", "unfinished")
    if not said:  # with its seam allowance or without it, the pieces tell
        return _entry(chunks, page, "unit", data, kind, (" x ".join(measures[0].value.texts),))
    key = "finished" if said[0].kind == "finished" else "trim_to"
    return _entry(chunks, page, "unit", {**data, key: measures[0].value.size}, kind)


def kind_of(unit: str) -> str | None:
    """The kind of a unit as a sheet has it.

    >>> kind_of("hsts"), kind_of("flying geese"), kind_of("pinwheels")
    ('half-square', 'flying geese', None)
    """
    if unit.startswith(("hst", "half")):
        return "half-square"
    if unit.startswith(("qst", "quarter", "hourglass")):
        return "quarter-square"
    return "flying geese" if "geese" in unit or unit.startswith("fg") else None
