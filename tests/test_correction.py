"""A corrected pattern passes the review and shows the picture that was meant; what cannot be known is said, not
guessed."""

import difflib
import re
from dataclasses import replace
from fractions import Fraction
from itertools import product

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from quiltmath import lengths, pattern, review
from quiltmath.making import pieces_needed
from quiltmath.making.cover import cover
from quiltmath.pattern.sheet import EXAMPLE
from quiltmath.resources import folder
from quiltmath.review import correction

from . import sheets
from .corrections import ASKED, MANY_WAYS, ended
from .faults import faults
from .regions import regions
from .sheets import BASE, BORDERED
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
    found = sheets.reviewed_file(path)
    right = review.corrected(found)
    assert right.passes and right.changes and not right.missing
    meant, comes_out = cover(found.made).laid_down(), right.review.made.bound.laid_down()
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
    right = review.corrected(sheets.reviewed_file(path))
    assert not right.passes
    assert any(thing.startswith(check_of(path)) for thing in right.missing)


def test_the_text_is_a_sheet_headed_by_what_changed():
    right = review.corrected(pattern.read(FAULTY[0]))
    text = right.text()
    assert text.startswith("# Corrected") and all(f"\n# - {change}\n" in text for change in right.changes)
    assert pattern.read_text(text).model_dump() == right.sheet.model_dump()


def test_a_sound_sheet_is_left_as_it_is():
    sound = pattern.read(folder("data") / "patterns" / "sound" / "library-lap-quilt.toml")
    right = review.corrected(sound)
    assert right.sheet is sound and not right.changes and not right.missing


def test_a_missing_seam_is_asked_and_never_made_up():
    """Squares of 3 1/2 that finish 3 1/8 were meant for seams of 3/16, which nobody takes."""
    odd = EXAMPLE.replace("count = 16", 'count = 16\nfinished = "3 1/8"')
    right = review.corrected(pattern.read_text(odd))
    assert right.sheet.seam is None and any("seam" in thing for thing in right.missing)
    assert right.changes == ()


def test_blocks_that_cannot_be_built_from_squares_are_said_to_be_missing():
    sheet = pattern.read(folder("data") / "patterns" / "faulty" / "no-allowance-halved-blocks.toml")
    odd = pattern.changed(sheet, (("block", "sixteen", "rows"), ["A B:90 A B", "B A B A", "A B A B", "B A B A"]))
    right = review.corrected(odd)
    assert not right.passes and any(thing.startswith("no-allowance") for thing in right.missing)


@pytest.mark.parametrize("path", FAULTY, ids=lambda path: path.stem)
def test_corrected_counts_are_the_counts_the_quilt_takes(path):
    right = review.corrected(sheets.reviewed_file(path)).sheet
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
    assert str(change) == f"piece-count: {change.words}" and change.path == ("cut", 0, "count")


def test_fixes_that_do_not_go_together_end_at_the_sheet_before(monkeypatch):
    found = review.review(pattern.read(FAULTY[0]))

    def refused(*_):
        raise pattern.Unreadable("they do not go together")

    monkeypatch.setattr(found.reading, "changed", refused)
    right = review.corrected(found)
    assert right.sheet is found.sheet and not right.changes and right.missing


def test_a_large_quilt_is_corrected_in_few_rounds(monkeypatch):
    """In how many it is sewn anew: a quilt of 400 blocks across took ten times the patience of its review."""
    rounds, reviewed = [], correction.reviewed
    monkeypatch.setattr(correction, "reviewed", lambda reading: rounds.append(reading) or reviewed(reading))
    monkeypatch.setattr(correction, "MOST_SEWN", 1)
    found = review.review(pattern.read(folder("data") / "patterns" / "faulty" / "bias-outside-sliced-and-turned.toml"))
    assert found.correction.sheet and len(rounds) == correction.LEAST_ROUNDS


def planted(paths):
    """Every planted fault with one honest mend, (path, fault) each."""
    for path in paths:
        for fault in faults(sheets.demo(path)):
            if fault.kind not in ASKED | MANY_WAYS:
                yield path, fault


