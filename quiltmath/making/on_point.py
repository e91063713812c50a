"""An on-point top sewn in its diagonal rows, from panels that are what they are: nothing is assumed to fit.

Edge triangles come lying with their right angle at the lower left. Rows are counted from the lower right corner of the quilt;
on the table they lie level, and the top is turned by 45 degrees when it is done. Columns are counted along the rows: block u
of a row lies right of column line u, with its sash, if there is one, left of that line.
"""

from itertools import combinations
from typing import NamedTuple

import numpy as np

from ..sewing import in_a_row
from ..sewing.seaming import sewn
from .rounding import needed_square
from .straight import as_long
from .units import triangle

EAR = 1 / 64  # inches: how far a trimmed tip ends before the sash it lies beside does


class Pieces(NamedTuple):
    """The panels an on-point top is sewn from. `sides` and `corners` are those for the top, left, bottom and right (corners: the
    upper left, lower left, lower right, upper right one); `stone` or `strip` (or neither) crosses between the sashes. Where the
    quilt's edge runs outside whole cornerstones (`whole`), side triangles are a sash longer than the blocks."""

    block: object
    alternate: object
    sides: list
    corners: list
    sash: object = None
    stone: object = None
    strip: object = None
    whole: bool = False


class Level(NamedTuple):
    """Rows on the table: their panel, and which column line lies at which place (inches) of the lowest row, and of the highest."""

    panel: object
    column: int
    place: float
    highest: tuple

    @classmethod
    def of_row(cls, panel, column, place):
        """One row alone."""
        return cls(panel, column, place, (column, place))


def sewn_top(across, down, pieces, seam):
    """The top of `across` by `down` blocks on point (and the alternate ones between), corners last, as it lies on a wall."""
    table = _Table(across, down, pieces, seam)
    rows = table.between_the_corners(table.joined(table.rows()))
    return with_corners(rows, pieces.corners, seam, table.width if table.sashed else None, pieces.whole).turn(45)


def with_corners(panel, corners, seam, sash=None, whole=False):
    """The joined rows with their four corner triangles, each in the middle of its edge, or of the sash of this finished length that
    lies along it; the rows stay where they lie.

    What a corner triangle cut large stands out past the other edges is trimmed level with them; an ear stays, for it still
    holds allowance of the quilt's edge. Beside sashes whose cornerstones the edge runs through, their tips end before the stones.
    """
    edges = {faces: panel.edge(faces, seam) for faces in ("left", "right", "bottom", "top")}
    corners = dict(zip(("top", "left", "bottom", "right"), corners))
    for faces, edge in edges.items():
        corner, axis = corners[faces], 1 if faces in ("left", "right") else 0
        low, high = panel.box
        middle, lying = _middle(edge, sash), corner.turn(45)
        if sash is not None and not whole:
            lying = _tips_off(lying, edge.end - edge.start - 2 * EAR, seam)
        half = lying.edge("top", seam).finished_length / 2
        panel = sewn(panel, lying, faces, "top", seam, middle - half - panel.edge(faces, seam).start)
        if max(low[axis] - panel.box[0][axis], panel.box[1][axis] - high[axis]) > seam:
            ends = ("left", "right") if axis == 0 else ("bottom", "top")
            panel = panel.trim(**dict(zip(ends, (low[axis], high[axis]))))
    return panel.laid_down()


def _middle(edge, sash):
    """The middle of an edge, or of what lies between two of its seams about as far apart as a sash is long."""
    pairs = (
        [(abs(there - here - sash), here + there) for here, there in combinations(edge.breaks, 2)]
        if sash is not None
        else []
    )
    return (min(pairs)[1] if pairs else edge.start + edge.end) / 2


def _tips_off(lying, length, seam):
    """A corner triangle lying with its long edge on top, at most so long there."""
    edge = lying.edge("top", seam)
    middle = (edge.start + edge.end) / 2
    return lying.trim(left=middle - length / 2, right=middle + length / 2).laid_down()


