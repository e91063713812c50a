"""What a pattern sheet may say: the model of the TOML file, and the rules a sheet obeys by itself.

Lengths are read by `lengths.parse` ("3 7/8", "9.8 cm", 3.5) and kept as exact inches (`Fraction`); a bare number is in
the sheet's `units`. Nothing here knows how a quilt is sewn: that is `making`.
"""

from collections.abc import Sequence
from fractions import Fraction
from typing import Annotated, Any, Literal, NamedTuple, cast

from pydantic import Field, PrivateAttr, model_validator
from pydantic.json_schema import GenerateJsonSchema

from ..usual import HALVED_WIDTHS, LEAST_WIDTH, SEAMS, WIDTHS
from .cut import Cut
from .fields import (
    OPEN,
    Across,
    AtKey,
    Bought,
    Count,
    Distance,
    EdgeName,
    Length,
    Name,
    Names,
    Place,
    Rows,
    Seam,
    Size,
    Table,
    Text,
    Turn,
)
from .finishing import Backing, Batting, Binding
from .lines import KeyLines
from .parts import BlockTable, Fabric, StripSet, UnitTable
from .setting import Setting

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


PAIRS = {"sides": ("left", "right"), "top": ("bottom", "top")}
"""The edges that the two pairs of a border's strips lie on."""


class Border(Table):
    """One border, from the inside out: the parts for the `sides` and for `top` and bottom, cut to length or as strips.

    `first` says which pair is sewn on first. `corner` names corner squares; `ends` says whether strips meet butted or
    mitred. `sides_length` and `top_length` are the printed lengths of what is cut from joined strips. A border without
    `sides`, or without `top`, lies on the other two edges alone; `only` names the edges of one that lies on some. A
    block in place of a part is a pieced border, written as it lies on the left or at the top: it is turned half round
    for the right and the bottom, and a pieced corner by a quarter from one to the next. A round of four `triangles`
    instead, cut once, sets what lies inside it on point (as in a medallion).
    """

    sides: Name | None = None
    sides_length: Length | None = None
    top: Name | None = None
    top_length: Length | None = None
    triangles: Name | None = None
    corner: Name | None = None
    ends: Literal["butted", "mitred"] = "butted"
    first: Literal["sides", "top"] = "sides"
    only: Annotated[list[Literal["left", "right", "top", "bottom"]], Field(min_length=1, max_length=3)] | None = None

    @model_validator(mode="after")
    def _strips_or_triangles(self):
        strips = [self.sides, self.top]
        if self.triangles is not None and any((*strips, self.corner)):
            raise ValueError("a border is made of strips or of four triangles, not of both: take one of them out")
        if self.triangles is not None and self.ends == "mitred":
            raise ValueError('a round of four triangles has no ends to mitre; got ends = "mitred": take it out')
        if self.triangles is not None:
            two_pairs = ["first", "sides_length", "top_length"]
            self.refuse(two_pairs, "a round of four triangles is not sewn on in two pairs of strips")
            self.refuse(["only"], "a round of four triangles lies on all four edges")
        if self.triangles is None and not any(strips):
            raise ValueError("a border names the strips of its sides, of its top, or of both: add sides or top")
        return self

    @model_validator(mode="after")
    def _on_edges_it_has(self):
        for pair, name in (("sides", self.sides), ("top", self.top)):
            asked = [edge for edge in self.only or () if edge in PAIRS[pair]]
            if asked and name is None:
                raise AtKey("only", f"nothing is named for the {asked[0]}: write {pair} too, or take it out of only")
            if self.only is not None and name is not None and not asked:
                raise AtKey(pair, f"only leaves out {' and '.join(PAIRS[pair])}: take {pair} out, or name one of them")
        if self.triangles is None and len(self.edges) < 4:
            self.refuse(["corner"], "only a border on all four edges has corners")
            if self.ends == "mitred":
                raise AtKey("ends", "only a border on all four edges is mitred: take ends out")
        if self.triangles is None and None in (self.sides, self.top):
            self.refuse(["first"], "one pair of strips alone is not sewn on before another")
        return self

    @property
    def edges(self) -> tuple[str, ...]:
        """The edges it lies on, of "left", "right", "bottom" and "top"."""
        named = [edge for pair, edges in PAIRS.items() if getattr(self, pair) is not None for edge in edges]
        return tuple(edge for edge in named if self.only is None or edge in self.only)

    @property
    def pairs(self) -> list[str]:
        """The pairs it has strips of, "sides" and "top"."""
        return [pair for pair in PAIRS if self.on(pair)]

    def on(self, pair: str) -> int:
        """On how many edges of a pair it lies: of "sides", the left and the right, or of "top", the top and bottom."""
        return sum(edge in PAIRS[pair] for edge in self.edges)

    @property
    def parts(self) -> list[str]:
        """The names of its parts, each as often as the border takes it."""
        if self.triangles is not None:
            return [self.triangles] * 4
        strips = [self.sides] * self.on("sides") + [self.top] * self.on("top")
        return [name for name in (*strips, *[self.corner] * 4) if name is not None]


