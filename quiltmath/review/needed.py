"""The exact cut size each part needs for what it is sewn to, said of every part and not only of the wrong
ones."""

from itertools import chain
from math import sqrt
from typing import Any, NamedTuple

from .. import making
from ..making.needs import edge_square, unit_needs
from ..making.rounding import needed_square
from ..pattern.names import CORNER, SIDE, edge_names, edge_piece, where_of
from .checks.diagnosis import culprit, laid
from .checks.sizes import block_width, plain_piece


class Needed(NamedTuple):
    """An exact raw (width, height) in inches; `least` where longer will do as well and is trimmed."""

    size: tuple[float, float]
    least: bool = False


def sizes_needed(made: making.Made) -> dict[str, Needed]:
    """{part: Needed} for every part whose size follows from another figure of the sheet.

    >>> from quiltmath import making, pattern
    >>> from quiltmath.pattern.sheet import EXAMPLE
    >>> sheet = EXAMPLE.replace("[block.four]", '[block.four]\\nfinished = "6"')
    >>> sizes_needed(making.make(pattern.read_text(sheet)))
    {'A': Needed(size=(3.5, 3.5), least=False)}
    """
    found: dict[str, Needed] = {}
    sheet: Any = made.sheet
    held = _held(made)
    for part, needed in chain(
        _printed(made),
        _edge_triangles(made),
        _built(made),
        _units(made, held),
        _blocks(made, held),
        _alternate(made),
        _sashing(made),
        _frames(made),
        _borders(made),
    ):
        if sheet.part(part) is not None:
            found.setdefault(part, needed)
    return found


def _printed(made):
    """Parts that print their finished size."""
    for cut in made.sheet.cut:
        if cut.finished is not None and cut.size is not None:
            yield (
                cut.part,
                Needed(tuple(needed_square(cut.cut, float(side), made.seam) for side in cut.finished)),
            )


def _edge_triangles(made):
    """Plain side and corner triangles, by the block they lie beside."""
    block = block_width(made)
    for kind, piece, way in (
        (SIDE, made.sheet.setting.sides, "twice"),
        (CORNER, made.sheet.setting.corners, "once"),
    ):
        cut = plain_piece(made.sheet, piece)
        exact = edge_square(made, kind, block) if block is not None and cut is not None else None
        if exact is not None and cut.cut == way:
            yield cut.part, Needed((exact, exact), least=True)


def _built(made):
    """Triangles at the ends of the rows of built edge triangles: their legs are as long as the row is
    high."""
    for kind in (SIDE, CORNER):
        for name in edge_names(made.sheet, kind):
            piece = edge_piece(made.sheet, name)
            for row in piece.rows_at(where_of(name)) if piece.how == "built" else ():
                placed = [laid(made, item) for item in row]
                heights = [part.height for part in placed if part is not None and not part.triangle]
                for part in placed:
                    if heights and part is not None and part.triangle and made.sheet.part(part.name).cut == "twice":
                        yield (
                            part.name,
                            Needed((needed_square("twice", heights[0] * sqrt(2), made.seam),) * 2, least=True),
                        )


def _units(made, held):
    """Parts of units that print their finished size, or that lie in blocks that print theirs."""
    for name, unit in made.sheet.unit.items():
        size = unit.finished or unit.trim_to and [side - 2 * made.sheet.sewing_seam for side in unit.trim_to]
        if size is None and name in held and made.panel(name) is not None:
            size = [side - 2 * made.seam - by for side, by in zip(made.panel(name).size, held[name])]
        if size is not None:
            for part, exact in unit_needs(made.sheet, unit, size, made.seam).items():
                yield part, Needed(exact, least=unit.trim_to is not None)


def _blocks(made, held):
    """Parts that lie in the rows of blocks that print their finished size: as printed, less what is too
    much."""
    for name, (wide, high) in held.items():
        cut = made.sheet.part(name)
        if cut is not None and cut.cut == "whole":
            width, height = made.sheet.cut_size(cut)
            yield name, Needed((float(width) - wide, float(height) - high))


def _held(made):
    """{name: (too wide, too high)} of what lies in rows that are held to a printed size, in inches as the
    part is cut."""
    held = {}
    for block in made.sheet.block.values():
        placed = [[laid(made, item) for item in row] for row in block.rows]
        if block.finished is None or block.trim_to is not None or any(part is None for row in placed for part in row):
            continue
        blame = culprit(placed, [float(block.finished[0])] * len(placed), float(block.finished[1]))
        for part in (part for row in placed for part in row):
            held.setdefault(part.name, (0.0, 0.0))
        if blame is not None and blame.name:
            held[blame.name] = blame.width, blame.height
    return held


def _alternate(made):
    """A plain alternate block beside the main one."""
    setting = made.sheet.setting
    if setting.alternate is not None and made.panel(setting.block) is not None:
        yield setting.alternate, Needed(tuple(made.panel(setting.block).size))


def _sashing(made):
    """Sashes along the side of a block, cornerstones as wide as the sashes."""
    sashing, block = made.sheet.setting.sashing, block_width(made)
    cut = made.sheet.part(sashing.part) if sashing is not None else None
    if cut is None or block is None or cut.size is None:
        return
    width, long = float(min(cut.size)), block + 2 * made.seam
    yield cut.part, Needed((width, long) if cut.size[0] <= cut.size[1] else (long, width))
    if sashing.cornerstone:
        yield sashing.cornerstone, Needed((width, width))


def _frames(made):
    """Frame strips on edge triangles, which must reach past their 45-degree trim."""
    names = [name for kind in (SIDE, CORNER) for name in edge_names(made.sheet, kind)]
    pairs = []
    for name in names:
        frame = edge_piece(made.sheet, name).frame
        triangle = making.unframed(made, name) if frame is not None else None
        if triangle is not None and made.panel(name) is not None:
            pairs += [(part, long) for (part, _), long in making.frame_lengths(made, triangle, frame).items()]
    yield from _longest(made, pairs)


def _borders(made):
    """Border strips that are cut to length."""
    yield from _longest(made, [(strip.part, strip.length) for strip in made.border_strips if made.top is not None])


def _longest(made, pairs):
    """The strips cut to length among these (part, length in inches), each as wide as it is cut and as long as
    its longest."""
    for part in dict(pairs):
        cut = made.sheet.part(part)
        if cut is not None and cut.size is not None:
            width, height = map(float, cut.size)
            long = max(length for name, length in pairs if name == part)
            yield part, Needed((width, long) if width <= height else (long, height), least=True)
