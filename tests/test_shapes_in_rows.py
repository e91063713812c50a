"""Pieces cut at an angle, in units and in rows: the finished shapes against Shapely's, and what the review says."""

from fractions import Fraction
from math import sqrt

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from shapely import affinity
from shapely.geometry import Polygon, box
from shapely.ops import unary_union

from quiltmath import lengths, making, pattern, review
from quiltmath.making import shaped
from quiltmath.making.cover import Cover
from quiltmath.making.rounding import needed_rectangle, triangle_between
from quiltmath.review.reading import Reading

SAME = 1e-6  # square inches: floats of the simulator against Shapely's


def eighths(least, most):
    return st.integers(8 * least, 8 * most).map(lambda number: Fraction(number, 8))


def sheet(cuts, rows, more="", bought="3 yd"):
    """A quilt whose rows are these blocks; `cuts` are lines of the cutting list."""
    lines = "".join(f'[[cut]]\nfabric = "navy"\n{cut}\n' for cut in cuts)
    blocks = "".join(f'[block.row{number}]\nrows = ["{row}"]\n{more}\n' for number, row in enumerate(rows))
    names = ", ".join(f'"row{number}"' for number in range(len(rows)))
    return (
        f'title = "Rows"\nseam = "1/4"\n[fabric.navy]\nbought = "{bought}"\nusable_width = "42"\n{lines}{blocks}'
        f'[setting]\nstyle = "straight"\nrows = [{names}]\n'
    )


def line(part, shape, width, count=40, more=""):
    return f'part = "{part}"\nshape = "{shape}"\nstrip_width = "{width}"\ncount = {count}\n{more}'


def shown(panel, seam):
    """The finished patches of a panel, in the order in which they are sewn."""
    return [Polygon(patch.polygon.round(9)) for patch in panel.bind(seam).patches]


def same(one, other):
    return one.symmetric_difference(other).area < SAME


class TestTriangleInASquare:
    @given(width=eighths(2, 8), height=eighths(1, 8), seam=st.sampled_from(["1/4", "3/8"]), blunt=st.booleans())
    @settings(max_examples=25, deadline=None, derandomize=True)
    def test_what_the_proof_gives_rounded_up_tiles_the_unit(self, width, height, seam, blunt):
        assume(width < 2 * height)
        s, w, h = float(Fraction(seam)), float(width), float(height)
        across, up, strip = triangle_between(w, h, s)
        middle, side = (across, strip if blunt else up), needed_rectangle((w / 2, h), s)
        middle, side = ([lengths.text(lengths.ruler(one, "1/8", "up")) for one in pair] for pair in (middle, side))
        text = sheet(
            [
                f'part = "M"\nshape = "triangle"\nsize = {middle}\ncount = 1',
                f'part = "S"\nsize = {side}\ncount = 1\ncut = "once"'
                + ('\nslant = "both"' if side[0] != side[1] else ""),
            ],
            ["U"],
        ).replace(
            "[block",
            '[unit.U]\nkind = "triangle in a square"\nparts = ["M", "S"]\n'
            f'finished = ["{lengths.text(width)}", "{lengths.text(height)}"]\n[block',
        )
        made = making.make(pattern.read_text(text.replace('seam = "1/4"', f'seam = "{seam}"')))
        patches = shown(made.panel("U"), s)
        tip = w / 2, h
        drawn = [[(0, 0), (w, 0), tip], [(0, 0), tip, (0, h)], [(w, 0), (w, h), tip]]
        assert all(same(patch, Polygon(corners)) for patch, corners in zip(patches, drawn, strict=True))
        assert same(unary_union(patches), box(0, 0, w, h))


ROWS = {
    "triangles": ([line("T", "60-degree triangle", "3 3/4")], "T T:180 T T:180 T"),
    "halves": (
        [
            line("T", "60-degree triangle", "3 3/4"),
            line("L", "half 60-degree triangle", "3 3/4", more='slant = "left"'),
            line("R", "half 60-degree triangle", "3 3/4", more='slant = "right"'),
        ],
        "R:180 T T:180 T L:180",
    ),
    "diamonds": ([line("D", "60-degree diamond", "3 1/2")], "D D D"),
    "leaning left": ([line("D", "60-degree diamond", "3 1/2", more='slant = "left"')], "D D D"),
    "steep diamonds": ([line("D", "45-degree diamond", "3 1/2")], "D D"),
    "half hexagons": ([line("H", "half hexagon", "3 1/2")], "H H:180 H"),
    "trapezoid and triangles": (
        ['part = "Z"\nshape = "trapezoid"\nsize = ["10 1/4", "3 1/2"]\ncount = 1',
         'part = "T"\nsize = "3 7/8"\ncut = "once"\ncount = 1'],
        "T:270 Z T:180",
    ),
}  # fmt: skip
SIDE = 3 * 2 / sqrt(3)  # of a triangle, or a diamond, that finishes 3 in high


