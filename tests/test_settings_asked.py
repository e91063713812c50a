"""Plans asked for in words: every option of every kind is read; what is wrong is answered with what there is."""

from fractions import Fraction
from inspect import signature

import pytest

from quiltmath import blocks, pattern, settings
from quiltmath.settings.asked import EXAMPLES, KINDS, asked, options


def words(text):
    """An example as the values it gives."""
    found, rest = {}, text
    while rest:
        name, _, rest = rest.partition("=")
        if rest.startswith('"'):
            found[name.strip()], _, rest = rest[1:].partition('"')
        else:
            found[name.strip()], _, rest = rest.partition(" ")
    return found


def same_sheet(one, other):
    """Whether two plans are one sheet."""
    return pattern.text(one.sheet()) == pattern.text(other.sheet())


POINT = {"across": "3", "down": "4", "block": "9"}


class TestOptions:
    @pytest.mark.parametrize("kind", KINDS)
    def test_every_option_of_the_planner_is_one_and_is_explained(self, kind):
        assert list(options(kind)) == list(signature(KINDS[kind]).parameters)
        assert all(options(kind).values())

    @pytest.mark.parametrize("kind", KINDS)
    def test_its_example_works(self, kind):
        assert asked(kind, words(EXAMPLES[kind]))

    @pytest.mark.parametrize("kind", ["on point", "On-Point", "on_point"])
    def test_a_kind_is_known_however_its_words_are_joined(self, kind):
        assert asked(kind, POINT).side_triangles == 10


class TestValues:
    @pytest.mark.parametrize(
        "more, same",
        [
            ({}, {}),
            ({"sashing": "2"}, {"sashing": 2}),
            ({"sashing": "2", "cornerstones": "no"}, {"sashing": 2, "cornerstones": False}),
            ({"sashing": "1 1/2", "edge": "whole"}, {"sashing": Fraction(3, 2), "edge": "whole"}),
            ({"alternate": "plain"}, {"alternate": "plain"}),
            ({"frame": "1 1/2", "edges": "framed"}, {"frame": Fraction(3, 2), "edges": "framed"}),
            ({"floating": "2"}, {"floating": 2}),
            ({"borders": "2,5"}, {"borders": [2, 5]}),
            (
                {"borders": "2 navy dots, 5 mitred"},
                {"borders": [settings.border(2, fabric="navy dots"), settings.border(5, "mitred")]},
            ),
            ({"borders": "3 top first"}, {"borders": [settings.border(3, first="top")]}),
            ({"borders": "3 in butted sides first rose"}, {"borders": [settings.border(3, fabric="rose")]}),
            ({"seam": "3/8"}, {"seam": Fraction(3, 8)}),
            ({"fabrics": "setting:navy"}, {"fabrics": {"setting": "navy"}}),
        ],
    )
    def test_it_is_the_plan_that_the_same_values_make(self, more, same):
        assert same_sheet(asked("on-point", {**POINT, **more}), settings.on_point(3, 4, 9, **same))

    @pytest.mark.parametrize(
        "text, block",
        [
            ("nine-patch 9", blocks.named("nine-patch", 9)),
            ("nine patch 7 1/2", blocks.named("nine-patch", "7 1/2")),
            ("ohio-star", blocks.named("ohio-star")),
            ("A B | B A 6", blocks.read("A B | B A", 6)),
        ],
    )
    def test_a_block_is_a_name_or_a_grid_and_its_size(self, text, block):
        assert same_sheet(asked("on-point", {**POINT, "block": text}), settings.on_point(3, 4, block))

    def test_the_letters_of_a_block_can_be_named(self):
        plan = asked("on-point", {**POINT, "block": "nine-patch 9", "edges": "built", "fabrics": "A:navy, B:cream"})
        assert {cut.fabric for cut in plan.sheet().cut} == {"navy", "cream"}

    def test_straight_medallion_and_metric(self):
        straight = asked("straight", {"across": "2", "down": "3", "block": "9", "sashing": "2", "around": "yes"})
        assert same_sheet(straight, settings.straight(2, 3, 9, 2, around=True))
        medallion = asked("medallion", {"centre": "12", "rounds": "triangles,2,triangles, 3 mitred"})
        rounds = ["triangles", "2", "triangles", settings.border(3, "mitred")]
        assert same_sheet(medallion, settings.medallion(12, rounds))
        metric = asked("on-point", {**POINT, "block": "24", "unit": "cm", "borders": "6"})
        assert same_sheet(metric, settings.on_point(3, 4, 24, unit="cm", borders=[6]))


