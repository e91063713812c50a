"""What is asked of `yardage` for a sheet: what the pieces of each fabric take, whether strips close round the quilt or
join to a length, how large a backing comes out. Checks and tables ask it here, and so ask the same."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING, Any, Literal, NamedTuple

from .. import lengths, yardage
from ..pattern.names import is_binding
from ..pattern.sheet import Backing
from .checks.check import SLACK

if TYPE_CHECKING:
    from ..pattern.parts import Cut
    from ..pattern.sheet import Lining, Sheet

    Size = tuple[float | Fraction, float | Fraction]

JOINS: tuple[Literal["straight", "diagonal"], ...] = ("straight", "diagonal")
MOST_TO_PLAN = 20_000  # pieces of one fabric: more are compared by area alone
MOST_ON_THE_BIAS = 200  # strips on the bias: more are compared by area alone
ROUNDED = Fraction(1, 32)  # inches at each edge: a lining short by no more is not blamed; printed sizes are rounded
MOST_TO_SEARCH = 40  # lines of a cutting list: a longer one is planned by the cutter's rule and counting alone
LARGEST = lengths.LONGEST // 8  # inches: no side of a quilt is longer


class OnTheBias(NamedTuple):
    """Binding strips on the bias, cut from one piece across the whole fabric: the length (inches along the selvage) of
    that piece, and the length that the strips cover by area alone."""

    piece: yardage.Piece
    by_area: Fraction


class FabricPlan(NamedTuple):
    """What pieces take of one fabric: a length (inches) that will do and one that never will, or else `refused`, why no
    length does. By area alone where they are too `many` to plan; no pieces take nothing. `whole` says that the shortest
    length was looked for, and not only whether the bought one will do; `laid` is the plan of that length."""

    pieces: tuple[yardage.Piece, ...]
    length: Fraction = Fraction(0)
    at_least: Fraction = Fraction(0)
    refused: str = ""
    whole: bool = True
    laid: yardage.CuttingPlan | None = None

    @property
    def many(self) -> bool:
        """Whether there are more pieces than are planned."""
        return sum(piece.count for piece in self.pieces) > MOST_TO_PLAN

    def answers(self, bought: Fraction | None) -> bool:
        """Whether it tells if this length will do or, of None, the shortest length to be found."""
        known = self.whole or self.length <= self.at_least
        return known or bought is not None and not self.at_least <= bought < self.length

    def beside(self, earlier: FabricPlan) -> FabricPlan:
        """All that this plan and an earlier one of the same pieces tell."""
        shorter = min(self, earlier, key=lambda plan: plan.length)
        return self._replace(length=shorter.length, at_least=max(self.at_least, earlier.at_least), laid=shorter.laid)

    def with_bias(self, strips: OnTheBias) -> FabricPlan:
        """The plan of the same pieces and binding strips on the bias, which are cut first, from a piece of their own.

        Other pieces may lie in what is left at its corners, so no more than the area of all is certain to be taken.
        """
        area = sum((piece.area for piece in self.pieces), Fraction(0)) / strips.piece.width
        return self._replace(
            pieces=(*self.pieces, strips.piece),
            length=self.length + strips.piece.height,
            at_least=max(self.at_least, area + strips.by_area),
        )

    def does(self, bought: Fraction) -> bool:
        """Whether so much fabric (inches) will do."""
        return not self.refused and bought >= self.length


class Ring(NamedTuple):
    """Binding strips and the quilt they go round, inches: the width of their fabric and how they are joined, the way
    round the quilt, how many strips there are, how long each is, the length they give joined, and how many it takes
    (None where they cannot be joined at all)."""

    width: Fraction
    join: str
    around: Fraction
    strips: int
    each: Fraction
    have: Fraction
    enough: int | None

    @property
    def lacks(self) -> int:
        """How many strips too few there are; 0 where they close round the quilt."""
        return self.strips if self.enough is None else max(0, self.enough - self.strips)

    @property
    def short(self) -> bool:
        """Whether the strips do not close round the quilt."""
        return self.enough is None or self.lacks > 0


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
    quilt, how far past it the raw top does (its seam), and the width of the fabric it is sewn from, None where only a
    size is printed."""

    size: tuple[Fraction, Fraction]
    room: Fraction
    seam: Fraction
    width: Fraction | None = None

    @property
    def small(self) -> bool:
        """Whether it is smaller than the quilt top with its seams: then it cannot be quilted at all."""
        return self.room < self.seam - ROUNDED

    @property
    def scant(self) -> bool:
        """Whether it is less larger than the quilt than the least that is usual."""
        return self.room < yardage.LEAST_OVER / 2 - ROUNDED


def pieces_of(sheet: Sheet, name: str) -> tuple[yardage.Piece, ...]:
    """All that is cut from one fabric on its straight grain."""
    printed, pieces = sheet.fabric.get(name), []
    any_way = printed is None or not printed.directional
    for cut in sheet.cut:
        if cut.fabric == name:
            width, height = sheet.cut_size(cut)
            pieces.append(yardage.Piece(width, height, cut.count, cut.part, any_way=any_way))
    binding = _binding_from(sheet, name)
    if binding is not None and binding.style == "straight":
        pieces.append(yardage.Piece(sheet.usable_width(name), binding.strip, binding.count, "binding"))
    return tuple(pieces)


