"""One piece of cloth as the cutting list prints it, at the size that the printed one stands for."""

from __future__ import annotations

from fractions import Fraction
from math import sqrt
from typing import TYPE_CHECKING, Any

from ..pattern.names import all_in, blocks_named
from ..root2 import Root2
from ..sewing import CannotSew, patch
from . import measures, shaped
from .at_the_edge import edge_triangles
from .room import unit_room
from .rounding import (
    GRID,
    ROUNDED_UP,
    ROUNDING,
    added,
    finished_rectangle,
    finished_size,
    nearest_triangle,
    needed_rectangle,
    needed_square,
    rounded_rectangle,
    triangle_between,
)

if TYPE_CHECKING:
    from ..pattern.cut import Cut
    from ..pattern.sheet import Sheet
    from ..sewing import Panel
    from .made import Made


def cut_piece(made: Made, cut: Cut, slant: str | None = None) -> Panel:
    """One piece of a line of the cutting list, as a panel; triangles lie with their right angle at the lower left.

    The lengthwise grain runs up the printed piece, so the legs of a triangle cut once lie on grain, and of one cut
    twice its long edge. `slant` is the way in which a rectangle is cut once, where its line leaves that open.
    """
    width, height = meant_size(made, cut)
    about: dict[str, Any] = {"fabric": cut.fabric, "part": cut.part}
    if cut.cut == "whole":
        return patch(size=(width, height), **about)
    if cut.shape is not None:
        return patch(corners=shaped.corners(cut.shape, (width, height), made.seam, cut.slant), **about)
    if cut.cut == "once":
        across, up = as_it_lies(cut, (width, height), slant)
        grain = 0.0 if lies_turned(cut, slant) else 90.0
        return patch(corners=[(0, 0), (across, 0), (0, up)], grain=grain, **about)
    if width != height:
        raise CannotSew(
            f"only a square is cut twice on the diagonal; part {cut.part!r} is {width:.4g} by {height:.4g} in: "
            "cut it as a square"
        )
    return patch(corners=[(0, 0), (width / sqrt(2), 0), (0, width / sqrt(2))], grain=45, **about)


def as_it_lies(cut: Cut, size: tuple[float, float], slant: str | None = None) -> tuple[float, float]:
    """The (across, up) of a triangle cut once from a piece of this (width, height), its right angle at the lower left.

    One that slants to the left has its long leg up, one that slants to the right across; one that slants neither way,
    or both, lies as its size is printed.

    >>> from quiltmath.pattern.cut import Cut
    >>> cut = Cut(part="A", fabric="navy", size=(2, 4), count=1, cut="once", slant="right")
    >>> as_it_lies(cut, (2.0, 4.0)), as_it_lies(cut, (2.0, 4.0), "left")
    ((4.0, 2.0), (2.0, 4.0))
    """
    return size[::-1] if lies_turned(cut, slant) else size


def lies_turned(cut: Cut, slant: str | None = None) -> bool:
    """Whether a triangle cut once lies, right angle at the lower left, with the printed width of its piece up."""
    way = slant or cut.slant
    upright = cut.size is not None and cut.size[0] < cut.size[1]
    return cut.halved_rectangle and way in ("left", "right") and upright != (way == "left")


def meant_size(made: Made, cut: Cut) -> tuple[float, float]:
    """The (width, height) in inches that a printed cut size stands for: rounding is not sewn in (see `rounding`)."""
    width, height = map(float, made.sheet.cut_size(cut))
    printed = width, height
    if made.as_printed:
        return printed
    exact = _inside(made, cut) if cut.cut == "whole" else _at_the_edge(made, cut)
    if exact is not None:
        return (exact, exact) if all(_rounded(side, exact) for side in printed) else printed
    if cut.cut == "whole":
        return printed
    if cut.halved_rectangle:
        legs = meant_finished(made, cut)
        return needed_rectangle(legs, made.seam) if min(legs) > 0 else printed
    if cut.shape is not None:
        return _meant_shape(made, cut, (printed[0], printed[1]))
    width, height = (side + added(cut.cut, made.seam) for side in meant_finished(made, cut))
    return width, height


def meant_finished(made: Made, cut: Cut) -> tuple[float, float]:
    """The finished (width, height) in inches that a printed part stands for: of the unit, or the long side for "twice".

    Of a triangle it is the printed finished size, or the one that the pieces beside it give it, where the cut size is
    that rounded; else the nearest step of the ruler.
    """
    seam, printed = made.seam, tuple(map(float, made.sheet.cut_size(cut)))
    if cut.halved_rectangle:
        return _meant_legs(made, cut, (printed[0], printed[1]))
    if cut.shape is not None:
        return shaped.shown(cut, _meant_shape(made, cut, (printed[0], printed[1])), seam)[:2]
    known = cut.finished or (made.built_ends.get(cut.part) or _round_a_centre(made, cut),) * 2
    found = []
    for size, side in zip(printed, known):
        if side is not None and cut.cut != "whole" and _stands_for(made, cut, size, float(side)):
            found.append(float(side))
        else:
            found.append(finished_size(cut.cut, size, seam, made.sheet.units))
    return found[0], found[1]


