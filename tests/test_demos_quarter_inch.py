"""The lesson of the quarter inch: its cloth against plain arithmetic, its class sheet, its trials that take time."""

import asyncio
import re
from fractions import Fraction

import numpy as np
import pytest

from quiltmath import seamtest
from quiltmath.demos import by_chance, class_readings, halved_or_built, quarter_inch, scant, seam_grows, trials
from quiltmath.demos.class_app import CELLS
from quiltmath.demos.controls import Choice
from quiltmath.demos.halves import built, halves
from quiltmath.demos.readings_drawn import sewn, times_larger
from quiltmath.demos.scattered import Triangle, block, hand, long, row
from quiltmath.demos.scattered import built as built_by
from quiltmath.demos.scattered import halved as halved_by
from quiltmath.draw import Lines, Marks, Measure, Words
from quiltmath.draw.fitted import Place

STEADY = Fraction(0)


def shown(app):
    """The sentence and the picture that the page shows of an app with choices."""
    return app.live.shown["sentence"].replace("\N{NO-BREAK SPACE}", " "), app.live.shown["markup"]


def said_wrong(app):
    """What the page says at the lines of a class sheet of what could not be read there."""
    return app.lines.answered.get("wrong", "").replace("\N{NO-BREAK SPACE}", " ")


class TestReadings:
    @pytest.mark.parametrize("cut, taken", [(Fraction(3, 2), Fraction(5, 16)), (Fraction(23, 16), Fraction(7, 32))])
    def test_the_strips_that_are_drawn_measure_what_was_read(self, cut, taken):
        total, centre = sewn(cut, taken, 3).size[0], cut - 2 * taken
        shown = quarter_inch.DEMO(total=total, centre=centre, reading="1/64")
        assert f"Each allowance takes {taken} in" in shown.sentence
        fabric = shown.picture.pictures[0].layers[:2]
        assert np.ptp(np.concatenate([layer.points[:, 0] for layer in fabric])) == pytest.approx(total)

    def test_a_bar_reaches_as_far_as_the_reading_may_be_off(self):
        test = seamtest.from_strips(total="3 1/4", centre="7/8")
        needle, ruler = quarter_inch.DEMO(total="3 1/4", centre="7/8", reading="1/32").picture.pictures[2:]
        times = times_larger([test.needle + test.taken_within, test.ruler + test.cut_within])
        for picture, off, within in (
            (needle, test.needle, test.taken_within),
            (ruler, test.ruler, test.cut_within),
        ):
            (bar,) = [one for one in picture.layers if isinstance(one, Lines) and one.label == "give or take"]
            (mark,) = [one for one in picture.layers if isinstance(one, Marks)]
            assert (bar.points[:, 0].min(), bar.points[:, 0].max()) == (
                pytest.approx(float(off - within) * times),
                pytest.approx(float(off + within) * times),
            )
            assert mark.points[0, 0] == pytest.approx(float(off) * times)
            assert mark.role == ("lost point" if abs(off) > within else "kept point")

    @pytest.mark.parametrize(
        "typed, said",
        [
            ("30", "Total, all strips is from 2 to 4 1/2 in; got '30': type a length in that range"),
            ("wide", "Total, all strips: a length is a whole number"),
            ("-3", "Total, all strips is from"),
        ],
    )
    def test_impossible_readings_are_refused_in_words(self, typed, said):
        with pytest.raises(ValueError, match=said):
            quarter_inch.DEMO(total=typed)
        with pytest.raises(ValueError, match="would make them 28 in: measure both again"):
            class_readings.drawn("Jo, 30, 1")

    @pytest.mark.parametrize("name", ["whose", "needle"])
    def test_the_readings_of_the_puzzles_can_be_set_by_the_sliders_or_typed(self, name):
        total, centre = re.findall(
            r"measure ([\d /]+) in,.*?(?:shows|the centre) ([\d /]+) in", quarter_inch.lesson.question(name).words
        )[0]
        assert f"measure {total} in, the centre {centre} in" in quarter_inch.DEMO(total=total, centre=centre).sentence

    def test_what_was_typed_is_written_as_it_was_and_what_was_rounded_says_so(self):
        shown = quarter_inch.DEMO(total="3.4", centre="1")
        assert "measure 3.4 in, the centre 1 in" in shown.sentence
        assert {"3.4 in", "1 in"} <= {one.text for one in shown.picture.pictures[0].layers if isinstance(one, Measure)}
        assert "takes about 13/64 in, about 3/64 in too little" in shown.sentence

    def test_two_measures_that_cannot_be_of_the_same_strips_are_told_and_not_drawn(self):
        shown = quarter_inch.DEMO(total="2", centre="1")
        assert "cannot be of the same strips: a centre strip shows at most a third" in shown.sentence
        assert [one.title for one in shown.picture.pictures] == ["As it should be"]

    def test_the_row_of_the_guess_loses_what_arithmetic_says(self):
        lost = 27 * 2 * Fraction(1, 16)
        assert quarter_inch.lesson.question("guess").answer == "3 3/8 in" and lost == Fraction(27, 8)
        assert "53 1/8 in long" in quarter_inch.FIRST().sentence

    def test_what_the_fold_takes_is_made_up_for_by_stitching_scant(self):
        assert scant.DEMO(stitched="15/64", fold="1/64").sentence.endswith("That is right.")
        assert "15/64 in from the edges" in scant.DEMO(stitched="1/4", fold="1/64").sentence


