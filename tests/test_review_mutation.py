"""Every kind of fault at its weakest, planted in some of the sound demo sheets that can have it, and every harmless
change so: see `tests.mutation` for all."""

from collections import defaultdict
from functools import cache

import pytest

from . import sheets
from .faults import faults
from .harmless import harmless
from .mutation import outcome


def each_kind_once(planted):
    """The first of every kind: strengths are planted from the weakest on."""
    return {each.kind: each for each in reversed(list(planted))}.values()


@cache
def chosen(plant):
    """{sheet: the kinds that are planted in it}: each kind in every eighth sheet that can have it, not all kinds in the
    same ones."""
    having = defaultdict(list)
    for path in sheets.paths("sound"):
        for planted in each_kind_once(plant(sheets.demo(path))):
            having[planted.kind].append(path.stem)
    planted_in = {kind: stems[number % min(8, len(stems)) :: 8] for number, (kind, stems) in enumerate(having.items())}
    return {
        path.stem: {kind for kind, stems in planted_in.items() if path.stem in stems} for path in sheets.paths("sound")
    }


def some(plant, path):
    """The first of every kind that is chosen for a sheet."""
    kinds = chosen(plant)[path.stem]
    return [planted for planted in each_kind_once(plant(sheets.demo(path))) if planted.kind in kinds]


@pytest.mark.parametrize("path", sheets.paths("sound"), ids=lambda path: path.stem)
def test_planted_faults_are_found_and_nothing_else_is(path):
    done = [outcome(path.stem, planted) for planted in some(faults, path)]
    assert [str(each) for each in done if not each.found or each.unrelated] == []
    assert done


@pytest.mark.parametrize("path", sheets.paths("sound"), ids=lambda path: path.stem)
def test_harmless_changes_raise_no_alarm(path):
    done = [outcome(path.stem, planted) for planted in some(harmless, path)]
    assert [str(each) for each in done if each.unrelated] == []


@pytest.mark.parametrize("plant", [faults, harmless], ids=["faults", "harmless changes"])
def test_every_kind_is_planted_somewhere(plant):
    kinds = {planted.kind for path in sheets.paths("sound") for planted in plant(sheets.demo(path))}
    assert set().union(*chosen(plant).values()) == kinds and len(kinds) >= 25
