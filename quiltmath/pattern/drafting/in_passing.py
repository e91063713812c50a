"""What a page tells in passing, in running prose: how many are made, how large a block is, how many stand in a row. It
is never taken as read: it tells which of several proposals is the likeliest."""

from __future__ import annotations

import re
from fractions import Fraction
from functools import lru_cache
from typing import TYPE_CHECKING, NamedTuple

from .characters import plain
from .chunks import Chunk, chunked, count
from .figures import in_digits, measure
from .rows_by_turns import ByTurns, rows_by_turns

if TYPE_CHECKING:
    from .page import Page

_MADE = re.compile(r"\bmakes?\s+(?:a\s+total\s+of\s+)?(\d{1,3})\b(?!/|\.\d)(?!\s*(?:\"|in\b|rows?\b|strip))")
"""So many are made of something."""
_BLOCK = re.compile(
    r"\bblocks?\b[^.;\n\d]{0,60}?(?=\d)|\bmakes?\s+\d{1,3}(?:\s+[a-z-]+){0,4}?[,:]?\s+(?:(?:each|measuring)\s+)?(?=\d)"
)
"""What a size may stand behind: "The block is now 6 1/2 in square", "Make 17, 8 in square"."""
_OBLONG = re.compile(r"\b(?:goose|geese|units?|each|rectangles?)\b[^.;\d]{0,40}?(?=\d)")
"""What the size of an oblong unit may stand behind: "Each goose measures 2 1/2 x 4 1/2 in"."""
_SAID = {
    "turned": re.compile(
        r"\b(?:turn|rotat)\w*\s[^.;]{0,30}?\b(?:other|second|alternate)\b"
        r"|\b(?:other|second|alternate)\b[^.;]{0,30}?\b(?:turn|rotat)"
        r"|\balternat\w+\s[^.;]{0,20}?\b(?:(?:upright|vertical)\b[^.;]{0,20}?\b(?:level|flat|horizontal)"
        r"|(?:level|flat|horizontal)\b[^.;]{0,20}?\b(?:upright|vertical))\b"
    ),
    "columns": re.compile(r"\b(?:columns?|lanes?|bars)\b"),
    "borders": re.compile(r"\bborders?\b|\bframes?\s+(?:the|it)\b"),
    "on_point": re.compile(r"\bon[\s-]+point\b|\bdiagonal\s+(?:rows|set)"),
    "quartered": re.compile(
        r"\bcut\b(?:(?!diag|squares?\b(?!\s+block))[^.;]){0,60}?\b(?:in\s+half\s+both\s+ways|(?:in|into)\s+(?:4(?!\s*(?:[\d./\"x-]|squares|rect|tri|strips|pieces\s+\d|side|corner))|quarters))\b(?!\s+(?:\w+\s+){0,2}(?:diag|corner))|\bdisappearing\b"
    ),
}
_ROWS = re.compile(
    r"\b(\d{1,2})\s+(?:[a-z-]+\s+){0,2}across(?:\s*,?\s+(?:and|by|x)|\s*,)?\s+(\d{1,2})\s+(?:[a-z-]+\s+){0,2}down\b"
)
_TO_THE_ROW = re.compile(
    r"\b(\d{1,2})\s+(?:[a-z-]+\s+){0,2}(?:to|in)\s+(?:the|a|each|every)\s+row\b[\s,;]+(?:and\s+|in\s+)?(\d{1,2})\s+rows\b"
)
_ON_POINT = re.compile(r"\b(\d{1,2})\s*(?:x|by)\s*(\d{1,2})\s*,?\s+on[\s-]+point\b")
_ROWS_OF = re.compile(r"\b(\d{1,2})\s+(?:[a-z-]+\s+){0,2}?rows\s+(?:of|with)\s+(\d{1,2})\b")

