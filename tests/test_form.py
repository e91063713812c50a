"""The form of a pattern sheet: what it reads, what it keeps, what it says."""

import unittest.mock

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quiltmath import pattern, review
from quiltmath.demos import form_fields as fields
from quiltmath.demos.reading_form import WRONG, form
from quiltmath.resources import folder
from quiltmath.review.writing import headline

SHEETS = sorted(folder("data").glob("patterns/*/*.toml"))
SMALL = folder("data") / "patterns" / "faulty" / "cut-size-small-corners.toml"
CORNER = 4  # the line of the cutting list whose size is wrong in SMALL


@pytest.mark.parametrize("path", SHEETS, ids=lambda path: path.stem)
def test_a_sheet_filled_in_and_read_back_is_the_same_sheet(path):
    sheet = pattern.read(path)
    values, aside = fields.filled_from(sheet)
    assert fields.read(values, aside).model_dump() == sheet.model_dump()


def test_an_empty_form_says_where_to_begin_and_its_first_gap():
    empty = form()
    assert "Type what the pattern prints" in empty.says.value
    empty.boxes[""][0]["title"].value = "Small"
    assert "Cutting list" in empty.says.value and "missing" in empty.says.value


def test_findings_follow_the_typing():
    open_form = form(SMALL)
    assert "STOP" in open_form.says.value and "cut-size" in open_form.says.value
    open_form.boxes["cut"][CORNER]["size"].value = "7 1/4"
    assert "GO" in open_form.says.value


def test_a_metric_pattern_is_told_in_metric_with_metric_examples():
    metric = form(folder("data") / "patterns" / "sound" / "metric-half-squares.toml")
    assert "Sewn as printed it finishes 80 by 100 cm." in metric.says.value
    assert metric.boxes["backing"][0]["size"].placeholder == "180 x 215"
    metric.boxes[""][0]["units"].value = "in"
    assert metric.boxes["backing"][0]["size"].placeholder == "72 x 84"


@pytest.mark.parametrize("group", fields.GROUPS, ids=lambda group: group.title)
def test_an_example_in_fractions_of_an_inch_has_a_metric_one(group):
    for field in group.fields:
        inches = "/" in field.example and field.key not in ("rows", "instructions") or field.example.endswith(" yd")
        assert bool(field.metric) >= inches and "/" not in field.metric


def test_a_wrong_field_is_marked_and_named_and_everything_stays_as_typed():
    open_form = form(SMALL)
    before = open_form.values
    open_form.boxes["cut"][CORNER]["size"].value = "7 1/"
    assert "Cutting list, line 5, Size of a piece" in open_form.says.value
    assert open_form.boxes["cut"][CORNER]["size"].layout.border_top == WRONG
    before["cut"][CORNER]["size"] = "7 1/"
    assert open_form.values == before
    open_form.boxes["cut"][CORNER]["size"].value = "7 1/4"
    assert open_form.boxes["cut"][CORNER]["size"].layout.border_top is None


def test_a_form_with_wrong_fields_is_saved_and_loaded_whole(tmp_path):
    first, second = form(SMALL), form()
    first.boxes["cut"][CORNER]["size"].value = "7 1/"
    first.boxes["setting"][0]["across"].value = "five"
    first.file.value = second.file.value = str(tmp_path / "sheet.toml")
    first.save()
    second.load()
    assert second.values == first.values


def test_a_word_that_cannot_be_chosen_is_loaded_shown_and_named(tmp_path):
    (tmp_path / "sheet.toml").write_text(SMALL.read_text("utf-8").replace('cut = "once"', 'cut = "1x"'), "utf-8")
    open_form = form()
    open_form.file.value = str(tmp_path / "sheet.toml")
    open_form.load()
    assert open_form.boxes["cut"][CORNER]["cut"].value == "1x"
    assert "Cutting list, line 5, Cut on the diagonal" in open_form.says.value
    open_form.boxes["cut"][CORNER]["cut"].value = "once"
    assert "cut-size" in open_form.says.value


