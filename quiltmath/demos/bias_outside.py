"""Bias on the outside: a straight top sliced at 45 degrees and turned, and what a stretchy edge does."""

import itertools
from fractions import Fraction
from functools import lru_cache
from math import hypot

from .. import blocks, lengths, settings, shapes
from ..draw import Lines, Picture, Shapes, beside, inches, panel_picture
from ..usual import SEAM
from .controls import Choice, Length, Whole
from .demo import Demo, Shown
from .halves import halves
from .lesson import Lesson
from .questions import Question
from .still import Still

FOUR_PATCH = blocks.read("A B | B A", size=6, name="four-patch", fabrics={"A": "rust", "B": "oat"})
ROLES = {"oat": "white", "rust": "orange"}
MOST_STRETCH = 10  # hundredths: as far as the slider goes
TOP, BORDER = 8.0, 5.0  # inches: how much of the top and of the border is drawn
EDGE = 60  # inches: the edge of the invented quilt in the stretching picture


def model(down, block, way):
    """A top twice as wide as high, sliced and turned, or the same picture on point from the start."""
    turned, cut = _turned(down, block), way == WAY.value
    lost, bias, width, height = (mine if cut else theirs for _, mine, theirs in turned.tally())
    panel = turned.panel if cut else _planned(down, block)
    words = (
        f"{way[0].upper()}{way[1:]}: {lost} points lost, {bias} of bias on the outside; the quilt finishes "
        f"{width.removesuffix(' in')} by {height}."
    )
    return Shown(panel_picture(panel, title=way, fabrics=ROLES, name=way.capitalize()), words)


def first_model(stretch):
    """An edge of 60 in, cut on the grain and cut on the bias, when the bias gives by so many hundredths."""
    longer = EDGE * (1 + stretch / 100)
    waves, flat = _waved(EDGE, longer), stretch == 0
    words = (
        f"If the bias gives by {stretch} %, an edge of {EDGE} in comes to {inches(longer)} in: "
        f"{inches(longer - EDGE)} in too much for its border. (How much it gives depends on "
        "the fabric; no figure for quilting cotton is printed.)"
    )
    most = max(y for _, y in _waved(EDGE, EDGE * (1 + MOST_STRETCH / 100)))
    low = min(y for _, y in waves)
    border = [(0, low - BORDER), (EDGE, low - BORDER), (EDGE, low), (0, low)]
    picture = Picture(
        [
            Shapes([[*waves, (EDGE, TOP), (0, TOP)]], "yellow", "quilt top"),
            Shapes([border], "sky", "border"),
            *([] if flat else [Shapes([[*waves, (EDGE, low), (0, low)]], "faint", "gap, where it does not lie flat")]),
            Lines([[(0, low), (EDGE, low)]], "raw edge", "cut along a thread"),
            Lines([waves], "raw edge" if flat else "bias edge", "" if flat else "on the bias, pushed together to fit"),
        ],
        alt=words,
        title="Will the border lie flat?",
        room=[(0, -most - BORDER), (EDGE, TOP)],
    )
    return Shown(picture, words)


DOWN = Whole("down", "Blocks down", 2, 5, 3)
WAY = Choice("way", "The top was", ("sliced and turned", "set on point from the start"), "sliced and turned")
DEMO = Demo(
    "Bias on the outside", model, (WAY, DOWN, Length("block", "Finished block", "4", "10", "1", "6")), height=560
)
FIRST = Demo(
    "A stretchy edge", first_model, (Whole("stretch", "The bias gives, in percent", 0, MOST_STRETCH, 3),), height=420
)


def all_at_once(block=6):
    """Sliced and turned above, on point from the start below, for two to four blocks down: a Still."""
    downs = (2, 3, 4)
    above = [
        panel_picture(_turned(down, Fraction(block)).panel, title=f"{2 * down} by {down}, turned", fabrics=ROLES)
        for down in downs
    ]
    below = [
        panel_picture(_planned(down, Fraction(block)), title="on point from the start", fabrics=ROLES) for down in downs
    ]
    lost = [_turned(down, Fraction(block)).lost_points for down in downs]
    words = (
        f"Sliced and turned they lose {', '.join(map(str, lost))} points and all of their outside lies on the bias; "
        "planned on point they lose none."
    )
    return Still(beside([*above, *below], columns=3, alt=words), words)


def grain_of_angles():
    """Edges cut at several angles to the lengthwise thread, the threads drawn, and what each gives: a Still."""
    gives = {0: "lengthwise:\nhardly gives", 90: "crosswise:\ngives a little", 45: "bias:\ngives most"}
    pictures = []
    for angle in (0, 20, 45, 70, 90):
        off = shapes.off_grain((0, 0), shapes.direction(90 - angle), 90.0)
        said = gives.get(angle, f"{off:g}° off a thread:\ngives")
        words = said.replace("\n", " ")
        pictures.append(Picture(_cut_at(angle, off), f"Cut at {angle} degrees: {words}.", f"{angle}°", said))
    words = (
        "An edge along the lengthwise thread, which runs along the selvage, hardly gives; along the crosswise one it "
        "gives a little; the nearer to 45 degrees, the more (common practice)."
    )
    return Still(beside(pictures, alt=f"{words} {' '.join(picture.alt for picture in pictures)}"), words)


