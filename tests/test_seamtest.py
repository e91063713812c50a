"""Strip tests: against printed figures with their sources, against sewn cloth, against the equations solved by
SymPy."""

import csv
import re
from fractions import Fraction

import numpy as np
import pytest
import sympy
from hypothesis import given
from hypothesis import strategies as st

from quiltmath import lengths, proofs, resources, sewing
from quiltmath.seamtest import SEAM, expected, from_strips, grown, plausible, scattered, seams_that_fit
from quiltmath.shapes import off_grain


def published(name):
    """The rows of a file of printed figures."""
    with open(resources.folder("data") / "published" / name, encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


ROWS = [*published("seamtest.csv"), *published("grain.csv")]

sixteenths = st.integers(1, 12).map(lambda n: Fraction(n, 32))
cuts = st.integers(20, 60).map(lambda n: Fraction(n, 16))
counts = st.integers(3, 12)


# -- printed figures ---------------------------------------------------------------------------------------------------


def percent(loss, of):
    """What share of a length one seam of a row of two loses, in hundredths, sewn `loss` too deep in all."""
    return 100 * grown(lengths.parse(loss) / 2, 1) / of


NAMES = {
    "expected": expected,
    "grown": grown,
    "percent": percent,
    "off_grain": off_grain,
    "bias_strip": proofs.bias_strip,
    "SEAM": SEAM,
    "Fraction": Fraction,
}


HAIR = 1e-9  # of an inch, or of a degree: angles come as floats


def verdict(row):
    """ "agrees", "differs" or "not compared"."""
    if not row["ask"]:
        return "not compared"
    ours = eval(row["ask"], {"__builtins__": {}}, dict(NAMES))
    printed = _read(row["printed"])
    return "agrees" if printed is not None and abs(float(ours) - float(printed)) < HAIR else "differs"


def _read(printed):
    return None if " to " in printed else lengths.parse(printed)


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["input"][:60])
def test_every_printed_figure_agrees_or_has_its_reason(row):
    said = f"{verdict(row)}: {row['input']}, printed {row['printed']}; {row['source_title']}, {row['source_address']}"
    assert (verdict(row) == "agrees") == (not row["reason"]), said


def test_every_row_has_its_source_and_none_is_missing():
    assert [sum(row["topic"] == topic for row in ROWS) for topic in "de"] == [14, 8]
    assert len({(row["input"], row["source_address"]) for row in ROWS}) == len(ROWS)
    assert all(row["source_title"] and row["source_address"].startswith("http") for row in ROWS)


def test_a_changed_figure_no_longer_agrees():
    assert verdict({**ROWS[0], "printed": "3 3/8"}) == "differs"


# -- the two errors come apart -----------------------------------------------------------------------------------------


@given(cuts, sixteenths, counts)
def test_what_was_cut_and_taken_comes_back_from_the_measures(cut, taken, count):
    total, centre = count * cut - 2 * (count - 1) * taken, cut - 2 * taken
    if centre <= 0:
        return
    test = from_strips(strip="1 1/2", count=count, total=total, centre=centre)
    assert (test.cut, test.taken) == (cut, taken)
    assert (test.ruler, test.needle) == (cut - Fraction(3, 2), taken - SEAM)


def test_the_formulas_are_the_equations_solved():
    total, centre, cut, taken, count = sympy.symbols("total centre cut taken count")
    found = sympy.solve([count * cut - 2 * (count - 1) * taken - total, cut - 2 * taken - centre], [cut, taken])
    for numbers in ((3, Fraction(27, 8), Fraction(15, 16)), (7, Fraction(15, 2), 1)):
        values = {symbol: sympy.Rational(str(n)) for symbol, n in zip((count, total, centre), numbers)}
        test = from_strips(count=numbers[0], total=numbers[1], centre=numbers[2])
        assert (test.cut, test.taken) == (found[cut].subs(values), found[taken].subs(values))


@pytest.mark.parametrize("cut, taken", [(1.5, 0.25), (1.5, 0.28125), (1.4375, 0.25), (1.5625, 0.1875)])
def test_strips_really_sewn_are_read_right(cut, taken):
    strip = sewing.patch(size=(cut, 6), fabric="navy")
    sewn = strip
    for _ in range(2):
        sewn = sewn.sew(strip, mine="right", theirs="left", seam=taken)
    middle = sorted(sewn.patches, key=lambda patch: patch.polygon[:, 0].mean())[1].polygon[:, 0]
    test = from_strips(count=3, total=sewn.size[0], centre=float(np.ptp(middle)))
    assert (float(test.cut), float(test.taken)) == pytest.approx((cut, taken))
    assert test.right == ((cut, taken) == (1.5, 0.25))


