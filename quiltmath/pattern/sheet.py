"""What a pattern sheet may say: the model of the TOML file, and the rules a sheet obeys by itself.

Lengths are read by `lengths.parse` ("3 7/8", "9.8 cm", 3.5) and kept as exact inches (`Fraction`); a bare number is in
the sheet's `units`. Nothing here knows how a quilt is sewn: that is `making`.
"""

from collections.abc import Sequence
from fractions import Fraction
from typing import Annotated, Any, Literal, cast

from pydantic import Field, PrivateAttr, model_validator

from ..usual import LEAST_WIDTH, SEAM
from .fields import (
    Across,
    Bought,
    Count,
    Distance,
    EdgeName,
    Length,
    Name,
    Names,
    Place,
    Seam,
    Size,
    Table,
    Text,
    Turn,
    spelt,
)
from .lines import KeyLines
from .parts import BlockTable, Cut, EdgePiece, Fabric, StripSet, UnitTable

EXAMPLE = """\
title = "Four squares"
[[cut]]
part = "A"
fabric = "navy"
size = "3 1/2"
count = 16
[block.four]
rows = ["A A", "A A"]
[setting]
style = "straight"
across = 2
down = 2
block = "four"
"""


class Sashing(Table):
    """Strips between the blocks: `part`, cut as [width, length]; `cornerstone` the squares where they cross.

    Without cornerstones the strips between rows are long `strip` parts: one for all rows, or one for each length, the
    shortest first. `around`: also round the outside (straight settings). `edge`, on point: the quilt's edge runs
    through the cornerstones' centres ("half") or outside them ("whole"); `edge_cornerstone` names triangles for the
    halved ones, which else are whole squares that the edge cuts through.
    """

    part: Name
    cornerstone: Name | None = None
    strip: Names | None = None
    around: bool = True
    edge: Literal["half", "whole"] = "half"
    edge_cornerstone: Name | None = None

    @model_validator(mode="after")
    def _crossings(self):
        if (self.cornerstone is None) == (self.strip is None):
            raise ValueError(
                "sashing crosses either in cornerstones or in one long strip between rows: name cornerstone or strip"
            )
        if self.edge_cornerstone is not None and (self.cornerstone is None or self.edge == "whole"):
            raise ValueError(
                'the quilt\'s edge halves cornerstones only where there are some and edge = "half": take '
                "edge_cornerstone out"
            )
        return self


class Setting(Table):
    """How the blocks are set: straight or on point, so many across and down; `block` and perhaps an `alternate` one."""

    style: Annotated[Literal["straight", "on point"], *spelt({"straight": (), "on point": ("on-point",)})]
    across: Across
    down: Across
    block: Name
    alternate: Name | None = None
    sashing: Sashing | None = None
    sides: EdgePiece | None = None
    corners: EdgePiece | None = None
    floating: Distance = Fraction(0)

    @model_validator(mode="after")
    def _edges_fit_style(self):
        if self.style == "straight" and (self.sides or self.corners or self.floating):
            raise ValueError(
                "a straight setting has no side or corner triangles and nothing floats: take them out, or write "
                'style = "on point"'
            )
        if self.style == "straight" and self.sashing is not None and self.sashing.edge_cornerstone is not None:
            raise ValueError(
                f"the edge of a straight setting halves no cornerstones; got edge_cornerstone = "
                f'{self.sashing.edge_cornerstone!r}: take it out, or write style = "on point"'
            )
        if self.sides is not None and self.sides.frame is not None and len(self.sides.frame) != 2:
            raise ValueError(
                f"a side triangle is framed on both of its short edges; got {len(self.sides.frame)} frame strip: "
                "name two"
            )
        missing = [
            f"[setting.{key}]"
            for key in ("sides", "corners")
            if getattr(self, key) is None and (key == "corners" or self.across + self.down > 2)
        ]
        if self.style == "on point" and missing:
            raise ValueError(
                f"an on-point setting needs {' and '.join(missing)}: say how its setting triangles come about"
            )
        return self

    @model_validator(mode="after")
    def _tips_at_whole_edges(self):
        if self.corners is not None and self.corners.tip is not None:
            raise ValueError(
                f"corner triangles have no tips of their own; got tip = {self.corners.tip!r}: write it in "
                "[setting.sides]"
            )
        whole = self.sashing is not None and self.sashing.edge == "whole"
        if self.sides is not None and self.sides.tip is not None and not whole:
            raise ValueError(
                "side triangles have tips of their own only where sashing runs outside the blocks; got tip = "
                f'{self.sides.tip!r}: take it out, or write edge = "whole" in [setting.sashing]'
            )
        return self


