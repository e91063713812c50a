"""Half-rectangles: the unit against Shapely's drawing of it, and what the review says of the way rectangles are cut."""

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import Polygon, box
from shapely.ops import unary_union

from quiltmath import lengths, making, pattern, review
from quiltmath.making.rounding import needed_rectangle
from quiltmath.making.slants import slants_taken
from quiltmath.review.reading import Reading

HEDGE = """
title = "Hedge"
seam = "1/4"
finished = ["6", "8"]
[[cut]]
part = "leaf"
fabric = "green"
size = ["3 5/8", "4 3/4"]
count = 2
cut = "once"
slant = "both"
[[cut]]
part = "ground"
fabric = "sand"
size = ["3 5/8", "4 3/4"]
count = 2
cut = "once"
slant = "both"
[unit.one]
kind = "half-rectangle"
parts = ["leaf", "ground"]
slant = "left"
[unit.other]
kind = "half-rectangle"
parts = ["ground", "leaf"]
slant = "right"
[block.hedge]
rows = ["one other", "other one"]
[setting]
style = "straight"
across = 1
down = 1
block = "hedge"
"""


def changed(*pairs, sheet=HEDGE):
    for old, new in pairs:
        assert old in sheet, old
        sheet = sheet.replace(old, new, 1)
    return sheet


def said(*pairs):
    """What the review finds in the hedge so changed: (its verdict, [(check, level)], all it says)."""
    found = review.review(pattern.read_text(changed(*pairs)))
    kinds = [(finding.check, finding.level) for finding in found.findings]
    return found.verdict, kinds, " ".join(finding.message for finding in found.findings)


def eighths(least, most):
    return st.integers(8 * least, 8 * most).map(lambda number: Fraction(number, 8))


class TestTheUnit:
    @given(width=eighths(1, 4), more=eighths(1, 6), seam=st.sampled_from(["1/4", "3/8"]), lying=st.booleans())
    @settings(max_examples=30, deadline=None, derandomize=True)
    def test_the_exact_rectangle_rounded_up_sews_to_the_finished_shapes(self, width, more, seam, lying):
        height = width + more
        exact = needed_rectangle((float(width), float(height)), float(Fraction(seam)))
        size = [lengths.text(lengths.ruler(side, "1/8", "up")) for side in exact]
        size = str(size[::-1] if lying else size)
        finished = f'slant = "left"\nfinished = ["{lengths.text(width)}", "{lengths.text(height)}"]'
        sheet = changed(
            ('seam = "1/4"', f'seam = "{seam}"'),
            ('finished = ["6", "8"]\n', ""),
            ('size = ["3 5/8", "4 3/4"]', f"size = {size}"),
            ('size = ["3 5/8", "4 3/4"]', f"size = {size}"),
            ('slant = "left"', finished),
            ('slant = "right"', finished.replace("left", "right")),
        )
        made = making.make(pattern.read_text(sheet))
        w, h = float(width), float(height)
        drawn = {
            "one": [("leaf", [(0, 0), (w, 0), (0, h)]), ("ground", [(w, h), (0, h), (w, 0)])],
            "other": [("ground", [(0, 0), (w, h), (0, h)]), ("leaf", [(0, 0), (w, 0), (w, h)])],
        }
        for name, shapes in drawn.items():
            shown = {patch.part: Polygon(patch.polygon.round(9)) for patch in made.panel(name).bind(made.seam).patches}
            for part, corners in shapes:
                assert shown[part].symmetric_difference(Polygon(corners)).area < 1e-6
            assert unary_union(list(shown.values())).symmetric_difference(box(0, 0, w, h)).area < 1e-6
        assert made.finished == pytest.approx((2 * w, 2 * h))
        assert made.top.lost_points(made.seam) == []

    def test_its_triangles_are_counted_by_the_way_they_slant(self):
        made = making.make(pattern.read_text(HEDGE))
        assert slants_taken(made.sheet, made.bill) == {name: {"left": 2, "right": 2} for name in ("leaf", "ground")}

    def test_a_rectangle_of_the_finished_size_and_its_seams_has_lost_its_points(self):
        pair = 'size = ["3 5/8", "4 3/4"]', 'size = ["3 1/2", "4 1/2"]'
        finished = [(f'slant = "{way}"', f'slant = "{way}"\nfinished = ["3", "4"]') for way in ("left", "right")]
        verdict, kinds, words = said(pair, pair, *finished)
        assert (verdict, kinds) == ("stop", [("cut-size", "stop")])  # both rectangles at once
        assert "'ground' and 'leaf' are cut 3 1/2 by 4 1/2 in" in words
        assert "cut 3 3/4 by 5 in, for half-rectangle units that finish 3 by 4 in" in words

    @pytest.mark.parametrize("finished", ["1/8 x 3/8", "3/8 x 4"])
    @pytest.mark.parametrize("seam", ["1/4", "1/2"])
    def test_one_that_is_too_small_for_its_seams_is_reviewed_like_others(self, finished, seam):
        printed = f'[unit.one]\nfinished = "{finished}"'
        _, found, words = said(("[unit.one]", printed), ('seam = "1/4"', f'seam = "{seam}"'))
        assert ("cut-size", "ask") in found and "leaves no room for its seams" in words


