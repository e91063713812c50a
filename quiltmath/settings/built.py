"""Edge triangles built from the block's own pieces, so that its pattern runs on to the edge of the quilt.

Squares on the diagonal end in triangles. Cut twice from a square (quarter-square triangles) these have their
long side on the straight grain, and that side is the edge of the quilt; cut once, the edge would be bias.
"""

from collections import Counter

from .. import sewing
from ..root2 import Root2
from . import to_cut

SQUARE, END, POINT = "built edge square", "built edge end triangle", "built edge point"
HALVES = {("left", "bottom"): 0, ("left", "top"): 1, ("right", "top"): 2, ("right", "bottom"): 3}
QUARTERS = {"bottom": 0, "right": 1, "top": 2, "left": 3}
STAY = "the edge of the quilt is bias: stay-stitch it"


class Built:
    """Side triangles that are half a block and corner triangles that are a quarter, sewn from squares and
    triangles."""

    def __init__(self, plan, ends="quarter"):
        self.plan, self.ends = plan, ends
        grid = fabrics_of_squares(plan.block)
        self.unit = plan.block.size / len(grid)
        self.grids = [grid]
        for _ in range(3):
            self.grids.append(clockwise(self.grids[-1]))

    @property
    def patches(self):
        """How many patches all edge triangles have together."""
        return sum(self._counts.values())

    @property
    def bias(self):
        """The length of bias they leave on the outside, as a Root2 length: none, or all but the corners'
        points."""
        plan = self.plan
        if self.ends == "quarter":
            return Root2()
        points = len(self.grids[0]) % 2 * plan.corner_triangles * self.unit
        return Root2(root=plan.side_triangles * plan.block.size + plan.corner_triangles * plan.block.size - points)

    @property
    def _counts(self):
        """How many patches of each (part, fabric) all edge triangles take."""
        across, down, total = self.plan.across - 1, self.plan.down - 1, Counter()
        for (end, form), turns in HALVES.items():
            times = down if (end, form) in (("left", "bottom"), ("right", "top")) else across
            for row in half(self.grids[turns]):
                for piece in row:
                    total[piece] += times
        for turns in QUARTERS.values():
            for row in quarter(self.grids[turns]):
                total.update(row)
        return +total

    def lines(self):
        """Their lines of the cutting list."""
        return [self._line(part, fabric, count) for (part, fabric), count in self._counts.items()]

    def _line(self, part, fabric, count):
        plan, unit = self.plan, self.unit
        if part == SQUARE:
            return to_cut.whole(part, fabric, count, unit, unit, plan)
        if part == POINT:
            return to_cut.triangles(part, fabric, count, "once", Root2(root=unit / 2), plan, to_cut.LEGS_ON_GRAIN)
        if self.ends == "quarter":
            return to_cut.triangles(part, fabric, count, "twice", Root2(root=unit), plan, to_cut.LONG_ON_GRAIN)
        return to_cut.triangles(part, fabric, count, "once", unit, plan, to_cut.LEGS_ON_GRAIN, STAY)

    def side(self, end, form, cut="exact"):
        """The half block for this end of a row, lying on its long side."""
        rows = []
        for first, *squares in half(self.grids[HALVES[end, form]]):
            if squares:
                rows.append(self._level(squares).sew(self._end(first), "left", "upper left", self._seam, "start"))
            else:
                rows.append(self._end(first).turn(-135))
        return self._stacked(rows).turn(135)

    def corner(self, faces, cut="exact"):
        """The quarter block for the corner on this side of the level rows, its long side up."""
        rows = []
        for row in quarter(self.grids[QUARTERS[faces]]):
            if len(row) == 1:
                rows.append(self._point(row[0]))
                continue
            first, *squares, last = row
            if squares:
                panel = self._level(squares).sew(self._end(first), "left", "upper right", self._seam, "end")
            else:
                panel = self._end(first).turn(-45)
            rows.append(panel.sew(self._end(last), "right", "upper left", self._seam, "end"))
        return self._stacked(rows)

    @property
    def _seam(self):
        return float(self.plan.seam)

    def _stacked(self, rows):
        return sewing.in_a_row(rows[::-1], mine="top", theirs="bottom", seam=self._seam)

    def _level(self, squares):
        sides = [(self._cut(piece), piece) for piece in squares]
        return sewing.in_a_row(
            [sewing.patch(size=(side, side), fabric=fabric, part=part) for side, (part, fabric) in sides],
            seam=self._seam,
        )

    def _end(self, piece):
        """An end triangle lying on its long side; its thread runs with that side, or with its legs if cut
        once."""
        long, grain = (self._cut(piece), 90) if self.ends == "quarter" else (self._cut(piece) * 2**0.5, 45)
        return sewing.patch(corners=[(0, 0), (long, 0), (long / 2, long / 2)], fabric=piece[1], part=END, grain=grain)

    def _point(self, piece):
        """The point of a corner triangle, its long side up."""
        leg = self._cut(piece)
        return sewing.patch(corners=[(0, 0), (leg, 0), (0, leg)], fabric=piece[1], part=POINT).turn(45)

    def _cut(self, piece):
        return self._line(*piece, 1).value[0]


def fabrics_of_squares(block):
    """The grid of fabrics of a block of equal squares; refused for any other block."""
    plain = all(unit.kind == "square" for row in block.rows for unit in row)
    if not plain or len({*block.widths, *block.heights}) > 1:
        raise ValueError(
            f"edge triangles are built from a block of equal squares; {block.name} has other "
            "units: take "
            'plain edge triangles, edges="plain", or half blocks, edges="half blocks"'
        )
    return [[unit.fabrics[0] for unit in row] for row in block.rows]


def clockwise(grid):
    """The grid turned a quarter clockwise.

    >>> clockwise([["a", "b"], ["c", "d"]])
    [['c', 'a'], ['d', 'b']]
    """
    return [list(column) for column in zip(*grid[::-1])]


def half(grid):
    """The pieces of the lower right half of a block, row by row from the top: an end triangle, then squares.

    >>> [len(row) for row in half([["a"] * 3] * 3)]
    [1, 2, 3]
    """
    last = len(grid) - 1
    return [
        [(END, row[last - number])] + [(SQUARE, fabric) for fabric in row[last - number + 1 :]]
        for number, row in enumerate(grid)
    ]


def quarter(grid):
    """The pieces of the upper quarter of a block, row by row from the top: end triangles about squares, or a
    point.

    >>> [len(row) for row in quarter([["a"] * 5] * 5)]
    [5, 3, 1]
    """
    last, rows = len(grid) - 1, []
    for number in range((last + 2) // 2):
        middle = grid[number][number : last - number + 1]
        rows.append(
            [(END, middle[0]), *((SQUARE, fabric) for fabric in middle[1:-1]), (END, middle[-1])]
            if len(middle) > 1
            else [(POINT, middle[0])]
        )
    return rows
