"""What a pattern sheet may say: the model of the TOML file, and the rules a sheet obeys by itself.

Lengths are read by `lengths.parse` ("3 7/8", "9.8 cm", 3.5) and kept as exact inches (`Fraction`); a bare number is in the
sheet's `units`. Nothing here knows how a quilt is sewn: that is `making`.
"""
import re
from fractions import Fraction
from typing import Annotated, Any, Literal

from pydantic import AfterValidator, BaseModel, BeforeValidator, ConfigDict, Field, PrivateAttr, ValidationInfo, model_validator

from .. import lengths
from .lines import line_of

LONGEST_NAME = 120
MOST_PIECES = 100_000
MOST_ACROSS = 400
PLACES = {"lower left": (0, 0), "lower right": (1, 0), "upper left": (0, 1), "upper right": (1, 1),
          "bottom middle": (Fraction(1, 2), 0), "top middle": (Fraction(1, 2), 1),
          "left middle": (0, Fraction(1, 2)), "right middle": (1, Fraction(1, 2))}


def _length(value, info: ValidationInfo):
    unit = (info.context or {}).get("units", "in")
    return lengths.parse(value, unit=unit)


def _positive(value):
    if value <= 0:
        raise ValueError(f"a size is more than 0; got {lengths.text(value)}: write the size as the pattern prints it")
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
        parts = re.split(r"\s*[x×]\s*", value.strip())
        if len(parts) == 2:
            return parts
    return [value, value]


def _name(value):
    if not isinstance(value, str):
        raise ValueError(f"a name is text in quotes; got {value!r}")
    if not value.strip() or len(value) > LONGEST_NAME or not value.isprintable():
        raise ValueError(f"a name is 1 to {LONGEST_NAME} printable characters; got {len(value)}: shorten it")
    return value.strip()


Length = Annotated[Fraction, BeforeValidator(_length), AfterValidator(_positive),
                   Field(json_schema_extra={"type": ["string", "number"], "examples": ["3 7/8", 3.875, "9.8 cm"]})]
Distance = Annotated[Fraction, BeforeValidator(_length), AfterValidator(_not_negative),
                     Field(json_schema_extra={"type": ["string", "number"], "examples": ["0", "1/4"]})]
Size = Annotated[tuple[Length, Length], BeforeValidator(_pair)]
Name = Annotated[str, BeforeValidator(_name)]
Count = Annotated[int, Field(strict=True, ge=1, le=MOST_PIECES)]
Across = Annotated[int, Field(strict=True, ge=1, le=MOST_ACROSS)]


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


class Part(BaseModel):
    """A table of the sheet: unknown keys are refused, so that a slip of the pen is not silently left out."""
    model_config = ConfigDict(extra="forbid", frozen=True, arbitrary_types_allowed=True)


class Fabric(Part):
    """One cloth as the pattern asks for it: `bought` length, `usable_width`, whether its print has a direction."""
    bought: Length | None = None
    usable_width: Length | None = None
    directional: bool = False
    colour: Name | None = None


class Cut(Part):
    """One line of the printed cutting list.

    `size` is one length for a square or [width, height], lengthwise grain along the height; `cut` says what becomes of each
    piece: "whole", "once" on the diagonal (two triangles) or "twice" (four). `finished` is the printed finished size where
    there is one, `triangles` the printed number of triangles.
    """
    part: Name
    fabric: Name
    size: Size
    count: Count
    cut: Literal["whole", "once", "twice"] = "whole"
    finished: Size | None = None
    triangles: Count | None = None

    @property
    def gives(self):
        """How many pieces this line gives: 1, 2 or 4 from each one cut."""
        return self.count * {"whole": 1, "once": 2, "twice": 4}[self.cut]


class Item(Part):
    """One place in a row: a part, unit or block by its name, turned anticlockwise by some degrees."""
    name: Name
    turn: float = 0.0


def _row(value):
    words = value.split() if isinstance(value, str) else value
    if not isinstance(words, list) or not words:
        raise ValueError('a row names its parts from left to right, as in "A B A" (a turned part as "T:90")')
    return [_item(word) for word in words]


def _item(word):
    if not isinstance(word, str):
        return word
    name, _, turn = word.partition(":")
    try:
        angle = float(turn) if turn else 0.0
    except ValueError:
        raise ValueError(f'a part is turned by degrees anticlockwise, as in "T:90"; got {word[:40]!r}') from None
    if not -360 <= angle <= 360:
        raise ValueError(f"a part is turned by -360 to 360 degrees; got {word[:40]!r}")
    return {"name": name, "turn": angle}


Row = Annotated[list[Item], BeforeValidator(_row)]


class Block(Part):
    """A block, or a unit of one: rows from top to bottom, each a list of parts from left to right.

    `finished` is its printed finished size, `trim_to` the size it is trimmed to after sewing.
    """
    rows: Annotated[list[Row], Field(min_length=1, max_length=200)]
    finished: Size | None = None
    trim_to: Size | None = None
    count: Count | None = None


class EdgePiece(Part):
    """Where the triangles at the edge of an on-point setting come from.

    `how`: "plain" (cut from cloth: `part`), "built" (sewn from rows of parts: `rows`, square corner at the lower left),
    "cut blocks" (whole blocks cut from corner to corner, or `past` that line).
    """
    how: Literal["plain", "built", "cut blocks"] = "plain"
    part: Name | None = None
    rows: list[Row] | None = None
    block: Name | None = None
    past: Distance = Fraction(0)

    @model_validator(mode="after")
    def _says_how(self):
        wanted = {"plain": "part", "built": "rows"}.get(self.how)
        if wanted and getattr(self, wanted) is None:
            raise ValueError(f'edge triangles that are "{self.how}" need {wanted}: name '
                             + ("the part they are cut as" if wanted == "part" else "the rows they are sewn from"))
        return self


