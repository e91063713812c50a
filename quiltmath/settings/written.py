"""A plan written as a pattern sheet: what the planner wishes, in the words a pattern has, its sizes from what each part
needs."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING, Any

from pydantic import ValidationError

from .. import lengths, making
from ..making.need import Need, triangle
from ..pattern.sheet import Sheet
from ..root2 import Root2
from . import built
from .borders import around
from .pieced import Pieced

if TYPE_CHECKING:
    from .plan import Planned

ANY = Fraction(1)  # stands in the draft of a sheet for a size or a count that its needs will tell
FRAMED = "framed"
SHORT, LONG = "short frame strip", "long frame strip"
END_FRAME = ("first end frame strip", "second end frame strip")
CORNER_FRAME = "corner frame strip"


def sheet(plan: Planned) -> Sheet:
    """The sheet of a plan: drafted from its wish, then given the sizes and counts that `making` says its parts need.

    Refused, with the reason, where a sheet cannot say it.
    """
    draft = _Draft(plan)
    draft.write()
    try:
        found = Sheet.model_validate(
            draft.data, context={"units": "in"}
        )  # a draft's lengths are inches, whatever it prints
    except ValidationError as problem:
        error = problem.errors(include_url=False)[0]
        where = ".".join(map(str, error["loc"]))
        raise ValueError(f"this plan cannot be written as a pattern sheet: {where}: {error['msg']}") from None
    made = making.Made(found)
    cuts = [_cut(cut, made.needs[cut.part]) for cut in found.cut if made.bill[cut.part]]
    return found.model_copy(update={"cut": cuts})


def _cut(cut, need):
    """A line of the draft's cutting list as it must be printed."""
    sides = [_printed(need, number) for number in range(len(need.sides))]
    return cut.model_copy(update={"size": tuple((sides * 2)[:2]), "count": need.squares})


def _printed(need, number):
    """One side of a need as it is printed: exact where it is a fraction of an inch, else up to the ruler's next
    step."""
    exact = need.number(number)
    return exact.plain if need.cut == "whole" and not exact.root else need.size[number]


