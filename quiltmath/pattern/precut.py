"""Fabric that is bought in pieces of a size, fat quarters and precut ones: what a sheet may call such a piece, and how
large it is.

The sizes of the trade are common practice, no source: a fat quarter is half a yard cut in two across its width, printed
as 18 x 21 or 18 x 22 in; a fat eighth is half of one, 9 x 21 or 9 x 22 in. Where fabric is sold by the metre they are
cut from half and a quarter of one.
"""

from __future__ import annotations

import re
from fractions import Fraction
from typing import Annotated, NamedTuple

from pydantic import BeforeValidator, ValidationInfo, WithJsonSchema

from .. import lengths
from ..usual import LEAST_PIECE
from .fields import _length, _pair

HALVES = {"fat quarter": {"in": "1/2 yd", "cm": "1/2 m"}, "fat eighth": {"in": "1/4 yd", "cm": "1/4 m"}}
"""Pieces half as wide as the fabric: how far they run along the selvage, in a pattern of either units."""

CUT_ACROSS, SQUARE = "strip", "square"
PRECUT = re.compile(rf"(?:precut\s+)?(?P<side>.+?)[\s-]*(?P<shape>{CUT_ACROSS}|{SQUARE})s?")
PLURAL = {f"{name}s": name for name in HALVES}
HOW = 'write its name, such as "fat quarter", "5 in square" or "2 1/2 in strip", or its two sides, ["18", "21"]'


class FabricPiece(NamedTuple):
    """One piece of fabric as it is sold: its `name` where it has one, inches `along` the selvage and `across` it, which
    is None where that follows from the width of the fabric: `share` of it."""

    name: str
    along: Fraction
    across: Fraction | None = None
    share: Fraction = Fraction(1)

    def size(self, width: Fraction) -> tuple[Fraction, Fraction]:
        """Its (size across, size along) in inches, cut from fabric so wide.

        >>> FabricPiece("fat quarter", Fraction(18), share=Fraction(1, 2)).size(Fraction(42))
        (Fraction(21, 1), Fraction(18, 1))
        """
        return (self.share * width if self.across is None else self.across), self.along


def read_piece(value, info: ValidationInfo) -> FabricPiece:
    """A piece as it is typed: a name of the trade, or two sides, of which the longer one is taken to lie across; which
    one is meant by the first, patterns do not agree on."""
    units = (info.context or {}).get("units", "in")
    if isinstance(value, FabricPiece):
        return value
    words = " ".join(value.casefold().split()) if isinstance(value, str) else ""
    name = PLURAL.get(words, words)
    if name in HALVES:
        return FabricPiece(name, lengths.parse(HALVES[name][units]), share=Fraction(1, 2))
    precut = PRECUT.fullmatch(words)
    if precut:
        side = _large_enough(_length(precut["side"], info), value)
        across = side if precut["shape"] == SQUARE else None
        return FabricPiece(f"{precut['side']} {precut['shape']}", side, across)
    sides = _pair(value)
    if value in sides or len(sides) != 2 or words and not any(map(str.isdigit, words)):
        raise ValueError(f"a piece of fabric has two sides, or a name of the trade: {HOW}; got {str(value)[:60]!r}")
    short, long = sorted(_length(side, info) for side in sides)
    _large_enough(short, value)
    return FabricPiece("", short, long)


def _large_enough(side, value):
    if side < LEAST_PIECE:
        raise ValueError(
            f"no fabric is sold in pieces narrower than {lengths.text(LEAST_PIECE, mark='in')}: check the number and "
            f"its unit, or {HOW}; got {str(value)[:60]!r}"
        )
    return side


Piece = Annotated[
    FabricPiece,
    BeforeValidator(read_piece),
    WithJsonSchema(
        {
            "anyOf": [
                {"type": "string"},
                {"type": "array", "items": {"type": ["string", "number"]}, "minItems": 2, "maxItems": 2},
            ],
            "examples": [*HALVES, "5 in square", "2 1/2 in strip", ["18", "21"]],
        }
    ),
]
