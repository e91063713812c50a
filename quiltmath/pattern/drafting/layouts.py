"""What is known of the setting of a draft: its blocks, how many there are and how large, what the page says of rows."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from typing import NamedTuple

from .at_hand import items, sides, size_of
from .model import Entry
from .way_to_piece import FAR, NEAR

LEFT_OVER = Fraction(1, 4)  # of plain squares that come in packs
TOO_LARGE = 1000
"""So much counts a quilt that is larger, without its borders, than it is printed."""
LONGEST_LETTER = 2  # signs: pieces are named A to Z, then AA


class Sashed(NamedTuple):
    """A straight setting with sashing between the blocks, or round the outside too.

    >>> Sashed(3, 4, True).sashes, Sashed(3, 4, True).cornerstones, Sashed(3, 4, False).cornerstones
    (31, 20, 6)
    """

    across: int
    down: int
    around: bool

    @property
    def more(self) -> int:
        """How many more strips than blocks stand in a row."""
        return 1 if self.around else -1

    @property
    def sashes(self) -> int:
        """The strips as long as a block, where others cross them in cornerstones."""
        return self.across * (self.down + self.more) + self.short

    @property
    def short(self) -> int:
        """The strips as long as a block that stand within the rows."""
        return self.down * (self.across + self.more)

    @property
    def long(self) -> int:
        """The strips between rows, as long as these."""
        return self.down + self.more

    @property
    def cornerstones(self) -> int:
        """The squares where strips cross."""
        return (self.across + self.more) * (self.down + self.more)

    def size(self, width: Fraction, height: Fraction, sash: Fraction) -> tuple[Fraction, Fraction]:
        """The finished size with blocks and sashing of these sizes."""
        across = self.across * width + (self.across + self.more) * sash
        return across, self.down * height + (self.down + self.more) * sash


class Made(NamedTuple):
    """Blocks of one kind: their name, how many, their finished size."""

    name: str
    number: int
    width: Fraction
    height: Fraction


def counted(name, number, entries):
    """So many blocks, units or pieces, by their name: "12 star blocks", "18 of block A", "17 of C (navy)"."""
    of = next((one for one in entries if one.name == name and one.table in ("block", "unit", "cut")), None)
    many = f"{number} " if number else ""
    plural = "" if number == 1 else "s"
    if of is not None and of.table == "cut" and number and len(name) > LONGEST_LETTER and not name.endswith("s"):
        return f"{many}{name}{' strip' if name.endswith('sashing') else ''}{plural}"
    if of is None or of.table == "cut" or name.startswith("block "):
        fabric = of.data.get("fabric") if of else ""
        return f"{many}{'of ' if many else ''}{name}" + (f" ({fabric})" if fabric else "")
    return f"{many}{name if name == of.table else f'{name} {of.table}'}{plural}"


def kinds(entries: list[Entry], rows: Sequence[tuple[int, int]] = ()) -> list[Made]:
    """The blocks that are set: those that are sewn into no other, and plain squares that are as large, or nearly so
    where they fill the `rows` with these: one of the sizes may be misprinted."""
    blocks = [one for one in entries if one.table == "block"]
    pieced = [row for one in blocks for row in one.data.get("rows", ())]
    sewn_in = {word.split(":")[0] for row in pieced for word in (row.split() if isinstance(row, str) else row)}
    sewn_in |= {one.data.get("cut", "") for one in entries if one.table == "step"}
    found = [
        Made(one.name, one.data.get("count", 0), *size)
        for one in blocks
        if "rows" in one.data and one.name not in sewn_in and (size := size_of(one.name, entries))
    ]
    squares = [one for one in items(entries, "setting") if one.square]
    plain = [Made(one.name, one.left, one.width, one.height) for one in squares]
    total = next(iter(told_blocks(entries)), 0)
    if len(found) == 1:
        (block,) = found
        fill = {total, *(across * down for across, down in rows)}
        needed = {one - block.number for one in fill}
        spare = [next((less for less in one.shares if less in needed), one.left) for one in squares]
        plain = [one if one.number in needed else one._replace(number=less) for one, less in zip(plain, spare)]
        off = {one: max(abs(one.width - block.width), abs(one.height - block.height)) for one in plain}
        between = [
            one
            for one in plain
            if one.number + block.number in fill
            and off[one] <= (0 if block.number in fill else NEAR)
            or off[one] == 0
            and abs(one.number + block.number - (total or 2 * block.number)) <= max(Fraction(1), one.number * FAR)
        ]
        return found + sorted(between, key=lambda one: off[one])[:1]
    if found or blocks:
        return found
    return [one for one in plain if total <= one.number <= total * (1 + LEFT_OVER)][:1]


def only(entries: list[Entry], table: str) -> Entry | None:
    """The one entry of a table; None where there are none or several."""
    found = [one for one in entries if one.table == table]
    return found[0] if len(found) == 1 else None


def squares_between(block: str, entries: list[Entry]) -> str:
    """The plain squares, as large as a block, that stand on point between the blocks where these are too few for all
    places; nothing where there are none."""
    setting = only(entries, "setting")
    made = next((one for one in kinds(entries) if one.name == block), None)
    if setting is None or made is None or made.number != setting.data["across"] * setting.data["down"]:
        return ""
    alike = [one.name for one in items(entries) if (one.width, one.height) == made[2:]]
    return alike[0] if len(alike) == 1 else ""


def drawn(entries: list[Entry]) -> bool:
    """Whether every block of the setting is drawn in its row or column."""
    return any({"rows", "columns"} & one.data.keys() for one in entries if one.table == "setting")


def told_blocks(entries: list[Entry]) -> list[int]:
    """How many blocks the rows take that the page tells of; on point those that stand level, or with those between."""
    setting = only(entries, "setting")
    if setting is None or not {"across", "down"} <= setting.data.keys():
        return []
    across, down = setting.data["across"], setting.data["down"]
    between = (across - 1) * (down - 1) if setting.data.get("style") == "on point" else 0
    return [across * down, *([across * down + between] if between and "alternate" not in setting.data else [])]


def too_few(entries: list[Entry]) -> int:
    """How many places of the setting that the page tells of are empty, where the blocks that are made and the squares
    between them are far too few to fill it; else 0."""
    setting, made = only(entries, "setting"), kinds(entries)
    places = max(told_blocks(entries), default=0)
    if setting is None or "alternate" in setting.data or drawn(entries) or not all(one.number for one in made):
        return 0
    empty = places - sum(one.number for one in made)
    return empty if made and empty > places * FAR else 0


def finished_size(entries: list[Entry]) -> tuple[Fraction, Fraction] | None:
    """The printed finished size of the quilt, in inches."""
    printed = (one.data["finished"] for one in entries if one.table == "sheet" and "finished" in one.data)
    return next((size for one in printed if (size := sides(one))), None)


def unlike(size: tuple[Fraction, Fraction], entries: list[Entry]) -> Fraction:
    """By how much the borders that are still needed differ across and down; much where the quilt is larger already, and
    0 where no finished size is printed."""
    printed = finished_size(entries)
    if printed is None:
        return Fraction(0)
    across, down = (whole - part for whole, part in zip(printed, size))
    return abs(across - down) + (TOO_LARGE if min(across, down) < -1 else 0)


def listed(words: list[str]) -> str:
    """Words as a list in a sentence.

    >>> listed(["A", "B", "C"])
    'A, B and C'
    """
    return f"{', '.join(words[:-1])} and {words[-1]}" if len(words) > 1 else "".join(words)
