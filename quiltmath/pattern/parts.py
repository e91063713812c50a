"""The smaller things a sheet tells of: cloth, lines of the cutting list, strip sets, units and blocks."""

from fractions import Fraction
from typing import Annotated, Literal

from pydantic import Field, ValidationInfo, field_validator, model_validator

from .fields import (
    OPEN,
    UNTYPED,
    AtKey,
    Bought,
    Count,
    CountOrEnough,
    Distance,
    Item,
    Length,
    Name,
    Names,
    Rows,
    Size,
    Table,
    spelt,
)
from .precut import Piece

PIECES = {"whole": 1, "once": 2, "twice": 4, "shaped": 1}
SIZED_SHAPES = ("triangle", "trapezoid")
"""Shapes that say their longest side and their height, as a size; the others follow from the width of their strip."""


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
                    raise AtKey(key, f"scraps are not bought: take {key} out, or take scraps out")
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


HALF_TRIANGLE = "half 60-degree triangle"
DIAMONDS = ("60-degree diamond", "45-degree diamond")
Shape = Annotated[
    Literal[
        "triangle",
        "trapezoid",
        "60-degree triangle",
        "half 60-degree triangle",
        "60-degree diamond",
        "45-degree diamond",
        "half hexagon",
    ],
    *spelt(
        {
            "triangle": (),
            "trapezoid": (),
            "60-degree triangle": ("equilateral triangle",),
            "half 60-degree triangle": (),
            "60-degree diamond": (),
            "45-degree diamond": (),
            "half hexagon": (),
        }
    ),
]


class Cut(Table):
    """One line of the printed cutting list.

    `size` is one length for a square or [width, height], lengthwise grain along the height; a strip across the whole
    width of the cloth gives its height as `strip` instead. `cut` says what becomes of each piece: "whole", "once" on
    the diagonal (two triangles) or "twice" (four). `finished` is the printed finished size where there is one (of the
    unit, or of the long side for "twice"), `triangles` the printed number of triangles. `slant` says which way
    rectangles that stand upright are cut "once": to the "left" (from the upper left), to the "right", or "both", some
    each way, as many as it takes.

    `count` is how many are cut, "enough" of strips that are cut in as many as it takes, or `per_print` how many from
    each of a group of prints. `strips` are the printed strips, `strip_width` wide, that pieces of a `size` are
    sub-cut from. A strip of another `length` than the width of its cloth says so; `lengthwise` ones run along the
    selvage.

    `shape` is what is cut at an angle from strips, tips up and down by turns: a "triangle" with two equal sides or a
    "trapezoid" with 45-degree ends, of which `size` says the long side and the height; a "60-degree triangle", "half
    60-degree triangle", "60-degree diamond", "45-degree diamond" or "half hexagon", which follow from `strip_width`.
    Such a line is cut "shaped", neither whole nor on a diagonal.
    """

    part: Name
    fabric: Name
    shape: Shape | None = None
    size: Size | None = None
    strip: Length | None = None
    length: Length | None = None
    lengthwise: bool = False
    count: CountOrEnough = UNTYPED
    per_print: Count | None = None
    strips: Count | None = None
    strip_width: Length | None = None
    cut: Literal["whole", "once", "twice"] = "whole"
    slant: Literal["left", "right", "both"] | None = None
    finished: Size | None = None
    triangles: Count | None = None

    @model_validator(mode="after")
    def _shaped(self):
        if self.shape is None:
            return self
        self.refuse(["cut", "triangles"], "a shape is cut from its strip, and not cut up again")
        self.refuse(["finished"], f"a {self.shape} is judged by what it is sewn to")
        if self.shape in DIAMONDS and self.slant == "both":
            raise AtKey("slant", 'a diamond leans to the "left" or to the "right", each way on a line of its own')
        if self.shape != HALF_TRIANGLE:
            self.refuse(["slant"] if self.shape not in DIAMONDS else [], f"a {self.shape} is alike from left and right")
        elif self.slant not in ("left", "right"):
            raise AtKey(
                "slant",
                'a half triangle has a left and a right: write slant = "left" where its slanting side comes from the '
                'upper left as it stands on its short side, or "right", each way on a line of its own',
            )
        self.refuse(["strip", "length", "lengthwise"], "shapes are cut from strips: write how wide, as strip_width")
        if self.shape in SIZED_SHAPES:
            if self.size is None:
                raise AtKey("size", f"a {self.shape} says its long side and its height as it is cut: write size too")
            if self.shape == "trapezoid" and self.size[0] <= 2 * self.size[1]:
                raise AtKey(
                    "size",
                    "the ends of a trapezoid slant at 45 degrees, so its long side is more than twice its height; "
                    "write the long side first",
                )
            self.refuse(["strip_width"], "its size says how high it is")
        else:
            self.refuse(["size"], f"a {self.shape} follows from how wide its strip is")
            if self.strip_width is None:
                raise AtKey(
                    "strip_width",
                    f"a {self.shape} is as large as the strip it is cut from is wide: write strip_width too",
                )
            object.__setattr__(self, "size", (self.strip_width, self.strip_width))
        object.__setattr__(self, "cut", "shaped")
        return self

    @model_validator(mode="after")
    def _one_size(self):
        if (self.size is None) == (self.strip is None):
            raise ValueError(
                "a line of the cutting list gives either size (a piece) or strip (the height of a strip across the "
                "whole width of the fabric)"
            )
        if self.strip is not None and self.cut != "whole":
            raise ValueError(
                "a strip across the width is not cut on the diagonal: give the squares it is cut into as a line of "
                "their own"
            )
        if self.strip is not None:
            self.refuse(["finished"], "a strip across the width is no piece that has a finished size")
        if self.cut in ("whole", "shaped"):
            self.refuse(["triangles"], 'triangles are counted where pieces are cut "once" or "twice" on the diagonal')
        return self

    @model_validator(mode="after")
    def _slants_if_it_can(self):
        if self.shape is not None:
            return self
        if self.slant is not None and (self.cut != "once" or self.size is None):
            raise AtKey("slant", 'only rectangles cut once slant; write cut = "once", or take slant out')
        if self.slant is not None and not self.halved_rectangle:
            raise AtKey("slant", "the triangles of a square are alike whichever way it is cut: take slant out")
        return self

    @model_validator(mode="after")
    def _counted_in_one_way(self):
        if self.per_print is None:
            self.need("count")
        else:
            self.refuse(["count"], "pieces are counted in all or per_print, not both")
        if self.count == OPEN and self.strip is None:
            raise AtKey("count", 'only strips are cut in as many as are "enough"; write how many pieces are cut')
        return self

    @model_validator(mode="after")
    def _strips_of_their_own_length(self):
        if self.strip is None:
            self.refuse(["length"], "only a strip says its length; a piece has its size")
        else:
            self.refuse(["strips", "strip_width"], "strips are sub-cut into pieces of a size; these stay strips")
            if self.lengthwise and self.length is None:
                raise AtKey("lengthwise", "a strip along the selvage is as long as it is cut: write its length too")
        if self.strips is None and self.shape is None:
            self.refuse(
                ["strip_width"], "a strip width is that of the strips that pieces are sub-cut from: write strips"
            )
        return self

    @property
    def filled_in(self) -> frozenset[str]:
        counted = [] if self.per_print is None else ["count"]
        shaped = [] if self.shape is None else ["cut"] if self.shape in SIZED_SHAPES else ["cut", "size"]
        return frozenset([*counted, *shaped])

    @property
    def open(self) -> bool:
        """Whether it is cut in as many as it takes, which no count can be wrong of."""
        return self.count == OPEN

    @property
    def halved_rectangle(self) -> bool:
        """Whether it is a rectangle, not a square, cut once from corner to corner: its triangles have a left and a
        right."""
        return self.cut == "once" and self.size is not None and self.size[0] != self.size[1]

    @property
    def diagonal(self) -> bool:
        """Whether its pieces are cut on the diagonal into triangles."""
        return self.cut in ("once", "twice")

    @property
    def cut_from(self) -> str:
        """What its triangles are cut from: a "square", or a "rectangle"."""
        return "rectangle" if self.halved_rectangle else "square"

    @property
    def each(self) -> int:
        """How many pieces come of each one cut: 1, 2 or 4."""
        return PIECES[self.cut]

    @property
    def gives(self) -> int:
        """How many pieces this line gives: 1, 2 or 4 from each one cut."""
        return self.count * PIECES[self.cut]


