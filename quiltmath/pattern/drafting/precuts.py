"""What a page says to buy in pieces: fat quarters, precut squares and strips, packs of these."""

from __future__ import annotations

import re
from dataclasses import replace
from itertools import pairwise

from . import naming, prose
from .bought_for import behind_a_comma
from .buying import FILLS, as_much_of_each, by_length, by_purpose, entry_of, figures, lining, without_purpose
from .chunks import NAMED, Chunk, all_of, count, place_of
from .counted import is_part
from .figures import long_side
from .groups import parted_names
from .model import Context, Entry, Question, Reading
from .unit_bought import centimetres_alone
from .vocabulary import trade_name

OF_QUILT = {"quilt", "quilts", "throw", "runner"}
_OF_PAGE = {"pattern", "project"}
"""What a page calls itself by what it is made of: "a fat-quarter pattern"."""
_MODALS = {"may", "might", "can", "could", "should", "must"}
"""What running prose says of fabric, and no list: "the fat quarters may be as loud as they like"."""
CHOSEN = {"choose", "pick", "pull", "select", "sort", "take"}
LEAST_PIECE = 1
"""Inches: no fabric is sold in narrower pieces."""
LARGEST_PRECUT = 12
"""Inches: a larger square is a quilt, "a 60 in-square quilt"."""
_SAYS_NO_MORE = re.compile(
    r"\s*,\s*all\s+different\b(?=\W*(?:$|each|one|every))"
    r"|\s*(?:[,;]|\s-)\s*(?:each|every|one)(?:\s+(?:one|piece))?\s+(?:yields?|makes?|gives?|will\s+make|is\s+enough\s+for)\s+[a-z\d]+"
    r"\s+[a-z]+(?=\W*$)"
)
"""What follows from what is cut of pieces, or changes nothing of it: ", all different - each yields two stars"."""
PIECES = ("pieces", "strips", "squares", "rectangles", "fat_quarter", "precut")


