"""Columns of a page that stand side by side in its text: whether a line is read across, or each column for itself."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Callable

from .chunks import FIGURES, chunked

GAP = re.compile(r"(?<=\S)[^\S\n]{3,}(?=\S)")
_IN_ROWS = re.compile(r"(?<=[^\s.!?])[^\S\n]{2,}(?=\S)")
"""The gap in a row: where the next row has one that ends in the same column, it may be as narrow as this."""
BLANK = 2
"""Signs that are blank on every line before the column on the right."""

MOST_LINES = 200
"""Lines side by side: a page has no more."""

Lines = list[tuple[int, int]]

_CELLS = re.compile(r"(?:(?<=\S)[^\S\n]{3,}(?=\S)|\t)[^\S\n]*|\s+\|\s+")
_LETTER = re.compile(r"\s*[(]?[a-z]\d?[).:]?\s*")
_LABELLED = re.compile(r"\s*[(]?[a-z]\d{0,2}[).:]?\s{2,}\S")


def in_order(plain: str, lines: Lines, heads: Callable[[int, int], bool]) -> tuple[Lines, Lines]:
    """The lines of a page in the order in which they are read: (those that are, those that are parts of lines).

    Where two columns stand side by side and that on the right has heads of its own, all of the left one comes first;
    else a line is read across, as a table is. `heads` tells whether words are a head.
    """
    found: Lines = []
    parts: Lines = []
    at = 0
    while at < len(lines):
        stop, column = _beside(plain, lines, at)
        if column and (_heads_twice(plain, lines[at]) or _labels_twice(plain, lines[at + 1])):  # halves of one table
            column = 0
            stop = at + 1
        pairs = [_split(plain, line, column) for line in lines[at:stop]] if column else []
        abreast = [(left, right) for left, right in pairs if left and right]
        if any(heads(*right) for _, right in abreast) and not _buys_in_rows(plain, abreast):
            block = [left for left, _ in pairs if left] + [right for _, right in pairs if right]
            found += block
            parts += block
        else:
            found += lines[at:stop]
        at = stop
    return found, parts


def _beside(plain, lines, at):
    """Where the block of lines ends that stand in two columns from this line on, and where the right one begins; no
    column where there is no such block."""
    starts = Counter(place for line in lines[at : at + 1] for place in _starts(plain, line))
    best = (at + 1, 0)
    for column in starts:
        stop, both, last = at, 0, at
        for line in lines[at : at + MOST_LINES]:
            left, right = _split(plain, line, column)
            if not _is_free(plain, line, column):
                break
            both += bool(left and right)
            last = stop if right else last
            stop += 1
        below = (place for place in range(last + 1, stop) if _are_apart(plain, *lines[place - 1 : place + 1]))
        stop = next(below, stop)  # what stands below both columns, apart from them, is none of the left one
        if both >= 2 and stop > best[0]:
            best = stop, column
    return best


_AMOUNT = {"count", "yards", "fat_quarter", "pack", "precut", "size", "length", "punct", "note"}


def _buys_in_rows(plain, abreast):
    """Whether what stands on the left is only how much is bought, and on the right what is meant: "2 yd   navy"."""
    told = [[{one.kind for one in chunked(plain, *part)} for part in row] for row in abreast]
    bought = any({"yards", "fat_quarter"} & amount for amount, _ in told)
    return bought and all(amount <= _AMOUNT and not FIGURES & name for amount, name in told)


def _are_apart(plain, line, below):
    """Whether a blank line stands between two lines."""
    return plain.count("\n", line[1], below[0]) > 1


def _heads_twice(plain, line):
    """Whether a line says all its words twice, as the head of a long table does that is printed in two halves."""
    words = plain[slice(*line)].split()
    half = len(words) // 2
    return half > 1 and len(words) % 2 == 0 and words[:half] == words[half:]


def _labels_twice(plain, line):
    """Whether a line is the row of a table that is printed in two halves: each begins with its letter."""
    return len(by_labels(plain, cells(plain, *line), 2)) == 2 and len(cells(plain, *line)) > 2


def by_labels(plain: str, parts: Lines, number: int) -> Lines:
    """The cells of a line as so many, each from its letter to the next, where so many of them begin with one; else as
    they are.

    >>> line = "L1  3 in   cut 8     D1  5 in   cut 8"
    >>> [line[slice(*part)] for part in by_labels(line.lower(), cells(line.lower(), 0, len(line)), 2)]
    ['L1  3 in   cut 8', 'D1  5 in   cut 8']
    """
    starts = [place for place, part in enumerate(parts) if _LABELLED.match(plain, *part)]
    if len(starts) != number or starts[:1] != [0]:
        return parts
    ends = [*starts[1:], len(parts)]
    return [(parts[first][0], parts[last - 1][1]) for first, last in zip(starts, ends)]


def _begins(plain, line):
    return plain.rfind("\n", 0, line[0]) + 1


def _starts(plain, line, gap=GAP):
    """The places in a line at which something begins behind a gap."""
    return [match.end() - _begins(plain, line) for match in gap.finditer(plain, *line)]


def in_one_column(plain: str, before: tuple[int, int], line: tuple[int, int]) -> bool:
    """Whether what stands behind a gap in a line begins right below what does so in the line before it: these are rows.

    >>> in_one_column("navy     2 m\\nstripe   3 m", (0, 12), (13, 25))
    True
    """
    above = plain.rfind("\n", *before) + 1 or before[0]
    here, there = _starts(plain, line, _IN_ROWS), _starts(plain, (above, before[1]), _IN_ROWS)
    return any(abs(one - other) <= 1 for one in here for other in there)


def _is_free(plain, line, column):
    """Whether nothing of a line crosses into the column on the right."""
    begins = _begins(plain, line)
    across = plain[begins + column - BLANK : min(begins + column, line[1])] if begins + column - BLANK < line[1] else ""
    return not across.strip()


def _split(plain, line, column):
    """The parts of a line left and right of a column, each (start, end) or None where nothing stands."""
    begins = _begins(plain, line)
    middle = min(max(begins + column, line[0]), line[1])
    left, right = (line[0], middle), (middle, line[1])
    return (left if plain[slice(*left)].strip() else None), (right if plain[slice(*right)].strip() else None)


def cells(plain: str, start: int, end: int) -> Lines:
    """The cells of a line that stands in columns; a letter belongs to the cell that it names.

    >>> line = "a   12 squares   navy"
    >>> [line[slice(*cell)] for cell in cells(line, 0, len(line))]
    ['a   12 squares', 'navy']
    """
    found, at = [], start
    for match in _CELLS.finditer(plain, start, end):
        if plain[at : match.start()].strip(" |"):
            found.append((at, match.start()))
        at = match.end()
    if plain[at:end].strip(" |"):
        found.append((at, end))
    for place in reversed(range(len(found) - 1)):
        if _LETTER.fullmatch(plain, *found[place]):
            found[place : place + 2] = [(found[place][0], found[place + 1][1])]
    return found
