"""Numbers a + b√2 with rational a and b: every length that whole numbers, fractions and 45 degrees can make, exactly.

They add, multiply, divide and compare without ever being rounded, need nothing but whole numbers to do so, and become
floats or SymPy numbers when asked.

    >>> width = Root2(Fraction(1, 2), 45)
    >>> print(width * 2, width > 64, width / Root2(root=1), round(float(width), 4))
    1 + 90√2 True 45 + √2/4 64.1396
    >>> width.exact()
    1/2 + 45*sqrt(2)
"""

from __future__ import annotations

from fractions import Fraction
from math import gcd, inf, isfinite, isnan, isqrt, sqrt
from numbers import Rational
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    import sympy


class OutsideField(ValueError):
    """A number was asked for that is not a + b√2 with rational a and b: go on with floats, or with SymPy."""


class Root2:
    """The number `plain` + `root`·√2, exact; both are Fractions (0 unless given), and the number cannot be changed.

    >>> diagonal = Root2(root=9)
    >>> diagonal.plain, diagonal.root, diagonal * diagonal == 162
    (Fraction(0, 1), Fraction(9, 1), True)
    >>> Root2(0.1)
    Traceback (most recent call last):
    TypeError: a Root2 is made of whole numbers and fractions; got 0.1; write Fraction('0.1'), or lengths.parse(0.1)
    """

    __slots__ = ("_plain", "_root", "_under")  # (plain + root √2) / under, whole numbers in lowest terms, under > 0

    _plain: int
    _root: int
    _under: int

    def __init__(self, plain: Rational | int = 0, root: Rational | int = 0) -> None:
        (a, under), (b, other) = _ratio(plain), _ratio(root)
        self._plain, self._root, self._under = _lowest(a * other, b * under, under * other)

    @property
    def plain(self) -> Fraction:
        """The rational part."""
        return Fraction(self._plain, self._under)

    @property
    def root(self) -> Fraction:
        """How many times √2."""
        return Fraction(self._root, self._under)

    def __repr__(self) -> str:
        return f"Root2({self.plain!r}, {self.root!r})"

    def __str__(self) -> str:
        """As a person writes it.

        >>> print(Root2(Fraction(7, 2), Fraction(1, 4)), "and", Root2(12, -1), "and", Root2(root=Fraction(-3, 2)))
        7/2 + √2/4 and 12 − √2 and −3√2/2
        """
        plain, root = self.plain, self.root
        if root == 0:
            return str(plain).replace("-", "−")
        surd = f"{abs(root.numerator) if abs(root.numerator) != 1 else ''}√2"
        surd += f"/{root.denominator}" if root.denominator != 1 else ""
        if plain == 0:
            return ("−" if root < 0 else "") + surd
        return f"{plain} {'−' if root < 0 else '+'} {surd}".replace("-", "−")

    # -- arithmetic

    def __add__(self, other: Root2 | Rational | int) -> Root2:
        parts = _parts(other)
        if parts is None:
            return NotImplemented
        a, b, under = parts
        mine = self._under
        return _made(self._plain * under + a * mine, self._root * under + b * mine, mine * under)

    __radd__ = __add__

    def __neg__(self) -> Root2:
        return _made(-self._plain, -self._root, self._under)

    def __pos__(self) -> Root2:
        return self

    def __abs__(self) -> Root2:
        return -self if self._sign() < 0 else self

    def __sub__(self, other: Root2 | Rational | int) -> Root2:
        parts = _parts(other)
        if parts is None:
            return NotImplemented
        a, b, under = parts
        mine = self._under
        return _made(self._plain * under - a * mine, self._root * under - b * mine, mine * under)

    def __rsub__(self, other: Rational | int) -> Root2:
        return -self + other

    def __mul__(self, other: Root2 | Rational | int) -> Root2:
        parts = _parts(other)
        if parts is None:
            return NotImplemented
        a, b, under = parts
        mine, times = self._plain, self._root
        return _made(mine * a + 2 * times * b, mine * b + times * a, self._under * under)

    __rmul__ = __mul__

    def __truediv__(self, other: Root2 | Rational | int) -> Root2:
        parts = _parts(other)
        if parts is None:
            return NotImplemented
        a, b, under = parts
        norm = a * a - 2 * b * b  # 0 only where a and b are: √2 is no fraction
        if norm == 0:
            raise ZeroDivisionError(f"nothing is divided by 0; got {self} / 0")
        mine, times = self._plain * under, self._root * under
        return _made(mine * a - 2 * times * b, times * a - mine * b, self._under * norm)

    def __rtruediv__(self, other: Rational | int) -> Root2:
        parts = _parts(other)
        return NotImplemented if parts is None else _made(*parts) / self

    def __pow__(self, exponent: Rational | int) -> Root2:
        """A whole power, or one of halves where the square root stays a + b√2.

        >>> print(Root2(1, 1) ** -2, "and", Root2(18) ** Fraction(1, 2))
        3 − 2√2 and 3√2
        """
        if not isinstance(exponent, Rational):
            return NotImplemented
        if exponent.denominator == 2:
            return self.square_root() ** int(exponent.numerator)
        if exponent.denominator != 1:
            raise OutsideField(f"only whole powers and halves of them stay exact; got {self} to the power {exponent}")
        power, times = _made(1, 0, 1), int(exponent.numerator)
        base = self if times >= 0 else 1 / self
        for digit in f"{abs(times):b}":
            power = power * power * base if digit == "1" else power * power
        return power

    def square_root(self) -> Root2:
        """The square root, where it is a + b√2 too.

        >>> print(Root2(3, 2).square_root(), Root2(Fraction(1, 2)).square_root())
        1 + √2 √2/2
        >>> Root2(3).square_root()
        Traceback (most recent call last):
        quiltmath.root2.OutsideField: the square root of 3 is not a + b√2 with whole numbers or fractions; use floats, \
or SymPy
        """
        # (c + e √2)² is p + q √2 if c² + 2 e² is p and 2 c e is q; so c² is half of p plus or minus the root of
        # p² − 2 q².
        p, q = self._plain * self._under, self._root * self._under
        norm = p * p - 2 * q * q
        if self._sign() >= 0 and norm >= 0:
            between = isqrt(norm)
            for square in ((p + between) // 2, (p - between) // 2):
                c, e = isqrt(max(square, 0)), isqrt(max(p - square, 0) // 2)
                if c * c + 2 * e * e == p and 2 * c * e == abs(q):
                    return abs(_made(c, e if q >= 0 else -e, self._under))
        raise OutsideField(
            f"the square root of {self} is not a + b√2 with whole numbers or fractions; use floats, or SymPy"
        )

    def by_root(self) -> Root2:
        """The length times √2: the diagonal of a square of this side.

        >>> Root2(9).by_root() == Root2(root=9)
        True
        """
        return _made(2 * self._root, self._plain, self._under)

    # -- order, decided by whole numbers alone

    def _sign(self) -> int:
        """-1, 0 or 1."""
        a, b = self._plain, self._root
        if a >= 0 and b >= 0:
            return 1 if a or b else 0
        if a <= 0 and b <= 0:
            return -1
        return 1 if (a * a > 2 * b * b) == (a > 0) else -1

    def _compared(self, other: object) -> int | None:
        """The sign of the difference, None where there is none."""
        if isinstance(other, float):
            if not isfinite(other):
                return None if isnan(other) else -1 if other == inf else 1
            other = Fraction(other)
        parts = _parts(other)
        return None if parts is None else (self - _made(*parts))._sign()

    def __eq__(self, other: object) -> bool:
        if isinstance(other, Root2):
            return (self._plain, self._root, self._under) == (other._plain, other._root, other._under)
        sign = self._compared(other)
        return NotImplemented if sign is None else sign == 0

    def __lt__(self, other: Root2 | Rational | float) -> bool:
        sign = self._compared(other)
        return NotImplemented if sign is None else sign < 0

    def __le__(self, other: Root2 | Rational | float) -> bool:
        sign = self._compared(other)
        return NotImplemented if sign is None else sign <= 0

    def __gt__(self, other: Root2 | Rational | float) -> bool:
        sign = self._compared(other)
        return NotImplemented if sign is None else sign > 0

    def __ge__(self, other: Root2 | Rational | float) -> bool:
        sign = self._compared(other)
        return NotImplemented if sign is None else sign >= 0

    def __hash__(self) -> int:
        return hash(self.plain) if self._root == 0 else hash((self._plain, self._root, self._under))

    def __bool__(self) -> bool:
        return bool(self._plain or self._root)

    def __floor__(self) -> int:
        """The whole number at or below it, exactly.

        >>> from math import ceil, floor
        >>> floor(Root2(root=10)), ceil(Root2(root=10)), floor(Root2(root=-10))
        (14, 15, -15)
        """
        below = isqrt(2 * self._root * self._root)
        return (self._plain + (below if self._root >= 0 else -below - 1)) // self._under

    def __ceil__(self) -> int:
        return -(-self).__floor__()

    # -- other kinds of number

    def __float__(self) -> float:
        a, b, under = self._plain, self._root, self._under
        if (a < 0) == (b < 0) or a == 0 or b == 0:
            return a / under + b / under * sqrt(2)
        # Two parts that nearly cancel would lose digits: a + b √2 is (a² − 2 b²) / (a − b √2), where nothing cancels.
        return (a * a - 2 * b * b) / (under * under) / (a / under - b / under * sqrt(2))

    def exact(self) -> sympy.Expr:
        """The same number as a SymPy number."""
        import sympy

        return sympy.Rational(self._plain, self._under) + sympy.Rational(self._root, self._under) * sympy.sqrt(2)

    _sympy_ = exact  # SymPy asks for this, so that its numbers and formulas take a Root2


def _ratio(value: Any) -> tuple[int, int]:
    """A whole number or a fraction as numerator and denominator."""
    if not isinstance(value, Rational):
        raise TypeError(
            f"a Root2 is made of whole numbers and fractions; got {value!r:.60}; "
            f"write Fraction('{value!s:.60}'), or lengths.parse({value!r:.60})"
        )
    return int(value.numerator), int(value.denominator)


def _lowest(a: int, b: int, under: int) -> tuple[int, int, int]:
    shared = gcd(a, b, under)
    if under < 0:
        shared = -shared
    return a // shared, b // shared, under // shared


def _made(a: int, b: int, under: int) -> Root2:
    """(a + b √2) / under."""
    made = object.__new__(Root2)
    made._plain, made._root, made._under = (a, b, 1) if under == 1 else _lowest(a, b, under)
    return made


def _parts(value: object) -> tuple[int, int, int] | None:
    """A number as (a, b, under), None where it is not known to be of this kind."""
    if type(value) is int:
        return value, 0, 1
    if isinstance(value, Root2):
        return value._plain, value._root, value._under
    if isinstance(value, Rational):
        return int(value.numerator), 0, int(value.denominator)
    return None


def root2(value: Any) -> Root2:
    """A whole number, a fraction or a SymPy number as a Root2; a Root2 as it is.

    >>> import sympy
    >>> print(root2(Fraction(7, 2)), "and", root2(1 / (1 + sympy.sqrt(2))))
    7/2 and −1 + √2
    >>> root2(sympy.sqrt(3))
    Traceback (most recent call last):
    quiltmath.root2.OutsideField: a number here is a + b√2 with whole numbers or fractions; got sqrt(3); use floats, \
or SymPy
    """
    if isinstance(value, Root2):
        return value
    if isinstance(value, Rational) or not getattr(value, "is_number", False):
        return Root2(value)
    import sympy

    terms = sympy.expand(sympy.radsimp(value)).as_coefficients_dict()
    plain, root = terms.pop(sympy.S.One, sympy.S.Zero), terms.pop(sympy.sqrt(2), sympy.S.Zero)
    if any(terms.values()) or not (plain.is_Rational and root.is_Rational):
        raise OutsideField(
            f"a number here is a + b√2 with whole numbers or fractions; got {value!s:.60}; use floats, or SymPy"
        )
    return Root2(plain, root)


def exact(value: Any) -> sympy.Expr:
    """A Root2 or a rational number as a SymPy number.

    >>> exact(Fraction(1, 2)) + exact(Root2(root=1))
    1/2 + sqrt(2)
    """
    return root2(value).exact()
