"""Proofs told on numbers: the same sizes as the derivation in symbols, and no SymPy until somebody asks for it."""

import ast
import subprocess
import sys
from fractions import Fraction
from math import sqrt
from pathlib import Path

import pytest
import sympy as sp
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from quiltmath import lengths, proofs
from quiltmath.proofs.derivation import Derivation
from quiltmath.proofs.story import Exact, Floats
from quiltmath.root2 import OutsideField, Root2, root2
from tests.test_proofs_oracle import asked

ALL = pytest.mark.parametrize("proof", proofs.every(), ids=lambda proof: proof.name)
SIXTY_DEGREES = {"equilateral", "diamond_60", "hexagon", "half_hexagon"}
ROOTS = {  # what roots are drawn of, where that depends on the sizes: in the field where each of these roots is
    "half_rectangle": lambda across, up, seam: [across**2 + up**2],
    "triangle_in_square": lambda width, height, seam: [width**2 / 4 + height**2],
    "kite": lambda width, point, blunt, seam: [width**2 / 4 + point**2, width**2 / 4 + blunt**2],
    "continuous_bias_square": lambda length, width, seam: [length * width],
    "binding": lambda width, height, strip, usable_width, extra: [(2 * (width + height) + extra) * strip],
}
PLAIN = {proof.name for proof in proofs.every()} - SIXTY_DEGREES - set(ROOTS)
WITHIN = 1e-12  # of the size (of an inch, where it is smaller): some thirty float operations

sizes = st.integers(4, 1600).map(lambda sixteenths: Fraction(sixteenths, 16))
on_point = st.builds(lambda size, root: Root2(0, size) if root else Root2(size), sizes, st.booleans())


@st.composite
def questions(draw, proof, length=sizes):
    """Quantities in a proof's range; where one may be too large for another, what fits."""
    found = {}
    for q in proof.quantities:
        if q.kind == "count":
            found[q.name] = draw(st.integers(1, 12))
        elif q.name == "seam":
            found[q.name] = draw(st.integers(0, 16).map(lambda sixteenths: Fraction(sixteenths, 16)))
        else:
            found[q.name] = draw(length)
    for q in proof.quantities:
        for parts, other in q.limits:
            most = root2(found[other]) / parts
            if found[q.name] > most:
                found[q.name] = most if isinstance(found[other], Root2) else most.plain
    return found


def by_symbols(proof, measure, values):
    """A measure from its formula in symbols, by SymPy alone."""
    formula = proof.measures[measure].formula
    return formula.xreplace({proof.symbols[name]: sp.sympify(value) for name, value in values.items()})


def told_in_field(proof, measure, values):
    """Whether a measure can be told on numbers a + b√2, by SymPy and the roots named above."""
    if proof.name in SIXTY_DEGREES:
        return False
    if proof.name not in ROOTS or (proof.name == "binding" and measure != "bias square"):
        return True
    squares = ROOTS[proof.name](**{name: sp.sympify(value) for name, value in values.items()})
    roots = (sp.sqrtdenest(sp.sqrt(sp.expand(square))) for square in squares)
    return all(sp.expand(root).atoms(sp.Pow) <= {sp.sqrt(2)} for root in roots)


class TestAgreement:
    @ALL
    @settings(max_examples=12, deadline=None, suppress_health_check=[HealthCheck.too_slow])
    @given(data=st.data())
    def test_exact_numbers_symbols_and_floats_give_one_size(self, proof, data):
        values = data.draw(questions(proof) | questions(proof, on_point))
        for measure in proof.measures:
            expected = by_symbols(proof, measure, values)
            assert sp.expand(sp.radsimp(proof.exact(measure, **values) - expected)).equals(0)
            size = float(expected.evalf(40))
            assert proof.value(measure, **values) == pytest.approx(size, rel=WITHIN, abs=WITHIN)
            try:
                number = proof.number(measure, **values)
            except OutsideField:
                assert not told_in_field(proof, measure, values)
            else:
                assert told_in_field(proof, measure, values)
                assert sp.expand(sp.radsimp(number.exact() - expected)) == 0
                assert float(number) == pytest.approx(size, rel=1e-15, abs=1e-15)

    @ALL
    @settings(max_examples=12, deadline=None, suppress_health_check=[HealthCheck.too_slow])
    @given(data=st.data(), step=st.sampled_from(["1/8", "1/16", "1/4", "1 mm"]), up=st.sampled_from(["up", "down"]))
    def test_a_cut_is_the_exact_size_on_the_ruler(self, proof, data, step, up):
        values = data.draw(questions(proof))
        for measure, told in proof.measures.items():
            if told.kind in ("cut", "length"):
                expected = lengths.ruler(by_symbols(proof, measure, values), step, up)
                assert proof.cut(measure, step=step, rounding=up, **values) == expected

    def test_a_ruler_step_is_decided_by_whole_numbers(self):
        """Blocks whose side square lies so near 14 in that floats cannot tell on which side."""
        for more, size in ((Fraction(1, 10**20), Fraction(113, 8)), (-Fraction(1, 10**20), 14)):
            wanted = Root2(14 + lengths.HAIR + more)  # a hair above a step still counts as on it
            block = (wanted - Fraction(1, 2) - Root2(0, Fraction(1, 2))) / Root2(0, 1)
            assert proofs.side_triangle.number(block=block) == wanted
            assert proofs.side_triangle.cut(block=block) == size

    @pytest.mark.parametrize(
        ("proof", "measure", "values"),
        [
            (proofs.half_rectangle, "cut across", {"across": 3, "up": 4}),
            (proofs.half_rectangle, "cut up", {"across": Root2(0, 5), "up": Root2(0, 12)}),
            (proofs.kite, "cut length", {"width": 6, "point": 4, "blunt": 4}),
            (proofs.continuous_bias_square, "square", {"length": 8, "width": 4}),
            (proofs.binding, "bias square", {"width": 40, "height": 58, "strip": 2, "usable_width": 40, "extra": 4}),
        ],
    )
    def test_sides_whose_roots_are_in_the_field(self, proof, measure, values):
        expected = by_symbols(proof, measure, {"seam": Fraction(1, 4), **values} if "seam" in proof.names else values)
        assert sp.expand(sp.radsimp(expected - proof.number(measure, **values).exact())) == 0

    @given(st.integers(1, 40), st.integers(1, 40))
    @example(1, 1)
    def test_strips_of_a_binding_come_whole_where_floats_are_a_hair_off(self, eighths, strips):
        """As many strips as fill the length exactly: not one more for the sake of a float's last digit."""
        strip, cloth = Fraction(eighths, 10), Fraction(421, 10)
        length = strips * (cloth - strip)
        values = {"width": length / 4, "height": length / 4, "strip": strip, "usable_width": cloth, "extra": 0}
        floats = {name: float(size) for name, size in values.items()}
        assert proofs.binding.number("strips", **values) == proofs.binding.value("strips", **floats) == strips


