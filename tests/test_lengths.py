"""Lengths: what is read, what is refused and how, what is written, how it is rounded."""

from decimal import Decimal
from fractions import Fraction

import numpy as np
import pytest
import sympy
from hypothesis import given
from hypothesis import strategies as st

from quiltmath import lengths
from quiltmath.lengths import HAIR, parse, ruler, text
from quiltmath.root2 import Root2

THREE_AND_SEVEN_EIGHTHS = Fraction(31, 8)
STEPS = ["1/8", "1/16", "1/4", "1/2", "0.5 cm", "1 mm"]


def on_a_ruler():
    return st.builds(Fraction, st.integers(-64_000, 64_000), st.sampled_from([1, 2, 4, 8, 16, 32, 64]))


class TestParse:
    @pytest.mark.parametrize(
        "written",
        [
            "3 7/8",
            "3⅞",
            "3 ⅞",
            "3-7/8",
            '3-7/8"',
            "3–7/8",
            "3 7/8 in",
            "3 7/8 inches",
            "3-7/8-inch",
            "3 7/8″",
            "3 7/8''",
            "3 7⁄8",
            "3.875",
            " 3.875 in. ",
            "3 7/8”",
            "9.8425 cm",
            3.875,
            Fraction(31, 8),
            Decimal("3.875"),
            np.float64(3.875),
            sympy.Rational(31, 8),
            "  3\t7 / 8  ",
            "3\xa07/8",
        ],
    )
    def test_every_way_to_write_three_and_seven_eighths(self, written):
        assert parse(written) == THREE_AND_SEVEN_EIGHTHS

    @pytest.mark.parametrize(
        ("written", "inches"),
        [
            ("0", 0),
            ("½", Fraction(1, 2)),
            (".5", Fraction(1, 2)),
            ("3.", 3),
            ("2½yd", 90),
            ("2 yards", 72),
            ("⅓ yd", 12),
            ("2.54 cm", 1),
            ("25.4mm", 1),
            ("1 m", Fraction(5000, 127)),
            (np.int64(7), 7),
            (0.1, Fraction(1, 10)),
            (np.float32(0.1), Fraction(1, 10)),
            ("-3 7/8", Fraction(-31, 8)),
            ("7/2", Fraction(7, 2)),
            ("13/2", Fraction(13, 2)),
            ("100/8", Fraction(25, 2)),
            ("13/16", Fraction(13, 16)),
            ("617/127 in", Fraction(617, 127)),
            ("−3⅞", Fraction(-31, 8)),
            (3, 3),
        ],
    )
    def test_the_exact_inches(self, written, inches):
        assert parse(written) == inches and type(parse(written)) is Fraction

    def test_an_inch_is_2_54_cm(self):
        """36 in is 91.44 cm: NIST LC 1137, Metric Style Guide (quoted), a row of
        data/published/figures.csv."""
        assert parse("91.44 cm") == parse("914.4 mm") == parse("1 yd") == 36

    def test_a_unit_for_bare_numbers_only(self):
        assert parse("10", unit="cm") == parse(10, unit="cm") == parse("10 cm")
        assert parse("10 in", unit="cm") == 10

    @pytest.mark.parametrize(
        ("written", "lesson"),
        [
            ("12 ft 5", "feet are not read: write all of it in inches"),
            ("12'", "feet are not read"),
            ("5 feet", "feet are not read"),
            ("3 9/0", "a number above 0 under its line; got '3 9/0'"),
            ("3 9/8", "write 4 1/8 if that is what you mean"),
            ("31/2", "got '31/2': is 3 1/2 meant? Write it so, or 15 1/2 if you mean that"),
            ("37/8", "is 3 7/8 meant? Write it so, or 4 5/8 if"),
            ("115/16 in", "is 1 15/16 or 11 5/16 meant?"),
            ("-11/3 yd", "is 1 1/3 meant?"),
            ("3,5", "write a decimal with a point"),
            ("1e400", "write the number out, without a power of ten"),
            ("1e5", "without a power of ten"),
            ("nan", "got 'nan'; write for example 3 7/8"),
            ("inf", "got 'inf'"),
            ("", "nothing is written there"),
            ("  ", "nothing is written there"),
            ("4 x 5", "one length at a time"),
            ("4 × 5", "one length at a time"),
            ("about 3", "got 'about 3'"),
            ("3 - 7/8", "write for example"),
            ("--3", "write for example"),
            ("3 in in", "one unit"),
            ("½⅓", "a length is a whole number, a fraction or a decimal"),
            ("⅟", "got '⅟'"),
            ("²", "got '²'"),
            ("१", "got '१'"),
            ("three", "got 'three'"),
            ("3 7/8/2", "got"),
            ("/8", "got"),
            ("in", "got"),
            *((char * 10_000, "10,000 characters") for char in ("x", "9", " ", "⅞", "-")),
            ("1/" * 5000, "10,000 characters"),
            ("1" * 60, "at most 1,000,000 in"),
        ],
    )
    def test_text_that_is_no_length_gets_a_lesson(self, written, lesson):
        with pytest.raises(ValueError) as refused:
            parse(written)
        assert lesson in str(refused.value)
        assert len(str(refused.value)) < 300

    @pytest.mark.parametrize(
        "value",
        [
            None,
            True,
            float("nan"),
            float("inf"),
            -float("inf"),
            10**400,
            10**5000,
            Fraction(10) ** 5000,
            Decimal("nan"),
            Decimal("1e999999999"),
            Decimal("1e-999999999"),
            sympy.sqrt(2),
            sympy.Symbol("x"),
            sympy.nan,
            sympy.oo,
            [1],
            [1] * 10_000,
            1j,
            object(),
            b"3",
            1e300,
        ],
        ids=lambda value: type(value).__name__,
    )
    def test_what_is_no_number_is_refused(self, value):
        with pytest.raises(ValueError, match="a length is") as refused:
            parse(value)
        assert len(str(refused.value)) < 300

    def test_limits_are_named(self):
        assert parse("0", least=0) == 0
        with pytest.raises(ValueError, match="sash must be 0 or more in; got -1/4 in"):
            parse("-1/4", name="sash", least=0)
        with pytest.raises(ValueError, match="block must be more than 0 in; got 0 in"):
            parse(0, name="block", above=0)

    def test_an_unknown_unit_is_refused(self):
        for bad in ("ft", [], None):
            with pytest.raises(ValueError, match="a unit is one of in, yd, mm, cm, m"):
                parse("3", unit=bad)
            with pytest.raises(ValueError, match="a unit is one of in, yd, mm, cm, m"):
                text(3, unit=bad)

    @given(st.text(max_size=80) | st.text("0123456789 /-.⅞½incmyd\"'", max_size=30))
    def test_any_text_is_read_or_refused_never_worse(self, written):
        try:
            assert abs(parse(written)) <= lengths.LONGEST
        except ValueError as refused:
            assert "; got " in str(refused)


