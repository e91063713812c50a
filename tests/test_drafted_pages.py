"""Whole printed pages: from their text, with answers as their designers would give them, to the verdict."""

import re
from pathlib import Path
from typing import NamedTuple

import pytest

from quiltmath import pattern, review

MOST_QUESTIONS = 8
PAGES = Path(__file__).parent / "drafting" / "pages.txt"


class Printed(NamedTuple):
    """A page, the verdict and the check it must come to, its answers, and the faults that are planted in it."""

    text: str
    verdict: str
    check: str
    answers: list[list[str]]
    faults: list[list[str]]

    @property
    def title(self) -> str:
        """Its first line, as the name of its test."""
        return self.text.splitlines()[0].strip()


def printed():
    """Every page of the list."""
    for part in PAGES.read_text("utf-8").split("\n=== ")[1:]:
        head, text = part.split("\n---\n", 1)
        verdict, *lines = head.splitlines()
        marked = [(line[0], re.split(r"\s+=>\s+", line[2:])) for line in lines]
        answers, faults = ([words for sign, words in marked if sign == mark] for mark in "?!")
        yield Printed(text.strip(), *(verdict.split() + [""])[:2], answers, faults)


def reviewed(page, answers):
    """(How many questions were answered, the review of the sheet): the first proposal, or the answer that is told."""
    drafted, asked = pattern.draft(page), 0
    while drafted.questions:
        question = drafted.questions[0]
        told = next((answer for words, answer in answers if words in question.text), "")
        fits = [choice for choice in question.choices if told in choice.label]
        assert fits or not question.choices, (told, question)
        drafted, asked = drafted.answered(question, fits[0] if fits else None), asked + 1
    return asked, review.review(pattern.read_text(drafted.text()))


def checks(found):
    """The checks that stop or ask."""
    return {one.check for one in found.findings if one.level != "note"}


@pytest.mark.parametrize("page", [*printed()], ids=lambda page: page.title)
def test_a_page_comes_to_its_verdict_by_answers_alone(page):
    asked, found = reviewed(page.text, page.answers)
    assert (found.verdict, checks(found)) == (page.verdict, {page.check} - {""})
    assert asked <= MOST_QUESTIONS


@pytest.mark.parametrize(
    "page, right, wrong, check",
    [(page, *fault) for page in printed() for fault in page.faults],
    ids=lambda value: value if isinstance(value, str) else value.title,
)
def test_a_fault_that_is_planted_in_a_page_stops_it(page, right, wrong, check):
    assert page.text.count(right) == 1
    _, found = reviewed(page.text.replace(right, wrong), page.answers)
    assert found.verdict == "stop" and check in checks(found)


@pytest.mark.parametrize("title", ["ICE CREAM SODA", "STARS OF THE EVENING"])
def test_a_block_of_fewer_units_than_the_page_tells_is_not_proposed(title):
    """With a quarter of the rectangles missing another block would use up what is left."""
    text = next(one.text for one in printed() if one.title == title)
    drafted = pattern.draft(text.replace("48 rectangles", "36 rectangles"))
    assert not any("is each of 12 blocks pieced" in one.text for one in drafted.questions)
    drafted = drafted.answered(drafted.questions[0], drafted.questions[0].choices[0])  # 36 geese
    assert not any("is each of 12 blocks pieced" in one.text for one in drafted.questions)


def test_a_unit_that_a_page_only_names_breaks_nothing():
    """With its parts cut wrong nothing at hand makes it: the draft asks, and says what the sheet lacks."""
    page = next(one for one in printed() if one.title == "South for the Winter")
    wrong = page.text.replace('64 rectangles, 3 1/2" x 6 1/2"', '64 rectangles, 3" x 6 1/2"')
    assert wrong != page.text
    with pytest.raises(pattern.Unreadable, match="unit.flying geese.parts: this is missing"):
        reviewed(wrong, page.answers)


def test_a_total_that_strips_do_not_give_is_proposed_before_what_they_give():
    text = next(one.text for one in printed() if one.title == "kite street")
    drafted = pattern.draft(text.replace("Cut (12) strips 5", "Cut (9) strips 5"))
    asked = next(one for one in drafted.questions if "which is right" in one.text)
    assert asked.text == "9 strips give 72 of these, and in all the page says 96: which is right?"
    assert [one.label for one in asked.choices] == ["96 in all", "72 in all"]
    assert [one.data["count"] for choice in asked.choices for one in choice.changes] == [96, 72]


def test_nothing_is_set_before_the_blocks_that_fill_its_rows_are_pieced():
    """Of rectangles that are too narrow and too short no block is found, and they are in no columns of their own."""
    text = next(one.text for one in printed() if one.title == "Hopscotch Gate")
    drafted = pattern.draft(text.replace('48 rectangles 2" x 3 1/2" (D)', '48 rectangles 1 1/2" x 3" (D)'))
    while drafted.questions:
        asked = drafted.questions[0]
        assert not asked.text.endswith("how are they set?")
        drafted = drafted.answered(asked, asked.choices[0] if asked.choices else None)
    assert any("how are the 12 blocks pieced" in one.text for one in drafted.settled)
