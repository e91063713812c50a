"""`quiltmath open` as a new user meets it: the notebook, nothing in front of it, and one Ctrl+C to end it."""

import json
import os
import re
import signal
import subprocess
import sys
import time
from concurrent.futures import ThreadPoolExecutor
from contextlib import ExitStack, contextmanager

import pytest

from quiltmath import opening
from quiltmath.demos import by_chance
from quiltmath.saved import VIEW

from . import lab, seen

pytestmark = pytest.mark.browser
ADDRESS = re.compile(r"http://127\.0\.0\.1:\d+/(?:doc|voila)/\S+")
IN_FRONT = ".Toastify__toast, .jp-Dialog"

IN_SIGHT = """picture => {
  const { top, bottom } = picture.getBoundingClientRect()
  return top > 0 && bottom < 740
}"""


IN_ONE_WINDOW = """() => {
  const controls = [...document.querySelectorAll('.quiltmath-controls')].find(one => one.getClientRects().length)
  const { top, bottom } = controls.closest('.quiltmath').getBoundingClientRect()
  const bar = document.querySelector('.quiltmath-sections').getBoundingClientRect().top
  return document.getElementById('rendered_cells').scrollTop === 0 && top >= 0 && bottom <= bar
}"""

LISTEN = """() => {
  const live = [...document.querySelectorAll('.quiltmath-announced')].find(one => one.getClientRects().length)
  window.heard = []
  new MutationObserver(() => { if (live.textContent) window.heard.push(live.textContent) })
    .observe(live, { childList: true })
}"""


@contextmanager
def opened(folder, *arguments):
    """The command, run in a terminal by someone new to JupyterLab: the process, and the address it tells."""
    folder.mkdir(exist_ok=True)
    new = {name: str(folder / name.lower()) for name in lab.PLACES}
    said = folder / "said.txt"
    keyboard, terminal = os.openpty()  # JupyterLab asks before it ends only where there is a terminal
    with said.open("w") as out:
        command = subprocess.Popen(
            [sys.executable, "-m", "quiltmath", "open", "--no-browser", *arguments],
            cwd=folder,
            env={**os.environ, **new},
            stdin=terminal,
            stdout=out,
            stderr=subprocess.STDOUT,
        )
        try:
            end = time.monotonic() + 120
            while not ADDRESS.search(said.read_text()) and command.poll() is None and time.monotonic() < end:
                time.sleep(0.2)
            address = ADDRESS.search(said.read_text())
            assert address, said.read_text()
            yield command, address[0]
        finally:
            if command.poll() is None:
                command.kill()
            command.wait(30)
            os.close(keyboard)
            os.close(terminal)


RUN = "() => [...document.querySelectorAll('.quiltmath')].length > 5"
TOP = "() => document.querySelector('.jp-NotebookPanel .jp-Notebook h1').getBoundingClientRect().top"
SAID = "() => document.querySelector('.jp-NotebookPanel').innerText"


