"""Telling a proof: draw the finished shape, move its sewn sides out by a seam, read the size off.

A derivation is one function that talks to a `Story`. Told with SymPy symbols (`derivation.Derivation`) it yields the
steps and the formulas; told with numbers, the sizes: exact ones (`Exact`), quick ones (`Floats`), and those with their
pictures (`Pictures`). There is no other place from which a cut size comes.
"""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from math import ceil
from numbers import Real
from typing import Any

from quiltmath import lengths
from quiltmath.root2 import Root2
from quiltmath.shapes import HALF, IN_LINE, moved_out

NOISE = 1e-9  # a float that misses a whole number by less is that whole number
SHOWN = "1/64"  # inches: sizes that lie on such a step are shown as fractions
MOVE = (
    "Move each side that will be sewn out by one seam, square to itself. Where a side slants, one seam "
    "square to it is more than one seam along the ruler."
)

OUT, IN = "Move each sewn side out by one seam", "The seam moves the sewn side in"

Number = Any  # a float, a Root2, or a SymPy number or formula: the derivations run on each of them alike
Corner = tuple[Number, Number]


def root(number: Number) -> Number:
    """The square root of a number or a symbol: exact, or refused, on a Root2, and exact on SymPy.

    >>> root(9.0), str(root(Root2(2)))
    (3.0, '√2')
    """
    return number**HALF


@dataclass(frozen=True)
class Result:
    """One result of a proof: its name, what it is in words, its kind, and its formula (told on numbers: its size).

    Kinds: "cut", a length to cut; "length", one that results; "count"; "number".
    """

    name: str
    words: str
    kind: str
    formula: Number


@dataclass(frozen=True)
class Sketch:
    """A picture of one step as plain data: polygons as (role, corners), and measures as (start, end, text).

    Roles are "finished", "cut", "cloth" and "block"; corners are floats in inches.
    """

    title: str
    polygons: tuple
    measures: tuple = ()


class Story(ABC):
    """Keeps the measures while a derivation is told; what is said and drawn is left to those who listen for it."""

    def __init__(self) -> None:
        self.measures: dict[str, Result] = {}

    # -- numbers

    def tidy(self, value: Number) -> Number:
        """A value as simple as it gets; numbers stay as they are."""
        return value

    @abstractmethod
    def number(self, whole: int) -> Number:
        """A bare number of the kind the story is told with."""

    @abstractmethod
    def whole(self, value: Number) -> Number:
        """The next whole number, of what comes whole only."""

    def factored(self, value: Number) -> Number:
        """A value as a product where it is one; numbers stay as they are."""
        return value

    def text(self, formula: Number) -> str:
        """A formula as text, for the side of an equation that is not worked out; nothing where nobody reads it."""
        return ""

    # -- telling

    def say(self, words: str, *equations: tuple) -> None:
        """A step of reasoning, with its equations (tuples of equal sides)."""

    def agree(self, words: str, left: Number, right: Number, *sides: Any) -> None:
        """A step that holds only if both sides are equal: an exact telling stops if they are not.

        `sides` are how the equation is written, if not as it stands.
        """

    def draw(self, words: str, shape: Sequence[Corner], *equations: tuple) -> list[Corner]:
        """The finished shape, as corners counter-clockwise; gives it back tidied."""
        return list(shape)

    def move(
        self,
        shape: Sequence[Corner],
        seams: Number | Sequence[Number],
        words: str = MOVE,
        title: str = OUT,
        role: str = "cut",
    ) -> list[Corner]:
        """The shape with its sides moved out (one seam for all, or one for each); says how each line moved.

        `title` and the `role` of the moved shape are for its picture.
        """
        return moved_out(shape, seams)

    def show(self, title: str, polygons: Callable[[], Sequence]) -> None:
        """A further picture: `polygons` is a function giving (role, corners) pairs, called only for a picture."""

    # -- reading off

    def read(self, name: str, words: str, cut: Sequence[Corner], start: int, end: int, kind: str = "cut") -> Number:
        """Read a length off the ruler, laid from one corner of the cut shape to another, and keep it as a
        measure."""
        (x0, y0), (x1, y1) = cut[start], cut[end]
        across, up = self.tidy(x1 - x0), self.tidy(y1 - y0)
        if self._none_beside(up, across):
            return self.width(name, words, cut, start, end, kind)
        if self._none_beside(across, up):
            return self.height(name, words, cut, start, end, kind)
        slope = self.tidy(up / across)
        return self.give(name, words, across * root(1 + slope * slope), kind=kind, at=(cut[start], cut[end]))

    def width(self, name: str, words: str, cut: Sequence[Corner], left: int, right: int, kind: str = "cut") -> Number:
        """Read a width off the ruler: how far corner `right` lies to the right of corner `left`."""
        x0, x1 = cut[left][0], cut[right][0]
        return self.give(name, words, x1 - x0, *self._taken(x1, x0), kind=kind, at=self._beside(cut, 1, x0, x1))

    def height(self, name: str, words: str, cut: Sequence[Corner], low: int, high: int, kind: str = "cut") -> Number:
        """Read a height off the ruler: how far corner `high` lies above corner `low`."""
        y0, y1 = cut[low][1], cut[high][1]
        return self.give(name, words, y1 - y0, *self._taken(y1, y0), kind=kind, at=self._beside(cut, 0, y0, y1))

    def give(
        self,
        name: str,
        words: str,
        value: Number,
        *worked: Any,
        kind: str = "cut",
        at: tuple[Corner, Corner] | None = None,
        plain: bool = False,
    ) -> Number:
        """Keep a result as a measure; `worked` are the sides of its equation before the last one.

        A length or a count is multiplied out first, unless it reads better `plain`; a bare number never is.
        """
        self.measures[name] = Result(name, words, kind, value)
        return value

    def _none_beside(self, one: Number, other: Number) -> bool:
        """Whether a length is nothing, beside another."""
        return one == 0

    def _taken(self, high: Number, low: Number) -> Sequence[str]:
        """The subtraction behind a reading, as text, where somebody reads it."""
        return ()

    def _beside(self, cut: Sequence[Corner], axis: int, start: Number, end: Number) -> tuple[Corner, Corner] | None:
        """Where a ruler lies that measures the shape from outside, where somebody looks."""
        return None