Lining = Backing | Batting


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
    trimmed to), `bought` the cloth bought, `pieces` the number of pieces bought, `sets` the number of strip sets,
    `binding` that of binding strips. `rows` (with `between`) or `columns` draw its blocks, `strip` names its long
    sashing strips, `border` says all its borders (none where the list is empty), and `cut` and `block` what this size
    alone cuts and makes, or makes otherwise. A count, a binding or a lining that is not given here is not judged in
    this size.
    """

    name: Name
    across: Across | None = None
    down: Across | None = None
    rows: Rows | None = None
    between: Rows | None = None
    columns: Rows | None = None
    strip: Names | None = None
    border: Annotated[list[Border], Field(max_length=40)] | None = None
    cut: Annotated[list[Cut], Field(max_length=500)] = []
    block: dict[Name, BlockTable] = {}
    sets: dict[Name, Count] = {}
    finished: Size | None = None
    counts: dict[Name, Count] = {}
    sizes: dict[Name, Size] = {}
    bought: dict[Name, Bought] = {}
    pieces: dict[Name, Count] = {}
    binding: Count | None = None
    backing: Backing | None = None
    batting: Batting | None = None

    @model_validator(mode="after")
    def _set_one_way(self):
        drawn = [key for key in ("rows", "columns") if getattr(self, key) is not None]
        if drawn:
            self.refuse(["across", "down"], f"{drawn[0]} draw every block of this size")
        if len(drawn) > 1:
            raise AtKey("columns", "the blocks are drawn in rows or in columns, not in both: take one of them out")
        return self

    @property
    def drawn(self) -> bool:
        """Whether it draws its blocks in rows or columns of its own."""
        return self.rows is not None or self.columns is not None


class Taken(NamedTuple):
    """What is taken where the sheet prints nothing: a seam and a usable width, inches; None for what is usual."""

    seam: Fraction | None = None
    width: Fraction | None = None


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
    backing: Backing | None = None
    batting: Batting | None = None
    other_size: Annotated[list[OtherSize], Field(max_length=20)] = []
    _name: str = PrivateAttr("sheet")
    _lines: KeyLines = PrivateAttr(default_factory=lambda: KeyLines(""))
    _taken: Taken = PrivateAttr(Taken())
    # Looked up by name, each in this very list: a copy with another one has to look anew.
    _parts: tuple[list[Cut], dict[str, Cut]] = PrivateAttr(default_factory=lambda: ([], {}))
    _giving: tuple[list[StepTable], dict[str, StepTable]] = PrivateAttr(default_factory=lambda: ([], {}))
    _written: dict[tuple[Fraction, bool], str] = PrivateAttr(default_factory=dict)

    @model_validator(mode="after")
    def _filled_in(self):
        """What one table says of another: counts of each print, the strips of a set that is cut in two widths, the line
        that the binding is cut by."""
        for number, cut in enumerate(self.cut):
            if cut.per_print is not None:
                self.cut[number] = cut.model_copy(update={"count": cut.per_print * self.prints(cut.fabric)})
        for name, one in self.strip_set.items():
            if one.of is not None:
                first = self.strip_set.get(one.of)
                self.strip_set[name] = one.model_copy(update={"strips": one.strips_of(first) if first else []})
        if self.binding is not None and self.binding.part is not None:
            part = next((cut for cut in self.cut if cut.part == self.binding.part), None)
            line = {} if part is None else {"fabric": part.fabric, "strip": part.strip, "count": part.count}
            object.__setattr__(self, "binding", self.binding.model_copy(update={"fabric": "", "count": OPEN, **line}))
        elif self.binding is not None and self.binding.length is not None:
            object.__setattr__(self, "binding", self.binding.model_copy(update={"count": OPEN}))
        return self

    def prints(self, fabric: str) -> int:
        """How many prints a fabric is a group of: 1 where the sheet says nothing."""
        return (self.fabric[fabric].prints or 1) if fabric in self.fabric else 1

    def fabric_piece(self, fabric: str) -> tuple[Fraction, Fraction] | None:
        """The (size across, size along the selvage), inches, of the pieces a fabric is bought in; None where it is not
        bought so."""
        listed = self.fabric.get(fabric)
        if listed is None or listed.piece is None:
            return None
        usual = HALVED_WIDTHS[0] if listed.piece.share < 1 else LEAST_WIDTH
        return listed.piece.size(listed.usable_width or self._taken.width or usual)

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

    @property
    def source(self) -> str:
        """The text the sheet was read from; nothing where it was made in another way."""
        return self._lines.text

    def place(self, path: Sequence[str | int]) -> str:
        """Where in the file this path of keys and list numbers stands: "lap.toml, line 12".

        >>> from quiltmath import pattern
        >>> pattern.read_text(EXAMPLE, "small.toml").place(["cut", 0, "size"])
        'small.toml, line 5'
        """
        line = self._lines.of(path)
        return f"{self._name}, line {line}" if line else self._name

    def taking(self, seam: Fraction | None = None, width: Fraction | None = None) -> "Sheet":
        """The same sheet, read with this seam and this usable width (inches) wherever it prints none of its own.

        >>> from quiltmath import pattern
        >>> sheet = pattern.read_text(EXAMPLE)
        >>> sheet.usable_width("navy"), sheet.taking(width=Fraction(42)).usable_width("navy")
        (Fraction(40, 1), Fraction(42, 1))
        >>> sheet.sewing_seam, sheet.taking(seam=Fraction(3, 8)).sewing_seam
        (Fraction(1, 4), Fraction(3, 8))
        """
        other = self.model_copy()
        other._taken = Taken(seam or self._taken.seam, width or self._taken.width)
        return other

    @property
    def sewing_seam(self) -> Fraction:
        """The seam the quilt is sewn with: the printed one, or the one that is taken where none is printed."""
        return self.seam or self._taken.seam or SEAMS[self.units][0]

    def part(self, name: str) -> Cut | None:
        """The line of the cutting list that cuts this part, or None."""
        if self._parts[0] is not self.cut:
            self._parts = self.cut, {cut.part: cut for cut in reversed(self.cut)}
        return self._parts[1].get(name)

    def step_giving(self, name: str) -> StepTable | None:
        """The explicit step that gives a panel of this name, or None."""
        if self._giving[0] is not self.step:
            self._giving = self.step, {given: step for step in reversed(self.step) for given in step.gives}
        return self._giving[1].get(name)

    def printed_width(self, fabric: str) -> Fraction | None:
        """The usable width of a fabric in inches, as printed; for one that is not listed the width of all that are,
        where they are alike. None where the sheet does not say."""
        listed = self.fabric.get(fabric)
        if listed is not None and listed.piece is not None:
            return listed.piece.across or (listed.usable_width and listed.piece.size(listed.usable_width)[0])
        if listed is not None:
            return listed.usable_width
        widths = {listed.usable_width for listed in self.fabric.values() if listed.piece is None}
        return widths.pop() if len(widths) == 1 else None

    def usable_width(self, fabric: str) -> Fraction:
        """The usable width of a fabric, or of a piece of it, in inches: as printed, or the one that is taken where none
        is printed."""
        piece = self.fabric_piece(fabric)
        if piece is not None:
            return piece[0]
        return self.printed_width(fabric) or self._taken.width or LEAST_WIDTH

    def at_each_width(self, fabric: str) -> "tuple[Sheet, ...]":
        """The sheet read with each usable width that this fabric may have, the narrowest first: itself where the width
        is printed, else with each of the usual ones.

        >>> from quiltmath import pattern
        >>> [int(sheet.usable_width("navy")) for sheet in pattern.read_text(EXAMPLE).at_each_width("navy")]
        [40, 42, 44]
        """
        if self.printed_width(fabric):
            return (self,)
        piece = self.fabric[fabric].piece if fabric in self.fabric else None
        widths = WIDTHS if piece is None or piece.share == 1 else HALVED_WIDTHS
        return tuple(self.taking(width=width) for width in widths)

    def cut_size(self, cut: Cut) -> tuple[Fraction, Fraction]:
        """The (width, height) of one piece of a line of the cutting list; a strip is as wide as it is long, or as its
        cloth."""
        if cut.size is not None:
            return cut.size
        return cut.length or self.usable_width(cut.fabric), cast("Fraction", cut.strip)


class _Schema(GenerateJsonSchema):
    """A JSON Schema whose defaults that are lengths stand in it as text."""

    def encode_default(self, dft: Any) -> Any:
        return str(dft) if isinstance(dft, Fraction) else super().encode_default(dft)


def json_schema() -> dict[str, Any]:
    """The JSON Schema of a pattern sheet, as a dict."""
    schema = Sheet.model_json_schema(mode="validation", schema_generator=_Schema)
    return {"$schema": "https://json-schema.org/draft/2020-12/schema", **schema}
