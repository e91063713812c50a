"""The printed lengths that borders are cut to from joined strips, held against the edges they are sewn to."""

from __future__ import annotations

from collections import defaultdict
from typing import TYPE_CHECKING

from ...usual import TRIMMED
from .check import SLACK, ruler

if TYPE_CHECKING:
    from ...making import Made
    from ...making.straight import BorderStrip
    from ..finding import Finding
    from .check import Check

MITRED_LONGER = 6  # inches: so much longer than they must be strips for mitres are cut (common practice)


def edges_of(strip: BorderStrip) -> str:
    """Which edges a pair of border strips lies on, in words: "left and right", or the one that has a strip."""
    return {"sides": "left and right", "top": "top and bottom"}[strip.where] if len(strip.edges) > 1 else strip.edges[0]


def cut_to_length(check, made):
    """Findings on printed lengths that end before their edge, or that nobody trims by the way."""
    of, size = ruler(made), made.finished
    wide, high = made.sheet.finished or size
    promised = {"top": float(wide) - size[0], "sides": float(high) - size[1]}
    exchanged = _exchanged(made)
    yield from (_stand_in_each_others_place(check, made, number) for number in exchanged)
    for strip in made.border_strips:
        border, key = made.sheet.border[strip.border], f"{strip.where}_length"
        printed = getattr(border, key)
        if printed is None or strip.border in exchanged:
            continue
        over = float(printed) - strip.length
        if abs(over) > SLACK and abs(over - promised[strip.where]) <= SLACK:
            continue  # it fits the printed size of the quilt, which is judged as that
        where, path = f"Border {strip.border + 1}, {edges_of(strip)}", ["border", strip.border, key]
        mitred = border.ends == "mitred"
        edge = "the edge it is sewn to, with its mitres," if mitred else "the edge it is sewn to"
        needed = of.up(strip.length)
        told = {"parts": frozenset([strip.part]), "fix": ((tuple(path), needed),)}
        said = f"{where}: the strips joined from {strip.part!r} are cut {of.said(printed)} long, "
        if over < -SLACK:
            yield check.finding(
                made,
                path,
                f"{said}but {edge} measures {of.said(strip.length)}. Measure the quilt top before you cut borders; "
                f"these must be {needed}.",
                of.said(printed),
                needed,
                **told,
            )
        elif over >= float(TRIMMED) - SLACK:
            yield check.finding(
                made,
                path,
                f"{said}and {edge} measures {of.said(strip.length)}: {of.said(over)} more. Sewn on as it is, it makes "
                f"a wavy edge. Measure the quilt top through its middle and cut them to that ({needed} here).",
                of.said(printed),
                needed,
                level="ask",
                **told,
            )


def _exchanged(made):
    """The numbers of the borders whose two printed lengths stand in each other's place, by what is needed."""
    needed = defaultdict(dict)
    for strip in made.border_strips:
        needed[strip.border][strip.where] = strip.length
    found = []
    for number, edges in needed.items():
        border = made.sheet.border[number]
        lengths = border.sides_length, border.top_length
        if None in lengths or len(edges) < 2 or abs(edges["sides"] - edges["top"]) <= SLACK:
            continue
        if all(abs(float(length) - edges[where]) <= SLACK for length, where in zip(lengths, ("top", "sides"))):
            found.append(number)
    return found


def _stand_in_each_others_place(check, made, number):
    """The finding on a border whose sides are printed as long as its top should be, and its top as its sides."""
    of, border = ruler(made), made.sheet.border[number]
    sides, top = of.said(border.sides_length), of.said(border.top_length)
    path = ("border", number)
    return check.finding(
        made,
        [*path, "sides_length"],
        f"Border {number + 1}: its two lengths stand in each other's place. Left and right need {top}, top and bottom "
        f"{sides}; printed are {sides} left and right, and {top} at top and bottom. Measure the quilt top before you "
        "cut borders.",
        f"{sides} and {top}",
        f"{top} and {sides}",
        parts=frozenset({border.sides, border.top}),
        fix=(((*path, "sides_length"), top), ((*path, "top_length"), sides)),
    )


def lines_exchanged(made: Made, ends: str) -> dict[int, tuple[BorderStrip, BorderStrip]]:
    """{number of a border: its strips left and right, and at top and bottom} where each are cut as long as the other
    ones must be, and one ends too soon where it is told; of borders whose ends meet "butted", or "mitred"."""
    found = {}
    for number, border in enumerate(made.sheet.border):
        pairs = {strip.where: strip for strip in made.border_strips if strip.border == number}
        cuts = [made.sheet.part(strip.part) for strip in pairs.values()]
        widths = {min(cut.size) for cut in cuts if cut is not None and cut.size is not None}
        if border.ends != ends or len(pairs) < 2 or len(widths) != 1:
            continue
        sides, top = pairs["sides"], pairs["top"]
        if sides.part == top.part or any(cut is None or cut.size is None for cut in cuts):
            continue
        have = {strip.where: _long(made, strip) for strip in (sides, top)}
        short = any(have[strip.where] < strip.length - SLACK for strip in (sides, top))
        over = have["top"] - sides.length, have["sides"] - top.length
        if short and all(-SLACK <= by <= (MITRED_LONGER if ends == "mitred" else TRIMMED) for by in over):
            found[number] = sides, top
    return found


def _long(made, strip):
    """How long (inches) a strip is cut that has a size of its own."""
    return float(max(made.sheet.part(strip.part).size))


def lines_in_each_others_place(check: Check, made: Made, sides: BorderStrip, top: BorderStrip) -> Finding:
    """The finding on a border whose strips for the sides are those that fit at the top, and the other way round."""
    of, path = ruler(made), ("border", sides.border)
    (one, its), (other, others) = ((strip.part, of.said(_long(made, strip))) for strip in (sides, top))
    return check.finding(
        made,
        [*path, "sides"],
        f"Border {sides.border + 1}: {one!r} ({its} long) and {other!r} ({others} long) stand in each other's place. "
        f"Left and right need {of.up(sides.length)}, top and bottom {of.up(top.length)}: sew {other!r} left and right, "
        f"and {one!r} at top and bottom. Or ask whether their lengths are exchanged.",
        f"{one!r} {its}, {other!r} {others}",
        f"{one!r} {of.up(sides.length)}, {other!r} {of.up(top.length)}",
        parts=frozenset([one, other]),
        fix=(((*path, "sides"), other), ((*path, "top"), one)),
    )
