"""What is cut from each fabric of a sheet, and what that takes of it: of a length, or of pieces of a size."""

from __future__ import annotations

from fractions import Fraction
from math import ceil
from typing import TYPE_CHECKING, NamedTuple, cast

from .. import lengths, yardage
from ..making.shaped import piece_area, strips_for
from ..pattern.names import is_binding
from .cloth import ring, strips_taken

if TYPE_CHECKING:
    from ..making import Made
    from ..pattern.sheet import Sheet

MOST_TO_PLAN = 20_000  # pieces of one fabric: more are compared by area alone
MOST_ON_THE_BIAS = 200  # strips on the bias: more are compared by area alone
FINE = "1/16"  # inches: to so much of a strip the shapes that are cut from it are counted
MOST_PIECES_OF_FABRIC = 400  # fat quarters, precut squares: more are compared by area alone
MOST_TO_SEARCH = 40  # lines of a cutting list: a longer one is planned by the cutter's rule and counting alone


class OnTheBias(NamedTuple):
    """Binding strips on the bias, cut from one piece across the whole fabric: the length (inches along the selvage) of
    that piece, and the length that the strips cover by area alone."""

    piece: yardage.Piece
    by_area: Fraction


class PiecesTaken(NamedTuple):
    """What is cut from fabric bought in pieces of a size takes of them, of each print where there are several: a number
    that will do and one that never will, or else `refused`, why none does. By area alone where there are too `many`
    to plan; `laid` is the plan of that number, on one print."""

    pieces: tuple[yardage.Piece, ...]
    enough: int = 0
    at_least: int = 0
    refused: str = ""
    laid: yardage.PiecesPlan | None = None

    @property
    def many(self) -> bool:
        """Whether there are more pieces than are planned."""
        return bool(self.pieces) and not self.refused and self.laid is None

    def does(self, have: int) -> bool:
        """Whether so many pieces of fabric will do."""
        return not self.refused and have >= self.enough


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