CAME_OUT = re.compile(
    r"\W*(?:the|my|our|your|this)\s+(?:finished\s+|sample\s+)?(?:quilt|throw|runner|topper|wall\s+hanging)\s+"
    r"(?:came|comes|turned|turns|ended|ends|wound)\s+(?:out|up)\s+(?:(?:at|to|as|being|measuring|about)\s+)*(?=\d)"
)
"""How somebody tells the size of a quilt: "My quilt came out at 54 x 66 in"."""
_ONCE_SEWN = re.compile(
    r"(?:,?\s*(?:once|when|after)\s[^.;\d]*\b(?:sewn|joined|set|stitched)\b[^.;\d]*|\s*in\s+the\s+(?:finished\s+)?quilt\W*"
    r"|,?\s*\(?(?:bigger|larger|longer|wider)\s+(?:if|with|when)\b[^.;\d]*)$"
)


def once_sewn(chunks: list[Chunk], page: Page) -> list[Chunk]:
    """The chunks of a finished size without the words behind it that say when it is so large, "once it's sewn in", or
    when it is larger."""
    last = max((one.end for one in chunks if one.kind in ("length", "size")), default=0)
    told = _ONCE_SEWN.match(page.plain, last, chunks[-1].end) if last and count(chunks, "finished") else None
    return [one for one in chunks if one.end <= last] if told else chunks


_OF_ONE = re.compile(
    r"\b(?:sew|lay\s+out|arrange|join|make|piece)\w*\s+(?:a|an|one|each|the)\s+(?:[a-z-]+\s+){0,2}?(?:block|star)\b"
    r"(?P<told>(?:(?!\b(?:rows?|border|sides?|columns?)\b)[^.;])*)"
)
"""What a sentence says one block is sewn from: "Sew a star from a red square, 4 flying geese and 4 white squares"."""
_UNITS = re.compile(
    r"\b(?P<number>\d{1,2})\s+(?:[a-z-]+\s+){0,2}?(?P<unit>geese|half-square|hsts?|quarter-square|qsts?|hourglass)"
)
_KINDS = {"g": "flying geese", "h": "half-square", "q": "quarter-square"}
_MADE_OF = re.compile(
    r"\b(?P<unit>goose|geese|half-square|hsts?|quarter-square|qsts?|hourglass)(?:(?!\n\s*\n|\bblocks?\b).){0,160}?"
    r"\bmakes?\s+(?:a\s+total\s+of\s+)?(?P<number>\d{1,3})\b(?!/|\.\d)(?!\s*(?:\"|in\b|rows?\b|strip))",
    re.DOTALL,
)
"""How many units of a kind a paragraph says are made: "Each goose measures 3 1/2 x 6 1/2 in. Make 48"."""
_PER_BLOCK = re.compile(
    r"\b(?P<unit>goose|geese|half-square|hsts?|quarter-square|qsts?|hourglass)(?:(?!\n\s*\n|\bblocks?\b).){0,160}?"
    r"\bmakes?\s+\(?(?P<number>\d{1,2})\)?\s+(?:of\s+these\s+)?(?:per|for\s+(?:each|every)|in\s+(?:each|every))\s+block\b",
    re.DOTALL,
)
"""How many units of a kind a paragraph says are made for one block: "Flying geese unit. Make 4 per block"."""
MOST_IN_BLOCK = 7
_PARAGRAPH_ENDS = re.compile(r"\n\s*\n|\n[^\S\n]*(?:step\s+)?(?:\d{1,2}|[a-z])[.):]\s")
_OF_BLOCK = re.compile(
    r"\bmakes?\s+(?:a\s+total\s+of\s+)?[(\d]|\b\d+\s+blocks?\s*[,:(]\s*\d|\b(?:blocks?|units?|star|it|each(?:\s+[a-z-]+)?)\s+(?:is|are|(?:now\s+)?measures?"
    r"|should|will|finish(?:es)?|comes?\s+out)\b"
)
"""What a page says of a block behind the rows that it is sewn of."""
_OF_ROWS = re.compile(
    r"\bmakes?\s+\(?\d+\)?\s+(?:[a-z-]+\s+)?(?:rows|strip\s+sets)|\bquilt\b"
    r"|\b(?:top|cent(?:er|re)|middle)\s+(?:(?:now|should|will|is|be|about|measures?|finish(?:es)?)\s+)+\d"
)

