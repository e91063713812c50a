"""What stands on every page of a handout, the parts it has, and the one file it is saved to."""

import re
import subprocess
from unittest import mock

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quiltmath import pattern, resources, review, settings
from quiltmath.draw import typeset
from quiltmath.draw.typeset import SMALL, cut_short, wide, wrapped
from quiltmath.handout import PAPERS, PARTS, CannotHandOver, Pages, handout, paper
from quiltmath.handout.boxes import listed
from quiltmath.handout.parts import passing
from quiltmath.resources import folder

from .on_paper import is_readable, pdf_of, words

PATTERNS = folder("data") / "patterns"
LONG = "A quilt for a very long bench " * 340  # 10,200 signs


def reviewed(name):
    return review.review(pattern.read(PATTERNS / f"{name}.toml"))


class TestPaper:
    @pytest.mark.parametrize(
        "environment, name",
        [
            ({"LANG": "en_US.UTF-8"}, "Letter"),
            ({"LANG": "es_MX"}, "Letter"),
            ({"LANG": "en_GB.UTF-8"}, "A4"),
            ({"LANG": "de_DE.UTF-8@euro"}, "A4"),
            ({"LANG": "en_US.UTF-8", "LC_PAPER": "de_DE.UTF-8"}, "A4"),
            ({"LANG": "de_DE", "LC_PAPER": "de_DE", "LC_ALL": "en_CA"}, "Letter"),
            ({"LANG": "C.UTF-8"}, "A4"),
            ({"LANG": "", "LC_ALL": "POSIX"}, "A4"),
            ({}, "A4"),
            ({"LANG": "en"}, "A4"),
        ],
    )
    def test_it_is_the_usual_one_of_the_country(self, environment, name):
        assert paper(environment=environment).name == name

    def test_a_name_is_stronger_than_the_country(self):
        assert paper("letter", {"LANG": "de_DE"}).name == "Letter"
        assert paper(" A4 ", {"LANG": "en_US"}).name == "A4"

    @pytest.mark.parametrize("name, size", [("Letter", "612 x 792 pts (letter)"), ("A4", "595.276 x 841.89 pts (A4)")])
    def test_a_page_is_as_large_as_its_paper(self, name, size, tmp_path):
        on = PAPERS[name]
        (tmp_path / "one.pdf").write_bytes(pdf_of(on.page("Cutting"), on))
        said = subprocess.run(["pdfinfo", tmp_path / "one.pdf"], capture_output=True, text=True, check=True).stdout
        assert size in said

    def test_boxes_flow_over_pages_and_stay_between_title_and_footer(self):
        on = PAPERS["A4"]
        items = [f"Sentence number {number} of many that do not fit on one page." for number in range(120)]
        pages = list(on.flow(listed(on, items, numbered=True), "Many"))
        assert len(pages) > 2
        for page in pages:
            is_readable(page)
            lowest = max(text.get_position()[1] for text in page.axes.texts)
            assert lowest <= on.top + on.depth
        found = [text.get_text() for page in pages for text in page.axes.texts]
        assert [item for item in items if item not in found] == []


