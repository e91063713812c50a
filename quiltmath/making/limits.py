"""How large a sheet may be: what no quilt needs and would be sewn for minutes is refused, with the figure that is too
large."""

from __future__ import annotations

from collections import Counter
from math import ceil
from typing import TYPE_CHECKING

from .. import lengths
from ..pattern import Unreadable
from ..pattern.names import EDGES, final, inside_out, uses
from ..usual import DEEPEST, MOST_HANDLED, MOST_LINES, MOST_NAMED, MOST_PATCHES, MOST_SEAMS, MOST_TABLES
from .bill import patches_in

if TYPE_CHECKING:
    from collections.abc import Sequence

    from ..pattern.sheet import Sheet

TABLES = ("fabric", "strip_set", "unit", "block")
SEAMS_IN_A_UNIT = 4


class TooLarge(Unreadable):
    """A sheet that would need more than is sewn here."""


def refuse_too_large(sheet: Sheet) -> None:
    """Refuse a sheet with more tables, blocks within blocks, lines, fabric, seams or patches than are sewn here.

    >>> from quiltmath import pattern
    >>> from quiltmath.pattern.sheet import EXAMPLE
    >>> blocks = "".join(f'[block.{i + 1}]\\nrows = ["{i}"]\\n' for i in range(50)) + '[block.0]\\nrows = ["A"]\\n'
    >>> refuse_too_large(pattern.read_text(EXAMPLE + blocks))
    Traceback (most recent call last):
    quiltmath.making.limits.TooLarge: sheet, line 43: block '15' is made of blocks in 16 stages; at most 15 are sewn \
here: write the rows of the inner ones out
    """
    for refuse in (_stages, _tables, _lines, _fabric, _seams, _patches):
        refuse(sheet)


def refuse_too_many(sheet: Sheet, count: int, what: str) -> None:
    """Refuse a sheet that takes more patches than are sewn here."""
    if count > MOST_PATCHES:
        raise _too_large(
            sheet,
            ["setting"],
            f"{what} would need {count:,} patches; at most {MOST_PATCHES:,} are sewn here: check the counts, or review "
            "one quarter of it",
        )


def _too_large(sheet, path: Sequence[str | int], said: str) -> TooLarge:
    return TooLarge.at(sheet, path, said)


def _tables(sheet):
    for kind in TABLES:
        count = len(getattr(sheet, kind))
        if count > MOST_TABLES:
            raise _too_large(
                sheet,
                [kind],
                f"a sheet has at most {MOST_TABLES} [{kind}] tables; got {count:,}: take out those that "
                "nothing is made of",
            )


def _stages(sheet):
    """Refuse blocks made of blocks made of blocks, and so on."""
    deep = {}
    for name in inside_out(sheet, *sheet.block):
        if name not in sheet.block:
            continue
        deep[name] = 1 + max((deep.get(inner, 0) for inner in uses(sheet, name)), default=0)
        if deep[name] > DEEPEST:
            raise _too_large(
                sheet,
                ["block", name, "rows"],
                f"block {name!r} is made of blocks in {deep[name]} stages; at most {DEEPEST} are sewn here: write the "
                "rows of the inner ones out",
            )


def _lines(sheet):
    """Refuse a long cutting list in many sizes: each line is judged in each of them."""
    sizes = 1 + len(sheet.other_size)
    if len(sheet.cut) * sizes > MOST_LINES:
        raise _too_large(
            sheet,
            ["other_size"],
            f"{len(sheet.cut)} lines of the cutting list in {sizes} sizes are {len(sheet.cut) * sizes:,}; at most "
            f"{MOST_LINES:,} are reviewed at once: give some of the sizes in a sheet of their own",
        )


def _fabric(sheet):
    """Refuse more of one fabric than can be said in inches, be it cut ever so wastefully."""
    ends = Counter()
    for cut in sheet.cut:
        ends[cut.fabric] += ceil(max(sheet.cut_size(cut)) * cut.count)
    for name, inches in ends.items():
        if inches > lengths.LONGEST:
            raise _too_large(
                sheet,
                ["fabric", name],
                f"the pieces of {name!r} measure {inches:,} in end to end; at most {lengths.LONGEST:,} in are planned: "
                "check their sizes and counts",
            )


def _seams(sheet):
    """Refuse rows that name more parts, and so more steps and units, than are sewn one by one; equal rows of a block
    are sewn once."""
    rows = [*(block.rows for block in sheet.block.values()), sheet.setting.lines]
    for piece in (sheet.setting.sides, sheet.setting.corners):
        rows += [piece.rows_at(where) for where in EDGES] if piece is not None and piece.how == "built" else []
    named = sum(len(row) for block in rows for row in block)
    if named > MOST_NAMED:
        raise _too_large(
            sheet,
            ["block"],
            f"the rows of this sheet name {named:,} parts; at most {MOST_NAMED:,} are read here: write what repeats as "
            "a block of its own",
        )
    different = sum(len(row) for block in rows for row in {tuple((it.name, it.turn) for it in row) for row in block})
    units = SEAMS_IN_A_UNIT * len(sheet.unit) + sum(len(one.strips) for one in sheet.strip_set.values())
    sizes = 1 + len(sheet.other_size)
    seams = (different + units + len(sheet.step)) * sizes
    if seams > MOST_SEAMS:
        raise _too_large(
            sheet,
            ["block"],
            f"the different rows, units and steps of this sheet{f' in its {sizes} sizes' * (sizes > 1)} take "
            f"{seams:,} seams; at most {MOST_SEAMS:,} are sewn here one by one: write what repeats as a block of its "
            "own, or review one quarter of it",
        )


def _patches(sheet):
    """Refuse something made on the way that has too many patches, and too many that are handled again and again."""
    steps = (name for step in sheet.step for name in step.gives)
    made = patches_in(sheet, final(sheet), *sheet.block, *sheet.unit, *sheet.strip_set, *steps)
    for name, count in made.items():
        if name in sheet.block and count > MOST_PATCHES:
            raise _too_large(
                sheet,
                ["block", name, "rows"],
                f"block {name!r} would have {count:,} patches; at most {MOST_PATCHES:,} are sewn here: check its rows",
            )
    handled = sum(made.values()) + len(sheet.border) * made.get(final(sheet), 0)
    if handled > MOST_HANDLED:
        raise _too_large(
            sheet,
            ["step"] if sheet.step else ["border"] if sheet.border else ["block"],
            f"its blocks, steps and borders take up {handled:,} patches, counted anew in each; at most "
            f"{MOST_HANDLED:,} are handled here: do more of it in one step, or review one quarter of it",
        )
