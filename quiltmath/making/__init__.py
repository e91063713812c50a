"""From a pattern sheet to a quilt: what is made of what and how many, what each part needs, and the sewn cloth.

    made = making.make(pattern.read("data/patterns/sound/library-lap-quilt.toml"))
    made.top, made.finished, made.needs, made.bill, made.troubles

Everything is sewn from the *printed* cut sizes, so what is wrong in the pattern is wrong in the cloth; only the
rounding of triangles, which nobody sews in, is undone first (see `rounding`). `cover` shows the same quilt as its
designer means it.
"""

from .bill import batch, bill_of_materials, patches, pieces_needed
from .edge_triangles import frame_lengths, framed
from .layout import Layout
from .limits import TooLarge, refuse_too_many
from .made import Made, make, refuse_other_strips
from .need import Need
from .outside import bias_outside
from .trouble import ConstructionError

__all__ = [
    "ConstructionError",
    "Layout",
    "Made",
    "Need",
    "TooLarge",
    "batch",
    "bias_outside",
    "bill_of_materials",
    "frame_lengths",
    "framed",
    "make",
    "patches",
    "pieces_needed",
    "refuse_other_strips",
    "refuse_too_many",
]
