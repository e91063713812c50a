"""The form of a pattern sheet: what it reads, what it keeps, what it says."""

import json
import threading
import time
import unittest.mock
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from ipywidgets import HTML

from quiltmath import pattern, review
from quiltmath.demos import form_fields as fields
from quiltmath.demos import form_rows, form_values, pasted
from quiltmath.demos.on_page import InSight
from quiltmath.demos.reading_form import form
from quiltmath.pattern.sheet import EXAMPLE
from quiltmath.resources import SHARED, folder
from quiltmath.review.writing import headline

from . import guide, rare
from .test_drafted_pages import printed

SHEETS = sorted(folder("data").glob("patterns/*/*.toml"))
SMALL = folder("data") / "patterns" / "faulty" / "cut-size-small-corners.toml"
CORNER = 4  # the line of the cutting list whose size is wrong in SMALL
NO_FIELDS = [path for path in SHEETS if form_values.kept(*form_values.filled_from(pattern.read(path)))]


@pytest.fixture(autouse=True)
def beside_the_notebook(tmp_path, monkeypatch):
    """The folder a form lies in: what is typed is kept there."""
    monkeypatch.chdir(tmp_path)


def said(open_form):
    """What stands beside the fields, its numbers and units with plain spaces."""
    shown = open_form.verdict.headline.value + open_form.verdict.findings.value
    return shown.replace("\N{NO-BREAK SPACE}", " ")


def note(open_form, group, number):
    """What stands at a line of the form."""
    return open_form.sections[group].shown_lines[number].note.value


def marked(open_form):
    """The fields that are marked, and how."""
    return {
        (group, number, key): name
        for group, lines in open_form.boxes.items()
        for number, line in enumerate(lines)
        for key, box in line.items()
        for name in box._dom_classes
        if name in ("qm-wrong", "qm-stop", "qm-ask", "qm-note")
    }


def texts(widget):
    """The texts that stand in a widget and those within it."""
    yield getattr(widget, "value", "") if isinstance(widget, HTML) else ""
    for child in getattr(widget, "children", ()):
        yield from texts(child)


def folder_of(open_form):
    return sorted(path.name for path in Path().iterdir())


@pytest.mark.parametrize("path", SHEETS, ids=lambda path: path.stem)
def test_a_sheet_filled_in_and_read_back_is_the_same_sheet(path):
    sheet = pattern.read(path)
    values, aside = form_values.filled_from(sheet)
    assert form_values.read(values, aside).model_dump() == sheet.model_dump()


@pytest.mark.parametrize("name, data", list(rare.sheets()))
def test_so_is_one_that_says_what_is_rare(name, data):
    sheet = pattern.read_text(pattern.toml(data))
    assert form_values.read(*form_values.filled_from(sheet)).model_dump() == sheet.model_dump(), name


def test_an_empty_form_says_where_to_begin_and_its_first_gap():
    empty = form()
    assert "Paste a page and read it, or type what the pattern prints" in said(empty)
    empty.boxes[""][0]["title"].value = "Small"
    assert "Cutting list" in said(empty) and "missing" in said(empty)


def test_findings_follow_the_typing():
    open_form = form(SMALL)
    assert "STOP" in said(open_form) and "cut-size" in said(open_form)
    open_form.boxes["cut"][CORNER]["size"].value = "7 1/4"
    assert "GO" in said(open_form)


def test_a_metric_pattern_is_told_in_metric_with_metric_examples():
    metric = form(folder("data") / "patterns" / "sound" / "metric-half-squares.toml")
    assert "Sewn as printed it finishes 80 by 100 cm." in said(metric)
    assert metric.boxes[""][0]["finished"].placeholder == "160 x 195"
    metric.boxes[""][0]["units"].value = "in"
    assert metric.boxes[""][0]["finished"].placeholder == "63 5/8 x 76 3/8"


