"""What a quilt takes besides its cutting list: fabric to buy, binding, backing and batting, where a sheet does not say
them."""

from __future__ import annotations

from contextlib import suppress
from typing import TYPE_CHECKING

from .. import lengths, yardage
from ..usual import LEAST_WIDTH, RULER

if TYPE_CHECKING:
    from ..review.reading import Reading

BINDING = "binding"  # what its fabric is called where the sheet names none
BINDING_STRIP = {"in": "2 1/2", "cm": "6.5 cm"}  # common practice, no source


def supplied(reading: Reading) -> Reading:
    """The reading of the same sheet with the fabric to buy, the binding, the backing and the batting that its quilt
    takes, where it does not say them.

    What stands in the sheet stays; fabric is as wide as the sheet says, or the least that is usual. What cannot be told
    (the quilt cannot be sewn, a piece fits no fabric, no backing is so large, there are too many to plan) is left out.

    >>> from quiltmath import settings
    >>> from quiltmath.review.reading import Reading
    >>> sheet = supplied(Reading(settings.on_point(across=5, down=6, block=9).sheet())).sheet
    >>> sheet.fabric["plain"].bought / 36, sheet.binding.count, sheet.backing.panels
    (Fraction(7, 2), 8, 2)
    """
    if reading.made.finished is None:
        return reading
    width, height = (lengths.ruler(side, RULER[reading.sheet.units], "up") for side in reading.made.finished)
    linings, binding = _linings(reading, width, height), _binding(reading, width, height)
    reading = reading.changed(*linings, *binding, *_widths(reading.sheet))
    return reading.changed(*_bought(reading))


def _linings(reading, width, height):
    """The changes that add a backing and a batting."""
    sheet, said = reading.sheet, reading.ruler
    if sheet.backing is None:
        with suppress(yardage.DoesNotFit):  # too large for any backing
            back = yardage.backing(width, height, usable_width=LEAST_WIDTH)
            table = {
                "bought": said.to_buy(back.length),
                "usable_width": said.said(back.usable_width),
                "panels": back.panels,
            }
            yield ("backing",), table
    if sheet.batting is None:
        padding = yardage.batting(width, height)
        yield ("batting",), {"size": said.typed((padding.width, padding.height))}


def _binding(reading, width, height):
    """The change that adds a binding."""
    sheet = reading.sheet
    if sheet.binding is None:
        strip, across = BINDING_STRIP[sheet.units], sheet.usable_width(BINDING)
        with suppress(yardage.DoesNotFit):  # fabric too narrow for its strips
            ring = yardage.binding(width, height, strip, across, seam=sheet.sewing_seam)
            yield ("binding",), {"fabric": BINDING, "strip": strip, "count": ring.strips}


def _widths(sheet):
    """The changes that list every fabric, each with its usable width."""
    binding = BINDING if sheet.binding is None else sheet.binding.fabric
    named = dict.fromkeys([*sheet.fabric, *(cut.fabric for cut in sheet.cut), binding])
    for name in named:
        listed = sheet.fabric.get(name)
        if listed is None or listed.usable_width is None and listed.piece is None:
            yield ("fabric", name, "usable_width"), lengths.text(sheet.usable_width(name), sheet.units)


def _bought(reading):
    """The changes that say how much of each fabric to buy."""
    for name, fabric in reading.sheet.fabric.items():
        if fabric.bought is None and fabric.piece is None and not fabric.scraps:
            plan = reading.plan(name)
            if plan.length and not plan.many and not plan.refused:
                yield ("fabric", name, "bought"), reading.ruler.to_buy(plan.length + yardage.STRAIGHTENED)
