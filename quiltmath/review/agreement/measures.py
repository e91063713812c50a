"""What panels finish, as sums of printed numbers: arithmetic alone, and nothing is sewn where the numbers tell."""

from __future__ import annotations

from fractions import Fraction
from functools import cached_property
from math import sqrt
from typing import TYPE_CHECKING, Any, NamedTuple

from ...making import layout, shaped
from ...making.measures import is_long_strip, long_strips
from ...making.pieces import lies_turned, meant_finished, meant_size
from ...pattern.cut import HALF_TRIANGLE, SIZED_SHAPES
from ...pattern.names import SETTING, centre, inside_out, step_giving
from ...usual import EASED
from .figures import Figure, Sum, mean, total

if TYPE_CHECKING:
    from ...making import Made
    from ...pattern.cut import Cut
    from ...pattern.fields import Item

UNEVEN = 0.05  # of the rectangle round it: what lacks more is no rectangle
SLACK = float(EASED)  # inches: what disappears in sewing
LARGE = 1 / 8  # inches: a triangle cut larger than this over its exact size is meant to be trimmed
OPPOSITE = {"left": "right", "right": "left", "top": "bottom", "bottom": "top"}


class Finished(NamedTuple):
    """The finished width and height of something, as `Sum`s; `triangle`: it is one, and may be trimmed to its row.

    What is cut at an angle is as wide as in its middle, and its `slant` is how far (inches) each of its sides leans out
    from there.
    """

    width: Sum
    height: Sum
    triangle: bool = False
    slant: float = 0.0

    def side(self, number: int) -> Sum:
        """Its width (0) or its height (1)."""
        return self.width if number == 0 else self.height

    def turned(self, degrees: float) -> Finished | None:
        """The same turned by quarters; None for any other turn."""
        if self.slant:
            return self  # it lies in its row, whichever way it leans
        if degrees % 90:
            return self._on_its_long_side() if self.triangle and degrees % 180 == 45 else None
        return self if degrees % 180 == 0 else self._replace(width=self.height, height=self.width)

    def _on_its_long_side(self):
        """A triangle whose long side lies level, as wide as that is long; one with unlike legs fits no row so."""
        if abs(self.width.value - self.height.value) > SLACK:
            return None
        leg = mean((self.width, self.height))
        return self._replace(width=leg.times(sqrt(2)), height=leg.times(1 / sqrt(2)))


