"""A sheet's own text edited: what the other sheet says is said, and nothing else is touched, however the text is
written."""

import difflib
import tomllib

import pytest
import tomli_w
from hypothesis import given
from hypothesis import strategies as st

from quiltmath import pattern
from quiltmath.pattern.differences import Difference, differences
from quiltmath.pattern.spans import spans
from quiltmath.pattern.spelling import spelled, written

from . import sheets

APART = """\
title = "Rails"   # a name
units='in'
finished=[12, 12]

# dark
[fabric.navy]
bought = "1 yd"
[[cut]]
part = "A"
fabric = "navy"
size = '3 1/2"'
count = 8

# light
[fabric.cream]
bought = "1 yard"
[[cut]]
part = "B"
fabric = "cream"
size	=	"3-1/2" # squares
count = 8
[block.four]
rows = [
    "A B", # top
    "B A"  # bottom
]
[setting]
style = "straight"
across = 2
down = 2
block = "four"
"""
"""A fabric, its pieces, the next fabric: the order in which a person writes a list down."""

DOTTED = """\
title = "Rails"
instructions = ["Cut.", "Sew.", "Press."]
fabric.navy.bought = "1 yd"
block.four.rows = ["A A", ["A", "A"]]
block.four.finished = 6
cut = [
  {part = "A", fabric = "navy", size = "3 1/2", count = 16}, # squares
]
note = \"\"\"
# no comment: "size = 3"
[[cut]]\"\"\"
setting.style = "straight"
setting.across = 2
setting.down = 2
setting.block = 'four'
other_size = [{name = "lap", across = 3, down = 4, counts = {A = 48}}]
"""
"""The same kind of sheet in dotted keys, tables in braces and texts over several lines."""


QUOTES = ['"""', "'''", "#", "\\", "\n", "[a]", "a = 1"]
PLAIN = st.text(max_size=8) | st.sampled_from(QUOTES) | st.integers(-99, 99) | st.booleans() | st.just(0.5)
NAMES = st.text(max_size=4).filter(lambda name: name == name.strip())
VALUES = st.dictionaries(
    NAMES,
    st.recursive(
        PLAIN, lambda inside: st.lists(inside, max_size=3) | st.dictionaries(NAMES, inside, max_size=3), max_leaves=8
    ),
    max_size=3,
)


def edit(text, *changes):
    """A text edited by these changes, as `pattern.changed` takes them, and its lines that are others: (old, new)."""
    sheet = pattern.read_text(text)
    new = pattern.edited(sheet, pattern.changed(sheet, *changes))
    return new, moved(text, new)


def moved(old, new):
    """The lines of two texts that are others, old ones with "-" before, new ones with "+"."""
    lines = difflib.ndiff(old.split("\n"), new.split("\n"))
    return [line[0] + line[2:] for line in lines if line[0] in "+-"]


