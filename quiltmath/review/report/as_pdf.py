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
    table_row,
)
from .contents import CURE, PAGES, Drawing, Heading, Listed, NumberTable, Paragraph, Told, Verdict
from .pictures import laid_out

PX = 96  # to the inch
WIDTH, HEIGHT = 8.27 * PX, 11.0 * PX  # as wide as A4, as high as Letter
MARGIN, FOOT = 46.0, 32.0
ROOM = WIDTH - 2 * MARGIN
NARROW, LOW, HIGH = 170.0, 120.0, 420.0  # a picture beside a finding; how high it, and one over the page, may be
VERDICT, HEAD, SUB, LARGE, TINY = 34.0, 14.0, 11.5, 12.0, 8.5  # points, beside BODY and SMALL
DEEP = HEIGHT - MARGIN - FOOT - 16  # what a page holds
ALONE = 270.0  # how high the quilt may be where nothing is asked, so that all may stand on one page
LOWEST = 200.0  # how low the quilts may be drawn to leave room for the questions below them
FEW = 3  # cures: more are set smaller
ANSWER = 20.0  # room to write an answer
VERMILLION, BLUE, BLACK, GREY = "#d55e00", "#0072b2", "#000000", "#999999"
DIFFERING, REST = (0.30, 0.21, 0.29, 0.20), (0.36, 0.25, 0.39)  # the columns of the tables, as shares of the width


def save_pdf(contents, title, file):
    """Write the contents of a report as a PDF to an open binary file."""
    save_pages(file, pages(contents, title), title)


def pages(contents, title):
    """The pages of a report, as matplotlib Figures."""
    laid = list(by_page(_boxes(contents), DEEP))
    for number, boxes in enumerate(laid, 1):
        page = PaperPage(WIDTH, HEIGHT, MARGIN)
        foot = cut_short(f"{title} · page {number} of {len(laid)}", ROOM, SMALL)
        page.text(MARGIN, HEIGHT - FOOT + 14, foot, SMALL)
        top = MARGIN
        for box in boxes:
            box.draw(page, top)
            top += box.height
        yield page.figure


def _boxes(contents):
    """The boxes of all parts; the quilts below the verdict take what room the words of the first page leave them."""
    end = next((place for place, part in enumerate(contents) if type(part) is Listed and part.questions), 0)
    words = sum(box.height for part in contents[: end + 1] if type(part) is not Drawing for box in _set(part))
    room = min(max(DEEP - words - 8, LOWEST), HIGH) if end else ALONE
    for part in contents:
        yield from _drawing(part, room) if type(part) is Drawing else _set(part)


def _set(part):
    """The boxes of one part."""
    return _WRITE[type(part)](part)


def _paragraph(text, x=0.0, room=ROOM, points=BODY, bold=False):
    return paragraph(text, room, x, points, bold)


def _laid_out(picture, width, height):
    """A picture laid out, its key in signs that the font has."""
    sheet = laid_out(picture, width, height)
    return replace(sheet, key=tuple((x, y, role, shown(label)) for x, y, role, label in sheet.key))


# -- each thing -------------------------------------------------------------------------------------


def _verdict(part):
    word, colon, rest = part.words.partition(":")
    pad = 16.0
    verdict = stacked(
        [
            _paragraph(word + colon, pad, ROOM - 2 * pad, VERDICT, True),
            _paragraph(rest.strip(), pad, ROOM - 2 * pad, 15, True),
        ]
    )
    colour, thick = {"stop": (VERMILLION, 10), "ask": (BLACK, 5), "go": (BLUE, 4)}[part.level]
    lines = [_paragraph(part.pattern, points=15, bold=True), _paragraph(part.sentence, points=LARGE)]
    lines += [
        _paragraph(f"•  {line}", 12, ROOM - 12, LARGE if first else BODY, first)
        for first, line in zip((True, False), part.matters)
    ]
    boxes = [_framed(verdict, pad, thick, colour, part.level == "ask"), *(Box(*line) for line in lines)]
    pages = f"{PAGES}: {part.pages}"
    if part.pages and not part.cures:
        boxes.append(Box(*_paragraph(pages)))
    if part.cures:
        pad = 12.0
        said = [_paragraph(CURE, pad, ROOM - 2 * pad, LARGE, True)]
        points = LARGE if len(part.cures) <= FEW else BODY
        said += [_paragraph(f"•  {line}", pad, ROOM - 2 * pad, points) for line in part.cures]
        said += [_paragraph(part.after, pad, ROOM - 2 * pad, BODY)] if part.after else []
        said += [_paragraph(pages, pad, ROOM - 2 * pad, BODY)] if part.pages else []
        boxes += [space(8), _framed(stacked(said), pad, 2, BLUE)]
    return [*boxes, space(6)]


