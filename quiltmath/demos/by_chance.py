"""Tops sewn by chance: each seam off by a little for itself, a top a hand, and how far their rows come out apart."""

from fractions import Fraction
from functools import lru_cache

from .. import seamtest
from ..draw import Marks, Picture, Words
from ..making.row import LevelRow
from ..usual import EASED, SEAM
from .controls import Choice
from .readings_drawn import PITCH, REACH, fine, frame, times_larger
from .scattered import hand, long, row
from .seam_grows import BLOCK, PATCHES, PLANS
from .trials import Trials

SCATTERS = tuple(Fraction(1, part) for part in (64, 32, 16))
FIRST, MORE = 3, 10  # tops sewn before anyone asks, and at most: as many as can be told apart from the back of a room
TALLEST = 1.8  # inches: all hands together, so that their picture is as wide as its place
WAVERS = {f"{fine(scatter)} in": scatter for scatter in SCATTERS}


@lru_cache(maxsize=8)
def blocks_in_rows(setting):
    """How many blocks each row of the quilt has that is set so, straight or diagonal.

    >>> [blocks_in_rows(setting) for setting in PLANS]
    [(4, 4, 4, 4, 4), (1, 3, 5, 5, 3, 1)]
    """
    kind, across, down = PLANS[setting]
    rows = kind(across=across, down=down, block=BLOCK).rows()
    parts = (one.parts if isinstance(one, LevelRow) else [piece.part for piece in one.pieces] for one in rows)
    return tuple(sum(part == "block" for part in named) for named in parts)


@lru_cache(maxsize=256)
def top(setting, scatter, seed):
    """How much too long (less than 0: too short) each row of a top is that this hand sews, in inches; the same seed
    sews the same again."""
    takes = hand(scatter, seed)
    sewn = (long(row(count, PATCHES, BLOCK / PATCHES, takes)) for count in blocks_in_rows(setting))
    planned = (float(count * BLOCK + 2 * SEAM) for count in blocks_in_rows(setting))
    return tuple(is_long - should for is_long, should in zip(sewn, planned))


def drawn(setting, scatter, tops):
    """The rows of all these tops, a line a top: a Picture, and what they come to in words."""
    every = [off for one in tops for off in one]
    fit = sum(abs(off) <= EASED for off in every)
    most = max(blocks_in_rows(setting)) * PATCHES - 1
    short, is_long = fine(abs(min(0.0, *every))), fine(max(0.0, *every))
    words = (
        f"{len(tops)} top{'s' * (len(tops) > 1)}, {len(every)} rows, set {setting.split(',')[0]}, each seam off by up "
        f"to {fine(scatter)} in by chance: {fit} rows come out within {fine(EASED)} in of the plan, the worst {short} "
        f"in too short and {is_long} in too long. If every allowance took {fine(scatter)} in too much, the longest "
        f"row of {most} seams would be {fine(seamtest.grown(scatter, most))} in too short."
    )
    times = times_larger([seamtest.scattered(scatter, most), *every])
    pitch = min(PITCH, TALLEST / len(tops))
    layers = list(frame(len(tops), times, ("too short", "too long"), pitch))
    spots = [(off * times, -pitch * number, off) for number, one in enumerate(tops) for off in one]
    for role, label, fits in (
        ("kept point", f"within {fine(EASED)} in of the plan", True),
        ("lost point", "further off", False),
    ):
        mine = [(x, y) for x, y, off in spots if (abs(off) <= EASED) is fits]
        layers += [Marks(mine, role, label)] if mine else []
    layers += [
        Words((-REACH - 0.1, -pitch * number), f"hand {number + 1}", anchor="end") for number in range(len(tops))
    ]
    return Picture(layers, words, "Rows, beside the plan", f"errors {times} times larger"), words


def app():
    """The app: tops are sewn one after the other, and shown as they come, to be the last line of a cell."""
    return Trials(
        "Sew the tops",
        (
            Choice("setting", "The blocks are set", tuple(PLANS), next(iter(PLANS))),
            Choice("wavers", "Each seam is off by up to", tuple(WAVERS), f"{fine(SCATTERS[1])} in"),
        ),
        trial=lambda setting, wavers, number: top(setting, WAVERS[wavers], number + 1),
        drawn=lambda setting, wavers, tops: drawn(setting, WAVERS[wavers], tops),
        most=MORE,
        first=FIRST,
    )
