"""Mitred borders: four strips sewn to the four sides, each stopping at the corner, then the seam from each inner
corner to the outer one.

Such a corner is a set-in seam, which edge-to-edge seams cannot make. Here every strip is laid where its seam
puts it and pressed under along the side of the top and along both mitres, and the pressed pieces are put
together. Where a strip is cut too short, its neighbours stay raw along the hole it leaves.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from ..shapes import NEAR, line_through, ranked
from . import knife
from .arguments import CannotSew
from .edges import meet, reach
from .seaming import overhang

if TYPE_CHECKING:
    from .panel import Panel

WAYS = {"left": (-1, 0), "right": (1, 0), "bottom": (0, -1), "top": (0, 1)}
ROUND = ("bottom", "right", "top", "left")  # as one walks round the top with the cloth on the left


class MitreLine(NamedTuple):
    """A seam line as (normal, limit) and the way along it; `inside` is the number of the piece that lies on the
    inner side of its normal, `outside` that of the other."""

    normal: tuple
    limit: float
    inside: int
    outside: int

    @property
    def along(self):
        """The unit vector along the line, its inner side on the left."""
        return np.array((-self.normal[1], self.normal[0]))

    def turned_round(self):
        """The same line seen by the other piece."""
        return MitreLine((-self.normal[0], -self.normal[1]), -self.limit, self.outside, self.inside)


def mitred(panel: Panel, sides: Panel | tuple[Panel, Panel], ends: Panel | tuple[Panel, Panel], seam: float) -> Panel:
    """The panel with four strips sewn round it and their corners mitred: see `Panel.mitred`."""
    panel = panel.laid_down()
    _rectangle(panel, "mitred borders go round a rectangle", within=max(seam, NEAR))
    strips = dict(zip(("left", "right", "bottom", "top"), (*_pair(sides, "sides"), *_pair(ends, "ends"))))
    width = {name: _finished_width(strip, name, seam) for name, strip in strips.items()}
    corners = _corners(panel, seam)
    number = {name: place for place, name in enumerate(ROUND, start=1)}
    lines = []
    for name in ROUND:
        x, y = WAYS[name]
        limit = max(corner[0] * x + corner[1] * y for corner in corners.values())
        lines.append(MitreLine((float(x), float(y)), limit, 0, number[name]))
    for (one, two), corner in corners.items():
        out = tuple(WAYS[one][axis] * width[one] + WAYS[two][axis] * width[two] for axis in (0, 1))
        normal, limit = line_through(corner, (corner[0] + out[0], corner[1] + out[1]))
        lines.append(MitreLine(normal, limit, number[two], number[one]))
    pieces = [panel, *(_laid(strips[name], name, panel, seam) for name in ROUND)]
    pressed = [
        _pressed(piece, place, [*lines, *(line.turned_round() for line in lines)], seam)
        for place, piece in enumerate(pieces)
    ]
    pressed[1:] = [_without_ears(piece, name, panel, width, seam) for name, piece in zip(ROUND, pressed[1:])]
    return _joined(pressed, lines).laid_down()


def _pair(strips, which):
    """The two strips of a pair; one panel stands for both."""
    pair = (strips, strips) if hasattr(strips, "corners") else strips
    if not isinstance(pair, (tuple, list)) or len(pair) != 2 or not all(hasattr(one, "corners") for one in pair):
        raise CannotSew(
            f"a mitred border has two strips for its {which}, given as one panel or as a pair; got {strips!r}: "
            "make a strip with patch()"
        )
    return tuple(one.laid_down() for one in pair)


def _finished_width(strip, name, seam):
    """How wide a strip finishes; refused where it is no strip or its two seams take all of it."""
    _rectangle(strip, "a strip of a mitred border is a rectangle")
    across = strip.size[0 if name in ("left", "right") else 1]
    if across - 2 * seam <= NEAR:
        raise CannotSew(
            f"two seams of {seam:.4g} in take all of the {name} strip of a mitred border; it is {across:.4g} in "
            "wide: cut it wider, and lay side strips upright and the others level"
        )
    return across - 2 * seam


def _rectangle(panel, rule, within=NEAR):
    """Refuse a panel whose raw edges do not all lie on the four sides of a rectangle, or so near `within` them (inches)
    that the seam hides it."""
    across, up = panel.size
    far = np.stack((np.abs(panel.raw), np.abs(panel.raw - [across, up])), axis=-1)
    if len(panel.raw) == 0 or not (far.max(axis=1) < within).any(axis=(1, 2)).all():
        raise CannotSew(
            f"{rule}; the outline of this panel of {across:.4g} x {up:.4g} in is not one: square it up first"
        )


def _corners(panel, seam):
    """The finished corners of the top, each by the names of the two strips that meet there."""
    across, up = panel.size
    if min(across, up) - 2 * seam <= NEAR:
        raise CannotSew(
            f"two seams of {seam:.4g} in take all the fabric of this panel of {across:.4g} x {up:.4g} in: cut it larger"
        )
    right, top = across - seam, up - seam
    return {
        ("left", "bottom"): (seam, seam),
        ("bottom", "right"): (right, seam),
        ("right", "top"): (right, top),
        ("top", "left"): (seam, top),
    }


def _laid(strip, name, panel, seam):
    """The strip where its seam puts it, as far past one end of its side as past the other."""
    (across, up), (wide, tall) = panel.size, strip.size
    return strip.moved(
        shift=np.array(
            {
                "bottom": ((across - wide) / 2, 2 * seam - tall),
                "top": ((across - wide) / 2, up - 2 * seam),
                "left": (2 * seam - wide, (up - tall) / 2),
                "right": (across - 2 * seam, (up - tall) / 2),
            }[name]
        )
    )


def _pressed(piece, place, lines, seam):
    """The piece trimmed one seam past its seam lines, then pressed under along them."""
    for line in lines:
        if line.inside == place:
            piece = knife.kept(piece, line.normal, line.limit + seam)
            piece = knife.folded(piece, line.normal, line.limit)
    return piece


def _without_ears(piece, name, panel, width, seam):
    """The piece trimmed level with the outer edges of its neighbours, which a mitre off 45 degrees runs past."""
    across, up = panel.size
    for way in ("left", "right") if name in ("top", "bottom") else ("bottom", "top"):
        limit = {"left": 0.0, "bottom": 0.0, "right": across, "top": up}[way] + width[way]
        piece = knife.kept(piece, WAYS[way], limit)
    return piece


def _joined(pieces, lines):
    """The pieces put together: the seams on these lines, the meetings on them, and raw edges along what is missing."""
    whole, owner = pieces[0], [np.zeros(len(pieces[0].corners), int)]
    for place, piece in enumerate(pieces[1:], start=1):
        whole = whole.beside(piece)
        owner.append(np.full(len(piece.corners), place))
    owner = np.concatenate(owner)
    raw, raw_owner, meets, seams = [whole.raw], [whole.owner], [], []
    for line in lines:
        origin = line.limit * np.array(line.normal)
        low, high, which = reach(whole.corners, line.normal, line.limit, line.along)
        found = [_spans(low, high, which, owner[which] == place) for place in (line.inside, line.outside)]
        for mine, (lower, higher, _), way in ((*found, 1), (*found[::-1], -1)):
            ends = (lower[0], higher[-1]) if len(lower) else (np.inf, np.inf)
            over, over_owner = overhang(*mine, *ends)
            raw.append(over[:, ::way, None] * line.along + origin)  # raw edges keep their cloth on the left
            raw_owner.append(over_owner)
        if all(len(low) for low, _, _ in found):
            left, right = max(low[0] for low, _, _ in found), min(high[-1] for _, high, _ in found)
            if right - left > NEAR:
                seams.append(np.array((left, right))[:, None] * line.along + origin)
        places = np.concatenate([end for low_, high_, _ in found for end in (low_, high_)])
        meets.append(places[meet(places, low, high)][:, None] * line.along + origin)
    meets = _once(np.concatenate(meets))
    on_a_line = _near(whole.meets, meets)
    return replace(
        whole,
        raw=np.concatenate(raw),
        owner=np.concatenate(raw_owner),
        meets=np.concatenate((whole.meets[~on_a_line], meets)),
        seams=np.concatenate((whole.seams, *(seam[None] for seam in seams))),
        differ=np.concatenate((whole.differ, np.zeros(len(seams)))),
    )


def _spans(low, high, numbers, mine):
    """Where the patches of one piece lie along a seam line of its own, and their numbers, of all that touch it."""
    lies = mine & (high - low > NEAR)
    return low[lies], high[lies], numbers[lies]


def _once(points):
    """Each point once."""
    _, first = np.unique(np.stack([ranked(axis) for axis in points.T]), axis=1, return_index=True)
    return points[first]


def _near(points, others):
    """Which points lie where one of the others does."""
    across, up = (ranked(axis) for axis in np.concatenate((points, others)).T)
    places = across * (up.max(initial=0) + 1) + up
    return np.isin(places[: len(points)], places[len(points) :])
