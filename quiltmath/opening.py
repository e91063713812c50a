"""The notebooks opened in JupyterLab, on a working copy that is never overwritten."""

from __future__ import annotations

import os
from importlib.util import find_spec
from pathlib import Path
from typing import TYPE_CHECKING

from .resources import folder, save

if TYPE_CHECKING:
    from collections.abc import Sequence

WORKING_COPY = "quiltmath-notebooks"
QUIET = (
    "--log-level=ERROR",
    "--LabApp.news_url=",
    "--LabApp.check_for_updates_class=jupyterlab.NeverCheckForUpdate",
    "--ServerApp.answer_yes=True",
)  # no chatter, no news, no questions


class CannotOpen(ValueError):
    """The notebooks cannot be opened as asked; the message says what to do."""


def open_lab(notebook: str = "", where: str | Path | None = None, port: int | None = None, browser: bool = True) -> int:
    """Run JupyterLab on the working copy, at one notebook; returns its exit code once it has been ended.

    `notebook` is a number, a name or a part of one (the first notebook unless given), `where` the folder of
    the working copy, `port` the port to try first; without `browser` no browser is started.
    """
    name = chosen(notebook, names()) if notebook else names()[0]
    if find_spec("jupyterlab") is None:
        raise CannotOpen('JupyterLab is not installed here; install the kit with its lab: pip install "quiltmath[lab]"')
    copy = Path(where or WORKING_COPY)
    added = working_copy(copy)
    print(
        f"Your working copy of the notebooks: {copy.resolve()} ({len(added)} added, none overwritten).\n"
        "To begin a notebook afresh, move yours out of that folder and open it again.\n"
        "Should no browser window open, copy the address below that begins with http://127.0.0.1 or\n"
        "http://localhost into one. To end JupyterLab, press Ctrl+C here.",
        flush=True,
    )
    code = _jupyterlab(arguments(copy.resolve() / name, port, browser))
    if code:
        raise CannotOpen(
            f"JupyterLab ended with exit code {code}; what it said stands above. If its port is "
            "in use, end the other JupyterLab or name another port (quiltmath open --port 8900); if "
            'it is broken, install it afresh: pip install --upgrade "jupyterlab>=4.1"'
        )
    return code


def arguments(notebook: Path, port: int | None = None, browser: bool = True) -> list[str]:
    """What JupyterLab is told, to show one notebook (a full path) without pop-ups about news.

    >>> arguments(Path("copy") / "04-halves.ipynb", port=8900)[-3:]
    ['--ServerApp.port=8900', '--ServerApp.root_dir=copy', '--LabApp.default_url=/lab/tree/04-halves.ipynb']
    """
    told = list(QUIET)
    if hasattr(os, "geteuid") and os.geteuid() == 0:
        told.append("--allow-root")  # in a container there is often no other user
    if not browser:
        told.append("--ServerApp.open_browser=False")
    if port is not None:
        told.append(f"--ServerApp.port={port}")
    return [*told, f"--ServerApp.root_dir={notebook.parent}", f"--LabApp.default_url=/lab/tree/{notebook.name}"]


def names() -> list[str]:
    """The notebooks of the kit, as file names in the order of a lesson."""
    found = [path.name for path in sorted(folder("notebooks").glob("*.ipynb"))]
    if not found:
        raise CannotOpen("this copy of quiltmath carries no notebooks; install it again from the wheel or the checkout")
    return found


def chosen(notebook: str, names: Sequence[str]) -> str:
    """The file name of the notebook that is meant, by its number, its name or a part of it.

    >>> chosen("04", ["00-start-here.ipynb", "04-a-block-cut-in-half.ipynb"])
    '04-a-block-cut-in-half.ipynb'
    >>> chosen("99", ["00-start-here.ipynb", "04-a-block-cut-in-half.ipynb"])
    Traceback (most recent call last):
    quiltmath.opening.CannotOpen: no notebook is called '99'; there are 00-start-here, 04-a-block-cut-in-half
    """
    wanted = notebook.removesuffix(".ipynb")
    exactly = [name for name in names if name == f"{wanted}.ipynb" or name.startswith(f"{wanted}-")]
    found = exactly or [name for name in names if len(wanted) > 2 and wanted in name]
    if len(found) != 1:
        trouble = f"{len(found)} notebooks are" if found else "no notebook is"
        raise CannotOpen(
            f"{trouble} called {notebook[:60]!r}; there are "
            + ", ".join(name.removesuffix(".ipynb") for name in found or names)
        )
    return found[0]


def working_copy(copy: Path) -> list[str]:
    """Add to the folder `copy` the notebooks it lacks, and return their names; none is ever overwritten."""
    added = []
    try:
        copy.mkdir(parents=True, exist_ok=True)
        for name in names():
            if not (copy / name).exists():
                save(copy / name, (folder("notebooks") / name).read_bytes())
                added.append(name)
    except OSError as problem:
        raise CannotOpen(
            f"the working copy cannot be made in {copy} ({problem.strerror}); name another folder with --folder"
        ) from None
    return added


def _jupyterlab(told):
    """Run JupyterLab in this process, so that Ctrl+C is its own; returns its exit code."""
    from jupyterlab.labapp import main

    settings = [str(folder("data") / "jupyter"), os.environ.get("JUPYTER_CONFIG_PATH")]  # ours: no news
    os.environ["JUPYTER_CONFIG_PATH"] = os.pathsep.join(filter(None, settings))
    try:
        main(told)
    except SystemExit as ended:
        return ended.code if isinstance(ended.code, int) else int(ended.code is not None)
    return 0
