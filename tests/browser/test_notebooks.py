"""Every notebook in a real JupyterLab: it runs without an error, its apps answer to the keyboard, all of it fits, and
everybody can use it. `python -m tests.sweep pages` looks at every page at every size, as a page for a class too."""

import pytest

from quiltmath.pattern.drafting.page_files import LARGEST
from quiltmath.resources import folder

from . import lab, seen

pytestmark = pytest.mark.browser
SAMPLE = "00", "04", "09"
NOTEBOOKS = sorted(path.name for path in folder("notebooks").glob("*.ipynb") if path.name[:2] in SAMPLE)
IN_SIGHT = """element => {
  const {top, bottom} = element.getBoundingClientRect()
  return top >= 0 && bottom <= window.innerHeight
}"""


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


TWO_STEPS = """slider => {
  const sentence = slider.closest('.quiltmath').querySelector('.quiltmath-sentence')
  const step = () => {
    slider.stepUp()
    slider.dispatchEvent(new Event('input'))
    return sentence.textContent
  }
  const said = [sentence.textContent, step(), step()]
  window.told = []
  new MutationObserver(() => window.told.push(sentence.textContent)).observe(sentence, {childList: true})
  return said
}"""


@pytest.mark.parametrize("notebook", ["00-start-here.ipynb"], indirect=True)
def test_what_was_drawn_ahead_is_shown_before_any_answer_and_no_late_answer_overwrites_it(notebook):
    app = notebook.locator(seen.APPS).first
    slider = app.get_by_role("slider")
    slider.fill("1")
    slider.focus()
    notebook.wait_for_timeout(1500)  # nothing on the page tells that the next pictures have come
    said = slider.evaluate(TWO_STEPS)
    notebook.wait_for_timeout(1000)
    assert len(set(said)) == 3 and notebook.evaluate("() => window.told") == []
    ahead = seen.picture(app)
    for typed in ("1", "4"):  # drawn afresh, for what is typed
        before = seen.picture(app)
        app.get_by_role("textbox").fill(typed)
        notebook.keyboard.press("Enter")
        seen.settled(notebook, app, before)
    assert seen.picture(app) == ahead


@pytest.mark.parametrize("notebook", ["00-start-here.ipynb"], indirect=True)
def test_enter_sends_an_answer(notebook):
    asked = notebook.locator(".quiltmath-question:has(input[type=text])").first
    asked.locator("input[type=text]").fill("15 1/2")
    asked.locator("input[type=text]").press("Enter")
    notebook.get_by_text("Exactly right.").wait_for(timeout=30_000)


def test_every_picture_has_alt_text_with_a_number(notebook):
    named = notebook.locator(".jp-OutputArea svg[role=img], .jp-OutputArea img").evaluate_all(
        "all => all.map(one => one.getAttribute('aria-label') || one.alt || '')"
    )
    assert all(any(character.isdigit() for character in name) for name in named), named


def test_nothing_sticks_out_and_nothing_is_hard_for_some(notebook):
    assert seen.crooked(notebook) == []
    assert seen.hard_for_some(notebook) == []


@pytest.mark.parametrize("notebook", ["04-a-block-cut-in-half.ipynb"], indirect=True)
def test_points_are_marked_by_key_and_by_pointer_and_nothing_is_told_before_the_check(notebook):
    marks = notebook.locator(".quiltmath-point")
    marks.first.focus()
    for pressed in ("true", "false", "true"):
        notebook.keyboard.press("Space")
        assert marks.first.get_attribute("aria-pressed") == pressed
    for mark in notebook.get_by_role("button", name="on the cut").all():
        mark.click()
    assert notebook.locator("[data-truth]").count() == 0
    check = notebook.locator(".quiltmath-question", has=marks.first).get_by_role("button", name="Check my answer")
    check.click()
    notebook.get_by_text("You found all 3 points that are lost; 1 that you marked stays whole.").wait_for()
    assert notebook.get_by_role("button", name="on the cut: lost").count() == 3
    marks.first.click()
    check.click()
    notebook.get_by_text("Exactly right. You marked all 3 points that are lost, and no other.").wait_for()
    assert seen.crooked(notebook) == [] and seen.hard_for_some(notebook) == []


PRINTED = """\
Porch Swing
Finished size: 28 1/2" x 37 1/2"
Sew with a 1/4" seam.
Fabric requirements (42" usable width)
1 yd navy
3/4 yd cream
3/4 yd green
3/8 yd red
From navy, cut:
60 squares 3"
From cream, cut:
48 squares 3"
From green, cut:
31 sashing strips 2" x 7 1/2"
From red, cut:
20 cornerstones 2" square
Set the blocks 3 across and 4 down.
"""  # the sashing is half an inch too short
MOST_KEYS = 40
RUN_FORM = """() => {
  const pages = window.jupyterapp.shell.currentWidget.content
  pages.activeCellIndex = pages.widgets.findIndex(cell => cell.model.sharedModel.getSource().includes('.form()'))
  return window.jupyterapp.commands.execute('notebook:run-cell')
}"""


