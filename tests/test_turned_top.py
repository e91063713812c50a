"""A straight top cut at 45 degrees and turned: what it costs, and the plan that shows the same picture."""

import pytest

from quiltmath import blocks, settings

from .regions import regions

FOUR = blocks.read("A B | B A", size=6)
SIXTEEN = blocks.read("A B C B | B A B C | C B A B | B C B A", size=12)
FITS = [(FOUR, 4, 2), (FOUR, 6, 3), (FOUR, 8, 2), (SIXTEEN, 4, 2), (SIXTEEN, 4, 1)]


@pytest.mark.parametrize("block, across, down", FITS)
class TestAnyRectangleWhereThePiecesFit:
    def test_every_outer_edge_lies_on_bias_and_loses_points(self, block, across, down):
        turned = settings.cut_and_turn(settings.straight(across=across, down=down, block=block))
        edges = turned.panel.raw_edges()
        long = [edge for edge in edges if edge.length > 1]
        assert {edge.grain for edge in long} == {"bias"}
        lost = [point.point for point in turned.panel.junctions() if point.lost_by > 0]
        width, height = turned.panel.size
        for distance in (lambda p: p[0], lambda p: p[1], lambda p: width - p[0], lambda p: height - p[1]):
            assert any(abs(distance(point)) < 0.1 for point in lost)
        assert turned.deepest == pytest.approx(0.25)

    def test_it_comes_out_smaller_than_the_plan(self, block, across, down):
        turned = settings.cut_and_turn(settings.straight(across=across, down=down, block=block))
        assert all(mine < theirs for mine, theirs in zip(turned.size, turned.planned.size))

    def test_the_plan_shows_the_same_picture_and_loses_nothing(self, block, across, down):
        turned = settings.cut_and_turn(settings.straight(across=across, down=down, block=block))
        planned = turned.planned.panel()
        assert not any(point.lost_by > 1e-6 for point in planned.junctions()) and not len(planned.lost)
        assert {edge.grain for edge in planned.raw_edges() if edge.length > 0.2} == {"straight"}
        here, there = regions(turned.panel.bind()), regions(planned.bind())
        off = sum(here[fabric].symmetric_difference(there[fabric]).area for fabric in there) / 2
        assert off < 0.15  # the sliced top has lost a seam at every edge; another picture is off by a third or more


@pytest.mark.parametrize(
    "block, across, down, on_a_cut", [(FOUR, 8, 2, 3), (6, 12, 2, 1), (SIXTEEN, 4, 1, 3), (FOUR, 4, 2, 3)]
)
def test_a_point_on_the_cut_where_two_squares_are_sewn_together_again_is_lost_once(block, across, down, on_a_cut):
    turned = settings.cut_and_turn(settings.straight(across=across, down=down, block=block))
    assert len(turned.panel.lost) == (turned.squares - 1) * on_a_cut
    assert turned.panel.lost_by == pytest.approx(0.25)


@pytest.mark.parametrize("across, down", [(5, 3), (3, 3), (1, 1)])
def test_other_rectangles_are_refused_with_one_that_fits(across, down):
    with pytest.raises(ValueError, match="would do"):
        settings.cut_and_turn(settings.straight(across=across, down=down, block=6))


def test_a_plan_on_point_is_refused():
    with pytest.raises(ValueError, match="straight-set"):
        settings.cut_and_turn(settings.on_point(across=2, down=2, block=6))
