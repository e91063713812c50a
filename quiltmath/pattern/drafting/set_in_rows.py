"""How the blocks of a draft are set, where its numbers allow it in few ways: proposals, never taken unasked."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from typing import Any, NamedTuple

from .at_hand import count_of, items, sides, two_seams
from .in_columns import in_columns
from .in_passing import NOTHING, InPassing
from .layouts import TOO_LARGE, Made, Sashed, counted, drawn, finished_size, kinds, listed, only, too_few, unlike
from .model import SOMETHING_ELSE, Choice, Entry, Question
from .on_point_with_sashing import sashed_on_point
from .way_to_piece import FAR

MOST_CHOICES = 5
MOST_BLOCKS = 2_000
NEAR = 1
"""Inches: sashing is shorter or longer than a block by so much where one of the figures is wrong."""


class Strips(NamedTuple):
    """Sashing as it is cut: the strips as long as a block, and what stands where they cross."""

    sash: Entry
    crossing: Entry
    key: str
    """"cornerstone", or "strip" for long strips between the rows."""
    width: Fraction
    near: bool = False
    """Whether it is not as long as a block, and nothing but its number tells that it is sashing."""

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
    if drawn(entries) or _waits_for_its_blocks(known, entries):
        return
    if known is not None and (empty := too_few(entries)):
        asks = f"{empty} places of the setting are left over by the blocks that are made: what stands in them?"
        yield Question(known.words, asks)
        return
    if known is not None and known.data.get("style") == "on point":
        yield from sashed_on_point(known, entries, kinds(entries), _sashings)
        return
    if known is not None and {"style", "across", "down", "block"} <= known.data.keys():
        return
    if in_passing.on_point and any(one.role.endswith("triangle") for one in entries if one.table == "cut"):
        return  # some of its triangles are not known
    made = kinds(entries, in_passing.rows)
    said = listed([counted(one.name, one.number, entries) for one in made])
    ways = [*_ways(made, known, entries, in_passing)] if made else []
    if known is None and sum(one.number for one in made) not in (across * down for across, down in in_passing.rows):
        ways = [way for way in ways if way[0] < TOO_LARGE or not in_passing.rows]
    in_lines = [*in_columns(entries, made, in_passing)]
    nearest = min((off for off, _ in in_lines), default=Fraction(0))
    of_columns = in_passing.columns and nearest < TOO_LARGE  # a street of the title may be a lane
    if not ways or in_lines and (of_columns or nearest <= min(off for off, *_ in ways)):
        yield from _asked_once([question for _, question in in_lines])
        return
    words = known.words if known else max((one.words for one in entries), key=lambda one: one.start)
    told = known.data if known else {}
    choices = tuple(
        Choice(label, (Entry("setting", {**told, **data}, words),)) for _, label, data in ways[:MOST_CHOICES]
    )
    if choices:
        yield Question(words, f"how is the quilt set, of {said}?", (*choices, SOMETHING_ELSE))


def _waits_for_its_blocks(known: Entry | None, entries: list[Entry]) -> bool:
    """Whether a page tells of just the blocks that fill its rows, and nobody has pieced them yet."""
    told = [one for one in entries if one.table == "block" and "rows" not in one.data]
    places = known.data["across"] * known.data["down"] if known and {"across", "down"} <= known.data.keys() else 0
    return len(told) == 1 and places > 0 and told[0].data.get("count") == places


def _asked_once(found: list[Question]) -> Iterator[Question]:
    """Questions, those alike as one with the choices of all."""
    for text in dict.fromkeys(one.text for one in found):
        alike = [one for one in found if one.text == text]
        choices = {one.choices[0].label: one.choices[0] for one in reversed(alike)}
        yield replace(alike[0], choices=(*reversed(choices.values()), SOMETHING_ELSE))


def _ways(
    made: list[Made], known: Entry | None, entries: list[Entry], told: InPassing
) -> Iterator[tuple[Fraction, str, dict[str, Any]]]:
    """(By how much the borders that are still needed differ, words, keys of the setting) of each way to set these, the
    likeliest first."""
    if len(made) > 2:
        return
    first, *others = sorted(made, key=lambda one: -one.number)  # there is one more of those in the corners
    for off, sashed, strips in _likeliest(first, _totals(made), known, entries, told):
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
        yield from ((off, *way) for way in ways)


def _totals(made: list[Made]) -> list[int]:
    """How many places these fill; by turns as many of both, or one more of one of them, where the number of the second
    may be misprinted."""
    numbers = [one.number for one in made]
    if len(made) == 2 and abs(numbers[0] - numbers[1]) > 1:
        return [2 * numbers[0] + more for more in (-1, 0, 1)]
    return [sum(numbers)]


def _turned_by_turns(said, name, sashed):
    """The same with every second block turned by a quarter."""
    rows = [[_by_turns(name, right + row) for right in range(sashed.across)] for row in range(sashed.down)]
    data = {"style": "straight", "rows": rows if " " in name else [" ".join(row) for row in rows]}
    return f"{said}, every second block turned by a quarter", {**data, "across": None, "down": None}


def _likeliest(
    first: Made, totals: list[int], known: Entry | None, entries: list[Entry], told: InPassing
) -> list[tuple[Fraction, Sashed, Strips | None]]:
    """The settings of so many blocks that agree best with the sashing and the finished size that are printed."""
    if known is not None and {"across", "down"} <= known.data.keys():
        pairs = [(known.data["across"], known.data["down"])]
    else:
        pairs = [
            (one, total // one) for total in totals for one in range(1, min(total, MOST_BLOCKS) + 1) if total % one == 0
        ]
    ranked = []
    sashings = _sashings(first, entries)
    perhaps: list[Strips | None] = [*([None] if all(one.near for one in sashings) else []), *sashings]
    for across, down in pairs:
        for strips in perhaps:
            for around in (True, False) if strips else (False,):
                sashed = Sashed(across, down, around)
                size = sashed.size(first.width, first.height, strips.width if strips else Fraction(0))
                if _far_too_small(size, entries) or known is None and _far_too_large(size, entries):
                    continue
                off = strips.off(sashed, entries) if strips else 0
                if strips and strips.near and off:
                    continue
                here = (off, (across, down) not in told.rows, unlike(size, entries), abs(across - down))
                if sashings and strips is None:  # what may be sashing is left over
                    here = (1, *here[1:])
                ranked.append((here, sashed, strips))
    ranked.sort(key=lambda one: one[0])
    best = ranked[0][0][:3] if ranked else ()
    return [(rank[2], sashed, strips) for rank, sashed, strips in ranked if rank[:3] == best or len(pairs) == 1]


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


def _far_too_small(size, entries):
    """Whether it is less than half the quilt that is printed, and nothing is left of which borders could be."""
    printed = finished_size(entries)
    strips = any("border" in one.role for one in entries) or items(entries, "border")
    return printed is not None and not strips and all(2 * part < whole for part, whole in zip(size, printed))


def _far_too_large(size, entries):
    """Whether it is so much larger than the quilt that is printed that no slip of the pen explains it."""
    printed = finished_size(entries)
    return printed is not None and any(part > whole * (1 + FAR) for part, whole in zip(size, printed))


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
        Strips(sash, other, "cornerstone" if low == high else "strip", thin, bool(off) and sash.role != "sashing")
        for sash, thin, long in cut
        if (off := abs(long - block.width)) <= NEAR and 2 * thin <= long
        if sash.role != "cornerstone"
        for other, low, high in cut
        if low == thin and (high == low and other.role != "sashing" or high > 2 * long)
    ]
