"""The kinds of values a sheet has: lengths, sizes, names, counts, rows of parts, points. Each refusal teaches."""

import re
from collections.abc import Iterable, Mapping
from fractions import Fraction
from typing import Annotated, Any

from pydantic import (
    AfterValidator,
    BaseModel,
    BeforeValidator,
    ConfigDict,
    Field,
    ValidationInfo,
    WithJsonSchema,
    WrapValidator,
)

from .. import lengths
from ..usual import MOST_ACROSS

LONGEST_NAME = 120
LONGEST_TEXT = 2000
LONGEST_QUOTED = 20  # characters: a figure with more digits is told as it is measured
MOST_PIECES = 100_000
ENOUGH = "enough"  # what is counted so is cut in as many as it takes
OPEN = 0  # how many those are, as far as the sheet says
UNTYPED: Any = None  # of a key that is needed, unless another key of its table says the same
WIDEST_SEAM = 2  # inches: even a rag quilt has one at most
LONGEST_LENGTH = 10_000  # inches: more than a bolt of cloth holds
SOLD_IN = ("yd", "m")  # what fabric is bought in; sizes are written in the other units
MOST_YARDS = 20  # a smaller number of anything, bought, is meant in yards or metres
STEP_OF_TURN = 15  # degrees
PLACES = {
    "lower left": (0, 0),
    "lower right": (1, 0),
    "upper left": (0, 1),
    "upper right": (1, 1),
    "bottom middle": (Fraction(1, 2), 0),
    "top middle": (Fraction(1, 2), 1),
    "left middle": (0, Fraction(1, 2)),
    "right middle": (1, Fraction(1, 2)),
}


class AtKey(ValueError):
    """What is wrong with one key of a table, found by looking at the whole table."""

    def __init__(self, key: str, message: str) -> None:
        super().__init__(message)
        self.key = key


class AtOdds(AtKey):
    """What one key of a table says that another gainsays: one of the two has to go."""


class Table(BaseModel):
    """A table of the sheet: unknown keys are refused, so that a slip of the pen is not silently left out."""

    model_config = ConfigDict(extra="forbid", frozen=True, arbitrary_types_allowed=True, populate_by_name=True)

    @property
    def filled_in(self) -> frozenset[str]:
        """The keys whose values were not typed here, but follow from what else the sheet says."""
        return frozenset()

    def need(self, *keys: str) -> None:
        """Refuse a table that leaves one of these keys out, which it may only where others say the same."""
        for key in keys:
            if key not in self.model_fields_set:
                raise AtKey(key, "this is missing; the sheet needs it")

    def refuse(self, keys: Iterable[str], why: str) -> None:
        """Refuse the first of these keys that is typed, whatever its value: it would be left out of account."""
        for key in keys:
            if key in self.model_fields_set:
                raise AtOdds(key, f"{why}: take {key} out")


def _length(value, info: ValidationInfo):
    context = info.context or {}
    unit = context.get("units", "in")
    inches = lengths.parse(value, unit=unit)
    if abs(inches) > LONGEST_LENGTH:
        raise ValueError(
            f"a length on a sheet is at most {LONGEST_LENGTH:,} in; got {str(value)[:40]!r}: "
            "check the number and its unit"
        )
    if isinstance(value, (str, int, float)):
        quoted, own = lengths.as_written(value, unit)
        if len(quoted) <= LONGEST_QUOTED:
            context.get("written", {}).setdefault((inches, own in SOLD_IN), quoted)
    return inches


def _bought(value, info: ValidationInfo):
    """A length of cloth; a small number without a unit is refused, for 2 1/2 is meant in yards and would be read as
    inches."""
    inches = _length(value, info)
    unitless = lengths.parse(value, unit="in") != lengths.parse(value, unit="m")
    if unitless and inches < lengths.parse(MOST_YARDS, unit=(info.context or {}).get("units", "in")):
        raise ValueError(
            f'fabric is bought in yards or metres: write the unit too, as in "2 1/2 yd" or "1.5 m"; got {value!r}'
        )
    return inches


def _positive(value):
    if value <= 0:
        raise ValueError(f"a size is more than 0; got {lengths.text(value)}: write the size as the pattern prints it")
    return value


SCANT = re.compile(r"(?:a\s+)?scant\s+(?P<before>.+)|(?P<after>.+?)\s*,?\s+scant", re.IGNORECASE)
IN_WORDS = re.compile(r"(?:a\s+)?quarter[\s-]+(?:of\s+an\s+)?(?=inch)", re.IGNORECASE)


