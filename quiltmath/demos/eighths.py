"""Where the eighths come from: a finished triangle, its sides moved out by a seam, and what that adds along
the ruler."""

from fractions import Fraction
from math import sqrt

import numpy as np

from .. import lengths
from ..draw import Handle, Lines, Measure, Picture, Shapes, beside
from ..shapes import moved_out
from .controls import Length
from .demo import Demo, Shown
from .lesson import Lesson
from .questions import Question
from .still import Still
from .table import Table

TRIANGLES = ("half_square", "quarter_square")
ROW = 0.15  # of the widest cut side: between the two rows of measures
SEAMS = [Fraction(k, 8) for k in (1, 2, 3, 4)]


def model(finished, seam):
    """Both triangles, finished and as cut: what the seam adds at each corner, and to the whole side."""
    drawn = [_drawn(name, finished, seam) for name in TRIANGLES]
    words = " ".join(sentence for _, sentence in drawn)
    return Shown(beside([picture for picture, _ in drawn], alt=words), words)


def first_model(seam):
    """Only the half-square triangle, for a finished side of 3 in."""
    picture, words = _drawn("half_square", Fraction(3), seam)
    return Shown(picture, words)


SEAM = Length("seam", "Seam allowance", "0", "1/2", "1/16", "1/4")
DEMO = Demo(
    "Where the eighths come from", model, (Length("finished", "Finished size", "2", "6", "1/4", "3"), SEAM), height=460
)
FIRST = Demo("One triangle, its sides moved out", first_model, (SEAM,), height=560)


def all_at_once(finished=3):
    """Both triangles for four seams, on one scale: a Still.

    >>> all_at_once().sentence
    'Whatever the seam, the half-square triangle grows by 3.414 seams and the quarter-square triangle \
by 4.828.'
    """
    pictures = [_small(name, Fraction(finished), seam) for name in TRIANGLES for seam in SEAMS]
    grown = [f"{_seams(name):.3f}" for name in TRIANGLES]
    words = (
        f"Whatever the seam, the half-square triangle grows by {grown[0]} seams and the quarter-square "
        f"triangle by {grown[1]}."
    )
    told = " ".join(f"{picture.alt}" for picture in pictures)
    return Still(beside(pictures, columns=len(SEAMS), alt=f"{words} {told}"), words)


def on_the_ruler(finished=3, unit="in"):
    """The squares of both triangles exactly, on the ruler and by the rule of thumb, and how far that is off: a Table.

    >>> print(on_the_ruler().text().splitlines()[-1])
        so it is: about 0.0429 in more than the exact size
    """
    from .. import proofs
    from ..proofs.printing import figure
    from ..usual import SEAM_IN

    rows, told = [], [figure(lengths.parse(size), unit) for size in (finished, SEAM_IN[unit])]
    for proof in (getattr(proofs, name) for name in TRIANGLES):
        exact, cut, trade = (
            one("square", finished=finished, unit=unit) for one in (proof.exact, proof.cut, proof.trade)
        )
        off = f"{figure(abs(trade - exact), unit)} {'more than' if trade > exact else 'short of'} the exact size"
        rows.append((proof.title, *(figure(size, unit) for size in (exact, cut, trade)), off))
    return Table(
        ("cut for a", "square that it needs", "up to the ruler's next step", "rule of thumb", "so it is"),
        tuple(rows),
        f"A square unit that finishes {told[0]}, sewn with a seam of {told[1]}.",
    )


def elsewhere():
    """Other proofs that come to the same two numbers of seams, as text.

    >>> print(elsewhere().splitlines()[0])
    Frame strip with one 45-degree end: strip = leg + width + (2 + √2) × seam
    """
    from .. import proofs

    again = (proofs.frame_end, proofs.mitred_strip, proofs.corner_triangle, proofs.side_triangle)
    return "\n".join(f"{proof.title}: {proof.equation}" for proof in again)


