"""Cutting plans: laid out and checked piece by piece, against exhaustive searches, by their properties."""

import subprocess
import sys
from collections import Counter
from fractions import Fraction
from functools import cache
from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import STRtree, box
from shapely.ops import unary_union

from quiltmath import pattern, proofs, resources, review, yardage
from quiltmath.yardage import DoesNotFit, Piece, bounds, length_needed, lying

A = Piece("3 1/2", "3 1/2", 40, "A")
ordinary = settings(deadline=None, max_examples=20)


@st.composite
def pieces(draw, kinds=4, most=30, side=40):
    """A few kinds of pieces, sides in halves of an inch up to `side` halves, some of which may be turned."""
    return [
        Piece(
            Fraction(draw(st.integers(2, side)), 2),
            Fraction(draw(st.integers(2, side)), 2),
            draw(st.integers(1, most)),
            part=f"P{number}",
            any_way=draw(st.booleans()),
        )
        for number in range(draw(st.integers(1, kinds)))
    ]


def tiny(kinds=3, most=3):
    """So few pieces that every plan can be looked at; on fabric 6 wide."""
    side = st.integers(1, 6)
    return st.lists(
        st.builds(Piece, side, side, st.integers(1, most), any_way=st.booleans()), min_size=1, max_size=kinds
    )


# -- a plan is a plan --------------------------------------------------------------------------------------------------


@ordinary
@given(pieces(), st.integers(20, 44))
def test_every_piece_lies_in_the_plan_once_inside_the_fabric_and_on_no_other(parts, width):
    plan = length_needed(parts, width)
    found = Counter((place.piece.part, *sorted((place.width, place.height))) for place in plan.places())
    assert found == Counter({(one.part, *sorted((one.width, one.height))): one.count for one in parts})
    for place in plan.places():
        assert 0 <= place.x and place.x + place.width <= width
        assert 0 <= place.y and place.y + place.height <= plan.length
        turned = (place.width, place.height) != (place.piece.width, place.piece.height)
        assert place.piece.any_way or not turned
    rectangles = [box(*map(float, (one.x, one.y, one.x + one.width, one.y + one.height))) for one in plan.places()]
    assert unary_union(rectangles).area == pytest.approx(float(sum(one.area for one in parts)))
    assert len(STRtree(rectangles).query(rectangles, predicate="overlaps")[0]) == 0


