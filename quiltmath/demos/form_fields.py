"""The fields of the form of a pattern sheet, in the order in which a printed pattern gives them.

A field's key is its key in the sheet. Most patterns have the fields that always stand there; `rare` ones and whole
groups come when they are asked for, or when a sheet says something in them.
"""

from collections.abc import Mapping
from typing import NamedTuple, TypeAlias

from ..pattern.cut import SHAPES
from ..pattern.parts import KINDS

YES, NO = "yes", "no"
KEPT = "kept"  # in a line: what a sheet says there that no field can show, as JSON
Line: TypeAlias = dict[str, str]  # what is typed, by the key of its field
Typed: TypeAlias = dict[str, list[Line]]  # a whole form, by the key of its groups


class Field(NamedTuple):
    """One field: its key in the sheet, its label, an example, its choices if it has any, and the example in a metric
    pattern where that is another.

    `rare`: shown when asked for. `when`: shown where another field of its line has one of these values. `offers`: whose
    names are offered while typing, "fabric", "part" (also units, blocks and strip sets) or "block". `unit`: of what it
    is a measure, "in" for a length in the pattern's units. `lines`: as high as so many lines.
    """

    key: str
    label: str
    example: str = ""
    choices: tuple[str, ...] = ()
    metric: str = ""
    rare: bool = False
    when: tuple[str, tuple[str, ...]] | None = None
    offers: str = ""
    unit: str = ""
    lines: int = 1

    def example_in(self, units: str) -> str:
        """The example in a pattern of these units.

        >>> Field("seam", "Seam", "1/4", metric="0.75").example_in("cm")
        '0.75'
        """
        return self.metric if units == "cm" and self.metric else self.example

    def label_in(self, units: str) -> str:
        """The label in a pattern of these units.

        >>> Field("seam", "Seam", "1/4", unit="in").label_in("cm")
        'Seam (cm)'
        """
        return f"{self.label} ({'cm' if units == 'cm' else 'in'})" if self.unit else self.label

    def fits(self, line: Mapping[str, str]) -> bool:
        """Whether it has a place in this line."""
        return self.when is None or line.get(self.when[0], "") in self.when[1]


class Group(NamedTuple):
    """A group of fields: where it stands in the sheet, its title, its fields; `many` lines, or one. `named`: a table of
    tables in the sheet, each under the name in the first field. `one`: one line of it in words, where it is not every
    pattern that has it; `on_point`: it has a place in such a setting alone."""

    key: str
    title: str
    fields: tuple[Field, ...]
    many: bool = True
    named: bool = False
    one: str = ""
    on_point: bool = False


def _edge(corner):
    built, halved = ("how", ("built",)), ("how", ("cut blocks",))
    return (
        Field("how", "They come about", choices=("plain", "built", "cut blocks")),
        Field("part", "Cut as", "corner" if corner else "side", when=("how", ("plain",)), offers="part"),
        Field("rows", "Built rows from the tip", "T\nA T", when=built, lines=3),
        Field("block", "Block to cut", when=halved, offers="block"),
        Field("past", "Cut past the diagonal", "1/4", metric="0.75", when=halved, unit="in"),
    )


