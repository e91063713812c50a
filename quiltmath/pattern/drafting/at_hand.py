"""What of a draft is at hand to be sewn: pieces, units and pieces of strip sets, as large as they finish, and how many
of each are not used yet."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator
from fractions import Fraction
from math import sqrt
from typing import NamedTuple

from ... import lengths
from ...usual import RULER
from .figures import measure
from .model import Entry

HALF_CENTIMETRE = Fraction(50, 254)
SEAM, METRIC_SEAM = Fraction(1, 4), Fraction(75, 254)
"""Inches: the seam where none is printed, a quarter inch and 0.75 cm."""
LOOKS = {"half-square": 4, "quarter-square": 2, "flying geese": 4}
"""In how many ways a unit of a kind can lie, turned by quarters, that look different."""
_OF_A_SQUARE = {"half-square": 2, "quarter-square": 2}
"""How many units two squares make that are cut on the diagonal before they are sewn."""
_SHARE = re.compile(r"[(,]\D*?(\d+)(?![\d./])\s+(?:for|in)\b")
_NOT_PIECED = ("border", "sashing", "cornerstone", "binding", "triangle", "setting", "backing", "label")


class Allowances(NamedTuple):
    """By how many inches the squares of half- and quarter-square units are cut larger than these finish, and in what
    steps units finish: with quarter-inch seams 7/8, 1 1/4 and 1/2."""

    halves: Fraction
    quarters: Fraction
    step: Fraction


class Item(NamedTuple):
    """What is sewn in as one piece: its finished size in inches, how many are left, in how many ways it can lie, its
    `fabric`, of a unit that of its first part, the `shares` of them that the page tells, and whether it is `sewn` of
    several pieces."""

    name: str
    width: Fraction
    height: Fraction
    left: int
    looks: int = 1
    fabric: str = ""
    shares: tuple[int, ...] = ()
    sewn: bool = False

    @property
    def square(self) -> bool:
        """Whether it is as high as wide."""
        return self.width == self.height

    def gives(self, number: int) -> bool:
        """Whether so many use all that is left of it up, or a share that the page tells: "157 (72 for the corners)"."""
        return number == self.left or number in self.shares

    @property
    def again(self) -> int:
        """By how many degrees it is turned until it looks and lies as before."""
        return 90 * max(self.looks, 1 if self.square else 2)


def length(text: str) -> Fraction | None:
    """A printed length in inches."""
    read = measure(text, 0)
    return read.sides[0].inches if read is not None else None


def as_printed(side: Fraction, metric: bool = False) -> str:
    """A length as a page prints it.

    >>> as_printed(Fraction(7, 2)), as_printed(Fraction(100, 254), metric=True)
    ('3 1/2', '1 cm')
    """
    return lengths.text(side, "cm" if metric else "in")


def sides(size: object) -> tuple[Fraction, Fraction] | None:
    """A printed size in inches; of a square both sides are alike.

    >>> sides("3 1/2") == sides(["3 1/2", "3 1/2"])
    True
    """
    texts = size if isinstance(size, list) else [size, size]
    read = [length(text) for text in texts if isinstance(text, str)]
    return (read[0], read[1]) if len(read) == 2 and read[0] is not None and read[1] is not None else None


def two_seams(entries: list[Entry]) -> Fraction:
    """What two seams take of a piece, in inches: as the page prints it, or as is usual."""
    printed = next((one.data["seam"] for one in entries if one.table == "sheet" and "seam" in one.data), "")
    metric = any(text.endswith("cm") for one in entries if one.table == "cut" for text in _texts(one))
    return 2 * (length(printed.removeprefix("scant ")) or (METRIC_SEAM if metric else SEAM))


def allowances(entries: list[Entry]) -> Allowances:
    """What `proofs` derives from the seam, to the steps in which pages print it: 1/8 in, and half centimetres.

    >>> [str(size) for size in allowances([])]
    ['7/8', '5/4', '1/2']
    """
    taken = two_seams(entries)
    metric = any(text.endswith("cm") for one in entries if one.table == "cut" for text in _texts(one))
    step = HALF_CENTIMETRE if metric else Fraction(RULER["in"])
    halves, quarters = (round(float(taken) * share / step) * step for share in (1 + sqrt(1 / 2), 1 + sqrt(2)))
    return Allowances(halves, quarters, HALF_CENTIMETRE if metric else Fraction(1, 2))


def _texts(entry):
    size = entry.data.get("size", entry.data.get("strip", ""))
    return size if isinstance(size, list) else [size]


def count_of(entry: Entry, entries: list[Entry]) -> int:
    """How many pieces a line of the cutting list gives; 0 where that is not told."""
    if "per_print" in entry.data:
        fabric = next((one for one in entries if one.path == ("fabric", entry.data.get("fabric", ""))), None)
        return entry.data["per_print"] * (fabric.data.get("prints", 0) if fabric else 0)
    number = entry.data.get("count", 0)
    return number if isinstance(number, int) else 0


def items(entries: list[Entry], also: str = "") -> list[Item]:
    """What can be sewn into blocks (`also` into borders, or as sashing), and is not used up yet.

    >>> from . import draft
    >>> [(one.name, str(one.width), one.left) for one in items(list(draft('Navy: 60 squares 3 1/2"').entries))]
    [('A', '3', 60)]
    """
    used = used_up(entries)
    found = _all(entries, also)
    return [one._replace(left=one.left - used[one.name]) for one in found if one.left > used[one.name]]


def _all(entries: list[Entry], also: str = "") -> Iterator[Item]:
    """Every piece, unit and piece of a strip set; pieces with a place of their own only where it is this one."""
    taken = two_seams(entries)
    for one in entries:
        if one.table == "cut" and "cut" not in one.data and not (_place(one) and _place(one) != also):
            size = sides(one.data.get("size"))
            if size and min(size) > taken:
                width, height = (side - taken for side in size)
                yield Item(one.name, width, height, count_of(one, entries), 1, one.data.get("fabric", ""), shares(one))
        elif one.table == "unit" and (finished := unit_size(one, entries)):
            kind, parts = one.data.get("kind", ""), one.data.get("parts", ())
            first = next((cut.data.get("fabric", "") for cut in entries if cut.name in parts[:1]), "")
            made, at_once = one.data.get("count", 0), one.data.get("at_a_time") or _OF_A_SQUARE.get(kind, 1)
            spare = tuple(range(made - at_once + 1, made)) if made > at_once > 1 else ()  # "you will have one to spare"
            looks = 4 if len(parts) > 2 else LOOKS.get(kind, 1)
            yield Item(one.name, *finished, made, looks, first, spare, sewn=True)
        elif one.table == "strip_set" and (segment := _segment(one, entries)):
            yield segment


def unit_size(unit: Entry, entries: list[Entry]) -> tuple[Fraction, Fraction] | None:
    """How large a unit finishes, as it is printed or as its parts are cut."""
    taken = two_seams(entries)
    for key, more in (("finished", Fraction(0)), ("trim_to", taken)):
        if size := sides(unit.data.get(key)):
            return size[0] - more, size[1] - more
    if "kind" not in unit.data or "parts" not in unit.data:
        return None
    first = next((one for one in entries if one.table == "cut" and one.name == unit.data["parts"][0]), None)
    inner = next((one for one in entries if one.path == ("unit", unit.data["parts"][0]) and one is not unit), None)
    sewn = unit_size(inner, entries) if inner else None
    cut = (sewn[0] + taken, sewn[1] + taken) if sewn else sides(first.data.get("size")) if first else None
    if cut is None:
        return None
    larger = allowances(entries)
    kind, four = unit.data["kind"], unit.data.get("at_a_time") == 4
    if kind == "flying geese":
        high, wide = sorted(side - taken for side in cut)
        long = cut[0] - larger.quarters
        return (long, long / 2) if four else (wide, high)
    if kind == "square in a square":
        side = on_ruler(float(cut[0] - taken) * sqrt(2))
        return side, side
    off = {"half-square": larger.halves, "quarter-square": larger.quarters}.get(kind, taken)
    return cut[0] - off, cut[1] - off


def on_ruler(inches: float) -> Fraction:
    """A length to the nearest step of the ruler.

    >>> str(on_ruler(12.73))
    '51/4'
    """
    step = Fraction(RULER["in"])
    return round(inches / step) * step


def _segment(strip_set, entries):
    """A piece of a strip set: as high as its strips together, as wide as it is cut off."""
    strips = {one.name: length(one.data["strip"]) for one in entries if one.table == "cut" and "strip" in one.data}
    widths = [strips.get(name) for name in strip_set.data.get("strips", ())]
    wide = length(strip_set.data.get("sub_cut", ""))
    if not widths or None in widths or wide is None:
        return None
    taken, pieces = two_seams(entries), strip_set.data.get("pieces", 0)
    high = sum((width - taken for width in widths), Fraction(0))
    spare = tuple(range(pieces * 4 // 5, pieces))  # strip sets give more pieces than are needed
    return Item(strip_set.name, wide - taken, high, pieces, 2, shares=spare, sewn=True)


def shares(entry: Entry) -> tuple[int, ...]:
    """How many pieces of a line the page tells to be for one thing: "157 squares (72 for the corners, 85 for ...)"."""
    return tuple(int(text) for text in _SHARE.findall(entry.words.text))


def _place(entry):
    """The word for its place in the quilt that keeps a piece out of the blocks."""
    return next((word for word in _NOT_PIECED if word in entry.role), "")


def size_of(name: str, entries: list[Entry], also: str = "") -> tuple[Fraction, Fraction] | None:
    """How large a piece, a unit or a block finishes: as its first column is high and its first row wide."""
    block = next((one for one in entries if one.path == ("block", name)), None)
    if block is None:
        return next(((one.width, one.height) for one in _all(entries, also) if one.name == name), None)
    for key, more in (("finished", Fraction(0)), ("trim_to", two_seams(entries))):
        if size := sides(block.data.get(key)):
            return size[0] - more, size[1] - more
    rows = [[_turned_size(word, entries) for word in row] for row in _written(block)]
    if not rows or any(size is None for row in rows for size in row):
        return None
    return sum((size[0] for size in rows[0]), Fraction(0)), sum((row[0][1] for row in rows), Fraction(0))


def _turned_size(word, entries):
    name, turn = word.rsplit(":", 1) if ":" in word else (word, "0")
    size = size_of(name, entries)
    return size[::-1] if size and int(turn) % 180 else size


def used_up(entries: list[Entry]) -> Counter[str]:
    """How many of each piece and unit the units, the blocks and the setting take that are known."""
    used: Counter[str] = Counter()
    for one in entries:
        if one.table == "unit" and "parts" in one.data:
            used.update(_taken_by(one))
        for row in _rows(one):
            used.update({name: row.count(name) * one.data.get("count", 1) for name in row})
        for key, number in (("sides", 2), ("top", 2), ("corner", 4)) if one.table == "border" else ():
            used[one.data.get(key, "")] += number
    setting = next((one for one in entries if one.table == "setting"), None)
    if setting is not None and {"across", "down"} <= setting.data.keys():
        number = setting.data["across"] * setting.data["down"]
        more = number // 2 if "alternate" in setting.data else 0
        used[setting.data.get("block", "")] += number - more
        used[setting.data.get("alternate", "")] += more
    return used


def _taken_by(unit):
    """How many of its whole parts a kind of unit takes."""
    number, (first, *others) = unit.data.get("count", 0), unit.data["parts"]
    kind, at_a_time = unit.data["kind"], unit.data.get("at_a_time")
    if kind == "flying geese":
        return {first: -(-number // (at_a_time or 1)), others[0]: number * (2 if at_a_time == 1 else 1)}
    if kind in ("snowball", "square in a square"):
        return {first: number, others[0]: 4 * number}
    return {name: -(-number // (at_a_time or 1)) for name in (first, *others)}


def _rows(entry):
    """The names in the rows of a block, or of a setting that is drawn."""
    for row in _written(entry) if entry.table in ("block", "setting") else ():
        yield [word.rpartition(":")[0] if ":" in word else word for word in row]


def _written(entry):
    """The rows, each a list of names as they are turned."""
    return [
        row.split() if isinstance(row, str) else row for key in ("rows", "columns") for row in entry.data.get(key, ())
    ]
