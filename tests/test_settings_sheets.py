"""Every plan is a sheet: the review accepts it, needs what the plan cuts, its cloth is the drawing, its text reads back
the same."""

import pytest
from hypothesis import HealthCheck, given
from hypothesis import settings as hypothesis

from quiltmath import blocks, pattern, settings

from .plans import differences
from .strategies import plans

NINE = blocks.named("nine-patch")


@given(plans())
@hypothesis(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large])
def test_a_plan_is_the_sheet_it_is_written_as(plan):
    assert differences(plan) == []


MITRED = [settings.border(2, "mitred")]
STRIPS = {"sashing": 1, "cornerstones": False}
RARE = {
    "metric": settings.on_point(2, 3, "24 cm", unit="cm"),
    "metric, in millimetres": settings.straight(2, 3, "240 mm", "40 mm", borders=["50 mm"], unit="mm"),
    "a medallion": settings.medallion(NINE, ["triangles", "1 1/2", "triangles", *MITRED]),
    "a medallion of one round": settings.medallion(3, ["triangles"]),
    "one block with built corners": settings.on_point(1, 1, blocks.named("four-patch"), edges="built"),
    "built off the ruler": settings.on_point(2, 2, blocks.named("sixteen-patch", "4.37"), edges="built"),
    "built, strips in one column": settings.on_point(1, 2, NINE, edges="built", **STRIPS),
    "half blocks, strips in one row": settings.on_point(3, 1, NINE, edges="half blocks", **STRIPS),
    "half blocks, sashed, one": settings.on_point(1, 1, NINE, 1, edges="half blocks"),
    "half blocks, small": settings.on_point(2, 1, NINE.resized("10 cm"), edges="half blocks", unit="cm"),
    "half blocks, mitred": settings.on_point(2, 2, NINE, edges="half blocks", borders=MITRED),
    "strips in one row, mitred": settings.on_point(3, 1, 6, borders=MITRED, **STRIPS),
    "frames and strips that end in the edge": settings.on_point(
        3, 2, 6, "1 1/4", cornerstones=False, frame="1 3/8", edges="framed"
    ),
    "a border wider than what it goes round": settings.straight(1, 1, 3, borders=["3 7/8"]),
    "a sash nearly as wide as a tip is long": settings.on_point(1, 3, NINE.resized(6), "1 3/8", edges="built"),
    "whole cornerstones in a long row": settings.on_point(5, 1, 6, 1, edge="whole", floating=1),
}


@pytest.mark.parametrize("kind", RARE)
def test_rare_plans_are_the_sheets_they_are_written_as(kind):
    assert differences(RARE[kind]) == []


class TestWhatDiffersIsSeen:
    """`differences` sees a sheet that does not say what its plan says."""

    @pytest.mark.parametrize(
        "path, value, said",
        [
            (("cut", 0, "count"), 1, "the review says piece-count"),
            (("cut", 0, "size"), "1 1/2", "size printed"),
            (("cut", 2, "size"), "9", "the review says cut-size"),
            (("finished",), "50 x 50", "the review says finished-size"),
            (("cut", 1, "fabric"), "rust", "fabric"),
        ],
    )
    def test_a_changed_sheet(self, path, value, said):
        plan = settings.on_point(3, 4, NINE)
        changed = pattern.changed(plan.sheet(), (path, value))
        assert any(said in words for words in differences(plan, changed))