class TestOneLine:
    @pytest.mark.parametrize(
        "text, path, value, line",
        [
            (APART, ("cut", 0, "size"), "3 7/8", "size = '3 7/8\"'  # was '3 1/2\"'"),
            (APART, ("cut", 1, "size"), "3 7/8", 'size\t=\t"3-7/8" # was "3-1/2"; squares'),
            (APART, ("cut", 1, "count"), 9, "count = 9  # was 8"),
            (APART, ("finished",), "12 1/2", "finished=[12.5, 12.5]  # was 12"),
            (APART, ("finished",), "12 x 40/3 in", 'finished=[12, "40/3 in"]  # was 12'),
            (APART, ("fabric", "cream", "bought"), "1 1/2 yd", 'bought = "1 1/2 yard"  # was "1 yard"'),
            (APART, ("block", "four", "rows"), ["A B", "A A"], '    "A A"  # was "B A"; bottom'),
            (DOTTED, ("setting", "block"), "A", "setting.block = 'A'  # was 'four'"),
            (DOTTED, ("fabric", "navy", "bought"), "2 yd", 'fabric.navy.bought = "2 yd"  # was "1 yd"'),
            (
                DOTTED,
                ("cut", 0, "count"),
                18,
                '  {part = "A", fabric = "navy", size = "3 1/2", count = 18}, # was 16; squares',
            ),
            (
                DOTTED,
                ("other_size", 0, "counts", "A"),
                50,
                'other_size = [{name = "lap", across = 3, down = 4, counts = {A = 50}}]  # was 48',
            ),
        ],
    )
    def test_is_spelled_as_before_and_says_what_it_was(self, text, path, value, line):
        _, lines = edit(text, (path, value))
        assert len(lines) == 2 and lines[1] == f"+{line}"

    def test_keeps_the_line_breaks_of_its_file(self):
        text = APART.replace("\n", "\r\n")
        new, lines = edit(text, (("cut", 1, "count"), 9))
        assert lines == ["-count = 8\r", "+count = 9  # was 8\r"] and "\n" not in new.replace("\r\n", "")

    def test_is_told_above_where_its_line_ends_in_the_midst_of_a_text(self):
        text = DOTTED.replace('fabric = "navy", size = "3 1/2", count = 16', 'count = 16, fabric = """na\\\nvy"""')
        text = text.replace('part = "A", ', 'part = "A", size = 3, ')
        _, lines = edit(text, (("cut", 0, "count"), 18))
        assert [line for line in lines if line[0] == "+"] == [
            "+# was 16",
            '+  {part = "A", size = 3, count = 18, fabric = """na\\',
        ]


class TestLines:
    def test_one_less_stays_as_a_comment(self):
        text = APART.replace("count = 8\n\n# light", "count = 8\nfinished = 8\n\n# light")
        _, lines = edit(text, (("cut", 0, "finished"), None))
        assert lines == ["-finished = 8", "+# was: finished = 8"]

    def test_a_title_with_by_in_it_is_no_size(self):
        _, lines = edit(APART, (("title",), "Bars by the brook"))
        assert len(lines) == 2 and lines[1].startswith('+title = "Bars by the brook"')

    def test_one_more_of_a_table_stands_before_new_tables_under_it(self):
        new, _ = edit(
            APART,
            (("setting", "sashing"), {"part": "dark", "cornerstone": "light"}),
            (("setting", "alternate"), "light"),
        )
        assert new.index("alternate =") < new.index("[setting.sashing]")

    def test_one_more_stands_with_those_of_its_table(self):
        new, lines = edit(APART, (("cut", 0, "finished"), 8))
        assert lines == ['+finished = "8"  # new'] and 'count = 8\nfinished = "8"  # new\n\n# light' in new

    def test_one_more_of_a_table_made_by_dots_has_its_dots(self):
        _, lines = edit(DOTTED, (("block", "four", "count"), 4))
        assert lines == ["+block.four.count = 4  # new"]

    def test_a_part_that_the_list_forgets_is_its_last_table(self):
        new, lines = edit(APART, (("cut", 2), {"part": "C", "fabric": "navy", "size": "2 1/2", "count": 4}))
        assert [line for line in lines if line[1:]] == [
            "+[[cut]]  # new",
            '+part = "C"',
            '+fabric = "navy"',
            '+size = "2 1/2"',
            "+count = 4",
        ]
        assert new.index("[[cut]]  # new") < new.index("[block.four]")

    def test_a_part_that_a_list_in_brackets_forgets_is_its_last_line(self):
        _, lines = edit(DOTTED, (("cut", 1), {"part": "C", "fabric": "navy", "size": "2 1/2", "count": 4}))
        assert lines == ['+  { part = "C", fabric = "navy", size = "2 1/2", count = 4 },  # new']

    def test_a_row_that_moves_keeps_its_spelling(self):
        new, _ = edit(DOTTED, (("instructions",), ["Sew.", "Cut.", "Press."]))
        assert 'instructions = ["Sew.", "Cut.", "Press."]  # was ["Cut.", "Sew.", "Press."]' in new

    def test_instructions_each_on_a_line_of_its_own_are_moved_as_lines(self):
        text = APART.replace("units", "instructions = [\n  \"Cut.\", # first\n  'Sew.',\n]\nunits")
        _, lines = edit(text, (("instructions",), ["Sew.", "Cut."]))
        assert lines in (
            ['-  "Cut.", # first', '+# was:   "Cut.", # first', '+  "Cut.",  # moved'],
            ["+  'Sew.',  # moved", "-  'Sew.',", "+# was:   'Sew.',"],
        )

    def test_what_is_written_though_it_is_usual_is_changed_where_it_stands(self):
        text = APART.replace("count = 8\n\n# light", 'count = 8\ncut = "whole"\n\n# light')
        _, lines = edit(text, (("cut", 0, "cut"), "once"))
        assert lines == ['-cut = "whole"', '+cut = "once"  # was "whole"']

    def test_a_table_less_stays_as_comments(self):
        text = APART + '[[step]]\ntrim = "setting"  # level\ngives = "top"\n'
        _, lines = edit(text, (("step",), None))
        assert [line for line in lines if line[0] == "+"] == [
            "+# was: [[step]]",
            '+# was: trim = "setting"  # level',
            '+# was: gives = "top"',
        ]

    def test_a_head_comes_before_all(self):
        sheet = pattern.read_text(APART)
        assert pattern.edited(sheet, sheet, "one\n\ntwo") == f"# one\n#\n# two\n\n{APART}"


