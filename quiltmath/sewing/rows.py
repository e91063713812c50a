"""Many panels sewn one after another, as one chain-pieces a row: what repeats is sewn once and used again."""

from collections.abc import Iterable

from .arguments import Length
from .edges import Which
from .panel import SEAM, Align, Panel


def in_a_row(
    panels: Iterable[Panel],
    mine: Which = "right",
    theirs: Which = "left",
    seam: Length = SEAM,
    align: Align = "start",
    sewn: dict | None = None,
) -> Panel:
    """All the panels sewn in their order, each by its `theirs` edge to the `mine` edge of those before it.

    Neighbours are joined two by two, so a run of panels that comes again (the same objects) is sewn only
    once; pass one dict as `sewn` to several calls to share those runs between rows.

    >>> from quiltmath import sewing
    >>> in_a_row([sewing.patch(size=(2, 2))] * 5).size
    (8.0, 2.0)
    >>> in_a_row([])
    Traceback (most recent call last):
    ValueError: a row needs at least one panel
    """
    row, mine, theirs, align = tuple(panels), _fixed(mine), _fixed(theirs), _fixed(align)
    if not row:
        raise ValueError("a row needs at least one panel")
    done = {} if sewn is None else sewn

    def joined(run):
        if len(run) == 1:
            return run[0]
        key = (tuple(map(id, run)), mine, theirs, seam, align)
        if key not in done:
            half = 1
            while 2 * half < len(run):
                half *= 2
            result = joined(run[:half]).sew(joined(run[half:]), mine, theirs, seam, align)
            done[key] = run, result  # the run itself is kept, so that its ids stay its own
        return done[key][1]

    return joined(row)


def _fixed(asked):
    """What was asked for, in a form that can be remembered."""
    return tuple(map(_fixed, asked)) if isinstance(asked, (list, tuple)) else asked
