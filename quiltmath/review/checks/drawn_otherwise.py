"""What does not fit, or is miscounted, as it is typed, and is right where one block, unit, strip set, border or step is
read otherwise."""

from __future__ import annotations

from itertools import islice
from typing import TYPE_CHECKING

from ... import pattern
from ...pattern import Unreadable
from ..agreement import Culprit, Miscounted
from ..finding import ByProof
from .laid_out import counts_told, other_layout
from .other_readings import MOST_SPARE, OffCounts, other_readings

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..finding import Finding
    from ..reading import Reading
    from .check import Check
    from .other_readings import OtherReading

MOST_TRIED = 80  # ways to read a sheet otherwise
MOST_TOLD = 60  # lines, blocks and steps of a sheet that is read otherwise: of more each try takes too long


def drawn_otherwise(reading: Reading) -> OtherReading | None:
    """How a sheet must be read so that its printed numbers and counts agree, where no one of them explains that they do
    not; None where they do, or no such way is found.

    >>> from quiltmath import pattern
    >>> from quiltmath.pattern.sheet import EXAMPLE
    >>> from quiltmath.review.reading import Reading
    >>> bar = '[[cut]]\\npart = "bar"\\nfabric = "navy"\\nsize = ["6 1/2", "2 1/2"]\\ncount = 4\\n\\n[block.four]'
    >>> sheet = EXAMPLE.replace("[block.four]", bar + "\\nfinished = [6, 8]")
    >>> drawn_otherwise(Reading(pattern.read_text(sheet))).fits
    "row 1 'bar'; row 2 'A', 'A'; row 3 'A', 'A'"
    """
    sheet = reading.sheet
    if len(sheet.cut) + len(sheet.unit) + len(sheet.block) + len(sheet.step) > MOST_TOLD:
        return None
    counts = _off_counts(reading.sheet)
    if not (_sizes_are_a_puzzle(reading, counts) or counts.short and counts.over):
        return None
    if reading.other_seam is not None or other_layout(reading.sheet) is not None:
        return None  # which explain the sizes and the counts
    tried = islice(other_readings(reading, counts), MOST_TRIED)
    return next((other for other in tried if _explains(reading, counts, other)), None)


def told_otherwise(check: Check, reading: Reading) -> Iterator[Finding]:
    """The finding of a check that a sheet is meant otherwise than it tells, where it is."""
    found = drawn_otherwise(reading)
    if found is not None:
        yield check.finding(
            reading.made,
            found.changes[0][0],
            found.message,
            found.told,
            found.fits,
            why=ByProof("grid"),
            parts=frozenset(found.parts),
            fix=found.changes if found.plain else (),
            meant=found.changes,
            asks=f"The pattern tells {found.told}. Is {found.fits} meant?",
        )


def _off_counts(sheet):
    """The names of what is printed too few times, and of what is printed more often than it is taken."""
    told = counts_told(sheet)
    short = frozenset(name for name, printed, enough in told if printed < enough)
    return OffCounts(short, frozenset(name for name, printed, enough in told if printed > enough))


def _sizes_are_a_puzzle(reading, counts):
    """Whether no one likely number explains all sizes that do not agree, or parts that nothing uses may."""
    found = reading.culprits
    if not found:
        return bool(reading.off)
    if all(isinstance(one, Miscounted) for one in found):
        return False
    first = found[0]
    odd = not isinstance(first, Culprit) or (first.unlikely and not first.others)
    spare = 0 < len(counts.over) <= MOST_SPARE
    return spare or len(found) > 1 or odd or any(one not in first.settles for one in reading.off)


def _explains(reading, counts, other):
    """Whether all sizes agree with a sheet read otherwise, which they did not or more counts do, and nothing is too few
    but what was."""
    try:
        sheet = pattern.changed(reading.sheet, *other.changes)
        after = _off_counts(sheet)  # before anything is sewn, for most ways fail here
        fewer = len(after.short | after.over) < len(counts.short | counts.over)
        better = fewer or not (other.by_counts or reading.agrees)
        counted = not after.short if other.by_counts else after.short <= counts.short
        if not (better and counted):
            return False
        changed = reading.of(sheet)
    except Unreadable:
        return False
    return not changed.disagrees_beside(reading) and changed.agrees and changed.made.top is not None
