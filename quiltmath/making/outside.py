"""What the outside of a quilt is, read off its cloth."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..shapes import grain_of

if TYPE_CHECKING:
    from .made import Made

ON_EDGE = 1e-6  # inches: a corner this near to the outline lies on it


def bias_outside(made: Made) -> float | None:
    """The inches of bias along the outside of the finished top, its borders left aside; None where it cannot be bound.

    >>> from quiltmath import making, settings
    >>> round(bias_outside(settings.on_point(1, 1, 6, edges="half blocks").made), 3)
    33.941
    """
    if made.centre is None:
        return None
    bound = made.centre.bind(made.seam)
    ends, found = bound.size, 0.0
    for patch in bound.patches:
        corners = patch.polygon
        for start, end in zip(corners, [*corners[1:], corners[0]]):
            for axis in (0, 1):
                on = [
                    side for side in (0.0, ends[axis]) if max(abs(start[axis] - side), abs(end[axis] - side)) < ON_EDGE
                ]
                if on and grain_of(start, end, patch.grain) != "straight":
                    found += float(abs(end - start).max())
    return found
