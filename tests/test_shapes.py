"""Shapes: sides moved out, clipping, grain and turning, against Shapely, SymPy's geometry and each other."""

from math import cos, degrees, isclose, radians, sin

import numpy as np
import pytest
import shapely
import sympy
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from shapely.affinity import rotate
from shapely.geometry import LineString, Polygon

from quiltmath import shapes
from quiltmath.shapes import (
    NEAR,
    area,
    clipped,
    grain_of,
    moved_out,
    named_grain,
    off_grain,
    ranked,
    right_triangle,
    shortened,
    square,
    turned,
    widened,
)
from tests.strategies import convex_shapes, eighths, half_planes

EXACT = 1e-9  # inches, square inches, degrees: what float arithmetic leaves on shapes of some twenty inches
FAR = 1000.0


def half_plane(normal, limit):
    """A very large Shapely box for normal . p <= limit."""
    n, t = np.array(normal), np.array((-normal[1], normal[0]))
    return Polygon(
        [
            n * limit + FAR * t,
            n * limit + FAR * t - FAR * n,
            n * limit - FAR * t - FAR * n,
            n * limit - FAR * t,
        ]
    )


def same_shape(corners, polygon):
    return shapely.hausdorff_distance(Polygon(corners), polygon) < EXACT


class TestMovedOut:
    @given(convex_shapes(), eighths(1, 8))
    def test_outward_is_shapelys_mitred_buffer(self, corners, seam):
        wanted = Polygon(corners).buffer(seam, join_style="mitre", mitre_limit=1e6)
        assert same_shape(moved_out(corners, seam), wanted)

    @given(convex_shapes(), eighths(1, 4))
    def test_inward_is_shapelys_mitred_buffer_while_every_side_is_left(self, corners, seam):
        wanted = Polygon(corners).buffer(-seam, join_style="mitre", mitre_limit=1e6)
        inward = moved_out(corners, -seam)
        sides = zip(corners, corners[1:] + corners[:1], inward, inward[1:] + inward[:1])
        assume(all((b[0] - a[0]) * (d[0] - c[0]) + (b[1] - a[1]) * (d[1] - c[1]) > 1e-3 for a, b, c, d in sides))
        assert same_shape(inward, wanted)

    @given(convex_shapes(), st.data())
    def test_each_side_by_its_own_seam(self, corners, data):
        seams = data.draw(st.lists(eighths(0, 6), min_size=len(corners), max_size=len(corners)))
        out = moved_out(corners, seams)
        cloth = Polygon([(-FAR / 2, -FAR / 2), (FAR / 2, -FAR / 2), (FAR / 2, FAR / 2), (-FAR / 2, FAR / 2)])
        for (x0, y0), (x1, y1), seam in zip(corners, corners[1:] + corners[:1], seams):
            normal = np.array((y1 - y0, x0 - x1)) / np.hypot(y1 - y0, x0 - x1)
            cloth = cloth.intersection(half_plane(normal, normal @ (x0, y0) + seam))
        assume(Polygon(out).is_valid and len(cloth.exterior.coords) == len(corners) + 1)
        assert same_shape(out, cloth)

    @given(convex_shapes(), eighths(1, 8), st.integers(0, 359))
    def test_turning_first_or_last_is_the_same(self, corners, seam, angle):
        first = moved_out([tuple(p) for p in turned(np.array(corners), angle).tolist()], seam)
        assert np.allclose(first, turned(np.array(moved_out(corners, seam)), angle), rtol=0, atol=EXACT)

    @given(convex_shapes(), eighths(1, 8), eighths(1, 8))
    def test_seams_add_up_and_can_be_taken_back(self, corners, one, two):
        assert np.allclose(moved_out(moved_out(corners, one), two), moved_out(corners, one + two), rtol=0, atol=EXACT)
        assert np.allclose(moved_out(moved_out(corners, one), -one), corners, rtol=0, atol=EXACT)

    @given(st.lists(st.tuples(st.integers(-9, 9), st.integers(-9, 9)), min_size=3, max_size=3), st.integers(1, 8))
    @settings(max_examples=3)
    def test_exact_numbers_agree_with_sympys_lines(self, corners, eighth):
        assume(area(corners) != 0)
        corners = [tuple(map(sympy.Integer, p)) for p in (corners if area(corners) > 0 else corners[::-1])]
        seam = sympy.Rational(eighth, 8)
        lines = []
        for (x0, y0), (x1, y1) in zip(corners, corners[1:] + corners[:1]):
            side = sympy.Line((x0, y0), (x1, y1))
            foot = sympy.Point(x0, y0) + sympy.Point(y1 - y0, x0 - x1) * seam / sympy.sqrt(
                (x1 - x0) ** 2 + (y1 - y0) ** 2
            )
            lines.append(side.parallel_line(foot))
        for got, one, two in zip(moved_out(corners, seam), [lines[-1], *lines], lines):
            wanted = one.intersection(two)[0]
            assert abs((got[0] - wanted.x).evalf(30)) < 1e-25 and abs((got[1] - wanted.y).evalf(30)) < 1e-25

    def test_symbols_give_the_constants_of_the_two_triangles(self):
        f, s = sympy.symbols("f s", positive=True)
        cut = moved_out(right_triangle(f, f), s)
        assert sympy.simplify(cut[1][0] - cut[0][0] - f - s * (2 + sympy.sqrt(2))) == 0
        long = moved_out([(0, 0), (f, 0), (f / 2, f / 2)], s)
        assert sympy.simplify(long[1][0] - long[0][0] - f - s * (2 + 2 * sympy.sqrt(2))) == 0

    @given(eighths(8, 80), eighths(1, 8))
    @settings(max_examples=20)
    def test_symbols_and_floats_agree(self, finished, seam):
        f, s = sympy.symbols("f s", positive=True)
        for shape in (square, lambda side: right_triangle(side, side)):
            exact = moved_out(shape(f), s)
            numbers = moved_out(shape(finished), seam)
            assert np.allclose(
                [[float(v.subs({f: finished, s: seam})) for v in p] for p in exact],
                numbers,
                rtol=0,
                atol=EXACT,
            )

    def test_a_concave_shape_keeps_its_inner_corner(self):
        corner = [(0.0, 0.0), (4.0, 0.0), (4.0, 4.0), (2.0, 4.0), (2.0, 2.0), (0.0, 2.0)]
        wanted = Polygon(corner).buffer(0.25, join_style="mitre", mitre_limit=1e6)
        assert same_shape(moved_out(corner, 0.25), wanted)

    @pytest.mark.parametrize(
        "corners, by, said",
        [
            (square(3), [0.25] * 3, "a shape of 4 sides needs 4 seams, one for each side; got 3"),
            (
                [(0, 0), (1, 0), (2, 0), (0, 2)],
                0.25,
                "two sides in one line leave corner 2 without a place: join them into one side first",
            ),
            (
                [(0, 0), (0.1, 0.1), (0.3, 0.3), (0, 1)],
                0.25,
                "two sides in one line leave corner 2 without a place",
            ),
            (
                [(0.0, 0.0), (0.0, 3.0), (3.0, 3.0), (3.0, 0.0)],
                0.25,
                ("corners run counter-clockwise, so that a seam goes outward; these run clockwise: reverse them"),
            ),
            ([(0, 0), (0, sympy.sqrt(2)), (1, 1)], 0.25, "these run clockwise"),
        ],
    )
    def test_refused(self, corners, by, said):
        with pytest.raises(ValueError) as problem:
            moved_out(corners, by)
        assert said in str(problem.value)


