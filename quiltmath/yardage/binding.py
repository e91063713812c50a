"""Binding: strips for the way round the quilt, on the straight grain or on the bias, and the cloth they take."""

from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from math import ceil

from .. import lengths
from . import arguments

EXTRA = Fraction(10)
"""Inches added to the perimeter where nothing else is said: corners, closing, handling.

Two of the printed rules add 10 ("Quilty Math", christaquilts.com; "Continuous bias chart", McCall's Quilting); printed
rules range from 2 to 24.
"""

CUTS = ("straight", "bias strips", "continuous bias")


@dataclass(frozen=True)
class Binding:
    """A binding: how long it is, how many strips make it, how much cloth these take.

    `perimeter`, `needed` (with the extra), `lost` in each join, `length` of cloth along the selvage and `at_least` (what
    the way round takes by area alone) are inches. `strips` is 1 for continuous bias: a square, `length` to a side.
    """

    perimeter: Fraction
    extra: Fraction
    strip: Fraction
    usable_width: Fraction
    cut: str
    lost: Fraction | float
    strips: int
    length: Fraction

    @property
    def needed(self):
        """Inches of binding: once round and the extra."""
        return self.perimeter + self.extra

    @property
    def yards(self):
        """The cloth as bought: yards, rounded up to the next eighth."""
        return arguments.yards(self.length)

    @property
    def at_least(self):
        """Inches of cloth along the selvage that once round covers by area alone: no cutter gets under it."""
        return self.perimeter * self.strip / self.usable_width

    @property
    def sentence(self):
        """The binding in one sentence."""
        round_ = (
            f"{lengths.text(self.perimeter, mark='in')} round and {lengths.text(self.extra, mark='in')} extra "
            f"make {lengths.text(self.needed, mark='in')}"
        )
        wide = lengths.text(self.strip, mark="in")
        if self.cut == "continuous bias":
            return (
                f"{round_}: a square of {lengths.text(self.length, mark='in')} gives it as continuous bias "
                f"{wide} wide; buy {arguments.yards_text(self.length)}"
            )
        bias = "bias " if self.cut == "bias strips" else ""
        return (
            f"{round_}: {arguments.several(self.strips, bias + 'strip')} {wide} wide, each losing "
            f"{lengths.text(self.lost, mark='in', places=2)} in its join, from "
            f"{lengths.text(self.length, mark='in')} of cloth; buy {arguments.yards_text(self.length)}"
        )


def binding(
    width,
    height,
    strip="2 1/2",
    usable_width=arguments.USABLE_WIDTH,
    *,
    join="diagonal",
    extra=EXTRA,
    seam=arguments.SEAM,
    cut="straight",
):
    """The binding of a quilt this wide and high: a `Binding`.

    The binding is a ring, so there are as many joins as strips. A join on the "diagonal" costs one strip width
    (proofs.diagonal_join), a "straight" one two seams. `cut` is "straight" (strips across the cloth), "bias strips" (at 45
    degrees across it, ends left on the grain) or "continuous bias" (a square sewn to a tube).

    >>> ring = binding(50, 60, strip=2, extra=0)
    >>> ring.strips, ring.length, ring.lost
    (6, Fraction(12, 1), Fraction(2, 1))
    >>> print(binding(60, 72).sentence)
    264 in round and 10 in extra make 274 in: 8 strips 2 1/2 in wide, each losing 2 1/2 in in its join, from 20 in of \
cloth; buy 5/8 yd
    >>> binding(60, 72, strip=50)
    Traceback (most recent call last):
    quiltmath.yardage.arguments.DoesNotFit: a binding strip is at most half as wide as the cloth, 20 in; got 50 in: the usual \
strip is 2 1/2 in
    """
    perimeter = 2 * (arguments.size(width, "the quilt's width") + arguments.size(height, "the quilt's height"))
    extra = arguments.size(extra, "the extra", least=0)
    strip, across = arguments.size(strip, "a binding strip"), arguments.usable(usable_width)
    seam = lengths.parse(seam, name="a seam", least=0)
    if 2 * strip > across or 4 * seam > across:
        raise arguments.DoesNotFit(
            f"a binding strip is at most half as wide as the cloth, {lengths.text(across / 2)} in; "
            f"got {lengths.text(max(strip, 2 * seam))} in: the usual strip is 2 1/2 in"
        )
    arguments.one_of(join, ("diagonal", "straight"), "join")
    if arguments.one_of(cut, CUTS, "cut") == "continuous bias":
        lost, strips, length = 0, 1, _square(perimeter + extra, strip, seam, across)
    elif cut == "bias strips":
        lost, strips, length = _on_the_bias(perimeter + extra, strip, seam, across)
    else:
        lost = _lost(join, strip, across, seam)
        strips = ceil((perimeter + extra) / (across - lost))
        length = strips * strip
    return Binding(perimeter, extra, strip, across, cut, lost, strips, length)


def _lost(join, strip, across, seam):
    if join == "straight":
        return 2 * seam
    from .. import proofs

    return lengths.parse(proofs.diagonal_join.exact("lost in a join", strip=across, width=strip, strips=2))


def _square(needed, strip, seam, across):
    from .. import proofs

    square = lengths.parse(proofs.continuous_bias_square.cut(length=needed, width=strip, seam=seam))
    if square > across:
        raise arguments.DoesNotFit(
            f"the square for continuous bias is no larger than the cloth, {lengths.text(across)} in; "
            f"{lengths.text(needed)} in of it would take one of {lengths.text(square)} in: use "
            'cut="bias strips", or two squares'
        )
    return square


def _on_the_bias(needed, strip, seam, across):
    """What a join costs, how many bias strips make the binding, and the shortest cloth (in quarter inches) for them."""
    lost = 2 * seam * 2**0.5
    length = lengths.ruler(needed * strip / across, step="1/4", rounding="down")
    while True:
        length += Fraction(1, 4)
        strips = [one - lost for one in bias_strips(strip, across, length) if one > 2 * strip + lost]
        if sum(strips) >= needed:
            break
    longest, used = sorted(strips, reverse=True), 0
    while sum(longest[:used]) < needed:
        used += 1
    return lost, used, length


def bias_strips(strip, width, length):
    """The bias strips in a piece of cloth: how long each is between two ends cut on the grain, in inches (floats).

    The first line runs from a corner at 45 degrees, the others beside it, as far apart along the selvage as
    `proofs.bias_strip` says. At the cloth's corners a strip is trimmed to the shorter of its two sides.

    >>> [round(one, 2) for one in bias_strips(2, 10, 10)]
    [2.14, 6.14, 10.14, 10.14, 6.14, 2.14]
    """
    from .. import proofs

    strip, width, length = (
        arguments.size(value, name)
        for value, name in ((strip, "a bias strip"), (width, "the cloth's width"), (length, "the cloth's length"))
    )
    pitch = proofs.bias_strip.value(width=float(strip))
    across, along = float(min(width, length)), float(max(width, length))
    before = int(across / pitch)
    lines = [across + pitch * step for step in range(-before, int(along / pitch) + 1)]
    sides = [
        proofs.bias_length.value(across=reach) if reach > 0 else 0.0
        for reach in (min(at, across, across + along - at) for at in lines)
    ]
    return [min(pair) for pair in pairwise(sides) if min(pair) > 0]
