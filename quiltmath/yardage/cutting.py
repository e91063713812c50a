"""How much fabric the pieces need: a plan of strips across the width, sub-cut, and a length no cutter gets under."""

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from math import gcd

from .. import lengths
from . import arguments
from .arguments import Length, Piece
from .bounds import by_counting, by_programmes
from .constants import FAT_QUARTER, SEAM, USABLE_WIDTH
from .lying import joined, refuse_what_fits_no_way, ways
from .patterns import Strips
from .plan import CrosswiseStrip, CuttingPlan, SubCut
from .searching import improved, start


def length_needed(
    pieces: Iterable[Piece | tuple] | Piece,
    usable_width: Length = USABLE_WIDTH,
    *,
    join: str = "straight",
    seam: Length = SEAM,
    bought: Length | None = None,
    thorough: bool = True,
) -> CuttingPlan:
    """The fabric that pieces need, cut in strips across the width and sub-cut: a `CuttingPlan`.

    Pieces lie on the grain as given; `any_way` pieces may be turned. A strip may hold different pieces side by side,
    and lower ones in stacks. A narrow piece longer than the usable width is joined from strips across it (`join`
    "straight" or "diagonal"; `seam` in inches), or, where it may lie either way, cut along the selvage.

    With `bought`, a length at hand, nothing more is looked for once it is known whether that will do: it does where
    `length` is no more than it, and never will where `at_least` is more. Ask without it for the length to buy. Not
    `thorough`, it is planned by the cutter's rule alone, and bounded by counting: quick however many pieces differ.

    >>> print(length_needed([Piece("3 1/2", "3 1/2", 40, "A"), Piece("14", "14", 3, "side")], 42))
    5 strips across 42 in take 28 in of fabric: buy 7/8 yd; no cutter needs less
      1 strip 14 in high: 3 × side (14 × 14)
      3 strips 3 1/2 in high, each: 12 × A (3 1/2 × 3 1/2)
      1 strip 3 1/2 in high: 4 × A (3 1/2 × 3 1/2)
    >>> print(length_needed([Piece(60, 3, 4, "border")], 42))
    6 strips across 42 in take 18 in of fabric: buy 1/2 yd; no cutter needs less
      6 strips 3 in high, joined end to end: 4 × border (60 × 3)
    >>> length_needed([Piece(50, 30)], 42)
    Traceback (most recent call last):
    quiltmath.yardage.arguments.DoesNotFit: a piece is no wider than the usable width, 42 in; got 50 × 30: turn it if \
its grain may run the other way, join it from narrower pieces, or take wider fabric
    """
    listed, width = arguments.pieces(pieces), arguments.usable(usable_width)
    seam = lengths.parse(seam, name="a seam", least=0)
    joints = joined(listed, width, arguments.one_of(join, ("straight", "diagonal"), "join"), seam)
    have = None if bought is None else lengths.parse(bought, name="the length bought", least=0)
    return _planned(listed, width, joints, have, thorough)


@lru_cache(maxsize=256)  # most changes to a sheet leave its fabric alone, and its correction and its handout ask again
def _planned(pieces, width, joints=(), bought=None, thorough=True):
    """The plan of read pieces: tallest first and counting, and HiGHS only where these two leave a gap that matters."""
    lying = ways(pieces, width)
    refuse_what_fits_no_way(pieces, width, lying, joints)
    if not pieces:
        return CuttingPlan((), width, (), Fraction(0), True)
    strips = Strips(lying, [piece.count for piece in pieces], width)
    found = start(strips, joints)
    enough = found.length
    least = by_counting(pieces, width, enough, joints, bought)
    if thorough and not _settled(least, enough, bought):
        least = by_programmes(pieces, width, enough, joints, least)
        if not _settled(least, enough, bought):
            found = improved(strips, joints, found, least, bought)
    return CuttingPlan(pieces, width, _laid(pieces, found, strips), least, found.proved or found.length <= least)


def _settled(least, enough, bought):
    """Whether nothing is left to look for between a length none gets under and one that will do."""
    return least >= enough or bought is not None and not least <= bought < enough


