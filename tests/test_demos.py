"""Apps: every corner value draws, nothing typed breaks one, and every question knows its own answer and
mistakes."""

import re
import subprocess
import sys
from fractions import Fraction
from itertools import combinations
from xml.etree import ElementTree

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import Point, Polygon, box
from shapely.ops import unary_union

from quiltmath import lengths, sewing, yardage
from quiltmath.demos import (
    Choice,
    Demo,
    Length,
    Lesson,
    Question,
    Shown,
    Whole,
    a_block_cut_in_half,
    backing,
    borders,
    eighths,
    every_demo,
    every_lesson,
    every_question,
    fabric_drawn,
    fabric_to_buy,
    slice_and_turn,
)
from quiltmath.demos.asking import WAITING
from quiltmath.demos.demo import Drawn
from quiltmath.demos.halves import block, built, halves, lost_points
from quiltmath.demos.side_triangles import ONCE, TWICE, pieces, triangle
from quiltmath.draw import Board, CloseUp, Lines, Measure, Picture, Shapes, Words
from quiltmath.draw.fitted import Place
from quiltmath.draw.page import measure_parts, text_box

CASES = [
    pytest.param(demo, case, id=f"{name}-{'-'.join(map(str, case.values()))}")
    for name, demo in every_demo().items()
    for case in demo.cases()
]


LESSONS = [pytest.param(lesson, id=name) for name, lesson in every_lesson().items()]


def powerset(names):
    """Every choice of some of the names, in lists."""
    return [[name for bit, name in enumerate(names) if number >> bit & 1] for number in range(2 ** len(names))]


FIGURE = re.compile(r"\d+ \d+/\d+|\d+/\d+|\d+\.\d+|\d+")


def measures(picture):
    """What a picture says was measured: the texts of its dimension lines, and the caption of a close-up, where
    a line's text would cover it."""
    lines = [layer.text for layer in picture.layers if isinstance(layer, Measure)]
    return lines + [picture.caption for layer in picture.layers if isinstance(layer, CloseUp)]


def texts_on(page):
    """Where each text lies, in px of the page: left, top, right, bottom."""
    placed = [(words, words.at) for words in page.words]
    for cell in page.cells:
        for layer in cell.picture.layers:
            if isinstance(layer, Words):
                placed.append((layer, cell.px(layer.at)))
            elif isinstance(layer, Measure):
                spot = measure_parts(cell.px(layer.start), cell.px(layer.end), layer)[2]
                placed.append((Words((0, 0), layer.text), spot))
    for words, (x, y) in placed:
        left, right, up, down = text_box(words)
        yield x - left, y - up, x + right, y + down


def typed(question, value):
    """A value as it is typed, chosen or marked."""
    return value if question.choices else f"{float(value):.6f}"


