"""The commands as typed: what they print, their exit codes, and that nothing typed brings a traceback."""

import json
import os
import re
import subprocess
import sys
import tomllib
from pathlib import Path
from urllib.parse import unquote

import jsonschema
import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from quiltmath import classroom, opening, proofs
from quiltmath.__main__ import GO, NOT_YET, UNREADABLE, main
from quiltmath.pattern.sheet import EXAMPLE
from quiltmath.resources import SHARED, folder
from quiltmath.review.writing import VERDICTS
from quiltmath.settings.asked import EXAMPLES, KINDS, asked, options

from .on_paper import words
from .sheets import reviewed_file

PATTERNS = folder("data") / "patterns"
SOUND = str(PATTERNS / "sound" / "library-lap-quilt.toml")
FAULTY = str(PATTERNS / "faulty" / "cut-size-small-corners.toml")
FINDING = ("check", "level", "where", "printed", "needed", "message", "why")
NOTEBOOKS = ["02-where-the-eighths-come-from.ipynb", "04-a-block-cut-in-half.ipynb", "05-bias-on-the-outside.ipynb"]


AGAIN = [HealthCheck.function_scoped_fixture, HealthCheck.too_slow]  # one capture serves all examples


def almost_sheets():
    """The text of a sheet with one line left out, doubled or cut short."""

    def spoilt(line):
        return st.sampled_from([EXAMPLE.replace(line, ""), EXAMPLE + line, EXAMPLE.replace(line, line[:-3])])

    return st.sampled_from(EXAMPLE.splitlines(keepends=True)).flatmap(spoilt)


@pytest.fixture
def typed(capsys):
    """Run a command; returns its exit code, what it printed, and what it complained of."""

    def run(*arguments):
        try:
            code = main([str(argument) for argument in arguments])
        except SystemExit as ended:
            code = ended.code
        out, err = capsys.readouterr()
        assert "Traceback" not in err
        return code, out, err

    return run


@pytest.fixture
def sheet(tmp_path):
    """Write a file; returns its path as text."""

    def write(content, name="sheet.toml"):
        file = tmp_path / name
        file.write_bytes(content if isinstance(content, bytes) else content.encode())
        return str(file)

    return write


class TestReview:
    def test_a_sound_pattern_is_a_go(self, typed):
        code, out, err = typed("review", SOUND)
        assert (code, err) == (GO, "")
        assert out.splitlines()[:2] == ["Lap quilt for a draughty library", VERDICTS["go"]]

    def test_a_faulty_one_is_a_stop_that_says_what_to_do_and_why(self, typed):
        code, out, err = typed("review", FAULTY)
        assert (code, err) == (NOT_YET, "")
        assert out.splitlines()[1] == VERDICTS["stop"]
        assert f"Stop (cut-size), {FAULTY}, line " in out
        assert "cut 7 1/4 in (exactly 7.218 in)" in out and "why: quiltmath why corner_triangle" in out

    def test_what_must_be_asked_first_is_no_go(self, typed, sheet):
        code, out, _ = typed("review", sheet(EXAMPLE))
        assert code == NOT_YET and VERDICTS["ask"] in out

    def test_several_are_reviewed_in_turn_and_the_worst_counts(self, typed):
        code, out, _ = typed("review", SOUND, FAULTY)
        assert code == NOT_YET
        assert out.index(VERDICTS["go"]) < out.index(VERDICTS["stop"])

    def test_no_sheet_is_answered_with_an_example(self, typed):
        said = "name at least one pattern sheet, for example: quiltmath review lap-quilt.toml"
        assert typed("review") == (UNREADABLE, "", f"quiltmath: {said}\n")

    def test_every_reason_it_names_can_be_asked(self, typed):
        found = [reviewed_file(path).findings for path in sorted(PATTERNS.rglob("*.toml"))]
        reasons = {finding.why for findings in found for finding in findings}
        assert len(reasons) > 3
        for why in sorted(reasons):
            if why[:2].isdigit():
                assert opening.chosen(why, opening.names()) == f"{why}.ipynb"
            else:
                code, out, _ = typed("why", why)
                assert code == GO and out.startswith(proofs.find(why).title)


