"""Fabric as it is bought: in pieces of a size, of each of several prints, as scraps; printed strips beside the pieces,
lengths of borders, strips of other lengths, binding told by its whole length."""

from collections import Counter
from fractions import Fraction
from functools import cache

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import box
from shapely.ops import unary_union

from quiltmath import pattern, review, yardage
from quiltmath.demos import form_values
from quiltmath.handout.buying_and_cutting import bought, to_buy
from quiltmath.handout.supplied import supplied

from .sheets import FOLDER

QUARTERS = (FOLDER / "sound" / "fat-quarters-and-strips.toml").read_text("utf-8")
PRINTS = """\
title = "Thirteen paths"
seam = "1/4"
finished = ["40", "52"]
[fabric.blues]
prints = 13
bought = "1/6 yd"
usable_width = "42"
[fabric.ecru]
scraps = true
[fabric.check]
bought = "1 yd"
usable_width = "42"
[[cut]]
part = "B"
fabric = "blues"
size = "4 1/2"
per_print = 5
[[cut]]
part = "E"
fabric = "ecru"
size = "4 1/2"
count = 65
[setting]
style = "straight"
across = 10
down = 13
block = "B"
alternate = "E"
[binding]
fabric = "check"
strip = "2 1/2"
length = "200"
style = "bias"
"""
STRIPS = """\
title = "Bars in two widths"
seam = "1/4"
finished = ["32", "30 1/2"]
[fabric.rust]
bought = "1 1/4 yd"
usable_width = "42"
[fabric.teal]
bought = "1 yd"
usable_width = "42"
[[cut]]
part = "small"
fabric = "teal"
size = ["3", "6"]
strips = 2
strip_width = "6"
count = 20
[[cut]]
part = "edge"
fabric = "teal"
strip = "2"
count = 6
[[cut]]
part = "middle"
fabric = "rust"
strip = "3"
count = 3
[[cut]]
part = "side"
fabric = "rust"
strip = "2"
length = "36"
lengthwise = true
count = 4
[strip_set.wide]
strips = ["edge", "middle", "edge"]
sub_cut = "7"
sets = 3
pieces = 10
[strip_set.narrow]
of = "wide"
sub_cut = "2"
pieces = 20
[block.bar]
rows = ["narrow small wide small narrow"]
[setting]
style = "straight"
across = 2
down = 5
block = "bar"
[[border]]
sides = "side"
sides_length = "28"
top = "side"
top_length = "32 1/2"
"""
BORDER_AND_BINDING = """\
title = "Ferry slip"
seam = "1/4"
finished = ["48", "48"]
[fabric.plum]
bought = "1 1/4 yd"
usable_width = "42"
[fabric.sand]
pieces = 49
piece = "10 in square"
[[cut]]
part = "A"
fabric = "sand"
size = "6 1/2"
count = 25
[[cut]]
part = "C"
fabric = "sand"
size = "6 1/2"
count = 24
[[cut]]
part = "outer"
fabric = "plum"
strip = "3 1/2"
count = 10
[setting]
style = "straight"
across = 7
down = 7
block = "A"
alternate = "C"
[[border]]
sides = "outer"
top = "outer"
[binding]
part = "outer"
"""
ROLLS = """\
title = "Long shadows"
seam = "1/4"
finished = ["48", "60"]
[fabric.darks]
pieces = 28
piece = "2 1/2 in strips"
[fabric.lights]
pieces = 14
piece = "precut 2-1/2-inch strip"
[[cut]]
part = "dark"
fabric = "darks"
strip = "2 1/2"
count = "enough"
[[cut]]
part = "light"
fabric = "lights"
strip = "2 1/2"
count = 14
[strip_set.rail]
strips = ["dark", "light", "dark"]
sub_cut = "6 1/2"
[block.fence]
rows = ["rail rail:90", "rail:90 rail"]
finished = "12"
[setting]
style = "straight"
across = 4
down = 5
block = "fence"
"""
SHEETS = {
    "quarters": QUARTERS,
    "prints": PRINTS,
    "strips": STRIPS,
    "border and binding": BORDER_AND_BINDING,
    "rolls": ROLLS,
}


