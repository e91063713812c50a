"""Sheets as many hands type them: what a pattern leaves unsaid is taken as it fits, and the one figure that is wrong is
named with the right one."""

import pytest

from quiltmath import pattern

from .sheets import BORDERED, FOLDER, changed, found, reviewed

LANES = """\
title = "Lanes"
seam = "1/4"
finished = ["41", "51 1/2"]
[fabric.tan]
[[cut]]
part = "square"
fabric = "tan"
size = "9 1/2"
count = 12
[[cut]]
part = "sash"
fabric = "tan"
size = ["2", "9 1/2"]
count = 16
[[cut]]
part = "lane"
fabric = "tan"
size = ["33 1/2", "2"]
count = 5
[[cut]]
part = "long"
fabric = "tan"
size = ["4 1/2", "44"]
count = 2
[[cut]]
part = "wide"
fabric = "tan"
size = ["41 1/2", "4 1/2"]
count = 2
[setting]
style = "straight"
across = 3
down = 4
block = "square"
[setting.sashing]
part = "sash"
strip = "lane"
[[border]]
sides = "long"
top = "wide"
"""
"""Blocks of 9 in, sashes and long strips that finish 1 1/2 in, a border of 4 in whose sides go on first."""

CABINS = """\
title = "Cabins"
seam = "1/4"
finished = ["24", "24"]
[fabric.tan]
[[cut]]
part = "hearth"
fabric = "tan"
size = "2 1/2"
count = 16
{logs}[block.first]
rows = [["{0}"], ["hearth", "log 1"]]
[block.second]
rows = [["log 3", "first"], ["log 4"]]
[block.third]
rows = [["{1}"], ["second", "log 5"]]
[block.cabin]
rows = [["{2}", "third"], ["log 8"]]
finished = "6"
[setting]
style = "straight"
across = 4
down = 4
block = "cabin"
"""
LENGTHS = ("2 1/2", "3 1/2", "3 1/2", "4 1/2", "4 1/2", "5 1/2", "5 1/2", "6 1/2")

WINDS = """\
title = "Four winds"
seam = "1/4"
finished = ["16", "24"]
[fabric.tan]
{}[unit.q]
kind = "quarter-square"
parts = ["north", "east", "south", "west"]
finished = "4"
[setting]
style = "straight"
across = 4
down = 6
block = "q"
"""


def cabins(second="log 2", sixth="log 6", seventh="log 7"):
    """A log cabin of eight logs, round by round: one beside the block, one along it, by turns."""
    sizes = [f"{long} x 1 1/2" if n % 2 else f"1 1/2 x {long}" for n, long in enumerate(LENGTHS)]
    logs = "".join(
        f'[[cut]]\npart = "log {n}"\nfabric = "tan"\nsize = "{size}"\ncount = 16\n' for n, size in enumerate(sizes, 1)
    )
    return CABINS.format(second, sixth, seventh, logs=logs)


def winds(part="", way="twice"):
    """Quarter-squares of four fabrics from triangles; one part cut otherwise."""
    return WINDS.format(
        "".join(
            f'[[cut]]\npart = "{one}"\nfabric = "tan"\nsize = "5 1/4"\ncount = 6\n'
            f'cut = "{way if one == part else "twice"}"\n'
            for one in ("north", "east", "south", "west")
        )
    )


@pytest.mark.parametrize("sheet", [LANES, cabins(), winds()], ids=["lanes", "cabins", "winds"])
def test_the_sheets_are_sound(sheet):
    assert not reviewed(sheet).findings


class TestTakenAsItFits:
    def test_logs_of_one_size_change_places_without_harm(self):
        assert not reviewed(cabins(sixth="log 7", seventh="log 6")).findings

    def test_a_log_that_is_too_short_is_not_turned_to_hide_it(self):
        (finding,) = reviewed(cabins().replace("5 1/2 x 1 1/2", "5 1/4 x 1 1/2")).findings
        assert (finding.check, finding.parts) == ("cut-size", {"log 6"})
        assert "5 1/2" in finding.needed

    TOP_FIRST = changed(LANES, ('["4 1/2", "44"]', '["4 1/2", "52"]'), ('["41 1/2", "4 1/2"]', '["33 1/2", "4 1/2"]'))

    def test_borders_go_on_in_the_order_in_which_they_reach(self):
        review = reviewed(self.TOP_FIRST)
        assert not review.findings and review.made.sheet.border[0].first == "top"

    def test_a_printed_order_in_which_they_do_not_reach_stops(self):
        told = found(self.TOP_FIRST + 'first = "sides"\n', "border-length")
        assert [(one.level, one.needed) for one in told] == [("stop", "41 1/2 in"), ("ask", "44 in")]

    def test_an_order_in_which_neither_way_reaches_is_left(self):
        short = LANES.replace('["41 1/2", "4 1/2"]', '["33 1/2", "4 1/2"]')
        (finding,) = reviewed(short).findings
        assert (finding.parts, finding.needed) == ({"wide"}, "41 1/2 in")