@pytest.mark.parametrize("group", fields.GROUPS, ids=lambda group: group.title)
def test_an_example_in_fractions_of_an_inch_has_a_metric_one(group):
    for field in group.fields:
        inches = "/" in field.example and field.key not in ("rows", "instructions") or field.example.endswith(" yd")
        assert bool(field.metric) >= inches and "/" not in field.metric


def test_a_wrong_field_is_marked_and_named_and_everything_stays_as_typed():
    open_form = form(SMALL)
    before = open_form.values
    open_form.boxes["cut"][CORNER]["size"].value = "7 1/"
    assert "Cutting list, line 5, Size" in said(open_form)
    assert marked(open_form) == {("cut", CORNER, "size"): "qm-wrong"} and "Size:" in note(open_form, "cut", CORNER)
    before["cut"][CORNER]["size"] = "7 1/"
    assert open_form.values == before
    open_form.boxes["cut"][CORNER]["size"].value = "7 1/4"
    assert marked(open_form) == {} and note(open_form, "cut", CORNER) == ""


def test_a_form_with_wrong_fields_is_saved_and_loaded_whole(tmp_path):
    first, second = form(SMALL), form()
    first.boxes["cut"][CORNER]["size"].value = "7 1/"
    first.boxes["setting"][0]["across"].value = "five"
    first.file.value = second.file.value = "sheet.toml"
    first.save()
    second.load()
    assert second.values == first.values


def test_a_word_that_cannot_be_chosen_is_loaded_shown_and_named(tmp_path):
    (tmp_path / "sheet.toml").write_text(SMALL.read_text("utf-8").replace('cut = "once"', 'cut = "1x"'), "utf-8")
    open_form = form()
    open_form.file.value = "sheet.toml"
    open_form.load()
    assert open_form.boxes["cut"][CORNER]["cut"].value == "1x"
    assert "Cutting list, line 5, On the diagonal" in said(open_form)
    open_form.boxes["cut"][CORNER]["cut"].value = "once"
    assert "cut-size" in said(open_form)


def telling():
    """Sheets that together say something in every field which a sheet of ours uses, and no other."""
    used: set[tuple[str, str]] = set()
    for path in SHEETS:
        if path in NO_FIELDS:
            continue
        values, _ = form_values.filled_from(pattern.read(path))
        lines = [(group, line) for group in fields.GROUPS for line in values[group.key]]
        mine = {(group.key, f.key) for group, line in lines for f in group.fields if fields.says(group, line, f.key)}
        if not mine <= used:
            used |= mine
            yield path


def typed_box_by_box_it_is_the_same_sheet(path):
    values, aside = form_values.filled_from(pattern.read(path))
    typed = form()
    typed.boxes["setting"][0]["style"].value = values["setting"][0]["style"]  # shows the setting triangles
    for group in fields.GROUPS:
        for number, line in enumerate(values[group.key]):
            if not fields.says(group, line):
                continue
            if number == len(typed.boxes[group.key]):
                (typed.sections[group.key].adder if number else typed.adders[group.key]).click()
            for key, value in line.items():
                if key != fields.KEPT and typed.boxes[group.key][number][key].value != value:
                    with unittest.mock.patch.object(typed, "check"):
                        typed.boxes[group.key][number][key].value = value
    typed.check()
    assert form_values.read(typed.values, aside).model_dump() == pattern.read(path).model_dump()
    assert headline(review.review(pattern.read(path))) in said(typed)


@pytest.mark.parametrize("path", [*telling()][::3], ids=lambda path: path.stem)
def test_a_sheet_typed_box_by_box_into_an_empty_form_is_the_same_sheet(path):
    """A third of them; `python -m tests.sweep forms` types all."""
    typed_box_by_box_it_is_the_same_sheet(path)


def test_a_file_is_never_written_over_unless_ticked(tmp_path):
    there = tmp_path / "sheet.toml"
    there.write_text("mine")
    open_form = form(SMALL)
    open_form.file.value = "sheet"
    open_form.save()
    assert there.read_text() == "mine" and "is there already" in open_form.told.value
    open_form.over.value = True
    open_form.save()
    assert pattern.read(there).title == pattern.read(SMALL).title


