"""The lines of a cutting list that say strips: across the width of fabric, of another length, sewn end to end, as
borders and as binding."""

from __future__ import annotations

import re
from dataclasses import replace
from fractions import Fraction

from . import naming
from .brackets import LEAST_WIDTH, without_checks
from .chunks import FIGURES, Chunk, all_of, bag, chunked, count, opened
from .counted import is_part
from .figures import long_side
from .model import Choice, Context, Entry, Question, Reading
from .pieces import PART_WIDTHS, WHOLE_WIDTHS, article_counts, asked, described_at_length, entries, sized_each

MEASURED = (("length", "size", "strip"),)
ALSO_OF_STRIPS = ("strips", "wof", "lengthwise", "bias", "total")
BINDING = "binding"
WIDEST_OF_STRIPS = 3
"""Inches: no strip of a binding is cut wider (common practice)."""
WIDEST_BINDING, SHORTEST_BINDING = Fraction(5), Fraction(20)
LONGEST_BOUGHT = Fraction(90)
"""Inches: no more fabric is bought for a binding alone."""
WIDEST_STRIP = Fraction(12)
LONGEST_STRIP = Fraction(120)
"""Inches: no strip is cut longer across a fabric."""


def strip(chunks: list[Chunk], context: Context, page) -> Reading | None:
    """The reading of a line that says strips of one strip width."""
    chunks = _along_the_selvage(counted_by(sized_each(article_counts(chunks))))
    if is_part(chunks, page):
        return None
    counts = all_of(chunks, "count")
    plain, finished = without_checks(chunks, counts[0].value if counts else 0)
    plain = opened(plain)
    if (
        finished is not None
        or not bag(plain, one=(("count",), *MEASURED), some=ALSO_OF_STRIPS)
        or described_at_length(plain)
    ):
        return None
    measured = all_of(plain, "length", "size", "strip")[0]
    role = naming.role(plain, context, page.plain)
    across = measured.kind == "strip" or count(plain, "wof", "lengthwise", "bias") or (role == "binding")
    if not (count(plain, "strips") or across or ("border" not in role and _as_long_as_wide(measured))):
        return None
    if measured.value.across == "lof" or count(plain, "lengthwise"):
        lengthwise = {"lengthwise": True}
    else:
        lengthwise = {}
    counts = all_of(plain, "count")
    printed = counts[0].value
    texts = measured.value.texts
    so_long = measured.value.sides[0].along.startswith("l")
    if len(texts) == 1 and (so_long or not lengthwise and long_side(texts[0])[0] >= LEAST_WIDTH):  # not so wide
        return None
    if any(long_side(text)[0] < Fraction(1, 2) for text in texts):
        return asked(chunks, page, f"{texts[0]} is very small: what is the strip width?")
    if len(texts) == 1 and (_may_be_a_range(counts[0], measured, page) or measured.value.sides[0].value < 1):
        read = _as_role({"strip": texts[0], "count": printed, **lengthwise}, role, plain, chunks, context, page)
        other = f"{printed} {texts[0]}" if measured.value.sides[0].value < 1 else f"{printed} to {texts[0]}"
        said = f"{printed} of {texts[0]}"
        return asked(chunks, page, f"is this {other}, or {said}?", Choice(said, read.entries))
    if measured.value.sides[0].value < 1:
        return asked(chunks, page, "is this one mixed number, or a count and a fraction?")
    if len(texts) == 1:
        return _as_role({"strip": texts[0], "count": printed, **lengthwise}, role, plain, chunks, context, page)
    return _of_two_lengths(texts, printed, lengthwise, measured, role, plain, chunks, context, page)


def _along_the_selvage(chunks):
    """The chunks, pieces of two sides that lie along the selvage called strips: "2 pieces 10 x 140 cm, lengthwise"."""
    lies = count(chunks, "lengthwise", "size") == 2 and count(chunks, "pieces", "rectangles") == 1
    if not lies or count(chunks, "strips", "length"):
        return chunks
    return [one._replace(kind="strips") if one.kind in ("pieces", "rectangles") else one for one in chunks]


def _as_long_as_wide(measured):
    """Whether a size of no noun is that of strips, as long as fabric is wide."""
    short, long = sorted(map(long_side, (measured.value.texts * 2)[:2]))
    least, most = WHOLE_WIDTHS[long[1]]
    inches = long[0] * (Fraction(254, 100) if long[1] == "cm" else 1)
    return measured.kind == "size" and long[2] and least <= inches <= most and short[0] <= WIDEST_STRIP


