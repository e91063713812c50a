"""What all tests share: who runs them, the examples of Hypothesis, no network, and a browser that CI may not do
without."""

import os
import socket

import pytest
from hypothesis import settings

from .browser import lab

HERE = ("127.0.0.1", "::1", "localhost")
BROWSER = ("tests/browser/", "tests/test_report_printed.py")  # every test marked `browser` is here

# No deadline: a busy machine is no failure. Every run draws the same examples; `python -m tests.sweep examples` draws
# others.
settings.register_profile("quiltmath", deadline=None, max_examples=20, derandomize=True)
settings.register_profile("sweep", deadline=None, max_examples=500, print_blob=True)
settings.load_profile("quiltmath")


@pytest.hookimpl(optionalhook=True)
def pytest_xdist_make_scheduler(config, log):
    """A file's tests run in order on one worker, for they share what they have made; all that drive a browser are one
    file."""
    from xdist.scheduler import LoadFileScheduling

    class BrowserTestsTogether(LoadFileScheduling):
        def _split_scope(self, nodeid):
            return "browser" if nodeid.startswith(BROWSER) else super()._split_scope(nodeid)

    return BrowserTestsTogether(config, log)


def pytest_collection_modifyitems(items):
    """The longest first, so that no worker waits for another at the end: the browser's, then those that start
    kernels."""
    items.sort(key=lambda item: not item.nodeid.startswith((*BROWSER, "tests/test_demos_notebooks.py")))


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
