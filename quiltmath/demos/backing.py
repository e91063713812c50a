"""Backing: how many panels of fabric it takes, and which way their seam had better run."""

from fractions import Fraction
from itertools import pairwise

from .. import lengths, yardage
from ..draw import Lines, Measure, Picture, Shapes, beside, inches
from .controls import Choice, Length
from .demo import Demo, Shown
from .lesson import Lesson
from .questions import Question
from .still import Still

USABLE = Fraction(42)
WIDTHS = (*map(Fraction, (44, 42, 40)), Fraction(108))  # the last is sold for backings (common practice)
HOOP, FRAME = (
    f"{how}, {inches(over / 2)} in on each side"
    for how, over in (("in a hoop", yardage.LEAST_OVER), ("on a longarm frame", yardage.OVER))
)
OVER = {HOOP: yardage.LEAST_OVER, FRAME: yardage.OVER}
WAYS = {"along": "Panels run down", "across": "Panels run across"}
HIGHER = Fraction(5, 4)  # the quilt of the first look: its height to its width
GRAIN = Fraction(1, 8)  # of a panel's length: where the line along its grain begins


def model(width, height, over):
    """The backing with its panels down the quilt and across it, on one scale, the quilt lying on it."""
    both = ways(width, height, OVER[over])
    wide, high = yardage.least_size(width, height, OVER[over])
    said = " ".join(f"{WAYS[way]}: {_said(back)}." for way, back in both.items())
    words = (
        f"A quilt of {inches(width)} by {inches(height)} in, quilted {over}, takes a backing of {inches(wide)} by "
        f"{inches(high)} in, of fabric {inches(USABLE)} in wide. {said} {_better(both)}"
    )
    pictures = [
        drawn(back, way, (width, height), WAYS[way], _said(back).replace(": ", ":\n")) for way, back in both.items()
    ]
    return Shown(beside(pictures, alt=words), words)


def first_model(width):
    """The same for a quilt on a longarm frame that is a quarter higher than it is wide."""
    return model(width, width * HIGHER, FRAME)


WIDTH = Length("width", "Width of the quilt", "30", "100", "1", "60")
DEMO = Demo(
    "Backing",
    model,
    (
        WIDTH,
        Length("height", "Height of the quilt", "30", "110", "1", "75"),
        Choice("over", "Quilted", (HOOP, FRAME), FRAME),
    ),
    height=640,
)
FIRST = Demo("Which way the seam runs", first_model, (WIDTH,), height=640)


def all_at_once(width=74, height=90):
    """One quilt on fabric of four widths, both ways, on one scale: a Still."""
    pictures, words = [], []
    for way, run in WAYS.items():
        for usable in WIDTHS:
            back, title = ways(width, height, yardage.OVER, usable)[way], f"{inches(usable)} in wide"
            caption = f"{_panels(back)}\n{_length(back)} in,\n{_sold(back)}"
            pictures.append(drawn(back, way, (width, height), title, caption, measured=False))
            words.append(f"{title}, {run[0].lower()}{run[1:]}: {_said(back)}.")
    alt = f"The backing of a quilt of {width} by {height} in. {' '.join(words)}"
    return Still(beside(pictures, columns=len(WIDTHS), alt=alt), alt, height=900)


def questions():
    """The guess before the reveal, and the puzzle after it."""
    return {"guess": _guess(), "backing": _size()}


lesson = Lesson(DEMO, questions, first=FIRST)


def _guess(width=60, height=75):
    both = ways(width, height, yardage.OVER)
    answer, other = (f"{way} the quilt" for way in sorted(both, key=lambda way: both[way].length))
    said = "; ".join(f"{WAYS[way].lower()}, {_said(back)}" for way, back in both.items())
    same = "both take the same"
    return Question(
        f"A quilt of {width} by {height} in, higher than it is wide, gets a backing of two panels of fabric "
        f"{inches(USABLE)} in wide. Which way shall the seam run, so that least is bought?",
        answer,
        choices=(*(f"{way} the quilt" for way in both), same),
        hint="A panel is as long as the backing is in the direction in which the panel runs.",
        mistakes=(
            (other, "Then both panels are as long as the long side."),
            (same, "There are two panels either way, but they are not of one length."),
        ),
        why=f"{said[0].upper()}{said[1:]}.",
    )


