"""Files to take away from a notebook: every button makes what it says, and a refusal is read beside it."""

import csv
import re
from base64 import b64decode
from dataclasses import replace
from io import BytesIO, StringIO
from xml.etree import ElementTree

import nbformat
import pytest
from PIL import Image

from quiltmath import lengths, pattern, resources, settings
from quiltmath.demos import building_side_triangles, every_demo, handed_out, on_paper, sashing, straight_or_on_point
from quiltmath.demos.downloads import KINDS, Downloads, File
from quiltmath.demos.reading_form import form
from quiltmath.handout.cutting_csv import COLUMNS, cutting_csv
from quiltmath.making import make

from .on_paper import words
from .sweep import some_of

SOUND = sorted((resources.folder("data") / "patterns" / "sound").glob("*.toml"))
LINK = re.compile(r'<a download="([^"]+)" href="data:([\w/+]+);base64,([\w/+=]+)">')


def made(downloads, label):
    """The name and the bytes of the file that a button makes."""
    downloads.buttons[label].click()
    found = LINK.search(downloads.link.value)
    assert found, downloads.link.value
    assert KINDS[found[1].rpartition(".")[2]] == found[2]
    return found[1], b64decode(found[3])


@pytest.mark.parametrize("name", every_demo())
def test_a_live_picture_is_saved_as_it_is_shown(name):
    app = every_demo()[name].app()
    _, downloads = app.children
    svg_name, svg = made(downloads, "Picture as SVG")
    png_name, png = made(downloads, "Picture as PNG")
    root = ElementTree.fromstring(svg)
    assert root.get("aria-label") == ElementTree.fromstring(app.live.shown["markup"]).get("aria-label")
    assert Image.open(BytesIO(png)).width >= app.demo.width
    assert svg_name.rpartition(".")[0] == png_name.rpartition(".")[0]


def test_a_moved_slider_moves_the_file():
    app = straight_or_on_point.lesson.app()
    _, downloads = app.children
    _, before = made(downloads, "Picture as SVG")
    app.type("across", "6")
    _, after = made(downloads, "Picture as SVG")
    assert before != after and b"6" in after


PLANS = {
    "on point": lambda: straight_or_on_point.on_paper(across=2, down=2, block=6),
    "built": lambda: building_side_triangles.on_paper(across=2, down=2, n=2, square=3),
    "sashed": lambda: sashing.on_paper(across=1, down=2),
    "chart": handed_out.chart,
    "worksheet": lambda: on_paper.take_away("building"),
}


@pytest.mark.parametrize("name", PLANS)
def test_every_button_makes_its_file(name):
    downloads = PLANS[name]()
    for file in downloads.files:
        saved_as, content = made(downloads, file.label)
        assert saved_as == file.name
        if file.name.endswith(".pdf"):
            assert words(content).strip()
        else:
            assert next(csv.reader(StringIO(content.decode("utf-8-sig")))) == list(COLUMNS)


GUESSED = [place.stem for place in on_paper.notebooks() if "lesson.guess()" in place.read_text("utf-8")]


@pytest.mark.parametrize("stem", some_of(GUESSED, "worksheets", 4))
def test_a_notebook_hands_out_its_worksheet(stem):
    a_notebook_hands_out_its_worksheet(stem)


def a_notebook_hands_out_its_worksheet(stem):
    name, content = made(on_paper.take_away(stem[:2]), "Worksheet as PDF")
    assert name == f"worksheet-{stem}.pdf" and content.startswith(b"%PDF")


@pytest.mark.parametrize("place", on_paper.notebooks(), ids=lambda place: place.stem)
def test_what_is_printed_stands_in_a_section_of_its_own_in_a_frame_and_is_no_answer(place):
    """A newcomer took the worksheet's button for an answer to the puzzle above it."""
    asked = ""
    for cell in nbformat.read(place, as_version=4).cells:
        if cell.cell_type == "markdown" and cell.source.startswith("## "):
            asked, heading = "", cell.source.partition("\n")[0]
        if cell.cell_type == "code" and "lesson." in cell.source:
            asked = cell.source
        if "on_paper.take_away(" in cell.source:
            assert heading == "## On paper" and not asked
            (output,) = cell.outputs
            assert output["data"]["text/plain"].startswith("To print: ")
    offered = on_paper.take_away("building")
    assert offered.words == "To print:" and "quiltmath-downloads" in offered._dom_classes


def test_an_unknown_notebook_is_refused_by_name():
    with pytest.raises(ValueError, match="got 'dyeing': write a part of one name"):
        on_paper.take_away("dyeing")


def test_what_cannot_be_made_is_said_and_a_fault_is_not_swallowed_in_silence():
    def refuse():
        raise ValueError("a template is no larger than <36> pages; got 60: cut it with a ruler")

    def fail():
        raise KeyError("navy")

    downloads = Downloads([File("Templates as PDF", "t.pdf", refuse), File("Chart as PDF", "c.pdf", fail)])
    downloads.make(downloads.files[0])
    assert "t.pdf was not made: a template is no larger than &lt;36&gt; pages; got 60" in downloads.link.value
    assert 'role="alert"' in downloads.link.value
    with pytest.raises(KeyError):
        downloads.make(downloads.files[1])
    assert "This button has a fault" in downloads.link.value


def test_the_form_hands_out_what_is_typed():
    filled = form(SOUND[[path.stem for path in SOUND].index("library-lap-quilt")])
    _, content = made(filled.downloads, "Cutting diagrams as PDF")
    assert "Lap quilt for a draughty library" in words(content)
    empty = form()
    empty.downloads.buttons["Cutting list as CSV"].click()
    assert "was not made" in empty.downloads.link.value


# -- cutting lists as CSV ----------------------------------------------------------------------------------------------


@pytest.mark.parametrize("sheet", SOUND, ids=lambda path: path.stem)
def test_a_cutting_list_says_what_the_needs_say(sheet):
    needs = list(make(pattern.read(sheet)).needs.values())
    rows = list(csv.DictReader(StringIO(cutting_csv(needs))))
    assert len(rows) == len(needs)
    for row, need in zip(rows, needs):
        assert (row["part"], row["fabric"]) == (need.part, need.fabric)
        assert (int(row["pieces"]), int(row["to cut"])) == (need.count, need.squares)
        sizes = [lengths.parse(row[side], row["unit"]) for side in ("width", "height")]
        assert [float(size) for size in sizes] == pytest.approx([float(need.size[0]), float(need.size[-1])], abs=1e-4)
        exact = [float(lengths.parse(row[side], row["unit"])) for side in ("exact width", "exact height")]
        assert exact == pytest.approx(need.pair, abs=1e-4)


def test_a_name_is_no_formula_in_a_spreadsheet():
    (need,) = settings.straight(2, 2, 9).cutting_list()
    assert ",'=1+1," in cutting_csv([replace(need, fabric="=1+1")])
