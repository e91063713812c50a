"""Templates at their true size: as drawn, as printed by pdftoppm, over pages joined at their marks."""

import math
from fractions import Fraction
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from matplotlib.backends.backend_agg import FigureCanvasAgg
from shapely import LineString, Point, Polygon, unary_union

from quiltmath import lengths, pattern, proofs, resources, review
from quiltmath.handout import PAPERS, CannotHandOver, Pages, handout
from quiltmath.handout.checked import check_squares
from quiltmath.handout.shaped import Template
from quiltmath.handout.templates import pages, templates
from quiltmath.handout.tiles import MOST_TILES, OVERLAP, draw_tile, tiling
from quiltmath.review.reading import Reading

from .on_paper import TRUE, drawn_lines, off_line, pdf_of, printed, words

SOUND = resources.folder("data") / "patterns" / "sound"
CUT_LINE = 1.5  # points
CROSS = 1.125  # points, as a seam
HAIR = 1e-6  # inches
ordinary = settings(deadline=None, max_examples=25)
SEAMS = {"in": "1/4", "cm": "0.75 cm"}


def square(side):
    return [(0.0, 0.0), (side, 0.0), (side, side), (0.0, side)]


def leg(side):
    return [(0.0, 0.0), (side, 0.0), (0.0, side)]


def shapes(unit, finished):
    """The cut outlines the library gives pieces of this finished size, and their grain: a square, a rectangle, a half
    square, a quarter square and the two setting triangles of a block."""
    seam = SEAMS[unit]

    def cut(proof, **given):
        return proof.value(seam=lengths.parse(seam), **given)

    whole = finished + 2 * lengths.parse(seam)
    yield "square", square(float(whole)), 90
    yield "rectangle", [(0, 0), (float(whole), 0), (float(whole), 2.0), (0, 2.0)], 90
    yield "half square", leg(cut(proofs.half_square, finished=finished)), 90
    yield "quarter square", leg(cut(proofs.quarter_square, finished=finished) / math.sqrt(2)), 45
    yield "side", leg(cut(proofs.side_triangle, block=finished) / math.sqrt(2)), 45
    yield "corner", leg(cut(proofs.corner_triangle, block=finished)), 90


def template(name, corners, grain, unit="in"):
    points = tuple((float(x), float(y)) for x, y in corners)
    return Template(name, "navy", 4, "so large", points, grain, float(lengths.parse(SEAMS[unit])))


def outline(one):
    return Polygon(one.cut_line).exterior


def tile_page(lies, tile, paper):
    page = paper.page("A template")
    draw_tile(page, paper, lies, tile)
    check_squares(page, paper)
    return page


def crosses(page):
    """The middles of the crosses on a page."""
    lines = drawn_lines(page, width=CROSS)
    level = [line.mean(axis=0) for line in lines if abs(line[0][1] - line[1][1]) < HAIR]
    return np.array([spot for spot in level if any(np.hypot(*(spot - other.mean(axis=0))) < HAIR for other in lines)])


def joined(lies, pages_of):
    """Where each page lies on the table when neighbours are laid cross on cross, {tile name: shift in inches}."""
    first = lies.tiles[0]
    places, waiting = {first.name: np.zeros(2)}, [first]
    by_name = {tile.name: tile for tile in lies.tiles}
    while waiting:
        tile = waiting.pop()
        for line, _, name in lies.neighbours(tile):
            if name in places:
                continue
            other = by_name[name]
            upright = abs(line[0][0] - line[1][0]) < HAIR
            mine, theirs = crosses(pages_of[tile.name]), crosses(pages_of[name])
            axis, end = (0, other.column > tile.column) if upright else (1, other.row < tile.row)
            pick = np.sort(_outermost(mine, axis, end), axis=0), np.sort(_outermost(theirs, axis, not end), axis=0)
            shift = pick[0].mean(axis=0) - pick[1].mean(axis=0)
            assert np.abs((pick[0] - pick[1]) - shift).max() < HAIR, "the crosses of two pages do not fit"
            places[name] = places[tile.name] + shift
            waiting.append(other)
    return places


def _outermost(spots, axis, greatest):
    """The two crosses on the outermost line of a page in one direction."""
    edge = spots[:, axis].max() if greatest else spots[:, axis].min()
    return spots[np.abs(spots[:, axis] - edge) < HAIR]


def is_true_over_its_pages(one, paper):
    """Lay the pages of a template on one another by their crosses: the cut lines drawn on them are its outline."""
    lies = tiling(one, paper)
    made = {tile.name: tile_page(lies, tile, paper) for tile in lies.tiles}
    lines = []
    for name, shift in joined(lies, made).items():
        lines += [LineString(line + shift) for line in drawn_lines(made[name], width=CUT_LINE)]
    found, wanted = unary_union(lines), outline(lies.template)
    left, low = np.array(found.bounds[:2]) - wanted.bounds[:2]
    moved = LineString(np.array(wanted.coords) + (left, low))
    assert moved.hausdorff_distance(found) < TRUE / 100
    assert outline(one).length == pytest.approx(wanted.length) and found.buffer(HAIR).covers(moved)