@pytest.mark.parametrize("name", ["no-such.toml", "."])
def test_what_cannot_be_loaded_changes_nothing(name, tmp_path):
    open_form = form(SMALL)
    before = open_form.values
    open_form.file.value = str(tmp_path / name)
    open_form.load()
    assert open_form.values == before and ("no such file" in open_form.told.value or "folder" in open_form.told.value)


@pytest.mark.parametrize("name", ["corner piece", "a/b", "a, b", "T:90", 'the "big" one'])
def test_a_part_of_any_name_is_the_same_one_once_it_went_through_the_form(name):
    """In rows it stands beside a turned one, and alone."""
    rows = f"rows = [[{json.dumps('A:90')}, {{name = {json.dumps(name)}}}], [{{name = {json.dumps(name)}}}]]"
    text = EXAMPLE.replace('rows = ["A A", "A A"]', rows) + f'[[cut]]\npart = {json.dumps(name)}\nfabric = "navy"\n'
    sheet = pattern.read_text(text + "size = 3.5\ncount = 8\n")
    again = form_values.read(*form_values.filled_from(sheet))
    assert again.model_dump() == sheet.model_dump() == pattern.read_text(pattern.text(again)).model_dump()


def test_what_the_form_has_no_field_for_is_told_kept_and_saved(tmp_path):
    sheet = (folder("data") / "patterns" / "faulty" / "bias-outside-sliced-and-turned.toml").read_text("utf-8")
    Path("later.toml").write_text(
        'later = "x"\n' + sheet.replace("[[cut]]", '[[cut]]\nprinted = "3 strips"', 1), "utf-8"
    )
    open_form = form()
    open_form.file.value = "later"
    open_form.load()
    assert "later, step, printed (Cutting list, line 1)" in open_form.kept.value
    open_form.boxes["cut"][0]["count"].value = "7"
    open_form.over.value = True
    open_form.save()
    was, now = pattern.tables("later.toml"), pattern.read_text(sheet)
    assert was["later"] == "x" and was["cut"][0] | {"printed": "3 strips", "count": 7} == was["cut"][0]
    assert len(was["step"]) == len(now.step)
    open_form.sections["cut"].shown_lines[0].taker.click()  # it goes with its line, and comes back with it
    assert "printed" not in json.dumps(form_values.sheet_data(open_form.values, open_form.aside)[0])
    open_form.undoer.click()
    assert form_values.sheet_data(open_form.values, open_form.aside)[0] == was


def test_a_line_keeps_its_boxes_and_the_keyboards_place_when_others_come_and_go():
    open_form = form(SMALL)
    section, there = open_form.sections["cut"], open_form.boxes["cut"]
    with unittest.mock.patch("ipywidgets.DOMWidget.focus", autospec=True) as focus:
        section.adder.click()
        assert open_form.boxes["cut"][:-1] == there
        assert focus.call_args.args == (open_form.boxes["cut"][-1]["part"],)
        open_form.boxes["cut"][-1]["part"].value = "new"
        section.shown_lines[1].taker.click()
        assert open_form.boxes["cut"][:2] == [there[0], there[2]]
        assert focus.call_args.args == (section.shown_lines[1].taker,)
        open_form.undoer.click()
        assert focus.call_args.args == (there[1]["part"],)
    assert open_form.boxes["cut"][:-1] == there and open_form.boxes["cut"][-1]["part"].value == "new"