class TestAsking:
    @pytest.mark.parametrize("block", ["3 7/8", Fraction(31, 8), 3.875, Root2(Fraction(31, 8)), sp.Rational(31, 8)])
    def test_a_quantity_may_be_written_in_any_way(self, block):
        assert proofs.side_triangle.number(block=block) == Root2(Fraction(1, 2), Fraction(35, 8))

    def test_a_root2_is_taken_by_every_answer(self):
        leg = Root2(1, 9)
        size = leg + Fraction(1, 2) + Root2(0, Fraction(1, 4))
        assert proofs.half_square.number(finished=leg) == size
        assert proofs.half_square.exact(finished=leg) == size.exact() == proofs.half_square.exact(finished=leg.exact())
        assert proofs.half_square.value(finished=leg) == pytest.approx(1 + 9 * sqrt(2) + 0.5 + sqrt(2) / 4, abs=WITHIN)
        assert proofs.half_square.cut(finished=leg) == lengths.ruler(size)
        assert proofs.half_square.trade(finished=leg) == sp.Rational(15, 8) + 9 * sp.sqrt(2)
        assert proofs.half_square.pictures(finished=leg) == proofs.half_square.pictures(finished=float(leg))
        assert proofs.half_square.thumb(seam=Root2(Fraction(1, 4))) == "finished + 7/8"
        assert "With finished = about 13.7279, seam = 1/4:" in proofs.half_square.numbers(finished=leg)

    def test_a_unit_is_the_unit_of_bare_numbers(self):
        assert proofs.half_square.number(finished=10, unit="cm") == Root2(Fraction(23, 2), Fraction(3, 4))
        assert proofs.half_square.number(finished=Root2(10), unit="cm") == Root2(Fraction(23, 2), Fraction(3, 4))
        assert proofs.half_square.number(finished="10 cm", seam="0.75 cm") * Fraction("2.54") == Root2(
            Fraction(23, 2), Fraction(3, 4)
        )

    @pytest.mark.parametrize("name", sorted(SIXTY_DEGREES))
    def test_60_degrees_leave_the_field(self, name):
        proof = proofs.find(name)
        with pytest.raises(
            ValueError,
            match=rf"{name} has no size a . b√2 here: the square root of 3 .* use floats, or SymPy: "
            rf"write {name}.value\(…\) or {name}.exact\(…\)",
        ):
            proof.number(finished=3)
        assert proof.cut(finished=3) == lengths.ruler(proof.exact(finished=3))

    def test_a_quantity_outside_the_field_is_named(self):
        with pytest.raises(OutsideField, match=r"half_square has no size .*: finished is sqrt\(3\), not a . b√2"):
            proofs.half_square.number(finished=sp.sqrt(3))
        assert proofs.half_square.exact(finished=sp.sqrt(3)) == sp.sqrt(3) + sp.Rational(1, 2) + sp.sqrt(2) / 4
        assert proofs.half_square.cut(finished=sp.sqrt(3)) == Fraction(21, 8)

    def test_a_sympy_number_with_decimals_counts_as_they_are_written(self):
        exact = sp.Rational(53, 10) * sp.sqrt(2) + sp.Rational(1, 2) + sp.sqrt(2) / 4
        assert proofs.half_square.exact(finished=sp.Float("5.3") * sp.sqrt(2), seam=Fraction(1, 4)) == exact

    @ALL
    def test_what_is_refused_elsewhere_is_refused_here(self, proof):
        with pytest.raises(ValueError, match=f"{proof.name} takes .*; got 'colour'"):
            proof.number(**asked(proof, 0), colour=3)
        first = next(q for q in proof.quantities if q.given)
        for bad in (0, -3, "three", None, float("nan"), Root2(-1), Root2(1, -1)):
            with pytest.raises(ValueError, match=first.name):
                proof.number(**{**asked(proof, 0), first.name: bad})
        with pytest.raises(ValueError, match="a proof is asked in in, cm and mm; got 'yd'"):
            proof.number(**asked(proof, 0), unit="yd")

    def test_an_unknown_measure_is_named(self):
        for ask in (proofs.half_square.number, proofs.half_square.cut, proofs.half_square.value):
            with pytest.raises(ValueError, match="half_square measures square and pieces; got 'area'"):
                ask("area", finished=3)
        with pytest.raises(ValueError, match="half_squares_eight measures square and small square; got 'area'"):
            proofs.half_squares_eight.value("area", finished=3)