def as_pieces(chunks: list[Chunk], context: Context, page) -> Reading | None:
    """Fabric that is bought as pieces: "6 fat quarters assorted reds", "40 precut 2 1/2 x 42 in strips"."""
    if is_part(chunks, page) or prose.said(chunks, page) & CHOSEN:  # "choose 72 of the 5 in squares"
        return None
    chunks = _of_a_bundle(chunks, page)
    chunks = by_purpose(chunks, context, page) if count(chunks[:1], "unit") else chunks  # "Geese: 12 fat quarters"
    tail = _SAYS_NO_MORE.search(page.plain, chunks[0].start, chunks[-1].end)
    chunks = [one for one in chunks if tail is None or one.end <= tail.start()]
    chunks = without_purpose(behind_a_comma([one for one in chunks if not _is_one_for_each(one)], page))
    chunks = [inner for one in chunks for inner in (one.value if _is_a_piece(one) else (one,))]
    quarters, precut = count(chunks, "fat_quarter"), count(chunks, "precut")
    noted = [one for one in chunks if one.kind == "note" and count(one.value, "fat_quarter", "precut")]
    buying = context.section == "buying"
    if any(count(one.value, "from", "cut") for one in noted):  # "strips 3 1/2 x 21 in (cut from a fat quarter)"
        return None
    charms = "charm" in prose.said(chunks, page) and not context.section and not context.fabrics
    if not (quarters or precut or noted or ((buying or charms) and count(chunks, "pieces", "squares", "strips"))):
        return None
    words = {page.said(one) for one in chunks}
    if (OF_QUILT | _MODALS) & words:  # "A fat-quarter quilt, 56 in square"
        return None
    if _OF_PAGE & words and not count(chunks, "count"):
        return None
    told = [one.kind for one in chunks if one.kind in ("from", "fat_quarter", "precut", "size", "length")]
    cut_of_them = "from" in told and bool({"size", "length"} & {*told[: told.index("from")]})
    if count(chunks, "cut", "into", "pack") or (count(chunks, "from") and not (quarters or precut)) or cut_of_them:
        return None
    at = place_of(chunks, "for", otherwise=len(chunks))  # "for the hearts" changes nothing
    flat = [one for place, one in enumerate(chunks) if one.kind != "note" and (place < at or one.kind != "caution")]
    if quarters or not count(flat, "size", "length"):  # "50 charm squares (5 in x 5 in)"
        flat = [
            *flat,
            *(inner for one in chunks if one.kind == "note" for inner in one.value if inner.kind in ("size", "length")),
        ]
        if any(figures(one.value) and not bare_size(one.value) for one in chunks if one.kind == "note"):
            return None
    elif any(figures(one.value) for one in chunks if one.kind == "note"):
        return None
    counts, sizes = all_of(flat, "count"), all_of(flat, "size", "length")
    if len(counts) > 1 or len(sizes) > 1 or all_of(flat, "caution", "doubt", "yards", "strip", "once", "twice"):
        return None
    if any(one.kind not in (*FILLS, *PIECES, "count", "size", "length", "of_each", "each") for one in flat):
        return None
    articles = count(flat, "article")
    place = place_of(flat, "fat_quarter")
    behind_a_name = place > 1 and page.said(flat[place - 1]) in (":", "-")  # "Sun: fat quarter"
    one = (
        (buying or behind_a_name or chunks[0].kind == "fat_quarter")
        and quarters
        and not page.plain[: all_of(flat, "fat_quarter")[0].end].endswith("s")
    )
    if not counts and not articles and not one:
        return None
    data = {"pieces": counts[0].value if counts else 1}
    if sizes:
        data["piece"] = _piece(sizes[0].value.texts, count(flat, "strips") > 0)
    elif quarters:
        piece = all_of(flat, "fat_quarter")[0]
        data["piece"] = trade_name(page.said(piece))
    if "piece" not in data or data["piece"] is None or any(long_side(text)[0] < LEAST_PIECE for text in _texts(sizes)):
        return None
    notes = [one.value for one in all_of(chunks, "note")]
    listed = notes[0] if len(notes) == 1 else [one for one in flat if one.kind != "role"]
    if quarters and len([*parted_names(listed, page)]) == data["pieces"] > 1:  # "3 fat quarters (red, green, gold)"
        return as_much_of_each({**data, "pieces": 1}, listed, chunks, context, page)
    if count(flat, "each", "of_each"):  # "1 fat quarter each of red, blue and green"
        return as_much_of_each(data, [one for one in flat if one.kind != "count"], chunks, context, page)
    read = entry_of(data, [one for one in flat if one.kind not in PIECES], chunks, context, page)
    described = naming.described([one for one in flat if one.kind == "word"], page)
    return read or (None if naming.is_of_fabric(described) else _unnamed(data, chunks, context, page))


def called_by_its_pieces(chunks: list[Chunk], context: Context, page) -> Reading | None:
    """A quilt that is only called by the precut pieces it is made of: "An easy 5 in-square quilt"."""
    at = place_of(chunks, "length")
    behind = [one for one in chunks[at + 1 :] if one.kind != "punct"]
    piece, quilt = (page.said(one) for one in behind[:2]) if len(behind) > 1 else ("", "")
    of_pieces = piece in ("square", "strip") and quilt in OF_QUILT - {"quilts"}
    if not of_pieces or len(figures(chunks)) != 1 or chunks[at].value.sides[0].inches > LARGEST_PRECUT:
        return None
    only = all(one.kind in (*FILLS, "length", "squares", "strips") for one in chunks)
    return Reading(remarks=(page.over(chunks),)) if only else None


def _is_one_for_each(chunk):
    """Whether a bracket says that there is one piece for each block, and no more: "(one for each block)"."""
    inside = chunk.value if chunk.kind == "note" else []
    counted = [one.value for one in all_of(inside, "count")]
    kinds = {one.kind for one in inside}
    return counted == [1] and "blocks" in kinds and kinds <= {"count", "of_each", "each", "for", "blocks", "word"}


