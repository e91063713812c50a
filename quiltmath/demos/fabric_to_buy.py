"""Fabric to buy: where every piece of one fabric lies, and what narrower fabric, a wash and straight ends cost."""

from fractions import Fraction
from functools import partial

from .. import lengths, yardage
from ..draw import beside, inches
from . import fabric_drawn as fabric
from .controls import Length, Whole
from .demo import Demo, Shown
from .lesson import Lesson
from .questions import Question
from .still import Still
from .table import Table
from .told import InTurn, Told

WIDTHS = tuple(map(Fraction, (44, 42, 40)))
SHRUNK = 4  # percent: where the app opens, in the questions and where all widths stand together


def model(width, percent, straighten):
    """The cutting diagram of the fabric as it comes out of the wash, within the length that is bought."""
    washed = yardage.washed(width, percent)
    plan = fabric.plan(washed)
    buy = _bought(plan, percent, straighten)
    wash = f", {inches(washed)} in after a wash that shrinks it by {percent} percent" if percent else ""
    ends = f"With {inches(straighten)} in to straighten its ends, buy" if straighten else "Buy"
    of, when = (" of the washed fabric", " before the wash") if percent else ("", "")
    words = (
        f"Fabric {inches(width)} in wide{wash}: {_taken(plan, of)} {ends} {inches(buy)} in{when}, sold as {_sold(buy)}."
    )
    diagram = fabric.within(fabric.drawn(washed, words), plan, width, buy, percent, straighten)
    return Shown(diagram, words)


def first_model(width):
    """The cutting diagram of fabric so wide, as it is bought."""
    plan = fabric.plan(width)
    words = f"Fabric {inches(width)} in wide: {_taken(plan)} That is sold as {_sold(plan.length)}."
    return Shown(fabric.drawn(width, words), words)


WIDTH = Length("width", "Usable width of fabric", "40", "44", "1/2", "42")
DEMO = Demo(
    "Fabric to buy",
    model,
    (
        WIDTH,
        Whole("percent", "Shrinks by, percent", 0, 8, SHRUNK),
        Length("straighten", "To straighten the ends", "0", "4", "1/2", lengths.text(yardage.STRAIGHTENED)),
    ),
    height=720,
)
FIRST = Demo("One fabric, piece by piece", first_model, (WIDTH,), height=680)


def all_at_once(percent=SHRUNK):
    """Three widths, unwashed and washed, on one scale: a Still."""
    pictures = [_at(width, less) for less in (0, percent) for width in WIDTHS]
    words = " ".join(picture.alt for picture in pictures)
    return Still(beside(pictures, columns=len(WIDTHS), alt=words), words, height=960)


def binding(width=60, height=80, strip="2 1/2"):
    """The binding of one quilt from fabric of three widths: a Table.

    >>> print(binding().text().splitlines()[2])
        strips across it: 7
    """
    rings = [(usable, yardage.binding(width, height, strip, usable)) for usable in WIDTHS]
    rows = [
        (
            f"{inches(usable)} in",
            str(ring.strips),
            f"{inches(yardage.on_the_tape(ring.length))} in",
            f"{lengths.text(ring.yards * 36, unit='yd')}",
        )
        for usable, ring in rings
    ]
    needed, extra = (f"{inches(one)} in" for one in (rings[0][1].needed, rings[0][1].extra))
    caption = (
        f"A quilt of {width} by {height} in, strips {strip} in wide: once round and {extra} extra are {needed}; each "
        f"join takes {strip} in."
    )
    return Table(("width of fabric", "strips across it", "take of its length", "buy"), tuple(rows), caption)


def order_of_cutting(width="42"):
    """The strips in the order of cutting, what each gives, and the bound, in words."""
    plan, first, rows = fabric.plan(lengths.parse(width)), 1, []
    for strip in plan.strips:
        last = first + strip.count - 1
        rows.append((f"{first}" if strip.count == 1 else f"{first} to {last}", strip.strips, strip.gives))
        first = last + 1
    head = "in order", "strips", "each gives"
    return InTurn(Table(head, tuple(rows), f"Fabric {lengths.text(width)} in wide"), Told(f"{plan.sentence}."))


def what_the_review_says(width="42"):
    """What the review says of four lengths of this fabric: one that never will do, one between, one that just does, one
    with a little more: a Told."""
    from .. import review

    wide = lengths.parse(width)
    plan = fabric.plan(wide)
    more = plan.length + yardage.STRAIGHTENED
    between = lengths.ruler((plan.least_on_ruler + plan.length) / 2, "1/8", "up")
    never = plan.least_on_ruler - yardage.STRAIGHTENED
    said = []
    for bought in dict.fromkeys((never, between, plan.length, more)):
        found = review.review(fabric.reading(wide, bought).sheet).findings
        mine = [f"{one.level}: {one.message}" for one in found if one.check == "fabric-short"]
        said.append(f"{lengths.text(bought)} in bought: {' '.join(mine) or 'nothing to say.'}")
    return Told(*said)


def on_paper():
    """The sheet of this lesson to take away, bound in the same fabric: its pattern, cutting diagrams, templates and
    cutting list."""
    from .downloads import Downloads
    from .handed_out import handout_files

    sheet = fabric.reading(WIDTH.value).sheet
    return Downloads(handout_files(sheet.title, lambda: sheet), f"{sheet.title}:")


