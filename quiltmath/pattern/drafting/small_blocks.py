"""The squares that pieces make before they are sewn into blocks: four-patches, pairs of rectangles, paws."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations, product
from typing import NamedTuple

from .at_hand import Item
from .model import Entry, Words
from .way_to_piece import FAR, MOST_ITEMS, NEAR, turned

Rows = list[list[str]]
MOST_CLAWS = 4


class SmallBlock(NamedTuple):
    """A square as it can be sewn into a block: the `item`, the pieces it takes, its rows, and the rows of what is sewn
    into it first, by its name."""

    item: Item
    parts: frozenset[str]
    rows: Rows
    inner: tuple[tuple[str, Rows], ...] = ()

    def entries(self, number: int, words: Words) -> Iterator[Entry]:
        """So many of it as blocks, what is sewn into it before it."""
        for name, rows in (*self.inner, (self.item.name, self.rows)):
            yield Entry("block", {"rows": written(rows), "count": number}, words, name)


def written(rows: Rows) -> list[str] | Rows:
    """Rows as a sheet has them: in one text each, where no name has a blank.

    >>> written([["A", "B"]]), written([["set 1", "B"]])
    (['A B'], [['set 1', 'B']])
    """
    return [" ".join(row) for row in rows] if all(" " not in word for row in rows for word in row) else rows


def small_blocks(at_hand: list[Item], near: bool = False) -> list[SmallBlock]:
    """The small blocks that use up what they take of what is at hand; `near` them those too of strip sets of which the
    strips, or the pieces cut off, are misprinted, and of rectangles of which one figure is.

    >>> from fractions import Fraction
    >>> one, two = (Item(name, Fraction(3), Fraction(3), 16) for name in "AB")
    >>> [(small.item.name, small.item.left, small.rows) for small in small_blocks([one, two])]
    [('A-B pair', 16, [['A'], ['B']]), ('A-B four-patch', 8, [['A', 'B'], ['B', 'A']])]
    """
    if len(at_hand) > MOST_ITEMS:
        return []
    return [*_of_two_kinds(at_hand, near), *_of_segments(at_hand, near), *_paws(at_hand)]


def with_spare(at_hand: list[Item], small: list[SmallBlock]) -> list[Item]:
    """What is at hand, of each piece also the share that small blocks leave over that take one for each of theirs."""

    def spare(one):
        taken = (made.item.left for made in small if one.name in made.parts and len(made.parts) == 2)
        return tuple(dict.fromkeys(one.left - many for many in taken if many < one.left))

    return [one._replace(shares=(*one.shares, *spare(one))) for one in at_hand]


def _of_two_kinds(at_hand, near):
    """Of squares of one size in two kinds pairs, and, of as many of each, four-patches; of rectangles half as wide as
    long pairs side by side, laid level."""
    for one, other in combinations([one for one in at_hand if one.looks == 1], 2):
        names, parts, long = f"{one.name}-{other.name}", frozenset((one.name, other.name)), max(one.width, one.height)
        if one.square and other.square and one.width == other.width:
            item = Item(f"{names} pair", long, 2 * long, min(one.left, other.left), 4)
            yield SmallBlock(item, parts, [[one.name], [other.name]])
        alike = one.left == other.left and {one.width, one.height} == {other.width, other.height}
        if alike and one.square and one.left % 2 == 0:
            item = Item(f"{names} four-patch", 2 * long, 2 * long, one.left // 2, 2)
            yield SmallBlock(item, parts, [[one.name, other.name], [other.name, one.name]])
        halves = [each for each in (one, other) if max(each.width, each.height) == 2 * min(each.width, each.height)]
        if halves and (alike or near and _are_nearly_alike(one, other)):
            side, many = max(halves[0].width, halves[0].height), max(one.left, other.left)
            yield SmallBlock(Item(f"{names} pair", side, side, many, 4), parts, [[_level(one)], [_level(other)]])


def _are_nearly_alike(one, other):
    """Whether two kinds of rectangles are as many of one size, but for one figure that is wrong by a little."""
    pairs = [*zip(*(sorted((each.width, each.height)) for each in (one, other)))]
    wrong = sum(low != high for low, high in pairs) + (one.left != other.left)
    close = all(abs(low - high) <= NEAR for low, high in pairs)
    return wrong == 1 and close and abs(one.left - other.left) <= max(one.left, other.left) * FAR


def _level(item):
    return item.name if item.width > item.height else f"{item.name}:90"


def _of_segments(at_hand, near):
    """Of a strip set, pieces twice as high as wide: four-patches of two, one of them turned."""
    for one in at_hand:
        if one.sewn and one.looks == 2 and one.left % 2 == 0 and one.height > one.width:
            rows, sides = [[one.name, f"{one.name}:180"]], dict.fromkeys((one.height, 2 * one.width))
            for side in sides if near or len(sides) == 1 else ():
                item = Item(f"{one.name} four-patch", side, side, one.left // 2, 2)
                yield SmallBlock(item, frozenset((one.name,)), rows)


def _paws(at_hand):
    """A large square with claws, such as half-squares, along two sides, its own fabric next to it, and a small square
    where these meet."""
    plain = [one for one in at_hand if one.square and one.looks == 1]
    claws = [one for one in at_hand if one.square and one.looks == 4]
    for claw, palm in product(claws, plain):
        along = palm.width / claw.width
        corners = [one for one in plain if one.width == claw.width] if along in range(2, MOST_CLAWS + 1) else []
        yield from (paw for corner in corners if (paw := _paw(palm, claw, corner, along)))


def _paw(palm, claw, corner, along):
    """The paw of these, so many claws along each of its two sides; None where their numbers are not those of one."""
    counts = (claw.left, 2 * along * palm.left), (min(corner.left, palm.left), palm.left)
    if any(abs(left - needed) > needed * FAR for left, needed in counts):
        return None
    name, many = f"{palm.name}-{claw.name} paw", int(along)
    side, wide = palm.width + claw.width, f"{palm.name}-{claw.name} paw, claws"
    above, beside = (turned(claw.name, turn) for turn in ((0, 180) if claw.fabric == palm.fabric else (180, 0)))
    rows = [[corner.name, *[above] * many], [wide, palm.name]]
    parts = frozenset((palm.name, claw.name, corner.name))
    return SmallBlock(Item(name, side, side, palm.left, 4), parts, rows, ((wide, [[beside]] * many),))
