"""Sheets drafted from printed pages: what lines in many hands yield, that no figure is lost, what is asked, what is
refused."""

import re
import tomllib
from io import BytesIO, StringIO

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pypdf import PdfWriter
from pypdf.generic import DecodedStreamObject, DictionaryObject, NameObject

from quiltmath import lengths, pattern
from quiltmath.__main__ import main
from quiltmath.pattern.drafting import Unreadable
from quiltmath.pattern.drafting.characters import plain
from quiltmath.pattern.drafting.page import LONGEST, Page
from quiltmath.pattern.drafting.page_files import LARGEST, until_too_long
from quiltmath.pattern.drafting.reader import Reader
from quiltmath.pattern.sheet import EXAMPLE

from . import drafting
from .guide import FERRY, section, walk

CORPUS = [line.page for name in drafting.LISTS for line in drafting.lines(name)]
PAGE = """\
Harbour lights
Finished quilt: 52" x 64"
Navy print: 1 3/4 yards
Cream: 2 yards
CUTTING
From navy print, cut:
20 squares 3 7/8"
4 squares 14", cut twice on the diagonal for the sides
2 squares 7 1/4", cut once on the diagonal for the corners
From cream, cut:
20 squares 3 7/8"
12 setting squares 9 1/2"
5 - 7/8" squares
Inner border: 5 strips 1 1/2" x WOF
Binding: 6 strips 2 1/2" x WOF
ASSEMBLY
Sew the units together. Press toward the dark.
"""


@pytest.fixture(scope="module")
def drafted():
    return pattern.draft(PAGE, "lights.txt")


def refused(text, name="page.txt"):
    """The message with which a page is refused: one line that can be printed."""
    with pytest.raises(Unreadable) as caught:
        pattern.draft(text, name)
    assert str(caught.value).isprintable() and len(str(caught.value)) < 300
    return str(caught.value)


class TestLines:
    @pytest.mark.parametrize("name", drafting.LISTS)
    def test_no_line_is_misread_or_passed_over(self, name):
        came = [(line.page, drafting.outcome(line)) for line in drafting.lines(name)]
        assert [(page, read) for page, (how, read) in came if how in ("wrong", "missed")] == []
        assert sum(how == "exact" for _, (how, _) in came) >= 0.95 * len(came)

    @pytest.mark.parametrize(
        "set_otherwise",
        [
            lambda page: " \n ".join(page.split("\n")),
            lambda page: re.sub(r"\((\d{1,3})\)", r"[\1]", page),
            lambda page: re.sub(r"(?m)^(\d{1,3})(?= (?:squares|rectangles|strips))", r"(\1)", page),
        ],
        ids=["blanks", "square brackets", "counts in brackets"],
    )
    def test_how_a_page_is_set_changes_nothing_that_is_read(self, set_otherwise):
        changed = [(page, set_otherwise(page)) for page in CORPUS[::20]]
        pairs = [(page, drafting.drafted(page), drafting.drafted(other)) for page, other in changed if other != page]
        assert pairs and [page for page, read, other in pairs if read[0] != other[0] and not other[1]] == []

    def test_the_wordings_are_all_exact(self):
        assert {drafting.outcome(line)[0] for line in drafting.lines("wordings")} == {"exact"}

    @given(
        count=st.integers(1, 99),
        eighths=st.integers(8, 160),
        said=st.sampled_from(["squares", "Squares", "sq."]),
        way=st.sampled_from(
            ['({n}) {s}" {w}', '{n} {w} {s}"', "{n} – {s}″ {w}", "{s} inch {w}: {n}", "{n} {w} {s} x {s}"]
        ),
        unicode=st.booleans(),
    )
    @settings(max_examples=60, deadline=None)
    def test_a_count_and_a_size_are_read_in_every_order(self, count, eighths, said, way, unicode):
        size = lengths.text(lengths.parse(eighths / 8), unicode=unicode)
        if "/" not in size and size.isdigit():
            size += ".0"  # a whole number alone would be a second count
        read = Reader(Page(way.format(n=count, s=size, w=said))).all()
        assert read.questions == []
        (entry,) = read.entries
        assert lengths.parse(entry.data["size"]) * 8 == eighths and entry.data["count"] == count

    @given(top=st.integers(10, 999), bottom=st.sampled_from([2, 4, 8]), noun=st.sampled_from(["squares", "strips"]))
    @settings(max_examples=30, deadline=None)
    def test_a_fraction_of_one_or_more_is_never_a_figure(self, top, bottom, noun):
        read = Reader(Page(f'8 {noun} {max(top, bottom)}/{bottom}"')).all()
        assert read.entries == [] and len(read.questions) == 1

    def test_a_comma_before_centimetres_makes_no_length_of_what_is_none(self):
        read = Reader(Page("7 squares 8,5 x 999999999999,5 cm\n8 rectangles 8,5 x 9,5 cm")).all()
        assert [entry.data["size"] for entry in read.entries] == [["8.5 cm", "9.5 cm"]] and len(read.questions) == 1


def pages():
    """Pages of lines in many hands, some with signs lost, added or put in each other's place."""
    signs = st.sampled_from([*' \n\t"()-,.;:x½/aA١', "12", "3 1/2", "from", "each", "WOF"])

    def spoilt(line, places):
        for place, sign in places:
            at = place % (len(line) + 1)
            line = line[:at] + sign + line[at + place % 2 :]
        return line

    line = st.builds(spoilt, st.sampled_from(CORPUS), st.lists(st.tuples(st.integers(0, 200), signs), max_size=3))
    return st.lists(line, min_size=1, max_size=4).map("\n".join)


class TestEveryFigure:
    @given(pages())
    @settings(max_examples=80, deadline=None)
    def test_each_stands_in_an_entry_a_question_or_words_that_are_kept(self, text):
        page = Page(text)
        read = Reader(page).all()
        kept = [one.words for one in (*read.entries, *read.questions)]
        kept += [*read.remarks, *read.instructions, *read.understood]
        for figure in re.finditer(r"\d+", page.plain):
            assert any(one.start <= figure.start() and figure.end() <= one.end for one in kept), figure[0]

    @given(st.one_of(pages(), st.text(max_size=200)))
    @settings(max_examples=50, deadline=None)
    def test_whatever_is_drafted_is_toml_and_is_so_with_every_answer(self, text):
        try:
            drafted = pattern.draft(text)
        except Unreadable as problem:
            assert str(problem).isprintable()
            return
        for one in (drafted, *(drafted.answered(q, choice) for q in drafted.questions for choice in q.choices)):
            tomllib.loads(one.text())

    @given(st.text())
    @settings(max_examples=100, deadline=None)
    def test_one_spelling_keeps_every_sign_in_its_place(self, text):
        assert len(plain(text)) == len(text)

    def test_words_are_found_again_on_the_page(self, drafted):
        for one in (*drafted.entries, *drafted.questions):
            words = one.words
            assert " ".join(PAGE[words.start : words.end].split()) == words.text
            assert PAGE[: words.start].count("\n") + 1 == words.line


