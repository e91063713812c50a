"""The quilt as its designer means it: every part at its finished size, every point whole.

It is sewn like the real one (see `workshop`), but from finished shapes with seams that take nothing: so a
block cut from corner to corner, or a top sliced and turned, gives the picture on the cover.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from math import sqrt
from typing import TYPE_CHECKING

import numpy as np

from ..pattern.fields import PLACES
from ..pattern.names import step_giving
from ..sewing import CannotSew, patch
from . import shaped, units
from .at_the_edge import edge_triangles
from .made import Made
from .pieces import as_it_lies, meant_finished, meant_size
from .rounding import ROUNDING, needed_square
from .trouble import Missing

if TYPE_CHECKING:
    from ..sewing import Panel

SNAP = 1.5  # seams: a cut this near a corner of a patch is meant to run through it
TRIANGLE = {"whole": None, "once": 90.0, "twice": 45.0, "shaped": 90.0}


def cover(made: Made) -> Panel | None:
    """The finished top as the designer means it, as a `Panel` without raw edges, or None where the sheet does
    not tell.

    `made` is the sheet with its real cloth; give one whose printed sizes are mended where they are known to
    be wrong. Cloth that keeps all its points is itself what is meant.

    >>> from quiltmath import making, pattern
    >>> from quiltmath.pattern.sheet import EXAMPLE
    >>> cover(making.make(pattern.read_text(EXAMPLE))).size
    (12.0, 12.0)
    """
    if made.bound is not None and not (made.bound.lost_by > ROUNDING).any():
        return made.bound
    if _pieced_from_cut_blocks(made.sheet):
        return None
    try:
        return Cover.of(made).bound
    except ValueError:  # a strip of no width, a cut that misses: then the sheet does not tell
        return None


def _pieced_from_cut_blocks(sheet):
    """Whether blocks are pieced from what steps have cut: what the seams of cut pieces take is then meant."""
    return any(step_giving(sheet, item.name) for block in sheet.block.values() for row in block.rows for item in row)


def _plain(sheet):
    """The sheet without what only raw cloth needs: sizes to trim to, cuts past a line."""

    def without(piece):
        return piece and piece.model_copy(update={"past": 0})

    setting = sheet.setting.model_copy(
        update={"sides": without(sheet.setting.sides), "corners": without(sheet.setting.corners)}
    )
    blocks = {
        name: block.model_copy(update={"trim_to": _still_trimmed(sheet, block)}) for name, block in sheet.block.items()
    }
    sets = {
        name: one.model_copy(update={"sub_cut": one.sub_cut - 2 * sheet.sewing_seam})
        for name, one in sheet.strip_set.items()
    }
    return sheet.model_copy(update={"setting": setting, "block": blocks, "strip_set": sets})


def _still_trimmed(sheet, block):
    """The finished size a block is trimmed to where its rows end in slanting sides; None for all others, whose finished
    shapes need no trimming."""
    cuts = [sheet.part(item.name) for row in block.rows for item in row]
    if block.trim_to is None or all(cut is None or cut.shape is None for cut in cuts):
        return None
    return tuple(side - 2 * sheet.sewing_seam for side in block.trim_to)


@dataclass
class Cover(Made):
    """A sheet sewn from finished shapes; `made` is the same sheet in real cloth."""

    made: Made = field(kw_only=True)

    @classmethod
    def of(cls, made: Made) -> Cover:
        """The cover of a made sheet, for its panels one by one."""
        return cls(_plain(made.sheet), made=made)

    @property
    def seam(self) -> float:
        """Nothing: finished shapes have no allowance."""
        return 0.0

    def _made(self, name):
        """The finished panel of this name and what comes with it, as a dict; None on trouble."""
        try:
            found = self._finished(name)
        except (CannotSew, Missing):
            found = {name: None}
        return super()._made(name) if found is None else found

    def _finished(self, name):
        """What finished shapes are made otherwise than cloth: parts, units, cuts and trims; None for the
        rest."""
        sheet, step = self.sheet, step_giving(self.sheet, name)
        if sheet.part(name) is not None:
            return {name: self._part(sheet.part(name))}
        if name in sheet.unit:
            return {name: self._unit(sheet.unit[name], self._unit_size(name))}
        if step is not None and step.cut is not None and self.panel(step.cut) is not None:
            panel = self.panel(step.cut).laid_down()
            pieces = panel.cut(self._place(step.from_, panel), self._place(step.to, panel), 0.0)
            return dict(zip(step.gives, (piece.laid_down() for piece in pieces)))
        if step is not None and step.trim is not None and self.panel(step.trim) is not None:
            return {step.gives[0]: self._trimmed(step, self.panel(step.trim).laid_down())}
        return None

    def _part(self, cut):
        """A part at its finished size, triangles with their right angle at the lower left."""
        if cut.shape is not None:
            corners = shaped.finished_corners(cut, meant_size(self.made, cut), self.made.seam)
            return patch(corners=corners, fabric=cut.fabric, part=cut.part)
        if cut.halved_rectangle:
            return _shape(*as_it_lies(cut, meant_finished(self.made, cut)), TRIANGLE[cut.cut], cut)
        allowance = needed_square(cut.cut, 1.0, self.made.seam) - 1.0
        width, height = (side - allowance for side in meant_size(self.made, cut))
        if cut.cut != "whole":
            width, height = (max(side, self._edge(cut)) for side in (width, height))
        if cut.cut == "twice":
            width, height = width / sqrt(2), height / sqrt(2)
        known = cut.finished is not None or cut.part in self.made.built_ends or self._edge(cut) > 0.0
        if cut.cut != "whole" and not known:
            width, height = (self._beside_squares(leg) for leg in (width, height))
        return _shape(width, height, TRIANGLE[cut.cut], cut)

    def _beside_squares(self, leg):
        """The finished side of whole pieces that a triangle's leg is meant to be as long as, its rounding
        gone; else the leg."""
        sides = {
            float(side) - 2 * self.made.seam
            for cut in self.sheet.cut
            if cut.cut == "whole"
            for side in self.sheet.cut_size(cut)
        }
        return min(
            (side for side in sides if abs(side - leg) <= ROUNDING),
            key=lambda side: abs(side - leg),
            default=leg,
        )

    def _edge(self, cut):
        """The least finished size of a plain edge triangle beside its block; 0 for any other part."""
        block, seam = self.made.panel(self.made.block), self.made.seam
        if block is None:
            return 0.0
        allowance = needed_square(cut.cut, 1.0, seam) - 1.0
        for found in edge_triangles(self.made, block.size[0] - 2 * seam):
            if found.part == cut.part and found.square is not None:
                return found.square - allowance
        return 0.0

    def _unit_size(self, name):
        """The finished (width, height) of a unit: as printed, or as it is trimmed or sews."""
        unit, seam = self.sheet.unit[name], self.made.seam
        if unit.finished is not None:
            return tuple(map(float, unit.finished))
        panel = self.made.panel(name)
        raw = unit.trim_to or (panel.size if panel is not None else None)
        if raw is None:
            raise CannotSew(f"the unit {name!r} cannot be sewn, so its size is not known")
        return tuple(float(side) - 2 * seam for side in raw)

    def _unit(self, unit, size):
        """A unit from finished shapes."""
        width, height = size
        one, other = self.sheet.part(unit.parts[0]), self.sheet.part(unit.parts[-1])
        if None in map(self.sheet.part, unit.parts):
            return units.sewn_unit(unit, [self.need(name) for name in unit.parts], 0, 0.0, self.sheet.units)
        if unit.kind == "half-square":
            return units.half_square(_shape(width, height, 90, one), _shape(width, height, 90, other), 0.0)
        if unit.kind == "triangle in a square":
            middle = patch(corners=[(0, 0), (width, 0), (width / 2, height)], fabric=one.fabric, part=one.part)
            left = _shape(height, width / 2, 0, self.sheet.part(unit.parts[1]))
            return units.triangle_in_a_square(middle, left, _shape(width / 2, height, 90, other), 0.0)
        if unit.kind == "half-rectangle":
            legs = (width, height) if unit.slant == "left" else (height, width)
            return units.half_rectangle(_shape(*legs, 90, one), _shape(*legs, 90, other), unit.slant, 0.0)
        if unit.kind == "quarter-square":
            leg = width / sqrt(2)
            shapes = [_shape(leg, leg, 45, self.sheet.part(name)) for name in unit.parts]
            if len(shapes) == 3:
                return units.split_quarter_square(_shape(width, height, 90, one), *shapes[1:], 0.0)
            return units.quarter_square(*(shapes * 2)[:4], 0.0)
        if unit.kind == "flying geese":
            return units.flying_geese(
                _shape(width / sqrt(2), width / sqrt(2), 45, one), _shape(height, height, 90, other), 0.0
            )
        if unit.kind == "square in a square":
            return units.square_in_a_square(
                _shape(width / sqrt(2), width / sqrt(2), None, one),
                _shape(width / 2, width / 2, 90, other),
                0.0,
            )
        tip = float(min(self.sheet.cut_size(other))) - 2 * self.made.seam
        return units.snowball(_shape(width, height, None, one), _shape(tip, tip, None, other), 0.0, unit.flipped)

    def _place(self, place, panel):
        """A point on a finished panel: the one printed for the raw cloth, less its seam, or the corner of a
        patch beside it."""
        if isinstance(place, str):
            return tuple(float(share) * side for share, side in zip(PLACES[place], panel.size))
        point = np.array([float(part) - self.made.seam for part in place])
        corners = panel.corners.reshape(-1, 2)
        away = np.hypot(*(corners - point).T)
        return tuple(corners[away.argmin()] if away.min() <= SNAP * self.made.seam else point)

    def _trimmed(self, step, panel):
        """A panel trimmed as a step says, but through points, not past them."""
        bounds = {}
        for axis, low, high in ((0, "left", "right"), (1, "bottom", "top")):
            for side, start, way in ((low, 0.0, 1), (high, panel.size[axis], -1)):
                if getattr(step, side):
                    at, lines = start + way * float(getattr(step, side)), panel.meets[:, axis]
                    near = lines[np.abs(lines - at) <= SNAP * self.made.seam]
                    bounds[side] = way * float((way * near).min()) if len(near) else at
        return panel.trim(**bounds, seam=0.0).laid_down()


def _shape(width, height, grain, cut):
    """A finished rectangle (no grain), or right triangle with its thread this way, of the cloth a part is cut
    from."""
    about = {"fabric": cut.fabric, "part": cut.part}
    if grain is None:
        return patch(size=(width, height), **about)
    return patch(corners=[(0, 0), (width, 0), (0, height)], grain=grain, **about)
