"""How a quilt top is put together: its rows, numbered and apart, with the way each is pressed; then its borders."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from math import sqrt
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from ..draw import Picture, Shapes, Words, turned
from ..making import make
from ..making.placed import AT, Placed, placed, polygons
from ..making.row import Row, several
from ..pattern.names import SETTING, SIDE, called, centre, edge_name, edge_names
from ..settings.plan import row_by_row
from .boxes import drawing, heading, in_columns, listed, words
from .buying_and_cutting import exactly
from .drawn import arrows, pressed
from .numbered import numbered

if TYPE_CHECKING:
    from ..draw.picture import Layer
    from ..draw.typeset import Box
    from ..making import Made
    from ..making.layout import Layout
    from ..making.row import LevelRow
    from ..review.reading import Reading
    from .drawn import Look
    from .paper import Paper

APART = 0.3  # of a block: between rows that are shown apart
MOST_DRAWN = 6000  # patches: of larger quilts the blocks are drawn as one
DIAGONAL = (
    "The rows run diagonally. Lay everything out on the floor as in the picture before you sew, row 1 in the upper "
    "left corner."
)


class Ways(NamedTuple):
    """How rows, or columns, are told of: laid out, sewn each, and joined."""

    level: str
    sewing: str
    join: str


ROWS = Ways(
    "Lay everything out on the floor as in the picture before you sew, row 1 at the top.",
    "Sew each row from left to right. ",
    "Sew the rows to each other in order, seam intersections matched and pinned; press these seams all one way.",
)
COLUMNS = Ways(
    "Lay everything out on the floor as in the picture before you sew, column 1 on the left.",
    "Sew each column from top to bottom. ",
    "Sew the columns to each other in order, pinned; press these seams all one way.",
)
CORNERS = (
    "Sew on the four corner triangles last, each by its long edge, centred: fold both in half to find their middles. "
    "Press towards the triangle."
)
SIDES = (
    "A side triangle goes on by a short edge, its square corner level with the long edge of the row, as in the "
    "picture; its tip stands out beyond the row's other edge. Press, then cut the tip off level with the row."
)
FLOATING = (
    "The blocks float {by} inside the edge: the side and corner triangles are cut larger for it. Align them at their "
    "right angle, and trim their tips level with the row."
)
BIAS_LEGS = (
    "The short edges of side triangles that are cut twice are bias, the long one, the outside of the quilt, is "
    "straight grain: pin, do not pull, and lay the triangle below when you sew."
)
SLANTING = (
    "The long sashing strips stand out at both ends: centre each on its row, and trim its ends, at 45 degrees, when "
    "you square up the top."
)
SQUARE_UP = "Square up the top: trim it straight, {seam} outside the outermost seam intersections all round."


class Top(NamedTuple):
    """What a quilt without its borders is drawn from: its layout and its placed things."""

    lies: Layout
    things: list[Placed]


def assembly(reading: Reading, paper: Paper, look: Look) -> Iterator[Box]:
    """The boxes of the top: its rows in a picture and in words, and in which order they are sewn."""
    sheet, made = reading.sheet, reading.made
    if centre(sheet) != SETTING and not _uses_setting(made):
        return
    top = _top(made)
    lies = made.lies
    if lies is None or len(lies.rows) < 2 and lies.across < 2:
        return
    ways = COLUMNS if lies.upright else ROWS
    yield heading(paper, "The quilt top")
    yield from words(paper, DIAGONAL if lies.on_point else ways.level, stays=True)
    if top is not None:
        yield drawing(paper, rows_picture(top, look), 0.6 * paper.depth, key=False)
    yield from words(paper, _what_is_what(reading))
    yield from in_columns(paper, [row_words(made, row) for row in lies.rows])
    said = [ways.sewing + lies.pressing]
    if sheet.setting.floating:
        said.append(FLOATING.format(by=exactly(reading, sheet.setting.floating)))
    if sheet.setting.sides is not None:
        said.append(SIDES)
    if sheet.setting.sides is not None and sheet.setting.sides.how == "plain":
        said.append(BIAS_LEGS)
    said += row_by_row(lies)
    said.append(ways.join)
    if lies.strips and lies.on_point and not lies.whole:
        said.append(SLANTING)
    if lies.on_point:
        said += [CORNERS, SQUARE_UP.format(seam=exactly(reading, sheet.sewing_seam + sheet.setting.floating))]
    if made.centre is not None:
        said.append(f"The top now measures {reading.ruler.sizes(made.centre.size)} with its seam allowance.")
    yield from listed(paper, said, numbered=True)


def _uses_setting(made):
    return made.bill[SETTING] > 0


def _top(made):
    """What can be drawn of the quilt without its borders; None where its blocks do not add up, or steps make it."""
    if not made.adds_up or made.lies is None or made.sheet.step:
        return None
    return Top(made.lies, placed(make(made.sheet.model_copy(update={"border": []}))))


# -- words -------------------------------------------------------------------------------------------------------------


def _what_is_what(reading):
    """The names of what stands in the rows."""
    sheet, setting = reading.sheet, reading.sheet.setting
    same = [("block", setting.block), ("alternate block", setting.alternate)]
    if setting.sashing is not None:
        strips = setting.sashing.strip or ()
        same += [("sash", setting.sashing.part), ("cornerstone", setting.sashing.cornerstone)]
        same += [("cornerstone triangle", setting.sashing.edge_cornerstone)] + [
            ("sashing strip", one) for one in strips
        ]
    for kind, piece in (("side triangle", setting.sides), ("corner triangle", setting.corners)):
        if piece is not None:
            same.append((kind, piece.part))
            same.append(("triangle tip", piece.tip))
    said = [f"{word}: {numbered(sheet, name)}" for word, name in same if name is not None]
    return "In the rows, " + "; ".join(dict.fromkeys(said)) + "." if said else ""


def row_words(made: Made, row: Row | LevelRow) -> str:
    """A row in words, its end triangles by the edge they belong to where these differ, and which way it is pressed.

    >>> from quiltmath import settings
    >>> plan = settings.on_point(across=2, down=3, block=9)
    >>> row_words(plan.made, plan.rows()[1])
    'Row 2: side triangle, 3 blocks; press right'
    """
    parts = list(row.parts)
    if isinstance(row, Row) and row.ends == "side triangle" and len(edge_names(made.sheet, SIDE)) > 1:
        for place, end, form in ((0, "left", row.left), (-1, "right", row.right)):
            if form:
                parts[place] = called(edge_name(made.sheet, SIDE, AT[end, form]))
    if parts == ["sashing strip"] and made.lies is not None and made.sheet.setting.sashing is not None:
        parts = [made.lies.named_strips(made.sheet.setting.sashing.strip or ())[row.number - 1][0]]
    pressed = "" if made.lies is None else made.lies.turn_of(row)
    return f"{row.title}: {', '.join(_runs(parts))}{pressed}"


def _runs(parts):
    """Parts in words, runs of one and of two by turns taken together."""
    start = 0
    while start < len(parts):
        one, two = parts[start], parts[start + 1] if start + 1 < len(parts) else None
        same = _reach(parts, start, (one,))
        turns = _reach(parts, start, (one, two))
        if same == 1 and turns > 3:
            yield f"{several(-(-turns // 2), one)} and {several(turns // 2, two)} by turns"
            start += turns
        else:
            yield several(same, one)
            start += same


def _reach(parts, start, pattern):
    """How many parts from here on repeat a pattern."""
    count = 0
    while start + count < len(parts) and parts[start + count] == pattern[count % len(pattern)]:
        count += 1
    return count


# -- the picture of the rows -------------------------------------------------------------------------------------------


def rows_picture(top: Top, look: Look) -> Picture:
    """The top with its rows apart, each with its number and, where no sashing says otherwise, an arrow for the iron."""
    spread = _Spread(top)
    many = sum(len(one.patches) * len(one.places) for one in top.things) > MOST_DRAWN
    things = map(_as_one, top.things) if many else top.things
    found: dict[str, list[np.ndarray]] = {}
    for part, fabric, corners in polygons(things):
        found.setdefault(fabric, []).append(corners + spread.moved(part, corners.mean(axis=0)))
    layers: list[Layer] = [Shapes(shapes, look.fabrics[fabric], outline="seam") for fabric, shapes in found.items()]
    spots = []
    rows: list[Row | LevelRow] = list(top.lies.rows)
    for number, row in enumerate(rows):
        start, end = spread.ends(number)
        name = str(row.number) if row.kind == "blocks" else f"s{row.number}"
        layers.append(Words(tuple(start), name, bold=row.kind == "blocks"))
        if not top.lies.sashed and len(row.parts) > 1:
            spots.append((tuple(end), pressed(number) + spread.angle - (90.0 if spread.upright else 0.0)))
    if spots:
        layers.append(arrows(spots, 0.45 * spread.pitch))
    said = "; ".join(map(str, rows))
    return Picture(layers, f"The rows of the top apart. {said}.")


def _as_one(thing):
    """A thing that fills a rectangle as that one, in the fabric it shows most often."""
    corners = [np.array(shape) for _, shape in thing.patches]
    (left, low), (right, high) = np.concatenate(corners).min(axis=0), np.concatenate(corners).max(axis=0)
    if len(corners) < 2 or sum(map(_area, corners)) < 0.99 * (right - left) * (high - low):
        return thing
    fabric = Counter(fabric for fabric, _ in thing.patches).most_common(1)[0][0]
    return thing._replace(patches=[(fabric, [(left, low), (right, low), (right, high), (left, high)])])


def _area(corners):
    x, y = corners.T
    return abs(x @ np.roll(y, 1) - y @ np.roll(x, 1)) / 2


class _Spread:
    """How far each thing of a top moves so that its rows lie apart."""

    def __init__(self, top):
        self.lies, self.on_point = top.lies, top.lies.on_point
        self.pitch, self.gap = float(top.lies.pitch), APART * float(top.lies.cell)
        self.angle, self.upright = 45.0 if self.on_point else 0.0, top.lies.upright
        self.rows = top.lies.rows
        self.bands = self._bands()
        edge = float(top.lies.floating) + (float(top.lies.sash) / sqrt(2) if top.lies.whole else 0.0)
        self.shift = np.array((edge, edge)) if self.on_point else np.zeros(2)

    def _bands(self):
        """The lower and upper end of each row as it lies level; the right and left one of each column."""
        if self.on_point:
            return [(float(row.y), float(row.y + row.height)) for row in self.rows]
        at, found = 0.0 if self.upright else float(self.lies.size[1]), []
        for thick in map(float, self.lies.thickness):
            found.append((at, at + thick) if self.upright else (at - thick, at))
            at += thick if self.upright else -thick
        return found

    def level(self, spot):
        """Where a spot of the quilt lies while its rows lie level."""
        return turned([np.asarray(spot) - self.shift], -self.angle)[0]

    def hung(self, spot):
        """Where a spot of the level rows lies in the quilt."""
        return turned([spot], self.angle)[0] + self.shift

    def moved(self, part, middle):
        """How far a thing with this middle moves."""
        x, y = self.level(middle)
        across = x if self.upright else y
        row = min(range(len(self.bands)), key=lambda number: self._off(number, across))
        move = np.array((row * self.gap, 0.0) if self.upright else (0.0, -row * self.gap))
        if part == "corner triangle":
            low, high = self.bands[-1][0], self.bands[0][1]
            left, right = (self._reach()[side] for side in (0, 1))
            out = {"top": (0, 1), "bottom": (0, -1), "left": (-1, 0), "right": (1, 0)}
            past = {"top": y - high, "bottom": low - y, "left": left - x, "right": x - right}
            move = move + np.array(out[max(past, key=past.__getitem__)]) * self.gap
        return turned([move], self.angle)[0]

    def _off(self, number, y):
        low, high = self.bands[number]
        return max(low - y, y - high, 0.0)

    def _reach(self):
        """Where the rows of squares begin and end at the furthest."""
        rows = self.lies.rows_of_blocks
        return min(float(row.x) for row in rows), max(float(row.end) for row in rows)

    def ends(self, number):
        """Where the number and the arrow of a row stand, outside its two ends."""
        row, (low, high) = self.rows[number], self.bands[number]
        if self.upright:
            x, tall = (low + high) / 2 + number * self.gap, float(self.lies.size[1])
            return np.array((x, tall + 0.3 * self.pitch)), np.array((x, -0.4 * self.pitch))
        y = (low + high) / 2 - number * self.gap
        if not self.on_point:
            wide = float(self.lies.size[0])
            return np.array((-0.3 * self.pitch, y)), np.array((wide + 0.4 * self.pitch, y))
        leg = float(self.lies.leg) if row.kind == "blocks" else float(self.lies.sash)
        more = float(self.lies.floating) * sqrt(2)
        side, corner = 0.55 * leg + more, float(self.lies.corner_side) / 2 + self.gap + more  # how far these stand out
        left = float(row.x) - (side if row.left else corner) - 0.3 * self.pitch
        right = float(row.end) + (side if row.right else corner) + 0.4 * self.pitch
        return self.hung((left, y)), self.hung((right, y))
