"""Questions for which nothing is proposed: the rows of a block, or how many blocks stand across and down, are typed,
and the draft goes on from there."""

import io

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quiltmath import pattern, review
from quiltmath.demos.pasted import Page
from quiltmath.demos.reading_form import form
from quiltmath.pattern.drafting.command import answered

PAGE = """\
Sunday Windows
Finished size 42" x 54"
12 blocks, 12" finished

Navy: 1 yd
Cream: 1 1/4 yds
Rust: 3/4 yd
Border: 3/4 yd

Navy: 60 squares 3 1/2"
Cream: 96 squares 3 1/2"
Rust: 36 squares 3 1/2"
Border: 5 strips 3 1/2" x WOF

Lay the pieces out as the picture shows and sew them in rows.
Sew the border strips together, and cut 2 strips 48 1/2" for the sides and 2 strips 42 1/2" for top and bottom.
"""
ROWS = "A B B B / B A B B / C A A C / B C B A"
PAIRS = """\
Odd Pairs
Finished size 16" x 24"
Navy: 12 squares 4 7/8"
White: 12 squares 4 7/8"
Rust: 12 rectangles 8 1/2" x 4 1/2"
Sew pairs as drawn.
"""


@pytest.fixture(autouse=True)
def in_its_own_folder(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)


def asked_for_rows(text):
    """The draft of a page when it asks for rows, nothing else that it proposes taken."""
    drafted = pattern.draft(text)
    while drafted.questions[0].draws is None:
        drafted = drafted.answered(drafted.questions[0], drafted.questions[0].choices[-1])
    return drafted, drafted.questions[0]


def to_its_end(drafted):
    """A draft with the first answer to each question that is left."""
    while drafted.questions:
        drafted = drafted.answered(drafted.questions[0], drafted.questions[0].choices[0])
    return drafted


@pytest.mark.parametrize(
    "rows", [ROWS, ROWS.lower(), ROWS.replace(" / ", "\n"), ROWS.replace(" ", ", ").replace(", /,", "/")]
)
def test_rows_that_are_typed_lead_to_the_setting_and_a_verdict(rows):
    drafted, asked = asked_for_rows(PAGE)
    assert drafted.names_to_type(asked)[0] == "A (Navy, 60 of 3 x 3)"
    drafted = drafted.answered(asked, drafted.typed(asked, rows))
    assert drafted.questions[0].text == "how is the quilt set, of 12 blocks?"
    assert review.review(pattern.read_text(to_its_end(drafted).text())).verdict == "go"


def test_rows_that_take_more_than_is_cut_are_stopped():
    drafted, asked = asked_for_rows(PAGE)
    drafted = to_its_end(drafted.answered(asked, drafted.typed(asked, ROWS.replace("C A A C", "C A C C"))))
    found = review.review(pattern.read_text(drafted.text()))
    assert found.verdict == "stop" and "piece-count" in {one.check for one in found.findings}


@pytest.mark.parametrize(
    "typed, told",
    [
        ("", "type the rows of one block, from the top"),
        (" / ", "type the rows of one block, from the top"),
        ("A B / B Q", "nothing here is called Q: there are A (Navy, 60 of 3 x 3)"),
        ("AB BA", "nothing here is called AB"),
        ("A " * 1_001, "the rows of one block have at most 2,000 signs; got 2,002"),
    ],
)
def test_what_is_no_row_is_refused_in_words(typed, told):
    drafted, asked = asked_for_rows(PAGE)
    with pytest.raises(ValueError) as refused:
        drafted.typed(asked, typed)
    assert str(refused.value).startswith(told)


@given(st.text(max_size=40))
def test_whatever_is_typed_is_rows_or_refused(text):
    drafted, asked = asked_for_rows(PAGE)
    try:
        choice = drafted.typed(asked, text)
    except ValueError as refused:
        assert str(refused)
    else:
        assert drafted.typed(asked, choice.label) == choice
        assert drafted.answered(asked, choice).entries != drafted.entries


def test_units_may_be_called_by_their_short_names_and_turned():
    drafted = pattern.draft(PAIRS)
    drafted = drafted.answered(drafted.questions[0], drafted.questions[0].choices[0])
    while drafted.questions[0].draws is None:
        drafted = drafted.answered(drafted.questions[0], drafted.questions[0].choices[-1])
    choice = drafted.typed(drafted.questions[0], "hst HST:90 / hst:180 HST:270")
    assert choice.changes[0].data["rows"] == [
        "half-square half-square:90",
        "half-square:180 half-square:270",
    ]
    assert choice.changes[0].data["count"] == 6  # of 24 units, four a block


