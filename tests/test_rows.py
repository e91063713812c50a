"""Settings whose blocks are drawn, in rows and columns; ready-made blocks; borders on some edges, pieced ones; other
sizes that are set otherwise."""

from collections import Counter
from functools import cache
from math import sqrt

import numpy as np
import pytest

from quiltmath import making, pattern, review
from quiltmath.making.placed import placed, polygons

from .sheets import BASE, BORDERED, FOLDER, changed, demo, found, reviewed, typed

SHORT_FORMS = (
    "auf-der-spitze",
    "hourglasses-in-a-border",
    "kitchen-window-sashed",
    "lattice-by-lengths",
    "steep-trellis",
    "stars-sashed-inside",
)
SAMPLER, SHELVES, COLUMNS = (f"{name}.toml" for name in ("eight-by-the-door", "five-shelves", "half-drop-geese"))


@cache
def sound(name):
    return (FOLDER / "sound" / name).read_text("utf-8")


def drawn(data):
    """The same sheet with every block of its setting in its place."""
    setting = data["setting"]
    across, down, block = (setting.pop(key) for key in ("across", "down", "block"))
    other = setting.pop("alternate", block)
    if setting["style"] == "straight":
        setting["rows"] = [[(block, other)[(x + y) % 2] for x in range(across)] for y in range(down)]
        return data
    setting["rows"] = [[block] * across] * down
    if min(across, down) > 1:
        setting["between"] = [[other] * (across - 1)] * (down - 1)
    return data


def shapes(made):
    """Every patch of the finished picture: how many of each fabric have these corners."""
    return Counter(
        (fabric, tuple(sorted(map(tuple, np.round(corners, 3).tolist()))))
        for _, fabric, corners in polygons(placed(made))
    )


class TestShortForm:
    @pytest.mark.parametrize("name", SHORT_FORMS)
    def test_drawn_block_by_block_it_is_the_same_quilt(self, name):
        data = demo(FOLDER / "sound" / f"{name}.toml")
        data.pop("other_size", None)
        short = making.make(pattern.read_text(typed(data)))
        long = making.make(pattern.read_text(typed(drawn(data))))
        assert long.bill == short.bill
        assert long.finished == short.finished
        assert {part: need.value for part, need in long.needs.items()} == {
            part: need.value for part, need in short.needs.items()
        }
        assert shapes(long) == shapes(short)

    def test_each_block_of_a_sampler_lies_where_it_is_drawn(self):
        """On point with sashing block (column, row) has its middle at ((c + 1/2), (r + 1/2)) pitches x √2."""
        made, pitch = making.make(pattern.read_text(sound(SAMPLER))), (9 + 1.5) * sqrt(2)
        middles = {}
        for thing in placed(made):
            corners = np.concatenate([shape for *_, shape in polygons([thing])])
            middles[thing.part] = tuple(((corners.min(axis=0) + corners.max(axis=0)) / 2 / pitch).round(6))
        drawn_at = {"nine": (0.5, 2.5), "rail": (1.5, 2.5), "window": (0.5, 1.5), "cross": (1.5, 1.5)}
        drawn_at |= {"hook": (0.5, 0.5), "gate": (1.5, 0.5), "found": (1, 2), "step": (1, 1)}
        assert {part: middles[part] for part in drawn_at} == drawn_at

    @pytest.mark.parametrize("name", [SAMPLER, SHELVES, COLUMNS])
    def test_the_picture_is_the_cloth(self, name):
        """Sampled at points, the finished cloth has the fabric of the picture there; columns, turned blocks, pieced
        borders and their corners with it."""
        made = making.make(pattern.read_text(sound(name)))
        picture = [(fabric, corners) for _, fabric, corners in polygons(placed(made))]
        sewn = [(patch.fabric, np.array(patch.polygon)) for patch in made.bound.patches]
        for x, y in np.random.default_rng(7).uniform(0.01, 0.99, (150, 2)) * made.finished:
            here = {fabric for fabric, corners in picture if inside(corners, x, y, 0.05)}
            there = {fabric for fabric, corners in sewn if inside(corners, x, y, -0.05)}
            assert len(here) == 0 or here <= there


def inside(corners, x, y, margin):
    """Whether a point lies in a convex shape, at least so far (inches) from its edges."""
    sides = np.roll(corners, -1, axis=0) - corners
    long = np.hypot(*sides.T)
    left = sides[:, 0] * (y - corners[:, 1]) - sides[:, 1] * (x - corners[:, 0])
    turns = np.sign((corners[:, 0] * sides[:, 1] - corners[:, 1] * sides[:, 0]).sum())
    return bool((turns * left[long > 1e-9] > margin * long[long > 1e-9]).all())


