"""An on-point top sewn in its diagonal rows, from panels that are what they are: nothing is assumed to fit.

Edge triangles come lying with their right angle at the lower left. Rows are counted from the lower right corner of the
quilt; on the table they lie level, and the top is turned by 45 degrees when it is done. Columns are counted along the
rows: block u of a row lies right of column line u, with its sash, if there is one, left of that line. Beside whole
cornerstones a side triangle is as high as a row and its sashing together, so those two are joined before it is sewn on.
"""

from __future__ import annotations

from math import sqrt
from typing import TYPE_CHECKING, Any, NamedTuple

import numpy as np

from ..sewing import in_a_row
from ..sewing.seaming import sewn
from .rounding import needed_square
from .straight import as_long, levelled
from .units import triangle

if TYPE_CHECKING:
    from collections.abc import Sequence

    from ..sewing import Panel
    from .layout import Layout

EAR = 1 / 64  # inches: how far a trimmed tip ends before the sash it lies beside does


class Pieces(NamedTuple):
    """The panels an on-point top is sewn from.

    `parts` are those its rows name ("block", "alternate block", "sash", "level sash", "cornerstone", "cornerstone
    triangle", and a list of long strips, shortest first, "sashing strip"). `sides` and `corners` are those for the top,
    left, bottom and right (corners: the upper left, lower left, lower right, upper right one). `tip` ends sashing rows
    where a side triangle reaches past whole cornerstones; where none is cut for it, it comes from the triangle's own
    cloth, large enough for blocks that float so far inside the edge.
    """

    parts: dict
    sides: list | None
    corners: list
    tip: Any = None
    floating: float = 0.0

    @property
    def halved(self) -> Panel | None:
        """The triangle cut for a cornerstone that the edge halves; None where whole ones are cut through."""
        return self.parts.get("cornerstone triangle")


class Level(NamedTuple):
    """Rows on the table: their panel, and which column line lies at which place (inches) of the lowest row, and of the
    highest."""

    panel: Panel
    column: int
    place: float
    highest: tuple

    @classmethod
    def of_row(cls, panel: Panel, column: int, place: float) -> Level:
        """One row alone."""
        return cls(panel, column, place, (column, place))


def sewn_top(lies: Layout, pieces: Pieces, seam: float) -> Panel:
    """The top of this layout, corners last, as it lies on a wall."""
    table = _Table(lies, pieces, seam)
    level = table.between_the_corners(table.joined(table.rows()))
    through_stones = lies.sashed and lies.stones and not lies.whole and pieces.halved is None
    return with_corners(level, pieces.corners, seam, table.width, through_stones).turn(45)


def with_corners(
    level: Level, corners: Sequence[Panel], seam: float, side: float, through_stones: bool = False
) -> Panel:
    """The joined rows with their four corner triangles, each in the middle of the block or sash of this finished length
    that it lies along; the rows stay where they lie.

    What a corner triangle cut large stands out past the other edges is trimmed level with them; an ear stays, for it
    still holds allowance of the quilt's edge. Where the edge cuts through the stones beside it, its tips end before
    those.
    """
    panel = level.panel
    edges = {faces: panel.edge(faces, seam) for faces in ("left", "right", "bottom", "top")}
    at = dict(zip(("top", "left", "bottom", "right"), corners))
    beside = {"bottom": level.place + side / 2, "top": level.highest[1] + side / 2}
    for faces, edge in edges.items():
        corner, axis = at[faces], 1 if faces in ("left", "right") else 0
        low, high = panel.box
        middle, lying = _middle(edge, side, beside.get(faces)), corner.turn(45)
        if through_stones:
            lying = _tips_off(lying, max(edge.end - edge.start - 2 * EAR, side + 2 * _tip(seam)), seam)
        panel = levelled(sewn(panel, lying, faces, "top", seam, _centred_at(middle)), axis, low, high, seam)
    return panel.laid_down()


def _centred_at(middle):
    """How far an edge slides so that its middle comes to a place on the other."""
    return lambda ours, yours: middle - (yours.start + yours.end) / 2


