"""The lengths of borders, told where they are sewn: "Trim two side borders to 60 1/2 in"."""

from __future__ import annotations

import re
from dataclasses import replace

from . import measured, naming, strips_that_bind
from .chunks import Chunk, all_of, count, opened, place_of
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
_WHICH = r"inner|middle|outer|first|second|third|narrow|wide"
_BORDER = re.compile(
    rf"(?:\b(?P<which>{_WHICH})\s+)?\bborders?\b(?:\s+(?P<number>one|two|three|[123])\b(?!\s*[\"x/\d]|\s+(?:in|cm|strip|side|top)))?"
    rf"|(?:(?<=\n)|(?<=[.;]\s))[ \t]*(?P<headed>{_WHICH})\s*:|\b(?P<of_strips>{_WHICH})\s+(?=strips\b)"
)
"""A border that is named, by its place or its number, in what it heads ("Inner: join the strips"), or in its strips."""
_ORDINAL = {"one": "first", "two": "second", "three": "third", "1": "first", "2": "second", "3": "third"}
_OTHER = ("strip", "doubt", "yards", "squares", "rectangles", "triangles", "unit", "blocks", "strip_set", "wof")
_CHANGES_NOTHING = {"more", "another", "same", "both", "other", "about", "approximately", "to fit"}
"""Cautions that a sentence about the second pair of strips may hold."""
_ONE_SIDE = re.compile(
    r"(?:then\s+)?(?:(?:two|2)\s+)?(?:sides?|(?:left\s+and\s+right|top\s+and\s+bottom))(?:\s+borders?|\s+first)?\s*(?:of|at|[:,-])?\s*"
    r"(?:(?:two|2)\s+(?:pieces|strips|lengths)\s+)?(?:of\s+)?\d"
)
_STEP = re.compile(r"\n\s*\n|\n\s*(?:step\s+|\()?\d{1,2}\s?[.):|]\s")
_REMARK = re.compile(r"\([^()\x01]*\b(?:your|measure|check)\b[^()\x01]*\)")
_OTHER_TWO = re.compile(r"(?<=side)(?P<first>s\b[^.;]*?)\bother\s+(?:two|2)(?:\s+sides)?\b")
_TO_EACH = re.compile(r"\bone\s+(?:(?:strip|piece|length|border)\s+)?(?:to|on|onto|at|for)\s+(?:each|every|the)\b")
_KEY = {"sides": "sides_length", "top": "top_length"}
SHORTEST = 6
"""Inches: no border is shorter."""
PARAGRAPH = 400
"""Signs: a border is named no further before its lengths."""


def lengths(chunks: list[Chunk], kept: Kept, context: Context, page: Page) -> Reading | None:
    """The lengths to which strips of a border that stand on the cutting list are cut, for its sides and for its top and
    bottom; None where a sentence tells of none.

    A sentence says each length before or behind its side; which border it is of may stand in a sentence before.
    """
    flat = _pairs(_behind_joining(_of_two(opened(chunks), kept)), page)
    flat = [one._replace(kind="word") if page.said(one) == "width" else one for one in flat]  # of the quilt
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
    if (
        not (cuts or headed or _ONE_SIDE.match(_text(flat, page))) and len(told or ()) < 2
    ):  # "Inner border: two sides 45 1/2 in, then top and bottom 39 1/2 in"
        return None
    told = told or headed
    if not told:
        return _asked(found, counts, chunks, kept, context, page)
    border = _border(flat, context, page)
    of = _called_by_fabric(flat, kept, page) or (border and _of_strips(border, kept)) or _of_fabric(flat, kept, page)
    of = (
        of or _of_strips_without_place(border, flat, kept, context, page) or _of_strips_above(flat, kept, context, page)
    )
    widths = {one.value.texts[0] for one in found if one.kind == "size"}
    if of is None or not widths <= {one.data["strip"] for one in _strips_of(of, kept)}:
        return None
    words = page.over(chunks)
    before = next((one for one in kept.entries if one.path == ("border", of)), None)
    if before and any(before.data.get(key, text) != text for key, text in told.items()):
        return Reading(questions=(Question(words, f"before this the page says {before.words.text}: which is right?"),))
    return Reading((Entry("border", told, words, of),))


