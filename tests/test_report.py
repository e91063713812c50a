"""The report of a review: what it says, in HTML and in PDF, and its numbers and pictures held to the
library's and to others'."""

import re
from collections import Counter
from functools import cache
from html.parser import HTMLParser
from io import BytesIO

import numpy as np
import pytest
import shapely
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.text import Text

from quiltmath import lengths, making, pattern, proofs, review
from quiltmath.draw import Board, Picture
from quiltmath.draw.typeset import wrapped
from quiltmath.making.cover import cover
from quiltmath.pattern.sheet import EXAMPLE
from quiltmath.proofs.sources import rows as published
from quiltmath.resources import folder
from quiltmath.review.checks import Check
from quiltmath.review.finding import ByProof
from quiltmath.review.report.as_html import html
from quiltmath.review.report.as_pdf import HEIGHT, PX, WIDTH, pages, save_pdf
from quiltmath.review.report.contents import (
    CAUTIONS,
    Drawing,
    Heading,
    Listed,
    NumberTable,
    Paragraph,
    Told,
    Verdict,
    contents,
)
from quiltmath.review.report.number import AGREES, DIFFERS, MISSING, NEAR, SIGNS, TAKEN
from quiltmath.review.report.numbers import numbers
from quiltmath.review.report.pictures import COVER, REAL, WILL, both
from quiltmath.review.writing import headline

from . import rare, sheets
from .faults import faults
from .sheets import reviewed_file as reviewed

PATTERNS = folder("data") / "patterns"
SHEETS = sorted(PATTERNS.glob("*/*.toml"))
HALVED, SLICED, TRIMMED = (
    PATTERNS / "faulty" / f"{name}.toml"
    for name in (
        "no-allowance-halved-blocks",
        "bias-outside-sliced-and-turned",
        "lost-points-trimmed-to-the-points",
    )
)
SMALL, UNEVEN = (
    PATTERNS / "faulty" / "cut-size-small-corners.toml",
    PATTERNS / "faulty" / "edges-differ-plain-strips.toml",
)
SOUND = PATTERNS / "sound" / "library-lap-quilt.toml"
FAST = [
    PATTERNS / "sound" / f"{name}.toml"
    for name in ("metric-half-squares", "rails-from-strip-sets", "kitchen-window-sashed")
]

# Names that would do something in a page, a formula, a format string or a terminal if not shown as they are.
HOSTILE = [
    "<script>alert(1)</script>",
    "</title><b>",
    "$\\frac{$ x",
    "{parts} %s {0}",
    "]]><svg onload=alert(2)>",
    "&amp;lt; \" '",
    "W" * 110,
    "布🧵 שלום",
    "-->",
    "\\input{/etc/passwd}",
]
VOID = {"meta", "col"}
ALLOWED = {
    "html",
    "head",
    "meta",
    "title",
    "style",
    "body",
    "h1",
    "h2",
    "h3",
    "strong",
    "p",
    "b",
    "ul",
    "ol",
    "li",
    "span",
    "section",
    "figure",
    "table",
    "colgroup",
    "col",
    "thead",
    "tbody",
    "tr",
    "th",
    "td",
}
DRAWN = {"svg", "title", "defs", "rect", "path", "circle", "g", "text", "tspan", "pattern", "clippath"}


@cache
def told(path, teacher=False):
    return contents(reviewed(path), teacher)


@cache
def page(path):
    return Page(html(told(path), "title"))


class Page(HTMLParser):
    """An HTML page taken apart: its tags with where they stand, its texts, its ids and what refers to
    them."""

    def __init__(self, text):
        super().__init__()
        self.raw, self.open, self.tags, self.texts, self.ids, self.uses = text, [], [], [], [], []
        self.feed(text)
        self.close()
        assert not self.open

    def handle_starttag(self, tag, attributes):
        inside = "svg" in self.open
        assert tag in (DRAWN if inside or tag == "svg" else ALLOWED), tag
        for name, value in attributes:
            assert not name.startswith("on") and name not in (
                "href",
                "src",
                "xlink:href",
                "action",
                "data",
            ), (tag, name)
            if name == "id":
                self.ids.append(value)
            self.uses += re.findall(r"url\(#(.*?)\)", value or "")
        self.tags.append(tag)
        if tag not in VOID:
            self.open.append(tag)

    def handle_startendtag(self, tag, attributes):
        self.handle_starttag(tag, attributes)
        if tag not in VOID:
            self.open.pop()

    def handle_endtag(self, tag):
        assert self.open.pop() == tag

    def handle_data(self, data):
        if data.strip() and "style" not in self.open:
            self.texts.append((tuple(self.open), data.strip()))

    def body(self):
        """The texts of the page, pictures left out."""
        return [text for place, text in self.texts if "body" in place and "svg" not in place]


def plain(text):
    return "".join(text.split())


def texts(parts):
    """Every text the contents hold outside their pictures."""
    for part in parts:
        match part:
            case Verdict():
                yield from (part.words, part.pattern, part.sentence, *part.matters, *part.cures, part.after)
            case Heading() | Paragraph():
                yield part.text
            case Told():
                yield from (part.heading, part.message, part.same, part.source, *(text for _, text in part.pairs))
            case NumberTable():
                yield from part.heads
                for title, group in part.groups:
                    yield from (title, *(cell for row in group for cell in row))
            case Listed():
                yield from part.items


