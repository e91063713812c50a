"""What the rows of blocks and of built triangles must agree in, what steps join, and what is trimmed."""

from __future__ import annotations

from math import inf

from ...making.sewn import trimmed_later
from ...pattern.names import SETTING, all_in
from ..finding import ByProof
from .agreed import Agreement
from .figures import Sum, mean, total
from .measures import Finished


def block_rows(measures, of):
    """The rows of each block: equally high in themselves, and as long as one another, or as the block is printed."""
    blocks = measures.sheet.block
    sized = [all_in(measures.sheet, name) for name, block in blocks.items() if block.finished is not None]
    for name, block in blocks.items():
        rows = measures.rows(block.rows)
        if not rows:
            continue
        widths, height = [measures.across(row) for row in rows], total(map(_height, rows))
        leaning = [row[0].slant + row[-1].slant for row in rows]
        trimmed, slants = block.trim_to is not None, any(leaning)
        printed = block.finished is not None or (trimmed and slants) or any(name in inside for inside in sized)
        about = ("block", name, "rows"), f"so that the rows of {name!r} fit together", ByProof("grid")
        if trimmed:
            yield from _trimmed(measures, of, name, zip(widths, leaning), height)
        if slants or not trimmed:
            yield from (Agreement(off, *about, printed=printed) for off in unlevel(block.rows, rows))
        if not trimmed:
            fitting = _fitting(measures, name, widths, leaning, height)
            yield from (Agreement(off, *about, printed=printed) for off in fitting)


def _trimmed(measures, of, name, rows, height):
    """The rows, (width, how far their ends slant) each, of a block that is trimmed, and their height: enough for it."""
    block, trim = measures.sheet.block[name], measures.finished(name)
    about = ("block", name, "rows"), f"so that {name!r} can be trimmed to {of.sizes(block.trim_to)}", ByProof("grid")
    for width, out in rows:  # where the ends slant, a piece may be left out as well
        yield Agreement(width.minus(trim.width).minus(out), *about, more=inf, evidence=out > 0)
    yield Agreement(height.minus(trim.height), *about, more=inf)


def _fitting(measures, name, widths, leaning, height):
    """What must come to nothing of a block whose rows are to fit: as they differ from its printed size, or from one
    another where none is printed and no row slants."""
    block = measures.sheet.block[name]
    if block.finished is None:
        return [each.minus(widths[0]) for each in widths[1:] if not any(leaning)]
    width, high = measures.figures(("block", name, "finished"), block.finished)
    return [each.minus(width) for each, out in zip(widths, leaning) if not out] + [height.minus(high)]


def _height(row):
    """The height of a row: of its parts on average, since they should be equally high."""
    return mean(part.height for part in row)


def unlevel(items, rows):
    """The differences in height within each row, each kind of place once."""
    for row, placed in zip(items, rows):
        places = dict(zip(((item.name, item.turn) for item in row), placed))
        first, *others = places.values()
        yield from (part.height.minus(first.height) for part in others)


def built_rows(measures, of):
    """The rows of built edge triangles, from the tip down: each is as long as the rows so far are high, for each of one
    or two slopes."""
    for key, slopes in (("sides", 1), ("corners", 2)):
        piece = getattr(measures.sheet.setting, key)
        for where in ("rows", "left", "bottom", "right") if piece is not None and piece.how == "built" else ():
            items = getattr(piece, where) or []
            rows = measures.rows(items)
            if not rows or slopes == 2 and not _stand_on_rows(items, rows):
                continue
            rows = _tip_trimmed([_ends_trimmed(row) for row in rows])
            aim = f"so that the rows of the built {key[:-1]} triangle fit together"
            about = ("setting", key, where), aim, ByProof("grid")
            so_far = Sum()
            for row in rows:
                so_far = so_far.plus(_height(row))
                yield Agreement(total(part.width for part in row).minus(so_far.times(slopes)), *about)
            yield from (Agreement(off, *about) for off in unlevel(items, rows))
            if piece.frame is None and measures.cell is not None and measures.sash is not None:
                beside = _along(measures, slopes)
                aim = f"to fit beside blocks that finish {of.said(measures.cell.value)}"
                yield Agreement(
                    so_far.times(slopes).minus(beside), ("setting", key, where), aim, ByProof("grid"), more=inf
                )


def _stand_on_rows(items, rows):
    """Whether every row of a built corner triangle that begins with a triangle stands on another row."""
    return all(_on_long_side(at) for at, row in zip(items, rows) if row[0].triangle)


def _along(measures, slopes):
    """How long (finished) the edge is that a side triangle (one slope) or a corner triangle (two) is sewn to."""
    sashing = measures.sheet.setting.sashing
    whole = sashing is not None and sashing.edge == "whole"
    return measures.cell.plus(measures.sash, slopes) if whole else measures.cell


def _on_long_side(items):
    """Whether a row is more than one triangle, or that one lies on its long side: another stands on no row."""
    return len(items) > 1 or items[0].turn % 90 != 0


def _ends_trimmed(row: list[Finished]) -> list[Finished]:
    """A row whose triangles, which are trimmed, are at most as high as its other parts."""
    high = max((part.height for part in row if not part.triangle), key=lambda side: side.value, default=None)
    if high is None:
        return row

    def trimmed(side):
        return high if side.value > high.value else side

    return [Finished(trimmed(part.width), trimmed(part.height), True) if part.triangle else part for part in row]


def _tip_trimmed(rows):
    """The rows with a tip that is one triangle trimmed to the width of the piece below it, where that is whole."""
    (tip, *others), *below = rows
    whole = [part for part in below[0] if not part.triangle] if below else []
    if others or not tip.triangle or len(whole) != 1 or tip.width.value <= whole[0].width.value:
        return rows
    wide = whole[0].width
    return [[Finished(wide, wide.times(tip.height.value / tip.width.value), True)], *below]


def joined_edges(measures, of):
    """Edges that explicit steps join, unless what they give is trimmed later, or they sew borders to the top."""
    later = trimmed_later(measures.sheet)
    for number, step in enumerate(measures.sheet.step):
        loose = step.sew is None or step.gives[0] in later or SETTING in all_in(measures.sheet, step.sew[0])
        joined = None if loose else measures.joined(step)
        if joined is None:
            continue
        (one, other), upright = joined
        off = one.height.minus(other.height) if upright else one.width.minus(other.width)
        yield Agreement(off, ("step", number), f"so that step {number + 1} joins equal edges", printed=False)


def trims(measures, of):
    """Units and blocks that print both their finished size and the size they are trimmed to, or come in."""
    for kind in ("block", "unit"):
        for name, made in getattr(measures.sheet, kind).items():
            key = "size" if kind == "block" and made.ready_made else "trim_to"
            if getattr(made, key) is None or made.finished is None:
                continue
            trims = measures.figures((kind, name, key), getattr(made, key))
            for trim, want in zip(trims, measures.figures((kind, name, "finished"), made.finished)):
                off = trim.minus(want).minus(2 * measures.seam)
                path = (kind, name, key)
                yield Agreement(off, path, f"to finish {of.sizes(made.finished)}", subject=path)