def _asked(found, counts, chunks, kept, context, page):
    """The question which of two lengths are the sides of a border, where nothing says it."""
    border = _border(chunks, context, page)
    of = _of_strips(border, kept) if border else None
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
    """The chunks behind the words that strips are joined: "Sew the six strips into one and cut it into two 52 in …"."""
    at = place_of(flat, "cut", "into")
    joined = at and count(flat[:at], "sew", "end_to_end") and not count(flat[:at], "length", "size", "role")
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
    return [one for one in kept.entries if one.table == "cut" and one.role == border and "strip" in one.data]


def _text(chunks, page):
    return page.plain[chunks[0].start : chunks[-1].end]


def _told(flat, found, page):
    """{sides_length or top_length: a length}, as a sentence pairs them; None where it does not."""
    text, at = "", flat[0].start
    for one in found:
        text += page.plain[at : one.start] + "\x01"
        at = one.end
    text = measured.without_what_it_takes_in(_REMARK.sub("", text + page.plain[at : flat[-1].end]))
    text = _OTHER_TWO.sub(r"\g<first>top", text)
    named = measured.without_ways(text)
    before = _said(flat, page)[1:2] if len(found) == 1 else ()
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
    behind = re.split(r"\n\s*\n", page.plain[end : end + PARAGRAPH])[0]
    step = len(_STEP.split(behind)[0])  # which are long and which short is said in it
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


def _border(flat, context, page):
    """Which border a sentence tells of: "inner border", or "border" where none is named before it."""
    begins = max(0, flat[0].start - PARAGRAPH)
    before = re.split(r"\n\s*\n", page.plain[begins : flat[0].start])[-1]
    texts = (f"\n{_text(flat, page)}", context.role, f"\n{before}")
    named = [match for text in texts for match in [*_BORDER.finditer(text)][::-1]]
    if not any("border" in match[0] for match in named):
        return None
    which = next(filter(None, map(_which, named)), "")
    return naming.named(f"{which} border")


def _which(match):
    """Which border words name; "" where they say no more than that it is one."""
    told = match["which"] or match["headed"] or match["of_strips"]
    return told or _ORDINAL.get(match["number"] or "", "")


def _called_by_fabric(flat, kept, page):
    """The border that a line calls after the fabric of its strips: "Rust border: cut two 54 in for the sides"; strips
    of no place are that border's from here on. None where it does not, or where several are of that fabric."""
    line = page.plain[page.plain.rfind("\n", 0, flat[0].start) + 1 : flat[-1].end]
    called = re.search(r"([a-z][a-z -]*?)\s+borders?\b", line)
    words = called[1].split() if called else []
    strips = [one for one in kept.entries if one.table == "cut" and "strip" in one.data]
    keys = (naming.key(" ".join(words[at:])) for at in range(len(words)))  # "sew the rust", then "rust"
    ways = ([one for one in strips if key and key <= naming.key(one.data.get("fabric", ""))] for key in keys)
    named = next(filter(None, ways), [])
    borders = {one.role for one in named if one.role.endswith("border")}
    if borders:
        return borders.pop() if len(borders) == 1 else None
    bare = [one for one in named if not one.role]
    bare = [one for one in bare if one not in strips_that_bind.binding(bare, page)]
    place = next((one for one in _ROUNDS if all(other.role != one for other in strips)), None)
    if len(bare) != 1 or place is None:
        return None
    kept.put(bare[0], replace(bare[0], role=place))
    return place