class TestWhateverIsAsked:
    """Every pair of sheets: one's text, edited, says what the other says."""

    @pytest.mark.parametrize("path", sheets.paths("sound")[::3], ids=lambda path: path.stem)
    def test_from_one_demo_sheet_to_another_and_back(self, path):
        sheet = pattern.read(path)
        for other in sheets.paths("sound")[1::4]:
            becomes = pattern.read(other)
            if becomes.units == sheet.units:
                there = pattern.read_text(pattern.edited(sheet, becomes))
                assert pattern.as_data(pattern.read_text(pattern.edited(there, sheet))) == pattern.as_data(sheet)

    @given(st.data())
    def test_a_few_values_change_and_no_other_line_does(self, data):
        text = data.draw(st.sampled_from([APART, DOTTED, sheets.BASE, sheets.BORDERED]))
        if data.draw(st.booleans()):
            text = text.replace("\n", "\r\n")
        sheet = pattern.read_text(text)
        counts = st.integers(1, 500)
        sizes = st.integers(8, 800).map(lambda eighths: f"{eighths // 8} {eighths % 8}/8".replace(" 0/8", ""))
        changes = {}
        for number in data.draw(st.sets(st.integers(0, len(sheet.cut) - 1))):
            changes["cut", number, "count"] = data.draw(counts)
            if data.draw(st.booleans()):
                changes["cut", number, "size"] = data.draw(sizes)
        becomes = pattern.changed(sheet, *changes.items())
        new = pattern.edited(sheet, becomes)
        assert pattern.as_data(pattern.read_text(new)) == pattern.as_data(becomes)
        different = [one for one in differences(pattern.as_data(sheet), pattern.as_data(becomes))]
        assert len(new.split("\n")) == len(text.split("\n"))
        changed = [(old, now) for old, now in zip(text.split("\n"), new.split("\n")) if old != now]
        assert all("# was " in now for _, now in changed) and len(changed) <= len(different)
        assert bool(changed) == bool(different)

    def test_what_cannot_be_written_into_the_text_is_refused(self, monkeypatch):
        sheet = pattern.read_text(APART)
        monkeypatch.setattr("quiltmath.pattern.editing.differences", lambda *_: ())
        with pytest.raises(pattern.Unreadable, match="cannot be written into this text"):
            pattern.edited(sheet, pattern.changed(sheet, (("cut", 0, "count"), 9)))


