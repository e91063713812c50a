"""The lines of a cutting list that say pieces: so many, of a size, in any order, whole or cut on the diagonal."""

from __future__ import annotations

import re
from dataclasses import replace
from fractions import Fraction

from ...lengths import INCHES
from . import naming
from .brackets import without_checks
from .chunks import MEASURES, Chunk, all_of, bag, count, opened
from .figures import LEAST_SIZE, Measure, measure
from .model import Choice, Context, Entry, Question, Reading

NOUNS = ("squares", "rectangles", "pieces")
DIAGONAL = ("once", "twice")
ALSO_OF_TRIANGLES = ("into", "make", "total", "triangles", "unit", *DIAGONAL)
GIVES = {"once": 2, "twice": 4}
WHOLE_WIDTHS = {"in": (40, 45), "cm": (100, 115)}
PART_WIDTHS = {"in": (18, 22), "cm": (45, 56)}


def entries(
    data, chunks: list[Chunk], context: Context, page, table: str = "cut", remarks=(), place: str | None = None
) -> Reading:
    """The entry of a line for each of its fabrics, its count for all that the head above it says; a question where its
    words gainsay that head."""
    words = page.words(chunks[0].start, chunks[-1].end)
    fabrics, gainsaid = naming.fabrics(chunks, context, page)
    told = [one for one in chunks if one.kind != "note" or count(one.value, "count") < 2]
    role = naming.role(opened(told), context, page.plain) if place is None else place
    if role == "?":
        return Reading(questions=(Question(words, "this names two places in the quilt: where does it belong?"),))
    label = next((chunk.value for chunk in chunks if chunk.kind == "label"), "").upper()
    data, more = _for_all(data, context)
    made = [
        Entry(table, {"fabric": fabric, **data} if fabric else dict(data), words, label, (*remarks, *more), role)
        for fabric in fabrics or ("",)
    ]
    if gainsaid:
        said = naming.described(chunks, page)
        other = naming.known(said, context.known) or said
        choices = [
            Choice(f"from {fabric}", tuple(one.but(fabric=fabric) for one in made[:1])) for fabric in (*fabrics, other)
        ]
        return Reading(
            questions=(
                Question(
                    words,
                    f"the head above says {' and '.join(fabrics)}, this line {said}: which fabric?",
                    tuple(choices),
                    True,
                ),
            )
        )
    return Reading(tuple(made))


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
    return Reading(questions=(Question(page.words(chunks[0].start, chunks[-1].end), text, choices),))


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
        return counted, None, f"{small[0]} is very small for a piece: what is its size?"
    if len(texts) == 1:
        return counted, texts[0], ""
    if any(side.unit != sides[0].unit and side.unit for side in sides):
        return counted, None, "two units in one size: which is meant?"
    return counted, texts[0] if texts[0] == texts[1] else texts, ""


def piece(chunks: list[Chunk], context: Context, page, size: str | None = None) -> Reading | None:
    """The reading of a line that says one kind of piece; `size` is that of the strip it is cut from, for squares of
    which none is printed."""
    chunks = _each_is_cut(_article_counts(_said_once(_triangles_opened(chunks))))
    nouns = all_of(chunks, *NOUNS)
    diagonal = all_of(chunks, *DIAGONAL)
    noun = nouns[0].kind if nouns else ""
    counts = all_of(chunks, "count")
    triangles = _triangles(chunks) if diagonal else None
    pieces = [one for one in counts if one is not triangles]
    printed = pieces[0].value if pieces else 0
    told = triangles.value if triangles else printed * GIVES[diagonal[0].kind] if diagonal else 0
    size_texts = [text for one in all_of(chunks, "length", "size") for text in one.value.texts]
    plain, finished = without_checks(chunks, printed, told, size_texts)
    plain = opened(plain)
    if len({one.kind for one in all_of(plain, *DIAGONAL)}) > 1 or len(all_of(plain, *NOUNS)) > 1:
        return None
    if not diagonal and all_of(plain, *DIAGONAL):  # said in a bracket
        spread = [*plain]
        return piece(
            [Chunk("punct", one.start, one.end) if one.kind == "note" else one for one in spread], context, page, size
        )
    rest = [one for one in plain if one is not triangles]
    measures = all_of(rest, "length", "size")
    if len(measures) > 1:
        return None
    some = (*NOUNS, *(ALSO_OF_TRIANGLES if diagonal else ()), *(("total", "make") if size else ()))
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
            return asked(chunks, page, doubt)
        if counted is not None:
            if pieces:
                return None
            printed = counted
        if not pieces and counted is None:
            return None
        if _apart(measures[0], rest):
            return asked(chunks, page, "is this one mixed number, or a count and a fraction?")
    if found is None or _described_at_length(plain):
        return None
    if noun == "rectangles" and isinstance(found, str) and measures[0].kind == "length":
        return asked(chunks, page, "a rectangle has two sides: what is the other?")
    if noun in ("", "pieces") and measures and measures[0].kind == "length":
        return _square_or_strip(chunks, context, page, printed, found, bool(diagonal))
    if diagonal and noun == "rectangles":
        return asked(chunks, page, "rectangles cut on the diagonal: which way does the cut run?")
    data = {"size": found, "count": printed}
    if diagonal:
        data["cut"] = diagonal[0].kind
        if triangles:
            data["triangles"] = triangles.value
    if finished is not None:
        sides = finished.texts
        data["finished"] = sides[0] if len(set(sides)) == 1 else sides
    place = None
    role = naming.role(chunks, context, page.plain)
    if role == "setting triangle":
        place = "side triangle" if data.get("cut") == "twice" else None
    if not role and diagonal:
        place = _place_of_triangles(chunks, page)
    return entries(data, chunks, context, page, place=place)


