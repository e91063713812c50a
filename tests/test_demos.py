"""Apps: every corner value draws, nothing typed breaks one, and every question knows its own answer and
mistakes."""

import subprocess
import sys
from fractions import Fraction
from xml.etree import ElementTree

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import Polygon
from shapely.ops import unary_union

from quiltmath.demos import Choice, Demo, Length, Question, Shown, Whole, every_demo, every_question
from quiltmath.demos.halves import block, built, halves
from quiltmath.draw import Picture, Shapes

CASES = [
    pytest.param(demo, case, id=f"{name}-{'-'.join(map(str, case.values()))}")
    for name, demo in every_demo().items()
    for case in demo.cases()
]


class TestEveryDemo:
    @pytest.mark.parametrize("demo, case", CASES)
    def test_a_corner_value_gives_a_picture_that_fits_and_a_sentence(self, demo, case):
        markup, sentence = demo.live(**case)
        tree = ElementTree.fromstring(markup)
        assert float(tree.get("width")) <= demo.width and float(tree.get("height")) <= demo.height
        assert any(character.isdigit() for character in tree.get("aria-label"))
        assert sentence.endswith((".", ".)")) and not any(word in sentence for word in ("None", "nan", "Fraction("))

    @pytest.mark.parametrize("demo", [pytest.param(demo, id=name) for name, demo in every_demo().items()])
    def test_there_are_one_to_three_controls_and_a_still_with_alt_text(self, demo):
        assert 1 <= len(demo.controls) <= 3
        data, metadata = demo.still()._repr_mimebundle_()
        assert data["image/png"].startswith(b"\x89PNG") and metadata["image/png"]["alt"]

    @pytest.mark.parametrize("question", [pytest.param(one, id=name) for name, one in every_question().items()])
    def test_a_question_knows_its_answer_and_its_mistakes(self, question):
        def typed(value):
            return value if question.choices else f"{float(value):.6f}"

        assert question.judge(typed(question.answer)).kind == "exact"
        assert question.hint and question.why
        for value, words in question.mistakes:
            reply = question.judge(typed(value))
            assert reply.kind == "mistake" and words in reply.words
            assert question.hint in question.judge(typed(value), tries=2).words


def row(n, size, kind):
    if kind == "broken":
        raise RuntimeError("a fault")
    if n * size > 20:
        raise ValueError(f"a row is at most 20 in long; got {n * size}: take fewer squares")
    squares = [[(i, 0), (i + 1, 0), (i + 1, 1), (i, 1)] for i in range(n)]
    return Shown(Picture([Shapes(squares, "blue")], alt=f"A row of {n} <squares>."), f"{n} squares & {n * size} in.")


ROW = Demo(
    "A row",
    row,
    (
        Whole("n", "Squares", 1, 9, 3),
        Length("size", "Finished square", "1", "4", "1/8", "1 1/2"),
        Choice("kind", "Kind", ("plain", "broken"), "plain"),
    ),
)


class TestControls:
    @given(st.integers(0, 24))
    def test_a_length_goes_from_the_slider_to_the_box_and_back_unchanged(self, eighths):
        control = ROW.controls[1]
        value = control.low + eighths * control.step
        assert control.from_slider(float(value)) == value == control.read(control.text(value))

    @pytest.mark.parametrize(
        "given_, words",
        [
            ({"n": 10}, "Squares is a whole number from 1 to 9; got 10"),
            ({"n": "2.5"}, "Squares is a whole number from 1 to 9; got '2.5'"),
            ({"n": ""}, "Squares is a whole number from 1 to 9; got ''"),
            ({"size": "5"}, "Finished square is from 1 to 4 in; got '5'"),
            ({"size": "wide"}, "a length is a whole number"),
            ({"kind": "fancy"}, "Kind: plain or broken; got 'fancy'"),
            ({"m": 1}, "A row is set by n, size, kind; got m"),
            ({"n": 9, "size": 4}, "a row is at most 20 in long; got 36"),
        ],
    )
    def test_a_value_out_of_range_is_refused_in_words(self, given_, words):
        with pytest.raises(ValueError, match=words):
            ROW(**given_)

    def test_cases_are_all_corners(self):
        assert len(ROW.cases()) == 3 * 3 * 2


