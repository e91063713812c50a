"""A block cut in half: what becomes of a pieced block that is cut in half for the edge of a quilt, and what to do
instead."""

from fractions import Fraction
from math import sqrt

from .. import lengths
from ..draw import beside, inches
from . import halves_drawn as drawn
from .controls import Length, Whole
from .demo import Demo, Shown
from .halves import SEAM, halves, lost_points
from .lesson import Lesson
from .point_questions import PointQuestion
from .questions import Question
from .still import Still

QUILT = (5, 6)  # blocks across and down of the invented quilt in the puzzle


def model(n, patch, past):
    """The block with its cut, both halves sewn in, and the built triangle that takes their place."""
    kept, other = halves(n, patch, past)
    triangle = drawn.built_half(n, patch)
    pictures = [
        drawn.block_with_cut(n, patch, past, kept, PAST.stops),
        drawn.in_its_place(kept, n, patch, "Half,\nsewn in", near=True),
        drawn.in_its_place(other, n, patch, "Other half,\nsewn in", near=True),
        drawn.in_its_place(triangle, n, patch, "Built triangle,\nsewn in", near=True),
    ]
    words = _sentence(n, patch, past, kept, other, triangle)
    alt = (
        "The block on point with its cut, its two halves and the built triangle, each sewn in; with a close-up of one "
        f"point of each. {words}"
    )
    return Shown(beside(pictures, alt=alt), words)


def first_model(n):
    """Only the half and the built triangle, both sewn in, for a block cut exactly on its diagonal."""
    patch = Fraction(2)
    half, _ = halves(n, patch, Fraction(0))
    words = (
        f"A block of {n} × {n} squares, cut on its diagonal and sewn in: {drawn.points_words(half)}. "
        f"Built from rows of squares instead, the triangle keeps {n - 1} of {n - 1}."
    )
    pictures = [
        drawn.in_its_place(half, n, patch, "Half of a block, sewn in"),
        drawn.in_its_place(drawn.built_half(n, patch), n, patch, "Built triangle, sewn in"),
    ]
    return Shown(beside(pictures, alt=words), words)


N = Whole("n", "Squares along a side", 2, 8, 4)
PAST = Length("past", "Cut past the diagonal", "0", "1/4", "1/32", "0")
DEMO = Demo(
    "A block cut in half",
    model,
    (N, Length("patch", "Finished square", "1", "3", "1/4", "2"), PAST),
    height=640,
)
FIRST = Demo("Cut on the diagonal", first_model, (N,), height=360)


def all_at_once(n=4, patch=2):
    """Both halves for every place of the cut, from on the diagonal to a seam past it, on one scale: a Still.

    >>> all_at_once().sentence
    'The half that keeps the seam loses its 3 points until the cut runs 1/4 in past; the other half \
always does.'
    """
    steps = [Fraction(k, 16) for k in range(5)]
    cuts = [halves(n, Fraction(patch), past) for past in steps]
    rows = [
        [drawn.in_its_place(cut[side], n, Fraction(patch), title) for cut, title in zip(cuts, titles)]
        for side, titles in (
            (0, ["on it", *(f"{lengths.text(past)} past" for past in steps[1:])]),
            (1, ["other half"] * len(steps)),
        )
    ]
    safe = next(past for past, cut in zip(steps, cuts) if not cut[0].lost)
    words = (
        f"The half that keeps the seam loses its {n - 1} points until the cut runs {lengths.text(safe)} in "
        "past; the other half always does."
    )
    alt = (
        words
        + " "
        + " ".join(
            f"{drawn.past_words(past)}: {drawn.points_words(kept)}; other half: {drawn.points_words(other)}."
            for past, (kept, other) in zip(steps, cuts)
        )
    )
    return Still(beside([picture for row in rows for picture in row], columns=len(steps), alt=alt), words)


