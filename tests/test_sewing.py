"""Panels: what quilters know of seams, cuts, ears, points and bias comes out of the simulated cloth."""

from math import sqrt

import numpy as np
import pytest
import shapely
import sympy
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from shapely.geometry import MultiPolygon, Point, Polygon

from quiltmath.sewing import SEAM, in_a_row, patch
from quiltmath.shapes import NEAR
from tests.strategies import (
    CORNER_TRIANGLE,
    SIDE_TRIANGLE,
    convex_shapes,
    eighths,
    rectangles,
    rows_of_squares,
)

EXACT = 1e-9


def exactly(value):
    return pytest.approx(value, rel=0, abs=EXACT)


def square(finished, **about):
    return patch(size=(finished + 2 * SEAM, finished + 2 * SEAM), **about)


def quarter_square(finished_leg, **about):
    """An edge triangle cut from a square on both diagonals, right angle at the lower left: grain along its
    long edge."""
    leg = (finished_leg * sqrt(2) + SIDE_TRIANGLE) / sqrt(2)
    return patch(corners=[(0, 0), (leg, 0), (0, leg)], grain=45, **about)


def half_square(finished_leg, **about):
    """A triangle cut from a square on one diagonal, right angle at the lower left: grain along its legs."""
    leg = finished_leg + CORNER_TRIANGLE
    return patch(corners=[(0, 0), (leg, 0), (0, leg)], **about)


def grid(columns, rows):
    """Squares sewn in rows, then the rows sewn together from the bottom up; cut sizes."""
    return in_a_row([in_a_row([patch(size=(w, h)) for w in columns]) for h in rows], "top", "bottom")


def cloth(panel):
    """The patches as Shapely polygons, in a settled order."""
    return sorted(
        (Polygon(p.polygon) for p in panel.patches),
        key=lambda p: (round(p.centroid.y, 6), round(p.centroid.x, 6)),
    )


def same_cloth(one, two):
    assert len(one.corners) == len(two.corners)
    assert all(shapely.hausdorff_distance(a, b) < EXACT for a, b in zip(cloth(one), cloth(two)))
    assert one.area == exactly(two.area) and one.size == exactly(two.size)
    assert [tuple(np.round(j, 6).ravel()) for j in map(flat, one.junctions())] == [
        tuple(np.round(j, 6).ravel()) for j in map(flat, two.junctions())
    ]
    assert sorted(one.lost_by) == exactly(sorted(two.lost_by))
    assert sum(e.length for e in one.raw_edges()) == exactly(sum(e.length for e in two.raw_edges()))


def flat(junction):
    return [*junction.point, junction.depth, junction.lost_by]


class TestSeams:
    @given(rectangles(), rectangles(), eighths(0, 3))
    def test_a_seam_takes_two_strips(self, one, two, seam):
        two = [(x, y * one[2][1] / two[2][1]) for x, y in two]
        row = patch(corners=one).sew(patch(corners=two), seam=seam)
        height = one[2][1]
        assert row.area == exactly(height * (one[2][0] + two[2][0] - 2 * seam))
        assert row.size == exactly((one[2][0] + two[2][0] - 2 * seam, height))

    @given(convex_shapes(), convex_shapes(), st.data())
    def test_what_is_gone_is_the_cloth_in_the_seam_strips(self, one, two, data):
        a, b = patch(corners=one), patch(corners=two)
        ways = [
            data.draw(
                st.sampled_from(
                    [np.degrees(np.arctan2(e.start[0] - e.end[0], e.end[1] - e.start[1])) for e in panel.raw_edges()]
                )
            )
            for panel in (a, b)
        ]
        gone = sum(
            Polygon(panel.corners[0]).intersection(strip(panel.edge(way))).area for panel, way in zip((a, b), ways)
        )
        both = a.sew(b, *map(float, ways))
        assert both.area == exactly(a.area + b.area - gone)
        assert shapely.union_all(cloth(both), grid_size=1e-9).area == pytest.approx(both.area, abs=1e-6), (
            "nothing overlaps"
        )

    def test_the_first_panel_stays_and_the_other_turns_to_meet_it(self):
        row = patch(size=(2, 3), fabric="one").sew(patch(size=(3, 1), fabric="two"), "right", "top")
        assert row.size == (1.75 + 0.75, 3.0)
        assert [p.grain for p in row.patches] == [90.0, 0.0]

    @pytest.mark.parametrize("align, low", [("start", 0.0), ("centre", 0.5), ("end", 1.0)])
    def test_aligned_finished_corners(self, align, low):
        row = patch(size=(2, 3)).sew(patch(size=(2, 2)), align=align)
        assert row.patches[1].polygon[:, 1].min() == exactly(low)
        assert row.sewn_seams()[0].difference == exactly(1.0)

    @pytest.mark.parametrize("inches, height", [(0, 3), (0.5, 3), (1.5, 3.5), (-0.5, 3.5)])
    def test_aligned_by_inches_from_the_start(self, inches, height):
        row = patch(size=(2, 3)).sew(patch(size=(2, 2)), align=inches)
        assert row.size[1] == exactly(height)
        assert row.patches[1].polygon[:, 1].min() - row.patches[0].polygon[:, 1].min() == exactly(inches)

    def test_nested_seams(self):
        top = in_a_row([patch(size=(2, 2))] * 3)
        below = in_a_row([patch(size=(1, 2)), patch(size=(3, 2)), patch(size=(2, 2))])
        nested = top.sew(below, "bottom", "top", align=(1, 1))
        assert min(j.point[0] for j in nested.junctions()) == exactly(0.75 + 0.0)
        assert len(nested.junctions()) == 3, "two seams that meet are one meeting, the others two"

    def test_the_difference_of_two_edges_is_told_and_what_overhangs_is_raw(self):
        row = patch(size=(2, 3)).sew(patch(size=(2, 2.5)))
        assert [seam.difference for seam in row.sewn_seams()] == [0.5]
        assert sum(edge.length for edge in row.raw_edges()) == exactly(2 * 3.5 + 2 * 3)
        with pytest.raises(ValueError, match="inner corners can be bound: trim the panel first"):
            row.bind()
        assert row.trim(top=2.5).bind().size == exactly((3.0, 2.0))

    def test_no_seam_at_all_lays_finished_shapes_edge_to_edge(self):
        picture = in_a_row([in_a_row([patch(size=(3, 3))] * 2, seam=0)] * 2, "top", "bottom", seam=0)
        assert picture.size == (6.0, 6.0) and picture.area == 36.0
        assert [j.lost_by for j in picture.junctions(seam=0)] == [0.0]
        assert picture.bind(seam=0).area == 36.0

    def test_text_and_exact_numbers_are_lengths(self):
        leg = 3 + sympy.Rational(1, 2) + sympy.sqrt(2) / 4
        made = patch(size=("3 1/2", leg)).sew(
            patch(corners=[(0, 0), ("3 1/2", 0), ("3 1/2", leg), (0, leg)]), seam="1/4"
        )
        assert made.size == exactly((6.5, float(leg)))
        assert made.trim(left="1/2", top=sympy.Integer(3)).size == exactly((6.0, 3.0))
        assert [part.size[0] for part in made.cut(("1/2", 0), ("1/2", 1))] == exactly([0.5, 6.0])
        assert made.junctions("3/8") == [] and made.edge("top", "1/4").finished_length == exactly(6.0)


