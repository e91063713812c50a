"""Proofs: the closed forms, what they take and refuse, how they read, floats for sliders, pictures."""

import ast
import re
import subprocess
import sys
from fractions import Fraction
from pathlib import Path

import pytest
import sympy as sp
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import Polygon

from quiltmath import proofs
from quiltmath.proofs.writing import tidy, written
from tests.test_proofs_oracle import asked

R2, R3 = sp.sqrt(2), sp.sqrt(3)
FINISHED, BLOCK, SEAM = sp.symbols("finished block seam")
PLAIN = sp.symbols("square leg width side across down sash length")
SQUARE, LEG, WIDTH, SIDE, ACROSS, DOWN, SASH, LENGTH = PLAIN
ALL = pytest.mark.parametrize("proof", proofs.every(), ids=lambda proof: proof.name)

CLOSED_FORMS = [
    ("half_square", None, FINISHED + SEAM * (2 + R2)),
    ("quarter_square", None, FINISHED + SEAM * (2 + 2 * R2)),
    ("side_triangle", None, BLOCK * R2 + SEAM * (2 + 2 * R2)),
    ("corner_triangle", None, BLOCK / R2 + SEAM * (2 + R2)),
    ("equilateral", None, FINISHED + 3 * SEAM),
    ("equilateral", "side", FINISHED * 2 / R3 + 2 * R3 * SEAM),
    ("on_point", "blocks", ACROSS * DOWN + (ACROSS - 1) * (DOWN - 1)),
    ("on_point", None, ACROSS * BLOCK * R2),
    ("on_point", "side triangles", 2 * (ACROSS + DOWN - 2)),
    ("sashed_on_point", "sashes", 4 * ACROSS * DOWN),
    ("sashed_on_point", "cornerstones", 2 * ACROSS * DOWN + ACROSS + DOWN),
    ("sashed_on_point", None, ACROSS * (BLOCK + SASH) * R2),
    ("sashed_on_point", "width with whole cornerstones", (ACROSS * (BLOCK + SASH) + SASH) * R2),
    ("sashed_on_point", "side triangle's leg", BLOCK + SASH),
    ("sashed_on_point", "corner triangle's long side", BLOCK + 2 * SASH),
    ("half_block_loss", "finished leg", BLOCK - SEAM * R2),
    ("half_block_loss", "long edge", BLOCK * R2 - 2 * SEAM),
    ("half_block_past", "other leg", BLOCK - 2 * R2 * SEAM),
    ("frame_end", None, LEG + WIDTH + SEAM * (2 + R2)),
    ("mitred_strip", None, SIDE + 2 * WIDTH + SEAM * (2 + 2 * R2)),
    ("bias_strip", None, WIDTH * R2),
    ("continuous_bias", None, (SQUARE - 2 * SEAM) ** 2 / WIDTH),
    ("half_squares_four", None, FINISHED * R2 + SEAM * (2 + 2 * R2)),
    ("half_squares_eight", None, 2 * (FINISHED + SEAM * (2 + R2))),
    ("diamond_45", "star", FINISHED * (2 + R2)),
    ("hexagon", "finished flats", FINISHED * R3),
    ("diagonal_join", "lost in a join", WIDTH),
]