def drawn(figure):
    """The texts of a page set by matplotlib, and the page they were measured on."""
    canvas = FigureCanvasAgg(figure)
    canvas.draw()
    return [
        (text.get_text(), text.get_window_extent(canvas.get_renderer()))
        for text in figure.findobj(Text)
        if text.get_text()
    ]


def pictures(parts):
    return [part.picture for part in parts if getattr(part, "picture", None) is not None]


class TestContents:
    @pytest.mark.parametrize("path", SHEETS, ids=lambda path: path.stem)
    def test_the_verdict_comes_first_and_everything_else_is_there(self, path):
        found, parts = reviewed(path), told(path)
        assert parts[0].words == headline(found) and parts[0].level == found.verdict
        assert parts[0].pattern == found.sheet.title
        headings = [part.text for part in parts if type(part) is Heading]
        assert headings[-2:] in (
            ["The numbers, those that differ first", "Before you cut"],
            ["The numbers", "Before you cut"],
        )
        assert ("What was found" in headings) == bool(found.findings)
        assert ("Ask the designer" in headings) == (found.verdict != "go")
        messages = [part.message for part in parts if type(part) is Told]
        assert messages == [
            message for message in dict.fromkeys(one.message for one in found.findings) if message in messages
        ]
        assert {finding.title for finding in found.findings} == {
            part.heading.partition(": ")[2] for part in parts if type(part) is Told
        }
        assert Listed(CAUTIONS, small=True) in parts
        for word in ("Rotary cutter", "Iron", "Needles"):
            assert any(caution.startswith(word) for caution in CAUTIONS)

    def test_a_sound_pattern_says_so_and_asks_nothing(self):
        parts = told(SOUND)
        assert parts[0].sentence == "Sewn as printed it finishes 63 5/8 by 76 3/8 in. Nothing was found against it."
        assert not [part for part in parts if type(part) in (Told,) or type(part) is Listed and part.questions]

    def test_page_one_says_what_matters_first(self):
        assert told(HALVED)[0].matters == (
            "An edge is cut where its seam should run: side triangles, corner triangles.",
            "Also: Points will be cut off. The outside lies on stretchy bias.",
        )
        assert (
            told(PATTERNS / "faulty" / "not-stated-seam-size-and-width.toml")[0]
            .matters[0]
            .startswith("A figure is missing: the finished size of the quilt")
        )

    def test_page_one_has_verdict_cure_pictures_and_questions_in_this_order(self):
        kinds = [type(part).__name__ for part in told(SMALL)[:5]]
        assert kinds == ["Verdict", "Drawing", "Heading", "Listed", "Heading"]
        assert [part.text for part in told(SMALL)[:5] if type(part) is Heading] == [
            "Ask the designer",
            "What was found",
        ]

    def test_the_cure_has_its_numbers(self):
        """The corner square of a 9 in block on point: 9 √2 / 2 + 7/8 = 7.24, cut 7 1/4."""
        assert told(SMALL)[0].cures == ("Corner squares: cut 7 1/4 in, not 6 3/8 in.",)
        assert told(SMALL)[0].after == "With this the pattern passes."
        assert review.corrected(reviewed(SMALL)).passes

    def test_a_new_piece_is_given_with_size_cut_and_fabric(self):
        """Ends of rows of 3 in squares: 3 √2 + 1 1/4 = 5.49, cut twice; twelve rows less those of corner and centre."""
        cures = told(HALVED)[0].cures
        assert "New: 6 plum squares 5 1/2 in, cut twice (part 'end A')." in cures

    @pytest.mark.parametrize(
        "name, cure",
        [
            ("backing-small-one-width", "Backing: buy 2 widths, 3 3/8 yd, not 1 width, 2 1/4 yd."),
            ("batting-small-cut-to-the-quilt", "Batting: at least 40 by 46 in, not 36 by 42 in."),
            ("binding-short-two-sides-only", "Binding: cut 4 strips, not 2."),
            ("border-length-side-borders-forgotten", "“short”: cut 6 1/2 by 36 1/2 in, not 6 1/2 by 24 1/2 in."),
            ("fabric-short-counted-by-the-eye", "Cream: buy 2 1/4 yd, not 1 1/4 yd."),
            ("finished-size-straight-sum", "The quilt finishes 63 5/8 by 76 3/8 in, not 45 by 54 in."),
            ("piece-count-one-square-short", "Side squares: cut 5, not 4."),
            (
                "wrong-triangles-cut-once",
                (
                    "Side squares: cut 5 of 14 in, each twice on the diagonal, "
                    "not 9 of 9 7/8 in, each once on the diagonal."
                ),
            ),
        ],
    )
    def test_each_cure_says_what_to_do(self, name, cure):
        assert cure in told(PATTERNS / "faulty" / f"{name}.toml")[0].cures

    def test_so_does_that_of_a_fabric_on_no_list(self):
        data = sheets.demo(SMALL)
        corner = next(cut for cut in data["cut"] if cut["part"] == "corner")
        corner["fabric"] = "grey"
        assert "Grey: buy 1/4 yd." in contents(sheets.reviewed(data))[0].cures

    @pytest.mark.parametrize("path", SHEETS, ids=lambda path: path.stem)
    def test_a_cure_is_a_sentence_and_a_pattern_that_passes_needs_none(self, path):
        cures = told(path)[0].cures
        assert bool(cures) == (reviewed(path).verdict != "go")
        assert all(cure.endswith(".") and cure[0] in cure[0].upper() and len(cure) > 15 for cure in cures)

    def test_fabric_is_bought_in_the_figures_of_the_sheet(self):
        data = sheets.demo(FAST[0])
        data["fabric"]["blau"]["bought"] = "0.55 m"
        assert contents(sheets.reviewed(data))[0].cures == ("Blau: buy 0.7 m, not 0.55 m.",)

    @pytest.mark.parametrize(
        "name, path, value, cure",
        [
            ("rails-from-strip-sets", ["strip_set", "rail", "sets"], 1, "“rail”: sew 8 strip sets, not 1."),
            ("rails-from-strip-sets", ["strip_set", "rail", "pieces"], 3, "“rail”: cut 48 pieces, not 3."),
            ("rails-from-strip-sets", ["strip_set", "rail", "sub_cut"], "6", "“rail”: sub-cut 6 1/2 in, not 6 in."),
            ("pinwheel-units", ["unit", "hst", "trim_to"], "3 1/4", "“hst”: trim to 4 1/2 in, not 3 1/4 in."),
            ("pinwheel-units", ["unit", "hst", "count"], 5, "“hst”: make 60, not 5."),
        ],
    )
    def test_a_cure_at_the_machine(self, name, path, value, cure):
        data = sheets.demo(PATTERNS / "sound" / f"{name}.toml")
        kind, thing, key = path
        data[kind][thing][key] = value
        assert contents(sheets.reviewed(data))[0].cures == (cure,)

    def test_the_same_of_another_thing_is_told_once(self):
        alike = [part for part in told(HALVED) if type(part) is Told]
        assert len(alike) == 3 and len(reviewed(HALVED).findings) == 4
        assert alike[0].same == "The same holds for the corner triangles."

    @pytest.mark.parametrize("path", SHEETS, ids=lambda path: path.stem)
    def test_the_customers_copy_has_no_file_no_line_no_command_and_no_name_of_a_check(self, path):
        said = "\n".join([*texts(told(path)), *(picture.alt for picture in pictures(told(path)))])
        assert not re.search(r"\.toml|\bline \d|quiltmath (why|open|review)|python -m|--\w", said)
        assert not [check.name for check in review.CHECKS if re.search(rf"\b{check.name}\b", said)]
        assert not {finding.where for finding in reviewed(path).findings if finding.where in said}

    @pytest.mark.parametrize("path", [HALVED, SMALL], ids=lambda path: path.stem)
    def test_the_teachers_copy_has_them_all(self, path):
        sources = [part.source for part in told(path, teacher=True) if type(part) is Told]
        for finding in reviewed(path).findings:
            line = finding.where.rpartition(", ")[2]
            assert any(
                line in source and finding.check in source and finding.why.command in source for source in sources
            )
        assert told(path, teacher=True)[-1].text.endswith(f"from {path.name}.")

    def test_a_metric_pattern_is_told_in_metric(self):
        assert "Sewn as printed it finishes 80 by 100 cm." in told(FAST[0])[0].sentence
        assert [picture.caption for picture in both(reviewed(FAST[0])).pictures] == ["80 by 100 cm"] * 2
        assert [part.picture.title for part in told(FAST[0]) if type(part) is Drawing] == [WILL]
        assert not any(" in" + end in text for text in texts(told(FAST[0])) for end in (".", " by", ")"))

    def test_printed_and_needed_stand_side_by_side(self):
        pairs = [finding.pairs for finding in told(SMALL) if type(finding) is Told]
        assert pairs == [(("Printed", "6 3/8 in"), ("Needed", "7 1/4 in"))]

    def test_folders_on_the_way_to_a_sheet_are_left_out(self):
        first = next(part for part in told(HALVED, teacher=True) if type(part) is Told)
        assert "no-allowance-halved-blocks.toml, line 37" in first.source
        assert not any(str(PATTERNS) in text for text in texts(told(HALVED, teacher=True)))


