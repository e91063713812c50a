"""Cut and turned tops, edges cut from whole blocks, and prints that run one way."""

from math import sqrt

import pytest
from shapely.geometry import Polygon

from quiltmath import blocks, settings
from quiltmath.pattern.names import CORNER, EDGES, SIDE

NINE = blocks.named("nine-patch")
FOUR = blocks.named("four-patch")


class TestCutAndTurn:
    def test_the_pieces_make_the_square_with_lost_points_and_bias_outside(self):
        turned = settings.cut_and_turn(settings.straight(4, 2, FOUR))
        assert turned.squares == 1
        assert turned.planned.size == pytest.approx((12 * sqrt(2),) * 2)
        assert turned.size == pytest.approx(turned.planned.size, abs=0.5)
        assert turned.lost_points > 0
        assert turned.deepest > 0.2
        around = sum(edge.length for edge in turned.panel.raw_edges())
        assert turned.bias == pytest.approx(around, rel=0.01)

    def test_the_plan_set_on_point_from_the_start_loses_nothing(self):
        planned = settings.cut_and_turn(settings.straight(4, 2, FOUR)).planned
        panel = planned.panel()
        assert min(panel.depths()) >= 0.25 - 1e-9
        assert {edge.grain for edge in panel.raw_edges()} == {"straight"}
        assert planned.blocks + planned.side_triangles / 2 + planned.corner_triangles / 4 == 4 * 2

    @pytest.mark.parametrize("across, down, squares", [(2, 1, 1), (6, 3, 1), (4, 1, 2), (8, 2, 2), (6, 1, 3)])
    def test_longer_tops_make_a_row_of_squares(self, across, down, squares):
        plan = settings.straight(across, down, NINE)
        turned = settings.cut_and_turn(plan)
        assert turned.squares == squares
        assert turned.panel.size == pytest.approx([side + 0.5 for side in turned.planned.size], abs=0.75 * squares)
        assert turned.panel.area < plan.panel().area
        assert len(turned.tally()) == 4

    def test_no_cloth_is_gained_or_lost_but_in_seams(self):
        plan = settings.straight(6, 3, 6)
        turned = settings.cut_and_turn(plan).panel
        pieces = [Polygon(patch.polygon) for patch in turned.patches]
        assert sum(piece.area for piece in pieces) == pytest.approx(turned.area)
        assert plan.panel().area - turned.area < 2 * 0.5 * (36 + 18 * 1.1)

    @pytest.mark.parametrize(
        "plan, said",
        [
            (settings.straight(5, 3, 6), "got 30 x 18 in: 36 x 18 in would do"),
            (
                settings.straight(4, 2, 6, borders=2),
                "a straight-set plan without borders is cut and turned; got one straight with borders",
            ),
            (settings.on_point(4, 2, 6), "got one on point"),
        ],
    )
    def test_tops_that_cannot_be_turned(self, plan, said):
        with pytest.raises(ValueError) as refused:
            settings.cut_and_turn(plan)
        assert said in str(refused.value)


class TestHalfBlocks:
    PLAN = settings.on_point(3, 4, NINE, edges="half blocks")

    def test_one_good_half_or_quarter_from_each_block(self):
        assert self.PLAN.cut_blocks == 10 + 4
        assert sum(line.count for line in self.PLAN.cutting_list()) == (self.PLAN.blocks + 14) * 9

    def test_the_waste_is_the_rest_of_each_block(self):
        raw, past = 9.5, 0.25 * sqrt(2)
        half = Polygon([(0, 0), (raw, 0), (raw, raw), (raw - past, raw), (0, past)])
        quarter = Polygon([(0, raw), (raw, raw), (raw, raw - past), (raw / 2, raw / 2 - past), (0, raw - past)])
        waste = 10 * (raw**2 - half.area) + 4 * (raw**2 - quarter.area)
        block, made = self.PLAN.made.panel("nine-patch"), self.PLAN.made
        kept = {kind: {where: made.edge_triangle(kind, where).area for where in EDGES} for kind in (SIDE, CORNER)}
        sides = sum(self.PLAN.layout.sides_at(where) * area for where, area in kept[SIDE].items())
        assert 14 * block.area - sides - sum(kept[CORNER].values()) == pytest.approx(waste)

    def test_the_whole_outside_is_bias(self):
        width, height = self.PLAN.size
        assert float(self.PLAN.bias_outside()) == pytest.approx(2 * (width + height))


class TestPrints:
    @pytest.mark.parametrize(
        "asked",
        [
            {},
            {"sashing": 1},
            {"sashing": 1, "edge": "whole"},
            {"sashing": 1, "cornerstones": False},
            {"frame": 1},
            {"frame": 1, "edges": "framed"},
            {"edges": "built"},
            {"edges": "built, bias outside"},
            {"borders": "2"},
            {"alternate": "plain"},
        ],
    )
    def test_turned_patches_are_those_whose_thread_lies_at_45_degrees(self, asked):
        plan = settings.on_point(2, 4, blocks.read("a b | c d", size=6, name="four"), **asked)
        tilted = {}
        for patch in plan.panel().patches:
            if abs(patch.grain % 90 - 45) < 1:
                tilted[patch.part] = tilted.get(patch.part, 0) + 1
        found = {}
        for part, _, count in settings.turned_prints(plan):
            found[part] = found.get(part, 0) + count
        assert found == tilted

    def test_nothing_is_turned_in_a_straight_set(self):
        assert settings.turned_prints(settings.straight(3, 3, NINE, sashing=1)) == []

    def test_upright_side_triangles_take_more_squares_where_the_quilt_is_long(self):
        assert settings.upright_squares(settings.on_point(3, 8, 6)) == 7
        with pytest.raises(ValueError, match="got one that is straight"):
            settings.upright_squares(settings.straight(3, 8, 6))
        with pytest.raises(ValueError, match="got one that is on point, half blocks"):
            settings.upright_squares(settings.on_point(3, 8, NINE, edges="half blocks"))
