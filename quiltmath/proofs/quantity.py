"""What a proof takes: its quantities, how they are read, and which values it refuses."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from quiltmath import lengths
from quiltmath.root2 import OutsideField, Root2, root2

_WRITTEN_OUT = re.compile(r"\s*-?[0-9./]{1,20}\s*")  # no powers of ten, which could take for ever to write out
MOST = 1000  # the largest count a proof takes: more pieces than any quilt has in a row


@dataclass(frozen=True)
class Quantity:
    """One quantity a proof takes: its name, what it is, its kind ("length" or "count") and its permitted
    range.

    `limits` are (parts, other) pairs: `parts` of it fit into another quantity. `seams` is how many seams must
    fit in it.
    """

    name: str
    words: str
    kind: str = "length"
    zero: bool = False
    limits: tuple[tuple[int, str], ...] = ()
    seams: int = 0
    given: bool = True

    @property
    def permitted(self) -> str:
        """The permitted range in words.

        >>> Quantity("corner", "the corner's leg", limits=((2, "finished"),)).permitted
        'more than 0 and at most 1/2 of finished'
        """
        if self.kind == "count":
            return f"a whole number from 1 to {MOST}"
        low = "0 or more" if self.zero else "more than 0"
        return " and ".join(
            [low, *(f"at most {f'1/{parts} of ' if parts != 1 else ''}{other}" for parts, other in self.limits)]
        )

    def read(self, given: Any, unit: str = "in") -> Any:
        """One given value, exactly, in `unit`: a count as an int, a length as a Root2.

        Only a SymPy number that is not a + b√2 stays what it is.

        >>> Quantity("block", "the block's side").read("3 7/8"), Quantity("block", "the block's side").read(10, "cm")
        (Root2(Fraction(31, 8), Fraction(0, 1)), Root2(Fraction(10, 1), Fraction(0, 1)))
        """
        if self.kind == "count":
            return self._whole(given)
        if isinstance(given, Root2):
            return given
        if getattr(given, "is_number", False) is True and given.is_real and given.is_finite:
            return _from_sympy(given)
        try:
            inches = lengths.parse(given, unit)
        except ValueError as lesson:
            raise ValueError(f"{self.name} ({self.words}) must be {self.permitted}; {lesson}") from None
        return Root2(inches / lengths.INCHES[unit])

    def _whole(self, given: Any) -> int:
        try:
            written = str(given)
            number = Fraction(written) if _WRITTEN_OUT.fullmatch(written) else Fraction(1, 2)
        except (ValueError, ZeroDivisionError):
            number = Fraction(1, 2)
        if number.denominator != 1 or isinstance(given, bool):
            raise ValueError(
                f"{self.name} ({self.words}) must be {self.permitted}; got {lengths.shown(given)}; "
                f"write for example {self.name}=5"
            )
        return number.numerator

    def permits(self, number: Any) -> bool:
        """Whether a number is in the range, other quantities apart."""
        if self.kind == "count":
            return 1 <= number <= MOST
        return bool(number >= 0 if self.zero else number > 0)


def length(words: str, seams: int = 2, zero: bool = False, within: Iterable[tuple[int, str]] = ()) -> dict[str, Any]:
    """A quantity that is a length; `seams` of the proof's seams must fit into it (0: no such limit)."""
    return {"words": words, "seams": seams, "zero": zero, "limits": tuple(within)}


def count(words: str) -> dict[str, Any]:
    """A quantity that is a whole number of pieces."""
    return {"words": words, "kind": "count"}


def check(quantities: Sequence[Quantity], asked: Mapping[str, Any]) -> None:
    """Refuse values outside their ranges, with a ValueError that names the range and a value inside it."""
    for q in quantities:
        if not q.permits(asked[q.name]):
            _refuse(q, asked)
    for q in quantities:
        for parts, other in q.limits:
            if not asked[q.name] * parts <= asked[other]:
                _refuse(q, asked)


def listed(names: Iterable[str]) -> str:
    """Names in a sentence.

    >>> listed(["in", "cm", "mm"])
    'in, cm and mm'
    """
    names = list(names)
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"


def _from_sympy(given):
    """A SymPy number as a Root2, or as it is where it is none; its floats count as the decimals they are written
    with."""
    from sympy import Float, Rational

    exact = given.replace(lambda part: isinstance(part, Float), lambda part: Rational(str(part)))
    try:
        return root2(exact)
    except OutsideField:
        return exact


def _refuse(q, asked):
    number = asked[q.name]
    raise ValueError(
        f"{q.name} ({q.words}) must be {q.permitted}; got "
        f"{lengths.shown(number) if q.kind == 'count' else lengths.text(number)}; {_remedy(q, asked)}"
    )


def _remedy(q, asked):
    """What to write instead: a value inside the range."""
    if q.kind == "count":
        return f"write for example {q.name}=5"
    most = min((asked[other] / parts for parts, other in q.limits), default=0)
    if most > 0 and asked[q.name] > most:
        return f"write {q.name}={lengths.text(lengths.ruler(most, '1/64', 'down'))!r} or less"
    return f"write for example {q.name}={'1/4' if q.zero else '3 1/2'!r}"
