"""A sheet is read once: its cloth, the plans of its fabrics and its other sizes serve the review, the report and the
correction."""

import dataclasses
import subprocess
import sys
from fractions import Fraction
from io import StringIO

import pytest

from quiltmath import lengths, pattern, review, yardage
from quiltmath.pattern.sheet import EXAMPLE
from quiltmath.review import cloth, many
from quiltmath.review.checks import CHECKS, Check
from quiltmath.review.finding import ByNotebook, ByProof
from quiltmath.review.report.contents import contents
from quiltmath.review.report.number import DIFFERS
from quiltmath.review.report.numbers import numbers
from quiltmath.review.report.pictures import KINDS
from quiltmath.review.writing import text

from .counted import counted
from .sheets import BASE, BORDERED, FOLDER, changed, paths

HALVED = FOLDER / "faulty" / "no-allowance-halved-blocks.toml"
SOUND = FOLDER / "sound" / "library-lap-quilt.toml"
SHORT = FOLDER / "faulty" / "fabric-short-counted-by-the-eye.toml"
SIZES = FOLDER / "sound" / "two-sizes.toml"
LARGER = """
[[other_size]]
name = "throw"
across = 3
down = 4
finished = ["25 1/2", "34"]
bought = { navy = "1/2 yd" }
counts = { A = 35, B = 36, side = 3, corner = 2 }
"""


class TestOnce:
    @pytest.mark.parametrize(
        "path, order",
        [
            *((path, "report first") for path in (SOUND, SIZES, *paths("faulty"))),
            *((path, "correction first") for path in (SOUND, SIZES, HALVED)),
        ],
        ids=lambda value: getattr(value, "stem", value),
    )
    def test_no_sheet_is_sewn_twice_and_no_fabric_planned_twice(self, path, order):
        sheet = pattern.read(path)
        with counted() as seen:
            found = review.review(sheet)
            steps = [lambda: contents(found), lambda: numbers(found), lambda: text(found)]
            steps.insert(0 if order == "correction first" else 3, lambda: review.corrected(found))
            for step in steps:
                step()
        assert seen.sewn[pattern.text(sheet)] == 1
        assert set(seen.sewn.values()) == {1}
        assert set(seen.asked.values()) <= {1} and set(seen.planned.values()) <= {1}

    def test_a_sheet_that_needs_no_correction_is_sewn_alone(self):
        sheet = pattern.read(SOUND)
        with counted() as seen:
            found = review.review(sheet)
            fabrics = sum(fabric.bought is not None for fabric in sheet.fabric.values())
            assert len(seen.asked) == fabrics and not seen.planned
            contents(found), review.corrected(found)
        assert list(seen.sewn) == [pattern.text(sheet)]
        assert len(seen.asked) == fabrics and set(seen.asked.values()) == {1}
        assert set(seen.planned) <= set(seen.asked)

    def test_of_a_short_fabric_one_question_is_asked_and_the_length_to_buy_looked_for_once(self):
        """Asking tells that the length never will do, or that it is tight; the figure to buy takes the whole plan,
        which then serves the report, and the corrected sheet, where the same pieces lie on more of the same fabric."""
        sheet = pattern.read(SHORT)
        with counted() as seen:
            found = review.review(sheet)
            short = [finding.path[1] for finding in found.findings if finding.check == "fabric-short"]
            assert short and set(seen.asked.values()) == {1}
            assert len(seen.asked) == sum(fabric.bought is not None for fabric in sheet.fabric.values())
            own = [(plan.pieces, sheet.usable_width(name)) for name in short for plan in [found.reading.plan(name)]]
            assert set(seen.planned) <= set(own) and set(seen.planned.values()) <= {1}
            assert review.corrected(found).passes
        assert set(seen.planned) <= set(own) and set(seen.asked.values()) == set(seen.planned.values()) == {1}

    def test_an_earlier_plan_answers_for_another_length(self):
        sheet = pattern.read(SHORT)
        reading = review.review(sheet).reading
        (name,) = (name for name in sheet.fabric if reading.plan(name).length > (sheet.fabric[name].bought or 1e9))
        with counted() as seen:
            plan = reading.plan(name)
            assert reading.plan(name, plan.length) is reading.plan(name, plan.length * 2) is plan
            assert reading.plan(name, plan.at_least / 2).at_least > plan.at_least / 2
        assert not seen.asked and not seen.planned

    def test_the_halved_blocks_are_sewn_as_printed_and_once_for_each_step_of_their_correction(self):
        with counted() as seen:
            found = review.review(pattern.read(HALVED))
            contents(found)
        assert len(seen.sewn) == 3  # as printed, with built edges, with their counts

    def test_other_sizes_that_are_faulty_are_sewn_once_with_their_corrections(self):
        with counted() as seen:
            found = review.review(pattern.read_text(changed(BASE, ("count = 16", "count = 12")) + LARGER))
            contents(found), review.corrected(found)
        assert {finding.size for finding in found.findings} == {"", "throw"}
        assert set(seen.sewn.values()) == {1} and set(seen.asked.values()) == {1} and set(seen.planned.values()) <= {1}

    def test_a_plan_is_the_one_that_yardage_gives(self):
        sheet = pattern.read(SOUND)
        reading = review.review(sheet).reading
        for name in sheet.fabric:
            plan = reading.plan(name)
            if plan.pieces:
                own = yardage.length_needed(list(plan.pieces), usable_width=sheet.usable_width(name))
                assert (plan.length, plan.at_least) == (own.length, own.at_least)