def questions():
    """The guess before the reveal, and the puzzles after it."""
    from .. import proofs

    half, quarter = proofs.half_square, proofs.quarter_square
    added = lengths.text(half.cut(finished=3) - 3, mark="in")
    more = lengths.text(quarter.cut(finished=3) - 3, mark="in")
    wide = Fraction(3, 8)
    sharp, blunt = _diamond()
    return {
        "guess": Question(
            "Half of a square unit is to finish 3 in along each of its two short sides, and all three sides "
            "will be sewn with a 1/4 in seam. How much longer than 3 in do you cut a short side, to the next "
            "eighth?",
            added,
            choices=("1/4 in", "1/2 in", added, more),
            mistakes=(
                ("1/4 in", "That is one seam, but the side has two ends."),
                ("1/2 in", "That is one seam at each end: right for a square, but one end here is a sharp point."),
                (more, "That goes with two sharp ends; a short side has one sharp end and one square one."),
            ),
            hint="Draw the three sides a quarter inch further out, and see where they meet.",
            why="The sharp point moves out much further than one seam. See for yourself:",
        ),
        "seams": Question(
            "A diamond has two sharp points of 45 degrees and two blunt corners. All its sides move out by a seam. "
            f"At its blunt end a side grows by {blunt:.3f} seams. By how many seams does it grow in all? (Three "
            "decimals will do.)",
            sharp + blunt,
            close="1/20",
            mistakes=(
                (2, "That is one seam at each end, as for a square. Here one end is sharp and one is blunt."),
                (2 * sharp, "That is two sharp ends; the other end of each side is blunt."),
                (2 * blunt, "That is two blunt ends; the other end of each side is sharp."),
                (sharp + 1, "That is the half-square triangle: one sharp end and one square end."),
                (sharp, "That is the sharp end alone."),
            ),
            hint="Each end adds its own share. What does a sharp point of 45 degrees add?",
            why=f"{sharp:.3f} at the sharp point and {blunt:.3f} at the blunt corner.",
        ),
        "hourglass": Question(
            "An hourglass unit is to finish 5 in. What size of square do you cut on both diagonals for it, "
            "with 1/4 in seams? Round up to the next 1/8 in.",
            quarter.cut(finished=5),
            unit="in",
            close="1/8",
            exact=quarter.value(finished=5),
            mistakes=(
                (half.cut(finished=5), "That is 7/8 added to the long side: 7/8 belongs to a side with one sharp end."),
                (Fraction(11, 2), "That is one seam at each end: the two ends are sharp and need more."),
            ),
            hint="Which side of the triangle lies along the edge of the unit, and what are its ends like?",
            why=f"{quarter.thumb()}; exactly {lengths.text(quarter.exact(finished=5))} in.",
        ),
        "wide": Question(
            "Someone sews with a 3/8 in seam. What size of square do they cut on one diagonal, for a "
            "half-square unit that finishes 4 in? Round up to the next 1/8 in.",
            half.cut(finished=4, seam=wide),
            unit="in",
            close="1/8",
            exact=half.value(finished=4, seam=wide),
            mistakes=(
                (half.cut(finished=4), "7/8 holds for a seam of 1/4 in only: count in seams."),
                (quarter.cut(finished=4, seam=wide), "That is for two sharp ends; this square is cut once."),
                (4 + 2 * wide, "That is one seam at each end: one of them is a sharp point."),
            ),
            hint="The half-square triangle grows by 3.414 seams. How long is one seam here?",
            why=f"3.414 × 3/8, and 4: {lengths.text(half.exact(finished=4, seam=wide))} in.",
        ),
    }


lesson = Lesson(DEMO, questions, first=FIRST)


def _drawn(name, finished, seam):
    """One triangle with its seam allowance, and its sentence; its scale is that of the widest seam, whatever the
    seam."""
    title, corners, cut = _shapes(name, finished, seam)
    _, _, widest = _shapes(name, finished, SEAM.high)
    words = _sentence(name, title, finished, seam)
    low = min(y for _, y in widest)
    layers = [*_cloth(corners, cut, seam), *_dimension(corners, cut, low, finished, seam)]
    row = ROW * float(finished + 4 * SEAM.high)
    layers.append(_total(cut, low - row))
    room = [*widest, *((x + side * row, low) for side in (-1, 1) for x, _ in widest[:2])]
    return Picture(layers, words, title, room=room, handle=_on_the_slant(corners)), words


