"""What is reckoned with of cloth and binding: the pieces of each fabric and what they take, the way round the quilt."""

from __future__ import annotations

from fractions import Fraction
from math import ceil
from typing import NamedTuple

from .. import yardage
from ..pattern.names import is_binding

LEAST_EXTRA = Fraction(2)  # inches over the perimeter: the least that printed binding rules add (they add 2 to 24)
MOST_TO_PLAN = 20_000  # pieces of one fabric: more are compared by area alone


class FabricPlan(NamedTuple):
    """What pieces take of one fabric: a length (inches) that will do and one that never will, or else `refused`, why no
    length does. By area alone where they are too `many` to plan; no pieces take nothing."""

    pieces: tuple
    length: Fraction = Fraction(0)
    at_least: Fraction = Fraction(0)
    refused: str = ""

    @property
    def many(self) -> bool:
        """Whether there are more pieces than are planned."""
        return sum(piece.count for piece in self.pieces) > MOST_TO_PLAN


class Ring(NamedTuple):
    """Binding strips and the quilt they go round, inches: the way round it, the length of a strip, what each join takes,
    the length they give joined, and how many it takes (None where they cannot be joined at all)."""

    around: float
    strip: float
    lost: float
    have: float
    enough: int | None

    @property
    def short(self) -> bool:
        """Whether the strips do not close round the quilt."""
        return self.have < self.around + float(LEAST_EXTRA)


def pieces_of(sheet, name: str) -> tuple[yardage.Piece, ...]:
    """All that is cut from one fabric."""
    any_way, pieces = not sheet.fabric[name].directional, []
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


def planned(pieces: tuple[yardage.Piece, ...], width: Fraction) -> FabricPlan:
    """What these pieces take of a fabric of this usable width, in inches.

    >>> planned((yardage.Piece(10, 10, 8),), 42).length, planned((yardage.Piece(50, 50),), 42).refused[:7]
    (Fraction(20, 1), 'a piece')
    """
    found = FabricPlan(pieces)
    if not pieces:
        return found
    if found.many:
        area = sum(piece.count * piece.width * piece.height for piece in pieces) / width
        return FabricPlan(pieces, area, area)
    try:
        plan = yardage.length_needed(list(pieces), usable_width=width)
    except yardage.DoesNotFit as refused:
        return FabricPlan(pieces, refused=str(refused))
    return FabricPlan(pieces, plan.length, plan.at_least)


def ring(sheet, size: tuple[float, float]) -> Ring:
    """The binding of a sheet round a quilt of this finished size, inches."""
    binding = sheet.binding
    width = float(sheet.usable_width(binding.fabric)) * (2**0.5 if binding.style == "bias" else 1)
    lost = float(binding.strip) if binding.join == "diagonal" else 2 * float(sheet.sewing_seam)
    around = 2 * sum(size)
    enough = ceil((around + float(LEAST_EXTRA)) / (width - lost)) if width > lost else None
    return Ring(around, width, lost, binding.count * width - binding.count * lost, enough)
