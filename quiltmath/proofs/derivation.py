"""A proof told on SymPy symbols: its steps in words and equations, and a formula for every measure."""

from __future__ import annotations

from dataclasses import dataclass

from quiltmath.proofs.story import MOVE, Story
from quiltmath.proofs.writing import tidy, written
from quiltmath.shapes import moved_out


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
    def sides(self) -> list[list[str]]:
        """The equations as text, each a list of equal sides; a side that reads like another is left out."""
        return [list(dict.fromkeys(written(side) for side in sides)) for sides in self.equations]

    @property
    def lines(self) -> list[str]:
        """The equations as text, one line each."""
        return [" = ".join(sides) for sides in self.sides]

    def __str__(self) -> str:
        return "\n".join([self.words, *("    " + line for line in self.lines)])


class Derivation(Story):
    """A derivation told on SymPy symbols: collects its steps, and its measures with their formulas."""

    def __init__(self) -> None:
        super().__init__()
        self.steps: list[Step] = []

    def tidy(self, value):
        return tidy(value)

    def number(self, whole):
        import sympy

        return sympy.Integer(whole)

    def whole(self, value):
        import sympy

        return sympy.ceiling(value)

    def factored(self, value):
        return value.factor()

    def text(self, formula):
        return written(formula)

    def say(self, words, *equations):
        self.steps.append(Step(words, tuple(equations)))

    def agree(self, words, left, right, *sides):
        if tidy(left - right) != 0:
            raise ArithmeticError(f"{words} does not hold: {written(left)} is not {written(right)}")
        self.say(words, sides or (left, right))

    def draw(self, words, shape, *equations):
        self.say(words, *equations)
        return [(tidy(x), tidy(y)) for x, y in shape]

    def move(self, shape, seams, words=MOVE, title="", role=""):
        cut = [(tidy(x), tidy(y)) for x, y in moved_out(shape, seams)]
        self.say(words, *(_moved(shape, cut, side) for side in range(len(shape))))
        return cut

    def give(self, name, words, value, *worked, kind="cut", at=None, plain=False):
        if not plain and kind != "number":
            value = tidy(value)
        self.say(words, (name, *worked, value))
        return super().give(name, words, value, *worked, kind=kind, at=at, plain=plain)

    def _taken(self, high, low):
        """Nothing where the subtraction starts at 0 or would not fit on a line."""
        worked = f"({written(high)}) − ({written(low)})" if low != 0 else ""
        return [worked] if 0 < len(worked) <= 80 else []


def _moved(shape, cut, side):
    """How the line of one side moved: `x + y = finished` to `x + y = finished + √2 × seam`, as equal
    sides."""
    import sympy

    (x0, y0), (x1, y1) = shape[side], shape[(side + 1) % len(shape)]
    a, b = y1 - y0, x0 - x1
    lead = a if a != 0 else b
    a, b = tidy(a / lead), tidy(b / lead)
    x, y = sympy.symbols("x y")
    before, after = (tidy(a * px + b * py) for px, py in (shape[side], cut[side]))
    if before == after:
        return (f"the line {written(a * x + b * y)} = {written(before)} stays",)
    return (f"the line {written(a * x + b * y)} = {written(before)} moves to {written(a * x + b * y)}", after)