_BLOCKS_MADE = re.compile(r"(?<=[.\n])\s*make\s+(?:a\s+total\s+of\s+)?\(?\d+\)?\s+(?:[a-z-]+\s+)?blocks\b")
_ONE_BLOCK = re.compile(r"\b(?:the|your|each)\s+block\b|(?:^|[.\n])\s*block\s+(?:should|measures?|finishes|is)\b")
"""How many blocks a sentence behind its rows says are made, and what tells that these are those of one."""


def of_one_block(text: str, at: int, across: int, down: int) -> bool:
    """Whether rows that a text tells of at some place are those of pieces in one block: of few pieces, and how many
    blocks are made, or how large one is, stands behind them in the same paragraph; or how
    large the block is, in a step that follows.

    >>> of_one_block("sew three rows of three. block is 9 1/2 in square. make 18.", 0, 3, 3)
    True
    >>> of_one_block("1. lay out 3 rows of 3.\\n2. join the rows. the block measures 9 1/2 in.", 3, 3, 3)
    True
    >>> of_one_block("step 1. arrange them 2 x 2.\\nstep 2. sew.\\nblock measures 9 in.\\nmake (18) blocks.", 8, 2, 2)
    True
    >>> of_one_block("sew three rows of three blocks. the top is 27 1/2 in square.", 0, 3, 3)
    False
    >>> of_one_block("the star block (make 18)\\nstitch three rows of three, then the rows.", 25, 3, 3)
    True
    """
    if max(across, down) > MOST_IN_BLOCK:
        return False
    if _is_of_a_unit(text, at) or _is_headed_by_one(text, at):
        return True
    ends = _PARAGRAPH_ENDS.search(text, at)
    said = in_digits(text[at : ends.start() if ends else len(text)])
    first, _, behind = said.partition(".")
    told = _OF_BLOCK.search(behind)
    if told is None and not re.search(r"\bquilt\b|\btop\b", first):
        whole = in_digits(re.split(r"\n\s*\n", text[at:])[0])  # the next steps say it
        others = re.search(r"\bblocks\b|\bquilt\b", _BLOCKS_MADE.sub("", whole))
        if not others and _ONE_BLOCK.search(whole):
            return _OF_BLOCK.search(whole) is not None
    return told is not None and not re.search(r"\bblocks\b", first) and not _OF_ROWS.search(said)


def _is_of_a_unit(text, at):
    """Whether the paragraph in which a place stands is headed by the name of a unit, and its sentence speaks of no
    blocks: "Four patch: two rows of two"."""
    if re.search(r"\bblocks\b", re.split(r"[.;]\s", text[at:], maxsplit=1)[0]):
        return False
    head = re.match(r"\W*(?P<unit>[a-z][a-z -]{2,30}?)[.:]\s", re.split(r"\n\s*\n", text[:at])[-1])
    return head is not None and {one.kind for one in chunked(head["unit"])} == {"unit"}


_HEADS_ONE = re.compile(
    r"\W*(?:(?:\d{1,2}|[a-z])[.):]\s+)?(?:(?:making|sewing|piecing|to\s+(?:make|sew|piece))\s+)?(?:the|an?|one|each)\s+"
    r"(?:[a-z-]+\s+){0,3}block\b[^\S\n]*(?:[:(\n]|\.\s)"
)
"""What heads a paragraph that tells of one block: "The star block (make 18)"."""


def _is_headed_by_one(text, at):
    """Whether the paragraph in which a place stands is headed as that of one block, and its sentence speaks neither of
    blocks nor of the quilt."""
    said = re.split(r"[.;]\s", text[at:], maxsplit=1)[0]
    if re.search(r"\bblocks\b|\bquilt\b|\btop\b", said):
        return False
    return _HEADS_ONE.match(re.split(r"\n\s*\n", text[:at])[-1]) is not None