@given(cuts, counts)
def test_strips_cut_and_sewn_right_measure_what_the_proof_says(strip, count):
    right = expected(strip, count)
    finished = strip - 2 * SEAM
    assert right.centre == finished and right.total == proofs.strip_set.exact("set", finished=finished, strips=count)
    test = from_strips(strip, count, right.total, right.centre)
    assert test.right and test.needle == test.ruler == 0
    assert test.advice.endswith("as they should be.") and "as it should." in test.advice


@given(counts, st.integers(-4, 4))
def test_without_the_centre_all_of_the_error_is_the_seam_s(count, off):
    test = from_strips(count=count, total=expected(count=count).total + Fraction(off, 16))
    assert test.ruler == 0 and test.needle == Fraction(-off, 32 * (count - 1)) and test.cut_within == 0
    assert "measure the centre strip" in test.sentence


@given(cuts, sixteenths, counts, st.integers(-8, 8), st.integers(-8, 8))
def test_a_reading_off_by_half_a_step_moves_the_result_no_further_than_said(cut, taken, count, one, other):
    total, centre = count * cut - 2 * (count - 1) * taken, cut - 2 * taken
    off = Fraction(1, 64) / 8
    if centre <= 1:
        return
    total = total + one * off + count * Fraction(1, 64)
    test = from_strips(count=count, total=total, centre=centre, reading="1/32")
    moved = from_strips(count=count, total=total - one * off, centre=centre + other * off, reading="1/32")
    assert abs(moved.taken - test.taken) <= test.taken_within and abs(moved.cut - test.cut) <= test.cut_within


def test_the_bounds_of_certainty_are_reached():
    test = from_strips(count=3, total="3 1/2", centre=1)
    moved = from_strips(count=3, total=Fraction(7, 2) + Fraction(1, 64), centre=1 - Fraction(1, 64))
    assert moved.taken - test.taken == test.taken_within and moved.cut - test.cut == test.cut_within


def planted(seed):
    """Strips cut and sewn with errors that nobody knows, sewn as cloth and read off a ruler: the errors, and the
    test."""
    chance = np.random.default_rng(seed)
    cut, taken = 1.5 + chance.uniform(-1 / 16, 1 / 16), 0.25 + chance.uniform(-1 / 16, 1 / 16)
    count, step = int(chance.integers(3, 6)), Fraction(1, int(chance.choice((16, 32, 64))))
    strip = sewing.patch(size=(cut, 6))
    sewn = sewing.in_a_row([strip] * count, seam=taken)
    inner = [
        patch for patch in sewn.patches if 0 < patch.polygon[:, 0].min() and patch.polygon[:, 0].max() < sewn.size[0]
    ]
    centre = float(np.ptp(inner[0].polygon[:, 0]))
    total, centre = (lengths.ruler(one, step, "nearest") for one in (sewn.size[0], centre))
    return cut - 1.5, taken - 0.25, from_strips("1 1/2", count, total, centre, reading=step)


def test_planted_errors_come_back_within_the_bars_in_95_of_100_trials_and_not_within_a_quarter_of_them():
    trials = [planted(seed) for seed in range(100)]

    def recovered(share):
        return sum(
            abs(float(test.ruler) - ruler) <= share * test.cut_within
            and abs(float(test.needle) - needle) <= share * test.taken_within
            for ruler, needle, test in trials
        )

    assert recovered(1) >= 95
    assert recovered(1 / 4) < 95


@pytest.mark.parametrize("total, centre", [("3 1/4", "7/8"), ("3 3/4", "1 1/8"), ("3 5/16", "15/16"), ("3 1/2", "1")])
def test_what_is_to_change_brings_the_needle_right(total, centre):
    """The needle moved as told takes a quarter inch: the way is right, and by how much."""
    test = from_strips(total=total, centre=centre)
    if test.needle == 0:
        assert test.change.startswith("Change nothing at the machine.")
        return
    words = test.change.split()
    by = lengths.parse(words[words.index("needle") + 1])
    towards_the_edge = "needle" in words and words[words.index("the", words.index("to")) + 1] == "right,"
    assert test.taken - by * (1 if towards_the_edge else -1) == SEAM


