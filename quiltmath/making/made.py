"""A sheet with its cloth: every panel sewn when it is asked for, and what could not be sewn."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from fractions import Fraction
from functools import cached_property
from typing import TYPE_CHECKING, Any

import numpy as np

from ..pattern import Unreadable
from ..pattern.names import (
    QUILT,
    centre,
    edge_name,
    edge_piece,
    final,
    inside_out,
)
from ..root2 import root2
from ..sewing import CannotSew
from . import edge_triangles, layout, measures, sewn, straight
from .bill import bill_of_materials, ingredients, patches, pieces_needed
from .forgotten import supplied
from .limits import refuse_too_large, refuse_too_many
from .meant import as_meant
from .needs import needs
from .pieces import built_ends
from .trouble import ConstructionError, Missing

if TYPE_CHECKING:
    from collections import Counter

    from ..pattern.sheet import Sheet
    from ..root2 import Root2
    from ..sewing import Panel
    from .forgotten import Forgotten
    from .layout import Layout
    from .need import Need
    from .straight import BorderStrip


@dataclass
class Made:
    """A sheet with its cloth. Panels are sewn on first use and kept; None stands for what could not be sewn.

    `as_printed`: triangles are sewn as large as they are printed, their rounding not undone (see `rounding`).
    `forgotten`: what the cutting list forgets; `sheet` has lines for it as far as its size follows. `floats`: how far
    the blocks float inside the edge where the pattern implies it and does not say so, inches; `sheet` says it.
    """

    sheet: Sheet
    as_printed: bool = False
    forgotten: tuple[Forgotten, ...] = ()
    floats: Fraction = Fraction(0)
    troubles: list[ConstructionError] = field(default_factory=list)
    _panels: dict[str, Panel | None] = field(default_factory=dict)
    _meets: dict[str, bool] = field(default_factory=dict)

    def anew(self, sheet: Sheet, **changes: Any) -> Made:
        """What is made of another sheet, with nothing sewn yet; `changes` are other fields of this that differ."""
        return replace(self, sheet=sheet, troubles=[], _panels={}, _meets={}, **changes)

    @property
    def seam(self) -> float:
        """The seam in inches, as a float."""
        return float(self.sheet.sewing_seam)

    @property
    def top(self) -> Panel | None:
        """The quilt top before it is quilted and bound: a `Panel` with its raw edges, or None."""
        name = final(self.sheet)
        return self.panel(name) if self.meets(name) else None

    @property
    def centre(self) -> Panel | None:
        """The top without its borders, or None."""
        name = centre(self.sheet)
        return self.panel(name) if self.meets(name) else None

    @property
    def bound(self) -> Panel | None:
        """The finished top, its outer seam gone, or None where it has no outline that can be bound."""
        if "bound" not in self._panels:
            try:
                self._panels["bound"] = self.top.bind(self.seam) if self.top is not None else None
            except CannotSew:
                self._panels["bound"] = None
        return self._panels["bound"]

    @property
    def finished(self) -> tuple[float, float] | None:
        """(width, height) of the finished top in inches, or None."""
        if self.bound is not None:
            return self.bound.size
        if self.top is None:
            return None
        width, height = self.top.size
        return width - 2 * self.seam, height - 2 * self.seam

    @cached_property
    def bill(self) -> Counter[str]:
        """How many of each named thing the whole quilt takes: see `bill.bill_of_materials`."""
        return bill_of_materials(self.sheet)

    @cached_property
    def needs(self) -> dict[str, Need]:
        """What each part needs, {part: Need}: see `needs.needs`."""
        return needs(self)

    # -- finished measures: exact where the sheet's figures add up, else as the cloth measures ------------------------

    @cached_property
    def adds_up(self) -> bool:
        """Whether the printed sizes of the blocks and sashes add up to squares of one size."""
        return measures.lies(self.sheet) is not None

    @cached_property
    def block(self) -> str:
        """The name of the block that the others are held to: see `measures.main_block`."""
        return measures.main_block(self.sheet)

    @cached_property
    def cell(self) -> Fraction | float | None:
        """The finished side of the main block in inches: as it adds up, as printed, or else as it sews; None if it
        cannot."""
        sheet, name = self.sheet, self.block
        size = measures.finished(sheet, name)
        block = sheet.block.get(name) or sheet.unit.get(name) or sheet.part(name)
        if size is None:
            size = getattr(block, "finished", None)
        if size is not None:
            return size[0]
        panel = self.panel(name)
        return None if panel is None else panel.size[0] - 2 * self.seam

    def width_of(self, name: str) -> Fraction | float:
        """The finished width of a strip in inches; 0 where it cannot be sewn."""
        width = measures.width_of(self.sheet, name)
        if width is None:
            panel = self.panel(name)
            return 0.0 if panel is None else min(panel.size) - 2 * self.seam
        return width

    @cached_property
    def lies(self) -> Layout | None:
        """The `Layout` of the setting; None where its block cannot be sewn."""
        found, sashing = measures.lies(self.sheet), self.sheet.setting.sashing
        lost = sashing is not None and self.panel(sashing.part) is None
        if found is not None or self.cell is None or lost or self.sheet.setting.loose:
            return found
        return layout.of(self.sheet.setting, self.cell, self.width_of(sashing.part) if sashing is not None else 0)

    @property
    def tip_length(self) -> Root2:
        """The finished long side of the tip of a side triangle that reaches past whole cornerstones."""
        setting = self.sheet.setting
        sash = self.width_of(setting.sashing.part) if setting.sashing is not None else 0
        return root2(sash).by_root() + 2 * setting.floating

    @cached_property
    def built_ends(self) -> dict[str, Root2]:
        """{part: finished leg or long side} of the triangles in built edge triangles: see `pieces.built_ends`."""
        return built_ends(self.sheet)

    # -- panels ------------------------------------------------------------------------------------------------------

    def panel(self, name: str) -> Panel | None:
        """The panel of this name: a part, a block, what a step gives, the setting, an edge triangle; None on
        trouble.

        What it is made from is made first, in order, so that no chain of steps is too long.
        """
        if name not in self._panels:
            for each in inside_out(self.sheet, name, known=self._panels):
                if each not in self._panels:  # the other piece of a cut comes with the first
                    self._panels.update(self._made(each))
        return self._panels[name]

    def _made(self, name):
        """The panel of this name and what comes with it, as a dict, once what it is made from is there."""
        try:
            return sewn.panels(self, name)
        except CannotSew as problem:
            self.troubles.append(ConstructionError(name, sewn.path_of(self.sheet, name), str(problem)))
        except Missing:
            pass
        return {name: None}

    def edge_triangle(self, kind: str, where: str) -> Panel:
        """The side or corner triangle at the "top", "left", "bottom" or "right", its right angle at the lower left.

        Where whole blocks are cut for the edge, each is cut as it would lie in the quilt, so that its patches run on.
        """
        piece = edge_piece(self.sheet, kind)
        if piece is not None and piece.how == "cut blocks" and where != "top":
            key = f"{where} {kind}"
            found = self._panels.get(key)
            if found is None:
                found = edge_triangles.with_frame(
                    self, edge_triangles.edge_triangle(self, piece, kind, where), piece.frame
                )
                self._panels[key] = found
            return found
        return self.need(edge_name(self.sheet, kind, where))

    def unframed(self, kind: str, where: str = "top") -> Panel | None:
        """A side or corner triangle before its frame is sewn on, or None where it cannot be sewn."""
        piece = edge_piece(self.sheet, kind)
        if piece is None:
            return None
        try:
            return edge_triangles.edge_triangle(self, piece, kind, where)
        except (CannotSew, Missing):
            return None

    def need(self, name: str) -> Panel:
        """The panel of this name, or the signal that what is being sewn lacks it, or that its own edges do not meet."""
        panel = self.panel(name)
        if panel is None or not self.meets(name):
            raise Missing(name)
        return panel

    def meets(self, name: str) -> bool:
        """Whether the edges that are joined in a panel are equally long but for less than a seam: nothing is sewn to
        one where they are not."""
        if name not in self._meets:
            strict = name in self.joined and name not in sewn.trimmed_later(self.sheet)
            panel = self.panel(name) if strict else None
            apart = set() if panel is None else _uneven(panel) - self._trimmed_inside(name)
            self._meets[name] = max(apart, default=0.0) <= self.seam
        return self._meets[name]

    def _trimmed_inside(self, name):
        """By how much edges differ in what a panel is sewn from, where that is trimmed before it is sewn."""
        inside = set(ingredients(self.sheet, name)) - {*self.joined}
        return set().union(*(_uneven(panel) for panel in map(self.panel, inside) if panel is not None))

    @cached_property
    def joined(self) -> tuple[str, ...]:
        """The names of the panels in which edges are joined that must be equally long, parts before wholes."""
        return sewn.joined(self.sheet)

    @cached_property
    def bordered(self) -> tuple[Panel | None, list[BorderStrip]]:
        """The top with its borders, and what each strip measures: (panel or None, list of `straight.BorderStrip`)."""
        names = {name for border in self.sheet.border for name in border.parts}
        try:
            panels = {name: self.need(name) for name in names}
            return straight.bordered(self.need(centre(self.sheet)), self.sheet.border, panels, self.seam)
        except CannotSew as problem:
            self.troubles.append(ConstructionError(QUILT, sewn.path_of(self.sheet, QUILT), str(problem)))
        except Missing:
            pass
        return None, []

    @property
    def border_strips(self) -> list[BorderStrip]:
        """What each pair of border strips measures at the made top; none where there is no border, or no top to
        measure."""
        return self.bordered[1] if self.sheet.border else []


def _uneven(panel):
    """By how much (inches) edges differ that are joined in a panel."""
    return {round(float(by), 6) for by in np.abs(panel.differ)}


def make(sheet: Sheet, as_printed: bool = False) -> Made:
    """The sheet and its cloth, sewn from the printed cut sizes; refused where it needs too many patches.

    Whole pieces are sewn as printed. A triangle's exact size is no ruler fraction, so a printed one is sewn as the
    finished size it stands for, its rounding undone; `as_printed` sews that in as well.

    >>> from quiltmath import pattern
    >>> from quiltmath.pattern.sheet import EXAMPLE
    >>> make(pattern.read_text(EXAMPLE)).finished
    (12.0, 12.0)
    """
    refuse_other_strips(sheet)
    _refuse_large(sheet)
    made = supplied(Made(sheet, as_printed))
    if made.forgotten:
        _refuse_large(made.sheet)
    meant = as_meant(made)
    if meant.sheet is not made.sheet:
        made = made.anew(meant.sheet, floats=meant.floating)
    return made


def _refuse_large(sheet):
    """Refuse a sheet that takes more pieces or patches than are sewn here."""
    refuse_too_many(sheet, max(sum(pieces_needed(sheet).values()), patches(sheet)), "this quilt")
    refuse_too_large(sheet)


def refuse_other_strips(sheet: Sheet) -> None:
    """Refuse more or fewer long sashing strips than the rows of a quilt have lengths."""
    setting = sheet.setting
    names = (setting.sashing.strip or ()) if setting.sashing is not None else ()
    lengths = len(set(layout.of(setting).strip_reaches)) if len(names) > 1 else len(names)
    if len(names) != lengths:
        raise Unreadable.at(
            sheet,
            ["setting", "sashing", "strip"],
            f"the long sashing strips of {' by '.join(map(str, setting.size))} blocks have {lengths} "
            f"length{'s' * (lengths != 1)}; got {len(names)} names of strips: name one strip for all rows"
            + (", or one for each length, the shortest first" if lengths > 1 else ""),
        )
