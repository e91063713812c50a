"""Every notebook as `quiltmath open` shows it and as a page for a class, run by itself: each control moved by key and
pointer, nothing cut off at any size, light and dark, nothing hard for some, no error; and on its second day."""

import json
import tempfile
from pathlib import Path

from quiltmath import opening
from quiltmath.saved import VIEW

from . import lab, seen
from .test_opening import opened

SIZES = {  # of the window, px, and how large the words of a picture are at least shown
    (1280, 800): 15.9,
    (800, 800): 14.0,
    (640, 400): 12.0,  # the first at 200 %
}
RUN = """() => document.querySelector('.quiltmath')
  && /\\| Idle/.test(document.querySelector('#jp-main-statusbar')?.innerText)"""
LAID_OUT_ANEW = 15  # looks at most, until every picture has been laid out for a new size
STILL = ".jp-OutputArea-output img[alt]"


def watched(browser):
    """A page, and what goes wrong on it."""
    page, wrong = browser.new_page(viewport={"width": 1280, "height": 800}), []
    page.on("console", lambda message: wrong.append(message.text) if message.type == "error" else None)
    page.on("pageerror", lambda error: wrong.append(str(error)))
    return page, wrong


def at_every_size(page, root):
    """What does not fit at any of the sizes, and what is hard for some in the light and in the dark."""
    wrong = []
    for (width, height), least in SIZES.items():
        page.set_viewport_size({"width": width, "height": height})
        for _ in range(LAID_OUT_ANEW):
            page.wait_for_timeout(700)
            found = seen.crooked(page, root, least)
            if not found:
                break
        wrong += [f"{width} px: {words}" for words in found]
    page.set_viewport_size({"width": 1280, "height": 800})
    for scheme in ("dark", "light"):
        page.emulate_media(color_scheme=scheme)
        page.wait_for_timeout(700)
        wrong += [f"{scheme}: {words}" for words in seen.hard_for_some(page)]
    return wrong


def in_jupyterlab(browser, name, home):
    """What is wrong with a notebook in JupyterLab, on its first day and its second."""
    with opened(home, name) as (_, address):
        page, wrong = watched(browser)
        page.goto(address)
        page.wait_for_function(RUN, timeout=90_000)
        page.wait_for_selector(".quiltmath", state="attached")
        page.wait_for_timeout(6000)
        wrong += lab.errors_shown(page)
        seen.every_guess_made(page)
        page.wait_for_timeout(2000)
        seen.every_control_moved(page, pointers=(False, True))
        wrong += at_every_size(page, ".jp-NotebookPanel")
        page.keyboard.press("Control+s")
        page.wait_for_timeout(2000)
        page.close()
        lab.end_kernels(address)
        kept = (home / opening.WORKING_COPY / name).read_text("utf-8")
        outputs = [output for cell in json.loads(kept)["cells"] for output in cell.get("outputs", ())]
        if VIEW in kept or not any("image/png" in output.get("data", {}) for output in outputs):
            wrong.append("what is saved needs its kernel")
        page, again = watched(browser)
        page.goto(address)
        page.wait_for_selector(".jp-NotebookPanel .jp-Cell", timeout=60_000)
        stills = page.locator(STILL).count()
        page.wait_for_function(RUN, timeout=90_000)
        page.wait_for_timeout(2000)
        if "model not found" in page.locator(".jp-NotebookPanel").inner_text():
            again.append("model not found")
        page.close()
        return wrong + again, stills


def for_a_class(browser, name, home):
    """What is wrong with a notebook as a page for a class, section by section."""
    with opened(home, "--class", name) as (_, address):
        page, wrong = watched(browser)
        page.goto(address, timeout=120_000)  # it is run before it is shown
        page.wait_for_selector(".quiltmath", state="attached", timeout=90_000)
        page.wait_for_timeout(3000)
        sections = int(page.locator(".quiltmath-sections p").inner_text().split(" of ")[1].split(":")[0])
        for number in range(sections):
            page.wait_for_timeout(500)
            seen.every_guess_made(page)
            page.wait_for_timeout(1000)
            seen.every_control_moved(page, pointers=(False, True))
            wrong += at_every_size(page, "#rendered_cells")
            if number < sections - 1:
                page.get_by_role("button", name="Next").click()
        page.close()
        return wrong, sections


def main(names=()):
    """Look at every page; returns what is wrong, in words."""
    found = []
    with lab.chromium_running() as browser:
        for name in names or opening.names():
            for way in (in_jupyterlab, for_a_class):
                with tempfile.TemporaryDirectory() as scratch:
                    wrong, count = way(browser, name, Path(scratch))
                print(f"{name}, {way.__name__.replace('_', ' ')}: {count}, {len(wrong)} wrong", flush=True)
                found += [f"{name}, {way.__name__}: {words}" for words in wrong]
    return found
