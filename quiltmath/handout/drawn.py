"""The step pictures of a pattern: pieces before they are sewn, rows apart, arrows for the iron, what comes of it."""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Mapping, Sequence
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from ..draw import Lines, Picture, Shapes, Words, beside, fabric_roles, turned
from ..draw.panels import fabric_layers
from ..pattern.names import fabrics_sewn
from .numbered import numbers

if TYPE_CHECKING:
    from ..draw import Board
    from ..draw.picture import Layer
    from ..making import Made
    from ..pattern.fields import Item
    from ..pattern.parts import UnitTable
    from ..sewing import Panel

GAP = 0.3  # between pieces that are shown apart, as a share of their usual width
ARROW = np.array([(-0.5, 0.0), (0.5, 0.0), (0.15, 0.28), (0.5, 0.0), (0.15, -0.28)])
LEFT, RIGHT, DOWN = 180.0, 0.0, 270.0


class Look(NamedTuple):
    """What all step pictures of one handout share: the role of each fabric, and the number of each piece."""

    fabrics: Mapping[str, str]
    numbers: Mapping[str, str]

    @classmethod
    def of(cls, made: Made) -> Look:
        """The look of one sheet's pictures."""
        return cls(fabric_roles(sorted(fabrics_sewn(made.sheet))), numbers(made.sheet))

    def label(self, name: str) -> str:
        """The number of a thing, nothing where it has none."""
        return self.numbers.get(name, "")


def pressed(row: int) -> float:
    """Which way the seams of a row, counted from 0, are pressed, in degrees: odd rows to the left, even ones the other
    way.

    >>> pressed(0), pressed(1)
    (180.0, 0.0)
    """
    return LEFT if row % 2 == 0 else RIGHT


def arrows(spots: Iterable[tuple[Sequence[float], float]], long: float) -> Lines:
    """Arrows of one length (inches) at these (point, degrees)."""
    return Lines([turned(ARROW * long, degrees, at) for at, degrees in spots], "press", "press this way")


def cloth(panels: Sequence[Panel], look: Look) -> list[Layer]:
    """The patches and seams of panels, where they lie."""
    together = panels[0]
    for panel in panels[1:]:
        together = together.beside(panel)
    roles = {fabric: look.fabrics[fabric] for fabric in dict.fromkeys(cut.fabric for cut in together.cuts)}
    layers: list[Layer] = [
        Shapes(layer.polygons, layer.role, layer.label, "seam") for layer in fabric_layers(together, roles)
    ]
    return layers


class Lying(NamedTuple):
    """A panel that lies in a row of others: its name, itself, and where its lower left corner lies."""

    name: str
    panel: Panel
    at: tuple[float, float]

    @property
    def placed(self) -> Panel:
        """The panel at its place."""
        return self.panel.laid_down().moved(shift=self.at)

    @property
    def middle(self) -> tuple[float, float]:
        """Where its number stands: in the middle of its patches."""
        x, y = self.placed.corners.reshape(-1, 2).mean(axis=0)
        return float(x), float(y)


def apart(made: Made, rows: Sequence[Sequence[Item]], align: str = "start") -> tuple[list[list[Lying]], float]:
    """The pieces of rows, top row first, lying apart from each other, and the gap between them (inches)."""
    panels = [[(item.name, made.need(item.name).turn(item.turn).laid_down()) for item in row] for row in rows]
    gap = GAP * float(np.median([min(panel.size) for row in panels for _, panel in row]))
    long = [sum(panel.size[0] for _, panel in row) + gap * (len(row) - 1) for row in panels]
    found, y = [], 0.0
    for row, whole in zip(panels[::-1], long[::-1]):
        x, lying = (max(long) - whole) / 2 if align == "centre" else 0.0, []
        for name, panel in row:
            lying.append(Lying(name, panel, (x, y)))
            x += panel.size[0] + gap
        found.append(lying)
        y += max(panel.size[1] for _, panel in row) + gap
    return found[::-1], gap


