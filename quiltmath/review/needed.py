"""The exact cut size each part needs for what it is sewn to, said of every part and not only of the wrong
ones."""

from typing import Any, NamedTuple

from .. import making
from .checks.diagnosis import culprit, laid


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
    found = {part: needed for part, need in made.needs.items() if (needed := _of(need))}
    for part, needed in _blocks(made):
        if sheet.part(part) is not None:
            found.setdefault(part, needed)
    return found


def _of(need):
    """What a need comes to, or None where its proof refuses the figures it is asked with, a seam too wide for the
    piece."""
    try:
        return Needed(need.pair, need.least)
    except ValueError:
        return None


def _blocks(made):
    """Parts that lie in the rows of blocks that print their finished size: as printed, less what is too
    much."""
    for name, (wide, high) in _held(made).items():
        cut = made.sheet.part(name)
        if cut is not None and cut.cut == "whole":
            width, height = made.sheet.cut_size(cut)
            yield name, Needed((float(width) - wide, float(height) - high))


def _held(made):
    """{name: (too wide, too high)} of what lies in rows that are held to a printed size, in inches as the
    part is cut."""
    held = {}
    for block in made.sheet.block.values():
        placed = [[laid(made, item) for item in row] for row in block.rows]
        if block.finished is None or block.trim_to is not None or any(part is None for row in placed for part in row):
            continue
        blame = culprit(placed, [float(block.finished[0])] * len(placed), float(block.finished[1]))
        for part in (part for row in placed for part in row):
            held.setdefault(part.name, (0.0, 0.0))
        if blame is not None and blame.name:
            held[blame.name] = blame.width, blame.height
    return held
