"""Rows of a block, or of a setting, in which a part was left out, or stands once too often; of a pieced border, several
parts of its pattern."""

from __future__ import annotations

from collections import Counter
from itertools import chain
from typing import TYPE_CHECKING, NamedTuple

from ...making.measures import is_long_strip
from ...pattern.fields import Item
from ...pattern.names import SETTING, uses
from .borders import border_edges
from .figures import total
from .measures import SLACK

if TYPE_CHECKING:
    from .measures import Measures


class Miscounted(NamedTuple):
    """A row that comes to another length (inches) than it should, by just one of the parts of its block or setting, or
    by several that go on with its pattern.

    `path` is where its rows are told, `row` the number of the row (None: all of them, one place each), `parts` the
    names of what is left out where it `lacks` that (else they are too many), `sure` whether the printed counts bear it
    out, or that nothing else uses the part; `mended` are the rows as they should be, where that is plain.
    """

    path: tuple
    row: int | None
    parts: tuple[str, ...]
    lacks: bool
    comes_to: float
    should: float
    sure: bool
    mended: list[list[Item]] | None

    @property
    def place(self) -> tuple:
        """The path of its rows."""
        return self.path

    @property
    def printed(self) -> bool:
        """It is the rows themselves that do not match."""
        return True


def miscounted(measures: Measures, name: str) -> Miscounted | None:
    """The one row of a block, or of SETTING, that a part too few or too many explains; None where all is well, or more
    is wrong.

    >>> from quiltmath import making, pattern
    >>> from quiltmath.pattern.sheet import EXAMPLE
    >>> from quiltmath.review.agreement.measures import Measures
    >>> sheet = pattern.read_text(EXAMPLE.replace('"A A", "A A"', '"A A", "A A", "A"'))
    >>> found = miscounted(Measures(making.make(sheet)), "four")
    >>> found.row, found.parts, found.lacks, [item.name for item in found.mended[2]]
    (2, ('A',), True, ['A', 'A'])
    """
    return _by_one(measures, name) or (_by_several(measures, name) if name in measures.sheet.block else None)


def _by_one(measures, name):
    """The one row that is off by one of the parts."""
    path, numbers, rows, placed, finished = _told(measures, name)
    if not placed or not rows:
        return None
    widths = [total(part.width for part in row).value for row in placed]
    uneven = len({len(row) for row in rows}) > 1
    for row, should, plain in _off(widths, finished):
        lacks, apart, high = widths[row] < should, abs(widths[row] - should), placed[row][0].height.value
        unused = _unused(measures, path[-1] == "columns") if lacks else {}
        among = dict(zip(chain(*rows), chain(*placed))) if lacks else dict(zip(rows[row], placed[row]))
        known = {**among, **unused}.items()
        fits = [item for item, part in known if _near(part.width.value, apart) and _near(part.height.value, high)]
        sure = [item for item in fits if item in unused or _counts_tell(measures, item.name, lacks)]
        for item in sure or (fits if plain and uneven else []):
            mended, told = _mended(rows, row, item, lacks), [[*each] for each in _all_rows(measures, name)]
            told[numbers[row]] = mended
            return Miscounted(
                path,
                numbers[row],
                (item.name,),
                lacks,
                widths[row],
                should,
                bool(sure),
                None if mended is None else told,
            )
    return None


def _by_several(measures, name):
    """The one row, or column, of a pieced border that goes on with its pattern, or stops, before it is as long as its
    edge; where the printed counts bear that out."""
    rows, edge = measures.sheet.block[name].rows, _along(measures, name)
    upright = len(rows) > 1
    if edge is None or upright and any(len(row) > 1 for row in rows):
        return None
    line = [row[0] for row in rows] if upright else rows[0]
    sizes, should = [measures.lying(item) for item in line], edge[0]
    if None in sizes or (over := _over(line, [each.side(int(upright)).value for each in sizes], should)) is None:
        return None
    parts, lacks, mended = over
    if not all(_counts_tell(measures, part, lacks) for part in parts):
        return None
    comes_to = total(each.side(int(upright)) for each in sizes).value
    if mended is not None:
        mended = [[item] for item in mended] if upright else [mended]
    return Miscounted(("block", name, "rows"), None if upright else 0, parts, lacks, comes_to, should, True, mended)


