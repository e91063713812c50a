"""What each part of a sheet needs: how many pieces, and the exact size to cut, with the proof that gives it.

A size is never typed in: each side of a need names a proof and the finished measures it is asked with. Where the
sheet's own figures add up, those are exact (Fractions, or a + b√2); else they are measured off the sewn cloth.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from math import ceil
from typing import TYPE_CHECKING, TypeAlias

from .. import lengths, proofs
from ..pattern.cut import PIECES
from ..root2 import exact
from ..usual import RULER

if TYPE_CHECKING:
    from fractions import Fraction

    import sympy

    from ..root2 import Root2

ON_GRAIN = "edges on the straight grain"
LONG_ON_GRAIN = "long side on the straight grain"
LEGS_ON_GRAIN = "legs on the straight grain"
LENGTHWISE = "length along the lengthwise grain, where the fabric allows"

Measure: TypeAlias = "Fraction | Root2 | float"
"""A finished measure a proof is asked with, in inches: exact where the sheet's figures add up."""

Sides: TypeAlias = "tuple[tuple[str, str | None, dict[str, Measure]], ...]"
"""What a cut size follows from, as `Need.sides` has it: (proof, measure, quantities) of each side."""


@dataclass(frozen=True, eq=False)
class Need:
    """One line of a cutting list: so many pieces of one part, cut whole or as squares cut once or twice.

    `sides` holds one (proof, measure, quantities) for a square and two for a rectangle, width first; sizes come from
    nowhere else. `least`: a longer one does as well, for it is trimmed.

    >>> from quiltmath import settings
    >>> line = settings.on_point(across=5, down=6, block=10).cutting_list()[1]
    >>> line.part, line.count, line.cut, line.squares, line.exact, line.text
    ('side triangle', 18, 'twice', 5, (1/2 + 21*sqrt(2)/2,), '15 3/8')
    """

    part: str
    fabric: str
    count: int
    cut: str
    sides: Sides
    seam: object
    unit: str = "in"
    grain: str = ""
    note: str = ""
    least: bool = False

    @property
    def squares(self) -> int:
        """How many squares or strips to cut: whole ones, so that none of the pieces is missing."""
        return ceil(self.count / PIECES[self.cut])

    @cached_property
    def exact(self) -> tuple[sympy.Expr, ...]:
        """The exact cut size: one SymPy number for a square, (width, length) for a strip."""
        return tuple(proof.exact(measure, seam=self.seam, **given) for proof, measure, given in self._proofs())

    def number(self, side: int = 0) -> Root2:
        """The exact cut size of one side as a `Root2`, without SymPy."""
        proof, measure, given = self._proofs()[side]
        return proof.number(measure, seam=self.seam, **given)

    @cached_property
    def value(self) -> tuple[float, ...]:
        """The same as floats of inches, quickly: what is sewn."""
        return tuple(proof.value(measure, seam=self.seam, **given) for proof, measure, given in self._proofs())

    @property
    def can_be_cut(self) -> bool:
        """Whether its proofs take the figures they are asked with: a seam may be too wide for the piece."""
        try:
            return bool(self.value)
        except ValueError:
            return False

    @property
    def pair(self) -> tuple[float, float]:
        """The exact cut (width, height) as floats of inches."""
        return self.value[0], self.value[-1]

    @cached_property
    def size(self) -> tuple[Fraction, ...]:
        """The cut size rounded up to the ruler's step (1/8 in; 1 mm in metric), as Fractions of inches."""
        return tuple(
            proof.cut(measure, step=RULER[self.unit], seam=self.seam, **given)
            for proof, measure, given in self._proofs()
        )

    @cached_property
    def trade(self) -> tuple[sympy.Expr | None, ...]:
        """What the trade's rule of thumb gives, as exact SymPy inches; None for a side it has no rule for.

        >>> from quiltmath import settings
        >>> settings.on_point(5, 6, 10).line("side triangle").trade
        (5/4 + 10*sqrt(2),)
        """
        inch, found = 1 / lengths.INCHES[self.unit], []
        for proof, measure, given in self._proofs():
            asked = {name: value * inch for name, value in {**given, "seam": self.seam}.items()}
            rule = proof.trade(measure, unit=self.unit, **asked)
            found.append(None if rule is None else rule / exact(inch))
        return tuple(found)

    @property
    def text(self) -> str:
        """The size on the ruler in words."""
        return " x ".join(lengths.text(side, self.unit) for side in self.size)

    @property
    def why(self) -> str:
        """The name of the proof that gives the size."""
        return self.sides[-1][0]

    def derivation(self) -> str:
        """The derivations of the size, as text."""
        return "\n\n".join(proof.printed(seam=self.seam, **given) for proof, _, given in self._proofs())

    def _proofs(self):
        return [(getattr(proofs, name), measure, given) for name, measure, given in self.sides]

    @property
    def told(self) -> tuple[str, str, str, str, tuple[str, ...]]:
        """In words: its part, what is cut and how large, from which fabric, how that is cut again ("" for not), and
        what else is to be known of it.

        >>> from quiltmath import settings
        >>> settings.on_point(across=5, down=6, block=10).line("side triangle").told
        ('side triangle', '5 squares of 15 3/8 in', 'setting', 'each cut twice on the diagonals', \
('long side on the straight grain', '2 spare'))
        """
        how = {"once": "each cut once on the diagonal", "twice": "each cut twice on the diagonals"}.get(self.cut, "")
        rectangle_like = {"whole": "strip", "once": "rectangle", "shaped": "triangle"}
        shape = "square" if len(self.sides) == 1 else rectangle_like.get(self.cut, "piece")
        spare = self.squares * PIECES[self.cut] - self.count
        cut = f"{self.squares} {shape}{'s' * (self.squares != 1)} of {self.text}{'' if self.unit != 'in' else ' in'}"
        more = self.grain, *([f"{spare} spare"] if spare else []), *([self.note] if self.note else [])
        return self.part, cut, self.fabric, how, more

    def __str__(self):
        part, cut, fabric, how, more = self.told
        return f"{part}: {cut} from {fabric}{how and f', {how}'}; {'; '.join(more)}"


