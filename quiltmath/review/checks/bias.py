"""Bias on the outside of a quilt, reckoned in runs along its edge, and judged by what is sewn to it next."""

from __future__ import annotations

import re
from collections.abc import Iterable
from fractions import Fraction
from typing import TYPE_CHECKING, NamedTuple

from ...pattern.names import CORNER, SIDE, all_in, centre
from ...sewing import CannotSew
from ...shapes import beyond, line_through, off_grain
from ..finding import ByNotebook, ByProof
from .check import SLACK, Check, blamed, ruler, some

if TYPE_CHECKING:
    from ...pattern.sheet import Sheet
    from ...sewing import Panel

BIAS_FROM = 22.5  # degrees off grain from which an edge stretches; halfway between thread and true bias
STAY = Fraction(1, 8)  # inches: how far inside the edge a line of stay-stitching runs (common practice)
STAY_STITCHED = r"stay.?stitch"
MOSTLY = 0.9  # of the bias: so much comes of one cause, which is then the one to tell
LONG_BIAS = 5.0  # inches: a shorter run of bias lies between straight edges that hold it, as at a trimmed cornerstone


class BiasOutside(Check):
    """Bias on the outside of a block or of the quilt, and how much of it."""

    name, title = "bias-outside", "The outside lies on stretchy bias"
    repair, why = (
        "plan the pieces so that the outer edge follows the straight grain",
        ByNotebook("05-bias-on-the-outside"),
    )
    after = ("wrong-triangles",)
    question = (
        "The outside of the quilt lies on the bias ({printed}). Is that meant, and how is it kept from stretching?"
    )
    picture = "bias"

    def findings(self, reading, earlier):
        made = reading.made
        of = ruler(made)
        top = made.centre
        if top is None or any(all_in(made.sheet, kind) & blamed(earlier) for kind in (SIDE, CORNER)):
            return
        edges = top.raw_edges()
        whole = sum(edge.length for edge in edges)
        runs = _bias_runs(edges, made.seam)
        if 2 * sum(run.length for run in runs) < whole:
            runs = [run for run in runs if not run.is_held(min(LONG_BIAS, max(top.size) / 2))]
        bias = [edge for run in runs for edge in run.edges]
        length = sum(edge.length for edge in bias)
        if not bias:
            return
        border = _held_by(made.sheet)
        level, words = ("note", _sewn_to(of, border)) if border else _left_open(made, of)
        edge = "the edge of the top" if border else "the quilt's outer edge"
        yield self.finding(
            made,
            ["setting", "sides"] if _cut_past(made) else ["setting"],
            f"{of.said(length)} of {edge} ({round(100 * length / whole)} % of it, on {some(ways_faced(bias), 'side')}) "
            f"lies on the bias{words}",
            f"{of.said(length)} on the bias",
            "the outside on straight grain",
            level=level,
            why=ByProof("half_squares_four") if _by_fours(made) else None,
            panel=centre(made.sheet),
            spots=tuple(((a + c) / 2, (b + d) / 2) for (a, b), (c, d) in ((edge.start, edge.end) for edge in bias)),
        )


def _held_by(sheet):
    """The strips of straight grain that are sewn to the edge of the top all round, in words; "" where there are
    none."""
    first = sheet.border[0] if sheet.border else None
    return "" if first is None or first.triangles is not None or len(first.edges) < 4 else "border 1"


def _sewn_to(of, border):
    """What to do about bias that straight grain is sewn to next."""
    return (
        f", until {border} holds it. {_stay_stitched(of)}, handle it gently, measure the top through its middle, cut "
        "the strips on the straight grain to that, and ease the edge to them."
    )


def _left_open(made, of):
    """(level, what to do) about bias that nothing holds but the binding."""
    if _by_fours(made):
        return "ask", (
            ": half-square triangles made four at a time have bias on all their outer edges. Starch the fabric before "
            f"you cut, press without pushing, and {_stay_stitched(of).lower()} of the quilt top; or add a border of "
            "straight grain."
        )
    if _cut_past(made):
        kept = ": side triangles cut from whole blocks keep their points, but their long edges are bias. "
        if stay_stitched(made.sheet):
            return (
                "note",
                f"{kept}The pattern has them stay-stitched: handle them gently, and bind or border them soon.",
            )
        return "ask", (
            f"{kept}Stay-stitch {of.said(STAY)} inside the line before each cut, and add a border soon; or build the "
            "triangles from squares and end triangles."
        )
    return "stop", f" and will stretch and wave as soon as it is handled. {_remedy(made)}"


def _stay_stitched(of):
    return f"Stay-stitch {of.said(STAY)} inside the edge"


def _cut_past(made):
    """Whether side triangles are halves of blocks that were cut a seam past their diagonal."""
    sides = made.sheet.setting.sides
    return sides is not None and sides.how == "cut blocks" and float(sides.past) >= made.seam - SLACK


