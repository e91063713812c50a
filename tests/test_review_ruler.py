"""Figures are quoted as they are printed, everything else is measured; the plain data names its unit."""

from fractions import Fraction

import pytest

from quiltmath import lengths, pattern
from quiltmath.pattern.sheet import EXAMPLE
from quiltmath.review.ruler import Ruler

from . import sheets

CM = EXAMPLE.replace("[[cut]]", 'units = "cm"\nseam = 0.75\n[[cut]]')


def ruler(text):
    return Ruler.of(pattern.read_text(text))


class TestPrinted:
    @pytest.mark.parametrize(
        "typed, quoted",
        [
            ("3 1/2", "3 1/2 in"),
            ("3½", "3 1/2 in"),
            ('3-1/2\\"', "3 1/2 in"),
            ("3.52", "3.52 in"),
            (".75 inches", "0.75 in"),
            ("4 1/3", "4 1/3 in"),
            ("9.85 cm", "9.85 cm"),
        ],
    )
    def test_a_size_comes_back_as_it_was_typed(self, typed, quoted):
        read = pattern.read_text(EXAMPLE.replace('"3 1/2"', f'"{typed}"'))
        width, _ = read.cut[0].size
        assert Ruler.of(read).said(width) == Ruler.of(read).said(float(width)) == quoted
        assert Ruler.of(read).sizes(read.cut[0].size) == quoted

    def test_a_bare_number_has_the_unit_of_the_sheet(self):
        of = ruler(CM.replace('"3 1/2"', "4.75"))
        assert of.said(lengths.parse("4.75 cm")) == "4.75 cm"
        assert of.said(lengths.parse("4.77 cm")) == "4.8 cm"  # not printed: to the millimetre

    @pytest.mark.parametrize("bought", ["1 2/3 yd", "1.67 yd", "2 yd", "1.25 m", "60 in"])
    def test_fabric_bought_comes_back_as_it_was_typed(self, bought):
        read = pattern.read_text(EXAMPLE + f'[fabric.navy]\nbought = "{bought}"\nusable_width = 42\n')
        assert Ruler.of(read).cloth(read.fabric["navy"].bought) == ("1 2/3 yd" if bought == "60 in" else bought)

    def test_one_length_in_yards_and_in_inches_keeps_both_spellings(self):
        read = pattern.read_text(
            EXAMPLE + '[fabric.navy]\nbought = "1 2/3 yd"\nusable_width = "60.0"\n[batting]\nsize = 60\n'
        )
        assert Ruler.of(read).cloth(Fraction(60)) == "1 2/3 yd"
        assert Ruler.of(read).said(Fraction(60)) == "60.0 in"  # as it stands first

    def test_two_spellings_of_a_pair_share_a_unit_only_where_they_have_one(self):
        of = ruler(EXAMPLE.replace('"3 1/2"', '["9 cm", "4.5"]'))
        assert of.sizes((lengths.parse("9 cm"), Fraction(9, 2))) == "9 cm by 4.5 in"
        assert of.sizes((3, Fraction(9, 2))) == "3 by 4.5 in"

    def test_figures_with_a_hundred_digits_are_measured(self):
        assert ruler(EXAMPLE.replace('"3 1/2"', '"3.5' + "0" * 30 + '"')).said(3.5) == "3 1/2 in"
        assert ruler(EXAMPLE.replace('"3 1/2"', "1e-5")).said(Fraction(1, 100_000)) == "0.00001 in"

    def test_a_finding_quotes_the_sheet(self):
        """1 2/3 yd is no length of sixteenths; 4.75 cm no length of millimetres."""
        short = sheets.reviewed(
            EXAMPLE + '[fabric.navy]\nbought = "1/6 yd"\nusable_width = 42\n[backing]\nsize = "12.345"\n'
        )
        told = {finding.check: finding for finding in short.findings}
        assert told["fabric-short"].printed == "1/6 yd" and "1/6 yd" in told["fabric-short"].message
        assert told["backing-small"].printed == "12.345 in"


class TestPlainData:
    def test_it_says_its_unit_and_its_sizes_are_in_it(self):
        data = sheets.reviewed(CM.replace('"3 1/2"', "9.5")).as_dict()
        assert data["units"] == "cm" and data["finished"] == {"width": "32", "height": "32"}
        assert sheets.reviewed(EXAMPLE).as_dict()["units"] == "in"

    def test_a_quilt_that_cannot_be_sewn_has_no_size(self):
        found = sheets.reviewed_file(sheets.FOLDER / "faulty" / "edges-differ-plain-strips.toml")
        size = found.as_dict()["finished"]
        assert (found.made.finished is None) == (size == {"width": None, "height": None})
