"""The report as a PDF by matplotlib: the same contents, set on pages as wide as A4 and as high as Letter.

So it prints at full size on either. All lengths here are px, 96 to the inch, downwards from the top of the
page.
"""

from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import lru_cache

from matplotlib.backends.backend_pdf import PdfPages
from matplotlib.figure import Figure
from matplotlib.font_manager import FontProperties, findfont, get_font
from matplotlib.patches import Rectangle

from ...draw import paint
from ...draw.printed import DRAWING
from .contents import Drawing, Heading, Listed, NumberTable, Paragraph, Told, Verdict
from .pictures import laid_out

PX = 96  # to the inch
WIDTH, HEIGHT = 8.27 * PX, 11.0 * PX  # as wide as A4, as high as Letter
MARGIN, FOOT = 56.0, 40.0
ROOM = WIDTH - 2 * MARGIN
NARROW, LOW, HIGH = (
    264.0,
    300.0,
    470.0,
)  # a picture beside a finding; how high it, and one over the page, may be
BODY, SMALL, HEAD, SUB, LARGE = 10.5, 9.0, 14.0, 11.5, 12.5  # points
FONT = "DejaVu Sans"  # comes with matplotlib, so every page is set alike
LINE = 1.32
VERMILLION, BLUE, BLACK, GREY = "#d55e00", "#0072b2", "#000000", "#999999"
COLUMNS = (0.31, 0.20, 0.32, 0.17)  # of the table, as shares of the width


@dataclass
class Box:
    """Something that is not broken over two pages: its height, how it is drawn at (page, top), whether it
    stays with the next, the box set above it where it begins a page, and whether it is but room between
    others."""

    height: float
    draw: Callable
    stays: bool = False
    above: object = None
    empty: bool = False


def save_pdf(contents, title, file):
    """Write the contents of a report as a PDF to an open binary file."""
    about = {"Title": title, "Creator": "quiltmath", "CreationDate": None}
    with DRAWING, PdfPages(file, metadata=about) as pdf:
        for page in pages(contents, title):
            pdf.savefig(page)


def pages(contents, title):
    """The pages of a report, as matplotlib Figures."""
    laid = _pages([box for part in contents for box in _WRITE[type(part)](part)])
    for number, boxes in enumerate(laid, 1):
        page = _Page()
        foot = _cut_short(f"{title} · page {number} of {len(laid)}", ROOM, SMALL)
        page.text(MARGIN, HEIGHT - FOOT + 14, foot, SMALL)
        top = MARGIN
        for box in boxes:
            box.draw(page, top)
            top += box.height
        yield page.figure


class _Page:
    """One page: text and pictures at px from its top left corner."""

    def __init__(self):
        self.figure = Figure(figsize=(WIDTH / PX, HEIGHT / PX), facecolor="white")
        self.axes = self.figure.add_axes((0, 0, 1, 1))
        self.axes.set(xlim=(0, WIDTH), ylim=(HEIGHT, 0))
        self.axes.axis("off")

    def text(self, x, baseline, text, points, bold=False):
        self.axes.text(
            x,
            baseline,
            text,
            size=points,
            family=FONT,
            weight="bold" if bold else "normal",
            color=BLACK,
            ha="left",
            va="baseline",
            parse_math=False,
            usetex=False,
        )

    def rule(self, x, y, wide, thick=1.0, colour=BLACK):
        self.axes.add_artist(Rectangle((x, y), wide, thick, facecolor=colour, linewidth=0))

    def box(self, x, y, wide, high, thick, colour, dashed):
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

    def picture(self, x, y, sheet):
        axes = self.figure.add_axes(
            (x / WIDTH, 1 - (y + sheet.height) / HEIGHT, sheet.width / WIDTH, sheet.height / HEIGHT)
        )
        paint(axes, sheet)


