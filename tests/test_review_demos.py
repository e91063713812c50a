"""The demo sheets: the sound ones pass without a word, each faulty one shows the check it is named after."""

import pytest

from quiltmath.review.checks import CHECKS

from .sheets import paths, reviewed_file

NAMES = [check.name for check in CHECKS]
FOLLOWS = {
    "no-allowance": {"lost-points", "bias-outside"},
    "bias-outside": {"no-allowance", "lost-points", "finished-size"},
}
"""What a fault brings with it: halves of blocks lose their points and have bias outside; so has a top that is sliced
and turned."""
LEVELS = {
    "print-turned": "ask",
    "not-stated": "ask",
    "order-of-work": "note",
    "border-length-eight-inches-too-long": "ask",
}
"""The level of what is no stop, by the check or by one sheet."""


def named_after(path):
    """The check a faulty sheet's file name begins with."""
    return next(name for name in NAMES if path.stem.startswith(name))


@pytest.mark.parametrize("path", paths("sound"), ids=lambda path: path.stem)
def test_a_sound_sheet_passes_without_a_word(path):
    found = reviewed_file(path)
    assert (found.verdict, found.findings) == ("go", ())
    assert found.made.bound is not None and found.made.troubles == []


@pytest.mark.parametrize("path", paths("faulty"), ids=lambda path: path.stem)
def test_a_faulty_sheet_shows_its_fault_and_nothing_that_has_no_part_in_it(path):
    name = named_after(path)
    level = LEVELS.get(path.stem, LEVELS.get(name, "stop"))
    found = reviewed_file(path)
    levels = {finding.level for finding in found.findings if finding.check == name}
    assert level in levels
    assert {finding.check for finding in found.findings} <= {name} | FOLLOWS.get(name, set())
    assert found.verdict == {"stop": "stop", "ask": "ask", "note": "go"}[level]
    for finding in found.findings:
        assert finding.where.startswith(str(path)) and ", line " in finding.where
        assert finding.message.endswith(".") and finding.why


def test_every_check_has_a_faulty_sheet_named_after_it():
    assert {named_after(path) for path in paths("faulty")} == set(NAMES)