class TestPages:
    def test_every_page_is_numbered_and_bears_title_and_part(self):
        on = PAPERS["Letter"]
        pages = Pages("Lap quilt", on)
        pages.add("pattern", [on.page("One"), on.page("Two")])
        pages.add("charts", [on.page("Three")])
        said = words(pages.pdf())
        for number, part in enumerate(("pattern", "pattern", "charts"), 1):
            assert f"{part} · page {number} of 3" in said
        assert said.count("Lap quilt") == 3

    def test_it_can_be_written_twice_and_comes_out_the_same(self):
        pages = Pages("Lap quilt", PAPERS["A4"])
        pages.add("pattern", [PAPERS["A4"].page("One")])
        assert pages.pdf() == pages.pdf()

    def test_fonts_are_embedded_as_truetype(self, tmp_path):
        (tmp_path / "one.pdf").write_bytes(pdf_of(PAPERS["A4"].page("Größe ⅞ ≠"), PAPERS["A4"]))
        said = subprocess.run(["pdffonts", tmp_path / "one.pdf"], capture_output=True, text=True, check=True).stdout
        fonts = said.splitlines()[2:]
        assert fonts and all("TrueType" in font and font.split()[-5] == "yes" for font in fonts)

    def test_a_title_of_ten_thousand_signs_is_cut_short_on_the_page(self):
        on = PAPERS["A4"]
        pages = Pages(LONG, on)
        pages.add("pattern", [on.page(LONG)])
        for figure in pages.figures():
            widest = max(wide(text.get_text(), SMALL) for text in figure.axes[0].texts)
            assert widest <= on.room
        assert "…" in words(pages.pdf())

    def test_a_sheet_with_such_a_title_is_refused_with_its_line(self):
        content = (PATTERNS / "sound" / "library-lap-quilt.toml").read_text("utf-8")
        title = content.splitlines()[next(n for n, line in enumerate(content.splitlines()) if line.startswith("title"))]
        with pytest.raises(
            pattern.Unreadable, match=r"line \d+: a line of a pattern sheet has at most 6,000 characters"
        ):
            pattern.read_text(content.replace(title, f'title = "{LONG}x"'))


class TestSave:
    def pages(self):
        pages = Pages("Lap quilt", PAPERS["A4"])
        pages.add("pattern", [PAPERS["A4"].page("One")])
        return pages

    def test_it_is_one_pdf_in_a_folder_made_where_it_is_missing(self, tmp_path):
        place = self.pages().save(tmp_path / "new" / "lap.PDF")
        assert place.read_bytes().startswith(b"%PDF-")
        assert [file.name for file in place.parent.iterdir()] == ["lap.PDF"]

    def test_another_kind_of_file_is_refused(self, tmp_path):
        with pytest.raises(resources.CannotSave, match=r"a handout is a \.pdf file; got .*lap\.doc: write for example"):
            self.pages().save(tmp_path / "lap.doc")

    def test_a_file_that_is_there_stays_unless_forced(self, tmp_path):
        place = tmp_path / "lap.pdf"
        place.write_bytes(b"mine")
        with pytest.raises(resources.CannotSave, match=r"lap\.pdf is there already: add --force to write over it"):
            self.pages().save(place)
        assert place.read_bytes() == b"mine"
        self.pages().save(place, force=True)
        assert place.read_bytes().startswith(b"%PDF-")

    def test_a_folder_that_cannot_be_written_leaves_nothing_behind(self, tmp_path, monkeypatch):
        def locked(*given, **named):
            raise PermissionError(13, "Permission denied")

        monkeypatch.setattr(resources.tempfile, "NamedTemporaryFile", locked)
        with pytest.raises(
            resources.CannotSave, match=r"cannot be written \(Permission denied\): choose a folder of your"
        ):
            self.pages().save(tmp_path / "lap.pdf")
        assert list(tmp_path.iterdir()) == []

    def test_a_page_that_fails_leaves_nothing_behind(self, tmp_path):
        pages = self.pages()

        def broken():
            yield PAPERS["A4"].page("Two")
            raise ValueError("no such size")

        with pytest.raises(ValueError, match="no such size"):
            pages.add("charts", broken())
        assert list(tmp_path.iterdir()) == []