class TestClassSheet:
    def test_the_app_shows_a_line_for_each_that_can_be_read_and_says_the_others(self):
        app = class_readings.app()
        said, picture = shown(app)
        assert "9 readings" in said and "1 line could not be read: reading 10, Jo." in said and not said_wrong(app)
        assert all(f">{name}<" in picture for name in ("Ana", "Bo", "Hal")) and ">Jo<" not in picture
        assert ">Jo<" in app.told.value and "A centre strip shows at most" in app.told.value
        assert "measure both again" in app.told.value
        data, metadata = app._repr_mimebundle_()
        assert data["text/plain"].startswith("9 readings") and "Dov: 1/16 in too much" in metadata["image/png"]["alt"]

    def test_what_cannot_be_read_at_all_leaves_the_last_good_picture_and_what_was_typed(self):
        app = class_readings.app()
        good = *shown(app), app.told.value
        app.lines.text = "Jo, wide, 1"
        assert app.lines.answered["at"] == "text" and not app.live.shown["wrong"]
        assert said_wrong(app).startswith(
            "Not read: no line of the sheet can be read; reading 1, Jo: total: a length is"
        )
        assert (*shown(app), app.told.value) == good and app.sheet == "Jo, wide, 1"
        app.lines.text = "Jo, 3 1/2, 1"
        assert not said_wrong(app) and shown(app)[1] != good[1] and ">Jo<" in app.told.value

    def test_readings_typed_one_by_one_take_the_place_of_the_example_and_a_wrong_one_is_said_and_not_taken(self):
        app = class_readings.app()
        app.lines.given = {"cells": ["Ann", "3 1/4", "7/8", "", ""], "turn": 1}
        app.lines.given = {"cells": ["Bo, 2nd machine", "5 1/2", "1 1/2", "2", ""], "turn": 2}
        kept = app.sheet
        assert kept.splitlines() == [
            "name, total, centre, strip",
            "Ann, 3 1/4, 7/8",
            '"Bo, 2nd machine", 5 1/2, 1 1/2, 2',
        ]
        assert app.lines.answered == {"turn": 2, "wrong": "", "at": ""} and "2 readings" in shown(app)[0]
        for cells, words in (
            (["Cy", "", ""], "a reading needs the total"),
            (["Cy", "3 1/2", "3"], "a centre strip shows at most"),
            (["Cy", "wide", ""], "got 'wide'"),
        ):
            app.lines.given = {"cells": cells, "turn": app.lines.given["turn"] + 1}
            assert words in app.lines.answered["wrong"] and app.sheet == kept
            assert app.lines.answered["turn"] == app.lines.given["turn"]
        for turn in range(10, 32):
            app.lines.given = {"cells": ["", "3 1/2", "1"], "turn": turn}
        app.lines.given = {"cells": ["", "3 1/2", "1"], "turn": 32}
        assert "from 1 to 24 of them; got 25" in app.lines.answered["wrong"] and len(app.sheet.splitlines()) == 25

    @pytest.mark.parametrize("cell", [cell for cell in CELLS if cell != "name"])
    def test_what_is_no_measure_is_said_by_the_name_of_its_box(self, cell):
        app = class_readings.app()
        cells = {"name": "Cy", "total": "3 1/2", cell: "wide"}
        app.lines.given = {"cells": [cells.get(one, "") for one in CELLS], "turn": 1}
        label = re.split(r", | \(", CELLS[cell])[0].lower()
        assert said_wrong(app).startswith(f"Not added: {label}") and "got 'wide'" in said_wrong(app)
        assert app.lines.answered["at"] == "line"

    def test_one_reading_has_its_name_in_a_low_picture_and_is_compared_with_nobody(self):
        one, class_ = class_readings.drawn("Li;3.4375;"), class_readings.drawn()
        names = {layer.text for layer in one.picture.pictures[0].layers if isinstance(layer, Words)}
        assert "Li" in names and "apart" not in one.sentence and "In the middle" not in one.sentence
        heights = [Place(860, 620).page(shown_.picture).height for shown_ in (one, class_)]
        assert heights[0] < heights[1] / 2

    def test_a_total_alone_is_drawn_with_the_bar_that_its_sentence_says_and_never_as_sure(self):
        shown_ = class_readings.drawn("Li;3.4375;", "1/32")
        (bar,) = [
            one for one in shown_.picture.pictures[0].layers if isinstance(one, Lines) and one.label == "give or take"
        ]
        test = seamtest.from_strips(total="3.4375")
        assert np.ptp(bar.points[:, 0]) / 2 == pytest.approx(
            float(test.taken_within) * times_larger([test.needle + test.taken_within])
        )
        assert "Li: 1/64 in too much, if the strips are right, give or take less than 1/64 in" in shown_.picture.alt
        said = {one.text for one in shown_.picture.pictures[1].layers if isinstance(one, Words)}
        assert "taken as right" in said
        assert "give or take less than 1/64 in" in class_readings.what_to_change("Li;3.4375;").rows[0][1]

    def test_lines_that_are_pasted_take_away_what_was_said_of_the_one_typed_before(self):
        app = class_readings.app()
        app.lines.given = {"cells": ["", "", "", "", ""], "turn": 1}
        assert said_wrong(app) == (
            "Not added: a reading needs the total; nothing was typed: type it, for example 3 1/2."
        )
        app.lines.text = "Jo, 3 1/2, 1"
        assert app.lines.answered == {"turn": 1, "wrong": "", "at": ""}

    def test_a_finer_reading_has_shorter_bars(self):
        app = class_readings.app()
        app.live.asked = {"name": "reading", "text": "1/64", "by": "page", "turn": 1}
        assert "Dov: 1/16 in too much, give or take 1/64 in" in app.good.picture.alt

    def test_names_are_shown_as_text_and_as_many_as_are_read_fit(self):
        lines = [f"<b>{number}</b>, 3 {number % 8 + 3}/16" for number in range(24)]
        app = class_readings.app("\n".join(lines))
        assert not said_wrong(app) and "24 readings" in shown(app)[0]
        app.live.room = [700, 400, 1.25]  # a low window: the lines keep apart
        assert app.live.shown["size"][1] >= 24 * 22
        assert "<b>" not in shown(app)[1] + app.told.value

    def test_a_pasted_line_that_cannot_be_read_is_said_at_the_lines_and_the_others_are_drawn(self):
        app = class_readings.app()
        app.lines.text = "Ana, 3 1/2, 1\nJo, 3 1/2, wide"
        assert said_wrong(app).startswith("Not read: reading 2, Jo: centre: a length is a whole number")
        assert app.lines.answered["at"] == "text" and "1 reading:" in shown(app)[0]

    def test_who_does_what_stands_elsewhere_and_follows_the_sheet(self):
        app, told = class_readings.app(), class_readings.to_do()
        assert told is app.told and told not in app.children
        who = [row[0] for row in told.to_do.rows]
        assert who[:2] == ["Ana, Bo", "Cleo, Ebba, Fritz, Ida"] and who[-1] == "Jo"
        app.lines.given = {"cells": ["Zoe", "3 1/4", "7/8", "", ""], "turn": 1}
        (row,) = told.to_do.rows
        assert row[0] == "Zoe" and row[1] == seamtest.from_strips(total="3 1/4", centre="7/8").change
        assert told._repr_mimebundle_()["text/plain"] == f"Zoe\n    to do: {row[1]}"

    def test_together_the_class_is_told_all_that_each_is(self):
        to_do, each = class_readings.who_does_what().rows, class_readings.what_to_change().rows
        for name, found, change in each:
            mine = [words for who, words in to_do if name in who.split(", ")]
            assert " ".join(mine).casefold() == change.casefold() and mine
        assert len({words for _, words in to_do}) == len(to_do) < len(each)

    def test_everyone_is_told_what_to_do(self):
        told = class_readings.what_to_change("Ana, 3 1/4, 7/8\nBo, 3 1/2, 2\nCy, 3 1/2, 1")
        assert [row[0] for row in told.rows] == ["Ana", "Bo", "Cy"]
        assert told.rows[0][2].startswith("Move the needle 1/16 in to the right")
        assert "measure both again" in told.rows[1][2] and told.rows[2][2].startswith("Change nothing")


