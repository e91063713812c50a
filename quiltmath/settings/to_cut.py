"""What to cut for a plan: each line of its cutting list, exact and on the ruler, with the proof that gives
the size."""

from dataclasses import dataclass, field
from functools import cached_property
from math import ceil

from .. import lengths
from ..root2 import Root2, exact

GIVES = {"whole": 1, "once": 2, "twice": 4}

ON_GRAIN = "edges on the straight grain"
LONG_ON_GRAIN = "long side on the straight grain"
LEGS_ON_GRAIN = "legs on the straight grain"
LENGTHWISE = "length along the lengthwise grain, where the cloth allows"


@dataclass(frozen=True, eq=False)
class ToCut:
    """One line of a cutting list: so many patches of one part, cut whole or as squares cut once or twice.

    `sides` holds one (proof, measure, quantities) for a square and two for a strip, width first; sizes come
    from nowhere else.

    >>> from quiltmath import settings
    >>> line = settings.on_point(across=5, down=6, block=10).cutting_list()[1]
    >>> line.part, line.count, line.cut, line.squares, line.exact, line.text
    ('side triangle', 18, 'twice', 5, (1/2 + 21*sqrt(2)/2,), '15 3/8')
    """

    part: str
    fabric: str
    count: int
    cut: str
    sides: tuple
    grain: str
    seam: object
    unit: str = "in"
    note: str = field(default="")

    @property
    def squares(self):
        """How many squares or strips to cut: whole ones, so that none of the patches is missing."""
        return ceil(self.count / GIVES[self.cut])

    @cached_property
    def exact(self):
        """The exact cut size: one SymPy number for a square, (width, length) for a strip."""
        return tuple(proof.exact(measure, **self._exactly(quantities)) for proof, measure, quantities in self._proofs())

    @cached_property
    def value(self):
        """The same as floats, quickly: what the simulator cuts."""
        return tuple(
            proof.value(measure, seam=float(self.seam), **{k: float(v) for k, v in quantities.items()})
            for proof, measure, quantities in self._proofs()
        )

    @cached_property
    def size(self):
        """The cut size rounded up to the ruler's step (1/8 in; 1 mm in metric), as Fractions of inches."""
        from .arguments import ruler_step

        return tuple(lengths.ruler(side, ruler_step(self.unit)) for side in self.exact)

    @cached_property
    def trade(self):
        """What the trade's rule of thumb gives, as exact SymPy inches; None for a side it has no rule for.

        >>> from quiltmath import settings
        >>> settings.on_point(5, 6, 10).line("side triangle").trade
        (5/4 + 10*sqrt(2),)
        """
        inch = exact(1 / lengths.INCHES[self.unit])
        found = []
        for proof, measure, quantities in self._proofs():
            given = {name: exact(value) * inch for name, value in {**quantities, "seam": self.seam}.items()}
            rule = proof.trade(measure, unit=self.unit, **given)
            found.append(None if rule is None else rule / inch)
        return tuple(found)

    @property
    def text(self):
        """The size on the ruler in words."""
        return " x ".join(lengths.text(side, self.unit) for side in self.size)

    def why(self):
        """The derivations of the size, as text."""
        return "\n\n".join(proof.printed(**self._exactly(quantities)) for proof, _, quantities in self._proofs())

    def _proofs(self):
        from .. import proofs

        return [(getattr(proofs, name), measure, quantities) for name, measure, quantities in self.sides]

    def _exactly(self, quantities):
        sizes = {name: exact(value) if isinstance(value, Root2) else value for name, value in quantities.items()}
        return {**sizes, "seam": self.seam}

    def __str__(self):
        how = {
            "whole": "",
            "once": ", each cut once on the diagonal",
            "twice": ", each cut twice on the diagonals",
        }
        shape = "squares" if len(self.sides) == 1 else "strips"
        words = (
            f"{self.part}: {self.squares} {shape} of {self.text}{'' if self.unit != 'in' else ' in'} "
            "from "
            f"{self.fabric}{how[self.cut]}; {self.grain}"
        )
        spare = self.squares * GIVES[self.cut] - self.count
        return words + (f"; {spare} spare" if spare else "") + (f"; {self.note}" if self.note else "")


def whole(part, fabric, count, width, height, plan, grain=ON_GRAIN, note=""):
    """A line of squares or strips cut whole."""
    sides = (("patch", "cut width", {"width": width, "height": height}),)
    if width != height:
        sides += (("patch", "cut height", {"width": width, "height": height}),)
    return ToCut(part, fabric, count, "whole", sides, grain, plan.seam, plan.unit, note)


def triangles(part, fabric, count, cut, finished, plan, grain, note="", proof=None):
    """A line of triangles from squares cut once (`finished` is a leg) or twice (`finished` is the long
    side)."""
    name, quantity = proof or (("half_square", "finished") if cut == "once" else ("quarter_square", "finished"))
    return ToCut(part, fabric, count, cut, ((name, None, {quantity: finished}),), grain, plan.seam, plan.unit, note)


def slanted(part, fabric, count, width, inner, plan, proof="frame_both_ends"):
    """A line of strips trimmed at 45 degrees at both ends, or one; `inner` is the finished length beside the
    slant."""
    quantities = {"leg": inner, "width": width}
    ends = "both ends are" if proof == "frame_both_ends" else "one end is"
    sides = ((proof, "strip width", quantities), (proof, "strip", quantities))
    return ToCut(part, fabric, count, "whole", sides, LENGTHWISE, plan.seam, plan.unit, f"{ends} trimmed at 45 degrees")


def block_lines(block, count, plan, note=""):
    """The lines for so many copies of a block; the fabrics and parts are those of its sewn panel."""
    found = []
    for patches in block.patches():
        part = block.part(patches.part)
        number = patches.count * count
        if patches.part == "square":
            found.append(whole(part, patches.fabric, number, patches.width, patches.height, plan, note=note))
        elif patches.part == "half-square triangle":
            found.append(triangles(part, patches.fabric, number, "once", patches.width, plan, LEGS_ON_GRAIN, note))
        else:
            found.append(triangles(part, patches.fabric, number, "twice", patches.width, plan, LONG_ON_GRAIN, note))
    return found
