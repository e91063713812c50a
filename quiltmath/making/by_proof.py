"""Measures by their proofs, asked while a sheet is sewn: what a proof refuses cannot be sewn either."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..sewing import CannotSew

if TYPE_CHECKING:
    from ..lengths import Length
    from ..proofs.proof import Proof


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
