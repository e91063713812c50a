"""The ways near to what a sheet tells in which one block, unit, strip set, border or step may be meant."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations, permutations
from typing import TYPE_CHECKING, Any, NamedTuple

from ...pattern.names import all_in
from .exchanged import as_typed

if TYPE_CHECKING:
    from ...pattern.fields import Item
    from ..reading import Reading

MOST_SPARE = 6  # things of which there are too many: of more a step may be missing
MOST_MOVED = 4  # pieces of a block that are tried in other rows
MOST_STEPS = 4  # steps that are tried with other edges
SIDES = {"left": "right", "right": "left", "top": "bottom", "bottom": "top"}
BESIDE = {"left": "top", "right": "top", "top": "right", "bottom": "right"}


class OffCounts(NamedTuple):
    """The names of what is printed too few times, and of what is printed more often than it is taken."""

    short: frozenset[str]
    over: frozenset[str]


class OtherReading(NamedTuple):
    """One way in which a sheet may be meant: the changes, what is said, what is told and what would fit, and the names
    it is about. `plain`: no other place or turn would do as well; `by_counts`: counts must bear it out."""

    changes: tuple[tuple[tuple, Any], ...]
    message: str
    told: str
    fits: str
    parts: tuple[str, ...]
    plain: bool = True
    by_counts: bool = False


def other_readings(reading: Reading, counts: OffCounts) -> Iterator[OtherReading]:
    """All those ways, the likelier first."""
    if counts.over and len(counts.over) <= MOST_SPARE:
        yield from _with_another_name(reading, counts)
        yield from _with_a_row_more(reading, counts)
        yield from _with_corner_squares(reading, counts)
    yield from _with_a_strip_more(reading)
    yield from _with_borders_exchanged(reading)
    yield from _with_parts_exchanged(reading)
    yield from _in_other_rows(reading)
    yield from _with_pieces_turned(reading)
    yield from _at_other_edges(reading)


# -- what the counts tell ------------------------------------------------------------------------------------------


def _with_another_name(reading, counts):
    """One place of rows with something of which there is too much, for something of which there is too little."""
    sheet, bill = reading.sheet, reading.made.bill
    names = [*sheet.block, *sheet.unit, *sheet.strip_set, *(cut.part for cut in sheet.cut)]
    inside = {name: all_in(sheet, name) for name in names}
    lacking = {name for name in names if inside[name] & counts.short}
    spare = [name for name in names if inside[name] & counts.over and name not in lacking]
    for whose, path, told in _all_rows(sheet):
        named = {*path[1:2]} if path[0] == "block" else set()
        for name in dict.fromkeys(item.name for row in told for item in row):
            for other in spare if name not in spare else ():
                may_be = name in lacking or not (counts.short or bill[other])
                if may_be and name in inside and inside[other].isdisjoint(named):
                    yield from _renamings(reading, whose, path, told, name, other)


def _renamings(reading, whose, path, told, name, other):
    """Each place where rows name one thing with another one there, the evenest rows first."""
    ways = [
        (number, _renamed(told, number, place, other))
        for number, row in enumerate(told)
        for place, item in enumerate(row)
        if item.name == name
    ]
    sizes = [reading.measures.finished(each) for each in (name, other)]
    unlike = None not in sizes and any(abs(sizes[0].side(n).value - sizes[1].side(n).value) > 1 / 16 for n in (0, 1))
    for number, rows in sorted(ways, key=lambda way: (not _is_even(way[1]), not _is_even([way[1][way[0]]]))):
        once = sum(item.name == name for item in told[number]) == 1
        only = len(ways) == 1 or _is_even(rows) or unlike and (once or _is_even([rows[number]]))
        plain = only and not _lies_turned(reading.sheet, other)
        yield _renaming(reading, whose, path, (told, rows), number, (name, other), plain)


def _all_rows(sheet):
    """(what it is called, path, rows) of all blocks, and of a setting that is drawn."""
    for name, block in sheet.block.items():
        if block.rows:
            yield repr(name), ("block", name, "rows"), block.rows
    for key in ("rows", "between", "columns"):
        rows = getattr(sheet.setting, key)
        if rows:
            yield "the setting", ("setting", key), rows


def _renamed(told, number, place, name):
    """Rows with another name in one place."""
    rows = [list(row) for row in told]
    rows[number][place] = rows[number][place].model_copy(update={"name": name})
    return rows


def _is_even(rows):
    """Whether rows name the same from either end."""
    named = [[item.name for item in row] for row in rows]
    return named == [row[::-1] for row in named[::-1]]


def _lies_turned(sheet, name):
    """Whether something stands turned in some row, or may: units and triangles do."""
    cut = sheet.part(name)
    turned = any(item.turn for _, _, rows in _all_rows(sheet) for row in rows for item in row if item.name == name)
    return turned or name in sheet.unit or cut is not None and cut.cut != "whole"


def _renaming(reading, whose, path, rows, number, names, plain):
    """One place of rows, as told and as meant, with another name."""
    name, other = names
    made = "cut" if reading.sheet.part(other) is not None else "made"
    nothing_uses = f", which is {made} and which nothing uses"
    tells = ": so say the counts of both" if reading.made.bill[other] else nothing_uses
    row = f"{'Column' if path[-1] == 'columns' else 'Row'} {number + 1} of {whose} names {name!r} where {other!r} fits"
    told, fits = rows
    return OtherReading(
        ((path, _typed(fits)),),
        f"{row if plain else f'One {name!r} in the rows of {whose} should be {other!r}'}{tells}. Look at the drawing.",
        _said(told) if plain else f"{name!r} in each such place of {whose}",
        _said(fits) if plain else f"{other!r} in one of them",
        (*(path[1:2] if path[0] == "block" else ()), name, other),
        plain,
        by_counts=True,
    )


def _with_a_row_more(reading, counts):
    """A part that nothing uses as one more row of a block."""
    sheet, bill = reading.sheet, reading.made.bill
    for part in (cut.part for cut in sheet.cut if cut.part in counts.over and not bill[cut.part]):
        for name, block in sheet.block.items():
            if block.rows and sheet.part(part).gives >= bill[name] > 0:
                new = block.rows[0][0].model_copy(update={"name": part, "turn": 0})
                yield _redrawn(
                    name,
                    [[new], *block.rows],
                    block.rows,
                    f"{part!r} is cut and nothing uses it; the quilt fits together where it is one more row of "
                    f"{name!r}, above the others or below. Add it where the drawing shows it.",
                    (name, part),
                )


def _with_corner_squares(reading, counts):
    """A square that nothing uses at the corners of a border."""
    sheet = reading.sheet
    for part in (cut.part for cut in sheet.cut if cut.part in counts.over and not reading.made.bill[cut.part]):
        for number, border in enumerate(sheet.border):
            if border.corner is None and border.triangles is None and border.ends == "butted":
                yield OtherReading(
                    ((("border", number, "corner"), part),),
                    f"{part!r} is cut and nothing uses it; border {number + 1} fits with it at its corners. Look at "
                    "the drawing.",
                    "no corner squares",
                    f"corner squares {part!r}",
                    (part,),
                    by_counts=True,
                )


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
            yield OtherReading(
                ((("strip_set", name, "strips"), more),),
                f"The strips of {name!r} are {_listed(told)}. All fits together with one {part!r} more: "
                f"{_listed(more)}. Look at the drawing.",
                _listed(told),
                _listed(more),
                (name, part),
            )


# -- what the sizes tell -------------------------------------------------------------------------------------------


def _with_borders_exchanged(reading):
    """A pieced border whose sides are told as its top, and its top as its sides."""
    blocks = reading.sheet.block
    for number, border in enumerate(reading.sheet.border):
        if border.sides in blocks and border.top in blocks and border.sides != border.top:
            path = ("border", number)
            told, fits = (
                f"{one!r} left and right, {other!r} at top and bottom"
                for one, other in ((border.sides, border.top), (border.top, border.sides))
            )
            yield OtherReading(
                (((*path, "sides"), border.top), ((*path, "top"), border.sides)),
                f"Border {number + 1} has {told}: they do not fit so. They do with {fits}.",
                told,
                fits,
                (border.sides, border.top),
            )


def _with_parts_exchanged(reading):
    """A unit whose two parts are told in each other's place."""
    for name, unit in reading.sheet.unit.items():
        if len(set(unit.parts)) == 2 == len(unit.parts):
            yield OtherReading(
                ((("unit", name, "parts"), unit.parts[::-1]),),
                f"The parts of the {unit.kind} {name!r} are told as {_listed(unit.parts)}. They fit as "
                f"{_listed(unit.parts[::-1])}.",
                _listed(unit.parts),
                _listed(unit.parts[::-1]),
                (name, *unit.parts),
            )