@pytest.mark.parametrize("paper", PAPERS.values(), ids=PAPERS)
@ordinary
@given(unit=st.sampled_from(["in", "cm"]), steps=st.integers(6, 200), shape=st.integers(0, 5))
def test_a_template_is_true_over_its_pages(paper, unit, steps, shape):
    finished = (Fraction(steps, 8) if unit == "in" else lengths.parse(f"{steps} mm")) + lengths.parse("1 cm")
    one = template(*list(shapes(unit, finished))[shape], unit=unit)
    is_true_over_its_pages(one, paper)


def every_template():
    """Every shape of every size by eighths from 1 to 25 in, and by millimetres from 2 to 60 cm, on both papers."""
    sizes = {"in": [f"{step}/8" for step in range(8, 201)], "cm": [f"{step} mm" for step in range(20, 601, 2)]}
    for paper in PAPERS.values():
        for unit, finished in sizes.items():
            for text in finished:
                for name, corners, grain in shapes(unit, lengths.parse(text)):
                    yield template(name, corners, grain, unit), paper


@pytest.mark.parametrize("paper", PAPERS.values(), ids=PAPERS)
@pytest.mark.parametrize("unit, finished", [("in", "3"), ("cm", "8 cm")])
def test_a_template_is_printed_at_its_true_size(paper, unit, finished):
    drawn, together = [template(*one, unit) for one in shapes(unit, lengths.parse(finished))], Pages("true", paper)
    for one in drawn:
        page = paper.page("true")
        one.draw(page, 100, 150)
        together.add(one.part, [page])
    pdf = together.pdf()
    for number, one in enumerate(drawn, 1):
        image = printed(pdf, number)
        zero = np.array([100, page.height - 150 - one.height]) / 96
        ends = np.array(one.cut_line) + zero
        for start, end in zip(ends, np.roll(ends, -1, axis=0)):
            for share in (0.2, 0.35, 0.8):
                assert abs(off_line(image, start + share * (end - start), end - start)) < TRUE


def test_a_tiled_template_is_printed_at_its_true_size():
    paper = PAPERS["A4"]
    one = template(*list(shapes("in", lengths.parse("12")))[4])
    lies = tiling(one, paper)
    made = {tile.name: tile_page(lies, tile, paper) for tile in lies.tiles}
    places, measured = joined(lies, made), 0
    first = np.array([lies.tiles[0].x, lies.tiles[0].y])
    for tile in lies.tiles:
        image = printed(pdf_of(made[tile.name], paper))
        window = Polygon([(0.7, 2.2), (paper.width / 96 - 0.7, 2.2), (paper.width / 96 - 0.7, 9.8), (0.7, 9.8)])
        for spot in crosses(made[tile.name]):
            assert abs(off_line(image, spot + (0.06, 0), (1, 0), 0.04)) < TRUE
        ends = np.array(lies.template.cut_line) - first
        corner = np.array([48 / 96, paper.height / 96 - (paper.top + 34) / 96 - lies.high])
        for start, end in zip(ends, np.roll(ends, -1, axis=0)):
            for share in np.linspace(0.05, 0.95, 19):
                spot = start + share * (end - start) + corner - places[tile.name]
                if window.contains(Point(spot)) and _clear(spot, made[tile.name]):
                    assert abs(off_line(image, spot, end - start, 0.03)) < TRUE
                    measured += 1
    assert len(lies.tiles) > 1 and measured > 20


def _clear(spot, page):
    """Whether nothing but the cut line is drawn near a spot."""
    others = [*drawn_lines(page, "#0072b2"), *drawn_lines(page, width=CROSS)]
    return all(LineString(line).distance(Point(spot)) > 0.1 for line in others)


@pytest.mark.parametrize("paper", PAPERS.values(), ids=PAPERS)
def test_the_check_squares_are_printed_at_their_true_size(paper):
    page = paper.page("squares")
    check_squares(page, paper)
    image = printed(pdf_of(page, paper))
    low, left = (48 + 22 + 8) / 96, 48 / 96
    for side in (1.0, 2 / 2.54):
        middle = low + side / 2
        walls = [x + off_line(image, (x, middle + 0.15), (0, 1)) for x in (left, left + side)]
        floors = [y + off_line(image, (left + side / 2 + 0.2, y), (-1, 0)) for y in (low, low + side)]
        assert abs(walls[0] - walls[1]) == pytest.approx(side, abs=TRUE)
        assert floors[1] - floors[0] == pytest.approx(side, abs=TRUE)
        left += side + 26 / 96


