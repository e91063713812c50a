"""The order of work as a pattern tells it, line by line, and the same told in a better order."""

from __future__ import annotations

import re
from collections.abc import Sequence

STAY_STITCH = "Stay-stitch an eighth of an inch inside each line that will be cut on the bias."
MEASURE = "Measure the made top through its middle, both ways."
CUT_THEN = "Measure the made top through its middle, both ways, and cut the borders to that."
NOT_YET = "(Not the borders: cut them later, when the top is measured.)"
READ = 500  # characters of a line


def first(lines: Sequence[str], pattern: str, unless: str | None = None) -> int | None:
    """The number of the first line in which one pattern is found and the other is not, or None; capitals count as small
    letters.

    >>> first(["Cut the squares.", "Cut the borders."], r"cut.*border")
    1
    """
    told = (line[:READ].lower() for line in lines)
    return next(
        (
            number
            for number, line in enumerate(told)
            if re.search(pattern, line) and not (unless and re.search(unless, line))
        ),
        None,
    )


def stitched_first(lines: Sequence[str], cut: int) -> list[str]:
    """The lines with the stay-stitching before the bias cut of that number: moved there, or put in.

    >>> stitched_first(["Cut along the diagonal.", "Stay-stitch the edges."], 0)
    ['Stay-stitch the edges.', 'Cut along the diagonal.']
    """
    stay = first(lines, r"stay.?stitch")
    line = STAY_STITCH if stay is None else lines[stay]
    rest = [line for number, line in enumerate(lines) if number != stay]
    return [*rest[:cut], line, *rest[cut:]]


def measured_first(lines: Sequence[str], cut: int) -> list[str]:
    """The lines with the borders, cut in the line of that number, cut after the top is measured and before they are
    sewn on.

    A line that cuts the borders alone is moved; in one that cuts other things too it is said that the borders wait.

    >>> measured_first(["Cut the borders.", "Sew the rows.", "Measure the top.", "Add the borders."], 0)
    ['Sew the rows.', 'Measure the top.', 'Cut the borders.', 'Add the borders.']
    >>> measured_first(["Cut the squares and the borders.", "Sew the rows."], 0)[0]
    'Cut the squares and the borders. (Not the borders: cut them later, when the top is measured.)'
    """
    sewn = first(lines, r"\b(sew|add|join|attach|stitch)\b.*\bborder", r"\b(cut|measure)\b")
    measure = first(lines, r"\bmeasure\b.*\b(top|through|middle|cent(er|re))\b", r"\bbinding\b")
    alone = not re.search(r",|;|\band\b|&", lines[cut].lower().partition("border")[0])
    measuring = MEASURE if alone else CUT_THEN
    if alone and measure is not None:
        measuring = lines[measure]
    gone = {cut, measure} if alone else set()
    place = min((number for number in (sewn, measure) if number is not None and number > cut), default=len(lines))
    told = [line if alone or number != cut else f"{line} {NOT_YET}" for number, line in enumerate(lines)]
    before, after = (
        [line for number, line in enumerate(told) if number not in gone and (number < place) == early]
        for early in (True, False)
    )
    return [*before, measuring, *([lines[cut]] if alone else []), *after]