def rectangle(width: Measure, height: Measure) -> Sides:
    """The sides of a whole piece that finishes so wide and high."""
    given = {"width": width, "height": height}
    sides = (("patch", "cut width", given),)
    return sides if width == height else (*sides, ("patch", "cut height", given))


def triangle(cut: str, finished: Measure) -> Sides:
    """The sides of a square cut once (`finished` is a leg) or twice (`finished` is the long side)."""
    return (("half_square" if cut == "once" else "quarter_square", None, {"finished": finished}),)


def halves(across: Measure, up: Measure) -> Sides:
    """The sides of a rectangle cut once from corner to corner into triangles with these finished legs."""
    given = {"across": across, "up": up}
    return ("half_rectangle", "cut across", given), ("half_rectangle", "cut up", given)


def triangle_between(width: Measure, height: Measure) -> Sides:
    """The base and the height, tip and all, of the triangle in a square unit that finishes so wide and high."""
    given = {"width": width, "height": height}
    return ("triangle_in_square", "triangle across", given), ("triangle_in_square", "triangle up", given)


def long_triangles(width: Measure, height: Measure) -> Sides:
    """The sides of the rectangle cut once for the long triangles of such a unit."""
    given = {"width": width, "height": height}
    return ("triangle_in_square", "rectangle across", given), ("triangle_in_square", "rectangle up", given)


def slanted(width: Measure, inner: Measure, proof: str = "frame_both_ends") -> Sides:
    """The sides of a strip trimmed at 45 degrees at one end or both; `inner` is the finished length beside the
    slant."""
    given = {"leg": inner, "width": width}
    return (proof, "strip width", given), (proof, "strip", given)


def mitred(width: Measure, side: Measure) -> Sides:
    """The sides of a border strip whose ends are mitred; `side` is the finished side of what it goes round."""
    given = {"side": side, "width": width}
    return ("mitred_strip", "strip width", given), ("mitred_strip", "strip", given)
