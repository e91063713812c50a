"""The invented wall quilt of the lesson on fabric to buy: what is cut from one fabric, planned and drawn."""

from functools import lru_cache

from .. import lengths, yardage
from ..draw import Lines, Measure, Picture, Shapes, Words, inches
from ..draw.cutting import Diagram, column_picture
from .nine_patch import NINE_PATCH

FABRIC, ACROSS, BORDER, STRIP = "plum", 2, "5", "2 1/2"
LETTERS = {"side triangle": "A", "corner triangle": "B", "border 1 side strip": "C", "border 1 top strip": "D"}
LETTERS |= {"binding": "E"}
SHORT = {"border 1 side strip": "side border", "border 1 top strip": "top border"}  # what is said under the picture
BESIDE = 2.5  # inches from the fabric, clear of what it shrinks: how high each strip is
LOW, HIGH = 4, 7  # inches: a letter does not fit into a lower piece; letters on all higher ones are not too many
NO_BREAK = "\N{NO-BREAK SPACE}"
OUTER = -125  # px: how far out the bought length is measured, past the measure of the plan


@lru_cache(maxsize=1)
def quilt():
    """The plan of the quilt, its setting triangles and its border from one fabric."""
    from .. import settings

    plum = settings.border(BORDER, fabric=FABRIC)
    return settings.on_point(across=ACROSS, down=ACROSS, block=NINE_PATCH, borders=(plum,), fabrics={"setting": FABRIC})


@lru_cache(maxsize=256)
def reading(width, bought=None):
    """The review's reading of its sheet, bound in the same fabric, which is so wide and of which so much is bought
    (inches)."""
    from ..review.reading import Reading

    sheet, ring = quilt().sheet(), yardage.binding(*quilt().size, STRIP, width)
    changes = [(("fabric", cut.fabric, "usable_width"), lengths.text(width)) for cut in sheet.cut]
    changes.append((("binding",), {"fabric": FABRIC, "strip": STRIP, "count": ring.strips}))
    if bought is not None:
        changes.append((("fabric", FABRIC, "bought"), lengths.text(bought, mark="in")))
    return Reading(sheet).changed(*changes)


def plan(width):
    """The `yardage.CuttingPlan` of all that is cut from fabric so wide (inches)."""
    return reading(width).plan(FABRIC).laid


def parts(width):
    """What each letter stands for, in lines."""
    said = {"whole": "", "once": ", cut once", "twice": ", cut twice"}
    ways = _ways(width)
    return [
        f"{LETTERS[piece.part]}: {piece.part}, {piece.count} of {inches(piece.width)} × {inches(piece.height)} in"
        + said[ways.get(piece.part, "whole")]
        for piece in plan(width).pieces
    ]


def drawn(width, words):
    """The cutting diagram: strips from the top down, beside them how high they are, letters on the pieces and under it
    what these stand for."""
    made = plan(width)
    diagram, across, high = _diagram(width), float(made.usable_width), float(made.length)
    least = high - float(made.at_least)
    picture = column_picture(diagram, diagram.strips)
    letters = [
        Words((float(place.x + place.width / 2), high - float(place.y + place.height / 2)), LETTERS[place.piece.part])
        for place in _lettered(diagram)
    ]
    never = Lines([[(0, least), (across, least)]], "cut line", "no cutter does with less than from the top to here")
    return Picture(
        [
            *picture.layers,
            never,
            *letters,
            *_beside_the_strips(diagram, across, high),
            Measure((0, 0), (across, 0), f"{inches(across)} in"),
            Measure((0, high), (0, 0), f"{inches(high)} in"),
        ],
        f"Cutting diagram, the first strip on top. {words} {' '.join(parts(width))}",
        caption=_letters_told(),
    )


def within(picture, cut, width, buy, percent, straighten):
    """The same picture with the ends that are straightened, and round it the fabric as it is bought."""
    across, high, more = float(cut.usable_width), float(cut.length), float(straighten)
    layers = []
    if straighten:
        end = [(0, high), (across, high), (across, high + more), (0, high + more)]
        layers.append(Shapes([end], "yellow", "to straighten the ends", "outline"))
    if percent:
        left, right = (across - float(width)) / 2, (across + float(width)) / 2
        corners = [(left, 0), (right, 0), (right, float(buy)), (left, float(buy)), (left, 0)]
        layers.append(Lines([corners], "finished line", "as it is bought, before the wash"))
    if percent or straighten:
        layers.append(Measure((0, float(buy)), (0, 0), f"{inches(buy)} in", away=OUTER))
    return picture.with_layers(*layers)


def small(width, title, caption, words):
    """The diagram without letters and measures, for a table of small ones."""
    diagram = _diagram(width)
    return Picture(column_picture(diagram, diagram.strips).layers, words, title, caption)


def _letters_told():
    """What each letter stands for, a line ending only between two of them."""
    return ", ".join(f"{letter} {SHORT.get(part, part)}".replace(" ", NO_BREAK) for part, letter in LETTERS.items())


def _diagram(width):
    return Diagram(plan(width), LETTERS, _ways(width))


def _ways(width):
    return {cut.part: cut.cut for cut in reading(width).sheet.cut}


def _runs(diagram):
    """Each run of strips that are alike: the numbers of its first and last strip, how far down it begins, and its
    `yardage` strips."""
    first, below = 1, 0.0
    for alike in diagram.plan.strips:
        yield first, first + alike.count - 1, below, alike
        first, below = first + alike.count, below + float(alike.height) * alike.count


def _lettered(diagram):
    """The pieces that get a letter: each high one, and of low ones the first of its part among strips alike."""
    known = set()
    ends = [below + float(alike.height) * alike.count for _, _, below, alike in _runs(diagram)]
    for place in diagram.places:
        run = sum(end <= float(place.y) for end in ends)
        if place.height >= HIGH or place.height >= LOW and (run, place.piece.part) not in known:
            yield place
        known.add((run, place.piece.part))


def _beside_the_strips(diagram, across, high):
    """Beside each run of strips that are alike their numbers, their height, and the letters of what is too low to bear
    them."""
    lettered = {place.piece.part for place in _lettered(diagram)}
    for first, last, below, alike in _runs(diagram):
        numbers = f"{first}" if first == last else f"{first}–{last}"
        named = "" if below else ("strip " if first == last else "strips ")
        low = sorted(LETTERS[cut.piece.part] for cut in alike.cuts if cut.piece.part not in lettered)
        middle = high - below - float(alike.height) * alike.count / 2
        said = ", ".join([f"{named}{numbers}: {inches(alike.height)} in", *low])
        yield Words((across + BESIDE, middle), said, "start")
