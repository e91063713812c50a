"""Where everything lands on the page: one scale for all pictures, room for text, the key. Lengths here are
px.

96 px make an inch and 4/3 px a point, as on the web; both renderers draw what this module lays out.
"""

from dataclasses import dataclass, replace

import numpy as np

from .picture import Board, CloseUp, Drawn, Lines, Marks, Measure, Picture, Points, Repeat, Shapes, Words, turned
from .roles import role
from .written import whole_words

PX_PER_POINT = 4 / 3
MARGIN = 12
GAP = 28
MARK, RING, CLEAR = 10, 7, 4  # how far a mark reaches from its point, and how much round the point it leaves free
KEY_ROW, KEY_SWATCH, KEY_GAP, KEY_SIZE = 26, 26, 22, 12
TITLE_SIZE, CAPTION_SIZE = 14, 12
LINE_HEIGHT = 1.3


@dataclass(frozen=True, eq=False)
class Cell:
    """One picture on the page: a point (x, y) of cloth lands at (left + scale·x, top - scale·y)."""

    picture: Picture
    scale: float
    left: float
    top: float

    def px(self, points: Points) -> np.ndarray:
        """These points of cloth, in px of the page."""
        return np.asarray(points, float) * (self.scale, -self.scale) + (self.left, self.top)


@dataclass(frozen=True, eq=False)
class Page:
    """A laid-out page: cells, words already in px, and the key as (x, y, role name, label), one a swatch; of several
    with one label the last has it."""

    width: float
    height: float
    alt: str
    cells: tuple[Cell, ...]
    words: tuple[Words, ...]
    key: tuple[tuple[float, float, str, str], ...]


def lay_out(
    picture: Drawn, width: float = 700, height: float | None = None, scale: float | None = None, key: bool = True
) -> Page:
    """The page for a Picture or Board: as large as fits `width` and `height` px, or at `scale` px to the
    inch.

    >>> cloth = Shapes([[(0, 0), (3, 0), (3, 3), (0, 3)]], "blue", "navy")
    >>> square = Picture([cloth], alt="A square of 3 in.")
    >>> page = lay_out(square, width=300)
    >>> page.cells[0].scale, page.key[0][2:]
    (92.0, ('blue', 'navy'))
    >>> lay_out(square, scale=96).width                    # true size
    312.0
    """
    board = picture if isinstance(picture, Board) else Board((picture,), picture.alt, 1)
    sizes = [_Size(one) for one in board.pictures]
    entries = _key_entries(board) if key else []
    room = float(width) - 2 * MARGIN if scale is None else None
    heading = _title_words(in_lines(board.title, room, 16, bold=True), 16) if board.title else None
    above = MARGIN + (_text_height(heading) + 8 if heading else 0)

    def extent(at):
        columns, rows = _grid(sizes, board.columns, at)
        return (
            columns,
            rows,
            sum(columns) + GAP * (len(columns) - 1) + 2 * MARGIN,
            above + sum(rows) + GAP * (len(rows) - 1) + MARGIN,
        )

    key_high = _key_height(entries, width)

    def excess(at):
        *_, across, down = extent(at)
        return max(across - width, -1e9 if height is None else down + key_high - height)

    chosen = _largest(excess, width, height) if scale is None else float(scale)
    columns, rows, across, down = extent(chosen)
    full = max(across, float(width)) if scale is None else across
    if heading:
        full = max(full, _text_width(heading) + 2 * MARGIN)
    cells, words = _place(sizes, board.columns, chosen, columns, rows, (full - across) / 2, above)
    if heading:
        words.insert(0, _moved_words(heading, full / 2, MARGIN))
    rows_of_key = _place_key(entries, full, down)
    return Page(full, down + _key_height(entries, full), board.alt, tuple(cells), tuple(words), tuple(rows_of_key))


