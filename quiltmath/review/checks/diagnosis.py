"""Whether the parts of rows add up, and if not, which part is to blame: plain arithmetic on finished sizes."""

from collections import Counter, defaultdict
from itertools import accumulate
from math import sqrt
from typing import NamedTuple

import numpy as np

from ...making.pieces import meant_finished
from .check import SLACK

SAME = 1 / 32  # inches: what may remain where one part is said to explain everything
RULER = 1 / 8  # inches: printed sizes are usually whole steps of this


class Laid(NamedTuple):
    """A part as it lies in a row: its name, finished width and height in inches, whether it is a triangle, whether it
    lies turned by a quarter, and whether its size is known otherwise, so that it is not to blame. `strips` are those of
    a piece of a strip set, `inside` the rows of a block that is held to no size of its own."""

    name: str
    width: float
    height: float
    triangle: bool = False
    turned: bool = False
    known: bool = False
    strips: tuple = ()
    inside: tuple = ()

    @property
    def square(self):
        """Whether it is as wide as high, so that its two sides are off together."""
        return not self.strips and abs(self.width - self.height) < 1e-6

    def side(self, wide):
        """Its width or its height as it lies, as a sum."""
        upright = wide == self.turned
        if self.inside:
            return _added_up(map(_high, self.inside)) if upright else _wide(self.inside[0])
        which = np.array([0.0, 1.0] if upright else [1.0, 0.0])
        names = Counter(name for name, _ in self.strips) if upright and self.strips else {self.name: 1}
        return _Sum(self.width if wide else self.height, {name: count * which for name, count in names.items()})


class Blame(NamedTuple):
    """The part to blame ("" where no single one explains it), and by how much (inches) it is cut too wide and too
    high."""

    name: str
    width: float = 0.0
    height: float = 0.0


def laid(made, item):
    """A part as it lies in its row, or None where it is turned askew or could not be sewn."""
    if item.turn % 90:
        return None
    cut, seam, inside = made.sheet.part(item.name), made.seam, ()
    known = cut is not None and cut.finished is not None
    if cut is None:
        block = made.sheet.block.get(item.name) or made.sheet.unit.get(item.name)
        panel = made.panel(item.name)
        if panel is None:
            return None
        known = block is not None and block.finished is not None
        inside = () if known else _inside(made, item.name)
        width, height = map(float, block.finished if known else [side - 2 * seam for side in panel.size])
    else:
        width, height = meant_finished(made, cut)
        if cut.cut == "twice":
            width, height = width / sqrt(2), height / sqrt(2)
    turned = bool(item.turn % 180)
    if turned:
        width, height = height, width
    return Laid(
        item.name,
        width,
        height,
        cut is not None and cut.cut != "whole",
        turned,
        known,
        _strips(made, item.name),
        inside,
    )


def _inside(made, name):
    """The rows of a block as its parts lie in it; none for anything else, or where one of them is not known."""
    rows = made.sheet.block[name].rows if name in made.sheet.block else ()
    rows = tuple(tuple(laid(made, item) for item in row) for row in rows)
    return rows if all(map(all, rows)) else ()


def _strips(made, name):
    """(name, finished height in inches) of the strips of a strip set; none for anything else."""
    strips = made.sheet.strip_set[name].strips if name in made.sheet.strip_set else ()
    return tuple(
        (strip, float(made.sheet.part(strip).strip or made.sheet.part(strip).size[1]) - 2 * made.seam)
        for strip in strips
        if made.sheet.part(strip) is not None
    )


def culprit(rows, widths, height=None):
    """The part whose size explains why rows miss their widths, stand at different heights in themselves or miss the
    whole height.

    `rows` are lists of `Laid`; `widths` one finished width for each row; `height` that of all rows together, where it
    is known. None if all is well.

    >>> a, b = Laid("A", 2.875, 2.875), Laid("B", 3.0, 3.0)
    >>> culprit([[a, b, a], [b, a, b]], [9.0, 9.0], 6.0)
    Blame(name='A', width=-0.125, height=-0.125)
    """
    sums = [_wide(row).plus(-width) for row, width in zip(rows, widths)] + _level(rows) + _within(rows)
    if height is not None:
        sums.append(_added_up(_high(row) for row in rows).plus(-height))
    return _explained(rows, sums)


