"""Strips joined end to end: what a join takes, how far so many strips reach, how many strips a length takes.

    >>> lost = lost_in_join("2 1/2")
    >>> strips_to_join(274, 40, lost, ring=True), joined_length(8, 40, lost, ring=True)
    (8, Fraction(300, 1))

Panels of a backing, sewn side by side, are counted the same way: each is a strip as wide as the fabric.
"""

from collections.abc import Iterable
from fractions import Fraction
from math import ceil

from .. import lengths
from . import arguments
from .arguments import Length
from .constants import SEAM

JOINS = ("diagonal", "straight", "along the grain")


def lost_in_join(strip: Length, join: str = "diagonal", seam: Length = SEAM) -> Fraction:
    """How much length one join of two strips this wide takes, in inches: both ends together.

    "diagonal": the ends are laid across each other, square, and share one strip width (`proofs.diagonal_join`).
    "straight": a seam from either end. "along the grain": bias strips whose ends are left on the grain lose their two
    seams at 45 degrees, which is irrational and given to the nearest float.

    >>> lost_in_join("2 1/2"), lost_in_join("2 1/2", "straight", seam="1/4")
    (Fraction(5, 2), Fraction(1, 2))
    >>> round(float(lost_in_join("2 1/2", "along the grain")), 3)
    0.707
    >>> lost_in_join("2 1/2", "glued")
    Traceback (most recent call last):
    ValueError: join is 'diagonal' or 'straight' or 'along the grain'; got 'glued'
    """
    broad, taken = arguments.size(strip, "a strip"), 2 * lengths.parse(seam, name="a seam", least=0)
    arguments.one_of(join, JOINS, "join")
    if join == "diagonal":
        return broad
    return taken if join == "straight" else diagonal(taken)


def diagonal(side: Fraction) -> Fraction:
    """The diagonal of a square (inches), to the nearest float: as far as a line at 45 degrees runs across so much.

    >>> float(diagonal(Fraction(40))) == 40 * 2**0.5
    True
    """
    from .. import proofs

    return Fraction(proofs.find("bias_length").value(across=float(side))) if side else Fraction(0)


def joined_length(strips: int, each: Length, lost: Length, *, ring: bool = False) -> Fraction:
    """How far strips `each` so long reach when joined end to end, `lost` in each join, in inches.

    A row has one join less than strips; a `ring`, such as a binding, has as many.

    >>> joined_length(6, 42, "1/2"), joined_length(6, 42, "1/2", ring=True), joined_length(0, 42, "1/2")
    (Fraction(499, 2), Fraction(249, 1), Fraction(0, 1))
    >>> joined_length(2, 3, 3)
    Traceback (most recent call last):
    quiltmath.yardage.arguments.DoesNotFit: strips are longer than what one join takes, 3 in; got 3 in: join longer or \
narrower strips
    """
    count = arguments.whole(strips, "the number of strips", least=0)
    long, taken = _strip(each, lost)
    return count * long - (count if ring else max(0, count - 1)) * taken


def strips_to_join(length: Length | Iterable[Length], each: Length, lost: Length, *, ring: bool = False) -> int:
    """How many strips `each` so long, joined end to end, give a length, or several lengths cut one after another.

    What is missing by no more than `lengths.HAIR` counts as reached. A `ring` has one join more than a row.

    >>> strips_to_join([60, 60, 60, 60], 42, "1/2"), strips_to_join(240, 42, "1/2"), strips_to_join(42, 42, "1/2")
    (6, 6, 1)
    >>> strips_to_join(240, 42, 0), strips_to_join(240, 40, 40, ring=True)
    Traceback (most recent call last):
    quiltmath.yardage.arguments.DoesNotFit: strips are longer than what one join takes, 40 in; got 40 in: join longer \
or narrower strips
    """
    wanted = length if isinstance(length, Iterable) and not isinstance(length, str) else [length]
    total = sum((arguments.size(one, "a length", least=0) for one in wanted), Fraction(0))
    long, taken = _strip(each, lost)
    return whole_strips(total, long, taken, ring)


def whole_strips(total: Fraction, each: Fraction, lost: Fraction, ring: bool = False) -> int:
    """`strips_to_join` of lengths that are read already.

    >>> whole_strips(Fraction(240), Fraction(42), Fraction(1, 2))
    6
    """
    wanted = total - (0 if ring else lost) - lengths.HAIR
    return max(1, ceil(wanted / (each - lost))) if total > 0 else 0


def _strip(each: Length, lost: Length) -> tuple[Fraction, Fraction]:
    long, taken = arguments.size(each, "the length of a strip"), arguments.size(lost, "what a join takes", least=0)
    if long <= taken:
        raise arguments.DoesNotFit(
            f"strips are longer than what one join takes, {lengths.text(taken, mark='in')}; got "
            f"{lengths.text(long, mark='in')}: join longer or narrower strips"
        )
    return long, taken
