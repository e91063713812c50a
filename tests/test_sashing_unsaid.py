"""A sheet that does not say whether its sashing lies round the outside, and whose units print no size of their own: its
counts and its size tell."""

from fractions import Fraction
from math import ceil

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quiltmath import pattern, review
from quiltmath.making import measures
from quiltmath.making.rounding import added

SHED = """\
title = "Potting shed"
seam = "1/4"
finished = ["36", "46 1/2"]
cut = [
    { part = "leaf", fabric = "moss", size = "3 7/8", count = 24 },
    { part = "sky", fabric = "oat", size = "3 7/8", count = 24 },
    { part = "pane", fabric = "oat", size = "3 1/2", count = 48 },
    { part = "heart", fabric = "clay", size = "3 1/2", count = 12 },
    { part = "sash", fabric = "clay", size = ["2", "9 1/2"], count = 17 },
    { part = "stone", fabric = "moss", size = "2", count = 6 },
    { part = "side", fabric = "moss", size = ["3 1/2", "41"], count = 2 },
    { part = "head", fabric = "moss", size = ["3 1/2", "36 1/2"], count = 2 },
]
[fabric.moss]
bought = "1 3/4 yd"
usable_width = 42
[fabric.oat]
bought = "1 yd"
usable_width = 42
[fabric.clay]
bought = "5/8 yd"
usable_width = 42
[unit.corner]
kind = "half-square"
parts = ["leaf", "sky"]
at_a_time = 2
[block.shoofly]
finished = "9"
rows = ["corner:90 pane corner:180", "pane heart pane", "corner pane corner:270"]
[setting]
style = "straight"
across = 3
down = 4
block = "shoofly"
[setting.sashing]
part = "sash"
cornerstone = "stone"
[[border]]
sides = "side"
top = "head"
first = "sides"
[binding]
fabric = "moss"
strip = "2 1/4"
count = 5
"""
ROUND = (("count = 17", "count = 31"), ("count = 6 ", "count = 20 "), ("41", "44"), ("36 1/2", "39 1/2"))


def found(*changes):
    """The verdict on the shed with these changes, and its checks that stop or ask."""
    sheet = SHED
    for old, new in changes:
        assert old in sheet, old
        sheet = sheet.replace(old, new)
    told = review.review(pattern.read_text(sheet))
    return told.verdict, [one.check for one in told.findings if one.level != "note"]


def test_strips_between_the_blocks_alone_are_a_go():
    assert found() == ("go", [])


def test_strips_round_the_outside_too_are_a_go():
    size = ('finished = ["36", "46 1/2"]', 'finished = ["39", "49 1/2"]')
    assert found(size, *ROUND, ('"1 3/4 yd"', '"2 yd"'), ('"5/8 yd"', '"1 yd"')) == ("go", [])


def test_without_a_printed_size_the_counts_tell():
    assert found(('finished = ["36", "46 1/2"]\n', "")) == ("ask", ["not-stated"])


@pytest.mark.parametrize(
    "old, new, check",
    [
        ('["2", "9 1/2"]', '["2", "9"]', "cut-size"),
        ('"3 7/8"', '"3 1/2"', "cut-size"),
        ('"41"', '"40"', "border-length"),
        ("count = 48", "count = 36", "piece-count"),
        ('"1 yd"', '"5/8 yd"', "fabric-short"),
    ],
)
def test_a_planted_fault_is_all_that_is_found(old, new, check):
    assert found((old, new)) == ("stop", [check])


@given(
    st.sampled_from([("half-square", "once"), ("quarter-square", "twice")]),
    st.integers(8, 96),
    st.sampled_from(["whole", "cut"]),
)
def test_what_squares_rounded_up_to_the_ruler_finish(kind, eighths, way):
    finished = Fraction(eighths, 8)
    square = Fraction(ceil((float(finished) + added(kind[1], 0.25)) * 8), 8)
    sheet = pattern.read_text(SHED.replace("3 7/8", str(float(square))).replace('"half-square"', f'"{kind[0]}"'))
    if way == "cut":
        cuts = [one.model_copy(update={"cut": kind[1]}) if one.part in ("leaf", "sky") else one for one in sheet.cut]
        unit = sheet.unit["corner"].model_copy(update={"at_a_time": None})
        sheet = sheet.model_copy(update={"cut": cuts, "unit": {"corner": unit}})
    assert measures.finished(sheet, "corner") == (finished, finished)


@given(st.integers(4, 48))
def test_what_geese_from_squares_finish(eighths):
    high = Fraction(eighths, 8)
    goose, sky = (
        Fraction(ceil((float(side) + added(way, 0.25)) * 8), 8) for side, way in ((2 * high, "twice"), (high, "once"))
    )
    sheet = SHED.replace('"3 7/8"', f'"{float(goose)}"', 1).replace('"3 7/8"', f'"{float(sky)}"', 1)
    sheet = sheet.replace('"half-square"', '"flying geese"').replace("at_a_time = 2", "at_a_time = 4")
    assert measures.finished(pattern.read_text(sheet), "corner") == (2 * high, high)
