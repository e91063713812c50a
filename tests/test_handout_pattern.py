"""The pattern on paper: its numbers, read out of the PDF's text and typed into a sheet, pass the review and are the
library's; its pictures are those of the sheet."""

import re
from fractions import Fraction
from functools import cache
from itertools import combinations

import numpy as np
import pytest
import shapely

from quiltmath import blocks, pattern, review, settings
from quiltmath.draw import Shapes, Words
from quiltmath.handout import PAPERS, Pages, assembly, buying_and_cutting, drawn, finishing, whole_pattern
from quiltmath.handout.drawn import Look
from quiltmath.handout.numbered import numbers
from quiltmath.handout.supplied import supplied
from quiltmath.handout.unit_steps import HOW, unit_words
from quiltmath.pattern.sheet import EXAMPLE
from quiltmath.pattern.writing import toml
from quiltmath.resources import folder
from quiltmath.review.reading import Reading

from .on_paper import is_readable, read_aloud
from .sheets import changed
from .sweep import some_of

PATTERNS = folder("data") / "patterns"
NINE = blocks.named("nine-patch", 9)
METRIC = blocks.named("nine-patch", "24 cm")
PLANS = {
    "plain": lambda: settings.on_point(across=3, down=4, block=9),
    "built": lambda: settings.on_point(5, 6, NINE, edges="built", borders=["2", settings.border(5, "mitred")]),
    "built of four": lambda: settings.on_point(3, 3, blocks.named("sixteen-patch", 8), edges="built"),
    "sashed": lambda: settings.on_point(3, 4, blocks.named("ohio-star", 9), sashing=2, borders=4),
    "whole cornerstones": lambda: settings.on_point(2, 5, blocks.named("shoofly", 7), sashing="1 1/2", edge="whole"),
    "long strips": lambda: settings.on_point(3, 3, 8, sashing=2, cornerstones=False),
    "framed": lambda: settings.on_point(3, 3, 8, frame="1 1/2", edges="framed"),
    "floating": lambda: settings.on_point(4, 4, 8, alternate="plain", floating=2),
    "straight": lambda: settings.straight(4, 5, blocks.named("sawtooth-star", 8), alternate="plain", borders=["1 1/2"]),
    "straight sashed": lambda: settings.straight(3, 4, 9, 2, around=True, borders=[settings.border(3, first="top")]),
    "medallion": lambda: settings.medallion(blocks.named("ohio-star", 12), ["triangles", "2", "triangles", 5]),
    "metric": lambda: settings.on_point(4, 4, METRIC, edges="built", unit="cm", borders=[6]),
    "metric fit": lambda: settings.fit("150", "200", ["24"], unit="cm", sashings=["3"], borders=["5"])[0].plan(),
}
TRIED = [name for name in PLANS if name not in ("built of four", "long strips", "straight", "metric fit")]
"""What pytest tries of them; `python -m tests.sweep paper` tries all."""
SOUND = sorted(path.stem for path in (PATTERNS / "sound").glob("*.toml"))
LENGTH = r"(?:\d+ \d+/\d+|\d+/\d+|\d+\.\d+|\d+)"
SIZE = rf"{LENGTH}(?: (?:x|by) {LENGTH})? (?:in|cm)"
TRUE = Fraction(1, 10_000)  # inches: the last of four decimal places


@cache
def planned(name):
    """The reading of a plan, with all that its handout tells."""
    return supplied(Reading(PLANS[name]().sheet()))


@cache
def sound(name):
    return supplied(Reading(pattern.read(PATTERNS / "sound" / f"{name}.toml")))


@cache
def pages_of(reading, paper="A4"):
    return list(whole_pattern.pages(reading, PAPERS[paper]))


@cache
def told(reading):
    """The text of the pattern as a PDF has it, its lines run together."""
    pages = Pages(reading.sheet.title, PAPERS["A4"])
    pages.add("pattern", pages_of(reading))
    return " ".join(read_aloud(pages.pdf()).split())


