"""A cutting plan as a picture: the fabric strip by strip in the order of cutting, its pieces, what is left over."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING, NamedTuple

from .picture import Lines, Picture, Shapes

if TYPE_CHECKING:
    from fractions import Fraction

    from ..yardage import CuttingPlan, LaidPiece, PiecesPlan
    from .picture import Layer


@dataclass(frozen=True, eq=False)
class Diagram:
    """A cutting plan to be drawn: the number of each part, and how its pieces are cut up ("whole", "once", "twice";
    rectangles "left" or "right", as they slant when they stand upright)."""

    plan: CuttingPlan | PiecesPlan
    labels: Mapping[str, str]
    ways: Mapping[str, str]

    @cached_property
    def places(self) -> list[LaidPiece]:
        """Where each piece lies, inches from the left selvage and from the first cut end."""
        return self.plan.places()

    @cached_property
    def strips(self) -> list[Strip]:
        """The strips in the order in which they are cut, each with its own pieces."""
        found: list[Strip] = []
        below, rest = self.plan.length * 0, iter(self.places)
        place = next(rest, None)
        for alike in self.plan.strips:
            for _ in range(alike.count):
                pieces = []
                while place is not None and place.y < below + alike.height:
                    pieces.append(place)
                    place = next(rest, None)
                found.append(Strip(len(found) + 1, below, alike.height, tuple(pieces)))
                below += alike.height
        return found


class Strip(NamedTuple):
    """One strip across the fabric: its number in the order of cutting, where it begins, its height (inches), pieces."""

    number: int
    below: Fraction
    height: Fraction
    pieces: tuple[LaidPiece, ...]


def high_in_all(strips: Sequence[Strip]) -> float:
    """How many inches of fabric these strips take."""
    return float(sum(strip.height for strip in strips))


def column_picture(diagram: Diagram, strips: Sequence[Strip]) -> Picture:
    """A run of strips as a Picture in inches, the first on top: left-over fabric, pieces, where they are cut up."""
    width, top = float(diagram.plan.usable_width), float(strips[-1].below + strips[-1].height)
    fabric = [(0, 0), (width, 0), (width, high_in_all(strips)), (0, high_in_all(strips))]
    pieces = [_corners(place, top) for strip in strips for place in strip.pieces]
    cuts = [line for strip in strips for place in strip.pieces for line in _diagonals(diagram, place, top)]
    across = [[(0, top - float(strip.below)), (width, top - float(strip.below))] for strip in strips[1:]]
    layers: list[Layer] = [
        Shapes([fabric], "left over", "fabric left over"),
        Shapes(pieces, "white"),
        Lines([[*fabric, fabric[0]], *across], "outline"),
    ]
    if cuts:
        layers.append(Lines(cuts, "guide"))
    return Picture(layers, f"{len(strips)} strips of fabric with {len(pieces)} pieces.")


def _corners(place: LaidPiece, top: float) -> list[tuple[float, float]]:
    left, right = float(place.x), float(place.x + place.width)
    high, low = top - float(place.y), top - float(place.y + place.height)
    return [(left, low), (right, low), (right, high), (left, high)]


def _diagonals(diagram: Diagram, place: LaidPiece, top: float) -> list[list[tuple[float, float]]]:
    lower_left, lower_right, upper_right, upper_left = _corners(place, top)
    both = [[lower_left, upper_right], [upper_left, lower_right]]
    way, upright = diagram.ways.get(place.piece.part, "whole"), place.width < place.height
    if way in ("left", "right"):
        return both[:1] if (way == "right") == upright else both[1:]
    return both[: {"whole": 0, "once": 1, "twice": 2}[way]]
