"""What is only typed in a reckoning, as it was measured or is wished: a length, or several with commas between them."""

import re
from dataclasses import dataclass
from fractions import Fraction
from typing import Any, ClassVar

from .. import lengths
from ..draw import inches
from .controls import Length

UNIT = re.compile(r"[^\d\s./⁄-]")


class Typed(Length):
    """A length from `low` to `high` in inches that a slider would not reach.

    >>> wide = Typed("width", "Width", "2", "130", "60")
    >>> wide.read("44 3/8"), wide.slider
    (Fraction(355, 8), None)
    >>> wide.read("0")
    Traceback (most recent call last):
    ValueError: Width is from 2 to 130 in; got '0': type a length in that range, for example 60
    """

    def __init__(self, name: str, label: str, low: Any, high: Any, value: Any) -> None:
        super().__init__(name, label, low, high, step="1", value=value)

    @property
    def slider(self) -> None:
        """It has none."""
        return None


@dataclass(frozen=True)
class Several:
    """Lengths typed with commas between them, at most `most`, each from `low` to `high` in inches.

    >>> widths = Several("borders", "Borders", "1/2", "20", 5, "2, 5")
    >>> widths.read("2 1/2, 5"), widths.read("5 cm, 12 cm")[0], widths.text(widths.read("2 1/2,5"))
    ((Fraction(5, 2), Fraction(5, 1)), Fraction(250, 127), '2 1/2, 5')
    >>> widths.read("2, broad")
    Traceback (most recent call last):
    ValueError: Borders: number 2 cannot be read; got 'broad': type 1 to 5 lengths with commas between them, \
for example 2, 5
    >>> widths.read("2, 50")
    Traceback (most recent call last):
    ValueError: Borders: each is from 1/2 to 20 in, and number 2 is not; got '50': type 1 to 5 lengths with commas \
between them, for example 2, 5
    """

    name: str
    label: str
    low: str
    high: str
    most: int
    example: str

    slider: ClassVar[None] = None

    def read(self, typed: Any) -> tuple[Fraction, ...]:
        """The lengths that were typed, or given as a sequence, in inches."""
        parts = [part.strip() for part in typed.split(",")] if isinstance(typed, str) else list(typed)
        if not any(str(part) for part in parts):
            raise ValueError(f"{self.label}: nothing is written there; {self._to_type}")
        if len(parts) > self.most:
            raise ValueError(
                f"{self.label}: at most {self.most}, with a point in decimals; got {len(parts)}: {self._to_type}"
            )
        read = tuple(self._one(number, part) for number, part in enumerate(parts, 1))
        units = [bool(UNIT.search(part)) for part in parts if isinstance(part, str)]
        if any(units) and not all(units):
            raise ValueError(
                f"{self.label}: a unit after each or after none, and a point in decimals; got {typed!r}: "
                f"write for example 2, 5 or 5 cm, 12.5 cm"
            )
        return read

    def _one(self, number, part):
        low, high = self._ends
        try:
            length = lengths.parse(part)
        except ValueError:
            raise ValueError(
                f"{self.label}: number {number} cannot be read; got {_short(part)}: {self._to_type}"
            ) from None
        if not low <= length <= high:
            raise ValueError(
                f"{self.label}: each is {self._said}, and number {number} is not; got {_short(part)}: {self._to_type}"
            )
        return length

    def text(self, value: tuple[Fraction, ...]) -> str:
        """The lengths as the box shows them."""
        return ", ".join(map(lengths.text, value))

    def spoken(self, value: tuple[Fraction, ...]) -> str:
        """The lengths as they are said."""
        return f"{', '.join(map(inches, value))} in"

    @property
    def value(self) -> tuple[Fraction, ...]:
        """What it opens on."""
        return self.read(self.example)

    @property
    def range(self) -> str:
        """What it allows, as it stands beside the label."""
        return f"({self.low} to {self.high} in each, with commas)"

    @property
    def corners(self) -> tuple[tuple[Fraction, ...], ...]:
        """The values at which a reckoning is most likely to fail."""
        low, high = self._ends
        return (low,), self.value, (high,) * self.most

    @property
    def _ends(self):
        return lengths.parse(self.low), lengths.parse(self.high)

    @property
    def _said(self):
        return f"from {self.low} to {self.high} in"

    @property
    def _to_type(self):
        return f"type 1 to {self.most} lengths with commas between them, for example {self.example}"


def _short(part):
    """What was typed, quoted, and not at any length."""
    return repr(part) if len(str(part)) <= 40 else f"{str(part)[:40]!r}…"
