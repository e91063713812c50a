"""The smaller things a sheet tells of: cloth, strip sets, units and blocks."""

from fractions import Fraction
from typing import Annotated, Literal

from pydantic import BeforeValidator, Field, ValidationInfo, field_validator, model_validator

from .fields import (
    UNTYPED,
    AtKey,
    AtOdds,
    Bought,
    Count,
    Distance,
    Item,
    Length,
    Name,
    Names,
    Rows,
    Size,
    Table,
    one_or_more,
    spelt,
)
from .precut import Piece


class Fabric(Table):
    """One cloth as the pattern asks for it: its `usable_width`, whether its print has a direction, how it is bought.

    That is a length, `bought`, or so many `pieces` of a size, `piece`; of `prints` that are cut alike so much or so
    many of each. `scraps` are not bought: nobody counts whether they will do.
    """

    bought: Bought | None = None
    pieces: Count | None = None
    piece: Piece | None = None
    prints: Count | None = None
    scraps: bool = False
    usable_width: Length | None = None
    directional: bool = False

    @model_validator(mode="after")
    def _bought_in_one_way(self):
        if self.scraps:
            for key in ("bought", "pieces", "piece"):
                if getattr(self, key) is not None:
                    raise AtOdds(key, f"scraps are not bought: take {key} out, or take scraps out")
        if self.bought is not None:
            self.refuse(["pieces", "piece"], "fabric is bought by length or in pieces of a size, not both")
        if self.pieces is not None and self.piece is None:
            raise AtKey("pieces", 'pieces of which size? Write piece too, such as piece = "fat quarter"')
        if self.piece is not None and self.pieces is None and self.prints is None:
            raise AtKey("piece", "how many pieces of this size? Write pieces too, such as pieces = 6")
        if self.piece is not None and self.piece.across is not None:
            self.refuse(["usable_width"], "a piece of a given size is as wide as that")
        return self

    @property
    def each(self) -> int:
        """How many pieces are bought of each print: one where prints are bought in pieces and nothing else is said."""
        return self.pieces or 1


class StripSet(Table):
    """Strips across the width sewn side by side (`strips`, top to bottom), then cut across into pieces `sub_cut` wide.

    `sets` is the printed number of strip sets, `pieces` the printed number of pieces. Pieces of a second width are cut
    from the same sets as those `of` another name; where those are sewn into a tube, each piece is opened above the
    strip that is its first, `opened_above`.
    """

    strips: Names = UNTYPED
    of: Name | None = None
    opened_above: Name | None = None
    sub_cut: Length
    sets: Count | None = None
    pieces: Count | None = None

    @model_validator(mode="after")
    def _sets_of_its_own(self):
        if self.of is None:
            self.need("strips")
            self.refuse(["opened_above"], "its strips say which one is the first")
        else:
            self.refuse(["sets"], f"its pieces are cut from the strip sets of {self.of!r}, which are counted there")
            self.refuse(["strips"], f"its strips are those of {self.of!r}")
        return self

    @property
    def filled_in(self) -> frozenset[str]:
        return frozenset() if self.of is None else frozenset(["strips"])

    def strips_of(self, other: "StripSet") -> list[Name]:
        """The strips of its pieces, from the top, where they are cut from the sets of another: as those lie, or of a
        tube from where it is opened."""
        strips = other.strips or []
        start = strips.index(self.opened_above) if self.opened_above in strips else 0
        return strips[start:] + strips[:start]


KINDS = {
    "half-square": 2,
    "half-rectangle": 2,
    "quarter-square": 2,
    "flying geese": 2,
    "square in a square": 2,
    "triangle in a square": 2,
    "snowball": 2,
}


Kind = Annotated[
    Literal[
        "half-square",
        "half-rectangle",
        "quarter-square",
        "flying geese",
        "square in a square",
        "triangle in a square",
        "snowball",
    ],
    *spelt(
        {
            "half-square": ("HST", "half-square triangle"),
            "half-rectangle": ("HRT", "half-rectangle triangle"),
            "quarter-square": ("QST", "quarter-square triangle"),
            "flying geese": (),
            "square in a square": (),
            "triangle in a square": (),
            "snowball": (),
        }
    ),
]


