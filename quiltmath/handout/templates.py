"""True-size templates of the pieces of a quilt: cut line, seam line, grain arrow, name and how many.

A template larger than a page comes on several, which overlap and are joined at their marks. Each page has two check
squares, to be measured before anything is cut.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from ..draw.typeset import SMALL, Box, by_page, cut_short, line_step, paragraph
from ..making.pieces import cut_piece
from ..making.slants import slants_taken
from ..pattern.names import all_in, final, is_binding
from ..review.report.contents import CAUTIONS
from .checked import BAND, check_squares
from .refused import CannotHandOver
from .shaped import Template
from .tiles import MOST_TILES, Tiling, draw_tile, tiling

if TYPE_CHECKING:
    from ..draw.typeset import PaperPage
    from ..pattern import Sheet
    from ..pattern.cut import Cut
    from ..review.reading import Reading
    from ..sewing import Panel
    from .paper import Paper

GAP = 22.0  # px between templates on one page
LEARNT = "Solid line: cut. Dashed line: the seam. Arrow: the lengthwise grain."
BY_RULER = (
    "Strips for borders, sashing, frames and binding, and whole squares that are sewn before they are cut, have no "
    "template: cut them with the ruler."
)


def templates(reading: Reading) -> list[Template]:
    """The templates of a sheet, in the order of its cutting list.

    >>> from quiltmath import pattern
    >>> from quiltmath.pattern.sheet import EXAMPLE
    >>> from quiltmath.review.reading import Reading
    >>> one, = templates(Reading(pattern.read_text(EXAMPLE)))
    >>> one.part, one.count, one.size, one.cut_line
    ('A', 16, '3 1/2 in', ((0.0, 0.0), (3.5, 0.0), (3.5, 3.5), (0.0, 3.5)))
    """
    found, wanted = [], _with_template(reading.sheet)
    for cut in reading.sheet.cut:
        for panel, count, slant in _panels(reading, cut) if cut.part in wanted else ():
            size = reading.ruler.sizes(reading.sheet.cut_size(cut))
            found.append(Template.of(cut, panel.patches[0], count, size, reading.made.seam, slant))
    return found


def _panels(reading: Reading, cut: Cut) -> Iterator[tuple[Panel, int, str | None]]:
    """(One piece of a line of the cutting list, how many the quilt takes, the way it slants); of rectangles cut both
    ways, one of each."""
    made, count = reading.made, reading.counts[cut.part]
    panel = made.panel(cut.part)
    if panel is None:
        return
    taken = slants_taken(made.sheet, made.bill)
    if not cut.halved_rectangle or cut.part not in taken:
        yield panel, count, None
        return
    for slant, number in taken[cut.part].items():
        yield cut_piece(made, cut, slant), number, None if cut.slant == slant else slant


def _with_template(sheet: Sheet) -> frozenset[str]:
    """The parts of a quilt top that are sewn as they are cut, and no mere strips."""
    setting, sashing = sheet.setting, sheet.setting.sashing
    strips = {name for border in sheet.border for name in (border.sides, border.top)}
    strips |= {name for one in sheet.strip_set.values() for name in one.strips}
    strips |= {name for piece in (setting.sides, setting.corners) if piece is not None for name in piece.frame or ()}
    if sashing is not None:
        strips |= {sashing.part, *(sashing.strip or ())}
    strips |= {cut.part for cut in sheet.cut if cut.strip is not None or is_binding(sheet, cut)}
    return all_in(sheet, final(sheet)) - strips - _sewn_before_cut(sheet)


def _sewn_before_cut(sheet: Sheet) -> set[str]:
    """Whole squares of units that are cut, or trimmed, once they are sewn, where no block takes them as they are."""
    in_rows = {item.name for block in sheet.block.values() for row in block.rows for item in row}
    found = set()
    for unit in sheet.unit.values():
        corners = unit.kind in ("flying geese", "square in a square", "snowball")
        of_unit = set(unit.parts[1:] if corners and not _from_squares(sheet, unit) else unit.parts)
        found |= {name for name in of_unit if (cut := sheet.part(name)) is not None and cut.cut == "whole"}
    return found - in_rows


def _from_squares(sheet, unit):
    """Whether flying geese are made four at a time, from one large square."""
    goose = sheet.part(unit.parts[0])
    return unit.kind == "flying geese" and goose is not None and len(set(sheet.cut_size(goose))) == 1


def pages(reading: Reading, paper: Paper) -> Iterator[PaperPage]:
    """The pages of the templates: small ones together, then each larger one in its tiles."""
    whole: list[Tiling] = []
    large: list[Tiling] = []
    for template in templates(reading):
        lies = tiling(template, paper)
        if len(lies.tiles) > MOST_TILES:
            raise CannotHandOver(
                f"the template of {template.part} ({template.size}) takes {len(lies.tiles)} pages of {paper.name}, "
                f"{len(lies.tiles) - MOST_TILES} more than {MOST_TILES}: cut it by its size with a ruler, and print "
                "the other parts of the handout, such as --only pattern,cutting"
            )
        (whole if len(lies.tiles) == 1 else large).append(lies)
    if whole or not large:
        yield from _small([lies.template for lies in whole], f"Templates: {reading.sheet.title}", paper)
    for lies in large:
        for tile in lies.tiles:
            page = paper.page(f"Template {lies.template.part}: page {tile.name} of {len(lies.tiles)}")
            draw_tile(page, paper, lies, tile)
            check_squares(page, paper, LEARNT, CAUTIONS[0])
            yield page


def _small(found: Sequence[Template], heading: str, paper: Paper) -> Iterator[PaperPage]:
    """Templates that fit a page, as many on each as lie beside and below one another."""
    boxes = [_row(row) for row in _rows(found, paper)]
    boxes.append(Box(*paragraph(BY_RULER, paper.room)))
    for together in by_page(boxes, paper.depth - BAND):
        page, top = paper.page(heading), paper.top
        for box in together:
            box.draw(page, top)
            top += box.height
        check_squares(page, paper, LEARNT, CAUTIONS[0])
        yield page


def _rows(found: Sequence[Template], paper: Paper) -> Iterator[list[Template]]:
    row: list[Template] = []
    for template in sorted((one.lying_flat() for one in found), key=lambda one: one.height):
        if row and sum(_wide(one) + GAP for one in row) + _wide(template) > paper.room:
            yield row
            row = []
        row.append(template)
    if row:
        yield row


def _wide(template: Template) -> float:
    return max(template.width, 110.0)


def _row(row: Sequence[Template]) -> Box:
    """Templates side by side, each with its words below it."""
    high, words = max(template.height for template in row), 2 * line_step(SMALL) + 8

    def draw(page: PaperPage, top: float) -> None:
        left = page.left
        for template in row:
            template.draw(page, left, top + high - template.height)
            room = _wide(template) + GAP / 2
            for number, line in enumerate(template.words):
                page.text(left, top + high + 14 + number * line_step(SMALL), cut_short(line, room, SMALL), SMALL)
            left += _wide(template) + GAP

    return Box(high + words + 12, draw)