def roomiest(board: Board, width: float = 700, height: float | None = None) -> Board:
    """The same Board with as many columns as let its pictures be largest on a page of that size.

    >>> tall = Picture([Shapes([[(0, 0), (1, 0), (1, 9), (0, 9)]], "blue")], alt="A strip of 1 by 9 in.")
    >>> roomiest(Board((tall, tall, tall, tall), "Four strips of 9 in.", 1), 400, 400).columns
    4
    """

    def scale(columns):
        try:
            return lay_out(replace(board, columns=columns), width, height).cells[0].scale
        except ValueError:
            return 0.0

    return replace(board, columns=max(range(1, len(board.pictures) + 1), key=scale))


def in_lines(text: str, room: float | None, size: float = 12, bold: bool = False) -> str:
    """The text in lines that fit `room` px, broken between its words and never within a number; as it stands
    without a room.

    >>> in_lines("A quilt for a bench, 9 1/2 in", 80).split("\\n")
    ['A quilt', 'for a', 'bench,', '9 1/2 in']
    """
    if room is None:
        return text
    lines: list[str] = []
    for line in text.split("\n"):
        lines.append("")
        for word in whole_words(line):
            longer = f"{lines[-1]} {word}".lstrip()
            if lines[-1] and _text_width(Words((0, 0), longer, size=size, bold=bold)) > room:
                lines.append(word)
            else:
                lines[-1] = longer
    return "\n".join(lines)


def drawn_size(picture: Picture) -> np.ndarray:
    """How wide and how high a picture is without its words, in inches.

    >>> drawn_size(Picture([Shapes([[(0, 0), (9, 0), (9, 3)]], "blue"), Words((9, 9), "far")], alt="Half a strip."))
    array([9., 3.])
    """
    points, _ = _reach(picture.layers)
    return np.ptp(points, axis=0) if len(points) else np.zeros(2)


def text_box(words: Words) -> tuple[float, float, float, float]:
    """How far a text reaches from its spot, in px: left, right, up, down."""
    wide, high = _text_width(words), _text_height(words)
    left = {"start": 0, "middle": wide / 2, "end": wide}[words.anchor]
    up = {"below": -4, "middle": high / 2, "above": high + 4}[words.side]
    return left, wide - left, up, high - up


def measure_parts(px_start: Points, px_end: Points, measure: Measure) -> tuple[tuple, list, np.ndarray]:
    """A dimension line in px: the moved line, its two extension lines, and the spot of its text."""
    start, end = np.asarray(px_start, float), np.asarray(px_end, float)
    along = (end - start) / (np.hypot(*(end - start)) or 1.0)
    left = np.array([along[1], -along[0]])  # y runs downwards on the page
    out = np.sign(measure.away) or 1.0
    first, last = start + measure.away * left, end + measure.away * left
    reach = left * out
    ticks = [(start + 3 * reach, first + 5 * reach), (end + 3 * reach, last + 5 * reach)]
    wide, high = _text_width(measure_words(measure)), _text_height(measure_words(measure))
    clear = 5 + abs(reach[0]) * wide / 2 + abs(reach[1]) * high / 2
    return (first, last), ticks, (first + last) / 2 + clear * reach


def mark_strokes(spot: Points, mark: str) -> list[list[tuple[float, float]]]:
    """The strokes of a "cross" or a "ring" round a spot in px, each as its points; the spot itself stays in sight.

    >>> [len(stroke) for stroke in mark_strokes((0, 0), "cross")]
    [2, 2, 2, 2]
    """
    x, y = (float(one) for one in spot)
    turns = np.arange(4) * np.pi / 2 + np.pi / 4
    if mark == "cross":
        return [[(x + reach * np.cos(turn), y + reach * np.sin(turn)) for reach in (CLEAR, MARK)] for turn in turns]
    round_ = np.linspace(0, 2 * np.pi, 25)
    return [[(x + RING * np.cos(turn), y + RING * np.sin(turn)) for turn in round_]]


def measure_words(measure: Measure) -> Words:
    """The text of a dimension line, as it is set: the spot is `measure_parts`' to say."""
    return Words((0, 0), measure.text, colour=measure.colour)