class TestResults:
    @pytest.mark.parametrize(("name", "measure", "formula"), CLOSED_FORMS)
    def test_the_derivation_comes_to_the_closed_form(self, name, measure, formula):
        """Closed forms worked out by hand from first principles."""
        proof = proofs.find(name)
        found = proof.formulas[measure] if measure else proof.formula
        assert sp.simplify(found - formula) == 0

    def test_the_figures_every_quilter_knows(self):
        assert proofs.half_square.exact(finished=3) == sp.sqrt(2) / 4 + sp.Rational(7, 2)
        assert proofs.half_square.cut(finished=3) == Fraction(31, 8)
        assert proofs.quarter_square.cut(finished=3) == Fraction(17, 4)
        assert proofs.side_triangle.cut(block=12) == Fraction(73, 4)
        assert proofs.corner_triangle.cut(block=12) == Fraction(75, 8)
        assert proofs.half_square.thumb() == "finished + 7/8"
        assert proofs.quarter_square.thumb() == "finished + 1 1/4"
        assert proofs.equilateral.thumb("side") == "2 × finished / √3 + 7/8"

    @pytest.mark.parametrize(
        "block",
        [
            Fraction(5, 2),
            4,
            Fraction(11, 2),
            7,
            Fraction(17, 2),
            10,
            Fraction(23, 2),
            13,
            Fraction(29, 2),
            16,
            17,
            Fraction(37, 2),
            20,
            Fraction(43, 2),
            23,
        ],
    )
    def test_exact_rounded_up_is_smaller_than_the_trades_square_at_these_blocks(self, block):
        """The eighth-inch sizes at which trade constants, rounded up, give a larger side square (worked out
        by hand)."""
        trade = proofs.side_triangle.trade(block=block)
        from quiltmath.lengths import ruler

        assert proofs.side_triangle.cut(block=block) < ruler(trade)

    def test_geese_and_units_share_their_triangles(self):
        assert proofs.flying_geese.formula == proofs.quarter_square.formula == proofs.hourglass.formula
        assert proofs.half_squares_two.formula == proofs.half_square.formula
        assert (
            proofs.half_squares_four.exact(finished=7)
            == proofs.side_triangle.exact(block=7)
            == proofs.flying_geese.exact(finished=7 * R2)
        )

    def test_the_popular_factor_for_four_is_no_constant(self):
        factors = [proofs.four_from_a_square.exact("factor", square=square) for square in (4, 5, 10, 20)]
        assert factors == sorted(factors) and len(set(factors)) == 4
        assert all(factor < 1 / R2 for factor in factors)
        five, ten = (abs(factor - sp.Rational(64, 100)) for factor in factors[1:3])
        assert five < sp.Rational(1, 200) < ten

    def test_metric_with_its_own_seam(self):
        assert proofs.half_square.exact(finished=10, unit="cm") == 10 + sp.Rational(3, 4) * (2 + R2)
        assert proofs.half_square.cut(finished=10, unit="cm") == Fraction("12.6")
        assert proofs.half_square.cut(finished=100, seam="7.5", unit="mm") == 126
        assert proofs.half_square.cut(finished="10 cm", seam="0.75 cm", step="1 mm") == Fraction("12.6") / Fraction(
            "2.54"
        )
        for proof, short in ((proofs.half_square, "2.5"), (proofs.quarter_square, "3.5")):
            assert proof.trade(finished=10, unit="cm") - 10 == sp.Rational(short)
            assert proof.trade(finished=10, unit="cm") < proof.exact(finished=10, unit="cm")
            assert proof.thumb(unit="cm") == f"finished + {short}"
            assert "short of the exact size" in proof.printed(finished=10, unit="cm")

    def test_text_numbers_and_sympy_numbers_mean_the_same(self):
        ways = ("3 1/2", 3.5, Fraction(7, 2), sp.Rational(7, 2), "3½")
        assert len({proofs.half_square.exact(finished=value) for value in ways}) == 1
        assert proofs.square_in_square.exact("finished centre", finished=5 * R2) == 5
        assert proofs.on_point.exact("blocks", across="5", down=6.0, block=9) == 50


