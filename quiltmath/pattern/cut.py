"""The lines of the cutting list: whole pieces, triangles, strips, and shapes cut at an angle from strips."""

from typing import Annotated, Literal, get_args

from pydantic import model_validator

from .fields import (
    OPEN,
    UNTYPED,
    AtKey,
    AtOdds,
    Count,
    CountOrEnough,
    Length,
    Name,
    Size,
    Table,
    spelt,
)

PIECES = {"whole": 1, "once": 2, "twice": 4, "shaped": 1}
SIZED_SHAPES = ("triangle", "trapezoid")
"""Shapes that say their longest side and their height, as a size; the others follow from the width of their strip."""

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
SHAPES: tuple[str, ...] = get_args(get_args(Shape)[0])


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
            raise AtOdds("slant", 'only rectangles cut once slant; write cut = "once", or take slant out')
        if self.slant is not None and not self.halved_rectangle:
            raise AtOdds("slant", "the triangles of a square are alike whichever way it is cut: take slant out")
        return self

    @model_validator(mode="after")
    def _counted_in_one_way(self):
        if self.per_print is None:
            self.need("count")
        else:
            self.refuse(["count"], "pieces are counted in all or per_print, not both")
        if self.count == OPEN and self.strip is None:
            raise AtOdds("count", 'only strips are cut in as many as are "enough"; write how many pieces are cut')
        return self

    @model_validator(mode="after")
    def _strips_of_their_own_length(self):
        if self.strip is None:
            self.refuse(["length"], "only a strip says its length; a piece has its size")
        else:
            self.refuse(["strips", "strip_width"], "strips are sub-cut into pieces of a size; these stay strips")
            if self.lengthwise and self.length is None:
                raise AtKey("lengthwise", "a strip along the selvage is as long as it is cut: write its length too")
        if self.strips is None and self.shape is None and self.strip_width is not None:
            raise AtOdds(
                "strip_width",
                "a strip width is that of the strips that pieces are sub-cut from: write beside it how many they are, "
                "as strips = 4, or take strip_width out",
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
