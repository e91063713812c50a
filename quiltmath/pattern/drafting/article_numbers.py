"""The article numbers that stand in a shopping list before the names of its fabrics: "FH-101 bramble 1 yd"."""

from __future__ import annotations

import re

_NUMBER = re.compile(r"(?<![\w/.#-])(?:[a-z]{1,4}-?\d{3,6}|\#\d{3,6}|\d{4,6}(?=-))(?:-[a-z\d]{1,4})?(?![\w/\".-])")
_BUYS = re.compile(r"\d\s*(?:y(?:ar)?ds?|met(?:er|re)s?|c?m|fat\s+(?:quarter|eighth)s?|fqs?)\b")
LEAST = 2
"""Lines: one number alone may be anything else."""


def without_article_numbers(plain: str) -> str:
    """The plain page without the article numbers of its fabrics, blanks in their place, where several lines that buy
    bear one each.

    >>> print(without_article_numbers("FH-101 red 2 yd\\nFH-7 x 3 in\\nFH-102 blue 1 yd".casefold()))
           red 2 yd
    fh-7 x 3 in
           blue 1 yd
    """
    bought = [line for line in plain.splitlines() if _BUYS.search(line)]
    found = [_NUMBER.findall(line) for line in bought]
    numbers = [one for of_line in found for one in of_line]
    if len(numbers) < LEAST or len({*numbers}) < len(numbers) or any(len(of_line) > 1 for of_line in found):
        return plain
    return _NUMBER.sub(lambda match: " " * len(match[0]) if match[0] in numbers else match[0], plain)