def without_numbers(value, key=""):
    """The tables of a sheet without a number in them: what its pictures tell, not its words."""
    if isinstance(value, dict):
        found = {name: without_numbers(one, name) for name, one in value.items()}
        return {name: one for name, one in found.items() if one not in (None, {})}
    if key in ("rows", "left", "bottom", "right") or isinstance(value, bool):
        return value
    if isinstance(value, list):
        return [without_numbers(one, key) for one in value]
    named = ("part", "fabric", "block", "alternate", "cornerstone", "edge_cornerstone", "tip", "strip", "sides", "top")
    words = ("how", "edge", "style", "ends", "first", "corner", "triangles", "join", "kind", "parts", "frame", "title")
    if key == "strip" and re.match(r"[\d/ .]+( cm)?$", str(value)):
        return None
    return value if key in (*named, *words) and isinstance(value, str) else None


def sized(text):
    """A printed size as it is typed: a unit behind each of its sides."""
    unit = text.split()[-1]
    return " x ".join(f"{side.removesuffix(unit).strip()} {unit}" for side in re.split(" x | by ", text))


def typed(reading):
    """The sheet that a reader types from the printed pattern: its pictures give the rows, its words every number."""
    text, data = told(reading), without_numbers(pattern.as_data(reading.sheet))

    def one(words, named="the page"):
        found = {match if isinstance(match, str) else tuple(match) for match in re.findall(words, text)}
        assert len(found) == 1, f"{named}: {words} gives {found}"
        return found.pop()

    finished, seam, across, down = one(
        rf"Finished size: ({SIZE}); seam: ({LENGTH} (?:in|cm)); (\d+) x (\d+) blocks, {data['setting']['style']}\."
    )
    data |= {"units": reading.sheet.units, "finished": sized(finished), "seam": seam}
    data["setting"] |= {"across": int(across), "down": int(down)}
    for name in reading.sheet.fabric:
        bought, width = one(rf"Fabric: {re.escape(name)} ({LENGTH} (?:yd|m)) ({LENGTH} (?:in|cm))")
        data.setdefault("fabric", {})[name] = {"bought": bought, "usable_width": width}
    for number, cut in enumerate(data["cut"], 1):
        row = rf"(?<![\d(]){number} {re.escape(cut['part'])} (\d+) ({SIZE})((?: {SIZE})?)((?: cut (?:once|twice) on)?)"
        count, size, finishes, way = one(row, cut["part"])
        cut |= {"count": int(count), "size": sized(size)} | ({"cut": way.split()[1]} if way else {})
        cut |= {"finished": sized(finishes.strip())} if finishes else {}
    for kind in ("unit", "block"):
        for name, table in data.get(kind, {}).items():
            start = rf"{numbers(reading.sheet)[name]} {re.escape(name)}: make (\d+).{{10,900}}? finishes ({SIZE})\."
            made, size = one(start, name)
            table |= {"count": int(made), "finished": sized(size)}
    floating = reading.sheet.setting.floating
    if floating:
        data["setting"]["floating"] = one(rf"The blocks float ({LENGTH} (?:in|cm)) inside")
    count, strip = one(rf"binding strips (\d+) ({LENGTH} (?:in|cm)) x WOF")
    data["binding"] |= {"count": int(count), "strip": strip}
    bought, width, panels = one(rf"Backing ({LENGTH} (?:yd|m)) ({LENGTH} (?:in|cm)) (\d+) panels?")
    data["backing"] = {"bought": bought, "usable_width": width, "panels": int(panels)}
    data["batting"] = {"size": sized(one(rf"Batting ({SIZE}) -"))}
    return pattern.read_text(toml(data), "typed.toml")


def a_sound_sheet_has_its_pages(name):
    reading = sound(name)
    assert 3 <= len(pages_of(reading)) <= 8
    text = told(reading)
    for cut in reading.sheet.cut:
        assert re.search(rf"{numbers(reading.sheet)[cut.part]} {re.escape(cut.part)}", text), cut.part
    for made in (*reading.sheet.unit, *reading.sheet.block):
        if reading.made.bill[made]:
            ready = made in reading.sheet.block and reading.sheet.block[made].ready_made
            assert f"{numbers(reading.sheet)[made]} {made}: {'ready made' if ready else 'make'} " in text


def typed_off_the_page_it_passes_the_review(name):
    found = review.review(typed(planned(name)))
    assert [finding.message for finding in found.findings] == []
    assert found.verdict == "go"


