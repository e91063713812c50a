"""The lines of a cutting list that say pieces: so many, of a size, in any order, whole or cut on the diagonal."""

from __future__ import annotations

import re
from dataclasses import replace

from . import groups, naming, triangles
from .brackets import cut_size_first, without_checks
from .chunks import FIGURES, MEASURES, Chunk, all_of, bag, count, opened
from .counted import about_so_many, for_the_quilt, in_sets, is_part, of_a_quilt
from .figures import LEAST_SIZE, Measure, long_side
from .model import Choice, Context, Entry, Question, Reading
from .triangles import DIAGONAL, GIVES
from .vocabulary import ROLES

NOUNS = ("squares", "rectangles", "pieces")
ALSO_OF_TRIANGLES = ("into", "make", "total", "triangles", "unit", *DIAGONAL)
LININGS = ("backing", "batting")
WHOLE_WIDTHS = {"in": (40, 45), "cm": (100, 115)}
PART_WIDTHS = {"in": (18, 22), "cm": (45, 56)}
_OF_SQUARES = ("setting square", "corner square", "cornerstone")
"""The places of squares alone."""
LARGEST = 36  # inches: no square and no strip is cut larger, or wider


def entries(
    data, chunks: list[Chunk], context: Context, page, table: str = "cut", remarks=(), place: str | None = None
) -> Reading:
    """The entry of a line for each of its fabrics, its count for all that the head above it says; a question where its
    words gainsay that head."""
    words = page.words(chunks[0].start, _closed(page, chunks[0].start, chunks[-1].end))
    fabrics, gainsaid = naming.fabrics(chunks, context, page)
    counts = {data.get("count"), data.get("triangles")}
    told = [
        one for one in chunks if one.kind != "note" or {each.value for each in all_of(one.value, "count")} <= counts
    ]
    role = naming.role(opened(told), context, page.plain) if place is None else place
    if role == "?":
        return _of_two_places(data, chunks, context, page, table)
    if role in _OF_SQUARES and ("strip" in data or isinstance(data.get("size"), list)):
        role = role if naming.roles(opened(chunks), page.plain) else ""  # that of the line before
    lining = next((one for one in (role, *(ROLES.get(name.casefold()) for name in fabrics)) if one in LININGS), "")
    if table == "cut" and lining and place is None:
        read = entries(data, chunks, context, page, place=" ")
        top = tuple(replace(one, role="") for one in read.entries)
        return asked(chunks, page, f"is this cut for the top, or for the {lining}?", Choice("for the top", top))
    label = naming.label(chunks, fabrics, context)
    data, more = _for_all(data, context)
    made = [
        Entry(table, {"fabric": fabric, **data} if fabric else dict(data), words, label, (*remarks, *more), role)
        for fabric in fabrics or ("",)
    ]
    if len(made) == 1 and not context.fabrics and groups.of_two_fabrics(chunks, context, page):
        return asked(chunks, page, "is this the number of each of these fabrics, or of both?")
    if not fabrics and table == "cut" and _from_what(chunks, context, page):
        return asked(chunks, page, "from what is this cut?", Choice("as it is here", tuple(made)))
    said = "" if fabrics or table != "cut" else naming.unknown(chunks, page)
    if said:
        choices = [Choice(f"yes, {said}", tuple(one.but(fabric=said) for one in made)), Choice("no", tuple(made))]
        return Reading(questions=(Question(words, f"is {said} the fabric of these?", tuple(choices), True),))
    if gainsaid:
        said = naming.told(chunks, page)
        other = naming.known(said, context.known) or said
        choices = [
            Choice(f"from {fabric}", tuple(one.but(fabric=fabric) for one in made[:1])) for fabric in (*fabrics, other)
        ]
        return Reading(
            questions=(
                Question(words, f"{' and '.join(fabrics)}, as the head above says, or {said}?", tuple(choices), True),
            )
        )
    return Reading(tuple(made))