class Border(Table):
    """One border, from the inside out: the parts for the `sides` and for `top` and bottom, cut to length or as strips.

    `first` says which pair is sewn on first. `corner` names corner squares; `ends` says whether strips meet butted or
    mitred. A round of four `triangles` instead, cut once, sets what lies inside it on point (as in a medallion).
    """

    sides: Name | None = None
    top: Name | None = None
    triangles: Name | None = None
    corner: Name | None = None
    ends: Literal["butted", "mitred"] = "butted"
    first: Literal["sides", "top"] = "sides"

    @model_validator(mode="after")
    def _strips_or_triangles(self):
        strips = [self.sides, self.top]
        if self.triangles is not None and any((*strips, self.corner)):
            raise ValueError("a border is made of strips or of four triangles, not of both: take one of them out")
        if self.triangles is not None and self.ends == "mitred":
            raise ValueError('a round of four triangles has no ends to mitre; got ends = "mitred": take it out')
        if self.triangles is None and None in strips:
            raise ValueError("a border names the strips of its sides and of its top: add the one that is missing")
        return self

    @property
    def parts(self) -> list[str]:
        """The names of its parts, each as often as the border takes it."""
        if self.triangles is not None:
            return [self.triangles] * 4
        names = [self.sides, self.sides, self.top, self.top, *[self.corner] * 4]
        return [name for name in names if name is not None]


class Binding(Table):
    """The binding: strips `strip` high, `count` of them, from `fabric`, straight or bias, joined on the diagonal or
    straight."""

    fabric: Name
    strip: Length
    count: Count
    style: Literal["straight", "bias"] = "straight"
    join: Literal["diagonal", "straight"] = "diagonal"


class Lining(Table):
    """The backing or the batting: its printed `size`, or for a backing the cloth `bought` in `panels` lengths."""

    size: Size | None = None
    fabric: Name | None = None
    bought: Bought | None = None
    usable_width: Length | None = None
    panels: Annotated[int, Field(strict=True, ge=1, le=12)] | None = None


class StepTable(Table):
    """One explicit step: exactly one of cut, turn, sew or trim, and the names of what it `gives`.

    `cut` a panel `from` one point `to` another (gives the piece on the left of that walk, then the right one); `turn` a
    panel `by` degrees anticlockwise; `sew` two panels by their `edges`, aligned at start, end or centre; `trim` a
    panel, taking off the lengths named left, right, top and bottom.
    """

    cut: Name | None = None
    from_: Place | None = Field(None, alias="from")
    to: Place | None = None
    turn: Name | None = None
    by: Turn | None = None
    sew: tuple[Name, Name] | None = None
    edges: tuple[EdgeName, EdgeName] | None = None
    align: Literal["start", "end", "centre"] = "start"
    trim: Name | None = None
    left: Distance = Fraction(0)
    right: Distance = Fraction(0)
    top: Distance = Fraction(0)
    bottom: Distance = Fraction(0)
    gives: Names

    @model_validator(mode="after")
    def _one_thing(self):
        done = [verb for verb in ("cut", "turn", "sew", "trim") if getattr(self, verb) is not None]
        if len(done) != 1:
            raise ValueError(f"a step does one of cut, turn, sew, trim; this one says {', '.join(done) or 'none'}")
        needs = {"cut": ("from_", "to"), "turn": ("by",), "sew": ("edges",), "trim": ()}[done[0]]
        for need in needs:
            if getattr(self, need) is None:
                raise ValueError(f'a step that says {done[0]} also says "{need.rstrip("_")}"')
        pieces = 2 if done[0] == "cut" else 1
        if len(self.gives) != pieces:
            raise ValueError(
                f"a step that says {done[0]} gives {pieces} named panel{'s' * (pieces > 1)}; got {len(self.gives)}"
            )
        return self

    @property
    def uses(self) -> list[str]:
        """The names of the panels this step takes."""
        return [name for name in (self.cut, self.turn, self.trim) if name] + list(self.sew or ())


