"""Bias on the outside of a quilt, reckoned in runs along its edge."""

from typing import NamedTuple

from ...pattern.names import CORNER, SIDE, all_in, centre
from ...shapes import line_through
from ..finding import ByNotebook
from .check import SLACK, Check, blamed, ruler, some

BIAS_FROM = 22.5  # degrees off grain from which an edge stretches; halfway between thread and true bias
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
        sides = ways_faced(bias)
        past = made.sheet.setting.sides
        if past is not None and past.how == "cut blocks" and float(past.past) >= made.seam - SLACK:
            yield self.finding(
                made,
                ["setting", "sides"],
                f"Side triangles cut from whole blocks keep their points, but {of.said(length)} of the outer "
                "edge lies on the bias. Stay-stitch an eighth of an inch inside the line before each cut, and add a "
                "border soon; or build the triangles from squares and edge triangles.",
                f"{of.said(length)} on the bias",
                "the outside on straight grain",
                level="ask",
                panel=centre(made.sheet),
            )
            return
        yield self.finding(
            made,
            ["setting"],
            f"{of.said(length)} of the quilt's outer edge ({round(100 * length / whole)} % of it, on "
            f"{some(sides, 'side')}) lies on the bias and will stretch and wave as soon as it is handled. Lay the "
            "blocks so that the outside follows the straight grain: on point from the start, with side triangles cut "
            "twice.",
            f"{of.said(length)} on the bias",
            "the outside on straight grain",
            panel=centre(made.sheet),
            spots=tuple(((a + c) / 2, (b + d) / 2) for (a, b), (c, d) in ((edge.start, edge.end) for edge in bias)),
        )


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
    """The runs of bias in a walk of raw edges round the cloth; the ears where edge triangles meet do not part them."""
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