def _over(line, long, should):
    """The names that are left out behind a line of a repeating pattern, or too many, so that it comes to a length; that
    they are left out; and the line with them, None where turned pieces leave their place open. None where no such names
    make it so long."""
    names = [item.name for item in line]
    period = next((each for each in range(1, len(line) // 2 + 1) if names[each:] == names[:-each]), None)
    lacks, parts, apart = sum(long) < should, [], abs(sum(long) - should)
    most = len(line) // 2  # else it is no border with a slip, but half of one
    while period is not None and apart > SLACK and len(parts) < most:
        place = len(line) + len(parts) if lacks else len(line) - 1 - len(parts)
        parts.append(names[place % period])
        apart -= long[place % period]
    if not parts or abs(apart) > SLACK:
        return None
    as_drawn = line == [line[place % period] for place in range(len(line))]
    more = [line[(len(line) + place) % period] for place in range(len(parts))]
    mended = [*line, *more] if lacks else line[: -len(parts)]
    return tuple(parts), lacks, mended if as_drawn else None


def _told(measures, name):
    """Where the rows of a block or of SETTING are told, their numbers, they themselves and what each place in them
    finishes (None where it is not known), and the size that is printed for them."""
    sheet, setting = measures.sheet, measures.sheet.setting
    if name != SETTING:
        block = sheet.block[name]
        finished = block.finished or _along(measures, name)
        return ("block", name, "rows"), range(len(block.rows)), block.rows, measures.rows(block.rows), finished
    numbers = [number for number, row in enumerate(setting.lines) if not is_long_strip(sheet, row)]
    path = ("setting", "rows" if setting.columns is None else "columns")
    return path, numbers, [setting.lines[number] for number in numbers], measures.lines, None


def _all_rows(measures, name):
    """All rows of a block or of SETTING, long strips too."""
    return measures.sheet.setting.lines if name == SETTING else measures.sheet.block[name].rows


def _along(measures, name):
    """The length of the edges that a pieced border goes along, as a size whose height is left open; None where nothing
    is pieced so, or they differ."""
    edges = [edge.long.value for edge in border_edges(measures) if edge.name == name]
    return (edges[0], None) if edges and max(edges) - min(edges) <= SLACK else None


def _off(widths, finished):
    """(the row that is off, the width it should have, whether the others make that plain), each way."""
    often = Counter(round(width, 3) for width in widths).most_common(1)[0]
    should = float(finished[0]) if finished is not None else often[0] if 2 * often[1] > len(widths) else None
    if should is not None:
        off = [row for row, width in enumerate(widths) if not _near(width, should)]
        return [(off[0], should, True)] if len(off) == 1 else []
    return [(0, widths[1], False), (1, widths[0], False)] if len(widths) == 2 else []


def _near(one, other):
    return abs(one - other) <= SLACK


def _unused(measures, upright):
    """{Item: what it finishes} of all that is cut or made and that nothing uses; lying on its side for columns."""
    sheet, bill = measures.sheet, measures.made.bill
    names = [*(cut.part for cut in sheet.cut), *sheet.unit, *sheet.strip_set, *sheet.block]
    found = {Item(name=name): measures.finished(name) for name in names if not bill[name]}
    lying = {item: part and part.turned(90 if upright else 0) for item, part in found.items()}
    return {item: part for item, part in lying.items() if part is not None}


def _counts_tell(measures, part, lacks):
    """Whether more pieces of a part are printed than the rows take, where one is left out, or else fewer; of what is
    made of parts, those tell."""
    sheet, bill = measures.sheet, measures.made.bill
    cut, made, pieces = sheet.part(part), sheet.block.get(part) or sheet.unit.get(part), sheet.strip_set.get(part)
    printed = cut.gives if cut is not None else made.count if made is not None else pieces and pieces.pieces
    if printed is None:
        used = uses(sheet, part)
        return bool(used) and all(_counts_tell(measures, each, lacks) for each in used)
    return printed > bill[part] if lacks else printed < bill[part]


def _mended(rows, number, item, lacks):
    """The row with this part put in or taken out: so that it becomes one of several others, or the same from both ends,
    or the other of two rows of a checkerboard, or else at its end; None where turned parts leave its place open."""
    row, others = tuple(rows[number]), [tuple(row) for place, row in enumerate(rows) if place != number]
    if lacks:
        ways = [(*row[:place], item, *row[place:]) for place in range(len(row) + 1)]
    else:
        ways = [row[:place] + row[place + 1 :] for place, one in enumerate(row) if one == item]
    several = others if len(others) > 1 else []
    alike = [way for way in ways if way in several] or [way for way in ways if way == way[::-1]]
    if not alike and len(others) == 1:
        alike = [way for way in ways if way == others[0][::-1]]
    turned = lacks and any(one.turn for one in (*row, *chain(*others)))
    return alike[0] if alike else None if turned else ways[-1]