class TestGrowing:
    @pytest.mark.parametrize("error", [Fraction(-1, 32), Fraction(1, 64), Fraction(1, 16)])
    @pytest.mark.parametrize("patches", [2, 3])
    def test_a_straight_top_loses_two_errors_a_seam(self, error, patches):
        short = seam_grows.sewn(seam_grows.STRAIGHT, error, patches).short
        assert short == tuple(2 * error * (count * patches - 1) for count in (4, 5))

    @pytest.mark.parametrize("error", [Fraction(1, 32), Fraction(1, 16)])
    def test_a_top_on_point_loses_as_much_of_each_finished_inch(self, error):
        """Its blocks finish 3 × (2 − 2 errors), its diagonals are √2 times as long, and a seam more lies outside."""
        top = seam_grows.sewn(seam_grows.ON_POINT, error, 3).top
        block = 3 * (2 - 2 * float(error))
        finished = [side - 2 * (0.25 + float(error)) for side in top.size]
        assert finished == pytest.approx([3 * block * 2**0.5, 4 * block * 2**0.5])

    @pytest.mark.parametrize("error", [Fraction(0), Fraction(1, 16)])
    def test_a_top_on_point_is_trimmed_as_its_sentence_says(self, error):
        """The triangles, cut for the plan, reach further out than the edge of the top that is sewn."""
        shown_ = seam_grows.model(error, seam_grows.ON_POINT, 3).sentence
        trim = re.search(r"trimmed ([\d/]+) in outside the points", shown_)[1]
        across = seam_grows.sewn(seam_grows.ON_POINT, error, 3).top.size[0]
        points = 3 * 3 * (2 - 2 * float(error)) * 2**0.5
        assert (across - points) / 2 == pytest.approx(float(Fraction(trim)))
        square = next(cut.size[0] for cut in seam_grows._plan(seam_grows.ON_POINT, 3).sheet().cut if cut.cut == "twice")
        untrimmed = float(square) / 2 - (0.25 + float(error)) * 2**0.5 - 3 * (1 - float(error)) * 2**0.5
        assert untrimmed > float(Fraction(trim))
        assert "trimmed" not in seam_grows.model(error, seam_grows.STRAIGHT, 3).sentence

    def test_words_say_which_quilt_loses_what_and_what_fits(self):
        why = seam_grows.lesson.question("guess").why
        assert "2 × 2 squares a block loses 7/16 in of its width" in why and "4 × 4 squares 15/16 in" in why
        assert quarter_inch.FIRST(taken="17/64").sentence.endswith(
            "a border cut for the plan fits over 2 seams and no more."
        )
        assert "puts each seam 1/8 in off" in quarter_inch.FIRST().sentence

    def test_the_table_is_the_arithmetic_and_the_top_that_is_sewn(self):
        for row_ in seam_grows.grows().rows:
            error = Fraction(row_[0].removesuffix(" in"))
            (across, down), cells = seam_grows.sewn(seam_grows.STRAIGHT, error, 3).short, row_[1:]
            assert cells == tuple(f"{quarter_inch.fine(one)} in" for one in (4 * error, across, down))