def _text_width(words):
    def wide(char):
        if char in " .,;:'il|!()[]/jtfrI-′″":
            return 0.40
        if char in "mwMW@%—":
            return 0.95
        return 0.70 if char.isupper() else 0.64

    em = words.size * PX_PER_POINT * (1.1 if words.bold else 1)
    return max(sum(map(wide, line)) for line in words.text.split("\n")) * em


def _text_height(words):
    return len(words.text.split("\n")) * words.size * PX_PER_POINT * LINE_HEIGHT


def _title_words(text, size):
    return Words((0, 0), text, side="below", size=size, bold=True)


def _moved_words(words, x, y):
    return Words((x, y), words.text, words.anchor, words.side, words.size, words.colour, words.bold)


class _Size:
    """How large a picture is at any scale: its corner points in inches, and px that stick out of some of
    them."""

    def __init__(self, picture):
        self.picture = picture
        points, pads = _reach(picture.layers)
        points = np.concatenate([points, np.asarray(picture.room, float).reshape(-1, 2)])
        if not len(points) and not pads:
            raise ValueError("a picture needs something in it; got no layers with points")
        box = np.array([points.min(0), points.max(0)]) if len(points) else np.empty((0, 2))
        self.middle = float(box[:, 0].mean()) if len(box) else float(np.mean([pad[0] for pad in pads]))
        self.pads = np.array([(x, y, 0, 0, 0, 0) for x, y in box] + pads, float)
        self.title = _title_words(picture.title, TITLE_SIZE) if picture.title else None
        self.caption = Words((0, 0), picture.caption, side="below", size=CAPTION_SIZE) if picture.caption else None
        self.above = _text_height(self.title) + 10 if self.title else 0
        self.below = _text_height(self.caption) + 8 if self.caption else 0
        self.least = max([0] + [_text_width(words) for words in (self.title, self.caption) if words])

    def span(self, scale):
        x, y, left, right, up, down = self.pads.T
        ends = (
            (scale * x - left).min(),
            (scale * x + right).max(),
            (scale * y - down).min(),
            (scale * y + up).max(),
        )
        return [float(end) for end in ends]

    def size(self, scale):
        x0, x1, y0, y1 = self.span(scale)
        return max(x1 - x0, self.least), y1 - y0 + self.above


def _reach(layers):
    points, pads = [np.empty((0, 2))], []
    for layer in layers:
        if isinstance(layer, (Shapes, Lines)):
            points.append(layer.points)
        elif isinstance(layer, Marks):
            pads += [(x, y, MARK, MARK, MARK, MARK) for x, y in layer.points]
        elif isinstance(layer, Repeat):
            near = np.concatenate([part.points for part in layer.layers])
            for turn in set(layer.places[:, 2].tolist()):
                spots, copy = layer.places[layer.places[:, 2] == turn, :2], turned(near, turn)
                points += [spots + copy.min(0), spots + copy.max(0)]
        elif isinstance(layer, CloseUp):
            points.append(layer.corners)
        elif isinstance(layer, Words):
            pads.append((*map(float, layer.at), *text_box(layer)))
        else:
            pads += _measure_pads(layer)
    return np.concatenate(points), pads


def _measure_pads(measure):
    start, end = np.array(measure.start, float), np.array(measure.end, float)
    flat_start, flat_end = start * (1, -1), end * (1, -1)
    (first, last), ticks, spot = measure_parts(flat_start, flat_end, measure)
    rows = [(*start, *_pad(first - flat_start)), (*end, *_pad(last - flat_end))]
    rows += [
        (*at, *_pad(tick[1] - flat)) for at, flat, tick in ((start, flat_start, ticks[0]), (end, flat_end, ticks[1]))
    ]
    middle, words = (start + end) / 2, measure_words(measure)
    x, y = spot - (flat_start + flat_end) / 2
    left, right, up, down = text_box(words)
    rows.append((*middle, left - x, right + x, up - y, down + y))
    return rows


def _pad(step):
    x, y = step
    return max(0, -x), max(0, x), max(0, -y), max(0, y)


