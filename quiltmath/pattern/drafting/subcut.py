"""Strips that are only the way to pieces, told in one sentence with these: the pieces, and beside the first of them the
strips, to be checked. What the lines below strips say of them stands in `strips_above.py`.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from typing import NamedTuple

from . import naming
from .chunks import MEASURES, Chunk, all_of, count, opened
from .counted import so_many_strips
from .figures import long_side
from .model import Choice, Context, Entry, Question, Reading, Words
from .pieces import NOUNS, article_counts, piece, sized_each
from .share_of_strips import Share, without_each_strip
from .strips import counted_by, parted
from .strips_give import LEAST_WIDTHS, fits, in_all, is_narrow, sides_of, too_few, whole_width

_BESIDE = re.compile(
    r"[/|=(:;-]?|[,;:-]?\s*cut|,?\s*then|[,;-]?\s*(?:(?:to\s+|which\s+|that\s+)?(?:make|yield|give|get|produce)s?(?:\s+you)?|for)(?:\s+a\s+total\s+of)?\s*:?"
)
"""What stands between strips and the pieces they give, side by side."""
_EACH_TRIMMED = re.compile(r"trim\s+(?:each|them|all)(?:\s+(?:one|strip))?\s+(?:down\s+)?to\b")


class From(NamedTuple):
    """Strips that pieces are cut from: their strip width, how many (None where several numbers are told, or none),
    their fabrics, the place in the quilt and the label that are told of them; a remark where their number is not kept.
    """

    width: str
    number: int | None
    fabrics: tuple[str, ...] = ()
    role: str = ""
    label: str = ""
    told: str = ""
    of_each: int | None = None
    """How many of them there are of each print or in each set, where these are several, or of some other length."""
    long: str = ""
    """How long they are, where that is not the width of fabric."""

    def entry(self, words, number) -> Entry:
        """So many of them as a line of the cutting list."""
        fabric = {"fabric": self.fabrics[0]} if len(self.fabrics) == 1 else {}
        return Entry("cut", {**fabric, "strip": self.width, "count": number}, words, self.label, (), self.role)


def sub_cut(chunks: list[Chunk], context: Context, page) -> Reading | None:
    """Strips and their pieces in one sentence: "(5) 2 1/2 in x WOF strips, sub-cut (75) 2 1/2 in squares"."""
    if context.strip_set is None and not count(chunks, "strip_set", "sew"):
        chunks = [one._replace(kind="pieces") if one.kind == "segments" else one for one in chunks]
    verb = _verb(chunks, page)
    at = _begins_pieces(chunks, page) if verb is None else verb
    if not at:
        return None
    strips = _strips(chunks[:at], context, page)
    if strips is None:
        return None
    rest, words = chunks[at:] if verb is None else chunks[at + 1 :], page.over(chunks)
    if all(one.kind in ("punct", "make") for one in rest):  # the pieces stand on lines of their own
        context.wants_pieces = strips.number is not None
        return Reading((strips.entry(words, strips.number),)) if strips.number else Reading((), (), (words,))
    trimmed = _EACH_TRIMMED.match(page.plain, rest[0].start)
    if trimmed and strips.number:
        to, start = [one for one in rest if one.start >= trimmed.end()], rest[0].start
        rest = [Chunk("count", start, start, strips.number), *to, Chunk("rectangles", words.end, words.end)]
    share = Share.of(page, chunks[at].start, chunks[-1].end) if verb is not None else None
    if not share and len(alone := without_each_strip(rest)) < len(rest):  # "sub-cut 8 squares 5 in from each strip"
        share, rest = Share(rest[0].start, each=True), alone
    if share:
        which = which_total(share, rest, strips, words, context, page)
        if which:
            return Reading(questions=(which,))
        behind = share.of_each(rest, strips.number or strips.of_each, context.prints or 1)
        if behind is None or share.rest or (share.used and not (strips.number and share.used <= strips.number)):
            return None
        if share.each and strips.number is None:
            figures = zip((one.value for one in all_of(rest, "count")), ("from each", "in all"))
            strips = strips._replace(told=", ".join([strips.told, *(f"{value} {said}" for value, said in figures)]))
        rest = behind
    read = pieces_of(strips, rest, context, page)
    if read is None or read.questions:
        return read and Reading(questions=tuple(Question(words, one.text) for one in read.questions))
    narrow = all(is_narrow(one, strips.width) for one in read.entries)
    if not narrow and strips.number is None:  # with their number the sheet tells both, and the review judges
        doubt = f"strips of {strips.width} give no such pieces: how wide are the strips, and how large the pieces?"
        return Reading(questions=(Question(words, doubt),))
    if (
        strips.long
        and strips.of_each
        and (doubt := too_few(strips.of_each, strips.width, strips.long, read, context.times))
    ):
        return Reading(questions=(Question(words, doubt),))
    joined = count(chunks[:at], "end_to_end") or _are_joined(chunks[at:], page)
    if strips.number and joined and narrow:  # they give pieces that are longer than one of them
        if in_all(read.entries) > strips.number * LEAST_WIDTHS[-1]:
            doubt = f"{strips.number} strips are too few for these lengths: how many are they, and how long?"
            return Reading(questions=(Question(words, doubt),))
        strips = strips._replace(number=None, told=f"cut from {strips.number} strips {strips.width}, joined")
    made = chunks[at - 1].kind == "make"  # "3 strips 4 1/2 in - yield 24 rectangles"
    if verb is None and not made and not (strips.number and fits(strips.width, strips.number, read.entries[0])):
        return None
    if share and share.used and strips.number and share.used < strips.number:
        left = strips.entry(words, strips.number - share.used)
        return beside(strips._replace(number=share.used), read, words, (left,))
    return beside(strips, read, words)


_JOINED = re.compile(
    r"\(\s*(?:all\s+|both\s+)?(?:joined|pieced|seamed|sewn\s+end\s+to\s+end)(?:\s+(?:as\s+needed|first))?\s*\)"
)


def _are_joined(behind, page):
    """Whether a bracket behind pieces says that their strips are joined: "(joined)"."""
    return any(_JOINED.fullmatch(page.said(one)) for one in behind if one.kind == "note")


def each_trimmed(chunks: list[Chunk], context: Context, page) -> Reading | None:
    """Strips that are each trimmed to a size: "4 strips 2 in x WOF -> trim each to 2 x 41 in"."""
    found = _EACH_TRIMMED.search(page.plain, chunks[0].start, chunks[-1].end)
    return sub_cut(chunks, context, page) if found and count(chunks, "into") else None


def _verb(chunks, page):
    """Where a sentence begins to tell what strips are cut into, at "sub-cut" or the "into" of "cut one strip into"."""
    verb = next((place for place, one in enumerate(chunks) if one.kind == "into"), None)
    apart = [place for place, one in enumerate(chunks) if page.said(one) == "into"]
    before = chunks[: apart[0]] if apart and verb is None else []
    of_strips = count(before, "strips", "wof", "strip") and count(before, "count", "article") == 1
    return apart[0] if of_strips else verb


def strips_behind(chunks: list[Chunk], context: Context, page) -> Reading | None:
    """Pieces, and behind them the strips they are cut from: "36 squares 3 in (cut from 3 strips 3 in x WOF)"."""
    noted = in_a_bracket(chunks)
    if noted:
        chunks, flat = [*chunks[:-1], *noted], [*chunks[:-1], *noted]
    else:
        flat = opened(chunks)
    at = max((place for place, one in enumerate(flat) if one.kind in ("from", "into")), default=0)
    before = [one for one in flat[:at] if one.kind != "cut" or one is flat[0]]
    if not count(before, *MEASURES) or not count(flat[at + 1 :], "count"):
        return None
    strips = _strips(flat[at + 1 :], replace(context, fabrics=()), page)
    read = piece(before, context, page) if strips else None
    if read is None or read.questions or not all(is_narrow(one, strips.width) for one in read.entries):
        return None
    return beside(strips._replace(role="", label=""), read, page.over(chunks))


def strips_counted(chunks: list[Chunk], context: Context, page) -> Reading | None:
    """Pieces, and behind them how many strips they are cut from, as wide as they are: "36 squares 3 in (3 strips)"."""
    notes = [(one, _counted_strips(one.value)) for one in chunks if one.kind == "note"]
    notes = [(one, number) for one, number in notes if number]
    if len(notes) != 1 or context.per_print or context.times > 1:
        return None
    ((note, number),) = notes
    rest = [one for one in chunks if one is not note]
    if not rest or count(rest, "strips", "strip", "wof", "into") or count(opened(rest), *MEASURES) != 1:
        return None
    read = piece(rest, context, page)
    if read is None or read.questions or len(read.entries) != 1:
        return None
    (cut,) = read.entries
    widths = list(dict.fromkeys(sides_of(cut)))
    met = widths if len(widths) == 1 else [one for one in widths if fits(one, number, cut)]
    if len(met) != 1:  # a rectangle may be cut either way
        return None
    return Reading((replace(cut.but(strips=number, strip_width=met[0]), words=page.over(chunks)),))


def _counted_strips(inside):
    """How many strips a bracket says that pieces are cut from, and no more than that; 0 where it does not."""
    told = [one for one in inside if one.kind not in ("punct", "cut", "wof", "from", "need", "word", "article")]
    return told[0].value if [one.kind for one in told] == ["count", "strips"] else 0


def beside_several(read: Reading, noted: list[Chunk], context: Context, page) -> Reading | None:
    """Several pieces with the strips that a bracket behind the last says that they are cut from."""
    strips = _strips(noted[1:], replace(context, fabrics=()), page)
    if strips is None or read.questions or not all(is_narrow(one, strips.width) for one in read.entries):
        return None
    words = page.words(read.entries[0].words.start, noted[-1].end)
    found = beside(strips._replace(role="", label=""), read, words)
    return found and replace(found, entries=(found.entries[0], *read.entries[1:]))


def in_a_bracket(chunks: list[Chunk]) -> list[Chunk]:
    """The chunks of a bracket that only counts strips of a size, behind pieces, as if it said that these are cut from
    them: "36 squares 3 in (3 strips 3 in)"; nothing where none does."""
    inside = chunks[-1].value if chunks[-1].kind == "note" else []
    inside = inside[next((at for at, one in enumerate(inside) if one.kind != "word"), 0) :]  # "that's 3 strips 3 in"
    kinds = [one.kind for one in inside if one.kind not in ("punct", "cut", "wof")]
    if sorted(kinds) not in (["count", "length", "strips"], ["count", "strip", "strips"], ["count", "strip"]):
        return []
    return [Chunk("from", chunks[-1].start, chunks[-1].start + 1), *inside]


def _begins_pieces(chunks, page):
    """Where pieces begin that stand beside the strips they are cut from, parted by a stroke or a blank alone: "4 strips
    3 x 42 / 52 squares 3"; None where no such line is."""
    counts = [place for place, one in enumerate(chunks) if one.kind == "count"]
    between = chunks[1 : counts[1]] if len(counts) > 1 else []
    behind = [
        one for one in between if one.kind == "cut" and page.plain[between[0].start : one.start].rstrip()[-1:] in ";,:-"
    ]
    numbered = behind and chunks[0].kind == "strips"  # "Strip 2: 6 1/2 in - cut 6 squares" counts none
    if len(counts) < 2 or numbered or any(one.kind in ("and", "from", "cut") and one not in behind for one in between):
        return None
    before = [
        one
        for one in chunks[: counts[1]]
        if one.kind not in ("punct", "make", "cut", "end_to_end") and page.said(one) != "then"
    ]
    joined = all_of(chunks[: counts[1]], "end_to_end")
    between = page.plain[[*before, *joined][-1].end : chunks[counts[1]].start].strip()
    if between in (":", ";") and naming.described(chunks[counts[1] :], page):  # of another fabric
        return None
    nouns = [one.kind for one in chunks[counts[1] :] if one.kind in (*NOUNS, "strips")]
    if before[-1].kind not in ("strips", "wof", "length", "size", "strip"):
        return None
    if (
        not _BESIDE.fullmatch(between)
        or not count(before, "strips", "wof", "strip")
        or nouns[:1] not in (["squares"], ["rectangles"], ["pieces"])
    ):
        return None
    return counts[1]


