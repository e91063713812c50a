"""Hypothesis strategies shared by the tests."""

from fractions import Fraction
from math import atan2, cos, degrees, radians, sin, sqrt

from hypothesis import note
from hypothesis import strategies as st

from quiltmath import blocks, lengths, settings, sewing


def eighths(least=1, most=64):
    """Lengths in inches on the ruler's eighths, as floats; the limits are counted in eighths."""
    return st.integers(least, most).map(lambda count: count / 8)


SIDE_TRIANGLE = (1 + sqrt(2)) / 2  # what a quarter-square triangle's long edge takes for quarter-inch seams
CORNER_TRIANGLE = (2 + sqrt(2)) / 4  # what a half-square triangle's legs take


# -- shapes


def rectangles(least=8, most=48):
    """Corners of rectangles, sides in eighths of an inch between the limits."""
    return st.tuples(eighths(least, most), eighths(least, most)).map(
        lambda size: [(0.0, 0.0), (size[0], 0.0), size, (0.0, size[1])]
    )


def right_triangles(least=16, most=48):
    """Corners of right triangles with legs in eighths of an inch."""
    return st.tuples(eighths(least, most), eighths(least, most)).map(
        lambda legs: [(0.0, 0.0), (legs[0], 0.0), (0.0, legs[1])]
    )


def finished_triangles():
    """Corners of the two triangles of the trade, cut exactly for a finished leg: (corners, grain in
    degrees)."""
    legs = st.sampled_from([2.0, 3.0, 4.5])
    half = legs.map(lambda leg: ([(0.0, 0.0), (leg + CORNER_TRIANGLE, 0.0), (0.0, leg + CORNER_TRIANGLE)], 90.0))
    quarter = legs.map(lambda leg: (leg * sqrt(2) + SIDE_TRIANGLE) / sqrt(2)).map(
        lambda leg: ([(0.0, 0.0), (leg, 0.0), (0.0, leg)], 45.0)
    )
    return half | quarter


@st.composite
def convex_shapes(draw, least=3, most=8):
    """Corners of convex polygons of one to some twenty inches, anticlockwise, no side short and no corner
    flat."""
    count = draw(st.integers(least, most))
    gaps = draw(st.lists(st.integers(5, 20), min_size=count, max_size=count))
    turn = draw(st.integers(0, 359))
    across, up = draw(eighths(16, 80)), draw(eighths(16, 80))
    corners, at = [], 0
    for gap in gaps:
        at += gap
        angle = radians(360 * at / sum(gaps) + turn)
        corners.append((across * cos(angle), up * sin(angle)))
    return corners


@st.composite
def half_planes(draw):
    """A line as (unit normal, limit), through or near a shape about (0, 0)."""
    angle = radians(draw(st.integers(0, 719)) / 2)
    return (cos(angle), sin(angle)), draw(st.integers(-64, 64)) / 8


# -- sewing

EDGES = ["right", "left", "top", "bottom"]


def patches():
    """Patches of a construction: ("patch", corners, grain)."""
    sides = st.sampled_from([0.75, 1.5, 2.5, 3.5])
    common = st.tuples(sides, sides).map(lambda size: [(0.0, 0.0), (size[0], 0.0), size, (0.0, size[1])])
    plain = (common | common | rectangles() | right_triangles()).map(lambda corners: (corners, 90.0))
    return (plain | plain | finished_triangles()).map(lambda shape: ("patch", *shape))


def step_done(kind, panel, *rest):
    """The panel after one step of a construction; `rest` holds panels where the step holds constructions."""
    if kind == "patch":
        return sewing.patch(corners=panel, grain=rest[0])
    if kind == "sew":
        other, mine, theirs, align = rest
        return panel.sew(other, mine, theirs, align=align)
    if kind == "turn":
        return panel.turn(*rest)
    width, height = panel.size
    if kind == "cut":
        (x, y), (z, w), right_half = rest
        return panel.cut((x * width, y * height), (z * width, w * height))[right_half].laid_down()
    side, off = rest
    return panel.trim(
        **{side: {"left": off, "bottom": off, "right": width - off, "top": height - off}[side]}
    ).laid_down()


@st.composite
def _seams(draw, panel, other):
    """How two panels are sewn: usually along edges they have, now and then by names that may not fit."""
    edges = [[*EDGES, "long"] if draw(st.integers(0, 5)) == 0 else _ways(each) for each in (panel, other)]
    return (
        *(draw(st.sampled_from(names)) for names in edges),
        draw(st.sampled_from(["start"] * 6 + ["end"] * 3 + ["centre"] * 2 + [(0, 0), (1, 0)])),
    )