class TestFindingsAreData:
    def test_what_is_found_in_another_size_knows_its_name_and_its_own_place(self):
        found = review.review(pattern.read_text(BASE + LARGER))
        told = {(finding.check, finding.size, finding.path) for finding in found.findings}
        assert told == {
            ("piece-count", "throw", ("cut", 0, "count")),
            ("fabric-short", "throw", ("fabric", "navy", "bought")),
        }
        assert all(question.startswith("In size throw: ") for question in found.questions)
        assert any("“navy”" in question for question in found.questions)

    def test_a_size_by_any_name_is_not_read_from_the_message(self):
        """A finding whose words begin like another size's is still one on the first size."""
        finding = Check().finding(review.review(pattern.read(SOUND)).made, ["title"], "In size nothing: so it is.")
        assert finding.size == "" and finding.question == "The pattern says ; we work out . Which is meant?"

    def test_a_reason_knows_how_it_is_shown(self):
        assert ByProof("10-of-something").command == "quiltmath why 10-of-something"
        assert ByNotebook("a-notebook").command == "quiltmath open a-notebook"

    @pytest.mark.parametrize("path", paths("faulty"), ids=lambda path: path.stem)
    def test_findings_are_found_by_checks_at_places_of_the_sheet(self, path):
        found = review.review(pattern.read(path))
        for finding in found.findings:
            assert finding.found_by in CHECKS and finding.check == finding.found_by.name
            assert isinstance(finding.why, (ByProof, ByNotebook))
            assert finding.where == found.sheet.place(list(finding.path))
        plain = found.as_dict()["findings"]
        keys = ["check", "level", "where", "printed", "needed", "message", "why"]
        assert all(list(one) == keys and {type(value) for value in one.values()} == {str} for one in plain)


class TestChecks:
    def test_each_comes_after_those_that_explain_its_findings(self):
        names = [check.name for check in CHECKS]
        assert len(set(names)) == len(names)
        for place, check in enumerate(CHECKS):
            assert set(check.after) <= set(names[:place])

    def test_each_says_what_was_found_what_to_do_and_why(self):
        for check in CHECKS:
            assert check.title and check.repair and check.question.endswith("?") or "." in check.question
            assert isinstance(check.why, (ByProof, ByNotebook)) and check.picture in {"", *KINDS}

    def test_a_check_of_ones_own_is_asked_drawn_and_told_by_itself(self, monkeypatch):
        class TooBlue(Check):
            name, title, repair, picture = "too-blue", "The quilt is too blue", "choose another colour", "misfit"
            question = "Is {printed} meant?"

            def findings(self, reading, earlier):
                yield self.finding(reading.made, ["title"], "It is too blue.", "blue", "red", spots=((0.0, 0.0),))

        monkeypatch.setattr("quiltmath.review.reading.CHECKS", (TooBlue(),))
        found = review.review(pattern.read(SOUND))
        verdict, *_ = parts = contents(found)
        assert (verdict.matters, verdict.cures) == (("The quilt is too blue.",), ("Choose another colour.",))
        assert found.questions == ("Is blue meant?",)
        (told,) = (part for part in parts if hasattr(part, "picture") and hasattr(part, "heading"))
        assert told.heading == "1. Stop: The quilt is too blue" and told.picture is not None

    def test_one_that_finds_nothing_by_itself_says_what_to_write(self):
        with pytest.raises(TypeError, match=r"write its method findings\(reading, earlier\)"):
            Check().look(review.review(pattern.read(SOUND)).reading, ())


