"""How large a quilt a bed asks for: its mattress, and how far the quilt drops at the sides and the foot."""

from __future__ import annotations

import tomllib
from fractions import Fraction
from functools import lru_cache
from typing import TYPE_CHECKING, NamedTuple

from .. import lengths, resources

if TYPE_CHECKING:
    from ..lengths import Length

THROW = (50, 65)  # inches: common practice, no source; throws run from about 50 x 60 to 60 x 70


class Wish(NamedTuple):
    """A wished finished size in inches."""

    width: Fraction
    height: Fraction


def bed(name: str, drop: Length, tuck: Length = 0, unit: str = "in") -> Wish:
    """The size of a quilt for a bed: the drop at both sides and the foot, and more length to `tuck` round a
    pillow.

    >>> bed("queen", drop=13)
    Wish(width=Fraction(86, 1), height=Fraction(93, 1))
    >>> bed("queen size", drop=13)
    Traceback (most recent call last):
    ValueError: the kit knows the beds crib, twin, twin XL, full, queen, king, California king; got \
'queen size': name one of them, or give the width and height you wish for
    """
    if name not in mattresses():
        raise ValueError(
            f"the kit knows the beds {', '.join(mattresses())}; got {str(name)[:40]!r}: name "
            "one of them, or give the width and height you wish for"
        )
    width, length = mattresses()[name]
    down = lengths.parse(drop, unit, name="drop", least=0)
    return Wish(width + 2 * down, length + down + lengths.parse(tuck, unit, name="tuck", least=0))


def throw() -> Wish:
    """The usual size of a throw; common practice, no source."""
    return Wish(*map(Fraction, THROW))


def mattresses() -> dict[str, tuple[Fraction, Fraction]]:
    """The mattress sizes the kit knows, as {name: (width, length)} in inches.

    >>> mattresses()["twin"]
    (Fraction(39, 1), Fraction(75, 1))
    """
    sizes = {name: entry["size"] for name, entry in _table().items()}
    return {name: (Fraction(width), Fraction(length)) for name, (width, length) in sizes.items()}


@lru_cache(maxsize=1)
def _table():
    with open(resources.folder("data") / "settings" / "mattresses.toml", "rb") as file:
        return tomllib.load(file)