class TestClipped:
    @given(st.lists(convex_shapes(), min_size=1, max_size=6), half_planes())
    def test_is_shapelys_intersection(self, polygons, line):
        normal, limit = line
        cloth = padded(polygons)
        kept, which = clipped(cloth, normal, limit)
        wanted = [Polygon(corners).intersection(half_plane(normal, limit)) for corners in polygons]
        assert set(which) >= {i for i, part in enumerate(wanted) if part.area > 1e-5}
        for corners, number in zip(kept, which):
            assert same_shape(corners, wanted[number])
        left = sum(wanted[i].area for i in range(len(wanted)) if i not in which)
        assert left < 1e-4 and np.allclose(shapes.areas(kept), [wanted[i].area for i in which], rtol=0, atol=EXACT)

    @given(st.lists(convex_shapes(), min_size=1, max_size=4), st.lists(half_planes(), min_size=1, max_size=6))
    def test_many_cuts_leave_convex_polygons_without_doubled_corners(self, polygons, lines):
        cloth = padded(polygons)
        for normal, limit in lines:
            cloth, _ = clipped(cloth, normal, limit)
        for corners in cloth:
            different = (np.abs(np.diff(corners, axis=0)) > 0).any(axis=1)
            own = corners[: 1 + different.sum()]
            assert not different[len(own) - 1 :].any(), "only the last corner is repeated"
            assert len(own) >= 3 and Polygon(own).is_valid and Polygon(own).exterior.is_ccw
            ring = np.concatenate((own, own[:1]))
            assert np.hypot(*np.diff(ring, axis=0).T).min() > NEAR

    @given(convex_shapes(), half_planes())
    def test_both_sides_of_a_cut_add_up(self, corners, line):
        (a, b), limit = line
        cloth = np.array([corners])
        left, right = clipped(cloth, (a, b), limit)[0], clipped(cloth, (-a, -b), -limit)[0]
        assert isclose(shapes.areas(left).sum() + shapes.areas(right).sum(), area(corners), abs_tol=1e-4)
        if len(left) and len(right):
            again = clipped(left, (a, b), limit)[0]
            assert np.array_equal(again, left)
            assert isclose(shapes.areas(left).sum() + shapes.areas(right).sum(), area(corners), abs_tol=EXACT)

    def test_through_two_corners(self):
        kept, _ = clipped(np.array([square(2.0)]), (2**-0.5, -(2**-0.5)), 0.0)
        assert kept.tolist() == [[[0.0, 0.0], [2.0, 2.0], [0.0, 2.0], [0.0, 2.0]]]  # the last corner fills up

    def test_nothing_left(self):
        kept, which = clipped(np.array([square(2.0)]), (1.0, 0.0), 0.0)
        assert len(kept) == len(which) == 0

    @given(
        st.lists(
            st.tuples(eighths(-80, 80), eighths(-80, 80), eighths(-80, 80), eighths(-80, 80)),
            min_size=1,
            max_size=8,
        ),
        half_planes(),
    )
    def test_segments_are_shapelys_too(self, ends, line):
        normal, limit = line
        segments = np.array(ends).reshape(-1, 2, 2)
        segments = segments[np.abs(segments[:, 0] - segments[:, 1]).max(axis=1) > 0]
        kept, which = shortened(segments, normal, limit)
        for number, segment in enumerate(segments):
            wanted = LineString(segment).intersection(half_plane(normal, limit))
            if number in which:
                got = LineString(kept[list(which).index(number)])
                assert shapely.hausdorff_distance(got, wanted) < EXACT
                assert np.dot(np.subtract(*got.coords), np.subtract(*segment)) > 0, "it still runs the same way"
            else:
                assert (segment @ np.array(normal) > limit - NEAR).all()


