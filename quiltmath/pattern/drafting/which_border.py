"""Which border a sentence tells of where the quilt is sewn: the one that it names, or the one whose strips it names by
their fabric, their letter or their width."""

from __future__ import annotations

import re
from dataclasses import replace

from . import naming, strips_that_bind
from .chunks import Chunk, count
from .figures import long_side, measure
from .kept import Kept
from .model import Context
from .page import Page

_WHICH = r"inner|inside|middle|outer|outside|first|second|third|narrow|wide|skinny|thin|big"
_FONDLY = {"skinny", "thin", "big"}
"""How a border is called where it is sewn, whatever its strips are called where they are cut."""
_BORDER = re.compile(
    rf"(?:\b(?P<which>{_WHICH})\s+)?\bborders?\b(?:\s+(?P<number>one|two|three|[123])\b(?!\s*[\"x/\d]|\s+(?:in|cm|strip|side|top)))?"
    r"|(?:(?<=\n)|(?<=[.;]\s))[ \t]*b(?P<short>[123])\s*[:.-]"
    rf"|(?:(?<=\n)|(?<=[.;]\s))[ \t]*(?P<headed>{_WHICH})\s*:|\b(?P<of_strips>{_WHICH})\s+(?=strips\b)"
)
"""A border that is named, by its place or its number, in what it heads ("Inner: join the strips"), or in its strips."""
_ORDINAL = {"one": "first", "two": "second", "three": "third", "1": "first", "2": "second", "3": "third"}
JOINED = re.compile(
    r"\W*(?:from|cut)\s+(?:the|this|your)\s+(?:one\s+)?(?:long|pieced|joined|sewn)\s+(?:border\s+)?strips?\b,?"
)
"""What names the long strip that the strips of a border were sewn to."""
_PARAGRAPHS = re.compile(r"\n\s*\n")
STEP = re.compile(r"\n\s*\n|\n\s*(?:step\s+|\()?\d{1,2}\s?[.):|]\s")
PARAGRAPH = 400
"""Signs: a border is named no further before its lengths."""


def of(flat: list[Chunk], kept: Kept, context: Context, page: Page) -> str | None:
    """The border that a sentence tells of; strips of no place that it names are that border's from here on. None where
    there is none, or where it may be one of several."""
    border = _border(flat, kept, context, page)
    found = _called_by_letter(flat, kept, context, page) or _called_by_fabric(flat, kept, page)
    found = found or _called_by_width(border, flat, kept, page) or (border and _of_strips(border, kept))
    return (
        found
        or _of_strips_above(flat, kept, context, page)
        or _of_fabric(flat, kept, page)
        or _of_strips_without_place(border, flat, kept, context, page)
    )


def named(chunks: list[Chunk], kept: Kept, context: Context, page: Page) -> str | None:
    """The border of the cutting list that a sentence, or its paragraph, names; None where there is none."""
    border = _border(chunks, kept, context, page)
    return _of_strips(border, kept) if border else None


def _text(chunks, page):
    return page.plain[chunks[0].start : chunks[-1].end]


def _border(flat, kept, context, page):
    """Which border a sentence tells of: "inner border", or "border" where none is named before it."""
    before = _above(flat, page, _PARAGRAPHS)
    texts = (f"\n{_text(flat, page)}", context.role, f"\n{before}")
    named = [match for text in texts for match in [*_BORDER.finditer(text)][::-1]]
    if not any("border" in match[0] for match in named):
        return None
    which = next(filter(None, map(_which, named)), "")
    place = naming.named(f"{which} border")
    nickname = which in _FONDLY and all(naming.border_of(one.role) != place for one in kept.entries)
    return "border" if nickname else place


def _which(match):
    """Which border words name; "" where they say no more than that it is one."""
    told = match["which"] or match["headed"] or match["of_strips"]
    return told or _ORDINAL.get(match["number"] or match["short"] or "", "")


def _called_by_letter(flat, kept, context, page):
    """The border whose strips are of the fabric with the letter that a line begins with: "E: two 56 in, sides"; None
    where it begins with none, or where strips of several are."""
    line = page.plain[page.plain.rfind("\n", 0, flat[0].start) + 1 : flat[-1].end]
    letter = re.match(r"\W*(?:\d{1,2}[.)]?\s+)?([a-z]):", line)
    fabric = context.lettered.get(letter[1], "") if letter else ""
    strips = [one for one in kept.entries if fabric and one.table == "cut" and one.data.get("fabric") == fabric]
    borders = {one.role for one in strips if "strip" in one.data and one.role.endswith("border")}
    return borders.pop() if len(borders) == 1 else None


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
    bare = _of_no_binding(bare, kept, page)
    place = next((one for one in _ROUNDS if all(other.role != one for other in strips)), None)
    if len(bare) != 1 or place is None:
        return None
    kept.put(bare[0], replace(bare[0], role=place))
    return place