CONTRADICTIONS = [
    ("across = 2\ndown = 3", 'across = 2\ndown = 3\nrows = ["four"]', "setting.across: rows draw every block"),
    ('across = 2\ndown = 3\nblock = "four"', 'rows = ["four four"]\ncolumns = ["four"]', "in rows or in columns, not"),
    ('across = 2\ndown = 3\nblock = "four"', 'columns = ["four"]', "drawn in its level rows: write rows"),
    (
        'across = 2\ndown = 3\nblock = "four"',
        'rows = ["four four", "four"]\nbetween = ["four"]',
        "row 2 names 1 block, and there must be 2, as many as the first row: write one name for each",
    ),
    (
        'across = 2\ndown = 3\nblock = "four"',
        'rows = ["four four", "four four"]\nbetween = ["four four"]',
        "row between 1 names 2 blocks, and there must be 1, one fewer than the level rows",
    ),
    (
        'across = 2\ndown = 3\nblock = "four"',
        'rows = ["four four", "four four"]',
        "between 2 level rows lie 1 more, of 1 name each; got 0: write them as between",
    ),
    ('across = 2\ndown = 3\nblock = "four"', 'rows = ["four:45"]', "turned by quarters, 90, 180 or 270; got four:45"),
    ("across = 2", 'across = 2\nbetween = ["four"]', "take between out, or write rows for the level ones"),
    ('block = "four"\n', "", "setting.block: this is missing; a setting says across, down and block, or draws"),
    ('[block.four]\nfinished = "6"\nrows = ["A B", "B A"]', "[block.four]\nfinished = 6", "comes ready_made = true"),
    ('rows = ["A B", "B A"]', "ready_made = true\ncount = 1\ntrim_to = 6", "a ready-made block is taken as it is"),
    ('finished = "6"\nrows', "size = 6\nrows", "a block that is sewn finishes as its rows do"),
    ("[setting.sides]", '[[border]]\nonly = ["left"]\ntop = "A"\n[setting.sides]', "nothing is named for the left"),
    ("[setting.sides]", '[[border]]\ntop = "A"\ncorner = "B"\n[setting.sides]', "on all four edges has corners"),
    ("[setting.sides]", '[[border]]\ntop = "A"\nfirst = "top"\n[setting.sides]', "is not sewn on before another"),
    ("[setting.sides]", '[[border]]\ntop = "A"\nends = "mitred"\n[setting.sides]', "on all four edges is mitred"),
    (
        "[setting.sides]",
        '[[other_size]]\nname = "b"\nacross = 3\nrows = ["four"]\n[setting.sides]',
        "this size: take across",
    ),
    ("[setting.sides]", '[[other_size]]\nname = "b"\nstrip = "A"\n[setting.sides]', "has no long sashing strips"),
    ("[setting.sides]", '[[other_size]]\nname = "b"\nrows = ["fuor"]\n[setting.sides]', "'fuor' is never cut or made"),
]


@pytest.mark.parametrize("right, wrong, said", CONTRADICTIONS)
def test_what_contradicts_itself_is_refused_with_what_to_write(right, wrong, said):
    with pytest.raises(pattern.Unreadable) as refused:
        pattern.read_text(changed(BASE, (right, wrong)), "gate.toml")
    assert said in str(refused.value), refused.value
    assert "more to correct" not in str(refused.value)


def one(sheet, *pairs):
    """The only stop on a changed sheet, as (check, message)."""
    stops = [finding for finding in found(changed(sheet, *pairs)) if finding.level == "stop"]
    assert len(stops) == 1, stops
    return stops[0].check, stops[0].message


BRICKS = """\
title = "Two rows"
seam = "1/4"
finished = ["12", "8"]
[[cut]]
part = "A"
fabric = "red"
size = "4 1/2"
count = 3
[[cut]]
part = "K"
fabric = "red"
size = ["6", "4"]
count = 2
[setting]
style = "straight"
rows = ["A A A", "K K"]
"""