class Exact(Story):
    """A derivation told on Root2 numbers: every measure exact, as long as each root that is drawn stays a + b√2.

    Where one does not, the telling stops with `root2.OutsideField`; what was told before it is kept.
    """

    def number(self, whole: int) -> Root2:
        return Root2(whole)

    def whole(self, value: Root2) -> Root2:
        return Root2(ceil(value))

    def agree(self, words: str, left: Number, right: Number, *sides: Any) -> None:
        if left != right:
            raise ArithmeticError(f"{words} does not hold: {left} is not {right}")


class Floats(Story):
    """A derivation told on floats (counts: ints): every measure within a few units of the last place."""

    def number(self, whole: int) -> float:
        return float(whole)

    def whole(self, value: float) -> int:
        return ceil(value - NOISE)

    def give(self, name, words, value, *worked, kind="cut", at=None, plain=False):
        if kind == "count":  # two triangles by area may come out as 2.0000000000000004
            value = round(value)
        return super().give(name, words, value, *worked, kind=kind, at=at, plain=plain)

    def _none_beside(self, one: float, other: float) -> bool:
        return abs(one) <= IN_LINE * abs(other)


class Pictures(Floats):
    """A derivation told on floats to somebody who looks: a `Sketch` of each step."""

    def __init__(self) -> None:
        super().__init__()
        self.pictures: list[Sketch] = []

    def draw(self, words, shape, *equations):
        self._picture("Draw the finished shape", ("finished", shape))
        return list(shape)

    def move(self, shape, seams, words=MOVE, title=OUT, role="cut"):
        cut = moved_out(shape, seams)
        title = IN if title == OUT and not isinstance(seams, Real) and min(seams) < 0 else title
        self._picture(title, (role, cut), ("finished", shape))
        return cut

    def give(self, name, words, value, *worked, kind="cut", at=None, plain=False):
        value = super().give(name, words, value, *worked, kind=kind, at=at, plain=plain)
        if at and self.pictures:
            shown = self.pictures[-1]
            mark = (_point(at[0]), _point(at[1]), f"{name} {_size(value)}")
            self.pictures[-1] = Sketch(shown.title, shown.polygons, (*shown.measures, mark))
        return value

    def show(self, title, polygons):
        self._picture(title, *polygons())

    def _beside(self, cut, axis, start, end):
        """Left of the shape (axis 0) or below it (axis 1)."""
        edge = min(corner[axis] for corner in cut)
        return ((edge, start), (edge, end)) if axis == 0 else ((start, edge), (end, edge))

    def _picture(self, title, *polygons):
        self.pictures.append(Sketch(title, tuple((role, tuple(map(_point, corners))) for role, corners in polygons)))


def _size(value):
    """A size as a picture shows it: as on a ruler, else to four places."""
    on = lengths.ruler(value, SHOWN, "nearest")
    return lengths.text(on if abs(value - on) < NOISE else round(value, 4))


def _point(corner):
    return float(corner[0]), float(corner[1])