@pytest.mark.parametrize("notebook", ["09-check-a-pattern.ipynb"], indirect=True)
def test_a_pasted_page_has_its_verdict_after_few_keys_and_no_box_loses_its_place(notebook, tmp_path):
    from playwright.sync_api import expect

    form = notebook.locator(".qm-form")
    for name, words in (
        (f"{2 * LARGEST:,} bytes", b" " * 2 * LARGEST),
        ("Understood: 1 line", b'Navy: 8 squares 3 1/2"'),
    ):
        (tmp_path / "page.txt").write_bytes(words)  # what is too large is not sent, and the form still answers
        form.get_by_label("Load a page or sheet").set_input_files(tmp_path / "page.txt")
        form.get_by_text(name).first.wait_for(timeout=20_000)
    form.get_by_role("button", name="Start afresh").click()
    expect(form.get_by_label("The printed page")).to_have_value("", timeout=30_000)
    notebook.evaluate(
        "() => { window.counted = 0; for (const kind of ['keydown', 'click'])"
        " document.addEventListener(kind, event => { if (event.isTrusted) window.counted += 1 }, true) }"
    )
    form.get_by_label("The printed page").click()
    notebook.keyboard.insert_text("x" * 80_001)
    form.get_by_text("This would be 80,001 signs; a pattern has at most 50,000").wait_for(timeout=5_000)
    assert form.get_by_label("The printed page").input_value() == ""
    notebook.keyboard.insert_text(PRINTED)  # what Ctrl and V do, counted as two keys below
    form.get_by_role("button", name="Read it").click()
    for words in ("A B A / B A B / A B A", "3 across and 4 down, sashing between the blocks and round the outside"):
        form.get_by_role("button", name=words).click(timeout=20_000)
    form.locator(".qm-findings", has_text="too short").wait_for(timeout=20_000)
    assert form.locator(".qm-head.qm-is-stop").count()
    keys = notebook.evaluate("() => window.counted") + len(("Ctrl", "V"))
    print(f"{keys} keys and clicks")
    assert keys <= MOST_KEYS
    found = form.locator(".qm-findings").inner_text()
    assert "'sashing' is cut 2 by 7 1/2 in, too short: cut 2 by 8 in" in found.replace("\N{NO-BREAK SPACE}", " ")

    size = form.get_by_label("Size (in), Cutting list, line 3")
    assert size.evaluate("box => getComputedStyle(box).borderTopWidth") == "3px"
    notebook.set_viewport_size({"width": 1280, "height": 800})  # the verdict stays in sight wherever one types
    form.evaluate("form => form.scrollIntoView()")
    form.get_by_role("button", name="+ binding").click()
    notebook.wait_for_function("() => document.activeElement.closest('.qm-binding')")  # the place went with the line
    assert form.locator(".qm-head").evaluate(IN_SIGHT) and form.locator(".qm-verdict svg").evaluate(IN_SIGHT)
    form.get_by_role("button", name="Go to 1").click()
    notebook.wait_for_function("box => document.activeElement === box", arg=size.element_handle())
    notebook.keyboard.press("Control+A")
    notebook.keyboard.type("2 x 8")
    form.locator(".qm-head.qm-is-go").wait_for(timeout=20_000)
    form.locator(".qm-cut .qm-line:visible .qm-take").nth(0).click()
    notebook.wait_for_function("() => document.activeElement.closest('.qm-cut')")
    form.get_by_role("button", name="Undo").click()
    form.locator(".qm-head.qm-is-go").wait_for(timeout=20_000)
    size.wait_for(timeout=20_000)
    notebook.wait_for_timeout(1000)  # what is typed is kept once the keys rest
    notebook.set_viewport_size({"width": 800, "height": 800})
    form.evaluate("form => form.scrollIntoView()")
    assert form.locator(".qm-head").evaluate(IN_SIGHT) and not form.locator(".qm-verdict svg").is_visible()
    form.get_by_role("button", name="Show the quilt").click()
    form.locator(".qm-verdict svg").wait_for(timeout=5_000)
    notebook.evaluate(RUN_FORM)  # the cell run again keeps everything
    form.get_by_text("What you typed before is here again").wait_for(timeout=20_000)
    size.wait_for(state="attached", timeout=60_000)
    assert size.input_value() == "2 x 8"
    assert lab.errors(notebook) == []