class TestWhatIsLost:
    @pytest.mark.parametrize(
        "line",
        [
            'Cut 8 squares 3 1/2"; cut into triangles.',
            'Cut 8 squares 3 1/2". Turn them into triangles.',
            'Cut 8 squares 3 1/2" and mirror them',
            'Cut 8 strips 3 1/2" x 20" in reverse pairs',
            'Cut 8 bias strips 3 1/2" x 20"',
            'Cut 8 squares 3 1/2" on the fold',
            'Cut 8 squares 3 1/2" in pairs',
            'Coral, on the bias:\n8 strips 3 1/2" x 20"',
            'Coral\n8 squares 3 1/2"\nCut half of these diagonally.',
            'Coral\n8 squares 3 1/2"\nCut a second set from lime.',
        ],
    )
    def test_a_word_that_changes_what_is_cut_is_asked_about(self, line):
        assert Reader(Page(line)).all().questions

    @pytest.mark.parametrize("pieces", ['8 squares 3 1/2"', 'Coral: 8 squares 3 1/2"', '4 strips 3" x WOF, coral'])
    @pytest.mark.parametrize(
        "said",
        [
            "{} skewed",
            "{} at 45 degrees",
            "Instead of the above, {}",
            "Optional: {}",
            "For 2 quilts: {}",
            "Large size: {}",
            "Left over: {}",
            "Binding and border: {}",
            "Using template A, {}",
            "Cutting\nFor king size\n{}",
            "Cutting\nAlternate version:\n{}",
            "Cutting\nOptional\n{}",
            "Binding and border:\n{}",
            "Border, binding\n{}",
        ],
    )
    def test_whatever_stands_beside_pieces_and_is_found_in_nothing_is_asked_about(self, pieces, said):
        assert not Reader(Page(pieces)).all().questions
        assert Reader(Page(said.format(pieces))).all().questions

    @pytest.mark.parametrize(
        "line",
        [
            'Carefully cut 8 squares 3 1/2", please, from the coral',
            'To make the roof, cut 8 squares 3 1/2"',
            'You need 8 roofs, so cut 8 squares 3 1/2"',
            'Fabric 2, coral: 8 squares 3 1/2"',
            'For 8 blocks cut 8 squares 3 1/2"',
        ],
    )
    def test_fillers_names_and_purposes_are_not_asked_about(self, line):
        read = Reader(Page(line)).all()
        assert not read.questions
        assert [(one.data["size"], one.data["count"]) for one in read.entries] == [("3 1/2", 8)]

    def test_strips_of_a_fabric_for_one_place_are_for_that_place_where_they_can_be(self):
        read = Reader(Page('Coral (binding)\n6 strips 5" x WOF\n7 strips 2 1/4" x WOF\n3 strips 2" x WOF')).all()
        assert [(one.table, one.data["strip"]) for one in read.entries] == [("binding", "2 1/4")]
        assert [(asked.words.line, asked.text) for asked in read.questions] == [
            (2, "is this for the binding?"),
            (4, "is this for the binding?"),
        ]

    def test_the_fabric_of_a_border_is_no_other_that_stands_above_it(self):
        line = 'Cut the border fabric into 4 strips 5" x WOF'
        (strips,) = Reader(Page(line)).all().entries
        assert (strips.role, strips.data["fabric"]) == ("border", "border")
        (asked,) = Reader(Page(f"Coral\n{line}")).all().questions
        assert asked.text == "Coral, as the head above says, or border fabric?"

    def test_what_was_read_besides_is_the_answer_that_is_proposed(self):
        read = Reader(Page('From navy, cut:\n8 squares 3 1/2"; cut into triangles\n6 squares 5"')).all()
        (question,) = read.questions
        assert question.words.line == 2 and "triangles" in question.text
        assert [entry.data for entry in question.choices[0].changes] == [
            {"fabric": "navy", "size": "3 1/2", "count": 8}
        ]
        assert [entry.data for entry in read.entries] == [{"fabric": "navy", "size": "5", "count": 6}]

    def test_no_head_holds_below_one_that_is_not_understood(self):
        read = Reader(Page('From navy, cut:\n8 squares 3"\nFrom your favorite 3 florals, cut:\n4 squares 6"')).all()
        assert [entry.data.get("fabric") for entry in read.entries] == ["navy", None]
        (question,) = read.questions
        assert question.words.line == 3 and [choice.label for choice in question.choices] == ["navy"]


