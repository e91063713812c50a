"""Strips that are only the way to pieces: the pieces, and beside the first of them the strips, to be checked.

What is cut from strips is told on their line or on the lines below, behind a verb ("sub-cut into"), an arrow or a deeper
indent; `Context.strips` are the strips last told, from which these may be.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from math import ceil, floor
from typing import NamedTuple

from . import naming
from .chunks import MEASURES, Chunk, all_of, count, opened
from .figures import number
from .model import Choice, Context, Entry, Question, Reading, Words
from .pieces import NOUNS, WHOLE_WIDTHS, article_counts, long_side, piece, sized_each
from .strips import counted_by, parted

_NUMBER_OF = (
    r"(?:the\s+)?(?:(?P<{0}rest>rest|remaining|others?|remainder)|\(?(?P<{0}used>[a-z]+|\d+)\)?)\s*"
    r"(?:of\s+(?:the|these|those|them)\s*)?(?:strips?\s*)?,?\s*"
)
_SOME = re.compile(
    rf"\W*(?:(?:then|now|next|and)\s+)?(?:(?:sub|cross|re)?[\s-]*cut(?:ting)?\s+)?{_NUMBER_OF.format('')}(?:in)?to\b"
    rf"|\W*from\s+{_NUMBER_OF.format('from_')}cut\b"
)
"""How many of the strips a sentence cuts: "cut 5 into", "sub-cut two strips into", "from 3 of the strips, cut"."""
_EACH = re.compile(
    r"\W*(?:(?:then|now|next|and)\s+)?(?:(?:(?:sub|cross|re)?[\s-]*cut(?:ting)?\s+)each"
    r"(?:\s+(?:of\s+(?:the|these|those)\s+)?strips?)?\s+(?:in)?to\b"
    r"|from\s+each\s+(?:of\s+(?:the|these|those)\s+)?strips?\s*,?\s*cut\b)"
)
"""That so many pieces are cut from each of the strips."""
_BESIDE = re.compile(r"[/|=(-]?|,?\s*then|,?\s*(?:to\s+)?(?:make|yield|give|get|produce|for)s?(?:\s+a\s+total\s+of)?\s*:?")
"""What stands between strips and the pieces they give, side by side."""
_LEFT = re.compile(
    r"\W*(?:set|leave|keep|reserve|save|hold)\s+(?:aside\s+)?\(?(?P<left>\d+|[a-z]+)\)?(?:\s+(?:of\s+(?:these|the|those)\s+)?strips?)?"
    r"(?:\s+(?:aside|whole|uncut|as\s+(?:they\s+are|strips?)|for\b[^\d]*))*\W*$"
)
_REST = re.compile(
    r"\W*(?:and\s+)?(?:from|out\s+of)\s+(?:the\s+)?(?:remainder|rest|remaining(?=\s+strip)|leftovers?|what(?:\s+is|'s)\s+left)\s*"
    r"(?:(?:of\s+)?(?:the|this|these|that|those)?\s*strips?)?\W*cut\b"
)
LEAST_WIDTHS = range(*WHOLE_WIDTHS["in"])


class From(NamedTuple):
    """Strips that pieces are cut from: their strip width, how many (None where several numbers are told), the fabrics,
    the place in the quilt and the label that are told of them, and the entries that they are as yet."""

    width: str
    number: int | None
    words: Words
    fabrics: tuple[str, ...]
    role: str = ""
    label: str = ""
    told: str = ""
    entries: tuple[Entry, ...] = ()


def sub_cut(chunks: list[Chunk], context: Context, page) -> Reading | None:
    """Strips and their pieces in one sentence: "(5) 2 1/2 in x WOF strips, sub-cut (75) 2 1/2 in squares"."""
    at = next((place for place, one in enumerate(chunks) if one.kind == "into"), None)
    beside = at is None
    at = _begins_pieces(chunks, page) if beside else at
    if not at:
        return None
    rest = chunks[at:] if beside else chunks[at + 1 :]
    strips = _strips(chunks[:at], context, page)
    if strips is None:
        return None
    words = page.words(chunks[0].start, chunks[-1].end)
    if all(one.kind in ("punct", "make") for one in rest):  # the pieces stand on lines of their own
        if strips.number is None:
            return Reading((), (), (words,))
        data = {"fabric": strips.fabrics[0]} if len(strips.fabrics) == 1 else {}
        kept = Entry("cut", {**data, "strip": strips.width, "count": strips.number}, words, strips.label, (), strips.role)
        context.wants_pieces = True
        return Reading((kept,))
    used, rest = _some(chunks[at].start, rest, page)
    if "each" in page.plain[chunks[at].start : chunks[at].end]:
        if used is not None or strips.number is None:
            return None
        rest = [one._replace(value=one.value * strips.number) if one.kind == "count" else one for one in rest]
    read = _pieces(strips, rest, context, page)
    if read is None or read.questions:
        return read and Reading(questions=tuple(Question(words, one.text) for one in read.questions))
    if beside and not (strips.number and fits(strips.width, strips.number, read.entries[0])):
        return None
    if used is not None and strips.number and used < strips.number:
        data = {"fabric": strips.fabrics[0]} if len(strips.fabrics) == 1 else {}
        whole = {**data, "strip": strips.width, "count": strips.number - used}
        strips = strips._replace(number=used)
        return _beside(strips, read, words, (Entry("cut", whole, words, "", (), strips.role),))
    return None if used is not None and used != strips.number else _beside(strips, read, words)


def of_strips_above(chunks: list[Chunk], context: Context, page) -> Reading | None:
    """Pieces that are cut from the strips told before: "Sub-cut into 52 squares 3 in", or a line that stands below them
    as theirs."""
    if not context.strips:
        return None
    first = context.strips[0]
    some = _SOME.match(page.plain, chunks[0].start, chunks[-1].end)
    used = _number(some["used"] or some["from_used"]) if some else None
    the_rest = some is not None and (some["rest"] or some["from_rest"]) and context.strips_left is not None
    each = _EACH.match(page.plain, chunks[0].start, chunks[-1].end)
    told = chunks[0].kind == "into" or used is not None or the_rest or each
    if not (told or context.below_strips or context.second_cut):
        return None
    if told and used is None and context.strips_before:
        return Reading(questions=(Question(page.words(chunks[0].start, chunks[-1].end), "from which of the strips before?"),))
    behind = each.end() if each else some.end() if used is not None or the_rest else chunks[0].start
    rest = [one for one in chunks if one.start >= behind]
    rest = rest[1:] if rest and rest[0].kind == "into" else rest
    if not rest or count(rest, "strips", "wof", "strip"):
        return None
    printed, left = first.data["count"], context.strips_left
    if isinstance(printed, int) and left is not None:
        used = printed - left if used is None else used
    if used is not None and (not isinstance(printed, int) or not 0 < used <= printed):
        return None
    if used is not None and left is not None and used + left != printed:
        asks = f"{used} strips are cut here and {left} are left, of {printed}: which number is right?"
        return Reading(questions=(Question(page.words(chunks[0].start, chunks[-1].end), asks),))
    number = printed if used is None else used
    if each:
        if not isinstance(number, int):
            return None
        rest = [one._replace(value=one.value * number) if one.kind == "count" else one for one in rest]
    words = page.words(chunks[0].start, chunks[-1].end)
    fabrics = tuple(one.data["fabric"] for one in context.strips if "fabric" in one.data) or context.fabrics
    whole = "length" not in first.data and isinstance(number, int)
    told = "" if whole else f"cut from {printed} strips {first.data['strip']}"
    strips = From(
        first.data["strip"], number if whole else None, first.words, fabrics, first.role, first.name, told, context.strips
    )
    read = _pieces(strips, rest, context, page)
    if read is None or read.questions or not all(_narrow(one, strips.width) for one in read.entries):
        return None
    if context.second_cut and strips.width not in _sides(read.entries[0]):
        return None
    if isinstance(printed, int) and used is not None and used < printed:
        after = [one.but(count=printed - used) for one in context.strips]
    else:
        after = [None] * len(context.strips)
    here = _beside(strips, read, page.words(first.words.start, words.end) if after[0] is None else words)
    return replace(here, instead=tuple(zip(context.strips, after)))


def strips_behind(chunks: list[Chunk], context: Context, page) -> Reading | None:
    """Pieces, and behind them the strips they are cut from: "36 squares 3 in (cut from 3 strips 3 in x WOF)"."""
    flat = opened(chunks)
    at = max((place for place, one in enumerate(flat) if one.kind in ("from", "into")), default=0)
    behind = flat[at + 1 :]
    if not at or not count(behind, "count") or not count(behind, "strips", "wof", "strip") or not count(behind, *MEASURES):
        return None
    strips = _strips(behind, replace(context, fabrics=()), page)
    before = [one for one in flat[:at] if one.kind != "cut" or one is flat[0]]
    read = piece(before, context, page) if strips and count(before, *MEASURES) else None
    if read is None or read.questions or not read.entries or not all(_narrow(one, strips.width) for one in read.entries):
        return None
    return _beside(strips._replace(role="", label=""), read, page.words(chunks[0].start, chunks[-1].end))


def of_the_rest(chunks: list[Chunk], context: Context, page) -> Reading | None:
    """Pieces that are cut from what the pieces before them left of their strips: "from the remainder cut 1 square 6 in"."""
    rest = _REST.match(page.plain, chunks[0].start, chunks[-1].end)
    last = context.last
    if rest is None or not last or "strips" not in last[0].data:
        return None
    strips = last[0].data["strip_width"]
    fabrics = tuple(one.data["fabric"] for one in last if "fabric" in one.data) or context.fabrics
    here = replace(context, fabrics=tuple(dict.fromkeys(fabrics)), strips=())
    read = piece([one for one in chunks if one.start >= rest.end()], here, page)
    if read is None or read.questions or not all(_narrow(one, strips) for one in read.entries):
        return None
    words = page.words(chunks[0].start, chunks[-1].end)
    told = f"from what is left of {last[0].data['strips']} strips {strips}"
    return Reading(tuple(replace(one, words=words, remarks=(*one.remarks, told)) for one in read.entries))


def left_whole(chunks: list[Chunk], context: Context, page) -> Reading | None:
    """How many of the strips told before stay as they are: "Leave (2) strips whole", "Set 4 aside"."""
    match = _LEFT.match(page.plain, chunks[0].start, chunks[-1].end)
    number = _number(match["left"]) if match else None
    if number is None or not context.strips:
        return None
    words, there = page.words(chunks[0].start, chunks[-1].end), context.strips[0].data["count"]
    if not isinstance(there, int) or number > there or (context.strips_cut and number != there):
        return Reading(questions=(Question(words, "how many of these strips stay whole?"),))
    context.strips_left = number
    return Reading((), (), (words,))


def may_be_cut_from(entry: Entry, context: Context, words: Words) -> Question | None:
    """The question whether pieces are cut from the strips that stand right before them, where just so many strips are
    what they need."""
    strips = context.strips
    if len(strips) != 1 or strips[0].role or entry.role or "length" in strips[0].data or not isinstance(strips[0].data.get("count"), int):
        return None
    if strips[0].data.get("fabric") != entry.data.get("fabric") or "per_print" in {**strips[0].data, **entry.data}:
        return None
    width, number = strips[0].data["strip"], strips[0].data["count"]
    if not fits(width, number, entry):
        return None
    besides = replace(entry, words=words)
    from_them = replace(entry.but(strips=number, strip_width=width), words=strips[0].words)
    told = f"are these cut from the {number} strips {width} before them, or besides?"
    return Question(words, told, (Choice("from these strips", (from_them,)), Choice("besides", (strips[0], besides))))


def fits(width: str, number: int, entry: Entry) -> bool:
    """Whether pieces of an entry take just so many strips of this width, for one usable width of fabric."""
    wanted, sides = entry.data.get("count"), _sides(entry)
    if not isinstance(wanted, int) or width not in sides:
        return False
    along = long_side(sides[1] if sides[0] == width else sides[0])[0]
    gives = {floor(wide / along) for wide in LEAST_WIDTHS}
    return any(one and ceil(wanted / one) == number for one in gives)


def _number(word):
    found = number(word, 0) if word else None
    return int(found.value) if found and found.whole and found.end == len(word) else None


def _narrow(entry, width):
    """Whether a piece is no wider than the strips, one way or the other."""
    return min((long_side(side)[0] for side in _sides(entry)), default=WHOLE_WIDTHS["cm"][1]) <= long_side(width)[0]


def _sides(entry):
    """Both sides of a piece; none of what has no size."""
    size = entry.data.get("size", [])
    return [size, size] if isinstance(size, str) else size


def _some(start, rest, page):
    """How many of the strips are cut, where it is told behind the verb, and the chunks behind that."""
    some = _SOME.match(page.plain, start, rest[-1].end)
    used = _number(some["used"] or some["from_used"]) if some else None
    return (None, rest) if used is None else (used, [one for one in rest if one.start >= some.end()])


def _begins_pieces(chunks, page):
    """Where pieces begin that stand beside the strips they are cut from, parted by a stroke or a blank alone: "4 strips
    3 x 42 / 52 squares 3"; None where no such line is."""
    counts = [place for place, one in enumerate(chunks) if one.kind == "count"]
    if len(counts) < 2 or any(one.kind in ("and", "from", "cut") for one in chunks[1 : counts[1]]):
        return None
    before = [one for one in chunks[: counts[1]] if one.kind not in ("punct", "make") and page.plain[one.start : one.end] != "then"]
    between = page.plain[before[-1].end : chunks[counts[1]].start].strip()
    nouns = [one.kind for one in chunks[counts[1] :] if one.kind in (*NOUNS, "strips")]
    if before[-1].kind not in ("strips", "wof", "length", "size", "strip"):
        return None
    if not _BESIDE.fullmatch(between) or not count(before, "strips") or nouns[:1] not in (["squares"], ["rectangles"]):
        return None
    return counts[1]


