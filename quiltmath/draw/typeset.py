"""Words and boxes set on pages of paper by matplotlib: how wide a text is, where it is wrapped, what goes over to the
next page. Lengths here are px, 96 to the inch, downwards from the top of the page."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import IO, Any

from matplotlib import rc_context
from matplotlib.backends.backend_pdf import PdfPages
from matplotlib.figure import Figure
from matplotlib.font_manager import FontProperties, findfont, get_font
from matplotlib.patches import Rectangle
from matplotlib.text import Text

from .page import KEY_SIZE, KEY_SWATCH, Page, lay_out
from .picture import Drawn
from .printed import DRAWING, PX_PER_INCH, paint
from .roles import BLACK
from .written import whole_words

FONT = "DejaVu Sans"  # comes with matplotlib, so every page is set alike
LINE = 1.32
BODY, SMALL = 10.5, 9.0  # points
GREY = "#999999"  # of a thin line


class PaperPage:
    """One page of paper, `width` x `height` px: words and pictures at px from its top left corner; `left` is where its
    boxes begin.

    >>> page = PaperPage(816, 1056, left=48)
    >>> page.text(48, 100, "Lap quilt", 14).get_text()
    'Lap quilt'
    >>> page.figure.get_size_inches().tolist()
    [8.5, 11.0]
    """

    def __init__(self, width: float, height: float, left: float = 0.0) -> None:
        self.width, self.height, self.left = width, height, left
        self.figure = Figure(figsize=(width / PX_PER_INCH, height / PX_PER_INCH), facecolor="white")
        self.axes = self.figure.add_axes((0, 0, 1, 1))
        self.axes.set(xlim=(0, width), ylim=(height, 0))
        self.axes.axis("off")
        self.axes.set_zorder(1)  # words and lines of the page lie above its pictures

    def text(
        self,
        x: float,
        baseline: float,
        text: str,
        points: float,
        bold: bool = False,
        align: str = "left",
        turned: float = 0.0,
        colour: str = BLACK,
    ) -> Text:
        """A line of text that x is the "left", "center" or "right" of, turned by so many degrees."""
        return self.axes.text(
            x,
            baseline,
            text,
            size=points,
            family=FONT,
            weight="bold" if bold else "normal",
            color=colour,
            ha=align,
            va="baseline",
            rotation=turned,
            rotation_mode="anchor",
            parse_math=False,
            usetex=False,
        )

    def rule(self, x: float, y: float, wide: float, thick: float = 1.0, colour: str = BLACK) -> None:
        """A filled bar, its top left corner at (x, y)."""
        self.axes.add_artist(Rectangle((x, y), wide, thick, facecolor=colour, linewidth=0))

    def box(
        self, x: float, y: float, wide: float, high: float, thick: float, colour: str = BLACK, dashed: bool = False
    ) -> None:
        """The outline of a rectangle."""
        self.axes.add_artist(
            Rectangle(
                (x, y),
                wide,
                high,
                fill=False,
                edgecolor=colour,
                linewidth=thick * 0.75,
                linestyle=(0, (4, 3)) if dashed else "solid",
            )
        )

    def picture(self, x: float, y: float, laid: Page) -> None:
        """A picture that has been laid out."""
        axes = self.figure.add_axes(
            (x / self.width, 1 - (y + laid.height) / self.height, laid.width / self.width, laid.height / self.height)
        )
        paint(axes, laid)


def save_pages(file: IO[bytes], figures: Iterable[Figure], title: str) -> None:
    """Write figures, each of the size of its page, as one PDF to an open binary file."""
    about = {"Title": title, "Creator": "quiltmath", "CreationDate": None}
    # TrueType, so that a reader can search and copy the words; matplotlib takes the kind of font from its settings only
    with DRAWING, rc_context({"pdf.fonttype": 42}), PdfPages(file, metadata=about) as pdf:
        for one in figures:
            pdf.savefig(one)


# -- text ----------------------------------------------------------------------------------------------------------


@lru_cache(maxsize=4)
def _font(bold):
    return get_font(findfont(FontProperties(family=FONT, weight="bold" if bold else "normal")))


@lru_cache(maxsize=20_000)
def wide(text: str, points: float, bold: bool = False) -> float:
    """How wide a text is, in px."""
    with DRAWING:  # a font is no more for two threads at once than a figure is
        font = _font(bold)
        font.set_size(points, PX_PER_INCH)
        font.set_text(text, 0.0)
        return font.get_width_height()[0] / 64


def _step(sign, points, bold):
    """How far the sign after this one stands from it, in px."""
    return wide(sign + sign, points, bold) - wide(sign, points, bold)


def _fits(text, room, points, bold):
    """Whether a text is no wider than `room` px: its signs tell it one by one, and only where that is near is it
    measured as a whole, which takes a hundred times as long."""
    about = sum(_step(sign, points, bold) for sign in text)
    off = about / 20 + 1.5 * points  # at most: signs that stand closer together, marks over others
    return about < room if abs(about - room) > off else wide(text, points, bold) <= room


def shown(text: str) -> str:
    """The text with a "?" for each sign that the font of the page does not have.

    >>> shown("3 7/8 \\u2260 4"), shown("\\U0001f9f5")
    ('3 7/8 \\u2260 4', '?')
    """
    with DRAWING:
        return "".join(char if _font(False).get_char_index(ord(char)) else "?" for char in text)


def _fitting(text, room, points, bold, end=""):
    """How many signs of a text fit into `room` px together with an `end`."""

    def width(count):
        return wide(text[:count] + end, points, bold)

    most = 32
    while most < len(text) and width(most) <= room:  # what is far too wide is never measured whole
        most *= 2
    return bisect_right(range(1, min(most, len(text)) + 1), room, key=width)


def cut_short(text: str, room: float, points: float, bold: bool = False) -> str:
    """The text as far as `room` px go, "…" for the rest.

    >>> cut_short("A quilt for a long bench", 90, 10)
    'A quilt for …'
    """
    text = shown(text[:1000])  # no line is so long
    return text if _fits(text, room, points, bold) else text[: _fitting(text, room, points, bold, "…")] + "…"


def wrapped(text: str, room: float, points: float, bold: bool = False) -> list[str]:
    """The text in lines no wider than `room` px, broken inside a word or a number only where that alone is
    too wide."""
    lines = [""]
    for word in whole_words(shown(text)):
        longer = f"{lines[-1]} {word}" if lines[-1] else word
        if _fits(longer, room, points, bold):
            lines[-1] = longer
            continue
        if lines[-1]:
            lines.append("")
        while not _fits(word, room, points, bold) and (fits := max(_fitting(word, room, points, bold), 1)) < len(word):
            lines[-1], word = word[:fits], word[fits:]
            lines.append("")
        lines[-1] = word
    return lines


def line_step(points: float) -> float:
    """From one line of text to the next, in px."""
    return points * PX_PER_INCH / 72 * LINE


# -- boxes ---------------------------------------------------------------------------------------------------------


@dataclass
class Box:
    """Something that is not broken over two pages: its height, how it is drawn at (page, top), whether it stays with
    the next, the box set above it where it begins a page, and whether it is but room between others."""

    height: float
    draw: Callable[[PaperPage, float], None]
    stays: bool = False
    above: Box | None = None
    empty: bool = False


Piece = tuple[float, Callable[[Any, float], None]]  # the height of something, and how it is drawn at (page, top)


def paragraph(text: str, room: float, x: float = 0.0, points: float = BODY, bold: bool = False) -> Piece:
    """The height of a text wrapped to `room` px, and how to draw it, x px right of where the boxes of a page begin."""
    lines = wrapped(text, room, points, bold)

    def draw(page, top):
        for row, line in enumerate(lines):
            page.text(page.left + x, top + line_step(points) * (row + 0.78), line, points, bold)

    return line_step(points) * len(lines), draw


def stacked(pieces: Sequence[Piece], gap: float = 0.0) -> Piece:
    """Pieces, one below the other, as one."""

    def draw(page, top):
        for high, one in pieces:
            one(page, top)
            top += high + gap

    return sum(high for high, _ in pieces) + gap * len(pieces), draw


def table_row(
    cells: Sequence[str],
    columns: Sequence[float],
    room: float,
    bold: bool = False,
    thick: float = 1.0,
    above: Box | None = None,
    points: float = SMALL + 0.5,
    bold_end: bool = False,
    air: float = 3.0,
) -> Box:
    """A row of a table with a line below it, each column a share of `room` px; heads have a `thick` one, the last
    cell may be bold alone, and `air` px are left above and below the words."""
    starts = [sum(columns[:place]) * room for place in range(len(cells))]
    pieces = [
        paragraph(cell, share * room - 10, start, points, bold or (bold_end and place == len(cells) - 1))
        for place, (cell, start, share) in enumerate(zip(cells, starts, columns))
    ]
    high = max(piece[0] for piece in pieces)

    def draw(page, top):
        for _, one in pieces:
            one(page, top + air)
        page.rule(page.left, top + high + 2 * air - 1, room, thick, BLACK if thick > 1 else GREY)

    return Box(high + 2 * air, draw, above=above)


def space(height: float) -> Box:
    """Room between two boxes."""
    return Box(height, lambda page, top: None, empty=True)


def laid_out(picture: Drawn, width: float, height: float | None = None, key: bool = True) -> Page:
    """A picture laid out, its key in signs that the font has and no wider than the page."""
    laid = lay_out(picture, width, height, key=key)
    rows = (
        (x, y, role, cut_short(label, laid.width - x - KEY_SWATCH - 20, KEY_SIZE)) for x, y, role, label in laid.key
    )
    return replace(laid, key=tuple(rows))


def by_page(boxes: Iterable[Box], room: float) -> Iterator[list[Box]]:
    """The boxes by page, each page at most `room` px high: a box that stays with the next goes over with it."""
    page: list[Box] = []
    for group in _together(boxes):
        if page and _high(page) + _high(group) > room:
            yield page
            page = [group[0].above] if group[0].above is not None else []
        if page or not group[0].empty:
            page = page + group
    if page:
        yield page


def _high(boxes):
    return sum(box.height for box in boxes)


def _together(boxes):
    group = []
    for box in boxes:
        group.append(box)
        if not box.stays:
            yield group
            group = []
    if group:
        yield group
