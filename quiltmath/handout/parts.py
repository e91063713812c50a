"""The parts of a handout: what each is called, which module draws it, and the handout that they make together."""

from __future__ import annotations

from collections.abc import Iterable
from importlib import import_module
from typing import TYPE_CHECKING, NamedTuple

from .paper import Pages, paper
from .refused import CannotHandOver
from .supplied import supplied

if TYPE_CHECKING:
    from ..review import Review


class Part(NamedTuple):
    """A part of a handout, drawn by a `module` of this room.

    A name that begins with a dot is a module of another room, loaded like the others when it is drawn. That module's
    function `pages` takes a `review.reading.Reading` and a `Paper` for a part `of_sheet`, a `Paper` alone
    for any other, and gives `PaperPage`s. Parts that are not `usual` come only where they are named.
    """

    name: str
    holds: str
    module: str
    of_sheet: bool = True
    usual: bool = True


PARTS = (
    Part("pattern", "the pattern, from materials to binding", "whole_pattern"),
    Part("cutting", "cutting diagrams, one for each fabric", "cutting"),
    Part("templates", "true-size templates of the pieces", "templates", usual=False),
    Part("charts", "a chart for the wall: triangles, squares, sizes on point", "charts", of_sheet=False, usual=False),
    Part("worksheets", "a page for each notebook, and one for the seam test", ".demos.on_paper", False, False),
)


LARGEST = 150
"""Inches: a quilt with a longer side is not printed (common practice: 120 cover the largest bed)."""


def handout(found: Review | None = None, only: Iterable[str] = (), paper_name: str | None = None) -> Pages:
    """The handout of a reviewed sheet that passes, or of its correction; `only` names the parts it shall have.

    Parts that are not of a sheet (charts, say) need none. Refused where the sheet does not pass even corrected, and
    where a side of its quilt is longer than `LARGEST`.
    """
    on, parts = paper(paper_name), _chosen(tuple(only))
    if found is None:
        needing = [part.name for part in parts if part.of_sheet]
        if needing:
            raise CannotHandOver(f"a sheet is needed for {', '.join(needing)}; got none: name the file of one")
        pages = Pages("Quiltmath", on)
    else:
        pages = Pages(found.sheet.title, on)
    reading = None if found is None else supplied(_of_a_size_to_print(passing(found).reading))
    for part in parts:
        draw = import_module(f".{part.module}", __package__).pages
        pages.add(part.name, draw(reading, on) if part.of_sheet else draw(on))
    return pages


def _of_a_size_to_print(reading):
    """The reading itself; refused where its quilt is larger than any."""
    size = reading.made.finished
    if size is not None and max(size) > LARGEST:
        raise CannotHandOver(
            f"a quilt that is handed over measures at most {reading.ruler.said(LARGEST)} a side; got "
            f"{reading.ruler.sizes(size)}: look at how many blocks it is set of, across and down"
        )
    return reading


def _chosen(only):
    """The parts of these names, in the order of a handout; without a name the usual ones."""
    known = {part.name: part for part in PARTS}
    unknown = [name for name in only if name not in known]
    if unknown:
        raise CannotHandOver(
            f"a handout has the parts {', '.join(known)}; got {unknown[0][:40]!r}: "
            f"write for example --only {PARTS[0].name}"
        )
    return [part for part in PARTS if part.name in only or (part.usual and not only)]


def passing(found: Review) -> Review:
    """The review of its correction, for a typo that stops nobody is not handed on either; the review itself where it
    says go and nothing is corrected; refused where nothing passes."""
    if found.verdict == "go" and not found.findings:
        return found
    right = found.correction
    if right.passes and right.changes:
        return right.review
    if found.verdict == "go":
        return found
    more = len(right.missing) - 1
    raise CannotHandOver(
        f"{found.sheet.title[:60]!r} is not ready to be handed over, even corrected: {right.missing[0]}"
        + (f" And {more} thing{'s' * (more > 1)} more." if more else "")
        + " Settle what the review asks, then try again"
    )
