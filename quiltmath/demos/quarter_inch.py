"""The quarter inch: what an error in it comes to in a row, and what a strip test says of needle and of ruler."""

from fractions import Fraction

from .. import lengths, seamtest, sewing
from ..draw import Measure, Picture, Shapes, beside
from ..draw.panels import fabric_layers
from ..handout.seam_page import COUNT, STRIP, to_measure, to_sew
from ..usual import EASED, SEAM
from .controls import Choice, Length
from .demo import Demo, Shown
from .lesson import Lesson
from .questions import Question
from .readings_drawn import ROLES, STRIPS, fine, off_drawn, strips_drawn
from .still import Still
from .told import Told

ROW, PATCH, OFF = 28, Fraction(2), Fraction(1, 16)  # the row of the guess: patches, inches each, too much an allowance
STEPS = ("1/16", "1/32", "1/64")
APART = Fraction(3, 64), Fraction(1, 16)  # inches: how allowances and strips differ where all stand together


def model(total, centre, reading):
    """The strips as these measures say they were cut and sewn, as they should be, and how far needle and ruler are
    off."""
    right, as_it_should = seamtest.expected(STRIP, COUNT), strips_drawn(STRIP, SEAM, COUNT, "As it should be")
    read = (
        f"{COUNT} strips of {fine(STRIP)} in measure {lengths.text(total, mark='in')}, the centre "
        f"{lengths.text(centre, mark='in')}; right is {fine(right.total)} in and {fine(right.centre)} in."
    )
    try:
        test = seamtest.plausible(seamtest.from_strips(STRIP, COUNT, total, centre, reading=reading))
    except ValueError as error:
        words = f"{read} These two cannot be of the same strips: {error}."
        return Shown(beside([as_it_should], alt=words), words)
    words = f"{read} {test.found} {test.change}"
    pictures = [strips_drawn(test.cut, test.taken, COUNT, "As you sewed it"), as_it_should, *off_drawn([("You", test)])]
    return Shown(beside(pictures, columns=2, alt=words), words)


def first_model(taken):
    """A row of patches sewn with allowances that take so much, and the strip of a border cut to the row as planned."""
    squares = [
        sewing.patch(size=(PATCH + 2 * SEAM, PATCH + 2 * SEAM), fabric=fabric, part="patch") for fabric in STRIPS
    ]
    row = sewing.in_a_row([squares[number % 2] for number in range(ROW)], seam=taken)
    is_long, should, high = Fraction(row.size[0]), ROW * PATCH + 2 * SEAM, float(PATCH + 2 * SEAM)
    off = taken - SEAM
    words = (
        f"A row of {ROW} patches that finish {fine(PATCH)} in, with allowances that take {fine(taken)} in, comes out "
        f"{fine(is_long)} in long; its border is cut {fine(should)} in. {_short(should - is_long)} {_fits(off)}"
    )
    low = -float(PATCH) - 2.2
    border = [(0, low), (float(should), low), (float(should), low + float(PATCH)), (0, low + float(PATCH))]
    picture = Picture(
        [
            *fabric_layers(row, ROLES),
            Measure((0, high), (float(is_long), high), f"{fine(is_long)} in", away=14),
            Shapes([border], "white", "border strip, cut for the row as planned"),
            Measure((0, low), (float(should), low), f"{fine(should)} in", away=-14),
        ],
        alt=words,
    )
    return Shown(picture, words)


LEAST, MOST = (seamtest.expected(STRIP, COUNT, seam=seam) for seam in (SEAM + seamtest.SEAM_OFF, 0))
"""What strips that were cut right can measure: with allowances as wide as they are ever read, and with none."""