@st.composite
def _cuts_and_turns(draw):
    kind = draw(st.sampled_from(["cut", "turn", "trim"]))
    if kind == "cut":
        ends = st.sampled_from([(0, 0), (1, 1), (0, 1), (1, 0), (0.5, 0), (0.5, 1), (0.375, 0.25), (0, 0.4)])
        return (kind, *draw(st.lists(ends, min_size=2, max_size=2, unique=True)), draw(st.booleans()))
    if kind == "turn":
        return kind, draw(st.sampled_from([45, 90, 135, 180, 270, 30, 37.25]))
    return kind, draw(st.sampled_from(EDGES)), draw(eighths(1, 6))


def _ways(panel):
    """The ways the edges of a panel face, in whole degrees."""
    return sorted(
        {
            round(degrees(atan2(edge.start[0] - edge.end[0], edge.end[1] - edge.start[1]))) % 360
            for edge in panel.raw_edges()
        }
    )


@st.composite
def constructions(draw, most=9):
    """How a panel comes about, as nested tuples: patches, sewn, cut, turned and trimmed in any order.

    ("patch", corners, grain) · ("sew", first, second, mine, theirs, align) · ("turn", panel, degrees) ·
    ("cut", panel, from, to, the half kept; points as shares of its size) · ("trim", panel, side, inches off).
    Steps the library refuses stay in, and leave their first panel as it was."""
    made, panel = draw(_pieces())
    for _ in range(draw(st.integers(1, most))):
        if draw(st.integers(0, 3)):
            other, kid = draw(_pieces())
            if draw(st.booleans()):
                other, kid = draw(_sewn(other, kid, *draw(_pieces())))
            made, panel = draw(_sewn(made, panel, other, kid))
        else:
            kind, *rest = draw(_cuts_and_turns())
            made, panel = (kind, made, *rest), _or_first(panel, kind, panel, *rest)
    return made


def _pieces():
    """A patch as a construction and as a panel."""
    return patches().map(lambda made: (made, step_done(*made)))


@st.composite
def _sewn(draw, made, panel, other, kid):
    seam = draw(_seams(panel, kid))
    return ("sew", made, other, *seam), _or_first(panel, "sew", panel, kid, *seam)


def _or_first(panel, *step):
    try:
        return step_done(*step)
    except sewing.CannotSew:
        return panel


def rows_of_squares(most=4):
    """Sizes of a straight grid: (widths of its columns, heights of its rows), cut sizes in inches."""
    sizes = st.lists(eighths(8, 32), min_size=1, max_size=most)
    return st.tuples(sizes, sizes)


# -- plans

SQUARES = ("A B | B A", "a b c | d e f | g h i", "A B A | B C B | A B A", "A B C D | B A D C | C D A B | D C B A")
PIECED = ("A/B B | A A\\B", "A B/A | B\\A C", "A:B:C:D B | B A:B:A:B", "A:B:A:B A/B | A\\B C")
INCHES = ("3", "6", "7 1/2", "12", "6 1/3", "5 2/7", "4.37")  # block sizes, on the ruler and off it
CENTIMETRES = ("10", "15.5", "24", "12.34")
ON_EDGE = ("plain", "framed", "built", "built, bias outside", "half blocks")


def _in_unit(unit, least, most):
    """Widths as text in a unit: eighths of an inch between the limits, or millimetres about as wide."""
    if unit == "in":
        return st.integers(least, most).map(lambda count: lengths.text(Fraction(count, 8), mark="in"))
    return st.integers(3 * least + 3, 3 * most + 3).map(lambda count: f"{count} mm")


@st.composite
def _plan_blocks(draw, unit, grids):
    """A block of one of these grids, or for "" its finished size alone."""
    size = draw(st.sampled_from(INCHES if unit == "in" else CENTIMETRES))
    size = f"{size} {'in' if unit == 'in' else 'cm'}"
    grid = draw(st.sampled_from(grids))
    return blocks.read(grid, size=size, name="pieced") if grid else size


@st.composite
def _borders(draw, unit, most):
    """Up to so many borders, each butted or mitred, its sides or its top sewn on first."""
    return [
        settings.border(
            draw(_in_unit(unit, 4, 32)),
            draw(st.sampled_from(["butted", "mitred"])),
            draw(st.sampled_from([None, "A", "rust"])),
            draw(st.sampled_from(["sides", "top"])),
        )
        for _ in range(draw(st.integers(0, most)))
    ]


