"""One JupyterLab and one browser for all browser tests; skipped in one line where there is no browser."""

import os
import shutil

import pytest

from quiltmath.resources import folder

from . import lab


@pytest.fixture(scope="package")
def jupyter(tmp_path_factory):
    """The address of a JupyterLab on a copy of the notebooks."""
    lacking = lab.missing()
    if lacking:
        (pytest.fail if os.environ.get("CI") == "true" else pytest.skip)(lacking)
    scratch = tmp_path_factory.mktemp("lab")
    shutil.copytree(folder("notebooks"), scratch / "notebooks")
    with lab.jupyterlab(scratch / "notebooks", scratch) as address:
        yield address


@pytest.fixture(scope="package")
def browser():
    """A headless Chromium."""
    with lab.chromium_running() as running:
        yield running


@pytest.fixture
def page(jupyter, browser):
    """A fresh page; kernels it started are ended afterwards."""
    page = browser.new_page(viewport=lab.VIEW)
    yield page
    page.close()
    lab.end_kernels(jupyter)
