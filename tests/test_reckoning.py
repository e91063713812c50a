"""Tables that follow what is typed: against plain arithmetic, and whatever is typed into their boxes."""

from fractions import Fraction
from itertools import product
from math import ceil, sqrt

import pytest

from quiltmath.demos import borders, straight_or_on_point
from quiltmath.demos.reckoning import Reckoned, Reckoning
from quiltmath.demos.table import Table
from quiltmath.demos.typed import Several, Typed

RECKONINGS = {"strips": borders.STRIPS, "nearest": straight_or_on_point.NEAREST}
CASES = [pytest.param(one, case, id=f"{name}-{case}") for name, one in RECKONINGS.items() for case in one.cases()]
NEVER = "", "  ", "abc", "0", "-5", "1e9", "1/0", "nan", "2 3 4", "44,5,", "9" * 300


def eighths(value):
    """The next eighth of an inch, as it is written."""
    up = Fraction(ceil(round(float(value) * 8, 6)), 8)
    whole, part = divmod(up, 1)
    return " ".join(str(one) for one in (whole, part) if one)


@pytest.mark.parametrize("reckoning, case", CASES)
def test_a_corner_value_gives_a_table_and_a_sentence(reckoning, case):
    shown = reckoning(**case)
    assert shown.table.caption and shown.table.rows and shown.sentence.endswith(".")
    assert not any(word in shown.table.text() + shown.sentence for word in ("None", "nan", "Fraction("))


class TestStrips:
    @pytest.mark.parametrize("corners", [borders.SIDES, borders.ENDS, borders.MITRED])
    @pytest.mark.parametrize("widths", ["5", "2, 5", "1 1/2, 3/4, 6"])
    def test_each_strip_is_as_long_as_what_it_is_sewn_to_by_then(self, corners, widths):
        """By plain sums: raw edge to raw edge, so that a butted strip takes no seam besides."""
        wide, high = Fraction(355, 8), Fraction(213, 4)
        shown = borders.STRIPS(width="44 3/8", height="53 1/4", borders=widths, corners=corners)
        for width, (name, sides, ends) in zip(borders.BORDERS.read(widths), shown.table.rows, strict=True):
            more = 2 * width
            if corners == borders.MITRED:
                side, end = (raw - 0.5 + more + (2 + 2 * sqrt(2)) / 4 for raw in (high, wide))
            else:
                side = high + more * (corners == borders.ENDS)
                end = wide + more * (corners == borders.SIDES)
            wide, high = wide + more, high + more
            across = eighths(width + Fraction(1, 2))
            assert f"{sides} | {ends}" == f"2 of {across} × {eighths(side)} in | 2 of {across} × {eighths(end)} in"
            assert name.endswith(f", {eighths(width)} in")
        finished = " by ".join(eighths(raw - Fraction(1, 2)) for raw in (wide, high))
        assert f"finishes {finished} in" in shown.sentence

    def test_the_longest_strip_is_told(self):
        shown = borders.STRIPS(width=40, height=50, borders="5", corners=borders.SIDES)
        assert shown.sentence.endswith("its longest strip is cut 50 in.")

    def test_a_mitred_border_may_be_wider_than_its_side(self):
        shown = borders.STRIPS(width=8, height=40, borders="8", corners=borders.MITRED)
        side, end = (eighths(raw - 0.5 + 16 + (2 + 2 * sqrt(2)) / 4) for raw in (40, 8))
        assert shown.table.rows[0][1:] == (f"2 of 8 1/2 × {side} in", f"2 of 8 1/2 × {end} in")
        for given in ({"corners": borders.SIDES}, {"borders": "7 1/2"}, {"borders": "2, 11"}):
            borders.STRIPS(**{"width": 8, "height": 40, "borders": "8", "corners": borders.MITRED, **given})