class TestDraft:
    def test_the_page_of_the_guide_gives_what_the_guide_types(self):
        drafted, typed = pattern.draft(FERRY, "ferry.txt").data(), tomllib.loads(walk())
        assert [{**cut, "fabric": cut["fabric"].lower()} for cut in drafted["cut"]] == typed["cut"]
        assert {name.lower(): table for name, table in drafted["fabric"].items()} == typed["fabric"]
        assert drafted["binding"] == {**typed["binding"], "fabric": "Navy"}
        assert (drafted["seam"], drafted["finished"]) == (typed["seam"], typed["finished"])
        assert {key: drafted["setting"][key] for key in ("style", "across", "down")} == {
            key: typed["setting"][key] for key in ("style", "across", "down")
        }

    def test_the_example_of_the_guide_is_what_it_says(self):
        page, drafted = re.findall(r"^```text\n(.*?)^```", section("## From a printed page"), re.DOTALL | re.MULTILINE)
        assert pattern.draft(page).text().endswith(f"\n\n{drafted}")

    def test_each_table_stands_below_its_words_and_each_question_above_them(self, drafted):
        text = drafted.text()
        assert '# 20 squares 3 7/8"\n[[cut]]\npart = "A"\nfabric = "Navy print"\nsize = "3 7/8"\ncount = 20\n' in text
        assert '# ? is this 5 7/8, or 5 of 7/8?\n# ?   - 5 of 7/8\n# 5 - 7/8" squares\n' in text
        assert text.startswith("# Drafted from lights.txt: 7 lines of the cutting list, 3 questions.\n")
        assert "# - [setting]: style, across, down, block\n" in text

    def test_what_drawings_hold_is_asked_with_what_follows_from_the_numbers(self, drafted):
        halves, setting = drafted.questions[1:]
        pieces = "20 Navy print squares of 3 7/8 and 20 Cream squares of 3 7/8"
        assert halves.text == f"{pieces}: half-square triangle units, two at a time?"
        assert setting.text.startswith(
            "12 setting squares, 16 side and 4 corner triangles: on point, 4 across and 5 down"
        )
        assert [choice.label for choice in setting.choices][-1] == "something else"
        one = drafted.answered(setting, setting.choices[0]).answered(halves, halves.choices[0])
        assert one.data()["unit"]["half-square"] == {
            "kind": "half-square",
            "parts": ["A", "B"],
            "count": 40,
            "at_a_time": 2,
        }
        assert one.data()["setting"] == {
            "style": "on point",
            "across": 4,
            "down": 5,
            "alternate": "setting square",
            "sides": {"how": "plain", "part": "side triangle"},
            "corners": {"how": "plain", "part": "corner triangle"},
        }
        assert len(one.questions) == 1
        with pytest.raises(ValueError, match="does not ask this"):
            one.answered(halves)

    @pytest.mark.parametrize(
        "page, asked",
        [
            ('A: 3 squares 5 1/4"\nB: 12 squares 2 7/8"', "flying geese units, four at a time"),
            ('A: 24 rectangles 2 1/2" x 4 1/2"\nB: 48 squares 2 1/2"', "flying geese units, one at a time"),
            ('Navy: 6 squares 5 1/4"\nCream: 6 squares 5 1/4"', "quarter-square triangle units, two at a time"),
            ('A: 6 squares 4 1/2"\nB: 12 squares 3 3/4", cut once diagonally', "square in a square units, from these"),
        ],
    )
    def test_units_are_proposed_that_use_up_the_pieces(self, page, asked):
        assert [one.text for one in pattern.draft(page).questions if asked in one.text]
        more = page.replace("A: ", "A: 1").replace("Navy: ", "Navy: 1")  # ten or twenty of one kind are left over
        assert pattern.draft(more).questions == ()

    @pytest.mark.parametrize(
        "page, asked, count",
        [
            ('Geese: A: 24 rectangles 2 1/2" x 4 1/2"\nB: 44 squares 2 1/2"', "flying geese units, one at a time", 24),
            ('HSTs: Navy: 40 squares 7"\nCream: 40 squares 7"\nTrim to 6 1/2".', "trimmed to 6 1/2", 80),
            ('HSTs: Navy: 20 squares 3 7/8"\nCream: 18 squares 3 7/8"', "half-square triangle units, two at", 40),
            ("HSTs: Navy: 6 squares 12.5 cm\nCream: 6 squares 12.5 cm", "half-square triangle units, two at", 12),
            (
                'Navy: 6 squares 3 7/8"\nCream: 6 squares 3 7/8"\nMake 10 half-square triangles.',
                "half-square triangle units",
                10,
            ),
        ],
    )
    def test_units_that_the_page_tells_of_are_proposed_though_a_figure_may_be_wrong(self, page, asked, count):
        drafted = pattern.draft(page.replace("Geese: ", "Flying geese\n").replace("HSTs: ", "HSTs\n"))
        (question,) = [one for one in drafted.questions if asked in one.choices[0].label]
        (unit,) = drafted.answered(question, question.choices[0]).data()["unit"].values()
        assert (unit["parts"], unit["count"]) == (["A", "B"], count)

    def test_in_centimetres_half_squares_are_proposed_only_where_the_page_tells_of_them(self):
        assert pattern.draft("Navy: 6 squares 12.5 cm\nCream: 6 squares 12.5 cm").questions == ()

    def test_units_counted_in_all_are_those_of_their_kind_together(self):
        page = 'Navy: 6 squares 3 7/8"\nCream: 6 squares 3 7/8"\nRed: 4 squares 2 7/8"\nTan: 4 squares 2 7/8"'
        drafted = pattern.draft(f"{page}\nMake 20 half-square triangles.")
        while drafted.questions:
            drafted = drafted.answered(drafted.questions[0], drafted.questions[0].choices[0])
        assert [one["count"] for one in drafted.data()["unit"].values()] == [12, 8]

    def test_blocks_in_one_row_have_strips_between_them(self):
        squares = 'Navy: 6 squares 6 1/2"\nCream: 6 squares 6 1/2"'
        page = f'Finished size 12" x 38"\nMake 3 blocks.\n{squares}\nGrey: 2 sashing strips 1 1/2" x 12 1/2"'
        drafted = pattern.draft(page)
        while drafted.questions:
            drafted = drafted.answered(drafted.questions[0], drafted.questions[0].choices[0])
        assert [len(row) for row in drafted.data()["setting"]["rows"]] == [1] * 5

    def test_a_lost_blank_is_answered_with_the_line_as_it_was(self):
        drafted = pattern.draft('From navy, cut:\n8 squares 31/2"')
        (question,) = drafted.questions
        assert question.text == "a blank may be lost here: is 3 1/2 meant?"
        assert drafted.answered(question, question.choices[0]).data()["cut"] == [
            {"part": "A", "fabric": "navy", "size": "3 1/2", "count": 8}
        ]

    def test_borders_come_from_the_inside_out(self):
        page = 'Outer border: 6 strips 5" x WOF\nInner border: 5 strips 1 1/2" x WOF'
        assert [one["sides"] for one in pattern.draft(page).data()["border"]] == ["inner border", "outer border"]

    def test_a_complete_draft_is_a_sheet_and_any_other_says_what_is_missing(self, drafted):
        with pytest.raises(pattern.Unreadable, match=r"3 questions must be answered first"):
            drafted.sheet()
        page = 'Four squares\nA small one\nFrom navy, cut:\n16 squares 3 1/2"\n'
        with pytest.raises(pattern.Unreadable, match=r"not complete: .*\[setting\]: style, across, down, block"):
            pattern.draft(page).sheet()
        rest = tomllib.loads(EXAMPLE)
        completed = pattern.draft(page).text() + pattern.toml({key: rest[key] for key in ("block", "setting")})
        assert pattern.read_text(completed).cut == pattern.read_text(EXAMPLE).cut


