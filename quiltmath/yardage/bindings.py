"""Binding: strips for the way round the quilt, on the straight grain or on the bias, and the fabric they take."""

from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from .. import lengths
from . import arguments
from .arguments import Length
from .constants import EXTRA, SEAM, USABLE_WIDTH
from .joining import JOINS, diagonal, joined_length, lost_in_join, strips_to_join

CUTS = ("straight", "bias strips", "continuous bias")


@dataclass(frozen=True)
class BindingPlan:
    """A binding: how long it is, how many strips make it, how much fabric these take.

    `perimeter`, `needed` (with the extra), `lost` in each join, `length` of fabric along the selvage and `at_least`
    (what the way round takes by area alone) are inches. `strips` is 1 for continuous bias: a square, `length` to a
    side.
    """

    perimeter: Fraction
    extra: Fraction
    strip: Fraction
    usable_width: Fraction
    cut: str
    lost: Fraction
    strips: int
    length: Fraction

    @property
    def needed(self) -> Fraction:
        """Inches of binding: once round and the extra."""
        return self.perimeter + self.extra

    @property
    def yards(self) -> Fraction:
        """The fabric as bought: yards, rounded up to the next eighth."""
        return arguments.yards(self.length)

    @property
    def at_least(self) -> Fraction:
        """Inches of fabric along the selvage that once round covers by area alone: no cutter gets under it."""
        return self.perimeter * self.strip / self.usable_width

    @property
    def sentence(self) -> str:
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
            f"{lengths.text(self.length, mark='in')} of fabric; buy {arguments.yards_text(self.length)}"
        )


def binding(
    width: Length,
    height: Length,
    strip: Length = "2 1/2",
    usable_width: Length = USABLE_WIDTH,
    *,
    join: str = "diagonal",
    extra: Length = EXTRA,
    seam: Length = SEAM,
    cut: str = "straight",
) -> BindingPlan:
    """The binding of a quilt this wide and high: a `BindingPlan`.

    The binding is a ring, so there are as many joins as strips. A join on the "diagonal" costs one strip width
    (proofs.diagonal_join), a "straight" one two seams. `cut` is "straight" (strips across the fabric), "bias strips"
    (at 45 degrees across it, ends left on the grain) or "continuous bias" (a square sewn to a tube).

    >>> ring = binding(50, 60, strip=2, extra=0)
    >>> ring.strips, ring.length, ring.lost
    (6, Fraction(12, 1), Fraction(2, 1))
    >>> print(binding(60, 72).sentence)
    264 in round and 10 in extra make 274 in: 8 strips 2 1/2 in wide, each losing 2 1/2 in in its join, from 20 in of \
fabric; buy 5/8 yd
    >>> binding(60, 72, strip=50)
    Traceback (most recent call last):
    quiltmath.yardage.arguments.DoesNotFit: a binding strip is at most half as wide as the fabric, 20 in; got 50 in: \
the usual strip is 2 1/2 in
    """
    perimeter = 2 * (arguments.size(width, "the quilt's width") + arguments.size(height, "the quilt's height"))
    more = arguments.size(extra, "the extra", least=0)
    broad, across = arguments.size(strip, "a binding strip"), arguments.usable(usable_width)
    allowance = lengths.parse(seam, name="a seam", least=0)
    _refuse_broad(broad, allowance, across)
    arguments.one_of(join, JOINS[:2], "join")
    if arguments.one_of(cut, CUTS, "cut") == "continuous bias":
        lost, strips, length = Fraction(0), 1, _square(perimeter + more, broad, allowance, across)
    elif cut == "bias strips":
        lost, strips, length = _on_the_bias(perimeter + more, broad, allowance, across)
    else:
        lost = lost_in_join(broad, join, allowance)
        strips = binding_strips(perimeter, broad, across, join=join, extra=more, seam=allowance)
        length = strips * broad
    return BindingPlan(perimeter, more, broad, across, cut, lost, strips, length)


def binding_strips(
    perimeter: Length,
    strip: Length = "2 1/2",
    usable_width: Length = USABLE_WIDTH,
    *,
    join: str = "diagonal",
    extra: Length = EXTRA,
    seam: Length = SEAM,
    cut: str = "straight",
) -> int:
    """How many strips, each from edge to edge of the fabric, a binding takes: once round (inches) and the extra.

    `cut` "straight" strips run across the fabric; "bias strips" run at 45 degrees and are √2 times as long. `join` is
    "diagonal", "straight" or, of bias strips whose ends are left on the grain, "along the grain" (`lost_in_join`).

    >>> binding_strips(264), binding_strips(264, extra=2, join="straight"), binding_strips(264, cut="bias strips")
    (8, 7, 6)
    >>> binding_strips(264, strip=40)
    Traceback (most recent call last):
    quiltmath.yardage.arguments.DoesNotFit: strips are longer than what one join takes, 40 in; got 40 in: join longer \
or narrower strips
    """
    needed = arguments.size(perimeter, "the perimeter") + arguments.size(extra, "the extra", least=0)
    return strips_to_join(needed, strip_length(usable_width, cut), lost_in_join(strip, join, seam), ring=True)


