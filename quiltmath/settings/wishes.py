"""Asking for a plan: lengths as numbers or text, blocks or their sizes; what cannot exist is refused with its
limit."""

from __future__ import annotations

from typing import TYPE_CHECKING

from . import arguments
from .borders import read as read_borders
from .plan import MADE, Plan

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping
    from fractions import Fraction

    from ..blocks import Block
    from ..lengths import Length
    from .borders import Round


def on_point(
    across: int,
    down: int,
    block: Block | Length,
    sashing: Length = 0,
    *,
    cornerstones: bool = True,
    edge: str = "half",
    alternate: Block | Length | None = None,
    frame: Length = 0,
    edges: str = "plain",
    floating: Length = 0,
    borders: str | float | Fraction | Round | Iterable[Length | Round] = (),
    seam: Length | None = None,
    unit: str = "in",
    fabrics: Mapping[str, str] | None = None,
) -> Plan:
    """A quilt set on point: `across` blocks along its top edge, `down` along its side, others in the gaps
    between.

    `block` is a finished size or a `blocks.Block`; `alternate`, "plain" or a block, goes into the gaps. With
    `sashing` the `edge` runs through the middle of the outer cornerstones, "half", or past them, "whole". `frame` is
    the finished width of strips round every block. `edges` says how the setting triangles come about: "plain",
    "framed" as the blocks are, "built" from the block's own squares, or cut from "half blocks"; plain ones
    can be larger, so that the blocks float inside the edge by `floating`. `fabrics` names the cloth for
    "setting", "sashing", "cornerstone", "frame".

    >>> plan = on_point(across=4, down=4, block=10, alternate="plain")
    >>> plan.main_blocks, plan.alternate_blocks, plan.side_triangles, plan.width
    (16, 9, 12, 40*sqrt(2))
    >>> on_point(across=3, down=3, block=6, sashing=7)
    Traceback (most recent call last):
    ValueError: sashing is at most as wide as the block it goes round, 6 in; got 7 in: choose a narrower \
sashing or a larger block
    """
    given = dict(locals())
    arguments.unit(unit)
    main = arguments.block(block, unit)
    strips = arguments.frame(frame, main.size, unit)
    cell = main.size + 2 * strips
    sash = arguments.sashing(sashing, cell, unit)
    plan = Plan(
        style="on point",
        across=arguments.count(across, "across"),
        down=arguments.count(down, "down"),
        block=main,
        alternate=arguments.alternate(alternate, main, fabrics, unit),
        sashing=sash,
        has_cornerstones=bool(cornerstones),
        edge=arguments.one_of(edge, ("half", "whole"), "edge"),
        frame=strips,
        edges=arguments.one_of(edges, tuple(MADE), "edges"),
        floating=arguments.floating(floating, cell + sash * (edge == "whole"), unit),
        borders=read_borders(borders, unit),
        seam=arguments.seam(seam, main, unit),
        unit=unit,
        fabrics=dict(fabrics or {}),
        asked=given,
        make=on_point,
    )
    arguments.edges_that_fit(plan)
    arguments.strips_wide_enough(plan)
    arguments.few_enough(plan.most_patches)
    return plan


def straight(
    across: int,
    down: int,
    block: Block | Length,
    sashing: Length = 0,
    *,
    cornerstones: bool = True,
    around: bool = False,
    alternate: Block | Length | None = None,
    frame: Length = 0,
    borders: str | float | Fraction | Round | Iterable[Length | Round] = (),
    seam: Length | None = None,
    unit: str = "in",
    fabrics: Mapping[str, str] | None = None,
) -> Plan:
    """A straight-set quilt of `across` by `down` blocks.

    `block` is a finished size or a `blocks.Block`; `alternate`, "plain" or a block, takes every other place.
    `sashing` lies between the blocks, and with `around` outside the outer ones too. `frame` and `fabrics`
    are as for `on_point`.

    >>> plan = straight(across=4, down=5, block=9, sashing=2, around=True)
    >>> plan.blocks, plan.sashes, plan.cornerstones, plan.width, plan.height
    (20, 49, 30, 46, 57)
    """
    given = dict(locals())
    arguments.unit(unit)
    main = arguments.block(block, unit)
    strips = arguments.frame(frame, main.size, unit)
    plan = Plan(
        style="straight",
        across=arguments.count(across, "across"),
        down=arguments.count(down, "down"),
        block=main,
        alternate=arguments.alternate(alternate, main, fabrics, unit),
        sashing=arguments.sashing(sashing, main.size + 2 * strips, unit),
        has_cornerstones=bool(cornerstones),
        around=bool(around),
        frame=strips,
        borders=read_borders(borders, unit),
        seam=arguments.seam(seam, main, unit),
        unit=unit,
        fabrics=dict(fabrics or {}),
        asked=given,
        make=straight,
    )
    arguments.strips_wide_enough(plan)
    arguments.few_enough(plan.most_patches)
    return plan