def _framed(piece, pad, thick, colour, dashed=False):
    """A piece in a frame, `pad` px from it."""
    high, inner = piece

    def draw(page, top):
        page.box(MARGIN + thick / 2, top + thick / 2, ROOM - thick, high + 2 * pad - thick, thick, colour, dashed)
        inner(page, top + pad)

    return Box(high + 2 * pad + 8, draw)


def _heading(part):
    high, inner = _paragraph(part.text, points=HEAD, bold=True)

    def draw(page, top):
        inner(page, top + 10)
        page.rule(MARGIN, top + 10 + high + 2, ROOM, 2)

    return [Box(high + 20, draw, stays=True)]


def _words(part):
    return [Box(*_paragraph(part.text, points=TINY if part.small else BODY)), space(6)]


def _drawing(part, high):
    sheet = _laid_out(part.picture, ROOM, high)
    return [Box(sheet.height + 8, lambda page, top: page.picture(MARGIN + (ROOM - sheet.width) / 2, top, sheet))]


def _told(part):
    pad, beside = 18.0, part.picture is not None and not part.broad
    room = ROOM - pad - (NARROW + 14 if beside else 0)
    pairs = "; ".join(f"{label}: {text}" for label, text in part.pairs)
    lines = [_paragraph(part.heading, pad, room, SUB, True)]
    lines += [_paragraph(text, pad, room) for text in (part.message, part.same, pairs) if text]
    lines += [_paragraph(part.source, pad, room, SMALL)] if part.source else []
    high, inner = stacked(lines, 3.0)
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

    return [Box(whole + 16, draw)]


def _table(part):
    columns, points = (REST, TINY) if part.small else (DIFFERING, SMALL + 0.5)
    head = _row(part.heads, columns, points, bold=True, thick=2.0)
    head.stays = True
    boxes = [head]
    for title, rows in part.groups:
        if not title:
            boxes += [_row(row, columns, points, above=head) for row in rows]
            continue
        high, inner = _paragraph(title, points=points, bold=True)

        def draw(page, top, high=high, inner=inner):
            inner(page, top + 6)
            page.rule(MARGIN, top + high + 7, ROOM, 2)

        boxes.append(Box(high + 9, draw, stays=True, above=head))
        boxes += [_row(row, columns, points, above=head, bold_end=not part.small) for row in rows]
    for box in boxes[1:4]:
        box.stays = len(boxes) > 5
    return boxes


def _row(cells, columns, points, **how):
    return table_row(cells, columns, ROOM, points=points, air=2.0, **how)


def _listed(part):
    boxes, points = [], TINY if part.small else BODY
    for number, item in enumerate(part.items, 1):
        high, inner = _paragraph(item, 24, ROOM - 24, points)
        room = ANSWER if part.questions else 3.0

        def draw(page, top, number=number, high=high, inner=inner, room=room):
            page.text(MARGIN + 4, top + line_step(points) * 0.78, f"{number}." if part.questions else "•", points)
            inner(page, top)
            if part.questions:
                page.rule(MARGIN + 24, top + high + room - 8, ROOM - 24)

        boxes.append(Box(high + room, draw, stays=part.small))  # what closes every report stays together
    return boxes


_WRITE = {
    Verdict: _verdict,
    Heading: _heading,
    Paragraph: _words,
    Told: _told,
    NumberTable: _table,
    Listed: _listed,
}