def _grid(sizes, columns, scale):
    boxes = [size.size(scale) for size in sizes]
    across = [max(box[0] for box in boxes[column::columns]) for column in range(min(columns, len(boxes)))]
    rows = [slice(first, first + columns) for first in range(0, len(boxes), columns)]
    down = [max(box[1] for box in boxes[row]) + max(size.below for size in sizes[row]) for row in rows]
    return across, down


def _largest(excess, width, height):
    """The scale at which nothing sticks out any more: secants from above, as the excess is convex in the
    scale."""
    before, scale = 1e4, 5e3
    over_before, over = excess(before), excess(scale)
    while over > 1e-9 and before - scale > 1e-12 * scale:
        slope = (over_before - over) / (before - scale)
        if slope <= 0 or scale - over / slope < 1e-3:
            room = f"{width:g} px" + (f" by {height:g} px" if height else "")
            raise ValueError(
                f"the words of this picture alone need more room than the {room} it may take: "
                "give it more room, fewer columns or shorter titles"
            )
        before, scale = scale, scale - over / slope
        over_before, over = over, excess(scale)
    return float(f"{scale:.9g}")


def _place(sizes, columns, scale, across, down, left, top):
    cells, words = [], []
    for index, size in enumerate(sizes):
        row, column = divmod(index, columns)
        x = left + MARGIN + sum(across[:column]) + GAP * column + across[column] / 2
        y = top + sum(down[:row]) + GAP * row
        low = y + down[row] - max(one.below for one in sizes[row * columns : (row + 1) * columns])
        x0, x1, y0, y1 = size.span(scale)
        cells.append(Cell(size.picture, scale, x - (x0 + x1) / 2, low + y0))
        middle, room = cells[-1].left + scale * size.middle, across[column] / 2
        if size.title:
            words.append(
                _moved_words(
                    size.title,
                    _within(middle, x, room - _text_width(size.title) / 2),
                    low - (y1 - y0) - size.above,
                )
            )
        if size.caption:
            words.append(_moved_words(size.caption, _within(middle, x, room - _text_width(size.caption) / 2), low + 4))
    return cells, words


def _within(wished, middle, room):
    """The wished place, or the nearest to it that lies no further than `room` from the middle."""
    return min(max(wished, middle - max(room, 0)), middle + max(room, 0))


def _key_entries(board):
    """(names of roles, label) for each label, in the order in which they come: a label stands in the key once."""
    entries = {}
    for picture in board.pictures:
        for layer in _flat(picture.layers):
            label = getattr(layer, "label", "")
            if label:
                role(layer.role)
                entries.setdefault(label, {})[layer.role] = None
    return [(tuple(names), label) for label, names in entries.items()]


def _flat(layers):
    for layer in layers:
        yield from _flat(layer.layers) if isinstance(layer, (Repeat, CloseUp)) else (layer,)


def _key_rows(entries, width):
    """The rows of the key, each as its height and (x, names of roles, label): labels wrapped where a row is too short
    for one."""
    rows, x, room = [], width, width - 2 * MARGIN
    for names, label in entries:
        swatches = (KEY_SWATCH + 8) * len(names)
        words = Words((0, 0), in_lines(label, room - swatches, KEY_SIZE), size=KEY_SIZE)
        wide = swatches + _text_width(words) + KEY_GAP
        if not rows or x + wide - KEY_GAP > room:
            rows.append([0, []])
            x = 0
        rows[-1][0] = max(rows[-1][0], KEY_ROW, _text_height(words) + 5)
        rows[-1][1].append((x, names, words.text))
        x += wide
    return rows


def _key_height(entries, width):
    return sum(high for high, _ in _key_rows(entries, width)) + MARGIN if entries else 0


def _place_key(entries, width, top):
    placed = []
    for high, row in _key_rows(entries, width):
        y = top + (high - KEY_ROW) / 2
        for x, names, label in row:
            for number, name in enumerate(names):
                last = number == len(names) - 1
                placed.append((MARGIN + x + (KEY_SWATCH + 8) * number, y, name, label if last else ""))
        top += high
    return placed