def test_the_form_has_the_fields_of_its_pattern_and_offers_the_rest():
    open_form = form(folder("data") / "patterns" / "sound" / "library-lap-quilt.toml")
    shown = {key for key, section in open_form.sections.items() if section.layout.display != "none"}
    assert shown.isdisjoint({"strip_set", "setting.sashing"}) and {"setting.sides", "setting.corners"} <= shown
    assert {key for key, button in open_form.adders.items() if button.layout.display != "none"} == {
        group.key for group in fields.GROUPS if group.key not in shown and not group.on_point
    }
    open_form.adders["setting.sashing"].click()
    assert open_form.sections["setting.sashing"].layout.display is None
    boxes = open_form.boxes["setting.sashing"][0]
    assert boxes["edge"].layout.display == "none"
    open_form.sections["setting.sashing"].more.value = "edge"
    assert boxes["edge"].layout.display is None
    assert set(boxes["part"].options) >= {line["part"].value for line in open_form.boxes["cut"]}


def test_every_box_has_a_label_that_says_its_line():
    open_form = form(SMALL)
    labels = [
        (box.description, line.boxes is not None)
        for section in open_form.sections.values()
        for line in section.shown_lines
        for box in line.boxes.values()
        if box.layout.display != "none"
    ]
    assert all(label for label, _ in labels) and len(set(labels)) == len(labels)
    assert ">, Cutting list, line 5<" in open_form.boxes["cut"][CORNER]["size"].description


def test_a_finding_is_numbered_beside_the_quilt_in_it_and_at_its_field():
    open_form = form(SMALL)
    assert marked(open_form) == {("cut", CORNER, "size"): "qm-stop"}
    assert ">1</span>Stop: A cut size cannot give its finished size" in note(open_form, "cut", CORNER)
    assert ">1</span><strong>Stop</strong> (cut-size), Cutting list, line 5, Size" in said(open_form)
    assert "Numbers mark the findings" in open_form.verdict.picture.value
    with unittest.mock.patch("ipywidgets.DOMWidget.focus", autospec=True) as focus:
        open_form.verdict.jumps.children[0].click()
    assert focus.call_args.args == (open_form.boxes["cut"][CORNER]["size"],)


def test_the_cell_run_again_shows_what_was_typed_and_the_page_with_its_answers():
    assert form() and folder_of(form()) == []  # nothing is written before anything is typed
    first = form()
    first.page.box.value = PAGE
    first.page.read()
    first.page.answer(None)
    first.boxes["cut"][0]["size"].value = "3 1/"
    again = form()
    assert again.values == first.values and again.page.page == first.page.page and "is here again" in again.told.value
    assert again.page.drafted.questions == first.page.drafted.questions
    Path("pattern-draft.json").write_text("{")  # a file that someone spoilt is no reason to fail
    assert form().values == fields.empty()
    other = form(SMALL)
    other.boxes["cut"][CORNER]["size"].value = "7 1/4"
    assert form(SMALL).boxes["cut"][CORNER]["size"].value == "7 1/4" and form().values == fields.empty()


@pytest.mark.parametrize(
    "shared, says, kept", [("", "is kept in pattern-draft.json", True), ("1", "nothing is kept", False)]
)
def test_a_form_says_what_becomes_of_what_is_typed_and_that_is_true(shared, says, kept, monkeypatch):
    monkeypatch.setenv(SHARED, shared)
    one = form()
    one.boxes[""][0]["title"].value = "A row of stars"
    assert any(says in text for text in texts(one))
    assert Path("pattern-draft.json").exists() is kept


def test_nothing_is_written_outside_the_folder_of_the_notebook():
    open_form = form(SMALL)
    for name in ("../trial", "/tmp/trial.toml", "beside/../../trial"):
        open_form.file.value = name
        open_form.save()
        assert "saved in the notebook&#x27;s folder" in open_form.told.value and folder_of(open_form) == []


def test_a_name_without_its_ending_finds_the_sheet():
    open_form, again = form(SMALL), form()
    open_form.file.value = again.file.value = "trial"
    open_form.save()
    again.load()
    assert Path("trial.toml").exists() and again.values == open_form.values


PAGE = """\
Porch Swing
Finished size 28 1/2" x 37 1/2"
From navy, cut:
60 squares 3"
5 - 7/8" squares
From cream, cut:
48 squares 3"
"""