def stay_stitched(sheet: Sheet) -> bool:
    """Whether the pattern's instructions tell to stay-stitch."""
    return any(re.search(STAY_STITCHED, line[:500].lower()) for line in sheet.instructions)


def _remedy(made):
    """How the outside comes to lie on the straight grain, by what puts it on the bias."""
    sheet = made.sheet
    if any(step.cut is not None for step in sheet.step) and sheet.setting.style == "straight":
        return (
            "Lay the blocks so that the outside follows the straight grain: on point from the start, with side "
            "triangles cut twice."
        )
    halved = [
        words
        for words, piece in (("side", sheet.setting.sides), ("corner", sheet.setting.corners))
        if piece is not None and piece.how == "cut blocks"
    ]
    if halved:
        return (
            f"Build the {' and '.join(halved)} triangles from squares and end triangles, whose outer edges lie on the "
            "straight grain."
        )
    parts = ", ".join(map(repr, sorted(parts_on_bias(made.centre))))
    return f"Cut {parts} so that the edge that comes to the outside lies along a thread of the fabric."


def _by_fours(made):
    """Whether the bias comes of half-squares made four at a time."""
    fours = {
        part
        for unit in made.sheet.unit.values()
        if unit.kind == "half-square" and unit.at_a_time == 4
        for part in unit.parts
    }
    found = parts_on_bias(made.centre) if fours else {}
    return bool(found) and sum(found.get(part, 0.0) for part in fours) > MOSTLY * sum(found.values())


def parts_on_bias(panel: Panel, facing: Iterable[str] | None = None) -> dict[str, float]:
    """Inches of bias on the raw edges of a panel, those alone that face these ways if they are named, by the part whose
    edge it is."""
    found: dict[str, float] = {}
    edges = None if facing is None else [edge for edge in map(_edge_of(panel), facing) if edge is not None]
    for (start, end), owner in zip(panel.raw, panel.owner):
        if off_grain(start, end, panel.grains[owner]) < BIAS_FROM:
            continue
        if edges is None or any(_lies_on(edge, start, end) for edge in edges):
            part = panel.cuts[owner].part
            found[part] = found.get(part, 0.0) + float(((end - start) ** 2).sum() ** 0.5)
    return found


def _edge_of(panel):
    """The edge of a panel that faces a way, None where none does: why not is said elsewhere."""

    def edge(which):
        try:
            return panel.edge(which)
        except CannotSew:
            return None

    return edge


def _lies_on(edge, start, end):
    """Whether a raw edge lies on an edge of its panel."""
    (a, b), _ = line_through(start, end)
    level = abs(float(beyond(start, edge.normal, edge.limit))) < 1e-3
    return level and a * edge.normal[0] + b * edge.normal[1] > 0.999


class _Run(NamedTuple):
    """A run of bias along the outside: its edges, and the lengths (inches) of the straight edges before and after
    it."""

    edges: tuple
    before: float
    after: float

    @property
    def length(self):
        """Its length in inches."""
        return sum(edge.length for edge in self.edges)

    def is_held(self, most):
        """Whether straight edges hold it: a short run, or one up to twice that between edges at least half as long as
        it."""
        held = 2 * min(self.before, self.after) > self.length
        return self.length <= most or (self.length <= 2 * most and held)


def _bias_runs(edges, seam):
    """The runs of bias in a walk of raw edges round the cloth; ears where setting triangles meet do not part them."""
    walk = [edge for edge in edges if edge.length > 2 * seam]
    found = [(edge.off_grain >= BIAS_FROM, edge) for edge in walk]
    starts = [
        number for number in range(len(found)) if found[number][0] != found[number - 1][0] or _turns(walk, number)
    ]
    if not starts:
        return [_Run(tuple(walk), 0.0, 0.0)] if found and found[0][0] else []
    found = found[starts[0] :] + found[: starts[0]]
    walk = [edge for _, edge in found]
    groups = []
    for number, (on_bias, edge) in enumerate(found):
        if number and groups[-1][0] == on_bias and not _turns(walk, number):
            groups[-1][1].append(edge)
        else:
            groups.append((on_bias, [edge]))
    straight = [0.0 if on_bias else sum(edge.length for edge in group) for on_bias, group in groups]
    return [
        _Run(tuple(group), straight[number - 1], straight[(number + 1) % len(groups)])
        for number, (on_bias, group) in enumerate(groups)
        if on_bias
    ]


def _turns(walk, number):
    """Whether an edge faces another way than the one before it."""
    (one, _), (two, _) = (line_through(edge.start, edge.end) for edge in (walk[number - 1], walk[number]))
    return one[0] * two[0] + one[1] * two[1] < 0.9


def ways_faced(edges):
    """How many different ways the edges face."""
    ways = []
    for edge in edges:
        normal, _ = line_through(edge.start, edge.end)
        if not any(normal[0] * x + normal[1] * y > 0.99 for x, y in ways):
            ways.append(normal)
    return len(ways)
