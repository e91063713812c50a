"""Printed numbers, and sums in which they stand."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import NamedTuple


class Figure(NamedTuple):
    """One printed number of a sheet: the path of its value, and which side of a size it is (0 across, 1 up).

    A square is printed as one number and yet is two figures, which mostly change together.
    """

    path: tuple
    side: int = 0


@dataclass(frozen=True)
class Sum:
    """A length in inches, and how often each printed number stands in it: {Figure: times}.

    >>> width = Sum.of(Figure(("cut", 0, "size")), 3.5).plus(Sum(-0.5))
    >>> width.value, width.times(2).shares
    (3.0, {Figure(path=('cut', 0, 'size'), side=0): 2.0})
    """

    value: float = 0.0
    shares: dict[Figure, float] = field(default_factory=dict)

    @classmethod
    def of(cls, figure: Figure, value: float) -> Sum:
        """The sum that is one printed number."""
        return cls(float(value), {figure: 1.0})

    def plus(self, other: Sum | float, times: float = 1.0) -> Sum:
        """This sum and another one (or a plain length), so many times."""
        if not isinstance(other, Sum):
            return Sum(self.value + times * float(other), self.shares)
        shares = dict(self.shares)
        for figure, share in other.shares.items():
            shares[figure] = shares.get(figure, 0.0) + times * share
        return Sum(self.value + times * other.value, shares)

    def minus(self, other: Sum | float) -> Sum:
        """This sum less another one, or less a plain length."""
        return self.plus(other, -1.0)

    def times(self, number: float) -> Sum:
        """This sum so many times."""
        return Sum(number * self.value, {figure: number * share for figure, share in self.shares.items()})


def total(sums: Iterable[Sum]) -> Sum:
    """All of these added up."""
    value, shares = 0.0, dict[Figure, float]()
    for each in sums:
        value += each.value
        for figure, share in each.shares.items():
            shares[figure] = shares.get(figure, 0.0) + share
    return Sum(value, shares)


def mean(sums: Iterable[Sum]) -> Sum:
    """What these are on average: of edges that should be equally long none is right rather than another."""
    sums = list(sums)
    return total(sums).times(1 / len(sums))
