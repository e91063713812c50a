"""Errors that makers reported of real patterns, each rebuilt in a small sheet of our own: the review catches them
before the cutting. The reports are rows of `data/published/reported-errors.csv`, each with its source; the sheets and
their designs are invented, only the slip is the reported one."""

import csv

import pytest

from quiltmath import lengths, pattern, proofs, review
from quiltmath.resources import folder

HALF_SQUARES = """\
title = "Small sails"
seam = "1/4"
finished = ["16", "24"]
[[cut]]
part = "dark"
fabric = "navy"
size = "4 7/8"
count = 12
cut = "once"
[[cut]]
part = "light"
fabric = "cream"
size = "4 7/8"
count = 12
cut = "once"
[unit.sail]
kind = "half-square"
parts = ["dark", "light"]
finished = "4"
[setting]
style = "straight"
across = 4
down = 6
block = "sail"
"""
PINWHEEL = """\
title = "One turning wheel"
seam = "1/4"
finished = "12"
[[cut]]
part = "dark"
fabric = "navy"
size = "2 7/8"
count = 18
cut = "once"
[[cut]]
part = "light"
fabric = "cream"
size = "2 7/8"
count = 18
cut = "once"
[unit.hst]
kind = "half-square"
parts = ["dark", "light"]
finished = "2"
[block.wheel]
finished = "4"
rows = ["hst hst:270", "hst:90 hst:180"]
[setting]
style = "straight"
across = 3
down = 3
block = "wheel"
"""
SAMPLER = """\
title = "A page of a sampler"
seam = "1/4"
finished = ["6", "6"]
[[cut]]
part = "half-rectangle"
fabric = "navy"
size = ["3 1/2", "6 1/2"]
count = 1
[[cut]]
part = "square"
fabric = "cream"
size = "3 1/2"
count = 2
[block.page]
finished = "6"
rows = ["half-rectangle stack"]
[block.stack]
rows = ["square", "square"]
[setting]
style = "straight"
across = 1
down = 1
block = "page"
"""
VILLAGE = """\
title = "Roofs in a row"
seam = "1/4"
finished = ["18", "3"]
[[cut]]
part = "roof"
fabric = "rust"
size = "7 1/4"
count = 1
cut = "twice"
[[cut]]
part = "sky"
fabric = "blue"
size = "3 7/8"
count = 3
cut = "once"
[unit.house]
kind = "flying geese"
parts = ["roof", "sky"]
finished = ["6", "3"]
[setting]
style = "straight"
across = 3
down = 1
block = "house"
"""
# row of the table: (sound sheet, what is printed right, the slip, the part it is about)
REBUILT = {
    "half-rectangle piece short in a free sampler: had to add": (
        SAMPLER,
        '["3 1/2", "6 1/2"]',
        '["3 1/2", "5"]',
        "half-rectangle",
    ),
    "pattern said cut 4 1/2 squares for HST; that is the trimmed unit": (HALF_SQUARES, '"4 7/8"', '"4 1/2"', "dark"),
    "triangle-squares from uncorrected pattern differ by": (HALF_SQUARES, '"4 7/8"', '"4 3/8"', "dark"),
    "pinwheel 4 1/2 unfinished: HST squares were cut": (PINWHEEL, '"2 7/8"', '"5"', "dark"),
    "sky triangles cut too large by": (VILLAGE, '"3 7/8"', '"4 1/2"', "sky"),
}


def reports():
    with (folder("data") / "published" / "reported-errors.csv").open(newline="", encoding="utf-8") as file:
        return list(csv.DictReader(file))


def reviewed(text):
    return review.review(pattern.read_text(text))


def test_every_report_is_rebuilt_and_names_its_source():
    assert {row["input"] for row in reports()} == set(REBUILT)
    assert all(row["source_title"] and row["source_url"].startswith("http") for row in reports())


@pytest.mark.parametrize(
    "sound", [HALF_SQUARES, PINWHEEL, SAMPLER, VILLAGE], ids=["sails", "wheel", "sampler", "roofs"]
)
def test_the_same_sheet_without_the_slip_is_sound(sound):
    assert reviewed(sound).findings == () and reviewed(sound).verdict == "go"


@pytest.mark.parametrize("report", reports(), ids=lambda row: row["input"][:30])
def test_the_reported_error_is_stopped_at_the_part_it_is_in(report):
    sound, right, slip, part = REBUILT[report["input"]]
    found = reviewed(sound.replace(right, slip))
    assert found.verdict == "stop"
    assert [finding.check for finding in found.findings if finding.level == "stop" and part in finding.parts] == [
        "cut-size"
    ]


def test_the_slips_are_the_reported_figures():
    printed = {row["input"]: row["value_printed"] for row in reports()}
    square = proofs.half_square.cut(finished=4)
    for words, (_, right, slip, _) in REBUILT.items():
        off = {
            "had to add": lengths.parse("6 1/2") - 5,
            "differ by": square - lengths.parse("4 3/8"),
            "too large by": lengths.parse("4 1/2") - proofs.half_square.cut(finished=3),
        }
        told = next((by for end, by in off.items() if words.endswith(end)), None)
        assert lengths.parse(printed[words]) == (told if told is not None else lengths.parse(slip.strip('"')))
