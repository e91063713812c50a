"""The exact cut size each part needs for what it is sewn to, said of every part and not only of the wrong
ones."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from .agreement import Culprit, Figure

if TYPE_CHECKING:
    from .reading import Reading


class Needed(NamedTuple):
    """An exact raw (width, height) in inches; `least` where longer will do as well and is trimmed."""

    size: tuple[float, float]
    least: bool = False


def sizes_needed(reading: Reading) -> dict[str, Needed]:
    """{part: Needed} for every part whose size follows from another figure of the sheet.

    >>> from quiltmath import pattern
    >>> from quiltmath.pattern.sheet import EXAMPLE
    >>> from quiltmath.review.reading import Reading
    >>> sheet = EXAMPLE.replace("[block.four]", '[block.four]\\nfinished = "6"')
    >>> sizes_needed(Reading(pattern.read_text(sheet)))
    {'A': Needed(size=(3.5, 3.5), least=False)}
    """
    found = {part: Needed(need.pair, need.least) for part, need in reading.made.needs.items() if need.can_be_cut}
    for part, needed in _in_rows(reading):
        found.setdefault(part, needed)
    return found


def _in_rows(reading):
    """Whole parts that lie in the rows of blocks that print their finished size: as printed, less what is too much."""
    sheet, measures = reading.sheet, reading.measures
    held = {
        item.name
        for block in sheet.block.values()
        if block.finished is not None and block.trim_to is None and measures.rows(block.rows) is not None
        for row in block.rows
        for item in row
    }
    corrections = [found.correction.by for found in reading.culprits if isinstance(found, Culprit)]
    too_large = {figure: by for correction in corrections for figure, by in correction.items()}
    for cut in sheet.cut:
        if cut.part in held and cut.cut == "whole":
            path = (*measures.line(cut.part), "size" if cut.strip is None else "strip")
            width, height = map(float, sheet.cut_size(cut))
            yield (
                cut.part,
                Needed((width - too_large.get(Figure(path, 0), 0.0), height - too_large.get(Figure(path, 1), 0.0))),
            )
