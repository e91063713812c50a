"""Keys of sound sheets removed, doubled and changed beyond reason: none goes by without notice. `python -m
tests.metamorphic` tries them all."""

import pytest

from . import metamorphic, sheets
from .metamorphic import CHANGED, DOUBLED, NOTHING, REFUSED, REMOVED, Change, Outcome
from .sweep import some_of

EACH = 6  # changes to a sheet


@pytest.fixture(scope="module", autouse=True)
def planned_once():
    with sheets.cloth_planned_once():
        yield


@pytest.mark.parametrize("path", sheets.paths("sound")[::3], ids=lambda path: path.stem)
def test_some_changes_to_a_sheet_are_noticed_or_may_go_by(path):
    data = sheets.demo(path)
    some = some_of(range(sum(1 for _ in metamorphic.changes(data))), path.stem, EACH)
    done = list(metamorphic.outcomes(path.stem, data, some))
    assert len(done) == EACH
    assert [str(outcome) for outcome in done if outcome.wrong] == []


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
