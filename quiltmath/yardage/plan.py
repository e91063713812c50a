"""A cutting plan as it is read and cut: strips across the fabric, and what each of them is sub-cut into."""

from dataclasses import dataclass
from fractions import Fraction

from .. import lengths
from . import arguments


@dataclass(frozen=True)
class SubCut:
    """What one strip is sub-cut into: `pieces` of a Piece, in `columns` side by side; `turned` a quarter or not."""

    piece: arguments.Piece
    pieces: int
    columns: int
    turned: bool = False

    @property
    def across(self) -> Fraction:
        """The width of one column, in inches."""
        return self.piece.height if self.turned else self.piece.width

    @property
    def along(self) -> Fraction:
        """How far one piece runs along the selvage, in inches."""
        return self.piece.width if self.turned else self.piece.height


@dataclass(frozen=True)
class CrosswiseStrip:
    """`count` strips alike, `height` inches high, across the whole width; `cuts` is what each of them gives.

    Strips that are `joined` end to end first give together what `cuts` says.
    """

    height: Fraction
    count: int
    cuts: tuple[SubCut, ...]
    joined: bool = False

    @property
    def strips(self) -> str:
        """How many strips they are and how high, in words."""
        strips = f"{arguments.several(self.count, 'strip')} {lengths.text(self.height, mark='in')} high"
        return strips + (", joined end to end" if self.joined else "")

    @property
    def gives(self) -> str:
        """What each of them gives, or all of them where they are joined, in words."""
        return ", ".join(f"{cut.pieces:,} × {cut.piece.name}" + (" turned" if cut.turned else "") for cut in self.cuts)

    @property
    def sentence(self) -> str:
        """The strip in words."""
        return f"{self.strips}{', each' if self.count > 1 and not self.joined else ''}: {self.gives}"


@dataclass(frozen=True)
class LaidPiece:
    """Where one piece lies: its lower left corner `x` across and `y` along the fabric, its `width` and `height`,
    inches.

    A strip that is joined to others before it is cut lies there whole.
    """

    piece: arguments.Piece
    x: Fraction
    y: Fraction
    width: Fraction
    height: Fraction
    joined: bool = False


@dataclass(frozen=True)
class CuttingPlan:
    """A cutting plan: strips across the width that hold every piece once.

    `at_least` is inches of fabric that no cutter gets under (an exact Fraction). `proved` says that no plan of such
    strips is shorter.
    """

    pieces: tuple[arguments.Piece, ...]
    usable_width: Fraction
    strips: tuple[CrosswiseStrip, ...]
    at_least: Fraction
    proved: bool

    @property
    def length(self) -> Fraction:
        """Inches of fabric along the selvage that this plan takes, exactly."""
        return sum((strip.height * strip.count for strip in self.strips), Fraction(0))

    @property
    def yards(self) -> Fraction:
        """The length as bought: yards, rounded up to the next eighth."""
        return arguments.yards(self.length)

    @property
    def waste(self) -> Fraction:
        """Which share of the fabric is no piece, from 0 to 1, exactly; what joins use up counts as waste."""
        fabric = self.length * self.usable_width
        return 1 - sum(piece.area for piece in self.pieces) / fabric if fabric else Fraction(0)

    @property
    def sentence(self) -> str:
        """The plan in one sentence."""
        said = (
            f"{arguments.several(sum(strip.count for strip in self.strips), 'strip')} across "
            f"{lengths.text(self.usable_width, mark='in')} take {lengths.text(self.length, mark='in')} of fabric: "
            f"buy {arguments.yards_text(self.length)}"
        )
        if self.at_least == self.length:
            return said + "; no cutter needs less"
        return said + f"; no cutter can do with less than {lengths.text(self.least_on_ruler, mark='in')}"

    @property
    def least_on_ruler(self) -> Fraction:
        """`at_least` rounded down to an eighth of an inch."""
        return lengths.ruler(self.at_least, step="1/8", rounding="down")

    def __str__(self) -> str:
        return "\n".join([self.sentence, *("  " + strip.sentence for strip in self.strips)])

    def places(self) -> list[LaidPiece]:
        """Where each piece lies on the fabric, as a list of `LaidPiece`, strip by strip from one cut end."""
        found: list[LaidPiece] = []
        y = Fraction(0)
        for strip in self.strips:
            for _ in range(strip.count):
                if strip.joined:
                    found.append(LaidPiece(strip.cuts[0].piece, Fraction(0), y, self.usable_width, strip.height, True))
                else:
                    found += _in_strip(strip, y)
                y += strip.height
        return found


def _in_strip(strip, y):
    x = Fraction(0)
    for cut in strip.cuts:
        stack = strip.height // cut.along
        for number in range(cut.pieces):
            column, step = divmod(number, stack)
            yield LaidPiece(cut.piece, x + column * cut.across, y + step * cut.along, cut.across, cut.along)
        x += cut.columns * cut.across
