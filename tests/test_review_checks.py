"""Every check on small sheets: one that is right, one that is wrong in what the check looks at, one where it has
nothing to say."""

import pytest

from quiltmath.review.checks import CHECKS

from .sheets import BASE, BORDERED, changed, checks, found

ON_POINT_SETTING = BASE[BASE.index("[setting]") :]
HALVED = changed(
    BASE,
    ('[setting.sides]\npart = "side"', '[setting.sides]\nhow = "cut blocks"'),
    ('[[cut]]\npart = "side"\nfabric = "navy"\nsize = "9 3/4"\ncount = 2\ncut = "twice"\n', ""),
    ("count = 16", "count = 22"),
)
STRAIGHT = changed(
    BORDERED[: BORDERED.index("[[border]]")],
    ('["36", "42"]', '["24", "30"]'),
    (BORDERED[BORDERED.index('[[cut]]\npart = "long"') : BORDERED.index("[block.four]")], ""),
)
UNITS = """\
title = "Half and half"
seam = "1/4"
finished = "24"
[[cut]]
part = "dark"
fabric = "navy"
size = "4 7/8"
count = 18
cut = "once"
[[cut]]
part = "light"
fabric = "cream"
size = "4 7/8"
count = 18
cut = "once"
[unit.hst]
kind = "half-square"
parts = ["dark", "light"]
finished = "4"
[setting]
style = "straight"
across = 6
down = 6
block = "hst"
"""
LATTICE = """\
title = "Lattice"
seam = "1/4"
finished = ["22", "16"]
[fabric.moss]
bought = "1 yd"
usable_width = "42"
[[cut]]
part = "block"
fabric = "moss"
size = "4 1/2"
finished = "4"
count = 12
[[cut]]
part = "sash"
fabric = "moss"
size = ["2 1/2", "4 1/2"]
count = 9
[[cut]]
part = "long"
fabric = "moss"
size = ["22 1/2", "2 1/2"]
count = 2
[setting]
style = "straight"
across = 4
down = 3
block = "block"
[setting.sashing]
part = "sash"
strip = "long"
around = false
"""
FRAMED = changed(
    BASE,
    (
        ON_POINT_SETTING,
        """\
[block.framed]
finished = "8"
rows = ["level", "upright four upright", "level"]
[setting]
style = "on point"
across = 2
down = 3
block = "framed"
[setting.sides]
part = "side"
frame = ["left frame", "low frame"]
[setting.corners]
part = "corner"
""",
    ),
    ('size = "5 1/8"', 'size = "6 5/8"'),
    ('finished = ["17", "25 1/2"]', 'finished = ["22 5/8", "34"]'),
    (
        "[block.four]",
        """\
[[cut]]
part = "level"
fabric = "navy"
size = ["8 1/2", "1 1/2"]
count = 16
[[cut]]
part = "upright"
fabric = "navy"
size = ["1 1/2", "6 1/2"]
count = 16
[[cut]]
part = "left frame"
fabric = "cream"
size = ["1 1/2", "7 7/8"]
count = 6
[[cut]]
part = "low frame"
fabric = "cream"
size = ["8 7/8", "1 1/2"]
count = 6
[block.four]""",
    ),
    ('bought = "1 yd"', 'bought = "1 1/2 yd"'),
)
MITRED = changed(
    BORDERED,
    ('top = "short"', 'top = "short"\nends = "mitred"'),
    ('"30 1/2"', '"43 1/4"'),
    ('"36 1/2"', '"37 1/4"'),
    ('bought = "1 1/2 yd"', 'bought = "2 yd"'),
)
STRIPPED = changed(
    BORDERED,
    ('size = ["6 1/2", "30 1/2"]\ncount = 2', 'strip = "6 1/2"\ncount = 4'),
    ('sides = "long"\ntop = "short"', 'sides = "long"\ntop = "long"'),
    ('[[cut]]\npart = "short"\nfabric = "cream"\nsize = ["6 1/2", "36 1/2"]\ncount = 2\n', ""),
)


def only(sheet, check):
    """The one finding of a check on a sheet of which no other check says anything."""
    findings = found(sheet)
    assert {finding.check for finding in findings} == {check}
    return findings[0]


@pytest.mark.parametrize(
    "sheet",
    [BASE, BORDERED, STRAIGHT, UNITS, LATTICE, FRAMED, MITRED, STRIPPED],
    ids=["on point", "bordered", "straight", "units", "lattice", "framed", "mitred", "strips"],
)
def test_the_small_sheets_are_sound(sheet):
    assert found(sheet) == []


