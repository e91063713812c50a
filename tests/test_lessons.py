"""What the lessons say: one figure for one thing, no answer that stands above its question, no mistake unnamed."""

import re
from fractions import Fraction

import nbformat
import numpy as np
import pytest
from shapely.geometry import Polygon
from shapely.ops import unary_union

from quiltmath import lengths, proofs, settings
from quiltmath.demos import (
    Question,
    building_side_triangles,
    check_a_pattern,
    eighths,
    every_lesson,
    every_question,
    fabric_drawn,
    fabric_to_buy,
    framed_triangle,
    sashing,
    slice_and_turn,
    straight_or_on_point,
)
from quiltmath.demos.side_triangles import HALF, ONCE, TWICE, end_square, triangle, untrimmed
from quiltmath.draw import Marks, Measure, Repeat, Shapes, Words, inches, lay_out
from quiltmath.resources import folder
from quiltmath.review.checks import CHECKS

from .on_paper import words

ASKED = re.compile(r"demos\.(\w+) import lesson\s+lesson\.ask\(\"(\w+)\"\)")
GUESSED = re.compile(r"demos\.(\w+) import lesson\s+lesson\.guess\(\)")
FIGURE = re.compile(r"\d+ \d+/\d+|\d+/\d+|\d+\.\d+|\d+")
QUESTIONS = every_question()
TYPED = {name: question for name, question in QUESTIONS.items() if not question.choices}
NOTEBOOKS = sorted(folder("notebooks").glob("0*.ipynb"))


def read(cell):
    """All that a reader sees of a cell: its prose, or what it shows and the alt text of that."""
    if cell.cell_type == "markdown":
        return cell.source
    shown = [
        "".join(output.get("data", {}).get("text/plain", output.get("text", "")))
        + output.get("metadata", {}).get("image/png", {}).get("alt", "")
        for output in cell.outputs
    ]
    return " ".join(shown).replace("\N{NO-BREAK SPACE}", " ")  # within a number


class TestPuzzles:
    @pytest.mark.parametrize("path", NOTEBOOKS, ids=lambda path: path.stem)
    def test_no_answer_stands_above_its_question_or_in_it(self, path):
        above = ""
        for cell in nbformat.read(path, as_version=4).cells:
            asked = ASKED.search(cell.source) if cell.cell_type == "code" else None
            if asked and f"{asked[1]}.{asked[2]}" in TYPED:
                question = TYPED[f"{asked[1]}.{asked[2]}"]
                figure = lengths.text(question.answer).removeprefix("about ")
                assert {figure, f"{float(question.answer):.3f}"}.isdisjoint(FIGURE.findall(above + question.words))
            above += f" {read(cell)} "

    @pytest.mark.parametrize("path", NOTEBOOKS, ids=lambda path: path.stem)
    def test_no_prose_above_a_guess_gives_its_figure_away(self, path):
        above = ""
        for cell in nbformat.read(path, as_version=4).cells:
            asked = GUESSED.search(cell.source) if cell.cell_type == "code" else None
            if asked:
                answer = QUESTIONS[f"{asked[1]}.guess"].told
                assert set(FIGURE.findall(answer)).isdisjoint(FIGURE.findall(above)), answer
            above += f" {read(cell)} " if cell.cell_type == "markdown" else ""

    @pytest.mark.parametrize("path", NOTEBOOKS, ids=lambda path: path.stem)
    def test_prose_tells_people_and_never_a_picture(self, path):
        """A quilter stumbled over "nothing in the picture was told": pictures are sewn, drawn or measured."""
        prose = " ".join(
            cell.source for cell in nbformat.read(path, as_version=4).cells if cell.cell_type == "markdown"
        )
        assert not re.search(r"\b(was|were) told\b|\bnothing was (told|marked)\b", prose, re.IGNORECASE)

    @pytest.mark.parametrize(
        "name, control",
        [
            ("eighths", "seam"),
            ("a_block_cut_in_half", "n"),
            ("sashing", "sash"),
            ("frames", "frame"),
            ("fabric_to_buy", "width"),
            ("backing", "width"),
        ],
    )
    def test_a_guess_uncovers_a_picture_of_what_it_asks(self, name, control):
        guess = every_lesson()[name].guess()
        assert lengths.text(guess.reveal.now[control]) in FIGURE.findall(guess.question.words)

    @pytest.mark.parametrize("name", [name for name, one in TYPED.items() if one.exact is not None])
    def test_a_cut_that_is_too_small_is_never_close_and_rounding_down_is_named(self, name):
        question = TYPED[name]
        exact = float(question.exact)
        assert question.answer == lengths.ruler(exact, "1/8", "up") and question.close
        for short in (0.001, 0.01, 0.05, 0.1):
            assert question.judge(f"{exact - short:.6f}").kind != "close"
        for step in ("1/8", "1/16"):
            reply = question.judge(lengths.text(lengths.ruler(exact, step, "down")))
            assert reply.kind == "mistake" and ("rounded down" in reply.words or reply.words[9:-1] in str(question))
        assert question.judge(f"{float(question.answer) + 0.04:.6f}").kind == "close"

    def test_a_size_to_cut_knows_how_small_it_may_be(self):
        """Whatever is asked to the next eighth is a size to cut."""
        rounded = {name for name, one in TYPED.items() if re.search(r"eighth|1/8 in\.", one.words)}
        assert rounded and all(TYPED[name].exact is not None for name in rounded)

    @pytest.mark.parametrize("name", [name for name, one in TYPED.items() if one.unit != "in"])
    def test_counts_and_angles_are_not_lectured_on_lengths(self, name):
        for typed in ("ten", "10 in", "1/0", "", "4½ yd"):
            reply = TYPED[name].judge(typed)
            assert reply.kind == "unread" and not re.search(r"length|inch|3 7/8", reply.words)

    @pytest.mark.parametrize("typed", ["30", "30°", "30 degrees", "30.0"])
    def test_an_angle_is_read_with_its_sign_or_its_word(self, typed):
        assert TYPED["bias_outside.angle"].judge(typed).kind == "exact"

    @pytest.mark.parametrize(
        "name, typed, words",
        [
            ("check_a_pattern.size", "11 1/4", "1 1/4 added to the block's side"),
            ("check_a_pattern.size", "15 1/4", "rounded down"),
            ("eighths.guess", "1 1/4 in", "two sharp ends"),
            ("eighths.wide", "5 1/4", "rounded down"),
            ("borders.mitre", "45 1/8", "rounded down"),
        ],
    )
    def test_usual_mistakes_are_named(self, name, typed, words):
        reply = QUESTIONS[name].judge(typed)
        assert reply.kind == "mistake" and words in reply.words


