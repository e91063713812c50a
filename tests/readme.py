"""What the README shows of the kit, written by the kit: `python -m tests.readme` writes it afresh."""

import json
import re
from contextlib import chdir, redirect_stdout
from io import StringIO
from pathlib import Path

from quiltmath import frontispiece
from quiltmath.__main__ import main
from quiltmath.resources import folder

ROOT = Path(__file__).parents[1]
README = ROOT / "README.md"
PICTURE = re.compile(r"!\[.*?\]\((.*?)\)", re.DOTALL)
NOTEBOOKS = re.compile(r"(<!-- notebooks -->\n)(?:  - .*\n)*")
CONSOLE = re.compile(r"```console\n\$ quiltmath (.*)\n(?:.*\n)*?```")


def refreshed(text):
    """The README with its generated parts as they are now."""
    text = PICTURE.sub(lambda found: f"![{frontispiece.picture().alt}]({found[1]})", text)
    text = NOTEBOOKS.sub(lambda found: found[1] + "".join(notebook_lines()), text)
    return CONSOLE.sub(lambda found: f"```console\n$ quiltmath {found[1]}\n{printed(found[1])}```", text)


def notebook_lines():
    """A line of the list for each notebook: its name, and its title as its first cell gives it."""
    for path in sorted(folder("notebooks").glob("*.ipynb")):
        first = "".join(json.loads(path.read_text("utf-8"))["cells"][0]["source"])
        yield f"  - `{path.stem}`: {first.splitlines()[0].lstrip('# ')}\n"


def printed(command):
    """What a command prints when it is run in the top folder."""
    out = StringIO()
    with chdir(ROOT), redirect_stdout(out):
        main(command.split())
    return out.getvalue()


if __name__ == "__main__":
    frontispiece.main()
    README.write_text(refreshed(README.read_text("utf-8")), "utf-8")
