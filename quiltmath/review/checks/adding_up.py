"""Whether the parts of rows add up, and if not, which part is to blame: plain arithmetic on finished sizes."""
from collections import Counter
from math import sqrt
from typing import NamedTuple

from ...making.rounding import finished_size
from .check import SLACK

SAME = 1 / 64            # inches: two deviations closer than this have one cause


class Laid(NamedTuple):
    """A part as it lies in a row: its name, finished width and height in inches, and whether it is a triangle."""
    name: str
    width: float
    height: float
    triangle: bool


class Blame(NamedTuple):
    """The part to blame, and by how much (inches, finished) it is too wide and too high as it lies; 0 where right."""
    name: str
    width: float
    height: float


def laid(made, item):
    """A part as it lies in its row, or None where it is turned askew or could not be sewn."""
    if item.turn % 90:
        return None
    cut, seam = made.sheet.part(item.name), made.seam
    if cut is None:
        block = made.sheet.block.get(item.name) or made.sheet.unit.get(item.name)
        panel = made.panel(item.name)
        if panel is None:
            return None
        size = block.finished if block is not None and block.finished else [side - 2 * seam for side in panel.size]
        width, height = map(float, size)
    else:
        width, height = (finished_size(cut.cut, float(side), seam, made.sheet.units) for side in made.sheet.cut_size(cut))
        if cut.cut == "twice":
            width, height = width / sqrt(2), height / sqrt(2)
    if item.turn % 180:
        width, height = height, width
    return Laid(item.name, width, height, cut is not None and cut.cut != "whole")


def to_blame(rows, wanted):
    """The part whose size explains why rows miss their wanted widths, or stand at different heights; None if all is well.

    `rows` are lists of `Laid`; `wanted` is one width for each row, or None where it is not known. Where no single part
    explains it, the blame has no name.

    >>> a, b = Laid("A", 2.875, 2.875, False), Laid("B", 3.0, 3.0, False)
    >>> to_blame([[a, b, a], [b, a, b]], [9.0, 9.0])
    Blame(name='A', width=-0.125, height=-0.125)
    """
    over = [None if want is None else sum(part.width for part in row) - want for row, want in zip(rows, wanted)]
    wide = _explains(rows, over)
    high = _odd_one_out(rows)
    if wide is None and high is None:
        return None
    if wide is not None and high is not None and wide[0] != high[0] and wide[0]:
        high = next(((name, by) for name, by in _odd_ones(rows) if name == wide[0]), None)
    name = wide[0] if wide is not None and wide[0] else high[0] if high is not None else ""
    return Blame(name, wide[1] if wide is not None and wide[0] == name else 0.0,
                 high[1] if high is not None and high[0] == name else 0.0)


def _explains(rows, over):
    """The (name, by how much too wide) that explains every row's deviation; ("", the worst) where none does."""
    off = [by for by in over if by is not None]
    if not off or max(map(abs, off)) <= SLACK:
        return None
    counts = [Counter(part.name for part in row) for row in rows]
    candidates = []
    for name in sorted(set().union(*counts)):
        shares = [by / count[name] if count[name] else None for by, count in zip(over, counts) if by is not None]
        rest = [by for by, count in zip(over, counts) if by is not None and not count[name]]
        told = [share for share in shares if share is not None]
        if told and max(told) - min(told) <= SAME and all(abs(by) <= SLACK for by in rest):
            candidates.append((name, sum(told) / len(told)))
    if not candidates:
        return "", max(off, key=abs)
    odd = dict(_odd_ones(rows))
    return min(candidates, key=lambda pair: (pair[0] not in odd, abs(pair[1])))


def _odd_ones(rows):
    """Every (name, by how much too high) that stands at another height than most of its row."""
    for row in rows:
        heights = Counter(round(part.height, 3) for part in row)
        usual = max(heights, key=lambda height: (heights[height], height))
        for part in row:
            if abs(part.height - usual) > SLACK:
                yield part.name, part.height - usual


def _odd_one_out(rows):
    return next(iter(_odd_ones(rows)), None)
