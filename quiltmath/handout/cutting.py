"""The cutting diagrams of a quilt: for each fabric where every piece lies on it, the longest and largest first."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING, NamedTuple

from ..draw.typeset import BODY, SMALL, Box, paragraph, space, stacked
from ..making import shaped
from ..making.slants import in_words, slants_taken
from ..review.report.contents import CAUTIONS
from ..yardage import STRAIGHTENED
from .diagrams import Diagram, diagram_boxes
from .numbered import numbers

if TYPE_CHECKING:
    from ..draw.typeset import PaperPage, Piece
    from ..pattern.cut import Cut
    from ..review.reading import Reading
    from ..review.taken import FabricPlan
    from .paper import Paper

HEADING = 13.0  # points
LEARNT = (
    "Square up the cut end first. Cut the strips in the order of their numbers, each across the whole width, then "
    "sub-cut it as drawn; selvages lie left and right, and the lengthwise grain runs up the page. Hatched fabric is "
    "left over."
)
CUT = {
    "whole": "",
    "once": ", then cut once on the diagonal",
    "twice": ", then cut twice on the diagonals",
}


class FabricDiagram(NamedTuple):
    """One fabric: what its plan says, and its `Diagram`; None where `said` tells why there is none."""

    fabric: str
    said: str
    diagram: Diagram | None


def fabric_diagrams(reading: Reading) -> Iterator[FabricDiagram]:
    """The cutting diagram of each fabric of a sheet, in the order of its cutting list.

    >>> from quiltmath import pattern
    >>> from quiltmath.pattern.sheet import EXAMPLE
    >>> from quiltmath.review.reading import Reading
    >>> one, = fabric_diagrams(Reading(pattern.read_text(EXAMPLE)))
    >>> one.said
    '7 in of fabric 40 in wide: buy 1/4 yd. 30 % of it is left over.'
    >>> one.diagram.labels, len(one.diagram.places)
    ({'A': '1'}, 16)
    """
    sheet = reading.sheet
    names = [cut.fabric for cut in sheet.cut] + ([sheet.binding.fabric] if sheet.binding is not None else [])
    for fabric in dict.fromkeys(names):
        if sheet.fabric_piece(fabric) is not None:
            yield from _in_pieces(reading, fabric)
            continue
        plan = reading.plan(fabric)
        if plan.pieces:
            yield _fabric_diagram(reading, fabric, plan)


def _in_pieces(reading: Reading, fabric: str) -> Iterator[FabricDiagram]:
    """The diagram of a fabric that is bought in pieces: those that are cut alike once."""
    found, say, listed = reading.in_pieces(fabric), reading.ruler, reading.sheet.fabric[fabric]
    if not found.pieces:
        return
    laid = found.laid
    if laid is None:
        yield FabricDiagram(fabric, f"Not drawn: {found.refused or 'it has more pieces than are drawn'}.", None)
        return
    numbered = "; ".join(f"no. {number}: {count} of them" for number, (count, _) in enumerate(laid.alike, 1))
    said = f"{say.pieces(laid.count, listed.piece)}, cut as drawn: {numbered}. {_left(laid)}"
    yield FabricDiagram(fabric, said, Diagram(laid, *_labels(reading, found.pieces)))


def _labels(reading, pieces):
    """The numbers of the parts, and how each is cut up."""
    known = numbers(reading.sheet)
    named = {piece.part: known.get(piece.part, piece.part) for piece in pieces}
    return named, {cut.part: _drawn(cut) for cut in reading.sheet.cut}


def _drawn(cut: Cut) -> str:
    """How the pieces of a line are drawn cut up: rectangles that are cut both ways, or nobody says which, whole."""
    if cut.shape is not None:
        return "whole"  # its strips are drawn
    return cut.cut if not cut.halved_rectangle else cut.slant if cut.slant in ("left", "right") else "whole"


def _cut_up(reading: Reading, cut: Cut) -> str:
    """How the pieces of a line are cut once they are cut out, in words."""
    if cut.shape is not None:
        return f", for {shaped.in_words(cut.shape, cut.count)} in all, tip up and tip down by turns"
    said = in_words(cut, slants_taken(reading.sheet, reading.made.bill).get(cut.part, {}))
    return CUT[cut.cut] + (f", {said}" if said else "")


def _left(laid):
    return f"{round(100 * laid.waste)} % of it is left over."


def _fabric_diagram(reading: Reading, fabric: str, plan: FabricPlan) -> FabricDiagram:
    if plan.refused or plan.laid is None:
        many = f"it has {sum(piece.count for piece in plan.pieces):,} pieces, more than are drawn"
        return FabricDiagram(fabric, f"Not drawn: {plan.refused or many}.", None)
    say, laid = reading.ruler, plan.laid
    buy = say.to_buy(laid.length + STRAIGHTENED)
    prints = reading.sheet.prints(fabric)
    said = (f"Of each of {prints} prints: " if prints > 1 else "") + (
        f"{say.up(laid.length)} of fabric {say.said(laid.usable_width)} wide: buy {buy}. {_left(laid)}"
    )
    return FabricDiagram(fabric, said, Diagram(laid, *_labels(reading, plan.pieces)))


def pages(reading: Reading, paper: Paper) -> Iterator[PaperPage]:
    """The pages of the cutting diagrams."""
    return paper.flow(_boxes(reading, paper), f"Cutting diagrams: {reading.sheet.title}")


def _boxes(reading: Reading, paper: Paper) -> Iterable[Box]:
    yield Box(*paragraph(LEARNT, paper.room))
    yield Box(*paragraph(CAUTIONS[0], paper.room))
    for one in fabric_diagrams(reading):
        yield space(10)
        yield Box(*_heading(one, reading, paper), stays=True)
        if one.diagram is not None:
            yield from diagram_boxes(one.diagram, reading.ruler.said, paper)
    if reading.sheet.binding is not None and reading.sheet.binding.style == "bias":
        yield Box(*paragraph("The bias binding is cut from a piece of its own, which is not drawn here.", paper.room))


def _heading(one: FabricDiagram, reading: Reading, paper: Paper) -> Piece:
    """The fabric's name, how much of it to buy, and what each number stands for."""
    lines = [paragraph(one.fabric, paper.room, points=HEADING, bold=True), paragraph(one.said, paper.room, points=BODY)]
    if one.diagram is not None:
        lines += [paragraph(line, paper.room - 12, 12, SMALL) for line in _key(one.diagram, reading)]
    return stacked([*lines, (4.0, lambda page, top: None)], 1.0)


def _key(diagram: Diagram, reading: Reading) -> Iterator[str]:
    cuts = {cut.part: cut for cut in reading.sheet.cut}
    joined = {strip.cuts[0].piece.part: strip for strip in diagram.plan.strips if strip.joined}
    for piece in diagram.plan.pieces:
        label, shape = diagram.labels[piece.part], "square" if piece.width == piece.height else "piece"
        name = "" if label == piece.part else f", {piece.part}"
        size = reading.ruler.sizes((piece.width, piece.height))
        words = f"{label}{name}: {piece.count:,} {shape}{'s' * (piece.count != 1)} {size}"
        if piece.part in joined:
            strips = joined[piece.part].count
            words += f", from {strips} strip{'s' * (strips != 1)} joined end to end"
        yield words + (_cut_up(reading, cuts[piece.part]) if piece.part in cuts else "")