NEEDED = {
    "pieces": 6, "usable_width": "90", "fabric": "white", "strip": "2 1/2", "strips": ["A"], "sub_cut": "2",
    "kind": "half-square", "parts": ["A", "A"], "rows": ["A"], "sides": "A", "top": "A", "style": "straight",
    "across": 2, "down": 2, "prints": 6,
}  # fmt: skip


def complete(drafted):
    """The text of a draft with what it says is missing, and nothing else."""
    data, missing = tomllib.loads(drafted.text()), "\n".join(drafted.missing)
    if "title: " in missing:
        data["title"] = "A page"
    if "[[cut]]" in missing:
        data["cut"] = [{"part": "A", "fabric": "white", "size": "3", "count": 4}]
    for cut in data["cut"]:
        if "fabric: " in missing:
            cut.setdefault("fabric", "white")
        if "length: " in missing and "lengthwise" in cut and "strip" in cut:
            cut.setdefault("length", "60")
    part = data["cut"][0]["part"]
    strip = next((cut["part"] for cut in data["cut"] if "strip" in cut and "length" not in cut), part)
    needed = {**NEEDED, "strips": [part], "parts": [part, part], "rows": [part], "sides": strip, "top": strip}
    for head, kind, name, keys in re.findall(
        r"^(\[+)(\w+)(?:\.([^\]]+))?\]+(?: \(.*\))?: (.*)$", missing, re.MULTILINE
    ):
        if kind in ("cut", "setting") or name == "NAME" and kind == "block":
            continue
        name = "white" if name == "NAME" else name
        of_kind = data.setdefault(kind, {})
        tables = of_kind if head == "[[" else [of_kind.setdefault(name, {}) if name else of_kind]
        for table in tables:
            for key in re.findall(r"\w+", keys.partition(",")[0]):
                if key != "and":
                    table.setdefault(key, needed[key])
    if "fabric" in data and "white" in {cut["fabric"] for cut in data["cut"]}:
        data["fabric"].setdefault("white", {})
    data.setdefault("block", {"block": {"rows": [part]}})
    setting = data.setdefault("setting", {})
    for key, value in {**needed, "block": next(iter(data["block"]))}.items():
        if re.search(rf"^\[setting\]: .*\b{key}\b", missing, re.MULTILINE):
            setting.setdefault(key, value)
    if setting["style"] == "on point":
        for key in ("sides", "corners"):
            setting.setdefault(key, {"how": "plain", "part": part})
    return pattern.toml(data)


class TestReadable:
    def test_sets_of_strips_from_each_print_of_which_no_number_is_known(self):
        drafted = pattern.draft(
            'From each of 4 reds and 4 blues, cut:\n1 strip 1 1/2" x 20"\nSew a navy and a white strip together along '
            'the long edges. Make 6 str twice ip sets. Cut into 96 segments 2 1/2" wide.'
        )
        for _ in range(4):
            if drafted.questions:
                drafted = drafted.answered(drafted.questions[0], next(iter(drafted.questions[0].choices), None))
        assert {cut["per_print"] for cut in tomllib.loads(drafted.text())["cut"]} == {1}

    def test_a_draft_is_a_sheet_once_what_it_says_is_missing_is_added(self):
        for page in CORPUS[::5]:  # of whole pages all is tried by `python -m tests.fuzz`
            try:
                drafted = pattern.draft(page)
            except Unreadable:
                continue
            for one in (drafted, *(drafted.answered(q, choice) for q in drafted.questions for choice in q.choices)):
                pattern.read_text(complete(one))


class TestHeads:
    """Pages on which a line could be taken for one of another fabric."""

    @pytest.mark.parametrize(
        "page, fabrics",
        [
            ('From navy, cut:\n4 squares 3"\nStarlight:\n5 squares 3"', ["navy", None]),
            ('Cutting\nNavy\n4 squares 3"\nPinwheel corners\n5 squares 3"', ["Navy", None]),
            ('Navy: 1 yard\nCream: 1 yard\nCutting\nNavy\n4 squares 3"\nCream\n5 squares 3"', ["Navy", "Cream"]),
            ("Navy: 1 yd        CUTTING\nCream: 1 yd       Navy\n                  4 squares 3 in\n", ["Navy"]),
            ('From navy, cut:\n4 squares 3"\n5 cream squares 3"\n6 squares 3"', ["navy", None]),
        ],
    )
    def test_a_fabric_is_said_by_the_page_or_left_open(self, page, fabrics):
        drafted = pattern.draft(page)
        assert [one.data.get("fabric") for one in drafted.entries if one.table == "cut"] == fabrics
        assert bool(drafted.questions) == (None in fabrics)

    @pytest.mark.parametrize("head", ["– | –", "Fabric | – | Count | Size"])
    def test_a_column_may_be_headed_by_a_sign_alone(self, head):
        page = f'4 squares 3"\n{head}\nNavy | x | 6 | 3 1/2"'
        drafted = pattern.draft(page)
        assert drafted.entries[0].data["count"] == 4 and [one.words.text for one in drafted.questions] == [
            page.splitlines()[2]
        ]

    @pytest.mark.parametrize("below", ['blocks 999999999999999999999999999999" square', '3 - 4" x WOF, into:\n 31/2"'])
    def test_a_figure_that_no_page_means_is_asked_about(self, below):
        drafted = pattern.draft(f'4 squares 3"\n{below}')
        assert drafted.entries[0].data["count"] == 4 and drafted.questions


class TestOneBlock:
    def test_what_is_cut_for_one_block_is_asked_with_the_number_for_all(self):
        page = 'Make 12 blocks\nFrom the navy, cut (per block):\n4 squares 3"\nFrom cream, cut:\n5 squares 3"\n'
        drafted = pattern.draft(page + 'Whole quilt\nFrom navy, cut:\n31 squares 5"')
        assert [one.data["count"] for one in drafted.entries if one.table == "cut"] == [31]
        assert [one.text for one in drafted.questions] == [f"{n} for one block: how many in all?" for n in (4, 5)]
        assert drafted.answered(drafted.questions[0], drafted.questions[0].choices[0]).entries[-1].data["count"] == 48

    def test_counts_below_a_block_of_which_several_are_made_are_asked_once(self):
        drafted = pattern.draft('BLOCK A (make 12)\nStarlight:\n1 square 3"\n4 squares 2", cut once diagonally')
        block, corners = drafted.questions
        assert block.text == "are the pieces below cut for one block, or for all 12?"
        assert corners.text == "is Starlight the fabric of the lines below, or what they are for?"
        for first, second in ((block, corners), (corners, block)):
            one = drafted.answered(first, first.choices[0]).answered(second, second.choices[0])
            assert [(cut["count"], cut["fabric"]) for cut in one.data()["cut"]] == [
                (12, "Starlight"),
                (48, "Starlight"),
            ]
            assert one.data()["cut"][1]["cut"] == "once" and one.questions == ()
        for_all = drafted.answered(block, block.choices[1])
        assert [cut["count"] for cut in for_all.data()["cut"]] == [1, 4]