def test_every_check_has_its_tests_here():
    here = {name.removeprefix("Test") for name in globals() if name.startswith("Test")}
    assert here == {type(check).__name__ for check in CHECKS}


class TestCutSize:
    def test_a_square_too_small_for_its_block(self):
        finding = only(
            changed(BASE, ('fabric = "navy"\nsize = "3 1/2"', 'fabric = "navy"\nsize = "3 3/8"')), "cut-size"
        )
        assert finding.message == (
            "'A' is cut 3 3/8 in, too small: so that the rows of 'four' add up it needs 3 1/2 in. Cut 3 1/2 in instead."
        )
        assert (finding.level, finding.printed, finding.needed, finding.why) == (
            "stop",
            "3 3/8 in",
            "3 1/2 in",
            "patch",
        )
        assert finding.where == "sheet, line 13"

    def test_a_square_that_is_not_its_own_printed_finished_size(self):
        finding = only(
            changed(
                BASE,
                (
                    'size = "3 1/2"\ncount = 16\n[[cut]]\npart = "B"',
                    'size = "3 3/4"\nfinished = "3"\ncount = 16\n[[cut]]\npart = "B"',
                ),
            ),
            "cut-size",
        )
        assert finding.message.startswith("'A' is cut 3 3/4 in, too large: to finish 3 in it needs 3 1/2 in.")

    @pytest.mark.parametrize(
        "old, new, says",
        [
            (
                "9 3/4",
                "9 1/2",
                (
                    "'side' is cut 9 1/2 in, cut twice on the diagonal, too small: beside blocks that finish 6 in it "
                    "needs 9 3/4 in (exactly 9.692 in)."
                ),
            ),
            (
                "5 1/8",
                "5",
                (
                    "'corner' is cut 5 in, cut once on the diagonal, too small: beside blocks that finish 6 in it "
                    "needs 5 1/8 in (exactly 5.096 in)."
                ),
            ),
        ],
    )
    def test_edge_triangles_too_small(self, old, new, says):
        assert only(changed(BASE, (f'"{old}"', f'"{new}"')), "cut-size").message.startswith(says)

    def test_a_unit_s_triangles(self):
        finding = only(
            changed(UNITS, ('fabric = "navy"\nsize = "4 7/8"', 'fabric = "navy"\nsize = "4 1/2"')), "cut-size"
        )
        assert "for half-square units that finish 4 in it needs 4 7/8 in (exactly 4.854 in)" in finding.message

    def test_a_trim_that_forgets_the_seams(self):
        finding = only(changed(UNITS, ('finished = "4"', 'finished = "4"\ntrim_to = "4"')), "cut-size")
        assert finding.message == "'hst' is trimmed to 4 in, but to finish 4 in it must be 4 1/2 in with its seams."

    def test_a_sash_shorter_than_its_block(self):
        finding = only(changed(LATTICE, ('["2 1/2", "4 1/2"]', '["2 1/2", "4"]')), "cut-size")
        assert finding.message.startswith(
            "'sash' is cut 2 1/2 by 4 in, too small: beside blocks that finish 4 in it needs 2 1/2 by 4 1/2 in."
        )

    def test_an_alternate_block(self):
        sheet = changed(
            BASE,
            ('block = "four"\n', 'block = "four"\nalternate = "plain"\n'),
            ("count = 16", "count = 12"),
            ("[block.four]", '[[cut]]\npart = "plain"\nfabric = "cream"\nsize = "6"\ncount = 2\n[block.four]'),
        )
        assert only(sheet, "cut-size").message.startswith("'plain' is cut 6 in, too small: beside blocks of 6 1/2 in")

    def test_a_frame_takes_its_width_off_the_triangle(self):
        assert found(FRAMED) == []
        finding = only(changed(FRAMED, ('"9 3/4"', '"9 1/4"')), "cut-size")
        assert "(exactly 9.692 in)" in finding.message

    def test_a_corner_square_of_a_border(self):
        sheet = changed(
            BORDERED,
            ('top = "short"\n', 'top = "short"\ncorner = "stone"\n'),
            ('"36 1/2"', '"24 1/2"'),
            ("[block.four]", '[[cut]]\npart = "stone"\nfabric = "navy"\nsize = "6"\ncount = 4\n[block.four]'),
        )
        assert only(sheet, "cut-size").message.startswith(
            "'stone' is cut 6 in, too small: where border strips 6 1/2 in wide meet"
        )

    def test_no_single_part_is_blamed_where_none_explains_it(self):
        sheet = changed(
            BASE,
            ('fabric = "navy"\nsize = "3 1/2"', 'fabric = "navy"\nsize = "3"'),
            ('fabric = "cream"\nsize = "3 1/2"', 'fabric = "cream"\nsize = "3 3/8"'),
        )
        finding = only(sheet, "cut-size")
        assert finding.message.startswith(
            "The rows of 'four' sew to 5 3/8 in, their parts up to 2 7/8 in high; finished they should come to 6 in."
        )
        assert finding.parts == {"A", "B"}

    def test_a_slip_is_blamed_on_the_part_that_is_the_odd_one(self):
        sheet = changed(
            BASE,
            ('rows = ["A B", "B A"]', 'rows = ["bar", "A B"]'),
            ("count = 16", "count = 8"),
            (
                "[block.four]",
                '[[cut]]\npart = "bar"\nfabric = "cream"\nsize = ["6 1/2", "3 1/4"]\ncount = 8\n[block.four]',
            ),
        )
        assert only(sheet, "cut-size").message.startswith("'bar' is cut 6 1/2 by 3 1/4 in, too small")

    def test_nothing_printed_nothing_held_against_it(self):
        assert (
            checks(
                changed(
                    STRAIGHT,
                    ('finished = "6"\n', ""),
                    ('size = "3 1/2"', 'size = "3"'),
                    ('["24", "30"]', '["20", "25"]'),
                )
            )
            == []
        )

    def test_what_only_follows_from_a_wrong_part_is_not_said(self):
        sheet = changed(FRAMED, ('fabric = "navy"\nsize = "3 1/2"', 'fabric = "navy"\nsize = "3 3/4"'))
        assert [finding.parts for finding in found(sheet, "cut-size")] == [frozenset({"A"})]


