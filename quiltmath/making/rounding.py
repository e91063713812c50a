"""The finished size a printed triangle size stands for.

A triangle's exact cut size is no ruler fraction, so every pattern prints it rounded: 3 7/8 for 3.8536. Nobody sews that
excess in; it goes with the ears. A printed size is therefore sewn as the ruler's finished size it stands for, where
there is one within a twentieth of an inch.
"""

from .. import proofs

GRID = {"in": 1 / 8, "cm": 0.5 / 2.54}  # inches: the steps in which finished sizes are given, in each unit
ROUNDED_UP = 0.17  # inches: the trade's figure (at most 0.043 over the exact one), up to the next eighth
ROUNDING = 0.05  # inches: the most that a printed size may be off its exact one by rounding


def needed_square(cut: str, finished: float, seam: float) -> float:
    """The exact square or side (inches) to cut for a finished size: of a unit (whole, once) or of a long side
    (twice)."""
    if cut == "whole":
        return finished + 2 * seam
    return (proofs.half_square if cut == "once" else proofs.quarter_square).value(finished=finished, seam=seam)


def added(cut: str, seam: float) -> float:
    """How much larger (inches) than finished a piece is cut, of whatever size: of one that is too small for its own
    seams nothing is left.

    >>> added("whole", 0.25), round(added("once", 0.25), 4)
    (0.5, 0.8536)
    """
    return needed_square(cut, 100.0, seam) - 100.0


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