class TestPlan:
    ASKED = ("plan", "on-point", "across=3", "down=4", "block=nine-patch 9", "edges=built", "borders=4")

    def test_it_prints_size_counts_cutting_list_rows_and_fabric(self, typed):
        code, out, err = typed(*self.ASKED)
        plan = asked("on-point", dict(pair.split("=") for pair in self.ASKED[2:]))
        assert (code, err) == (GO, "")
        assert out.startswith(f"{plan.title}\nFinished size: 46 3/16 by 58 15/16 in\n")
        for line in [*map(str, plan.cutting_list()), *plan.row_plan()[:-1]]:
            assert line in out
        assert "   18  nine-patch\n" in out and "   10  side triangle\n" in out
        assert (
            "\nTo buy\n  Fabric: B: 1 1/4 yd, 40 in wide\n" in out
            and "  Backing: 3 1/8 yd, 40 in wide, 2 panels\n" in out
        )

    def test_it_saves_the_sheet_and_the_handout(self, typed, tmp_path):
        sheet, pages = tmp_path / "plan.toml", tmp_path / "plan.pdf"
        code, out, err = typed(*self.ASKED, "--save", sheet, "--save", pages, "--paper", "a4")
        assert (code, err) == (GO, "")
        assert out.endswith(f"Sheet: {sheet}\nHandout: {pages}, {out.split()[-4]} pages of A4\n")
        assert pages.read_bytes().startswith(b"%PDF")
        assert sheet.read_text("utf-8").startswith(
            "# Planned by: quiltmath plan on-point across=3 down=4 block=nine-patch 9"
        )
        code, out, _ = typed("review", sheet)
        assert code == GO and VERDICTS["go"] in out

    def test_a_fit_lists_layouts_and_plans_the_chosen_one(self, typed, tmp_path):
        wish = ("plan", "fit", "width=60", "height=80", "blocks=6..12", "best=3")
        _, out, _ = typed(*wish)
        assert "  1. 6 x 8 blocks of 10 in straight: 60 x 80 in, exactly the size" in out
        assert "Number 1:\n6 x 8 blocks of 10 in straight\n" in out and "blocks=6,9,12" not in out
        code, out, _ = typed(*wish, "--choose", "2", "--save", tmp_path / "two.toml")
        assert code == GO and "Number 2:\n6 x 8 blocks of 7 in on point\n" in out
        assert 'style = "on point"' in (tmp_path / "two.toml").read_text("utf-8")
        code, _, err = typed(*wish, "--choose", "4")
        assert (code, err) == (
            UNREADABLE,
            "quiltmath: choose one of the 3 layouts listed; got 4: write for example --choose 1\n",
        )

    def test_a_plan_that_must_be_asked_about_says_so_and_is_no_handout(self, typed, tmp_path):
        wish = ("plan", "on-point", "across=3", "down=3", "block=sixteen-patch 8", "edges=half blocks")
        code, out, err = typed(*wish, "--save", tmp_path / "half.toml", "--save", tmp_path / "half.pdf")
        assert code == UNREADABLE and VERDICTS["ask"] in out
        assert "is not handed over: change the plan" in err
        assert [file.name for file in tmp_path.iterdir()] == ["half.toml"]

    def test_alone_it_shows_what_there_is(self, typed):
        code, out, _ = typed("plan")
        assert code == GO and out.splitlines() == [f"quiltmath plan {kind} {EXAMPLES[kind]}" for kind in KINDS]
        code, out, _ = typed("plan", "medallion")
        assert code == GO and [line.split("=")[0] for line in out.splitlines()[:-1]] == list(options("medallion"))

    @pytest.mark.parametrize(
        "typed_in, said",
        [
            (["crazy"], "a plan is one of on-point, straight, medallion, fit; got 'crazy'"),
            (["crazy", "a=1"], "a plan is one of on-point, straight, medallion, fit; got 'crazy'"),
            (["on-point", "across"], "an option is written name=value, such as block=9; got 'across'"),
            (["on-point", "across=3", "across=4"], "across is given twice: say it once"),
            (["on-point", "across=3", "down=4", "blok=9"], "got 'blok': did you mean 'block'?"),
            (
                ["on-point", "across=3", "down=4", "block=9", "--save", "plan.doc"],
                "as a handout, .pdf; got plan.doc",
            ),
            (["on-point", "across=400", "down=400", "block=nine-patch 9"], "a plan has at most 100,000 patches"),
            (
                ["on-point", "across=3", "down=4", "block=9", "--choose", "x"],
                "the number of a layout is a whole",
            ),
        ],
    )
    def test_what_is_wrong_is_answered_in_words(self, typed, typed_in, said):
        code, out, err = typed("plan", *typed_in)
        assert (code, out) == (UNREADABLE, "") and said in err

    def test_a_file_that_is_there_is_not_written_over(self, typed, tmp_path):
        for name in ("plan.toml", "plan.pdf"):
            (tmp_path / name).write_text("mine")
            code, _, err = typed("plan", "straight", "across=2", "down=2", "block=9", "--save", tmp_path / name)
            assert code == UNREADABLE and "is there already: add --force to write over it" in err
            assert (tmp_path / name).read_text() == "mine"
            code, _, _ = typed(
                "plan", "straight", "across=2", "down=2", "block=9", "--save", tmp_path / name, "--force"
            )
            assert code == GO and (tmp_path / name).read_bytes() != b"mine"