def noted(before, after):
    """("-", line) of each line that a corrected text has no more, ("+", line) of each new one; its head left out."""
    lines = difflib.ndiff(before.split("\n"), after.partition("\n\n")[2].split("\n"))
    return [(line[0], line[2:]) for line in lines if line[0] in "+-"]


def ways_to_say(value):
    """A value of a sheet as a change may tell it: as it is, or the length in any unit."""
    try:
        return {value, *(lengths.text(value, unit=unit) for unit in ("in", "yd", "m", "cm"))}
    except ValueError:
        return {value}


def a_correction_passes_and_edits_the_lines_it_names(done):
    """The review lets the corrected file go; each line that is another says what it was, and that is what the changes
    name; no line is gone."""
    assert done.end == "go" and not done.missing, str(done)
    lines = noted(done.before, done.after)
    gone, come = [text for sign, text in lines if sign == "-"], [text for sign, text in lines if sign == "+"]
    was = [re.search(r"# was:? (.*)", text) for text in come]
    assert len([found for found in was if found]) == len(gone)
    named = " | ".join(str(change) for change in done.changes)
    planned = any(change.how == "planned" for change in done.changes)
    for found in filter(None, was):
        value = found[1].partition("  # ")[0].partition(";")[0].strip().strip("\"'")
        value = value.partition(" = ")[2].strip("\"'") or value  # a line that is taken out stands there whole
        assert planned or any(one in named for one in ways_to_say(value)), (value, named)
    assert planned or len(gone) <= 2 * len(done.changes)
    new = [text for text, found in zip(come, was) if found is None and text.strip()]
    lines = "new: " in named or "added" in named or "moved" in {one.how for one in done.changes}
    assert planned or lines or all(text.partition("=")[0].strip() in named for text in new)


PLANTED = list(planted(sheets.paths("sound")[::2]))


@pytest.mark.parametrize("number", some_of(range(len(PLANTED)), "planted and corrected", 24))
def test_a_correction_passes_and_edits_the_lines_it_names(number):
    done = ended(*PLANTED[number])
    a_correction_passes_and_edits_the_lines_it_names(done)
    assert sheets.reviewed(done.after).verdict == "go"


class TestOtherSizes:
    LARGER = """
[[other_size]]
name = "throw"
across = 3
down = 4
finished = ["25 1/2", "34"]
bought = { navy = "2 yd", cream = "1 yd" }
counts = { A = 35, B = 36, side = 3, corner = 2 }  # twelve and six blocks
backing = { fabric = "navy", bought = "1/2 yd", panels = 1 }
"""

    def test_are_corrected_where_they_say_what_is_wrong(self):
        right = review.corrected(pattern.read_text(BASE + self.LARGER))
        assert right.passes and [change.words for change in right.changes] == [
            "size 'throw', 'A', count 35 becomes 36",
            "size 'throw', backing 1 width, 1/2 yd becomes 1 width, 7/8 yd",
        ]
        assert "counts = { A = 36, B = 36, side = 3, corner = 2 }  # was 35; twelve and six blocks" in right.text()


class TestWhatIsAskedOfIt:
    """Fixes of any kind, as checks may come to know them."""

    @staticmethod
    def fixed(text, *fix):
        """The correction of a sheet on which some check would fix this."""
        found = review.review(pattern.read_text(text))
        (finding,) = found.open
        return review.corrected(replace(found, findings=(replace(finding, fix=fix),)))

    def test_rows_in_another_order(self):
        right = review.corrected(pattern.read_text(BASE.replace('"A B", "B A"', '"A B", "B"')))
        assert right.passes and [item.name for item in right.sheet.block["four"].rows[1]] == ["B", "A"]

    def test_a_part_that_the_list_forgets(self):
        few = BASE.replace("count = 16", "count = 12", 1)
        line = {"part": "more A", "fabric": "navy", "size": "3 1/2", "count": 4}
        right = self.fixed(few, (("cut", 4), line), (("cut", 0, "count"), 16))
        assert right.passes and [str(change) for change in right.changes] == [
            "piece-count: part 'A', count 12 becomes 16",
            "piece-count: new: 4 navy squares 3 1/2 in (part 'more A')",
        ]
        assert '\n[[cut]]  # new\npart = "more A"\n' in right.text()


