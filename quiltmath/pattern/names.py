"""What each name of a sheet is made from: names that nothing makes, and things made from themselves, are found here.

How many of each a quilt takes is worked out in `making.bill`.
"""

from __future__ import annotations

import os.path
import re
from difflib import get_close_matches
from itertools import chain
from typing import TYPE_CHECKING, cast

from . import spelling

if TYPE_CHECKING:
    from collections.abc import Container

    from .cut import Cut
    from .parts import EdgePiece
    from .setting import Setting
    from .sheet import Sheet, StepTable

OF_THE_SETTING = " of the setting"  # keeps the plain words free: patterns call their parts "side triangle"
SETTING, QUILT = "setting", "quilt"
SIDE, CORNER = (f"{kind} triangle{OF_THE_SETTING}" for kind in ("side", "corner"))
DRAWN = ("rows", "columns", "between")
READY_MADE = "ready-made block"
"""The fabric that blocks are drawn in which nobody cuts: no fabric of the sheet."""
EDGES = ("top", "left", "bottom", "right")
MOST_FORGOTTEN = 30  # names: where more are missing, it is the cutting list that is missing
MADE_BY_SETTING = (SETTING, QUILT, SIDE, CORNER, *(f"{where} {kind}" for kind in (SIDE, CORNER) for where in EDGES[1:]))


def uses(sheet: Sheet, name: str) -> list[str]:
    """The names of what a panel is made from, each once; none for a part cut from cloth."""
    if name in sheet.block:
        return _each(item.name for row in sheet.block[name].rows for item in row)
    if name in sheet.unit:
        return _each(sheet.unit[name].parts)
    if name in sheet.strip_set:
        return _each(sheet.strip_set[name].strips)
    step = step_giving(sheet, name)
    if step is not None:
        return _each(step.uses)
    if name == SETTING:
        return _each(_in_setting(sheet))
    if name == QUILT:
        return _each([centre(sheet), *(part for border in sheet.border for part in border.parts)])
    piece = edge_piece(sheet, name)
    return [] if piece is None else _each(in_edge_piece(piece, sheet.setting, where_of(name)))


def _each(names):
    return list(dict.fromkeys(names))


def _in_setting(sheet):
    setting = sheet.setting
    names = blocks_named(setting)
    if setting.style == "on point":
        names += edge_names(sheet, SIDE) + edge_names(sheet, CORNER)
        names += [setting.sides.tip] if setting.sides is not None and setting.sides.tip else []
    return names + sashing_parts(setting)


def blocks_named(setting: Setting) -> list[str]:
    """The names of the blocks of a setting, each once, in the order in which they are named."""
    short = [name for name in (setting.block, setting.alternate) if name]
    return short or list(setting.blocks)


def sashing_parts(setting: Setting) -> list[str]:
    """The names of the sashes, cornerstones and strips of a setting; none where it has no sashing."""
    sashing = setting.sashing
    if sashing is None:
        return []
    stones = [name for name in (sashing.cornerstone, sashing.edge_cornerstone) if name]
    return [sashing.part, *stones, *(sashing.strip or ())]


def in_edge_piece(piece: EdgePiece, setting: Setting, where: str = "top") -> list[str]:
    """The names of all pieces of one edge triangle, each as often as it takes it."""
    frame = list(piece.frame or ())
    if piece.how == "plain":
        return [cast("str", piece.part), *frame]
    if piece.how == "built":
        return [item.name for row in piece.rows_at(where) for item in row] + frame
    return [piece.block or cast("str", setting.block), *frame]


def edge_piece(sheet: Sheet, name: str) -> EdgePiece | None:
    """What the sheet says of a side or a corner triangle; None for other names and in straight settings."""
    if name not in MADE_BY_SETTING:
        return None
    return sheet.setting.sides if name.endswith(SIDE) else sheet.setting.corners if name.endswith(CORNER) else None


def called(name: str) -> str:
    """What a name is called in a sentence.

    >>> called(SIDE), called("side")
    ('side triangle', 'side')
    """
    return name.removesuffix(OF_THE_SETTING)


def where_of(name: str) -> str:
    """The edge an edge triangle's name speaks of; "top" where it names none."""
    return next((where for where in EDGES if name.startswith(where + " ")), "top")


