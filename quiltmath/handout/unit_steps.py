"""How each traditional unit is sewn, in words, by the way its parts are cut."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..making.bill import at_a_time
from .buying_and_cutting import seam_of
from .numbered import numbered

if TYPE_CHECKING:
    from ..pattern.parts import UnitTable
    from ..review.reading import Reading

DRAW = "Draw a diagonal on the back of each {other}. "
HOW = {  # by kind, and how many come from one going; 0: from pieces cut as triangles
    ("half-square", 0): (
        "Sew one {one} to one {other} by their long edges. These are bias: do not pull. Press towards {other}; trim "
        "the tips."
    ),
    ("half-rectangle", 0): (
        "Lay one {one} on one {other}, their long edges level, so that the seam, {seam} from those, runs through the "
        "notches where the tips cross. Sew; these edges stretch: do not pull. Press towards {other}; trim the tips. "
        "The unit stands upright, {one} on its left, its seam slanting {slant}."
    ),
    ("half-square", 2): (
        DRAW + "Lay it on one {one}; sew {seam} from the line on both of its sides. Cut on the line and press towards "
        "{other}: 2 units."
    ),
    ("half-square", 4): (
        "Lay one {one} on one {other}; sew all round, {seam} from the edge. Cut on both diagonals and press: 4 units, "
        "their outer edges on the bias, so handle them little."
    ),
    ("half-square", 8): (
        "Draw both diagonals on the back of each {other}. Lay it on one {one}; sew {seam} from both lines on both of "
        "their sides. Cut through the middle both ways and on both lines; press towards {other}: 8 units."
    ),
    ("quarter-square", 0): (
        "Sew the triangles in pairs, each by a short edge: {left} to {below}, {right} to {above}. Press as the arrows "
        "show. Sew the pairs to each other by their long edges, seams nested; press that seam either way."
    ),
    ("split quarter-square", 0): (
        "Sew {right} to {below} by a short edge and press towards {below}; then sew {above} to their long edge and "
        "press towards {above}."
    ),
    ("quarter-square", 2): (
        DRAW + "Lay it on one {one}; sew {seam} from the line on both of its sides, cut on the line, press towards "
        "{other}. Lay two of these on each other, unlike fabrics facing, seams nested; draw the other diagonal, sew "
        "{seam} from it on both sides, cut and press: 2 units."
    ),
    ("flying geese", 0): (
        "Sew one {other} to a short edge of {one}, centred, and press towards {other}; then another to the other short "
        "edge."
    ),
    ("flying geese", 1): (
        DRAW
        + "Lay one on an end of {one}; sew on the line, cut off what lies {seam} outside it, press outwards. Do the "
        "same at the other end."
    ),
    ("flying geese", 4): (
        DRAW
        + "Lay two in opposite corners of {one}, the lines meeting; sew {seam} from the line on both sides, cut on it, "
        "press outwards. Lay one more in the empty corner of each half and do the same: 4 units."
    ),
    ("square in a square", 0): (
        "Sew one {other} to two opposite sides of {one}, centred, and press outwards; then to the other two sides. The "
        "points of the middle square lie {seam} inside the edge."
    ),
    ("triangle in a square", 0): (
        "Lay one {left_side} on the left slanting side of {one}, its long edge level with it and its square corner at "
        "the tip, so that the seam, {seam} from those edges, runs through the notches where the tips cross. Sew, press "
        "outwards. Sew {other} to the right side in the same way. These edges stretch: do not pull. Trim the tips; "
        "the point lies {seam} inside the edge."
    ),
    ("snowball", 0): (
        DRAW + "Lay one in {corners} of {one}; sew on the line, cut off what lies {seam} outside it, press outwards."
    ),
}
CUT_LATER = ("half-square", "quarter-square", "flying geese")  # may start from whole squares


def unit_words(reading: Reading, unit: UnitTable) -> str:
    """How a unit of a sheet is sewn."""
    sheet = reading.sheet
    first = sheet.part(unit.parts[0])
    from_squares = first is not None and first.cut == "whole" and unit.kind in CUT_LATER
    at_once = at_a_time(sheet, unit) if from_squares else 0
    above, right, below, left = (numbered(sheet, name) for name in [*unit.parts, *unit.parts][:4])
    split = unit.kind == "quarter-square" and len(unit.parts) == 3
    return HOW[f"split {unit.kind}" if split else unit.kind, at_once].format(
        one=numbered(sheet, unit.parts[0]),
        other=numbered(sheet, unit.parts[-1]),
        seam=seam_of(reading),
        slant=unit.slant,
        left_side=numbered(sheet, unit.parts[1]),
        above=above,
        right=right,
        below=below,
        left=left,
        corners="each corner" if unit.corners is None else _corners_in_words(unit.flipped),
    )


def _corners_in_words(corners):
    """Corners of a block: "the upper left and the upper right corner"."""
    *most, last = (f"the {corner}" for corner in corners)
    return f"{', '.join(most)} and {last} corner" if most else f"{last} corner"