class TestHandout:
    def test_a_sound_sheet_is_handed_over(self, typed, tmp_path):
        place = tmp_path / "lap.pdf"
        code, out, err = typed("handout", SOUND, "--save", place, "--only", "pattern", "--paper", "Letter")
        assert (code, err) == (GO, "")
        assert re.fullmatch(rf"Handout: {re.escape(str(place))}, \d pages of Letter\n", out)
        assert place.read_bytes().startswith(b"%PDF")

    def test_a_faulty_one_is_corrected_first_and_it_is_said_how(self, typed, tmp_path):
        code, out, _ = typed("handout", FAULTY, "--save", tmp_path / "lap.pdf", "--only", "pattern")
        assert code == GO
        assert out.startswith("Corrected first:\n- cut-size: part 'corner', size 6 3/8 in becomes 7 1/4 in\nHandout: ")

    def test_what_cannot_be_corrected_is_not_handed_over(self, typed, tmp_path):
        sheet = str(PATTERNS / "faulty" / "print-turned-boats-on-point.toml")
        code, out, err = typed("handout", sheet, "--save", tmp_path / "rail.pdf")
        assert (code, out) == (NOT_YET, "") and "is not ready to be handed over, even corrected: print-turned" in err
        assert list(tmp_path.iterdir()) == []

    @pytest.mark.parametrize(
        "typed_in, said",
        [
            ([SOUND, "--save", "lap.doc"], "a handout is a .pdf file; got lap.doc"),
            ([SOUND, "--save", "lap.pdf", "--only", "chart"], "a handout has the parts pattern"),
            ([SOUND, "--save", "lap.pdf", "--paper", "A3"], "a handout is printed on Letter or A4; got 'A3'"),
            (["--save", "lap.pdf"], "a sheet is needed for pattern"),
            (["no-such.toml", "--save", "lap.pdf"], "no-such.toml"),
            ([SOUND], "--save"),
        ],
    )
    def test_what_is_wrong_is_answered_in_words(self, typed, typed_in, said, tmp_path, monkeypatch):
        monkeypatch.chdir(tmp_path)
        code, out, err = typed("handout", *typed_in)
        assert (code, out) == (UNREADABLE, "") and said in err
        assert list(tmp_path.iterdir()) == []

    def test_charts_need_no_sheet(self, typed, tmp_path):
        code, out, _ = typed("handout", "--only", "charts", "--save", tmp_path / "charts.pdf", "--paper", "A4")
        assert code == GO and out.endswith("1 page of A4\n")


class TestJson:
    def test_one_sheet_gives_one_object(self, typed):
        code, out, err = typed("review", "--json", FAULTY)
        found = json.loads(out)
        assert (code, err) == (NOT_YET, "")
        assert list(found) == ["pattern", "verdict", "units", "finished", "findings"] and found["units"] == "in"
        assert found["pattern"] == "Reading room, corners too small" and found["verdict"] == "stop"
        assert found["finished"] == {"width": "63 5/8", "height": "76 3/8"}
        assert [tuple(finding) for finding in found["findings"]] == [FINDING]
        assert all(isinstance(value, str) for value in found["findings"][0].values())

    def test_several_give_a_list_the_unreadable_left_out(self, typed, sheet):
        code, out, err = typed("review", "--json", FAULTY, sheet("title =\n"), SOUND)
        assert code == UNREADABLE and "sheet.toml, line 1" in err
        assert [found["verdict"] for found in json.loads(out)] == ["stop", "go"]
        code, out, _ = typed("review", "--json", sheet("title =\n"), sheet("x", "other.toml"))
        assert (code, json.loads(out)) == (UNREADABLE, [])

    def test_one_unreadable_sheet_gives_no_json(self, typed, sheet):
        code, out, err = typed("review", "--json", sheet("title =\n"))
        assert (code, out) == (UNREADABLE, "") and err

    def test_it_is_plain_ascii_whatever_the_title(self, typed, sheet):
        _, out, _ = typed("review", "--json", sheet(EXAMPLE.replace("Four squares", "Vier Würfel ⅞")))
        assert out.isascii() and json.loads(out)["pattern"] == "Vier Würfel ⅞"

    def test_the_schema_is_one_and_every_sheet_of_the_kit_obeys_it(self, typed):
        code, out, _ = typed("review", "--schema")
        schema = json.loads(out)
        jsonschema.Draft202012Validator.check_schema(schema)
        assert code == GO and schema["title"] == "Sheet"
        obeys = jsonschema.Draft202012Validator(schema)  # `jsonschema.validate` would check the schema for each sheet
        for path in sorted(PATTERNS.rglob("*.toml")):
            obeys.validate(tomllib.loads(path.read_text("utf-8")))
        with pytest.raises(jsonschema.ValidationError):
            obeys.validate({"title": "no cutting list"})