def _from_what(chunks, context, page):
    """Whether a line says that it is cut from something, in words that name no fabric: "from the scraps"; the remainder
    is that of the line before."""
    flat = opened(chunks)
    flat = [one for one in flat if page.said(one) != "the"]
    behind = [flat[place + 1] for place, one in enumerate(flat[:-1]) if one.kind == "from"]
    remains = bool(context.last) and re.search(r"\bremainder\b", page.plain[flat[0].start : flat[-1].end])
    scraps = any(page.said(one) == "scraps" for one in flat)
    return scraps or not remains and any(one.kind in ("word", "left_over") for one in behind)


def _closed(page, start, end):
    """Where a line ends, with the bracket that closes what it opens."""
    open_ = page.plain.count("(", start, end) > page.plain.count(")", start, end)
    return end + 1 if open_ and page.plain[end : end + 1] == ")" else end


def _of_two_places(data, chunks, context, page, table):
    """The question about a line that names two places in the quilt, or stands below a head that does."""
    above = context.role.split(naming.EITHER) if naming.EITHER in context.role else []
    choices = [
        Choice(one, entries(data, chunks, context, page, table, place=one).entries)
        for one in above or naming.roles(opened(chunks), page.plain)
    ]
    return asked(chunks, page, "where in the quilt does this belong?", *choices)


def _for_all(data, context):
    """The figures of a line for all that its head says: times so many sets, or from each of so many prints."""
    data, remarks = dict(data), ()
    if "count" in data and data["count"] != "enough":
        if context.per_print:
            data = {("per_print" if key == "count" else key): value for key, value in data.items()}
        elif context.times > 1:
            remarks = (f"{context.times} sets of {data['count']}",)
            data["count"] *= context.times
            if "triangles" in data:
                data["triangles"] *= context.times
    return data, remarks


def asked(chunks: list[Chunk], page, text: str, *choices: Choice) -> Reading:
    """A question about a line."""
    return Reading(questions=(Question(page.over(chunks), text, choices),))


def size_of(chunk: Chunk, noun: str) -> tuple[int | None, str | list[str] | None, str]:
    """The size that a measure gives a piece: (a count that stood in it, the size, what is doubtful)."""
    value: Measure = chunk.value
    sides = value.with_units()
    texts = value.texts
    counted = None
    if noun == "squares" and len(sides) == 2 and sides[0].inches != sides[1].inches:
        if not (value.sides[0].whole and not value.sides[0].unit):
            return None, None, "squares have two equal sides: which of these is meant?"
        counted, texts, sides = int(sides[0].value), texts[1:], sides[1:]
    small = [text for text, side in zip(texts, sides) if side.inches < LEAST_SIZE]
    if small:
        return counted, None, f"{small[0]} is very small: what is the size?"
    if len(texts) == 1:
        return counted, texts[0], ""
    if any(side.unit != sides[0].unit and side.unit for side in sides):
        return counted, None, "two units in one size: which is meant?"
    if noun == "rectangles" and texts[0] == texts[1]:
        return counted, None, "a rectangle whose sides are equal is a square: is another size meant?"
    return counted, texts[0] if texts[0] == texts[1] else texts, ""


