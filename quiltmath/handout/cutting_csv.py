"""A cutting list as CSV, for a spreadsheet: one line for each part, with the size to cut and the exact one."""

from __future__ import annotations

import csv
from collections.abc import Iterable
from io import StringIO
from typing import TYPE_CHECKING

from .. import lengths

if TYPE_CHECKING:
    from ..making import Need

COLUMNS = (
    "part",
    "fabric",
    "pieces",
    "to cut",
    "width",
    "height",
    "unit",
    "exact width",
    "exact height",
    "cut",
    "grain",
    "note",
)
CUT = {
    "whole": "whole",
    "shaped": "at an angle from a strip",
    "once": "once on the diagonal",
    "twice": "twice on the diagonals",
}
AS_TEXT = ("=", "+", "-", "@", "\t", "\r")  # a spreadsheet would take what begins so for a formula


def cutting_csv(needs: Iterable[Need]) -> str:
    """A cutting list (`plan.cutting_list()`, or `made.needs.values()` of a sheet) as CSV text, heads first.

    Sizes are in the list's own unit, decimals with a point: what to cut on the ruler, and exact to four decimals.

    >>> from quiltmath import settings
    >>> print(cutting_csv(settings.on_point(across=5, down=6, block=10).cutting_list()[1:2]))
    part,fabric,pieces,to cut,width,height,unit,exact width,exact height,cut,grain,note
    side triangle,setting,18,5,15.375,15.375,in,15.3492,15.3492,twice on the diagonals,long side on the straight \
grain,
    <BLANKLINE>
    """
    file = StringIO()
    writer = csv.writer(file, lineterminator="\n")
    writer.writerow(COLUMNS)
    writer.writerows(map(_row, needs))
    return file.getvalue()


def _row(need: Need) -> list[str]:
    cut = [_number(size, need.unit) for size in (need.size[0], need.size[-1])]
    exact = [_number(size, need.unit) for size in need.pair]
    words = [need.part, need.fabric, str(need.count), str(need.squares), *cut, need.unit, *exact]
    return [_safe(word) for word in (*words, CUT[need.cut], need.grain, need.note)]


def _number(inches, unit: str) -> str:
    return f"{float(inches / lengths.INCHES[unit]):.4f}".rstrip("0").rstrip(".")


def _safe(word: str) -> str:
    """A word that a spreadsheet takes as it is written."""
    return f"'{word}" if word.startswith(AS_TEXT) else word