class TestEveryDemo:
    @pytest.mark.parametrize("demo, case", CASES)
    def test_a_corner_value_gives_a_picture_that_fits_and_a_sentence(self, demo, case):
        markup, sentence, (width, height), _ = demo.live(**case)
        tree = ElementTree.fromstring(markup)
        assert tree.get("width") is None  # it takes that of its place
        assert [float(one) for one in tree.get("viewBox").split()] == pytest.approx([0, 0, width, height], abs=0.01)
        assert round(width, 3) == demo.width and round(height, 3) <= demo.height
        assert any(character.isdigit() for character in tree.get("aria-label"))
        assert sentence.endswith((".", ".)")) and not any(word in sentence for word in ("None", "nan", "Fraction("))

    @pytest.mark.parametrize("demo, case", CASES)
    def test_the_sentence_gives_every_measure_as_the_picture_does(self, demo, case):
        shown = demo(**case)
        pictures = shown.picture.pictures if isinstance(shown.picture, Board) else (shown.picture,)
        drawn = {figure for picture in pictures for text in measures(picture) for figure in FIGURE.findall(text)[:1]}
        assert drawn <= set(FIGURE.findall(shown.sentence))

    @pytest.mark.parametrize(
        "demo", [a_block_cut_in_half.DEMO, eighths.DEMO, eighths.FIRST, slice_and_turn.DEMO, borders.DEMO]
    )
    def test_a_handle_has_a_spot_for_every_stop_and_the_picture_stays_under_the_pointer(self, demo):
        place, first = demo.place, None
        named = {name for name, _ in demo.live(**demo.values()).handles}
        (control,) = (control for control in demo.controls if control.name in named)
        for value in control.stops[::4]:
            drawn = demo.live(place=place, **{**demo.values(), control.name: value})
            spots = np.array([spots for _, spots in drawn.handles])
            assert spots.shape[1:] == (len(control.stops), 2)
            assert (spots.min(axis=(0, 1)) > 0).all() and (spots.max(axis=(0, 1)) < drawn.size).all()
            assert np.hypot(*np.diff(spots, axis=1).T).min() > 0.3  # px: no two stops in one spot
            first = spots if first is None else first
            assert spots == pytest.approx(first, abs=5)  # px

    @pytest.mark.parametrize("demo", [pytest.param(demo, id=name) for name, demo in every_demo().items()])
    def test_on_a_narrow_page_no_words_lie_over_others(self, demo):
        boxes = [box(*corners) for corners in texts_on(Place(358, 400).page(demo(**demo.values()).picture))]
        overlaps = [one.intersection(other).bounds for one, other in combinations(boxes, 2) if one.intersects(other)]
        deep = [(right - left, top - bottom) for left, bottom, right, top in overlaps]
        assert [both for both in deep if both[0] > 2 and both[1] > 7] == []  # px, as boxes are wider than their letters

    @pytest.mark.parametrize("demo", [pytest.param(demo, id=name) for name, demo in every_demo().items()])
    def test_there_are_one_to_three_controls_and_a_still_with_alt_text(self, demo):
        assert 1 <= len(demo.controls) <= 3
        data, metadata = demo.still()._repr_mimebundle_()
        assert data["image/png"].startswith(b"\x89PNG") and metadata["image/png"]["alt"]

    @pytest.mark.parametrize("question", [pytest.param(one, id=name) for name, one in every_question().items()])
    def test_a_question_knows_its_answer_and_its_mistakes(self, question):
        assert question.judge(typed(question, question.answer)).kind == "exact"
        assert question.hint and question.why
        for value, words in question.mistakes:
            reply = question.judge(typed(question, value))
            assert reply.kind == "mistake" and words in reply.words
            assert question.hint in question.judge(typed(question, value), tries=2).words


class TestEveryLesson:
    @pytest.mark.parametrize("lesson", LESSONS)
    def test_its_cells_give_its_apps_and_its_questions(self, lesson):
        assert lesson.app().demo is lesson.demo
        for name, question in lesson.questions().items():
            assert lesson.ask(name).question == question
        if lesson.first is not None:
            assert lesson.first_look().demo is lesson.first

    @pytest.mark.parametrize("lesson", [one for one in LESSONS if "guess" in one.values[0].questions()])
    def test_an_answer_to_the_guess_uncovers_one_of_its_apps(self, lesson):
        guess = lesson.guess()
        uncovered = guess.reveal
        assert uncovered.demo in (lesson.first, lesson.demo) and uncovered not in guess.children
        guess.answer(typed(guess.question, guess.question.answer))
        assert uncovered in guess.children and "Exactly right." in guess.asked.reply

    def test_every_demo_belongs_to_a_lesson(self):
        shown = {id(demo) for lesson in every_lesson().values() for demo in (lesson.demo, lesson.first)}
        assert {id(demo) for demo in every_demo().values()} <= shown


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


