"""Start JupyterLab on scratch folders, open notebooks in headless Chromium, run them and read what went
wrong."""

import json
import os
import shutil
import signal
import socket
import subprocess
import sys
import time
import urllib.parse
import urllib.request
from contextlib import contextmanager
from pathlib import Path

FLAGS = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]
VIEW = {"width": 1300, "height": 2200}  # tall: a picture out of view is never painted
ROOT = Path(__file__).parents[2]
TOKEN = "sesame"
CLASS = f"""import sys
from pathlib import Path
from quiltmath import classroom, opening
opening.with_our_files()
from voila.app import main
main(["--no-browser", *classroom.arguments(Path(sys.argv[1]), int(sys.argv[2]), {TOKEN!r})])"""

PLACES = (
    "JUPYTER_CONFIG_DIR",
    "JUPYTER_DATA_DIR",
    "JUPYTER_RUNTIME_DIR",
    "JUPYTERLAB_SETTINGS_DIR",
    "JUPYTERLAB_WORKSPACES_DIR",
    "IPYTHONDIR",
)

READY = """() => {
  const panel = window.jupyterapp?.shell.currentWidget, context = panel?.sessionContext
  return panel?.content?.widgets?.length && context?.isReady
    && context.session?.kernel?.connectionStatus === 'connected' && context.session.kernel.status === 'idle'
}"""
RUN = """timeout => Promise.race([
  window.jupyterapp.commands.execute('notebook:run-all-cells').then(() => 'ran'),
  new Promise(resolve => setTimeout(() => resolve('late'), timeout))])"""
IDLE = "() => window.jupyterapp.shell.currentWidget.sessionContext.session.kernel.status === 'idle'"
NOT_RUN = """() => window.jupyterapp.shell.currentWidget.content.widgets.filter(cell =>
  cell.model.type === 'code' && cell.model.sharedModel.getSource().trim() && !cell.model.executionCount)
  .map(cell => cell.model.sharedModel.getSource())"""
ERRORS = """() => [...document.querySelectorAll(
  '.jp-OutputArea-output[data-mime-type$="stderr"], .jp-OutputArea-output[data-mime-type$="jupyter.error"],'
  + ' .jp-OutputArea-output [role=alert]:not(:empty)')].map(element => element.innerText)"""


def missing():
    """What this machine lacks to drive a browser, in words; empty when it lacks nothing."""
    try:
        import playwright.sync_api  # noqa: F401, only to see whether it is there
    except ImportError:
        return "no browser tests: the package playwright is not installed"
    return "" if chromium() else "no browser tests: no program called chromium on the path"


def chromium():
    return shutil.which("chromium") or shutil.which("chromium-browser")


@contextmanager
def jupyterlab(notebooks, scratch):
    """A JupyterLab that serves the folder `notebooks`; yields its address and ends it afterwards."""
    port = _free_port()
    places = {name: str(Path(scratch) / name.lower()) for name in PLACES}
    quiet = Path(places["JUPYTERLAB_SETTINGS_DIR"]) / "@jupyterlab/apputils-extension/notification.jupyterlab-settings"
    quiet.parent.mkdir(parents=True)
    quiet.write_text(json.dumps({"fetchNews": "false", "checkForUpdates": False}))
    command = [
        sys.executable,
        "-m",
        "jupyterlab",
        "--no-browser",
        "--ip=127.0.0.1",
        f"--port={port}",
        "--allow-root",
        "--ServerApp.port_retries=0",
        "--IdentityProvider.token=",
        f"--ServerApp.root_dir={notebooks}",
        "--ServerApp.disable_check_xsrf=True",
        "--LabApp.expose_app_in_browser=True",
        "--LabApp.news_url=",
        "--LabApp.check_for_updates_class=jupyterlab.NeverCheckForUpdate",
    ]
    with _served(
        command, {**os.environ, **places, "PYTHONPATH": str(ROOT)}, scratch, f"http://127.0.0.1:{port}/api/status"
    ):
        yield f"http://127.0.0.1:{port}"


@contextmanager
def classroom(notebooks, scratch):
    """Pages for a class of the folder `notebooks`; yields the address of their list, with its token."""
    port, places = _free_port(), {name: str(Path(scratch) / name.lower()) for name in PLACES}
    command = [sys.executable, "-c", CLASS, str(notebooks), str(port)]
    address = f"http://127.0.0.1:{port}/?token={TOKEN}"
    with _served(command, {**os.environ, **places, "PYTHONPATH": str(ROOT)}, scratch, address):
        yield address


@contextmanager
def _served(command, environment, scratch, address):
    """A server that runs this command, from when it answers at the address."""
    with (Path(scratch) / "server.log").open("w") as log:
        server = subprocess.Popen(
            command, env=environment, stdout=log, stderr=subprocess.STDOUT, start_new_session=True
        )
    try:
        _wait_until_up(server, address, scratch)
        yield
    finally:
        os.killpg(server.pid, signal.SIGTERM)
        try:
            server.wait(timeout=20)
        except subprocess.TimeoutExpired:
            os.killpg(server.pid, signal.SIGKILL)
            server.wait()


@contextmanager
def chromium_running():
    """A headless Chromium, to open pages in."""
    from playwright.sync_api import sync_playwright

    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=chromium(), args=FLAGS)
        try:
            yield browser
        finally:
            browser.close()


def open_notebook(page, address, name):
    """Open a notebook alone on the page and wait for its kernel."""
    page.goto(f"{address}/doc/tree/{name}?reset")
    page.wait_for_selector(".jp-NotebookPanel .jp-Notebook", timeout=60_000)
    page.wait_for_function(READY, timeout=60_000)


def run_all(page, timeout=180_000):
    """Run every cell and wait until the last has run, or one has failed; refuses a notebook that takes too
    long."""
    if page.evaluate(RUN, timeout) == "late":
        raise TimeoutError(f"the notebook has not run to its end after {timeout / 1000:.0f} s")
    page.wait_for_function(IDLE, timeout=60_000)


def errors(page):
    """The text of every error output, every line on stderr and every alert an app shows; and cells that never
    ran."""
    return errors_shown(page) + [f"never ran: {source}" for source in page.evaluate(NOT_RUN)]


def errors_shown(page):
    """The text of every error output, every line on stderr and every alert."""
    return page.evaluate(ERRORS)


def end_kernels(address):
    """End the kernels of all notebooks that were opened, so that the next one has the machine to itself; the address
    may be that of a page, with its token."""
    parts = urllib.parse.urlsplit(address)
    root, token = f"{parts.scheme}://{parts.netloc}", urllib.parse.parse_qs(parts.query).get("token", [""])[0]
    allowed = {"Authorization": f"token {token}"} if token else {}
    with urllib.request.urlopen(urllib.request.Request(f"{root}/api/sessions", headers=allowed)) as answer:
        sessions = json.load(answer)
    for session in sessions:
        request = urllib.request.Request(f"{root}/api/sessions/{session['id']}", headers=allowed, method="DELETE")
        urllib.request.urlopen(request).close()


def _free_port():
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return probe.getsockname()[1]


def _wait_until_up(server, address, scratch, seconds=60):
    end = time.monotonic() + seconds
    while time.monotonic() < end:
        if server.poll() is not None:
            break
        try:
            urllib.request.urlopen(address, timeout=2).close()
            return
        except OSError:
            time.sleep(0.2)
    raise RuntimeError("the server did not start:\n" + (Path(scratch) / "server.log").read_text()[-3000:])
