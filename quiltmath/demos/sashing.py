"""Sashing: how large it makes a quilt, how many pieces it takes, and where an edge on point runs."""

from dataclasses import replace
from fractions import Fraction
from functools import lru_cache, partial

import numpy as np

from .. import lengths
from ..draw import beside, inches, plan_picture
from .controls import Choice, Length, Whole
from .cutting_tables import cut_table, rows_table
from .demo import Demo, Shown
from .lesson import Lesson
from .nine_patch import NINE_PATCH
from .questions import Question
from .still import Still
from .told import InTurn, Told

BLOCK = Fraction(6)
SMALL = NINE_PATCH.resized(BLOCK)
ROLES = {"cream": "white", "navy": "blue", "sashing": "yellow", "cornerstone": "black", "setting": "purple"}
EDGES = {"half": "Edge through the\ncornerstones' centres", "whole": "Whole cornerstones\nat the edge"}
GUESSED = Fraction(2)  # inches: the sashing of the guess, and the picture that answers it
WITH, WITHOUT = "with cornerstones", "in strips, without cornerstones"


def model(stones, sash, across):
    """Blocks on point with sashing round every one, in both edge conventions, on one scale."""
    plans = {edge: _sashed(across, across + 1, sash, stones, edge) for edge in EDGES}
    said = {"half": "Edge through the centres", "whole": "Whole at the edge"}
    words = (
        f"{across} by {across + 1} blocks of {lengths.text(BLOCK)} in, sashing {lengths.text(sash)} in, "
        f"{stones}. "
        + " ".join(
            f"{said[edge]}: {_size(plan)} in, {_counts(plan)}; {_triangles(plan)}." for edge, plan in plans.items()
        )
    )
    return Shown(beside([_drawn(across, across + 1, sash, stones, edge) for edge in EDGES], alt=words), words)


def first_model(sash):
    """Two by two blocks with cornerstones, in both edge conventions."""
    plans = {edge: _sashed(2, 2, sash, WITH, edge) for edge in EDGES}
    narrow, wide = (plan.size[0] for plan in plans.values())
    words = (
        f"Sashing {lengths.text(sash)} in: {inches(narrow)} in wide with the edge through the centres "
        f"of the cornerstones, {inches(wide)} in with them whole: {inches(wide - narrow)} in more."
    )
    return Shown(beside([_drawn(2, 2, sash, WITH, edge) for edge in EDGES], alt=words), words)


SASH = Length("sash", "Finished sashing", "1", "3", "1/8", "1 1/2")
DEMO = Demo(
    "Sashing on point",
    model,
    (SASH, Whole("across", "Blocks across", 2, 8, 3), Choice("stones", "Sashing", (WITH, WITHOUT), WITH)),
    height=600,
)
FIRST = Demo("Where the edge runs", first_model, (SASH,), height=480)


def straight_sashing(across=3, down=4, sash="1 1/2"):
    """Straight blocks with sashing in strips, with cornerstones, and all round, on one scale: a Still."""
    from .. import settings

    ways = {"Strips": {"cornerstones": False}, "Cornerstones": {}, "All round": {"around": True}}
    plans = {name: settings.straight(across, down, SMALL, sashing=sash, **way) for name, way in ways.items()}
    pictures = [
        plan_picture(plan, name, ROLES, caption=_counts(plan).replace(", ", ",\n")) for name, plan in plans.items()
    ]
    words = f"{across} by {down} blocks of {lengths.text(BLOCK)} in, sashing {sash} in. " + " ".join(
        f"{name}: {_size(plan)} in, {_counts(plan)}." for name, plan in plans.items()
    )
    return Still(beside(pictures, alt=words), words)


def all_at_once(across=2, down=2):
    """Sashing of 1, 2 and 3 in, in both edge conventions, on one scale: a Still."""
    sashes = tuple(map(Fraction, (1, 2, 3)))
    plans = {edge: [_sashed(across, down, sash, WITH, edge) for sash in sashes] for edge in EDGES}
    more = [wide.size[0] - narrow.size[0] for narrow, wide in zip(*plans.values())]
    words = (
        f"Whole cornerstones make the quilt {', '.join(map(inches, more))} in wider with sashing of "
        f"{', '.join(map(lengths.text, sashes))} in: one cornerstone's diagonal, however many blocks."
    )
    titles = {"half": "through centres", "whole": "whole"}
    pictures = [
        plan_picture(
            plan,
            f"{lengths.text(sash)} in,\n{titles[edge]}",
            ROLES,
            measured=False,
            caption=f"{inches(plan.size[0])} in wide",
        )
        for edge, row in plans.items()
        for sash, plan in zip(sashes, row)
    ]
    return Still(beside(pictures, columns=len(sashes), alt=words), words, height=720)


