"""How blocks are pieced and set, where the numbers of a page allow it in few ways: proposals, never taken unasked."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import combinations
from typing import NamedTuple

from .model import Choice, Entry, Question
from .parts import roles

SOMETHING_ELSE = Choice("something else")
MOST_ACROSS = 40  # blocks: of a setting whose counts are all that is told
MOST_CHOICES = 4
LARGEST_CHECKER = 7  # squares along the side of a block
CHECKERS = {2: "four-patch", 3: "nine-patch"}


class Sashed(NamedTuple):
    """A straight setting with sashing between the blocks, or round the outside too.

    >>> Sashed(3, 4, True).sashes, Sashed(3, 4, True).cornerstones, Sashed(3, 4, False).cornerstones
    (31, 20, 6)
    """

    across: int
    down: int
    around: bool

    @property
    def sashes(self) -> int:
        """The strips as long as a block."""
        more = 1 if self.around else -1
        return self.across * (self.down + more) + self.down * (self.across + more)

    @property
    def cornerstones(self) -> int:
        """The squares where strips cross."""
        more = 1 if self.around else -1
        return (self.across + more) * (self.down + more)

    @property
    def label(self) -> str:
        """It in words."""
        where = "between the blocks and round the outside" if self.around else "between the blocks alone"
        return f"{self.across} across and {self.down} down, sashing {where}"


def layouts(entries: list[Entry]) -> Iterator[Question]:
    """The questions that pieces put whose counts a layout would use up exactly.

    >>> from . import draft
    >>> for asked in draft(
    ...     'Set 3 across and 4 down\\nNavy: 60 squares 3"\\nCream: 48 squares 3"\\n'
    ...     'Green: 31 sashing strips 2" x 8"\\nRed: 20 cornerstones 2" square').questions:
    ...     print(asked.text, [choice.label for choice in asked.choices][:1])
    31 of sashing and 20 of cornerstone: how are the blocks set? ['3 across and 4 down, sashing between the blocks \
and round the outside']
    60 of A (Navy) and 48 of B (Cream): is each of 12 blocks a nine-patch of 5 and 4? ['A B A / B A B / A B A']
    """
    yield from _sashed(entries)
    yield from _checkers(entries)


def _sashed(entries):
    """Sashing and cornerstones that are told as such: how many blocks stand across and down, and whether sashing runs
    round the outside."""
    sashes, stones = roles(entries, "sashing"), roles(entries, "cornerstone")
    known = _only(entries, "setting")
    if len(sashes) != 1 or len(stones) != 1 or known is not None and {"style", "sashing"} & known.data.keys():
        return
    sash, stone = sashes[0], stones[0]
    counts = sash.data.get("count"), stone.data.get("count")
    size = (known.data.get("across"), known.data.get("down")) if known is not None else (None, None)
    if None not in size:
        ways = [Sashed(*size, around) for around in (True, False)]
    else:
        ways = [
            Sashed(across, down, around)
            for around in (True, False)
            for across in range(1, MOST_ACROSS)
            for down in range(across, MOST_ACROSS)
        ]
    exact = [way for way in ways if (way.sashes, way.cornerstones) == counts]
    near = exact or (ways if None not in size else [])
    if not near or len(near) > MOST_CHOICES:
        return
    choices = tuple(Choice(way.label, (_setting(way, sash, stone, known),)) for way in near)
    told = f"{counts[0]} of {sash.name} and {counts[1]} of {stone.name}"
    needed = "" if exact else f" ({' or '.join(f'{way.sashes} and {way.cornerstones}' for way in near)} are needed)"
    yield Question(sash.words, f"{told}: how are the blocks set{needed}?", (*choices, SOMETHING_ELSE))


def _setting(way, sash, stone, known):
    """The entry of a sashed setting."""
    sashing = {"part": sash.name, "cornerstone": stone.name, **({} if way.around else {"around": False})}
    data = {"style": "straight", "across": way.across, "down": way.down, "sashing": sashing}
    return Entry("setting", {**(known.data if known else {}), **data}, known.words if known else sash.words)


def _checkers(entries):
    """Squares of one size in two fabrics, as many as blocks of a checkerboard take."""
    number = _blocks(entries)
    if number is None or any(one.table in ("block", "unit", "strip_set") and "rows" in one.data for one in entries):
        return
    for pair in combinations(_plain_squares(entries), 2):
        (one, _), (other, _) = pair
        if one.data["size"] != other.data["size"] or one.data.get("fabric") == other.data.get("fabric"):
            continue
        (a, many), (b, few) = sorted(pair, key=lambda line: -line[1])
        if many % number or few % number:
            continue
        more, fewer = many // number, few // number
        side = next((side for side in range(2, LARGEST_CHECKER + 1) if side * side == more + fewer), 0)
        if side and more == (side * side + 1) // 2:
            yield _checker(a, b, number, (more, fewer), side, _only(entries, "block"))


def _checker(a, b, number, each, side, block):
    """The question whether these two are the squares of a checkered block, so many of each in one; of the `block` that
    is told already, where there is one."""
    rows = [" ".join((a.name, b.name)[(across + down) % 2] for across in range(side)) for down in range(side)]
    name = CHECKERS.get(side, "checkerboard")
    more, fewer = each
    told = " and ".join(
        f"{number * count} of {one.name} ({one.data.get('fabric', 'no fabric')})" for one, count in zip((a, b), each)
    )
    words = max(a.words, b.words, key=lambda one: one.start)
    told_so_far = block if block is not None else Entry("block", {"count": number}, words, name)
    taken = replace(told_so_far, data={**told_so_far.data, "rows": rows})
    return Question(
        words,
        f"{told}: is each of {number} blocks a {name} of {more} and {fewer}?",
        (Choice(" / ".join(rows), (taken,)), SOMETHING_ELSE),
    )


def _plain_squares(entries):
    """(line, how many in all) of squares that are cut whole and have no place of their own, under names that a row can
    hold as they are."""
    prints = {one.name: one.data["prints"] for one in entries if one.table == "fabric" and "prints" in one.data}
    for one in entries:
        plain = isinstance(one.data.get("size"), str) and "cut" not in one.data and not one.role
        count = one.data.get("count", one.data.get("per_print", 0) * prints.get(one.data.get("fabric"), 0))
        if one.table == "cut" and plain and isinstance(count, int) and count and one.name.isalnum():
            yield one, count


def _blocks(entries):
    """How many blocks the page says there are."""
    block, setting = _only(entries, "block"), _only(entries, "setting")
    if block is not None and isinstance(block.data.get("count"), int):
        return block.data["count"]
    if setting is not None and {"across", "down"} <= setting.data.keys() and setting.data.get("style") != "on point":
        return setting.data["across"] * setting.data["down"]
    return None


def _only(entries, table):
    """The one entry of a table; None where there are none or several."""
    found = [one for one in entries if one.table == table]
    return found[0] if len(found) == 1 else None