class TestLesson:
    LESSON = Lesson(ROW, lambda: {"guess": Question("How many?", 3), "size": Question("How long?", 6, unit="in")})

    def test_the_guess_uncovers_the_first_look_else_the_app_else_what_it_is_told_to(self):
        first = Demo("First", row, ROW.controls)
        assert self.LESSON.guess().reveal.demo is ROW
        assert Lesson(ROW, self.LESSON.questions, first=first).guess().reveal.demo is first
        told = Lesson(ROW, self.LESSON.questions, first=first, uncovered=lambda: ROW.app(n=7)).guess().reveal
        assert told.demo is ROW and told.now["n"] == 7

    def test_values_are_handed_to_its_apps(self):
        assert self.LESSON.app(n=5).now["n"] == 5
        assert Lesson(ROW, dict, first=ROW).first_look(n=4).now["n"] == 4

    def test_what_it_has_not_is_refused_in_words(self):
        with pytest.raises(ValueError, match="A row asks: guess, size; got 'length': use one of these names"):
            self.LESSON.ask("length")
        with pytest.raises(ValueError, match="A row has no first look; call app()"):
            self.LESSON.first_look()


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
            ({"size": "wide"}, "Finished square: a length is a whole number"),
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
    def test_box_and_slider_follow_each_other_and_what_is_typed_is_kept(self):
        app = ROW.app()
        size, n = (next(one for one in app.live.controls if one["name"] == name) for name in ("size", "n"))
        assert (size["label"], size["range"]) == ("Finished square", "(1 to 4 in)")
        assert (size["stops"][1], n["stops"][-1]) == (
            {"text": "1 1/8", "spoken": "1 1/8 in"},
            {"text": "9", "spoken": "9"},
        )
        app.slide("size", 9)
        assert app.live.shown["values"]["size"] == {"text": "2 1/8", "stop": 9, "spoken": "2 1/8 in"}
        for typed, value, stop in (
            ("1.3", Fraction(13, 10), 2),
            ("3 1/16", Fraction(49, 16), 16),
            ("5 cm", Fraction(250, 127), 8),
        ):
            app.type("size", typed)
            shown = app.live.shown["values"]["size"]
            assert (app.now["size"], shown["text"], shown["stop"]) == (value, typed, stop)
        app.type("size", "1.3")
        app.type("n", "5")
        assert app.live.shown["values"]["n"] == {"text": "5", "stop": 4, "spoken": "5"}
        assert "5 squares & 6.5 in." in app.live.shown["sentence"].replace("13/2", "6.5")

    def test_what_cannot_be_read_or_drawn_is_said_at_its_box_and_the_last_good_picture_stays(self):
        app = ROW.app()
        good = app.live.shown["markup"]
        app.type("n", "lots")
        assert "got 'lots'" in app.live.shown["wrong"]["n"] and app.live.shown["values"]["n"]["text"] == "lots"
        assert app.live.shown["markup"] == good and app.now["n"] == 3
        app.slide("size", 24)
        assert list(app.live.shown["wrong"]) == ["n"] and app.live.shown["sentence"] == "3 squares & 12 in."
        app.type("n", "9")
        assert "a row is at most 20 in long" in app.live.shown["wrong"]["n"]
        app.slide("size", 8)
        assert app.live.shown["wrong"] == {} and app.live.shown["markup"] != good

    def test_a_fault_of_the_app_is_said_too_and_not_swallowed(self):
        app = ROW.app()
        with pytest.raises(RuntimeError, match="a fault"):
            app.type("kind", "broken")
        assert "This app has a fault" in app.live.shown["wrong"]["kind"]

    def test_one_change_draws_once_and_so_does_another_room(self):
        drawn = []

        def counted(n):
            drawn.append(n)
            return row(n, 1, "plain")

        app = Demo("Counted", counted, ROW.controls[:1]).app()
        app.live.asked = {"name": "n", "stop": 3, "by": "a page", "turn": 1}
        app.live.asked = {"name": "n", "text": "5", "by": "a page", "turn": 2}
        app.live.room = [400, 700, 1]
        assert drawn == [3, 4, 5, 5]
        assert (app.live.shown["by"], app.live.shown["turn"], app.live.shown["size"][0]) == ("a page", 2, 400)

    def test_it_carries_a_still_for_readers_without_a_kernel(self):
        data, metadata = ROW.app(n=2)._repr_mimebundle_()
        assert "application/vnd.jupyter.widget-view+json" in data
        assert data["text/plain"] == "2 squares & 3 in." and metadata["image/png"]["alt"] == "A row of 2 <squares>."

    def test_two_apps_share_nothing(self):
        one, two = ROW.app(), ROW.app(n=7)
        one.slide("n", 3)
        assert (one.now["n"], two.now["n"]) == (4, 7) and two.live.shown["values"]["n"]["text"] == "7"


