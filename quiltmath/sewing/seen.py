"""What is read off a panel: its patches, its seams, where they meet, its raw edges."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np


class Junction(NamedTuple):
    """A meeting of seams: its point, its depth from the nearest raw edge, and what the next seam takes."""

    point: tuple
    depth: float
    lost_by: float


class RawEdge(NamedTuple):
    """A stretch of raw edge: its ends (walking from start to end, cloth on the left), inches, and grain."""

    start: tuple
    end: tuple
    length: float
    grain: str | float

    @property
    def off_grain(self) -> float:
        """Degrees off the nearer thread, 0 to 45."""
        return {"straight": 0.0, "bias": 45.0}[self.grain] if isinstance(self.grain, str) else self.grain


class Seam(NamedTuple):
    """A sewn seam: its ends, and by how many finished inches the first edge was longer than the second."""

    start: tuple
    end: tuple
    difference: float


class Patch(NamedTuple):
    """A visible patch: its corners (n x 2), fabric, lengthwise grain (degrees) and the part it was cut as."""

    polygon: np.ndarray
    fabric: str
    grain: float
    part: str


class CutAs(NamedTuple):
    """What a patch was cut as: its fabric and the name of the part."""

    fabric: str
    part: str