def _pages(boxes):
    """The boxes by page: a box that stays with the next goes over with it."""
    pages, page, room = [], [], HEIGHT - MARGIN - FOOT - 16
    for group in _together(boxes):
        if page and _high(page) + _high(group) > room:
            pages.append(page)
            page = [group[0].above] if group[0].above is not None else []
        if page or not group[0].empty:
            page = page + group
    return [*pages, page] if page else pages


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


# -- text -------------------------------------------------------------------------------------------


@lru_cache(maxsize=4)
def _font(bold):
    return get_font(findfont(FontProperties(family=FONT, weight="bold" if bold else "normal")))


@lru_cache(maxsize=20_000)
def _wide(text, points, bold=False):
    """How wide a text is, in px."""
    font = _font(bold)
    font.set_size(points, PX)
    font.set_text(text, 0.0)
    return font.get_width_height()[0] / 64


def shown(text):
    """The text with a "?" for each sign that the font of the page does not have.

    >>> shown("3 7/8 \\u2260 4"), shown("\\U0001f9f5")
    ('3 7/8 \\u2260 4', '?')
    """
    return "".join(char if _font(False).get_char_index(ord(char)) else "?" for char in text)


def _cut_short(text, room, points):
    text = shown(text)
    while text and _wide(text, points) > room:
        text = text[:-2] + "…"
    return text


def wrapped(text, room, points, bold=False):
    """The text in lines no wider than `room` px, broken inside a word only where the word alone is too
    wide."""
    lines = [""]
    for word in shown(text).split():
        longer = f"{lines[-1]} {word}" if lines[-1] else word
        if _wide(longer, points, bold) <= room:
            lines[-1] = longer
            continue
        if lines[-1]:
            lines.append("")
        while _wide(word, points, bold) > room:
            fits = next(
                count
                for count in range(len(word) - 1, 0, -1)
                if count == 1 or _wide(word[:count], points, bold) <= room
            )
            lines[-1], word = word[:fits], word[fits:]
            lines.append("")
        lines[-1] = word
    return lines


def _step(points):
    return points * PX / 72 * LINE


def _paragraph(text, x=0.0, room=ROOM, points=BODY, bold=False):
    """The height of a wrapped text, and how to draw it at a place."""
    lines = wrapped(text, room, points, bold)

    def draw(page, top):
        for row, line in enumerate(lines):
            page.text(MARGIN + x, top + _step(points) * (row + 0.78), line, points, bold)

    return _step(points) * len(lines), draw


def _stacked(pieces, gap=0.0):
    """Pieces, (height, draw) each, one below the other, as one."""

    def draw(page, top):
        for high, one in pieces:
            one(page, top)
            top += high + gap

    return sum(high for high, _ in pieces) + gap * len(pieces), draw


def _space(height):
    return Box(height, lambda page, top: None, empty=True)


def _laid_out(picture, width, height):
    """A picture laid out, its key in signs that the font has."""
    sheet = laid_out(picture, width, height)
    return replace(sheet, key=tuple((x, y, role, shown(label)) for x, y, role, label in sheet.key))


# -- each thing -------------------------------------------------------------------------------------


def _verdict(part):
    word, colon, rest = part.words.partition(":")
    pad = 26.0
    high, inner = _stacked(
        [
            _paragraph(word + colon, pad, ROOM - 2 * pad, 38, True),
            _paragraph(rest.strip(), pad, ROOM - 2 * pad, 21, True),
        ]
    )
    colour, thick = {"stop": (VERMILLION, 10), "ask": (BLACK, 5), "go": (BLUE, 4)}[part.level]

    def draw(page, top):
        page.box(
            MARGIN + thick / 2,
            top + thick / 2,
            ROOM - thick,
            high + 2 * pad - thick,
            thick,
            colour,
            part.level == "ask",
        )
        inner(page, top + pad)

    lines = [_paragraph(part.pattern, points=15, bold=True), _paragraph(part.sentence, points=LARGE)]
    lines += [_paragraph(f"•  {line}", 12, ROOM - 12, LARGE) for line in part.short]
    return [Box(high + 2 * pad + 12, draw), *(Box(*line) for line in lines), _space(10)]


