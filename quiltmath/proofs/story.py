"""Telling a proof: draw the finished shape, move its sewn sides out by a seam, read the size off.

A derivation is one function that talks to a `Story`. Told with SymPy symbols it yields the steps and the
formulas; told with numbers, the pictures. There is no other place from which a cut size comes.
"""

from dataclasses import dataclass
from fractions import Fraction

import sympy as sp

from quiltmath.proofs.writing import tidy, written
from quiltmath.shapes import moved_out

HALF = Fraction(1, 2)
MOVE = (
    "Move each side that will be sewn out by one seam, square to itself. Where a side slants, one seam "
    "square to it is more than one seam along the ruler."
)


def root(number):
    """The square root of a number or a symbol; exact on SymPy.

    >>> root(9.0), root(sp.Integer(2))
    (3.0, sqrt(2))
    """
    return number**HALF


@dataclass(frozen=True)
class Step:
    """One step of a proof: a sentence or two, and the equations that belong to them, each a tuple of equal
    sides.

    >>> print(Step("Two seams.", (("cut", "finished + 2 × seam"),)))
    Two seams.
        cut = finished + 2 × seam
    """

    words: str
    equations: tuple = ()

    @property
    def sides(self):
        """The equations as text, each a list of equal sides; a side that reads like another is left out."""
        return [list(dict.fromkeys(written(side) for side in sides)) for sides in self.equations]

    @property
    def lines(self):
        """The equations as text, one line each."""
        return [" = ".join(sides) for sides in self.sides]

    def __str__(self):
        return "\n".join([self.words, *("    " + line for line in self.lines)])


@dataclass(frozen=True)
class Measure:
    """One result of a proof: its name, what it is in words, its kind and formula.

    Kinds: "cut", a length to cut; "length", one that results; "count"; "number".
    """

    name: str
    words: str
    kind: str
    formula: object


@dataclass(frozen=True)
class Picture:
    """A picture of one step as plain data: polygons as (role, corners), and measures as (start, end, text).

    Roles are "finished", "cut", "cloth" and "block"; corners are floats in inches.
    """

    title: str
    polygons: tuple
    measures: tuple = ()