DEMO = Demo(
    "A strip test, read",
    model,
    (
        Length("total", "Total, all strips", LEAST.total, MOST.total, "1/32", "3 1/4"),
        Length("centre", "Centre strip", LEAST.centre, MOST.centre, "1/32", "7/8"),
        Choice("reading", "Read to the nearest, in inches", STEPS, STEPS[1]),
    ),
    height=500,
    aside=True,
)
FIRST = Demo(
    "A row and its border",
    first_model,
    (Length("taken", "Allowance takes", "3/16", "5/16", "1/64", lengths.text(SEAM + OFF)),),
    height=280,
)


def all_at_once():
    """Three widths of strips sewn with three allowances, on one scale: a Still.

    >>> all_at_once().sentence
    'Three of these measure 3 1/2 in in all, and only one of them is right: the centre strip tells them apart.'
    """
    right, (seam_off, strip_off) = seamtest.expected(STRIP, COUNT), APART
    tried = [(STRIP + cut * strip_off, SEAM + sewn * seam_off) for cut in (-1, 0, 1) for sewn in (-1, 0, 1)]
    pictures = [strips_drawn(cut, taken, COUNT, f"cut {fine(cut)},\ntakes {fine(taken)}") for cut, taken in tried]
    alike = sum(COUNT * cut - seamtest.grown(taken, COUNT - 1) == right.total for cut, taken in tried)
    words = (
        f"{['None', 'One', 'Two', 'Three'][alike]} of these measure {fine(right.total)} in in all, and only one of "
        "them is right: the centre strip tells them apart."
    )
    alt = " ".join([words, *(picture.alt for picture in pictures)]).replace("\n", " ")
    return Still(beside(pictures, columns=3, alt=alt), words, height=760)


def what_to_sew():
    """The strip test as the page of the seam test asks for it: a Told.

    >>> what_to_sew().text().split(",")[0]
    'Cut 3 strips 1 1/2 in by 6 in'
    """
    return Told(to_sew(), f"If all is right, {to_measure(seamtest.expected(STRIP, COUNT))}")


def where_to_measure():
    """The strips of the test, sewn as they should be, with both measures: a Still.

    >>> where_to_measure().sentence
    'Sewn right: 3 strips, 3 1/2 in in all, 1 in from seam to seam.'
    """
    right = strips_drawn(STRIP, SEAM, COUNT, "Sewn right")
    return Still(right, right.alt, height=330)


def questions():
    """The guess before the reveal, and the puzzles after it."""
    return {"guess": _row(), "whose": _whose(), "needle": _needle(), "ten": _ten(), "swap": _swap()}


lesson = Lesson(DEMO, questions, first=FIRST)


def _row():
    lost = seamtest.grown(OFF, ROW - 1)
    one, half = (f"{fine(value)} in" for value in (OFF, lost / 2))
    answer, none = f"{fine(lost)} in", "nothing to speak of"
    return Question(
        f"In a row of {ROW} patches each seam allowance takes {fine(OFF)} in too much. How much too short is the row?",
        answer,
        choices=(none, one, half, answer),
        hint="How many seams are there, and how many allowances lie in each?",
        mistakes=(
            (none, "It would be so if errors cancelled; the same error each time does not."),
            (one, "That is one allowance. There is more than one in a row."),
            (half, "That counts each seam once; a seam takes an allowance from the patch on either side."),
        ),
        why=f"{ROW - 1} seams, two allowances each: {ROW - 1} × 2 × {fine(OFF)} in.",
    )


def _whose(total="3 13/32", centre="31/32"):
    test = seamtest.from_strips(STRIP, COUNT, total, centre, reading=STEPS[-1])
    who = {(False, False): "neither", (True, False): "the needle", (False, True): "the ruler", (True, True): "both"}
    answer = who[test.needle != 0, test.ruler != 0]
    return Question(
        f"Lou's {COUNT} strips were to be cut {fine(STRIP)} in. Sewn, they measure {fine(test.total)} in, and the "
        f"centre strip shows {fine(test.centre)} in, both read to {STEPS[-1]} in. What is off, the needle or the "
        "ruler?",
        answer,
        choices=tuple(who.values()),
        hint=f"Total less {COUNT - 1} centres is how wide the strips were cut. What is left of it beside the centre "
        "went into two allowances.",
        mistakes=(
            ("the needle", "The total is too small, as with seams that take too much; look what the centre says."),
            ("neither", f"Right is {fine(seamtest.expected(STRIP, COUNT).total)} in in all."),
            ("both", "Reckon what one allowance takes: (strip − centre) ÷ 2, with the strip as it was cut."),
        ),
        why=test.advice,
    )


