"""Prints with a direction: which pieces of them will not stand upright."""

from collections import Counter, defaultdict

from ..finding import ByNotebook
from .check import MOST_NAMED, Check, some

ASKEW = 20.0  # degrees: a print that leans by less than this from upright, or from level, is not askew


class PrintTurned(Check):
    """A directional print that will lie askew, set on point, or on its side, turned by a quarter."""

    name, title = "print-turned", "A directional print will lie turned"
    level, why = "ask", ByNotebook("03-straight-or-on-point")
    repair = "cut those pieces so that the print stands upright, or choose a print without direction"
    question = "The directional print will not stand upright everywhere ({printed}). Is that meant?"
    only_designer = True

    def findings(self, reading, earlier):
        made = reading.made
        directional = {name for name, fabric in made.sheet.fabric.items() if fabric.directional}
        if not directional or made.top is None:
            return
        askew, aside = (defaultdict(Counter) for _ in range(2))
        for cut, grain in zip(made.top.cuts, made.top.grains):
            if cut.fabric in directional and ASKEW <= grain % 90 <= 90 - ASKEW:
                askew[cut.fabric][cut.part] += 1
            elif cut.fabric in directional and abs(grain % 180 - 90) > 90 - ASKEW and not _is_square(made, cut.part):
                aside[cut.fabric][cut.part] += 1
        for fabric in made.sheet.fabric:
            if askew[fabric] or aside[fabric]:
                yield self._turned(made, fabric, askew[fabric], aside[fabric])

    def _turned(self, made, fabric, askew, aside):
        """The finding on one fabric: so many patches of each part askew, and so many on their side."""
        cure = "choose a print without direction" if askew else _upright(made, list(aside))
        return self.finding(
            made,
            ["fabric", fabric],
            f"{fabric!r} is a directional print, and {_lies(askew, aside)} in the quilt. Ask whether that is meant; "
            f"if not, {cure}.",
            f"{some(sum(askew.values()) + sum(aside.values()), 'patch', 'patches')} of {fabric!r} turned",
            "a print without direction, or a straight setting"
            if askew
            else "pieces cut so that the print stands upright",
            why=None if askew else ByNotebook(_shown_by(made, aside)),
            parts=frozenset([*askew, *aside]),
        )


def _lies(askew, aside):
    """How many patches lie askew and how many on their side, in words."""
    slanting, level = sum(askew.values()), sum(aside.values())
    sideways = f"on {'their' if level > 1 else 'its'} side ({named_few(aside)})"
    if not slanting:
        return f"{some(level, 'patch', 'patches')} of it will lie {sideways}"
    more = f" and {level} {sideways}" if level else ""
    return f"{some(slanting, 'patch', 'patches')} of it will lie turned by 45 degrees{more}"


def named_few(names):
    """Some names, no more of them than are read.

    >>> named_few("ABCDE")
    "'A', 'B', 'C' and 2 more"
    """
    more = len(names) - MOST_NAMED
    return ", ".join(repr(name) for name in list(names)[:MOST_NAMED]) + (f" and {more} more" if more > 0 else "")


def _is_square(made, part):
    """Whether a part is a whole square, which a maker lays as its print stands."""
    cut, whole = made.sheet.part(part), not _in_a_unit(made, part)
    return cut is None or whole and cut.cut == "whole" and cut.size is not None and cut.size[0] == cut.size[1]


def _in_a_unit(made, part):
    return any(part in unit.parts for unit in made.sheet.unit.values())


def _shown_by(made, parts):
    """The notebook that shows how pieces turned by a quarter are cut: triangles, or strips between blocks and round
    them."""
    triangles = any(cut is not None and cut.cut != "whole" for cut in map(made.sheet.part, parts))
    return "05-bias-on-the-outside" if triangles else "07-sashing-frames-borders"


def _upright(made, parts):
    """How the print of these parts comes to stand upright where the quilt turns them by a quarter."""
    if any(_in_a_unit(made, part) for part in parts):
        return "choose a print without direction"
    cuts = [made.sheet.part(part) for part in parts]
    if any(cut.shape is not None for cut in cuts):
        return "choose a print without direction"
    once, twice, whole = ([cut.part for cut in cuts if cut.cut == way] for way in ("once", "twice", "whole"))
    how = [f"cut half of the squares for {named_few(once)} on the other diagonal"] if once else []
    if twice:
        how.append(
            f"lay the triangles {named_few(twice)} as their print stands (of the four from a square two fit at the top "
            "and bottom, two at the sides)"
        )
    if whole:
        how.append(f"cut the turned pieces of {named_few(whole)} in the other direction of the fabric")
    return "; ".join(how)