def edge_name(sheet: Sheet, kind: str, where: str) -> str:
    """The name of the side or corner triangle at one edge: its own where it is built otherwise than the one at the
    top."""
    piece = edge_piece(sheet, kind)
    return f"{where} {kind}" if where != "top" and piece is not None and getattr(piece, where) else kind


def edge_names(sheet: Sheet, kind: str) -> list[str]:
    """The names of all the different side or corner triangles of a sheet."""
    return list(dict.fromkeys(edge_name(sheet, kind, where) for where in EDGES)) if edge_piece(sheet, kind) else []


def fabrics_sewn(sheet: Sheet) -> dict[str, list[str]]:
    """{fabric: the parts cut from it} of all that a quilt is sewn from, ready-made blocks last.

    >>> from quiltmath import pattern
    >>> from quiltmath.pattern.sheet import EXAMPLE
    >>> fabrics_sewn(pattern.read_text(EXAMPLE))
    {'navy': ['A']}
    """
    found: dict[str, list[str]] = {}
    for cut in sheet.cut:
        found.setdefault(cut.fabric, []).append(cut.part)
    ready = [name for name, block in sheet.block.items() if block.ready_made]
    return found | ({READY_MADE: ready} if ready else {})


def step_giving(sheet: Sheet, name: str) -> StepTable | None:
    """The explicit step that gives a panel of this name, or None."""
    return sheet.step_giving(name)


def centre(sheet: Sheet) -> str:
    """The name of the panel inside the borders: what the last step gives that is not sewn into the setting, or else the
    setting."""
    inside = all_in(sheet, SETTING) if sheet.step else set()
    return next((step.gives[-1] for step in reversed(sheet.step) if not inside & set(step.gives)), SETTING)


def all_in(sheet: Sheet, name: str) -> set[str]:
    """All names that go into a panel, itself included."""
    seen, waiting = set(), [name]
    while waiting:
        name = waiting.pop()
        if name not in seen:
            seen.add(name)
            waiting += uses(sheet, name)
    return seen


def inside_out(sheet: Sheet, *names: str, known: Container[str] = ()) -> list[str]:
    """All names that go into these panels, themselves included, each after all that it is made from; what is `known`
    already is left out, and all that goes into it alone.

    >>> from quiltmath import pattern
    >>> from quiltmath.pattern.sheet import EXAMPLE
    >>> inside_out(pattern.read_text(EXAMPLE), SETTING)
    ['A', 'four', 'setting']
    """
    done: list[str] = []
    trail: list[str] = []
    seen: set[str] = set()
    stack = [iter(names)]
    while stack:
        following = next(stack[-1], None)
        if following is None:
            stack.pop()
            done += trail[-1:]
            del trail[-1:]
        elif following not in seen and following not in known:
            seen.add(following)
            trail.append(following)
            stack.append(iter(uses(sheet, following)))
    return done


def final(sheet: Sheet) -> str:
    """The name of the panel that is the whole quilt top."""
    return QUILT if sheet.border else centre(sheet)


def is_binding(sheet: Sheet, cut: Cut) -> bool:
    """Whether a line of the cutting list cuts the binding strips, and nothing else is made of them."""
    binding = sheet.binding
    if binding is None or cut.part != (binding.part or cut.part):
        return False
    return (binding.fabric, binding.strip) == (cut.fabric, cut.strip) and all(
        name != cut.part for path, name in _mentions(sheet) if path[0] != "other_size"
    )