class TestSpans:
    @pytest.mark.parametrize("path", [*sheets.paths("sound"), *sheets.paths("faulty")], ids=lambda path: path.stem)
    def test_each_value_stands_where_it_is_said_to(self, path):
        text = path.read_text("utf-8")
        whole = tomllib.loads(text)
        found = spans(text)
        for place, value in found.values.items():
            inside = whole
            for key in place:
                inside = inside[key]
            assert tomllib.loads(f"k = {text[value.start : value.end]}")["k"] == inside
        assert all(text[start] == "#" for start, _ in found.comments)

    @pytest.mark.parametrize(
        "source, path",
        [
            ('k = """a""""', ("k",)),
            ("k = '''a\n'b'\n'''", ("k",)),
            ('"a b".\'c.d\'.e = {f.g = [1, {h = "#"}]}', ("a b", "c.d", "e", "f", "g", 1, "h")),
            ("[[a]]\n[[a.b]]\n[[a]]\n[[a.b]]\n[a.b.c]\nk = 1", ("a", 1, "b", 0, "c", "k")),
            ('k = "\\"#"  # c', ("k",)),
            ("k = [ # one\n 1, # two\n]", ("k", 0)),
            ("[t]\nk = 1979-05-27 07:32:00\nl = [true, -1.5e3, 0xF, 07:32:00]", ("t", "l", 3)),
        ],
    )
    def test_whatever_toml_may_look_like(self, source, path):
        inside = tomllib.loads(source)
        for key in path:
            inside = inside[key]
        assert tomllib.loads(f"k = {spans(source).source(path)}")["k"] == inside

    @given(VALUES, st.booleans())
    def test_whatever_is_written(self, table, alone):
        source = tomli_w.dumps(table, multiline_strings=alone)
        found = spans(source)
        for path, value in found.values.items():
            inside = table
            for key in path:
                inside = inside[key]
            assert tomllib.loads(f"k = {source[value.start : value.end]}")["k"] == inside
        assert tomllib.loads(f"k = {written(table)}")["k"] == table


class TestSpelling:
    @pytest.mark.parametrize(
        "like, value, units, said",
        [
            (3, "10/3 in", "in", "10/3 in"),
            (8.9, "10 cm", "cm", 10),
            ("8.9", "10 cm", "cm", "10"),
            ("3.5", "3 7/8", "in", "3.875"),
            ("3 1/2 inches", "3 7/8", "in", "3 7/8 inches"),
            ("2 1/2 x 4", "2 1/2 x 5", "in", "2 1/2 x 5"),
            ("2 1/2 by 4 in", "2 1/2 x 5", "in", "2 1/2 by 5 in"),
            ("9 cm", "3 7/8", "in", "3 7/8"),
            ("0.25 m", "70 cm", "cm", "0.7 m"),
            ("0.9 m", "1 3/8 yd", "in", "1 3/8 yd"),
            ("7/8 yards", "1 1/8 yd", "in", "1 1/8 yards"),
            ("3½", "3 7/8", "in", "3 7/8"),
            ("A", ["B"], "in", "B"),
            (["A"], ["A", "B"], "in", ["A", "B"]),
            (True, False, "in", False),
        ],
    )
    def test_as_it_was(self, like, value, units, said):
        assert spelled(like, value, units) == said

    def test_text_that_needs_other_quotes_gets_them(self):
        assert (written("it's", "'"), written("a", "'"), written('3"', '"')) == ('"it\'s"', "'a'", '"3\\""')


def test_a_list_that_loses_and_gains_is_told_by_its_names():
    old = [{"part": "A", "count": 1}, {"part": "B"}, {"part": "C"}]
    new = [{"part": "A", "count": 2}, {"part": "C"}, {"part": "D"}]
    assert list(differences({"cut": old}, {"cut": new})) == [
        Difference(("cut", 0, "count"), 1, 2),
        Difference(("cut", 1), {"part": "B"}, None),
        Difference(("cut", 3), None, {"part": "D"}),
    ]
