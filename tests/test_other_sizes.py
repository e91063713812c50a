"""Other sizes of a pattern: each is judged by what is printed for it, and only by that."""

import pytest

from quiltmath import pattern
from quiltmath.review.other_sizes import in_size

from . import rare
from .sheets import BASE, BORDERED, changed, reviewed

LARGER = """
[[other_size]]
name = "throw"
across = 3
down = 4
finished = ["25 1/2", "34"]
counts = { A = 36, B = 36, side = 3, corner = 2 }
"""
WIDER = """
[[other_size]]
name = "wide"
across = 5
finished = ["42", "42"]
counts = { A = 50, B = 50 }
sizes = { short = ["6 1/2", "42 1/2"] }
binding = 5
backing = { size = ["50", "50"] }
batting = { size = ["50", "50"] }
"""


def said(sheet):
    return [(finding.check, finding.level) for finding in reviewed(sheet).findings]


class TestWhatIsPrintedIsJudged:
    def test_a_size_that_is_right_is_a_go(self):
        assert said(BASE + LARGER) == []
        assert said(BORDERED + WIDER) == []

    @pytest.mark.parametrize(
        "right, wrong, check",
        [
            ("A = 36", "A = 35", "piece-count"),
            ("side = 3", "side = 2", "piece-count"),
            ('"34"]', '"44"]', "finished-size"),
            ("counts", 'bought = { navy = "1/2 yd" }\ncounts', "fabric-short"),
            ("}", "}\nbatting = { size = 30 }", "batting-small"),
            ("}", "}\nbacking = { size = 30 }", "backing-small"),
        ],
    )
    def test_one_that_is_wrong_is_told_by_its_name_and_table(self, right, wrong, check):
        findings = reviewed(BASE + changed(LARGER, (right, wrong))).findings
        assert [finding.check for finding in findings] == [check]
        assert findings[0].message.startswith("In size throw: ")
        assert findings[0].where == f"sheet, line {len(BASE.splitlines()) + 2}"

    @pytest.mark.parametrize(
        "right, wrong, check",
        [
            ("binding = 5", "binding = 4", "binding-short"),
            ('"42 1/2"', '"41"', "border-length"),
            ('backing = { size = ["50", "50"]', 'backing = { size = ["42", "50"]', "backing-small"),
        ],
    )
    def test_so_is_what_goes_round_it(self, right, wrong, check):
        assert said(BORDERED + changed(WIDER, (right, wrong))) == [(check, "stop")]

    def test_printed_counts_of_units_blocks_and_strip_sets(self):
        counted = changed(BASE, ("[block.four]", "[block.four]\ncount = 8"))
        assert said(counted + changed(LARGER, ("A = 36", "A = 36, four = 18"))) == []
        findings = reviewed(counted + changed(LARGER, ("A = 36", "A = 36, four = 17"))).findings
        assert [finding.check for finding in findings] == ["piece-count"] and "makes 17 blocks 'four'" in findings[
            0
        ].message


class TestWhatIsNotPrintedIsNot:
    def test_counts_binding_backing_and_batting(self):
        assert (
            said(
                BORDERED + '[[other_size]]\nname = "long"\nacross = 4\ndown = 9\nfinished = ["36", "66"]\n'
                'sizes = { long = ["6 1/2", "54 1/2"] }\n'
            )
            == []
        )

    def test_the_count_of_blocks_in_the_first_size(self):
        assert said(changed(BASE, ("[block.four]", "[block.four]\ncount = 8")) + LARGER) == []

    def test_finished_sizes_of_what_is_cut_otherwise(self):
        double = (
            '[[other_size]]\nname = "large"\nfinished = ["34", "51"]\n'
            'sizes = { A = "6 1/2", B = "6 1/2", side = "18 1/4", corner = "9 3/8" }\n'
        )
        assert said(changed(BASE, ("count = 16", 'count = 16\nfinished = "3"')) + double) == []

    def test_binding_strips_in_the_cutting_list(self):
        strips = '[[cut]]\npart = "binding strip"\nfabric = "navy"\nstrip = "2 1/4"\ncount = 5\n[block.four]'
        listed = changed(BORDERED, ("[block.four]", strips), ('fabric = "binding cloth"', 'fabric = "navy"'))
        size = changed(WIDER, ("binding = 5\n", ""))
        assert said(listed) == said(listed + size) == []
        sheet = pattern.read_text(listed + size)
        assert in_size(sheet, sheet.other_size[0]).part("binding strip") is None

    def test_strips_that_only_look_like_the_binding_stay(self):
        alike = changed(
            BORDERED,
            ('fabric = "binding cloth"\nstrip = "2 1/4"', 'fabric = "cream"\nstrip = "6 1/2"'),
            ('size = ["6 1/2", "30 1/2"]\ncount = 2', 'strip = "6 1/2"\ncount = 2'),
        )
        size = changed(WIDER, ("binding = 5\n", ""))
        sheet = pattern.read_text(alike + size)
        assert in_size(sheet, sheet.other_size[0]).part("long") is not None