def in_sentences(chunks: list[Chunk], context: Context, page) -> Reading | None:
    """Lines of a shopping list parted by semicolons, or by the names that head them: "Backing: 3 3/4 yards, cut in
    two; 9 fat quarters blue prints", "Backing: 3 yds. Binding: 5/8 yd."."""
    parts: list[list[Chunk]] = [[]]
    headed = [at for at in range(len(chunks)) if _heads_another(chunks[at - 1 : at + MOST_OF_A_HEAD + 1], page)]
    headed = headed if len(headed) == count(chunks, "yards") - 1 else []
    for at, one in enumerate(chunks):
        if page.said(one) == ";" or at in headed:
            parts.append([])
        if page.said(one) != ";":
            parts[-1].append(one)
    parts = [part for part in parts if part]
    bought = ("yards", "fat_quarter", "pack", "precut")
    if len(parts) < 2 or not all(count(part, *bought, "size") for part in parts) or not count(chunks, *bought):
        return None
    here, found = context.copied(), list[Entry]()
    for part in parts:
        part = prose.behind_a_kit(part, page)
        rules = (lining, by_length, several, packs, as_pieces)
        read = next((read for rule in rules if (read := rule(part, here, page))), None)
        if read is None or read.questions or not read.entries:
            return None
        found += read.entries
    context.take(here)
    return Reading(tuple(found))


MOST_OF_A_HEAD = 3
"""Chunks of words before the colon of one of several that are bought."""


def _heads_another(chunks, page):
    """Whether a name with a colon stands right behind the first of these chunks, a length to buy."""
    if not chunks or chunks[0].kind != "yards":
        return False
    colon = next((at for at, one in enumerate(chunks) if page.said(one) == ":"), 0)
    return colon > 1 and all(one.kind in ("word", "role") for one in chunks[1:colon])


def several(chunks: list[Chunk], context: Context, page) -> Reading | None:
    """Several lines of a shopping list in one: "Wadding 1.6 m x 2 m, backing 3.4 m (112 cm wide)"."""
    parts: list[list[Chunk]] = [[]]
    chunks = _as_much(chunks, page)
    for at, one in enumerate(chunks):
        more = one.kind == "and" and _buys_more(chunks[at + 1 :], page)
        parts_here = more or page.said(one) in (",", ";", "plus", "along")
        if parts_here and len(parts) > 1 and _is_only_a_width(parts[-1], page):
            wide = parts.pop()
            parts[-1] += wide
        if parts_here and len(parts) > 1 and _only_names(parts[-1], page) and not count(parts[-2], "word"):
            name = parts.pop()  # "8 fat quarters, assorted prints, 2 yards backing"
            parts[-1] += name
        parts_here = parts_here and not (one.kind == "and" and count(parts[-1], "each", "of_each"))
        if parts_here and (count(parts[-1], "yards", "size", "fat_quarter") or centimetres_alone(parts[-1], page)):
            parts.append([])
        elif page.said(one) in ("plus", "along", "with") and len(parts) > 1 and not parts[-1]:
            continue
        else:
            parts[-1].append(one)
    of_all = _as_wide(parts[-1], page) if len(parts) > 2 else ""
    parts = parts[:-1] if of_all else parts
    if len(parts) > 2 and _is_only_a_width(parts[-1], page):
        parts = [*parts[:-2], [*parts[-2], *parts[-1]]]
    if len(parts) < 2 or not all(count(part, "yards", "length", "size", "fat_quarter") for part in parts):
        return None
    rules = (lining, by_length, as_pieces)
    listed = replace(context, section="buying") if count(chunks, "yards") else context  # beside a length in metres
    here = (listed if centimetres_alone(part, page) else context for part in parts)
    reads = [next((read for rule in rules if (read := rule(part, of, page))), None) for part, of in zip(parts, here)]
    entries = tuple(entry for read in reads if read for entry in read.entries)
    named = all(count(part, "word", "role", "fat_quarter") for part in parts)
    if _are_sentences(chunks, page):
        return None
    if not named or not all(reads) or len(entries) < len(parts) or any(read.questions for read in reads if read):
        return None
    return Reading(tuple(one.but(usable_width=of_all) if of_all and "bought" in one.data else one for one in entries))


