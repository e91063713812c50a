"""Each proof against an independent drawing: Shapely's mitred offset of a shape typed in here, and counts by
hand.

Nothing here uses the kit's own geometry. Shapely: https://shapely.readthedocs.io (constructive operations).
"""

from fractions import Fraction
from itertools import pairwise, product
from math import ceil, cos, hypot, pi, sin, sqrt

import pytest
import sympy
from shapely import affinity
from shapely.geometry import LineString, Point, Polygon, box
from shapely.ops import unary_union

from quiltmath import proofs

AGREE = 1e-9  # inches: floats of Shapely against exact numbers
FAR = 1000


# -- a drawing by Shapely, and a ruler laid on it ------------------------------------------------------------


def cut(corners, seam):
    """The shape with all its sides out by a seam."""
    return Polygon(corners).buffer(seam, join_style="mitre", mitre_limit=FAR)


def sides(shape):
    corners = list(shape.exterior.coords)
    return [hypot(x1 - x0, y1 - y0) for (x0, y0), (x1, y1) in pairwise(corners)]


def wide(shape):
    return shape.bounds[2] - shape.bounds[0]


def high(shape):
    return shape.bounds[3] - shape.bounds[1]


def level(shape, at):
    """How long the shape's lower (at=0) or upper (at=1) side is."""
    y = shape.bounds[1 if at == 0 else 3]
    xs = [x for x, height in shape.exterior.coords if abs(height - y) < AGREE]
    return max(xs) - min(xs)


def without(shape, line, strip):
    """The shape less all cloth within a distance of a line (run on past both its ends)."""
    (x0, y0), (x1, y1) = line
    run_on = LineString([(x0 - 9 * (x1 - x0), y0 - 9 * (y1 - y0)), (x1 + 9 * (x1 - x0), y1 + 9 * (y1 - y0))])
    return shape.difference(run_on.buffer(strip))


def right(across, up):
    return [(0, 0), (across, 0), (0, up)]


def half_of_square(side):
    """A half-square triangle, standing on its long side: side is a leg."""
    return [(0, 0), (side * sqrt(2), 0), (side / sqrt(2), side / sqrt(2))]


def quarter(long_side):
    """A quarter-square triangle, its two legs on the axes: long_side is the slanting side."""
    return right(long_side / sqrt(2), long_side / sqrt(2))


def diamond(side, degrees):
    slant = degrees * pi / 180
    return [(0, 0), (side, 0), (side + side * cos(slant), side * sin(slant)), (side * cos(slant), side * sin(slant))]


def ring(side, count):
    """A regular polygon with this side, flat side down."""
    radius = side / (2 * sin(pi / count))
    turn = -pi / 2 - pi / count
    return [(radius * cos(turn + 2 * pi * i / count), radius * sin(turn + 2 * pi * i / count)) for i in range(count)]


def trapezoid(short, height, left=45, right=45):
    """A trapezoid, its longer side down, its ends at 45 degrees or square."""
    return [
        (-height if left == 45 else 0, 0),
        (short + (height if right == 45 else 0), 0),
        (short, height),
        (0, height),
    ]


# -- the answers of the drawing, by proof --------------------------------------------------------------------


def leg(shape):
    return min(sides(shape))


def long_side(shape):
    return max(sides(shape))


def geese(finished, seam):
    return long_side(cut(quarter(finished), seam)), leg(cut(half_of_square(finished / 2), seam))


def snowball(finished, corner, seam):
    """Lay the square on the block's raw corner: its diagonal must leave a finished corner with the wanted
    leg."""
    square = proofs.snowball.value(finished=finished, corner=corner, seam=seam)
    seen = box(seam, seam, seam + finished, seam + finished).intersection(Polygon(right(square, square)))
    assert leg(seen) == pytest.approx(corner, abs=AGREE)
    return {"corner square": square, "block square": wide(cut(box(0, 0, finished, finished).exterior, seam))}


