"""The brackets of a line that only check it: a total, sets, what is left over, the size in another unit or finished."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from .chunks import FIGURES, MEASURES, NAMED, Chunk, all_of, bag, count
from .figures import Measure, measure

PLAIN = frozenset({"count", "word", "article", "and", "punct", "for", "role", "need", "make"}) | NAMED
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
        if chunk.kind != "note" or not count(chunk.value, *FIGURES):
            left.append(chunk)
            continue
        inside = chunk.value
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


def without_conversions(chunks: list[Chunk]) -> list[Chunk]:
    """The chunks, a bracket that says the measure before it in another unit emptied."""
    found: list[Chunk] = []
    before: Chunk | None = None
    for one in chunks:
        if (
            one.kind == "note"
            and before is not None
            and [inner.kind for inner in one.value if inner.kind != "punct"] == [before.kind]
        ):
            inside = all_of(one.value, before.kind)[0].value
            if inside.across == before.value.across and _converted(inside, before.value.texts):
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
    if "left_over" in kinds and len(counts) == 1 and rest <= {"left_over"}:
        return True
    if "need" in kinds and len(counts) == 1 and not rest and triangles:
        return counts[0] <= triangles
    if "need" in kinds and len(counts) == 2 and rest <= {"triangles"} and triangles:
        return counts[0] <= counts[1] == triangles  # "you'll use 6 of the 8 triangles"
    if {"total", "blocks"} <= kinds and len(counts) == 2 and rest <= {"total", "each"}:
        return max(counts) == printed and printed % min(counts) == 0  # "(4 per block, 48 total)"
    if "total" in kinds and len(counts) == 1 and rest <= {"total"}:
        return counts[0] == (triangles or printed)
    if "set" in kinds and len(counts) == 2 and rest <= {"set", "caution"}:
        return counts[0] * counts[1] == printed
    if "for" in kinds and len(counts) > 1 and not rest:
        return sum(counts) == printed
    measures = [one.value for one in inside if one.kind in ("length", "size")]
    if len(measures) == 1 and not counts and kinds <= {"length", "size", "word", "punct", "article"} and sizes:
        return _converted(measures[0], sizes)
    return False


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
