"""Squares cut on the diagonal: how often, how many triangles come of them, where these belong."""

from __future__ import annotations

import re

from .chunks import FIGURES, MEASURES, Chunk, all_of, count, opened, place_of

DIAGONAL = ("once", "twice")
GIVES = {"once": 2, "twice": 4}
WHOLE = ("squares", "rectangles", "pieces")


def place(chunks: list[Chunk], page) -> str | None:
    """Where triangles belong that are cut "for the corners" or "for sides", or whose line ends in ", quilt corners"."""
    at = min(place_of(chunks, "for", "make", otherwise=len(chunks)), place_behind(chunks, page))
    noted = [inner for one in chunks if one.kind == "note" for inner in one.value]
    said = {page.said(one) for one in (*chunks[at:], *noted) if one.kind == "word"}
    for words, place in (({"corner", "corners"}, "corner triangle"), ({"side", "sides", "edges"}, "side triangle")):
        if said & words:
            return place
    return None


_PLACE_BEHIND = {"corner", "corners", "side", "sides", "edges", "quilt", "outer", "the"}


def place_behind(chunks: list[Chunk], page) -> int:
    """Where the comma or the dash stands before the last clause, if that only names a place in the quilt, as
    ", quilt corners" does; behind them all where none does."""
    at = len(chunks)
    while at and chunks[at - 1].kind == "word" and page.said(chunks[at - 1]) in _PLACE_BEHIND:
        at -= 1
    return at - 1 if 0 < at < len(chunks) and page.said(chunks[at - 1]) in (",", "-") else len(chunks)


def opened_counts(chunks: list[Chunk]) -> list[Chunk]:
    """The chunks, a bracket opened that counts triangles: "(8 triangles)"."""
    found: list[Chunk] = []
    for one in chunks:
        counted = (
            one.kind == "note"
            and count(one.value, "count") == 1
            and (count(one.value, "triangles", "unit") or count(one.value, "make") and count(chunks, *DIAGONAL)) == 1
            and not count(one.value, "need", "left_over")
        )
        found += one.value if counted else [one]
    return found


def counted_behind(chunks: list[Chunk]) -> list[Chunk]:
    """The chunks, a bracket opened that counts pieces which are counted nowhere else: "2 in squares (96 total)"."""
    notes = [
        one for one in chunks if one.kind == "note" and count(one.value, "count") == 1 == count(one.value, *FIGURES)
    ]
    if len(notes) != 1 or count(chunks, "count") or count(chunks, *MEASURES) != 1:
        return chunks
    (one,) = notes
    alone = {inner.kind for inner in one.value} <= {
        "count",
        "total",
        "need",
        "make",
        "punct",
        "squares",
        "pieces",
        "word",
    }
    counted = [inner for inner in one.value if inner.kind == "count"]
    return [inner for chunk in chunks for inner in (counted if chunk is one else [chunk])] if alone else chunks


def squares_noted(chunks: list[Chunk]) -> list[Chunk]:
    """The chunks, a bracket opened that tells the squares which triangles before it are cut from: "8 red triangles
    (4 squares 5 3/8 in, halved diagonally)"."""
    notes = [one for one in chunks if one.kind == "note" and count(one.value, "squares", "count") == 2]
    if len(notes) != 1 or count(chunks, "count") != 1 or not count(chunks, "triangles") or count(chunks, *MEASURES):
        return chunks
    at = chunks.index(notes[0])
    whole = count(notes[0].value, *MEASURES) == 1 and count(notes[0].value, *DIAGONAL) == 1
    return [*chunks[:at], *notes[0].value, *chunks[at + 1 :]] if whole else chunks


def whole_line(chunks: list[Chunk]) -> list[Chunk]:
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
    if behind is None or chunks[behind].kind not in DIAGONAL or not all_of(chunks[:behind], "cut", "into"):
        return chunks
    gives, squares = GIVES[chunks[behind].kind], next((one.value for one in all_of(chunks, "count")), 1)
    if any(one.value == gives != squares * gives for one in all_of(chunks[behind:], "count")):  # those of one square
        return chunks
    return [*chunks[:at], *chunks[behind:]]


def counted(chunks: list[Chunk]) -> Chunk | None:
    """The count of triangles that squares give, where it is printed: one whose next noun is triangles."""
    counts = [place for place, one in enumerate(chunks) if one.kind == "count"]
    if len(counts) < 2:
        return None
    for place in counts:
        behind = next(
            (one.kind for one in chunks[place + 1 :] if one.kind in (*WHOLE, "triangles", "unit", "count", "strips")),
            "",
        )
        if behind in ("triangles", "unit"):
            return chunks[place]
    before = chunks[: counts[-1]]
    told = count(chunks[counts[-1] :], "total") or [one.kind for one in before if one.kind != "punct"][-1:] == ["make"]
    cuts = all_of(before, *DIAGONAL)
    if told or not cuts or count(chunks[counts[-1] :], *WHOLE, "strips", "blocks", "rows", "set"):
        return chunks[counts[-1]] if told and cuts else None
    gives = chunks[counts[0]].value * GIVES[cuts[0].kind]
    return chunks[counts[-1]] if chunks[counts[-1]].value == gives else None  # "cut once diagonally (24)"