class TestRows:
    def test_a_piece_printed_as_it_finishes_is_mended_on_both_sides(self):
        (finding,) = found(BRICKS)
        assert finding.needed == "6 1/2 by 4 1/2 in"

    def test_a_size_that_is_wrong_in_two_sizes_is_told_once(self):
        more = '[[other_size]]\nname = "long"\nrows = ["A A A", "K K", "A A A"]\n'
        more += 'finished = ["12", "12"]\ncounts = { A = 6 }\n'
        assert len(found(BRICKS + more)) == 1
        assert len(found(BRICKS + more.replace("A = 6", "A = 5"))) == 2

    def test_a_block_left_out_of_a_row_is_named_and_put_back_in_both_sizes(self):
        wrong = changed(sound(SHELVES), ('"brick brick brick brick brick brick"', '"brick brick brick brick brick"'))
        seen = review.review(pattern.read_text(wrong))
        assert (
            "Row 3 of the setting comes to 30 in and should come to 36 in: one 'brick' is left out"
            in seen.findings[0].message
        )
        mended = pattern.edited(seen.sheet, seen.correction.sheet)
        assert mended.count('"brick brick brick brick brick brick",  # was "brick brick brick brick brick"') == 2

    def test_a_piece_larger_than_its_place_is_told_with_its_row(self):
        check, message = one(sound(SAMPLER), ('size = "9 1/2"\ncount = 1', 'size = "10"\ncount = 1'))
        assert check == "edges-differ"
        assert (
            "'found' measures 10 in, too large: it must measure 9 1/2 in, to fit in row 1 of those between" in message
        )
        check, message = one(sound(SHELVES), ('["9 1/2", "5 1/2"]', '["9", "5 1/2"]'))
        assert (check, "so that row 4 is as long as row 1" in message) == ("edges-differ", True)

    def test_long_strips_too_few_for_their_rows(self):
        check, message = one(sound(SHELVES), ('strip = "2 1/2"\ncount = 2', 'strip = "2 1/2"\ncount = 1'))
        assert (check, message.startswith("The long strips between the rows cut from 'board' measure 73 in")) == (
            "strip-short",
            True,
        )

    def test_columns_with_sashing_are_a_grid(self):
        sheet = changed(sound(SAMPLER), ('style = "on point"', 'style = "straight"'))
        start, end = sheet.index("rows = [                           # the level"), sheet.index("[setting.sashing]")
        sheet = sheet[:start] + 'columns = ["nine window found", "rail:90 cross step"]\n' + sheet[end:]
        sheet = sheet[: sheet.index("[setting.sides]")] + sheet[sheet.index("[binding]") :]
        made = making.make(pattern.read_text(sheet))
        assert str(made.lies.rows_of_blocks[0]) == "Row 1: sash, nine, sash, rail turned 90°, sash"
        assert made.finished == (22.5, 33.0)
        assert (made.bill["sash"], made.bill["stone"]) == (17, 12)

    def test_a_piece_that_is_forgotten_follows_from_its_row(self):
        sheet = sound(COLUMNS)
        start = sheet.index('[[cut]]\npart = "half"')
        sheet = sheet[:start] + sheet[sheet.index('[[cut]]\npart = "lath"') :]
        (missing,) = making.make(pattern.read_text(sheet)).forgotten
        assert (missing.wanted, missing.line.size) == (3, (9.5, 5))


class TestReadyMade:
    def test_too_few_are_told_and_no_fabric_is_counted(self):
        sheet = changed(sound(SAMPLER), ('"nine rail:90"', '"nine found"'))
        (finding,) = found(sheet)
        assert finding.message.startswith("Row 1 of the setting names 'found' where 'rail' fits, which is made and")
        assert pattern.read_text(sheet).block["found"].ready_made
        assert "ready-made block" not in {cut.fabric for cut in making.make(pattern.read_text(sheet)).sheet.cut}
        ready = changed(BASE, ('rows = ["A B", "B A"]', 'ready_made = true\nsize = "6 1/2"\ncount = 7'))
        assert "There are 7 blocks 'four', but the quilt takes 8. Get 1 more." in {one.message for one in found(ready)}


TOP_AND_BOTTOM = changed(BORDERED, ('sides = "long"\ntop = "short"', 'top = "short"'), ('["36", "42"]', '["24", "42"]'))
TOP_AND_BOTTOM = TOP_AND_BOTTOM.replace('["6 1/2", "36 1/2"]', '["6 1/2", "24 1/2"]').replace(
    '[[cut]]\npart = "long"\nfabric = "cream"\nsize = ["6 1/2", "30 1/2"]\ncount = 2\n', ""
)