class TestParts:
    def test_names_are_told_apart_and_explained(self):
        assert len({part.name for part in PARTS}) == len(PARTS)
        assert all(part.holds and part.name.isalpha() for part in PARTS)

    def test_a_sheet_gets_the_usual_parts(self):
        said = words(handout(reviewed("sound/library-lap-quilt"), paper_name="A4").pdf())
        for part in PARTS:
            assert (f"{part.name} · page" in said) == part.usual, part.name

    def test_only_the_named_parts_come_and_in_their_own_order(self):
        pages = handout(reviewed("sound/library-lap-quilt"), ["charts", "pattern"], "Letter")
        said = words(pages.pdf())
        assert said.index("pattern · page 1") < said.index("charts · page")
        assert "cutting · page" not in said and pages.paper.name == "Letter"

    def test_a_wrong_part_lists_what_there_is(self):
        names = ", ".join(part.name for part in PARTS)
        with pytest.raises(CannotHandOver, match=f"a handout has the parts {names}; got 'chart': write for example"):
            handout(reviewed("sound/library-lap-quilt"), ["chart"])

    def test_charts_need_no_sheet_and_a_pattern_does(self):
        assert len(handout(None, ["charts"], "A4")) == 1
        with pytest.raises(CannotHandOver, match="a sheet is needed for pattern; got none: name the file of one"):
            handout(None, ["charts", "pattern"], "A4")

    def test_a_faulty_sheet_is_handed_over_corrected(self):
        found = reviewed("faulty/cut-size-small-corners")
        assert found.verdict == "stop" and passing(found).verdict == "go"
        said = words(handout(found, ["pattern"], "A4").pdf())
        assert re.search(r"corner +2 +7 1/4 in", said) and not re.search(r"\b6 3/8 in", said.replace("76 3/8 in", ""))

    def test_a_typo_that_stops_nobody_is_not_handed_on(self):
        """A border pieced from units whose finished size is printed as what their squares are cut."""
        sound = reviewed("sound/half-drop-geese").reading
        found = review.review(sound.changed((("unit", "goose-unit", "finished"), "6 x 3 7/8")).sheet)
        assert found.verdict == "go" and [one.level for one in found.findings] == ["note"]
        assert passing(found).sheet.unit["goose-unit"].finished == (6, 3)
        said = words(handout(found, ["pattern"], "A4").pdf())
        assert "3 7/8 in" in said and not re.search(r"\b6 (by|x) 3 7/8", said)

    def test_a_quilt_larger_than_any_is_not_printed(self):
        found = review.review(settings.straight(across=2, down=26, block=6).sheet())
        assert found.verdict == "go"
        with pytest.raises(CannotHandOver, match="at most 150 in a side; got 12 by 156 in: look at how many blocks"):
            handout(found, paper_name="A4")

    @pytest.mark.parametrize("name", ["print-turned-boats-on-point"])
    def test_what_only_the_designer_can_settle_is_not_handed_over(self, name):
        found = reviewed(f"faulty/{name}")
        with pytest.raises(CannotHandOver, match="is not ready to be handed over, even corrected: ") as refused:
            handout(found, paper_name="A4")
        assert found.correction.missing[0] in str(refused.value)


class TestWords:
    @pytest.mark.parametrize("room", [40, 90, 300])
    def test_what_is_cut_short_fits_and_could_not_be_longer(self, room):
        short = cut_short(LONG, room, 10)
        assert wide(short, 10) <= room
        assert wide(LONG[: len(short)] + "…", 10) > room

    def test_a_text_that_fits_stays(self):
        assert cut_short("Lap quilt", 300, 10) == "Lap quilt"

    def test_a_word_of_ten_thousand_signs_is_broken(self):
        lines = wrapped("W" * 10_000, 500, 10)
        assert "".join(lines) == "W" * 10_000 and all(wide(line, 10) <= 500 for line in lines)

    @given(
        st.lists(st.text("fijlrtAVWTy.,'1/4 ½√×…éש", min_size=1, max_size=12), max_size=40).map(" ".join),
        st.floats(20, 600),
        st.sampled_from([8, 9.5, 14]),
        st.booleans(),
    )
    def test_lines_break_where_they_would_if_each_were_measured_whole(self, text, room, points, bold):
        lines = wrapped(text, room, points, bold)
        with mock.patch.object(typeset, "_fits", lambda text, room, *look: wide(text, *look) <= room):
            assert wrapped(text, room, points, bold) == lines
