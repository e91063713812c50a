"""What a page tells in passing, in running prose: how many are made, how large a block is, how many stand in a row. It
is never taken as read: it tells which of several proposals is the likeliest."""

from __future__ import annotations

import re
from fractions import Fraction
from functools import lru_cache
from typing import NamedTuple

from .characters import plain
from .figures import in_digits, measure

_MADE = re.compile(r"\bmakes?\s+(?:a\s+total\s+of\s+)?(\d{1,3})\b(?!/|\.\d)(?!\s*(?:\"|in\b|rows?\b|strip))")
"""So many are made of something."""
_BLOCK = re.compile(
    r"\bblocks?\b[^.;\n\d]{0,60}?(?=\d)|\bmakes?\s+\d{1,3}(?:\s+[a-z-]+){0,4}?[,:]?\s+(?:(?:each|measuring)\s+)?(?=\d)"
)
"""What a size may stand behind: "The block is now 6 1/2 in square", "Make 17, 8 in square"."""
_SAID = {
    "turned": re.compile(
        r"\b(?:turn|rotat)\w*\s[^.;]{0,30}?\b(?:other|second|alternate)\b"
        r"|\b(?:other|second|alternate)\b[^.;]{0,30}?\b(?:turn|rotat)"
    ),
    "columns": re.compile(r"\bcolumns?\b"),
    "on_point": re.compile(r"\bon[\s-]+point\b|\bdiagonal\s+(?:rows|set)"),
    "quartered": re.compile(
        r"\bcut\b[^.;]{0,60}?\b(?:in\s+half\s+both\s+ways|(?:in|into)\s+(?:4(?!\s*(?:[\d./\"x-]|squares|rect|tri|strips|pieces\s+\d|side|corner))|quarters))\b|\bdisappearing\b"
    ),
}
_ROWS = re.compile(
    r"\b(\d{1,2})\s+(?:[a-z-]+\s+){0,2}across(?:\s+(?:and|by)|\s*,)?\s+(\d{1,2})\s+(?:[a-z-]+\s+){0,2}down\b"
)
_ROWS_OF = re.compile(r"\b(\d{1,2})\s+(?:[a-z-]+\s+){0,2}?rows\s+(?:of|with)\s+(\d{1,2})\b")


class InPassing(NamedTuple):
    """How many are `made` of something, by each number once; the `sides` of squares that may be blocks, in inches,
    finished or not; how many stand (across, down); whether every second block is turned, whether they stand in columns,
    whether on point; whether they are cut in four when they are sewn."""

    made: tuple[int, ...] = ()
    sides: tuple[Fraction, ...] = ()
    rows: tuple[tuple[int, int], ...] = ()
    turned: bool = False
    columns: bool = False
    on_point: bool = False
    quartered: bool = False


NOTHING = InPassing()


@lru_cache(maxsize=8)  # each proposal asks for it, after every answer
def in_passing(page: str) -> InPassing:
    """What the text of a page tells so.

    >>> told = in_passing('Make 20 blocks, 6 1/2" square. Set them 4 across and 5 down.')
    >>> told.made, [str(side) for side in told.sides], told.rows
    ((20,), ['13/2'], ((4, 5),))
    """
    text = in_digits(plain(page))
    read = (measure(text, match.end()) for match in _BLOCK.finditer(text))
    sizes = [one for one in read if one and one.sides[-1].unit]
    square = (one.sides[0].inches for one in sizes if len({*one.texts}) == 1)
    rows = [(int(match[1]), int(match[2])) for match in _ROWS.finditer(text)]
    rows += [(int(match[2]), int(match[1])) for match in _ROWS_OF.finditer(text)]
    return InPassing(
        made=tuple(dict.fromkeys(map(int, _MADE.findall(text)))),
        sides=tuple(dict.fromkeys(square)),
        rows=tuple(dict.fromkeys(rows)),
        **{key: bool(said.search(text)) for key, said in _SAID.items()},
    )
