"""Tables whose head names their columns: each row read by what its columns say, in whichever order they stand."""

from __future__ import annotations

import re
from typing import NamedTuple

from .chunks import FIGURES, Chunk, all_of, chunked, count, measured
from .figures import measure
from .page import Page

COLUMNS = {
    "count": r"(?:\#|no\.?|number)\s+of\s+(?:pieces|patches)|qty\.?|quantit(?:y|ies)|how\s+many|no\.?|count|#"
    r"|number(?:\s+(?:to\s+cut|needed|required))?|\#\s+to\s+cut|cut\s+qty|amount\s+to\s+cut|pcs\.?|total",
    "width": r"(?:strip\s+|cut\s+)?width(?:\s+of\s+strips?)?",
    "length": r"(?:cut\s+)?(?:length|height)",
    "size": r"(?:cut\s+|unfinished\s+|cutting\s+|piece\s+)?(?:sizes?|dimensions?|measurements?)|cut\s+at",
    "fabric": r"(?:fabrics?|colou?rs?|print|material)(?:\s+name)?",
    "label": r"(?:piece|patch|part|template|label|letter|id|key|unit)(?:\s+(?:name|no\.?|\#|id))?|ref\.?",
    "noun": r"shapes?|sub-?cuts?|cuts?|cutting|type|notes?|remarks?|comments?|directions|instructions|description|item",
    "for": r"(?:used\s+)?for|use|uses|location|purpose|where(?:\s+used)?|block|position|placement",
}
"""{what a column holds: how it is headed}."""

_COLUMN = re.compile("|".join(f"(?P<{kind}>(?<![a-z])(?:{words}))(?![a-z])" for kind, words in COLUMNS.items()))
_UNIT = re.compile(r"\s*[(\[]\s*(?P<unit>in\.?|ins\.?|inch(?:es)?|\"|cm|mm|wxl|w x l|w x h)\s*[)\]]")
_BETWEEN = re.compile(r"[\s|,:;/]*")
_CELL = re.compile(r"[^\S\n]{2,}")
_LETTER = re.compile(r"\W*(?P<name>[a-z]{1,2}\d{0,2}|\d{1,2}[a-z]?)\W*$")
SIDES = ("size", "width", "length")
SLACK = 2
"""Signs: a cell begins so far left of its head, at most."""


class Column(NamedTuple):
    """What a column holds, where its head begins on its line, and the unit that its head names."""

    kind: str
    place: int
    unit: str = ""


class Row(NamedTuple):
    """A row: the words of its fabric, (start, end) or None where it has none, and what else it says, as chunks; nothing
    else where it only names the fabric of the rows below it."""

    fabric: tuple[int, int] | None
    chunks: list[Chunk]


def columns(page: Page, start: int, end: int) -> tuple[Column, ...]:
    """The columns that a line heads, where its words are nothing but their names; none where it is no such line.

    >>> page = Page("Qty  Size (cm)  Fabric")
    >>> [column.kind for column in columns(page, 0, len(page.text))]
    ['count', 'size', 'fabric']
    """
    found: list[Column] = []
    at = _behind_blank(page, start, end)
    while at < end:
        name = _COLUMN.match(page.plain, at, end)
        if name is None:
            return ()
        unit = _UNIT.match(page.plain, name.end(), end)
        said = unit["unit"] if unit and unit["unit"] in ("cm", "mm") else ""
        found.append(Column(str(name.lastgroup), name.start() - start, said))
        at = _behind_blank(page, unit.end() if unit else name.end(), end)
    found = [_instead(one, found) for one in found]
    kinds = [one.kind for one in found]
    once = all(kinds.count(kind) <= 1 for kind in ("size", "width", "length", "count", "fabric"))
    sized = ("size" in kinds) != ("width" in kinds) and ("length" not in kinds or "width" in kinds)
    return tuple(found) if "count" in kinds and sized and once else ()


def _behind_blank(page, at, end):
    between = _BETWEEN.match(page.plain, at, end)
    return between.end() if between else at