class TestSave:
    @pytest.mark.parametrize("name, first", [("report.html", b"<!doctype html>"), ("report.pdf", b"%PDF")])
    def test_a_report_is_written_and_the_exit_code_stays_that_of_the_verdict(self, typed, tmp_path, name, first):
        code, out, _ = typed("review", FAULTY, "--save", tmp_path / name)
        assert code == NOT_YET and VERDICTS["stop"] in out
        assert (tmp_path / name).read_bytes().lower().startswith(first.lower())

    def test_a_file_that_is_there_is_kept_unless_asked(self, typed, tmp_path):
        mine = tmp_path / "mine.html"
        mine.write_text("my own work")
        code, _, err = typed("review", SOUND, "--save", mine)
        assert code == UNREADABLE and "--force" in err
        assert mine.read_text() == "my own work"
        assert typed("review", SOUND, "--save", mine, "--force")[0] == GO
        assert "Lap quilt for a draughty library" in mine.read_text("utf-8")

    def test_a_sheet_put_right_is_a_go(self, typed, tmp_path):
        code, _, _ = typed("review", FAULTY, "--fix", tmp_path / "right.toml")
        assert code == NOT_YET
        code, out, _ = typed("review", tmp_path / "right.toml")
        assert code == GO and VERDICTS["go"] in out

    @pytest.mark.parametrize("name", ["report.html", "report.pdf"])
    def test_a_report_links_the_pattern_that_is_handed_over_with_it(self, typed, tmp_path, name):
        report, pages = tmp_path / "reports" / name, tmp_path / "patterns" / "put right.pdf"
        code, out, err = typed("review", FAULTY, "--save", report, "--handout", pages)
        assert code == NOT_YET and err == ""
        assert f"Corrected first:\n- cut-size: part 'corner', size 6 3/8 in becomes 7 1/4 in\nHandout: {pages}, " in out
        assert re.search(r"corner +2 +7 1/4 in", words(pages.read_bytes()))
        said = report.read_text("utf-8") if name.endswith("html") else words(report.read_bytes())
        assert "ready to print: " in said and "../patterns/put right.pdf" in said
        if name.endswith("html"):
            (link,) = re.findall('href="(.*?)"', said)
            assert (report.parent / unquote(link)).read_bytes() == pages.read_bytes()

    def test_a_pattern_that_cannot_be_handed_over_is_not_linked(self, typed, tmp_path):
        report, pages = tmp_path / "report.html", tmp_path / "pattern.pdf"
        open_question = PATTERNS / "faulty" / "print-turned-boats-on-point.toml"
        code, _, err = typed("review", open_question, "--save", report, "--handout", pages)
        assert code == UNREADABLE and "is not ready to be handed over" in err
        assert "href" not in report.read_text("utf-8") and not pages.exists()
        assert typed("review", SOUND, FAULTY, "--handout", pages)[0] == UNREADABLE

    def test_force_alone_is_answered_with_an_example(self, typed):
        code, _, err = typed("review", SOUND, "--force")
        assert code == UNREADABLE and "--force goes with --save" in err and "write for example" in err


