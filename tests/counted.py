"""How often sheets are sewn and fabrics planned: `with counted() as seen: …`."""

from collections import Counter
from contextlib import contextmanager
from typing import NamedTuple
from unittest import mock

from quiltmath import making, pattern, yardage


class Seen(NamedTuple):
    """How often each sheet was sewn, by all that it says, and each list of pieces planned, by the pieces and the width."""

    sewn: Counter
    planned: Counter


@contextmanager
def counted():
    """Count calls of `making.make` and `yardage.length_needed` within this."""
    seen, make, plan = Seen(Counter(), Counter()), making.make, yardage.length_needed

    def counting_make(sheet):
        seen.sewn[pattern.text(sheet)] += 1
        return make(sheet)

    def counting_plan(pieces, **more):
        seen.planned[tuple(pieces), more["usable_width"]] += 1
        return plan(pieces, **more)

    with (
        mock.patch.object(making, "make", counting_make),
        mock.patch.object(yardage, "length_needed", counting_plan),
    ):
        yield seen
