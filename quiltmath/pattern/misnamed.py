"""Names that keep a sheet from being understood: given twice, plainly a slip, or of things made from themselves."""

from __future__ import annotations

import os.path
import re
from difflib import get_close_matches
from typing import TYPE_CHECKING

from .names import (
    DRAWN,
    MADE_BY_SETTING,
    QUILT,
    SETTING,
    first_few,
    forgotten,
    given_names,
    known_names,
    mentions,
    uses,
    uses_of_names,
)

if TYPE_CHECKING:
    from .sheet import Sheet

BLUNT = 1  # inches: a triangle with a right angle at its tip may be cut so much lower or higher than its tip asks
MOST_FORGOTTEN = 30  # names: where more are missing, it is the cutting list that is missing


def first_trouble(sheet: Sheet) -> tuple[list[str | int], str] | None:
    """The first thing about the names that keeps a sheet from being understood, as (path in the sheet, message); else
    None.

    A name that two things have or that is made from itself, one that is written in a way no name is, or that is
    plainly a slip of the pen. One that is only left out of the cutting list is no such thing: see `forgotten`.
    """
    return (
        _given_twice(sheet)
        or _unlisted_cloth(sheet)
        or _parted(sheet)
        or _misnamed(sheet)
        or _slanting_both_ways(sheet)
        or _shaped(sheet)
        or _too_many_forgotten(sheet)
        or _made_from_itself(sheet)
    )


def _parted(sheet):
    """A name with a blank in a row that is one text, where each word is taken for a name."""
    known = known_names(sheet)
    with_blanks = sorted(name for name in known if " " in name)
    for block, made in sheet.block.items() if with_blanks else ():
        for number, row in enumerate(made.rows or ()):
            names = [item.name for item in row]
            name = next((name for name in with_blanks if _stands_in(name.split(), names)), None)
            if name is not None and not known.issuperset(name.split()):
                return ["block", block, "rows", number], (
                    f"{name!r} has a blank in its name, and in a row that is one text each word is a name: write the "
                    f'row as a list, ["{name}", …]'
                )
    return None


def _stands_in(words, names):
    """Whether these words are names of a row, one after another."""
    return any(names[at : at + len(words)] == words for at in range(len(names) - len(words) + 1))


def _misnamed(sheet):
    """A name that is used where nothing of it can stand, or that cannot be understood."""
    known, lost = known_names(sheet), forgotten(sheet)
    spare = known - set(MADE_BY_SETTING) - {name for _, name in uses_of_names(sheet)} if lost else set()
    for path, name in mentions(sheet):
        if name in known and name in MADE_BY_SETTING and path[0] not in ("step", "other_size"):
            return path, f"{name!r} is what the setting itself makes, and only a step takes that: name a part or block"
        if name not in known and not (path[0] == "other_size" and name in _given_there(sheet.other_size[path[1]])):
            words = _not_understood(name, known, spare) or ("" if name in lost else _only_there(name, known))
            if words:
                return path, f"{name!r} {words}"
    return None


def _slanting_both_ways(sheet):
    """A piece cut slanting both ways that is used where nothing tells which of the two is meant."""
    both = {cut.part for cut in sheet.cut if cut.slant == "both"}
    for path, name in uses_of_names(sheet) if both else ():
        if name in both and path[0] != "unit":
            return path, (
                f"{name!r} is cut slanting both ways, and only a unit tells which of its triangles it takes: give "
                "those that slant left and those that slant right a [[cut]] each, and write the name of the one"
            )
    return None


def _shaped(sheet):
    """A piece cut at an angle that is used where none can be sewn."""
    shaped = {cut.part: cut for cut in sheet.cut if cut.shape is not None}
    for path, name in uses_of_names(sheet) if shaped else ():
        if name in shaped and not _takes_shapes(sheet, path, name):
            return path, (
                f"{name!r} is cut as a {shaped[name].shape}, which only a row of a block or of the setting takes, a "
                f'step, or a "triangle in a square" unit as its first part: {_other_way(shaped[name])}'
            )
    return None


def _other_way(cut):
    """How a piece that is cut at an angle from its strip may be written where no shape can stand."""
    if cut.shape == "triangle" and abs(cut.size[0] - 2 * cut.size[1]) <= BLUNT:
        return (
            'write the squares that would give such triangles, as large as its long side, cut = "twice", a quarter as '
            "many"
        )
    return "name a part that is cut otherwise"


def _too_many_forgotten(sheet):
    """So many names that the cutting list forgets that it is not the whole one."""
    lost = forgotten(sheet)
    if len(lost) <= MOST_FORGOTTEN:
        return None
    name, path = next(iter(lost.items()))
    return path, f"{name!r} and {len(lost) - 1} more names are never cut or made: type the cutting list too"


def _made_from_itself(sheet):
    """A panel that is made from itself."""
    loop = _loop(sheet, [cut.part for cut in sheet.cut])
    if not loop:
        return None
    first = loop[0]
    path = ["block", first, "rows"] if first in sheet.block or first in sheet.unit else ["step"]
    return path, (
        f"{first!r} would be made from itself ({' from '.join(map(repr, loop))}): start it from parts that are cut"
    )


