"""The notebooks opened in JupyterLab, on a working copy that is never overwritten."""

from __future__ import annotations

import json
import os
import sys
import tempfile
import warnings
from hashlib import sha256
from importlib.util import find_spec
from pathlib import Path
from typing import TYPE_CHECKING

from . import __version__
from .resources import PACKAGE, folder, save

if TYPE_CHECKING:
    from collections.abc import Sequence

WORKING_COPY = "quiltmath-notebooks"
REMEMBERED = ".copied-from.json"  # in the working copy
QUIET = (
    "--log-level=ERROR",
    "--LabApp.news_url=",
    "--LabApp.check_for_updates_class=jupyterlab.NeverCheckForUpdate",
    "--ServerApp.answer_yes=True",
)  # no chatter, no news, no questions
STILLS = "--ContentsManager.pre_save_hook=quiltmath.saved.keep_stills"  # a page that is reopened needs no kernel


class CannotOpen(ValueError):
    """The notebooks cannot be opened as asked; the message says what to do."""


def open_lab(notebook: str = "", where: str | Path | None = None, port: int | None = None, browser: bool = True) -> int:
    """Run JupyterLab on the working copy, at one notebook; returns its exit code once it has been ended.

    `notebook` is a number, a name or a part of one (the first notebook unless given), `where` the folder of
    the working copy, `port` the port to try first; without `browser` no browser is started.
    """
    if find_spec("jupyterlab") is None:
        raise CannotOpen(f"JupyterLab is not installed here; install the kit with its lab: {installed_with('lab')}")
    copy, name = prepared(notebook, where)
    print(
        "Should no browser window open, copy the address below that begins with http://127.0.0.1 or\n"
        "http://localhost into one. To end JupyterLab, press Ctrl+C here.",
        flush=True,
    )
    with_our_files()
    code = _jupyterlab(arguments(copy / name, port, browser))
    if code:
        raise CannotOpen(
            f"JupyterLab ended with exit code {code}; what it said stands above. If its port is "
            "in use, end the other JupyterLab or name another port (quiltmath open --port 8900); if "
            'it is broken, install it afresh: pip install --upgrade "jupyterlab>=4.1"'
        )
    return code


def prepared(notebook: str, where: str | Path | None) -> tuple[Path, str]:
    """The folder of the working copy, made and told of, and the file name of the notebook that is meant."""
    name = chosen(notebook, names()) if notebook else names()[0]
    copy, added = working_copy(Path(where)) if where else _somewhere()
    newer = _newer_pages(copy)
    print(
        f"Your working copy of the notebooks: {copy.resolve()} ({len(added)} added, none overwritten).\n"
        + (f"The kit has newer pages than your copy of {', '.join(newer)}; yours stay as they are.\n" if newer else "")
        + "To begin a notebook afresh, move yours out of that folder and open it again.",
        flush=True,
    )
    return copy.resolve(), name


def arguments(notebook: Path, port: int | None = None, browser: bool = True) -> list[str]:
    """What JupyterLab is told, to show one notebook (a full path) without pop-ups about news.

    >>> arguments(Path("copy") / "04-halves.ipynb", port=8900)[-3:]
    ['--ServerApp.port=8900', '--ServerApp.root_dir=copy', '--LabApp.default_url=/doc/tree/04-halves.ipynb']
    """
    told = [*QUIET, STILLS, f"--ServerApp.tornado_settings={{'page_config_data': {{'quiltmathPages': {names()}}}}}"]
    if hasattr(os, "geteuid") and os.geteuid() == 0:
        told.append("--allow-root")  # in a container there is often no other user
    if not browser:
        told.append("--ServerApp.open_browser=False")
    if port is not None:
        told.append(f"--ServerApp.port={port}")
    return [*told, f"--ServerApp.root_dir={notebook.parent}", f"--LabApp.default_url=/doc/tree/{notebook.name}"]


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


