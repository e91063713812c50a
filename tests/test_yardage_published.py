"""Fabric to buy against printed figures: every row of data/published/yardage.csv names its source and asks the kit.

`rounding` says how the printed figure and the kit's meet: "exact nearest 0.01" rounds the kit's, "printed up 1" the
printed one (a source's 5.79 strips are 6 to cut). A row with a `reason` differs, or is not compared where it asks
nothing.
"""

import csv
import re
from collections import Counter
from fractions import Fraction

import pytest

from quiltmath import lengths, resources, yardage

with open(resources.folder("data") / "published" / "yardage.csv", encoding="utf-8", newline="") as file:
    ROWS = list(csv.DictReader(file))


def size(layer):
    return layer.width, layer.height


def package(name):
    """The size of this name that the first source prints."""
    return next(size(one) for one in yardage.packages() if one.name == name and one.source_address)


NAMES = {
    **{name: getattr(yardage, name) for name in yardage.__all__},
    "Fraction": Fraction,
    "len": len,
    "sum": sum,
    "size": size,
    "package": package,
}


def printed(row):
    sides = [lengths.parse(side) for side in row["printed"].split(" x ")]
    return sides[0] if len(sides) == 1 else tuple(sides)


def verdict(row):
    """ "agrees", "agrees after rounding", "differs" or "not compared"."""
    if not row["ask"]:
        return "not compared"
    ours, theirs = eval(row["ask"], {"__builtins__": {}}, dict(NAMES)), printed(row)
    if ours == theirs:
        return "agrees"
    if row["rounding"]:
        what, way, step = row["rounding"].split()
        if what == "exact":
            ours = lengths.ruler(ours, step, way)
        else:
            theirs = lengths.ruler(theirs, step, way)
    return "agrees after rounding" if ours == theirs else "differs"


@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row['topic']}: {row['input'][:60]}")
def test_every_printed_figure_agrees_or_has_its_reason(row):
    found = verdict(row)
    said = f"{found}: {row['input']}, printed {row['printed']}; {row['source_title']}, {row['source_address']}"
    assert (found in ("differs", "not compared")) == bool(row["reason"]), said
    assert (found == "agrees after rounding") == bool(row["rounding"]), said


def test_every_row_has_its_source():
    assert all(row["source_title"] and row["source_address"].startswith("http") for row in ROWS)


def test_every_question_goes_to_the_kit():
    names = [name for name in NAMES if name not in ("Fraction", "len", "sum")]
    for row in ROWS:
        assert not row["ask"] or any(re.search(rf"\b{name}\b", row["ask"]) for name in names), row["ask"]


def test_the_collection_is_complete():
    """105 rows on yardage were collected; those on bias and joins alone are asked of the proofs, in figures.csv."""
    assert Counter(row["topic"] for row in ROWS) == {"g": 105, "f": 23}
    with open(resources.folder("data") / "published" / "figures.csv", encoding="utf-8", newline="") as file:
        elsewhere = [row["input"] for row in csv.DictReader(file) if row["topic"] == "f"]
    assert {row["input"] for row in ROWS if row["topic"] == "f"} <= set(elsewhere)


def test_the_printed_packages_are_those_of_the_data():
    rows = {row["input"].split()[-1]: printed(row) for row in ROWS if row["input"].startswith("packaged")}
    for name, sides in rows.items():
        assert sides in [size(one) for one in yardage.packages() if one.name == name]
    assert len(rows) == len({one.name for one in yardage.packages()})


def test_a_changed_figure_no_longer_agrees():
    row = next(row for row in ROWS if row["input"] == "50x60 quilt: strips to cut")
    assert verdict(row) == "agrees" and verdict({**row, "printed": "7"}) == "differs"