class TestWhatIsBought:
    def test_a_metric_backing_is_told_as_it_is_sold(self):
        size = 'size = ["44", "50"]\n[batting]'
        metric = BORDERED.replace(size, 'fabric = "cream"\nbought = "0.9 m"\npanels = 1\n[batting]')
        right = review.corrected(pattern.read_text(metric))
        assert [change.words for change in right.changes] == ["backing 1 width, 0.9 m becomes 1 width, 1 3/8 yd"]
        assert 'bought = "1 3/8 yd"  # was "0.9 m"\npanels = 1\n' in right.text()

    def test_fabric_is_counted_after_its_pieces_and_told_once(self):
        few = BASE.replace("count = 16", "count = 6").replace('bought = "1 yd"', 'bought = "1/8 yd"')
        words = [change.words for change in review.corrected(pattern.read_text(few)).changes]
        assert len(words) == 4 and sum("bought 1/8 yd becomes" in one for one in words) == 2


class TestTriangles:
    def test_built_ones_that_are_cut_the_wrong_way_are_turned_and_resized(self):
        path = folder("data") / "patterns" / "sound" / "built-triangles.toml"
        (fault,) = (one for one in faults(sheets.demo(path)) if one.kind == "sides cut once")
        done = ended(path, fault)
        assert done.end == "go" and [change.words for change in done.changes] == [
            "part 'T', size 4 in becomes 5 1/2 in",
            "part 'T', count 20 becomes 10",
            "part 'T', cut once becomes twice",
        ]


class TestWhatIsUsual:
    def test_a_way_of_cutting_that_is_not_printed_is_told_all_the_same(self):
        whole = BASE.replace('count = 2\ncut = "twice"', "count = 2")
        right = review.corrected(pattern.read_text(whole))
        assert "part 'side', cut whole becomes twice" in [change.words for change in right.changes]
        assert 'count = 2\ncut = "twice"  # new\n' in right.text()


class TestOrderOfWork:
    TOLD = 'title = "Checks in a border"\ninstructions = [\n    "Cut the borders.",\n    "Sew the rows.", # all\n]'

    def test_a_line_is_moved_and_what_it_waits_for_put_before_it(self):
        right = review.corrected(pattern.read_text(BORDERED.replace('title = "Checks in a border"', self.TOLD)))
        assert right.sheet.instructions == [
            "Sew the rows.",
            "Measure the quilt top through its middle, both ways.",
            "Cut the borders.",
        ]
        assert not right.review.findings
        assert '# was:     "Cut the borders.",\n    "Sew the rows.", # all\n    "Measure' in right.text()

    def test_a_line_with_signs_that_do_not_show_is_moved_and_told(self):
        lines = ["Cut the borders.\x01\u2028", "Sew\tthe rows."]
        right = review.corrected(pattern.changed(pattern.read_text(BORDERED), (("instructions",), lines)))
        told = pattern.read_text(right.text()).instructions
        assert [told[0], told[-1]] == lines[::-1] and "“Cut the borders.??” comes after" in right.text()

    def test_two_orders_are_put_right_one_after_the_other(self):
        lines = ["Cut along the diagonal.", "Cut the borders.", "Sew them on.", "Stay-stitch.", "Measure the top."]
        sheet = pattern.changed(pattern.read_text(BORDERED), (("instructions",), lines))
        right = review.corrected(sheet)
        assert not right.review.findings and sorted(right.sheet.instructions) == sorted(lines)


class TestNothing:
    def test_could_be_changed(self):
        right = review.corrected(pattern.read_text(EXAMPLE))
        assert right.nothing == "Nothing could be changed." and right.text().startswith(
            "# Reviewed before cutting. Nothing could be changed.\n# Still to be asked:\n# - not-stated"
        )

    def test_had_to_be_changed(self):
        right = review.corrected(pattern.read_text(BASE))
        assert right.nothing == "Nothing had to be changed." and right.text().endswith(f"\n\n{BASE}")

    def test_spare_pieces_are_left(self):
        spare = BASE.replace("count = 16", "count = 18", 1)
        assert not review.corrected(pattern.read_text(spare)).changes
        both = spare.replace('size = "5 1/8"', 'size = "4 5/8"')
        (change,) = review.corrected(pattern.read_text(both)).changes
        assert change.words == "part 'corner', size 4 5/8 in becomes 5 1/8 in"

    def test_a_change_that_leaves_as_much_against_it_is_not_kept(self):
        found = review.review(pattern.read_text(BASE.replace("count = 16", "count = 12", 1)))
        (finding,) = found.open
        lame = replace(found, findings=(replace(finding, fix=((("cut", 0, "count"), 13),)),))
        worse = replace(found, findings=(replace(finding, fix=((("cut", 1, "count"), 3),)),))
        assert review.corrected(lame).passes  # what is found on the way is fixed as well
        assert review.corrected(worse).changes != () and review.corrected(worse).passes


