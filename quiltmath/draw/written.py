"""Lengths as pictures and the sentences beside them write them: one rounding, so that both show the same figure."""

from typing import Any

from .. import lengths


def inches(value: Any, step: str | None = None) -> str:
    """A length in inches to the nearest step of a ruler, a sixteenth unless another is named, as text.

    `value` may be a float, a Fraction, a SymPy number, or anything `float` takes.

    >>> inches(12.7279), inches(2**0.5, "1/8"), inches(0.25, "1/32")
    ('12 3/4', '1 3/8', '1/4')
    >>> inches(float("nan"))
    Traceback (most recent call last):
    ValueError: a length is ...
    """
    return lengths.measured(float(value), step=step)
