"""How each piece may lie on the fabric: as given, turned a quarter, or joined from strips where it is too long."""

from dataclasses import dataclass
from fractions import Fraction

from .. import lengths
from .arguments import DoesNotFit
from .constants import BROADEST_JOINED
from .joining import lost_in_join, whole_strips


@dataclass(frozen=True)
class Way:
    """Piece number `piece` lying with `across` over the width and `along` down the selvage."""

    piece: int
    across: Fraction
    along: Fraction
    turned: bool = False


@dataclass(frozen=True)
class Joined:
    """Piece number `piece`, `long` and too long for the fabric, cut from joined strips `broad`; a join costs `lost`.

    `strip` is how long each strip is: the usable width. `free` says that its grain may run either way.
    """

    piece: int
    long: Fraction
    broad: Fraction
    lost: Fraction
    strip: Fraction
    free: bool = False

    def strips(self, pieces):
        """How many strips, joined end to end, give so many pieces.

        >>> Joined(0, Fraction(60), Fraction(3), Fraction(1, 2), Fraction(42)).strips(4)
        6
        """
        return whole_strips(pieces * self.long, self.strip, self.lost)


def ways(pieces, width):
    """Every way the pieces fit between the selvages.

    >>> from quiltmath.yardage import Piece
    >>> [(way.across, way.turned) for way in ways([Piece(3, 50, 4, any_way=True)], Fraction(42))]
    [(Fraction(3, 1), False)]
    """
    found = []
    for number, piece in enumerate(pieces):
        if piece.width <= width:
            found.append(Way(number, piece.width, piece.height))
        if piece.any_way and piece.width != piece.height and piece.height <= width:
            found.append(Way(number, piece.height, piece.width, True))
    return tuple(found)


def joined(pieces, width, join, seam):
    """The pieces that may be joined from strips across the width, because they are longer than it.

    >>> from quiltmath.yardage import Piece
    >>> joined([Piece(60, 3, 4)], Fraction(42), "diagonal", Fraction(1, 4))[0].lost
    Fraction(3, 1)
    """
    found = []
    for number, piece in enumerate(pieces):
        long, broad = piece.width, piece.height
        if piece.any_way:
            long, broad = max(long, broad), min(long, broad)
        lost = lost_in_join(broad, join, seam)
        if long > width and broad <= BROADEST_JOINED * width and lost < width:
            found.append(Joined(number, long, broad, lost, width, piece.any_way))
    return tuple(found)


def refuse_what_fits_no_way(pieces, width, lying, joints):
    """Refuse a piece that is wider than the fabric and too broad to be joined from strips.

    >>> from quiltmath.yardage import Piece
    >>> refuse_what_fits_no_way([Piece(50, 30)], Fraction(42), (), ())
    Traceback (most recent call last):
    quiltmath.yardage.arguments.DoesNotFit: a piece is no wider than the usable width, 42 in; got 50 × 30: turn it if \
its grain may run the other way, join it from narrower pieces, or take wider fabric
    """
    placed = {one.piece for one in (*lying, *joints)}
    for number, piece in enumerate(pieces):
        if number not in placed:
            raise DoesNotFit(
                f"a piece is no wider than the usable width, {lengths.text(width, mark='in')}; got "
                f"{piece.name}: turn it if its grain may run the other way, join it from narrower "
                "pieces, or take wider fabric"
            )