class TestHandsThatWaver:
    def test_a_steady_hand_sews_what_the_other_lessons_sew(self):
        takes, patch = hand(STEADY, 1), Fraction(2)
        half, whole = halved_by(4, patch, takes), built_by(4, patch, takes)
        assert half.panel.area == pytest.approx(halves(4, patch, STEADY)[0].cut.area)
        assert whole.panel.size == pytest.approx(built(4, patch).size)
        assert half.lost_by(0.25) == pytest.approx((0.25,) * 3) and whole.lost_by(0.25) == pytest.approx((0,) * 3)
        assert long(row(2, 3, patch, takes)) == pytest.approx(12.5)

    def test_a_hand_that_errs_alike_errs_as_the_seam_test_says(self):
        error = Fraction(1, 32)
        sewn_ = long(row(2, 3, Fraction(2), hand(STEADY, 1, error)))
        assert 12.5 - sewn_ == pytest.approx(float(seamtest.grown(error, 5)))

    def test_a_point_lies_as_deep_as_a_seam_intersection_of_the_cloth(self):
        """Against the cloth: a seam intersection is as deep as the point is said to be."""
        triangle = built_by(4, Fraction(2), hand(Fraction(1, 16), 5))
        depths = {round(one.depth, 6) for one in triangle.panel.junctions()}
        assert isinstance(triangle, Triangle) and all(round(deep, 6) in depths for _, deep in triangle.points)

    def test_one_seed_sews_one_block(self):
        sizes = [block(3, Fraction(2), hand(Fraction(1, 16), seed)).size for seed in (4, 4, 5)]
        assert sizes[0] == sizes[1] != sizes[2]

    def test_the_picture_of_all_hands_holds_every_point_on_its_side(self):
        board = halved_or_built.all_at_once().picture
        for picture, way in zip(board.pictures, [way for way in halved_or_built.WAYS for _ in range(3)]):
            marks = {layer.role: layer.points for layer in picture.layers if isinstance(layer, Marks)}
            assert sum(map(len, marks.values())) == 30
            spots = np.concatenate(list(marks.values()))[:, 0]
            assert (spots.mean() < -1) == (way == halved_or_built.HALF)

    def test_the_lost_quarter_inch_does_not_drown(self):
        """Over other hands than those that are shown: all but a few halves are worse than all but a few built ones."""
        lost = {
            way: [by for seed in range(101, 113) for by in halved_or_built._lost_by(way, Fraction(1, 16), seed)]
            for way in halved_or_built.WAYS
        }
        half, whole = (np.array(lost[way]) for way in (halved_or_built.HALF, halved_or_built.BUILT))
        assert np.quantile(half, 0.1) > np.quantile(whole, 0.9)
        assert half.mean() == pytest.approx(0.25, abs=0.06) and abs(whole.mean()) < 0.06


