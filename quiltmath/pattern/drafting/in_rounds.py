"""Blocks that are sewn in rounds about a centre: frames, courthouse steps, log cabins."""

from __future__ import annotations

from collections import Counter
from fractions import Fraction
from itertools import islice, product
from typing import NamedTuple

from .at_hand import Item
from .way_to_piece import FAR, MOST_LOGS, MOST_TRIED, NEAR, Piecing, most_of, turned, used


def in_rounds(at_hand, number, side, wrong):
    """A centre with strips sewn round it: two and two alike, or one after another as a log cabin is sewn."""
    yield from _frames(at_hand, number, side, wrong)
    yield from _log_cabins(at_hand, number, side, wrong)


def _frames(at_hand, number, side, wrong):
    """A square with strips on two opposite sides, then above and below, and so on: a frame, or courthouse steps; of the
    ways that lie round one square the one that takes most."""
    for centre in at_hand:
        if centre.square and centre.gives(number):
            others = [one for one in at_hand if one is not centre and one.looks == 1]
            found = islice(_framed(centre.width, others, (), number, wrong), MOST_TRIED)
            fits = [laid for laid in found if side is None or side == _grown(centre, laid)]
            ways = (_steps(centre, laid, number, at_hand) for laid in fits)
            yield from sorted((way for way in ways if way.wrong <= wrong), key=lambda way: -len(way.uses))[:1]


class _Frame(NamedTuple):
    """Two upright and two level strips, all as wide, and how many of the two lengths are wrong."""

    upright: Item
    level: Item
    wide: Fraction
    off: int


def _framed(inner, strips, laid, number, wrong):
    """The frames that can lie one round another about a square so large."""
    for upright, level in product(strips, repeat=2):
        (wide, high), (as_wide, across) = sorted((upright.width, upright.height)), sorted((level.width, level.height))
        misfits = [abs(high - inner), abs(across - inner - 2 * wide)]
        off = sum(misfit > 0 for misfit in misfits)
        if wide != as_wide or max(misfits) > NEAR or off + sum(one.off for one in laid) > wrong:
            continue
        frames = (*laid, _Frame(upright, level, wide, off))
        takes = Counter(2 * [strip.name for one in frames for strip in (one.upright, one.level)])
        if any(number * takes[one.name] > most_of(one, wrong) for one in (upright, level)):
            continue
        yield frames
        yield from _framed(inner + 2 * wide, strips, frames, number, wrong)


def _grown(centre, laid):
    return centre.width + 2 * sum(one.wide for one in laid)


def _steps(centre, laid, number, at_hand):
    """The block of these frames, every frame a round."""
    rounds, inner = [], centre.name
    for place, (upright, level, _, _) in enumerate(laid, 1):
        stands = turned(upright.name, 0 if upright.height >= upright.width else 90)
        lies = turned(level.name, 0 if level.width > level.height else 90)
        rounds.append(((lies,), (stands, inner, stands), (lies,)))
        inner = f"round {place}"
    pieces = [tuple(word for word in row if not word.startswith("round ")) for rows in rounds for row in rows]
    uses, not_so = used(pieces, at_hand, number)
    size = _grown(centre, laid)
    return Piecing(tuple(rounds), uses, size, size, not_so + sum(one.off for one in laid))


def _log_cabins(at_hand, number, side, wrong):
    """Logs round a square, each as long as what it is sewn to: to the right, above, to the left, below, and again;
    of one piece there may be too many or too few where one figure may be wrong."""
    near = [one for one in at_hand if not one.gives(number) and abs(one.left - number) <= number * FAR] if wrong else []
    for miscounted in (None, *near):
        pieces = [one for one in at_hand if one.gives(number) or one is miscounted]
        yield from _cabins(pieces, number, wrong, miscounted)


def _cabins(pieces, number, wrong, miscounted):
    """Log cabins of so many pieces each, of which one may be miscounted."""
    logs, off = [one for one in pieces if not one.square], miscounted is not None
    for centre in pieces:
        if centre.square and 4 <= len(logs) <= MOST_LOGS and (not off or miscounted in (centre, *logs)):
            ways = islice(_laid(centre.width, centre.width, logs, (), wrong - off, iter(range(MOST_TRIED))), 200)
            best = max(ways, key=lambda laid: (*_by_pairs(laid), _as_listed(laid, logs)), default=None)
            if best is not None:
                way = _cabin(centre, best, number)
                yield way._replace(wrong=way.wrong + off)


def _laid(wide, high, logs, laid, wrong, tries):
    """The orders in which all logs go round, in so many tries; laid is (log, how much too long or short it is) each."""
    if next(tries, None) is None:
        return
    if not logs:
        yield laid
        return
    wanted = high if len(laid) % 2 == 0 else wide
    fit = []
    for one in logs:
        thin, long = sorted((one.width, one.height))
        off = abs(long - wanted)
        if off == 0 or wrong and off <= max(NEAR, thin) and not any(error for _, error in laid):
            fit.append((off, thin, one))
    for off, thin, one in sorted(fit, key=lambda fit: fit[0]):
        rest = [other for other in logs if other is not one]
        grown = (wide + thin, high) if len(laid) % 2 == 0 else (wide, high + thin)
        yield from _laid(*grown, rest, (*laid, (one, off)), wrong, tries)


def _by_pairs(laid):
    """How many logs lie beside one of the same fabric, begun with a pair."""
    pairs = zip(laid[::2], laid[1::2])
    exact = -sum(off > 0 for _, off in laid)
    return exact, sum(one.fabric == other.fabric for (one, _), (other, _) in pairs)


def _as_listed(laid, logs):
    """How many logs lie in the place that they have in the list."""
    return sum(one is log for (one, _), log in zip(laid, logs))


def _cabin(centre, laid, number):
    """The block of these logs: to the right and above, to the left and below, two logs a round."""
    rounds, inner = [], centre.name
    logs = [
        turned(one.name, 0 if (one.height > one.width) == (place % 2 == 0) else 90)
        for place, (one, _) in enumerate(laid)
    ]
    for place in range(0, len(logs), 2):
        beside = (inner, logs[place]) if place % 4 == 0 else (logs[place], inner)
        level = tuple((log,) for log in logs[place + 1 : place + 2])
        rounds.append((*level, beside) if place % 4 == 0 else (beside, *level))
        inner = f"round {len(rounds)}"
    wide, high = (centre.width + sum(min(one.width, one.height) for one, _ in part) for part in (laid[::2], laid[1::2]))
    uses = tuple((one.name, 1) for one in (centre, *(log for log, _ in laid)))
    return Piecing(tuple(rounds), uses, wide, high, sum(off > 0 for _, off in laid))
