"""A chart for the wall: the squares that triangles are cut from, sizes on point and built triangles, on one page."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import TYPE_CHECKING, NamedTuple

from .. import lengths, proofs
from ..draw.typeset import cut_short
from ..settings.built import corner_rows, side_rows
from ..usual import MEASURED, RULER, SEAM_IN
from .paper import MARGIN

if TYPE_CHECKING:
    from ..draw.typeset import PaperPage
    from .paper import Paper

HEADING, HEAD, FIGURE, BOLD = 10.5, 8.0, 10.5, 12.5  # points
GREY = "#e4e4e4"
HALF = Fraction(1, 2)
BLOCKS = {"in": [Fraction(side) for side in range(4, 17)], "cm": [10 + step * Fraction(5, 2) for step in range(13)]}
UNITS = {"in": [1 + step * HALF for step in range(13)], "cm": [Fraction(side) for side in range(3, 16)]}
PATCHES = {"in": [1 + step * HALF for step in range(5)], "cm": [3 + step * Fraction(1) for step in range(5)]}
GENEROUS = {"in": Fraction(1), "cm": Fraction(5, 2)}
DECIMALS = {"in": 3, "cm": 2}
NAMES = {"in": "inches", "cm": "centimetres"}
ROWS_OF = (2, 3, 4, 5, 6)  # patches along a side of the block


class Column(NamedTuple):
    """A column of a chart: its head in two lines, its figures, whether they are the ones to cut, its share of room."""

    head: tuple[str, str]
    figures: list[str]
    to_cut: bool = False
    share: float = 1.0


class Chart(NamedTuple):
    """A table under a heading, and the words below its heading."""

    heading: str
    columns: tuple[Column, ...]


def setting_triangles(unit: str) -> Chart:
    """The squares that side and corner triangles are cut from, for blocks from 4 to 16 in or 10 to 40 cm.

    >>> chart = setting_triangles("in")
    >>> [column.figures[8] for column in chart.columns]                                  # a block of 12 in
    ['12', '17', '18.178', '18 1/4', '19 1/4', '9.339', '9 3/8', '10 3/8']
    """
    blocks, more = BLOCKS[unit], GENEROUS[unit]
    columns = [
        Column(("finished", "block"), [_written(block, unit) for block in blocks], share=0.8),
        Column(
            ("wide", "on point"),
            [_measured(proofs.diagonal.value(finished=block), unit) for block in blocks],
            share=1.1,
        ),
    ]
    for proof, name in ((proofs.side_triangle, "side"), (proofs.corner_triangle, "corner")):
        cuts = [proof.cut(block=block, unit=unit, step=RULER[unit]) for block in blocks]
        exact = [f"{proof.value(block=block, seam=SEAM_IN[unit]):.{DECIMALS[unit]}f}" for block in blocks]
        columns += [
            Column((f"{name}:", "exact"), exact, share=0.95),
            Column((f"{name}:", "cut"), [_written(cut, unit) for cut in cuts], True, 1.15),
            Column((f"{name}:", "generous"), [_written(cut + more, unit) for cut in cuts]),
        ]
    return Chart("Setting triangles: side squares cut twice, corner squares cut once", tuple(columns))


def _written(value, unit):
    """A length in `unit`, bare: the heading of its section names the unit."""
    return lengths.text(value) if unit == "in" else f"{float(value):.{DECIMALS[unit]}f}".rstrip("0").rstrip(".")


def _measured(value, unit):
    step = lengths.parse(MEASURED[unit]) / lengths.INCHES[unit]
    return _written(lengths.ruler(value, step, "nearest"), unit)


def half_and_quarter_squares(unit: str) -> Chart:
    """The squares that half- and quarter-square triangles are cut from.

    >>> [column.figures[4] for column in half_and_quarter_squares("in").columns]
    ['3', '3 7/8', '4 1/4']
    """
    sizes, columns = UNITS[unit], []
    for proof, head in ((proofs.half_square, ("HST:", "cut once")), (proofs.quarter_square, ("QST:", "cut twice"))):
        cuts = [proof.cut(finished=size, unit=unit, step=RULER[unit]) for size in sizes]
        columns.append(Column(head, [_written(cut, unit) for cut in cuts], True, 1.15))
    first = Column(("finished", "unit"), [_written(size, unit) for size in sizes])
    return Chart("Triangles in units", (first, *columns))


def built_triangles() -> Chart:
    """What built side and corner triangles take, for blocks of two by two to six by six squares.

    >>> [column.figures[2] for column in built_triangles().columns]                      # 4 by 4 squares
    ['4 by 4', '4', '6', '4', '2', '2', '4']
    """
    columns = [Column(("squares", "in a block"), [f"{count} by {count}" for count in ROWS_OF], share=1.2)]
    for kind, rows in (("side", side_rows), ("corner", corner_rows)):
        taken = [_taken(rows, count) for count in ROWS_OF]
        for place, head in enumerate(((f"{kind}:", "rows"), (f"{kind}:", "squares"), (f"{kind}:", "ends"))):
            columns.append(Column(head, [str(one[place]) for one in taken], share=1.1))
    return Chart("Built triangles: rows, squares, end triangles of each", tuple(columns))


def _taken(rows, count):
    """How many rows, squares and end triangles one built triangle has."""
    made = rows([["A"] * count for _ in range(count)])
    names = [item if isinstance(item, str) else item["name"] for row in made for item in row]
    squares = names.count("A")
    return len(made), squares, len(names) - squares


def end_triangles(unit: str) -> Chart:
    """The square that the end triangles of a built triangle are cut from, cut twice, by the finished square."""
    sizes = PATCHES[unit]
    cuts = [proofs.side_triangle.cut(block=size, unit=unit, step=RULER[unit]) for size in sizes]
    return Chart(
        f"End triangles, {unit}",
        (
            Column(("finished", "square"), [_written(size, unit) for size in sizes]),
            Column(("end square:", "cut twice"), [_written(cut, unit) for cut in cuts], True, 1.2),
        ),
    )


def pages(paper: Paper) -> Iterator[PaperPage]:
    """The chart, one page."""
    page = paper.page("Setting triangles, half- and quarter-square triangles, built triangles")
    top, row = paper.top, (paper.depth - 3 * 62.0) / 31.6
    for unit in NAMES:
        page.text(MARGIN, top + 14, _section(unit), HEADING, bold=True)
        _draw(page, MARGIN, top + 22, paper.room * 0.73, row, setting_triangles(unit))
        _draw(page, MARGIN + paper.room * 0.755, top + 22, paper.room * 0.245, row, half_and_quarter_squares(unit))
        top += 22 + 40 + 13 * row + 10
    _draw(page, MARGIN, top, paper.room * 0.52, row, built_triangles())
    for place, unit in enumerate(NAMES):
        _draw(page, MARGIN + paper.room * (0.55 + 0.235 * place), top, paper.room * 0.215, row, end_triangles(unit))
    yield page


def _section(unit):
    step = RULER[unit] if unit != "in" else f"{RULER[unit]} in"
    return (
        f"In {NAMES[unit]}. Seam {_written(SEAM_IN[unit], unit)} {unit}; sizes to cut rounded up to {step}; generous: "
        f"{_written(GENEROUS[unit], unit)} {unit} more."
    )


def _draw(page: PaperPage, left: float, top: float, room: float, row: float, chart: Chart) -> None:
    """One table with its upper left corner there: every other line grey, the figures to cut bold."""
    page.text(left, top + 10, cut_short(chart.heading, room, HEAD, True), HEAD, bold=True)
    whole, top = sum(column.share for column in chart.columns), top + 16
    count = len(chart.columns[0].figures)
    for line in range(0, count, 2):
        page.rule(left, top + 26 + line * row, room, row, GREY)
    page.rule(left, top + 25, room, 1.5)
    right = left
    for column in chart.columns:
        right += room * column.share / whole
        for place, words in enumerate(column.head):
            page.text(right - 5, top + 9 + 12 * place, words, HEAD, bold=column.to_cut, align="right")
        for line, figure in enumerate(column.figures):
            points = BOLD if column.to_cut else FIGURE
            page.text(right - 5, top + 26 + (line + 0.74) * row, figure, points, bold=column.to_cut, align="right")
