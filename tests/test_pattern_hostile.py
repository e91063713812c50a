"""Sheets that nobody should type: one clear message each, or a review, and never another exception."""

import os
import random
import string
import time

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from quiltmath import making, pattern, review
from quiltmath.pattern import Unreadable, lines
from quiltmath.review.writing import text as in_words

from .sheets import BASE, BORDERED, changed, demo, paths, typed


def refused(sheet):
    """The message with which a sheet is refused, on reading or on review."""
    with pytest.raises(Unreadable) as caught:
        review.review(pattern.read_text(sheet, "bad.toml"))
    message = str(caught.value)
    assert "\n" not in message and message.isprintable() and len(message) < 700
    return message


def read_or_refused(sheet):
    """A review in words, or None where the sheet is refused with one line that can be printed."""
    try:
        found = review.review(pattern.read_text(sheet, "odd.toml"))
    except Unreadable as problem:
        assert str(problem).isprintable()
        return None
    assert found.as_dict()["verdict"] in ("go", "ask", "stop")
    return in_words(found)


class TestValues:
    @pytest.mark.parametrize(
        "value, says",
        [
            ("1e400", "got inf; write for example 3 7/8, 3.875, 9.8 cm or 1 1/2 yd"),
            ("nan", "got nan"),
            ("-inf", "got -inf"),
            ("9" * 400, "at most 1,000,000 in; got a number of about 398 digits"),
            ("20000", "at most 10,000 in; got '20000'"),
            ("0", "a size is more than 0; got 0: write the size as the pattern prints it"),
            ('"-3"', "a size is more than 0; got -3"),
            ("true", "got True"),
            ("2020-01-01", "got 2020-01-01"),
            ("{a = 1}", "got {'a': 1}"),
            ('"3 ft"', "feet are not read"),
            ('"9,75"', "write a decimal with a point"),
            ("[1, 2, 3]", "a size is one length (a square) or two, [width, height]; got 3"),
            ('"wide"', "got 'wide'"),
            ('""', "got ''"),
            ('"' + "9" * 200 + '"', "(200 characters)"),
        ],
    )
    def test_a_size_that_is_none(self, value, says):
        message = refused(changed(BASE, ('size = "9 3/4"', f"size = {value}")))
        assert message.startswith("bad.toml, line 23: cut.3.size: ") and says in message

    @pytest.mark.parametrize(
        "value, says",
        [
            ("0", "1 or more; got 0"),
            ("-2", "1 or more; got -2"),
            ("true", "got True"),
            ("2.0", "got 2.0"),
            ('"2"', "got '2'"),
            ("9" * 30, "100000 or less; got " + "9" * 30),
        ],
    )
    def test_a_count_that_is_none(self, value, says):
        message = refused(changed(BASE, ('count = 2\ncut = "twice"', f'count = {value}\ncut = "twice"')))
        assert message.startswith("bad.toml, line 24: cut.3.count: write a whole number") and says in message

    def test_a_number_too_long_to_read(self):
        assert "a number is too long" in refused(changed(BASE, ('size = "9 3/4"', "size = " + "9" * 5000)))

    @pytest.mark.parametrize(
        "name, says",
        [
            ("s" * 5_000, "a name is 1 to 120 printable characters; got 5,000: shorten it"),
            ("", "at least one letter; got nothing"),
            ("a\\nb", "one that does not show (U+000A): take it out"),
            ("\\u001b[31mred", "(U+001B)"),
            ("abc\\u202Edcba", "(U+202E)"),
            ("a\\u200bb", "(U+200B)"),
        ],
    )
    def test_a_name_that_is_none(self, name, says):
        message = refused(changed(BASE, ('part = "side"\nfabric', f'part = "{name}"\nfabric')))
        assert message.startswith("bad.toml, line 21: cut.3.part: ") and says in message

    @pytest.mark.parametrize(
        "old, new, says",
        [
            (
                'style = "on point"',
                'style = "diagonal"',
                "line 36: setting.style: write 'straight' or 'on point'; got 'diagonal'",
            ),
            (
                'block = "four"\n',
                'block = "four"\nblok = 3\n',
                "line 40: setting.blok: a sheet has no such key here; did you mean block",
            ),
            ("across = 2", "across = 401", "line 37: setting.across: write a whole number of 400 or less; got 401"),
            (
                'rows = ["A B", "B A"]',
                "rows = [[1, 2]]",
                'line 34: block.four.rows.1: a row names its parts in quotes, as in ["A", "B", "A"]',
            ),
            ('rows = ["A B", "B A"]', 'rows = ["A:nan B"]', "turned by -360 to 360 degrees; got 'A:nan'"),
            (
                'rows = ["A B", "B A"]',
                'rows = [[{name = "A", turn = 1e300}]]',
                "a turn is -360 to 360 degrees, anticlockwise; got 1e+300",
            ),
            (
                'seam = "1/4"',
                "seam = 9",
                (
                    "line 2: seam: a seam is at most 2 in wide; got 9 in: write the seam allowance, "
                    "mostly 1/4 in or 0.75 cm"
                ),
            ),
            ("title =", 'units = "furlong"\ntitle =', "line 1: units: write 'in' or 'cm'; got 'furlong'"),
            (
                'part = "B"',
                'part = "A"',
                "two parts, units, blocks or steps are called 'A': give each a name of its own",
            ),
            (
                'part = "side"\nfabric = "navy"',
                'part = "side"\nfabric = "nav"',
                "which is no [fabric]; the sheet has navy, cream",
            ),
            ('part = "B"', 'part = "quilt"', "'quilt' is what the setting itself makes"),
            ('rows = ["A B", "B A"]', 'rows = ["A quilt", "B A"]', "line 34: 'quilt' is what the setting itself makes"),
            (
                'rows = ["A B", "B A"]',
                'rows = ["four A"]',
                "line 34: 'four' would be made from itself ('four' from 'four')",
            ),
        ],
    )
    def test_a_line_that_is_none(self, old, new, says):
        message = refused(changed(BASE, (old, new)))
        assert message.startswith("bad.toml, line ") and says in message

    @pytest.mark.parametrize(
        "missing, says", [(BASE[: BASE.index("[setting]")], "setting: this is missing"), ("", "title: this is missing")]
    )
    def test_what_is_missing(self, missing, says):
        assert says in refused(missing)

    def test_units_are_made_as_many_at_a_time_as_they_can_be(self):
        unit = '[unit.u]\nkind = "half-square"\nparts = ["A", "B"]\nat_a_time = 1\n[setting]'
        assert "half-square units are made 2 or 4 or 8 at a time; got 1" in refused(changed(BASE, ("[setting]", unit)))


