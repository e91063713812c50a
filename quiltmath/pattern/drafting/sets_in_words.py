"""Strip sets whose strips a sentence names one after the other: "Six strip sets plum-ivory-plum, cut up every 3 1/2 in
for 64 segments", "Sew 5 strip sets of Fabrics 4-3-4", "Eight bands of dark, light, dark"."""

from __future__ import annotations

import re

from . import naming
from .chunks import Chunk, count, opened
from .figures import in_digits, measure, number
from .kept import Kept
from .model import Context, Entry, Reading, Words
from .page import Page
from .sets import called_so, next_name

_SETS = r"(?P<count>\d+|[a-z]+)\s+(?:strip[\s-]*(?:sets?|units?|panels?)|bands|panels)"
_BY_NAME = r"[a-z]{3,}(?:\s+[a-z]{3,})?(?:\s*[-,/]\s*(?:and\s+)?[a-z]{3,}(?:\s+[a-z]{3,})?){1,8}"
_BY_NUMBER = r"(?:fabrics?|prints?|colou?rs?)\s+(?P<numbers>[a-z\d](?:\s*[-,/]\s*[a-z\d]){1,8})"
_NAMES = re.compile(
    rf"\W*(?:(?:sew|make|stitch|join)\s+)?{_SETS}\s*(?:of\s+|[:(,-]\s*)?(?:{_BY_NUMBER}|(?P<names>{_BY_NAME}))"
    r"\)?(?:,\s*(?:and\s+)?(?P<cut>(?:cut|slice|crosscut)[^;]*))?\W*"
)
_NAME = r"[a-z]{3,}(?:-[a-z]+)*(?:\s+(?!strips?\b|pieces?\b)[a-z]{3,}){0,2}?"
_MADE = (
    r"(?:,?\s*(?:(?:to\s+)?(?:make|sew|for)\s+)?(?P<count>\d+|[a-z]+)\s+(?:strip[\s-]*)?sets?"
    r"(?:\s+\#?(?P<name>[a-z]|\d{1,2}))?)?"
)
_WANTED = r"you(?:'ll|\s+will)?\s+(?:want|need|make)\s+(?P<wanted>\d+)"
_WANTED_OF_THEM = re.compile(rf"\W*{_WANTED}\s+of\s+(?:those|these|them)\W*")
"""How many sets are made, told behind them: "You want 7 of those"."""
_BETWEEN = re.compile(
    rf"\W*(?:(?:sew|stitch|join|put|place|with)\s+)?(?:an?|one|1|the)\s+(?P<inner>{_NAME})(?:\s+strips?)?\s+(?:goes\s+|lies\s+)?"
    rf"between\s+(?:two|2)\s+(?P<outer>{_NAME})(?:\s+(?:strips|ones))?{_MADE}\W*"
)
"""A strip between two of another fabric: "With a white strip between two blues, make 7 strip set A"."""
_ITEM = r"(?:[a-z]{3,}|\d{1,2})"
_EQUALS = re.compile(
    rf"\W*strip[\s-]*sets?(?:\s+\#?(?P<name>[a-z]|\d{{1,2}}))?\s*(?:=|:|is\b|are\b)\s*(?:fabrics?\s+)?"
    rf"(?P<order>{_ITEM}(?:\s*[-+/]\s*{_ITEM}){{1,8}})"
    rf"(?:,?\s*(?:on\s+)?(?:the\s+|their\s+)?long\s+(?:edges?|sides?))?{_MADE.replace('<name>', '<other>')}"
    rf"(?:,?\s*(?:and\s+)?{_WANTED})?\W*"
)
"""The strips of a set one after the other: "Strip set = 1 + 2 + 3 + 4"."""
_FABRIC = r"[a-z](?:[a-z -]*[a-z])?"
_TAKEN = re.compile(
    r"\W*(?:take|use|lay out)\s+(?:an?|one|1)\s+strips?\s+(?:each\s+of|of\s+each\s+of|of\s+each\W|of)\s*"
    rf"(?:fabrics?\s+|colou?rs\s+)?(?P<order>{_FABRIC}(?:\s*,\s*(?:and\s+)?{_FABRIC}|\s+and\s+{_FABRIC}){{1,8}})\W*"
)
"""Strips that are taken in the order in which they are sewn: "Take one strip each of A, B, C and D"."""
_CUT = re.compile(
    r"(?:cut|slice|crosscut)\s+(?:them\s+)?(?:up\s+)?(?:across\s+)?(?:(?:every|each|in|into|at)\s+(?P<wide>\d[^a-z]*(?:in|cm)?)\s*"
    r"|(?P<same>the\s+same)\s+)(?:for|into|to\s+(?:give|make|get|yield))\s+(?P<pieces>\d+)\s+(?:segments|slices|pieces|units)\W*"
)
"""How all these sets are cut: "cut up every 3 1/2 in for 64 segments", "cut up the same for 32 segments"."""
_DASH = r"\s*[-–—/+,]\s*"
_IN_ORDER = re.compile(
    rf"\W*(?:sew|stitch|join|seam|arrange)\s+(?P<of>[a-z]+(?:{_DASH}[a-z]+){{2,8}})"
    r"(?:\s+(?:together|side by side|lengthwise|along the(?:ir)? long (?:edges?|sides?)))*\W*"
)
"""Fabrics as they lie side by side in a strip set: "Sew dark - light - dark"."""


