"""The brackets of a line that only check it: a total, sets, what is left over, the size in another unit or finished;
and what stands behind a dash or a semicolon as others put it in brackets."""

from __future__ import annotations

import re
from collections.abc import Sequence
from fractions import Fraction
from itertools import pairwise
from typing import TYPE_CHECKING

from .chunks import FIGURES, MEASURES, NAMED, Chunk, all_of, bag, count, place_of
from .figures import Measure, measure
from .prose import NOT_TO_CUT, speaks_of_somebody
from .vocabulary import COLOURS

if TYPE_CHECKING:
    from .page import Page

PLAIN = frozenset({"count", "word", "article", "and", "punct", "for", "role", "need", "make", "ref"}) | NAMED
_CUTS = ("cut", "into", "once", "twice", "from", "of_each", "wof", "strip")
_OPENS = ("need", "aside", "includes", "ref", "left_over")
_CHANGING = (*FIGURES, "into", "once", "twice", "note", "caution", "bias", "lengthwise", "wof", "role", *NAMED)
_TOLD = ("count", "triangles", "unit", "total", "punct", *MEASURES, *_OPENS)
_SHOWS = re.compile(
    r"\b(?:cent(?:er|r)ed|running|runs|facing|pointing|upright|vertical(?:ly)?|horizontal(?:ly)?|directional|nap)\b"
)
"""How the print lies on a piece: "stripe running the long way"."""
_TURNED = re.compile(r"fold|revers|mirror|pair")
_BESIDES = re.compile(r"(?:each\s+)?(?:with|before|so|when|where|because|centr?e?r?ing)\b")
"""What begins a clause that tells of pieces when all is said of them: "with a bird in the middle of each"."""
_OF_THEM = frozenset({"these", "they", "those", "which"})
_LATER = frozenset({"trim", "trimmed", "measure", "measures", "squared"})
_LATER_ON = re.compile(r"\s*(?:(?:and|then|later|i|you)\s+)*(?:trim|squar)\w*\b[^.;]*\b(?:to|at)\b")
"""What is done with what is sewn of pieces: "and then trimmed the HSTs down to 4 1/2 in"."""
LEAST_WIDTH = Fraction(30)
"""Inches: no fabric is narrower."""
ROUNDED = Fraction(1, 5)
"""Inches: by so much a size in another unit may differ, or by a twentieth."""


def without_checks(
    chunks: list[Chunk], printed: int, triangles: int = 0, sizes: Sequence[str] = ()
) -> tuple[list[Chunk], Measure | None]:
    """The line without its brackets that say nothing new, and the finished size if one is printed in a bracket.

    `printed` is the count of the line, `triangles` how many it gives, `sizes` its lengths: a bracket that does not come
    to these stays, and no rule reads the line.
    """
    left, finished = [], None
    for chunk in chunks:
        if chunk.kind != "note" or not count(chunk.value, *FIGURES, "left_over", "includes"):
            left.append(chunk)
            continue
        inside = chunk.value
        if {one.kind for one in inside} <= {"left_over", "includes", "word", "for", "punct"}:  # "(some to spare)"
            left.append(Chunk("note", chunk.start, chunk.end, []))
            continue
        if count(inside, "finished") == 1 and bag(
            inside, one=(("length", "size"), ("finished",)), some=("squares", "rectangles", "pieces")
        ):
            finished = next(one.value for one in inside if one.kind in MEASURES)
            continue
        if _says_the_same(inside, printed, triangles, sizes):
            left.append(Chunk("note", chunk.start, chunk.end, []))
            continue
        left.append(chunk)
    return left, finished