def counted_by(chunks):
    """The chunks of strips across the width of fabric, their count parted from the strip width behind an "x"."""
    sizes = all_of(chunks, "size")
    if len(sizes) != 1 or not count(chunks, "wof") or count(chunks, "count"):
        return chunks
    first, *rest = sizes[0].value.sides
    if len(rest) != 1 or not first.whole or first.unit or first.along:
        return chunks
    width = sizes[0].value._replace(start=rest[0].start, sides=tuple(rest))
    at = chunks.index(sizes[0])
    parts = [Chunk("count", first.start, first.end, int(first.value)), Chunk("length", width.start, width.end, width)]
    return [*chunks[:at], *parts, *chunks[at + 1 :]]


def _may_be_a_range(counted, measured, page):
    """Whether a hyphen between two numbers may mean "to", as in `1-2" strips`."""
    between = page.plain[counted.end : measured.start]
    return (
        between.strip() == "-"
        and measured.kind == "length"
        and measured.value.sides[0].value > counted.value
        and measured.value.sides[0].inches <= 4
    )


def _of_two_lengths(texts, printed, lengthwise, measured, role, plain, chunks, context, page):
    """Strips with both their lengths printed: as long as the fabric is wide, or of another length, or cut to size."""
    width, long = sorted(texts, key=lambda text: long_side(text)[0])
    inches, unit, whole = long_side(long)
    least, most = WHOLE_WIDTHS[unit]
    low, high = PART_WIDTHS[unit]
    own = float(inches) * (2.54 if unit == "cm" else 1)
    border = "border" in role
    if role == BINDING and printed > 1 and own > float(LONGEST_STRIP) and not lengthwise:  # the whole length
        return None
    if measured.value.sides[0].whole and not measured.value.sides[0].unit and not all_of(plain, "count"):
        return None
    across = not lengthwise and all(side.unit != "yd" for side in measured.value.sides)
    if across and whole and least <= own <= most:
        sized = border and not context.across and printed <= 4 and role.endswith(("side", "top"))
        if sized:
            as_strip = _as_role({"strip": width, "count": printed}, role, plain, chunks, context, page)
            as_piece = entries({"size": texts, "count": printed}, chunks, context, page)
            return asked(
                chunks,
                page,
                f"is {long} the width of fabric, or the length of this border?",
                Choice("across the width of fabric", as_strip.entries),
                Choice("cut to this length", as_piece.entries),
            )
        return _as_role(
            {"strip": width, "count": printed, **lengthwise}, role, plain, chunks, context, page, (f"{long} long",)
        )
    if role == "binding" or (across and whole and low <= own <= high and not border and "sash" not in role):
        return _as_role(
            {"strip": width, "length": long, "count": printed, **lengthwise}, role, plain, chunks, context, page
        )
    return entries({"size": texts, "count": printed, **lengthwise}, chunks, context, page)


def _as_role(data, role, plain, chunks, context, page, remarks=()):
    """Strips as a line of the cutting list, or, where they are that, as the binding."""
    if role != "binding":
        return entries(data, chunks, context, page, remarks=remarks)
    if {"length", "lengthwise"} & data.keys():  # a line of the cutting list of its own, which the binding names
        read = entries(data, chunks, context, page, remarks=remarks)
        part = Entry("binding", {"part": BINDING}, page.over(chunks))
        return Reading((*(replace(one, name=BINDING) for one in read.entries), part), read.questions)
    if count(plain, "bias"):
        data["style"] = "bias"
    in_all = replace(context, per_print=False)
    read = entries(data, chunks, in_all, page, "binding", remarks)
    if context.per_print and len(read.entries) == 1:
        whole = Choice(f"{data['count']} in all", (replace(read.entries[0], name=""),))
        return asked(chunks, page, "how many strips of binding are cut in all?", whole)
    if len(read.entries) > 1:
        choices = (Choice(one.data["fabric"], (replace(one, name=""),)) for one in read.entries)
        return asked(chunks, page, "from which fabric is the binding cut?", *choices)
    return replace(read, entries=tuple(replace(one, name="") for one in read.entries))