class TestText:
    @pytest.mark.parametrize(
        ("value", "options", "written"),
        [
            (THREE_AND_SEVEN_EIGHTHS, {}, "3 7/8"),
            (THREE_AND_SEVEN_EIGHTHS, {"unicode": True}, "3⅞"),
            (THREE_AND_SEVEN_EIGHTHS, {"mark": '"'}, '3 7/8"'),
            (THREE_AND_SEVEN_EIGHTHS, {"mark": "″"}, "3 7/8″"),
            (THREE_AND_SEVEN_EIGHTHS, {"mark": "in"}, "3 7/8 in"),
            (0, {}, "0"),
            (Fraction(1, 2), {"unicode": True}, "½"),
            (Fraction(-7, 8), {}, "-7/8"),
            (Fraction(51, 16), {"unicode": True}, "3 3/16"),
            (54, {"unit": "yd"}, "1 1/2 yd"),
            (48, {"unit": "yd", "unicode": True}, "1⅓ yd"),
            ("9.8 cm", {"unit": "cm"}, "9.8 cm"),
            ("10 cm", {"unit": "mm"}, "100 mm"),
            (Fraction(1, 3), {}, "about 0.3333"),
            (0.8535, {}, "0.8535"),
            (0.85355, {}, "about 0.8536"),
            (0.85355, {"places": 2, "mark": "in"}, "about 0.85 in"),
            (sympy.sqrt(2), {}, "about 1.4142"),
            (Fraction(1, 10**500), {}, "about 0"),
            (-1e-9, {}, "about 0"),
            (Fraction(1, 128), {}, "about 0.0078"),
            (2.5, {"places": 0}, "2 1/2"),
            (2.3, {"places": 0}, "about 2"),
        ],
    )
    def test_written(self, value, options, written):
        assert text(value, **options) == written

    @given(on_a_ruler(), st.booleans(), st.sampled_from(["", "in", '"', "″"]))
    def test_ruler_fractions_come_back(self, inches, unicode, mark):
        assert parse(text(inches, unicode=unicode, mark=mark)) == inches

    @given(st.integers(-(10**7), 10**7), st.sampled_from(["cm", "mm", "yd", "in", "m"]), st.booleans())
    def test_decimals_in_any_unit_come_back(self, hundredths, unit, unicode):
        size = Fraction(hundredths, 1000) * lengths.INCHES[unit]
        assert parse(text(size, unit, unicode=unicode)) == size

    @given(st.fractions(-1000, 1000), st.sampled_from(["in", "cm", "yd"]))
    def test_what_is_not_exact_says_about(self, inches, unit):
        written = text(inches, unit)
        if written.startswith("about "):
            off = abs(parse(written.removeprefix("about ")) - inches)
            assert off <= Fraction(1, 20_000) * lengths.INCHES[unit]
        else:
            assert parse(written) == inches

    def test_a_mark_that_is_none(self):
        with pytest.raises(ValueError, match="a mark for inches is"):
            text(3, mark="ft")


