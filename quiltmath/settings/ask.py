"""Asking for a plan: lengths as numbers or text, blocks or sizes of blocks; what cannot exist is refused with its limit."""
from . import asked
from .on_point import OnPoint


def on_point(across, down, block, sashing=0, *, cornerstones=True, edge="centre", alternate=None, floating=0, seam="1/4",
             unit="in", fabrics=None):
    """A quilt set on point: `across` blocks along its top edge, `down` along its side, and others in the gaps between.

    `block` is a finished size or a `blocks.Block`; `alternate`, "plain" or a block, goes into the gaps. With `sashing` the
    `edge` runs through the "centre" of the outer cornerstones or past them, "whole". Blocks float inside the edge by
    `floating`. `fabrics` names the cloth for "setting", "sashing", "cornerstone".

    >>> plan = on_point(across=4, down=4, block=10, alternate="plain")
    >>> plan.main_blocks, plan.alternate_blocks, plan.side_triangles, plan.width
    (16, 9, 12, 40*sqrt(2))
    >>> on_point(across=3, down=3, block=6, sashing=7)
    Traceback (most recent call last):
    ValueError: sashing is at most as wide as the block it goes round, 6 in; got 7 in: choose a narrower sashing or a \
larger block
    """
    given = {name: value for name, value in locals().items()}
    main = asked.block(block, unit)
    whole = asked.one_of(edge, ("centre", "whole"), "edge") == "whole"
    strip = asked.sashing(sashing, main.size, unit)
    plan = OnPoint(across=asked.count(across, "across"), down=asked.count(down, "down"), block=main,
                   alternate=_alternate(alternate, main, fabrics), sashing=strip, has_cornerstones=bool(cornerstones),
                   edge=edge, floating=_floating(floating, main.size, strip, whole, unit),
                   seam=asked.seam(seam, main.size, unit), unit=unit, fabrics=dict(fabrics or {}), asked=given,
                   make=on_point)
    asked.few_enough(plan.patches)
    return plan


def _alternate(other, main, fabrics):
    if other is None:
        return main
    if other == "plain":
        return asked.plain_alternate(main.size, (fabrics or {}).get("alternate", "plain"))
    return asked.same_size(asked.block(other, name="alternate block"), main)


def _floating(value, cell, strip, whole, unit):
    by = asked.floating(value, cell, unit)
    if by and strip and not whole:
        raise ValueError('blocks with sashing float inside whole cornerstones only; got an edge through their centres: '
                         'write edge="whole"')
    return by