class TestNumbers:
    @pytest.mark.parametrize("path", SHEETS, ids=lambda path: path.stem)
    def test_every_printed_number_has_a_row_with_word_and_sign(self, path):
        sheet, rows = (
            reviewed(path).sheet,
            {row.what: row for _, group in reversed(numbers(reviewed(path))) for row in group},  # its own size last
        )
        for cut in sheet.cut:
            name = cut.part + (f", cut {cut.cut}" if cut.diagonal else f", {cut.shape}" if cut.shape else "")
            assert rows[f"{name}: how many"].printed == str(cut.count)
            strip = cut.strip or (cut.shape and cut.strip_width)
            size = rows[f"{name}: strip width" if strip else f"{name}: size"].printed
            assert size.startswith(sheet.quoted(strip or cut.size[0]).removesuffix(f" {sheet.units}"))
            assert (cut.triangles is None) or rows[f"{name}: triangles"].printed == str(cut.triangles)
            assert (cut.finished is None) or f"{name}: finished size" in rows
        for name, fabric in sheet.fabric.items():
            assert (fabric.bought is None) or f"{name}: to buy" in rows
        for name, block in [*sheet.block.items(), *sheet.unit.items()]:
            for key, what in (("finished", "finished size"), ("count", "how many"), ("trim_to", "trim to")):
                assert (getattr(block, key) is None) or f"{name}: {what}" in rows
        for thing in ("backing", "batting"):
            assert (getattr(sheet, thing) is None) or thing in rows
        assert {row.mark for row in rows.values()} <= set(SIGNS)
        differing = [part for part in told(path) if type(part) is NumberTable and not part.small]
        signs = [row[-1] for part in differing for _, group in part.groups for row in group]
        length = r"[\d /.]+(in|cm|yd|m) (too )?(smaller|larger|small|large|short)"
        assert all(re.fullmatch(rf"[≠≈?] (differs|not printed|{length}|\d+ (short|too many))", sign) for sign in signs)
        told_of = "\n".join(text for part in told(path) if type(part) is NumberTable for text in texts([part]))
        assert all(row.printed in told_of for _, group in numbers(reviewed(path)) for row in group)

    def test_those_that_differ_come_first_and_say_by_how_much(self):
        first, rest = (part for part in told(SMALL) if type(part) is NumberTable)
        ((group, rows),) = first.groups
        assert (group, rows) == (
            "Cutting list",
            (("corner, cut once: size", "6 3/8 in", "at least 7 1/4 in (exactly 7.218)", "≠ 7/8 in too small"),),
        )
        assert rest.small and ("dark square: size, finished size, how many", "3 1/2 in; 3 in; 150") in [
            row[:2] for _, rows in rest.groups for row in rows
        ]

    def test_a_size_a_little_smaller_is_not_said_to_agree(self):
        """50 7/8 printed, 50 7/16 sewn: 7/16 in."""
        rows = {row.what: row for _, group in numbers(reviewed(HALVED)) for row in group}
        assert (rows["finished quilt"].mark, rows["finished quilt"].sign) == (NEAR, "≈ 7/16 in smaller")

    @pytest.mark.parametrize("path", SHEETS, ids=lambda path: path.stem)
    def test_a_sound_sheet_agrees_throughout(self, path):
        if path.parent.name == "sound":
            assert {row.mark for _, group in numbers(reviewed(path)) for row in group} <= {AGREES, TAKEN}

    @pytest.mark.parametrize("name, data", list(rare.sheets()))
    def test_so_does_one_that_says_what_is_rare(self, name, data):
        marks = {row.mark for _, group in numbers(sheets.reviewed(data)) for row in group}
        assert AGREES in marks and marks <= {AGREES, TAKEN}, name

    def test_the_numbers_are_the_proofs_own(self):
        rows = {row.what: row for _, group in numbers(reviewed(SMALL)) for row in group}
        side, corner = rows["side, cut twice: size"], rows["corner, cut once: size"]
        assert (
            side.ours == f"at least {lengths.text(proofs.side_triangle.cut(block=9))} in (exactly "
            f"{float(proofs.side_triangle.exact(block=9)):.3f})"
        )
        assert (
            corner.ours == f"at least {lengths.text(proofs.corner_triangle.cut(block=9))} in (exactly "
            f"{float(proofs.corner_triangle.exact(block=9)):.3f})"
        )
        assert (side.mark, corner.mark) == (AGREES, DIFFERS)

    def test_setting_squares_are_those_of_a_published_table(self):
        """Quilty Math, christaquilts.com, https://christaquilts.com/quilty-math/: setting squares, up to the
        next 1/8 in."""
        seen = Counter()
        for row in published():
            asked = re.fullmatch(r"(side|corner)_triangle\(block='([\d /]+)'\)", row["ask"])
            if row["source_title"].startswith("Quilty Math") and asked and row["rounding"] == "exact up 1/8":
                way, block = {"side": "twice", "corner": "once"}[asked[1]], lengths.parse(asked[2])
                rows = {number.what: number for _, group in numbers(on_point(block)) for number in group}
                assert rows[f"{asked[1]}, cut {way}: size"].ours.startswith(f"at least {row['printed']} in")
                seen[asked[1]] += 1
        assert seen["side"] > 3 and seen["corner"] > 3

    def test_rounded_down_within_the_ruler_is_shown_exactly(self):
        rows = {row.what: row for _, group in numbers(reviewed(FAST[0])) for row in group}
        assert rows["dunkel, cut once: size"][2:] == ("12.5 cm", "exactly 12.561 cm", AGREES, "")

    def test_what_is_not_printed_is_named(self):
        rows = {row.what: row for _, group in numbers(sheets.reviewed(EXAMPLE)) for row in group}
        assert rows["seam"] == ("seam", "", "none", "1/4 in taken", MISSING, "")
        assert rows["finished quilt"] == ("finished quilt", "", "none", "sewn as printed 12 in", MISSING, "")

    def test_what_goes_round_the_quilt(self):
        rows = {row.what: row for _, group in numbers(reviewed(FAST[2])) for row in group}
        assert rows["border strip: how many"][2:5] == ("6", "6 for 230 in of border", AGREES)
        assert rows["binding: strips"][2:5] == ("7", "7 strips, 252 in round", AGREES)
        assert rows["backing"][2:5] == ("4 1/2 yd in 2 panels", "at least 60 by 74 in", AGREES)

    def test_another_size_of_the_pattern_has_its_own_rows(self):
        data = sheets.demo(FAST[1])
        data["other_size"] = [
            {"name": "cot", "across": 2, "down": 3, "finished": ["24", "37"], "counts": {"ink strip": 4}}
        ]
        title, rows = numbers(sheets.reviewed(data))[-1]
        assert title == "In size cot"
        named = {row.what: row for row in rows}
        assert named["finished quilt"][2:] == ("24 by 37 in", "sewn as printed 24 by 36 in", DIFFERS, "1 in smaller")
        assert named["ink strip: how many"][2:] == ("4", "4", AGREES, "")

    def test_rows_differ_exactly_where_something_was_found(self):
        """One fault of each kind in three small sheets: a finding on a number marks its row, and nothing else
        does."""
        told_of = {
            "cut-size",
            "piece-count",
            "strip-short",
            "border-length",
            "fabric-short",
            "binding-short",
            "backing-small",
            "batting-small",
            "wrong-triangles",
            "finished-size",
        }
        for path in FAST:
            kinds = {}
            for fault in faults(sheets.demo(path)):
                kinds.setdefault(fault.kind, fault)
            assert len(kinds) > 5
            for fault in kinds.values():
                try:
                    found = sheets.reviewed(fault.data)
                except pattern.Unreadable:
                    continue
                differ = [row for _, group in numbers(found) for row in group if row.mark == DIFFERS]
                checks = {finding.check for finding in found.findings}
                assert not differ or checks, (path.stem, fault.kind, differ)
                assert differ or not checks & told_of, (path.stem, fault.kind, checks)