def _as_wide(part, page):
    """How wide all fabrics are that stand before this part, where it says no more: "both 45 in wide"."""
    widths = all_of(part, "length")
    told = len(widths) == 1 and widths[0].value.sides[0].along.startswith("w") and count(part, "yards", *NAMED) == 0
    return widths[0].value.texts[0] if told and {page.said(one) for one in part} & {"both", "all", "each"} else ""


def _only_names(part, page):
    """Whether a part is no more than the name of a fabric."""
    return {one.kind for one in part} <= {"word", "article"} and naming.is_of_fabric(naming.described(part, page))


def _buys_more(behind, page):
    """Whether more is bought behind an "and", before the next sign: not of "for blocks and border, 1/2 yd blue"."""
    at = next((place for place, one in enumerate(behind) if one.kind == "and" or page.said(one) in ",;"), len(behind))
    return count(behind[:at], "yards", "length", "size", "fat_quarter") > 0


def _as_much(chunks, page):
    """The chunks, a "same" between two signs as the length to buy before it: "blue, 1/2 yd, green, same"."""
    found: list[Chunk] = []
    for one, behind in zip(chunks, [*chunks[1:], None]):
        lengths = all_of(found, "yards")
        between = found and found[-1].kind == "punct" and (behind is None or behind.kind == "punct")
        same = page.said(one) == "same" and between and lengths
        found.append(one._replace(kind="yards", value=lengths[-1].value) if same else one)
    return found


def _of_a_bundle(chunks, page):
    """The chunks, so many bundles of so many fat quarters as that many of these: "one bundle of 10 fat quarters"."""
    at = place_of(chunks, "pack")
    behind = chunks[at + 2 : at + 3]
    told = at and page.said(chunks[at + 1]) == "of" if chunks[at + 1 :] else False
    if not told or not count(behind, "count") or not count(chunks, "fat_quarter") or count(chunks, "count") > 2:
        return chunks
    bundles = chunks[at - 1].value if chunks[at - 1].kind == "count" else 1 if chunks[at - 1].kind == "article" else 0
    whole = behind[0]._replace(value=bundles * behind[0].value)
    return [*chunks[: at - 1], whole, *chunks[at + 3 :]] if bundles else chunks


def _are_sentences(chunks, page):
    """Whether a sentence ends behind a length to buy and the next begins with a name: "Lights, 2 yds. Darks, 3 yds"."""
    ends = ((page.said(one), page.text[behind.start]) for one, behind in pairwise(chunks) if one.kind == "yards")
    return chunks[0].kind == "word" and any(said.endswith(".") and sign.isupper() for said, sign in ends)


def _is_a_piece(chunk):
    """Whether a bracket says no more than that a fabric is bought as a piece: "Moonshadow (fat quarter)"."""
    return chunk.kind == "note" and {one.kind for one in chunk.value} in ({"fat_quarter"}, {"count", "fat_quarter"})


def _is_only_a_width(part, page):
    """Whether a part only says how wide the fabric before it is: "5 yards muslin, 36 in wide, and ..."."""
    return count(part, "length") == 1 and {page.said(one) for one in part if one.kind != "length"} <= {"wide", "."}


def _texts(sizes):
    return [text for one in sizes for text in one.value.texts]


def bare_size(inside: list[Chunk]) -> bool:
    """Whether a bracket holds one size and else only words."""
    return len(figures(inside)) == 1 and figures(inside)[0].kind in ("size", "length")