def whole_binding(chunks: list[Chunk], context: Context, page) -> Reading | None:
    """Binding of which only the whole length is printed: "enough 2 1/2 in bias strips to total 340 in"."""
    plain = opened(chunks)
    measures = all_of(plain, "length", "yards")
    if len(measures) != 2 or all_of(plain, "count", "size", "doubt", "strip", "caution", "each", "squares"):
        return None
    if naming.role(plain, context, page.plain) != "binding":
        return None
    short, long = sorted(measures, key=lambda one: one.value.sides[0].inches)
    told = count(plain, "total", "make", "enough", "for", "bias") or long.value.sides[0].inches > LONGEST_BOUGHT
    if not told or short.value.sides[0].inches > WIDEST_BINDING or long.value.sides[0].inches < SHORTEST_BINDING:
        return None
    data = {"strip": short.value.texts[0], "length": long.value.texts[0]}
    if count(plain, "bias"):
        data["style"] = "bias"
    read = entries(data, chunks, context, page, "binding")
    return replace(read, entries=tuple(replace(one, name="") for one in read.entries))


def open_count(chunks: list[Chunk], context: Context, page) -> Reading | None:
    """Strips of an open count: "enough 2 in strips for the border"."""
    plain = opened(chunks)
    if count(plain, "enough") != 1 or not bag(
        plain, one=(("enough",), ("length", "strip"), ("strips",)), some=("make", "wof", "into")
    ):
        return None
    data = {"strip": all_of(plain, "length", "strip")[0].value.texts[0], "count": "enough"}
    return _as_role(data, naming.role(plain, context, page.plain), plain, chunks, context, page)


def parted(chunks: list[Chunk]) -> list[list[Chunk]]:
    """The chunks parted where a new count begins: at "and" or a comma before one."""
    parts: list[list[Chunk]] = [[]]
    for place, one in enumerate(chunks):
        behind = chunks[place + 1] if place + 1 < len(chunks) else None
        begins = one.kind in ("and", "punct", "into") and behind is not None and behind.kind == "count"
        if begins and count(parts[-1], "length", "size") and count(parts[-1], "count"):
            parts.append([])
            continue
        parts[-1].append(one)
    return [part for part in parts if part]


def joined(chunks: list[Chunk], context: Context, page) -> Reading | None:
    """Strips that are sewn end to end for a border, or for sashing: the strips, and the printed lengths that they are
    cut to."""
    at = next((place for place, one in enumerate(chunks) if one.kind == "end_to_end"), None)
    above = context.strips[0] if at == 0 and len(context.strips) == 1 and not context.strips_cut else None
    if at is None or at == 0 and above is None:
        return None
    before = [one for one in chunks[:at] if one.kind not in ("sew", "into")]
    while before and before[-1].kind in ("and", "punct"):
        before.pop()
    if above:  # "Piece strips to make (2) 2 x 60 in side borders and …"
        read = _joined(above, chunks, at, page.words(above.words.start, chunks[-1].end), context, page)
        return read and replace(read, instead=((above, None),))
    read = strip(before, context, page)
    if read is None or len(read.entries) != 1:
        return None
    words = page.over(chunks)
    return _joined(replace(read.entries[0], words=words), chunks, at, words, context, page)


def _joined(entry, chunks, at, words, context, page):
    """Strips that are joined, and what they are cut to behind that."""
    rest = [one for one in opened(chunks[at + 1 :]) if one.kind not in ("into", "strips")]
    if not count(rest, *FIGURES, "cut", "caution"):  # "joined end to end for the border"
        place = naming.role(rest, replace(context, role=entry.role), page.plain)
        return Reading((placed(replace(entry, words=words), place),)) if place not in ("", "?") else None
    lengths: list[tuple[str, str, int]] = []
    for part in parted(rest):
        cut = _length_of(part, entry.data.get("strip"), context, page)
        if cut is None:
            return None
        lengths.append(cut)
    entry = replace(entry, words=words)
    if entry.table != "cut":
        return Reading((entry,)) if not lengths else None
    if lengths and "strip" in entry.data and {role or entry.role for _, role, _ in lengths} == {"sashing"}:
        return Reading(tuple(joined_piece(entry, long, number) for long, _, number in lengths))
    role = next((role for _, role, _ in lengths if "border" in role), entry.role)
    in_pairs = bool(lengths) and all(number == 2 for *_, number in lengths)
    role = role or ("border" if in_pairs or not lengths else "")
    if "border" not in role:  # what is cut from them are pieces
        return None
    entry = replace(entry, role=naming.border_of(role))
    if not lengths:
        return Reading((entry,))
    if "strip" not in entry.data or "length" in entry.data:
        return None
    return _lengths_beside(entry, lengths, words)