class TestImports:
    NEVER = ("matplotlib", "quiltmath.review.report", "quiltmath.draw", "sympy", "scipy")
    """What a review printed as text does without; SciPy is for fabrics that are short, or may be."""
    SHEETS = (
        SOUND,
        FOLDER / "sound" / "four-patch-mitred.toml",
        FOLDER / "sound" / "sashed-on-point.toml",
        HALVED,
        FOLDER / "faulty" / "binding-short-two-sides-only.toml",
        FOLDER / "faulty" / "wrong-triangles-cut-once.toml",
    )

    @pytest.mark.parametrize("more", [[], ["--json"]], ids=["text", "json"])
    def test_a_review_printed_as_text_loads_nothing_that_draws(self, more):
        code = (
            f"import sys\nfrom quiltmath.__main__ import main\nfor path in {[*map(str, self.SHEETS)]!r}:\n"
            f"    main(['review', path, *{more!r}])\n"
            f"    assert not [name for name in {self.NEVER!r} if name in sys.modules], path"
        )
        subprocess.run([sys.executable, "-c", code], check=True, stdout=subprocess.DEVNULL)


def test_a_review_is_its_reading_and_its_findings():
    assert [field.name for field in dataclasses.fields(review.Review)] == ["reading", "findings"]


class TestFromTheCommandLine:
    def test_report_and_corrected_sheet_take_the_review_that_is_printed(self, tmp_path):
        out = StringIO()
        with counted() as seen:
            code = many.reviewed(
                [str(HALVED)], wanted=str(tmp_path / "seen.html"), fix=str(tmp_path / "right.toml"), out=out, err=out
            )
        assert code == many.NOT_YET and set(seen.sewn.values()) == {1}
        assert "no longer cut from whole blocks" in (tmp_path / "seen.html").read_text("utf-8")
        lines = out.getvalue().splitlines()
        assert f"Corrected: {tmp_path / 'right.toml'}" in lines
        assert review.review(pattern.read(tmp_path / "right.toml")).verdict == "go"

    def test_a_corrected_sheet_is_never_written_over_another_file(self, tmp_path):
        mine = tmp_path / "mine.toml"
        mine.write_text("my own work")
        out, err = StringIO(), StringIO()
        assert many.reviewed([str(HALVED)], fix=str(mine), out=out, err=err) == many.UNREADABLE
        assert mine.read_text() == "my own work" and "add --force to write over it" in err.getvalue()
        assert many.reviewed([str(HALVED)], fix=str(mine), force=True, out=out, err=err) == many.NOT_YET
        assert mine.read_text().startswith("# Corrected by a review before cutting. Changed:")

    @pytest.mark.parametrize("force", [False, True])
    def test_a_corrected_sheet_is_never_written_over_the_sheet_itself(self, tmp_path, force):
        sheet, link = tmp_path / "mine.toml", tmp_path / "link.toml"
        sheet.write_bytes(HALVED.read_bytes())
        link.symlink_to(sheet)
        for name in (sheet, link):
            err = StringIO()
            code = many.reviewed([str(sheet)], fix=str(name), force=force, out=StringIO(), err=err)
            assert (
                code == many.UNREADABLE and "is the sheet itself: give the corrected one another name" in err.getvalue()
            )
        assert sheet.read_bytes() == HALVED.read_bytes()

    @pytest.mark.parametrize(
        "sheet, code, said",
        [
            (EXAMPLE, many.NOT_YET, "Nothing could be changed."),
            (BASE, many.GO, "Nothing had to be changed."),
        ],
    )
    def test_where_nothing_is_changed_nothing_is_written(self, tmp_path, sheet, code, said):
        (tmp_path / "mine.toml").write_text(sheet)
        out, new = StringIO(), tmp_path / "right.toml"
        assert many.reviewed([str(tmp_path / "mine.toml")], fix=str(new), out=out, err=out) == code
        assert out.getvalue().endswith(f"{said} {new} is not written.\n") and not new.exists()

    def test_what_cannot_be_written_into_the_text_is_not_written(self, tmp_path, monkeypatch):
        monkeypatch.setattr("quiltmath.pattern.editing.differences", lambda *_: ())
        err, new = StringIO(), tmp_path / "right.toml"
        assert many.reviewed([str(HALVED)], fix=str(new), out=StringIO(), err=err) == many.UNREADABLE
        assert "no corrected sheet is written: " in err.getvalue() and not new.exists()

    def test_a_corrected_file_keeps_all_but_the_lines_it_names(self, tmp_path):
        printed = changed(BASE, ("count = 16", "count=12 # squares")).replace("\n", "\r\n")
        (tmp_path / "mine.toml").write_bytes(printed.encode())
        many.reviewed([str(tmp_path / "mine.toml")], fix=str(tmp_path / "right.toml"), out=StringIO())
        head, _, text = (tmp_path / "right.toml").read_bytes().decode().partition("\r\n\r\n")
        assert head.splitlines()[1:] == [f"# - piece-count: part {part!r}, count 12 becomes 16" for part in "AB"]
        assert text == printed.replace("count=12 # squares", "count=16 # was 12; squares")

    @pytest.mark.parametrize("name", ["right.html", "folder.toml"])
    def test_a_corrected_sheet_is_a_toml_file(self, tmp_path, name):
        (tmp_path / "folder.toml").mkdir()
        err = StringIO()
        assert many.reviewed([str(SOUND)], fix=str(tmp_path / name), out=StringIO(), err=err) == many.UNREADABLE
        assert "a sheet is a .toml file; got" in err.getvalue() and "write for example --fix" in err.getvalue()