def test_what_the_reading_cannot_tell_moves_no_needle_and_a_ruler_that_is_off_is_said():
    assert from_strips(total="3 15/32", centre="31/32").change.startswith(
        "Before you move anything, read to a finer step"
    )
    assert "ten strips" not in from_strips(total="3 63/128").change
    assert "look again how the ruler lies" in from_strips(total="3 5/16", centre="15/16").change


def test_a_row_fits_over_so_many_seams_and_not_one_more():
    for error in (Fraction(1, 128), Fraction(1, 64), Fraction(-1, 48)):
        seams = seams_that_fit(error)
        assert abs(grown(error, seams)) <= Fraction(1, 16) < abs(grown(error, seams + 1))
    assert seams_that_fit(0) is None


# -- advice ------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "total, centre, says",
    [
        (
            "3 3/8",
            "15/16",
            ["takes 9/32 in, 1/32 in too much: sew with a narrower seam", "1 1/2 in wide, as they should be"],
        ),
        (
            "3 5/8",
            "1 1/16",
            ["takes 7/32 in, 1/32 in too little: sew with a wider seam", "1 1/2 in wide, as they should be"],
        ),
        (
            "3 5/16",
            "15/16",
            ["takes 1/4 in, as it should", "1 7/16 in wide, 1/16 in too narrow: look again how the ruler lies"],
        ),
        ("3 11/16", "1 1/16", ["takes 1/4 in, as it should", "1 9/16 in wide, 1/16 in too wide"]),
        ("3 1/2", None, ["takes 1/4 in, as it should", "count as cut right"]),
    ],
)
def test_advice_names_needle_and_ruler(total, centre, says):
    test = from_strips(total=total, centre=centre)
    assert all(words in test.advice for words in says), test.advice


def test_a_total_that_is_right_may_hide_two_errors():
    """Strips 1/8 in too narrow and seams 3/32 in too narrow: the set measures 3 1/2 in all the same."""
    test = from_strips(total="3 1/2", centre="1 1/16")
    assert (test.ruler, test.needle) == (Fraction(-1, 8), Fraction(-3, 32)) and not test.right


# -- growing -----------------------------------------------------------------------------------------------------------


@given(st.integers(-8, 8), st.integers(0, 200), st.integers(0, 200))
def test_errors_add_up_seam_by_seam(error, one, other):
    error = Fraction(error, 64)
    assert grown(error, one) + grown(error, other) == grown(error, one + other)
    assert grown(error, 1) == 2 * error


def test_a_row_loses_what_the_sewn_row_loses():
    test = from_strips(strip="2 1/2", count=3, total="6 1/4", centre="1 15/16")
    patch = sewing.patch(size=(float(test.cut), 3), fabric="navy")
    row = patch
    for _ in range(7):
        row = row.sew(patch, mine="right", theirs="left", seam=float(test.taken))
    sewn, should = test.row(8)
    assert row.size[0] == pytest.approx(float(sewn)) and should == 8 * 2 + Fraction(1, 2)


def test_chance_errors_grow_with_the_root():
    """Twenty thousand rows of 64 seams, each seam off at random by 1/32 in: the spread is what is said, within 2 %."""
    off = np.random.default_rng(7).choice([-1 / 32, 1 / 32], size=(20_000, 64))
    assert np.std(2 * off.sum(axis=1)) == pytest.approx(scattered("1/32", 64), rel=0.02)
    assert scattered("1/32", 64) == pytest.approx(float(grown("1/32", 64)) / 8)


