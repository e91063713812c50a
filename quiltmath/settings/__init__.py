"""Plans of quilt tops, straight and on point: counts, exact sizes, rows, cutting lists, the sewn top.

    >>> from quiltmath import settings
    >>> plan = settings.on_point(across=5, down=6, block=9)
    >>> plan.blocks, plan.side_triangles, plan.corner_triangles, plan.width, plan.height
    (50, 18, 4, 45*sqrt(2), 54*sqrt(2))
"""
from .ask import on_point, straight
from .borders import Border, border
from .frames import Trial, trial
from .on_point import OnPoint
from .plan import Plan
from .straight import Straight

__all__ = ["Border", "OnPoint", "Plan", "Straight", "Trial", "border", "on_point", "straight", "trial"]
