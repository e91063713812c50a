"""The kit against every printed figure in data/published/figures.csv (each row names its source)."""

from fractions import Fraction

import pytest

from quiltmath import proofs
from quiltmath.proofs.sources import rows, sources
from tests import agreement
from tests.published import all_compared, answer, rounded

ROWS = rows()


def named(row):
    return f"{row['topic']}: {row['input'][:60]}"


@pytest.mark.parametrize("number", range(len(ROWS)), ids=[named(row) for row in ROWS])
def test_every_printed_figure_agrees_or_has_its_reason(number):
    each = all_compared()[number]
    if each.row["reason"]:
        assert each.verdict == "differs", f"listed as differing, but agrees now: {each}"
    else:
        assert each.verdict != "differs", f"differs without a reason: {each}"


def test_a_row_that_differs_names_no_rounding_and_a_row_that_agrees_no_reason():
    assert [row["input"] for row in ROWS if row["rounding"] and row["reason"]] == []


def test_every_row_has_its_source():
    assert all(row["source_title"] and row["source_address"].startswith("http") for row in ROWS)


def test_the_topics_are_complete():
    """Counts of the collection the rows were taken from: setting triangles, units, counts, binding,
    standards."""
    counts = {topic: sum(row["topic"] == topic for row in ROWS) for topic in "abcfj"}
    assert counts == {"a": 103, "b": 71, "c": 11, "f": 50, "j": 22}


def test_no_row_gives_its_own_answer():
    """Each question goes to a proof or to the seam, never to a bare number."""
    names = [proof.name for proof in proofs.every()]
    for row in ROWS:
        assert any(f"{name}(" in row["ask"] for name in [*names, "cm"]) or row["ask"] == "SEAM", row["ask"]


def test_metric_constants_that_are_rounded_down_fall_short():
    """2.5 and 3.5 cm for 0.75 cm seams (a metric geese page in the figures): short by 0.06 and 0.12 cm."""
    short = {each.row["input"]: float(each.exact - each.printed) for each in all_compared() if each.short}
    assert short["metric HST: add"] == pytest.approx(0.0607, abs=1e-4)
    assert short["metric QST: add"] == pytest.approx(0.1213, abs=1e-4)


def test_a_wrong_rounding_is_refused():
    with pytest.raises(ValueError, match="a rounding is a basis"):
        rounded("half_square(finished=3)", "roughly up 1/8")


def test_a_printed_figure_that_is_changed_no_longer_agrees():
    right = rounded("side_triangle(block=12)", "exact up 1/8")
    assert right == Fraction(73, 4) and right != Fraction(145, 8)
    assert rounded("side_triangle(block=12)", "") is None
    assert float(answer("side_triangle(block=12)", "1.414")) == pytest.approx(12 * 1.414 + 1.25)


def test_proofs_name_the_sources_that_agree():
    titles = {title for title, _ in proofs.half_square.source}
    assert titles and all(address.startswith("http") for _, address in sources("half_square"))
    assert proofs.kite.source == ()


def test_the_agreement_table_adds_up():
    lines = agreement.table(all_compared())
    total = next(line for line in lines if line.startswith("all")).split()
    assert int(total[1]) == len(ROWS) == sum(map(int, total[2:5]))
