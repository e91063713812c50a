"""Binding, backing, batting and squares: against the proofs, against sewn cloth, by their properties."""

from fractions import Fraction
from itertools import pairwise
from math import sqrt

import pytest
import sympy
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Polygon, box

from quiltmath import lengths, proofs, sewing, yardage

ordinary = settings(deadline=None, max_examples=20)
sides = st.integers(40, 960).map(lambda eighths: Fraction(eighths, 8))
widths = st.integers(36, 110)


# -- binding -----------------------------------------------------------------------------------------------------------


@ordinary
@given(sides, sides, st.integers(8, 24).map(lambda n: Fraction(n, 8)), widths, st.integers(0, 24))
def test_strips_and_fabric_are_those_of_the_proof(width, height, strip, across, extra):
    ring = yardage.binding(width, height, strip, across, extra=extra)
    asked = {"width": width, "height": height, "strip": strip, "usable_width": across, "extra": extra}
    assert ring.strips == proofs.binding.exact("strips", **asked)
    assert ring.length == proofs.binding.exact("fabric", **asked)
    assert ring.perimeter == proofs.binding.exact("perimeter", **asked)
    assert ring.lost == strip == proofs.binding.exact("least extra", **asked)


@ordinary
@given(sides, sides, widths, st.sampled_from(["diagonal", "straight"]), st.integers(0, 24))
def test_the_strips_reach_round_and_one_less_does_not(width, height, across, join, extra):
    ring = yardage.binding(width, height, "2 1/4", across, join=join, extra=extra)
    lost = Fraction(9, 4) if join == "diagonal" else Fraction(1, 2)
    assert ring.lost == lost and ring.strips * (across - lost) >= ring.needed > (ring.strips - 1) * (across - lost)
    assert ring.at_least <= ring.length and 0 <= ring.yards * 36 - ring.length < Fraction(9, 2)
    wider = yardage.binding(width, height, "2 1/4", across + 1, join=join, extra=extra)
    more = yardage.binding(width, height, "2 1/4", across, join=join, extra=extra + 1)
    assert wider.strips <= ring.strips <= more.strips


@ordinary
@given(sides, sides, widths, st.sampled_from(["bias strips", "straight"]))
def test_no_binding_takes_less_fabric_than_it_covers(width, height, across, cut):
    ring = yardage.binding(width, height, usable_width=across, cut=cut, extra=0)
    assert ring.length >= ring.at_least == ring.perimeter * Fraction(5, 2) / across


@ordinary
@given(st.floats(4, 50), st.floats(4, 50), st.floats(1, 3))
def test_bias_strips_lie_in_the_fabric_side_by_side(width, length, strip):
    """Each strip as a slanted shape between lines at 45 degrees, its ends on the grain: all inside, none on another."""
    piece, found = box(0, 0, width, length), yardage.bias_strips(strip, width, length)
    pitch, corner = strip * sqrt(2), min(width, length)
    before = int(corner / pitch)
    assert sum(found) * strip <= piece.area + 1e-6
    slabs = [
        _slab(corner + pitch * (step - before), pitch, width, length)
        for step in range(before + int(max(width, length) / pitch))
    ]
    longest = [_longest_slant(piece.intersection(slab), strip) for slab in slabs]
    for each in found:
        assert any(abs(each - other) < 1e-6 for other in longest)


def _slab(at, pitch, width, length):
    """Between two lines x + y = at and x + y = at + pitch."""
    far = 2 * (width + length)
    return Polygon([(at + far, -far), (at + pitch + far, -far), (at + pitch - far, far), (at - far, far)])


def _longest_slant(shape, strip):
    """The shorter of the two sides of this shape that run at 45 degrees."""
    corners = list(shape.exterior.coords) if shape.area else []
    slanted = [
        ((x1 - x0) ** 2 + (y1 - y0) ** 2) ** 0.5
        for (x0, y0), (x1, y1) in pairwise(corners)
        if abs((x1 - x0) + (y1 - y0)) < 1e-7 and abs(x1 - x0) > 1e-7
    ]
    return min(slanted) if len(slanted) == 2 else 0.0