class TestTelling:
    def test_what_must_agree_is_checked_on_numbers_and_on_symbols(self):
        size = sp.Symbol("size")
        for story, one, other in ((Exact(), Root2(1), Root2(2)), (Derivation(), size, 2 * size)):
            story.agree("They are equal.", one, one)
            with pytest.raises(ArithmeticError, match=r"They are equal\. does not hold: .* is not "):
                story.agree("They are equal.", one, other)

    def test_a_float_that_is_all_but_level_is_read_level(self):
        """A turned-round length keeps its sign, whichever way the ruler lies."""
        for (x, y), size in (((-3.0, 1e-16), -3.0), ((1e-16, -3.0), -3.0), ((-3.0, 4.0), -5.0), ((3.0, 4.0), 5.0)):
            assert Floats().read("side", "Read it.", [(0.0, 0.0), (x, y)], 0, 1) == pytest.approx(size, rel=1e-15)

    @ALL
    def test_asked_again_it_is_not_told_again(self, proof):
        values = asked(proof, 2)
        first = [proof.value(measure, **values) for measure in proof.measures]
        told = proof._on_floats.cache_info().misses
        assert [proof.value(measure, **values) for measure in proof.measures] == first
        assert proof._on_floats.cache_info().misses == told


LIGHT = """
import sys
from quiltmath import proofs
{asking}
heavy = {{"sympy", "scipy", "matplotlib", "pydantic", "ipywidgets"}} & set(sys.modules)
assert not heavy, heavy
"""
ASKED = """
from quiltmath.root2 import Root2
proof = proofs.side_triangle
assert proof.cut(block=9) == 14 and round(proof.value(block=9), 4) == 13.935
assert str(proof.number(block=9)) == "1/2 + 19√2/2" and proof.cut(block=Root2(0, 9)) * 4 == 77
assert proof.pictures(block=9)
"""


class TestLight:
    """In a fresh process: what loads SymPy, and what does not."""

    @pytest.mark.parametrize("asking", ["", ASKED], ids=["imported", "asked"])
    def test_numbers_load_no_sympy(self, asking):
        done = subprocess.run(
            [sys.executable, "-c", LIGHT.format(asking=asking)], check=False, capture_output=True, text=True
        )
        assert done.returncode == 0, done.stderr

    def test_no_size_in_the_field_loads_sympy(self):
        cases = [(proof.name, {k: str(v) for k, v in asked(proof, 1).items()}) for proof in proofs.every()]
        cases = [case for case in cases if case[0] in PLAIN]
        asking = (
            f"for name, values in {cases!r}:\n    proof = proofs.find(name)\n"
            "    assert abs(proof.value(**values) / float(proof.number(**values)) - 1) < 1e-12\n"
        )
        done = subprocess.run(
            [sys.executable, "-c", LIGHT.format(asking=asking)], check=False, capture_output=True, text=True
        )
        assert len(cases) > 25 and done.returncode == 0, done.stderr

    def test_a_derivation_loads_it(self):
        asking = "import sys\nfrom quiltmath import proofs\nproofs.side_triangle.steps\nassert 'sympy' in sys.modules"
        assert subprocess.run([sys.executable, "-c", asking], check=False).returncode == 0

    @pytest.mark.parametrize("path", sorted(Path(proofs.__file__).parent.glob("*.py")), ids=lambda path: path.name)
    def test_sympy_is_imported_inside_functions_only(self, path):
        tree = ast.parse(path.read_text("utf-8"))
        at_import = [node for node in tree.body if isinstance(node, (ast.Import, ast.ImportFrom))]
        names = [name.name for node in at_import if isinstance(node, ast.Import) for name in node.names]
        names += [node.module or "" for node in at_import if isinstance(node, ast.ImportFrom)]
        assert names or path.name == "__init__.py"
        assert not [name for name in names if name.split(".")[0] == "sympy"]