def _laid(pieces, found, strips):
    """The strips as they are cut, the tallest first and those to be joined last: each piece once, each strip no higher
    than what is in it."""
    left = [piece.count for piece in pieces]
    laid, joined = [], []
    for one, _, made in found.joined:
        left[one.piece] -= made
        cut = SubCut(pieces[one.piece], made, 1, one.broad != pieces[one.piece].height)
        joined.append(CrosswiseStrip(one.broad, one.strips(made), (cut,), joined=True))
    for height, columns, times in sorted((_layers(strips, *pattern) for pattern in found.patterns), key=_full_first):
        for _ in range(times):
            strip = _one_strip(pieces, strips, height, columns, left)
            if strip and laid and (strip.height, strip.cuts) == (laid[-1].height, laid[-1].cuts):
                laid[-1] = CrosswiseStrip(strip.height, laid[-1].count + 1, strip.cuts)
            elif strip:
                laid.append(strip)
    return (*laid, *joined)


def _layers(strips, height, columns, times):
    """The same strip in thinner ones, where its columns all divide alike."""
    layers = gcd(*(each for each, stood in zip(strips.stack(height), columns) if stood))
    return height / layers, columns, times * layers


def _full_first(pattern):
    height, columns, _ = pattern
    return -height, [-stood for stood in columns]


def _one_strip(pieces, strips, height, columns, left):
    cuts = []
    for way, each, stood in zip(strips.ways, strips.stack(height), columns):
        made = min(stood * each, left[way.piece]) if stood else 0
        if made:
            left[way.piece] -= made
            cuts.append((way, made, min(stood, made)))
    if not cuts:
        return None
    tallest = max(way.along * -(-made // stood) for way, made, stood in cuts)
    return CrosswiseStrip(
        tallest,
        1,
        tuple(
            SubCut(pieces[way.piece], made, -(-made // int(tallest // way.along)), way.turned) for way, made, _ in cuts
        ),
    )


@dataclass(frozen=True)
class Sufficiency:
    """Whether a piece of fabric holds the pieces: "yes" (`plan` shows how), "no" (proved), "perhaps" (no plan found).

    `along_the_selvage` says that the plan's strips run along the fabric, so that its widths lie along and its heights
    across.
    """

    answer: str
    plan: CuttingPlan | None
    sentence: str
    along_the_selvage: bool = False

    def __bool__(self) -> bool:
        return self.answer == "yes"


def holds(
    pieces: Iterable[Piece | tuple] | Piece, width: Length = FAT_QUARTER[0], length: Length = FAT_QUARTER[1]
) -> Sufficiency:
    """Whether a piece of fabric, `width` across and `length` along the selvage, holds the pieces: a `Sufficiency`.

    A fat quarter unless sizes are given. Strips are tried across it and along it; nothing is joined to length.

    >>> holds([Piece("4 7/8", "4 7/8", 12)], width=22).answer, holds([Piece("4 7/8", "4 7/8", 13)], width=22).answer
    ('yes', 'no')
    >>> print(holds([Piece(10, 10, 3)]).sentence)
    21 × 18 in does not hold them: fabric 21 in wide would have to be at least 20 in long
    """
    listed = arguments.pieces(pieces)
    across, along = arguments.usable(width), lengths.parse(length, name="the length of fabric", above=0)
    size = f"{lengths.text(across)} × {lengths.text(along, mark='in')}"
    for one in listed:
        if not (
            _goes_in(one.width, one.height, across, along)
            or one.any_way
            and _goes_in(one.height, one.width, across, along)
        ):
            return Sufficiency("no", None, f"{size} does not hold {one.name}: it is larger than the fabric")
    plan = _planned(listed, across, bought=along)
    if plan.length <= along:
        return Sufficiency("yes", plan, f"{size} holds them: {plan.sentence}")
    turned = tuple(Piece(one.height, one.width, one.count, one.part, one.any_way) for one in listed)
    sideways = _planned(turned, along, bought=across)
    if sideways.length <= across:
        return Sufficiency("yes", sideways, f"{size} holds them, in strips along the selvage", along_the_selvage=True)
    for tried, room, wide, long in ((plan, along, "wide", "long"), (sideways, across, "long", "wide")):
        if tried.at_least > room:
            return Sufficiency(
                "no",
                None,
                f"{size} does not hold them: fabric {lengths.text(tried.usable_width, mark='in')} "
                f"{wide} would have to be at least {lengths.text(tried.least_on_ruler, mark='in')} "
                f"{long}",
            )
    return Sufficiency(
        "perhaps", None, f"{size} may just hold them: no plan of strips does, and nothing shows that none can"
    )


def _goes_in(width, height, across, along):
    return width <= across and height <= along