class TestReadBack:
    @pytest.mark.parametrize("name", some_of(TRIED, "typed off the page", 4))
    def test_typed_off_the_page_it_passes_the_review(self, name):
        typed_off_the_page_it_passes_the_review(name)

    @pytest.mark.parametrize("name", TRIED)
    def test_nothing_is_lost_on_the_way_to_paper(self, name):
        sheet, read = planned(name).sheet, typed(planned(name))
        for key in (
            "title",
            "seam",
            "finished",
            "units",
            "fabric",
            "setting",
            "border",
            "binding",
            "backing",
            "batting",
        ):
            assert getattr(read, key) == getattr(sheet, key), key
        assert [(cut.part, cut.fabric, cut.count, cut.cut) for cut in read.cut] == [
            (cut.part, cut.fabric, cut.count, cut.cut) for cut in sheet.cut
        ]
        for one, other in zip(read.cut, sheet.cut):
            assert all(abs(mine - theirs) <= TRUE for mine, theirs in zip(one.size, other.size)), one.part
        for name_, unit in {**sheet.unit, **sheet.block}.items():
            same = {**read.unit, **read.block}[name_]
            assert all(abs(mine - theirs) <= TRUE for mine, theirs in zip(same.finished, unit.finished)), name_

    def test_a_wrong_number_on_paper_would_be_noticed(self):
        sheet = typed(planned("plain"))
        spoilt = pattern.changed(sheet, (("cut", 1, "count"), sheet.cut[1].count - 1))
        assert review.review(spoilt).verdict == "stop"


class TestRowsInWords:
    @pytest.mark.parametrize("name", ["built", "built of four", "sashed", "straight", "metric"])
    def test_blocks_and_built_triangles_name_their_pieces_row_by_row(self, name):
        reading = planned(name)
        sheet, label = reading.sheet, numbers(reading.sheet)
        told_rows = set(re.findall(r"row \d+: [^;.]+(?:; row \d+: [^;.]+)*", told(reading)))
        plain = [one.replace(", turned as in the picture", "") for one in told_rows]
        said = {tuple(re.findall(r"row \d+: ([^;]+)", one)) for one in plain}
        wanted = [block.rows for block in sheet.block.values()]
        for piece in (sheet.setting.sides, sheet.setting.corners):
            wanted += [rows for rows in (piece and (piece.rows, piece.left, piece.bottom, piece.right)) or () if rows]
        assert wanted
        for rows in wanted:
            assert tuple(", ".join(label[item.name] for item in row) for row in rows) in said

    @pytest.mark.parametrize("name", [name for name in TRIED if name != "medallion"])
    def test_every_row_of_the_top_is_told_with_all_its_pieces(self, name):
        reading = planned(name)
        for row in reading.made.lies.rows:
            called = "Row" if row.kind == "blocks" else "Sashing row"
            ends = r"(?=;| (?:Sashing r|R)ow \d|•| \d+\. )"
            said = re.search(rf"{called} {row.number}: ([^;•.]+?){ends}", told(reading))[1]
            counted = sum(_count(words) for words in re.split(", | and ", said.replace(" by turns", "")))
            assert counted == len(row.parts), said

    def test_rows_are_pressed_by_turns_and_towards_the_sashing_where_there_is_some(self):
        assert re.findall(r"Row (\d+): [^;•]+; press (left|right)", told(planned("plain"))) == [
            (str(number), "left" if number % 2 else "right") for number in range(1, 7)
        ]
        assert "Press every seam towards the sashing" in told(planned("sashed"))
        assert "; press left" not in told(planned("sashed"))

    def test_a_row_that_repeats_is_said_in_short(self):
        plan = settings.straight(4, 1, 9, sashing=2)
        assert assembly.row_words(plan.made, plan.rows()[0]) == "Row 1: 4 blocks and 3 sashes by turns"


def _count(words):
    number = re.match(r"(\d+) ", words.strip())
    return int(number[1]) if number else 1