ROOM = [860, 620, 1]


class TestAhead:
    """What the page keeps to show at once."""

    @pytest.mark.parametrize("demo", [pytest.param(demo, id=name) for name, demo in every_demo().items()])
    def test_what_is_drawn_ahead_is_what_the_next_press_is_answered_with(self, demo):
        app = demo.app()
        app.live.room = ROOM
        for control in (one for one in demo.controls if one.slider):
            shown = app.live.shown
            at = shown["values"][control.name]["stop"]
            stop = at + 1 if at + 1 < len(control.stops) else at - 1
            texts = {name: value["text"] for name, value in shown["values"].items()}
            drawn = app.ahead({**texts, control.name: control.text(control.stops[stop])}, ROOM)
            assert app.live.shown == shown and app.now[control.name] == control.stops[at]
            app.slide(control.name, stop)
            assert {name: app.live.shown[name] for name in Drawn._fields} == {
                name: drawn.get(name, shown[name]) for name in Drawn._fields
            }

    def test_nothing_is_drawn_ahead_for_another_room_or_of_what_is_refused(self):
        app, good = ROW.app(), {"n": "3", "size": "1 1/2", "kind": "plain"}
        app.live.room = ROOM
        assert app.ahead(good, ROOM)["sentence"] == "3 squares & 9/2 in."
        assert app.ahead(good, [400, 620, 1]) == {}
        for wrong in ({"n": "lots"}, {"n": "9", "size": "4"}, {"kind": "fancy"}):
            assert app.ahead({**good, **wrong}, ROOM) == {}
        with pytest.raises(RuntimeError, match="a fault"):
            app.ahead({**good, "kind": "broken"}, ROOM)
        assert app.live.shown["wrong"] == {} and app.now["kind"] == "plain"

    def test_the_page_asks_by_message_and_is_told_what_was_slow_to_draw(self, monkeypatch):
        app, sent = ROW.app(), []
        monkeypatch.setattr(app.live, "send", sent.append)
        wanted = {"values": {"n": "4", "size": "1", "kind": "plain"}, "room": app.live.room}
        app.live._handle_custom_msg(wanted, [])
        monkeypatch.setattr("quiltmath.demos.app.QUICK", 0)
        app.live._handle_custom_msg(wanted, [])
        app.slide("n", 5)
        assert [(one["wanted"], one["sentence"]) for one in sent] == [(wanted, "4 squares & 4 in.")] * 2
        assert [one["quick"] for one in (*sent, app.live.shown)] == [True, False, False]


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
        assert asking.asked.words == "How <long>?" and app not in asking.children and WAITING in asking._dom_classes

        def reply(text):
            asking.asked.given = {"text": text, "turn": len(asking.given)}
            asking.answer(text)
            return asking.asked.reply

        assert "could not be read" in reply("abc") and app not in asking.children
        first = reply("3.5")
        assert "Two seams." in first and "Think." not in first
        assert app in asking.children and WAITING not in asking._dom_classes
        assert "Think." not in reply("3.5")  # the same answer again is no second try
        assert "Not yet. Hint: Think." in reply("9")
        assert "Exactly right. So." in reply("3 7/8")

    def test_without_a_kernel_the_choices_can_be_read_and_no_choice_is_no_answer(self):
        asking = Question("Which?", "a", choices=("a", "b")).ask()
        assert asking._repr_mimebundle_()["text/plain"] == "Which?\n  ○ a\n  ○ b"
        asking.answer("")
        assert asking.asked.reply == "Choose an answer first."

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


