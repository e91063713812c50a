"""Pictures: what is laid out fits, both renderers draw it, and everybody can read it."""

import re
import subprocess
import sys
from io import BytesIO
from itertools import combinations
from xml.etree import ElementTree

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from matplotlib.colors import CSS4_COLORS, to_rgb
from shapely.geometry import Polygon

from quiltmath import draw
from quiltmath.draw import (
    Board,
    Lines,
    Marks,
    Measure,
    Picture,
    Repeat,
    Shapes,
    Words,
    beside,
    close_up,
    fabric_roles,
    lay_out,
    svg,
    with_close_up,
)
from quiltmath.draw.colours import CSS, colour_meant
from quiltmath.draw.roles import BLACK, DARKEST, FABRICS, ROLES, TEXT, WHITE, role

SVG = "{http://www.w3.org/2000/svg}"
HAIR = 1e-4  # px: scales are kept to nine digits
SQUARE = [(0, 0), (3, 0), (3, 3), (0, 3)]


def square(side=3, name="blue", **more):
    return Picture(
        [Shapes([[(0, 0), (side, 0), (side, side), (0, side)]], name, "navy")],
        alt=f"A square of {side} in.",
        **more,
    )


def luminance(colour):
    """Relative luminance as WCAG 2.2 defines it (https://www.w3.org/TR/WCAG22/#dfn-relative-luminance)."""
    parts = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    linear = [part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def apart(one, other):
    """How far two colours look apart: CIE 76, in CIELAB of the sRGB white D65 (IEC 61966-2-1)."""

    def lab(colour):
        linear = [part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in to_rgb(colour)]
        xyz = np.array([[0.4124, 0.3576, 0.1805], [0.2126, 0.7152, 0.0722], [0.0193, 0.1192, 0.9505]]) @ linear
        f = np.cbrt(xyz / (0.9505, 1, 1.089))
        return np.array([116 * f[1] - 16, 500 * (f[0] - f[1]), 200 * (f[1] - f[2])])

    return float(np.linalg.norm(lab(one) - lab(other)))


def contrast(one, other):
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


class TestRoles:
    def test_text_colours_reach_4_5_to_1_and_lines_3_to_1_on_white(self):
        """WCAG 2.2, success criteria 1.4.3 and 1.4.11."""
        assert all(contrast(colour, WHITE) >= 4.5 for colour in TEXT.values())
        assert all(contrast(one.line, WHITE) >= 3 for one in ROLES.values() if one.line)

    def test_two_fabrics_differ_in_more_than_hue(self):
        for one, other in combinations(FABRICS.values(), 2):
            assert one.hatch != other.hatch or contrast(one.fill, other.fill) >= 1.25, (one, other)

    def test_two_kinds_of_line_differ_in_more_than_hue(self):
        drawn = [one for name, one in ROLES.items() if one.line and not one.fill and name not in ("grain", "spot")]
        for one, other in combinations(drawn, 2):
            assert (one.dash, one.width, one.mark) != (other.dash, other.width, other.mark), (one, other)

    @given(
        st.lists(
            st.sampled_from(["navy", "navy dots", "leaf", "white", "red", "A", "B", "C", "gold", "x", "y"]),
            max_size=30,
        )
    )
    def test_every_fabric_gets_a_role_of_its_own(self, names):
        chosen = fabric_roles(names)
        assert set(chosen) == set(names)
        assert len(set(chosen.values())) == len(chosen)
        looks = {(role(one).fill, role(one).hatch) for one in chosen.values()}
        assert len(looks) == len(chosen) or len(chosen) > len(FABRICS)

    @pytest.mark.parametrize("name", [name for name in CSS if colour_meant(name) == name and name not in FABRICS])
    def test_a_fabric_with_a_colour_of_css_is_drawn_in_it(self, name):
        """Only lighter where black seams would not show; the names as matplotlib, which is not ours, has them."""
        fill = role(fabric_roles([name])[name]).fill
        assert CSS[name] == CSS4_COLORS[name].lower()
        if contrast(CSS[name], "#000000") >= DARKEST:
            assert fill == CSS[name]
        else:
            assert apart(fill, CSS[name]) < 45 and contrast(fill, "#000000") >= DARKEST

    @pytest.mark.parametrize(
        "name, colour",
        [
            ("Sand", "#c2b280"),
            ("mustard dots", "#d8a31a"),
            ("rust", "#b7410e"),
            ("sage", "#9caf88"),
            ("brown check", "#70482f"),
            ("light blue", "#add8e6"),
            ("dark green", "#006400"),
            ("Charcoal", "#505457"),
            ("teal", "#008080"),
            ("red", "#cc1230"),
            ("burgundy", "#800020"),
            ("lilac", "#c8a2c8"),
        ],
    )
    def test_a_quilters_word_is_drawn_near_its_colour(self, name, colour):
        """Colours as common usage has them; CIE 76 below 35, where two named hues are 60 and more apart."""
        assert apart(role(fabric_roles([name])[name]).fill, colour) < 35
        assert apart("#c2b280", "#0072b2") > 60  # sand is nothing like dark blue

    @pytest.mark.parametrize(
        "name, colour",
        [("navy", "blue"), ("cream dots", "white"), ("dark", "blue"), ("background", "white"), ("weiß", "white")],
    )
    def test_the_commonest_words_keep_the_palette_that_all_eyes_tell_apart(self, name, colour):
        assert fabric_roles([name]) == {name: colour}

    @given(st.lists(st.sampled_from(["sand", "tan", "beige", "wheat", "linen", "grey", "sky", "x", "y"]), max_size=7))
    def test_two_fabrics_alike_in_grey_have_different_hatches(self, names):
        looks = [role(one) for one in fabric_roles(names).values()]
        for one, other in combinations(looks, 2):
            assert one.hatch != other.hatch or contrast(one.fill, other.fill) >= 1.25

    def test_a_fabric_without_a_colour_has_that_of_its_parts(self):
        parts = {"A": ["sand square", "border"], "B": ["red strip", "teal strip"], "C": ["corner"]}
        chosen = fabric_roles("ABC", parts)
        assert chosen["A"] == "tan" and chosen["B"] in FABRICS and chosen["C"] in FABRICS

    def test_an_unknown_role_is_refused_in_words(self):
        with pytest.raises(ValueError, match="a picture has no role 'sparkle'; use one of: blue, "):
            Shapes([SQUARE], "sparkle")


class TestPicture:
    @pytest.mark.parametrize(
        "make, words",
        [
            (lambda: Picture([], alt=" "), "a picture needs alt text"),
            (lambda: Picture([SQUARE], alt="x"), "a picture is made of Shapes, Lines, Marks"),
            (lambda: Shapes([SQUARE[:2]], "blue"), "a polygon needs 3 points or more; got 2"),
            (lambda: Lines([SQUARE[:1]], "seam"), "a line needs 2 points or more; got 1"),
            (lambda: Shapes([[(0, 0), (1, float("nan")), (1, 1)]], "blue"), "a polygon needs finite inches"),
            (lambda: Marks([(0, 0)], "seam"), "marks are 'lost point' or 'kept point'"),
            (lambda: Words((0, 0), "a", size=11), "text in a picture is 12 pt or more"),
            (lambda: Words((0, 0), "a", colour="red"), "black, blue; got 'red'"),
            (
                lambda: Repeat([Marks([(0, 0)], "lost point")], [(0, 0, 0)]),
                "a repeated block is made of Shapes and Lines",
            ),
            (lambda: close_up(square(), (0, 0), 0, 4), "a close-up needs a reach and times above 0"),
            (lambda: beside([]), "side by side needs one picture or more"),
            (lambda: lay_out(Picture([], alt="nothing")), "a picture needs something in it"),
            (
                lambda: lay_out(square(title="A title that is far too long"), width=120),
                "need more room than the 120 px",
            ),
        ],
    )
    def test_what_cannot_be_drawn_is_refused_in_words(self, make, words):
        with pytest.raises(ValueError, match=words):
            make()

    def test_a_copy_of_a_repeated_block_keeps_all_that_is_said_of_it(self):
        cloth, line = Shapes([SQUARE], "blue", "navy", outline="seam"), Lines([SQUARE], "grain", "thread")
        copies = Repeat([cloth, line], [(0, 0, 0), (3, 0, 90)]).expanded()
        assert [(copy.kind, copy.label, len(copy.counts)) for copy in copies] == [
            (cloth.kind, "navy", 2),
            (line.kind, "thread", 2),
        ]

    def test_an_array_of_polygons_is_taken_as_it_is(self):
        many = np.arange(24, dtype=float).reshape(3, 4, 2)
        assert Shapes(many, "blue").counts == (4, 4, 4)
        assert (Shapes(many, "blue").points == Shapes(list(many), "blue").points).all()


side = st.floats(0.25, 120)
pictures = st.builds(
    square,
    side,
    st.sampled_from(list(FABRICS)),
    title=st.sampled_from(["", "As sewn"]),
    caption=st.sampled_from(["", "lost 1/4 in\neach side"]),
)
measured = st.builds(
    lambda one, length, away: one.with_layers(Measure((0, 0), (length, length / 2), "1 in", away)),
    pictures,
    side,
    st.sampled_from([-40, -22, 22]),
)


class TestLayOut:
    @given(st.lists(pictures | measured, min_size=1, max_size=5), st.integers(1, 3), st.sampled_from([None, 600]))
    @settings(deadline=None)
    def test_all_of_a_board_is_at_one_scale_and_fills_the_page_without_leaving_it(self, some, columns, height):
        board = Board(tuple(some), "Some squares.", columns)
        try:
            page = lay_out(board, width=700, height=height)
        except ValueError as error:
            assert "need more room" in str(error)
            return
        assert len({cell.scale for cell in page.cells}) == 1
        for cell in page.cells:
            px = np.concatenate([cell.px(layer.points) for layer in cell.picture.layers if isinstance(layer, Shapes)])
            assert (px >= -HAIR).all() and (px <= (page.width + HAIR, page.height + HAIR)).all()
        assert page.width <= 700 + HAIR and (height is None or page.height <= height + HAIR)
        larger = lay_out(board, scale=page.cells[0].scale * 1.01)
        assert larger.width > 700 or height and larger.height > height

    def test_true_size_is_96_px_to_the_inch(self):
        (cell,) = lay_out(square(), scale=96).cells
        assert np.ptp(cell.px(SQUARE), axis=0).tolist() == [288, 288]

    def test_the_key_names_each_label_once(self):
        page = lay_out(beside([square(), square(2)]))
        assert [row[2:] for row in page.key] == [("blue", "navy")]
        assert lay_out(square(), key=False).key == ()


def written(path):
    """The polygons of an SVG path with M, m, l and z, by the rules of SVG 2
    (https://www.w3.org/TR/SVG2/paths.html)."""
    shapes, here, start = [], np.zeros(2), np.zeros(2)
    for command, numbers in re.findall(r"([MmlLzZ])([^MmlLzZ]*)", path):
        points = np.array(numbers.split(), float).reshape(-1, 2)
        if command in "zZ":
            here = start
            continue
        for number, point in enumerate(points):
            here = here + point if command in "ml" else point
            if command in "Mm" and number == 0:
                start = here
                shapes.append([])
            shapes[-1].append(here)
    return [np.array(shape) for shape in shapes]


class TestSvg:
    def test_it_is_well_formed_named_and_white(self):
        picture = Picture(
            [Shapes([SQUARE], "blue", 'a "bold" <b>'), Words((1, 1), "<script>&amp;")],
            alt='3 < 4 & "so"',
            title="<i>",
        )
        tree = ElementTree.fromstring(svg(picture))
        assert tree.get("role") == "img"
        assert tree.get("aria-label") == tree.find(f"{SVG}title").text == '3 < 4 & "so"'
        assert tree.find(f"{SVG}rect").get("fill") == WHITE
        assert {"<script>&amp;", "<i>", 'a "bold" <b>'} == {span.text for span in tree.iter(f"{SVG}tspan")}

    def test_text_is_16_px_or_more_in_black_or_blue(self):
        board = beside([square(title="One", caption="two").with_layers(Measure((0, 0), (3, 0), "3 in"))], title="All")
        texts = list(ElementTree.fromstring(svg(board)).iter(f"{SVG}text"))
        assert len(texts) == 5
        assert all(float(text.get("font-size")) >= 16 and text.get("fill") in TEXT.values() for text in texts)

    def test_a_fabric_is_one_path_however_many_patches_it_has(self):
        many = Shapes(np.array([SQUARE] * 500, float), "green")
        fills = [
            path
            for path in ElementTree.fromstring(svg(Picture([many], alt="x"))).iter(f"{SVG}path")
            if path.get("shape-rendering") == "crispEdges"
        ]
        assert len(fills) == 1
        assert len(written(fills[0].get("d"))) == 500

    @given(st.lists(st.tuples(side, side, st.sampled_from([0, 45, 90, 30.5])), min_size=1, max_size=9))
    @settings(deadline=None)
    def test_a_repeated_block_is_written_where_its_copies_lie(self, places):
        parts = Shapes([SQUARE, [(3, 0), (5, 0), (3, 2)]], "blue"), Lines([SQUARE[:3], SQUARE[2:]], "seam")
        picture = Picture([Repeat(parts, places)], alt="x")
        (cell,) = lay_out(picture).cells
        drawn = [path.get("d") for path in ElementTree.fromstring(svg(picture)).iter(f"{SVG}path")]
        for d, layer in zip(drawn, picture.layers[0].expanded(), strict=True):
            points = sorted(map(tuple, np.concatenate(written(d)).round(0)))
            expected = np.concatenate([cell.px(row) for row in getattr(layer, "polygons", getattr(layer, "paths", ()))])
            got = np.concatenate(written(d))
            gaps = np.abs(got[:, None] - expected[None]).max(axis=-1)
            assert len(points) == len(expected) and gaps.min(axis=0).max() < 0.05 and gaps.min(axis=1).max() < 0.05

    def test_two_pictures_on_one_page_do_not_share_names(self):
        def names(text):
            return set(re.findall(r'id="([^"]+)"', text))

        one, two = svg(square(name="green")), svg(square(name="red"))
        assert names(one) and not names(one) & names(two)
        assert set(re.findall(r"url\(#([^)]+)\)", one)) == names(one)
        assert svg(square(name="green")) == one
        assert names(svg(square(name="green"), ids="mine-")) == {"mine-0"}

    @pytest.mark.parametrize("at, axis", [((1, -9), 1), ((9, 1), 0), ((1, 9), 1), ((-9, 1), 0)])
    def test_lines_lead_from_a_frame_to_its_close_up_in_the_same_picture(self, at, axis):
        *_, frame, near = with_close_up(square(), (1, 1), 0.5, 4, at).layers
        links = np.split(frame.points, np.cumsum(frame.counts)[:-1])[1:]
        assert near.seen((1, 1)).tolist() == list(at) and np.ptp(near.corners, axis=0).tolist() == [4, 4]
        assert len(links) == 2
        for start, end in np.array(links) - np.array([(1, 1), at]):  # corner from corner, each from its middle
            assert np.abs([start, end]).tolist() == [[0.5, 0.5], [2, 2]]
            assert np.sign(start[axis]) == np.sign(at[axis]) == -np.sign(end[axis])  # the sides that face each other
            assert np.sign(start[1 - axis]) == np.sign(end[1 - axis])  # and they do not cross

    def test_a_close_up_shows_its_spot_and_its_scale(self):
        marked, near = close_up(square(), (3, 0), 0.5, 4)
        assert near.title == "A, 4 times larger"
        tree = ElementTree.fromstring(svg(beside([marked, near])))
        (window,) = tree.iter(f"{SVG}clipPath")
        scale = lay_out(beside([marked, near])).cells[0].scale
        assert float(window[0].get("width")) == pytest.approx(4 * scale, abs=0.01)


def pixels(data):
    from matplotlib.image import imread

    return (imread(BytesIO(data))[..., :3] * 255).round().astype(int)


def area_of(data, colour):
    wanted = [int(colour[i : i + 2], 16) for i in (1, 3, 5)]
    return int((np.abs(pixels(data) - wanted).max(axis=-1) <= 2).sum())


class TestPrinted:
    @given(
        st.lists(st.tuples(st.floats(0, 6), st.floats(0, 6)), min_size=3, max_size=3)
        .map(lambda three: three + [(8.0, 8.0)])
        .filter(lambda four: Polygon(four).is_valid and Polygon(four).area > 4)
    )
    @settings(deadline=None, max_examples=15)
    def test_a_polygon_covers_as_much_of_the_page_as_it_should(self, corners):
        """Shapely's area against the pixels of that colour."""
        picture = Picture([Shapes([corners], "blue")], alt="x")
        scale = lay_out(picture, width=400).cells[0].scale
        drawn = area_of(draw.png(picture, width=400, dpi=96), FABRICS["blue"].fill)
        shape = Polygon(corners)
        assert abs(drawn - shape.area * scale**2) <= 2.5 * shape.length * scale + 20

    def test_all_kinds_of_layers_are_drawn_and_the_bytes_are_the_same_each_time(self):
        block = Repeat([Shapes([SQUARE], "red"), Lines([SQUARE], "seam")], [(0, 0, 0), (5, 5, 45)])
        picture = Picture(
            [
                block,
                Marks([(1, 1)], "lost point"),
                Marks([(2, 2)], "kept point", "kept"),
                Lines([SQUARE], "bias edge"),
                Measure((0, 0), (3, 0), "3 in"),
                Words((1, 2), "$x$ & y"),
            ],
            alt="All.",
            title="All",
            caption="of it",
        )
        board = beside([*close_up(picture, (1, 1), 1, 3)])
        data = draw.png(board)
        assert data == draw.png(board)
        assert area_of(data, ROLES["bias edge"].line) > 50
        assert area_of(data, BLACK) > 50

    def test_the_figure_carries_the_alt_text_and_no_global_setting_changes(self):
        import matplotlib

        before = dict(matplotlib.rcParams)
        assert draw.figure(square()).alt == "A square of 3 in."
        assert dict(matplotlib.rcParams) == before

    def test_the_live_view_needs_no_matplotlib_and_print_needs_no_pyplot(self):
        code = (
            "import sys; from quiltmath import draw; p = draw.Picture([draw.Shapes([[(0,0),(1,0),(0,1)]], "
            "'blue')],"
            " alt='x'); draw.svg(p); assert 'matplotlib' not in sys.modules; draw.png(p);"
            " assert 'matplotlib.pyplot' not in sys.modules"
        )
        subprocess.run([sys.executable, "-c", code], check=True)
