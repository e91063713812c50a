"""Cutting diagrams: every piece once, none on another, each with its number, as the page draws them."""

from collections import Counter
from string import ascii_lowercase

import numpy as np
import pytest
from hypothesis import given, settings
from matplotlib.patches import PathPatch
from shapely import Polygon, STRtree, box
from shapely.ops import unary_union

from quiltmath import pattern, resources, review
from quiltmath.handout import PAPERS, handout
from quiltmath.handout.cutting import fabric_diagrams, pages
from quiltmath.handout.diagrams import Diagram, diagram_boxes
from quiltmath.making.shaped import per_strip
from quiltmath.pattern.sheet import EXAMPLE
from quiltmath.review.reading import Reading
from quiltmath.yardage import Piece, PiecesPlan, length_needed

from . import strips_bound
from .bench.cutting import one_of_thirty, over_any_strips
from .on_paper import words
from .test_yardage import pieces, shortest_strips

SOUND = sorted((resources.folder("data") / "patterns" / "sound").glob("*.toml"))
WHITE = (1.0, 1.0, 1.0, 1.0)
TIE = 1e-5  # so that no share lies half way between two roundings
ordinary = settings(deadline=None, max_examples=20)


def diagram_of(parts, width):
    plan = length_needed(parts, width)
    return Diagram(plan, {one.part: letter for one, letter in zip(parts, ascii_lowercase, strict=False)}, {})


def drawn_on(diagram, paper):
    """The pages a diagram takes, a box each."""
    found = []
    for one in diagram_boxes(diagram, str, paper):
        page = paper.page("cutting")
        assert one.height <= paper.depth
        one.draw(page, paper.top)
        found.append(page)
    return found


def pieces_drawn(page):
    """The white shapes of a page, in px from its lower left corner, by the picture they stand in."""
    for axes in page.figure.axes[1:]:
        shapes = [one for one in axes.patches if isinstance(one, PathPatch)]
        filled = [one for one in shapes if one.get_fill() and one.get_facecolor() == WHITE]
        found = []
        for one in filled:
            found += [axes.transData.transform(polygon[:4]) for polygon in one.get_path().to_polygons()]
        yield [Polygon(np.round(corners, 6)) for corners in found]


def is_drawn_whole(diagram, paper):
    """Every piece is drawn once, in its size, on no other, with its number once in its middle."""
    sizes, labels = Counter(), Counter()
    for page in drawn_on(diagram, paper):
        texts = [word for word in page.axes.texts if word.get_text() in diagram.labels.values() and not _bold(word)]
        spots = [box(x - 0.01, y - 0.01, x + 0.01, y + 0.01) for x, y in map(_middle, texts)]
        shapes = [one for picture in pieces_drawn(page) for one in picture]
        tree = STRtree(shapes)
        assert unary_union(shapes).area == pytest.approx(sum(one.area for one in shapes), rel=1e-6)
        inside = tree.query(spots, predicate="within")
        assert sorted(inside[0]) == list(range(len(texts))) and sorted(inside[1]) == list(range(len(shapes)))
        for number, shape in zip(*inside):
            left, low, right, high = shapes[shape].bounds
            labels[texts[number].get_text()] += 1
            sizes[texts[number].get_text(), round((right - left) / (high - low) + TIE, 3)] += 1
    wanted = [(diagram.labels[place.piece.part], float(place.width / place.height)) for place in diagram.places]
    assert labels == Counter(label for label, _ in wanted)
    assert sizes == Counter((label, round(share + TIE, 3)) for label, share in wanted)


def test_of_very_many_pieces_those_alike_side_by_side_have_one_number():
    """4,200 squares in strips, and 90 of another part: a number at the left end of each run, no more."""
    diagram = diagram_of([Piece(1, 1, 4200, "A"), Piece(1, 1, 90, "B")], 42)
    texts = Counter()
    for page in drawn_on(diagram, PAPERS["A4"]):
        texts.update(word.get_text() for word in page.axes.texts if not _bold(word))
    runs = Counter()
    for strip in diagram.strips:
        parts = [place.piece.part for place in strip.pieces]
        runs.update(part for part, before in zip(parts, [None, *parts]) if part != before)
    assert {part: texts[label] for part, label in diagram.labels.items()} == runs


def _bold(word):
    return word.get_weight() == "bold"


def _middle(word):
    x, y = word.axes.transData.transform(word.get_position())
    return x, y + word.get_fontsize() * 0.3 * word.figure.dpi / 72


def is_whole(diagram):
    """The strips hold every piece of the list once, on the fabric, none on another; joined strips reach."""
    plan = diagram.plan
    held = [place for strip in diagram.strips for place in strip.pieces]
    assert held == plan.places()
    found = Counter(place.piece.part for place in held if not place.joined)
    if isinstance(plan, PiecesPlan):
        listed, joined = Counter(place.piece.part for _, places in plan.alike for place in places), {}
    else:
        joined = {strip.cuts[0].piece.part: strip.count for strip in plan.strips if strip.joined}
        listed = of_each_part(one for one in plan.pieces if one.part not in joined)
    assert found == listed
    assert Counter(place.piece.part for place in held if place.joined) == joined
    drawn = len(plan.alike) if isinstance(plan, PiecesPlan) else 1  # pieces of fabric, one above another
    fabric = box(0, 0, float(plan.usable_width), drawn * float(plan.length)).buffer(1e-9)
    shapes = [box(*map(float, (one.x, one.y, one.x + one.width, one.y + one.height))) for one in held]
    assert all(fabric.covers(one) for one in shapes)
    assert unary_union(shapes).area == pytest.approx(sum(one.area for one in shapes))
    for strip in diagram.strips:
        assert all(strip.below <= one.y and one.y + one.height <= strip.below + strip.height for one in strip.pieces)