def on_point(block):
    """A plain sheet on point, its edge squares cut large, reviewed."""
    size = lengths.text(block + lengths.parse("1/2"))
    return sheets.reviewed(
        {
            "title": "Plain",
            "seam": "1/4",
            "setting": {
                "style": "on point",
                "across": 2,
                "down": 2,
                "block": "block",
                "sides": {"part": "side"},
                "corners": {"part": "corner"},
            },
            "cut": [
                {"part": "block", "fabric": "blue", "size": size, "count": 5},
                {"part": "side", "fabric": "blue", "size": "30", "count": 1, "cut": "twice"},
                {"part": "corner", "fabric": "blue", "size": "20", "count": 2, "cut": "once"},
            ],
        }
    )


class TestCover:
    @pytest.mark.parametrize("path", SHEETS, ids=lambda path: path.stem)
    def test_it_covers_its_rectangle_once_and_loses_no_point(self, path):
        """Held to Shapely: the patches together are the rectangle, and none lies on another."""
        panel = reviewed(path).cover
        shapes = [shapely.Polygon(patch.polygon) for patch in panel.patches]
        whole = shapely.union_all(shapes, grid_size=1e-6)
        assert whole.symmetric_difference(shapely.box(0, 0, *panel.size)).area < 1e-3 * panel.area
        assert sum(shape.area for shape in shapes) == pytest.approx(whole.area, rel=1e-4)
        assert not (panel.lost_by > 1 / 16).any() and len(panel.raw) == 0

    @pytest.mark.parametrize("path, blocks", [(HALVED, 3 * 12), (SLICED, 3 * 6)])
    def test_cut_blocks_and_turned_tops_are_as_large_as_blocks_on_point(self, path, blocks):
        """Three blocks on point are three diagonals wide: 3 x 12 x √2 and 3 x 6 x √2 (Pythagoras)."""
        assert reviewed(path).cover.size == pytest.approx((blocks * 2**0.5,) * 2)

    @pytest.mark.parametrize("path", [HALVED, SLICED, TRIMMED, SMALL], ids=lambda path: path.stem)
    def test_it_is_the_quilt_that_comes_of_the_corrected_pattern(self, path):
        """Two ways to one picture: finished shapes here, real cloth from corrected sizes there; each fabric
        shows as much."""
        right = review.corrected(reviewed(path))
        assert right.passes
        here, there = reviewed(path).cover, making.make(right.sheet).bound
        assert here.size == pytest.approx(there.size, abs=1 / 16)
        for fabric, area in areas(there).items():
            assert areas(here)[fabric] == pytest.approx(area, rel=0.01)

    @pytest.mark.parametrize(
        "path", [path for path in SHEETS if path.parent.name == "sound"], ids=lambda path: path.stem
    )
    def test_cloth_that_keeps_its_points_is_its_own_cover_and_finished_shapes_give_the_same(self, path):
        made = reviewed(path).made
        assert cover(made) is made.bound
        shapes = made.bound, finished_shapes(made)
        if path.stem == "shuffled-nine":  # cut blocks sewn together again: what their seams take is meant
            assert shapes[1] is None
        else:
            assert shapes[1].size == pytest.approx(shapes[0].size, abs=1 / 16)
            for fabric, area in areas(shapes[0]).items():
                assert areas(shapes[1])[fabric] == pytest.approx(area, rel=0.02)

    def test_both_quilts_are_drawn_at_one_scale_with_what_is_lost(self):
        board = both(reviewed(HALVED))
        assert [picture.title for picture in board.pictures] == [REAL, COVER]
        assert board.pictures[1].caption == "50 15/16 in"
        assert board.pictures[0].caption == "50 7/16 in\n44 points cut off\n203 5/8 in on the bias"
        lost = next(finding for finding in reviewed(HALVED).findings if finding.check == "lost-points")
        assert lost.message.startswith("44 points")
        roles = [[layer.role for layer in picture.layers] for picture in board.pictures]
        assert "lost point" in roles[0] and "bias edge" in roles[0]
        assert "lost point" not in roles[1] and "bias edge" not in roles[1]
        assert "44 points cut off" in board.pictures[0].alt

    @pytest.mark.parametrize(
        "path", [path for path in SHEETS if path.parent.name == "sound"], ids=lambda path: path.stem
    )
    def test_what_rounding_takes_is_not_called_lost(self, path):
        real, meant = both(reviewed(path)).pictures
        assert meant.caption == real.caption and "cut off" not in real.alt

    def test_a_cut_printed_a_little_beside_the_corners_is_meant_to_run_through_them(self):
        data = sheets.demo(SLICED)
        data["step"][0].update({"from": ["0", "1/8"], "to": ["18 1/4", "18 3/8"]})
        panel = cover(making.make(pattern.read_text(sheets.typed(data))))
        assert panel.size == pytest.approx((18 * 2**0.5,) * 2)
        assert panel.area == pytest.approx(2 * 18**2)

    def test_bias_edges_lie_on_the_outline_of_the_quilt(self):
        picture = both(reviewed(SLICED)).pictures[0]
        bias = next(layer for layer in picture.layers if layer.role == "bias edge")
        size = np.array(reviewed(SLICED).made.finished)
        assert (np.isclose(bias.points, 0, atol=0.3) | np.isclose(bias.points, size, atol=0.3)).any(axis=1).all()

    def test_rows_that_never_meet_have_no_picture_of_the_whole(self):
        """Rows of four lengths, of which no one correction makes one."""
        data = sheets.demo(UNEVEN)
        data["block"]["rails"]["rows"] = ["rail", "square square square", "bar", "slat"]
        for part, long in (("bar", "6 13/16"), ("slat", "7 1/16")):
            data["cut"].append({"part": part, "fabric": "slate", "size": [long, "2 1/2"], "count": 12})
        found = review.review(pattern.read_text(sheets.typed(data)))
        assert found.cover is None and both(found) is None and found.as_dict()["finished"]["width"] is None


