"""What is asked of `yardage` for a sheet: whether strips close round the quilt or join to a length, how large a backing
comes out. Checks and tables ask it here, and so ask the same; what the pieces of each fabric take stands in `taken`."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING, Any, Literal, NamedTuple

from .. import lengths, yardage
from ..making import pieces_needed
from ..making.needs import long_strip_lengths
from ..pattern.finishing import Backing
from ..pattern.names import is_binding
from ..usual import OVER
from .checks.check import SLACK

if TYPE_CHECKING:
    from ..making import Made
    from ..making.straight import BorderStrip
    from ..pattern.cut import Cut
    from ..pattern.finishing import Lining
    from ..pattern.sheet import Sheet

    Size = tuple[float | Fraction, float | Fraction]

JOINS: tuple[Literal["straight", "diagonal"], ...] = ("straight", "diagonal")
ROUNDED = Fraction(1, 32)  # inches at each edge: a lining short by no more is not blamed; printed sizes are rounded
LARGEST = lengths.LONGEST // 8  # inches: no side of a quilt is longer


class Ring(NamedTuple):
    """Binding strips and the quilt they go round, inches: the width of their fabric and how they are joined, the way
    round the quilt, how many strips there are, how long each is, the length they give joined, and how many it takes
    (None where they cannot be joined at all). `open` strips are as many as it takes."""

    width: Fraction
    join: str
    around: Fraction
    strips: int
    each: Fraction
    have: Fraction
    enough: int | None
    open: bool = False

    @property
    def closes(self) -> Fraction:
        """The length of binding, inches, that closes round the quilt."""
        return self.around + yardage.LEAST_EXTRA

    @property
    def lacks(self) -> int:
        """How many strips too few there are; 0 where they close round the quilt."""
        if self.open:
            return 0
        return self.strips if self.enough is None else max(0, self.enough - self.strips)

    @property
    def short(self) -> bool:
        """Whether the strips do not close round the quilt; what rounding makes of its four edges is not blamed."""
        return (self.enough is None or self.lacks > 0) and self.have < self.closes - 4 * ROUNDED


class JoinedStrips(NamedTuple):
    """Strips across the fabric that are joined end to end: the width of the fabric, the length they give (inches), how
    many there are, and how many are enough."""

    width: Fraction
    have: Fraction
    strips: int
    enough: int

    @property
    def lacks(self) -> int:
        """How many strips too few there are."""
        return max(0, self.enough - self.strips)


class GivenLining(NamedTuple):
    """The size (inches) of a backing or batting that the sheet gives, how far it reaches past each edge of the finished
    quilt, how far past it the raw top does (its seam), how far it should at the least, and the width of the fabric it
    is sewn from, None where only a size is printed."""

    size: tuple[Fraction, Fraction]
    room: Fraction
    seam: Fraction
    least: Fraction
    width: Fraction | None = None

    @property
    def small(self) -> bool:
        """Whether it is smaller than the quilt top with its seams: then it cannot be quilted at all."""
        return self.room < self.seam - ROUNDED

    @property
    def scant(self) -> bool:
        """Whether it is less larger than the quilt than the least that is usual."""
        return self.room < self.least - ROUNDED


def ring(sheet: Sheet, quilt: Size, join: str | None = None) -> Ring:
    """The binding of a sheet round a quilt of this finished size, inches; joined as is printed, or on the diagonal."""
    binding = sheet.binding
    assert binding is not None
    cut = "bias strips" if binding.style == "bias" else "straight"
    join = join or binding.join or "diagonal"
    how: dict[str, Any] = {"join": join, "seam": sheet.sewing_seam, "cut": cut}
    part = sheet.part(binding.part) if binding.part is not None else None
    own = part.length if part is not None else None  # strips along the selvage are as long as they are cut
    width, around = own or sheet.usable_width(binding.fabric), 2 * sum(_askable(quilt), Fraction(0))
    known = width, join, around, binding.count, yardage.strip_length(width, cut)
    if binding.length is not None:
        return Ring(*known, binding.length, None)
    try:
        have = yardage.binding_length(binding.count, binding.strip, width, **how)
        enough = yardage.binding_strips(around, binding.strip, width, extra=yardage.LEAST_EXTRA, **how)
    except yardage.DoesNotFit:
        return Ring(*known, Fraction(0), None)
    return Ring(*known, have, enough, binding.open)


def rings(sheet: Sheet, quilt: Size) -> list[Ring]:
    """The binding round a quilt for each usable width its fabric may have, the narrowest first, and for each way its
    strips may be joined: one where both are printed."""
    binding = sheet.binding
    assert binding is not None
    joins = JOINS if binding.join is None else (binding.join,)
    return [ring(one, quilt, join) for one in sheet.at_each_width(binding.fabric) for join in joins]


def joined(sheet: Sheet, cut: Cut, needed: list[float], beside: int = 0) -> JoinedStrips | None:
    """The strips of one line of the cutting list joined to all these lengths, inches, which give as much as disappears
    in sewing, `beside` of them kept for something else; None where they are too short to be joined. Where each length
    is cut from one strip, none is joined.

    Borders and sashing are joined with straight seams, which take least: what is joined on the diagonal says so (common
    practice).
    """
    long, broad = sheet.cut_size(cut)
    asked = lengths.parse(min(max(sum(needed) - SLACK, 0), lengths.LONGEST))
    try:
        lost = yardage.lost_in_join(broad, "straight", sheet.sewing_seam)
        have = yardage.joined_length(max(0, cut.count - beside), long, lost)
        enough = min(yardage.strips_to_join(asked, long, lost), _unjoined(needed, float(long))) + beside
    except yardage.DoesNotFit:
        return None
    return JoinedStrips(long, have, enough if cut.open else cut.count, enough)


def _unjoined(needed, long):
    """How many strips so long these lengths (inches) take that are each cut from one, the longest first; more than any
    sheet has where one is longer."""
    rest: list[float] = []
    for one in sorted(needed, reverse=True):
        if one > long + SLACK:
            return int(lengths.LONGEST)
        place = next((place for place, left in enumerate(rest) if one <= left + SLACK), len(rest))
        if place == len(rest):
            rest.append(long)
        rest[place] -= one
    return len(rest)


def strips_for_binding(made: Made, sheet: Sheet, cut: Cut) -> int:
    """How many strips of one line of the cutting list the binding takes, where that line serves it and borders or
    sashing too; 0 for other lines."""
    binding, size = sheet.binding, made.finished
    if binding is None or binding.part != cut.part or size is None or not serves_twice(sheet):
        return 0
    around = ring(sheet, size).around
    how: dict[str, Any] = {"join": binding.join or "straight", "seam": sheet.sewing_seam}
    try:
        return yardage.binding_strips(around, binding.strip, sheet.cut_size(cut)[0], extra=yardage.LEAST_EXTRA, **how)
    except yardage.DoesNotFit:
        return 0


def serves_twice(sheet: Sheet) -> bool:
    """Whether the strips of the binding are cut by a line that serves something else too."""
    binding = sheet.binding
    cut = None if binding is None or binding.part is None else sheet.part(binding.part)
    return cut is not None and not is_binding(sheet, cut)


def strips_taken(made: Made, sheet: Sheet, cut: Cut) -> int:
    """How many strips of one line of the cutting list the quilt takes: for its strip sets, or joined for borders and
    sashing, and for the binding."""
    beside = strips_for_binding(made, sheet, cut)
    strips = [strip for strip in made.border_strips if strip.part == cut.part] if made.top is not None else []
    needed = [*border_edges(strips), *long_strip_lengths(made).get(cut.part, ())]
    together = joined(sheet, cut, needed, beside) if needed else None
    return max(pieces_needed(sheet)[cut.part], together.enough if together is not None else beside)


def border_edges(strips: list[BorderStrip]) -> list[float]:
    """The raw length of each single strip of these pairs of border strips, inches."""
    return [strip.length for strip in strips for _ in strip.edges]


def lining_needed(quilt: Size, units: str = "in") -> tuple[Fraction, Fraction]:
    """The size, inches, that backing and batting of a quilt of this finished size have at least, in a sheet of these
    units."""
    width, height = _askable(quilt)
    return yardage.least_size(width, height, OVER[units][0])


def linings(sheet: Sheet, lining: Lining, quilt: Size) -> list[GivenLining]:
    """The backing or batting of a sheet, for each usable width its fabric may have, the narrowest first: the printed
    size, or what the bought length gives, or of both the one that is smaller; none where the sheet tells neither."""
    inside = (_askable(quilt)[0], _askable(quilt)[1])

    def given(one):
        bought = None if lining.bought is None else lining_bought(one, lining, quilt)
        sizes = [size for size in (lining.size, bought) if size is not None]
        size = min(sizes, key=lambda size: yardage.room_round(size, inside))
        width = None if bought is None else lining_width(one, lining)
        return GivenLining(size, yardage.room_round(size, inside), sheet.sewing_seam, OVER[sheet.units][0] / 2, width)

    if lining.size is None and lining.bought is None:
        return []
    widths_open = lining.bought is not None and lining.usable_width is None
    return [given(one) for one in (sheet.at_each_width(lining.fabric or "") if widths_open else (sheet,))]


def outgrown(sheet: Sheet, planned_for: Size, quilt: Size) -> list[str]:
    """Which of backing, batting and binding do for a quilt of one size (inches) and not for one of another."""
    found = []
    for thing, lining in (("backing", sheet.backing), ("batting", sheet.batting)):
        if lining is not None:
            small = [all(one.small for one in linings(sheet, lining, size)) for size in (planned_for, quilt)]
            found += [thing] if small == [False, True] else []
    if sheet.binding is not None and not serves_twice(sheet):
        short = [all(one.short for one in rings(sheet, size)) for size in (planned_for, quilt)]
        found += ["binding"] if short == [False, True] else []
    return found


def lining_width(sheet: Sheet, lining: Lining) -> Fraction:
    """The usable width of the fabric of a backing, or the width of the roll of a batting, inches."""
    return lining.usable_width or sheet.usable_width(lining.fabric or "")


def lining_bought(sheet: Sheet, lining: Lining, quilt: Size) -> tuple[Fraction, Fraction]:
    """The size, inches, that the bought length of a backing gives in its panels or in as many as leave most room round
    the quilt; a batting is one piece off its roll."""
    width, seam, bought = lining_width(sheet, lining), sheet.sewing_seam, lining.bought
    assert bought is not None
    if not isinstance(lining, Backing):
        return width, bought
    try:
        wide, high = _askable(quilt)
        panels = lining.panels or yardage.best_panels(bought, wide, high, width, seam=seam)
        return yardage.backing_size(bought, panels, width, seam=seam)
    except yardage.DoesNotFit:
        return width, bought  # too narrow for a seam on either side: it is never more than one panel


def backing_to_buy(sheet: Sheet, lining: Lining, quilt: Size) -> tuple[int, Fraction] | None:
    """Into how many panels, and of how much fabric (inches), a backing is best sewn that is as large as it has to be;
    None where its fabric is too narrow for that. Of a width that is not printed the narrowest usual one is taken."""
    wide, high = _askable(quilt)
    try:
        best = yardage.backing(wide, high, OVER[sheet.units][0], lining_width(sheet, lining), seam=sheet.sewing_seam)
    except yardage.DoesNotFit:
        return None
    return best.panels, best.length


def _askable(quilt: Size) -> list[Fraction]:
    """The sides of a quilt as `yardage` takes them: of cloth sewn to nothing, or to miles, as near to it as it can be
    asked."""
    return [lengths.parse(min(max(side, lengths.HAIR), LARGEST)) for side in quilt]