def _round_a_centre(made, cut):
    """The leg (inches) that the square inside a square in a square gives its corners, where that unit prints no size;
    None for other triangles."""
    for unit in made.sheet.unit.values() if cut.cut == "once" else ():
        unsized = unit.kind == "square in a square" and unit.finished is None and unit.trim_to is None
        if unsized and cut.part in unit.parts[1:]:
            side = _side_inside(made, unit.parts[0])
            return None if side is None else side / sqrt(2)
    return None


def _side_inside(made, name):
    """The finished side (inches) of a square that others go round: of one that is such a unit itself, as its printed
    size or its own centre tells; None where that is no square, or nothing tells."""
    sheet = made.sheet
    unit, cut, size = sheet.unit.get(name), sheet.part(name), measures.finished(sheet, name)
    if size is not None:
        exact = _inside(made, cut) if cut is not None and cut.cut == "whole" else None
        if exact is not None and all(_rounded(float(side), exact) for side in sheet.cut_size(cut)):
            return exact - added("whole", made.seam)
        return float(size[0]) if size[0] == size[1] else None
    if unit is None or unit.kind != "square in a square":
        return None
    side = _side_inside(made, unit.parts[0])
    return None if side is None else side * sqrt(2)


def _meant_legs(made, cut, printed):
    """The finished legs that a rectangle cut once stands for: those of the line or of a unit it goes into, where it is
    cut for them, or larger to be trimmed; else the nearest of the ruler."""
    for finished, trimmed in _legs_printed(made.sheet, cut):
        legs = finished if (finished[0] < finished[1]) == (printed[0] < printed[1]) else finished[::-1]
        exact = needed_rectangle(legs, made.seam)
        large = trimmed and all(have >= need - ROUNDING for have, need in zip(printed, exact))
        if large or rounded_rectangle(printed, legs, made.seam):
            return legs
    return finished_rectangle(printed, made.seam, made.sheet.units)


def _legs_printed(sheet, cut):
    """The finished sizes that the sheet prints for what triangles of this line make, each with whether it is trimmed
    to that."""
    if cut.finished is not None:
        yield tuple(map(float, cut.finished)), False
    for name, unit in sheet.unit.items():
        if cut.part not in unit.parts or unit.kind not in ("half-rectangle", "triangle in a square"):
            continue
        size = unit_room(sheet, name)
        if size is not None:
            halves = 1 if unit.kind == "half-rectangle" else 2
            yield (float(size[0]) / halves, float(size[1])), unit.trim_to is not None


def _meant_shape(made, cut, printed):
    """The (long side, height) that a printed shape stands for: of a triangle in a square that is cut for its unit, or
    larger, the exact one with its tip, for that may be blunt; of a trapezoid the nearest of the ruler."""
    if cut.shape == "trapezoid":
        more = printed[0] - shaped.shown(cut, printed, made.seam).long
        step = GRID[made.sheet.units]
        nearest = round((printed[0] - more) / step) * step + more
        return (nearest, printed[1]) if abs(nearest - printed[0]) <= ROUNDING else printed
    if cut.shape != "triangle":
        return printed
    for name, unit in made.sheet.unit.items():
        middle = unit.kind == "triangle in a square" and unit.parts[0] == cut.part
        size = unit_room(made.sheet, name) if middle else None
        if size is not None:
            across, up, strip = triangle_between(float(size[0]), float(size[1]), made.seam)
            if printed[0] >= across - ROUNDING and printed[1] >= strip - ROUNDING:
                return across, up
    return nearest_triangle(printed, made.seam, made.sheet.units)


def _rounded(size, exact):
    """Whether a printed size is an exact one rounded, as the trade rounds it."""
    return -ROUNDING <= size - exact <= ROUNDED_UP


def _stands_for(made, cut, size, side):
    """Whether a printed size is that of this finished side, rounded, or with room to trim at the end of a built row."""
    over = size - side - added(cut.cut, made.seam)
    return -ROUNDING <= over <= (ROOM_TO_TRIM if cut.part in made.built_ends else ROUNDED_UP)


def _at_the_edge(made, cut):
    """The exact square of a triangle at the outside, from what it lies beside; None for any other piece."""
    if _lies_beside_itself(made.sheet, cut.part):
        return None
    squares = [found.square for found in edge_triangles(made) if (found.part, found.way) == (cut.part, cut.cut)]
    return max((square for square in squares if square is not None), default=None)