CORNERS = ("lower left", "upper left", "upper right", "lower right")
"""The corners of a block, each in the place of the one before once that is turned a quarter anticlockwise."""
Corner = Annotated[
    Literal["lower left", "upper left", "upper right", "lower right"],
    *spelt(dict.fromkeys(CORNERS, ())),
]


def _either(counts):
    """Numbers to choose from, in words: "2, 3 or 4"."""
    *most, last = map(str, counts)
    return f"{', '.join(most)} or {last}" if most else last


class UnitTable(Table):
    """A traditional unit, made of two parts.

    "half-square" (HST) and "quarter-square" (QST) take [one, other], "quarter-square" also all four, from the top
    clockwise, or three, where one half is a single triangle: [half, above, right]; "flying geese" [goose, sky]; "square
    in a square" and "snowball" [centre, corners], a "snowball" perhaps on some of its `corners` alone. Parts may be
    triangles, or whole squares to be sewn first and cut then: `at_a_time` says how many units come from one go
    (half-square: 2, 4 or 8; quarter-square: 2; flying geese: 1 or 4). "half-rectangle" (HRT) takes [left, right] as it
    stands upright; its seam slants to the "left" (from the upper left) or to the "right". "triangle in a square" takes
    [triangle, sides], or [triangle, left side, right side].
    """

    kind: Kind
    parts: Annotated[list[Name], Field(min_length=2, max_length=4)]
    at_a_time: Literal[1, 2, 4, 8] | None = None
    slant: Literal["left", "right"] | None = None
    corners: Annotated[list[Corner], BeforeValidator(one_or_more), Field(min_length=1, max_length=4)] | None = None
    finished: Size | None = None
    trim_to: Size | None = None
    count: Count | None = None

    @field_validator("finished", "trim_to")
    @classmethod
    def _lies_as_it_does(cls, size, info: ValidationInfo):
        """A goose is wider than high and a half-rectangle higher than wide, whichever figure is printed first."""
        kind = info.data.get("kind")
        if size is None or kind not in ("flying geese", "half-rectangle"):
            return size
        return tuple(sorted(size, reverse=kind == "flying geese"))

    @model_validator(mode="after")
    def _slants_if_it_has_to(self):
        if self.kind != "half-rectangle":
            self.refuse(["slant"], f"{self.kind} units are alike from left and right")
        elif self.slant is None:
            raise AtKey(
                "slant",
                'which way does its seam run, as the unit stands upright? Write slant = "left" where it comes from the '
                'upper left, slant = "right" where it comes from the upper right',
            )
        elif len({*(self.finished or ()), *(self.trim_to or ())}) == 1:
            raise AtOdds("kind", 'a unit as wide as high is a half-square: write kind = "half-square"')
        return self

    @model_validator(mode="after")
    def _has_corners_if_any(self):
        if self.kind != "snowball":
            self.refuse(["corners"], 'only kind = "snowball" has squares sewn across its corners')
        elif self.corners is not None and len({*self.corners}) < len(self.corners):
            raise AtKey("corners", f"name each corner once; got {', '.join(self.corners)}")
        return self

    @property
    def flipped(self) -> tuple[str, ...]:
        """The corners of a snowball over which a square is sewn and folded back: all, unless some are named."""
        return CORNERS if self.corners is None else tuple(self.corners)

    @model_validator(mode="after")
    def _is_not_flat(self):
        for key in ("finished", "trim_to"):
            size = getattr(self, key)
            if self.kind == "triangle in a square" and size is not None and size[0] >= 2 * size[1]:
                raise AtKey(
                    key,
                    "a triangle in a square is less than twice as wide as high; one that is just twice as wide is a "
                    'goose: write kind = "flying geese"; sew a flatter one in steps',
                )
        return self

    @model_validator(mode="after")
    def _takes_so_many_parts(self):
        takes = {"quarter-square": (2, 3, 4), "triangle in a square": (2, 3)}.get(self.kind, (2,))
        if len(self.parts) not in takes:
            raise ValueError(
                f"{self.kind} units are made of {_either(takes)} parts; got {len(self.parts)}: name each "
                "kind of piece once"
            )
        return self

    @model_validator(mode="after")
    def _comes_so_many_at_a_time(self):
        ways = {"half-square": (2, 4, 8), "quarter-square": (2,), "flying geese": (1, 4)}.get(self.kind, ())
        if self.at_a_time is not None and self.at_a_time not in ways:
            raise ValueError(
                f"{self.kind} units are made {' or '.join(map(str, ways)) or 'one'} at a time; got {self.at_a_time}: "
                + ("write how many come from one go" if ways else "leave at_a_time out")
            )
        return self


