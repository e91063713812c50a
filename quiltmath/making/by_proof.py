"""Measures by their proofs, asked while a sheet is sewn: what a proof refuses cannot be sewn either."""

from __future__ import annotations

from typing import TYPE_CHECKING

from .. import proofs
from ..sewing import CannotSew

if TYPE_CHECKING:
    from ..lengths import Length
    from ..proofs.proof import Proof
    from .need import Sides


def measure(proof: Proof, name: str | None = None, /, **quantities: Length) -> float:
    """A measure of a proof as a float, inches; refused as cloth is, so that it is noted with the panel it was asked
    for.

    >>> from quiltmath import proofs
    >>> measure(proofs.side_triangle, block=0.25, seam=0.25)
    Traceback (most recent call last):
    quiltmath.sewing.arguments.CannotSew: seam (the seam allowance) must be 0 or more and at most 1/2 of block; got \
1/4; write seam='1/8' or less
    """
    try:
        return proof.value(name, **quantities)
    except ValueError as problem:
        raise CannotSew(str(problem)) from None


def measure_or_none(proof: Proof, name: str | None = None, /, **quantities: Length) -> float | None:
    """The same, None where it is refused: what cannot be sewn is said elsewhere.

    >>> from quiltmath import proofs
    >>> measure_or_none(proofs.side_triangle, block=0.25, seam=0.25) is None
    True
    """
    try:
        return measure(proof, name, **quantities)
    except CannotSew:
        return None


def cut_sizes(sides: Sides, seam: Length) -> tuple[float, ...] | None:
    """The cut sizes that these sides of a need come to, as floats of inches; None where a proof refuses one.

    >>> [round(side, 4) for side in cut_sizes((("corner_triangle", None, {"block": 6}),), seam=0.25)]
    [5.0962]
    """
    found = []
    for name, which, quantities in sides:
        given = {what: float(value) for what, value in quantities.items()}
        size = measure_or_none(getattr(proofs, name), which, seam=seam, **given)
        if size is None:
            return None
        found.append(size)
    return tuple(found)
