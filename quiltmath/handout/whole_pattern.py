"""The pattern of a sheet, complete: materials, cutting, everything that is sewn, step by step, to the binding."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, NamedTuple

from ..draw import Picture
from ..draw.panels import panel_picture
from ..draw.plans import plan_picture
from ..draw.typeset import space
from ..making.cover import cover
from ..making.placed import placed
from ..review.report.contents import CAUTIONS
from . import assembly, buying_and_cutting, finishing
from .boxes import drawing, heading, listed, words
from .buying_and_cutting import seam_of
from .drawn import Look
from .sewing_steps import Sewn

if TYPE_CHECKING:
    from ..draw.typeset import Box, PaperPage
    from ..making import Made
    from ..review.reading import Reading
    from .paper import Paper

SCRAPS = (
    "Read everything through before you cut. Every size holds its seam allowance of {seam} already; sew a thread "
    "narrower (scant), for the fold takes some. Sew one block from scraps and measure it before you cut the rest."
)
STEPS = (
    "The numbers on the pieces are those of the cutting list. Right sides lie together whenever two pieces are sewn. "
    "An arrow shows which way a seam is pressed."
)


def pages(reading: Reading, paper: Paper) -> Iterator[PaperPage]:
    """The pages of the pattern."""
    return paper.flow(boxes(reading, paper), reading.sheet.title)


def boxes(reading: Reading, paper: Paper) -> Iterator[Box]:
    """All that stands on them, in order."""
    look = Look.of(reading.made)
    yield from _beginning(reading, paper, look)
    yield from buying_and_cutting.materials(reading, paper)
    yield from buying_and_cutting.cutting(reading, paper)
    steps = list(Sewn(reading, paper, look).boxes())
    if steps:
        yield heading(paper, "Units and blocks")
        yield from words(paper, STEPS, stays=True)
        yield from steps
    yield from assembly.assembly(reading, paper, look)
    yield from finishing.borders(reading, paper, look)
    yield from finishing.layers(reading, paper)
    if reading.sheet.instructions:
        yield heading(paper, "Order of work, as the pattern tells it")
        yield from listed(paper, reading.sheet.instructions, numbered=True)


def _beginning(reading, paper, look):
    """What the pattern is of: its picture and sizes, and what to mind."""
    sheet, said = reading.sheet, reading.ruler
    picture = _cover(reading.made, look)
    if picture is not None:
        yield drawing(paper, picture, 0.36 * paper.depth)
    size = reading.made.finished
    setting = sheet.setting
    facts = [
        f"Finished size: {said.sizes(sheet.finished or size)}" if sheet.finished or size else "",
        f"seam: {seam_of(reading)}",
        f"{_set(setting)}, {setting.style}",
    ]
    yield from words(paper, "; ".join(fact for fact in facts if fact) + ".")
    if sheet.other_size:
        yield from words(
            paper, f"Its other sizes ({', '.join(size.name for size in sheet.other_size)}) are not told here."
        )
    yield from words(paper, SCRAPS.format(seam=seam_of(reading)))
    yield from listed(paper, CAUTIONS, 9.0)
    yield space(4)


def _set(setting):
    """How many blocks are set, in words: across and down, or in rows or columns that differ."""
    rows = setting.rows or setting.columns or ()
    if len({len(row) for row in rows}) > 1:
        return f"{len(rows)} {'rows' if setting.rows else 'columns'}"
    return " x ".join(map(str, setting.size)) + " blocks"


class _Planned(NamedTuple):
    """A finished quilt as `plan_picture` takes it."""

    made: Made

    def placed(self):
        return placed(self.made)

    @property
    def size(self):
        return self.made.finished


def _cover(made, look) -> Picture | None:
    """The finished quilt."""
    if made.adds_up and made.lies is not None and not made.sheet.step and made.finished is not None:
        return plan_picture(_Planned(made), fabrics=dict(look.fabrics), measured=False)
    panel = made.bound if made.bound is not None else cover(made)
    if panel is None:
        return None
    return panel_picture(panel, show=("seams",), fabrics=dict(look.fabrics), seam=made.seam, name="The finished quilt")
