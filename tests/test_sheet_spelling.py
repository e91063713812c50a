"""What people write for a setting or a unit is read, whatever its hyphens and capitals."""

import pytest

from quiltmath import pattern, review

from . import sheets

UNIT = """\
title = "Pinwheels"
seam = "1/4"
finished = 6
[[cut]]
part = "A"
fabric = "navy"
size = "3 7/8"
count = 2
cut = "once"
[[cut]]
part = "B"
fabric = "cream"
size = "3 7/8"
count = 2
cut = "once"
[unit.pair]
kind = "half-square"
parts = ["A", "B"]
finished = 3
[block.wheel]
rows = ["pair pair:270", "pair:90 pair:180"]
[setting]
style = "straight"
across = 1
down = 1
block = "wheel"
"""


@pytest.mark.parametrize(
    "written, kind",
    [
        ("HST", "half-square"),
        ("hst", "half-square"),
        ("half-square triangle", "half-square"),
        ("Half Square Triangle", "half-square"),
        ("half square", "half-square"),
        ("QST", "quarter-square"),
        ("quarter-square triangle", "quarter-square"),
        ("Flying-Geese", "flying geese"),
    ],
)
def test_a_unit_by_the_name_that_people_use(written, kind):
    assert pattern.read_text(UNIT.replace("half-square", written)).unit["pair"].kind == kind


def test_a_sheet_says_the_same_under_either_name():
    found, other = (
        review.review(pattern.read_text(UNIT.replace("half-square", kind))) for kind in ("half-square", "HST")
    )
    assert found.as_dict() == other.as_dict() and found.verdict == "go"


@pytest.mark.parametrize("written", ["on point", "on-point", "On Point", "on_point"])
def test_a_setting_on_point_with_or_without_its_hyphen(written):
    assert sheets.BASE.count('style = "on point"') == 1
    assert pattern.read_text(sheets.BASE.replace("on point", written)).setting.style == "on point"


def test_what_means_nothing_is_still_refused():
    with pytest.raises(pattern.Unreadable, match="write 'straight' or 'on point'; got 'sideways'"):
        pattern.read_text(sheets.BASE.replace("on point", "sideways"))


def test_the_published_schema_takes_them_too():
    kinds = pattern.json_schema()["$defs"]["UnitTable"]["properties"]["kind"]["enum"]
    assert {"half-square", "HST", "QST", "half-square triangle"} <= set(kinds)
    assert "on-point" in pattern.json_schema()["$defs"]["Setting"]["properties"]["style"]["enum"]