class Setting(Part):
    """How the blocks are set: straight or on point, so many across and down; `block` and perhaps an `alternate` one."""
    style: Literal["straight", "on point"]
    across: Across
    down: Across
    block: Name
    alternate: Name | None = None
    sides: EdgePiece | None = None
    corners: EdgePiece | None = None

    @model_validator(mode="after")
    def _edges_fit_style(self):
        if self.style == "straight" and (self.sides or self.corners):
            raise ValueError("a straight setting has no side or corner triangles: take them out, or write "
                             'style = "on point"')
        if self.style == "on point" and (self.sides is None or self.corners is None):
            raise ValueError("an on-point setting needs [setting.sides] and [setting.corners]: say how its edge "
                             "triangles come about")
        return self


def _place(value, info: ValidationInfo):
    if isinstance(value, str) and value.strip() in PLACES:
        return value.strip()
    if isinstance(value, (list, tuple)) and len(value) == 2:
        return [_length(part, info) for part in value]
    raise ValueError(f"a point is one of {', '.join(PLACES)}, or two lengths [from the left, from the bottom]; "
                     f"got {str(value)[:60]!r}")


Place = Annotated[Any, BeforeValidator(_place)]
EdgeName = str | float | int


class Step(Part):
    """One explicit step: exactly one of cut, turn, sew or trim, and the names of what it `gives`.

    `cut` a panel `from` one point `to` another (gives the piece on the left of that walk, then the right one); `turn` a
    panel `by` degrees anticlockwise; `sew` two panels by their `edges`, aligned at start, end or centre; `trim` a panel,
    taking off the lengths named left, right, top and bottom.
    """
    model_config = ConfigDict(extra="forbid", frozen=True, arbitrary_types_allowed=True, populate_by_name=True)
    cut: Name | None = None
    from_: Place | None = Field(None, alias="from")
    to: Place | None = None
    turn: Name | None = None
    by: float | None = None
    sew: tuple[Name, Name] | None = None
    edges: tuple[EdgeName, EdgeName] | None = None
    align: Literal["start", "end", "centre"] = "start"
    trim: Name | None = None
    left: Distance = Fraction(0)
    right: Distance = Fraction(0)
    top: Distance = Fraction(0)
    bottom: Distance = Fraction(0)
    gives: Annotated[list[Name], BeforeValidator(lambda value: [value] if isinstance(value, str) else value)]

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
            raise ValueError(f"a step that says {done[0]} gives {pieces} named panel{'s' * (pieces > 1)}; "
                             f"got {len(self.gives)}")
        return self

    @property
    def uses(self):
        """The names of the panels this step takes."""
        return [name for name in (self.cut, self.turn, self.trim) if name] + list(self.sew or ())


class Sheet(Part):
    """A whole pattern as it is printed."""
    title: Name
    units: Literal["in", "cm"] = "in"
    seam: Length | None = None
    finished: Size | None = None
    note: str | None = Field(None, max_length=2000)
    fabric: dict[Name, Fabric] = {}
    cut: Annotated[list[Cut], Field(min_length=1, max_length=500)]
    block: dict[Name, Block] = {}
    setting: Setting
    step: Annotated[list[Step], Field(max_length=500)] = []
    _name: str = PrivateAttr("sheet")
    _text: str = PrivateAttr("")

    @model_validator(mode="after")
    def _names_are_known(self):
        parts = [cut.part for cut in self.cut]
        given = [name for step in self.step for name in step.gives]
        for kind, names in (("part", parts), ("step", given)):
            twice = next((name for name in names if names.count(name) > 1), None)
            if twice:
                raise ValueError(f"two {kind}s are called {twice!r}: give each a name of its own")
        clash = next((name for name in self.block if name in parts), None)
        if clash:
            raise ValueError(f"a block and a part are both called {clash!r}: rename one")
        for cut in self.cut:
            if self.fabric and cut.fabric not in self.fabric:
                raise ValueError(f"part {cut.part!r} is cut from {cut.fabric!r}, which is no [fabric]; "
                                 f"the sheet has {', '.join(self.fabric)}")
        return self

    def remember(self, name, text):
        """Keep the file's name and text, so that what is said of the sheet later can name its line."""
        self._name, self._text = name, text

    def place(self, path):
        """Where in the file this path of keys and list numbers stands: "lap.toml, line 12".

        >>> from quiltmath import pattern
        >>> pattern.read_text(EXAMPLE, "small.toml").place(["cut", 0, "size"])
        'small.toml, line 5'
        """
        line = line_of(self._text, path)
        return f"{self._name}, line {line}" if line else self._name

    @property
    def sewing_seam(self):
        """The seam the quilt is sewn with: the printed one, or a quarter inch where none is printed."""
        return self.seam if self.seam is not None else Fraction(1, 4)

    def part(self, name):
        """The line of the cutting list that cuts this part, or None."""
        return next((cut for cut in self.cut if cut.part == name), None)


def json_schema():
    """The JSON Schema of a pattern sheet, as a dict."""
    schema = Sheet.model_json_schema(mode="validation")
    return {"$schema": "https://json-schema.org/draft/2020-12/schema", **schema}