def _needle(total="3 1/16", centre="25/32"):
    test = seamtest.from_strips(STRIP, COUNT, total, centre, reading=STEPS[-1])
    lacks = seamtest.expected(STRIP, COUNT).total - test.total
    return Question(
        f"Mia's {COUNT} strips of {fine(STRIP)} in measure {fine(test.total)} in, the centre {fine(test.centre)} in, "
        f"both read to {STEPS[-1]} in. How far does she move the needle?",
        test.needle,
        unit="in",
        hint="How many allowances share what is missing?",
        mistakes=(
            (lacks, f"That is all that the total lacks; {2 * (COUNT - 1)} allowances share it."),
            (lacks / (COUNT - 1), "That is what a seam takes too much, and a seam is two allowances."),
            (test.taken, "That is what an allowance takes now, not what it takes too much."),
        ),
        why=f"{fine(lacks)} in ÷ {2 * (COUNT - 1)}. {test.change}",
    )


def _swap():
    wide, narrow = (seamtest.from_strips(STRIP, COUNT, *read) for read in (("3 1/4", "7/8"), ("3 1/2", "1 1/16")))
    apart = wide.taken - narrow.taken
    seam, one = f"{fine(seamtest.grown(apart, 1))} in", f"{fine(apart)} in"
    none, two = "nothing, as each sews one seam throughout", f"{fine(seamtest.grown(apart, 2))} in"
    return Question(
        f"Dov's allowances take {fine(wide.taken)} in, Gia's {fine(narrow.taken)} in, and they swap blocks for one "
        "quilt. By how much do two rows of two patches differ, one sewn by each?",
        seam,
        choices=(none, one, seam, two),
        hint="A row of two patches has one seam. How many allowances lie in it?",
        mistakes=(
            (none, "Each is even in itself, and they still differ from one another."),
            (one, "That is one allowance; a seam is two."),
            (two, "That would be two seams."),
        ),
        why=f"One seam, two allowances. No more than {fine(EASED)} in can be eased: let them move their needles first.",
    )


def _ten(count=10):
    right = seamtest.expected(STRIP, count).total
    return Question(
        f"A finer test sews {count} strips of {fine(STRIP)} in. What do they measure in all if everything is right?",
        right,
        unit="in",
        hint=f"{count} strips, and one seam fewer.",
        mistakes=(
            (count * STRIP, "That is before they are sewn."),
            (count * (STRIP - 2 * SEAM), "The two outer edges are still raw: nothing has gone into a seam there."),
            (count * STRIP - (count - 1) * SEAM, "A seam takes its allowance from both strips."),
        ),
        why=f"{count} finished strips of {fine(STRIP - 2 * SEAM)} in, and the two outer allowances.",
    )


def _short(lost):
    if not lost:
        return "They fit."
    return f"The row is {fine(abs(lost))} in too {'short' if lost > 0 else 'long'}."


def _fits(off):
    seams = seamtest.seams_that_fit(off)
    if seams is None:
        return "So they would, however long the row is."
    fits = f"over {seams} seam{'s' * (seams != 1)} and no more" if seams else "over no seam at all"
    return (
        f"An allowance that is {fine(abs(off))} in off puts each seam {fine(abs(seamtest.grown(off, 1)))} in off; "
        f"edges that differ by up to {fine(EASED)} in can be eased together, so a border cut for the plan fits {fits}."
    )