_SO_WIDE = re.compile(
    r"(?<![\d/.])(?P<wide>\d[\d\u00bc-\u00be\u2150-\u215e /.-]*?)\s*-?\s*(?P<unit>\"|in(?:ch(?:es)?)?\b\.?|cm\b)"
    r"(?![\s-]*long\b)[\s-]*(?:wide\s+)?(?:[a-z-]+\s+){0,3}strips\b"
)


def _called_by_width(border, flat, kept, page):
    """The border of the strips that a sentence, or one before it in its step, calls by their width: "Sew the 2 in rust
    strips together"; strips of no place are that border's from here on. None where it calls none so, or several."""
    strips = [one for one in kept.entries if one.table == "cut" and "strip" in one.data and "length" not in one.data]
    for said in told(flat, page):
        match = _SO_WIDE.search(said)
        read = measure(f"{match['wide']} {match['unit']}", 0) if match else None
        if read is None:
            continue
        of = [one for one in strips if abs(long_side(one.data["strip"])[0] - read.sides[0].inches) == 0]
        of = [one for one in of if naming.border_of(one.role).endswith("border") or not one.role]
        of = [one for one in of if any(word in said for word in naming.key(one.data.get("fabric", "")))] or of
        taken = {one.role for one in strips}
        place = next((one for one in (border, *_ROUNDS) if one and one not in taken), "")
        if len(of) != 1 or not (of[0].role or place):
            return None
        if not of[0].role:
            kept.put(of[0], replace(of[0], role=place))
        return naming.border_of(of[0].role) or place
    return None


def _of_fabric(flat, kept, page):
    """The border whose strips a sentence, or the one before it, names by their fabric: "Join the yellow strips end to
    end. Cut two 60 in long for the sides"; None where it names none, or several."""
    for said in told(flat, page):
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
    bare = next(filter(None, (_bare_strips(said, kept) for said in told(flat, page))), [])
    bare = bare or (_bare(kept) if border else [])  # the only ones that nothing is sewn of
    bare = _of_no_binding(bare, kept, page)
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


def _of_no_binding(bare, kept, page):
    """The strips that do not bind the quilt, as far as nothing else is cut for that."""
    bound = any(one.table == "binding" for one in kept.entries)
    return bare if bound else [one for one in bare if one not in strips_that_bind.binding(bare, page)]


def _bare_strips(said, kept):
    """The strips of no place whose fabric words name; where they say a width besides, those as wide."""
    key = naming.key(said)
    named = [one for one in _bare(kept) if key & (naming.key(one.data.get("fabric", "")) - {"border"})]
    whole = {one for bare in named if (one := naming.key(bare.data["fabric"])) <= key}  # "navy dot", and no plain navy
    longest = [one for one in whole if not any(one < other for other in whole)]
    named = [one for one in named if naming.key(one.data["fabric"]) in longest] or named
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
    bought = (next(iter(key)) for key, name in context.other_names.items() if name == strips[0].data.get("fabric"))
    places = [one for one in bought if one.endswith("border")]
    place = next((one for one in ((*places, *_ROUNDS) if len(places) == 1 else _ROUNDS) if one not in taken), None)
    if place is None:
        return None
    after = replace(strips[0], role=place)
    kept.put(strips[0], after)
    context.strips = (after,)
    return place


_ROUNDS = ("border", *(f"{one} border" for one in ("first", "second", "third", "fourth")))
"""What borders are called that a page gives no names."""


def told(flat: list[Chunk], page: Page) -> tuple[str, ...]:
    """A sentence and those before it in their step, the nearest first."""
    above = _above(flat, page, STEP)
    return (_text(flat, page), *re.split(r"[.!]\s", above.strip(" .\n"))[::-1])


def _above(flat, page, parted):
    """What stands above a sentence in its step; in the step before it too, where the sentence cuts the one long strip
    that was sewn there."""
    steps = parted.split(page.plain[max(0, flat[0].start - PARAGRAPH) : flat[0].start])
    joined = JOINED.match(_text(flat, page)) and not re.search(r"[a-z]", steps[-1])
    return "\n".join(steps[-2:] if joined else steps[-1:])


def _of_strips(border, kept):
    """The border of the cutting list that is meant, where it is cut as strips; None where there is none."""
    strips = (one for one in kept.entries if one.table == "cut" and "strip" in one.data)
    roles = dict.fromkeys(role for one in strips if (role := naming.border_of(one.role)).endswith("border"))
    if border in roles:
        return border
    if border == "border":
        return next(iter(roles)) if len(roles) == 1 else None
    bare = "border" in roles and len(roles) > 1 or {*roles} == {"border"} and border.startswith(("outer", "final"))
    return "border" if bare and border.endswith("border") else None