def test_a_larger_square_would_be_noticed():
    paper, page = PAPERS["A4"], PAPERS["A4"].page("squares")
    page.box(100, 100, 97, 97, 1.0)
    image = printed(pdf_of(page, paper))
    right = off_line(image, ((100 + 96) / 96, (page.height - 150) / 96), (0, 1))
    assert abs(right) > TRUE


# -- the templates of a sheet ------------------------------------------------------------------------------------------


def of_sheet(name):
    return Reading(pattern.read(SOUND / f"{name}.toml"))


def test_every_page_has_its_squares_and_every_template_its_words():
    text = words(handout(review.review(pattern.read(SOUND / "library-lap-quilt.toml")), ["templates"], "A4").pdf())
    sheets = text.rstrip("\f").split("\f")
    assert all("1 in" in page and "2 cm" in page and "Rotary cutter" in page for page in sheets)
    for said in ("dark square: cut 150 from navy", "side: cut 18 from navy", "a quarter of a square 14 in", "page A2"):
        assert said in text


def test_cut_lines_are_those_of_the_needs():
    """A template is as large as the proofs ask, whatever the printed size was rounded to; what is trimmed may be larger
    on purpose."""
    exact = 0
    for sheet in sorted(SOUND.glob("*.toml")):
        reading = Reading(pattern.read(sheet))
        for one in templates(reading):
            need = reading.made.needs.get(one.part)
            if need is None or need.why not in ("patch", "half_square", "quarter_square", "side_triangle"):
                continue
            cut = reading.sheet.part(one.part)
            shorten = {"whole": 1, "once": 1, "twice": 1 / math.sqrt(2)}[cut.cut]
            sides = sorted(side * shorten for side in need.pair)
            box = Polygon(one.cut_line).bounds
            found = sorted((box[2] - box[0], box[3] - box[1]))
            if need.least and found[0] > sides[0] + TRUE:
                continue
            assert found == pytest.approx(sides, abs=TRUE), (sheet.stem, one.part)
            exact += 1
    assert exact > 50


def test_the_seam_line_is_the_finished_piece():
    dark, *_ = templates(of_sheet("library-lap-quilt"))
    assert dark.seam_line == ((0.25, 0.25), (3.25, 0.25), (3.25, 3.25), (0.25, 3.25))


def test_a_piece_that_shows_nothing_has_a_middle_without_room():
    piece = Template("A", "navy", 1, "1/2", tuple(square(0.5)), 0.0, 0.25)
    assert piece.middle == (0.25, 0.25, 0.0)


def test_strips_and_squares_sewn_before_they_are_cut_have_none():
    named = {sheet: [one.part for one in templates(of_sheet(sheet))] for sheet in ("pinwheel-units", "log-cabins")}
    sheet = of_sheet("pinwheel-units").sheet
    assert not set(named["pinwheel-units"]) & {part for unit in sheet.unit.values() for part in unit.parts}
    assert named["log-cabins"] and all(of_sheet("log-cabins").sheet.part(part).size for part in named["log-cabins"])


def test_words_on_a_template_lie_inside_its_seams():
    for paper in PAPERS.values():
        for text in ("1", "3", "6"):
            for name, corners, grain in shapes("in", lengths.parse(text)):
                one, page = template(name, corners, grain), paper.page("words")
                before = len(page.axes.texts)
                one.draw(page, 60, 120)
                inner = Polygon(one.seam_line).buffer(0.01)
                for word in page.axes.texts[before:]:
                    box = word.get_window_extent(FigureCanvasAgg(page.figure).get_renderer())
                    low = (page.height - 120 - one.height) / 96
                    spots = np.array(box.corners()) / page.figure.dpi - (60 / 96, low)
                    assert all(inner.covers(Point(spot)) for spot in spots), (name, text, word.get_text())


def test_neighbouring_pages_share_the_overlap():
    lies = tiling(template("big", square(20.0), 90), PAPERS["Letter"])
    columns = sorted({tile.x for tile in lies.tiles})
    assert all(right - left == pytest.approx(lies.wide - OVERLAP) for left, right in pairwise(columns))


def test_a_template_of_too_many_pages_is_refused_before_anything_is_drawn():
    text = (SOUND / "library-lap-quilt.toml").read_text("utf-8").replace('size = "9 1/2"', 'size = "60"', 1)
    reading = Reading(pattern.read_text(text.replace('finished = "9"\ncount = 20', "count = 20")))
    with pytest.raises(CannotHandOver) as refused:
        list(pages(reading, PAPERS["Letter"]))
    assert str(refused.value).startswith("the template of plain block (60 in) takes ")
    more = int(str(refused.value).split(" more than ")[0].rsplit(" ", 1)[1])
    assert f"{more + MOST_TILES} pages of Letter, {more} more than 36: cut it by its size" in str(refused.value)
