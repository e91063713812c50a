"""The seam of a sheet that prints none: the one with which its other numbers agree.

A square cut 3 1/2 that finishes 3 was meant for seams of a quarter inch, and one cut 11.2 cm that finishes 10 for
0.6 cm; a row of six is as long as printed with one seam only.
"""

from __future__ import annotations

from collections import Counter
from fractions import Fraction
from typing import NamedTuple

from ...making import Made
from ...pattern.names import unused
from ...usual import SEAMS, TAKEN_UNTOLD
from ..ruler import Ruler
from .agreed import Agreement
from .agreements import agreements
from .measures import Measures

LEAST_WRONG = 3  # lines of the cutting list: fewer may each be wrong by themselves
SAME = 1e-6  # inches: what a number that does not depend on the seam may change by


class FoundSeam(NamedTuple):
    """The seam (inches) a sheet is sewn with that prints none. `agree` of the `told` agreements of its printed numbers
    that depend on the seam hold with it; as many hold with each of its `rivals`, which are other usual seams."""

    seam: Fraction
    agree: int = 0
    told: int = 0
    rivals: tuple[Fraction, ...] = ()

    @property
    def in_doubt(self) -> bool:
        """Whether the printed numbers contradict what everybody takes, and single out no other seam either."""
        return bool(self.rivals) or self.agree == 0 < self.told


def found_seam(made: Made) -> FoundSeam:
    """The seam with which the printed numbers of a sheet agree, or most of them do; the usual one where nothing printed
    tells. `made` is the sheet read with the usual seam.

    >>> from quiltmath import making, pattern
    >>> from quiltmath.pattern.sheet import EXAMPLE
    >>> found_seam(making.make(pattern.read_text(EXAMPLE)))
    FoundSeam(seam=Fraction(1, 4), agree=0, told=0, rivals=())
    >>> wide = EXAMPLE.replace("count = 16", 'count = 16\\nfinished = "2 3/4"')
    >>> found_seam(making.make(pattern.read_text(wide))).seam
    Fraction(3, 8)
    """
    usual, *others = SEAMS[made.sheet.units]
    untold = SEAMS[made.sheet.units][: TAKEN_UNTOLD[made.sheet.units]]
    held = {usual: _held(made)}
    for seam in others:
        held[seam] = _held(Made(made.sheet.taking(seam)))
        telling = _telling(held)
        if untold == (usual,) and all(held[usual][what].holds() for what in telling):
            return FoundSeam(usual, len(telling), len(telling))  # another one need not be looked for
    agree = {seam: sum(one[what].holds() for what in telling if what in one) for seam, one in held.items()}
    most = max(agree.values())
    best = [seam for seam in held if agree[seam] == most]
    near = min(untold, key=lambda seam: (seam not in best, _off(held[seam], telling)))
    if near in best:
        return FoundSeam(near, most, len(telling))
    if most * 2 <= len(telling):
        return FoundSeam(usual, agree[usual], len(telling), tuple(best))
    return FoundSeam(best[0], most, len(telling), tuple(best[1:]))


def other_seam(made: Made) -> FoundSeam | None:
    """The one usual seam with which all printed numbers agree, where with the printed seam several cut sizes do not.

    >>> from quiltmath import making, pattern
    >>> from quiltmath.pattern.sheet import EXAMPLE
    >>> other_seam(making.make(pattern.read_text(EXAMPLE)))
    """
    if made.sheet.seam is None:
        return None
    wrong = {
        figure.path[:2]
        for one in _held(made).values()
        if not (one.holds() or one.evidence)
        for figure in one.off.shares
        if figure.path[0] == "cut"
    }
    if len(wrong) < LEAST_WRONG:
        return None
    found = found_seam(Made(made.sheet.model_copy(update={"seam": None})))
    certain = found.agree == found.told and not found.rivals
    return found if certain and found.seam != made.sheet.seam else None


def _off(held, telling):
    """How far off the agreements are in all with one seam, in inches; what rounding hides parts two near seams."""
    return round(sum(abs(held[what].off.value) for what in telling if what in held), 6)


def _held(made) -> dict[tuple, Agreement]:
    """Everything in which the printed numbers must agree, by the place that tells it and its number there; but for the
    finished size of a quilt whose pieces are not all sewn in yet."""
    places: Counter[tuple] = Counter()
    found = {}
    whole = not unused(made.sheet)
    for one in agreements(Measures(made), Ruler(made.sheet.units)):
        if one.path == ("finished",) and not whole:
            continue
        found[one.path, places[one.path]] = one
        places[one.path] += 1
    return found


def _telling(held) -> list[tuple]:
    """Which agreements depend on the seam."""
    first, *others = held.values()
    return [
        what
        for what, one in first.items()
        if any(what in other and abs(other[what].off.value - one.off.value) > SAME for other in others)
    ]
