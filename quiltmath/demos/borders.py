"""Borders: butted or mitred, how large they make a quilt, and how long their strips are cut."""

from dataclasses import replace
from fractions import Fraction
from functools import lru_cache

from .. import lengths
from ..draw import Handle, beside, inches, plan_picture
from ..usual import SEAM
from .controls import Choice, Length, Whole
from .demo import Demo, Shown
from .lesson import Lesson
from .nine_patch import NINE_PATCH
from .questions import Question
from .reckoning import Reckoned, Reckoning
from .still import Still
from .table import Table
from .typed import Several, Typed

BLOCK = Fraction(6)
SMALL = NINE_PATCH.resized(BLOCK)
ROLES = {
    "cream": "white",
    "navy": "blue",
    "first border": "yellow",
    "second border": "orange",
    "third border": "purple",
}
CLOTHS = ("first border", "second border", "third border")
SIDES, ENDS, MITRED = "butted, sides first", "butted, top and bottom first", "mitred"


def model(corners, count, width):
    """A quilt top with so many borders, each as wide, butted or mitred."""
    plan = _bordered(corners, count, width)
    strips = " ".join(f"{name.capitalize()}: {text}." for name, text in _strips_said(plan))
    words = (
        f"A top of {_top_size()} in, {count} border{'s' * (count > 1)} of "
        f"{lengths.text(width)} in, {corners}: {_size(plan)} in. {strips}"
    )
    quilt = plan_picture(plan, f"{_size(plan)} in", ROLES, measured=False, alt=words)
    wide, high = map(float, plan.size)

    def more(stop):
        return float(count * (stop - width))

    most = more(WIDTH.high)
    edge = Handle("width", [(wide + more(stop), high / 2) for stop in WIDTH.stops])
    return Shown(replace(quilt, room=[(-most, -most), (wide + most, high + most)], handle=edge), words)


WIDTH = Length("width", "Finished border", "1", "6", "1/4", "3")
DEMO = Demo(
    "Borders",
    model,
    (
        Choice("corners", "The corners are", (SIDES, ENDS, MITRED), SIDES),
        WIDTH,
        Whole("count", "Borders", 1, 3, 2),
    ),
    height=560,
)


def all_at_once(width=4):
    """Two borders butted with the sides first, with top and bottom first, and mitred: a Still."""
    width = lengths.parse(width)
    plans = {corners: _bordered(corners, 2, width) for corners in (SIDES, ENDS, MITRED)}
    strips = {
        corners: "; ".join(f"{name}, {text}" for name, text in _strips_said(plan)) for corners, plan in plans.items()
    }
    words = "The finished size is the same; the strips are not. " + " ".join(
        f"{corners.capitalize()}: {text}." for corners, text in strips.items()
    )
    pictures = [plan_picture(plan, corners.replace(", ", ",\n"), ROLES) for corners, plan in plans.items()]
    return Still(beside(pictures, alt=words), words)


def strips_reckoned(width, height, borders, corners):
    """The border strips for a sewn top of this measured size, raw edge to raw edge: a Reckoned."""
    tall, wide = _for_top(width, height, borders, corners)
    top, said = f"{inches(width)} by {inches(height)} in", BORDERS.spoken(borders)
    rows = tuple(
        (f"{name}, {inches(one)} in", *(f"{line.count} of {_cut(line)} in" for line in lines))
        for one, (name, *lines) in zip(borders, _strips_of(tall, wide))
    )
    table = Table(
        ("border", "strips for the sides", "strips for top and bottom"),
        rows,
        f"Borders of {said}, {corners}, for a top that measures {top}, raw edge to raw edge",
    )
    longest = max(lengths.ruler(line.value[1]) for _, *lines in _strips_of(tall, wide) for line in lines)
    sentence = (
        f"A top of {top} with borders of {said}, {corners}, finishes {inches(wide.size[0])} by "
        f"{inches(tall.size[1])} in; its longest strip is cut {lengths.text(longest)} in."
    )
    return Reckoned(table, sentence)


BORDERS = Several("borders", "Finished borders, inside out", "1/2", "20", 5, "2, 5")
STRIPS = Reckoning(
    "Border strips for a measured top",
    strips_reckoned,
    (
        Typed("width", "Top's measured width", "2", "130", "44 3/8"),
        Typed("height", "Top's measured height", "2", "130", "53 1/4"),
        BORDERS,
        Choice("corners", "The corners are", (SIDES, ENDS, MITRED), SIDES),
    ),
)