def culprit_at_the_edge(rows, slopes):
    """The same for the rows of a built edge triangle, from its tip down: each is as wide as the rows so far are high,
    for each of one or two slopes. Triangles at the ends of rows are trimmed, so they are never too large."""
    rows = [_ends_trimmed(row) for row in rows]
    so_far = accumulate((_high(row) for row in rows), lambda one, other: one.plus(0.0, other))
    return _explained(
        rows, [_wide(row).plus(0.0, above, -slopes) for row, above in zip(rows, so_far)] + _level(rows) + _within(rows)
    )


def _ends_trimmed(row):
    """A row whose triangles are at most as high as its other parts."""
    high = max((part.height for part in row if not part.triangle), default=None)
    if high is None:
        return row
    return [
        part._replace(width=min(part.width, high), height=min(part.height, high)) if part.triangle else part
        for part in row
    ]


class _Sum(NamedTuple):
    """A sum of finished sizes in inches, and how often the cut width and height of each part stand in it: {name: array
    of two}."""

    value: float
    shares: dict

    def plus(self, number, other=None, times=1.0):
        """This sum and a number, and some times another sum."""
        if other is None:
            return _Sum(self.value + number, self.shares)
        shares = dict(self.shares)
        for name, share in other.shares.items():
            shares[name] = shares.get(name, 0.0) + times * share
        return _Sum(self.value + number + times * other.value, shares)


NOTHING = _Sum(0.0, {})


def _added_up(sums):
    value, shares = 0.0, {}
    for each in sums:
        value += each.value
        for name, share in each.shares.items():
            shares[name] = shares.get(name, 0.0) + share
    return _Sum(value, shares)


def _wide(row):
    return _added_up(part.side(True) for part in row)


def _high(row):
    """The height of a row: of its parts on average, since they should be equally high."""
    return NOTHING.plus(0.0, _added_up(part.side(False) for part in row), 1 / len(row))


def _level(rows):
    """The differences in height within each row, each kind of part once."""
    return [part.side(False).plus(0.0, row[0].side(False), -1.0) for row in rows for part in dict.fromkeys(row[1:])]


def _within(rows):
    """The differences between the widths of the rows of blocks that lie in these rows, and within each of those
    rows."""
    found = []
    for part in dict.fromkeys(part for row in rows for part in row if part.inside):
        first = _wide(part.inside[0])
        found += (
            [_wide(row).plus(0.0, first, -1.0) for row in part.inside[1:]] + _level(part.inside) + _within(part.inside)
        )
    return found


def _all_parts(rows):
    """All parts in these rows, and in the blocks that lie in them."""
    for row in rows:
        for part in row:
            yield part
            yield from _all_parts(part.inside)


def _explained(rows, sums):
    """The one part that explains why sums are not nothing; None where they are."""
    off = np.array([each.value for each in sums])
    if np.abs(off).max() <= SLACK:
        return None
    holding, found = defaultdict(list), []
    for number, each in enumerate(sums):
        for name in each.shares:
            holding[name].append(number)
    known, square = ({part.name for part in _all_parts(rows) if getattr(part, what)} for what in ("known", "square"))
    sides = _sides(rows)
    for name in holding.keys() - known:
        shares = np.zeros((len(off), 2))
        shares[holding[name]] = [sums[number].shares[name] for number in holding[name]]
        if name in square:
            shares = shares.sum(axis=1, keepdims=True)
        by = np.linalg.lstsq(shares, off, rcond=None)[0]
        if np.abs(shares @ by - off).max() <= SAME:
            by = np.resize(by, 2)
            found.append((_odd_one_out(name, by, sides), *_unlikely(by), Blame(name, *(by.round(6) + 0.0).tolist())))
    return min(found)[-1] if found else Blame("")


def _sides(rows):
    """{name: its finished (width, height) as cut} of all parts, and of strips (0, height)."""
    sides = {}
    for part in _all_parts(rows):
        sides[part.name] = (part.height, part.width) if part.turned else (part.width, part.height)
        sides.update({name: (0.0, high) for name, high in part.strips})
    return sides


def _odd_one_out(name, by, sides):
    """Whether a part, once mended, would still be of a size that no other part has."""
    others = np.array([side for other, pair in sides.items() for side in pair if other != name])
    mended = (np.array(sides[name]) - by)[np.abs(by) > SAME]
    return bool(len(others) == 0 or (np.abs(mended[:, None] - others).min(axis=1) > SAME).any())


def _unlikely(by):
    """How unlikely an error is: one that is no whole step of a ruler, then the larger one."""
    return bool(np.abs(by / RULER - (by / RULER).round()).max() > 1 / 64), float(np.abs(by).max())
