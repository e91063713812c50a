"""The lengths of borders, told where they are sewn: "Trim two side borders to 60 1/2 in"."""

from __future__ import annotations

import re
from itertools import pairwise

from . import measured, naming, which_border
from .chunks import MEASURES, Chunk, all_of, count, opened, place_of
from .figures import Measure
from .kept import Kept
from .model import Choice, Context, Entry, Question, Reading
from .page import Page
from .pieces import LININGS

_SIDE = re.compile(
    r"(?P<top>\btops?\b|\bbott?(?:oms?)?\b|\bbtms?\b|\bupper\b|\blower\b|\babove\b|\bbelow\b|\bhead\b|\bfoot\b"
    r"|\b(?:short(?:er)?\s+)(?:sides?|edges?|ends?)\b|\bends?\b(?!\s+to\b))"
    r"|(?P<sides>\bsides?\b|\bleft\b|\bright\b|\blong(?:er)?\s+edges?\b)|(?P<length>\x01)"
)
_OTHER = ("strip", "doubt", "yards", "squares", "rectangles", "triangles", "unit", "blocks", "strip_set", "wof")
_CHANGES_NOTHING = {"more", "another", "same", "both", "other", "about", "approximately", "to fit"}
"""Cautions that a sentence about the second pair of strips may hold."""
_ONE_SIDE = re.compile(
    r"(?:then\s+)?(?:(?:two|2)\s+)?(?:sides?|(?:left\s+and\s+right|top\s+and\s+bottom))(?:\s+borders?|\s+first)?\s*(?:of|at|[:,-])?\s*"
    r"(?:(?:two|2)\s+(?:pieces|strips|lengths)\s+)?(?:of\s+)?\d"
)
_REMARK = re.compile(r"\([^()\x01]*\b(?:your|measure|check)\b[^()\x01]*\)")
_OTHER_TWO = re.compile(r"(?<=side)(?P<first>s\b[^.;]*?)\bother\s+(?:two|2)(?:\s+sides)?\b")
_REMAINING = re.compile(r"\b(?:remaining|other)\s+(?:(?:two|2)\s+)?(?:sides|edges)\b")
"""Where the second pair of strips goes, behind that of the sides."""
_TO_EACH = re.compile(r"\bone\s+(?:(?:strip|piece|length|border)\s+)?(?:to|on|onto|at|for)\s+(?:each|every|the)\b")
_KEY = {"sides": "sides_length", "top": "top_length"}
SHORTEST = 6
"""Inches: no border is shorter."""


def lengths(chunks: list[Chunk], kept: Kept, context: Context, page: Page) -> Reading | None:
    """The lengths to which strips of a border that stand on the cutting list are cut, for its sides and for its top and
    bottom; None where a sentence tells of none.

    A sentence says each length before or behind its side; which border it is of may stand in a sentence before.
    """
    flat = _pairs(_behind_joining(_of_two(opened(chunks), kept)), page)
    flat = [one._replace(kind="word") if _names_no_piece(one, flat, page) else one for one in flat]
    found = all_of(flat, "length", "size")
    if not found or len(found) > 2 or count(flat, *_OTHER) or any(_long(one).inches < SHORTEST for one in found):
        return None
    cautions = (page.said(one) for one in all_of(flat, "caution"))
    if any(one not in _CHANGES_NOTHING and not one.startswith(("length of", "width of")) for one in cautions):
        return None
    if {*naming.roles(flat, page.plain)} & {*LININGS}:  # whose pieces are as long
        return None
    counts = [one.value for one in all_of(flat, "count")]
    if any(one != 2 for one in counts) and counts != [4, 2, 2]:
        return None
    told = _told(flat, found, page) or _told_behind(found, flat[-1].end, page)
    headed = _as_headed(found, context) or _as_begun(found, flat, page)
    of_list = context.section == "sewing" and found[0].kind == "size"  # "Join the strips and cut:", and below it this
    cuts = of_list or count(flat, "cut", "into", "from") or re.search(r"\btrim|\bmeasur", _text(flat, page))
    cuts = cuts or context.section == "sewing" and counts == [2]  # "Two for top and bottom, 64 1/2 in"
    cuts = cuts or counts == [2] and found[0].kind == "size" and _right_below(flat[0].start, kept, page)
    if (
        not (cuts or headed or _ONE_SIDE.match(_text(flat, page))) and len(told or ()) < 2
    ):  # "Inner border: two sides 45 1/2 in, then top and bottom 39 1/2 in"
        return None
    told = told or headed
    if not told:
        return _asked(found, counts, chunks, kept, context, page)
    widths = {one.value.texts[0] for one in found if one.kind == "size"}
    if not widths <= {one.data.get("strip") for one in kept.entries}:  # it is no strip that is so large
        return None
    of = which_border.of(flat, kept, context, page)
    if of is None or not widths <= {one.data["strip"] for one in _strips_of(of, kept)}:
        return None
    words = page.over(chunks)
    before = next((one for one in kept.entries if one.path == ("border", of)), None)
    if before and any(before.data.get(key, text) != text for key, text in told.items()):
        return Reading(questions=(Question(words, f"before this the page says {before.words.text}: which is right?"),))
    return Reading((Entry("border", told, words, of),))