def _written_seam(value, info: ValidationInfo):
    """A seam; a scant one is the width that it gives together with the fold, which takes the thread or two that the
    needle leaves: sewn so, pieces finish as if the seam were that wide.

    A scant quarter inch is a quarter inch.
    """
    if isinstance(value, str):
        scant = SCANT.fullmatch(value.strip())
        value = scant["before"] or scant["after"] if scant else value
        value = IN_WORDS.sub("1/4 ", value)
    return _length(value, info)


def _seam(value):
    if value > WIDEST_SEAM:
        raise ValueError(
            f"a seam is at most {WIDEST_SEAM} in wide; got {lengths.text(value, mark='in')}: write the seam allowance, "
            "mostly 1/4 in or 0.75 cm"
        )
    return value


def _not_negative(value):
    if value < 0:
        raise ValueError(f"a length here is 0 or more; got {lengths.text(value)}")
    return value


def _pair(value):
    if isinstance(value, (list, tuple)):
        if len(value) != 2:
            raise ValueError(f"a size is one length (a square) or two, [width, height]; got {len(value)} of them")
        return list(value)
    if isinstance(value, str):
        parts = [part.strip() for part in re.split(r"[x×]|\bby\b", value)]
        if len(parts) == 2:
            return parts
    return [value, value]


def _name(value):
    if not isinstance(value, str):
        raise ValueError(f"a name is text in quotes; got {str(value)[:60]}")  # noqa: TRY004 - pydantic wants ValueError
    if not value.strip():
        raise ValueError("a name has at least one letter; got nothing: write what the pattern calls it")
    if len(value) > LONGEST_NAME:
        raise ValueError(f"a name is 1 to {LONGEST_NAME} printable characters; got {len(value):,}: shorten it")
    odd = next((char for char in value if not char.isprintable()), None)
    if odd is not None:
        raise ValueError(
            f"a name is one line of printable characters; got one that does not show (U+{ord(odd):04X}): take it out"
        )
    return value.strip()


def one_or_more(value):
    return [value] if isinstance(value, str) else value


def _row(value):
    words = value.split() if isinstance(value, str) else value
    if not isinstance(words, list) or not words:
        raise ValueError('a row names its parts from left to right, as in "A B A" (a turned part as "T:90")')
    return [_item(word) for word in words]


def spelt(choices: Mapping[str, tuple[str, ...]]) -> tuple[BeforeValidator, WithJsonSchema]:
    """One of some choices, each also by the other names that people write for it; capitals, hyphens and blanks do not
    matter.

    >>> read, _ = spelt({"on point": ("diagonal",)})
    >>> read.func("On-Point"), read.func("diagonal"), read.func("sideways")
    ('on point', 'on point', 'sideways')
    """
    meant = {_plain(name): choice for choice, others in choices.items() for name in (choice, *others)}

    def read(value):
        return meant.get(_plain(value), value) if isinstance(value, str) else value

    written = [name for choice, others in choices.items() for name in (choice, *others)]
    return BeforeValidator(read), WithJsonSchema({"type": "string", "enum": written})


def _plain(name):
    return re.sub(r"[\s_-]+", " ", name.casefold()).strip()


def _item(word):
    if isinstance(word, dict):
        return word
    if not isinstance(word, str):
        raise ValueError(f'a row names its parts in quotes, as in ["A", "B", "A"] or "A B A"; got {str(word)[:40]}')  # noqa: TRY004
    name, _, turn = word.partition(":")
    try:
        angle = float(turn) if turn else 0.0
    except ValueError:
        raise ValueError(f'a part is turned by degrees anticlockwise, as in "T:90"; got {word[:40]!r}') from None
    if not -360 <= angle <= 360:
        raise ValueError(f"a part is turned by -360 to 360 degrees; got {word[:40]!r}")
    _even_turn(angle, word[:40])
    return {"name": name, "turn": angle}


def _place(value, info: ValidationInfo):
    if isinstance(value, str) and value.strip() in PLACES:
        return value.strip()
    if isinstance(value, (list, tuple)) and len(value) == 2:
        return [_length(part, info) for part in value]
    raise ValueError(
        f"a point is one of {', '.join(PLACES)}, or two lengths [from the left, from the bottom]; "
        f"got {str(value)[:60]!r}"
    )


