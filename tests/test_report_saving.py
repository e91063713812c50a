"""Where reports go: whole files, never over another unless asked, one for each of many sheets, and a summary
at the end."""

import os
import subprocess
import sys
from contextlib import redirect_stderr
from io import StringIO
from pathlib import Path

import pytest

from quiltmath import pattern, review
from quiltmath import resources as kit
from quiltmath.__main__ import GO, NOT_YET, UNREADABLE, main
from quiltmath.resources import folder
from quiltmath.review import many, report
from quiltmath.review.report import CannotSave, places, saving

PATTERNS = folder("data") / "patterns"
SOUND, OTHER = (
    PATTERNS / "sound" / "rails-from-strip-sets.toml",
    PATTERNS / "sound" / "metric-half-squares.toml",
)
FAULTY = PATTERNS / "faulty" / "edges-differ-plain-strips.toml"


@pytest.fixture(scope="module")
def sound():
    return review.review(pattern.read(SOUND))


@pytest.fixture
def typed(capsys, tmp_path, monkeypatch):
    """Run `quiltmath review` in an empty folder; returns its exit code, what it printed, and what it
    complained of."""
    monkeypatch.chdir(tmp_path)

    def run(*arguments):
        code = main(["review", *map(str, arguments)])
        return code, *capsys.readouterr()

    return run


class Terminal(StringIO):
    """A stream that is a terminal."""

    def isatty(self):
        return True


def files(folder):
    return sorted(path.name for path in folder.iterdir())


class TestPlaces:
    def test_one_sheet_one_file_or_a_folder_or_a_name_for_each(self, tmp_path):
        assert places(["a.toml"], tmp_path / "seen.html") == [tmp_path / "seen.html"]
        assert places(["in/a.toml"], tmp_path) == [tmp_path / "a.html"]
        assert places(["a.toml", "b.v2.toml"], f"{tmp_path}/new/") == [
            tmp_path / "new/a.html",
            tmp_path / "new/b.v2.html",
        ]
        assert places(["a.toml", "b.toml"], tmp_path / "seen {}.PDF") == [
            tmp_path / "seen a.PDF",
            tmp_path / "seen b.PDF",
        ]
        assert files(tmp_path) == []

    @pytest.mark.parametrize(
        "wanted, said",
        [
            ("", "a report needs a name: write for example --save report.html"),
            (
                "report",
                "a report is an .html or a .pdf file; got report: write for example --save report.html",
            ),
            ("report.txt", "a report is an .html or a .pdf file; got report.txt"),
            (
                "{}/a.html",
                "{} stands for the name of a sheet in the name of a file, not of a folder; got {}/a.html",
            ),
        ],
    )
    def test_what_is_no_report_is_refused_in_words(self, wanted, said):
        with pytest.raises(CannotSave) as refused:
            places(["a.toml"], wanted)
        assert str(refused.value).startswith(said)

    def test_one_file_for_two_sheets_is_ambiguous(self):
        with pytest.raises(
            CannotSave,
            match=r"2 sheets make 2 reports, and both.html is one file: name a folder, such as "
            r"reports/, or write \{\} for the name of each sheet",
        ):
            places(["a.toml", "b.toml"], "both.html")

    @pytest.mark.parametrize("second", ["there/lap.toml", "there/LAP.toml", "here/lap.toml"])
    def test_two_sheets_of_one_name_would_share_a_report(self, second):
        with pytest.raises(
            CannotSave,
            match="two of these sheets would both be saved as .*: review them apart, or rename one",
        ):
            places(["here/lap.toml", second], "seen/")

    def test_what_is_there_is_kept_unless_it_is_said_otherwise(self, tmp_path):
        for name in "abcde":
            (tmp_path / f"{name}.html").write_text("mine")
        sheets = [f"{name}.toml" for name in "abcdef"]
        with pytest.raises(
            CannotSave,
            match=r"a.html, .*b.html, .*c.html and 2 more are there already: add --force to write over "
            "them, or choose another name",
        ):
            places(sheets, tmp_path)
        assert len(places(sheets, tmp_path, force=True)) == 6

    def test_a_sheet_is_never_a_report(self, tmp_path):
        sheet = tmp_path / "sheet.html"
        sheet.write_text("title = ")
        for force in (True, False):
            with pytest.raises(CannotSave, match="is one of the sheets: give the report another name"):
                places([sheet], f"{tmp_path}/../{tmp_path.name}/sheet.html", force)

    def test_a_folder_called_like_a_report(self, tmp_path):
        (tmp_path / "a.html").mkdir()
        with pytest.raises(CannotSave, match="is a folder: name a file in it"):
            places(["a.toml"], tmp_path, force=True)

    def test_a_message_never_carries_control_characters(self):
        with pytest.raises(CannotSave) as refused:
            places(["a.toml"], "\x1b[31mred\u202e.txt")
        assert str(refused.value).isprintable()


