"""The HTML report in a real browser, on paper and on screen: nothing cut off, nothing run, nothing
fetched."""

import re

import pytest

from quiltmath import pattern, review
from quiltmath.resources import folder
from quiltmath.review import report

from .browser import lab

pytestmark = pytest.mark.browser
PATTERNS = folder("data") / "patterns"
SHEETS = [
    "faulty/no-allowance-halved-blocks",
    "faulty/bias-outside-sliced-and-turned",
    "sound/library-lap-quilt",
]
PAPERS = {"Letter": 8.5, "A4": 210 / 25.4}  # inches wide; ISO 216 for A4, ANSI/ASME Y14.1 for Letter
MARGIN = 13 / 25.4  # inches, as the page's own style sets it
OUT = """() => [...document.querySelectorAll('body *')]
  .filter(element => !element.closest('svg') || element.matches('svg'))
  .filter(element => element.getBoundingClientRect().right > document.documentElement.clientWidth + 1)
  .map(element => element.outerHTML.slice(0, 80))"""
OUT_OF_PICTURE = """() => [...document.querySelectorAll('svg text')].filter(text => {
  const [inner, outer] = [text.getBoundingClientRect(), text.closest('svg').getBoundingClientRect()]
  return inner.left < outer.left - 1 || inner.right > outer.right + 1 || inner.bottom > outer.bottom + 1 })
  .map(text => text.textContent)"""


@pytest.fixture(scope="module")
def browser():
    from playwright.sync_api import sync_playwright

    with sync_playwright() as program:
        opened = program.chromium.launch(executable_path=lab.chromium(), args=lab.FLAGS)
        yield opened
        opened.close()


@pytest.fixture(scope="module", params=SHEETS)
def saved(request, tmp_path_factory):
    sheet = pattern.read(PATTERNS / f"{request.param}.toml")
    return report.save(review.review(sheet), tmp_path_factory.mktemp("reports") / "report.html")


@pytest.fixture
def page(browser, saved):
    """The report opened; what it asks for beyond itself, and what it complains of, are noted on it."""
    opened = browser.new_page()
    opened.asked, opened.complained = [], []
    opened.on("request", lambda request: opened.asked.append(request.url))
    opened.on("console", lambda message: opened.complained.append(message.text))
    opened.goto(saved.as_uri())
    yield opened
    opened.close()


@pytest.mark.parametrize("paper", PAPERS)
def test_nothing_is_cut_off_on_paper(page, paper, tmp_path):
    page.emulate_media(media="print")
    page.set_viewport_size({"width": int((PAPERS[paper] - 2 * MARGIN) * 96), "height": 900})
    assert page.evaluate(OUT) == []
    assert page.evaluate(OUT_OF_PICTURE) == []
    page.pdf(path=tmp_path / "report.pdf", format=paper)
    assert len(re.findall(rb"/Type\s*/Page\b", (tmp_path / "report.pdf").read_bytes())) <= 3


@pytest.mark.parametrize("wide", [360, 800, 1600])
def test_nothing_is_cut_off_on_a_screen(page, wide):
    page.set_viewport_size({"width": wide, "height": 900})
    assert page.evaluate(OUT) == []


def test_the_verdict_is_the_largest_thing_and_seen_first(page):
    size = page.evaluate("() => parseFloat(getComputedStyle(document.querySelector('h1 strong')).fontSize)")
    sizes = page.evaluate(
        "() => [...document.querySelectorAll('body *:not(h1, h1 *)')]"
        ".map(element => parseFloat(getComputedStyle(element).fontSize))"
    )
    assert size >= 48 and size > 2 * max(sizes)
    assert page.evaluate("() => document.querySelector('h1').getBoundingClientRect().top") < 60


def test_it_asks_for_nothing_and_complains_of_nothing(page, saved):
    assert page.asked == [saved.as_uri()] and page.complained == []
