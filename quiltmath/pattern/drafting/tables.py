"""Tables whose head names their columns: each row read by what its columns say, in whichever order they stand."""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import NamedTuple

from .chunks import FIGURES, NAMED, Chunk, all_of, chunked, count, measured, opened
from .figures import COMMA, measure
from .in_turn import FIRST, SECOND
from .page import Page

_NUMBER = r"(?:\#|no\.?|nr\.?|number|qty\.?|quantity)(?:\s+of)?"
COLUMNS = {
    "strips": rf"(?:{_NUMBER}\s+|cut\s+)?(?:wof\s+)?strips(?:\s+(?:to\s+cut|qty|needed))?(?! (?:width|size))",
    "strip_size": r"strips?\s+(?:size|width)s?|(?:width|size)\s+of\s+strips?",
    "bought": r"yardage|yards?|yds?\.?|amount(?!\s+to)|met(?:re|er)s?|(?:(?:amount\s+)?to\s+)?buy",
    "squares": rf"(?:{_NUMBER}\s+)?(?:squares|rectangles)",
    "first": FIRST,
    "second": rf"(?:{SECOND}|then\s+cut|sub-?cuts?)(?:\s+into)?",
    "for_one": r"(?:\#|no\.?\s+|number\s+)?(?:per|for\s+(?:one|each|1)|in\s+each|each)\s+block",
    "count": rf"(?:{_NUMBER}\s+)?(?:pieces|patches|pcs\.?)(?! size)|qty\.?|quantit(?:y|ies)|how\s+many|n[or]\.?|count"
    r"|number(?:\s+(?:to\s+cut|needed|required))?|\#(?:\s+to\s+cut)?|cut\s+qty|amount\s+to\s+cut"
    r"|(?:for\s+)?all(?:\s+\d+)?\s+blocks|(?:for\s+)?\d+\s+blocks|in\s+(?:all|total)|totals?|whole\s+quilt",
    "width": r"(?:cut\s+)?width|w(?=\s*(?:$|[\t|(\[]|\s))",
    "length": r"(?:cut\s+)?(?:length|height)|[hl](?=\s*(?:$|[\t|(\[]|\s))",
    "size": r"(?:(?:cut|unfinished|cutting|piece|patch)\s)?(?:sizes?|dimensions?|measurements?)|cut\s+at"
    r"|(?:in\s+)?(?:cm|mm|inch(?:es)?)(?=\s*(?:$|[\t|]|\s{2}))",
    "fabric": r"(?:cut\s+)?from|(?:fabrics?|colou?rs?|print|material)(?:\s+name)?",
    "label": r"(?:piece|patch|part|template|label|letter|id|key|unit|code|symbol)(?:\s+(?:name|no\.?|\#|id))?|ref\.?",
    "place": r"rows?|steps?|pages?|diagrams?|figures?|bags?",
    "note": r"notes?|remarks?|comments?|then",
    "noun": r"shapes?|yields?|gives?|sub-?cuts?|cuts?|cutting|type|directions|instructions|description|item",
    "for": r"(?:(?:used|goes)\s+)?(?:for|into?)|use|uses|location|purpose|where(?:\s+used)?|block|position|placement",
}
"""{what a column holds: how it is headed}, in the order in which it is tried."""

