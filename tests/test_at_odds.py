"""What a page says of one thing twice over: the draft asks which is right, and writes nothing that a sheet refuses."""

import tomllib

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic import ValidationError

from quiltmath import pattern
from quiltmath.pattern.drafting import Unreadable, at_odds
from quiltmath.pattern.drafting.model import Entry, Words
from quiltmath.pattern.fields import AtOdds
from quiltmath.pattern.sheet import Sheet

SAYINGS = (
    "{number} yd {fabric}",
    "{fabric}: 1 {number}/8 yards",
    "{fabric} 1.{number} m",
    "{fabric}: {number} strips 2 1/2 in",
    "{fabric}   {number} strips 2 1/2",
    "{number} fat quarters {fabric}",
    "{number} precut 5 in squares of {fabric}",
    "{fabric} scraps",
    "{number} pieces {fabric}, 10 in x 12 in",
    "1/4 yd each of {number} {fabric} prints",
    "{fabric}: 1 yd, 42 in wide",
    "From the {fabric} cut {number} squares 3 1/2 in",
    "From each {fabric} cut {number} squares 3 7/8 in, cut once diagonally",
    "From the {fabric} cut {number} strips 3 in x WOF, sub-cut into 24 squares 3 in",
    "{fabric} for binding: {number} strips 2 1/4 in",
    "Binding: 280 in of bias 2 1/4 in wide from the {fabric}",
    "Sew {number} strip sets of {fabric} and cream. Cut 18 segments 2 1/2 in",
)
HEADS = ("You will need", "Cutting", "Fabric", "From each:", "Sewing")


def refused_for_both(text):
    """What the reader of sheets says of two keys of a drafted sheet that gainsay each other."""
    data = tomllib.loads(text)
    try:
        Sheet.model_validate(data, context={"units": data.get("units", "in"), "written": {}})
    except ValidationError as problem:
        errors = problem.errors(include_url=False)
        return [one["msg"] for one in errors if isinstance(one.get("ctx", {}).get("error"), AtOdds)]
    return []


sayings = st.builds(
    lambda said, fabric, number: said.format(fabric=fabric, number=number),
    st.sampled_from(SAYINGS),
    st.sampled_from(["navy", "cream", "Navy"]),
    st.integers(2, 7),
)


@given(st.lists(sayings | st.sampled_from(HEADS), min_size=2, max_size=7), st.data())
def test_whatever_a_page_says_and_whatever_is_answered_no_draft_gainsays_itself(lines, data):
    try:
        drafted = pattern.draft("\n".join(["Evening Walk", "", *lines]))
    except Unreadable:
        return
    for _ in range(6):
        assert refused_for_both(drafted.text()) == []
        if not drafted.questions:
            return
        asked = data.draw(st.sampled_from(drafted.questions))
        drafted = drafted.answered(asked, data.draw(st.sampled_from([None, *asked.choices])))


def test_a_fabric_that_is_bought_by_length_and_in_pieces_is_asked_about():
    drafted = pattern.draft("You will need\n1 1/2 yd navy\n6 fat quarters navy\n\nCutting\nNavy: 12 squares 3 1/2 in")
    asked = next(one for one in drafted.questions if "which is right" in one.text)
    assert asked.words.text == "6 fat quarters navy" and "1 1/2 yd navy" in asked.text
    assert [one.label for one in asked.choices] == ["bought 1 1/2 yd", "pieces 6, piece fat quarter"]
    assert [drafted.answered(asked, one).data()["fabric"]["navy"] for one in (*asked.choices, None)] == [
        {"bought": "1 1/2 yd"},
        {"pieces": 6, "piece": "fat quarter"},
        {"bought": "1 1/2 yd"},
    ]


@pytest.mark.parametrize(
    "table, one, other",
    [
        ("fabric", {"scraps": True}, {"bought": "1 yd"}),
        ("fabric", {"piece": "5 in square", "pieces": 40}, {"usable_width": "42"}),
        ("cut", {"size": "3", "per_print": 2}, {"count": 12}),
        ("cut", {"strip": "3", "count": 2}, {"strips": 4}),
        ("binding", {"strip": "2 1/4", "length": "280"}, {"count": 7}),
        ("strip_set", {"of": "set 1", "sub_cut": "2"}, {"sets": 4}),
        ("block", {"ready_made": True, "size": "9"}, {"trim_to": "8 1/2"}),
        ("border", {"triangles": "T"}, {"sides_length": "40"}),
    ],
)
def test_what_gainsays_what_is_said_first_is_left_out_and_asked_about(table, one, other):
    entry = Entry(table, {**one, **other}, Words(1, 0, 4, "said"), "name")
    (kept,), (asked,) = at_odds.settled([entry])
    assert kept.data == one
    assert {**asked.choices[0].changes[0].data} == {**one, **dict.fromkeys(other)}
    (kept,), _ = at_odds.settled([entry], [Entry(table, other, entry.words, "name")])
    assert other.items() <= kept.data.items() and not at_odds.is_at_odds(table, kept.data)
    assert not at_odds.is_at_odds(table, one)