class TestRuler:
    @pytest.mark.parametrize(
        ("value", "step", "rounding", "on_it"),
        [
            (15.349, "1/8", "up", Fraction(123, 8)),
            (15.349, "1/8", "down", Fraction(61, 4)),
            (15.349, "1/4", "nearest", Fraction(61, 4)),
            (9.3125, "1/8", "nearest", Fraction(75, 8)),
            (sympy.sqrt(2) / 4 + sympy.Rational(7, 2), "1/8", "up", THREE_AND_SEVEN_EIGHTHS),
            (sympy.Float(3.875), "1/8", "up", THREE_AND_SEVEN_EIGHTHS),
            ("3 7/8", "1/4", "up", 4),
            (-3.9, "1/8", "up", -3.875),
            (np.float32(3.2), "1/16", "up", Fraction(13, 4)),
        ],
    )
    def test_rounded(self, value, step, rounding, on_it):
        assert ruler(value, step=step, rounding=rounding) == on_it

    def test_metric_steps(self):
        assert ruler("9.62 cm", step="0.5 cm") == parse("10 cm")
        assert ruler("9.62 cm", step="1 mm") == parse("9.7 cm")

    @pytest.mark.parametrize("rounding", ["up", "nearest", "down"])
    @given(steps=st.integers(0, 10_000), off=st.floats(-float(HAIR) / 2, float(HAIR) / 2))
    def test_a_hair_beside_a_step_is_on_it(self, rounding, steps, off):
        assert ruler(steps / 8 + off, rounding=rounding) == Fraction(steps, 8)

    def test_more_than_a_hair_counts(self):
        assert ruler(Fraction(3) + 2 * HAIR) == Fraction(25, 8)
        assert ruler(Fraction(3) - 2 * HAIR, rounding="down") == Fraction(23, 8)

    @given(st.fractions(-1000, 1000), st.sampled_from(STEPS))
    def test_up_and_down_enclose_and_nearest_is_one_of_them(self, value, step):
        low, near, high = (ruler(value, step, way) for way in ("down", "nearest", "up"))
        size = parse(step)
        assert low - HAIR <= value <= high + HAIR
        assert near in (low, high) and high - low in (0, size) and abs(near - value) <= size / 2
        assert (near / size).denominator == 1

    @pytest.mark.parametrize(
        ("options", "lesson"),
        [
            ({"rounding": "roughly"}, "a rounding is 'up', 'nearest' or 'down'"),
            ({"step": 0}, "a ruler's step must be more"),
            ({"step": "-1/8"}, "a ruler's step must be more"),
            ({"step": "x"}, "a length is"),
        ],
    )
    def test_refusals(self, options, lesson):
        with pytest.raises(ValueError, match=lesson):
            ruler(3.2, **options)

    def test_a_symbol_is_no_size(self):
        for value in (sympy.Symbol("x"), sympy.I, sympy.sqrt(sympy.Symbol("x")), sympy.sqrt(10**5000)):
            with pytest.raises(ValueError, match="a length is"):
                ruler(value)


class TestRoot2:
    """Lengths a + b√2 are written and rounded exactly, as SymPy's are, without SymPy."""

    lengths_on_point = st.builds(
        Root2, st.fractions(-100, 100, max_denominator=64), st.fractions(-100, 100, max_denominator=64)
    )

    @given(lengths_on_point, st.sampled_from(STEPS), st.sampled_from(["up", "nearest", "down"]))
    def test_rounded_as_sympy_rounds(self, length, step, rounding):
        assert ruler(length, step, rounding) == ruler(length.exact(), step, rounding)

    @given(lengths_on_point, st.sampled_from(["in", "yd", "cm"]), st.integers(0, 12))
    def test_written_as_sympy_is(self, length, unit, places):
        assert text(length, unit, places=places) == text(length.exact(), unit, places=places)

    def test_whole_numbers_decide_where_floats_cannot(self):
        """A hair is 1e-9 in: this length lies 1.0000000001 of it above 9 in, and that one 0.9999999999."""
        p, q = 1, 1
        while Fraction(1, q) > Fraction(1, 10**30):
            p, q = p + 2 * q, p + q
        nothing = Root2(p, -q)  # some 1e-31, and irrational
        more, less = HAIR * Fraction(10**10 + 1, 10**10), HAIR * Fraction(10**10 - 1, 10**10)
        assert float(9 + more + nothing) == float(9 + more)
        assert ruler(nothing + 9 + more) == Fraction(73, 8) and ruler(nothing + 9 + less) == 9

    def test_a_plain_one_is_read_and_another_is_refused(self):
        assert parse(Root2(Fraction(31, 8))) == Fraction(31, 8) and parse(Root2(10), unit="cm") == parse("10 cm")
        with pytest.raises(ValueError, match="becomes a fraction, exactly; got 1 . 9√2, which is none; round it first"):
            parse(Root2(1, 9))

    @pytest.mark.parametrize("write", [text, ruler, parse])
    def test_a_slip_is_refused(self, write):
        with pytest.raises(ValueError, match="at most 1,000,000 in; got 1000001; check"):
            write(Root2(1_000_001))

    @pytest.mark.parametrize("write", [text, ruler])
    def test_an_irrational_slip_is_refused(self, write):
        with pytest.raises(ValueError, match="at most 1,000,000 in; got 1000000√2; check"):
            write(Root2(root=1_000_000))