def _middle(edge, side, beside):
    """The middle of what lies on an edge between two of its seams, or its ends, about as far apart as a block's side.

    A plain strip has no seams to tell; its middle is that of the block `beside` it, where that is known.
    """
    if len(edge.breaks) == 0 and beside is not None:
        return beside
    places = np.sort([edge.start, *edge.breaks, edge.end])
    pairs = [
        (abs(places[there] - places[here] - side), places[here] + places[there])
        for here, beyond in enumerate(np.searchsorted(places, places + side).tolist())
        for there in {here + 1, beyond - 1, beyond}
        if here < there < len(places)
    ]
    return min(pairs)[1] / 2


def _tip(seam):
    """How far (inches) a tip reaches along its seam past the finished edge: that far it holds allowance of the edge."""
    return sqrt(2) * seam + EAR


def _tips_off(lying, length, seam):
    """A corner triangle lying with its long edge on top, at most so long there."""
    edge = lying.edge("top", seam)
    middle = (edge.start + edge.end) / 2
    return lying.trim(left=middle - length / 2, right=middle + length / 2).laid_down()


TURNS = {("left", "bottom"): 90, ("left", "top"): 180, ("right", "bottom"): 0, ("right", "top"): 270}
ALIGNED = {"bottom": "start", "top": "end"}