class TestAnswers:
    def test_strips_along_the_selvage_are_as_long_as_what_is_bought(self):
        drafted = pattern.draft('Navy: 2 1/4 yd\nCutting\nNavy\n4 strips 6 1/2" x length of fabric')
        (question,) = drafted.questions
        assert question.choices[0].label == "2 1/4 yd, all that is bought"
        (cut,) = drafted.answered(question, question.choices[0]).data()["cut"]
        assert (cut["lengthwise"], cut["length"]) == (True, "2 1/4 yd")

    def test_figures_without_a_unit_are_asked_on_a_page_in_centimetres(self):
        drafted = pattern.draft("Navy: 8 squares 10 cm\nRed: 6 rectangles 5 x 10\nTan: 4 squares 3 in")
        (question,) = drafted.questions
        assert question.words.line == 2
        sizes = [cut["size"] for cut in drafted.answered(question, question.choices[0]).data()["cut"]]
        assert sizes == ["10 cm", ["5 cm", "10 cm"], "3"]

    def test_inches_stay_inches_in_a_sheet_of_centimetres(self):
        drafted = pattern.draft('12 squares 9 cm\nSeam allowance: 1/4 inch\nFinished size: 48" x 60"')
        assert drafted.questions == () and drafted.data()["units"] == "cm"
        assert (drafted.data()["seam"], drafted.data()["finished"]) == ("1/4 in", ["48 in", "60 in"])
        assert 'seam = "1/4 in"\n' in drafted.text()
        (bare,) = pattern.draft("12 squares 9 cm\nFinished size: 120 x 160").questions
        assert bare.text == "are these centimetres, or inches?"

    @pytest.mark.parametrize("said", ["All measurements in cm.", "Sizes are given in centimetres, with seams."])
    def test_a_page_that_says_that_it_is_in_centimetres_needs_no_unit(self, said):
        drafted = pattern.draft(
            f"{said}\nSeam allowance 0.75 cm.\nturquoise: 36 squares 14.5 x 14.5\nsand: 17 squares 25.5"
        )
        assert drafted.data()["units"] == "cm" and drafted.data()["seam"] == "0.75 cm"
        assert [line["size"] for line in drafted.data()["cut"]] == ["14 1/2 cm", "25 1/2 cm"]
        assert all("centimetres, or inches" not in one.text for one in drafted.questions)

    def test_the_lengths_of_a_border_are_added_to_it(self):
        page = 'Cut 6 strips 2" x WOF, sew them end to end, then cut (2) 2" x 48 1/2" and (2) 2" x 51 1/2"'
        drafted = pattern.draft(page)
        (question,) = drafted.questions
        (border,) = drafted.answered(question, question.choices[1]).data()["border"]
        assert border == {"sides": "border", "top": "border", "sides_length": "51 1/2", "top_length": "48 1/2"}

    @pytest.mark.parametrize(
        "more, head, first",
        [
            ("", "Geese", "Geese"),
            ("Dusk 1 yd\n", "Geese", "Dusk"),
            ("Geese and tails, scraps 3/8 | of it\n", "Geese", "Geese"),
        ],
        ids=["all else is cut under its own head", "one is not cut yet", "its line is not read"],
    )
    def test_the_head_above_lines_of_no_fabric_tells_which_is_proposed_first(self, more, head, first):
        bought = f"Requirements\nSky 1 yd\nStripe 1 yd\n{more}"
        cut = f'Cutting\nStripe\n  3 - 3 1/2" x 30 1/2"\n{head}\n  16 - 5 1/4" squares\nSky\n  64 - 2 7/8" squares'
        drafted = pattern.draft(f"A quilt\n{bought}\n{cut}")
        while drafted.questions[0].choices == ():
            drafted = drafted.answered(drafted.questions[0])
        assert drafted.questions[0].text == "from which fabric are these cut: 16 of 5 1/4?"
        assert drafted.questions[0].choices[0].label == first

    def test_the_border_that_an_answer_brings_is_a_border_of_the_sheet(self):
        drafted = pattern.draft('Batiks: 40 squares 2 1/2"\nBorder: 6 strips 4" x WOF')
        (question,) = drafted.questions
        assert question.text == "from which fabric is this cut?" and "border" not in drafted.data()
        answered = drafted.answered(question, question.choices[0])
        assert answered.data()["border"] == [{"sides": "border", "top": "border"}]
        assert answered.data()["cut"][1]["fabric"] == "Batiks"


def pdf(*lines, password=None):
    """A PDF of one page with these lines; locked where a password is given."""
    writer = PdfWriter()
    page = writer.add_blank_page(300, 300)
    if lines:
        font = DictionaryObject(
            {NameObject("/Type"): NameObject("/Font"), NameObject("/Subtype"): NameObject("/Type1")}
        )
        font[NameObject("/BaseFont")] = NameObject("/Helvetica")
        page[NameObject("/Resources")] = DictionaryObject(
            {NameObject("/Font"): DictionaryObject({NameObject("/F"): font})}
        )
        drawn = DecodedStreamObject()
        said = "".join(f"BT /F 12 Tf 20 {280 - 20 * at} Td ({line}) Tj ET\n" for at, line in enumerate(lines))
        drawn.set_data(said.encode("latin-1"))
        page[NameObject("/Contents")] = drawn
    if password:
        writer.encrypt(password, algorithm="RC4-128")
    file = BytesIO()
    writer.write(file)
    return file.getvalue()