@pytest.mark.parametrize(
    "path",
    [path for path in SHEETS if not pattern.tables(path).keys() & {"step", "other_size"}],
    ids=lambda path: path.stem,
)
def test_a_sheet_typed_box_by_box_into_an_empty_form_is_the_same_sheet(path):
    values, aside = fields.filled_from(pattern.read(path))
    typed = form()
    for group in fields.GROUPS:
        for number, line in enumerate(values[group.key]):
            if number:
                typed.sections[group.key].children[-1].click()
            for key, value in line.items():
                if typed.boxes[group.key][number][key].value != value:
                    with unittest.mock.patch.object(typed, "check"):
                        typed.boxes[group.key][number][key].value = value
    typed.check()
    assert fields.read(typed.values, aside).model_dump() == pattern.read(path).model_dump()
    assert headline(review.review(pattern.read(path))) in typed.says.value


def test_a_file_is_never_written_over_unless_ticked(tmp_path):
    there = tmp_path / "sheet.toml"
    there.write_text("mine")
    open_form = form(SMALL)
    open_form.file.value = str(there)
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


def test_steps_the_form_has_no_fields_for_are_kept(tmp_path):
    path = folder("data") / "patterns" / "faulty" / "bias-outside-sliced-and-turned.toml"
    open_form = form(path)
    open_form.file.value = str(tmp_path / "again.toml")
    open_form.save()
    assert pattern.read(tmp_path / "again.toml").step == pattern.read(path).step


def test_lines_are_added_and_taken_out():
    open_form = form(SMALL)
    lines = len(open_form.boxes["cut"])
    add = open_form.sections["cut"].children[-1]
    add.click()
    assert len(open_form.boxes["cut"]) == lines + 1
    take_out = open_form.sections["cut"].children[1 + lines].children[-1]
    take_out.click()
    assert len(open_form.boxes["cut"]) == lines


def test_hostile_text_is_shown_as_text():
    open_form = form(SMALL)
    open_form.boxes["cut"][0]["part"].value = "<script>alert(1)</script>"
    assert "<script>" not in open_form.says.value + open_form.picture.value


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
    values, aside = fields.filled_from(sheet)
    assert fields.read(values, aside).model_dump() == sheet.model_dump()
    open_form, again = form(sheet), form()
    open_form.file.value = again.file.value = str(tmp_path / "cabins.toml")
    open_form.save()
    again.load()
    assert again.values == open_form.values
    assert pattern.read(tmp_path / "cabins.toml").model_dump() == sheet.model_dump()


def test_a_row_that_is_one_name_with_a_blank_may_be_typed_as_it_is():
    """As in the guide's log cabin: log 2 / A, log 1."""
    open_form = form(pattern.read_text(LOGS))
    rows = open_form.boxes["block"][0]["rows"]
    assert rows.value == '"log 2" / "A, the middle", log 1'
    rows.value = 'log 2 / "A, the middle", log 1'
    assert fields.read(open_form.values).block["cabin"].rows[0][0].name == "log 2"


@given(
    st.lists(
        st.lists(st.text('ab /,":', min_size=1, max_size=6).filter(str.strip), min_size=1, max_size=3),
        min_size=1,
        max_size=3,
    )
)
def test_any_names_in_any_rows_come_back(rows):
    rows = [[name.strip() for name in row] for row in rows]
    typed = fields.rows_typed(fields.rows_written(rows))
    assert [row if isinstance(row, list) else row.split() for row in typed] == rows


def test_two_lines_of_one_name_are_both_kept_and_said_at_the_second(tmp_path):
    open_form, again = form(pattern.read_text(LOGS)), form()
    open_form.boxes["block"][1]["name"].value = "cabin"
    assert "Blocks, line 2, Block:" in open_form.says.value
    assert "&#x27;cabin&#x27; is the name of line 1 too: give each a name of its own" in open_form.says.value
    assert open_form.boxes["block"][1]["name"].layout.border_top == WRONG
    open_form.file.value = again.file.value = str(tmp_path / "twins.toml")
    open_form.save()
    again.load()
    assert again.values == open_form.values and "is the name of line 1 too" in again.says.value
    with pytest.raises(pattern.Unreadable, match="'cabin' is a name that is given twice"):
        pattern.read(tmp_path / "twins.toml")
