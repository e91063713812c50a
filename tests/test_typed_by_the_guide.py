"""Patterns of different kinds typed by the guide alone, and what they taught: each fault is said once, of the part that
is wrong."""

import pytest

from quiltmath import making, pattern, proofs, review
from quiltmath.making.needs import unit_proof
from quiltmath.pattern.parts import KINDS

from .sheets import BASE, FOLDER, changed, demo, found, reviewed

HOURGLASS = """\
title = "Sand clocks"
seam = "1/4"
finished = ["44", "50"]
[fabric.dusk]
bought = "1 5/8 yd"
usable_width = "42"
[fabric.sand]
bought = "1 3/8 yd"
usable_width = "42"
[fabric.wave]
bought = "5/8 yd"
usable_width = "42"
[[cut]]
part = "A"
fabric = "dusk"
size = "6 7/8"
count = 8
[[cut]]
part = "B"
fabric = "sand"
size = "6 7/8"
count = 8
[[cut]]
part = "C"
fabric = "sand"
size = "6 1/2"
count = 15
[[cut]]
part = "inner"
fabric = "wave"
strip = "2 1/2"
count = 4
[[cut]]
part = "outer"
fabric = "dusk"
strip = "5 1/2"
count = 5
[unit.clock]
kind = "quarter-square"
parts = ["A", "B"]
at_a_time = 2
trim_to = "6 1/2"
finished = "6"
count = 15
[setting]
style = "straight"
across = 5
down = 6
block = "clock"
alternate = "C"
[[border]]
sides = "inner"
top = "inner"
[[border]]
sides = "outer"
top = "outer"
[binding]
fabric = "wave"
strip = "2 1/2"
count = 5
"""
"""Hourglass units whose squares have the half-square's 7/8 added in place of 1 1/4."""

WINDOW = """\
title = "Fensterkreuz"
units = "cm"
seam = 0.75
finished = [86, 113]
[fabric.tinte]
bought = "1.5 m"
usable_width = 110
[fabric.leinen]
bought = "2 m"
usable_width = 110
[[cut]]
part = "quadrat"
fabric = "tinte"
size = 16.5
finished = 15
count = 18
[[cut]]
part = "steg"
fabric = "leinen"
size = [5.5, 16.5]
count = 48
[[cut]]
part = "ecke"
fabric = "tinte"
size = 5.5
count = 31
[[cut]]
part = "rand"
fabric = "leinen"
size = 25
count = 3
cut = "twice"
triangles = 12
[[cut]]
part = "eckdreieck"
fabric = "leinen"
size = 13.5
count = 2
cut = "once"
[setting]
style = "on point"
across = 3
down = 4
block = "quadrat"
[setting.sashing]
part = "steg"
cornerstone = "ecke"
edge = "whole"
[setting.sides]
part = "rand"
[setting.corners]
part = "eckdreieck"
"""
"""Edge triangles for half cornerstones, where the drawing has whole ones."""

RAILS = """\
title = "Split rails"
seam = "1/4"
finished = ["42", "48"]
[fabric.oak]
bought = "1 1/2 yd"
usable_width = "42"
[fabric.fern]
bought = "3/4 yd"
usable_width = "42"
[fabric.sun]
bought = "3/4 yd"
usable_width = "42"
[[cut]]
part = "oak strip"
fabric = "oak"
strip = "2 1/2"
count = 6
[[cut]]
part = "fern strip"
fabric = "fern"
strip = "2 1/2"
count = 6
[[cut]]
part = "sun strip"
fabric = "sun"
strip = "2 1/2"
count = 6
[[cut]]
part = "side border"
fabric = "oak"
size = ["3 1/2", "42 1/2"]
count = 2
[[cut]]
part = "top border"
fabric = "oak"
size = ["42 1/2", "3 1/2"]
count = 2
[strip_set.rail]
strips = ["oak strip", "fern strip", "sun strip"]
sub_cut = "6 1/2"
sets = 6
pieces = 42
[block.lying]
rows = ["rail:90"]
[setting]
style = "straight"
across = 6
down = 7
block = "rail"
alternate = "lying"
[[border]]
sides = "side border"
top = "top border"
"""
"""Strip sets counted by the area of cloth: seven pieces from each, where the width gives six."""


def said(sheet):
    return [(finding.check, finding.level, *sorted(finding.parts)) for finding in found(sheet)]