def whole(name):
    """The finished row as it is drawn by Shapely: its outline."""
    base = {
        "triangles": [(0, 0), (3 * SIDE, 0), (2.5 * SIDE, 3), (0.5 * SIDE, 3)],
        "halves": [(0, 0), (2 * SIDE, 0), (2 * SIDE, 3), (0, 3)],
        "diamonds": [(0, 0), (3 * SIDE, 0), (3.5 * SIDE, 3), (0.5 * SIDE, 3)],
        "leaning left": [(0.5 * SIDE, 0), (3.5 * SIDE, 0), (3 * SIDE, 3), (0, 3)],
        "steep diamonds": [(0, 0), (6 * sqrt(2), 0), (6 * sqrt(2) + 3, 3), (3, 3)],
        "half hexagons": [(0, 0), (5 * SIDE, 0), (4.5 * SIDE, 3), (0.5 * SIDE, 3)],
        "trapezoid and triangles": [(0, 0), (9, 0), (9, 3), (0, 3)],
    }
    return Polygon(base[name])


class TestRows:
    @pytest.mark.parametrize("name", ROWS)
    def test_the_finished_pieces_tile_the_row(self, name):
        cuts, row = ROWS[name]
        made = making.make(pattern.read_text(sheet(cuts, [row])))
        panel = made.panel("row0")
        assert panel is not None, made.troubles
        patches = shown(panel, 0.25)
        outline = whole(name)
        union = unary_union(patches)
        laid = affinity.translate(union, -union.bounds[0], -union.bounds[1])
        assert same(laid, outline)
        assert sum(patch.area for patch in patches) == pytest.approx(outline.area)
        assert max(abs(seam.difference) for seam in panel.sewn_seams()) < SAME

    @pytest.mark.parametrize("name", ROWS)
    def test_the_quilt_on_the_cover_is_the_same(self, name):
        cuts, row = ROWS[name]
        made = making.make(pattern.read_text(sheet(cuts, [row])))
        cover = unary_union([Polygon(one.polygon.round(9)) for one in Cover.of(made).panel("row0").patches])
        laid = affinity.translate(cover, -cover.bounds[0], -cover.bounds[1])
        assert same(laid, whole(name))

    @pytest.mark.parametrize("name", ROWS)
    def test_a_row_is_as_wide_as_its_numbers_say(self, name):
        cuts, row = ROWS[name]
        measures = Reading(pattern.read_text(sheet(cuts, [row]))).measures
        placed = measures.rows(measures.sheet.block["row0"].rows)
        outline = whole(name)
        assert measures.across(placed[0]).value == pytest.approx(outline.area / 3)
        assert all(part.height.value == pytest.approx(3) for part in placed[0] if not part.triangle)
        lean = placed[0][0].slant + placed[0][-1].slant
        assert 2 * lean == pytest.approx(2 * (outline.bounds[2] - outline.area / 3), abs=1e-6) or lean == 0

    def test_a_strip_gives_no_more_than_lie_on_it_and_one_more_does_not(self):
        for name, (cuts, row) in ROWS.items():
            quilt = pattern.read_text(sheet(cuts, [row]))
            for cut in (cut for cut in quilt.cut if cut.shape is not None):
                raw = Polygon(shaped.raw_corners(quilt, cut))
                turned = affinity.rotate(raw, 180, origin=(0, 0))
                turned = affinity.translate(turned, -turned.bounds[0], -turned.bounds[1])
                shift, laid = raw.area / raw.bounds[3], []
                for number in range(shaped.per_strip(quilt, cut, 42) + 1):
                    leans = cut.shape.endswith("diamond") or number % 2 == 0
                    beside = number * shift
                    if cut.shape.startswith("half 60") and not leans:  # two make a rectangle
                        beside = (number + 1) * shift - raw.bounds[2]
                    laid.append(affinity.translate(raw if leans else turned, beside))
                assert unary_union(laid).area == pytest.approx(len(laid) * raw.area), name
                assert max(one.bounds[2] for one in laid[:-1]) <= 42 + SAME < laid[-1].bounds[2], name


def said(text):
    found = review.review(pattern.read_text(text))
    return (
        found.verdict,
        {(one.check, one.level) for one in found.findings},
        " ".join(one.message for one in found.findings),
    )


