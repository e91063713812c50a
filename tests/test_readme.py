"""The README: what it shows is what the kit says now, and its lines and sheet work."""

import re
import tomllib
from io import BytesIO

import numpy as np
import pytest
from matplotlib.image import imread

from quiltmath import frontispiece, pattern, proofs, review, settings
from quiltmath.__main__ import GO, NOT_YET, UNREADABLE, main
from quiltmath.draw import png
from quiltmath.resources import folder

from .readme import PICTURE, README, ROOT, refreshed

TEXT = README.read_text("utf-8")
TILE = 10  # px: letters may be drawn a hair differently from one matplotlib to the next,
CHANGED = 0.15  # of full scale: but no tile of the picture may change by more


def blocks(language):
    """The code blocks in this language."""
    return re.findall(rf"```{language}\n(.*?)```", TEXT, re.DOTALL)


def changed(one, other):
    """How many tiles of a picture differ from those of another of its size."""
    high, wide = (side // TILE for side in one.shape[:2])

    def tiles(picture):
        cut = picture[: high * TILE, : wide * TILE, :3]
        return cut.reshape(high, TILE, wide, TILE, 3).mean(axis=(1, 3))

    return int((np.abs(tiles(one) - tiles(other)).max(axis=-1) > CHANGED).sum())


class TestWhatIsGenerated:
    def test_it_is_what_the_kit_says_now(self):
        assert refreshed(TEXT) == TEXT, "write it afresh: python -m tests.readme"

    def test_the_picture_is_what_the_kit_draws_now(self):
        kept = imread(ROOT / PICTURE.search(TEXT)[1])
        drawn = imread(BytesIO(png(frontispiece.picture(), frontispiece.WIDTH)))
        assert kept.shape == drawn.shape, "draw it afresh: python -m tests.readme"
        assert changed(kept, drawn) == 0, "draw it afresh: python -m tests.readme"

    @pytest.mark.parametrize("left_out", frontispiece.SHOWN)
    def test_a_picture_without_something_would_be_noticed(self, monkeypatch, left_out):
        kept = imread(folder("data").joinpath(*frontispiece.PLACE))
        monkeypatch.setattr(frontispiece, "SHOWN", [one for one in frontispiece.SHOWN if one != left_out])
        drawn = imread(BytesIO(png(frontispiece.picture(), frontispiece.WIDTH)))
        assert kept.shape != drawn.shape or changed(kept, drawn) > 0

    def test_no_other_number_stands_in_the_prose(self):
        prose = PICTURE.sub("", re.sub(r"```.*?```|`[^`\n]*`|<!--.*?-->", "", TEXT, flags=re.DOTALL))
        needed = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]["requires-python"]
        stated = [
            f"Python {needed.removeprefix('>=')} or newer",
            f"exits with {GO} for go, {NOT_YET} for ask or stop, {UNREADABLE} for a sheet",
        ]
        prose = " ".join(prose.split())
        for words in stated:
            assert words in prose
            prose = prose.replace(words, "")
        assert re.findall(r".{0,30}\d.{0,30}", prose) == []


class TestSetUp:
    def test_there_are_two_lines_and_the_same_two_for_windows(self):
        lines = "".join(blocks("sh")).splitlines()
        windows = "".join(blocks("powershell")).splitlines()
        assert len(lines) == 2
        assert [
            line.replace(" &&", ";").replace("python3", "py").replace("/bin/", "\\Scripts\\") for line in lines
        ] == windows

    def test_a_line_makes_an_environment_installs_and_runs(self):
        for line, run in zip("".join(blocks("sh")).splitlines(), ("quiltmath open", "pytest")):
            make, install, last = line.split(" && ")
            assert make == "python3 -m venv .venv"
            assert install.startswith(".venv/bin/pip install -q ")
            assert last == f".venv/bin/{run}"

    def test_the_sheet_offered_for_a_first_review_is_there(self):
        sheet = re.search(r"With `review (\S+)`", TEXT)[1]
        assert review.review(pattern.read(ROOT / sheet)).verdict == "go"


class TestCommands:
    def test_every_option_it_names_is_one_and_every_one_of_the_review_is_named(self, capsys):
        named, known = set(re.findall(r"`(--[a-z]+)", TEXT)), set()
        for command in ("review", "draft", "plan", "handout", "open", "why"):
            assert main([command, "--help"]) == 0
            options = set(re.findall(r"--[a-z]+", capsys.readouterr().out))
            known |= options
            if command == "review":
                assert options - named == {"--help", "--force"}
        assert named <= known


class TestSheet:
    SHEET = blocks("toml")[0]

    def test_it_is_read_and_a_go(self):
        found = review.review(pattern.read_text(self.SHEET, "README.md"))
        assert (found.verdict, found.findings) == ("go", ())

    def test_its_sizes_and_counts_are_those_of_the_proofs(self):
        sheet = pattern.read_text(self.SHEET)
        setting, finished = sheet.setting, sheet.block["four"].finished[0]
        plan = settings.on_point(across=setting.across, down=setting.down, block=finished)
        side, corner, dark = (sheet.part(part) for part in ("side", "corner", "dark"))
        assert side.size[0] == proofs.side_triangle.cut(block=finished, step="1/4")
        assert corner.size[0] == proofs.corner_triangle.cut(block=finished)
        assert (side.gives, corner.gives) == (plan.side_triangles, plan.corner_triangles)
        assert dark.count == 2 * plan.blocks
        assert dark.size[0] == dark.finished[0] + 2 * sheet.seam