class TestShapes:
    def test_steps_in_a_circle(self):
        steps = '[[step]]\ntrim = "b"\nleft = 1\ngives = "a"\n[[step]]\ntrim = "a"\nleft = 1\ngives = "b"\n'
        assert "'a' would be made from itself ('a' from 'b' from 'a'): start it from parts that are cut" in refused(
            BASE + steps
        )

    def test_an_edge_triangle_built_of_the_quilt(self):
        built = changed(
            BASE, ('[setting.sides]\npart = "side"', '[setting.sides]\nhow = "built"\nrows = [["setting"]]')
        )
        assert "'setting' is what the setting itself makes, and only a step takes that" in refused(built)

    def test_a_border_of_the_quilt(self):
        border = '[[border]]\nsides = "side"\ntop = "setting"\n'
        assert "'setting' is what the setting itself makes, and only a step takes that" in refused(BASE + border)

    def test_sixty_blocks_each_of_two_of_the_last(self):
        blocks = "".join(
            f'[block.d{i}]\nrows = ["{"four" if i == 0 else f"d{i - 1}"} {"four" if i == 0 else f"d{i - 1}"}"]\n'
            for i in range(60)
        )
        message = refused(changed(BASE, ("[setting]", blocks + "[setting]"), ('block = "four"', 'block = "d59"')))
        assert "this quilt would need 36,893,488,147,419,103,242 patches; at most 100,000 are sewn here" in message

    def test_more_than_100_000_patches_are_counted_and_refused(self):
        message = refused(changed(BASE, ("across = 2\ndown = 3", "across = 400\ndown = 400")))
        assert message == (
            "bad.toml, line 35: this quilt would need 1,278,404 patches; at most 100,000 are sewn here: check the "
            "counts, or review one quarter of it"
        )

    def test_few_strips_may_make_too_many_patches(self):
        data = demo(next(path for path in paths("sound") if path.stem.startswith("rails")))
        data["setting"]["across"] = data["setting"]["down"] = 390
        assert "1,825,200 patches" in refused(typed(data))

    def test_all_sizes_together_count(self):
        sizes = "".join(f'[[other_size]]\nname = "x{i}"\nacross = 60\ndown = 60\n' for i in range(20))
        assert "all its sizes together would need 571,322 patches" in refused(BASE + sizes)

    @pytest.mark.parametrize("text", ["a = " + "[" * 2900 + "]" * 2900, "a = " + "{b=" * 1400])
    def test_deep_nesting(self, text):
        assert "nested too deeply" in refused(text)

    def test_no_toml(self):
        assert refused("title = Navy\n").startswith("bad.toml, line 1: this is not TOML (Invalid value)")

    @pytest.mark.parametrize(
        "step",
        [
            'turn = "setting"\nby = 37.5',
            'trim = "setting"\nleft = 900',
            'cut = "setting"\nfrom = [1, 1]\nto = [1, 1]',
            'cut = "setting"\nfrom = [900, 0]\nto = [900, 9]',
            'sew = ["setting", "A"]\nedges = ["left", 1e300]',
            'sew = ["setting", "A"]\nedges = [nan, "left"]',
            'sew = ["setting", "setting"]\nedges = ["inside", "left"]',
        ],
    )
    def test_steps_that_cannot_be_done(self, step):
        gives = '["a", "b"]' if step.startswith("cut") else '"a"'
        assert read_or_refused(f"{BASE}[[step]]\n{step}\ngives = {gives}\n")

    @pytest.mark.parametrize(
        "old, new",
        [
            ('seam = "1/4"', 'seam = "2 in"'),
            ('seam = "1/4"', 'seam = "0.0000000000001 in"'),
            ('usable_width = "42"', 'usable_width = "1/100 in"'),
            ('size = "3 1/2"', 'size = "1/10"'),
            ('block = "four"\n', 'block = "side"\n'),
            ('block = "four"\n', 'block = "four"\nfloating = 900\n'),
            ("[setting.sides]\n", '[setting.sides]\nframe = ["four", "side"]\n'),
            ('[setting.sides]\npart = "side"', '[setting.sides]\nhow = "cut blocks"\npast = 900'),
            ("[setting.sides]", '[setting.sashing]\npart = "side"\ncornerstone = "corner"\n[setting.sides]'),
            ("[setting.sides]", '[setting.sashing]\npart = "A"\ncornerstone = "B"\nedge = "whole"\n[setting.sides]'),
            ('[setting.sides]\npart = "side"', '[setting.sides]\nhow = "built"\nrows = ["A B", "A"]'),
            ("[setting]", '[unit.u]\nkind = "snowball"\nparts = ["A", "A"]\n[setting]'),
            ("count = 16", "count = 60000"),
            (
                '[setting.corners]\npart = "corner"',
                '[setting.corners]\npart = "corner"\n[[border]]\nsides = "side"\ntop = "four"',
            ),
        ],
    )
    def test_odd_quilts_are_reviewed(self, old, new):
        assert read_or_refused(changed(BASE, (old, new)))

    def test_twenty_borders_and_thick_binding(self):
        assert read_or_refused(
            changed(
                BORDERED,
                ('[[border]]\nsides = "long"\ntop = "short"\n', '[[border]]\nsides = "long"\ntop = "short"\n' * 20),
            )
        )
        assert read_or_refused(changed(BORDERED, ('strip = "2 1/4"', "strip = 100")))