def test_what_a_page_says_stands_beside_its_words_and_its_questions_are_answered_one_at_a_time():
    open_form = form()
    open_form.page.box.value = PAGE
    open_form.page.read()
    assert "<td>60 squares 3&quot;</td><td>Cutting list: A, fabric navy" in open_form.page.understood.value
    left = len(open_form.page.drafted.questions)
    assert f"{left} question" in open_form.page.told.value and "5 - 7/8" in open_form.page.asked.value
    open_form.boxes["setting"][0]["across"].value = "3"  # typed in between: an answer leaves it
    open_form.boxes["block"][0]["rows"].value = "A B\nB A"
    open_form.page.own.value = '6 squares 5 7/8"'
    open_form.page.say_again()
    assert len(open_form.page.drafted.questions) == left - 1
    assert [line["count"].value for line in open_form.boxes["cut"]] == ["60", "6", "48"]
    assert open_form.boxes["setting"][0]["across"].value == "3"
    assert open_form.boxes["block"][0]["rows"].value == "A C\nC A"  # the cream squares are C now
    open_form.undoer.click()
    assert [line["count"].value for line in open_form.boxes["cut"]] == ["60", "48"]


PINWHEELS = """\
Whirl About
Finished quilt 24" x 32"
From navy, cut 24 squares 4 7/8"
From cream, cut 24 squares 4 7/8"
Make 12 blocks. Set them 3 across and 4 down.
"""


def test_a_page_answered_one_by_one_is_drafted_as_one_with_all_its_answers_is():
    page = pasted.Page(guide.FERRY)
    while len(page.answers) < 5 and (questions := page.draft().questions):
        asked = questions[-1 - len(page.answers) % len(questions)]
        page = page.answered(asked, asked.choices[0] if asked.choices else None)
    one_by_one, at_once = page.draft(), page._replace(name="another").draft()
    assert len(page.answers) > 2
    assert (one_by_one.entries, one_by_one.questions) == (at_once.entries, at_once.questions)
    assert one_by_one.entries != page._replace(answers=()).draft().entries


def test_each_way_to_piece_a_block_is_drawn_above_its_answer():
    open_form = form()
    open_form.page.box.value = PINWHEELS
    open_form.page.read()
    (halves, other) = open_form.page.answers.children
    assert (
        halves.description == "48 half-square triangle units, two at a time" and other.description == "something else"
    )
    halves.click()
    *ways, other = open_form.page.answers.children
    assert [one.children[1].description for one in ways] == [f"Way {number}" for number in range(1, 6)]
    drawn = [one.children[0].value for one in ways]
    assert len({*drawn}) == 5 and all("<svg" in one and "8 patches (cream 4, navy 4)" in one for one in drawn)
    ways[1].children[1].click()
    assert open_form.boxes["block"][0]["rows"].value == "half-square:90 half-square\nhalf-square:180 half-square:270"
    assert "3 across and 4 down" in [one.children[1].description for one in open_form.page.answers.children[:-1]]


def test_each_question_is_brought_into_sight_and_so_is_the_verdict_after_the_last():
    one = form()
    one.page.box.value = 'Set 3 across and 4 down\nNavy: 60 squares 3"\nCream: 48 squares 3"'
    with unittest.mock.patch.object(InSight, "bring") as bring:
        one.page.read()
        asked = 1
        while one.page.drafted.questions:
            assert bring.call_count == asked
            one.page.answer(one.page.drafted.questions[0].choices[0])
            asked += 1
    assert asked > 1 and bring.call_count == asked


