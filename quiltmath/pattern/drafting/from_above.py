"""What was read of a sentence, with what the page says above it: for which place in the quilt a fabric is, that pieces
lie along the selvage, from which of its fabrics they may be cut."""

from __future__ import annotations

from dataclasses import replace

from .figures import long_side
from .kept import FROM_FABRIC, Kept
from .model import Choice, Context, Entry, Question, Reading
from .strips import BINDING, WIDEST_OF_STRIPS, placed

SHORTEST_OF_A_BORDER = 24
"""Inches: a piece so long, of a fabric for a border alone, is one of its sides (common practice)."""
MOST_FABRICS = 8
"""Of more choices nobody could choose at a glance."""


def of_no_fabric(read: Reading) -> list[Entry]:
    """What is cut from a fabric that is not told."""
    return [one for one in read.entries if one.table in FROM_FABRIC and not {"fabric", "part"} & {*one.data}]


def of_which_fabric(read: Reading, context: Context) -> Reading:
    """What names no fabric below a head that may hold no more: asked, from that one or from another."""
    read = _of_binding_fabric(read, context)
    bare = of_no_fabric(read)
    if not bare:
        return read
    names = [*dict.fromkeys([*context.above, *context.known])][:MOST_FABRICS]
    asked = []
    for words in dict.fromkeys(one.words for one in bare):
        here = [one for one in bare if one.words == words]
        choices = tuple(Choice(name, tuple(one.but(fabric=name) for one in here)) for name in names)
        asked.append(Question(words, "from which fabric is this cut?", choices, True))
    rest = tuple(one for one in read.entries if one not in bare)
    return replace(read, entries=rest, questions=(*read.questions, *asked))


def _of_binding_fabric(read, context):
    """A binding that names no fabric, of the one fabric that is bought for it alone."""
    bought = [name for name, purpose in context.purposes.items() if purpose == BINDING]
    if len(bought) != 1:
        return read
    entries = (
        one.but(fabric=bought[0]) if one.table == "binding" and not {"fabric", "part"} & one.data.keys() else one
        for one in read.entries
    )
    return replace(read, entries=tuple(entries))


def for_its_purpose(read: Reading, kept: Kept, context: Context) -> Reading:
    """Strips of a fabric that is told to be for a border or the binding alone, as those of that place; asked of
    others besides, of another width or too wide. Of one for a border and the binding the narrower bind the quilt."""
    entries, asked = [], []
    for one in (_of_border_or_binding(one, kept, context) for one in read.entries):
        fabric = one.data.get("fabric", "")
        purpose = context.purposes.get(fabric, "")
        if not purpose or one.table != "cut" or "strip" not in one.data or one.role:
            entries.append(replace(one, role=purpose) if purpose.endswith("border") and _is_of_border(one) else one)
            continue
        strips = placed(one, purpose)
        told = [other for other in kept.entries if (other.table, other.role) == (strips.table, strips.role)]
        others = [other.data["strip"] for other in told if other.data.get("fabric") == fabric]
        wide = purpose == BINDING and long_side(one.data["strip"])[0] > WIDEST_OF_STRIPS
        if wide or {*others} - {one.data["strip"]} or others and purpose == BINDING:
            choices = (Choice("yes", (strips,)), Choice("no", (one,)))
            asked.append(Question(one.words, f"is this for the {purpose}?", choices))
        else:
            entries.append(strips)
    return replace(read, entries=tuple(entries), questions=(*read.questions, *asked))


def _of_border_or_binding(entry, kept, context):
    """Strips of a fabric that is bought for one border and the binding and nothing else, in the second of two widths,
    as those of their place; those of the first width are then of the other."""
    places = {place: name for key, name in context.other_names.items() if len(key) == 1 for place in key}
    fabric = entry.data.get("fabric", "")
    of_it = [one for one, name in places.items() if name == fabric and (one == BINDING or one.endswith("border"))]
    named = sum(name == fabric for name in context.other_names.values()) - 1  # besides its own name
    if len(of_it) != 2 or named != 2 or BINDING not in of_it or not _is_bare(entry):
        return entry
    others = [one for one in kept.entries if one.data.get("fabric") == fabric and one.table in FROM_FABRIC]
    if len(others) != 1 or not _is_bare(others[0]) or others[0].data["strip"] == entry.data["strip"]:
        return entry
    narrow, wide = sorted((entry, others[0]), key=lambda one: long_side(one.data["strip"])[0])
    if long_side(narrow.data["strip"])[0] > WIDEST_OF_STRIPS:
        return entry
    border = next(one for one in of_it if one != BINDING)
    kept.put(others[0], placed(others[0], border if others[0] is wide else BINDING))
    return placed(entry, border if entry is wide else BINDING)


def _is_bare(entry):
    """Whether an entry is of whole strips of no place."""
    return entry.table == "cut" and not entry.role and {*entry.data} == {"fabric", "strip", "count"}


def _is_of_border(entry):
    """Whether a piece for which no place is told is as long as only those of a border are."""
    size = entry.data.get("size")
    return isinstance(size, list) and not entry.role and max(map(long_side, size))[0] >= SHORTEST_OF_A_BORDER


def along_the_selvage(entry: Entry) -> Entry:
    """A line of the cutting list below "cut lengthwise"; a square lies either way, and no strip is as long as the
    fabric is wide."""
    entry = of_its_length(entry)
    lies = entry.table == "cut" and ("strip" in entry.data or isinstance(entry.data.get("size"), list))
    return entry.but(lengthwise=True) if lies else entry


def of_its_length(entry: Entry) -> Entry:
    """Strips of which the length is a remark, as pieces of this length."""
    long = next((one.removesuffix(" long") for one in entry.remarks if one.endswith(" long")), None)
    if long is None or entry.table != "cut":
        return entry
    remarks = tuple(one for one in entry.remarks if one != f"{long} long")
    return replace(entry.but(strip=None, size=[entry.data["strip"], long]), remarks=remarks)


def with_its_strips(read: Reading) -> Reading:
    """A reading in which a binding that names its strips comes where they do: with the answer that brings them."""
    names = {one.name for one in read.entries if one.table == "cut"}
    late = [
        one for one in read.entries if one.table == "binding" and "part" in one.data and one.data["part"] not in names
    ]
    if not late:
        return read
    questions = tuple(
        replace(one, choices=tuple(_with(choice, late) for choice in one.choices)) for one in read.questions
    )
    return replace(read, entries=tuple(one for one in read.entries if one not in late), questions=questions)


def _with(choice, bindings):
    """An answer, with the bindings whose strips are among what it brings."""
    brought = {one.name for one in choice.changes if one.table == "cut"}
    more = tuple(one for one in bindings if one.data["part"] in brought)
    return replace(choice, changes=(*choice.changes, *more))