# -- refusals ----------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "ask, said",
    [
        (
            lambda: from_strips(),
            'a strip test needs the measured total; nothing was given: write for example total="3 1/2"',
        ),
        (lambda: from_strips(strip=0, total=3), "a strip must be more than 0 in; got 0 in"),
        (lambda: from_strips(count=1, total=3), "strips are a whole number from 2 to 10,000; got 1"),
        (lambda: from_strips(count=2.5, total=3), "strips are a whole number from 2 to 10,000; got 2.5"),
        (lambda: from_strips(count=True, total=3), "strips are a whole number from 2 to 10,000; got True"),
        (lambda: from_strips(count=10**9, total=3), "strips are a whole number from 2 to 10,000"),
        (lambda: from_strips(total=-3), "the total must be more than 0 in; got -3 in"),
        (lambda: from_strips(total=5), "3 strips of 1 1/2 in sewn are between 1 1/2 and 4 1/2 in wide; got 5 in"),
        (
            lambda: from_strips(total="1 1/2"),
            "3 strips of 1 1/2 in sewn are between 1 1/2 and 4 1/2 in wide; got 1 1/2 in",
        ),
        (lambda: from_strips(total=3, centre=0), "the centre must be more than 0 in; got 0 in"),
        (
            lambda: from_strips(total=3, centre=2),
            "a centre strip shows at most a third of the total here, 1 in; got 2 in",
        ),
        (
            lambda: from_strips(count=2, total="2 1/2", centre=1),
            "two strips have none in the centre, between two seams",
        ),
        (
            lambda: from_strips(total=3, seam="3/4"),
            "two allowances leave something of a strip of 1 1/2 in; got a seam of 3/4 in",
        ),
        (lambda: from_strips(total=3, reading=0), "the step of a reading must be more than 0 in"),
        (lambda: expected(count=0), "strips are a whole number from 2 to 10,000; got 0"),
        (lambda: grown("1/16", -1), "seams are a whole number from 0 to 10,000; got -1"),
        (lambda: scattered("1/16", 2.5), "seams are a whole number from 0 to 10,000; got 2.5"),
        (lambda: from_strips(total="3 1/2").row(0), "patches are a whole number from 1 to 10,000; got 0"),
        (lambda: seams_that_fit("wide"), "a length is a whole number"),
        (
            lambda: plausible(from_strips(total=30, centre=1)),
            "strips cut 1 1/2 in come out between 1 and 2 in wide; got a total of 30 in and a centre of 1 in, which",
        ),
        (
            lambda: plausible(from_strips(total="1 9/16", count=3)),
            "an allowance takes at most 5/8 in; got a total of 1 9/16 in, which would make it 47/64 in: measure",
        ),
        (lambda: from_strips(total="wide"), "a length is a whole number, a fraction or a decimal"),
    ],
)
def test_what_cannot_be_read_is_refused_in_words(ask, said):
    with pytest.raises(ValueError) as refused:
        ask()
    assert str(refused.value).startswith(said)


def test_the_step_read_to_says_how_sure_the_test_is():
    for step, sure in (("1/16", "1/16"), ("1/32", "1/32"), ("1/64", "1/64")):
        test = from_strips(total="3 3/8", centre="15/16", reading=step)
        assert test.taken_within == lengths.parse(sure) and f"Read to the nearest {step} in" in test.sentence


def test_an_error_is_said_to_be_larger_than_its_give_or_take_just_where_the_needle_is_moved():
    """Sentence and advice by one rule, at every step and for every way to measure."""
    for step in ("1/16", "1/32", "1/64"):
        for off in range(-8, 9):
            for centre in (None, Fraction(1) - 2 * Fraction(off, 64)):
                test = from_strips(total=Fraction(7, 2) - 4 * Fraction(off, 64), centre=centre, reading=step)
                assert test.needle == Fraction(off, 64)
                seam = test.found.split(". ")[0]
                (said,) = re.findall(r"take (?:less than )?(\d+/\d+) in", seam)
                told = abs(test.needle) >= Fraction(said) if "take less" in seam else abs(test.needle) > Fraction(said)
                moved = "move the needle" in test.change.lower()
                assert moved == test.tells == (told and off != 0), (step, off, centre, test.found, test.change)


def test_a_total_alone_sends_to_the_strips_before_the_needle():
    for total in ("3 7/16", "3 1/2", "3.51"):
        test = from_strips(total=total)
        assert test.found.startswith("If the strips are 1 1/2 in wide, each allowance takes")
        assert "The total alone cannot tell" in test.found
        assert test.change.startswith("First see whether the strips are 1 1/2 in wide")


def test_no_needle_is_moved_by_nothing():
    test = from_strips(count=10, total="10.45")
    assert test.tells and test.change.endswith("less than 1/64 in too much is less than a needle can be moved by.")
    assert "move the needle about 1/64 in" in from_strips(count=10, total="10 1/8").change


def test_measures_off_by_no_more_than_a_reading_count_as_right():
    assert from_strips(total="3 33/64", centre="63/64").right
    assert not from_strips(total="3 33/64", centre="62/64").right
    assert from_strips(total="3 33/64", centre="62/64", reading="1/16").right
    assert not from_strips(total="3 35/64").right
