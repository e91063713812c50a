"""The readings of a class: ten strip tests typed or pasted, and shown together."""

from .. import seamtest
from ..draw import beside
from ..usual import EASED
from .controls import Choice, Lines
from .demo import Demo, Shown
from .lesson import Lesson
from .quarter_inch import STEPS
from .questions import Question
from .readings_drawn import fine, off_drawn
from .table import Table

SHEET = """\
name, total, centre
Ana, 3 1/2, 1
Bo, 3 5/16, 15/16
Cleo, 3 3/8, 31/32
Dov, 3 1/4, 7/8
Ebba, 3 9/16, 1 1/32
Fritz, 3 7/16, 31/32
Gia, 3 1/2, 1 1/16
Hal, 3 3/8,
Ida, 3 5/8, 1 1/16
Jo, 3 1/2, 1 1/2"""
"""An invented class; Hal has measured no centre, and Jo hers from raw edge to raw edge."""


def model(sheet, reading):
    """How far off each needle and each ruler of the class is, on one scale."""
    read = _read(sheet, reading)
    said = " ".join(f"Line {one.line}, {one.name}: {one.words}." for one in read.refused)
    words = f"{read.sentence} {_together(read)}" + (f" {said}" if said else "")
    pictures = off_drawn([(one.name, one.test) for one in read.readings])
    alt = " ".join([words, *(picture.alt for picture in pictures)])
    return Shown(beside(pictures, alt=alt), words)


def _read(text, reading=STEPS[1]):
    """The class sheet; refused where no line of it can be read."""
    read = seamtest.class_sheet(text, reading=reading)
    if not read.readings:
        first = read.refused[0]
        raise ValueError(f"no line of the sheet can be read; line {first.line}, {first.name}: {first.words}")
    return read


DEMO = Demo(
    "The class sheet",
    model,
    (
        Lines("sheet", "A line each: name, total, centre", _read, SHEET),
        Choice("reading", "Read to the nearest, in inches", STEPS, STEPS[1]),
    ),
    height=620,
)


def what_to_change(sheet=SHEET, reading=STEPS[1]):
    """What each of a class moves, and where it could not be read, what to measure again: a Table."""
    read = _read(sheet, reading)
    rows = [(one.line, one.name, one.test.found, one.test.change) for one in read.readings]
    rows += [(one.line, one.name, "could not be read", f"{one.words}.") for one in read.refused]
    return Table(("who", "found", "to do"), tuple(row[1:] for row in sorted(rows)))


def questions():
    """The puzzle after the class sheet."""
    return {"swap": _swap()}


def _swap():
    read = _read(SHEET)
    apart = seamtest.grown(read.apart, 1)
    seams = seamtest.seams_that_fit(read.apart)
    answer, one = f"{fine(apart)} in", f"{fine(read.apart)} in"
    none = "nothing, as each is sewn with one seam throughout"
    return Question(
        "Two of this class swap blocks for one quilt: the one whose allowance is widest, and the one whose is "
        f"narrowest; they are {one} apart. By how much do two rows of two patches differ, one sewn by each?",
        answer,
        choices=(none, one, answer, f"{fine(2 * apart)} in"),
        hint="A row of two patches has one seam. How many allowances lie in it?",
        mistakes=(
            (none, "Each is even in itself, and they still differ from one another."),
            (one, "That is one allowance; a seam is two."),
            (f"{fine(2 * apart)} in", "That would be two seams."),
        ),
        why=f"One seam, two allowances. More than {fine(EASED)} in cannot be eased, so these two should not swap"
        + (" before they have moved their needles." if not seams else f" rows of more than {seams} seams."),
    )


lesson = Lesson(DEMO, questions)


def _together(read):
    """What the class comes to in the middle, in words."""
    middle = read.middle
    if not middle:
        return "In the middle the class sews as it should."
    much = "much" if middle > 0 else "little"
    return f"In the middle an allowance of the class takes {fine(abs(middle))} in too {much}."
