"""Mitred corners, simulated: four strips sewn to the four sides, each stopping at the corner, then the
45-degree seams.

The corner of a mitre is a set-in seam, which the simulator's edge-to-edge seams cannot make. Here every strip
is laid where its seam puts it, pressed under along the side of the top and along both mitres, and the pressed
pieces are put together; a strip too short for its mitre leaves the hole it would leave in cloth.
"""

from dataclasses import replace

import numpy as np

from .. import sewing
from ..sewing.knife import folded
from ..shapes import direction


def mitred_on(panel, width, fabric, seam=0.25, parts=("border strip", "border strip"), strips=None):
    """A rectangular raw panel with a mitred border of this finished width; `strips` are the cut (side, end)
    lengths.

    >>> top = sewing.patch(size=(12.5, 10.5))
    >>> mitred_on(top, 2, "navy").size
    (16.5, 14.5)
    """
    across, up = panel.size
    _rectangle(panel)
    needed = [mitre_length(length - 2 * seam, width, seam) for length in (up, across)]
    given = needed if strips is None else strips
    places = _meets(panel, seam, across, up)
    top = panel
    for angle, limit in ((270, -seam), (0, across - seam), (90, up - seam), (180, -seam)):
        top = folded(top, direction(angle), limit)
    for turn, length, end, shift in (
        (0, across, 1, (0, 0)),
        (90, up, 0, (across, 0)),
        (180, across, 1, (across, up)),
        (270, up, 0, (0, up)),
    ):
        top = top.beside(
            _strip(length, given[end], width, fabric, parts[end], seam).moved(turn, np.array(shift, float))
        )
    seams = _seams(across, up, width, seam)
    return replace(
        top,
        meets=np.concatenate((top.meets, places)),
        seams=np.concatenate((top.seams, seams)),
        differ=np.concatenate((top.differ, np.zeros(len(seams)))),
    ).laid_down()


def mitre_length(side, width, seam):
    """How long a strip is cut at the least, for a finished side and width (floats of inches)."""
    from .. import proofs

    return proofs.mitred_strip.value("strip", side=side, width=width, seam=seam)


def _strip(length, cut, width, fabric, part, seam):
    """The strip below a top of this raw length, pressed under along the top and both mitres."""
    strip = sewing.patch(size=(cut, width + 2 * seam), fabric=fabric, part=part, grain=0)
    strip = strip.moved(shift=np.array(((length - cut) / 2, -width)))
    for angle, limit in ((90, seam), (135, 0.0), (45, length / 2**0.5)):
        strip = folded(strip, direction(angle), limit)
    return strip


def _meets(panel, seam, across, up):
    """Where the seams of the top meet the border, and its four corners."""
    found = [(x, y) for x in (seam, across - seam) for y in (seam, up - seam)]
    for faces, place in (("bottom", seam), ("top", up - seam)):
        found += [(x, place) for x in panel.edge(faces, seam).breaks]
    for faces, place in (("left", seam), ("right", across - seam)):
        found += [(place, y) for y in panel.edge(faces, seam).breaks]
    return np.array(found)


def _seams(across, up, width, seam):
    """The four seams along the top and the four mitres."""
    a, b, c, d = corners = [
        (seam, seam),
        (across - seam, seam),
        (across - seam, up - seam),
        (seam, up - seam),
    ]
    out = [(-1, -1), (1, -1), (1, 1), (-1, 1)]
    mitres = [((x, y), (x + i * width, y + j * width)) for (x, y), (i, j) in zip(corners, out)]
    return np.array([(a, b), (b, c), (c, d), (d, a), *mitres])


def _rectangle(panel):
    """Refuse a panel whose raw edges do not all lie on the four sides of a rectangle."""
    across, up = panel.size
    far = np.stack((np.abs(panel.raw), np.abs(panel.raw - [across, up])), axis=-1)
    along_a_side = (far.max(axis=1) < 1e-6).any(axis=(1, 2))
    if not along_a_side.all():
        raise sewing.CannotSew(
            "mitred borders go round a rectangle; the outline of this panel of "
            f"{across:.4g} x {up:.4g} in is not one: square it up first"
        )