def working_copy(copy: Path) -> tuple[Path, list[str]]:
    """Add to the folder `copy` the notebooks it lacks, and return it and their names; none is ever overwritten."""
    added = []
    try:
        copy.mkdir(parents=True, exist_ok=True)
        for name in names():
            if not (copy / name).exists():
                save(copy / name, _page(name))
                added.append(name)
        _remember(copy, added)
    except OSError as problem:
        raise CannotOpen(
            f"the working copy cannot be made in {copy} ({problem.strerror}); name another folder with --folder"
        ) from None
    return copy, added


def _somewhere():
    """The working copy where nobody says where: here, or else at home, or else among the files that pass."""
    places = [Path(), Path.home(), Path(tempfile.gettempdir())]
    for place, after in zip(places, [*places[1:], None]):
        try:
            return working_copy(place / WORKING_COPY)
        except CannotOpen:
            if after is None:
                raise
            print(f"{place.resolve()} cannot be written, so your working copy is kept in {after} instead.")


def _page(name):
    """A notebook as it comes with the kit, bytes."""
    return (folder("notebooks") / name).read_bytes()


def _hash(name):
    return sha256(_page(name)).hexdigest()


def _remembered(copy):
    """{name: the hash of the kit's page it was copied from}, as far as that is known of a working copy."""
    try:
        known = json.loads((copy / REMEMBERED).read_text("utf-8"))
    except (OSError, ValueError):
        return {}
    return known if isinstance(known, dict) else {}


def _remember(copy, added):
    """Keep which pages of the kit the notebooks of a working copy were copied from; those that are still alike too."""
    known = _remembered(copy)
    alike = [name for name in names() if name not in known and (copy / name).read_bytes() == _page(name)]
    new = {name: _hash(name) for name in {*added, *alike}}
    if new:
        save(copy / REMEMBERED, json.dumps(known | new, indent=1).encode(), over=True)


def _newer_pages(copy):
    """The names of the notebooks that were copied from another page than the kit has now."""
    known = _remembered(copy)
    return [name for name in names() if known.get(name, _hash(name)) != _hash(name)]


def installed_with(extra: str) -> str:
    """The command that installs the kit with one of its extras from where this copy of it came."""
    if (PACKAGE.parent / "pyproject.toml").is_file():
        return f'{sys.executable} -m pip install "{PACKAGE.parent}[{extra}]"'
    return f'pip install "quiltmath-{__version__}-py3-none-any.whl[{extra}]", in the folder where its wheel lies'


def with_our_files() -> None:
    """Let Jupyter find the kit's settings, kernel, extension and template, and a home for its own files."""
    _find_a_home()
    ours = str(folder("data") / "jupyter")
    for name, places in (
        ("JUPYTER_CONFIG_PATH", [ours, os.environ.get("JUPYTER_CONFIG_PATH")]),  # no news
        (
            "JUPYTER_PATH",
            [os.environ.get("JUPYTER_PATH"), ours],
        ),  # kernels whose packages no file beside a notebook hides
    ):
        os.environ[name] = os.pathsep.join(filter(None, places))


def _find_a_home():
    """Give Jupyter a folder for its own files, for as long as this program runs, where there is no home to write in."""
    home = Path.home()
    try:
        with tempfile.TemporaryFile(dir=home):
            return
    except OSError:
        os.environ["HOME"] = tempfile.mkdtemp(prefix="quiltmath-home-")
        print(f"{home} cannot be written, so JupyterLab keeps its settings in {os.environ['HOME']} this time.")


def _jupyterlab(told):
    """Run JupyterLab in this process, so that Ctrl+C is its own; returns its exit code."""
    from jupyterlab.labapp import main

    warnings.simplefilter("ignore", DeprecationWarning)  # what Jupyter's parts hold against each other is no news here
    try:
        main(told)
    except SystemExit as ended:
        return ended.code if isinstance(ended.code, int) else int(ended.code is not None)
    return 0