def areas(panel):
    """Square inches of each fabric."""
    found = Counter()
    for patch in panel.patches:
        found[patch.fabric] += shapely.Polygon(patch.polygon).area
    return found


def finished_shapes(made):
    """The cover from finished shapes alone, even where the real cloth would do."""
    whole = made.bound
    made._panels["bound"] = None
    try:
        return cover(made)
    finally:
        made._panels["bound"] = whole


class TestDetails:
    @pytest.mark.parametrize("path", SHEETS, ids=lambda path: path.stem)
    def test_each_is_a_picture_with_a_sentence(self, path):
        for part in told(path, teacher=True):
            if type(part) is Told and part.picture is not None:
                assert isinstance(part.picture, (Picture, Board)) and len(part.picture.alt) > 20

    def test_a_lost_point_is_shown_before_and_after_its_seam(self):
        board = next(
            part.picture for part in told(HALVED, teacher=True) if type(part) is Told and "Points" in part.heading
        )
        assert [picture.title for picture in board.pictures] == [
            "Before the outer seam",
            "Sewn: the point is gone",
        ]
        (before,), (after,) = (picture.layers for picture in board.pictures)
        assert before.reach == after.reach < 3
        assert {"lost point", "finished line", "bias edge"} <= {layer.role for layer in before.layers}
        assert not {"lost point", "finished line", "bias edge"} & {layer.role for layer in after.layers}
        (mark,) = (layer.points for layer in before.layers if layer.role == "lost point")
        assert np.abs(mark - before.centre).max() <= before.reach
        # the quilt is its seam smaller at the lower left: the same place lies one seam nearer to the corner
        assert np.subtract(before.centre, after.centre) == pytest.approx((0.25, 0.25))

    @pytest.mark.parametrize(
        "path, heading, role",
        [
            (HALVED, "bias", "bias edge"),
            (HALVED, "seam should run", "lost point"),
            (UNEVEN, "equally long", "raw edge"),
            (PATTERNS / "faulty" / "wrong-triangles-cut-once.toml", "wrong way", "bias edge"),
            (SMALL, "cut size", "guide"),
        ],
    )
    def test_a_finding_shows_what_it_speaks_of(self, path, heading, role):
        picture = next(
            part.picture for part in told(path, teacher=True) if type(part) is Told and heading in part.heading
        )
        layers = [part for layer in picture.layers for part in getattr(layer, "layers", [layer])]
        assert role in [getattr(layer, "role", "") for layer in layers]

    def test_the_customer_sees_one_close_up_of_the_gravest(self):
        beside = [part.picture is not None for part in told(HALVED) if type(part) is Told]
        assert beside == [True, False, False]

    def test_a_close_up_holds_only_what_can_be_seen(self):
        """The window on a quilt of 313 patches holds a few of them."""
        board = next(
            part.picture for part in told(HALVED, teacher=True) if type(part) is Told and "Points" in part.heading
        )
        (window,) = board.pictures[1].layers
        assert sum(len(layer.counts) for layer in window.layers if type(layer).__name__ == "Shapes") < 20