GROUPS = (
    Group(
        "",
        "The pattern",
        (
            Field("title", "Title", "Lap quilt"),
            Field("units", "Units", choices=("in", "cm")),
            Field("seam", "Seam", "1/4", metric="0.75", unit="in"),
            Field("finished", "Finished size", "63 5/8 x 76 3/8", metric="160 x 195", unit="in"),
            Field(
                "instructions",
                "Order of work",
                "Measure the top, cut the borders.",
                rare=True,
                lines=3,
            ),
        ),
        many=False,
    ),
    Group(
        "fabric",
        "Fabric to buy",
        (
            Field("name", "Fabric", "navy", offers="fabric"),
            Field("bought", "Length", "2 1/4 yd", metric="2.1 m"),
            Field("usable_width", "Usable width", "42", metric="107", unit="in"),
            Field("pieces", "or pieces", "6", rare=True),
            Field("piece", "each of them a", "fat quarter", rare=True),
            Field("prints", "So many prints", "13", rare=True),
            Field("scraps", "Scraps, not bought", choices=("", YES), rare=True),
            Field("directional", "Print has a direction", choices=("", YES), rare=True),
        ),
        named=True,
        one="fabric to buy",
    ),
    Group(
        "cut",
        "Cutting list",
        (
            Field("part", "Piece", "A"),
            Field("fabric", "Fabric", "navy", offers="fabric"),
            Field("count", "How many", "12"),
            Field("size", "Size", "3 1/2", metric="9", unit="in"),
            Field("cut", "On the diagonal", choices=("whole", "once", "twice")),
            Field("slant", "Slants", choices=("", "left", "right", "both"), rare=True, when=("cut", ("once",))),
            Field(
                "shape",
                "or a shape",
                choices=("", *SHAPES),
                rare=True,
            ),
            Field("strip", "or strip width", "2 1/2", metric="6.5", rare=True, unit="in"),
            Field("length", "of this length", "20", metric="50", rare=True, unit="in"),
            Field("lengthwise", "along the selvage", choices=("", YES), rare=True),
            Field("strips", "from so many strips", "4", rare=True),
            Field("strip_width", "cut so wide", "3 1/2", metric="9", rare=True, unit="in"),
            Field("per_print", "or of each print", "5", rare=True),
            Field("triangles", "Triangles", "24", rare=True, when=("cut", ("once", "twice"))),
            Field("finished", "Finishes", "3", metric="7.5", rare=True, unit="in"),
        ),
    ),
    Group(
        "strip_set",
        "Strip sets",
        (
            Field("name", "Strip set", "outer"),
            Field("strips", "Strips from the top", "A, B, A", offers="part"),
            Field("sub_cut", "Sub-cut", "3 1/2", metric="9", unit="in"),
            Field("sets", "Sets", "2"),
            Field("pieces", "Pieces", "24"),
            Field("of", "Cut from the sets of", "outer", rare=True, offers="part"),
        ),
        named=True,
        one="a strip set",
    ),
    Group(
        "unit",
        "Units",
        (
            Field("name", "Unit", "HST"),
            Field(
                "kind",
                "Kind",
                choices=tuple(KINDS),
            ),
            Field("slant", "Slants", choices=("", "left", "right"), when=("kind", ("half-rectangle",))),
            Field("parts", "Its pieces, two to four", "A, B", offers="part"),
            Field("finished", "Finishes", "3", metric="7.5", unit="in"),
            Field("count", "How many", "48"),
            Field("at_a_time", "So many at a time", choices=("", "1", "2", "4", "8"), rare=True),
            Field("trim_to", "Trimmed to", "3 1/2", metric="9", rare=True, unit="in"),
        ),
        named=True,
        one="a unit",
    ),
    Group(
        "block",
        "Blocks",
        (
            Field("name", "Block", "nine-patch"),
            Field("rows", "Rows from the top", "A B A\nB A B\nA B A", lines=4, when=("ready_made", ("",))),
            Field("finished", "Finishes", "9", metric="22.5", unit="in"),
            Field("count", "How many", "12"),
            Field("trim_to", "Trimmed to", "9 1/2", metric="24", rare=True, unit="in"),
            Field("ready_made", "Ready made", choices=("", YES), rare=True),
            Field("size", "As it measures", "9 1/2", metric="24", when=("ready_made", (YES,)), unit="in"),
        ),
        named=True,
        one="a block",
    ),
    Group(
        "setting",
        "Setting",
        (
            Field("style", "Set", choices=("straight", "on point")),
            Field("across", "Blocks across", "5"),
            Field("down", "Blocks down", "6"),
            Field("block", "Block", "nine-patch", offers="block"),
            Field("alternate", "Alternate block", rare=True, offers="block"),
            Field("rows", "or every block, in rows from the top", "A B A\nB A B", rare=True, lines=4),
            Field("between", "On point: the rows between", "B B", rare=True, lines=3),
            Field("columns", "or in columns from the left", "A A A\nB B B", rare=True, lines=4),
            Field(
                "floating",
                "Floats inside the edge",
                "1/2",
                metric="1",
                rare=True,
                when=("style", ("on point",)),
                unit="in",
            ),
        ),
        many=False,
    ),
    Group(
        "setting.sides",
        "Side triangles",
        (
            *_edge(corner=False),
            Field("frame", "Framed by: left, below", "F, G", rare=True, offers="part"),
            Field("tip", "Tips that end sashing rows", rare=True, offers="part"),
        ),
        many=False,
        on_point=True,
    ),
    Group(
        "setting.corners",
        "Corner triangles",
        (
            *_edge(corner=True),
            Field("frame", "Framed by: long edge, or left, below", "F", rare=True, offers="part"),
        ),
        many=False,
        on_point=True,
    ),
    Group(
        "setting.sashing",
        "Sashing",
        (
            Field("part", "Cut as", "sash", offers="part"),
            Field("cornerstone", "Cornerstones", "stone", offers="part"),
            Field("strip", "or long strips, the shortest first", rare=True, offers="part"),
            Field("around", "Round the outside too", choices=("", NO), rare=True),
            Field("edge", "Edge of an on-point quilt", choices=("", "half", "whole"), rare=True),
            Field("edge_cornerstone", "Halved by the edge, as triangles", rare=True, offers="part"),
        ),
        many=False,
        one="sashing",
    ),
    Group(
        "border",
        "Borders, from the inside",
        (
            Field("sides", "Left and right", "border", offers="part"),
            Field("top", "Top and bottom", "border", offers="part"),
            Field("sides_length", "Left and right cut to", "60 1/2", metric="150", rare=True, unit="in"),
            Field("top_length", "Top and bottom cut to", "54 1/2", metric="140", rare=True, unit="in"),
            Field("corner", "Corner squares", rare=True, offers="part"),
            Field("only", "On these edges alone", "top", rare=True),
            Field("ends", "Corners", choices=("butted", "mitred"), rare=True),
            Field("first", "Sewn first", choices=("sides", "top"), rare=True),
            Field("triangles", "or four triangles", rare=True, offers="part"),
        ),
        one="a border",
    ),
    Group(
        "binding",
        "Binding",
        (
            Field("fabric", "Fabric", "navy", offers="fabric"),
            Field("strip", "Strip width", "2 1/2", metric="6.5", unit="in"),
            Field("count", "Strips", "7"),
            Field("length", "or length in all", "340", metric="860", rare=True, unit="in"),
            Field("part", "or cut as", "border", rare=True, offers="part"),
            Field("style", "Cut", choices=("straight", "bias"), rare=True),
            Field("join", "Joined", choices=("", "diagonal", "straight"), rare=True),
        ),
        many=False,
        one="binding",
    ),
    Group(
        "backing",
        "Backing",
        (
            Field("size", "Size", "72 x 84", metric="180 x 215", unit="in"),
            Field("bought", "or length bought", "4 1/2 yd", metric="4.2 m"),
            Field("usable_width", "Usable width", "42", metric="107", rare=True, unit="in"),
            Field("panels", "Lengths side by side", "2", rare=True),
            Field("fabric", "Fabric", "muslin", rare=True, offers="fabric"),
        ),
        many=False,
        one="backing",
    ),
    Group(
        "batting",
        "Batting (wadding)",
        (
            Field("size", "Size", "72 x 90", metric="180 x 230", unit="in"),
            Field("bought", "or length bought", "2 1/4 yd", metric="2.5 m", rare=True),
            Field("usable_width", "Width of the roll", "90", metric="230", rare=True, unit="in"),
            Field("fabric", "Fabric", "cotton", rare=True, offers="fabric"),
        ),
        many=False,
        one="batting",
    ),
)
BY_KEY = {group.key: group for group in GROUPS}
DEFAULTS = {
    "how": "plain",
    "cut": "whole",
    "ends": "butted",
    "units": "in",
    "kind": "half-square",
    "style": "straight",
    "first": "sides",
}


