"""What the printed strips of a fabric take together, against what is bought: another way to cut might do with less, and
whoever cuts as the pattern says runs out."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING

from .check import SLACK
from .printed_strips import StripsPrinted

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ...pattern.cut import Cut
    from ..finding import Finding
    from ..reading import Reading
    from .check import Check


def in_strips(reading: Reading, fabric: str) -> Fraction:
    """How long a piece of one fabric (of several prints, of each) its printed strips take, side by side across its
    width: of those that pieces are sub-cut from, no more than these need. Pieces without printed strips take nothing
    here: they may come out of what is left."""
    sheet = reading.sheet
    lines = (one for one in sheet.cut if one.fabric == fabric and not one.lengthwise and one.length is None)
    strips, binding = sum((_takes(reading, one) for one in lines), Fraction(0)), sheet.binding
    if binding is None or binding.part is not None or binding.fabric != fabric or binding.style == "bias":
        return strips
    return strips + binding.count * binding.strip if isinstance(binding.count, int) else strips


def _takes(reading: Reading, cut: Cut) -> Fraction:
    """What the strips of one line take of the length of their fabric."""
    prints = 1 if cut.per_print is None else reading.sheet.prints(cut.fabric)
    if cut.strip is not None:
        return cut.strip * cut.count / prints if isinstance(cut.count, int) else Fraction(0)
    printed = StripsPrinted.of(reading.made, cut, -(-reading.counts.get(cut.part, 0) // cut.each))
    if printed is None:
        return Fraction(0)
    high = min(printed.heights)
    if cut.size and all(high % side for side in cut.size):  # a width that is asked about: that of the pieces then
        high = max((side for side in cut.size if side <= high), default=high)
    return min(printed.strips, printed.needed) * high


def runs_out(check: Check, reading: Reading, fabric: str) -> Iterator[Finding]:
    """What is asked where a bought length does only for pieces that are cut otherwise than the pattern says."""
    of, bought = reading.ruler, reading.sheet.fabric[fabric].bought
    takes = in_strips(reading, fabric)
    if bought is None or takes <= bought + SLACK:
        return
    have, need = of.cloth(bought), of.to_buy(takes)
    yield check.finding(
        reading.made,
        ["fabric", fabric, "bought"],
        f"{have} of {fabric!r} is too little for the strips as they are printed: side by side they take "
        f"{of.said(takes)}, and {of.said(bought)} are bought. Only cut otherwise would the pieces fit. Ask, or buy "
        f"{need}.",
        have,
        need,
        level="ask",
        fix=((("fabric", fabric, "bought"), need),),
    )