def strip(edge, wide=SEAM):
    """The seam allowance beyond an edge's seam line, and everything past it, as a large Shapely box."""
    n, t = np.array(edge.normal), np.array((-edge.normal[1], edge.normal[0]))
    foot = n * (edge.limit - wide)
    return Polygon([foot - 99 * t, foot - 99 * t + 99 * n, foot + 99 * t + 99 * n, foot + 99 * t])


class TestOrderOfSewing:
    @given(rows_of_squares())
    @settings(max_examples=40)
    def test_by_rows_or_by_columns(self, sizes):
        columns, rows = sizes
        by_rows = grid(columns, rows)
        by_columns = in_a_row([in_a_row([patch(size=(w, h)) for h in rows], "top", "bottom") for w in columns])
        same_cloth(by_rows, by_columns)
        assert by_rows.size == exactly((sum(columns) - 0.5 * (len(columns) - 1), sum(rows) - 0.5 * (len(rows) - 1)))
        assert len(by_rows.meets) == (len(columns) - 1) * (len(rows) - 1)

    @given(st.lists(rectangles(8, 24), min_size=1, max_size=7))
    @settings(max_examples=40)
    def test_two_by_two_or_one_by_one(self, shapes):
        panels = [patch(corners=[(x, y * 2 / shape[2][1]) for x, y in shape]) for shape in shapes]
        row = panels[0]
        for panel in panels[1:]:
            row = row.sew(panel)
        same_cloth(in_a_row(panels), row)
        back = panels[-1]
        for panel in panels[-2::-1]:
            back = back.sew(panel, "left", "right")
        same_cloth(back, row)

    def test_rows_in_any_order(self):
        rows = [in_a_row([square(1 + i % 2), square(2), square(1 + i % 2)]) for i in range(3)]
        first = in_a_row(rows, "top", "bottom")
        same_cloth(rows[1].sew(rows[0], "bottom", "top").sew(rows[2], "top", "bottom"), first)
        same_cloth(rows[2].sew(rows[1].sew(rows[0], "bottom", "top"), "bottom", "top"), first)

    def test_what_repeats_is_sewn_once(self):
        block, sewn = square(3), {}
        assert in_a_row([block] * 8, sewn=sewn) is in_a_row([block] * 8, sewn=sewn) and len(sewn) == 3

    def test_a_row_by_seams_or_points_given_as_lists(self):
        pair = in_a_row([square(1), square(1)])
        assert in_a_row([pair] * 2, [(0, 1.5), (1, 1.5)], [(0, 0), (1, 0)], align=[0, 0]).size == exactly((2.5, 2.5))