def _piece(texts, strips):
    """A piece of fabric by its size, as a sheet has it: "5 in square", "2 1/2 in strip", or its two sides."""
    if len(set(texts)) > 1:
        return list(texts)
    side = texts[0] if texts[0][-1].isalpha() else f"{texts[0]} in"
    return f"{side} {'strip' if strips else 'square'}"


def _unnamed(data, chunks, context, page):
    if "pieces" in data:
        context.pieces["precuts"] = data["pieces"]
    return Reading((Entry("fabric", data, page.over(chunks), "precuts"),))


def packs(chunks: list[Chunk], context: Context, page) -> Reading | None:
    """Packs of precut squares or strips: "3 packs of 5 in squares (40 in each)"."""
    headed = place_of(chunks, "punct")
    if headed and page.said(chunks[headed]) == ":" and count(chunks[headed:], "pack") and not figures(chunks[:headed]):
        chunks = chunks[headed + 1 :]  # "This month's packet: one pack of 5 in squares"
    chunks, in_each = _behind_a_comma(chunks, page)
    if count(chunks, "pack") != 1:
        return None
    flat = [one for one in chunks if one.kind != "note"]
    notes = in_each or [_in_a_pack(one.value) for one in chunks if one.kind == "note" and figures(one.value)]
    counts, sizes = all_of(flat, "count"), all_of(flat, "size", "length")
    if not sizes and len(notes) == 1:  # "2 charm packs (42 precut 5 in squares each)"
        sizes = all_of(notes[0], "size", "length")
        notes = [[one for one in notes[0] if one not in sizes]]
    if not notes and counts and counts[0].start > all_of(flat, "pack")[0].start:  # "Bundle: 40 strips 2 1/2 x 42 in"
        counts, notes = [], [counts]
    if (
        len(sizes) != 1
        or len(counts) > 1
        or any(one.kind not in (*FILLS, *PIECES, "pack", "count", "size", "length") for one in flat)
    ):
        return None
    texts = sizes[0].value.texts
    number = counts[0].value if counts else 1
    of_strips = count([*flat, *(inner for one in all_of(chunks, "note") for inner in one.value)], "strips")
    data: dict[str, object] = {"piece": _piece(texts, of_strips > 0)}
    words = page.over(chunks)
    remark = f"{number} pack{'s' if number > 1 else ''}"
    question: tuple[Question, ...] = ()
    if len(notes) == 1 and len(figures(notes[0])) == 1 and count(notes[0], "count") == 1:
        inside = all_of(notes[0], "count")[0].value
        data = {"pieces": inside if count(notes[0], "total") else number * inside, **data}
        if not count(notes[0], "each", "of_each", "total") and number > 1:
            return None
    elif notes:
        return None
    else:
        question = (Question(words, f"how many pieces of {' x '.join(texts)} are in a pack?"),)
    read = entry_of(
        data, [one for one in flat if one.kind not in (*PIECES, "pack")], chunks, context, page
    ) or _unnamed(data, chunks, context, page)
    return Reading(tuple(one.noted(remark) for one in read.entries), question)


def _behind_a_comma(chunks, page):
    """The chunks without what is told of each pack behind a comma, and that: "2 charm packs, 42 squares each"."""
    comma = next((at for at, one in enumerate(chunks) if page.said(one) == ","), 0)
    told = [one for one in chunks[comma + 1 :] if one.kind not in ("note", "size", "length")]
    per_pack = count(told, "each", "of_each") == 1 and count(told, "count") == 1
    only = {"count", "each", "of_each", "pack", "punct", *PIECES}
    if not comma or not count(chunks[:comma], "pack") or not per_pack or any(one.kind not in only for one in told):
        return chunks, []
    return [one for one in chunks if one not in told], [told]


def _in_a_pack(inside):
    """What a bracket says of the pieces in a pack, without how many are used: "(42 in the pack; you use 40)"."""
    return inside[: place_of(inside, "need", otherwise=len(inside))]
