"""How lengths (inches inside) are said in a sheet's own units, and its printed figures as it prints them."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from typing import TYPE_CHECKING

from .. import lengths
from ..usual import EASED, MEASURED, PRINTED, RULER, SHOP, TO_BUY

if TYPE_CHECKING:
    from ..pattern.sheet import Sheet

NEAR = Fraction(1, 10**7)  # inches: a float this near to a printed figure is that figure
FINEST = 2540  # parts of an inch: three decimals of a centimetre, and all finer than a 64th that a pattern prints


@dataclass(frozen=True)
class Ruler:
    """How lengths (inches inside) are said in a sheet's own units: what the `sheet` prints as it is printed, the rest
    rounded as its ruler and its shop do."""

    units: str = "in"
    sheet: Sheet | None = None

    @classmethod
    def of(cls, sheet: Sheet) -> Ruler:
        """The ruler in whose words a sheet's lengths are said.

        >>> from quiltmath import pattern
        >>> from quiltmath.pattern.sheet import EXAMPLE
        >>> Ruler.of(pattern.read_text(EXAMPLE.replace('"3 1/2"', '"3.52"'))).said(3.52)
        '3.52 in'
        """
        return cls(sheet.units, sheet)

    @property
    def step(self) -> float:
        """In what steps (inches) sizes are cut.

        >>> Ruler().step, round(Ruler("cm").step, 5)
        (0.125, 0.03937)
        """
        return float(lengths.parse(RULER[self.units]))

    def said(self, inches):
        """A length: as the sheet prints it, else measured, to the nearest 1/16 in or 1 mm.

        >>> Ruler().said(63.6396), Ruler("cm").said(63.6396)
        ('63 5/8 in', '161.6 cm')
        """
        return self._printed(inches) or self._text(inches, MEASURED[self.units], "nearest")

    def up(self, inches, whole=False):
        """A needed length, up to the next 1/8 in (1/16 for a whole piece, which is no rounded size) or 1 mm.

        >>> Ruler().up(13.935), Ruler().up(3.55, whole=True), Ruler("cm").up(13.935)
        ('14 in', '3 9/16 in', '35.4 cm')
        """
        return self._text(float(inches) - 1e-6 * whole, (MEASURED if whole else RULER)[self.units], "up")

    def exactly(self, inches):
        """A length that no ruler shows, to three decimals.

        >>> Ruler().exactly(9.338834764), Ruler("cm").exactly(9.338834764)
        ('9.339 in', '23.721 cm')
        """
        return lengths.text(inches, unit=self.units, mark="in" if self.units == "in" else "", places=3).removeprefix(
            "about "
        )

    def as_printed(self, inches):
        """A finished size as a designer prints it: the roundest figure of which it misses no more than is eased.

        >>> float(Ruler().as_printed(9.0505)), float(Ruler().as_printed(9.103))
        (9.0, 9.125)
        """
        steps = (lengths.ruler(inches, step=step, rounding="nearest") for step in PRINTED[self.units])
        return next((step for step in steps if abs(float(step) - float(inches)) <= EASED), inches)

    def sizes(self, pair, say=None):
        """A size: one length for a square, else width by height.

        >>> Ruler().sizes((3.5, 3.5)), Ruler().sizes((2.5, 4.5))
        ('3 1/2 in', '2 1/2 by 4 1/2 in')
        """
        width, height = ((say or self.said)(side) for side in pair)
        if width == height:
            return width
        unit = height.rpartition(" ")[2]
        return f"{width.removesuffix(f' {unit}')} by {height}"

    def typed(self, pair, say=None):
        """A size as a sheet has it typed: "2 1/2 in x 4 1/2 in"."""
        width, height = ((say or self.up)(side) for side in pair)
        return width if width == height else f"{width} x {height}"

    def cloth(self, inches):
        """A length of fabric as it is sold: as the sheet prints it, else in yards, or metres.

        >>> Ruler().cloth(81), Ruler().cloth(60), Ruler().cloth(57.1), Ruler("cm").cloth(39.3700787)
        ('2 1/4 yd', '1 2/3 yd', '57 1/8 in', '1 m')
        """
        if self.units != "in":
            return self._printed(inches, sold=True) or self._text(inches, "1 cm", "nearest", "m")
        yards = lengths.text(_exact(inches), unit="yd")
        return self._printed(inches, sold=True) or (self.said(inches) if yards.startswith("about") else yards)

    def pieces(self, count, piece):
        """So many pieces of fabric as they are sold: by their name in the trade, or by the two sides the sheet gives.

        >>> from quiltmath.pattern.precut import FabricPiece
        >>> of = Ruler()
        >>> of.pieces(6, FabricPiece("fat quarter", 18, share=0.5)), of.pieces(1, FabricPiece("5 in square", 5))
        ('6 fat quarters', '1 square (5 in)')
        >>> of.pieces(2, FabricPiece("", Fraction(18), Fraction(21)))
        '2 pieces (18 by 21 in)'
        """
        size, _, shape = piece.name.rpartition(" ")
        plural = "s" * (count != 1)
        if not piece.name:
            return f"{count} piece{plural} ({self.sizes((piece.along, piece.across))})"
        return f"{count} {piece.name}{plural}" if piece.share < 1 else f"{count} {shape}{plural} ({size})"

    def to_buy(self, inches):
        """A length of fabric to buy: up to the next eighth of a yard, or tenth of a metre.

        >>> Ruler().to_buy(73), Ruler("cm").to_buy(73)
        ('2 1/8 yd', '1.9 m')
        """
        return self._text(inches, TO_BUY[self.units], "up", SHOP[self.units])

    def _printed(self, inches, sold=False):
        """How the sheet prints this length; None where it does not."""
        return None if self.sheet is None else self.sheet.quoted(_exact(inches), sold)

    def _text(self, inches, step, rounding, unit=None):
        return _text(float(inches), step, rounding, unit or self.units)


def _exact(inches):
    """A length of a sheet, or worked out from its lengths in floats, as the fraction that was meant.

    >>> _exact(3.1 * 3), _exact(Fraction(5, 127))
    (Fraction(93, 10), Fraction(5, 127))
    """
    if isinstance(inches, Fraction):
        return inches
    near = Fraction(min(float(inches), lengths.LONGEST))
    meant = near.limit_denominator(FINEST)
    return meant if abs(meant - near) < NEAR else near


@lru_cache(maxsize=4096)
def _text(inches, step, rounding, unit):
    """A length rounded to a step, in a unit; the same few lengths of a sheet are said many times over."""
    inches = min(inches, lengths.LONGEST)  # no quilt comes near that
    rounded = lengths.ruler(inches, step=step, rounding=rounding)
    return lengths.text(rounded, unit=unit, mark="in" if unit == "in" else "")
