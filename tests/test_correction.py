"""A corrected pattern passes the review and shows the picture that was meant; what cannot be known is said, not
guessed."""

from fractions import Fraction
from itertools import product

import pytest

from quiltmath import lengths, making, pattern, review
from quiltmath.making import pieces_needed
from quiltmath.making.cover import cover
from quiltmath.pattern.sheet import EXAMPLE
from quiltmath.resources import folder

from .regions import regions
from .sweep import some_of

FAULTY = sorted((folder("data") / "patterns" / "faulty").glob("*.toml"))
ONLY_THE_DESIGNER_KNOWS = {check.name for check in review.CHECKS if check.only_designer} - {"edges-differ"}
SAME_PICTURE = 0.01  # of the quilt: what rounding to the ruler moves in all


def check_of(path):
    """The check a faulty sheet's file is named after."""
    return max((check.name for check in review.CHECKS if path.stem.startswith(check.name)), key=len)


@pytest.mark.parametrize(
    "path", [path for path in FAULTY if check_of(path) not in ONLY_THE_DESIGNER_KNOWS], ids=lambda path: path.stem
)
def test_a_faulty_sheet_corrected_passes_and_keeps_its_picture(path):
    sheet = pattern.read(path)
    right = review.corrected(sheet)
    assert right.passes and right.changes and not right.missing
    meant, comes_out = cover(making.make(sheet)).laid_down(), making.make(right.sheet).bound.laid_down()
    seen, wanted = regions(comes_out), regions(meant)
    assert seen.keys() == wanted.keys()
    off = sum(seen[fabric].symmetric_difference(wanted[fabric]).area for fabric in seen) / 2
    assert off < SAME_PICTURE


HALVED = list(product(range(2, 8), [Fraction(quarters, 4) for quarters in range(4, 17)], ((2, 3), (3, 3))))


def halved_blocks(patches, patch, across, down):
    """A sheet of chequered blocks, so many patches of this finished size a side, with halved blocks at its edge."""
    rows = [" ".join("AB"[(row + place) % 2] for place in range(patches)) for row in range(patches)]
    blocks = across * down + (across - 1) * (down - 1) + (across + down - 2) + 1
    cuts = "".join(
        f'[[cut]]\npart = "{part}"\nfabric = "{fabric}"\nsize = "{lengths.text(patch + Fraction(1, 2))}"\n'
        f"count = {blocks * sum(row.split().count(part) for row in rows)}\n"
        for part, fabric in (("A", "navy"), ("B", "cream"))
    )
    quoted = ", ".join(f'"{row}"' for row in rows)
    return (
        f'title = "Halves"\nseam = "1/4"\n{cuts}[block.b]\nrows = [{quoted}]\n'
        f'finished = "{lengths.text(patch * patches)}"\n[setting]\nstyle = "on point"\nblock = "b"\n'
        f'across = {across}\ndown = {down}\nsides.how = "cut blocks"\ncorners.how = "cut blocks"\n'
    )


def halved_blocks_are_built_from_what_fits(patches, patch, size):
    """All that the review asks of what the correction writes is the finished size, which this sheet never printed."""
    right = review.corrected(pattern.read_text(halved_blocks(patches, patch, *size)))
    assert right.changes and {found.check for found in right.review.findings if found.level != "note"} == {"not-stated"}


@pytest.mark.parametrize("patches, patch, size", some_of(HALVED, "halved blocks", 12))
def test_halved_blocks_are_built_from_what_fits(patches, patch, size):
    halved_blocks_are_built_from_what_fits(patches, patch, size)


@pytest.mark.parametrize(
    "path", [path for path in FAULTY if check_of(path) in ONLY_THE_DESIGNER_KNOWS], ids=lambda path: path.stem
)
def test_where_only_the_designer_knows_it_says_what_is_missing(path):
    right = review.corrected(pattern.read(path))
    assert not right.passes
    assert any(thing.startswith(check_of(path)) for thing in right.missing)


def test_the_text_is_a_sheet_headed_by_what_changed():
    right = review.corrected(pattern.read(FAULTY[0]))
    text = right.text()
    assert text.startswith("# Corrected") and all(f"# - {change}" in text for change in right.changes)
    assert pattern.read_text(text).model_dump() == right.sheet.model_dump()


def test_a_sound_sheet_is_left_as_it_is():
    sound = pattern.read(folder("data") / "patterns" / "sound" / "library-lap-quilt.toml")
    right = review.corrected(sound)
    assert right.sheet is sound and not right.changes and not right.missing


def test_a_missing_seam_is_asked_and_never_made_up():
    right = review.corrected(pattern.read_text(EXAMPLE))
    assert right.sheet.seam is None and any("seam" in thing for thing in right.missing)


def test_blocks_that_cannot_be_built_from_squares_are_said_to_be_missing():
    sheet = pattern.read(folder("data") / "patterns" / "faulty" / "no-allowance-halved-blocks.toml")
    odd = pattern.changed(sheet, (("block", "sixteen", "rows"), ["A B:90 A B", "B A B A", "A B A B", "B A B A"]))
    right = review.corrected(odd)
    assert not right.passes and any(thing.startswith("no-allowance") for thing in right.missing)


@pytest.mark.parametrize("path", FAULTY, ids=lambda path: path.stem)
def test_corrected_counts_are_the_counts_the_quilt_takes(path):
    right = review.corrected(pattern.read(path)).sheet
    needed = pieces_needed(right)
    assert all(cut.gives >= needed[cut.part] for cut in right.cut)


def test_a_review_and_its_sheet_are_corrected_alike():
    found = review.review(pattern.read(FAULTY[0]))
    assert review.corrected(found) is review.corrected(found)
    assert review.corrected(found).changes == review.corrected(found.sheet).changes


def test_the_last_review_is_the_one_it_tells_of():
    right = review.corrected(pattern.read(folder("data") / "patterns" / "faulty" / "no-allowance-halved-blocks.toml"))
    assert right.review.sheet is right.sheet
    assert right.review.findings == review.review(right.sheet).findings


def test_a_change_knows_what_it_changed():
    found = review.corrected(pattern.read_text(EXAMPLE.replace("count = 16", "count = 12")))
    (change,) = found.changes
    assert (change.checks, change.what, change.old, change.new) == (("piece-count",), "part 'A', count", 12, 16)
    assert str(change) == f"piece-count: {change.words}"


def test_fixes_that_do_not_go_together_end_at_the_sheet_before(monkeypatch):
    found = review.review(pattern.read(FAULTY[0]))

    def refused(*_):
        raise pattern.Unreadable("they do not go together")

    monkeypatch.setattr(found.reading, "changed", refused)
    right = review.corrected(found)
    assert right.sheet is found.sheet and not right.changes and right.missing
