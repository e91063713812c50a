"""Rows of a block in which a part was left out, or stands once too often."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING, NamedTuple

from ...usual import EASED
from .figures import total

if TYPE_CHECKING:
    from ...pattern.fields import Item
    from .measures import Measures


class Miscounted(NamedTuple):
    """A row that comes to another length (inches) than it should, by just one of its block's parts.

    `path` is where the block's rows are told, `row` the number of the row, `lacks` whether the part is left out (else
    it is one too many), `mended` the row as it should be, where the other rows tell.
    """

    path: tuple
    row: int
    part: str
    lacks: bool
    comes_to: float
    should: float
    mended: tuple[Item, ...] | None

    @property
    def printed(self) -> bool:
        """It is the rows themselves that do not match."""
        return True


def miscounted(measures: Measures, name: str) -> Miscounted | None:
    """The one row of a block that a part too few or too many explains; None where all is well, or more is wrong.

    >>> from quiltmath import making, pattern
    >>> from quiltmath.pattern.sheet import EXAMPLE
    >>> from quiltmath.review.agreement.measures import Measures
    >>> sheet = pattern.read_text(EXAMPLE.replace('"A A", "A A"', '"A A", "A A", "A"'))
    >>> found = miscounted(Measures(making.make(sheet)), "four")
    >>> found.row, found.part, found.lacks, [item.name for item in found.mended]
    (2, 'A', True, ['A', 'A'])
    """
    block = measures.sheet.block[name]
    placed = measures.rows(block.rows)
    if placed is None or len({len(row) for row in placed}) == 1:
        return None
    widths = [total(part.width for part in row).value for row in placed]
    should, often = Counter(round(width, 3) for width in widths).most_common(1)[0]
    if block.finished is not None:
        should = float(block.finished[0])
    elif 2 * often <= len(widths):
        return None
    off = [number for number, width in enumerate(widths) if abs(width - should) > EASED]
    if len(off) != 1:
        return None
    row, apart = off[0], widths[off[0]] - should
    lacks = apart < 0
    among = range(len(placed)) if lacks else [row]
    fits = [
        item
        for number in among
        for item, part in zip(block.rows[number], placed[number])
        if abs(part.width.value - abs(apart)) <= EASED
    ]
    if not fits:
        return None
    item = min(dict.fromkeys(fits), key=lambda item: not _counts_tell(measures, item.name, lacks))
    mended = _mended(block.rows, row, item, lacks)
    return Miscounted(("block", name, "rows"), row, item.name, lacks, widths[row], should, mended)


def _counts_tell(measures, part, lacks):
    """Whether the cutting list cuts more pieces of a part than the rows take, where one is left out, or else fewer."""
    cut = measures.sheet.part(part)
    spare = 0 if cut is None else cut.gives - measures.made.bill[part]
    return spare > 0 if lacks else spare < 0


def _mended(rows, number, item, lacks):
    """The row with this part put in or taken out, where that makes it one of several others, or the same from both
    ends."""
    row, others = tuple(rows[number]), [tuple(row) for place, row in enumerate(rows) if place != number]
    if lacks:
        ways = [(*row[:place], item, *row[place:]) for place in range(len(row) + 1)]
    else:
        ways = [row[:place] + row[place + 1 :] for place, one in enumerate(row) if one == item]
    several = others if len(others) > 1 else []
    alike = [way for way in ways if way in several] or [way for way in ways if way == way[::-1]]
    return alike[0] if alike else None