class _Draft:
    """The tables of a sheet being written for one plan."""

    def __init__(self, plan: Any) -> None:
        self.plan = plan
        self.cuts: dict[str, dict[str, Any]] = {}
        self.data: dict[str, Any] = {
            "title": plan.title,
            "units": "in" if plan.unit == "in" else "cm",
            "seam": plan.seam,
            "finished": plan.printed_size,
            "unit": {},
            "block": {},
            "setting": {},
            "border": [],
        }

    def write(self):
        """Fill the tables."""
        plan = self.plan
        main = Pieced(plan.block)
        block = self.block(main)
        setting = {"style": plan.style, "across": plan.across, "down": plan.down, "block": block}
        if plan.alternate_blocks and plan.alternate is not plan.block:
            same = plan.alternate.name == plan.block.name
            setting["alternate"] = self.block(
                Pieced(plan.alternate, f"alternate {plan.alternate.name}" if same else None)
            )
        if plan.sashing:
            setting["sashing"] = self.sashing()
        if plan.style == "on point":
            setting |= self.edges(main, block)
        self.data["setting"] = setting
        self.data["border"] = [self.border(number) for number in range(len(plan.borders))]
        self.data["cut"] = list(self.cuts.values())

    def cut(self, part, fabric, way="whole", finished=None, size=(ANY, ANY)):
        """A line of the cutting list, its size and count still to be told; parts cut alike are one line. Gives its
        part."""
        if finished is not None:
            size = tuple(side + 2 * self.plan.seam for side in finished)
        line = {"part": part, "fabric": fabric, "size": size, "count": 1, "cut": way, "finished": finished}
        self.cuts.setdefault(part, {key: value for key, value in line.items() if value is not None})
        return part

    # -- blocks ------------------------------------------------------------------------------------------------------

    def block(self, pieced):
        """A block, framed if the plan frames its blocks. Gives the name of what is set."""
        for part, (fabric, way, finished) in pieced.parts.items():
            self.cut(part, fabric, way, finished)
        name, size = pieced.name, pieced.block.size
        if not pieced.block.is_plain:
            self.data["unit"] |= pieced.units
            self.data["block"][name] = {"rows": pieced.rows, "finished": (size, size)}
        width = self.plan.frame
        if not width:
            return name
        cloth, whole = self.plan.fabric("frame"), size + 2 * width
        self.cut(SHORT, cloth, finished=(width, size))
        self.cut(LONG, cloth, finished=(width, whole))
        long = [{"name": LONG, "turn": 90}]
        self.data["block"][f"{FRAMED} {name}"] = {
            "rows": [long, [SHORT, name, SHORT], long],
            "finished": (whole, whole),
        }
        return f"{FRAMED} {name}"

    # -- what lies between them --------------------------------------------------------------------------------------

    def sashing(self):
        """The sashing's table; None for a single row or column with nothing between its blocks."""
        plan, lies = self.plan, self.plan.layout
        cloth, width = plan.fabric("sashing"), plan.sashing
        table = {"edge": plan.edge} if plan.layout.on_point else {"around": plan.around}
        names = []
        if lies.sashes:
            table["part"] = self.cut("sash", cloth, finished=(width, plan.cell))
        if lies.strips:
            strip = (width + 2 * plan.seam, width + 2 * plan.seam + ANY)
            several = len(set(lies.strip_reaches))
            names = ["sashing strip", *(f"sashing strip {number}" for number in range(2, several + 1))]
            names = [self.cut(name, cloth, size=strip) for name in names]
        if not (lies.sashes or lies.strips):
            return None
        if lies.cornerstones:
            return table | self.cornerstones(width, lies)
        table.setdefault("part", (names or ["sash"])[0])
        return table | {"strip": names or ["sash"]}

    def cornerstones(self, width, lies):
        """What a sheet says of the squares where sashes cross, and of the triangles where the edge would halve them."""
        cloth, whole = self.plan.fabric("cornerstone"), lies.cornerstones - lies.halved_cornerstones
        halved = self.cut("cornerstone triangle", cloth, "twice") if lies.halved_cornerstones else None
        square = self.cut("cornerstone", cloth, finished=(width, width)) if whole else halved
        return {"cornerstone": square, "edge_cornerstone": halved}

    # -- the edge of a quilt on point --------------------------------------------------------------------------------

    def edges(self, main, block):
        """How its setting triangles come about."""
        plan, cloth = self.plan, self.plan.fabric("setting")
        if plan.edges == "half blocks":
            piece = {"how": "cut blocks", "past": plan.seam, "block": block}
            return {"sides": piece, "corners": piece} if plan.layout.side_triangles else {"corners": piece}
        if plan.edges.startswith("built"):
            found = self.built(main)
        else:
            found = {"sides": {"part": "side triangle"}, "corners": {"part": "corner triangle"}}
            self.cut("side triangle", cloth, "twice")
            self.cut("corner triangle", cloth, "once")
            if plan.edges == "framed":
                frame = plan.fabric("frame"), (plan.frame + 2 * plan.seam, plan.frame + 2 * plan.seam + ANY)
                found["sides"]["frame"] = [self.cut(name, frame[0], size=frame[1]) for name in END_FRAME]
                found["corners"]["frame"] = [self.cut(CORNER_FRAME, frame[0], size=frame[1])]
        if plan.layout.tips:
            found["sides"]["tip"] = self.cut("triangle tip", cloth, "twice")
        if not plan.layout.side_triangles:
            del found["sides"]
        return found | ({"floating": plan.floating} if plan.floating else {})

    def built(self, main):
        """Side and corner triangles built from the squares of the block."""
        names, bias = main.squares, self.plan.edges == "built, bias outside"
        side = self.plan.block.size / len(names)
        for end in built.ends(names):
            way = "once" if bias or end.tip else "twice"
            long = Root2(root=side * Fraction(1, 2)) if end.tip else Root2(side) if bias else Root2(root=side)
            need = Need(end.part, "", 1, way, triangle(way, long), self.plan.seam, self.plan.unit)
            finished = (side, side) if bias and not end.tip else None
            self.cut(end.part, main.parts[end.square][0], way, size=need.size * 2)
            if finished:
                self.cuts[end.part]["finished"] = finished
        return {key: built.edge_piece(names, kind) for key, kind in built.KINDS.items()}

    # -- round it ----------------------------------------------------------------------------------------------------

    def border(self, number):
        """The table of one border, counted from 0."""
        plan, one, name = self.plan, self.plan.borders[number], f"border {number + 1}"
        if one.triangles:
            return {"triangles": self.cut(f"{name} triangle", one.fabric, "once")}
        inside = around(plan.top_size, plan.borders[:number])
        long = [lengths.ruler(side, "1/64") + 2 * plan.seam for side in (inside[1], inside[0])]
        if one.ends == "butted":
            long[1 if one.first == "sides" else 0] += 2 * one.width
        else:  # each reaches from corner to corner
            long = [side + 2 * one.width for side in long]
        strips = {
            key: self.cut(f"{name} {where} strip", one.fabric, size=(one.width + 2 * plan.seam, length))
            for key, where, length in (("sides", "side", long[0]), ("top", "top", long[1]))
        }
        return {**strips, "ends": one.ends, "first": one.first}