class TestOnePrinciple:
    def test_no_constant_is_typed_in(self):
        """In the rooms of proofs stand whole numbers to 5 only (halves, squares, corners), no decimals; the
        trade's own rules, in `rules=`, and the doctests are not looked at."""
        for room in proofs.ROOMS:
            tree = ast.parse(Path(room.__file__).read_text(encoding="utf-8"))
            nodes = list(ast.walk(tree))
            rules = {
                id(node)
                for call in nodes
                if isinstance(call, ast.keyword) and call.arg == "rules"
                for node in ast.walk(call)
            }
            numbers = [
                node.value
                for node in nodes
                if isinstance(node, ast.Constant) and id(node) not in rules and type(node.value) in (int, float)
            ]
            halves = [number for number in numbers if isinstance(number, float)]
            assert set(halves) <= {0.5} and max(numbers) <= 5, room.__name__

    def test_importing_derives_nothing(self):
        code = (
            "from quiltmath import proofs; "
            "assert not any('_told' in vars(proof) for proof in proofs.every()); "
            "proofs.half_square.formula; assert '_told' in vars(proofs.half_square)"
        )
        subprocess.run([sys.executable, "-c", code], check=True)

    @ALL
    def test_without_a_seam_nothing_is_added(self, proof):
        if "seam" not in proof.symbols:
            return
        for which in range(3):
            bare = {**asked(proof, which), "seam": 0}
            for name, measure in proof.measures.items():
                if measure.kind == "cut":
                    assert proof.trade(name, **bare) in (None, proof.exact(name, **bare)) or name in proof._rules

    @ALL
    def test_a_derivation_is_told_once(self, proof):
        assert proof.steps == proof.steps and proof._told is proof._told

    @given(st.integers(8, 200), st.integers(1, 8))
    def test_sizes_grow_with_the_seam(self, eighths, sixteenths):
        size, seam = Fraction(eighths, 8), Fraction(sixteenths, 16)
        for proof in (proofs.half_square, proofs.quarter_square):
            plain = proof.value(finished=float(size), seam=0.0)
            assert proof.value(finished=float(size), seam=float(seam)) > plain == float(size)


class TestFloats:
    @ALL
    def test_a_float_is_the_exact_number(self, proof):
        """Within 1e-9 in: what some thirty float operations can lose on sizes of a quilt."""
        for which in range(3):
            values = asked(proof, which)
            quick = {name: size if isinstance(size, int) else float(size) for name, size in values.items()}
            for measure in proof.measures:
                exact = float(proof.exact(measure, **values))
                assert proof.value(measure, **quick) == pytest.approx(exact, abs=1e-9)

    def test_the_ruler_forgives_binary_noise(self):
        assert proofs.patch.cut(width=1.1 + 2.2, height=1, step="0.1") == Fraction(38, 10)


class TestPictures:
    @ALL
    def test_pictures_are_plain_data(self, proof):
        for picture in proof.pictures(**{**asked(proof, 1), **({"seam": 0.25} if "seam" in proof.symbols else {})}):
            assert picture.title and picture.polygons
            for role, corners in picture.polygons:
                assert role in ("finished", "cut", "cloth", "block") and Polygon(corners).is_valid
                assert all(type(number) is float for corner in corners for number in corner)
            for start, end, text in picture.measures:
                assert start != end and re.search(r"\d", text)

    def test_the_measure_lies_on_the_cut_shape(self):
        drawn, moved = proofs.half_square.pictures(finished=3.0)
        (role, corners), _ = moved.polygons
        ((start, end, text),) = moved.measures
        assert role == "cut" and start in corners and end in corners and text == "square 3.8536"
        assert drawn.polygons[0][0] == "finished"

    def test_a_size_on_the_ruler_is_shown_as_a_fraction(self):
        *_, moved, _, whole = proofs.strip_set.pictures(finished=1.0, strips=3)
        assert [text for *_, text in moved.measures + whole.measures] == ["strip 1 1/2", "set 3 1/2"]