def joined_piece(strips: Entry, long: str, number: int) -> Entry:
    """So many pieces so long, cut from strips that are joined."""
    width = strips.data["strip"]
    data = {**strips.data, "strip": None, "size": [width, long], "count": number}
    told = f"cut from {strips.data['count']} strips {width}, joined"
    return replace(strips.noted(told, **data), role="sashing")


def _length_of(part, width, context, page):
    """One border of a strip that was joined: (its length, its role, how many)."""
    if not bag(part, one=(("count",), ("length", "size")), some=("strips", "pieces", "rectangles", "make", "total")):
        return None
    texts = all_of(part, "length", "size")[0].value.texts
    if len(texts) == 2 and width not in texts:
        return None
    long = max(texts, key=lambda text: long_side(text)[0])
    return long, _side_of_border(part, context, page), all_of(part, "count")[0].value


def _side_of_border(part, context, page):
    """For which sides of a border a length of it is, where that is said with it: "(sides)", "for top and bottom"."""
    role, said = naming.role(part, context, page.plain), page.plain[part[0].start : part[-1].end]
    if role and not role.endswith("border"):
        return role
    side, top = (re.search(words, said) for words in (r"\bsides?\b", r"\b(?:top|bottom)s?\b"))
    place = "" if bool(side) == bool(top) else " side" if side else " top"
    return f"{role or 'border'}{place}" if place else role


def length_of_border(strips: Entry, chunks: list[Chunk], context: Context, page) -> Entry | None:
    """What a line below strips that are joined for a border tells of its sides, or of its top and bottom; None where it
    tells of none: "2 - 5 1/2 in x 46 1/2 in side borders"."""
    above = opened(chunked(page.plain, strips.words.start, chunks[0].start))
    behind = chunks[1:] if chunks[0].kind == "into" else chunks  # "Join, and cut:"
    told = _length_of(opened(behind), strips.data.get("strip"), replace(context, role=""), page)
    if told is None or strips.role and "border" not in strips.role or not count(above, "end_to_end", "pieced", "sew"):
        return None
    long, role, number = told
    key = {"side": "sides_length", "top": "top_length"}.get(role.rpartition(" ")[2])
    words = page.over(chunks)
    return Entry("border", {key: long}, words, naming.border_of(strips.role or role)) if key and number == 2 else None


def _lengths_beside(entry, lengths, words):
    """The strips of a border with the lengths they are cut to; which are the sides is asked where it is not said."""
    name = naming.border_of(entry.role)
    by_side = {}
    for long, role, number in lengths:
        for side, key in (("side", "sides_length"), ("top", "top_length")):
            if role.endswith(side) and number == 2:
                by_side[key] = long
    if len(by_side) == len(lengths):
        return Reading((entry, Entry("border", by_side, words, name)))
    if len(lengths) == 1 and lengths[0][2] == 4:
        return Reading(
            (entry, Entry("border", {"sides_length": lengths[0][0], "top_length": lengths[0][0]}, words, name))
        )
    if len(lengths) != 2 or any(number != 2 for _, _, number in lengths):
        return Reading(
            (entry,),
            (Question(words, "which of these lengths are the sides of the border, and which its top and bottom?"),),
        )
    one, other = lengths[0][0], lengths[1][0]
    choices = tuple(
        Choice(
            f"sides {sides}, top and bottom {top}",
            (Entry("border", {"sides_length": sides, "top_length": top}, words, name),),
        )
        for sides, top in ((one, other), (other, one))
    )
    return Reading(
        (entry,), (Question(words, f"which of these lengths are the sides of the border, {one} or {other}?", choices),)
    )


def placed(strips: Entry, place: str) -> Entry:
    """Strips as those of a place in the quilt, or as the binding; those of another length are a part that it names."""
    if place != BINDING:
        return replace(strips, role=place)
    bare = {*strips.data} <= {"fabric", "strip", "count"}
    return replace(strips, table=BINDING, name="") if bare else strips