def _place_of_triangles(chunks, page):
    """Where triangles belong that are cut "for the corners" or "for sides"."""
    at = next((place for place, one in enumerate(chunks) if one.kind == "for"), len(chunks))
    said = {page.plain[one.start : one.end] for one in chunks[at:] if one.kind == "word"}
    for words, place in (({"corner", "corners"}, "corner triangle"), ({"side", "sides", "edges"}, "side triangle")):
        if said & words:
            return place
    return None


def _said_once(chunks):
    """The chunks, a count that is said twice at once ("twelve (12)") said once, and square pieces called squares."""
    once = [
        one
        for before, one in zip([None, *chunks], chunks)
        if not (before and before.kind == one.kind == "count" and before.value == one.value)
    ]
    if count(once, "squares", "rectangles"):
        return [one._replace(kind="punct") if one.kind == "pieces" else one for one in once]
    return once


def _article_counts(chunks):
    """An article that counts: "cut a 9 in strip" is one strip, where no other count stands."""
    if all_of(chunks, "count") or not any(one.kind == "article" for one in chunks):
        return chunks
    at = next(place for place, one in enumerate(chunks) if one.kind == "article")
    if any(one.kind not in ("cut", "punct", "label", "need") for one in chunks[:at]):
        return chunks
    return [*chunks[:at], chunks[at]._replace(kind="count", value=1), *chunks[at + 1 :]]


def _triangles_opened(chunks):
    """The chunks, a bracket opened that counts triangles: "(8 triangles)"."""
    found: list[Chunk] = []
    for one in chunks:
        counted = (
            one.kind == "note"
            and count(one.value, "count") == 1
            and count(one.value, "triangles", "unit") == 1
            and not count(one.value, "need", "left_over")
        )
        found += one.value if counted else [one]
    return found


def _each_is_cut(chunks):
    """The chunks without the "each square" of "cut each square in half diagonally", which counts nothing."""
    at = next((place for place, one in enumerate(chunks) if one.kind == "each"), None)
    if at is None:
        return chunks
    behind = next(
        (
            place
            for place, one in enumerate(chunks)
            if place > at and one.kind not in ("squares", "cut", "word", "punct")
        ),
        None,
    )
    if behind is None or chunks[behind].kind not in DIAGONAL or not all_of(chunks[:at], "cut", "into"):
        return chunks
    return [*chunks[:at], *chunks[behind:]]


def _triangles(chunks):
    """The count of triangles that squares give, where it is printed: one whose next noun is triangles."""
    counts = [place for place, one in enumerate(chunks) if one.kind == "count"]
    if len(counts) < 2:
        return None
    for place in counts:
        behind = next(
            (one.kind for one in chunks[place + 1 :] if one.kind in (*NOUNS, "triangles", "unit", "count", "strips")),
            "",
        )
        if behind in ("triangles", "unit"):
            return chunks[place]
    last = chunks[counts[-1]]
    if any(one.kind == "total" for one in chunks[counts[-1] :]) and any(
        one.kind in DIAGONAL for one in chunks[: counts[-1]]
    ):
        return last
    return None


