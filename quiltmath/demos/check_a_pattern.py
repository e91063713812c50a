"""Check a pattern: faulty patterns as they would come out, what the review says of them, and the same ones put
right."""

from functools import cache, partial
from textwrap import fill

from .. import lengths, pattern, proofs, review
from ..draw import beside, panel_picture
from ..resources import folder
from ..review.checks import CHECKS
from ..review.report.cure import cures
from ..review.report.pictures import fabrics_drawn
from .controls import Choice
from .demo import Demo, Shown
from .lesson import Lesson
from .questions import Question
from .still import Still

CHOSEN = {  # the titles of the sheets a reader can choose from, and their files
    "Sixteen squares, halved for the edge": "no-allowance-halved-blocks",
    "Turned checkers": "bias-outside-sliced-and-turned",
    "Reading room, sides cut once": "wrong-triangles-cut-once",
    "Reading room, corners too small": "cut-size-small-corners",
    "Reading room, trimmed too far": "lost-points-trimmed-to-the-points",
}
TITLE = 22  # letters in a line of a small picture's title
BLOCK = 10  # inches, finished: the invented quilt of the puzzle


@cache
def _read(title):
    return review.review(pattern.read(folder("data") / "patterns" / "faulty" / f"{CHOSEN[title]}.toml"))


def model(sheet):
    """The top of one of the patterns as it would come out, and the review's verdict in a sentence."""
    found = _read(sheet)
    worst = found.findings[0]
    reasons = dict.fromkeys(_in_words(finding.check) for finding in found.findings)
    words = f"{found.verdict.upper()}: {'; '.join(reasons)}. {worst.message}"
    return Shown(panel_picture(found.made.top, title=sheet, name=sheet), words)


DEMO = Demo("Check a pattern", model, (Choice("sheet", "The pattern", tuple(CHOSEN), next(iter(CHOSEN))),), height=560)


def form(sheet=None):
    """The form of a pattern sheet; empty, or filled from a sheet's file."""
    from .reading_form import form as widget

    return widget(sheet)


def all_at_once():
    """Every pattern of the choice as it would come out, on one scale: a Still."""
    tops = {title: _read(title).made.top for title in CHOSEN}
    pictures = [
        panel_picture(top, title=fill(_in_words(_named_for(title)).capitalize(), TITLE), name=title)
        for title, top in tops.items()
    ]
    stops = sum(_read(title).verdict == "stop" for title in CHOSEN)
    words = f"{stops} of these {len(CHOSEN)} patterns get a stop before anyone cuts."
    alt = words + " " + " ".join(f"{title}: {_in_words(_named_for(title))}." for title in CHOSEN)
    return Still(beside(pictures, columns=3, alt=alt), words)


def _named_for(title):
    """The check that a pattern's file is named after."""
    return next(finding.check for finding in _read(title).findings if CHOSEN[title].startswith(finding.check))


def _in_words(check):
    """What a check finds, as a quilter says it.

    >>> _in_words("lost-points")
    'points will be cut off'
    """
    title = next(one.title for one in CHECKS if one.name == check)
    return title[0].lower() + title[1:]


def put_right(title="Turned checkers"):
    """One pattern as printed beside the same design put right: a Still."""
    found = _read(title)
    right = review.corrected(found)
    roles = fabrics_drawn(found.sheet)
    pictures = [
        panel_picture(found.made.top, title="As printed", fabrics=roles, name="As printed"),
        panel_picture(right.review.made.top, title="Corrected", fabrics=roles, name="Corrected"),
    ]
    words = " ".join(cures(found))
    return Still(beside(pictures, alt=" ".join(picture.alt for picture in pictures)), words)


def questions():
    """The guess before the reveal, and the puzzle after it."""
    checks = {
        "points cut off": "lost-points",
        "a stretchy outside": "bias-outside",
        "too little fabric": "fabric-short",
    }
    found = {finding.check for finding in _read("Turned checkers").findings}
    absent = next(words for words, check in checks.items() if check not in found)
    diagonal = proofs.diagonal.value(finished=BLOCK)
    side, corner = (proof.cut(block=BLOCK) for proof in (proofs.side_triangle, proofs.corner_triangle))
    return {
        "guess": Question(
            "A pattern sews a checkered top, twice as wide as high, then slices it twice at 45 degrees and turns the "
            "pieces so that the squares stand on point. Which of these will NOT be its trouble?",
            absent,
            choices=tuple(checks),
            hint="Where do the cut edges end up, and how far are the points from them?",
            mistakes=tuple(
                (words, "Look again at where the cut edges end up: they are the outside of the quilt.")
                for words in checks
                if words != absent
            ),
            why="Every outer edge is a cut edge: on the bias, and running through the points.",
        ),
        "size": Question(
            f"A pattern sets {BLOCK} in finished blocks on point and prints one square, cut twice, for four side "
            "triangles, but the size is blotted out. What size is needed, on a ruler with eighths?",
            side,
            unit="in",
            close="1/8",
            exact=proofs.side_triangle.value(block=BLOCK),
            hint="The long side is the block's diagonal; move all three sides out by a seam.",
            mistakes=(
                (corner, "That is the square for the corner triangles, cut once."),
                (
                    proofs.half_square.cut(finished=BLOCK),
                    "That is 7/8 added to the block's side: those triangles would be cut once, with bias outside.",
                ),
                (
                    proofs.quarter_square.cut(finished=BLOCK),
                    "That is 1 1/4 added to the block's side; it belongs to the long side, the block's diagonal.",
                ),
                (
                    lengths.ruler(proofs.half_square.value(finished=diagonal)),
                    "That is 7/8 added to the diagonal; both ends of the long side are sharp, so it takes 1 1/4.",
                ),
                (lengths.ruler(diagonal), "That is the block's diagonal alone, as it finishes: the seams are missing."),
            ),
            why="Side triangles are quarters of a square as wide as the block's diagonal and the seam's share.",
        ),
    }


lesson = Lesson(DEMO, questions, uncovered=partial(DEMO.app, sheet="Turned checkers"))
