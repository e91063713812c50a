"""Every notebook in a real JupyterLab: it runs without an error, its apps answer to the keyboard, all of it fits, and
everybody can use it. `python -m tests.sweep pages` looks at every page at every size, as a page for a class too."""

import pytest

from quiltmath.resources import folder

from . import lab, seen

pytestmark = pytest.mark.browser
NOTEBOOKS = sorted(path.name for path in folder("notebooks").glob("*.ipynb"))


@pytest.fixture(scope="module", params=NOTEBOOKS)
def notebook(request, jupyter, browser):
    """A page with one notebook, run from top to bottom once for all tests here."""
    page = browser.new_page(viewport=lab.VIEW)
    lab.open_notebook(page, jupyter, request.param)
    lab.run_all(page)
    page.wait_for_timeout(1000)
    yield page
    page.close()
    lab.end_kernels(jupyter)


def test_a_notebook_runs_without_error_and_every_slider_moves_its_picture_by_keyboard(notebook):
    assert lab.errors(notebook) == []
    seen.every_control_moved(notebook)
    assert lab.errors(notebook) == []


def test_every_box_has_a_name_and_nonsense_for_a_number_is_answered_at_its_box(notebook):
    for box in notebook.locator(".jp-OutputArea input[type=text], .jp-OutputArea textarea").all():
        label = notebook.locator(f"label[for='{box.get_attribute('id')}']").first.text_content().strip()
        assert label or (box.get_attribute("title") or "").strip()
    for app in notebook.locator(seen.APPS).all():
        for box in app.locator(".quiltmath-set:has([type=range]) input[type=text]").all():
            before, wrong = seen.picture(app), f"{box.get_attribute('id')}-wrong"
            box.fill("nonsense")
            box.press("Enter")
            app.locator(f"[id='{wrong}']").filter(has_text="got 'nonsense'").wait_for()
            assert (box.get_attribute("aria-describedby"), box.get_attribute("aria-invalid")) == (wrong, "true")
            assert seen.picture(app) == before and box.input_value() == "nonsense"


def test_every_picture_has_alt_text_with_a_number(notebook):
    named = notebook.locator(".jp-OutputArea svg[role=img], .jp-OutputArea img").evaluate_all(
        "all => all.map(one => one.getAttribute('aria-label') || one.alt || '')"
    )
    assert all(any(character.isdigit() for character in name) for name in named), named


def test_nothing_sticks_out_and_nothing_is_hard_for_some(notebook):
    assert seen.crooked(notebook) == []
    assert seen.hard_for_some(notebook) == []