class TestQuestions:
    def test_every_check_has_a_question_of_its_own(self):
        assert len({check.question for check in review.CHECKS} - {Check.question}) == len(review.CHECKS)

    @pytest.mark.parametrize("path", SHEETS, ids=lambda path: path.stem)
    def test_stops_and_asks_are_asked_once_and_end_in_a_question(self, path):
        asked = list(reviewed(path).questions)
        assert len(asked) == len(set(asked)) and bool(asked) == (reviewed(path).verdict != "go")
        for question in asked:
            assert "?" in question and "{" not in question

    def test_it_names_the_part_and_both_sizes(self):
        assert reviewed(SMALL).questions == (
            (
                "“corner”: the pattern says 6 3/8 in, we work out 7 1/4 in. Is the printed "
                "size a typo, or is it sewn in another way?"
            ),
        )

    def test_a_note_is_no_question(self):
        assert not any("25 1/2" in question for question in reviewed(SLICED).questions)

    def test_a_check_without_its_own_question_asks_which_is_meant(self):
        finding = Check().finding(reviewed(SOUND).made, ["title"], "It is so.", "3", "4")
        asked = review.Review(reviewed(SOUND).reading, (finding,)).questions
        assert asked == ("The pattern says 3; we work out 4. Which is meant?",)


