"""Printed figures: rows of published tables and worked examples, each with its source, and what they ask of a
proof."""

import csv
import re
from functools import cache

from quiltmath.resources import folder


@cache
def rows() -> tuple[dict[str, str], ...]:
    """Every printed figure the kit is compared with, as a tuple of dicts (see data/published/about.txt)."""
    with open(folder("data") / "published" / "figures.csv", encoding="utf-8", newline="") as lines:
        return tuple(csv.DictReader(lines))


@cache
def sources(name: str) -> tuple[tuple[str, str], ...]:
    """The (title, address) of each source with a printed figure for the proof of this name, in the order of
    the data.

    >>> sources("side_triangle")[0][0]
    'Piecing a Quilt on Point (tutorial page), phoebemoon.com'
    """
    asks = re.compile(rf"\b{re.escape(name)}\(")
    return tuple(
        dict.fromkeys(
            (row["source_title"], row["source_address"])
            for row in rows()
            if asks.search(row["ask"]) and not row["reason"]
        )
    )