def _of_fabric(flat, kept, page):
    """The border whose strips a sentence, or the one before it, names by their fabric: "Join the yellow strips end to
    end. Cut two 60 in long for the sides"; None where it names none, or several."""
    for said in _said(flat, page):
        of = {
            one.role
            for one in kept.entries
            if one.table == "cut" and "strip" in one.data and one.role.endswith("border")
            if any(re.search(rf"\b{re.escape(called)}\b", said) for called in _called(one))
        }
        if of:
            return of.pop() if len(of) == 1 else None
    return None


def _called(strips):
    """What a page may call strips: their fabric, or their letter."""
    fabric = strips.data.get("fabric", "").casefold()
    letter = re.match(r"fabric ([a-z])\b", fabric)
    letters = (letter[1] if letter else "", strips.name.casefold())
    return filter(None, (fabric, *(f"{one} strips" for one in letters if one)))


def _of_strips_without_place(border, flat, kept, context, page):
    """The border of the strips of no place that a sentence, or the one before it, names by their fabric: they are that
    border's from here on; None where there are none, or several."""
    bare = next(filter(None, (_bare_strips(said, kept) for said in _said(flat, page))), [])
    bare = bare or (_bare(kept) if border else [])  # the only ones that nothing is sewn of
    bare = [one for one in bare if one not in strips_that_bind.binding(bare, page)]
    place = border or "border"
    if context.section != "sewing" or len(bare) != 1 or any(one.role == place for one in kept.entries):
        return None
    kept.put(bare[0], replace(bare[0], role=place))
    return place


def _bare(kept):
    """The strips of no place."""
    return [
        one
        for one in kept.entries
        if one.table == "cut" and not one.role and {*one.data} <= {"fabric", "strip", "count"} and "strip" in one.data
    ]


def _bare_strips(said, kept):
    """The strips of no place whose fabric words name; where they say a width besides, those as wide."""
    key = naming.key(said)
    named = [one for one in _bare(kept) if key & (naming.key(one.data.get("fabric", "")) - {"border"})]
    wide = [one for one in named if re.search(rf"(?<![\d/]){re.escape(one.data['strip'])}(?![\d/])", said)]
    return wide or named


def _of_strips_above(flat, kept, context, page):
    """The border that strips right before a sentence are, of no place yet: "From C cut 4 strips 4 1/2 in wide. Trim
    two to 28 1/2 in for the sides ..."; None where other strips stand there, or none."""
    strips = [one for one in kept.entries if one in context.strips and not one.role and "length" not in one.data]
    near = len(strips) == 1 and page.lines_between(strips[0].words.end, flat[0].start) < 2
    if not near or context.strips_cut or context.second_cut or len(context.strips) > 1 or count(flat, "size"):
        return None
    taken = {one.role for one in kept.entries} | ({"border"} if re.search(r"\bround\s+[1-9]", page.plain) else set())
    place = next((one for one in _ROUNDS if one not in taken), None)
    if place is None:
        return None
    after = replace(strips[0], role=place)
    kept.put(strips[0], after)
    context.strips = (after,)
    return place


_ROUNDS = ("border", *(f"{one} border" for one in ("first", "second", "third", "fourth")))
"""What borders are called that a page gives no names."""


def _said(flat, page):
    """A sentence and those before it in their step, the nearest first."""
    above = _STEP.split(page.plain[max(0, flat[0].start - PARAGRAPH) : flat[0].start])[-1]
    return (_text(flat, page), *re.split(r"[.!]\s", above.strip(" .\n"))[::-1])


def _of_strips(border, kept):
    """The border of the cutting list that is meant, where it is cut as strips; None where there is none."""
    roles = dict.fromkeys(
        one.role for one in kept.entries if one.table == "cut" and "strip" in one.data and one.role.endswith("border")
    )
    if border in roles:
        return border
    if border == "border":
        return next(iter(roles)) if len(roles) == 1 else None
    bare = "border" in roles and len(roles) > 1 or {*roles} == {"border"} and border.startswith(("outer", "final"))
    return "border" if bare and border.endswith("border") else None