class TestTurning:
    @given(rows_of_squares(3), st.floats(-400, 400))
    @settings(max_examples=40)
    def test_nothing_changes_but_angles(self, sizes, angle):
        panel = grid(*sizes)
        other = panel.turn(angle)
        assert other.area == exactly(panel.area) and other.depths() == exactly(panel.depths())
        assert [e.grain for e in other.raw_edges()] == [e.grain for e in panel.raw_edges()] == ["straight"] * 4
        assert sorted(e.length for e in other.raw_edges()) == exactly(sorted(e.length for e in panel.raw_edges()))
        assert min(other.box[0]) == 0.0

    def test_a_quarter_turn_is_exact_and_eight_eighths_are_none(self):
        panel = grid([2, 3], [1, 2])
        assert panel.turn(90).size == panel.size[::-1]
        back = panel
        for _ in range(8):
            back = back.turn(45)
        assert np.allclose(back.corners, panel.corners, rtol=0, atol=1e-12)

    def test_cloth_has_a_right_side(self):
        with pytest.raises(
            ValueError, match="can be turned but never mirrored: cut the mirror image as a part of its own"
        ):
            square(3).mirror()

    def test_hundreds_of_moves_leave_edges_straight_and_points_whole(self):
        rng = np.random.default_rng(5)
        column = in_a_row([square(3)] * 4, "top", "bottom")
        top = column
        for _ in range(60):
            top = top.turn(rng.uniform(0, 360))
            wide = max(top.raw_edges(), key=lambda e: e.end[0] + e.end[1] if abs(e.length - 12.5) < 1e-6 else -1)
            other = column.turn(rng.uniform(0, 360))
            narrow = max((e for e in other.raw_edges() if e.length > 12), key=lambda e: e.start[0])
            top = top.sew(other, (wide.start, wide.end), (narrow.start, narrow.end))
        assert len(top.raw_edges()) == 4 and len(top.junctions()) == 60 * 3
        assert len(top.lost) == 0 and all(j.lost_by == 0 for j in top.junctions())
        assert sorted(e.length for e in top.raw_edges()) == exactly([12.5, 12.5, 183.5, 183.5])
        assert top.bind().area == pytest.approx(12 * 183, abs=1e-7)


class TestCutting:
    @given(
        rows_of_squares(3),
        st.tuples(eighths(0, 40), eighths(0, 40)),
        st.tuples(eighths(0, 40), eighths(0, 40)),
    )
    @settings(max_examples=60)
    def test_areas_add_up_and_the_cut_is_raw(self, sizes, start, end):
        panel = grid(*sizes)
        try:
            left, right = panel.cut(start, end)
        except ValueError:
            assume(False)
        assert left.area + right.area == exactly(panel.area)
        ring = panel.raw_edges()
        on_cut = sum(e.length for part in (left, right) for e in part.raw_edges()) - sum(e.length for e in ring)
        chord = Polygon([e.start for e in ring]).intersection(
            shapely.LineString(
                [
                    np.array(start) - 99 * np.subtract(end, start),
                    np.array(start) + 99 * np.subtract(end, start),
                ]
            )
        )
        assert on_cut == exactly(2 * chord.length)
        whole = Polygon([e.start for e in ring])
        for part in (left, right):
            outline = shapely.union_all([whole, *cloth(part)], grid_size=1e-9)
            assert outline.area == pytest.approx(whole.area, abs=1e-6), "both halves keep their place on the table"

    def test_halves_sewn_together_again_are_two_seams_smaller(self):
        left, right = square(6).cut((2, 0), (2, 1))
        assert left.sew(right).size == exactly((6.0, 6.5))

    def test_a_cut_along_a_seam_leaves_no_meeting_on_it(self):
        panel = grid([2, 2, 2], [2, 2])
        left, right = panel.cut((1.75, 0), (1.75, 1))
        assert len(left.meets) == 0 and len(right.meets) == 1
        assert [len(part.raw_edges()) for part in (left, right)] == [4, 4]

    def test_a_block_cut_corner_to_corner_has_its_meetings_on_the_raw_edge(self):
        block = grid([3.5] * 4, [3.5] * 4)
        assert block.size == (12.5, 12.5)
        for half in block.cut((0, 0), (12.5, 12.5)):
            on_edge = [j for j in half.junctions() if j.lost_by]
            assert len(on_edge) == 3
            assert all(j.depth == exactly(0) and j.lost_by == exactly(SEAM) for j in on_edge)
            assert [e.grain for e in half.raw_edges()].count("bias") == 1
            sewn = half.sew(patch(size=(20, 3)), "long", "top")
            assert sewn.lost_by == exactly([SEAM] * 3)

    @pytest.mark.parametrize("past, kept", [(0.25, 0.0), (0.125, 0.125)])
    def test_cut_past_the_diagonal_one_half_keeps_its_points_and_the_other_loses_more(self, past, kept):
        block, off = grid([3.5] * 4, [3.5] * 4), past * sqrt(2)
        other, half = block.cut((0, off), (12.5, 12.5 + off))
        assert [j.lost_by for j in half.junctions() if j.point[0] == exactly(j.point[1])] == exactly([kept] * 3)
        assert len(other.junctions()) == 3, "the three on the diagonal are gone with the other half"
        assert other.lost_by == exactly([SEAM + past] * 3) and len(half.lost) == 0
        on_the_cut = np.array([(at - past / sqrt(2), at + past / sqrt(2)) for at in (3.25, 6.25, 9.25)])
        assert np.sort(other.lost, axis=0) == exactly(on_the_cut), "each where it comes nearest to its half"

    def test_meetings_more_than_a_seam_past_the_cut_are_nobodys_loss(self):
        block, off = grid([3.5] * 4, [3.5] * 4), 0.26 * sqrt(2)
        assert [len(part.lost) for part in block.cut((0, off), (12.5, 12.5 + off))] == [0, 0]
        assert [len(part.lost) for part in block.cut((0, off), (12.5, 12.5 + off), seam="3/8")] == [3, 0]

    @pytest.mark.parametrize("past", [0, 0.125, 0.25])
    def test_halves_sewn_together_again_have_lost_each_point_once(self, past):
        block, off = grid([3.5] * 4, [3.5] * 4), past * sqrt(2)
        upper, lower = (half.turn(-45) for half in block.cut((0, off), (12.5, 12.5 + off)))
        again = upper.sew(lower, "bottom", "top", align="centre")
        assert again.lost_by == exactly([SEAM + past] * 3), "by what the half that lost more has lost"
        still = [np.hypot(*(again.meets - point).T).min() < EXACT for point in again.lost]
        assert still == [past == SEAM] * 3, "one seam past them, the half that kept them shows them still"

    def test_a_point_lost_on_both_sides_of_a_seam_but_not_at_one_place_is_lost_twice(self):
        upper, lower = (half.turn(-45) for half in grid([3.5] * 4, [3.5] * 4).cut((0, 0), (12.5, 12.5)))
        assert upper.sew(lower, "bottom", "top", align=0.125).lost_by == exactly([SEAM] * 6)


