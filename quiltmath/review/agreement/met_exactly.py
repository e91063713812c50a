"""Which one cut size would give a quilt exactly its printed size, where it misses that by no more than is rounded."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import NamedTuple

from .agreed import Agreement
from .corrections import Correction
from .figures import Figure
from .measures import SLACK
from .table import Table

QUILT = ("finished",)  # where the size of the quilt is told


class MetExactly(NamedTuple):
    """Numbers that are cut together, {Figure: what they would be (inches)}; `borne_out`: how much
    more that is printed comes out by them, and does not as it is."""

    sizes: dict[Figure, float]
    borne_out: int


def met_exactly(
    agreements: Sequence[Agreement],
    values: dict[Figure, float],
    together: Iterable[Sequence[Figure]],
    step: float,
) -> Iterator[MetExactly]:
    """Yield each of these numbers that are cut `together` with which, all changed by the same whole steps of a ruler
    (inches), the quilt is exactly as large as printed and nothing that agrees is broken.

    >>> from .figures import Sum
    >>> top, border, printed = (Figure(path) for path in (("top",), ("border",), QUILT))
    >>> size = Agreement(Sum(0, {top: 1, border: 2, printed: -1}), QUILT, evidence=True, less=0.5)
    >>> size = Agreement(Sum(-0.5, size.off.shares), QUILT, evidence=True, less=0.5)
    >>> [one.sizes for one in met_exactly([size], {border: 2.25}, [[border]], 1 / 8)]
    [{Figure(path=('border',), side=0): 2.5}]
    """
    table = Table(agreements, values)
    missed = {number for number in table.at[QUILT] if abs(table.off[number]) > SLACK / 2}
    for figures in together:
        shares = table.shares(figures)
        ways = {
            round(table.off[number] / shares[number], 4) if abs(shares[number]) > 1e-9 else 0.0 for number in missed
        }
        by = ways.pop() if len(ways) == 1 else 0.0
        if round(by / step) == 0 or abs(by / step - round(by / step)) > 1e-2 or not table.stay_sizes(figures, by):
            continue
        after = table.after(Correction(dict.fromkeys(figures, by)))
        exact = all(abs(after.get(number, table.off[number])) <= SLACK / 2 for number in table.at[QUILT])
        if exact and all(table.holds(number, off) for number, off in after.items()):
            off = table.broken | table.doubted
            settled = off & after.keys() if off <= after.keys() else ()  # strips cut long all round bear out nothing
            yield MetExactly({figure: table.values[figure] - by for figure in figures}, len(settled))
