"""An independent model of sewn cloth for the tests: Shapely polygons, and raw edges found by brute force.

It follows the same steps as `quiltmath.sewing` and shares no code with it: patches are cut with Shapely, an
edge is raw where no other patch lies across it, and seams meet where three patches touch."""

import itertools
from math import atan2, cos, degrees, hypot, radians, sin

import shapely
from shapely.affinity import affine_transform
from shapely.geometry import Polygon
from shapely.geometry.polygon import orient

WAYS = {
    "left": 180,
    "right": 0,
    "top": 90,
    "bottom": 270,
    "upper left": 135,
    "upper right": 45,
    "lower left": 225,
    "lower right": 315,
}
CLOSE = 1e-6
FAR = 1000.0


class Refused(Exception):
    """The model cannot follow the step either."""


def dot(a, b):
    return a[0] * b[0] + a[1] * b[1]


def inside(polygons, normal, limit):
    """Each polygon's part with normal . p <= limit, and which of them have any."""
    n, t = normal, (-normal[1], normal[0])
    origin = (n[0] * limit, n[1] * limit)
    a = (origin[0] + FAR * t[0], origin[1] + FAR * t[1])
    b = (origin[0] - FAR * t[0], origin[1] - FAR * t[1])
    half = Polygon([a, (a[0] - FAR * n[0], a[1] - FAR * n[1]), (b[0] - FAR * n[0], b[1] - FAR * n[1]), b])
    parts = []
    for polygon in polygons:
        past = [dot(p, normal) - limit for p in polygon.exterior.coords]
        if min(past) >= -CLOSE:
            continue
        parts.append(polygon if max(past) <= CLOSE else without_doubles(orient(polygon.intersection(half))))
    return parts


def without_doubles(polygon):
    """The polygon without corners that lie on the one before: cuts through a corner leave such."""
    corners = list(polygon.exterior.coords)[:-1]
    return Polygon(
        [c for before, c in zip([corners[-1], *corners], corners) if hypot(c[0] - before[0], c[1] - before[1]) > CLOSE]
    )