class TestUnreadable:
    def test_one_among_good_ones_does_not_stop_the_others(self, typed, sheet):
        bad = sheet("title =\n")
        code, out, err = typed("review", bad, SOUND)
        assert code == UNREADABLE
        assert VERDICTS["go"] in out
        assert err.startswith(f"quiltmath: {bad}, line 1: this is not TOML")

    def test_a_missing_file(self, typed):
        assert typed("review", "nowhere.toml") == (
            UNREADABLE,
            "",
            "quiltmath: nowhere.toml: there is no such file; check its name and folder\n",
        )

    def test_a_folder(self, typed):
        code, _, err = typed("review", PATTERNS)
        assert code == UNREADABLE and "this is a folder; name one pattern sheet in it (a .toml file)" in err

    def test_a_picture(self, typed):
        code, _, err = typed("review", folder("data").joinpath("pictures", "half-or-built.png"))
        assert code == UNREADABLE and "this is not a text file" in err

    def test_text_in_another_encoding(self, typed, sheet):
        code, _, err = typed("review", sheet("title = 'Würfel'".encode("latin-1")))
        assert code == UNREADABLE and "this is not UTF-8 text; save the sheet as UTF-8" in err

    def test_a_file_larger_than_any_sheet(self, typed, sheet):
        code, _, err = typed("review", sheet(b"#" * 1_000_001))
        assert code == UNREADABLE
        assert "at most 1,000,000 bytes; this file has 1,000,001: is it the right file?" in err

    @pytest.mark.skipif(not Path("/dev/zero").exists(), reason="this system has no /dev/zero")
    def test_a_device_that_never_ends(self, typed):
        code, _, err = typed("review", "/dev/zero")
        assert code == UNREADABLE and "at most 1,000,000 bytes; this file has more: is it the right file?" in err

    def test_a_byte_order_mark_is_no_trouble(self, typed, sheet):
        code, out, _ = typed("review", sheet(b"\xef\xbb\xbf" + Path(SOUND).read_bytes()))
        assert code == GO and out.startswith("Lap quilt")

    @pytest.mark.parametrize("written", [r"\u001b[31mred", r"a\u0007", r"a\u009b2J", r"a\u202eb", r"a\nb"])
    def test_control_characters_in_a_title_do_not_reach_the_terminal(self, typed, sheet, written):
        code, out, err = typed("review", sheet(EXAMPLE.replace("Four squares", written)))
        assert code == UNREADABLE
        assert "a name is one line of printable characters; got one that does not show (U+" in err
        assert (out + err).replace("\n", "").isprintable()

    def test_control_characters_in_a_file_name_do_not_reach_the_terminal(self, typed, sheet):
        _, out, err = typed("review", sheet(EXAMPLE, "a\x1b[31m.toml"), "b\x1b[2J.toml")
        assert out and (out + err).replace("\n", "").isprintable()

    @settings(suppress_health_check=AGAIN, max_examples=60)
    @given(text=st.text() | st.text("abc[]{}=\"'.#\n 1") | almost_sheets())
    @example(text="a = " + "[" * 5000)
    @example(text="seam = 1" + "0" * 5000)
    def test_no_text_at_all_brings_a_traceback(self, typed, sheet, text):
        code, out, err = typed("review", sheet(text.encode("utf-8", "surrogatepass")))
        assert code in (GO, NOT_YET, UNREADABLE)
        assert (code == UNREADABLE) == err.startswith("quiltmath: ")
        assert (out + err).replace("\n", "").isprintable()


class TestWhy:
    def test_alone_it_lists_every_proof(self, typed):
        code, out, _ = typed("why")
        assert code == GO
        assert [line.split()[0] for line in out.splitlines()] == [proof.name for proof in proofs.every()]
        assert all(len(line.split()) > 1 for line in out.splitlines())

    def test_a_size_comes_with_its_derivation(self, typed):
        code, out, err = typed("why", "side_triangle", "block=12")
        assert (code, err) == (GO, "")
        assert "up to the ruler's next 1/8: 18 1/4 in" in out
        assert "square = √2 × block + (2 + 2√2) × seam" in out
        assert out.index("1. ") < out.index("With block = 12")

    def test_sources_and_addresses_are_named_only_where_they_are_asked_for(self, typed):
        code, out, _ = typed("why", "side_triangle", "block=12")
        assert code == GO and "http" not in out and "Source" not in out
        code, named, _ = typed("why", "side_triangle", "block=12", "--sources")
        assert code == GO and named.startswith(out.rstrip("\n")) and "https://" in named.split("Source: ")[1]

    @pytest.mark.parametrize("name", [proof.name for proof in proofs.every()])
    def test_every_proof_is_printed(self, typed, name):
        code, out, err = typed("why", name)
        assert (code, err) == (GO, "") and out.startswith(proofs.find(name).title)

    def test_a_name_may_be_written_as_one_says_it(self, typed):
        assert typed("why", "Side triangle") == typed("why", "side_triangle")

    def test_units_and_steps_can_be_given(self, typed):
        code, out, _ = typed("why", "half_square", "finished=10", "unit=cm")
        assert code == GO and "up to the ruler's next 1 mm: 12.6 cm" in out

    @pytest.mark.parametrize(
        "asked, said",
        [
            (["nonsense"], "no proof is called 'nonsense'; the nearest are "),
            (["04"], "'04' names a notebook; open it: quiltmath open 04"),
            (["side_triangle", "12"], "a quantity is written name=value, such as block=12; got '12'"),
            (["side_triangle", "bloc=12"], "side_triangle takes block and seam; got 'bloc'"),
            (["side_triangle", "block=-1"], "block (the side of the finished block) must be more than 0"),
            (["side_triangle", "block=12", "unit=furlong"], "a proof is asked in in, cm and mm; got 'furlong'"),
            (["side_triangle", "seam=3/8"], "side_triangle needs block"),
            (["side_triangle", "block=12", "block=9"], "block is given twice, as '12' and as '9': give each"),
            (["grid", "block=9", "across=1e10000000"], "across (patches in a row of the block) must be a whole number"),
            (["grid", "block=9", "across=1e4301"], "across (patches in a row of the block) must be a whole number"),
            (["grid", "block=9", "across=" + "9" * 5000], "across (patches in a row of the block) must be a whole"),
            (["side_triangle", "self=3"], "side_triangle takes block and seam; got 'self'"),
        ],
    )
    def test_what_cannot_be_answered_is_said_with_what_to_write(self, typed, asked, said):
        code, out, err = typed("why", *asked)
        assert (code, out) == (UNREADABLE, "")
        assert err.startswith(f"quiltmath: {said}")

    @settings(suppress_health_check=AGAIN, max_examples=50)
    @given(value=st.text(max_size=30) | (st.integers() | st.floats() | st.fractions()).map(str))
    @example(value="9" * 9000)
    @example(value="1e999999999")
    def test_no_value_at_all_brings_a_traceback(self, typed, value):
        code, out, err = typed("why", "side_triangle", f"block={value}")
        assert (code, bool(out), bool(err)) in ((GO, True, False), (UNREADABLE, False, True))
        assert (out + err).replace("\n", "").isprintable()