def hourglass(finished, seam):
    square = long_side(cut(quarter(finished), seam))
    sewn = without(Polygon(right(square, square)), [(square, 0), (0, square)], seam)
    return {"square": square, "half-square unit": leg(sewn)}


def sewn_all_round(square, seam):
    """Cut on both diagonals, the stitched edge taken off; then sewn in on its two raw legs."""
    raw = Polygon([(0, 0), (square, 0), (square / 2, square / 2)])
    unit = without(raw, [(0, 0), (square, 0)], seam)
    seen = without(without(unit, [(0, 0), (square, square)], seam), [(square, 0), (0, square)], seam)
    return {"unfinished": leg(unit), "finished": leg(seen), "factor": leg(unit) / square}


def four(finished, seam):
    square = long_side(cut(quarter(finished * sqrt(2)), seam))
    assert sewn_all_round(square, seam)["finished"] == pytest.approx(finished, abs=AGREE)
    return {"square": square, "factor": sewn_all_round(square, seam)["factor"]}


def star(finished, seam):
    one = Polygon(diamond(finished, 45))
    points = unary_union([affinity.rotate(one, 45 * turn, origin=(0, 0)) for turn in range(8)])
    block = points.minimum_rotated_rectangle
    shape = cut(diamond(finished, 45), seam)
    return {
        "strip": high(shape),
        "cut apart": shape.area / sides(shape)[0],
        "along the strip": sides(shape)[0],
        "finished strip": high(one),
        "star": sides(block)[0],
    }


def diamond_60(finished, seam):
    shape = cut(diamond(finished, 60), seam)
    return {"strip": high(shape), "cut apart": shape.area / sides(shape)[0], "along the strip": sides(shape)[0]}


def hexagon(finished, seam):
    shape, seen = cut(ring(finished, 6), seam), Polygon(ring(finished, 6))
    return {
        "strip": high(shape),
        "side": leg(shape),
        "corners": wide(shape),
        "finished flats": high(seen),
        "finished corners": wide(seen),
    }


def half_hexagon(finished, seam):
    rise = finished * sin(pi / 3)
    shape = cut([(0, 0), (2 * finished, 0), (1.5 * finished, rise), (finished / 2, rise)], seam)
    return {"strip": high(shape), "long side": level(shape, 0), "short side": level(shape, 1)}


def kite(width, point, blunt, seam):
    shape = cut([(0, -point), (width / 2, 0), (0, blunt), (-width / 2, 0)], seam)
    return {"cut length": high(shape), "cut width": wide(shape)}


def strip_set(finished, strips, seam):
    one, row = cut(box(0, 0, finished, 9).exterior, seam), cut(box(0, 0, finished * strips, 9).exterior, seam)
    return {"strip": wide(one), "sub-cut": wide(one), "set": wide(row)}


def frame(inner, width, seam, left):
    shape = cut(trapezoid(inner, width, left=left), seam)
    return {"strip": level(shape, 0), "strip width": high(shape)}


def half_block(block, seam):
    seen = without(Polygon(right(block, block)), [(block, 0), (0, block)], seam)
    return {"leg lost": block - leg(seen), "finished leg": leg(seen), "long edge": long_side(seen), "seam to add": seam}


def half_block_past(block, seam):
    past = seam * sqrt(2)
    kept = without(Polygon(right(block + past, block + past)), [(block + past, 0), (0, block + past)], seam)
    other = without(Polygon(right(block - past, block - past)), [(block - past, 0), (0, block - past)], seam)
    return {"kept leg": leg(kept), "other leg": leg(other), "other leg lost": block - leg(other)}


def bias_strip(width):
    slanting = LineString([(-FAR, -FAR), (FAR, FAR)]).buffer(width / 2, cap_style="flat")
    return {"along the selvage": slanting.intersection(LineString([(-FAR / 2, 0), (FAR / 2, 0)])).length}


