"""What commands are given and give away: pipes that close, disks that are full, standard input, odd names of files."""

import json
import os
import signal
import subprocess
import sys
import time
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest

from quiltmath.__main__ import GO, NOT_YET, UNREADABLE
from quiltmath.output import ended_by_ctrl_c
from quiltmath.resources import DRAFT, AlreadyThere, folder, save

PATTERNS = folder("data") / "patterns"
SOUND = PATTERNS / "sound" / "rails-from-strip-sets.toml"
FAULTY = PATTERNS / "faulty" / "edges-differ-plain-strips.toml"
LONG = "a" * 300


def run(*arguments, **more):
    """A command as a program of its own."""
    return subprocess.run(
        [sys.executable, "-m", "quiltmath", *map(str, arguments)],
        check=False,
        timeout=120,
        **{"stdout": subprocess.PIPE, "stderr": subprocess.PIPE, **more},
    )


@pytest.fixture
def closed_pipe():
    """A pipe whose reader has gone away."""
    read, write = os.pipe()
    os.close(read)
    with os.fdopen(write, "wb") as pipe:
        yield pipe


class TestReaderGone:
    @pytest.mark.parametrize(
        "asked, code",
        [
            (["review", FAULTY], NOT_YET),
            (["review", "--json", FAULTY], NOT_YET),
            (["review", SOUND, FAULTY], NOT_YET),
            (["review", SOUND], GO),
            (["review", "nowhere.toml"], UNREADABLE),
            (["why"], GO),
            (["--help"], GO),
        ],
        ids=str,
    )
    def test_the_exit_code_is_that_of_the_verdict_all_the_same(self, closed_pipe, asked, code):
        ended = run(*asked, stdout=closed_pipe)
        assert ended.returncode == code and b"Traceback" not in ended.stderr

    def test_a_report_is_saved_all_the_same(self, closed_pipe, tmp_path):
        ended = run("review", FAULTY, "--save", tmp_path / "seen.html", stdout=closed_pipe)
        assert (ended.returncode, ended.stderr) == (NOT_YET, b"")
        assert (tmp_path / "seen.html").read_text("utf-8").endswith("</html>\n")

    @pytest.mark.parametrize("stream", ["stdout", "stderr"])
    def test_streams_that_were_closed_from_the_start(self, stream):
        program = [sys.executable, "-m", "quiltmath", "review", str(FAULTY), "nowhere.toml"]
        redirection = {"stdout": ">&-", "stderr": "2>&-"}[stream]
        ended = subprocess.run(["sh", "-c", f'"$@" {redirection}', "sh", *program], check=False, capture_output=True)
        assert ended.returncode == UNREADABLE and b"Traceback" not in ended.stderr


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="this system has no /dev/full")
class TestDiskFull:
    @pytest.mark.parametrize("asked", [["review", FAULTY], ["review", "--json", SOUND], ["why"], ["--help"]], ids=str)
    def test_it_is_told_in_one_line(self, asked):
        with open("/dev/full", "wb") as full:
            ended = run(*asked, stdout=full)
        assert ended.returncode == UNREADABLE
        assert ended.stderr.startswith(b"quiltmath: standard output cannot be written (No space left on device): ")
        assert ended.stderr.count(b"\n") == 1

    def test_what_cannot_be_complained_of_changes_no_exit_code(self):
        with open("/dev/full", "wb") as full:
            assert run("review", "nowhere.toml", SOUND, stderr=full).returncode == UNREADABLE


class TestStandardInput:
    @pytest.mark.parametrize(
        "name", ["-", pytest.param("/dev/stdin", marks=pytest.mark.skipif(os.name != "posix", reason="no such name"))]
    )
    def test_a_sheet_comes_through_a_pipe(self, name, tmp_path):
        ended = run("review", name, "--json", "--save", tmp_path / "seen.html", input=FAULTY.read_bytes())
        assert ended.returncode == NOT_YET and json.loads(ended.stdout)["verdict"] == "stop"
        assert "edges-differ" in json.loads(ended.stdout)["findings"][0]["check"]
        assert (tmp_path / "seen.html").exists()

    def test_what_is_wrong_with_it_is_said_of_standard_input(self):
        ended = run("review", "-", input=b"title = x\n")
        assert ended.returncode == UNREADABLE
        assert ended.stderr.startswith(b"quiltmath: standard input, line 1: this is not TOML")

    def test_its_report_in_a_folder_has_a_name(self, tmp_path):
        run("review", "-", "--save", f"{tmp_path}/", input=SOUND.read_bytes())
        assert [path.name for path in tmp_path.iterdir()] == ["sheet.html"]

    def test_none_at_all(self):
        program = [sys.executable, "-m", "quiltmath", "review", "-"]
        ended = subprocess.run(["sh", "-c", '"$@" <&-', "sh", *program], check=False, capture_output=True)
        assert ended.returncode == UNREADABLE and b"name a file, or pipe a sheet in" in ended.stderr