class Measures:
    """The finished measures of all that a sheet names.

    >>> from quiltmath import making, pattern
    >>> from quiltmath.pattern.sheet import EXAMPLE
    >>> four = Measures(making.make(pattern.read_text(EXAMPLE))).finished("four")
    >>> four.width.value, four.width.shares
    (6.0, {Figure(path=('cut', 0, 'size'), side=0): 2.0})
    """

    def __init__(self, made: Made) -> None:
        self.made, self.sheet, self.seam = made, made.sheet, made.seam
        self._numbers = {cut.part: number for number, cut in enumerate(made.sheet.cut)}
        self.values: dict[Figure, float] = {}  # every printed number that has been asked for, in inches
        self._known: dict[str, Finished | None] = {}

    def finished(self, name: str) -> Finished | None:
        """What a part, unit, block, strip set or step finishes; None where its numbers do not tell."""
        if name not in self._known:
            for each in inside_out(self.sheet, name, known=self._known):  # so that no chain of steps is too long
                self._known[each] = self._finished(each)
        return self._known[name]

    def lying(self, item: Item) -> Finished | None:
        """What one place in a row finishes, as it lies there."""
        found = self.finished(item.name)
        return None if found is None else found.turned(item.turn)

    def rows(self, rows: list[list[Item]]) -> list[list[Finished]] | None:
        """What each place in these rows finishes, equal neighbours once; None where one is not known."""
        placed = [[self.lying(item) for item in row] for row in rows]
        return None if any(part is None for row in placed for part in row) else placed  # type: ignore[return-value]

    def across(self, row: list[Finished]) -> Sum:
        """How wide a row finishes, halfway up where its ends slant; triangles beside what is cut at an angle fill the
        other half of its slants."""
        half = 0.5 if any(part.slant for part in row) else 1.0
        return total(part.width.times(half) if part.triangle else part.width for part in row)

    def line(self, part: str) -> tuple:
        """The path of the cutting-list line that cuts a part."""
        return "cut", self._numbers[part]

    def raw(self, part: str) -> tuple[Sum, Sum] | None:
        """The printed cut (width, height) of a part, its own number each; None for what is not on the cutting list.

        A strip is as wide as its fabric, which is no number of its own.
        """
        cut = self.sheet.part(part)
        return None if cut is None else self._raw(cut)

    def _raw(self, cut: Cut) -> tuple[Sum, Sum]:
        part = cut.part
        width, height = map(float, self.sheet.cut_size(cut))
        if cut.shape is not None and cut.strip_width is not None:
            return Sum(width), self.figure((*self.line(part), "strip_width"), height, 1)
        if cut.size is None:
            return Sum(width), self.figure((*self.line(part), "strip"), height, 1)
        return self.figures((*self.line(part), "size"), (width, height))

    def figures(self, path: tuple, pair: tuple) -> tuple[Sum, Sum]:
        """The two printed numbers of a size."""
        return self.figure(path, pair[0], 0), self.figure(path, pair[1], 1)

    def figure(self, path: tuple, value: Any, side: int = 0) -> Sum:
        """One printed number."""
        figure = Figure(path, side)
        self.values[figure] = float(value)
        return Sum.of(figure, self.values[figure])

    def held(self, path: tuple, pair: tuple, triangle: bool = False) -> Finished:
        """What is held to a printed finished size."""
        return Finished(*self.figures(path, pair), triangle)

    def strip_width(self, name: str | None) -> Sum | None:
        """The finished width of a strip, which is the shorter side of its piece; nothing for no name."""
        if name is None:
            return Sum()
        raw = self.raw(name)
        if raw is None:
            found = self.finished(name)
            return None if found is None else min(found[:2], key=lambda side: side.value)
        return min((side for side in raw if side.shares), key=lambda side: side.value).minus(2 * self.seam)

    @cached_property
    def cell(self) -> Sum | None:
        """The finished width of the set block."""
        found = self.finished(self.made.block)
        return None if found is None else found.width

    @cached_property
    def sash(self) -> Sum | None:
        """The finished width of the sashing; nothing where there is none."""
        sashing = self.sheet.setting.sashing
        return Sum() if sashing is None else self.strip_width(sashing.part)

    @cached_property
    def quilt(self) -> Finished | None:
        """The finished quilt; None where explicit steps or rounds of triangles make it, or a number is not known."""
        return self.inside[-1] if len(self.inside) > len(self.sheet.border) else None

    @cached_property
    def inside(self) -> list[Finished]:
        """What the quilt inside each border finishes, and outside the last, as far as numbers tell."""
        setting = self._set() if centre(self.sheet) == SETTING else None
        if setting is None:
            return []
        found = [setting]
        for border in self.sheet.border:
            sides, top = (self.strip_width(name) for name in (border.sides, border.top))
            if border.triangles is not None or sides is None or top is None:
                break
            more = border.on("sides"), border.on("top")
            found.append(Finished(found[-1].width.plus(sides, more[0]), found[-1].height.plus(top, more[1])))
        return found

    @cached_property
    def lines(self) -> list[list[Finished]] | None:
        """What each place of a setting finishes whose rows are each what they are, its columns as rows that lie on
        their side; long strips have no length of their own, and are left out. None where a number is not known."""
        setting = self.sheet.setting
        rows = self.rows([row for row in setting.lines if not is_long_strip(self.sheet, row)])
        if rows is None or setting.columns is None:
            return rows
        return [[Finished(part.height, part.width) for part in row] for row in rows]

    def _set(self):
        """What the setting finishes, its borders left aside."""
        if not self.sheet.setting.loose:
            block = self.finished(self.made.block)
            return None if block is None or self.sash is None else Finished(*self._of_setting(block, self.sash))
        strips = [self.strip_width(name) for name in long_strips(self.sheet)]
        if not self.lines or None in strips:
            return None
        long = mean(total(part.width for part in row) for row in self.lines)
        thick = total([*(mean(part.height for part in row) for row in self.lines), *strips])
        return Finished(long, thick) if self.sheet.setting.columns is None else Finished(thick, long)

    def _of_setting(self, block, sash):
        """The finished size of the setting, which grows evenly with its blocks and with its sashing; on point these are
        squares."""
        cells = block.width, block.height if self.sheet.setting.style == "straight" else block.width
        betweens = sash, self._between_rows(sash)
        return [self._side(side, *both) for side, both in enumerate(zip(cells, betweens))]

    def _side(self, side, cell, sash):
        at = self._laid_out(cell.value, sash.value)[side]
        more, wider = (
            self._laid_out(cell.value + by_cell, sash.value + by_sash)[side] for by_cell, by_sash in ((1, 0), (0, 1))
        )
        return Sum(at, cell.times(more - at).plus(sash.times(wider - at)).shares)

    def _between_rows(self, sash):
        """The finished width of the long strips between level rows; that of the sashes where there are none."""
        sashing = self.sheet.setting.sashing
        if sashing is None or not sashing.strip or self.sheet.setting.style != "straight":
            return sash
        return self.strip_width(sashing.strip[0]) or sash

    def _laid_out(self, cell, sash):
        return [float(side) for side in layout.of(self.sheet.setting, Fraction(cell), Fraction(sash)).size]

    def _finished(self, name):
        sheet = self.sheet
        cut = sheet.part(name)
        if cut is not None:
            return self._of_part(cut)
        for kind in ("block", "unit"):
            made = getattr(sheet, kind).get(name)
            if made is not None and made.trim_to is not None:
                width, height = self.figures((kind, name, "trim_to"), made.trim_to)
                return Finished(width.minus(2 * self.seam), height.minus(2 * self.seam))
            if kind == "block" and made is not None and made.size is not None:
                width, height = self.figures((kind, name, "size"), made.size)
                return Finished(width.minus(2 * self.seam), height.minus(2 * self.seam))
            if made is not None and made.finished is not None:
                return self.held((kind, name, "finished"), made.finished)
        if name in sheet.block:
            return self._of_rows(sheet.block[name].rows)
        if name in sheet.strip_set:
            return self._of_strips(name)
        if step_giving(sheet, name) is not None:
            return self._of_step(name) or self._as_cut(name)
        return self._as_sewn(("unit", name), name) if name in sheet.unit else None

    def _of_part(self, cut: Cut):
        if cut.shape is not None:
            return self._of_shape(cut)
        triangle, seams = cut.cut != "whole", 2 * self.seam
        if cut.size is None:
            width, height = self._raw(cut)
            return Finished(width.minus(seams), height.minus(seams))
        legs = 1 / sqrt(2) if cut.cut == "twice" else 1.0
        if cut.finished is not None:
            width, height = self.figures((*self.line(cut.part), "finished"), cut.finished)
        else:
            meant = meant_finished(self.made, cut)
            width, height = (Sum(value, side.shares) for value, side in zip(meant, self._raw(cut)))
        if lies_turned(cut):
            width, height = height, width
        return Finished(width.times(legs), height.times(legs), triangle)

    def _of_shape(self, cut: Cut):
        """A piece cut at an angle: as wide as in its middle, by the width of its strip, or its long side."""
        raw = self._raw(cut)
        shown = shaped.shown(cut, meant_size(self.made, cut), self.seam)
        if cut.shape in SIZED_SHAPES:
            return Finished(Sum(shown.middle, raw[0].shares), Sum(shown.height, raw[1].shares), slant=shown.slant)
        by_height = shown.middle / shown.height
        height = Sum(shown.height, raw[1].shares)
        if cut.shape == HALF_TRIANGLE:
            return Finished(height.times(2 * by_height), height, triangle=True)
        return Finished(height.times(by_height), height, slant=shown.slant)

    def _of_rows(self, rows):
        placed = self.rows(rows)
        if placed is None or any(row[end].slant for row in placed for end in (0, -1)):
            return None
        width = mean(self.across(row) for row in placed)
        return Finished(width, total(mean(part.height for part in row) for row in placed))

    def _of_strips(self, name):
        strips, seams = self.sheet.strip_set[name], 2 * self.seam
        raws = [self.raw(strip) for strip in strips.strips]
        if None in raws:
            return None
        width = self.figure(("strip_set", name, "sub_cut"), strips.sub_cut)
        return Finished(width.minus(seams), total(raw[1].minus(seams) for raw in raws))

    def _as_sewn(self, path, name):
        """What a unit that prints no size comes to: a number of its own, which its parts give together."""
        panel = self.made.panel(name)
        if panel is None:
            return None
        unit = self.sheet.unit[name]
        if unit.kind == "half-rectangle":
            return self._as_the_larger(path, name)
        inside = self.finished(unit.parts[0]) if unit.kind == "square in a square" else None
        if inside is not None and min(panel.size) - 2 * self.seam - sqrt(2) * inside.width.value > LARGE:
            return None  # its corners are too large for its centre, and told of
        if panel.area < (1 - UNEVEN) * panel.size[0] * panel.size[1]:
            return None
        return self.held(path, [side - 2 * self.seam for side in panel.size])

    def _as_the_larger(self, path, name):
        """A half-rectangle unit as large as its larger triangle: where the other is smaller, that is told of itself."""
        cuts = [self.sheet.part(part) for part in self.sheet.unit[name].parts]
        legs = [sorted(meant_finished(self.made, cut)) for cut in cuts if cut is not None]
        return self.held(path, max(legs))

    def _as_cut(self, name):
        """What a step gives that no numbers tell: what it measures, where it is a rectangle."""
        panel = self.made.panel(name)
        if panel is None or abs(panel.area - panel.size[0] * panel.size[1]) > SLACK:
            return None
        width, height = (Sum(side - 2 * self.seam) for side in panel.size)
        return Finished(width, height)

    def _of_step(self, name):
        """What a step gives, where whole pieces are sewn edge to edge, turned by quarters or trimmed."""
        number, step = next((number, step) for number, step in enumerate(self.sheet.step) if name in step.gives)
        if step.turn is not None:
            found = self.finished(step.turn)
            return None if found is None else found.turned(step.by)
        if step.trim is not None:
            return self._trimmed(("step", number), step)
        joined = None if step.sew is None else self.joined(step)
        if joined is None:
            return None
        (one, other), upright = joined
        along, across = (0, 1) if upright else (1, 0)
        grown, even = one[along].plus(other[along]), mean((one[across], other[across]))
        return Finished(grown, even) if upright else Finished(even, grown)

    def _trimmed(self, path, step):
        found = self.finished(step.trim)
        if found is None or found.triangle:
            return None
        width, height = found.width, found.height
        for side in ("left", "right"):
            width = width.minus(self.figure((*path, side), getattr(step, side)))
        for side in ("top", "bottom"):
            height = height.minus(self.figure((*path, side), getattr(step, side)))
        return Finished(width, height)

    def joined(self, step) -> tuple[tuple[Finished, Finished], bool] | None:
        """What one sewing step joins, the second as it lies then, and whether side by side (else one above the other);
        None where edges at a slant or triangles are joined."""
        mine, theirs = step.edges
        one, other = map(self.finished, step.sew)
        if one is None or other is None or one.triangle or other.triangle or {mine, theirs} - OPPOSITE.keys():
            return None
        upright = mine in ("left", "right")
        turned = other.turned(0 if upright == (theirs in ("left", "right")) else 90)
        return None if turned is None else ((one, turned), upright)
