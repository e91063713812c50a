"""Borders round a top, one after another: butted strips, or strips whose corners are mitred."""

from fractions import Fraction
from typing import NamedTuple

from .. import lengths, sewing
from ..root2 import root2
from . import to_cut

MEASURE = "measure the sewn top before you cut them"


class Border(NamedTuple):
    """One border: its finished width in inches, butted or mitred, its fabric, and which butted strips go on
    first."""

    width: Fraction
    mitred: bool = False
    fabric: str = "border"
    first: str = "sides"


def border(width, mitred=False, fabric=None, first="sides", unit="in"):
    """A border of this finished width, butted (its `first` strips on the "sides" or on the "ends") or mitred.

    >>> border("3 1/2", mitred=True).width
    Fraction(7, 2)
    """
    if first not in ("sides", "ends"):
        raise ValueError(f'the strips sewn on first are those of the "sides" or of the "ends"; got {first!r}')
    inches = lengths.parse(width, unit, name="border", above=0)
    return Border(inches, bool(mitred), str(fabric or "border"), first)


def read(given, unit="in"):
    """The borders of a plan, innermost first: each a `Border`, or the finished width of a butted one.

    >>> [found.width for found in read(["2", border(5)])]
    [Fraction(2, 1), Fraction(5, 1)]
    """
    if isinstance(given, (str, int, float, Fraction, Border)):
        given = [given]
    return tuple(item if isinstance(item, Border) else border(item, unit=unit) for item in given)


def around(size, borders):
    """The finished (width, height) with the borders, as Root2 lengths."""
    both = 2 * sum((found.width for found in borders), Fraction(0))
    return tuple(side + both for side in size)


def lines(plan, size, borders):
    """The cutting list of the borders round a top of this finished size."""
    return [
        line
        for number, one in enumerate(borders)
        for line in one_round(plan, one, f"border {number + 1}", *around(size, borders[:number]))
    ]


def one_round(plan, one, name, width, height):
    """The two lines, side strips and end strips, of one border round a rectangle of this finished size."""
    ends = zip(("side", "end"), _finished_lengths(one, width, height))
    return [_line(plan, one, f"{name} {which} strip", length) for which, length in ends]


def _finished_lengths(one, width, height):
    """How long the strips of the sides and of the ends finish; a mitred strip's inner side."""
    if one.mitred:
        return root2(height), root2(width)
    more = 2 * one.width
    return (root2(height), width + more) if one.first == "sides" else (height + more, root2(width))


def _line(plan, one, part, length):
    if not one.mitred:
        return to_cut.whole(part, one.fabric, 2, one.width, length, plan, to_cut.LENGTHWISE, MEASURE)
    quantities = {"side": length, "width": one.width}
    sides = (("mitred_strip", "strip width", quantities), ("mitred_strip", "strip", quantities))
    return to_cut.ToCut(
        part, one.fabric, 2, "whole", sides, to_cut.LENGTHWISE, plan.seam, plan.unit, f"both ends are mitred; {MEASURE}"
    )


def sewn_on(panel, plan, size, borders):
    """The sewn top with its borders, strips cut to their exact lengths."""
    for number, one in enumerate(borders):
        cut = one_round(plan, one, f"border {number + 1}", *around(size, borders[:number]))
        panel = sewn_round(panel, one, cut, float(plan.seam))
    return panel


def sewn_round(panel, one, cut, seam):
    """The panel with one border, its side and end strips cut as these two lines say."""
    side, end = cut
    if one.mitred:
        return panel.mitred(_strip(side, upright=True), _strip(end, upright=False), seam)
    sides, ends = [(side, "left"), (side, "right")], [(end, "bottom"), (end, "top")]
    for line, faces in [*sides, *ends] if one.first == "sides" else [*ends, *sides]:
        panel = _butted(panel, line, faces, seam)
    return panel


def _butted(panel, line, faces, seam):
    opposite = {"left": "right", "right": "left", "top": "bottom", "bottom": "top"}[faces]
    return panel.sew(_strip(line, faces in ("left", "right")), faces, opposite, seam)


def _strip(line, upright):
    """The strip cut as this line says, its lengthwise grain along it."""
    width, length = line.value
    return sewing.patch(
        size=(width, length) if upright else (length, width),
        fabric=line.fabric,
        part=line.part,
        grain=90 if upright else 0,
    )
