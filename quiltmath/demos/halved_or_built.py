"""Halved or built, by hands that waver: does the quarter inch that a halved block loses drown in ordinary error?"""

from fractions import Fraction
from functools import lru_cache
from typing import NamedTuple

from .. import sewing
from ..draw import Lines, Marks, Picture, Words, beside, with_close_up
from ..draw.panels import fabric_layers
from ..usual import EASED, SEAM
from .controls import Length, Whole
from .demo import Demo, Shown
from .halves_drawn import FABRICS
from .lesson import Lesson
from .questions import Question
from .readings_drawn import fine
from .scattered import Triangle, built, halved, hand
from .still import Still
from .told import Told

N, PATCH = 4, Fraction(2)  # squares along a side of the block, inches
SCATTERS = tuple(Fraction(1, part) for part in (64, 32, 16))
HANDS = 10  # who sew both, where all stand together
BORDER = 1.5  # inches of the border that are drawn
ROLES = {**FABRICS, "border": "white"}
TIMES, PITCH = 8, 0.55  # how many times larger depths are drawn; inches between two hands
NEAR, TIMES_NEAR, APART = 0.75, 5, 1.5  # inches from the middle of a close-up to its frame; times larger; inches apart
REACH = Fraction(7, 16)  # inches: how far to either side of the seam depths are drawn
HALF, BUILT = "half of a block", "built triangle"
WAYS = {HALF: halved, BUILT: built}
NEARLY_ALL = Fraction(9, 10)


class SewnIn(NamedTuple):
    """A triangle sewn to its border: the triangle, what the seam took, and the cloth."""

    triangle: Triangle
    takes: float
    panel: sewing.Panel

    @property
    def lost(self):
        """How many of its points have lost more than can be eased."""
        return sum(by > EASED for by in self.triangle.lost_by(self.takes))


@lru_cache(maxsize=256)
def sewn_in(way, scatter, seed):
    """A triangle of the one way or the other, sewn by this hand, and sewn to its border by it."""
    takes = hand(scatter, seed)
    triangle = WAYS[way](N, PATCH, takes)
    seam, border = takes(), sewing.patch(size=(triangle.panel.size[0], BORDER), fabric="border")
    return SewnIn(triangle, seam, triangle.panel.sew(border, "bottom", "top", seam, "centre"))


def model(scatter, seed):
    """Half a block and a built triangle, both sewn to a border by one hand that wavers so much."""
    sewn = {way: sewn_in(way, scatter, seed) for way in WAYS}
    said = " ".join(f"{way.capitalize()}: {_lost(one)}." for way, one in sewn.items())
    words = f"Hand {seed}, {_hand(scatter)}. {said}"
    return Shown(beside([_drawn(way, one) for way, one in sewn.items()], alt=words), words)


DEMO = Demo(
    "Halved or built, by a hand that wavers",
    model,
    (
        Length("scatter", "Seams off by up to", "0", "1/16", "1/64", "1/32"),
        Whole("seed", "Hand", 1, 20, 1),
    ),
    height=600,
)


def all_at_once():
    """Ten hands that waver by three measures, halved and built, on one scale: a Still."""
    pictures = [_cell(way, scatter) for way in WAYS for scatter in SCATTERS]
    words = answer().text()
    alt = " ".join([words, *(picture.alt for picture in pictures)]).replace("\n", " ")
    return Still(beside(pictures, columns=len(SCATTERS), alt=alt), words, height=1040)


def answer():
    """Whether the lost quarter inch drowns, with what the hands have sewn: a Told."""
    lines = []
    for scatter in SCATTERS:
        half, whole = (_all_lost(way, scatter) for way in WAYS)
        better = "worse" if min(half) > max(whole) else "no worse"
        lines.append(
            f"Seams off by up to {fine(scatter)} in: halves lose {fine(min(half))} to {fine(max(half))} in of a point, "
            f"built triangles {fine(max(0, *whole))} in at most; the best half is {better} than the worst built one."
        )
    count, spoilt = HANDS * (N - 1), _spoilt()
    lines.append(
        f"Even by the hands that waver most, more than {fine(EASED)} in is lost of {spoilt[HALF]} of {count} points of "
        f"halves, and of {spoilt[BUILT]} of {count} points of built triangles."
    )
    return Told(*lines)


def questions():
    """The guess before the reveal, and the puzzle after it."""
    return {"guess": _drowns(), "middle": _middle()}


lesson = Lesson(DEMO, questions)