def _size(width=70, height=70):
    best = yardage.backing(width, height, yardage.OVER, USABLE)
    each_side = yardage.OVER / 2
    return Question(
        f"A quilt of {width} by {height} in goes on a longarm frame: its backing reaches {inches(each_side)} in past "
        f"it on each side. How many inches of fabric {inches(USABLE)} in wide do you buy?",
        best.length,
        unit="in",
        hint="How wide is the backing with both sides? How many panels reach so far, and how long is each?",
        mistakes=(
            (best.panels * (width + each_side), "That is over on one side only."),
            (best.panels * width, "That is no larger than the quilt: nothing is left to hold it by."),
            (best.panel, "That is one panel, and it is not wide enough."),
            (best.at_least, "That is its area over the width; panels come whole."),
        ),
        why=f"{best.panels} panels of {inches(best.panel)} in.",
    )


def ways(width, height, over, usable=USABLE):
    """The backing with its panels down the quilt and with them across it."""
    return {way: yardage.backing(width, height, over, usable, seams=way) for way in WAYS}


def drawn(back, way, quilt, title, caption, measured=True):
    """The panels of a backing sewn together, what is trimmed off, and the quilt that lies on it."""
    reach, along = yardage.backing_size(back.length, back.panels, back.usable_width)
    needed = back.width if way == "along" else back.height
    joined = [
        yardage.joined_length(panel, back.usable_width, 2 * yardage.BACKING_SEAM) for panel in range(1, back.panels)
    ]
    seams = [far - yardage.BACKING_SEAM for far in joined]
    middles = [(one + other) / 2 for one, other in pairwise([0, *seams, min(reach, needed)])]
    left, low = (back.width - quilt[0]) / 2, (back.height - quilt[1]) / 2
    layers = [
        Shapes([_turned(way, _box(0, 0, needed, along))], "white", "the backing", "outline"),
        Shapes([_box(left, low, *quilt)], "yellow", f"the quilt, {' by '.join(map(inches, quilt))} in, on top of it"),
    ]
    if reach > needed:
        layers.insert(1, Shapes([_turned(way, _box(needed, 0, reach - needed, along))], "left over", "trimmed off"))
    if seams:
        layers.append(Lines([_turned(way, [(seam, 0), (seam, along)]) for seam in seams], "raw edge", "seam"))
    grain = [_turned(way, [(middle, along * GRAIN), (middle, along * (1 - GRAIN))]) for middle in middles]
    layers.append(Lines(grain, "grain", "lengthwise grain of a panel"))
    if measured:
        layers.append(Measure((0, 0), (float(back.width), 0), f"{inches(back.width)} in"))
        layers.append(Measure((0, float(back.height)), (0, 0), f"{inches(back.height)} in"))
    return Picture(layers, f"{title}: {_said(back)}.", title, caption)


def _box(left, low, wide, high):
    return [(left, low), (left + wide, low), (left + wide, low + high), (left, low + high)]


def _turned(way, points):
    """Points of panels that run up the page, as they lie when the panels run this way."""
    return [tuple(map(float, point if way == "along" else point[::-1])) for point in points]


def _better(both):
    """Which way takes less, in a sentence."""
    down, across = (back.length for back in both.values())
    if down == across:
        return "Both ways take the same length."
    return f"Running {'down' if down < across else 'across'}, they take {inches(abs(down - across))} in less."


def _said(back):
    """The panels of a backing and what to buy, in words."""
    panels, seams = back.panels, "no seam"
    if panels > 1:
        seams = f"{panels - 1} seam{'s' * (panels > 2)} {back.seams} the quilt"
    return f"{_panels(back)}, {seams}: {_length(back)} in, {_sold(back)}"


def _panels(back):
    return f"{back.panels} panel{'s' * (back.panels > 1)} of {inches(yardage.on_the_tape(back.panel))} in"


def _length(back):
    """The length to buy: its panels, each as long as is told."""
    return inches(back.panels * yardage.on_the_tape(back.panel))


def _sold(back):
    return lengths.text(back.yards * 36, unit="yd")