def within(widget):
    """A widget and all that it holds."""
    yield widget
    for inner in getattr(widget, "children", ()):
        yield from within(inner)


class TestOpen:
    @pytest.fixture
    def lab(self, monkeypatch, tmp_path):
        """JupyterLab replaced by a list of what it was told, each with the settings folder it was given."""
        told = []
        monkeypatch.chdir(tmp_path)
        monkeypatch.setattr("jupyterlab.labapp.main", lambda arguments: told.append(arguments))
        monkeypatch.setattr(opening, "names", lambda: NOTEBOOKS)
        kit = tmp_path / "kit"
        kit.mkdir()
        for name in NOTEBOOKS:
            (kit / name).write_text(f"{name} as it comes")
        monkeypatch.setattr(opening, "folder", lambda which: kit if which == "notebooks" else folder(which))
        monkeypatch.setenv("JUPYTER_CONFIG_PATH", "/etc/lab")
        return told

    def test_it_makes_a_working_copy_and_opens_the_first_notebook(self, typed, lab, tmp_path):
        code, out, err = typed("open")
        copy = tmp_path / "quiltmath-notebooks"
        assert (code, err) == (GO, "")
        assert sorted(path.name for path in copy.iterdir()) == [opening.REMEMBERED, *NOTEBOOKS]
        assert f"Your working copy of the notebooks: {copy}" in out and "press Ctrl+C" in out
        assert lab[0][-2:] == [
            f"--ServerApp.root_dir={copy}",
            "--LabApp.default_url=/doc/tree/02-where-the-eighths-come-from.ipynb",
        ]

    def test_a_working_copy_is_never_overwritten(self, typed, lab, tmp_path):
        typed("open")
        mine = tmp_path / "quiltmath-notebooks" / NOTEBOOKS[1]
        mine.write_text("my own work")
        (tmp_path / "quiltmath-notebooks" / NOTEBOOKS[0]).unlink()
        _, out, _ = typed("open", "04")
        assert mine.read_text() == "my own work"
        assert (tmp_path / "quiltmath-notebooks" / NOTEBOOKS[0]).read_text() == f"{NOTEBOOKS[0]} as it comes"
        assert "(1 added, none overwritten)" in out

    def test_news_and_questions_are_kept_away(self, typed, lab):
        typed("open")
        assert "--LabApp.news_url=" in lab[0]
        assert "--LabApp.check_for_updates_class=jupyterlab.NeverCheckForUpdate" in lab[0]
        ours, *others = os.environ["JUPYTER_CONFIG_PATH"].split(os.pathsep)
        assert others == ["/etc/lab"]
        settings = json.loads((Path(ours) / "labconfig" / "default_setting_overrides.json").read_text())
        assert settings["@jupyterlab/apputils-extension:notification"]["fetchNews"] == "false"

    def test_another_folder_port_and_no_browser(self, typed, lab, tmp_path):
        typed("open", NOTEBOOKS[2], "--folder", tmp_path / "class", "--port", 8900, "--no-browser")
        assert (tmp_path / "class" / NOTEBOOKS[2]).is_file()
        assert {"--ServerApp.port=8900", "--ServerApp.open_browser=False"} <= set(lab[0])

    @pytest.mark.parametrize("name", ["04", "04-a-block-cut-in-half", "04-a-block-cut-in-half.ipynb", "half"])
    def test_a_notebook_is_named_by_number_name_or_part(self, typed, lab, name):
        assert typed("open", name)[0] == GO
        assert lab[0][-1].endswith("/04-a-block-cut-in-half.ipynb")

    @pytest.mark.parametrize(
        "name, said",
        [
            ("99", "no notebook is called '99'; there are 02-where-the-eighths-come-from, 04-a-block-cut-in-"),
            ("the-", "2 notebooks are called 'the-'; there are 02-where-the-eighths-come-from, 05-bias-on-the-"),
            ("../etc/passwd", "no notebook is called '../etc/passwd'"),
        ],
    )
    def test_a_name_that_fits_none_or_several_is_answered_with_the_list(self, typed, lab, name, said):
        code, out, err = typed("open", name)
        assert (code, out, lab) == (UNREADABLE, "", [])
        assert err.startswith(f"quiltmath: {said}")
        assert not Path("quiltmath-notebooks").exists()

    def test_a_folder_that_cannot_be_made(self, typed, lab, tmp_path):
        (tmp_path / "taken").write_text("a file")
        code, _, err = typed("open", "--folder", "taken")
        assert code == UNREADABLE and "the working copy cannot be made in taken" in err and "--folder" in err

    def test_without_jupyterlab_it_says_what_to_install_and_from_where(self, typed, lab, monkeypatch, tmp_path):
        """From this folder, or the wheel: no index has a package of ours."""
        monkeypatch.setattr(opening, "find_spec", lambda name: None)
        code, _, err = typed("open")
        assert code == UNREADABLE and f'-m pip install "{opening.PACKAGE.parent}[lab]"' in err
        monkeypatch.setattr(opening, "PACKAGE", tmp_path / "site-packages" / "quiltmath")
        code, _, err = typed("open")
        assert code == UNREADABLE
        assert f'pip install "quiltmath-{opening.__version__}-py3-none-any.whl[lab]", in the folder' in err

    @pytest.fixture
    def voila(self, lab, monkeypatch):
        """Voilà replaced by a list of what it was told."""
        told = []
        monkeypatch.setattr(classroom, "_voila", lambda arguments, _: told.append(arguments) or GO)
        monkeypatch.delenv(SHARED, raising=False)
        yield told
        os.environ.pop(SHARED, None)

    def test_pages_for_a_class_are_for_this_computer_alone_unless_it_is_said(self, typed, voila, tmp_path):
        assert typed("open", "--class", "04", "--no-browser")[0] == GO
        assert typed("open", "--class", "--room", "--no-browser", "--port", 8900)[0] == GO
        alone, room = (dict(one.split("=", 1) for one in told if "=" in one) for told in voila)
        assert (alone["--Voila.ip"], room["--Voila.ip"]) == ("127.0.0.1", "0.0.0.0")
        assert len(alone["--Voila.token"]) == 8 and alone["--Voila.token"] != room["--Voila.token"]
        assert [told[-1] for told in voila] == [str(tmp_path / "quiltmath-notebooks")] * 2

    def test_who_shares_a_page_does_not_write_on_this_computer(self, typed, voila):
        from quiltmath.demos.check_a_pattern import form

        alone = form()
        typed("open", "--class", "--no-browser")
        mine = {type(box).__name__ + getattr(box, "description", "") for box in within(alone)}
        shared = {type(box).__name__ + getattr(box, "description", "") for box in within(form())}
        assert mine - shared == {
            "ComboboxSheet file",
            "ButtonLoad",
            "ButtonSave",
            "Checkboxreplace a file of that name",
        }

    def test_a_room_needs_a_class_and_a_class_voila(self, typed, lab, monkeypatch):
        code, _, err = typed("open", "--room")
        assert code == UNREADABLE and "--room goes with --class" in err
        monkeypatch.setattr(classroom, "find_spec", lambda name: None)
        code, _, err = typed("open", "--class")
        assert code == UNREADABLE and f'need Voilà; install the kit with it: {sys.executable} -m pip install "' in err
        assert err.rstrip().endswith('[class]"') and len(err.splitlines()) == 1

    def test_what_a_class_is_told_has_the_port_that_is_listened_at(self, typed, lab, monkeypatch):
        monkeypatch.setattr(classroom, "_voila", lambda _, ready: ready(8871) or GO)
        assert "http://127.0.0.1:8871/voila/render/04" in typed("open", "--class", "04", "--no-browser")[1]
        monkeypatch.setattr(classroom, "_voila", lambda *_: 1)
        code, _, err = typed("open", "--class", "--no-browser")
        assert code == UNREADABLE and "If every port near 8866 is in use, name another" in err
        os.environ.pop(SHARED, None)

    def test_it_says_when_the_kit_has_newer_pages(self, typed, lab, tmp_path):
        typed("open")
        (tmp_path / "quiltmath-notebooks" / NOTEBOOKS[0]).write_text("my own work")
        assert "newer pages" not in typed("open")[1]
        (tmp_path / "kit" / NOTEBOOKS[1]).write_text("a better page")
        assert f"The kit has newer pages than your copy of {NOTEBOOKS[1]}; yours stay" in typed("open")[1]
        (tmp_path / "quiltmath-notebooks" / NOTEBOOKS[1]).unlink()
        assert "newer pages" not in typed("open")[1]

    @pytest.mark.parametrize("written", [None, "no JSON", "[1]"])
    def test_a_copy_of_which_nothing_is_remembered_is_not_called_old(self, typed, lab, tmp_path, written):
        typed("open")
        remembered = tmp_path / "quiltmath-notebooks" / opening.REMEMBERED
        remembered.unlink() if written is None else remembered.write_text(written)
        (tmp_path / "kit" / NOTEBOOKS[1]).write_text("a better page")
        assert "newer pages" not in typed("open")[1]
        (tmp_path / "kit" / NOTEBOOKS[0]).write_text("a better page")
        assert f"than your copy of {NOTEBOOKS[0]}; yours" in typed("open")[1]

    def test_where_nothing_can_be_written_the_copy_is_kept_at_home(self, typed, lab, tmp_path, monkeypatch):
        home = tmp_path / "home"
        home.mkdir()
        monkeypatch.setenv("HOME", str(home))
        (tmp_path / "quiltmath-notebooks").write_text("a file, so that no folder can be made")
        code, out, _ = typed("open")
        assert code == GO and f"{tmp_path} cannot be written, so your working copy is kept in {home} instead." in out
        assert (home / "quiltmath-notebooks" / NOTEBOOKS[0]).is_file()

    def test_without_a_home_to_write_in_jupyter_gets_another(self, typed, lab, tmp_path, monkeypatch):
        monkeypatch.setenv("HOME", str(tmp_path / "nowhere"))
        code, out, _ = typed("open")
        assert code == GO and f"{tmp_path / 'nowhere'} cannot be written, so JupyterLab keeps its settings in " in out
        assert Path.home().is_dir()

    def test_when_jupyterlab_fails_it_says_what_to_try(self, typed, lab, monkeypatch):
        monkeypatch.setattr("jupyterlab.labapp.main", lambda told: sys.exit(1))
        code, _, err = typed("open")
        assert code == UNREADABLE
        assert "JupyterLab ended with exit code 1" in err and "quiltmath open --port 8900" in err

    @pytest.mark.parametrize("port", ["0", "65536", "-1", "x", "٣"])
    def test_a_port_is_a_number(self, typed, lab, port):
        code, _, err = typed("open", f"--port={port}")
        assert code == UNREADABLE and "a port is a number from 1 to 65535" in err


