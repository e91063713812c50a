"""Slips of the pen in a pattern sheet: each is answered with its line, the value got and what to write instead."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quiltmath import making, pattern, review

from .sheets import BASE, BORDERED, FOLDER, changed

SLIPS = [
    # the slip, what should be typed, what is typed, the line that is named if not the first typed one, and what is said
    ("a fraction bare", 'size = "3 1/2"', "size = 3 1/2", "", "text goes in double quotes"),
    ("a decimal comma", 'size = "3 1/2"', "size = 3,5", "", "write a decimal with a point"),
    ("a name bare", 'fabric = "navy"', "fabric = navy", "", 'one "name = value" a line; got fabric = navy'),
    ("printer's quotes", 'part = "A"', "part = “A”", "", "type straight ones"),
    ("an inch mark", 'size = "3 1/2"', 'size = "3 1/2""', "", "leave the inch marks out"),
    (
        "a blank in a heading",
        "[block.four]",
        "[block.garden four]",
        "",
        'quotes there too, as in [block."garden star"]',
    ),
    ("no value", 'seam = "1/4"', "seam =", "", "nothing is written there"),
    ("one bracket for a list", "[[cut]]", "[cut]", "[[cut]]", "[[cut]], [[step]], [[border]] and [[other_size]]"),
    (
        "two brackets for a table",
        "[block.four]",
        "[[block.four]]",
        "",
        "head it [block.four], with one pair of brackets",
    ),
    (
        "a value for a table",
        "[block.four]",
        "[block]\nfour = 4\n[block.five]",
        "four = 4",
        "this is a table of its own",
    ),
    ("a key twice", "across = 2", "across = 2\nacross = 3", "across = 3", "this has been said already"),
    (
        "a count in quotes",
        "count = 16",
        'count = "16"',
        "",
        "write a whole number without quotes, such as 12; got '16'",
    ),
    ("a count of nothing", "count = 16", "count = 0", "", "write a whole number of 1 or more; got 0"),
    ("rows as one text", 'rows = ["A B", "B A"]', 'rows = "A B / B A"', "", 'such as ["A B", "B A"]; got'),
    (
        "commas in a row",
        'rows = ["A B"',
        'rows = ["A, B"',
        "",
        "'A,' is never cut or made; the names of a row are parted by blanks",
    ),
    ("a turn in words", 'rows = ["A B"', 'rows = ["A:left B"', "", 'degrees anticlockwise, as in "T:90"'),
    ("a name misspelt", 'block = "four"', 'block = "fuor"', "", "nothing uses 'four'; did you mean 'four'?"),
    ("a name in capitals", 'block = "four"', 'block = "Four"', "", "did you mean 'four'?"),
    ("a letter left out", '"side"\n[setting.corners]', '"sid"\n[setting.corners]', "[setting.sides]", "mean 'side'?"),
    ("a key misspelt", "usable_width", "useable_width", "", "did you mean usable_width"),
    ("width of fabric", "usable_width", "width_of_fabric", "", "did you mean usable_width"),
    ("width of fabric in short", "usable_width", "WOF", "", "did you mean usable_width"),
    ("fabric in yards", "bought", "yardage", "", "did you mean bought"),
    ("how many, in other words", "count = 16", "quantity = 16", "", "did you mean count"),
    ("a table misspelt", "[setting.sides]", "[setting.side]", "", "did you mean sides"),
    (
        "a key of the whole sheet",
        "across = 2",
        'across = 2\nseam = "3/8"',
        'seam = "3/8"',
        "seam stands at the top of the sheet, above",
    ),
    (
        "a table of the whole sheet",
        "across = 2",
        'across = 2\nbinding = "x"',
        'binding = "x"',
        "as a table [binding] of its own",
    ),
    ("another word", 'cut = "twice"', 'cut = "on both diagonals"', "", "write 'whole', 'once' or 'twice'; got"),
    (
        "cloth of no unit",
        'bought = "1 yd"',
        'bought = "2 1/2"',
        "",
        'write the unit too, as in "2 1/2 yd" or "1.5 m"; got \'2 1/2\'',
    ),
    ("cloth of no unit, a number", 'bought = "1 yd"', "bought = 2", "", "got 2"),
    ("no such cloth", 'fabric = "cream"', 'fabric = "Cream"', "", "which is no [fabric]; the sheet has navy, cream"),
    ("a name given twice", 'part = "B"', 'part = "A"  ', "", "two parts, units, blocks or steps are called 'A'"),
    (
        "the setting in itself",
        'block = "four"',
        'block = "setting"',
        "",
        "only a step takes that: name a part or block",
    ),
    (
        "a name of the setting's",
        'part = "side"\nfabric',
        'part = "setting"\nfabric',
        "",
        "is what the setting itself makes",
    ),
    (
        "a batting by length",
        "[block.four]",
        '[batting]\nbought = "2 yd"\n[block.four]',
        "",
        "write usable_width too",
    ),
    (
        "panels of nothing",
        "[block.four]",
        "[backing]\npanels = 2\n[block.four]",
        "",
        "cut from a length that is bought",
    ),
    ("a scant nothing", 'seam = "1/4"', 'seam = "scant"', "", "a length is a whole number, a fraction or a decimal"),
    ("something left out", "across = 2\n", "", "[setting]", "this is missing"),
    ("three sides", 'finished = "6"', "finished = [6, 6, 6]", "", "got 3 of them"),
    ("a width ten times as wide", 'usable_width = "42"', 'usable_width = "420"', "", 'write the unit too, "420 in" or'),
    ("a width that no roll has", 'usable_width = "42"', 'usable_width = "420 cm"', "", "the widest rolls are 130 in"),
    ("a width of centimetres", 'usable_width = "42"', "usable_width = 110", "", 'too, "110 in" or "110 cm"; got 110'),
    ("a seam of centimetres", 'seam = "1/4"', "seam = 0.75", "", "without a unit this is 3/4 in, which is unusual"),
    ("a seam of millimetres", 'seam = "1/4"', "seam = 0.01", "", "without a unit this is 0.01 in, which is unusual"),
    ("a turn cut short", 'rows = ["A B"', 'rows = ["A:9 B"', "", "by 90, 180 or 270; got 'A:9': is 90 meant?"),
    ("a turn cut short, as a table", 'rows = ["A B"', 'rows = [[{ name = "A", turn = 18 }]', "", "got '18': is 90"),
    ("a blank that a PDF lost", 'size = "3 1/2"', 'size = "31/2"', "", "is 3 1/2 meant? Write it so, or 15 1/2 if"),
    ("triangles of whole squares", "count = 16", "count = 16\ntriangles = 16", "triangles = 16", "take triangles out"),
    (
        "a finished size of a strip",
        'size = "3 1/2"\ncount = 16',
        'strip = "3 1/2"\nfinished = "3"\ncount = 16',
        'finished = "3"',
        "a strip across the width is no piece that has a finished size: take finished out",
    ),
    (
        "one name for two tables",
        "[block.four]",
        '[block."four "]\nrows = ["A"]\n[block.four]',
        '[block."four "]',
        "'four' is a name that is given twice, but for its blanks: give each a name of its own",
    ),
    (
        "a key of another kind of edge",
        'part = "side"\n[setting.corners]',
        'part = "side"\npast = "0"\n[setting.corners]',
        'past = "0"',
        'setting triangles that are "plain" (each cut as one part) have none: take past out',
    ),
    (
        "rows of a plain edge",
        'part = "side"\n[setting.corners]',
        'part = "side"\nleft = ["A"]\n[setting.corners]',
        'left = ["A"]',
        "take left out",
    ),
]


@pytest.mark.parametrize(
    "seam, said",
    [
        ('"1/4"', 'line 3: seam: centimetres have halves and tenths, no 4ths; if inches are meant, write "1/4 in"'),
        ('"0.75"', "line 4: finished.1: centimetres have halves and tenths, no 8ths; if inches are meant"),
    ],
)
def test_a_sheet_of_inches_marked_as_centimetres_is_asked_about(seam, said):
    marked = f'title = "Gate"\nunits = "cm"\nseam = {seam}\nfinished = ["16 7/8", "25 1/2"]\n'
    with pytest.raises(pattern.Unreadable) as refused:
        pattern.read_text(marked + BASE[BASE.index("[fabric.navy]") :], "gate.toml")
    assert said in str(refused.value)


def test_a_width_of_inches_in_a_sheet_of_centimetres_is_asked_about():
    with pytest.raises(pattern.Unreadable, match='write the unit too, "42 in" or "42 cm"; got \'42\''):
        pattern.read_text(changed(BASE, ('seam = "1/4"', 'units = "cm"\nseam = "0.75"')))


def test_what_is_unusual_is_read_with_its_unit_and_written_with_it():
    unusual = changed(
        BASE,
        ('seam = "1/4"', 'seam = "1 in"'),
        ('[fabric.navy]\nbought = "1 yd"\nusable_width = "42"', '[fabric.navy]\nusable_width = "108 in"'),
    )
    sheet = pattern.read_text(unusual + '[backing]\nbought = "3 yd"\nusable_width = "108"\n')
    assert (sheet.seam, sheet.fabric["navy"].usable_width, sheet.backing.usable_width) == (1, 108, 108)
    again = pattern.text(sheet)
    assert 'seam = "1 in"' in again and 'usable_width = "108 in"' in again
    assert pattern.read_text(again).model_dump() == sheet.model_dump()


def test_a_turn_is_a_number_and_steps_turn_as_far_as_they_say():
    step = '[[step]]\nturn = "four"\nby = {}\ngives = "turned"\n'
    assert pattern.read_text(BASE + step.format(22.5)).step[0].by == 22.5
    with pytest.raises(pattern.Unreadable, match="step.1.by: write a number without quotes, such as 90; got True"):
        pattern.read_text(BASE + step.format("true"))


@pytest.mark.parametrize("slip, right, wrong, named, said", SLIPS, ids=[slip[0] for slip in SLIPS])
def test_a_slip_is_answered_with_its_line_and_the_cure(slip, right, wrong, named, said):
    assert right in BASE
    typed = BASE.replace(right, wrong, 1)
    lines = typed.splitlines()
    line = 1 + next(
        n for n, one in enumerate(lines) if (one == named if named else one.startswith(wrong.splitlines()[0]))
    )
    with pytest.raises(pattern.Unreadable) as refused:
        pattern.read_text(typed, "gate.toml")
    assert str(refused.value).startswith(f"gate.toml, line {line}: "), refused.value
    assert said in str(refused.value)


@pytest.mark.parametrize(
    "right, wrong, said",
    [
        (
            "[[border]]",
            "[border]",
            "border: this can come more than once: head it [[border]], with two pairs of brackets",
        ),
        ('[binding]\nfabric = "binding cloth"', '[binding]\nfabric = "nvay"', "did you mean 'navy'?"),
    ],
)
def test_so_is_one_in_border_and_binding(right, wrong, said):
    with pytest.raises(pattern.Unreadable, match="gate.toml, line ") as refused:
        pattern.read_text(changed(BORDERED, (right, wrong)), "gate.toml")
    assert said in str(refused.value)


def test_a_list_too_short_or_too_long_says_how_many_belong_in_it():
    unit = '[unit.u]\nkind = "half-square"\nparts = {}\n[setting]'
    for parts, said in (
        ('["A"]', "unit.u.parts: this list has 2 entries or more; got"),
        ('["A", "B", "A", "B", "A"]', "unit.u.parts: this list has at most 4 entries; got"),
        ('["A", "B", "A"]', "unit.u: half-square units are made of 2 parts; got 3: name each kind of piece once"),
    ):
        with pytest.raises(pattern.Unreadable, match=said):
            pattern.read_text(changed(BASE, ("[setting]", unit.format(parts))))


MEDALLION, LENGTHS, HALVED, WHOLE, STRAIGHT = (
    (FOLDER / "sound" / f"{name}.toml").read_text("utf-8")
    for name in (
        "turned-medallion",
        "lattice-by-lengths",
        "halved-cornerstones",
        "trellis-whole-cornerstones",
        "kitchen-window-sashed",
    )
)
STRIPS = 'strip = ["short strip", "middle strip", "long strip"]'
PARTS = 'parts = ["outer", "right", "inner", "left"]'
ROUND = 'triangles = "round"'
AT_ODDS = [
    # what is wrong, the sheet, what it says, what is said in its place, and the answer
    (
        "too few lengths",
        LENGTHS,
        STRIPS,
        'strip = ["short strip", "long strip"]',
        "of 2 by 3 blocks have 3 lengths; got 2",
    ),
    (
        "too many lengths",
        LENGTHS,
        STRIPS,
        'strip = ["short strip", "middle strip", "long strip", "long strip"]',
        "got 4 names of strips: name one strip for all rows, or one for each length, the shortest first",
    ),
    (
        "lengths of another size",
        LENGTHS,
        "[block.four]",
        '[[other_size]]\nname = "wide"\nacross = 3\ndown = 4\n[block.four]',
        "size 'wide': the long sashing strips of 3 by 4 blocks have 4 lengths; got 3 names",
    ),
    ("one side frame", LENGTHS, '["left frame", "lower frame"]', '"left frame"', "write a list in square brackets"),
    (
        "a side triangle framed once",
        LENGTHS,
        '["left frame", "lower frame"]',
        '["left frame"]',
        "a side triangle is framed on both of its short edges; got 1 frame strip: name two",
    ),
    (
        "a corner framed on three edges",
        LENGTHS,
        'frame = ["corner frame"]',
        'frame = ["corner frame", "corner frame", "corner frame"]',
        "this list has at most 2 entries",
    ),
    (
        "triangles and sides",
        MEDALLION,
        ROUND,
        f'{ROUND}\nsides = "frame"',
        "of strips or of four triangles, not of both",
    ),
    ("triangles and a corner", MEDALLION, ROUND, f'{ROUND}\ncorner = "middle"', "of four triangles, not of both"),
    (
        "triangles mitred",
        MEDALLION,
        ROUND,
        f'{ROUND}\nends = "mitred"',
        "a round of four triangles has no ends to mitre",
    ),
    (
        "a border on one edge twice",
        MEDALLION,
        ROUND,
        'sides = "frame"\nonly = ["left", "left"]',
        "only: names the left edge twice: name each edge once",
    ),
    ("a border of nothing", MEDALLION, ROUND, "", "names the strips of its sides, of its top, or of both: add"),
    (
        "corners of a quarter-square",
        MEDALLION,
        PARTS,
        f'{PARTS}\ncorners = "lower left"',
        'only kind = "snowball" has squares sewn across its corners: take corners out',
    ),
    (
        "a half-square of four",
        MEDALLION,
        'kind = "quarter-square"',
        'kind = "half-square"',
        "half-square units are made of 2 parts; got 4",
    ),
    (
        "halved stones at a whole edge",
        HALVED,
        'edge = "half"',
        'edge = "whole"',
        'only where there are some and edge = "half": take edge_cornerstone out',
    ),
    (
        "halved stones without stones",
        HALVED,
        'cornerstone = "stone"\nedge',
        'strip = "stone"\nedge',
        "halves cornerstones only where there are some",
    ),
    (
        "halved stones of a straight setting",
        STRAIGHT,
        'cornerstone = "cornerstone"',
        'cornerstone = "cornerstone"\nedge_cornerstone = "cornerstone"',
        "the edge of a straight setting halves no cornerstones; got edge_cornerstone = 'cornerstone'",
    ),
    (
        "a tip at a halved edge",
        HALVED,
        '[setting.sides]\npart = "side"',
        '[setting.sides]\npart = "side"\ntip = "half stone"',
        "only where sashing runs outside the blocks; got tip = 'half stone': take it out, or write edge",
    ),
    (
        "an edge in a straight setting",
        STRAIGHT,
        "[setting.sashing]",
        '[setting.sashing]\nedge = "half"',
        "setting.sashing.edge: edge is said of a setting that is on point; this one is straight: take it out",
    ),
    (
        "around in one on point",
        HALVED,
        "[setting.sashing]",
        "[setting.sashing]\naround = true",
        "setting.sashing.around: around is said of a setting that is straight; this one is on point: take it out",
    ),
    (
        "triangles with a first pair",
        MEDALLION,
        ROUND,
        f'{ROUND}\nfirst = "sides"',
        "in two pairs of strips: take first",
    ),
    (
        "a plain edge with rows",
        LENGTHS,
        '[setting.sides]\npart = "side"',
        '[setting.sides]\npart = "side"\nrows = ["side"]',
        'setting.sides.rows: setting triangles that are "plain" (each cut as one part) have none: take rows out',
    ),
    (
        "a tip in the corner",
        WHOLE,
        "[setting.corners]",
        '[setting.corners]\ntip = "corner"',
        "corner triangles have no tips of their own; got tip = 'corner': write it in [setting.sides]",
    ),
]


@pytest.mark.parametrize("sheet, right, wrong, said", [case[1:] for case in AT_ODDS], ids=[case[0] for case in AT_ODDS])
def test_what_does_not_go_together_is_refused(sheet, right, wrong, said):
    making.make(pattern.read_text(sheet))
    with pytest.raises(pattern.Unreadable, match="^gate.toml, line ") as refused:
        review.review(pattern.read_text(changed(sheet, (right, wrong)), "gate.toml"))
    assert said in str(refused.value)


def test_a_name_with_a_blank_in_a_row_that_is_one_text_is_told():
    sheet = changed(
        BASE, ('part = "A"', 'part = "dark one"'), ('rows = ["A B", "B A"]', 'rows = ["dark one B", "B A"]')
    )
    with pytest.raises(pattern.Unreadable) as refused:
        pattern.read_text(sheet)
    assert "'dark one' has a blank in its name" in str(refused.value)
    assert str(refused.value).endswith('write the row as a list, ["dark one", …]')


def test_a_message_names_a_few_of_many_strips():
    strips = "".join(f'[[cut]]\npart = "strip {n}"\nfabric = "tan"\nstrip = "2"\ncount = 1\n' for n in range(40))
    with pytest.raises(pattern.Unreadable) as refused:
        pattern.read_text(f'{HALVED}\n{strips}[binding]\npart = "stripe"')
    assert str(refused.value).endswith("'strip 7' and 32 more")


def test_what_is_meant_is_read_however_it_is_written():
    for size in (
        '"3 1/2"',
        "3.5",
        '"3.5 in"',
        '"3½"',
        '"3 1/2 x 3 1/2"',
        '"3 1/2 by 3 1/2"',
        '["3 1/2", 3.5]',
        "'3 1/2\"'",
    ):
        assert pattern.read_text(BASE.replace('"3 1/2"', size)).part("A").size == (3.5, 3.5), size
    for cloth, inches in (('"1 yd"', 36), ('"36 in"', 36), ("36", 36), ('"0.9144 m"', 36)):
        assert pattern.read_text(BASE.replace('"1 yd"', cloth)).fabric["navy"].bought == inches


@given(st.integers(0, len(BASE) - 1), st.sampled_from('"[]=,\n #éA0'))
def test_no_stroke_of_a_key_brings_anything_but_words(place, key):
    try:
        pattern.read_text(BASE[:place] + key + BASE[place + 1 :], "gate.toml")
    except pattern.Unreadable as refused:
        assert str(refused).startswith("gate.toml")
        assert "\n" not in str(refused)
