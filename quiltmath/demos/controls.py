"""What a person sets in an app: whole numbers, lengths and choices, each read from typing and from a
slider."""

from dataclasses import dataclass
from fractions import Fraction
from typing import Any, ClassVar

from .. import lengths
from ..draw import inches

SMALLEST_SAID = "1/64"


@dataclass(frozen=True)
class Whole:
    """A whole number from `low` to `high`.

    >>> Whole("n", "Squares along a side", 2, 8, 4).read("5")
    5
    >>> Whole("n", "Squares along a side", 2, 8, 4).read("nine")
    Traceback (most recent call last):
    ValueError: Squares along a side is a whole number from 2 to 8; got 'nine': type one, for example 4
    """

    name: str
    label: str
    low: int
    high: int
    value: int

    def read(self, typed: Any) -> int:
        """The number that was typed or given."""
        try:
            number: int | None = int(str(typed).strip())
        except ValueError:
            number = None
        if number is None or not self.low <= number <= self.high:
            raise ValueError(
                f"{self.label} is a whole number from {self.low} to {self.high}; got {typed!r}: "
                f"type one, for example {self.value}"
            )
        return number

    def text(self, value: int) -> str:
        """The number as the box shows it."""
        return str(value)

    def spoken(self, value: int) -> str:
        """The number as it is said."""
        return str(value)

    @property
    def range(self) -> str:
        """What it allows, as it stands beside the label."""
        return f"({self.low} to {self.high})"

    @property
    def stops(self) -> tuple[int, ...]:
        """The values at which the slider stops."""
        return tuple(range(self.low, self.high + 1))

    @property
    def slider(self) -> tuple[int, int, int]:
        """Least, greatest and step of the slider."""
        return self.low, self.high, 1

    def from_slider(self, position: float) -> int:
        """The value at a position of the slider."""
        return round(position)

    @property
    def corners(self) -> tuple[int, ...]:
        """The values at which an app is most likely to fail."""
        return tuple(dict.fromkeys((self.low, self.value, self.high)))


@dataclass(frozen=True)
class Length:
    """A length from `low` to `high` in inches, typed as quilters write it; the slider moves by `step`.

    >>> side = Length("side", "Finished square", "1", "4", "1/4", "2")
    >>> side.read("2 1/2"), side.text(Fraction(5, 2)), side.from_slider(2.5)
    (Fraction(5, 2), '2 1/2', Fraction(5, 2))
    >>> side.read("40")
    Traceback (most recent call last):
    ValueError: Finished square is from 1 to 4 in; got '40': type a length in that range, for example 2
    >>> side.read("1/0")
    Traceback (most recent call last):
    ValueError: Finished square: a fraction has a number above 0 under its line; got '1/0'; write for example 3 7/8
    """

    name: str
    label: str
    low: Fraction
    high: Fraction
    step: Fraction
    value: Fraction

    def __init__(self, name: str, label: str, low: Any, high: Any, step: Any, value: Any) -> None:
        given = {"low": low, "high": high, "step": step, "value": value}
        read = {part: lengths.parse(length) for part, length in given.items()}
        for part, found in {"name": name, "label": label, **read}.items():
            object.__setattr__(self, part, found)

    def read(self, typed: Any) -> Fraction:
        """The length that was typed or given, in inches."""
        try:
            inches = lengths.parse(typed)
        except ValueError as error:
            raise ValueError(f"{self.label}: {error}") from None
        if not self.low <= inches <= self.high:
            raise ValueError(
                f"{self.label} is from {lengths.text(self.low)} to {lengths.text(self.high)} in; "
                f"got {typed!r}: type a length in that range, for example {lengths.text(self.value)}"
            )
        return inches

    def text(self, value: Fraction) -> str:
        """The length as the box shows it."""
        return lengths.text(value)

    def spoken(self, value: Fraction) -> str:
        """The length as it is said.

        >>> Length("side", "Finished square", "1", "4", "1/4", "2").spoken(Fraction(27, 8))
        '3 3/8 in'
        """
        return f"{inches(value, SMALLEST_SAID)} in"

    @property
    def range(self) -> str:
        """What it allows, as it stands beside the label."""
        return f"({lengths.text(self.low)} to {lengths.text(self.high)} in)"

    @property
    def stops(self) -> tuple[Fraction, ...]:
        """The values at which the slider stops."""
        return tuple(self.low + number * self.step for number in range((self.high - self.low) // self.step + 1))

    @property
    def slider(self) -> tuple[float, float, float] | None:
        """Least, greatest and step of the slider."""
        return float(self.low), float(self.high), float(self.step)

    def from_slider(self, position: float) -> Fraction:
        """The value at a position of the slider: the nearest stop."""
        return self.low + round((Fraction(position) - self.low) / self.step) * self.step

    @property
    def corners(self) -> tuple[Fraction, ...]:
        """The values at which an app is most likely to fail."""
        return tuple(dict.fromkeys((self.low, self.value, self.high)))


@dataclass(frozen=True)
class Choice:
    """One of a few options, shown as they are written.

    >>> Choice("way", "The triangles are", ("cut once", "cut twice"), "cut twice").read("cut in three")
    Traceback (most recent call last):
    ValueError: The triangles are: cut once or cut twice; got 'cut in three': choose one of these
    """

    name: str
    label: str
    options: tuple[str, ...]
    value: str

    slider: ClassVar[None] = None

    def read(self, typed: Any) -> str:
        """The option that was chosen."""
        if typed not in self.options:
            raise ValueError(f"{self.label}: {' or '.join(self.options)}; got {typed!r}: choose one of these")
        return typed

    def text(self, value: str) -> str:
        """The option as the box shows it."""
        return value

    range: ClassVar[str] = ""

    @property
    def corners(self) -> tuple[str, ...]:
        """Every option."""
        return self.options
