"""The report as a PDF by matplotlib: the same contents, set on pages as wide as A4 and as high as Letter.

So it prints at full size on either. All lengths here are px, 96 to the inch, downwards from the top of the
page.
"""

from dataclasses import replace

from ...draw.typeset import (
    BODY,
    SMALL,
    Box,
    PaperPage,
    by_page,
    cut_short,
    line_step,
    paragraph,
    save_pages,
    shown,
    space,
    stacked,
)
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
HEAD, SUB, LARGE = 14.0, 11.5, 12.5  # points
VERMILLION, BLUE, BLACK, GREY = "#d55e00", "#0072b2", "#000000", "#999999"
COLUMNS = (0.31, 0.20, 0.32, 0.17)  # of the table, as shares of the width


def save_pdf(contents, title, file):
    """Write the contents of a report as a PDF to an open binary file."""
    save_pages(file, pages(contents, title), title)


def pages(contents, title):
    """The pages of a report, as matplotlib Figures."""
    boxes = (box for part in contents for box in _WRITE[type(part)](part))
    laid = list(by_page(boxes, HEIGHT - MARGIN - FOOT - 16))
    for number, boxes in enumerate(laid, 1):
        page = PaperPage(WIDTH, HEIGHT, MARGIN)
        foot = cut_short(f"{title} · page {number} of {len(laid)}", ROOM, SMALL)
        page.text(MARGIN, HEIGHT - FOOT + 14, foot, SMALL)
        top = MARGIN
        for box in boxes:
            box.draw(page, top)
            top += box.height
        yield page.figure


def _paragraph(text, x=0.0, room=ROOM, points=BODY, bold=False):
    return paragraph(text, room, x, points, bold)


def _laid_out(picture, width, height):
    """A picture laid out, its key in signs that the font has."""
    sheet = laid_out(picture, width, height)
    return replace(sheet, key=tuple((x, y, role, shown(label)) for x, y, role, label in sheet.key))


# -- each thing -------------------------------------------------------------------------------------


def _verdict(part):
    word, colon, rest = part.words.partition(":")
    pad = 26.0
    high, inner = stacked(
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
    return [Box(high + 2 * pad + 12, draw), *(Box(*line) for line in lines), space(10)]


def _heading(part):
    high, inner = _paragraph(part.text, points=HEAD, bold=True)

    def draw(page, top):
        inner(page, top + 14)
        page.rule(MARGIN, top + 14 + high + 2, ROOM, 2)

    return [Box(high + 28, draw, stays=True)]


def _words(part):
    return [Box(*_paragraph(part.text)), space(6)]


def _drawing(part):
    sheet = _laid_out(part.picture, ROOM, HIGH)
    return [Box(sheet.height + 8, lambda page, top: page.picture(MARGIN + (ROOM - sheet.width) / 2, top, sheet))]


def _told(part):
    pad, beside = 18.0, part.picture is not None and not part.broad
    room = ROOM - pad - (NARROW + 14 if beside else 0)
    lines = [_paragraph(part.heading, pad, room, SUB, True), _paragraph(part.message, pad, room)]
    lines += [_paragraph(f"{label}: {text}", pad, room) for label, text in part.pairs]
    lines.append(_paragraph(part.source, pad, room, SMALL))
    high, inner = stacked(lines, 4.0)
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
            page.text(MARGIN + 4, top + line_step(BODY) * 0.78, f"{number}." if part.questions else "•", BODY)
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
