"""Every notebook in a real JupyterLab: it runs without an error, and its apps answer to the keyboard."""

import pytest

from quiltmath.resources import folder

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


def test_every_box_has_a_name_and_nonsense_for_a_number_is_answered_in_words(notebook):
    for box in notebook.locator(".jp-OutputArea input[type=text], .jp-OutputArea textarea").all():
        label = notebook.locator(f"label[for='{box.get_attribute('id')}']").text_content().strip()
        assert label or (box.get_attribute("title") or "").strip()
    for box in notebook.locator(".widget-hbox:has(.noUi-handle) input[type=text]").all():
        app = box.locator(APP_OF)
        before = picture(app)
        box.fill("nonsense")
        box.press("Enter")
        app.get_by_text("got 'nonsense'").wait_for(timeout=15_000)
        assert picture(app) == before


def test_every_picture_has_alt_text_with_a_number(notebook):
    named = notebook.locator(".jp-OutputArea svg[role=img], .jp-OutputArea img").evaluate_all(
        "all => all.map(one => one.getAttribute('aria-label') || one.alt || '')"
    )
    assert all(any(character.isdigit() for character in name) for name in named), named