def _heading(part):
    high, inner = _paragraph(part.text, points=HEAD, bold=True)

    def draw(page, top):
        inner(page, top + 14)
        page.rule(MARGIN, top + 14 + high + 2, ROOM, 2)

    return [Box(high + 28, draw, stays=True)]


def _words(part):
    return [Box(*_paragraph(part.text)), _space(6)]


def _drawing(part):
    sheet = _laid_out(part.picture, ROOM, HIGH)
    return [Box(sheet.height + 8, lambda page, top: page.picture(MARGIN + (ROOM - sheet.width) / 2, top, sheet))]


def _told(part):
    pad, beside = 18.0, part.picture is not None and not part.broad
    room = ROOM - pad - (NARROW + 14 if beside else 0)
    lines = [_paragraph(part.heading, pad, room, SUB, True), _paragraph(part.message, pad, room)]
    lines += [_paragraph(f"{label}: {text}", pad, room) for label, text in part.pairs]
    lines.append(_paragraph(part.source, pad, room, SMALL))
    high, inner = _stacked(lines, 4.0)
    sheet = None if part.picture is None else _laid_out(part.picture, NARROW if beside else ROOM - pad, LOW)
    whole = high if sheet is None else max(high, sheet.height) if beside else high + sheet.height

    def draw(page, top):
        page.rule(
            MARGIN,
            top,
            8 if part.level == "stop" else 4,
            whole + 8,
            VERMILLION if part.level == "stop" else BLACK,
        )
        inner(page, top + 4)
        if sheet is not None:
            page.picture(MARGIN + ROOM - NARROW if beside else MARGIN + pad, top + (0 if beside else high + 4), sheet)

    return [Box(whole + 22, draw)]


def _table(part):
    head = _row(part.heads, bold=True, thick=2.0)
    head.stays = True
    boxes = [head]
    for title, rows in part.groups:
        high, inner = _paragraph(title, points=SMALL + 0.5, bold=True)

        def draw(page, top, high=high, inner=inner):
            inner(page, top + 8)
            page.rule(MARGIN, top + high + 9, ROOM, 2)

        boxes.append(Box(high + 11, draw, stays=True, above=head))
        boxes += [_row(row, bold=row[-1][0] in "≠?", above=head) for row in rows]
    for box in boxes[1:4]:
        box.stays = len(boxes) > 5
    return boxes


def _row(cells, bold=False, thick=1.0, above=None):
    starts = [sum(COLUMNS[:place]) * ROOM for place in range(len(cells))]
    pieces = [
        _paragraph(cell, start, share * ROOM - 10, SMALL + 0.5, bold)
        for cell, start, share in zip(cells, starts, COLUMNS)
    ]
    high = max(piece[0] for piece in pieces)

    def draw(page, top):
        for _, one in pieces:
            one(page, top + 3)
        page.rule(MARGIN, top + high + 5, ROOM, thick, BLACK if thick > 1 else GREY)

    return Box(high + 6, draw, above=above)


def _listed(part):
    boxes = []
    for number, item in enumerate(part.items, 1):
        high, inner = _paragraph(item, 24, ROOM - 24)
        room = 34.0 if part.questions else 4.0

        def draw(page, top, number=number, high=high, inner=inner, room=room):
            page.text(MARGIN + 4, top + _step(BODY) * 0.78, f"{number}." if part.questions else "•", BODY)
            inner(page, top)
            if part.questions:
                page.rule(MARGIN + 24, top + high + room - 10, ROOM - 24)

        boxes.append(Box(high + room, draw))
    return boxes


_WRITE = {
    Verdict: _verdict,
    Heading: _heading,
    Paragraph: _words,
    Drawing: _drawing,
    Told: _told,
    NumberTable: _table,
    Listed: _listed,
}