class TestTrimming:
    @given(rows_of_squares(3), st.tuples(eighths(0, 10), eighths(0, 10)))
    @settings(max_examples=60)
    def test_twice_is_as_good_as_once(self, sizes, off):
        panel = grid(*sizes)
        one, two = sorted(off)
        assume(two < panel.size[0])
        once, twice = panel.trim(left=two), panel.trim(left=one).trim(left=two)
        assert twice.area == exactly(once.area) and len(twice.meets) == len(once.meets)
        if two - one < SEAM:
            assert set(np.round(once.lost_by, 9)) <= set(np.round(twice.lost_by, 9)) and (
                len(once.lost) == len(twice.lost) or two >= SEAM
            )

    @pytest.mark.parametrize(
        "off, lost_by",
        [
            (1.7, None),
            (1.75, 0.25),
            (1.75 + 1e-10, 0.25),
            (1.85, 0.35),
            (1.99, 0.49),
            (2.0, 0.5),
            (2.01, None),
            (3, None),
        ],
    )
    def test_points_cut_off_by_no_more_than_a_seam_are_remembered(self, off, lost_by):
        trimmed = grid([2, 4], [2, 2]).trim(left=off)
        assert trimmed.lost_by == exactly([] if lost_by is None else [lost_by])
        assert len(trimmed.meets) == (1 if off < 1.75 else 0)

    def test_lost_points_are_carried_through_all_that_follows(self):
        trimmed = grid([2, 4], [2, 2]).trim(left=1.85)
        lost = exactly([0.35])
        assert trimmed.turn(30).lost_by == lost
        assert trimmed.sew(square(3), "left", "right").lost_by == lost, "the next seam runs there, and they stay lost"
        assert trimmed.sew(square(3), "left", "right").bind().lost_by == lost
        assert trimmed.bind().lost_by == lost
        assert trimmed.trim(left=1.9).lost_by == exactly([0.4])
        assert trimmed.trim(left=2.2).lost_by == exactly([])
        assert trimmed.cut((2.5, 0), (2.5, 1))[0].lost_by == lost
        assert trimmed.cut((2.5, 0), (2.5, 1))[1].lost_by == exactly([])

    def test_a_point_lost_in_one_seam_is_not_forgotten_in_the_next(self):
        corner = grid([2, 4], [2, 4]).trim(left=1.6, bottom=1.6)
        assert [j.lost_by for j in corner.junctions()] == exactly([0.1])
        sewn = corner.laid_down().sew(square(3), "left", "right", align="end")
        assert sewn.lost_by == exactly([0.1])
        assert sewn.sew(patch(size=(9, 2)), "bottom", "top").lost_by == exactly([0.1])


class TestBinding:
    @given(rows_of_squares(3), eighths(1, 3))
    @settings(max_examples=40)
    def test_no_raw_edge_and_two_seams_smaller(self, sizes, seam):
        panel = grid(*sizes)
        bound = panel.bind(seam)
        assert bound.size == exactly(tuple(side - 2 * seam for side in panel.size)) and len(bound.raw) == 0
        assert bound.raw_edges() == [] and all(j.depth == np.inf and j.lost_by == 0 for j in bound.junctions())

    @given(convex_shapes(), eighths(1, 2))
    @settings(max_examples=60)
    def test_any_convex_patch(self, corners, seam):
        wanted = Polygon(corners).buffer(-seam)
        assume(wanted.area > 0.1)
        bound = patch(corners=corners).bind(seam)
        assert bound.area == exactly(wanted.area)

    def test_points_one_seam_deep_stay_on_the_binding_line(self):
        half, _ = grid([2, 2, 2], [2, 2, 2]).cut((0.25 * sqrt(2), 0), (5 + 0.25 * sqrt(2), 5))
        assert [j.depth for j in half.junctions()][:2] == exactly([SEAM] * 2)
        assert len(half.bind().meets) == 3 and len(half.bind().lost) == 0

    def test_bound_twice_is_bound(self):
        bound = square(4).bind()
        assert bound.bind().size == bound.size == (4.0, 4.0)