@cache
def reviewed(name, old="", new=""):
    """The review of a sheet with one line of it changed."""
    assert old in SHEETS[name]
    return review.review(pattern.read_text(SHEETS[name].replace(old, new, 1), name))


class TestRight:
    @pytest.mark.parametrize("name", SHEETS)
    def test_a_right_sheet_passes_without_a_word(self, name):
        found = reviewed(name)
        assert (found.verdict, [one.message for one in found.findings]) == ("go", [])

    @pytest.mark.parametrize("name", SHEETS)
    def test_form_and_writing_lose_nothing_of_it(self, name):
        sheet = reviewed(name).sheet
        again = pattern.read_text(pattern.text(sheet))
        assert again.model_dump() == sheet.model_dump()
        assert form_values.read(*form_values.filled_from(sheet)).model_dump() == sheet.model_dump()

    @pytest.mark.parametrize(
        "name, old, new",
        [
            ("quarters", "strips = 5", "strips = 6"),  # one to spare
            ("quarters", "pieces = 3", "pieces = 30"),
            ("quarters", 'strip_width = "4 1/2"\n', ""),  # what is not printed is what fits
            ("quarters", 'piece = "fat quarter"', 'piece = ["21", "18"]'),
            ("prints", "per_print = 5", "count = 65"),
            ("prints", 'length = "200"', 'count = "enough"'),
            ("strips", 'top_length = "32 1/2"', 'top_length = "34"'),  # trimmed after sewing
            ("border and binding", "count = 10", "count = 11"),
        ],
    )
    def test_what_does_no_harm_is_not_told(self, name, old, new):
        assert reviewed(name, old, new).findings == ()


PRECUT_BARS = """\
title = "Bars"
seam = "1/4"
finished = ["16", "16"]
[fabric.roll]
pieces = 4
piece = "2 1/2 in strip"
usable_width = "42"
[[cut]]
part = "bar"
fabric = "roll"
size = ["2 1/2", "8 1/2"]
strips = 4
count = 16
[setting]
style = "straight"
across = 8
down = 2
block = "bar"
"""


class TestPrecut:
    def test_strips_are_no_wider_than_the_piece_they_are_cut_from(self):
        """Strips 8 1/2 in wide would give 16 bars each, and none is to be had."""
        assert review.review(pattern.read_text(PRECUT_BARS)).findings == ()
        (few,) = review.review(pattern.read_text(PRECUT_BARS.replace("strips = 4", "strips = 3"))).findings
        assert (few.level, few.needed) == ("stop", "4 strips")

    def test_prints_that_another_size_does_not_buy_are_not_judged_in_it(self):
        more = '[[other_size]]\nname = "small"\nacross = 4\ndown = 1\nfinished = ["8", "8"]\ncounts = { bar = 4 }\n'
        prints = PRECUT_BARS.replace('pieces = 4\npiece = "2 1/2 in strip"', 'prints = 4\nbought = "1/8 yd"')
        assert review.review(pattern.read_text(prints + more)).verdict == "go"