class TestHtml:
    @pytest.mark.parametrize("path", SHEETS, ids=lambda path: path.stem)
    def test_it_is_one_page_on_its_own_verdict_first(self, path):
        taken = page(path)
        assert taken.raw.startswith("<!DOCTYPE html>") and taken.tags[:2] == ["html", "head"]
        assert taken.tags[taken.tags.index("body") + 1] == "h1" and taken.tags.count("h1") == 1
        assert " ".join(taken.body()[:2]) == headline(reviewed(path))
        assert (
            "script" not in taken.tags
            and "javascript:" not in taken.raw
            and "http://" not in taken.raw.replace("http://www.w3.org/2000/svg", "")
            and "https://" not in taken.raw
        )
        assert len(taken.ids) == len(set(taken.ids)) and set(taken.uses) <= set(taken.ids)

    @pytest.mark.parametrize("path", SHEETS, ids=lambda path: path.stem)
    def test_it_says_all_that_the_contents_hold(self, path):
        said = plain("".join(page(path).body()))
        for text in texts(told(path)):
            assert plain(text) in said

    def test_each_picture_has_its_sentence(self):
        titles = [text for place, text in page(HALVED).texts if place[-2:] == ("svg", "title")]
        assert titles == [picture.alt for picture in pictures(told(HALVED))] and len(titles) == 2

    def test_it_prints_on_letter_and_a4(self):
        style = page(HALVED).raw.split("<style>")[1].split("</style>")[0]
        assert "@page { margin: 14mm 13mm; }" in style  # no size: the printer's own paper
        assert "url(" not in style and "@import" not in style
        narrowest = (210 - 2 * 13) / 25.4 * 96
        widths = [float(width) for width in re.findall(r'<svg [^>]*width="([\d.]+)"', page(HALVED).raw)]
        assert widths and max(widths) <= narrowest

    def test_questions_leave_room_for_an_answer(self):
        assert page(HALVED).raw.count('<span class="answer"></span>') == len(reviewed(HALVED).questions)

    def test_what_differs_is_told_without_colour(self):
        rows = [line for line in page(SMALL).raw.splitlines() if "≠" in line and line.startswith("<tr>")]
        assert len(rows) == 1 and "6 3/8 in" in rows[0] and "7/8 in too small" in rows[0]