def _right_below(start, kept, page):
    """Whether a line stands right below the one that tells to what length joined strips are cut: "Join, and cut:",
    below it "2 - 3 in x 40 1/2 in side borders", and below that the top and bottom."""
    last = max((one.words for one in kept.entries if one.table == "border"), key=lambda one: one.end, default=None)
    return last is not None and re.fullmatch(r"[^\w\n]*\n[^\w\n]*", page.plain[last.end : start]) is not None


def _names_no_piece(one, flat, page):
    """Whether a chunk only names the width of the quilt, or the long strip that a sentence begins to cut."""
    joined = which_border.JOINED.match(page.plain, flat[0].start)
    return page.said(one) == "width" or one.kind in ("strip_set", "strips") and joined and one.end <= joined.end()


def _asked(found, counts, chunks, kept, context, page):
    """The question which of two lengths are the sides of a border, where nothing says it."""
    of = which_border.named(chunks, kept, context, page)
    told = of is not None and counts[-2:] == [2, 2] and len(found) == 2 and context.section == "sewing"
    if not told or re.search(r"\.\s", _text(chunks, page)):
        return None
    words, texts = page.over(chunks), [_long(one).text for one in found]
    choices = tuple(
        Choice(f"sides {one}, top and bottom {other}", (Entry("border", {**_lengths(one, other)}, words, of),))
        for one, other in (texts, texts[::-1])
    )
    return Reading(questions=(Question(words, f"which of these lengths are the sides of the {of}?", choices),))


def _lengths(sides, top):
    return {"sides_length": sides, "top_length": top}


def _behind_joining(flat):
    """The chunks behind the words that strips are joined, which may be called by their width: "Sew the six strips into
    one and cut it into two 52 in …", "Piece the 5 in strips end to end and cut two 52 in …"."""
    at = place_of(flat, "cut", "into")
    before = [one for one, behind in pairwise(flat[: at + 1]) if one.kind != "length" or behind.kind != "strips"]
    joined = at and count(before, "sew", "end_to_end") and not count(before, *MEASURES, "role")
    return flat[at:] if joined else flat


def _as_headed(found, context):
    """The one length of a line below a head that says which strips it is of: "Side borders: cut 2 at 52 in"."""
    side = context.role.rpartition(" ")[2]
    key = {"side": "sides", "top": "top"}.get(side) if "border" in context.role else None
    return {_KEY[key]: _long(found[0]).text} if key and len(found) == 1 else None


_BEGUN = re.compile(r"(?:^|[.\n])(?P<head>[^.:\n\d]{3,30}):\s*$")
"""What a clause begins with before its colon."""


def _as_begun(found, flat, page):
    """The one length of a clause that begins with where its strips go: "Sides first: two at 52 in"."""
    begun = _BEGUN.search(page.plain, 0, flat[0].start)
    ways = {one.lastgroup for one in _SIDE.finditer(begun["head"])} if begun else set()
    return {_KEY[ways.pop()]: _long(found[0]).text} if len(found) == len(ways) == 1 else {}


def _of_two(flat, kept):
    """The chunks, a size one of whose sides is a bare 2, as no border is wide, as two of that length: "2 x 60 in",
    '48 1/2" x 2'."""
    found: list[Chunk] = []
    for one in flat:
        sides = one.value.sides if one.kind == "size" else ()
        two = [side for side in sides if side.whole and side.value == 2 and not side.along]
        if len(sides) == 2 and len(two) == 1 and not any(_is_wide(side, sides, kept) for side in two):
            (length,) = (side for side in sides if side is not two[0])
            found.append(Chunk("count", two[0].start, two[0].end, 2))
            found.append(Chunk("length", length.start, length.end, Measure(length.start, length.end, (length,))))
        else:
            found.append(one)
    return sorted(found, key=lambda one: one.start)