def test_a_page_is_run_unasked_stays_at_its_top_and_is_a_page_of_stills_once_it_is_closed(browser, tmp_path):
    copy = tmp_path / "home" / "quiltmath-notebooks"
    with opened(tmp_path / "home", "04") as (command, address):
        page = browser.new_page(viewport={"width": 1280, "height": 800})
        wrong = []
        page.on("console", lambda message: wrong.append(message.text) if message.type == "error" else None)
        page.on("pageerror", lambda error: wrong.append(str(error)))
        page.goto(address)
        page.wait_for_selector(".jp-NotebookPanel .jp-Notebook .jp-Cell", timeout=60_000)
        page.wait_for_function(RUN, timeout=60_000)
        page.wait_for_timeout(5000)  # a pop-up comes some seconds after the notebook
        assert page.locator(".jp-NotebookPanel:visible").count() == 1
        assert page.locator(".lm-TabBar-tab.jp-mod-current").inner_text().strip() == "04-a-block-cut-in-half.ipynb"
        assert page.locator(IN_FRONT).all_inner_texts() == [] and wrong == []
        assert page.locator(".jp-FileBrowser:visible, .jp-CodeCell .jp-InputArea-editor:visible").count() == 0
        assert 0 < page.evaluate(TOP) < 300
        page.locator(".quiltmath-point").first.wait_for()  # a question stands there with what it is answered by
        page.keyboard.press("Control+s")
        saved = copy / "04-a-block-cut-in-half.ipynb"
        page.wait_for_timeout(2000)
        outputs = [output for cell in json.loads(saved.read_text())["cells"] for output in cell.get("outputs", ())]
        assert any("image/png" in output["data"] for output in outputs) and VIEW not in saved.read_text()
        page.close()
        lab.end_kernels(address)
        page = browser.new_page(viewport={"width": 1280, "height": 800})
        page.goto(address)
        page.wait_for_selector(".jp-NotebookPanel .jp-Notebook .jp-Cell", timeout=60_000)
        assert "model not found" not in page.evaluate(SAID)
        page.wait_for_function(RUN, timeout=60_000)
        assert "model not found" not in page.evaluate(SAID)
        page.close()
        command.send_signal(signal.SIGINT)
        assert command.wait(60) == 0
    assert sorted(path.name for path in copy.glob("*.ipynb")) == opening.names()


def test_a_port_in_use_is_no_trouble(tmp_path):
    with opened(tmp_path / "one") as (_, first):
        port = first.split(":")[2].split("/")[0]
        with opened(tmp_path / "two", "--port", port) as (_, second):
            assert second.split(":")[2].split("/")[0] != port


def test_two_classes_begun_at_once_have_a_port_each(tmp_path):
    begun = ("--class", "--port", "8866")
    with ExitStack() as both, ThreadPoolExecutor() as pool:
        pages = pool.map(lambda name: both.enter_context(opened(tmp_path / name, *begun))[1], ("one", "two"))
        assert len({page.split(":")[2].split("/")[0] for page in pages}) == 2


def test_what_a_class_measures_and_sews_fits_its_screen(browser, tmp_path):
    wanted = {"Needle or ruler?", "Read it", "The class sheet", "Who does what", "Off by chance"}
    with opened(tmp_path / "home", "--class", "01") as (_, address):
        page = browser.new_page(viewport={"width": 1280, "height": 800})
        page.goto(address, timeout=120_000)  # it is run before it is shown
        page.wait_for_selector(".quiltmath", state="attached", timeout=90_000)
        where, more = page.locator(".quiltmath-sections p"), page.get_by_role("button", name="More below")
        while wanted:
            heading = where.inner_text().split(": ")[1]
            if heading in wanted:
                wanted.remove(heading)
                page.wait_for_timeout(1500)  # its picture is laid out for the room that it has
                go = page.get_by_role("button", name="Sew the tops")
                if go.is_visible():
                    go.click()
                    page.locator(".quiltmath-sentence", has_text=f"{by_chance.MORE} tops").wait_for(timeout=60_000)
                assert more.is_hidden(), heading
                assert seen.crooked(page, "#rendered_cells") == []
            page.get_by_role("button", name="Next").click(timeout=5000)
        page.close()


def _read_to_its_end(page):
    """A section that is higher than the window says so until its end is in sight."""
    more = page.get_by_role("button", name="More below")
    page.wait_for_timeout(500)
    assert more.is_hidden()
    page.set_viewport_size({"width": 1280, "height": 300})
    more.wait_for()
    presses = 0
    while more.is_visible() and presses < 20:
        more.click()
        page.wait_for_timeout(900)  # it scrolls smoothly
        presses += 1
    assert 0 < presses < 20
    last = page.locator("#rendered_cells [cell-index]:not([hidden])").last.bounding_box()
    assert last["y"] + last["height"] < 300