class TestWrong:
    @pytest.mark.parametrize(
        "name, old, new, level, check, path, mended",
        [
            ("quarters", "strips = 5", "strips = 4", "stop", "piece-count", "cut.1.strips", 5),
            ("quarters", "strips = 5", "strips = 9", "note", "piece-count", "cut.1.strips", 5),
            ("quarters", "count = 40", "count = 36", "stop", "piece-count", "cut.1.count", 40),
            (
                "quarters",
                'strip_width = "4 1/2"',
                'strip_width = "4"',
                "stop",
                "piece-count",
                "cut.1.strip_width",
                None,
            ),
            ("quarters", 'strip_width = "4 1/2"', 'strip_width = "6"', "ask", "piece-count", "cut.1.strip_width", None),
            ("quarters", "pieces = 3", "pieces = 2", "stop", "fabric-short", "fabric.reds.pieces", 3),
            ("quarters", '"fat quarter"', '["9", "21"]', "stop", "fabric-short", "fabric.reds.pieces", 6),
            ("quarters", '"36 1/2"', '"36"', "stop", "border-length", "border.0.sides_length", "36 1/2 in"),
            ("quarters", '"42 1/2"', '"52 1/2"', "ask", "border-length", "border.0.top_length", "42 1/2 in"),
            ("prints", "per_print = 5", "per_print = 4", "stop", "piece-count", "cut.0.per_print", 5),
            ("prints", "prints = 13", "prints = 12", "stop", "piece-count", "cut.0.per_print", 6),
            ("prints", '"1/6 yd"', '"1/9 yd"', "stop", "fabric-short", "fabric.blues.bought", "1/8 yd"),
            ("prints", '"200"', '"180"', "stop", "binding-short", "binding.length", "186 in"),
            ("strips", "sets = 3", "sets = 2", "stop", "piece-count", "strip_set.wide.sets", 3),
            ("strips", 'length = "36"', 'length = "26"', "stop", "border-length", "cut.3.length", "32 1/2"),
            ("border and binding", "count = 10", "count = 8", "stop", "border-length", "cut.2.count", 10),
            ("border and binding", "pieces = 49", "pieces = 48", "stop", "fabric-short", "fabric.sand.pieces", 49),
            ("rolls", "pieces = 28", "pieces = 27", "stop", "fabric-short", "fabric.darks.pieces", 28),
        ],
    )
    def test_one_fault_is_one_finding_at_its_place(self, name, old, new, level, check, path, mended):
        found = reviewed(name, old, new)
        (one,) = found.findings
        assert (one.level, one.check, ".".join(map(str, one.path))) == (level, check, path)
        if mended is not None:
            assert (one.path, mended) in one.fix
        if level == "stop":
            assert found.correction.review.verdict == "go"

    def test_strips_that_were_worked_out_from_a_wrong_count_are_no_second_fault(self):
        found = review.review(
            pattern.read_text(QUARTERS.replace("count = 40", "count = 27").replace("strips = 5", "strips = 3"))
        )
        (one,) = found.findings
        assert one.path == ("cut", 1, "count") and (("cut", 1, "strips"), 5) in one.fix

    def test_the_strips_tell_that_the_count_is_wrong(self):
        (one,) = reviewed("quarters", "count = 40", "count = 36").findings
        assert "The 5 strips printed beside them would give 45." in one.message

    def test_border_lengths_tell_which_piece_is_wrong(self):
        sheet = QUARTERS.replace('size = "4 1/2"\ncount = 41', 'size = "4"\ncount = 41')
        names = {one.path for one in review.review(pattern.read_text(sheet)).findings if one.check == "cut-size"}
        assert names == {("cut", 0, "size")}

    def test_a_width_that_is_not_printed_is_asked_where_it_decides(self):
        text = QUARTERS.replace('usable_width = "42"\n', "", 1).replace("across = 9", "across = 8")
        for old, new in (('["42", "42"]', '["38", "42"]'), ("count = 41", "count = 36"), ("count = 40", "count = 36")):
            text = text.replace(old, new)
        text = text.replace('"42 1/2"', '"38 1/2"').replace("strips = 5", "strips = 4")
        (one,) = review.review(pattern.read_text(text)).findings
        assert (one.level, one.path) == ("ask", ("cut", 1, "strips"))
        assert (
            "4 strips 4 1/2 in wide, sub-cut into 36 of 'C', are enough at 42 in, 4 pieces short at 40 in"
            in one.message
        )


