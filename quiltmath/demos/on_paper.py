"""The notebooks on paper: a worksheet for each, made of the lessons that its cells call."""

import json
import re
from pathlib import Path

from .. import resources
from ..handout import Pages, paper
from ..handout.seam_page import seam_test_page
from ..handout.worksheets import Asked, Worksheet, worksheet_page
from . import every_lesson
from .downloads import TO_PRINT, Downloads, File
from .point_questions import PointQuestion

MOST_PUZZLES = 2
_CALLS = re.compile(r'import lesson\n+lesson\.(guess\(\)|ask\("(\w+)"\))')
_FROM = re.compile(r"from quiltmath\.demos\.(\w+) import lesson")


def notebooks():
    """The files of the notebooks, in order."""
    return sorted(resources.folder("notebooks").glob("[0-9]*.ipynb"))


def worksheet(notebook: Path) -> Worksheet | None:
    """The worksheet of a notebook; None where it asks for no guess.

    >>> sheet = worksheet(next(place for place in notebooks() if "triangles" in place.name))
    >>> sheet.title, sheet.guess.choices
    ('Building side triangles', ('cut once', 'cut twice', 'either way'))
    """
    cells = [(cell["cell_type"], "".join(cell["source"])) for cell in json.loads(notebook.read_text("utf-8"))["cells"]]
    asked = [found for kind, source in cells if kind == "code" and (found := _asked(source)) is not None]
    guesses = [lesson for lesson, name in asked if name == "guess"]
    if not guesses:
        return None
    lesson, (title, about) = guesses[0], _opening(next(source for kind, source in cells if kind == "markdown"))
    demos = [demo for demo in (lesson.demo, lesson.first) if demo is not None]
    puzzles = [_printed(other.question(name)) for other, name in asked if name != "guess"]
    return Worksheet(
        title,
        about,
        _printed(lesson.question("guess")),
        tuple(tuple(demo()) for demo in demos),
        tuple(puzzles[:MOST_PUZZLES]),
    )


def pages(on):
    """The pages of the worksheets: the seam test, then one for each notebook."""
    yield seam_test_page(on)
    for notebook in notebooks():
        sheet = worksheet(notebook)
        if sheet is not None:
            yield worksheet_page(sheet, on)


def take_away(name):
    """The buttons of the worksheet of a notebook, by a part of its name, and of the seam test's page, to be the last
    line of a cell.

    >>> [file.label for file in take_away("building").files]
    ['Worksheet as PDF', 'Seam test as PDF']
    """
    place = next((place for place in notebooks() if name in place.stem), None)
    if place is None:
        named = ", ".join(place.stem for place in notebooks())
        raise ValueError(f"worksheets are of the notebooks {named}; got {name!r}: write a part of one name")
    return Downloads(
        [
            File("Worksheet as PDF", f"worksheet-{place.stem}.pdf", lambda: _pdf("Worksheet", _worksheet_on, place)),
            File("Seam test as PDF", "worksheet-seam-test.pdf", lambda: _pdf("Seam test", seam_test_page)),
        ],
        TO_PRINT,
    )


def _worksheet_on(on, notebook):
    sheet = worksheet(notebook)
    if sheet is None:
        raise ValueError(f"{notebook.stem} asks for no guess: take the worksheet of another notebook")
    return worksheet_page(sheet, on)


def _pdf(title, draw, *given):
    """The bytes of a PDF of one page on the usual paper."""
    pages = Pages(title, paper())
    pages.add("worksheets", [draw(pages.paper, *given)])
    return pages.pdf()


def _asked(source):
    """The lesson and the name of the question that a cell asks, or None."""
    room, call = _FROM.search(source), _CALLS.search(source)
    if room is None or call is None:
        return None
    return every_lesson()[room[1]], call[2] or "guess"


def _opening(source):
    """The title of a notebook and what it begins with, without the marks of Markdown."""
    heading, *paragraphs = source.split("\n\n")
    about = next((text for text in paragraphs if not text.startswith("*Run")), "")
    return heading.lstrip("# "), re.sub(r"[*`]", "", " ".join(about.split()))


def _printed(question):
    """A question as a page asks it, and its answer as the page gives it away."""
    answer = f"{question.told}. {question.why}".strip()
    if isinstance(question, PointQuestion):
        return Asked(question.words, (), answer, question.picture)
    return Asked(question.words, question.choices, answer)