def _is_wide(side, sides, kept):
    """Whether strips of the cutting list are as wide as one of two sides."""
    unit = next((one.unit for one in sides if one.unit), "")
    text = side._replace(unit=unit).text
    return any(one.data.get("strip") == text for one in kept.entries)


def _pairs(flat, page):
    """The chunks, "sew one to each side" taken for words: it counts none of the pair."""
    text = _text(flat, page)
    each = [(flat[0].start + match.start(), flat[0].start + match.end()) for match in _TO_EACH.finditer(text)]
    return [
        one._replace(kind="word") if one.kind == "count" and any(at <= one.start < end for at, end in each) else one
        for one in flat
    ]


def _long(chunk):
    """The longer side of a measure."""
    return max(chunk.value.with_units(), key=lambda side: side.inches)


def _strips_of(border, kept):
    strips = (one for one in kept.entries if one.table == "cut" and "strip" in one.data)
    return [one for one in strips if naming.border_of(one.role) == border]


def _text(chunks, page):
    return page.plain[chunks[0].start : chunks[-1].end]


def _told(flat, found, page):
    """{sides_length or top_length: a length}, as a sentence pairs them; None where it does not."""
    text, at = "", flat[0].start
    for one in found:
        text += page.plain[at : one.start] + "\x01"
        at = one.end
    text = measured.without_what_it_takes_in(_REMARK.sub("", text + page.plain[at : flat[-1].end]))
    text = _REMAINING.sub("top", _OTHER_TWO.sub(r"\g<first>top", text))
    named = measured.without_ways(text)
    before = which_border.told(flat, page)[1:2] if len(found) == 1 else ()
    return _paired(found, named) or _paired(found, measured.as_sides(text)) or _measured_before(found, before)


def _measured_before(found, before):
    """{sides_length or top_length: a length}, where the sentence before says which way it is measured."""
    told_of = (measured.as_sides(measured.without_what_it_takes_in(said)) for said in before)
    ways = {one.lastgroup for said in told_of for one in _SIDE.finditer(said)}
    told = before and before[0].lstrip().startswith("measure") and len(ways) == 1
    return {_KEY[ways.pop()]: _long(found[0]).text} if told else None


def _paired(found, text):
    """{sides_length or top_length: a length} of a text in which a sign stands for each length."""
    order: list[str] = []
    for match in _SIDE.finditer(text):
        if match.lastgroup == "length" or match.lastgroup not in order[-1:]:
            order.append(str(match.lastgroup))
    firsts, lasts = order[::2], order[1::2]
    if len(firsts) != len(lasts) or len(firsts) != len(found):
        return None
    sides = lasts if set(firsts) == {"length"} else firsts if set(lasts) == {"length"} else []
    if len(set(sides)) != len(found) or "length" in sides:
        return None
    return {_KEY[side]: _long(one).text for side, one in zip(sides, found)}


_BEHIND = re.compile(
    r"\b(?:(?P<which>long|short)(?:er)?\s+(?:strips?|pieces?|lengths?|ones?|borders?)?|(?P<length>\d[\d/ ]*))[^.;\d]*?"
    r"\b(?:to|on|for|at)\s+(?:the\s+)?(?:(?P<sides>sides|left|long)|(?P<top>top|bottom|upper|lower|short|ends))\b"
)
"""Which of the lengths that were told goes where: "Add the long strips to the sides, the 40 1/2 in ones to the top"."""


def _told_behind(found, end, page):
    """{sides_length or top_length: a length} of two lengths, as the sentences behind them in their paragraph tell where
    each is sewn; None where they do not."""
    if len(found) != 2:
        return None
    behind = re.split(r"\n\s*\n", page.plain[end : end + which_border.PARAGRAPH])[0]
    step = len(which_border.STEP.split(behind)[0])  # which are long and which short is said in it
    longs = sorted((_long(one) for one in found), key=lambda side: side.inches)
    texts = {"long": longs[1].text, "short": longs[0].text}
    told = {}
    for match in _BEHIND.finditer(behind):
        said = match["which"] or next((key for key, text in texts.items() if text == match["length"].strip()), None)
        if said and (match["length"] or match.start() < step):
            told.setdefault("sides_length" if match["sides"] else "top_length", texts[said])
    ways = (_lengths(*texts.values()), _lengths(*[*texts.values()][::-1]))
    met = [way for way in ways if told and all(way[key] == text for key, text in told.items())]
    return met[0] if len(met) == 1 else None