def piece(chunks: list[Chunk], context: Context, page, size: str | None = None) -> Reading | None:
    """The reading of a line that says one kind of piece; `size` is that of the strip it is cut from, for squares of
    which none is printed."""
    if context.per_print or context.times > 1:  # of one print, in one set, all are
        chunks = [one for one in chunks if page.said(one) != "matching"]
    chunks, about = about_so_many(chunks, page)
    chunks, of_sets = in_sets(chunks, page)
    chunks, of_quilt = for_the_quilt(chunks, page)
    about += (*of_sets, *of_quilt)
    for told_plainly in _IN_PLAIN_ORDER:
        chunks = told_plainly(chunks)
    if is_part(chunks, page):
        return None
    ways = triangles.told_by_number(chunks)
    if ways:
        return _one_of(ways, chunks, context, page, size)
    loose = triangles.loosely_told(chunks, page)
    if loose:
        cut, rest, behind = loose
        read = piece([*rest, Chunk(cut, rest[-1].end, rest[-1].end), *behind], context, page, size)
        told = count(behind, "triangles", "unit") or naming.role(chunks, context, page.plain).endswith("triangle")
        placed = behind and triangles.place(chunks, page)
        if read is None or not read.entries or told or placed:
            return read
        return asked(chunks, page, "is this cut on the diagonal?", Choice(f"yes, {cut}", read.entries))
    labelled = triangles.gainsaid(chunks, page) or triangles.crossed(chunks, page)
    if labelled:
        return _one_of(labelled, chunks, context, page, size)
    of_squares = naming.role(opened(chunks), context, page.plain) in ("cornerstone", "setting square")
    if of_squares and not count(chunks, *NOUNS, "strips"):
        chunks = [*chunks, Chunk("squares", chunks[-1].end, chunks[-1].end)]  # what else
    nouns = all_of(chunks, *NOUNS)
    diagonal = all_of(chunks, *DIAGONAL)
    noun = nouns[0].kind if nouns else ""
    counts = all_of(chunks, "count")
    given = triangles.counted(chunks) if diagonal else None
    pieces = [one for one in counts if one is not given]
    printed = pieces[0].value if pieces else 0
    told = given.value if given else printed * GIVES[diagonal[0].kind] if diagonal else 0
    size_texts = [text for one in all_of(chunks, "length", "size") for text in one.value.texts]
    plain, finished = without_checks(chunks, printed, told, size_texts)
    in_all = context.prints or 0 if context.per_print else context.times
    if in_all > 1:  # a bracket may come to all that the head above says
        plain, more = without_checks(plain, printed * in_all, told * in_all, size_texts)
        finished = finished or more
    plain = opened(plain)
    if len({one.kind for one in all_of(plain, *DIAGONAL)}) > 1 or len(all_of(plain, *NOUNS)) > 1:
        return None
    if not diagonal and all_of(plain, *DIAGONAL):  # said in a bracket
        spread = [*plain]
        return piece(
            [Chunk("punct", one.start, one.end) if one.kind == "note" else one for one in spread], context, page, size
        )
    rest = [one for one in plain if one is not given]
    measures = all_of(rest, "length", "size")
    if len(measures) > 1:
        return None
    in_all_told = ("total",) if in_all <= 1 and not context.each_block else ()
    some = (*NOUNS, *(ALSO_OF_TRIANGLES if diagonal else ()), *(("total", "make") if size else in_all_told))
    as_counted = bool(measures) and noun == "squares" and bag(rest, one=(("size",),), some=some)  # 18 x 3 1/2
    if not as_counted and not bag(rest, one=(("count",), *((("length", "size"),) if measures else ())), some=some):
        return None
    if not measures:
        if size is None or noun != "squares":
            return None
        found: str | list[str] | None = size
    else:
        counted, found, doubt = size_of(measures[0], noun)
        if doubt:
            return asked(chunks, page, doubt, *_of_either_side(measures[0], printed, chunks, context, page))
        if counted is not None:
            if pieces:
                return None
            printed = counted
        if not pieces and counted is None:
            return None
        if _apart(measures[0], rest):
            return _count_or_mixed(printed, found, chunks, context, page)
    if found is None or described_at_length(plain) or _cut_in_other_words(plain):
        return None
    if size is not None and measures and measures[0].kind == "length" and noun != "squares" and not diagonal:
        found = (
            size if found == size else [size, *measures[0].value.texts]
        )  # "sub-cut 24 at 4 1/2 in", "into 24 rectangles 4 1/2 in"
    elif noun == "rectangles" and isinstance(found, str) and measures[0].kind == "length":
        return asked(chunks, page, "a rectangle has two sides: what is the other?")
    as_wide = size is not None and isinstance(found, list) and size in found  # as the strips they are cut from
    if not noun and count(plain, "unfinished") and context.section == "sewing":  # what is sewn measures so
        return None
    if not noun and not as_wide and _names_a_thing(chunks, context, page):
        yes = Choice("yes", entries({"size": found, "count": printed}, chunks, context, page).entries)
        return None if of_a_quilt(measures, context) else asked(chunks, page, "are these squares or rectangles?", yes)
    if size is None and noun in ("", "pieces") and measures and measures[0].kind == "length" and not diagonal:
        return _square_or_strip(chunks, context, page, printed, found)
    if diagonal and noun == "rectangles":
        return asked(chunks, page, "rectangles cut on the diagonal: which way does the cut run?")
    data = {"size": found, "count": printed}
    if diagonal:
        data["cut"] = diagonal[0].kind
        if given:
            data["triangles"] = given.value
    if finished is not None:
        data["finished"] = finished.size
    place = None
    role = naming.role(chunks, context, page.plain)
    if role == "setting triangle":
        place = "side triangle" if data.get("cut") == "twice" else None
    if not role and diagonal:
        place = triangles.place(chunks, page)
    read = entries(data, chunks, context, page, remarks=about, place=place)
    gives = printed * GIVES[diagonal[0].kind] if given else 0
    left = triangles.left_over(chunks)
    if given and left and given.value + left == gives:
        used = f"{given.value} triangles used, {left} left over"
        return replace(read, entries=tuple(one.noted(used, triangles=gives) for one in read.entries))
    if given and given.value != gives:
        return _miscounted(printed, diagonal[0].kind, given.value, read, chunks, page)
    return read