class TestHourglass:
    def test_both_squares_are_blamed_and_not_the_unit_they_make(self):
        last_inch = ("fabric-short", "note")  # nine strips of 2 1/2 in, and 5/8 yd are bought
        assert said(HOURGLASS) == [("cut-size", "stop", "A", "B"), last_inch]

    def test_put_right_it_is_a_go(self):
        right = HOURGLASS.replace("6 7/8", "7 1/4")
        assert [finding.level for finding in found(right)] == ["note"]
        assert found(right.replace('bought = "5/8 yd"', 'bought = "3/4 yd"')) == []

    def test_the_size_it_is_trimmed_to_tells_as_much_as_a_finished_size(self):
        assert said(HOURGLASS.replace('finished = "6"\n', "")) == said(HOURGLASS)

    def test_a_finished_size_that_fits_the_trimmed_one_only_without_seams_is_still_told(self):
        assert (
            said(HOURGLASS.replace("6 7/8", "7 3/4").replace('trim_to = "6 1/2"', 'trim_to = "6"'))[0][0] == "cut-size"
        )


class TestWindow:
    def test_what_makes_the_triangles_larger_is_named(self):
        findings = found(WINDOW)
        assert sorted(said(WINDOW)) == [("cut-size", "stop", "eckdreieck"), ("cut-size", "stop", "rand")]
        assert all("with whole cornerstones at the edge" in finding.message for finding in findings)
        assert {finding.needed for finding in findings} == {"30.5 cm", "18.9 cm"}

    def test_half_cornerstones_would_do(self):
        half = changed(WINDOW, ('edge = "whole"', 'edge = "half"'), ("[86, 113]", '["80.6", "107.5"]'))
        assert found(half) == []

    def test_a_frame_and_floating_blocks_are_named_too(self):
        data = demo(FOLDER / "sound" / "snowballs-floating.toml")
        next(cut for cut in data["cut"] if cut["part"] == "side")["size"] = "9"
        assert "with room for the blocks to float" in found(data, "cut-size")[0].message

    def test_blocks_that_float_where_nothing_leaves_them_room(self):
        floating = changed(BASE, ('block = "four"', 'block = "four"\nfloating = "1"'))
        (finding,) = found(floating, "cut-size")
        assert (
            finding.message.startswith("The blocks float 1 in inside the edge, too large") and finding.needed == "0 in"
        )


class TestRails:
    def test_too_few_strip_sets_are_said_once_with_what_one_gives(self):
        assert said(RAILS) == [("piece-count", "stop", "rail")]
        assert "takes 7 (one strip set of 'rail' gives 6 pieces 6 1/2 in wide). Make 1 more" in found(RAILS)[0].message

    def test_where_no_sets_are_printed_it_is_said_of_the_strips(self):
        strips = RAILS.replace("sets = 6\n", "")
        assert said(strips) == [("piece-count", "stop", f"{colour} strip") for colour in ("oak", "fern", "sun")]
        assert all("cuts 6 strips of" in one.message and "gives 6 pieces" in one.message for one in found(strips))

    def test_strips_too_few_for_the_printed_sets_are_said_of_as_well(self):
        assert ("piece-count", "stop", "sun strip") in said(
            changed(RAILS, ('fabric = "sun"\nstrip = "2 1/2"\ncount = 6', 'fabric = "sun"\nstrip = "2 1/2"\ncount = 5'))
        )

    def test_corrected_it_has_more_sets_and_strips(self):
        right = review.corrected(pattern.read_text(RAILS))
        assert right.passes and right.sheet.strip_set["rail"].sets == 7
        assert {right.sheet.part(f"{colour} strip").count for colour in ("oak", "fern", "sun")} == {7}

    def test_a_block_turned_in_the_setting_is_answered_with_what_to_write(self):
        with pytest.raises(pattern.Unreadable, match="line .*'rail:90' is turned here, .* make a \\[block\\] of it"):
            pattern.read_text(changed(RAILS, ('alternate = "lying"', 'alternate = "rail:90"')))


