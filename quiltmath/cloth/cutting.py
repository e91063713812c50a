"""How much cloth the pieces need: a plan of strips across the width, sub-cut, and a length no cutter gets under."""
from dataclasses import dataclass
from fractions import Fraction

from .. import lengths
from . import asked
from .bounds import at_least
from .searching import search
from .ways import joined, refuse_what_fits_no_way, ways


@dataclass(frozen=True)
class Cut:
    """What one strip is sub-cut into: `pieces` of a Piece, in `columns` side by side; `turned` a quarter or not."""
    piece: asked.Piece
    pieces: int
    columns: int
    turned: bool = False

    @property
    def across(self):
        """The width of one column, in inches."""
        return self.piece.height if self.turned else self.piece.width

    @property
    def along(self):
        """How far one piece runs along the selvage, in inches."""
        return self.piece.width if self.turned else self.piece.height


@dataclass(frozen=True)
class Strip:
    """`count` strips alike, `height` inches high, across the whole width; `cuts` is what each of them gives.

    Strips that are `joined` end to end first give together what `cuts` says.
    """
    height: Fraction
    count: int
    cuts: tuple
    joined: bool = False

    @property
    def sentence(self):
        """The strip in words."""
        strips = f"{asked.several(self.count, 'strip')} {lengths.text(self.height, mark='in')} high"
        gives = ", ".join(f"{cut.pieces:,} × {cut.piece.name}" + (" turned" if cut.turned else "")
                          for cut in self.cuts)
        if self.joined:
            return f"{strips}, joined end to end: {gives}"
        return f"{strips}{', each' if self.count > 1 else ''}: {gives}"


@dataclass(frozen=True)
class Plan:
    """A cutting plan: strips across the width that hold every piece once.

    `length` is inches of cloth along the selvage, `at_least` what no cutter gets under (both exact Fractions). `proved`
    says that no plan of such strips is shorter.
    """
    pieces: tuple
    usable_width: Fraction
    strips: tuple
    at_least: Fraction
    proved: bool

    @property
    def length(self):
        """Inches of cloth along the selvage that this plan takes, exactly."""
        return sum((strip.height * strip.count for strip in self.strips), Fraction(0))

    @property
    def yards(self):
        """The length as bought: yards, rounded up to the next eighth."""
        return asked.yards(self.length)

    @property
    def sentence(self):
        """The plan in one sentence."""
        said = (f"{asked.several(sum(strip.count for strip in self.strips), 'strip')} across "
                f"{lengths.text(self.usable_width, mark='in')} take {lengths.text(self.length, mark='in')} of cloth: "
                f"buy {asked.yards_text(self.length)}")
        if self.at_least == self.length:
            return said + "; no cutter needs less"
        least = lengths.ruler(self.at_least, step="1/8", rounding="down")
        return said + f"; no cutter can do with less than {lengths.text(least, mark='in')}"

    def __str__(self):
        return "\n".join([self.sentence, *("  " + strip.sentence for strip in self.strips)])


def length_needed(pieces, usable_width=asked.USABLE_WIDTH, *, join="straight", seam=asked.SEAM):
    """The cloth that pieces need, cut in strips across the width and sub-cut: a `Plan`.

    Pieces lie on the grain as given; `any_way` pieces may be turned. A strip may hold different pieces side by side, and
    lower ones in stacks. A narrow piece longer than the usable width is joined from strips across it (`join` "straight"
    or "diagonal"; `seam` in inches), or, where it may lie either way, cut along the selvage.

    >>> print(length_needed([Piece("3 1/2", "3 1/2", 40, "A"), Piece("14", "14", 3, "side")], 42))
    5 strips across 42 in take 28 in of cloth: buy 7/8 yd; no cutter needs less
      1 strip 14 in high: 3 × side (14 × 14)
      3 strips 3 1/2 in high, each: 12 × A (3 1/2 × 3 1/2)
      1 strip 3 1/2 in high: 4 × A (3 1/2 × 3 1/2)
    >>> length_needed([Piece(50, 30)], 42)
    Traceback (most recent call last):
    ValueError: a piece is no wider than the usable width, 42 in; got 50 × 30: turn it (any_way=True) if its grain may \
run the other way, piece it, or take wider cloth
    """
    pieces, width = asked.pieces(pieces), asked.usable(usable_width)
    seam = lengths.parse(seam, name="a seam", least=0)
    joints = joined(pieces, width, asked.one_of(join, ("straight", "diagonal"), "join"), seam)
    lying = ways(pieces, width)
    refuse_what_fits_no_way(pieces, width, lying, joints)
    if not pieces:
        return Plan((), width, (), Fraction(0), True)
    demand = [piece.count for piece in pieces]
    found, strips = search(lying, joints, demand, width)
    laid = _laid(pieces, found, strips)
    plan = Plan(pieces, width, laid, Fraction(0), found.proved)
    return Plan(pieces, width, laid, at_least(pieces, width, plan.length, joints), found.proved)


def _laid(pieces, found, strips):
    """The strips as they are cut: each piece once, each strip no higher than what is in it."""
    left = [piece.count for piece in pieces]
    laid = []
    for one, count, made in found.joined:
        made = min(made, left[one.piece])
        left[one.piece] -= made
        if made:
            laid.append(Strip(one.broad, one.strips(made), (Cut(pieces[one.piece], made, 1, False),), joined=True))
    for height, columns, times in sorted(found.patterns, key=_full_first):
        for _ in range(times):
            strip = _one_strip(pieces, strips, height, columns, left)
            if strip and laid and (strip.height, strip.cuts) == (laid[-1].height, laid[-1].cuts):
                laid[-1] = Strip(strip.height, laid[-1].count + 1, strip.cuts)
            elif strip:
                laid.append(strip)
    return tuple(laid)


def _full_first(pattern):
    height, columns, _ = pattern
    return -height, [-stood for stood in columns]


def _one_strip(pieces, strips, height, columns, left):
    cuts = []
    for way, each, stood in zip(strips.ways, strips.stack(height), columns):
        made = min(stood * each, left[way.piece])
        if made:
            left[way.piece] -= made
            cuts.append((way, made, min(stood, made)))
    if not cuts:
        return None
    tallest = max(way.along * -(-made // stood) for way, made, stood in cuts)
    return Strip(tallest, 1, tuple(_cut(pieces, way, made, tallest) for way, made, _ in cuts))


def _cut(pieces, way, made, height):
    return Cut(pieces[way.piece], made, -(-made // int(height // way.along)), way.turned)


Piece = asked.Piece