class TestOrder:
    @pytest.mark.parametrize("name", TRIED)
    def test_it_is_told_in_the_order_of_work(self, name):
        text = told(planned(name))
        heads = ["Materials Material", "Cutting Strips", "Measured first", "Backing, batting, binding 1."]
        places = [text.find(head) for head in heads if head in text]
        assert places == sorted(places) and len(places) >= 3
        for caution in ("Rotary cutter: cut away", "Iron: set it", "Needles and pins"):
            assert text.index(caution) < places[0]

    @pytest.mark.parametrize("name", ["built", "sashed", "straight sashed", "medallion"])
    def test_the_order_of_work_is_one_that_the_review_accepts(self, name):
        reading = planned(name)
        lines = [line for line in re.split(r"(?<=\.) ", told(reading)) if len(line) < 1000][:190]
        told_so = pattern.changed(reading.sheet, (("instructions",), lines))
        assert review.review(told_so).findings == ()

    def test_borders_are_measured_before_they_are_cut(self):
        text = told(planned("built"))
        assert text.index("Measure the top before you cut a border") < text.index("First, left and right")
        assert text.count("cut to length later, to the measured top") == 4
        for strip in planned("built").made.border_strips[:2]:
            assert f"(it should be about {planned('built').ruler.said(strip.length)})" in text

    def test_what_goes_on_first_is_told_first(self):
        text = told(planned("straight sashed"))
        assert "First, top and bottom: measure the top from side to side" in text
        assert "Then, left and right: measure the top from top to bottom" in text

    def test_the_strips_of_a_fabric_give_every_piece_once(self):
        for name in ("built", "sashed", "straight", "medallion"):
            reading, got = planned(name), {}
            ends = r"(?= •| From fabric| Units and| Borders| The quilt top|\w+ · page)"
            for times, rest in re.findall(rf"• Cut (\d+) strips? (.*?){ends}", told(reading)):
                each = int(times) if "each" in rest else 1
                for count, number in re.findall(r"(\d+) of no\. (\d+)", rest):
                    got[number] = got.get(number, 0) + int(count) * each
            assert got == {numbers(reading.sheet)[cut.part]: cut.count for cut in reading.sheet.cut}


class TestPages:
    @pytest.mark.parametrize("paper", PAPERS)
    def test_a_quilt_with_built_triangles_fills_at_most_eight_pages(self, paper):
        assert 4 <= len(pages_of(planned("built"), paper)) <= 8

    @pytest.mark.parametrize("paper, name", [*(("A4", name) for name in TRIED), ("Letter", "built")])
    def test_words_lie_apart_and_on_the_paper(self, paper, name):
        for page in pages_of(planned(name), paper):
            is_readable(page)

    @pytest.mark.parametrize("name", some_of(SOUND, "pages", 5))
    def test_a_sound_sheet_has_its_pages(self, name):
        a_sound_sheet_has_its_pages(name)

    def test_long_names_stay_on_the_page(self):
        long = "squares of a fabric with a very long name"
        block = blocks.read(
            "A B | B A", 6, name=f"{long} in fours", fabrics={"A": f"dark {long}", "B": f"light {long}"}
        )
        plan = settings.on_point(3, 3, block, borders=[settings.border(2, fabric=f"outer {long}")])
        for page in whole_pattern.pages(supplied(Reading(plan.sheet())), PAPERS["A4"]):
            is_readable(page)


class TestPictures:
    @pytest.mark.parametrize("name", [name for name in TRIED if name != "medallion"])
    def test_rows_apart_show_every_patch_and_do_not_overlap(self, name):
        reading = planned(name)
        made = reading.made
        top = assembly._top(made)
        look = Look.of(made)
        picture = assembly.rows_picture(top, look)
        shapes = [
            shapely.Polygon(shape)
            for layer in picture.layers
            if isinstance(layer, Shapes)
            for shape in np.split(layer.points, np.cumsum(layer.counts)[:-1])
        ]
        assert len(shapes) == sum(len(one.patches) * len(one.places) for one in top.things)
        whole = float(top.lies.size[0]) * float(top.lies.size[1])
        assert shapely.union_all(shapes).area == pytest.approx(sum(shape.area for shape in shapes), rel=1e-6)
        assert sum(shape.area for shape in shapes) == pytest.approx(whole, rel=0.02)

    @pytest.mark.parametrize("name", ["plain", "built", "straight", "sashed"])
    def test_every_row_has_its_number_and_an_arrow_unless_it_is_sashed(self, name):
        top = assembly._top(planned(name).made)
        picture = assembly.rows_picture(top, Look.of(planned(name).made))
        marks = [layer.text for layer in picture.layers if isinstance(layer, Words)]
        assert marks == [f"{'' if row.kind == 'blocks' else 's'}{row.number}" for row in top.lies.rows]
        arrows = [layer for layer in picture.layers if getattr(layer, "role", "") == "press"]
        assert [len(layer.counts) for layer in arrows] == ([] if top.lies.sashed else [len(top.lies.rows)])

    def test_arrows_of_a_row_point_left_and_of_the_next_one_right(self):
        made = planned("built").made
        picture = drawn.rows_picture(made, Look.of(made), made.sheet.block["nine-patch"].rows)
        (layer,) = [layer for layer in picture.layers if getattr(layer, "role", "") == "press"]
        ends = np.split(layer.points, np.cumsum(layer.counts)[:-1])
        ways = [float(np.sign(arrow[1][0] - arrow[0][0])) for arrow in ends]
        assert ways == [-1, -1, 1, 1, -1, -1]

    def test_pieces_are_numbered_as_in_the_cutting_list(self):
        made = planned("built").made
        picture = drawn.rows_picture(made, Look.of(made), made.sheet.block["nine-patch"].rows)
        marks = [layer.text for layer in picture.layers if isinstance(layer, Words) and layer.text.isdigit()]
        assert sorted(marks) == ["1"] * 5 + ["2"] * 4

    def test_the_borders_are_numbered_in_the_order_they_are_sewn_on(self):
        reading = planned("medallion")
        picture = finishing.borders_picture(reading, Look.of(reading.made))
        marks = sorted(layer.text for layer in picture.layers if isinstance(layer, Words))
        assert marks == sorted("1111" + "22" + "33" + "4444" + "55" + "66")


