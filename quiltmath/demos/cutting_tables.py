"""The tables of a plan: its rows in sewing order, and what is cut for it."""

from collections.abc import Iterable
from typing import Any

from .table import Table


def rows_table(plan: Any, caption: str) -> Table:
    """The rows of a plan in sewing order, and the way each is pressed where they take turns.

    >>> from quiltmath import settings
    >>> print(rows_table(settings.straight(across=3, down=2, block=9), "A quilt in rows"))
    A quilt in rows
    Row 1
        from left to right: 3 blocks
        seams pressed: left
    Row 2
        from left to right: 3 blocks
        seams pressed: right
    """
    told = [(row.title, row.words, plan.layout.way_of(row)) for row in plan.rows()]
    if any(way for *_, way in told):
        return Table(("row", "from left to right", "seams pressed"), tuple(told), caption)
    return Table(("row", "from left to right"), tuple(row[:2] for row in told), caption)


def cut_table(lines: Iterable[Any], caption: str) -> Table:
    """The lines of a cutting list.

    >>> from quiltmath import settings
    >>> print(cut_table(settings.on_point(across=2, down=2, block=9).cutting_list()[1:2], "To cut"))
    To cut
    side triangle
        cut: 1 square of 14 in, each cut twice on the diagonals
        fabric: setting
        grain, and spare ones: long side on the straight grain
    """
    rows = tuple(
        (part, f"{cut}{how and f', {how}'}", fabric, "; ".join(more))
        for part, cut, fabric, how, more in (line.told for line in lines)
    )
    return Table(("piece", "cut", "fabric", "grain, and spare ones"), rows, caption)