class TestPointQuestions:
    @staticmethod
    def asked():
        return a_block_cut_in_half.lesson.guess()

    @pytest.mark.parametrize("n, patch", [(2, 1), (3, Fraction(3, 2)), (4, 2), (6, 1)])
    def test_lost_are_the_points_that_no_sewn_half_holds_a_seam_deep(self, n, patch):
        """Against plain geometry: a point is whole where it lies in a half that its seams have been taken off."""
        side = float(n * patch) + 0.5
        for past in (Fraction(0), Fraction(3, 32), Fraction(1, 4)):
            step = float(past) / 2**0.5
            over = Polygon([(step, -step), (step + side, side - step), (step - side, side - step)])
            square = Polygon([(0, 0), (side, 0), (side, side), (0, side)])
            seen = [part.buffer(-0.25 + 1e-6) for part in (square & over, square - over)]
            spots = [(0.25 + i * float(patch), 0.25 + j * float(patch)) for i in range(1, n) for j in range(1, n)]
            lost = [spot for spot in spots if not any(part.covers(Point(spot)) for part in seen)]
            assert sorted(np.round(lost_points(n, patch, past), 6).tolist()) == np.round(sorted(lost), 6).tolist()

    def test_every_point_has_a_name_of_its_own_and_its_spot_where_four_squares_meet(self):
        question, whole = self.asked().question, block(4, 2).turn(-45)
        assert len(set(question.choices)) == 9
        assert sorted(np.round([spot for _, spot in question.points], 6).tolist()) == sorted(
            np.round([junction.point for junction in whole.junctions()], 6).tolist()
        )
        heights = [spot[1] for _, spot in question.points]
        assert heights == sorted(heights, reverse=True)  # in the order in which the keys go through them

    def test_counts_of_what_is_right_missed_and_wrong_are_right_whatever_is_marked(self):
        question = self.asked().question
        for marked in powerset(question.choices):
            said = question.judge(marked).words
            found, extra = len(set(marked) & set(question.answer)), len(set(marked) - set(question.answer))
            counts = {
                "found": re.search(r"(\d|none|all)(?: of the)? 3 points that are lost", said)[1],
                "missed": (re.search(r"missed (\d)", said) or "00")[1],
                "stay": (re.search(r"(\d) that you marked stays? whole", said) or "00")[1],
            }
            assert counts == {
                "found": {0: "none", 3: "all"}.get(found, str(found)),
                "missed": str(3 - found if 0 < found < 3 else 0),
                "stay": str(extra),
            }
            assert said.startswith("Exactly right.") is (set(marked) == set(question.answer))

    def test_nothing_is_given_away_before_an_answer_and_that_none_is_lost_must_be_meant(self):
        asking = self.asked()
        sent = asking.asked.get_state()
        assert sent["truth"] == {} and not re.search(r"lost|whole\b", f"{sent['markup']} {sent['points']}")
        asking.asked.hands = "7 of 20"
        assert "Mark the points that the room names too" in asking.asked.reply and "7" not in asking.asked.reply
        asking.asked.given = {"marked": [], "turn": 1}
        assert asking.asked.reply.startswith("Nothing is marked yet.") and asking.asked.truth == {}
        assert asking.reveal not in asking.children
        asking.asked.given = {"marked": [], "turn": 2}
        assert "none of the 3 points that are lost" in asking.asked.reply and "7 of 20 had it" in asking.asked.reply
        assert asking.reveal in asking.children
        assert sorted(asking.asked.truth.values()) == ["lost"] * 3 + ["stays whole"] * 6
        asking.asked.given = {"marked": list(reversed(asking.question.answer)), "turn": 3}
        assert asking.asked.reply.startswith("Exactly right. You marked all 3 points that are lost")

    @pytest.mark.parametrize("typed", ["7", "21 of 20", "many", "7 of -1", "1 2 3"])
    def test_a_show_of_hands_that_cannot_be_counted_is_said(self, typed):
        asking = self.asked()
        asking.answer(list(asking.question.answer))
        asking.asked.hands = typed
        assert "a show of hands is how many had it all right, of how many" in asking.asked.reply

    def test_without_a_kernel_the_picture_can_be_marked_with_a_pencil(self):
        data, metadata = self.asked()._repr_mimebundle_()
        assert data["image/png"].startswith(b"\x89PNG") and "9 points" in metadata["image/png"]["alt"]
        assert data["text/plain"].startswith("A block of 4 × 4 squares is cut in half")


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

    @pytest.mark.parametrize("n, square", [(2, 1), (3, Fraction(3, 2)), (4, 2), (8, 3)])
    @pytest.mark.parametrize("way", [TWICE, ONCE])
    def test_its_cut_pieces_sewn_together_are_the_built_triangle_again(self, n, square, way):
        rows = [sewing.in_a_row(row) for row in pieces(n, square, way)]
        again = sewing.in_a_row(rows, mine="top", theirs="bottom").turn(225)
        made = triangle(n, square, way).panel
        assert again.size == pytest.approx(made.size) and again.area == pytest.approx(made.area)
        assert sorted(np.round(again.meets, 6).tolist()) == sorted(np.round(made.meets, 6).tolist())
        edges = [[(edge.grain, round(edge.length, 6)) for edge in one.raw_edges()] for one in (again, made)]
        assert edges[0] == edges[1]
        assert again.count("end triangle") == made.count("end triangle") == n

    def test_a_block_has_all_its_points(self):
        assert len(block(5, 2).junctions()) == 16 and not any(point.lost_by for point in block(5, 2).junctions())


