"""Mitred borders, sewn: what they cover comes out as Shapely says, whatever the strips' widths and lengths."""

from math import hypot, sqrt

import numpy as np
import pytest
import shapely
from hypothesis import given
from shapely.geometry import LineString, Polygon, box

from quiltmath import proofs, settings
from quiltmath.sewing import SEAM, CannotSew, patch

from . import cloth_regions
from .strategies import eighths

EXACT = 1e-9


def strips(across, up, sides, ends, short=0):
    """Side and end strips for a top that finishes so large, of these finished widths; cut long enough, or too short."""
    side = patch(size=(sides + 2 * SEAM, up + 2 * ends + 4 + 8 * sides - short), fabric="navy", part="side strip")
    end = patch(
        size=(across + 2 * sides + 4 + 8 * ends - short, ends + 2 * SEAM), fabric="navy", part="end strip", grain=0
    )
    return side, end


def top(across, up):
    return patch(size=(across + 2 * SEAM, up + 2 * SEAM))


class TestTheRing:
    @given(eighths(24, 96), eighths(24, 96), eighths(4, 24), eighths(4, 24))
    def test_four_strips_cover_it_and_meet_on_the_line_from_corner_to_corner(self, across, up, sides, ends):
        raw = top(across, up).mitred(*strips(across, up, sides, ends))
        panel = raw.bind()
        assert raw.size == pytest.approx((across + 2 * sides + 2 * SEAM, up + 2 * ends + 2 * SEAM), abs=EXACT)
        assert panel.size == pytest.approx((across + 2 * sides, up + 2 * ends), abs=EXACT)
        inner = box(sides, ends, sides + across, ends + up)
        ring = cloth_regions.of_panel(panel)["navy"]
        assert ring.symmetric_difference(box(0, 0, *panel.size) - inner).area < cloth_regions.SLIVER
        (right, high), (x, y) = panel.size, (sides, ends)
        wanted = {
            "end strip": [[(0, 0), (right, 0), (right - x, y), (x, y)]],
            "side strip": [[(0, 0), (x, y), (x, high - y), (0, high)]],
        }
        for part, shapes in wanted.items():
            found = [Polygon(one.polygon) for one in panel.patches if one.part == part]
            assert len(found) == 2
            assert min(one.symmetric_difference(Polygon(shapes[0])).area for one in found) < cloth_regions.SLIVER

    @given(eighths(24, 96), eighths(24, 96), eighths(4, 24))
    def test_strips_cut_as_the_proof_says_just_reach(self, across, up, width):
        long = [proofs.mitred_strip.value("strip", side=side, width=width) for side in (up, across)]

        def sewn(off):
            side = patch(size=(width + 2 * SEAM, long[0] - off))
            return top(across, up).mitred(side, patch(size=(long[1] - off, width + 2 * SEAM)))

        allowance = sqrt(2) * SEAM  # along the outer edge, past each mitre; a strip that lacks more leaves a hole
        assert len(sewn(2 * allowance - 0.01).raw_edges()) == 4 < len(sewn(2 * allowance + 0.01).raw_edges())
        assert sewn(0).area == pytest.approx((across + 2 * width + 0.5) * (up + 2 * width + 0.5), abs=EXACT)

    def test_no_symbols_are_loaded(self):
        import subprocess
        import sys

        code = (
            "import sys; from quiltmath import sewing; side = sewing.patch(size=(2, 12)); "
            "sewing.patch(size=(8, 8)).mitred(side, side.turn(90)); sys.exit('sympy' in sys.modules)"
        )
        assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0

    def test_each_strip_of_a_pair_may_be_another_cloth(self):
        side, end = strips(12, 10, 2, 2)
        left, right = patch(size=side.size, fabric="red"), patch(size=side.size, fabric="green")
        panel = top(12, 10).mitred((left, right), (end, patch(size=end.size, fabric="gold", grain=0)))
        middles = {one.fabric: one.polygon.mean(axis=0) for one in panel.patches}
        assert middles["red"][0] < 2.25 and middles["green"][0] > 14.25
        assert middles["navy"][1] < 2.25 and middles["gold"][1] > 12.25
        assert [edge.grain for edge in panel.raw_edges()] == ["straight"] * 4

    def test_three_widths_need_no_45_degrees(self):
        side, end = strips(12, 10, 2, 3)
        panel = top(12, 10).mitred((side, patch(size=(5.5, 40))), end).bind()
        assert panel.size == pytest.approx((12 + 2 + 5, 10 + 6))
        assert panel.area == pytest.approx(19 * 16)
        ends = {
            tuple(np.round(seam.end, 6)) for seam in top(12, 10).mitred((side, patch(size=(5.5, 40))), end).sewn_seams()
        }
        assert len(ends) == 8

    def test_points_of_the_top_and_of_the_mitres_survive(self):
        panel = settings.straight(2, 2, 6).panel().mitred(*strips(12, 12, 3, 3))
        assert len(panel.meets) == 1 + 4 + 4
        assert min(panel.depths()) == pytest.approx(3.25)
        assert len(panel.lost) == 0 and {seam.difference for seam in panel.sewn_seams()} == {0.0}
        assert [edge.grain for edge in panel.raw_edges()] == ["straight"] * 4

    def test_points_in_the_allowance_of_the_top_are_lost(self):
        shallow = settings.straight(2, 2, 6).panel().trim(left=6.15)
        panel = shallow.laid_down().mitred(*strips(shallow.size[0] - 0.5, 12, 3, 3))
        assert panel.lost_by == pytest.approx([0.15])

    def test_seams_of_a_pieced_strip_meet_the_top_and_the_mitre(self):
        side, end = strips(12, 12, 2, 2)
        pieced = patch(size=(18.25 + 0.25, 2.5)).sew(patch(size=(18.25 + 0.25, 2.5)))
        panel = top(12, 12).mitred(side, (pieced, end))
        assert len(panel.meets) == 4 + 1, "the four corners, and the join of the strip in the middle of its side"
        near_the_end = patch(size=(25.5, 2.5)).sew(patch(size=(11, 2.5)))
        x = 16.5 / 2 + 36 / 2 - 10.75  # its join, which runs into the mitre
        panel = top(12, 12).mitred(side, (near_the_end, end))
        on_mitre = [(a, b) for a, b in panel.meets.tolist() if a == pytest.approx(16.5 - b) and b < 2]
        assert on_mitre == [pytest.approx((x, 16.5 - x))]


