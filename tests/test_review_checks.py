"""Every check on small sheets: one that is right, one that is wrong in what the check looks at, one where it has
nothing to say."""

import re
from fractions import Fraction
from math import sqrt

import pytest

from quiltmath import lengths, pattern, proofs, review
from quiltmath.resources import folder
from quiltmath.review import cloth
from quiltmath.review.checks import CHECKS
from quiltmath.review.checks.order import CUT_BORDERS, LATER, MEASURE
from quiltmath.review.writing import headline

from .sheets import BASE, BORDERED, FOLDER, changed, checks, demo, found, reviewed

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
NO_WIDTH = ('usable_width = "42"\n', "")
BACKING, BATTING = ('[backing]\nsize = ["44", "50"]', '[batting]\nsize = ["44", "50"]')
STRIPPED = changed(
    BORDERED,
    ('size = ["6 1/2", "30 1/2"]\ncount = 2', 'strip = "6 1/2"\ncount = 4'),
    ('sides = "long"\ntop = "short"', 'sides = "long"\ntop = "long"'),
    ('[[cut]]\npart = "short"\nfabric = "cream"\nsize = ["6 1/2", "36 1/2"]\ncount = 2\n', ""),
)


GEESE = changed(
    UNITS,
    (
        'size = "4 7/8"\ncount = 18\ncut = "once"\n[[cut]]\npart = "light"',
        'size = ["6 1/2", "3 1/2"]\ncount = 8\n[[cut]]\npart = "light"',
    ),
    ('size = "4 7/8"\ncount = 18\ncut = "once"', 'size = "3 1/2"\ncount = 16'),
    ('part = "dark"', 'part = "goose"'),
    ('"dark", "light"', '"goose", "light"'),
    ('kind = "half-square"', 'kind = "flying geese"\nat_a_time = 1'),
    ('finished = "4"', 'finished = ["6", "3"]'),
    ("[setting]", '[block.pair]\nfinished = "6"\nrows = ["hst", "hst"]\n[setting]'),
    ('block = "hst"', 'block = "pair"'),
    ("across = 6\ndown = 6", "across = 2\ndown = 2"),
    ('finished = "24"', 'finished = "12"'),
)
FOURS = changed(
    UNITS,
    ('size = "4 7/8"\ncount = 18\ncut = "once"', 'size = "6 7/8"\ncount = 9'),
    ('finished = "4"\n', 'finished = "4"\nat_a_time = 4\n'),
)
ALTERNATE = changed(
    BASE,
    ("count = 16", "count = 12"),
    ("[block.four]", '[[cut]]\npart = "plain"\nfabric = "cream"\nsize = "6 1/2"\ncount = 2\n[block.four]'),
    ('block = "four"', 'block = "four"\nalternate = "plain"'),
)
BUILT = changed(
    BASE,
    (
        'part = "side"\nfabric = "navy"\nsize = "9 3/4"\ncount = 2',
        'part = "end"\nfabric = "navy"\nsize = "5 1/2"\ncount = 3',
    ),
    ('[setting.sides]\npart = "side"', '[setting.sides]\nhow = "built"\nrows = ["end", "A end"]'),
    ('fabric = "navy"\nsize = "3 1/2"\ncount = 16', 'fabric = "navy"\nsize = "3 1/2"\ncount = 22'),
)
SASHED = changed(
    BASE,
    ("count = 16", "count = 16"),
    (
        "[block.four]",
        """\
[[cut]]
part = "sash"
fabric = "cream"
size = ["1 1/2", "6 1/2"]
count = 24
[[cut]]
part = "stone"
fabric = "navy"
size = "1 1/2"
count = 17
[block.four]""",
    ),
    ("[setting.sides]", '[setting.sashing]\npart = "sash"\ncornerstone = "stone"\nedge = "whole"\n[setting.sides]'),
    ('"9 3/4"', '"11 1/8"'),
    ('"5 1/8"', '"6 5/8"'),
    ('["17", "25 1/2"]', '["21 1/4", "31"]'),
)
FOUR_GEESE = changed(
    GEESE,
    ('size = ["6 1/2", "3 1/2"]\ncount = 8', 'size = "7 1/4"\ncount = 2'),
    ('size = "3 1/2"\ncount = 16', 'size = "3 7/8"\ncount = 8'),
    ("at_a_time = 1", "at_a_time = 4"),
)


def without(sheet, part):
    """The sheet without the line of its cutting list that cuts this part."""
    left, count = re.subn(rf'\[\[cut\]\]\npart = "{part}"\n(?:[^\[].*\n)*', "", sheet)
    assert count == 1
    return left


def bordered(sheet):
    """The sheet with a border of plain strips that are measured at the top, and no printed size."""
    strips = '[[cut]]\npart = "strip"\nfabric = "navy"\nstrip = "4 1/2"\ncount = 6\n'
    lines = [line for line in sheet.splitlines(keepends=True) if not line.startswith("bought")]
    size = next((line for line in lines if line.startswith("finished")), "")
    width, height = reviewed(sheet).made.finished
    sheet = "".join(lines).replace(size, f"finished = [{width + 8:.2f}, {height + 8:.2f}]\n", 1)
    return sheet.replace("[[cut]]", f"{strips}[[cut]]", 1) + '[[border]]\nsides = "strip"\ntop = "strip"\n'


def only(sheet, check):
    """The one finding of a check on a sheet of which no other check says anything."""
    findings = found(sheet)
    assert {finding.check for finding in findings} == {check}
    return findings[0]