class Cloth:
    """Polygons that lie side by side; `lost` is what seams and cuts have taken, as (point, by how much)."""

    def __init__(self, pieces, lost=()):
        self.pieces = [orient(piece) for piece in pieces]
        self.lost = list(lost)

    # -- what can be read off

    def union(self):
        """The cloth as one Shapely shape; first each corner is put into every side it touches, so that
        nothing gapes."""
        corners = shapely.MultiPoint(self.corners())
        return shapely.union_all([shapely.snap(piece, corners, CLOSE) for piece in self.pieces])

    def box(self):
        return shapely.total_bounds(self.pieces)

    def sides(self):
        """Every side of every piece: (piece number, start, end)."""
        return [
            (number, a, b)
            for number, piece in enumerate(self.pieces)
            for a, b in zip(piece.exterior.coords, piece.exterior.coords[1:])
            if hypot(b[0] - a[0], b[1] - a[1]) > CLOSE
        ]

    def raw(self):
        """The stretches of sides with no other piece across them: (start, end), cloth on the left."""
        sides, found = self.sides(), []
        for number, a, b in sides:
            long = hypot(b[0] - a[0], b[1] - a[1])
            way = ((b[0] - a[0]) / long, (b[1] - a[1]) / long)
            free = [(0.0, long)]
            for other, c, d in sides:
                if other == number or any(abs((p[0] - a[0]) * way[1] - (p[1] - a[1]) * way[0]) > CLOSE for p in (c, d)):
                    continue
                low, high = sorted((p[0] - a[0]) * way[0] + (p[1] - a[1]) * way[1] for p in (c, d))
                free = [
                    piece
                    for f, t in free
                    for piece in ((f, min(t, low)), (max(f, high), t))
                    if piece[1] - piece[0] > CLOSE
                ]
            found += [((a[0] + f * way[0], a[1] + f * way[1]), (a[0] + t * way[0], a[1] + t * way[1])) for f, t in free]
        return found

    def corners(self):
        """Every corner once."""
        corners = []
        for piece in self.pieces:
            for corner in piece.exterior.coords[:-1]:
                if all(hypot(corner[0] - c[0], corner[1] - c[1]) > CLOSE for c in corners):
                    corners.append(corner)
        return corners

    def junctions(self):
        """The points where three or more pieces touch."""
        return [c for c in self.corners() if (shapely.distance(self.pieces, shapely.Point(c)) <= CLOSE).sum() >= 3]

    # -- steps

    def placed(self, c=1.0, s=0.0, dx=0.0, dy=0.0):
        lost = [((c * x - s * y + dx, s * x + c * y + dy), by) for (x, y), by in self.lost]
        return Cloth([affine_transform(piece, (c, -s, s, c, dx, dy)) for piece in self.pieces], lost)

    def laid_down(self):
        left, bottom, _, _ = self.box()
        return self.placed(dx=-left, dy=-bottom)

    def turn(self, angle):
        return self.placed(cos(radians(angle)), sin(radians(angle))).laid_down()

    def cut(self, start, end, seam):
        long = hypot(end[0] - start[0], end[1] - start[1])
        normal = ((end[1] - start[1]) / long, (start[0] - end[0]) / long)
        limit = dot(normal, start)
        left = self.cut_off(normal, limit, seam)
        right = self.cut_off((-normal[0], -normal[1]), -limit, seam)
        if left is None or right is None:
            raise Refused("misses")
        return left, right

    def trim(self, side, at, seam):
        normal = {"left": (-1, 0), "right": (1, 0), "bottom": (0, -1), "top": (0, 1)}[side]
        trimmed = self.cut_off(normal, at * (normal[0] + normal[1]), seam)
        if trimmed is None:
            raise Refused("nothing left")
        return trimmed

    def cut_off(self, normal, limit, seam):
        """What is left inside a line, raw along it; None where nothing is."""
        pieces = inside(self.pieces, normal, limit)
        if not pieces:
            return None
        still, lost = Cloth(pieces).junctions(), []
        for point in self.junctions():
            past = max(0.0, dot(point, normal) - limit)
            gone = all(hypot(point[0] - other[0], point[1] - other[1]) > CLOSE for other in still)
            if gone and past <= seam + CLOSE:
                lost.append((foot(point, normal, past), seam + past))
        for point, by in self.lost:
            past = dot(point, normal) - limit
            if past <= CLOSE:
                lost.append((point, by))
            elif past <= seam + CLOSE and by + past <= 2 * seam + CLOSE:
                lost.append((foot(point, normal, past), by + past))
        return Cloth(pieces, lost)

    def lines(self):
        """The lines raw edges lie on: [angle, normal, limit, length held]."""
        found = []
        for a, b in sorted(self.raw(), key=lambda side: -hypot(side[1][0] - side[0][0], side[1][1] - side[0][1])):
            long = hypot(b[0] - a[0], b[1] - a[1])
            normal = ((b[1] - a[1]) / long, (a[0] - b[0]) / long)
            angle = degrees(atan2(normal[1], normal[0])) % 360
            for line in found:
                if apart(angle, line[0]) < 1e-4 and abs(dot(a, line[1]) - line[2]) < CLOSE:
                    line[3] += long
                    break
            else:
                found.append([angle, normal, dot(a, normal), long])
        return found

    def line_meant(self, which, seam):
        """(normal, limit) of the edge that is meant."""
        lines = self.lines()
        if which == "long":
            most = max(line[3] for line in lines)
            lines = [line for line in lines if line[3] > most - CLOSE]
        else:
            off = [apart(line[0], WAYS.get(which, which)) for line in lines]
            if min(off) > 30.0001:
                raise Refused("no such edge")
            lines = [line for line, o in zip(lines, off) if o < min(off) + 1e-4]
        if any(apart(line[0], lines[0][0]) > 1e-4 for line in lines):
            raise Refused("two edges alike")
        out = [
            max(dot(p, n) for piece in self.pieces for p in piece.exterior.coords) - limit for _, n, limit, _ in lines
        ]
        lines = [line for line, o in zip(lines, out) if o <= 2 * seam + CLOSE]
        if not lines:
            raise Refused("set in")
        most = max(line[3] for line in lines)
        _, normal, limit, _ = max((line for line in lines if line[3] > most - CLOSE), key=lambda line: line[2])
        return normal, limit

    def folded(self, normal, limit):
        pieces = inside(self.pieces, normal, limit)
        if not pieces:
            raise Refused("too narrow")
        taken = [(point, dot(point, normal) - limit) for point in self.junctions()]
        lost = [(foot(point, normal, past), past) for point, past in taken if past > CLOSE]
        for point, by in self.lost:
            lost.append((foot(point, normal, max(0.0, dot(point, normal) - limit)), by))
        return Cloth(pieces, lost)

    def on_line(self, normal, limit, way):
        """From where to where the cloth lies along a line, the places of its seams there, and the raw edges
        that end there."""
        spans = []
        for piece in self.pieces:
            places = [dot(p, way) for p in piece.exterior.coords if abs(dot(p, normal) - limit) <= CLOSE]
            if places and max(places) - min(places) > CLOSE:
                spans.append((min(places), max(places)))
        spans.sort()
        if not spans or any(b[0] - a[1] > CLOSE for a, b in itertools.pairwise(spans)):
            raise Refused("gap")
        return spans[0][0], spans[-1][1], [span[0] for span in spans[1:]]

    def finished_corner(self, normal, limit, way, place, inward, seam):
        """Where a raw edge that ends at this place of the seam line, moved in by its seam, crosses the seam
        line."""
        corners = []
        for a, b in self.raw():
            ends = [abs(dot(p, normal) - limit) <= CLOSE for p in (a, b)]
            here = [on and abs(dot(p, way) - place) <= CLOSE for p, on in zip((a, b), ends)]
            if any(here) and not all(ends):
                long = hypot(b[0] - a[0], b[1] - a[1])
                n = ((b[1] - a[1]) / long, (a[0] - b[0]) / long)
                corners.append((dot(a, n) - seam - limit * dot(n, normal)) / dot(n, way))
        return min(corners, key=lambda corner: abs(corner - place)) if corners else place

    def sew(self, other, mine, theirs, seam, align):
        normal, limit = self.line_meant(mine, seam)
        their_normal, their_limit = other.line_meant(theirs, seam)
        back = (-normal[0], -normal[1])
        c = dot(their_normal, back)
        s = their_normal[0] * back[1] - their_normal[1] * back[0]
        way = (-normal[1], normal[0])
        if way[1] < -CLOSE or abs(way[1]) <= CLOSE and way[0] < 0:
            way = (normal[1], -normal[0])
        other = other.placed(c, s)
        places = []
        ours, yours = self.folded(normal, limit - seam), other.folded(back, their_limit - seam)
        for cloth, n, line in ((ours, normal, limit - seam), (yours, back, their_limit - seam)):
            low, high, breaks = cloth.on_line(n, line, way)
            places.append(
                (
                    low,
                    high,
                    cloth.finished_corner(n, line, way, low, 1, seam),
                    cloth.finished_corner(n, line, way, high, -1, seam),
                    breaks,
                )
            )
        (low, high, start, end, breaks), (low2, high2, start2, end2, breaks2) = places
        if align == "start":
            slide = start - start2
        elif align == "end":
            slide = end - end2
        elif align == "centre":
            slide = (start + end - start2 - end2) / 2
        else:
            if len(breaks) <= align[0] or len(breaks2) <= align[1]:
                raise Refused("no such seam")
            slide = breaks[align[0]] - breaks2[align[1]]
        if min(high, high2 + slide) - max(low, low2 + slide) <= CLOSE:
            raise Refused("apart")
        across = limit - seam + their_limit - seam
        yours = yours.placed(dx=slide * way[0] + across * normal[0], dy=slide * way[1] + across * normal[1])
        return Cloth(ours.pieces + yours.pieces, lost_once(ours.lost, yours.lost, normal, limit - seam)).laid_down()


def lost_once(ours, yours, normal, limit):
    """Both lists as one; of two meetings lost at one place of the line only the deeper stays."""
    yours = sorted(yours, key=lambda note: -note[1])
    found = []
    for point, by in sorted(ours, key=lambda note: -note[1]):
        if abs(dot(point, normal) - limit) <= CLOSE:
            for number, (other, deep) in enumerate(yours):
                if hypot(point[0] - other[0], point[1] - other[1]) <= CLOSE:
                    by = max(by, deep)
                    del yours[number]
                    break
        found.append((point, by))
    return found + yours


def foot(point, normal, past):
    """The point moved back by so much."""
    return point[0] - past * normal[0], point[1] - past * normal[1]


def apart(one, two):
    """The angle between two ways in degrees, 0 to 180."""
    return abs((one - two + 180) % 360 - 180)
