"""Units of which a page tells at once how large they are, how many there are and in how many columns they stand:
"Geese: 3 x 6 in finished, 96 in 4 columns of 24"."""

from __future__ import annotations

import re
from dataclasses import replace

from . import stated
from .chunks import Chunk
from .figures import in_digits
from .model import Context, Reading
from .page import Page

_IN_COLUMNS = re.compile(
    r"[,;]\s*(?:(?P<all>\d+)\s+(?:[a-z]+\s+)?)?(?:(?:set|sewn|arranged)\s+)?in\s+(?P<lines>\d+)\s+(?:[a-z]+\s+)?"
    r"(?:columns|rows|lanes|bars)\s+of\s+(?P<each>\d+)(?:\s+each)?\W*$"
)


def told(chunks: list[Chunk], context: Context, page: Page) -> Reading | None:
    """The units of such a line, counted; None of any other, and where the columns do not come to their number."""
    at = page.plain.rfind(",", chunks[0].start, chunks[-1].end) if chunks else -1
    match = _IN_COLUMNS.fullmatch(in_digits(page.plain[at : chunks[-1].end])) if at > 0 else None
    if match is None:
        return None
    number = int(match["lines"]) * int(match["each"])
    read = stated.finished([one for one in chunks if one.end <= at], context, page)
    if (
        read is None
        or len(read.entries) != 1
        or read.entries[0].table != "unit"
        or int(match["all"] or number) != number
    ):
        return None
    entry = read.entries[0].noted(page.words(at + 1, chunks[-1].end).text, count=number)
    return Reading((replace(entry, words=page.over(chunks)),))
