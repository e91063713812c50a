"""Every kind of plan: the sewn top, squared up, shows what the finished drawing shows and measures what it
should."""

from itertools import product

import pytest
from hypothesis import example, given
from hypothesis import settings as hypothesis
from hypothesis import strategies as st

from quiltmath import blocks, settings
from quiltmath.making.placed import polygons
from quiltmath.shapes import area

from . import cloth_regions

EXACT = 1e-9  # inches: float noise of a few hundred seams
NINE = blocks.read("a b c | d e f | g h i", size=6, name="nine")
SIXTEEN = blocks.read("a b c d | e f g h | i j k l | m n o p", size=6, name="sixteen")
SIZES = [(1, 1), (1, 3), (4, 1), (3, 2), (2, 4), (3, 3)]

ON_POINT = {
    "plain": {},
    "alternate": {"alternate": "plain"},
    "floating": {"floating": "3/4"},
    "sashed, centre": {"sashing": 1},
    "sashed, whole": {"sashing": 1, "edge": "whole"},
    "strips, centre": {"sashing": 1, "cornerstones": False},
    "strips, whole": {"sashing": 1, "cornerstones": False, "edge": "whole"},
    "sashed, whole, floating": {"sashing": 1, "edge": "whole", "floating": "1/2"},
    "built": {"edges": "built"},
    "built, bias outside": {"edges": "built, bias outside"},
    "built and sashed": {"edges": "built", "sashing": 1},
    "half blocks": {"edges": "half blocks"},
    "half blocks with strips": {"edges": "half blocks", "sashing": 1, "cornerstones": False},
    "framed": {"frame": 1},
    "framed to the edge": {"frame": 1, "edges": "framed"},
    "framed and sashed": {"frame": 1, "edges": "framed", "sashing": "1/2"},
    "framed half blocks": {"frame": 1, "edges": "half blocks"},
    "borders": {"borders": ["1", settings.border(2, ends="mitred", fabric="rust")]},
}
STRAIGHT = {
    "plain": {},
    "alternate": {"alternate": "plain"},
    "two blocks": {"alternate": NINE.resized(6)},
    "sashed between": {"sashing": 1},
    "sashed all round": {"sashing": 1, "around": True},
    "strips between": {"sashing": 1, "cornerstones": False},
    "strips all round": {"sashing": 1, "cornerstones": False, "around": True},
    "framed": {"frame": 1, "sashing": 1, "alternate": "plain"},
    "borders": {"borders": [settings.border(2, first="top"), settings.border(1, ends="mitred", fabric="rust")]},
}


def drawn(plan):
    return polygons(plan.placed())


def check(plan):
    """The panel measures the formula, shows the drawing, and its points lie one seam and the float deep."""
    panel = plan.panel()
    assert panel.size == pytest.approx([side + 0.5 for side in plan.size], abs=EXACT)
    assert len(panel.patches) == plan.patches
    assert (
        cloth_regions.unlike(
            cloth_regions.of_panel(panel.bind()),
            cloth_regions.of_drawing((fabric, corners) for _, fabric, corners in drawn(plan)),
        )
        < cloth_regions.SLIVER
    )
    assert sum(map(abs, map(area, (corners for _, _, corners in drawn(plan))))) == pytest.approx(
        plan.size[0] * plan.size[1]
    )
    if plan.style == "on point":
        margin = float(plan.borders[-1].width if plan.borders else plan.floating)
        assert panel.depths().min() == pytest.approx(0.25 + margin, abs=EXACT)
    assert all(depth >= 0.25 - EXACT for depth in panel.depths())
    assert outside_bias(panel) == pytest.approx(0 if plan.borders else float(plan.bias_outside()), abs=1e-6)
    return panel


def outside_bias(panel):
    """Inches of the finished outline of bound cloth that do not lie on the straight grain."""
    from quiltmath.shapes import grain_of

    bound = panel.bind()
    width, height = bound.size
    found = 0.0
    for patch in bound.patches:
        for start, end in zip(patch.polygon, [*patch.polygon[1:], patch.polygon[0]]):
            for axis, side in ((0, 0.0), (0, width), (1, 0.0), (1, height)):
                if abs(start[axis] - side) < 1e-6 and abs(end[axis] - side) < 1e-6:
                    straight = grain_of(start, end, patch.grain) == "straight"
                    found += 0.0 if straight else abs(end - start).max()
    return found