class TestByChance:
    def test_chance_errors_cancel_as_the_seam_test_says(self):
        """Eight tops, whose rows of 4 blocks have 11 seams: an even chance within s is off by s / √3 in the mean."""
        scatter = Fraction(1, 32)
        off = np.array([by_chance.top(seam_grows.STRAIGHT, scatter, seed) for seed in range(1, 9)])
        expected = seamtest.scattered(scatter, 11) / 3**0.5
        assert off.std() == pytest.approx(expected, rel=0.25) and abs(off.mean()) < expected / 2
        assert abs(off).max() < float(seamtest.grown(scatter, 11))

    def test_all_hands_can_be_told_apart_from_the_back_of_a_room(self):
        """Beside the words of a page for a class, which is 1,280 px wide: the names are as large as its words, in lines
        of their own, and the marks of one hand do not lie on those of the next."""
        tops = [by_chance.top(seam_grows.STRAIGHT, Fraction(1, 32), seed) for seed in range(by_chance.MORE)]
        page = Place(740, 510, 1.25).page(by_chance.drawn(seam_grows.STRAIGHT, Fraction(1, 32), tops)[0])
        times, (cell,) = 740 / page.width, page.cells
        names = [one for one in cell.picture.layers if isinstance(one, Words) and one.text.startswith("hand")]
        assert len(names) == by_chance.MORE and all(one.size * times >= 15 for one in names)  # points
        high = np.diff([cell.px(one.at)[1] for one in names]) * times
        assert (high >= 20).all()

    def test_the_button_sews_the_tops_that_are_left_and_a_choice_begins_anew(self):
        app = by_chance.app()
        assert len(app.results) == by_chance.FIRST and "3 tops, 15 rows, set straight" in shown(app)[0]
        app.live.asked = {"name": "wavers", "text": "1/64 in"}
        assert len(app.results) == by_chance.FIRST and "up to 1/64 in" in shown(app)[0]
        wide = shown(app)[1]
        app.live.room = [400, 700, 1.0]
        assert shown(app)[1] != wide and len(app.results) == by_chance.FIRST
        data, _ = app._repr_mimebundle_()
        assert data["text/plain"].startswith("3 tops")