class InPassing(NamedTuple):
    """How many are `made` of something, by each number once; the `sides` of squares that may be blocks, in inches,
    finished or not; how many stand (across, down); whether every second block is turned, whether they stand in columns,
    whether there are borders, whether it is on point; whether they are cut in four when they are sewn; the sizes of
    `oblongs` that may be units, in inches; how many units of a kind are `in_block` at the least, how many are made
    `per_block`, and how many in all (`made_of`); the rows of two kinds `by_turns`."""

    made: tuple[int, ...] = ()
    sides: tuple[Fraction, ...] = ()
    rows: tuple[tuple[int, int], ...] = ()
    turned: bool = False
    columns: bool = False
    borders: bool = False
    on_point: bool = False
    quartered: bool = False
    oblongs: tuple[tuple[Fraction, Fraction], ...] = ()
    in_block: tuple[tuple[str, int], ...] = ()
    per_block: tuple[tuple[str, int], ...] = ()
    made_of: tuple[tuple[str, int], ...] = ()
    by_turns: tuple[ByTurns, ...] = ()


NOTHING = InPassing()


@lru_cache(maxsize=8)  # each proposal asks for it, after every answer
def in_passing(page: str) -> InPassing:
    """What the text of a page tells so.

    >>> told = in_passing('Make 20 blocks, 6 1/2" square. Set them 4 across and 5 down.')
    >>> told.made, [str(side) for side in told.sides], told.rows
    ((20,), ['13/2'], ((4, 5),))
    >>> in_passing('Each unit measures 2 x 4 in.').oblongs, in_passing('Each unit measures 2 x 4 x 2 in.').oblongs
    (((Fraction(2, 1), Fraction(4, 1)),), ())
    """
    text = in_digits(plain(page))
    read = (measure(text, match.end()) for match in _BLOCK.finditer(text))
    sizes = [one for one in read if one and one.sides[-1].unit]
    square = (one.with_units()[0].inches for one in sizes if len({*one.texts}) == 1)
    oblong = (measure(text, match.end()) for match in _OBLONG.finditer(text))
    of_units = [
        tuple(side.inches for side in one.with_units())
        for one in oblong
        if one and len(one.sides) == len({*one.texts}) == 2
    ]
    rows = [(int(match[1]), int(match[2])) for told in (_ROWS, _TO_THE_ROW) for match in told.finditer(text)]
    rows += [(int(match[1]), int(match[2])) for match in _ON_POINT.finditer(text)]
    of_blocks = ((match.start(), int(match[2]), int(match[1])) for match in _ROWS_OF.finditer(text))
    rows += [(across, down) for at, across, down in of_blocks if not of_one_block(text, at, across, down)]
    by_turns = tuple(rows_by_turns(text))
    rows += [(one.across, one.down) for one in by_turns]
    return InPassing(
        made=tuple(dict.fromkeys(map(int, _MADE.findall(text)))),
        sides=tuple(dict.fromkeys(square)),
        rows=tuple(dict.fromkeys(rows)),
        in_block=tuple(_in_block(text)),
        per_block=tuple((_kind(match["unit"]), int(match["number"])) for match in _PER_BLOCK.finditer(text)),
        made_of=tuple((_kind(match["unit"]), int(match["number"])) for match in _MADE_OF.finditer(text)),
        by_turns=by_turns,
        oblongs=tuple((one, other) for one, other in dict.fromkeys(of_units)),
        **{key: bool(said.search(text)) for key, said in _SAID.items()},
    )


def _in_block(text):
    for sentence in _OF_ONE.finditer(text):
        for match in _UNITS.finditer(sentence["told"]):
            yield _kind(match["unit"]), int(match["number"])


def _kind(unit):
    return "quarter-square" if unit == "hourglass" else _KINDS[unit[0]]