def padded(polygons):
    """The polygons in one array, the last corner repeated."""
    room = max(map(len, polygons))
    return np.concatenate([widened(np.array([corners]), room) for corners in polygons])


class TestGrain:
    @given(st.floats(-720, 720), st.floats(-360, 360))
    def test_off_grain_is_the_angle_to_the_nearer_thread(self, way, grain):
        end = cos(radians(way)), sin(radians(way))
        threads = [abs(cos(radians(way - grain))), abs(sin(radians(way - grain)))]
        off = off_grain((0, 0), end, grain)
        assert isclose(off, degrees(np.arctan2(min(threads), max(threads))), abs_tol=1e-6)
        assert isclose(off_grain(end, (0, 0), grain), off, abs_tol=1e-6), "walking the other way changes nothing"
        assert isclose(off_grain((0, 0), end, grain + 90), off, abs_tol=1e-6), "both threads count alike"

    @pytest.mark.parametrize(
        "off, name",
        [
            (0, "straight"),
            (0.5, "straight"),
            (0.51, 0.51),
            (22.5, 22.5),
            (44.49, 44.49),
            (44.5, "bias"),
            (45, "bias"),
        ],
    )
    def test_names(self, off, name):
        assert named_grain(off) == name

    def test_grain_of_a_turned_patch(self):
        assert grain_of((0, 0), (1, 1), grain=45) == "straight"
        assert grain_of((0, 0), (0, 1), grain=45) == "bias"


class TestPlaces:
    @given(convex_shapes(), st.integers(-1440, 1440).map(lambda half: half / 2))
    def test_turned_is_shapelys_rotation(self, corners, angle):
        assert np.allclose(
            turned(np.array(corners), angle),
            rotate(Polygon(corners), angle, origin=(0, 0)).exterior.coords[:-1],
            rtol=0,
            atol=EXACT,
        )

    @given(st.integers(-8, 8))
    def test_quarter_turns_are_exact(self, quarters):
        x, y = shapes.direction(90 * quarters)
        assert (x, y) in [(1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0)] and isclose(
            x, round(cos(radians(90 * quarters)))
        )

    @given(st.lists(st.integers(-50, 50), min_size=1, max_size=30), st.randoms(use_true_random=False))
    def test_ranked_forgets_only_noise(self, numbers, random):
        noisy = np.array([n / 128 + random.uniform(-1e-10, 1e-10) for n in numbers])
        wanted = sorted(set(numbers))
        assert ranked(noisy).tolist() == [wanted.index(n) for n in numbers]

    @given(convex_shapes())
    def test_area_is_shapelys(self, corners):
        assert isclose(area(corners), Polygon(corners).area, abs_tol=EXACT)
        assert isclose(area(corners[::-1]), -Polygon(corners).area, abs_tol=EXACT)
        assert isclose(shapes.areas(np.array([corners]))[0], area(corners), abs_tol=EXACT)

    @pytest.mark.parametrize("start, end", [((0, 0), (0, 0)), ((0, 0), (float("nan"), 1)), ((0, 0), (float("inf"), 1))])
    def test_a_line_needs_two_points(self, start, end):
        with pytest.raises(ValueError, match="a line needs two different points; got "):
            shapes.line_through(start, end)