@pytest.mark.parametrize(
    "sheet",
    [BASE, BORDERED, STRAIGHT, UNITS, LATTICE, FRAMED, MITRED, STRIPPED, GEESE, ALTERNATE, BUILT, SASHED, FOUR_GEESE],
    ids=[
        *("on point", "bordered", "straight", "units", "lattice", "framed", "mitred", "strips", "geese"),
        *("alternate", "built", "sashed", "four geese"),
    ],
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
            "'A' is cut 3 3/8 in, too small: cut 3 1/2 in, so that the rows of 'four' fit together."
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
        assert finding.message.startswith("'A' is cut 3 3/4 in, too large: cut 3 1/2 in, to finish 3 in.")

    @pytest.mark.parametrize(
        "old, new, says",
        [
            (
                "9 3/4",
                "9 1/2",
                (
                    "'side' is cut 9 1/2 in, twice on the diagonal, too small: cut 9 3/4 in (exactly 9.692 in), to fit "
                    "beside blocks that finish 6 in."
                ),
            ),
            (
                "5 1/8",
                "5",
                (
                    "'corner' is cut 5 in, once on the diagonal, too small: cut 5 1/8 in (exactly 5.096 in), to fit "
                    "beside blocks that finish 6 in."
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
        assert "cut 4 7/8 in (exactly 4.854 in), for half-square units that finish 4 in" in finding.message

    def test_a_finished_size_that_its_own_seams_fill_is_a_typo(self):
        data = demo(folder("data") / "patterns" / "sound" / "kitchen-window-sashed.toml")
        data["cut"][0]["finished"] = "1/8"
        (one,) = reviewed(data).findings
        assert (one.level, one.printed) == ("note", "1/8 in") and "is printed to finish 1/8 in" in one.message

    def test_a_trim_that_forgets_the_seams(self):
        finding = only(changed(UNITS, ('finished = "4"', 'finished = "4"\ntrim_to = "4"')), "cut-size")
        assert (
            finding.message
            == "'hst' is trimmed to 4 in, too small: trim it to 4 1/2 in, to finish 4 in and to give a quilt of 24 in."
        )

    @pytest.mark.parametrize("cut, sewn", [("5", "4 5/8"), ("5 1/8", "4 3/4")])
    def test_units_cut_to_be_trimmed_and_not_said_to_be_are_asked_about(self, cut, sewn):
        whole = ('size = "4 7/8"\ncount = 18\ncut = "once"', f'size = "{cut}"\ncount = 18')
        sheet = changed(
            UNITS,
            whole,
            ('finished = "4"', "at_a_time = 2"),
            ("across = 6\ndown = 6", "across = 3\ndown = 3"),
            ('block = "hst"', 'block = "four"'),
            ("[setting]", '[block.four]\nfinished = "8"\nrows = ["hst hst", "hst hst"]\n[setting]'),
        )
        finding = only(sheet, "cut-size")
        assert (finding.level, finding.printed, finding.needed) == ("ask", f"{sewn} in", "4 1/2 in")
        assert f"The units 'hst' come out {sewn} in, and only 4 1/2 in fits" in finding.message
        assert "Trim each to 4 1/2 in before it is sewn on, or cut its squares 4 7/8 in." in finding.message

    def test_a_sash_shorter_than_its_block(self):
        finding = only(changed(LATTICE, ('["2 1/2", "4 1/2"]', '["2 1/2", "4"]')), "cut-size")
        assert finding.message.startswith(
            "'sash' is cut 2 1/2 by 4 in, too short: cut 2 1/2 by 4 1/2 in, to fit beside blocks that finish 4 in."
        )

    @pytest.mark.parametrize(
        "old, new, says",
        [
            (
                'sub_cut = "6 1/2"',
                'sub_cut = "6"',
                "The sub-cut of 'rail' is 6 in, too narrow: cut its strip sets every 6 1/2 in",
            ),
            (
                'strip = "1"',
                'strip = "3/4"',
                "'rib' is cut 3/4 in wide, too narrow: cut 1 in wide, to fit between cornerstones of",
            ),
        ],
    )
    def test_pieced_sashes(self, old, new, says):
        pieced = changed(
            SASHED,
            (
                'part = "sash"\nfabric = "cream"\nsize = ["1 1/2", "6 1/2"]\ncount = 24',
                'part = "rib"\nfabric = "cream"\nstrip = "1"\ncount = 8',
            ),
            ("[block.four]", '[strip_set.rail]\nstrips = ["rib", "rib"]\nsub_cut = "6 1/2"\n[block.four]'),
            ('part = "sash"', 'part = "rail"'),
        )
        assert not any(one.level == "stop" for one in found(pieced))
        assert only(changed(pieced, (old, new)), "cut-size").message.startswith(says)

    def test_an_alternate_block(self):
        sheet = changed(
            BASE,
            ('block = "four"\n', 'block = "four"\nalternate = "plain"\n'),
            ("count = 16", "count = 12"),
            ("[block.four]", '[[cut]]\npart = "plain"\nfabric = "cream"\nsize = "6"\ncount = 2\n[block.four]'),
        )
        assert only(sheet, "cut-size").message.startswith(
            "'plain' is cut 6 in, too small: cut 6 1/2 in, to fit beside blocks of 6 1/2 in"
        )

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
            "'stone' is cut 6 in, too small: cut 6 1/2 in, to fit where border strips 6 1/2 in wide meet"
        )

    @pytest.mark.parametrize("navy, cream", [("3", "3 3/8"), ("4", "3")])
    def test_two_wrong_sizes_are_told_one_by_one(self, navy, cream):
        sheet = changed(
            BASE,
            ('fabric = "navy"\nsize = "3 1/2"', f'fabric = "navy"\nsize = "{navy}"'),
            ('fabric = "cream"\nsize = "3 1/2"', f'fabric = "cream"\nsize = "{cream}"'),
        )
        told = {tuple(finding.parts): finding.needed for finding in found(sheet, "cut-size")}
        assert told == {("A",): "3 1/2 in", ("B",): "3 1/2 in"}

    def test_what_is_printed_as_it_finishes_is_told_at_once(self):
        finding = only(changed(BASE, ('size = "3 1/2"', 'size = "3"')), "cut-size")
        assert finding.message.startswith(
            "'A' and 'B' are cut 3 in, as they should finish: their seams are forgotten. Cut them 3 1/2 in there"
        )
        assert [(path[0], path[-1], value) for path, value in finding.fix] == [("cut", "size", "3 1/2 in")] * 2
        triangles = only(
            changed(UNITS, ("4 7/8", "4 3/8")), "cut-size"
        ).message  # their half inch is no seams forgotten
        assert triangles.startswith("'dark' and 'light' are cut 4 3/8 in, once on the diagonal, too small")

    @pytest.mark.parametrize(
        "rows, says",
        [
            ('["A B", "B"]', "Row 2 of 'four' comes to 3 in and should come to 6 in: one 'A'"),
            ('["A B", "A B", "B"]', "Row 3 of 'four' comes to 3 in and should come to 6 in: one 'A' is left out."),
            ('["A B A", "B A"]', "Row 1 of 'four' comes to 9 in and should come to 6 in: one 'A' is too many."),
        ],
    )
    def test_a_part_left_out_of_a_row_or_one_too_many(self, rows, says):
        finding = found(changed(BASE, ('["A B", "B A"]', rows)), "cut-size")[0]
        assert finding.message.startswith(says) and finding.level == "stop" and finding.fix

    def test_a_goose_typed_height_first_is_taken_as_it_lies(self):
        assert found(GEESE) == found(changed(GEESE, ('["6 1/2", "3 1/2"]', '["3 1/2", "6 1/2"]'))) == []
        small = changed(GEESE, ('["6 1/2", "3 1/2"]', '["3 1/4", "6 1/2"]'))
        assert "'goose' is cut 6 1/2 by 3 1/4 in, too narrow" in only(small, "cut-size").message

    def test_a_piece_of_a_row_typed_the_other_way_round(self):
        assert found(changed(FRAMED, ('["8 1/2", "1 1/2"]', '["1 1/2", "8 1/2"]'))) == []
        assert found(changed(FRAMED, ('["8 1/2", "1 1/2"]', '["1 1/2", "8 1/4"]'))) != []

    @pytest.mark.parametrize("size, checks_", [("5", set()), ("5 1/8", set()), ("5 1/2", {"cut-size"})])
    def test_units_cut_large_alike_are_trimmed(self, size, checks_):
        assert {finding.check for finding in found(changed(UNITS, ('"4 7/8"', f'"{size}"')))} == checks_

    def test_a_block_printed_with_its_allowances_as_it_finishes(self):
        logs = only(changed(LOGS, ("finished = 8\n", 'finished = "8 1/2"\n')), "cut-size")
        assert logs.level == "note" and logs.message.endswith(
            "8 1/2 in is what it measures with its seam allowances: ask whether that is meant."
        )

    def test_triangles_far_larger_than_they_are_printed_to_finish(self):
        triangles = changed(UNITS, ('\nfinished = "4"', ""), ('"4 7/8"\n', '"4 7/8"\nfinished = "3"\n'))
        finding = only(triangles, "cut-size")
        assert finding.message == (
            "'dark' and 'light' are printed to finish 3 in, but squares of 4 7/8 in cut once on the diagonal come to "
            "4 in. Ask whether one of the two figures is a typo, or whether the triangles are trimmed."
        )
        assert finding.level == "ask" and found(changed(triangles, ('"3"', '"4"'))) == []

    def test_one_of_a_pair_cut_large_is_no_trimming(self):
        sheet = changed(UNITS, ('fabric = "navy"\nsize = "4 7/8"', 'fabric = "navy"\nsize = "5 1/8"'))
        assert "'dark' is cut 5 1/8 in, once on the diagonal, too large" in only(sheet, "cut-size").message

    def test_no_single_part_is_blamed_where_none_explains_it(self):
        sheet = changed(
            BASE,
            ('fabric = "navy"\nsize = "3 1/2"', 'fabric = "navy"\nsize = ["3 1/4", "3"]'),
            ('fabric = "cream"\nsize = "3 1/2"', 'fabric = "cream"\nsize = ["3 3/8", "3 13/16"]'),
        )
        finding = only(sheet, "cut-size")
        assert finding.message.startswith(
            "The sizes of 'A' and 'B' do not agree: they are up to 13/16 in off, and no single"
        )
        assert (finding.parts, finding.fix) == ({"A", "B"}, ())

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
        assert only(sheet, "cut-size").message.startswith("'bar' is cut 6 1/2 by 3 1/4 in, too narrow")

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

    @pytest.mark.parametrize("size", ["5 5/8", "6", "6 1/2"])
    def test_triangles_that_end_built_rows_may_be_cut_large_and_trimmed(self, size):
        assert found(changed(BUILT, ('"5 1/2"', f'"{size}"'))) == []

    def test_a_built_triangle_smaller_than_the_block_it_lies_beside(self):
        corners = changed(
            BASE,
            ('[setting.corners]\npart = "corner"', '[setting.corners]\nhow = "built"\nrows = ["corner:90 corner"]'),
            ('size = "5 1/8"\ncount = 2\ncut = "once"', 'size = "5 1/2"\ncount = 2\ncut = "twice"'),
        )
        assert found(corners) == []
        assert only(changed(corners, ('"5 1/2"', '"5 1/4"')), "cut-size").message == (
            "'corner' is cut 5 1/4 in, twice on the diagonal, too small: cut 5 1/2 in (exactly 5.45 in), to fit beside "
            "blocks that finish 6 in."
        )

    @pytest.mark.parametrize("size, count", [("12 5/8", 0), ("13", 1)])
    def test_setting_triangles_far_too_large_are_a_note(self, size, count):
        sheet = changed(BASE, ('"9 3/4"', f'"{size}"'), ('bought = "1 yd"', 'bought = "2 yd"'))
        assert [(one.level, one.needed) for one in found(sheet)] == [("note", "9 3/4 in")] * count

    def test_a_triangle_s_exact_size_is_told_without_its_rounding(self):
        finding = only(changed(BUILT, ('"5 1/2"', '"5 1/4"')), "cut-size")
        assert (
            "'end' is cut 5 1/4 in, twice on the diagonal, too small: cut 5 1/2 in (exactly 5.45 in)" in finding.message
        )

    def test_sizes_of_setting_triangles_that_are_exchanged(self):
        finding = only(
            changed(BASE, ('"9 3/4"', '"side"'), ('"5 1/8"', '"9 3/4"'), ('= "side"\ncount', '= "5 1/8"\ncount')),
            "cut-size",
        )
        assert finding.message == (
            "'side' (5 1/8 in) and 'corner' (9 3/4 in) have each other's size: cut 'side' 9 3/4 in and 'corner' "
            "5 1/8 in, to fit beside blocks that finish 6 in."
        )
        assert finding.fix == ((("cut", 2, "size"), "9 3/4 in"), (("cut", 3, "size"), "5 1/8 in"))

    def test_sizes_are_exchanged_where_the_counts_are_right(self):
        finding = only(changed(FOUR_GEESE, ('"7 1/4"', '"x"'), ('"3 7/8"', '"7 1/4"'), ('"x"', '"3 7/8"')), "cut-size")
        assert "'goose' (3 7/8 in) and 'light' (7 1/4 in) have each other's size" in finding.message
        assert [new for _, new in finding.fix] == ["7 1/4 in", "3 7/8 in"]

    def test_strips_are_as_wide_as_the_size_that_is_needed(self):
        sheet = changed(
            BASE, ('fabric = "navy"\nsize = "3 1/2"', 'fabric = "navy"\nstrips = 2\nstrip_width = "3"\nsize = "3"')
        )
        finding = only(sheet, "cut-size")
        assert "'A' is cut 3 in, too small: cut 3 1/2 in, from strips as wide, so that" in finding.message
        assert finding.fix == ((("cut", 0, "size"), "3 1/2 in"), (("cut", 0, "strip_width"), "3 1/2 in"))

    def test_a_trim_to_the_size_that_is_cut(self):
        sheet = changed(
            UNITS,
            ('finished = "4"', 'trim_to = "4 7/8"'),
            ("across = 6\ndown = 6", "across = 3\ndown = 3"),
            ('block = "hst"', 'block = "four"'),
            ("[setting]", '[block.four]\nfinished = "8"\nrows = ["hst hst", "hst hst"]\n[setting]'),
        )
        message = only(sheet, "cut-size").message
        assert (
            message
            == "'hst' is trimmed to 4 7/8 in, too large: trim it to 4 1/2 in, so that the rows of 'four' fit together."
        )

    @pytest.mark.parametrize(
        "goose, sky, trim, checks_",
        [
            ("7 1/2", "4 1/8", 0, []),
            ("7 1/2", "4 1/8", 1, []),
            ("7 1/2", "3 7/8", 1, ["lost-points"]),
            ("7 1/4", "3 5/8", 1, ["cut-size"]),
            ("7 3/4", "4 3/8", 0, ["cut-size"]),
        ],
    )
    def test_geese_cut_large_are_trimmed_by_their_points(self, goose, sky, trim, checks_):
        sheet = changed(FOUR_GEESE, ('"7 1/4"', f'"{goose}"'), ('"3 7/8"', f'"{sky}"'))
        sheet = changed(sheet, ('finished = ["6", "3"]', 'trim_to = ["6 1/2", "3 1/2"]')) if trim else sheet
        assert checks(sheet) == checks_

    def test_a_unit_that_is_printed_to_finish_as_large_as_it_is_trimmed(self):
        """Cut large, it must be trimmed, and to what is not certain."""
        sheet = changed(
            UNITS,
            ('finished = "4"', 'finished = "4 1/2"'),
            ('"4 7/8"', '"5"'),
            ("across = 6\ndown = 6", "across = 3\ndown = 3"),
            ('block = "hst"', 'block = "four"'),
            ("[setting]", '[block.four]\nfinished = "8"\nrows = ["hst hst", "hst hst"]\n[setting]'),
        )
        finding = only(sheet, "cut-size")
        assert finding.level == "ask"
        assert (
            "'hst' is printed to finish 4 1/2 in, but what is cut for it comes to 4 in, trimmed to 4 1/2 in"
            in finding.message
        )


ROUND_AFTER_ROUND = """\
title = "Round after round"
seam = "1/4"
finished = ["16", "24"]
[[cut]]
part = "centre"
fabric = "navy"
size = "4 1/2"
count = 6
[[cut]]
part = "near"
fabric = "cream"
size = "3 3/4"
count = 12
cut = "once"
[[cut]]
part = "far"
fabric = "navy"
size = "4 7/8"
count = 12
cut = "once"
[unit.inner]
kind = "square in a square"
parts = ["centre", "near"]
[unit.outer]
kind = "square in a square"
parts = ["inner", "far"]
finished = "8"
[setting]
style = "straight"
across = 2
down = 3
block = "outer"
"""


FRAMED_LARGE = """\
title = "Framed with room to trim"
seam = "1/4"
finished = ["11 3/8", "34"]
[[cut]]
part = "A"
fabric = "navy"
size = "8 1/2"
count = 3
[[cut]]
part = "side"
fabric = "cream"
size = "12 1/8"
count = 1
cut = "twice"
[[cut]]
part = "left"
fabric = "navy"
size = ["1", "9 3/8"]
count = 4
[[cut]]
part = "below"
fabric = "navy"
size = ["9 7/8", "1"]
count = 4
[[cut]]
part = "corner"
fabric = "cream"
size = "6 5/8"
count = 2
cut = "once"
[setting]
style = "on point"
across = 1
down = 3
block = "A"
[setting.sides]
part = "side"
frame = ["left", "below"]
[setting.corners]
part = "corner"
"""


MEDALLION = """\
title = "Turned once"
seam = "1/4"
finished = "15 1/4"
[[cut]]
part = "panel"
fabric = "rose"
size = "8 1/2"
count = 1
[[cut]]
part = "round"
fabric = "leaf"
size = "6 5/8"
count = 2
cut = "once"
[[cut]]
part = "edge"
fabric = "rose"
strip = "2 1/2"
count = 2
[setting]
style = "straight"
across = 1
down = 1
block = "panel"
[[border]]
triangles = "round"
[[border]]
sides = "edge"
top = "edge"
"""


def test_a_round_that_is_cut_large_is_trimmed_where_the_printed_size_says_so():
    assert found(MEDALLION) == []
    trimmed = only(changed(MEDALLION, ("6 5/8", "7 1/2")), "cut-size")
    assert trimmed.level == "note"
    assert trimmed.message == (
        "'round' is cut 7 1/2 in, 1 in larger than it must be to fit round a centre that finishes 8 in. The quilt "
        "comes to its printed size if what these triangles give is trimmed to 11 13/16 in square before the next "
        "round. Trim it so, or cut 6 5/8 in."
    )
    assert only(changed(MEDALLION, ("6 5/8", "9")), "cut-size").level == "ask"
    assert checks(changed(MEDALLION, ("6 5/8", "9"), ("15 1/4", "19"))) == ["finished-size"]


def test_large_triangles_in_narrow_frames_lose_no_points():
    assert {finding.level for finding in found(FRAMED_LARGE)} <= {"note"}
    short = changed(FRAMED_LARGE, ('size = "6 5/8"', 'size = "6"'))
    assert checks(short) == ["cut-size"]


def test_a_unit_without_a_size_is_held_to_its_centre():
    assert found(ROUND_AFTER_ROUND) == []
    finding = only(changed(ROUND_AFTER_ROUND, ("3 3/4", "3 1/2")), "cut-size")
    assert (finding.level, finding.parts, finding.needed) == ("stop", {"near"}, "3 3/4 in")
    assert finding.message.endswith("to go round 'centre', which finishes 4 in.")


def test_rounds_that_have_each_others_size():
    finding = only(changed(ROUND_AFTER_ROUND, ("3 3/4", "x"), ("4 7/8", "3 3/4"), ("x", "4 7/8")), "cut-size")
    assert finding.parts == {"near", "far"}


def fours(units, seam, strip, sub_cut, wide, finished):
    """A quilt of four-patches from strip sets, in inches or in centimetres."""
    return (
        f'title = "Fours"\nunits = "{units}"\nseam = "{seam}"\nfinished = ["{4 * finished}", "{6 * finished}"]\n'
        + "".join(
            f'[[cut]]\npart = "{part}"\nfabric = "{part}"\nstrip = "{strip}"\ncount = 2\n'
            f'[fabric.{part}]\nusable_width = "{wide}"\nscraps = true\n'
            for part in ("dark", "light")
        )
        + f'[strip_set.pair]\nstrips = ["dark", "light"]\nsub_cut = "{sub_cut}"\nsets = 2\npieces = 24\n'
        + f'[[cut]]\npart = "plain"\nfabric = "light"\nsize = "{finished + 2 * seam}"\ncount = 12\n'
        + f'[block.four]\nrows = ["pair pair:180"]\nfinished = "{finished}"\ncount = 12\n'
        + '[setting]\nstyle = "straight"\nacross = 4\ndown = 6\nblock = "four"\nalternate = "plain"\n'
    )


@pytest.mark.parametrize(
    "units, seam, right, wrong, wide, finished",
    [("in", 0.25, "2.5", "2.25", "42", 4), ("cm", 0.75, "6.5", "6.3", "110", 10), ("cm", 0.6, "6.2", "6.0", "110", 10)],
)
def test_strips_of_a_set_that_are_all_too_narrow_are_told_at_once(units, seam, right, wrong, wide, finished):
    assert found(fours(units, seam, right, right, wide, finished)) == []
    finding = only(fours(units, seam, wrong, right, wide, finished), "cut-size")
    assert finding.parts == {"dark", "light"} and {lengths.parse(new) for _, new in finding.fix} == {
        lengths.parse(f"{right} {units}")
    }


def test_a_strip_left_out_of_a_set():
    stripes = (FOLDER / "sound" / "nine-patch-from-strips.toml").read_text("utf-8")
    sheet = pattern.read_text(stripes)
    name, strips = next((name, one.strips) for name, one in sheet.strip_set.items())
    (finding,) = review.review(pattern.changed(sheet, (("strip_set", name, "strips"), strips[:-1]))).findings
    assert finding.fix == ((("strip_set", name, "strips"), strips),) and finding.level == "stop"


LOGS = (FOLDER / "sound" / "log-cabins.toml").read_text()


@pytest.mark.parametrize(
    "old, new, says",
    [
        ('"3 first"', '"first"', "Row 1 of 'second' comes to 3 1/2 in and should come to 5 in: one '3' is left out."),
        (
            '"2", "hearth 1"',
            '"hearth 1"',
            "'2' is cut and nothing uses it; the quilt fits together where it is one more",
        ),
        ('"second 5"', '"second 3"', "Row 2 of 'third' names '3' where '5' fits, which is cut and which nothing uses."),
        (
            '"7 third", "8"',
            '"7 third 8"',
            "The pieces of 'cabin' do not fit together in the rows that are told: row 1 '7',",
        ),
        ('"3 first", "4"', '"6 first", "4"', "Row 1 of 'second' names '6' where '3' fits"),
        ('"3 first", "4"', '"3 first", "6"', "Row 2 of 'second' names '6' where '4' fits"),
    ],
)
def test_rows_of_a_round_that_are_typed_wrongly_are_one_finding(old, new, says):
    sheet = changed(LOGS, (old, new))
    (finding,) = found(sheet)
    assert finding.message.startswith(says) and finding.level == "stop"
    assert review.review(pattern.changed(pattern.read_text(sheet), *finding.fix)).findings == ()


def line(part, size, count):
    return f'[[cut]]\npart = "{part}"\nfabric = "scraps"\nsize = {size}\ncount = {count}\n'


NINES = (
    'title = "Nines and geese"\nseam = "1/4"\nfinished = ["33", "42"]\n'
    + "".join(
        line(part, '"3 1/2"', count) for part, count in (("A", 30), ("B", 24), ("sky", 36), ("coin", 42), ("stone", 4))
    )
    + line("goose", '["6 1/2", "3 1/2"]', 18)
    + line("bar", '["3 1/2", "9 1/2"]', 6)
    + '[unit.geese]\nkind = "flying geese"\nparts = ["goose", "sky"]\nfinished = ["6", "3"]\n'
    + '[block.nine]\nrows = ["A B A", "B A B", "A B A"]\nfinished = "9"\n'
    + '[block.stack]\nrows = ["geese", "geese", "geese"]\n[block.flock]\nrows = ["bar stack"]\nfinished = "9"\n'
    + f'[block.long]\nrows = {["coin"] * 12}\n[block.wide]\nrows = ["{" ".join(["coin"] * 9)}"]\n'.replace("'", '"')
    + '[setting]\nstyle = "straight"\nacross = 3\ndown = 4\nblock = "nine"\nalternate = "flock"\n'
    + '[[border]]\nsides = "long"\ntop = "wide"\ncorner = "stone"\n'
)


@pytest.mark.parametrize(
    "old, new, says, plain",
    [
        ('"B A B", "A B A"', '"B A B", "A B B"', "Row 3 of 'nine' names 'B' where 'A' fits: so say the counts", True),
        ('"bar stack"', '"bar", "stack"', "The pieces of 'flock' do not fit together in the rows that are told", True),
        (
            '"geese", "geese", "geese"',
            '"geese:90", "geese", "geese"',
            "'geese' does not fit in row 1 of 'stack' as",
            False,
        ),
        ('"goose", "sky"', '"sky", "goose"', "The parts of the flying geese 'geese' are told as 'sky', 'goose'.", True),
        ('corner = "stone"\n', "", "'stone' is cut and nothing uses it; border 1 fits with it at its corners.", True),
        ('"long"\ntop = "wide"', '"wide"\ntop = "long"', "Border 1 has 'wide' left and right, 'long' at top", True),
    ],
)
def test_what_is_drawn_otherwise_than_all_is_cut_for_is_one_finding(old, new, says, plain):
    assert found(NINES) == []
    findings = found(changed(NINES, (old, new)))
    assert len(findings) == 1 and findings[0].message.startswith(says) and findings[0].level == "stop"
    assert bool(findings[0].fix) == plain


COURTHOUSE = (
    'title = "Courthouse"\nseam = "1/4"\nfinished = ["12", "18"]\n'
    '[[cut]]\npart = "hearth"\nfabric = "red"\nsize = "2 1/2"\ncount = 6\n'
    + "".join(
        f'[[cut]]\npart = "{number}"\nfabric = "sand"\nsize = ["{size}"]\ncount = 6\n'.replace(" x ", '", "')
        for number, size in enumerate(("1 1/2 x 2 1/2", "3 1/2 x 1 1/2", "2 x 3 1/2", "5 x 2"), 1)
    )
    + '[setting]\nstyle = "straight"\nacross = 2\ndown = 3\nblock = "d"\n'
    + "".join(
        f'[[step]]\nsew = ["{inside}", "{log}"]\nedges = ["{mine}", "{theirs}"]\ngives = "{gives}"\n'
        for inside, log, mine, theirs, gives in (
            ("hearth", 1, "right", "left", "a"),
            ("a", 2, "top", "bottom", "b"),
            ("b", 3, "left", "right", "c"),
            ("c", 4, "bottom", "top", "d"),
        )
    )
).replace('["12", "18"]', '["9", "13 1/2"]')


def test_a_step_that_sews_to_another_edge():
    assert found(COURTHOUSE) == []
    one = only(changed(COURTHOUSE, ('["left", "right"]', '["top", "right"]')), "edges-differ")
    assert one.message == (
        "Step 4 sews the bottom edge of 'c' to the top edge of '4': the edges do not fit. They do if step 4 sews the "
        "right edge of 'c' to the top edge of '4'. Look at the drawing."
    )
    both = changed(
        COURTHOUSE, ('["top", "bottom"]', "x"), ('["right", "left"]', '["top", "bottom"]'), ("x", '["right", "left"]')
    )
    assert only(both, "edges-differ").message.endswith("Look at the drawing.")


SQUALL = """\
title = "Squall"
seam = "1/4"
finished = ["28", "40"]
[[cut]]
part = "centre"
fabric = "teal"
size = "6 1/8"
count = 6
[[cut]]
part = "corner"
fabric = "white"
size = "4 7/8"
count = 12
cut = "once"
[[cut]]
part = "small centre"
fabric = "navy"
size = "3 3/8"
count = 12
[[cut]]
part = "small corner"
fabric = "white"
size = "2 7/8"
count = 24
cut = "once"
[[cut]]
part = "bar"
fabric = "sea"
size = ["4 1/2", "8 1/2"]
count = 17
[unit.square]
kind = "square in a square"
parts = ["centre", "corner"]
finished = "8"
[unit.small]
kind = "square in a square"
parts = ["small centre", "small corner"]
finished = "4"
[setting]
style = "straight"
rows = [
  "small bar:90 small bar:90 small",
  "bar square bar square bar",
  "small bar:90 small bar:90 small",
  "bar square bar square bar",
  "small bar:90 small bar:90 small",
  "bar square bar square bar",
  "small bar:90 small bar:90 small",
]
"""


def test_squares_on_their_corner_are_rounded_as_triangles_are():
    assert found(SQUALL) == []  # the centres of 6.157 and 3.328 in are printed below and above that
    assert found(changed(SQUALL, ('\nfinished = "8"', ""), ('\nfinished = "4"', ""))) == []  # their corners tell
    assert only(changed(SQUALL, ("6 1/8", "6")), "cut-size").parts == {"centre"}
    assert only(changed(SQUALL, ("3 3/8", "3 1/2")), "cut-size").parts == {"small centre"}


TRIMMED_ROUNDS = (
    ('["centre", "near"]', '["centre", "near"]\ntrim_to = "6 1/8"'),
    ('["inner", "far"]\nfinished = "8"', '["inner", "far"]\ntrim_to = "8 1/2"'),
)


def test_rounds_of_triangles_cut_an_inch_large_are_trimmed():
    assert found(changed(ROUND_AFTER_ROUND, *TRIMMED_ROUNDS, ("3 3/4", "4 3/4"), ("4 7/8", "5 7/8"))) == []
    sheet = changed(ROUND_AFTER_ROUND, *TRIMMED_ROUNDS, ("3 3/4", "x"), ("4 7/8", "3 3/4"), ("x", "4 7/8"))
    exchanged = only(sheet, "cut-size")
    assert exchanged.message.startswith("'far' (3 3/4 in) and 'near' (4 7/8 in) have each other's size")


def test_two_squares_of_a_unit_with_one_wrong_constant_are_one_finding():
    strips = ('count = 18\ncut = "once"', 'count = 18\nstrips = 2\nstrip_width = "4 1/2"\ncut = "once"')
    bought = "".join(f'[fabric.{name}]\nbought = "1 yd"\nusable_width = "42"\n' for name in ("navy", "cream"))
    wrong = changed(UNITS, ("4 7/8", "4 1/2"), strips, ('finished = "24"\n', f'finished = "24"\n{bought}'))
    finding = only(wrong, "cut-size")
    assert finding.message == (
        "'dark' and 'light' are cut 4 1/2 in, once on the diagonal, too small: cut 4 7/8 in (exactly 4.854 in), "
        "from 3 strips as wide and not 2, for half-square units that finish 4 in."
    )
    assert {path[1:] for path, _ in finding.fix} == {
        (number, key) for number in (0, 1) for key in ("size", "strip_width", "strips")
    }


def test_a_unit_in_the_centre_of_another_that_is_trimmed_too_small():
    rounds = [("centre", "4 1/2", ""), ("inner", "3 3/4", "once"), ("outer", "4 7/8", "once")]
    cuts = "".join(
        f'[[cut]]\npart = "{part}"\nfabric = "prints"\nsize = "{size}"\ncount = {8 if way else 4}\n'
        + f'cut = "{way}"\n' * bool(way)
        for part, size, way in rounds
    )
    economy = (
        f'title = "Economy"\nseam = "1/4"\nfinished = "16"\n{cuts}'
        '[unit.small]\nkind = "square in a square"\nparts = ["centre", "inner"]\ntrim_to = "6 1/8"\n'
        '[unit.large]\nkind = "square in a square"\nparts = ["small", "outer"]\nfinished = "8"\n'
        '[setting]\nstyle = "straight"\nacross = 2\ndown = 2\nblock = "large"\n'
    )
    assert found(economy) == []
    finding = only(changed(economy, ("6 1/8", "5 5/8")), "cut-size")
    assert (finding.parts, finding.printed, finding.needed) == ({"small"}, "5 5/8 in", "6 3/16 in")


def test_a_lane_with_which_border_and_quilt_come_out_is_named():
    assert found(COINS) == []
    for wrong in ("2 1/4", "2 3/4"):
        finding = only(changed(COINS, ('["2 1/2", "12 1/2"]', f'["{wrong}", "12 1/2"]')), "cut-size")
        assert (finding.parts, finding.needed) == ({"lane"}, "2 1/2 by 12 1/2 in")


COINS = """\
title = "Coins"
seam = "1/4"
finished = "16"
[[cut]]
part = "coin"
fabric = "prints"
size = ["5 1/2", "2 1/2"]
count = 12
[[cut]]
part = "lane"
fabric = "sand"
size = ["2 1/2", "12 1/2"]
count = 3
[[cut]]
part = "level"
fabric = "sand"
size = ["16 1/2", "2 1/2"]
count = 2
[block.stack]
rows = ["coin", "coin", "coin", "coin", "coin", "coin"]
finished = ["5", "12"]
[block.columns]
rows = ["lane stack lane stack lane"]
[setting]
style = "straight"
across = 1
down = 1
block = "columns"
[[border]]
top = "level"
"""


class TestPieceCount:
    def test_sashing_that_does_not_say_where_it_lies_is_taken_by_its_counts(self):
        inside = (folder("data") / "patterns" / "sound" / "stars-sashed-inside.toml").read_text("utf-8")
        silent = changed(inside, ("around = false\n", ""))
        assert found(silent) == []
        head, stone, rest = silent.partition('part = "stone"')
        one_more = head + stone + rest.replace("count = 4", "count = 5", 1)
        assert "piece-count" in checks(one_more)  # its figures are of neither way

    def test_a_row_more_than_all_that_is_counted_is_one_question(self):
        kitchen = (folder("data") / "patterns" / "sound" / "kitchen-window-sashed.toml").read_text("utf-8")
        finding = only(changed(kitchen, ("down = 4", "down = 5")), "piece-count")
        assert (finding.level, finding.path) == ("ask", ("setting", "down"))
        assert finding.message == (
            "The quilt is set with 3 blocks across and 5 down, but the printed size of the quilt and the counts of "
            "'rose square', 'ivory square', 'sash' and 2 more are those of 3 blocks across and 4 down. Look at the "
            "drawing, and ask which of the two is meant, before you cut."
        )

    def test_a_drawn_row_that_is_left_out_is_one_question(self):
        shelves = (folder("data") / "patterns" / "sound" / "sixty-to-the-mile.toml").read_text("utf-8")
        sheet = pattern.read_text(shelves)
        rows = [[item.name for item in row] for row in sheet.setting.rows]
        for off, way in ((rows[:-1], "more"), ([*rows, rows[-1]], "fewer")):
            (finding,) = review.review(pattern.changed(sheet, (("setting", "rows"), off))).findings
            assert (
                finding.level == "ask"
                and f"are those of {len(rows)} rows, one of {rows[-1][0]!r} {way}." in finding.message
            )

    def test_a_row_more_is_no_question_of_the_layout_where_another_count_is_wrong_too(self):
        kitchen = (folder("data") / "patterns" / "sound" / "kitchen-window-sashed.toml").read_text("utf-8")
        assert found(changed(kitchen, ("down = 4", "down = 5"), ("count = 60", "count = 50")), "piece-count")[1:]

    def test_a_fabric_that_is_bought_for_nothing(self):
        finding = only(
            changed(BORDERED, ('[[cut]]\npart = "A"', '[fabric.moss]\nbought = "1 yd"\n[[cut]]\npart = "A"')),
            "piece-count",
        )
        assert (finding.level, finding.path) == ("ask", ("fabric", "moss"))

    def test_too_few_squares_for_the_triangles(self):
        finding = only(changed(BASE, ('count = 2\ncut = "twice"', 'count = 1\ncut = "twice"')), "piece-count")
        assert finding.message == (
            "The pattern cuts 4 triangles of 'side' (1 square cut twice gives 4), but the quilt takes 6: "
            "2 short. Cut 2 squares instead of 1."
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

    def test_as_many_triangles_as_the_quilt_takes_of_those_that_the_squares_give(self):
        assert found(changed(BASE, ('cut = "twice"', 'cut = "twice"\ntriangles = 6'))) == []

    def test_a_block_counted_wrong(self):
        finding = only(changed(BASE, ('finished = "6"\n', 'finished = "6"\ncount = 6\n')), "piece-count")
        assert "'four', but the quilt takes 8. Make 2 more." in finding.message

    def test_a_part_that_nothing_uses_is_a_note(self):
        sheet = changed(
            BASE, ("[block.four]", '[[cut]]\npart = "Z"\nfabric = "navy"\nsize = "1"\ncount = 3\n[block.four]')
        )
        assert only(sheet, "piece-count").level == "note"

    def test_a_part_that_the_cutting_list_forgets(self):
        finding = only(without(BASE, "A"), "piece-count")
        assert finding.message == (
            "'A' is in the block 'four', but nothing cuts or makes it: 16 squares 3 1/2 in are needed. "
            "Ask which fabric they are cut from."
        )
        assert (finding.level, finding.printed, finding.needed) == ("stop", "none", "16 (16 squares 3 1/2 in)")
        assert (finding.parts, finding.why, finding.fix) == ({"A"}, "patch", ())
        assert finding.where == "sheet, line 29"  # where the block takes it

    def test_forgotten_triangles_are_told_with_their_squares(self):
        finding = only(without(UNITS, "light"), "piece-count")
        assert "36 are needed, 18 squares 4 7/8 in cut once. Ask which fabric they are cut from." in finding.message
        assert finding.why == "half_square"
        assert "6 are needed, 2 squares 9 3/4 in cut twice." in only(without(BASE, "side"), "piece-count").message

    def test_all_else_is_judged_beside_what_is_forgotten(self):
        sheet = changed(without(BASE, "A"), ('"9 3/4"', '"9 1/2"'), ('["17", "25 1/2"]', '["15", "20"]'))
        assert set(checks(sheet)) == {"cut-size", "finished-size", "piece-count"}
        assert "finished-size" in checks(changed(without(BASE, "A"), ('["17", "25 1/2"]', '["15", "20"]')))

    def test_the_forgotten_line_is_added_where_its_fabric_is_named(self):
        named = changed(
            BASE, ('part = "A"', 'part = "navy square"'), ('"A B", "B A"', '["navy square", "B"], ["B", "navy square"]')
        )
        found_ = reviewed(without(named, "navy square"))
        line = {"part": "navy square", "fabric": "navy", "size": "3 1/2", "count": 16}
        assert found_.findings[0].fix == ((("cut", 3), line),)
        assert found_.correction.passes and found_.correction.sheet.part("navy square").count == 16

    def test_two_forgotten_parts_are_added_one_after_the_other(self):
        named = changed(BASE, ('"side"', '"navy side"'), ('"corner"', '"navy corner"'))
        right = reviewed(without(without(named, "navy side"), "navy corner")).correction
        assert right.passes and [cut.part for cut in right.sheet.cut] == ["A", "B", "navy side", "navy corner"]

    def test_where_no_figure_gives_its_size_the_number_is_told(self):
        finding = only(without(FRAMED, "left frame"), "piece-count")
        assert finding.message == (
            "'left frame' is in the side triangles, but nothing cuts it: 6 are needed. "
            "Ask for their size, and which fabric they are cut from."
        )

    def test_where_the_whole_list_is_missing_the_sheet_is_not_understood(self):
        names = [f"piece {number}" for number in range(40)]
        with pytest.raises(pattern.Unreadable, match="'piece 0' and 39 more names are never cut or made"):
            found(changed(BASE, ('rows = ["A B", "B A"]', f'rows = [{names}, ["A", "B"]]')))

    def test_a_part_that_nothing_uses_may_be_the_one(self):
        sheet = changed(BASE, ('rows = ["A B", "B A"]', 'rows = ["A light", "light A"]'))
        stop, note = found(sheet, "piece-count")
        assert stop.message.endswith("'B' is cut and nothing uses it: is that the same piece?")
        assert (note.level, note.parts) == ("note", {"B"})

    @pytest.mark.parametrize("count, level", [(4, "note"), (8, "ask")])
    def test_many_pieces_that_nothing_uses_are_asked_about_and_units_are_a_note(self, count, level):
        cut = f'[[cut]]\npart = "spare"\nfabric = "cream"\nsize = "2"\ncount = {count}\n'
        unit = f'[unit.pair]\nkind = "half-square"\nparts = ["A", "B"]\ncount = {count}\n'
        assert [only(BASE + more, "piece-count").level for more in (cut, unit)] == [level, "note"]

    @pytest.mark.parametrize("count", ["", "count = 8\n"])
    def test_a_block_that_nothing_uses_is_a_note_and_what_it_is_made_of_is_not_said_again(self, count):
        spare = '[unit.pair]\nkind = "snowball"\nparts = ["A", "B"]\n[block.spare]\nrows = ["pair"]\n'
        finding = only(BASE + spare + count, "piece-count")
        assert finding.level == "note" and finding.path == ("block", "spare")
        assert finding.message.startswith("The block 'spare' is made, but nothing in this sheet uses it: ")

    def test_strips_measured_at_the_top_are_not_counted(self):
        assert found(changed(STRIPPED, ('strip = "6 1/2"\ncount = 4', 'strip = "6 1/2"\ncount = 5'))) == []

    @pytest.mark.parametrize("sets, count", [(2, 0), (3, 0), (4, 1)])
    def test_strip_sets_may_leave_room_to_straighten_their_ends(self, sets, count):
        """14 pieces 3 inches wide come of 42 inches, and 13 once an end is straightened."""
        strips = [
            f'[[cut]]\npart = "{name}"\nfabric = "{name}"\nstrip = "3"\ncount = {sets}\n' for name in ("navy", "cream")
        ]
        sheet = (
            'title = "Rails"\nseam = "1/4"\nfinished = ["35", "10"]\n'
            + "".join(f'[fabric.{name}]\nbought = "1 yd"\nusable_width = "42"\n' for name in ("navy", "cream"))
            + "".join(strips)
            + f'[strip_set.rail]\nstrips = ["navy", "cream"]\nsub_cut = "3"\nsets = {sets}\n'
            + '[block.pair]\nfinished = "5"\nrows = [["rail", "rail:180"]]\n'
            + '[setting]\nstyle = "straight"\nacross = 7\ndown = 2\nblock = "pair"\n'
        )
        assert len([one for one in found(sheet) if "strip set" in one.message]) == count


class TestNoAllowance:
    def test_blocks_cut_in_half_for_the_edge(self):
        finding = found(HALVED, "no-allowance")[0]
        assert finding.message.startswith(
            "The side triangles are whole blocks cut from corner to corner. The cut runs on the line where "
            "the seam must be, so no allowance is left on that edge. 1 seam intersection"
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


TILTED = """\
title = "A little askew"
seam = "1/4"
finished = "{quilt}"
[[cut]]
part = "centre"
fabric = "plum"
size = "6 1/2"
count = 4
[[cut]]
part = "short"
fabric = "sand"
size = ["2 1/2", "6 1/2"]
count = 8
[[cut]]
part = "long"
fabric = "sand"
size = ["10 1/2", "2 1/2"]
count = 8
[block.framed]
rows = ["long", "short centre short", "long"]
finished = "10"
[[step]]
turn = "framed"
by = 15
gives = "leaning"
[block.askew]
rows = ["leaning"]
trim_to = "{trimmed}"
finished = "{finished}"
[setting]
style = "straight"
across = 2
down = 2
block = "askew"
"""


def with_halved_cornerstones(wide, as_triangles):
    """The small sheet on point with sashing that finishes so wide, its cornerstones at the edge halved or cut as
    triangles."""
    pitch, raw = 6 + wide, lengths.text(wide + Fraction(1, 2))
    square = lengths.text(lengths.ruler(wide * sqrt(2) + (1 + sqrt(2)) / 2, step="1/8", rounding="up"))
    half = f'[[cut]]\npart = "half"\nfabric = "cream"\nsize = "{square}"\ncut = "twice"\n'
    return changed(
        BASE,
        ('["17", "25 1/2"]', f'["{2 * pitch * sqrt(2):.2f}", "{3 * pitch * sqrt(2):.2f}"]'),
        ('"9 3/4"', f'"{lengths.text(proofs.side_triangle.cut(block=pitch))}"'),
        ('"5 1/8"', f'"{lengths.text(proofs.corner_triangle.cut(block=pitch))}"'),
        (
            "[block.four]",
            f'[[cut]]\npart = "sash"\nfabric = "navy"\nsize = ["{raw}", "6 1/2"]\ncount = 24\n[[cut]]\npart = "stone"\n'
            f'fabric = "cream"\nsize = "{raw}"\ncount = {7 if as_triangles else 17}\n'
            + (half + "count = 3\n") * as_triangles
            + "[block.four]",
        ),
        (
            "[setting.sides]",
            '[setting.sashing]\npart = "sash"\ncornerstone = "stone"\nedge = "half"\n'
            + 'edge_cornerstone = "half"\n' * as_triangles
            + "[setting.sides]",
        ),
    )


class TestLostPoints:
    TRIMMED = (
        BASE
        + '[[step]]\ntrim = "setting"\nleft = "1/4"\nright = "1/4"\ntop = "1/4"\nbottom = "1/4"\ngives = "trimmed"\n'
    )

    def test_a_top_trimmed_to_its_points(self):
        finding = found(self.TRIMMED, "lost-points")[0]
        assert finding.message == (
            "10 points on 4 outer edges will be cut off, the worst by 1/4 in: seams meet there less than 1/4 in "
            "from the raw edge. Trim the top 1/4 in beyond the points, not level with them."
        )
        assert finding.why == "side_triangle"
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

    def test_halves_of_blocks_are_to_be_built_and_not_to_be_set_on_point(self):
        finding = found(HALVED, "lost-points")[0]
        assert "Build the setting triangles from squares and end triangles" in finding.message
        assert "on point" not in finding.message

    def test_silent_where_a_wrong_size_is_the_reason(self):
        assert checks(changed(BASE, ('"9 3/4"', '"9"'))) == ["cut-size"]

    @pytest.mark.parametrize("cut_as", ["whole", "triangles"])
    @pytest.mark.parametrize("wide", ["1/8", "1/4", "3/8"])
    def test_beside_thin_cornerstones_that_the_edge_halves_none_are_lost(self, wide, cut_as):
        thin = with_halved_cornerstones(Fraction(wide), cut_as == "triangles")
        assert found(thin) == []
        trimmed = thin + self.TRIMMED[self.TRIMMED.index("[[step]]") :].replace('"1/4"', '"1/8"')
        assert {one.check for one in found(trimmed)} == {"lost-points"}

    @pytest.mark.parametrize("trimmed, finished, lost", [("8 1/2", "8", []), ("7 1/2", "7", ["lost-points"])])
    def test_where_the_seams_of_a_tilted_block_run_out_is_left_to_chance(self, trimmed, finished, lost):
        """Trimmed to 8 1/2 in a frame seam ends at a corner; to 7 1/2 in the corners of its centre are cut off."""
        assert checks(TILTED.format(trimmed=trimmed, finished=finished, quilt=2 * int(finished))) == lost

    def test_said_besides_a_wrong_size_that_is_not_the_reason(self):
        assert checks(changed(self.TRIMMED, ('"9 3/4"', '"9"'))) == ["cut-size", "lost-points"]


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

    @pytest.mark.parametrize(
        "line, level", [("Stay-stitch each block before you cut it.", "note"), ("Cut the blocks.", "ask")]
    )
    def test_halves_that_are_stay_stitched_are_a_note(self, line, level):
        past = changed(
            HALVED,
            ('how = "cut blocks"', 'how = "cut blocks"\npast = "1/4"'),
            ("count = 22", "count = 28"),
            ('seam = "1/4"', f'seam = "1/4"\ninstructions = ["{line}"]'),
        )
        assert only(past, "bias-outside").level == level

    def test_halves_on_point_are_to_be_built(self):
        message = found(HALVED, "bias-outside")[0].message
        assert message.endswith(
            "Build the side triangles from squares and end triangles, whose outer edges lie on the straight grain."
        )

    def test_a_border_of_straight_grain_holds_it(self):
        past = changed(HALVED, ('how = "cut blocks"', 'how = "cut blocks"\npast = "1/4"'), ("count = 22", "count = 28"))
        finding = only(bordered(past), "bias-outside")
        assert (
            finding.level == "note" and "until border 1 holds it. Stay-stitch 1/8 in inside the edge" in finding.message
        )
        assert reviewed(bordered(past)).verdict == "go"

    def test_half_squares_four_at_a_time_are_a_question_of_starch(self):
        finding = only(FOURS, "bias-outside")
        assert (finding.level, finding.why) == ("ask", "half_squares_four")
        assert "Starch the fabric before you cut" in finding.message and "stay-stitch 1/8 in" in finding.message
        assert "on point" not in finding.message
        assert found(bordered(FOURS), "bias-outside")[0].level == "note"

    def test_straight_grain_outside(self):
        assert found(STRAIGHT, "bias-outside") == found(UNITS, "bias-outside") == []

    def test_silent_where_the_triangles_are_the_reason(self):
        assert checks(changed(BASE, ('count = 2\ncut = "twice"', 'count = 3\ncut = "once"'))) == ["wrong-triangles"]


class TestWrongTriangles:
    def test_a_piece_that_is_forgotten_is_not_cut_the_wrong_way(self):
        """A unit made of one thing twice, and nothing cuts it: the line that is missing has no other to be changed."""
        geese = (folder("data") / "patterns/sound/geese-one-at-a-time.toml").read_text("utf-8")
        found = reviewed(changed(geese, ('parts = ["goose", "sky"]', 'parts = ["gander", "gander"]')))
        assert "wrong-triangles" not in {finding.check for finding in found.findings}
        assert any("'gander' is in the unit 'geese', but nothing cuts it" in one.message for one in found.findings)

    def test_side_triangles_cut_once(self):
        finding = only(
            changed(BASE, ('size = "9 3/4"\ncount = 2\ncut = "twice"', 'size = "6 7/8"\ncount = 3\ncut = "once"')),
            "wrong-triangles",
        )
        assert finding.message == (
            "The side triangles 'side' are cut once from their squares, so their long edges on the outside of the "
            "quilt will lie on stretchy bias. Cut 2 squares of 9 3/4 in twice on the diagonal instead: "
            "then the outside lies on the straight grain."
        )
        assert (finding.printed, finding.needed, finding.why) == ("cut once", "cut twice", "side_triangle")

    def test_corner_triangles_cut_twice(self):
        finding = only(
            changed(BASE, ('size = "5 1/8"\ncount = 2\ncut = "once"', 'size = "7 1/4"\ncount = 1\ncut = "twice"')),
            "wrong-triangles",
        )
        assert "Cut 2 squares of 5 1/8 in once on the diagonal" in finding.message

    def test_side_and_corner_triangles_named_in_each_others_place(self):
        setting = '[setting.sides]\npart = "side"\n[setting.corners]\npart = "corner"'
        turned = '[setting.sides]\npart = "corner"\n[setting.corners]\npart = "side"'
        finding = only(changed(BASE, (setting, turned)), "wrong-triangles")
        assert finding.message.startswith(
            "'corner' (5 1/8 in, cut once) and 'side' (9 3/4 in, cut twice) stand in each other's place"
        )
        assert [new for _, new in finding.fix] == ["side", "corner"]

    def test_end_triangles_of_built_ones(self):
        finding = only(
            changed(BUILT, ('size = "5 1/2"\ncount = 3\ncut = "twice"', 'size = "3 7/8"\ncount = 6\ncut = "once"')),
            "wrong-triangles",
        )
        assert "Cut 3 squares of 5 1/2 in twice on the diagonal" in finding.message
        assert finding.fix[:3] == (
            (("cut", 2, "cut"), "twice"),
            (("cut", 2, "size"), "5 1/2 in"),
            (("cut", 2, "count"), 3),
        )

    def test_a_unit_s_triangles(self):
        finding = found(changed(UNITS, ('cut = "once"\n[[cut]]', 'cut = "twice"\n[[cut]]')), "wrong-triangles")[0]
        assert finding.message.startswith(
            "'dark' is cut twice on the diagonal, but half-square units such as 'hst' need 18 squares of "
            "4 7/8 in cut once"
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
            "'left frame' is cut 7 1/2 in long and ends before its 45-degree trim on the side triangle. Cut it "
            "7 7/8 in or longer, and trim it after sewing."
        )
        assert (finding.level, finding.why) == ("stop", "frame_end")

    def test_mitred_borders(self):
        finding = only(changed(MITRED, ('"43 1/4"', '"42"')), "strip-short")
        assert (
            "ends before the mitre of border 1. Cut it 43 1/4 in or longer" in finding.message
            and finding.why == "mitred_strip"
        )

    def test_long_sashing_strips(self):
        finding = only(changed(LATTICE, ('["22 1/2", "2 1/2"]', '["20", "2 1/2"]')), "strip-short")
        assert (
            "'long' is cut 20 in long and ends before the end of its row. Cut it 22 1/2 in or longer" in finding.message
        )

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
        assert checks(changed(FRAMED, ('"9 3/4"', '"9 1/4"'))) == ["cut-size"]

    def test_said_of_a_strip_that_is_short_beside_a_right_triangle_too(self):
        sheet = changed(FRAMED, ('"9 3/4"', '"9 1/4"'), ('["1 1/2", "7 7/8"]', '["1 1/2", "7 1/2"]'))
        assert checks(sheet) == ["cut-size", "strip-short"]


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
            "'rail' is cut 6 1/4 by 3 1/2 in, too short: cut 6 1/2 by 3 1/2 in, so that the rows of 'four' fit "
            "together."
        )
        assert (finding.level, finding.printed, finding.needed) == ("stop", "6 1/4 by 3 1/2 in", "6 1/2 by 3 1/2 in")

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
        assert {"edges-differ", "cut-size"} & set(checks(sheet))

    SLABS = (
        changed(
            STRAIGHT,
            ('block = "four"', 'block = "square"'),
            (
                'size = "3 1/2"\ncount = 40\n[[cut]]\npart = "B"\nfabric = "cream"\nsize = "3 1/2"',
                'size = ["3 1/2", "6 1/2"]\ncount = 20\n[[cut]]\npart = "B"\nfabric = "cream"\nsize = ["3 1/2", "7"]',
            ),
            ("count = 40", "count = 20"),
            ('[block.four]\nfinished = "6"\nrows = ["A B", "B A"]\n', ""),
        )
        + """
[[step]]
sew = ["A", "B"]
edges = ["right", "left"]
gives = "pair"
[[step]]
trim = "pair"
top = "1/2"
gives = "square"
"""
    )

    def test_what_a_later_step_trims_off_is_no_uneven_edge(self):
        assert found(self.SLABS) == []
        finding = found(changed(self.SLABS, ('top = "1/2"', 'right = "1/8"')), "edges-differ")[0]
        assert "1 seam in 'pair' would join edges of different length" in finding.message

    def test_pieced_cornerstones_may_be_halved_by_the_edge(self):
        """Their own seams meet outside the quilt, as far apart as the quilt is wide."""
        sheet = changed(
            SASHED,
            (
                'part = "stone"\nfabric = "navy"\nsize = "1 1/2"\ncount = 17',
                'part = "bit"\nfabric = "navy"\nsize = "1 1/2"\ncount = 153',
            ),
            (
                "[setting]",
                '[block.stone]\nrows = ["bit bit bit", "bit bit bit", "bit bit bit"]\nfinished = "3"\n[setting]',
            ),
            ('"1 1/2", "6 1/2"', '"3 1/2", "6 1/2"'),
            ('edge = "whole"', 'edge = "half"'),
            ('"11 1/8"', '"9 3/4"'),
            ('"6 5/8"', '"5 1/8"'),
            ('["21 1/4", "31"]', '["25 1/2", "38 1/4"]'),
        )
        assert found(sheet) == []

    def test_easing_takes_up_a_sixteenth(self):
        assert "edges-differ" not in checks(changed(self.RAILS, ('"6 1/4"', '"6 7/16"')))

    def test_silent_where_a_wrong_part_is_the_reason(self):
        assert checks(changed(BASE, ('fabric = "navy"\nsize = "3 1/2"', 'fabric = "navy"\nsize = "3"'))) == ["cut-size"]


class TestFinishedSize:
    def test_half_an_inch_that_the_seams_of_one_border_explain(self):
        above = (
            'part = "short"\nfabric = "cream"\nsize = ["6 1/2", "36 1/2"]\ncount = 2',
            'part = "short"\nfabric = "cream"\nsize = ["6", "24 1/2"]\ncount = 1',
        )
        one = changed(
            BORDERED,
            above,
            (BORDERED[BORDERED.index('[[cut]]\npart = "long"') : BORDERED.index('[[cut]]\npart = "short"')], ""),
            ('sides = "long"\ntop = "short"', 'top = "short"\nonly = ["top"]'),
            ('finished = ["36", "42"]', 'finished = ["24", "36"]'),
        )
        rounded = only(one, "finished-size")
        assert rounded.level == "note"
        assert rounded.message == (
            "The pattern promises 24 by 36 in; sewn as printed the quilt finishes 24 by 35 1/2 in, smaller by 1/2 in, "
            "as it would be where sizes are rounded to the whole inch. With 'short' 6 1/2 in wide it would be as "
            "printed: perhaps the seams are forgotten there. Look at the drawing, or ask."
        )
        assert found(changed(one, ('["24", "36"]', '["24 1/2", "36"]'))) == []  # its outer seams are counted in
        assert found(changed(one, ('["6", "24 1/2"]', '["5 3/4", "24 1/2"]'), ('"36"]', '"35 1/4"]'))) == []
        exact = only(changed(one, ('["6", "24 1/2"]', '["5 3/4", "24 1/2"]'), ('"36"]', '"35 3/4"]')), "finished-size")
        assert (exact.level, exact.fix) == ("ask", ((("cut", 2, "size"), "6 1/4 in x 24 1/2 in"),))

    def test_how_much_is_the_difference_of_the_sizes_that_are_named(self):
        """Also where the size turned round would be nearer, but is not it."""
        finding = only(changed(BASE, ('finished = ["17", "25 1/2"]', 'finished = ["24", "12"]')), "finished-size")
        assert "promises 24 by 12 in" in finding.message and "17 by 25 7/16 in, larger by 13 7/16 in" in finding.message

    def test_a_size_added_up_straight(self):
        finding = only(changed(BASE, ('["17", "25 1/2"]', '["12", "18"]')), "finished-size")
        assert finding.message == (
            "The pattern promises 12 by 18 in; sewn as printed the quilt finishes 17 by 25 7/16 in, larger by "
            "7 7/16 in. Buy binding, backing and batting for the real size, or ask which figure is wrong."
        )
        assert (finding.level, finding.why) == ("stop", "on_point")

    def test_within_an_inch_it_is_a_note(self):
        assert only(changed(BASE, ('["17", "25 1/2"]', '["17 3/4", "26"]')), "finished-size").level == "note"

    @pytest.mark.parametrize(
        "width, height, level",
        [(37, 42, "note"), (35, 41, "note"), (37, 43, "ask"), (38, "43 1/4", "stop"), (36, 44, "stop")],
    )
    def test_what_is_large_beside_the_quilt_is_graver(self, width, height, level):
        sheet = changed(BORDERED, ('["36", "42"]', f'["{width}", "{height}"]'))
        finding = only(sheet, "finished-size")
        assert finding.level == level
        assert ("Nothing else that is printed depends on it" in finding.message) == (level == "note")

    def test_three_in_a_hundred_of_a_large_quilt_are_a_note(self):
        large = changed(
            STRAIGHT,
            ("across = 4\ndown = 5", "across = 12\ndown = 15"),
            ("count = 40", "count = 360"),
            ('"1 yd"', '"6 yd"'),
            ('"1 1/2 yd"', '"6 yd"'),
        )
        for width, height, level in ((74, 92, "note"), (75, 93, "stop")):
            sheet = changed(large, ('["24", "30"]', f'["{width}", "{height}"]'))
            assert only(sheet, "finished-size").level == level

    @pytest.mark.parametrize(
        "pairs, outgrown",
        [
            ([(BACKING, '[backing]\nsize = ["36", "42"]')], "The backing printed"),
            ([(BATTING, '[batting]\nsize = ["36", "42"]')], "The batting printed"),
            ([("count = 5", "count = 3"), ('strip = "2 1/4"', 'strip = "2 1/4"\njoin = "straight"')], ""),
        ],
    )
    def test_it_is_graver_where_what_is_bought_for_it_will_not_do(self, pairs, outgrown):
        smaller = changed(BORDERED, ('["36", "42"]', '["35 1/4", "41 1/4"]'))
        assert only(smaller, "finished-size").level == "note"
        found_first = found(changed(smaller, *pairs))[0]
        if outgrown:
            assert found_first.check == "finished-size" and found_first.level == "stop"
            assert f"{outgrown} will not do for that: buy and cut for the real size" in found_first.message
        else:  # too short for the printed size as well: its own fault
            assert found_first.check == "binding-short"

    @pytest.mark.parametrize(
        "size", ['["16.97", "25.46"]', '["25 1/2", "17"]', '"17 in x 25 1/2 in"', '["17 3/8", "25 3/4"]']
    )
    def test_rounded_or_height_first(self, size):
        assert found(changed(BASE, ('["17", "25 1/2"]', size))) == []

    def test_the_other_edge_of_a_sashed_quilt(self):
        finding = only(changed(SASHED, ('edge = "whole"', 'edge = "half"')), "finished-size")
        assert finding.message.endswith(
            " With whole cornerstones at the edge it would come to the printed size: look which the drawing shows."
        )

    def test_nothing_printed(self):
        assert checks(changed(BASE, ('finished = ["17", "25 1/2"]\n', ""))) == ["not-stated"]

    def test_seams_that_a_border_lacks_are_asked_about(self):
        sheet = changed(
            BORDERED, ('["6 1/2", "30 1/2"]', '["6", "30 1/2"]'), ('["6 1/2", "36 1/2"]', '["6", "36 1/2"]')
        )
        finding = only(sheet, "finished-size")
        assert finding.message.endswith(
            "smaller by 1 in. With 'long' 6 1/2 in and 'short' 6 1/2 in wide it would be as printed: perhaps the seams "
            "are forgotten there. Plan with the size it comes to, or ask which figure is wrong."
        )
        assert finding.level == "ask"
        assert [value for _, value in finding.fix] == ["6 1/2 in x 30 1/2 in", "6 1/2 in x 36 1/2 in"]

    TWO_BORDERS = changed(
        STRAIGHT,
        ('["24", "30"]', '["34", "40"]'),
        (
            "[block.four]",
            "[fabric.scraps]\nscraps = true\n"
            + "".join(
                f'[[cut]]\npart = "{part}"\nfabric = "scraps"\nstrip = "{strip}"\ncount = {count}\n'
                for part, strip, count in (("H", "3 1/2", 4), ("K", "2 1/2", 5))
            )
            + "[block.four]",
        ),
    ) + "".join(
        f'[[border]]\nsides = "{part}"\nsides_length = "{side}"\ntop = "{part}"\ntop_length = "{top}"\n'
        for part, side, top in (("H", "30 1/2", "30 1/2"), ("K", "36 1/2", "34 1/2"))
    )

    @pytest.mark.parametrize("wrong", ["3 1/4", "3 3/4"])
    def test_a_strip_with_whose_other_width_size_and_lengths_come_out(self, wrong):
        assert found(self.TWO_BORDERS) == []
        finding = only(changed(self.TWO_BORDERS, ('strip = "3 1/2"', f'strip = "{wrong}"')), "finished-size")
        assert finding.message.endswith(
            "by 1/2 in. With 'H' 3 1/2 in wide it would be just as printed, and more that is printed agrees with that. "
            "Ask which is meant."
        )
        assert (finding.level, finding.parts) == ("ask", {"H"})
        assert [new for _, new in finding.fix] == ["3 1/2 in"]

    def test_one_that_only_a_rounded_size_tells_of_is_none(self):
        inner = self.TWO_BORDERS[: self.TWO_BORDERS.rindex("[[border]]")]
        one = changed(
            inner,
            ('[[cut]]\npart = "K"\nfabric = "scraps"\nstrip = "2 1/2"\ncount = 5\n', ""),
            ('sides_length = "30 1/2"\n', ""),
            ('top_length = "30 1/2"\n', ""),
        )
        for wide, printed, asked in (
            ("3 1/4", '"30", "36"', False),  # 29 1/2 by 35 1/2, to the inch
            ("3 1/2", '"30 1/2", "36 1/2"', False),  # with the outer seams
            ("3 3/8", '"30", "36"', False),
            ("3 1/4", '"29 3/4", "35 3/4"', True),
        ):
            sheet = changed(one, ('"34", "40"', printed), ('strip = "3 1/2"', f'strip = "{wide}"'))
            assert [finding.check for finding in found(sheet)] == ["finished-size"] * asked, (wide, printed)

    def test_a_quilt_worked_out_from_a_wrong_block_is_one_finding(self):
        of_three = "".join(
            f'[[cut]]\npart = "{part}"\nfabric = "prints"\nsize = "2 1/2"\ncount = 60\n' for part in "ABC"
        )
        sheet = (
            f'title = "Three by three"\nseam = "1/4"\nfinished = ["26", "32 1/2"]\n{of_three}[block.nine]\n'
            'rows = ["A B C", "B C A", "C A B"]\nfinished = "6 1/2"\n'
            '[setting]\nstyle = "straight"\nacross = 4\ndown = 5\nblock = "nine"\n'
        )
        finding = only(sheet, "cut-size")
        assert finding.level == "stop"
        assert "comes to 6 in, and the quilt then to 24 by 30 in and not to 26 by 32 1/2 in." in finding.message
        assert [path[-1] for path, _ in finding.fix] == ["finished", "finished"]


class TestBorderLength:
    def test_strips_in_each_others_place(self):
        swapped = changed(BORDERED, ('sides = "long"\ntop = "short"', 'sides = "short"\ntop = "long"'))
        finding = only(swapped, "border-length")
        assert (finding.level, finding.parts) == ("stop", {"long", "short"})
        assert finding.fix == ((("border", 0, "sides"), "long"), (("border", 0, "top"), "short"))

    def test_side_borders_forgotten(self):
        finding = only(changed(BORDERED, ('"36 1/2"', '"24 1/2"')), "border-length")
        assert finding.message == (
            "Border 1, top and bottom: 'short' is cut 24 1/2 in long, but the edge it is sewn to measures 36 1/2 in. "
            "Cut borders after measuring the quilt top; these must be 36 1/2 in."
        )

    def test_too_few_strips(self):
        finding = only(changed(STRIPPED, ('strip = "6 1/2"\ncount = 4', 'strip = "6 1/2"\ncount = 3')), "border-length")
        assert finding.message == (
            "The borders cut from 'long' measure 134 in in all, but 3 strips of 42 in give 125 in once joined. "
            "Cut 4 strips."
        )

    def test_too_few_strips_of_fabric_of_some_widths(self):
        sheet = changed(
            STRIPPED,
            ('strip = "6 1/2"\ncount = 4', 'strip = "4 3/4"\ncount = 3'),
            ('["36", "42"]', '["32 1/2", "38 1/2"]'),
            NO_WIDTH,
        )
        finding = only(sheet, "border-length")
        assert finding.message == (
            "The borders cut from 'long' measure 127 in in all, and the pattern does not say how wide their fabric "
            "must be: 3 strips, joined, are enough at 44 in, 1 strip short at 42 in and at 40 in. Ask, or cut 4 strips."
        )
        assert (finding.level, finding.question) == (
            "ask",
            "How wide is the fabric of 'cream' meant to be? The pattern prints no usable width, and it decides.",
        )
        for count in (2, 4):
            few = found(changed(sheet, ('strip = "4 3/4"\ncount = 3', f'strip = "4 3/4"\ncount = {count}')))
            assert [one.level for one in few] == (["stop"] if count == 2 else [])

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
        upright = changed(keys, (f'"{" ".join(["key"] * 10)}"', ", ".join(['"key:90"'] * 10)))
        for drawn, row, keys_of in ((keys, "Row 1 of ", "key"), (upright, "", "key:90")):
            join, more = (" ", '"') if drawn is keys else ('", "', '"')
            said = only(changed(drawn, (join.join([keys_of] * 10) + more, join.join([keys_of] * 8) + more)), "cut-size")
            assert said.message.startswith(
                f"{row}'keys' comes to 24 in and should come to 30 in: 2 of 'key' are left out. Add them"
            )
            assert sum(map(len, said.fix[0][1])) == 10

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

    def test_borders_a_little_longer_are_trimmed(self):
        assert found(changed(BORDERED, ('"36 1/2"', '"39"'))) == []

    @pytest.mark.parametrize("long, more", [("39 1/2", "3 in"), ("44 1/2", "8 in")])
    def test_far_longer_ones_are_asked_about(self, long, more):
        finding = only(changed(BORDERED, ('"36 1/2"', f'"{long}"'), ("1 1/2 yd", "2 yd")), "border-length")
        assert finding.message == (
            f"Border 1, top and bottom: 'short' is cut {long} in long, and the edge it is sewn to measures 36 1/2 in: "
            f"{more} more. Sewn on as it is, it makes a wavy edge. Ask whether it is meant to be trimmed; if not, "
            "measure the quilt top through its middle and cut it to that (36 1/2 in here)."
        )
        assert (finding.level, finding.needed) == ("ask", "36 1/2 in")

    @pytest.mark.parametrize(
        "line", ["Measure the top and cut the borders to fit.", "Sew on the borders and trim the ends level."]
    )
    def test_not_where_they_are_measured_or_trimmed(self, line):
        sheet = changed(BORDERED, ('"36 1/2"', '"44 1/2"'), ("1 1/2 yd", "2 yd"))
        assert found(f'instructions = ["{line}"]\n{sheet}') == []

    def test_not_where_they_are_as_long_as_the_fabric_is_wide(self):
        assert found(changed(BORDERED, ('"36 1/2"', '"42"'), ("1 1/2 yd", "2 yd"))) == []

    def test_one_part_for_both_pairs_is_as_long_as_the_longer(self):
        sheet = changed(
            BORDERED,
            ('top = "short"', 'top = "long"'),
            ('["6 1/2", "30 1/2"]\ncount = 2', '["6 1/2", "36 1/2"]\ncount = 4'),
            ('[[cut]]\npart = "short"\nfabric = "cream"\nsize = ["6 1/2", "36 1/2"]\ncount = 2\n', ""),
        )
        assert found(sheet) == []

    @pytest.mark.parametrize(
        "long, says", [("30 1/2", []), ("32 1/2", []), ("34", ["border-length"]), ("30", ["edges-differ"])]
    )
    def test_strips_that_steps_sew_on_are_borders_too(self, long, says):
        sheet = changed(
            STRAIGHT,
            ('["24", "30"]', '["28", "30"]'),
            (
                "[block.four]",
                f'[[cut]]\npart = "strip"\nfabric = "navy"\nsize = ["2 1/2", "{long}"]\ncount = 2\n[block.four]',
            ),
        )
        steps = [("setting", "left", "right", "half"), ("half", "right", "left", "whole")]
        for on, mine, theirs, gives in steps:
            sheet += f'[[step]]\nsew = ["{on}", "strip"]\nedges = ["{mine}", "{theirs}"]\ngives = "{gives}"\n'
        assert checks(sheet) == says

    def test_no_borders(self):
        assert found(BASE, "border-length") == []

    LENGTHWISE = changed(
        STRIPPED, ('strip = "6 1/2"\ncount = 4', 'strip = "6 1/2"\nlength = "36 1/2"\nlengthwise = true\ncount = 4')
    )

    @pytest.mark.parametrize(
        "long, count, level",
        [("30", "4", "stop"), ("34", "4", "ask"), ("34", '"enough"', "ask"), ("36", "5", ""), ("36 1/2", "4", "")],
    )
    def test_strips_along_the_selvage_one_for_each_edge(self, long, count, level):
        """Too short in all they must be longer, and where they would have to be joined it is asked."""
        sheet = changed(
            self.LENGTHWISE, ("36 1/2", long), ("lengthwise = true\ncount = 4", f"lengthwise = true\ncount = {count}")
        )
        told = [(one.level, one.needed, one.path[-1]) for one in found(sheet)]
        assert told == ([(level, "36 1/2 in", "length")] if level else [])

    def test_strips_as_long_as_their_edges_need_no_join(self):
        sides = changed(
            self.LENGTHWISE,
            ('"36 1/2"\nlengthwise = true\ncount = 4', '"30 1/2"\nlengthwise = true\ncount = 2'),
            ('top = "long"\n', ""),
            ('["36", "42"]', '["36", "30"]'),
        )
        assert found(sides) == []

    def test_two_lengths_in_each_others_place(self):
        lengths = 'sides = "long"\nsides_length = "{}"\ntop = "long"\ntop_length = "{}"'
        swapped = changed(STRIPPED, ('sides = "long"\ntop = "long"', lengths.format("36 1/2", "30 1/2")))
        finding = only(swapped, "border-length")
        assert (finding.printed, finding.needed) == ("36 1/2 in and 30 1/2 in", "30 1/2 in and 36 1/2 in")
        assert len(found(swapped)) == 1 and [value for _, value in finding.fix] == ["30 1/2 in", "36 1/2 in"]
        top_first = changed(STRIPPED, ('sides = "long"\ntop = "long"', lengths.format("42 1/2", "24 1/2")))
        assert found(top_first) == []


class TestFabricShort:
    @pytest.mark.parametrize(
        ("count", "level", "asked"),
        [(49, "ask", "fabric-short"), (80, "ask", "piece-count"), (30, "stop", "piece-count")],
    )
    def test_what_is_short_for_spare_pieces_alone(self, count, level, asked):
        """40 squares take 4 strips 3 1/2 in wide; the next one begins a fifth."""
        navy = 'fabric = "navy"\nsize = "3 1/2"\ncount = '
        sheet = changed(BORDERED, (f"{navy}40", f"{navy}{count}"), ('"1 yd"', '"15 in"'))
        found_there = [finding for finding in found(sheet) if finding.level != "note"]
        assert [(one.level, one.check) for one in found_there] == [(level, asked)]
        if asked == "fabric-short":
            assert found_there[0].message == (
                "15 in of 'navy' will do for what the quilt takes, and not for the spare pieces that are cut besides "
                "('A'). Cut no more than it takes, or ask."
            )

    def test_less_than_the_least(self):
        finding = only(
            changed(BORDERED, ('[fabric.cream]\nbought = "1 1/2 yd"', '[fabric.cream]\nbought = "1/2 yd"')),
            "fabric-short",
        )
        assert finding.message.startswith("1/2 yd of 'cream' will not do: its pieces take at least ")
        assert finding.message.endswith("cut as well as can be, and 18 in are bought. Buy 1 1/8 yd.")
        assert (finding.level, finding.why) == ("stop", "08-fabric-to-buy")

    @pytest.mark.parametrize("bought, level", [("13", "stop"), ("14", "ask"), ("15", "ask"), ("17 1/2", "")])
    def test_short_of_fabric_of_some_widths_only_is_asked(self, bought, level):
        """48 squares of 3 1/2 in: 11 in a strip of 40 in, so five strips, but 12 in one of 42 or 44 in."""
        sheet = changed(
            STRAIGHT,
            NO_WIDTH,
            ("count = 40", "count = 48"),
            ('[fabric.navy]\nbought = "1 yd"', f'[fabric.navy]\nbought = "{bought} in"'),
        )
        told = found(sheet, "fabric-short")
        assert [one.level for one in told] == [level] * bool(level)
        if level == "stop":
            assert "take at least 14 in even of fabric 44 in wide" in told[0].message
        elif level:
            assert told[0].message.startswith("The pattern does not say how wide 'navy' must be, and it decides: ")
            short = "3 1/2" if bought == "14" else "2 1/2"
            assert told[0].message.endswith(
                f" in is enough at 42 in, {short} in short at 40 in. Ask, or buy 1/2 yd, which will do for fabric 40 "
                "in wide."
            )

    def test_a_length_that_suffices_to_the_last_inch_is_a_note(self):
        """Four strips of 3 1/2 in: 14 in."""
        for bought, left in (("14 in", "nothing"), ("14 3/4 in", "only 3/4 in"), ("15 in", "")):
            told = found(changed(STRAIGHT, ('[fabric.navy]\nbought = "1 yd"', f'[fabric.navy]\nbought = "{bought}"')))
            assert [one.level for one in told] == ["note"] * bool(left)
            if left:
                assert f"its pieces take 14 in, and {left} is left to straighten the ends" in told[0].message

    @pytest.mark.parametrize(
        "bought, strips, level", [("15", 1, "ask"), ("17", 1, ""), ("15", 0, ""), ("15", 4, "ask")]
    )
    def test_strips_that_take_more_than_is_bought_are_asked(self, bought, strips, level):
        """Two strips of 4 1/2 in and three of 2 1/2 in take 16 1/2 in; the short sashing cut from what the other strips
        leave, the pieces take 14. Strips that no piece needs take nothing."""
        printed = [
            ("count = 12", 'count = 12\nstrips = 2\nstrip_width = "4 1/2"'),
            ("count = 9", f'count = 9\nstrips = {strips}\nstrip_width = "2 1/2"' if strips else "count = 9"),
            ("count = 2\n[setting]", 'count = 2\nstrips = 2\nstrip_width = "2 1/2"\n[setting]'),
        ]
        sheet = changed(LATTICE, ('bought = "1 yd"', f'bought = "{bought} in"'), *printed)
        told = [one for one in found(sheet, "fabric-short") if one.level != "note"]
        assert [one.level for one in told] == [level] * bool(level)
        if told:
            assert told[0].message == (
                "15 in of 'moss' is too little for the strips as they are printed: side by side they take 16 1/2 in, "
                "and 15 in are bought. Only cut otherwise would the pieces fit. Ask, or buy 1/2 yd."
            )
            assert "fabric-short" not in {one.check for one in found(changed(sheet, ('"15 in"', '"1/2 yd"')))}

    def test_what_is_to_be_bought_will_do_for_the_printed_strips(self):
        """The short sashing from a strip of its own, 4 1/2 in wide: 18 1/2 in; the pieces alone, 13 1/2 at most."""
        printed = [
            ("count = 12", 'count = 12\nstrips = 2\nstrip_width = "4 1/2"'),
            ("count = 9", 'count = 9\nstrips = 1\nstrip_width = "4 1/2"'),
            ("count = 2\n[setting]", 'count = 2\nstrips = 2\nstrip_width = "2 1/2"\n[setting]'),
        ]
        short = changed(LATTICE, ('bought = "1 yd"', 'bought = "8 in"'))
        assert only(short, "fabric-short").needed == "3/8 yd"
        assert only(changed(short, *printed), "fabric-short").needed == "5/8 yd"

    def test_bias_binding_takes_fabric_as_straight_binding_does(self):
        bound = STRAIGHT + '[binding]\nfabric = "navy"\nstrip = "2 1/2"\ncount = 2\nstyle = "bias"\n'
        assert found(bound) == []
        less = changed(bound, ('[fabric.navy]\nbought = "1 yd"', '[fabric.navy]\nbought = "1/2 yd"'))
        finding = only(less, "fabric-short")
        assert finding.level == "stop" and "take at least 18 3/4 in" in finding.message
        assert found(changed(less, ('fabric = "navy"\nstrip', 'fabric = "other"\nstrip'))) == []
        assert finding.needed == "3/4 yd"
        assert found(changed(less, ('bought = "1/2 yd"', f'bought = "{finding.needed}"'))) == []

    def test_binding_of_the_same_cloth_counts(self):
        bound = changed(STRAIGHT, ('[fabric.navy]\nbought = "1 yd"', '[fabric.navy]\nbought = "1/2 yd"'))
        assert found(bound) == []
        more = bound + '[binding]\nfabric = "navy"\nstrip = "2 1/2"\ncount = 3\n'
        assert only(more, "fabric-short").message.startswith("1/2 yd of 'navy' will not do")

    def test_no_cloth_printed(self):
        assert found(UNITS, "fabric-short") == []

    def test_a_cloth_that_nothing_is_cut_from(self):
        """It is not short; that it is bought for nothing is told of the pieces."""
        spare = '[fabric.spare]\nbought = "1/8 yd"\nusable_width = "42"\n[fabric.navy]'
        assert checks(STRAIGHT.replace("[fabric.navy]", spare)) == ["piece-count"]


class TestBindingShort:
    def test_too_few_strips(self):
        finding = only(changed(BORDERED, ('strip = "2 1/4"\ncount = 5', 'strip = "2 1/4"\ncount = 3')), "binding-short")
        assert finding.message == (
            "3 strips of 42 in, joined with straight seams, give 124 1/2 in of binding; the quilt is 156 in round and "
            "a binding needs at least 2 in more to close. Cut 4 strips."
        )
        assert finding.level == "stop"

    @pytest.mark.parametrize("join, count, level", [("", 4, "ask"), ("diagonal", 4, "ask"), ("straight", 4, "")])
    def test_too_few_of_fabric_of_some_widths_is_asked(self, join, count, level):
        """Four strips of 40 in give 151 in joined on the diagonal and 158 in joined straight; of 42 in 159 or 166."""
        sheet = changed(BORDERED, NO_WIDTH, ('strip = "2 1/4"\ncount = 5', f'strip = "2 1/4"\ncount = {count}'))
        sheet = changed(sheet, ('strip = "2 1/4"', f'strip = "2 1/4"\njoin = "{join}"')) if join else sheet
        told = found(sheet)
        assert [(one.check, one.level) for one in told] == [("binding-short", level)] * bool(level)
        if join == "diagonal":
            assert told[0].message.startswith(
                "The pattern does not say how wide the fabric of the binding must be, and it decides: 4 strips of "
                "binding are enough at 42 in, 1 strip short at 40 in; the quilt is 156 in round"
            )
        if level:
            assert told[0].fix == ((("binding", "count"), 5),) and told[0].question.startswith("How ")

    @pytest.mark.parametrize("count, level", [(2, "stop"), (3, "")])
    def test_strips_with_a_length_of_their_own_are_so_long(self, count, level):
        """Three strips of 60 in are enough for 156 in round, of 42 in they are not."""
        part = '[binding]\npart = "bound"\n[[cut]]\npart = "bound"\nfabric = "binding cloth"\nstrip = "2 1/4"\n'
        printed = '[binding]\nfabric = "binding cloth"\nstrip = "2 1/4"\ncount = 5\n'
        sheet = changed(BORDERED, (printed, f'{part}length = "60"\ncount = {count}\nlengthwise = true\n'))
        assert [one.level for one in found(sheet, "binding-short")] == [level] * bool(level)

    @pytest.mark.parametrize("height, short", [("40", False), ("40 1/32", False), ("40 1/4", True)])
    def test_what_rounding_makes_of_the_edges_is_not_blamed(self, height, short):
        """Four strips of 42 in, 2 1/2 in wide and joined on the diagonal, give 158 in: enough for 156 in round."""
        sheet = pattern.read_text(changed(BORDERED, ('strip = "2 1/4"\ncount = 5', 'strip = "2 1/2"\ncount = 4')))
        assert cloth.ring(sheet, (lengths.parse("38"), lengths.parse(height)), "diagonal").short is short

    def test_too_few_by_some_joins_is_asked(self):
        sheet = changed(BORDERED, ('usable_width = "42"', 'usable_width = "41"'), ("count = 5", "count = 4"))
        finding = only(sheet, "binding-short")
        assert finding.message.startswith(
            "The pattern does not say how the strips of the binding are joined, and it decides: 4 strips of binding "
            "are enough if joined with straight seams but 1 strip short if joined on the diagonal; "
        )
        assert finding.level == "ask"

    @pytest.mark.parametrize("strip", ["1/8", "1/2", "7/8"])
    def test_a_strip_so_narrow_that_it_is_no_binding(self, strip):
        finding = only(changed(BORDERED, ('strip = "2 1/4"', f'strip = "{strip}"')), "binding-short")
        assert finding.message.startswith(f"A binding strip {strip} in wide cannot go round an edge")
        assert (finding.level, finding.path, finding.needed) == ("stop", ("binding", "strip"), "at least 1 in")

    @pytest.mark.parametrize("strip", ["1", "1 1/4", "2", "2 1/2"])
    def test_a_strip_for_a_binding_folded_once_or_double(self, strip):
        assert found(changed(BORDERED, ('strip = "2 1/4"', f'strip = "{strip}"'))) == []

    def test_bias_strips_are_longer(self):
        assert (
            found(changed(BORDERED, ('strip = "2 1/4"\ncount = 5', 'strip = "2 1/4"\ncount = 3\nstyle = "bias"'))) == []
        )

    def test_no_binding_told(self):
        assert found(BASE, "binding-short") == []

    def test_silent_where_the_size_is_wrong(self):
        assert checks(
            changed(
                BORDERED, ('strip = "2 1/4"\ncount = 5', 'strip = "2 1/4"\ncount = 3'), ('["36", "42"]', '["30", "30"]')
            )
        ) == ["finished-size"]


class TestBackingSmall:
    def test_no_larger_than_the_quilt(self):
        for size in ('"36", "42"', '"36 1/4", "60"', '"35", "44"'):
            finding = only(changed(BORDERED, (BACKING, f"[backing]\nsize = [{size}]")), "backing-small")
            assert finding.level == "stop"
        assert finding.message == (
            "The backing of 35 by 44 in is too small for a quilt of 36 by 42 in, whose top is 36 1/2 by 42 1/2 in with "
            "its seams: it must be larger all round: 2 in is the least for a hoop, 4 in for a longarm frame (common "
            "practice). Buy or cut at least 40 by 46 in."
        )

    @pytest.mark.parametrize(
        "size, over", [('"39", "45"', "1 1/2 in"), ('"38", "60"', "1 in"), ('"46", "36 1/2"', "1/4 in")]
    )
    def test_larger_and_yet_less_than_is_usual_is_asked_with_both_figures(self, size, over):
        finding = only(changed(BORDERED, (BACKING, f"[backing]\nsize = [{size}]")), "backing-small")
        assert finding.level == "ask" and "or buy or cut at least 40 by 46 in" in finding.message
        assert (
            f"leaves {over} over on each side of a quilt of 36 by 42 in; 2 in is the least for a hoop, 4 in for a "
            "longarm frame (common practice)" in finding.message
        )

    def test_the_usual_least_is_enough(self):
        assert found(changed(BORDERED, (BACKING, '[backing]\nsize = ["40", "46"]'))) == []

    @pytest.mark.parametrize("bought, level", [("2 yd", "stop"), ("2 1/8 yd", "ask"), ("2 1/4 yd", "")])
    def test_a_length_in_panels_at_each_width(self, bought, level):
        """A quilt of 36 by 72 in, whose two panels, one beside the other, reach across it at any width."""
        sheet = changed(
            STRAIGHT,
            NO_WIDTH,
            ("across = 4\ndown = 5", "across = 6\ndown = 12"),
            ("count = 40", "count = 144"),
            ('["24", "30"]', '["36", "72"]'),
            ('"1 yd"', '"3 yd"'),
            ('"1 1/2 yd"', '"3 yd"'),
        )
        told = found(sheet + f'[backing]\nbought = "{bought}"\npanels = 2\n')
        assert [(one.check, one.level) for one in told] == [("backing-small", level)] * bool(level)

    def test_a_width_that_decides_is_asked(self):
        sheet = changed(BORDERED, NO_WIDTH, (BACKING, '[backing]\nbought = "1 1/2 yd"\npanels = 1'))
        assert found(sheet) == []
        wider = changed(
            sheet,
            ('size = ["6 1/2", "30 1/2"]', 'size = ["7 1/4", "30 1/2"]'),
            ('size = ["6 1/2", "36 1/2"]', 'size = ["6 1/2", "38"]'),
            ('["36", "42"]', '["37 1/2", "42"]'),
        )
        finding = only(wider, "backing-small")
        assert finding.message == (
            "The pattern does not say how wide the fabric of the backing must be, and it decides: 1 1/2 yd is enough "
            "at 42 in, 1 1/4 in over on each side at 40 in; 2 in is the least for a hoop, 4 in for a longarm frame "
            "(common practice). Ask, or buy more: 2 3/8 yd in 2 panels gives at least 41 1/2 by 46 in."
        )
        assert finding.level == "ask" and found(changed(wider, ("panels = 1", 'panels = 1\nusable_width = "42"'))) == []

    def test_size_and_length_are_held_against_each_other(self):
        both = changed(BORDERED, (BACKING, '[backing]\nsize = ["44", "50"]\nbought = "3 yd"\nusable_width = "42"'))
        assert found(both) == []
        short = changed(both, ('bought = "3 yd"', 'bought = "1 1/4 yd"'))
        finding = only(short, "backing-small")
        assert finding.level == "ask" and finding.message.startswith(
            "The backing from 1 1/4 yd of fabric, 42 by 45 in and not the 44 by 50 in printed, leaves 1 1/2 in over"
        )
        enough = only(changed(both, ('bought = "3 yd"', 'bought = "1 3/8 yd"')), "backing-small")
        assert enough.level == "note" and "not the 44 by 50 in printed, is still large enough" in enough.message

    def test_nobody_is_told_not_to_cut_where_more_will_do(self):
        sheet = changed(BORDERED, (BACKING, '[backing]\nsize = ["36", "42"]'))
        assert headline(reviewed(sheet)).startswith("STOP: what it says to buy will not do. Buy or cut more")
        worse = changed(
            sheet, ('part = "A"\nfabric = "navy"\nsize = "3 1/2"', 'part = "A"\nfabric = "navy"\nsize = "3"')
        )
        assert headline(reviewed(worse)).startswith("STOP: do not cut.")
        assert headline(reviewed(BORDERED)).startswith("GO: ")

    def test_what_to_buy_is_given_in_lengths(self):
        finding = only(
            changed(BORDERED, (BACKING, '[backing]\nbought = "1 yd"\nusable_width = "42"\npanels = 1')), "backing-small"
        )
        assert (
            finding.level == "stop" and "Buy more: 1 3/8 yd in 1 panel gives at least 40 by 46 in." in finding.message
        )
        assert finding.fix == ((("backing", "bought"), "1 3/8 yd"), (("backing", "panels"), 1))

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

    def test_less_than_is_usual_is_asked(self):
        assert only(changed(BORDERED, (BATTING, '[batting]\nsize = ["37", "44"]')), "batting-small").level == "ask"

    def test_a_length_off_the_roll(self):
        by_length = changed(BORDERED, (BATTING, '[batting]\nbought = "1 1/4 yd"\nusable_width = "90"'))
        assert found(by_length) == []
        finding = only(changed(by_length, ('bought = "1 1/4 yd"', 'bought = "1 yd"')), "batting-small")
        assert (finding.level, finding.printed) == ("stop", "90 by 36 in")

    def test_four_inches_in_all_are_enough(self):
        assert found(changed(BORDERED, ('[batting]\nsize = ["44", "50"]', '[batting]\nsize = ["40", "46"]'))) == []

    def test_none_told(self):
        assert found(BASE, "batting-small") == []

    @pytest.mark.parametrize("side, level", [("41", []), ("40.5", ["ask"])])
    def test_five_centimetres_all_round_are_enough(self, side, level):
        sheet = pattern.sheet.EXAMPLE.replace("[[cut]]", 'units = "cm"\nseam = "0.75 cm"\nfinished = "31"\n[[cut]]')
        sheet = sheet.replace('"3 1/2"', '"9.25"') + f'[batting]\nsize = "{side}"\n'
        assert [one.level for one in found(sheet)] == level


class TestPrintTurned:
    def test_boats_that_sail_downhill(self):
        finding = only(changed(BASE, ("[fabric.cream]", "[fabric.cream]\ndirectional = true")), "print-turned")
        assert finding.message == (
            "'cream' is a directional print, and 16 patches of it will lie turned by 45 degrees in the quilt. Ask "
            "whether that is meant; if not, choose a print without direction."
        )
        assert finding.level == "ask"

    def test_a_straight_setting_keeps_it_upright(self):
        assert found(changed(STRAIGHT, ("[fabric.cream]", "[fabric.cream]\ndirectional = true"))) == []

    def test_border_strips_lie_both_ways(self):
        strips = changed(STRIPPED, ("[fabric.cream]", "[fabric.cream]\ndirectional = true"), ("1 1/2 yd", "3 yd"))
        finding = only(strips, "print-turned")
        assert finding.message == (
            "'cream' is a directional print, and 2 patches of it will lie on their side ('long') in the quilt. Ask "
            "whether that is meant; if not, cut the turned pieces of 'long' in the other direction of the fabric."
        )
        assert finding.why == "07-sashing-frames-borders"

    def test_sashes_lie_both_ways(self):
        upright = changed(LATTICE, ("[fabric.moss]", "[fabric.moss]\ndirectional = true"), ('"1 yd"', '"2 yd"'))
        assert found(upright) == []
        around = changed(
            upright,
            ('strip = "long"\naround = false', 'cornerstone = "stone"'),
            (
                '[[cut]]\npart = "long"\nfabric = "moss"\nsize = ["22 1/2", "2 1/2"]\ncount = 2',
                '[[cut]]\npart = "stone"\nfabric = "moss"\nsize = "2 1/2"\ncount = 20',
            ),
            ('finished = ["22", "16"]', 'finished = ["26", "20"]'),
            ("count = 9", "count = 31"),
        )
        assert "16 patches of it will lie on their side ('sash')" in only(around, "print-turned").message

    def test_pieces_of_units_that_lie_all_ways(self):
        units = changed(
            UNITS,
            ('[[cut]]\npart = "dark"', '[fabric.navy]\ndirectional = true\n[fabric.cream]\n[[cut]]\npart = "dark"'),
        )
        assert found(units) == []
        turned = changed(units, ('block = "hst"', 'block = "four"'), ("across = 6\ndown = 6", "across = 3\ndown = 3"))
        turned = changed(turned, ("[setting]", '[block.four]\nrows = ["hst hst:90", "hst:270 hst:180"]\n[setting]'))
        assert "18 patches of it will lie on their side ('dark')" in only(turned, "print-turned").message

    def test_edge_triangles_from_one_square_lie_both_ways(self):
        plain = changed(
            BASE,
            (
                "[fabric.cream]",
                '[fabric.edge]\nbought = "1 yd"\nusable_width = "42"\ndirectional = true\n[fabric.cream]',
            ),
            ('part = "side"\nfabric = "navy"', 'part = "side"\nfabric = "edge"'),
            ('part = "corner"\nfabric = "navy"', 'part = "corner"\nfabric = "edge"'),
        )
        finding = only(plain, "print-turned")
        assert finding.message == (
            "'edge' is a directional print, and 6 patches of it will lie on their side ('side', 'corner') in the "
            "quilt. Ask whether that is meant; if not, cut half of the squares for 'corner' on the other diagonal; lay "
            "the triangles 'side' as their print stands (of the four from a square two fit at the top and bottom, two "
            "at the sides)."
        )

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
        assert finding.message.startswith(
            "Step 1 of the instructions cuts the borders before the quilt top is measured."
        )
        assert (finding.level, finding.printed, finding.where) == ("note", "step 1", "sheet, line 1")

    def test_a_bias_cut_before_it_is_stay_stitched(self):
        sheet = self.told(HALVED, "Cut the blocks on the diagonal.", "Stay-stitch the long edges.")
        assert "on the bias before it is stay-stitched" in found(sheet, "order-of-work")[0].message
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

    @pytest.mark.parametrize(
        "told, meant",
        [
            (
                ["Cut the borders.", "Sew rows.", "Measure the top.", "Sew on the borders."],
                ["Sew rows.", "Measure the top.", "Cut the borders.", "Sew on the borders."],
            ),
            (
                ["Cut the borders.", "Sew rows.", "Sew on the borders.", "Measure for the binding."],
                ["Sew rows.", MEASURE, "Cut the borders.", "Sew on the borders.", "Measure for the binding."],
            ),
            (
                ["Cut all pieces and the borders.", "Sew rows."],
                [f"Cut all pieces and the borders. {LATER}", "Sew rows.", MEASURE, CUT_BORDERS],
            ),
        ],
    )
    def test_the_line_that_comes_too_soon_is_moved(self, told, meant):
        found_ = reviewed(self.told(BORDERED, *told))
        assert dict(found_.findings[0].fix) == {("instructions",): meant}
        assert found(self.told(BORDERED, *meant)) == []

    def test_so_is_stay_stitching(self):
        sheet = self.told(HALVED, "Sew the blocks.", "Cut them on the diagonal.", "Stay-stitch the long edges.")
        meant = ["Sew the blocks.", "Stay-stitch the long edges.", "Cut them on the diagonal."]
        assert dict(found(sheet, "order-of-work")[0].fix) == {("instructions",): meant}

    def test_no_instructions(self):
        assert found(BORDERED, "order-of-work") == found(HALVED, "order-of-work") == []


class TestNotStated:
    def test_a_fabric_that_the_shopping_list_forgets(self):
        forgets = changed(BORDERED, ('part = "A"\nfabric = "navy"', 'part = "A"\nfabric = "plum"'))
        renamed = only(forgets, "not-stated")
        assert (renamed.level, renamed.parts) == ("ask", {"plum"})
        assert renamed.message.endswith(
            "Ask, or buy 1/2 yd. Nothing is cut from 'navy', which is bought: is it the same fabric?"
        )
        less = changed(BORDERED, ('[fabric.navy]\nbought = "1 yd"\nusable_width = "42"\n', ""))
        assert only(less, "not-stated").message.endswith("of fabric 42 in wide. Ask, or buy 1/2 yd.")

    def test_a_fabric_without_a_length_beside_others_that_have_one(self):
        silent = changed(BORDERED, ('[fabric.cream]\nbought = "1 1/2 yd"\n', "[fabric.cream]\n"))
        finding = only(silent, "not-stated")
        assert finding.message.startswith(
            "The pattern says how much of other fabrics to buy, and not how much of 'cream'"
        )
        assert (finding.level, finding.fix) == ("ask", ((("fabric", "cream", "bought"), finding.needed),))
        assert found(changed(silent, ("[fabric.cream]\n", "[fabric.cream]\nscraps = true\n"))) == []
        assert found(changed(silent, ('[fabric.navy]\nbought = "1 yd"\n', "[fabric.navy]\n"))) == []

    NO_SEAM = ('seam = "1/4"\n', "")

    def test_a_seam_that_the_sizes_tell_is_a_note(self):
        finding = only(changed(BASE, self.NO_SEAM), "not-stated")
        assert finding.message == (
            "The pattern prints no seam; this review took 1/4 in: the cut and finished sizes it prints agree with it."
        )
        assert finding.level == "note"

    @pytest.mark.parametrize("units, seam, extra", [("in", "1/2", 1), ("cm", "0.6", 1.2), ("cm", "0.635", 1.27)])
    def test_it_is_sewn_with_the_seam_that_the_sizes_tell(self, units, seam, extra):
        sheet = f'''title = "Other seams"
units = "{units}"
finished = [40, 50]
[[cut]]
part = "A"
fabric = "navy"
size = {10 + extra}
finished = 10
count = 20
[setting]
style = "straight"
across = 4
down = 5
block = "A"
'''
        finding = only(sheet, "not-stated")
        assert finding.level == "note" and f"this review took {seam} {units}: " in finding.message

    def test_one_wrong_size_among_many_does_not_change_the_seam(self):
        sheet = changed(
            BORDERED,
            self.NO_SEAM,
            ('size = "3 1/2"\n', 'size = "3 1/2"\nfinished = "3"\n'),
            ('size = ["6 1/2", "30 1/2"]\n', 'size = ["6 1/2", "30 1/2"]\nfinished = ["6", "30"]\n'),
        )
        assert checks(sheet) == []
        sheet = changed(sheet, ('fabric = "navy"\nsize = "3 1/2"', 'fabric = "navy"\nsize = "3 1/4"'))
        assert checks(sheet) == ["cut-size"]
        note = found(sheet, "not-stated")[0]
        assert note.level == "note" and "1/4 in: most of the cut and finished sizes" in note.message

    def test_sizes_that_fit_no_usual_seam_are_asked_and_stop_nothing(self):
        sheet = changed(
            STRAIGHT, self.NO_SEAM, ('finished = "6"', 'finished = "6 1/4"'), ('["24", "30"]', '["25", "31"]')
        )
        told = {one.check: one.level for one in found(sheet)}
        assert told["not-stated"] == "ask" and "stop" not in told.values()
        assert "no seam that is usual (such as 1/4 in) fits its sizes" in found(sheet, "not-stated")[0].message
        assert "stop" in {
            one.level for one in found(changed(sheet, ('finished = ["25"', 'seam = "1/4"\nfinished = ["25"')))
        }

    def test_an_edge_that_size_and_triangles_tell_is_a_note(self):
        unsaid = changed(SASHED, ('edge = "whole"\n', ""))
        finding = only(unsaid, "not-stated")
        assert finding.level == "note" and finding.needed == "whole cornerstones at the edge"
        small = changed(unsaid, ('"11 1/8"', '"10 1/2"'))
        assert "stop" in {one.level for one in found(small)}

    def test_an_alternate_block_that_the_counts_tell_is_a_note(self):
        unsaid = changed(ALTERNATE, ('alternate = "plain"\n', ""))
        finding = only(unsaid, "not-stated")
        assert (finding.level, finding.fix) == ("note", ((("setting", "alternate"), "plain"),))
        few = [
            one for one in found(changed(unsaid, ('"6 1/2"\ncount = 2', '"6 1/2"\ncount = 1'))) if one.level == "stop"
        ]
        assert [(one.parts, one.needed) for one in few] == [({"plain"}, "2")]

    def test_where_nothing_tells_the_usual_one_is_taken(self):
        sheet = changed(STRAIGHT, self.NO_SEAM, ('finished = "6"\n', ""), ('finished = ["24", "30"]\n', ""))
        assert {one.level for one in found(sheet, "not-stated")} == {"note", "ask"}
        assert found(sheet, "not-stated")[1].message == (
            "The pattern prints no seam, and no size in it tells which; this review took 1/4 in, as nearly every "
            "pattern does (common practice)."
        )

    def test_other_sizes_are_sewn_with_the_seam_of_the_first(self):
        larger = '[[other_size]]\nname = "large"\nfinished = ["48", "60"]\nsizes = { A = "6 1/2", B = "6 1/2" }\n'
        large = changed(STRAIGHT, ('"1 yd"', '"4 yd"'), ('"1 1/2 yd"', '"4 yd"'))
        assert found(large + larger) == []
        assert {one.level for one in found(changed(large, self.NO_SEAM) + larger)} == {"note"}

    @pytest.mark.parametrize("seam", ["scant 1/4", "a scant quarter inch", "1/4 scant", "Scant 1/4 in"])
    def test_a_scant_quarter_inch_gives_the_sizes_of_a_quarter_inch(self, seam):
        assert found(changed(BASE, ('seam = "1/4"', f'seam = "{seam}"'))) == []

    def test_no_finished_size(self):
        assert (
            "prints no finished size"
            in only(changed(BASE, ('finished = ["17", "25 1/2"]\n', "")), "not-stated").message
        )

    @pytest.mark.parametrize(
        "floats, side, corner, size",
        [("1/2", "10 3/4", "6 1/8", '["18", "26 1/2"]'), ("1", "11 3/4", "7 1/8", '["19", "27 1/2"]')],
    )
    def test_blocks_that_float_and_nothing_says_so(self, floats, side, corner, size):
        sheet = changed(BASE, ('"9 3/4"', f'"{side}"'), ('"5 1/8"', f'"{corner}"'), ('["17", "25 1/2"]', size))
        finding = only(sheet, "not-stated")
        assert (finding.level, finding.needed) == ("note", f"{floats} in")
        assert f"they float {floats} in inside the edge, and the pattern does not say so." in finding.message
        said = changed(sheet, ('block = "four"\n', f'block = "four"\nfloating = "{floats}"\n'))
        assert found(said) == []

    def test_large_triangles_alone_imply_no_float(self):
        assert found(changed(BASE, ('"9 3/4"', '"11 3/4"'), ('"5 1/8"', '"7 1/8"'))) == []
        assert checks(changed(BASE, ('"9 3/4"', '"11 3/4"'), ('["17", "25 1/2"]', '["19", "27 1/2"]'))) == [
            "finished-size"
        ]

    def test_no_usable_width_and_none_that_would_not_do(self):
        assert found(changed(BASE, NO_WIDTH)) == found(changed(BORDERED, NO_WIDTH)) == []

    def test_no_cloth_told_no_width_asked(self):
        assert found(UNITS) == []
