"""How everything inside a quilt top is sewn, a step each with its picture: strip sets, units, blocks, edge triangles,
and what the explicit steps of a sheet say."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import TYPE_CHECKING

from .. import lengths
from ..draw import beside
from ..draw.page import CAPTION_SIZE
from ..draw.typeset import cut_short
from ..making.bill import batch, cut_together, in_making_order, sets_needed
from ..making.layout import ALTERNATELY
from ..pattern.fields import PLACES, Item
from ..pattern.names import CORNER, EDGES, SIDE, called, edge_name, edge_piece, step_giving, where_of
from ..review.checks.check import some
from ..usual import EASED
from . import drawn
from .boxes import step
from .buying_and_cutting import by, exactly
from .numbered import numbered, titled
from .unit_steps import unit_words

if TYPE_CHECKING:
    from ..draw.picture import Drawn
    from ..draw.typeset import Box
    from ..pattern.parts import BlockTable, EdgePiece, UnitTable
    from ..pattern.step import StepTable
    from ..review.reading import Reading
    from .drawn import Look
    from .paper import Paper

STAY_STITCH = "Stay-stitch just inside the line first (common practice). "
CUT_BLOCKS = STAY_STITCH + (
    "Then cut each of the spare blocks {past} past its diagonal and keep the larger half; for a corner triangle cut "
    "past both diagonals."
)
FRAMED_SIDE = (
    "Sew {first} to one short edge and press towards it, then {second} to the other short edge and to the end of the "
    "first strip. Lay the ruler along the long edge and trim both ends of the frame in line with it, at 45 degrees."
)
FRAMED_CORNER = (
    "Sew {first} to the long edge, centred, press towards it, and trim both ends in line with the short edges, at 45 "
    "degrees."
)
LIES = {
    SIDE: "Lay it out with its square corner at the lower left.",
    CORNER: "Lay it out with its long edge below.",
}
LABEL = 100.0  # px: the longest name below a picture
AT_CORNER = {"top": "upper left", "left": "lower left", "bottom": "lower right", "right": "upper right"}
OUTSIDE = "The long edge is cut to size already, with its seam allowance: do not trim it."


class Sewn:
    """The steps of one handout: its reading, its paper and the look of its pictures."""

    def __init__(self, reading: Reading, paper: Paper, look: Look) -> None:
        self.reading, self.paper, self.look = reading, paper, look
        self.sheet, self.made, self.said = reading.sheet, reading.made, reading.ruler
        self.told: set[str] = set()

    def boxes(self) -> Iterator[Box]:
        """A box for each thing that is made, in the order it is made."""
        for names in in_making_order(self.sheet):
            name = names[0]
            one, piece = step_giving(self.sheet, name), edge_piece(self.sheet, name)
            if name in self.sheet.strip_set:
                yield from (self.strip_set(each) for each in names if self.made.bill[each])
            elif name in self.sheet.unit:
                yield self.unit(name, self.sheet.unit[name])
            elif name in self.sheet.block:
                yield self.block(name, self.sheet.block[name])
            elif one is not None:
                yield self.step(one)
            elif piece is not None:
                yield from self.edge(name, piece)

    # -- words ---------------------------------------------------------------------------------------------------------

    def called(self, name: str) -> str:
        """A thing by its number and name."""
        return numbered(self.sheet, name)

    def size(self, name: str) -> str:
        """What a sewn thing measures, with its allowance."""
        panel = self.made.panel(name)
        return "" if panel is None else self.said.sizes(panel.size)

    def title(self, name: str, made: int | None = None) -> str:
        """A thing, and how many of it to make."""
        return f"{titled(self.sheet, name)}: make {self.made.bill[name] if made is None else made}"

    def rows(self, rows: list[list[Item]]) -> str:
        """Rows of pieces by their numbers."""
        said = "; ".join(
            f"row {number}: {', '.join(self.look.label(item.name) or item.name for item in row)}"
            for number, row in enumerate(rows, 1)
        )
        return said + (", turned as in the picture" if any(item.turn for row in rows for item in row) else "")

    def ends(
        self, name: str, finished: tuple[Fraction, Fraction] | None, trim: tuple[Fraction, Fraction] | None
    ) -> str:
        """What a block or unit is trimmed to, measures, and finishes at."""
        measures = f"It measures {self.size(name)} with its seam allowance"
        if trim is not None:
            measures = f"Trim it to {by(self.reading, trim)}, evenly on opposite sides"
        return measures + (f" and finishes {by(self.reading, finished)}." if finished is not None else ".")

    def box(self, title: str, said: list[str], picture: Drawn | None, share: float = 0.56, high: float = 200.0) -> Box:
        """One step."""
        return step(self.paper, title, said, picture, share, high)

    # -- strip sets and units ------------------------------------------------------------------------------------------

    def strip_set(self, name: str) -> Box:
        """Strips sewn side by side and cut across."""
        one, pieces = self.sheet.strip_set[name], self.made.bill[name]
        each, others = batch(self.sheet, name), [other for other in cut_together(self.sheet, name) if other != name]
        if one.of is not None and self.made.bill[one.of]:
            opened = f" Open the seam above {self.called(one.opened_above)}." if one.opened_above else ""
            said = [
                (
                    f"Cut {some(pieces, 'piece')} {exactly(self.reading, one.sub_cut)} wide from the strip sets of "
                    f"{numbered(self.sheet, one.of)}, beside the others.{opened}"
                ),
                f"A piece measures {self.size(name)}.",
            ]
            return self.box(f"{titled(self.sheet, name)}: cut {some(pieces, 'piece')}", said, None, 0.25, 150.0)
        from_each = f"{each} from each set"
        if any(self.made.bill[other] for other in others):
            from_each = f"and beside them those of {', '.join(numbered(self.sheet, other) for other in others)}"
        tube = any(self.sheet.strip_set[other].opened_above for other in others)
        said = [
            (
                f"Sew {', '.join(map(self.called, one.strips))} side by side in this order, from top to bottom. Sew "
                "each next seam from the other end, so that the set does not bend."
            ),
            (
                f"Cut the sets across into pieces {exactly(self.reading, one.sub_cut)} wide: {pieces} pieces, "
                f"{from_each}. Square up the end first."
            ),
            f"A piece measures {self.size(name)}.",
        ]
        if tube:
            said[1:1] = [
                "Sew the last strip to the first as well, so that each set is a tube; cut through both layers."
            ]
            said[3:3] = [f"Open the seam above {self.called(one.strips[0])}."]
        sets = sets_needed(self.sheet, name, self.made.bill)
        title = f"{titled(self.sheet, name)}: sew {some(sets, 'strip set')}, cut {some(pieces, 'piece')}"
        panel = self.made.panel(name)
        picture = None if panel is None else drawn.sewn_picture(panel, self.look, self.size(name))
        return self.box(title, said, picture, 0.25, 150.0)

    def unit(self, name: str, unit: UnitTable) -> Box:
        """A unit of two or four parts."""
        panel = self.made.panel(name)
        times = batch(self.sheet, name)
        made = -(-self.made.bill[name] // times) * times
        said = [unit_words(self.reading, unit), self.ends(name, unit.finished, unit.trim_to)]
        picture = None
        if panel is not None:
            picture = drawn.unit_picture(self.made, self.look, unit, panel, self.size(name))
            squares = drawn.squares_picture(self.made, self.look, unit)
            picture = picture if squares is None else beside([squares, *picture.pictures[1:]], columns=2)
        spare = made - self.made.bill[name]
        return self.box(self.title(name, made) + (f" ({spare} spare)" if spare else ""), said, picture, 0.45, 130.0)

    # -- blocks --------------------------------------------------------------------------------------------------------

    def block(self, name: str, block: BlockTable) -> Box:
        """A block of rows."""
        panel, rows = self.made.panel(name), block.rows
        if block.ready_made:
            said = [
                f"Take {self.made.bill[name]}, each {self.size(name)} with its seam allowance; measure them all first."
            ]
            return self.box(f"{titled(self.sheet, name)}: ready made", said, None)
        said = [f"From top to bottom, {self.rows(rows)}."]
        if any(len(row) > 1 for row in rows):
            said.append(
                "Sew each row from left to right. " + (ALTERNATELY if len(rows) > 1 else "Press as the arrows show.")
            )
        if len(rows) > 1:
            said.append(
                "Sew the rows to each other, seam intersections matched. Press these seams down in half of the "
                "blocks and up in the other half, and set them by turns: then they nest too."
            )
        said.append(self.ends(name, block.finished, block.trim_to))
        picture = drawn.rows_and_sewn(self.made, self.look, rows, panel, self.size(name)) if panel is not None else None
        return self.box(self.title(name), said, picture, 0.56, 210.0)

    # -- edge triangles ------------------------------------------------------------------------------------------------

    def edge(self, name: str, piece: EdgePiece) -> Iterator[Box]:
        """A side or corner triangle that is more than a piece of fabric."""
        if piece.how == "plain" and not piece.frame:
            return
        said = list(self._edge_words(name, piece))
        if piece.frame:
            words = FRAMED_SIDE if len(piece.frame) == 2 else FRAMED_CORNER
            said.append(words.format(first=self.called(piece.frame[0]), second=self.called(piece.frame[-1])))
        share = 0.56 if piece.how == "built" else 0.3
        yield self.box(self.edge_title(name), said, self._edge_picture(name, piece), share, 190.0)

    def _edge_words(self, name: str, piece: EdgePiece) -> Iterator[str]:
        """What is done before a frame goes on."""
        if piece.how == "plain":
            yield f"Begin with {self.called(str(piece.part))}."
        elif piece.how == "built":
            rows = piece.rows_at(where_of(name))
            yield f"From top to bottom, {self.rows(rows)}."
            yield from self._built(kind_of(name), rows)
        else:
            block = self.called(piece.block or self.sheet.setting.block or "")
            yield f"Sew {block} as for the quilt, one for each."
            yield CUT_BLOCKS.format(past=exactly(self.reading, piece.past))

    def _edge_picture(self, name: str, piece: EdgePiece) -> Drawn | None:
        """Its rows beside what they are sewn to, or what it is in the end."""
        panel, plain = self.made.panel(name), self.made.unframed(kind_of(name), where_of(name))
        if piece.how != "built" or plain is None:
            return None if panel is None else drawn.sewn_picture(panel, self.look, self.size(name))
        is_side = kind_of(name) == SIDE
        shown = plain if is_side else plain.turn(-135)
        size, align = self.said.sizes(shown.size), "start" if is_side else "centre"
        return drawn.rows_and_sewn(self.made, self.look, piece.rows_at(where_of(name)), shown, size, align)

    def _built(self, kind: str, rows: list[list[Item]]) -> Iterator[str]:
        """How a built triangle is sewn; of the later ones of a kind only that they are sewn like the first."""
        if kind in self.told:
            yield "Sew it as the one before."
            return
        self.told.add(kind)
        yield LIES[kind]
        yield f"Sew each row from left to right. {ALTERNATELY}" if len(rows) > 1 else "Sew the row; press it one way."
        if len(rows) > 1:
            centred = ", each row centred" if kind == CORNER else ""
            yield f"Sew the rows to each other, seam intersections matched{centred}; trim the tips that stand out."
        yield OUTSIDE

    def edge_title(self, name: str) -> str:
        """An edge triangle, where it lies if not all are alike, and how many to make."""
        kind = kind_of(name)
        at = [
            AT_CORNER[where] if kind == CORNER else where
            for where in EDGES
            if edge_name(self.sheet, kind, where) == name
        ]
        where = f" ({', '.join(at)})" if len(at) < len(EDGES) else ""
        return f"{called(name).capitalize()}{where}: make {self.made.bill[name]}"

    # -- explicit steps ------------------------------------------------------------------------------------------------

    def step(self, one: StepTable) -> Box:
        """A step that the sheet tells itself."""
        gives = " and ".join(titled(self.sheet, name) for name in one.gives)
        sewn = [(name, panel) for name in one.gives if (panel := self.made.panel(name)) is not None]
        pictures = [drawn.sewn_picture(panel, self.look, cut_short(name, LABEL, CAPTION_SIZE)) for name, panel in sewn]
        return self.box(
            f"{gives}: make {self.made.bill[one.gives[0]]}",
            [*self.step_words(one), *(f"{self.called(name)} measures {self.size(name)}." for name, _ in sewn)],
            beside(pictures) if pictures else None,
            0.5,
            220.0,
        )

    def step_words(self, one: StepTable) -> list[str]:
        """What a step says, in a sentence."""
        if one.cut is not None:
            stay = STAY_STITCH if self._on_the_bias(one) else ""
            return [
                (
                    f"{stay}Cut {self.called(one.cut)} in a straight line from {self.place(one.from_)} to "
                    f"{self.place(one.to)}: what lies left of that walk is {self.called(one.gives[0])}, the rest "
                    f"{self.called(one.gives[-1])}."
                )
            ]
        if one.turn is not None:
            way = "anticlockwise" if one.by and one.by > 0 else "clockwise"
            return [f"Turn {self.called(one.turn)} by {abs(one.by or 0):g} degrees, {way}."]
        if one.trim is not None:
            off = [
                f"{self.said.said(getattr(one, side))} off the {side}"
                for side in ("left", "right", "top", "bottom")
                if getattr(one, side)
            ]
            return [f"Trim {self.called(one.trim)}: {', '.join(off)}."]
        mine, theirs = map(self.called, one.sew or ())
        first, second = one.edges or ("right", "left")
        meet = {"start": "one end of both edges level", "end": "the other end of both edges level", "centre": "centred"}
        return [f"Sew the {first} edge of {mine} to the {second} edge of {theirs}, {meet[one.align]}."]

    def _on_the_bias(self, one: StepTable) -> bool:
        """Whether a cut runs neither level nor upright."""
        panel = self.made.panel(str(one.cut))
        size = (1.0, 1.0) if panel is None else panel.size

        def lies(spot):
            return [share * side for share, side in zip(PLACES[spot], size)] if isinstance(spot, str) else spot

        return all(abs(a - b) > EASED for a, b in zip(lies(one.from_), lies(one.to)))

    def place(self, spot: object) -> str:
        """A point of a panel in words."""
        if isinstance(spot, str):
            return f"its {spot}" + (" corner" if spot.startswith(("lower", "upper")) else "")
        x, y = (lengths.text(part, self.sheet.units, mark="in") for part in spot)  # type: ignore[attr-defined]
        return f"the point {x} from its left and {y} from its bottom"


def kind_of(name: str) -> str:
    """Whether an edge triangle is a side or a corner one."""
    return SIDE if name.endswith(SIDE) else CORNER