def _even_turn(angle, got):
    if angle % STEP_OF_TURN:
        near = round(angle / 90) * 90 or 90
        raise ValueError(
            f"a part in a row is turned by quarters or by steps of {STEP_OF_TURN} degrees, mostly by 90, 180 or 270; "
            f"got {got!r}: is {near} meant?"
        )


def _item_turn(angle):
    _even_turn(angle, f"{angle:g}")
    return angle


def _turn(angle):
    if not -360 <= angle <= 360:
        raise ValueError(f"a turn is -360 to 360 degrees, anticlockwise; got {angle:g}")
    return angle


Turn = Annotated[
    float,
    Field(strict=True),
    AfterValidator(_turn),
    WithJsonSchema({"type": "number", "minimum": -360, "maximum": 360}),
]


class Item(Table):
    """One place in a row: a part, unit or block by its name, turned anticlockwise by some degrees."""

    name: Annotated[str, BeforeValidator(_name)]
    turn: Annotated[Turn, AfterValidator(_item_turn)] = 0.0


def _or_enough(value, read):
    """A count, or `OPEN` for "enough"."""
    return OPEN if isinstance(value, str) and _plain(value) == ENOUGH else read(value)


_WRITTEN_LENGTH = {"type": ["string", "number"], "examples": ["3 7/8", 3.875, "9.8 cm"]}
_WRITTEN_CLOTH = {"type": ["string", "number"], "examples": ["2 1/2 yd", "1.5 m"]}
_TWO_LENGTHS = {"type": "array", "items": _WRITTEN_LENGTH, "minItems": 2, "maxItems": 2}
_WRITTEN_NAME = {"type": "string", "minLength": 1, "maxLength": LONGEST_NAME}

Length = Annotated[Fraction, BeforeValidator(_length), AfterValidator(_positive), WithJsonSchema(_WRITTEN_LENGTH)]
_WRITTEN_SEAM = {"type": ["string", "number"], "examples": ["1/4", "scant 1/4", 0.25, "0.75 cm"]}
Seam = Annotated[
    Fraction,
    BeforeValidator(_written_seam),
    AfterValidator(_positive),
    AfterValidator(_seam),
    WithJsonSchema(_WRITTEN_SEAM),
]
Bought = Annotated[Fraction, BeforeValidator(_bought), AfterValidator(_positive), WithJsonSchema(_WRITTEN_CLOTH)]
Distance = Annotated[
    Fraction,
    BeforeValidator(_length),
    AfterValidator(_not_negative),
    WithJsonSchema({**_WRITTEN_LENGTH}),  # a copy, for older versions of pydantic write the default into it
]
Size = Annotated[
    tuple[Length, Length], BeforeValidator(_pair), WithJsonSchema({"anyOf": [_WRITTEN_LENGTH, _TWO_LENGTHS]})
]
Name = Annotated[str, BeforeValidator(_name), WithJsonSchema(_WRITTEN_NAME)]
Names = Annotated[
    list[Name],
    BeforeValidator(one_or_more),
    Field(min_length=1, max_length=60),
    WithJsonSchema({"anyOf": [_WRITTEN_NAME, {"type": "array", "items": _WRITTEN_NAME}]}),
]
Count = Annotated[int, Field(strict=True, ge=1, le=MOST_PIECES)]
CountOrEnough = Annotated[
    Count,
    WrapValidator(_or_enough),
    WithJsonSchema({"anyOf": [{"type": "integer", "minimum": 1, "maximum": MOST_PIECES}, {"enum": [ENOUGH]}]}),
]
Across = Annotated[int, Field(strict=True, ge=1, le=MOST_ACROSS)]
Text = Annotated[str, Field(max_length=LONGEST_TEXT)]
Row = Annotated[
    list[Item],
    BeforeValidator(_row),
    WithJsonSchema(
        {
            "anyOf": [
                {"type": "string"},
                {
                    "type": "array",
                    "items": {
                        "anyOf": [
                            {"type": "string"},
                            {"type": "object", "properties": {"name": {"type": "string"}, "turn": {"type": "number"}}},
                        ]
                    },
                },
            ]
        }
    ),
]
Rows = Annotated[list[Row], Field(min_length=1, max_length=200)]
Place = Annotated[
    Any, BeforeValidator(_place), WithJsonSchema({"anyOf": [{"type": "string", "enum": list(PLACES)}, _TWO_LENGTHS]})
]
EdgeName = str | float | int