def rows_picture(made: Made, look: Look, rows: Sequence[Sequence[Item]], align: str = "start") -> Picture:
    """Rows of pieces that lie apart, each piece with its number, each row with its own; arrows show how the seams of a
    row are pressed."""
    lying, gap = apart(made, rows, align)
    layers = cloth([one.placed for row in lying for one in row], look)
    spots = []
    for number, row in enumerate(lying):
        for one, other in itertools.pairwise(row):
            x = one.at[0] + one.panel.size[0] + gap / 2
            spots.append(((x, one.at[1] + min(one.panel.size[1], other.panel.size[1]) / 2), pressed(number)))
    if spots:
        layers.append(arrows(spots, 1.1 * gap))
    layers += [
        Words(one.middle, look.label(one.name), bold=True) for row in lying for one in row if look.label(one.name)
    ]
    if len(lying) > 1:
        layers += [
            Words((-0.6 * gap, row[0].at[1] + row[0].panel.size[1] / 2), f"row {number}", anchor="end")
            for number, row in enumerate(lying, 1)
        ]
    said = "; ".join(
        f"row {number}: {' '.join(look.label(one.name) or one.name for one in row)}"
        for number, row in enumerate(lying, 1)
    )
    return Picture(layers, f"The pieces in their rows: {said}.")


def sewn_picture(panel: Panel, look: Look, size: str, presses: Lines | None = None) -> Picture:
    """What has been sewn, with its size below."""
    layers = cloth([panel.laid_down()], look)
    return Picture([*layers, *([presses] if presses is not None else [])], f"Sewn it measures {size}.", caption=size)


def rows_and_sewn(
    made: Made, look: Look, rows: Sequence[Sequence[Item]], panel: Panel, size: str, align: str = "start"
) -> Board:
    """Rows apart, and beside them what they are sewn to."""
    return beside([rows_picture(made, look, rows, align), sewn_picture(panel, look, size)], columns=2)


def unit_picture(made: Made, look: Look, unit: UnitTable, panel: Panel, size: str) -> Board:
    """The pieces of a unit lying apart, and the unit with arrows where it is pressed, all of them towards its last
    part; the last long seam of a quarter-square unit goes either way."""
    panel = panel.laid_down()
    middle, patches = np.array(panel.size) / 2, panel.patches
    layers: list[Layer] = []
    shapes: dict[str, list[np.ndarray]] = {}
    for patch in patches:
        away = patch.polygon + (patch.polygon.mean(axis=0) - middle) * 2 * GAP
        shapes.setdefault(patch.fabric, []).append(away)
        if look.label(patch.part):
            layers.append(Words(tuple(away.mean(axis=0)), look.label(patch.part), bold=True))
    layers = [Shapes(found, look.fabrics[fabric], fabric, "seam") for fabric, found in shapes.items()] + layers
    seams = panel.seams[:-1] if unit.kind == "quarter-square" else panel.seams
    spots = [(tuple(seam.mean(axis=0)), _towards(seam, patches, unit.parts[-1])) for seam in seams]
    pieces = Picture(layers, f"The {len(patches)} pieces of the unit, apart.")
    presses = arrows(spots, 0.3 * min(panel.size)) if spots else None
    return beside([pieces, sewn_picture(panel, look, size, presses)], columns=2)


def _towards(seam, patches, part):
    """The direction in degrees, across a seam, in which the nearest patch of a part lies."""
    middle, along = seam.mean(axis=0), seam[1] - seam[0]
    mine = [patch.polygon.mean(axis=0) for patch in patches if patch.part == part]
    nearest = min(mine, key=lambda spot: float(np.hypot(*(spot - middle))), default=middle)
    normal = np.array((-along[1], along[0])) * (1 if (nearest - middle) @ (-along[1], along[0]) >= 0 else -1)
    return float(np.degrees(np.arctan2(normal[1], normal[0])))


def squares_picture(made: Made, look: Look, unit: UnitTable) -> Picture | None:
    """Two whole squares laid on each other, with the line to cut on and the seams on both sides of it; None for units
    that are not made so."""
    found = (made.sheet.part(name) for name in (unit.parts[0], unit.parts[-1]))
    cuts = [cut for cut in found if cut is not None and cut.cut == "whole"]
    if unit.kind not in ("half-square", "quarter-square") or len(cuts) < 2:
        return None
    side, seam = float(min(min(made.sheet.cut_size(cut)) for cut in cuts)), made.seam
    one, other = (look.fabrics[cut.fabric] for cut in cuts)
    square = np.array([(0, 0), (side, 0), (side, side), (0, side)])
    shift = 0.06 * side
    off = seam * np.sqrt(2)
    return Picture(
        [
            Shapes([square + shift], other, cuts[1].fabric, "seam"),
            Shapes([square], one, cuts[0].fabric, "seam"),
            Lines([[(0, 0), (side, side)]], "cut line", "cut"),
            Lines([[(0, off), (side - off, side)], [(off, 0), (side, side - off)]], "finished line", "sew"),
        ],
        "Two squares on each other, with a diagonal and a seam on either side of it.",
    )
