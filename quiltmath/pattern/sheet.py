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
from .border import Border
from .cut import Cut
from .fields import OPEN, Name, Seam, Size, Table, Text
from .finishing import Backing, Batting, Binding
from .lines import KeyLines
from .other_size import OtherSize
from .parts import BlockTable, Fabric, StripSet, UnitTable
from .setting import Setting
from .step import StepTable

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
    _inside: tuple[tuple, dict[str, frozenset[str]]] = PrivateAttr(default_factory=lambda: ((), {}))
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
        giving = self._giving
        if giving[0] is not self.step:
            giving = self._giving = self.step, {given: step for step in reversed(self.step) for given in step.gives}
        return giving[1].get(name)

    @property
    def known_inside(self) -> dict[str, frozenset[str]]:
        """What is known of the names that go into each panel, for `names.all_in` to add to; of other tables nothing."""
        tables, inside = (self.block, self.unit, self.strip_set, self.step, self.setting, self.border), self._inside
        if len(inside[0]) != len(tables) or any(known is not table for known, table in zip(inside[0], tables)):
            inside = self._inside = tables, {}
        return inside[1]

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
