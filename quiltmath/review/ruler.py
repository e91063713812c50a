"""How lengths (inches inside) are said in a sheet's own units."""

from dataclasses import dataclass
from functools import lru_cache

from .. import lengths
from ..usual import MEASURED, RULER


def said(inches, step=None):
    """A measured length as a quilter reads it: inches to the nearest 1/16, or None.

    >>> said(63.6396), said(None)
    ('63 5/8', None)
    """
    if inches is None:
        return None
    return lengths.measured(float(inches), step=step)


@dataclass(frozen=True)
class Ruler:
    """How lengths (inches inside) are said in a sheet's own units, rounded as its ruler and its shop do."""

    units: str = "in"

    def said(self, inches):
        """A measured length, to the nearest 1/16 in or 1 mm.

        >>> Ruler().said(63.6396), Ruler("cm").said(63.6396)
        ('63 5/8 in', '161.6 cm')
        """
        return self._text(inches, MEASURED[self.units], "nearest")

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

    def sizes(self, pair, say=None):
        """A size: one length for a square, else width by height.

        >>> Ruler().sizes((3.5, 3.5)), Ruler().sizes((2.5, 4.5))
        ('3 1/2 in', '2 1/2 by 4 1/2 in')
        """
        width, height = ((say or self.said)(side) for side in pair)
        return width if width == height else f"{width.removesuffix(self.units).strip()} by {height}"

    def typed(self, pair, say=None):
        """A size as a sheet has it typed: "2 1/2 in x 4 1/2 in"."""
        width, height = ((say or self.up)(side) for side in pair)
        return width if width == height else f"{width} x {height}"

    def cloth(self, inches):
        """A length of cloth as it is sold: in yards, or metres.

        >>> Ruler().cloth(81), Ruler("cm").cloth(39.3700787)
        ('2 1/4 yd', '1 m')
        """
        return (
            self._text(inches, "1/32 yd", "nearest", "yd")
            if self.units == "in"
            else self._text(inches, "1 cm", "nearest", "m")
        )

    def to_buy(self, inches):
        """A length of cloth to buy: up to the next eighth of a yard, or tenth of a metre.

        >>> Ruler().to_buy(73), Ruler("cm").to_buy(73)
        ('2 1/8 yd', '1.9 m')
        """
        return (
            self._text(inches, "1/8 yd", "up", "yd") if self.units == "in" else self._text(inches, "10 cm", "up", "m")
        )

    def _text(self, inches, step, rounding, unit=None):
        return _text(float(inches), step, rounding, unit or self.units)


@lru_cache(maxsize=4096)
def _text(inches, step, rounding, unit):
    """A length rounded to a step, in a unit; the same few lengths of a sheet are said many times over."""
    inches = min(inches, lengths.LONGEST)  # no quilt comes near that
    rounded = lengths.ruler(inches, step=step, rounding=rounding)
    return lengths.text(rounded, unit=unit, mark="in" if unit == "in" else "")
