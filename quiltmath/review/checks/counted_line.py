"""One line of a cutting list beside how many pieces of it the quilt takes, in figures and in words."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING, Any

from ...making.slants import to_cut
from .check import how_many, some
from .printed_strips import StripsPrinted

if TYPE_CHECKING:
    from ...making import Made
    from ...pattern.cut import Cut


@dataclass(frozen=True)
class CountedLine:
    """A line of the cutting list, how many of its pieces are `needed`, and of long triangles how many of each slant.

    `cuts` and `enough` are what is cut: squares, rectangles or strips, from each print where the line counts so.
    """

    made: Made
    cut: Cut
    needed: int
    slants: Mapping[str, int]

    @property
    def path(self) -> tuple:
        """Where the printed count stands in the sheet."""
        return self._printed[0]

    @property
    def prints(self) -> int:
        """How many prints the printed count is said of each of."""
        return self._printed[1]

    @cached_property
    def _printed(self) -> tuple[tuple, int]:
        return how_many(self.made.sheet, self.cut)

    @property
    def gives(self) -> int:
        """How many pieces the line gives."""
        return self.cut.gives

    @property
    def cuts(self) -> int:
        """How many the line cuts."""
        return self.cut.count // self.prints

    @cached_property
    def enough(self) -> int:
        """How many would be enough."""
        return -(-to_cut(self.cut, self.needed, self.slants) // self.prints)

    @cached_property
    def strips(self) -> StripsPrinted | None:
        """The strips that the line prints for its pieces; None where it prints none."""
        return StripsPrinted.of(self.made, self.cut, -(-self.needed // self.cut.each))

    @property
    def other_triangles(self) -> bool:
        """Whether the line prints another number of triangles than its squares give, or than the quilt takes of
        them."""
        as_taken = self.gives >= self.needed == self.cut.triangles  # "3 squares for 10 triangles": two are left over
        return self.cut.triangles is not None and self.cut.triangles != self.gives and not as_taken

    @property
    def fix(self) -> tuple[tuple[tuple, Any], ...]:
        """The changes to the sheet with which the line cuts enough."""
        fix: tuple = ((self.path, self.enough), ((*self.path[:-1], "triangles"), None)) if self.enough else ()
        if self.strips is not None and self.gives < self.needed and self.strips.few:
            fix += ((self.strips.path, self.strips.needed),)  # worked out from the wrong count
        return fix

    def for_printed_sets(self, exactly: bool = False) -> bool:
        """Whether it is cut for strip sets alone, and in the number that the printed strip sets take, or more."""
        part = self.cut.part
        sets = [one for one in self.made.sheet.strip_set.values() if part in one.strips and one.of is None]
        if not sets or not all(one.sets for one in sets):
            return False
        taken = sum((one.sets or 0) * one.strips.count(part) for one in sets)
        return self.cut.count == taken if exactly else self.cut.count >= taken

    # -- in words --------------------------------------------------------------------------------------------------

    @property
    def piece(self) -> str:
        """What one of its pieces is."""
        return "strip" if self.cut.strip is not None else "piece" if self.cut.each == 1 else "triangle"

    @property
    def of_pieces(self) -> str:
        """How many pieces of which part it gives, and from how many squares where those are cut apart."""
        apart = "" if self.cut.each == 1 else f" ({self.squares})"
        return f"{some(self.gives, self.piece)} of {self.cut.part!r}{apart}"

    @property
    def squares(self) -> str:
        """How many triangles its squares give."""
        cut = self.cut
        return f"{some(cut.count, cut.cut_from)} cut {cut.cut} give{'s' * (cut.count == 1)} {self.gives}"

    @property
    def to_take(self) -> str:
        """How many would do."""
        return (str(self.enough) if self.cut.each == 1 else some(self.enough, self.cut.cut_from)) + self.each_print

    @property
    def each_print(self) -> str:
        """That a count is said of each print, where it is."""
        return " from each print" if self.prints > 1 else ""

    @property
    def of_more_prints(self) -> str:
        """Of how many prints the printed number would do to a piece; nothing where it would not."""
        more, rest = divmod(self.needed, self.cuts * self.cut.each)
        return "" if self.cut.per_print is None or rest else f", or from {more} prints instead of {self.prints}"
