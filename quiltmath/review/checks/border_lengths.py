"""The printed lengths that borders are cut to from joined strips, held against the edges they are sewn to."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ...usual import TRIMMED
from .check import SLACK, ruler

if TYPE_CHECKING:
    from ...making.straight import BorderStrip


def edges_of(strip: BorderStrip) -> str:
    """Which edges a pair of border strips lies on, in words: "left and right", or the one that has a strip."""
    return {"sides": "left and right", "top": "top and bottom"}[strip.where] if len(strip.edges) > 1 else strip.edges[0]


def cut_to_length(check, made):
    """Findings on printed lengths that end before their edge, or that nobody trims by the way."""
    of, size = ruler(made), made.finished
    wide, high = made.sheet.finished or size
    promised = {"top": float(wide) - size[0], "sides": float(high) - size[1]}
    for strip in made.border_strips:
        border, key = made.sheet.border[strip.border], f"{strip.where}_length"
        printed = getattr(border, key)
        if printed is None:
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