def _drowns():
    count, spoilt = HANDS * (N - 1), _spoilt()
    right = f"{_share(spoilt[HALF], count)} the halves, {_share(spoilt[BUILT], count)} the built ones"
    alike = (f"{much} of both" for much in ("some", "nearly all"))
    choices = (right, *alike)
    return Question(
        f"{HANDS} quilters sew triangles for the edge of a quilt: each of them half a block, cut from corner to "
        f"corner, and a triangle built from squares. Their seams are off by up to {fine(SCATTERS[-1])} in, now too "
        f"wide, now too narrow. Of which points will more than {fine(EASED)} in be missing?",
        right,
        choices=tuple(sorted(choices)),
        hint="A hand that wavers is off now to this side, now to the other. To which side is a halved block off?",
        mistakes=tuple(
            (choice, words)
            for choice, words in zip(
                choices[1:],
                (
                    "Wavering goes both ways and mostly cancels; what a cut takes is always gone.",
                    "A built triangle has its quarter inch; wavering seams only nibble at it.",
                ),
            )
        ),
        why=f"{spoilt[HALF]} of {count} points of the halves, {spoilt[BUILT]} of {count} of the built ones.",
    )


def _share(number, of):
    """Nearly all, some or none of them, in words."""
    return "none of" if not number else "nearly all of" if number > of * NEARLY_ALL else "some of"


def _middle(scatter=SCATTERS[-1]):
    lost = float(sum(_all_lost(HALF, scatter))) / (HANDS * (N - 1))
    none = "nothing"
    little, seam, two = (f"{fine(one)} in" for one in (scatter, SEAM, 2 * SEAM))
    return Question(
        "Hands that waver are off to either side alike. How much of a point does a halved block lose in the middle, "
        "over very many quilters?",
        seam,
        choices=(none, little, seam, two),
        hint="Errors to both sides cancel in the middle. What is left?",
        mistakes=(
            (none, "That would be so if the cut took nothing."),
            (little, "That is how much a seam may be off."),
            (two, "That is what the other half of the block loses where the cut runs a seam past its diagonal."),
        ),
        why=f"The seam that the cut took away; the {HANDS} hands here came to {lost:.3f} in.",
    )


def _spoilt():
    """How many points the hands that waver most lose, by the way of sewing."""
    return {way: sum(by > EASED for by in _all_lost(way, SCATTERS[-1])) for way in WAYS}


def _all_lost(way, scatter):
    """What all hands lose of all their points, inches each."""
    return [by for seed in range(1, HANDS + 1) for by in _lost_by(way, scatter, seed)]


def _lost_by(way, scatter, seed):
    one = sewn_in(way, scatter, seed)
    return one.triangle.lost_by(one.takes)


def _hand(scatter):
    return (
        f"each seam off by up to {fine(scatter)} in, now this way, now that" if scatter else "each seam as it should be"
    )


def _lost(one):
    by = one.triangle.lost_by(one.takes)
    most = f", the worst by {fine(max(by))} in" if fine(max(0, *by)) != "0" else ""
    return f"{one.lost} of {len(by)} points lost{most}"


def _drawn(way, one):
    """A triangle sewn to its border, and beside it its middle point, enlarged."""
    panel, takes = one.panel, one.takes
    line, moved = BORDER - takes, (panel.size[0] - one.triangle.panel.size[0]) / 2
    cloth = [*fabric_layers(panel, ROLES), Lines(panel.seams, "seam")]
    places = [(x + moved, line) for x, _ in one.triangle.points]
    spoilt = [by > EASED for by in one.triangle.lost_by(takes)]
    marks = [
        Marks(mine, role, label)
        for role, label, wanted in (("kept point", "point kept", False), ("lost point", "point lost", True))
        if (mine := [place for place, lost in zip(places, spoilt) if lost is wanted])
    ]
    picture = Picture(cloth, f"{way.capitalize()}: {_lost(one)}.", way.capitalize(), _lost(one).replace(", ", ",\n"))
    spot = places[(len(places) - 1) // 2]
    at = panel.size[0] + NEAR * TIMES_NEAR + APART, NEAR * TIMES_NEAR
    return with_close_up(picture.with_layers(*marks), spot, NEAR, TIMES_NEAR, at, cloth)


def _cell(way, scatter):
    """One of the small pictures: where each hand's points lie beside the seam, a line for each hand."""
    rows = [_lost_by(way, scatter, seed) for seed in range(1, HANDS + 1)]
    low, high, reach = -PITCH * HANDS, PITCH, float(REACH) * TIMES
    spots = [(-by * TIMES, -PITCH * number) for number, row in enumerate(rows) for by in row]
    lost = [by > EASED for row in rows for by in row]
    layers = [
        Lines([[(-reach, low), (-reach, high)], [(reach, low), (reach, high)]], "faint"),
        Lines([[(0, low), (0, high)]], "seam", "seam line"),
        Words((-reach / 2, high), "in the seam", side="above"),
        Words((reach / 2, high), "in sight", side="above"),
    ]
    for role, label, wanted in (("kept point", "point kept", False), ("lost point", "point lost", True)):
        mine = [spot for spot, one in zip(spots, lost) if one is wanted]
        if mine:
            layers.append(Marks(mine, role, label))
    count = len(spots)
    title = f"{way},\nseams ± {fine(scatter)} in"
    return Picture(
        layers,
        f"{way}, seams off by up to {fine(scatter)} in: {sum(lost)} of {count} points lost.",
        title,
        f"{sum(lost)} of {count} lost",
    )