def first_trouble(sheet: Sheet) -> tuple[list[str | int], str] | None:
    """The first thing about the names that keeps a sheet from being understood, as (path in the sheet, message); else
    None.

    A name that two things have or that is made from itself, one that is written in a way no name is, or that is
    plainly a slip of the pen. One that is only left out of the cutting list is no such thing: see `forgotten`.
    """
    trouble = _given_twice(sheet) or _unlisted_cloth(sheet)
    if trouble:
        return trouble
    known = _known(sheet)
    lost = forgotten(sheet)
    spare = known - set(MADE_BY_SETTING) - {name for _, name in _uses_of_names(sheet)} if lost else set()
    for path, name in _mentions(sheet):
        if name not in known and not (path[0] == "other_size" and name in _given_there(sheet.other_size[path[1]])):
            words = _not_understood(name, known, spare) or ("" if name in lost else _only_there(name, known))
            if words:
                return path, f"{name!r} {words}"
    both = {cut.part for cut in sheet.cut if cut.slant == "both"}
    for path, name in _uses_of_names(sheet) if both else ():
        if name in both and path[0] != "unit":
            return path, (
                f"{name!r} is cut slanting both ways, and only a unit tells which of its triangles it takes: give "
                "those that slant left and those that slant right a [[cut]] each, and write the name of the one"
            )
    shaped = {cut.part: cut.shape for cut in sheet.cut if cut.shape is not None}
    for path, name in _uses_of_names(sheet) if shaped else ():
        if name in shaped and not _takes_shapes(sheet, path, name):
            return path, (
                f"{name!r} is cut as a {shaped[name]}, which only a row of a block or of the setting takes, a step, or "
                'a "triangle in a square" unit as its first part: name a part that is cut otherwise'
            )
    if len(lost) > MOST_FORGOTTEN:
        name, path = next(iter(lost.items()))
        return path, f"{name!r} and {len(lost) - 1} more names are never cut or made: type the cutting list too"
    loop = _loop(sheet, [cut.part for cut in sheet.cut])
    if loop:
        return ["step"] if loop[0] not in sheet.block and loop[0] not in sheet.unit else ["block", loop[0], "rows"], (
            f"{loop[0]!r} would be made from itself ({' from '.join(map(repr, loop))}): "
            "start it from parts that are cut"
        )
    return None


def _takes_shapes(sheet, path, name):
    """Whether a piece cut at an angle may stand where a name is used."""
    if path[0] == "unit":
        unit = sheet.unit[path[1]]
        return unit.kind == "triangle in a square" and name == unit.parts[0] and name not in unit.parts[1:]
    return path[0] in ("block", "step") or path[0] == "setting" and path[1] in DRAWN


def forgotten(sheet: Sheet) -> dict[str, list[str | int]]:
    """{name: the path of its first use} of what a quilt takes and nothing in the sheet cuts or makes.

    >>> from quiltmath import pattern
    >>> from quiltmath.pattern.sheet import EXAMPLE
    >>> forgotten(pattern.read_text(EXAMPLE.replace('"A A", "A A"', '"A small", "A A"')))
    {'small': ['block', 'four', 'rows']}
    """
    known: set[str] = _known(sheet)
    found: dict[str, list[str | int]] = {}
    for path, name in _uses_of_names(sheet):
        if name not in known:
            found.setdefault(name, path)
    return found


def unused(sheet: Sheet) -> list[str]:
    """The parts of the cutting list that nothing is made of, the binding's left aside."""
    used = {name for _, name in _uses_of_names(sheet)}
    return [cut.part for cut in sheet.cut if cut.part not in used and not is_binding(sheet, cut)]


def in_one(sheet: Sheet) -> None:
    """Make each row whose words name nothing by themselves, and one thing together, a row of that one.

    >>> from quiltmath import pattern
    >>> from quiltmath.pattern.sheet import EXAMPLE
    >>> sheet = pattern.read_text(EXAMPLE.replace('"A"', '"dark red"').replace('"A A", "A A"', '"dark red"'))
    >>> [[item.name for item in row] for row in sheet.block["four"].rows]
    [['dark red']]
    """
    known, setting = _known(sheet), sheet.setting
    told = [*(block.rows for block in sheet.block.values()), setting.lines]
    for size in sheet.other_size:
        told += [getattr(size, key) or [] for key in DRAWN] + [block.rows for block in size.block.values()]
    for piece in (setting.sides, setting.corners):
        told += [] if piece is None else [piece.rows or [], piece.left or [], piece.bottom or [], piece.right or []]
    for row in chain(*told):
        names = [item.name for item in row]
        if " ".join(names) in known and not known.issuperset(names) and not any(item.turn for item in row[:-1]):
            row[:] = [row[-1].model_copy(update={"name": " ".join(names)})]


