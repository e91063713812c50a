"""Medallions: a square in the middle, and rounds about it: corner triangles that set it on point, and frames."""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction
from functools import cached_property
from typing import TYPE_CHECKING

from .. import lengths
from ..blocks import Block
from ..making.layout import Layout
from ..root2 import Root2, root2
from ..usual import SEAM
from . import arguments, borders
from .borders import Round
from .plan import Planned

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from ..lengths import Length

TRIANGLES = "triangles"


@dataclass(frozen=True, eq=False, repr=False)
class Medallion(Planned):
    """A square quilt that grows from its middle; made by `settings.medallion`. Lengths are inches.

    `rounds` are `borders.Round`s: frames, and rounds of triangles, which set what lies inside them on point.
    """

    block: Block
    rounds: tuple
    seam: Fraction = SEAM
    unit: str = "in"
    fabrics: dict = field(default_factory=dict)

    style, across, down, alternate_blocks = "straight", 1, 1, 0
    sashing, frame, edges = Fraction(0), Fraction(0), "plain"

    @property
    def alternate(self) -> Block:
        """Its one block again."""
        return self.block

    @property
    def borders(self) -> tuple[Round, ...]:
        """Its rounds."""
        return self.rounds

    @cached_property
    def layout(self) -> Layout:
        """The one block in its middle: see `making.Layout`."""
        return Layout(False, 1, 1, cell=self.block.size)

    @property
    def title(self) -> str:
        """What its sheet is called."""
        return f"Medallion of {len(self.rounds)} rounds"

    @cached_property
    def sides(self) -> tuple[Root2, ...]:
        """The finished side after each round, the middle first, as Root2 lengths."""
        found = [root2(self.block.size)]
        for one in self.rounds:
            found.append(borders.around((found[-1], found[-1]), [one])[0])
        return tuple(found)

    @property
    def top_size(self) -> tuple[Root2, Root2]:
        """The finished (width, height) of its middle, as Root2 lengths."""
        return (self.sides[0],) * 2

    @property
    def finished(self) -> tuple[Root2, Root2]:
        """The finished (width, height), as Root2 lengths."""
        return (self.sides[-1],) * 2

    @property
    def patches(self) -> int:
        """How many patches it has: every round adds four."""
        return self.block.pieces + 4 * len(self.rounds)

    def __repr__(self):
        side = arguments.about(self.size[0], self.unit)
        return f"<a medallion of {len(self.rounds)} rounds, about {side} square>"


def medallion(
    centre: Block | Length,
    rounds: Iterable[Length | Round],
    seam: Length | None = None,
    unit: str = "in",
    fabrics: Mapping[str, str] | None = None,
) -> Medallion:
    """A medallion: `centre` is a block or a finished size, `rounds` a list of "triangles" and of frames.

    A frame is a finished width (butted) or a `border`.

    >>> plan = medallion(12, ["triangles", "2", "triangles"])
    >>> plan.width, plan.patches
    (4*sqrt(2) + 24, 13)
    >>> [line.text for line in plan.cutting_list()]
    ['12 1/2', '9 3/8', '2 1/2 x 17 1/2', '2 1/2 x 21 1/2', '15 3/4']
    >>> medallion(12, [])
    Traceback (most recent call last):
    ValueError: a medallion has from 1 to 40 rounds; got 0: write for example rounds=["triangles", "2"]
    """
    rounds = list(rounds)
    if not 1 <= len(rounds) <= 40:
        raise ValueError(
            f'a medallion has from 1 to 40 rounds; got {len(rounds)}: write for example rounds=["triangles", "2"]'
        )
    given = fabrics or {}
    read = tuple(_round(one, number, given, unit) for number, one in enumerate(rounds, 1))
    main = arguments.block(centre, unit, "centre")
    plan = Medallion(main, read, arguments.seam(seam, main, unit), unit, dict(given))
    for one in read:
        arguments.wide_enough(one.width, plan.seam, "a frame", unit)
    if plan.size[0] > lengths.LONGEST:
        raise ValueError(f"a quilt side is at most {lengths.LONGEST:,} in; these rounds give more: take fewer")
    return plan


def _round(one, number, fabrics, unit):
    """One round as it was asked for; triangles are cut from the fabric of their round, or of the setting."""
    if isinstance(one, str) and one == TRIANGLES:
        fabric = fabrics.get(f"round {number}", fabrics.get("setting", "setting"))
        return Round(Fraction(0), fabric=fabric, triangles=True)
    return borders.read([one], unit)[0]


def middle_for(side: Length, rounds: Iterable[Length | Round], unit: str = "in") -> Root2:
    """How large the middle must finish for rounds like these to finish at this side: an exact Root2 length.

    >>> middle_for(36, ["triangles", "3", "triangles"]).exact()
    18 - 3*sqrt(2)
    """
    inside = Root2(lengths.parse(side, unit, name="side", above=0))
    for one in reversed(list(rounds)):
        if one == TRIANGLES:
            inside = inside.by_root() * Fraction(1, 2)
        else:
            inside = inside - 2 * borders.read([one], unit)[0].width
    if inside <= 0:
        raise ValueError(
            f"these rounds alone are wider than {arguments.shown(lengths.parse(side, unit), unit)}: "
            "take fewer or narrower ones"
        )
    return inside
