"""The borders that follow from the numbers: from the inside out, each as long as what it is sewn to."""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction
from itertools import product
from math import sqrt
from typing import Any, NamedTuple

from ...usual import RULER
from .at_hand import Item, items, length, on_ruler, sides, size_of, two_seams, used_up
from .in_columns import MISPRINTED
from .layouts import Sashed
from .model import SOMETHING_ELSE, Choice, Entry, Question
from .small_blocks import small_blocks

Size = tuple[Fraction, Fraction]
_CORNERS = re.compile(r"\bcorners?\W*$", re.IGNORECASE)
"""What squares are for at the end of their line: of which corners, it does not say."""


class Border(NamedTuple):
    """One border as it can lie round what is sewn so far: its entries (blocks of a pieced one first, the border last),
    how wide it is, which pieces it takes, what to call it, and whether it lies at the `sides` and above and below."""

    entries: tuple[Entry, ...]
    width: Fraction
    takes: frozenset[str]
    label: str
    sides: bool = True
    ends: bool = True

    def round(self, size: Size) -> Size:
        """How large it makes what it lies round."""
        return size[0] + 2 * self.width * self.sides, size[1] + 2 * self.width * self.ends


def borders(entries: list[Entry]) -> Iterator[Question]:
    """The questions which borders lie round the blocks, where pieces are left that fit round them, and which have
    squares in their corners."""
    yield from _corners(entries)
    centre = _centre(entries)
    free = items(entries, "border")
    if centre is None or not free:
        return
    told = [one for one in entries if one.table == "border"]
    path = _outward(centre, told, free, entries)
    new = [one for one in path if one.takes]
    if not new:
        return
    changes = [entry for border in path for entry in border.entries]
    label = ", then ".join(border.label for border in path)
    words = max((one.words for one in entries if one.name in new[-1].takes), key=lambda one: one.start)
    yield Question(
        words, f"from the inside out, are these the borders: {label}?", (Choice("yes", tuple(changes)), SOMETHING_ELSE)
    )


def _corners(entries: list[Entry]) -> Iterator[Question]:
    """Four squares that nothing else takes, as wide as the strips of a border: its corners; squares of no place only
    where that is one border."""
    used, taken = used_up(entries), two_seams(entries)
    for one in entries:
        told = one.role.endswith(("corner", "cornerstone")) or not one.role and _CORNERS.search(one.words.text)
        whole = one.table == "cut" and "cut" not in one.data and (told or not one.role)
        size = sides(one.data.get("size")) if whole else None
        if size is None or size[0] != size[1] or one.data.get("count") != 4 or used[one.name]:
            continue
        of_border = (border for border in entries if border.table == "border" and "corner" not in border.data)
        fits = [border for border in of_border if _width(border, entries) == size[0] - taken]
        for border in fits if told or len(fits) == 1 else ():
            asks = f"are the 4 squares {one.name} the corners of the {border.name or 'border'}?"
            yield Question(one.words, asks, (Choice("yes", (border.but(corner=one.name),)), SOMETHING_ELSE))


def outward(entries: list[Entry]) -> Iterator[Size]:
    """The finished sizes of the top as it is sewn: of what lies inside all borders, then with each of these, as far as
    they are told."""
    size = _centre(entries)
    if size is not None:
        yield size
        for border in (one for one in entries if one.table == "border"):
            width = _width(border, entries)
            if width is None or not {"sides", "top"} <= border.data.keys():
                return
            size = size[0] + 2 * width, size[1] + 2 * width
            yield size


def _centre(entries: list[Entry]) -> Size | None:
    """The finished size of what borders lie round: straight rows with their sashing, or blocks on point."""
    setting = next((one for one in entries if one.table == "setting"), None)
    for key in ("rows", "columns"):
        if setting is not None and (drawn := setting.data.get(key)):
            return _drawn_size(drawn, key == "columns", entries)
    if setting is None or not {"style", "across", "down", "block"} <= setting.data.keys():
        return None
    block, sashing = size_of(setting.data["block"], entries), setting.data.get("sashing")
    across, down = setting.data["across"], setting.data["down"]
    if block is not None and setting.data["style"] == "on point" and not sashing:
        return on_ruler(sqrt(2) * across * float(block[0])), on_ruler(sqrt(2) * down * float(block[1]))
    sash = size_of(sashing["part"], entries, "sashing") if sashing else (Fraction(0), Fraction(0))
    if block is None or sash is None or setting.data["style"] != "straight":
        return None
    return Sashed(across, down, sashing.get("around", True) if sashing else False).size(*block, min(sash))