def _apart(chunk, chunks):
    """Whether a fraction alone stands behind a count, as in `6 - 7/8"`: it may be one mixed number."""
    if chunk.value.sides[0].value >= 1:
        return False
    place = chunks.index(chunk)
    before = [one for one in chunks[:place] if one.kind != "punct"]
    return bool(before) and before[-1].kind == "count"


def _described_at_length(chunks):
    return count(chunks, "word") > 12


def _square_or_strip(chunks, context, page, printed, size, diagonal):
    """A count and one length without a noun: squares on the diagonal, else a question."""
    if diagonal:
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


def size_first(chunks: list[Chunk], context: Context, page) -> Reading | None:
    """One size, and a count of each of several fabrics: `3 1/2" squares: ten navy, twenty-four cream`, or
    `10 navy and 24 cream squares 3 1/2"`."""
    plain = opened(chunks)
    counts, measures, nouns = all_of(plain, "count"), all_of(plain, "length", "size"), all_of(plain, *NOUNS)
    if len(counts) < 2 or len(measures) != 1 or len({one.kind for one in nouns}) > 1:
        return None
    if not all(
        one.kind in (*NOUNS, "length", "size", "count", "word", "punct", "and", "cut", "article", "label", "note")
        for one in plain
    ):
        return None
    noun = nouns[0].kind if nouns else ""
    first, last = plain.index(counts[0]), plain.index(counts[-1])
    inside = [*measures, *(nouns if len(nouns) == 1 else ())]
    before = all(plain.index(one) < first for one in inside)
    behind = all(plain.index(one) > last for one in inside)
    if not (before or behind) or not noun:
        return None
    counted, size, doubt = size_of(measures[0], noun)
    if doubt or counted is not None or size is None or (noun != "squares" and isinstance(size, str)):
        return None
    found: list[Entry] = []
    for place, one in enumerate(counts):
        at = plain.index(one) + 1
        stop = plain.index(counts[place + 1]) if place + 1 < len(counts) else len(plain) if before else at + 1
        named = plain[at:stop]
        if not before and place + 1 == len(counts):
            named = [chunk for chunk in plain[at:] if chunk.kind not in (*NOUNS, *MEASURES)]
        said = naming.described(named, page)
        if not said:
            return None
        fabric = naming.known(said, context.known) or said
        part = entries({"size": size, "count": one.value}, [one], replace(context, fabrics=(fabric,)), page)
        words = page.words(chunks[0].start, chunks[-1].end)
        found += [replace(entry, words=words) for entry in part.entries]
    return Reading(tuple(found))


def from_each(chunks: list[Chunk], context: Context, page) -> Reading | None:
    """Pieces that are cut from each of several prints: "2 squares 3 in from each of 6 blues"."""
    at = next((place for place, one in enumerate(chunks) if one.kind == "of_each"), None)
    if (
        at is None
        or context.per_print
        or context.times > 1
        or "from" not in page.plain[chunks[at].start : chunks[at].end]
    ):
        return None
    tail = opened(chunks[at + 1 :])
    if (
        any(one.kind not in ("count", "word", "caution", "punct", "fat_quarter") for one in tail)
        or count(tail, "count") > 1
    ):
        return None
    prints = next((one.value for one in tail if one.kind == "count"), None)
    read = piece(chunks[:at], context, page)
    if read is None or not read.entries:
        return None
    said = naming.described(tail, page)
    if prints is None:  # "from each print" names none
        said = re.sub(r"\b(?:prints?|fabrics?|colou?rs?)$", "", said, flags=re.IGNORECASE).strip()
    named = [
        one.but(fabric=naming.known(said, context.known) or said or one.data.get("fabric")) for one in read.entries
    ]
    words = page.words(chunks[0].start, chunks[-1].end)
    found = [
        replace(
            one, data={("per_print" if key == "count" else key): value for key, value in one.data.items()}, words=words
        )
        for one in named
    ]
    for fabric in {str(one.data["fabric"]) for one in found if prints and "fabric" in one.data}:
        found.append(Entry("fabric", {"prints": prints}, words, fabric))
    if prints is None:
        question = Question(words, "from how many prints is this cut?")
        return Reading(tuple(found), (question,))
    return Reading(tuple(found))


def long_side(text: str) -> tuple[Fraction, str, bool]:
    """A length of a sheet in inches, its unit, and whether it is a whole number of that."""
    read = measure(text, 0)
    assert read is not None
    side = read.sides[0]
    return (
        side.inches,
        "cm" if side.unit in ("cm", "mm") else "in",
        (side.inches / INCHES["cm" if side.unit in ("cm", "mm") else "in"]).denominator == 1,
    )