class TestStripsThatDoNotFit:
    @pytest.mark.parametrize("short", [1, 3, 5, 8])
    def test_a_short_strip_leaves_its_hole_with_raw_edges_all_round(self, short):
        side, end = strips(12, 10, 2, 2)
        long = proofs.mitred_strip.value("strip", side=12, width=2)
        cut = patch(size=(long - short, 2.5), fabric="navy")
        panel = top(12, 10).mitred(side, (cut, end))
        there = shapely.union_all([Polygon(one.polygon) for one in panel.patches], grid_size=1e-9)
        leg = short / 2 - sqrt(2) * SEAM  # of the triangle missing at either end, past the allowance of the mitre
        if leg < 2.25:
            assert panel.size[0] * panel.size[1] - panel.area == pytest.approx(leg**2)
        raw = shapely.union_all([LineString([edge.start, edge.end]) for edge in panel.raw_edges()])
        assert raw.length == pytest.approx(there.length, abs=1e-6)
        assert shapely.hausdorff_distance(raw, there.boundary) < 1e-6

    def test_a_strip_that_is_shorter_than_the_top_leaves_the_top_raw(self):
        side, end = strips(12, 10, 2, 2)
        panel = top(12, 10).mitred(side, (patch(size=(8, 2.5)), end))
        bare = [edge for edge in panel.raw_edges() if edge.start[1] == edge.end[1] == pytest.approx(2.25)]
        assert sum(edge.length for edge in bare) == pytest.approx(12 - 8)
        assert {round(hypot(*np.subtract(seam.start, seam.end)), 6) for seam in panel.sewn_seams()} >= {8.0}
        assert len(panel.sewn_seams()) == 6, "the mitres it does not reach are not sewn"

    @pytest.mark.parametrize(
        "wrong, said",
        [
            (lambda s, e: patch(corners=[(0, 0), (8, 0), (0, 8)]).mitred(s, e), "mitred borders go round a rectangle"),
            (
                lambda s, e: top(12, 10).mitred(patch(size=("1/2", 30)), e),
                "two seams of 0.25 in take all of the left strip",
            ),
            (
                lambda s, e: top(12, 10).mitred((s, "navy"), e),
                "two strips for its sides, given as one panel or as a pair",
            ),
            (lambda s, e: top(12, 10).mitred(s, [e]), "two strips for its ends"),
            (
                lambda s, e: top(12, 10).mitred(s, patch(corners=[(0, 0), (20, 0), (18, 2)])),
                "a strip of a mitred border is",
            ),
            (lambda s, e: patch(size=("1/2", 10)).mitred(s, e), "two seams of 0.25 in take all the fabric"),
            (lambda s, e: top(12, 10).mitred(s, e, seam=-1), "a seam must be 0 or more"),
            (lambda s, e: top(12, 10).bind().mitred(s, e), "mitred borders go round a rectangle"),
        ],
    )
    def test_refused_in_words(self, wrong, said):
        with pytest.raises(CannotSew, match=said):
            wrong(*strips(12, 10, 2, 2))