class TestSave:
    @pytest.mark.parametrize("name, begins", [("a.html", b"<!DOCTYPE html>"), ("a.pdf", b"%PDF-"), ("a.PDF", b"%PDF-")])
    def test_it_writes_one_whole_file(self, sound, tmp_path, name, begins):
        assert report.save(sound, tmp_path / "new" / name) == tmp_path / "new" / name
        assert files(tmp_path / "new") == [name]
        assert (tmp_path / "new" / name).read_bytes().startswith(begins)

    def test_the_title_of_the_file_says_verdict_and_pattern(self, sound, tmp_path):
        report.save(sound, tmp_path / "a.html")
        assert "<title>GO: Rails by the harbour</title>" in (tmp_path / "a.html").read_text("utf-8")

    @pytest.mark.skipif(os.name != "posix", reason="rights of this kind")
    def test_others_may_read_it_as_any_new_file(self, sound, tmp_path):
        (tmp_path / "plain").write_text("")
        report.save(sound, tmp_path / "a.html")
        assert (tmp_path / "a.html").stat().st_mode == (tmp_path / "plain").stat().st_mode

    @pytest.mark.parametrize("linked", [True, False])
    def test_what_came_to_be_there_meanwhile_is_kept(self, sound, tmp_path, monkeypatch, linked):
        """Also on a drive that knows no second names for a file."""
        place, write = tmp_path / "a.html", saving._written

        def while_another_writes(*told):
            place.write_text("mine")
            return write(*told)

        monkeypatch.setattr(saving, "_written", while_another_writes)
        if not linked:
            monkeypatch.setattr(os, "link", refuse)
        with pytest.raises(CannotSave, match="a.html is there already: add --force to write over it"):
            report.save(sound, place)
        assert place.read_text() == "mine" and files(tmp_path) == ["a.html"]
        report.save(sound, place, force=True)
        assert place.read_text("utf-8").startswith("<!DOCTYPE html>") and files(tmp_path) == ["a.html"]

    def test_without_second_names_it_still_saves(self, sound, tmp_path, monkeypatch):
        monkeypatch.setattr(os, "link", refuse)
        report.save(sound, tmp_path / "a.html")
        assert files(tmp_path) == ["a.html"]

    @pytest.mark.parametrize("trouble", [KeyboardInterrupt, RuntimeError])
    @pytest.mark.parametrize("name", ["a.html", "a.pdf"])
    def test_a_stop_in_the_middle_leaves_the_old_report_and_no_scrap(self, sound, tmp_path, monkeypatch, trouble, name):
        place = tmp_path / name
        place.write_text("the old report")

        def stopped(draft, path, over):
            assert len(files(tmp_path)) == 2  # the scrap lies in the same folder, so that it can be moved
            raise trouble

        monkeypatch.setattr(kit, "_move", stopped)
        with pytest.raises(trouble):
            report.save(sound, place, force=True)
        assert place.read_text() == "the old report" and files(tmp_path) == [name]

    def test_a_folder_that_cannot_be_written_is_told(self, sound, tmp_path):
        (tmp_path / "file").write_text("")
        with pytest.raises(CannotSave, match="cannot be written .*: choose a folder of your own"):
            report.save(sound, tmp_path / "file" / "a.html")

    def test_only_reports_are_saved(self, sound, tmp_path):
        with pytest.raises(CannotSave, match="got .*a.txt"):
            report.save(sound, tmp_path / "a.txt")
        assert files(tmp_path) == []


def refuse(*names):
    raise OSError("this drive knows no second names")