class TestRefused:
    @pytest.mark.parametrize(
        "text, said",
        [
            ("", "there is no text in this: copy the text of the page"),
            ("Read all instructions first. Press well.", "there is no line of a cutting list in this, such as"),
            (
                "Pancakes\n2 cups flour\n3 eggs\nFry for 3 minutes.",
                "there is no line of a cutting list in this, such as",
            ),
            ("קוראים את ההוראות 12 3", "this is not written in Latin letters; a draft is made of English pages"),
            ("x" * (LONGEST + 1), "a pattern has at most 50,000 signs; this has more"),
        ],
    )
    def test_what_is_no_page_of_a_pattern_is_told_in_one_sentence(self, text, said):
        assert refused(text).startswith(f"page.txt: {said}")

    def test_of_mixed_languages_the_english_lines_are_read_and_the_others_asked(self):
        drafted = pattern.draft('12 squares 3 1/2"\n8 Quadrate 3 1/2"\n10 ריבועים 3 1/2"')
        assert [one.data["count"] for one in drafted.entries] == [12]
        assert [one.words.line for one in drafted.questions] == [2, 3]

    @pytest.mark.parametrize(
        "name, content, said",
        [
            ("scan.pdf", pdf(), "this PDF holds no text, only pictures (a scan): type its cutting list"),
            (
                "locked.pdf",
                pdf("8 squares", password="secret"),
                "this PDF is locked with a password; open it and copy its text",
            ),
            ("broken.pdf", b"%PDF-1.7 and no more", "this PDF cannot be read (it is damaged); copy its text"),
            (
                "odd.pdf",
                pdf("8 squares").replace(b"/Length", b"/Filter /FlateDecstream /Length"),
                "this PDF cannot be read (it is damaged); copy its text",
            ),
            ("picture.png", b"\x89PNG\r\n\x1a\n\0\0\0", "this is neither text nor a PDF; copy the text of the page"),
            (
                "large.txt",
                b"x" * (LARGEST + 1),
                "a printed page has at most 10,000,000 bytes; this file has 10,000,001",
            ),
            ("empty.txt", b"", "there is no text in this: copy the text of the page"),
        ],
    )
    def test_files_that_hold_no_page(self, name, content, said, tmp_path, capsys):
        (tmp_path / name).write_bytes(content)
        assert main(["draft", str(tmp_path / name), "--save", str(tmp_path / "new.toml")]) == 2
        printed = capsys.readouterr()
        assert said in printed.err and printed.err.count("\n") == 1 and printed.out == ""
        assert not (tmp_path / "new.toml").exists()

    def test_a_book_is_read_until_it_is_too_long_for_a_pattern(self):
        assert len([*until_too_long("x" * (LONGEST // 2) for _ in range(600))]) == 3


class TestCommand:
    def test_its_questions_are_put_one_at_a_time_and_answered_by_number(self, tmp_path, capsys, monkeypatch):
        page, sheet = tmp_path / "page.txt", tmp_path / "sheet.toml"
        page.write_text('Tiles\nSet 3 across and 4 down\nNavy: 60 squares 3"\nCream: 48 squares 3"\nCut 5 of 7/8"\n')
        monkeypatch.setattr("sys.stdin", StringIO("\n9\n1\n1\n"))
        assert main(["draft", str(page), "--save", str(sheet), "--ask"]) == 0
        printed = capsys.readouterr().out
        assert "   1. A B A / B A B / A B A\n" in printed and "There is no answer '9'." in printed
        read = pattern.read(sheet)
        assert read.block["block"].rows[0][0].name == "A" and (read.setting.across, read.setting.down) == (3, 4)

    def test_it_saves_the_draft_and_prints_its_questions(self, tmp_path, capsys):
        page, sheet = tmp_path / "lights.txt", tmp_path / "lights.toml"
        page.write_text(PAGE, "utf-8")
        assert main(["draft", str(page), "--save", str(sheet)]) == 0
        assert sheet.read_text("utf-8") == pattern.draft(PAGE, "lights.txt").text()
        printed = capsys.readouterr().out
        assert '1. Is this 5 7/8, or 5 of 7/8?\n   line 13: 5 - 7/8" squares\n' in printed
        assert "\nStill to be said:\n- [block.NAME]: its rows" in printed

    def test_a_pdf_is_read_by_its_text(self, tmp_path):
        (tmp_path / "page.pdf").write_bytes(pdf("From navy, cut:", '8 squares 3 1/2"'))
        drafted = pattern.draft(pattern.page_text(tmp_path / "page.pdf"))
        assert drafted.data()["cut"] == [{"part": "A", "fabric": "navy", "size": "3 1/2", "count": 8}]
        (tmp_path / "open.pdf").write_bytes(pdf("8 squares 3 in", password=""))
        assert "8 squares" in pattern.page_text(tmp_path / "open.pdf")

    def test_several_pages_are_one_pattern(self, tmp_path):
        for number, text in enumerate((PAGE[: PAGE.index("From cream")], PAGE[PAGE.index("From cream") :])):
            (tmp_path / f"{number}.txt").write_text(text, "utf-8")
        pages = [str(tmp_path / "0.txt"), str(tmp_path / "1.txt")]
        assert main(["draft", *pages, "--save", str(tmp_path / "both.toml")]) == 0
        assert len(tomllib.loads((tmp_path / "both.toml").read_text("utf-8"))["cut"]) == 6

    def test_nothing_is_written_over(self, tmp_path, capsys):
        page, sheet = tmp_path / "lights.txt", tmp_path / "lights.toml"
        page.write_text(PAGE, "utf-8")
        sheet.write_text("mine", "utf-8")
        for save, said in (
            (sheet, "is there already: add --force to write over it"),
            (tmp_path / "lights.txt", "a sheet is a .toml file"),
            (tmp_path, "a sheet is a .toml file"),
        ):
            assert main(["draft", str(page), "--save", str(save)]) == 2
            assert said in capsys.readouterr().err
        assert sheet.read_text("utf-8") == "mine"
        assert main(["draft", str(page), "--save", str(sheet), "--force"]) == 0
        assert sheet.read_text("utf-8").startswith("# Drafted from lights.txt")

    def test_a_page_that_is_not_there(self, tmp_path, capsys):
        assert main(["draft", str(tmp_path / "none.txt"), "--save", str(tmp_path / "new.toml")]) == 2
        assert "none.txt: there is no such file; check its name and folder\n" in capsys.readouterr().err


CUTTING_LIST = """Plum Lane
Quilt 50 1/2" x 62 1/2"
Materials
Red 1 yd
White 1 yd
Navy (border) 1 yd
Cutting
Red: 6 strips 3 1/2" x WOF
White: 6 strips 3 1/2" x WOF
Navy: 6 strips 5 1/2" x WOF
Building the rows
Press everything well.
"""


def sewn(paragraph):
    """(What a paragraph of sewing below a cutting list adds to border or strip set, how many lines are cut then, which
    words are asked about)."""
    drafted = pattern.draft(f"{CUTTING_LIST}{paragraph}\n")
    told = {
        key: value
        for one in drafted.entries
        if one.table in ("border", "strip_set")
        for key, value in one.data.items()
        if key.endswith("_length") or key in ("sets", "sub_cut", "pieces")
    }
    return (
        told,
        sum(one.table == "cut" for one in drafted.entries),
        [one.words.text for one in drafted.questions if not one.of_numbers],
    )


BORDER = {"sides_length": "52 1/2", "top_length": "50 1/2"}
SET = {"sets": 6, "sub_cut": "3 1/2", "pieces": 72}


@pytest.mark.parametrize(
    "paragraph, told",
    [
        (
            'Join the border strips. Cut 2 lengths 52 1/2" and sew to the sides. Cut 2 lengths 50 1/2" for the ends.',
            BORDER,
        ),
        (
            'Sew the six navy strips into one and cut it into two 52 1/2" (sides) and two 50 1/2" (top and bottom).',
            BORDER,
        ),
        (
            'Join navy strips. Cut two 52 1/2" long; sew one to each side. Cut two more 50 1/2" for top and bottom.',
            BORDER,
        ),
        ('Trim two of the navy lengths to 52 1/2" for the sides and two to 50 1/2" for top and bottom.', BORDER),
        ('Sew a red strip to a white strip. Make 6 strip sets. Cut each set into 12 segments 3 1/2" wide.', SET),
        ('Sew the strips in pairs, one red and one white, for 6 strip sets. Sub-cut 72 units 3 1/2" wide.', SET),
        ('Stitch red to white strips to make six sets. Cut twelve 3 1/2" pieces from each set, 72 in all.', SET),
        (
            'Piece the navy strips and cut two 52 1/2" long and two 50 1/2" long. Add the long strips to the sides.',
            BORDER,
        ),
        ('Join the navy strips. Cut two to fit the sides (about 52 1/2"). Cut two 50 1/2" for the ends.', BORDER),
        ('Join the navy strips. Two sides of 52 1/2", sewn on first; then top and bottom of 50 1/2".', BORDER),
        ('Sew a red strip to a white strip. Six such pairs. Cut 12 segments, 3 1/2" wide, from each; 72 in all.', SET),
        (
            'Sew a red to a white strip. This is strip set A. Make six. Cut strip set A into 72 slices, 3 1/2" wide.',
            SET,
        ),
        ('Piece the navy border. Cut 2 x 52 1/2" for the sides. Then 50 1/2" x 2, top/btm.', BORDER),
        ('Sew the navy border strips into one. Two @ 52 1/2" on two sides, two @ 50 1/2" on the other two.', BORDER),
        (
            'Measure lengthwise, cut two to it (about 52 1/2"). Measure crosswise, cut two to it (about 50 1/2").',
            BORDER,
        ),
        (
            'Piece the 5 1/2" strips end to end and cut two 52 1/2" long for the sides. Cut two 50 1/2" for the ends.',
            BORDER,
        ),
        ('With a red strip between two whites, make 6 strip set A. Cut A into 72 segments, 3 1/2" wide.', SET),
        ('Strip set = red + white, long edges. 6 sets. Cut each set into 12 segments 3 1/2" wide.', SET),
        ('One red square and four white squares give four geese, 3 1/2" x 6 1/2". You will have 48.', {}),
        ('Cut the backing in two, 64" each. A row is 8 1/2" wide and 56 1/2" long.', {}),
        ('Piece the back from two 63" lengths. Cut apart on the drawn line and press. You will have 36.', {}),
        ('The middle is now 40 1/2" x 52 1/2". Make 36 (18 pairs). Each unit is 3 1/2" square.', {}),
    ],
)
def test_a_paragraph_of_sewing_says_more_of_what_is_cut_and_is_no_question(paragraph, told):
    assert sewn(paragraph) == (told, 3, [])


@pytest.mark.parametrize(
    "size, wide, unlike",
    [
        ('2 1/2" x 6 1/2"', "2 1/2", ""),
        ('6 1/2" x 3 1/2"', "3 1/2", ""),
        ('6 1/2" x 6 1/2"', "6 1/2", ""),
        ('6" x 3 1/2"', "3 1/2", "not 6 as the page says"),
    ],
)
def test_of_pieces_with_both_lengths_printed_the_strips_tell_which_is_the_height(size, wide, unlike):
    drafted = pattern.draft(
        f'Cutting\nRed: 6 strips 2 1/2" x WOF\nWhite: 3 strips 2 1/2" x WOF\nSewing\n'
        f"Sew (1) white strip between (2) red strips to make Strip Set 1. Make (3). Cut into (18) {size} segments."
    )
    asked = next(one for one in drafted.questions if "side by side" in one.text)
    (told,) = asked.choices[0].changes
    assert told.data == {"sets": 3, "strips": ["A", "B", "A"], "sub_cut": wide, "pieces": 18}
    assert unlike in asked.text and ("as the page says" in asked.text) == bool(unlike)


def test_strips_that_the_page_binds_with_are_no_border():
    page = (
        'Cutting\nRust dot: 6 strips 4 1/2" x WOF\nRust dot: 6 strips 2 1/4" x WOF\nSewing\nSew the rust border strips '
        'together. Cut two 52 1/2" and sew to the sides. Cut two 50 1/2" for the ends.\nFinishing\nLayer; quilt. '
        'Join the 2-1/4" rust strips and bind.'
    )
    drafted = pattern.draft(page)
    (binding,) = (one for one in drafted.entries if one.table == "binding")
    (border,) = (one for one in drafted.entries if one.table == "border")
    assert binding.data == {"fabric": "Rust dot", "strip": "2 1/4", "count": 6} and not drafted.questions[1:]
    assert border.data == {"sides": "border", "top": "border", **BORDER}


def test_lengths_are_those_of_the_border_whose_strips_are_called_by_their_width():
    page = (
        'Cutting\nTan: 6 strips 2 1/2" x WOF\nNavy: 6 strips 4 1/2" x WOF, outer border\n\nSewing\n\nSkinny border. '
        'Sew the 2.5" strips together. Side borders 48.5" x 2. Top/bottom borders 44.5" x 2.\n\nBig border. Same with '
        'the 4.5" strips. Side borders 52.5" x 2. Top/bottom borders 52.5" x 2.'
    )
    drafted = pattern.draft(page)
    borders = [one.data for one in drafted.entries if one.table == "border"]
    assert [one["sides"] for one in borders] == ["border", "outer border"] and not drafted.questions
    assert [(one["sides_length"], one["top_length"]) for one in borders] == [("48 1/2", "44 1/2"), ("52 1/2", "52 1/2")]


@pytest.mark.parametrize("name, order", [("Inner", ["inner border", "border"]), ("Outer", ["border", "outer border"])])
def test_a_border_without_a_name_lies_on_the_other_side_of_the_one_that_has_one(name, order):
    drafted = pattern.draft(f'Red: 6 strips 3" x WOF (border)\nTan: 6 strips 2" x WOF ({name.lower()} border)')
    assert [one.name for one in drafted.entries if one.table == "border"] == order
    assert not any("in which order" in one.text for one in drafted.questions)


@pytest.mark.parametrize(
    "sentence",
    [
        'Cut 4 extra red squares 3 1/2".',
        "Cut each red square once on the diagonal.",
        'Cut 2 white strips 40" long for ties.',
    ],
)
def test_what_is_cut_where_a_page_tells_of_sewing_is_never_passed_over(sentence):
    assert sewn(sentence)[2]


def test_a_size_that_the_draft_gainsays_is_asked_about_when_all_else_is_answered():
    page = (
        'Finished 12" x 12"\nCutting\nRed: 8 squares 3 1/2"\nTan: 8 squares 3 1/2"\nPiecing\n'
        "1. Lay out a red square and a tan one, twice. Sew. Make 4 blocks.\n"
        'The top\n2. Set 2 x 2. The top measures {}" square.'
    )
    for printed, asks in (("12 1/2", False), ("13 1/2", True)):
        drafted, texts = pattern.draft(page.format(printed)), []
        while drafted.questions:
            question = drafted.questions[0]
            texts.append(question.text)
            drafted = drafted.answered(question, question.choices[0] if question.choices else None)
        assert any("the top measures" in text for text in texts) is asks


def test_rows_that_a_page_tells_in_words_are_proposed_where_too_few_units_are_made_of_them():
    page = (
        'Pinned\nSet 3 across and 4 down\nBlocks finish at 6"\nRed: {0} squares 2 7/8"\nTan: {0} squares 2 7/8"\n'
        'Red: 12 squares 2 1/2"\nTan: 48 squares 2 1/2"\nSewing\n'
        "Top row: square, HST, square. Middle row: HST, red square, HST. Bottom row: square, HST, square."
    )
    for cut in (24, 12):  # in all 48 half-square triangles are sewn in
        drafted = pattern.draft(page.format(cut))
        drafted = drafted.answered(drafted.questions[0], drafted.questions[0].choices[0])
        asked = next(one for one in drafted.questions if "pieced" in one.text)
        assert [re.sub(r":\d+", "", asked.choices[0].label)] == ["D HST D / HST C HST / D HST D"]
        (block,) = (one for one in asked.choices[0].changes if one.table == "block")
        assert any(remark.startswith("Top row: square") for remark in block.remarks)
        assert all(choice.label == "something else" or "C" in choice.label for choice in asked.choices)


@pytest.mark.parametrize(
    "words, title",
    [
        ("~ ~ Low Tide ~ ~", "Low Tide"),
        ("      L O W   T I D E", "LOW TIDE"),
        ("Copied out by hand for all who asked me at the meeting; give it back soon.\nLOW TIDE (a star)", "LOW TIDE"),
        ("Copied out by hand for all who asked me at the meeting; give it back soon.\nthe low tide", None),
        ("CARD 12\n| 'kit' \"LOW TIDE\" a star |\nfor all", "LOW TIDE"),
        ("Printed in 3 colours\n» LOW TIDE «\nfor all", "LOW TIDE"),
        ("FREE PATTERN SHEET\nWharfside Collection\nLOW TIDE", "LOW TIDE"),
        ("Quilt Project\nLow Tide Chain\nSIZES", "Low Tide Chain"),
    ],
)
def test_a_title_stands_without_its_ornaments_and_below_a_first_sentence_in_capitals(words, title):
    drafted = pattern.draft(f'{words}\nFinished 12" x 12"\nNavy: 16 squares 3 1/2"')
    assert drafted.data().get("title") == title


def test_where_two_settings_are_told_the_one_of_more_places_is_proposed_first_and_whole():
    page = 'Nines\nRed: 60 squares 3"\nWhite: 48 squares 3"\nLayout\nJoin three rows of three. Press.\n'
    page += "Set it in {} rows of 3."
    asked = [one for one in pattern.draft(page.format(4)).questions if "which is right" in one.text]
    assert [[choice.label for choice in one.choices] for one in asked] == [["across 3, down 4", "across 3, down 3"]]
    assert not any("which is right" in one.text for one in pattern.draft(page.format(3)).questions)


@pytest.mark.parametrize("answer, lengths_of", [(0, ("60 1/2", "51 1/2")), (1, ("51 1/2", "60 1/2"))])
def test_lengths_that_are_pieced_of_the_strips_of_a_border_are_those_of_its_sides_and_its_top(answer, lengths_of):
    cutting = 'Cutting\nRed: 6 strips 2" x WOF for inner border\nTan: 8 squares 3"\n\nSewing\n'
    drafted = pattern.draft(
        f'{cutting}Cut and piece red 2"x40" strips to make:\n2 - 2"x60 1/2" inner border strips\n'
        '2 - 2"x51 1/2" inner border strips'
    )
    (asked,) = drafted.questions
    drafted = drafted.answered(asked, asked.choices[answer])
    (border,) = (one.data for one in drafted.entries if one.table == "border")
    assert (border["sides_length"], border["top_length"]) == lengths_of
    assert [one.data["count"] for one in drafted.entries if one.table == "cut"] == [6, 8] and not drafted.questions
    other = pattern.draft(f'{cutting}2 - 3"x60 1/2" inner border strips\n2 - 3"x51 1/2" inner border strips')
    assert len([one for one in other.entries if one.table == "cut"]) == 4  # of another width
