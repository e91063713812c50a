"""Which printed number is wrong: found by trying corrections, on sheets made wrong at random."""

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from quiltmath import lengths, pattern
from quiltmath.review.agreement import Culprit, Figure
from quiltmath.review.reading import Reading

from . import sheets

SOUND = {path.stem: pattern.read(path) for path in sheets.paths("sound")}


def told(sheet):
    """{Figure: how much too large (inches)} of all that is named."""
    return {
        figure: by
        for found in Reading(sheet).culprits
        if isinstance(found, Culprit)
        for figure, by in found.correction.by.items()
    }


@pytest.mark.parametrize("name", SOUND)
def test_in_a_sound_sheet_everything_agrees(name):
    assert Reading(SOUND[name]).culprits == ()


@st.composite
def one_side_off(draw):
    """A sound sheet in which one side of one whole piece in a block is printed wrong: (sheet, Figure, inches too
    large)."""
    name = draw(st.sampled_from(sorted(SOUND)))
    sheet = SOUND[name]
    in_rows = {item.name for block in sheet.block.values() for row in block.rows for item in row}
    parts = [
        n for n, cut in enumerate(sheet.cut) if cut.part in in_rows and cut.cut == "whole" and cut.size is not None
    ]
    if not parts:
        return sheet, None, 0.0
    number = draw(st.sampled_from(parts))
    width, height = sheet.cut[number].size
    by = draw(
        st.integers(2, 16).map(lambda steps: Fraction(steps, 8)) | st.integers(2, 4).map(lambda n: Fraction(-n, 8))
    )
    if width == height or min(width, height) + by <= Fraction(3, 4):
        return sheet, None, 0.0
    side = draw(st.sampled_from([0, 1]))
    size = [f"{lengths.text(one + by * (place == side))} in" for place, one in enumerate((width, height))]
    return pattern.changed(sheet, (("cut", number, "size"), size)), Figure(("cut", number, "size"), side), float(by)


@settings(max_examples=25, deadline=None)
@given(one_side_off())
def test_a_side_that_is_off_is_named_with_how_much(made_wrong):
    sheet, figure, by = made_wrong
    found = told(sheet)
    if figure is None:
        assert found == {}
    else:
        assert found.keys() == {figure} and found[figure] == pytest.approx(by, abs=0.06)


@settings(max_examples=15, deadline=None)
@given(one_side_off())
def test_once_corrected_everything_agrees(made_wrong):
    reading = Reading(made_wrong[0])
    assert reading.findings == () or reading.meant.culprits == ()
    assert (reading.meant is reading) == (made_wrong[1] is None)