class TestCommand:
    def test_one_sheet_prints_its_review_and_names_its_report(self, typed, tmp_path):
        code, out, err = typed(FAULTY, "--save", "seen.html")
        assert (code, err) == (NOT_YET, "") and files(tmp_path) == ["seen.html"]
        assert "Stop (edges-differ)" in out and out.endswith("Report: seen.html\n")

    @pytest.mark.parametrize("option, there", [((), False), (("--teacher",), True)])
    def test_only_the_teachers_copy_names_lines_checks_and_commands(self, typed, tmp_path, option, there):
        typed(FAULTY, "--save", "seen.html", *option)
        page = (tmp_path / "seen.html").read_text("utf-8")
        for word in (f"{FAULTY.name}, line ", "edges-differ", "quiltmath why "):
            assert (word in page) == there

    def test_a_teachers_copy_without_a_report_is_refused(self, typed):
        code, out, err = typed(FAULTY, "--teacher")
        assert (code, out) == (UNREADABLE, "") and "--teacher goes with --save: write for example --save" in err

    def test_json_is_printed_alone(self, typed, tmp_path):
        code, out, err = typed(SOUND, "--save", "seen.pdf", "--json")
        assert code == GO and out.startswith("{") and out.endswith("}\n") and err == "Report: seen.pdf\n"

    def test_force_writes_over_and_nothing_else_does(self, typed, tmp_path):
        (tmp_path / "seen.html").write_text("mine")
        code, out, err = typed(SOUND, "--save", "seen.html")
        assert (code, out) == (UNREADABLE, "") and "seen.html is there already: add --force" in err
        assert (tmp_path / "seen.html").read_text() == "mine"
        assert typed(SOUND, "--save", "seen.html", "--force")[0] == GO
        assert (tmp_path / "seen.html").read_text("utf-8") != "mine"

    def test_many_sheets_have_a_report_each_and_a_summary(self, typed, tmp_path):
        code, out, err = typed(SOUND, FAULTY, OTHER, "--save", "seen/")
        assert (code, err) == (NOT_YET, "")
        assert files(tmp_path / "seen") == [
            f"{sheet.stem}.html" for sheet in sorted((SOUND, FAULTY, OTHER), key=lambda s: s.stem)
        ]
        lines = out.splitlines()
        assert len(lines) == 4 and lines[0].split() == ["Verdict", "Stop", "Ask", "Note", "Finishes", "Sheet"]
        assert [line.split()[0] for line in lines[1:]] == ["go", "stop", "go"]
        assert lines[2].split()[1:4] == ["1", "0", "0"] and "80 by 100 cm" in lines[3]
        assert all(
            str(Path("seen") / f"{sheet.stem}.html") in line for sheet, line in zip((SOUND, FAULTY, OTHER), lines[1:])
        )

    def test_without_reports_the_reviews_are_printed_too(self, typed):
        code, out, _ = typed(SOUND, FAULTY)
        assert code == NOT_YET
        assert out.index("Rails by the harbour") < out.index("Stop (edges-differ)") < out.index("Verdict   Stop")

    def test_one_that_cannot_be_read_does_not_stop_the_others(self, typed, tmp_path):
        (tmp_path / "broken.toml").write_text("title = ")
        code, out, err = typed(SOUND, "broken.toml", "nowhere.toml", OTHER, "--save", "{}.html")
        assert code == UNREADABLE
        assert files(tmp_path) == ["broken.toml", f"{OTHER.stem}.html", f"{SOUND.stem}.html"]
        assert "broken.toml, line 1" in err and "nowhere.toml: there is no such file" in err
        assert [line[:10].strip() for line in out.splitlines()[1:]] == ["go", "not read", "not read", "go"]

    def test_one_report_that_cannot_be_written_does_not_stop_the_others(self, typed, tmp_path, monkeypatch):
        save = report.save

        def full(found, place, *more):
            if place.stem == SOUND.stem:
                raise CannotSave(f"{place} cannot be written (no room): choose a folder of your own")
            return save(found, place, *more)

        monkeypatch.setattr(report, "save", full)
        code, out, err = typed(SOUND, OTHER, "--save", "seen/")
        assert code == UNREADABLE and files(tmp_path / "seen") == [f"{OTHER.stem}.html"]
        assert "no room" in err and "→" not in out.splitlines()[1] and "→" in out.splitlines()[2]

    def test_a_stop_leaves_the_reports_that_are_finished(self, typed, tmp_path, monkeypatch):
        """Ctrl-C while the second of three is written."""
        write, written = saving._written, []

        def stopped(said, title, kind):
            written.append(title)
            if len(written) == 2:
                raise KeyboardInterrupt
            return write(said, title, kind)

        monkeypatch.setattr(saving, "_written", stopped)
        code, _, err = typed(SOUND, FAULTY, OTHER, "--save", "seen/")
        assert code == UNREADABLE and err == "\nStopped.\n"
        assert files(tmp_path / "seen") == [f"{SOUND.stem}.html"]
        assert (tmp_path / "seen" / f"{SOUND.stem}.html").read_text("utf-8").endswith("</html>\n")

    def test_ambiguity_is_refused_before_anything_is_done(self, typed, tmp_path):
        code, out, err = typed(SOUND, FAULTY, "--save", "both.pdf")
        assert (code, out) == (UNREADABLE, "") and "name a folder, such as reports/" in err
        assert files(tmp_path) == []

    def test_a_terminal_sees_progress_and_a_file_does_not(self, typed):
        with redirect_stderr(Terminal()) as terminal:
            _, out, _ = typed(SOUND, "nowhere.toml", "--save", "seen/")
        said = terminal.getvalue().splitlines()
        assert said[0] == f"[1/2] {SOUND}: go" and said[-1] == "[2/2] nowhere.toml: not read"
        assert "[1/2]" not in out

    def test_one_sheet_is_no_progress(self, typed):
        with redirect_stderr(Terminal()) as terminal:
            _, out, _ = typed(SOUND)
        assert terminal.getvalue() == "" and "Verdict   " not in out

    def test_names_of_files_cannot_move_the_cursor(self):
        out, terminal = StringIO(), Terminal()
        assert many.reviewed(["\x1b[2Ja\u202e.toml", "b\x07.toml"], out=out, err=terminal) == UNREADABLE
        for line in (out.getvalue() + terminal.getvalue()).splitlines():
            assert line.isprintable()

    def test_a_plain_review_loads_no_matplotlib(self):
        """The report in HTML neither; a PDF does."""
        code = (
            "import sys\nfrom quiltmath.__main__ import main\n"
            f"main(['review', {str(SOUND)!r}])\nassert 'matplotlib' not in sys.modules\n"
            "import quiltmath.review.report\nassert 'matplotlib' not in sys.modules"
        )
        subprocess.run([sys.executable, "-c", code], check=True, stdout=subprocess.DEVNULL)