@ordinary
@given(pieces(), st.integers(20, 44))
def test_strips_add_up_and_never_pass_the_width(parts, width):
    plan = length_needed(parts, width)
    assert plan.length == sum(strip.height * strip.count for strip in plan.strips)
    for strip in plan.strips:
        assert sum(cut.columns * cut.across for cut in strip.cuts) <= width
        assert all(cut.pieces <= cut.columns * (strip.height // cut.along) for cut in strip.cuts)
    for one in parts:
        assert one.count == sum(
            strip.count * cut.pieces for strip in plan.strips for cut in strip.cuts if cut.piece == one
        )


@ordinary
@given(pieces(), st.integers(20, 44))
def test_no_plan_is_shorter_than_what_no_cutter_gets_under(parts, width):
    plan = length_needed(parts, width)
    assert sum(one.area for one in parts) / width <= plan.at_least <= plan.length
    assert plan.at_least >= max(min(one.height, one.width) if one.any_way else one.height for one in parts)
    assert 0 <= plan.yards * 36 - plan.length < Fraction(36, 8)
    assert plan.waste == 1 - sum(one.area for one in parts) / (plan.length * width)


@ordinary
@given(pieces(), st.integers(20, 44))
def test_a_plan_is_no_longer_than_part_by_part(parts, width):
    alone = sum((one.height * -(-one.count // (width // one.width)) for one in parts), Fraction(0))
    assert length_needed(parts, width).length <= alone


# -- nothing better exists ---------------------------------------------------------------------------------------------


def shortest_strips(parts, width):
    """The length of the best plan of strips of all, found by looking at every way to share pieces among strips."""
    kinds = [(wide, high) for one in parts for wide, high in _turns(one) if wide <= width]
    owner = [number for number, one in enumerate(parts) for wide, high in _turns(one) if wide <= width]
    counts = [parts[number].count for number in owner]

    @cache
    def height(held):
        """The lowest strip that holds so many of each kind."""
        levels = sorted({high * level for (_, high), count in zip(kinds, held) for level in range(1, count + 1)})
        return next(
            (
                level
                for level in levels
                if sum(
                    wide * -(-count // (level // high)) if level >= high else (width + 1) * bool(count)
                    for (wide, high), count in zip(kinds, held)
                )
                <= width
            ),
            None,
        )

    @cache
    def least(left):
        if not any(left):
            return 0
        first = next(number for number, count in enumerate(left) if count)
        best = None
        for held in product(*(range(min(count, left[number]) + 1) for count, number in zip(counts, owner))):
            taken = [sum(count for count, who in zip(held, owner) if who == number) for number in range(len(left))]
            if not taken[first] or any(took > have for took, have in zip(taken, left)) or height(held) is None:
                continue
            total = height(held) + least(tuple(have - took for have, took in zip(left, taken)))
            best = total if best is None or total < best else best
        return best

    return least(tuple(one.count for one in parts))


def _turns(one):
    wide, high = int(one.width), int(one.height)
    return sorted({(wide, high)} | ({(high, wide)} if one.any_way else set()))


@ordinary
@given(tiny())
def test_an_exhaustive_search_of_strips_finds_nothing_better(parts):
    plan, best = length_needed(parts, 6), shortest_strips(parts, 6)
    assert plan.length >= best
    if plan.proved:
        assert plan.length == best


def test_tiny_plans_are_mostly_proved():
    """The check above would be idle otherwise: 80 fixed cases, all kinds of three pieces between 1 and 4 inches."""
    cases = [
        [Piece(1 + n % 4, 1 + n // 4 % 4, 1 + n % 3, any_way=n % 2 == 0), Piece(1 + n // 5 % 4, 1 + n // 7 % 4, 2)]
        for n in range(80)
    ]
    plans = [length_needed(parts, 6) for parts in cases]
    assert sum(plan.proved for plan in plans) >= 78
    assert all(plan.length == shortest_strips(parts, 6) for plan, parts in zip(plans, cases))


def fits(sizes, width, length):
    """Whether rectangles of whole inches can be laid in a piece of fabric at all: every way to lay them, in no
    strips."""

    def lay(taken, left):
        if not left:
            return True
        free = next((at for at in range(width * length) if not taken >> at & 1), None)
        if free is None:
            return False
        y, x = divmod(free, width)
        for number, (ways, _) in enumerate(left):
            if number and left[number][0] == left[number - 1][0]:
                continue
            for wide, high in ways:
                if x + wide <= width and y + high <= length:
                    mask = sum(((1 << wide) - 1) << (y + row) * width + x for row in range(high))
                    if not taken & mask and lay(taken | mask, left[:number] + left[number + 1 :]):
                        return True
        spare = width * length - taken.bit_count() - sum(area for _, area in left)
        return spare > 0 and lay(taken | 1 << free, left)

    return lay(0, sizes)


def shortest_of_all(parts, width):
    sizes = sorted((tuple(_turns(one)), int(one.width * one.height)) for one in parts for _ in range(one.count))
    length = -(-int(sum(one.area for one in parts)) // width)
    while not fits(sizes, width, length):
        length += 1
    return length


@ordinary
@given(tiny(kinds=3, most=2))
def test_no_way_at_all_to_lay_the_pieces_gets_under_the_bound(parts):
    plan, best = length_needed(parts, 6), shortest_of_all(parts, 6)
    assert plan.at_least <= best <= plan.length


def test_squares_in_rows_are_known_to_be_the_best_there_is():
    """Squares of one size fill no fabric better than in rows: the bound reaches the plan."""
    for side, count in (("2 1/2", 100), ("3 7/8", 61), (10, 13), ("4 1/2", 5)):
        plan = length_needed([Piece(side, side, count)], 42)
        assert plan.at_least == plan.length and plan.proved
        assert yardage.squares(side, 42, plan.length) >= count
        assert yardage.squares(side, 42, plan.length - Fraction(1, 8)) < count


# -- more never needs less ---------------------------------------------------------------------------------------------


@ordinary
@given(tiny(), st.data())
def test_more_pieces_never_need_less_fabric(parts, data):
    more = [
        Piece(one.width, one.height, one.count + data.draw(st.integers(0, 2)), any_way=one.any_way) for one in parts
    ]
    fewer, plan = length_needed(parts, 6), length_needed(more, 6)
    assert fewer.at_least <= plan.length
    if fewer.proved and plan.proved:
        assert fewer.length <= plan.length


@ordinary
@given(tiny(), st.integers(0, 3))
def test_wider_fabric_never_needs_more(parts, wider):
    narrow, wide = length_needed(parts, 6), length_needed(parts, 6 + wider)
    assert wide.at_least <= narrow.length
    if narrow.proved and wide.proved:
        assert wide.length <= narrow.length


@ordinary
@given(st.integers(10, 80), st.integers(1, 400), st.integers(1, 60), st.integers(0, 60))
def test_of_one_square_more_pieces_or_narrower_fabric_never_need_less(eighths, count, more, narrower):
    side = Fraction(eighths, 8)
    plan = length_needed([Piece(side, side, count)], 42)
    assert length_needed([Piece(side, side, count + more)], 42).length >= plan.length
    assert length_needed([Piece(side, side, count)], 42 - Fraction(narrower, 8)).length >= plan.length


# -- what quilts need --------------------------------------------------------------------------------------------------


def test_lower_pieces_fill_the_strip_of_a_higher_one():
    plan = length_needed([Piece(14, 14, 2, "side"), Piece("3 1/2", "3 1/2", 16, "A")], 42)
    assert [str(strip.height) for strip in plan.strips] == ["14"] and plan.length == plan.at_least == 14


def test_a_long_border_runs_along_the_selvage_or_is_joined():
    along = length_needed([Piece("2 1/2", 60, 4, "border")], 42)
    assert along.length == 60 and not along.strips[0].joined
    across = length_needed([Piece(60, "2 1/2", 4, "border")], 42)
    assert (across.strips[0].joined, across.strips[0].count, across.length) == (True, 6, 15)
    assert "joined end to end" in str(across)
    either = length_needed([Piece("2 1/2", 60, 4, "border", any_way=True)], 42)
    assert either.length == 15 and either.strips[0].cuts[0].turned
    assert either.at_least == Fraction(60 * 4) * Fraction(5, 2) / 42


@ordinary
@given(st.integers(43, 120), st.integers(4, 40), st.integers(1, 12), st.sampled_from(["straight", "diagonal"]))
def test_joined_strips_reach_and_one_less_does_not(long, halves, count, join):
    high = Fraction(halves, 2)
    plan = length_needed([Piece(long, high, count)], 42, join=join)
    strips, lost = plan.strips[0].count, high if join == "diagonal" else Fraction(1, 2)
    assert strips * 42 - (strips - 1) * lost >= count * long > (strips - 1) * 42 - (strips - 2) * lost
    assert plan.at_least <= plan.length


def test_joined_on_the_diagonal_strips_are_as_long_as_the_proof_says():
    plan = length_needed([Piece(100, 3, 1)], 42, join="diagonal")
    assert proofs.diagonal_join.exact("length", strip=42, width=3, strips=plan.strips[0].count) >= 100


def test_a_long_strip_leaves_its_side_for_others():
    plan = length_needed([Piece("2 1/2", 70, 4, "border"), Piece("6 1/2", "6 1/2", 40, "block")], 42)
    assert plan.length == 70 and plan.proved


def test_whole_strips_are_pieces_as_wide_as_the_fabric():
    plan = length_needed([Piece(42, "2 1/2", 7, "binding"), A], 42)
    assert plan.length == 7 * Fraction(5, 2) + 4 * Fraction(7, 2) == plan.at_least


def test_sizes_that_share_no_step_are_planned_on_the_safe_side():
    plan = length_needed([Piece("9.87 cm", "9.87 cm", 30), Piece("3 17/64", "7.31 cm", 20, any_way=True)], "41 63/64")
    assert plan.at_least <= plan.length
    assert all(place.x + place.width <= plan.usable_width for place in plan.places())


def test_pieces_much_smaller_than_the_fabric_do_no_harm():
    plan = length_needed([Piece("0.005", "0.005", 3), Piece(40, 3, 2)], 42)
    assert 6 <= plan.at_least <= plan.length <= Fraction("6.005")


def test_no_pieces_need_no_fabric():
    plan = length_needed([], 42)
    assert (plan.length, plan.at_least, plan.strips, plan.yards) == (0, 0, (), 0)


def test_many_pieces_are_planned():
    plan = length_needed([Piece("1 1/2", "1 1/2", 60_000), Piece("2 1/2", "1 1/2", 40_000)], 42)
    assert plan.at_least <= plan.length <= plan.at_least * Fraction(101, 100)


def test_a_long_cutting_list_is_planned_by_the_cutter_s_rule():
    many = [Piece(Fraction(8 + n * 7 % 40, 4), Fraction(8 + n // 3, 4), 1 + n % 5) for n in range(300)]
    plan = length_needed(many, 42)
    assert not plan.proved and plan.at_least == sum(one.area for one in many) / 42
    assert plan.length < plan.at_least * Fraction(11, 10)


def test_the_same_question_gets_the_same_plan():
    parts = [
        Piece("3 1/2", "3 1/2", 70, any_way=True),
        Piece("2 1/2", "4 1/2", 31),
        Piece("9 1/2", "6 1/2", 7, any_way=True),
    ]
    assert length_needed(parts, 42) == length_needed(parts, 42)


def test_planning_prints_nothing():
    code = (
        "from quiltmath.yardage import Piece, length_needed\n"
        "for n in range(12):\n    length_needed([Piece(2 + n % 5, 3 + n % 7, 17 + n), Piece(3.5, 2.5, 23, "
        "any_way=True), Piece(6.5, 9.5, 11), Piece(2.5, 60, 4, any_way=True)], 42)"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, check=True)
    assert done.stdout == done.stderr == b""


def loaded_after(code):
    """Which of SciPy and SymPy a fresh interpreter has loaded after this."""
    code = f"import sys\nfrom quiltmath import yardage\nfrom quiltmath.yardage import Piece\n{code}\n"
    code += "print(*sorted({'scipy', 'sympy'} & set(sys.modules)))"
    return subprocess.run([sys.executable, "-c", code], capture_output=True, check=True, text=True).stdout.split()


QUILT = (
    'Piece("3 7/8", "3 7/8", 96), Piece("2 1/2", "4 1/2", 40), Piece(60, 3, 4), Piece(12, 12, 5, any_way=True), '
    'Piece(42, "2 1/2", 7)'
)


@pytest.mark.parametrize(
    "code, loaded",
    [
        ("yardage.squares(3)", []),
        ("yardage.length_needed([Piece(3, 3, 100)], 42)", []),
        (f"assert yardage.length_needed([{QUILT}], 42, bought='3 yd').length <= 108", []),
        (f"assert yardage.length_needed([{QUILT}], 42, bought='2 yd').at_least > 72", []),
        (f"yardage.length_needed([{QUILT}], 42)", ["scipy"]),
        ('assert yardage.holds([Piece("4 7/8", "4 7/8", 12)], 22).answer == "yes"', []),
        ('assert yardage.holds([Piece("4 7/8", "4 7/8", 13)], 22).answer == "no"', []),
        ("yardage.binding(60, 72); yardage.binding(60, 72, join='straight')", []),
        ("yardage.binding_strips(264, join='diagonal'); yardage.binding_length(7)", []),
        ("yardage.backing(60, 72); yardage.batting(60, 72); yardage.best_panels(144, 60, 72)", []),
    ],
)
def test_scipy_is_loaded_only_where_counting_leaves_a_gap_and_sympy_never(code, loaded):
    assert loaded_after(code) == loaded


# -- whether a bought length will do -----------------------------------------------------------------------------------


@ordinary
@given(pieces(), st.integers(20, 44), st.integers(0, 12))
def test_whether_a_bought_length_will_do_is_answered_as_by_the_whole_search(parts, width, eighths):
    whole = length_needed(parts, width)
    for bought in (whole.length, whole.length * Fraction(8 + eighths, 8), whole.at_least - Fraction(1, 8)):
        asked = length_needed(parts, width, bought=max(bought, Fraction(0)))
        assert (asked.length <= bought) == (whole.length <= bought)
        assert not (asked.at_least > bought and asked.length <= bought)
        assert asked.at_least <= whole.length


@ordinary
@given(tiny(kinds=3, most=2), st.integers(0, 20))
def test_a_bought_length_is_never_wrongly_refused_or_praised(parts, bought):
    plan, best = length_needed(parts, 6, bought=bought), shortest_of_all(parts, 6)
    assert not plan.at_least > bought >= best
    assert not plan.length <= bought < best
    assert len(plan.places()) == sum(one.count for one in parts)


@pytest.mark.parametrize("bought", ["-1", "much", -3])
def test_a_bought_length_is_a_length(bought):
    with pytest.raises(ValueError):
        length_needed([A], 42, bought=bought)


# -- counting alone ----------------------------------------------------------------------------------------------------


@ordinary
@given(tiny(kinds=3, most=2))
def test_counting_alone_never_forbids_what_can_be_laid(parts):
    best = Fraction(shortest_of_all(parts, 6))
    for enough in (best, best + Fraction(1, 2), best + 5):
        assert bounds.by_counting(parts, Fraction(6), enough) <= best


@ordinary
@given(pieces(kinds=5), st.integers(20, 44))
def test_counting_alone_never_passes_a_plan_and_never_falls_below_the_area(parts, width):
    plan = length_needed(parts, width)
    counted = bounds.by_counting(parts, Fraction(width), plan.length)
    assert sum(one.area for one in parts) / width <= counted <= plan.at_least <= plan.length


@pytest.mark.parametrize(
    "parts, least",
    [
        ([Piece(22, 5, 4)], 20),  # wider than half: one beside none
        ([Piece(10, 10, 13)], 40),  # four columns, so four rows
        ([Piece(22, 5, 4), Piece(21, 5, 2)], 25),  # two of just half side by side, none beside the wider
        ([Piece(15, 8, 3), Piece(28, 8, 2)], 32),  # a 15 fits not beside a 28
        ([Piece(30, 4, 2, any_way=True), Piece(25, 25, 2)], 50),
        ([Piece(60, 3, 4)], 18),  # joined: 5.7 strips of fabric, so six
    ],
)
def test_what_counting_alone_proves(parts, least):
    joints = lying.joined(parts, Fraction(42), "straight", Fraction(1, 4))
    assert bounds.by_counting(parts, Fraction(42), Fraction(200), joints) == least


def test_a_piece_that_may_be_joined_either_way_counts_by_its_area_alone():
    parts = [Piece("2 1/2", 60, 4, any_way=True)]
    joints = lying.joined(parts, Fraction(42), "straight", Fraction(1, 4))
    assert bounds.by_counting(parts, Fraction(42), Fraction(15), joints) == Fraction(600, 42)


# -- a piece of fabric of given size ----------------------------------------------------------------------------------


@pytest.mark.parametrize("count, answer", [(12, "yes"), (13, "no")])
def test_a_fat_quarter_holds_twelve_of_its_squares_and_not_thirteen(count, answer):
    fit = yardage.holds([Piece("4 7/8", "4 7/8", count)], width=22)
    assert fit.answer == answer and bool(fit) == (answer == "yes")


def test_strips_along_the_selvage_are_tried_too():
    """Two pieces side by side over half of the fabric's length, one over the other half: no strip across holds that."""
    fit = yardage.holds([Piece(2, 5, 3), Piece(2, 3, 5)], width=4, length=15)
    assert fit and fit.along_the_selvage == (length_needed([Piece(2, 5, 3), Piece(2, 3, 5)], 4).length > 15)


@ordinary
@given(tiny(kinds=2, most=3), st.integers(1, 8))
def test_yes_and_no_are_both_true(parts, length):
    fit, least = yardage.holds(parts, 6, length), shortest_of_all(parts, 6)
    assert not (fit.answer == "yes" and least > length)
    assert not (fit.answer == "no" and least <= length)


def test_a_piece_larger_than_the_fabric_is_named():
    assert yardage.holds([Piece(20, 20, 1, "plain block")]).sentence == (
        "21 × 18 in does not hold plain block (20 × 20): it is larger than the fabric"
    )


# -- refusals ----------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "ask, said",
    [
        (lambda: length_needed([A], 0), "the usable width must be more than 0 in; got 0 in"),
        (lambda: length_needed([A], "-42"), "the usable width must be more than 0 in; got -42 in"),
        (
            lambda: length_needed([Piece(50, 30)], 42),
            "a piece is no wider than the usable width, 42 in; got 50 × 30: turn it",
        ),
        (lambda: length_needed([Piece(60, 50, any_way=True)], 42), "a piece is no wider than the usable width, 42 in"),
        (lambda: length_needed([Piece(60, 1)], "1/4"), "a piece is no wider than the usable width, 1/4 in"),
        (lambda: Piece(-3, 3), "the width of a piece must be more than 0 in; got -3 in"),
        (lambda: Piece(3, 0), "the height of a piece must be more than 0 in; got 0 in"),
        (lambda: Piece(3, 3, 0), "the count of a piece is a whole number from 1 to 100,000; got 0"),
        (lambda: Piece(3, 3, 2.5), "the count of a piece is a whole number from 1 to 100,000; got 2.5"),
        (lambda: Piece(3, 3, True), "the count of a piece is a whole number from 1 to 100,000; got True"),
        (lambda: Piece(3, 3, 10**30), "the count of a piece is a whole number from 1 to 100,000"),
        (lambda: length_needed([Piece(3, 3, 60_000)] * 2), "a plan holds at most 100,000 pieces; got 120,000"),
        (lambda: length_needed([A] * 501), "a plan holds at most 500 lines of a cutting list"),
        (lambda: length_needed("A"), "pieces are a list of yardage.Piece; got 'A'"),
        (lambda: length_needed(None), "pieces are a list of yardage.Piece; got None"),
        (lambda: length_needed([3]), "a piece is a yardage.Piece or (width, height, count); got 3"),
        (lambda: length_needed([A], join="glued"), "join is 'straight' or 'diagonal'; got 'glued'"),
        (lambda: length_needed([A], seam=-1), "a seam must be 0 or more in; got -1 in"),
        (lambda: yardage.holds([A], 0), "the usable width must be more than 0 in"),
        (lambda: yardage.holds([A], 21, 0), "the length of fabric must be more than 0 in"),
        (lambda: yardage.squares(0), "the side of a square must be more than 0 in"),
        (lambda: yardage.squares(3, 42, "-1 yd"), "the length of fabric must be more than 0 in"),
    ],
)
def test_what_cannot_be_planned_is_refused_in_words(ask, said):
    with pytest.raises(ValueError) as refused:
        ask()
    assert str(refused.value).startswith(said)


def test_a_piece_that_does_not_fit_has_an_error_of_its_own():
    with pytest.raises(DoesNotFit):
        length_needed([Piece(50, 30)], 42)


def test_a_sheet_with_a_piece_wider_than_its_fabric_is_reviewed_in_words():
    sheet = (resources.folder("data") / "patterns" / "sound" / "library-lap-quilt.toml").read_text(encoding="utf-8")
    wide = '[[cut]]\npart = "whole"\nfabric = "navy"\nsize = "50"\ncount = 1\n\n[[cut]]'
    found = review.review(pattern.read_text(sheet.replace("[[cut]]", wide, 1), "wide.toml")).findings
    assert any(one.check == "fabric-short" and "got whole (50 × 50): turn it" in one.message for one in found)
