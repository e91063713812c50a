"""How a block can be pieced that uses up what is at hand: squares in a grid that is alike from every side, rows across
the block, rounds about a centre."""

from __future__ import annotations

from collections import Counter
from fractions import Fraction
from functools import cache, lru_cache
from itertools import islice, permutations, product
from typing import NamedTuple

from .at_hand import Item
from .in_rounds import in_rounds
from .way_to_piece import FAR, MOST_ITEMS, MOST_LOGS, MOST_TRIED, NEAR, Piecing, Row, most_of, turned, used

MOST_ROWS = 5
LARGEST_CHECKER = 7  # squares along the side of a block


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
    yield from _alone(at_hand, number, side) if wrong else ()
    if len(at_hand) <= MOST_ITEMS:
        for across in range(2, LARGEST_CHECKER + 1):
            yield from _checkers(at_hand, number, across, wrong)
        yield from _grids(at_hand, number, side, wrong)
        yield from _bars(at_hand, number, side, wrong)
    if len(at_hand) <= MOST_LOGS:
        yield from in_rounds(at_hand, number, side, wrong)
    if side is not None:
        yield from _single([one for one in at_hand if not one.sewn], number, side)


def _single(at_hand, number, side):
    """Blocks of one piece each."""
    for one in at_hand:
        if one.square and one.gives(number) and side in (None, one.width):
            yield Piecing((((one.name,),),), ((one.name, 1),), one.width, one.height)


def _alone(at_hand, number, side):
    """Blocks of the one piece of a strip set that is all there is to be sewn, its number or a side of it wrong."""
    for one in at_hand if len(at_hand) == 1 and at_hand[0].sewn and at_hand[0].looks == 2 else ():
        misfit = max(abs(long - wide) for long in (one.height, side or one.height) for wide in (one.width, one.height))
        off = (misfit > 0) + (not one.gives(number))
        if misfit <= NEAR and abs(one.left - number) <= number * FAR:
            high = side or one.height
            yield Piecing((((one.name,),),), ((one.name, 1),), high, high, off)


def in_told_rows(
    at_hand: list[Item], number: int, side: Fraction | None, rows: tuple[tuple[frozenset[str], ...], ...]
) -> list[Piecing]:
    """The ways to piece so many blocks in as many rows as columns, each place told what may lie in it: those with
    fewest of the printed figures wrong, however far off these are."""
    fitting = cache(lambda wide, high: [*_lying(at_hand, wide, high, 1)])
    widths = {one.width for one in at_hand} | {one.height for one in at_hand}
    found: dict[Piecing, int] = {}
    for edge, middle, step in product(sorted(widths), sorted(widths), (90, 180)):
        tracks = {2: (edge, edge), 3: (edge, middle, edge), 4: (edge, middle, middle, edge)}[len(rows)]
        if side in (None, sum(tracks)) and (len(rows) > 2 or middle == edge):
            for way in _grid(at_hand, number, tracks, step, 10**6, fitting, rows):
                wrong = sum(
                    not one.gives(number * many) for one in at_hand for name, many in way.uses if name == one.name
                )
                found.setdefault(way._replace(wrong=0), wrong + _sizes_off(way, at_hand, tracks))
    left = {one.name: one.left for one in at_hand}
    ranked = sorted(found, key=lambda way: (found[way], -len(way.uses), _spare(way, left, number)))
    return [way._replace(wrong=found[way]) for way in ranked if found[way] == found[ranked[0]]]


def _sizes_off(way, at_hand, tracks):
    """How many kinds of pieces are not as large as the place that they are in."""
    size = {one.name: {one.width, one.height} for one in at_hand}
    off = {
        name
        for row, high in zip(way.rows, tracks)
        for word, wide in zip(row, tracks)
        if size[name := word.split(":")[0]] != {wide, high}
    }
    return len(off)


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
            uses, not_so = used(rows, at_hand, number)
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


def _grid(at_hand, number, tracks, step, wrong, lying, told=()):
    """The blocks of such a grid that look alike when they are turned; where it is `told` what may lie in each place, of
    that alone."""
    orbits = sorted(_orbits(len(tracks), step), key=len)
    fitting = []
    for orbit in orbits:
        (down, right), _ = orbit[0]
        lies = lying(tracks[right], tracks[down])
        allowed = [told[row][column] for (row, column), _ in orbit] if told else []
        fitting.append([one for one in lies if all(one.name in names for names in allowed)])
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
        uses, not_so = used(rows, at_hand, number)
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
    most = {one.name: most_of(one, wrong) / number for one in at_hand}
    for width in [side] if side is not None else sorted({max(one.width, one.height) for one in at_hand}):
        near = NEAR if wrong else Fraction(0)
        kinds = [(row, Counter(word.split(":")[0] for word in row.pieces)) for row in _across(at_hand, width, near)]
        for chosen in islice(_stacked(kinds, width, near, most), MOST_TRIED):
            uses, not_so = used([row.pieces for row in chosen], at_hand, number)
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