def set_off(chunks: list[Chunk], page: Page) -> list[Chunk]:
    """The chunks of a sentence, a remark that goes on to its end as the bracket that it could stand in.

    >>> from .chunks import chunked
    >>> from .page import Page
    >>> page = Page('18 squares 4 1/2" - set aside 9 for Step 4')
    >>> [one.kind for one in set_off(chunked(page.plain), page)]
    ['count', 'squares', 'length', 'note']
    """
    cut = count(chunks, "once", "twice") > 0
    chunks = [part for one in _of_your_own(chunks, page) for part in _parted(one, cut)]
    for place, one in enumerate(chunks):
        behind = chunks[place + 1 :]
        told = count(chunks[:place], "count") and count(chunks[:place], *MEASURES)
        if not told or not behind:
            continue
        turned = _TURNED.search(page.plain, one.start, behind[-1].end)
        besides = not turned and _BESIDES.match(page.plain, one.start) and one.kind != "punct"
        shows = one.kind == "punct" and _SHOWS.search(page.plain, one.end, behind[-1].end)
        cuts = _CHANGING if besides and not page.plain.startswith("with", one.start) else (*_CHANGING, "cut")
        made = one.kind == "make" and _only_made(behind) and not count(chunks[:place], "into", "once", "twice")
        if made:
            return [*chunks[:place], Chunk("note", one.start, behind[-1].end, [])]
        if (besides or shows) and not count(behind, *cuts):
            until = next((at for at, other in enumerate(behind) if other.kind == "from"), len(behind))
            note = Chunk("note", one.start, behind[until - 1].end if until else one.end, [])
            return [*chunks[:place], note, *behind[until:]]
        if one.kind in ("and", "punct") and _LATER_ON.match(page.plain, one.end) and count(behind, "unit", "blocks"):
            return [*chunks[:place], Chunk("note", one.start, behind[-1].end, [])]
        of_them = behind[0].kind == "make" and count(behind, *MEASURES) and count(chunks[:place], "strips", "strip")
        if one.kind != "punct" or of_them:  # "4 strips 3 in; make 40 squares 3 in"
            continue
        sign, first = page.said(one), page.said(behind[0])
        alone = behind[0].kind == "need" or behind[0].kind == "aside" and not count(behind, "punct")
        if sign in "-;," and _counts_for_one(behind):
            return [*chunks[:place], Chunk("note", one.end, behind[-1].end, behind)]
        parted = sign in "-;" or sign == "," and alone
        of_strips = count(behind, "role") and not count(behind, *FIGURES) and count(chunks[:place], "strips", "strip")
        of_strips = of_strips and not count(chunks[:place], "into", "squares", "rectangles", "pieces")
        parted = parted and not of_strips  # "4 strips 2 in; set aside for the border"
        if (
            parted
            and not _changes(behind, page)
            and (_is_aside(behind) or first in _OF_THEM and not (count(behind, "role") or _of_colour(behind, page)))
        ):
            return [*chunks[:place], _note(one.end, behind, page)]
    return chunks


def _counts_for_one(chunks):
    """Whether words only count the pieces of one block: "that's 4 per block"."""
    kinds = [one.kind for one in chunks if one.kind not in ("word", "punct", "for")]
    return kinds in (["count", "each", "blocks"], ["count", "of_each", "blocks"])


def _of_colour(chunks, page):
    """Whether words behind pieces name their colour: "8 squares 4 in; these are navy"."""
    return any(one.kind == "word" and page.said(one) in COLOURS for one in chunks)


def _only_made(chunks):
    """Whether words only count the units that are made of pieces, and how these are trimmed: "to make 44 half-square
    triangles"."""
    kinds = {one.kind for one in chunks} - {"word", "punct", "caution", "total"}
    return kinds <= {"count", "unit", "length"} and count(chunks, "count") == count(chunks, "unit") == 1


def _note(start, inside, page):
    """A remark as a bracket, without what is no check of the pieces before it."""
    later = any(page.said(one) in _LATER for one in inside)
    kept = [one for one in inside if one.kind in _TOLD and not (later and one.kind in MEASURES)]
    return Chunk("note", start, inside[-1].end, kept)


def _parted(chunk, cut):
    """A bracket as several, where a remark begins in it: "(12 triangles, you need 10)", "(12; two are spare)" where the
    pieces are `cut` on the diagonal."""
    inside: list[Chunk] = chunk.value if chunk.kind == "note" else []
    for place, one in enumerate(inside[1:-1], 1):
        before, behind = inside[:place], inside[place + 1 :]
        bare = cut and [other.kind for other in before] == ["count"]
        if one.kind == "punct" and (bare or count(before, "triangles", "unit")) and _is_aside(behind):
            told = before[0] if bare else Chunk("note", chunk.start, one.start, before)
            return [told, Chunk("note", one.end, chunk.end, behind)]
    return [chunk]