def test_a_join_of_bias_strips_costs_what_it_costs_in_sewn_cloth():
    """Two strips with ends on the grain, sewn: the length they lose is the one the binding counts."""
    strip, side = 2.0, 10.0
    slanted = sewing.patch(corners=[(0, 0), (side, 0), (side + strip, strip), (strip, strip)], fabric="navy", grain=45)
    sewn = slanted.sew(slanted, mine=315, theirs=135)
    ring = yardage.binding(40, 40, strip=2, cut="bias strips")
    assert 2 * side + strip - sewn.size[0] == pytest.approx(ring.lost)


@ordinary
@given(sides, sides)
def test_bias_strips_are_enough_and_no_more_than_their_number(width, height):
    ring = yardage.binding(width, height, usable_width=42, cut="bias strips")
    strips = sorted((one - ring.lost for one in yardage.bias_strips("2 1/2", 42, ring.length)), reverse=True)
    assert sum(strips[: ring.strips]) >= ring.needed > sum(strips[: ring.strips - 1])


@pytest.mark.parametrize("width, height, strip", [(20, 35, "1 1/2"), (50, 60, "2 1/2"), (80, 90, 2)])
def test_a_square_for_continuous_bias_gives_the_length(width, height, strip):
    ring = yardage.binding(width, height, strip=strip, cut="continuous bias", extra=0)
    assert proofs.continuous_bias.exact(square=ring.length, width=strip) >= ring.perimeter
    assert proofs.continuous_bias.exact(square=ring.length - Fraction(1, 8), width=strip) < ring.perimeter
    assert f"a square of {lengths.text(ring.length, mark='in')}" in ring.sentence


def test_a_quilt_on_point_may_have_irrational_sides():
    ring = yardage.binding(45 * sympy.sqrt(2), 54 * sympy.sqrt(2), extra=0)
    assert 0 <= ring.perimeter - 198 * sqrt(2) < Fraction(4, 64)


@pytest.mark.parametrize(
    "ask, said",
    [
        (lambda: yardage.binding(0, 60), "the quilt's width must be more than 0 in; got 0 in"),
        (lambda: yardage.binding(50, -60), "the quilt's height must be more than 0 in; got -60 in"),
        (lambda: yardage.binding(50, 60, strip=0), "a binding strip must be more than 0 in"),
        (
            lambda: yardage.binding(50, 60, strip=30),
            "a binding strip is at most half as wide as the fabric, 20 in; got 30 in",
        ),
        (lambda: yardage.binding(50, 60, usable_width=0), "the usable width must be more than 0 in"),
        (lambda: yardage.binding(50, 60, extra=-1), "the extra must be 0 or more in; got -1 in"),
        (lambda: yardage.binding(50, 60, join="glued"), "join is 'diagonal' or 'straight'; got 'glued'"),
        (
            lambda: yardage.binding(50, 60, cut="round"),
            "cut is 'straight' or 'bias strips' or 'continuous bias'; got 'round'",
        ),
        (
            lambda: yardage.binding(90, 90, usable_width=24, cut="continuous bias"),
            "the square for continuous bias is no larger than the fabric, 24 in",
        ),
        (lambda: yardage.binding("wide", 60), "a length is a whole number, a fraction or a decimal"),
    ],
)
def test_a_binding_that_cannot_be_is_refused(ask, said):
    with pytest.raises(ValueError) as refused:
        ask()
    assert str(refused.value).startswith(said)


# -- backing -----------------------------------------------------------------------------------------------------------


@ordinary
@given(sides, sides, st.integers(0, 12), widths)
def test_panels_cover_the_backing_and_one_less_does_not(width, height, over, across):
    back = yardage.backing(width, height, over, across)
    assert (back.width, back.height) == (width + over, height + over)
    for way in (back, back.other):
        reach = back.height if way.seams == "across" or way.panel == back.width != back.height else back.width
        assert way.panels * across - (way.panels - 1) >= reach
        assert way.panels == 1 or (way.panels - 1) * across - (way.panels - 2) < reach
        assert way.at_least <= way.length == way.panels * way.panel
    assert back.length <= back.other.length
    assert yardage.backing(width, height, over, across + 1).length <= back.length
    assert yardage.backing(width, height, over + 1, across).length >= back.length


def test_a_backing_is_as_wide_as_its_panels_sewn():
    back = yardage.backing(72, 90, over=4, usable_width=42, seams="along")
    panel = sewing.patch(size=(42, back.panel), fabric="sand")
    assert panel.sew(panel, mine="right", theirs="left", seam="1/2").size[0] == 83 >= back.width


