"""`quiltmath open` as a new user meets it: the notebook, nothing in front of it, and one Ctrl+C to end it."""

import os
import re
import signal
import subprocess
import sys
import time
from contextlib import contextmanager

import pytest

from quiltmath import opening

from . import lab

pytestmark = pytest.mark.browser
ADDRESS = re.compile(r"http://127\.0\.0\.1:\d+/lab/\S+")
IN_FRONT = ".Toastify__toast, .jp-Dialog"


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


def test_it_shows_the_notebook_with_nothing_in_front_and_ends_on_ctrl_c(browser, tmp_path):
    with opened(tmp_path / "home", "04") as (command, address):
        page = browser.new_page(viewport={"width": 1200, "height": 800})
        page.goto(address)
        page.wait_for_selector(".jp-NotebookPanel .jp-Notebook .jp-Cell", timeout=60_000)
        page.wait_for_timeout(6000)  # a pop-up comes some seconds after the notebook
        assert page.locator(".jp-NotebookPanel:visible").count() == 1
        assert page.locator(".lm-TabBar-tab.jp-mod-current").inner_text().strip() == "04-a-block-cut-in-half.ipynb"
        assert page.locator(IN_FRONT).all_inner_texts() == []
        page.close()
        command.send_signal(signal.SIGINT)
        assert command.wait(60) == 0
    assert sorted(path.name for path in (tmp_path / "home" / "quiltmath-notebooks").glob("*.ipynb")) == opening.names()


def test_a_port_in_use_is_no_trouble(tmp_path):
    with opened(tmp_path / "one") as (_, first):
        port = first.split(":")[2].split("/")[0]
        with opened(tmp_path / "two", "--port", port) as (_, second):
            assert second.split(":")[2].split("/")[0] != port