def _with_pieces_turned(reading):
    """A piece of a block, or all like it in its row, turned by a quarter; of blocks that do not agree."""
    blocks = reading.sheet.block
    for name in _off(reading, "block"):
        for number, row in enumerate(blocks[name].rows):
            for turned in _each_turned(row):
                rows = [list(each) for each in blocks[name].rows]
                rows[number] = turned
                moved = next(item for item, other in zip(row, turned) if item != other)
                yield _redrawn(
                    name,
                    rows,
                    blocks[name].rows,
                    f"{moved.name!r} does not fit in row {number + 1} of {name!r} as it lies. It does turned by a "
                    "quarter, one way or the other. Look at the drawing.",
                    (name, moved.name),
                )._replace(plain=False)


def _each_turned(row):
    """A row with all pieces of one name turned by a quarter, or one of them."""
    for name in dict.fromkeys(item.name for item in row):
        places = [place for place, item in enumerate(row) if item.name == name]
        for some in [places, *([place] for place in places if len(places) > 1)]:
            yield [
                item.model_copy(update={"turn": (item.turn + 90) % 360}) if place in some else item
                for place, item in enumerate(row)
            ]


def _in_other_rows(reading):
    """The few pieces of a block in other rows, where no two are of one size; of blocks that do not agree, and those in
    them."""
    blocks = reading.sheet.block
    off = _off(reading, "block")
    off += [item.name for name in off for row in blocks[name].rows for item in row if item.name in blocks]
    for name in dict.fromkeys(off):
        items = [item for row in blocks[name].rows for item in row]
        may_move = 1 < len(items) <= MOST_MOVED and _are_told_apart(reading, items)
        for rows in _arranged(items) if may_move else ():
            if rows != [list(row) for row in blocks[name].rows]:
                yield _redrawn(
                    name,
                    rows,
                    blocks[name].rows,
                    f"The pieces of {name!r} do not fit together in the rows that are told: "
                    f"{_said(blocks[name].rows)}. They do in these: {_said(rows)}. Look at the drawing.",
                    (name, *dict.fromkeys(item.name for item in items)),
                )


