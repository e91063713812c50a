"""Every notebook in a real JupyterLab: it runs without an error, and its apps answer to the keyboard."""

import pytest

from quiltmath.places import folder

from . import lab

pytestmark = pytest.mark.browser
NOTEBOOKS = sorted(path.name for path in folder("notebooks").glob("*.ipynb"))
APP_OF = "xpath=ancestor::div[contains(@class, 'widget-vbox')][1]"
CHANGED = "([app, before]) => app.querySelector('svg[role=img]').outerHTML !== before"


def settled(page, app, before):
    """Wait until the app shows another picture than `before`."""
    page.wait_for_function(CHANGED, arg=[app.element_handle(), before], timeout=15_000)


def picture(app):
    return app.locator("svg[role=img]").evaluate("svg => svg.outerHTML")


def boxes(app):
    return [box.input_value() for box in app.locator("input[type=text]").all()]


def is_at_its_end(handle):
    return handle.get_attribute("aria-valuenow") == handle.get_attribute("aria-valuemax")


@pytest.fixture(params=NOTEBOOKS)
def notebook(request, jupyter, page):
    """A page with one notebook, run from top to bottom."""
    lab.open_notebook(page, jupyter, request.param)
    lab.run_all(page)
    page.wait_for_timeout(1000)
    return page


def test_a_notebook_runs_without_error_and_every_slider_moves_its_picture_by_keyboard(notebook):
    assert lab.errors(notebook) == []
    for handle in notebook.locator(".jp-OutputArea .noUi-handle").all():
        app, at_the_end = handle.locator(APP_OF), is_at_its_end(handle)
        before, words, typed = picture(app), app.locator("[role=status]").inner_text(), boxes(app)
        handle.focus()
        handle.press("ArrowLeft" if at_the_end else "ArrowRight")
        settled(notebook, app, before)
        notebook.wait_for_timeout(300)
        assert app.locator("[role=status]").inner_text() != words
        assert boxes(app) != typed
    assert lab.errors(notebook) == []


def test_every_box_has_a_name_and_nonsense_in_it_is_answered_in_words(notebook):
    for box in notebook.locator(".jp-OutputArea input[type=text]").all():
        label = notebook.locator(f"label[for='{box.get_attribute('id')}']")
        assert label.count() == 1 and label.text_content().strip()
        pictures = notebook.locator("svg[role=img]").count()
        box.fill("nonsense")
        box.press("Enter")
        notebook.get_by_text("got 'nonsense'").last.wait_for(timeout=15_000)
        assert notebook.locator("svg[role=img]").count() >= pictures


def test_every_picture_has_alt_text_with_a_number(notebook):
    named = notebook.locator(".jp-OutputArea svg[role=img], .jp-OutputArea img").evaluate_all(
        "all => all.map(one => one.getAttribute('aria-label') || one.alt || '')"
    )
    assert all(any(character.isdigit() for character in name) for name in named), named