class TestEvidenceAgainstOneFigure:
    @pytest.mark.parametrize(
        "old, new, part, needed",
        [
            ('["2", "9 1/2"]', '["1 1/2", "9 1/2"]', "sash", "2 by 9 1/2 in"),
            ('["33 1/2", "2"]', '["33 1/2", "1 1/2"]', "lane", "33 1/2 by 2 in"),
            ('["4 1/2", "44"]', '["4", "44"]', "long", "4 1/2 by 44 in"),
        ],
    )
    def test_the_size_that_all_else_contradicts_is_named(self, old, new, part, needed):
        (finding,) = reviewed(changed(LANES, (old, new))).findings
        assert (finding.check, finding.level) == ("cut-size", "stop")
        assert (finding.parts, finding.needed) == ({part}, needed)

    def test_a_quilt_size_that_alone_is_wrong_is_the_typo(self):
        told = reviewed(changed(LANES, ('["41", "51 1/2"]', '["43", "51 1/2"]'))).findings
        assert [one.check for one in told] == ["finished-size"]

    def test_a_border_wider_at_the_sides_on_purpose_is_silent(self):
        wider = changed(
            LANES,
            ('["4 1/2", "44"]', '["5 1/2", "44"]'),
            ('["41 1/2", "4 1/2"]', '["43 1/2", "4 1/2"]'),
            ('["41", "51 1/2"]', '["43", "51 1/2"]'),
        )
        assert not reviewed(wider).findings


class TestAWrongSeam:
    STARS = pattern.text(pattern.read(FOLDER / "sound" / "geese-round-a-square.toml"))

    def test_sizes_that_all_fit_another_seam_blame_the_seam_alone(self):
        (finding,) = reviewed(changed(self.STARS, ('seam = "1/4"', 'seam = "3/8"'))).findings
        assert (finding.check, finding.level, finding.path) == ("cut-size", "stop", ("seam",))
        assert (finding.printed, finding.needed) == ("3/8 in", "1/4 in")

    def test_the_corrected_sheet_has_that_seam_and_passes(self):
        right = reviewed(changed(self.STARS, ('seam = "1/4"', 'seam = "3/8"'))).correction
        assert right.passes and [change.path for change in right.changes] == [("seam",)]

    def test_two_sizes_that_would_fit_another_seam_are_blamed_themselves(self):
        told = reviewed(BORDERED.replace('size = "3 1/2"', 'size = "3 3/4"')).findings
        assert told and all(one.path != ("seam",) for one in told)


class TestTrianglesCutTheOtherWay:
    @pytest.mark.parametrize("part", ["north", "south", "west"])
    def test_any_of_four_fabrics_is_told_with_its_squares(self, part):
        (finding,) = reviewed(winds(part, "once")).findings
        assert (finding.check, finding.parts) == ("wrong-triangles", {part})
        assert "need 6 squares of 5 1/4 in cut twice" in finding.message

    def test_end_triangles_are_told_with_their_squares(self):
        sheet = pattern.read(FOLDER / "sound" / "built-triangles.toml")
        number, end = next((n, cut) for n, cut in enumerate(sheet.cut) if cut.part == "T")
        line = ("cut", number)
        wrong = pattern.changed(
            sheet, ((*line, "cut"), "once"), ((*line, "size"), "3 7/8"), ((*line, "count"), 2 * end.count)
        )
        (finding,) = found(pattern.text(wrong), "wrong-triangles")
        assert f"Cut {end.count} squares of 5 1/2 in twice on the diagonal" in finding.message


def test_a_border_that_is_short_on_all_four_sides_is_told_once():
    square = changed(
        BORDERED,
        ("down = 5", "down = 4"),
        ('["36", "42"]', '["36", "36"]'),
        ('["6 1/2", "30 1/2"]\ncount = 2', '["6 1/2", "24"]\ncount = 4'),
        ('[[cut]]\npart = "short"\nfabric = "cream"\nsize = ["6 1/2", "36 1/2"]\ncount = 2\n', ""),
        ('top = "short"', 'top = "long"\ncorner = "A"'),
        ('size = "3 1/2"\ncount = 40', 'size = "6 1/2"\ncount = 40'),
        ('finished = "6"', 'finished = "12"'),
        ("across = 4\ndown = 4", "across = 2\ndown = 2"),
    )
    (finding,) = found(square, "border-length")
    assert (finding.parts, finding.needed) == ({"long"}, "24 1/2 in")
    assert "on all four sides" in finding.message