def diagonal_join(strip, width, strips):
    """Fold the second strip open about the seam, a diagonal of the square the ends share; so on with each
    strip."""
    first, second = box(0, 0, strip, width), box(strip - width, 0, strip, strip)
    corner = (strip - width, 0)
    folded = affinity.rotate(affinity.scale(second, yfact=-1, origin=corner), 90, origin=corner)
    gained = unary_union([first, folded]).bounds[2] - strip
    return {"lost in a join": strip - gained, "length": strip + (strips - 1) * gained}


def continuous_bias(square, width, seam):
    """The two halves sewn side by side, the tube's two seam lines drawn: the cloth between them, in
    strips."""
    first = Polygon([(0, 0), (square, 0), (square, square)]).intersection(box(0, 0, square - seam, square))
    second = affinity.translate(Polygon([(0, 0), (square, square), (0, square)]), square - 2 * seam)
    sewn = first.union(second.intersection(box(square - seam, 0, FAR, square)))
    tube = sewn.intersection(box(-FAR, seam, FAR, square - seam))
    between = Point(0, 0).distance(LineString([(square - 2 * seam - FAR, -FAR), (square - 2 * seam + FAR, FAR)]))
    line = LineString([(0, 0), (square, square)]).intersection(box(-FAR, seam, FAR, square - seam))
    return {
        "length": tube.area / width,
        "between the bias edges": between,
        "along each line": line.length,
        "by area": square**2 / width,
    }


def continuous_bias_square(length, width, seam):
    square = sqrt(length * width) + 2 * seam
    assert continuous_bias(square, width, seam)["length"] == pytest.approx(length, abs=1e-6)
    return {"square": square}


def binding(width, height, strip, usable_width, extra):
    length = box(0, 0, width, height).length + extra
    strips, joined = 0, 0.0
    while joined < length - AGREE:
        strips, joined = strips + 1, joined + usable_width - strip
    return {
        "perimeter": length - extra,
        "length": length,
        "strips": strips,
        "fabric": strips * strip,
        "strips, not rounded": length / (usable_width - strip),
        "area": length * strip,
        "bias square": sqrt(length * strip),
        "least extra": strip,
    }


def cells(across, down):
    """Centres of the blocks on point, in half steps: those of the rows and columns, and those in the gaps."""
    return [(2 * i + 1, 2 * j + 1) for i, j in product(range(across), range(down))] + [
        (2 * i, 2 * j) for i, j in product(range(1, across), range(1, down))
    ]


def on_point(across, down, block):
    half = block / sqrt(2)
    blocks = [
        Polygon(
            [
                (x * half, (y - 1) * half),
                ((x + 1) * half, y * half),
                (x * half, (y + 1) * half),
                ((x - 1) * half, y * half),
            ]
        )
        for x, y in cells(across, down)
    ]
    top = unary_union(blocks)
    gaps = [gap.area for gap in box(*top.bounds).difference(top.buffer(1e-9)).geoms if gap.area > 1e-6]
    halves = sum(abs(area - block**2 / 2) < 1e-3 for area in gaps)
    quarters = sum(abs(area - block**2 / 4) < 1e-3 for area in gaps)
    assert halves + quarters == len(gaps)
    return {
        "width": wide(top),
        "height": high(top),
        "blocks": len(blocks),
        "side triangles": halves,
        "corner triangles": quarters,
        "squares for sides": ceil(halves / 4),
        "squares for corners": quarters / 2,
    }