def pieces_of(made: Made, sheet: Sheet, name: str) -> tuple[yardage.Piece, ...]:
    """All that is cut from one fabric on its straight grain; of several prints, from each of them."""
    prints = sheet.prints(name)
    pieces = [piece for cut in sheet.cut if cut.fabric == name for piece in _pieces(made, sheet, cut, prints)]
    binding = _binding_from(sheet, name)
    if binding is not None and binding.style == "straight":
        count = -(-(binding.count or binding_strips(made, sheet)) // prints)
        pieces += [yardage.Piece(sheet.usable_width(name), binding.strip, count, "binding")] if count else []
    return tuple(pieces)


def _pieces(made, sheet, cut, prints):
    """What one line of the cutting list cuts from each print; nothing, or of shapes the strips that they fill and the
    beginning of one more."""
    width, height = sheet.cut_size(cut)
    count = strips_taken(made, sheet, cut) if cut.open else cut.count
    each = cut.per_print or -(-count // prints)
    if not each:
        return []
    if cut.shape is not None:
        strips = strips_for(sheet, cut, each)
        return [yardage.Piece(lengths.ruler(long, FINE, "up"), height, many, cut.part) for long, many in strips]
    if cut.lengthwise:
        return [yardage.Piece(*sorted((width, height)), each, cut.part)]
    printed = sheet.fabric.get(cut.fabric)
    return [yardage.Piece(width, height, each, cut.part, any_way=printed is None or not printed.directional)]


def area_with_shapes(made: Made, sheet: Sheet, name: str) -> Fraction | None:
    """The square inches of all that is cut from each print of a fabric, where shapes are among it; else None.

    No more is certain to be taken: shapes may lie otherwise than in the strips that they are planned in.
    """
    shapes = {cut.part: cut for cut in sheet.cut if cut.fabric == name and cut.shape is not None}
    if not shapes:
        return None
    whole = _area([piece for piece in pieces_of(made, sheet, name) if piece.part not in shapes])
    counts = {part: cut.per_print or cut.count // sheet.prints(name) for part, cut in shapes.items()}
    return whole + sum((counts[part] * Fraction(piece_area(sheet, cut)) for part, cut in shapes.items()), Fraction(0))


def binding_strips(made: Made, sheet: Sheet) -> int:
    """How many strips give the whole length of the binding that is printed, or close round the
    quilt; 0 where there is no saying."""
    binding, size = sheet.binding, made.finished
    if binding is None or binding.length is None and size is None:
        return 0
    length = binding.length or ring(sheet, cast("tuple[float, float]", size)).closes
    bias = binding.style == "bias"
    join = "along the grain" if bias else binding.join or "straight"
    try:
        lost = yardage.lost_in_join(binding.strip, join, sheet.sewing_seam)
        each = yardage.strip_length(sheet.usable_width(binding.fabric), "bias strips" if bias else "straight")
        return yardage.strips_to_join(length, each, lost)
    except yardage.DoesNotFit:
        return 0


def shared_at_will(sheet: Sheet, name: str) -> bool:
    """Whether several prints are cut together, in counts that nobody says how to share among them."""
    return sheet.prints(name) > 1 and any(cut.fabric == name and cut.per_print is None for cut in sheet.cut)


def on_the_bias(made: Made, sheet: Sheet, name: str) -> OnTheBias | None:
    """The binding strips that are cut from one fabric on the bias, each as long as its width allows; None where there
    are none, or they cannot be joined."""
    binding = _binding_from(sheet, name)
    if binding is None or binding.style != "bias":
        return None
    width, seam = sheet.usable_width(name), sheet.sewing_seam
    try:
        lost = yardage.lost_in_join(binding.strip, "along the grain", seam)
        each = yardage.strip_length(width, "bias strips")
        if binding.count:
            reach = yardage.joined_length(binding.count, each, lost, ring=True)
        else:
            reach = binding.length or (Fraction(0) if made.finished is None else ring(sheet, made.finished).closes)
        count = binding.count or yardage.strips_to_join(reach, each, lost)
        by_area = count * binding.strip * each / width if binding.count else reach * binding.strip / width
        many = count > MOST_ON_THE_BIAS or not reach
        piece = by_area if many else yardage.bias_fabric(reach, binding.strip, width, seam=seam)
    except yardage.DoesNotFit:
        return None
    return OnTheBias(yardage.Piece(width, max(piece, by_area), 1, "bias binding"), by_area) if reach else None


def _binding_from(sheet, name):
    """The binding, where it is cut from this fabric and no line of the cutting list cuts it."""
    binding = sheet.binding
    if binding is None or binding.fabric != name or binding.part is not None:
        return None
    return None if any(is_binding(sheet, cut) for cut in sheet.cut) else binding


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


def planned_in_pieces(made: Made, sheet: Sheet, name: str) -> PiecesTaken:
    """What is cut from a fabric bought in pieces of a size takes of them, of each print."""
    listed, size, prints = sheet.fabric[name], sheet.fabric_piece(name), sheet.prints(name)
    assert size is not None
    pieces = pieces_of(made, sheet, name)
    strips = on_the_bias(made, sheet, name)
    bias = Fraction(0) if strips is None else strips.by_area * strips.piece.width
    area = ceil((_area(pieces) + bias) / (size[0] * size[1]))
    if area > MOST_PIECES_OF_FABRIC or bias or sum(piece.count for piece in pieces) > MOST_TO_PLAN:
        return PiecesTaken((*pieces, strips.piece) if strips is not None else pieces, area, area)
    if not shared_at_will(sheet, name):
        found, shapes = _on_pieces(pieces, size, listed, listed.each), area_with_shapes(made, sheet, name)
        by_area = found.at_least if shapes is None else ceil(shapes / (size[0] * size[1]))
        return found._replace(at_least=min(found.at_least, by_area))
    own, pooled = of_each_print(made, sheet, name), _pooled(made, sheet, name)
    together = _on_pieces(pooled, size, listed, prints * listed.each)
    least = max(-(-together.at_least // prints), _on_pieces(own, size, listed, listed.each).at_least)
    if own:
        return _on_pieces(pieces, size, listed, listed.each)._replace(at_least=least)
    return together._replace(pieces=pieces, enough=-(-together.enough // prints), at_least=least)


def _on_pieces(pieces, size, listed, have):
    """What pieces take of pieces of fabric. Of two sides that are given, either may run along the selvage."""
    found = []
    for across, along in [size] if listed.piece.name or not listed.directional else [size, size[::-1]]:
        try:
            plan = yardage.on_pieces(list(pieces), across, along, have=have)
        except yardage.DoesNotFit as refused:
            found.append(PiecesTaken(pieces, refused=str(refused)))
        else:
            found.append(PiecesTaken(pieces, plan.count, plan.at_least, laid=plan))
    best = min(found, key=lambda one: (bool(one.refused), one.enough))
    return best._replace(at_least=min(one.at_least for one in found if bool(one.refused) == bool(best.refused)))


def _area(pieces):
    return sum((piece.area for piece in pieces), Fraction(0))


def of_each_print(made: Made, sheet: Sheet, name: str) -> tuple[yardage.Piece, ...]:
    """What is surely cut from each of several prints: the lines that are counted so."""
    lines = [cut for cut in sheet.cut if cut.fabric == name and cut.per_print is not None]
    return tuple(piece for cut in lines for piece in _pieces(made, sheet, cut, sheet.prints(name)))


def _pooled(made, sheet, name):
    """What is cut from all prints of one fabric together."""
    own, times = of_each_print(made, sheet, name), sheet.prints(name)
    pooled = [cut for cut in sheet.cut if cut.fabric == name and cut.per_print is None]
    together = [piece for cut in pooled for piece in _pieces(made, sheet, cut, 1)]
    return (
        *(yardage.Piece(one.width, one.height, times * one.count, one.part, one.any_way) for one in own),
        *(one for one in together if one is not None),
    )


def shared_at_least(made: Made, sheet: Sheet, name: str) -> Fraction:
    """The length (inches) of each of several prints that no sharing of what is cut from them together gets under."""
    width = sheet.usable_width(name)
    least = planned(of_each_print(made, sheet, name), width, thorough=False).at_least
    return max(least, _area(_pooled(made, sheet, name)) / (width * sheet.prints(name)))
