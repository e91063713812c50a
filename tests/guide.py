"""The guide to the pattern sheet, and the sheets that stand in it: the walk through one pattern, and that sheet with
each of the examples put into it."""

import re
import tomllib
from copy import deepcopy
from functools import cache

from .sheets import FOLDER

GUIDE = (FOLDER / "writing-a-sheet.md").read_text("utf-8")
WALK, REFERENCE = "## One pattern, from the top", "## Every table and every key"
FERRY = re.search(r"^```text\n(EVENING FERRY.*?)^```", GUIDE, re.DOTALL | re.MULTILINE)[1]
"""The printed page of the walk."""


def section(heading):
    """The text below a heading, up to the next one of its level."""
    level = heading.split()[0]
    return re.split(rf"^{level} ", GUIDE.split(f"{heading}\n", 1)[1], maxsplit=1, flags=re.MULTILINE)[0]


def snippets(text):
    """The pieces of TOML that stand in a text."""
    return re.findall(r"^```toml\n(.*?)^```$", text, re.DOTALL | re.MULTILINE)


EXAMPLES = snippets(section(REFERENCE))


@cache
def walk():
    """The sheet of the walk through one pattern."""
    return "\n".join(snippets(section(WALK)))


def put_in(sheet, snippet):
    """The sheet with what a snippet says in place of its own: lines of the cutting list are added, whole tables
    replaced."""
    sheet, snippet = deepcopy(sheet), deepcopy(snippet)
    parts = {cut["part"] for cut in snippet.get("cut", [])}
    sheet["cut"] = [cut for cut in sheet["cut"] if cut["part"] not in parts] + snippet.pop("cut", [])
    for key, value in snippet.items():
        partial = key == "setting" and "style" not in value
        sheet[key] = sheet[key] | value if partial or key in ("block", "unit", "strip_set") and key in sheet else value
    return sheet


def sheets():
    """Yield every sheet of the guide as (name, plain tables, the tables that its example says; all of the walk)."""
    whole = tomllib.loads(walk())
    yield "guide", whole, deepcopy(whole)
    for number, example in enumerate(map(tomllib.loads, EXAMPLES)):
        yield f"guide-{number}", put_in(whole, example), example