def questions():
    """The guess before the reveal, and the puzzles after it."""
    from .. import proofs, settings

    leg = proofs.half_block_loss.exact("finished leg", block=9)
    spare = Fraction(1, 2)
    usable = sum(not half.lost for half in halves(4, Fraction(2), SEAM))
    sides = settings.on_point(across=QUILT[0], down=QUILT[1], block=9).side_triangles
    return {
        "guess": _guess(),
        "leg": Question(
            "A block that finishes 9 in is cut exactly on its diagonal. Once the half is sewn in on all "
            "three sides, how "
            "long is each of its two short sides?",
            leg,
            unit="in",
            close="1/16",
            mistakes=(
                (
                    9,
                    ("That is the short side of a half that lost nothing: the seam along the cut was forgotten."),
                ),
                (
                    Fraction(35, 4),
                    (
                        "You took one seam off. The seam lies at 45 degrees to the short side, and "
                        "cuts off more of it than its own width."
                    ),
                ),
                (
                    Fraction(17, 2),
                    (
                        "That is two seams off, as if the short side lost one at each end. Its square "
                        "corner lost nothing, for the block had its seam there."
                    ),
                ),
            ),
            hint=(
                "Draw the half with its long edge, move that edge in by one seam, and see where it meets "
                "the short side."
            ),
            why=f"The half loses {lengths.text(9 - leg)} in of each short side: 1/4 × √2.",
        ),
        "past": Question(
            f"A careful quilter cuts the half {lengths.text(spare)} in too large, trims that off later, and sews "
            "with a 1/4 in seam. How far past the diagonal must her cut run, so that the half she keeps loses no "
            "point?",
            SEAM + spare,
            unit="in",
            mistakes=(
                (SEAM, "That leaves a seam now, but not once she has trimmed."),
                (spare, "Once that is trimmed off, nothing is left for the seam."),
                (
                    proofs.half_block_loss.value("leg lost", block=9),
                    "That is how much of the short side a seam takes. Lay the ruler square to the cut.",
                ),
            ),
            hint="A seam takes its allowance from the raw edge. How deep must a point lie after the trim?",
            why="One seam must be left after the trim: then the seam runs on the diagonal itself.",
        ),
        "blocks": Question(
            f"A quilt on point has {QUILT[0]} blocks across and {QUILT[1]} down, and a side triangle between every two "
            "of them along its four sides. All of these are to be halves of blocks that lose no point. How many blocks "
            "must be sewn for them?",
            sides // usable,
            mistakes=(
                (
                    2 * (QUILT[0] + QUILT[1]),
                    "That is one for every block along the sides; between them there is one fewer on each side.",
                ),
                (
                    sides // 2,
                    (
                        "That uses both halves of each block, but the other half has lost its points: only "
                        "one half of a block can be used."
                    ),
                ),
            ),
            hint="Look at the other half in the last row of pictures.",
            why=(
                "One half of each block is kept and the other is waste: building the triangles saves all that sewing."
            ),
        ),
    }


def _guess(n=4, patch=Fraction(2)):
    """Which points of a block are lost that is cut exactly on its diagonal, to be marked on its picture."""
    points, lost = drawn.named_points(n, patch), lost_points(n, patch)
    return PointQuestion(
        f"A block of {n} × {n} squares is cut in half, exactly on its diagonal, along the dashed line. Both halves are "
        "sewn into the edges of quilts. Mark every point, where four squares meet, that will not show whole any more.",
        drawn.block_to_guess(n, patch),
        tuple((name, spot) for name, spot, _ in points),
        tuple(name for name, _, own in points if own in lost),
        mistakes=(
            ((), "Look at the points on the cut: it is a raw edge, and goes into the seam."),
            (
                tuple(name for name, *_ in points),
                "A seam takes 1/4 in from the cut, and the other points lie deeper than that.",
            ),
        ),
        hint="Where does the seam take its quarter inch from?",
        why="The cut is a raw edge, and a seam takes its 1/4 in from there: the points lie right on it.",
    )


lesson = Lesson(DEMO, questions, first=FIRST)


def _sentence(n, patch, past, kept, other, triangle):
    wanted = inches(n * float(patch) * sqrt(2))
    return (
        f"A block of {n} × {n} squares of {lengths.text(patch)} in, cut {drawn.past_words(past)}. "
        f"Half: {drawn.points_words(kept)}, its long edge {inches(kept.sewn.size[0])} in where {wanted} in is wanted. "
        f"Other half: {drawn.points_words(other)}, its long edge {inches(other.sewn.size[0])} in. "
        f"Both were cut {drawn.ON[kept.long_edge.grain]}. "
        f"Built triangle: {drawn.points_words(triangle)}, its long edge {inches(triangle.sewn.size[0])} in and "
        f"{drawn.ON[triangle.long_edge.grain]}. (Long edges to the nearest 1/16 in.)"
    )