def cutting_list(across=2, down=3, sash="1 1/2", edge="whole"):
    """A sashed plan on point: its rows in sewing order, the steps, and what to cut."""
    plan = _sashed(across, down, lengths.parse(sash), WITH, edge)
    which = f"{across} by {down} blocks of {lengths.text(BLOCK)} in on point, sashing {sash} in"
    return InTurn(
        rows_table(plan, f"{which}: its rows"),
        Told(*plan.steps()),
        cut_table(plan.cutting_list(), "What to cut for it"),
    )


def on_paper(across=2, down=3, sash="1 1/2", edge="whole"):
    """The sashed plan to take away: its pattern, cutting diagrams, templates and cutting list."""
    from .handed_out import handed_out

    return handed_out(_sashed(across, down, lengths.parse(sash), WITH, edge))


def questions():
    """The guess before the reveal, and the puzzle after it."""
    return {"guess": _edge_guess(), "stones": _stones()}


lesson = Lesson(DEMO, questions, first=FIRST, uncovered=partial(FIRST.app, sash=GUESSED))


def _edge_guess(sash=GUESSED):
    narrow, wide = (_sashed(3, 4, sash, WITH, edge).size[0] for edge in EDGES)
    one, answer, two = (f"{inches(width)} in" for width in (sash, wide - narrow, 2 * sash))
    return Question(
        f"Blocks on point have sashing {one} wide round them, with cornerstones. One quilt lets its edge run "
        "through the centres of the outer cornerstones, another keeps those whole. How much wider is that?",
        answer,
        choices=("not at all", one, answer, two),
        hint="On each side half a cornerstone is added. It stands on its point.",
        mistakes=(
            ("not at all", "The half cornerstones at the edge become whole: that takes room."),
            (one, "That is half a sash on each side; but the cornerstones stand on their points."),
            (two, "That is a whole sash on each side; only half a cornerstone is added there."),
        ),
        why="Half a cornerstone's diagonal on each side makes one diagonal in all.",
    )


def _stones(across=4, down=5):
    centre, whole = (_sashed(across, down, Fraction(2), WITH, edge) for edge in EDGES)
    return Question(
        f"{across} by {down} blocks on point, sashing round every block, whole cornerstones at the edge. How "
        "many cornerstones?",
        whole.cornerstones,
        hint="Each row has one more than it has blocks, at their left and right points. And each column?",
        mistakes=(
            (centre.cornerstones, "Those are the ones inside; the edge has one for each block along it."),
            ((across + 1) * (down + 1), "That is the count for blocks set straight, with sashing all round."),
            (whole.sashes, "Those are the sashes."),
            (
                centre.cornerstones + 2 * centre.cornerstone_triangles,
                "That counts those on the edge twice: the edge cuts each, and it is one cornerstone.",
            ),
        ),
        why=f"{centre.cornerstones} inside and {centre.cornerstone_triangles} along the edge.",
    )


@lru_cache(maxsize=64)
def _sashed(across, down, sash, stones, edge):
    from .. import settings

    return settings.on_point(
        across=across, down=down, block=SMALL, sashing=sash, edge=edge, cornerstones=stones == WITH
    )


@lru_cache(maxsize=64)
def _drawn(across, down, sash, stones, edge):
    """One quilt, at the scale that its widest sashing allows."""
    plan = _sashed(across, down, sash, stones, edge)
    quilt = plan_picture(plan, EDGES[edge], ROLES, measured=False, caption=f"{_size(plan)} in")
    widest = _sashed(across, down, SASH.high, stones, edge)
    low = [float(size - most) / 2 for size, most in zip(plan.size, widest.size)]
    return replace(quilt, room=[low, np.add(low, [float(most) for most in widest.size])])


def _counts(plan):
    """How many pieces the sashing takes, in words."""
    parts = (
        (plan.sashes, "sash", "sashes"),
        (plan.sashing_strips, "long strip", "long strips"),
        (plan.cornerstones, "cornerstone", "cornerstones"),
        (plan.cornerstone_triangles, "half cornerstone", "half cornerstones"),
    )
    return ", ".join(f"{count} {one if count == 1 else many}" for count, one, many in parts if count)


def _triangles(plan):
    """The squares the setting triangles are cut from, in words."""
    side, corner = (
        lengths.text(lengths.ruler(plan.line(part).value[0])) for part in ("side triangle", "corner triangle")
    )
    return f"side triangles from squares of {side} in, corners from {corner} in"


def _size(plan):
    return " by ".join(map(inches, plan.size))
