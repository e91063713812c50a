"""How wide a page takes the fabric to be."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from .brackets import LEAST_WIDTH
from .chunks import FIGURES, Chunk, all_of, bag, count, opened
from .figures import measure
from .kept import Kept
from .model import Context, Entry, Reading
from .vocabulary import trade_name

MOST_WIDTH = Fraction(120)
CLOTH = {
    "fabric", "fabrics", "usable", "useable", "yardage", "yardages", "cotton", "cottons", "material", "goods", "cloth"
}  # fmt: skip
_AT_LEAST = {"at least", "about", "approximately", "approx", "minimum"}
OF_WIDTH = {"wide", "usable", "useable", "width", "widths"}
_USED = {
    "use",
    "used",
    "usable",
    "useable",
    "counted",
    "count",
    "reckoned",
    "reckon",
    "figured",
    "figure",
    "figuring",
    "allowed",
    "good",
}
"""What is said of so much of the width as pieces are cut from."""


def width(chunks: list[Chunk], context: Context, page) -> Reading | None:
    """How wide the fabric is taken to be: "Yardage is based on 42 in usable width"."""
    plain = [one for one in opened(chunks) if page.said(one) not in _AT_LEAST]
    words = {page.said(one) for one in plain if one.kind == "word"}
    used = _used(_in_one_unit(_as_bought(plain, page), page), {page.said(one) for one in plain})
    if used:
        return _usable(used, chunks, page)
    noted = any(one.kind == "note" and count(one.value, "length") for one in chunks)
    if (
        noted or not count(plain, "count") and not context.role
    ):  # "Strips are cut across the width of fabric, taken as 40 in"
        plain = [one for one in plain if one.kind not in ("strips", "cut", "caution")]
    if not bag(plain, one=(("length",),), some=("wof",)):
        return None
    value = all_of(plain, "length")[0].value
    behind = next((page.said(one) for one in plain if one.start >= value.end), "")
    said = count(plain, "wof") or value.sides[0].along.startswith("wid") or words & OF_WIDTH or behind in CLOTH
    said = said or "across" in words and words & CLOTH
    of_head = noted and bool(plain) and plain[0].kind == "from"  # "From white (42 in wide)"
    cloth = count(plain, "wof") or of_head or words & CLOTH or context.section == "buying" and words <= OF_WIDTH
    purpose = count(plain, "for") and not words & {"requirements", "requirement", "yardage", "yardages", "amounts"}
    if (
        not (said and cloth)
        or purpose
        or count(plain, "strips")
        or not LEAST_WIDTH <= value.sides[0].inches <= MOST_WIDTH
    ):
        return None
    return _usable(value, chunks, page)


def _as_bought(plain, page):
    """The chunks, of the two widths between which cloth is sold only the first: '42"-44" goods'."""
    between = {
        id(other)
        for one, sign, other in zip(plain, plain[1:], plain[2:])
        if one.kind == other.kind == "length" and page.said(sign) in ("-", "to")
    }
    return [one for one in plain if id(one) not in between]


def _in_one_unit(plain, page):
    """The chunks, a width without a unit behind one that has it in the same: "110 cm wide, of which we use 106"."""
    widths, counts = all_of(plain, "length"), all_of(plain, "count")
    unit = widths[0].value.sides[0].unit if len(widths) == len(counts) == 1 else ""
    read = measure(f"{page.said(counts[0])} {unit}", 0) if unit and counts[0].start > widths[0].start else None
    return [one._replace(kind="length", value=read) if read and one is counts[0] else one for one in plain]


def _usable(value, chunks, page):
    return Reading((Entry("sheet", {"usable_width": value.texts[0]}, page.over(chunks), "usable_width"),))


def _used(plain, words):
    """The width that pieces are cut from, where a line tells the whole width of the cloth besides: "44 in wide, 40 in
    usable", "44/45-inch cloth (40 in counted)"; None where it does not."""
    widths, either = all_of(plain, "length"), all_of(plain, "doubt")
    others = count(plain, *(FIGURES - {"length", "doubt"}))
    if not words & _USED or len(widths) + len(either) != 2 or others or not widths:
        return None
    found = sorted((one.value for one in widths), key=lambda value: value.with_units()[0].inches)
    if any(not LEAST_WIDTH <= value.with_units()[0].inches <= MOST_WIDTH for value in found):
        return None
    return found[0]


_ARE = {"is", "are", "be", "measure", "measures", "measuring", "assume", "assumes", "assumed", "assuming", "at"}
"""What a sentence says of how large pieces are that are bought."""


def of_pieces(chunks: list[Chunk], kept: Kept, context: Context, page) -> Reading | None:
    """How large the fat quarters are that stand on the shopping list: "Fat quarters are assumed to be 18 x 21 in"."""
    flat = opened(chunks)
    sizes, pieces = all_of(flat, "size"), all_of(flat, "fat_quarter")
    told = {one.kind for one in flat} <= {"word", "punct", "article", "each", "of_each", "fat_quarter", "size"}
    if len(sizes) != 1 or len(pieces) != 1 or not told or pieces[0].start > sizes[0].start:
        return None
    if not {page.said(one) for one in flat if pieces[0].start < one.start < sizes[0].start} & _ARE:
        return None
    name, size = trade_name(page.said(pieces[0])), list(sizes[0].value.texts)
    bought = [one for one in kept.entries if one.table == "fabric" and one.data.get("piece") == name]
    for one in bought:
        kept.put(one, replace(one.but(piece=size), remarks=(*one.remarks, page.over(chunks).text)))
    return Reading(remarks=(page.over(chunks),)) if bought else None