def _drawn_size(lines: list[Any], upright: bool, entries: list[Entry]) -> Size | None:
    """The finished size of rows as they are drawn, or of columns."""
    names = [line.split() if isinstance(line, str) else line for line in lines]
    sizes = [[_lying(word, entries) for word in line] for line in names]
    known = [[size[::-1] if upright else size for size in line if size is not None] for line in sizes]
    if [*map(len, known)] != [*map(len, names)] or not all(known):
        return None
    along = max(sum((wide for wide, _ in line), Fraction(0)) for line in known)
    across = sum((line[0][1] for line in known), Fraction(0))
    return (across, along) if upright else (along, across)


def _lying(word, entries):
    """How large a block or piece is as it lies in a row."""
    name, _, turn = word.partition(":")
    size = size_of(name, entries, "sashing")
    return size[::-1] if size is not None and turn in ("90", "270") else size


def _outward(size: Size, told: list[Entry], free: list[Item], entries: list[Entry]) -> list[Border]:
    """The borders round what is so large, those that are told among them in their order: the way that takes most."""
    ways: list[list[Border]] = [[]]
    if told and (width := _width(told[0], entries)) is not None and _fits(told[0], size, entries):
        known = Border((told[0],), width, frozenset(), told[0].name)
        ways.append([known, *_outward(known.round(size), told[1:], free, entries)])
    for border in (*_plain(size, free, entries), *_pieced(size, free, entries), *_on_two_sides(size, free, entries)):
        rest = [one for one in free if one.name not in border.takes]
        ways.append([border, *_outward(border.round(size), told, rest, entries)])
        break
    best = max(ways, key=len)
    return [*best, *(Border((one,), Fraction(0), frozenset(), one.name) for one in told if not _among(one, best))]


def _among(told, path):
    return any(told in border.entries for border in path)


def _width(border: Entry, entries: list[Entry]) -> Fraction | None:
    """How wide a border finishes."""
    part = next((one for one in entries if one.table == "cut" and one.name == border.data.get("sides")), None)
    if part is None:
        return None
    size = sides(part.data.get("size", part.data.get("strip")))
    return min(size) - two_seams(entries) if size is not None else None


def _fits(border: Entry, size: Size, entries: list[Entry]) -> bool:
    """Whether the sides of a border that is told are as long as it is high there; where no length is told they are."""
    part = next((one for one in entries if one.table == "cut" and one.name == border.data.get("sides")), None)
    long = length(border.data.get("sides_length", ""))
    if long is None and part is not None and "size" in part.data:
        long = max(sides(part.data["size"]) or (Fraction(0),))
    return long is None or abs(long - two_seams(entries) - size[1]) <= 1


def _plain(size: Size, free: list[Item], entries: list[Entry]) -> Iterator[Border]:
    """Strips round what is so large: two for its sides, then two above and below; where none fit, two pairs of one
    fabric and width, of which one fits, for the other may be misprinted."""
    strips = [one for one in free if not one.square and one.looks == 1 and one.left in (2, 4)]
    ways = [(side, top, *_misfits(side, top, size)) for side, top in product(strips, repeat=2)]
    for side, top, *off in ways:
        if not any(off) and (top.left == side.left == 2 if top is not side else top.left == 4):
            yield _of_strips(side, top, min(side.width, side.height), entries)
    for side, top, *off in ways:
        of_one = top is not side and side.fabric == top.fabric and side.left == top.left == 2
        if of_one and min(off) == 0 and max(off) * 3 <= max(size):
            yield _of_strips(side, top, min(side.width, side.height), entries)