class TestWords:
    @ALL
    def test_a_proof_reads(self, proof):
        assert proof.title and proof.question.endswith("?") and len(proof.steps) >= 2
        for step in proof.steps:
            assert step.words.endswith((".", "?")) and step.words[0].isupper()
        lesson = str(proof).split("\nSource:")[0]
        assert proof.question.split()[0] in lesson and "sqrt" not in lesson and "**" not in lesson
        assert max(map(len, lesson.splitlines())) <= 140
        assert proof.equation.startswith(next(iter(proof.measures)))

    @ALL
    def test_printed_with_numbers(self, proof):
        values = {q.name: str(asked(proof, 0)[q.name]) for q in proof.quantities if q.given}
        lesson = proof.printed(values).split("\nSource:")[0]
        assert "With " in lesson and "sqrt" not in lesson
        for measure in proof.measures:
            assert f"\n  {measure}" in lesson

    def test_only_the_numbers(self):
        numbers = proofs.half_square.numbers(finished=3)
        assert numbers.startswith("With finished = 3, seam = 1/4:") and "1. Draw" not in numbers
        assert numbers in proofs.half_square.printed(finished=3)
        assert proofs.half_square.numbers({"finished": "3"}) == numbers

    def test_values_in_centimetres_are_answered_in_centimetres(self):
        numbers = proofs.half_square.numbers(finished="10 cm")
        assert numbers.startswith("With finished = 10 cm, seam = 3/4:")
        for line in (
            "= 23/2 + 3√2/4",
            "about 12.5607 cm; up to the ruler's next 1 mm: 12.6 cm",
            "rule of thumb: finished + 2.5 = 12.5 cm: about 0.0607 cm short of the exact size",
        ):
            assert line in numbers

    def test_at_most_three_sources_are_named_and_the_rest_counted(self):
        assert "http" not in str(proofs.half_square) and "Source" not in str(proofs.kite)
        lesson = proofs.half_square.sources_named
        assert lesson.count("http") == 3
        assert f"and {len(proofs.half_square.source) - 3} more in data/published/figures.csv" in lesson
        assert "no printed figure" in proofs.kite.sources_named

    def test_the_lesson_of_the_side_triangle(self):
        lesson = proofs.side_triangle.printed(block="12")
        for line in (
            "long side = √(block² + block²) = √2 × block",
            "the line x − y = 0 moves to x − y = −√2 × seam",
            "square = √2 × block + (2 + 2√2) × seam = 1/2 + 25√2/2",
            "up to the ruler's next 1/8: 18 1/4 in",
            ("rule of thumb: √2 × block + 1 1/4 = about 18.2206 in: about 0.0429 in more than the exact size"),
        ):
            assert line in lesson

    @pytest.mark.parametrize(
        ("formula", "line"),
        [
            (sp.S.Zero, "0"),
            (-SEAM, "−seam"),
            (R2 / 2 * BLOCK, "block / √2"),
            (sp.Rational(3, 2) * BLOCK, "3/2 × block"),
            (12 - R2 / 4, "12 − √2/4"),
            (R3 / 2, "√3/2"),
            ((SQUARE - 2 * SEAM) ** 2 / WIDTH, "(square − 2 × seam)² / width"),
            (SEAM * (2 * R2 - 2), "(2√2 − 2) × seam"),
            (sp.Rational(16, 25) * SQUARE, "0.64 × square"),
            (sp.sqrt(ACROSS**2 + DOWN**2), "√(across² + down²)"),
            (-SEAM * (1 + R2), "−(1 + √2) × seam"),
            (sp.sin(SEAM), "sin(seam)"),
            ("as it is", "as it is"),
            (BLOCK / (WIDTH * LENGTH), "block / (length × width)"),
        ],
    )
    def test_written(self, formula, line):
        assert written(formula) == line

    def test_tidy_keeps_the_value(self):
        odd = (BLOCK + R2 * SEAM) / (1 + R2) - (R2 - 1) * BLOCK
        assert sp.simplify(tidy(odd) - odd) == 0