_COLUMN = re.compile("|".join(f"(?P<{kind}>(?<![a-z])(?:{words}))(?![a-z])" for kind, words in COLUMNS.items()))
_PARTS = (",", "-", ":", ";")
_UNIT = re.compile(r"\s*[(\[]\s*(?P<unit>in\.?|ins\.?|inch(?:es)?|\"|cm|mm|wxl|w x l|w x h)\s*[)\]]")
_ACROSS = re.compile(
    r"\s*[(\[]\s*(?:(?:cut|all)\s+)?(?:across\s+(?:the\s+)?)?(?:wof|width\s+of\s+(?:the\s+)?fabric)\s*[)\]]"
)
"""What the head of a column of strips says of them all: "Strips (cut WOF)"."""
_METRIC = re.compile(r"[cm]m")
_BETWEEN = re.compile(r"[\s|,:;/]*")
_PARTED = re.compile(r"[^\t|\n]+(?=[\t|])|(?<=[\t|])[^\t|\n]+")
_CELL = re.compile(r"[^\S\n]*\.{3,}[^\S\n]*|[^\S\n]{2,}")
"""What parts the cells of a row: a gap, or dots that lead from one to the next."""
_LETTER = re.compile(r"\W*(?P<name>[a-z]{1,2}\d{0,2}|\d{1,2}[a-z]?)\W*$")
NUMBERED_NAME = re.compile(r"\s*[a-z][a-z ]*?\s+\d{1,2}\s*")
"""A fabric that is one of several of its kind: "Light 2"."""
_SUM = re.compile(r"\W*(?:(?:sub-?)?totals?|sums?|altogether|in\s+all|all)\W*$")
SIDES = ("size", "width", "length", "strip_size")
_REMARKS = ("for", "note", "place")
_ORDINALS = ("third", "fourth")
"""What tells of a share of pieces elsewhere: "third rail"."""
COUNTS = ("count", "strips", "for_one")
LEAST_UNHEADED = 8
"""Signs: where the first head stands so far from the margin, a column of fabrics stands before it that has none."""
SET_IN = 3
"""Signs: a cell of that column that is set in so far names no fabric but what its pieces are for."""
SLACK = 2
"""Signs: a cell begins so far left of its head, at most."""


class Column(NamedTuple):
    """What a column holds, where its head begins on its line, and the unit that its head names."""

    kind: str
    place: int
    unit: str = ""
    said: str = ""


class Row(NamedTuple):
    """A row: the words of its fabric, (start, end) or None where it has none, and what else it says, as chunks; nothing
    else where it only names the fabric of the rows below it."""

    fabric: tuple[int, int] | None
    chunks: list[Chunk]
    bought: str = ""
    """How much of the fabric is bought."""
    remarks: tuple[str, ...] = ()
    """What a row that buys says besides."""


def columns(page: Page, start: int, end: int) -> tuple[Column, ...]:
    """The columns that a line heads, where its words are nothing but their names; none where it is no such line.

    >>> page = Page("Qty  Size (cm)  Fabric")
    >>> [column.kind for column in columns(page, 0, len(page.text))]
    ['count', 'size', 'fabric']
    """
    found: list[Column] = []
    at = _behind_blank(page, start, end)
    while at < end:
        parted = _PARTED.match(page.plain, at, end)
        stop = parted.end() if parted else end
        name = _COLUMN.match(page.plain, at, stop)
        unit = _UNIT.match(page.plain, name.end(), stop) if name else None
        across = _ACROSS.match(page.plain, name.end(), stop) if name and name.lastgroup == "strips" else None
        behind = (unit or across or name).end() if name else at
        if name is None or (parted and page.plain[behind:stop].strip()):
            if not parted or any(one.kind in FIGURES for one in chunked(page.plain, at, stop)[:1]):
                return ()
            found.append(Column("other", at - start))  # what stands below is told of no piece
            at = _behind_blank(page, stop, end)
            continue
        metric = _METRIC.search(unit["unit"] if unit else name[0])
        found.append(Column(str(name.lastgroup), name.start() - start, metric[0] if metric else "", name[0]))
        at = _behind_blank(page, behind, end)
    kinds = {one.kind for one in found}
    unheaded = bool(found) and found[0].place >= LEAST_UNHEADED and not kinds & {"fabric", "other"}
    return _of_pieces([Column("fabric", 0), *found] if unheaded and "\t" not in page.plain[start:end] else found)