class TestEars:
    """Common practice, no source: a side triangle sewn to a square leaves a dog ear of 0.414 seam past the
    square."""

    def test_the_ear_stands_out_as_far_as_geometry_says(self):
        row = square(3).sew(quarter_square(3), "right", "left")
        assert row.size[0] == exactly(3.25 + quarter_square(3).size[0] - SEAM)
        top = max(p.polygon[:, 1].max() for p in row.patches)
        assert top - 3.5 == exactly((sqrt(2) - 1) * SEAM)

    def test_an_ear_does_not_disturb_the_next_seam(self):
        rows = on_point_rows()
        one, two = rows[0], rows[1]
        assert one.edge("top").finished_length == exactly(two.edge("bottom").finished_length)
        nested = one.sew(two, "top", "bottom")
        assert [s.difference for s in nested.sewn_seams()] == exactly([0.0] * len(nested.seams))
        inner = [j for j in nested.junctions() if j.depth > 1]
        assert len(nested.junctions()) == len({tuple(np.round(j.point, 9)) for j in nested.junctions()})
        assert all(j.lost_by == 0 for j in nested.junctions()) and len(inner) >= 1

    def test_a_quilt_on_point_from_exact_triangles_measures_its_diagonals(self):
        quilt = in_a_row(on_point_rows(), "top", "bottom")
        for way in ("left", "right", "top", "bottom"):
            quilt = quilt.sew(corner_triangle(), way, "long", align="centre")
        quilt = quilt.turn(45)
        low, high = quilt.meets.min(axis=0), quilt.meets.max(axis=0)
        quilt = quilt.trim(left=low[0] - SEAM, right=high[0] + SEAM, bottom=low[1] - SEAM, top=high[1] + SEAM)
        assert quilt.size == exactly((6 * sqrt(2) + 0.5, 6 * sqrt(2) + 0.5))
        assert {edge.grain for edge in quilt.raw_edges()} == {"straight"} and len(quilt.raw_edges()) == 4
        assert len(quilt.lost) == 0 and all(j.lost_by == 0 for j in quilt.junctions())
        assert quilt.bind().size == exactly((6 * sqrt(2), 6 * sqrt(2)))


def on_point_rows():
    """The diagonal rows of 2 x 2 blocks of 3 in on point: three rows of 1, 3 and 1 squares and their side
    triangles."""
    side = {turn: quarter_square(3).turn(turn) for turn in (0, 90, 180, 270)}
    one = side[180].sew(square(3), align="end").sew(side[270], align="end")
    middle = in_a_row([square(3)] * 3)
    last = side[90].sew(square(3)).sew(side[0])
    return [one, middle, last]


def corner_triangle():
    leg = 3 / sqrt(2) + CORNER_TRIANGLE
    return patch(corners=[(0, 0), (leg, 0), (0, leg)])


class TestBuiltTriangle:
    """Rows of 3, 2, 1 and 0 squares, an edge triangle at the end of each, nested at the right-angle side."""

    @staticmethod
    def built(triangle):
        rows = [in_a_row([square(3)] * count + [triangle]) for count in (3, 2, 1, 0)]
        return in_a_row(rows, "top", "bottom")

    def test_from_quarter_squares_no_point_is_lost_and_the_long_edge_is_straight(self):
        built = self.built(quarter_square(3))
        along = [j for j in built.junctions() if j.depth < 1]
        outer = [j for j in along if j.depth == exactly(SEAM)]
        assert len(built.lost) == 0 and all(j.lost_by == 0 for j in built.junctions())
        assert len(outer) == len(along) >= 3
        long = max(built.raw_edges(), key=lambda edge: edge.length)
        assert long.grain == "straight" and long.length == exactly(12 * sqrt(2) + SIDE_TRIANGLE)
        assert [edge.grain for edge in built.raw_edges()] == [
            "straight",
            "bias",
            "straight",
            "bias",
            "straight",
        ], "the legs of a quarter-square triangle, one at either end, are bias"
        assert built.edge("long").finished_length == exactly(12 * sqrt(2))
        assert built.edge("left").finished_length == built.edge("bottom").finished_length == exactly(12)

    def test_from_half_squares_the_long_edge_is_bias(self):
        built = self.built(half_square(3))
        long = max(built.raw_edges(), key=lambda edge: edge.length)
        assert long.grain == "bias" and long.length == exactly(12 * sqrt(2) + SIDE_TRIANGLE)
        assert all(j.lost_by == 0 for j in built.junctions())

    def test_its_parts_are_where_they_belong(self):
        built = self.built(quarter_square(3))
        assert len(built.corners) == 6 + 4 and len(built.meets) == 3 + 2 + 1


class TestSlicedTop:
    """A straight 1 : 2 top cut from its lower corners to the middle of its top, put together again on
    point."""

    @staticmethod
    def on_point():
        top = grid([3.5] * 8, [3.5] * 4)
        rest, right = top.cut((24.25, 0.25), (12.25, 12.25))
        left, middle = rest.cut((0.25, 0.25), (12.25, 12.25))
        return middle.sew(right.sew(left), "bottom", "top", align="centre").turn(45)

    def test_it_is_a_square_with_bias_all_round(self):
        quilt = self.on_point()
        edges = quilt.raw_edges()
        assert [edge.grain for edge in edges] == ["bias"] * 4
        assert [edge.length for edge in edges] == exactly([12 * sqrt(2)] * 4)
        assert [seam.difference for seam in quilt.sewn_seams() if seam.difference] == []

    def test_it_is_smaller_than_the_finished_plan(self):
        assert self.on_point().bind().size == exactly((12 * sqrt(2) - 0.5,) * 2)

    def test_points_are_lost_on_every_side(self):
        quilt = self.on_point()
        side = quilt.size[0]
        lost = [j for j in quilt.junctions() if j.lost_by]
        assert [j.lost_by for j in lost] == exactly([SEAM] * 12)
        for at in ((0, 0.0), (0, side), (1, 0.0), (1, side)):
            assert sum(j.point[at[0]] == exactly(at[1]) for j in lost) == 3
        assert len(quilt.bind().lost) == 12