class TestFit:
    def test_it_is_what_the_planner_finds(self):
        found = asked("fit", {"width": "60", "height": "80", "blocks": "6..12", "best": "3"})
        assert found == settings.fit(60, 80, settings.sizes("6", "12"), best=3)

    def test_lists_and_beds(self):
        values = {
            "bed": "queen",
            "drop": "13",
            "blocks": "8, 9",
            "styles": "on point",
            "sashings": "0,1",
            "borders": "0,4",
        }
        found = asked("fit", {**values, "at_least": "yes"})
        assert found == settings.fit(
            bed="queen", drop=13, blocks=[8, 9], styles=["on point"], sashings=[0, 1], borders=[0, 4], at_least=True
        )

    @pytest.mark.parametrize("unit, width, height", [("in", 60, 80), ("cm", 150, 200), ("mm", 1500, 2000)])
    def test_without_blocks_the_usual_sizes_are_tried(self, unit, width, height):
        found = asked("fit", {"width": str(width), "height": str(height), "unit": unit, "best": "100"})
        sizes = {round(float(one.block), 6) for one in found}
        assert len(sizes) > 5 and 5 < min(sizes) and max(sizes) < 13  # inches

    @pytest.mark.parametrize("unit, one", [("cm", 1), ("mm", 10)])
    def test_a_metric_layout_is_planned_at_the_size_it_was_found_with(self, unit, one):
        wish = {"width": 150, "height": 200, "sashings": 3, "borders": 5, "blocks": 24}
        found = asked("fit", {"unit": unit, **{name: str(value * one) for name, value in wish.items()}})
        assert len(found) == 10
        for layout in found:
            assert layout.plan().size == pytest.approx(layout.size, abs=1e-9)


class TestRefusals:
    @pytest.mark.parametrize(
        "kind, values, message",
        [
            (
                "crazy",
                {},
                "a plan is one of on-point, straight, medallion, fit; got 'crazy': write for example on-point",
            ),
            (
                "on-point",
                {**POINT, "blok": "9"},
                "on-point takes across, down, block, .*; got 'blok': did you mean 'block'?",
            ),
            ("on-point", {**POINT, "zzz": "9"}, "got 'zzz': write for example across=5 down=6 block=9"),
            ("on-point", {"across": "3"}, "on-point needs down and block too: write for example across=5"),
            ("on-point", {**POINT, "across": "three"}, "across is a whole number of blocks from 1 to 400; got three"),
            ("on-point", {**POINT, "across": "3" * 40}, "across is a whole number of blocks from 1 to 400; got 333"),
            (
                "on-point",
                {**POINT, "block": "ninepatch 9"},
                "the kit has no block called 'ninepatch'; it has broken-dishes",
            ),
            ("on-point", {**POINT, "block": "wide"}, "a length is a whole number.* got 'wide'"),
            ("on-point", {**POINT, "block": ""}, "a length is"),
            ("on-point", {**POINT, "edges": "crazy"}, "edges is one of 'plain', 'framed', 'built'"),
            ("on-point", {**POINT, "cornerstones": "maybe"}, "cornerstones is yes or no; got 'maybe'"),
            ("on-point", {**POINT, "borders": "navy"}, "a border begins with its finished width, .* got 'navy'"),
            ("on-point", {**POINT, "fabrics": "navy"}, "a fabric is named by what it is for, .* got 'navy'"),
            (
                "on-point",
                {**POINT, "fabrics": "seting:navy"},
                "nothing in this plan is 'seting', so nothing is cut from 'navy'",
            ),
            ("on-point", {**POINT, "unit": "ell"}, "unit is one of 'in', 'cm', 'mm'; got 'ell'"),
            ("fit", {"width": "60", "height": "80", "blocks": "6..x"}, "got 'x'"),
            ("fit", {"width": "60", "height": "80", "best": "many"}, "a fit lists from 1 to 100 layouts; got many"),
            ("fit", {"bed": "royal"}, "the kit knows the beds crib"),
            ("medallion", {"centre": "12", "rounds": ""}, "a medallion has from 1 to 40 rounds; got 0"),
        ],
    )
    def test_it_is_said_what_there_is_and_what_to_do(self, kind, values, message):
        with pytest.raises(ValueError, match=message):
            asked(kind, values)