def sashed_on_point(across, down, block, sash, seam):
    pitch, half = block + sash, (block + sash) / sqrt(2)
    around = [(1, 0), (0, 1), (-1, 0), (0, -1)]
    stones = {(x + dx, y + dy) for x, y in cells(across, down) for dx, dy in around}
    sashes = {
        frozenset([(x + dx, y + dy), (x + ex, y + ey)])
        for x, y in cells(across, down)
        for (dx, dy), (ex, ey) in zip(around, around[1:] + around[:1])
    }
    on_edge = [(x, y) for x, y in stones if x in (0, 2 * across) or y in (0, 2 * down)]
    xs, ys = [x * half for x, _ in stones], [y * half for _, y in stones]
    whole = unary_union(
        [
            affinity.translate(affinity.rotate(box(-sash / 2, -sash / 2, sash / 2, sash / 2), 45), x * half, y * half)
            for x, y in stones
        ]
    )
    plain = on_point(across, down, block)
    side, corner = setting_triangles(block, sash)
    return {
        "pitch": pitch,
        "width": max(xs) - min(xs),
        "height": max(ys) - min(ys),
        "width with whole cornerstones": wide(whole),
        "height with whole cornerstones": high(whole),
        "sashes": len(sashes),
        "cornerstones": len(stones),
        "cornerstones on the edge": len(on_edge),
        "cornerstones inside": len(stones) - len(on_edge),
        "side triangle's leg": side,
        "corner triangle's long side": corner,
        "side square": long_side(cut(quarter(block * sqrt(2)), seam)),
        "corner square": leg(cut(half_of_square(block / sqrt(2)), seam)),
        "side square with whole cornerstones": long_side(cut(quarter(side * sqrt(2)), seam)),
        "corner square with whole cornerstones": leg(cut(half_of_square(corner / sqrt(2)), seam)),
        **{
            name: plain[name]
            for name in ("blocks", "side triangles", "corner triangles", "squares for sides", "squares for corners")
        },
    }


def setting_triangles(block, sash):
    """What is left between the sashing and an edge along the outer points of whole cornerstones: (leg, long
    side)."""
    half, reach = (block + sash) / sqrt(2), sash / sqrt(2)

    def strip(x0, y0, x1, y1):
        middle = LineString([(x0 * half, y0 * half), (x1 * half, y1 * half)])
        return middle.buffer(sash / 2, cap_style="square")

    lattice = unary_union(
        [strip(1, 0, 0, 1), strip(1, 0, 2, 1), strip(2, 1, 3, 0), strip(0, 1, 1, 2), strip(1, 2, 2, 1)]
    )
    quilt = box(-reach, -reach, 3 * half, 3 * half)
    gaps = quilt.difference(lattice).geoms
    corner = next(gap for gap in gaps if gap.contains(Point(0.1 * half, 0.1 * half)))
    side = next(gap for gap in gaps if gap.contains(Point(2 * half, 0.1 * half)))
    return sides_of_triangle(side)[0], sides_of_triangle(corner)[-1]


def sides_of_triangle(shape):
    return sorted(sides(shape.simplify(1e-9)))


