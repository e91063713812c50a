"""The exact cut size each part needs for what it is sewn to, said of every part and not only of the wrong
ones."""

from typing import Any, NamedTuple

from .. import making
from .agreement import Culprit, Figure, Measures, agreements, culprits
from .ruler import Ruler


class Needed(NamedTuple):
    """An exact raw (width, height) in inches; `least` where longer will do as well and is trimmed."""

    size: tuple[float, float]
    least: bool = False


def sizes_needed(made: making.Made) -> dict[str, Needed]:
    """{part: Needed} for every part whose size follows from another figure of the sheet.

    >>> from quiltmath import making, pattern
    >>> from quiltmath.pattern.sheet import EXAMPLE
    >>> sheet = EXAMPLE.replace("[block.four]", '[block.four]\\nfinished = "6"')
    >>> sizes_needed(making.make(pattern.read_text(sheet)))
    {'A': Needed(size=(3.5, 3.5), least=False)}
    """
    sheet: Any = made.sheet
    found = {part: Needed(need.pair, need.least) for part, need in made.needs.items()}
    for part, needed in _blocks(made):
        if sheet.part(part) is not None:
            found.setdefault(part, needed)
    return found


def _blocks(made):
    """Parts that lie in the rows of blocks that print their finished size: as printed, less what is too much."""
    measures = Measures(made)
    held = {
        item.name
        for block in made.sheet.block.values()
        if block.finished is not None and block.trim_to is None and measures.rows(block.rows) is not None
        for row in block.rows
        for item in row
    }
    too_large: dict[Figure, float] = {}
    for found in culprits(agreements(measures, Ruler(made.sheet.units)), measures.values):
        if isinstance(found, Culprit):
            too_large |= found.correction.by
    for name in held:
        cut = made.sheet.part(name)
        if cut is not None and cut.cut == "whole":
            path = (*measures.line(name), "size" if cut.strip is None else "strip")
            width, height = map(float, made.sheet.cut_size(cut))
            by = [too_large.get(Figure(path, side), 0.0) for side in (0, 1)]
            yield name, Needed((width - by[0], height - by[1]))
