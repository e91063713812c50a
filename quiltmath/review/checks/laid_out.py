"""A setting that is told otherwise than all that the pattern counts and measures for it: a row more or fewer, sashing
round the outside or not."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NamedTuple

from ...making import bill_of_materials
from ...making.bill import cuts_needed
from ...making.meant_setting import comes_to_printed
from ...making.measures import long_strips, rounds
from .check import MOST_NAMED
from .exchanged import as_typed

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ...pattern.sheet import Sheet

SPARE = 1  # pieces that a line may have left over in a layout that is meant
MOST_UNLIKE = 12  # rows of a drawn setting that are tried once more, or once less
LEAST = 3  # lines of the cutting list that must tell the layout where no size of the quilt is printed


class OtherLayout(NamedTuple):
    """The layout that a pattern's counts and its printed size are for: what is told and what is meant, in words, the
    changes to the sheet, and the names of what is counted so."""

    told: str
    meant: str
    changes: tuple
    names: tuple[str, ...]

    @property
    def counted(self) -> str:
        """What is counted so, in words: "the counts of 'A' and 'B'"."""
        more = len(self.names) - MOST_NAMED
        quoted = [*map(repr, self.names[:MOST_NAMED]), *([f"{more} more"] if more > 0 else [])]
        listed = " and ".join(filter(None, [", ".join(quoted[:-1]), quoted[-1]]))
        return f"the count{'s' * (len(self.names) > 1)} of {listed}"


def other_layout(sheet: Sheet) -> OtherLayout | None:
    """The one layout near the one that is told with which the printed size and every count agree; None where they agree
    as it is, or with no such layout, or with more than one.

    >>> from quiltmath import pattern
    >>> from quiltmath.pattern.sheet import EXAMPLE
    >>> more = EXAMPLE.replace("count = 16", "count = 24").replace("[[cut]]", "finished = [12, 18]\\n[[cut]]")
    >>> other_layout(pattern.read_text(more)).meant
    '2 blocks across and 3 down'
    """
    off = tuple(name for name, printed, enough in counts_told(sheet) if printed != enough)
    sized = sheet.finished is not None and rounds(sheet) is not None
    if not off or (sized and _comes_to_printed(sheet)):
        return None
    near = [(_changed(sheet, changes), changes, told, meant) for changes, told, meant in _near(sheet)]
    agree = [one for one in near if _agree(counts_told(one[0]), len(off))]
    if sized:
        as_printed = [one for one in agree if comes_to_printed(one[0])]
        agree = as_printed or [one for one in agree if _comes_to_printed(one[0])]
    elif len(off) < LEAST:
        return None
    return OtherLayout(*agree[0][2:], tuple(map(_typed, agree[0][1])), off) if len(agree) == 1 else None


def _near(sheet) -> Iterator[tuple]:
    """(changes, what is told, what that would be) of each layout that one figure makes of this one."""
    setting, sashing = sheet.setting, sheet.setting.sashing
    by_length = sashing is not None and sashing.strip is not None and len(sashing.strip) > 1  # they tell the layout
    if not (setting.drawn or by_length):
        across, down = setting.across, setting.down
        told = f"{across} {_blocks(across)} across and {down} down"
        for key, count in (("across", across), ("down", down)):
            for other in (count - 1, count + 1):
                if other < 1 or (setting.style != "straight" and across + down + other - count < 3):
                    continue  # one block on point has no side triangles
                size = {"across": across, "down": down, key: other}
                yield (
                    [(("setting", key), other)],
                    told,
                    f"{size['across']} {_blocks(size['across'])} across and {size['down']} down",
                )
    key = "rows" if setting.columns is None else "columns"
    if setting.drawn and setting.style == "straight" and sashing is None:
        yield from _a_row_off(key, setting.lines)
    if sashing is not None and setting.style == "straight":
        words = {True: "sashing round the outside too", False: "sashing between the blocks alone"}
        around = sashing.around
        yield [(("setting", "sashing", "around"), not around)], words[around], words[not around]


def _a_row_off(key, lines):
    """The same of a setting drawn row by row, with one like another of its rows more or fewer."""
    told = f"{len(lines)} {key}"
    unlike = [line for place, line in enumerate(lines) if line not in lines[:place]]
    for line in unlike if len(unlike) <= MOST_UNLIKE else ():
        last = len(lines) - lines[::-1].index(line)
        named = " and ".join(repr(name) for name in dict.fromkeys(item.name for item in line))
        ways = [(lines[:last] + [line] + lines[last:], "more")]
        ways += [(lines[: last - 1] + lines[last:], "fewer")] if len(lines) > 1 else []
        for changed, other in ways:
            yield [(("setting", key), changed)], told, f"{len(changed)} {key}, one of {named} {other}"


def _blocks(count):
    return "block" if count == 1 else "blocks"


def _changed(sheet, changes):
    """The sheet with values of its setting, or of its sashing, changed."""
    setting = sheet.setting
    for (*_, key), value in changes:
        if key == "around":
            setting = setting.model_copy(update={"sashing": setting.sashing.model_copy(update={key: value})})
        else:
            setting = setting.model_copy(update={key: value})
    return sheet.model_copy(update={"setting": setting})


def _typed(change):
    """A change as a sheet has it typed."""
    path, value = change
    return path, [[*map(as_typed, line)] for line in value] if isinstance(value, list) else value


def _comes_to_printed(sheet):
    """Whether the quilt comes to its printed size, whichever side of it is printed first."""
    return comes_to_printed(sheet) or comes_to_printed(sheet.model_copy(update={"finished": sheet.finished[::-1]}))


def counts_told(sheet: Sheet) -> list[tuple[str, int, int]]:
    """(name, how many are printed, how many the sheet takes) of all that is counted."""
    needed, measured = bill_of_materials(sheet), _measured(sheet)
    made: list[tuple[str, Any]] = [*sheet.unit.items(), *sheet.block.items()]
    return [
        *(
            (cut.part, cut.count, cuts_needed(sheet, cut, needed))
            for cut in sheet.cut
            if not cut.open and cut.part not in measured
        ),
        *((name, one.count, needed[name]) for name, one in made if one.count is not None),
        *((name, one.pieces, needed[name]) for name, one in sheet.strip_set.items() if one.pieces is not None),
    ]


def _agree(counts, off):
    """Whether nothing is too few, or more than a few spare pieces too many, and more agree than all but `off`."""
    exactly = sum(printed == enough for _, printed, enough in counts)
    few = all(0 <= printed - enough <= max(SPARE, enough // 8) for _, printed, enough in counts)
    return few and exactly > len(counts) - off


def _measured(sheet):
    """The names of strips that are joined and measured, and cut in no fixed number."""
    strips = {name for border in sheet.border for name in (border.sides, border.top)} | {*long_strips(sheet)}
    strips |= {one for made in sheet.strip_set.values() for one in made.strips}
    return strips | {cut.part for cut in sheet.cut if cut.strip is not None}