class TestNames:
    @pytest.mark.parametrize(
        "asked",
        [[f"{LONG}.toml"], [SOUND, "--save", f"{LONG}.html"], [SOUND, "--save", f"{LONG}/"]],
        ids=["sheet", "report", "folder"],
    )
    def test_one_of_300_letters_is_told_in_one_line(self, asked, tmp_path):
        ended = run("review", *asked, cwd=tmp_path, env={**os.environ, "PYTHONPATH": str(Path(folder("data")).parent)})
        assert ended.returncode == UNREADABLE
        assert ended.stderr.startswith(b"quiltmath: aaa") and ended.stderr.count(b"\n") == 1
        assert b"name too long" in ended.stderr and len(ended.stderr) < 300


class TestFiles:
    @pytest.mark.skipif(os.name != "posix", reason="links of this kind")
    def test_over_a_link_its_target_is_written(self, tmp_path):
        (tmp_path / "far").mkdir()
        target, link = tmp_path / "far" / "mine.html", tmp_path / "link.html"
        target.write_text("old")
        link.symlink_to(target)
        with pytest.raises(AlreadyThere):
            save(link, b"new")
        save(link, b"new", over=True)
        assert link.is_symlink() and target.read_text() == "new"
        assert [path.name for path in target.parent.iterdir()] == ["mine.html"]

    @pytest.mark.skipif(os.name != "posix", reason="a signal of this kind")
    def test_what_a_killed_run_left_is_taken_away_by_the_next(self, tmp_path):
        program = (
            "import sys, time; from quiltmath import resources\n"
            "resources._move = lambda *of: (print(flush=True), time.sleep(60))\n"
            f"resources.save({str(tmp_path / 'a.html')!r}, b'half')"
        )
        with subprocess.Popen([sys.executable, "-c", program], stdout=subprocess.PIPE) as other:
            other.stdout.readline()
            assert [path.name.startswith(DRAFT) for path in tmp_path.iterdir()] == [True]
            save(tmp_path / "b.html", b"whole")
            assert len(list(tmp_path.iterdir())) == 2  # the other run is alive and keeps what it writes
            other.kill()
            other.wait()
        save(tmp_path / "c.html", b"whole")
        assert sorted(path.name for path in tmp_path.iterdir()) == ["b.html", "c.html"]


class TestThreads:
    def test_one_thread_at_a_time_draws_with_matplotlib(self, monkeypatch):
        """Its fonts are shared: PDFs set at the same time crash it once in a while."""
        from io import BytesIO

        from quiltmath.review.report import as_pdf
        from quiltmath.review.report.contents import Paragraph

        inside, most, pages = [], [], as_pdf.pages

        def watched(*given):
            inside.append(1)
            time.sleep(0.05)
            most.append(len(inside))
            yield from pages(*given)
            inside.pop()

        monkeypatch.setattr(as_pdf, "pages", watched)
        with ThreadPoolExecutor(4) as pool:
            files = [BytesIO() for _ in range(4)]
            list(pool.map(lambda file: as_pdf.save_pdf([Paragraph("A page.")], "small", file), files))
        assert most == [1] * 4

    def test_words_are_measured_by_several_threads_at_once(self):
        """In a process of its own: a font that two threads use at the same time ends it."""
        measured = """
from concurrent.futures import ThreadPoolExecutor
from quiltmath.draw.typeset import wide
texts = [f"{count} squares" for count in range(200)]
def widths(points): return [wide(text, points) for text in texts]
with ThreadPoolExecutor(8) as pool: at_once = list(pool.map(widths, range(8, 16)))
wide.cache_clear()
assert at_once == [widths(points) for points in range(8, 16)]
"""
        done = subprocess.run([sys.executable, "-c", measured], capture_output=True, text=True, check=False)
        assert (done.returncode, done.stderr) == (0, "")


PRESSED_WHILE_LOADING = """
import os, runpy, signal, sys
class Pressing:
    def find_spec(self, name, *_):
        if name == module:
            sys.meta_path.remove(self)
            os.kill(os.getpid(), signal.SIGINT)
signal.signal(signal.SIGINT, signal.default_int_handler)  # a shell's background job is born without it
module, *sys.argv = sys.argv[1], "quiltmath", *sys.argv[2:]
sys.meta_path.insert(0, Pressing())
runpy.run_module("quiltmath", run_name="__main__")
"""


class TestStopped:
    @pytest.mark.skipif(os.name != "posix", reason="a signal of this kind")
    @pytest.mark.parametrize("module", ["quiltmath.output", "numpy", "pydantic", "quiltmath.review.checks"])
    def test_ctrl_c_while_it_still_loads_is_one_line(self, module):
        command = [sys.executable, "-c", PRESSED_WHILE_LOADING, module, "review", str(SOUND)]
        done = subprocess.run(command, capture_output=True, check=False)
        assert (done.returncode, done.stdout, done.stderr) == (UNREADABLE, b"", b"\nStopped.\n")

    def test_what_a_package_makes_of_ctrl_c_is_still_ctrl_c(self):
        """As NumPy does, which calls it a bad installation."""
        before = signal.getsignal(signal.SIGINT)
        with pytest.raises(KeyboardInterrupt), ended_by_ctrl_c():
            try:
                signal.raise_signal(signal.SIGINT)
            except KeyboardInterrupt:
                raise ImportError("a bad installation") from None
        assert signal.getsignal(signal.SIGINT) == before
        with pytest.raises(ImportError), ended_by_ctrl_c():
            raise ImportError("a bad installation")