@st.composite
def plans(draw, units=("in", "cm", "mm"), most=4):
    """Plans of every kind with every option of `settings`, up to `most` blocks across and down."""
    kind = draw(st.sampled_from(["on point", "on point", "straight", "medallion"]))
    unit = draw(st.sampled_from(units))
    if kind == "medallion":
        rounds = []
        for _ in range(draw(st.integers(1, 4))):
            rounds += draw(st.sampled_from([["triangles"], *[None] * 2])) or draw(_borders(unit, 1))
        asked = {"centre": draw(_plan_blocks(unit, ("", *SQUARES, *PIECED))), "rounds": rounds or ["triangles"]}
        note(f"settings.medallion(**{asked}, unit={unit!r})")
        return settings.medallion(**asked, unit=unit)
    edges = draw(st.sampled_from(ON_EDGE)) if kind == "on point" else "plain"
    built = edges.startswith("built")
    asked = {
        "across": draw(st.integers(1, most)),
        "down": draw(st.integers(1, most)),
        "block": draw(_plan_blocks(unit, SQUARES if built else ("", *SQUARES, *PIECED))),
        "borders": draw(_borders(unit, 2)),
        "fabrics": draw(st.sampled_from([{}, {"sashing": "A", "cornerstone": "B", "setting": "A", "frame": "B"}])),
        "alternate": draw(st.sampled_from([None, "plain", "pieced"])),
        "unit": unit,
    }
    if asked["alternate"] == "pieced":
        other = blocks.read(draw(st.sampled_from((*SQUARES, *PIECED))), size=6, name="other")
        block = asked["block"]
        asked["alternate"] = other.resized(block if isinstance(block, str) else block.size)
    if edges == "framed" or not built and draw(st.booleans()):
        asked["frame"] = draw(_in_unit(unit, 4, 16))
    sashed = draw(st.booleans())
    if sashed:
        asked |= {"sashing": draw(_in_unit(unit, 4, 16)), "cornerstones": draw(st.booleans())}
    if kind == "straight":
        if sashed:
            asked["around"] = draw(st.booleans())
        note(f"settings.straight(**{asked})")
        return settings.straight(**asked)
    whole = sashed and edges == "plain" and draw(st.booleans())
    asked |= {"edges": edges, "edge": "whole" if whole else "half"}
    if edges == "plain" and (whole or not sashed) and draw(st.booleans()):
        asked["floating"] = draw(_in_unit(unit, 1, 16))
    note(f"settings.on_point(**{asked})")
    return settings.on_point(**asked)


# -- sheets

WRITTEN = ("3 1/2", "3.5", 3, "6 1/2", "2 7/8", "9.8 cm", "1/4", "42", "1 1/2 yd", "60", "12 x 18", "0", "-1", "big")


def from_schema(schema, defs, names):
    """Plain values that a JSON Schema allows, in lists of a few; names are drawn from `names`, lengths from a few that
    people write, and now and then from those they had better not."""
    if "anyOf" in schema and "examples" in schema:
        rest = {key: value for key, value in schema.items() if key != "examples"}
        return st.sampled_from(schema["examples"]) | from_schema(rest, defs, names)
    if "$ref" in schema:
        return from_schema(defs[schema["$ref"].rpartition("/")[2]], defs, names)
    if "enum" in schema or "const" in schema:
        return st.sampled_from(schema.get("enum") or [schema["const"]])
    if "anyOf" in schema:
        return st.one_of(*(from_schema(one, defs, names) for one in schema["anyOf"] if one.get("type") != "null"))
    if "prefixItems" in schema:
        return st.tuples(*(from_schema(one, defs, names) for one in schema["prefixItems"])).map(list)
    kind = schema.get("type")
    if kind == "object":
        return _tables(schema, defs, names)
    if kind == "array":
        least = schema.get("minItems", 0)
        items = from_schema(schema.get("items", {"type": "string", "maxLength": 9}), defs, names)
        return st.lists(items, min_size=least, max_size=min(schema.get("maxItems", 4), least + 3))
    if kind == "integer":
        low, high = schema.get("minimum", 0), schema.get("maximum", 10**6)
        return st.integers(low, min(high, low + 12)) | st.integers(low, high)
    if kind == "number":
        return st.sampled_from([0, 45, 90, -90, 180]) | st.floats(schema.get("minimum"), schema.get("maximum"))
    if kind == "boolean":
        return st.booleans()
    if kind == "string" and "maxLength" not in schema:
        return st.lists(st.sampled_from(names), min_size=1, max_size=4).map(" ".join)
    return st.sampled_from(names) if kind == "string" else st.sampled_from(WRITTEN)


def _tables(schema, defs, names):
    """Tables with all keys they must have and some of the others, or tables by name."""
    more = schema.get("additionalProperties")
    if isinstance(more, dict):
        return st.dictionaries(st.sampled_from(names), from_schema(more, defs, names), max_size=3)
    each = {key: from_schema(one, defs, names) for key, one in schema.get("properties", {}).items()}
    must = {key: each.pop(key) for key in schema.get("required", ())}
    return st.fixed_dictionaries(must, optional=each)