def _inside(made, cut):
    """The exact square of a piece that is the centre of squares in squares of one printed size, and nothing else: it
    stands on its corner, so that no ruler shows it. None for any other piece, and where it is trimmed with its unit."""
    units = {
        name: unit
        for name, unit in made.sheet.unit.items()
        if unit.kind == "square in a square" and unit.parts[0] == cut.part
    }
    sides = {side for unit in units.values() for side in unit.finished or (_round_corners(made, unit),)}
    if len(sides) != 1 or None in sides or any(unit.trim_to is not None for unit in units.values()):
        return None
    everywhere = made.bill[cut.part] == sum(made.bill[name] for name in units)
    return float(sides.pop()) / sqrt(2) + added("whole", made.seam) if everywhere else None


def _round_corners(made, unit):
    """What a square in a square that prints no size finishes by its corners, where they are those of a finished size on
    the ruler; None where they tell nothing."""
    corner = made.sheet.part(unit.parts[-1])
    if corner is None or corner.cut != "once" or corner.halved_rectangle or corner.size is None:
        return None
    leg = finished_size("once", float(min(corner.size)), made.seam, made.sheet.units)
    return 2 * leg if abs(leg / GRID[made.sheet.units] - round(leg / GRID[made.sheet.units])) < 1e-6 else None


def _lies_beside_itself(sheet, part):
    """Whether a triangle at the edge is a part of the blocks, sashes or frames it is sewn to as well."""
    setting = sheet.setting
    frames = [name for piece in (setting.sides, setting.corners) if piece is not None for name in piece.frame or ()]
    beside = [*blocks_named(setting), *frames, *([setting.sashing.part] if setting.sashing is not None else [])]
    return any(part in all_in(sheet, name) for name in beside)


ROOM_TO_TRIM = 1 + ROUNDED_UP  # inches: triangles that end built rows are cut larger by no more (common practice)
_SHARE = {"once": Fraction(1, 2), "twice": Fraction(1)}  # of a side's √2: a leg over half its diagonal, or all of it


def built_ends(sheet: Sheet) -> dict[str, Root2]:
    """{part: its exact finished leg (cut once) or long side (cut twice)} of the triangles in built edge triangles.

    They end rows of whole pieces, or take the place of half a block, and are as large as those; a printed size is one
    of these, rounded, or at the end of a row cut a little larger. A part whose size fits none of them is left out.
    """
    found = {}
    for piece in (sheet.setting.sides, sheet.setting.corners):
        if piece is None or piece.how != "built":
            continue
        names = _in_any_row(piece)
        whole = _whole_beside(sheet, names)
        sides = {side - 2 * sheet.sewing_seam for cut in whole for side in sheet.cut_size(cut)}
        sides |= set(measures.finished(sheet, measures.main_block(sheet)) or ())
        for cut in sheet.cut:
            if cut.part in names and cut.cut != "whole" and cut.finished is None:
                pieces = [one for one in whole if one.size is not None]
                size = _beside(cut, sides, sheet) or _with_room(cut, pieces, sheet)
                if size is not None:
                    found[cut.part] = size
    return found


def _in_any_row(piece):
    """The names in the rows of a built edge triangle, at whichever edge."""
    told = (piece.rows, piece.left, piece.bottom, piece.right)
    return {item.name for rows in told for row in rows or () for item in row}


def _whole_beside(sheet, names):
    """The lines of the cutting list whose pieces are cut whole and stand in rows of these names, or in the blocks."""
    beside = names.union(*(all_in(sheet, name) for name in blocks_named(sheet.setting)))
    return [cut for cut in sheet.cut if cut.cut == "whole" and cut.part in beside]


def _beside(cut, sides, sheet):
    """The finished size, of those that pieces of these finished sides ask for, which this triangle's printed size
    stands for."""
    over = _over(cut, (way for side in sides for way in (Root2(side), Root2(root=side * _SHARE[cut.cut]))), sheet)
    fits = [(abs(by), way) for by, way in over if -ROUNDING <= by <= ROUNDED_UP]
    return min(fits, key=lambda pair: pair[0])[1] if fits else None


def _with_room(cut, whole, sheet):
    """The same of a triangle cut a little larger that ends rows of these whole pieces, or is the tip over one."""
    sides = {side - 2 * sheet.sewing_seam for one in whole for side in one.size}
    ends = [Root2(side) if cut.cut == "once" else Root2(root=side) for side in sides]
    tips = [Root2(root=side * _SHARE["once"]) if cut.cut == "once" else Root2(side) for side in sides]
    fits = [(by, way) for by, way in _over(cut, ends + tips, sheet) if ROUNDED_UP < by <= ROOM_TO_TRIM]
    return min(fits, key=lambda pair: pair[0])[1] if fits else None


def _over(cut, ways, sheet):
    """(inches by which the printed size of a triangle is more than it needs, finished size) for each such size."""
    printed, seam = float(min(sheet.cut_size(cut))), float(sheet.sewing_seam)
    return [(printed - needed_square(cut.cut, float(way), seam), way) for way in ways if float(way) >= 2 * seam]