class Story:
    """Collects the steps, the measures and the pictures while a derivation is told.

    `symbolic` tells whether the derivation runs on SymPy symbols (steps and formulas) or on floats
    (pictures).
    """

    def __init__(self, symbolic):
        self.symbolic, self.steps, self.measures, self.pictures = symbolic, [], {}, []
        self._shapes, self._read = (), []

    def tidy(self, value):
        """A value as simple as it gets; floats stay as they are."""
        return tidy(value) if self.symbolic else value

    def number(self, whole):
        """A bare number of the kind the story is told with: exact for a derivation, a float for a picture."""
        return sp.Integer(whole) if self.symbolic else float(whole)

    def text(self, formula):
        """A formula as text, for the side of an equation that is not worked out; nothing for a picture."""
        return written(formula) if self.symbolic else ""

    def factored(self, value):
        """A value as a product where it is one; floats stay as they are."""
        return sp.factor(value) if self.symbolic else value

    def say(self, words, *equations):
        """A step of reasoning, with its equations (tuples of equal sides)."""
        if self.symbolic:
            self.steps.append(Step(words, tuple(equations)))

    def agree(self, words, left, right, *sides):
        """A step that holds only if both sides are equal: the derivation stops if they are not.

        `sides` are how the equation is written, if not as it stands.
        """
        if self.symbolic and tidy(left - right) != 0:
            raise ArithmeticError(f"{words} does not hold: {written(left)} is not {written(right)}")
        self.say(words, sides or (left, right))

    def draw(self, words, shape, *equations):
        """The finished shape, as corners counter-clockwise; gives it back tidied."""
        self.say(words, *equations)
        shape = [(self.tidy(x), self.tidy(y)) for x, y in shape]
        self._picture("Draw the finished shape", ("finished", shape))
        return shape

    def move(self, shape, seams, words=MOVE, title="Move each sewn side out by one seam", role="cut"):
        """The shape with its sides moved out (one seam for all, or one for each); says how each line moved.

        `title` and the `role` of the moved shape are for its picture.
        """
        cut = [(self.tidy(x), self.tidy(y)) for x, y in moved_out(shape, seams)]
        if self.symbolic:
            self.say(words, *(_moved(shape, cut, side) for side in range(len(shape))))
        self._picture(title, (role, cut), ("finished", shape))
        return cut

    def read(self, name, words, cut, start, end, kind="cut"):
        """Read a length off the ruler, laid from one corner of the cut shape to another, and keep it as a
        measure."""
        (x0, y0), (x1, y1) = cut[start], cut[end]
        across, up = self.tidy(x1 - x0), self.tidy(y1 - y0)
        if up == 0:
            return self.width(name, words, cut, start, end, kind)
        if across == 0:
            return self.height(name, words, cut, start, end, kind)
        slope = self.tidy(up / across)
        return self.give(name, words, across * root(1 + slope * slope), kind=kind, at=(cut[start], cut[end]))

    def width(self, name, words, cut, left, right, kind="cut"):
        """Read a width off the ruler: how far corner `right` lies to the right of corner `left`."""
        x0, x1 = cut[left][0], cut[right][0]
        return self.give(name, words, x1 - x0, *self._taken(x1, x0), kind=kind, at=self._beside(cut, 1, x0, x1))

    def height(self, name, words, cut, low, high, kind="cut"):
        """Read a height off the ruler: how far corner `high` lies above corner `low`."""
        y0, y1 = cut[low][1], cut[high][1]
        return self.give(name, words, y1 - y0, *self._taken(y1, y0), kind=kind, at=self._beside(cut, 0, y0, y1))

    def _beside(self, cut, axis, start, end):
        """Where a ruler lies that measures the shape from outside: left of it (axis 0) or below it (axis
        1)."""
        if self.symbolic:
            return None
        edge = min(corner[axis] for corner in cut)
        return ((edge, start), (edge, end)) if axis == 0 else ((start, edge), (end, edge))

    def _taken(self, high, low):
        """The subtraction behind a reading, as text; nothing where it starts at 0 or would not fit on a
        line."""
        worked = f"({written(high)}) − ({written(low)})" if self.symbolic and low != 0 else ""
        return [worked] if 0 < len(worked) <= 80 else []

    def give(self, name, words, value, *worked, kind="cut", at=None, plain=False):
        """Keep a result as a measure; `worked` are the sides of its equation before the last one.

        A length or a count is multiplied out first, unless it reads better `plain`; a bare number never is.
        """
        if not plain and kind != "number":
            value = self.tidy(value)
        self.measures[name] = Measure(name, words, kind, value)
        self.say(words, (name, *worked, value))
        if at and not self.symbolic and self.pictures:
            shown = self.pictures[-1]
            mark = (_point(at[0]), _point(at[1]), f"{name} {value:.4f}".rstrip("0").rstrip("."))
            self.pictures[-1] = Picture(shown.title, shown.polygons, (*shown.measures, mark))
        return value

    def show(self, title, polygons):
        """A further picture: `polygons` is a function giving (role, corners) pairs, called only for a
        picture."""
        if not self.symbolic:
            self._picture(title, *polygons())

    def _picture(self, title, *polygons):
        if not self.symbolic:
            self.pictures.append(
                Picture(title, tuple((role, tuple(map(_point, corners))) for role, corners in polygons))
            )


def _point(corner):
    return float(corner[0]), float(corner[1])


def _moved(shape, cut, side):
    """How the line of one side moved: `x + y = finished` to `x + y = finished + √2 × seam`, as equal
    sides."""
    (x0, y0), (x1, y1) = shape[side], shape[(side + 1) % len(shape)]
    a, b = y1 - y0, x0 - x1
    lead = a if a != 0 else b
    a, b = tidy(a / lead), tidy(b / lead)
    x, y = sp.symbols("x y")
    before, after = (tidy(a * px + b * py) for px, py in (shape[side], cut[side]))
    if before == after:
        return (f"the line {written(a * x + b * y)} = {written(before)} stays",)
    return (f"the line {written(a * x + b * y)} = {written(before)} moves to {written(a * x + b * y)}", after)
