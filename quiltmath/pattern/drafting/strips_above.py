"""What is said below strips of these: that pieces are cut from all of them, from some or from what is left; that some
stay whole. `Context.strips` are the strips last told, from which what follows may be."""

from __future__ import annotations

import re
from dataclasses import replace

from . import naming
from .chunks import MEASURES, Chunk, all_of, count, opened, place_of
from .figures import number
from .kept import Kept
from .model import Choice, Context, Question, Reading
from .pieces import NOUNS, piece
from .share_of_strips import Share, without_each_strip
from .strips import length_of_border, placed
from .strips_give import fits, is_narrow, sides_of, too_few
from .subcut import From, beside, pieces_of, which_total

_LEFT = re.compile(
    r"\W*(?:set|put|lay|leave|keep|reserve|save|hold)\s+(?:aside\s+)?(?:the\s+)?(?:remaining\s+|other\s+)?"
    r"\(?(?P<left>\d+|[a-z]+)\)?"
    r"(?:\s+(?:of\s+(?:these|the|those)\s+)?strips?)?"
    r"(?:\s+(?:aside|whole|uncut|as\s+(?:they\s+are|strips?)|for\b[^\d]*))*\W*$"
)
REST = (
    r"remainder|rest|left-?overs?|what(?:\s+(?:is|was)|'s)\s+left(?:\s+over)?|what\s+(?:remains|you\s+have\s+left)"
    r"|(?:remaining|left-?over)\s+(?:pieces?|fabrics?|parts?|portions?|strips?)|remaining(?=\s+strip)"
)
"""What is left of a fabric, or of strips."""
_WHICH = r"(?P<which>first|second|third|fourth|fifth|last|final|same|\d(?:st|nd|rd|th))\s+"
_WIDE = r"(?P<wide>\d[\d /.]*)\s*-?(?:\"|in(?:ch(?:es)?)?\b\.?)(?:[\s-]+wide)?\s*"
_FROM_REST = (
    rf"(?:from|out\s+of|with|using)\s+(?:the\s+)?(?:{REST})\s*"
    rf"(?:(?:of\s+)?(?:the|this|these|that|those|(?P<each>each|every))?\s*(?:{_WHICH})?(?:{_WIDE})?strips?)?,?\W*"
)
_REST = re.compile(rf"\W*(?:and\s+)?{_FROM_REST}(?:cut\b|(?=\(?\d))")
_REST_BEHIND = re.compile(rf"\s+{_FROM_REST}$")