class TestReading:
    def test_what_is_read_off_a_panel_is_the_reader_s_own(self):
        panel = grid([2, 2], [3, 3])
        edges, depths = panel.raw_edges(), panel.depths()
        panel.raw_edges().clear()
        panel.depths()[:] = -1
        assert (
            panel.raw_edges() == edges
            and panel.depths().tolist() == depths.tolist()
            and len(edges) == 4
            and len(depths)
        )

    def test_raw_edges_walk_from_the_lowest_corner_with_cloth_on_the_left(self):
        half, other = square(4).cut((0, 0), (4.5, 4.5))
        assert [e.grain for e in half.raw_edges()] == ["bias", "straight", "straight"]
        assert [e.grain for e in other.raw_edges()] == ["straight", "straight", "bias"]
        assert [e.start for e in grid([2, 2], [3]).raw_edges()] == [(0, 0), (3.5, 0), (3.5, 3), (0, 3)]

    @given(st.integers(1, 2000), st.integers(1, 40))
    @settings(max_examples=60)
    def test_places_that_lie_between_two_decimals_join(self, step, count):
        wide = 1 + step / 128 + 1 / 1024
        row = in_a_row([patch(size=(wide, 2))] * count).turn(30).turn(-30)
        assert [e.length for e in row.raw_edges()] == pytest.approx(
            [count * (wide - 0.5) + 0.5, 2, count * (wide - 0.5) + 0.5, 2], abs=1e-8
        )

    def test_edges_in_one_line_but_of_another_grain_stay_apart(self):
        row = square(3, grain=0).sew(square(3, grain=45)).sew(square(3, grain=90))
        assert [e.grain for e in row.raw_edges()][:3] == ["straight", "bias", "straight"]
        assert [e.off_grain for e in patch(size=(2, 2), grain=30).raw_edges()] == [30.0] * 4

    def test_patches_drop_the_corners_that_only_fill_up(self):
        mixed = patch(corners=[(0, 0), (3, 0), (4, 2), (3, 4), (0, 4)]).sew(
            patch(corners=[(0, 0), (2, 0), (0, 4)]), "left", "left"
        )
        assert sorted(len(p.polygon) for p in mixed.patches) == [3, 5]
        snipped = mixed.trim(bottom=0.5, top=3.5)
        assert sorted(len(p.polygon) for p in snipped.patches) == [4, 5]
        assert all(Polygon(p.polygon).is_valid for p in snipped.patches)

    def test_patches_tell_what_they_were_cut_as(self):
        row = square(3, fabric="navy", part="A").sew(square(3, fabric="gold", part="B"))
        assert [(p.fabric, p.part, p.grain) for p in row.patches] == [
            ("navy", "A", 90.0),
            ("gold", "B", 90.0),
        ]
        assert (row.count("A"), row.count("C")) == (1, 0)

    @given(rows_of_squares(3), st.integers(0, 90))
    @settings(max_examples=40)
    def test_depth_is_the_distance_from_shapelys_boundary(self, sizes, angle):
        panel = grid(*sizes).turn(angle)
        outline = MultiPolygon(cloth(panel)).buffer(1e-9, join_style="mitre").boundary
        for junction in panel.junctions():
            assert junction.depth == pytest.approx(outline.distance(Point(junction.point)), abs=1e-8)
            assert junction.lost_by == (SEAM - junction.depth if junction.depth < SEAM - NEAR else 0)

    def test_meetings_come_least_deep_first_then_from_below(self):
        depths = [(round(j.depth, 6), round(j.point[1], 6)) for j in grid([2] * 4, [2] * 4).turn(12).junctions()]
        assert depths == sorted(depths)

    def test_panels_never_change(self):
        panel = grid([2, 3], [2, 3])
        before = [getattr(panel, name).copy() for name in ("corners", "raw", "meets", "seams", "lost")]
        panel.sew(panel).turn(30), panel.trim(left=1), panel.cut((0, 0), (1, 1)), panel.bind()
        assert all(
            np.array_equal(getattr(panel, name), b)
            for name, b in zip(("corners", "raw", "meets", "seams", "lost"), before)
        )


