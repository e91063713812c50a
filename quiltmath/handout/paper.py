"""The paper a handout is printed on, its pages with their title line and footer, and the one PDF they are saved to.

Lengths are px, 96 to the inch, downwards from the top of the page, so that 96 px on the page are one inch of fabric.
"""

from __future__ import annotations

import locale
import os
from collections.abc import Iterable, Iterator, Mapping
from io import BytesIO
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from .. import resources
from ..draw.typeset import SMALL, PaperPage, by_page, cut_short, save_pages, wide

if TYPE_CHECKING:
    from matplotlib.figure import Figure

    from ..draw.typeset import Box

PX = 96.0  # to the inch
MM = PX / 25.4
MARGIN = 48.0  # no printer needs more
HEAD, FOOT = 26.0, 22.0  # the title line and the footer, within the margins
HEADING = 12.0  # points
# Where Letter is the usual paper, by the Unicode CLDR (supplemental data, paperSize "US-Letter"); from memory.
LETTER_LANDS = frozenset(("BZ", "CA", "CL", "CO", "CR", "GT", "MX", "NI", "PA", "PH", "PR", "SV", "US", "VE"))
NO_LOCALE = ("", "C", "POSIX")


class Paper(NamedTuple):
    """A size of paper: its name, its width and height in px."""

    name: str
    width: float
    height: float

    @property
    def room(self) -> float:
        """The width between the margins, px."""
        return self.width - 2 * MARGIN

    @property
    def top(self) -> float:
        """Where the first box of a page begins, below the title line, px from its top."""
        return MARGIN + HEAD

    @property
    def depth(self) -> float:
        """The height between title line and footer, px."""
        return self.height - 2 * MARGIN - HEAD - FOOT

    def page(self, heading: str) -> PaperPage:
        """An empty page with its title line.

        >>> page = PAPERS["Letter"].page("Cutting")
        >>> page.width, page.height, page.left
        (816.0, 1056.0, 48.0)
        """
        page = PaperPage(self.width, self.height, MARGIN)
        page.text(MARGIN, MARGIN + 12, cut_short(heading, self.room, HEADING, bold=True), HEADING, bold=True)
        page.rule(MARGIN, MARGIN + HEAD - 8, self.room, 1.5)
        return page

    def flow(self, boxes: Iterable[Box], heading: str) -> Iterator[PaperPage]:
        """The boxes set on as many pages as they take, all under one title line."""
        for together in by_page(boxes, self.depth):
            page, top = self.page(heading), self.top
            for box in together:
                box.draw(page, top)
                top += box.height
            yield page


PAPERS = {
    "Letter": Paper("Letter", 8.5 * PX, 11 * PX),
    "A4": Paper("A4", 210 * MM, 297 * MM),  # ISO 216
}


def paper(name: str | None = None, environment: Mapping[str, str] | None = None) -> Paper:
    """The paper of this name, in capitals or not; without a name the usual one of the reader's country.

    >>> paper("a4").name, paper(environment={"LANG": "en_US.UTF-8"}).name
    ('A4', 'Letter')
    >>> paper("A3")
    Traceback (most recent call last):
    ValueError: a handout is printed on Letter or A4; got 'A3': write for example --paper A4
    """
    if name is None:
        return PAPERS["Letter" if _country(environment) in LETTER_LANDS else "A4"]
    for known in PAPERS.values():
        if known.name.lower() == str(name).strip().lower():
            return known
    raise ValueError(
        f"a handout is printed on {' or '.join(PAPERS)}; got {str(name)[:40]!r}: write for example --paper A4"
    )


def _country(environment):
    """The country that the machine's settings name, "" where they name none."""
    known = os.environ if environment is None else environment
    named = next((known[key] for key in ("LC_ALL", "LC_PAPER", "LANG") if known.get(key)), None)
    if named is None and environment is None:
        named = locale.getlocale()[0]  # where no such variable is set, as on Windows
    language = (named or "").partition(".")[0].partition("@")[0]
    return "" if language in NO_LOCALE else language.replace("-", "_").rpartition("_")[2].upper()


class Pages:
    """The pages of one handout, to which each of its parts adds; `title` stands in every footer.

    >>> pages = Pages("Lap quilt", PAPERS["A4"])
    >>> pages.add("the pattern", [PAPERS["A4"].page("Cutting")])
    >>> len(pages), pages.pdf()[:5]
    (1, b'%PDF-')
    """

    def __init__(self, title: str, paper: Paper) -> None:
        self.title, self.paper = title, paper
        self._pages: list[tuple[str, PaperPage]] = []

    def __len__(self) -> int:
        return len(self._pages)

    def add(self, part: str, pages: Iterable[PaperPage]) -> None:
        """Add the pages of a part, named in their footers."""
        self._pages += [(part, page) for page in pages]

    def figures(self) -> Iterator[Figure]:
        """The pages in order as matplotlib Figures, each with its footer."""
        for number, (part, page) in enumerate(self._pages, 1):
            end, low = f"{part} · page {number} of {len(self)}", page.height - MARGIN
            title = cut_short(self.title, self.paper.room - wide(end, SMALL) - 20, SMALL)
            footer = [
                page.text(MARGIN, low, title, SMALL),
                page.text(page.width - MARGIN, low, end, SMALL, align="right"),
            ]
            yield page.figure
            for one in footer:
                one.remove()

    def pdf(self) -> bytes:
        """The handout as the bytes of a PDF."""
        file = BytesIO()
        save_pages(file, self.figures(), cut_short(self.title, self.paper.room, SMALL))
        return file.getvalue()

    def save(self, place: str | Path, force: bool = False) -> Path:
        """Write the handout to a .pdf file, whole or not at all; over an existing one only by `force`."""
        if Path(place).suffix.lower() != ".pdf":
            raise resources.CannotSave(
                f"a handout is a .pdf file; got {resources.shown(place)}: write for example --save handout.pdf"
            )
        return resources.save_as_named(place, self.pdf(), force)
