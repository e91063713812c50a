"""Units beyond one piece a corner: squares sewn over some corners, quarter-squares of three patches, half-squares of
pieced squares, and slices of a tube of strips; and what is written in place of what no sheet says."""

import pytest

from quiltmath import making, pattern, review

TOP = 'title = "Units"\nseam = "1/4"\n[fabric.f]\nscraps = true\n'
SETTING = '[setting]\nstyle = "straight"\nacross = 2\ndown = 2\nblock = "unit"\n'


def line(part, size, count, more=""):
    return f'[[cut]]\npart = "{part}"\nfabric = "f"\nsize = {size}\ncount = {count}\n{more}\n'


def strip(part, width, count):
    return f'[[cut]]\npart = "{part}"\nfabric = "f"\nstrip = "{width}"\ncount = {count}\n'


def unit(kind, parts, more=""):
    names = ", ".join(f'"{part}"' for part in parts)
    return f'[unit.unit]\nkind = "{kind}"\nparts = [{names}]\n{more}\n'


def middles(panel):
    """{part: the middles of its patches, as shares of the panel's (width, height)}."""
    panel, found = panel.laid_down(), {}
    for patch in panel.patches:
        found.setdefault(patch.part, set()).add(tuple((patch.polygon.mean(axis=0) / panel.size > 0.5).tolist()))
    return found


class TestFlippedCorners:
    WHERE = {
        "lower left": (False, False),
        "lower right": (True, False),
        "upper left": (False, True),
        "upper right": (True, True),
    }

    def sheet(self, corners, size='["8 1/2", "3 1/2"]', flip='"3 1/2"', count=4):
        named = "" if corners is None else f"corners = {corners}"
        return (
            TOP
            + line("block", size, 4)
            + line("flip", flip, count)
            + unit("snowball", ["block", "flip"], named)
            + SETTING
        )

    @pytest.mark.parametrize("corner", WHERE)
    def test_one_lies_where_it_is_named(self, corner):
        made = making.make(pattern.read_text(self.sheet(f'"{corner}"')))
        assert middles(made.panel("unit"))["flip"] == {self.WHERE[corner]}
        assert made.bill["flip"] == 4 and made.finished == pytest.approx((16, 6))

    def test_two_at_one_end_may_be_as_high_as_the_block(self):
        made = making.make(pattern.read_text(self.sheet(["upper left", "upper right"], count=8)))
        assert middles(made.panel("unit"))["flip"] == {self.WHERE["upper left"], self.WHERE["upper right"]}
        assert made.bill["flip"] == 8 and made.finished == pytest.approx((16, 6))

    def test_without_names_all_four_are(self):
        made = making.make(pattern.read_text(self.sheet(None, flip='"1 1/2"', count=16)))
        assert made.bill["flip"] == 16 and middles(made.panel("unit"))["flip"] == {*self.WHERE.values()}

    @pytest.mark.parametrize(
        ("corners", "flip", "words"),
        [
            (["upper left", "lower left"], '"3 1/2"', "would meet across this block of 3.5 in"),
            (["upper left"], '"4"', "are larger than this block of 3.5 in: cut them at most as wide as the block"),
        ],
    )
    def test_what_leaves_nothing_of_a_side_cannot_be_sewn(self, corners, flip, words):
        found = review.review(pattern.read_text(self.sheet(corners, flip=flip)))
        assert [words in finding.message for finding in found.findings if finding.check == "edges-differ"] == [True]

    def test_a_strip_with_its_corners_sewn_over_may_be_a_sash(self):
        cuts = line("block", '"2 1/2 x 6 1/2"', 12) + line("flip", '"1 1/2"', 48) + line("plain", '"6 1/2"', 4)
        lattice = SETTING.replace('"unit"', '"plain"') + '[setting.sashing]\npart = "unit"\ncornerstone = "stone"\n'
        text = TOP + cuts + line("stone", '"2 1/2"', 9) + unit("snowball", ["block", "flip"]) + lattice
        assert making.make(pattern.read_text(text)).finished == pytest.approx((18, 18))
        found = review.review(pattern.read_text(text.replace('seam = "1/4"', 'seam = "1/4"\nfinished = "18"')))
        assert found.verdict == "go"

    def test_too_few_are_told(self):
        found = review.review(pattern.read_text(self.sheet(["upper left", "upper right"], count=7)))
        assert [(one.check, one.printed, one.needed) for one in found.findings if one.level == "stop"] == [
            ("piece-count", "7", "8")
        ]

    def test_a_corner_named_twice_is_refused(self):
        with pytest.raises(pattern.Unreadable, match="name each corner once; got upper left, upper left"):
            pattern.read_text(self.sheet(["upper left", "upper left"]))