class TestCutting:
    DIAGONAL = {
        "once": 'size = "3"\ncut = "once"\n',
        "twice": 'size = "3"\ncut = "twice"\n',
        "left": 'size = ["2", "3"]\ncut = "once"\nslant = "left"\n',
        "right": 'size = ["2", "3"]\ncut = "once"\nslant = "right"\n',
    }

    @pytest.mark.parametrize("paper", PAPERS)
    @pytest.mark.parametrize("many", [1, 2, 3, 4])
    def test_each_way_to_cut_on_the_diagonal_is_drawn_beside_any_others(self, many, paper):
        for ways in combinations(self.DIAGONAL, many):
            cuts = (f'[[cut]]\npart = "{way}"\nfabric = "tan"\ncount = 1\n{self.DIAGONAL[way]}' for way in ways)
            reading = Reading(pattern.read_text(EXAMPLE.replace("[block.four]", "".join(cuts) + "[block.four]")))
            for page in PAPERS[paper].flow(buying_and_cutting.cutting(reading, PAPERS[paper]), "Cutting"):
                is_readable(page)


class TestUnits:
    def test_every_kind_of_unit_is_told_in_every_way_it_is_made(self):
        kinds = {
            ("half-square", (0, 2, 4, 8)),
            ("half-rectangle", (0,)),
            ("quarter-square", (0, 2)),
            ("split quarter-square", (0,)),
            ("flying geese", (0, 1, 4)),
            ("square in a square", (0,)),
            ("triangle in a square", (0,)),
            ("snowball", (0,)),
        }
        assert set(HOW) == {(kind, ways) for kind, several in kinds for ways in several}

    @pytest.mark.parametrize("name", [name for name in SOUND if pattern.read(PATTERNS / "sound" / f"{name}.toml").unit])
    def test_the_units_of_sound_sheets_are_told(self, name):
        reading = sound(name)
        for unit in reading.sheet.unit.values():
            said = unit_words(reading, unit)
            assert "{" not in said and all(f"({numbers(reading.sheet)[part]})" in said for part in unit.parts)


class TestSupplied:
    @pytest.mark.parametrize("name", SOUND)
    def test_what_a_sound_sheet_says_stays_and_the_rest_passes(self, name):
        before, after = pattern.read(PATTERNS / "sound" / f"{name}.toml"), sound(name).sheet
        for kind in ("cut", "unit", "block", "setting", "border", "title", "seam", "finished"):
            assert getattr(after, kind) == getattr(before, kind)
        for kind in ("binding", "backing", "batting"):
            assert getattr(before, kind) in (None, getattr(after, kind))
            assert getattr(after, kind) is not None
        for fabric, given in before.fabric.items():
            assert given.bought in (None, after.fabric[fabric].bought)
        assert review.review(after).verdict == "go"

    def test_a_quilt_that_cannot_be_sewn_comes_back_as_it_is(self):
        reading = Reading(pattern.read_text(changed(EXAMPLE, ('"3 1/2"', '"1/4"'))))
        assert supplied(reading) is reading

    def test_a_quilt_too_large_for_a_backing_goes_without_one(self):
        sheet = supplied(Reading(settings.straight(across=220, down=2, block=4).sheet())).sheet
        assert sheet.backing is None and sheet.binding.count and sheet.batting.size