def _strips(chunks, context, page):
    """The strips that a sentence begins with; None where it tells of others, or of none."""
    chunks = counted_by(sized_each(article_counts(opened(chunks))))
    measures = all_of(chunks, "length", "size", "strip")
    if len(measures) != 1 or not (count(chunks, "strips", "wof") or measures[0].kind == "strip"):
        return None
    if any(
        one.kind in ("doubt", "each", "of_each", "sew", "strip_set", "yards", "squares", "triangles") for one in chunks
    ):
        return None
    if any(one.kind == "caution" and page.plain[one.start : one.end] != "or" for one in chunks):
        return None
    fabrics, gainsaid = naming.fabrics(chunks, context, page)
    if gainsaid:
        return None
    texts, counts = measures[0].value.texts, [one.value for one in all_of(chunks, "count")]
    width, long = (pick(texts, key=lambda text: long_side(text)[0]) for pick in (min, max))
    whole = (len(texts) == 1 or _whole_width(long)) and len(counts) == 1
    alone = whole and context.times == 1 and not context.per_print
    told = "" if alone else f"cut from {' or '.join(map(str, counts)) or 'some'} strips {width}"
    words = page.words(chunks[0].start, chunks[-1].end)
    role = naming.role(chunks, context, page.plain).replace("?", "")
    label = next((one.value for one in chunks if one.kind == "label"), "").upper()
    return From(width, counts[0] if alone else None, words, fabrics, role, label, told)


