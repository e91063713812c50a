"""All that printed numbers must agree in: one look for each way in which one of them follows from others, and here
those that one part or unit has."""

from __future__ import annotations

from collections.abc import Iterator
from math import inf, sqrt
from typing import TYPE_CHECKING, Any

from ...making.at_the_edge import HALVED, TIP
from ...making.meant import OVERSIZE, TRIMMED_ALIKE
from ...making.needs import unit_needs, unit_proof
from ...making.rounding import ROUNDING, added, needed_rectangle, triangle_between
from ...pattern.names import CORNER, SIDE, uses
from ..finding import ByProof
from ..outside import outside_triangles
from .agreed import Agreement, line_of, paths
from .figures import Sum
from .measures import LARGE, SLACK, Measures
from .of_blocks import block_rows, built_rows, joined_edges, trims
from .of_borders import border_corners, border_lengths, raw_of
from .of_setting import quilt_size, sashes, set_blocks

if TYPE_CHECKING:
    from ...pattern.sheet import Sheet

STEP = 1 / 8  # inches: so much larger a finished size is taken, to see how its cut sizes grow


def agreements(measures: Measures, of: Any) -> list[Agreement]:
    """Everything in which the printed numbers of a sheet must agree; `of` is the `Ruler` that says lengths.

    >>> from quiltmath import making, pattern
    >>> from quiltmath.pattern.sheet import EXAMPLE
    >>> from quiltmath.review.ruler import Ruler
    >>> sheet = pattern.read_text(EXAMPLE.replace("[block.four]", '[block.four]\\nfinished = "7"'))
    >>> found = agreements(Measures(making.make(sheet)), Ruler())
    >>> [one.off.value for one in found if not one.holds()]
    [-1.0, -1.0, -1.0]
    """
    of_parts, of_rows = (_printed, _outside, _units), (block_rows, built_rows, joined_edges, trims)
    looks = (*of_parts, *of_rows, set_blocks, sashes, border_corners, border_lengths, quilt_size)
    return [one for look in looks for one in look(measures, of)]


def _printed(measures, of):
    """Parts that print both their cut and their finished size."""
    made = measures.made
    for cut in made.sheet.cut:
        if cut.finished is None or cut.size is None or cut.shape is not None:
            continue
        if cut.halved_rectangle:
            yield from _halved(measures, of, cut)
            continue
        later = is_trimmed_later(made.sheet, cut.part)
        path, extra = measures.line(cut.part), added(cut.cut, made.seam)
        finished = measures.figures((*path, "finished"), cut.finished)
        for raw, meant in zip(measures.raw(cut.part), finished):
            yield Agreement(
                raw.minus(meant).minus(extra),
                path,
                f"to finish {of.sizes(cut.finished)}",
                ByProof({"whole": "patch", "once": "half_square", "twice": "quarter_square"}[cut.cut]),
                less=ROUNDING,
                more=SLACK if cut.cut == "whole" and not later else inf,
            )


def _halved(measures, of, cut):
    """A rectangle cut once that prints its finished legs as well."""
    path = measures.line(cut.part)
    finished = measures.figures((*path, "finished"), cut.finished)
    if (cut.finished[0] < cut.finished[1]) != (cut.size[0] < cut.size[1]):
        finished = finished[::-1]
    legs = [leg.value for leg in finished]
    for raw, needed in zip(measures.raw(cut.part), _growing_with(finished, _rectangle_for(measures, legs))):
        yield Agreement(
            raw.minus(needed),
            path,
            f"to finish {of.sizes(cut.finished)}",
            ByProof("half_rectangle"),
            less=ROUNDING,
            more=inf if is_trimmed_later(measures.sheet, cut.part) else LARGE,
        )


def _rectangle_for(measures, legs):
    """A function of two finished legs: the exact rectangle, at these legs and beside them."""
    return lambda wide, high: needed_rectangle((legs[0] + wide, legs[1] + high), measures.seam)


def _growing_with(finished, needed):
    """The sides of what `needed` gives, as sums that grow with the two finished sides."""
    here, wider, higher = needed(0, 0), needed(STEP, 0), needed(0, STEP)
    for side, exact in enumerate(here):
        by_width, by_height = ((more[side] - exact) / STEP for more in (wider, higher))
        growing = finished[0].times(by_width).plus(finished[1].times(by_height))
        yield Sum(exact, growing.shares)


def _outside(measures, of):
    """Triangles cut from plain fabric that lie at the outside of the quilt, or of a round."""
    for triangle in outside_triangles(measures.made):
        cut, exact = triangle.cut, triangle.exact
        if exact is None or cut.cut != triangle.way or cut.size is None:
            continue
        needed = Sum(exact, _growing(measures, triangle).shares)
        across, up = measures.raw(cut.part)
        path = measures.line(cut.part)
        about = {
            "path": path,
            "aim": triangle.aim,
            "why": ByProof(triangle.words.proof),
            "subject": (*path, "size"),
            "aims": dict.fromkeys(paths(needed), f"to fit the {triangle.words.what} {cut.part!r}"),
        }
        for side in (across, up):
            yield Agreement(side.minus(needed), **about, less=ROUNDING, more=inf)
        yield Agreement(across.minus(up), **about)


