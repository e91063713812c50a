"""What is asked of `yardage` for a sheet: what the pieces of each fabric take, whether strips close round the quilt or
join to a length, how large a backing comes out. Checks and tables ask it here, and so ask the same."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING, Any, NamedTuple

from .. import lengths, yardage
from ..pattern.names import is_binding
from .checks.check import SLACK

if TYPE_CHECKING:
    from ..making import Made
    from ..pattern.parts import Cut
    from ..pattern.sheet import Lining, Sheet

    Size = tuple[float | Fraction, float | Fraction]

MOST_TO_PLAN = 20_000  # pieces of one fabric: more are compared by area alone
LARGEST = lengths.LONGEST // 8  # inches: no side of a quilt is longer


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


class Ring(NamedTuple):
    """Binding strips and the quilt they go round, inches: the way round it, how many strips there are, how long each
    is, the length they give joined, and how many it takes (None where they cannot be joined at all)."""

    around: Fraction
    strips: int
    each: Fraction
    have: Fraction
    enough: int | None

    @property
    def short(self) -> bool:
        """Whether the strips do not close round the quilt."""
        return self.enough is None or self.strips < self.enough


class JoinedStrips(NamedTuple):
    """Strips across the fabric that are joined end to end: the length they give (inches), and how many are enough."""

    have: Fraction
    enough: int


def pieces_of(sheet: Sheet, name: str) -> tuple[yardage.Piece, ...]:
    """All that is cut from one fabric."""
    printed, pieces = sheet.fabric.get(name), []
    any_way = printed is None or not printed.directional
    for cut in sheet.cut:
        if cut.fabric == name:
            width, height = sheet.cut_size(cut)
            pieces.append(yardage.Piece(width, height, cut.count, cut.part, any_way=any_way))
    binding = sheet.binding
    if (
        binding is not None
        and binding.fabric == name
        and binding.style == "straight"
        and not any(is_binding(sheet, cut) for cut in sheet.cut)
    ):
        pieces.append(yardage.Piece(sheet.usable_width(name), binding.strip, binding.count, "binding"))
    return tuple(pieces)


def planned(pieces: tuple[yardage.Piece, ...], width: Fraction, bought: Fraction | None = None) -> FabricPlan:
    """What these pieces take of a fabric of this usable width, in inches; with `bought`, no more than tells whether
    that will do.

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
        plan = yardage.length_needed(list(pieces), usable_width=width, bought=bought)
    except yardage.DoesNotFit as refused:
        return FabricPlan(pieces, refused=str(refused))
    return FabricPlan(pieces, plan.length, plan.at_least, whole=bought is None, laid=plan)


def ring(sheet: Sheet, quilt: Size) -> Ring:
    """The binding of a sheet round a quilt of this finished size, inches."""
    binding = sheet.binding
    assert binding is not None
    cut = "bias strips" if binding.style == "bias" else "straight"
    how: dict[str, Any] = {"join": binding.join, "seam": sheet.sewing_seam, "cut": cut}
    width, around = sheet.usable_width(binding.fabric), 2 * sum(_askable(quilt), Fraction(0))
    long = yardage.strip_length(width, cut)
    try:
        have = yardage.binding_length(binding.count, binding.strip, width, **how)
        enough = yardage.binding_strips(around, binding.strip, width, extra=yardage.LEAST_EXTRA, **how)
    except yardage.DoesNotFit:
        return Ring(around, binding.count, long, Fraction(0), None)
    return Ring(around, binding.count, long, have, enough)


def joined(made: Made, cut: Cut, needed: float) -> JoinedStrips | None:
    """The strips of one line of the cutting list joined to a length, inches, which gives as much as disappears in
    sewing; None where they are too short to be joined."""
    long, broad = made.sheet.cut_size(cut)
    asked = lengths.parse(min(max(needed - SLACK, 0), lengths.LONGEST))
    try:
        lost = yardage.lost_in_join(broad, "straight", made.sheet.sewing_seam)
        return JoinedStrips(yardage.joined_length(cut.count, long, lost), yardage.strips_to_join(asked, long, lost))
    except yardage.DoesNotFit:
        return None


def lining_needed(quilt: Size) -> tuple[Fraction, Fraction]:
    """The size, inches, that backing and batting of a quilt of this finished size have at least."""
    return yardage.least_size(*_askable(quilt))


def backing_given(sheet: Sheet, lining: Lining, quilt: Size) -> tuple[Fraction, Fraction] | None:
    """The size of a backing, inches: the printed one, or what the bought length gives in its panels or in as many as
    leave most room round the quilt; None where the sheet tells neither."""
    if lining.size is not None or lining.bought is None:
        return lining.size
    width, seam = lining.usable_width or sheet.usable_width(lining.fabric or ""), sheet.sewing_seam
    try:
        wide, high = _askable(quilt)
        panels = lining.panels or yardage.best_panels(lining.bought, wide, high, width, seam=seam)
        return yardage.backing_size(lining.bought, panels, width, seam=seam)
    except yardage.DoesNotFit:
        return width, lining.bought  # too narrow for a seam on either side: it is never more than one panel


def _askable(quilt: Size) -> list[Fraction]:
    """The sides of a quilt as `yardage` takes them: of cloth sewn to nothing, or to miles, as near to it as it can be
    asked."""
    return [lengths.parse(min(max(side, lengths.HAIR), LARGEST)) for side in quilt]