def _known(sheet):
    """All names that something is given, or that the setting makes."""
    on_point = sheet.setting.style == "on point"
    return {name for _, name in _given(sheet)} | (set(MADE_BY_SETTING) - {QUILT} if on_point else {SETTING})


def _given_there(size):
    """The names of what another size alone cuts and makes."""
    return {cut.part for cut in size.cut} | size.block.keys()


def _uses_of_names(sheet):
    """Every use of a name in the making of the quilt, as (path, name): what other sizes say of them left aside."""
    return ((path, name) for path, name in _mentions(sheet) if path[0] != "other_size")


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


def _given(sheet):
    """Every name that something is given, as (path, name)."""
    yield from ((["cut", number, "part"], cut.part) for number, cut in enumerate(sheet.cut))
    for kind in ("strip_set", "unit", "block"):
        yield from (([kind, name], name) for name in getattr(sheet, kind))
    yield from ((["step", number, "gives"], name) for number, step in enumerate(sheet.step) for name in step.gives)


def _given_twice(sheet):
    """A name that two things have, or that belongs to the setting, as (path, message); else None."""
    given = set()
    for path, name in _given(sheet):
        if name in MADE_BY_SETTING:
            return path, f"{name!r} is what the setting itself makes: give your part, block or step another name"
        if name in given:
            return path, f"two parts, units, blocks or steps are called {name!r}: give each a name of its own"
        given.add(name)
    return None


def _unlisted_cloth(sheet):
    """A cloth that is cut but stands in no [fabric], as (path, message); else None.

    Binding and backing may be of a cloth the pattern does not list, but not of one that is spelt almost like it.
    """
    if not sheet.fabric:
        return None
    listed = ", ".join(sheet.fabric)
    for number, cut in enumerate(sheet.cut):
        if cut.fabric not in sheet.fabric:
            return ["cut", number, "fabric"], (
                f"part {cut.part!r} is cut from {cut.fabric!r}, which is no [fabric]; the sheet has {listed}"
                f"{_how_to_list(cut.fabric, sheet.fabric)}"
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


def _how_to_list(name, listed):
    """How a fabric is written that the pattern forgets to list; nothing for one that is spelt almost like a listed
    one."""
    if _nearest(name, listed, 0.75):
        return ""
    return f"; where the pattern forgets to list it, write [fabric.{spelling.key(name)}], with nothing below it"


def _mentions(sheet):
    """Every use of a name, as (path, name)."""
    for name, block in sheet.block.items():
        yield from ((["block", name, "rows"], item.name) for row in block.rows for item in row)
    for name, unit in sheet.unit.items():
        yield from ((["unit", name, "parts"], part) for part in unit.parts)
    for name, strip_set in sheet.strip_set.items():
        yield from ((["strip_set", name, "strips"], part) for part in strip_set.strips)
    for number, border in enumerate(sheet.border):
        yield from ((["border", number], name) for name in border.parts)
    setting = sheet.setting
    yield from ((["setting", "sashing"], name) for name in sashing_parts(setting))
    for key in ("block", "alternate"):
        yield from ((["setting", key], name) for name in [getattr(setting, key)] if name)
    for key in DRAWN:
        for number, row in enumerate(getattr(setting, key) or ()):
            yield from ((["setting", key, number], item.name) for item in row)
    for key in ("sides", "corners"):
        piece = getattr(setting, key)
        if piece is not None:
            for where in EDGES:
                yield from ((["setting", key], name) for name in in_edge_piece(piece, setting, where))
            yield from ((["setting", key], name) for name in [piece.tip] if name)
    for number, step in enumerate(sheet.step):
        yield from ((["step", number], name) for name in step.uses)
    for number, size in enumerate(sheet.other_size):
        yield from ((["other_size", number, key], name) for key in ("counts", "sizes") for name in getattr(size, key))
        for key in DRAWN:
            yield from ((["other_size", number, key], item.name) for row in getattr(size, key) or () for item in row)
        for name, block in size.block.items():
            path = ["other_size", number, "block", name, "rows"]
            yield from ((path, item.name) for row in block.rows for item in row)
        yield from ((["other_size", number, "strip"], name) for name in size.strip or ())
        for at, border in enumerate(size.border or ()):
            yield from ((["other_size", number, "border", at], name) for name in border.parts)


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