def test_one_panel_has_no_seam():
    back = yardage.backing(30, 30, usable_width=42)
    assert (back.panels, back.seams, back.length) == (1, "none", 38) and "without a seam" in back.sentence


def test_the_way_of_the_seams_can_be_chosen():
    assert yardage.backing(40, 50, usable_width=42).seams == "across"
    along = yardage.backing(40, 50, usable_width=42, seams="along")
    assert (along.seams, along.length, along.other.length) == ("along", 116, 96)


@pytest.mark.parametrize(
    "ask, said",
    [
        (lambda: yardage.backing(0, 50), "the quilt's width must be more than 0 in"),
        (lambda: yardage.backing(40, 50, over=-1), "over must be 0 or more in; got -1 in"),
        (
            lambda: yardage.backing(40, 50, usable_width=1),
            "fabric is wider than the two seams of a panel, 1 in; got 1 in",
        ),
        (lambda: yardage.backing(4000, 5000), "a backing has at most 20 panels"),
        (lambda: yardage.backing(40, 50, seams="up"), "seams is None or 'along' or 'across'; got 'up'"),
        (lambda: yardage.batting(40, 0), "the quilt's height must be more than 0 in"),
    ],
)
def test_a_backing_that_cannot_be_is_refused(ask, said):
    with pytest.raises(ValueError) as refused:
        ask()
    assert str(refused.value).startswith(said)


# -- batting -----------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "width, height, package",
    [
        (37, 52, "crib"),
        (52, 37, "crib"),
        (37, "52 1/8", "twin"),
        (74, 88, "queen"),
        (73, 88, "full"),
        (112, 112, "king"),
        (113, 112, None),
    ],
)
def test_the_package_relied_on_covers_by_every_source(width, height, package):
    """Full is 81 x 96 by one source and 84 x 96 by another, king 120 x 120 and 124 x 120: the smaller one counts."""
    found = yardage.batting(width, height)
    assert found.package == package
    assert all(one.covers(found.width, found.height) for one in found.sizes)


def test_batting_says_what_sources_print():
    assert "81 × 96 in or 84 × 96 in" in yardage.batting(70, 80).sentence
    assert "from the roll" in yardage.batting(130, 130).sentence


# -- squares and strips ------------------------------------------------------------------------------------------------


@ordinary
@given(sides, widths, st.integers(1, 108))
def test_squares_in_rows_are_what_strips_and_sub_cuts_give(side, across, length):
    assert yardage.squares(side, across, length) == yardage.across(side, across) * yardage.strips(side, length)
    assert yardage.across(side, across) * side <= across < (yardage.across(side, across) + 1) * side


def test_yards_are_bought_by_eighths():
    assert [yardage.yards(inches) for inches in (0, "4 1/2", "4 5/8", 36)] == [0, Fraction(1, 8), Fraction(1, 4), 1]


# -- strips joined end to end ------------------------------------------------------------------------------------------

quarters = st.integers(1, 4000).map(lambda number: Fraction(number, 4))


@ordinary
@given(
    st.lists(quarters, min_size=1, max_size=6), widths, st.integers(0, 20).map(lambda n: Fraction(n, 8)), st.booleans()
)
def test_so_many_strips_reach_and_one_less_does_not(asked, each, lost, ring):
    count = yardage.strips_to_join(asked, each, lost, ring=ring)
    assert count == yardage.strips_to_join(sum(asked), each, lost, ring=ring) >= 1
    assert yardage.joined_length(count, each, lost, ring=ring) >= sum(asked)
    assert count == 1 or yardage.joined_length(count - 1, each, lost, ring=ring) < sum(asked)


@ordinary
@given(st.integers(1, 40), st.integers(8, 24).map(lambda n: Fraction(n, 8)), widths)
def test_strips_joined_on_the_diagonal_are_as_long_as_the_proof_says(strips, strip, each):
    asked = {"strip": each, "width": strip, "strips": strips}
    lost = yardage.lost_in_join(strip)
    assert lost == proofs.diagonal_join.exact("lost in a join", **asked)
    assert yardage.joined_length(strips, each, lost) == proofs.diagonal_join.exact("length", **asked)