class TestFabricToBuy:
    """Against plain areas and strips counted one by one."""

    @staticmethod
    def shapes(picture, role):
        layers = [layer for layer in picture.layers if isinstance(layer, Shapes) and layer.role == role]
        return [Polygon(part) for layer in layers for part in np.split(layer.points, np.cumsum(layer.counts)[:-1])]

    @pytest.mark.parametrize("width", [40, Fraction(81, 2), 42, 44])
    @pytest.mark.parametrize("percent", [0, 4, 8])
    def test_every_piece_lies_on_the_fabric_and_on_no_other(self, width, percent):
        shown = fabric_to_buy.DEMO(width=width, percent=percent, straighten=2)
        washed, pieces = width * Fraction(100 - percent, 100), self.shapes(shown.picture, "white")
        (fabric,), (ends,) = self.shapes(shown.picture, "left over"), self.shapes(shown.picture, "yellow")
        assert fabric.bounds[2] == pytest.approx(float(washed)) and ends.area == pytest.approx(2 * float(washed))
        assert unary_union(pieces).area == pytest.approx(sum(piece.area for piece in pieces))
        assert fabric.buffer(1e-6).contains(unary_union(pieces))
        assert [piece.area for piece in pieces].count(14**2) == 1  # cut twice: all four side triangles
        long = [piece for piece in pieces if piece.bounds[2] - piece.bounds[0] == pytest.approx(float(washed))]
        assert (len(long) - 1) * (float(washed) - 2.5) < 4 * float(fabric_drawn.quilt().size[0]) + 10
        assert len(long) * (float(washed) - 2.5) >= 4 * float(fabric_drawn.quilt().size[0]) + 10
        bought = (Fraction(str(fabric.bounds[3])) + 2) / (1 - Fraction(percent, 100))
        said = lengths.parse(re.search(r"buy ([\d /]+) in", shown.sentence)[1])
        assert bought <= said < bought + Fraction(1, 16)

    @pytest.mark.parametrize("width", fabric_to_buy.WIDTHS)
    @pytest.mark.parametrize("percent, straighten", [(0, 0), (3, 1), (4, 0), (8, 4)])
    def test_what_is_bought_gives_what_is_cut_once_it_is_washed(self, width, percent, straighten):
        """The length that is said, on the picture too, is never a hair short."""
        shown = fabric_to_buy.DEMO(width=width, percent=percent, straighten=straighten)
        said = re.search(r"[Bb]uy ([\d /]+ in)", shown.sentence)[1]
        taken = re.search(r"strips take ([\d /]+) in", shown.sentence)[1]
        assert lengths.parse(said) * (100 - percent) / 100 - straighten >= lengths.parse(taken)
        assert said in {layer.text for layer in shown.picture.layers if isinstance(layer, Measure)}
        before = f"uy {said} before the wash" in shown.sentence
        assert before == ("in of the washed fabric." in shown.sentence) == (percent > 0)

    @pytest.mark.parametrize("percent", [2, 4, 8])
    def test_each_small_picture_says_enough_to_buy(self, percent):
        told = fabric_to_buy.all_at_once(percent).sentence
        said = re.findall(r"(\d+) in wide(, shrinks)?[^:]*: buy ([\d /]+) in", told)
        assert len(said) == 6
        for width, shrinks, bought in said:
            less = percent if shrinks else 0
            needed = fabric_drawn.plan(yardage.washed(width, less)).length
            assert lengths.parse(bought) * (100 - less) / 100 >= needed

    @pytest.mark.parametrize("width", [40, 42, 44])
    def test_less_than_is_said_never_to_do_is_less_than_any_cutter_needs(self, width):
        said, plan = (
            re.search(r"Less than ([\d /]+) in", fabric_to_buy.FIRST(width=width).sentence),
            fabric_drawn.plan(width),
        )
        assert plan.at_least == plan.length if said is None else lengths.parse(said[1]) <= plan.at_least

    def test_the_panels_that_are_told_are_long_enough_and_add_up(self):
        sides = [lengths.parse("60 1/64"), lengths.parse("75 1/50")]
        said = backing.DEMO(width=sides[0], height=sides[1], over=backing.FRAME).sentence
        panels = re.findall(r"(\d) panels of ([\d /]+) in,[^:]*: ([\d /]+) in", said)
        assert len(panels) == 2
        for (count, panel, whole), side in zip(panels, reversed(sides)):
            assert int(count) * lengths.parse(panel) == lengths.parse(whole)
            assert 0 <= lengths.parse(panel) - side - yardage.OVER < Fraction(1, 16)

    def test_the_quilt_of_a_backing_is_named_on_its_picture(self):
        for picture in backing.all_at_once(70, 88).picture.pictures:
            assert any("70 by 88 in" in layer.label for layer in picture.layers if isinstance(layer, Shapes))

    def test_the_bound_is_drawn_as_far_from_the_top_as_is_said(self):
        plan, picture = fabric_drawn.plan(Fraction(42)), fabric_to_buy.FIRST(width=42).picture
        (line,) = [layer for layer in picture.layers if isinstance(layer, Lines) and layer.role == "cut line"]
        assert plan.at_least < plan.length
        assert float(plan.length) - line.points[0][1] == pytest.approx(float(plan.at_least))

    def test_no_length_that_is_said_never_to_do_does_of_fabric_that_is_wider(self):
        plans = [fabric_drawn.plan(Fraction(width)) for width in (40, 42, 44)]
        assert [plan.length for plan in plans] == sorted((plan.length for plan in plans), reverse=True)
        assert all(plan.at_least <= plan.length for plan in plans)

    def test_the_review_says_stop_then_ask_then_note_then_nothing(self):
        said = fabric_to_buy.what_the_review_says("42").paragraphs
        assert [line.split(" bought: ")[1].split(": ")[0] for line in said] == [
            "stop",
            "ask",
            "note",
            "nothing to say.",
        ]

    @pytest.mark.parametrize("way", ["along", "across"])
    @pytest.mark.parametrize("width, height, over", [(60, 75, 8), (74, 90, 8), (30, 30, 4), (100, 110, 8)])
    def test_the_panels_of_a_backing_are_what_is_left_of_the_fabric(self, width, height, over, way):
        back = backing.ways(width, height, over)[way]
        picture = backing.drawn(back, way, (width, height), "A backing", "")
        (whole,), (quilt,), trimmed = (self.shapes(picture, role) for role in ("white", "yellow", "left over"))
        assert whole.bounds == (0, 0, width + over, height + over)
        assert quilt.bounds == (over / 2, over / 2, width + over / 2, height + over / 2)
        lost = (back.panels - 1) * 2 * Fraction(1, 2) * back.panel
        assert whole.area + sum(part.area for part in trimmed) == pytest.approx(float(back.length * 42 - lost))
        lines = [layer for layer in picture.layers if isinstance(layer, Lines) and layer.label == "seam"]
        assert sum(len(layer.counts) for layer in lines) == back.panels - 1


def test_importing_the_demos_loads_no_widgets_and_no_matplotlib():
    code = (
        "import sys; import quiltmath.demos as d; d.a_block_cut_in_half.DEMO(); "
        "bad = {'ipywidgets', 'matplotlib', 'sympy', 'scipy', 'pydantic'} & set(sys.modules); assert not "
        "bad, bad"
    )
    subprocess.run([sys.executable, "-c", code], check=True)