def _strips(chunks, context, page):
    """The strips that a sentence begins with; None where it tells of others, or of none."""
    chunks = so_many_strips(counted_by(sized_each(article_counts(opened(chunks)))))
    measures = all_of(chunks, "length", "size", "strip")
    if len(measures) != 1 or not (count(chunks, "strips", "wof") or measures[0].kind == "strip"):
        return None
    if any(
        one.kind in ("doubt", "each", "of_each", "sew", "strip_set", "yards", "squares", "triangles") for one in chunks
    ):
        return None
    if any(page.said(one) == "together" for one in chunks):
        return None
    either = {page.said(one) for one in all_of(chunks, "caution")}
    if either - {"or"} or not either and count(chunks, "count") > 1:
        return None
    fabrics, gainsaid = naming.fabrics(chunks, context, page)
    if gainsaid:
        return None
    texts, counts = measures[0].value.texts, [one.value for one in all_of(chunks, "count")]
    width, long = (pick(texts, key=lambda text: long_side(text)[0]) for pick in (min, max))
    whole = (len(texts) == 1 or whole_width(long)) and len(counts) == 1
    alone = whole and context.times == 1 and not context.per_print
    size = width if len(texts) == 1 or whole_width(long) else " x ".join(texts)
    told = "" if alone else f"cut from {' or '.join(map(str, counts)) or 'some'} strips {size}"
    role = naming.role(chunks, context, page.plain).replace("?", "")
    label = naming.label(chunks, fabrics, context)
    of_each = counts[0] if len(counts) == 1 and not alone else None
    return From(width, counts[0] if alone else None, fabrics, role, label, told, of_each, "" if whole else long)


