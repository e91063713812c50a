"""A picture laid out for the place it has on a screen: as wide as that, its words in lines that fit and beside each
other, small multiples in fewer columns where a row of them would be too small."""

from dataclasses import dataclass, field, replace
from itertools import combinations

from .page import (
    CAPTION_SIZE,
    GAP,
    MARGIN,
    TITLE_SIZE,
    Page,
    drawn_size,
    in_lines,
    lay_out,
    measure_parts,
    measure_words,
    text_box,
)
from .picture import Board, Drawn, Measure, Picture, Words

NARROW = 700  # px: a narrower page sets its small multiples in as many columns as show them largest
LARGER = (1.0, 1.15, 1.3, 1.45, 1.6, 2.0, 2.6, 3.5)  # how much larger than its place a page may be, to be shown smaller
ENOUGH = 0.75  # of the largest a picture can be: its words are not made smaller for more
LEAST, SMALLEST = 0.3, 1.6  # of its place: a smaller drawing gets smaller words, down to 1/1.6 of their size
TOUCHING = 2, 7  # px across and down: texts that share no more are still read, as boxes are wider than their letters


@dataclass
class Place:
    """Room for pictures on a screen, `width` by `height` px. Words are shown `words` times their size, but not below it
    where the pictures gain by that; and smaller only where they would not fit at all, lie over each other, or leave
    hardly any room.

    One place keeps to the arrangement of its first picture while that fits, so that nothing jumps as a slider moves.

    >>> from quiltmath.draw import Shapes, beside
    >>> one = Picture([Shapes([[(0, 0), (9, 0), (9, 3), (0, 3)]], "blue")], alt="A strip of 9 by 3 in.")
    >>> board = beside([one, one, one])
    >>> [len({round(cell.top) for cell in Place(width).page(board).cells}) for width in (900, 300)]
    [1, 3]
    """

    width: float
    height: float | None = None
    words: float = 1.0
    _kept: tuple[float, int] | None = field(default=None, init=False)

    def page(self, picture: Drawn) -> Page:
        """The page that shows this picture."""
        board = picture if isinstance(picture, Board) else Board((picture,), picture.alt, 1)
        page = self._page(board, *self._kept) if self._kept else None
        return page or self._arranged(board)

    def _arranged(self, board):
        """The page on which the pictures are shown large enough, with the largest words."""
        tried = []
        for times in LARGER:
            if tried and times > self.words and (times > SMALLEST or any(_is_good(*one) for one in tried)):
                break
            fewest = 1 if self.width < NARROW else board.columns
            for columns in range(fewest, board.columns + 1):
                page = self._page(board, times, columns)
                if page is not None:
                    tried.append((page.cells[0].scale / times, times, columns, page))
        tried = next((good for rule in (_is_good, _fills) if (good := [one for one in tried if rule(*one)])), tried)
        if not tried:
            raise ValueError(
                f"the words of this picture alone need more than {LARGER[-1]} times the {self.width:g} px it may take: "
                "give it more room or shorter words"
            )
        largest = max(shown for shown, *_ in tried)
        _, times, columns, page = min(
            (one for one in tried if one[0] >= ENOUGH * largest), key=lambda one: (one[1], -one[0])
        )
        self._kept = times, columns
        return page

    def _page(self, board, times, columns):
        """The page so many times as large as its place is at the size of the words; None where it does not fit."""
        width = self.width / self.words * times
        height = None if self.height is None else self.height / self.words * times
        room = (width - 2 * MARGIN - GAP * (columns - 1)) / columns
        pictures = tuple(_wrapped(one, room) for one in board.pictures)
        try:
            return lay_out(replace(board, pictures=pictures, columns=columns), width, height)
        except ValueError:
            return None


def _is_good(shown, times, columns, page):
    return _fills(shown, times, columns, page) and _words_are_clear(page)


def _fills(shown, times, columns, page):
    """Whether what is drawn takes its share of the place, across or down."""
    across, down = page.cells[0].scale * drawn_size(page.cells[0].picture)
    rows = -(-len(page.cells) // columns)
    return across >= LEAST * page.width / columns or down >= LEAST * page.height / rows


def _words_are_clear(page):
    """Whether no text lies over another."""
    across, down = TOUCHING
    return not any(
        min(one[1], other[1]) - max(one[0], other[0]) > across and min(one[3], other[3]) - max(one[2], other[2]) > down
        for one, other in combinations(_text_boxes(page), 2)
    )


def _text_boxes(page):
    """Where each text of the page lies, in its px: left, right, top, bottom."""
    for words, (x, y) in _texts(page):
        left, right, up, down = text_box(words)
        yield x - left, x + right, y - up, y + down


def _texts(page):
    for words in page.words:
        yield words, words.at
    for cell in page.cells:
        for layer in cell.picture.layers:
            if isinstance(layer, Words):
                yield layer, cell.px(layer.at)
            elif isinstance(layer, Measure):
                yield measure_words(layer), measure_parts(cell.px(layer.start), cell.px(layer.end), layer)[2]


def _wrapped(picture: Picture, room: float) -> Picture:
    return replace(
        picture,
        title=in_lines(picture.title, room, TITLE_SIZE, bold=True),
        caption=in_lines(picture.caption, room, CAPTION_SIZE),
    )
