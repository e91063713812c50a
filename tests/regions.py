"""What is seen of a panel, as Shapely's regions: an independent eye on two pictures that should be the same."""

from shapely import Polygon, union_all
from shapely.affinity import scale


def regions(panel):
    """{fabric: the region it takes} of the panel laid down, as a picture one unit square."""
    found = {}
    for patch in panel.patches:
        found.setdefault(patch.fabric, []).append(Polygon(patch.polygon))
    width, height = panel.size
    return {
        fabric: scale(union_all(pieces, grid_size=1e-6), 1 / width, 1 / height, origin=(0, 0))
        for fabric, pieces in found.items()
    }