class TestEdges:
    def test_long_is_the_longest_line_not_the_longest_piece(self):
        built = TestBuiltTriangle.built(quarter_square(3))
        assert built.edge("long").normal == exactly((sqrt(0.5), sqrt(0.5)))
        pieced = in_a_row([square(2)] * 3).sew(patch(size=(6.5, 7)), "top", "bottom")
        assert pieced.edge("left").finished_length == exactly(8.5)
        roof = in_a_row([square(2)] * 6).sew(patch(corners=[(0, 0), (12.5, 0), (4, 8)]), "top", "bottom")
        assert roof.edge("long").normal == exactly((0.0, -1.0))

    def test_an_edge_given_by_two_points_is_that_edge(self):
        steps = patch(size=(2, 6)).sew(patch(size=(4, 5.8)))
        assert steps.edge("top").limit == exactly(5.8)
        assert steps.edge([(0, 6), (1, 6)]).limit == exactly(6)
        joined = patch(size=(8, 1)).sew(steps, "top", ((0, 6), (1, 6)))
        assert joined.size == exactly((8, 0.75 + 5.75))

    def test_of_two_lines_facing_one_way_the_one_past_which_no_cloth_stands(self):
        step = patch(size=(2, 8)).sew(patch(size=(2, 3)))
        assert step.edge("right").limit == exactly(3.5)
        with pytest.raises(
            ValueError,
            match=r"fabric of this panel stands 1.75 in past its edge through \(1.75, 4.0\) and \(1.75, 7.0\)",
        ):
            step.edge(((1.75, 4.0), (1.75, 7.0)))

    @pytest.mark.parametrize("short", [0.1, 0.2])
    def test_steps_smaller_than_a_seam_are_sewn_over(self, short):
        row = patch(size=(3, 3)).sew(patch(size=(2, 3 - short)))
        sewn = row.sew(patch(size=(9, 2)), "top", "bottom")
        assert row.edge("top").limit == exactly(3) and sewn.area == exactly(2.75**2 + 1.75 * 2.75 + 9 * 1.75)

    def test_a_part_cut_short_by_more_than_a_seam_leaves_a_hole(self):
        row = in_a_row([patch(size=(2, 3)), patch(size=(2, 2.7)), patch(size=(2, 3))])
        with pytest.raises(ValueError, match="on the top edge some fabric is cut short by more than the 0.25 in seam"):
            row.sew(patch(size=(9, 2)), "top", "bottom")

    def test_a_named_edge_may_face_up_to_thirty_degrees_off(self):
        triangle = patch(corners=[(0, 0), (4, 0), (2, 2 * sqrt(3))])
        assert triangle.edge("right").normal == exactly((sqrt(3) / 2, 0.5))
        assert triangle.edge(30).limit == triangle.edge("upper right").limit

    @pytest.mark.parametrize("angle", [3, 10, 30, 60, 80])
    def test_finished_corners_of_a_slanted_end(self, angle):
        slope = np.tan(np.radians(angle))
        wedge = patch(corners=[(0, 0), (40, 0), (40, 40 * slope)])
        edge = wedge.edge("bottom")
        assert edge.start == exactly(SEAM / slope + SEAM / np.sin(np.radians(angle))) and edge.end == exactly(39.75)

    def test_breaks_are_where_seams_run_in(self):
        row = in_a_row([patch(size=(finished + 0.5, 3)) for finished in (2, 3, 1)])
        assert row.edge("top").breaks.tolist() == exactly([2.25, 5.25])
        assert row.turn(90).edge("left").breaks.tolist() == exactly([2.25, 5.25])
        assert row.turn(180).edge("top").breaks.tolist() == exactly([1.25, 4.25])


