"""Several things that a page says of the whole in one sentence: "The finished quilt is 40 x 50 in, and I used a 1/4 in
seam"."""

from __future__ import annotations

from dataclasses import replace

from . import laid_out, prose, stated, widths
from .chunks import FIGURES, Chunk, all_of, count, opened
from .model import Context, Reading

_FACTS = (stated.seam, widths.width, stated.finished, stated.blocks, laid_out.layout)


def several(chunks: list[Chunk], context: Context, page) -> Reading | None:
    """Several of these in one sentence: "The finished quilt is 40 x 50 in, and I used a 1/4 in seam"."""
    if count(opened(chunks), *FIGURES) < 2 or count(opened(chunks), "cut", "from", "into", "strips", "rectangles"):
        return None
    for at, one in enumerate(chunks):
        if (
            not at
            or one.kind not in ("and", "punct", "seam_allowance")
            or one.kind == "punct"
            and page.said(one) not in ",;"
        ):
            continue
        before, behind = chunks[:at], chunks[at + (one.kind != "seam_allowance") :]
        while behind and behind[0].kind in ("and", "punct"):
            behind = behind[1:]
        if not behind or not count(opened(before), *FIGURES) or not count(opened(behind), *FIGURES):
            continue
        first = next((read for rule in _FACTS if (read := rule(before, context, page)) is not None), None)
        if first is None or len(first.entries) != 1:
            continue
        (entry,), made = first.entries, _made_of_them(behind, page)
        more = {"count": made} if made else _size_of_each(behind, page)
        if entry.table == "block" and more:
            return replace(first, entries=(replace(entry.but(**more), words=page.over(chunks)),))
        rest = next((read for rule in (*_FACTS, several) if (read := rule(behind, context, page)) is not None), None)
        asks = bool(first.questions) or rest is not None and bool(rest.questions)
        if rest is not None and not asks and entry.table not in {one.table for one in rest.entries} - {"sheet"}:
            return Reading((*first.entries, *rest.entries))
    return None


def _size_of_each(chunks, page):
    """How large each of what stands before is finished: "each finishing at 8 inches"."""
    sizes, kinds = all_of(chunks, "length", "size"), {one.kind for one in chunks} - {"punct", "word", "each", "squares"}
    told = kinds <= {"finished", "length", "size"} and len(sizes) == 1 == count(chunks, "finished")
    return {"finished": sizes[0].value.size} if told else {}


_OF_THEM = {"you", "will", "of", "them", "these", "there", "are", "is", "in", "the", "quilt", "just", "only"}


def _made_of_them(chunks, page):
    """How many of what stands before are made: "and you will make twelve of them"; 0 where that is not said."""
    kinds = {one.kind for one in chunks} - {"punct", "total", "from"}
    counts, said = all_of(chunks, "count"), prose.said(chunks, page)
    told = kinds - {"word"} in ({"make", "count"}, {"need", "count"}) or "there" in said and bool(said & {"are", "is"})
    return counts[0].value if told and len(counts) == 1 == count(chunks, *FIGURES) and said <= _OF_THEM else 0
