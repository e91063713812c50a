"""The exact cut sizes that units and edge triangles need for what they are sewn to, by the proofs."""

from math import sqrt

from .. import proofs
from ..pattern.names import SETTING, SIDE, at_a_time
from . import on_point
from .by_proof import measure_or_none


def unit_needs(sheet, unit, finished, seam):
    """{part: (width, height) in inches, exact} that the unit's two parts need to finish at this size.

    A part cut as a triangle is measured by the square it is cut from; a part without a need of its own (the corners of a
    snowball) is left out. Empty where the size leaves no room for the seams.
    """
    needs = _needs(sheet, unit, finished, seam)
    return {} if any(None in size for size in needs.values()) else needs


def unit_proof(sheet, unit):
    """The name of the proof that says what a unit's parts need, by the way it is made."""
    first = sheet.part(unit.parts[0])
    at_once = at_a_time(sheet, unit) if first is not None and first.cut == "whole" else 0
    return {
        ("half-square", 2): "half_squares_two",
        ("half-square", 4): "half_squares_four",
        ("half-square", 8): "half_squares_eight",
        ("half-square", 0): "half_square",
        ("quarter-square", 0): "quarter_square",
        ("flying geese", 0): "flying_geese",
        ("flying geese", 1): "geese_one_at_a_time",
        ("flying geese", 4): "geese_four_at_a_time",
    }.get(
        (unit.kind, at_once),
        {"quarter-square": "hourglass", "flying geese": "flying_geese", "square in a square": "square_in_square"}.get(
            unit.kind, "patch"
        ),
    )


def _needs(sheet, unit, finished, seam):
    width, height = (float(side) for side in finished)
    whole = {name: sheet.part(name) is not None and sheet.part(name).cut == "whole" for name in unit.parts}
    one, other = unit.parts
    if unit.kind == "half-square":
        proof = {2: proofs.half_square, 4: proofs.half_squares_four, 8: proofs.half_squares_eight}[
            at_a_time(sheet, unit) if whole[one] else 2
        ]
        square = measure_or_none(proof, finished=width, seam=seam)
        return {one: (square, square), other: (square, square)}
    if unit.kind == "quarter-square":
        square = measure_or_none(proofs.quarter_square, finished=width, seam=seam)
        return {one: (square, square), other: (square, square)}
    if unit.kind == "flying geese":
        return _geese(sheet, unit, width, height, whole[one], seam)
    if unit.kind == "square in a square":
        centre = measure_or_none(proofs.square_in_square, "centre", finished=width, seam=seam)
        corner = measure_or_none(proofs.square_in_square, "corner square", finished=width, seam=seam)
        return {one: (centre, centre), other: (corner, corner)}
    return {one: (width + 2 * seam, height + 2 * seam)}


def _geese(sheet, unit, width, height, whole, seam):
    goose, sky = unit.parts
    if whole and at_a_time(sheet, unit) == 1:
        return {goose: (width + 2 * seam, height + 2 * seam), sky: (height + 2 * seam, height + 2 * seam)}
    large = measure_or_none(proofs.quarter_square, finished=width, seam=seam)
    small = measure_or_none(proofs.half_square, finished=height, seam=seam)
    return {goose: (large, large), sky: (small, small)}


def edge_square(made, kind, block):
    """The exact square (inches) that plain side or corner triangles are cut from, beside blocks that finish `block` inches.

    A frame on the triangle's short edges takes its width off; whole cornerstones at the quilt's edge and blocks that float
    inside it ask for more. None where that leaves no room for a triangle.
    """
    setting, seam = made.sheet.setting, made.seam
    piece, sashing = (setting.sides if kind == SIDE else setting.corners), setting.sashing
    frame = sum(_finished_width(made, name) for name in piece.frame or ())
    sash = _finished_width(made, sashing.part) if sashing is not None and sashing.edge == "whole" else 0.0
    floating = 2 * float(setting.floating)
    proof, beside = (
        (proofs.side_triangle, block + sash - frame)
        if kind == SIDE
        else (proofs.corner_triangle, block + 2 * sash - sqrt(2) * frame)
    )
    exact = measure_or_none(proof, block=beside, seam=seam)
    return None if exact is None else exact + floating


def sash_lengths(made):
    """The raw lengths (inches) of the long sashing strips between rows; none where there are no such strips or no blocks."""
    setting, block, top = made.sheet.setting, made.panel(made.sheet.setting.block), made.panel(SETTING)
    if setting.sashing is None or setting.sashing.strip is None or block is None or top is None:
        return []
    if setting.style == "straight":
        return [top.size[0]] * (setting.down + (1 if setting.sashing.around else -1))
    finished, sash = block.size[0] - 2 * made.seam, _finished_width(made, setting.sashing.part)
    return [
        on_point.strip_length(*ends, finished, sash, made.seam)
        for ends in on_point.spans_between(setting.across, setting.down)
    ]


def _finished_width(made, name):
    panel = made.panel(name)
    return 0.0 if panel is None else min(panel.size) - 2 * made.seam
