"""What puts a pattern right, told to whoever stands at the table with the ruler: a sentence each, with its numbers."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ... import lengths
from ..checks.check import some

if TYPE_CHECKING:
    from collections.abc import Iterable

    from ...pattern.cut import Cut
    from ..finding import Change
    from ..reviewing import Review

WAYS = {"whole": "whole", "shaped": "from a strip", "once": "once on the diagonal", "twice": "twice on the diagonal"}
SAID = {  # what is done otherwise and to what, by the kind of thing and the key of its new value
    ("unit", "trim_to"): ("trim to", ""),
    ("block", "trim_to"): ("trim to", ""),
    ("unit", "count"): ("make", ""),
    ("block", "count"): ("make", ""),
    ("strip_set", "sets"): ("sew", "strip set"),
    ("strip_set", "pieces"): ("cut", "piece"),
    ("strip_set", "sub_cut"): ("sub-cut", ""),
}
OF_A_LINE = {  # the same of a line of the cutting list, told in words round its new value
    ("cut", "strips"): "sub-cut it from {} strips",
    ("cut", "strip_width"): "sub-cut it from strips {} wide",
    ("cut", "per_print"): "cut {} from each print",
}


def cures(review: Review) -> tuple[str, ...]:
    """What the correction of a review changes, one sentence for each thing that is cut, sewn or bought otherwise; where
    it changes nothing, what the checks advise.

    >>> from quiltmath import pattern
    >>> from quiltmath.pattern.sheet import EXAMPLE
    >>> from quiltmath.review import review
    >>> cures(review(pattern.read_text('seam = "1/4"\\nfinished = 12\\n' + EXAMPLE.replace("16", "12"))))
    ('“A”: cut 16, not 12.',)
    """
    if review.verdict == "go":
        return ()
    told: dict[object, list[Change]] = {}
    for change in review.correction.changes:
        told.setdefault(change.path[:2] if change.path[:1] == ("cut",) else str(change), []).append(change)
    said: dict[str, list[str]] = {}  # what is to be done, and with what
    for changes in told.values():
        thing, done = _cut_anew(review, changes) or ("", _said(review, changes[0]))
        said.setdefault(done, []).extend([thing] if thing else [])
    sentences = [f"{' and '.join(things)}: {done}" if things else done for done, things in said.items() if done]
    advice = [finding.found_by.repair for finding in review.open if finding.found_by.repair]
    return tuple(f"{one[0].upper()}{one[1:]}." for one in dict.fromkeys(sentences or advice))


def _cut_anew(review, changes):
    """What is cut otherwise by the changes to one line of the cutting list, and how; None for other changes."""
    path = changes[0].path
    cuts = review.correction.sheet.cut
    if path[:1] != ("cut",) or path[1] >= len(cuts):
        return None
    new, keys = cuts[path[1]], {change.path[2] for change in changes}
    old = review.sheet.part(new.part)
    if old is None:
        return "", f"new: {_whole_line(review, new)}"
    strips = f", from {some(new.strips, 'strip')}" if new.strips and new.strips != old.strips else ""
    keys &= {"count", "size", "strip", "cut", "slant", "strip_width"}
    if not keys:
        return None
    keys = {key for key in keys if getattr(new, key) != getattr(old, key)}
    if not keys:
        return "", ""  # changed, and changed back
    return _subject(new), f"cut {_lines(review, new, keys)}{strips}, not {_lines(review, old, keys)}"


def _subject(cut: Cut) -> str:
    """What a line of the cutting list is called at the head of a sentence."""
    if cut.diagonal:
        return cut.part if cut.cut_from in cut.part.lower() else f"{cut.part} {cut.cut_from}s"
    return f"“{cut.part}”" + (" strips" if cut.strip is not None else "")


def _lines(review: Review, cut: Cut, keys: Iterable[str]) -> str:
    """So much of a line of the cutting list as is asked for: "6 of 5 1/2 in, each twice on the diagonal"."""
    size = _size(review, cut) if {"size", "strip", "strip_width"} & set(keys) else ""
    count = str(cut.count) if "count" in keys else ""
    said = f"{count} of {size}" if count and size else count or size
    if not {"cut", "slant"} & set(keys):
        return said
    return f"{said}, each {_way(cut)}" if said else _way(cut)


def _way(cut: Cut) -> str:
    """How the pieces of a line are cut: "once on the diagonal, slanting left"."""
    slants = {"left": "slanting left", "right": "slanting right", "both": "some slanting each way"}
    return WAYS[cut.cut] + ("" if cut.slant is None else f", {slants[cut.slant]}")


def _whole_line(review: Review, cut: Cut) -> str:
    """A line of the cutting list that nobody had: "6 plum squares 5 1/2 in, each cut twice on the diagonal"."""
    thing = (
        cut.shape if cut.shape else "strip" if cut.size is None else "square" if cut.size[0] == cut.size[1] else "piece"
    )
    each = "" if not cut.diagonal else f", {'each ' * (cut.count > 1)}cut {_way(cut)}"
    return f"{some(cut.count, f'{cut.fabric} {thing}')} {_size(review, cut)}{each}"


def _size(review, cut):
    of = review.reading.ruler
    if cut.shape is not None and cut.strip_width is not None:
        return f"strips {of.said(cut.strip_width)} wide"
    return of.said(cut.strip) if cut.size is None else of.sizes(cut.size)


def _said(review, change):
    """One change in a sentence."""
    if change.how != "becomes":
        return change.words
    bought, done = _bought(review, change), _done(review, change.path, change.new)
    instead = "" if change.old is None else f", not {_figure(review, change.old)}"
    return bought or (f"{done}{instead}" if done else change.words)


def _bought(review, change):
    """What is bought otherwise, in a sentence; "" for any other change."""
    match change.path:
        case ("fabric", name, "bought"):
            had = review.sheet.fabric[name].bought if name in review.sheet.fabric else None
            instead = "" if had is None else f", not {review.reading.ruler.cloth(had)}"
            return f"{name}: buy {change.new}{instead}"
        case ("fabric", name, "pieces"):
            fabric, said = review.sheet.fabric[name], review.reading.ruler.pieces
            return f"{name}: buy {said(int(change.new), fabric.piece)}, not {said(fabric.each, fabric.piece)}"
        case ("backing", *key) if key != ["size"]:
            return f"backing: buy {change.new}, not {change.old}"
    return ""


def _done(review, path, new):
    """What is cut, joined or made otherwise, in words that what it was can follow; "" for what is told in none."""
    match path:
        case ("cut", place, key) if ("cut", key) in OF_A_LINE:
            part = review.correction.sheet.cut[place].part
            return f"“{part}”: {OF_A_LINE['cut', key].format(_figure(review, new))}"
        case ("border", number, ("sides_length" | "top_length") as key):
            pair = "left and right" if key == "sides_length" else "top and bottom"
            return f"border {number + 1}, {pair}: cut {_figure(review, new)} long"
        case ("binding", "length"):
            return f"binding: join {_figure(review, new)}"
        case ("binding", "count"):
            return f"binding: cut {some(new, 'strip')}"
        case (("backing" | "batting") as lining, "size"):
            return f"{lining}: at least {_figure(review, new)}"
        case ("finished",):
            return f"the quilt finishes {_figure(review, new)}"
        case (kind, name, key) if (kind, key) in SAID:
            verb, thing = SAID[kind, key]
            return f"“{name}”: {verb} {some(new, thing) if thing else _figure(review, new)}"
    return ""


def _figure(review, value):
    """A value of a sheet as it is said: a size in the sheet's unit, quoted where it is printed."""
    if not isinstance(value, str):
        return str(value)
    try:
        sides = [lengths.parse(side, review.sheet.units) for side in value.split(" x ")]
    except ValueError:
        return value
    of = review.reading.ruler
    return value if value.endswith((" yd", " m")) else of.sizes(sides) if len(sides) == 2 else of.said(sides[0])