OWN_PART = '{ part = "odd", fabric = "navy", size = "2", count = 1 }'


class TestNames:
    @pytest.mark.parametrize(
        "right, wrong, message",
        [
            ("A = 36", "a = 36", "'a' is never cut or made; did you mean 'A'?"),
            ("A = 36", "sides = 36", "did you mean 'side'?"),
            ("counts", 'bought = { mauve = "1 yd" }\ncounts', "size 'throw' buys 'mauve', which is no [fabric]"),
            ("A = 36", "setting = 36", "'setting' is none of the parts, units, blocks and strip sets, whose counts"),
            ("[[other", '[[other_size]]\nname = "throw"\n[[other', "two sizes are called 'throw': give each a name"),
            ("counts", "binding = 5\ncounts", "the sheet has no [binding] whose strips these could be: add it"),
            (
                "counts =",
                f"cut = [{', '.join([OWN_PART] * 2)}]\ncounts =",
                "size 'throw' are called 'odd': give each a name",
            ),
            (
                "counts = { A",
                f"cut = [{OWN_PART}]\ncounts = {{ odd = 1, A",
                "'odd' has a table of its own in this size, which says that already: take this out",
            ),
            ("A = 36", "A = 36, 'A ' = 37", "'A' is a name that is given twice, but for its blanks"),
        ],
    )
    def test_a_slip_in_one_is_not_taken_for_silence(self, right, wrong, message):
        with pytest.raises(pattern.Unreadable) as refused:
            pattern.read_text(BASE + changed(LARGER, (right, wrong)))
        assert message in str(refused.value)


class TestEachSizeSpeaksForItself:
    """What is found in the first size hides nothing but the very same in another."""

    def test_a_spare_piece_in_the_first_hides_no_missing_ones(self):
        spare = changed(
            BASE, ('size = "3 1/2"\ncount = 16\n[[cut]]\npart = "B"', 'size = "3 1/2"\ncount = 17\n[[cut]]\npart = "B"')
        )
        assert said(spare) == [("piece-count", "note")]
        findings = reviewed(spare + changed(LARGER, ("A = 36", "A = 21"))).findings
        assert [(one.level, one.printed, one.needed) for one in findings] == [
            ("stop", "21", "36"),
            ("note", "17", "16"),
        ]

    def test_a_size_rounded_in_the_first_hides_no_wrong_one(self):
        rounded = changed(BASE, ('"25 1/2"]', '"25 3/8"]'))
        levels = [(one.check, one.level) for one in reviewed(rounded + changed(LARGER, ('"34"]', '"80"]'))).findings]
        assert ("finished-size", "stop") in levels

    def test_two_fabrics_too_short_in_two_sizes(self):
        short = changed(BASE, ('[fabric.navy]\nbought = "1 yd"', '[fabric.navy]\nbought = "1/4 yd"'))
        size = changed(LARGER, ("counts", 'bought = { navy = "1 1/2 yd", cream = "1/4 yd" }\ncounts'))
        found = [one for one in reviewed(short + size).findings if one.check == "fabric-short"]
        assert len(found) == 2 and "'navy'" in found[0].message and "'cream'" in found[1].message

    def test_what_is_the_same_in_both_is_said_once(self):
        assert said(changed(BASE, ('seam = "1/4"\n', "")) + LARGER) == [("not-stated", "note")]


def test_what_is_wrong_in_another_size_is_told_at_its_table():
    """Not at a line of the sheet that is made for it, which nobody has typed."""
    alone = changed(
        BASE,
        ("across = 2\ndown = 3", "across = 1\ndown = 1"),
        ('[setting.sides]\npart = "side"\n', ""),
    )
    with pytest.raises(pattern.Unreadable) as refused:
        reviewed(alone + LARGER)
    place = f"sheet, line {len(alone.splitlines()) + 2}: size 'throw': "
    assert str(refused.value).startswith(f"{place}an on-point setting needs [setting.sides]")


class TestWhatASizeMakesItself:
    def test_as_many_of_its_blocks_as_it_counts(self):
        sheet = rare.columns_otherwise()
        sheet["other_size"][0]["counts"]["broad"] = 2
        (finding,) = reviewed(sheet).findings
        assert finding.message.startswith("In size long: The pattern makes 2 blocks 'broad', but the quilt takes 3")

    @pytest.mark.parametrize("key, value", [("across", 10), ("strip", ["short strip", "middle strip", "long strip"])])
    def test_its_long_strips_are_those_of_its_rows(self, key, value):
        sheet = rare.strips_otherwise()
        sheet["other_size"][0][key] = value
        with pytest.raises(pattern.Unreadable, match="size 'small': the long sashing strips of .* length.*; got"):
            reviewed(sheet)