def pieces_of(strips, rest, context, page):
    """What is cut from strips: the pieces of each part; None where one of them is none."""
    here = replace(context, fabrics=strips.fabrics, strips=())
    found: list[Entry] = []
    for part in parted(rest):
        sizes = all_of(part, "size") if count(part, "strips") else []
        if any(whole_width(max(one.value.texts, key=lambda text: long_side(text)[0])) for one in sizes):
            return None  # strips again
        if count(part, "size"):  # strips of two lengths are pieces
            part = [one._replace(kind="rectangles") if one.kind == "strips" else one for one in part]
        read = piece(part, here, page, strips.width)
        if read is None:
            return None
        if read.questions:
            return read
        found += read.entries
    return Reading(tuple(found))


def which_total(
    share: Share, chunks: list[Chunk], strips: From, words: Words, context: Context, page
) -> Question | None:
    """The question how many pieces come from strips of which so many give another number than the page says in all."""
    other = share.other_total(chunks, strips.number) if strips.number and context.times == 1 else None
    if other is None or context.per_print:
        return None
    before, told = other
    (each,) = all_of(before, "count")
    choices = []
    for number_of in (told, each.value):
        cut = [one._replace(value=number_of) if one is each else one for one in before]
        read = pieces_of(strips, cut[cut[0].kind == "into" :], context, page)
        if read is None or read.questions or not (found := beside(strips, read, words)):
            return None
        choices.append(Choice(f"{number_of} in all", found.entries))
    asks = f"{strips.number} strips give {each.value} of these, and in all the page says {told}: which is right?"
    return Question(words, asks, tuple(choices))


def beside(strips, read, words, more: Sequence[Entry] = ()):
    """The pieces with the strips beside the first."""
    if not read.entries:
        return None
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