class TestPieceCount:
    def test_too_few_squares_for_the_triangles(self):
        finding = only(changed(BASE, ('count = 2\ncut = "twice"', 'count = 1\ncut = "twice"')), "piece-count")
        assert finding.message == (
            "The pattern cuts 4 triangles of 'side' (1 square cut twice give 4), but the quilt takes 6: "
            "2 short. Cut 2 instead of 1."
        )
        assert finding.level == "stop"

    def test_a_piece_too_few(self):
        finding = only(
            changed(
                BASE,
                ('size = "3 1/2"\ncount = 16\n[[cut]]\npart = "B"', 'size = "3 1/2"\ncount = 15\n[[cut]]\npart = "B"'),
            ),
            "piece-count",
        )
        assert finding.message == (
            "The pattern cuts 15 pieces of 'A', but the quilt takes 16: 1 short. Cut 16 instead of 15."
        )

    def test_far_too_many_are_a_question_and_a_few_spare_ones_a_note(self):
        many = only(
            changed(STRAIGHT, ('count = 40\n[[cut]]\npart = "B"', 'count = 80\n[[cut]]\npart = "B"')), "piece-count"
        )
        few = only(
            changed(STRAIGHT, ('count = 40\n[[cut]]\npart = "B"', 'count = 42\n[[cut]]\npart = "B"')), "piece-count"
        )
        assert (many.level, few.level) == ("ask", "note")
        assert "so 40 will be left over. 40 would do" in many.message

    def test_triangles_the_squares_do_not_give(self):
        finding = only(changed(BASE, ('cut = "twice"', 'cut = "twice"\ntriangles = 4')), "piece-count")
        assert (
            finding.message
            == "2 squares cut twice give 8 triangles of 'side', not the 4 printed. The quilt takes 6: cut 2 squares."
        )

    def test_a_block_counted_wrong(self):
        finding = only(changed(BASE, ('finished = "6"\n', 'finished = "6"\ncount = 6\n')), "piece-count")
        assert "'four', but the quilt takes 8. Make 2 more." in finding.message

    def test_a_part_that_nothing_uses_is_a_note(self):
        sheet = changed(
            BASE, ("[block.four]", '[[cut]]\npart = "Z"\nfabric = "navy"\nsize = "1"\ncount = 3\n[block.four]')
        )
        assert only(sheet, "piece-count").level == "note"

    def test_strips_measured_at_the_top_are_not_counted(self):
        assert found(changed(STRIPPED, ('strip = "6 1/2"\ncount = 4', 'strip = "6 1/2"\ncount = 5'))) == []


