"""Finished shapes, their sewn sides moved out by a seam, grain, and cloth cut by a straight line.

`moved_out` is the one principle behind every cut size: it runs on floats for the simulator and on SymPy
symbols and exact numbers for the proofs. Shapes are lists of (x, y) corners, counter-clockwise, in inches.
"""

from collections.abc import Sequence
from fractions import Fraction
from math import atan2, cos, degrees, hypot, radians, sin
from typing import Any

import numpy as np

Corners = list[tuple[Any, Any]]  # floats, Fractions or SymPy numbers and symbols
HALF = Fraction(1, 2)
NEAR = 1e-6  # inches: points closer than this are one; far below a thread, far above float noise
IN_LINE = 1e-9  # as a sine: two sides that turn by less than this lie in one line
ON_GRAIN = 0.5  # degrees: an edge this close to a thread, or to 45 degrees, is called straight, or bias


def square(side: Any) -> Corners:
    """The corners of a square of this finished `side`, from (0, 0).

    >>> square(3)
    [(0, 0), (3, 0), (3, 3), (0, 3)]
    """
    return rectangle(side, side)


def rectangle(width: Any, height: Any) -> Corners:
    """The corners of a rectangle, from (0, 0).

    >>> rectangle(2, 1)
    [(0, 0), (2, 0), (2, 1), (0, 1)]
    """
    return [(0, 0), (width, 0), (width, height), (0, height)]


def right_triangle(across: Any, up: Any) -> Corners:
    """The corners of a right triangle with its right angle at (0, 0).

    >>> right_triangle(3, 3)
    [(0, 0), (3, 0), (0, 3)]
    """
    return [(0, 0), (across, 0), (0, up)]


def moved_out(corners: Sequence, by: Any) -> Corners:
    """The corners after each side has been moved out by its seam: a finished shape becomes a cut shape.

    `corners` run counter-clockwise; `by` is one seam for all sides or one for each side, side i running from
    corner i to corner i + 1 (0 leaves a side where it is, a negative seam moves it in). Exact on `Root2`
    numbers and on SymPy numbers and symbols.

    >>> moved_out(square(3.0), 0.25)
    [(-0.25, -0.25), (3.25, -0.25), (3.25, 3.25), (-0.25, 3.25)]
    >>> moved_out([(0, 0), (0, 0), (1, 1)], 0.25)
    Traceback (most recent call last):
    ValueError: a side needs two different ends; side 1 runs from (0, 0) to (0, 0): \
take one of the corners out

    Refused besides: two neighbouring sides in one line, corners that run clockwise. A seam moved in so far
    that a side is used up turns that side round, which is not refused.
    """
    count = len(corners)
    seams = list(by) if isinstance(by, (list, tuple)) else [by] * count
    if len(seams) != count:
        raise ValueError(f"a shape of {count} sides needs {count} seams, one for each side; got {len(seams)}")
    lines = [_line(corners[i], corners[(i + 1) % count], seams[i], i + 1) for i in range(count)]
    if _negative(area(corners)):
        raise ValueError(
            "corners run counter-clockwise, so that a seam goes outward; these run clockwise: reverse them"
        )
    return [_crossing(corners[i], lines[i - 1], lines[i], i) for i in range(count)]


def _line(start, end, out, number):
    """The side from start to end and how far it moves out: (a, b, out), (a, b) the outward unit normal."""
    (x0, y0), (x1, y1) = start, end
    a, b = y1 - y0, x0 - x1
    square_of_length = a * a + b * b
    if square_of_length == 0:
        raise ValueError(
            f"a side needs two different ends; side {number} runs from {start} to {end}: take one of the corners out"
        )
    length = square_of_length**HALF
    return a / length, b / length, out


def _crossing(corner, one, two, number):
    """Where the corner between two sides goes when they move; without a seam, nowhere at all."""
    a, b, c = one
    d, e, f = two
    turn = a * e - b * d
    if turn == 0 or isinstance(turn, float) and abs(turn) < IN_LINE:
        raise ValueError(
            f"two sides in one line leave corner {number + 1} without a place: join them into one side first"
        )
    return corner[0] + (c * e - b * f) / turn, corner[1] + (a * f - c * d) / turn


