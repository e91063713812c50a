"""How many pieces of fabric to buy where it is sold in pieces of a size: fat quarters, precut strips and squares.

    >>> plan = on_pieces([Piece("4 1/2", "4 1/2", 40, "A", any_way=True)], width=21, length=18)
    >>> plan.count, plan.at_least
    (3, 3)
    >>> print(plan)
    3 pieces of 21 × 18 in: no cutter needs fewer
      2 pieces, each: 16 × A (4 1/2 × 4 1/2)
      1 piece: 8 × A (4 1/2 × 4 1/2)

Each is cut from edge to edge, as a rotary cutter goes: a block of alike pieces comes off a corner, and what is left
beside it and above it is cut on. No search is sure to find the best such plan; so `count` pieces will do, and here is
how, `at_least` are needed by a proof, and between the two it may be done with fewer.
"""

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import groupby, product
from math import ceil, lcm
from random import Random
from typing import NamedTuple

from .. import lengths
from . import arguments
from .arguments import DoesNotFit, Length, Piece
from .bounds import MOST_WAYS, turns
from .constants import BROADEST_JOINED, FAT_QUARTER, SEAM
from .counted import Counted
from .joining import lost_in_join, whole_strips
from .plan import CrosswiseStrip, LaidPiece

SHUFFLES = 40
"""So many orders of cutting are tried besides the usual ones, where those do not settle it."""

MOST_LOOKS = 100_000
"""No other order is tried once so many places were looked at: of many pieces the first ones tell enough."""


@dataclass(frozen=True)
class PiecesPlan:
    """A plan on pieces of fabric, each `usable_width` across and `length` along the selvage, inches.

    `filled` holds, for each of them, where its `LaidPiece`s lie; `at_least` is how many any cutter needs.
    """

    pieces: tuple[Piece, ...]
    usable_width: Fraction
    length: Fraction
    filled: tuple[tuple[LaidPiece, ...], ...]
    at_least: int

    @property
    def count(self) -> int:
        """How many pieces of fabric this plan takes."""
        return len(self.filled)

    @property
    def alike(self) -> list[tuple[int, tuple[LaidPiece, ...]]]:
        """The pieces of fabric, those that are cut alike once, each with how many they are."""
        return [(len(list(same)), places) for places, same in groupby(self.filled)]

    @property
    def strips(self) -> tuple[CrosswiseStrip, ...]:
        """The pieces of fabric one above the other, those that are cut alike once, as strips across the width."""
        return tuple(CrosswiseStrip(self.length, 1, ()) for _ in self.alike)

    def places(self) -> list[LaidPiece]:
        """Where everything lies on these `strips`."""
        return [
            replace(one, y=one.y + number * self.length)
            for number, (_, places) in enumerate(self.alike)
            for one in sorted(places, key=lambda place: (place.y, place.x))
        ]

    @property
    def waste(self) -> Fraction:
        """Which share of the fabric is left over, from 0 to 1, exactly; what joins use up counts as waste."""
        fabric = self.count * self.usable_width * self.length
        return 1 - sum(piece.area for piece in self.pieces) / fabric if fabric else Fraction(0)

    @property
    def sentence(self) -> str:
        """The plan in one sentence."""
        size = f"{lengths.text(self.usable_width)} × {lengths.text(self.length, mark='in')}"
        fewer = "no cutter needs fewer"
        if self.count > self.at_least:
            fewer = f"no cutter can do with fewer than {self.at_least:,}"
        return f"{arguments.several(self.count, 'piece')} of {size}: {fewer}"

    def __str__(self) -> str:
        lines = [self.sentence]
        for count, places in self.alike:
            gives = ", ".join(f"{many:,} × {name}" for name, many in Counter(one.piece.name for one in places).items())
            lines.append(f"  {arguments.several(count, 'piece')}{', each' * (count > 1)}: {gives}")
        return "\n".join(lines)


def on_pieces(
    pieces: Iterable[Piece | tuple] | Piece,
    width: Length = FAT_QUARTER[0],
    length: Length = FAT_QUARTER[1],
    *,
    have: int | None = None,
    seam: Length = SEAM,
) -> PiecesPlan:
    """The pieces of fabric, `width` across and `length` along the selvage, that hold what is cut: a `PiecesPlan`.

    Fat quarters unless sizes are given. What is longer than such a piece, and narrow, is joined from strips with
    straight seams. With `have`, a number at hand, nothing more is looked for once it is known whether that will do.

    >>> on_pieces([Piece(15, 15, 3)], have=2).at_least
    3
    >>> on_pieces([Piece(30, 20)])
    Traceback (most recent call last):
    quiltmath.yardage.arguments.DoesNotFit: what is cut from pieces of 21 × 18 in is no larger than they are; got \
30 × 20: turn it if its grain may run the other way, join it from narrower pieces, or take larger ones
    """
    listed = arguments.pieces(pieces)
    across, along = arguments.usable(width), lengths.parse(length, name="the length of fabric", above=0)
    if have is not None:
        have = arguments.whole(have, "the number of pieces of fabric", least=0)
    lines = [_line(one, across, along, lengths.parse(seam, name="a seam", least=0)) for one in listed]
    least = _at_least(listed, lines, across, along)
    filled = _filled(lines, across, along, least if have is None else max(least, have))
    return PiecesPlan(listed, across, along, filled, least)


class _Line(NamedTuple):
    """What is cut of one piece of the list: itself, or the strips that it is joined from."""

    piece: Piece
    cut: Piece
    joined: bool