class _Table:
    """One on-point top being sewn: its panels, how wide they finish, and what has been sewn of them already."""

    def __init__(self, lies, pieces, seam):
        self.lies, self.pieces, self.seam = lies, pieces, seam
        self.width = pieces.parts["block"].edge("bottom", seam).finished_length
        self.sash_width = pieces.parts["sash"].edge("bottom", seam).finished_length if lies.sashed else 0.0
        self.pitch = self.width + self.sash_width
        self.sides = {turn: side.turn(turn) for turn, side in zip((0, 90, 180, 270), pieces.sides or ())}
        self.tips, self.ends, self.sewn = {}, {}, {}

    def rows(self):
        """All rows from the bottom up, each a `Level`; with the sashing row that must be sewn on before its triangles,
        if any."""
        rows, found, taken = self.lies.rows, [], set()
        for place, row in enumerate(rows):
            if row.kind == "blocks" and row.sashing:
                other = place - 1 if row.sashing == "above" else place + 1
                taken |= {place, other}
                found.append((min(place, other), self._beside_stones(row, rows[other])))
        for place, row in enumerate(rows):
            if place not in taken:
                found.append((place, self._blocks(row) if row.kind == "blocks" else self._sashing(row)))
        return [level for _, level in sorted(found, key=lambda pair: -pair[0])]

    def _beside_stones(self, row, sashing):
        """A row of blocks and a sashing row joined, then their triangles; one whose tip is cut off goes on before."""
        ends = dict(_ends(row))
        first = {row.tip: ends.pop(row.tip)} if row.tip else {}
        level, between = self._blocks(row, first, short=True), self._sashing(sashing)
        level = self._joined(level, between) if row.sashing == "above" else self._joined(between, level)
        for end, form in ends.items():
            panel, moved = self._ended(level.panel, end, form, self._side(end, form))
            highest = level.highest[0], level.highest[1] + moved
            level = Level(panel, level.column, level.place + moved, highest)
        return level

    def column(self, row):
        """The column line left of the first block of a row of blocks; lines are counted along the rows."""
        return 1 + abs(row.number - self.lies.down)

    def _blocks(self, row, ends=None, short=False):
        """A row of blocks, a side triangle at each end that is not a corner of the quilt, or at these ends alone."""
        run = [self.pieces.parts[piece.part] for piece in row.pieces]
        ends = dict(_ends(row)) if ends is None else ends
        panel, place = self._with_ends(run, {end: (form, self._side(end, form)) for end, form in ends.items()}, short)
        place += self.sash_width
        if self.lies.sashed and not self.lies.whole:
            return self._within_the_sashes(panel, len(row.pieces) // 2, self.column(row), place)
        return Level.of_row(panel, self.column(row), place)

    def _side(self, end, form):
        return self.sides[TURNS[end, form]]

    def _with_ends(self, run, ends, short=False):
        """The panels in a row, a triangle at each end named: the row, and where its first piece begins once sewn.

        A triangle is sewn to the piece at its end before all are sewn together, so that equal ends are sewn once.
        """
        run, place = list(run), self.seam
        for end, (form, shape) in ends.items():
            at = 0 if end == "left" else -1
            key = id(run[at]), end, form, id(shape), short
            if key not in self.ends:
                self.ends[key] = (
                    run[at],
                    *self._ended(run[at], end, form, shape, short),
                )  # kept, so that its id stays its own
            _, run[at], moved = self.ends[key]
            place += moved if end == "left" else 0.0
        return in_a_row(run, seam=self.seam, sewn=self.sewn), place

    def _ended(self, piece, end, form, triangle, short=False):
        """A piece with a triangle at its left or right end, cut level with it if `short`, and how far that moves it
        right."""
        align, tall = ALIGNED[form], piece.size[1]
        triangle = self._level(triangle, align, tall)
        if end == "right":
            panel, moved = sewn(piece, triangle, "right", "left", self.seam, align), 0.0
        else:
            panel = sewn(triangle, piece, "right", "left", self.seam, align)
            moved = triangle.edge("right", self.seam).limit + piece.edge("left", self.seam).limit - 2 * self.seam
        if short and panel.size[1] > tall:
            low = panel.box[0][1]
            panel = panel.trim(**({"top": low + tall} if align == "start" else {"bottom": panel.box[1][1] - tall}))
        return panel.laid_down(), moved - panel.box[0][0]

    def _within_the_sashes(self, panel, blocks, column, place):
        """A row whose triangles' tips, where they are cut large, are trimmed off before they reach past the next row of
        sashes."""
        halved, tip = self.pieces.halved is not None, _tip(self.seam)
        stone = tip if halved else max(tip, self.sash_width - EAR)  # what lies past the sash, on the seam
        left = place - self.pitch - stone
        right = place + blocks * self.pitch + self.width + stone
        panel = panel.trim(left=left if left > 0 else None, right=right if right < panel.size[0] else None).laid_down()
        return Level.of_row(panel, column, place - max(0.0, left))

    def _level(self, triangle, align, tall):
        """A triangle for the end of a row, its far tip cut level with the row where it would stand out by more than an
        ear.

        An ear stays, for it still holds allowance of the quilt's edge; the seam at the row's end takes half of it.
        """
        high = triangle.size[1]
        if high <= tall + 2 * self.seam:
            return triangle
        return triangle.trim(**({"top": tall} if align == "start" else {"bottom": high - tall})).laid_down()

    def _sashing(self, row):
        """A row of sashing, with the halved cornerstones or a triangle's tip at its ends, if those are pieces of their
        own."""
        parts, lies = self.pieces.parts, self.lies
        halved = self.pieces.halved
        run = [parts["level sash" if piece.part == "sash" else piece.part] for piece in row.pieces if not lies.strips]
        ends, place = {}, self.sash_width
        if lies.strips:
            run = [self._strip(lies.reach_of(row))]
            place += (run[0].size[0] - 2 * self.seam - self._passing(row)) / 2
        elif not lies.whole and halved is None:
            run = [parts["cornerstone"], *run, parts["cornerstone"]]
        elif not lies.whole:
            ends, place = {end: (form, self._turned(halved, TURNS[end, form])) for end, form in _ends(row)}, 0.0
        if row.tip:
            ends = {row.tip: ("top", self._tip(TURNS[row.tip, "top"]))}
        panel, start = self._with_ends(run, ends, short=bool(row.tip))
        return Level.of_row(panel, self._column_below(row), start + place)

    def _passing(self, row):
        """How long a sashing row finishes from the cornerstone, or its place, at one end to that at the other."""
        return self.lies.reach_of(row) * self.pitch + self.sash_width

    def _column_below(self, row):
        """The column line at the left end of a sashing row: that of the longer of the rows it lies between."""
        beside = [number for number in (row.number - 1, row.number) if 1 <= number < self.lies.across + self.lies.down]
        return min(1 + abs(number - self.lies.down) for number in beside)

    def _strip(self, reach):
        """A long strip of a sashing row that passes so many blocks, as long as the row, its slanting ends included."""
        strips, lies = self.pieces.parts["sashing strip"], self.lies
        strip = strips[0 if len(strips) == 1 else sorted(set(lies.strip_reaches)).index(reach)]
        slant = 0.0 if lies.whole else 2 * sqrt(2) * self.seam
        return as_long(strip, reach * self.pitch + self.sash_width + 2 * self.seam + slant)

    def _turned(self, panel, turn):
        """A panel turned, the same object every time."""
        if (id(panel), turn) not in self.tips:
            self.tips[id(panel), turn] = panel, panel.turn(turn)
        return self.tips[id(panel), turn][1]

    def _tip(self, turn):
        """The tip of the side triangle lying at this turn, as far as it reaches beside a cornerstone.

        In one piece with its triangle on the quilt; cut off here, so that rows can be sewn whole.
        """
        if self.pieces.tip is not None:
            return self._turned(self.pieces.tip, turn)
        if turn not in self.tips:
            side = self.sides[turn]
            leg = needed_square("once", self.sash_width + self.pieces.floating * sqrt(2), self.seam)
            self.tips[turn] = triangle(side, leg, side.grains[0] - turn).turn(turn)
        return self.tips[turn]

    def between_the_corners(self, top):
        """The joined rows cut level where the left and right corner triangles go, beside the rows that end in no
        triangle."""
        across, down = self.lies.across, self.lies.down
        last = (
            1 + abs(down - across) + len(self.lies.rows_of_blocks[across - 1].pieces) // (2 if self.lies.sashed else 1)
        )
        left = top.place + (1 - top.column) * self.pitch - self.sash_width - self.seam
        right = top.place + (last - top.column) * self.pitch + self.seam
        low, high = top.panel.box[0][0], top.panel.box[1][0]
        panel = top.panel.trim(
            left=left if left - low > self.seam else None, right=right if high - right > self.seam else None
        )
        shift = panel.box[0][0]
        return Level(panel.laid_down(), top.column, top.place - shift, (top.highest[0], top.highest[1] - shift))

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
        slides = []

        def nested(mine, theirs):
            slides.append(self._slide(top, above, mine.breaks, theirs.breaks))
            return slides[-1]

        panel = sewn(top.panel, above.panel, "top", "bottom", self.seam, nested)  # the top stays where it lies
        return Level(panel, top.column, top.place, (above.highest[0], above.highest[1] + slides[-1]))

    def _slide(self, top, above, mine, theirs):
        """How far rows slide along those below, by the seams on both edges that lie nearest to one column line.

        A plain strip has no seam to nest with, and a seam half a sash away belongs to another line: then the lines
        tell.
        """
        best, (highest, at) = None, top.highest
        for column in range(min(highest, above.column), max(highest, above.column) + 2):
            here = at + (column - highest) * self.pitch
            there = above.place + (column - above.column) * self.pitch
            off, pair = _nearest(mine, theirs, here, there)
            if best is None or off < best[0] - self.seam / 4:
                best = off, pair, here - there
        off, pair, slide = best
        if pair is None or off > (self.sash_width or self.width) / 2:
            return slide
        return mine[pair[0]] - theirs[pair[1]]


def _ends(row):
    """The ends of a row at which a triangle stands, and where its right angle lies."""
    return [(end, form) for end, form in (("left", row.left), ("right", row.right)) if form]


def _nearest(mine, theirs, here, there):
    """The pair of seams nearest to two places that belong together, and how far off the worse of them lies."""
    if len(mine) == 0 or len(theirs) == 0:
        return np.inf, None
    i, j = int(np.argmin(np.abs(mine - here))), int(np.argmin(np.abs(theirs - there)))
    return max(abs(mine[i] - here), abs(theirs[j] - there)), (i, j)