def _on_two_sides(size: Size, free: list[Item], entries: list[Entry]) -> Iterator[Border]:
    """Two strips above and below what is so large, or at its sides, and none elsewhere: as long as it is; where no
    others are left nearly so, for their length may be misprinted."""
    pairs = [one for one in free if not one.square and one.looks == 1 and one.left == 2]
    for one in pairs:
        thin, long = sorted((one.width, one.height))
        key, off = min((("top", abs(long - size[0])), ("sides", abs(long - size[1]))), key=lambda fit: fit[1])
        if off > (long * MISPRINTED if len(pairs) == 1 else 0):
            continue
        words = next(cut.words for cut in entries if cut.name == one.name)
        entry = Entry("border", {key: one.name}, words, f"border of {one.name}")
        label = f"strips {one.name} {'above and below' if key == 'top' else 'at the sides'} alone"
        yield Border((entry,), thin, frozenset((one.name,)), label, key == "sides", key == "top")


def _misfits(side: Item, top: Item, size: Size) -> tuple[Fraction, Fraction]:
    """By how much two strips are too long or too short for the sides and for the top of a border round such a size;
    much where they are not of one width."""
    (thin, long), (also_thin, across) = sorted((side.width, side.height)), sorted((top.width, top.height))
    if thin != also_thin:
        return size
    off = abs(long - size[1]), abs(across - size[0] - 2 * thin)
    return off if max(off) > Fraction(RULER["in"]) else (Fraction(0), Fraction(0))  # on point no size is exact


def _of_strips(side, top, thin, entries):
    words = max((one.words for one in entries if one.name in (side.name, top.name)), key=lambda one: one.start)
    name = f"border of {side.name}"
    entry = Entry("border", {"sides": side.name, "top": top.name}, words, name)
    label = f"strips {side.name} at the sides and {top.name} above and below"
    return Border((entry,), thin, frozenset((side.name, top.name)), label)


def _pieced(size: Size, free: list[Item], entries: list[Entry]) -> Iterator[Border]:
    """Squares or square units in a row along each side, with squares in the corners, all of them used up."""
    for small in small_blocks(free):
        one = small.item
        if one.square and not any(side % one.width for side in size):
            across, down = (int(side / one.width) for side in size)
            if one.gives(2 * (across + down) + 4):
                made = _of_units([one], across, down, None, [*entries, *small.entries(one.left, entries[0].words)])
                sewn = tuple(small.entries(one.left, made.entries[0].words))
                yield made._replace(entries=(*sewn, *made.entries), takes=small.parts)
    for one in free:
        if not one.square or any(side % one.width for side in size):
            continue
        across, down = (int(side / one.width) for side in size)
        for other in free:
            if other is not one and (other.width, other.height) == (one.width, one.height):
                if one.gives(2 * (across + down)) and other.gives(4):
                    yield _of_units([one], across, down, other, entries)
                if one.left == other.left == across + down + 2:
                    yield _of_units([one, other], across, down, None, entries)
        if one.gives(2 * (across + down) + 4):
            yield _of_units([one], across, down, None, entries)


def _of_units(parts, across, down, corner, entries):
    """A border of these by turns, its corners of their own or the ends of its top and bottom."""
    names = [one.name for one in parts]
    words = max((one.words for one in entries if one.name in names), key=lambda one: one.start)
    first = 0 if corner else 1
    rows = {
        "side": [names[(place + first) % len(names)] for place in range(down)],
        "top": [names[place % len(names)] for place in range(across + (0 if corner else 2))],
    }
    name = f"border of {_and(names)}"
    blocks = tuple(
        Entry("block", {"rows": [row], "count": 2}, words, f"{key} of {_and(names)}") for key, row in rows.items()
    )
    data = {"sides": blocks[0].name, "top": blocks[1].name, **({"corner": corner.name} if corner else {})}
    label = f"{len(rows['side'])} {_and(names)} at each side and {len(rows['top'])} above and below" + (
        f" with {corner.name} in the corners" if corner else ""
    )
    takes = frozenset((*names, *((corner.name,) if corner else ())))
    return Border((*blocks, Entry("border", data, words, name)), parts[0].width, takes, label)


def _and(names):
    return " and ".join(names)
