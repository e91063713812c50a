"""Plans on point: formulas held against the sewn top, for small quilts and large ones and both ways the edge can
run."""

from itertools import product

import pytest
import sympy

from quiltmath import lengths, proofs, settings
from quiltmath.settings.arguments import SEAM as SEAMS
from quiltmath.usual import SEAM_IN as METRIC

from .sweep import some_quilts

STYLES = {
    "plain": {},
    "floating": {"floating": "1 1/2"},
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
EXACT = 1e-9  # inches: float noise of a few hundred seams


def strips_in(plan):
    """The parts that the long sashing strips are cut as, one for each length."""
    sashing = plan.sheet().setting.sashing
    return sashing.strip if sashing is not None and sashing.strip else ()


def counts_and_size_are_those_of_the_sewn_top(style, across, down):
    plan = settings.on_point(across, down, "6 1/3", **STYLES[style])
    panel = plan.panel()
    where = f"{style}, {across} x {down}"
    strips = strips_in(plan)
    assert {
        name: sum(map(panel.count, strips)) if part == "sashing strip" else panel.count(part)
        for name, part in PARTS.items()
    } == {name: getattr(plan, name) for name in PARTS}, where
    assert len(panel.patches) == plan.patches, where
    assert panel.size == pytest.approx([side + 0.5 for side in plan.size], abs=EXACT), where
    if len(panel.meets):
        assert panel.depths().min() == pytest.approx(0.25 + float(plan.floating), abs=EXACT), where


@pytest.mark.parametrize("style", STYLES)
def test_the_formulas_count_and_measure_the_sewn_top(style):
    """On a sample; `python -m tests.sweep settings` goes through all of 1 to 8 blocks across and down."""
    for across, down in some_quilts(style):
        counts_and_size_are_those_of_the_sewn_top(style, across, down)


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
        (sympy.Rational(19, 2),),
        (sympy.Rational(1, 2) + 19 * sympy.sqrt(2) / 2,),
        (sympy.Rational(1, 2) + 19 * sympy.sqrt(2) / 4,),
    ]


def test_rows_hold_what_the_top_holds():
    for style, (across, down) in product(STYLES, [(1, 1), (2, 5), (4, 3), (6, 2)]):
        plan = settings.on_point(across, down, 9, **STYLES[style])
        held = [part for row in plan.rows() for part in row.parts]
        assert {name: held.count(part) for name, part in PARTS.items() if part != "corner triangle"} == {
            name: getattr(plan, name) for name in PARTS if name != "corner_triangles"
        }


def test_rows_are_numbered_and_grow_and_shrink():
    rows = settings.on_point(5, 6, 9).rows()
    assert [row.number for row in rows] == list(range(1, 11))
    assert [row.parts.count("block") for row in rows] == [1, 3, 5, 7, 9, 9, 7, 5, 3, 1]
    assert str(rows[4]) == "Row 5: side triangle, 9 blocks"
    assert str(rows[5]) == "Row 6: 9 blocks, side triangle"


def test_sashing_with_whole_cornerstones_says_where_a_triangle_would_have_to_be_set_in():
    assert settings.on_point(3, 4, 9, 2, edge="whole").triangle_tips == 0
    steps = settings.on_point(2, 4, 9, 2, edge="whole").steps()
    assert (
        "Row 3: cut the right triangle off level with the row, and end the next sashing row with its "
        "tip: whole, it would have to be set in."
    ) in steps


def test_steps_say_how_the_edge_comes_about_and_where_it_is_bias():
    halves = settings.on_point(3, 3, 9, edges="half blocks").steps()
    assert halves[0].startswith("Cut each of the spare blocks one seam past its diagonal")
    assert halves[1].startswith("About 152 3/4 in of the outside is bias")
    assert "straight grain" in settings.on_point(3, 3, 9, edges="built").steps()[0]


def test_sashed_sizes_in_both_conventions():
    centre, whole = (settings.on_point(3, 4, 9, 2, edge=edge) for edge in ("half", "whole"))
    assert (centre.width, centre.height) == (33 * sympy.sqrt(2), 44 * sympy.sqrt(2))
    assert (whole.width, whole.height) == (35 * sympy.sqrt(2), 46 * sympy.sqrt(2))
    assert (centre.sashes, centre.crossings, whole.cornerstones) == (48, 31, 31)
    assert centre.cornerstones == 31 - 14


@pytest.mark.parametrize("across, down", [*product((1, 3, 6), (2, 5))])
def test_the_proofs_agree(across, down):
    asked = {"across": across, "down": down, "block": 9}
    plan = settings.on_point(across, down, 9)
    for measure, ours in {
        "blocks": plan.blocks,
        "side triangles": plan.side_triangles,
        "width": plan.width,
        "height": plan.height,
    }.items():
        assert proofs.on_point.exact(measure, **asked) == ours
    sashed = settings.on_point(across, down, 9, 2), settings.on_point(across, down, 9, 2, edge="whole")
    for measure, ours in {
        "sashes": sashed[0].sashes,
        "cornerstones": sashed[0].crossings,
        "width": sashed[0].width,
        "cornerstones inside": sashed[0].cornerstones,
        "width with whole cornerstones": sashed[1].width,
        "side square": sashed[0].line("side triangle").exact[0] if down + across > 2 else None,
        "side square with whole cornerstones": sashed[1].line("side triangle").exact[0],
        "corner square": sashed[0].line("corner triangle").exact[0],
        "corner square with whole cornerstones": sashed[1].line("corner triangle").exact[0],
    }.items():
        assert sympy.simplify(proofs.sashed_on_point.exact(measure, sash=2, **asked) - ours) == 0


def test_a_floating_top_is_two_floats_larger():
    plan = settings.on_point(3, 4, 9, floating="1 1/2")
    assert (plan.width, plan.height) == (27 * sympy.sqrt(2) + 3, 36 * sympy.sqrt(2) + 3)
    assert plan.line("side triangle").exact[0] == proofs.side_triangle.exact(block=9) + 3
    assert plan.line("corner triangle").exact[0] == proofs.corner_triangle.exact(block=9) + 3


def test_what_if_leaves_the_plan_as_it_was():
    plan = settings.on_point(5, 6, 9)
    assert plan.what_if(block=10).width == 50 * sympy.sqrt(2)
    assert plan.what_if(across=4, sashing=2).sashes == 96
    assert plan.width == 45 * sympy.sqrt(2)


def test_the_seam_of_a_metric_plan_is_the_metric_one():
    assert dict(SEAMS) == {unit: lengths.parse(size, unit) for unit, size in METRIC.items()}
    plan = settings.on_point(5, 6, "24 cm", unit="cm")
    assert plan.seam == lengths.parse("0.75 cm")
    assert plan.line("block").text == "25.5 cm"
    panel = plan.panel()
    assert panel.size == pytest.approx([side + 2 * float(plan.seam) for side in plan.size], abs=EXACT)


def test_a_cutting_list_is_exact_and_on_the_ruler():
    block, side, corner = settings.on_point(5, 6, 10).cutting_list()
    assert (side.count, side.squares, side.cut, side.grain) == (
        18,
        5,
        "twice",
        "long side on the straight grain",
    )
    assert (corner.count, corner.squares, corner.cut, corner.grain) == (
        4,
        2,
        "once",
        "legs on the straight grain",
    )
    assert (block.text, side.text, corner.text) == ("10 1/2", "15 3/8", "8")
    assert side.trade == (10 * sympy.sqrt(2) + sympy.Rational(5, 4),)
    assert "15 3/8" in side.derivation()
    assert all(line.size[0] >= line.exact[0] for line in (block, side, corner))