REFUSED = [
    ("quarters", "pieces = 3", 'pieces = 3\nbought = "1 yd"', "reds.pieces: fabric is bought by length or in pieces"),
    ("quarters", "pieces = 3", "", "reds.piece: how many pieces of this size?"),
    ("quarters", 'piece = "fat quarter"', "", "reds.pieces: pieces of which size?"),
    ("quarters", '"fat quarter"', '"3"', "reds.piece: a piece of fabric has two sides, or a name of the trade"),
    ("quarters", '"fat quarter"', '"half bolt"', "got 'half bolt'"),
    ("quarters", '"fat quarter"', '"1/2 in square"', "no fabric is sold in pieces narrower than 1 in"),
    ("quarters", '"fat quarter"', '"5 in square"\nusable_width = "42"', "a piece of a given size is as wide as that"),
    ("quarters", '"fat quarter"', '"fat quarter"\nscraps = true', "scraps are not bought: take pieces out"),
    ("quarters", "strips = 5\n", "", "cut.2.strip_width: a strip width is that of the strips"),
    ("quarters", 'part = "H"', 'part = "H"\nstrips = 4', "cut.3.strips: strips are sub-cut into pieces of a size"),
    ("quarters", "count = 40", 'count = "enough"', 'only strips are cut in as many as are "enough"'),
    ("quarters", "count = 40", "", "cut.2.count: this is missing; the sheet needs it"),
    ("quarters", "count = 40", "per_print = 40", "nothing says how many prints 'cream' has"),
    ("quarters", 'strip = "3 1/2"', 'strip = "3 1/2"\nlengthwise = true', "write its length too"),
    ("quarters", "count = 40", 'count = 40\nlength = "21"', "only a strip says its length"),
    ("quarters", 'strip = "3 1/2"', 'size = ["3 1/2", "43"]', "has a length of its own"),
    ("quarters", "count = 5", 'count = 5\nlength = "200"', "counted in strips or by its whole length, not both"),
    ("quarters", "count = 5", "", "binding.count: this is missing"),
    ("quarters", "count = 5", 'count = 5\npart = "H"', "the binding is cut as part 'H', whose line says it"),
    ("prints", "per_print = 5", "per_print = 5\ncount = 65", "counted in all or per_print, not both: take count out"),
    ("prints", 'prints = 13\nbought = "1/6 yd"', "prints = 100000", "at most 100,000 are counted"),
    ("prints", "scraps = true", "prints = 3", "nothing is counted of each print"),
    ("strips", 'of = "wide"', 'of = "broad"', "'broad' is no strip set"),
    ("strips", 'of = "wide"', 'of = "narrow"', "'narrow' is itself cut from the sets of another"),
    ("strips", 'of = "wide"', 'of = "wide"\nsets = 2', "take sets out"),
    ("strips", 'of = "wide"', 'of = "wide"\nstrips = ["edge"]', "its strips are those of 'wide': take strips out"),
    (
        "border and binding",
        'part = "outer"\n',
        'part = "A"\n',
        "'A' is no strip of the cutting list; its strips are 'outer'",
    ),
]


class TestRefused:
    @pytest.mark.parametrize("name, old, new, said", REFUSED, ids=range(len(REFUSED)))
    def test_what_contradicts_or_would_be_left_out_is_refused(self, name, old, new, said):
        text = SHEETS[name]
        before, _, after = text.rpartition(old) if name == "border and binding" else text.partition(old)
        with pytest.raises(pattern.Unreadable) as refused:
            pattern.read_text(before + new + after, name)
        assert said in str(refused.value)
        assert f"{name}, line " in str(refused.value)


class TestOtherSizes:
    SIZE = '[[other_size]]\nname = "cushion"\nacross = 3\ndown = 3\nfinished = ["18", "18"]\n'

    def test_what_another_size_does_not_say_is_not_judged_in_it(self):
        assert review.review(pattern.read_text(QUARTERS + self.SIZE)).findings == ()

    def test_its_pieces_of_fabric_are(self):
        sheet = QUARTERS + self.SIZE.replace("across = 3\ndown = 3", "across = 13\ndown = 13").replace('"18"', '"58"')
        (one,) = review.review(pattern.read_text(sheet + "pieces = { reds = 5 }\n")).findings
        assert (one.check, one.level, one.size) == ("fabric-short", "stop", "cushion")
        assert review.review(pattern.read_text(sheet + "pieces = { reds = 6 }\n")).findings == ()


class TestPaper:
    @pytest.mark.parametrize(
        "name, fabric, said",
        [
            ("quarters", "reds", "3 fat quarters"),
            ("prints", "blues", "13 prints, 1/6 yd each"),
            ("prints", "ecru", "scraps"),
            ("border and binding", "sand", "49 squares (10 in)"),
            ("rolls", "darks", "28 strips (2 1/2 in)"),
        ],
    )
    def test_materials_are_told_as_they_are_bought(self, name, fabric, said):
        assert bought(reviewed(name).reading, fabric) == said

    @pytest.mark.parametrize("name", SHEETS)
    def test_what_is_supplied_leaves_what_is_said(self, name):
        reading = supplied(reviewed(name).reading)
        named = {what.removeprefix("Fabric: "): how for what, how, *_ in to_buy(reading)}
        for fabric, listed in reviewed(name).sheet.fabric.items():
            assert listed.bought is not None or named[fabric] == bought(reviewed(name).reading, fabric)


