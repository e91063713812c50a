"""Every kind of fault at its weakest, planted in every sound demo sheet, and every harmless change: see
`tests.mutation` for all."""

import pytest

from . import sheets
from .faults import faults
from .harmless import harmless
from .mutation import outcome


@pytest.fixture(scope="module", autouse=True)
def planned_once():
    with sheets.cloth_planned_once():
        yield


def each_kind_once(planted):
    """The first of every kind: strengths are planted from the weakest on."""
    return {each.kind: each for each in reversed(list(planted))}.values()


@pytest.mark.parametrize("path", sheets.paths("sound"), ids=lambda path: path.stem)
def test_planted_faults_are_found_and_nothing_else_is(path):
    done = [outcome(path.stem, planted) for planted in each_kind_once(faults(sheets.demo(path)))]
    assert [str(each) for each in done if not each.found or each.unrelated] == []
    assert len(done) >= 10


@pytest.mark.parametrize("path", sheets.paths("sound"), ids=lambda path: path.stem)
def test_harmless_changes_raise_no_alarm(path):
    done = [outcome(path.stem, planted) for planted in each_kind_once(harmless(sheets.demo(path)))]
    assert [str(each) for each in done if each.unrelated] == []
    assert len(done) >= 10
