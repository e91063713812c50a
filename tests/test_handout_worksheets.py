"""Worksheets: a page for each notebook with its guess, picture, puzzle and answer; the seam test."""

import pytest

from quiltmath import seamtest
from quiltmath.demos import every_lesson, on_paper
from quiltmath.handout import PAPERS
from quiltmath.handout.seam_page import READINGS, seam_test_page
from quiltmath.handout.worksheets import worksheet_page

from .on_paper import TRUE, drawn_lines, is_readable, pdf_of, words

NOTEBOOKS = on_paper.notebooks()
LETTER = PAPERS["Letter"]


def asking(notebook):
    return "lesson.guess()" in notebook.read_text("utf-8")


def test_every_notebook_that_asks_has_its_worksheet():
    assert len(NOTEBOOKS) > 5
    assert [place for place in NOTEBOOKS if (on_paper.worksheet(place) is not None) != asking(place)] == []


@pytest.mark.parametrize("notebook", [place for place in NOTEBOOKS if asking(place)], ids=lambda path: path.stem)
@pytest.mark.parametrize("paper", PAPERS.values(), ids=PAPERS)
def test_a_worksheet_asks_and_answers_on_one_page(notebook, paper):
    sheet = on_paper.worksheet(notebook)
    page = worksheet_page(sheet, paper)
    is_readable_outside_pictures(page)
    turned = [word.get_text() for word in page.axes.texts if word.get_rotation() == 180]
    foot = " ".join(turned)
    assert foot.startswith(f"Guess: {sheet.guess.answer[:30]}") and "Puzzle 1:" in foot
    upright = " ".join(word.get_text() for word in page.axes.texts if word.get_rotation() == 0)
    assert " ".join(sheet.guess.words.split()) in upright and "Fold the page back" in upright
    assert all(f"☐ {choice}" in upright for choice in sheet.guess.choices)
    assert len(page.figure.axes) == 2 + (sheet.guess.picture is not None), "the page has a picture, and one to mark"


def is_readable_outside_pictures(page):
    pictures = page.figure.axes[1:]
    for picture in pictures:
        page.figure.delaxes(picture)
    is_readable(page)
    for picture in pictures:
        page.figure.add_axes(picture)


def test_the_answers_are_judged_exact():
    """What the foot of a page gives away is what the notebook calls exact."""
    for name, lesson in every_lesson().items():
        for which, question in lesson.questions().items():
            answer = on_paper._printed(question).answer
            typed = question.answer if question.choices else float(question.answer)
            assert question.judge(typed).kind == "exact", (name, which)
            assert not question.choices or answer.startswith(f"{question.told}.")


def test_the_seam_test_has_room_for_three_readings():
    page = seam_test_page(LETTER)
    is_readable(page)
    right, said = seamtest.expected("1 1/2", 3), [word.get_text() for word in page.axes.texts]
    assert READINGS == 3 and [str(number) for number in (1, 2, 3)] == [text for text in said if text.isdigit()]
    assert ["should be", "3 1/2 in", "1 in", "1/4 in", "1 1/2 in"] == [
        text for text in said if text in ("should be", "3 1/2 in", "1 in", "1/4 in", "1 1/2 in")
    ][:5]
    assert float(right.total) == 3.5 and "Iron: set it on its heel" in " ".join(words(pdf_of(page, LETTER)).split())


def test_the_sewn_strips_are_drawn_at_their_true_size():
    page, right = seam_test_page(PAPERS["A4"]), seamtest.expected("1 1/2", 3)
    outline = drawn_lines(page, width=1.5)
    assert abs(outline[..., 0].max() - outline[..., 0].min() - float(right.total)) < TRUE
    seams = sorted({round(float(x), 6) for x in drawn_lines(page, "#0072b2")[..., 0].ravel()})
    assert abs(seams[-1] - seams[0] - float(right.centre)) < TRUE