def left_over(chunks: list[Chunk]) -> int:
    """How many triangles a bracket says are left over: "for 10 side triangles (2 will be left)"."""
    notes = [one.value for one in chunks if one.kind == "note" and count(one.value, "left_over")]
    counts = [inner.value for note in notes for inner in all_of(note, "count")]
    return counts[0] if len(counts) == 1 else 0


def told_by_number(chunks: list[Chunk]) -> list[tuple[str, list[Chunk]]]:
    """The ways in which squares are cut of which only the triangles are told: "1 square 10 in, cut into 4 triangles".

    Each way is (what it says, the chunks with the cut in them); two squares into four triangles have two of them.
    """
    flat = opened(chunks)
    counts = all_of(flat, "count")
    if count(flat, *DIAGONAL) or not count(flat, "squares") or len(counts) != 2 or count(flat, "unit", "strips"):
        return []
    squares, given = counts
    behind = [one.kind for one in flat[flat.index(given) + 1 :] if one.kind not in ("word", "punct", "article")]
    if behind[:1] != ["triangles"] or not count(flat, "cut", "into", "make"):
        return []
    each = [one for one in flat if one.kind in ("each", "of_each")]
    ways = []
    for cut, gives in GIVES.items():
        whole = squares.value * gives
        if given.value != whole and (given.value != gives or not (each or squares.value > 1)):
            continue
        if given.value == whole != gives and each:
            continue
        changed = [
            one._replace(value=whole) if one is given else one._replace(kind="punct") if one in each else one
            for one in flat
        ]
        ways.append((f"cut {cut} on the diagonal, {whole} triangles", [*changed, Chunk(cut, given.end, given.end)]))
    return ways


def crossed(chunks: list[Chunk], page) -> list[tuple[str, list[Chunk]]]:
    """The ways in which squares may be cut that are "cross-cut diagonally"."""
    cuts = all_of(chunks, *DIAGONAL)
    if [one.kind for one in cuts] != ["once"] or not any(
        one.kind == "into" and "cross" in page.said(one) for one in chunks
    ):
        return []
    rest = [one for one in chunks if one.kind not in (*DIAGONAL, "into")]
    return [(f"cut {cut} on the diagonal", [*rest, cuts[0]._replace(kind=cut)]) for cut in DIAGONAL]


_LOOSE = re.compile(
    r"\W*(?:(?:and|then|each|all|cut|them|these|is|are|square|squares)\s+)*(?:(?P<once>once|in(?:to)?\s+(?:half|halves|two|2)"
    r"|halved|split)|(?P<twice>twice|in(?:to)?\s+(?:quarters|fourths|four|4)|quartered))\W*$"
)


def loosely_told(chunks: list[Chunk], page) -> tuple[str, list[Chunk], list[Chunk]] | None:
    """How often squares are cut of which it is not said that it is on the diagonal ("cut once", "quartered"), and the
    chunks before and behind that."""
    last = max((at for at, one in enumerate(chunks) if one.kind == "squares" or one.kind in MEASURES), default=None)
    if last is None or not count(chunks, "squares") or count(chunks, *DIAGONAL, "strips"):
        return None
    for place in range(last + 1, len(chunks)):
        one = chunks[place]
        ends = (at for at in range(place + 1, len(chunks)) if chunks[at].kind in ("note", "count", "make", "for"))
        stop = place + 1 if one.kind == "note" else next(ends, place_behind(chunks, page))
        words = (one.start + 1, one.end - 1) if one.kind == "note" else (one.start, chunks[stop - 1].end)
        if one.kind in ("count", "make"):
            return None
        if match := _LOOSE.match(page.plain, *words):
            return str(match.lastgroup), chunks[:place], chunks[stop:]
    return None


def gainsaid(chunks: list[Chunk], page) -> list[tuple[str, list[Chunk]]]:
    """The ways in which squares may be cut whose bracket names another unit than their cut gives, or a unit alone:
    "(QST)" behind squares that are cut once."""
    noted = [
        (one, page.said(inner))
        for one in chunks
        if one.kind == "note" and not count(one.value, "count", "make", "for")
        for inner in all_of(one.value, "unit")
    ]
    cuts = {one.kind for one in opened(chunks) if one.kind in DIAGONAL}
    if len(noted) != 1 or not count(chunks, "squares"):
        return []
    note, unit = noted[0]
    meant = "once" if unit.startswith(("hst", "half")) else "twice" if unit.startswith(("qst", "quarter")) else ""
    if not meant or cuts == {meant} or len(cuts) > 1:
        return []
    rest = [one for one in chunks if one is not note and one.kind not in DIAGONAL]
    if cuts and not all(one in chunks for one in opened(chunks) if one.kind in DIAGONAL):
        return []
    return [
        ("whole squares", rest),
        *((f"cut {cut} on the diagonal", [*rest, Chunk(cut, note.start, note.start)]) for cut in DIAGONAL),
    ]