def test_how_many_stand_across_and_down_is_typed_where_blocks_do_not_tell():
    drafted, asked = asked_for_rows(PAGE)
    drafted = drafted.answered(asked, drafted.typed(asked, ROWS))
    drafted = drafted.answered(drafted.questions[0], drafted.questions[0].choices[-1])
    (asked,) = drafted.questions
    assert asked.draws is not None and asked.draws.table == "setting"
    for typed, style in (("3 x 4", "straight"), ("3 across and 4 down", "straight"), ("3 by 4 on point", "on point")):
        made = drafted.typed(asked, typed).changes[0].data
        assert (made["across"], made["down"], made["style"]) == (3, 4, style)
    for wrong in ("", "0 x 4", "three", "3 x 4 x 5"):
        with pytest.raises(ValueError, match="type how many blocks stand across and down"):
            drafted.typed(asked, wrong)


def test_what_answers_a_line_is_not_typed():
    asked = pattern.draft("From navy, cut:\n12 squares 3 1/2 in\n5 - 7/8 in squares")
    with pytest.raises(ValueError, match="answered by one of its choices"):
        asked.typed(asked.questions[0], "A B")


def test_a_page_keeps_the_rows_and_lets_go_of_those_whose_names_are_gone():
    page, (_, asked) = Page(PAGE), asked_for_rows(PAGE)
    for one in (page.draft().questions[0],):
        page = page.answered(one, one.choices[-1])
    page = page.answered(asked, page.draft().typed(asked, ROWS))
    again = Page(*page)._replace(name="read anew")
    assert again.draft().data()["block"]["block"]["rows"] == ROWS.split(" / ")
    without = page._replace(text=PAGE.replace('Rust: 36 squares 3 1/2"\n', ""))
    assert "rows" not in without.draft().data()["block"]["block"]


def test_the_form_takes_rows_and_says_what_it_does_not_know():
    one = form()
    one.page.box.value = PAGE
    one.page.read()
    one.page.answer(one.page.drafted.questions[0].choices[-1])
    assert one.page.rows.layout.display is None and one.page.own.layout.display == "none"
    assert "A (Navy, 60 of 3 x 3)" in one.page.asked.value
    one.page.rows.value = "A Q"
    one.page.drawer.click()
    assert "Nothing here is called Q" in one.page.refused.value and one.page.rows.value == "A Q"
    one.page.rows.value = ROWS
    one.page.drawer.click()
    assert one.boxes["block"][0]["rows"].value == ROWS.replace(" / ", "\n")
    assert one.page.rows.layout.display == "none"
    one.page.answer(one.page.drafted.questions[0].choices[0])
    assert "<strong>GO:" in one.verdict.headline.value


def test_rows_are_typed_at_the_command_line_too(monkeypatch, capsys):
    something_else = len(pattern.draft(PAGE).questions[0].choices)
    monkeypatch.setattr("sys.stdin", io.StringIO(f"{something_else}\nA Q\n{ROWS}\n1\n"))
    drafted = answered(pattern.draft(PAGE))
    said = capsys.readouterr().out
    assert "Nothing here is called Q: there are A (Navy, 60 of 3 x 3)" in said and "   - B (Cream, 96 of 3 x 3)" in said
    assert review.review(pattern.read_text(drafted.text())).verdict == "go"


def test_rows_are_asked_of_a_page_that_tells_how_it_is_sewn_and_not_of_a_list():
    cut = 'Navy: 7 squares 3"\nCream: 11 rectangles 2" x 4 1/4"\n'
    sewn = "Sew the pieces as drawn.\nPress the seams.\nJoin the rows.\n"
    assert [one.draws for one in pattern.draft(cut).questions] == []
    (asked,) = pattern.draft(cut + sewn).questions
    assert asked.draws is not None and asked.draws.table == "block"


def test_how_a_quilt_on_point_is_set_is_typed_where_its_triangles_and_squares_fit_no_rows():
    """Seven squares between the blocks go with no rows that twelve side triangles surround."""
    page = (
        'Larch\nFinished 30" x 40"\nNavy: 12 squares 9 1/2"\nGreen: 7 setting squares 9 1/2"\n'
        'Green: 3 squares 14", cut twice diagonally for side triangles\n'
        'Green: 2 squares 7 1/4", cut once diagonally for corner triangles\n'
    )
    drafted = pattern.draft(page)
    (asked,) = drafted.questions
    assert asked.text.startswith("7 setting squares, 12 side and 4 corner triangles: on point?")
    drafted = drafted.answered(asked, drafted.typed(asked, "3 x 4"))
    (setting,) = (one.data for one in drafted.entries if one.table == "setting")
    assert (setting["style"], setting["across"], setting["down"]) == ("on point", 3, 4)
    assert setting["alternate"] == "setting square" and setting["sides"]["part"] == "side triangle"
