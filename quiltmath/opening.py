"""The notebooks opened in JupyterLab, on a working copy that is never overwritten."""
import shutil
import sys
from importlib.util import find_spec
from pathlib import Path
from subprocess import run

from .places import folder

WORKING_COPY = "quiltmath-notebooks"


class CannotOpen(ValueError):
    """The notebooks cannot be opened as asked; the message says what to do."""


def open_lab(notebook="", where=None):
    """Start JupyterLab on the working copy, at one notebook if one is named; returns JupyterLab's exit code."""
    name = chosen(notebook)
    if find_spec("jupyterlab") is None:
        raise CannotOpen('JupyterLab is not installed here; install the kit with its lab: pip install "quiltmath[lab]"')
    copy = working_copy(Path(where or WORKING_COPY))
    print(f"Your working copy of the notebooks: {copy.resolve()}")
    return run([sys.executable, "-m", "jupyterlab", str(copy / name) if name else f"--notebook-dir={copy}"],
               check=False).returncode


def chosen(notebook):
    """The file name of the notebook that is meant, by its number, its name or a part of it; "" for none.

    >>> chosen("04")
    '04-down-the-middle.ipynb'
    >>> chosen("99")
    Traceback (most recent call last):
    quiltmath.opening.CannotOpen: no notebook is called '99'; there are 02-where-the-eighths-come-from, ...
    """
    if not notebook:
        return ""
    names = [path.name for path in sorted(folder("notebooks").glob("*.ipynb"))]
    wanted = notebook.removesuffix(".ipynb")
    for name in names:
        if name == wanted + ".ipynb" or name.startswith(wanted + "-"):
            return name
    part = [name for name in names if len(wanted) > 2 and wanted in name]
    if len(part) == 1:
        return part[0]
    raise CannotOpen(f"no notebook is called {notebook[:60]!r}; there are "
                     + ", ".join(name.removesuffix(".ipynb") for name in names))


def working_copy(copy):
    """The folder with the notebooks to work in: made if need be, new notebooks added, none ever overwritten."""
    try:
        copy.mkdir(parents=True, exist_ok=True)
        for source in sorted(folder("notebooks").glob("*.ipynb")):
            if not (copy / source.name).exists():
                shutil.copy(source, copy / source.name)
    except OSError as problem:
        raise CannotOpen(f"the working copy cannot be made in {copy} ({problem.strerror}); name another folder with "
                         "--folder") from None
    return copy