def empty() -> Typed:
    """A form with nothing in it: {group key: list of lines}, each line a dict of text."""
    return {group.key: [blank(group)] for group in GROUPS}


def blank(group: Group) -> Line:
    """One empty line of a group, its choices at what is usual."""
    return {field.key: default(field) for field in group.fields} | {KEPT: ""}


def default(field: Field) -> str:
    """What stands in a field in which nothing has been typed or chosen.

    >>> default(BY_KEY["cut"].fields[4]), default(BY_KEY["cut"].fields[0])
    ('whole', '')
    """
    return DEFAULTS.get(field.key, "") if field.choices else ""


def says(group: Group, line: Mapping[str, str], *keys: str) -> bool:
    """Whether anything else than what is usual stands in a line, or in these fields of it.

    >>> fabric = BY_KEY["fabric"]
    >>> says(fabric, blank(fabric)), says(fabric, blank(fabric) | {"bought": "2 yd"})
    (False, True)
    """
    return bool(line.get(KEPT) and not keys) or any(
        line[field.key].strip() != default(field) for field in group.fields if field.key in keys or not keys
    )


def shown_fields(group: Group, lines: list[Line], asked: frozenset[str] = frozenset()) -> list[Field]:
    """The fields of a group that its lines need, and those that were asked for.

    >>> [field.key for field in shown_fields(BY_KEY["batting"], [blank(BY_KEY["batting"])])]
    ['size']
    """
    return [
        field
        for field in group.fields
        if any(says(group, line, field.key) for line in lines)
        or (not field.rare or field.key in asked)
        and any(field.fits(line) for line in lines)
    ]
