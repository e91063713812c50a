"""What each name of a sheet is made from, and the names that nothing makes; `misnamed` tells what is wrong with them.

How many of each a quilt takes is worked out in `making.bill`.
"""

from __future__ import annotations

from itertools import chain
from typing import TYPE_CHECKING, Any, cast

if TYPE_CHECKING:
    from collections.abc import Container, Iterable, Iterator

    from .cut import Cut
    from .parts import EdgePiece
    from .setting import Setting
    from .sheet import Sheet
    from .step import StepTable

OF_THE_SETTING = " of the setting"  # keeps the plain words free: patterns call their parts "side triangle"
SETTING, QUILT = "setting", "quilt"
SIDE, CORNER = (f"{kind} triangle{OF_THE_SETTING}" for kind in ("side", "corner"))
DRAWN = ("rows", "columns", "between")
READY_MADE = "ready-made block"
"""The fabric that blocks are drawn in which nobody cuts: no fabric of the sheet."""
EDGES = ("top", "left", "bottom", "right")
MADE_BY_SETTING = (SETTING, QUILT, SIDE, CORNER, *(f"{where} {kind}" for kind in (SIDE, CORNER) for where in EDGES[1:]))

MOST_TOLD = 8  # names: a message lists no more of them


def first_few(names: Iterable[str]) -> str:
    """Names as a message lists them, and how many more there are.

    >>> first_few(["red", "blue"]), first_few("ABCDEFGHIJ")
    ('red, blue', 'A, B, C, D, E, F, G, H and 2 more')
    """
    told = list(names)
    more = len(told) - MOST_TOLD
    return ", ".join(told[:MOST_TOLD]) + (f" and {more} more" if more > 0 else "")


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


def all_in(sheet: Sheet, name: str) -> frozenset[str]:
    """All names that go into a panel, itself included."""
    inside = sheet.known_inside
    for panel in inside_out(sheet, name, known=inside):
        inside[panel] = frozenset([panel]).union(*(inside.get(used, ()) for used in uses(sheet, panel)))
    return inside[name]


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
        name != cut.part for path, name in mentions(sheet) if path[0] != "other_size"
    )


def forgotten(sheet: Sheet) -> dict[str, list[str | int]]:
    """{name: the path of its first use} of what a quilt takes and nothing in the sheet cuts or makes.

    >>> from quiltmath import pattern
    >>> from quiltmath.pattern.sheet import EXAMPLE
    >>> forgotten(pattern.read_text(EXAMPLE.replace('"A A", "A A"', '"A small", "A A"')))
    {'small': ['block', 'four', 'rows']}
    """
    known: set[str] = known_names(sheet)
    found: dict[str, list[str | int]] = {}
    for path, name in uses_of_names(sheet):
        if name not in known:
            found.setdefault(name, path)
    return found


def unused(sheet: Sheet) -> list[str]:
    """The parts of the cutting list that nothing is made of, the binding's left aside."""
    used = {name for _, name in uses_of_names(sheet)}
    return [cut.part for cut in sheet.cut if cut.part not in used and not is_binding(sheet, cut)]


def in_one(sheet: Sheet) -> None:
    """Make each row whose words name nothing by themselves, and one thing together, a row of that one.

    >>> from quiltmath import pattern
    >>> from quiltmath.pattern.sheet import EXAMPLE
    >>> sheet = pattern.read_text(EXAMPLE.replace('"A"', '"dark red"').replace('"A A", "A A"', '"dark red"'))
    >>> [[item.name for item in row] for row in sheet.block["four"].rows]
    [['dark red']]
    """
    known, setting = known_names(sheet), sheet.setting
    told = [*(block.rows for block in sheet.block.values()), setting.lines]
    for size in sheet.other_size:
        told += [getattr(size, key) or [] for key in DRAWN] + [block.rows for block in size.block.values()]
    for piece in (setting.sides, setting.corners):
        told += [] if piece is None else [piece.rows or [], piece.left or [], piece.bottom or [], piece.right or []]
    for row in chain(*told):
        names = [item.name for item in row]
        if " ".join(names) in known and not known.issuperset(names) and not any(item.turn for item in row[:-1]):
            row[:] = [row[-1].model_copy(update={"name": " ".join(names)})]


def known_names(sheet: Sheet) -> set[str]:
    """All names that something is given, or that the setting makes."""
    on_point = sheet.setting.style == "on point"
    return {name for _, name in given_names(sheet)} | (set(MADE_BY_SETTING) - {QUILT} if on_point else {SETTING})


def uses_of_names(sheet: Sheet) -> Iterator[tuple[list[Any], str]]:
    """Every use of a name in the making of the quilt, as (path, name): what other sizes say of them left aside."""
    return ((path, name) for path, name in mentions(sheet) if path[0] != "other_size")


def given_names(sheet: Sheet) -> Iterator[tuple[list[Any], str]]:
    """Every name that something is given, as (path, name)."""
    yield from ((["cut", number, "part"], cut.part) for number, cut in enumerate(sheet.cut))
    for kind in ("strip_set", "unit", "block"):
        yield from (([kind, name], name) for name in getattr(sheet, kind))
    yield from ((["step", number, "gives"], name) for number, step in enumerate(sheet.step) for name in step.gives)


def mentions(sheet: Sheet) -> Iterator[tuple[list[Any], str]]:
    """Every use of a name, as (path, name)."""
    yield from _told_in_blocks(sheet.block)
    yield from ((["unit", name, "parts"], part) for name, unit in sheet.unit.items() for part in unit.parts)
    yield from ((["strip_set", name, "strips"], part) for name, one in sheet.strip_set.items() for part in one.strips)
    yield from _told_in_borders(sheet.border)
    yield from _told_in_setting(sheet.setting)
    yield from ((["step", number], name) for number, step in enumerate(sheet.step) for name in step.uses)
    for number, size in enumerate(sheet.other_size):
        yield from ((["other_size", number, *path], name) for path, name in _told_in_size(size))


def _told_in_blocks(blocks):
    """The names in the rows of blocks."""
    for block, table in blocks.items():
        yield from ((["block", block, "rows"], item.name) for row in table.rows for item in row)


def _told_in_borders(borders):
    """The names of the parts of borders."""
    return ((["border", number], name) for number, border in enumerate(borders) for name in border.parts)


def _told_in_setting(setting):
    """The names of the blocks, the sashing and the edge triangles of a setting."""
    yield from ((["setting", "sashing"], name) for name in sashing_parts(setting))
    yield from ((["setting", key], name) for key in ("block", "alternate") if (name := getattr(setting, key)))
    for key in DRAWN:
        for number, row in enumerate(getattr(setting, key) or ()):
            yield from ((["setting", key, number], item.name) for item in row)
    for key in ("sides", "corners"):
        piece = getattr(setting, key)
        if piece is not None:
            yield from ((["setting", key], name) for where in EDGES for name in in_edge_piece(piece, setting, where))
            yield from ((["setting", key], name) for name in [piece.tip] if name)


def _told_in_size(size):
    """The names that another size says something of, or makes its quilt of."""
    yield from (([key], name) for key in ("counts", "sizes") for name in getattr(size, key))
    for key in DRAWN:
        yield from (([key], item.name) for row in getattr(size, key) or () for item in row)
    yield from _told_in_blocks(size.block)
    yield from ((["strip"], name) for name in size.strip or ())
    yield from _told_in_borders(size.border or ())
