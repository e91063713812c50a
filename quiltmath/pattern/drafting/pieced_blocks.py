"""How the blocks of a draft are pieced, where its numbers allow it in few ways: proposals, never taken unasked."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction
from typing import Any

from .at_hand import Item, items, sides, two_seams
from .in_passing import NOTHING, InPassing
from .layouts import Sashed, drawn, finished_size, kinds, listed, only, told_blocks, unlike
from .model import SOMETHING_ELSE, Choice, Entry, Question
from .piecing import in_told_rows, piecings
from .rows_in_words import Told, allowed, rows_in_words
from .small_blocks import SmallBlock, small_blocks, with_spare, written
from .stated import WHICH_SIZE
from .way_to_piece import Piecing

MOST_CHOICES = 5
MOST_WRONG = 2
"""Figures: rows that a page tells in words, which make more of them wrong, were not understood."""
SHORT = {
    "half-square": "HST",
    "quarter-square": "QST",
    "flying geese": "geese",
    "square in a square": "square-in-square",
}
LEAST_BLOCKS, MOST_BLOCKS = 4, 400  # where nobody says how many there are


def blocks(entries: list[Entry], in_passing: InPassing = NOTHING, page: str = "") -> Iterator[Question]:
    """The questions how blocks are pieced, of pieces that they would use up exactly.

    >>> from . import draft
    >>> for asked in draft('Set 3 across and 4 down\\nNavy: 60 squares 3"\\nCream: 48 squares 3"').questions:
    ...     print(asked.text, [choice.label for choice in asked.choices])
    how is each of 12 blocks pieced, of 5 A (Navy) and 4 B (Cream)? ['A B A / B A B / A B A', \
'B A B / A A A / B A B', 'something else']
    """
    told = [one for one in entries if one.table == "block" and "rows" not in one.data]
    cut = [one.words for one in entries if one.table == "cut"]
    yield from _other_blocks(entries)
    if not cut or not told and (any(one.table == "block" for one in entries) or drawn(entries)):
        return
    whole = told_blocks(entries) or finished_size(entries) or any("border" in one.role for one in entries)
    if not told and not whole:  # of a list alone nobody knows what is made
        return
    at_hand = items(entries)
    for block in told or [Entry("block", {}, max(cut, key=lambda words: words.start), "block")]:
        number: Any = block.data.get("count")
        known = isinstance(number, int)
        numbers = [number] if known else _numbers(in_passing.made, entries) if len(told) < 2 else []
        side = _side(block, entries)
        wide = [side] if side is not None else _perhaps_wide(in_passing, entries)
        small = small_blocks(at_hand)
        with_small = _first(
            [*with_spare(at_hand, small), *(one.item for one in small)], numbers or in_passing.made, wide
        )
        pieced = filter(None, (_first(at_hand, numbers, wide), with_small))
        found = max(pieced, key=lambda one: _kinds_used(one[1][0], small), default=None)
        if found is None:
            near = [one.item for one in small_blocks(at_hand, near=True)]
            found = _first([*at_hand, *near], numbers, wide)
        if known and found is None:  # so many of both kinds: of the others a square is cut
            between = {
                number - one.left for one in at_hand if one.square and one.looks == 1 and 2 * one.left <= number + 1
            }
            found = _first([one for one in at_hand if number - one.left not in between], sorted(between), wide)
        if not known and (found is None or len(found[1][0].uses) < 2):
            found = _likeliest(at_hand, (*in_passing.made, *numbers), side, entries) or found
        if known and found is None and (half := _by_turns(number, at_hand, wide, entries)):
            block, numbers, found = block.but(count=None), [half[0]], half
        if found is not None and not numbers and (found[1][0].wrong or _leaves_units(found[1][0], at_hand)):
            found = None
        if not told:
            found = _unit_by_turns(at_hand, in_passing) or found
        if found is not None and _against_words(found[1][0], in_passing, entries):
            found = None
        perhaps = numbers or in_passing.made or ([found[0]] if found else [])
        in_words = _in_words(at_hand, perhaps, wide, rows_in_words(page), entries)
        if in_words is not None and (found is None or _takes_more(in_words[2][0], found[1][0])):
            said, found = in_words[0], in_words[1:]
            block = replace(block, remarks=(*block.remarks, said))
        if found is not None:
            yield _pieced(block, *found, entries)


def _against_words(piecing: Piecing, in_passing: InPassing, entries: list[Entry]) -> bool:
    """Whether a block takes fewer units of a kind than the page says one is sewn from, or others than are made per
    block, or the pieces make fewer of one such unit than the page says are made: a count of the cutting list is wrong
    then, and no other block is meant."""
    units = [one.data for one in entries if one.table == "unit"]
    kinds = {one.name: one.data.get("kind") for one in entries if one.table == "unit"}
    uses = [(kinds.get(name), many) for name, many in piecing.uses]
    made = [(kind, [one.get("count", 0) for one in units if one.get("kind") == kind]) for kind, _ in uses if kind]
    in_all = Counter[str]()
    for kind, many in uses:
        in_all[kind or ""] += many
    return (
        any(kind == other and many < told for kind, many in uses for other, told in in_passing.in_block)
        or any(in_all[kind] % told for kind, told in in_passing.per_block if in_all[kind])
        or any(
            kind == other and len(counts) == 1 and counts[0] < told
            for kind, counts in made
            for other, told in in_passing.made_of
        )
    )


def _in_words(
    at_hand: list[Item],
    numbers: Sequence[int],
    wide: Sequence[Fraction | None],
    told: Sequence[Told],
    entries: list[Entry],
) -> tuple[str, int, list[Piecing]] | None:
    """What a page says in words of the rows of a block, how many such blocks there are, and how they are pieced."""
    found = [
        (one.text, number, ways)
        for one in told
        for number in numbers
        for side in wide
        if (ways := in_told_rows(at_hand, number, side, allowed(one, at_hand, entries)))
    ]
    return min(found, key=lambda one: one[2][0].wrong, default=None)


def _takes_more(told: Piecing, found: Piecing) -> bool:
    """Whether a way to piece a block that the page tells in words makes no more of its figures wrong than the one that
    its numbers allow, or takes more kinds of pieces and units."""
    return told.wrong <= found.wrong or told.wrong <= MOST_WRONG and len(told.uses) > len(found.uses)


def _numbers(made: Sequence[int], entries: list[Entry]) -> list[int]:
    """How many blocks of one kind there may be: of two kinds that are `made` and fill the rows together, of one that
    fills them, of two by turns where the places are an odd number."""
    found = told_blocks(entries)
    two = [one for total in found for one in made if total - one in made]
    by_turns = [half for total in found[:1] if len(found) == total % 2 for half in (total - total // 2, total // 2)]
    return [*dict.fromkeys((*two, *found, *by_turns))]


def _by_turns(
    number: int, at_hand: list[Item], wide: Sequence[Fraction | None], entries: list[Entry]
) -> tuple[int, list[Piecing]] | None:
    """How many blocks of pieces there are, and how they are pieced, where so many in all fill the rows that the page
    tells of, and units, or squares, as large or nearly so are the others by turns; None where they are not."""
    setting = only(entries, "setting")
    if setting is None or setting.data.get("style") == "on point" or told_blocks(entries) != [number]:
        return None
    for half in (number - number // 2, number // 2):
        found = _first([one for one in at_hand if not one.sewn], [half], wide)
        side = found[1][0].width if found else 0
        if any(one.square and one.gives(number - half) and abs(one.width - side) <= 1 for one in at_hand if found):
            return found
    return None


def _unit_by_turns(at_hand: list[Item], in_passing: InPassing) -> tuple[int, list[Piecing]] | None:
    """Of which unit there are just as many as rows of two kinds by turns take, and it alone as a block, where squares
    as large are left for the others; None where there is none."""
    for unit in at_hand:
        beside = any(one.square and one.width == unit.width and one.name != unit.name for one in at_hand)
        if unit.sewn and unit.square and beside and any(unit.left in one.numbers for one in in_passing.by_turns):
            return unit.left, piecings([unit], unit.left, unit.width)
    return None


def _perhaps_wide(in_passing: InPassing, entries: list[Entry]) -> list[Fraction | None]:
    """The finished sides that blocks may have by what is told in passing, with a seam allowance or without; at last,
    nothing is known of them."""
    taken = two_seams(entries)
    return [*dict.fromkeys(side - less for side in in_passing.sides for less in (taken, 0) if side > taken), None]


def _other_blocks(entries: list[Entry]) -> Iterator[Question]:
    """The question how the other blocks are pieced, where those of one kind are too few for the rows that the page
    tells of, and what is left makes just as many as are still needed."""
    (total, *_), made = told_blocks(entries) or [0], kinds(entries)
    if len(made) != 1 or not 0 < made[0].number < total or drawn(entries):
        return
    ways = piecings(items(entries), total - made[0].number, made[0].width)
    if ways:
        first = next(one for one in entries if one.path == ("block", made[0].name))
        other = Entry("block", {}, first.words, "block 2" if first.name == "block" else f"{first.name} 2")
        yield _pieced(other, total - made[0].number, ways, entries)


def _kinds_used(way: Piecing, small: list[SmallBlock]) -> tuple[int, int]:
    """How right a way to piece a block is, and how many kinds of what is at hand it takes."""
    parts = {one.item.name: one.parts for one in small}
    return -way.wrong, len(frozenset().union(*(parts.get(name, {name}) for name, _ in way.uses)))


def _first(
    at_hand: list[Item], numbers: Sequence[int], wide: Sequence[Fraction | None]
) -> tuple[int, list[Piecing]] | None:
    """Of some numbers of blocks, perhaps so wide, the first that can be pieced, and how; better with no figure wrong
    than with one."""
    found = [(number, ways) for side in wide for number in numbers if (ways := piecings(at_hand, number, side))]
    return min(found, key=lambda one: one[1][0].wrong, default=None)


def _likeliest(
    at_hand: list[Item], made: Sequence[int], side: Fraction | None, entries: list[Entry]
) -> tuple[int, list[Piecing]] | None:
    """How many blocks there may be, and how they are pieced, where nobody says their number: those that use up most
    kinds of pieces, rather as many as the page says are `made`; with borders as wide across as down."""
    pairs = (one for one in entries if "border" in one.role or not one.role and one.data.get("count") == 2)
    strips = {max(size) for one in pairs if (size := sides(one.data.get("size"))) and size[0] != size[1]}
    total = next(iter(told_blocks(entries)), 0)
    found = []
    for number in dict.fromkeys((*made, *(one.left for one in at_hand if LEAST_BLOCKS <= one.left <= MOST_BLOCKS), 1)):
        ways = [way for way in piecings(at_hand, number, side) if not way.wrong]
        if number == 1:
            centres = (one for one in at_hand if one.square and one.left == 1)
            ways += [way for one in centres for way in piecings([one], 1, one.width)]
            ways = [way for way in ways if way.height + two_seams(entries) in strips]
        elif not total:
            ways = [way for way in ways if _leaves_a_border(number, way, at_hand, entries)]
        found += [(number, ways)] if ways and (not total or number <= total) else []
    return max(found, key=lambda one: (len(one[1][0].uses), one[0] in made, one[0]), default=None)


def _leaves_units(way: Piecing, at_hand: list[Item]) -> bool:
    """Whether a block of one unit alone leaves units of another kind over, which must be sewn in somewhere."""
    (name, _), *others = way.uses
    return not others and any(one.sewn and one.name != name for one in at_hand)


def _leaves_a_border(number: int, way: Piecing, at_hand: list[Item], entries: list[Entry]) -> bool:
    """Whether so many blocks, perhaps with sashing, can be set so that borders are as wide across as down."""
    cut = [sides(one.data.get("size")) for one in entries if one.role == "sashing"]
    thin = {min(size) - two_seams(entries) for size in cut if size}
    thin |= {min(one.width, one.height) for one in at_hand if max(one.width, one.height) == way.width}
    return any(
        unlike(sashed.size(way.width, way.height, sash), entries) <= 1
        for across in range(1, number + 1)
        if number % across == 0
        for sashed in (Sashed(across, number // across, True), Sashed(across, number // across, False))
        for sash in (Fraction(0), *thin)
    )


def with_likeliest_size(question: Question, entries: list[Entry]) -> Question | None:
    """The question whether a block is printed finished or with its seams, that first of which its pieces can be sewn;
    None where another line answers it, and any other question as it is."""
    if question.text != WHICH_SIZE:
        return question
    block = next((one for one in entries if one.path == question.choices[0].changes[0].path), None)
    printed = _side(block, entries) if block is not None else None
    perhaps = [_side(one.changes[0], entries) for one in question.choices]
    if printed in perhaps and printed is not None:
        return None
    told = {**(block.data if block is not None else {}), **question.choices[0].changes[0].data}
    if not isinstance(told.get("count"), int):
        return question
    at_hand = items(entries)
    fits = [piecings(at_hand, told["count"], side) if side is not None else [] for side in perhaps]
    ranked = sorted(zip(fits, question.choices), key=lambda one: one[0][0].wrong if one[0] else MOST_CHOICES)
    return replace(question, choices=tuple(choice for _, choice in ranked))


def _side(block: Entry, entries: list[Entry]) -> Fraction | None:
    for key, more in (("finished", Fraction(0)), ("trim_to", two_seams(entries))):
        size = sides(block.data.get(key))
        if size and size[0] == size[1]:
            return size[0] - more
    return None


def _pieced(block: Entry, number: int, ways: list[Piecing], entries: list[Entry]) -> Question:
    """The question in which of these ways a block is pieced."""
    fabrics = {one.name: one.data.get("fabric", "") for one in entries if one.table == "cut"}
    told = [f"{many} {name}{f' ({fabric})' if (fabric := fabrics.get(name)) else ''}" for name, many in ways[0].uses]
    which = _which(block.name, number)
    if len(ways[0].uses) == 1 and ways[0].uses[0][1] == 1:
        name = shortly(ways[0].uses[0][0])
        text = f"is each {name} a block of its own, one of {number}?" if number > 1 else f"is {name} the middle, alone?"
        yes = replace(_as_rows(block, number, ways[0], entries), label="yes")
        return Question(block.words, text, (yes, SOMETHING_ELSE))
    said = f"{listed(told[:6])}{' and more' if len(told) > 6 else ''}"
    text = f"how is {which} pieced, of {shortly(said)}?"
    choices = tuple(_as_rows(block, number, way, entries) for way in ways[:MOST_CHOICES])
    return Question(block.words, text, (*choices, SOMETHING_ELSE))


def _which(name: str, number: int) -> str:
    """Blocks that are asked about: "the block", "each of 12 star blocks", "each of 18 of block A"."""
    if number == 1:
        return f"the {name}"
    called = {"block": "blocks", "block 2": "other blocks"}.get(name)
    return f"each of {number} {called or (f'of {name}' if name.startswith('block') else f'{name} blocks')}"


def _as_rows(block: Entry, number: int, way: Piecing, entries: list[Entry]) -> Choice:
    """A way to piece a block as an answer: every round a block in the next."""
    small = {one.item.name: one for one in small_blocks(items(entries), near=True)}
    made = [
        entry for name, many in way.uses if name in small for entry in small[name].entries(many * number, block.words)
    ]
    for place, rows in enumerate(way.rounds, 1):
        last = place == len(way.rounds)
        named = [[_in_block(word, block.name) for word in row] for row in rows]
        data = {**(block.data if last else {}), "count": number, "rows": written(named)}
        name = block.name if last else f"{block.name} round {place}"
        made.append(Entry("block", data, block.words, name, block.remarks if last else ()))
    if number == 1 and only(entries, "setting") is None:
        data = {"style": "straight", "across": 1, "down": 1, "block": block.name}
        made.append(Entry("setting", data, block.words))
    if len(way.rounds) == 1:
        label = " / ".join(" ".join(row) for row in way.rows)
    else:
        centre, *logs = _in_order(way)
        label = f"{centre} in the middle, round it {', '.join(logs)}"
    return Choice(shortly(label), tuple(made))


def shortly(text: str) -> str:
    """What is asked, the units by their short names: "HST:90 A / A HST:270"."""
    for kind, short in SHORT.items():
        text = text.replace(kind, short)
    return text


def _in_order(way):
    """What is sewn in several rounds, each piece once: the middle, then round by round, upright pieces first."""
    first = max(way.rounds[0], key=len)
    rows = [row for rows in way.rounds for row in sorted(rows, key=len, reverse=True)]
    words = [first[(len(first) - 1) // 2], *(word for row in rows for word in row if not word.startswith("round "))]
    return [*dict.fromkeys(word.split(":")[0] for word in words)]


def _in_block(word, name):
    return f"{name} {word}" if word.startswith("round ") else word