class TestProgram:
    """The commands as programs of their own."""

    def run(self, *arguments, **more):
        return subprocess.run(
            [sys.executable, "-m", "quiltmath", *arguments],
            check=False,
            timeout=120,
            **{"stdout": subprocess.PIPE, "stderr": subprocess.PIPE, **more},
        )

    def test_the_exit_code_is_that_of_the_verdict(self):
        assert [self.run("review", path).returncode for path in (SOUND, FAULTY, "nowhere.toml")] == [0, 1, 2]

    def test_no_command_or_a_strange_one_is_an_error_with_the_list(self):
        for arguments in ((), ("rewiev",)):
            ended = self.run(*arguments)
            assert ended.returncode == UNREADABLE
            assert re.search(rb"usage: quiltmath .*COMMAND", ended.stderr)

    def test_help_names_every_command(self):
        ended = self.run("--help")
        assert ended.returncode == 0
        for name in (b"open", b"review", b"why"):
            assert re.search(rb"^ +" + name + b" ", ended.stdout, re.MULTILINE)

    def test_a_terminal_without_the_signs_gets_a_question_mark(self):
        ended = self.run("why", "side_triangle", "block=12", env={**os.environ, "PYTHONIOENCODING": "ascii"})
        assert (ended.returncode, ended.stderr) == (GO, b"")
        assert b"square = ?2 ? block + (2 + 2?2) ? seam" in ended.stdout

    def test_a_closed_pipe_is_no_trouble(self):
        read, write = os.pipe()
        os.close(read)
        with os.fdopen(write, "wb") as closed:
            ended = self.run("why", stdout=closed)
        assert (ended.returncode, ended.stderr) == (GO, b"")