def _negative(number):
    """Whether a number is below 0, also a SymPy one; a symbol of which that cannot be told is not."""
    return number.is_negative is True if hasattr(number, "is_negative") else number < 0


def area(corners: Sequence) -> Any:
    """The area inside the corners; negative when they run clockwise.

    >>> area(square(3))
    9
    """
    ends = list(corners[1:]) + [corners[0]]
    twice = sum(x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in zip(corners, ends))
    return twice // 2 if isinstance(twice, int) and twice % 2 == 0 else twice / 2


def off_grain(start: Sequence, end: Sequence, grain: float = 90.0) -> float:
    """How far, in degrees from 0 to 45, the edge from start to end lies off the nearer thread of the cloth.

    `grain` is the direction of the lengthwise thread in degrees; the crosswise thread is square to it.

    >>> round(off_grain((0, 0), (1, 1)), 6)
    45.0
    """
    angle = (degrees(atan2(end[1] - start[1], end[0] - start[0])) - grain) % 90
    return min(angle, 90 - angle)


def grain_of(start: Sequence, end: Sequence, grain: float = 90.0) -> str | float:
    """ "straight" when the edge follows a thread, "bias" when it runs at 45 degrees, else its angle off grain.

    >>> grain_of((0, 0), (0, 5)), grain_of((0, 0), (5, 5)), grain_of((0, 0), (2, 1))
    ('straight', 'bias', 26.57)
    """
    return named_grain(off_grain(start, end, grain))


def named_grain(off: float) -> str | float:
    """What an edge so many degrees (0 to 45) off grain is called: "straight", "bias", or the angle itself.

    >>> named_grain(0.2), named_grain(44.6), named_grain(30)
    ('straight', 'bias', 30)
    """
    if off <= ON_GRAIN:
        return "straight"
    return "bias" if off >= 45 - ON_GRAIN else round(off, 2)


def direction(angle: float) -> tuple[float, float]:
    """The unit vector that points `angle` degrees anticlockwise from the right; exact at the quarter turns.

    >>> direction(90)
    (0.0, 1.0)
    """
    quarters, rest = divmod(angle % 360, 90)
    if rest == 0:
        return [(1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0)][int(quarters) % 4]
    return cos(radians(angle)), sin(radians(angle))


def turned(points: np.ndarray, angle: float) -> np.ndarray:
    """The points (an array whose last axis is x, y) turned anticlockwise by `angle` degrees about (0, 0)."""
    c, s = direction(angle)
    x, y = points[..., 0], points[..., 1]
    return np.stack((x * c - y * s, x * s + y * c), axis=-1)


def line_through(start: Sequence, end: Sequence) -> tuple[tuple[float, float], float]:
    """The line walked from start to end, as (normal, limit): points with normal . p < limit lie on its left.

    >>> line_through((0, 0), (0, 2))
    ((1.0, 0.0), 0.0)
    """
    dx, dy = end[0] - start[0], end[1] - start[1]
    length = hypot(dx, dy)
    if not NEAR < length < float("inf"):
        raise ValueError(f"a line needs two different points; got {start} and {end}")
    normal = (dy / length, -dx / length + 0.0)
    return normal, normal[0] * start[0] + normal[1] * start[1]


def beyond(points: Any, normal: Any, limit: float) -> np.ndarray:
    """How far each point lies past the line (negative: on the side that is kept)."""
    return points[..., 0] * normal[0] + points[..., 1] * normal[1] - limit


