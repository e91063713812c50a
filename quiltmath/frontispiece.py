"""The picture at the top of the README: half a block beside the triangle built to take its place.

`python -m quiltmath.frontispiece` draws it afresh.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from .demos import halves_drawn as drawn
from .demos.halves import halves
from .draw import beside, panel_picture, png
from .resources import folder

if TYPE_CHECKING:
    from .draw import Board

SQUARES, FINISHED = 4, 3  # a block of 4 × 4 squares that finish 3 in
WIDTH = 900
SHOWN = ("seams", "edges", "finished", "kept points")  # and the points lost
LIES = {"straight": "on the straight grain", "bias": "on the bias"}
PLACE = ("pictures", "half-or-built.png")


def picture() -> Board:
    """Above, both triangles with their raw edges; below, what shows of them once they are sewn in.

    >>> picture().alt[:73]
    'Above, half a block of 4 × 4 squares and a built triangle before they are'
    """
    half, built = halves(SQUARES, FINISHED, 0)[0], drawn.built_half(SQUARES, FINISHED)
    raw = [
        panel_picture(triangle.cut, title, SHOWN, drawn.FABRICS)
        for triangle, title in ((half, "Half a block"), (built, "Built from squares"))
    ]
    sewn = [
        drawn.in_its_place(triangle, SQUARES, FINISHED, title)
        for triangle, title in ((half, "Half a block, sewn in"), (built, "Built, sewn in"))
    ]
    return beside(
        [*raw, *sewn],
        columns=2,
        alt=(
            f"Above, half a block of {SQUARES} × {SQUARES} squares and a built triangle before they are sewn in; "
            f"below, once they are. The half, cut on its diagonal: {drawn.points_words(half)}; its long edge "
            f"lies {LIES[half.long_edge.grain]}. Built from squares: {drawn.points_words(built)}; its long edge lies "
            f"{LIES[built.long_edge.grain]}."
        ),
    )


def main() -> None:
    """Draw the picture into the data folder of this checkout."""
    file = folder("data").joinpath(*PLACE)
    file.write_bytes(png(picture(), WIDTH))
    print(f"{file}\n{picture().alt}")


if __name__ == "__main__":
    main()