class TestAsking:
    @ALL
    def test_what_it_takes_has_words_and_a_range(self, proof):
        for quantity in proof.quantities:
            assert quantity.words and re.search(r"more than 0|0 or more|from 1 to 1000", quantity.permitted)
        assert proof.name in repr(proof)

    @ALL
    def test_a_missing_quantity_is_named(self, proof):
        first = next(q for q in proof.quantities if q.given)
        with pytest.raises(
            ValueError,
            match=rf"{proof.name} needs {first.name} \({re.escape(first.words)}; "
            rf".*\)",
        ):
            proof.exact()

    @ALL
    @pytest.mark.parametrize("ask", ["exact", "cut", "value", "trade", "pictures", "printed"])
    def test_an_unknown_quantity_is_named(self, proof, ask):
        with pytest.raises(ValueError, match=f"{proof.name} takes .*; got 'colour'"):
            getattr(proof, ask)(**asked(proof, 0), colour=3)

    @ALL
    @pytest.mark.parametrize("bad", [0, -3, "-3", -0.5])
    def test_zero_and_negative_sizes_are_refused(self, proof, bad):
        for quantity in proof.quantities:
            if quantity.given and not (quantity.zero and bad == 0):
                with pytest.raises(ValueError, match=rf"{quantity.name} \(.*\) must be .*; got") as refused:
                    proof.exact(**{**asked(proof, 0), quantity.name: bad})
                assert quantity.permitted in str(refused.value)
                with pytest.raises(ValueError, match=rf"{quantity.name} \(.*\) must be"):
                    proof.value(**{**asked(proof, 0), quantity.name: bad})

    @ALL
    @pytest.mark.parametrize(
        "bad", [float("nan"), float("inf"), 1e400, "", "three", None, [3], sp.Symbol("q"), sp.I, True]
    )
    def test_what_is_no_size_is_refused(self, proof, bad):
        for quantity in proof.quantities:
            if quantity.given:
                for ask in (proof.exact, proof.value):
                    with pytest.raises(ValueError, match=quantity.name):
                        ask(**{**asked(proof, 0), quantity.name: bad})

    @pytest.mark.parametrize("seam", ["1 9/16", 2, sp.Rational(8, 5)])
    def test_a_seam_wider_than_half_the_shape_is_refused(self, seam):
        with pytest.raises(
            ValueError,
            match=r"seam \(the seam allowance\) must be 0 or more and at most 1/2 "
            r"of finished; got .*; write seam='1 1/2' or less",
        ):
            proofs.half_square.exact(finished=3, seam=seam)

    def test_half_the_shape_is_still_permitted(self):
        assert proofs.half_square.exact(finished=3, seam="1 1/2") == 3 + sp.Rational(3, 2) * (2 + R2)

    @ALL
    def test_no_seam_is_too_wide_without_being_refused(self, proof):
        if any(q.seams for q in proof.quantities) and "seam" in proof.symbols:
            with pytest.raises(ValueError, match="seam .* must be 0 or more and at most"):
                proof.exact(**{**asked(proof, 0), "seam": 100})

    @pytest.mark.parametrize("bad", [2.5, "x", 1001, "1e9", True, sp.Rational(1, 2)])
    def test_counts_are_whole_numbers(self, bad):
        with pytest.raises(
            ValueError,
            match=r"across \(blocks along the top row\) must be a whole number "
            r"from 1 to 1000",
        ):
            proofs.on_point.exact(across=bad, down=2, block=6)

    def test_a_corner_is_at_most_half_its_block(self):
        with pytest.raises(ValueError, match="corner .* at most 1/2 of finished; got 4; write corner='3'"):
            proofs.snowball.exact(finished=6, corner=4)

    def test_a_count_is_not_cut(self):
        with pytest.raises(ValueError, match="'blocks' of on_point is a count; write on_point.exact"):
            proofs.on_point.cut("blocks", across=2, down=2, block=6)

    def test_measures_and_units_are_named(self):
        with pytest.raises(ValueError, match="half_square measures square and pieces; got 'area'"):
            proofs.half_square.exact("area", finished=3)
        with pytest.raises(ValueError, match="a proof is asked in in, cm and mm; got 'yd'"):
            proofs.half_square.exact(finished=3, unit="yd")


class TestFinding:
    @pytest.mark.parametrize("name", ["side_triangle", "Side triangle", "side-triangle", " side  triangle "])
    def test_a_name_may_be_written_in_any_way(self, name):
        assert proofs.find(name) is proofs.side_triangle

    @pytest.mark.parametrize("name", ["", "x" * 10_000, None, 3])
    def test_a_name_that_is_none(self, name):
        with pytest.raises(ValueError, match="no proof is called .*; the nearest are") as refused:
            proofs.find(name)
        assert len(str(refused.value)) < 300

    def test_all_are_found_by_name(self):
        assert all(proofs.find(proof.name) is proof is getattr(proofs, proof.name) for proof in proofs.every())
        assert len({proof.title for proof in proofs.every()}) == len(proofs.every()) >= 38
