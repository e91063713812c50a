"""Medallions: a square in the middle, and rounds about it: corner triangles that set it on point, and
frames."""

from dataclasses import dataclass, field
from fractions import Fraction
from functools import cached_property

from .. import lengths, sewing
from ..blocks import Block
from ..root2 import Root2, root2
from . import arguments, borders, placed, to_cut

TRIANGLES = "triangles"


@dataclass(frozen=True, eq=False, repr=False)
class Medallion:
    """A square quilt that grows from its middle; made by `settings.medallion`. Lengths are inches.

    `rounds` are `borders.Border` frames and the word "triangles", which sets what lies inside it on point.
    """

    centre: Block
    rounds: tuple
    seam: Fraction = Fraction(1, 4)
    unit: str = "in"
    fabrics: dict = field(default_factory=dict)

    @cached_property
    def sides(self):
        """The finished side after each round, the middle first, as Root2 lengths."""
        found = [root2(self.centre.size)]
        for one in self.rounds:
            found.append(found[-1].by_root() if one == TRIANGLES else found[-1] + 2 * one.width)
        return tuple(found)

    @property
    def size(self):
        """The finished (width, height) as floats of inches."""
        return (float(self.sides[-1]),) * 2

    @property
    def width(self):
        """The finished side, an exact SymPy number of inches."""
        return self.sides[-1].exact()

    @property
    def height(self):
        """The same side again."""
        return self.width

    @property
    def patches(self):
        """How many patches it has: every round adds four."""
        return self.centre.pieces + 4 * len(self.rounds)

    @cached_property
    def _cutting(self):
        return tuple(to_cut.block_lines(self.centre, 1, self)) + tuple(
            line for number in range(len(self.rounds)) for line in self._round_lines(number)
        )

    def cutting_list(self):
        """What to cut: see `to_cut.ToCut`; the middle first, then round after round."""
        return list(self._cutting)

    def cloth(self, number):
        """The cloth of the triangles of round `number`, counted from 0."""
        return self.fabrics.get(f"round {number + 1}", self.fabrics.get("setting", "setting"))

    def placed(self):
        """The finished medallion as shapes and their places, quickly, for pictures: see `placed.Placed`."""
        return placed.medallion(self)

    def _round_lines(self, number):
        one, inside, name = self.rounds[number], self.sides[number], f"round {number + 1}"
        if one == TRIANGLES:
            return [
                to_cut.triangles(
                    f"{name} triangle",
                    self.cloth(number),
                    4,
                    "once",
                    inside,
                    self,
                    to_cut.LEGS_ON_GRAIN,
                    proof=("corner_triangle", "block"),
                )
            ]
        return borders.one_round(self, one, name, inside, inside)

    def panel(self):
        """The medallion sewn, lying as it hangs: the finished side plus a seam all round."""
        panel, seam = self.centre.panel(self.seam), float(self.seam)
        for number, one in enumerate(self.rounds):
            lines = self._round_lines(number)
            if one != TRIANGLES:
                panel = borders.sewn_round(panel, one, lines, seam)
                continue
            side = lines[0].value[0]
            triangle = sewing.patch(corners=[(0, 0), (side, 0), (0, side)], fabric=lines[0].fabric, part=lines[0].part)
            for faces in ("left", "right", "top", "bottom"):
                panel = panel.sew(triangle, faces, "long", seam, "centre")
            panel = panel.turn(45)
        return panel

    def __repr__(self):
        side = arguments.about(self.size[0], self.unit)
        return f"<a medallion of {len(self.rounds)} rounds, about {side} square>"


def medallion(centre, rounds, seam=None, unit="in", fabrics=None):
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
    read = tuple(one if isinstance(one, str) and one == TRIANGLES else borders.read([one], unit)[0] for one in rounds)
    main = arguments.block(centre, unit, "centre")
    plan = Medallion(main, read, arguments.seam(seam, main, unit), unit, dict(fabrics or {}))
    for one in read:
        arguments.wide_enough(0 if one == TRIANGLES else one.width, plan.seam, "a frame", unit)
    if plan.size[0] > lengths.LONGEST:
        raise ValueError(f"a quilt side is at most {lengths.LONGEST:,} in; these rounds give more: take fewer")
    return plan


def middle_for(side, rounds, unit="in"):
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
    if float(inside) <= 0:
        raise ValueError(
            f"these rounds alone are wider than {arguments.shown(lengths.parse(side, unit), unit)}: "
            "take fewer or narrower ones"
        )
    return inside