class TestWords:
    @pytest.mark.parametrize(
        "title", ["<script>alert(1)</script>", "$\\\\frac{1}{2}$ \\\\input{/etc/passwd}", "{0.__class__}", "%s %n", "ﷺ"]
    )
    def test_titles_are_only_words(self, title):
        assert (
            read_or_refused(changed(BASE, ('"Four-patch at the gate"', f'"{title}"'))).splitlines()[1].startswith("GO")
        )

    def test_the_ends_of_lines_and_the_mark_at_the_start_do_not_matter(self):
        assert read_or_refused("\ufeff" + BASE.replace("\n", "\r\n")) == read_or_refused(BASE)


class TestLongSheets:
    """What is long takes long in proportion, and no longer: in each of these the time grew with the square, or
    worse."""

    BLANKS = " " * 5_300

    @pytest.mark.parametrize(
        "sheet",
        [
            f"[{BLANKS}\n{BASE}",
            f"v = [\n[{BLANKS}],\n['a',\n[{BLANKS}'b']]]\n{BASE}",
            f"v{BLANKS}= 3\n{BASE}",
            f"v{BLANKS}\n{BASE}",
            f"[[{BLANKS}v.{BLANKS[:500]}w]]\nx = 3\n{BASE}",
            changed(BASE, ('"9 3/4"', f'"9{BLANKS}3/4"')),
            changed(BASE, ('"9 3/4"', '"""9' + f"{BLANKS}\n" * 40 + '3/4"""')),
            "[" * 5_900,
            "['" + "= " * 2_900,
            "[" + f".{BLANKS[:50]}a" * 100,
        ],
        ids=lambda sheet: f"{len(sheet):,} of {sheet[:3]}",
    )
    def test_blanks_and_brackets_are_refused_at_once(self, sheet):
        begun = time.process_time()
        refused(sheet)
        assert time.process_time() - begun < 2

    @pytest.mark.parametrize("line", ["#" * 80_000, f'note = "{"a " * 40_000}"', "[" + " " * 80_000])
    def test_a_line_that_is_no_line_of_a_sheet_is_refused_first(self, line):
        assert refused(f"{BASE}{line}\n") == (
            "bad.toml, line 44: a line of a pattern sheet has at most 6,000 characters; "
            f"this one has {len(line):,}: is it the right file?"
        )

    @pytest.mark.parametrize("written", ["{} = 1", "[{}]", "[[ {} ]]", "'v'.{}=1"])
    def test_a_name_of_hundreds_of_parts_is_refused_before_it_is_taken_apart(self, written):
        line = written.format(" . ".join("a" * 1_400)) + "\n"
        message = refused(BASE + line * 150)
        assert message.startswith("bad.toml, line 44: a name in a pattern sheet has at most 8 parts between dots; got ")

    def test_a_text_is_looked_through_once_for_all_that_is_found(self, monkeypatch):
        parts = "".join(
            f'[[cut]]\npart = "P{number}"\nfabric = "navy"\nsize = "2"\ncount = 3\n' for number in range(490)
        )
        seen = []
        places = lines.spans
        monkeypatch.setattr(lines, "spans", lambda text: seen.append(len(text)) or places(text))
        sheet = f"# {'x' * 80}\n" * 10_000 + BASE + parts
        found = review.review(pattern.read_text(sheet, "long.toml"))
        assert len(found.findings) > 490 and found.findings[-1].where.startswith("long.toml, line 1")
        assert seen == [len(sheet)]