class TestNoAllowance:
    def test_blocks_cut_in_half_for_the_edge(self):
        finding = found(HALVED, "no-allowance")[0]
        assert finding.message.startswith(
            "The side triangles are whole blocks cut from corner to corner. The cut runs on the line where "
            "the seam must be, so no allowance is left on that edge. 1 meeting of seams"
        )
        assert (finding.level, finding.why, finding.needed) == (
            "stop",
            "04-a-block-cut-in-half",
            "1/4 in past it, or built triangles",
        )
        assert set(checks(HALVED)) == {"no-allowance", "lost-points", "bias-outside"}

    def test_a_sewn_top_cut_through_its_points(self):
        sheet = (
            STRAIGHT
            + """
[[step]]
cut = "setting"
from = "lower left"
to = ["24 1/2", "24 1/2"]
gives = ["left", "right"]
[[step]]
sew = ["left", "right"]
edges = ["long", "long"]
gives = "again"
"""
        )
        assert found(sheet, "no-allowance")[0].message.startswith(
            "Sewn patches are cut along the line where the next seam must run"
        )

    def test_cut_a_seam_past_the_line_the_allowance_is_there(self):
        past = changed(HALVED, ('how = "cut blocks"', 'how = "cut blocks"\npast = "1/4"'), ("count = 22", "count = 28"))
        assert checks(past) == ["bias-outside"]

    def test_nothing_is_cut(self):
        assert found(BASE, "no-allowance") == []


class TestLostPoints:
    TRIMMED = (
        BASE
        + '[[step]]\ntrim = "setting"\nleft = "1/4"\nright = "1/4"\ntop = "1/4"\nbottom = "1/4"\ngives = "trimmed"\n'
    )

    def test_a_top_trimmed_to_its_points(self):
        finding = found(self.TRIMMED, "lost-points")[0]
        assert finding.message.startswith("10 points on 4 outer edges will be cut off, the worst by 1/4 in")
        assert (finding.level, finding.printed, finding.needed) == ("stop", "0 in beyond", "1/4 in beyond every point")
        assert len(finding.spots) == 10

    def test_floating_blocks_may_be_trimmed(self):
        floating = changed(
            self.TRIMMED,
            ('block = "four"\n', 'block = "four"\nfloating = "1"\n'),
            ('"9 3/4"', '"12"'),
            ('"5 1/8"', '"7 1/8"'),
            ('["17", "25 1/2"]', '["18 1/2", "27"]'),
            ('bought = "1 yd"', 'bought = "2 yd"'),
        )
        assert found(floating, "lost-points") == []

    def test_silent_where_a_wrong_size_is_the_reason(self):
        assert checks(changed(self.TRIMMED, ('"9 3/4"', '"9"'))) == ["cut-size"]


class TestBiasOutside:
    def test_halves_of_blocks_at_the_edge(self):
        finding = found(
            changed(
                HALVED,
                ('rows = ["A B", "B A"]', 'rows = ["A"]'),
                ('size = "3 1/2"\ncount = 22\n[[cut]]\npart = "B"', 'size = "6 1/2"\ncount = 22\n[[cut]]\npart = "B"'),
            ),
            "bias-outside",
        )[0]
        assert finding.message.startswith(
            "50 15/16 in of the quilt's outer edge (56 % of it, on 4 sides) lies on the bias"
        )
        assert (finding.level, finding.why) == ("stop", "05-bias-on-the-outside")

    def test_halves_cut_past_the_line_are_a_question(self):
        past = changed(HALVED, ('how = "cut blocks"', 'how = "cut blocks"\npast = "1/4"'), ("count = 22", "count = 28"))
        finding = only(past, "bias-outside")
        assert finding.level == "ask" and "keep their points" in finding.message

    def test_straight_grain_outside(self):
        assert found(STRAIGHT, "bias-outside") == found(UNITS, "bias-outside") == []

    def test_silent_where_the_triangles_are_the_reason(self):
        assert checks(changed(BASE, ('count = 2\ncut = "twice"', 'count = 3\ncut = "once"'))) == ["wrong-triangles"]