def test_a_straight_join_and_one_along_the_grain_cost_what_they_cost_in_sewn_cloth():
    plain = sewing.patch(size=(20, "2 1/2"), fabric="navy")
    for seam in ("1/4", "3/8"):
        sewn = plain.sew(plain, mine="right", theirs="left", seam=seam).size[0]
        assert 40 - sewn == pytest.approx(float(yardage.lost_in_join("2 1/2", "straight", seam)))
    assert yardage.lost_in_join(2, "along the grain") == yardage.binding(40, 40, strip=2, cut="bias strips").lost


def test_a_length_missed_by_less_than_a_hair_is_reached():
    """A perimeter added up in floats may be a hair too long; that does not ask for one more strip."""
    assert yardage.strips_to_join(3 * 41.9 + 1e-12, "41.9", 0) == 3
    assert yardage.strips_to_join(Fraction(126) + Fraction(1, 1000), 42, 0) == 4


def test_no_length_takes_no_strips_and_a_short_one_takes_one():
    assert [yardage.strips_to_join(length, 42, "1/2") for length in (0, "1/8", 42, "42 1/8")] == [0, 1, 1, 2]
    assert [yardage.joined_length(count, 42, "1/2") for count in (0, 1, 2)] == [0, 42, Fraction(167, 2)]


@ordinary
@given(
    quarters,
    st.integers(8, 24).map(lambda n: Fraction(n, 8)),
    widths,
    st.sampled_from(["straight", "bias strips"]),
    st.sampled_from(["diagonal", "straight", "along the grain"]),
)
def test_a_binding_s_strips_give_its_length_and_one_less_does_not(perimeter, strip, across, cut, join):
    how = {"strip": strip, "usable_width": across, "cut": cut, "join": join}
    count = yardage.binding_strips(perimeter, extra=yardage.LEAST_EXTRA, **how)
    assert yardage.binding_length(count, **how) >= perimeter + 2 > yardage.binding_length(count - 1, **how)
    each = float(across) * (sqrt(2) if cut == "bias strips" else 1)
    lost = {"diagonal": float(strip), "straight": 0.5, "along the grain": sqrt(0.5)}[join]
    assert float(yardage.binding_length(count, **how)) == pytest.approx(count * (each - lost))


@ordinary
@given(sides, sides, widths, st.integers(0, 24))
def test_the_two_ways_to_ask_for_binding_strips_agree(width, height, across, extra):
    ring = yardage.binding(width, height, usable_width=across, extra=extra)
    assert ring.strips == yardage.binding_strips(2 * (width + height), usable_width=across, extra=extra)


# -- what a bought length gives as a backing ---------------------------------------------------------------------------


@ordinary
@given(sides, sides, st.integers(0, 12), widths)
def test_the_length_of_a_backing_gives_its_size_back(width, height, over, across):
    back = yardage.backing(width, height, over, across)
    for way in (back, back.other):
        size = yardage.backing_size(way.length, way.panels, across)
        assert size[1] == way.panel and yardage.covers(size, (back.width, back.height))


def test_a_bought_backing_is_as_large_as_its_panels_sewn():
    size = yardage.backing_size("4 yd", 3, 42, seam="1/2")
    panel = sewing.patch(size=(42, size[1]), fabric="sand")
    sewn = panel.sew(panel, mine="right", theirs="left", seam="1/2").sew(panel, mine="right", theirs="left", seam="1/2")
    assert sewn.size == pytest.approx(tuple(map(float, size)))


@ordinary
@given(sides, sides, quarters, widths)
def test_no_other_number_of_panels_leaves_more_room_round_the_quilt(width, height, bought, across):
    def room(panels):
        size = yardage.backing_size(bought, panels, across)
        return max(min(size[0] - width, size[1] - height), min(size[1] - width, size[0] - height))

    best = yardage.best_panels(bought, width, height, across)
    assert all(room(best) > room(panels) for panels in range(1, best))
    assert all(room(best) >= room(panels) for panels in range(best, 7))


@ordinary
@given(sides, sides, sides, sides)
def test_room_round_a_quilt_is_what_is_left_over_on_each_side_the_better_way_round(width, height, wide, high):
    room = yardage.room_round((wide, high), (width, height))
    both = [[have - side for have, side in zip(way, (width, height))] for way in ((wide, high), (high, wide))]
    assert room == max(map(min, both)) / 2
    assert (room >= 2) == yardage.covers((wide, high), yardage.least_size(width, height, 4))


