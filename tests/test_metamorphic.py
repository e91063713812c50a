"""Keys of sound sheets removed, doubled and changed beyond reason: none goes by without notice. `python -m
tests.metamorphic` tries them all."""

from copy import deepcopy

import pytest

from . import metamorphic, schema
from .metamorphic import CHANGED, DOUBLED, NOTHING, REFUSED, REMOVED, Change, Outcome
from .schema import keys_said
from .sweep import some_of

EACH = 6  # changes to a sheet
EVERY = list(metamorphic.every())


@pytest.mark.parametrize("name, data, own", EVERY[::9], ids=[name for name, _, _ in EVERY[::9]])
def test_some_changes_to_a_sheet_are_noticed_or_may_go_by(name, data, own):
    some = some_of(range(sum(1 for _ in metamorphic.changes(data, own))), name, EACH)
    done = list(metamorphic.outcomes(name, data, own, some))
    assert len(done) == EACH
    assert [str(outcome) for outcome in done if outcome.wrong] == []


def test_every_key_there_is_stands_in_one_of_the_sheets_and_is_changed():
    said = set().union(*(keys_said(data) for _, data, _ in EVERY))
    assert schema.KEYS - {("Item", "name"), ("Item", "turn")} <= said <= schema.KEYS


def test_of_a_sheet_of_the_guide_its_example_is_changed():
    _, data, own = next(one for one in EVERY if one[0] == "guide-1")
    assert {change.path[:2] for change in metamorphic.changes(data, own)} == {
        ("fabric",),
        ("fabric", "navy"),
        ("fabric", "cream"),
    }
    assert [change.place for change in metamorphic.changes(data, data)] == [
        change.place for change in metamorphic.changes(data)
    ]


def test_every_key_is_removed_and_its_value_doubled_and_changed():
    data = {"title": "x", "cut": [{"size": "3 1/2", "count": 4, "cut": "once"}], "fabric": {"navy": {"bought": "1 yd"}}}
    made = [(change.place, change.how) for change in metamorphic.changes(data)]
    assert len(made) == len({str(change.data) for change in metamorphic.changes(data)}) == 20
    assert {("cut[]", DOUBLED), ("cut[].size", REMOVED), ("cut[].cut", CHANGED), ("fabric.NAME.bought", DOUBLED)} <= {
        *made
    }
    sizes = [change.data["cut"][0].get("size") for change in metamorphic.changes(data) if change.place == "cut[].size"]
    assert sizes == [None, "7", "35"]


def test_what_goes_by_without_a_reason_is_wrong():
    def outcome(path, came):
        return Outcome("lap", Change(path, CHANGED, {}), came)

    assert outcome(("cut", 0, "count"), NOTHING).wrong and outcome(("setting", "across"), NOTHING).wrong
    assert not outcome(("cut", 0, "count"), REFUSED).wrong and not outcome(("title",), NOTHING).wrong


HURRIED = {
    "unit": ("finished", "count"),
    "block": ("finished", "count"),
    "strip_set": ("sets", "pieces"),
    "cut": ("triangles", "strips", "strip_width", "finished"),
    "border": ("first", "sides_length", "top_length"),
    "sashing": ("around", "edge"),
}
"""Keys that a hurried hand leaves out, for the other figures tell them."""


def hurried(data):
    """A sheet as plain tables without any of these."""
    data = deepcopy(data)
    tables = [(kind, one) for kind in ("unit", "block", "strip_set") for one in data.get(kind, {}).values()]
    tables += [(kind, one) for kind in ("cut", "border") for one in data.get(kind, ())]
    tables += [("sashing", data.get("setting", {}).get("sashing") or {})]
    for kind, table in tables:
        for key in HURRIED[kind]:
            table.pop(key, None)
    return data


OWN = [(name, data) for name, data, _ in EVERY if not name.startswith("guide")]


@pytest.mark.parametrize("name, data", OWN[::2], ids=[name for name, _ in OWN[::2]])
def test_what_a_hurried_hand_leaves_out_all_at_once_raises_no_alarm(name, data):
    before, after = metamorphic.seen(data), metamorphic.seen(hurried(data))
    if before.verdict == "go" and after is not None:
        assert [one.message for one in after.findings if one.level == "stop"] == []
