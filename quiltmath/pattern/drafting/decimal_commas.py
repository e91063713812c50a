"""The decimal commas of a page in centimetres, which its other figures prove to be none of lists or thousands."""

from __future__ import annotations

import re

_PROVES = re.compile(r"(?<![\d,.])(?:0,\d{1,3}(?![\d,])|\d{1,3},\d{1,2}[^\S\n]*(?:cm|mm|m)\b)", re.IGNORECASE)
"""A figure whose comma can only be that of a decimal: "0,75", "7,5 cm"."""
_POINT = re.compile(r"(?<![\d.,])\d{1,3}\.\d{1,2}(?![\d.,])")
_COMMA = re.compile(
    r"(?<!rows )(?<!steps )(?<!blocks )(?<![\d.,/])(?P<whole>\d{1,3}),(?P<part>\d{1,2})(?![\d,/]|\s?-?\s?\d+/\d)",
    re.IGNORECASE,
)


def with_points(page: str) -> str:
    """The page, its decimal commas as points, where a comma in one of its figures can be nothing else and none of them
    has a point.

    >>> with_points("Seam 0,75 cm. 18 squares 7,5 x 7,5; rows 2,4"), with_points("18 squares 7,5")
    ('Seam 0.75 cm. 18 squares 7.5 x 7.5; rows 2,4', '18 squares 7,5')
    """
    if not _PROVES.search(page) or _POINT.search(page):
        return page
    return _COMMA.sub(r"\g<whole>.\g<part>", page)
