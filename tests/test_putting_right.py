"""A pattern put right passes the review and shows the picture that was meant; what cannot be known is said, not guessed."""

import pytest
from shapely.affinity import scale
from shapely.geometry import Polygon
from shapely.ops import unary_union

from quiltmath import making, pattern, review
from quiltmath.making.intended import intended
from quiltmath.making import pieces_needed
from quiltmath.pattern.sheet import EXAMPLE
from quiltmath.resources import folder

FAULTY = sorted((folder("data") / "patterns" / "faulty").glob("*.toml"))
ONLY_THE_DESIGNER_KNOWS = {"edges-differ", "not-stated", "print-turned"}
SAME_PICTURE = 0.01  # of the quilt: what rounding to the ruler moves in all


def check_of(path):
    """The check a faulty sheet's file is named after."""
    return max((check.name for check in review.CHECKS if path.stem.startswith(check.name)), key=len)


def cloths(panel):
    """What is seen of each fabric, as Shapely regions of a picture one unit square."""
    regions = {}
    for patch in panel.patches:
        regions.setdefault(patch.fabric, []).append(Polygon(patch.polygon))
    width, height = panel.size
    return {
        fabric: scale(unary_union(found), 1 / width, 1 / height, origin=(0, 0)) for fabric, found in regions.items()
    }


@pytest.mark.parametrize(
    "path", [path for path in FAULTY if check_of(path) not in ONLY_THE_DESIGNER_KNOWS], ids=lambda path: path.stem
)
def test_a_faulty_sheet_put_right_passes_and_keeps_its_picture(path):
    sheet = pattern.read(path)
    mended = review.put_right(sheet)
    assert mended.passes and mended.changes and not mended.missing
    meant, comes_out = intended(making.make(sheet)).laid_down(), making.make(mended.sheet).bound.laid_down()
    seen, wanted = cloths(comes_out), cloths(meant)
    assert seen.keys() == wanted.keys()
    off = sum(seen[fabric].symmetric_difference(wanted[fabric]).area for fabric in seen) / 2
    assert off < SAME_PICTURE


@pytest.mark.parametrize(
    "path", [path for path in FAULTY if check_of(path) in ONLY_THE_DESIGNER_KNOWS], ids=lambda path: path.stem
)
def test_where_only_the_designer_knows_it_says_what_is_missing(path):
    mended = review.put_right(pattern.read(path))
    assert not mended.passes
    assert any(thing.startswith(check_of(path)) for thing in mended.missing)


def test_the_text_is_a_sheet_headed_by_what_changed(tmp_path):
    mended = review.put_right(pattern.read(FAULTY[0]))
    text = mended.text()
    assert text.startswith("# Put right") and all(f"# - {change}" in text for change in mended.changes)
    assert pattern.read_text(text).model_dump() == mended.sheet.model_dump()


def test_a_sound_sheet_is_left_as_it_is():
    sound = pattern.read(folder("data") / "patterns" / "sound" / "library-lap-quilt.toml")
    mended = review.put_right(sound)
    assert mended.sheet is sound and not mended.changes and not mended.missing


def test_a_missing_seam_is_asked_and_never_made_up():
    mended = review.put_right(pattern.read_text(EXAMPLE))
    assert mended.sheet.seam is None and any("seam" in thing for thing in mended.missing)


def test_blocks_that_cannot_be_built_from_squares_are_said_to_be_missing():
    sheet = pattern.read(folder("data") / "patterns" / "faulty" / "no-allowance-halved-blocks.toml")
    odd = pattern.changed(sheet, (("block", "sixteen", "rows"), ["A B:90 A B", "B A B A", "A B A B", "B A B A"]))
    mended = review.put_right(odd)
    assert not mended.passes and any(thing.startswith("no-allowance") for thing in mended.missing)


@pytest.mark.parametrize("path", FAULTY, ids=lambda path: path.stem)
def test_mended_counts_are_the_counts_the_quilt_takes(path):
    mended = review.put_right(pattern.read(path)).sheet
    needed = pieces_needed(mended)
    assert all(cut.gives >= needed[cut.part] for cut in mended.cut)