@ordinary
@given(quarters, st.integers(8, 24).map(lambda n: Fraction(n, 8)), widths)
def test_fabric_for_bias_strips_is_no_less_than_their_area_and_no_more_than_full_strips_take(reach, strip, across):
    fabric = yardage.bias_fabric(reach, strip, across)
    assert fabric >= Fraction(reach) * strip / across
    each = float(yardage.strip_length(across, "bias strips")) - sqrt(0.5)
    full = -(-float(reach) // each) * float(strip) * sqrt(2) + float(across) + float(strip) * sqrt(2)
    assert float(fabric) <= full + 0.25


@pytest.mark.parametrize("width, height", [(36, 42), (60, 72), (90, 100)])
def test_fabric_for_bias_strips_is_that_of_a_binding_as_long(width, height):
    ring = yardage.binding(width, height, "2 1/4", 42, cut="bias strips", extra=10)
    assert yardage.bias_fabric(ring.needed, "2 1/4", 42) == ring.length


def test_backing_and_batting_are_larger_all_round():
    assert yardage.least_size(60, 72) == (64, 76) and yardage.LEAST_OVER == 4
    assert (yardage.batting(60, 72).width, yardage.batting(60, 72).height) == yardage.least_size(60, 72, yardage.OVER)


@pytest.mark.parametrize(
    "ask, said",
    [
        (lambda: yardage.strips_to_join(240, 0, 0), "the length of a strip must be more than 0 in; got 0 in"),
        (lambda: yardage.strips_to_join([60, -1], 42, 0), "a length must be 0 or more in; got -1 in"),
        (lambda: yardage.strips_to_join("long", 42, 0), "a length is a whole number, a fraction or a decimal"),
        (
            lambda: yardage.strips_to_join(9, 2, "2 1/2"),
            "strips are longer than what one join takes, 2 1/2 in; got 2 in",
        ),
        (lambda: yardage.joined_length(-1, 42, 0), "the number of strips is a whole number from 0 to 100,000; got -1"),
        (lambda: yardage.joined_length(3, 42, -1), "what a join takes must be 0 or more in; got -1 in"),
        (lambda: yardage.lost_in_join(0), "a strip must be more than 0 in; got 0 in"),
        (lambda: yardage.binding_strips(0), "the perimeter must be more than 0 in; got 0 in"),
        (lambda: yardage.binding_strips(264, strip=40), "strips are longer than what one join takes, 40 in; got 40 in"),
        (lambda: yardage.binding_length(7, cut="round"), "cut is 'straight' or 'bias strips'; got 'round'"),
        (
            lambda: yardage.backing_size("4 yd", 2.5),
            "the number of panels is a whole number from 1 to 100,000; got 2.5",
        ),
        (lambda: yardage.backing_size(0, 2), "the length bought must be more than 0 in; got 0 in"),
        (lambda: yardage.backing_size(90, 2, 1), "strips are longer than what one join takes, 1 in; got 1 in"),
        (lambda: yardage.least_size(60, 72, -1), "over must be 0 or more in; got -1 in"),
        (lambda: yardage.room_round((60, 72), (-1, 72)), "a side must be 0 or more in; got -1 in"),
        (lambda: yardage.bias_fabric(0), "the length of binding must be more than 0 in; got 0 in"),
        (lambda: yardage.bias_fabric(264, 22, 42), "a binding strip is at most half as wide as the fabric, 21 in"),
    ],
)
def test_what_cannot_be_joined_is_refused(ask, said):
    with pytest.raises(ValueError) as refused:
        ask()
    assert str(refused.value).startswith(said)


# -- washing and straightening -----------------------------------------------------------------------------------------


@ordinary
@given(sides, st.integers(0, yardage.washing.MOST_SHRUNK), st.integers(0, 32).map(lambda eighths: Fraction(eighths, 8)))
def test_what_is_bought_washed_and_straightened_is_what_was_needed(needed, percent, straighten):
    buy = yardage.length_to_buy(needed, percent=percent, straighten=straighten)
    assert yardage.washed(buy, percent) - straighten == needed <= buy
    assert (buy == needed) == (percent == straighten == 0)


@pytest.mark.parametrize("percent", [-1, 21, Fraction(41, 2)])
def test_a_wash_that_no_fabric_has_is_refused_in_words(percent):
    for ask in (lambda: yardage.washed(42, percent), lambda: yardage.length_to_buy(42, percent=percent)):
        with pytest.raises(ValueError, match=f"fabric shrinks by 0 to 20 percent; got {percent}: wash a measured"):
            ask()