class TestWrongTriangles:
    def test_side_triangles_cut_once(self):
        finding = only(
            changed(BASE, ('size = "9 3/4"\ncount = 2\ncut = "twice"', 'size = "6 7/8"\ncount = 3\ncut = "once"')),
            "wrong-triangles",
        )
        assert finding.message == (
            "The side triangles 'side' are cut once from their squares, so the long edge on the outside of the quilt "
            "will lie on stretchy bias. Cut 2 squares of 9 3/4 in twice on the diagonal instead: "
            "then the outside lies on the straight grain."
        )
        assert (finding.printed, finding.needed, finding.why) == ("cut once", "cut twice", "side_triangle")

    def test_corner_triangles_cut_twice(self):
        finding = only(
            changed(BASE, ('size = "5 1/8"\ncount = 2\ncut = "once"', 'size = "7 1/4"\ncount = 1\ncut = "twice"')),
            "wrong-triangles",
        )
        assert "Cut 2 squares of 5 1/8 in once on the diagonal" in finding.message

    def test_a_unit_s_triangles(self):
        finding = found(changed(UNITS, ('cut = "once"\n[[cut]]', 'cut = "twice"\n[[cut]]')), "wrong-triangles")[0]
        assert finding.message.startswith(
            "'dark' is cut twice on the diagonal, but half-square units such as 'hst' need squares of 4 7/8 in cut once"
        )

    def test_a_single_block_has_no_side_triangles_to_be_wrong(self):
        one = changed(
            BASE,
            ("across = 2\ndown = 3", "across = 1\ndown = 1"),
            ('[setting.sides]\npart = "side"\n', ""),
            ("count = 16", "count = 2"),
            ('["17", "25 1/2"]', '"8 1/2"'),
        )
        assert checks(one) == []

    def test_a_straight_setting_has_none(self):
        assert found(STRAIGHT, "wrong-triangles") == []


class TestStripShort:
    def test_frame_strips(self):
        finding = only(changed(FRAMED, ('["1 1/2", "7 7/8"]', '["1 1/2", "7 1/2"]')), "strip-short")
        assert finding.message == (
            "'left frame' is cut 7 1/2 in long and ends before its 45-degree trim on the side triangle: it needs "
            "7 7/8 in. Cut it 7 7/8 in or longer, and trim after sewing."
        )
        assert (finding.level, finding.why) == ("stop", "frame_end")

    def test_mitred_borders(self):
        finding = only(changed(MITRED, ('"43 1/4"', '"42"')), "strip-short")
        assert (
            "ends before the mitre of border 1: it needs 43 1/4 in" in finding.message and finding.why == "mitred_strip"
        )

    def test_long_sashing_strips(self):
        finding = only(changed(LATTICE, ('["22 1/2", "2 1/2"]', '["20", "2 1/2"]')), "strip-short")
        assert "'long' is cut 20 in long and ends before the end of its row: it needs 22 1/2 in" in finding.message

    def test_long_sashing_strips_across_the_cloth(self):
        sheet = changed(LATTICE, ('size = ["22 1/2", "2 1/2"]\ncount = 2', 'strip = "2 1/2"\ncount = 1'))
        finding = only(sheet, "strip-short")
        assert finding.why == "07-sashing-frames-borders"
        assert finding.message == (
            "The long sashing strips cut from 'long' measure 45 in in all, but 1 strip of 42 in "
            "give 42 in once joined. Cut 2 strips."
        )

    def test_longer_ones_are_trimmed(self):
        assert (
            found(changed(FRAMED, ('"7 7/8"', '"9"')))
            == found(changed(MITRED, ('"43 1/4"', '"49"'), ("2 yd", "3 yd")))
            == []
        )

    def test_butted_borders_have_no_mitre(self):
        assert found(BORDERED, "strip-short") == []

    def test_silent_where_the_triangle_is_cut_wrong(self):
        assert checks(changed(FRAMED, ('"9 3/4"', '"9 1/4"'), ('["1 1/2", "7 7/8"]', '["1 1/2", "7 1/2"]'))) == [
            "cut-size"
        ]