def _cut_at(angle, off, wide=3.2, high=4.0, apart=0.4):
    """A piece of fabric with its threads and selvage, and an edge cut at an angle to the lengthwise thread."""
    steps = [apart * k for k in range(1, round(high / apart))]
    threads = [[(x, 0), (x, high)] for x in steps if x < wide] + [[(0, y), (wide, y)] for y in steps]
    x, y = shapes.direction(90 - angle)
    reach = 0.92 * min(wide / 2 / x if x > 1e-9 else high, high / 2 / y if y > 1e-9 else high)
    ends = [(wide / 2 - reach * x, high / 2 - reach * y), (wide / 2 + reach * x, high / 2 + reach * y)]
    edge = Lines([ends], *(("raw edge", "cut along a thread") if off < 1 else ("bias edge", "cut across the threads")))
    return [
        Shapes([[(0, 0), (wide, 0), (wide, high), (0, high)]], "white"),
        Lines(threads, "seam", "threads"),
        Lines([[(0, 0), (0, high)]], "guide", "selvage"),
        edge,
    ]


def questions():
    """The guess before the reveal, and the puzzles after it."""
    turned = _turned(3, Fraction(6))
    choices = ("none of them", "two of them", "all four of them")
    ways = {"straight": 0, "bias": 4}
    sides = len({edge.grain for edge in turned.panel.raw_edges()} & {"bias"}) * ways["bias"]
    beyond = SEAM / 4
    kept, _ = halves(2, FOUR_PATCH.size / 2, beyond)
    deep = lengths.ruler(kept.lost_by, "1/64", "nearest")
    sixty = shapes.off_grain((0, 0), shapes.direction(60), 0.0)
    return {
        "guess": Question(
            "A checkered top, twice as wide as it is high, is cut from its two lower corners to the middle of its top "
            "edge, and the pieces are turned so that the squares stand on point. "
            "How many of the four outer edges of the new top lie on the bias?",
            choices[{0: 0, 2: 1, 4: 2}[sides]],
            choices=choices,
            hint="Which edges of the pieces end up inside, and which outside?",
            mistakes=(
                (
                    "none of them",
                    "The edges that lay on the grain are sewn together in the middle; the cuts are outside now.",
                ),
                ("two of them", "Both cuts have two sides, and all of those end up outside."),
            ),
            why="Each cut has two sides, and all four of those become the outside.",
        ),
        "deep": Question(
            f"A cut leaves {lengths.text(beyond)} in of fabric beyond the points where four squares meet. How much of "
            "each point is gone once a border or the binding is sewn to that edge with a 1/4 in seam?",
            deep,
            unit="in",
            hint="Where will the seam run, and how far is that from the raw edge?",
            mistakes=(
                (0, "The seam takes its allowance from the raw edge inward, and here that reaches past the points."),
                (SEAM, "That is a cut that runs through the points; this one leaves some fabric beyond them."),
                (SEAM + beyond, "What was left beyond the points is taken first; only the rest comes off them."),
            ),
            why="The seam takes what was left beyond the points, and the rest of its 1/4 in from the points.",
        ),
        "angle": Question(
            "A triangle with three equal sides, all corners of 60 degrees, is cut with its lower side along a thread. "
            "How many degrees off the nearest thread do its other two sides lie?",
            round(sixty),
            unit="degrees",
            hint="There are two threads, square to each other. How far is it to the other one?",
            mistakes=(
                (60, "That is how far they lie off the thread of the lower side; the other thread is nearer."),
                (45, "That would be the bias itself, half-way between the two threads."),
                (90, "90 degrees to one thread runs along the other."),
                (0, "The lower side lies along a thread; these two slant."),
            ),
            why="60 degrees to one thread is 30 to the other: not the bias, but they give all the same.",
        ),
    }


lesson = Lesson(DEMO, questions, first=FIRST, uncovered=DEMO.app)


@lru_cache(maxsize=64)
def _turned(down, block):
    return settings.cut_and_turn(settings.straight(across=2 * down, down=down, block=FOUR_PATCH.resized(block)))


@lru_cache(maxsize=64)
def _planned(down, block):
    """The same picture planned on point, with end triangles built from the block's squares."""
    return _turned(down, block).planned.panel()


def _waved(width, length, waves=3, height=9.0):
    """A line as long as `length` that is pushed together to `width`: it must wave."""

    def path(high):
        steps = 24 * waves
        return [(width * i / steps, high * shapes.direction(360 * waves * i / steps)[1]) for i in range(steps + 1)]

    def long(points):
        return sum(hypot(b[0] - a[0], b[1] - a[1]) for a, b in itertools.pairwise(points))

    low, high = 0.0, height
    for _ in range(40):
        middle = (low + high) / 2
        low, high = (middle, high) if long(path(middle)) < length else (low, middle)
    return path(low)
