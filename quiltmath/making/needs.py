"""The exact cut sizes a unit's parts need for its finished size, by the proofs."""
from .. import proofs
from ..pattern.names import at_a_time


def unit_needs(sheet, unit, finished, seam):
    """{part: (width, height) in inches, exact} that the unit's two parts need to finish at this size.

    A part cut as a triangle is measured by the square it is cut from; a part without a need of its own (the corners of a
    snowball) is left out.
    """
    width, height = (float(side) for side in finished)
    whole = {name: sheet.part(name) is not None and sheet.part(name).cut == "whole" for name in unit.parts}
    one, other = unit.parts
    if unit.kind == "half-square":
        square = {2: proofs.half_square, 4: proofs.half_squares_four, 8: proofs.half_squares_eight}[
            at_a_time(sheet, unit) if whole[one] else 2].value(finished=width, seam=seam)
        return {one: (square, square), other: (square, square)}
    if unit.kind == "quarter-square":
        square = proofs.quarter_square.value(finished=width, seam=seam)
        return {one: (square, square), other: (square, square)}
    if unit.kind == "flying geese":
        return _geese(sheet, unit, width, height, whole[one], seam)
    if unit.kind == "square in a square":
        centre = proofs.square_in_square.value("centre", finished=width, seam=seam)
        corner = proofs.square_in_square.value("corner square", finished=width, seam=seam)
        return {one: (centre, centre), other: (corner, corner)}
    return {one: (width + 2 * seam, height + 2 * seam)}


def _geese(sheet, unit, width, height, whole, seam):
    goose, sky = unit.parts
    if whole and at_a_time(sheet, unit) == 1:
        return {goose: (width + 2 * seam, height + 2 * seam), sky: (height + 2 * seam, height + 2 * seam)}
    large = proofs.quarter_square.value(finished=width, seam=seam)
    small = proofs.half_square.value(finished=height, seam=seam)
    return {goose: (large, large), sky: (small, small)}