class BlockTable(Table):
    """A block: rows from top to bottom, each a list of parts, units or blocks from left to right.

    `finished` is its printed finished size, `trim_to` the size it is trimmed to after sewing. One that is `ready_made`
    (bought, or from a drawer) has no rows: it is taken as it is, by its `size` as it measures, raw edges and all, or by
    what it will finish.
    """

    rows: Rows = []
    finished: Size | None = None
    trim_to: Size | None = None
    count: Count | None = None
    ready_made: bool = False
    size: Size | None = None

    @model_validator(mode="after")
    def _sewn_or_ready_made(self):
        if not self.ready_made:
            self.refuse(["size"], "a block that is sewn finishes as its rows do, or is trimmed to trim_to")
            if not self.rows:
                raise AtKey(
                    "rows",
                    "this is missing; a block is sewn from rows, from the top down, or comes ready_made = true, with "
                    "its size",
                )
            return self
        self.refuse(["rows", "trim_to"], "a ready-made block is taken as it is")
        if self.size is None and self.finished is None:
            raise AtKey("size", 'this is missing; measure a ready-made block, raw edges and all: size = "9 1/2"')
        return self


KEYS_OF_EDGES = {"plain": ("part",), "built": ("rows", "left", "bottom", "right"), "cut blocks": ("block", "past")}
HOW_IN_WORDS = {
    "plain": "each cut as one part",
    "built": "each sewn from rows",
    "cut blocks": "each a block cut from corner to corner",
}


class EdgePiece(Table):
    """Where the triangles at the edge of an on-point setting come from.

    `how`: "plain" (cut from cloth: `part`), "built" (sewn from rows of parts: `rows`, a side triangle with its square
    corner at the lower left, a corner triangle from its tip down to its long edge, rows centred), "cut blocks" (whole
    blocks cut from corner to corner, or `past` that line). `frame` names strips sewn on before the 45-degree trim: two
    for the short edges, the left one first, or one for the long edge of a corner triangle. `tip` names the small
    triangles that end sashing rows where a side triangle beside whole cornerstones would have to be set in. Built
    triangles that differ from edge to edge give the `rows` of the top edge and those of `left`, `bottom` and `right`
    where they are others (for corners: the upper left one, lower left, lower right, upper right); all are written lying
    the same way, and turned when they are sewn on.
    """

    how: Literal["plain", "built", "cut blocks"] = "plain"
    part: Name | None = None
    rows: Rows | None = None
    block: Name | None = None
    past: Distance = Fraction(0)
    frame: Annotated[list[Name], Field(min_length=1, max_length=2)] | None = None
    tip: Name | None = None
    left: Rows | None = None
    bottom: Rows | None = None
    right: Rows | None = None

    @model_validator(mode="after")
    def _says_how(self):
        wanted = {"plain": "part", "built": "rows"}.get(self.how)
        if wanted and getattr(self, wanted) is None:
            raise ValueError(
                f'setting triangles that are "{self.how}" need {wanted}: name '
                + ("the part they are cut as" if wanted == "part" else "the rows they are sewn from")
            )
        others = {key for keys in KEYS_OF_EDGES.values() for key in keys} - {*KEYS_OF_EDGES[self.how]}
        self.refuse(
            (key for key in type(self).model_fields if key in others),
            f'setting triangles that are "{self.how}" ({HOW_IN_WORDS[self.how]}) have none',
        )
        return self

    def rows_at(self, where: str) -> list[list[Item]]:
        """The rows of a built triangle at the "top", "left", "bottom" or "right"."""
        return (None if where == "top" else getattr(self, where)) or self.rows or []