class TestWhateverIsPrinted:
    """Figures changed at random: whatever a correction writes can be read, has the review that was told of, and keeps
    every line it does not change."""

    FIGURE = re.compile(r"(?<![\w.])\d+( \d/\d)?(?![\w./])")

    @settings(deadline=None, max_examples=30, suppress_health_check=[HealthCheck.too_slow])
    @given(st.data())
    def test_what_is_written_is_a_sheet_and_the_same_one(self, data):
        text = data.draw(st.sampled_from([BASE, BORDERED, EXAMPLE, BASE + TestOtherSizes.LARGER]))
        figures = list(self.FIGURE.finditer(text))
        for figure in sorted(data.draw(st.sets(st.sampled_from(figures), max_size=4)), key=lambda one: -one.start()):
            other = data.draw(st.sampled_from(["1", "2", "3 1/2", "4", "5", "9 3/4", "12", "40", "300", "9999"]))
            text = text[: figure.start()] + other + text[figure.end() :]
        try:
            found = review.review(pattern.read_text(text))
        except pattern.Unreadable:
            return
        right = review.corrected(found)
        again = review.review(pattern.read_text(right.text()))
        assert again.verdict == right.review.verdict and bool(right.passes) == (again.verdict == "go")
        assert pattern.as_data(again.sheet) == pattern.as_data(right.sheet)
        lines = noted(text, right.text())
        kept = [line for sign, line in lines if sign == "+" and re.search("# was|# new|# moved", line)]
        assert sum(sign == "-" for sign, _ in lines) <= len(kept)
        assert bool(right.changes) == (right.sheet is not found.sheet)


class TestWhatIsRefused:
    def test_a_text_that_does_not_say_what_was_reviewed(self, monkeypatch):
        right = review.corrected(pattern.read_text(BASE.replace("count = 16", "count = 12", 1)))
        monkeypatch.setattr(pattern, "edited", lambda *_: BASE.replace("count = 16", "count = 11", 1))
        with pytest.raises(pattern.Unreadable, match="read again, the corrected sheet is not the one"):
            right.text()

    @pytest.mark.parametrize(
        "fix",
        [
            ((("cut", 0, "strip"), "3 1/2 in"),),  # with a size it is no line of a cutting list
            ((("block", "four", "rows"), ["A A B", "B"]),),  # rows that do not match
            ((("fabric", "navy", "bought"), "400 yd"),),  # more than any bolt holds
        ],
        ids=["size and strip", "rows", "bolt"],
    )
    def test_a_fix_that_makes_no_sheet_is_not_taken(self, fix):
        found = review.review(pattern.read_text(BASE.replace("count = 16", "count = 12", 1)))
        (finding,) = found.open
        right = review.corrected(replace(found, findings=(replace(finding, fix=fix),)))
        assert right.sheet is found.sheet and not right.changes and right.missing
        assert pattern.as_data(pattern.read_text(right.text())) == pattern.as_data(found.sheet)


def test_a_border_that_nothing_cuts_is_not_said_to_be_cut_too_long():
    data = sheets.demo(folder("data") / "patterns" / "faulty" / "border-length-eight-inches-too-long.toml")
    data["finished"], data["border"][0]["top"] = ["36", "600"], "border top"
    found = review.review(pattern.read_text(sheets.typed(data)))
    told = [one.message for one in found.findings if one.path[0] == "cut" and one.path[1] >= len(found.sheet.cut)]
    assert told == [] and any("nothing cuts it" in one.message for one in found.findings)
    pattern.read_text(review.corrected(found).text())
