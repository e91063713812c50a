"""Where each fabric shows, as Shapely regions: of sewn cloth, and of a finished drawing."""

from collections import defaultdict

from shapely import unary_union
from shapely.geometry import Polygon

SLIVER = 1e-6  # square inches: what float noise may leave between equal regions
GRID = 1e-9  # inches: points this near are one, or a union may lose a patch to float noise


def of_panel(panel):
    """The fabrics of a bound panel as {fabric: region}; it is laid with its lower left corner at (0, 0)."""
    return _regions((patch.fabric, patch.polygon) for patch in panel.patches)


def of_drawing(polygons):
    """The fabrics of (fabric, corners) pairs as {fabric: region}."""
    return _regions(polygons)


def unlike(one, other):
    """Square inches where two sets of regions show different fabrics."""
    return max(
        (one.get(name, Polygon()).symmetric_difference(other.get(name, Polygon())).area for name in {*one, *other}),
        default=0.0,
    )


def _regions(pairs):
    found = defaultdict(list)
    for fabric, corners in pairs:
        found[fabric].append(Polygon(corners))
    return {fabric: unary_union(shapes, grid_size=GRID) for fabric, shapes in found.items()}
