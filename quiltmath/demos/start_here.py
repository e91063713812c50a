"""Start here: which page answers which question, whether a slider works, and the words of the trade."""

import json
import re
from fractions import Fraction

from .. import glossary, seamtest, sewing
from ..draw import Measure, Picture, Shapes, inches
from ..draw.panels import fabric_layers
from ..resources import folder
from ..shapes import rectangle
from ..usual import SEAM
from .controls import Whole
from .demo import Demo, Shown
from .lesson import Lesson
from .questions import Question
from .table import Link, Table

QUESTIONS = {
    "01": ("My blocks come out too small, or my rows do not fit.", "everyone, before the first block"),
    "02": ("My triangles come out too small.", "whoever cuts triangles"),
    "03": ("What size will it be, in rows or on point?", "whoever plans a quilt"),
    "04": ("The pattern tells me to cut blocks in half.", "everyone who sets a quilt on point"),
    "05": ("The edges of my top wave.", "everyone who cuts on the bias"),
    "06": ("What do I sew instead of half blocks?", "whoever wants every point at the edge of a quilt on point"),
    "07": ("How long do I cut sashing, frames and borders?", "whoever joins blocks or finishes a top"),
    "08": ("How much fabric do I buy?", "whoever stands at the counter, on either side of it"),
    "09": ("A pattern looks wrong.", "teachers, and whoever writes patterns"),
}
"""What a quilter asks, and for whom the page is that answers it, by the page's number."""

SQUARE, MOST = Fraction(7, 2), 12
ROLES = {"navy": "blue", "gold": "yellow"}
TIME = re.compile(r"\*\*Time:\*\*\s*(.*?)(?:\n\n|$)", re.DOTALL)


def pages():
    """Which page answers which question, for whom, and how long it takes: a Table.

    >>> pages().rows[-1][:2]
    ('A pattern looks wrong.', Link(words='Check a pattern', place='09-check-a-pattern.ipynb'))
    """
    places = sorted(folder("notebooks").glob("[0-9]*.ipynb"))
    rows = (
        (asked, Link(title, place.name), whom, time)
        for place in places
        if place.stem[:2] in QUESTIONS
        for asked, whom in [QUESTIONS[place.stem[:2]]]
        for title, time in [_title_and_time(place)]
    )
    return Table(("you say", "open", "for", "it takes"), tuple(rows))


def words():
    """The words of the trade as this kit uses them: a Table."""
    rows = tuple(
        (f"{one.name} ({', '.join(one.also)})" if one.also else one.name, one.meaning) for one in glossary.TERMS
    )
    return Table(("word", "what it means here"), rows)


def model(count):
    """So many squares sewn in a row."""
    squares = [sewing.patch(size=(SQUARE, SQUARE), fabric=fabric, part="square") for fabric in ROLES]
    row = sewing.in_a_row([squares[number % 2] for number in range(count)])
    long = f"{inches(row.size[0])} in"
    many = f"{count} square{'s' * (count > 1)} cut {inches(SQUARE)} in"
    said = f"{many}, sewn side by side: {long} long, raw edge to raw edge."
    picture = Picture(
        [
            Shapes([rectangle(MOST * SQUARE, SQUARE)], "faint", f"{MOST} squares before they are sewn"),
            *fabric_layers(row, ROLES),
            Measure((0, 0), (row.size[0], 0), long, away=-14),
        ],
        alt=said,
    )
    return Shown(picture, said)


DEMO = Demo("Squares in a row", model, (Whole("count", "Squares", 1, MOST, 3),), height=220)


def questions(count=5):
    """The question that shows how answers are checked."""
    right, whole = seamtest.expected(SQUARE, count).total, count * SQUARE
    return {
        "row": Question(
            f"{count} squares cut {inches(SQUARE)} in are sewn side by side, with seams of {inches(SEAM)} in. How long "
            "is the row, from raw edge to raw edge?",
            right,
            unit="in",
            close=Fraction(1, 8),
            hint=f"Move the slider above to {count}. How much goes into each seam?",
            mistakes=(
                (whole, "That is what they measure before they are sewn."),
                (
                    count * (SQUARE - 2 * SEAM),
                    "That is a seam for every square, as if both ends were sewn to something already.",
                ),
                (whole - (count - 1) * SEAM, "Each seam takes its allowance from both squares."),
            ),
            why=f"{count - 1} seams, and each takes {inches(2 * SEAM)} in.",
        )
    }


lesson = Lesson(DEMO, questions)


def _title_and_time(place):
    """The title of a notebook, and what it says of its minutes."""
    sources = [
        "".join(cell["source"])
        for cell in json.loads(place.read_text("utf-8"))["cells"]
        if cell["cell_type"] == "markdown"
    ]
    times = [found[1] for source in sources if (found := TIME.search(source))]
    return sources[0].splitlines()[0].lstrip("# "), " ".join(times[0].split()) if times else ""