def _changes(chunks, page):
    """Whether words may say how pieces are cut, or change a count or a size."""
    doubts = [one for one in all_of(chunks, "caution") if page.said(one) not in _LATER]
    return bool(doubts) or count(chunks, *_CUTS) > 0


def _is_aside(chunks):
    """Whether words begin as a remark does; "set 4 aside" has its count in between."""
    first = [one.kind for one in chunks if one.kind not in ("word", "punct")][:2]
    counted = first[:1] == ["count"] and first[1:] in (["need"], ["left_over"])  # "18 needed", "2 left over"
    return chunks[0].kind in _OPENS or counted or chunks[0].kind == "set" and count(chunks, "aside") > 0


def without_remarks(chunks: list[Chunk], page: Page) -> list[Chunk]:
    """The chunks, a bracket emptied whose only measures are those that pieces are trimmed to, or that are included, and
    one without measures that tells what somebody did: "(I used a cream with dots)"."""
    chunks = _of_your_own(chunks, page)
    chunks = [one._replace(value=[]) if one.kind == "note" and _of_somebody(one.value, page) else one for one in chunks]
    if not count(chunks, *MEASURES, "yards"):
        return chunks
    across = count(chunks, "strip", "wof") > 0  # how long these are cut at last stands in the bracket alone
    return [
        one._replace(value=[])
        if one.kind == "note" and not (across and count(one.value, "size")) and _tells_of_later(one.value, page)
        else one
        for one in chunks
    ]


_OTHER_SOURCE = re.compile(
    r"[,\s-]*\(?or\s+(?:(?:just|simply)\s+)?(?:cut\s+your\s+own|(?:use|buy|take|try|raid|grab)\s+(?:your\s+(?:own|stash)|stash"
    r"|scraps|left-?overs|(?:an?\s+(?:layer|pack|bundle|roll)\s+of\s+)?pre-?cuts?))"
    r"(?:\s+from\s+(?:your\s+)?(?:stash|scraps|left-?overs))?\W*$"
)
"""Where pieces may come from besides, behind all that is said of them: ", or cut your own from scraps"."""


def _of_your_own(chunks, page):
    """The chunks, what tells where pieces may come from besides as an empty bracket."""
    told = _OTHER_SOURCE.search(page.plain, chunks[0].start, chunks[-1].end) if chunks else None
    before = [one for one in chunks if told and one.start < told.start()]
    return [*before, Chunk("note", told.start(), chunks[-1].end, [])] if told and before else chunks


def _shows(inside, page):
    """Whether a bracket only tells how the print lies: "(don't fuss about which way the print runs)"."""
    told = page.plain[inside[0].start : inside[-1].end]
    changes = {*_CHANGING, "cut"} - {"caution"}
    return _SHOWS.search(told) and not _TURNED.search(told) and not count(inside, *changes)


_MARKS = re.compile(r"\W*(?:draw|mark|trace|press|starch|iron)\b")


def without_handling(chunks: list[Chunk], page: Page) -> list[Chunk]:
    """The chunks, a bracket emptied that only tells what is done with pieces before they are sewn: "(draw a diagonal
    line on the back; do not cut)"."""
    return [one._replace(value=[]) if one.kind == "note" and _is_handled(one.value, page) else one for one in chunks]


def _is_handled(inside, page):
    told = NOT_TO_CUT.sub("", page.plain[inside[0].start : inside[-1].end]) if inside else ""
    return bool(_MARKS.match(told)) and not re.search(r"\bcut|\bfold|\d", told)


_OF_MINE = re.compile(r"\W*(?:mine|ours)\s+(?:is|are|was|were)\b")
"""What tells of the pieces somebody has: "(mine are all different)"."""
_AN_X = re.compile(r"\W*(?:like\s+|in\s+|with\s+)?an?\s+x\W*")
"""How two diagonals lie."""