ORACLE = {
    "half_square": lambda finished, seam: {"square": leg(cut(half_of_square(finished), seam)), "pieces": 2},
    "quarter_square": lambda finished, seam: {"square": long_side(cut(quarter(finished), seam)), "pieces": 4},
    "side_triangle": lambda block, seam: {"square": long_side(cut(right(block, block), seam)), "pieces": 4},
    "corner_triangle": lambda block, seam: {
        "square": leg(cut(right(block / sqrt(2), block / sqrt(2)), seam)),
        "pieces": 2,
    },
    "half_rectangle": lambda across, up, seam: {
        "cut across": wide(cut(right(across, up), seam)),
        "cut up": high(cut(right(across, up), seam)),
    },
    "equilateral": lambda finished, seam: {
        "strip": high(cut(ring(finished * 2 / sqrt(3), 3), seam)),
        "side": leg(cut(ring(finished * 2 / sqrt(3), 3), seam)),
    },
    "patch": lambda width, height, seam: {
        "cut width": wide(cut(box(0, 0, width, height).exterior, seam)),
        "cut height": high(cut(box(0, 0, width, height).exterior, seam)),
    },
    "grid": lambda block, across, seam: {
        "square": wide(cut(box(0, 0, block / across, 1).exterior, seam)),
        "finished": block / across,
    },
    "flying_geese": lambda finished, seam: dict(zip(["goose square", "sky square"], geese(finished, seam))),
    "geese_one_at_a_time": lambda finished, seam: {
        "rectangle across": wide(cut(box(0, 0, finished, finished / 2).exterior, seam)),
        "rectangle up": high(cut(box(0, 0, finished, finished / 2).exterior, seam)),
        "square": snowball(finished, finished / 2, seam)["corner square"],
    },
    "geese_four_at_a_time": lambda finished, seam: dict(zip(["large square", "small square"], geese(finished, seam))),
    "square_in_square": lambda finished, seam: {
        "centre": leg(
            cut([(finished / 2, 0), (finished, finished / 2), (finished / 2, finished), (0, finished / 2)], seam)
        ),
        "corner square": leg(cut(right(finished / 2, finished / 2), seam)),
        "finished centre": hypot(finished / 2, finished / 2),
    },
    "triangle_in_square": lambda width, height, seam: {
        "triangle across": level(cut([(0, 0), (width, 0), (width / 2, height)], seam), 0),
        "triangle up": high(cut([(0, 0), (width, 0), (width / 2, height)], seam)),
        "strip": height + 2 * seam,
        "rectangle across": wide(cut(right(width / 2, height), seam)),
        "rectangle up": high(cut(right(width / 2, height), seam)),
    },
    "snowball": snowball,
    "hourglass": hourglass,
    "half_squares_two": lambda finished, seam: {"square": leg(cut(half_of_square(finished), seam))},
    "half_squares_four": four,
    "four_from_a_square": sewn_all_round,
    "half_squares_eight": lambda finished, seam: {
        "small square": leg(cut(half_of_square(finished), seam)),
        "square": 2 * leg(cut(half_of_square(finished), seam)),
    },
    "diamond_45": star,
    "diamond_60": diamond_60,
    "trapezoid": lambda short, height, seam: {
        "strip": high(cut(trapezoid(short, height), seam)),
        "long side": level(cut(trapezoid(short, height), seam), 0),
        "short side": level(cut(trapezoid(short, height), seam), 1),
    },
    "hexagon": hexagon,
    "half_hexagon": half_hexagon,
    "kite": kite,
    "strip_set": strip_set,
    "frame_end": lambda leg, width, seam: frame(leg, width, seam, left=90),
    "frame_both_ends": lambda leg, width, seam: frame(leg, width, seam, left=45),
    "mitred_strip": lambda side, width, seam: frame(side, width, seam, left=45),
    "half_block_loss": half_block,
    "half_block_past": half_block_past,
    "bias_strip": bias_strip,
    "bias_length": lambda across: {
        "strip": LineString([(0, 0), (FAR, FAR)]).intersection(box(0, -FAR, across, FAR)).length
    },
    "diagonal_join": diagonal_join,
    "continuous_bias": continuous_bias,
    "continuous_bias_square": continuous_bias_square,
    "binding": binding,
    "diagonal": lambda finished: {"diagonal": wide(affinity.rotate(box(0, 0, finished, finished), 45))},
    "on_point": on_point,
    "sashed_on_point": sashed_on_point,
}
VALUES = {  # three values each; sizes not listed take the default
    "width": {
        "kite": [3, 2, 5.5],
        "frame_end": [1, 2.5, 0.75],
        "frame_both_ends": [1, 2.5, 0.75],
        "mitred_strip": [5, 3.5, 1.25],
        "bias_strip": [2, 2.5, 1.5],
        "diagonal_join": [3, 5, 1.5],
        "continuous_bias": [2, 2.5, 1.5],
        "continuous_bias_square": [2, 2.5, 1.5],
        "binding": [50, 63.5, 46],
        "patch": [4, 2.5, 1],
    },
    "height": {"trapezoid": [1, 2.5, 3], "binding": [60, 42.75, 46], "patch": [4, 5, 7.5]},
    "length": {"continuous_bias_square": [110, 220, 340]},
    "square": {"continuous_bias": [12, 18, 36.5]},
    "corner": {"snowball": [1, 2, 2.25]},
    "strip": {"binding": [2, 2.5, 2.25], "diagonal_join": [10, 7, 20]},
    "usable_width": {"binding": [40, 42, 44]},
    "extra": {"binding": [0, 10, 20]},
    "sash": {"sashed_on_point": [2, 1, 1.5]},
    "across": {"on_point": [1, 3, 5], "sashed_on_point": [1, 3, 2], "grid": [3, 4, 5]},
    "down": {"on_point": [1, 4, 6], "sashed_on_point": [2, 2, 4]},
    "strips": {"strip_set": [3, 2, 10], "diagonal_join": [2, 3, 9]},
}
DEFAULT = [3, 4.5, 12]
SEAMS = [Fraction(1, 4), Fraction(3, 8), Fraction(1, 16)]