class TestLines:
    @pytest.mark.parametrize(
        "path, line",
        [
            (["note"], 1),
            (["a b", "c"], 3),
            (["a b"], 2),
            (["cut"], 4),
            (["cut", 0], 4),
            (["cut", 1, "size", 0], 10),
            (["cut", 1, "count"], 7),
            (["cut", 2], 4),
            (["block", "four", "rows"], 13),
            (["block", "four"], 12),
            (["block"], 12),
            (["setting", "sides", "part"], 15),
            (["setting", "sides"], 15),
            (["setting"], 14),
            (["nothing"], None),
            ([], None),
        ],
    )
    def test_a_path_has_the_line_that_gives_it_or_gives_what_it_lies_in(self, path, line):
        text = (
            "note = 'x = 3'\n[\"a b\"]  # named so\nc = 1\n[[cut]]\npart = 'A'\nsize = 3\n[[ cut ]]\npart = 'B'\n"
            "size = [\n['1'],\n]\n[ block . four ]\n rows = ['A B']\n[setting]\nsides.part = 'A'"
        )
        assert lines.KeyLines(text).of(path) == line


class TestFiles:
    def test_a_file_that_is_not_there(self, tmp_path):
        with pytest.raises(Unreadable, match="there is no such file; check its name and folder"):
            pattern.read(tmp_path / "none.toml")

    def test_a_folder(self, tmp_path):
        with pytest.raises(Unreadable, match="this is a folder; name one pattern sheet in it"):
            pattern.read(tmp_path)

    @pytest.mark.parametrize(
        "raw, says",
        [
            (b"\x89PNG\r\n\x1a\n\0\0", "this is not a text file; a pattern sheet is TOML text"),
            (b'title = "caf\xe9"', "not UTF-8 text; save the sheet as UTF-8"),
            (b"#" * 1_000_001, "at most 1,000,000 bytes; this file has 1,000,001"),
        ],
    )
    def test_a_file_that_is_no_sheet(self, tmp_path, raw, says):
        (tmp_path / "odd.toml").write_bytes(raw)
        with pytest.raises(Unreadable, match=says):
            pattern.read(tmp_path / "odd.toml")

    @pytest.mark.skipif(not os.path.exists("/dev/zero"), reason="this system has no devices that never end")
    def test_a_device_that_never_ends(self):
        with pytest.raises(Unreadable):
            pattern.read("/dev/zero")

    def test_a_good_file_is_named_in_what_is_found(self, tmp_path):
        (tmp_path / "gate.toml").write_text(changed(BASE, ('"9 3/4"', '"9"')))
        assert (
            review.review(pattern.read(tmp_path / "gate.toml")).findings[0].where
            == f"{tmp_path / 'gate.toml'}, line 23"
        )