def test_two_clicks_taken_by_two_threads_of_a_kernel_wait_for_each_other():
    open_form, at_once = form(), threading.Barrier(2)
    section = open_form.sections["cut"]
    slow = section.lay_out

    def lay_out():
        time.sleep(0.02)
        slow()

    def click():
        at_once.wait()
        section.adder.click()

    with unittest.mock.patch.object(section, "lay_out", lay_out):
        both = [threading.Thread(target=click) for _ in range(2)]
        for one in both:
            one.start()
        for one in both:
            one.join()
    assert len(section.shown_lines) == 3 and len(section.lines.children) == 4


RECIPE = "Beat 4 eggs with the sugar. Fold in the flour and bake for 40 minutes."


NO_PAGES = [RECIPE, "שלום לכולם, זה לא דגם", "a\n" * 5_000_000, "\0\x1b[31m", " \n "]


def test_a_page_that_is_none_is_told_in_a_sentence_and_nothing_is_lost():
    open_form = form(SMALL)
    before = open_form.values
    for text in NO_PAGES:
        open_form.page.box.value = text
        open_form.page.read()
        told = open_form.page.told.value
        assert open_form.values == before and open_form.page.page is None and open_form.page.box.value == text
        assert 20 < len(told) < 400 and told.count("<") == 2 and "Traceback" not in told


def test_a_file_that_cannot_be_read_is_told_by_its_own_name():
    open_form = form(SMALL)
    before = open_form.values
    too_long = "This would be 5,000,000 signs; a pattern has at most 50,000"
    for name, content, words in (
        ("page.pdf", b"%PDF-1.4 spoilt", "page.pdf"),
        ("p.txt", b"\0\1", "p.txt"),
        ("s.toml", b"no = ", "s.toml"),
        ("book.txt", b"8 squares\n" * 500_000, too_long),
    ):
        open_form._uploaded(name, content)
        told = open_form.page.told.value + open_form.told.value
        assert open_form.values == before and words in told and "/tmp" not in told
        assert open_form.page.box.value == ""


def test_a_page_and_a_sheet_are_loaded_from_a_file():
    open_form = form()
    open_form._uploaded("page.txt", PAGE.encode())
    assert open_form.boxes[""][0]["title"].value == "Porch Swing"
    open_form._uploaded("small.toml", SMALL.read_bytes())
    assert "STOP" in said(open_form) and "Loaded small.toml" in open_form.told.value
    Path("again.txt").write_text(PAGE)
    open_form.file.value = "again.txt"
    open_form.load()
    assert open_form.boxes[""][0]["title"].value == "Porch Swing"


def test_hostile_text_is_shown_as_text():
    open_form = form(SMALL)
    open_form.boxes["cut"][0]["part"].value = "<script>alert(1)</script>"
    assert "<script>" not in said(open_form) + open_form.verdict.picture.value + note(open_form, "cut", 0)


LOGS = """\
title = "Cabins"
seam = "1/4"
[[cut]]
part = "A, the middle"
fabric = "red/white"
size = "2"
count = 4
[[cut]]
part = "log 1"
fabric = "red/white"
size = "2"
count = 4
[[cut]]
part = "log 2"
fabric = "blue"
size = ["3 1/2", "2"]
count = 4
[[cut]]
part = "a:b"
fabric = "blue"
size = "2"
count = 4
[[cut]]
part = 'the "odd" one'
fabric = "blue"
size = "2"
count = 4
[block.cabin]
rows = [["log 2"], ["A, the middle", "log 1"]]
[block."b/w"]
rows = [[{ name = "a:b", turn = 90 }, 'the "odd" one:180'], ["log 2"]]
[block.both]
rows = ["cabin cabin:90", "b/w:270 b/w"]
[setting]
style = "straight"
across = 2
down = 2
block = "both"
"""


def test_names_with_blanks_slashes_commas_colons_and_quotes_are_read_kept_and_saved(tmp_path):
    sheet = pattern.read_text(LOGS)
    values, aside = form_values.filled_from(sheet)
    assert form_values.read(values, aside).model_dump() == sheet.model_dump()
    open_form, again = form(sheet), form()
    open_form.file.value = again.file.value = "cabins.toml"
    open_form.save()
    again.load()
    assert again.values == open_form.values
    assert pattern.read(tmp_path / "cabins.toml").model_dump() == sheet.model_dump()