def span(across, down, number):
    """The column lines left and right of the blocks of a row."""
    first = 1 + abs(number)
    ends = min(2 * across, 2 * down - 2 * number)
    return first, first + ends - max(0, -2 * number) - 1


def spans_between(across, down):
    """The column lines at the ends of each sashing row, from the bottom up: those of the longer of the rows it lies between."""
    spans = [span(across, down, number) for number in range(1 - across, down)]
    lows, highs = zip(spans[0], *spans, spans[-1])
    return [(min(lows[i : i + 2]), max(highs[i : i + 2])) for i in range(len(spans) + 1)]


def strip_length(first, last, block, sash, seam):
    """The raw length (inches) of a sashing row between two column lines, of blocks and sashes that finish so wide."""
    return (last - first) * (block + sash) + sash + 2 * seam


class _Table:
    """One on-point top being sewn: its panels, how wide they finish, and the rows already sewn."""

    def __init__(self, across, down, pieces, seam):
        self.across, self.down, self.pieces, self.seam = across, down, pieces, seam
        self.sashed = pieces.sash is not None
        self.width = pieces.block.edge("bottom", seam).finished_length
        self.sash_width = pieces.sash.edge("bottom", seam).finished_length if self.sashed else 0.0
        self.sides = {turn: side.turn(turn) for turn, side in zip((0, 90, 180, 270), pieces.sides or ())}
        self.sewn = {}

    def rows(self):
        """All rows from the bottom up: blocks, and sashing between, below and above them if there is any."""
        numbers = range(1 - self.across, self.down)
        blocks = [self._blocks(number) for number in numbers]
        if not self.sashed:
            return blocks
        between = [
            self._sashing(*ends, above)
            for above, ends in enumerate(spans_between(self.across, self.down), 1 - self.across)
        ]
        return [row for pair in zip(between, blocks) for row in pair] + between[-1:]

    def _blocks(self, number):
        """A row of blocks, a side triangle at each end that is not a corner of the quilt."""
        first, last = span(self.across, self.down, number)
        run = [self.pieces.alternate if i % 2 else self.pieces.block for i in range(last - first)]
        if self.sashed:
            run = [part for block in run for part in (self.pieces.sash, block)] + [self.pieces.sash]
        row, place = in_a_row(run, seam=self.seam, sewn=self.sewn), self.seam + self.sash_width
        tall = row.size[1]
        if number != 0:
            align = "end" if number < 0 else "start"
            start = self._level(self.sides[180 if number < 0 else 90], align, tall)
            place += start.edge("right", self.seam).limit - 2 * self.seam
            row = start.sew(row, "right", "left", self.seam, align)
        if number != self.down - self.across:
            align = "end" if number < self.down - self.across else "start"
            end = self._level(self.sides[270 if number < self.down - self.across else 0], align, tall)
            row = row.sew(end, "right", "left", self.seam, align)
        if self.sashed and not self.pieces.whole:
            return self._within_the_sashes(row, first, last, place)
        return Level.of_row(row, first, place)

    def _within_the_sashes(self, row, first, last, place):
        """A row whose triangles' tips, where they are cut large, are trimmed off before they reach past the next row of sashes."""
        pitch = self.width + self.sash_width
        left, right = place - pitch - self.sash_width + EAR, place + (last - first + 1) * pitch - EAR
        row = row.trim(left=left if left > 0 else None, right=right if right < row.size[0] else None).laid_down()
        return Level.of_row(row, first, place - max(0.0, left))

    def _level(self, triangle, align, tall):
        """A triangle for the end of a row, its far tip cut level with the row where it would stand out by more than an ear.

        An ear stays, for it still holds allowance of the quilt's edge; the seam at the row's end takes half of it.
        """
        high = triangle.size[1]
        if high <= tall + 2 * self.seam:
            return triangle
        return triangle.trim(**({"top": tall} if align == "start" else {"bottom": high - tall})).laid_down()

    def _sashing(self, first, last, above):
        """The sashing row below row number `above`, with the tips of the side triangles that reach past whole cornerstones."""
        row, place = self._sashes(first, last), self.seam + self.sash_width
        tall, middle = row.size[1], self.down - self.across
        if self.pieces.whole:
            start = 180 if 1 - self.across <= above < 0 else 90 if above - 1 > 0 else None
            end = 270 if above < min(middle, self.down) else 0 if above - 1 > middle else None
            if start is not None:
                align = "end" if start == 180 else "start"
                tip = self._level(self._tip(start), align, tall)
                place += tip.edge("right", self.seam).limit - 2 * self.seam
                row = tip.sew(row, "right", "left", self.seam, align)
            if end is not None:
                align = "end" if end == 270 else "start"
                row = row.sew(self._level(self._tip(end), align, tall), "right", "left", self.seam, align)
        return Level.of_row(row, first, place)

    def _tip(self, turn):
        """The tip of the side triangle lying at this turn, as far as it reaches beside a cornerstone.

        In one piece with its triangle on the quilt; cut off here, so that rows can be sewn whole.
        """
        side = self.sides[turn]
        leg = needed_square("once", self.sash_width, self.seam)
        return triangle(side, leg, side.grains[0] - turn).turn(turn)

    def _sashes(self, first, last):
        """A sashing row from the cornerstone left of one column line to the one left of another."""
        if self.pieces.strip is not None:
            return as_long(self.pieces.strip, strip_length(first, last, self.width, self.sash_width, self.seam))
        if "level" not in self.sewn:
            self.sewn["level"] = self.pieces.sash.turn(90)
        run = [part for _ in range(last - first) for part in (self.pieces.stone, self.sewn["level"])] + [
            self.pieces.stone
        ]
        return in_a_row(run, seam=self.seam, sewn=self.sewn)

    def between_the_corners(self, top):
        """The joined rows cut level where the left and right corner triangles go, beside the rows that end in no triangle."""
        pitch = self.width + self.sash_width
        last = span(self.across, self.down, self.down - self.across)[1]
        left = top.place + (1 - top.column) * pitch - self.sash_width - self.seam
        right = top.place + (last - top.column) * pitch + self.seam
        low, high = top.panel.box[0][0], top.panel.box[1][0]
        return top.panel.trim(
            left=left if left - low > self.seam else None, right=right if high - right > self.seam else None
        ).laid_down()

    def joined(self, rows):
        """Rows joined two by two, and the pairs in turn, so that no large panel is sewn often."""
        while len(rows) > 1:
            rows = [
                self._joined(*pair) if len(pair) > 1 else pair[0]
                for pair in (rows[i : i + 2] for i in range(0, len(rows), 2))
            ]
        return rows[0]

    def _joined(self, top, above):
        """Rows sewn above others: the seams at one column line that both have are nested."""
        mine, theirs = top.panel.edge("top", self.seam), above.panel.edge("bottom", self.seam)
        pitch, (highest, at) = self.width + self.sash_width, top.highest
        best = None
        for column in range(min(highest, above.column), max(highest, above.column) + 2):
            here = at + (column - highest) * pitch
            there = above.place + (column - above.column) * pitch
            off, pair = _nearest(mine.breaks, theirs.breaks, here, there)
            if best is None or off < best[0] - self.seam / 4:
                best = off, pair, here - there
        slide = best[2]
        if best[1] is not None:
            i, j = best[1]
            slide = mine.breaks[i] - theirs.breaks[j]
        align = best[1] or slide - mine.start + theirs.start  # a plain strip has no seam to nest with
        panel = sewn(top.panel, above.panel, "top", "bottom", self.seam, align)  # the top stays where it lies
        return Level(panel, top.column, top.place, (above.highest[0], above.highest[1] + slide))


def _nearest(mine, theirs, here, there):
    """The pair of seams nearest to two places that belong together, and how far off the worse of them lies."""
    if len(mine) == 0 or len(theirs) == 0:
        return np.inf, None
    i, j = int(np.argmin(np.abs(mine - here))), int(np.argmin(np.abs(theirs - there)))
    return max(abs(mine[i] - here), abs(theirs[j] - there)), (i, j)
