"""The printed strips that pieces are sub-cut from, held against the pieces: "4 strips 3 in, sub-cut 52 squares"."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING, Any, NamedTuple

from ... import lengths, yardage
from ...making.shaped import per_strip
from .check import path_of, ruler, some
from .widths import Cases, by_width, how_wide, level_of

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from ...making import Made
    from ...pattern.cut import Cut
    from ..finding import Finding
    from .check import Check

TIGHT = "perhaps too few"


class OneStrip(NamedTuple):
    """What one printed strip gives, on fabric of one usable width: so many pieces as they are laid here, and no more
    than `most` however they are."""

    width: Fraction
    gives: int
    most: int


class StripsPrinted(NamedTuple):
    """The strips that one line prints (of several prints, for each): how many there are, how wide they may be, what one
    gives for each usable width of the fabric, and how many pieces the quilt takes from them."""

    made: Made
    cut: Cut
    strips: int
    heights: tuple[Fraction, ...]
    each: tuple[OneStrip, ...]
    wanted: int

    @classmethod
    def of(cls, made: Made, cut: Cut, wanted: int) -> StripsPrinted | None:
        """The printed strips of a line of the cutting list of which a quilt takes so many; None where it prints
        none."""
        if cut.strips is None or cut.size is None:
            return None
        sheet, fabric = made.sheet, made.sheet.fabric.get(cut.fabric)
        any_way = not cut.lengthwise and (fabric is None or not fabric.directional)
        heights = (cut.strip_width,) if cut.strip_width is not None else _heights(sheet, cut)
        widths = [one.usable_width(cut.fabric) for one in sheet.at_each_width(cut.fabric)]
        if cut.shape is not None:
            heights = (sheet.cut_size(cut)[1],)
            given = [(width, per_strip(sheet, cut, float(width))) for width in widths]
            each = [OneStrip(width, gives, gives) for width, gives in given]
            prints = 1 if cut.per_print is None else sheet.prints(cut.fabric)
            return cls(made, cut, cut.strips, heights, tuple(each), -(-wanted // prints))
        each = [max((_one_strip(cut, width, high, any_way) for high in heights), key=_fullest) for width in widths]
        prints = 1 if cut.per_print is None else sheet.prints(cut.fabric)
        return cls(made, cut, cut.strips, heights, tuple(each), -(-wanted // prints))

    @property
    def path(self) -> tuple:
        """Where the number of strips stands in the sheet."""
        return (*path_of(self.made.sheet, self.cut.part), "strips")

    @property
    def needed(self) -> int:
        """How many strips will do for every usable width; those that are printed where none does."""
        return -(-self.wanted // self.each[0].gives) if self.each[0].gives else self.strips

    @property
    def few(self) -> bool:
        """Whether there are too few for some usable width."""
        return any(self.strips * one.gives < self.wanted for one in self.each)

    @property
    def spared(self) -> str:
        """What the strips give, in words, where a count is short of what they would do for; else nothing."""
        gives = self.strips * self.each[0].gives
        return "" if self.few else f" The {some(self.strips, 'strip')} printed beside them would give {gives}."

    def findings(self, check: Check) -> Iterator[Finding]:
        """Strips that give no such piece, or too few, or far too many."""
        of, parts = ruler(self.made), frozenset([self.cut.part])
        wide, height = "", self.heights[0]
        if self.cut.shape is not None:
            wide = f" {of.said(height)} wide"
        elif len(self.heights) == 1:
            wide = f" {of.said(height)} wide"
            side = min(self.cut.size or (), key=lambda one: abs(one - height))
            path = (*self.path[:-1], "strip_width")
            told: dict[str, Any] = {"parts": parts, "fix": ((path, of.said(side)),)}
            said = f"Strips{wide}, sub-cut into pieces of {of.sizes(self.cut.size)}, {self.cut.part!r}"
            advice = f"Cut strips {of.said(side)} wide, or ask how large the piece is"
            if not any(one.most for one in self.each):
                said = f"{said}: they give no such piece. {advice}."
                yield check.finding(self.made, path, said, of.said(height), of.said(side), **told)
                return
            if all(height % side for side in self.cut.size or ()):
                said = f"{said}: the two do not go together, and something would be cut off all along. {advice}."
                yield check.finding(self.made, path, said, of.said(height), of.said(side), level="ask", **told)
                return
        yield from self._too_few_or_many(check, of, wide, parts)

    def _too_few_or_many(self, check, of, wide, parts):
        printed, enough = some(self.strips, "strip"), some(self.needed, "strip")
        told = {"parts": parts, "printed": printed, "needed": enough, "fix": ((self.path, self.needed),)}
        cases: Cases = [(one.width, self._lacks(one)) for one in self.each]
        level, best = level_of(cases), self.each[-1]
        verb, gives = ("is", "gives") if self.strips == 1 else ("are", "give")
        pieces, each = f"{self.wanted} of {self.cut.part!r}", " each print" * (self.cut.per_print is not None)
        if level == "stop" and all(self.strips * one.most < self.wanted for one in self.each):
            even = "even " * (len(self.each) > 1)
            yield check.finding(
                self.made,
                self.path,
                f"{printed}{wide}, {even}of fabric {of.said(best.width)} wide, {gives} {self.strips * best.most} of "
                f"{self.cut.part!r} at the most, and the quilt takes {self.wanted}{' of' * bool(each)}{each}. "
                f"Cut {enough}.",
                **told,
            )
        elif level == "ask":
            yield check.finding(
                self.made,
                self.path,
                f"The pattern does not say how wide its fabric must be, and it decides: {printed}{wide}, sub-cut into "
                f"{pieces}, {verb} {by_width(of, cases)}. Ask, or cut {enough}.",
                level="ask",
                asks=how_wide(repr(self.cut.fabric)),
                **told,
            )
        elif level:
            yield check.finding(
                self.made,
                self.path,
                f"{printed}{wide} may be too few for {pieces}: laid side by side, each gives {best.gives}. Ask, or cut "
                f"{enough}.",
                level="ask",
                **told,
            )
        elif self.strips - self.needed >= max(2, self.needed // 2):
            yield check.finding(
                self.made,
                self.path,
                f"{printed}{wide} {verb} more than {pieces} take: {self.needed} would do. Ask whether the rest is "
                "meant for something else.",
                level="note",
                **told,
            )

    def _lacks(self, one):
        """What the strips lack on fabric of one width, in words; "" for nothing."""
        short = self.wanted - self.strips * one.most
        if short > 0:
            return f"{some(short, 'piece')} short"
        return TIGHT if self.strips * one.gives < self.wanted else ""


def strips_as_wide(made: Made, cut: Cut, path: tuple, size: Sequence[float], exact: Sequence[float]) -> tuple:
    """The changes to the printed width of the strips that pieces are sub-cut from, where that side is wrong, and to
    their number, where so many do no longer."""
    of, whole = ruler(made), cut.cut == "whole"
    right = {round(have, 6): need for have, need in zip(size, exact)}
    need = None if cut.strip_width is None else right.get(round(float(cut.strip_width), 6))
    if need is None or path[-1] == "strip_width" or abs(need - float(cut.strip_width or 0)) < 1e-6:
        return ()
    changes = (((*path[:-1], "strip_width"), of.up(need, whole)),)
    sides = [lengths.parse(of.up(side, whole), unit=made.sheet.units) for side in (*exact, *exact)[:2]]
    wide = lengths.parse(changes[0][1], unit=made.sheet.units)
    mended = cut.model_copy(update={"size": tuple(sides), "strip_width": wide})
    strips = StripsPrinted.of(made, mended, -(-made.bill[cut.part] // cut.each))
    return (*changes, (strips.path, strips.needed)) if strips is not None and strips.few else changes


def from_strips(cuts: Sequence[Cut], fixes: Sequence[tuple]) -> str:
    """What is said of the strips that pieces are sub-cut from, by the changes to their lines."""
    more = {(cut.strips, change[1]) for cut, fix in zip(cuts, fixes) for change in fix if change[0][-1] == "strips"}
    if len(more) == 1:
        ((printed, enough),) = more
        return f", from {some(enough, 'strip')} as wide and not {printed}"
    return ", from strips as wide" if any(len(fix) > 1 for fix in fixes) else ""


def _heights(sheet, cut):
    """How wide strips may be whose width is not printed: one side of their pieces, and no wider than a piece of fabric
    that they are cut from."""
    piece = sheet.fabric_piece(cut.fabric)
    sides = tuple(dict.fromkeys(cut.size))
    return tuple(side for side in sides if piece is None or side <= piece[1]) or sides


def _fullest(one):
    return one.gives, one.most


def _one_strip(cut, width, high, any_way):
    """What one strip so wide gives: columns of pieces, as they are given or turned a quarter, side by side."""
    across, along = cut.size
    ways = dict.fromkeys([(across, along), (along, across)] if any_way else [(across, along)])
    columns = [(wide, int(high // tall)) for wide, tall in ways if tall <= high and wide <= width]
    if not columns:
        return OneStrip(width, 0, 0)
    gives = max(_columns(columns, first, width) for first in range(int(width // columns[0][0]) + 1))
    most = int(width * high / (across * along))
    if (
        most > gives
        and yardage.holds([yardage.Piece(across, along, gives + 1, any_way=any_way)], width, high).answer == "no"
    ):
        most = gives
    return OneStrip(width, gives, most)


def _columns(columns, first, width):
    """How many pieces so many columns of the first way give, and as many of the other as then fit."""
    (wide, stacked), *other = columns
    rest = width - first * wide
    return first * stacked + sum(int(rest // each) * high for each, high in other)
