"""Straight plans: counts found by counting the sewn cloth, sizes, rows, the plan changed."""

import pytest
import sympy

from quiltmath import blocks, settings

from .sweep import some_quilts

EXACT = 1e-9  # inches: float noise of a few hundred seams
STYLES = {
    "plain": {},
    "alternate": {"alternate": "plain"},
    "between": {"sashing": 2},
    "all round": {"sashing": 2, "around": True},
    "strips": {"sashing": 2, "cornerstones": False},
    "strips all round": {"sashing": 2, "cornerstones": False, "around": True},
}
PARTS = {
    "main_blocks": "block",
    "alternate_blocks": "alternate block",
    "sashes": "sash",
    "cornerstones": "cornerstone",
    "sashing_strips": "sashing strip",
}


def counts_and_size_are_those_of_the_sewn_top(style, across, down):
    plan = settings.straight(across, down, 6, **STYLES[style])
    panel = plan.panel()
    where = f"{style}, {across} x {down}"
    assert {name: panel.count(part) for name, part in PARTS.items()} == {name: getattr(plan, name) for name in PARTS}, (
        where
    )
    assert panel.size == pytest.approx([side + 0.5 for side in plan.size], abs=EXACT), where
    assert [edge.grain for edge in panel.raw_edges()] == ["straight"] * 4, where


@pytest.mark.parametrize("style", STYLES)
def test_the_formulas_count_and_measure_the_sewn_top(style):
    """On a sample; `python -m tests.sweep settings` goes through all of 1 to 8 blocks across and down."""
    for across, down in some_quilts(style):
        counts_and_size_are_those_of_the_sewn_top(style, across, down)


def test_widths_add_up():
    plan = settings.straight(5, 6, 12, 3, around=True, borders=["2", "4"])
    assert (plan.width, plan.height) == (5 * 12 + 6 * 3 + 12, 6 * 12 + 7 * 3 + 12)
    assert settings.straight(3, 2, "9 1/2").width == sympy.Rational(57, 2)


def test_rows_hold_what_the_top_holds():
    for asked in STYLES.values():
        plan = settings.straight(4, 3, 6, **asked)
        held = [part for row in plan.rows() for part in row.parts]
        assert {name: held.count(part) for name, part in PARTS.items()} == {name: getattr(plan, name) for name in PARTS}


def test_alternate_blocks_take_every_other_place():
    plan = settings.straight(3, 3, blocks.named("nine-patch"), alternate="plain")
    assert [row.parts for row in plan.rows()][:2] == [
        ("block", "alternate block", "block"),
        ("alternate block", "block", "alternate block"),
    ]
    assert (plan.main_blocks, plan.alternate_blocks) == (5, 4)


def test_what_if_changes_only_what_is_named():
    plan = settings.straight(4, 5, 9, 2, around=True, fabrics={"sashing": "navy"})
    wider = plan.what_if(sashing="3")
    assert (wider.sashing, wider.around, wider.fabric("sashing")) == (3, True, "navy")
    assert plan.sashing == 2