def of_strips_above(chunks: list[Chunk], context: Context, page) -> Reading | None:
    """Pieces that are cut from the strips told before: "Sub-cut into 52 squares 3 in", or a line that stands below them
    as theirs."""
    if not context.strips:
        return None
    if chunks[-1].kind == "into" and page.plain.startswith("from", chunks[-1].start):  # "ten squares from these strips"
        chunks = [chunks[-1], *(one for one in chunks[:-1] if one.kind != "cut")]
    words, share = page.over(chunks), Share.of(page, chunks[0].start, chunks[-1].end)
    if not share and len(alone := without_each_strip(chunks)) < len(chunks):  # "8 squares from each strip"
        chunks, share = [one for one in alone if one.kind != "cut"], Share(chunks[0].start, each=True)
    if share and share.rest and context.strips_left is None and not context.strips_cut:
        return Reading(questions=(Question(words, "how many strips are cut here?"),))
    told = share or chunks[0].kind == "into"
    if not (told or context.below_strips or context.second_cut or context.wants_pieces):
        return None
    border = length_of_border(context.strips[0], chunks, context, page)
    if border is not None:
        strips = placed(context.strips[0], border.name)
        return Reading((border,), instead=((context.strips[0], strips),))
    if not told and context.strips[0].role.endswith("border"):  # which they are for
        return None
    if context.strips_before and not context.below_strips and not (share and share.used):
        return Reading(questions=(Question(words, "from which of the strips before?"),))
    first = context.strips[0]
    printed = first.data["count"] if isinstance(first.data["count"], int) else None
    if share and share.used:  # of each fat quarter
        share = share._replace(used=share.used * context.times)
    used, doubt = _used(share, printed, context.strips_left)
    if doubt:
        return Reading(questions=(Question(words, doubt),))
    strips = _from(context, used)
    which = (
        which_total(share, chunks, strips, page.words(first.words.start, words.end), context, page) if share else None
    )
    if which:
        return Reading(questions=(which,), instead=tuple((one, None) for one in context.strips))
    rest = share.of_each(chunks, used and used // context.times) if share else chunks
    rest = rest[1:] if rest and rest[0].kind == "into" else rest
    if not rest or count(rest, "wof", "strip") or count(rest, "strips") > count(opened(rest), "size"):
        return None
    if len({one.data["strip"] for one in context.strips}) > 1:
        return _of_several_widths(pieces_of(strips, rest, context, page), words, context)
    read = pieces_of(strips, rest, context, page)
    if read is None or read.questions:
        return None
    if (
        strips.long
        and used
        and (doubt := too_few(used // context.times, strips.width, strips.long, read, context.times))
    ):
        return Reading(questions=(Question(words, doubt),))
    if not (context.wants_pieces or share) and not all(is_narrow(one, strips.width) for one in read.entries):
        return None  # "sub-cut" at the end of a line is of the next, whether the pieces have room or not
    if context.second_cut and strips.width not in sides_of(read.entries[0]):
        return None
    left = printed - used if printed and used else 0
    after = [one.but(count=left) if left else None for one in context.strips]
    told = words if left else page.words(first.words.start, words.end)
    return replace(beside(strips, read, told), instead=tuple(zip(context.strips, after)))


def _of_several_widths(read, words, context):
    """Pieces that are cut from strips of several widths, each from those that are as wide as it is; asked where not all
    of these are met."""
    entries = read.entries if read and not read.questions else ()
    of = [[one for one in context.strips if one.data["strip"] in sides_of(entry)] for entry in entries]
    if any(len(strips) != 1 for strips in of) or {id(one) for (one,) in of} != {id(one) for one in context.strips}:
        return Reading(questions=(Question(words, "from which of the strips before?"),))
    found, told = [], []
    for entry, (strips,) in zip(entries, of):
        beside_it = {} if strips in told else {"strips": strips.data["count"], "strip_width": strips.data["strip"]}
        fabric = {"fabric": strips.data["fabric"]} if "fabric" in strips.data else {}
        found.append(replace(entry.but(**fabric, **beside_it), words=words, role=entry.role or strips.role))
        told.append(strips)
    return Reading(tuple(found), instead=tuple((one, None) for one in context.strips))


def _used(share, printed, left):
    """How many of the strips a sentence cuts, None where their number is open; and what is doubtful about that."""
    if printed is None:
        return None, ""
    used = share.used if share and share.used else printed - (left or 0)
    if not 0 < used <= printed:
        return printed, f"only {printed} strips stand before this: how many of them are cut?"
    if left is not None and used + left != printed:
        return used, f"{used} strips are cut here and {left} are left, of {printed}: which number is right?"
    return used, ""


def _from(context, used):
    """The strips last told, as those that so many of them are cut from."""
    first = context.strips[0]
    fabrics = tuple(dict.fromkeys(one.data["fabric"] for one in context.strips if "fabric" in one.data))
    fabrics = fabrics or context.fabrics
    width, kept = first.data["strip"], "length" not in first.data and used is not None
    size = " x ".join([width, first.data["length"]] if "length" in first.data else [width])
    told = "" if kept else ", ".join([f"cut from {first.data['count']} strips {size}", *first.remarks])
    return From(
        width, used if kept else None, fabrics, first.role, first.name, told, used, first.data.get("length", "")
    )


def of_the_rest(chunks: list[Chunk], context: Context, page) -> Reading | None:
    """Pieces that are cut from what those before them left of their strips: "from the remainder cut 1 square 6 in"."""
    first = _REST.match(page.plain, chunks[0].start, chunks[-1].end)
    rest = first or _REST_BEHIND.search(page.plain, chunks[0].start, chunks[-1].end)
    last = context.last
    if rest is None or not last or "strips" not in last[0].data:
        return None
    strips = last[0].data["strip_width"]
    if rest["wide"] and rest["wide"].strip() != strips:
        return None
    fabrics = tuple(one.data["fabric"] for one in last if "fabric" in one.data) or context.fabrics
    here = replace(context, fabrics=tuple(dict.fromkeys(fabrics)), strips=())
    cut = [one for one in chunks if (one.start >= rest.end() if first else one.end <= rest.start())]
    of_each = [one.value for one in cut if one.kind == "count" and rest["each"]]
    times = last[0].data["strips"] if of_each else 1
    cut = [one._replace(value=one.value * times) if one.kind == "count" else one for one in cut]
    read = piece(cut, here, page)
    if read is None or read.questions or not all(is_narrow(one, strips) for one in read.entries):
        return None
    which = f"the {rest['which']} of " if rest["which"] else ""
    left = f"from what is left of {which}{last[0].data['strips']} strips {strips}"
    told = f"{left}, {of_each[0]} of each" if of_each else left
    return Reading(tuple(replace(one.noted(told), words=page.over(chunks)) for one in read.entries))


def of_ready_strips(chunks: list[Chunk], page) -> tuple[list[Chunk], str, str, int | None] | None:
    """What a sentence cuts from strips that it names by their width, this, what it calls them, and how many of them it
    takes: "From your 2 1/2 in strips cut 80 squares 2 1/2 in"; None for any other."""
    at = place_of(chunks, "strips")
    before, rest = chunks[:at], chunks[at + 1 :]
    while rest and (rest[0].kind in ("cut", "punct") or page.said(rest[0]) == "you"):
        rest = rest[1:]
    if not at or before[0].kind != "from" or not count(rest, "count"):
        return None
    measures, counts = all_of(before, "length"), all_of(before, "count")
    some = not counts or page.plain.startswith(" of ", counts[0].end)  # "from 10 of the 2 1/2 in strips"
    if len(measures) != 1 or not some or {one.kind for one in before} - {"from", "word", "length", "precut", "count"}:
        return None
    named = naming.described([one for one in before[1:] if one.kind != "count"], page)
    return rest, measures[0].value.texts[0], named, counts[0].value if counts else None


_CUTS = re.compile(r"\W*(?:then\s+)?(?:cut|make|from\s+(?:these|them|those|this|it))\b", re.IGNORECASE)
_TRIMMED = re.compile(
    rf"\W*(?:then\s+)?trim\s+(?:(?P<rest>(?:the\s+|what\s+is\s+)?(?:{REST}))|[a-z\d]+\s+of\s+(?:the|these|your)\b.*?)"
    r"\s+(?:down\s+)?(?:in)?to\b"
)


def trimmed(chunks: list[Chunk], context: Context, page) -> Reading | None:
    """Pieces that others are trimmed to: "trim the rest to (3) 2 x 4 1/2 in", "trim 9 of the strips to 2 x 36 in"."""
    match = _TRIMMED.match(page.plain, chunks[0].start, chunks[-1].end)
    if match is None:
        return None
    before = [one for one in chunks if one.start < match.end()]
    behind = [one for one in chunks if one.start >= match.end()]
    counted = [] if match["rest"] else [one._replace(end=match.end()) for one in all_of(before, "count")[:1]]
    nouns = [] if count(behind, *NOUNS) else [one for one in before if one.kind in ("squares", "pieces")]
    sewn = count(before, "unit", "segments", "blocks", "rows", "strip_set", "role")
    if not counted and not match["rest"] or sewn or not count(behind, *MEASURES):
        return None
    read = piece([*counted, *nouns, *behind], replace(context, strips=()), page)
    if read is None or read.questions:
        return read
    words = page.over(chunks)
    told = page.words(match.start(), match.end()).text
    return Reading(tuple(replace(one.noted(told), words=words) for one in read.entries))


def stay_whole(chunks: list[Chunk], page) -> bool:
    """Whether a sentence says no more than that so many stay as they are: "Keep 4 whole"."""
    match = _LEFT.match(page.plain, chunks[0].start, chunks[-1].end)
    return match is not None and chunks[-1].kind != "role" and re.search(r"\b(?:whole|uncut)\W*$", match[0]) is not None


def left_whole(chunks: list[Chunk], context: Context, page) -> Reading | None:
    """How many of the strips told before stay as they are: "Leave (2) strips whole", "Set 4 aside"."""
    match = _LEFT.match(page.plain, chunks[0].start, chunks[-1].end)
    found = number(match["left"], 0) if match else None
    if found is None or not found.whole or not context.strips:
        return None
    left = int(found.value) * context.times
    words, there = page.over(chunks), context.strips[0].data["count"]
    if not isinstance(there, int) or left > there or (context.strips_cut and left != there):
        return Reading(questions=(Question(words, "how many of these strips stay whole?"),))
    flat = opened(chunks)
    if count(flat, "role"):
        return _set_aside(flat, left, words, context, page)
    context.strips_left = left
    return Reading((), (), (words,))


def _set_aside(flat, left, words, context, page):
    """Strips that stay whole for a place in the quilt, apart from the others told with them."""
    role = naming.role(flat, replace(context, role=""), page.plain)
    alone = len(context.strips) == 1 and context.strips_left is None
    if role in ("", "?") or not alone or flat[-1].kind not in ("role", "punct", "strips"):
        return Reading(questions=(Question(words, "where in the quilt do these strips belong?"),))
    (strips,) = context.strips
    others = strips.but(count=strips.data["count"] - left) if left < strips.data["count"] else None
    kept = replace(placed(strips.but(count=left), role), words=page.words(strips.words.start, words.end))
    return Reading((kept,), instead=((strips, others),))


_CELLS = re.compile(r"\S(?: {3,}|\t| \| )\S")

_GAP = re.compile(r" {3,}|\t[ \t]*| *\| *|\s*(?:→|-{1,2}>|=>)\s*")
"""What stands between strips and what is cut from them, in the next cell or behind an arrow."""


def behind_pieces(read: Reading, page) -> Reading:
    """What a row of a table says, strips in its last cell as those that its pieces are cut from, where they take just
    so many: "Log 1   2 x 3 1/2 in   35   Light, 4 strips 2 in"."""
    if len(read.entries) != 2 or read.questions or read.instead:
        return read
    pieces, strips = read.entries
    bare = (
        strips.table == "cut"
        and not strips.role
        and {"strip", "count"} <= {*strips.data} <= {"fabric", "strip", "count"}
    )
    if not bare or not isinstance(strips.data["count"], int) or strips.data.get("fabric") != pieces.data.get("fabric"):
        return read
    if not _CELLS.search(page.plain, pieces.words.start, strips.words.start) or "strips" in pieces.data:
        return read
    number, width = strips.data["count"], strips.data["strip"]
    return (
        replace(read, entries=(pieces.but(strips=number, strip_width=width),)) if fits(width, number, pieces) else read
    )


_STAY = re.compile(r"\((?:[^()]*\b)?(?:leave|left|keep|stay|remain)s?\s+(?:them\s+)?(?:whole|uncut)\b", re.IGNORECASE)
"""What a bracket behind strips says of them, from which nothing is cut then: "(leave whole, for strip sets)"."""


def or_besides(read: Reading, kept: Kept, context: Context, page) -> Reading:
    """What was read, asked where it may be cut from the strips right before it and nothing says so."""
    cut = [one for one in read.entries if one.table in ("cut", "strip_set")]
    of_prints = _from_strips_of_prints(cut, read, kept, context, page)
    if of_prints:
        return of_prints
    if read.instead or len(cut) != 1 or "size" not in cut[0].data or not context.strips or context.strips_cut:
        return read
    between = page.plain[context.strips[0].words.end : cut[0].words.start]
    if _STAY.search(between) or _STAY.search(context.strips[0].words.text):
        return read
    question = _from_them_or_besides(cut[0], context, _GAP.fullmatch(between) is not None)
    if question is None:
        return read
    kept.put(context.strips[0])
    kept.understood.append(context.strips[0].words)
    rest = tuple(one for one in read.entries if one is not cut[0])
    told = between.strip() == ";" and _CUTS.match(cut[0].words.text)  # "2 strips 9 in; cut 5 squares 9 in"
    strips = context.strips[0].data
    if told or _GAP.fullmatch(between) and fits(strips["strip"], strips["count"], cut[0]):
        return replace(read, entries=(*question.choices[0].changes, *rest))
    return replace(read, entries=rest, questions=(*read.questions, question))


def _from_strips_of_prints(cut, read, kept, context, page):
    """What was read, pieces of each of several prints that begin with "cut" right behind strips of it, and take just so
    many of these, as cut from them; None for any other."""
    strips = context.last[0] if len(context.last) == 1 and "strip" in context.last[0].data else None
    if read.instead or len(cut) != 1 or strips is None or "per_print" not in strips.data:
        return None
    (entry,) = cut
    between = page.plain[strips.words.end : entry.words.start].strip(" .;,")
    alike = entry.data.get("fabric") == strips.data.get("fabric") and "per_print" in entry.data
    if not alike or between or strips.role not in ("", entry.role) or not _CUTS.match(entry.words.text):
        return None
    if not fits(strips.data["strip"], strips.data["per_print"], entry.but(count=entry.data["per_print"])):
        return None
    kept.put(strips)
    kept.understood.append(strips.words)
    of_them = entry.noted(f"cut from {strips.data['per_print']} strips {strips.data['strip']} of each")
    of_them = replace(of_them, words=page.words(strips.words.start, entry.words.end))
    return replace(read, entries=tuple(of_them if one is entry else one for one in read.entries))


def _from_them_or_besides(entry, context, in_next_cell):
    """The question whether pieces are cut from the strips that stand right before them, where just so many strips are
    what they need, or they are as wide and stand in the next cell of a row."""
    strips = context.strips[0]
    printed, width = strips.data.get("count"), strips.data["strip"]
    alone = len(context.strips) == 1 and strips.role in ("", entry.role)
    if not alone or not isinstance(printed, int) or "length" in strips.data or "per_print" in entry.data:
        return None
    as_told = fits(width, printed, entry) or in_next_cell and width in sides_of(entry)
    if entry.data.get("fabric") not in (None, strips.data.get("fabric")) or not as_told:
        return None
    from_them = replace(entry.but(strips=printed, strip_width=width), words=strips.words)
    told = f"are these cut from the {printed} strip{'s' * (printed > 1)} {width} before them, or besides?"
    choices = (Choice("from these strips", (from_them,)), Choice("besides", (strips, entry)))
    return Question(entry.words, told, choices)


def remember(read: Reading, kept: Kept, context: Context) -> None:
    """Keep in mind the strips from which what follows may be cut."""
    told = (one for one in read.entries if one.table == "cut" and "strip" in one.data)
    strips = tuple(one for one in told if isinstance(one.data.get("count"), int))
    if read.instead:
        before = [one for one, _ in read.instead]
        context.strips = tuple(one for _, one in read.instead if one)
        context.strips_cut, context.wants_pieces = bool(context.strips), False
        kept.unfilled = [one for one in kept.unfilled if one not in before]
    elif strips:
        same = [one.data["strip"] == two.data["strip"] and not one.role for one, two in zip(context.strips, strips)]
        context.strips_before = any(same) and not context.wants_pieces
        context.strips, context.strips_cut, context.strips_left = strips, len(strips) < len(read.entries), None
        kept.unfilled += strips if context.wants_pieces else ()
    elif read.entries or read.questions:
        context.strips, context.wants_pieces = (), False
