"""The outputs saved in the notebooks, for readers without a kernel: `python -m tests.browser.saved [NOTEBOOK
…]`.

Runs each notebook from top to bottom and saves what it shows, without the live widgets, which mean nothing to
a reader whose kernel does not run: an app leaves its picture with alt text and its sentence.
"""

import sys
from pathlib import Path

import nbformat

from quiltmath import saved


def run(path):
    """The notebook of this path, run from top to bottom in a kernel of its own, with the state of its widgets; what is
    lost on the way from the kernel is an error, and is not waited for without end."""
    from nbclient import NotebookClient

    notebook = nbformat.read(path, as_version=4)
    NotebookClient(
        notebook,
        timeout=120,
        iopub_timeout=30,
        raise_on_iopub_timeout=True,
        coalesce_streams=True,  # one print is one output, however busy the machine is
        kernel_name="python3",
        resources={"metadata": {"path": str(path.parent)}},
    ).execute()
    return notebook


def without_widgets(notebook):
    """The same notebook without live widgets, times or counters that change from run to run."""
    notebook.metadata = {
        key: notebook.metadata[key] for key in ("kernelspec", "language_info") if key in notebook.metadata
    }
    notebook.metadata["language_info"] = {"name": "python"}
    for cell in notebook.cells:
        cell.metadata.pop("execution", None)
    saved.without_widgets(notebook)
    return notebook


def main(paths):
    from quiltmath.resources import folder

    for path in map(Path, paths) if paths else sorted(folder("notebooks").glob("*.ipynb")):
        nbformat.write(without_widgets(run(path)), path)
        print(f"saved what {path.name} shows")


if __name__ == "__main__":
    main(sys.argv[1:])
