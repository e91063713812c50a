"""Lengths of a quilt on point, kept exactly: a + b√2 with Fractions a and b, without SymPy until it is asked
for."""

from dataclasses import dataclass
from fractions import Fraction
from math import sqrt


@dataclass(frozen=True)
class Root2:
    """The length plain + root·√2, in inches.

    >>> width = Root2(Fraction(1, 2), Fraction(45))
    >>> (width * 2).root, round(float(width), 4), width.exact()
    (Fraction(90, 1), 64.1396, 1/2 + 45*sqrt(2))
    """

    plain: Fraction = Fraction(0)
    root: Fraction = Fraction(0)

    def __add__(self, other):
        other = root2(other)
        return Root2(self.plain + other.plain, self.root + other.root)

    __radd__ = __add__

    def __sub__(self, other):
        return self + root2(other) * -1

    def __mul__(self, times):
        return Root2(self.plain * times, self.root * times)

    __rmul__ = __mul__

    def __float__(self):
        return float(self.plain) + float(self.root) * sqrt(2)

    def exact(self):
        """The same length as a SymPy number."""
        import sympy

        return sympy.Rational(self.plain.numerator, self.plain.denominator) + sympy.Rational(
            self.root.numerator, self.root.denominator
        ) * sympy.sqrt(2)

    def by_root(self):
        """The length times √2, exactly: the diagonal of a square of this side.

        >>> Root2(Fraction(9)).by_root() == Root2(root=Fraction(9))
        True
        """
        return Root2(2 * self.root, self.plain)


def root2(value):
    """A Root2 as it is, or a whole or rational number as one."""
    return value if isinstance(value, Root2) else Root2(Fraction(value))


def exact(value):
    """A Root2 or a rational number as a SymPy number.

    >>> exact(Fraction(1, 2)) + exact(Root2(root=Fraction(1)))
    1/2 + sqrt(2)
    """
    return root2(value).exact()
