"""The scant quarter inch: what the line of stitches takes of an allowance, and what the fold of the pressed seam."""

from fractions import Fraction
from math import cos, pi, sin

from .. import seamtest
from ..draw import Lines, Measure, Picture, Shapes, Words
from ..shapes import rectangle
from ..usual import SEAM
from .controls import Length
from .demo import Demo, Shown
from .lesson import Lesson
from .quarter_inch import COUNT, STRIP
from .questions import Question
from .readings_drawn import fine

FOLD = Fraction(1, 64)  # inches: a thread or two, where nothing else is said (common practice)
THICK, APART = 0.045, 0.012  # inches: a layer of fabric as it is drawn, and the air between two
SHOWN = 0.45  # inches of both patches beside the seam
STEPS = 12  # corners of a fold


def model(stitched, fold):
    """A seam pressed to one side, from its end: both allowances, the line of stitches and the fold."""
    takes = stitched + fold
    right, total = seamtest.expected(STRIP, COUNT), COUNT * STRIP - seamtest.grown(takes, COUNT - 1)
    words = (
        f"Stitched {fine(stitched)} in from the raw edges; the fold takes {fine(fold)} in more. So each allowance "
        f"takes {fine(takes)} in, and {COUNT} strips of {fine(STRIP)} in measure {fine(total)} in, where "
        f"{fine(right.total)} in is right. {_cure(stitched, fold)}"
    )
    return Shown(_drawn(float(stitched), float(fold), takes, words), words)


DEMO = Demo(
    "The fold of a pressed seam",
    model,
    (
        Length("stitched", "Stitched at", "3/16", "5/16", "1/64", "1/4"),
        Length("fold", "The fold takes", "0", "3/64", "1/64", "1/64"),
    ),
    height=300,
)


def questions():
    """The guess before the reveal."""
    total = COUNT * STRIP - seamtest.grown(SEAM + FOLD, COUNT - 1)
    answer = "the fold of each pressed seam"
    cut, thread = "strips that were cut too wide", "thread that is too thin"
    return {
        "guess": Question(
            f"The stitches lie exactly {fine(SEAM)} in from the raw edges, she has checked it with a ruler before "
            f"pressing. Her {COUNT} strips were cut right, and sewn and pressed they measure {fine(total)} in in all, "
            f"not {fine(seamtest.expected(STRIP, COUNT).total)} in. What took the rest?",
            answer,
            choices=(cut, answer, thread),
            hint="What does the fabric do at the line of stitches when you press the seam to one side?",
            mistakes=(
                (cut, "Then they would measure too much."),
                (thread, "A thick thread takes more room than a thin one."),
            ),
            why=f"Each of the {2 * (COUNT - 1)} allowances takes {fine(FOLD)} in more than was stitched: sew a "
            "scant quarter inch.",
        )
    }


lesson = Lesson(DEMO, questions)


def _cure(stitched, fold):
    wanted = SEAM - fold
    if stitched == wanted:
        return "That is right."
    if not fold:
        return f"Stitch {fine(SEAM)} in from the edges."
    return (
        f"Stitch a scant quarter inch, {fine(wanted)} in from the edges, and the fold makes it up to {fine(SEAM)} in."
    )


def _drawn(stitched, fold, takes, words):
    """The section: the left patch lies on its own allowance, which is folded under, and both on that of the right."""
    levels = [number * (THICK + APART) for number in range(3)]  # right patch, left allowance, left patch
    raw = -fold - stitched
    layers = [
        Shapes([_lying(raw, SHOWN, levels[0])], "yellow", "right patch and its allowance"),
        Shapes(
            [_lying(raw, -fold, levels[1]), _lying(raw - SHOWN, -fold, levels[2]), _folded(fold, levels[1], levels[2])],
            "blue",
            "left patch and its allowance",
        ),
        Lines([[(-fold, levels[0] - 0.02), (-fold, levels[1] + THICK + 0.004)]], "cut line", "line of stitches"),
        Measure((raw, levels[2] + THICK), (-fold, levels[2] + THICK), f"stitched {fine(stitched)} in", away=16),
        Measure((raw, 0), (0, 0), f"takes {fine(takes)} in", away=-16),
        Words((raw - SHOWN / 2, levels[2] + THICK), "left patch", side="above"),
        Words((SHOWN / 2, THICK), "right patch", side="above"),
        Words((raw - 0.02, levels[0] + THICK), "raw edges", anchor="end"),
    ]
    return Picture(layers, words)


def _lying(left, right, low):
    """A layer of fabric, seen from its end."""
    return [(x + left, y + low) for x, y in rectangle(right - left, THICK)]


def _folded(fold, low, high):
    """Half a ring that leads from the layer at one level to the layer at the other, as far to the right as the fold."""
    middle, tall = (low + high + THICK) / 2, (high + THICK - low) / 2
    turns = [pi * step / STEPS - pi / 2 for step in range(STEPS + 1)]
    outer = [(-fold + fold * cos(turn), middle + tall * sin(turn)) for turn in turns]
    inner = [(-fold + fold / 2 * cos(turn), middle + (tall - THICK) * sin(turn)) for turn in reversed(turns)]
    return [*outer, *inner]
