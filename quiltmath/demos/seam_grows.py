"""How an error of the seam grows, over a block, a row and a top, straight and on point; where borders stop fitting."""

from fractions import Fraction
from functools import lru_cache
from typing import NamedTuple

from .. import blocks, lengths, making, seamtest, settings, sewing
from ..draw import Lines, Measure, Picture, Shapes, beside
from ..draw.panels import fabric_layers
from ..handout.seam_page import READ_TO
from ..shapes import rectangle
from ..usual import EASED, SEAM
from .controls import Choice, Length, Whole
from .demo import Demo, Shown
from .lesson import Lesson
from .questions import Question
from .readings_drawn import fine
from .still import Still
from .table import Table
from .told import Told

BLOCK, BORDER = Fraction(6), Fraction(3)  # inches, finished
STRAIGHT, ON_POINT = "straight, in rows", "on point"
PLANS = {STRAIGHT: (settings.straight, 4, 5), ON_POINT: (settings.on_point, 3, 4)}
"""The two quilts, about as large: how each is planned, and its blocks across and down."""

ERRORS = tuple(Fraction(part, 64) for part in (-2, 0, 1, 2, 4))
PATCHES = 3  # along a side of a block, where nothing else is said
ROLES = {"cream": "white", "navy": "blue", "setting": "orange"}
GAP = 1.2  # inches between a top and its border strips


class Sewn(NamedTuple):
    """A top sewn with another seam than its plan's: its cloth, its size and that of its blocks, and the plan's, each
    with its raw edges, in inches to the nearest 1/32."""

    top: sewing.Panel
    size: tuple[Fraction, ...]
    block: Fraction
    should: tuple[Fraction, ...]
    block_should: Fraction

    @property
    def short(self):
        """How much the top is too narrow, and too low (less than 0: too wide, too high)."""
        return tuple(should - size for should, size in zip(self.should, self.size))


@lru_cache(maxsize=64)
def sewn(setting, error, patches):
    """The quilt of that setting, cut as planned and sewn with allowances that take `error` too much.

    >>> sewn(STRAIGHT, Fraction(1, 32), 3).short                                   # 11 seams across, 14 down
    (Fraction(11, 16), Fraction(7, 8))
    """
    plan = _plan(setting, patches)
    made = making.make(plan.sheet().model_copy(update={"seam": SEAM + error}), as_printed=True)
    (name,) = plan.sheet().block
    should = [side + 2 * float(SEAM) for side in plan.size]
    block = made.panel(name).size[0]
    return Sewn(made.top, _measured(made.top.size), *_measured([block]), _measured(should), BLOCK + 2 * SEAM)


def _measured(sides):
    """Lengths as a ruler shows them."""
    return tuple(lengths.ruler(side, READ_TO, "nearest") for side in sides)


@lru_cache(maxsize=16)
def _plan(setting, patches):
    kind, across, down = PLANS[setting]
    rows = [" ".join("AB"[(i + j) % 2] for i in range(patches)) for j in range(patches)]
    block = blocks.read(" | ".join(rows), size=BLOCK, name="checkers", fabrics={"A": "navy", "B": "cream"})
    return kind(across=across, down=down, block=block)


def model(error, setting, patches):
    """The top as it is sewn, the top as planned, and border strips cut for the plan."""
    one = sewn(setting, error, patches)
    words = (
        f"{_said(error)} Blocks of {patches} × {patches} squares come out {fine(one.block)} in with their raw edges, "
        f"where {fine(one.block_should)} in is planned. The top, {setting}, comes out {_size(one.size)} in"
        f"{_trimmed(setting, error)}, where {_size(one.should)} in is planned and its border strips are cut. "
        f"{_borders(one)}"
    )
    return Shown(_drawn(one, "", words, measured=True), words)


DEMO = Demo(
    "How the error grows",
    model,
    (
        Length("error", "Allowance off by", "-1/16", "1/16", "1/64", "1/32"),
        Choice("setting", "The blocks are set", tuple(PLANS), STRAIGHT),
        Whole("patches", "Squares along a block", 2, 6, PATCHES),
    ),
    height=560,
)


def all_at_once():
    """Both settings, sewn with allowances that take too little, right, and too much, on one scale: a Still."""
    cells = [(setting, error, sewn(setting, error, PATCHES)) for setting in PLANS for error in ERRORS]
    told = [f"{setting.capitalize()}: {_said(error)} {_borders(one)}" for setting, error, one in cells]
    pictures = [
        _drawn(one, f"{setting.split(',')[0]},\n{_signed(error)}", said, caption=_off(one))
        for (setting, error, one), said in zip(cells, told)
    ]
    return Still(beside(pictures, columns=len(ERRORS), alt=" ".join(told)), answer().text(), height=620)


def answer():
    """What all these tops have in common: a Told."""
    shares = {setting: _share(sewn(setting, ERRORS[-1], PATCHES)) for setting in PLANS}
    same = max(shares.values()) - min(shares.values()) < Fraction(1, 100)
    said = "both lose the same share of their size" if same else "they lose different shares of their size"
    fits = min(EASED / 2 / seams for seams in _seams(STRAIGHT))
    return Told(
        f"Straight or on point, {said}: about {round(100 * max(shares.values()))} percent with {fine(ERRORS[-1])} in "
        f"too much in each allowance. A border cut for the plan would fit this top only if no allowance were off by "
        f"more than {float(fits):.3f} in, which nobody sews: measure the sewn top first, then cut its borders."
    )