class TestThreePatchQuarterSquares:
    def sheet(self, half='"3 7/8"', way="once", count=2, quarter='"4 1/4"', more='finished = "3"'):
        return (
            TOP
            + line("half", half, count, f'cut = "{way}"')
            + line("above", quarter, 1, 'cut = "twice"')
            + line("right", quarter, 1, 'cut = "twice"')
            + unit("quarter-square", ["half", "above", "right"], more)
            + SETTING
        )

    def test_the_half_lies_at_the_lower_left_and_the_quarters_above_and_on_the_right(self):
        made = making.make(pattern.read_text(self.sheet()))
        panel = made.panel("unit").laid_down()
        areas = {
            patch.part: round(patch.polygon.mean(axis=0)[1] - patch.polygon.mean(axis=0)[0], 9)
            for patch in panel.patches
        }
        assert areas["half"] == 0 and areas["above"] > 0 > areas["right"]
        assert middles(panel)["half"] == {(False, False)}
        assert made.finished == pytest.approx((6, 6))
        assert [made.bill[part] for part in ("half", "above", "right")] == [4, 4, 4]

    def test_half_and_quarters_each_have_their_proof(self):
        needs = making.make(pattern.read_text(self.sheet())).needs
        assert [needs[part].text for part in ("half", "above", "right")] == ["3 7/8", "4 1/4", "4 1/4"]

    def test_a_half_cut_as_quarters_is_a_wrong_triangle(self):
        found = review.review(pattern.read_text(self.sheet('"4 1/4"', "twice", 1)))
        (wrong,) = (one for one in found.findings if one.check == "wrong-triangles")
        assert "need 2 squares of 3 7/8 in cut once" in wrong.message

    def test_all_cut_an_eighth_large_are_trimmed(self):
        made = making.make(pattern.read_text(self.sheet('"4"', quarter='"4 3/8"')))
        assert made.finished == pytest.approx((6, 6))


class TestPiecedHalfSquares:
    def sheet(self, at_a_time=2, middle="2 1/2", trim="5 1/2"):
        return (
            TOP
            + strip("dark", "2 1/2", 2)
            + strip("light", middle, 1)
            + line("plain", '"6 1/2"', 2)
            + '[strip_set.rail]\nstrips = ["dark", "light", "dark"]\nsub_cut = "6 1/2"\n'
            + unit("half-square", ["rail", "plain"], f'at_a_time = {at_a_time}\ntrim_to = "{trim}"')
            + SETTING
        )

    def test_a_striped_square_and_a_plain_one_give_two(self):
        made = making.make(pattern.read_text(self.sheet()))
        assert made.finished == pytest.approx((10, 10)) and made.bill["plain"] == made.bill["rail"] == 2
        assert {patch.part for patch in made.panel("unit").patches} == {"dark", "light", "plain"}

    def test_a_strip_a_little_narrow_is_trimmed_away(self):
        assert making.make(pattern.read_text(self.sheet(middle="2 1/4"))).finished == pytest.approx((10, 10))

    def test_one_far_too_narrow_is_a_stop(self):
        found = review.review(pattern.read_text(self.sheet(middle="1")))
        assert any(
            "too small to be trimmed to 5 1/2 in" in one.message for one in found.findings if one.level == "stop"
        )

    def test_eight_of_a_pieced_square_are_not_made(self):
        made = making.make(pattern.read_text(self.sheet(8)))
        assert made.top is None
        assert [problem.message for problem in made.troubles] == [
            "of pieced squares half-squares are made two at a time; got 8: write at_a_time = 2"
        ]