PANEL = """\
title = "A panel"
seam = "1/4"
finished = "18"
[[cut]]
part = "middle"
fabric = "print"
size = "10 1/2"
count = 1
[[cut]]
part = "plain"
fabric = "white"
strip = "1 1/2"
count = 2
[[cut]]
part = "K"
fabric = "red"
size = "3 1/2"
count = 20
[block.keys]
rows = ["K K K K"]
[setting]
style = "straight"
across = 1
down = 1
block = "middle"
[[border]]
sides = "plain"
sides_length = "10 1/2"
top = "plain"
top_length = "12 1/2"
[[border]]
sides = "keys"
top = "keys"
corner = "K"
"""


class TestBorders:
    def test_at_the_top_and_bottom_alone(self):
        assert reviewed(TOP_AND_BOTTOM).verdict == "go"
        assert making.make(pattern.read_text(TOP_AND_BOTTOM)).finished == (24, 42)

    @pytest.mark.parametrize("edge, size", [("left", (30, 30)), ("bottom", (24, 36))])
    def test_on_one_edge_alone(self, edge, size):
        pair = "sides" if edge == "left" else "top"
        long = "30 1/2" if edge == "left" else "24 1/2"
        sheet = changed(TOP_AND_BOTTOM, ('top = "short"', f'{pair} = "short"\nonly = ["{edge}"]'))
        sheet = changed(sheet, ('["6 1/2", "24 1/2"]\ncount = 2', f'["6 1/2", "{long}"]\ncount = 1'))
        sheet = changed(sheet, ('["24", "42"]', f"{list(map(str, size))}"))
        assert [finding.check for finding in found(sheet)] == []
        made = making.make(pattern.read_text(sheet))
        assert made.finished == size
        low = np.concatenate([corners for *_, corners in polygons(placed(made)[-1:])]).min(axis=0)
        assert low.tolist() == [0, 0]  # the strip lies at the left, or at the bottom

    def test_one_that_is_cut_short(self):
        check, message = one(TOP_AND_BOTTOM, ('["6 1/2", "24 1/2"]', '["6 1/2", "24"]'))
        assert (check, "Border 1, top and bottom: 'short' is cut 24 in long" in message) == ("border-length", True)

    def test_the_plain_border_that_makes_a_pieced_one_fit_is_told(self):
        sheet = changed(sound(COLUMNS), ('[[border]]\nsides = "inner side"\ntop = "inner end"\n', ""))
        (finding,) = found(sheet, "border-length")
        assert (
            "if it finishes 3 in wide left and right (cut 3 1/2 in) and 2 1/4 in wide top and bottom (cut 2 3/4 in)"
            in (finding.message)
        )

    def test_a_piece_left_out_of_a_pieced_one_is_told_of_its_row(self):
        (finding,) = found(changed(PANEL, ('"K K K K"', '"K K K"')))
        assert finding.message.startswith(
            "Row 1 of 'keys' comes to 9 in and should come to 12 in: one 'K' is left out."
        )
        assert finding.fix == ((("block", "keys", "rows"), [["K", "K", "K", "K"]]),)

    def test_a_pieced_one_tells_what_is_wrong_inside_it(self):
        assert found(PANEL) == []
        (finding,) = found(changed(PANEL, ('size = "10 1/2"', 'size = "10"')))
        assert (
            finding.message == "'middle' is cut 10 in, too small: cut 10 1/2 in, so that 'keys' is as long as its edge."
        )

    def test_a_pieced_one_is_not_mitred(self):
        check, message = one(sound(COLUMNS), ('corner = "four"', 'ends = "mitred"'))
        assert (check, "what is pieced has no ends to mitre" in message) == ("edges-differ", True)


class TestOtherSizes:
    @pytest.mark.parametrize(
        "right, wrong, check",
        [
            ("A = 52", "A = 51", "piece-count"),
            ("board = 3", "board = 2", "strip-short"),
            ('["42", "48"]', '["42", "52"]', "finished-size"),
            ('["3 1/2", "39 1/2"]', '["3 1/2", "38"]', "border-length"),
            ("nine = 8", "nine = 7", "piece-count"),
        ],
    )
    def test_what_is_wrong_in_its_rows_and_borders_is_told_with_its_name(self, right, wrong, check):
        said, message = one(sound(SHELVES), (right, wrong))
        assert (said, message.startswith("In size long: ")) == (check, True)

    def test_the_first_size_is_judged_without_what_the_other_alone_has(self):
        first = sound(SHELVES).partition("[[other_size]]")[0]
        assert found(first) == []
        assert making.make(pattern.read_text(first)).finished == (36, 39)