def _of_pieces(found):
    """The columns, where they say how many pieces there are and how large, or strips; none where they do not."""
    found = _in_turn(found)
    kinds = [one.kind for one in found]
    if "count" not in kinds and kinds.count("squares") == 1:  # they are counted
        kinds[kinds.index("squares")] = "count"
    if "count" not in kinds:  # "Cut" heads the numbers where nothing else does
        at = next((place for place, kind in enumerate(kinds) if kind in ("noun", "for_one")), None)
        found = [one._replace(kind="count") if place == at else one for place, one in enumerate(found)]
    kinds = [one.kind for one in found]
    if kinds.count("count") == 2:  # "No.  Qty  Size"
        found[kinds.index("count")] = found[kinds.index("count")]._replace(kind="label")
    kinds = [one.kind for one in found]
    if "strip_size" in kinds and not {"strips", "size", "width"} & {*kinds}:
        of_strips = (
            {"count": "strips"} if kinds.count("count") == 1 and "noun" not in kinds else {"strip_size": "width"}
        )
        found = [one._replace(kind=of_strips.get(one.kind, one.kind)) for one in found]
        kinds = [one.kind for one in found]
    once = all(kinds.count(kind) <= 1 for kind in {*SIDES, *COUNTS, "fabric", "first", "second"})
    sized = ("size" in kinds) != ("width" in kinds) and ("length" not in kinds or "width" in kinds)
    of_strips = "strips" in kinds and {"strip_size", "size", "width"} & {*kinds}
    known = len([kind for kind in kinds if kind != "other"]) > 1
    counted = "count" in kinds or kinds.count("squares") == 1
    in_words = {"fabric", "bought"} < {*kinds} and kinds.count("count") == 1  # "Fabric  Yardage  Cut"
    in_words |= {"strips", "count"} <= {*kinds} and not {*SIDES} & {*kinds}
    in_words |= {"fabric", "bought", "strips"} <= {*kinds} and not {*SIDES, *COUNTS} - {"strips"} & {*kinds}
    if only_buys(found):
        return tuple(found)
    return tuple(found) if known and once and (counted and sized or of_strips or "first" in kinds or in_words) else ()


def only_buys(found: Iterable[Column]) -> bool:
    """Whether columns say how much is bought of each fabric, perhaps its letter and what it is for, and no more."""
    kinds = sorted(one.kind for one in found)
    return [kind for kind in kinds if kind not in ("label", *_REMARKS)] == ["bought", "fabric"]


def _in_turn(found):
    """The columns, "Cut" the first cut where another is headed "Sub-cut"; without it that says what is cut."""
    kinds = [one.kind for one in found]
    if "second" not in kinds or "first" in kinds:
        return found
    firsts = [one for one in found if one.kind == "noun" and one.said.startswith("cut")]
    first = firsts[0] if len(firsts) == 1 and not {*SIDES, *COUNTS} & {*kinds} else None
    return [
        one._replace(kind="first")
        if one is first
        else one._replace(kind="noun")
        if first is None and one.kind == "second"
        else one
        for one in found
    ]


def _behind_blank(page, at, end):
    between = _BETWEEN.match(page.plain, at, end)
    return between.end() if between else at


def total(page: Page, start: int, end: int, heads: tuple[Column, ...]) -> int | None:
    """The number that a row under the others says they come to: "SUM  28"; None where it is no such row."""
    cells = [cell for _, cell in _cells(page, start, end, heads) or () if page.plain[slice(*cell)].strip()]
    numbers = [one for first, last in cells for one in chunked(page.plain, first, last) if one.kind in FIGURES]
    said = any(_SUM.match(page.plain, first, last) for first, last in cells)
    return numbers[0].value if said and [one.kind for one in numbers] == ["count"] else None


def row(page: Page, start: int, end: int, heads: tuple[Column, ...]) -> Row | None:
    """The cells of a line of the table under their heads; None where it is no row of it."""
    cells = _cells(page, start, end, heads)
    if cells is None:
        return None
    fabric: tuple[int, int] | None = None
    said: dict[str, list[Chunk]] = {}
    more: list[Chunk] = []
    remarks: list[str] = []
    for column, (first, last) in cells:
        if not re.search(r"\w|[\"']", page.plain[first:last]):
            continue
        if column.kind == "fabric":
            fabric, more = _of_one_place(page, first, last)
            named = NUMBERED_NAME.fullmatch(page.plain, *fabric)
            unlike = (
                FIGURES if only_buys(heads) else (*FIGURES, "caution")
            )  # "Teal/rust leaf" may be either where it is cut
            if not named and count(chunked(page.plain, *fabric), *unlike):
                return None
            continue
        remarks += [page.words(first, last).text] if column.kind in _REMARKS else []
        said.setdefault(column.kind, []).extend(_in_column(page, first, last, column))
    bought = said.pop("bought", [])
    if only_buys(heads):  # "3  (blocks, border)"
        uses = [one for one in bought[1:] if one.kind == "note" and not count(one.value, *FIGURES)]
        bought = [one for one in bought if one not in uses]
        remarks += [page.words(one.start, one.end).text for one in uses]
    if [one.kind for one in bought] not in ([], ["yards"], ["length"]):
        return None
    if only_buys(heads):
        length = bought[0].value.sides[0].text if bought else ""
        return Row(fabric, said.get("label", []), length, (*remarks,)) if bought and fabric else None
    chunks = [*_strips_first(said, heads, page), *more]
    if fabric and not bought and all(one.kind == "punct" for one in chunks):  # the fabric of the rows below
        return Row(fabric, [])
    length = bought[0].value.sides[0].text if bought else ""
    told = count(chunks, *FIGURES) > 1 or fabric and bought and not count(chunks, *FIGURES)
    return Row(fabric, chunks, length) if told else None