def grows():
    """What an error comes to over a block, a row and a top of the straight quilt: a Table."""
    across, down = _seams(STRAIGHT)
    steps = {"a block": PATCHES - 1, "the width of the top": across, "its height": down}
    head = ("too much in each allowance", *(f"{name}, {seams} seams" for name, seams in steps.items()))
    rows = tuple(
        (f"{fine(error)} in", *(f"{fine(seamtest.grown(error, seams))} in" for seams in steps.values()))
        for error in ERRORS
        if error > 0
    )
    return Table(head, rows)


def questions():
    """The guess before the reveal, and the puzzles after it."""
    return {"guess": _smaller_patches(), "top": _top(), "border": _border()}


lesson = Lesson(DEMO, questions)


def _seams(setting, patches=PATCHES):
    """How many seams lie across the straight quilt, and down it."""
    _, across, down = PLANS[setting]
    return across * patches - 1, down * patches - 1


def _smaller_patches(error=Fraction(1, 32), few=2, many=4):
    lost = [sewn(STRAIGHT, error, patches).short[0] for patches in (few, many)]
    times = round(lost[1] / lost[0])
    choices = ("the same, they are as large", "half as much, they are half as large", f"about {times} times as much")
    return Question(
        f"Two quilts have the same blocks of {fine(BLOCK)} in, one sewn from {few} × {few} squares, the other from "
        f"{many} × {many} smaller ones. Both are sewn with {fine(error)} in too much in each allowance. "
        "How much does the second lose, compared with the first?",
        choices[2],
        choices=choices,
        hint="Nothing is lost in a patch, only in seams. Count them.",
        mistakes=(
            (choices[0], "The fabric is the same, but the seams are not as many."),
            (choices[1], "A seam takes as much whatever it joins; smaller patches need more seams."),
        ),
        why=f"The quilt of {few} × {few} squares a block loses {fine(lost[0])} in of its width, that of "
        f"{many} × {many} squares {fine(lost[1])} in: the seams count, not the patches.",
    )


def _top(error=Fraction(1, 64), blocks=5, patches=4):
    seams = blocks * patches - 1
    lost = seamtest.grown(error, seams)
    return Question(
        f"{blocks} blocks of {patches} × {patches} squares stand in a row. Each allowance takes {fine(error)} in too "
        "much. How much is the row too short?",
        lost,
        unit="in",
        hint="Count the seams in a block and between blocks, and then the allowances.",
        mistakes=(
            (seamtest.grown(error, blocks - 1), "Those are the seams between blocks; there are more inside them."),
            (seamtest.grown(error, blocks * (patches - 1)), "Those are the seams inside blocks; they are joined too."),
            (lost / 2, "A seam takes an allowance from both sides."),
        ),
        why=f"{seams} seams, two allowances each.",
    )


def _border():
    answer, planned, longest = "the top, after it is sewn", "the plan", "the longest side of the four"
    return Question(
        "A top is sewn and lies on the table. What do you measure before you cut its borders?",
        answer,
        choices=(planned, answer, longest),
        hint="Which of the two has your seams in it?",
        mistakes=(
            (planned, "The plan knows nothing of your needle."),
            (longest, "That makes the other sides wave: measure through the middle of the top (common practice)."),
        ),
        why="Through its middle, across and down (common practice); then cut, and ease the edges to the strips.",
    )


def _share(one):
    """How much of its planned width a top has lost, as a share of it."""
    return one.short[0] / (one.should[0] - 2 * SEAM)


def _said(error):
    if not error:
        return "Each allowance takes what it should."
    return f"Each allowance takes {fine(abs(error))} in too {'much' if error > 0 else 'little'}."


def _trimmed(setting, error):
    """How the edges of a top on point came about, in words; one in rows ends with its blocks."""
    if setting != ON_POINT:
        return ""
    return (
        f" (its side and corner triangles are cut for the plan, and its edges trimmed {fine(SEAM + error)} in outside "
        "the points, as much as an allowance takes)"
    )


def _signed(error):
    return "as planned" if not error else f"{'−' if error < 0 else '+'}{fine(abs(error))} in"


def _size(sides):
    return " by ".join(map(fine, sides))


def _off(one):
    worst = max(one.short, key=abs)
    if abs(worst) <= EASED:
        return "borders fit"
    return f"{fine(abs(worst))} in too {'small' if worst > 0 else 'large'}"


def _borders(one):
    """Whether border strips cut for the plan fit, in words."""
    if all(abs(short) <= EASED for short in one.short):
        return "They fit."
    across, down = (f"{fine(abs(short))} in too {'long' if short > 0 else 'short'}" for short in one.short)
    return f"They are {across} along the top and bottom and {down} along the sides."


def _drawn(one, title, words, measured=False, caption=""):
    """A sewn top with a border strip beside it and one above it, as they are cut."""
    (width, height), (wide, high) = (tuple(map(float, sides)) for sides in (one.size, one.should))
    deep, beside_it, above_it = float(BORDER + 2 * SEAM), max(width, wide) + GAP, max(height, high) + GAP
    strips = [
        [(x + beside_it, y) for x, y in rectangle(deep, high)],
        [(x, y + above_it) for x, y in rectangle(wide, deep)],
    ]
    layers = [
        *fabric_layers(one.top, ROLES),
        Lines([[(0, 0), (wide, 0), (wide, high), (0, high), (0, 0)]], "outline", "the top as planned"),
        Shapes(strips, "yellow", "border strips, cut for the plan"),
    ]
    if measured:
        layers += [
            Measure((0, 0), (width, 0), f"{fine(width)} in", away=-14),
            Measure((0, 0), (0, height), f"{fine(height)} in", away=14),
            Measure((beside_it + deep, 0), (beside_it + deep, high), f"{fine(high)} in", away=-14),
            Measure((0, above_it + deep), (wide, above_it + deep), f"{fine(wide)} in", away=14),
        ]
    return Picture(layers, words, title, caption)