def _line(piece, across, along, seam):
    ways = [(piece.width, piece.height)] + [(piece.height, piece.width)] * piece.any_way
    if any(wide <= across and high <= along for wide, high in ways):
        return _Line(piece, piece, False)
    broad, long = sorted((piece.width, piece.height))
    strip, lost = max(across, along), lost_in_join(broad, "straight", seam)
    if broad > BROADEST_JOINED * min(across, along) or strip <= lost:
        raise DoesNotFit(
            f"what is cut from pieces of {lengths.text(across)} × {lengths.text(along, mark='in')} is no larger than "
            f"they are; got {piece.name}: turn it if its grain may run the other way, join it from narrower pieces, or "
            "take larger ones"
        )
    count = whole_strips(piece.count * long, strip, lost)
    size = (strip, broad) if strip == across else (broad, strip)
    return _Line(piece, Piece(*size, count, piece.part, piece.any_way), True)


def _at_least(listed, lines, across, along):
    """How many pieces of fabric no cutter does without: by area, and of what is not joined by counting worths."""
    area = ceil(sum((piece.area for piece in listed), Fraction(0)) / (across * along))
    whole = [line.cut for line in lines if not line.joined]
    lying = [turns(number, piece, across, ()) for number, piece in enumerate(whole)]
    if not whole or sum(map(len, lying)) > MOST_WAYS:
        return area
    return max(area, Counted(lying, across).pieces_at_least(along))


def _filled(lines, across, along, enough):
    """The fullest plan found, tried in several orders of cutting until it takes no more pieces than are `enough`."""
    sizes = [size for line in lines for size in (line.cut.width, line.cut.height)]
    unit = Fraction(1, lcm(*(size.denominator for size in (across, along, *sizes))))
    room = int(across / unit), int(along / unit)
    kinds = [
        _Kind(number, line.cut.count, _ways(line.cut, unit, room))
        for number, line in enumerate(lines)
        if line.cut.count
    ]
    best, looked = None, 0
    for order, level, tight in _tries(kinds):
        found, looks = _cut(order, room, level, tight, None if best is None else len(best) - 1)
        looked += looks
        best = best if found is None else found
        if len(best or ()) <= enough or looked > MOST_LOOKS:
            break
    return tuple(tuple(_laid(lines, block, unit)) for block in sorted(best or [], key=_by_content))


class _Kind(NamedTuple):
    """Alike pieces in whole units: the number of their line, how many, the (wide, high) ways they may lie."""

    line: int
    times: int
    ways: tuple[tuple[int, int], ...]


class _Block(NamedTuple):
    """Alike pieces side by side and above each other, from (x, y) on."""

    line: int
    x: int
    y: int
    wide: int
    high: int
    columns: int
    rows: int


def _ways(piece, unit, room):
    size = int(piece.width / unit), int(piece.height / unit)
    ways = dict.fromkeys([size, size[::-1]] if piece.any_way else [size])
    return tuple((wide, high) for wide, high in ways if wide <= room[0] and high <= room[1])


def _tries(kinds):
    """Orders of cutting, each with how what is left beside a block is parted, and how a place is chosen."""
    largest_first = (
        lambda kind: max(kind.ways[0]),
        lambda kind: kind.ways[0][0] * kind.ways[0][1],
        lambda kind: min(kind.ways[0]),
        lambda kind: kind.ways[0][1],
    )
    orders = list(dict.fromkeys(tuple(sorted(kinds, key=key, reverse=True)) for key in largest_first))
    ways = list(product((True, False), (True, False)))
    yield from ((order, *way) for order in orders for way in ways)
    chance = Random(0)
    for number in range(SHUFFLES if len(kinds) > 1 else 0):
        shuffled = list(kinds)
        chance.shuffle(shuffled)
        yield (tuple(shuffled), *ways[number % len(ways)])


def _cut(kinds, room, level, tight, most):
    """All pieces cut in this order: the blocks on each piece of fabric, None where it takes more than `most`; and how
    many places were looked at."""
    fabric, free, looks = [], [], 0
    least = min((min(way) for kind in kinds for way in kind.ways), default=0)
    for kind in kinds:
        left = kind.times
        while left:
            looks += len(free) + 1
            found = min(_places(kind, left, free, tight), default=None)
            if found is None:
                if len(fabric) == most:
                    return None, looks
                free.append((len(fabric), 0, 0, *room))
                fabric.append([])
                continue
            *_, place, (wide, high), columns, rows = found
            number, x, y, across, along = free.pop(place)
            fabric[number].append(_Block(kind.line, x, y, wide, high, columns, rows))
            left -= columns * rows
            right, top = columns * wide, rows * high
            beside = (number, x + right, y, across - right, along if level else top)
            above = (number, x, y + top, right if level else across, along - top)
            free += [rest for rest in (beside, above) if min(rest[3:]) >= least]
    return fabric, looks


def _places(kind, left, free, tight):
    """Where the next block of a kind may be cut, the best place being the least."""
    for place, (number, _, _, across, along) in enumerate(free):
        for wide, high in kind.ways:
            most = across // wide, along // high
            if not all(most):
                continue
            columns = min(most[0], left)
            rows = min(most[1], left // columns)
            over = across - most[0] * wide, along - most[1] * high
            fit = (min(over), max(over)) if tight else (over[0] * along + over[1] * across, 0)
            yield *((0, *fit) if tight else (number, *fit)), place, (wide, high), columns, rows


def _by_content(blocks):
    """Pieces of fabric that are cut alike stand side by side, the fullest first."""
    return -sum(one.wide * one.high * one.columns * one.rows for one in blocks), blocks


def _laid(lines, blocks, unit):
    for one in blocks:
        line = lines[one.line]
        for row, column in product(range(one.rows), range(one.columns)):
            x, y = one.x + column * one.wide, one.y + row * one.high
            yield LaidPiece(line.piece, x * unit, y * unit, one.wide * unit, one.high * unit, line.joined)