def _on_the_slant(corners):
    """The handle that moves the slanted side of a finished triangle out by the seam."""
    middle, (x, y) = np.mean(corners[1:3], axis=0), np.subtract(corners[2], corners[1])
    return Handle("seam", [middle + float(seam) * np.array((y, -x)) / np.hypot(x, y) for seam in SEAM.stops])


def _dimension(corners, cut, low, finished, seam):
    """The measured side in its parts, below the picture: the seam's share, the finished side, the seam's share."""
    stops = [cut[0], corners[0], corners[1], cut[1]]
    down = [[(x, y), (x, low)] for x, y in stops if y > low]
    yield Lines(down, "guide")
    along = [x for x, _ in stops]
    yield Measure((along[1], low), (along[2], low), f"{lengths.text(finished)} in", away=-10)
    for start, end in ((along[0], along[1]), (along[2], along[3])) if seam else ():
        yield Measure((start, low), (end, low), _end(end - start, seam), away=-10)


def _total(cut, low):
    """The whole cut side, below its parts."""
    return Measure((cut[0][0], low), (cut[1][0], low), f"{_decimal(cut[1][0] - cut[0][0])} in", away=-10)


def _small(name, finished, seam):
    """One triangle of the small multiples."""
    title, corners, cut = _shapes(name, finished, seam)
    grown = cut[1][0] - cut[0][0] - float(finished)
    size = lengths.text(finished)
    caption = f"{size} + {grown:.4f}\n= {size} + {grown / float(seam):.3f} seams"
    alt = (
        f"{title}, seam {lengths.text(seam)} in: {lengths.text(finished)} in finished is cut "
        f"{_decimal(cut[1][0] - cut[0][0])} in, {grown / float(seam):.3f} seams more."
    )
    return Picture(_cloth(corners, cut, seam), alt, f"seam {lengths.text(seam)} in", caption)


def _cloth(corners, cut, seam):
    """The cut shape with the finished one on it, and where the finished side ends."""
    layers = [Shapes([cut], "added cloth", "seam allowance")] if seam else []
    return [*layers, Shapes([corners], "paper", "finished triangle")]


def _shapes(name, finished, seam):
    """A proof's title, its finished shape and its cut shape, from its own pictures."""
    from .. import proofs

    proof = getattr(proofs, name)
    shapes = dict(proof.pictures(finished=float(finished), seam=float(seam))[-1].polygons)
    return proof.title, shapes["finished"], shapes["cut"]


def _sentence(name, title, finished, seam):
    from .. import proofs

    proof = getattr(proofs, name)
    if not seam:
        return f"{title}: without a seam it is cut as it finishes, {lengths.text(finished)} in."
    exact = proof.value(finished=finished, seam=seam)
    ruled = lengths.text(lengths.ruler(exact))
    _, corners, cut = _shapes(name, finished, seam)
    ends = [_end(corners[0][0] - cut[0][0], seam), _end(cut[1][0] - corners[1][0], seam)]
    return (
        f"{title}: {ends[0]}, {lengths.text(finished)} in and {ends[1]} come to {_decimal(exact)} in, that is "
        f"{_seams(name):.3f} seams more than it finishes; up to the ruler's next eighth, {ruled} in."
    )


def _seams(name):
    """By how many seams the measured side of a triangle grows."""
    from .. import proofs

    proof = getattr(proofs, name)
    return proof.value(finished=8, seam=1) - 8


def _diamond():
    """By how many seams a side of a diamond grows at its sharp end of 45 degrees, and at its blunt one."""
    lean = 1 / sqrt(2)
    left, right = moved_out([(0, 0), (4, 0), (4 + 4 * lean, 4 * lean), (4 * lean, 4 * lean)], 1)[:2]
    return -left[0], right[0] - 4


def _end(out, seam):
    """How far a corner moved along the ruler, in seams."""
    seams = round(out / float(seam), 3)
    return "1 seam" if seams == 1 else f"{seams:.3f} seams"


def _decimal(size):
    """Inches to four decimals: here the exact size stands beside the ruler's."""
    return f"{size:.4f}".rstrip("0").rstrip(".")