class TestApp:
    def test_each_slider_stands_beside_a_labelled_box_that_follows_it(self):
        app = ROW.app()
        assert app.boxes["size"].description == "Finished square (1 to 4 in)"
        app.sliders["size"].value = 2.125
        assert app.boxes["size"].value == "2 1/8" and app.now["size"] == Fraction(17, 8)
        app.boxes["size"].value = "1.3"  # between two stops of the slider
        assert app.sliders["size"].value == 1.3 and app.now["size"] == Fraction(13, 10)
        app.boxes["n"].value = "5"
        assert app.sliders["n"].value == 5
        assert "5 squares &amp; 6.5 in." in app.status.value.replace("13/2", "6.5")

    def test_what_cannot_be_read_or_drawn_is_said_and_the_last_good_picture_stays(self):
        app = ROW.app()
        good = app.picture.value
        app.boxes["n"].value = "lots"
        assert 'role="alert"' in app.status.value and "got &#x27;lots&#x27;" in app.status.value
        assert app.picture.value == good and app.now["n"] == 3
        app.boxes["n"].value = "9"
        app.sliders["size"].value = 4.0
        assert "a row is at most 20 in long" in app.status.value
        app.sliders["size"].value = 2.0
        assert 'role="status"' in app.status.value and app.picture.value != good

    def test_a_fault_of_the_app_is_said_too_and_not_swallowed(self):
        app = ROW.app()
        with pytest.raises(RuntimeError, match="a fault"):
            app.boxes["kind"].value = "broken"
        assert "this app has a fault" in app.status.value

    def test_one_change_draws_once(self):
        drawn = []

        def counted(n):
            drawn.append(n)
            return row(n, 1, "plain")

        app = Demo("Counted", counted, ROW.controls[:1]).app()
        app.sliders["n"].value = 4
        app.boxes["n"].value = "5"
        assert drawn == [3, 4, 5]

    def test_it_carries_a_still_for_readers_without_a_kernel(self):
        data, metadata = ROW.app(n=2)._repr_mimebundle_()
        assert "application/vnd.jupyter.widget-view+json" in data
        assert data["text/plain"] == "2 squares & 3 in." and metadata["image/png"]["alt"] == "A row of 2 <squares>."

    def test_two_apps_share_nothing(self):
        one, two = ROW.app(), ROW.app(n=7)
        one.sliders["n"].value = 4
        assert (one.now["n"], two.now["n"]) == (4, 7) and two.sliders["n"].value == 7


class TestQuestions:
    def question(self):
        return Question(
            "How <long>?",
            Fraction(31, 8),
            unit="in",
            close="1/8",
            hint="Think.",
            why="So.",
            mistakes=((Fraction(7, 2), "Two seams."),),
        )

    def test_asking_replies_in_words_counts_answers_and_uncovers_the_rest(self):
        app = ROW.app()
        asking = self.question().ask(reveal=app)
        assert "How &lt;long&gt;?" in asking.children[0].value and app not in asking.children
        asking.box.value = "abc"
        assert "could not be read" in asking.reply.value and app not in asking.children
        asking.box.value = "3.5"
        assert "Two seams." in asking.reply.value and "Think." not in asking.reply.value and app in asking.children
        asking.button.click()
        assert "Think." not in asking.reply.value  # the same answer again is no second try
        asking.box.value = "9"
        assert "Not yet. Hint: Think." in asking.reply.value
        asking.box.value = "3 7/8"
        assert "Exactly right. So." in asking.reply.value

    def test_nothing_typed_is_no_answer(self):
        assert self.question().judge("  ").words == "That could not be read: type a number first, for example 3 7/8."

    @given(st.text(max_size=12))
    def test_whatever_is_typed_gets_a_reply(self, text):
        assert self.question().judge(text).words

    def test_a_choice_among_what_is_offered(self):
        question = Question("Which?", "a", choices=("a", "b", "c"), mistakes=(("b", "No."),), hint="Look.")
        assert [question.judge(one).kind for one in "abcd"] == ["exact", "mistake", "wrong", "unread"]
        with pytest.raises(ValueError, match="answer and mistakes are among the choices"):
            Question("Which?", "z", choices=("a", "b"))

    def test_an_irrational_answer_is_exact_to_three_decimals_and_close_beyond(self):
        question = Question("Leg?", 2**0.5 * 45, unit="in", close="1/16")
        assert question.judge("63.640").kind == "exact"
        assert question.judge("63 5/8").kind == "close"