class TestEdgesDiffer:
    RAILS = changed(
        STRAIGHT,
        ('finished = "6"\nrows = ["A B", "B A"]', 'rows = ["rail", "A B"]'),
        ("count = 40", "count = 20"),
        (
            "[block.four]",
            '[[cut]]\npart = "rail"\nfabric = "cream"\nsize = ["6 1/4", "3 1/2"]\ncount = 20\n[block.four]',
        ),
    )

    def test_rows_of_two_lengths_where_no_size_is_printed(self):
        finding = only(self.RAILS, "edges-differ")
        assert finding.message == (
            "1 seam in 'four' would join edges of different length; the worst differ by 1/4 in. Easing takes up 1/16 "
            "in at most: check the sizes of the parts that meet there before you sew."
        )
        assert (finding.level, finding.printed, finding.needed) == ("stop", "1/4 in apart", "equal edges")

    def test_what_cannot_be_sewn_is_said(self):
        sheet = STRAIGHT + '[[step]]\nsew = ["setting", "setting"]\nedges = ["upper left", "left"]\ngives = "odd"\n'
        assert "'odd' cannot be sewn as printed" in found(sheet, "edges-differ")[0].message

    def test_an_outer_edge_that_lacks_cloth(self):
        sheet = changed(
            BASE,
            ('[setting.corners]\npart = "corner"', '[setting.corners]\nhow = "built"\nrows = ["tip:225", "tip"]'),
            (
                'part = "corner"\nfabric = "navy"\nsize = "5 1/8"\ncount = 2',
                'part = "tip"\nfabric = "navy"\nsize = "3"\ncount = 4',
            ),
        )
        assert "edges-differ" in checks(sheet)

    def test_easing_takes_up_a_sixteenth(self):
        assert "edges-differ" not in checks(changed(self.RAILS, ('"6 1/4"', '"6 7/16"')))

    def test_silent_where_a_wrong_part_is_the_reason(self):
        assert checks(changed(BASE, ('fabric = "navy"\nsize = "3 1/2"', 'fabric = "navy"\nsize = "3"'))) == ["cut-size"]


class TestFinishedSize:
    def test_a_size_added_up_straight(self):
        finding = only(changed(BASE, ('["17", "25 1/2"]', '["12", "18"]')), "finished-size")
        assert finding.message == (
            "The pattern promises 12 by 18 in; sewn as printed the quilt finishes 17 by 25 7/16 in, larger by "
            "7 7/16 in. Buy borders, backing and batting for the real size, or ask which figure is wrong."
        )
        assert (finding.level, finding.why) == ("stop", "on_point")

    def test_within_an_inch_it_is_a_note(self):
        assert only(changed(BASE, ('["17", "25 1/2"]', '["17 3/4", "26"]')), "finished-size").level == "note"

    @pytest.mark.parametrize(
        "size", ['["16.97", "25.46"]', '["25 1/2", "17"]', '"17 in x 25 1/2 in"', '["17 3/8", "25 3/4"]']
    )
    def test_rounded_or_height_first(self, size):
        assert found(changed(BASE, ('["17", "25 1/2"]', size))) == []

    def test_nothing_printed(self):
        assert checks(changed(BASE, ('finished = ["17", "25 1/2"]\n', ""))) == ["not-stated"]


class TestBorderLength:
    def test_side_borders_forgotten(self):
        finding = only(changed(BORDERED, ('"36 1/2"', '"24 1/2"')), "border-length")
        assert finding.message == (
            "Border 1, top and bottom: 'short' is cut 24 1/2 in long, but the edge it is sewn to measures 36 1/2 in. "
            "Cut borders after measuring the made top; cut these 36 1/2 in."
        )

    def test_too_few_strips(self):
        finding = only(changed(STRIPPED, ('strip = "6 1/2"\ncount = 4', 'strip = "6 1/2"\ncount = 3')), "border-length")
        assert finding.message == (
            "The borders cut from 'long' measure 134 in in all, but 3 strips of 42 in give 125 in once joined. "
            "Cut 4 strips."
        )

    def test_a_pieced_border(self):
        keys = changed(
            BORDERED,
            ('sides = "long"', 'sides = "keys"'),
            (
                '[[cut]]\npart = "long"\nfabric = "cream"\nsize = ["6 1/2", "30 1/2"]\ncount = 2',
                '[[cut]]\npart = "key"\nfabric = "cream"\nsize = ["3 1/2", "6 1/2"]\ncount = 20',
            ),
            ("[setting]", f'[block.keys]\nrows = ["{" ".join(["key"] * 10)}"]\n[setting]'),
        )
        assert found(keys) == []
        short = changed(
            keys,
            (f'rows = ["{" ".join(["key"] * 10)}"]', f'rows = ["{" ".join(["key"] * 9)}"]'),
            ("count = 20", "count = 18"),
        )
        assert only(short, "border-length").message.startswith(
            "Border 1, left and right: 'keys' sews to 27 1/2 in, but the edge it is sewn to measures 30 1/2 in."
        )

    def test_top_and_bottom_first(self):
        assert (
            found(
                changed(
                    BORDERED,
                    ('top = "short"\n', 'top = "short"\nfirst = "top"\n'),
                    ('"30 1/2"', '"42 1/2"'),
                    ('"36 1/2"', '"24 1/2"'),
                    ("1 1/2 yd", "2 yd"),
                )
            )
            == []
        )

    def test_longer_borders_are_trimmed(self):
        assert found(changed(BORDERED, ('"36 1/2"', '"40"'))) == []

    def test_no_borders(self):
        assert found(BASE, "border-length") == []


