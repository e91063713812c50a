"""The notebooks as files: thin, readable before they are run, and free of swallowed errors once they are."""

import ast
import re

import nbformat
import pytest

from quiltmath.resources import folder
from quiltmath.saved import VIEW
from tests.browser import saved

BY_NAME = sorted(folder("notebooks").glob("*.ipynb"))
NOTEBOOKS = [pytest.param(path, id=path.stem) for path in BY_NAME]
LINK, PAGE = re.compile(r"\[([^]]+)\]\(([^)]+)\)"), re.compile(r"`\d\d-[a-z-]+`")


def code_cells(notebook):
    return [cell for cell in notebook.cells if cell.cell_type == "code"]


def results(notebook):
    """What a reader without a kernel gets from each cell: its text and the alt text of its picture."""
    return [
        [
            (
                "".join(output.get("data", {}).get("text/plain", output.get("text", ""))),
                output.get("metadata", {}).get("image/png", {}).get("alt", ""),
            )
            for output in cell.outputs
        ]
        for cell in code_cells(notebook)
    ]


@pytest.mark.parametrize("path", NOTEBOOKS)
class TestEveryNotebook:
    def test_cells_are_thin(self, path):
        for cell in code_cells(nbformat.read(path, as_version=4)):
            lines = [line for line in cell.source.splitlines() if line.strip()]
            assert len(lines) < 8, cell.source
            tree = ast.parse("\n".join(line for line in lines if not line.startswith(("%", "!"))))
            made = [node for node in ast.walk(tree) if isinstance(node, (ast.FunctionDef, ast.ClassDef, ast.Lambda))]
            named = {alias.name for node in ast.walk(tree) if isinstance(node, ast.Import) for alias in node.names}
            assert not made and "ipywidgets" not in named, cell.source

    def test_a_section_begins_with_its_heading_and_a_link_leads_to_the_page_of_that_title(self, path):
        titles = {one.name: nbformat.read(one, as_version=4).cells[0].source.splitlines()[0] for one in BY_NAME}
        for cell in nbformat.read(path, as_version=4).cells[1:]:
            if cell.cell_type == "markdown":  # a page for a class shows a section, from its heading on, at a time
                assert "\n## " not in cell.source and not PAGE.search(cell.source), cell.source
                for words, place in LINK.findall(cell.source):
                    assert titles[place] == f"# {words}"

    def test_it_reads_well_before_it_is_run(self, path):
        notebook = nbformat.read(path, as_version=4)
        assert "widgets" not in notebook.metadata
        for cell in code_cells(notebook):
            assert cell.outputs or cell.source.lstrip().startswith(("from", "import")), cell.source
            for output in cell.outputs:
                data = output.get("data", {})
                assert output.output_type != "error" and VIEW not in data
                if "image/png" in data:
                    assert output.metadata["image/png"]["alt"]

    def test_run_again_it_says_the_same_and_no_widget_hides_an_error(self, path):
        before = nbformat.read(path, as_version=4)
        after = saved.run(path)
        for state in (
            after.metadata.get("widgets", {})
            .get("application/vnd.jupyter.widget-state+json", {})
            .get("state", {})
            .values()
        ):
            values = state["state"]
            assert not any(output.get("output_type") == "error" for output in values.get("outputs", ()))
            assert not values.get("shown", {}).get("wrong"), values["shown"]["wrong"]
        assert results(saved.without_widgets(after)) == results(before)
