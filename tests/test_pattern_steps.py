"""Explicit steps: what they give may be sewn into blocks, or be the quilt itself."""

import pytest

from quiltmath import making, pattern
from quiltmath.making import pieces_needed
from quiltmath.pattern.names import centre

from .sheets import FOLDER, checks, demo

SHUFFLED = FOLDER / "sound" / "shuffled-nine.toml"
TURNED = FOLDER / "faulty" / "bias-outside-sliced-and-turned.toml"


class TestWhichPanelIsTheQuilt:
    def test_steps_that_make_a_block_leave_the_setting_in_the_middle(self):
        sheet = pattern.read(SHUFFLED)
        assert centre(sheet) == "setting"
        assert making.make(sheet).finished == pytest.approx((34.5, 46))

    def test_so_do_steps_whose_last_one_only_cuts_pieces_for_it(self):
        data = demo(SHUFFLED)
        data["step"] = data["step"][:3]
        data["block"]["shuffled"]["rows"] = [["upper left", "upper right"], ["lower left", "lower right"]]
        assert checks(data) == []

    def test_steps_that_go_on_from_the_setting_give_the_quilt(self):
        assert centre(pattern.read(TURNED)) == "turned top"

    def test_both_may_stand_in_one_sheet_in_any_order(self):
        data = demo(SHUFFLED)
        turned = {"turn": "setting", "by": 90, "gives": "quilt lying down"}
        for steps in ([*data["step"], turned], [turned, *data["step"]]):
            both = demo(SHUFFLED) | {"step": steps}
            sheet = pattern.read_text(pattern.toml(both))
            assert centre(sheet) == "quilt lying down"
            assert making.make(sheet).finished == pytest.approx((46, 34.5))


class TestCounting:
    def test_all_pieces_of_a_cut_come_from_one_panel(self):
        assert pieces_needed(pattern.read(SHUFFLED)) == {"A": 60, "B": 48}

    @pytest.mark.parametrize("part, short", [("A", 59), ("B", 47)])
    def test_one_square_short_is_told(self, part, short):
        data = demo(SHUFFLED)
        next(cut for cut in data["cut"] if cut["part"] == part)["count"] = short
        assert checks(data) == ["piece-count"]


class TestSlicing:
    def test_a_block_cut_just_past_its_points_has_too_little_left_there(self):
        data = demo(SHUFFLED)
        data["step"][0] |= {"from": ["4 3/8", 0], "to": ["4 3/8", "12 1/2"]}
        assert "no-allowance" in checks(data)

    def test_cut_where_no_seams_meet_it_keeps_all_its_points(self):
        assert checks(demo(SHUFFLED)) == []