class TestPdf:
    @pytest.mark.parametrize("path", [HALVED, SLICED, SOUND, UNEVEN], ids=lambda path: path.stem)
    def test_everything_is_on_its_pages_and_inside_them(self, path):
        said, count = "", 0
        for count, figure in enumerate(pages(told(path), "title"), 1):
            found = drawn(figure)
            wide, high = figure.bbox.width, figure.bbox.height
            for text, box in found:
                assert box.x0 >= 0 and box.x1 <= wide and box.y0 >= 0 and box.y1 <= high, text
            if count == 1:
                words = [text for text, _ in found if not text.startswith("title · page")]
                assert plain(headline(reviewed(path))) == plain("".join(words[:3])) or plain(
                    "".join(words[:2])
                ) == plain(headline(reviewed(path)))
            said += "".join(text for text, _ in found)
        said = plain(said)
        for text in texts(told(path)):
            assert plain(text) in said
        assert count == (1 if path == SOUND else 2)

    @pytest.mark.parametrize(
        "path", [path for path in SHEETS if path.parent.name == "faulty"], ids=lambda path: path.stem
    )
    def test_a_pattern_with_one_fault_takes_two_pages(self, path):
        assert len(list(pages(told(path), "title"))) <= 2

    @pytest.mark.parametrize(
        "path", [path for path in SHEETS if path.parent.name == "sound"], ids=lambda path: path.stem
    )
    def test_no_page_is_empty(self, path):
        for figure in pages(told(path), "title"):
            assert len([text for text in figure.findobj(Text) if text.get_text()]) > 3

    def test_nothing_lies_on_anything_else(self):
        """On no page do two lines of text overlap."""
        for figure in pages(told(HALVED), "title"):
            boxes = [
                shapely.box(box.x0 + 1, box.y0 + 2, box.x1 - 1, box.y1 - 2) for _, box in drawn(figure) if box.width > 4
            ]
            tree = shapely.STRtree(boxes)
            pairs = tree.query(boxes, predicate="intersects").T
            assert not [pair for pair in pairs.tolist() if pair[0] < pair[1]]

    def test_the_file_has_as_many_pages_and_prints_at_full_size_on_letter_and_a4(self):
        out = BytesIO()
        save_pdf(told(HALVED), "Title", out)
        raw = out.getvalue()
        assert raw.startswith(b"%PDF-") and raw.rstrip().endswith(b"%%EOF")
        assert len(re.findall(rb"/Type /Page\b", raw)) == len(list(pages(told(HALVED), "Title")))
        wide, high = WIDTH / PX * 25.4, HEIGHT / PX
        assert wide <= 210.1 and high <= 11  # A4 is 210 mm wide, Letter 11 in high
        boxes = {tuple(map(float, found)) for found in re.findall(rb"/MediaBox \[ 0 0 ([\d.]+) ([\d.]+) \]", raw)}
        assert list(boxes) == [pytest.approx((WIDTH * 0.75, HEIGHT * 0.75))]

    def test_it_is_the_same_file_each_time(self):
        files = []
        for _ in range(2):
            files.append(BytesIO())
            save_pdf(told(SMALL), "Title", files[-1])
        assert files[0].getvalue() == files[1].getvalue()

    def test_a_table_that_goes_on_has_its_heads_again(self):
        rows = tuple((f"part {number}: size", "3 1/2 in", "the same") for number in range(80))
        table = NumberTable(("All agree", "Printed", "Worked out here"), (("", rows),), small=True)
        laid = [[text for text, _ in drawn(figure)] for figure in pages([Heading("The numbers"), table], "title")]
        assert len(laid) > 1 and all("Worked out here" in words for words in laid)
        assert sum(text.startswith("part ") for words in laid for text in words) == 80

    def test_long_words_are_broken_and_short_ones_are_not(self):
        assert wrapped("one two three", 1000, 10) == ["one two three"]
        assert wrapped("one two three", 60, 10) == ["one two", "three"]
        lines = wrapped("W" * 100 + " end", 200, 10)
        assert plain("".join(lines)) == "W" * 100 + "end" and len(lines) > 5


def in_every_place(first):
    """A faulty sheet in which everything that can bear a name bears a hostile one, beginning with this one of them."""
    names = HOSTILE[first:] + HOSTILE[:first]
    title, fabric, other, part, second, block = names[:6]
    return sheets.reviewed(
        {
            "title": title,
            "finished": "30",
            "note": "\x1b[31m",
            "fabric": {fabric: {"bought": "1 yd"}, other: {"bought": "1 in", "usable_width": 40}},
            "cut": [
                {"part": part, "fabric": fabric, "size": "3 1/2", "count": 7},
                {"part": second, "fabric": other, "size": "3 1/4", "count": 9},
            ],
            "block": {block: {"finished": "6", "rows": [[part, second], [second, part]]}},
            "setting": {"style": "straight", "across": 2, "down": 2, "block": block},
        }
    ), names[:6]


def names_are_shown_as_they_are_in_pdf(first):
    """Warnings are errors in the tests, so a sign that no font has would fail here too."""
    found, names = in_every_place(first)
    said = "".join(text for figure in pages(contents(found), found.sheet.title) for text, _ in drawn(figure))
    for name in names:
        if name.isascii():
            assert plain(name) in plain(said).replace("\\$", "$")
    save_pdf(contents(found), found.sheet.title, BytesIO())


class TestHostileText:
    @pytest.mark.parametrize("first", range(len(HOSTILE)))
    def test_is_shown_as_it_is_in_html(self, first):
        found, names = in_every_place(first)
        taken = Page(html(contents(found), found.sheet.title))  # the parser itself refuses strange tags and attributes
        said = "".join(text for _, text in taken.texts)
        for name in names:
            assert plain(name) in plain(said)
        assert [text for place, text in taken.texts if place == ("html", "head", "title")] == [
            found.sheet.title.strip()
        ]

    @pytest.mark.parametrize("first", range(0, len(HOSTILE), 6))
    def test_is_shown_as_it_is_in_pdf(self, first):
        names_are_shown_as_they_are_in_pdf(first)

    def test_control_and_bidi_characters_do_not_reach_a_report(self):
        finding = review.Finding(
            next(check for check in review.CHECKS if check.name == "cut-size"),
            "stop",
            ("cut", 0, "size"),
            "a\x1b]0;x\x07/b\u202e.toml, line 1",
            "\u202e3",
            "4\x07",
            "now \x1b[2J \u2066that",
            ByProof("half_square"),
            parts=frozenset(["\u202eabc"]),
        )
        parts = contents(review.Review(reviewed(SOUND).reading, (finding,)))
        assert all(text.isprintable() for text in texts(parts))
