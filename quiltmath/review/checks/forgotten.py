"""How the checks speak of what a cutting list forgets, and the line that a corrected list has for it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from ...making.forgotten import Forgotten
from ...pattern.sheet import Sheet
from ...pattern.writing import as_data
from .check import some

if TYPE_CHECKING:
    from ..ruler import Ruler

PLACES = {
    ("setting", "block"): "the block that is set",
    ("setting", "rows"): "in the rows of the setting",
    ("setting", "columns"): "in the columns of the setting",
    ("setting", "between"): "between the level rows",
    ("setting", "alternate"): "set between the blocks",
    ("setting", "sashing"): "in the sashing",
    ("setting", "sides"): "in the side triangles",
    ("setting", "corners"): "in the corner triangles",
}


def place_of(path: list[Any]) -> str:
    """Where a quilt takes a piece, in words that follow "is".

    >>> place_of(["block", "star", "rows"]), place_of(["border", 1]), place_of(["setting", "sides"])
    ("in the block 'star'", 'in border 2', 'in the side triangles')
    """
    if path[0] in ("border", "step"):
        return f"in {path[0]} {path[1] + 1}"
    return PLACES.get((path[0], path[1])) or f"in the {path[0].replace('_', ' ')} {path[1]!r}"


def line_of(of: Ruler, found: Forgotten) -> str:
    """The line of the cutting list for it, in words; "" where its size is not known.

    >>> from fractions import Fraction
    >>> from quiltmath.pattern.cut import Cut
    >>> from quiltmath.review.ruler import Ruler
    >>> cut = Cut(part="T", fabric="white", size="2 7/8", count=72, cut="once")
    >>> line_of(Ruler(), Forgotten("T", ["unit", "hst", "parts"], 143, cut))
    '72 squares 2 7/8 in cut once'
    """
    cut = found.line
    if cut is None:
        return ""
    if cut.strip is not None:
        return f"{some(cut.count, 'strip')} {of.said(cut.strip)} across the width of fabric"
    square = cut.size is not None and cut.size[0] == cut.size[1]
    manner = f" cut {cut.cut}" if cut.diagonal else ""
    return f"{some(cut.count, cut.shape or ('square' if square else 'piece'))} {of.sizes(cut.size)}{manner}"


def is_piece(found: Forgotten) -> bool:
    """Whether only a piece cut from fabric can stand where it is taken: not in a row or a step, or as a block."""
    return found.path[0] in ("unit", "strip_set", "border") or found.path[1] in ("sashing", "sides", "corners")


def needed(found: Forgotten, line: str) -> str:
    """How many are needed, and what is cut for them, in words that follow a colon."""
    if not found.wanted:
        return "all that is made of it is missing"
    be = "is" if found.wanted == 1 else "are"
    if found.line is not None and found.line.count == found.wanted:
        return f"{line} {be} needed"
    return f"{found.wanted} {be} needed{f', {line}' if line else ''}"


def to_ask(found: Forgotten) -> str:
    """What to do about it, as a sentence."""
    them, they_are, their = ("them", "they are", "their") if found.wanted > 1 else ("it", "it is", "its")
    if found.line is None:
        return f"Ask for {their} size, and which fabric {they_are} cut from."
    if not found.fabric:
        return f"Ask which fabric {they_are} cut from."
    return f"Cut {them} from {found.fabric!r}."


def added(sheet: Sheet, found: Forgotten, place: int) -> tuple[tuple[tuple[Any, ...], Any], ...]:
    """The change to the sheet that adds its line to the cutting list at this place, the end; none where its fabric or
    its size is not known, or where a whole block is missing."""
    if found.line is None or not found.fabric or found.path[:2] == ["setting", "block"]:
        return ()
    return (((("cut", place)), as_data(found.line, sheet.units)),)


def unlisted_fabrics(sheet: Sheet) -> list[str]:
    """The fabrics that pieces are cut from and that stand on no shopping list, where there is one."""
    return sorted({cut.fabric for cut in sheet.cut} - sheet.fabric.keys()) if sheet.fabric else []


def idle_fabrics(sheet: Sheet) -> list[str]:
    """The fabrics that are bought and that nothing is cut from."""
    used: set[str | None] = {cut.fabric for cut in sheet.cut}
    used |= {one.fabric for one in (sheet.binding, sheet.backing, sheet.batting) if one is not None}
    bought = (name for name, one in sheet.fabric.items() if one.bought is not None or one.piece is not None)
    return [name for name in bought if name not in used]


def by_two_names(sheet: Sheet) -> tuple[str, str] | None:
    """The fabric that is cut and not listed and the one that is listed and not cut, where there is one of each."""
    unlisted, idle = unlisted_fabrics(sheet), idle_fabrics(sheet)
    return (unlisted[0], idle[0]) if len(unlisted) == len(idle) == 1 else None