class TestLogCabin:
    """A log of any round that is off is the one that is blamed, whatever lies round it."""

    LOGS = [cut["part"] for cut in demo(FOLDER / "sound" / "log-cabins.toml")["cut"]]

    @pytest.mark.parametrize("log", LOGS)
    @pytest.mark.parametrize("side", [0, 1])
    @pytest.mark.parametrize("by", [-0.25, -0.125, 0.125, 0.25])
    def test_it_is_named_with_the_size_it_needs(self, log, side, by):
        data = demo(FOLDER / "sound" / "log-cabins.toml")
        cut = next(cut for cut in data["cut"] if cut["part"] == log)
        right = pattern.read(FOLDER / "sound" / "log-cabins.toml").part(log).size
        wrong = list(map(float, right))
        wrong[side] += by
        if right[0] == right[1]:
            wrong[1 - side] = wrong[side]
        cut["size"] = wrong
        findings = found(data, "cut-size")
        assert [sorted(finding.parts) for finding in findings] == [[log]]
        mended = dict(findings[0].fix)
        assert pattern.changed(pattern.read_text(pattern.toml(data)), *mended.items()).part(log).size == right

    def test_the_same_where_a_round_lies_turned(self):
        data = demo(FOLDER / "sound" / "log-cabins.toml")
        data["block"]["third"]["rows"] = ["6", "second:180 5"]
        assert found(data) == []
        next(cut for cut in data["cut"] if cut["part"] == "3")["size"] = ["2", "3 3/4"]
        assert [sorted(finding.parts) for finding in found(data)] == [["3"]]


class TestGeese:
    def test_their_two_figures_may_be_printed_either_way_round(self):
        path = FOLDER / "sound" / "geese-round-a-square.toml"
        data = demo(path)
        data["unit"]["geese"]["finished"] = ["3", "6"]
        assert pattern.read_text(pattern.toml(data)).unit["geese"].finished == (6, 3)
        assert found(data) == []


class TestReasons:
    @pytest.mark.parametrize(
        "kind, whole, at_a_time, proof",
        [
            ("half-square", True, None, "half_squares_two"),
            ("half-square", True, 4, "half_squares_four"),
            ("half-square", True, 8, "half_squares_eight"),
            ("half-square", False, None, "half_square"),
            ("quarter-square", True, None, "hourglass"),
            ("quarter-square", False, None, "quarter_square"),
            ("flying geese", True, 1, "geese_one_at_a_time"),
            ("flying geese", True, 4, "geese_four_at_a_time"),
            ("flying geese", False, None, "flying_geese"),
            ("square in a square", True, None, "square_in_square"),
            ("snowball", True, None, "patch"),
        ],
    )
    def test_each_unit_has_its_own_proof(self, kind, whole, at_a_time, proof):
        ways = "" if at_a_time is None else f"at_a_time = {at_a_time}\n"
        unit = f'[unit.u]\nkind = "{kind}"\nparts = ["A", "B"]\n{ways}[block.four]'
        cut = "count = 16" if whole else 'count = 16\ncut = "twice"'
        sheet = pattern.read_text(changed(BASE, ("[block.four]", unit), ("count = 16", cut)))
        assert unit_proof(sheet, sheet.unit["u"]) == proof
        assert proofs.find(proof).name == proof

    def test_no_kind_is_without_one(self):
        for kind in KINDS:
            slant = 'slant = "left"\n' if kind == "half-rectangle" else ""
            unit = f'[unit.u]\nkind = "{kind}"\nparts = ["A", "B"]\n{slant}[block.four]'
            sheet = pattern.read_text(changed(BASE, ("[block.four]", unit)))
            assert proofs.find(unit_proof(sheet, sheet.unit["u"]))


class TestWhatIsBought:
    def test_a_row_too_long_does_not_make_the_binding_and_the_linings_too_small(self):
        data = demo(FOLDER / "sound" / "stars-sashed-inside.toml")
        data["block"]["star"]["rows"][0] += " corner"
        checks = {finding.check for finding in found(data)}
        assert "cut-size" in checks and not checks & {"binding-short", "backing-small", "batting-small"}

    def test_what_is_too_small_for_the_printed_quilt_is_told_all_the_same(self):
        data = demo(FOLDER / "sound" / "stars-sashed-inside.toml")
        data["block"]["star"]["rows"][0] += " corner"
        data["binding"]["count"] = 3
        data["batting"]["size"] = [50, 58]
        assert {"binding-short", "batting-small"} <= {finding.check for finding in found(data)}

    def test_all_three_are_sewn_and_a_go(self):
        for name in ("log-cabins", "stars-sashed-inside", "trellis-whole-cornerstones"):
            data = demo(FOLDER / "sound" / f"{name}.toml")
            assert reviewed(data).verdict == "go" and making.make(pattern.read_text(pattern.toml(data))).troubles == []
