"""Plans of quilt tops, straight and on point: counts, exact sizes, rows, cutting lists, the sewn top.

    >>> from quiltmath import settings
    >>> plan = settings.on_point(across=5, down=6, block=9)
    >>> plan.blocks, plan.side_triangles, plan.corner_triangles, plan.width, plan.height
    (50, 18, 4, 45*sqrt(2), 54*sqrt(2))
"""
from .ask import on_point
from .on_point import OnPoint
from .plan import Plan

__all__ = ["OnPoint", "Plan", "on_point"]