class TestNearest:
    @pytest.mark.parametrize("wished", [(60, 80), (38, 51), (90, 108), (20, 20)])
    def test_none_comes_nearer_than_the_first(self, wished):
        """Every number of every block, tried one by one."""
        misses = (
            max(abs(count * block * step - side) for count, side in zip(counts, wished))
            for block, step, counts in product(range(6, 13), (1, sqrt(2)), product(range(1, 20), repeat=2))
        )
        shown = straight_or_on_point.NEAREST(width=wished[0], height=wished[1])
        how_near, least = shown.table.rows[0][2], min(misses)
        told = 0 if how_near.startswith("exactly") else sum(map(Fraction, how_near.split(" in ")[0].split()))
        assert float(told) == pytest.approx(least, abs=1 / 32) and len(shown.table.rows) == 6
        assert shown.table.rows[0][0] in shown.sentence

    def test_a_size_may_be_wished_in_centimetres(self):
        assert "60 by 80 in" in straight_or_on_point.NEAREST(width="152.4 cm", height="203.2 cm").sentence


class TestTyped:
    @pytest.mark.parametrize("typed", NEVER)
    @pytest.mark.parametrize("name, app", [(name, one.app) for name, one in RECKONINGS.items()])
    def test_what_cannot_be_is_answered_at_its_box_by_its_name_and_the_last_good_table_stays(self, name, app, typed):
        shown = app()
        good = shown.live.shown
        for control in (one for one in shown.demo.controls if isinstance(one, (Typed, Several))):
            shown.type(control.name, typed)
            wrong = shown.live.shown["wrong"][control.name]
            assert wrong.startswith(control.label) and ("got " in wrong or "nothing is written" in wrong)
            assert any(what in wrong for what in ("type ", "write ")) and len(wrong) < 400
            assert shown.live.shown["values"][control.name]["text"] == typed
        assert [shown.live.shown[part] for part in ("markup", "sentence")] == [good["markup"], good["sentence"]]

    def test_what_is_typed_stays_as_it_is_typed_and_the_table_follows(self):
        app = borders.strips_for(width="40")
        app.type("width", "112cm")
        app.type("borders", "5 cm,12.5cm")
        assert app.live.shown["values"]["width"] == {"text": "112cm"} and not app.live.shown["wrong"]
        assert app.live.shown["values"]["borders"] == {"text": "5 cm,12.5cm"}
        assert "44 1/8 by 53 1/4" in app.live.shown["markup"].replace("\N{NO-BREAK SPACE}", " ")

    @pytest.mark.parametrize(
        "typed, words",
        [
            ("2; 5", "number 1 cannot be read; got '2; 5'"),
            ("2,,5", "number 2 cannot be read; got ''"),
            ("2, 0, abc", "each is from 1/2 to 20 in, and number 2 is not; got '0'"),
            ("2, 5, abc", "number 3 cannot be read; got 'abc'"),
            ("2, -5", "number 2 is not; got '-5'"),
            ("2, 5 cm", "a unit after each or after none, and a point in decimals; got '2, 5 cm'"),
            ("1,1,1,1,1,1", "at most 5, with a point in decimals; got 6"),
        ],
    )
    def test_several_typed_wrongly_name_the_first_that_is_wrong(self, typed, words):
        with pytest.raises(ValueError, match="^Finished borders, inside out: ") as refused:
            borders.STRIPS(borders=typed)
        assert words in str(refused.value) and str(refused.value).rpartition("for example ")[2].startswith(
            ("2, 5", "5 cm")
        )


def test_readers_without_a_kernel_have_the_table_itself():
    def model(side):
        return Reckoned(
            Table(("side", "half"), ((f"{side} in", f"{side / 2} in"),), "Halves"), f"Half is {side / 2} in."
        )

    app = Reckoning("Halves", model, (Typed("side", "Side", "1", "9", "3"),)).app(side="4")
    data = app._repr_mimebundle_()
    assert data["text/plain"].replace("\N{NO-BREAK SPACE}", " ") == "Halves\n4 in\n    half: 2 in\nHalf is 2 in."
    assert data["text/html"].startswith("<table") and "application/vnd.jupyter.widget-view+json" in data
    assert app.live.controls == [{"name": "side", "label": "Side", "range": "(1 to 9 in)"}]