def counting(most=6):
    """Trials that count."""

    def drawn(choice, results):
        picture = quarter_inch.FIRST().picture
        return picture, f"{len(results)} of {choice}."

    return trials.Trials(
        "Count", [Choice("of", "Of", ("sheep", "cows"), "sheep")], lambda _, number: number, drawn, most=most
    )


class TestTrials:
    def test_without_a_loop_they_run_to_the_end_and_the_next_press_begins_anew(self):
        app = counting()
        app.go.click()
        assert app.results == [0, 1, 2, 3, 4, 5] and "6 of sheep." in shown(app)[0]
        app.go.click()
        assert app.results == [0, 1, 2, 3, 4, 5] and not app.go.disabled and app.stop.disabled
        app.live.asked = {"name": "of", "text": "cows"}
        assert app.results == [0] and "1 of cows." in shown(app)[0]

    def test_in_a_loop_they_let_others_be_heard_and_stop_keeps_what_there_is(self):
        app = counting(most=10_000)

        async def pressed():
            app.go.click()
            while len(app.results) < 3:
                await asyncio.sleep(0)
            assert app.go.disabled and not app.stop.disabled and "of 10000." in shown(app)[0]
            app.stop.click()
            kept = len(app.results)
            await asyncio.sleep(3 * trials.BREATH)
            return kept

        kept = asyncio.run(pressed())
        assert kept == len(app.results) < 10_000 and app.stop.disabled and not app.go.disabled

    @pytest.mark.parametrize("patience, seen", [(0, ["visible", "hidden"]), (1e9, [])])
    def test_progress_is_shown_to_whoever_has_waited_and_gone_afterwards(self, monkeypatch, patience, seen):
        monkeypatch.setattr(trials, "PATIENCE", patience)
        app, told = counting(), []
        app.progress.layout.observe(lambda change: told.append(change["new"]), "visibility")
        app.go.click()
        assert told == seen and app.progress.value == app.progress.max

    def test_a_trial_that_fails_is_said_and_leaves_the_button_free(self):
        app = counting()
        app.trial = lambda choice, number: 1 / 0
        with pytest.raises(ZeroDivisionError):
            asyncio.run(app.run())
        assert not app.go.disabled and app.results == [0]
        assert "Stopped at trial 2: a fault, ZeroDivisionError" in app.live.shown["wrong"]["of"]