def binding_length(
    strips: int,
    strip: Length = "2 1/2",
    usable_width: Length = USABLE_WIDTH,
    *,
    join: str = "diagonal",
    seam: Length = SEAM,
    cut: str = "straight",
) -> Fraction:
    """How long a binding so many strips give, in inches, joined to a ring: as many joins as strips.

    `join` and `cut` are those of `binding_strips`, which asks the other way round.

    >>> binding_length(7), binding_length(7, "2 1/4", 42, join="straight")
    (Fraction(525, 2), Fraction(581, 2))
    >>> round(float(binding_length(5, cut="bias strips")), 2)
    270.34
    >>> binding_length(2.5)
    Traceback (most recent call last):
    ValueError: the number of strips is a whole number from 0 to 100,000; got 2.5: write for example 24
    """
    return joined_length(strips, strip_length(usable_width, cut), lost_in_join(strip, join, seam), ring=True)


def strip_length(usable_width: Length = USABLE_WIDTH, cut: str = "straight") -> Fraction:
    """How long one strip from edge to edge of the fabric is, in inches: "straight" across it, or at 45 degrees to it.

    A strip on the bias is √2 times the usable width (`proofs.bias_length`), to the nearest float.

    >>> strip_length(42), round(float(strip_length(42, "bias strips")), 2)
    (Fraction(42, 1), 59.4)
    >>> strip_length(42, "continuous bias")
    Traceback (most recent call last):
    ValueError: cut is 'straight' or 'bias strips'; got 'continuous bias'
    """
    across = arguments.usable(usable_width)
    return across if arguments.one_of(cut, CUTS[:2], "cut") == "straight" else diagonal(across)


def _refuse_broad(strip, seam, across):
    """Refuse strips too wide to be joined."""
    if 2 * strip > across or 4 * seam > across:
        raise arguments.DoesNotFit(
            f"a binding strip is at most half as wide as the fabric, {lengths.text(across / 2)} in; "
            f"got {lengths.text(max(strip, 2 * seam))} in: the usual strip is 2 1/2 in"
        )


def _square(needed, strip, seam, across):
    from .. import proofs

    square = lengths.parse(proofs.find("continuous_bias_square").cut(length=needed, width=strip, seam=seam))
    if square > across:
        raise arguments.DoesNotFit(
            f"the square for continuous bias is no larger than the fabric, {lengths.text(across)} in; "
            f"{lengths.text(needed)} in of it would take one of {lengths.text(square)} in: use "
            'cut="bias strips", or two squares'
        )
    return square


def _on_the_bias(needed, strip, seam, across):
    """What a join costs, how many bias strips make the binding, and the shortest fabric (in quarter inches) for
    them."""
    lost = lost_in_join(strip, "along the grain", seam)
    length = lengths.ruler(needed * strip / across, step="1/4", rounding="down")
    while True:
        length += Fraction(1, 4)
        strips = [one - lost for one in map(Fraction, bias_strips(strip, across, length)) if one > 2 * strip + lost]
        if sum(strips) >= needed:
            break
    longest, used = sorted(strips, reverse=True), 0
    while sum(longest[:used]) < needed:
        used += 1
    return lost, used, length


def bias_fabric(
    length: Length, strip: Length = "2 1/2", usable_width: Length = USABLE_WIDTH, *, seam: Length = SEAM
) -> Fraction:
    """How much fabric, inches along the selvage, gives bias strips that reach so far once joined, their short ends left
    on the grain; to a quarter inch.

    >>> bias_fabric(274, "2 1/2", 42) == binding(60, 72, "2 1/2", 42, cut="bias strips").length
    True
    >>> bias_fabric(274, 30, 42)
    Traceback (most recent call last):
    quiltmath.yardage.arguments.DoesNotFit: a binding strip is at most half as wide as the fabric, 21 in; got 30 in: \
the usual strip is 2 1/2 in
    """
    reach, broad = arguments.size(length, "the length of binding"), arguments.size(strip, "a bias strip")
    across, allowance = arguments.usable(usable_width), lengths.parse(seam, name="a seam", least=0)
    _refuse_broad(broad, allowance, across)
    return _on_the_bias(reach, broad, allowance, across)[2]


def bias_strips(strip: Length, width: Length, length: Length) -> list[float]:
    """The bias strips in a piece of fabric: how long each is between two ends cut on the grain, in inches (floats).

    The first line runs from a corner at 45 degrees, the others beside it, as far apart along the selvage as
    `proofs.bias_strip` says. At the fabric's corners a strip is trimmed to the shorter of its two sides.

    >>> [round(one, 2) for one in bias_strips(2, 10, 10)]
    [2.14, 6.14, 10.14, 10.14, 6.14, 2.14]
    """
    from .. import proofs

    broad, wide, long = (
        arguments.size(value, name)
        for value, name in ((strip, "a bias strip"), (width, "the fabric's width"), (length, "the fabric's length"))
    )
    pitch, slant = proofs.find("bias_strip").value(width=float(broad)), proofs.find("bias_length").value
    across, along = float(min(wide, long)), float(max(wide, long))
    before = int(across / pitch)
    lines = [across + pitch * step for step in range(-before, int(along / pitch) + 1)]
    sides = [
        slant(across=reach) if reach > 0 else 0.0 for reach in (min(at, across, across + along - at) for at in lines)
    ]
    return [min(pair) for pair in pairwise(sides) if min(pair) > 0]