class TestFigures:
    @pytest.mark.parametrize("block", [9, "9 1/4", 6])
    def test_picture_sentence_and_table_round_alike(self, block):
        plan = settings.on_point(across=3, down=4, block=block)
        width, height = map(inches, plan.size)
        assert f"{width} x {height} in" in str(settings.side_by_side(3, 4, block)) and f"{width} x {height} in" in str(
            plan
        )
        assert tuple(map(lengths.text, plan.sheet().finished)) == (width, height)

    def test_as_many_points_are_marked_as_are_counted(self):
        shown = check_a_pattern.DEMO(sheet="Turned checkers")
        (marks,) = [layer for layer in shown.picture.layers if isinstance(layer, Marks)]
        assert f"{len(marks.points)} seam intersections" in shown.sentence

    @pytest.mark.parametrize("proof", [proofs.half_block_loss, proofs.half_block_past], ids=lambda proof: proof.name)
    def test_no_picture_says_out_where_a_side_moves_in(self, proof):
        def area(corners):
            return abs(sum(x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in zip(corners, [*corners[1:], corners[0]])))

        for sketch in proof.pictures(block=4):
            shapes = dict(sketch.polygons)
            if "cut" in shapes:
                moves_in = area(shapes["cut"]) < area(shapes["finished"])
                assert bool(re.search(r"\bout\b|outside", sketch.title)) != moves_in


