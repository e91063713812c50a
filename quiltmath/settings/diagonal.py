"""Where every piece of a top on point lies, row by row, as the rows lie level on the table before the top is
turned.

Places are exact: in the level rows every seam between blocks, sashes and cornerstones lies at a rational
place. Row `k` runs from -(down - 1), the single block in the quilt's upper left corner, to across - 1, the
one in its lower right.
"""

from fractions import Fraction
from itertools import groupby
from typing import NamedTuple


class Piece(NamedTuple):
    """One piece of a row: what it is, where its left end lies, and its finished width (inches, exact)."""

    part: str
    x: Fraction
    width: Fraction


class Row(NamedTuple):
    """A row as it is sewn: its number from the upper left corner, "blocks" or "sashing", its pieces left to
    right.

    `left` and `right` tell the end: "bottom" or "top" for a triangle whose right angle lies there, "" for
    none; `ends` names that triangle (a strip's own slanting end has no name). `sashing` names the sashing row
    sewn on before the triangles, "above", "below" or "". `tip` is the end ("left" or "right") where a side
    triangle is cut off level with the row and its tip ends the next sashing row instead.
    """

    number: int
    kind: str
    pieces: tuple
    left: str
    right: str
    y: Fraction
    height: Fraction
    ends: str = ""
    sashing: str = ""
    tip: str = ""

    @property
    def x(self):
        """Where the row of squares and strips begins, its end triangles left aside."""
        return self.pieces[0].x

    @property
    def end(self):
        """Where it ends."""
        return self.pieces[-1].x + self.pieces[-1].width

    @property
    def parts(self):
        """What the row holds, in the order it is sewn: end triangles first and last."""
        middle = [piece.part for piece in self.pieces]
        if self.kind == "sashing" and self.tip:
            middle = ["triangle tip", *middle] if self.tip == "left" else [*middle, "triangle tip"]
        end = [self.ends] if self.ends else []
        return end * bool(self.left) + middle + end * bool(self.right)

    def __str__(self):
        held = [(part, len(list(run))) for part, run in groupby(self.parts)]
        words = ", ".join(part if count == 1 else f"{count} {part}s" for part, count in held)
        return f"{'Row' if self.kind == 'blocks' else 'Sashing row'} {self.number}: {words}"


def rows(plan):
    """All rows of a plan on point, from the upper left corner of the quilt to its lower right corner."""
    spans = {k: _span(plan, k) for k in range(1 - plan.down, plan.across)}
    found = []
    for k in range(-plan.down, plan.across):
        if k >= 1 - plan.down:
            found.append(_blocks(plan, k, *spans[k]))
        if plan.sashing:
            beside = [spans[j] for j in (k, k + 1) if j in spans]
            found.append(_sashing(plan, k, min(low for low, _ in beside), max(high for _, high in beside)))
    return found


def form(place):
    """Where the right angle of an end triangle lies, for a row so many rows past the one that ends in a
    corner."""
    return "bottom" if place < 0 else "top" if place > 0 else ""


def _span(plan, k):
    """The numbers of the first and last block of row k, counted in pitches from the quilt's lower left
    corner."""
    first, last = max(0, k), min(plan.across - 1, plan.down - 1 + k)
    return 2 * first - k, 2 * last - k


def _cell(plan, number):
    """Where the left side of that block lies."""
    return (number + 1) * plan.pitch - plan.cell / 2


def _blocks(plan, k, low, high):
    pieces, place, sash, cell = [], _cell(plan, low) - plan.sashing, plan.sashing, plan.cell
    parts = plan.part_at(0), plan.part_at(1)
    for number in range(high - low + 1):
        if sash:
            pieces.append(Piece("sash", place, sash))
            place += sash
        pieces.append(Piece(parts[number % 2], place, cell))
        place += cell
    if sash:
        pieces.append(Piece("sash", place, sash))
    left, right = form(k), form(k - plan.across + plan.down)
    y = -k * plan.pitch - plan.cell / 2
    with_sashing, tip = "", ""
    if plan.whole:
        forms = {left, right}
        with_sashing = "above" if "bottom" in forms else "below" if "top" in forms else ""
        tip = ("left" if left == "top" else "right") if {"bottom", "top"} <= forms else ""
    return Row(k + plan.down, "blocks", tuple(pieces), left, right, y, plan.cell, "side triangle", with_sashing, tip)


def _sashing(plan, k, low, high):
    """The sashing row below row k."""
    left, end = _cell(plan, low) - plan.sashing, _cell(plan, high) + plan.cell + plan.sashing
    forms = ("", "")
    if not plan.whole:
        forms = ("bottom" if k < 0 else "top", "bottom" if k < plan.across - plan.down else "top")
        left, end = left + plan.sashing, end - plan.sashing
    if plan.has_cornerstones:
        pieces, place = [], left
        stone = plan.whole
        while place < end:
            width = plan.sashing if stone else plan.cell
            pieces.append(Piece("cornerstone" if stone else "sash", place, width))
            place, stone = place + width, not stone
    else:
        pieces = [Piece("sashing strip", left, end - left)]
    ends = "cornerstone triangle" if plan.has_cornerstones and not plan.whole else ""
    y = -k * plan.pitch - plan.cell / 2 - plan.sashing
    return Row(
        k + plan.down + 1,
        "sashing",
        tuple(pieces),
        *forms,
        y,
        plan.sashing,
        ends,
        tip=_tip(plan, k) if plan.whole else "",
    )


def _tip(plan, k):
    """The end of the sashing row below row k that carries the tip of a side triangle."""
    if 0 < k < plan.across - plan.down:
        return "left"
    return "right" if plan.across - plan.down < k < 0 else ""