class StripSet(Table):
    """Strips across the width sewn side by side (`strips`, top to bottom), then cut across into pieces `sub_cut` wide.

    `sets` is the printed number of strip sets, `pieces` the printed number of pieces. Pieces of a second width are cut
    from the same sets as those `of` another name.
    """

    strips: Names = UNTYPED
    of: Name | None = None
    sub_cut: Length
    sets: Count | None = None
    pieces: Count | None = None

    @model_validator(mode="after")
    def _sets_of_its_own(self):
        if self.of is None:
            self.need("strips")
        else:
            self.refuse(["sets"], f"its pieces are cut from the strip sets of {self.of!r}, which are counted there")
            self.refuse(["strips"], f"its strips are those of {self.of!r}")
        return self

    @property
    def filled_in(self) -> frozenset[str]:
        return frozenset() if self.of is None else frozenset(["strips"])


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


class UnitTable(Table):
    """A traditional unit, made of two parts.

    "half-square" (HST) and "quarter-square" (QST) take [one, other], "quarter-square" also all four, from the top
    clockwise; "flying geese" [goose, sky]; "square in a square" and "snowball" [centre, corners]. Parts may be
    triangles, or whole squares to be sewn first and cut then: `at_a_time` says how many units come from one go
    (half-square: 2, 4 or 8; quarter-square: 2; flying geese: 1 or 4). "half-rectangle" (HRT) takes [left, right] as it
    stands upright; its seam slants to the "left" (from the upper left) or to the "right". "triangle in a square" takes
    [triangle, sides], or [triangle, left side, right side].
    """

    kind: Kind
    parts: Annotated[list[Name], Field(min_length=2, max_length=4)]
    at_a_time: Literal[1, 2, 4, 8] | None = None
    slant: Literal["left", "right"] | None = None
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
            raise AtKey("kind", 'a unit as wide as high is a half-square: write kind = "half-square"')
        return self

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
        takes = {"quarter-square": (2, 4), "triangle in a square": (2, 3)}.get(self.kind, (2,))
        if len(self.parts) not in takes:
            raise ValueError(
                f"{self.kind} units are made of {' or '.join(map(str, takes))} parts; got {len(self.parts)}: name each "
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