def _of_one_place(page, start, end):
    """Where a cell names its fabric, and what else it tells of the pieces, as their place in the quilt:
    "Navy (binding)", "Navy, side borders", "Binding - navy"."""
    chunks = chunked(page.plain, start, end)
    if (
        [one.kind for one in chunks[:-1]] == ["word"] * (len(chunks) - 1)
        and len(chunks) > 1
        and chunks[-1].kind == "role"
    ):
        return (start, end), chunks[-1:]  # "Navy stripe binding"
    at = next((place for place, one in enumerate(chunks) if one.kind in ("note", "for") or page.said(one) in _PARTS), 0)
    if not at:
        return (start, end), []
    before, behind = chunks[:at], chunks[at + (chunks[at].kind == "punct") :]
    if {one.kind for one in before} == {"role"} and not count(opened(behind), "role", *FIGURES):
        return ((behind[0].start, end), before) if chunks[at].kind == "punct" and behind else ((start, end), [])
    inside = [one for chunk in behind for one in (chunk.value if chunk.kind == "note" else (chunk,))]
    changes = count(inside, "role", "cut", "lengthwise", "bias", "once", "twice")
    return ((start, before[-1].end), behind) if changes and not count(before, "role") else ((start, end), [])


def _strips_first(said, heads, page):
    """The chunks of a row in the order of a sentence: strips, and what is cut from them."""
    said.pop("for_one", None) if any(one.kind == "count" for one in heads) else None
    of_strips = said.pop("width", []) if "strips" in said and "size" in said else []
    strips = [*said.pop("strips", []), *said.pop("strip_size", of_strips)]
    first, second = said.pop("first", []), said.pop("second", [])
    rest = _with_both_sides([one for chunks in said.values() for one in chunks], heads)
    if first:
        parts = [Chunk("into", second[0].start, second[0].start)] if count(second[:2], "count") else []
        return [*first, *parts, *second, *rest]
    if not strips:
        return rest
    at = strips[-1].end
    noun = [] if count(strips, "strips") else [Chunk("strips", at, at)]
    pieces = [Chunk("into", at, at)] if count(rest, "count") else []
    return [*strips, *noun, *pieces, *rest]


def _in_column(page, start, end, column):
    """The chunks of a cell: a whole number under the head of the sizes is a size, a letter under that of the letters
    names the piece."""
    letter = _LETTER.match(page.plain, start, end)
    if column.kind == "label":
        words = page.words(start, end)
        return [Chunk("label", words.start, words.end, letter["name"])] if letter else _told(page, start, end)
    if column.kind in ("for", "other", "place"):
        told = _told(page, start, end)
        numbered = column.kind == "for" and {one.kind for one in told} <= {"count", "punct", "and"}
        if numbered or column.kind == "place" or column.kind == "other" and not count(told, *FIGURES):
            return [Chunk("note", start, end, [])]
        told = [one._replace(kind="word") if one.kind in NAMED or page.said(one) in _ORDINALS else one for one in told]
        return [Chunk("for", start, start), *told]
    found = [one for one in chunked(page.plain, start, end) if one.kind != "punct"]
    if column.kind == "note":
        words = page.words(start, end)
        return [Chunk("note", words.start, words.end, found)]
    if column.kind == "squares":
        noun = "rectangles" if "rect" in column.said else "squares"
        return found if count(found, *NAMED) else [*found, Chunk(noun, end, end)]
    if column.kind in COUNTS:  # "12x", "cut 12"
        return [one for one in found if one.kind not in ("cut", "caution")]
    if column.kind == "bought":
        return [_in_lengths(page, one, column.said) for one in found]
    if column.kind not in SIDES:
        return found
    return [_sized(page, one, column.unit) for one in found]