def sizes(style, styles):
    """Half of the sizes, the other half for the next style: `python -m tests.sweep plans` tries all."""
    return SIZES[[*styles].index(style) % 2 :: 2]


@pytest.mark.parametrize("style", ON_POINT)
def test_on_point(style):
    for across, down in sizes(style, ON_POINT):
        plan = settings.on_point(across, down, NINE, **ON_POINT[style])
        panel = check(plan)
        if plan.edges != "half blocks":
            assert counted(plan) == {part: panel.count(part) for part in counted(plan)}


@pytest.mark.parametrize("style", STRAIGHT)
def test_straight(style):
    for across, down in sizes(style, STRAIGHT):
        plan = settings.straight(across, down, SIXTEEN, **STRAIGHT[style])
        panel = check(plan)
        assert counted(plan) == {part: panel.count(part) for part in counted(plan)}


def counted(plan):
    """The patches of each part in the cutting list."""
    found = {}
    for line in plan.cutting_list():
        found[line.part] = found.get(line.part, 0) + line.count
    return found


@pytest.mark.parametrize(
    "grid", ["A", "A B | C D", "A B C | D E F | G H I", "A B C D E | F G H I J | K L M N O | P Q R S T | U V W X Y"]
)
def test_built_edges_of_any_block_of_squares(grid):
    block = blocks.read(grid, size=6)
    for edges, (across, down) in product(("built", "built, bias outside"), [(1, 1), (3, 2)]):
        check(settings.on_point(across, down, block, edges=edges))


def test_quarter_square_ends_keep_the_outside_on_the_straight_grain_and_half_square_ends_do_not():
    quarter, half = (settings.on_point(3, 4, NINE, edges=edges) for edges in ("built", "built, bias outside"))
    assert outside_bias(quarter.panel()) == 0
    assert outside_bias(half.panel()) == pytest.approx(float(half.bias_outside()))
    assert quarter.size == half.size


@given(st.data())
@hypothesis(max_examples=25)
def test_any_plan_on_point(data):
    across, down = data.draw(st.integers(1, 4)), data.draw(st.integers(1, 4))
    style = data.draw(st.sampled_from(sorted(ON_POINT)))
    asked = dict(ON_POINT[style])
    for name in ("sashing", "frame", "floating"):
        if name in asked:
            asked[name] = data.draw(st.integers(4, 12)) / 8
    check(settings.on_point(across, down, NINE.resized(data.draw(st.integers(24, 96)) / 8), **asked))


@given(
    st.integers(1, 5),
    st.integers(1, 5),
    st.integers(16, 96),
    st.integers(4, 12),
    st.booleans(),
    st.booleans(),
)
@example(2, 2, 16, 4, False, False)  # sashing of two seams, no cornerstone whose place the corner's tips would take
@hypothesis(max_examples=12)
def test_triangles_cut_to_the_ruler_square_up_to_the_same_size(across, down, eighths, sash, whole, stones):
    plan = settings.on_point(
        across, down, eighths / 8 + 0.01, sash / 8, cornerstones=stones, edge="whole" if whole else "half"
    )
    panel = plan.panel(cut="ruler")
    assert panel.size == pytest.approx([side + 0.5 for side in plan.size], abs=EXACT)
    assert panel.depths().min(initial=1) >= 0.25 - EXACT


def test_medallions():
    frame, mitred = settings.border("1 1/2", fabric="rust"), settings.border(2, ends="mitred", fabric="navy")
    for rounds in (
        ["triangles"],
        ["triangles", frame, "triangles"],
        [mitred, "triangles", "triangles", frame],
    ):
        plan = settings.medallion(NINE, rounds)
        panel = plan.panel()
        assert panel.size == pytest.approx([side + 0.5 for side in plan.size], abs=EXACT)
        assert len(panel.patches) == plan.patches
        assert (
            cloth_regions.unlike(
                cloth_regions.of_panel(panel.bind()),
                cloth_regions.of_drawing((fabric, corners) for _, fabric, corners in drawn(plan)),
            )
            < cloth_regions.SLIVER
        )
        assert outside_bias(panel) == 0
