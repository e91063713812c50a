"""What all tests share: who runs them, the examples of Hypothesis, no network, and a browser that CI may not do
without."""

import os
import socket

import pytest
from hypothesis import settings

from .browser import lab

HERE = ("127.0.0.1", "::1", "localhost")
BROWSER = ("tests/browser/", "tests/test_report_printed.py")  # every test marked `browser` is here
KERNELS = ("tests/test_demos_notebooks.py",)
SHEETS = (  # all that review, correct and print each sheet of the kit, and so can share what is made of it
    "tests/test_correction.py",
    "tests/test_handout_cutting.py",
    "tests/test_handout_pattern.py",
    "tests/test_report.py",
    "tests/test_review_demos.py",
    "tests/test_review_properties.py",
    "tests/test_review_reading.py",
)
TOGETHER = (BROWSER, KERNELS, SHEETS)  # the longest first

# No deadline: a busy machine is no failure. Every run draws the same examples; `python -m tests.sweep examples` draws
# others.
settings.register_profile("quiltmath", deadline=None, max_examples=20, derandomize=True)
settings.register_profile("sweep", deadline=None, max_examples=500, print_blob=True)
settings.load_profile("quiltmath")


@pytest.hookimpl(optionalhook=True)
def pytest_xdist_make_scheduler(config, log):
    """A file's tests run in order on one worker, for they share what they have made; so do files that stand
    together."""
    from xdist.scheduler import LoadFileScheduling

    class FilesTogether(LoadFileScheduling):
        def _split_scope(self, nodeid):
            group = _group(nodeid)
            return super()._split_scope(nodeid) if group == len(TOGETHER) else f"group {group}"

    return FilesTogether(config, log)


def _group(nodeid):
    """Which of the files that stand together a test is of; their number, if of none."""
    return next((number for number, files in enumerate(TOGETHER) if nodeid.startswith(files)), len(TOGETHER))


def pytest_collection_modifyitems(items):
    """The longest first, so that no worker waits for another at the end: the browser's, those that start kernels, and
    those of all sheets."""
    items.sort(key=lambda item: _group(item.nodeid))


def pytest_runtest_setup(item):
    if item.get_closest_marker("browser") and not item.nodeid.startswith(BROWSER):
        pytest.fail("this test drives a browser: name its file in BROWSER of tests/conftest.py", pytrace=False)
    if item.get_closest_marker("browser") and lab.missing():
        (pytest.fail if os.environ.get("CI") == "true" else pytest.skip)(lab.missing())


@pytest.fixture(autouse=True, scope="session")
def offline():
    """Any connection to another machine fails at once."""

    def only_here(connect):
        def checked(self, address):
            if self.family in (socket.AF_INET, socket.AF_INET6) and address[0] not in HERE:
                raise OSError(f"the tests are offline; something asked for {address}")
            return connect(self, address)

        return checked

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(socket.socket, "connect", only_here(socket.socket.connect))
        patch.setattr(socket.socket, "connect_ex", only_here(socket.socket.connect_ex))
        yield