def _off(reading, kind):
    """The names, or numbers, of the blocks or steps of which what is printed does not agree."""
    return [*dict.fromkeys(one.place[1] for one in reading.culprits if one.place[0] == kind)]


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
    steps, off = reading.sheet.step, _off(reading, "step")
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
    return OtherReading(
        tuple((("step", number, "edges"), list(each)) for number, each in edges.items()),
        f"{told[0].upper()}{told[1:]}: the edges do not fit. They do if {fits}. Look at the drawing.",
        told,
        fits,
        tuple(dict.fromkeys(name for number in edges for name in steps[number].sew)),
    )


def _edges(steps, number, edges):
    one, other = steps[number].sew
    return f"step {number + 1} sews the {edges[0]} edge of {one!r} to the {edges[1]} edge of {other!r}"


# -- in words ------------------------------------------------------------------------------------------------------


def _redrawn(name, rows, told, message, parts):
    """A block with other rows."""
    return OtherReading(((("block", name, "rows"), _typed(rows)),), message, _said(told), _said(rows), parts)


def _typed(rows):
    """Rows as a sheet has them typed."""
    return [[*map(as_typed, row)] for row in rows]


def _said(rows):
    """Rows in words."""
    return "; ".join(f"row {number} {_listed(map(as_typed, row))}" for number, row in enumerate(rows, 1))


def _listed(names):
    return ", ".join(map(repr, names))