class TestTubes:
    def sheet(self, above="b", strips='"a", "b", "c"'):
        return (
            TOP
            + strip("a", "2 1/2", 1)
            + strip("b", "2", 1)
            + strip("c", "1 1/2", 1)
            + f'[strip_set.first]\nstrips = [{strips}]\nsub_cut = "2"\nsets = 1\n'
            + f'[strip_set.second]\nof = "first"\nopened_above = "{above}"\nsub_cut = "3"\n'
            + '[block.unit]\nrows = ["first second"]\ntrim_to = "4 1/2"\n'
            + SETTING
        )

    @pytest.mark.parametrize(("above", "order"), [("a", "abc"), ("b", "bca"), ("c", "cab")])
    def test_a_slice_begins_where_it_is_opened(self, above, order):
        made = making.make(pattern.read_text(self.sheet(above)))
        down = sorted(made.panel("second").patches, key=lambda patch: -patch.polygon.mean(axis=0)[1])
        assert "".join(patch.part for patch in down) == order
        assert [made.bill[part] for part in "abc"] == [1, 1, 1]

    @pytest.mark.parametrize(
        ("change", "words"),
        [
            ({"above": "unit"}, "'unit' is no strip of 'first': name the strip"),
            ({"above": "a", "strips": '"a", "b", "a"'}, "'a' is more than one strip of 'first'"),
        ],
    )
    def test_a_strip_that_it_has_once_is_named(self, change, words):
        with pytest.raises(pattern.Unreadable, match=words):
            pattern.read_text(self.sheet(**change))

    def test_a_set_of_its_own_begins_with_its_first_strip(self):
        text = self.sheet().replace("sets = 1\n", 'sets = 1\nopened_above = "a"\n')
        with pytest.raises(pattern.Unreadable, match="its strips say which one is the first: take opened_above out"):
            pattern.read_text(text)


class TestWhatIsNotSaid:
    @pytest.mark.parametrize(
        ("old", "new", "words"),
        [
            (
                'seam = "1/4"',
                'seam = "1/4"\nusable_width = "42"',
                r"under \[fabric.NAME\], \[backing\] or \[batting\], not here",
            ),
            ('seam = "1/4"', 'seam = "1/4"\nsub_cut = "2"', r"sub_cut stands under \[strip_set.NAME\], not here"),
            ('kind = "snowball"', 'kind = "drunkard\'s path"', "a curved seam is not sewn here"),
            ('kind = "snowball"', 'kind = "applique"', "appliqué and other things laid on are left out"),
            ('kind = "snowball"', 'kind = "half-sqare"', "write 'half-square', "),
            ('size = "3"', 'shape = "hexagon"\nsize = "3"', "set into inside corners, which is not sewn here"),
            ('size = "3"', 'shape = "half-square triangle"\nstrip_width = "3"', "3/8 in larger than the strip is wide"),
        ],
    )
    def test_it_is_refused_with_what_to_write(self, old, new, words):
        text = TOP + line("block", '"3"', 4) + line("flip", '"1"', 16) + unit("snowball", ["block", "flip"]) + SETTING
        pattern.read_text(text)
        with pytest.raises(pattern.Unreadable, match=words):
            pattern.read_text(text.replace(old, new, 1))


@pytest.mark.parametrize("way", ["once", "twice"])
@pytest.mark.parametrize("finished", ["1/8", "1/4"])
def test_a_triangle_said_to_finish_smaller_than_its_seams_is_reviewed_like_others(way, finished):
    one, other = (line(part, '"4 1/4"', 4, f'cut = "{way}"\nfinished = "{finished}"') for part in "AB")
    kind = "half-square" if way == "once" else "quarter-square"
    assert review.review(pattern.read_text(TOP + one + other + unit(kind, "AB") + SETTING)).verdict != "go"


@pytest.mark.parametrize("at_a_time", [1, 4])
def test_geese_of_squares_smaller_than_their_seams_are_reviewed_like_others(at_a_time):
    goose, sky = line("A", '"7 1/4"', 4), line("B", '"1/8"', 16)
    sheet = TOP + goose + sky + unit("flying geese", "AB", f"at_a_time = {at_a_time}") + SETTING
    assert review.review(pattern.read_text(sheet)).verdict == "stop"