class TestTheSlant:
    def test_rectangles_cut_as_the_units_slant_are_a_go(self):
        sizes = ('size = ["3 5/8", "4 3/4"]', 'size = ["3 3/4", "5"]')
        assert said(sizes, sizes) == ("go", [], "")

    @pytest.mark.parametrize("lying", [False, True])
    def test_all_cut_the_same_way_is_a_stop(self, lying):
        size = '["5", "3 3/4"]' if lying else '["3 3/4", "5"]'
        sizes = ('size = ["3 5/8", "4 3/4"]', f"size = {size}")
        verdict, kinds, words = said(sizes, sizes, ('slant = "both"', 'slant = "left"'))
        assert (verdict, kinds) == ("stop", [("wrong-triangles", "stop")])
        assert (
            "The rectangles 'leaf' are all cut slanting left, and 2 of the triangles are for units that slant right. "
            "They cannot be turned over, for fabric has a right side: cut 1 rectangle from the upper left to the lower "
            "right and 1 from the upper right to the lower left, as they stand upright."
        ) in words

    def test_some_cut_each_way_for_units_that_all_slant_alike_is_a_stop(self):
        sizes = ('size = ["3 5/8", "4 3/4"]', 'size = ["3 3/4", "5"]')
        alike = ('rows = ["one other", "other one"]', 'rows = ["one one", "one one"]')
        verdict, kinds, words = said(sizes, sizes, alike)
        assert verdict == "stop" and ("wrong-triangles", "stop") in kinds
        assert "'leaf' are cut some slanting each way, and all their triangles are for units that slant" in words
        twice = ("count = 2", "count = 4")  # half of them are enough: the rest is cloth lost, and no more
        _, kinds, words = said(sizes, sizes, alike, twice, twice)
        assert ("wrong-triangles", "stop") not in kinds and "'leaf'" in words

    def test_where_nothing_is_said_it_is_asked(self):
        sizes = ('size = ["3 5/8", "4 3/4"]', 'size = ["3 3/4", "5"]')
        verdict, kinds, words = said(sizes, sizes, ('slant = "both"\n', ""))
        assert (verdict, kinds) == ("ask", [("not-stated", "ask")])
        assert "does not say which way the rectangles 'leaf' are cut" in words

    def test_odd_numbers_each_way_take_a_rectangle_more(self):
        sizes = ('size = ["3 5/8", "4 3/4"]', 'size = ["3 3/4", "5"]')
        verdict, kinds, words = said(
            sizes,
            sizes,
            ('finished = ["6", "8"]', 'finished = ["6", "4"]'),
            ('rows = ["one other", "other one"]', 'rows = ["one other"]'),
            ("count = 2", "count = 1"),
        )
        assert (verdict, kinds) == ("stop", [("piece-count", "stop")])
        assert "1 rectangle cut once gives 2 triangles of 'leaf', but not as many as are needed of each slant" in words

    def test_a_forgotten_line_says_how_it_is_cut(self):
        lost = HEDGE[HEDGE.index('[[cut]]\npart = "ground"') : HEDGE.index("[unit.one]")]
        made = making.make(
            pattern.read_text(changed((lost, ""), ('size = ["3 5/8", "4 3/4"]', 'size = ["3 3/4", "5"]')))
        )
        (line,) = (found.line for found in made.forgotten)
        assert (line.size, line.count, line.cut, line.slant) == ((Fraction(15, 4), 5), 2, "once", "both")

    def test_a_correction_cuts_them_both_ways(self):
        sizes = ('size = ["3 5/8", "4 3/4"]', 'size = ["3 3/4", "5"]')
        sheet = pattern.read_text(changed(sizes, sizes, ('slant = "both"', 'slant = "right"')))
        corrected = review.review(sheet).correction.sheet
        assert corrected.part("leaf").slant == "both" and Reading(corrected).findings == ()


class TestRefused:
    @pytest.mark.parametrize(
        ("pairs", "words"),
        [
            (
                [('size = ["3 5/8", "4 3/4"]', 'size = "4"')],
                "the triangles of a square are alike whichever way it is cut",
            ),
            ([('cut = "once"\n', "")], 'only rectangles cut once slant; write cut = "once", or take slant out'),
            ([('slant = "left"\n', "")], "which way does its seam run, as the unit stands upright?"),
            ([('"half-rectangle"', '"half-square"')], "half-square units are alike from left and right"),
            ([('slant = "left"', 'slant = "left"\nfinished = "3"')], 'write kind = "half-square"'),
            ([("one other", "one leaf")], "'leaf' is cut slanting both ways, and only a unit tells which"),
        ],
    )
    def test_what_cannot_be_meant(self, pairs, words):
        with pytest.raises(pattern.Unreadable) as refused:
            pattern.read_text(changed(*pairs))
        assert words in str(refused.value)
