"""What does not fit as it is typed, and does when one block, strip set or step is read otherwise: with a row or strip
more, another name in one place, in other rows, or sewn to another edge."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations, islice, permutations
from typing import TYPE_CHECKING, Any, NamedTuple

from ...pattern import Unreadable
from ...pattern.names import unused
from ..agreement import Culprit, Miscounted
from .exchanged import as_typed

if TYPE_CHECKING:
    from ...pattern.fields import Item
    from ..reading import Reading

MOST_TRIED = 80  # ways to read a sheet otherwise
MOST_SPARE = 3  # parts that nothing uses: of more a step may be missing
MOST_MOVED = 4  # pieces of a block that are tried in other rows
MOST_STEPS = 4  # steps that are tried with other edges
SIDES = {"left": "right", "right": "left", "top": "bottom", "bottom": "top"}
BESIDE = {"left": "top", "right": "top", "top": "right", "bottom": "right"}


class DrawnOtherwise(NamedTuple):
    """The one change of rows, or of the edges of steps, with which all that is printed agrees: the changes, what is
    said, what is told and what would fit, and the names of the parts and blocks it is about."""

    changes: tuple[tuple[tuple, Any], ...]
    message: str
    told: str
    fits: str
    parts: tuple[str, ...]


def drawn_otherwise(reading: Reading) -> DrawnOtherwise | None:
    """How a sheet must be read so that its printed numbers agree, where no single number explains that they do not.

    >>> from quiltmath import pattern
    >>> from quiltmath.pattern.sheet import EXAMPLE
    >>> from quiltmath.review.reading import Reading
    >>> bar = '[[cut]]\\npart = "bar"\\nfabric = "navy"\\nsize = ["6 1/2", "2 1/2"]\\ncount = 4\\n\\n[block.four]'
    >>> sheet = EXAMPLE.replace("[block.four]", bar + "\\nfinished = [6, 8]")
    >>> drawn_otherwise(Reading(pattern.read_text(sheet))).fits
    "row 1 'bar'; row 2 'A', 'A'; row 3 'A', 'A'"
    """
    spare = [name for name in unused(reading.made.sheet) if reading.sheet.part(name) is not None]
    if not _is_a_puzzle(reading, spare):
        return None
    for other in islice(_near(reading, spare), MOST_TRIED):
        try:
            if reading.changed(*other.changes).agrees:
                return other
        except Unreadable:
            continue
    return None


def _is_a_puzzle(reading, spare):
    """Whether no one likely number explains all that does not agree, or parts that nothing uses may."""
    found = reading.culprits
    if not found or all(isinstance(one, Miscounted) for one in found):
        return False
    first = found[0]
    odd = not isinstance(first, Culprit) or (first.unlikely and not first.others)
    return 0 < len(spare) <= MOST_SPARE or len(found) > 1 or odd or any(one not in first.settles for one in reading.off)


def _near(reading, spare) -> Iterator[DrawnOtherwise]:
    for part in spare if len(spare) <= MOST_SPARE else ():
        yield from _with_another_name(reading, part)
        yield from _with_a_row_more(reading, part)
    yield from _with_a_strip_more(reading)
    yield from _in_other_rows(reading)
    yield from _at_other_edges(reading)


def _with_a_strip_more(reading):
    """A strip of which more are cut than are taken once more in a strip set: so that it is the same from both ends, or
    else at its end."""
    sheet, bill = reading.sheet, reading.made.bill
    for name, strips in sheet.strip_set.items():
        told = strips.strips if strips.of is None else []
        for part in dict.fromkeys(told):
            if sheet.part(part) is None or sheet.part(part).gives <= bill[part]:
                continue
            ways = [[*told[:place], part, *told[place:]] for place in range(len(told) + 1)]
            more = next((way for way in ways if way == way[::-1]), ways[-1])
            yield DrawnOtherwise(
                ((("strip_set", name, "strips"), more),),
                f"The strips of {name!r} are {_listed(told)}. All fits together with one {part!r} more: "
                f"{_listed(more)}. Look at the drawing.",
                _listed(told),
                _listed(more),
                (name, part),
            )


def _with_another_name(reading, part):
    """A part that nothing uses in the place of another that is cut too few times."""
    sheet, bill = reading.sheet, reading.made.bill
    for name, block in sheet.block.items():
        for number, row in enumerate(block.rows):
            for place, item in enumerate(row):
                cut = sheet.part(item.name)
                if cut is None or cut.gives >= bill[item.name]:
                    continue
                rows = [list(each) for each in block.rows]
                rows[number][place] = item.model_copy(update={"name": part})
                yield _read(
                    name,
                    rows,
                    block.rows,
                    f"Row {number + 1} of {name!r} names {item.name!r} where {part!r} fits, which is cut and which "
                    "nothing uses. Look at the drawing.",
                    (name, item.name, part),
                )


def _with_a_row_more(reading, part):
    """A part that nothing uses as one more row of a block."""
    sheet, bill = reading.sheet, reading.made.bill
    for name, block in sheet.block.items():
        if block.rows and sheet.part(part).gives >= bill[name] > 0:
            new = block.rows[0][0].model_copy(update={"name": part, "turn": 0})
            yield _read(
                name,
                [[new], *block.rows],
                block.rows,
                f"{part!r} is cut and nothing uses it; the quilt fits together where it is one more row of {name!r}, "
                "above the others or below. Add it where the drawing shows it.",
                (name, part),
            )


def _in_other_rows(reading):
    """The few pieces of a block in other rows, where no two are of one size; of blocks that do not agree, and those in
    them."""
    blocks = reading.sheet.block
    off = [one.place[1] for one in reading.culprits if one.place[0] == "block"]
    off += [item.name for name in off for row in blocks[name].rows for item in row if item.name in blocks]
    for name in dict.fromkeys(off):
        items = [item for row in blocks[name].rows for item in row]
        may_move = 1 < len(items) <= MOST_MOVED and _are_told_apart(reading, items)
        for rows in _arranged(items) if may_move else ():
            if rows != [list(row) for row in blocks[name].rows]:
                yield _read(
                    name,
                    rows,
                    blocks[name].rows,
                    f"The pieces of {name!r} do not fit together in the rows that are told: "
                    f"{_said(blocks[name].rows)}. They do in these: {_said(rows)}. Look at the drawing.",
                    (name, *dict.fromkeys(item.name for item in items)),
                )


def _are_told_apart(reading, items):
    """Whether pieces of different names have different sizes: else their rows do not tell which belongs where."""
    sizes = {item.name: reading.measures.finished(item.name) for item in items}
    if None in sizes.values():
        return False
    return len({tuple(sorted(round(one.side(n).value, 3) for n in (0, 1))) for one in sizes.values()}) == len(sizes)


def _arranged(items: list[Item]) -> Iterator[list[list[Item]]]:
    """All ways to lay these in rows, those in the order of the items first."""
    for order in permutations(items):
        for count in range(len(items)):
            for cuts in combinations(range(1, len(items)), count):
                yield [list(order[start:end]) for start, end in zip((0, *cuts), (*cuts, len(items)))]


def _at_other_edges(reading):
    """A step that sews to a side next to the one that is told, or two that have each other's sides."""
    steps = reading.sheet.step
    off = [one.place[1] for one in reading.culprits if one.place[0] == "step"]
    off += [n for each in off for n, step in enumerate(steps) if set(step.gives) & set(steps[each].sew or ())]
    off = [n for n in dict.fromkeys(off) if steps[n].sew and set(steps[n].edges or ()) <= SIDES.keys()][:MOST_STEPS]
    for number in off:
        mine, theirs = steps[number].edges
        for edges in ((BESIDE[mine], BESIDE[theirs]), (BESIDE[mine], theirs), (mine, BESIDE[theirs])):
            yield _sewn(steps, {number: edges})
    for pair in combinations(range(len(steps)), 2):
        one, other = pair
        if set(pair) & set(off) and steps[one].sew and steps[other].sew and steps[one].edges != steps[other].edges:
            yield _sewn(steps, {one: steps[other].edges, other: steps[one].edges})


def _sewn(steps, edges):
    """Steps with other edges."""
    told = " and ".join(_edges(steps, number, steps[number].edges) for number in edges)
    fits = " and ".join(_edges(steps, number, each) for number, each in edges.items())
    return DrawnOtherwise(
        tuple((("step", number, "edges"), list(each)) for number, each in edges.items()),
        f"{told[0].upper()}{told[1:]}: the edges do not fit. They do if {fits}. Look at the drawing.",
        told,
        fits,
        tuple(dict.fromkeys(name for number in edges for name in steps[number].sew)),
    )


def _edges(steps, number, edges):
    one, other = steps[number].sew
    return f"step {number + 1} sews the {edges[0]} edge of {one!r} to the {edges[1]} edge of {other!r}"


def _read(name, rows, told, message, parts):
    """A block with other rows."""
    typed = [[*map(as_typed, row)] for row in rows]
    return DrawnOtherwise(((("block", name, "rows"), typed),), message, _said(told), _said(rows), parts)


def _said(rows):
    """Rows in words."""
    return "; ".join(f"row {number} {_listed(map(as_typed, row))}" for number, row in enumerate(rows, 1))


def _listed(names):
    return ", ".join(map(repr, names))