def _miscounted(squares, cut, told, read, chunks, page):
    """The question about squares that do not give as many triangles as are printed, or do so cut otherwise."""
    gives = squares * GIVES[cut]
    choices = [Choice(f"{gives} triangles", tuple(one.but(triangles=None) for one in read.entries))]
    for other, each in GIVES.items():
        if squares * each == told:
            label = f"cut {other} on the diagonal, {told} triangles"
            choices.append(Choice(label, tuple(one.but(cut=other) for one in read.entries)))
    choices.append(Choice(f"{told} as printed, to be checked", read.entries))
    return asked(chunks, page, f"these squares give {gives} triangles, not {told}: which is right?", *choices)


def _of_either_side(measured, printed, chunks, context, page):
    """What squares with two sides may be: squares of the one or the other, or no squares; what rectangles may be whose
    sides are equal."""
    texts = measured.value.texts
    if not printed or len(texts) != 2:
        return
    if texts[0] == texts[1]:
        yield Choice(
            f"squares {texts[0]}", entries({"size": texts[0], "count": printed}, chunks, context, page).entries
        )
        return
    for said, size in (
        (f"squares {texts[0]}", texts[0]),
        (f"squares {texts[1]}", texts[1]),
        (" x ".join(texts), texts),
    ):
        yield Choice(said, entries({"size": size, "count": printed}, chunks, context, page).entries)


def _count_or_mixed(printed, size, chunks, context, page):
    """The question about a number, a dash and a fraction."""
    read = entries({"size": size, "count": printed}, chunks, context, page)
    return asked(
        chunks, page, f"is this {printed} {size}, or {printed} of {size}?", Choice(f"{printed} of {size}", read.entries)
    )


def _one_of(ways, chunks, context, page, size):
    """The reading of a line that is cut in one of these ways; where several can be meant, which is asked."""
    reads = [(said, piece(way, context, page, size)) for said, way in ways]
    if any(read is None or not read.entries for _, read in reads):
        return None
    if len(reads) == 1:
        return reads[0][1]
    choices = (Choice(said, read.entries) for said, read in reads)
    return asked(chunks, page, "how are these squares cut?", *choices)


def sized_each(chunks: list[Chunk]) -> list[Chunk]:
    """The chunks without the "each" of a size that is that of every piece: "9 squares, each 6 1/2 in",
    "2 strips 3 x 42 in each"."""
    last = max((place for place, one in enumerate(chunks) if one.kind != "note"), default=0)  # a remark may follow
    ends = [one.kind for one in chunks[max(last - 2, 0) : last + 1]]
    if ends[1:] == ["size", "each"] or ends in (["punct", "length", "each"], ["word", "length", "each"]):
        return [*chunks[:last], *chunks[last + 1 :]]
    around = zip([None, *chunks], chunks, [*chunks[1:], None])
    return [one for before, one, behind in around if not (one.kind == "each" and _of_a_size(before, behind, chunks))]


