"""The kernels of the working copy: what lies beside a notebook hides no package of the kit's."""

import os

from jupyter_client.manager import start_new_kernel

from quiltmath.resources import folder

ASKED = """
import numpy, quiltmath, mine
print(numpy.__version__, quiltmath.__version__, mine.answer)
"""


def test_files_beside_a_notebook_hide_nothing_and_can_be_imported(tmp_path):
    (tmp_path / "numpy.py").write_text("raise SystemExit('this is not NumPy')")
    (tmp_path / "quiltmath").mkdir()
    (tmp_path / "quiltmath" / "__init__.py").write_text("raise SystemExit('this is not the kit')")
    (tmp_path / "mine.py").write_text("answer = 42")
    kit = str(folder("data").parent)
    settings = {**os.environ, "JUPYTER_PATH": str(folder("data") / "jupyter"), "PYTHONPATH": kit}
    before = os.environ.get("JUPYTER_PATH")
    os.environ["JUPYTER_PATH"] = settings["JUPYTER_PATH"]
    try:
        manager, client = start_new_kernel(kernel_name="python3", cwd=str(tmp_path), env=settings)
    finally:
        os.environ.pop("JUPYTER_PATH") if before is None else os.environ.update(JUPYTER_PATH=before)
    said = []
    try:
        client.execute_interactive(ASKED, timeout=60, output_hook=lambda message: said.append(message["content"]))
    finally:
        client.stop_channels()
        manager.shutdown_kernel(now=True)
    assert [content["text"].split()[-1] for content in said if "text" in content] == ["42"], said