def questions():
    """The guess before the reveal, and the puzzles after it."""
    return {"guess": _narrower(), "strips": _strips(), "washed": _washed(), "binding": _binding()}


lesson = Lesson(DEMO, questions, first=FIRST, uncovered=partial(FIRST.app, width=WIDTHS[-1]))


def _narrower():
    wide, narrow = WIDTHS[0], WIDTHS[-1]
    least, most = (fabric.plan(width).length for width in (wide, narrow))
    answer = f"{inches(most - least)} in"
    by_area = f"{inches(least * wide / narrow - least)} in"
    same = f"{inches(wide - narrow)} in"
    return Question(
        f"A small quilt takes {inches(least)} in of a plum fabric {inches(wide)} in wide, for its setting triangles, "
        f"border and binding. The shop has it {inches(narrow)} in wide. How much more length does it take?",
        answer,
        choices=("none", by_area, same, answer),
        hint="What lay side by side in one strip may no longer do so; then a whole new strip is cut.",
        mistakes=(
            ("none", "Less fits side by side, so more strips are cut."),
            (by_area, "That keeps the area the same, as if pieces could be poured."),
            (same, "That is what the width lacks; length goes by whole strips."),
        ),
        why=f"{inches(most)} in instead of {inches(least)} in: strips come whole.",
    )


def _strips(count=66, side=Fraction(7, 2), seam=yardage.SEAM):
    width = WIDTHS[1]
    plan = yardage.length_needed([yardage.Piece(side, side, count, any_way=True)], width)
    across, finished = yardage.across(side, width), side - 2 * seam
    least = count * side * side / width
    return Question(
        f"{count} squares are cut {inches(side)} in from fabric {inches(width)} in wide. How many inches of length do "
        "they take?",
        plan.length,
        unit="in",
        hint="How many squares does one strip give? Then how many strips, the last one whole?",
        mistakes=(
            (least, "That is their area over the width; the last strip is cut whole all the same."),
            (count // across * side, "That rounds the strips down, and some squares are missing."),
            (-(-count // yardage.across(finished, width)) * finished, "That is reckoned with finished squares."),
        ),
        why=f"{across} squares from a strip, so {-(-count // across)} strips of {inches(side)} in.",
    )


def _washed(needed=Fraction(120), percent=SHRUNK):
    answer = yardage.length_to_buy(needed, percent=percent, straighten=0)
    return Question(
        f"{inches(needed)} in of fabric must be there after the wash, and it shrinks by {percent} percent. How many "
        "inches do you buy?",
        answer,
        unit="in",
        hint=f"Of each 100 in that you buy {inches(yardage.washed(100, percent))} in come out of the wash.",
        mistakes=(
            (needed * (100 + percent) / 100, f"That adds {percent} percent of what is left, not of what is bought."),
            (yardage.washed(needed, percent), "That is what is left of it if you buy no more."),
            (needed, "That leaves nothing for the wash."),
        ),
        why=f"{inches(answer)} in lose {inches(answer - needed)} in.",
    )


def _binding(width=90, height=110, strip=Fraction(5, 2)):
    across = WIDTHS[1]
    ring = yardage.binding(width, height, strip, across)
    without = -(-ring.needed // across)
    return Question(
        f"A quilt of {width} by {height} in is bound with strips {inches(strip)} in wide, cut across fabric "
        f"{inches(across)} in wide and joined on the diagonal, with {inches(ring.extra)} in extra. How many strips?",
        ring.strips,
        hint=f"Each diagonal join takes as much as a strip is wide, {inches(ring.lost)} in.",
        mistakes=(
            (without, "That forgets what the joins take."),
            (ring.needed // across, "That rounds down and forgets the joins: the ring does not close."),
            (-(-(width + height + ring.extra) // (across - ring.lost)), "That is half way round."),
        ),
        why=f"{inches(ring.needed)} in, and each strip gives {inches(across - ring.lost)} in: "
        f"{inches(yardage.on_the_tape(ring.length))} in of fabric.",
    )


def _at(width, percent):
    """The small picture of one width, washed or not, with what to buy of it."""
    washed = yardage.washed(width, percent)
    plan = fabric.plan(washed)
    buy = _bought(plan, percent, 0)
    title = f"{inches(width)} in wide" + (f",\nshrinks {percent} %" if percent else "")
    words = f"{title}: buy {inches(buy)} in, {_sold(buy)}.".replace("\n", " ")
    return fabric.small(washed, title, f"buy {inches(buy)} in,\n{_sold(buy)}", words)


def _bought(plan, percent, straighten):
    """The length to buy for a plan, as it is told and drawn."""
    return yardage.on_the_tape(yardage.length_to_buy(plan.length, percent=percent, straighten=straighten))


def _taken(plan, of=""):
    """What a plan takes, and what no plan gets under, in two sentences; `of` says of which fabric."""
    count = sum(strip.count for strip in plan.strips)
    least = (
        "No cutter does with less."
        if plan.at_least == plan.length
        else f"Less than {inches(plan.least_on_ruler)} in{of} never will do, however it is cut."
    )
    return f"{count} strips take {inches(plan.length)} in{of}. {least}"


def _sold(length):
    return lengths.text(yardage.yards(length) * 36, unit="yd")
