"""How a block can be pieced that uses up what is at hand: squares in a grid that is alike from every side, rows across
the block, rounds about a centre."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from fractions import Fraction
from functools import cache, lru_cache
from itertools import islice, permutations, product
from typing import NamedTuple

from .at_hand import Item

Row = tuple[str, ...]
MOST_ITEMS = 14  # of more nobody could see what belongs together
MOST_ROWS = 5
LARGEST_CHECKER = 7  # squares along the side of a block
MOST_LOGS = 20
MOST_TRIED = 2_000
FAR = Fraction(1, 3)
"""Of a count: nobody misprints more of it."""
NEAR = Fraction(3, 4)
"""Inches by which one size may be wrong: a seam forgotten on both sides, or halves cut as quarters."""


class Piecing(NamedTuple):
    """One way to piece a block: its rows from the top (each round of its own where it has several), how many of each
    item it takes, its finished size, and how many printed figures it makes wrong."""

    rounds: tuple[tuple[Row, ...], ...]
    uses: tuple[tuple[str, int], ...]
    width: Fraction
    height: Fraction
    wrong: int = 0

    @property
    def rows(self) -> tuple[Row, ...]:
        """The rows of the whole block, or of its last round."""
        return self.rounds[-1]


def turned(name: str, turn: int) -> str:
    """An item of a row, turned by so many degrees."""
    return f"{name}:{turn % 360}" if turn % 360 else name


def piecings(at_hand: list[Item], number: int, side: Fraction | None = None) -> list[Piecing]:
    """The ways to piece so many blocks (of that finished `side`, where it is known) that use up all they take of what
    is at hand, the likeliest first; where there is none, those that make one printed figure wrong.

    >>> three = Fraction(3)
    >>> found = piecings([Item("A", three, three, 60), Item("B", three, three, 48)], 12)
    >>> [" ".join(row) for row in found[0].rows]
    ['A B A', 'B A B', 'A B A']
    """
    return list(_found(tuple(at_hand), number, side)) if at_hand and number > 0 else []


@lru_cache(maxsize=500)  # after each answer most is asked for again
def _found(at_hand, number, side):
    for wrong in (0, 1):
        found = dict.fromkeys(
            way
            for way in islice(_ways(at_hand, number, side, wrong), MOST_TRIED)
            if way.wrong <= wrong and (side is None or way.width == way.height == side)
        )
        if found:
            left = {one.name: one.left for one in at_hand}
            return sorted(found, key=lambda way: (-len(way.uses), _spare(way, left, number)))
    return []


def _spare(way, left, number):
    """How many pieces so many blocks leave over of what they take."""
    return sum(abs(left[name] - number * many) for name, many in way.uses)


def _ways(at_hand, number, side, wrong):
    yield from _single([one for one in at_hand if one.sewn], number, side)
    if len(at_hand) <= MOST_ITEMS:
        for across in range(2, LARGEST_CHECKER + 1):
            yield from _checkers(at_hand, number, across, wrong)
        yield from _grids(at_hand, number, side, wrong)
        yield from _bars(at_hand, number, side, wrong)
    if len(at_hand) <= MOST_LOGS:
        yield from _rounds(at_hand, number, side, wrong)
    if side is not None:
        yield from _single([one for one in at_hand if not one.sewn], number, side)


def _used(rows: Iterable[Row], at_hand: list[Item], number: int) -> tuple[tuple[tuple[str, int], ...], int]:
    """(How many of each item rows take, how many of these counts are not what is at hand for so many blocks); a count
    that is far off counts as many."""
    left = {one.name: one for one in at_hand}
    uses = Counter(item.rpartition(":")[0] if ":" in item else item for row in rows for item in row)
    return tuple(sorted(uses.items())), sum(_off(left[name], number * many) for name, many in uses.items())


def _off(item, needed):
    return 0 if item.gives(needed) else 1 if abs(item.left - needed) <= needed * FAR else MOST_ITEMS


def _most(item, wrong):
    """How many of an item may be needed where so many of the figures are `wrong`."""
    return item.left / (1 - wrong * FAR)


def _single(at_hand, number, side):
    """Blocks of one piece each."""
    for one in at_hand:
        if one.square and one.gives(number) and side in (None, one.width):
            yield Piecing((((one.name,),),), ((one.name, 1),), one.width, one.height)


# -- grids ----------------------------------------------------------------------------------------------------------


def _grids(at_hand, number, side, wrong):
    """Grids of two to four squares along a side, of three and four also with a wider middle."""
    fitting = cache(lambda wide, high: [*_lying(at_hand, wide, high, wrong)])
    widths = {one.width for one in at_hand} | {one.height for one in at_hand}
    if wrong and side is not None:  # those of units that come out too small or too large
        widths |= {side / across for across in (2, 3, 4)}
    for edge, middle in product(sorted(widths), repeat=2):
        for tracks in ((edge, edge), (edge, middle, edge), (edge, middle, middle, edge)):
            if len(tracks) == 2 and middle != edge or side is not None and sum(tracks) != side:
                continue
            for step in (90, 180) if len(tracks) == 2 else (90,):
                yield from _grid(at_hand, number, tracks, step, wrong, fitting)


def _checkers(at_hand, number, across, wrong):
    """Two squares by turns, of an odd number one more of the first."""
    for one, other in permutations([item for item in at_hand if item.square and item.again == 90], 2):
        if one.width == other.width:
            rows = tuple(
                tuple((one.name, other.name)[(right + down) % 2] for right in range(across)) for down in range(across)
            )
            uses, not_so = _used(rows, at_hand, number)
            if not_so <= wrong:
                yield Piecing((rows,), uses, one.width * across, one.width * across, not_so)


def _orbits(across, step):
    """The places of a grid that come to lie on each other where it is turned by these degrees: [(row, column), by how
    much the piece there is turned] each."""
    seen: set[tuple[int, int]] = set()
    for place in product(range(across), repeat=2):
        if place in seen:
            continue
        orbit, turn = [], 0
        while not orbit or place != orbit[0][0]:
            orbit.append((place, turn))
            seen.add(place)
            for _ in range(step // 90):
                place = (across - 1 - place[1], place[0])
            turn += step
        yield orbit


def _grid(at_hand, number, tracks, step, wrong, lying):
    """The blocks of such a grid that look alike when they are turned."""
    orbits = sorted(_orbits(len(tracks), step), key=len)
    fitting = []
    for orbit in orbits:
        (down, right), _ = orbit[0]
        fitting.append(lying(tracks[right], tracks[down]))
    for chosen in islice(product(*fitting), MOST_TRIED):
        off = len({one.name for one in chosen if one.off})
        if off > wrong or len({one.name for one in chosen}) == 1 and chosen[0].again == 90:
            continue
        cells = {
            place: turned(lies.name, (lies.turn + turn) % lies.again)
            for orbit, lies in zip(orbits, chosen)
            for place, turn in orbit
        }
        rows = tuple(tuple(cells[down, right] for right in range(len(tracks))) for down in range(len(tracks)))
        uses, not_so = _used(rows, at_hand, number)
        if off + not_so <= wrong:
            yield Piecing((rows,), uses, sum(tracks), sum(tracks), off + not_so)


class _Lies(NamedTuple):
    """A piece as it lies in a place: turned so far, with so many sizes wrong; after how much more turning it looks the
    same."""

    name: str
    turn: int
    off: int
    again: int


def _lying(at_hand, wide, high, wrong):
    """What fits a place, in each way it can lie there."""
    for one in at_hand:
        again = one.again
        if one.square and one.looks > 1:
            off = abs(one.width - wide)
            if wide == high and (off == 0 or wrong and off <= NEAR):
                yield from (_Lies(one.name, turn, int(off > 0), again) for turn in range(0, again, 90))
        else:
            for base in (0,) if one.square else (0, 90):
                width, height = (one.width, one.height) if base == 0 else (one.height, one.width)
                off = abs(width - wide) + abs(height - high)
                if off == 0 or wrong and one.sewn and off <= 2 * NEAR:
                    yield from (_Lies(one.name, turn, int(off > 0), again) for turn in range(base, again, 180))


# -- rows across the block ------------------------------------------------------------------------------------------


class _Row(NamedTuple):
    """A row across a block: its pieces, its height, and whether one of its sizes is wrong."""

    pieces: Row
    high: Fraction
    off: bool = False


def _bars(at_hand, number, side, wrong):
    """Rows that each hold one kind of piece, once or several times, or one between two of another."""
    most = {one.name: _most(one, wrong) / number for one in at_hand}
    for width in [side] if side is not None else sorted({max(one.width, one.height) for one in at_hand}):
        near = NEAR if wrong else Fraction(0)
        kinds = [(row, Counter(word.split(":")[0] for word in row.pieces)) for row in _across(at_hand, width, near)]
        for chosen in islice(_stacked(kinds, width, near, most), MOST_TRIED):
            uses, not_so = _used([row.pieces for row in chosen], at_hand, number)
            not_so += len({row for row in chosen if row.off}) + (sum(row.high for row in chosen) != width)
            if len(chosen) > 1 and not_so <= wrong and len(uses) > not_so:
                for order in (*_turned_by_turns(chosen, at_hand), *_orders(chosen)):
                    yield Piecing((tuple(row.pieces for row in order),), uses, width, width, not_so)


def _turned_by_turns(chosen, at_hand):
    """Of an even number of rows that are each the same piece of a strip set, every second one turned end for end."""
    segments = {one.name for one in at_hand if one.sewn and one.looks == 2 and not one.square}
    first = chosen[0]
    alike = len({*chosen}) == 1 and len(first.pieces) == 1 and len(chosen) % 2 == 0
    if alike and (name := first.pieces[0].split(":")[0]) in segments:
        turn = int(first.pieces[0].partition(":")[2] or 0)
        other = first._replace(pieces=(turned(name, turn + 180),))
        yield tuple(other if place % 2 else first for place in range(len(chosen)))


def _stacked(kinds, left, near, most, chosen=()):
    """The rows, of a few kinds, that fill what is left of the height, nearly so, with at most so many of each piece."""
    if abs(left) <= near:
        yield chosen
    for place, (row, takes) in enumerate(kinds):
        fits = row.high <= left + near and len(chosen) < MOST_ROWS
        if fits and all(most[name] >= many for name, many in takes.items()):
            rest = {name: number - takes[name] for name, number in most.items()}
            yield from _stacked(kinds[place:], left - row.high, near, rest, (*chosen, row))


def _across(at_hand, width, near):
    """The rows as wide as the block, or nearly so, of each piece that fills one and of each that lies between two of
    another."""
    lying = [
        (turned(one.name, base % one.again), *size)
        for one in at_hand
        for base, size in ((0, (one.width, one.height)), (90, (one.height, one.width)))
        if base < one.again
    ]
    for name, wide, high in lying:
        if width % wide == 0 and width // wide <= MOST_ROWS:
            yield _Row((name,) * int(width // wide), high)
    for (outer, wide, high), (inner, between, as_high) in permutations(lying, 2):
        off = abs(2 * wide + between - width) + abs(high - as_high)
        if off <= near and wide != between:
            yield _Row((outer, inner, outer), high, off > 0)


def _orders(chosen):
    """The orders of rows that differ: those alike from above and below, or else all of a few."""
    if len(chosen) > 3:
        alike = [one for one in dict.fromkeys(islice(permutations(chosen), 5040)) if one == one[::-1]]
        return alike[:2] or [chosen]
    orders = dict.fromkeys(min(order, order[::-1]) for order in permutations(chosen))
    alike = [one for one in orders if one == one[::-1]]
    return alike or [*orders]


# -- rounds about a centre ------------------------------------------------------------------------------------------


def _rounds(at_hand, number, side, wrong):
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
        if any(number * takes[one.name] > _most(one, wrong) for one in (upright, level)):
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
    uses, not_so = _used(pieces, at_hand, number)
    size = _grown(centre, laid)
    return Piecing(tuple(rounds), uses, size, size, not_so + sum(one.off for one in laid))


def _log_cabins(at_hand, number, side, wrong):
    """Logs round a square, each as long as what it is sewn to: to the right, above, to the left, below, and again."""
    logs = [one for one in at_hand if not one.square and one.gives(number)]
    for centre in at_hand:
        if centre.square and centre.gives(number) and 4 <= len(logs) <= MOST_LOGS:
            ways = islice(_laid(centre.width, centre.width, logs, (), wrong, iter(range(MOST_TRIED))), 200)
            best = max(ways, key=lambda laid: (*_by_pairs(laid), _as_listed(laid, logs)), default=None)
            if best is not None:
                yield _cabin(centre, best, number)


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
