"""A picture laid out for the room there is on a screen: as wide as its place, its words in lines that fit, small
multiples in fewer columns where a row of them would be too small."""

from dataclasses import replace

from .page import CAPTION_SIZE, GAP, MARGIN, TITLE_SIZE, Page, in_lines, lay_out
from .picture import Board, Drawn, Picture

NARROW = 700  # px: a narrower page sets its small multiples in as many columns as show them largest
LARGER = (1.0, 1.15, 1.35, 1.6, 2.0, 2.6, 3.5)  # a page grows so far, to be shown smaller, for words that need the room


def fitted(picture: Drawn, width: float, height: float | None = None) -> Page:
    """The page for a place of `width` by `height` px; it is larger where the words of the picture alone need more, and
    is then to be shown smaller.

    >>> from quiltmath.draw import Shapes, beside
    >>> one = Picture([Shapes([[(0, 0), (9, 0), (9, 3), (0, 3)]], "blue")], alt="A strip of 9 by 3 in.")
    >>> board = beside([one, one, one])
    >>> [len({round(cell.top) for cell in fitted(board, width).cells}) for width in (900, 300)]
    [1, 3]
    """
    for times in LARGER:
        page = _largest(picture, width * times, None if height is None else height * times)
        if page is not None:
            return page
    raise ValueError(
        f"the words of this picture alone need more than {LARGER[-1]} times the {width:g} px it may take: "
        "give it more room or shorter words"
    )


def _largest(picture, width, height):
    """The page of that size on which the pictures are largest, or None where they do not fit."""
    board = picture if isinstance(picture, Board) else Board((picture,), picture.alt, 1)
    fewest = 1 if width < NARROW else board.columns
    pages = [_page(replace(board, columns=columns), width, height) for columns in range(fewest, board.columns + 1)]
    return max(filter(None, pages), key=lambda page: page.cells[0].scale, default=None)


def _page(board, width, height):
    room = (width - 2 * MARGIN - GAP * (board.columns - 1)) / board.columns
    try:
        return lay_out(replace(board, pictures=tuple(_wrapped(one, room) for one in board.pictures)), width, height)
    except ValueError:
        return None


def _wrapped(picture: Picture, room: float) -> Picture:
    return replace(
        picture,
        title=in_lines(picture.title, room, TITLE_SIZE, bold=True),
        caption=in_lines(picture.caption, room, CAPTION_SIZE),
    )
