"""Lists of logs: so many of each, all as wide, and below that how long each of them is.

CUT THE LOGS (48 of each, all 1 1/2 in wide)
No. 1  light  2 1/2 in
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, NamedTuple

from .chunks import Chunk, all_of, chunked, count, opened
from .figures import Figure, measure
from .model import Entry
from .page import Page

if TYPE_CHECKING:
    from .kept import Kept

_NUMBER = re.compile(
    r"\W*(?:(?:no|nr|number|log|piece|strip|round)s?\b\.?\s*)?\#?(?P<number>\d{1,2})\s*[.:)-]?\s+(?=[a-z\d])"
)
_TOLD = re.compile(r"\W*(?:no|nr|number|log|piece|strip|round)s?\b|\W*\#|[^\w(]*\d{1,2}\s*[.:)-]")
"""A number that counts nothing; one in brackets does count: "(4) rectangles"."""
_WIDE = re.compile(r"\W*(?:in(?:ches)?\b)?\W*wide\b")


class Logs(NamedTuple):
    """How many of each log below are cut, 0 where its line says it, and the side that all of them share, where one is
    told."""

    number: int
    wide: Figure | None = None
    text: str = ""


OF_ONE_BLOCK = Logs(1)


def headed(flat: list[Chunk], page: Page) -> Logs | None:
    """The logs that a line heads: it says how many are cut of each, and how wide all of them are; None where it does
    not."""
    counts, measures = all_of(flat, "count"), all_of(flat, "length")
    told = count(flat, "each", "of_each") == 1 and count(flat, "rectangles", "strips", "pieces")
    flat = [one for one in flat if one.kind != "word"]
    others = count(flat, "size", "strip", "squares", "triangles", "doubt", "yards", "unit", "blocks", "role")
    if not told or others or len(counts) != 1 or len(measures) != 1:
        return None
    each = next(at for at, one in enumerate(flat) if one.kind in ("each", "of_each"))
    before = [one for one in flat[:each] if one.kind not in ("rectangles", "strips", "pieces")]  # "48 logs of every"
    if not before or before[-1] is not counts[0]:
        return None
    value = measures[0].value
    wide = value.sides[0].along.startswith("wid") or _WIDE.match(page.plain, measures[0].end)
    return Logs(counts[0].value, value.with_units()[0], value.texts[0]) if wide else None


_SO_WIDE = re.compile(r"\W*(?:all|the)\s+(?:(?:of\s+)?the(?:se)?\s+)?(?:logs|strips)\s+(?:are|is)\s+(?:cut\s+)?(?=\d)")


def all_so_wide(page: Page, start: int, end: int) -> Logs | None:
    """The logs of which a sentence says no more than how wide all of them are: "All logs are 1 1/2 in wide"; None of
    any other.

    >>> all_so_wide(Page('All logs are 1 1/2" wide.'), 0, 25).text
    '1 1/2'
    """
    match = _SO_WIDE.match(page.plain, start, end)
    read = measure(page.plain, match.end()) if match else None
    if read is None or len(read.sides) != 1:
        return None
    wide = read.with_units()[0]
    said = wide.along.startswith("wid") or _WIDE.match(page.plain, read.end, end)
    return Logs(0, wide, read.texts[0]) if said and not re.search(r"\d", page.plain[read.end : end]) else None


_ABREAST = re.compile(
    r"(?:(?:log|no\.?|nr\.?|\#)\s*)?\#?\d{1,2}[.:)]?\s+[a-z][a-z -]*?\s+\d[\d/ ]*(?:in\b|\"|cm\b)?(?=\s|$)"
)
_HEADS = re.compile(r"(?:(?:no|nr|number|log|logs|piece|fabric|colou?r|length|size|cut)\b\.?\s*)+")


def abreast(page: Page, start: int, end: int) -> list[tuple[int, int]]:
    """Where the logs of a line begin and end that tells of several, side by side; none of any other line.

    >>> abreast(Page('1 light 2 1/2"    7 dark 7"'), 0, 27)
    [(0, 14), (18, 27)]
    """
    found = [match.span() for match in _ABREAST.finditer(page.plain, start, end)]
    left = page.plain[start:end]
    for one, other in found:
        left = left.replace(page.plain[one:other], "", 1)
    return found if len(found) > 1 and not left.strip() else []


def counted(page: Page, start: int, end: int, logs: Logs) -> list[tuple[int, int]]:
    """The line of one log that says itself how many of it are cut, where these are such; nothing of any other."""
    number, first = numbered(page, start, end)
    told = logs.number == 0 and number and log(chunked(page.plain, first, end), logs)
    return [(start, end)] if told else []


def heads_columns(page: Page, start: int, end: int) -> bool:
    """Whether a line only heads the columns of a list of logs: "No. colour length"."""
    return bool(_HEADS.fullmatch(page.plain[start:end].strip()))


def heads_several_columns(page: Page, start: int, end: int) -> bool:
    """Whether a line heads so many columns of a list of logs that these can be nothing else.

    >>> heads_several_columns(Page("Log  Color  Length  Cut"), 0, 23), heads_several_columns(Page("Cut"), 0, 3)
    (True, False)
    """
    words = page.plain[start:end].split()
    return len(words) > 2 and "log" in words and heads_columns(page, start, end)


def numbered(page: Page, start: int, end: int) -> tuple[str, int]:
    """The number that a line of a list of logs begins with, and where it goes on; "" where it has none."""
    match = _NUMBER.match(page.plain, start, end)
    return (match["number"], match.end()) if match else ("", start)


def is_numbered(page: Page, start: int, end: int) -> bool:
    """Whether a line begins with the number of a log that can count no pieces: "Log 2", "#2", "2.".

    >>> is_numbered(Page('Log 2: 2" x 5"'), 0, 14), is_numbered(Page('2 logs 2" x 5"'), 0, 14)
    (True, False)
    """
    return bool(_TOLD.match(page.plain, start, end) and numbered(page, start, end)[0])


def are_below(page: Page, end: int) -> bool:
    """Whether the line below the one that ends here begins with the number of a log.

    >>> are_below(Page('Dark\\nLog 3   3 1/2"'), 4)
    True
    """
    below = re.compile(r"[^\n]*\n[ \t]*(?P<line>[^\n]*)").match(page.plain, end)
    return below is not None and is_numbered(page, *below.span("line"))


def log(chunks: list[Chunk], logs: Logs) -> list[Chunk] | None:
    """The chunks of a line that only says how long a log is, or of both its sides where no width is told of all, with
    its count, which it says itself where none is told of all; None of any other."""
    flat = opened(chunks)
    told = "size" if logs.wide is None else "length"
    sizes = all_of(flat, told)
    counts, some = all_of(flat, "count"), (told, "word", "punct", "rectangles", "article")
    if len(sizes) != 1 or len(counts) != (logs.number == 0) or any(one.kind not in (*some, "count") for one in flat):
        return None
    (long,) = sizes
    sides = long.value.with_units()
    size = long._replace(kind="size", value=long.value._replace(sides=(logs.wide, *sides) if logs.wide else sides))
    rest = [one for one in flat if one is not long and one.kind not in ("rectangles", "count")]
    at = flat[0].start
    number = counts[0].value if counts else logs.number
    return [Chunk("count", at, at, number), *rest, size, Chunk("rectangles", long.end, long.end)]


_CUT_FROM_STRIPS = re.compile(
    r"\bcut\s+(?:the\s+|your\s+|all\s+)*logs\s+(?:from|out\s+of)\s+(?:the|these|those|your)\s+strips\b"
    r"|\bcut\b[^.;]*\binto\s+(?:the\s+)?(?:shorter|longer|other|remaining)\s+logs\b"
)


def cuts_from_strips(text: str) -> bool:
    """Whether a sentence says that the strips above are cut into logs, of which lines below say how long each is.

    >>> cuts_from_strips("Then cut the logs from these strips, longest first")
    True
    """
    return bool(_CUT_FROM_STRIPS.search(text.casefold()))


def of_strips(chunks: list[Chunk], strips: Entry) -> tuple[str, list[Chunk]] | None:
    """The letter of a log and the chunks of its line, which counts logs of a length, with the width of the strips that
    they are cut from: 'L1 2 1/2 in cut 48'; None of any other line."""
    flat = opened(chunks)
    kinds = sorted(one.kind for one in flat if one.kind not in ("punct", "cut", "rectangles", "article"))
    width = measure(strips.data["strip"], 0)
    if kinds != ["count", "label", "length"] or width is None:
        return None
    long, counted, label = (all_of(flat, kind)[0] for kind in ("length", "count", "label"))
    value = long.value._replace(sides=(*width.sides, *long.value.with_units()))
    last = max(long.end, counted.end)
    return str(label.value), [counted, long._replace(kind="size", value=value), Chunk("rectangles", last, last)]


def without_strips(entry: Entry, logs: Logs, kept: Kept, page: Page) -> tuple[Entry, int]:
    """A log, the strips of its fabric and width that stand above taken for those that it is cut from; and where what is
    told of it begins: with these, where they stand right before it."""
    size = entry.data["size"]
    sides = size if isinstance(size, list) else [size]
    strips = [
        one
        for one in kept.entries
        if one.table == "cut" and not one.role and {*one.data} == {"fabric", "strip", "count"}
        if one.data["fabric"] == entry.data.get("fabric")
        if one.data["strip"] in ([logs.text] if logs.text else sides)
    ]
    start = entry.words.start
    for one in strips:
        entry = entry.noted(f"cut from {one.data['count']} strips {one.data['strip']}")
        kept.put(one)
        kept.understood.append(one.words)
        start = one.words.start if page.lines_between(one.words.end, start) <= 1 else start
    return entry, start
