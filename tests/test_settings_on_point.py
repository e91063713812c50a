"""Plans on point: formulas held against the sewn top, for every small quilt and both ways the edge can
run."""
from itertools import product

import pytest
import sympy

from quiltmath import settings

STYLES = {
    "plain": {}, "floating": {"floating": "1 1/2"},
    "sashed, through the centres": {"sashing": 2},
    "sashed, whole": {"sashing": 2, "edge": "whole"},
    "sashed, whole, floating": {"sashing": 2, "edge": "whole", "floating": 1},
    "strips, through the centres": {"sashing": 2, "cornerstones": False},
    "strips, whole": {"sashing": 2, "cornerstones": False, "edge": "whole"},
}
PARTS = {
    "blocks": "block",
    "side_triangles": "side triangle",
    "corner_triangles": "corner triangle",
    "sashes": "sash",
    "cornerstones": "cornerstone",
    "cornerstone_triangles": "cornerstone triangle",
    "triangle_tips": "triangle tip",
    "sashing_strips": "sashing strip",
}
EXACT = 1e-9         # inches: float noise of a few hundred seams


@pytest.mark.parametrize("style", STYLES)
def test_the_formulas_count_and_measure_the_sewn_top(style):
    for across, down in product(range(1, 9), repeat=2):
        plan = settings.on_point(across, down, "6 1/3", **STYLES[style])
        panel = plan.panel()
        where = f"{across} x {down}"
        assert {name: panel.count(part) for name, part in PARTS.items()} == \
            {name: getattr(plan, name) for name in PARTS}, where
        assert len(panel.patches) == plan.patches, where
        assert panel.size == pytest.approx([side + 0.5 for side in plan.size], abs=EXACT), where
        if len(panel.meets):
            assert panel.depths().min() == pytest.approx(0.25 + float(plan.floating), abs=EXACT), where


@pytest.mark.parametrize("style", [style for style in STYLES if style != "strips, through the centres"])
def test_the_outside_is_four_straight_edges_on_the_straight_grain(style):
    for across, down in [(1, 1), (1, 4), (5, 2), (3, 3), (5, 6)]:
        edges = settings.on_point(across, down, 9, **STYLES[style]).panel().raw_edges()
        assert [edge.grain for edge in edges] == ["straight"] * 4


def test_five_by_six_nine_inch_blocks():
    plan = settings.on_point(across=5, down=6, block=9, sashing=0)
    assert (plan.blocks, plan.side_triangles, plan.corner_triangles) == (50, 18, 4)
    assert (plan.width, plan.height) == (45 * sympy.sqrt(2), 54 * sympy.sqrt(2))
    assert [line.exact for line in plan.cutting_list()] == [
        (sympy.Rational(19, 2),), (sympy.Rational(1, 2) + 19 * sympy.sqrt(2) / 2,),
        (sympy.Rational(1, 2) + 19 * sympy.sqrt(2) / 4,)]
