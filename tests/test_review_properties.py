"""Properties of the review: what the planner makes it accepts, what is made wrong it stops, and how a sheet is written
down does not matter."""

import tomllib
from fractions import Fraction

import jsonschema
import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from quiltmath import lengths, pattern, proofs, review
from quiltmath import settings as plans
from quiltmath.resources import folder

from .schema import SCHEMA
from .sheets import reviewed_file

SLOW = settings(deadline=None, max_examples=25, suppress_health_check=[HealthCheck.too_slow])
SHEETS = sorted(folder("data").glob("patterns/*/*.toml"))
OBEYS = jsonschema.Draft202012Validator(SCHEMA)
blocks = st.integers(6, 30).map(lambda halves: Fraction(halves, 2))
counts = st.integers(1, 5)
extra = st.integers(0, 8).map(lambda eighths: Fraction(eighths, 8))


def planned(across, down, block, larger=Fraction(0)):
    """The sheet of a plan on point: its own cutting list, edge triangles cut larger by so much."""
    plan = plans.on_point(across=across, down=down, block=block)
    data = {
        "title": "A plan",
        "seam": "1/4",
        "finished": [lengths.text(lengths.ruler(side, "1/8", "nearest")) for side in plan.size],
        "setting": {
            "style": "on point",
            "across": across,
            "down": down,
            "block": "block",
            "corners": {"part": "corner triangle"},
            "sides": {"part": "side triangle"},
        },
        "cut": [],
    }
    for line in plan.cutting_list():
        size = line.size[0] + (larger if "triangle" in line.part else 0)
        data["cut"].append(
            {
                "part": line.part,
                "fabric": line.fabric,
                "size": lengths.text(size),
                "count": line.squares,
                "cut": line.cut,
            }
        )
    if across == down == 1:
        del data["setting"]["sides"]
    return data


def found(data):
    return review.review(pattern.read_text(pattern.toml(data), "plan"))


@SLOW
@given(counts, counts, blocks, extra)
@example(1, 4, Fraction(3), Fraction(1, 8))  # narrow and tall: corner triangles meet side triangles all along
@example(1, 5, Fraction(15), Fraction(1, 8))
@example(2, 5, Fraction(9), Fraction(1, 8))
@example(1, 4, Fraction(15), Fraction(0))
def test_what_the_planner_makes_the_review_accepts(across, down, block, larger):
    assert found(planned(across, down, block, larger)).findings == ()


@SLOW
@given(st.integers(2, 5), counts, blocks, st.integers(1, 16), st.sampled_from(["side triangle", "corner triangle"]))
def test_an_edge_triangle_that_is_truly_too_small_is_stopped(across, down, block, eighths, part):
    data = planned(across, down, block)
    cut = next(cut for cut in data["cut"] if cut["part"] == part)
    exact = float((proofs.side_triangle if part.startswith("side") else proofs.corner_triangle).exact(block=block))
    size = lengths.parse(cut["size"]) - Fraction(eighths, 8)
    cut["size"] = lengths.text(size)
    stops = {finding.check for finding in found(data).findings if finding.level == "stop"}
    assert stops == ({"cut-size"} if exact - float(size) > 0.05 else set())


@SLOW
@given(st.integers(2, 5), counts, blocks, st.data())
def test_one_square_too_few_of_anything_is_stopped(across, down, block, draw):
    data = planned(across, down, block)
    plan = plans.on_point(across=across, down=down, block=block)
    need = {"block": plan.blocks, "side triangle": plan.side_triangles, "corner triangle": plan.corner_triangles}
    cut = draw.draw(st.sampled_from([cut for cut in data["cut"] if cut["count"] > 1]))
    cut["count"] -= 1
    gives = cut["count"] * {"whole": 1, "once": 2, "twice": 4}[cut["cut"]]
    assert gives < need[cut["part"]]  # the planner cuts no square to spare
    assert [finding.check for finding in found(data).findings if finding.level == "stop"] == ["piece-count"]


@SLOW
@given(counts, counts, blocks, st.randoms())
def test_the_order_of_the_cutting_list_does_not_matter(across, down, block, random):
    data = planned(across, down, block)
    data["cut"][0]["count"] += 1
    before = {(one.check, one.level, one.printed, one.needed) for one in found(data).findings}
    random.shuffle(data["cut"])
    assert {(one.check, one.level, one.printed, one.needed) for one in found(data).findings} == before


@pytest.mark.parametrize("path", SHEETS, ids=lambda path: path.stem)
class TestEveryDemoSheet:
    def test_reading_it_twice_says_the_same(self, path):
        assert reviewed_file(path).as_dict() == review.review(pattern.read(path)).as_dict()

    def test_the_schema_accepts_it(self, path):
        OBEYS.validate(tomllib.loads(path.read_text(encoding="utf-8")))


@pytest.mark.parametrize(
    "path, value",
    [
        (("cut", 0, "size"), []),
        (("cut", 0, "count"), "many"),
        (("cut", 0, "count"), 0),
        (("cut", 0, "cut"), "thrice"),
        (("cut",), []),
        (("setting", "style"), "diagonal"),
        (("setting", "across"), 0),
        (("setting", "colour"), "blue"),
        (("title",), 3),
        (("setting", "sides"), "plain"),
    ],
)
def test_what_the_reader_refuses_by_its_shape_the_schema_refuses_too(path, value):
    data = planned(2, 2, 9)
    place = data
    for key in path[:-1]:
        place = place[key]
    place[path[-1]] = value
    with pytest.raises(jsonschema.ValidationError):
        OBEYS.validate(data)
    with pytest.raises(pattern.Unreadable):
        pattern.read_text(pattern.toml(data))