def _of_a_size(before, behind, chunks):
    """Whether an "each" between these is that of a size: ", each 3 in", "three inches each, of the red"."""
    if not behind or before and before.kind == "count":
        return False
    if not before:  # "every 2 1/2 in to get 24 rectangles"
        return behind.kind == "length"
    if before.kind == "length" and behind.kind == "punct":
        return True
    ends = all(one.kind == "note" for one in chunks[chunks.index(behind) + 1 :])
    return behind.kind in MEASURES and (ends or before.kind in ("punct", "word"))


def _named_once(chunks):
    """The chunks, square pieces called squares, and pieces that are named twice named once."""
    nouns = all_of(chunks, *NOUNS)
    twice = [one for one in nouns[1:] if one.kind == nouns[0].kind]  # "pieces of 6 x 21, 48 pieces"
    again = twice if count(chunks, "count") == 1 or count(twice, "pieces") else []
    of_shape = count(chunks, "squares", "rectangles") > 0
    return [one._replace(kind="punct") if one.kind == "pieces" and of_shape or one in again else one for one in chunks]


def article_counts(chunks):
    """An article that counts: "cut a 9 in strip" is one strip, where no other count stands."""
    if all_of(chunks, "count") or not any(one.kind == "article" for one in chunks):
        return chunks
    at = next(place for place, one in enumerate(chunks) if one.kind == "article")
    if any(one.kind not in ("cut", "punct", "label", "need") for one in chunks[:at]):
        return chunks
    return [*chunks[:at], chunks[at]._replace(kind="count", value=1), *chunks[at + 1 :]]


def _apart(chunk, chunks):
    """Whether a fraction alone stands behind a count, as in `6 - 7/8"`: it may be one mixed number."""
    if chunk.value.sides[0].value >= 1:
        return False
    place = chunks.index(chunk)
    before = [one for one in chunks[:place] if one.kind != "punct"]
    return bool(before) and before[-1].kind == "count"


def _names_a_thing(chunks, context, page):
    """Whether a line without a noun that is known has a word in the plural that is no fabric: "12 pockets 7 x 9"."""
    if naming.is_of_fabric(naming.described(chunks, page)):  # "6 doors 1 1/2 x 3 brown" are patches
        return False
    fabrics = frozenset().union(*map(naming.key, (*context.known, *context.fabrics)))
    said = re.findall(r"[^\W\d_]+s\b", naming.described(chunks, page).casefold())
    return any(not naming.is_of_fabric(word) and not naming.key(word) <= fabrics for word in said)


def _cut_in_other_words(chunks):
    """Whether a line goes on after its figures to say how its pieces are cut, in words that no rule knows."""
    last = max(place for place, one in enumerate(chunks) if one.kind in FIGURES)
    known = (*DIAGONAL, "punct", "from", "note", "for", "role", "count", "lengthwise", "wof", "bias")
    return any(one.kind == "cut" and behind.kind not in known for one, behind in zip(chunks[last:], chunks[last + 1 :]))


_IN_PLAIN_ORDER = (
    cut_size_first, sized_each, triangles.counted_behind, triangles.squares_noted, triangles.opened_counts, _named_once,
    article_counts, triangles.whole_line
)  # fmt: skip
"""What is done with the chunks of a line, one after the other, before it is read."""


def described_at_length(chunks):
    return count(chunks, "word") > 12


def _square_or_strip(chunks, context, page, printed, size):
    """The question about a count and one length without a noun; nothing where it is too long for either."""
    if long_side(size)[0] > LARGEST:
        return None
    square = entries({"size": size, "count": printed}, chunks, context, page).entries
    strip = entries({"strip": size, "count": printed}, chunks, context, page).entries
    return asked(
        chunks,
        page,
        f"{printed} of {size}: squares, or strips across the width of fabric?",
        Choice("squares", square),
        Choice("strips", strip),
    )
