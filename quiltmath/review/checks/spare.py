"""Fabric that will do for what a quilt takes, and not for the spare pieces that are cut besides."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from ..finding import Finding
    from ..reading import Reading
    from .check import Check


def enough_but_for_spare(reading: Reading, name: str, earlier: Sequence[Finding]) -> list[Finding]:
    """The findings on pieces of a fabric that are cut and left over, where what is bought will do without them; none
    where it will not, or some other piece of it is too few."""
    cuts = {cut.part for cut in reading.sheet.cut if cut.fabric == name}
    counted = [one for one in earlier if one.check == "piece-count" and one.parts & cuts]
    spare = [one for one in counted if one.fix and one.parts <= cuts]
    if not spare or any(one.level == "stop" for one in counted):
        return []
    less = reading.changed(*(change for one in spare for change in one.fix))
    bought = reading.sheet.fabric[name].bought or Fraction(0)
    does = (less.plan(name, bought, sheet).does(bought) for sheet in less.sheet.at_each_width(name))
    return spare if all(does) else []


def for_spare_alone(check: Check, reading: Reading, name: str, spare: Sequence[Finding]) -> Iterator[Finding]:
    """The finding on fabric that is short for these spare pieces alone; none where many are, which is asked already."""
    if any(finding.level == "ask" for finding in spare):
        return
    of, bought = reading.ruler, reading.sheet.fabric[name].bought
    parts = sorted(part for finding in spare for part in finding.parts)
    yield check.finding(
        reading.made,
        ["fabric", name, "bought"],
        f"{of.cloth(bought)} of {name!r} will do for what the quilt takes, and not for the spare pieces that are cut "
        f"besides ({', '.join(map(repr, parts))}). Cut no more than it takes, or ask.",
        of.cloth(bought),
        "no spare pieces",
        level="ask",
        parts=frozenset(parts),
        fix=tuple(change for finding in spare for change in finding.fix),
        asks=f"Are more pieces of {', '.join(f'“{part}”' for part in parts)} meant than the quilt takes? There is not "
        "enough fabric for all that is cut.",
    )