def asked(proof, which):
    """The quantities of one of three questions to a proof, exact."""
    values = {}
    for q in proof.quantities:
        if q.given:
            value = Fraction(VALUES.get(q.name, {}).get(proof.name, DEFAULT)[which])
            values[q.name] = int(value) if q.kind == "count" else value
    return {**values, "seam": SEAMS[which]} if "seam" in proof.symbols else values


def test_every_proof_has_its_drawing():
    assert set(ORACLE) == {proof.name for proof in proofs.every()}


@pytest.mark.parametrize("which", [0, 1, 2])
@pytest.mark.parametrize("proof", proofs.every(), ids=lambda proof: proof.name)
def test_a_proof_gives_what_the_drawing_gives(proof, which):
    values = asked(proof, which)
    drawn = ORACLE[proof.name](
        **{name: value if isinstance(value, int) else float(value) for name, value in values.items()}
    )
    assert set(drawn) == set(proof.measures)
    for measure, size in drawn.items():
        assert float(proof.exact(measure, **values)) == pytest.approx(size, abs=AGREE), measure
        assert proof.value(measure, **values) == pytest.approx(size, abs=AGREE), measure


# -- exactly, by sympy.geometry ------------------------------------------------------------------------------


def offset_triangle(corners, seam):
    """A triangle's corners after each side moved out by a seam: parallels through points a seam outside,
    crossed."""
    triangle = sympy.Triangle(*corners)
    centre, radius = triangle.incenter, triangle.inradius  # SymPy works them out afresh each time they are asked for
    moved = []
    for side in triangle.sides:
        middle, foot = side.midpoint, sympy.Line(side).projection(centre)
        outward = (foot - centre) / radius
        moved.append(sympy.Line(side).parallel_line(middle + outward * seam))
    return [moved[i - 1].intersection(moved[i])[0] for i in range(3)]


@pytest.mark.parametrize(
    ("size", "seam"), [(3, sympy.Rational(1, 4)), (7, sympy.Rational(3, 16)), (12, sympy.Rational(3, 4))]
)
def test_the_four_triangles_exactly(size, seam):
    """sympy.geometry: exact lines and intersections; the results are equal as numbers, not nearly so."""
    half, long = sympy.Rational(size, 2), size * sympy.sqrt(2)
    legs, slanting = sympy.Rational(size) / sympy.sqrt(2), {"seam": seam}
    for corners, ends, proof, quantity in (
        ([(0, 0), (size, 0), (0, size)], (0, 1), proofs.half_square, "finished"),
        ([(0, 0), (size, 0), (half, half)], (0, 1), proofs.quarter_square, "finished"),
        ([(0, 0), (long, 0), (long / 2, long / 2)], (0, 1), proofs.side_triangle, "block"),
        ([(0, 0), (legs, 0), (0, legs)], (0, 1), proofs.corner_triangle, "block"),
    ):
        cut_corners = offset_triangle(corners, seam)
        drawn = cut_corners[ends[0]].distance(cut_corners[ends[1]])
        assert sympy.simplify(drawn - proof.exact(**{quantity: size}, **slanting)) == 0, proof