def strips_for(**given):
    """The border strips for a top as it is measured, to be the last line of a cell: boxes and their table."""
    return STRIPS.app(**given)


def questions():
    """The puzzles after the reveal."""
    return {"butted": _butted(), "mitre": _mitre()}


lesson = Lesson(DEMO, questions)


def _butted(width=Fraction(81, 2), height=Fraction(121, 2), border=Fraction(5)):
    tall, wide = _for_top(width, height, (border,), SIDES)
    side, end = _strips(tall, "side")[0].size[1], _strips(wide, "top")[0].size[1]
    return Question(
        f"A sewn top measures {lengths.text(width)} by {lengths.text(height)} in, raw edge to raw edge. A "
        f"border that finishes {lengths.text(border)} in is butted on, the side borders first. How long are "
        "the two strips for the top and the bottom cut?",
        end,
        unit="in",
        hint="Sew the side strips on first, in your mind, and measure again.",
        mistakes=(
            (width, "That is the top alone; by then the side strips have made it wider."),
            (width + border, "There is a side strip on both sides."),
            (width + 2 * (border + 2 * SEAM), "The cut strips are that wide; seams take the rest."),
            (side, "Those are the side strips."),
        ),
        why="The top and two finished borders.",
    )


def _mitre(side=Fraction(36), width=Fraction(4)):
    from .. import proofs

    seams = float(proofs.mitred_strip.exact(side=side, width=width) - side - 2 * width)
    return Question(
        f"The side of a quilt finishes {lengths.text(side)} in. A border that finishes {lengths.text(width)} "
        "in is to have mitred corners. How long is its strip cut, at the least, to the next eighth?",
        proofs.mitred_strip.cut(side=side, width=width),
        unit="in",
        close="1/8",
        exact=proofs.mitred_strip.value(side=side, width=width),
        hint="Both ends are slanted. How far does the outer side run on past the quilt?",
        mistakes=(
            (side + 2 * SEAM, "That is a butted strip: a mitre needs a border's width at each end."),
            (side + width + 2 * SEAM, "There is a mitre at both ends."),
            (
                side + 2 * width + 2 * SEAM,
                "That reaches the corner of the quilt; the sharp tips of the seam allowance need more.",
            ),
            (
                proofs.mitred_strip.trade("strip", side=side, width=width, seam=SEAM),
                "That is a handy rule, with inches to spare. What is the least?",
            ),
        ),
        why=f"Side, two widths and {seams:.4f} for the seams, up to the next eighth; cut more to handle it.",
    )


def _bordered(corners, count, width):
    from .. import settings

    return settings.straight(
        across=3,
        down=5,
        block=SMALL,
        alternate="plain",
        fabrics={"alternate": "cream"},
        borders=[_border(width, corners, cloth) for cloth in CLOTHS[:count]],
    )


@lru_cache(maxsize=1)
def _top_size():
    return _size(_bordered(SIDES, 0, BLOCK))


def _border(width, corners, fabric=None):
    from .. import settings

    return settings.border(
        width,
        ends="mitred" if corners == MITRED else "butted",
        fabric=fabric,
        first="top" if corners == ENDS else "sides",
    )


def _for_top(width, height, given, corners):
    """A plan with the side strips, and one with those of top and bottom, for a sewn top measured raw edge to raw edge.

    The side strips follow from its height alone and the others from its width: a square of each has them.
    """
    from .. import settings

    rounds = [_border(one, corners) for one in given]
    return tuple(settings.straight(1, 1, side - 2 * SEAM, borders=rounds) for side in (height, width))


def _strips(plan, which):
    """The lines of a plan's cutting list for the "side" or the "top" strips of its borders, from the inside out."""
    return [line for line in plan.cutting_list() if line.part.endswith(f" {which} strip")]


def _strips_of(tall, wide):
    """Each border's name, the line of its side strips, from one plan, and that of top and bottom, from another."""
    for side, end in zip(_strips(tall, "side"), _strips(wide, "top")):
        yield side.part.removesuffix(" side strip"), side, end


def _strips_said(plan):
    """Each border's name, and in words its side strips and those of top and bottom."""
    for name, side, end in _strips_of(plan, plan):
        yield name, f"{side.count} for the sides {_cut(side)} in, {end.count} for top and bottom {_cut(end)} in"


def _cut(line):
    """Width and length of a strip as it is cut."""
    return " × ".join(lengths.text(lengths.ruler(value)) for value in line.value)


def _size(plan):
    return " by ".join(map(inches, plan.size))