class TestHalves:
    """Against plain geometry (Shapely) and the closed forms in the proofs."""

    @pytest.mark.parametrize("n, patch", [(2, 1), (3, Fraction(3, 2)), (4, 2), (8, 3)])
    def test_the_built_triangle_is_half_the_finished_block_and_keeps_its_points(self, n, patch):
        sewn = built(n, patch).bind()
        whole = unary_union([Polygon(one.polygon) for one in sewn.patches])
        assert whole.area == pytest.approx(float(n * patch) ** 2 / 2)
        assert len(whole.minimum_rotated_rectangle.exterior.coords) == 5 and whole.is_valid
        assert sewn.size == pytest.approx((float(n * patch) * 2**0.5, float(n * patch) / 2**0.5))
        assert built(n, patch).raw_edges()[0].grain == "straight"
        assert not any(junction.lost_by for junction in built(n, patch).junctions())

    @pytest.mark.parametrize("past", [Fraction(k, 32) for k in range(9)])
    def test_the_halves_are_what_geometry_says(self, past):
        from quiltmath import proofs

        n, patch = 4, 2
        square = Polygon([(-0.25, -0.25), (8.25, -0.25), (8.25, 8.25), (-0.25, 8.25)])
        finished = Polygon([(0, 0), (8, 0), (8, 8), (0, 8)])
        step = float(past) / 2**0.5
        for half, way, seam in zip(halves(n, patch, past), (1, -1), (past - Fraction(1, 4), -past - Fraction(1, 4))):
            line = np.array([(-9, -9), (19, 19), (19 - 40 * way, 19 + 40 * way), (-9 - 40 * way, -9 + 40 * way)])
            cut = square.intersection(Polygon(line + (step, -step)))
            off = float(seam) / 2**0.5
            shown = finished.intersection(Polygon(line + (off * way, -off * way)))
            assert sum(Polygon(one.polygon).area for one in half.cut.patches) == pytest.approx(cut.area)
            assert sum(Polygon(one.polygon).area for one in half.sewn.patches) == pytest.approx(shown.area)
            assert half.long_edge.grain == "bias"
            assert half.lost_by == pytest.approx(max(0, -float(seam)))
            assert (half.kept, half.lost) == ((3, 0) if seam >= 0 else (0, 3))
        if past == 0:
            leg = float(proofs.half_block_loss.exact("finished leg", block=8))
            assert half.sewn.size[0] == pytest.approx(leg * 2**0.5)

    def test_a_block_has_all_its_points(self):
        assert len(block(5, 2).junctions()) == 16 and not any(point.lost_by for point in block(5, 2).junctions())


def test_importing_the_demos_loads_no_widgets_and_no_matplotlib():
    code = (
        "import sys; import quiltmath.demos as d; d.down_the_middle.DEMO(); "
        "bad = {'ipywidgets', 'matplotlib', 'sympy', 'scipy', 'pydantic'} & set(sys.modules); assert not "
        "bad, bad"
    )
    subprocess.run([sys.executable, "-c", code], check=True)