# -- plans on pieces of fabric -------------------------------------------------------------------------------------

EIGHTHS = st.integers(4, 80).map(lambda eighths: Fraction(eighths, 8))
CUT = st.builds(yardage.Piece, EIGHTHS, EIGHTHS, st.integers(1, 30), st.sampled_from("ABCDE"), st.booleans())


class TestPlans:
    @settings(max_examples=60, deadline=None)
    @given(st.lists(CUT, min_size=1, max_size=5), st.sampled_from([(21, 18), (21, 9), (10, 10), (42, Fraction(5, 2))]))
    def test_every_cut_lies_on_its_piece_and_none_overlaps(self, cuts, fabric):
        try:
            plan = yardage.on_pieces(cuts, *fabric)
        except yardage.DoesNotFit:
            return
        assert 1 <= plan.at_least <= plan.count
        whole = box(0, 0, float(fabric[0]), float(fabric[1]))
        for places in plan.filled:
            laid = [box(*map(float, (one.x, one.y, one.x + one.width, one.y + one.height))) for one in places]
            assert laid and all(whole.covers(one) for one in laid)
            assert unary_union(laid).area == pytest.approx(sum(one.area for one in laid))
        cut = Counter()
        for one in (one for places in plan.filled for one in places if not one.joined):
            ways = {(one.width, one.height), (one.height, one.width) if one.piece.any_way else (one.width, one.height)}
            assert (one.piece.width, one.piece.height) in ways
            cut[id(one.piece)] += 1
        joined = {id(one.piece) for places in plan.filled for one in places if one.joined}
        assert {id(piece): piece.count for piece in plan.pieces if id(piece) not in joined} == cut

    @settings(max_examples=60, deadline=None)
    @given(st.data())
    def test_it_is_never_short_where_a_careful_cutter_finds_enough(self, data):
        wide, high = data.draw(st.integers(3, 6)), data.draw(st.integers(3, 6))
        side = st.integers(1, min(wide, high))
        sizes = data.draw(st.lists(st.tuples(side, side, st.integers(1, 3), st.booleans()), min_size=1, max_size=3))
        plan = yardage.on_pieces([yardage.Piece(*one[:3], "A", one[3]) for one in sizes], wide, high)
        fewest = fewest_by_trying(sizes, wide, high, plan.count)
        assert plan.at_least <= fewest <= plan.count


def fewest_by_trying(sizes, wide, high, enough):
    """The fewest pieces of fabric that hold all, by trying every place of every piece on a grid; no more than are known
    to be `enough`."""
    single = sorted(
        ((w, h, any_way) for w, h, count, any_way in sizes for _ in range(count)), key=lambda one: -one[0] * one[1]
    )
    for sheets in range(1, enough):
        if _fits(single, [0] * sheets, wide, high, {}):
            return sheets
    return enough


def _fits(left, filled, wide, high, known):
    """Whether the pieces left fit on the fabric, of which so many cells (bits) are filled."""
    if not left:
        return True
    key = len(left), tuple(sorted(filled))
    if key not in known:
        (w, h, any_way), *rest = left
        known[key] = any(
            _fits(
                rest, [one | mask if number == place else one for number, one in enumerate(filled)], wide, high, known
            )
            for place in {cells: number for number, cells in enumerate(filled)}.values()
            for across, along in ({(w, h), (h, w)} if any_way else {(w, h)})
            for mask in _masks(across, along, wide, high)
            if not filled[place] & mask
        )
    return known[key]


@cache
def _masks(across, along, wide, high):
    return [
        sum(1 << ((y + dy) * wide + x + dx) for dy in range(along) for dx in range(across))
        for y in range(high - along + 1)
        for x in range(wide - across + 1)
    ]
