"""The class sheet: a line a reading, with holes and names, and every line that cannot be read refused alone."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quiltmath.seamtest import class_sheet, from_strips

MEASURES = [("3 3/8", "15/16"), ("3 7/16", "31/32"), ("3 1/2", "1"), ("3 9/16", "1 1/32"), ("3 5/8", "1 1/16")] * 2


def test_ten_lines_are_ten_strip_tests_in_their_order():
    sheet = class_sheet("\n".join(f"Maker {number}, {one}, {other}" for number, (one, other) in enumerate(MEASURES)))
    assert [one.name for one in sheet.readings] == [f"Maker {number}" for number in range(10)]
    assert [one.test for one in sheet.readings] == [from_strips(total=one, centre=other) for one, other in MEASURES]
    assert sheet.refused == ()


@pytest.mark.parametrize(
    "text",
    [
        "Ana, 3 3/8, 15/16",
        "Ana; 3 3/8; 15/16",
        "Ana\t3 3/8\t15/16\r\n",
        '"Ana","3 3/8","15/16"',
        "\n\nAna,3.375,0.9375\n,,\n",
        "centre,who,total\n15/16,Ana,3 3/8",
        "Name;Total;Center\nAna;3⅜;15/16 in",
        "name,total,centre,strip,strips\nAna,3 3/8,15/16,1 1/2,3",
    ],
)
def test_a_reading_is_read_however_a_table_is_pasted(text):
    (one,) = class_sheet(text).readings
    assert (one.name, one.test) == ("Ana", from_strips(total="3 3/8", centre="15/16"))


@pytest.mark.parametrize(
    "line, name, centre",
    [
        ("3 3/8", "reading 1", None),
        ("3 3/8, 15/16", "reading 1", "15/16"),
        (", 3 3/8, 15/16", "reading 1", "15/16"),
        ("Ana, 3 3/8", "Ana", None),
        ("Ana, 3 3/8,", "Ana", None),
    ],
)
def test_a_name_or_a_centre_may_be_missing(line, name, centre):
    (one,) = class_sheet(line).readings
    assert (one.name, one.test) == (name, from_strips(total="3 3/8", centre=centre))


def test_other_strips_have_their_columns():
    (one,) = class_sheet("Ana, 10 1/2, 2, 2 1/2, 5").readings
    assert (one.test.strip, one.test.count, one.test.needle) == (Fraction(5, 2), 5, 0)


@pytest.mark.parametrize(
    "line, said",
    [
        ("Jo,, 1", "a reading needs the total; got none: measure across all strips again, raw edge to raw edge"),
        ("Jo, 3 1/2, 1 1/2", "a centre strip shows at most a third of the total here"),
        ("Jo, wide, 1", "total: a length is a whole number, a fraction or a decimal"),
        ("Jo, 3 1/2, wide", "centre: a length is a whole number, a fraction or a decimal"),
        ("Jo, 3 1/2, 1, wide", "cut width: a length is a whole number, a fraction or a decimal"),
        ("Jo, -3, 1", "the total must be more than 0 in; got -3 in"),
        (
            "Jo, 30, 1",
            "strips cut 1 1/2 in come out between 1 and 2 in wide; got a total of 30 in and a centre of 1 in",
        ),
        ("Jo, 3 1/2, 1, 1 1/2, three", "strips are counted in whole numbers; got 'three': count them, for example 3"),
        ("Jo, 3 1/2, 1, 1 1/2, 3, late", "a line has at most 5 cells here; got 6: leave out what is no reading"),
    ],
)
def test_a_line_that_cannot_be_read_is_refused_alone_and_says_what_to_measure(line, said):
    sheet = class_sheet(f"Ana, 3 1/2, 1\n{line}\nBea, 3 3/8, 15/16")
    assert [one.name for one in sheet.readings] == ["Ana", "Bea"]
    (refused,) = sheet.refused
    assert (refused.number, refused.name) == (2, "Jo") and refused.words.startswith(said)
    assert "1 line could not be read: reading 2, Jo." in sheet.sentence


def test_a_line_of_heads_is_not_counted_whether_a_reading_has_a_name_or_none():
    sheet = class_sheet("name, total, centre\nAna, 3 1/2, 1\nBo, wide, 1\n, wide, 1")
    assert [one.said.split(": ")[0] for one in sheet.refused] == ["reading 2, Bo", "reading 3"]


def test_a_long_name_is_cut_with_a_sign_and_a_shorter_one_is_not():
    sheet = class_sheet("Wilhelmina-Antoinette, 3 1/2\nWilhelmina-Anton, 3 1/2")
    assert [one.name for one in sheet.readings] == ["Wilhelmina-Anto…", "Wilhelmina-Anton"]


def test_a_total_alone_counts_as_if_the_strips_were_right_and_one_reading_is_not_compared():
    one, two = class_sheet("Li;3.4375;"), class_sheet("Li;3.4375;\nBo;3 1/2;1")
    assert "1 without a centre counts as if the strips were cut right." in one.sentence
    assert "apart" not in one.sentence and "are 1/64 in apart" in two.sentence


def test_what_the_class_comes_to_is_counted():
    sheet = class_sheet("3 1/2, 1\n3 1/4, 7/8\n3 11/16, 1 3/32")
    assert sheet.sentence.startswith(
        "3 readings: 1 takes too much, 1 takes too little, 1 is right as far as the reading"
    )
    needles = [one.test.needle for one in sheet.readings]
    assert sheet.apart == max(needles) - min(needles) and sheet.middle == 0


@pytest.mark.parametrize(
    "text, got", [("", "none"), (" ,,\n", "none"), ("name,total", "none"), ("3 1/2\n" * 999, "999")]
)
def test_a_sheet_without_readings_or_with_too_many_is_refused(text, got):
    with pytest.raises(
        ValueError, match=f"a class sheet has a line for each reading, from 1 to 24 of them; got {got}:"
    ):
        class_sheet(text)


@given(st.text("Ana 0123456789/,.;\t\n\"'⅜-", max_size=60))
def test_whatever_is_pasted_every_line_is_a_reading_or_is_refused_in_words(text):
    try:
        sheet = class_sheet(text)
    except ValueError as refused:
        assert "a class sheet has a line for each reading" in str(refused)
        return
    lines = [line for line in text.splitlines() if line.strip(" ,;\t")]
    told = sorted(one.number for one in (*sheet.readings, *sheet.refused))
    assert told == list(range(1, len(lines) + 1)) and all(one.words for one in sheet.refused)
