"""How often sheets are sewn and fabrics planned: `with counted() as seen: …`.

Of a fabric it is first asked whether the bought length will do; only where that does not tell enough is it planned in
full, for the figure to buy. So the two are counted apart: a sound sheet asks one question of each fabric, a short one
is planned once more.
"""

from collections import Counter
from contextlib import contextmanager
from typing import NamedTuple
from unittest import mock

from quiltmath import making, pattern, yardage


class Seen(NamedTuple):
    """How often each sheet was sewn, by all that it says; how often it was asked whether a bought length will do, and
    how often a fabric was planned in full, by the pieces and the width."""

    sewn: Counter
    asked: Counter
    planned: Counter


@contextmanager
def counted():
    """Count calls of `making.make` and `yardage.length_needed` within this."""
    seen, make, plan = Seen(Counter(), Counter(), Counter()), making.make, yardage.length_needed

    def counting_make(sheet):
        seen.sewn[pattern.text(sheet)] += 1
        return make(sheet)

    def counting_plan(pieces, **more):
        times = seen.planned if more.get("bought") is None else seen.asked
        times[tuple(pieces), more["usable_width"]] += 1
        return plan(pieces, **more)

    with (
        mock.patch.object(making, "make", counting_make),
        mock.patch.object(yardage, "length_needed", counting_plan),
    ):
        yield seen
