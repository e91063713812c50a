"""The finished size a printed triangle size stands for.

A triangle's exact cut size is no ruler fraction, nor is that of the square on its corner inside another: every pattern
prints them rounded, 3 7/8 for 3.8536. Nobody sews that excess in; it goes with the ears. A printed size is therefore
sewn as the ruler's finished size it stands for, where there is one within a twentieth of an inch.
"""

from itertools import product
from math import ceil, floor, hypot

from .. import proofs

GRID = {"in": 1 / 8, "cm": 0.5 / 2.54}  # inches: the steps in which finished sizes are given, in each unit
STEPS = {"in": (1 / 2, 1 / 4, 1 / 8), "cm": (1 / 2.54, 0.5 / 2.54)}  # inches: the same, what is usual first
ROUNDED_UP = 0.17  # inches: the trade's figure (at most 0.043 over the exact one), up to the next eighth
ROUNDING = 0.05  # inches: the most that a printed size may be off its exact one by rounding
LARGE = 100.0  # inches: any seam fits into what finishes so large


def needed_square(cut: str, finished: float, seam: float) -> float:
    """The exact square or side (inches) to cut for a finished size: of a unit (whole, once) or of a long side
    (twice)."""
    return finished + added(cut, seam)


def added(cut: str, seam: float) -> float:
    """How much larger (inches) than finished a piece is cut, of whatever size: of one that is too small for its own
    seams nothing is left.

    >>> added("whole", 0.25), round(added("once", 0.25), 4)
    (0.5, 0.8536)
    """
    if cut == "whole":
        return 2 * seam
    return (proofs.half_square if cut == "once" else proofs.quarter_square).value(finished=LARGE, seam=seam) - LARGE


def finished_size(cut: str, size: float, seam: float, units: str = "in") -> float:
    """The finished size (inches) that a printed cut size stands for: the side of the unit, or the long side for
    "twice".

    >>> finished_size("once", 3.875, 0.25), finished_size("twice", 7.25, 0.25), finished_size("whole", 3.5, 0.25)
    (3.0, 6.0, 3.0)
    """
    extra = added(cut, seam)
    if cut == "whole":
        return size - extra
    step = GRID[units]
    nearest = round((size - extra) / step) * step
    return nearest if abs(nearest + extra - size) <= ROUNDING else size - extra


def sewn_size(cut: str, size: float, seam: float, units: str = "in") -> float:
    """The cut size (inches) as it is sewn: what the printed size stands for, its rounding gone."""
    return finished_size(cut, size, seam, units) + added(cut, seam)


def needed_rectangle(finished: tuple[float, float], seam: float) -> tuple[float, float]:
    """The exact rectangle (inches) to cut once from corner to corner for triangles with these finished legs, however
    small.

    >>> [round(side, 4) for side in needed_rectangle((2, 4), 0.25)]
    [2.6545, 5.309]
    >>> [round(side, 4) for side in needed_rectangle((0.125, 0.25), 0.25)]
    [0.7795, 1.559]
    """
    given = {"across": finished[0], "up": finished[1]}
    wide, high = _cut(proofs.half_rectangle, given, seam, ("cut across", "across"), ("cut up", "up"))
    return wide, high


def finished_rectangle(size: tuple[float, float], seam: float, units: str = "in") -> tuple[float, float]:
    """The finished legs (inches) of the triangles that a rectangle cut once stands for, as it is printed.

    >>> finished_rectangle((2.75, 5.375), 0.25)
    (2.0, 4.0)
    """
    inside = (size[0] + size[1] - hypot(*size)) / 2  # of the cut triangle, the radius of the circle in it
    as_cut = size[0] * (1 - seam / inside), size[1] * (1 - seam / inside)
    return _on_the_ruler(as_cut, units, lambda legs: rounded_rectangle(size, legs, seam)) or as_cut


def nearest_triangle(size: tuple[float, float], seam: float, units: str = "in") -> tuple[float, float]:
    """The exact base and height (inches) to cut that a printed triangle with two equal sides stands for: itself where
    it is that of no finished size of the ruler, rounded.

    >>> [round(side, 3) for side in nearest_triangle((3.875, 3.875), 0.25)]
    [3.809, 3.809]
    """

    def exact(shown):
        return triangle_between(*shown, seam)[:2]

    def fits(shown):
        return all(-ROUNDING <= have - need <= ROUNDED_UP for have, need in zip(size, exact(shown)))

    long = hypot(size[0] / 2, size[1])
    inside = size[0] * size[1] / (size[0] + 2 * long)  # the radius of the circle in it
    shown = _on_the_ruler((size[0] * (1 - seam / inside), size[1] * (1 - seam / inside)), units, fits)
    return size if shown is None else exact(shown)


def _on_the_ruler(as_cut, units, fits):
    """The finished pair of the ruler nearest to this one that fits, in the coarsest steps in which one does; else
    None."""
    for step in STEPS[units]:
        wide, high = ((floor(side / step) * step, ceil(side / step) * step) for side in as_cut)
        found = [pair for pair in product(wide, high) if min(pair) > 0 and fits(pair)]
        if found:
            return min(found, key=lambda pair: abs(pair[0] - as_cut[0]) + abs(pair[1] - as_cut[1]))
    return None


def rounded_rectangle(size: tuple[float, float], finished: tuple[float, float], seam: float) -> bool:
    """Whether a printed rectangle is the exact one for triangles with these finished legs, rounded as the trade rounds.

    >>> rounded_rectangle((2.75, 5.375), (2, 4), 0.25), rounded_rectangle((2.5, 4.5), (2, 4), 0.25)
    (True, False)
    """
    pairs = zip(size, needed_rectangle(finished, seam))
    return all(-ROUNDING <= printed - exact <= ROUNDED_UP for printed, exact in pairs)


def triangle_between(width: float, height: float, seam: float) -> tuple[float, float, float]:
    """The base and height (inches) to cut for a triangle in a square unit that finishes so wide and high, and the least
    height, with which the tip is blunt.

    >>> [round(side, 3) for side in triangle_between(3, 3, 0.25)]
    [3.809, 3.809, 3.5]
    >>> [round(side, 3) for side in triangle_between(0.25, 0.25, 0.25)]
    [1.059, 1.059, 0.75]
    """
    given = {"width": width, "height": height}
    measures = ("triangle across", "width"), ("triangle up", "height"), ("strip", "height")
    across, up, strip = _cut(proofs.triangle_in_square, given, seam, *measures)
    return across, up, strip


def _cut(proof, finished, seam, *measures):
    """Measures of a proof (each named with the finished side that it has grown from) as floats, inches, for what
    finishes however small: seams add as much to all that has the same shape."""
    times = LARGE / min(finished.values())
    large = {name: times * side for name, side in finished.items()}
    return [proof.value(name, seam=seam, **large) - large[side] + finished[side] for name, side in measures]
