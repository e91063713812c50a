"""Numbers a + b√2: a field that is ordered without rounding, held against SymPy."""

from fractions import Fraction
from math import ceil, floor, inf

import pytest
import sympy as sp
from hypothesis import assume, example, given
from hypothesis import strategies as st

from quiltmath.root2 import OutsideField, Root2, exact, root2

R2 = sp.sqrt(2)
fractions = st.fractions(-200, 200, max_denominator=64)
numbers = st.builds(Root2, fractions, fractions)
others = numbers | fractions | st.integers(-50, 50)


def sympy_of(number):
    """A SymPy number made without asking the class under test."""
    if isinstance(number, Root2):
        return sp.Rational(str(number.plain)) + sp.Rational(str(number.root)) * R2
    return sp.Rational(str(number))


def same(number, expected):
    return sp.expand(sympy_of(number) - sp.radsimp(expected)) == 0


class TestField:
    @given(numbers, others)
    def test_arithmetic_is_that_of_sympy(self, one, two):
        x, y = sympy_of(one), sympy_of(two)
        for got, expected in ((one + two, x + y), (two + one, x + y), (one - two, x - y), (two - one, y - x)):
            assert isinstance(got, Root2) and same(got, expected)
        assert same(one * two, x * y) and same(two * one, x * y)
        assert same(-one, -x) and same(+one, x) and same(one.by_root(), x * R2) and same(abs(one), sp.Abs(x))

    @given(numbers, others)
    def test_division_undoes_multiplication(self, one, two):
        assume(two != 0)
        assert one / two * two == one and one * two / two == one
        assert same(one / two, sympy_of(one) / sympy_of(two))
        assert not one or 1 / one * one == 1

    @pytest.mark.parametrize("nothing", [0, Fraction(0), Root2()])
    def test_nothing_is_divided_by_0(self, nothing):
        with pytest.raises(ZeroDivisionError, match="divided by 0; got 1 . 2√2 / 0"):
            Root2(1, 2) / nothing

    @given(numbers, st.integers(-4, 5))
    def test_whole_powers(self, number, power):
        assume(number or power >= 0)
        product = Root2(1)
        for _ in range(abs(power)):
            product *= number
        assert number**power == (product if power >= 0 else 1 / product)

    @given(numbers)
    def test_the_root_of_a_square(self, number):
        square = number * number
        assert square.square_root() == square ** Fraction(1, 2) == abs(number)
        assert square ** Fraction(3, 2) == abs(number) ** 3

    @given(numbers)
    @example(Root2(2))
    @example(Root2(3, 2))
    @example(Root2(0, 1))
    @example(Root2(-1))
    @example(Root2(Fraction(1, 2)))
    def test_a_root_is_a_root_or_is_refused(self, number):
        try:
            found = number.square_root()
        except OutsideField as lesson:
            assert str(lesson).endswith("use floats, or SymPy") and f"the square root of {number} is" in str(lesson)
            minimal = sp.sqrt(sympy_of(number))
            denested = sp.sqrtdenest(minimal)
            assert number < 0 or set(denested.atoms(sp.Pow)) - {R2}, "SymPy finds the root in the field"
        else:
            assert found >= 0 and found * found == number

    def test_other_powers_are_refused(self):
        with pytest.raises(
            OutsideField, match="only whole powers and halves of them stay exact; got 2 to the power 1/3"
        ):
            Root2(2) ** Fraction(1, 3)


class TestOrder:
    @given(numbers, others)
    def test_the_order_is_that_of_sympy(self, one, two):
        x, y = sympy_of(one), sympy_of(two)
        assert (one < two, one <= two, one > two, one >= two) == (x < y, x <= y, x > y, x >= y)
        assert (one == two) is bool(sp.expand(x - y) == 0)
        assert (two < one, two == one) == (y < x, one == two)

    def test_no_float_decides(self):
        """Convergents of √2 with 40 digits: as floats all of these are the same number."""
        p, q = 1, 1
        while q < 10**40:
            p, q = p + 2 * q, p + q
            near = Fraction(p, q)
            assert (Root2(root=1) > near) is (p * p < 2 * q * q)
            assert (Root2(p, -q) > 0) is (p * p > 2 * q * q)

    @given(fractions)
    def test_a_plain_number_is_equal_to_its_fraction_and_hashes_so(self, number):
        assert Root2(number) == number == Root2(number) and hash(Root2(number)) == hash(number)
        assert Root2(number, 1) != number and len({Root2(number), number, Root2(number, 1)}) == 2

    def test_floats_compare_by_what_they_are(self):
        assert Root2(Fraction(1, 10)) != 0.1 and Root2(Fraction(1, 8)) == 0.125
        assert -inf < Root2(1, 1) < inf and Root2(root=1) > 1.4142135623730949
        assert Root2(root=1) < 1.4142135623730951
        assert (Root2(1) == "1") is False

    @given(numbers)
    def test_floor_and_ceiling(self, number):
        assert floor(number) <= number < floor(number) + 1 and ceil(number) - 1 < number <= ceil(number)


class TestOtherKinds:
    @given(numbers)
    @example(Root2(19601, -13860))
    @example(Root2(Fraction(-1311738121), 927538920))
    def test_a_float_is_right_to_its_last_digits(self, number):
        assert float(number) == pytest.approx(float(sympy_of(number).evalf(40)), rel=1e-15, abs=0)

    @given(numbers)
    def test_there_and_back_through_sympy(self, number):
        assert root2(number.exact()) == root2(exact(number)) == number and same(number, number.exact())

    def test_sympy_takes_one_as_it_is(self):
        block = sp.Symbol("block")
        assert Root2(1, 2) * block == block * Root2(1, 2) == (1 + 2 * R2) * block
        assert Root2(0, 9) == 9 * R2 == Root2(0, 9) and sp.sympify(Root2(3)) == 3

    @pytest.mark.parametrize("value", [sp.sqrt(3), sp.pi, 2 ** sp.Rational(1, 3), sp.sqrt(6), sp.I])
    def test_sympy_numbers_of_another_kind_are_refused(self, value):
        with pytest.raises(OutsideField, match="a number here is a . b√2 .*; got .*; use floats, or SymPy"):
            root2(value)

    @pytest.mark.parametrize("value", [0.5, "1/2", None, inf, sp.Symbol("x")])
    def test_what_is_no_fraction_is_refused(self, value):
        with pytest.raises(TypeError, match="made of whole numbers and fractions; got .*; write Fraction"):
            root2(value)

    def test_a_float_is_not_mixed_in(self):
        for mixed in (lambda: Root2(1) + 0.5, lambda: 0.5 * Root2(1), lambda: Root2(1) / 0.5, lambda: Root2(1) ** 0.5):
            with pytest.raises(TypeError, match="unsupported operand"):
                mixed()

    @pytest.mark.parametrize(
        ("number", "line"),
        [
            (Root2(), "0"),
            (Root2(-3), "−3"),
            (Root2(root=1), "√2"),
            (Root2(12, Fraction(-1, 4)), "12 − √2/4"),
            (Root2(Fraction(-7, 2), Fraction(3, 4)), "−7/2 + 3√2/4"),
        ],
    )
    def test_written(self, number, line):
        assert str(number) == line and eval(repr(number)) == number
