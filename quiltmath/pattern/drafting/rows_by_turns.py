"""Rows of two kinds by turns that a page tells in prose: how many of each a row takes, how many rows are made."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator
from typing import NamedTuple

_KIND = r"(\d{1,2})\s+((?:[a-z-]+\s+){0,3}?[a-z-]+)"
_ROW = re.compile(
    rf"\b(?:join|sew|stitch|lay\s+out|arrange|alternate|piece|use)\s+(?:together\s+)?{_KIND}\s+(?:and|with)\s+{_KIND}"
    r"(?:\s+together\b|\s+(?:alternat|beginning|starting|by\s+turns|in\s+a\s+row|side\s+by\s+side|into)[^.;\d]*)?"
    r"(?:[,;(][^.\d]*)?[.;]?\s+make\s+\(?(\d{1,2})\b(?!\s*(?:\"|in\b|[/.]\d))"
)
"""What one row is sewn of, and how many are made: "Join 4 pinwheels and 3 plain squares. Make 5"."""
MOST_ROWS = 4
"""Kinds of rows: two, or a few where some are told for one end."""


class ByTurns(NamedTuple):
    """How many stand `across` and `down`, and how many there are of each of the two kinds."""

    across: int
    down: int
    numbers: tuple[int, int]


def rows_by_turns(text: str) -> Iterator[ByTurns]:
    """The rows that a text, in small letters with its numbers in digits, tells of two kinds by turns; none where the
    rows are not alike or are of more kinds.

    >>> said = "row {}: sew 3 {} and 2 {} together. make {}.\\n".format
    >>> [*rows_by_turns(said(1, "stars", "plain squares", 4) + said(2, "plain squares", "stars", 3))]
    [ByTurns(across=5, down=7, numbers=(18, 17))]
    >>> [*rows_by_turns(said(1, "stars", "plain squares", 4) + said(2, "sashes", "posts", 3))]
    []
    """
    rows = [
        (((int(one[1]), _singular(one[2])), (int(one[3]), _singular(one[4]))), int(one[5]))
        for one in _ROW.finditer(text)
    ]
    in_all = Counter[str]()
    for row, made in rows:
        for number, kind in row:
            in_all[kind] += number * made
    across = {row[0][0] + row[1][0] for row, _ in rows}
    by_turns = all(abs(row[0][0] - row[1][0]) <= 1 and row[0][1] != row[1][1] for row, _ in rows)
    if 2 <= len(rows) <= MOST_ROWS and by_turns and len(across) == 1 and len(in_all) == 2:
        one, other = in_all.values()
        yield ByTurns(across.pop(), sum(made for _, made in rows), (one, other))


def _singular(kind):
    return " ".join(word.removesuffix("s") for word in kind.split())
