"""The seam of a sheet that prints none: the one with which its printed cut and finished sizes agree.

Plain arithmetic on printed figures, nothing is sewn for it: a square cut 3 1/2 that finishes 3 was meant for seams of a
quarter inch, and one cut 11.2 cm that finishes 10 for 0.6 cm.
"""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING, NamedTuple

from ..usual import CONVENTIONS, PRINTED_ROUND, SEAMS
from . import measures
from .by_proof import cut_sizes
from .needs import unit_sides
from .rounding import ROUNDED_UP, ROUNDING, needed_square

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..pattern.sheet import Sheet

NEAR = 1 / 64  # inches: whole pieces are printed exactly; less than lies between any two of the usual seams, twice


class FoundSeam(NamedTuple):
    """The seam (inches) a sheet is sewn with that prints none. `agree` of the `told` printed figures that tell one seam
    from another agree with it; as many with each of its `rivals`, which are other usual seams."""

    seam: Fraction
    agree: int = 0
    told: int = 0
    rivals: tuple[Fraction, ...] = ()

    @property
    def in_doubt(self) -> bool:
        """Whether the printed figures contradict what everybody takes, and single out no other seam either."""
        return bool(self.rivals) or self.agree == 0 < self.told


def found_seam(sheet: Sheet) -> FoundSeam:
    """The seam with which the printed sizes of a sheet agree, or most of them do; the usual one where nothing printed
    tells.

    >>> from quiltmath import pattern
    >>> from quiltmath.pattern.sheet import EXAMPLE
    >>> found_seam(pattern.read_text(EXAMPLE)).seam
    Fraction(1, 4)
    >>> wide = EXAMPLE.replace("count = 16", 'count = 16\\nfinished = "2 3/4"')
    >>> found_seam(pattern.read_text(wide))
    FoundSeam(seam=Fraction(3, 8), agree=1, told=1, rivals=())
    """
    seams = SEAMS[sheet.units]
    told = {seam: dict(_agreement(sheet.taking(seam))) for seam in seams}
    clear = [what for what in told[seams[0]] if _tells([one.get(what) for one in told.values()])]
    agree = {seam: sum(one.get(what) is True for what in clear) for seam, one in told.items()}
    most = max(agree.values())
    best = tuple(seam for seam in seams if agree[seam] == most)
    if most == 0 or best[0] in seams[: CONVENTIONS[sheet.units]]:
        return FoundSeam(best[0], most, len(clear))
    if most * 2 <= len(clear):
        return FoundSeam(seams[0], agree[seams[0]], len(clear), best)
    return FoundSeam(best[0], most, len(clear), best[1:])


def _tells(agreement):
    """Whether a printed figure agrees with some seams and not with others, or contradicts them all."""
    return False in agreement and True not in agreement or True in agreement and set(agreement) != {True}


def _agreement(sheet: Sheet) -> Iterator[tuple[tuple, bool | None]]:
    """(what is printed, whether it agrees with the seam the sheet is read with) of all that may tell a seam; None where
    the sizes do not add up, so that nothing can be said."""
    yield from _cuts(sheet)
    yield from _units(sheet)
    lines = [cut.model_copy(update={"finished": None}) for cut in sheet.cut]
    sheet = sheet.model_copy(update={"cut": lines})  # each figure is heard once
    yield from _blocks(sheet)
    yield from _beside_blocks(sheet)
    yield from _quilt(sheet)


def _cuts(sheet):
    """Lines of the cutting list that print their finished size too."""
    for number, cut in enumerate(sheet.cut):
        if cut.finished is not None:
            pairs = list(zip(cut.size or (cut.strip,), cut.finished))
            off = [float(have) - needed_square(cut.cut, float(side), float(sheet.sewing_seam)) for have, side in pairs]
            yield ("cut", number), all(_exact(by) if cut.cut == "whole" else _rounded(by) for by in off)


def _units(sheet):
    """Units that print their finished size, against their parts and the size they are trimmed to."""
    for name, unit in sheet.unit.items():
        if unit.finished is None:
            continue
        if unit.trim_to is not None:
            yield ("unit", name), _less_seams(sheet, unit.trim_to, unit.finished)
            continue
        for part, sides in unit_sides(sheet, unit, unit.finished).items():
            cut, exact = sheet.part(part), cut_sizes(sides, float(sheet.sewing_seam))
            if cut is not None and exact is not None:
                fits = _exact if sides[0][0] == "patch" else _rounded
                off = [float(have) - need for have, need in zip(sheet.cut_size(cut), (exact * 2)[:2])]
                yield ("unit", name, part), all(map(fits, off))


def _blocks(sheet):
    """Blocks whose rows add up to one size, and that to the printed one."""
    for name, block in sheet.block.items():
        if block.trim_to is not None:
            if block.finished is not None:
                yield ("block", name), _less_seams(sheet, block.trim_to, block.finished)
            continue
        size = measures.of_rows(sheet, block.rows)
        yield ("block", name), None if size is None else block.finished is None or _same(size, block.finished)


def _beside_blocks(sheet):
    """Alternate blocks and sashes cut as long as a block that prints its finished size."""
    setting = sheet.setting
    block = sheet.block.get(setting.block) or sheet.unit.get(setting.block)
    if block is None or block.finished is None:
        return
    for name in (setting.alternate, setting.sashing and setting.sashing.part):
        cut = sheet.part(name) if name else None
        if cut is not None and cut.size is not None and cut.cut == "whole":
            yield ("beside", name), _exact(float(max(cut.size) - block.finished[0] - 2 * sheet.sewing_seam))


def _quilt(sheet):
    """The printed size of the quilt, against what its blocks, sashes and borders come to."""
    if sheet.finished is not None:
        rounds = measures.rounds(sheet)
        sewn = rounds and [float(side) for side in rounds[-1]]
        ways = (sheet.finished, sheet.finished[::-1])
        off = [max(abs(float(a) - b) for a, b in zip(way, sewn)) for way in ways] if sewn else None
        yield ("quilt",), off and min(off) <= PRINTED_ROUND


def _less_seams(sheet, raw, finished):
    return _same([side - 2 * sheet.sewing_seam for side in raw], finished)


def _same(size, other):
    return all(_exact(float(one - two)) for one, two in zip(size, other))


def _exact(off):
    return abs(off) <= NEAR


def _rounded(off):
    """Whether a triangle's printed square is its exact one, rounded as the trade rounds it."""
    return -ROUNDING <= off <= ROUNDED_UP