def _instead(column, found):
    """A column, the first of two that count taken for that of the letters: "No.  Qty  Size"."""
    counts = [one for one in found if one.kind == "count"]
    return column._replace(kind="label") if len(counts) == 2 and column is counts[0] else column


def row(page: Page, start: int, end: int, heads: tuple[Column, ...]) -> Row | None:
    """The cells of a line of the table under their heads; None where it is no row of it."""
    cells = _cells(page, start, end, heads)
    if cells is None:
        return None
    fabric, chunks = None, []
    for column, (first, last) in cells:
        if column.kind == "fabric":
            if any(one.kind in FIGURES or one.kind == "caution" for one in chunked(page.plain, first, last)):
                return None
            fabric = (first, last) if re.search(r"\w", page.plain[first:last]) else None
            continue
        chunks += _in_column(page, first, last, column)
    chunks = _with_both_sides(chunks, heads)
    if fabric and all(one.kind == "punct" for one in chunks):  # the fabric of the rows below
        return Row(fabric, [])
    return Row(fabric, chunks) if count(chunks, *FIGURES) > 1 else None


def _in_column(page, start, end, column):
    """The chunks of a cell: a whole number under the head of the sizes is a size, a letter under that of the letters
    names the piece."""
    letter = _LETTER.match(page.plain, start, end)
    if column.kind == "label":
        words = page.words(start, end)
        return [Chunk("label", words.start, words.end, letter["name"])] if letter else _told(page, start, end)
    if column.kind == "for":
        return [Chunk("for", start, start), *_told(page, start, end)]
    found = chunked(page.plain, start, end)
    if column.kind not in SIDES:
        return found
    return [_sized(page, one, column.unit) for one in found]


def _with_both_sides(chunks, heads):
    """The chunks, a width and a length of their own columns taken for one size."""
    sides = all_of(chunks, "length")
    if len(sides) != 2 or not any(one.kind == "length" for one in heads):
        return chunks
    width, length = sides
    both = measured(width.value._replace(end=length.end, sides=(*width.value.sides, *length.value.sides)))
    return [*both, *(one for one in chunks if one not in sides)]


def _told(page, start, end):
    """What a cell says that holds no figure of its row: a figure in it is one too many."""
    return [one for one in chunked(page.plain, start, end) if one.kind != "punct"]


def _sized(page, chunk, unit):
    """A size of a table, in the unit of its head where it has none itself."""
    if chunk.kind == "count":
        value = measure(page.plain, chunk.start, chunk.end)
        chunk = chunk if value is None else Chunk("length", chunk.start, chunk.end, value)
    if not unit or chunk.kind not in ("length", "size"):
        return chunk
    sides = tuple(side._replace(unit=side.unit or unit) for side in chunk.value.sides)
    return chunk._replace(value=chunk.value._replace(sides=sides))


def _cells(page, start, end, heads):
    """Each cell of a line with its column; None where they cannot be told apart."""
    line = page.plain[start:end]
    if "\t" in line or "|" in line:
        separator = "|" if "|" in line else "\t"
        inner = line.strip().strip("|") if separator == "|" else line
        at = start + line.index(inner)
        spans = []
        for cell in inner.split(separator):
            spans.append((at, at + len(cell)))
            at += len(cell) + 1
        return [*zip(heads, spans)] if len(spans) <= len(heads) else None
    spans, at = [], start
    for gap in _CELL.finditer(page.plain, start, end):
        if page.plain[at : gap.start()].strip():
            spans.append((at, gap.start()))
        at = gap.end()
    if page.plain[at:end].strip():
        spans.append((at, end))
    begins = page.plain.rfind("\n", 0, start) + 1
    under = [_under(first - begins, heads) for first, _ in spans]
    kinds = [one.kind for one in under]
    if "count" in kinds and {*SIDES} & {*kinds} and len(kinds) == len({*kinds}):
        return [*zip(under, spans)]
    return [*zip(heads, spans)] if len(spans) == len(heads) else None


def _under(place, heads):
    """The last column whose head begins left of a place, or a little right of it."""
    return max((one for one in heads if one.place <= place + SLACK), key=lambda one: one.place, default=heads[0])