class TestFabricToBuy:
    """Of the table that sets straight beside on point."""

    def test_squares_in_strips_counted_by_hand(self):
        straight = settings.side_by_side(3, 4, 9, usable="40").columns[0]
        strips = -(-12 // int(40 // 9.5))
        assert straight.bought == -(-strips * 9.5 // 4.5) * 4.5
        assert straight.at_least == pytest.approx(strips * 9.5)

    @pytest.mark.parametrize("across, down, block", [(2, 2, 5), (3, 4, 9), (5, 6, 12)])
    def test_what_is_bought_is_never_less_than_the_bound_or_the_area(self, across, down, block):
        for column in settings.side_by_side(across, down, block, sashing=1, borders=(3,)).columns:
            assert column.cloth / 40 <= column.at_least <= column.bought
            assert column.bought < column.at_least * 1.5 + 36


class TestTrimmed:
    """What is cut to a ruler's eighth, sewn, and trimmed with the ruler's line on the points."""

    @pytest.mark.parametrize("n, square, spare", [(2, 1, 0), (3, Fraction(3, 2), 0), (4, 2, 0), (4, 2, Fraction(1, 2))])
    @pytest.mark.parametrize("way, share", [(TWICE, 2), (ONCE, 2**0.5)])
    def test_the_trim_gives_the_triangle_its_seam_whatever_it_was_cut(self, n, square, spare, way, share):
        raw, exact = untrimmed(n, square, way, spare), triangle(n, square, way).panel
        over = float(lengths.ruler(end_square(square, way)) + spare) - end_square(square, way)
        assert len(raw.points) == n - 1 and raw.deep == pytest.approx(0.25 + over / share)
        trimmed = raw.panel.trim(bottom=raw.deep - 0.25)
        assert trimmed.size == pytest.approx(exact.size) and trimmed.area == pytest.approx(exact.area)
        assert max(trimmed.raw_edges(), key=lambda edge: edge.length).grain == triangle(n, square, way).long_edge.grain

    def test_the_lesson_says_how_deep_the_points_lie_before_the_trim(self):
        assert untrimmed(4, 2).deep == pytest.approx(0.295, abs=0.0005)
        assert "9/32 in from the raw edge: lay the ruler's 1/4 in line" in building_side_triangles.DEMO(n=4).sentence

    @pytest.mark.parametrize("n, square", [(2, 1), (3, Fraction(3, 2)), (4, 2), (8, 3)])
    def test_two_lengths_of_one_raw_edge_are_explained_and_are_one_once_sewn_in(self, n, square):
        """By plain geometry: a sharp tip reaches 1 + √2 seams past the finished one, a blunt one 2 seams less."""
        side = n * float(square)
        sharp = inches(side * 2**0.5 + 2 * (1 + 2**0.5) / 4)
        blunt, sewn = inches((side + 0.5) * 2**0.5 - 0.5), inches(side * 2**0.5)
        built, half = (building_side_triangles.DEMO(n=n, square=square, way=way).sentence for way in (TWICE, HALF))
        assert f"Ready to sew in, that edge is {sharp} in" in built and f"Its long raw edge is {blunt} in" in half
        assert f"Built from squares it would be {sharp} in" in half and "each 1/2 in shorter" in half
        assert f"sewn in, either edge is {sewn} in." in half and "blunt" not in built

    @pytest.mark.parametrize("n, square, frame", [(2, 2, 1), (3, 2, Fraction(3, 2)), (5, 1, 2)])
    def test_a_frame_of_strips_cut_longer_is_trimmed_to_the_larger_triangle(self, n, square, frame):
        """Against half of a square that is larger by the frame on two sides, and by its seams."""
        *_, sewn = framed_triangle.stages(n, square, frame)
        made = framed_triangle.trimmed(sewn)
        assert sewn.size[1] > made.size[1] + 0.5
        leg = n * square + 2 * float(frame) + (2 + 2**0.5) / 4
        assert made.size[0] == pytest.approx(leg * 2**0.5)
        assert made.area == pytest.approx(leg**2 / 2)

    def test_the_side_triangles_of_a_top_are_trimmed_from_where_they_reach(self):
        told, plan = straight_or_on_point.squared_up(4, 5, 9).text(), settings.on_point(4, 5, 9)
        top = plan.panel("ruler")
        assert told.startswith("Each block is squared up to 9 1/2 in") and "9/32 in beyond the points" in told
        assert " by ".join(map(inches, top.size)) in told


def test_every_row_of_a_plan_says_which_way_it_is_pressed():
    for plan in (settings.on_point(3, 4, 9), settings.straight(3, 4, 9)):
        *rows, why = plan.row_plan()
        assert len(rows) == len(plan.rows()) and "nest" in why
        ways = [row.rpartition("; press ")[2] for row in rows]
        assert set(ways[::2]) == {"left"} and set(ways[1::2]) == {"right"}
    sashed = settings.on_point(3, 4, 9, sashing=1).row_plan()
    assert "towards the sashing" in sashed[-1] and not any("press" in row for row in sashed[:-1])


class TestScale:
    """A slider moves what it is about, and nothing else."""

    @staticmethod
    def placed(demo, role, **values):
        """The scale at which a demo is drawn, and where the corners of the first shape in a role land, in px."""
        picture = demo(**values).picture
        page = lay_out(picture, demo.width, demo.height)
        layer = next(layer for layer in page.cells[0].picture.layers if getattr(layer, "role", "") == role)
        return page.cells[0].scale, page.cells[0].px(layer.points)

    @pytest.mark.parametrize("demo, given", [(eighths.FIRST, {}), (eighths.DEMO, {"finished": 3})])
    def test_the_finished_triangle_stays_while_its_seam_grows(self, demo, given):
        scale, corners = self.placed(demo, "paper", seam="1/4", **given)
        for seam in ("0", "1/16", "3/8", "1/2"):
            other, moved = self.placed(demo, "paper", seam=seam, **given)
            assert other == pytest.approx(scale, rel=0.01) and moved == pytest.approx(corners, abs=5)  # px: a label

    @pytest.mark.parametrize("demo", [straight_or_on_point.FIRST, straight_or_on_point.DEMO])
    def test_the_mat_stays_while_the_block_grows(self, demo):
        scale, lines = self.placed(demo, "faint", block=9)
        for block in (3, "9 1/4", 12):
            other, moved = self.placed(demo, "faint", block=block)
            assert other == pytest.approx(scale, rel=0.02) and moved.shape == lines.shape

    @pytest.mark.parametrize("demo", [sashing.FIRST, sashing.DEMO])
    def test_the_blocks_stay_as_large_while_the_sashing_grows(self, demo):
        scales = [lay_out(demo(sash=sash).picture, demo.width, demo.height).cells[0].scale for sash in ("1", "2", "3")]
        assert scales == pytest.approx([scales[0]] * 3, rel=0.02)

    def test_the_parts_of_the_side_add_up(self):
        """One seam, what finishes and 2.414 seams, measured on the picture, are the cut side."""
        *_, first, second, third, total = (
            layer for layer in eighths.FIRST(seam="3/8").picture.layers if isinstance(layer, Measure)
        )
        long = [abs(one.end[0] - one.start[0]) for one in (first, second, third, total)]
        assert [first.text, second.text, third.text] == ["3 in", "1 seam", "2.414 seams"]
        assert sum(long[:3]) == pytest.approx(long[3]) == pytest.approx(float(total.text.removesuffix(" in")), abs=1e-4)

    def test_blocks_in_the_gaps_are_said_to_be_marked_only(self):
        """The cutting list cuts them from the fabrics of all others."""
        assert "tomato" not in straight_or_on_point.cutting_list().text() and "marked" in straight_or_on_point.MARKED
        assert not re.search("gaps", straight_or_on_point.cutting_list().text())
        for demo in (straight_or_on_point.FIRST, straight_or_on_point.DEMO):
            assert demo().sentence.endswith("only marks them: sew all alike.")
        assert "marks" not in straight_or_on_point.DEMO(across=1).sentence

    def test_blocks_in_the_gaps_can_be_counted(self):
        shown = straight_or_on_point.FIRST(block=9)
        tinted = [
            len(layer.places)
            for layer in shown.picture.layers
            if isinstance(layer, Repeat) and any(part.role == "tomato" for part in layer.layers)
        ]
        assert sum(tinted) == 6 and "18 blocks (12 in rows and columns, 6 in the gaps)" in shown.sentence


class TestNamed:
    """Each picture, table and list says which quilt it is of."""

    def test_every_quilt_of_straight_or_on_point_is_named(self):
        of = straight_or_on_point
        wanted = "5 by 7 blocks of 6 1/2 in"
        for told in (
            of.side_by_side(5, 7, "6 1/2"),
            of.cutting_list(5, 7, "6 1/2"),
            of.squared_up(5, 7, "6 1/2"),
        ):
            assert wanted in told.text().replace("\N{NO-BREAK SPACE}", " ")

    def test_each_small_picture_says_its_count_and_its_setting(self):
        titles = [one.title.replace("\n", " ") for one in straight_or_on_point.all_at_once().picture.pictures]
        assert titles == [f"{n} by {n + 1}, {way}" for way in ("straight", "on point") for n in (2, 3, 4, 5)]

    def test_a_table_of_cut_squares_says_their_finished_size_and_seam(self):
        """In centimetres the seam is not a quarter inch."""
        metric, inch = eighths.on_the_ruler(finished=10, unit="cm"), eighths.on_the_ruler(finished=3)
        assert metric.caption == "A square unit that finishes 10 cm, sewn with a seam of 0.75 cm."
        assert inch.caption == "A square unit that finishes 3 in, sewn with a seam of 1/4 in."
        assert f"{10 + 0.75 * (2 + 2**0.5):.4f} cm" in metric.rows[0][1]

    def test_rows_are_numbered_as_they_are_pressed(self):
        still = building_side_triangles.step_by_step(n=4)
        rows = still.picture.pictures[1]
        assert rows.title.startswith("2.") and len(still.picture.pictures) == 6
        numbers = sorted((layer for layer in rows.layers if isinstance(layer, Words)), key=lambda one: one.at[1])
        assert [one.text for one in numbers] == ["1", "2", "3", "4"]
        assert "counted from the longest one at the bottom; seams pressed left in odd rows" in still.sentence
        teacher = read(nbformat.read(next(p for p in NOTEBOOKS if p.stem[:2] == "06"), as_version=4).cells[-1])
        assert "the six pictures" in teacher


class TestTables:
    """What has rows and columns is a table that a screen reader knows, and says what the library's own lines say."""

    PLANS = (
        (straight_or_on_point.cutting_list(4, 5, 9), settings.on_point(4, 5, straight_or_on_point.NINE_PATCH)),
        (
            sashing.cutting_list(2, 3, "1 1/2", "whole"),
            settings.on_point(2, 3, sashing.SMALL, sashing="1 1/2", edge="whole"),
        ),
    )

    @staticmethod
    def tables():
        yield straight_or_on_point.side_by_side()
        yield building_side_triangles.what_it_costs()
        yield building_side_triangles.cutting_list()
        for told in (straight_or_on_point.cutting_list(), sashing.cutting_list(), fabric_to_buy.order_of_cutting()):
            yield from (part for part in told.parts if hasattr(part, "rows"))

    def test_each_has_a_caption_and_heads_of_rows_and_columns_in_letters_that_can_be_read(self):
        for table in self.tables():
            html = table.html()
            assert html.count('<th scope="row"') == len(table.rows) and html.count('<th scope="col"') == len(table.head)
            assert "</caption>" in html and "font-size:16px" in html and all(table.head)
            assert str(table) == table.text() == table._repr_mimebundle_()["text/plain"]

    @pytest.mark.parametrize("told, plan", PLANS)
    def test_a_cutting_list_has_every_row_every_piece_and_every_step(self, told, plan):
        rows, steps, cut = told.parts
        ways = [f"{name}: {words}" + (f"; press {way}" if way else "") for name, words, way in map(_three, rows.rows)]
        assert ways == plan.row_plan()[:-1]
        assert [f"{piece}: {what}" for piece, what, *_ in cut.rows] == [
            re.sub(" from [^,;]+", "", str(line)).partition(";")[0] for line in plan.cutting_list()
        ]
        assert [(fabric, more) for *_, fabric, more in cut.rows] == [
            (line.fabric, str(line).partition("; ")[2]) for line in plan.cutting_list()
        ]
        assert plan.layout.pressing in steps.text()
        assert told.html().count("<table") == 2 and told.text().count("\n\n") == 2

    def test_the_order_of_cutting_has_every_strip(self):
        table, said = fabric_to_buy.order_of_cutting(width="42").parts
        plan = fabric_drawn.plan(Fraction(42))
        assert len(table.rows) == len(plan.strips) and plan.sentence in said.text()
        assert int(table.rows[-1][0].split()[-1]) == sum(strip.count for strip in plan.strips)
        for (_, strips, gives), strip in zip(table.rows, plan.strips):
            assert strip.sentence == f"{strips}{', each' * (strip.count > 1)}: {gives}"

    @pytest.mark.parametrize("path", NOTEBOOKS, ids=lambda path: path.stem)
    def test_no_notebook_sets_columns_with_blanks(self, path):
        for cell in nbformat.read(path, as_version=4).cells:
            for output in cell.get("outputs", ()):
                assert not re.search(r"\S {3,}\S", "".join(output.get("text", ""))), cell.source


def _three(row):
    return (*row, "")[:3]


class TestProofsOnThePage:
    def test_words_and_picture_come_before_the_equations_and_both_are_folded(self):
        from quiltmath.demos import explain

        html = explain(proofs.half_square, finished=3).html()
        folds = re.findall(r"<summary[^>]*><strong>([^<]*)", html)
        assert folds == ["Show why: Half-square triangle", "The same in equations"] and html.count("</details>") == 2
        assert "<svg" in html.partition("The same in equations")[0]
        html = re.sub("(?s)<svg.*?</svg>", "", html)
        words, equations = html.split("The same in equations")
        assert "sqrt" not in html and "√2" not in words
        assert "(2 + √2) × seam" in equations and "http" not in html

    def test_a_caption_names_no_check_but_says_what_is_wrong(self):
        for name in check_a_pattern.CHOSEN:
            told = check_a_pattern.DEMO(sheet=name).sentence + check_a_pattern.all_at_once().picture.alt
            assert not any(check.name in told for check in CHECKS)
            assert any(check.title[1:] in told for check in CHECKS)

    def test_the_sheet_of_the_lesson_is_what_is_handed_out(self):
        """Its binding comes from the plum fabric of the lesson, and the cutting diagrams hold its strips."""
        files = {file.label: file for file in fabric_to_buy.on_paper().files}
        text, ring = words(files["Pattern as PDF"].make()), fabric_drawn.reading(Fraction(42)).sheet.binding
        plum = text[text.index("From fabric plum") :]
        assert re.search(rf"binding strips +{ring.count} +2 1/2 in x WOF", plum)
        assert "Fabric: binding" not in text and re.search(r"Fabric: plum +1 1/4 yd +42 in", text)


class TestSteps:
    """Of a top that is sliced and turned."""

    @staticmethod
    def cloth(step):
        layers = slice_and_turn.DEMO(step=step, down=2).picture.layers
        shapes = [layer for layer in layers if isinstance(layer, Shapes)]
        return [Polygon(part) for one in shapes for part in np.split(one.points, np.cumsum(one.counts)[:-1])]

    def test_no_fabric_is_lost_or_lies_on_other_fabric_until_seams_are_sewn(self):
        areas = [unary_union(self.cloth(step)).area for step in range(1, 7)]
        assert areas[1:4] == pytest.approx([areas[0]] * 3) and areas[4] == pytest.approx(areas[5])
        assert areas[3] > areas[4] + 1
        for step in range(1, 7):
            assert sum(one.area for one in self.cloth(step)) == pytest.approx(areas[step - 1])

    def test_bias_comes_in_with_the_cuts_and_the_scale_stays(self):
        demo = slice_and_turn.DEMO
        shown = [demo(step=step).picture for step in range(1, 7)]
        bias = [any(getattr(layer, "role", "") == "bias edge" for layer in one.layers) for one in shown]
        assert bias == [False, False, True, True, True, True]
        scales = [lay_out(one, demo.width, demo.height).cells[0].scale for one in shown]
        assert scales == pytest.approx([scales[0]] * 6, rel=0.1)


class TestHands:
    QUESTION = Question("Which?", "b", choices=("a", "b", "c"), hint="Look.")

    def test_a_show_of_hands_is_kept_beside_the_truth(self):
        asking = self.QUESTION.ask()
        asking.asked.hands = "3, 9, 0"
        asking.answer("a")
        assert "3 hands for a; 9 for b; 0 for c. Right were 9 of 12." in asking.asked.reply
        asking.answer("b")
        assert "Exactly right." in asking.asked.reply and "9 of 12" in asking.asked.reply

    def test_hands_before_an_answer_are_told_what_is_missing_and_nothing_else(self):
        asking = self.QUESTION.ask()
        asking.asked.hands = "3, 9, 0"
        waiting = asking.asked.reply
        assert "Choose the answer of the room too" in waiting and not re.search(r"\d|[Rr]ight", waiting)
        asking.answer("")
        assert asking.asked.reply == f"Choose an answer first. {waiting}"
        asking.asked.hands = ""
        assert asking.asked.reply == "Choose an answer first."

    def test_one_hand_is_one_hand(self):
        assert self.QUESTION.tally("1, 2, 0") == "1 hand for a; 2 for b; 0 for c. Right were 2 of 3."

    @pytest.mark.parametrize("typed", ["3, 9", "3 9 x", "3 9 -1", "many"])
    def test_what_cannot_be_counted_is_said(self, typed):
        asking = self.QUESTION.ask()
        asking.asked.hands = typed
        assert asking.asked.reply.startswith("Not counted: a show of hands has")
        asking.answer("b")
        assert "a show of hands has a whole number for each of a, b, c" in asking.asked.reply