def _with_both_sides(chunks, heads):
    """The chunks, a width and a length of their own columns taken for one size."""
    sides = sorted(all_of(chunks, "length"), key=lambda one: one.start)
    if len(sides) != 2 or not any(one.kind == "length" for one in heads):
        return chunks
    width, length = sides if _first_of(heads) == "width" else sides[::-1]
    both = measured(width.value._replace(end=length.end, sides=(*width.value.sides, *length.value.sides)))
    return [*both, *(one for one in chunks if one not in sides)]


def _first_of(heads):
    return next(one.kind for one in heads if one.kind in ("width", "length"))


def _told(page, start, end):
    """What a cell says that holds no figure of its row: a figure in it is one too many."""
    return [one for one in chunked(page.plain, start, end) if one.kind != "punct"]


def _sized(page, chunk, unit):
    """A size of a table, in the unit of its head where it has none itself."""
    if chunk.kind == "count":
        value = measure(page.plain, chunk.start, chunk.end)
        chunk = chunk if value is None else Chunk("length", chunk.start, chunk.end, value)
    if not unit or chunk.kind not in ("length", "size", "doubt"):
        return chunk
    sides = tuple(side._replace(unit=side.unit or unit) for side in chunk.value.sides)
    if chunk.kind == "doubt":
        sides = tuple(side._replace(doubt="") if side.doubt == COMMA else side for side in sides)
        (chunk,) = measured(chunk.value._replace(sides=sides))
    return chunk._replace(value=chunk.value._replace(sides=sides))


def _in_lengths(page, chunk, said):
    """How much is bought, in the unit that the head names where the row has none: "Yards: 1 3/8"."""
    unit = "yd" if said.startswith("y") else "m" if said.startswith("met") else ""
    value = measure(page.plain, chunk.start, chunk.end) if chunk.kind in ("count", "length", "doubt") else None
    if not unit or value is None or len(value.sides) != 1 or value.sides[0].unit or value.sides[0].doubt:
        return chunk
    return Chunk("yards", chunk.start, chunk.end, value._replace(sides=(value.sides[0]._replace(unit=unit),)))


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
    if heads[0].kind == "fabric" and not heads[0].said:
        under = _with_purposes(under, spans, begins)
    alone, (under, spans) = spans, _whole_cells(under, spans)
    kinds = [one.kind for one in under]
    in_words = not {*SIDES} & {one.kind for one in heads}
    told = (
        {"first", "strips"} & {*kinds}
        or only_buys(heads)
        and "bought" in kinds
        or kinds == ["fabric", "bought"]
        or "count" in kinds
        and (in_words or {*SIDES} & {*kinds})
    )
    if told and len(kinds) == len({*kinds}):
        return [*zip(under, spans)]
    whole = next((some for some in (spans, alone) if len(some) == len(heads)), None)
    return [*zip(heads, whole)] if whole else None


def _with_purposes(under, spans, begins):
    """The columns of cells, those of no head behind a fabric, or set in below one, as what its pieces are for."""
    first = under[0].kind == "fabric" and spans[0][0] - begins < SET_IN
    return [
        one._replace(kind="for", place=span[0] - begins) if one.kind == "fabric" and not (first and at == 0) else one
        for at, (one, span) in enumerate(zip(under, spans))
    ]


def _whole_cells(under, spans):
    """The cells with those of one column that a wide gap parts as one: "3  @ 2 1/2 in"."""
    whole: list[tuple[Column, tuple[int, int]]] = []
    for column, (start, end) in zip(under, spans):
        if whole and whole[-1][0] == column:
            start = whole.pop()[1][0]
        whole.append((column, (start, end)))
    return [column for column, _ in whole], [span for _, span in whole]


def _under(place, heads):
    """The last column whose head begins left of a place, or a little right of it."""
    return max((one for one in heads if one.place <= place + SLACK), key=lambda one: one.place, default=heads[0])