class TestRefused:
    @pytest.mark.parametrize(
        "make, said",
        [
            (lambda: patch(), "a patch needs its cut size, or its corners: give one of the two"),
            (lambda: patch(size=(1, 1), corners=[]), "give one of the two"),
            (lambda: patch(size=3), 'a size is a pair of lengths; got 3: write for example (4, "3 1/2")'),
            (lambda: patch(size=(0, 3)), "the width of a patch must be more than 0 in; got 0 in"),
            (lambda: patch(size=(3, -1.0)), "the height of a patch must be more than 0 in; got -1 in"),
            (lambda: patch(size=("three", 3)), "a length is a whole number, a fraction or a decimal"),
            (lambda: patch(size=(float("nan"), 3)), "the width of a patch: a length is a whole number"),
            (lambda: patch(size=(float("inf"), 3)), "got inf"),
            (lambda: patch(size=(1e300, 3)), "a length is at most 1,000,000 in; got 1e+300"),
            (
                lambda: patch(corners=[(0, 0), (1, 0)]),
                "a patch needs at least three corners; got [[0.0, 0.0], [1.0, 0.0]]",
            ),
            (lambda: patch(corners=[(0, 0), (1, 0), (2, 0)]), "no three in a row in one line"),
            (lambda: patch(corners=[(0, 0), (2, 0), (2, 2), (2, 2)]), "the corners of a patch lie apart"),
            (lambda: patch(corners=[(0, 0), (2, 0), (float("nan"), 2)]), "a corner of a patch: a length is"),
            (lambda: patch(corners=[(0, 0), (2, 0), 3]), "a corner of a patch is a pair of lengths; got 3"),
            (
                lambda: patch(corners=[(0, 0), (4, 0), (1, 1), (0, 4)]),
                "these 4 corners bend inward: make it of several patches",
            ),
            (
                lambda: patch(corners=[(np.cos(4 * k * np.pi / 5), np.sin(4 * k * np.pi / 5)) for k in range(5)]),
                "convex",
            ),
            (
                lambda: patch(size=(1, 1), grain=float("nan")),
                "the grain is a number of degrees, anticlockwise; got nan",
            ),
            (
                lambda: square(3).turn("a bit"),
                "an angle is a number of degrees, anticlockwise; got 'a bit': write for example 45",
            ),
            (lambda: square(3).turn(float("inf")), "an angle is a number of degrees, anticlockwise; got inf"),
            (
                lambda: square(3).sew("a square"),
                "a panel is sewn to a panel; got 'a square': make one with patch()",
            ),
            (lambda: square(3).sew(square(3), seam=-0.25), "a seam must be 0 or more in; got -1/4 in"),
            (lambda: square(3).sew(square(3), seam=float("inf")), "got inf"),
            (lambda: square(3).sew(square(3), seam=None), "a seam: a length is a whole number"),
            (
                lambda: square(3).sew(square(3), seam=4),
                ("a seam of 4 in on the right edge takes all the fabric of this panel of 3.5 x 3.5 in: cut it wider"),
            ),
            (
                lambda: square(3).sew(patch(size=(0.25, 3))),
                "a seam of 0.25 in on the left edge takes all the fabric",
            ),
            (
                lambda: square(3).sew(square(3), align="middle"),
                (
                    "edges are aligned at their start, end or centre, by inches from the "
                    "start, or by a pair of seams; got 'middle'"
                ),
            ),
            (
                lambda: square(3).sew(square(3), align=(0, 0)),
                (
                    "seams on an edge are counted from 0 at its start; asked for (0, 0), "
                    "and the edges have 0 and 0 seams"
                ),
            ),
            (lambda: square(3).sew(square(3), align=("first", 0)), "seams on an edge are counted from 0"),
            (
                lambda: square(3).edge("inside"),
                (
                    "an edge is named left, right, top, bottom, upper left, upper right, lower left, lower "
                    "right, long, or by an angle in degrees or two points on it; got 'inside'"
                ),
            ),
            (lambda: square(3).edge(True), "or by an angle in degrees or two points on it; got True"),
            (lambda: square(3).edge(None), "got None"),
            (lambda: square(3).edge([]), "got []"),
            (lambda: square(3).edge(float("nan")), "the way an edge faces is a number of degrees"),
            (
                lambda: square(3).edge("upper right"),
                "no edge of this panel faces upper right; its edges face 0, 90, 180, 270 degrees",
            ),
            (lambda: square(3).edge(((0, 1), (1, 2))), "no raw edge runs through (0.0, 1.0) and (1.0, 2.0)"),
            (
                lambda: square(3).edge(((0, 1), (0, 1))),
                "a line needs two different points; got (0.0, 1.0) and (0.0, 1.0)",
            ),
            (lambda: square(3).edge((1, 2)), "a point on an edge is a pair of lengths; got 1"),
            (
                lambda: square(3).edge("long"),
                "the edges of this panel that face 0, 90, 180, 270 degrees are the longest",
            ),
            (
                lambda: patch(corners=[(0, 0), (3, -4), (6, 0), (3, 4)]).turn(0).edge("top"),
                "its edges face 37, 143, 217, 323 degrees",
            ),
            (lambda: patch(corners=[(0, 0), (2, -4), (4, 0), (2, 4)]).edge("left"), "face left alike"),
            (
                lambda: square(3).bind().sew(square(3)),
                "bound fabric has no raw edge left: sew it before you bind it",
            ),
            (
                lambda: square(3).bind(2),
                "a seam of 2 in all round leaves nothing of this panel of 3.5 x 3.5 in: cut it larger",
            ),
            (
                lambda: square(3).cut((5, 0), (5, 1)),
                (
                    "a cut goes through the fabric; the line from (5.0, 0.0) to (5.0, 1.0) misses this panel "
                    "of 3.5 x 3.5 in, which lies from (0, 0) to (3.5, 3.5): give two points"
                ),
            ),
            (lambda: square(3).cut((0, 0), (0, 1)), "misses this panel"),
            (
                lambda: square(3).cut((0, 0), (0, 0)),
                "a cut runs from one point to another; got (0.0, 0.0) twice: give two different points",
            ),
            (lambda: square(3).cut((0, 0), ("here", 0)), "a point: a length is a whole number"),
            (lambda: square(3).cut(0, 1), "a point is a pair of lengths; got 0"),
            (
                lambda: square(3).trim(left=3.5),
                "trimming the left at 3.5 in leaves no fabric of this panel of 3.5 x 3.5 in",
            ),
            (lambda: square(3).trim(left=2, right=1), "trimming the right at 1 in leaves no fabric"),
            (lambda: square(3).trim(top=float("nan")), "top: a length is a whole number"),
            (lambda: square(3).junctions(-1), "a seam must be 0 or more in"),
            (lambda: in_a_row([]), "a row needs at least one panel"),
        ],
    )
    def test_in_words(self, make, said):
        with pytest.raises(ValueError) as problem:
            make()
        assert said in str(problem.value)

    def test_a_set_in_seam(self):
        corner = in_a_row([square(3), patch(size=(3.5, 9))])
        with pytest.raises(
            ValueError,
            match="fabric of this panel stands 5.5 in past .* a set-in seam cannot be simulated; "
            "join the parts in another order, or trim that edge straight first",
        ):
            corner.sew(square(3), ((0, 3.5), (1, 3.5)), "bottom")

    def test_edges_that_end_before_they_meet(self):
        with pytest.raises(
            ValueError,
            match="two edges sewn together lie side by side; aligned like this one ends 1 in before the other begins",
        ):
            square(3).sew(square(3), align=-4.5)
        with pytest.raises(ValueError, match="inches from the start: a length is"):
            square(3).sew(square(3), align=float("nan"))