def told(chunks: list[Chunk], kept: Kept, context: Context, page: Page) -> Reading | None:
    """The strip sets of a sentence that names their strips; None of any other."""
    text = page.plain[chunks[0].start : chunks[-1].end]
    listed = _listed(" ".join(text.split()), page.over(chunks), context)
    if listed is not None:
        return listed
    match = _NAMES.fullmatch(" ".join(text.split()))
    made = number(match["count"], 0) if match else None
    if match is None or made is None or not made.whole or made.end != len(match["count"]):
        return None
    if count(opened(chunks), "role", "end_to_end", "yards", "doubt"):
        return None
    cut = _cut(match["cut"], kept) if match["cut"] else {}
    if cut is None:
        return None
    strips = " - ".join(f"Fabric {one}" for one in re.findall(r"\w", match["numbers"])) if match["numbers"] else ""
    data = {"sets": int(made.value), **cut}
    entry = Entry("strip_set", data, page.over(chunks), next_name(context), (strips or match["names"],))
    context.strip_set = None if cut else entry
    return Reading((entry,))


def _listed(text, words, context):
    """The strip set of a sentence that lays a strip between two others, or its strips one after the other; None of any
    other."""
    wanted, begun = _WANTED_OF_THEM.fullmatch(in_digits(text)), context.strip_set
    if wanted and begun is not None and "sets" not in begun.data:
        context.strip_set = begun.but(sets=int(wanted["wanted"]))
        return Reading((context.strip_set,))
    match = _BETWEEN.fullmatch(text) or _EQUALS.fullmatch(in_digits(text))
    if match is None:
        return _taken(text, words, context)
    between = match.re is _BETWEEN
    said = [match["outer"], match["inner"], match["outer"]] if between else re.split(r"\s*[-+/]\s*", match["order"])
    strips = [_fabric(one, context) for one in said]
    many = match["count"] or (not between and match["wanted"]) or ""
    made = number(many, 0) if many else None
    if not all(strips) or many and (made is None or not made.whole or made.end != len(many)):
        return None
    called = match["name"] or ""
    name = begun.name if begun is not None and not begun.data and not called else next_name(context, called_so(called))
    entry = Entry("strip_set", {"sets": int(made.value)} if made else {}, words, name, (" - ".join(strips),))
    context.strip_set = entry
    return Reading((entry,)) if made else Reading((), (), (words,))


def _taken(text, words, context):
    """The strip set that begins with the strips that a sentence takes, each of another fabric of the page; None of any
    other."""
    match = _TAKEN.fullmatch(text)
    said = re.split(r"\s*,\s*(?:and\s+)?|\s+and\s+", match["order"]) if match else []
    strips = [_fabric(one, context) for one in said]
    if not all(strips) or len({*strips}) < max(2, len(said)):
        return None
    context.strip_set = Entry("strip_set", {}, words, next_name(context), (" - ".join(strips),))
    return Reading((), (), (words,))


def _fabric(said, context):
    """The fabric of the page that a word, its letter or its number names; "" where there is none."""
    if not said.isdigit():
        return context.lettered.get(said) or naming.known(said, context.known) or ""
    numbered = re.compile(rf"(?:fabric|fab\.?|print|colou?r)\s+\#?{said}\b")
    return next((one for one in context.known if numbered.match(one.casefold())), "")


def _cut(said, kept):
    """How wide the pieces are and how many; None where words say more, or the same as nothing."""
    match = _CUT.fullmatch(in_digits(said))
    if match is None:
        return None
    before = [one.data["sub_cut"] for one in kept.entries if one.table == "strip_set" and "sub_cut" in one.data]
    read = measure(match["wide"], 0) if match["wide"] else None
    wide = read.texts[0] if read else before[-1] if before and match["same"] else ""
    return {"sub_cut": wide, "pieces": int(match["pieces"])} if wide else None


def in_order(words: Words, kept: Kept, context: Context) -> bool:
    """Whether a sentence sews only fabrics in their order, of which strips are cut, so that a strip set begins with it:
    "Sew dark - light - dark"."""
    match = _IN_ORDER.fullmatch(words.text.casefold())
    if match is None:
        return False
    order, strips = re.split(_DASH, match["of"]), (one.data for one in kept.entries if one.table == "cut")
    cut = {word for data in strips if "strip" in data for word in data.get("fabric", "").casefold().split()}
    if not {*order} <= cut:
        return False
    begun = context.strip_set
    name = begun.name if begun is not None and not begun.data else next_name(context)
    context.strip_set = Entry("strip_set", {}, words, name, (" - ".join(order),))
    return True