@ordinary
@given(pieces(kinds=5, most=12, side=60))
def test_every_piece_stands_in_the_diagram_once_with_its_number(parts):
    diagram = diagram_of(parts, 42)
    is_whole(diagram)
    is_drawn_whole(diagram, PAPERS["A4"])


def cut_from(plan):
    """How many of each part a plan gives; pieces of fabric that are cut alike are drawn once, with their number."""
    if isinstance(plan, PiecesPlan):
        return Counter(place.piece.part for count, places in plan.alike for _ in range(count) for place in places)
    return of_each_part(plan.pieces)


def of_each_part(pieces):
    """How many pieces there are of each part; the strips of a shape that are filled, and the one that is begun, are of
    one part."""
    found = Counter()
    for piece in pieces:
        found[piece.part] += piece.count
    return found


def cut_out(sheet, cut):
    """How many pieces of a line are cut from the fabric first: of shapes the strips."""
    return (
        cut.count
        if cut.shape is None
        else -(-cut.count // per_strip(sheet, cut, float(sheet.usable_width(cut.fabric))))
    )


@pytest.mark.parametrize("sheet", SOUND, ids=lambda path: path.stem)
def test_every_sheet_s_pieces_stand_in_its_diagrams(sheet):
    reading = Reading(pattern.read(sheet))
    wanted = Counter()
    for one in fabric_diagrams(reading):
        is_whole(one.diagram)
        wanted += cut_from(one.diagram.plan)
    listed = Counter({cut.part: cut_out(reading.sheet, cut) for cut in reading.sheet.cut})
    assert {part: count for part, count in wanted.items() if part != "binding"} == listed


@pytest.mark.parametrize("number", (2, 10, 16))
def test_a_plan_is_hardly_longer_than_any_plan_of_strips(number):
    """A sample of the thirty lists that `python -m tests.bench cutting thirty` plans and judges."""
    listed = one_of_thirty(number)
    assert over_any_strips(listed, length_needed(listed, 42)) <= 0.03


def test_the_judge_agrees_with_looking_at_every_plan():
    for number in range(40):
        parts = [Piece(1 + number % 4, 1 + number // 4 % 4, 1 + number % 3), Piece(1 + number // 5 % 4, 2, 2)]
        best = shortest_strips(parts, 6)
        assert strips_bound.at_least(parts, 6) <= best
        assert float(strips_bound.by_every_strip(parts, 6)) == pytest.approx(float(best))


def test_the_longest_strips_come_first_and_joined_ones_last():
    plan = length_needed(
        [Piece("2 1/2", 70, 4, "border"), Piece("6 1/2", "6 1/2", 40, "A"), Piece(60, 2, 3, "ends")], 42
    )
    strips = Diagram(plan, {}, {}).strips
    heights = [strip.height for strip in strips if not strip.pieces[0].joined]
    assert heights == sorted(heights, reverse=True) and heights[0] >= 70
    assert [strip.pieces[0].joined for strip in strips[-5:]] == [True] * 5


def test_a_page_says_what_each_number_is_and_how_much_to_buy():
    found = review.review(pattern.read(SOUND[[path.stem for path in SOUND].index("library-lap-quilt")]))
    text = words(handout(found, ["cutting"], "Letter").pdf())
    for said in (
        "1, dark square: 150 squares 3 1/2 in",
        ", side: 5 squares 14 in, then cut twice on the diagonals",
        "70 1/4 in of fabric 42 in wide: buy 2 yd. 1 % of it is left over",
        "Rotary cutter",
        "Hatched fabric is left over",
    ):
        assert said in " ".join(text.split())
    assert "binding: 8 pieces 42 by 2 1/2 in" in " ".join(text.split())  # which the sheet itself does not say
    assert len(text.rstrip("\f").split("\f")) == 2


@pytest.mark.parametrize("paper", PAPERS.values(), ids=PAPERS)
def test_long_fabric_goes_over_to_more_pages(paper):
    diagram = diagram_of([Piece("2 1/2", "2 1/2", 950, "A"), Piece(5, 90, 3, "border")], 42)
    is_whole(diagram)
    is_drawn_whole(diagram, paper)


def test_a_sheet_without_fabrics_has_its_diagram():
    (page,) = pages(Reading(pattern.read_text(EXAMPLE)), PAPERS["A4"])
    assert sum(word.get_text() == "1" and not _bold(word) for word in page.axes.texts) == 16


def test_a_piece_wider_than_its_fabric_is_said_and_not_drawn():
    sheet = pattern.read_text(EXAMPLE.replace('size = "3 1/2"', 'size = "50"'))
    (one,) = fabric_diagrams(Reading(sheet))
    assert one.diagram is None
    assert one.said.startswith("Not drawn: a piece is no wider than the usable width, 40 in; got A (50 × 50): turn it")
    assert len(list(pages(Reading(sheet), PAPERS["A4"]))) == 1


def test_pieces_too_many_to_plan_are_said():
    sheet = pattern.read_text(EXAMPLE.replace("count = 16", "count = 30000"))
    (one,) = fabric_diagrams(Reading(sheet))
    assert one.said == "Not drawn: it has 30,000 pieces, more than are drawn."


def test_lengths_are_said_in_the_sheet_s_units():
    metric = next(path for path in SOUND if path.stem == "metric-half-squares")
    said = next(fabric_diagrams(Reading(pattern.read(metric)))).said
    assert " cm of fabric " in said and "buy " in said and " m." in said