def _of_somebody(inside, page):
    if inside and _shows(inside, page):
        return True
    if inside and _AN_X.fullmatch(page.plain, inside[0].start, inside[-1].end):
        return True
    if inside and _OF_MINE.match(page.plain, inside[0].start) and not count(inside, *FIGURES, "yards", "cut", "into"):
        return True
    told = count(inside, *MEASURES, "yards", "doubt") or any(one.kind == "caution" for one in inside)
    return not told and speaks_of_somebody(inside, page)


def without_purpose(chunks: list[Chunk], page: Page, of_fabric: bool = False) -> list[Chunk]:
    """The chunks, what stands behind "for" or a dash taken for words where no figure follows it and all is said before
    it: "strips 2 in for the strip sets", "squares 3 in - block centers"; `of_fabric` where they are cut from one, so
    that a size needs no noun: "navy: 12 @ 3 x 3 in - four patches"."""
    opens = (place for place, one in enumerate(chunks) if one.kind == "for" or page.said(one) == "-")
    at = max(opens, default=None)
    named = (*NAMED, "strip", *(["size"] if of_fabric else []))
    if at is None or not count(chunks[:at], *named) or not count(chunks[:at], *MEASURES):
        return chunks
    if count(chunks[at:], *FIGURES, "note", "cut", "into", "once", "twice", "each", "of_each"):
        return chunks
    told = {*NAMED, "strip_set", "segments", "rows", "set"} - {"triangles", "squares"}
    behind = (
        one._replace(kind="word") if one.kind in told or (before.kind, one.kind) == ("role", "squares") else one
        for before, one in pairwise(chunks[at - 1 :])
    )
    first = chunks[at]._replace(kind="for") if of_fabric and count(chunks[at:], "unit") else chunks[at]
    return [*chunks[:at], first, *list(behind)[1:]]


def _tells_of_later(inside, page):
    if {one.kind for one in inside} <= {"end_to_end", "word", "punct"} and count(inside, "end_to_end"):
        return True
    if count(inside, "count", "doubt", "yards") or _changes(inside, page) or not count(inside, *MEASURES):
        return False
    said = {page.said(one) for one in inside}
    return count(inside, "includes") > 0 or bool(said & _LATER)


def behind_a_need(chunks: list[Chunk], page: Page) -> list[Chunk]:
    """The chunks behind what is only needed or made of the pieces: "you need 8 roofs, so cut 8 squares 3 in", "to make
    the roof, cut 8 squares 3 in"."""
    at = place_of(chunks, "cut")
    before = chunks[:at]
    so = bool(before) and page.said(before[-1]) in ("so", ",", ";", ":")
    of_units = before[:1] and before[0].kind == "for" and count(before, "unit") and count(before, "count")
    told = count(before, "need") or before[:1] and before[0].kind == "make" or of_units
    needed = so and told and not count(before, *MEASURES, "squares", "rectangles", "pieces")
    return [*all_of(before, "role"), *chunks[at:]] if needed else chunks


def without_conversions(chunks: list[Chunk]) -> list[Chunk]:
    """The chunks, a bracket that says the measure before it in another unit emptied."""
    found: list[Chunk] = []
    before: Chunk | None = None
    for one in chunks:
        if (
            one.kind == "note"
            and before is not None
            and len(measures := [inner for inner in one.value if inner.kind not in ("punct", "squares")]) == 1
            and measures[0].kind in MEASURES
        ):
            inside, texts = measures[0].value, before.value.texts
            texts = texts[len(texts) - len(inside.sides) :]  # "4 x 6 1/2 in (16.5 cm)" begins with a count
            wide = before.kind == "strip" and inside.sides[0].inches >= LEAST_WIDTH  # "strips 2 in x WOF (42 in)"
            if wide or inside.across == before.value.across and _converted(inside, texts):
                one = one._replace(value=[])
        found.append(one)
        if one.kind in MEASURES:
            before = one
        elif one.kind in FIGURES:
            before = None
    return found