def _growing(measures, triangle):
    """How the square of a triangle at the outside grows with the block, the sashing and the frame it lies beside."""
    setting, where = measures.sheet.setting, triangle.where
    cell, sash = measures.cell, measures.sash
    if where in (HALVED, TIP):
        return Sum() if sash is None else sash.times(sqrt(2))
    piece = {SIDE: setting.sides, CORNER: setting.corners}.get(where)
    if piece is None or cell is None or sash is None:
        return Sum()
    leg = cell
    if setting.sashing is not None and setting.sashing.edge == "whole":
        leg = leg.plus(sash, 1 if where == SIDE else 2)
    for name in piece.frame or ():
        width = measures.strip_width(name)
        off = 1.0 if where == SIDE else sqrt(2) if len(piece.frame) == 2 else 2.0
        leg = leg if width is None else leg.plus(width, -off)
    square = leg.times(sqrt(2) if where == SIDE else 1 / sqrt(2))
    return square.plus(measures.figure(("setting", "floating"), setting.floating), 2.0)


def _units(measures, of):
    """Parts of units that print their finished size, or the size they are trimmed to; the corners of those that print
    neither against their centre."""
    for name, unit in measures.sheet.unit.items():
        if unit.trim_to is None and unit.finished is None:
            if unit.kind == "square in a square":
                yield from _round_its_centre(measures, of, name, unit)
            continue
        key = "finished" if unit.finished is not None else "trim_to"
        seams = 0.0 if unit.finished is not None else 2 * measures.seam
        printed = measures.figures(("unit", name, key), getattr(unit, key))
        yield from unit_agreements(measures, of, name, [side.minus(seams) for side in printed])


def _round_its_centre(measures, of, name, unit):
    """The corners of a square in a square against its centre, where this is one whole piece."""
    (inside, *_, corner), line = unit.parts, measures.sheet.part(unit.parts[-1])
    centre, raw = measures.finished(inside), measures.raw(corner)
    whole = (cut := measures.sheet.part(inside)) is not None and cut.cut == "whole"
    if not whole or centre is None or line is None or line.cut != "once":
        return
    for side in raw:
        yield Agreement(
            side.minus(centre.width.times(1 / sqrt(2))).minus(added("once", measures.seam)),
            ("unit", name),
            f"to go round {inside!r}, which finishes {of.said(centre.width.value)}",
            ByProof("square_in_square"),
            less=ROUNDING,
            more=LARGE,
            subject=line_of(side),
            aims=dict.fromkeys(paths(centre.width), f"to fit the corners {corner!r}"),
        )


def unit_agreements(measures: Measures, of: Any, name: str, finished: list[Sum]) -> Iterator[Agreement]:
    """What the parts of one unit must agree in so that it finishes so wide and high."""
    made, unit = measures.made, measures.sheet.unit[name]
    size = [side.value for side in finished]
    if min(size) <= 0:
        return
    here = unit_needs(made, unit, size)
    wider, higher = (unit_needs(made, unit, (size[0] + by, size[1] + STEP - by)) for by in (STEP, 0))
    large = _room(unit, [raw[0].value - here[part][0] for part in here if (raw := measures.raw(part)) is not None])
    for part, exact in here.items():
        cut, raw = made.sheet.part(part), raw_of(measures, part)
        if raw is None or part not in wider or part not in higher:
            continue
        if cut is None and (unit.kind != "square in a square" or part != unit.parts[0]):
            continue  # what is sewn first is trimmed with its unit, but for what stands in its centre
        if cut is not None and not cut_as_it_must(unit, part, cut):
            continue  # cut the wrong way, which is told
        blunt = tip_to_spare(measures, size) if cut is not None and cut.shape == "triangle" else 0.0
        stiff = (
            cut is not None
            and cut.cut == "whole"
            and unit.kind not in ("half-square", "quarter-square")
            and exact[0] != exact[1]
        )
        for side, need in enumerate(exact):
            by_width, by_height = ((more[part][side] - need) / STEP for more in (wider, higher))
            growing = finished[0].times(by_width).plus(finished[1].times(by_height))
            if not raw[side].shares:
                continue
            yield Agreement(
                raw[side].minus(Sum(need, growing.shares)),
                ("unit", name),
                f"for {unit.kind} units that finish {of.sizes(size)}",
                ByProof(unit_proof(made.sheet, unit)),
                less=ROUNDING + blunt * side,
                more=inf if unit.trim_to is not None else SLACK if stiff else large,
                subject=line_of(raw[side]),
                aims={("unit", name, "trim_to"): "which is what its parts can give"},
            )


def cut_as_it_must(unit, part, cut):
    """Whether a piece of a unit with long triangles is cut as such units take it; others may start from squares."""
    if unit.kind == "triangle in a square" and part == unit.parts[0]:
        return cut.shape == "triangle"
    return unit.kind not in ("half-rectangle", "triangle in a square") or cut.cut == "once"


def tip_to_spare(measures, size):
    """How much of the height of a triangle in a square unit of this finished size is an ear: its tip may be blunt."""
    _, up, strip = triangle_between(*size, measures.seam)
    return up - strip


def _room(unit, over):
    """How much larger (inches) than exact the parts of a unit may be that are so much larger: those cut large
    alike are trimmed."""
    alike = unit.kind in (*TRIMMED_ALIKE, "flying geese") and max(over, default=0) - min(over, default=0) < SLACK
    return float(OVERSIZE) * (2 if unit.at_a_time == 8 else 1) if alike else LARGE


def is_trimmed_later(sheet: Sheet, part: str) -> bool:
    """Whether the part goes into a unit or block that is trimmed after sewing."""
    return any(
        made.trim_to is not None and part in uses(sheet, name)
        for kind in (sheet.unit, sheet.block)
        for name, made in kind.items()
    )