class TestReview:
    HALVES = sheet(*[ROWS["halves"][0]], [ROWS["halves"][1]] * 2)

    def test_a_strip_too_narrow_is_the_culprit(self):
        text = sheet([line("T", "60-degree triangle", "3 1/2"), *ROWS["halves"][0][1:]], [ROWS["halves"][1]])
        verdict, kinds, words = said(text)
        assert verdict == "stop" and ("edges-differ", "stop") in kinds
        assert "'T' is cut 3 1/2 in wide, too narrow: cut 3 3/4 in wide" in words

    def test_strips_that_are_all_too_narrow_are_the_culprits_and_not_the_size_to_trim_to(self):
        cuts = [line(part, "half hexagon", "3 1/4") for part in "HI"]
        text = sheet(cuts, ["H I:180 H I:180", "H:180 I H:180 I"], 'trim_to = ["18", "3 1/2"]')
        verdict, kinds, words = said(text.replace('seam = "1/4"', 'seam = "1/4"\nfinished = ["17 1/2", "6"]'))
        assert verdict == "stop" and ("cut-size", "stop") in kinds and "is trimmed to" not in words
        assert "'H' and 'I' are cut 3 1/4 in wide, too narrow: cut 3 1/2 in wide" in words

    def test_a_piece_that_is_not_turned_cannot_be_sewn(self):
        verdict, _, words = said(sheet(ROWS["triangles"][0], ["T T T:180"]))
        assert verdict == "stop" and "in a row 'T' slants another way than 'T' before it: turn one of them" in words

    def test_slanting_sides_are_asked_about(self):
        verdict, kinds, words = said(sheet(ROWS["diamonds"][0], [ROWS["diamonds"][1]]))
        assert verdict == "ask" and ("edges-differ", "ask") in kinds
        assert "The sides of the quilt slant" in words

    @pytest.mark.parametrize(("trim", "reaches"), [("6 7/8", True), ("9", False)])
    def test_a_row_is_trimmed_only_as_far_as_it_reaches(self, trim, reaches):
        _, kinds, words = said(sheet(ROWS["triangles"][0], [ROWS["triangles"][1]], f'trim_to = ["{trim}", "3 1/2"]'))
        assert (("cut-size", "stop") not in kinds) is reaches
        assert ("cannot be trimmed to 9 by 3 1/2 in: its rows end in slanting sides" in words) is not reaches

    @pytest.mark.parametrize(("strips", "enough"), [(2, False), (3, True)])
    def test_printed_strips_give_tips_up_and_down(self, strips, enough):
        cut = line("T", "60-degree triangle", "3 3/4", 40, f"strips = {strips}")
        _, kinds, words = said(sheet([cut], [" ".join(["T T:180"] * 20)]))
        assert (("piece-count", "stop") not in kinds) is enough
        assert ("2 strips 3 3/4 in wide, of fabric 42 in wide, give 36 of 'T' at the most" in words) is not enough

    def test_fabric_is_counted_by_strips_and_short_only_below_the_area(self):
        cuts, row = [line("T", "60-degree triangle", "3 3/4", 36)], " ".join(["T T:180"] * 18)
        levels = [
            {level for check, level in said(sheet(cuts, [row], bought=bought))[1] if check == "fabric-short"}
            for bought in ("6 1/2 in", "7 in", "1/4 yd")
        ]
        assert levels == [{"stop"}, {"ask"}, set()]

    @pytest.mark.parametrize(
        ("cut", "words"),
        [
            (line("T", "60-degree triangle", "3 3/4", more='cut = "once"'), "a shape is cut from its strip"),
            ('part = "T"\nshape = "60-degree triangle"\ncount = 4', "as large as the strip it is cut from is wide"),
            ('part = "T"\nshape = "triangle"\ncount = 4', "says its long side and its height as it is cut"),
            ('part = "T"\nshape = "trapezoid"\nsize = ["3", "3"]\ncount = 4', "more than twice its height"),
            (line("T", "half 60-degree triangle", "3 3/4"), "a half triangle has a left and a right"),
            (line("T", "cone", "3 3/4"), "60-degree diamond"),
            (line("T", "kite", "3 3/4"), "write the rectangle that it is cut from, and each cut as a [[step]]"),
            (line("T", "quarter circle", "3 3/4"), "a curved seam is not sewn here"),
            (line("T", "square", "3 3/4"), "a square or a rectangle has no shape: take shape out"),
        ],
    )
    def test_what_is_no_such_shape_is_refused(self, cut, words):
        with pytest.raises(pattern.Unreadable) as refused:
            pattern.read_text(sheet([cut], ["T"]))
        assert words in str(refused.value)

    def test_a_shape_stands_in_rows_alone(self):
        text = sheet(ROWS["triangles"][0], [ROWS["triangles"][1]]) + '[[border]]\nsides = "T"\ntop = "T"\n'
        with pytest.raises(pattern.Unreadable, match="'T' is cut as a 60-degree triangle, which only a row of a block"):
            pattern.read_text(text)

    def test_a_quarter_of_a_square_is_written_as_the_square(self):
        triangle = 'part = "T"\nshape = "triangle"\nsize = ["7 1/4", "3 5/8"]\ncount = 8'
        with pytest.raises(pattern.Unreadable, match="write the squares that would give such triangles"):
            pattern.read_text(sheet([triangle], ["T"]) + '[[border]]\ntriangles = "T"\n')
