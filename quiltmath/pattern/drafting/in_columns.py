"""Blocks or units of a draft in columns or rows, with long strips between them."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import combinations, cycle, islice, product
from typing import NamedTuple

from .at_hand import Item, items
from .in_passing import NOTHING, InPassing
from .layouts import Made, counted, finished_size, listed, told_blocks, unlike
from .model import SOMETHING_ELSE, Choice, Entry, Question
from .way_to_piece import FAR, turned

LEAST_IN_LINE = 3
MISPRINTED = Fraction(1, 10)
"""Of the length of a strip: nobody misprints more of it where its place is told."""
NEAR = 1
"""Inches by which a strip is too short or too long where one of the figures is wrong."""


class Stack(NamedTuple):
    """What stands in a line: a piece, a unit or a block, all that is left of it; and (its name, its turn) of each that
    stands there in turn."""

    item: Item
    turns: tuple[tuple[str, int], ...]

    @property
    def alike(self) -> bool:
        """Whether one piece alone stands there, though it may be turned."""
        return len({name for name, _ in self.turns}) == 1

    @property
    def names(self) -> list[str]:
        """What stands there, each once."""
        return [*dict.fromkeys(name for name, _ in self.turns)]


def _stacks(blocks: list[Item], at_hand: list[Item], told: InPassing) -> Iterator[Stack]:
    """What may stand in lines: every block, unit or piece, pieces of a strip set every second one turned end for end,
    and those of two sets by turns."""
    segments = [one for one in at_hand if one.sewn and one.looks == 2]
    ends_turned = [Stack(one, ((one.name, 0), (one.name, 180))) for one in segments]
    yield from ends_turned if told.turned else ()
    yield from (Stack(one, ((one.name, 0),)) for one in (*blocks, *at_hand))
    yield from () if told.turned else ends_turned
    for one, other in combinations(segments, 2):
        if (one.width, one.height, one.left) == (other.width, other.height, other.left):
            yield Stack(one._replace(left=2 * one.left), ((one.name, 0), (other.name, 0)))


def in_columns(entries: list[Entry], made: list[Made], told: InPassing) -> Iterator[tuple[Fraction, Question]]:
    """(By how much the borders that are still needed differ, the question) of blocks or units so set.

    As many stand in each line as one strip is long, or one block; where none fit, such as do but for one strip, or an
    inch of its length; or, where the page tells of columns, whatever number of strips is printed.
    """
    at_hand = items(entries)
    blocks = [Item(one.name, one.width, one.height, one.number) for one in made]
    strips = [
        one
        for one in items(entries, "sashing")
        if one.looks == 1 and 2 * min(one.width, one.height) <= max(one.width, one.height)
    ]
    pieced = {one.name for one in entries if one.table == "block"}
    alone = [] if any(one.name in pieced for one in made) else at_hand  # no setting leaves its blocks out
    total = next(iter(told_blocks(entries)), 0)
    tries = [(0, False), *([] if made else [(NEAR, False)]), *([(0, True)] if told.columns else [])]
    found: list[tuple[tuple[Fraction, bool, int], Question]] = []
    for near, loosely in tries:
        hints = told if loosely else NOTHING
        found += [
            _in_lines(key, Stack(unit, stack.turns), turn, strip, lines, each, entries, told)
            for stack, strip in product(_stacks(blocks, alone, told), strips)
            if (whole := stack.item) != strip and (not near or whole.looks > 1)
            for turn, unit in _lying(whole)
            for key, along in (("columns", unit.height), ("rows", unit.width))
            for each, lines in _as_long(unit.left, along, max(strip.width, strip.height), near, hints)
            if each >= (LEAST_IN_LINE if whole not in blocks or total else 1)
            or not made
            and _bars(unit, strip, at_hand)
            if lines > 1 and (each % len(stack.turns) == 0 or stack.alike)
            if loosely or min(abs(strip.left - lines - more) for more in (-1, 1)) <= near
        ]
        if any(rank[0] == 0 for rank, _ in found) or found and not told.columns:
            break
    for (off, _, _), asked in sorted(found, key=lambda one: one[0]):
        yield off, asked


def _ends_left(size, strip, entries):
    """Whether two strips are left that lie above and below what is so large, or at its sides, and make it as large as
    the printed quilt."""
    printed = finished_size(entries)
    pairs = [one for one in items(entries, "border") if one.left == 2 and not one.square and one.name != strip.name]
    sides = [(min(one.width, one.height), max(one.width, one.height)) for one in pairs]
    across, down = size
    return any(
        (thin, long) == ((printed[1] - down) / 2, across)
        and across == printed[0]
        or (thin, long) == ((printed[0] - across) / 2, down)
        and down == printed[1]
        for thin, long in sides
        if printed is not None
    )


def _bars(unit, strip, at_hand):
    """Whether two kinds of strips, as long, are the bars of a quilt, one more of the first, and nothing but strips of
    borders is left over."""
    others = [one for one in at_hand if one.name not in (unit.name, strip.name)]
    as_long = max(unit.width, unit.height) == max(strip.width, strip.height) and unit.left == strip.left + 1
    return as_long and not unit.sewn and all(not one.square and one.left in (2, 4) for one in others)


def _lying(unit):
    """(By how many degrees it is turned, as it then lies) in each way a piece can stand in a line; units, such as
    geese, as they are sewn."""
    yield 0, unit
    if not unit.square and unit.looks <= 2:
        yield 90, unit._replace(width=unit.height, height=unit.width)


def _as_long(number, along, strip, near, told):
    """(How many stand in each line, how many lines) of so many, for lines as long as a strip, nearly so, or as many as
    the page says are made, though the strips or the number may be misprinted."""
    each = round(strip / along)
    if each and abs(strip - each * along) <= near and number % each == 0:
        yield each, number // each
    for lines in told.made:
        if each * along == strip and 0 < abs(lines * each - number) <= number * FAR:
            yield each, lines
        if number % lines == 0 and 0 < abs(strip - number // lines * along) <= strip * MISPRINTED:
            yield number // lines, lines


def _in_lines(key, stack, turn, strip, lines, each, entries, told):
    """((by how much the borders that are still needed differ, whether the page tells of no such lines, how it is
    turned), the question) of lines so set."""
    unit, stands = stack.item, (strip.height > strip.width) == (key == "columns")
    in_turn = [turned(name, base + turn) for name, base in stack.turns]
    line, part = [*islice(cycle(in_turn), each)], [strip.name if stands else f"{strip.name}:90"]
    outside = strip.left > lines
    found = [line if place % 2 == outside else part for place in range(2 * lines - 1 + 2 * outside)]
    words = max((one.words for one in entries if one.name in (*stack.names, strip.name)), key=lambda one: one.start)
    number = lines + (1 if outside else -1)
    where = f"{'between them and outside' if outside else 'between them'} {counted(strip.name, number, entries)}"
    choice = Choice(
        f"{lines} {_lying_so(key, stack, turn, each, entries)}, {where}",
        (Entry("setting", {"style": "straight", key: found, "across": None, "down": None}, words),),
    )
    many = unit.left // len(stack.names)
    parts = [counted(name, many, entries) for name in stack.names] + [counted(strip.name, strip.left, entries)]
    asks = f"{listed(parts)}: how are they set?"
    high, wide = (unit.height, unit.width) if key == "columns" else (unit.width, unit.height)
    along, across = each * high, lines * wide + number * min(strip.width, strip.height)
    size = (across, along) if key == "columns" else (along, across)
    off = Fraction(0) if _ends_left(size, strip, entries) else unlike(size, entries)
    return (off, told.columns != (key == "columns"), turn), Question(words, asks, (choice, SOMETHING_ELSE))


def _lying_so(key, stack, turn, each, entries):
    """The lines in words: "columns of 24 of A, turned by a quarter"."""
    if len(stack.names) > 1:
        said = f"{key} of {each}, {' and '.join(stack.names)} by turns"
    else:
        (name,) = stack.names
        said = f"{key} of {counted(name, each, entries)}" if each > 1 else f"{key}, each 1 of {name}"
    said += ", every second one turned end for end" if stack.alike and len(stack.turns) > 1 else ""
    return f"{said}{', turned by a quarter' if turn else ''}"