class TestBindingThatCannotBeJoined:
    WIDE = changed(BORDERED, ('strip = "2 1/4"', 'strip = "50"\njoin = "diagonal"'))

    def test_the_check_and_the_table_say_so(self):
        found = review.review(pattern.read_text(self.WIDE))
        (finding,) = (one for one in found.findings if one.check == "binding-short")
        assert "too short to join such strips at all" in finding.message and finding.path == ("binding", "strip")
        rows = {row.what: row for _, group in numbers(found) for row in group}
        assert rows["binding: strips"][2:5] == ("5", "strips too wide to join, 156 in round", DIFFERS)


class TestWhatIsAskedOfYardage:
    """Checks and table ask the same: how many strips close round the quilt or join to a border, how large linings
    are."""

    STRIPS = changed(
        BORDERED,
        ('size = ["6 1/2", "30 1/2"]', 'strip = "6 1/2"'),
        ('size = ["6 1/2", "36 1/2"]', 'strip = "6 1/2"'),
    )

    @staticmethod
    def rows(found):
        return {row.what: row for _, group in numbers(found) for row in group}

    @pytest.mark.parametrize("style, join", [("straight", "diagonal"), ("straight", "straight"), ("bias", "straight")])
    def test_binding(self, style, join):
        cut = "bias strips" if style == "bias" else "straight"
        enough = yardage.binding_strips(156, "2 1/4", 42, join=join, extra=yardage.LEAST_EXTRA, cut=cut)
        for count in (enough - 1, enough):
            text = changed(BORDERED, ("count = 5", f'count = {count}\nstyle = "{style}"\njoin = "{join}"'))
            found = review.review(pattern.read_text(text))
            short = [finding for finding in found.findings if finding.check == "binding-short"]
            assert [finding.needed for finding in short] == [f"{enough} strips"] * (enough - count)
            assert self.rows(found)["binding: strips"].ours.startswith(f"{enough} strips, ")

    def test_border_strips(self):
        found = review.review(pattern.read_text(self.STRIPS))
        assert [finding.check for finding in found.findings if finding.level != "note"] == []
        enough = {part: yardage.strips_to_join(length, 42, "1/2") for part, length in (("long", 61), ("short", 73))}
        few = review.review(pattern.read_text(self.STRIPS.replace("count = 2\n", "count = 1\n")))
        for part, strips in enough.items():
            (finding,) = (one for one in few.findings if one.check == "border-length" and part in one.parts)
            assert finding.needed == f"{strips} strips" and f"Cut {strips} strips." in finding.message
            assert self.rows(few)[f"{part}: how many"].ours.startswith(f"{strips} for ")
            assert self.rows(found)[f"{part}: how many"].ours.startswith(f"{strips} for ")

    @pytest.mark.parametrize("short", ["0", "1/16", "1/8"])
    @pytest.mark.parametrize("turned", [False, True])
    def test_a_lining_is_the_least_size_larger_than_the_quilt_either_way_round(self, short, turned):
        sides = [lengths.text(side - Fraction(short)) for side in yardage.least_size(36, 42)][:: -1 if turned else 1]
        text = changed(
            BORDERED, ('[batting]\nsize = ["44", "50"]', f'[batting]\nsize = ["{sides[0]} in", "{sides[1]} in"]')
        )
        found = review.review(pattern.read_text(text))
        small = [finding for finding in found.findings if finding.check == "batting-small"]
        assert [finding.needed for finding in small] == ["40 by 46 in"] * (short == "1/8")
        assert self.rows(found)["batting"].ours == "at least 40 by 46 in"

    @pytest.mark.parametrize("panels, used", [("", 2), ("panels = 3\n", 3), ("panels = 1\n", 1)])
    def test_a_bought_backing_is_as_large_as_its_panels_or_the_best_of_them(self, panels, used):
        text = changed(
            BORDERED,
            ('[backing]\nsize = ["44", "50"]', f'[backing]\nbought = "4 yd"\nusable_width = "42"\n{panels}'),
        )
        sheet = pattern.read_text(text)
        given = cloth.lining_bought(sheet, sheet.backing, (60, 72))
        assert given == (used * 42 - (used - 1) * Fraction(1, 2), Fraction(144, used))
        assert given == yardage.backing_size("4 yd", used, 42, seam="1/4")

    def test_cloth_that_is_all_seam_is_small_and_not_refused(self):
        text = changed(
            BORDERED,
            ('[backing]\nsize = ["44", "50"]', '[backing]\nbought = "4 yd"\nusable_width = "1/2 in"'),
            ('usable_width = "42"\n[[cut]]', 'usable_width = "1/2 in"\n[[cut]]'),
        )
        found = review.review(
            pattern.read_text(changed(text, ("[fabric.navy]", '[fabric."binding cloth"]\n[fabric.navy]')))
        )
        (finding,) = (one for one in found.findings if one.check == "backing-small")
        assert finding.printed == "1/2 by 144 in"
        numbers(found)

    def test_strips_too_short_to_join_are_said_to_be(self):
        text = changed(self.STRIPS, ('usable_width = "42"\n[[cut]]', 'usable_width = "1/2 in"\n[[cut]]'))
        found = review.review(pattern.read_text(text))
        made = found.made
        cut = made.sheet.part("long")
        assert all(cloth.joined(made.sheet, cut, [length]) is None for length in (61, 1e9))

    @pytest.mark.parametrize("size", [(0.0, 0.0), (-0.25, 3.0), (1e-4, 1e-4), (4e6, 2e6)])
    def test_cloth_sewn_to_nothing_or_to_miles_has_a_binding_and_a_lining(self, size):
        sheet = pattern.read_text(BORDERED)
        around = cloth.ring(sheet, size)
        assert around.short == (size[0] > 100) and all(side >= 4 for side in cloth.lining_needed(size))
