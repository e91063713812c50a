"""Frames that go on to the edge of a quilt on point: strips that end at 45 degrees, and what a short one leaves out."""

from dataclasses import replace
from fractions import Fraction
from functools import lru_cache

from .. import lengths
from ..draw import Lines, Picture, Shapes, beside, close_up
from ..draw.panels import fabric_layers, outlines
from ..usual import MEASURED, SEAM
from .controls import Length
from .demo import Demo, Shown
from .lesson import Lesson
from .nine_patch import NINE_PATCH
from .questions import Question
from .still import Still

BLOCK = Fraction(6)
SMALL = NINE_PATCH.resized(BLOCK)
FRAME = Fraction(3, 2)  # inches, finished: the invented frame in the guess
ROLES = {"cream": "white", "navy": "blue", "setting": "purple", "frame": "yellow"}


def model(frame, short):
    """Two framed side triangles and the block between them, with strips cut too short by so much."""
    plan, tried = _framed(frame), _trial(frame, short)
    first, second = _strips(plan)
    words = (
        f"Frame {lengths.text(frame)} in round blocks of {lengths.text(BLOCK)} in. Strips of "
        f"{_up(first)} and {_up(second)} in reach past the 45-degree trim"
    )
    shorter = f"; cut {lengths.text(short)} in shorter they "
    if not short:
        words += ": the frame is whole."
    elif not _missing(tried):
        words += f"{shorter}lack seam allowance at their tips, but the frame still shows whole."
    else:
        words += f"{shorter}end {lengths.text(_missing(tried))} in before the edge of the quilt."
    return Shown(beside(_edge_pictures(frame, short, words), alt=words), words)


DEMO = Demo(
    "Strips that end at 45 degrees",
    model,
    (
        Length("short", "Strips cut shorter by", "0", "2", "1/8", "0"),
        Length("frame", "Finished frame", "1/2", "3", "1/4", FRAME),
    ),
    height=420,
)


def all_at_once(frame="1 1/2"):
    """The middle of the edge of a framed quilt, its strips cut shorter and shorter, on one scale: a Still."""
    frame, shorts = lengths.parse(frame), [Fraction(k, 2) for k in range(5)]
    missing = {lengths.text(short): _missing(_trial(frame, short)) for short in shorts}
    words = (
        "Strips cut shorter leave a gap at the edge: "
        + ", ".join(f"{short} in shorter, {lengths.text(lost)} in missing" for short, lost in missing.items())
        + "."
    )
    pictures = [
        replace(
            _edge_pictures(frame, Fraction(short), words)[1],
            caption=f"{lengths.text(lost)} in missing" if lost else "nothing missing",
            title=f"{lengths.text(short)} in\nshorter" if short else "as long\nas needed",
        )
        for short, lost in zip(shorts, missing.values())
    ]
    return Still(beside(pictures, alt=words), words)


def questions():
    """The guess about short strips, and the puzzle after it."""
    return {"guess": _guess(), "frame": _strip()}


def _shortened():
    """The app with the strips of the guess, cut too short."""
    return DEMO.app(frame=FRAME, short=lengths.ruler(_too_short()))


lesson = Lesson(DEMO, questions, uncovered=_shortened)


def _guess():
    missing = _missing(_trial(FRAME, _too_short()))
    amounts = (Fraction(0), FRAME / 2, FRAME, 2 * FRAME)
    choices = {amount: f"{lengths.text(amount)} in" if amount else "nothing" for amount in amounts}
    return Question(
        f"Every block of {lengths.text(BLOCK)} in has a frame {lengths.text(FRAME)} in wide, and the frame "
        "goes on along the short sides of the side triangles. A pattern cuts those strips as long as the "
        "sides they are sewn to, and two seams. The ends are then trimmed at 45 degrees along the edge of "
        "the quilt. How much of the frame is missing there?",
        choices[missing],
        choices=tuple(choices.values()),
        hint="The inner side of the strip ends at the triangle's tip. Where does its outer side end?",
        mistakes=(
            ("nothing", "The trim runs on past the triangle's tip, and the strip must run on with it."),
            (choices[FRAME / 2], "The trim lies at 45 degrees: as far along as the strip is wide."),
            (choices[2 * FRAME], "That would be a slant at both ends; the other end is square."),
        ),
        why="At 45 degrees the outer side runs on as far as the strip is wide, and all of that is missing.",
    )


def _strip(leg=Fraction(10), width=Fraction(5, 2)):
    from .. import proofs

    seams = float(proofs.frame_end.exact(leg=leg, width=width) - leg - width)
    return Question(
        f"A strip that finishes {lengths.text(width)} in wide is sewn to the {lengths.text(leg)} in short "
        "side of a side triangle. One end is square, the other is trimmed at 45 degrees. How long do you cut "
        "it, to the next eighth?",
        proofs.frame_end.cut(leg=leg, width=width),
        unit="in",
        close="1/16",
        exact=proofs.frame_end.value(leg=leg, width=width),
        hint="Draw the finished strip, move its four sides out by a seam, read its longer side.",
        mistakes=(
            (leg + 2 * SEAM, "The strip must run on past the triangle, as far as it is wide."),
            (leg + width, "The seams are missing."),
            (
                leg + width + 2 * SEAM,
                "Two seams suit square ends. The frame would just show whole, without seam at its tip.",
            ),
            (proofs.frame_both_ends.cut(leg=leg, width=width), "That strip is slanted at both ends."),
        ),
        why=f"Side, width and {seams:.4f} for the seams, up to the next eighth.",
    )


def _framed(frame):
    from .. import settings

    return settings.on_point(across=2, down=2, block=SMALL, frame=frame, edges="framed")


@lru_cache(maxsize=256)
def _trial(frame, short):
    from .. import settings

    return settings.trial(_framed(frame), short)


def _strips(plan):
    """How long the two strips of a framed side triangle are cut, exactly, as floats."""
    return [plan.line(f"{which} end frame strip").value[1] for which in ("first", "second")]


def _too_short():
    """By how much a pattern's strip, as long as its side and two seams, is too short for the invented quilt."""
    return Fraction(_strips(_framed(FRAME))[0]) - BLOCK - 2 * SEAM


def _missing(tried):
    """How much of a strip is missing, to the nearest 1/16 in."""
    return lengths.ruler(tried.missing, MEASURED["in"], "nearest")


def _edge_pictures(frame, short, words):
    """The cloth as it was sewn, laid on the outline it was to have; a close-up of its middle."""
    wanted, found = _trial(frame, Fraction(0)).panel, _trial(frame, short).panel
    shift = [(one - other) / (2 - up) for up, (one, other) in enumerate(zip(wanted.size, found.size))]
    panel = found.moved(shift=shift)
    edge = [(0, float(_framed(frame).seam)), (wanted.size[0], float(_framed(frame).seam))]
    layers = [
        Shapes([outlines(wanted)[0]], "lost cloth", "fabric that is missing"),
        *fabric_layers(panel, ROLES),
        Lines(panel.seams, "seam"),
        Lines([[*loop, loop[0]] for loop in outlines(panel)], "raw edge", "raw edge"),
        Lines([edge], "finished line", "where the quilt's edge is to be"),
    ]
    whole = Picture(layers[not short :], words, "Two side triangles\nand the block between them")
    return close_up(whole, (wanted.size[0] / 2, 1.9), 2.5, 2)


def _up(value):
    return lengths.text(lengths.ruler(value))