# -- made up at random -------------------------------------------------------------------------------------------------

WORDS = [
    "title",
    "seam",
    "finished",
    "units",
    "cut",
    "part",
    "fabric",
    "size",
    "strip",
    "count",
    "block",
    "rows",
    "setting",
    "style",
    "across",
    "down",
    "sides",
    "corners",
    "how",
    "border",
    "top",
    "step",
    "sew",
    "turn",
    "by",
    "gives",
    "A",
    "B",
    "on point",
    "straight",
    "3 1/2",
]
VALUES = st.recursive(
    st.one_of(
        st.integers(-(10**6), 10**6),
        st.floats(allow_nan=True),
        st.booleans(),
        st.text(max_size=12),
        st.sampled_from(WORDS),
    ),
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(st.sampled_from(WORDS), inner, max_size=5),
    max_leaves=12,
)


@given(st.text(max_size=300) | st.binary(max_size=300).map(lambda raw: raw.decode("latin-1")))
def test_any_text_is_read_or_refused(text):
    read_or_refused(text)


@settings(suppress_health_check=[HealthCheck.too_slow])
@given(st.dictionaries(st.sampled_from(WORDS), VALUES, max_size=8))
def test_any_tables_are_read_or_refused(data):
    read_or_refused(typed(data))


@st.composite
def bent_sheets(draw, sheets):
    """One of these sheets, plain tables, with some of its values replaced, left out or doubled."""
    data = draw(sheets)
    for _ in range(draw(st.integers(1, 3))):
        place = data
        while True:
            keys = list(place) if isinstance(place, dict) else list(range(len(place)))
            if not keys:
                break
            key = draw(st.sampled_from(keys))
            if isinstance(place[key], (dict, list)) and draw(st.integers(0, 3)):
                place = place[key]
                continue
            what = draw(st.sampled_from(["value", "value", "drop", "number", "double"]))
            if what == "drop":
                del place[key]
            elif what == "double" and isinstance(place, list):
                place.append(place[key])
            else:
                place[key] = draw(
                    VALUES
                    if what == "value"
                    else st.sampled_from([1, 2, 5, 40, "1/8", "12", "1 1/2", 90, -90, 0.3, "A"])
                )
            break
    return data


@settings(max_examples=60, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large])
@given(bent_sheets(st.sampled_from(paths("sound")).map(demo)))
def test_a_bent_sheet_is_reviewed_or_refused(data):
    read_or_refused(typed(data))


@settings(max_examples=30)
@given(st.sampled_from(paths("sound")), st.integers(0, 10**6))
def test_a_sheet_with_letters_lost_is_reviewed_or_refused(path, seed):
    chance, text = random.Random(seed), list(path.read_text("utf-8"))
    for _ in range(chance.randint(1, 6)):
        at = chance.randrange(len(text))
        text[at] = chance.choice(["", "", text[at] * 2, chance.choice(string.printable)])
    read_or_refused("".join(text))


def test_a_refusal_is_a_value_error():
    assert issubclass(making.TooLarge, Unreadable) and issubclass(Unreadable, ValueError)
