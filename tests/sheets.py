"""Pattern sheets for the tests: the demo ones, small ones with replacements, and what a review finds on them."""

import tomllib
from copy import deepcopy
from functools import cache
from pathlib import Path

import tomli_w

from quiltmath import pattern, resources, review

FOLDER = Path(resources.folder("data")) / "patterns"

BASE = """\
title = "Four-patch at the gate"
seam = "1/4"
finished = ["17", "25 1/2"]
[fabric.navy]
bought = "1 yd"
usable_width = "42"
[fabric.cream]
bought = "1 yd"
usable_width = "42"
[[cut]]
part = "A"
fabric = "navy"
size = "3 1/2"
count = 16
[[cut]]
part = "B"
fabric = "cream"
size = "3 1/2"
count = 16
[[cut]]
part = "side"
fabric = "navy"
size = "9 3/4"
count = 2
cut = "twice"
[[cut]]
part = "corner"
fabric = "navy"
size = "5 1/8"
count = 2
cut = "once"
[block.four]
finished = "6"
rows = ["A B", "B A"]
[setting]
style = "on point"
across = 2
down = 3
block = "four"
[setting.sides]
part = "side"
[setting.corners]
part = "corner"
"""
"""A small sound sheet on point; tests change a line or two of it."""

BORDERED = """\
title = "Checks in a border"
seam = "1/4"
finished = ["36", "42"]
[fabric.navy]
bought = "1 yd"
usable_width = "42"
[fabric.cream]
bought = "1 1/2 yd"
usable_width = "42"
[[cut]]
part = "A"
fabric = "navy"
size = "3 1/2"
count = 40
[[cut]]
part = "B"
fabric = "cream"
size = "3 1/2"
count = 40
[[cut]]
part = "long"
fabric = "cream"
size = ["6 1/2", "30 1/2"]
count = 2
[[cut]]
part = "short"
fabric = "cream"
size = ["6 1/2", "36 1/2"]
count = 2
[block.four]
finished = "6"
rows = ["A B", "B A"]
[setting]
style = "straight"
across = 4
down = 5
block = "four"
[[border]]
sides = "long"
top = "short"
[binding]
fabric = "binding cloth"
strip = "2 1/4"
count = 5
[backing]
size = ["44", "50"]
[batting]
size = ["44", "50"]
"""
"""A small sound straight sheet with a border, binding, backing and batting."""


def changed(sheet, *pairs):
    """The text of a sheet with every pair (old, new) replaced; each old text must be there."""
    for old, new in pairs:
        assert old in sheet, f"{old!r} is not in the sheet"
        sheet = sheet.replace(old, new)
    return sheet


def paths(kind):
    """The demo sheets in data/patterns/ of this kind, "sound" or "faulty"."""
    return sorted((FOLDER / kind).glob("*.toml"))


@cache
def _demo(path):
    return tomllib.loads(path.read_text("utf-8"))


def demo(path):
    """A demo sheet as plain tables that may be changed."""
    return deepcopy(_demo(Path(path)))


def typed(data):
    """Plain tables as a person's TOML text."""
    return tomli_w.dumps(data)


def reviewed(sheet):
    """The review of a sheet given as text or as plain tables."""
    return review.review(pattern.read_text(sheet if isinstance(sheet, str) else typed(sheet)))


@cache
def reviewed_file(path):
    """The review of a sheet that is a file, made once for all tests: they read it and leave it as it is."""
    return review.review(pattern.read(path))


def found(sheet, check=None):
    """The findings on a sheet, those of one check if it is named."""
    return [finding for finding in reviewed(sheet).findings if check in (None, finding.check)]


def checks(sheet):
    """The names of the checks that found something, notes left out, each once, gravest first."""
    return list(dict.fromkeys(finding.check for finding in found(sheet) if finding.level != "note"))