class OtherSize(Table):
    """Another size of the same pattern: what differs, by name; the rest is as in the sheet.

    `counts` gives the number of pieces, units or blocks, `sizes` cut sizes of parts (for a unit or block the size it is
    trimmed to), `bought` the cloth bought, `binding` the number of binding strips. A count, a binding or a lining that
    is not given here is not judged in this size.
    """

    name: Name
    across: Across | None = None
    down: Across | None = None
    finished: Size | None = None
    counts: dict[Name, Count] = {}
    sizes: dict[Name, Size] = {}
    bought: dict[Name, Bought] = {}
    binding: Count | None = None
    backing: Lining | None = None
    batting: Lining | None = None


class Sheet(Table):
    """A whole pattern as it is printed."""

    title: Name
    units: Literal["in", "cm"] = "in"
    seam: Seam | None = None
    finished: Size | None = None
    note: Text | None = None
    instructions: Annotated[list[Text], Field(max_length=200)] = []
    fabric: dict[Name, Fabric] = {}
    cut: Annotated[list[Cut], Field(min_length=1, max_length=500)]
    strip_set: dict[Name, StripSet] = {}
    unit: dict[Name, UnitTable] = {}
    block: dict[Name, BlockTable] = {}
    setting: Setting
    step: Annotated[list[StepTable], Field(max_length=500)] = []
    border: Annotated[list[Border], Field(max_length=40)] = []
    binding: Binding | None = None
    backing: Lining | None = None
    batting: Lining | None = None
    other_size: Annotated[list[OtherSize], Field(max_length=20)] = []
    _name: str = PrivateAttr("sheet")
    _lines: KeyLines = PrivateAttr(default_factory=lambda: KeyLines(""))
    _written: dict[tuple[Fraction, bool], str] = PrivateAttr(default_factory=dict)

    def remember(self, name: str, text: str, written: dict[tuple[Fraction, bool], str]) -> None:
        """Keep the file's name and text and how its lengths are written, so that what is said of the sheet later can
        name the line and quote the figure."""
        self._name, self._lines, self._written = name, KeyLines(text), written

    def quoted(self, inches: Fraction, sold: bool = False) -> str | None:
        """A length as the sheet itself writes it, in yards or metres where it is `sold` so; None for one that it does
        not have.

        >>> from quiltmath import pattern
        >>> sheet = pattern.read_text(EXAMPLE.replace('"3 1/2"', '"3.50"'))
        >>> sheet.quoted(Fraction(7, 2)), sheet.quoted(Fraction(4))
        ('3.50 in', None)
        """
        return self._written.get((inches, sold))

    def place(self, path: Sequence[str | int]) -> str:
        """Where in the file this path of keys and list numbers stands: "lap.toml, line 12".

        >>> from quiltmath import pattern
        >>> pattern.read_text(EXAMPLE, "small.toml").place(["cut", 0, "size"])
        'small.toml, line 5'
        """
        line = self._lines.of(path)
        return f"{self._name}, line {line}" if line else self._name

    @property
    def sewing_seam(self) -> Fraction:
        """The seam the quilt is sewn with: the printed one, or a quarter inch where none is printed."""
        return self.seam if self.seam is not None else SEAM

    def part(self, name: str) -> Cut | None:
        """The line of the cutting list that cuts this part, or None."""
        return next((cut for cut in self.cut if cut.part == name), None)

    def usable_width(self, fabric: str) -> Fraction:
        """The usable width of a fabric in inches: as printed, or the least that is usual."""
        printed = self.fabric.get(fabric)
        return printed.usable_width if printed is not None and printed.usable_width else LEAST_WIDTH

    def cut_size(self, cut: Cut) -> tuple[Fraction, Fraction]:
        """The (width, height) of one piece of a line of the cutting list; a strip is as wide as its cloth."""
        return cut.size if cut.size is not None else (self.usable_width(cut.fabric), cast("Fraction", cut.strip))


def json_schema() -> dict[str, Any]:
    """The JSON Schema of a pattern sheet, as a dict."""
    schema = Sheet.model_json_schema(mode="validation")
    return {"$schema": "https://json-schema.org/draft/2020-12/schema", **schema}
