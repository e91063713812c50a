"""The page to start with: it leads to every other one, says for whom and how long each is, and explains every word."""

import json
import re

import pytest

from quiltmath import glossary
from quiltmath.demos import start_here
from quiltmath.demos.table import Link, Table
from quiltmath.resources import folder

NOTEBOOKS = sorted(folder("notebooks").glob("[0-9]*.ipynb"))
WORDLESS = re.compile(r"`[^`]*`|\]\([^)]*\)|\*\*Time:\*\*.*")  # names of pages, what is typed, and a lesson's minutes


def prose(place):
    cells = json.loads(place.read_text("utf-8"))["cells"]
    return "\n".join("".join(cell["source"]) for cell in cells if cell["cell_type"] == "markdown")


class TestPages:
    def test_a_question_leads_to_every_page_but_this_one(self):
        table = start_here.pages()
        assert [link.place for _, link, _, _ in table.rows] == [place.name for place in NOTEBOOKS[1:]]
        assert {name[:2] for name in (place.name for place in NOTEBOOKS[1:])} <= set(start_here.QUESTIONS)

    def test_each_says_its_title_for_whom_it_is_and_its_minutes(self):
        for (_, link, whom, time), place in zip(start_here.pages().rows, NOTEBOOKS[1:]):
            assert prose(place).startswith(f"# {link.words}\n") and whom
            assert re.search(r"\d+ (minutes|for)", time) and time in " ".join(prose(place).split())

    def test_for_whom_it_is_and_how_long_speaks_of_no_other_page_and_of_nothing_below(self):
        for _, _, whom, time in start_here.pages().rows:
            assert not re.search(r"\b(before|below|above)\b", f"{whom.replace('before the first block', '')} {time}")

    def test_every_page_that_is_said_to_have_a_worksheet_has_one(self):
        assert "every other page has a worksheet" in " ".join(prose(NOTEBOOKS[0]).split())
        has = ["on_paper.take_away(" in place.read_text("utf-8") for place in NOTEBOOKS]
        assert has == [False] + [True] * (len(NOTEBOOKS) - 1)

    def test_its_link_is_one_a_page_can_follow(self):
        first = start_here.pages().rows[0][1]
        assert f'<a href="{first.place}">{first.words}</a>' in start_here.pages().html()


def test_every_word_of_the_glossary_stands_on_it():
    table = start_here.words()
    assert [row[1] for row in table.rows] == [one.meaning for one in glossary.TERMS]
    assert all(name.startswith(one.name) for (name, _), one in zip(table.rows, glossary.TERMS))
    assert "start_here.words()" in NOTEBOOKS[0].read_text("utf-8")


@pytest.mark.parametrize(
    "place", [place for place in NOTEBOOKS if place.stem[:2] in ("00", "01")], ids=lambda place: place.stem
)
def test_no_figure_is_typed_into_its_prose(place):
    """Whatever is measured or counted is told by the library, in the outputs."""
    assert re.findall(r".{0,30}\d.{0,30}", WORDLESS.sub("", prose(place))) == []


def test_what_is_typed_into_a_table_is_shown_as_text():
    shown = Table(("a", "b"), ((Link("<b>", 'x".ipynb'), "<script>"),), caption="<i>").html()
    assert "<script>" not in shown and "<i>" not in shown and 'href="x&quot;.ipynb"' in shown
