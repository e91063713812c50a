"""How the blocks of a draft are set, where its numbers allow it in few ways: proposals, never taken unasked."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from itertools import product
from typing import Any, NamedTuple

from .at_hand import Item, count_of, items, sides, size_of, two_seams
from .in_passing import NOTHING, InPassing
from .model import SOMETHING_ELSE, Choice, Entry, Question

MOST_CHOICES = 5
MOST_BLOCKS = 2_000
LEFT_OVER = Fraction(1, 4)  # of plain squares that come in packs
LEAST_IN_LINE = 3
LONGEST_LETTER = 2  # signs: pieces are named A to Z, then AA
MISPRINTED = Fraction(1, 10)
"""Of the length of a strip: nobody misprints more of it where its place is told."""
NEAR = 1
"""Inches: sashing is shorter or longer than a block by so much where one of the figures is wrong."""


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


class Strips(NamedTuple):
    """Sashing as it is cut: the strips as long as a block, and what stands where they cross."""

    sash: Entry
    crossing: Entry
    key: str
    """"cornerstone", or "strip" for long strips between the rows."""
    width: Fraction

    def setting(self, around: bool) -> dict[str, Any]:
        """The keys of a setting with this sashing."""
        where = {} if around else {"around": False}
        return {"sashing": {"part": self.sash.name, self.key: self.crossing.name, **where}}

    def off(self, sashed: Sashed, entries: list[Entry]) -> int:
        """How many strips and cornerstones are printed that such a setting does not take, or lacks."""
        stones = self.key == "cornerstone"
        needs = (sashed.sashes, sashed.cornerstones) if stones else (sashed.short, sashed.long)
        return sum(abs(count_of(one, entries) - need) for one, need in zip((self.sash, self.crossing), needs))


def settings(entries: list[Entry], in_passing: InPassing = NOTHING) -> Iterator[Question]:
    """The questions how the blocks are set, in rows that take as many as there are, and all of the sashing.

    >>> from . import draft
    >>> page = ('Make 12 blocks.\\nNavy: 60 squares 3"\\nCream: 48 squares 3"\\n'
    ...         'Green: 31 sashing strips 2" x 8"\\nRed: 20 cornerstones 2" square')
    >>> drafted = draft(page)
    >>> asked = drafted.answered(drafted.questions[0], drafted.questions[0].choices[0]).questions[0]
    >>> print(asked.text, [choice.label for choice in asked.choices][:1])
    how is the quilt set, of 12 blocks? ['3 across and 4 down, sashing between the blocks and round the outside']
    """
    known = only(entries, "setting")
    if drawn(entries) or known is not None and known.data.get("style") == "on point":
        return
    if known is not None and {"style", "across", "down", "block"} <= known.data.keys():
        return
    made = kinds(entries)
    in_lines = [*_in_columns(entries, made, in_passing)]
    if in_lines or not made:
        yield from in_lines
        return
    ways = [*_ways(made, known, entries, in_passing)]
    words = known.words if known else max((one.words for one in entries), key=lambda one: one.start)
    told = known.data if known else {}
    choices = tuple(Choice(label, (Entry("setting", {**told, **data}, words),)) for label, data in ways[:MOST_CHOICES])
    if choices:
        asks = f"how is the quilt set, of {listed([_counted(one.name, one.number, entries) for one in made])}?"
        yield Question(words, asks, (*choices, SOMETHING_ELSE))


def _counted(name, number, entries):
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


def kinds(entries: list[Entry]) -> list[Made]:
    """The blocks that are set: those that are sewn into no other, and plain squares that are as large."""
    blocks = [one for one in entries if one.table == "block"]
    rows = [row for one in blocks for row in one.data.get("rows", ())]
    sewn_in = {word.split(":")[0] for row in rows for word in (row.split() if isinstance(row, str) else row)}
    sewn_in |= {one.data.get("cut", "") for one in entries if one.table == "step"}
    found = [
        Made(one.name, one.data.get("count", 0), *size)
        for one in blocks
        if "rows" in one.data and one.name not in sewn_in and (size := size_of(one.name, entries))
    ]
    plain = [Made(one.name, one.left, one.width, one.height) for one in items(entries) if one.square]
    total = next(iter(told_blocks(entries)), 0)
    if len(found) == 1:
        (block,) = found
        alike = [one for one in plain if one[2:] == block[2:]]
        return (
            found
            + [one for one in alike if abs(one.number - block.number) <= 1 or one.number + block.number == total][:1]
        )
    if found or blocks:
        return found
    return [one for one in plain if total <= one.number <= total * (1 + LEFT_OVER)][:1]


def _ways(
    made: list[Made], known: Entry | None, entries: list[Entry], told: InPassing
) -> Iterator[tuple[str, dict[str, Any]]]:
    """(Words, keys of the setting) of each way to set these, the likeliest first."""
    if len(made) > 2:
        return
    first, *others = sorted(made, key=lambda one: -one.number)  # there is one more of those in the corners
    for sashed, strips in _likeliest(first, sum(one.number for one in made), known, entries, told):
        data = {"style": "straight", "across": sashed.across, "down": sashed.down, "block": first.name}
        said = f"{sashed.across} across and {sashed.down} down"
        if others:
            data["alternate"] = others[0].name
            said += f", {first.name} and {others[0].name} by turns"
        if strips is not None:
            data |= strips.setting(sashed.around)
            said += f", sashing between the blocks {'and round the outside' if sashed.around else 'alone'}"
        ways = [(said, data)]
        if not others and strips is None and _differs_turned(first.name, entries):
            ways.insert(0 if told.turned else 1, _turned_by_turns(said, first.name, sashed))
        yield from ways


def _turned_by_turns(said, name, sashed):
    """The same with every second block turned by a quarter."""
    rows = [[_by_turns(name, right + row) for right in range(sashed.across)] for row in range(sashed.down)]
    data = {"style": "straight", "rows": rows if " " in name else [" ".join(row) for row in rows]}
    return f"{said}, every second block turned by a quarter", {**data, "across": None, "down": None}


def _likeliest(
    first: Made, total: int, known: Entry | None, entries: list[Entry], told: InPassing
) -> list[tuple[Sashed, Strips | None]]:
    """The settings of so many blocks that agree best with the sashing and the finished size that are printed."""
    if known is not None and {"across", "down"} <= known.data.keys():
        pairs = [(known.data["across"], known.data["down"])]
    else:
        pairs = [(one, total // one) for one in range(1, min(total, MOST_BLOCKS) + 1) if total % one == 0]
    ranked = []
    sashings: list[Strips | None] = [*_sashings(first, entries)]
    for across, down in pairs:
        for strips in sashings or [None]:
            for around in (True, False) if strips else (False,):
                sashed = Sashed(across, down, around)
                size = sashed.size(first.width, first.height, strips.width if strips else Fraction(0))
                if _far_too_small(size, entries):
                    continue
                off = strips.off(sashed, entries) if strips else 0
                here = (off, (across, down) not in told.rows, unlike(size, entries), abs(across - down))
                ranked.append((here, sashed, strips))
    ranked.sort(key=lambda one: one[0])
    best = ranked[0][0][:3] if ranked else ()
    return [(sashed, strips) for rank, sashed, strips in ranked if rank[:3] == best or len(pairs) == 1]


def _by_turns(name, place):
    return f"{name}:90" if place % 2 else name


def _differs_turned(name: str, entries: list[Entry]) -> bool:
    """Whether a block looks different turned by a quarter."""
    block = next((one for one in entries if one.path == ("block", name)), None)
    looks = {one.name for one in entries if one.table == "strip_set"}
    if block is None:
        return name in looks
    rows = [row.split() if isinstance(row, str) else row for row in block.data["rows"]]
    bare = [[word.split(":")[0] for word in row] for row in rows]
    alike = len({len(row) for row in bare}) == 1 and [list(column) for column in zip(*bare)] == bare
    return not alike or len(bare) == 1 and bare[0][0] in looks


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
    return abs(across - down) + (1000 if min(across, down) < -1 else 0)


def _far_too_small(size, entries):
    """Whether it is less than half the quilt that is printed, and nothing is left of which borders could be."""
    printed = finished_size(entries)
    strips = any(one.role.endswith("border") for one in entries) or items(entries, "border")
    return printed is not None and not strips and all(2 * part < whole for part, whole in zip(size, printed))


def listed(words: list[str]) -> str:
    """Words as a list in a sentence.

    >>> listed(["A", "B", "C"])
    'A, B and C'
    """
    return f"{', '.join(words[:-1])} and {words[-1]}" if len(words) > 1 else "".join(words)


# -- strips between the blocks ---------------------------------------------------------------------------------------


def _sashings(block: Made, entries: list[Entry]) -> list[Strips]:
    """The sashing that is cut, if there is some: as long as a block (what is told to be sashing nearly so, for one of
    the figures may be wrong), with squares or long strips where it crosses."""
    left, taken = {one.name for one in items(entries)}, two_seams(entries)
    cut = [
        (one, min(size) - taken, max(size) - taken)
        for one in entries
        if one.table == "cut" and "cut" not in one.data and (size := sides(one.data.get("size")))
        if one.role in ("sashing", "cornerstone") or one.name in left and not one.role
    ]
    return [
        Strips(sash, other, "cornerstone" if low == high else "strip", thin)
        for sash, thin, long in cut
        if abs(long - block.width) <= (NEAR if sash.role == "sashing" else 0) and 2 * thin <= long
        if sash.role != "cornerstone"
        for other, low, high in cut
        if low == thin and (high == low and other.role != "sashing" or high > 2 * long)
    ]


def _in_columns(entries: list[Entry], made: list[Made], told: InPassing) -> Iterator[Question]:
    """Units or blocks in columns or rows with long strips between them: as many in each as one strip is long, or one
    block; where none fit, such as do but for one strip, or an inch of its length; or, where the page tells of columns,
    whatever number of strips is printed."""
    at_hand = items(entries)
    blocks = [Item(one.name, one.width, one.height, one.number) for one in made]
    strips = [
        one
        for one in items(entries, "sashing")
        if one.looks == 1 and 2 * min(one.width, one.height) <= max(one.width, one.height)
    ]
    total = next(iter(told_blocks(entries)), 0)
    tries = [(0, False), *([] if made else [(NEAR, False)]), *([(0, True)] if told.columns else [])]
    for near, loosely in tries:
        hints = told if loosely else NOTHING
        found = [
            _in_lines(key, unit, strip, lines, each, entries)
            for unit, strip in product([*blocks, *at_hand], strips)
            if unit != strip and (not near or unit.looks > 1)
            for key, along in (("columns", unit.height), ("rows", unit.width))
            for each, lines in _as_long(unit.left, along, max(strip.width, strip.height), near, hints)
            if each >= (LEAST_IN_LINE if unit not in blocks or total else 1) and lines > 1
            if loosely or min(abs(strip.left - lines - more) for more in (-1, 1)) <= near
        ]
        if found:
            yield from _asked_once([question for _, question in sorted(found, key=lambda one: one[0])])
            return


def _as_long(number, along, strip, near, told):
    """(How many stand in each line, how many lines) of so many, for lines as long as a strip, nearly so, or as many as
    the page says are made."""
    each = round(strip / along)
    if each and abs(strip - each * along) <= near and number % each == 0:
        yield each, number // each
    for lines in told.made:
        if number % lines == 0 and 0 < abs(strip - number // lines * along) <= strip * MISPRINTED:
            yield number // lines, lines


def _asked_once(found: list[Question]) -> Iterator[Question]:
    """Questions, those alike as one with the choices of all."""
    for text in dict.fromkeys(one.text for one in found):
        alike = [one for one in found if one.text == text]
        yield replace(alike[0], choices=(*(one.choices[0] for one in alike), SOMETHING_ELSE))


def _in_lines(key, unit, strip, lines, each, entries):
    """(By how much the borders that are still needed differ, the question) of lines so set."""
    stands = (strip.height > strip.width) == (key == "columns")
    line, part = [unit.name] * each, [strip.name if stands else f"{strip.name}:90"]
    outside = strip.left > lines
    found = [line if place % 2 == outside else part for place in range(2 * lines - 1 + 2 * outside)]
    words = max((one.words for one in entries if one.name in (unit.name, strip.name)), key=lambda one: one.start)
    number = lines + (1 if outside else -1)
    where = f"{'between them and outside' if outside else 'between them'} {_counted(strip.name, number, entries)}"
    label = f"{lines} {key} of {_counted(unit.name, each, entries)}, {where}"
    choice = Choice(label, (Entry("setting", {"style": "straight", key: found, "across": None, "down": None}, words),))
    parts = (_counted(one.name, one.left, entries) for one in (unit, strip))
    asks = f"{' and '.join(parts)}: how are they set?"
    high, wide = (unit.height, unit.width) if key == "columns" else (unit.width, unit.height)
    along, across = each * high, lines * wide + strip.left * min(strip.width, strip.height)
    size = (across, along) if key == "columns" else (along, across)
    return unlike(size, entries), Question(words, asks, (choice, SOMETHING_ELSE))