def _pieces(strips, rest, context, page):
    """What is cut from strips: the pieces of each part; None where one of them is none."""
    here = replace(context, fabrics=strips.fabrics, strips=())
    found: list[Entry] = []
    for part in parted(rest):
        if count(part, "size"):  # strips of two lengths are pieces
            part = [one._replace(kind="rectangles") if one.kind == "strips" else one for one in part]
        read = piece(part, here, page, strips.width)
        if read is None:
            return None
        if read.questions:
            return read
        found += read.entries
    return Reading(tuple(found))


def _beside(strips, read, words, more: Sequence[Entry] = ()):
    """The pieces with the strips beside the first."""
    printed = {} if strips.number is None else {"strips": strips.number, "strip_width": strips.width}
    first = read.entries[0]
    told = [strips.told] if strips.told else []
    found = [
        replace(
            one.but(**printed) if _is_of(one, first) else one,
            words=words,
            role=one.role or strips.role,
            name=one.name or strips.label,
            remarks=(*one.remarks, *told),
        )
        for one in read.entries
    ]
    return Reading((*more, *found))


def _is_of(entry, first):
    """Whether a piece is the first that is cut from its strips: of each fabric one is."""
    return all(entry.data.get(key) == first.data.get(key) for key in ("size", "count", "per_print"))


def _whole_width(text):
    inches, unit, whole = long_side(text)
    least, most = WHOLE_WIDTHS[unit]
    return whole and least <= float(inches) * (2.54 if unit == "cm" else 1) <= most


