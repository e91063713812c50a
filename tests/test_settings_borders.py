"""Borders, mitres, frames and medallions: lengths from the proofs, cloth from the simulator, areas from
Shapely."""

import pytest
import sympy
from hypothesis import given
from hypothesis import settings as hypothesis
from hypothesis import strategies as st

from quiltmath import proofs, review, settings

from .strategies import eighths

EXACT = 1e-9  # inches: float noise of a few dozen seams


def border_lines(plan):
    """The lines of the cutting list that cut the borders."""
    borders = {part for border in plan.sheet().border for part in border.parts}
    return [line for line in plan.cutting_list() if line.part in borders]


class TestBorders:
    def test_butted_strips_are_as_long_as_what_they_are_sewn_to(self):
        plan = settings.straight(3, 4, 6, borders=["2", settings.border("3", first="top", fabric="navy")])
        assert [(line.part, line.exact) for line in border_lines(plan)] == [
            ("border 1 side strip", (sympy.Rational(5, 2), sympy.Rational(49, 2))),
            ("border 1 top strip", (sympy.Rational(5, 2), sympy.Rational(45, 2))),
            ("border 2 side strip", (sympy.Rational(7, 2), sympy.Rational(69, 2))),
            ("border 2 top strip", (sympy.Rational(7, 2), sympy.Rational(45, 2))),
        ]

    def test_each_mitred_border_of_several_reaches_its_own_corners(self):
        mitred = [settings.border(width, ends="mitred") for width in (1, 3)]
        plan = settings.straight(3, 4, 6, borders=mitred)
        lines = {line.part: line.exact[1] for line in border_lines(plan)}
        assert lines["border 1 side strip"] == proofs.mitred_strip.exact("strip", side=24, width=1)
        assert lines["border 2 side strip"] == proofs.mitred_strip.exact("strip", side=26, width=3)

    @pytest.mark.parametrize("block, width", [(4, 5), (4, 12), (9, 9)])
    def test_a_mitred_border_may_be_wider_than_the_side_it_goes_round(self, block, width):
        plan = settings.straight(1, 1, block, borders=[settings.border(width, ends="mitred")])
        along = proofs.mitred_strip.exact("strip", side=block, width=width)
        assert [line.exact for line in border_lines(plan)] == 2 * [(width + sympy.Rational(1, 2), along)]
        assert plan.panel().bind().size == pytest.approx((block + 2 * width,) * 2)
        assert review.review(plan.sheet()).verdict == "go"

    @pytest.mark.parametrize("first, left, bottom", [("sides", 24, 22), ("top", 28, 18)])
    def test_which_strips_go_on_first(self, first, left, bottom):
        plan = settings.straight(3, 4, 6, borders=[settings.border(2, first=first)])
        bound = plan.panel().bind()
        strips = [patch.polygon for patch in bound.patches if patch.fabric == "border"]
        heights = sorted(float(strip[:, 1].max() - strip[:, 1].min()) for strip in strips)
        widths = sorted(float(strip[:, 0].max() - strip[:, 0].min()) for strip in strips)
        assert (heights[-1], widths[-1]) == pytest.approx((left, bottom))

    def test_borders_on_point(self):
        plan = settings.on_point(2, 3, 6, borders=[settings.border("2", ends="mitred")])
        assert plan.width == 12 * sympy.sqrt(2) + 4
        assert border_lines(plan)[1].exact[1] == sympy.expand(
            12 * sympy.sqrt(2) + 4 + sympy.Rational(1, 2) + sympy.sqrt(2) / 2
        )

    @pytest.mark.parametrize(
        "given, said",
        [
            ("0", "border must be more than 0 in; got 0 in"),
            ("1/4", "a border finishes at least two seams wide, 1/2 in; got 1/4 in"),
        ],
    )
    def test_borders_that_cannot_be(self, given, said):
        with pytest.raises(ValueError) as refused:
            settings.straight(2, 2, 6, borders=given)
        assert said in str(refused.value)

    def test_first_strips_are_named(self):
        with pytest.raises(ValueError, match="the pair of strips sewn on first is one of 'sides', 'top'; got 'left'"):
            settings.border(2, first="left")


class TestFramesToTheEdge:
    PLAN = settings.on_point(2, 3, 6, frame=1, edges="framed")

    def test_strips_reach_past_the_trim(self):
        lines = {line.part: line.exact for line in self.PLAN.cutting_list()}
        assert lines["first end frame strip"][1] == proofs.frame_end.exact("strip", leg=6, width=1)
        assert lines["second end frame strip"][1] == proofs.frame_end.exact("strip", leg=7, width=1)
        assert lines["corner frame strip"][1] == proofs.frame_both_ends.exact("strip", leg=6, width=1)

    def test_a_strip_cut_to_the_proofs_length_reaches_and_a_shorter_one_does_not(self):
        whole = settings.trial(self.PLAN)
        assert (whole.reach, whole.missing) == pytest.approx((8, 0))
        leg = [settings.trial(self.PLAN, short).missing for short in ("1/4", "1/2", "3/4", 1)]
        assert leg[0] < EXACT
        assert leg[1:] == pytest.approx([short - 0.25 * 2**0.5 for short in (0.5, 0.75, 1)])

    def test_a_short_strip_leaves_a_notch_in_the_edge_of_the_quilt(self):
        whole, short = (settings.trial(self.PLAN, by).panel for by in (0, "1 1/2"))
        assert short.area < whole.area
        assert bottom(short) < bottom(whole) - 2

    def test_trials_that_cannot_be(self):
        with pytest.raises(ValueError, match="strips are tried short on the framed triangles of a plan on point"):
            settings.trial(settings.on_point(2, 3, 6))
        with pytest.raises(ValueError, match="strips are tried short by at most the side of the block, 6 in; got 7 in"):
            settings.trial(self.PLAN, 7)


def bottom(panel):
    """Inches of raw edge along the bottom."""
    return sum(edge.length for edge in panel.raw_edges() if max(edge.start[1], edge.end[1]) < 1e-6)


class TestMedallion:
    def test_sizes(self):
        plan = settings.medallion(12, ["triangles", "2", "triangles", "3"])
        assert plan.width == sympy.expand((12 * sympy.sqrt(2) + 4) * sympy.sqrt(2) + 6)
        assert [line.exact[0] for line in plan.cutting_list() if "triangle" in line.part] == [
            proofs.corner_triangle.exact(block=12),
            proofs.corner_triangle.exact(block=12 * sympy.sqrt(2) + 4),
        ]

    @given(eighths(48, 160), st.lists(st.sampled_from(["triangles", "1", "1 1/2"]), min_size=1, max_size=5))
    @hypothesis(max_examples=20)
    def test_the_middle_for_a_size_gives_that_size(self, middle, rounds):
        plan = settings.medallion(middle, rounds)
        side = plan.sides[-1]
        inside = settings.middle_for(float(side), rounds)
        assert float(inside) == pytest.approx(middle, abs=1e-6)
        assert plan.panel().size == pytest.approx([float(side) + 0.5] * 2, abs=EXACT)

    def test_rounds_that_cannot_be(self):
        with pytest.raises(ValueError, match="these rounds alone are wider than 4 in"):
            settings.middle_for(4, ["3"])
        with pytest.raises(ValueError, match="a medallion has from 1 to 40 rounds; got 0"):
            settings.medallion(12, [])
