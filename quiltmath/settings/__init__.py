"""Wishes become plans: quilt tops straight and on point, written as pattern sheets, counted, sized and sewn by
`making`.

    >>> from quiltmath import settings
    >>> plan = settings.on_point(across=5, down=6, block=9)
    >>> plan.blocks, plan.side_triangles, plan.corner_triangles, plan.width, plan.height
    (50, 18, 4, 45*sqrt(2), 54*sqrt(2))

`on_point` and `straight` make a plan. Ask it for `sheet()`, `rows()`, `steps()`, `cutting_list()`, `panel()`
(sewn in the simulator), `placed()` (the finished layout, for pictures) and `what_if(block=10)`. `fit` finds layouts
near a wished size or for a `bed`; `medallion` grows from its middle; `side_by_side` sets the same blocks both
ways; `cut_and_turn` shows what it costs to cut a straight top and turn it; `trial` what a short frame strip
does.
"""

from .beds import bed, mattresses, throw
from .borders import Round, border
from .compared import side_by_side
from .directional import turned_prints, upright_squares
from .fitting import NearLayout, fit, sizes
from .medallions import Medallion, medallion, middle_for
from .plan import Plan
from .trials import Trial, trial
from .turned_top import cut_and_turn
from .wishes import on_point, straight

__all__ = [
    "Medallion",
    "NearLayout",
    "Plan",
    "Round",
    "Trial",
    "bed",
    "border",
    "cut_and_turn",
    "fit",
    "mattresses",
    "medallion",
    "middle_for",
    "on_point",
    "side_by_side",
    "sizes",
    "straight",
    "throw",
    "trial",
    "turned_prints",
    "upright_squares",
]
