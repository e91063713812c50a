"""The chart for the wall: each figure by plain arithmetic, one page that can be read."""

from fractions import Fraction
from math import ceil, sqrt

import pytest

from quiltmath import blocks, settings
from quiltmath.handout import PAPERS, handout
from quiltmath.handout.charts import (
    ROWS_OF,
    built_triangles,
    end_triangles,
    half_and_quarter_squares,
    pages,
    setting_triangles,
)
from quiltmath.pattern.names import CORNER, SIDE

from .on_paper import is_readable, words

SEAM = {"in": 0.25, "cm": 0.75}
STEPS = {"in": 8, "cm": 10}
MORE = {"in": 1, "cm": 2.5}
UNITS = list(SEAM)


def number(text):
    return float(sum(Fraction(word) for word in text.split()))


def up(exact, unit):
    return ceil(exact * STEPS[unit] - 1e-9) / STEPS[unit]


def columns(chart):
    return [[number(figure) for figure in column.figures] for column in chart.columns]


@pytest.mark.parametrize("unit", UNITS)
def test_setting_triangles_are_the_diagonal_and_its_seams(unit):
    seam = SEAM[unit]
    found = zip(*columns(setting_triangles(unit)))
    for block, wide, side, side_cut, side_generous, corner, corner_cut, corner_generous in found:
        assert wide == pytest.approx(block * sqrt(2), abs=1 / 32 if unit == "in" else 0.05)
        exact = block * sqrt(2) + 2 * seam * (1 + sqrt(2))
        assert side == pytest.approx(exact, abs=0.0051) and side_cut == up(exact, unit)
        exact = block / sqrt(2) + seam * (2 + sqrt(2))
        assert corner == pytest.approx(exact, abs=0.0051) and corner_cut == up(exact, unit)
        assert (side_generous - side_cut, corner_generous - corner_cut) == pytest.approx((MORE[unit], MORE[unit]))


def test_blocks_run_from_4_to_16_inches():
    assert columns(setting_triangles("in"))[0] == list(range(4, 17))


@pytest.mark.parametrize("unit", UNITS)
def test_half_and_quarter_squares_add_their_seams(unit):
    for finished, half, quarter in zip(*columns(half_and_quarter_squares(unit))):
        assert half == up(finished + SEAM[unit] * (2 + sqrt(2)), unit)
        assert quarter == up(finished + SEAM[unit] * (2 + 2 * sqrt(2)), unit)


@pytest.mark.parametrize("unit", UNITS)
def test_end_triangles_are_side_triangles_of_one_square(unit):
    for finished, cut in zip(*columns(end_triangles(unit))):
        assert cut == up(finished * sqrt(2) + 2 * SEAM[unit] * (1 + sqrt(2)), unit)


def test_built_triangles_take_what_the_plan_of_a_quilt_takes():
    """Of one quilt's bill: its edge triangles, side and corner, all built."""
    _, *found = [column.figures for column in built_triangles().columns]
    for place, count in enumerate(ROWS_OF):
        block = blocks.read(" | ".join([" ".join("A" * count)] * count), size=count, fabrics={"A": "navy"})
        plan = settings.on_point(across=3, down=3, block=block, edges="built")
        side, corner = (plan.made.edge_triangle(kind, "top") for kind in (SIDE, CORNER))
        rows, squares, ends, corner_rows, corner_squares, corner_ends = (int(column[place]) for column in found)
        assert (_ends(side), len(side.cuts)) == (ends, squares + ends)
        assert (_ends(corner), len(corner.cuts)) == (corner_ends, corner_squares + corner_ends)
        wanted = sum(need.count for need in plan.cutting_list())
        assert wanted == plan.blocks * count**2 + plan.side_triangles * (squares + ends) + 4 * (
            corner_squares + corner_ends
        )
        assert (rows, corner_rows) == (count, (count + 1) // 2)


def _ends(panel):
    """How many patches of a built triangle are cut as triangles."""
    return sum(cut.part.startswith(("end ", "tip ")) for cut in panel.cuts)


@pytest.mark.parametrize("paper", PAPERS.values(), ids=PAPERS)
def test_the_chart_is_one_page_that_can_be_read(paper):
    (page,) = pages(paper)
    is_readable(page)


def test_the_chart_needs_no_sheet():
    text = words(handout(None, ["charts"], "Letter").pdf())
    assert "19 1/4" in text and "In centimetres. Seam 0.75 cm" in text and text.count("\f") == 1