class TestFabricShort:
    def test_less_than_the_least(self):
        finding = only(
            changed(BORDERED, ('[fabric.cream]\nbought = "1 1/2 yd"', '[fabric.cream]\nbought = "1/2 yd"')),
            "fabric-short",
        )
        assert finding.message.startswith("1/2 yd of 'cream' will not do: its pieces take at least ")
        assert finding.message.endswith("cut as well as can be, and 18 in are bought. Buy 1 1/8 yd.")
        assert (finding.level, finding.why) == ("stop", "09-check-a-pattern")

    def test_binding_of_the_same_cloth_counts(self):
        bound = changed(STRAIGHT, ('[fabric.navy]\nbought = "1 yd"', '[fabric.navy]\nbought = "1/2 yd"'))
        assert found(bound) == []
        more = bound + '[binding]\nfabric = "navy"\nstrip = "2 1/2"\ncount = 3\n'
        assert only(more, "fabric-short").message.startswith("1/2 yd of 'navy' will not do")

    def test_no_cloth_printed(self):
        assert found(UNITS, "fabric-short") == []

    def test_a_cloth_that_nothing_is_cut_from(self):
        assert (
            found(
                STRAIGHT.replace(
                    "[fabric.navy]", '[fabric.spare]\nbought = "1/8 yd"\nusable_width = "42"\n[fabric.navy]'
                )
            )
            == []
        )


class TestBindingShort:
    def test_too_few_strips(self):
        finding = only(changed(BORDERED, ('strip = "2 1/4"\ncount = 5', 'strip = "2 1/4"\ncount = 4')), "binding-short")
        assert finding.message == (
            "4 strips of 40 in, joined, give 151 in of binding; the quilt is 156 in round and a binding needs at "
            "least 2 in more to close. Cut 5 strips."
        )

    def test_bias_strips_are_longer(self):
        assert (
            found(changed(BORDERED, ('strip = "2 1/4"\ncount = 5', 'strip = "2 1/4"\ncount = 3\nstyle = "bias"'))) == []
        )

    def test_no_binding_told(self):
        assert found(BASE, "binding-short") == []

    def test_silent_where_the_size_is_wrong(self):
        assert checks(
            changed(
                BORDERED, ('strip = "2 1/4"\ncount = 5', 'strip = "2 1/4"\ncount = 4'), ('["36", "42"]', '["30", "30"]')
            )
        ) == ["finished-size"]


class TestBackingSmall:
    def test_no_larger_than_the_quilt(self):
        finding = only(
            changed(BORDERED, ('[backing]\nsize = ["44", "50"]', '[backing]\nsize = ["38", "44"]')), "backing-small"
        )
        assert finding.message == (
            "The backing of 38 by 44 in is too small for a quilt of 36 by 42 in: it must be larger all round, at "
            "least 40 by 46 in, and more if it goes to a frame."
        )

    def test_lengths_sewn_side_by_side(self):
        bought = changed(
            BORDERED, ('[backing]\nsize = ["44", "50"]', '[backing]\nbought = "3 yd"\nusable_width = "42"\npanels = 2')
        )
        assert found(bought) == []
        assert (
            only(changed(bought, ('bought = "3 yd"', 'bought = "2 yd"')), "backing-small").printed == "83 1/2 by 36 in"
        )

    def test_the_other_way_round(self):
        assert found(changed(BORDERED, ('[backing]\nsize = ["44", "50"]', '[backing]\nsize = ["50", "44"]'))) == []

    def test_only_its_cloth_is_told(self):
        assert found(changed(BORDERED, ('[backing]\nsize = ["44", "50"]', '[backing]\nfabric = "sheeting"'))) == []


