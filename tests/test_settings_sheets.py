"""Every plan is a sheet: the review accepts it, needs what the plan cuts, its cloth is the drawing, its text reads back the same."""

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
