"""Cloth as it is sewn: panels of raw patches that can be cut, turned, sewn edge to edge, trimmed and bound.

Nothing here knows a quilting rule. A seam eats its allowance from both panels, a cut leaves a raw edge
exactly on its line, and whatever goes wrong is read off the cloth afterwards: where seams meet, how deep,
what lies on the bias.

    >>> from quiltmath import sewing
    >>> navy = sewing.patch(size=("3 1/2", "3 1/2"), fabric="navy")
    >>> row = navy.sew(navy, mine="right", theirs="left")
    >>> row.size
    (6.5, 3.5)
"""

from .arguments import CannotSew, Length, Point
from .panel import SEAM, Panel, patch
from .rows import in_a_row
from .seen import CutAs, Junction, Patch, RawEdge, Seam

__all__ = [
    "SEAM",
    "CannotSew",
    "CutAs",
    "Junction",
    "Length",
    "Panel",
    "Patch",
    "Point",
    "RawEdge",
    "Seam",
    "in_a_row",
    "patch",
]