def _takes_shapes(sheet, path, name):
    """Whether a piece cut at an angle may stand where a name is used."""
    if path[0] == "unit":
        unit = sheet.unit[path[1]]
        return unit.kind == "triangle in a square" and name == unit.parts[0] and name not in unit.parts[1:]
    return path[0] in ("block", "step") or path[0] == "setting" and path[1] in DRAWN


def _given_there(size):
    """The names of what another size alone cuts and makes."""
    return {cut.part for cut in size.cut} | size.block.keys()


def _not_understood(name, known, spare):
    """Why a name that nothing has cannot be understood, in words that follow it; "" where it is only missing.

    `spare` are names of what nothing uses: one of them, a letter off, is what was meant.
    """
    if name.rstrip(",;") in known:
        return "is never cut or made; the names of a row are parted by blanks alone"
    if name.partition(":")[0] in known:
        return (
            "is turned here, but only what stands in a row can be: make a [block] of it, with "
            f'rows = [["{name}"]], and write its name here'
        )
    if name in MADE_BY_SETTING:
        return "is what the setting itself makes, and not in this setting: name a part, block or step"
    slip = next((one for one in sorted(spare) if _is_slip(name, one)), None)
    return "" if slip is None else f"is never cut or made, and nothing uses {slip!r}; did you mean {slip!r}?"


def _only_there(name, known):
    """What is wrong with a name that another size alone speaks of."""
    near = _nearest(name, known)
    hint = f"; did you mean {near!r}?" if near else ""
    return f"is never cut or made{hint} (write it as the first size has it)"


def _is_slip(name, meant):
    """Whether a name is another with a letter left out, put in, changed or swapped, or the same but for its capitals,
    blanks and hyphens; names of one or two letters differ on purpose, and so do those that differ in a number.

    >>> _is_slip("fuor", "four"), _is_slip("dark strip", "Dark-strip"), _is_slip("T1", "T2"), _is_slip("log 1", "log 2")
    (True, True, False, False)
    """
    one, two = (re.sub(r"[\W_]+", "", each.casefold()) for each in (name, meant))
    if one == two:
        return True
    same = len(os.path.commonprefix([one, two]))
    one, two = one[same:], two[same:]
    if one[:2] == two[:2][::-1]:
        left, right = one[2:], two[2:]
    else:
        left, right = one[len(one) >= len(two) :], two[len(two) >= len(one) :]
    odd = {*one[: len(one) - len(left)], *two[: len(two) - len(right)]}
    return left == right and min(map(len, (name, meant))) > 2 and not any(map(str.isdigit, odd))


def _nearest(name, known, like=0.6):
    """The known name that this one may be a slip of: one that differs in its capitals alone, or is spelt almost like
    it."""
    same = sorted(one for one in known if one.casefold() == name.casefold())
    return next(iter(same or get_close_matches(name, known, 1, like)), None)


def _given_twice(sheet):
    """A name that two things have, or that belongs to the setting, as (path, message); else None."""
    given = set()
    for path, name in given_names(sheet):
        if name in MADE_BY_SETTING:
            return path, f"{name!r} is what the setting itself makes: give your part, block or step another name"
        if name in given:
            return path, f"two parts, units, blocks or steps are called {name!r}: give each a name of its own"
        given.add(name)
    return None


def _unlisted_cloth(sheet):
    """A cloth that is spelt almost like one in a [fabric] and stands in none, as (path, message); else None.

    Pieces, binding and backing may be of a cloth that the pattern forgets to list.
    """
    if not sheet.fabric:
        return None
    listed = first_few(sheet.fabric)
    for number, cut in enumerate(sheet.cut):
        if cut.fabric not in sheet.fabric and _nearest(cut.fabric, sheet.fabric, 0.75):
            return ["cut", number, "fabric"], (
                f"part {cut.part!r} is cut from {cut.fabric!r}, which is no [fabric]; the sheet has {listed}"
            )
    for number, size in enumerate(sheet.other_size):
        for key in ("bought", "pieces"):
            for name in getattr(size, key).keys() - sheet.fabric.keys():
                return ["other_size", number, key], (
                    f"size {size.name!r} buys {name!r}, which is no [fabric]; the sheet has {listed}"
                )
    for key in ("binding", "backing"):
        fabric = getattr(getattr(sheet, key), "fabric", None)
        near = _nearest(fabric, sheet.fabric, 0.75) if fabric and fabric not in sheet.fabric else None
        if near:
            return [key, "fabric"], f"the {key} is cut from {fabric!r}, which is no [fabric]; did you mean {near!r}?"
    return None


def _loop(sheet, parts):
    """A chain of names in which the last is made from the first, or None."""
    finished = set(parts)
    steps = (name for step in sheet.step for name in step.gives)
    for start in [*sheet.block, *sheet.unit, *sheet.strip_set, *steps, SETTING, QUILT]:
        trail, stack = [], [(start, iter(uses(sheet, start)))]
        on_trail = {start}
        trail.append(start)
        while stack:
            name, rest = stack[-1]
            following = next(rest, None)
            if following is None:
                stack.pop()
                trail.pop()
                on_trail.discard(name)
                finished.add(name)
            elif following in on_trail:
                return [*trail[trail.index(following) :], following]
            elif following not in finished:
                stack.append((following, iter(uses(sheet, following))))
                trail.append(following)
                on_trail.add(following)
    return None