def test_a_row_that_is_one_name_with_a_blank_may_be_typed_as_it_is():
    """As in the guide's log cabin: log 2 / A, log 1."""
    open_form = form(pattern.read_text(LOGS))
    rows = open_form.boxes["block"][0]["rows"]
    assert rows.value == '"log 2"\n"A, the middle", log 1'
    rows.value = 'log 2 / "A, the middle", log 1'
    assert form_values.read(open_form.values).block["cabin"].rows[0][0].name == "log 2"


@given(
    st.lists(
        st.lists(st.text('ab /,":', min_size=1, max_size=6).filter(str.strip), min_size=1, max_size=3),
        min_size=1,
        max_size=3,
    )
)
def test_any_names_in_any_rows_come_back(rows):
    rows = [[name.strip() for name in row] for row in rows]
    typed = form_rows.rows_typed(form_rows.rows_written(rows))
    assert [row if isinstance(row, list) else row.split() for row in typed] == rows


def test_two_lines_of_one_name_are_both_kept_and_said_at_the_second(tmp_path):
    open_form, again = form(pattern.read_text(LOGS)), form()
    open_form.boxes["block"][1]["name"].value = "cabin"
    assert "Blocks, line 2, Block<" in said(open_form)
    assert "&#x27;cabin&#x27; is the name of line 1 too: give each a name of its own" in said(open_form)
    assert marked(open_form) == {("block", 1, "name"): "qm-wrong"}
    open_form.file.value = again.file.value = "twins.toml"
    open_form.save()
    again.load()
    assert again.values == open_form.values and "is the name of line 1 too" in said(again)
    with pytest.raises(pattern.Unreadable, match="'cabin' is a name that is given twice"):
        pattern.read(tmp_path / "twins.toml")


def test_a_row_that_begins_with_a_known_name_and_names_what_is_none_is_a_row():
    assert form_rows.rows_typed("goose:90 T:90 goose", {"goose"}) == ["goose:90 T:90 goose"]
    assert form_rows.rows_typed("log 2:90", {"log 2"}) == [["log 2:90"]]


def test_the_words_of_the_page_and_comments_typed_above_tables_are_saved_with_the_sheet():
    open_form, again = form(), form()
    open_form.page.box.value = PAGE
    open_form.page.read()
    drafted = open_form.page.drafted
    open_form.file.value = again.file.value = "words.toml"
    open_form.save()
    saved = Path("words.toml").read_text("utf-8")
    cut = [one for one in drafted.entries if one.table == "cut"]
    for one in cut:
        assert f"# {one.words.text}\n[[cut]]\npart = " in saved, one.words.text
    Path("words.toml").write_text(saved.replace("[[cut]]", "# mine\n[[cut]]", 1), "utf-8")
    again.load()
    again.boxes[""][0]["title"].value = "Another title"
    again.over.value = True
    again.save()
    told = Path("words.toml").read_text("utf-8")
    assert f"# {cut[0].words.text}\n# mine\n[[cut]]" in told and "Another title" in told


def test_an_open_question_keeps_a_page_from_being_a_go_and_what_was_left_aside_is_told():
    page = next(one.text for one in printed() if one.title == "Weathervane Alley")
    open_form = form()
    open_form.page.take(page + "\n\nCutting\n5 - 7/8 in squares of rust\n")
    while open_form.page.asks:
        assert "<strong>GO:" not in said(open_form)
        asked = open_form.page.drafted.questions[0]
        spoilt = "5 - 7/8" in asked.words.text
        open_form.page.answer(None if spoilt else next(iter(asked.choices), None))
    assert "<strong>GO:" in said(open_form) and "still open" not in said(open_form)
    assert "Not judged: left aside: " in said(open_form) and "5 - 7/8 in squares" in said(open_form)