def test_a_page_for_a_class_shows_one_section_at_a_time_and_asks_for_its_token(browser, tmp_path):
    with opened(tmp_path / "home", "--class", "04") as (command, address):
        page = browser.new_page(viewport={"width": 1280, "height": 800})
        wrong = []
        page.on("console", lambda message: wrong.append(message.text) if message.type == "error" else None)
        page.on("pageerror", lambda error: wrong.append(str(error)))
        page.goto(address.split("?")[0])
        assert page.locator("input[type=password]").count() == 1
        page.goto(address)
        page.wait_for_selector(".quiltmath-point", state="attached", timeout=60_000)
        page.wait_for_timeout(1000)
        assert page.locator(".jp-InputArea-editor:visible").count() == 0
        assert re.match(r"1 of \d+: A block cut in half", page.locator(".quiltmath-sections p").inner_text())
        page.keyboard.press("PageDown")
        page.get_by_text("2 of 9: First, a guess").wait_for()
        told = page.get_by_text("Nobody drew the loss in.")
        assert told.is_hidden()  # there is no picture yet
        for point in page.locator(".quiltmath-point[data-name$='on the cut']").all():
            point.click()
        page.get_by_role("button", name="Check my answer").locator("visible=true").click()
        page.get_by_text("Exactly right.").wait_for()  # and uncovers the first look
        drawn = page.locator(".quiltmath-controls + .quiltmath-place svg:visible").first
        drawn.wait_for()
        seen.every_control_moved(page, pointers=(False, True))
        page.wait_for_function(IN_SIGHT, arg=drawn.element_handle())  # it is brought there, and the page may still move
        shown = drawn.bounding_box()
        assert shown["width"] > 1100 and shown["height"] < 640 and told.is_visible()
        assert seen.crooked(page, "#rendered_cells") == []
        assert seen.hard_for_some(page, ".quiltmath-sections") == seen.hard_for_some(page) == []
        page.get_by_role("button", name="Next").click()
        page.wait_for_function(IN_ONE_WINDOW)  # beside its words
        page.wait_for_timeout(1500)  # until it is laid out for that place
        assert page.evaluate(IN_ONE_WINDOW)
        assert seen.crooked(page, "#rendered_cells") == []
        page.keyboard.press("Home")
        page.get_by_text("1 of 9").wait_for()
        _read_to_its_end(page)
        assert wrong == []
        page.close()
        command.send_signal(signal.SIGINT)
        assert command.wait(60) == 0


def test_a_class_types_its_own_figures_and_the_table_follows(browser, tmp_path):
    with opened(tmp_path / "home", "--class", "07") as (_, address):
        page = browser.new_page(viewport={"width": 1280, "height": 800})
        page.goto(address)
        page.wait_for_selector(".quiltmath", state="attached", timeout=60_000)
        while "Measure, then cut" not in page.locator(".quiltmath-sections p").inner_text():
            page.get_by_role("button", name="Next").click()
        page.wait_for_function(IN_ONE_WINDOW)
        width, borders = page.get_by_label("Top's measured width"), page.get_by_label("Finished borders")
        table = page.locator(".quiltmath-table:visible")
        page.evaluate(LISTEN)
        width.fill("112 cm")
        width.press("Enter")
        table.filter(has_text="44 1/8").wait_for()
        page.locator("select:visible").select_option("mitred")
        table.filter(has_text="mitred").wait_for()
        page.wait_for_timeout(1000)
        (*_, last) = page.evaluate("window.heard")
        shown = page.locator(".quiltmath-sentence:visible").inner_text()
        assert last.replace("\N{NO-BREAK SPACE}", " ") == shown.replace("\N{NO-BREAK SPACE}", " ")
        before = table.inner_text()
        borders.fill("2, 0, abc")
        borders.press("Enter")
        page.locator("[role=alert]:visible").filter(has_text="number 2 is not; got '0': type 1 to 5 lengths").wait_for()
        assert (borders.get_attribute("aria-invalid"), width.input_value()) == ("true", "112 cm")
        assert table.inner_text() == before and borders.input_value() == "2, 0, abc"
        assert page.evaluate("window.heard").count(last) == 1
        assert table.locator("caption").count() == 1 and table.locator("th[scope=col]").count() == 3
        assert seen.crooked(page, "#rendered_cells") == seen.hard_for_some(page) == []
        page.close()