def cut_size_first(chunks: list[Chunk]) -> list[Chunk]:
    """The chunks with the size that is cut outside the bracket that says it: `6" finished (6 1/2" unfinished)`."""
    outside = [one for one in chunks if one.kind in ("length", "size", "finished", "unfinished")]
    notes = [one for one in chunks if one.kind == "note" and count(one.value, "unfinished")]
    if len(notes) != 1 or sorted(one.kind in MEASURES for one in outside) != [False, True]:
        return chunks
    inside = [one for one in notes[0].value if one.kind != "punct"]
    said = next(one for one in outside if one.kind not in MEASURES)
    if said.kind != "finished" or sorted(one.kind in MEASURES for one in inside) != [False, True]:
        return chunks
    (cut,), (whole,) = all_of(inside, "length", "size"), all_of(outside, "length", "size")
    swapped = [(whole, cut), (said, said._replace(kind="punct")), (notes[0], notes[0]._replace(value=[whole, said]))]
    return [next((new for old, new in swapped if one is old), one) for one in chunks]


def _says_the_same(inside, printed, triangles, sizes):
    """Whether a bracket only repeats: a total, sets that come to it, what is left over, the size in another unit."""
    counts = [one.value for one in all_of(inside, "count")]
    kinds = {one.kind for one in inside}
    rest = kinds - PLAIN
    made = triangles or printed
    if kinds & {"aside", "includes"} and len(counts) == 1 and rest <= {"aside", "includes", "left_over", "set"}:
        return counts[0] <= made
    if "left_over" in kinds and len(counts) == 1 and rest <= {"left_over"}:
        return counts[0] <= made
    if "need" in kinds and len(counts) == 1 and rest <= {"triangles"}:
        return counts[0] <= made
    if "need" in kinds and len(counts) == 2 and rest <= {"triangles"}:
        return min(counts) <= max(counts) == made  # "you'll use 6 of the 8 triangles"
    if "left_over" in kinds and len(counts) == 2 and rest <= {"left_over"}:
        return sum(counts) == made
    if _so_many_of_a_strip(inside) and len(counts) == 1:
        return counts[0] <= printed
    if {"total", "blocks"} <= kinds and len(counts) == 2 and rest <= {"total", "each", "of_each"}:
        return max(counts) == printed and printed % min(counts) == 0  # "(4 per block, 48 total)"
    if "blocks" in kinds and len(counts) == 1 and kinds & {"each", "of_each"} and rest <= {"blocks", "each", "of_each"}:
        return counts[0] < printed and printed % counts[0] == 0  # "(4 per block)"
    if "total" in kinds and len(counts) == 1 and rest <= {"total"}:
        return counts[0] == (triangles or printed)
    several = kinds & {"set", "each", "of_each"} and "blocks" not in kinds
    if several and len(counts) == 2 and rest <= {"set", "caution", "each", "of_each"}:
        return counts[0] * counts[1] == printed
    if "for" in kinds and len(counts) > 1 and not rest:
        return sum(counts) == printed
    measures = [one.value for one in inside if one.kind in ("length", "size")]
    if len(measures) == 1 and not counts and kinds <= {"length", "size", "word", "punct", "article"} and sizes:
        return _converted(measures[0], sizes)
    return False


def _so_many_of_a_strip(inside):
    """Whether a bracket counts the pieces of one strip: "(three to a strip)", "(6 from each strip)"."""
    kinds = [one.kind for one in inside if one.kind not in ("word", "punct", "from", "make")]
    of_one = (["count", word, "strips"] for word in ("article", "each", "of_each"))
    return kinds[:3] in of_one and not count(inside, *MEASURES)


def _converted(other: Measure, sizes: list[str]) -> bool:
    """Whether a measure is the same as these lengths, in another unit, rounded."""
    given = [measure(text, 0) for text in sizes]
    if any(one is None for one in given):
        return False
    ours = [side.inches for one in given if one for side in one.sides]
    theirs = [side.inches for side in other.with_units()]
    units = {side.unit or "in" for side in other.with_units()} ^ {
        side.unit or "in" for one in given if one for side in one.sides
    }
    if len(theirs) == 1 < len(ours):
        theirs = theirs * len(ours)
    if len(ours) == 1 < len(theirs):
        ours = ours * len(theirs)
    return (
        bool(units)
        and len(ours) == len(theirs)
        and all(abs(a - b) <= max(ROUNDED, b / 20) for a, b in zip(ours, theirs))
    )