def on_the_bias(sheet: Sheet, name: str) -> OnTheBias | None:
    """The binding strips that are cut from one fabric on the bias, each as long as its width allows; None where there
    are none, or they cannot be joined."""
    binding = _binding_from(sheet, name)
    if binding is None or binding.style != "bias":
        return None
    width, seam = sheet.usable_width(name), sheet.sewing_seam
    try:
        lost = yardage.lost_in_join(binding.strip, "along the grain", seam)
        each = yardage.strip_length(width, "bias strips")
        reach = yardage.joined_length(binding.count, each, lost, ring=True)
        by_area = binding.count * binding.strip * each / width
        many = binding.count > MOST_ON_THE_BIAS
        piece = by_area if many else yardage.bias_fabric(reach, binding.strip, width, seam=seam)
    except yardage.DoesNotFit:
        return None
    return OnTheBias(yardage.Piece(width, max(piece, by_area), 1, "bias binding"), by_area)


def _binding_from(sheet, name):
    """The binding, where it is cut from this fabric and no line of the cutting list cuts it."""
    listed = sheet.binding is not None and any(is_binding(sheet, cut) for cut in sheet.cut)
    return sheet.binding if sheet.binding is not None and sheet.binding.fabric == name and not listed else None


def planned(
    pieces: tuple[yardage.Piece, ...], width: Fraction, bought: Fraction | None = None, thorough: bool = True
) -> FabricPlan:
    """What these pieces take of a fabric of this usable width, in inches; with `bought`, no more than tells whether
    that will do. Not `thorough`, no shorter length is searched for than the cutter's rule gives.

    >>> planned((yardage.Piece(10, 10, 8),), 42).length, planned((yardage.Piece(50, 50),), 42).refused[:7]
    (Fraction(20, 1), 'a piece')
    """
    found = FabricPlan(pieces)
    if not pieces:
        return found
    if found.many:
        area = sum((piece.area for piece in pieces), Fraction(0)) / width
        return FabricPlan(pieces, area, area)
    try:
        plan = yardage.length_needed(list(pieces), usable_width=width, bought=bought, thorough=thorough)
    except yardage.DoesNotFit as refused:
        return FabricPlan(pieces, refused=str(refused))
    return FabricPlan(pieces, plan.length, plan.at_least, whole=bought is None or not thorough, laid=plan)


def ring(sheet: Sheet, quilt: Size, join: str | None = None) -> Ring:
    """The binding of a sheet round a quilt of this finished size, inches; joined as is printed, or on the diagonal."""
    binding = sheet.binding
    assert binding is not None
    cut = "bias strips" if binding.style == "bias" else "straight"
    join = join or binding.join or "diagonal"
    how: dict[str, Any] = {"join": join, "seam": sheet.sewing_seam, "cut": cut}
    width, around = sheet.usable_width(binding.fabric), 2 * sum(_askable(quilt), Fraction(0))
    known = width, join, around, binding.count, yardage.strip_length(width, cut)
    try:
        have = yardage.binding_length(binding.count, binding.strip, width, **how)
        enough = yardage.binding_strips(around, binding.strip, width, extra=yardage.LEAST_EXTRA, **how)
    except yardage.DoesNotFit:
        return Ring(*known, Fraction(0), None)
    return Ring(*known, have, enough)


def rings(sheet: Sheet, quilt: Size) -> list[Ring]:
    """The binding round a quilt for each usable width its fabric may have, the narrowest first, and for each way its
    strips may be joined: one where both are printed."""
    binding = sheet.binding
    assert binding is not None
    joins = JOINS if binding.join is None else (binding.join,)
    return [ring(one, quilt, join) for one in sheet.at_each_width(binding.fabric) for join in joins]


def joined(sheet: Sheet, cut: Cut, needed: float) -> JoinedStrips | None:
    """The strips of one line of the cutting list joined to a length, inches, which gives as much as disappears in
    sewing; None where they are too short to be joined. Borders and sashing are joined with straight seams, which take
    least: what is joined on the diagonal says so (common practice)."""
    long, broad = sheet.cut_size(cut)
    asked = lengths.parse(min(max(needed - SLACK, 0), lengths.LONGEST))
    try:
        lost = yardage.lost_in_join(broad, "straight", sheet.sewing_seam)
        have, enough = yardage.joined_length(cut.count, long, lost), yardage.strips_to_join(asked, long, lost)
    except yardage.DoesNotFit:
        return None
    return JoinedStrips(long, have, cut.count, enough)


def lining_needed(quilt: Size) -> tuple[Fraction, Fraction]:
    """The size, inches, that backing and batting of a quilt of this finished size have at least."""
    return yardage.least_size(*_askable(quilt))


def linings(sheet: Sheet, lining: Lining, quilt: Size) -> list[GivenLining]:
    """The backing or batting of a sheet, for each usable width its fabric may have, the narrowest first: the printed
    size, or what the bought length gives, or of both the one that is smaller; none where the sheet tells neither."""
    inside = (_askable(quilt)[0], _askable(quilt)[1])

    def given(one):
        bought = None if lining.bought is None else lining_bought(one, lining, quilt)
        sizes = [size for size in (lining.size, bought) if size is not None]
        size = min(sizes, key=lambda size: yardage.room_round(size, inside))
        width = None if bought is None else lining_width(one, lining)
        return GivenLining(size, yardage.room_round(size, inside), sheet.sewing_seam, width)

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
    if sheet.binding is not None:
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
        best = yardage.backing(wide, high, yardage.LEAST_OVER, lining_width(sheet, lining), seam=sheet.sewing_seam)
    except yardage.DoesNotFit:
        return None
    return best.panels, best.length


def _askable(quilt: Size) -> list[Fraction]:
    """The sides of a quilt as `yardage` takes them: of cloth sewn to nothing, or to miles, as near to it as it can be
    asked."""
    return [lengths.parse(min(max(side, lengths.HAIR), LARGEST)) for side in quilt]