class TestBattingSmall:
    def test_no_larger_than_the_quilt(self):
        finding = only(
            changed(BORDERED, ('[batting]\nsize = ["44", "50"]', '[batting]\nsize = ["36", "60"]')), "batting-small"
        )
        assert finding.message.startswith("The batting of 36 by 60 in is too small for a quilt of 36 by 42 in")

    def test_four_inches_in_all_are_enough(self):
        assert found(changed(BORDERED, ('[batting]\nsize = ["44", "50"]', '[batting]\nsize = ["40", "46"]'))) == []

    def test_none_told(self):
        assert found(BASE, "batting-small") == []


class TestPrintTurned:
    def test_boats_that_sail_downhill(self):
        finding = only(changed(BASE, ("[fabric.cream]", "[fabric.cream]\ndirectional = true")), "print-turned")
        assert finding.message == (
            "'cream' has a direction, and 16 patches of it will lie turned by 45 degrees in the quilt. Ask whether "
            "that is meant; if not, choose a print without direction."
        )
        assert finding.level == "ask"

    def test_a_straight_setting_keeps_it_upright(self):
        assert found(changed(STRAIGHT, ("[fabric.cream]", "[fabric.cream]\ndirectional = true"))) == []

    def test_edge_triangles_lie_upright(self):
        plain = changed(
            BASE,
            (
                "[fabric.cream]",
                '[fabric.edge]\nbought = "1 yd"\nusable_width = "42"\ndirectional = true\n[fabric.cream]',
            ),
            ('part = "side"\nfabric = "navy"', 'part = "side"\nfabric = "edge"'),
            ('part = "corner"\nfabric = "navy"', 'part = "corner"\nfabric = "edge"'),
        )
        assert found(plain) == []

    def test_no_directional_print(self):
        assert found(BASE, "print-turned") == []


class TestOrderOfWork:
    @staticmethod
    def told(sheet, *lines):
        return "instructions = [" + ", ".join(f'"{line}"' for line in lines) + "]\n" + sheet

    def test_borders_cut_before_the_top_is_measured(self):
        finding = only(
            self.told(BORDERED, "Cut everything, the borders too.", "Sew rows.", "Measure the top."), "order-of-work"
        )
        assert finding.message.startswith("Borders are cut before the top is measured.")
        assert (finding.level, finding.printed, finding.where) == ("note", "step 1", "sheet, line 1")

    def test_a_bias_cut_before_it_is_stay_stitched(self):
        sheet = self.told(HALVED, "Cut the blocks on the diagonal.", "Stay-stitch the long edges.")
        assert "cut on the bias before it is stay-stitched" in found(sheet, "order-of-work")[0].message
        assert (
            found(self.told(HALVED, "Stay-stitch the diagonals.", "Cut along them at 45 degrees."), "order-of-work")
            == []
        )

    @pytest.mark.parametrize(
        "lines",
        [
            ["Measure the top through its middle.", "Cut the borders to that length."],
            [
                "Cut border strips 6 1/2 in by the width of the cloth.",
                "Measure the top, join the strips and trim to fit.",
            ],
            ["Cut all pieces except the borders.", "Measure, then cut the borders."],
            ["Do not cut the borders yet.", "Measure the top."],
        ],
    )
    def test_a_good_order(self, lines):
        assert found(self.told(BORDERED, *lines)) == []

    def test_no_instructions(self):
        assert found(BORDERED, "order-of-work") == found(HALVED, "order-of-work") == []


class TestNotStated:
    def test_no_seam(self):
        finding = only(changed(BASE, ('seam = "1/4"\n', "")), "not-stated")
        assert finding.message == (
            "The pattern does not say which seam it is sewn with; this review took 1/4 in. Every cut size depends "
            "on it: ask before you cut."
        )
        assert finding.level == "ask"

    def test_no_finished_size(self):
        assert (
            "prints no finished size"
            in only(changed(BASE, ('finished = ["17", "25 1/2"]\n', "")), "not-stated").message
        )

    def test_no_usable_width(self):
        finding = only(
            changed(BASE, ('[fabric.cream]\nbought = "1 yd"\nusable_width = "42"', '[fabric.cream]\nbought = "1 yd"')),
            "not-stated",
        )
        assert "not how wide it must be (cream). Usable width runs from 40 in to 44 in" in finding.message

    def test_no_cloth_told_no_width_asked(self):
        assert found(UNITS) == []
