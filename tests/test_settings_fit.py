"""Fit: nothing nearer is found by trying everything; beds; the same blocks straight and on point."""

from fractions import Fraction
from itertools import product

import pytest
from hypothesis import given
from hypothesis import settings as hypothesis
from hypothesis import strategies as st

from quiltmath import blocks, lengths, settings

SAME = 1e-9  # inches: misses that differ by less are equal


def every_layout(width, height, sizes, styles, sashings, borders, most=30):
    """The (miss, sum of misses, blocks) of every layout up to `most` blocks a side, from whole plans."""
    for style, size, sash, edge in product(styles, sizes, sashings, borders):
        if sash > Fraction(size):
            continue
        make = settings.on_point if style == "on point" else settings.straight
        one = make(1, 1, size, sash, borders=[edge] if edge else [])
        two = make(2, 2, size, sash, borders=[edge] if edge else [])
        step, start = two.size[0] - one.size[0], one.size[0]
        for across, down in product(range(1, most + 1), repeat=2):
            off = (start + (across - 1) * step - width, start + (down - 1) * step - height)
            count = across * down + (across - 1) * (down - 1) * (style == "on point")
            yield max(map(abs, off)), sum(map(abs, off)), count


@given(
    st.integers(20, 100),
    st.integers(20, 100),
    st.lists(st.integers(12, 48).map(lambda quarters: Fraction(quarters, 4)), min_size=1, max_size=3, unique=True),
    st.lists(st.sampled_from([0, 1, 2]), min_size=1, max_size=2, unique=True),
    st.lists(st.sampled_from([0, 3]), min_size=1, max_size=2, unique=True),
    st.lists(st.sampled_from(["on point", "straight"]), min_size=1, max_size=2, unique=True),
)
@hypothesis(max_examples=20)
def test_trying_everything_finds_nothing_better(width, height, sizes, sashings, borders, styles):
    found = settings.fit(width, height, sizes, styles, sashings, borders, best=5)
    brute = sorted(
        (round(miss, 9), round(total, 9), count)
        for miss, total, count in every_layout(width, height, sizes, styles, sashings, borders, most=40)
    )[:5]
    ours = [(round(one.miss, 9), round(sum(map(abs, one.off)), 9), one.blocks) for one in found]
    for mine, theirs in zip(ours, brute, strict=True):
        assert mine == pytest.approx(theirs, abs=SAME * 10)


def test_layouts_are_real_plans_of_that_size():
    for one in settings.fit(60, 80, settings.sizes("6", "12"), sashings=[0, 1], borders=[0, "2 1/2"], best=20):
        plan = one.plan()
        assert plan.size == pytest.approx(one.size)
        assert plan.blocks == one.blocks
        assert one.off == pytest.approx((plan.size[0] - 60, plan.size[1] - 80))


def test_ties_are_explained():
    first, second = settings.fit(60, 60, ["6", "12"], ["straight"], best=2)
    assert (first.blocks, second.blocks) == (25, 100)
    assert first.why == "exactly the size"
    assert second.why == "exactly the size; as near as the one before it, which takes 25 blocks to its 100"


def test_at_least_leaves_out_what_is_too_small():
    for one in settings.fit(61, 79, settings.sizes("6", "12"), best=20, at_least=True):
        assert min(one.off) >= -SAME


def test_pieced_blocks_fit_as_well():
    best = settings.fit(54, 54, [blocks.named("nine-patch")], ["straight"])[0]
    assert (best.across, best.down, best.plan().block.name) == (6, 6, "nine-patch")


def test_a_bed_and_its_drop():
    wish = settings.bed("queen", drop="12 1/2", tuck=10)
    assert wish == (85, Fraction(205, 2))
    best = settings.fit(bed="queen", drop=13, blocks=settings.sizes("8", "12", "1/2"), borders=[0, 3, 4])[0]
    assert best.miss <= 1
    assert settings.throw() == (50, 65)


@pytest.mark.parametrize(
    "asked, said",
    [
        ({"width": 60, "height": 80, "blocks": []}, "a fit needs the block sizes it may use; got none"),
        ({"width": 60, "blocks": [6]}, "a fit needs the width and height wished for, or a bed"),
        (
            {"width": 60, "height": 80, "blocks": [6], "styles": ["round"]},
            "a style is one of 'on point', 'straight'",
        ),
        ({"width": 60, "height": 80, "blocks": [6], "best": 0}, "a fit lists from 1 to 100 layouts; got 0"),
        (
            {"width": 60, "height": 80, "blocks": settings.sizes(1, 1001), "sashings": range(20)},
            "a fit tries at most 20,000",
        ),
        ({"bed": "sofa", "blocks": [6]}, "the kit knows the beds crib, twin"),
    ],
)
def test_a_fit_that_cannot_be_is_refused(asked, said):
    with pytest.raises(ValueError) as refused:
        settings.fit(**asked)
    assert said in str(refused.value)


class TestSideBySide:
    def test_the_same_blocks_on_point_make_a_larger_quilt(self):
        straight, turned, large = settings.side_by_side(4, 5, 9, price="12.50").columns
        assert turned.plan.size == pytest.approx([side * 2**0.5 for side in straight.plan.size])
        assert (straight.plan.blocks, turned.plan.blocks, turned.triangles) == (20, 32, 18)
        assert large.plan.size[0] == pytest.approx(turned.plan.size[0], abs=4.5)
        assert turned.cost == pytest.approx(12.5 * turned.bought / 36)

    def test_a_metric_plan_is_told_and_bought_in_metres(self):
        straight = settings.side_by_side(3, 4, 24, unit="cm", usable="100", price=20).columns[0]
        told, metre = dict(straight.rows()), 5000 / 127
        assert told["finished size"] == "72 x 96 cm"
        assert told["fabric cut"] == f"{12 * 0.255**2:.2f} m²"
        assert told["fabric to buy"] == lengths.text(straight.bought, unit="m") and straight.bought / metre >= 1
        assert straight.cost == pytest.approx(20 * float(straight.bought) / metre)

    def test_cloth_is_the_area_of_what_is_cut(self):
        turned = settings.side_by_side(1, 1, 9).columns[1]
        side, corner = 9.5, float(turned.plan.line("corner triangle").size[0])
        assert turned.cloth == pytest.approx(side**2 + 2 * corner**2)
        assert turned.finished == pytest.approx(162)

    def test_rows_name_each_figure_once(self):
        rows = settings.side_by_side(4, 5, 9, sashing=1).rows()
        assert [row[0] for row in rows][:3] == ["blocks", "finished size", "patches"]
        assert all(len(row) == 4 for row in rows)
