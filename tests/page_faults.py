"""Faults planted in the words of printed pages, one figure at a time, and the verdict each page then comes to.

`python -m tests.page_faults [PAGE…]` goes through every page of tests/drafting/pages.txt that gets a go by its answers
(or of these text files, by first answers), makes each figure of it wrong that a quilter would cut by, and prints which
of the faulty pages still get a go and ask nothing more. Some do no harm: a strip too few may be one to spare.
"""

import re
import sys
from collections import Counter
from collections.abc import Iterator
from fractions import Fraction
from itertools import chain
from pathlib import Path
from typing import NamedTuple

from quiltmath import pattern
from quiltmath.pattern import Unreadable

from .test_drafted_pages import printed, reviewed

SIZE = re.compile(r"(?<![\d/.])(?P<whole>\d{1,3})(?:[ -]?(?P<part>\d/\d{1,2}))?(?=\s*(?:\"|in\b|inch|x\b|×|by\b))")
COUNT = re.compile(r"(?<![\d/.$-])\d{1,3}(?=\)?\s*(?:-|@|:|of\b|squares?|sq|rect|pie|tri|strips?|\(|\d))")
BOUGHT = re.compile(r"(?<![\d/.])(?:\d[ -])?\d+(?:/\d)?(?=\s*(?:yd|yard))")
EIGHTH = Fraction(1, 8)  # of a yard: no less is sold
LONG = 24  # inches: a border
LEAST = 4  # pieces: of fewer, one too few may be cut from what is left


class Faulty(NamedTuple):
    """A page with one figure made wrong, and the line it stands in, before and after."""

    text: str
    printed: str
    misprinted: str


def faulty(page: str) -> Iterator[Faulty]:
    """The page with each figure of its cutting list too small, and each length to buy halved."""
    lines, entries = page.split("\n"), pattern.draft(page).entries
    for table, ways in (("cut", (_sizes, _counts)), ("fabric", (_lengths,))):
        for at in sorted({one.words.line - 1 for one in entries if one.table == table}):
            for wrong in chain.from_iterable(way(lines[at]) for way in ways):
                yield Faulty("\n".join([*lines[:at], wrong, *lines[at + 1 :]]), lines[at], wrong)


def _sizes(line):
    """A size half an inch too small, as where a seam is forgotten; a border 5 in too short.

    >>> [*_sizes('2 strips 3 1/2" x 40 1/2"')]
    ['2 strips 3" x 40 1/2"', '2 strips 3 1/2" x 35 1/2"']
    """
    for match in SIZE.finditer(line):
        size = Fraction(match["whole"]) + Fraction(match["part"] or 0)
        less = size - (5 if size >= LONG else Fraction(1, 2))
        if less > 1:
            yield _with(line, match, less)


def _counts(line):
    """The count of a line, a quarter too small.

    >>> [*_counts('Navy: 48 squares 3 1/2"')], [*_counts('Navy: 2 squares 3 1/2"')]
    (['Navy: 36 squares 3 1/2"'], [])
    """
    match = COUNT.search(line)
    if match and int(match[0]) >= LEAST:
        yield _with(line, match, Fraction(int(match[0]) * 3 // 4))


def _lengths(line):
    """Half of what a fabric is bought of, in eighths of a yard.

    >>> [*_lengths("1 1/4 yd navy, 1/8 yd red")]
    ['5/8 yd navy, 1/8 yd red']
    """
    for match in BOUGHT.finditer(line):
        length = sum(map(Fraction, re.split("[ -]", match[0])))
        if length >= 2 * EIGHTH:
            yield _with(line, match, length / 2 // EIGHTH * EIGHTH)


def _with(line, match, value):
    whole, part = divmod(value, 1)
    told = " ".join(str(one) for one in (whole, part) if one) or "0"
    return line[: match.start()] + told + line[match.end() :]


def verdict(page, answers=()):
    """What the review says of a page; "no sheet" where its answers make none."""
    try:
        return reviewed(page, answers)[1].verdict
    except (Unreadable, AssertionError):  # an answer that the page with its fault no longer offers
        return "no sheet"


def questions(page):
    """What is asked of a page at first, without its figures."""
    return {re.sub(r"\d+(?: \d+/\d+|/\d+)?", "", one.text) for one in pattern.draft(page).questions}


def main(paths):
    """Plant every fault in these pages, or in those of the tests, and print which get a go all the same."""
    files = ((path, Path(path).read_text("utf-8"), ()) for path in paths)
    pages = files if paths else ((one.title, one.text, one.answers) for one in printed() if one.verdict == "go")
    counts = Counter()
    for name, text, answers in pages:
        if verdict(text, answers) != "go":
            continue
        usual = questions(text)
        for one in faulty(text):
            came = verdict(one.text, answers)
            came = "asked" if came == "go" and questions(one.text) - usual else came
            counts[came] += 1
            if came == "go":
                print(f"{name}\n  printed    {one.printed.strip()}\n  misprinted {one.misprinted.strip()}", flush=True)
    print(", ".join(f"{number} {came}" for came, number in counts.most_common()))
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
