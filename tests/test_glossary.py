"""One word for one thing: the glossary, and the texts that users read held to it."""

import ast
import json
import re
from functools import cache
from pathlib import Path

import pytest

import quiltmath
from quiltmath import glossary
from quiltmath.resources import folder

KIT = Path(quiltmath.__file__).parent
ROOMS = ("demos", "draw", "making", "pattern", "proofs", "review", "seamtest", "settings", "sewing", "yardage")
KEPT = {"cloth", "lost cloth", "added cloth"}  # names in the code, which nobody reads
NOTEBOOKS = sorted(folder("notebooks").glob("*.ipynb"))
PAGES = [KIT.parent / "README.md", folder("data") / "patterns" / "writing-a-sheet.md"]
MODULES = [
    *KIT.glob("*.py"),
    *(path for room in ROOMS for path in KIT.glob(f"{room}/*.py")),
    *(path for room in ("agreement", "checks", "report") for path in KIT.glob(f"review/{room}/*.py")),
]


def strings(path):
    """Every text in a module that is no docstring."""
    tree = ast.parse(path.read_text("utf-8"))
    alone = {id(node.value) for node in ast.walk(tree) if isinstance(node, ast.Expr)}
    for node in ast.walk(tree):
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and id(node) not in alone:
            yield node.value


@cache
def read(path):
    """What a user reads of a notebook, a page or a module."""
    if path.suffix == ".ipynb":
        cells = json.loads(path.read_text("utf-8"))["cells"]
        return "\n".join("".join(cell["source"]) for cell in cells if cell["cell_type"] == "markdown")
    if path.suffix == ".md":
        return path.read_text("utf-8")
    return "\n".join(text for text in strings(path) if text not in KEPT)


def spelt(name):
    """The name of a term however it may be spelt: with hyphens, blanks or neither."""
    return re.compile(r"\b" + r"[ -]?".join(map(re.escape, re.split(r"[ -]", name))) + r"\b", re.IGNORECASE)


class TestGlossary:
    def test_each_term_stands_once_in_the_order_of_the_alphabet(self):
        names = [one.name for one in glossary.TERMS]
        assert names == sorted(names) and len(names) > 35
        every = [word.casefold() for one in glossary.TERMS for word in (one.name, *one.also)]
        assert len(set(every)) == len(every)

    @pytest.mark.parametrize("term", glossary.TERMS, ids=lambda term: term.name)
    def test_each_is_one_sentence(self, term):
        assert term.meaning[0].isupper() and term.meaning.count(".") == 1 and term.meaning.endswith(".")
        assert not set(term.instead_of) & {word for one in glossary.TERMS for word in (one.name, *one.also)}

    def test_what_is_usually_shortened_is_found_by_its_letters(self):
        assert [glossary.term(short).name for short in ("HST", "qst", "WOF")] == [
            "half-square triangle",
            "quarter-square triangle",
            "width of fabric",
        ]

    def test_one_notebook_shows_it(self):
        showing = [path.stem for path in NOTEBOOKS if "start_here.words()" in path.read_text("utf-8")]
        assert showing == ["00-start-here"]


class TestWords:
    @pytest.mark.parametrize("path", [*NOTEBOOKS, *PAGES, *MODULES], ids=lambda path: path.name)
    def test_a_thing_is_called_by_its_one_name(self, path):
        if path.name == "glossary.py":
            return
        text = read(path)
        for term in glossary.TERMS:
            for word in term.instead_of:
                found = re.search(rf"\b{re.escape(word)}\b", text, re.IGNORECASE)
                assert found is None, (
                    f"{word!r} is called {term.name!r} here: {text[found.start() - 60 : found.end() + 60]}"
                )

    @pytest.mark.parametrize("path", [*NOTEBOOKS, *PAGES], ids=lambda path: path.name)
    def test_a_term_is_spelt_in_one_way(self, path):
        text = read(path)
        for term in glossary.TERMS:
            if term.name != "on point":  # "an on-point quilt" is one set on point
                ways = {found.casefold() for found in spelt(term.name).findall(text)}
                assert ways <= {term.name}, (term.name, ways)

    @pytest.mark.parametrize("path", [*NOTEBOOKS, *PAGES, *MODULES], ids=lambda path: path.name)
    def test_foundation_piecing_is_not_meant(self, path):
        assert "sewn on paper" not in " ".join(read(path).split())

    @pytest.mark.parametrize("path", NOTEBOOKS, ids=lambda path: path.name)
    def test_no_web_address_stands_in_a_lesson(self, path):
        assert "http" not in read(path)