def box(points: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """The lower left and upper right corners of the space that points (an array whose last axis is x, y) take up.

    >>> [corner.tolist() for corner in box(np.array([(0.0, 2.0), (3.0, 1.0)]))]
    [[0.0, 1.0], [3.0, 2.0]]
    """
    x, y = points[..., 0], points[..., 1]  # one after the other: far quicker than both along the first axis
    return np.array((x.min(), y.min())), np.array((x.max(), y.max()))


def ranked(values: np.ndarray, within: float = NEAR) -> np.ndarray:
    """The number of each value counted from the smallest; neighbours closer than `within` share a number.

    >>> ranked(np.array([3.0, 1.0, 1.0 + 1e-12])).tolist()
    [1, 0, 0]
    """
    flat = values.ravel()
    order = np.argsort(flat, kind="stable")
    in_order, numbers = flat[order], np.zeros(len(flat), dtype=int)
    numbers[order[1:]] = np.cumsum(in_order[1:] - in_order[:-1] > within)
    return numbers.reshape(values.shape)


def clipped(polygons: np.ndarray, normal: Any, limit: float) -> tuple[np.ndarray, np.ndarray]:
    """Convex polygons cut along a line: what lies on its inner side, and which have any cloth left.

    `polygons` is an n x k x 2 array; a polygon with fewer than k corners repeats its last one. Returns an
    m x k' x 2 array and the m numbers of these polygons in the input.

    >>> kept, which = clipped(np.array([square(2.0)]), (1.0, 0.0), 0.5)
    >>> kept.tolist(), which.tolist()
    ([[[0.0, 0.0], [0.5, 0.0], [0.5, 2.0], [0.0, 2.0]]], [0])
    """
    past = beyond(polygons, normal, limit)
    which = np.flatnonzero(np.ascontiguousarray(past.T).min(axis=0) < -NEAR)
    if len(which) != len(polygons):
        polygons, past = polygons[which], past[which]
    crossed = np.flatnonzero(np.ascontiguousarray(past.T).max(axis=0) > NEAR)
    if len(crossed) == 0:
        return polygons, which
    cut = _cut_across(polygons[crossed], past[crossed])
    polygons = widened(polygons, cut.shape[1]).copy()
    polygons[crossed] = widened(cut, polygons.shape[1])
    return polygons, which


def _cut_across(polygons, past):
    """Each polygon's kept corners and its crossings with the line, in order, the last corner repeated."""
    number, corners = past.shape
    after = np.arange(1, corners + 1) % corners
    steps, past_next = polygons[:, after] - polygons, past[:, after]
    inside, outside = past < -NEAR, past > NEAR
    crosses = (inside & outside[:, after]) | (outside & inside[:, after])
    share = np.divide(past, past - past_next, out=np.zeros_like(past), where=crosses)
    moves = (np.abs(steps[..., 0]) > NEAR) | (np.abs(steps[..., 1]) > NEAR)
    points, wanted = np.empty((number, corners, 2, 2)), np.empty((number, corners, 2), dtype=bool)
    points[:, :, 0], points[:, :, 1] = polygons, polygons + share[..., None] * steps
    wanted[:, :, 0], wanted[:, :, 1] = ~outside & moves[:, after - 2], crosses
    counts = wanted.sum(axis=(1, 2))
    places = np.minimum(np.arange(counts.max()), counts[:, None] - 1)
    return points[wanted][(np.cumsum(counts) - counts)[:, None] + places]


def widened(polygons: np.ndarray, corners: int) -> np.ndarray:
    """The same polygons in an array with room for this many corners each, the last corner repeated."""
    lacking = corners - polygons.shape[1]
    if lacking <= 0:
        return polygons
    return np.concatenate((polygons, np.repeat(polygons[:, -1:], lacking, axis=1)), axis=1)


def shortened(segments: np.ndarray, normal: Any, limit: float) -> tuple[np.ndarray, np.ndarray]:
    """Segments (n x 2 x 2) cut along a line: their parts strictly inside it, and which of them have one.

    >>> kept, which = shortened(np.array([[(0.0, 0.0), (2.0, 0.0)]]), (1.0, 0.0), 0.5)
    >>> kept.tolist(), which.tolist()
    ([[[0.0, 0.0], [0.5, 0.0]]], [0])
    """
    past = beyond(segments, normal, limit)
    which = np.flatnonzero(np.minimum(*past.T) < -NEAR)
    if len(which) != len(segments):
        segments, past = segments[which], past[which]
    if len(which) == 0 or past.max() <= NEAR:
        return segments, which
    segments = segments.copy()
    for end, other in ((0, 1), (1, 0)):
        out = np.flatnonzero(past[:, end] > NEAR)
        if len(out):
            share = (past[out, end] / (past[out, end] - past[out, other]))[:, None]
            segments[out, end] += share * (segments[out, other] - segments[out, end])
    return segments, which


def areas(polygons: np.ndarray) -> np.ndarray:
    """The area of each polygon of an n x k x 2 array, in square inches."""
    x, y = polygons[..., 0], polygons[..., 1]
    return 0.5 * (x * np.roll(y, -1, axis=1) - y * np.roll(x, -1, axis=1)).sum(axis=1)
